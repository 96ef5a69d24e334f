package chart

import (
	"cmp"
	"slices"

	"gaugesheet/layout"
)

// A headWord is a word over the bars: a zone's, or a limit's by its line.
type headWord struct {
	text  string
	row   int // from the bars up
	x, w  layout.Length
	line  layout.Length // where a limit's line stands
	limit bool
}

func (h headWord) covers(x layout.Length) bool { return h.x-gap < x && x < h.x+h.w+gap }

func (h headWord) meets(o headWord) bool {
	return h.row == o.row && h.x < o.x+o.w+2*gap && o.x < h.x+h.w+2*gap
}

// layHead sets each zone's word at the zone's left end, where the zone has room
// for it, then the limits by their lines.
func (r *Ruler) layHead() {
	limits := slices.Clone(r.Limits)
	slices.SortStableFunc(limits, func(a, b Limit) int { return cmp.Compare(a.Value, b.Value) })
	zones := r.zoneWords()
	for rows := 1; ; rows++ {
		if head, ok := r.setLimits(limits, zones, rows); ok {
			r.head = head
			break
		}
	}
	for _, h := range r.head {
		r.rows = max(r.rows, h.row+1)
	}
}

// leastGap is how near the line at the end of its zone a word may stand.
const leastGap layout.Length = 1.2

// zoneWords are the words of zones, each at its zone's left end or behind the
// lines of limits that stand there.
func (r *Ruler) zoneWords() (words []headWord) {
	for i, z := range r.Zones {
		from, to := r.zoneEnds(i)
		h := headWord{text: z.Word, x: from, w: r.theme.Measurer.Width(z.Word, r.theme.Face(layout.Label))}
		if i > 0 {
			h.x += max(min(gap, (to-from-h.w)/2), leastGap)
		}
		for _, l := range r.Limits {
			if line := r.x(usable(l.Value)); line > from+0.5 && h.covers(line) {
				h.x = line + gap
			}
		}
		after := len(words) == 0 || h.x >= words[len(words)-1].x+words[len(words)-1].w+gap
		if h.text != "" && h.x+h.w+leastGap <= to && after {
			words = append(words, h)
		}
	}
	return words
}

// setLimits puts the words of limits into rows, the lowest first: over the line
// or beside it, so that no words stand across the line of another limit. With
// rows to spare each may have one for itself, whatever it stands across.
func (r *Ruler) setLimits(limits []Limit, done []headWord, rows int) ([]headWord, bool) {
	if len(limits) == 0 {
		return done, true
	}
	w := r.theme.Measurer.Width(limits[0].Text, r.noteFace())
	line := r.x(usable(limits[0].Value))
	anywhere := rows > len(r.Limits)+1
	for row := range rows {
		for _, x := range []layout.Length{line - w/2, line + gap, line - gap - w} {
			if anywhere {
				x = max(min(x, r.width-w), 0)
			}
			h := headWord{text: limits[0].Text, row: row, x: x, w: w, line: line, limit: true}
			if !anywhere && (x < 0 || x+w > r.width || r.across(h)) || slices.ContainsFunc(done, h.meets) {
				continue
			}
			if head, ok := r.setLimits(limits[1:], append(slices.Clone(done), h), rows); ok {
				return head, true
			}
		}
	}
	return nil, false
}

// across reports words that stand across the line of another limit.
func (r *Ruler) across(h headWord) bool {
	return slices.ContainsFunc(r.Limits, func(l Limit) bool {
		x := r.x(usable(l.Value))
		return x != h.line && h.covers(x)
	})
}

// headRow is the height of a row of words over the bars.
func (r *Ruler) headRow() layout.Length {
	f := r.theme.Face(layout.Label)
	return r.theme.Measurer.Ascent(f) + r.theme.Measurer.Descent(f)
}

func (r *Ruler) headHeight() layout.Length { return layout.Length(r.rows) * r.headRow() }

// drawHead draws the words over the bars, and the lines of limits up to theirs.
func (r *Ruler) drawHead(s layout.Surface, area, body layout.Rect) {
	for _, h := range r.head {
		face := r.theme.Face(layout.Label)
		if h.limit {
			face = r.noteFace()
		}
		bottom := body.Y - layout.Length(h.row)*r.headRow()
		s.Text(layout.Point{X: area.X + h.x, Y: bottom - s.Descent(face)}, h.text, face, r.theme.Ink)
	}
}

// lineTop is how far over the bars the line of a limit goes: up to its words,
// where no others are in its way.
func (r *Ruler) lineTop(h headWord) layout.Length {
	rows := h.row
	if h.line <= h.x || h.line >= h.x+h.w {
		rows++ // beside its words, not under them
	}
	for _, o := range r.head {
		if o != h && o.row < rows && o.covers(h.line) {
			return 0
		}
	}
	return layout.Length(rows) * r.headRow()
}

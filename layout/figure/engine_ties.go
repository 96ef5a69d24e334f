package figure

import (
	"strings"

	"gaugesheet/layout"
)

// tied gives the two rows that a tie is of, the upper one first; ok is false
// where they do not follow one another in these rows.
func (r *rowSet) tied(t *Tie) (upper, lower barRow, ok bool) {
	for i := 1; i < len(r.rows); i++ {
		a, b := r.rows[i-1], r.rows[i]
		if t.Cylinders == [2]int{a.cylinder, b.cylinder} || t.Cylinders == [2]int{b.cylinder, a.cylinder} {
			return a, b, true
		}
	}
	return upper, lower, false
}

// tieLines is how many lines the words of a tie are set on.
const tieLines = 2

// tieHeight is the room between two rows that the words of a tie need, beside
// the words of the rows themselves.
func tieHeight(g *engineDrawing) layout.Length {
	return tieLines*lineHeight(g.label) + lineHeight(g.word) + tight
}

// tieText is the words of a tie, on two lines.
func (g *engineDrawing) tieText(t *Tie) layout.Text {
	return layout.Wrap(g.t.Measurer, g.tieWidth(t), layout.Run{Text: t.Text, Face: g.label, Color: g.t.Ink})
}

// tieWidth is the least width in which the words of a tie go on two lines: a
// little over half of them, and no less than the longest word.
func (g *engineDrawing) tieWidth(t *Tie) layout.Length {
	whole, longest := g.t.Measurer.Width(t.Text, g.label), layout.Length(0)
	for _, w := range strings.Fields(t.Text) {
		longest = max(longest, g.t.Measurer.Width(w, g.label))
	}
	return min(whole, whole/2+longest)
}

// tieStart is where the words of a tie may begin: beyond both of its bars, in
// parts of the scale.
func (r *rowSet) tieStart(s *rowSlot, upper, lower barRow) layout.Length {
	far := layout.Length(0)
	for _, row := range []barRow{upper, lower} {
		if b := r.g.bar(row, s.index); b != nil {
			far = max(far, s.farEnd(b))
		}
	}
	if b := r.g.bar(upper, s.index); b != nil {
		for _, m := range b.Marks {
			far = max(far, s.part(m.Value))
		}
	}
	return far
}

// tieMarks is the room that the values of marks between two rows take.
func (r *rowSet) tieMarks(s *rowSlot, upper barRow) layout.Length {
	w := layout.Length(0)
	if b := r.g.bar(upper, s.index); b != nil && r.valued {
		for _, m := range b.Marks {
			w = max(w, markRoom(r.g.t, m.Text))
		}
	}
	return w
}

// drawTies draws each tie of these rows: a dot on the wall between the two
// cylinders, and a line from it to the words.
func (r *rowSet) drawTies(sf layout.Surface, x layout.Length, at func(cylinder int) layout.Point) {
	if len(r.slots) == 0 {
		return
	}
	s := &r.slots[0]
	for i := range r.g.d.Ties {
		tie := &r.g.d.Ties[i]
		upper, lower, ok := r.tied(tie)
		if !ok {
			continue
		}
		a, b := at(upper.cylinder), at(lower.cylinder)
		dot := layout.Point{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2}
		begin := x + r.sign*(s.base+r.tieStart(s, upper, lower)*s.length+r.tieMarks(s, upper)+medium)
		sf.Stroke(layout.Polyline(dot, layout.Point{X: begin - r.sign*tight, Y: dot.Y}), layout.Pen{Width: outline, Color: r.g.t.Ink})
		sf.Fill(layout.Circle(dot, 2), r.g.t.Ink)
		text := r.g.tieText(tie)
		if r.sign < 0 {
			begin -= text.W
		}
		patch(sf, r.g.t, layout.Rect{X: begin, Y: dot.Y - text.H/2, W: text.W, H: text.H})
		text.Draw(sf, layout.Point{X: begin, Y: dot.Y - text.H/2})
	}
}

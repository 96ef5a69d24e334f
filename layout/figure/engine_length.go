package figure

import (
	"math"
	"slices"

	"gaugesheet/layout"
)

// setLength finds the length of a scale so that the words beyond its bars have
// room, or gives the words up for their marks.
func (r *rowSet) setLength(s *rowSlot, p rowPlan) {
	needs := s.limitNeeds(r.g.t)
	_, texts := ticks(0, s.top, 4)
	needs = append(needs, need{1, r.g.t.Measurer.Width(texts[len(texts)-1], tickFace(r.g.t))/2 + 1})
	if r.valued {
		r.eachBar(s, func(_ barRow, b *CylinderBar) {
			for i, m := range b.Marks {
				if s.outward(b.Marks, i) {
					needs = append(needs, need{s.part(m.Value), markRoom(r.g.t, m.Text)})
				}
			}
		})
	}
	worded, fits := slices.Clone(needs), !r.g.alike(s.index)
	r.eachBar(s, func(_ barRow, b *CylinderBar) {
		switch w := r.g.wordWidth(b); {
		case w == 0:
		case b.Text == "":
			fits = fits && w+tight+1 <= s.room
		default:
			fits = fits && w+small+tight <= s.room
		}
	})
	if p.ties && s.index == p.scales[0] {
		for i := range r.g.d.Ties {
			if upper, lower, ok := r.tied(&r.g.d.Ties[i]); ok {
				n := need{r.tieStart(s, upper, lower), r.g.tieWidth(&r.g.d.Ties[i]) + medium + r.tieMarks(s, upper)}
				if n.extra > s.room*0.6 {
					r.g.tiesKeyed = true
					continue
				}
				needs, worded = append(needs, n), append(worded, n)
			}
		}
	}
	s.needs = worded
	bare := scaleLength(s.room, append(needs, need{1, markSize(r.g.t, r.g.word) + small}))
	s.length = r.wordedLength(s, scaleLength(s.room, worded))
	s.worded = fits && s.length >= min(leastBar, s.room*0.5) && s.length >= bare*leastWorded
	if !s.worded {
		s.length = bare
	}
}

// alike reports a scale of which every bar of three and more has the same words: what
// its pattern means stands under the figure, and the rows need not say it each.
func (g *engineDrawing) alike(scale int) bool {
	word, n := "", 0
	for i := range g.d.Cylinders {
		for _, b := range barsOf(&g.d.Cylinders[i], scale) {
			if n > 0 && b.Word != word || b.Text == "" {
				return false
			}
			word = b.Word
			n++
		}
	}
	return word != "" && n >= 3
}

// leastWorded is the part of its length down to which a scale gives way to the words
// beyond its bars: bars that nobody can compare are worth less than words.
const leastWorded = 0.6

// wordedLength is how long a scale can be, up to a length, so that the words of every
// bar have room: before the next limit where they fit there, else beyond all of them.
func (r *rowSet) wordedLength(s *rowSlot, length layout.Length) layout.Length {
	for range r.rows {
		needs := slices.Clone(s.needs)
		s.length = length
		r.eachBar(s, func(_ barRow, b *CylinderBar) {
			if w := r.g.wordWidth(b); w > 0 && b.Text != "" {
				at := r.wordsBegin(s, b)
				needs = append(needs, need{at.part, at.extra + w + tight})
			}
		})
		next := min(length, scaleLength(s.room, needs))
		if next >= length {
			break
		}
		length = next
	}
	return length
}

// wordsBegin is where the words of a bar begin on the scale as long as it is: right
// behind the bar where they fit before the limit that comes next, else beyond all
// that stands there.
func (r *rowSet) wordsBegin(s *rowSlot, b *CylinderBar) need {
	end := max(s.part(b.Value), s.part(b.Upto))
	room := layout.Length(math.Inf(1))
	for _, l := range s.limits() {
		if p := s.part(l.Value); p > end {
			room = min(room, (p-end)*s.length)
		}
	}
	far := r.farEnd(s, b)
	if far.part > end && len(b.Marks) == 0 && small+r.g.wordWidth(b)+small <= room {
		return need{end, small}
	}
	return far
}

// leaveUnsaid notes the words of a scale that stand under the figure.
func (r *rowSet) leaveUnsaid(s *rowSlot) {
	if !s.worded {
		r.eachBar(s, func(_ barRow, b *CylinderBar) { r.g.leaveUnsaid(b) })
	}
}

// farEnd is where the words of a bar begin: a place on the scale, and clear of
// what stands there, which of a mark is half of it.
func (r *rowSet) farEnd(s *rowSlot, b *CylinderBar) need {
	far := need{s.farEnd(b), small}
	if !r.valued {
		for _, m := range b.Marks {
			if p := s.part(m.Value); p*s.room+1.15*markRadius > far.part*s.room {
				far = need{max(p, far.part), small + 1.15*markRadius}
			}
		}
	}
	return far
}

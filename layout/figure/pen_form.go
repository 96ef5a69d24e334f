package figure

import (
	"slices"

	"gaugesheet/layout"
)

// Measures of what is written in by hand. A box is never lower than the last
// of penRows, or narrower than penLeast.
var penRows = [...]layout.Length{layout.Full: 8 * layout.MM, layout.Compact: 7.5 * layout.MM, layout.Brief: 7 * layout.MM}

// penApart is the space above a part of a form.
var penApart = [...]layout.Length{layout.Full: 1.4 * layout.MM, layout.Compact: 1 * layout.MM, layout.Brief: 0}

const (
	penTick    = 3.5 * layout.MM // side of a box to tick
	penLeast   = 9 * layout.MM
	penPad     = 1.1 * layout.MM // between a box's edge and its words
	penStretch = 1.2 * layout.MM // by how much a row may grow on a page with room
)

// NewPenForm is a block "form:" with the name. Its rows get lower at compact
// and at brief.
func NewPenForm(d PenForm) layout.Block {
	return block{"form:" + d.Name, func(t layout.Theme, width layout.Length, level layout.Detail) layout.Frame {
		width -= thin // half a line at each side
		set := penSetting{t: t, level: level}
		set.named = set.namedWidth(slices.Concat(d.Steps, d.With), width)
		var frames []layout.Frame
		for start := 0; start < len(d.Steps); {
			end := start + 1
			for end < len(d.Steps) && d.Steps[end].Joins {
				end++
			}
			row := set.row(d.Steps[start:end], width)
			if d.Steps[start].Apart {
				row = inset(row, penApart[level], 0, 0, 0)
			}
			frames = append(frames, row)
			start = end
		}
		return inset(stack(0, frames...), thin/2, thin/2, thin/2, thin/2)
	}}
}

// A penSetting is what the rows of one form have in common.
type penSetting struct {
	t     layout.Theme
	level layout.Detail
	named layout.Length // width of the letters and names at the left, 0 for none
}

// letterWidth is the room of a step's letter, nameGap what is free behind its
// name. Names take at most mostNamed of the width.
const (
	letterWidth = 5.4 * layout.MM
	nameGap     = 2.2 * layout.MM
	mostNamed   = 0.4
)

// namedWidth is the room that the names at the left of a form need.
func (p penSetting) namedWidth(steps []PenStep, width layout.Length) (w layout.Length) {
	for _, s := range steps {
		if !s.Joins {
			w = max(w, p.nameWidth(s))
		}
	}
	return min(w, width*mostNamed)
}

// nameWidth is the room that a step's letter and names need; 0 for none.
func (p penSetting) nameWidth(s PenStep) layout.Length {
	w := max(p.t.Measurer.Width(s.Name, p.t.Face(layout.Strong)), p.t.Measurer.Width(s.When, p.t.Face(layout.Note)))
	if w == 0 {
		return 0
	}
	if s.Letter != "" {
		w += letterWidth
	}
	return w + nameGap + 0.01
}

// row sets steps beside one another in one line of boxes where there is room,
// else under one another, each in as many lines as its boxes need.
func (p penSetting) row(steps []PenStep, width layout.Length) layout.Frame {
	names := []layout.Length{p.named}
	boxes := steps[0].Boxes
	room := width - p.named
	for _, s := range steps[1:] {
		names = append(names, nameGap+p.nameWidth(s))
		boxes = append(boxes[:len(boxes):len(boxes)], s.Boxes...)
		room -= names[len(names)-1]
	}
	widths, fits := p.widths(boxes, room)
	if len(steps) == 1 || !fits {
		var frames []layout.Frame
		for _, s := range steps {
			frames = append(frames, p.behindName(s, p.named, 0, p.lines(s.Boxes, width-p.named)))
		}
		return stack(0, frames...)
	}
	var columns []column
	for i, s := range steps {
		var own layout.Length
		for _, w := range widths[:len(s.Boxes)] {
			own += w
		}
		indent := layout.Length(0)
		if i > 0 {
			indent = nameGap
		}
		columns = append(columns, column{names[i] + own, p.behindName(s, names[i], indent, p.line(s.Boxes, widths[:len(s.Boxes)]))})
		widths = widths[len(s.Boxes):]
	}
	return beside(0, columns...)
}

// behindName puts a step's boxes behind its letter and name, which begin after
// an indent.
func (p penSetting) behindName(s PenStep, named, indent layout.Length, boxes layout.Frame) layout.Frame {
	if named == 0 {
		return boxes
	}
	names := p.names(s, named-indent-nameGap, boxes.Height)
	whole := layout.Frame{Height: max(boxes.Height, names.Height), Stretch: boxes.Stretch}
	whole.Draw = func(surface layout.Surface, a layout.Rect) {
		names.Draw(surface, layout.Rect{X: a.X + indent, Y: a.Y, W: named - indent - nameGap, H: a.H})
		boxes.Draw(surface, layout.Rect{X: a.X + named, Y: a.Y, W: a.W - named, H: a.H})
	}
	return whole
}

// names is the letter, the name beside it and when under the name, in the
// middle of the height of the first line of boxes.
func (p penSetting) names(step PenStep, width, height layout.Length) layout.Frame {
	t := p.t
	letter, name, when := t.Face(layout.Title), t.Face(layout.Strong), t.Face(layout.Note)
	name.Close, when.Close = true, true
	x := layout.Length(0)
	if step.Letter != "" {
		x = letterWidth
	}
	names, whens := breakLines(t.Measurer, step.Name, name, width-x), breakLines(t.Measurer, step.When, when, width-x)
	need := layout.Length(len(names))*lineHeight(name) + layout.Length(len(whens))*lineHeight(when)
	return layout.Frame{Height: need, Draw: func(s layout.Surface, a layout.Rect) {
		y := a.Y + max(0, min(height, penRows[p.level])-need)/2
		set := func(lines []string, f layout.Face) {
			for _, l := range lines {
				s.Text(layout.Point{X: a.X + x, Y: baseline(s, f, y)}, l, f, t.Ink)
				y += lineHeight(f)
			}
		}
		layout.Tag{Kind: layout.Heading2}.Draw(s, func() {
			if step.Letter != "" {
				s.Text(layout.Point{X: a.X, Y: y + (lineHeight(name)+s.CapHeight(letter))/2 + 1}, step.Letter, letter, t.Ink)
			}
			set(names, name)
		})
		layout.Tag{Kind: layout.Paragraph}.Draw(s, func() { set(whens, when) })
	}}
}

// lines sets boxes in as many lines as they need, each as wide as the room.
func (p penSetting) lines(boxes []PenBox, room layout.Length) layout.Frame {
	var frames []layout.Frame
	for len(boxes) > 0 {
		n, sum := 0, layout.Length(0)
		for n < len(boxes) {
			if sum += p.need(boxes[n]); sum > room && n > 0 {
				break
			}
			n++
		}
		widths, _ := p.widths(boxes[:n], room)
		frames = append(frames, p.line(boxes[:n], widths))
		boxes = boxes[n:]
	}
	return stack(0, frames...)
}

// widths shares what the boxes of a line do not need among those to write in;
// a line of ticks alone shares it among all. A box that needs more than the
// room has the room, and its words more lines.
func (p penSetting) widths(boxes []PenBox, room layout.Length) (_ []layout.Length, fits bool) {
	widths := make([]layout.Length, len(boxes))
	var shares float64
	free := room
	fits = true
	for i, b := range boxes {
		widths[i] = min(p.need(b), room)
		fits = fits && widths[i] < room
		free -= widths[i]
		shares += p.share(b)
	}
	for i, b := range boxes {
		part := 1 / float64(len(boxes))
		if shares > 0 {
			part = p.share(b) / shares
		}
		widths[i] += free * layout.Length(part)
	}
	return widths, fits && free >= 0
}

// share is a box's part of the free width. What is known already needs little
// of it, but for words that are too long for a line.
func (p penSetting) share(b PenBox) float64 {
	switch {
	case b.Value != "":
		const little, line = 0.2, 40 * layout.MM
		return little + float64(max(0, p.t.Measurer.Width(b.Value, p.valueFace())-p.need(b))/line)
	case b.Share > 0:
		return b.Share
	case len(b.Choices) > 0:
		return 0
	}
	return 1
}

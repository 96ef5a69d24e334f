package figure

import (
	"strings"

	"gaugesheet/layout"
)

// A keyItem is a sample of what is drawn with its words.
type keyItem struct {
	width  layout.Length // of the sample
	sample func(sf layout.Surface, at layout.Point)
	text   layout.Text
	look   bool          // explains how a bar looks, which is nothing to who hears of it
	goesOn bool          // says more of the one before it
	tall   layout.Length // height of the sample, where it is higher than a line may be
}

// sampleWidth is how wide the sample of a line or a tone is.
const sampleWidth layout.Length = 18

// keys says under the figure what its lines, marks and tones are: only those
// that are drawn. More words may follow on the same lines.
func (g *engineDrawing) keys(more ...string) layout.Frame {
	items := g.lineKeys(nil)
	items = g.markKeys(items)
	switch {
	case len(g.d.Repeats) == 0:
	case g.level == layout.Brief:
		items = g.key(items, 0, g.d.RepeatsBrief, nil)
	default:
		items = g.key(items, 0, g.d.RepeatsAt, nil)
		for _, r := range g.d.Repeats {
			items = g.behindTab(items, r.Number, r.Text)
		}
	}
	if g.tiesKeyed {
		for _, tie := range g.d.Ties {
			items = g.key(items, 0, tie.Text, nil)
		}
	}
	if g.banksKeyed {
		for _, bank := range g.d.Banks {
			var names []string
			for _, i := range bank.Cylinders {
				names = append(names, g.d.Cylinders[i].Number)
			}
			if len(names) == 1 && strings.HasSuffix(bank.Text, names[0]) { // the cylinder is called as its side is
				continue
			}
			items = g.key(items, 0, bank.Text+": "+strings.Join(names, ", "), nil)
		}
	}
	for _, text := range more {
		items = g.key(items, 0, text, nil)
	}
	return flowItems(g, items)
}

// key adds words behind a sample of a width, unless there are none.
func (g *engineDrawing) key(items []keyItem, width layout.Length, text string, sample func(sf layout.Surface, at layout.Point)) []keyItem {
	if text == "" {
		return items
	}
	room := g.width
	if width > 0 {
		room -= width + small
	}
	return append(items, keyItem{width: width, sample: sample, text: layout.Wrap(g.t.Measurer, room, run(g.t, layout.Note, g.t.Ink, text))})
}

// lineKeys are the limits.
func (g *engineDrawing) lineKeys(items []keyItem) []keyItem {
	for _, k := range g.scales() {
		limits := g.d.Scales[k].Limits
		for i, l := range limits[:min(2, len(limits))] {
			items = g.key(items, sampleWidth, l.Key, func(sf layout.Surface, at layout.Point) {
				sf.Stroke(layout.Polyline(at, at.Add(sampleWidth, 0)), limitPen(g.t, i))
			})
		}
	}
	return items
}

// markKeys are the marks on the bars, the tones, and why nothing was read where
// only its mark had room.
func (g *engineDrawing) markKeys(items []keyItem) []keyItem {
	for shape, used := range g.shapes() {
		if !used {
			continue
		}
		text, listed := g.d.ShapeKeys[shape], g.marksListed && g.d.ShapeLists[shape] != "" && !g.d.Tabled
		if listed {
			text = g.d.ShapeLists[shape]
		}
		items = g.key(items, 2.3*markRadius+1, text, func(sf layout.Surface, at layout.Point) {
			drawMarkShape(sf, g.t, MarkShape(shape), at.Add(1.15*markRadius+0.5, 0))
		})
		if listed {
			items = g.listed(items, MarkShape(shape))
		}
	}
	for tone, words := range g.tones() {
		items = g.key(items, sampleWidth, words, func(sf layout.Surface, at layout.Point) {
			PaintTone(sf, g.t, Tone(tone), layout.RectPath(layout.Rect{X: at.X + 1, Y: at.Y - 3.2, W: sampleWidth - 2, H: 6.4}))
		})
		if words != "" {
			items[len(items)-1].look = true
		}
	}
	for _, b := range g.unsaid {
		size := markSize(g.t, g.label)
		items = g.key(items, size, b.Word, func(sf layout.Surface, at layout.Point) {
			DrawMark(sf, g.t, b.Mark, at.Add(size/2, 0), size)
		})
	}
	return items
}

// listed are the values of all marks of a shape, each behind its cylinder's tab.
func (g *engineDrawing) listed(items []keyItem, shape MarkShape) []keyItem {
	for i := range g.d.Cylinders {
		c := &g.d.Cylinders[i]
		for k := range c.Bars {
			for _, m := range c.Bars[k].Marks {
				if m.Shape != shape {
					continue
				}
				items = g.behindTab(items, c.Number, m.Text)
			}
		}
	}
	return items
}

// behindTab adds what is said of a cylinder behind its tab.
func (g *engineDrawing) behindTab(items []keyItem, number, text string) []keyItem {
	face := g.t.Face(layout.Note)
	tab := TabSize(g.t.Measurer, number, face)
	items = g.key(items, tab.W, text, func(sf layout.Surface, at layout.Point) {
		DrawTab(sf, g.t, number, at.Add(tab.W/2, 0), face)
	})
	items[len(items)-1].goesOn, items[len(items)-1].tall = true, tab.H
	return items
}

// shapes says which marks the bars have.
func (g *engineDrawing) shapes() (used [2]bool) {
	g.eachBar(func(_ int, b *CylinderBar) {
		for _, m := range b.Marks {
			used[m.Shape] = true
		}
	})
	return used
}

// tones are the words for the tones that are drawn.
func (g *engineDrawing) tones() (words [Open + 1]string) {
	var used [2][Open + 1]bool
	g.eachBar(func(scale int, b *CylinderBar) {
		if b.Text != "" && scale < 2 {
			used[scale][b.Tone] = true
		}
	})
	for k := range g.scales() {
		for tone, said := range g.d.Scales[k].Tones {
			if used[k][tone] && said != "" && words[tone] != said {
				words[tone] = strings.TrimPrefix(words[tone]+", "+said, ", ")
			}
		}
	}
	return words
}

func (g *engineDrawing) eachBar(do func(scale int, b *CylinderBar)) {
	for k := range g.scales() {
		for i := range g.d.Cylinders {
			for _, b := range barsOf(&g.d.Cylinders[i], k) {
				do(k, &b)
			}
		}
	}
}

// flowItems puts items beside one another, on as many lines as they need.
func flowItems(g *engineDrawing, items []keyItem) layout.Frame {
	face := g.t.Face(layout.Note)
	var lines [][]keyItem
	var used layout.Length
	for i, it := range items {
		w, with := it.full(), layout.Length(0)
		if i+1 < len(items) && items[i+1].goesOn && !it.goesOn { // what leads them does not end a line
			with = items[i+1].before() + items[i+1].full()
		}
		if len(lines) == 0 || used+it.before()+w+with > g.width+0.01 {
			lines, used = append(lines, nil), -it.before()
		}
		lines[len(lines)-1] = append(lines[len(lines)-1], it)
		used += it.before() + w
	}
	var frames []layout.Frame
	for _, line := range lines {
		middle := layout.Baseline(g.t.Measurer, face) - g.t.Measurer.CapHeight(face)/2 // of the letters
		top, height := layout.Length(0), layout.Length(0)
		for _, it := range line {
			top = max(top, it.tall/2-middle)
		}
		for _, it := range line {
			height = max(height, top+it.text.H, top+middle+it.tall/2)
		}
		frames = append(frames, layout.Frame{Height: height, Draw: func(sf layout.Surface, area layout.Rect) {
			x := area.X
			for i, it := range line {
				if i > 0 {
					x += it.before()
				}
				at := layout.Point{X: x, Y: area.Y + top + middle}
				if it.width > 0 {
					it.sample(sf, at)
					at.X += it.width + small
				}
				kind := layout.Paragraph
				if it.look {
					kind = layout.Decoration
				}
				layout.Tag{Kind: kind}.Draw(sf, func() { it.text.Draw(sf, layout.Point{X: at.X, Y: area.Y + top}) })
				x += it.full()
			}
		}})
	}
	return stack(0, frames...)
}

// before is the room between an item and the one before it in its line.
func (it keyItem) before() layout.Length {
	if it.goesOn {
		return small
	}
	return 11
}

func (it keyItem) full() layout.Length {
	if it.width > 0 {
		return it.width + small + it.text.W
	}
	return it.text.W
}

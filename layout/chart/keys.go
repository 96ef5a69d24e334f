package chart

import "gaugesheet/layout"

// Distances of the keys under a chart, in points.
const (
	sample  layout.Length = 20 // length of a limit's sample
	keyGap  layout.Length = 12 // between keys on a line
	textGap layout.Length = 5  // between a sample and its words
)

// keyLines are the keys of a chart in their places under it.
type keyLines struct {
	keys   []placedKey
	height layout.Length
}

type placedKey struct {
	text layout.Text
	at   layout.Point  // of the sample's left end and the top of its line
	wide layout.Length // of the sample
	draw func(s layout.Surface, middle layout.Point)
}

// layKeys sets the limits and the keys one after another, as many on a line as
// fit; words too long for a line are wrapped.
func (p *plot) layKeys(width layout.Length) keyLines {
	var lines keyLines
	var x, below layout.Length
	place := func(words string, sample layout.Length, draw func(layout.Surface, layout.Point)) {
		run := layout.Run{Text: words, Face: p.theme.Face(layout.Note), Color: p.theme.Muted}
		text := layout.Wrap(p.theme.Measurer, width-sample-textGap, run)
		if x > 0 && x+sample+textGap+text.W > width {
			x, lines.height = 0, below
		}
		lines.keys = append(lines.keys, placedKey{text, layout.Point{X: x, Y: lines.height}, sample, draw})
		below = max(below, lines.height+text.H)
		x += sample + textGap + text.W + keyGap
	}
	for i, l := range p.Limits {
		pen := p.limitPen(i)
		place(l.Text, sample, func(s layout.Surface, middle layout.Point) {
			s.Stroke(layout.Polyline(middle.Add(-sample/2, 0), middle.Add(sample/2, 0)), pen)
		})
	}
	for _, k := range p.Keys {
		place(k.Text, k.Width, k.Sample)
	}
	lines.height = below
	return lines
}

// drawFoot explains the lines in the chart under the labels.
func (p *plot) drawFoot(s layout.Surface, area layout.Rect) {
	top := area.TopLeft().Add(0, p.labelHeight()+gap)
	note := p.theme.Face(layout.Note)
	middle := layout.Baseline(s, note) - s.CapHeight(note)/2
	for _, k := range p.keys.keys {
		at := top.Add(k.at.X, k.at.Y)
		if k.draw != nil {
			k.draw(s, at.Add(k.wide/2, middle))
		}
		k.text.Draw(s, at.Add(k.wide+textGap, 0))
	}
}

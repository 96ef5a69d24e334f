package figure

import (
	"gaugesheet/layout"
	"gaugesheet/layout/chart"
)

// NewSpread is the block "spread": a ruler on which each cylinder has a bar from
// the best one to how far it is below it, with its number in a tab at the end.
func NewSpread(d Spread) layout.Block {
	return block{"spread", func(t layout.Theme, width layout.Length, level layout.Detail) layout.Frame {
		if len(d.Bars) == 0 {
			return empty()
		}
		unread := layUnread(t, d.Unread)
		axis := width
		if beside := unread.width + wide; unread.width > 0 && unread.width <= width*0.2 {
			axis -= beside
		}
		c, captions := d.chart(t, axis)
		ruler := chart.New(t, axis, level, c)
		beside := axis < width && unread.height <= ruler.BodyHeight()
		if axis < width && !beside {
			ruler = chart.New(t, width, level, c)
		}
		frame := layout.Frame{Height: ruler.Height(), Stretch: rulerStretch[level], Draw: func(s layout.Surface, area layout.Rect) {
			ruler.Draw(s, area)
			if beside {
				body := ruler.Body(area)
				unread.draw(s, t, layout.Point{X: area.Right() - unread.width, Y: body.Bottom() - unread.height - small})
			}
		}}
		if d.wideGauge(ruler) && d.GaugeWords != "" {
			captions = append(captions, d.GaugeWords)
		}
		under := empty()
		if !beside {
			under = d.unreadUnder(t, width)
		}
		return stack(tight, d.heading(t, ruler, width), stack(1, pictured(d.Alt, frame), under), captionLines(t, captions, width, level))
	}}
}

// rulerStretch is how much more height than it must have a ruler can use.
var rulerStretch = [...]layout.Length{layout.Full: 12, layout.Compact: 6, layout.Brief: 0}

// tabFace is the face of numbers in tabs on the ruler.
func tabFace(t layout.Theme) layout.Face { return t.Face(layout.Label) }

// chart describes the ruler in a width. Words of limits that are wider stand
// under it, before its captions.
func (d Spread) chart(t layout.Theme, width layout.Length) (c chart.Chart, captions []string) {
	face := tabFace(t)
	c = chart.Chart{Zero: d.Zero, Unit: d.Unit, Least: d.Least, Most: d.Most, Say: d.Say,
		PaintEnd: func(s layout.Surface, at layout.Point, i int) { DrawTab(s, t, d.Bars[i].Number, at, face) }}
	for _, b := range d.Bars {
		c.Bars = append(c.Bars, chart.Bar{
			Value: b.Value, Low: b.Low, High: b.High, Less: b.Less, More: b.More, End: TabSize(t.Measurer, b.Number, face),
		})
	}
	for _, z := range d.Zones {
		c.Zones = append(c.Zones, chart.Zone{To: z.To, Word: z.Word, Look: zoneLook(z.Tone)})
	}
	for _, l := range d.Lines {
		limit := chart.Limit{Value: l.Value, Text: l.Text}
		if t.Measurer.Width(l.Text, layout.Face{Weight: layout.Bold, Size: face.Size}) > width {
			limit.Text = ""
			captions = append(captions, l.Text)
		}
		c.Limits = append(c.Limits, limit)
	}
	return c, append(captions, d.Captions...)
}

func zoneLook(tone Tone) chart.Look {
	switch tone {
	case Plain:
		return chart.Tinted
	case Hatch, Dense:
		return chart.Hatched
	}
	return chart.Clear
}

// heading is the title with what the ruler measures behind it and, at the right
// of the line that has room for it, how long a difference is that is only the
// gauge.
func (d Spread) heading(t layout.Theme, ruler *chart.Ruler, width layout.Length) layout.Frame {
	key := d.gaugeKey(t, ruler)
	head, note := t.Face(layout.Heading), t.Face(layout.Label)
	title, sub := t.Measurer.Width(d.Title, head), t.Measurer.Width(d.Sub, note)
	fits := func(w layout.Length) bool { return key.width > 0 && w+wide+key.width <= width }
	switch {
	case fits(title + medium + sub):
		return over(heading(t, d.Title, d.Sub, width), key.at(t, lineHeight(head)))
	case fits(title):
		return stack(0, over(heading(t, d.Title, "", width), key.at(t, lineHeight(head))), textFrame(t, d.Sub, layout.Label, t.Ink, width))
	case fits(sub):
		return stack(0, heading(t, d.Title, "", width), over(heading(t, "", d.Sub, width), key.at(t, lineHeight(note))))
	}
	return stack(0, heading(t, d.Title, d.Sub, width), key.frame(t, width))
}

// over draws one frame on another; their words must stand apart.
func over(a, b layout.Frame) layout.Frame {
	return layout.Frame{Height: max(a.Height, b.Height), Draw: func(s layout.Surface, area layout.Rect) {
		a.Draw(s, area)
		b.Draw(s, area)
	}}
}

// A gaugeKey is the scale bar for what the gauge can tell apart, with its words
// behind it.
type gaugeKey struct {
	bar, width layout.Length
	text       string
}

// mostGauge is the part of the ruler from which a bar for the gauge is too long
// to stand over it.
const mostGauge = 0.5

func (d Spread) gaugeKey(t layout.Theme, ruler *chart.Ruler) gaugeKey {
	if d.Gauge <= 0 || d.GaugeName == "" || d.wideGauge(ruler) {
		return gaugeKey{}
	}
	k := gaugeKey{bar: ruler.Length(d.Gauge), text: d.GaugeName}
	k.width = k.bar + small + t.Measurer.Width(k.text, t.Face(layout.Label))
	return k
}

// wideGauge reports a gauge that tells so little apart that a bar for it would
// take the heading's room: it is said in words.
func (d Spread) wideGauge(ruler *chart.Ruler) bool { return d.Gauge > ruler.Reach()*mostGauge }

// at is the key at the right end of a line of a height.
func (k gaugeKey) at(t layout.Theme, height layout.Length) layout.Frame {
	face := t.Face(layout.Label)
	return layout.Frame{Height: height, Draw: func(s layout.Surface, a layout.Rect) {
		y := a.Y + height/2 + s.CapHeight(face)/2
		x := a.Right() - k.width
		layout.Tag{Kind: layout.Decoration}.Draw(s, func() { // the ruler's words have how long it is
			s.Text(layout.Point{X: x + k.bar + small, Y: y}, k.text, face, t.Ink)
		})
		drawWhisker(s, t, x, x+k.bar, y-s.CapHeight(face)/2)
	}}
}

func (k gaugeKey) frame(t layout.Theme, width layout.Length) layout.Frame {
	if k.width == 0 || k.width > width {
		return empty()
	}
	return k.at(t, lineHeight(t.Face(layout.Label)))
}

package figure

import (
	"gaugesheet/layout"
	"gaugesheet/layout/chart"
)

// NewSpread is the block "spread": a bar for each cylinder, from zero.
func NewSpread(d Spread) layout.Block {
	return block{"spread", func(t layout.Theme, width layout.Length, level layout.Detail) layout.Frame {
		c := d.chart(t)
		height := [...]layout.Length{layout.Full: 160, layout.Compact: 128, layout.Brief: 98}[level]
		bars := layout.Frame{
			Height:  max(height, chart.LeastHeight(t, c, width)),
			Stretch: 110,
			Draw: func(s layout.Surface, area layout.Rect) {
				chart.Bars(s, area, t, c)
			},
		}
		if len(d.Bars) == 0 {
			bars = empty()
		}
		return stack(small, heading(t, d.Title, d.Sub, width), bars,
			d.legend(t, width), captionLines(t, d.Captions, width, level))
	}}
}

func (d Spread) chart(t layout.Theme) chart.Chart {
	c := chart.Chart{Paint: func(s layout.Surface, bar layout.Rect, i int) {
		PaintTone(s, t, d.Bars[i].Tone, layout.RectPath(bar))
	}}
	for _, b := range d.Bars {
		c.Bars = append(c.Bars, chart.Bar{
			Label: b.Label, Value: b.Value, Text: b.Text, Low: b.Low, High: b.High,
			Ghost: b.Ghost, HasGhost: b.HasGhost, GhostText: b.GhostText,
			Missing: b.Missing, AtLeast: b.AtLeast, Highest: b.Highest, Lowest: b.Lowest, Group: b.Group,
		})
	}
	for _, l := range d.Lines {
		c.Limits = append(c.Limits, chart.Limit{Value: l.Value, Text: l.Text})
	}
	return c
}

// legend says what the outlined bars and the whiskers are, each behind a
// sample of it.
func (d Spread) legend(t layout.Theme, width layout.Length) layout.Frame {
	const sample = 25
	note := t.Face(layout.Note)
	words := [2]string{d.GhostName, d.WhiskerName}
	if !d.has(func(b Bar) bool { return b.HasGhost }) {
		words[0] = ""
	}
	if !d.has(func(b Bar) bool { return b.Missing == "" && b.Low < b.High }) {
		words[1] = ""
	}
	ghost, whisker := t.Measurer.Width(words[0], note)+sample, t.Measurer.Width(words[1], note)+sample
	whole := ghost + wide + whisker
	entry := func(i int, width layout.Length, draw func(layout.Surface, layout.Theme, layout.Point)) layout.Frame {
		if words[i] == "" {
			return empty()
		}
		text := textFrame(t, words[i], layout.Note, t.Muted, width-sample)
		return behind(inset(text, 0, 0, 0, sample), func(s layout.Surface, a layout.Rect) {
			draw(s, t, layout.Point{X: a.X + 10, Y: baseline(s, note, a.Y) - s.CapHeight(note)/2})
		})
	}
	if words[0] != "" && words[1] != "" && whole <= width {
		return beside(wide, column{ghost, entry(0, ghost+1, sampleGhost)}, column{whisker, entry(1, whisker+1, sampleWhisker)})
	}
	return stack(0, entry(0, width, sampleGhost), entry(1, width, sampleWhisker))
}

func sampleGhost(s layout.Surface, t layout.Theme, at layout.Point) {
	box := layout.RectPath(layout.Rect{X: at.X - 3, Y: at.Y - 3.5, W: 6, H: 7})
	s.Stroke(box, layout.Pen{Width: thin, Color: t.Muted})
}

func sampleWhisker(s layout.Surface, t layout.Theme, at layout.Point) {
	path := layout.Polyline(at.Add(0, -3.5), at.Add(0, 3.5))
	for _, y := range []layout.Length{-3.5, 3.5} {
		path = path.MoveTo(at.Add(-2.5, y)).LineTo(at.Add(2.5, y))
	}
	s.Stroke(path, layout.Pen{Width: 0.8, Color: t.Ink})
}

func (d Spread) has(is func(Bar) bool) bool {
	for _, b := range d.Bars {
		if is(b) {
			return true
		}
	}
	return false
}

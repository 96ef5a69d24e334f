package figure

import (
	"gaugesheet/layout"
	"gaugesheet/layout/chart"
)

// NewSpread is the block "spread": a bar for each cylinder, from zero.
func NewSpread(d Spread) layout.Block {
	return block{"spread", func(t layout.Theme, width layout.Length, level layout.Detail) layout.Frame {
		c := d.chart(t)
		height := [...]layout.Length{layout.Full: 178, layout.Compact: 142, layout.Brief: 112}[level]
		bars := layout.Frame{
			Height:  max(height, chart.LeastHeight(t, c, width)),
			Stretch: 90,
			Draw: func(s layout.Surface, area layout.Rect) {
				chart.Bars(s, area, t, c)
			},
		}
		if len(d.Bars) == 0 {
			bars = empty()
		}
		return stack(small, heading(t, d.Title, d.Sub, width), bars,
			d.legend(t, width), captionLines(t, d.Captions, width))
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
	entry := func(words string, draw func(s layout.Surface, at layout.Point)) layout.Frame {
		if words == "" {
			return empty()
		}
		text := textFrame(t, words, layout.Note, t.Muted, width-sample)
		return behind(inset(text, 0, 0, 0, sample), func(s layout.Surface, a layout.Rect) {
			face := t.Face(layout.Note)
			draw(s, layout.Point{X: a.X + 10, Y: baseline(s, face, a.Y) - s.CapHeight(face)/2})
		})
	}
	ghost, whisker := d.GhostName, d.WhiskerName
	if !d.has(func(b Bar) bool { return b.HasGhost }) {
		ghost = ""
	}
	if !d.has(func(b Bar) bool { return b.Missing == "" && b.Low < b.High }) {
		whisker = ""
	}
	return stack(0,
		entry(ghost, func(s layout.Surface, at layout.Point) {
			box := layout.RectPath(layout.Rect{X: at.X - 3, Y: at.Y - 3.5, W: 6, H: 7})
			s.Stroke(box, layout.Pen{Width: thin, Color: t.Muted})
		}),
		entry(whisker, func(s layout.Surface, at layout.Point) {
			path := layout.Polyline(at.Add(0, -3.5), at.Add(0, 3.5))
			for _, y := range []layout.Length{-3.5, 3.5} {
				path = path.MoveTo(at.Add(-2.5, y)).LineTo(at.Add(2.5, y))
			}
			s.Stroke(path, layout.Pen{Width: 0.8, Color: t.Ink})
		}))
}

func (d Spread) has(is func(Bar) bool) bool {
	for _, b := range d.Bars {
		if is(b) {
			return true
		}
	}
	return false
}

package figure

import (
	"gaugesheet/layout"
	"gaugesheet/layout/chart"
)

// spreadHeights are the heights of the chart by detail, its keys counted;
// spreadGrowth is how much more it can use.
var spreadHeights = [...]layout.Length{layout.Full: 142, layout.Compact: 104, layout.Brief: 62}

const spreadGrowth layout.Length = 80

// NewSpread is the block "spread": a bar for each cylinder, from zero.
func NewSpread(d Spread) layout.Block {
	return block{"spread", func(t layout.Theme, width layout.Length, level layout.Detail) layout.Frame {
		c := d.chart(t)
		bars := layout.Frame{
			Height:  max(spreadHeights[level], chart.LeastHeight(t, c, width)),
			Stretch: spreadGrowth,
			Draw: func(s layout.Surface, area layout.Rect) {
				chart.Bars(s, area, t, c)
			},
		}
		if len(d.Bars) == 0 {
			bars = empty()
		}
		return stack(tight, heading(t, d.Title, d.Sub, width), bars, captionLines(t, d.Captions, width, level))
	}}
}

func (d Spread) chart(t layout.Theme) chart.Chart {
	c := chart.Chart{Keys: d.keys(t), Paint: func(s layout.Surface, bar layout.Rect, i int) {
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

// keys say what the outlined bars and the whiskers are.
func (d Spread) keys(t layout.Theme) []chart.Key {
	var keys []chart.Key
	add := func(words string, sample func(layout.Surface, layout.Theme, layout.Point)) {
		keys = append(keys, chart.Key{Text: words, Width: 7, Sample: func(s layout.Surface, at layout.Point) { sample(s, t, at) }})
	}
	if d.GhostName != "" && d.has(func(b Bar) bool { return b.HasGhost }) {
		add(d.GhostName, sampleGhost)
	}
	if d.WhiskerName != "" && d.has(func(b Bar) bool { return b.Missing == "" && b.Low < b.High }) {
		add(d.WhiskerName, sampleWhisker)
	}
	return keys
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

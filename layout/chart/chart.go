// Package chart draws bar charts onto a layout.Surface as vectors, from a plain
// description. It is the only package that knows the chart library, which
// gives a chart its range, axis, grid and frame; the bars are a series of our
// own, because the library's begin at the smallest value and its whole-number
// grid would move their tops.
package chart

import (
	"io"
	"math"
	"strconv"

	"github.com/golang/freetype/truetype"
	chart "github.com/wcharczuk/go-chart/v2"

	"gaugesheet/layout"
)

// A Bar is one value, drawn from zero.
type Bar struct {
	Label     string
	Value     float64
	Text      string  // the value in words, over the bar
	Low, High float64 // ends of the whisker; equal to Value for none
	Ghost     float64 // another value, an outline behind the bar, where HasGhost is set
	HasGhost  bool
	GhostText string
	Missing   string // why there is no bar; empty where there is one
	AtLeast   bool   // the value is a lower bound: the bar is open at the top
	Highest   bool   // marked as such under its label
	Lowest    bool
	Group     int // bars of different groups stand apart
}

// A Limit is a line across the chart, explained under it.
type Limit struct {
	Value float64
	Text  string
}

// A Key says under the chart what a kind of line or box in it is, behind a
// sample of it.
type Key struct {
	Text   string
	Width  layout.Length // of the sample
	Sample func(s layout.Surface, middle layout.Point)
}

// A Chart is bars beside one another with limits across them.
type Chart struct {
	Bars   []Bar
	Limits []Limit
	Keys   []Key // after the limits
	// Paint draws a bar's body and outline; a nil Paint fills it with the
	// theme's Fill.
	Paint func(s layout.Surface, bar layout.Rect, index int)
}

// usable is a value that can be drawn: a bar never goes below zero.
func usable(v float64) float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) || v < 0 {
		return 0
	}
	return v
}

// top is the highest value of a chart.
func (c Chart) top() float64 {
	top := 0.0
	for _, b := range c.Bars {
		if b.Missing == "" {
			top = max(top, usable(b.Value), usable(b.High))
		}
		if b.HasGhost {
			top = max(top, usable(b.Ghost))
		}
	}
	for _, l := range c.Limits {
		top = max(top, usable(l.Value))
	}
	return top
}

// Bars draws a chart in an area. Nothing it draws leaves the area while the
// area is at least LeastHeight high; an area without room for any bar draws
// nothing.
func Bars(s layout.Surface, area layout.Rect, t layout.Theme, c Chart) {
	p := newPlot(t, c, area.W)
	frame, foot := area.SplitBottom(p.footHeight())
	if frame.W <= axisRoom || frame.H <= p.headHeight() {
		return
	}
	p.drawFoot(s, foot)

	pixels := func(l layout.Length) int { return int(l / unit) }
	label := t.Face(layout.Label)
	grid := chart.Style{StrokeColor: libraryColor(t.Line), StrokeWidth: float64(0.5 / unit)}
	frameless := chart.Style{StrokeWidth: chart.Disabled}
	values := ticks(c.top(), frame.H)
	y := chart.YAxis{
		AxisType: chart.YAxisSecondary, // the library's left side
		Style: chart.Style{
			FontSize: float64(label.Size), FontColor: libraryColor(t.Muted),
			StrokeWidth: chart.Disabled,
		},
		GridMajorStyle: grid,
		GridMinorStyle: grid,
	}
	for _, v := range values {
		y.Ticks = append(y.Ticks, chart.Tick{Value: v.value, Label: v.text})
		if v.text != "" && v.value > 0 {
			y.GridLines = append(y.GridLines, chart.GridLine{Value: v.value})
		}
	}
	if len(y.GridLines) == 0 {
		y.GridMajorStyle, y.GridMinorStyle = chart.Hidden(), chart.Hidden()
	}
	background := frameless
	background.Padding = chart.Box{IsSet: true, Top: pixels(p.headHeight()), Bottom: pixels(s.CapHeight(label)/2 + 1)}
	whole := chart.Chart{
		Width: pixels(frame.W), Height: pixels(frame.H), DPI: dpi,
		Font:       &truetype.Font{}, // only told apart by the library, never read
		Background: background,
		Canvas:     frameless,
		XAxis:      chart.XAxis{Style: chart.Hidden(), Range: &chart.ContinuousRange{Min: 0, Max: 1}},
		YAxis:      y, YAxisSecondary: chart.HideYAxis(),
		Series: []chart.Series{&series{p}},
	}
	provider := func(int, int) (chart.Renderer, error) {
		return &renderer{surface: s, origin: frame.TopLeft()}, nil
	}
	if err := whole.Render(provider, io.Discard); err != nil {
		// Ranges from zero to a finite top are the only ones it is given.
		return
	}
}

// A tick is a value on the axis; the last may be the chart's top and unnamed.
type tick struct {
	value float64
	text  string
}

// ticks are round values from zero, at least 24 pt apart, and the top of the
// chart where it lies above the last of them.
func ticks(top float64, height layout.Length) []tick {
	if top <= 0 {
		return []tick{{0, "0"}, {1, ""}}
	}
	n := max(1, math.Floor(float64(height)/24))
	step, decimals := layout.RoundStep(top / n)
	var all []tick
	for k := 0.0; k*step <= top*(1+1e-9); k++ {
		all = append(all, tick{k * step, strconv.FormatFloat(k*step, 'f', decimals, 64)})
	}
	if last := all[len(all)-1].value; last < top*(1-1e-9) {
		all = append(all, tick{top, ""})
	}
	return all
}

// series is the chart library's view of the bars.
type series struct{ plot *plot }

func (*series) GetName() string           { return "" }
func (*series) GetYAxis() chart.YAxisType { return chart.YAxisPrimary }
func (*series) GetStyle() chart.Style     { return chart.Style{} }
func (*series) Validate() error           { return nil }

// Render draws the bars into the frame that the library has left for them,
// with the range's own numbers instead of its whole-number grid.
func (s *series) Render(r chart.Renderer, box chart.Box, _, y chart.Range, _ chart.Style) {
	page := r.(*renderer)
	a, b := page.at(box.Left, box.Top), page.at(box.Right, box.Bottom)
	s.plot.draw(page.surface, layout.Rect{X: a.X, Y: a.Y, W: b.X - a.X, H: b.Y - a.Y}, y.GetMax())
}

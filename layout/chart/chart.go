// Package chart draws bars that lie along one axis, a ruler, onto a
// layout.Surface as vectors, from a plain description, and knows nothing of how
// the numbers were found. It is the only package that knows the chart library,
// which gives the ruler its range, axis, ticks and frame; the bars are a series of our own, because the library's begin at
// the smallest value and its whole-number grid would move their ends.
package chart

import (
	"io"
	"math"
	"slices"

	"github.com/golang/freetype/truetype"
	chart "github.com/wcharczuk/go-chart/v2"
	"github.com/wcharczuk/go-chart/v2/drawing"

	"gaugesheet/layout"
)

// A Bar is one value: it reaches from zero to Value, where its end stands.
type Bar struct {
	Value     float64
	Low, High float64 // where the value may lie as well; equal to Value for an exact one
	Less      bool    // the value is a bound: it may be less
	More      bool    // it may be more
	End       layout.Size
}

// A Look is how a zone's ground is drawn, so that zones can be told apart
// without colour.
type Look uint8

// The looks of a zone.
const (
	Clear Look = iota
	Tinted
	Hatched
)

// A Zone is a stretch of the axis up to a value; the last one goes on to the
// ruler's end whatever its value.
type Zone struct {
	To   float64
	Word string
	Look Look
}

// A Limit is a line across the bars with its words over it.
type Limit struct {
	Value float64
	Text  string
}

// A Chart describes a ruler. Values are in the unit of the axis.
type Chart struct {
	Bars   []Bar
	Zones  []Zone // in order from the left; none leaves the ground clear
	Limits []Limit
	Zero   string // the word for zero on the axis
	Unit   string // stands behind each number on the axis, with its space
	Least  float64
	Most   float64 // the axis reaches from zero to Least at least, never past Most where that is above zero
	// PaintEnd draws the end of a bar about a point. It takes no more room than
	// the bar's End.
	PaintEnd func(s layout.Surface, at layout.Point, bar int)
	// Say gives the words for bars that stand together, in order of value, the
	// longest first, of which the ruler takes those that it has room for; none
	// where they need none. A nil Say says nothing of any.
	Say func(bars []int) []string
}

// usable is a value that can be drawn.
func usable(v float64) float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return 0
	}
	return v
}

// A Ruler is a chart laid out for a width.
type Ruler struct {
	Chart
	theme       layout.Theme
	detail      layout.Detail
	scale       scale
	width       layout.Length // of the axis, in whole units of the library's grid
	ends        []end
	crowds      []crowd
	lanes       int
	pitch       layout.Length // from lane to lane
	railsHeight layout.Length // of all bars over one another
	notes       []note
	head        []headWord
	rows        int // of words over the bars
}

// New lays a ruler out. It needs LeastWidth at least, and the words of a limit
// have to fit into the width.
func New(t layout.Theme, width layout.Length, d layout.Detail, c Chart) *Ruler {
	r := &Ruler{Chart: c, theme: t, detail: d}
	r.Bars = slices.Clone(c.Bars)
	for i := range r.Bars {
		b := &r.Bars[i]
		b.Value, b.Low, b.High = usable(b.Value), usable(b.Low), usable(b.High)
	}
	r.width = layout.Length(math.Floor(float64(width/unit))) * unit
	r.scale = r.newScale()
	r.arrange()
	r.sayNotes()
	r.layHead()
	return r
}

// LeastWidth is the least width in which a ruler can be read.
const LeastWidth layout.Length = 110

// Distances in points.
const (
	gap      layout.Length = 2    // between words, and between ends of bars
	railGap  layout.Length = 0.8  // between the axis and the lowest bar
	stemRoom layout.Length = 3    // between the bars and the lowest end
	axisGap  layout.Length = 5    // between the axis and its numbers: the library's own
	descents layout.Length = 2    // under the numbers
	bareHead layout.Length = 1.5  // over the highest end where no words stand there
	leastEnd layout.Length = 10.5 // height of a lane without ends
	barShare               = 0.64 // of a bar's height that its body takes, the rest keeps bars apart
)

// Height is how high the ruler is.
func (r *Ruler) Height() layout.Length { return r.headHeight() + r.BodyHeight() + r.axisHeight() }

// BodyHeight is the height of the ground on which the bars lie.
func (r *Ruler) BodyHeight() layout.Length {
	return r.railHeight() + layout.Length(r.lanes)*r.pitch + bareHead
}

// railHeight is the height of the bars with the stems to the lowest ends.
func (r *Ruler) railHeight() layout.Length {
	return axisPen/2 + railGap + r.railsHeight + stemRoom
}

func (r *Ruler) axisHeight() layout.Length {
	return axisGap + r.theme.Measurer.CapHeight(r.axisFace()) + descents
}

func (r *Ruler) axisFace() layout.Face { return r.theme.Face(layout.Note) }

// Body is the ground on which the bars lie, in the ruler's area.
func (r *Ruler) Body(area layout.Rect) layout.Rect {
	top := area.Y + r.headHeight()
	return layout.Rect{X: area.X, Y: top, W: r.width, H: area.Bottom() - r.axisHeight() - top}
}

// Length is how long a distance between two values is on the ruler.
func (r *Ruler) Length(distance float64) layout.Length {
	return layout.Length(distance/r.scale.GetDelta()) * r.width
}

// Reach is the whole of what the axis shows, from its left to its right end.
func (r *Ruler) Reach() float64 { return r.scale.GetDelta() }

// Draw draws the ruler into an area at least Height high. What is higher goes
// to the bars.
func (r *Ruler) Draw(s layout.Surface, area layout.Rect) {
	body := r.Body(area)
	r.drawHead(s, area, body)

	pixels := func(l layout.Length) int { return int(math.Floor(float64(l/unit) + 1e-6)) }
	face := r.axisFace()
	frameless := chart.Style{StrokeWidth: chart.Disabled, FillColor: drawing.ColorTransparent}
	background := frameless
	background.Padding = chart.Box{IsSet: true, Bottom: pixels(descents)}
	x := chart.XAxis{
		Style: chart.Style{
			FontSize: float64(face.Size), FontColor: libraryColor(r.theme.Ink),
			StrokeWidth: float64(axisPen / unit), StrokeColor: libraryColor(r.theme.Ink),
		},
		Range: &r.scale, GridMajorStyle: chart.Hidden(), GridMinorStyle: chart.Hidden(),
	}
	for _, t := range r.ticks() {
		x.Ticks = append(x.Ticks, chart.Tick{Value: t.value, Label: t.text})
	}
	whole := chart.Chart{
		Width: pixels(r.width), Height: pixels(area.Bottom() - body.Y), DPI: dpi,
		Font:       &truetype.Font{}, // only told apart by the library, never read
		Background: background,
		Canvas:     frameless,
		XAxis:      x,
		YAxis:      chart.YAxis{Style: chart.Hidden(), Range: &chart.ContinuousRange{Min: 0, Max: 1}},
		// The library takes it for set by its range.
		YAxisSecondary: chart.HideYAxis(),
		Series:         []chart.Series{&series{r}},
	}
	provider := func(int, int) (chart.Renderer, error) {
		return &renderer{surface: s, origin: body.TopLeft()}, nil
	}
	if err := whole.Render(provider, io.Discard); err != nil {
		// Ranges of a finite length above zero are the only ones it is given.
		return
	}
}

// axisPen is the width of the axis.
const axisPen layout.Length = 1

// series is the chart library's view of the bars.
type series struct{ ruler *Ruler }

func (*series) GetName() string           { return "" }
func (*series) GetYAxis() chart.YAxisType { return chart.YAxisPrimary }
func (*series) GetStyle() chart.Style     { return chart.Style{} }
func (*series) Validate() error           { return nil }

// Render draws the bars into the frame that the library has left for them,
// with the range's own numbers instead of its whole-number grid.
func (s *series) Render(r chart.Renderer, box chart.Box, x, _ chart.Range, _ chart.Style) {
	page := r.(*renderer)
	a, b := page.at(box.Left, box.Top), page.at(box.Right, box.Bottom)
	s.ruler.draw(page.surface, layout.Rect{X: a.X, Y: a.Y, W: b.X - a.X, H: b.Y - a.Y}, x)
}

package chart

import (
	"io"
	"math"

	"github.com/golang/freetype/truetype"
	chart "github.com/wcharczuk/go-chart/v2"
	"github.com/wcharczuk/go-chart/v2/drawing"

	"gaugesheet/layout"
)

// dpi is the resolution of the chart library's whole-number grid. Its fixed
// distances (10 units from axis to label) suit type of 7 to 9 pt at 144.
const dpi = 144

// unit is one step of that grid on the page.
const unit layout.Length = 72.0 / dpi

// A renderer lets the chart library draw on a Surface. The library sets
// styles, then draws an outline step by step and measures text in between, so
// the outline is kept here until it is painted.
type renderer struct {
	surface layout.Surface
	origin  layout.Point // of the chart on the page

	path    layout.Path
	current layout.Point

	stroke, fill, ink drawing.Color
	width             float64 // in units
	dash              []float64
	size              float64 // of type, in points
	turn              float64 // of text, radians clockwise
}

var _ chart.Renderer = (*renderer)(nil)

// at is a place of the library's grid on the page.
func (r *renderer) at(x, y int) layout.Point {
	return r.origin.Add(layout.Length(x)*unit, layout.Length(y)*unit)
}

func (r *renderer) ResetStyle() {
	r.stroke, r.fill, r.ink = drawing.Color{}, drawing.Color{}, drawing.Color{}
	r.width, r.dash, r.size, r.turn = 0, nil, 0, 0
}

func (r *renderer) GetDPI() float64                   { return dpi }
func (r *renderer) SetDPI(float64)                    {} // the grid is fixed
func (r *renderer) SetClassName(string)               {}
func (r *renderer) SetStrokeColor(c drawing.Color)    { r.stroke = c }
func (r *renderer) SetFillColor(c drawing.Color)      { r.fill = c }
func (r *renderer) SetStrokeWidth(width float64)      { r.width = width }
func (r *renderer) SetStrokeDashArray(dash []float64) { r.dash = dash }
func (r *renderer) SetFont(*truetype.Font)            {} // the page has one family
func (r *renderer) SetFontColor(c drawing.Color)      { r.ink = c }
func (r *renderer) SetFontSize(points float64)        { r.size = points }
func (r *renderer) SetTextRotation(radians float64)   { r.turn = radians }
func (r *renderer) ClearTextRotation()                { r.turn = 0 }
func (r *renderer) Save(io.Writer) error              { return nil }
func (r *renderer) move(p layout.Point)               { r.path, r.current = r.path.MoveTo(p), p }
func (r *renderer) MoveTo(x, y int)                   { r.move(r.at(x, y)) }
func (r *renderer) face() layout.Face                 { return layout.Face{Size: layout.Length(r.size)} }
func ink(c drawing.Color) layout.Color                { return layout.Color{R: c.R, G: c.G, B: c.B} }
func libraryColor(c layout.Color) drawing.Color       { return drawing.Color{R: c.R, G: c.G, B: c.B, A: 255} }
func (r *renderer) pointAt(x, y float64) layout.Point {
	return r.origin.Add(layout.Length(x)*unit, layout.Length(y)*unit)
}

// LineTo starts an outline where none was begun, as the library's own
// renderers do.
func (r *renderer) LineTo(x, y int) { r.line(r.at(x, y)) }

func (r *renderer) line(p layout.Point) {
	if len(r.path) == 0 {
		r.move(p)
		return
	}
	r.path, r.current = r.path.LineTo(p), p
}

// QuadCurveTo raises the curve's degree: each control point of the cubic lies
// two thirds of the way from an end to the one control point.
func (r *renderer) QuadCurveTo(cx, cy, x, y int) {
	control, end := r.at(cx, cy), r.at(x, y)
	if len(r.path) == 0 {
		r.move(control)
	}
	toward := func(p layout.Point) layout.Point {
		return p.Add(2*(control.X-p.X)/3, 2*(control.Y-p.Y)/3)
	}
	r.path = r.path.CubicTo(toward(r.current), toward(end), end)
	r.current = end
}

// ArcTo goes straight to the arc's start and on along it, in steps of at most
// 45 degrees. Angles are radians from three o'clock, clockwise on the page.
func (r *renderer) ArcTo(cx, cy int, rx, ry, start, delta float64) {
	on := func(a float64) (x, y, dx, dy float64) {
		sin, cos := math.Sincos(a)
		return float64(cx) + rx*cos, float64(cy) + ry*sin, -rx * sin, ry * cos
	}
	x0, y0, dx0, dy0 := on(start)
	r.line(r.pointAt(x0, y0))
	steps := int(math.Ceil(math.Abs(delta) / (math.Pi / 4)))
	for i := range steps {
		step := delta / float64(steps)
		k := 4.0 / 3 * math.Tan(step/4)
		x1, y1, dx1, dy1 := on(start + step*float64(i+1))
		r.current = r.pointAt(x1, y1)
		r.path = r.path.CubicTo(r.pointAt(x0+k*dx0, y0+k*dy0), r.pointAt(x1-k*dx1, y1-k*dy1), r.current)
		x0, y0, dx0, dy0 = x1, y1, dx1, dy1
	}
}

func (r *renderer) Close()      { r.path = r.path.Close() }
func (r *renderer) Stroke()     { r.paint(false, true) }
func (r *renderer) Fill()       { r.paint(true, false) }
func (r *renderer) FillStroke() { r.paint(true, true) }

// paint paints the outline and forgets it. A colour without opacity is the
// library's word for none.
func (r *renderer) paint(fill, stroke bool) {
	if fill && r.fill.A > 0 {
		r.surface.Fill(r.path, ink(r.fill))
	}
	if stroke && r.stroke.A > 0 && r.width > 0 && len(r.path) > 0 {
		pen := layout.Pen{Width: layout.Length(r.width) * unit, Color: ink(r.stroke)}
		for _, d := range r.dash {
			pen.Dash = append(pen.Dash, layout.Length(d)*unit)
		}
		r.surface.Stroke(r.path, pen)
	}
	r.path, r.dash = nil, nil
}

// Circle paints at once: some callers paint afterwards, some do not.
func (r *renderer) Circle(radius float64, x, y int) {
	r.path = layout.Circle(r.at(x, y), layout.Length(radius)*unit)
	r.paint(true, true)
}

// Text sets text with the left end of its baseline at a place.
func (r *renderer) Text(body string, x, y int) {
	if body == "" || r.ink.A == 0 {
		return
	}
	p := r.at(x, y)
	draw := func() { r.surface.Text(p, body, r.face(), ink(r.ink)) }
	if r.turn == 0 {
		draw()
		return
	}
	r.surface.Rotate(r.turn*180/math.Pi, p, draw)
}

// MeasureText gives the box of a text in units, as high as a capital letter:
// the library centres by half of it, and numbers have no descenders.
func (r *renderer) MeasureText(body string) chart.Box {
	f := r.face()
	up := func(l layout.Length) int { return int(math.Ceil(float64(l / unit))) }
	box := chart.Box{Right: up(r.surface.Width(body, f)), Bottom: up(r.surface.CapHeight(f))}
	if r.turn != 0 {
		return box.Corners().Rotate(r.turn * 180 / math.Pi).Box()
	}
	return box
}

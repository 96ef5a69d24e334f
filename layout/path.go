package layout

import "math"

// An Op is one step of a Path.
type Op uint8

// The steps a path is made of. Points holds one point for Move and Line,
// three (two controls and the end) for Cubic, none for Close.
const (
	Move Op = iota
	Line
	Cubic
	Close
)

// A Segment is one step of a path with its points.
type Segment struct {
	Op Op
	P  [3]Point
}

// A Path is an outline as a value. It is built with its methods and handed to
// a Surface in one call; a surface has no current point.
type Path []Segment

// MoveTo starts a new outline at p.
func (p Path) MoveTo(pt Point) Path { return append(p, Segment{Op: Move, P: [3]Point{pt}}) }

// LineTo goes straight on to p.
func (p Path) LineTo(pt Point) Path { return append(p, Segment{Op: Line, P: [3]Point{pt}}) }

// CubicTo goes on to end by the two control points.
func (p Path) CubicTo(c1, c2, end Point) Path {
	return append(p, Segment{Op: Cubic, P: [3]Point{c1, c2, end}})
}

// Close closes the outline to its start.
func (p Path) Close() Path { return append(p, Segment{Op: Close}) }

// Polyline is the open outline through the points.
func Polyline(points ...Point) Path {
	var p Path
	for i, pt := range points {
		if i == 0 {
			p = p.MoveTo(pt)
			continue
		}
		p = p.LineTo(pt)
	}
	return p
}

// Polygon is the closed outline through the points.
func Polygon(points ...Point) Path { return Polyline(points...).Close() }

// RectPath is the outline of an area.
func RectPath(r Rect) Path {
	return Polygon(Point{r.X, r.Y}, Point{r.Right(), r.Y}, Point{r.Right(), r.Bottom()}, Point{r.X, r.Bottom()})
}

// RoundRect is the outline of an area with rounded corners of the given radius.
func RoundRect(r Rect, radius Length) Path {
	radius = min(radius, r.W/2, r.H/2)
	if radius <= 0 {
		return RectPath(r)
	}
	var p Path
	p = p.MoveTo(Point{r.X + radius, r.Y}).LineTo(Point{r.Right() - radius, r.Y})
	p = p.arc(Point{r.Right() - radius, r.Y + radius}, radius, -90, 90)
	p = p.LineTo(Point{r.Right(), r.Bottom() - radius})
	p = p.arc(Point{r.Right() - radius, r.Bottom() - radius}, radius, 0, 90)
	p = p.LineTo(Point{r.X + radius, r.Bottom()})
	p = p.arc(Point{r.X + radius, r.Bottom() - radius}, radius, 90, 90)
	p = p.LineTo(Point{r.X, r.Y + radius})
	p = p.arc(Point{r.X + radius, r.Y + radius}, radius, 180, 90)
	return p.Close()
}

// Circle is the outline of a circle.
func Circle(center Point, radius Length) Path {
	return Arc(center, radius, 0, 360).Close()
}

// Arc is the open outline of part of a circle: from start (0 is three
// o'clock) through sweep degrees, clockwise where sweep is positive.
func Arc(center Point, radius Length, start, sweep float64) Path {
	p := Path{}.MoveTo(onCircle(center, radius, start))
	return p.arc(center, radius, start, sweep)
}

// arc goes on along a circle in steps of at most 45 degrees; with control
// lengths of 4/3 tan(step/4) the outline is within 0.0005 % of the radius.
func (p Path) arc(center Point, radius Length, start, sweep float64) Path {
	steps := int(math.Ceil(math.Abs(sweep) / 45))
	if steps == 0 {
		return p
	}
	step := sweep / float64(steps)
	k := Length(4.0/3*math.Tan(step*math.Pi/180/4)) * radius
	for i := range steps {
		a, b := start+float64(i)*step, start+float64(i+1)*step
		sa, ca := math.Sincos(a * math.Pi / 180)
		sb, cb := math.Sincos(b * math.Pi / 180)
		from, to := onCircle(center, radius, a), onCircle(center, radius, b)
		p = p.CubicTo(from.Add(-k*Length(sa), k*Length(ca)), to.Add(k*Length(sb), -k*Length(cb)), to)
	}
	return p
}

func onCircle(center Point, radius Length, degrees float64) Point {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	return center.Add(radius*Length(cos), radius*Length(sin))
}

// Hatching is parallel lines across an area, a step apart, to be clipped to it:
// rising to the right where way is 1 and falling where it is -1. All of them are
// one path, so that a pattern is one stroke on the page.
func Hatching(area Rect, step, way Length) Path {
	const slope = 1.41421356 // lines a step apart are this much apart along an edge
	var lines Path
	for x := area.X - area.H; x < area.Right(); x += step * slope {
		from, to := Point{x, area.Bottom()}, Point{x + area.H, area.Y}
		if way < 0 {
			from.Y, to.Y = to.Y, from.Y
		}
		lines = lines.MoveTo(from).LineTo(to)
	}
	return lines
}

// Whisker is a level line with a stroke across either end, half above the line
// and half below it.
func Whisker(left, right, y, half Length) Path {
	p := Polyline(Point{left, y}, Point{right, y})
	for _, x := range []Length{left, right} {
		p = p.MoveTo(Point{x, y - half}).LineTo(Point{x, y + half})
	}
	return p
}

// Bounds is the smallest area that holds every point of the path, control
// points included.
func (p Path) Bounds() Rect {
	first := true
	var x0, y0, x1, y1 Length
	for _, s := range p {
		for _, pt := range s.Points() {
			if first {
				x0, y0, x1, y1, first = pt.X, pt.Y, pt.X, pt.Y, false
				continue
			}
			x0, y0, x1, y1 = min(x0, pt.X), min(y0, pt.Y), max(x1, pt.X), max(y1, pt.Y)
		}
	}
	return Rect{x0, y0, x1 - x0, y1 - y0}
}

// Points are the points that the step uses.
func (s Segment) Points() []Point {
	switch s.Op {
	case Move, Line:
		return s.P[:1]
	case Cubic:
		return s.P[:3]
	}
	return nil
}

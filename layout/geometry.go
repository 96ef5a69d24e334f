// Package layout is the page: lengths, areas, ink and text, laid out once and
// then drawn onto a Surface; it knows millimetres and type, and nothing of engines
// or of how a surface writes its file.
//
// # Coordinates
//
// The origin is the top left corner of the page, x runs right and y runs
// down. All lengths are in points of 1/72 inch; only a Surface's own back end
// converts them. Angles are in degrees, positive clockwise as seen on the page.
package layout

import "math"

// A Length is a distance on the page in points of 1/72 inch.
type Length float64

// Units of length.
const (
	Pt   Length = 1
	Inch Length = 72
	MM   Length = 72 / 25.4
)

// MM gives the length in millimetres, as messages to people state it.
func (l Length) MM() float64 { return float64(l / MM) }

// Round gives the length rounded to 0.01 pt. Back ends draw rounded
// coordinates, so that a page does not depend on the last bit of a float.
func (l Length) Round() Length { return Length(math.Round(float64(l)*100) / 100) }

// A Point is a place on the page.
type Point struct{ X, Y Length }

// Add gives the point moved by dx and dy.
func (p Point) Add(dx, dy Length) Point { return Point{p.X + dx, p.Y + dy} }

// A Size is a width and a height.
type Size struct{ W, H Length }

// A Rect is an area of the page: its top left corner and its size.
type Rect struct{ X, Y, W, H Length }

// Right is the x of the right edge.
func (r Rect) Right() Length { return r.X + r.W }

// Bottom is the y of the lower edge.
func (r Rect) Bottom() Length { return r.Y + r.H }

// Center is the middle of the area.
func (r Rect) Center() Point { return Point{r.X + r.W/2, r.Y + r.H/2} }

// TopLeft is the corner the area hangs from.
func (r Rect) TopLeft() Point { return Point{r.X, r.Y} }

// Inset gives the area without a margin of d on every side.
func (r Rect) Inset(d Length) Rect { return r.InsetXY(d, d) }

// InsetXY gives the area without dx at left and right and dy at top and bottom.
func (r Rect) InsetXY(dx, dy Length) Rect {
	return Rect{r.X + dx, r.Y + dy, r.W - 2*dx, r.H - 2*dy}
}

// SplitLeft cuts w off the left side.
func (r Rect) SplitLeft(w Length) (left, rest Rect) {
	return Rect{r.X, r.Y, w, r.H}, Rect{r.X + w, r.Y, r.W - w, r.H}
}

// SplitTop cuts h off the top.
func (r Rect) SplitTop(h Length) (top, rest Rect) {
	return Rect{r.X, r.Y, r.W, h}, Rect{r.X, r.Y + h, r.W, r.H - h}
}

// Columns divides the area into n equal columns with gap between them.
func (r Rect) Columns(n int, gap Length) []Rect {
	w := (r.W - gap*Length(n-1)) / Length(n)
	columns := make([]Rect, n)
	for i := range columns {
		columns[i] = Rect{r.X + Length(i)*(w+gap), r.Y, w, r.H}
	}
	return columns
}

// Contains reports whether o lies in r, with a tolerance of 0.01 pt.
func (r Rect) Contains(o Rect) bool {
	const eps = 0.01
	return o.X >= r.X-eps && o.Y >= r.Y-eps && o.Right() <= r.Right()+eps && o.Bottom() <= r.Bottom()+eps
}

// Overlaps reports whether two areas share more than 0.01 pt in both directions.
func (r Rect) Overlaps(o Rect) bool {
	const eps = 0.01
	return r.X < o.Right()-eps && o.X < r.Right()-eps && r.Y < o.Bottom()-eps && o.Y < r.Bottom()-eps
}

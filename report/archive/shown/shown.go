// Package shown reads what a page of a PDF shows, as a list of marks in the
// order in which they are made (letters, areas, lines, pictures, each with its
// place on the paper, its shape and its colour), and knows nothing of what they
// mean. How a program wrote that down
// (its order of operators, its scale, its names for fonts) is gone from it, so
// that two pages show the same where their lists are the same.
//
// It knows what pages of ours draw with and what programs make of these when
// they save them, and no more: anything else that a page draws with is an
// *UnknownError. Nothing is taken on trust: a letter is the outline in the
// type that is embedded, beside the character that it claims to be.
package shown

import (
	"fmt"
	"math"

	"gaugesheet/report/archive/pdffile"
)

// A Kind of mark.
type Kind byte

// The kinds of marks.
const (
	Letter  Kind = 'T'
	Area    Kind = 'f'
	Line    Kind = 'S'
	Picture Kind = 'I'
	Inset   Kind = 'X' // a part of its own that draws in ways that are not read
	Spoken  Kind = 'A' // a text that is read aloud, searched and copied instead of what is seen
)

// A Mark is one thing that a page shows.
type Mark struct {
	Kind Kind
	Text string // of a letter; "" where the type does not say
	Size float64
	Box  Box // about where it is
	// Reach is where it may show at most, whatever it says: outlines of letters
	// can go beyond the area that their type gives them, corners beyond a line.
	Reach Box
	// look is what it looks like but for its measures, measures are its places
	// and widths in points from the paper's lower left corner.
	look     string
	ink      colour
	measures []float64
	places   int // of a line's outline among the measures
	picture  *pdffile.Stream
	file     *pdffile.File // which has the picture
}

// A Box is an area of the paper in points.
type Box struct{ X0, Y0, X1, Y1 float64 }

// Overlaps tells whether two boxes have an area in common.
func (b Box) Overlaps(c Box) bool {
	return b.X0 < c.X1 && c.X0 < b.X1 && b.Y0 < c.Y1 && c.Y0 < b.Y1
}

// Touches tells whether something of a mark lies in a box. Of a line only its
// pieces count, not what it goes around.
func (m Mark) Touches(b Box) bool {
	if !m.Box.Overlaps(b) || m.Kind != Line {
		return m.Box.Overlaps(b)
	}
	half := m.measures[0]/2 + 0.01
	points := m.measures[3 : 3+2*m.places]
	for i := 0; i+3 < len(points); i += 2 {
		if boxOf(points[i : i+4]).Grown(half).Overlaps(b) {
			return true
		}
	}
	n := len(points) // closing it
	return n >= 4 && boxOf([]float64{points[0], points[1], points[n-2], points[n-1]}).Grown(half).Overlaps(b)
}

// contains allows for rounding.
func (b Box) contains(c Box) bool {
	const slack = 0.05
	return b.X0 <= c.X0+slack && b.Y0 <= c.Y0+slack && b.X1 >= c.X1-slack && b.Y1 >= c.Y1-slack
}

// cut is what of a box is in another.
func (b Box) cut(c Box) Box {
	return Box{max(b.X0, c.X0), max(b.Y0, c.Y0), min(b.X1, c.X1), min(b.Y1, c.Y1)}
}

// around is a box with another in it; an empty one counts for nothing.
func (b Box) around(c Box) Box {
	if b == (Box{}) {
		return c
	}
	return Box{min(b.X0, c.X0), min(b.Y0, c.Y0), max(b.X1, c.X1), max(b.Y1, c.Y1)}
}

// everywhere is all of the page, and beyond.
var everywhere = Box{-1e6, -1e6, 1e6, 1e6}

// Grown is the box with so much more on each side.
func (b Box) Grown(by float64) Box { return Box{b.X0 - by, b.Y0 - by, b.X1 + by, b.Y1 + by} }

func boxOf(points []float64) Box {
	b := Box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	for i := 0; i+1 < len(points); i += 2 {
		b.X0, b.X1 = min(b.X0, points[i]), max(b.X1, points[i])
		b.Y0, b.Y1 = min(b.Y0, points[i+1]), max(b.Y1, points[i+1])
	}
	return b
}

// Same tells whether two marks look the same, their measures within so many
// points of each other.
func Same(a, b Mark, within float64) bool {
	if a.Kind != b.Kind || a.Text != b.Text || a.look != b.look || !a.ink.same(b.ink, within) || len(a.measures) != len(b.measures) {
		return false
	}
	for i, v := range a.measures {
		if !(math.Abs(v-b.measures[i]) <= within) {
			return false
		}
	}
	return true
}

// An UnknownError names something that a page draws with, and that no page of
// ours and no program that saves one would.
type UnknownError struct{ What string }

func (e *UnknownError) Error() string { return "the page draws with " + e.What }

func unknown(format string, args ...any) error { return &UnknownError{fmt.Sprintf(format, args...)} }

// What a page may have: ours have a few thousand marks, and clips of one area.
const (
	most         = 50_000
	mostMeasures = 2_000_000
	mostClips    = 50
)

// Heard is a stretch of a page that is read aloud in one go: the number by which
// the document's tags know it (-1 where it has none), and its text, spaces too.
type Heard struct {
	Tag  pdffile.Name
	ID   int
	Text string
}

// other stands in what is heard for what is no letter.
const other = "\ufffc"

// Marks are what a page shows, and what is heard of it.
func Marks(f *pdffile.File, page pdffile.Page) ([]Mark, []Heard, error) {
	content, err := f.Content(page.Dict)
	if err != nil {
		return nil, nil, err
	}
	paper, err := f.Box(page.Dict["MediaBox"])
	if err != nil {
		return nil, nil, err
	}
	r := &reader{file: f, paper: Box{paper[0], paper[1], paper[2], paper[3]}, types: map[pdffile.Ref]*face{}, programs: map[*pdffile.Stream]*program{}}
	if err := r.draw(content, page.Dict["Resources"], initial(), 0); err != nil {
		return nil, nil, err
	}
	return r.marks, r.heard, nil
}

// A matrix maps places: x' = a x + c y + e, y' = b x + d y + f.
type matrix [6]float64

var identity = matrix{1, 0, 0, 1, 0, 0}

func (m matrix) times(n matrix) matrix {
	return matrix{
		m[0]*n[0] + m[1]*n[2], m[0]*n[1] + m[1]*n[3],
		m[2]*n[0] + m[3]*n[2], m[2]*n[1] + m[3]*n[3],
		m[4]*n[0] + m[5]*n[2] + n[4], m[4]*n[1] + m[5]*n[3] + n[5],
	}
}

func (m matrix) point(x, y float64) (float64, float64) {
	return m[0]*x + m[2]*y + m[4], m[1]*x + m[3]*y + m[5]
}

// corners are those of an area, mapped.
func (m matrix) corners(b Box) Box {
	var p []float64
	for _, c := range [][2]float64{{b.X0, b.Y0}, {b.X1, b.Y0}, {b.X0, b.Y1}, {b.X1, b.Y1}} {
		x, y := m.point(c[0], c[1])
		p = append(p, x, y)
	}
	return boxOf(p)
}

// reach is corners for an area that may be everywhere.
func (m matrix) reach(b Box) Box {
	if b == everywhere {
		return everywhere
	}
	return m.corners(b)
}

// scale is by how much lengths grow, all in all.
func (m matrix) scale() float64 { return math.Sqrt(math.Abs(m[0]*m[3] - m[1]*m[2])) }

// even tells whether lengths grow the same whichever way they lie, so that a pen
// stays round.
func (m matrix) even() bool {
	x, y := math.Hypot(m[0], m[1]), math.Hypot(m[2], m[3])
	return math.Abs(x-y) <= 1e-3*x && math.Abs(m[0]*m[2]+m[1]*m[3]) <= 1e-3*x*y
}

// Readers reckon with numbers of seven figures or of sixteen: places that come
// of the difference of far larger ones are others for the ones.
const (
	farthest = 1e5 // points
	largest  = 1e4 // times
)

// holds tells whether a place is mapped without such differences.
func (m matrix) holds(x, y float64) bool {
	for _, v := range []float64{m[0] * x, m[1] * x, m[2] * y, m[3] * y, m[4], m[5]} {
		if !(math.Abs(v) <= farthest) {
			return false
		}
	}
	return max(math.Abs(m[0]), math.Abs(m[1]), math.Abs(m[2]), math.Abs(m[3])) <= largest
}

var errRounding = unknown("places that are lost in rounding")

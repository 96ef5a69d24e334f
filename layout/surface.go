package layout

import "fmt"

// A Color is an opaque ink, red, green and blue in 0..255.
type Color struct{ R, G, B uint8 }

// String is the ink as six hexadecimal digits with a number sign.
func (c Color) String() string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

// A Pen strokes outlines. A width of zero or less draws nothing.
type Pen struct {
	Width Length
	Color Color
	Dash  []Length // lengths on and off in turn; none is a solid line
	Round bool     // round ends and joins instead of butt ends and mitred joins
}

// A Weight is one of the cuts of the page's type family.
type Weight uint8

// The cuts of the page's one family.
const (
	Regular Weight = iota
	Bold
)

// String names the cut as drawing tests write it.
func (w Weight) String() string {
	if w == Bold {
		return "bold"
	}
	return "regular"
}

// A Face is a cut at a size.
type Face struct {
	Weight Weight
	Size   Length
	Close  bool // lines of it stand closer than usual
}

// A Measurer knows the type that the page is set in, without a page.
// Widths are the sums of the glyphs' advances: nothing is kerned, in
// measuring as in drawing.
type Measurer interface {
	// Width is how far a line of text runs.
	Width(text string, f Face) Length
	// Ascent is the height of an ascender above the baseline, Descent the
	// depth below it (positive), CapHeight the height of a capital letter.
	Ascent(f Face) Length
	Descent(f Face) Length
	CapHeight(f Face) Length
	// Has reports whether the family has a shape for the character.
	Has(r rune) bool
}

// An Image is a picture in a file format that a Surface takes as it is.
type Image struct {
	Name string // unique on the page
	Kind string // "png" or "jpeg"
	Data []byte
	W, H int // pixels, as it stands on the page
	Turn Turn
}

// Stored is how many columns and rows a picture's data have.
func (i Image) Stored() (w, h int) {
	if i.Turn.Aside() {
		return i.H, i.W
	}
	return i.W, i.H
}

// A Surface is what a page is drawn on: paths, lines of text and pictures,
// each with its style given in the call. It keeps no current colour, pen,
// face or point, so that no drawing depends on what was drawn before it.
//
// Drawing cannot fail: what could be wrong is checked before it starts.
type Surface interface {
	Measurer

	// Fill fills an outline (non-zero winding).
	Fill(p Path, c Color)
	// Stroke draws along an outline.
	Stroke(p Path, pen Pen)
	// Text sets one line with the left end of its baseline at p.
	Text(p Point, text string, f Face, c Color)
	// Picture places a picture in an area, stretched to it.
	Picture(r Rect, img Image)
	// Clip draws what draw draws, inside the outline only.
	Clip(p Path, draw func())
	// Rotate draws what draw draws, turned by degrees clockwise about a point.
	Rotate(degrees float64, about Point, draw func())
	// Block draws what draw draws as the named part of the page: a recorder
	// notes where it starts and ends, an overlay draws its area.
	Block(name string, area Rect, draw func())
}

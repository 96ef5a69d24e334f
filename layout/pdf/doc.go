// Package pdf is the Surface that writes a one-page PDF (vectors, embedded type,
// attached files), and knows nothing of what is on the page. It is the only package that knows the PDF library,
// which keeps the page, its colours, pens, clips and turns; outlines and text are
// given to it as operators (operators.go), and the type and the end of the file, with
// what the library cannot say, are written here (face.go and tail.go).
//
// A document is a function of what it was given: it holds no clock reading
// and no random number, and the same job gives the same bytes. They may change
// with the Go release, whose compressor may.
package pdf

import (
	"bytes"
	"fmt"
	"strings"
	"time"

	"github.com/go-pdf/fpdf"

	"gaugesheet/layout"
	"gaugesheet/layout/face"
)

// Options say what a document is.
type Options struct {
	Paper layout.Size

	Title, Author, Subject string
	Keywords, Creator      string
	Lang                   string    // BCP 47 tag: en, en-GB
	Created                time.Time // date of creation and change, of attachments too; zero is 1 January 2000

	Attachments []Attachment
}

// An Attachment is a file that travels inside the document.
type Attachment struct {
	Name        string // as a reader shows and saves it
	Type        string // media type: application/yaml
	Description string
	Data        []byte
}

// Doc is a document of one page. It is drawn on by one goroutine; several
// documents may be drawn at once.
type Doc struct {
	layout.Measurer

	opt  Options
	pdf  *fpdf.Fpdf
	pen  layout.Pen   // as the page's state has it
	fill layout.Color // likewise
	face layout.Face  // likewise
	// known is false where the state is not known: at the start and after a
	// scope, since the page goes back to the state before it but the library
	// does not.
	known struct{ pen, fill, face bool }
	faces [2]*usedFace // by weight; nil where the document does not use it
	parts parts
	room  []byte // for what is written next

	pictures []layout.Image // in the order in which they are first shown
}

// noDate stands where no date was given: the program reads no clock.
var noDate = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)

// New starts a document.
func New(opt Options) *Doc {
	if opt.Created.IsZero() {
		opt.Created = noDate
	}
	f := fpdf.NewCustom(&fpdf.InitType{
		OrientationStr: "P", // the library swaps nothing for portrait, whatever the shape
		UnitStr:        "pt",
		Size:           fpdf.SizeType{Wd: float64(opt.Paper.W.Round()), Ht: float64(opt.Paper.H.Round())},
	})
	f.SetCatalogSort(true)
	f.SetCompression(false) // the page is packed with the rest, see tail.go
	f.SetCreationDate(opt.Created)
	f.SetModificationDate(opt.Created)
	f.SetMargins(0, 0, 0)
	f.SetAutoPageBreak(false, 0)
	f.AddPage()
	return &Doc{Measurer: face.Metrics(), opt: opt, pdf: f, parts: newParts()}
}

// roomForPage is about what the library writes of a full page.
const roomForPage = 80 << 10

// Bytes ends the document and gives the file. A document gives it once.
func (d *Doc) Bytes() ([]byte, error) {
	d.endStretch()
	var b bytes.Buffer
	b.Grow(roomForPage)
	if err := d.pdf.Output(&b); err != nil {
		return nil, fmt.Errorf("write the document: %w", err)
	}
	return d.finish(b.Bytes())
}

// Fill fills an outline by the non-zero winding rule.
func (d *Doc) Fill(p layout.Path, c layout.Color) {
	if len(p) == 0 {
		return
	}
	d.shape()
	d.setFill(c)
	d.write(append(d.outline(p), 'f'))
}

// Stroke draws along an outline; a pen without width draws nothing.
func (d *Doc) Stroke(p layout.Path, pen layout.Pen) {
	if len(p) == 0 || pen.Width.Round() <= 0 {
		return
	}
	d.shape()
	d.setPen(pen)
	d.write(append(d.outline(p), 'S'))
}

// Text sets one line with the left end of its baseline at p. One that is in no
// part is a paragraph.
func (d *Doc) Text(p layout.Point, text string, f layout.Face, c layout.Color) {
	if text == "" {
		return
	}
	if f.Weight != layout.Bold {
		f.Weight = layout.Regular
	}
	text = strings.Map(d.printable, text)
	if d.parts.open.holds == elements {
		d.Tag(layout.Tag{Kind: layout.Paragraph}, func() { d.text(p, text, f, c) })
		return
	}
	d.text(p, text, f, c)
}

func (d *Doc) text(p layout.Point, text string, f layout.Face, c layout.Color) {
	d.writeText(!d.parts.joined && text[0] != ' ')
	d.parts.joined = false
	d.stretch()
	d.setFill(c)
	d.parts.waiting = &waiting{p, text, f, d.parts.open}
}

// printable replaces what the faces lack, on which the library would fail or
// draw an empty box: callers ask Has before they lay text out. A no-break
// space has done its work when text is laid out; written as the plain space
// that looks the same, it is found by who searches the page for "152 psi".
func (d *Doc) printable(r rune) rune {
	if r == '\u00a0' {
		return ' '
	}
	if d.Has(r) {
		return r
	}
	return '?'
}

// Clip draws inside the outline only.
func (d *Doc) Clip(p layout.Path, draw func()) {
	d.scope(func() {
		d.write(append(d.outline(p), "W n"...))
		draw()
	})
}

// Rotate draws turned by degrees clockwise about a point.
func (d *Doc) Rotate(degrees float64, about layout.Point, draw func()) {
	d.scope(func() {
		d.pdf.TransformRotate(-degrees, float64(about.X.Round()), float64(about.Y.Round()))
		draw()
	})
}

// Block draws what draw draws as a part of the page.
func (d *Doc) Block(_ string, _ layout.Rect, draw func()) {
	d.Tag(layout.Tag{Kind: layout.Group}, draw)
}

func (d *Doc) scope(draw func()) {
	d.scoped(func() {
		d.pdf.TransformBegin()
		draw()
	})
	d.pdf.TransformEnd()
	d.known.pen, d.known.fill, d.known.face = false, false, false
}

func (d *Doc) setFill(c layout.Color) {
	if d.known.fill && d.fill == c {
		return
	}
	d.pdf.SetFillColor(int(c.R), int(c.G), int(c.B))
	d.fill, d.known.fill = c, true
}

func (d *Doc) setPen(pen layout.Pen) {
	fresh := !d.known.pen
	if fresh || d.pen.Color != pen.Color {
		d.pdf.SetDrawColor(int(pen.Color.R), int(pen.Color.G), int(pen.Color.B))
	}
	if fresh || d.pen.Width != pen.Width {
		d.pdf.SetLineWidth(float64(pen.Width.Round()))
	}
	if fresh || d.pen.Round != pen.Round {
		ends, joins := "butt", "miter"
		if pen.Round {
			ends, joins = "round", "round"
		}
		d.pdf.SetLineCapStyle(ends)
		d.pdf.SetLineJoinStyle(joins)
	}
	if fresh || !equal(d.pen.Dash, pen.Dash) {
		dash := make([]float64, len(pen.Dash))
		for i, l := range pen.Dash {
			dash[i] = float64(l.Round())
		}
		d.pdf.SetDashPattern(dash, 0)
	}
	d.pen, d.known.pen = pen, true
}

func equal(a, b []layout.Length) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

// used is a face of the document; the first use puts it there, so that a document
// holds no face it does not use.
func (d *Doc) used(f layout.Face) *usedFace {
	if d.faces[f.Weight] == nil {
		d.faces[f.Weight] = newUsedFace(f.Weight)
		d.pdf.AddFontFromBytes(family, styles[f.Weight], d.faces[f.Weight].standIn(), nil)
	}
	return d.faces[f.Weight]
}

// family and styles are the faces' names for the library.
const family = "sheet"

var styles = [...]string{layout.Regular: "", layout.Bold: "B"}

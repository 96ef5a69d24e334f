package pdf

import (
	"strconv"

	"gaugesheet/layout"
)

// What a page draws is divided into stretches. Each belongs to one element of
// the structure tree, by which programs read the page out, or is an artifact:
// lines and grounds that say nothing (ISO 32000-1, 14.6 to 14.8). Stretches
// are never within one another.

// An element is a part of the page in the structure tree.
type element struct {
	kind   string // a standard structure type: "P"
	alt    string
	area   layout.Rect
	scope  string // of a heading cell
	span   int
	holds  holding
	parent *element
	kids   []kid
	number int // of its object
}

// A holding is what may be in an element.
type holding uint8

const (
	elements holding = iota // other elements
	words                   // text, and pictures among it
	picture                 // anything, of which nothing is read
	artifact                // the same, of what is no element
)

// A kid is what an element holds: another one, or a stretch of what the page
// draws by its number.
type kid struct {
	element *element
	stretch int
}

// kinds are the elements of parts. An item of a list holds its words in a body.
var kinds = map[layout.TagKind]element{
	layout.Group:       {kind: "Div"},
	layout.Heading1:    {kind: "H1", holds: words},
	layout.Heading2:    {kind: "H2", holds: words},
	layout.Paragraph:   {kind: "P", holds: words},
	layout.List:        {kind: "L"},
	layout.Item:        {kind: "LI"},
	layout.ItemOfParts: {kind: "LI"},
	layout.Table:       {kind: "Table"},
	layout.TableRow:    {kind: "TR"},
	layout.HeadAbove:   {kind: "TH", holds: words, scope: "Column"},
	layout.HeadLeft:    {kind: "TH", holds: words, scope: "Row"},
	layout.DataCell:    {kind: "TD", holds: words},
	layout.Picture:     {kind: "Figure", holds: picture},
	layout.Decoration:  {holds: artifact},
}

// parts are a page's elements and stretches in the making.
type parts struct {
	root   *element
	open   *element   // the innermost that is being drawn
	owners []*element // of the stretches, by number

	marked  *element // whose stretch is open; nil for none
	heading bool     // the page has a heading of its own
	joined  bool     // the next text goes on where the last one ended
	waiting *waiting // the last text, not yet written
}

// A waiting text is written when it is known whether a space has to part it
// from the next one of its element: whoever hears a page, or copies from it,
// knows nothing of lines.
type waiting struct {
	at   layout.Point
	text string
	face layout.Face
	of   *element
}

// decoration owns the stretches that are no part of an element.
var decoration = &element{holds: artifact}

func newParts() parts {
	root := &element{kind: "Document"}
	return parts{root: root, open: root}
}

// Tag draws a part of the page.
func (d *Doc) Tag(t layout.Tag, draw func()) {
	in := d.parts.open
	among := in.holds == words && t.Kind != layout.Picture && t.Kind != layout.Decoration
	if in.holds >= picture || among || t.Kind == layout.Picture && t.Alt == "" {
		draw()
		return
	}
	e := kinds[t.Kind]
	e.alt, e.area, e.span, e.parent = t.Alt, t.Area, t.Span, in
	if e.kind == "H1" || e.kind == "H2" && !d.parts.heading { // the first heading of a page is that of all
		e.kind, d.parts.heading = "H1", true
	}
	d.part(&e, func() {
		switch t.Kind {
		case layout.Item:
			d.part(&element{kind: "LBody", holds: words, parent: &e}, draw)
		case layout.ItemOfParts:
			d.part(&element{kind: "LBody", parent: &e}, draw)
		default:
			draw()
		}
	})
}

// part draws an element. One in which nothing was drawn is none, unless a row of
// a table would lack it.
func (d *Doc) part(e *element, draw func()) {
	d.writeText(true)
	d.endStretch()
	p := &d.parts
	p.open = e
	draw()
	d.endStretch()
	p.open = e.parent
	if e.kind != "" && (len(e.kids) > 0 || e.kind == "TD" || e.kind == "TH") {
		e.parent.kids = append(e.parent.kids, kid{element: e})
	}
}

// Join lets the next text go on where the last one ended.
func (d *Doc) Join() { d.parts.joined = true }

// stretch has what is drawn next belong to the part that is open.
func (d *Doc) stretch() {
	p, of := &d.parts, d.parts.open
	if of.holds == elements || of.holds == artifact {
		of = decoration
	}
	if p.marked == of {
		return
	}
	d.endStretch()
	p.marked = of
	if of == decoration {
		d.pdf.RawWriteStr("/Artifact BMC")
		return
	}
	d.pdf.RawWriteStr("/" + of.kind + " <</MCID " + strconv.Itoa(len(p.owners)) + ">>BDC")
	of.kids = append(of.kids, kid{stretch: len(p.owners)})
	p.owners = append(p.owners, of)
}

// endStretch ends the stretch that is open.
func (d *Doc) endStretch() {
	d.writeText(false)
	if d.parts.marked != nil {
		d.pdf.RawWriteStr("EMC")
		d.parts.marked = nil
	}
}

// shape has an outline or a picture drawn next: after the text before it.
func (d *Doc) shape() {
	d.writeText(true)
	d.stretch()
}

// writeText writes the text that waits, with a space behind it where more of its
// part follows.
func (d *Doc) writeText(more bool) {
	w := d.parts.waiting
	if w == nil {
		return
	}
	d.parts.waiting = nil
	if more && w.of.holds == words && w.text[len(w.text)-1] != ' ' {
		w.text += " "
	}
	d.show(w)
}

// scoped draws within a state of its own: a stretch does not reach into it from
// outside, or out of it, unless it is of a picture, whose stretch is around it.
func (d *Doc) scoped(draw func()) {
	whole := d.parts.open.holds >= picture
	if whole {
		d.shape()
	} else {
		d.writeText(true)
		d.endStretch()
	}
	draw()
	d.writeText(true)
	if !whole {
		d.endStretch()
	}
}

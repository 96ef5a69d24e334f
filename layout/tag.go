package layout

// A TagKind is what a part of a page is, where a Role is how it looks: for
// whoever hears the page instead of seeing it, and for programs that take it
// apart.
type TagKind uint8

// The kinds. What is neither in a paragraph nor in another part that holds
// words or a picture is decoration, and is not read out.
const (
	Group       TagKind = iota // parts that belong together
	Heading1                   // of the page
	Heading2                   // of a block
	Paragraph                  // words
	List                       // of items, and of nothing else
	Item                       // of a list: words
	ItemOfParts                // of a list: paragraphs
	Table                      // of rows, and of nothing else
	TableRow                   // of heads and cells, and of nothing else
	HeadAbove                  // a cell that says what those under it are
	HeadLeft                   // a cell that says what those at its right are
	DataCell                   // any other
	Picture                    // what Alt says in words; what is in it is not read
	Decoration                 // words that stand elsewhere too
)

// A Tag says what a part is.
type Tag struct {
	Kind TagKind
	Alt  string // of a picture: what it shows
	Area Rect   // of a picture: where it is
	Span int    // of a cell: over so many columns; 0 is one
}

// A Tagger is a Surface that keeps what its parts are.
type Tagger interface {
	// Tag draws what draw draws as a part that the tag says. Parts may be in
	// others as their kinds say. A picture may be among words too; any other part
	// among words, or in a picture, is one with them.
	Tag(t Tag, draw func())
	// Join says that the text that comes next goes on where the one before it
	// ended, without a space between them.
	Join()
}

// Draw draws a part, with its tag where the surface keeps it.
func (t Tag) Draw(s Surface, draw func()) {
	if tagger, ok := s.(Tagger); ok {
		tagger.Tag(t, draw)
		return
	}
	draw()
}

// Frame is a frame as a part; a picture's area is the frame's.
func (t Tag) Frame(f Frame) Frame {
	draw, richer := f.Draw, f.Richer
	f.Draw = func(s Surface, area Rect) {
		tag := t
		if tag.Kind == Picture {
			tag.Area = area
		}
		tag.Draw(s, func() { draw(s, area) })
	}
	if richer != nil {
		f.Richer = func(height Length) Frame { return t.Frame(richer(height)) }
	}
	return f
}

// join lets a surface know that text goes on.
func join(s Surface) {
	if tagger, ok := s.(Tagger); ok {
		tagger.Join()
	}
}

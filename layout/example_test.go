package layout_test

import (
	"fmt"

	"gaugesheet/layout"
	"gaugesheet/layout/face"
	"gaugesheet/layout/record"
)

// A note is a block of words that gives way to its first words on a full page.
type note struct{ name, text, short string }

func (n note) Name() string { return n.name }

func (n note) Lay(t layout.Theme, width layout.Length, d layout.Detail) layout.Frame {
	text := n.text
	if d != layout.Full {
		text = n.short
	}
	set := layout.Wrap(t.Measurer, width, layout.Run{Text: text, Face: t.Face(layout.Body), Color: t.Ink})
	return layout.Frame{Height: set.H, Draw: func(s layout.Surface, area layout.Rect) { set.Draw(s, area.TopLeft()) }}
}

// Two blocks under each other on a page with room for two lines: the one that the
// page names gives way.
func ExampleFit() {
	theme := layout.Theme{Measurer: face.Metrics(), Ink: layout.Color{}}
	theme.Sizes[layout.Body] = 10
	first := note{"first", "Compression is even in all four cylinders and above the book's minimum.", "Even."}
	second := note{"second", "Nothing to do.", "Nothing."}
	fitted, err := layout.Fit(layout.Page{
		Paper:    layout.Size{W: 200, H: 40},
		Area:     layout.Rect{X: 10, Y: 5, W: 180, H: 27},
		Rows:     []layout.Row{{Cells: []layout.Cell{{Blocks: []layout.Block{first, second}}}}},
		GivesWay: []layout.Step{{Block: "first", To: layout.Compact}},
	}, theme)
	if err != nil {
		fmt.Println(err)
		return
	}
	r := record.New(theme.Measurer)
	fitted.Draw(r)
	for _, text := range r.Texts() {
		fmt.Println(text.String)
	}
	fmt.Println(fitted.Levels)
	// Output:
	// Even.
	// Nothing to do.
	// map[first:compact]
}

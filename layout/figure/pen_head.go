package figure

import "gaugesheet/layout"

// NewPenMasthead is the block "head" of a sheet to be written on. At brief the
// line under the title is short, and stands behind it where it can.
func NewPenMasthead(d PenMasthead) layout.Block {
	return block{"head", func(t layout.Theme, width layout.Length, level layout.Detail) layout.Frame {
		shop := min(t.Measurer.Width(d.Shop, t.Face(layout.Heading)), width*0.4) + 1
		left := width - shop - wide
		role := layout.Title
		if level == layout.Brief {
			role = layout.Display
		}
		title := textFrame(t, d.Title, role, t.Ink, left)
		under := textFrame(t, d.Sub, layout.Label, t.Ink, width)
		if level == layout.Brief {
			under = textFrame(t, d.Brief, layout.Label, t.Ink, width)
			both := layout.Wrap(t.Measurer, left, run(t, role, t.Ink, d.Title+"  "), run(t, layout.Label, t.Ink, d.Brief))
			if len(both.Lines) == 1 {
				under = empty()
				title = layout.Frame{Height: both.H, Draw: func(s layout.Surface, a layout.Rect) { both.Draw(s, a.TopLeft()) }}
			}
		}
		named := beside(wide, column{left, heard(layout.Heading1, title)}, column{shop, alignRight(t, d.Shop, layout.Heading, t.Ink, shop)})
		gap := [...]layout.Length{layout.Full: small, layout.Compact: tight, layout.Brief: 1}[level]
		return stack(gap, stack(0, named, under), rule(layout.Pen{Width: 2.2, Color: t.Accent}))
	}}
}

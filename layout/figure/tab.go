package figure

import "gaugesheet/layout"

// A cylinder's number always stands in a tab, white on ink, on every figure,
// table and ruler; a reading never does. In grey, on a fax or in a photograph
// of the page no number is then read into a reading.

// tabPad is the ink at each side of a tab's number, in parts of its size.
const tabPad = 0.42

// TabSize is how large the tab of a number is in a face: a little wider than
// the number, and never narrower than it is high.
func TabSize(m layout.Measurer, number string, f layout.Face) layout.Size {
	f.Weight = layout.Bold
	h := m.CapHeight(f) + 0.62*f.Size
	return layout.Size{W: max(h, m.Width(number, f)+2*tabPad*f.Size), H: h}
}

// DrawTab draws a number in its tab about a point. An empty number draws
// nothing.
func DrawTab(s layout.Surface, t layout.Theme, number string, at layout.Point, f layout.Face) {
	if number == "" {
		return
	}
	f.Weight = layout.Bold
	size := TabSize(s, number, f)
	box := layout.Rect{X: at.X - size.W/2, Y: at.Y - size.H/2, W: size.W, H: size.H}
	s.Fill(layout.RoundRect(box, size.H*0.22), t.Ink)
	layout.TextMiddle(s, at, layout.Center, number, f, t.Paper)
}

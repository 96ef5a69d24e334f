package figure

import "gaugesheet/layout"

// A penTab is a cylinder's tab on a bench sheet: with its number, with a name
// in as many lines as it needs, or empty to write in.
type penTab struct {
	face  layout.Face
	lines []string
	size  layout.Size
}

// widestTab is the width at which a name goes on another line.
const widestTab = 16 * layout.MM

func newPenTab(t layout.Theme, number string) penTab {
	tab := penTab{face: t.Face(layout.Body), size: layout.Size{W: 7 * layout.MM, H: 5.8 * layout.MM}}
	if number == "" {
		return tab
	}
	tab.face.Weight = layout.Bold
	tab.lines = breakLines(t.Measurer, number, tab.face, widestTab)
	tab.size = layout.Size{}
	for _, l := range tab.lines {
		one := TabSize(t.Measurer, l, tab.face)
		tab.size.W, tab.size.H = max(tab.size.W, one.W), one.H
	}
	tab.size.H += layout.Length(len(tab.lines)-1) * lineHeight(tab.face)
	return tab
}

// draw draws the tab about a point.
func (p penTab) draw(s layout.Surface, t layout.Theme, at layout.Point) {
	box := layout.Rect{X: at.X - p.size.W/2, Y: at.Y - p.size.H/2, W: p.size.W, H: p.size.H}
	path := layout.RoundRect(box, TabSize(s, "0", p.face).H*0.22)
	if len(p.lines) == 0 {
		s.Fill(path, t.Paper)
		s.Stroke(path, layout.Pen{Width: outlinePen, Color: t.Ink})
		return
	}
	s.Fill(path, t.Ink)
	y := at.Y - layout.Length(len(p.lines)-1)*lineHeight(p.face)/2
	for _, l := range p.lines {
		layout.TextMiddle(s, layout.Point{X: at.X, Y: y}, layout.Center, l, p.face, t.Paper)
		y += lineHeight(p.face)
	}
}

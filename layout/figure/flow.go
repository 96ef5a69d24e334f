package figure

import "gaugesheet/layout"

// block is a layout.Block made of a name and the function that lays it out.
type block struct {
	name string
	lay  func(t layout.Theme, width layout.Length, d layout.Detail) layout.Frame
}

func (b block) Name() string { return b.name }

func (b block) Lay(t layout.Theme, width layout.Length, d layout.Detail) layout.Frame {
	return b.lay(t, width, d)
}

// empty is a frame of no height that draws nothing.
func empty() layout.Frame { return space(0) }

// space is a frame that only keeps a distance.
func space(h layout.Length) layout.Frame {
	return layout.Frame{Height: h, Draw: func(layout.Surface, layout.Rect) {}}
}

// stack puts frames under one another with a gap between those that have a
// height. Free height goes to the frames that can use it, by their Stretch.
func stack(gap layout.Length, frames ...layout.Frame) layout.Frame {
	return layout.Stack{Gap: gap}.Of(frames...)
}

// A column is a frame in a row with the width it was laid out for.
type column struct {
	width layout.Length
	frame layout.Frame
}

// beside puts columns next to one another. All are drawn as high as the
// highest.
func beside(gap layout.Length, columns ...column) layout.Frame {
	all := make([]layout.Column, len(columns))
	for i, c := range columns {
		all[i] = layout.Column{Width: c.width, Frame: c.frame}
	}
	return layout.Beside(gap, all...)
}

// inset keeps a distance around a frame. The frame must have been laid out for
// the width without left and right.
func inset(f layout.Frame, top, right, bottom, left layout.Length) layout.Frame {
	return layout.Frame{
		Height:  f.Height + top + bottom,
		Stretch: f.Stretch,
		Draw: func(s layout.Surface, a layout.Rect) {
			f.Draw(s, layout.Rect{X: a.X + left, Y: a.Y + top, W: a.W - left - right, H: a.H - top - bottom})
		},
	}
}

// behind draws a background before a frame, over the whole of its area.
func behind(f layout.Frame, draw func(s layout.Surface, area layout.Rect)) layout.Frame {
	front := f.Draw
	f.Draw = func(s layout.Surface, area layout.Rect) {
		draw(s, area)
		front(s, area)
	}
	return f
}

// rule is a horizontal line across a frame's width.
func rule(pen layout.Pen) layout.Frame {
	return layout.Frame{Height: pen.Width, Draw: func(s layout.Surface, a layout.Rect) {
		y := a.Y + pen.Width/2
		s.Stroke(layout.Polyline(layout.Point{X: a.X, Y: y}, layout.Point{X: a.Right(), Y: y}), pen)
	}}
}

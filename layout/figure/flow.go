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
	var parts []layout.Frame
	for _, f := range frames {
		if f.Height > 0 {
			parts = append(parts, f)
		}
	}
	var whole layout.Frame
	for i, f := range parts {
		if i > 0 {
			whole.Height += gap
		}
		whole.Height += f.Height
		whole.Stretch += f.Stretch
	}
	least, stretch := whole.Height, whole.Stretch
	whole.Draw = func(s layout.Surface, area layout.Rect) {
		free := min(max(area.H-least, 0), stretch)
		y := area.Y
		for _, f := range parts {
			h := f.Height
			if stretch > 0 {
				h += free * f.Stretch / stretch
			}
			f.Draw(s, layout.Rect{X: area.X, Y: y, W: area.W, H: h})
			y += h + gap
		}
	}
	return whole
}

// A column is a frame in a row with the width it was laid out for.
type column struct {
	width layout.Length
	frame layout.Frame
}

// beside puts columns next to one another. All are drawn as high as the
// highest.
func beside(gap layout.Length, columns ...column) layout.Frame {
	var whole layout.Frame
	for _, c := range columns {
		whole.Height = max(whole.Height, c.frame.Height)
	}
	for _, c := range columns {
		if room := c.frame.Height + c.frame.Stretch - whole.Height; c.frame.Stretch > 0 {
			whole.Stretch = max(whole.Stretch, room)
		}
	}
	whole.Draw = func(s layout.Surface, area layout.Rect) {
		x := area.X
		for _, c := range columns {
			c.frame.Draw(s, layout.Rect{X: x, Y: area.Y, W: c.width, H: area.H})
			x += c.width + gap
		}
	}
	return whole
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

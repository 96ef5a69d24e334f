package layout

// A Stack puts frames under one another.
type Stack struct {
	Gap Length // between frames that have a height
	// Closed is by how much each gap is less than it should be: free height goes
	// there before it goes to frames.
	Closed Length
	// Loose is how much each gap may grow with height that no frame can use;
	// what is left after that stays free at the end.
	Loose Length
}

// Of is a stack of frames. Free height goes to the frames that can use it, in
// proportion to their Stretch; a frame without height takes no room.
func (k Stack) Of(frames ...Frame) Frame {
	var parts []Frame
	for _, f := range frames {
		if f.Height > 0 {
			parts = append(parts, f)
		}
	}
	whole := k.measure(parts)
	least, stretch := whole.Height, whole.Stretch
	whole.Draw = func(s Surface, area Rect) {
		free := max(area.H-least, 0)
		gap, n := k.Gap, Length(len(parts)-1)
		if n > 0 {
			opened := min(k.Closed, free/n)
			gap, free = gap+opened, free-opened*n
		}
		used := min(free, stretch)
		if n > 0 {
			gap += min(k.Loose, (free-used)/n)
		}
		y := area.Y
		for _, f := range parts {
			h := f.Height
			if stretch > 0 {
				h += used * f.Stretch / stretch
			}
			f.Draw(s, Rect{area.X, y, area.W, h})
			y += h + gap
		}
	}
	return whole
}

// measure sums up the frames of a stack that have a height.
func (k Stack) measure(parts []Frame) (whole Frame) {
	whole.Height = k.Gap * Length(max(len(parts)-1, 0))
	for _, f := range parts {
		whole.Height += f.Height
		whole.Stretch += f.Stretch
	}
	return whole
}

// A Column is a frame beside others, with the width it was laid out for.
type Column struct {
	Width Length
	Frame Frame
}

// Beside puts columns next to one another. All are drawn as high as the
// highest, and the whole can use as much free height as one of them can.
func Beside(gap Length, columns ...Column) Frame {
	whole := level(columns)
	whole.Draw = func(s Surface, area Rect) {
		x := area.X
		for _, c := range columns {
			c.Frame.Draw(s, Rect{x, area.Y, c.Width, area.H})
			x += c.Width + gap
		}
	}
	return whole
}

// level sums up columns that are drawn as high as the highest.
func level(columns []Column) (whole Frame) {
	for _, c := range columns {
		whole.Height = max(whole.Height, c.Frame.Height)
	}
	for _, c := range columns {
		if c.Frame.Stretch > 0 {
			whole.Stretch = max(whole.Stretch, c.Frame.Height+c.Frame.Stretch-whole.Height)
		}
	}
	return whole
}

package figure

import "gaugesheet/layout"

// unreadRows are the cylinders without a place on the ruler, a row for each
// reason: mark, tabs, why.
type unreadRows struct {
	rows          []Unread
	width, height layout.Length
}

func layUnread(t layout.Theme, rows []Unread) unreadRows {
	u := unreadRows{rows: rows}
	for _, r := range rows {
		u.width = max(u.width, unreadWidth(t, r))
		u.height += unreadPitch(t)
	}
	return u
}

func unreadPitch(t layout.Theme) layout.Length {
	return TabSize(t.Measurer, "8", tabFace(t)).H + tight
}

func unreadWidth(t layout.Theme, r Unread) layout.Length {
	w := layout.Length(0)
	if r.Mark != NoMark {
		w += markSize(t, tabFace(t)) + small
	}
	for _, n := range r.Numbers {
		w += TabSize(t.Measurer, n, tabFace(t)).W + tight
	}
	return w + tight + t.Measurer.Width(r.Why, t.Face(layout.Label))
}

func (u unreadRows) draw(s layout.Surface, t layout.Theme, at layout.Point) {
	for _, r := range u.rows {
		drawUnread(s, t, r, at.Add(0, unreadPitch(t)/2))
		at.Y += unreadPitch(t)
	}
}

// drawUnread draws a row from a point at its left, in the middle of its height.
func drawUnread(s layout.Surface, t layout.Theme, r Unread, at layout.Point) {
	face, size := tabFace(t), markSize(t, tabFace(t))
	layout.Tag{Kind: layout.Paragraph}.Draw(s, func() {
		if r.Mark != NoMark {
			drawSign(s, t, r.Mark, r.Mark, r.Why, at.Add(size/2, 0), size)
			at.X += size + small
		}
		for _, n := range r.Numbers {
			w := TabSize(s, n, face).W
			DrawTab(s, t, n, at.Add(w/2, 0), face)
			at.X += w + tight
		}
		layout.TextMiddle(s, at.Add(tight, 0), layout.Left, r.Why, t.Face(layout.Label), t.Ink)
	})
}

// unreadUnder sets the rows under the ruler, as many beside one another as fit.
func (d Spread) unreadUnder(t layout.Theme, width layout.Length) layout.Frame {
	type placed struct {
		Unread
		at layout.Point
	}
	var all []placed
	x, y := layout.Length(0), layout.Length(0)
	for _, r := range splitUnread(t, d.Unread, width) {
		w := unreadWidth(t, r)
		if x > 0 && x+w > width {
			x, y = 0, y+unreadPitch(t)
		}
		all = append(all, placed{r, layout.Point{X: x, Y: y + unreadPitch(t)/2}})
		x += w + wide
	}
	if len(all) == 0 {
		return empty()
	}
	return layout.Frame{Height: y + unreadPitch(t), Draw: func(s layout.Surface, a layout.Rect) {
		for _, p := range all {
			drawUnread(s, t, p.Unread, a.TopLeft().Add(p.at.X, p.at.Y))
		}
	}}
}

// splitUnread cuts rows that are wider than a line: the numbers first, as many
// as fit on each, then the words.
func splitUnread(t layout.Theme, rows []Unread, width layout.Length) []Unread {
	var out []Unread
	for _, r := range rows {
		for len(r.Numbers) > 1 && unreadWidth(t, Unread{r.Mark, r.Numbers, ""}) > width {
			n := len(r.Numbers) - 1
			for n > 1 && unreadWidth(t, Unread{r.Mark, r.Numbers[:n], ""}) > width {
				n--
			}
			out = append(out, Unread{Mark: r.Mark, Numbers: r.Numbers[:n]})
			r.Mark, r.Numbers = NoMark, r.Numbers[n:]
		}
		if unreadWidth(t, r) <= width {
			out = append(out, r)
			continue
		}
		out = append(out, Unread{Mark: r.Mark, Numbers: r.Numbers})
		for _, line := range breakLines(t.Measurer, r.Why, t.Face(layout.Label), width-tight) {
			out = append(out, Unread{Why: line})
		}
	}
	return out
}

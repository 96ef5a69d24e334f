package chart

import "gaugesheet/layout"

// A slot is a bar in its place on the page.
type slot struct {
	Bar
	index         int
	middle, width layout.Length
	base          layout.Length // y of zero
	scale         layout.Length // page height of one unit of value
}

func (b slot) y(value float64) layout.Length { return b.base - layout.Length(value)*b.scale }

func (b slot) rect(value float64) layout.Rect {
	y := b.y(value)
	return layout.Rect{X: b.middle - b.width/2, Y: y, W: b.width, H: b.base - y}
}

// top is the y of the highest thing of the bar.
func (b slot) top() layout.Length {
	top := b.base
	if b.Missing == "" {
		top = min(top, b.y(b.Value), b.y(b.High))
		if b.AtLeast {
			top -= chevron + gap
		}
	}
	if b.HasGhost {
		top = min(top, b.y(b.Ghost))
	}
	return top
}

// draw draws the bars, the limits across them, then what must stay legible
// over both.
func (p *plot) draw(s layout.Surface, frame layout.Rect, top float64) {
	slots := p.slots(frame, top)
	for _, b := range slots {
		p.drawBody(s, b)
	}
	for i, l := range p.Limits {
		y := frame.Bottom() - layout.Length(usable(l.Value))*frame.H/layout.Length(top)
		s.Stroke(layout.Polyline(layout.Point{X: frame.X, Y: y}, layout.Point{X: frame.Right(), Y: y}), p.limitPen(i))
	}
	s.Stroke(layout.Polyline(layout.Point{X: frame.X, Y: frame.Bottom()}, layout.Point{X: frame.Right(), Y: frame.Bottom()}),
		layout.Pen{Width: 0.9, Color: p.theme.Ink})
	for _, b := range slots {
		p.drawWhisker(s, b)
		p.drawValue(s, b)
		p.drawLabel(s, b)
	}
}

func (p *plot) slots(frame layout.Rect, top float64) []slot {
	middles := p.middles(frame.X, frame.W)
	width := p.pitch(frame.W) * bodyShare
	all := make([]slot, len(p.Bars))
	for i, b := range p.Bars {
		all[i] = slot{b, i, middles[i], width, frame.Bottom(), frame.H / layout.Length(top)}
	}
	return all
}

// flat is the height under which a bar is drawn as a stroke on the base line.
const flat layout.Length = 0.75

// drawBody draws the ghost, then the bar in front of it.
func (p *plot) drawBody(s layout.Surface, b slot) {
	if b.HasGhost {
		r := b.rect(b.Ghost)
		r.X += b.width * ghostShift
		s.Fill(layout.RectPath(r), p.theme.Paper)
		s.Stroke(layout.RectPath(r), layout.Pen{Width: 0.6, Color: p.theme.Muted})
	}
	if b.Missing != "" {
		return
	}
	r := b.rect(b.Value)
	switch {
	case r.H < flat:
		s.Stroke(layout.Polyline(layout.Point{X: r.X, Y: b.base}, layout.Point{X: r.Right(), Y: b.base}),
			layout.Pen{Width: 2.4, Color: p.theme.Ink})
	case p.Paint != nil:
		p.Paint(s, r, b.index)
	default:
		s.Fill(layout.RectPath(r), p.theme.Fill)
		s.Stroke(layout.RectPath(r), layout.Pen{Width: 0.9, Color: p.theme.Ink})
	}
	if b.AtLeast {
		p.openTop(s, r)
	}
}

// chevron is the height of the arrow head over a bar that is open at the top.
const chevron layout.Length = 3.5

// openTop takes a bar's upper edge away and points on.
func (p *plot) openTop(s layout.Surface, r layout.Rect) {
	s.Stroke(layout.Polyline(layout.Point{X: r.X + 0.5, Y: r.Y}, layout.Point{X: r.Right() - 0.5, Y: r.Y}),
		layout.Pen{Width: 2.6, Color: p.theme.Paper})
	y := r.Y - gap
	w := min(r.W/2, 2*chevron)
	x := r.Center().X
	s.Stroke(layout.Polyline(layout.Point{X: x - w/2, Y: y}, layout.Point{X: x, Y: y - chevron}, layout.Point{X: x + w/2, Y: y}),
		layout.Pen{Width: 0.9, Color: p.theme.Ink})
}

// drawWhisker draws the whisker with a light edge, so that it can be seen on
// any pattern.
func (p *plot) drawWhisker(s layout.Surface, b slot) {
	low, high := b.y(b.Low), b.y(b.High)
	if b.Missing != "" || low-high < 0.5 {
		return
	}
	w := min(b.width/2, 7)
	path := layout.Polyline(layout.Point{X: b.middle, Y: low}, layout.Point{X: b.middle, Y: high})
	for _, y := range []layout.Length{low, high} {
		path = path.MoveTo(layout.Point{X: b.middle - w/2, Y: y}).LineTo(layout.Point{X: b.middle + w/2, Y: y})
	}
	s.Stroke(path, layout.Pen{Width: 2.4, Color: p.theme.Paper})
	s.Stroke(path, layout.Pen{Width: 0.8, Color: p.theme.Ink})
}

// drawValue sets the value over everything that its bar has; the ghost's value
// stands above it, lighter. A bar that is missing says why.
func (p *plot) drawValue(s layout.Surface, b slot) {
	if b.Missing != "" {
		p.drawMissing(s, b)
		return
	}
	y := b.top() - gap
	if p.upright {
		at := layout.Point{X: b.middle + s.CapHeight(p.value)/2, Y: y}
		w := s.Width(b.Text, p.value)
		p.clearing(s, layout.Rect{X: at.X - s.CapHeight(p.value), Y: y - w, W: s.CapHeight(p.value), H: w})
		s.Rotate(-90, at, func() {
			s.Text(at, b.Text, p.value, p.theme.Ink)
			if b.HasGhost && b.GhostText != "" {
				s.Text(at.Add(w+gap, 0), b.GhostText, p.ghost, p.theme.Muted)
			}
		})
		return
	}
	p.setOver(s, layout.Point{X: b.middle, Y: y}, b.Text, p.value, p.theme.Ink)
	if b.HasGhost && b.GhostText != "" {
		y -= s.CapHeight(p.value) + gap
		p.setOver(s, layout.Point{X: b.middle, Y: y}, b.GhostText, p.ghost, p.theme.Muted)
	}
}

// setOver sets a centred text on a clear ground.
func (p *plot) setOver(s layout.Surface, at layout.Point, text string, f layout.Face, c layout.Color) {
	if text == "" {
		return
	}
	w := s.Width(text, f)
	p.clearing(s, layout.Rect{X: at.X - w/2, Y: at.Y - s.CapHeight(f), W: w, H: s.CapHeight(f)})
	layout.TextAt(s, at, layout.Center, text, f, c)
}

// clearing takes lines away from behind a text.
func (p *plot) clearing(s layout.Surface, r layout.Rect) {
	s.Fill(layout.RectPath(r.Inset(-1)), p.theme.Paper)
}

// drawMissing says in the bar's place why there is none, upright where the
// words are wider than the place.
func (p *plot) drawMissing(s layout.Surface, b slot) {
	f := p.theme.Face(layout.Note)
	w := s.Width(b.Missing, f)
	y := b.base - 2*gap
	pitch := b.width / bodyShare
	if w <= pitch-2*gap {
		p.setOver(s, layout.Point{X: b.middle, Y: y}, b.Missing, f, p.theme.Muted)
		return
	}
	text := p.missingText(b.Missing, pitch)
	p.clearing(s, layout.Rect{X: b.middle - text.H/2, Y: y - text.W, W: text.H, H: text.W})
	at := layout.Point{X: b.middle - text.H/2, Y: y}
	s.Rotate(-90, at, func() { text.Draw(s, at) })
}

// missingText sets the words for a missing bar, to stand upright: in as many
// lines as the pitch of the bars has room for.
func (p *plot) missingText(words string, pitch layout.Length) layout.Text {
	run := layout.Run{Text: words, Face: p.theme.Face(layout.Note), Color: p.theme.Muted}
	text := layout.Wrap(p.theme.Measurer, 1e4, run)
	for width := text.W; width > 30; width -= 10 {
		if next := layout.Wrap(p.theme.Measurer, width, run); next.H <= pitch-4 && next.W < text.W {
			text = next
		}
	}
	return text
}

// drawLabel sets a bar's label and mark under the base line.
func (p *plot) drawLabel(s layout.Surface, b slot) {
	strong, note := p.theme.Face(layout.Strong), p.theme.Face(layout.Note)
	y := b.base + 2*gap + s.CapHeight(strong)
	for i, line := range p.labels[b.index] {
		at := layout.Point{X: b.middle, Y: y + layout.Length(i)*layout.Leading(strong)}
		layout.TextAt(s, at, layout.Center, line, strong, p.theme.Accent)
	}
	y += p.labelDepth()
	if mark := p.mark(b.Bar); mark != "" {
		y += gap + s.Ascent(note)
		layout.TextAt(s, layout.Point{X: b.middle, Y: y}, layout.Center, mark, note, p.theme.Muted)
	}
}

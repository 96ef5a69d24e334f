package figure

import "gaugesheet/layout"

// PaintTone fills an outline with a tone and draws the outline: the body in
// one quiet grey where a cylinder is even, a pattern on white where it is not.
// The patterns differ in direction and in density.
func PaintTone(s layout.Surface, t layout.Theme, tone Tone, p layout.Path) {
	s.Fill(p, toneBody(t, tone))
	paintPattern(s, t, tone, p)
	s.Stroke(p, tonePen(t, tone))
}

func toneBody(t layout.Theme, tone Tone) layout.Color {
	if tone == Plain {
		return t.Fill
	}
	return t.Paper
}

// tonePen is the outline of a tone: heavier where it calls for a look, dashed
// where there is no reading behind it.
func tonePen(t layout.Theme, tone Tone) layout.Pen {
	switch tone {
	case Hatch, Dense:
		return layout.Pen{Width: heavy, Color: t.Ink}
	case Open:
		return layout.Pen{Width: outline, Color: t.Ink, Dash: []layout.Length{3, 2}}
	}
	return layout.Pen{Width: outline, Color: t.Ink}
}

// patternStep is the distance between lines of a pattern.
const patternStep layout.Length = 3

func paintPattern(s layout.Surface, t layout.Theme, tone Tone, p layout.Path) {
	if tone == Plain || tone == Open {
		return
	}
	area := p.Bounds()
	s.Clip(p, func() {
		switch tone {
		case Faint:
			dots(s, area, t.Ink)
		case Hatch:
			s.Stroke(layout.Hatching(area, patternStep, 1), layout.Pen{Width: 0.9, Color: t.Ink})
		case Dense:
			pen := layout.Pen{Width: 0.9, Color: t.Ink}
			s.Stroke(layout.Hatching(area, patternStep, 1), pen)
			s.Stroke(layout.Hatching(area, patternStep, -1), pen)
		case Raised:
			for y := area.Y + patternStep/2; y < area.Bottom(); y += patternStep {
				s.Stroke(layout.Polyline(layout.Point{X: area.X, Y: y}, layout.Point{X: area.Right(), Y: y}),
					layout.Pen{Width: 0.8, Color: t.Ink})
			}
		}
	})
}

// dots draws a pattern of dots across an area. Every row is one dashed line
// whose dashes are nothing but their round ends: an outline for each dot would
// make up most of a page's bytes.
func dots(s layout.Surface, area layout.Rect, c layout.Color) {
	const step, across, dash = 3.4, 1.1, 0.01
	var rows layout.Path
	shift := layout.Length(0)
	for y := area.Y + step/2; y < area.Bottom()+across; y += step * 0.8 {
		rows = rows.MoveTo(layout.Point{X: area.X + step/2 - shift, Y: y}).LineTo(layout.Point{X: area.Right() + across, Y: y})
		shift = step/2 - shift
	}
	s.Stroke(rows, layout.Pen{Width: across, Color: c, Dash: []layout.Length{dash, step - dash}, Round: true})
}

package figure

import (
	"fmt"
	"strings"

	"gaugesheet/layout"
)

// bankLabels places the banks' names above banks that stand side by side, and
// above and below two that lie one behind the other. Names without a place
// come back as words for a line under the plan.
func (p planDrawing) bankLabels(width layout.Length) ([]bankText, []string) {
	areas, ok := p.bankAreas()
	if !ok {
		return nil, p.bankLines()
	}
	if labels, ok := p.labelsAbove(areas, width); ok {
		return labels, nil
	}
	if len(areas) == 2 {
		upper := 0
		if areas[1].Y < areas[0].Y {
			upper = 1
		}
		if areas[upper].Bottom() <= areas[1-upper].Y+small {
			labels := make([]bankText, 2)
			for k, b := range p.plan.Banks {
				lines := breakLines(p.t.Measurer, b.Text, p.t.Face(layout.Label), p.placing.extent.W)
				labels[k] = bankText{p.placing.boresMiddle(b), k == upper, lines}
			}
			return labels, nil
		}
	}
	return nil, p.bankLines()
}

func (p planDrawing) bankAreas() ([]layout.Rect, bool) {
	var areas []layout.Rect
	for _, b := range p.plan.Banks {
		var parts []layout.Rect
		for _, i := range b.Cylinders {
			if i >= 0 && i < len(p.plan.Cylinders) {
				parts = append(parts, moved(p.placing.cells[i].extent(), p.placing.place(i)))
			}
		}
		if len(parts) == 0 {
			return nil, false
		}
		areas = append(areas, union(parts...))
	}
	return areas, true
}

// labelsAbove centres each name over its bank, within half the way to the
// bank beside it.
func (p planDrawing) labelsAbove(areas []layout.Rect, width layout.Length) ([]bankText, bool) {
	face := p.t.Face(layout.Label)
	e := p.placing.extent
	spare := (width - e.W) / 2
	var labels []bankText
	for k, a := range areas {
		low, high := e.X-spare, e.Right()+spare
		for l, b := range areas {
			switch {
			case l == k:
			case b.Right() <= a.X:
				low = max(low, (b.Right()+a.X)/2+tight)
			case b.X >= a.Right():
				high = min(high, (a.Right()+b.X)/2-tight)
			default:
				return nil, false
			}
		}
		middle := p.placing.boresMiddle(p.plan.Banks[k])
		room := 2 * min(middle-low, high-middle)
		lines := breakLines(p.t.Measurer, p.plan.Banks[k].Text, face, max(room, 3*face.Size))
		if room < 3*face.Size || len(lines) > 3 {
			return nil, false
		}
		labels = append(labels, bankText{middle, true, lines})
	}
	return labels, true
}

func (p *placing) boresMiddle(b BankLabel) layout.Length {
	low, high := p.place(b.Cylinders[0]).X, p.place(b.Cylinders[0]).X
	for _, i := range b.Cylinders {
		x := p.place(i).X
		low, high = min(low, x), max(high, x)
	}
	return (low + high) / 2
}

// roomForNames moves two standing banks apart until their names go over them
// on one line, where the width allows it.
func (p *placing) roomForNames(width layout.Length) {
	d := p.writer.plan
	if lying, ok := bankAxis(d); !ok || lying {
		return
	}
	face := p.writer.t.Face(layout.Label)
	var names layout.Length
	for _, b := range d.Banks {
		names = max(names, p.writer.t.Measurer.Width(b.Text, face))
	}
	apart := p.boresMiddle(d.Banks[0]) - p.boresMiddle(d.Banks[1])
	more := names + medium - max(apart, -apart)
	if more <= 0 {
		return
	}
	wider := *p
	wider.apart += more
	if wider.fits(width, 0) {
		*p = wider
	}
}

func (p planDrawing) bankLines() []string {
	var lines []string
	for _, b := range p.plan.Banks {
		var numbers []string
		for _, i := range b.Cylinders {
			if i >= 0 && i < len(p.plan.Cylinders) {
				numbers = append(numbers, p.plan.Cylinders[i].Number)
			}
		}
		lines = append(lines, fmt.Sprintf("%s: %s", b.Text, strings.Join(numbers, " ")))
	}
	return lines
}

// labelsBesideArrows reports whether the names over the banks go on the line
// of the arrows without touching them.
func (p planDrawing) labelsBesideArrows(width layout.Length) bool {
	face := p.t.Face(layout.Label)
	middle := p.placing.extent.Center().X
	arrows := 0
	for _, d := range []Direction{Left, Up, Right} {
		a, ok := p.arrowAt(d, width)
		if !ok {
			continue
		}
		arrows++
		if len(a.lines) > 1 {
			return false
		}
		from := middle - width/2 + a.left(width) - medium
		to := from + a.width + arrowSize + arrowGap + 2*medium
		for _, l := range p.labels {
			half := p.t.Measurer.Width(l.lines[0], face) / 2
			if l.above && (len(l.lines) > 1 || l.middle+half > from && l.middle-half < to) {
				return false
			}
		}
	}
	return arrows == 1
}

func (p planDrawing) drawLabels(s layout.Surface, over, under layout.Rect, origin layout.Point) {
	face := p.t.Face(layout.Label)
	for _, l := range p.labels {
		y := under.Y + tight
		if l.above {
			y = over.Bottom() - tight - layout.Length(len(l.lines))*lineHeight(face)
		}
		for _, line := range l.lines {
			w := s.Width(line, face)
			s.Text(layout.Point{X: origin.X + l.middle - w/2, Y: baseline(s, face, y)}, line, face, p.t.Muted)
			y += lineHeight(face)
		}
	}
}

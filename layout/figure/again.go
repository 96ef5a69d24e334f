package figure

import "gaugesheet/layout"

// againFrame is a table of readings with boxes for the next ones.
func againFrame(t layout.Theme, d *Again, width layout.Length) layout.Frame {
	if d == nil || len(d.Rows) == 0 {
		return empty()
	}
	a := againTable{t: t, d: d, width: width}
	for a.d.Boxes > 0 && !a.fits() { // in a narrow box there is room for fewer to write in
		fewer := *a.d
		fewer.Boxes--
		a.d = &fewer
	}
	return a.frame()
}

// An againTable is readings with boxes set for a width.
type againTable struct {
	t     layout.Theme
	d     *Again
	width layout.Length
}

// Measures of the boxes to write the next readings in.
const (
	againBox   = 11 * layout.MM
	againPitch = 6.4 * layout.MM
)

func (a againTable) frame() layout.Frame {
	head := lineHeight(a.t.Face(layout.Label))
	height := head + small + againPitch*layout.Length(len(a.d.Rows))
	return heard(layout.Table, layout.Frame{Height: height, Draw: func(s layout.Surface, area layout.Rect) {
		label, body := a.t.Face(layout.Label), a.t.Face(layout.Body)
		boxes := area.Right() - (againBox+tight)*layout.Length(a.d.Boxes) + tight
		columns := a.columns(area.X, boxes)
		y := baseline(s, label, area.Y)
		row := func(draw func()) { layout.Tag{Kind: layout.TableRow}.Draw(s, draw) }
		cell := func(kind layout.TagKind, span int, draw func()) { layout.Tag{Kind: kind, Span: span}.Draw(s, draw) }
		row(func() {
			cell(layout.HeadAbove, 1, func() {})
			for i, h := range a.d.Heads {
				cell(layout.HeadAbove, 1, func() { s.Text(layout.Point{X: columns[i], Y: y}, h, label, a.t.Ink) })
			}
			if a.d.Boxes > 0 {
				cell(layout.HeadAbove, a.d.Boxes, func() {
					layout.TextAt(s, layout.Point{X: area.Right(), Y: y}, layout.Right, a.d.Next, label, a.t.Ink)
				})
			}
		})
		top := area.Y + head + tight
		s.Stroke(layout.Polyline(layout.Point{X: area.X, Y: top}, layout.Point{X: area.Right(), Y: top}), layout.Pen{Width: hairline, Color: a.t.Line})
		for i, r := range a.d.Rows {
			middle := top + tight + againPitch*(layout.Length(i)+0.5)
			tab := TabSize(s, r.Number, label)
			row(func() {
				cell(layout.HeadLeft, 1, func() { DrawTab(s, a.t, r.Number, layout.Point{X: area.X + tab.W/2, Y: middle}, label) })
				for k := range a.d.Heads {
					cell(layout.DataCell, 1, func() {
						if k < len(r.Values) {
							layout.TextMiddle(s, layout.Point{X: columns[k], Y: middle}, layout.Left, r.Values[k], body, a.t.Ink)
						}
					})
				}
				if a.d.Boxes > 0 {
					cell(layout.DataCell, a.d.Boxes, func() {})
				}
			})
			for k := range a.d.Boxes {
				box := layout.Rect{X: boxes + layout.Length(k)*(againBox+tight), Y: middle - againPitch/2 + 1, W: againBox, H: againPitch - 2}
				s.Stroke(layout.RectPath(box), layout.Pen{Width: thin, Color: a.t.Ink})
			}
		}
	}})
}

// columns are the left ends of the columns of readings, between the tabs and
// the boxes: each as wide as what stands in it, the rest shared among them.
func (a againTable) columns(left, boxes layout.Length) []layout.Length {
	var tabs layout.Length
	for _, r := range a.d.Rows {
		tabs = max(tabs, TabSize(a.t.Measurer, r.Number, a.t.Face(layout.Label)).W)
	}
	from := left + tabs + medium
	widths, free := a.widths(), boxes-from
	for _, w := range widths {
		free -= w
	}
	columns := make([]layout.Length, len(widths))
	for i, w := range widths {
		columns[i] = from
		from += w + free/layout.Length(len(widths))
	}
	return columns
}

// widths are those of what stands in the columns.
func (a againTable) widths() []layout.Length {
	widths := make([]layout.Length, len(a.d.Heads))
	for i, h := range a.d.Heads {
		widths[i] = a.t.Measurer.Width(h, a.t.Face(layout.Label))
		for _, r := range a.d.Rows {
			if i < len(r.Values) {
				widths[i] = max(widths[i], a.t.Measurer.Width(r.Values[i], a.t.Face(layout.Body)))
			}
		}
	}
	return widths
}

// fits reports that the columns stand apart in the width.
func (a againTable) fits() bool {
	end := a.width - (againBox+tight)*layout.Length(a.d.Boxes) + tight
	columns, widths := a.columns(0, end), a.widths()
	last := len(columns) - 1
	for i := range columns {
		next := end
		if i < last {
			next = columns[i+1]
		}
		if columns[i]+widths[i]+small > next {
			return false
		}
	}
	return true
}

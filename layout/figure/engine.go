package figure

import (
	"math"
	"slices"
	"strings"

	"gaugesheet/layout"
)

// NewEnginePlan is the block "engine": the engine seen from above, with what
// was read at each cylinder.
func NewEnginePlan(d EnginePlan) layout.Block {
	if d.Pen {
		d = upright(d)
	}
	return block{"engine", func(t layout.Theme, width layout.Length, level layout.Detail) layout.Frame {
		captions := d.Captions
		if level == layout.Brief && d.NotesLeft != "" && hasNotes(d) {
			captions = append(slices.Clone(captions), d.NotesLeft)
		}
		plan, below := layPlan(t, d, width, level)
		captions = append(slices.Clone(below), captions...)
		return stack([...]layout.Length{layout.Full: small, layout.Compact: tight, layout.Brief: 1}[level], heading(t, d.Title, d.Sub, width), plan, captionLines(t, captions, width, level))
	}}
}

func hasNotes(d EnginePlan) bool {
	return slices.ContainsFunc(d.Cylinders, func(c Cylinder) bool { return len(c.Notes) > 0 })
}

// planHeights are the heights that a plan keeps to if it can, by detail.
var planHeights = [...]layout.Length{layout.Full: 150, layout.Compact: 116, layout.Brief: 96}

// lyingBanks is how much higher two banks that lie across the page may be:
// their words stand over and under the bores.
const lyingBanks layout.Length = 1.3

// planGrowth is how much more height a plan can use: for larger bores, then
// for rows further apart.
const planGrowth layout.Length = 90

// layPlan lays out the plan itself. Names of banks that have no place
// beside it come back as lines to be set below.
func layPlan(t layout.Theme, d EnginePlan, width layout.Length, level layout.Detail) (layout.Frame, []string) {
	if len(d.Cylinders) == 0 {
		return empty(), nil
	}
	height := planHeights[level]
	if _, banks := bankAxis(d); banks && lies(d) && level != layout.Brief {
		height *= lyingBanks
	}
	drawn, unplaced := placedPlan(t, d, width, level, height)
	if drawn.keyed {
		return stack(small, drawn.frame(width), keyFrame(t, d, width)), unplaced
	}
	f := drawn.frame(width)
	least, tall := f.Height, drawn.placing.extent.H
	f.Stretch = planGrowth
	f.Draw = func(s layout.Surface, area layout.Rect) {
		best := drawn
		if more := area.H - least; more > small {
			if larger, lines := placedPlan(t, d, width, level, tall+more); larger.frame(width).Height <= area.H && len(lines) == len(unplaced) {
				best = larger
			}
		}
		best.frame(width).Draw(s, area)
	}
	return f, unplaced
}

// placedPlan is the plan that keeps to a height if any does.
func placedPlan(t layout.Theme, d EnginePlan, width layout.Length, level layout.Detail, height layout.Length) (planDrawing, []string) {
	p, ok := bestPlacing(t, d, width, level, height)
	if !ok {
		p = keyed(t, d, width)
	}
	p.widen(width)
	p.roomForNames(width)
	drawn := planDrawing{t: t, plan: d, placing: p, keyed: !ok}
	labels, unplaced := drawn.bankLabels(width)
	drawn.labels = labels
	return drawn, unplaced
}

// bestPlacing tries bores from large to small in every arrangement and takes
// the first that fits the width and the height, or else the lowest that fits
// the width. Only at brief may the values leave the bores to save height.
func bestPlacing(t layout.Theme, d EnginePlan, width layout.Length, level layout.Detail, height layout.Length) (placing, bool) {
	notes := level != layout.Brief || d.NotesLeft == ""
	try := func(valueOut bool, height layout.Length) (placing, bool) {
		writers := cellWriters(t, d, notes, valueOut)
		for _, ways := range arrangementsOf(d) {
			if p, ok := search(writers, ways, width, height); ok {
				return p, true
			}
		}
		return placing{}, false
	}
	inOrOut := []bool{false, true}
	if level != layout.Brief {
		inOrOut = inOrOut[:1]
	}
	for _, valueOut := range inOrOut {
		if p, ok := try(valueOut, height); ok {
			return p, true
		}
	}
	for _, valueOut := range []bool{level == layout.Brief, level != layout.Brief} {
		if p, ok := try(valueOut, 0); ok {
			return p, true
		}
	}
	return placing{}, false
}

// search gives the first placing that keeps to a height, or where the height
// is 0 the lowest, which is one of the smallest bores.
func search(writers []cellWriter, ways []arrangement, width, height layout.Length) (best placing, found bool) {
	if len(writers) == 0 {
		return placing{}, false
	}
	const smallest = 3
	plan := writers[0].plan
	bores := boreSizes(plan, writers[0].valueOut)
	if height == 0 {
		bores = bores[max(0, len(bores)-smallest):]
	}
	longest := longestColumn(plan)
	book := newClashBook()
	for _, bore := range bores {
		if height > 0 && layout.Length(longest)*bore.H > height {
			continue
		}
		for _, w := range writers {
			for _, a := range ways {
				p, ok := newPlacing(w, a, bore)
				if !ok || height > 0 && p.columnHeight(longest, a) > height || !p.solve(book, width, height, w.plan.Ring) {
					continue
				}
				if height > 0 {
					return p, true
				}
				if !found || p.extent.H < best.extent.H-1 {
					best, found = p, true
				}
			}
		}
	}
	return best, found
}

// longestColumn is how many cylinders stand straight under one another.
func longestColumn(d EnginePlan) int {
	most, in := 0, map[int]int{}
	for _, c := range d.Cylinders {
		column := int(math.Round(c.X * 1000))
		in[column]++
		most = max(most, in[column])
	}
	return most
}

// columnHeight is the least height of a column in which every cell has its
// first text on the same side: a bound that costs little to know.
func (p *placing) columnHeight(cells int, a arrangement) layout.Length {
	if a.alternate || a.stacked || p.writer.plan.Ring {
		return 0
	}
	least := layout.Length(math.Inf(1))
	for _, c := range p.cells {
		if len(c.texts) == 0 {
			return 0
		}
		least = min(least, c.texts[0].area.H)
	}
	gap := p.writer.lineGap()
	return layout.Length(cells)*(least+gap) - gap
}

// boreSizes are the sizes that a bore may have, the largest first; one without
// its value in it may be small.
func boreSizes(d EnginePlan, valueOut bool) []layout.Size {
	var sizes []layout.Size
	if d.Rotary {
		largest, least := layout.Length(48), layout.Length(30)
		if valueOut {
			largest, least = 28, 12
		}
		for r := largest; r >= least; r -= 2 {
			sizes = append(sizes, housingSize(r))
		}
		return sizes
	}
	largest := layout.Length(46)
	if len(d.Cylinders) <= 4 {
		largest = 58
	}
	least := layout.Length(17)
	if valueOut {
		largest, least = 26, 8
	}
	for size := largest; size >= least; size -= 1.5 {
		sizes = append(sizes, layout.Size{W: size, H: size})
	}
	return sizes
}

// cellWriters are the ways to set the words, from the widest lines to the
// narrowest; on a bench sheet each with the box in the bore and beside it.
func cellWriters(t layout.Theme, d EnginePlan, notes, valueOut bool) []cellWriter {
	var writers []cellWriter
	add := func(boxOut, joined bool, widths ...layout.Length) {
		before := layout.Length(-1)
		for _, width := range widths {
			w := cellWriter{t: t, plan: d, notes: notes, valueOut: valueOut, boxOut: boxOut, joined: joined, width: width}
			if w.write() && w.lineWidths() != before {
				writers = append(writers, w)
				before = w.lineWidths()
			}
		}
	}
	all := []layout.Length{90, 58, 44, 36, 30, 24, 19, 16}
	add(false, false, all...)
	if d.Pen && !d.Rotary {
		add(true, true, 110)
		add(true, false, all...)
	}
	if !d.Pen {
		joined := []layout.Length{110, 78, 64, 54}
		if !valueOut {
			joined = joined[:1]
		}
		add(false, true, joined...)
	}
	return writers
}

// newPlacing sets the cells for a bore; ok is false where the value does not
// go into it.
func newPlacing(w cellWriter, a arrangement, bore layout.Size) (placing, bool) {
	if w.plan.Pen {
		if !w.plan.Rotary && w.boxOut != (bore.W < penBore) {
			return placing{}, false
		}
	} else if _, ok := valueFace(w.t, w.plan, bore); !ok && !w.valueOut {
		return placing{}, false
	}
	p := placing{at: closeUp(w.plan.Cylinders), bore: bore, writer: w}
	half := layout.Size{W: bore.W/2 + gasketGap, H: bore.H/2 + gasketGap}
	for i, words := range w.words {
		side := a.side(w.plan, i)
		if w.plan.Ring {
			side = outward(w.plan, i)
		}
		p.cells = append(p.cells, newCell(words, half, side, a.split))
	}
	return p, true
}

func newCell(words cellWords, half layout.Size, side Direction, split bool) cell {
	main, notes := words.main, words.notes
	made := cell{half: half}
	if !split {
		main = slices.Concat(main, notes)
		notes = nil
	}
	if len(main) > 0 {
		made.texts = append(made.texts, textAt(main, half, side))
	}
	if len(notes) > 0 {
		made.texts = append(made.texts, textAt(notes, half, opposite(side)))
	}
	return made
}

// outward is the side of a cylinder in a ring that looks away from its middle.
func outward(p EnginePlan, i int) Direction {
	x := p.Cylinders[i].X - middleOf(p, nil, false)
	y := p.Cylinders[i].Y - middleOf(p, nil, true)
	switch {
	case x < -0.3:
		return Left
	case x > 0.3:
		return Right
	case y < 0:
		return Up
	}
	return Down
}

// keyed is a plan of numbers only, for an engine whose words do not fit beside
// its cylinders.
func keyed(t layout.Theme, d EnginePlan, width layout.Length) placing {
	p := placing{at: closeUp(d.Cylinders), bore: layout.Size{W: 17, H: 17}, writer: cellWriter{t: t, plan: d}}
	for range d.Cylinders {
		p.cells = append(p.cells, cell{half: layout.Size{W: 11, H: 11}})
	}
	if !p.solve(newClashBook(), width, 0, d.Ring) {
		p.scale = scale{width / 40, 22}
		p.measure()
	}
	return p
}

// keyFrame is the words of a keyed plan, cylinder by cylinder in columns, or
// on a bench sheet a line to write on for each.
func keyFrame(t layout.Theme, d EnginePlan, width layout.Length) layout.Frame {
	fields := make([]Field, len(d.Cylinders))
	for i, c := range d.Cylinders {
		var parts []string
		for _, s := range []string{c.Value, c.Word} {
			if s != "" {
				parts = append(parts, s)
			}
		}
		for _, n := range append(slices.Clone(c.Faces), c.Notes...) {
			parts = append(parts, strings.TrimSpace(n.Name+" "+n.Value))
		}
		fields[i] = Field{Name: c.Number, Value: strings.Join(parts, ", ")}
	}
	columns := max(1, int(width/120))
	if d.Pen {
		return NewFieldLines(FieldLines{Fields: fields, Columns: columns}).Lay(t, width, layout.Brief)
	}
	return fieldGrid(t, fields, width, columns, layout.Brief)
}

// widen evens out the two scales where the width allows it, so that an engine
// is not drawn narrower than it is.
func (p *placing) widen(width layout.Length) {
	if p.scale.x >= p.scale.y {
		return
	}
	tight, all := *p, p.clashes(newClashBook())
	for _, part := range []layout.Length{1, 0.75, 0.5, 0.25} {
		p.scale.x = tight.scale.x + (tight.scale.y-tight.scale.x)*part
		p.moveApart(all)
		if p.fits(width, 0) {
			return
		}
	}
	*p = tight
}

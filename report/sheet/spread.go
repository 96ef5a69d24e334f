package sheet

import (
	"math"
	"slices"
	"strconv"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
	"gaugesheet/layout"
	"gaugesheet/layout/figure"
	"gaugesheet/report/readings"
)

// spreadBlock is the ruler that shows how far the cylinders lie apart: by
// compression, the faces of a rotary's rotors, or the air lost where that is
// all there is. It is nil where there are not two to compare.
func (v *view) spreadBlock() layout.Block {
	var d figure.Spread
	switch {
	case v.rotors() != nil:
		d = v.faceSpread()
	case v.compression() != nil:
		d = v.compressionSpread()
	case v.leakage() != nil:
		d = v.leakageSpread()
	}
	if len(d.Bars) < 2 {
		return nil
	}
	d.Alt = v.rulerWords(&d)
	return figure.NewSpread(d)
}

// inDiagramOrder gives the cylinders bank by bank, front to rear, and the
// bank of each.
func (v *view) inDiagramOrder() (names []string, groups []int) {
	if !v.engine.IsTwoBank() {
		for _, name := range v.engine.Names() {
			names, groups = append(names, name), append(groups, 0)
		}
		return names, groups
	}
	for i, bank := range v.engine.Banks {
		for _, name := range bank.Cylinders {
			names, groups = append(names, name), append(groups, i)
		}
	}
	return names, groups
}

// printed is a reading as it stands on the page, so that what is reckoned from
// it follows from the page.
func printed(value float64, decimals int) float64 {
	return rounded(value, quantity.DecimalsRead(value, decimals))
}

// rounded is a value as it is written with so many decimals.
func rounded(value float64, decimals int) float64 {
	v, err := strconv.ParseFloat(quantity.Format(value, decimals), 64)
	if err != nil {
		return value
	}
	return v
}

// A cylinderRuler is a compression test as a ruler: each cylinder in percent
// below the best one.
type cylinderRuler struct {
	view *view
	c    *diag.CompressionResult
	best float64 // the reading at zero, as printed
	open bool    // the best is itself known only to be more than that
	at   diag.Names
	bars []rulerBar
}

// A rulerBar is a cylinder on the ruler.
type rulerBar struct {
	name       string
	value      float64 // percent below the best
	less, more bool
}

func (v *view) compressionSpread() figure.Spread {
	c := v.compression()
	r := v.cylinderRuler(c)
	if r == nil {
		return figure.Spread{}
	}
	d := figure.Spread{
		Title: v.label("heading.spread"), Zero: v.label("spread.best"), Unit: onPage(" " + string(quantity.Percent)),
		Least: leastReach, Most: 100, GaugeName: v.label("spread.gauge"), Say: r.say,
	}
	names, _ := v.inDiagramOrder()
	for _, name := range names {
		if one := c.Cylinder(name); one != nil {
			d.Bars = append(d.Bars, r.add(one)...)
		}
	}
	if r.open && len(r.at) == len(d.Bars) { // all known only to be more than the same: any may be the best by far
		return figure.Spread{}
	}
	sub := "spread.sub"
	if r.above() {
		sub, d.Zero = "spread.sub-others", v.label("spread.best-of-others")
	}
	if len(r.at) == len(d.Bars) {
		sub = "spread.sub-alike"
	}
	best := v.number(r.best, c.Decimals, c.Unit)
	d.Sub = v.label(sub, "at", r.at, "value", best, "open", r.open)
	d.Gauge, d.GaugeWords = r.gauge(), v.label("spread.gauge-words", "percent", v.percentFor(r.gauge()))
	if r.judged() {
		lines := r.limits()
		for _, l := range lines {
			d.Lines = append(d.Lines, figure.RuleLine{Value: l.at, Text: l.words})
		}
		d.Zones = r.zones(lines)
	}
	d.Unread = v.withoutPlace(c, names)
	return d
}

// cylinderRuler finds the best reading; nil where nothing can be below it.
func (v *view) cylinderRuler(c *diag.CompressionResult) *cylinderRuler {
	r := &cylinderRuler{view: v, c: c, best: printed(c.Reference, c.Decimals)}
	if c.HighestBound > c.Reference {
		r.best, r.open = printed(c.HighestBound, c.Decimals), true
	}
	if !(r.best > 0) || c.WithoutPressure() {
		return nil
	}
	for i := range c.Cylinders {
		one := &c.Cylinders[i]
		if r.placed(one) && one.Grade != diag.High && r.open == (one.Kind == diag.AtLeast) && printed(*one.Dry, c.Decimals) == r.best {
			r.at = append(r.at, one.Name)
		}
	}
	return r
}

// placed reports a cylinder that has a place on the ruler.
func (r *cylinderRuler) placed(one *diag.CylinderResult) bool {
	return one.Dry != nil && !one.Disagree && !one.BeyondGauge
}

// below is how far a reading is below the best, in percent of it.
func (r *cylinderRuler) below(reading float64) float64 { return 100 * (r.best - reading) / r.best }

// add gives a cylinder its bar, none where it has no place. A reading beside a
// best that is only a bound is that far below it at least; a bound is that far
// below at most.
func (r *cylinderRuler) add(one *diag.CylinderResult) []figure.SpreadBar {
	if !r.placed(one) {
		return nil
	}
	reading := printed(*one.Dry, r.c.Decimals)
	b := rulerBar{name: one.Name, value: r.below(reading)}
	atBest := b.value == 0
	b.less = one.Kind == diag.AtLeast && !atBest
	b.more = r.open && !atBest
	r.bars = append(r.bars, b)
	bar := figure.SpreadBar{Number: one.Name, Value: b.value, Low: b.value, High: b.value, Less: b.less, More: b.more}
	switch one.Kind {
	case diag.Band:
		half := r.view.test.Compression.Dry[one.Name].HalfWidth
		bar.Low, bar.High = r.below(reading+half), r.below(reading-half)
	case diag.Estimate:
		bar.Low, bar.High = r.below(reading+one.U), r.below(max(0, reading-one.U))
	}
	return []figure.SpreadBar{bar}
}

// above reports a cylinder that stands above the best of the others.
func (r *cylinderRuler) above() bool {
	for _, b := range r.bars {
		if b.value < 0 {
			return true
		}
	}
	return false
}

// judged reports readings that may be compared with each other.
func (r *cylinderRuler) judged() bool {
	for _, b := range r.bars {
		if r.c.Cylinder(b.name).Grade != diag.GradeNotJudged {
			return true
		}
	}
	return false
}

// gauge is the expanded uncertainty of a difference between two readings, in
// percent of the best.
func (r *cylinderRuler) gauge() float64 { return 100 * 2 * math.Sqrt2 * r.c.URepeat / r.best }

// percentFor is a percentage as the sheet's reader has it: an owner's without
// decimals.
func (v *view) percentFor(p float64) diag.Number {
	if v.workshop() {
		return percentOf(p)
	}
	return percent(p)
}

// say gives the words for cylinders that stand together on the ruler.
func (r *cylinderRuler) say(bars []int) []string {
	var names diag.Names
	var values []diag.Number
	even := true
	for _, i := range bars {
		b := r.bars[i]
		names, values = append(names, b.name), append(values, r.view.percentFor(math.Abs(b.value)))
		even = even && b.value >= 0 && b.value <= 100-diag.EvenFrom
	}
	first, last := r.bars[bars[0]], r.bars[bars[len(bars)-1]]
	v := r.view
	all := len(bars) == len(r.bars) && len(bars) == len(r.c.Cylinders)
	switch {
	case len(bars) == 1 && first.value == 0:
		return nil
	case len(bars) == 1 && r.c.EndsOf(first.name) != nil: // nobody read the middle of it
		ends := r.c.EndsOf(first.name)
		below := func(x float64) float64 { return 100 - readings.Part(x, r.best, r.c.Decimals) }
		return []string{readings.Between(below(ends[1]), below(ends[0]), func(x float64) string { return quantity.Format(x, values[0].Decimals) }) + "\u00a0%"}
	case len(bars) == 1:
		return []string{v.label("spread.one", "value", values[0], "less", first.less, "more", first.more, "above", first.value < 0)}
	case len(bars) == 2 && len(r.bars) > 2 && values[0] != values[1]:
		return []string{v.label("spread.two", "of", names, "more", r.open, "first", bare(values[0]), "second", values[1])}
	case !even && !all || len(bars) == 2 && len(r.bars) > 2:
		return []string{v.label("spread.several", "of", v.inOrder(names), "more", r.open, "low", values[0], "high", values[len(values)-1])}
	}
	who := v.count(len(bars))
	if all {
		who = v.optional("spread.all."+strconv.Itoa(len(bars)), v.label("spread.all", "count", who))
	}
	words := v.label("spread.even", "who", who, "low", values[0], "high", values[len(values)-1])
	if len(bars) == len(r.bars) && last.value-first.value <= r.gauge() {
		return []string{v.label("spread.only-gauge", "words", words), words}
	}
	return []string{words}
}

// inOrder puts cylinders into the engine's order.
func (v *view) inOrder(names diag.Names) diag.Names {
	slices.SortFunc(names, func(a, b string) int { return v.engine.Index(a) - v.engine.Index(b) })
	return names
}

// bare is a number without its unit.
func bare(n diag.Number) diag.Number {
	n.Unit = quantity.None
	return n
}

// count is how many cylinders, in a word where there is one.
func (v *view) count(n int) string {
	return v.optional("spread.count."+strconv.Itoa(n), v.label("spread.count", "count", n))
}

// number is a reading with its unit, in the decimals that it was read in.
func (v *view) number(value float64, decimals int, unit quantity.Unit) diag.Number {
	return number(value, quantity.DecimalsRead(value, decimals), unit)
}

// withoutPlace lists the cylinders that have no place on the ruler, by reason.
func (v *view) withoutPlace(c *diag.CompressionResult, names []string) []figure.Unread {
	var all []figure.Unread
	for _, name := range names {
		r := c.Cylinder(name)
		switch {
		case r == nil:
		case r.Disagree:
			all = append(all, figure.Unread{Numbers: []string{name}, Why: v.label("spread.disagree", "readings", v.dryText(r))})
		case r.BeyondGauge:
			all = append(all, figure.Unread{Numbers: []string{name}, Why: v.label("spread.beyond", "reading", v.dryText(r))})
		case r.Dry == nil:
			all = addUnread(all, figure.Unread{Mark: stateMark(r.State), Numbers: []string{name}, Why: v.stateBecause(r.State, r.Reason)})
		}
	}
	return all
}

// addUnread puts a cylinder to those that have the same reason.
func addUnread(all []figure.Unread, one figure.Unread) []figure.Unread {
	for i := range all {
		if all[i].Mark == one.Mark && all[i].Why == one.Why {
			all[i].Numbers = append(all[i].Numbers, one.Numbers...)
			return all
		}
	}
	return append(all, one)
}

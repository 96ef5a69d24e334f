package known

import (
	"math"
	"slices"

	"gaugesheet/diag"
)

// How far a further figure may lie from where the others of its test put it
// before it stands by itself, as a part: judgement, no source.
const (
	apartFuel    = 0.12 // pressures of one regulator
	apartAlike   = 0.12 // what every injector gives, from the middle of the others
	alikeOthers  = 0.06 // those others from each other
	alikeCleaned = 0.03 // and where all were cleaned
	apartLash    = 1.6  // times the clearance that the others' middle is, or so small a part of it
	alikeLash    = 0.35 // those others from each other: what makers permit
	fallsFaster  = 0.80 // of what the first fall of a held pressure leaves to be expected
	risesHeld    = 1.50 // times: warm fuel lifts a held pressure by less
	oilRises     = 8.0  // times from idle to speed: a pump gives hardly more
	oilFalls     = 0.90 // of the pressure at idle, at a higher speed
	wetUnderDry  = 0.90 // of the reading without oil
	wetOverOther = 1.60 // times the highest without oil
	wetOverOwn   = 2.50 // times its own without oil, of an only cylinder
	mostDrop     = 300  // rpm on one magneto, while the other drops by less: with more an engine hardly runs on
	gapOver      = 1.6  // times the book's gap
	gapUnder     = 0.45 // of the book's gap
	apartLeak    = 15   // points of loss from every other cylinder
)

// A LoneFigure is a reading of a test that by itself goes against what the others
// of that test say. A figure miswritten would do the same.
type LoneFigure struct {
	Section, Reading string // the keys of the job file
	Cylinder         string
}

// LoneFigures are those of the fuel pressure, the oil pressure, the injectors, the
// clearances, the magnetos, the plugs' gaps, the leakage and the readings with oil, each read once.
func (c *Case) LoneFigures() []LoneFigure {
	if c.supposed {
		return nil
	}
	var out []LoneFigure
	for _, k := range c.Circuits() {
		if name := k.loneFigure(); name != "" && !k.readTwice(name) && !(name == "idle" && c.FuelInHose("yes")) { // a torn diaphragm does not regulate
			out = append(out, LoneFigure{Section: "fuel-pressure", Reading: name})
		}
	}
	if r := c.Sums.MeasuredTest(Oil); r != nil {
		if m := loneOil(r); m != nil {
			out = append(out, LoneFigure{Section: Oil, Reading: m.Name})
		}
	}
	if r := c.Sums.MeasuredTest("injectors"); r != nil {
		far := loneAlike(r, standsOut{alikeOthers, 1 - apartAlike, 1 + apartAlike})
		for _, f := range loneAlike(r, standsOut{alikeCleaned, 1 - injectorPart, 1 + injectorPart}) {
			if f.Reading == "after" && !slices.Contains(far, f) { // cleaned ones are alike: one that is not costs an injector
				far = append(far, f)
			}
		}
		out = append(out, slices.DeleteFunc(far, c.injectorBorneOut)...)
	}
	if r := c.Sums.MeasuredTest(Clearance); r != nil {
		plain := *r // one that is borne out stands aside, so that a second can be seen beside the others
		plain.Readings = slices.DeleteFunc(slices.Clone(r.Readings), func(m diag.MeasuredReading) bool {
			return m.Cylinder != "" && c.clearanceBorneOut(LoneFigure{r.Name, m.Name, m.Cylinder})
		})
		out = append(out, loneAlike(&plain, standsOut{alikeLash, 1 / apartLash, apartLash})...)
	}
	return slices.Concat(out, c.loneDrop(), c.loneGap(), c.loneWet(), c.loneLeak())
}

// readTwice reports a pressure of which the job has several readings.
func (k Circuit) readTwice(name string) bool {
	r := map[string]*diag.Reading{"key-on": k.In.KeyOn, "idle": k.In.Idle, "hose-off": k.In.HoseOff}[name]
	return r != nil && len(r.Values) > 1
}

// saysOfRegulator is between which pressures a figure puts the regulator.
type saysOfRegulator struct {
	name      string
	low, high float64
}

func (a saysOfRegulator) agrees(b saysOfRegulator) bool {
	return a.low <= b.high*(1+apartFuel) && b.low <= a.high*(1+apartFuel)
}

// What the vacuum of a manifold takes off the pressure of a regulator that has its
// hose on, in psi: at least and at most as engines idle, and with what gauges are off.
const (
	leastDraw, mostDraw = 5, 12
	widestDraw          = 13
)

// loneFigure is the one pressure that the others, which agree, speak against, or
// the only one past its limit; "" for none.
func (k Circuit) loneFigure() string {
	if name := k.loneHeld(); name != "" {
		return name
	}
	past, within, outside := "", 0, 0
	for _, r := range k.Steady() {
		below, _ := Below(r)
		above, _ := Above(r)
		switch {
		case below || above:
			past, outside = r.Name, outside+1
		case r.LimitLow != nil || r.LimitHigh != nil:
			within++
		}
	}
	if outside == 1 && within > 0 {
		return past
	}
	if name := alone(k.ofRegulator(leastDraw, mostDraw)); name != "" && name != "idle" {
		return name
	}
	if name := alone(k.ofRegulator(0, widestDraw)); name == "idle" { // which may not be drawn down at all
		return name
	}
	return ""
}

// ofRegulator is what each figure says of the regulator, where a manifold draws as
// much as that.
func (k Circuit) ofRegulator(leastDraw, mostDraw float64) []saysOfRegulator {
	var say []saysOfRegulator
	for _, r := range k.Steady() {
		one := saysOfRegulator{r.Name, r.Value, r.Value}
		if r.Name == "idle" && k.MayBeReferenced() {
			one.low, one.high = one.low+k.Case.Psi(leastDraw), one.high+k.Case.Psi(mostDraw)
		}
		say = append(say, one)
	}
	if len(k.Hold) > 0 { // what holds is at most what it was
		say = append(say, saysOfRegulator{"hold", k.Hold[0].Value, math.Inf(1)})
	}
	return say
}

// alone is the one of three figures or more that all others, which agree with each
// other, speak against; "" for none.
func alone(say []saysOfRegulator) string {
	if len(say) < 3 {
		return ""
	}
	lone := ""
	for i, a := range say {
		rest := slices.Delete(slices.Clone(say), i, i+1)
		if disagree(rest) || slices.ContainsFunc(rest, func(b saysOfRegulator) bool { return b.name != "hold" && a.agrees(b) }) { // any pressure may fall as far as that
			continue
		}
		if lone != "" {
			return ""
		}
		lone = a.name
	}
	return lone
}

// disagree reports two figures that put the regulator elsewhere.
func disagree(say []saysOfRegulator) bool {
	for i, a := range say {
		if slices.ContainsFunc(say[i+1:], func(b saysOfRegulator) bool { return !a.agrees(b) }) {
			return true
		}
	}
	return false
}

// loneHeld tells a held pressure that another, at a later time, speaks against.
func (k Circuit) loneHeld() string {
	from := k.Reading("key-on")
	for i := 1; i < len(k.Hold); i++ {
		first, later := k.Hold[i-1], k.Hold[i]
		if first.Value > 0 && later.Value > first.Value*risesHeld {
			return "hold"
		}
		if from == nil || from.Value <= 0 || first.Value <= 0 || first.Minutes <= 0 || i > 1 {
			continue
		}
		left := 1 - first.Value/from.Value // a leak goes the slower the less there is
		if left >= 0 && later.Value < fallsFaster*(from.Value-left*from.Value*later.Minutes/first.Minutes) {
			return "hold"
		}
	}
	return ""
}

// oilGoesWith reports a hot oil pressure at a speed that a pattern of the others goes with: it stays where
// they are, it lies on their way up, or it falls from what they had risen to. Three at least make one.
func oilGoesWith(r *diag.MeasuredResult, m *diag.MeasuredReading) bool {
	hot := hotOil(r)
	if m.Name != "at-speed" || speedOf(m) == 0 {
		return false
	}
	_, stays := OilStays(r)
	_, drops := OilDrops(r)
	rises := len(hot) > 2 && !slices.ContainsFunc(hot, func(a *diag.MeasuredReading) bool {
		return a != m && (speedOf(a) == 0 || (speedOf(a) < speedOf(m)) != (a.Value < m.Value))
	})
	return stays == m && drops == nil || len(hot) > 2 && drops == m || rises
}

// loneOil is the one figure of the oil pressure past its limit beside others that
// keep theirs, or one that no pump makes beside the other; nil for none.
func loneOil(r *diag.MeasuredResult) *diag.MeasuredReading {
	var past, slow *diag.MeasuredReading
	within, outside := 0, 0
	for _, m := range runningOil(r) {
		switch {
		case m.Verdict == diag.Outside || m.Verdict == diag.TooClose && m.PastAsRead:
			past, outside = m, outside+1
		case m.Limited():
			within++
		}
		if m.Name == "idle" {
			slow = m
		}
	}
	if outside == 1 && within > 0 && !oilGoesWith(r, past) {
		return past
	}
	for _, m := range hotOil(r) {
		if m.Name != "at-speed" || slow == nil || psi(slow) <= 0 {
			continue
		}
		switch times := psi(m) / psi(slow); {
		case times < oilFalls && speedOf(m) > 1200 && !oilGoesWith(r, m):
			return m
		case times > oilRises:
			return slow
		}
	}
	return nil
}

// injectorBorneOut reports an injector that gives next to nothing in an engine that ails, or whose cylinder is known by another test to do less.
func (c *Case) injectorBorneOut(f LoneFigure) bool {
	return f.Reading == "after" && c.apartBefore(f.Cylinder) || c.Ails() && InjectorDead.HoldsOf(c, f.Cylinder) || c.doesLess(f.Cylinder)
}

// apartBefore reports an injector that lay on the same side of the others before it was
// cleaned, by as much as is too much.
func (c *Case) apartBefore(name string) bool {
	before, after := c.fromOthers("before", name), c.fromOthers("after", name)
	worse := math.Abs(after) > math.Abs(before)+injectorPart // which cleaning does not make it
	return math.Abs(before) > injectorPart && (before > 0) == (after > 0) && !worse
}

// fromOthers is how far what an injector gives lies from the middle of the others, as a part.
func (c *Case) fromOthers(of, name string) float64 {
	values := c.byCylinder(Injectors, of)
	var rest []float64
	for n, v := range values {
		if n != name {
			rest = append(rest, v)
		}
	}
	v, read := values[name]
	if !read || len(rest) < 2 {
		return 0
	}
	slices.Sort(rest)
	return v/rest[len(rest)/2] - 1
}

// clearanceBorneOut reports a clearance with which the cylinder's pressure or its air goes,
// and a lift, of which a rule of its own says that it stands apart.
func (c *Case) clearanceBorneOut(f LoneFigure) bool {
	return f.Reading != "inlet" && f.Reading != "exhaust" || c.Grade(f.Cylinder).IsLow() || c.LeaksHeldOpen(f.Cylinder)
}

// standsOut is how far the others of a reading lie from their middle at most, and under and
// over what share of it one stands apart from them.
type standsOut struct{ alike, under, over float64 }

// loneAlike are the readings of which one cylinder alone stands apart from the
// others, which lie close together.
func loneAlike(r *diag.MeasuredResult, far standsOut) []LoneFigure {
	by := map[string][]*diag.MeasuredReading{}
	var names []string
	for i := range r.Readings {
		m := &r.Readings[i]
		if m.Cylinder == "" {
			continue
		}
		if by[m.Name] == nil {
			names = append(names, m.Name)
		}
		by[m.Name] = append(by[m.Name], m)
	}
	var out []LoneFigure
	for _, name := range names {
		if cylinder := far.from(by[name]); cylinder != "" {
			out = append(out, LoneFigure{r.Name, name, cylinder})
		}
	}
	return out
}

// from is the only cylinder whose reading stands apart from all others; ""
// for none.
func (a standsOut) from(readings []*diag.MeasuredReading) string {
	if len(readings) < 3 {
		return ""
	}
	for _, m := range readings {
		var rest []float64
		for _, other := range readings {
			if other != m {
				rest = append(rest, other.Value)
			}
		}
		slices.Sort(rest)
		middle := rest[len(rest)/2]
		if rest[0] >= middle*(1-a.alike) && rest[len(rest)-1] <= middle*(1+a.alike) && (m.Value < middle*a.under || m.Value > middle*a.over) {
			return m.Cylinder
		}
	}
	return ""
}

// loneDrop is a magneto on which the speed falls farther than an engine runs on, while
// it hardly falls on the other.
func (c *Case) loneDrop() []LoneFigure {
	r := c.Sums.MeasuredTest(Magnetos)
	var out []LoneFigure
	read := 0
	for _, side := range MagnetoSides {
		if m := r.Reading(side); m != nil && !m.Disagree {
			if read++; m.Value > mostDrop {
				out = append(out, LoneFigure{Section: Magnetos, Reading: side})
			}
		}
	}
	if read < 2 || len(out) != 1 {
		return nil
	}
	return out
}

// loneGap is the only plug whose gap is off, by more than wear or a careless hand, and
// which does not look as if something had done that.
func (c *Case) loneGap() []LoneFigure {
	if c.Plugs == nil || c.Plugs.GapMM <= 0 {
		return nil
	}
	off := c.Those(func(n string) bool { return c.GapOf(n) != GapRight })
	if len(off) != 1 || c.Looks(off[0], "melted", "damaged", "detonation", "worn") {
		return nil
	}
	if gap := *c.Plug(off[0]).GapMM / c.Plugs.GapMM; gap > 0 && (gap < gapUnder || gap > gapOver) {
		return []LoneFigure{{"plugs", "gap", off[0]}}
	}
	return nil
}

// loneWet are readings with oil that no oil makes of those without.
func (c *Case) loneWet() []LoneFigure {
	if !c.Has(NeedsWet) || c.Cranking().N == 0 {
		return nil
	}
	var out, over []LoneFigure
	for _, n := range c.Read() {
		r := c.Cylinder(n)
		switch {
		case r.Wet == nil || r.Dry == nil || r.WetDisagree:
		case *r.Wet < wetUnderDry**r.Dry:
			out = append(out, LoneFigure{"compression", "wet", r.Name})
		case *r.Wet > wetOverOther*c.Cranking().Highest && (c.Several() || *r.Wet > wetOverOwn**r.Dry): // an only cylinder has no other to be held against
			over = append(over, LoneFigure{"compression", "wet", r.Name})
		}
	}
	if len(over) == 1 { // washed walls double what they read, and more than one bears the other out
		out = append(out, over...)
	}
	return out
}

// loneLeak is the only cylinder that loses far more than all others and has their
// pressure.
func (c *Case) loneLeak() []LoneFigure {
	if !c.Has(NeedsLeakage) || !c.DryRead() {
		return nil
	}
	var most *diag.LeakResult
	next := 0.0 // what the second most loses
	read := 0
	for i := range c.Sums.Leakage.Cylinders {
		l := &c.Sums.Leakage.Cylinders[i]
		if l.Loss == nil {
			continue
		}
		read++
		switch {
		case most == nil || *l.Loss > *most.Loss:
			if most != nil {
				next = *most.Loss
			}
			most = l
		case *l.Loss > next:
			next = *l.Loss
		}
	}
	if read < 3 || *most.Loss < next+apartLeak {
		return nil
	}
	if r := c.Cylinder(most.Name); r == nil || r.Grade.IsLow() || r.PercentFromMedian == nil || *r.PercentFromMedian < -100*apartOnce {
		return nil
	}
	return []LoneFigure{{"leakage", "loss", most.Name}}
}

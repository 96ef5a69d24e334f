package known

import (
	"cmp"
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// agreedShare is how far above the floor of its kind, as a part of it, an engine may read that
// other tests show to be worn: from there on its pressure speaks against them.
// Judgement, no source.
const agreedShare = 1.4

// signsOfWear is how many signs of wear, each by another kind of test, stand for a figure
// that nobody gave.
const signsOfWear = 3

// farUnderStandard reports readings all so far under the book's usual figure that they are
// under any minimum that such a book gives, nil for none; a band worked out from the
// engine's whole geometry knows better.
func (c *Case) farUnderStandard() *AllLowBasis {
	s := c.Cranking()
	if s.Standard == nil || s.N < 2 || s.Expected != nil && !s.Expected.ByRatio && s.Highest >= s.Expected.Low {
		return nil
	}
	usual, err := quantity.Convert(s.Standard.Low, s.Standard.Unit, s.Unit)
	least := usual * standardShare * c.AirPressureRatio()
	if err != nil || s.Highest+s.HighestU >= least {
		return nil
	}
	return &AllLowBasis{"standard", true, false, s.Highest / least, diag.Facts{"standard": s.Standard.Entered, "share": Percent(100*s.Highest/usual, 0), "floor": c.TradeFigure(least)}}
}

// wornByAgreement is low throughout by what other tests say, where no figure tells how much
// there should be, nil for none: oil lifts every cylinder, each loses past its rings, the
// crankcase gets more gas than it may, and oil is burnt, which counts twice where smoke and use
// were both told; that it starts or pulls badly counts beside them. Three of these agree on
// nothing but worn rings and bores, and of so little pressure then none is enough. Of washed
// bores they would say the same; of an engine that stood a far rise by a right dose says it.
func (c *Case) wornByAgreement() *AllLowBasis {
	s, floor := c.Cranking(), c.lowestFloor()
	if floor == nil || s.N < 2 || 2*s.N <= len(c.Engine.Cylinders) || c.Ported() || s.Highest >= agreedShare*floor.Low || c.Flooded() || c.SaidFlooded() {
		return nil
	}
	oil, past := c.oilSigns(), c.AllPastRings()
	if past && c.oilLiftsSome() {
		oil = max(oil, 1)
	}
	signs, needed := oil+one(past)+one(c.BlowsBy())+c.burnSigns(), signsOfWear
	if oil+one(past) > 0 { // what it does for want of pressure, where something that was measured says that it is short
		signs += one(c.Complains("low power", "hard start", "no start"))
	}
	if c.Stood() { // dry bores and stuck rings say what worn ones do, and of these oil alone tells by how much
		if needed = 2; oil < needed {
			return nil
		}
	}
	if signs < needed {
		return nil
	}
	return &AllLowBasis{"agreed", false, false, s.Highest / (agreedShare * floor.Low), diag.Facts{
		"rise": oil > 0, "leaks": past, "blowsBy": c.BlowsBy(), "burns": c.BurnsOil()}}
}

// burnSigns is 1 where the engine burns its oil, 2 where it is seen as it works and the use of
// it was told as well: neither what leaks outside nor a smoke of another kind does both.
func (c *Case) burnSigns() int {
	if c.Smokes("blue", "load", "always") && c.oilUseTold() {
		return 2
	}
	return one(c.BurnsOil())
}

// oilLiftsSome reports an engine every cylinder of which oil lifted by something, and the middle
// one by a fifth: beside air lost past all rings it says the same.
func (c *Case) oilLiftsSome() bool {
	least, middle := c.oilRises()
	return least >= NoRise && middle >= someRise
}

// someRise is a rise with oil, in percent, that is more than its volume makes in a cylinder of
// a car: judgement, no source.
const someRise = 20

// oilSigns is 1 where oil lifted every cylinder that was read by more than its own volume
// does, 2 where it did so by far more with a dose that is right for the engine.
func (c *Case) oilSigns() int {
	tested := c.WetTested()
	rises := func(part float64) bool {
		return len(tested) > 0 && !slices.ContainsFunc(tested, func(n string) bool { r := c.Cylinder(n); return *r.Dry <= 0 || *r.Wet < (1+part)*(*r.Dry) })
	}
	switch {
	case c.Spec.Diesel() || len(tested) < len(c.Read()) || !rises(RawRise/100.0):
		return 0
	case c.DoseRight() && rises(farRise/100.0):
		return 2
	}
	return 1
}

// AllPastRings reports an engine every cylinder of which that was tried, two at least, loses too
// much air and none of it at a valve.
func (c *Case) AllPastRings() bool {
	leaks := c.Leaks()
	return len(leaks) > 1 && !slices.ContainsFunc(leaks, func(l *diag.LeakResult) bool { return !c.RingLoss(l) })
}

// RingsAgree reports an engine all of whose cylinders that were tried lose air past their
// rings, of which another test of the rings says the same: more gas passes into the crankcase
// than it may, oil lifts every cylinder far with a right dose, or lifts them while the engine
// burns its own, be it by a fifth, or the more one loses the less it presses, of an engine that does.
func (c *Case) RingsAgree() bool {
	return c.AllPastRings() && (c.BlowsBy() || c.OilLiftsAll() && (c.DoseRight() || c.BurnsOil()) || c.BurnsOil() && (c.pressesByLoss() || c.oilLiftsSome()))
}

const (
	// lossApart are points of loss by which cylinders differ that a tester's scale does not
	// make, lossAlike those within which they lose alike: judgement, no source.
	lossApart = 10
	lossAlike = 5
	// pressedAlike is the part of a pressure by which two that are alike may differ: likewise.
	pressedAlike = 0.03
)

// pressesByLoss reports three cylinders or more that lose differently much air, of which none
// presses more than one that loses clearly less, and the one that loses most less than the
// one that loses least.
func (c *Case) pressesByLoss() bool {
	type both struct{ loss, pressure float64 }
	var list []both
	for _, n := range c.Every() {
		if l, r := c.Leak(n), c.Cylinder(n); l != nil && l.Loss != nil && r != nil && r.Dry != nil {
			list = append(list, both{*l.Loss, *r.Dry})
		}
	}
	if len(list) < 3 {
		return false
	}
	slices.SortFunc(list, func(a, b both) int { return cmp.Compare(a.loss, b.loss) })
	for i, less := range list {
		if slices.ContainsFunc(list[i:], func(more both) bool {
			return more.loss-less.loss > lossAlike && more.pressure > less.pressure*(1+pressedAlike)
		}) {
			return false
		}
	}
	least, most := list[0], list[len(list)-1]
	return most.loss-least.loss >= lossApart && most.pressure < least.pressure*(1-pressedAlike)
}

// OilLiftsAll reports an engine every cylinder of which oil lifted, the middle one by more
// than its own volume does.
func (c *Case) OilLiftsAll() bool {
	least, middle := c.oilRises()
	return least >= NetRise && middle >= RawRise
}

// oilRises are the least rise with oil and the middle one, in percent of the dry reading, of
// an engine all of whose cylinders that were read were oiled; 0 for none.
func (c *Case) oilRises() (least, middle float64) {
	tested := c.WetTested()
	if c.Spec.Diesel() || len(tested) == 0 || len(tested) < len(c.Read()) {
		return 0, 0
	}
	rises := make([]float64, 0, len(tested))
	for _, n := range tested {
		r := c.Cylinder(n)
		if *r.Dry <= 0 {
			return 0, 0
		}
		rises = append(rises, 100*(*r.Wet-*r.Dry)/(*r.Dry))
	}
	return slices.Min(rises), Median(rises)
}

// BlowsBy reports more gas in the crankcase than may be there.
func (c *Case) BlowsBy() bool { return CrankcaseHigh.HoldsIn(c) || CrankcasePresses.HoldsIn(c) }

// BurnsOil reports an engine that smokes blue as it works, or uses oil.
func (c *Case) BurnsOil() bool { return c.UsesOil() || c.Smokes("blue", "load", "always") }

func one(is bool) int {
	if is {
		return 1
	}
	return 0
}

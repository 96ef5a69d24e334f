package known

import (
	"cmp"

	"gaugesheet/diag"
	"gaugesheet/diag/air"
	"gaugesheet/diag/quantity"
	"strings"
)

// AllLowBasis is what every cylinder is low against.
type AllLowBasis struct {
	Variant string  // "" the stated minimum
	Clear   bool    // by more than the uncertainty
	Far     bool    // so far that it is seen to soon
	Share   float64 // the highest reading as a part of what it is under
	Facts   diag.Facts
}

// AllLow gives what every cylinder that was read is under, nil where there is
// no such thing: a stated minimum, and else what nearly any engine of its kind
// gives, the pressure expected from its geometry, or an earlier test. The spread
// alone never says that all are low.
func (c *Case) AllLow() *AllLowBasis {
	if c.allLow == nil {
		c.allLow = &allLowFound{c.findAllLow()}
	}
	return c.allLow.basis
}

// allLowFound is what was found once it was looked for.
type allLowFound struct{ basis *AllLowBasis }

// lowBesideBounds is low throughout beside cylinders of which only a least pressure is
// known: a bound that reaches what the others miss shows a good one, a lower one says
// nothing, and most have to be read.
func (c *Case) lowBesideBounds() *AllLowBasis {
	s := c.Cranking()
	if s.N < 2 || 2*s.N <= len(c.Engine.Cylinders) {
		return nil
	}
	if m := c.Minimum(); m != nil {
		bound, err := quantity.Convert(s.HighestBound, s.Unit, m.Unit)
		highest, _ := quantity.Convert(s.Highest, s.Unit, m.Unit)
		if err != nil || m.Verdict == diag.NotJudged || max(highest, bound) >= m.Limit {
			return nil
		}
		clear := highest < m.Limit-m.Uncertainty
		return &AllLowBasis{"", clear, clear, highest / m.Limit, c.LimitFacts(m)}
	}
	if floor := c.Floor(); floor == nil || s.HighestBound >= floor.Low {
		return nil
	}
	return c.underFloor()
}

func (c *Case) findAllLow() *AllLowBasis {
	s := c.Cranking()
	if s.N == 0 || s.N == 1 && c.Several() || c.NothingRead() || c.Spec.Decompressor == "automatic" {
		return nil
	}
	if s.HighestBound > 0 {
		return c.lowBesideBounds()
	}
	if m := c.Minimum(); m != nil {
		highest, err := quantity.Convert(s.Highest, s.Unit, m.Unit)
		if err == nil && m.Verdict == diag.TooClose && highest >= m.Limit { // which says neither
			return c.wornByAgreement()
		}
		if err != nil || m.Verdict == diag.NotJudged || highest >= m.Limit || s.N < 2 {
			return nil
		}
		clear := highest < m.Limit-m.Uncertainty
		return &AllLowBasis{"", clear, clear, highest / m.Limit, c.LimitFacts(m)}
	}
	if low := c.underFloor(); low != nil {
		return low
	}
	if low := cmp.Or(c.underUsual(), c.farUnderStandard()); low != nil {
		return low
	}
	if e := s.Expected; e != nil {
		if s.Highest+s.HighestU >= e.Low*c.hoseShare(e) || e.ByRatio && (c.runsWellOn(s.Highest/e.Low) || s.Highest >= c.lateBy()*e.Low) {
			return nil
		}
		variant := "expected"
		if e.ByRatio {
			variant = "ratio"
		}
		return &AllLowBasis{variant, false, false, s.Highest / e.Low, diag.Facts{"expected": c.Span(e.Low, e.High)}}
	}
	if low := c.allFallen(); low != nil {
		return low
	}
	return cmp.Or(c.fallenByWork(), c.wornByAgreement())
}

// ratioApart is how far under the band of its ratio alone an engine may read that runs
// well and of which nobody complains: when its inlet closes is assumed for that
// band, and old engines are turned by hand. Judgement, no source.
const ratioApart = 0.85

// lateShare is the part of the band of its ratio that an engine still gives whose inlet
// closes late by design: by the formula of the band, 100 degrees for 70.
const lateShare = 0.6

// ridden is what is ridden, whose engines turn fast and hold their inlets open longer than a
// car's, and riddenShare the part of the band that such a one gives: by the formula of the
// band, 80 degrees for 70.
var ridden = []string{"motorcycle", "motorbike", "moped", "scooter", "dirt bike", "quad", "atv", "sidecar", "jet ski", "jetski", "go kart", "kart"}

const riddenShare = 0.87

// lateBy is the part of the band of its ratio that an engine of such a kind may give; 1 where
// its kind closes its inlets as the band assumes, or the job says when they close.
func (c *Case) lateBy() float64 {
	switch {
	case c.mayCloseLate():
		return lateShare
	case c.Spec.InletClosesDeg == 0 && c.described(ridden):
		return riddenShare
	}
	return 1
}

// mayCloseLate reports an engine of a kind whose inlet may close later than the band of
// its ratio assumes, to spare the work of compressing: a hybrid's, or one with variable
// timing, of which nobody said when it closes.
func (c *Case) mayCloseLate() bool {
	return c.Spec.InletClosesDeg == 0 && (c.Spec.Hybrid == diag.Yes || c.Spec.VariableTiming == diag.Yes)
}

func (c *Case) runsWellOn(share float64) bool {
	return share >= ratioApart && c.Spec.Runs == "well" && len(c.History.Complaints) == 0
}

// leastFall is the part of an earlier reading by which a cylinder falls before
// wear is read from it: two tests of one engine by different people differ by as
// much (published fleets show no less).
const leastFall = 0.10

// allFallen reports that every cylinder fell since an earlier test made alike,
// by more than both can be off and by a tenth at least.
func (c *Case) allFallen() *AllLowBasis {
	s := c.Cranking()
	if s.ComparedWith == "" || s.N < 2 {
		return nil
	}
	least := 0.0
	for i, name := range c.Read() {
		r := c.Cylinder(name)
		if r.Change == nil || *r.Change >= -r.ChangeU {
			return nil
		}
		fall := -*r.Change
		if r.Dry == nil || fall < leastFall*(*r.Dry+fall) {
			return nil
		}
		if i == 0 || fall < least {
			least = fall
		}
	}
	return &AllLowBasis{"earlier", true, true, s.Highest / (s.Highest + least), diag.Facts{"fall": c.Pressure(least), "earlier": c.EarlierWhen(s.ComparedWith)}}
}

// fallenByWork reports that every cylinder reads lower after work than those did before
// it that were good then, by more than both can be off and by a tenth at least, and all
// about alike: what was mended in some came back to the others, and all have lost alike.
func (c *Case) fallenByWork() *AllLowBasis {
	test, s := c.beforeWork(), c.Cranking()
	if test == nil || s.N < 2 || s.LowestPercentOfHighest < EvenTogether {
		return nil
	}
	changes, reason := diag.ChangesSince(c.Test, test)
	before := New(test)
	if reason != "" || len(changes) < len(c.Read()) || before.AllLow() != nil {
		return nil
	}
	least, u := 0.0, 0.0 // of the good ones before the least
	for _, ch := range changes {
		g := before.Grade(ch.Name)
		if (g == diag.Even || g == diag.Watch) && (least == 0 || ch.Then < least) {
			least, u = ch.Then, ch.U
		}
	}
	fall := least - s.Highest
	if fall <= u || fall < leastFall*least {
		return nil
	}
	return &AllLowBasis{"worked", true, true, s.Highest / least, diag.Facts{"then": c.Pressure(least), "fall": c.Pressure(fall), "done": c.Before.Done, "when": On(c.Before.Date)}}
}

// SlowCranking is the cranking speed in rpm under which readings sag: common
// practice, no source.
const SlowCranking = 150

// AirPressureRatio is the air pressure at the test beside the standard one; 1
// where neither barometer nor altitude was recorded.
func (c *Case) AirPressureRatio() float64 {
	switch {
	case c.Conditions.BarometerKPa != nil:
		return *c.Conditions.BarometerKPa / air.StandardPressure
	case c.Conditions.AltitudeM != nil:
		if ratio, err := air.PressureRatio(*c.Conditions.AltitudeM); err == nil {
			return ratio
		}
	}
	return 1
}

// LikelyPressure is the cranking pressure that the ratio makes likely,
// in the limit's unit and at the air pressure that the limit is for.
func (c *Case) LikelyPressure(l diag.Limit) (float64, bool) {
	s := c.Spec
	g := air.Geometry{Stroke: s.StrokeMM, Rod: s.RodMM, InletCloses: s.InletClosesDeg, Ratio: s.Ratio}
	if g.InletCloses == 0 {
		g.InletCloses = usualInletClosing
	}
	kPa := air.StandardPressure
	if !l.FromSeaLevel {
		kPa *= c.AirPressureRatio()
	}
	atmosphere, err := quantity.Convert(kPa, quantity.KPa, l.Unit)
	if err != nil {
		return 0, false
	}
	band, err := air.Expected(g, atmosphere)
	if err != nil {
		return 0, false
	}
	return air.CrankingPressure(band.EffectiveRatio, likelyExponent, atmosphere), true
}

// likelyExponent is the middle of the exponents of compression at starter
// speed (general texts: 1.2 to 1.3).
const likelyExponent = 1.25

// usualInletClosing stands in where the inlet's closing is not recorded, in
// degrees after bottom dead centre: common practice, no source.
const usualInletClosing = 60

// Flooded reports plugs soaked with fuel, most of those looked at, or a method
// that speaks of flooding.
func (c *Case) Flooded() bool {
	if SpeaksOf(strings.ToLower(c.Conditions.Method), "flood") {
		return true
	}
	soaked, looked := 0, 0
	for _, name := range c.Every() {
		if p := c.Plug(name); p != nil && p.Look != "" {
			looked++
			if p.Look == "fuel-wet" {
				soaked++
			}
		}
	}
	return looked > 0 && 2*soaked > looked
}

// EvenTogether is the lowest as a percent of the highest from which a set that
// is low is low evenly.
const EvenTogether = 85

// OthersMayBeLow reports that the set differs by more than is usual, and that
// no stated minimum clears those which agree.
func (c *Case) OthersMayBeLow() bool {
	s := c.Cranking()
	if m := c.Minimum(); m != nil && m.Verdict == diag.Within {
		return false
	}
	return s.SpreadPercentOfHighest > UsualSpread
}

// UsualSpread is the limit on the spread in percent of the highest that holds
// where the job states none: common practice.
const UsualSpread = 10

// UnderFloor is an engine all of whose cylinders are low: under a minimum, the
// expected band, or what nearly any engine of its kind gives.
var UnderFloor = OfEngine("every cylinder that was read low: under the stated minimum; without one under what nearly any engine of its kind gives, or under what it usually gives where it starts or pulls badly, with valves also burns oil or blows into its crankcase "+
	"(petrol four-stroke 100 psi, two-stroke 60 psi, diesel 250 psi, at sea level), under three quarters of the book's usual figure, under the pressure expected from its geometry or ratio (an engine that runs well and of which nobody complains: by more than 15 % where only the ratio is known), or fallen by a tenth at least since an earlier test made alike; or, after work, even and a tenth at least under every cylinder that was good before it; or less than 1.4 times what nearly any engine gives, where three agree of a rise of all with oil (one of 40 % by the right dose counts twice), a high loss of all past their rings, a crankcase over its limit, oil that is burnt (twice where blue smoke under load and the use of oil are both told), and beside the first two that it starts or pulls badly; of an engine that stood that rise of 40 %",
	func(c *Case) bool { return c.AllLow() != nil }).Called("low as a whole")

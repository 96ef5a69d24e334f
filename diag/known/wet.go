package known

import (
	"math"
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
	"gaugesheet/diag/quantity"
)

// WetOutcome is what oil did to a low cylinder; "" where that was not tested
// or cannot be told.
type WetOutcome string

const (
	WetRises   WetOutcome = "rises"
	WetPartly  WetOutcome = "partly"
	WetUnclear WetOutcome = "unclear"
	WetFlat    WetOutcome = "flat"
)

// The thresholds of the wet test, in percent. The rise with no control to take
// off has to be larger, and a control that rose by more than ControlRise got
// too much oil to tell anything. Common practice, no source.
const (
	NetRise        = 15
	RawRise        = 25
	NoRise         = 5
	ControlRise    = 10
	controlByDose  = 15   // that a dose right for the engine, a tenth of its chamber, gives by its own room
	doseSlack      = 1.25 // a dose is poured, not weighed
	controlTimes   = 3    // that of a control that rose too far, from which a rise tells all the same: judgement, no source
	everywhereRise = 5
	everywhereSpan = 10
)

// WetOutcome is what oil did to a low cylinder: by how much it rose beyond what
// the oil's own volume does to the control. "" too where the wet test as a
// whole tells nothing.
func (c *Case) WetOutcome(name string) WetOutcome {
	r := c.Cylinder(name)
	if r == nil || r.Wet == nil || r.Dry == nil || !c.ShortOfPressure(r) || !c.WetTells() || c.overdosed() && !c.BeyondControl(r) {
		return ""
	}
	rise := *r.Wet - *r.Dry
	needed, net := c.WetNet(r)
	recovered := rise >= (c.Healthy()-*r.Dry)/2
	switch {
	case net >= needed && recovered:
		return WetRises
	case net >= needed:
		return WetPartly
	case net >= NoRise:
		return WetUnclear
	}
	return WetFlat
}

// WetClear reports cylinders of which a wet test with a control has said what it
// can: to make it again tells nothing new.
func (c *Case) WetClear(cylinders []string) bool {
	return len(cylinders) > 0 && c.HasControl() && !slices.ContainsFunc(cylinders, func(n string) bool {
		w := c.WetOutcome(n)
		return w != WetRises && w != WetFlat
	})
}

// WetWellMade reports a wet test that was made as well as it can be: with a control, or
// on every cylinder that was read, and by a dose that is written down and not too large
// or that hardly moved the control. Whatever it showed, it shows again.
func (c *Case) WetWellMade() bool {
	tested := c.WetTested()
	if len(tested) == 0 || !c.HasControl() && len(tested) < len(c.Read()) {
		return false
	}
	return c.DoseRight() || c.HasControl() && !c.overdosed()
}

// DoseRight reports a dose of the wet test that was written down and is no larger than
// this engine's: what a control then rises by is its own need of oil.
func (c *Case) DoseRight() bool {
	most := c.OilDose()
	return c.Compression != nil && c.Compression.OilML > 0 && most > 0 && c.Compression.OilML <= most*doseSlack
}

// WetTells reports that the wet test can tell one cylinder from another: not in
// a diesel, or where all rose alike.
func (c *Case) WetTells() bool { return !c.Spec.Diesel() && !c.RisesEverywhere() }

// overdosed reports a wet test with more oil than leaves the readings as they are: the
// dose was too large, or the control rose too far.
func (c *Case) overdosed() bool { return c.ControlRose() || c.Noticed("wet-dose-too-large") }

// BeyondControl reports a low cylinder that rose by several times what the control did:
// the room that the oil takes up lifts both by as many percent, whatever the dose, so that
// the rest is its own need of oil. Above what the geometry gives it had more than the control.
func (c *Case) BeyondControl(r *diag.CylinderResult) bool {
	if r.Wet == nil || r.Dry == nil || *r.Dry <= 0 || !c.HasControl() || !c.ShortOfPressure(r) {
		return false
	}
	if most := c.Cranking().Expected; most != nil && !most.ByRatio && *r.Wet > most.High {
		return false
	}
	needed, net := c.WetNet(r)
	return net >= needed && net >= (controlTimes-1)*(*c.Cranking().WetControl)
}

// ControlRose reports that cylinders in no need of oil rose with it by more
// than they should.
func (c *Case) ControlRose() bool {
	control := c.Cranking().WetControl
	return control != nil && *control > c.ControlMost() && c.AllLow() == nil
}

// ControlMost is what a cylinder in no need of oil may rise by, in percent: more
// where the dose is known to be right.
func (c *Case) ControlMost() float64 {
	if c.DoseRight() {
		return controlByDose
	}
	return ControlRise
}

// WetIsIndirect reports an engine in which oil does not lie on the rings: it
// says less there.
func (c *Case) WetIsIndirect() bool { return c.Engine.Kind == engine.Flat || c.Spec.TwoStroke }

// ShortOfPressure reports a cylinder graded low; the only cylinder of an engine
// has no grade and is short where it is under its minimum.
func (c *Case) ShortOfPressure(r *diag.CylinderResult) bool {
	if len(c.Engine.Cylinders) > 1 {
		return r.Grade.IsLow()
	}
	return r.Dry != nil && *r.Dry < c.SingleMinimum()
}

// SingleMinimum is the stated minimum of an engine of one cylinder in the unit
// of the readings, 0 where there is none or it is not judged.
func (c *Case) SingleMinimum() float64 {
	m := c.Minimum()
	if m == nil || m.Verdict == diag.NotJudged {
		return 0
	}
	v, err := quantity.Convert(m.Limit, m.Unit, c.Cranking().Unit)
	if err != nil {
		return 0
	}
	return v
}

// Short lists the cylinders short of pressure, in the engine's order.
func (c *Case) Short() []string { return c.CylindersThat(c.ShortOfPressure) }

// WetEvidence is what the wet test says of a low cylinder's causes. Where no
// figures were taken, plain words count.
func (c *Case) WetEvidence(name string) WetOutcome {
	switch {
	case c.Spec.Diesel() || c.Cylinder(name) == nil || !c.ShortOfPressure(c.Cylinder(name)):
		return ""
	case len(c.WetTested()) == 0 && c.Compression != nil:
		return WetFromWords(c.Compression.WetInWords)
	}
	return c.WetOutcome(name)
}

// WetFromWords understands only what cannot be taken for anything else: "about
// the same on all" may be of the readings or of the rise.
func WetFromWords(words string) WetOutcome {
	words = strings.ToLower(words)
	switch {
	case SpeaksOf(words, "on all", "all alike", "everywhere", "all cylinders", "all of them") && !SpeaksOf(words, "no change", "no rise", "no better", "unchanged", "no difference"):
		return ""
	case SpeaksOf(words, "no change", "no rise", "no better", "unchanged", "no difference", "did not change", "did not rise", "same"):
		return WetFlat
	case SpeaksOf(words, "slight", "little", "partly", "some"):
		return WetUnclear
	case SpeaksOf(words, "significant", "considerabl", "clearly", "much better", "came up", "normal"):
		return WetRises
	}
	return ""
}

// WetNet gives the rise of a cylinder in percent of its own dry reading, less
// the control's where there is one, and how much of it counts as a rise.
func (c *Case) WetNet(r *diag.CylinderResult) (needed, net float64) {
	rise := *r.Wet - *r.Dry
	// A dead cylinder has no percent of its own: a rise is then a part of the
	// healthy ones' pressure.
	base := max(*r.Dry, 0.15*c.Healthy())
	if base <= 0 {
		return RawRise, 0
	}
	net = 100 * rise / base
	if c.HasControl() {
		return NetRise, net - *c.Cranking().WetControl
	}
	return RawRise, net
}

// HasControl reports that a cylinder that is not low was tested wet too.
func (c *Case) HasControl() bool { return c.Cranking().WetControl != nil }

// WetTested lists the cylinders that were read dry and wet, in the engine's order;
// it is the same list every time, to be read and not changed.
func (c *Case) WetTested() []string {
	if c.wet == nil {
		c.wet = append([]string{}, c.CylindersThat(func(r *diag.CylinderResult) bool { return r.Wet != nil && r.Dry != nil })...)
	}
	return c.wet
}

// Healthy is the middle of the cylinders that are not low, the reference where
// all are, or the minimum of an engine of one cylinder.
func (c *Case) Healthy() float64 { return remembered(&c.healthy, c.middleOfSound) }

func (c *Case) middleOfSound() float64 {
	if len(c.Engine.Cylinders) == 1 {
		return c.SingleMinimum()
	}
	var v []float64
	for i := range c.Cranking().Cylinders {
		if r := &c.Cranking().Cylinders[i]; r.Dry != nil && !r.Grade.IsLow() {
			v = append(v, *r.Dry)
		}
	}
	if len(v) == 0 {
		return c.Cranking().Reference
	}
	return Median(v)
}

// RisesEverywhere reports that every cylinder tested wet rose alike, one that
// is not low among them or all of the engine: where only the low ones were
// oiled, a rise that they share tells of them.
func (c *Case) RisesEverywhere() bool {
	least, most, tested := c.WetSpan()
	beside := c.HasControl() || len(tested) == len(c.Engine.Cylinders)
	return len(tested) > 1 && beside && least >= everywhereRise && most-least <= everywhereSpan
}

// WetOfAll says what oil did to an engine all of whose cylinders are low and
// were oiled, two at least: WetRises where each rose by more than the dose
// alone does, WetFlat where none did, "" where that cannot be told.
func (c *Case) WetOfAll() WetOutcome {
	tested := c.WetTested()
	if c.AllLow() == nil || c.Spec.Diesel() || len(tested) == 0 || len(tested) == 1 && c.Several() || len(tested) < len(c.Read()) || c.Noticed("wet-dose-too-large") {
		return ""
	}
	least, most := math.Inf(1), math.Inf(-1)
	for _, name := range tested {
		r := c.Cylinder(name)
		if *r.Dry <= 0 {
			return ""
		}
		rise := 100 * (*r.Wet - *r.Dry) / *r.Dry
		least, most = min(least, rise), max(most, rise)
	}
	needed := float64(NetRise)
	if len(tested) == 1 { // nothing beside it shows what the oil alone does
		needed = RawRise
	}
	switch {
	case least >= needed:
		return WetRises
	case most < NoRise:
		return WetFlat
	}
	return ""
}

// farRise is the rise with oil, in percent of the dry reading, that neither the oil's
// own volume nor the way in which it was read makes: judgement, no source.
const farRise = 40

// OilLiftsFar reports that oil lifted each of these cylinders by so much, or each
// that was read where none are named.
func (c *Case) OilLiftsFar(names []string) bool {
	if len(names) == 0 {
		names = c.Read()
	}
	return len(names) > 0 && c.Has(NeedsWet) && !c.Noticed("wet-dose-too-large") && !slices.ContainsFunc(names, func(n string) bool {
		r := c.Cylinder(n)
		return r == nil || r.Wet == nil || r.Dry == nil || *r.Dry <= 0 || 100*(*r.Wet-*r.Dry) < farRise*(*r.Dry)
	})
}

// WetSpan gives the smallest and the largest rise in percent of the median dry
// reading, and the cylinders tested.
func (c *Case) WetSpan() (least, most float64, tested []string) {
	s := c.Cranking()
	tested = c.WetTested()
	least, most = math.Inf(1), math.Inf(-1)
	if s.Median <= 0 {
		return 0, 0, nil
	}
	for _, name := range tested {
		r := c.Cylinder(name)
		rise := 100 * (*r.Wet - *r.Dry) / s.Median
		least, most = min(least, rise), max(most, rise)
	}
	return least, most, tested
}

// AllWet reports that oil did the same to all of these cylinders.
func (c *Case) AllWet(names []string, outcome WetOutcome) bool {
	return !slices.ContainsFunc(names, func(n string) bool { return c.WetEvidence(n) != outcome })
}

// WetControls are the cylinders tested wet that were not low dry.
func (c *Case) WetControls() []string {
	return c.CylindersThat(func(r *diag.CylinderResult) bool {
		return r.Wet != nil && r.Dry != nil && !r.Grade.IsLow() && r.Grade != diag.GradeNotJudged
	})
}

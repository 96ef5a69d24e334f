package diag

import (
	"math"
	"slices"
	"strings"

	"gaugesheet/diag/gauge"
)

// leakageApart is how far repeats of one leakage may lie apart, in points of
// percent of the supply: common practice, no source.
const leakageApart = 5

func assessLeakage(t *Test) *LeakageResult {
	section := t.Leakage
	if section == nil {
		return nil
	}
	names := t.cylinders()
	r := &LeakageResult{Complete: len(names) > 0}
	r.Limit, r.Orifice = leakageLimit(t)
	tool := leakageTool(t, names)
	var states []State
	var losses []float64
	for _, name := range names {
		dry := section.Dry[name]
		cylinder := leakOf(name, dry, r.Limit, section, tool)
		if wet, ok := lossOf(section.Wet[name].Reading); ok {
			cylinder.Wet = &wet
		}
		cylinder.WetAt = inside(section.Wet[name].At)
		if section.Wet[name].State == Tested {
			states = append(states, Tested)
		}
		if cylinder.Loss != nil && !cylinder.Bound {
			losses = append(losses, *cylinder.Loss)
		}
		states = append(states, dry.State)
		r.Complete = r.Complete && dry.State == Tested && len(dry.Values) > 0
		r.Cylinders = append(r.Cylinders, cylinder)
	}
	r.State = sectionState(section.State, states)
	r.N, r.Median = len(losses), median(losses)
	return r
}

// leakageLimit is the most that a cylinder may lose: the job's limit, unless it is of
// another tester, and else what the tester of an aircraft engine read that day on its master
// orifice, which some makers count as the limit.
func leakageLimit(t *Test) (limit *float64, orifice bool) {
	if t.Leakage.Limit != nil {
		if t.LimitOfAnotherTester() {
			return nil, false
		}
		return t.Leakage.Limit, false
	}
	if g := t.Gauges.Leakage; t.testerOnOrifice() && g.GoodLoss > 0 && t.Leakage.HeldOf80() {
		return &g.GoodLoss, true
	}
	return nil, false
}

// LimitOfAnotherTester reports a limit that a sound cylinder does not keep on the tester that
// was used, as the job says.
func (t *Test) LimitOfAnotherTester() bool {
	return t.Leakage != nil && t.Leakage.Limit != nil && t.SoundLoss() > *t.Leakage.Limit
}

// mostSound is the most that a tester can be said to read on a sound cylinder, in percent:
// with more it is not known whether that is lost or held.
const mostSound = 50

// SoundLoss is what the leakage tester is said to read on a sound cylinder, in percent lost;
// 0 where nobody says.
func (t *Test) SoundLoss() float64 {
	if g := t.Gauges.Leakage; g != nil && !t.testerOnOrifice() && g.GoodLoss <= mostSound {
		return g.GoodLoss
	}
	return 0
}

// orificeLoss is the loss in percent over which what an aircraft's tester reads cannot be of
// a sound cylinder, and is of its master orifice, whose hole lets about half of 80 psi
// through: judgement, no source.
const orificeLoss = 25

// testerOnOrifice reports that a tester's reading was taken on its master orifice.
func (t *Test) testerOnOrifice() bool {
	g := t.Gauges.Leakage
	return g != nil && (g.GoodLoss > orificeLoss && t.Leakage.HeldOf80() || strings.Contains(strings.ToLower(g.GoodReading), "orifice"))
}

// HeldOf80 reports a leakage test as it is made on aircraft: pressures held of 80.
func (l *Leakage) HeldOf80() bool {
	if l == nil {
		return false
	}
	for _, one := range l.Dry {
		entered := strings.ReplaceAll(one.Entered, " ", "")
		if len(one.Values) > 0 && (strings.HasSuffix(entered, "/80") || strings.Contains(entered, "of:80")) {
			return true
		}
	}
	return false
}

// leakageTool takes one point of percent where nothing tells how well the
// tester repeats.
func leakageTool(t *Test, names []string) instrument {
	i := newInstrument(t.Gauges.Leakage, nil, 0, telling{})
	var groups [][]float64
	for _, name := range names {
		if dry := t.Leakage.Dry[name]; !leaksDisagree(dry.Values) && dry.State == Tested {
			groups = append(groups, dry.Values)
		}
	}
	i.repeat = gauge.Repeatability(i.scale.Division, gauge.PooledDeviation(groups), gauge.DefaultLeakage)
	return i
}

func leakOf(name string, dry Leak, limit *float64, section *Leakage, tool instrument) LeakResult {
	r := LeakResult{Name: name, Entered: dry.Entered, At: inside(dry.At), Most: dry.Most, Verdict: NotJudged, Cover: slices.Contains(dry.At, ValveCover)}
	if r.Most == ValveCover {
		r.Most = crankcasePlace
	}
	r.State, r.Reason = stateOr(dry.State, dry.Reason, section.State, section.Reason)
	loss, ok := lossOf(dry.Reading)
	r.Bound = ok && dry.Kind == AtLeast
	if least, far := lostByAll(dry.Reading); !ok && far {
		loss, ok, r.Bound = least, true, true
	}
	if !ok {
		return r
	}
	r.Loss = &loss
	r.Uncertainty = tool.againstBook(loss, tool.standard(dry.Reading))
	if limit != nil {
		r.Verdict, r.PastAsRead = judgeRange(loss, math.Inf(-1), *limit, r.Uncertainty, r.Bound)
	}
	return r
}

// lossOf gives the mean of the repeats in percent; false where nothing was
// read or the repeats disagree.
func lossOf(r Reading) (float64, bool) {
	v, ok := r.Value()
	return v, ok && finite(v) && !leaksDisagree(r.Values)
}

// lostByAll is the least of repeats that disagree, where that is more than a sound cylinder
// loses: it loses so much, or more.
func lostByAll(r Reading) (least float64, much bool) {
	if r.State != Tested || len(r.Values) == 0 {
		return 0, false
	}
	least = slices.Min(r.Values)
	return least, least > GoodLoss
}

// GoodLoss is the loss in percent up to which a cylinder is good: common practice, no source.
const GoodLoss = 10.0

func leaksDisagree(values []float64) bool {
	for _, v := range values {
		if math.Abs(v-values[0]) > leakageApart+tiny {
			return true
		}
	}
	return false
}

// judgeRepeats judges a reading against a range. Repeats that disagree are judged where they
// all say the same: of an engine that reads 12 and then 30, a limit of at least 38 is broken.
func judgeRepeats(r Reading, value, low, high, u float64) (verdict Verdict, past bool) {
	if !disagree(r.Values, telling{}) {
		return judgeRange(value, low, high, u, r.Kind == AtLeast)
	}
	for i, v := range r.Values {
		one, over := judgeRange(v, low, high, u, r.Kind == AtLeast)
		if i > 0 && (one != verdict || over != past) {
			return NotJudged, false
		}
		verdict, past = one, over
	}
	return verdict, past
}

// judgeRange judges a value against a range, of which a side may be infinite,
// with a guard band of u; past is the verdict as read. A value that is only
// known not to be less can be clear of the low end or above the high one; what
// it leaves open is not judged.
func judgeRange(value, low, high, u float64, bound bool) (verdict Verdict, past bool) {
	verdict = NotJudged
	open := false // a side of which a lower bound says nothing
	if low > high {
		return NotJudged, false
	}
	if finite(low) {
		v := Verdict(gauge.Judge(value, low, u, gauge.AtLeast))
		p := gauge.Judge(value, low, 0, gauge.AtLeast) == gauge.Outside
		if bound && v != Within {
			v, p, open = NotJudged, false, true
		}
		verdict, past = v, p
	}
	if finite(high) {
		v := Verdict(gauge.Judge(value, high, u, gauge.AtMost))
		over := gauge.Judge(value, high, 0, gauge.AtMost) == gauge.Outside
		past = past || over
		if bound && !over {
			v, open = NotJudged, true
		}
		if severity(v) > severity(verdict) {
			verdict = v
		}
	}
	if open && verdict != Outside {
		return NotJudged, past
	}
	return verdict, past
}

// ValveCover is where air was heard that goes into the crankcase, by the rings or by what leads
// down from the rockers.
const ValveCover = "valve cover"

const crankcasePlace = "crankcase"

// inside are places with the crankcase for what lies open to it.
func inside(at []string) []string {
	if !slices.Contains(at, ValveCover) {
		return at
	}
	var list []string
	for _, place := range at {
		if place == ValveCover {
			place = crankcasePlace
		}
		if !slices.Contains(list, place) {
			list = append(list, place)
		}
	}
	return list
}

// Heard are the places of its air as they were heard.
func (r *LeakResult) Heard(at []string) []string {
	if !r.Cover {
		return at
	}
	list := slices.Clone(at)
	for i, place := range list {
		if place == crankcasePlace {
			list[i] = ValveCover
		}
	}
	return list
}

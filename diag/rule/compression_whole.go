package rule

import (
	"maps"
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// allLowBasis is what every cylinder is low against.
type allLowBasis struct {
	variant string // "" the stated minimum
	clear   bool   // by more than the uncertainty
	facts   diag.Facts
}

// allLow gives what every cylinder that was read is under, nil where there is
// no such thing. The spread alone never says that all are low.
func (c *Case) allLow() *allLowBasis {
	s := c.Sums.Compression
	over := c.anyCylinder(func(r *diag.CylinderResult) bool { return r.Dry != nil && r.Kind == diag.AtLeast })
	if s.N < 2 || over || c.dead() {
		return nil
	}
	if minimum := c.minimum(); minimum != nil {
		highest, err := quantity.Convert(s.Highest, s.Unit, minimum.Unit)
		if err != nil || minimum.Verdict == diag.NotJudged || highest >= minimum.Limit {
			return nil
		}
		return &allLowBasis{"", highest < minimum.Limit-minimum.Uncertainty, c.limitFacts(minimum)}
	}
	if e := s.Expected; e != nil {
		if s.Highest >= e.Low {
			return nil
		}
		return &allLowBasis{"expected", false, diag.Facts{"expected": c.span(e.Low, e.High)}}
	}
	if s.ComparedWith == "" {
		return nil
	}
	least := 0.0
	for i, name := range c.Read() {
		r := c.Cylinder(name)
		if r.Change == nil || *r.Change >= -r.ChangeU {
			return nil
		}
		if fall := -*r.Change; i == 0 || fall < least {
			least = fall
		}
	}
	return &allLowBasis{"earlier", true, diag.Facts{"fall": c.pressure(least), "earlier": s.ComparedWith}}
}

// minimum is the first stated minimum as judged, nil where none is stated.
func (c *Case) minimum() *diag.LimitResult {
	for i := range c.Sums.Compression.Limits {
		if l := &c.Sums.Compression.Limits[i]; l.Rule == string(diag.Minimum) {
			return l
		}
	}
	return nil
}

// limitFacts are the numbers of a limit that was judged.
func (c *Case) limitFacts(l *diag.LimitResult) diag.Facts {
	decimals := 1
	if l.Unit == c.Sums.Compression.Unit {
		decimals = c.Sums.Compression.Decimals
	} else if l.Unit != quantity.Percent {
		decimals = quantity.DefaultDecimals(l.Unit)
	}
	number := func(v float64) diag.Number { return diag.Number{Value: v, Decimals: decimals, Unit: l.Unit} }
	kind, basis, _ := strings.Cut(l.Rule, " of ")
	return diag.Facts{
		"kind": kind, "basis": basis, "limit": number(l.Limit), "value": number(l.Value), "u": number(l.Uncertainty), "rule": l.Rule,
		"entered": l.AsEntered, "source": l.Source, "corrected": l.Corrected, "cylinder": l.Cylinder,
	}
}

func allLowFinding(c *Case) []diag.Finding {
	basis := c.allLow()
	if basis == nil {
		return nil
	}
	s := c.Sums.Compression
	even := s.LowestPercentOfHighest >= evenTogether
	f := c.finding("all-low", c.Read(), basis.facts)
	f.Variant = basis.variant
	f.Facts["read"], f.Facts["even"] = c.span(s.Lowest, s.Highest), even
	f.Causes = c.weighAllLow(even).top()
	f.Against = c.against(f.Causes[0].Key, f.Cylinders)
	if !basis.clear {
		f.Confidence, f.Doubts = diag.Weak, phrases("near-limit")
		if basis.variant == "expected" {
			f.Doubts = phrases("no-maker-figure")
		}
	} else if !c.noticed("method-incomplete") && !c.noticed("not-standard-method") {
		f.Urgency = diag.ActSoon
	}
	switch {
	case even:
		f.Next = c.next(f.Cylinders, "second-gauge", "leak-down", "cam-timing-marks")
	case c.wetIsOfUse(f.Cylinders):
		f.Next = c.next(f.Cylinders, "wet-test", "leak-down")
	default:
		f.Next = c.next(f.Cylinders, "leak-down", "second-gauge")
	}
	return []diag.Finding{f}
}

// weighAllLow weighs the test's own faults first where it is not known how the
// test was made, then timing before wear; wear not where the rings are new.
func (c *Case) weighAllLow(even bool) *causes {
	var w *causes
	switch {
	case c.Spec.TwoStroke:
		w = weigh("wear", "restricted-inlet")
	case speaksOf(strings.ToLower(strings.Join(c.History.WorkDone, "; ")), "new rings", "rings renewed", "rings replaced", "new pistons", "rebuilt"):
		w = weigh("cam-timing", "gauge-reads-low")
	case even:
		w = weigh("cam-timing", "wear", "washed-bore")
	default:
		w = weigh("wear", "cam-timing", "fault-in-each")
	}
	k := c.Conditions
	w.addIf(k.Throttle == "closed", heard, "throttle-or-choke")
	w.addIf(even && k.Throttle != "open" && !c.Spec.Diesel(), known, "throttle-or-choke")
	w.addIf(k.CrankingRPM != nil && *k.CrankingRPM < slowCranking, known, "weak-cranking")
	w.addIf(even && c.Gauges.Compression == nil, known-1, "gauge-reads-low")
	w.addIf(k.Engine == "cold", hint, "cold-engine")
	w.addIf(c.airPressureRatio() < 0.95 && !c.corrected(), known, "altitude")
	w.addIf(c.risesEverywhere(), wet, "wear", "washed-bore")
	w.addIf(c.allTight(c.Read()), heard, "cam-timing")
	w.addIf(c.losesAt(c.Read(), "crankcase") && !c.allTight(c.Read()), heard, "wear")
	w.addIf(c.stood(), known, "stuck-rings")
	return w
}

// slowCranking is the cranking speed in r/min under which readings sag: common
// practice, no source.
const slowCranking = 150

// corrected reports that the stated minimum was brought to the test's air.
func (c *Case) corrected() bool {
	m := c.minimum()
	return m != nil && m.Corrected
}

// under lists the cylinders whose reading is under a limit.
func (c *Case) under(l *diag.LimitResult) []string {
	s := c.Sums.Compression
	return c.cylindersThat(func(r *diag.CylinderResult) bool {
		if r.Dry == nil || r.Grade == diag.GradeNotJudged && len(c.Engine.Cylinders) > 1 && s.N > 1 {
			return false
		}
		v, err := quantity.Convert(*r.Dry, s.Unit, l.Unit)
		return err == nil && v < l.Limit
	})
}

func belowMinimum(c *Case) []diag.Finding {
	var list []diag.Finding
	for i := range c.Sums.Compression.Limits {
		l := &c.Sums.Compression.Limits[i]
		close := l.Verdict == diag.TooClose && l.PastAsRead
		if l.Rule != string(diag.Minimum) || l.Verdict != diag.Outside && !close {
			continue
		}
		names := c.under(l)
		if len(names) == 0 {
			names = []string{l.Cylinder}
		}
		f := c.finding("below-minimum", names, c.limitFacts(l))
		f.Urgency = diag.ActSoon
		if c.Conditions.Throttle == "not sure" {
			f.Urgency = diag.CheckAgain
		}
		w := weigh("wear", "exhaust-valve", "gauge-reads-low")
		if c.Spec.TwoStroke {
			w = weigh("wear", "head-gasket", "gauge-reads-low")
		}
		if len(names) == 1 {
			c.evidence(w, names[0])
		}
		f.Next = c.nextForLow(names)
		if close {
			f.Variant, f.Urgency, f.Confidence, f.Doubts = "too-close", diag.CheckAgain, diag.Weak, phrases("near-limit")
			f.Next = c.next(names, "second-gauge", "leak-down")
		}
		f.Causes = w.top()
		list = append(list, f)
	}
	return list
}

func nearMinimum(c *Case) []diag.Finding {
	for i := range c.Sums.Compression.Limits {
		l := &c.Sums.Compression.Limits[i]
		if l.Rule != string(diag.Minimum) || l.Verdict != diag.TooClose || l.PastAsRead {
			continue
		}
		f := c.finding("near-minimum", []string{l.Cylinder}, c.limitFacts(l))
		f.Confidence, f.Doubts = diag.Weak, phrases("near-limit")
		f.Next = c.next(f.Cylinders, "second-gauge")
		return []diag.Finding{f}
	}
	return nil
}

func outsideLimit(c *Case) []diag.Finding {
	s := c.Sums.Compression
	if len(c.LowSet()) > 0 || len(c.Graded(diag.High)) > 0 || c.dead() {
		return nil
	}
	var worst *diag.LimitResult
	for i := range s.Limits {
		l := &s.Limits[i]
		if l.Rule == string(diag.Minimum) {
			continue
		}
		switch {
		case l.Verdict == diag.Outside && (worst == nil || worst.Verdict != diag.Outside):
			worst = l
		case l.Verdict == diag.TooClose && l.PastAsRead && worst == nil:
			worst = l
		}
	}
	if worst == nil {
		return nil
	}
	f := c.finding("outside-limit", []string{worst.Cylinder}, c.limitFacts(worst))
	f.Facts["usual"] = s.DefaultLimit
	w := c.weighSingle()
	c.evidence(w, worst.Cylinder)
	f.Causes = w.top()
	f.Next = c.repeatOrFollow(f.Cylinders)
	if worst.Verdict == diag.TooClose {
		f.Variant, f.Confidence, f.Doubts = "too-close", diag.Weak, phrases("near-limit")
	}
	return []diag.Finding{f}
}

func aLittleLow(c *Case) []diag.Finding {
	names := c.Graded(diag.Watch, diag.GradeTooClose)
	if len(names) == 0 || c.dead() {
		return nil
	}
	f := c.finding("a-little-low", names, c.lowFacts(names))
	if c.relativeLimitsKept() {
		f.Urgency = diag.NoAction
	}
	if len(c.Graded(diag.GradeTooClose)) > 0 {
		f.Confidence, f.Doubts = diag.Weak, phrases("near-limit")
	}
	f.Next = c.repeatOrFollow(names)
	return []diag.Finding{f}
}

// repeatOrFollow repeats a reading that decides little by itself; where these
// cylinders were read twice already, or their air was followed, the next step
// goes on from there.
func (c *Case) repeatOrFollow(names []string) *diag.Check {
	if c.repeated(names) || c.leakageKnown(names) {
		return c.nextForLow(names)
	}
	return c.next(names, "repeat-method", "leak-down")
}

// sound reports every cylinder read and even, none dead, and no limit of any
// kind passed or too close to call.
func (c *Case) sound() bool {
	s := c.Sums.Compression
	if !s.Complete || c.dead() || len(c.Graded(diag.Even)) != len(c.Engine.Cylinders) {
		return false
	}
	return !slices.ContainsFunc(s.Limits, func(l diag.LimitResult) bool {
		return l.Verdict == diag.Outside || l.Verdict == diag.TooClose && (l.PastAsRead || l.Rule == string(diag.Minimum))
	})
}

func evenAboveMinimum(c *Case) []diag.Finding {
	s, minimum := c.Sums.Compression, c.minimum()
	single := len(c.Engine.Cylinders) == 1 && s.N == 1
	if minimum == nil || !single && !c.sound() {
		return nil
	}
	if slices.ContainsFunc(s.Limits, func(l diag.LimitResult) bool {
		return l.Rule == string(diag.Minimum) && l.Verdict != diag.Within
	}) {
		return nil
	}
	f := c.finding("even-above-minimum", c.Read(), c.limitFacts(minimum))
	if single {
		f.Variant = "single"
	}
	f.Urgency = diag.NoAction
	c.evenFacts(&f)
	return []diag.Finding{f}
}

func evenNoMinimum(c *Case) []diag.Finding {
	s := c.Sums.Compression
	if c.minimum() != nil || s.N < 2 || !c.sound() {
		return nil
	}
	f := c.finding("even-no-minimum", c.Read(), diag.Facts{})
	f.Urgency = diag.NoAction
	c.evenFacts(&f)
	if e := s.Expected; f.Variant == "" && e != nil && s.Lowest >= e.Low && s.Highest <= e.High {
		f.Variant = "expected"
		f.Facts["expected"] = c.span(e.Low, e.High)
	}
	return []diag.Finding{f}
}

func (c *Case) evenFacts(f *diag.Finding) {
	s := c.Sums.Compression
	f.Facts["read"] = c.span(s.Lowest, s.Highest)
	f.Facts["percent"] = percent(s.LowestPercentOfHighest, 0)
	f.Facts["count"] = s.N
	if !c.hasEarlierOrLimit() {
		f.Doubts = phrases("no-maker-figure")
	}
	if slices.ContainsFunc(s.Limits, func(l diag.LimitResult) bool { return l.Verdict == diag.TooClose }) {
		f.Confidence = diag.Weak
		f.Doubts = append(f.Doubts, diag.Phrase{Key: "near-limit"})
	}
	if l := c.closeLimit(); l != nil {
		f.Variant, f.Next = "too-close", c.next(f.Cylinders, "repeat-method")
		maps.Copy(f.Facts, c.limitFacts(l))
		if f.Next != nil {
			f.Urgency = diag.CheckAgain
		}
	}
}

func (c *Case) hasEarlierOrLimit() bool {
	return c.minimum() != nil || c.Sums.Compression.ComparedWith != ""
}

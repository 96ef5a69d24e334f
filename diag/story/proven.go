package story

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
	"gaugesheet/diag/rule"
)

// shownSound reports that the tests show the engine sound, and not only that they
// found nothing: every main test of the job was made on all cylinders and came
// out within, the pressure is known to be enough and not only even, nothing is
// complained of, and the engine runs and did not stand. Only then is there a
// tick.
func shownSound(c *known.Case, d *diag.Diagnosis) bool {
	if d.Urgency != diag.NoAction || d.Withheld || troubled(c) || c.Stood() || !c.MainTestsMade() {
		return false
	}
	tested, all := false, true
	for _, test := range []func(*known.Case) (made, sound bool){pressureSound, facesSound, leakageSound, supplySound} {
		made, sound := test(c)
		tested, all = tested || made, all && (!made || sound)
	}
	return tested && all
}

// troubled reports an engine of which something is complained, that does not run or runs
// roughly, or whose plugs are due.
func troubled(c *known.Case) bool {
	complained := len(c.History.Complaints) > 0 || len(c.Complaints()) > 0
	return complained || !c.Starts() || c.Spec.Runs == "rough" || c.Has(known.NeedsPlugs) && len(c.PlugsLooking("worn")) > 0
}

func pressureSound(c *known.Case) (made, sound bool) {
	s := c.Sums.Compression
	if s == nil {
		return false, false
	}
	even := !slices.ContainsFunc(s.Cylinders, func(r diag.CylinderResult) bool { return r.Grade != diag.Even })
	return true, s.Complete && even && kept(s.Limits) && c.PressureEnough()
}

func facesSound(c *known.Case) (made, sound bool) {
	s := c.Sums.Rotors
	if s == nil {
		return false, false
	}
	stated := slices.ContainsFunc(s.Limits, func(l diag.LimitResult) bool { return l.Rule == string(diag.Minimum) })
	return true, s.Complete && stated && kept(s.Limits)
}

// kept reports limits that are all kept. One that is too close to call is not;
// of the spread that is only customary, being clear of it is enough.
func kept(limits []diag.LimitResult) bool {
	return !slices.ContainsFunc(limits, func(l diag.LimitResult) bool {
		return l.Verdict != diag.Within && (l.Verdict == diag.Outside || !l.Custom())
	})
}

func leakageSound(c *known.Case) (made, sound bool) {
	s := c.Sums.Leakage
	if s == nil {
		return false, false
	}
	leaks := slices.ContainsFunc(s.Cylinders, func(r diag.LeakResult) bool {
		if s.Limit != nil {
			return r.Verdict != diag.Within
		}
		return r.Loss == nil || known.Beyond(*r.Loss, known.GoodLoss)
	})
	return true, s.Complete && !leaks
}

// supplySound is of a fuel pressure of which every reading that has a limit
// keeps it, and one at least in each circuit has.
func supplySound(c *known.Case) (made, sound bool) {
	s := c.Sums.Fuel
	if s == nil {
		return false, false
	}
	for _, circuit := range s.Circuits {
		var verdicts []diag.Verdict
		for _, r := range circuit.Readings {
			if r.LimitLow != nil || r.LimitHigh != nil {
				verdicts = append(verdicts, r.Verdict)
			}
		}
		for _, h := range circuit.Hold {
			if h.LimitLow != nil || h.LimitHigh != nil {
				verdicts = append(verdicts, h.Verdict)
			}
		}
		if v := circuit.Volume; v != nil && (v.LimitLow != nil || v.LimitHigh != nil) {
			verdicts = append(verdicts, v.Verdict)
		}
		if len(verdicts) == 0 || slices.ContainsFunc(verdicts, func(v diag.Verdict) bool { return v != diag.Within }) {
			return true, false
		}
	}
	return true, len(s.Circuits) > 0
}

// unsayProof tells less than that a repair is proved in a story that asks for something: what
// is left there says that it was not all.
func (s *story) unsayProof(c *known.Case) {
	if s.Urgency == diag.NoAction {
		return
	}
	for _, m := range s.members {
		if m.rule.Lesser == "" {
			continue
		}
		m.rule = rule.Named(m.rule.Lesser)
		m.say(c)
		m.finding.Urgency = diag.NoAction // what asks for something is said by the others
	}
}

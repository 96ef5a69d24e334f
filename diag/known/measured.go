package known

import (
	"math"
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// Measured gives a further test with its sums by the key of its section, nil
// where it was not made.
func (c *Case) Measured(section string) *diag.MeasuredResult { return c.Sums.MeasuredTest(section) }

// OfTest is a condition on a further test.
func OfTest(section, words string, is func(*diag.MeasuredResult) bool) Condition {
	return ofCase(words, func(c *Case) bool {
		r := c.Measured(section)
		return r != nil && is(r)
	})
}

// Past reports a reading past a limit, and whether it is clear of it.
func Past(r *diag.MeasuredReading) (past, clear bool) {
	if r == nil || !r.Limited() || !r.PastAsRead {
		return false, false
	}
	return true, r.Verdict == diag.Outside
}

// Under reports a reading below the least that is permitted, and whether it is
// clear of it.
func Under(r *diag.MeasuredReading) (under, clear bool) {
	past, clear := Past(r)
	under = past && r.BelowLimit()
	return under, under && clear
}

// Over reports a reading above the most that is permitted, and whether it is
// clear of it.
func Over(r *diag.MeasuredReading) (over, clear bool) {
	past, clear := Past(r)
	over = past && r.AboveLimit()
	return over, over && clear
}

// WorstOf is of the readings of a further test of which a function holds clearly, else
// of those of which it holds at all, the one farthest past its limit; nil for none.
func WorstOf(r *diag.MeasuredResult, is func(*diag.MeasuredReading) (past, clear bool)) (worst *diag.MeasuredReading, clear bool) {
	if r == nil {
		return nil, false
	}
	for i := range r.Readings {
		past, sure := is(&r.Readings[i])
		if past && (worst == nil || sure && !clear || sure == clear && Excess(&r.Readings[i]) > Excess(worst)) {
			worst, clear = &r.Readings[i], sure
		}
	}
	return worst, clear
}

// Undone are the further tests that would go on where the cylinders seal, as far
// as the job lacks them: what a mechanic asks next of a sound engine that
// misbehaves.
func (c *Case) Undone() diag.Names {
	var names diag.Names
	for _, section := range []string{Oil, Vacuum, Balance, Trims} {
		switch {
		case c.Measured(section) != nil,
			section == Vacuum && c.Spec.Diesel(),
			section == Balance && !c.Several(),
			section == Trims && !c.Injected():
			continue
		}
		names = append(names, section)
	}
	return names
}

// SystemRepaired gives a reading of a further test before the work and after it:
// past its limit then, and kept now and changed by more than both can be off
// (proved), or past it now too and not changed so. Nil where there is none.
func (c *Case) SystemRepaired(section string, proved bool) (was, now *diag.MeasuredReading) {
	r := c.Measured(section)
	before := c.beforeWork()
	if before == nil || r == nil {
		return nil, nil
	}
	then := c.Then(before).Measured(section)
	for i := range r.Readings {
		now := &r.Readings[i]
		was := then.Same(now)
		if was == nil && section == Clearance {
			was = noClearance(then, now)
		}
		if was == nil || !now.Limited() {
			continue
		}
		old := *was
		old.LimitLow, old.LimitHigh = now.LimitLow, now.LimitHigh // before the work nobody had to write them down
		apart := math.Abs(now.Value-was.Value) > now.Uncertainty+was.Uncertainty
		switch {
		case !old.BelowLimit() && !old.AboveLimit():
		case proved && apart && now.Verdict == diag.Within, !proved && !apart && now.PastAsRead:
			return was, now
		}
	}
	return nil, nil
}

// NoClearanceWord is what the job writes of a valve without any.
const NoClearanceWord = diag.NothingMeasured

// noClearance is the reading of a valve that had no clearance at all: less than any
// figure, and written as the word.
func noClearance(then *diag.MeasuredResult, now *diag.MeasuredReading) *diag.MeasuredReading {
	if then == nil {
		return nil
	}
	word := (&diag.Measured{Words: then.Words}).WordOf(now.Name, now.Cylinder)
	if word != NoClearanceWord {
		return nil
	}
	return &diag.MeasuredReading{Name: now.Name, Cylinder: now.Cylinder, Unit: now.Unit, Entered: word, Uncertainty: now.Uncertainty}
}

// clearanceRight reports the clearances of a cylinder that keep their limits: of both its
// valves, or of the one at which its air was heard and not at the other.
func (c *Case) clearanceRight(name string) bool {
	r := c.Measured(Clearance)
	if r == nil || len(c.NoClearance(name)) > 0 {
		return false
	}
	kept, heard := 0, false
	for _, valve := range []struct{ name, at, other string }{{"exhaust", AtExhaust, AtInlet}, {"inlet", AtInlet, AtExhaust}} {
		m := r.Of(valve.name, name)
		switch {
		case m == nil:
			continue
		case m.PastAsRead || !m.Limited(): // near the edge there is clearance left all the same, which a valve held open has not
			return false
		}
		heard = heard || c.LeaksAt(name, valve.at) && !c.LeaksAt(name, valve.other)
		kept++
	}
	return kept == 2 || heard
}

// ClearancesRight reports an engine of which both valves of every cylinder keep their limits.
func (c *Case) ClearancesRight() bool {
	return c.ClearanceKnown(nil) && !slices.ContainsFunc(c.Every(), func(n string) bool { return !c.clearanceRight(n) })
}

// A ruled is a reading of a further test of which a rule of its own says that it is past a
// limit: past either of them, or the one that is named.
type ruled struct {
	name string
	past side
	on   func(*Case, *diag.MeasuredReading) bool // where the rule is not for every engine, or asks for more than a limit
}

type side uint8

const (
	either side = iota
	least
	most
)

// spokenOf are those of each further test.
var spokenOf = map[string][]ruled{
	Oil:          {{name: "cranking"}, {name: "cold-idle"}, {name: "idle"}, {name: "at-speed"}},
	Crankcase:    {{name: "readings", past: most}, {name: "flow", past: most}},
	BackPressure: {{name: "pressure", past: most}},
	Injectors: {
		{name: "ohms", on: func(c *Case, m *diag.MeasuredReading) bool { return c.injectorOhmsApart(m.Cylinder) }},
		{name: "before", on: func(c *Case, m *diag.MeasuredReading) bool {
			return c.Measured(Injectors).Of("after", m.Cylinder) != nil
		}}, // it is judged by what was read after cleaning
	},
	Timing:        {{name: "base", on: ofSpark}, {name: "advance", on: ofSpark}, {name: "dwell", on: ofSpark}, {name: "points-gap", on: ofSpark}, {name: "cam"}, {name: "chain-slack", past: most}},
	Starting:      {{name: "draw"}},
	Clearance:     {{name: "inlet", on: lashSet}, {name: "exhaust", on: lashSet}, {name: "lift inlet", past: least}, {name: "lift exhaust", past: least}},
	DieselTests:   {{name: "nozzles opening", past: least}, {name: "return cylinders", past: most}, {name: "inlet-vacuum", past: most}, {name: "glow", past: most}},
	Gas:           {{name: diag.LambdaReading, on: ofSpark}},
	Magnetos:      {{name: "left"}, {name: "right"}, {name: diag.MagnetoDifference}},
	CrankcaseHold: {{name: diag.HeldFall, on: func(c *Case, _ *diag.MeasuredReading) bool { return c.Ported() }}},
}

func ofSpark(c *Case, _ *diag.MeasuredReading) bool { return !c.Spec.Diesel() }
func lashSet(c *Case, _ *diag.MeasuredReading) bool { return c.LashCanBeSet() }

// PastUnspoken is a reading past its limit of which no rule of its own speaks.
func (c *Case) PastUnspoken(section string) func(*diag.MeasuredReading) (past, clear bool) {
	return func(m *diag.MeasuredReading) (bool, bool) {
		past, clear := Past(m)
		own := slices.ContainsFunc(spokenOf[section], func(s ruled) bool {
			return s.name == m.Name && (s.past == either || (s.past == most) == m.AboveLimit()) && (s.on == nil || s.on(c, m))
		})
		own = own || section == diag.OtherReadings && c.boosts(m) || clear && c.borneOut(section, m)
		return past && !own, clear && !own
	}
}

// borneOut reports a cylinder's reading past its limit which, beside those of the others, is
// off the same way: a rule of its own says so, and neither the reading nor the limit is in doubt.
func (c *Case) borneOut(section string, m *diag.MeasuredReading) bool {
	if m.Cylinder == "" {
		return false
	}
	of := Subject{Cylinders: []string{m.Cylinder}}
	under, _ := Under(m)
	switch {
	case section == Injectors && (m.Name == "before" || m.Name == "after"):
		return under && InjectorLow.Holds(c, of) || !under && InjectorRich.Holds(c, of)
	case section == Balance && m.Name == "drop":
		return under && BalanceTells.Holds(c, of) && (PullsLittle.Holds(c, of) || PullsNothing.Holds(c, of))
	case section == DieselTests && m.Name == "contribution":
		return under && ContributesLittle.Holds(c, of)
	}
	return false
}

// byAHair is how far past its limit a clearance may be by how a feeler was held, in
// mm: a thousandth of an inch; judgement, no source.
const byAHair = 0.026

// ByAHair reports a clearance that is past its limit by no more than that.
func ByAHair(m *diag.MeasuredReading) bool {
	off := 0.0
	switch {
	case m.BelowLimit():
		off = *m.LimitLow - m.Value
	case m.AboveLimit():
		off = m.Value - *m.LimitHigh
	}
	mm, err := quantity.Convert(off, m.Unit, quantity.Millimetre)
	return err == nil && mm <= byAHair
}

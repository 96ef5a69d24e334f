package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// leakAt is the finding on air at a place: whatever the loss, or at a valve,
// which seldom gets better by itself.
func leakAt(always, valve bool) func(*known.Case, known.Subject) diag.Finding {
	return func(c *known.Case, s known.Subject) diag.Finding {
		f := diag.Finding{Urgency: leakUrgency(c, s.Cylinders, always), Facts: c.LeakFacts(s.Cylinders)}
		if valve && c.Ported() {
			f.Variant, f.Headline = twoStrokeVariant, "leaks-past-rings"
		}
		if always {
			f.Confidence = diag.Fair // air there has only one way, however cold the engine
			return f
		}
		judgeLeak(c, s.Cylinders, &f)
		if valve && !c.Ported() && !c.InletValves() && c.LeaksAt(s.Name(), known.AtInlet) { // through ports in the wall
			f.Variant, f.Headline = airBoxVariant, "leaks-past-rings"
		}
		if valve && bothValves(c, s) {
			f.Confidence, f.Headline = diag.Weak, "leakage-doubtful"
		}
		return f
	}
}

// crankcaseSays names no rings where oil on them stopped none of it.
func crankcaseSays(c *known.Case, s known.Subject) diag.Finding {
	f := leakAt(false, false)(c, s)
	f.Facts["oiled"] = leaksAsMuchOiled.Holds(c, s) && !oilOffRings.HoldsIn(c)
	if f.Facts["oiled"] == true && f.Headline == "" {
		f.Headline = "leaks-below"
	}
	return f
}

// lossFound is a finding on a loss, of this urgency.
func lossFound(urgency diag.Urgency) func(*known.Case, known.Subject) diag.Finding {
	return func(c *known.Case, s known.Subject) diag.Finding {
		f := diag.Finding{Urgency: urgency, Facts: c.LeakFacts(s.Cylinders)}
		f.Facts["fresh"] = known.RingsNotRunIn.HoldsIn(c)
		judgeLeak(c, s.Cylinders, &f)
		return f
	}
}

// leakUrgency is how soon a leak is to be seen to, by its amount: a limit
// decides where there is one, the bands of common practice otherwise. What is far gone in
// an engine that flies is not run to read it again.
func leakUrgency(c *known.Case, names []string, always bool) diag.Urgency {
	worst := c.WorstLeak(names)
	switch {
	case grounded(c, names):
		return diag.DoNotRun
	case always, c.AnyLow(names):
		return diag.ActSoon
	case worst == nil: // heard, and not measured
		return diag.CheckAgain
	case worst.Verdict == diag.Outside:
		return diag.ActSoon
	case !known.Beyond(*worst.Loss, known.WornLoss) && provedOn(c, names): // a new seat beds in
		return diag.NoAction
	case c.DoneOn(names, "leak-down again", "leak-down repeated", "leakage repeated").Says("holds"): // read again
		return diag.CheckAgain
	case worst.Verdict == diag.Within: // what is allowed is watched, however far from the others
		return diag.CheckAgain
	case c.PastLimit(worst):
		return diag.CheckAgain
	case known.Beyond(*worst.Loss, c.ActOn()):
		return diag.ActSoon
	}
	return diag.CheckAgain
}

// grounded reports a cylinder of an engine that flies which loses nearly all of its air at a
// place that was heard: not one that held it when it was read again, nor past cold rings.
func grounded(c *known.Case, names []string) bool {
	return c.Flies() && c.HasValves() && slices.ContainsFunc(names, func(n string) bool {
		return losesATorrent(c, []string{n}) && c.PlaceNoted(n) && !provisional(c, []string{n}) && !c.DoneOn([]string{n}, "leak-down again", "leak-down repeated", "leakage repeated").Says("holds")
	})
}

// provedOn reports cylinders each of which was repaired, and the test shows it.
func provedOn(c *known.Case, names []string) bool {
	proved := c.RepairedTo(known.Proved)
	return !slices.ContainsFunc(names, func(n string) bool { return !slices.Contains(proved, n) })
}

// provisional reports a loss taken cold that may be less warm. Pistons and rings
// fill their bores as they warm up; a valve through which nearly all goes does not
// close by that.
func provisional(c *known.Case, names []string) bool {
	return c.LeakageCold() && !known.All(known.Valves, known.OfAny("nearly all lost at a valve", gapes)).Holds(c, known.Subject{Cylinders: names})
}

// gapes reports a cylinder that loses more at a valve than one lets by that only
// leaks.
func gapes(c *known.Case, n string) bool {
	return losesATorrent(c, []string{n}) && (c.LeaksAt(n, known.AtExhaust) || c.LeaksAt(n, known.AtInlet)) && c.LostAt(n) != known.AtCrankcase
}

// judgeLeak sets how sure a finding on leakage is by itself. A figure taken
// cold is provisional: the same cylinder may hold three times as much when warm.
func judgeLeak(c *known.Case, names []string, f *diag.Finding) {
	worst := c.WorstLeak(names)
	f.Confidence = diag.Fair
	doubt := func(key string) {
		f.Confidence = diag.Weak
		f.Doubts = append(f.Doubts, diag.Phrase{Key: key})
	}
	switch {
	case worst == nil && slices.ContainsFunc(names, c.LossLeftOpen): // read, and nothing follows from it
		doubt("leakage-apart")
	case worst == nil:
		f.Doubts = append(f.Doubts, diag.Phrase{Key: "leakage-no-figure"})
	case provisional(c, names):
		doubt("leakage-cold")
		if f.Urgency == diag.ActSoon && !c.AnyLow(names) && c.AllLow() == nil {
			f.Urgency = diag.CheckAgain
		}
	case worst.Verdict == diag.Within && !c.AnyLow(names):
		doubt("leakage-within-limit")
	case c.PastLimit(worst):
		doubt("leakage-near-limit")
		if f.Urgency.Rank() < diag.ActSoon.Rank() { // what reads low as well is more than a figure near its limit
			f.Headline = "leakage-too-close"
		}
	}
}

// soundLeakCauses: of one cylinder beside others that hold their air on the same tester, the
// place is asked for where nobody noted it, and air that was heard nowhere goes out at the
// tester's own thread, if anywhere.
func soundLeakCauses(c *known.Case, s known.Subject) []Voice {
	switch {
	case !c.LosesApart(s.Cylinders):
		return common("rings", "tester-scale")
	case placeUnnoted(c, s.Cylinders):
		return placeUnknown(c, s)
	case slices.ContainsFunc(s.Cylinders, func(n string) bool { return c.LeaksAt(n, known.AtCrankcase) }):
		return common("rings", "ring-gaps")
	}
	return common("rings", "plug-or-adapter-thread", "ring-gaps")
}

// placeUnnoted reports cylinders of none of which anybody noted where the air goes, not even
// that it was heard nowhere.
func placeUnnoted(c *known.Case, names []string) bool {
	return !slices.ContainsFunc(names, func(n string) bool { l := c.Leak(n); return l == nil || len(l.At) > 0 })
}

func soundLeakFound(c *known.Case, s known.Subject) diag.Finding {
	f := lossFound(diag.CheckAgain)(c, s)
	if c.LosesApart(s.Cylinders) && placeUnnoted(c, s.Cylinders) {
		f.Variant = "unplaced"
	}
	return f
}

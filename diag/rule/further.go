package rule

import (
	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// furtherRules hold for every further test alike: a reading past a limit of the
// job is said, whatever it is of.
var furtherRules = []Rule{
	{
		Name: "test-outside-limit", Title: "A reading of a further test past its limit",
		Why:    "A limit that the job gives is the maker's word, or the shop's. A reading past it is said, also where no pattern is known that would name a cause.",
		Source: "limits: the job's own", Class: Single, About: diag.AboutSystem, Of: everySystem,
		When: known.Is("a reading past its limit of which no rule of its own speaks", func(c *known.Case, s known.Subject) bool {
			r, _ := known.WorstOf(c.Measured(s.System), c.PastUnspoken(s.System))
			return r != nil && !(s.System == known.Vacuum && known.VacuumLow.Holds(c, s))
		}),
		Kind: OfFurther, Weigh: pastVoices, Say: pastLimit, Headline: "test-outside-limit", Brought: ByFault,
	},
	{
		Name: "test-same-after-repair", Title: "A reading as far past its limit after the work as before it",
		Why:    "Work that cures a fault shows in the reading that found it. Where that has not moved by more than the gauge can be off, what was done was not the cause, or not all of it.",
		Source: "common practice, no source", Class: Group, About: diag.AboutSystem, Of: everySystem,
		When: known.Is("a reading past its limit before the work and after it, changed by no more than both can be off", func(c *known.Case, s known.Subject) bool {
			_, now := c.SystemRepaired(s.System, false)
			return now != nil
		}),
		Kind: OfEarlier, Say: systemRepaired(false, diag.ActSoon), Headline: "same-after-repair", SaysBetterThan: []string{"test-outside-limit"},
	},
	{
		Name: "test-repaired-and-proved", Title: "A reading put right by the work",
		Why:    "The reading that was past its limit before the work keeps it now, by more than both can be off. That is the proof of the repair.",
		Source: "common practice, no source", Class: Sound, About: diag.AboutSystem, Of: everySystem,
		When: known.Is("a reading past its limit before the work, within it now, and changed by more than both can be off", func(c *known.Case, s known.Subject) bool {
			_, now := c.SystemRepaired(s.System, true)
			return now != nil
		}),
		Kind: OfEarlier, Say: systemRepaired(true, diag.NoAction), Headline: "repaired-and-proved",
	},
}

// pastVoices name no cause where a rule of its own says what the starter's current
// tells: its speed is part of the same matter.
func pastVoices(c *known.Case, s known.Subject) []Voice {
	if s.System == known.Starting && (known.DrawsMuch.Holds(c, s) || known.DrawsLittle.Holds(c, s)) {
		return nil
	}
	part := partCalled(c, s)
	return append(part, []Voice{{Cause: "past-limit", Weight: commonest}, {Cause: "reading-wrong", Weight: rarer}}...)
}

// partCalled is what a reading of the job's own speaks of by the name that it has: the cables of
// the starter, and what feeds a diesel's rail. Where its low side was read and is right, the
// supply to its pump is not what it lacks.
func partCalled(c *known.Case, s known.Subject) []Voice {
	switch {
	case s.System != diag.OtherReadings:
		return nil
	case known.CableDrops.HoldsIn(c):
		return speaks(Heard, "starter-cables")
	case known.RailLow.HoldsIn(c):
		list := append(falling(Known, "high-pressure-pump", "diesel-injector"), speaks(DryUp, "fuel-filter", "air-in-fuel")...)
		return append(list, where(right(c), denies(Known, "fuel-pressure-within", append([]string{"regulator-open"}, supplyCauses...)...))...)
	}
	return nil
}

// systemRepaired sets the reading before the work beside the one after it.
func systemRepaired(proved bool, u diag.Urgency) func(*known.Case, known.Subject) diag.Finding {
	return func(c *known.Case, s known.Subject) diag.Finding {
		was, now := c.SystemRepaired(s.System, proved)
		f := diag.Finding{Urgency: u, Confidence: diag.Fair, Facts: measuredFacts(now)}
		f.Facts["was"], f.Facts["done"] = was.Told(), c.Before.Done
		f.Facts["none"] = was.Entered == known.NoClearanceWord
		f.Facts["own"], f.Facts["reading"], f.Facts["cylinder"] = s.System == diag.OtherReadings, s.System+" "+now.Name, namesOf(now.Cylinder)
		return f
	}
}

// everySystem asks of what each further test looks at that was made.
var everySystem = Scope{Words: "a further test", Of: func(c *known.Case) []known.Subject {
	var list []known.Subject
	for i := range c.Sums.Measured {
		if r := &c.Sums.Measured[i]; r.State == diag.Tested {
			list = append(list, known.Subject{System: r.Name})
		}
	}
	return list
}}

func pastLimit(c *known.Case, s known.Subject) diag.Finding {
	r := c.Measured(s.System)
	worst, clear := known.WorstOf(r, c.PastUnspoken(s.System))
	f := measuredFinding(worst, clear, diag.ActSoon)
	f.Facts["own"], f.Facts["system"], f.Facts["cylinder"] = s.System == diag.OtherReadings, s.System, namesOf(worst.Cylinder)
	f.Facts["reading"] = s.System + " " + worst.Name
	if s.System == diag.OtherReadings {
		f.Facts["reading"] = worst.Name
	}
	f.Facts["more"] = len(PastLimits(c, s.System)) - 1
	return f
}

// PastLimits are the readings of a further test past a limit of which no rule of its own
// speaks.
func PastLimits(c *known.Case, section string) []*diag.MeasuredReading {
	var list []*diag.MeasuredReading
	if r := c.Measured(section); r != nil {
		for i := range r.Readings {
			if past, _ := c.PastUnspoken(section)(&r.Readings[i]); past {
				list = append(list, &r.Readings[i])
			}
		}
	}
	return list
}

// measuredFacts are those of one reading of a further test.
func measuredFacts(m *diag.MeasuredReading) diag.Facts {
	return diag.Facts{"value": m.Told(), "entered": diag.AsWritten(m.Entered), "at": m.At, "limit": m.LimitEntered, "name": m.Name, "source": m.Source}
}

// measuredFinding is one of a reading past its limit: to be checked again, and
// weak, where the gauge cannot tell.
func measuredFinding(m *diag.MeasuredReading, clear bool, urgency diag.Urgency) diag.Finding {
	f := diag.Finding{Urgency: urgency, Confidence: diag.Fair, Facts: measuredFacts(m)}
	if !clear {
		f.Urgency, f.Confidence, f.Doubts = diag.CheckAgain, diag.Weak, []diag.Phrase{{Key: "gauge-cannot-settle", Facts: diag.Facts{"uncertainty": diag.Number{Value: m.Uncertainty, Decimals: m.Decimals + 1, Unit: m.Unit}.String()}}}
	}
	return f
}

// needsTest is the need of one further test and nothing else.
func needsTest(section string) []known.Need { return []known.Need{known.NeedsTest(section)} }

// ofSystem asks once, of what a further test looks at.
func ofSystem(section string) Scope {
	return Scope{Of: func(*known.Case) []known.Subject { return []known.Subject{{System: section}} }}
}

// ofPart asks once, of a part of that which is judged by itself.
func ofPart(section, part string) Scope {
	return Scope{Of: func(*known.Case) []known.Subject { return []known.Subject{{System: section, Part: part}} }}
}

// namesOf is one cylinder as words take it, none for "".
func namesOf(cylinder string) diag.Names {
	if cylinder == "" {
		return nil
	}
	return diag.Names{cylinder}
}

// thisSure is a finding that is as sure as this by itself, whatever its figures say.
func thisSure(how diag.Confidence, say func(*known.Case, known.Subject) diag.Finding) func(*known.Case, known.Subject) diag.Finding {
	return func(c *known.Case, s known.Subject) diag.Finding {
		f := say(c, s)
		f.Confidence = how
		return f
	}
}

package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

var plugRules = slices.Concat(plugDamageRules, plugColourRules, plugStateRules, seenRules, seenPartRules)

// Sources of the looks of spark plugs.
const (
	plugManual  = "TM 10-3930-653-14&P, para 4-7-9, and TM 5-4210-230-14&P-1 (looks of spark plugs)"
	plugCourse  = "NAVEDTRA 14273, chapter 2, figures 2-50 and 2-51"
	plugPattern = "; where they lie: common practice, no source"
)

// Variants of what plugs say, by how they lie and by who was looked at.
const (
	aloneVariant = "alone"    // no other plug was looked at
	notOnly      = "not-only" // others look so too, for reasons of their own
	glowVariant  = "glow"     // the glow plug of a diesel
	allVariant   = string(known.OnAll)
)

var (
	// A glow plug has no gap: where one was measured they are spark plugs, whatever else
	// the job says of the fuel.
	sparkPlugs = known.Any(known.Not(known.Diesel), known.OfEngine("a plug's gap measured", gapMeasured))
	gasFuel    = known.OfEngine("runs on gas", func(c *known.Case) bool { return c.GasFuel() })
)

// gapMeasured reports that the gap of a plug was measured.
func gapMeasured(c *known.Case) bool {
	return slices.ContainsFunc(c.Every(), func(n string) bool { p := c.Plug(n); return p != nil && p.GapMM != nil })
}

// glowPlugs reports that what was looked at are glow plugs: what is no spark plug.
func glowPlugs(c *known.Case) bool { return c.Spec.Diesel() && !gapMeasured(c) }

// lie is how the plugs of a look lie in the engine: the look's own, of which
// soot in a cylinder of low pressure is not one, that comes from the pressure.
func lie(c *known.Case, look string) (set []string, at known.Pattern) {
	set = c.Looking(look)
	at = c.PatternOf(set)
	if look != "sooty" || at == known.OnAll || at == known.OnBank {
		return set, at
	}
	set = slices.DeleteFunc(slices.Clone(set), func(n string) bool { return c.Grade(n).IsLow() })
	return set, c.PatternOf(set)
}

// plugsOf asks once of the plugs of a look that lie so.
func plugsOf(look, words string, at ...known.Pattern) Scope {
	return oneSet(words, func(c *known.Case) []string {
		set, lies := lie(c, look)
		if !slices.Contains(at, lies) {
			return nil
		}
		return set
	})
}

// onlyPlug is the one plug of a look, with pressure enough to burn.
func onlyPlug(look string) known.Condition {
	return known.OfAll("plug "+look+", with pressure enough to burn, and no other that low pressure does not explain", func(c *known.Case, n string) bool {
		set, at := lie(c, look)
		return at == known.OnOne && set[0] == n
	})
}

// plugsFound is the finding on plugs of one look, of this urgency. Colour or
// wetness alone shows the last minutes of running and no more: it is weak.
func plugsFound(urgency diag.Urgency) func(*known.Case, known.Subject) diag.Finding {
	return func(c *known.Case, s known.Subject) diag.Finding {
		f := diag.Finding{Urgency: urgency, Confidence: diag.Weak, Facts: plugFacts(c, s.Cylinders)}
		doubt := "colour-only"
		if c.PlugsNew() {
			doubt = "plugs-new"
		}
		f.Doubts = []diag.Phrase{{Key: doubt}}
		if len(c.PlugsRead()) < len(c.Every()) && !c.Sums.Plugs.Complete {
			f.Doubts = append(f.Doubts, diag.Phrase{Key: "plugs-not-all-read"})
		}
		return f
	}
}

func plugFacts(c *known.Case, names []string) diag.Facts {
	facts := diag.Facts{"well": false, "read": len(c.PlugsRead()), "bank": "", "low": c.AnyLow(names), "others": c.ColourOthers(names)}
	if len(names) > 0 {
		if bank := c.BankOfAll(names); bank >= 0 {
			facts["bank"] = c.BankLabel(bank)
		}
	}
	return facts
}

// onePlug is plugsFound for the one plug of a look: what is said of the others
// depends on whether any was looked at.
func onePlug(look string) func(*known.Case, known.Subject) diag.Finding {
	return func(c *known.Case, s known.Subject) diag.Finding {
		f := plugsFound(diag.CheckAgain)(c, s)
		switch {
		case c.ColourOthers(s.Cylinders) == 0:
			f.Variant = aloneVariant
		case len(c.PlugsLooking(look)) > 1:
			f.Variant = notOnly
		}
		return f
	}
}

// leftAlone asks for nothing where the engine is said to run well, nobody complains, and its
// cylinders were read and match: a colour of the last minutes is no fault that anybody has.
func leftAlone(say func(*known.Case, known.Subject) diag.Finding) func(*known.Case, known.Subject) diag.Finding {
	return func(c *known.Case, s known.Subject) diag.Finding {
		f := say(c, s)
		matched := c.Has(known.NeedsCompression) && c.Sound() && c.AllLow() == nil
		if c.Spec.Runs == "well" && !c.Ails() && matched {
			f.Urgency, f.Facts["well"] = diag.NoAction, true
		}
		return f
	}
}

// somePlugs is plugsFound for several, with the way in which they lie.
func somePlugs(look string) func(*known.Case, known.Subject) diag.Finding {
	return func(c *known.Case, s known.Subject) diag.Finding {
		f := plugsFound(diag.CheckAgain)(c, s)
		switch _, at := lie(c, look); {
		case mostOf(c, look):
			f.Variant, f.Facts["told"] = mostVariant, toldByMore(c, look)
		case look == "white" && c.Ported():
			f.Variant = twoStrokeVariant
		case at == known.OnEnds || at == known.OnNeighbours:
			f.Variant = string(at)
		}
		return f
	}
}

// plugsSeen is a finding on what is no colour: damage and wear stay.
func plugsSeen(urgency diag.Urgency) func(*known.Case, known.Subject) diag.Finding {
	return func(c *known.Case, s known.Subject) diag.Finding {
		f := diag.Finding{Urgency: urgency, Confidence: diag.Fair, Facts: plugFacts(c, s.Cylinders)}
		if glowPlugs(c) {
			f.Variant, f.Headline = glowVariant, "glow-plug-damaged"
		}
		return f
	}
}

// heatRange names plugs of the wrong heat range before the mixture where they
// are new; on plugs that ran well for long it is the least likely.
func heatRange(c *known.Case) []Voice {
	if c.PlugsNew() {
		return speaks(Known, "wrong-heat-range")
	}
	return speaks(Hint, "wrong-heat-range")
}

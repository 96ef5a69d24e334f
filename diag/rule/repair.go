package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// repairRules set the readings before the work beside those after it. A change
// counts where it is beyond both readings' uncertainty, and beyond a tenth
// (leakage: ten points), which sound engines show without any work.
var repairRules = []Rule{
	{
		Name: "worse-after-repair", Title: "Worse after the work than before it", Class: Group, About: diag.AboutCylinders,
		Why: "A cylinder that reads clearly lower after the work than before it was put together wrong, is not run in, or has another fault beside the one that was mended. " +
			"What was done last is looked at first.",
		Source: "common practice, no source", Of: repairedTo(known.Worse), When: known.Not(fallenByWork), Kind: OfEarlier, For: speaks(Hint, "rings", "exhaust-valve", "valve-lash", "head-gasket"), Say: repaired(diag.ActSoon), Headline: "worse-after-repair",
	},
	{
		Name: "same-after-repair", Title: "As bad after the work as before it", Class: Group, About: diag.AboutCylinders,
		Why: "Work that cures a fault shows in the reading that found it. Where that has not moved by more than tests of a sound engine differ, " +
			"what was done was not the cause, or not all of it.",
		Source: "common practice, no source", Of: repairedTo(known.Unchanged), Kind: OfEarlier, Weigh: leftByWork, Say: repaired(diag.CheckAgain), Headline: "same-after-repair", Keeps: true,
		SaysBetterThan: []string{"one-low", "neighbours-low", "scattered-low", "below-minimum", "outside-limit", "a-little-low"},
	},
	{
		Name: "better-after-repair", Title: "Better after the work", Class: Information, About: diag.AboutCylinders,
		Why: "A rise beyond what two tests can differ by is the work's. A cylinder that was bad and is better is not thereby sound: " +
			"new rings settle over the first hours, and a second fault may be left.",
		Source: "common practice, no source", Of: betterForIt, Kind: OfEarlier, Say: betterNow, Headline: "better-after-repair", Variants: []string{"not-cured"},
	},
	{
		Name: "repaired-and-proved", Title: "Repaired, and proved", Class: Sound, About: diag.AboutCylinders,
		Why: "The same reading that found the fault now finds the cylinder sound, by more than two tests can differ by. That is the proof of a repair: " +
			"not that parts were fitted, but that the fault is gone.",
		Source: "common practice, no source", Of: provedEach, Kind: OfEarlier, Say: repaired(diag.NoAction), Headline: "repaired-and-proved", Lesser: "better-after-repair",
		SaysBetterThan: []string{"leaks-at-exhaust", "leaks-at-inlet", "leaks-to-crankcase", "leaks-but-serviceable", "leakage-high"}, // a new seat beds in
	},
	{
		Name: "gas-gone-after-repair", Title: "No more combustion gas in the coolant", Class: Sound, About: diag.AboutEngine,
		Why: "The test that found combustion gas in the coolant finds none after the work. That is the proof of such a repair, as far as one test of a cool engine goes: " +
			"a crack that opens only when it is hot is found after a drive.",
		Source: "common practice, no source", Of: theEngine, Kind: OfEarlier,
		When: known.OfEngine("combustion gas in the coolant before the work and none after it", func(c *known.Case) bool { return c.GasBefore() && c.CoolantGas == "negative" && !c.GasTestWeak() }),
		Say:  gasRepaired(diag.NoAction), Headline: "repaired-and-proved",
	},
	{
		Name: "gas-still-after-repair", Title: "Combustion gas in the coolant after the work as before it", Class: Group, About: diag.AboutEngine,
		Why: "A gasket that was renewed and leaves gas in the coolant was not all of it: the head is warped or cracked, the block's face or a bore is, or the joint was not made well. " +
			"The faces are measured before another gasket goes in.",
		Source: "common practice, no source", Of: theEngine, Kind: OfCoolant,
		When: known.OfEngine("combustion gas in the coolant before the work and after it", func(c *known.Case) bool { return c.GasBefore() && c.CoolantGas == "positive" }),
		For:  append(speaks(Known, "warped-or-cracked-head"), speaks(DryUp, "cracked-bore", "cracked-housing")...),
		Say:  func(c *known.Case, s known.Subject) diag.Finding { return gasRepaired(withGas(c))(c, s) }, Headline: "gas-still-after-repair", SaysBetterThan: []string{"combustion-gas-in-coolant"},
	},
	{
		Name: "before-not-compared", Title: "The readings before the work do not compare", Class: Information, About: diag.AboutEngine,
		Why:    "A cold test beside a warm one, another gauge, a throttle that was shut: a difference between two such tests is no proof of anything.",
		Source: "common practice, no source", Of: theEngine, Kind: OfEarlier,
		When: known.OfEngine("compression was read before the work and after it, with another gauge, temperature or throttle", func(c *known.Case) bool { return c.NotCompared() != "" }),
		Say: func(c *known.Case, _ known.Subject) diag.Finding {
			return diag.Finding{Urgency: diag.NoAction, Confidence: diag.Fair, Facts: diag.Facts{"reason": c.NotCompared(), "when": known.On(c.Before.Date)}}
		},
	},
	{
		Name: "fuel-same-after-repair", Title: "Fuel pressure as wrong after the work as before it", Class: Group, About: diag.AboutFuel, Needs: []known.Need{known.NeedsFuel},
		Why:    "Work that cures a wrong pressure shows on the gauge. Where the reading has not moved, or moved the wrong way, what was done was not the cause.",
		Source: "common practice, no source", Of: eachCircuit, Variants: []string{"worse"},
		When: known.OfCircuit("a reading outside its limit, and before the work as far out or less", func(k known.Circuit) bool {
			what, _, _ := k.Repaired()
			return what == known.Unchanged || what == known.Worse
		}),
		Kind: OfEarlier, Say: fuelRepaired(diag.CheckAgain), Headline: "same-after-repair",
	},
	{
		Name: "fuel-repaired-and-proved", Title: "Fuel pressure put right by the work", Class: Sound, About: diag.AboutFuel, Needs: []known.Need{known.NeedsFuel},
		Why:    "The reading that was outside its limit before the work is inside it now, by more than one gauge can differ. That is the proof of the repair.",
		Source: "common practice, no source", Of: eachCircuit, Variants: []string{"better"},
		When: known.OfCircuit("a reading inside its limit, or nearer to it, that was outside before the work", func(k known.Circuit) bool {
			what, _, _ := k.Repaired()
			return what == known.Proved || what == known.Better
		}),
		Kind: OfEarlier, Say: fuelRepaired(diag.NoAction), Headline: "repaired-and-proved",
	},
}

// repairWords say what a result of work asks of a cylinder.
var repairWords = map[known.Repair]string{
	known.Worse:     "cylinders read before the work and after it, clearly worse now",
	known.Unchanged: "cylinders low, under the minimum or losing too much before the work, and after it neither sound nor changed by more than tests differ",
	known.Better:    "cylinders clearly better than before the work, not bad before or not sound now",
	known.Proved:    "cylinders low, under the minimum or losing too much before the work, and clearly better and sound after it",
}

// repairedTo is the cylinders to which the work did one thing, together.
func repairedTo(what known.Repair) Scope {
	return oneSet(repairWords[what], func(c *known.Case) []string { return c.RepairedTo(what) })
}

// provedEach is each cylinder that the work is proved to have cured, by itself: what one of
// them still has is no matter of the others.
var provedEach = Scope{Words: repairWords[known.Proved], Each: true, Of: func(c *known.Case) []known.Subject { return c.ByItself(c.RepairedTo(known.Proved)) }}

// betterForIt are the cylinders that the work made better, those that it has not cured
// apart from those that nothing is wrong with now.
var betterForIt = sets(repairWords[known.Better]+": those that were bad and are not sound now, and the rest", func(c *known.Case) [][]string {
	better := c.RepairedTo(known.Better)
	uncured := slices.DeleteFunc(slices.Clone(better), func(n string) bool { return !c.Uncured(n) })
	return slices.DeleteFunc([][]string{uncured, slices.DeleteFunc(better, c.Uncured)}, func(set []string) bool { return len(set) == 0 })
})

// repaired gives the readings of the first cylinder before and after the work.
func repaired(urgency diag.Urgency) func(*known.Case, known.Subject) diag.Finding {
	return func(c *known.Case, s known.Subject) diag.Finding {
		facts := diag.Facts{"road": diag.Names(toBeSeen(c)), "cylinder": s.Name(), "done": c.Before.Done, "when": known.On(c.Before.Date), "then": "", "now": "", "u": "", "lost": "", "loses": ""}
		pressure, loss := c.RepairOf(s.Name())
		eased := loss != nil && known.MovedPoints(*loss) < 0 // the work did that much
		facts["eased"], facts["gone"] = eased, diag.Names(c.PlacesGone(s.Name()))
		if pressure != nil && loss != nil && !eased { // what decides is said: the same, or worse, in one of the two
			switch p, l := c.RepairBy(s.Name()); {
			case p != l && p == c.Repaired()[s.Name()]:
				loss = nil
			case p != l && l == c.Repaired()[s.Name()]:
				pressure = nil
			}
		}
		if pressure != nil {
			facts["then"], facts["now"], facts["u"] = c.Pressure(pressure.Then).String(), c.Pressure(pressure.Now).String(), c.Pressure(pressure.U).String()
		}
		if loss != nil {
			facts["lost"], facts["loses"] = known.Percent(loss.Then, 0).String(), known.Percent(loss.Now, 0).String()
		}
		return diag.Finding{Urgency: urgency, Confidence: diag.Fair, Facts: facts}
	}
}

// betterNow is a rise, and of cylinders that are not sound for it, that it was no cure.
func betterNow(c *known.Case, s known.Subject) diag.Finding {
	f := repaired(diag.NoAction)(c, s)
	if slices.ContainsFunc(s.Cylinders, c.Uncured) {
		f.Variant, f.Urgency = "not-cured", diag.CheckAgain
	}
	return f
}

// fallenByWork is an engine of which every cylinder lost by the work: that is no matter of
// those alone that were good before.
var fallenByWork = known.OfEngine("low as a whole since the work", func(c *known.Case) bool { low := c.AllLow(); return low != nil && low.Variant == "worked" })

// toBeSeen are the complaints that the work was done for.
func toBeSeen(c *known.Case) []string {
	return slices.DeleteFunc(c.Complaints(), func(x string) bool { return !c.WorkWasFor(x) })
}

func gasRepaired(urgency diag.Urgency) func(*known.Case, known.Subject) diag.Finding {
	return func(c *known.Case, _ known.Subject) diag.Finding {
		return diag.Finding{Urgency: urgency, Confidence: diag.Fair, Facts: diag.Facts{"done": c.Before.Done, "when": known.On(c.Before.Date), "rotary": c.Rotary(), "road": diag.Names(nil), "cylinder": "", "then": "", "now": "", "lost": "", "loses": ""}}
	}
}

func fuelRepaired(urgency diag.Urgency) func(*known.Case, known.Subject) diag.Finding {
	return func(c *known.Case, s known.Subject) diag.Finding {
		what, now, then := s.Circuit.Repaired()
		f := diag.Finding{Urgency: urgency, Confidence: diag.Fair, Facts: diag.Facts{
			"reading": now.Name, "then": c.FuelNumber(then), "now": c.FuelNumber(now.Value), "limit": now.LimitEntered, "done": c.Before.Done, "when": known.On(c.Before.Date)}}
		switch what {
		case known.Worse:
			f.Variant = "worse"
		case known.Better:
			f.Variant = "better"
		}
		return f
	}
}

// leftByWork is what may be wrong with cylinders as bad as before of which nothing else says what:
// none is low beside another, nor by a figure.
func leftByWork(c *known.Case, s known.Subject) []Voice {
	switch {
	case c.AnyLow(s.Cylinders) || c.AllLow() != nil || c.Minimum() != nil || c.Has(known.NeedsLeakage):
		return nil
	case c.Ported():
		return speaks(Hint, "rings", "head-gasket", "scored-bore")
	}
	return speaks(Hint, "exhaust-valve", "inlet-valve", "head-gasket", "rings")
}

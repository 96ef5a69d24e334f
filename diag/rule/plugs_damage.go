package rule

import "gaugesheet/diag"

var plugDamageRules = []Rule{
	{
		Name: "plug-melted", Title: "Electrodes melted away",
		Trigger: "one plug or more is melted",
		Why: "Electrodes melt when the charge lights too early on something that glows. What melts a plug also melts a piston, and the metal has gone somewhere: " +
			"the engine stays off until somebody has looked into the cylinder.",
		Source: plugCourse + " (burnt electrodes: pre-ignition)", Class: Single, Needs: []Need{NeedsPlugs},
		Findings: func(c *Case) []diag.Finding {
			return c.plainLook("plug-melted", "melted", diag.DoNotRun, []string{"early-ignition", "wrong-heat-range", "lean-mixture"}, "borescope")
		},
	},
	{
		Name: "plug-damaged", Title: "A plug bent or broken",
		Trigger: "one plug or more is damaged",
		Why: "A bent strap or a closed gap is where something hit the plug: the piston, a plug that reaches too far, or a loose part in the cylinder. " +
			"Turning the engine further may make it worse.",
		Source: "common practice, no source", Class: Single, Needs: []Need{NeedsPlugs},
		Findings: func(c *Case) []diag.Finding {
			return c.plainLook("plug-damaged", "damaged", diag.DoNotRun, []string{"foreign-object", "piston-contact", "wrong-plug-reach"}, "borescope")
		},
	},
	{
		Name: "detonation-signs", Title: "Signs of knock on a plug",
		Trigger: "one plug or more shows detonation",
		Why:     "Specks of metal and a cracked nose come from knocking combustion. It breaks ring lands and pistons before it is heard, so the cylinder is looked into.",
		Source:  "common practice, no source", Class: Single, Needs: []Need{NeedsPlugs},
		Findings: func(c *Case) []diag.Finding {
			return c.plainLook("detonation-signs", "detonation", diag.ActSoon, []string{"knock", "early-ignition", "carbon"}, "borescope")
		},
	},
	{
		Name: "overheated", Title: "A plug that ran too hot",
		Trigger: "one plug or more is blistered",
		Why: "A blistered or glazed insulator has been hotter than the plug stands: ignition too early, cooling, a lean mixture, or a plug of the wrong heat range. " +
			"Left alone it ends in melted electrodes.",
		Source: plugManual + "; " + plugCourse, Class: Single, Needs: []Need{NeedsPlugs},
		Findings: func(c *Case) []diag.Finding {
			return c.plainLook("overheated", "blistered", diag.ActSoon, []string{"early-ignition", "too-hot", "wrong-heat-range"}, "timing-and-cooling")
		},
	},
	{
		Name: "coolant-washed", Title: "A plug that coolant has touched",
		Trigger: "one plug or more looks coolant-washed",
		Why:     "Steam cleans a plug and its piston crown, or leaves a pale crust. One plug that is cleaner than all the others is the clue, and a coolant test settles it.",
		Source:  "common practice, no source", Class: Single, Needs: []Need{NeedsPlugs},
		Findings: coolantWashed,
	},
	{
		Name: "plug-bridged", Title: "A plug with its gap bridged",
		Trigger: "one plug or more is bridged",
		Why:     "A lump across the gap stops the spark at once. Lumps come off when a fouled engine is worked hard, and where they came from is seen in the bore.",
		Source:  "TM 5-4210-230-14&P-1 (core bridging)", Class: Single, Needs: []Need{NeedsPlugs},
		Findings: func(c *Case) []diag.Finding {
			return c.plainLook("plug-bridged", "bridged", diag.CheckAgain, []string{"loose-deposit", "oil-burning"}, "borescope")
		},
	},
	{
		Name: "plug-tracked", Title: "Spark has run down the outside of a plug",
		Trigger: "one plug or more is tracked",
		Why:     "A dark line on the insulator is the way that the spark took outside the cylinder. It comes back with the next plug unless the boot is renewed with it.",
		Source:  "common practice, no source", Class: Single, Needs: []Need{NeedsPlugs},
		Findings: func(c *Case) []diag.Finding {
			return c.plainLook("plug-tracked", "tracked", diag.CheckAgain, []string{"coil-or-lead", "moisture-at-plug"}, "renew-plugs")
		},
	},
	{
		Name: "gap-out", Title: "A plug's gap outside its limits",
		Trigger: "a gap outside the book's value and tolerance; under 30 % of it counts as closed",
		Why:     "A wide gap asks more of the coil; wide on one plug only, it tells of heat or spark in that cylinder. A gap that is closed did not wear so: something pushed it shut.",
		Source:  "common practice, no source", Class: Single, Needs: []Need{NeedsPlugs},
		Variants: []string{"closed"},
		Findings: gapOut,
	},
}

func coolantWashed(c *Case) []diag.Finding {
	set := c.plugsLooking("coolant")
	if len(set) == 0 {
		return nil
	}
	f := c.plugFinding("coolant-washed", set, diag.ActSoon, true)
	f.Causes = phrases("head-gasket", "warped-or-cracked-head")
	f.Next = c.next(set, "coolant-gas-test", "cooling-pressure-test", "borescope")
	if c.CoolantGas == "negative" {
		f.Against = phrases("no-gas-in-coolant")
	}
	if c.patternOf(set) == onAll {
		f.Against = append(f.Against, phrases("others-alike")...)
	}
	return []diag.Finding{f}
}

// closedGap is the part of the book's gap under which something pushed it
// shut: common practice, no source.
const closedGap = 0.30

// gapsOut lists the cylinders whose gap is outside its limits, the closed ones
// apart, in the engine's order.
func (c *Case) gapsOut() (wide, closed []string) {
	for i := range c.Sums.Plugs.Cylinders {
		p := &c.Sums.Plugs.Cylinders[i]
		switch {
		case p.GapMM == nil || p.Gap != diag.Outside:
		case *p.GapMM < closedGap*c.Plugs.GapMM:
			closed = append(closed, p.Name)
		default:
			wide = append(wide, p.Name)
		}
	}
	return wide, closed
}

func gapOut(c *Case) []diag.Finding {
	wide, closed := c.gapsOut()
	var found []diag.Finding
	if len(closed) > 0 {
		f := c.gapFinding(closed, diag.DoNotRun)
		f.Variant, f.Causes = "closed", phrases("foreign-object", "piston-contact", "wrong-plug-reach")
		f.Next = c.next(closed, "borescope")
		found = append(found, f)
	}
	if len(wide) > 0 {
		f := c.gapFinding(wide, diag.CheckAgain)
		f.Causes = phrases("plug-age", "gap-not-set")
		f.Next = c.next(wide, "renew-plugs")
		found = append(found, f)
	}
	return found
}

func (c *Case) gapFinding(names []string, urgency diag.Urgency) diag.Finding {
	f := c.plugFinding("gap-out", names, urgency, false)
	var each diag.Names
	for _, name := range names {
		if p := c.PlugOf(name); p != nil {
			each = append(each, name+": "+p.GapText)
		}
	}
	f.Facts["each"] = each
	f.Facts["book"] = c.Plugs.GapEntered
	if c.Plugs.GapEntered == "" {
		f.Facts["book"] = diag.Number{Value: c.Plugs.GapMM, Decimals: 2, Unit: "mm"}.String()
	}
	return f
}

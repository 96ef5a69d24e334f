package rule

import (
	"slices"

	"gaugesheet/diag"
)

var sealingTogether = slices.Concat(oneCylinderTogether, engineTogether)

var oneCylinderTogether = []Rule{
	{
		Name: "piston-contact", Title: "A low cylinder whose plug was hit",
		Trigger: "a damaged plug, or a gap pushed shut, in a cylinder graded low",
		Why: "Something touched the plug, and the cylinder does not hold pressure: the two have most likely one cause inside the cylinder. Every further turn may add to the damage, " +
			"so it is looked into before the engine is cranked again.",
		Source: "common practice, no source", Class: Together, Needs: []Need{NeedsCompression, NeedsPlugs},
		Findings: pistonContact,
	},
	{
		Name: "coolant-in-cylinder", Title: "Coolant gets into a cylinder",
		Trigger: "a plug washed by coolant, and low compression there, bubbles in the coolant from there, or a positive test for combustion gas",
		Why: "A plug that steam has cleaned is a sign; a second sign from another test makes it a finding. Coolant in a bore does not compress: if enough collects, the next turn of the " +
			"starter can bend a rod.",
		Source: "common practice, no source", Class: Together, Needs: []Need{NeedsPlugs},
		Findings: coolantInCylinder,
	},
	{
		Name: "gasket-agrees", Title: "Low neighbours that leak into each other",
		Trigger: "two low neighbours or more under one gasket, air from one heard at the other, and no rise with oil",
		Why:     "Pressure says that both are low, the leakage test says that air crosses between them, and oil on the rings changes nothing. All three point to the joint between the two.",
		Source:  "TM 10-3930-647-14&P and TM 5-4210-230-14&P-1: two adjacent cylinders low, head gasket; the cross-leak: common practice, no source",
		Class:   Together, Needs: []Need{NeedsCompression, NeedsLeakage},
		Findings: gasketAgrees,
	},
	{
		Name: "exhaust-valve-agrees", Title: "A low cylinder whose air goes out at the exhaust",
		Trigger: "graded low, a loss over 10 % heard at the exhaust, and no rise with oil where that was tried; not on a two-stroke",
		Why: "Oil helps rings and not valves, and the air is heard where only the exhaust valve could let it out. Lash that is too small holds a sound valve open and sounds the same, " +
			"so it is set before the head comes off.",
		Source: "TM 10-3930-647-14&P (no rise with oil: valves) and TM 5-3805-260-24 (air at the exhaust: exhaust valve)",
		Class:  Together, Needs: []Need{NeedsCompression, NeedsLeakage},
		Findings: exhaustValveAgrees,
	},
	{
		Name: "rings-agree", Title: "A low cylinder that leaks past its rings",
		Trigger: "graded low, and two of: a rise with oil, an oil-wet plug, air to the crankcase; or air to the crankcase where oil was not tried",
		Why:     "Oil lifts the reading, oil reaches the plug, air reaches the crankcase: each by itself has other explanations, two together leave the rings, the piston or the bore.",
		Source:  "TM 10-3930-647-14&P (rise with oil: rings) and TM 10-3930-653-14&P (oil past the rings); the combination: common practice, no source",
		Class:   Together, Needs: []Need{NeedsCompression},
		Findings: ringsAgree,
	},
	{
		Name: "guides-or-breather", Title: "An oily plug in a cylinder with good compression",
		Trigger: "an oil-wet plug, compression not low, and no high loss to the crankcase; not on a two-stroke",
		Why:     "Rings that seal air well seldom let much oil up, except the oil-control rings alone. Oil then comes from above or with the air: valve guides, their seals, the breather.",
		Source:  "common practice, no source", Class: Together, Needs: []Need{NeedsCompression, NeedsPlugs},
		Findings: guidesOrBreather,
	},
	{
		Name: "sooty-and-low", Title: "A sooty plug in a low cylinder",
		Trigger: "a sooty plug on a cylinder graded low, while not every plug is sooty",
		Why:     "A cylinder that does not seal burns poorly and soots its plug. Injector and coil would be changed in vain: the seal comes first.",
		Source:  "common practice, no source", Class: Together, Needs: []Need{NeedsCompression, NeedsPlugs},
		Findings: sootyAndLow,
	},
	{
		Name: "wet-with-fuel-and-sealing", Title: "A fuel-wet plug in a cylinder that seals",
		Trigger: "a fuel-wet plug, while that cylinder and its neighbours are even; not every plug is wet",
		Why:     "The cylinder compresses and the fuel arrives, so what is missing is the spark, or an injector brings too much. Exchanging two coils shows which in minutes.",
		Source:  "common practice, no source", Class: Together, Needs: []Need{NeedsCompression, NeedsPlugs},
		Findings: wetAndSealing,
	},
}

func pistonContact(c *Case) []diag.Finding {
	_, closed := c.gapsOut()
	hit := append(c.plugsLooking("damaged"), closed...)
	var found []diag.Finding
	for _, name := range c.LowSet() {
		if !slices.Contains(hit, name) {
			continue
		}
		f := c.agreed("piston-contact", []string{name}, c.comparison(name), "foreign-object", "piston-contact", "wrong-plug-reach")
		f.Urgency, f.Next = diag.DoNotRun, c.next(f.Cylinders, "borescope", "turn-by-hand")
		found = append(found, f)
	}
	return found
}

func coolantInCylinder(c *Case) []diag.Finding {
	var found []diag.Finding
	for _, name := range c.plugsLooking("coolant") {
		low, bubbles := c.Grade(name).IsLow(), c.leaksAt(name, atCoolant)
		if !low && !bubbles && c.CoolantGas != "positive" {
			continue
		}
		facts := c.comparison(name)
		facts["low"], facts["bubbles"], facts["gas"] = low, bubbles, c.CoolantGas == "positive"
		f := c.agreed("coolant-in-cylinder", []string{name}, facts, "head-gasket", "warped-or-cracked-head", "cracked-bore")
		f.Urgency = diag.DoNotRun
		f.Next = c.next(f.Cylinders, "cooling-pressure-test", "coolant-gas-test", "borescope")
		if c.CoolantGas == "negative" {
			f.Confidence, f.Against = diag.Fair, phrases("no-gas-in-coolant")
		}
		found = append(found, f)
	}
	return found
}

func gasketAgrees(c *Case) []diag.Finding {
	var found []diag.Finding
	for _, run := range c.Engine.NeighbourRuns(c.LowSet()) {
		crosses := slices.ContainsFunc(run, func(n string) bool { return c.leaksAt(n, atNeighbour) })
		rises := slices.ContainsFunc(run, func(n string) bool { return c.wetOutcome(n) == wetRises })
		if len(run) < 2 || !crosses || rises {
			continue
		}
		low, high := c.spread(run)
		f := c.agreed("gasket-agrees", run, diag.Facts{"read": c.span(low, high), "oil": c.all(run, wetFlat)}, "head-gasket", "warped-or-cracked-head")
		f.Next = c.next(run, "coolant-gas-test", "cooling-pressure-test", "borescope")
		found = append(found, f)
	}
	return found
}

func exhaustValveAgrees(c *Case) []diag.Finding {
	var found []diag.Finding
	for _, name := range c.LowSet() {
		oil := c.wetOutcome(name)
		if c.Spec.TwoStroke || !c.leaksAt(name, atExhaust) || c.leaksAt(name, atInlet) || oil != "" && oil != wetFlat {
			continue
		}
		f := c.agreed("exhaust-valve-agrees", []string{name}, c.comparison(name), "exhaust-valve", "valve-lash", "carbon-on-seat")
		f.Facts["flat"] = oil == wetFlat
		f.Next = c.next(f.Cylinders, "valve-lash", "borescope", "leak-down-again")
		c.coldLeak(&f)
		found = append(found, f)
	}
	return found
}

// coldLeak keeps a finding that rests on a cold leakage figure provisional.
func (c *Case) coldLeak(f *diag.Finding) {
	if c.leakageCold() {
		f.Confidence = diag.Fair
		f.Doubts = append(f.Doubts, phrases("leakage-cold")...)
	}
}

func ringsAgree(c *Case) []diag.Finding {
	var found []diag.Finding
	for _, name := range c.LowSet() {
		rise, oily := c.wetOutcome(name) == wetRises, c.looks(name, "oil-wet")
		air := c.leaksAt(name, atCrankcase) || c.Spec.TwoStroke && c.leaksAt(name, atExhaust)
		signs := 0
		for _, sign := range []bool{rise, oily, air} {
			if sign {
				signs++
			}
		}
		if signs < 2 && !(air && c.wetOutcome(name) == "") {
			continue
		}
		f := c.agreed("rings-agree", []string{name}, c.comparison(name), "rings", "scored-bore", "piston")
		f.Facts["rise"], f.Facts["oily"], f.Facts["air"] = rise, oily, air
		if c.wetOutcome(name) == wetFlat {
			f.Confidence, f.Against = diag.Fair, phrases("no-wet-rise")
			f.Causes = phrases("piston", "scored-bore", "rings")
		}
		f.Next = c.next(f.Cylinders, "leak-down", "borescope")
		if air && signs < 3 {
			c.coldLeak(&f)
		}
		found = append(found, f)
	}
	return found
}

func guidesOrBreather(c *Case) []diag.Finding {
	if c.Spec.TwoStroke {
		return nil
	}
	var names []string
	for _, name := range c.plugsLooking("oil-wet") {
		grade := c.Grade(name)
		sealing := grade == diag.Even || grade == diag.Watch || grade == diag.High
		if sealing && !c.leaksAt(name, atCrankcase) {
			names = append(names, name)
		}
	}
	if len(names) == 0 {
		return nil
	}
	low, high := c.spread(names)
	f := c.agreed("guides-or-breather", names, diag.Facts{"read": c.span(low, high)}, "guides-or-seals", "breather", "oil-control-rings")
	f.Urgency, f.Confidence = diag.CheckAgain, diag.Fair
	f.Next = c.next(names, "smoke-on-overrun", "breather-and-oil-level", "leak-down")
	return []diag.Finding{f}
}

func sootyAndLow(c *Case) []diag.Finding {
	soot := c.plugsLooking("sooty")
	if len(soot) == c.Sums.Plugs.N {
		return nil
	}
	names := slices.DeleteFunc(soot, func(n string) bool { return !c.Grade(n).IsLow() })
	if len(names) == 0 {
		return nil
	}
	f := c.agreed("sooty-and-low", names, nil, "low-compression")
	f.Urgency, f.Confidence = diag.CheckAgain, diag.Fair
	f.Next = c.nextForLow(names)
	return []diag.Finding{f}
}

func wetAndSealing(c *Case) []diag.Finding {
	wet := c.looking("fuel-wet")
	if c.patternOf(wet) == onAll {
		return nil
	}
	var names []string
	for _, name := range wet {
		if c.holdsWell(name) && !slices.ContainsFunc(c.neighboursOf(name), func(n string) bool { return c.Grade(n).IsLow() }) {
			names = append(names, name)
		}
	}
	if len(names) == 0 {
		return nil
	}
	f := c.agreed("wet-with-fuel-and-sealing", names, nil, "own-spark", "own-injector")
	f.Urgency, f.Confidence = diag.CheckAgain, diag.Fair
	f.Next = c.next(names, "swap-coil", "injector-balance")
	return []diag.Finding{f}
}

func (c *Case) neighboursOf(name string) []string {
	var list []string
	for _, pair := range c.Engine.Neighbours() {
		switch name {
		case pair[0]:
			list = append(list, pair[1])
		case pair[1]:
			list = append(list, pair[0])
		}
	}
	return list
}

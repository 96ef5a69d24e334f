package rule

import (
	"slices"

	"gaugesheet/diag"
)

// Sources of the looks of spark plugs.
const (
	plugManual  = "TM 10-3930-653-14&P, para 4-7-9, and TM 5-4210-230-14&P-1 (looks of spark plugs)"
	plugCourse  = "NAVEDTRA 14273, chapter 2, figures 2-50 and 2-51"
	plugPattern = "; where they lie: common practice, no source"
)

var (
	sooty = colour{look: "sooty", urgency: diag.CheckAgain}
	white = colour{look: "white", urgency: diag.CheckAgain}
)

var plugColourRules = []Rule{
	{
		Name: "all-sooty", Title: "Dry soot on every plug",
		Trigger: "every plug looked at is sooty",
		Why: "Dry soot is fuel that did not burn. Where every plug has it, the cause is something that all cylinders share: too much fuel, too little air, a weak spark, " +
			"or an engine that never gets warm. It is a matter of mixture or spark; oil would be wet.",
		Source: plugManual + plugPattern, Class: Group, Needs: []Need{NeedsPlugs},
		Findings: sooty.in("all-sooty", []string{"rich-mixture", "weak-spark", "short-trips"}, []string{"fuel-pressure-test", "hose-for-fuel", "fuel-trims"}, onAll),
	},
	{
		Name: "bank-sooty", Title: "Dry soot on the plugs of one bank",
		Trigger: "every plug of one bank is sooty and none of the other, two at least looked at in each",
		Why: "Pump, tank and regulator serve both banks alike, so what fouls one bank belongs to it alone: its sensor, a leak of its exhaust ahead of the sensor, " +
			"its injectors, its cam timing.",
		Source: "common practice, no source", Class: Group, Needs: []Need{NeedsPlugs},
		Findings: sooty.in("bank-sooty", []string{"bank-sensor", "bank-exhaust-leak", "own-injector"}, []string{"bank-trims", "smoke-test"}, onBank),
	},
	{
		Name: "one-sooty", Title: "Dry soot on one plug",
		Trigger: "one plug is sooty and the others are not",
		Why:     "What one cylinder does not share with the rest is its own spark, its own injector and its own seal. Soot from there is looked for in these three.",
		Source:  plugManual + plugPattern, Class: Single, Needs: []Need{NeedsPlugs},
		Findings: sooty.in("one-sooty", []string{"own-spark", "own-injector", "low-compression"}, []string{"swap-coil", "injector-balance", "compression-test"}, onOne),
	},
	{
		Name: "some-sooty", Title: "Dry soot on some plugs",
		Trigger: "several plugs are sooty, not all, and not just one bank; the two at the ends of a row and two neighbours are told apart",
		Why: "Plugs that look alike have something in common. The two at the ends of a row lie farthest from the throttle; two neighbours may share a runner, " +
			"a coil or a gasket; others may only have the same fault each.",
		Source: "common practice, no source", Class: Group, Needs: []Need{NeedsPlugs},
		Variants: []string{string(onEnds), string(onNeighbours)},
		Findings: sooty.in("some-sooty", []string{"own-spark", "own-injector", "shared-runner"}, []string{"swap-coil", "injector-balance", "compression-test"}, onSome, onEnds, onNeighbours),
	},
	{
		Name: "oil-wet", Title: "A plug wet with oil",
		Trigger: "one plug or more is oil-wet; all of them point to what all cylinders share",
		Why: "Oil gets to a plug from below, past the rings, or from above, down the valve guides, or with the air, through the breather. The plug alone does not say which; " +
			"compression dry and wet, or the leakage test, does.",
		Source: plugManual, Class: Single, Needs: []Need{NeedsPlugs},
		Variants: []string{string(onAll), twoStrokeVariant},
		Findings: oilWet,
	},
	{
		Name: "fuel-wet", Title: "A plug wet with fuel",
		Trigger: "one plug or more is fuel-wet",
		Why: "Fuel arrived and did not burn: no spark, too much fuel, or a cylinder that does not seal. On a cylinder of low compression the fuel may itself have washed " +
			"the oil from the rings, so the reading counts only when the bore is dry and oiled again.",
		Source: "common practice, no source", Class: Single, Needs: []Need{NeedsPlugs},
		Variants: []string{string(onAll), "low"},
		Findings: fuelWet,
	},
	{
		Name: "lean-all", Title: "Every plug white",
		Trigger: "every plug looked at is white",
		Why: "White, clean insulators show hot burning, most often with too little fuel for the air. On every plug the cause is shared: fuel pressure, an air leak, the air meter, " +
			"or plugs of the wrong heat range.",
		Source: plugManual + plugPattern, Class: Group, Needs: []Need{NeedsPlugs},
		Findings: white.in("lean-all", []string{"low-fuel-pressure", "air-leak", "wrong-heat-range"}, []string{"fuel-pressure-test", "smoke-test", "fuel-trims"}, onAll),
	},
	{
		Name: "one-white", Title: "One plug white",
		Trigger: "one plug is white and the others are not",
		Why:     "One lean cylinder among others has an air leak at its own port or an injector that gives too little. A loose plug runs hot as well, and looks the same.",
		Source:  plugManual + plugPattern, Class: Single, Needs: []Need{NeedsPlugs},
		Findings: white.in("one-white", []string{"air-leak", "own-injector", "wrong-heat-range"}, []string{"smoke-test", "injector-balance"}, onOne),
	},
	{
		Name: "some-white", Title: "Some plugs white",
		Trigger: "several plugs are white, not all, and not just one bank",
		Why:     "Lean cylinders that lie together share a runner or a joint of the manifold; those at the ends of a row lie farthest from the throttle.",
		Source:  "common practice, no source", Class: Group, Needs: []Need{NeedsPlugs},
		Variants: []string{string(onEnds), string(onNeighbours)},
		Findings: white.in("some-white", []string{"air-leak", "own-injector", "shared-runner"}, []string{"smoke-test", "injector-balance"}, onSome, onEnds, onNeighbours),
	},
	{
		Name: "ash-deposits", Title: "Ash on a plug",
		Trigger: "one plug or more carries ash",
		Why:     "Ash is what oil and additives leave when they burn. While it is powdery it does no harm; glazed, it conducts when hot and shorts the plug.",
		Source:  plugCourse, Class: Information, Needs: []Need{NeedsPlugs},
		Findings: func(c *Case) []diag.Finding {
			return c.plainLook("ash-deposits", "ash", diag.NoAction, []string{"oil-burning", "oil-additive"}, "")
		},
	},
	{
		Name: "plugs-worn", Title: "Worn plugs",
		Trigger: "one plug or more is worn",
		Why:     "Rounded electrodes and a wide gap ask more of the coil, until it fails to fire under load. It is normal wear, and cheap to put right.",
		Source:  "common practice, no source", Class: Information, Needs: []Need{NeedsPlugs},
		Findings: func(c *Case) []diag.Finding {
			return c.plainLook("plugs-worn", "worn", diag.CheckAgain, []string{"plug-age"}, "renew-plugs")
		},
	},
	{
		Name: "plugs-normal", Title: "Plugs look normal",
		Trigger: "every plug looked at is normal, and no gap is outside its limits",
		Why:     "A light tan or grey insulator with little deposit is what good burning leaves. It tells of the last minutes of running; it does not measure the seal.",
		Source:  plugManual, Class: Sound, Needs: []Need{NeedsPlugs},
		Findings: func(c *Case) []diag.Finding {
			normal := c.looking("normal")
			wide, closed := c.gapsOut()
			if len(normal) == 0 || len(normal) < c.Sums.Plugs.N || len(wide)+len(closed) > 0 {
				return nil
			}
			f := c.plugFinding("plugs-normal", normal, diag.NoAction, true)
			f.Facts["new"] = c.plugsNew()
			return []diag.Finding{f}
		},
	},
}

func oilWet(c *Case) []diag.Finding {
	set := c.looking("oil-wet")
	if len(set) == 0 {
		return nil
	}
	f := c.plugFinding("oil-wet", set, diag.ActSoon, true)
	switch {
	case c.Spec.TwoStroke:
		f.Variant, f.Urgency, f.Causes = twoStrokeVariant, diag.CheckAgain, phrases("wrong-mix", "weak-spark", "rich-mixture")
		f.Next = c.next(set, "swap-coil", "compression-test")
	case c.patternOf(set) == onAll:
		f.Variant, f.Causes = string(onAll), phrases("breather", "too-much-oil", "rings")
		f.Next = c.next(set, "breather-and-oil-level", "compression-test", "leak-down")
	default:
		f.Causes = phrases("rings", "guides-or-seals", "breather")
		f.Next = c.next(set, "compression-test", "wet-test", "leak-down", "smoke-on-overrun")
	}
	if c.Has(NeedsCompression) && c.anyLow(set) {
		f.Confidence = diag.Fair
	}
	return []diag.Finding{f}
}

func fuelWet(c *Case) []diag.Finding {
	set := c.looking("fuel-wet")
	if len(set) == 0 {
		return nil
	}
	if c.patternOf(set) == onAll {
		f := c.plugFinding("fuel-wet", set, diag.CheckAgain, true)
		f.Variant, f.Causes = string(onAll), phrases("flooding", "weak-spark", "rich-mixture")
		f.Next = c.next(set, "dry-and-repeat", "swap-coil")
		return []diag.Finding{f}
	}
	var found []diag.Finding
	low := slices.DeleteFunc(slices.Clone(set), func(n string) bool { return !c.Grade(n).IsLow() })
	rest := slices.DeleteFunc(slices.Clone(set), func(n string) bool { return c.Grade(n).IsLow() })
	if len(low) > 0 {
		f := c.plugFinding("fuel-wet", low, diag.CheckAgain, true)
		f.Variant, f.Causes = "low", phrases("washed-bore", "own-spark", "own-injector")
		f.Next = c.next(low, "dry-and-repeat", "swap-coil")
		found = append(found, f)
	}
	if len(rest) > 0 {
		f := c.plugFinding("fuel-wet", rest, diag.CheckAgain, true)
		f.Causes = phrases("own-spark", "own-injector")
		f.Next = c.next(rest, "swap-coil", "injector-balance")
		found = append(found, f)
	}
	return found
}

// plainLook is the finding on plugs of one look wherever they lie.
func (c *Case) plainLook(rule, look string, urgency diag.Urgency, causes []string, check string) []diag.Finding {
	set := c.plugsLooking(look)
	if len(set) == 0 {
		return nil
	}
	f := c.plugFinding(rule, set, urgency, false)
	f.Causes = phrases(causes...)
	if check != "" {
		f.Next = c.next(set, check)
	}
	return []diag.Finding{f}
}

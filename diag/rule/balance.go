package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
	"gaugesheet/diag/quantity"
)

const byBalance = "common practice, no source: half of the drop of those that pull most; 10 rpm is what a count of the speed can tell"

// balanceRules compare the cylinders by how far the speed falls without each.
var balanceRules = onEach(known.Balance, OfBalance, byBalance, []Rule{
	{
		Name: "pulls-nothing", Title: "A cylinder that is not missed",
		Why:  "The speed that stays when a cylinder is off says that it did nothing before: no spark, no fuel or no pressure.",
		When: known.All(known.PullsNothing, known.BalanceTells), Weigh: weighPull, Say: pulls, Headline: "pulls-nothing",
	},
	{
		Name: "pulls-little", Title: "A cylinder that is hardly missed",
		Why:  "The speed falls less without it than without the others: it does less of the work.",
		When: known.All(known.PullsLittle, known.BalanceTells, known.Not(known.OfWeakBank)), Weigh: weighPull, Say: pulls, Headline: "pulls-little",
	},
	{
		Name: "miss-agrees", Title: "A cylinder that does no work, and the gas of one that does not burn",
		Why:  "The balance says which cylinder does nothing, the gas that what went into it came out unburnt. The lean gas is that of this cylinder, and says nothing of the mixture of the others.",
		When: known.All(known.Any(known.PullsLittle, known.PullsNothing), known.BalanceTells, known.Not(known.Low), known.GasMiss), Needs: needsTest(known.Gas),
		Ties: []diag.About{diag.AboutMixture}, For: []Voice{{Cause: "own-spark", Weight: DryUp, Kind: OfGas}, {Cause: "own-injector", Weight: Hint, Kind: OfGas}},
		Say: pulls, Headline: "pulls-little", SaysBetterThan: []string{"pulls-little", "pulls-nothing", "gas-miss", "gas-lean"},
	},
	{
		Name: "pulls-little-and-white", Title: "A cylinder that pulls little, and whose plug is white",
		Why: "A cylinder without spark leaves its plug wet or black. One whose plug is white burns, and too lean: it draws air past its own joint of the intake, or its own carburettor or injector gives too little. " +
			"At idle, where little is breathed, one cracked rubber or one clogged pilot jet takes most of its work.",
		When: known.All(known.WeakAndWhite, known.Not(known.OfWeakBank), sparkPlugs, known.Not(gasFuel), known.Not(known.Low)), Needs: []known.Need{known.NeedsPlugs},
		Weigh: leanAndWeak, Against: denies(DryUp, "plug-burns-lean", "own-spark", "coil-or-lead"), Say: pulls, Headline: "pulls-little-and-white", SaysBetterThan: []string{"pulls-little", "pulls-nothing", "one-white", "some-white"},
	},
	{
		Name: "pulls-little-and-low", Title: "A cylinder that pulls little and holds little pressure",
		Why:  "Two tests that do not depend on each other name the same cylinder: the fault is mechanical.",
		When: known.All(known.Any(known.PullsLittle, known.PullsNothing), known.BalanceTells, known.Low), Needs: []known.Need{known.NeedsCompression},
		Against: denies(DryUp, "low-pressure-explains", "own-spark", "own-injector", "diesel-injector", "coil-or-lead"), Say: pulls, Headline: "pulls-little", SaysBetterThan: []string{"pulls-little", "pulls-nothing"},
	},
})

// weighPull: where the cylinder holds its pressure, spark and fuel are left, but where coolant
// gets in, which puts out its fire.
func weighPull(c *known.Case, s known.Subject) []Voice {
	switch {
	case !known.Low.Holds(c, s) && slices.ContainsFunc(s.Cylinders, func(n string) bool { return showsCoolant(c, n) }):
		return append(speaks(Hint, "head-gasket", "warped-or-cracked-head"), denies(Known, "pressure-is-even", "exhaust-valve", "inlet-valve", "rings")...)
	case known.Low.Holds(c, s):
		return speaks(Hint, "exhaust-valve", "rings", "head-gasket")
	case known.Sealing.Holds(c, s):
		moves := where(c.Complains("noise") && !liftRead(c, s), speaks(DryUp+2*rarer, "valve-motion")) // a valve that stays shut is heard
		own := common("own-spark", ownInjector(c), "coil-or-lead")
		if known.MateFires.Holds(c, s) { // its plug and its wire are said by the first
			own = own[:2]
		}
		return append(append(own, moves...), denies(Known, "pressure-is-even", "exhaust-valve", "inlet-valve", "rings", "head-gasket")...)
	}
	return common("own-spark", ownInjector(c), "low-compression")
}

// leanAndWeak: what one cylinder has to itself of what meters its air and fuel. An injector of its
// own is as likely as its joint; where one carburettor feeds several the joint alone is left.
func leanAndWeak(c *known.Case, _ known.Subject) []Voice {
	if c.Ported() { // which one white plug tells of
		return as(OfBalance, drawsAir(c))
	}
	return slices.Concat(speaks(DryUp, "air-leak"), where(c.CarburettorEach(), speaks(DryUp, "carburettor")))
}

// liftRead reports a cylinder of which the lift of a valve was measured: what it showed has
// its own voice.
func liftRead(c *known.Case, s known.Subject) bool {
	r := c.Measured(known.Clearance)
	return slices.ContainsFunc(s.Cylinders, func(n string) bool { return r.Of("lift exhaust", n) != nil || r.Of("lift inlet", n) != nil })
}

func pulls(c *known.Case, s known.Subject) diag.Finding {
	drop, middle, _ := c.Drop(s.Name())
	few := c.Few()
	if others, two := c.OtherDrops(s.Name()); two { // half of them idle: no cylinder does what the median says
		few, middle = true, others
	} else if full := c.FullDrop(); 2*drop >= middle { // beside those that pull it is weak, and the middle itself is
		few, middle = true, full
	}
	f := diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Fair, Facts: diag.Facts{
		"value": diag.Number{Value: drop, Unit: quantity.RPM}.String(), "median": diag.Number{Value: middle, Unit: quantity.RPM}.String(), "few": few}}
	if m := c.Measured(known.Balance).Of("drop", s.Name()); m != nil && m.UpTo { // nobody read the middle of it
		f.Facts["value"] = m.Told()
	}
	if known.BalanceInvalid.Holds(c, s) {
		f.Doubts = []diag.Phrase{{Key: "idle-not-held"}}
	}
	return f
}

// balanceDoubt is a notice on the balance itself.
var balanceDoubt = systemRule(known.Balance, OfBalance, byBalance, []Rule{{
	Name: "balance-not-valid", Title: "A balance that the idle control made up for",
	Why:   "A computer that holds the idle opens the air as a cylinder goes off, and hides what it did. The control is held, or the test made at a set throttle, and the speed with all working read again at the end.",
	Class: Information, Repeat: "cylinder-balance", When: known.BalanceInvalid, Say: func(c *known.Case, _ known.Subject) diag.Finding {
		f := diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Weak, Facts: diag.Facts{"control": c.Measured(known.Balance).Word("idle-control"), "names": diag.Names(c.NotMissed())}}
		if len(c.NotMissed()) > 0 { // which it names all the same
			f.Urgency, f.Variant = diag.NoAction, "plain"
		}
		return f
	}, Headline: "balance-not-valid", Variants: []string{"plain"},
}})

// bankPulls is on what the cylinders of a bank have in common that all pull less.
var bankPulls = []Rule{{
	Name: "bank-pulls-little", Title: "The cylinders of one bank all pull less than those of the other",
	Why: "Cylinders do not weaken one by one along a bank. What they share is looked for: its side of the intake and its carburettor, the timing of its camshaft, its exhaust. " +
		"Where their plugs are white, or the computer adds fuel there at idle, air gets in on that side or too little fuel does.",
	Source: byBalance, Class: Group, About: diag.AboutCylinders, Ties: []diag.About{diag.AboutMixture}, Needs: needsTest(known.Balance),
	Of: oneSet("the cylinders of one bank, two at least, that all pull under 65 % of what those of the other do", (*known.Case).WeakBank), When: known.OfEngine("no cylinder low", func(c *known.Case) bool { return len(c.LowSet()) == 0 }),
	Kind: OfBalance, Weigh: weighWeakBank, Say: func(c *known.Case, s known.Subject) diag.Finding {
		f := ofEach(pulls)(c, s)
		if f.Facts["lean"] = bankLeans(c, s); f.Facts["lean"] == true {
			f.Headline = "bank-weak-and-lean"
		}
		return f
	}, Headline: "bank-pulls-little", SaysBetterThan: []string{"pulls-little", "pulls-little-and-white", "lean-one-bank", "some-white", "trim-lean-at-idle-only", "trim-lean-read-once", "trims-apart"},
}}

// bankLeans reports the cylinders of a bank that are lean by their plugs, more than half of those
// looked at, or by the trims at idle.
func bankLeans(c *known.Case, s known.Subject) bool {
	white := c.Looking("white")
	idle, _, air := c.AirAtIdle()
	return 2*len(white) > len(s.Cylinders) && !slices.ContainsFunc(white, func(n string) bool { return !slices.Contains(s.Cylinders, n) }) || air && !c.OtherBankToo(idle)
}

func weighWeakBank(c *known.Case, s known.Subject) []Voice {
	if bankLeans(c, s) {
		return slices.Concat(speaks(Known, "manifold-gasket"), where(c.Carburetted(), speaks(Known-rarer, "carburettor")), speaks(Known-2*rarer, "air-leak"),
			where(c.Injected(), speaks(DryUp, "injector-seals")), denies(Known, "bank-is-lean", "ignition", "own-spark", "coil-or-lead", "cam-timing", "restricted-exhaust"))
	}
	return append(where(c.Carburetted(), speaks(commonest, "carburettor")), common("manifold-gasket", "cam-timing", "restricted-exhaust", "ignition")...)
}

package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// fellTogether is on an engine most of whose cylinders lost their pressure at once.
var fellTogether = []Rule{
	{
		Name: "most-far-down", Title: "An engine that will not start, with most of its cylinders far down",
		Why: "A belt or chain that lets go leaves the valves where they stand, and the pistons meet those that are open: each bent valve lets its own share of the pressure by, so that the cylinders read low by different amounts, and a few may read well. " +
			"One gasket does not lower most of an engine, and a worn engine is brought in long before it is as low as this. The drive is looked at first, with the cover off and nothing turned: each turn of the starter may bend more.",
		Source: "common practice, no source; 60 %: judgement", Class: Together, About: diag.AboutEngine, Ties: []diag.About{diag.AboutCylinders},
		Needs: []known.Need{known.NeedsCompression},
		Of:    oneSet("the cylinders far down", (*known.Case).FarDown), When: known.FellTogether,
		Kind: OfCompression, Weigh: weighFell, Say: fellSays, Headline: "most-far-down",
		SaysBetterThan: []string{"most-low", "all-low", "below-minimum", "neighbours-low", "scattered-low", "one-low", "one-without-pressure", "several-without-pressure", "exhaust-valve-agrees", "inlet-valve-agrees",
			"leakage-high", "leaks-at-exhaust", "leaks-at-inlet", "sooty-and-low"},
		InsteadOf: []string{"sealing-sound-look-elsewhere", "complaint-not-explained", "no-start-not-explained"},
	},
}

// weighFell: what drives the valves let go and bent some; where the job says that it is new,
// the valves were bent before.
func weighFell(c *known.Case, s known.Subject) []Voice {
	atValves := len(c.LeakAtValves(s.Cylinders)) > 1
	return slices.Concat(
		where(!c.TimingTouched(), speaks(Heard+Known, "timing-drive")), where(c.TimingTouched(), speaks(Known, "timing-drive")),
		speaks(Heard+DryUp, "bent-valve"), where(c.TimingTouched() || atValves, speaks(DryUp, "bent-valve")), speaks(Known, "cam-timing"),
		where(atValves, as(OfLeakage, speaks(Known, "timing-drive", "bent-valve"))),
		denies(Heard, "others-low-too", "head-gasket", "warped-or-cracked-head", "exhaust-valve", "inlet-valve", "carbon-on-seat", "valve-lash"),
		denies(Known, "others-low-too", "adapter-leak"))
}

func fellSays(c *known.Case, s known.Subject) diag.Finding {
	f := lowFinding(c, s)
	f.Urgency, f.Confidence = diag.DoNotRun, diag.Fair
	f.Facts["valves"] = diag.Names(c.LeakAtValves(s.Cylinders))
	f.Facts["of"], f.Facts["new"] = len(c.Read()), c.TimingTouched()
	return f
}

package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

const byBreathing = "common practice, no source: idle about half of the cranking reading, a quick opening of the throttle about four fifths; how far apart is judgement"

// runningRules are on compression with the engine running, each cylinder as a
// part of its own cranking reading: what it shows is how it breathes, which
// cranking hides.
var runningRules = []Rule{
	{
		Name: "breathes-in-poorly", Title: "A cylinder that gets too little air when the engine runs",
		Why: "On the starter there is time enough to fill a cylinder through a valve that hardly opens. On a quick opening of the throttle there is not: a cylinder that stays behind the others there " +
			"has a worn inlet lobe, a follower or lifter that does not lift, or a choked port or runner.",
		Source: byBreathing, Class: Together, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression},
		Of: eachCylinder, When: known.All(known.BreathesInPoorly, known.Not(known.BreathesOutPoorly)),
		Kind: OfRunning, Weigh: weighInlet, Say: ofEach(breathesIn), Headline: "breathes-poorly",
	},
	{
		Name: "breathes-out-poorly", Title: "A cylinder, or every one, that keeps its gas when the engine runs",
		Why: "A running engine reads less than one that is cranked, because the next charge has little time to come in. A cylinder that reads more than the others do, as a part of what it reads on the starter, " +
			"does not let its gas go: an exhaust valve that hardly opens, by its lobe, rocker or lifter. Where all read on a quick opening of the throttle what they read on the starter, " +
			"the old gas is kept in by something that all share, such as a catalyst or silencer that has broken up inside.",
		Source: byBreathing, Class: Together, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsCompression},
		Of: eachAndWhole, When: known.Any(known.All(known.BreathesOutPoorly, known.Not(known.KeepsItsGas)), known.All(asWhole, known.KeepsItsGas)),
		Kind: OfRunning, Weigh: weighOutlet, Say: ofEach(breathesOut), Headline: "breathes-poorly", Variants: []string{"all"},
		SaysBetterThan: []string{"sealing-sound-look-elsewhere", "even-above-minimum", "even-no-minimum"},
	},
	{
		Name: "running-even", Title: "The cylinders breathe alike when the engine runs",
		Why: "Where every cylinder reads the same part of its cranking reading when it runs, at idle and on a quick opening of the throttle, the valves open alike. " +
			"A fault that all of them share does not show so.",
		Source: byBreathing, Class: Information, About: diag.AboutEngine, Needs: []known.Need{known.NeedsCompression},
		Of: oneSet("the cylinders read running", ranNames), When: known.AllBreatheAlike,
		Kind: OfRunning, Against: denies(2*Heard, "breathes-alike", motionCauses...), Say: runningEven,
	},
}

// motionCauses are what makes one cylinder breathe otherwise than the rest.
var motionCauses = []string{"valve-motion", "collapsed-lifter", "deactivation-lifter"}

// runningSigns are what reading alike speaks against in the stories of other
// readings.
var runningSigns = []Sign{
	{When: known.BreathesAlike, Kind: OfRunning, About: "cylinders", Against: denies(2*Heard, "breathes-alike", motionCauses...)},
	// What chokes the inlet of all of them makes none stand apart.
	{When: known.All(known.BreathesAlike, known.Low), Kind: OfRunning, About: "cylinders", Against: denies(Heard, "breathes-alike", "restricted-inlet")},
	{When: known.AllBreatheAlike, Kind: OfRunning, About: "mixture", Against: denies(2*Heard, "breathes-alike", motionCauses...)},
	{When: known.KeepsItsGas, Kind: OfRunning, About: "mixture", For: speaks(Known, "restricted-exhaust")},
}

// eachAndWhole asks of every cylinder by itself, and of the engine as a whole.
var eachAndWhole = Scope{Words: "a cylinder, or the engine", Each: true, Of: func(c *known.Case) []known.Subject {
	return append(slices.Clip(c.EachCylinder()), known.Subject{})
}}

// asWhole holds where the engine as a whole is asked of.
var asWhole = known.Is("asked of the engine", func(_ *known.Case, s known.Subject) bool { return len(s.Cylinders) == 0 })

// breathesPoorly reports a cylinder that does not breathe as the others do.
func breathesPoorly(c *known.Case) bool {
	poorly := known.Any(known.BreathesInPoorly, known.BreathesOutPoorly)
	return slices.ContainsFunc(each(ranNames(c)), func(s known.Subject) bool { return poorly.Holds(c, s) })
}

func ranNames(c *known.Case) []string {
	var names []string
	for _, s := range c.Running() {
		names = append(names, s.Name)
	}
	return names
}

// weighInlet: a lifter collapses where it is hydraulic, and one that can switch
// its cylinder off is the likelier for it.
func weighInlet(c *known.Case, s known.Subject) []Voice {
	list := append(speaks(Sight, "valve-motion"), speaks(Known, "collapsed-lifter")...)
	if slices.Contains(c.Spec.Deactivates, s.Name()) {
		list = append(list, speaks(Sight+rarer, "deactivation-lifter")...)
	}
	list = append(list, speaks(DryUp, "restricted-inlet", "reed-valve")...)
	return append(list, denies(DryUp, "breathes-otherwise", "own-spark", "own-injector", "ignition", "injection")...)
}

// weighOutlet: what keeps the gas in all of them is common to all.
func weighOutlet(c *known.Case, s known.Subject) []Voice {
	if len(s.Cylinders) == 0 {
		return append(speaks(Sight, "restricted-exhaust"), speaks(Hint, "cam-timing")...)
	}
	list := append(speaks(Sight, "valve-motion"), speaks(Known-rarer, "collapsed-lifter")...)
	exhaust := DryUp
	if len(c.Every()) > 2 { // which the others share
		exhaust = rarer
	}
	list = append(list, speaks(exhaust, "restricted-exhaust")...)
	return append(list, denies(DryUp, "breathes-otherwise", "own-spark", "own-injector", "ignition", "injection")...)
}

// breathes gives a cylinder's share beside the others', and the two readings
// behind it: on the snap, or at idle.
func breathes(c *known.Case, s known.Subject, idle bool) diag.Finding {
	name := s.Name()
	running, of := c.Compression.Running[name].Snap, diag.OnSnap
	if idle {
		running, of = c.Compression.Running[name].Idle, diag.AtIdle
	}
	value, _ := running.Value()
	_, middle, apart := c.RunningOver(name, of)
	cranking := *c.Cylinder(name).Dry
	return diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Fair, Facts: diag.Facts{
		"idle": idle, "value": c.Pressure(value), "cranking": c.Pressure(cranking), "share": c.Part(value, cranking), "others": known.Percent(*middle, 0), "beside": apart > known.ApartRunning}}
}

func breathesIn(c *known.Case, s known.Subject) diag.Finding { return breathes(c, s, false) }

// breathesOut says the share that stands out more, or that of all.
func breathesOut(c *known.Case, s known.Subject) diag.Finding {
	if len(s.Cylinders) == 0 {
		f := runningEven(c, s)
		f.Variant, f.Urgency, f.Headline = "all", diag.ActSoon, "exhaust-blocked"
		return f
	}
	snap, _, _ := c.RunningOver(s.Name(), diag.OnSnap)
	idle, _, _ := c.RunningOver(s.Name(), diag.AtIdle)
	return breathes(c, s, snap == nil || idle != nil && *idle > *snap)
}

func runningEven(c *known.Case, _ known.Subject) diag.Finding {
	snap, _ := diag.MedianShare(c.Running(), diag.OnSnap)
	return diag.Finding{Urgency: diag.NoAction, Confidence: diag.Fair, Facts: diag.Facts{"median": known.Percent(snap, 0), "read": len(c.Running())}}
}

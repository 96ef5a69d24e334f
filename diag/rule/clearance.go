package rule

import (
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

const byClearance = "limits: the job's own; TM 1-1500-204-23-1: clearance before a valve is condemned; a tenth less lift is judgement"

// lashSet are valves whose clearance can be set at all.
var lashSet = known.OfEngine("no hydraulic lifters", (*known.Case).LashCanBeSet)

// clearanceRules are on valve clearance and lift: the cheapest reversal of a
// burnt valve.
var clearanceRules = onEach(known.Clearance, OfClearance, byClearance, []Rule{
	{
		Name: "valve-held-open", Title: "A valve without clearance on a cylinder that is low, or leaks there",
		Why:   "A valve that its gear holds open cannot seal, burnt or not. The clearance is set, the engine run, and what found it read again before a head comes off.",
		When:  known.All(lashSet, known.Any(known.ValveHeldOpen, known.ClearanceTight), known.Any(known.Low, known.LeaksThere), known.Not(known.ShutThoughTight)),
		Weigh: weighHeld, Say: clearance(known.Under, diag.ActSoon), Headline: "valve-held-open", SaysBetterThan: []string{"clearance-tight", "below-minimum", "near-minimum", "exhaust-valve-agrees", "inlet-valve-agrees", "one-low", "leaks-at-exhaust", "leaks-at-inlet"},
	},
	{
		Name: "clearance-tight", Title: "Valve clearance under its limit",
		Why:  "A valve that is tight when cold is open when hot, and burns.",
		When: known.All(lashSet, known.Any(known.ClearanceTight, known.ValveHeldOpen)), Weigh: weighTight, Say: clearance(known.Under, diag.ActSoon), Headline: "clearance-tight",
	},
	{
		Name: "clearance-loose", Title: "Valve clearance over its limit",
		Why:  "A loose valve is noisy, opens late and too little, and hammers its gear.",
		When: known.All(lashSet, known.ClearanceLoose), For: speaks(Known, "valve-loose"), Say: clearance(known.Over, diag.ActSoon), Headline: "clearance-loose",
	},
	{
		Name: "clearance-closing-up", Title: "An exhaust clearance that closes up",
		Why:  "A clearance that is less than all the others and less than it was is a seat or a valve that recedes into the head. It is set, and looked at again by distance: what closes again will burn.",
		When: known.ClearanceCloses, For: append(speaks(Known, "valve-recession"), speaks(DryUp, "valve-lash")...), Say: func(c *known.Case, s known.Subject) diag.Finding {
			now, was := c.ClosingUp(s.Name())
			f := diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Fair, Facts: measuredFacts(now)}
			f.Facts["was"] = diag.AsWritten(was.Entered)
			return f
		}, Headline: "clearance-closing-up",
	},
	{
		Name: "clearance-closes-again", Title: "A clearance that was set and has closed up again",
		Why:  "A clearance goes on closing for one of two reasons: the seat sinks into the head, or the valve stretches, and then its head breaks off and takes the piston with it. It is not set once more: the head comes off while there is a valve to look at.",
		When: known.All(lashSet, known.ClearanceClosedAgain), Weigh: weighClosed, Against: append(denies(3*Heard, "was-set-before", "valve-lash"), denies(Heard, "was-set-before", "carbon-on-seat")...), Say: closedAgain, Headline: "clearance-closes-again",
		SaysBetterThan: []string{"valve-held-open", "clearance-tight", "clearance-closing-up"},
	},
	{
		Name: "lift-low", Title: "A valve that opens too little",
		Why:  "A lobe that is worn round, a follower or a rocker that gives, lets a valve open less than the others do.",
		When: known.LiftsLittle, For: append(speaks(Heard, "valve-motion"), speaks(DryUp, "collapsed-lifter")...), Say: lift, Headline: "lift-low",
	},
	{
		Name: "lobe-agrees", Title: "Low, tight, and a valve that opens too little",
		Why:  "A cylinder that loses no air and still holds little pressure is one that does not get its charge. The valve that opens too little says why.",
		When: known.All(known.LiftsLittle, known.Low, known.OfAll("hardly any air lost", holdsAir)), Needs: []known.Need{known.NeedsCompression, known.NeedsLeakage},
		For: append(speaks(Heard, "valve-motion"), Voice{Cause: "valve-motion", Weight: Known, Kind: OfLeakage}), Say: thisSure(diag.Strong, lift), Headline: "lift-low", SaysBetterThan: []string{"lift-low", "low-but-tight"},
	},
})

// lashTogether is on clearances that are off in several cylinders at once.
var lashTogether = []Rule{
	{
		Name: "clearances-tight-together", Title: "Valves without clearance on low cylinders and on others",
		Why:    "What closes up or was set wrong in several cylinders shows first in the worst. All of them are set at once, those that read low are tested again, and the rest do not follow them.",
		Source: byClearance, Class: Together, About: diag.AboutCylinders, Needs: append(needsTest(known.Clearance), known.NeedsCompression),
		Of: sets("the cylinders with a valve clearance under its limit, or none, some of them low and some not", tightTogether), When: lashSet,
		Kind: OfClearance, Weigh: weighTight, Say: tightTogetherSays, Headline: "valve-held-open", SaysBetterThan: []string{"clearance-tight", "valve-held-open", "exhaust-valve-agrees", "inlet-valve-agrees", "one-low", "scattered-low", "leaks-at-exhaust", "leaks-at-inlet"},
	},
}

// weighTight: a valve that has too little and shuts all the same is not what lets the air out.
func weighTight(c *known.Case, s known.Subject) []Voice {
	weight := Known
	if known.ShutThoughTight.Holds(c, s) {
		weight = Hint
	}
	return slices.Concat(speaks(weight, "valve-lash"), weighSeats(c, s), weighBurned(c, s))
}

// weighHeld: a valve that is held open is set first; where seats sink it is that they
// have, and not how it was set.
func weighHeld(c *known.Case, s known.Subject) []Voice {
	lash := speaks(Heard, "valve-lash")
	if c.SeatsSink() {
		lash = speaks(Hint, "valve-lash")
	}
	return slices.Concat(lash, weighSeats(c, s), weighBurned(c, s))
}

// weighBurned: what did not shut on a low cylinder may have burned by now.
func weighBurned(c *known.Case, s known.Subject) []Voice {
	tight := func(side string) bool {
		return slices.ContainsFunc(s.Cylinders, func(n string) bool { return known.Low.HoldsOf(c, n) && c.TightAt(side, n) })
	}
	return slices.Concat(where(tight("exhaust"), speaks(DryUp, "exhaust-valve")), where(tight("inlet"), speaks(DryUp, "inlet-valve")))
}

// weighSeats speaks for seats that wear into the head, soonest on gas.
func weighSeats(c *known.Case, _ known.Subject) []Voice {
	return slices.Concat(where(c.MostExhaustTight(), speaks(Hint, "valve-recession")), where(c.SeatsSink(), speaks(Heard, "valve-recession")))
}

// weighClosed: one valve that goes on closing stretches, or sinks; where most do, the
// seats sink.
func weighClosed(c *known.Case, s known.Subject) []Voice {
	first, then := "valve-stretch", "valve-recession"
	if c.MostExhaustTight() {
		first, then = then, first
	}
	list := append(speaks(2*Heard, first), speaks(Heard, then)...)
	if known.AirAt(known.AtExhaust).Holds(c, s) || known.AirAt(known.AtInlet).Holds(c, s) {
		list = append(list, Voice{Cause: first, Weight: Heard, Kind: OfLeakage})
	}
	return list
}

// closedAgain stops the engine where one valve goes on closing that was set by name, or has
// nothing left of what it was set to, or was set more than once: what stretches breaks, and
// takes the piston with it. One of all that were set at once may have been set wrong; seats
// that sink in most cylinders do not break, nor what is short by a hair.
func closedAgain(c *known.Case, s known.Subject) diag.Finding {
	f := clearance(known.Under, diag.ActSoon)(c, s)
	done := c.LashSet(s.Name())
	f.Facts["often"] = done.Often
	gone := done.Named || len(c.NoClearance(s.Name())) > 0
	if done.Often || gone && f.Urgency == diag.ActSoon && !c.MostExhaustTight() {
		f.Urgency = diag.DoNotRun
	}
	return f
}

// tightTogether are the cylinders with a valve that is clearly too tight, where some of them
// are low and some are not, so that each kind would have a story of its own.
func tightTogether(c *known.Case) [][]string {
	tight := c.Those(func(n string) bool {
		_, clear := c.ClearanceOff(n, known.Under)
		return (clear || len(c.NoClearance(n)) > 0) && !c.ClosedAgain(n)
	})
	low := slices.ContainsFunc(tight, func(n string) bool { return known.Low.HoldsOf(c, n) })
	if !low || !slices.ContainsFunc(tight, func(n string) bool { return !known.Low.HoldsOf(c, n) }) {
		return nil
	}
	return [][]string{tight}
}

// tightTogetherSays gives each clearance, as it was entered.
func tightTogetherSays(c *known.Case, s known.Subject) diag.Finding {
	f := diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Fair, Facts: diag.Facts{}}
	var read, low, held diag.Names
	for _, n := range s.Cylinders {
		if known.Low.HoldsOf(c, n) {
			low = append(low, n)
		}
		if len(c.NoClearance(n)) > 0 {
			held = append(held, n)
		} else if m, _ := c.ClearanceOff(n, known.Under); m != nil {
			read = append(read, strings.ReplaceAll(diag.AsWritten(m.Entered), ", ", "/")) // both valves of one cylinder
			f.Facts["limit"] = m.LimitEntered
		}
	}
	f.Facts["read"], f.Facts["low"], f.Facts["held"] = read, low, held
	if f.Facts["limit"] == nil {
		f.Facts["limit"] = ""
	}
	return f
}

func holdsAir(c *known.Case, n string) bool {
	if c.Sums.Leakage == nil {
		return false
	}
	r := c.Sums.Leakage.Cylinder(n)
	return r != nil && r.Loss != nil && !known.Beyond(*r.Loss, known.GoodLoss)
}

// clearance is the clearance of a cylinder that is past its limit on a side, or
// that there is none.
func clearance(is func(*diag.MeasuredReading) (bool, bool), u diag.Urgency) func(*known.Case, known.Subject) diag.Finding {
	return func(c *known.Case, s known.Subject) diag.Finding {
		n := s.Name()
		leaks := !c.AnyLow(s.Cylinders) && c.LeaksHeldOpen(n)
		if none := c.NoClearance(n); len(none) > 0 {
			return diag.Finding{Urgency: u, Confidence: diag.Fair, Facts: diag.Facts{"none": true, "exhaust": none[0] == "exhaust", "value": "", "limit": "", "leaks": leaks}}
		}
		m, clear := c.ClearanceOff(n, is)
		f := measuredFinding(m, clear, u)
		f.Facts["none"], f.Facts["exhaust"], f.Facts["leaks"] = false, m.Name == "exhaust", leaks
		if known.ByAHair(m) && f.Urgency == diag.ActSoon {
			f.Urgency = diag.CheckAgain
		}
		return f
	}
}

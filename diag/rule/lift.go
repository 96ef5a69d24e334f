package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// lift is how far a valve opens that opens too little. What is short by no more than
// how a dial is held is read again first.
func lift(c *known.Case, s known.Subject) diag.Finding {
	m := c.LiftLow(s.Name())
	f := diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Fair, Facts: measuredFacts(m)}
	f.Facts["exhaust"], f.Facts["few"] = m.Name == "lift exhaust", c.Few()
	f.Facts["twin"] = len(c.Every()) == 2
	gone := m.Limited() && known.Excess(m) >= liftGone
	f.Facts["gone"] = gone
	switch {
	case m.Limited() && known.Excess(m) < liftByAHair:
		f.Urgency = diag.CheckAgain
	case gone:
		f.Urgency = diag.DoNotRun
	}
	return f
}

// liftGone is the part of its limit by which the lift is short of a lobe that has worn through
// its hardened skin: what comes off it goes round with the oil. Judgement, no source.
const liftGone = 0.25

// liftByAHair is the part of its limit by which a lift may be short by how the dial was
// held: judgement, no source.
const liftByAHair = 0.02

// oneBreathes is an engine of which one cylinder was found not to breathe as the others.
var oneBreathes = known.OfEngine("one cylinder, as the only one, found to breathe otherwise than the others with the engine running, or with a valve that opens too little, or by a tenth less than it should where others fall a little short",
	func(c *known.Case) bool { return len(breathers(c)) == 1 })

// breathers are the cylinders that do not breathe as the others do; of several whose
// valves open too little those of which one is far short, since no needle shows the rest.
func breathers(c *known.Case) []string {
	if lifts := c.Measured(known.Clearance); lifts == nil && (c.Compression == nil || len(c.Compression.Running) == 0) {
		return nil
	}
	poorly := known.Any(known.BreathesInPoorly, known.BreathesOutPoorly)
	holds := func(n string) bool { return poorly.HoldsOf(c, n) }
	list := c.Those(func(n string) bool { return c.LiftLow(n) != nil || holds(n) })
	if len(list) > 1 {
		list = slices.DeleteFunc(list, func(n string) bool { return !c.LiftFar(n) && !holds(n) })
	}
	return list
}

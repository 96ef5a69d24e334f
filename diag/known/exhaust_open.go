package known

import "slices"

// exhaustOpen are words of an exhaust that was found free, or was blocked and is no more.
var exhaustOpen = slices.Concat(pairs("exhaust|catalyst|catalytic converter|silencer|muffler", "free|clear|cleared|unblocked"), pairs("catalyst|catalytic converter|silencer|muffler", "renewed|replaced|new"))

// ExhaustOpen is an exhaust that the job says was found free, or put right since.
var ExhaustOpen = OfEngine("work done that says that the exhaust is free, or was cleared or renewed", func(c *Case) bool {
	return len(c.History.WorkDone) > 0 && slices.ContainsFunc(c.Works(), func(w Work) bool { return SpeaksOf(w.Text, exhaustOpen...) })
})

package known

import (
	"regexp"
	"slices"

	"gaugesheet/diag"
)

// Words of work that set a valve's clearance, in plain form: the name of it, and what was
// done to it.
var (
	lashNamed = []string{"valve lash", "valve clearance", "exhaust clearance", "inlet clearance", "intake clearance", "clearance", "lash", "valves"}
	lashDone  = []string{"set", "reset", "adjusted", "readjusted", "backed off", "opened up", "shimmed", "corrected"}
)

// ofSheet are words with which a sheet's own check ends: what was measured is then
// older than the work.
var ofSheet = regexp.MustCompile(`\bset and (?:retest|tested again|test again|look again|looked at again)|clearance set and (?:(?:compression|leak down) repeated|looked at again)`)

// oftener are words that say that a thing was done more than once, and overTime also those
// that say when, or how far back: it was done before the readings.
var (
	oftener  = regexp.MustCompile(often)
	overTime = regexp.MustCompile(often + `|\b(?:ago|last (?:week|month|year|summer|winter|spring|autumn|fall|service|time)|(?:in|within|after|for|since) (?:the )?(?:last )?[\d.,]+ ?(?:km|mi|miles|kilometres|kilometers|hours|h|weeks|months|days))\b`)
)

const often = `\b(?:twice|thrice|repeatedly|again and again|keeps|(?:two|three|four|five|several|many|[2-9]) ?(?:times|x)|(?:second|third|2nd|3rd) time)\b`

// A LashWork is what the work done says of the setting of a cylinder's clearances.
type LashWork struct {
	Set    bool // it was set
	Before bool // before it was measured, by when or how often that was
	Named  bool // of this cylinder by its name
	Often  bool // more than once
}

// LashSet is what the work done, and that between two tests, says of the setting of a
// cylinder's clearances; what is years back says nothing of now.
func (c *Case) LashSet(n string) (done LashWork) {
	lines := c.History.WorkDone
	if c.Before != nil && c.Before.Done != "" {
		lines = append(slices.Clone(lines), c.Before.Done)
	}
	for _, line := range lines {
		w := c.workOf(line)
		if said := w.setsLash(); said.Set && w.on([]string{n}) {
			done = LashWork{Set: true, Before: done.Before || said.Before, Named: done.Named || said.Named, Often: done.Often || said.Often}
		}
	}
	return done
}

// lashSaid is what one line of work says of it, once it was asked.
type lashSaid struct {
	LashWork
	asked bool
}

func (w *Work) setsLash() LashWork {
	l := w.lash
	if l == nil { // which only says what was not done
		return LashWork{}
	}
	if !l.asked {
		l.asked = true
		if w.Says(lashNamed...) && w.Says(lashDone...) && !ofSheet.MatchString(w.Text) && !longAgo(w.Text) {
			l.LashWork = LashWork{Set: true, Before: overTime.MatchString(w.Text), Named: len(w.Cylinders) > 0, Often: oftener.MatchString(w.Text)}
		}
	}
	return l.LashWork
}

// ClosedAgain reports a cylinder of which an exhaust or inlet valve has too little
// clearance, or none, although the work done says that it was set before. Where most have
// too little after one setting of all of them, they were set wrong.
func (c *Case) ClosedAgain(n string) bool {
	if !c.tightened(n) {
		return false
	}
	done := c.LashSet(n)
	return done.Before && (done.Often || done.Named || 2*len(c.Those(c.tightened)) < len(c.Every()))
}

// A valve is of one side, by the name of its clearance and by where its air is heard.
type valve struct{ name, at string }

var valves = []valve{{"inlet", AtInlet}, {"exhaust", AtExhaust}}

// tightened reports a cylinder of which a valve has too little clearance, or none.
func (c *Case) tightened(n string) bool {
	tight, _ := c.ClearanceOff(n, Under)
	return tight != nil || len(c.NoClearance(n)) > 0
}

// shutThoughTight reports a cylinder that hardly loses air, or whose air was heard where it
// leaves and at no valve that has too little clearance: that one shuts all the same. One that
// shuts cold may still be held open once its engine is warm.
func (c *Case) shutThoughTight(n string) bool {
	l := c.leakAt(n)
	if l == nil || len(l.At) == 0 {
		return (!c.LeakageCold() || c.Conditions.Engine == "cold") && c.AllTight([]string{n})
	}
	return !slices.ContainsFunc(valves, func(v valve) bool { return c.TightAt(v.name, n) && slices.Contains(l.At, v.at) })
}

// TightAt reports too little clearance, or none, at one valve of a cylinder, by its name.
func (c *Case) TightAt(valve, n string) bool {
	r := c.Measured(Clearance)
	if r == nil {
		return false
	}
	tight, _ := Under(r.Of(valve, n))
	return tight || slices.Contains(c.NoClearance(n), valve)
}

// ExhaustAlone reports cylinders of which an exhaust valve was found tight, or their air to
// leave there, and of no inlet valve either.
func (c *Case) ExhaustAlone(names []string) bool {
	open := func(v valve) bool {
		return slices.ContainsFunc(names, func(n string) bool { return c.TightAt(v.name, n) || c.LeaksAt(n, v.at) })
	}
	return !open(valves[0]) && open(valves[1])
}

// LeaksHeldOpen reports a cylinder that loses too much of its air at a valve with too little
// clearance, or none.
func (c *Case) LeaksHeldOpen(n string) bool {
	l := c.Leak(n)
	return l != nil && len(l.At) > 0 && c.LeakTooHigh(l) && c.tightened(n) && !c.shutThoughTight(n)
}

// LeaksThere is that as a condition.
var LeaksThere = OfAll("too much air lost at a valve with too little clearance", (*Case).LeaksHeldOpen)

// ShutThoughTight is that as a condition.
var ShutThoughTight = OfAll("hardly any air lost, or heard where it leaves and at no valve with too little clearance", (*Case).shutThoughTight)

// ClearanceClosedAgain is that as a condition.
var ClearanceClosedAgain = OfAll("a valve clearance under its limit, or none, that was set before by the work done", (*Case).ClosedAgain)

// SeatsSink reports an engine that burns gas, most of whose exhaust valves have too little
// clearance and none of whose inlet valves.
func (c *Case) SeatsSink() bool {
	if !c.GasFuel() || !c.MostExhaustTight() {
		return false
	}
	return !slices.ContainsFunc(c.Every(), func(n string) bool { return c.TightAt("inlet", n) })
}

// wideFar is how many times its limit a clearance is wide that no wear alone makes so:
// judgement, no source.
const wideFar = 1.5

// wide is a valve of a cylinder that has more clearance than its limit, where none has too
// little by which its air could leave; nil for none. What is wide is not held open by its
// gear: it hangs, or something between lobe and stem has given way.
func (c *Case) wide(name string) *diag.MeasuredReading {
	r := c.Measured(Clearance)
	if r == nil || c.tightened(name) {
		return nil
	}
	var found *diag.MeasuredReading
	for _, v := range valves {
		m := r.Of(v.name, name)
		if past, _ := Over(m); past && (found == nil || c.LeaksAt(name, v.at)) {
			found = m
		}
		if m == nil && c.LeaksAt(name, v.at) { // which nobody measured
			return nil
		}
	}
	return found
}

// hangsWide reports a valve so wide at a low cylinder that it does not come back to its seat:
// its air is heard there, or was not listened for.
func (c *Case) hangsWide(name string) bool {
	m := c.wide(name)
	if m == nil || m.LimitHigh == nil || m.Value < wideFar**m.LimitHigh || !c.Grade(name).IsLow() || c.AllTight([]string{name}) {
		return false
	}
	return !c.PlaceNoted(name) || slices.ContainsFunc(valves, func(v valve) bool { return v.name == m.Name && c.LeaksAt(name, v.at) })
}

// Conditions on a valve that is too loose.
var (
	ClearanceWide = OfAll("a valve clearance over its limit, and none too small at a valve where its air could leave", func(c *Case, n string) bool { return c.wide(n) != nil })
	HangsWide     = OfAll("low, a valve clearance half as much again as its limit or more, its air heard at that valve or at no place, and not tight", (*Case).hangsWide)
)

// OnlyWide reports cylinders one of which is low with a valve that is too loose, and of which
// nobody watched the valves: setting it would hide why it is.
func (c *Case) OnlyWide(cylinders []string) bool {
	return slices.ContainsFunc(cylinders, func(n string) bool { return c.wide(n) != nil }) &&
		c.DoneOn(cylinders, "watch valve gear", "watching the valves", "valve gear watched", "valve lift measured", "lift measured", "both valves seen moving", "valves seen moving") == nil
}

package known

import (
	"slices"

	"gaugesheet/diag"
)

// What is known of the height that the pistons come up to: a rod that is bent lets its
// own come up less high, so that its cylinder compresses less and loses nothing.

var (
	// drowned are words of an engine that drank where nobody lists what was found.
	drowned = []string{"flooded road", "flooded ford", "flooded street", "flooded underpass", "through a flood", "through the flood", "in a flood", "flood water", "floodwater", "through a ford", "through the ford",
		"in a ford", "in the ford", "into a ford", "deep water", "drowned", "hydrolocked", "hydro locked", "hydraulicked", "hydraulically locked",
		"drew in water", "drew water", "took in water", "sucked in water", "swallowed water", "ingested water", "breathed water"}
	// waterDrawn are words for an engine that drew in water.
	waterDrawn = slices.Concat(drowned, pairs("water", "air filter|air box|airbox|air cleaner|intake|inlet|air duct"), []string{"hydrolock", "hydro lock", "hydraulic lock", "liquid lock"})
	// BentRod is a rod, or the height of its piston, that was looked at and is not right.
	BentRod = append(pairs("rod |rods|conrod|con rod", "bent|buckled|bowed|shortened"), append(pairs("piston|pistons",
		"stands lower|stand lower|sits lower|sit lower|lower than|mm lower|thou lower|in lower|stands low|sits low|comes up less|come up less|less high|not as high|lower at top|lower at tdc|short of the others"),
		"bent rod")...)
)

// tellsBentRod reports a line of findings on a rod that has a story of its own, as its cylinder is
// named.
func (c *Case) tellsBentRod(line, text string) bool {
	return len(c.parsed[line].Cylinders) > 0 && SpeaksOf(text, BentRod...)
}

// DrewWater reports an engine that drew in water, by how the trouble came on, how it came
// in, what it is called, what was done or what was found.
var DrewWater = OfEngine("it drew in water, by how the trouble came on, how the vehicle came in or is described, the work done or the technician's findings", func(c *Case) bool { return c.foundFaults().water })

func (c *Case) saidToDrinkWater() bool {
	h := &c.History
	switch {
	case c.Found(waterDrawn...), h.Onset != "" && SpeaksOf(plainWords(h.Onset), waterDrawn...):
		return true
	case h.Arrival != "" && SpeaksOf(plainWords(h.Arrival), drowned...), h.Vehicle != "" && SpeaksOf(plainWords(h.Vehicle), drowned...):
		return true
	}
	return slices.ContainsFunc(c.Works(), func(w Work) bool { return SpeaksOf(w.Text, drowned...) })
}

// SuddenNoise is an engine that makes a noise, and whose trouble came suddenly.
var SuddenNoise = All(Complaint("noise"), SuddenOnset)

// TightAsOthers is a cylinder, low or to be watched, that holds its air as the good ones do.
var TightAsOthers = OfAll("low or to be watched, and under 10 % lost in the leakage test, or past the rings alone under 20 % and no more than 3 points over what cylinders that make good pressure lose",
	(*Case).tightAsOthers)

func (c *Case) tightAsOthers(name string) bool {
	r := c.Cylinder(name)
	if r == nil || !(c.ShortOfPressure(r) || c.Grade(name) == diag.Watch) {
		return false
	}
	return c.AllTight([]string{name}) || c.losesAsSound(name)
}

// RodInDoubt reports a cylinder whose rod may be bent: it lacks some of its pressure, as
// one that compresses less does, and not most, holds its air, and the heights of the
// pistons were not compared.
func (c *Case) RodInDoubt(name string) bool {
	if c.Rotary() || !c.tightAsOthers(name) || RodsAlike.HoldsOf(c, name) {
		return false
	}
	return !c.Several() || c.PartOfReference(c.Cylinder(name)).Value >= leastBent
}

// leastBent is the part of the others' pressure, in percent, that a cylinder makes at least
// whose rod is bent and whole: reckoned, no source. Of a diesel of 18 to 1 it is what a
// piston leaves that comes up by 3 mm in 90 less high.
const leastBent = 55

// RodMayBeBent is that as a condition.
var RodMayBeBent = OfAll("low or to be watched at 55 % of the reference or more, its air held as by the good ones, and its piston's height not compared", (*Case).RodInDoubt)

// RodsAlike is a cylinder whose piston is said to come up as high as the others.
var RodsAlike = OfAll("its piston said to come up as high as the others", func(c *Case, n string) bool {
	return c.DoneOn([]string{n}, "piston height", "piston heights", "height of the pistons").Says("alike", "same")
})

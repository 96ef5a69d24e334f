package known

import (
	"slices"
	"strings"
)

// What tells of liners that stand in the coolant, sealed at their foot from the oil pan below:
// common practice, no source.

// linerCylinder is the displacement in ml of one cylinder of a diesel from which it mostly has
// such liners: judgement, no source.
const linerCylinder = 900

// linered are machines whose diesel engines mostly have them.
var linered = slices.Concat(heavyVehicles, []string{"tractor", "combine", "harvester", "excavator", "loader", "bulldozer", "dozer", "grader", "crane", "forage", "generator", "genset", "locomotive", "trawler", "tug", "barge"})

var (
	liners    = []string{"liner", "sleeve"}
	underPan  = []string{"into the sump", "into the oil pan", "into the pan", "into the crankcase", "into the oil", "from below", "from underneath"}
	runsDown  = []string{"drips", "dripping", "weeps", "weeping", "seeps", "seeping", "leaks", "leaking", "runs", "running", "comes"}
	coolantOf = "coolant|antifreeze|water|drips|dripping|drip|weeps|weeping|seeps|leaks|leaking|wet|runs"
)

// MayHaveWetLiners reports an engine whose cylinders may be liners that stand in the coolant: it
// is said to have liners, or it is a diesel of the size or the kind that mostly has them.
func (c *Case) MayHaveWetLiners() bool { return remembered(&c.lined, c.mayBeLined) }

func (c *Case) mayBeLined() bool {
	if c.AirCooled() || c.Rotary() {
		return false
	}
	large := c.Spec.Diesel() && (c.CylinderML() >= linerCylinder || c.CylinderML() == 0 && c.described(linered))
	return large || strings.Contains(strings.ToLower(c.History.Vehicle), "liner") || c.linerSaid()
}

// linerSaid is a liner that the pressure test or the technician's findings speak of.
func (c *Case) linerSaid() bool {
	return slices.ContainsFunc(c.coolantSeen(), func(line string) bool {
		text := strings.ToLower(line)
		return slices.ContainsFunc(liners, func(w string) bool { return strings.Contains(text, w) })
	})
}

// coolantSeen are the words of where coolant was seen, as they were written: as the system was
// pumped up, and the lines of the technician's findings that speak of it.
func (c *Case) coolantSeen() []string { return remembered(&c.coolantWet, c.wordsOfCoolant) }

func (c *Case) wordsOfCoolant() []string {
	var texts []string
	if r := c.Measured(Cooling); r != nil {
		texts = append(texts, r.Word("pressure-test seen"))
	}
	for _, line := range c.History.Findings {
		if SpeaksOf(strings.ToLower(line), "coolant", "antifreeze", "water") {
			texts = append(texts, line)
		}
	}
	return texts
}

// seenBelow is a text that tells of coolant which comes out at a liner or runs into the oil pan.
func seenBelow(text string) bool {
	below := seenFromBelow.MatchString(text) && SpeaksOf(text, liners...) && SpeaksOf(text, runsDown...)
	return below || SpeaksOf(text, underPan...) || SpeaksOf(text, pairs(strings.Join(liners, "|"), coolantOf)...)
}

// CoolantSeenBelow is what was written of coolant that comes out at a liner or runs into the oil
// pan, seen as the system was pumped up or by eye; "" where nothing was.
func (c *Case) CoolantSeenBelow() string { return remembered(&c.wetBelow, c.seenBelow) }

func (c *Case) seenBelow() string {
	if c.AirCooled() || c.Rotary() {
		return ""
	}
	for _, line := range c.coolantSeen() {
		if text := strings.ToLower(line); seenBelow(text) && SpeaksOf(text, strings.Split(coolantOf, "|")...) {
			return line
		}
	}
	return ""
}

func (c *Case) coolantBelow() bool { return c.CoolantSeenBelow() != "" }

// LinerWet are the cylinders whose liner was seen to let coolant out; none where it is not known
// which.
func (c *Case) LinerWet() []string {
	var names []string
	for _, line := range c.coolantSeen() {
		text := strings.ToLower(line)
		if !seenBelow(text) {
			continue
		}
		for _, n := range c.namedIn(text) {
			if !slices.Contains(names, n) {
				names = append(names, n)
			}
		}
	}
	return names
}

// Conditions on liners.
var (
	CoolantBelow = OfEngine("coolant seen to come out at a liner, or to run into the oil pan", (*Case).coolantBelow)
	LinerKnown   = OfEngine("the cylinder named whose liner it comes from", func(c *Case) bool { return c.coolantBelow() && len(c.LinerWet()) > 0 && c.linerSaid() })
	WetLiners    = OfEngine("liners that may stand in the coolant: a large diesel, or liners spoken of", (*Case).MayHaveWetLiners)
)

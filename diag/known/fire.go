package known

import (
	"slices"
	"strings"
)

// glowing are words of an exhaust so hot that it shows in the dark.
var glowing = pairs("catalyst|catalytic|converter|cat|exhaust|muffler|silencer|manifold|header|headers|downpipe|tailpipe|front pipe|under the floor|underneath|under the car", "glows|glowing|glowed|glow red|glow cherry|red hot|red-hot|cherry red|cherry-red")

// ExhaustGlows is that, told by whoever drove it or has it in hand.
var ExhaustGlows = OfEngine("an exhaust or a catalyst that glows, among what is told or found", func(c *Case) bool {
	return slices.ContainsFunc(c.everySaying(), func(text string) bool {
		hot := strings.Contains(text, "glow") || strings.Contains(text, "red") // few texts have either
		return hot && SpeaksOf(text, glowing...) && !mended(text)
	})
})

// fuelSmelled are words of fuel in the air, which is not where it belongs.
var fuelSmelled = pairs("smell|stink|reek|odor|odour", "fuel|petrol|gasoline|raw gas|gas fumes|fuel vapor")

// smelling are what all of these begin with: few texts have one.
var smelling = firstOf(fuelSmelled)

// smellsInside are where fuel is smelled that did not get out.
var smellsInside = []string{"oil", "dipstick", "exhaust", "tailpipe", "plug", "spark", "coolant", "crankcase", "smoke"}

// FuelInTheAir is a smell of fuel that nobody says to come from within.
var FuelInTheAir = OfEngine("a smell of fuel, not of its oil, its exhaust or a plug, among what is told or found", func(c *Case) bool {
	return !c.Spec.Diesel() && slices.ContainsFunc(c.everySaying(), func(text string) bool {
		smells := slices.ContainsFunc(smelling, func(word string) bool { return strings.Contains(text, word) })
		return smells && SpeaksOf(text, fuelSmelled...) && !SpeaksOf(text, smellsInside...)
	})
})

// everySaying is all that is told of the engine, each in small letters: how the trouble came on,
// how it came in, what the customer said of it, and what the technician found.
func (c *Case) everySaying() []string {
	h := &c.History
	if h.Onset == "" && h.Arrival == "" && len(h.Said)+len(h.Findings) == 0 {
		return nil
	}
	return remembered(&c.sayings, func() []string {
		said := append([]string{h.Onset, h.Arrival}, slices.Concat(h.Said, h.Findings)...)
		for i, text := range said {
			said[i] = strings.ToLower(text)
		}
		return said
	})
}

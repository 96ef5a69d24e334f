package rule

import (
	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// fuelStood is on the fuel of an engine that stood: the commonest reason why a small engine does not
// start, or hunts, after a season, and the cheapest to put right.
var fuelStood = []Rule{{
	Name: "fuel-stood", Title: "The fuel stood in it, and it starts or idles badly since", Class: Elsewhere, About: diag.AboutMixture,
	Why: "Gasoline loses within months what lights it, and what is left dries to gum in the jets of a carburetor. Fresh fuel and a clean bowl cost little and are tried before anything inside the engine is suspected; " +
		"rings and valves that stood as long stay provisional until it has run.",
	Source: "common practice, no source",
	Of:     theEngine, When: known.FuelStood, Kind: OfHistory, Weigh: stoodFuelVoices,
	Say: func(c *known.Case, _ known.Subject) diag.Finding {
		return diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Fair,
			Facts: diag.Facts{"months": monthsStood(c), "reading": c.Fires(), "carburetted": c.Carburetted(), "starts": c.Starts(), "mix": c.Ported()}}
	}, Headline: "fuel-stood", Before: true, InsteadOf: []string{"sealing-sound-look-elsewhere"},
}}

// stoodFuelVoices: what gums up is what meters the fuel; of one that does not start its spark is
// as open.
func stoodFuelVoices(c *known.Case, _ known.Subject) []Voice {
	list := speaks(Known+Hint, "bad-fuel")
	if c.Carburetted() {
		list = append(list, speaks(Known, "carburettor")...)
	} else {
		list = append(list, speaks(DryUp, "pump", "fuel-filter", "dirty-injectors")...)
	}
	return append(list, where(c.Complains("no start", "hard start"), speaks(DryUp, "ignition"))...)
}

package story_test

import (
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
	"gaugesheet/diag/rule/sample"
	"gaugesheet/diag/story"
)

// TestStoppedBySystem: oil without pressure that smells of fuel, in an engine that runs rich,
// is a story of the oil, which is what it stops for; with a pressure that is low it is one of
// the mixture that thins it.
func TestStoppedBySystem(t *testing.T) {
	for _, tt := range []struct {
		idling float64
		about  diag.About
		urgent diag.Urgency
	}{{0, diag.AboutSystem, diag.DoNotRun}, {7, diag.AboutMixture, diag.ActSoon}} {
		d := story.WithoutPlan(sample.Of("inline-4",
			sample.Test("oil-pressure", quantity.PSI, sample.Ticked("gauge", "screwed in"), sample.At("idle", "750 rpm", tt.idling), sample.At("at-speed", "3000 rpm", 31),
				sample.Permits("idle", "", 10, sample.NoMost), sample.Ticked("oil smell", "fuel")),
			sample.Test("trims", quantity.Percent, sample.At("trim long", "idle bank 1", -15), sample.At("trim long", "2500 rpm bank 1", 2))))
		if s := d.Stories[0]; s.About != tt.about || s.Urgency != tt.urgent {
			t.Errorf("%v psi at idle: about %s, %s; want about %s, %s", tt.idling, s.About, s.Urgency, tt.about, tt.urgent)
		}
	}
}

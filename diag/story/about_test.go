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

// TestOneStoryOfOneCylinder: what a figure in a doubted unit says of an engine's only cylinder
// is told of the engine, beside what was heard in that cylinder; in a unit that nobody doubts
// the two are one story.
func TestOneStoryOfOneCylinder(t *testing.T) {
	doubt := func(t *diag.Test) {
		t.Noted = append(t.Noted, diag.Notice{Rule: "unit-suspect", Facts: diag.Facts{"section": "compression", "value": "20 psi", "looks": "bar"}})
	}
	for name, changes := range map[string][]sample.Change{
		"doubted": {sample.Diesel, sample.Minimum(20), sample.Leak("1", 55, "outside"), doubt},
		"plain":   {sample.Minimum(120), sample.Leak("1", 55, "outside")},
	} {
		reads := map[string]float64{"doubted": 20, "plain": 121}[name]
		about := 0
		for _, s := range story.WithoutPlan(sample.Dry("single", []float64{reads}, changes...)).Stories {
			if s.About == diag.AboutCylinders {
				about++
			}
		}
		if about != 1 {
			t.Errorf("%s: %d stories are about the cylinder, want one", name, about)
		}
	}
}

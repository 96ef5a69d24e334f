package ask

import (
	"slices"
	"strings"
	"testing"
)

// TestNotes: what stands on paper in five hands, typed as it stands there, becomes
// the job that it says, with Enter for what is not there and for what was meant.
func TestNotes(t *testing.T) {
	for _, n := range []struct {
		name     string
		answers  []string
		want     []string // lines of the job file
		corrects int      // answers that had to be given again, at most
	}{
		{name: "an owner's twin", answers: []string{"parallel twin 650", "petrol", "", "14 May", "commuter bike", "hard to start", "", "1 tan 2 sooty", "cold", "open", "all", "", "145 98", "", "", "", "", ""},
			want: []string{"date: 2026-05-14", "complaints: [hard start]", "displacement: 650 cc", "layout: inline-2", "unit: psi", "dry: {1: 145, 2: 98}", "looks: {1: normal, 2: sooty}"}},
		{name: "a German four", answers: []string{"reihe 4 1,6 benzin", "", "W-12", "14.5.26", "2011 estate", "rough since the belt", "n/t", "", "cold", "open", "all", "6", "10,3 10,2 7,6 10,4 bar", "8,5", "", "",
			"leakage", "8% 7% 34% exhaust 9%", "20 %", "wet", "3=7,9", "5 ml", ""},
			want: []string{"reason: rough since the belt", "displacement: 1.6 L", "fuel: petrol", "fuel-pressure: n/t", `dry: {1: "10,3", 2: "10,2", 3: "7,6", 4: "10,4"}`, `wet: {3: "7,9"}`, "3: {loss: 34 %, at: [exhaust]}"}, corrects: 1},
		{name: "a boat's diesel", answers: []string{"straight six diesel turbo 5.9", "HM-1", "5/14/26", "work boat", "blue smoke, oil use", "not tested", "hot", "6", "410 405 400 300 405 415", "", "300", "50 psi", "engine manual p 6", ""},
			want: []string{"layout: inline-6", "charging: turbo", "complaints: [oil use]", "colour: blue", "minimum: 300", "difference: 50 psi", "4: 300"}},
		{name: "a slipped figure", answers: []string{"v6, bank by bank, front", "gas", "7", "y", "2006 people carrier", "misfire", "", "normal", "w", "wot", "a", "5 puffs", "148 150 1420 149 147 151 psi", "", "128", "10%", "manual", ""},
			want: []string{"numbering: bank by bank", "first-bank: front", "3: 142,", "spread: 10%", "strokes: 5 puffs"}, corrects: 1},
		{name: "a rotary", answers: []string{"rotary-2", "petrol", "R-3", "t", "coupe", "no power", "", "", "hot", "open", "all", "7.4 7.2 7.3 7.0 6.9 5.1 kgf/cm2", "6.9", "manual p 3", ""},
			want: []string{"layout: rotary-2", "complaints: [low power]", "unit: kgf/cm2", "[7.4, 7.2, 7.3]", "[7.0, 6.9, 5.1]"}},
	} {
		keys := 0
		for _, a := range n.answers {
			keys += len(a) + 1
		}
		r, said := session(t, "", n.answers...)
		if r.Job == nil || !r.Ended {
			t.Errorf("%s: %v\n%s\n%s", n.name, r.Lacks, r.File, said)
			continue
		}
		missing := slices.DeleteFunc(slices.Clone(n.want), func(line string) bool { return strings.Contains(string(r.File), line) })
		if len(missing) > 0 {
			t.Errorf("%s: without %q\n%s\n%s", n.name, missing, r.File, said)
		}
		const key, question = 0.28, 1.35 // seconds for a key and to think: the keystroke-level model, a mean typist
		seconds := float64(keys)*key + float64(r.Asked)*question
		if again := strings.Count(said, "expected ") + strings.Count(said, "more than"); seconds > 120 || again > n.corrects {
			t.Errorf("%s: %.0f s, %d answers again\n%s", n.name, seconds, again, said)
		}
		t.Logf("%s: %d keys and %d questions take %.0f s", n.name, keys, r.Asked, seconds)
	}
}

// What is said of an engine in one line is not asked for again, and what is not
// said is.
func TestEngineLine(t *testing.T) {
	for _, tt := range []struct {
		line  string
		asks  string // among what is said
		never string
	}{
		{"v8 odd left", "Fuel (", "Which is it"},
		{"V8 5.7 gas (across banks, left)", "Job number", "Which is it"},
		{"v8 left", "Which is it", ""},
		{"petrol", "how do they stand?", "Fuel ("},
	} {
		_, said := session(t, "", tt.line)
		if !strings.Contains(said, tt.asks) || tt.never != "" && strings.Contains(said, tt.never) {
			t.Errorf("%s: without %q, or with %q\n%s", tt.line, tt.asks, tt.never, said)
		}
	}
}

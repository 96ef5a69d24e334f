package story_test

import (
	"strings"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/rule/sample"
	"gaugesheet/diag/story"
)

// TestSeenLeads: a fault that was seen is not looked for again, and a mark that
// several things leave is; what was measured against it counts: common practice,
// no source.
func TestSeenLeads(t *testing.T) {
	low := []float64{160, 158, 95, 161}
	wet := sample.Wet(map[string]float64{"1": 164, "3": 140})
	bore := func(b diag.Bore) sample.Change {
		return func(t *diag.Test) { t.Bores = map[string]diag.Bore{"3": b} }
	}
	for _, tt := range []struct {
		name  string
		test  *diag.Test
		first string
		asks  bool
	}{
		{"a scored wall", sample.Dry("inline-4", low, bore(diag.Bore{Wall: "scored"})), "scored-bore", false},
		{"a scored wall, and oil lifts it", sample.Dry("inline-4", low, wet, bore(diag.Bore{Wall: "scored"}), sample.Plug("oil-wet", "3")), "scored-bore", false},
		{"a scored wall, nothing else tested but a plug", sample.Of("inline-4", sample.Looks("normal", "normal", "oil-wet", "normal"), bore(diag.Bore{Wall: "scored"})), "scored-bore", true}, // by what it loses, before it is opened
		{"a burnt valve, and air at it", sample.Dry("inline-4", low, sample.Leak("3", 60, "exhaust"), bore(diag.Bore{Valves: "burnt"})), "exhaust-valve", false},
		{"a hole and a scored wall, and metal on the plug", sample.Dry("inline-4", low, sample.Plug("detonation", "3"), bore(diag.Bore{Wall: "scored", Crown: "holed"})), "holed-piston", false},
		{"carbon on the seat, and air at it", sample.Dry("inline-4", low, sample.Leak("3", 18, "inlet"), bore(diag.Bore{Seat: "carbon"})), "carbon-on-seat", true}, // it is cleaned,
		{"carbon on the seat, no air heard", sample.Dry("inline-4", low, bore(diag.Bore{Seat: "carbon"})), "", true},
		{"a marked crown", sample.Dry("inline-4", low, bore(diag.Bore{Crown: "marked"})), "", true},
		{"a scored wall that holds its air", sample.Dry("inline-4", low, sample.Leak("3", 5), bore(diag.Bore{Wall: "scored"})), "", true},
		{"a burnt valve that was replaced", sample.Dry("inline-4", low, sample.Done("cylinder 3 burnt valve replaced")), "", true},
		{"a burnt valve that was found", sample.Dry("inline-4", low, sample.Known(func(h *diag.History) { h.Findings = []string{"cylinder 3 exhaust valve burnt, valve chipped"} })), "exhaust-valve", false},
		{"a good wall", sample.Dry("inline-4", low, bore(diag.Bore{Wall: "good"})), "exhaust-valve", true},
	} {
		s := story.WithoutPlan(tt.test).Stories[0]
		if tt.first != "" && (len(s.Causes) == 0 || s.Causes[0].Key != tt.first) {
			t.Errorf("%s: %v, want %s first", tt.name, keys(s.Causes), tt.first)
		}
		if asks := s.Next != nil; asks != tt.asks {
			t.Errorf("%s: asks for a check %v, want %v", tt.name, asks, tt.asks)
		}
	}
}

// TestNotAcquitted: a check rules out what it would have shown, and no more. That
// no air comes across to a neighbour says nothing of a gasket that leaks into the
// coolant, and that the injectors deliver alike nothing of one that drips: common
// practice, no source.
func TestNotAcquitted(t *testing.T) {
	pair, across := []float64{150, 84, 79, 151}, sample.Done("leak-down-pair done on 2 and 3: none comes across")
	gas := func(t *diag.Test) { t.CoolantGas = "positive" }
	drips := []sample.Change{sample.Looks("normal", "fuel-wet", "normal", "normal"), sample.Complains("rich running"),
		sample.Fuel("port, return line", diag.Circuit{KeyOn: sample.PSI(41), Hold: []diag.HoldReading{sample.Held(5, 10)}, Limits: []diag.FuelLimit{sample.Range("key-on", 38, 44)}})}
	for _, tt := range []struct {
		name      string
		test      *diag.Test
		in, out   string // among the causes of the first story that weigh, and not
		beginning string // the cause that leads; "" is not asked
	}{
		{name: "no air across, gas in the coolant", test: sample.Dry("inline-4", pair, across, gas), beginning: "head-gasket"},
		{name: "no air across", test: sample.Dry("inline-4", pair, across), out: "head-gasket"},
		{name: "air across", test: sample.Dry("inline-4", pair, sample.Done("leak-down-pair done on 2 and 3: air comes across")), beginning: "head-gasket"},
		{name: "injectors alike", test: sample.Of("inline-4", append(drips, sample.Done("injector-balance done: all alike"))...), in: "leaking-injector", out: "own-injector"},
		{name: "injectors that none drips", test: sample.Of("inline-4", append(drips, sample.Done("injector-drip done: none drips"))...), out: "leaking-injector"},
	} {
		s := story.WithoutPlan(tt.test).Stories[0]
		shown := strings.Join(keys(s.Causes), " ")
		if tt.beginning != "" && !strings.HasPrefix(shown, tt.beginning) {
			t.Errorf("%s: %s, want %s first", tt.name, shown, tt.beginning)
		}
		if tt.in != "" && !strings.Contains(shown, tt.in) || tt.out != "" && strings.Contains(shown, tt.out) {
			t.Errorf("%s: %s, want %q and not %q", tt.name, shown, tt.in, tt.out)
		}
	}
}

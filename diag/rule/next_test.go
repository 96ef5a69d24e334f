package rule

import (
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/rule/sample"
)

// TestNextCheck holds the sheet's one next check against what the trade does
// first: common practice, no source.
func TestNextCheck(t *testing.T) {
	even, low := []float64{150, 152, 148, 151}, []float64{150, 152, 100, 151}
	lowFuel := sample.Fuel("port, return line", diag.Circuit{KeyOn: sample.PSI(31), Limits: []diag.FuelLimit{sample.Range("key-on", 38, 44)}})
	noFuel := sample.Fuel("port, return line", diag.Circuit{KeyOn: sample.PSI(0)})
	closed := sample.Method(func(k *diag.Conditions) { k.Throttle = "closed" })
	unsure := sample.Method(func(k *diag.Conditions) { k.Throttle = "not sure" })
	unrecorded := sample.Method(func(k *diag.Conditions) { k.Throttle = "" })
	tests := []struct {
		name string
		test *diag.Test
		want string // "" for none
	}{
		{"sound, no complaint", sample.Dry("inline-4", even, sample.Minimum(128)), ""},
		{"sound, misfire: the spark", sample.Dry("inline-4", even, sample.Complains("misfire")), "swap-coil"},
		{"coil exchanged already", sample.Dry("inline-4", even, sample.Complains("misfire"), sample.Done("coil on 3 swapped with 2")), "injector-balance"},
		{"one low: the wet test is cheapest", sample.Dry("inline-4", low), "wet-test"},
		{"one low, wet test done", sample.Dry("inline-4", low, sample.Wet(map[string]float64{"3": 102, "1": 155})), "leak-down"},
		{"one low, leak-down said to be done", sample.Dry("inline-4", low, sample.Wet(map[string]float64{"3": 102, "1": 155}), sample.Done("leak-down done")), "borescope"},
		{"one low on a flat engine: no wet test", sample.Dry("flat-4", low), "leak-down"},
		{"one low on a two-stroke: no wet test", sample.Dry("inline-4", low, sample.TwoStroke), "leak-down"},
		{"exhaust hiss: lash first", sample.Dry("inline-4", low, sample.Leak("3", 34, "exhaust")), "valve-lash"},
		{"exhaust hiss, lash set", sample.Dry("inline-4", low, sample.Leak("3", 34, "exhaust"), sample.Done("valve lash set to book")), "borescope"},
		{"throttle closed: repeat", sample.Dry("inline-4", even, closed), "repeat-method"},
		{"throttle not sure and one low: repeat", sample.Dry("inline-4", low, unsure), "repeat-method"},
		{"falls in test order: charger", sample.Dry("inline-4", []float64{160, 156, 151, 147}, sample.Order("1", "2", "3", "4")), "repeat-with-charger"},
		{"all low, the method in order: the gauge", sample.Dry("inline-4", []float64{100, 102, 98, 101}, sample.Minimum(128)), "second-gauge"},
		{"all low, the throttle not recorded: repeat", sample.Dry("inline-4", []float64{100, 102, 98, 101}, sample.Minimum(128), unrecorded), "repeat-method"},
		{"all low and flooded: dry it", sample.Dry("inline-4", []float64{100, 102, 98, 101}, sample.Minimum(128), sample.Plug("fuel-wet", "1", "2", "3", "4")), "dry-and-repeat"},
		{"melted plug comes before a doubtful test", sample.Dry("inline-4", low, unsure, sample.Plug("melted", "2")), "borescope"},
		{"fuel low: the return", sample.Of("inline-4", lowFuel), "restrict-return"},
		{"no fuel: the pump's volts", sample.Of("inline-4", noFuel), "pump-volts"},
		{"rich but low: the hose", sample.Of("inline-4", sample.Complains("rich running"), lowFuel), "hose-for-fuel"},
		{"cylinders left out", sample.Dry("inline-4", even, sample.Unread("4")), "complete-set"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			d := Diagnose(tt.test)
			got := ""
			if d.Next != nil {
				got = d.Next.Key
			}
			if got != tt.want {
				t.Errorf("next check %q, want %q; found %v", got, tt.want, found(d))
			}
			if d.NextFor >= len(d.Findings) || d.Next == nil && d.NextFor != -1 {
				t.Errorf("the next check settles finding %d of %d", d.NextFor, len(d.Findings))
			}
		})
	}
}

// TestNoCheckIsProposedTwice asks that what the readings hold, or the job says
// was done, is never proposed, in any sample.
func TestNoCheckIsProposedTwice(t *testing.T) {
	for _, s := range sample.Cases() {
		c := &Case{Test: s.Test, Sums: diag.Assess(s.Test)}
		d := Diagnose(s.Test)
		for _, f := range d.Findings {
			if f.Next != nil && c.doneOn(f.Next.Key, f.Next.Facts["Cylinders"].(diag.Names)) {
				t.Errorf("%s: %s proposes %s, which was made or tells nothing here", s.Name, f.Rule, f.Next.Key)
			}
		}
	}
}

func TestEveryCheckHasATime(t *testing.T) {
	for _, key := range Vocabulary()["checks"] {
		if minutesFor(key) <= 0 {
			t.Errorf("%s: no time", key)
		}
	}
}

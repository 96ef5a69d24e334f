package rule_test

import (
	"slices"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
	"gaugesheet/diag/rule/sample"
	"gaugesheet/diag/story"
)

// TestReadOnceFurther: a figure that alone goes against the others of its test is
// asked for again, and one that goes with them, or with a fault of its own kind, is
// not. How far is judgement, no source.
func TestReadOnceFurther(t *testing.T) {
	fuel := func(k diag.Circuit) *diag.Test {
		return sample.Of("inline-4", sample.Fuel("port, return line", k))
	}
	oilAt := func(idle, speed float64) *diag.Test {
		return sample.Of("inline-4", oil(sample.Ticked("gauge", "screwed in"), sample.At("idle", "750 rpm", idle), sample.At("at-speed", "3000 rpm", speed)))
	}
	flow := func(values ...float64) *diag.Test {
		return sample.Of("inline-4", sample.Test("injectors", quantity.MlPerMin, sample.Each("before", values...)))
	}
	cleaned := func(before, after []float64) *diag.Test {
		return sample.Of("inline-4", sample.Test("injectors", quantity.MlPerMin, sample.Each("before", before...), sample.Each("after", after...)))
	}
	dry := []float64{160, 158, 120, 157}
	held := func(one, five float64) diag.Circuit {
		return diag.Circuit{KeyOn: sample.PSI(42), Hold: []diag.HoldReading{sample.Held(1, one), sample.Held(5, five)}}
	}
	limits := []diag.FuelLimit{sample.Range("key-on", 38, 44), sample.Range("idle", 30, 36)}
	for _, one := range []struct {
		name string
		test *diag.Test
		want string // the variant; "" for no such notice
	}{
		{"key on alone low", fuel(diag.Circuit{KeyOn: sample.PSI(32), Idle: sample.PSI(34), HoseOff: sample.PSI(43)}), "further"},
		{"key on alone high", fuel(diag.Circuit{KeyOn: sample.PSI(62), Idle: sample.PSI(34), HoseOff: sample.PSI(43)}), "further"},
		{"hose off under idle", fuel(diag.Circuit{KeyOn: sample.PSI(42), Idle: sample.PSI(34), HoseOff: sample.PSI(13)}), "further"},
		{"alone past its limit", fuel(diag.Circuit{KeyOn: sample.PSI(36), Idle: sample.PSI(33), Limits: limits}), "further"},
		{"both under their limits", fuel(diag.Circuit{KeyOn: sample.PSI(30), Idle: sample.PSI(22), Limits: limits}), ""},
		{"a regulator that does not follow", fuel(diag.Circuit{KeyOn: sample.PSI(42), Idle: sample.PSI(42), HoseOff: sample.PSI(42)}), ""},
		{"all as they should be", fuel(diag.Circuit{KeyOn: sample.PSI(42), Idle: sample.PSI(34), HoseOff: sample.PSI(43), Hold: []diag.HoldReading{sample.Held(1, 41), sample.Held(5, 38)}}), ""},
		{"held pressure that comes back", fuel(held(11, 38)), "further"},
		{"held pressure that falls faster than it began", fuel(held(41, 8)), "further"},
		{"held pressure that leaks off", fuel(held(30, 4)), ""},
		{"oil lower at speed", oilAt(24, 7), "further"},
		{"oil that rises too far", oilAt(2, 47), "further"},
		{"worn bearings", oilAt(5, 20), ""},
		{"one injector apart", flow(209, 212, 309, 211), "further"},
		{"one apart after cleaning", cleaned([]float64{188, 212, 206, 209}, []float64{229, 212, 210, 211}), "further"},
		{"one a little apart, not cleaned", flow(209, 222, 210, 211), ""},
		{"one that gives less after cleaning", cleaned([]float64{188, 212, 206, 209}, []float64{109, 212, 210, 211}), "further"},
		{"one that stayed low", cleaned([]float64{188, 212, 206, 209}, []float64{192, 212, 210, 211}), ""},
		{"all alike after cleaning", cleaned([]float64{188, 212, 206, 209}, []float64{209, 212, 210, 211}), ""},
		{"injectors that scatter", flow(180, 212, 240, 211), ""},
		{"one clearance apart", sample.Dry("inline-4", []float64{150, 151, 149, 150}, sample.Test("valves", quantity.Millimetre, sample.Each("exhaust", 0.3, 0.3, 0.03, 0.3))), "further"},
		{"one clearance apart, and low", sample.Dry("inline-4", []float64{150, 151, 90, 150}, sample.Repeats("3", 90, 91), sample.Test("valves", quantity.Millimetre, sample.Each("exhaust", 0.3, 0.3, 0.03, 0.3))), ""},
		{"one tight and low of six, and another apart", sample.Dry("inline-6", []float64{150, 151, 90, 150, 149, 152}, sample.Repeats("3", 90, 91), sample.Test("valves", quantity.Millimetre, sample.Each("exhaust", 0.3, 0.52, 0.03, 0.3, 0.3, 0.31))), "further"},
		{"speed falls far on one magneto", sample.Of("flat-4", sample.Test("magnetos", quantity.RPM, sample.At("left", "", 600), sample.At("right", "", 60))), "further"},
		{"speed falls on one magneto", sample.Of("flat-4", sample.Test("magnetos", quantity.RPM, sample.At("left", "", 240), sample.At("right", "", 60))), ""},
		{"one a little loose", sample.Dry("inline-4", []float64{150, 151, 149, 150}, sample.Test("valves", quantity.Millimetre, sample.Each("exhaust", 0.3, 0.3, 0.45, 0.3))), ""},
		{"one that loses and has the pressure", sample.Dry("inline-4", []float64{150, 151, 149, 150}, sample.Leak("1", 66), sample.Leak("2", 7), sample.Leak("3", 5)), "leakage"},
		{"one that loses and is low", sample.Dry("inline-4", []float64{150, 151, 90, 150}, sample.Leak("3", 66), sample.Leak("2", 7), sample.Leak("1", 5)), ""},
		{"lower with oil", sample.Dry("inline-4", dry, sample.Repeats("3", 120, 121), sample.Wet(map[string]float64{"3": 15, "1": 166})), "wet"},
		{"more than oil brings", sample.Dry("inline-4", dry, sample.Repeats("3", 120, 121), sample.Wet(map[string]float64{"3": 150, "1": 266})), "wet"},
		{"as oil does", sample.Dry("inline-4", dry, sample.Repeats("3", 120, 121), sample.Wet(map[string]float64{"3": 150, "1": 166})), ""},
	} {
		d := story.Diagnose(one.test)
		got := ""
		if i := slices.IndexFunc(d.Notices, func(n diag.Notice) bool { return n.Rule == "read-once" }); i >= 0 {
			got = d.Notices[i].Variant
		}
		if got != one.want {
			t.Errorf("%s: notice %q, expected %q", one.name, got, one.want)
		}
	}
}

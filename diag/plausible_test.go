package diag_test

import (
	"fmt"
	"math"
	"sort"
	"strings"
	"testing"

	. "gaugesheet/diag"
	"gaugesheet/diag/engine"
	"gaugesheet/diag/quantity"
)

// said writes notices with their facts in one order.
func said(notices []Notice) string {
	var lines []string
	for _, n := range notices {
		var facts []string
		for name, fact := range n.Facts {
			if s := fmt.Sprint(fact); s != "" && s != "[]" {
				facts = append(facts, name+"="+s)
			}
		}
		sort.Strings(facts)
		lines = append(lines, strings.Trim(n.Rule+"/"+n.Variant, "/")+fmt.Sprint(n.Cylinders)+" "+strings.Join(facts, " "))
	}
	return strings.Join(lines, "\n")
}

// in gives readings of an engine in line, in a unit.
func in(t *testing.T, unit quantity.Unit, values ...float64) *Test {
	test := cranked(t, values...)
	test.Compression.Unit = unit
	return test
}

func with(test *Test, change func(*Test)) *Test { change(test); return test }

func TestSuspects(t *testing.T) {
	own := Reading{State: Tested, Values: []float64{23.35}, Entered: "161 kPa", Unit: quantity.KPa}
	dial := &Gauge{Name: "dial A", High: 300}
	for _, tt := range []struct {
		name string
		test *Test
		want string
	}{
		{"sound", in(t, quantity.PSI, 160, 158, 62, 0), ""},
		{"a figure lost", in(t, quantity.PSI, 150, 15, 148, 149), "unit-suspect/digit[2] meant=150\u00a0psi section=compression unit=psi value=15\u00a0psi"},
		{"a figure lost beside a low one", in(t, quantity.PSI, 410, 40, 400, 300, 405, 415), "unit-suspect/digit[2] meant=400\u00a0psi section=compression unit=psi value=40\u00a0psi"},
		{"a point that slipped", in(t, quantity.PSI, 150, 1.5, 148, 149), "unit-suspect/digit[2] meant=150\u00a0psi section=compression unit=psi value=2\u00a0psi"},
		{"a dead cylinder", in(t, quantity.PSI, 150, 20, 148, 149), ""},
		{"dead, and read again", with(in(t, quantity.PSI, 150, 15, 148, 149), func(test *Test) {
			test.Compression.Again = map[string]Reading{"2": read(14)}
		}), ""},
		{"among others that differ", in(t, quantity.PSI, 150, 15, 60, 149), ""},
		{"weak everywhere", in(t, quantity.PSI, 25, 30, 28, 26), ""},
		{"dead everywhere", in(t, quantity.PSI, 0, 0, 0, 0), ""},
		{"bar as psi", in(t, quantity.PSI, 12, 11.5, 12, 12.5), "unit-suspect[] looks=bar section=compression unit=psi value=13\u00a0psi"},
		{"scattered, and the minimum in psi", limited(in(t, quantity.PSI, 5, 11.5, 17, 8), psi(Minimum, 120)), ""},
		{"scattered, and the minimum copied as psi too", limited(in(t, quantity.PSI, 5, 11.5, 17, 8), psi(Minimum, 9)), "unit-suspect[] looks=bar section=compression unit=psi value=17\u00a0psi"},
		{"one in its own unit", with(in(t, quantity.PSI, 160, 158, 0, 159), func(test *Test) { test.Compression.Dry["3"] = own }),
			"unit-suspect[3] looks=psi section=compression unit=kPa value=161\u00a0kPa"},
		{"a band in bar", with(in(t, quantity.PSI, 160, 158, 0, 159), func(test *Test) {
			test.Compression.Dry["3"] = Reading{State: Tested, Kind: Band, Values: []float64{11}, HalfWidth: 0.5, Entered: "10.5-11.5"}
		}), "unit-suspect[3] looks=bar section=compression unit=psi value=10.5\u00a0psi\nunit-suspect[3] looks=bar section=compression unit=psi value=11.5\u00a0psi"},
		{"not by the first stroke", with(in(t, quantity.PSI, 160, 158, 161, 159), func(test *Test) {
			test.Compression.First = map[string]Reading{"3": read(11.2)}
		}), ""},
		{"only first strokes", with(in(t, quantity.PSI, -1, -1), func(test *Test) {
			test.Compression.First = map[string]Reading{"1": read(9), "2": read(8)}
		}), "unit-suspect[] looks=bar section=compression unit=psi value=9\u00a0psi"},
		{"a diesel", with(in(t, quantity.PSI, 420, 430, 425, 428), func(test *Test) { test.Spec.Fuel = "diesel" }), ""},
		{"beyond the dial", with(in(t, quantity.PSI, 160, 320, 158, 161), func(test *Test) { test.Gauges.Compression = dial }),
			"reading-beyond-gauge[2] cylinders=[2] range=0-300\u00a0psi reading=dry section=compression unit=psi value=320\u00a0psi"},
		{"at the top of the dial", with(in(t, quantity.PSI, 160, 300, 158, 161), func(test *Test) { test.Gauges.Compression = dial }),
			"reading-beyond-gauge[2] cylinders=[2] range=0-300\u00a0psi reading=dry section=compression stop=true unit=psi value=300\u00a0psi"},
		{"no scale known", with(in(t, quantity.PSI, 160, 320, 158, 161), func(test *Test) { test.Gauges.Compression = &Gauge{} }), ""},
		{"wet beyond a dial in bar", with(in(t, quantity.Bar, 11, 11.5, 10.8, 11.2), func(test *Test) {
			test.Gauges.Compression = &Gauge{Low: 0, High: 12.5}
			test.Compression.Wet = map[string]Reading{"1": read(13)}
		}), "reading-beyond-gauge[1] cylinders=[1] range=0-12.5\u00a0bar reading=wet section=compression unit=bar value=13.0\u00a0bar"},
		{"running beyond the dial", with(in(t, quantity.PSI, 160, 158), func(test *Test) {
			test.Gauges.Compression = &Gauge{High: 200}
			test.Compression.Running = map[string]Running{"2": {Snap: pressure(210)}}
		}), "reading-beyond-gauge[2] cylinders=[2] range=0-200\u00a0psi reading=running section=compression unit=psi value=210\u00a0psi"},
		{"fuel beyond the dial", with(fuelled(Circuit{Name: "rear", KeyOn: pressure(65), Idle: pressure(45)}), func(test *Test) {
			test.Gauges.Fuel = &Gauge{High: 60}
		}), "reading-beyond-gauge[] circuit=rear range=0-60\u00a0psi reading=key-on section=fuel-pressure unit=psi value=65\u00a0psi"},
		{"fuel that has bled off", fuelled(Circuit{KeyOn: pressure(41), Hold: []HoldReading{{Minutes: 5, Reading: read(2)}}}), ""},
		{"a rotor's face", with(rotors(t, quantity.KPa, []float64{680, 7.1, 690}), func(test *Test) {}),
			"unit-suspect[front] looks=kgf/cm2 section=rotors unit=kPa value=7\u00a0kPa"},
	} {
		if got := said(tt.test.Suspects()); got != tt.want {
			t.Errorf("%s:\ngot  %s\nwant %s", tt.name, got, tt.want)
		}
	}
}

// TestMost: a compression of 15:1 over a spark, and a diesel of 25:1, stay
// below what is believed; so do the pumps of port injection (common practice,
// no source).
func TestMost(t *testing.T) {
	for _, tt := range []struct {
		name string
		most float64
		want float64
	}{
		{"petrol", UsualCompression(Spec{Fuel: "petrol"}, false).Most, 350},
		{"two-stroke", UsualCompression(Spec{Fuel: "two-stroke mix"}, false).Most, 350},
		{"gas", UsualCompression(Spec{Fuel: "cng"}, false).Most, 350},
		{"diesel", UsualCompression(Spec{Fuel: "diesel"}, false).Most, 700},
		{"not told", UsualCompression(Spec{}, false).Most, 700},
		{"not told, with plugs", UsualCompression(Spec{}, true).Most, 350},
		{"rotary", UsualRotors().Most, 350},
		{"petrol pressure", UsualFuel(Spec{Fuel: "petrol"}, "").Most, 120},
		{"petrol, direct", UsualFuel(Spec{Fuel: "petrol"}, "direct, low side").Most, math.Inf(1)},
		{"ethanol", UsualFuel(Spec{Fuel: "ethanol"}, "port, no return").Most, 120},
		{"at the ports", UsualFuel(Spec{}, "port, return line").Most, 120},
		{"gas pressure", UsualFuel(Spec{Fuel: "lpg"}, "").Most, math.Inf(1)},
		{"diesel pressure", UsualFuel(Spec{Fuel: "diesel"}, "diesel, lift pump").Most, math.Inf(1)},
		{"nothing told", UsualFuel(Spec{}, "").Most, math.Inf(1)},
	} {
		if tt.most != tt.want {
			t.Errorf("%s: %g psi, want %g", tt.name, tt.most, tt.want)
		}
	}
}

// A reading that its gauge cannot have shown is shown and not judged, and does
// not make the others look dead.
func TestBeyondTheGauge(t *testing.T) {
	test := cranked(t, 100, 420, 102, 101)
	test.Gauges.Compression = &Gauge{High: 300}
	test.Compression.Wet = map[string]Reading{"1": read(310), "2": read(430), "3": read(108)}
	test.Compression.Limits = []Limit{psi(Minimum, 90), percent(Lowest, 75, OfHighest)}
	c := Assess(test).Compression
	for _, r := range c.Cylinders {
		want := Even
		if r.Name == "2" {
			want = GradeNotJudged
		}
		if r.Grade != want || r.BeyondGauge != (r.Name == "2") || r.Dry == nil {
			t.Errorf("cylinder %s: %+v", r.Name, r)
		}
	}
	if c.N != 3 || c.Highest != 102 || c.Limits[0].Verdict != Within || c.Limits[1].Verdict != Within {
		t.Errorf("sums %+v", c)
	}
	if c.Cylinder("1").WetRise != nil || c.Cylinder("2").WetRise != nil || c.Cylinder("3").WetRise == nil {
		t.Errorf("rises with oil %v %v %v", c.Cylinder("1").WetRise, c.Cylinder("2").WetRise, c.Cylinder("3").WetRise)
	}

	test = rotors(t, quantity.KPa, []float64{690, 1600, 680})
	test.Gauges.Compression = &Gauge{High: 1500}
	if r := Assess(test).Rotors.Rotors[0]; r.Best != 690 || r.Grade[1] != GradeNotJudged || r.Grade[2] != Even || len(r.Values) != 3 {
		t.Errorf("rotor %+v", r)
	}

	fuel := fuelled(Circuit{KeyOn: pressure(65), Idle: pressure(33), HoseOff: pressure(70), Hold: []HoldReading{{Minutes: 1, Reading: read(64)}},
		Limits: []FuelLimit{{For: "key-on", Low: 35, High: 45}, {For: "idle", Low: 30, High: 40}, {For: "hold", Low: 70, High: math.Inf(1), Minutes: 1}}})
	fuel.Gauges.Fuel = &Gauge{High: 60}
	f := Assess(fuel).Fuel.Circuits[0]
	if f.Readings[0].Verdict != NotJudged || !f.Readings[0].BeyondGauge || f.Readings[1].Verdict != Within || f.RegulatorRise != nil ||
		f.InjectorFlowPercent != nil || f.Hold[0].Verdict != NotJudged {
		t.Errorf("fuel %+v", f)
	}
}

func TestSuspectsOfAnyTest(t *testing.T) {
	odd := map[string]Reading{"1": {State: Tested}, "2": read(math.NaN(), math.Inf(1)), "3": {State: Tested, Kind: Band}}
	for _, test := range []*Test{{}, {Compression: &Compression{}, Rotors: &Rotors{}, Fuel: &FuelPressure{}},
		{Engine: inline(t, 3), Compression: &Compression{Unit: "stone", Dry: odd}, Gauges: Gauges{Compression: &Gauge{High: 1}}},
		{Engine: made(t, engine.Spec{Layout: "rotary-1"}), Rotors: &Rotors{Rotors: []Rotor{{Faces: []Reading{{}, read(math.NaN())}}}}}} {
		if got := test.Suspects(); len(got) != 0 {
			t.Errorf("%+v: %s", test, said(got))
		}
	}
}

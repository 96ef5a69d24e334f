package job

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"gaugesheet/diag/quantity"
)

// TestMeasured: the further tests are read as they are written, whatever way
// of writing them is taken.
func TestMeasured(t *testing.T) {
	const head = "engine: {layout: inline-4, fuel: petrol}\n"
	for _, tt := range []struct{ text, want string }{
		{"oil-pressure: {unit: bar, gauge: dash, idle: {reading: 1.1, at: 750 rpm}, at-speed: {2000 rpm: 2.3 bar, 3000 rpm: about 3}}",
			"idle at 750 rpm = 1.1 bar; at-speed at 2000 rpm = 2.3 bar; at-speed at 3000 rpm = 3 bar ~; gauge: dash"},
		{"oil-pressure: {idle: 16 psi at 750 rpm, limits: {idle: at least 10 psi, 3000 rpm: 44-78 psi}}",
			"idle at 750 rpm = 16 psi; limit idle 10..; limit at-speed 3000 rpm 44..78"},
		{"vacuum: {unit: inHg, idle: {reading: 18.5, needle: drops regularly, by: 4}, snap: {open: 2, shut: 24}, held: {at: 2500 rpm, reading: 19, later: 11, after: 20 s}}",
			"idle = 18.5 inHg; idle by = 4 inHg; snap open = 2 inHg; snap shut = 24 inHg; held at 2500 rpm = 19 inHg; held later at 2500 rpm = 11 inHg; held after at 2500 rpm = 20 s; idle needle: drops regularly"},
		{"trims: {idle: {bank 1: {short: 4, long: -14}}, 2500 rpm: {bank 1: {long: +3}}}",
			"trim short at idle bank 1 = 4 %; trim long at idle bank 1 = -14 %; trim long at 2500 rpm bank 1 = 3 %"},
		{"valves: {unit: mm, exhaust: {1: 0.30, 3: none}, lift: {inlet: {3: 6.1}}, limits: {lift-inlet: 9.2}}",
			"exhaust of 1 = 0.3 mm; lift inlet of 3 = 6.1 mm; exhaust of 3: none; limit lift inlet 9.2.."},
		{"timing: {base: 6 deg before at 700 rpm, cam: 4 deg late, limits: {cam: 3 deg}}",
			"base at 700 rpm = 6 deg; cam = -4 deg; limit cam -3..3"},
		{"diesel: {return: {unit: ml, in: 15 s, cylinders: {1: 12}}, glow: {unit: ohm, 1: 0.6, 2: open}, smoke: 1.1 1/m}",
			"return in = 15 s; return cylinders of 1 = 12 ml; glow of 1 = 0.6 ohm; smoke = 1.1 per m; glow of 2: open"},
		{"crankcase: {unit: mmH2O, ventilation: off, readings: {idle: -25, 2500 rpm: 90}, flow: 4.1 m3/h at 2000 rpm, limits: {2500 rpm: 100}}",
			"readings at idle = -25 mmH2O; readings at 2500 rpm = 90 mmH2O; flow at 2000 rpm = 4.1 m3/h; ventilation: off; limit readings 2500 rpm ..100"},
		{"injectors: {unit: ml/min, before: {1: 188, others: 210}, limits: {spread: 5 % of highest}}",
			"before of 1 = 188 ml/min; before of 2 = 210 ml/min; before of 3 = 210 ml/min; before of 4 = 210 ml/min; limit spread ..5 of highest"},
		{"magnetos: {at: 1800 rpm, left: 90, right: 48, limits: {drop: 150, difference: 50}}",
			"at = 1800 rpm; left = 90 rpm; right = 48 rpm; limit left ..150; limit right ..150; limit difference ..50"},
		{"magnetos: 90/48", "left = 90 rpm; right = 48 rpm"},
		{"magnetos: right 48 rpm, left 90 rpm", "left = 90 rpm; right = 48 rpm"},
		{"heads: {unit: F, magneto: left mag, 1: 331, 2: 325, 3: 205, 4: 328, limits: {temperature: 435}}",
			"temperature of 1 = 331 F; temperature of 2 = 325 F; temperature of 3 = 205 F; temperature of 4 = 328 F; magneto: left; limit temperature ..435"},
		{"heads: {unit: C, 3: 96, others: 166}",
			"temperature of 1 = 166 C; temperature of 2 = 166 C; temperature of 3 = 96 C; temperature of 4 = 166 C"},
		{"heads: [331 F, 325 F, 205 F, not tested]",
			"temperature of 1 = 166.1 C; temperature of 2 = 162.8 C; temperature of 3 = 96.11 C; temperature of 4 = 0 C"},
		{"heads: {unit: F, temperature: {1: 331, 3: could not test (no probe)}}",
			"temperature of 1 = 331 F; temperature of 3 = 0 F"},
		{"heads: declined", "declined"},
		{"magnetos: could not test (will not start)", "could not test (will not start)"},
		{"crankcase-hold: 6 psi to 5.5 in 10 min",
			"pumped-to = 6 psi; hold at 10 min = 5.5 psi"},
		{"crankcase-hold: fell from 0.4 to 0.38 bar in 600 s",
			"pumped-to = 0.4 bar; hold at 600 s = 0.38 bar"},
		{"crankcase-hold: {unit: kPa, pumped-to: 40, hold: {5 min: 39, 10 min: 38}, limits: {fall: 3}}",
			"pumped-to = 40 kPa; hold at 5 min = 39 kPa; hold at 10 min = 38 kPa; limit fall ..3"},
		{"other-readings: [{name: charging voltage, reading: 14.2 V, limit: 13.8-14.6 V}]",
			"charging voltage = 14.2 V; limit charging voltage 13.8..14.6"},
		{"other-readings: [{name: oil in the gearbox, reading: 4-5 bar}, {name: battery, reading: over 12 V}, {name: rail, reading: 4 bar (58 psi)}]",
			"oil in the gearbox = 4.5 bar ~; battery = 12 V ~; rail = 4 bar"},
		{"cooling: declined", "declined"},
		{"vacuum: {unit: inHg, idle: could not test (no tapping)}", "could not test (no tapping)"},
	} {
		j, err := Read("job.yaml", []byte(head+"compression: {unit: psi, dry: [160, 160, 160, 160]}\n"+tt.text), nil)
		if err != nil {
			t.Errorf("%s: %v", tt.text, err)
			continue
		}
		if diff := cmp.Diff(tt.want, measuredText(j)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", tt.text, diff)
		}
	}
}

func measuredText(j *Job) string {
	var parts []string
	for _, m := range j.Test().Measured {
		if m.State != "tested" {
			return strings.TrimSuffix(fmt.Sprintf("%s (%s)", m.State, m.Reason), " ()")
		}
		for _, r := range m.Readings {
			text := r.Name
			if r.Cylinder != "" {
				text += " of " + r.Cylinder
			}
			if r.At != "" {
				text += " at " + r.At
			}
			v, _ := r.Value()
			text = strings.TrimSpace(fmt.Sprintf("%s = %.4g %s", text, v, r.Unit))
			if r.Kind != 0 {
				text += " ~"
			}
			parts = append(parts, text)
		}
		for _, w := range m.Words {
			parts = append(parts, strings.Replace(fmt.Sprintf("%s of %s: %s", w.Name, w.Cylinder, w.Value), " of :", ":", 1))
		}
		for _, l := range m.Limits {
			text := strings.TrimSpace("limit " + l.For + " " + l.At)
			text += " "
			if l.Low > -1e9 {
				text += quantity.Format(l.Low, quantity.DecimalsRead(l.Low, 0))
			}
			text += ".."
			if l.High < 1e9 {
				text += quantity.Format(l.High, quantity.DecimalsRead(l.High, 0))
			}
			if l.Of != "" {
				text += " of " + l.Of
			}
			parts = append(parts, text)
		}
	}
	return strings.Join(parts, "; ")
}

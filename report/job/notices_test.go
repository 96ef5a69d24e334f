package job

import (
	"fmt"
	"sort"
	"strings"
	"testing"
)

// TestNotices: what reading a job gives rise to, and what it does not.
func TestNotices(t *testing.T) {
	petrol := "engine: {layout: inline-4, fuel: petrol}\n"
	compression := func(unit, dry string) string { return petrol + "compression: {unit: " + unit + ", dry: " + dry + "}\n" }
	for _, tt := range []struct{ name, text, want string }{
		{"usual psi", compression("psi", "[160, 158, 62, 0]"), ""},
		{"weak everywhere", compression("psi", "[25, 30, 28, 26]"), ""},
		{"dead everywhere", compression("psi", "[0, 0, 0, 0]"), ""},
		{"bar as psi", compression("psi", "[12, 11.5, 12, 12.5]"), "unit-suspect looks=bar section=compression unit=psi value=12.5\u00a0psi"},
		{"psi as kPa", compression("kPa", "[120, 122, 118, 121]"), "unit-suspect looks=psi section=compression unit=kPa value=122\u00a0kPa"},
		{"bar as kPa", compression("kPa", "[12, 11, 12, 12]"), "unit-suspect looks=bar section=compression unit=kPa value=12\u00a0kPa"},
		{"one of own unit", compression("psi", "{1: 160, 2: 158, 3: 161 kPa, 4: 159}"), "unit-suspect[3] looks=psi section=compression unit=kPa value=161\u00a0kPa"},
		{"kPa, one hardly anything", compression("kPa", "{1: 5.8, 2: 1100, 3: 1120, 4: 1100}"), "unit-suspect[1] looks=bar section=compression unit=kPa value=5.8\u00a0kPa"},
		{"psi, one looks like bar", compression("psi", "{1: 160, 2: 158, 3: 11.2 psi, 4: 159}"), "unit-suspect[3] looks=bar section=compression unit=psi value=11.2\u00a0psi"},
		{"psi, one bare looks like bar", compression("psi", "{1: 160, 2: 158, 3: 11.2, 4: 159}"), "unit-suspect[3] looks=bar section=compression unit=psi value=11.2\u00a0psi"},
		{"kPa, one looks like psi", compression("kPa", "{1: 1100, 2: 160, 3: 1120, 4: 1100}"), "unit-suspect[2] looks=psi section=compression unit=kPa value=160\u00a0kPa"},
		{"bar, two look like MPa", compression("bar", "{1: 11, 2: 1.12, 3: 1.08, 4: 11.5}"), "unit-suspect[2] looks=MPa section=compression unit=bar value=1.12\u00a0bar\n" +
			"unit-suspect[3] looks=MPa section=compression unit=bar value=1.08\u00a0bar"},
		{"a wet reading too", compression("psi", "{1: 160, 2: 158, 3: 150, 4: 159}, wet: {3: 11.2}"), "unit-suspect[3] looks=bar section=compression unit=psi value=11.2\u00a0psi"},
		{"one truly low", compression("psi", "{1: 120, 2: 122, 3: 25, 4: 118}"), ""},
		{"one nearly dead, on a division of the dial", compression("psi", "{1: 140, 2: 142, 3: 10, 4: 5}"), ""},
		{"a dead cylinder beside sound ones", compression("psi", "{1: 172, 2: 168, 3: 12, 4: 170}"), ""},
		{"next to nothing beside sound ones", compression("psi", "{1: 172, 2: 168, 3: 1, 4: 170}"), ""},
		{"a set of dead cylinders", compression("psi", "{1: 8.5, 2: 168, 3: 0, 4: 170.5}"), ""},
		{"one truly low in kPa", compression("kPa", "{1: 830, 2: 840, 3: 170, 4: 815}"), ""},
		{"one truly low in bar", compression("bar", "{1: 8.3, 2: 8.4, 3: 1.7, 4: 8.2}"), ""},
		{"one without pressure", compression("psi", "{1: 120, 2: 122, 3: no pressure, 4: 0}"), ""},
		{"a rotor's face", "engine: {layout: rotary-1}\nrotors: {unit: kPa, faces: {1: [680, 7.1, 690]}}\n", "unit-suspect[1] looks=kgf/cm2 section=rotors unit=kPa value=7.1\u00a0kPa"},
		{"a pump that is dead at idle", petrol + "fuel-pressure: {unit: psi, key-on: 41, idle: 3, hose-off: 42}\n", ""},
		{"diesel", "engine: {layout: inline-4, fuel: diesel}\ncompression: {unit: psi, dry: [420, 430, 425, 428]}\n", ""},
		{"rotary", "engine: {layout: rotary-2}\nrotors: {unit: kPa, faces: {1: [5.8, 5.9, 5.8], 2: [6.8, 6.8, 6.8]}}\n",
			"unit-suspect looks=kgf/cm2 section=rotors unit=kPa value=6.8\u00a0kPa"},
		{"rotary sound", "engine: {layout: rotary-1}\nrotors: {unit: kPa, faces: {1: [680, 700, 690]}}\n", ""},
		{"fuel in bar", petrol + "fuel-pressure: {unit: psi, system: \"port, return line\", key-on: 3, idle: 2.5}\n",
			"unit-suspect looks=bar section=fuel-pressure unit=psi value=3\u00a0psi"},
		{"fuel none", petrol + "fuel-pressure: {unit: psi, key-on: 0}\n", ""},
		{"dot for to", compression("psi", "[88, 85.90, 87, 90]"), "unit-suspect/range-with-dot[2] high=90\u00a0psi low=85\u00a0psi section=compression unit=psi value=85.90\u00a0psi"},
		{"dots everywhere", compression("kgf/cm2", "[11.20, 11.12, 10.90, 11.05]"), ""},
		{"dot far from the set", compression("psi", "[160, 85.90, 158, 161]"), ""},
		{"two units agree", compression("bar", "[11 bar (160 psi), 11, 11, 11]"), ""},
		{"two units disagree", compression("bar", "[24 bar (360 psi), 24, 24, 24]"),
			"units-contradict[1] converted=24.8\u00a0bar other=360\u00a0psi percent=3.3\u00a0% section=compression value=24\u00a0bar"},
		{"limit in two units", compression("kPa", "[1100, 1120, 1090, 1110], limits: {minimum: 689 kPa (1100 psi)}"),
			"units-contradict converted=7584\u00a0kPa other=1100\u00a0psi percent=90.9\u00a0% section=compression value=689\u00a0kPa"},
		// The number and its check digit are the worked example of 49 CFR 565.15(c).
		{"VIN right", petrol + "vehicle: {vin: 1M8GDM9AXKP042788}\ncompression: {unit: psi, dry: [160, 160, 160, 160]}\n", ""},
		{"VIN wrong", petrol + "vehicle: {vin: 1M8GDM9A1KP042788}\ncompression: {unit: psi, dry: [160, 160, 160, 160]}\n",
			"vin-check-digit expected=X found=1 vin=1M8GDM9A1KP042788"},
		{"VIN of elsewhere", petrol + "vehicle: {vin: WM8GDM9A1KP042788}\ncompression: {unit: psi, dry: [160, 160, 160, 160]}\n", ""},
		{"VIN short", petrol + "vehicle: {vin: 123456}\ncompression: {unit: psi, dry: [160, 160, 160, 160]}\n", ""},
		{"VIN with a letter O", petrol + "vehicle: {vin: 1M8GDM9AXKPO42788}\ncompression: {unit: psi, dry: [160, 160, 160, 160]}\n",
			"vin-check-digit/character problem=O vin=1M8GDM9AXKPO42788"},
	} {
		var got []string
		for _, n := range mustRead(t, tt.text).Test().Noted {
			line := n.Rule
			if n.Variant != "" {
				line += "/" + n.Variant
			}
			if len(n.Cylinders) > 0 {
				line += fmt.Sprint(n.Cylinders)
			}
			var facts []string
			for name, fact := range n.Facts {
				facts = append(facts, fmt.Sprintf("%s=%v", name, fact))
			}
			sort.Strings(facts)
			got = append(got, line+" "+strings.Join(facts, " "))
		}
		if s := strings.Join(got, "\n"); s != tt.want {
			t.Errorf("%s:\ngot  %s\nwant %s", tt.name, s, tt.want)
		}
	}
}

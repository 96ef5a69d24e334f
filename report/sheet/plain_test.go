package sheet_test

import (
	"strings"
	"testing"

	"gaugesheet/layout"
	"gaugesheet/layout/face"
	"gaugesheet/layout/figure"
	"gaugesheet/layout/record"
)

// What a page says of whom has to be plain from the page itself, whoever stands
// beside them.
func TestWhoIsMeantIsPlain(t *testing.T) {
	dead := "engine: {layout: V8, numbering: bank by bank, first-bank: left, fuel: petrol, lifters: hydraulic}\nconditions: {engine: warm, throttle: open, plugs-out: all, strokes: 6}\n" +
		"compression: {unit: psi, dry: [131, 128, 70, 72, 130, 0, 129, 131]}\n"
	square := "engine: {layout: custom, fuel: petrol, cylinders: [{name: front left, x: 0, y: 0, head: 1}, {name: front right, x: 1, y: 0, head: 1}, {name: rear left, x: 0, y: 1, head: 1}, {name: rear right, x: 1, y: 1, head: 1}]}\n" +
		"conditions: {engine: warm, throttle: open, plugs-out: all}\ncompression: {unit: psi, dry: {front left: 140, front right: 138, rear left: 88, rear right: 91}}\n" +
		"plugs: {looks: {front left: normal, front right: normal, rear left: coolant-wet, rear right: normal}}\n"
	rotary := "engine: {layout: rotary-3, fuel: petrol}\nconditions: {engine: hot, throttle: open}\n" +
		"rotors: {unit: bar, cranking: 250 rpm, faces: {front: [8.1, 8.0, 8.2], middle: [8.0, 7.9, 8.1], rear: [5.2, 5.0, 5.1]}, limits: {minimum: 6.9 bar, between-rotors: 1 bar}}\n"
	complaint := "job: {complaints: [oil use]}\nengine: {layout: inline-6, fuel: petrol}\nconditions: {engine: warm, throttle: open, plugs-out: all, strokes: 6}\n" +
		"compression: {unit: psi, dry: [131, 128, 70, 129, 130, 131]}\nplugs: {looks: {all: normal}}\n"
	for _, tt := range []struct{ name, data, has, hasNot string }{
		{"those beside a dead one that are low too", dead, "It reads 0 psi; those that are not low read 128–131 psi.", "the others read"},
		{"a finding on one of two", square, "The rear left cylinder: do not run until checked. Its plug", "cylinders: do not run until checked. Its"},
		{"a rotor by its place", rotary, "All faces of the rear rotor are low", "rotor rear"},
		{"the best of the rotors", rotary, "It is clearly lower than the best, the front rotor", "best (front)"},
		{"one of some", complaint, "Cylinder 3 makes less pressure than the others", "3 of 6"},
		{"a temperature as it was read", "engine: {layout: inline-4, fuel: petrol, cooling: liquid}\ncooling: {thermostat: {rated: 180 F, starts: 205 F}}\n", "at 205 °F and is marked 180 °F", "°C and"},
		{"none in the unit of the job", "engine: {layout: inline-4, fuel: petrol}\ncompression: {unit: bar, dry: [0, 0, 0, 0]}\n", "under about 1.7 bar (25 psi) counts as none", "25 psi (170 kPa)"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			page := strings.Join(strings.Fields(pageText(drawn(t, readJob(t, "plain.yaml", []byte(tt.data)), "customer", "letter"))), " ")
			if !strings.Contains(page, tt.has) {
				t.Errorf("%q is not said: %s", tt.has, page)
			}
			if strings.Contains(page, tt.hasNot) {
				t.Errorf("%q is said: %s", tt.hasNot, page)
			}
		})
	}
}

// An invoice says of each test what it came to once, in one way.
func TestResultsSayThingsOnce(t *testing.T) {
	data := "engine: {layout: inline-6, fuel: petrol}\nconditions: {engine: warm, throttle: open, plugs-out: all, strokes: 6}\n" +
		"compression: {unit: psi, dry: {1: [91, 92], 2: 142, 3: 145, 4: 100, 5: 141, 6: 146}, limits: {minimum: 108 psi}}\n" +
		"leakage: {limit: 20 %, dry: {1: {loss: 38 %}, 2: {loss: 9 %}, 3: {loss: 8 %}, 4: {loss: 41 %}, 5: {loss: 10 %}, 6: {loss: 9 %}}}\n" +
		"plugs: {looks: {1: oil-wet, 4: sooty, others: normal}}\n" +
		"fuel-pressure: {unit: psi, system: \"port, return line\", key-on: 33, idle: 27, limits: {key-on: 38-44 psi}}\n" +
		"recommended: [a new regulator, an oil analysis]\n"
	page := strings.Join(strings.Fields(pageText(drawn(t, readJob(t, "results.yaml", []byte(data)), "invoice", "letter"))), " ")
	for _, has := range []string{"91.5 (cylinder 1) to 146 (cylinder 6); lowest 91.5 psi", "to 41 (cylinder 4); limit 20 %", "sooty (4), the others normal. Fuel pressure", "idle 27; key on, limit 38–44: outside", "a new regulator; an oil analysis."} {
		if !strings.Contains(page, has) {
			t.Errorf("%q is not said: %s", has, page)
		}
	}
	for _, not := range []string{"most: 41", "4 sooty:", "lowest 92", "key on 33 psi; limit"} {
		if strings.Contains(page, not) {
			t.Errorf("%q is said", not)
		}
	}
	if n := strings.Count(page, "Not recorded:"); n != 1 {
		t.Errorf("what was not recorded is said %d times", n)
	}
}

// What was read more than once stands beside its mean, on an owner's sheet too, and
// what an owner needs not know of the drawing does not.
func TestMeansHaveTheirReadings(t *testing.T) {
	data := "engine: {layout: inline-4, fuel: petrol}\nconditions: {engine: warm, throttle: open, plugs-out: all, strokes: 6}\n" +
		"compression: {unit: psi, dry: {1: [150, 153], 2: 149, 3: [92, 94, 93], 4: 151}}\n"
	for _, kind := range []string{"customer", "invoice"} {
		page := strings.Join(strings.Fields(pageText(drawn(t, readJob(t, "means.yaml", []byte(data)), kind, "letter"))), " ")
		brief := kind == "invoice" && strings.Contains(page, "means of repeated readings") // it has less room
		if !brief && !strings.Contains(page, "mean of: 1 150, 153 3 92, 94, 93") {
			t.Errorf("%s: the readings of a mean are not said: %s", kind, page)
		}
		if kind == "customer" && strings.Contains(page, "direction of the engine") {
			t.Error("what the drawing left open is said to an owner")
		}
	}
}

// Parts of a page that run on for want of room are told apart.
func TestRemarksAreToldApart(t *testing.T) {
	block := figure.NewRemarks(figure.Remarks{Name: "work", Items: []figure.Remark{{Title: "Recommended:", Texts: []string{"new plugs"}}, {Title: "Declined:", Texts: []string{"an air test"}}}})
	frame := block.Lay(figure.DefaultTheme(face.Metrics()), 400, layout.Brief)
	rec := record.New(face.Metrics())
	frame.Draw(rec, layout.Rect{W: 400, H: frame.Height})
	if said := strings.Join(strings.Fields(pageText(rec)), " "); !strings.Contains(said, "plugs · Declined:") {
		t.Errorf("one remark runs into the other: %s", said)
	}
}

// What a page says in one block fits what it says in another.
func TestBlocksAgree(t *testing.T) {
	const four = "engine: {layout: inline-4, fuel: petrol}\nconditions: {engine: warm, throttle: open, plugs-out: all, strokes: 6}\n"
	const even = "compression: {unit: psi, dry: [150, 148, 149, 151], limits: {minimum: 120 psi, source: \"the works' sheet\"}}\n"
	const sooty = "plugs: {looks: {all: sooty}}\n"
	for _, tt := range []struct{ name, kind, data, has, hasNot string }{
		{"a test that was declined", "pre-purchase", four + even + "not-tested: {leakage: declined by the customer}\n", "Declined Leakage", "Declined nothing"},
		{"what was declined in the shop's words", "pre-purchase", four + even + "declined: [a look inside]\nnot-tested: {leakage: declined by the customer}\n", "Declined a look inside", "Declined: a look inside"},
		{"nothing declined", "pre-purchase", four + even, "Declined nothing", "Declined Leakage"},
		{"plugs that all look odd", "invoice", four + sooty, "all sooty: none as it should be", "stand out"},
		{"one plug that looks odd", "invoice", "engine: {layout: single, fuel: petrol}\nplugs: {looks: {1: sooty}}\n", "not as it should be", "none as"},
		{"kinds of test in the plural", "customer", four + "trims: {idle: {bank 1: {short: -9, long: -14}}}\nplugs: {looks: {1: normal, 2: sooty, 3: sooty, 4: normal}}\n", "fuel trims and spark plugs point one way", "alone shows"},
		{"plugs with a gap in an engine said to be a diesel", "workshop", "engine: {layout: inline-4, fuel: diesel}\nplugs: {looks: {3: {look: detonation, gap: 1.1 mm}, others: normal}}\n", "detonation on the plug", "glow plug"},
		{"a rotor without pressure on any face", "customer", "engine: {layout: rotary-2, fuel: petrol}\nrotors: {unit: bar, faces: {1: [7.1, 7.0, 7.2], 2: [0, 0, 0]}}\n", "Rotor 2 makes no pressure", "has a face"},
		{"a rotor with one face without", "customer", "engine: {layout: rotary-2, fuel: petrol}\nrotors: {unit: bar, faces: {1: [7.1, 7.0, 7.2], 2: [7.0, 7.1, 0]}}\n", "Rotor 2 has a face without pressure", "makes no pressure"},
		{"rotors apart", "workshop", "engine: {layout: rotary-2, fuel: petrol}\nrotors: {unit: bar, faces: {1: [7.1, 7.0, 7.2], 2: [0, 0, 0]}}\n", "rotor 1 at 7.1 bar", "bar, 1 7.1"},
		{"a source with its article", "workshop", four + even, "source: the works' sheet", "of the the"},
		{"why a limit was not judged", "workshop", "engine: {layout: single, fuel: petrol}\ncompression: {unit: psi, dry: {1: 90}}\n", "not judged: one cylinder has nothing", "not judged one"},
		{"readings that were not averaged", "invoice", four + "compression: {unit: psi, dry: {1: 150, 2: 148, 3: [90, 140], 4: 151}}\n", "148 (2); 90, 140 (3); 151 (4)", "148 (2), 90"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			page := strings.Join(strings.Fields(pageText(drawn(t, readJob(t, "agree.yaml", []byte(tt.data)), tt.kind, "letter"))), " ")
			if !strings.Contains(page, tt.has) {
				t.Errorf("%q is not said: %s", tt.has, page)
			}
			if strings.Contains(page, tt.hasNot) {
				t.Errorf("%q is said: %s", tt.hasNot, page)
			}
		})
	}
}

package cases_test

import (
	"slices"
	"strings"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/story"
	"gaugesheet/report/job"
)

// A change is a job to which one further test is added, once with readings that are as
// they should be and once with readings that are not.
type change struct {
	name   string
	job    string
	before string // the likeliest cause that the sheet names first without the test
	sound  string // the section, nothing wrong with it
	// stays is the likeliest cause after that, where it is another one: a sound test
	// takes a cause off the list. It never makes the matter more urgent.
	stays  string
	faulty string // the section, something wrong with it
	after  string // the likeliest cause after that
}

const (
	fourWell = "engine: {layout: inline-4, fuel: petrol, displacement: 2.0 L, compression-ratio: 9.5, cooling: liquid}\nconditions: {engine: warm, throttle: open, plugs-out: all, cranking: 220 rpm}\n" +
		"compression: {unit: psi, dry: {1: 178, 2: 175, 3: 176, 4: 179}, limits: {minimum: 130 psi, source: manual}}\n"
	fourOneLow = "engine: {layout: inline-4, fuel: petrol, displacement: 2.0 L, compression-ratio: 9.5, cooling: liquid, lifters: solid}\nconditions: {engine: warm, throttle: open, plugs-out: all, cranking: 220 rpm}\n" +
		"compression: {unit: psi, dry: {1: 178, 2: 175, 3: 126, 4: 179}}\nleakage: {dry: {3: {loss: 35 %, at: [exhaust]}}}\n"
)

// changes has each further test both ways: what it turns, and that it turns nothing
// where it is sound. What the readings mean: common practice, no source.
var changes = []change{
	{name: "oil pressure", job: fourOneLow, before: "exhaust-valve",
		sound:  "oil-pressure: {unit: psi, gauge: screwed in, idle: 24, at-speed: {2000 rpm: 48}, limits: {idle: at least 10 psi, 2000 rpm: at least 30 psi, source: manual}}",
		faulty: "oil-pressure: {unit: psi, gauge: screwed in, oil: {level: right, smell: none}, idle: 3, at-speed: {2000 rpm: 11}, limits: {idle: at least 10 psi, 2000 rpm: at least 30 psi, source: manual}}", after: "worn-bearings"},
	{name: "vacuum", job: "job: {complaints: [low power]}\n" + fourWell, before: "injection",
		sound:  "vacuum: {unit: inHg, engine: warm, idle: {reading: 19, needle: steady}, held: {at: 2500 rpm, reading: 20, later: 20, after: 20 s}}",
		faulty: "vacuum: {unit: inHg, engine: warm, idle: {reading: 19, needle: steady}, held: {at: 2500 rpm, reading: 19, later: 8, after: 20 s}}", after: "restricted-exhaust"},
	{name: "the needle beside a cylinder that oil leaves low", job: sixOilFlat, before: "valve-lash",
		sound:  "vacuum: {unit: inHg, engine: warm, idle: {reading: 19, needle: steady}}",
		faulty: "vacuum: {unit: inHg, engine: warm, idle: {reading: 16.5, needle: drops regularly, by: 4}}", after: "exhaust-valve"},
	{name: "cooling pumped up", job: "job: {complaints: [overheating]}\n" + fourWell, before: "coolant-flow",
		sound:  "cooling: {pressure-test: {unit: psi, pumped-to: 18, hold: {5 min: 18}, seen: dry}}",
		faulty: "cooling: {pressure-test: {unit: psi, pumped-to: 18, hold: {5 min: 11}, seen: dry}}", after: "head-gasket"},
	{name: "how it warms up", job: fourWell,
		sound:  "cooling: {warm: {reaches: 195 F, after: 12 min, then: steady}}",
		faulty: "cooling: {warm: {reaches: 140 F, after: 25 min, then: never warm}}", after: "thermostat"},
	{name: "gas in the coolant", job: "job: {complaints: [overheating]}\n" + fourWell, before: "coolant-flow",
		sound:  "coolant-gas-test: {result: negative, engine: hot, minutes: 8}",
		faulty: "coolant-gas-test: {result: positive, engine: hot, minutes: 8}", after: "head-gasket"},
	{name: "valve clearance", job: fourOneLow, before: "exhaust-valve",
		sound:  "valves: {unit: mm, engine: cold, exhaust: {1: 0.30, 2: 0.31, 3: 0.30, 4: 0.30}, limits: {exhaust: 0.25-0.35, source: manual}}",
		faulty: "valves: {unit: mm, engine: cold, exhaust: {1: 0.30, 2: 0.31, 3: none, 4: 0.30}, limits: {exhaust: 0.25-0.35, source: manual}}", after: "valve-lash"},
	{name: "running compression", job: "job: {complaints: [misfire]}\n" + fourWell, before: "ignition",
		sound:  "+  running: {1: {idle: 88, snap: 140}, 2: {idle: 87, snap: 138}, 3: {idle: 86, snap: 139}, 4: {idle: 89, snap: 141}}",
		faulty: "+  running: {1: {idle: 88, snap: 140}, 2: {idle: 87, snap: 138}, 3: {idle: 62, snap: 80}, 4: {idle: 89, snap: 141}}", after: "valve-motion"},
	{name: "balance", job: "job: {complaints: [misfire]}\n" + fourWell, before: "ignition",
		sound:  "balance: {at: 1000 rpm, off-by: coil, idle-control: held, drop: {1: 90, 2: 92, 3: 88, 4: 91}}",
		faulty: "balance: {at: 1000 rpm, off-by: coil, idle-control: held, drop: {1: 90, 2: 92, 3: 2, 4: 91}}", after: "own-spark"},
	{name: "magnetos", job: airplaneWell, before: "ignition", stays: "carburettor",
		sound:  "magnetos: {at: 1800 rpm, left: 60, right: 70}",
		faulty: "magnetos: {at: 1800 rpm, left: 240, right: 60, limits: {drop: 150, difference: 50, source: handbook}}", after: "magneto-plug"},
	{name: "a magneto that may be live", job: airplaneWell, before: "ignition", stays: "carburettor",
		sound:  "magnetos: {at: 1800 rpm, left: 60, right: 70}",
		faulty: "magnetos: {at: 1800 rpm, left: 0, right: 70}", after: "magneto-ground"},
	{name: "head temperatures", job: airplaneWell + "magnetos: {at: 1800 rpm, left: 240, right: 60, limits: {drop: 150, difference: 50, source: handbook}}\n", before: "magneto-plug", stays: "magneto",
		sound:  "heads: {unit: F, magneto: left, 1: 331, 2: 328, 3: 330, 4: 325}",
		faulty: "heads: {unit: F, magneto: left, 1: 331, 2: 328, 3: 205, 4: 325}", after: "magneto-plug"},
	{name: "a two-stroke's crankcase", job: sawLean, before: "crankcase-seal", stays: "carburettor",
		sound:  "crankcase-hold: 6 psi to 5.9 in 10 min",
		faulty: "crankcase-hold: 6 psi to 2 in 1 min", after: "crankcase-seal"},
	{name: "injectors", job: "job: {complaints: [lean running]}\n" + fourWell, before: "injection",
		sound:  "injectors: {unit: ml/min, before: {1: 209, 2: 211, 3: 210, 4: 208}}",
		faulty: "injectors: {unit: ml/min, before: {1: 209, 2: 211, 3: 150, 4: 208}}", after: "dirty-injectors"},
	{name: "trims", job: "job: {complaints: [lean running]}\n" + fourWell, before: "injection",
		sound:  "trims: {idle: {bank 1: {short: 1, long: 2}}, 2500 rpm: {bank 1: {short: 0, long: 1}}}",
		faulty: "trims: {idle: {bank 1: {short: 4, long: 16}}, 2500 rpm: {bank 1: {short: 1, long: 2}}}", after: "air-leak"},
	{name: "exhaust gas", job: "job: {complaints: [misfire]}\n" + fourWell, before: "ignition",
		sound:  "exhaust-gas: {taken: tailpipe, idle: {co: 0.4 %, hc: 90 ppm, co2: 14.8 %, o2: 0.7 %}, 2500 rpm: {co: 0.3 %, hc: 60 ppm, co2: 15 %, o2: 0.5 %}}",
		faulty: "exhaust-gas: {taken: before catalyst, idle: {co: 0.4 %, hc: 1400 ppm, co2: 11.8 %, o2: 4.2 %}}", after: "own-spark"},
	{name: "exhaust gas and soot", job: fourWell + "plugs: {looks: {1: sooty, 2: sooty, 3: sooty, 4: sooty}}\n", before: "temperature-signal",
		sound: "exhaust-gas: {taken: tailpipe, idle: {co: 0.4 %, hc: 90 ppm, co2: 14.8 %, o2: 0.7 %}, 2500 rpm: {co: 0.3 %, hc: 60 ppm, co2: 15 %, o2: 0.5 %}}", stays: "short-trips",
		faulty: "exhaust-gas: {taken: before catalyst, idle: {co: 6.5 %, hc: 380 ppm, co2: 10.5 %, o2: 0.4 %}}", after: "temperature-signal"},
	{name: "crankcase", job: "job: {complaints: [oil use]}\n" + fourWell, before: "guides-or-seals",
		sound:  "crankcase: {unit: inH2O, ventilation: blocked, readings: {2500 rpm: 1.5}, limits: {2500 rpm: at most 4, source: manual}}",
		faulty: "crankcase: {unit: inH2O, ventilation: connected, readings: {2500 rpm: 7}, limits: {2500 rpm: at most 4, source: manual}}", after: "breather"},
	{name: "starting", job: "job: {complaints: [hard start]}\n" + fourWell, before: "ignition",
		sound:  "starting: {cranking: 215 rpm, battery: {rest: 12.6 V, cranking: 10.6 V}}",
		faulty: "starting: {cranking: 105 rpm, battery: {rest: 12.2 V, cranking: 8.6 V}}", after: "weak-cranking"},
	{name: "back-pressure", job: "job: {complaints: [low power]}\n" + fourWell, before: "injection",
		sound:  "back-pressure: {unit: psi, 2500 rpm: 1.1, at: before catalyst, limits: {2500 rpm: at most 3 psi, source: manual}}",
		faulty: "back-pressure: {unit: psi, 2500 rpm: 7, at: before catalyst, limits: {2500 rpm: at most 3 psi, source: manual}}", after: "restricted-exhaust"},
	{name: "timing", job: "job: {complaints: [low power]}\n" + fourWell + "fuel-pressure: {unit: psi, system: carburettor, pump: mechanical, idle: 6, limits: {idle: 4-8 psi, source: manual}}\n", before: "carburettor",
		sound:  "timing: {base: 8 deg before at 700 rpm, vacuum-line: off, limits: {base: 6-10 deg before, source: manual}}",
		faulty: "timing: {base: 3 deg after at 700 rpm, vacuum-line: off, limits: {base: 6-10 deg before, source: manual}}", after: "late-ignition"},
	{name: "diesel returns", job: dieselWell, before: "injection",
		sound:  "diesel: {return: {unit: ml, in: 15 s, at: cranking, cylinders: {1: 9, 2: 10, 3: 9, 4: 9}}}",
		faulty: "diesel: {return: {unit: ml, in: 15 s, at: cranking, cylinders: {1: 9, 2: 10, 3: 9, 4: 49}}}", after: "diesel-injector"},
	{name: "glow plugs", job: dieselWell, before: "injection",
		sound:  "diesel: {glow: {1: 0.6, 2: 0.7, 3: 0.6, 4: 0.6}}",
		faulty: "diesel: {glow: {1: 0.6, 2: open, 3: 0.6, 4: 0.6}}", after: "glow-plug"},
	{name: "heat range", job: fourWell + "plugs: {looks: {1: white, 2: white, 3: white, 4: white}, fitted: 2 months ago}\n", before: "air-leak",
		sound:  "+  heat-range: {fitted: 6, book: 6, higher: colder}",
		faulty: "+  heat-range: {fitted: 4, book: 6, higher: colder}", after: "wrong-heat-range"},
	{name: "other readings", job: fourWell,
		sound:  "other-readings: [{name: charging voltage, reading: 14.2 V, limit: 13.8-14.6 V}]",
		faulty: "other-readings: [{name: charging voltage, reading: 12.1 V, limit: 13.8-14.6 V}]", after: "past-limit"},
}

const (
	airplaneWell = "job: {complaints: [misfire]}\nvehicle: {description: light airplane}\nengine: {layout: flat-4, numbering: across banks, first-bank: right, heads: separate, fuel: petrol, cooling: air, displacement: 5.9 L, compression-ratio: 8.5, lifters: hydraulic}\n" +
		"conditions: {engine: warm}\nleakage: {dry: {1: 74/80, 2: 75/80, 3: 73/80, 4: 76/80}}\n"
	sawLean = "job: {complaints: [lean running]}\nvehicle: {description: chain saw}\nengine: {layout: single, fuel: two-stroke mix, cooling: air, displacement: 54 ml}\ncompression: {unit: psi, dry: [140]}\n"
)

// sixOilFlat has a cylinder that oil leaves low, on an engine whose lash is set by hand.
const sixOilFlat = "job: {date: 2026-04-10, technician: own test, complaints: [misfire]}\nengine: {layout: inline-6, fuel: petrol, displacement: 2.8 L, compression-ratio: 9.0, cooling: liquid, lifters: solid}\n" +
	"conditions: {engine: warm, throttle: open, plugs-out: all, strokes: 6, cranking: 210 rpm}\ngauges: {compression: {name: own gauge, range: 0-300 psi, accuracy: 2 % of span}}\n" +
	"compression: {unit: psi, dry: [152, 150, 154, 151, 96, 153], wet: {5: 98, 2: 156}, oil: 5 ml}\n"

// TestTheNeedleMakesNothingSurer: a needle that drops regularly does not show which
// cylinder it drops for, so that beside one that oil leaves low it is a voice for a valve
// and no second test of that cylinder.
func TestTheNeedleMakesNothingSurer(t *testing.T) {
	const beats = "vacuum: {unit: inHg, engine: warm, idle: {reading: 16.5, at: 700 rpm, needle: drops regularly, by: 4}}"
	for _, text := range []string{sixOilFlat,
		strings.Replace(sixOilFlat, "lifters: solid", "lifters: hydraulic", 1),
		strings.Replace(sixOilFlat, "inline-6, fuel: petrol, displacement: 2.8 L", "flat-6, numbering: across banks, first-bank: left, fuel: petrol, displacement: 5.9 L", 1),
		strings.Replace(sixOilFlat, "lifters: solid", "lifters: hydraulic", 1) + "plugs: {looks: {1: tan, 2: tan, 3: tan, 4: tan, 5: white, 6: tan}}\n"} {
		without, and := said(t, text), said(t, with(text, beats))
		if without.Stories[0].Confidence == diag.Strong {
			t.Errorf("strong without the needle: nothing to lift\n%s", text)
		}
		if and.Stories[0].Confidence == diag.Strong || and.Urgency.Rank() > without.Urgency.Rank() {
			t.Errorf("%s, %s with the needle, and %s, %s without\n%s", and.Stories[0].Confidence, and.Urgency, without.Stories[0].Confidence, without.Urgency, text)
		}
		if !slices.ContainsFunc((&outcome{d: and}).said(), func(f diag.Finding) bool { return f.Rule == "valve-agrees" }) {
			t.Errorf("no voice for a valve\n%s", text)
		}
	}
}

const dieselWell = "job: {complaints: [hard start]}\nengine: {layout: inline-4, fuel: diesel, displacement: 2.0 L, compression-ratio: 18}\nconditions: {engine: warm, plugs-out: all, cranking: 220 rpm}\n" +
	"compression: {unit: bar, dry: {1: 29, 2: 28.5, 3: 29, 4: 28.8}, limits: {minimum: 22 bar, source: manual}}\n"

// TestFurtherTestsChangeTheVerdict: a further test that finds something turns what is
// said first; one that finds nothing leaves it, or takes a cause off the list, and
// makes nothing more urgent.
func TestFurtherTestsChangeTheVerdict(t *testing.T) {
	for _, c := range changes {
		t.Run(c.name, func(t *testing.T) {
			without := said(t, c.job)
			sound, faulty := said(t, with(c.job, c.sound)), said(t, with(c.job, c.faulty))
			stays := c.before
			if c.stays != "" {
				stays = c.stays
			}
			if got := likeliest(without); got != c.before {
				t.Errorf("without it %q first, want %q", got, c.before)
			}
			if got := likeliest(sound); got != stays {
				t.Errorf("sound: %q first, want %q", got, stays)
			}
			if sound.Urgency.Rank() > without.Urgency.Rank() {
				t.Errorf("sound: %s, and %s without it", sound.Urgency, without.Urgency)
			}
			if got := likeliest(faulty); got != c.after {
				t.Errorf("faulty: %q first, want %q", got, c.after)
			}
			if faulty.Urgency == diag.NoAction {
				t.Error("faulty: no action")
			}
		})
	}
}

func said(t *testing.T, text string) *diag.Diagnosis {
	t.Helper()
	j, problems := job.Read("job.yaml", []byte(text), nil)
	if len(problems) > 0 {
		t.Fatalf("not readable: %v\n%s", problems, text)
	}
	return story.Diagnose(j.Test())
}

// with adds a section to a job, or behind a + keys to one that it has: compression the
// running readings, plugs what is said of the plugs.
func with(text, section string) string {
	keys, add := strings.CutPrefix(section, "+")
	if !add {
		return text + section + "\n"
	}
	for _, name := range []string{"plugs: {", "compression: {"} {
		if before, after, found := strings.Cut(text, name); found {
			return before + name + strings.TrimSpace(keys) + ", " + after
		}
	}
	return text
}

// likeliest is the first cause of the story that is told first and asks for something,
// "" where none does.
func likeliest(d *diag.Diagnosis) string {
	for _, s := range d.Stories {
		if s.Urgency != diag.NoAction && len(s.Causes) > 0 {
			return s.Causes[0].Key
		}
	}
	return ""
}

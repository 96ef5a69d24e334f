package job

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
	"gaugesheet/diag/quantity"
	"gaugesheet/templates"
)

// test reads the engine, the conditions and the readings.
func (r *reader) test(j *Job, top *section, shop map[string]*node) {
	r.cylinderWord = "cylinder"
	r.hasPlugs = top.get("plugs").get("looks") != nil
	e, spec := r.engine(top)
	t := &diag.Test{Engine: e, Spec: spec, Conditions: r.conditions(top), History: r.history(j, top)}
	r.readings(t, top)
	t.Borescope, t.Bores, t.Untested = r.borescope(top)
	t.CoolantGas, t.GasTest = r.coolantGas(top)
	twice := t.SettleTwice()
	t.Gauges = r.gauges(top, t, shop)
	t.Untested = append(t.Untested, r.untested(top, t)...)
	addStated(t)
	t.Before = r.before(j, top, t, shop)
	if !r.blank && !hasReadings(t) && r.faults == 0 {
		r.report(Pos{1, 1}, "such as 'compression: {unit: psi, dry: {1: 160}}'",
			"no readings: expected compression, leakage, plugs, rotors, fuel-pressure or another test with at least one")
	}
	t.Noted = slices.Concat(r.notices, t.Suspects(), twice)
	j.test = t
}

// readings reads the sections of readings.
func (r *reader) readings(t *diag.Test, top *section) {
	r.scales, r.measured = map[string]*scale{}, map[string][]*scale{}
	t.Compression = r.compression(top, t.Engine, t.Spec)
	t.Leakage = r.leakage(top)
	t.Plugs = r.plugs(top)
	t.Rotors = r.rotors(top, t.Engine)
	t.Fuel = r.fuelPressure(top, t.Spec)
	t.Measured = append(r.measuredTests(top), r.otherReadings(top)...)
}

func (r *reader) gauges(top *section, t *diag.Test, shop map[string]*node) diag.Gauges {
	s := top.group("gauges")
	compression, fuel := quantity.None, quantity.None
	if t.Compression != nil {
		compression = t.Compression.Unit
	} else if t.Rotors != nil {
		compression = t.Rotors.Unit
	}
	if t.Fuel != nil {
		fuel = t.Fuel.Unit
	}
	g := diag.Gauges{
		Compression: r.sectionGauge(s, "compression", shop, compression),
		Leakage:     r.sectionGauge(s, "leakage", shop, quantity.None),
		Fuel:        r.sectionGauge(s, "fuel", shop, fuel),
	}
	for i := range t.Measured {
		if m := &t.Measured[i]; GaugeOf(m.Name) != "" {
			m.Gauge = r.sectionGauge(s, GaugeOf(m.Name), shop, m.Unit)
			r.offMeasured(m)
		}
	}
	r.scales["compression"].offTheGauge(g.Compression)
	r.scales["rotors"].offTheGauge(g.Compression)
	r.scales["fuel-pressure"].offTheGauge(g.Fuel)
	return g
}

func hasReadings(t *diag.Test) bool {
	switch {
	case t.Compression != nil && t.Compression.State == diag.Tested,
		t.Leakage != nil && t.Leakage.State == diag.Tested,
		t.Plugs != nil && t.Plugs.State == diag.Tested,
		t.Rotors != nil && t.Rotors.State == diag.Tested,
		t.Fuel != nil && t.Fuel.State == diag.Tested,
		len(t.Borescope) > 0,
		slices.ContainsFunc(t.Measured, func(m diag.Measured) bool { return m.State == diag.Tested }),
		t.CoolantGas == "positive" || t.CoolantGas == "negative":
		return true
	}
	return false
}

// The tests of an engine by the names that they have on the sheet.
const (
	testCompression = "compression"
	testLeakage     = "leakage"
	testPlugs       = "plugs"
	testRotors      = "rotors"
	testFuel        = "fuel pressure"
	testBorescope   = "borescope"
)

// states gives the tests that this engine can have, in the sheet's order, with
// the state and reason of those that the file has a section for.
func states(t *diag.Test) []diag.Untested {
	var out []diag.Untested
	add := func(test string, given bool, state diag.State, reason string) {
		if !given {
			state = diag.NotTested
		}
		out = append(out, diag.Untested{Test: test, State: state, Reason: reason})
	}
	rotary := t.Engine != nil && t.Engine.Kind == engine.Rotary
	if c := t.Compression; c != nil {
		add(testCompression, true, c.State, c.Reason)
	} else if !rotary {
		add(testCompression, false, "", "")
	}
	if s := t.Rotors; s != nil {
		add(testRotors, true, s.State, s.Reason)
	} else if rotary {
		add(testRotors, false, "", "")
	}
	if l := t.Leakage; l != nil {
		add(testLeakage, true, l.State, l.Reason)
	} else if !rotary {
		add(testLeakage, false, "", "")
	}
	if p := t.Plugs; p != nil {
		add(testPlugs, true, p.State, p.Reason)
	} else if !t.Spec.Diesel() {
		add(testPlugs, false, "", "")
	}
	if f := t.Fuel; f != nil {
		add(testFuel, true, f.State, f.Reason)
	} else {
		add(testFuel, false, "", "")
	}
	for _, m := range t.Measured { // those that the job does not speak of are not missed one by one
		add(m.Name, true, m.State, m.Reason)
	}
	return out
}

// untested lists what was not tested: what the job says in its own order, then
// the tests that it does not speak of.
func (r *reader) untested(top *section, t *diag.Test) []diag.Untested {
	var out []diag.Untested
	said := map[string]bool{testBorescope: len(t.Untested) > 0} // by the section itself
	tested := states(t)
	for _, e := range r.notTested(top) {
		name := testName(e.key)
		if near := misspelt(name); near != "" {
			r.report(e.pos, fmt.Sprintf("did you mean '%s'?", near), "'not-tested' has '%s', expected a test", short(e.key))
			continue
		}
		if said[name] {
			r.report(e.pos, "keep one of the two", "'not-tested' has '%s' twice", name)
			continue
		}
		for _, s := range tested {
			if s.Test == name && s.State == diag.Tested {
				r.report(e.pos, "keep one of the two", "'not-tested' has '%s', but the job has readings of it", name)
			}
		}
		state, reason, ok := parseState(e.value.text)
		if !ok {
			state, reason = diag.NotTested, e.value.text
		}
		said[name] = true
		out = append(out, diag.Untested{Test: name, State: state, Reason: reason})
	}
	for _, s := range tested {
		if s.State != diag.Tested && !said[s.Test] {
			out = append(out, s)
		}
	}
	return out
}

// addStated gives a section to each test that the job says was declined, could
// not be made or does not apply, and has no section of.
func addStated(t *diag.Test) {
	for _, u := range t.Untested {
		if u.State == diag.NotTested { // as is said of any test that the job lacks
			continue
		}
		switch {
		case u.Test == testCompression && t.Compression == nil:
			t.Compression = &diag.Compression{State: u.State, Reason: u.Reason}
		case u.Test == testLeakage && t.Leakage == nil:
			t.Leakage = &diag.Leakage{State: u.State, Reason: u.Reason}
		case u.Test == testPlugs && t.Plugs == nil:
			t.Plugs = &diag.Plugs{State: u.State, Reason: u.Reason}
		case u.Test == testRotors && t.Rotors == nil:
			t.Rotors = &diag.Rotors{State: u.State, Reason: u.Reason}
		case u.Test == testFuel && t.Fuel == nil:
			t.Fuel = &diag.FuelPressure{State: u.State, Reason: u.Reason}
		case isMeasured(u.Test) && t.MeasuredTest(u.Test) == nil:
			t.Measured = append(t.Measured, diag.Measured{Name: u.Test, State: u.State, Reason: u.Reason})
		}
	}
}

// notTested reads the tests not made with their reasons, or a list of them.
func (r *reader) notTested(top *section) []entry {
	n := top.get("not-tested")
	if n == nil {
		return nil
	}
	var out []entry
	switch n.kind {
	case list:
		for _, t := range top.texts("not-tested") {
			out = append(out, entry{t.Value, t.Pos, &node{pos: t.Pos, text: string(diag.NotTested)}})
		}
	case mapping:
		for _, e := range n.entries {
			if isEmpty(e.value) {
				r.report(e.pos, "write why, or 'not tested'", "'not-tested.%s' has no value", short(e.key))
			} else if r.scalar(e.value, "not-tested."+e.key, "the reason") != nil {
				out = append(out, e)
			}
		}
	default:
		name, why, _ := strings.Cut(strings.Replace(strings.Replace(n.text, " - ", ", ", 1), ": ", ", ", 1), ",")
		if name = strings.TrimSpace(name); slices.Contains(knownTests, testName(name)) { // leakage, no shop air
			reason := &node{pos: n.pos, text: cmp.Or(strings.TrimSpace(why), string(diag.NotTested))}
			return []entry{{name, n.pos, reason}}
		}
		r.report(n.pos, "such as 'not-tested: {leakage: declined by the customer}'", "'not-tested' is '%s', expected tests with the reason for each", short(n.text))
	}
	return out
}

// knownTests are the names of tests that the job file has keys for.
var knownTests = append([]string{testCompression, testLeakage, testPlugs, testRotors, testFuel, testBorescope, "coolant-gas-test"}, MeasuredNames()...)

// otherTests are what people call the tests.
var otherTests = map[string]string{"leakdown": "leakage", "leak down": "leakage", "leak down test": "leakage", "leakdown test": "leakage", "cylinder leakage": "leakage", "leak test": "leakage",
	"compression test": "compression", "spark plugs": "plugs", "plug": "plugs", "fuel": "fuel-pressure", "fuel pressure test": "fuel-pressure", "camera": "borescope", "block test": "coolant-gas-test", "gas test": "coolant-gas-test"}

// testName brings the name of a test to that of the sheet; other words stay.
func testName(key string) string {
	if other, ok := otherTests[plainTest(key)]; ok {
		key = other
	}
	for _, known := range knownTests {
		if plainTest(key) == plainTest(known) {
			return known
		}
	}
	return key
}

// TestCalled is the test that a text is the name of, as what was declined may be
// written: "Leakage test"; "" for other texts.
func TestCalled(text string) string {
	bare := plainTest(text)
	for _, name := range []string{bare, strings.TrimSuffix(bare, " test")} {
		if name = testName(name); slices.Contains(knownTests, name) {
			return name
		}
	}
	return ""
}

func plainTest(name string) string { return strings.ReplaceAll(fold(name), "-", " ") }

// misspelt gives the test that a name is a slip of; "" for one that is spelled
// so, and for other things that were not tested.
func misspelt(name string) string {
	const furthest = 2 // letters more or less
	near := templates.Nearest(plainTest(name), knownTests)
	if near == name || near == "" || plainTest(name)[0] != near[0] || abs(float64(len(name)-len(near))) > furthest {
		return ""
	}
	return near
}

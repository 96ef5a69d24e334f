package laws_test

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/report/job"
)

// systems adds some of the further tests, sound ones and others, in the units
// that they are written in.
func (m *maker) systems() {
	if !m.chance(30) {
		return
	}
	all := []func(){m.oilPressure, m.vacuum, m.cooling, m.crankcase, m.backPressure, m.timing, m.starting, m.balance, m.injectors, m.clearances, m.trims, m.gas, m.dieselTests, m.otherReadings, m.magnetos, m.heads, m.crankcaseHold}
	for _, i := range m.Perm(len(all))[:1+m.IntN(3)] {
		if m.chance(6) {
			m.set(m.refusal(), pick(m, "vacuum", "cooling", "oil-pressure"))
			continue
		}
		all[i]()
	}
}

func (m *maker) oilPressure() {
	if m.get("oil-pressure") != nil {
		return
	}
	low := m.chance(30)
	idle, fast := m.within(14, 30), m.within(45, 70)
	if low {
		idle, fast = m.within(0, 9), m.within(15, 40)
	}
	m.set("psi", "oil-pressure", "unit")
	m.maybe(70, []string{"oil-pressure", "gauge"}, "screwed in", "dash", "scan tool")
	m.maybe(50, []string{"oil-pressure", "oil", "level"}, "right", "low", "over full")
	m.maybe(30, []string{"oil-pressure", "oil", "smell"}, "none", "fuel")
	m.set(fmt.Sprintf("%.0f", idle), "oil-pressure", "idle", "reading")
	m.set("750 rpm", "oil-pressure", "idle", "at")
	m.set(fmt.Sprintf("%.0f", fast), "oil-pressure", "at-speed", "3000 rpm")
	m.maybe(60, []string{"oil-pressure", "limits", "idle"}, "at least 10")
	m.maybe(40, []string{"oil-pressure", "limits", "3000 rpm"}, "44-78")
	m.maybe(30, []string{"oil-pressure", "cold-idle"}, "45", "60")
}

func (m *maker) vacuum() {
	if m.get("vacuum") != nil {
		return
	}
	m.set("inHg", "vacuum", "unit")
	m.set(fmt.Sprintf("%.1f", m.within(10, 21)), "vacuum", "idle", "reading")
	m.maybe(85, []string{"vacuum", "idle", "needle"}, "steady", "steady", "drops regularly", "drops now and then", "floats", "quivers", "not watched")
	m.maybe(25, []string{"vacuum", "with-speed"}, "steadies", "swings wider", "no change")
	if m.chance(30) {
		m.set("19", "vacuum", "held", "reading")
		m.set("2500 rpm", "vacuum", "held", "at")
		m.set(pick(m, "19", "11", "17"), "vacuum", "held", "later")
	}
	m.maybe(25, []string{"vacuum", "limits", "idle"}, "17-21 inHg")
}

func (m *maker) cooling() {
	if m.get("cooling") != nil {
		return
	}
	m.set("15 psi", "cooling", "pressure-test", "pumped-to")
	m.set(pick(m, "15 psi", "14.5 psi", "9 psi"), "cooling", "pressure-test", "hold", "5 min")
	m.maybe(60, []string{"cooling", "pressure-test", "seen"}, "dry", "outside at the pump", "wet in "+pick(m, m.names...))
	m.maybe(30, []string{"cooling", "coolant", "look"}, "clean", "rust", "oil", "gas bubbles")
	if m.chance(30) {
		m.set("15 psi", "cooling", "cap", "rated")
		m.set(pick(m, "14.5 psi", "9 psi"), "cooling", "cap", "opens")
	}
}

func (m *maker) crankcase() {
	m.set("inH2O", "crankcase", "unit")
	m.maybe(70, []string{"crankcase", "ventilation"}, "connected", "blocked", "off")
	m.set(pick(m, "-1", "0.5", "3.5", "8", "-9"), "crankcase", "readings", "2500 rpm")
	m.maybe(50, []string{"crankcase", "limits", "2500 rpm"}, "at most 4")
}

func (m *maker) backPressure() {
	m.set("psi", "back-pressure", "unit")
	m.set(pick(m, "0.8", "1.6", "6"), "back-pressure", "2500 rpm")
	m.maybe(60, []string{"back-pressure", "limits", "2500 rpm"}, "at most 3")
}

func (m *maker) timing() {
	m.set(pick(m, "6 deg before", "1 deg before", "14 deg before"), "timing", "base")
	m.maybe(60, []string{"timing", "limits", "base"}, "5-7 deg")
	m.maybe(30, []string{"timing", "dwell"}, "29 deg", "44 deg")
	m.maybe(30, []string{"timing", "limits", "dwell"}, "26-32 deg")
}

func (m *maker) starting() {
	m.set(pick(m, "165 A", "320 A", "80 A"), "starting", "draw")
	m.maybe(50, []string{"starting", "limits", "draw"}, "150-220 A")
	if m.chance(50) && len(m.names) > 2 {
		m.set(byCylinder(m.names, m.around(180, 3, 131, 260)), "starting", "peaks")
	}
}

func (m *maker) balance() {
	if len(m.names) < 3 {
		return
	}
	m.set("1000 rpm", "balance", "at")
	m.maybe(70, []string{"balance", "idle-control"}, "held", "working", "not sure")
	m.set(byCylinder(m.names, m.around(90, 5, 5, 25)), "balance", "drop")
}

func (m *maker) injectors() {
	if len(m.names) < 3 {
		return
	}
	m.set("ml/min", "injectors", "unit")
	m.set(byCylinder(m.names, m.around(210, 2, 170, 240)), "injectors", "before")
}

func (m *maker) clearances() {
	m.set("mm", "valves", "unit")
	m.set(byCylinder(m.names, func(n string) any {
		if m.isHurt(n) && m.chance(40) {
			return pick(m, "none", "0.10", "0.60")
		}
		return "0.30"
	}), "valves", "exhaust")
	m.maybe(70, []string{"valves", "limits", "exhaust"}, "0.25-0.35")
}

func (m *maker) trims() {
	for _, speed := range []string{"idle", "2500 rpm"} {
		m.set(pick(m, "2", "-3", "14", "-15"), "trims", speed, "bank 1", "long")
	}
}

func (m *maker) gas() {
	rows := [][]string{{"0.3 %", "15.3 %", "0.1 %", "27 ppm"}, {"3.4 %", "12.7 %", "0.8 %", "95 ppm"}, {"0.01 %", "11.5 %", "4.4 %", "10 ppm"}, {"0.3 %", "5 %", "12 %", "80 ppm"}, {"0.3 %", "12.5 %", "3.5 %", "900 ppm"}}
	row := pick(m, rows...)
	for i, name := range []string{"co", "co2", "o2", "hc"} {
		m.set(row[i], "exhaust-gas", "idle", name)
	}
	m.maybe(40, []string{"exhaust-gas", "limits", "co"}, "1.2 %")
}

func (m *maker) dieselTests() {
	if m.text("engine", "fuel") != "diesel" || len(m.names) < 3 {
		return
	}
	m.set("ml", "diesel", "return", "unit")
	m.set(byCylinder(m.names, m.around(12, 1, 48, 50)), "diesel", "return", "cylinders")
	m.maybe(40, []string{"diesel", "limits", "return"}, "at most 40")
}

func (m *maker) otherReadings() {
	t := newTree()
	t.put("name", "charging voltage")
	t.put("reading", pick(m, "14.2 V", "12.6 V"))
	t.put("limit", "13.8-14.6 V")
	m.set([]any{t}, "other-readings")
}

// around gives each cylinder a reading near one, and some of those at fault one
// of two others.
func (m *maker) around(middle, scatter, one, other float64) func(string) any {
	return func(n string) any {
		v := middle + m.within(-scatter, scatter)
		if m.isHurt(n) && m.chance(50) {
			v = pick(m, one, other)
		}
		return fmt.Sprintf("%.0f", v)
	}
}

// furtherSections are the members of the further tests in the JSON.
var furtherSections = func() []string {
	var names []string
	for _, name := range append(job.MeasuredNames(), diag.OtherReadings) {
		names = append(names, strings.ReplaceAll(name, "-", "_"))
	}
	return names
}()

// furtherOutside: a reading of a further test that is outside its limit is said.
func furtherOutside(s *subject, k *tally) {
	for _, name := range furtherSections {
		section := s.further(name)
		for _, r := range slices.Concat(section.Readings, section.Gases) {
			if r.Verdict != "outside" {
				continue
			}
			k.saw()
			if !s.saysAbout(name) {
				k.fail("%s of %s is outside and nothing is said of it above 'no action'", r.Name, name)
			}
		}
	}
}

// furtherTest is a further test as the JSON has it.
type furtherTest struct {
	State    string           `json:"state"`
	Readings []furtherReading `json:"readings"`
	Gases    []furtherReading `json:"gases"`
}

type furtherReading struct {
	Name    string `json:"name"`
	Entered string `json:"entered"`
	Verdict string `json:"verdict"`
}

// further is one of the further tests.
func (s *subject) further(name string) furtherTest {
	var all map[string]json.RawMessage
	var one furtherTest
	if json.Unmarshal(s.raw, &all) != nil || json.Unmarshal(all[name], &one) != nil {
		return furtherTest{}
	}
	return one
}

// saysAbout reports a story above 'no action' that rests on a further test.
func (s *subject) saysAbout(section string) bool {
	return slices.ContainsFunc(s.d.Stories, func(st diag.Story) bool {
		return st.Urgency != diag.NoAction && slices.Contains(st.Tests, strings.ReplaceAll(section, "_", "-"))
	})
}

// furtherCylinders is how many cylinders one of the further tests read.
func (s *subject) furtherCylinders() int {
	most := 0
	for _, name := range furtherSections {
		var all map[string]json.RawMessage
		var one struct {
			Cylinders []json.RawMessage `json:"cylinders"`
		}
		if json.Unmarshal(s.raw, &all) == nil && json.Unmarshal(all[name], &one) == nil {
			most = max(most, len(one.Cylinders))
		}
	}
	return most
}

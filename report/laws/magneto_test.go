package laws_test

import (
	"fmt"
	"strings"
)

// magnetos adds a check of two magnetos, sound or not, with limits or without.
func (m *maker) magnetos() {
	if m.text("engine", "fuel") == "diesel" {
		return
	}
	m.maybe(70, []string{"magnetos", "at"}, "1800 rpm", "1700 rpm")
	m.set(pick(m, "60", "48", "90", "240", "0"), "magnetos", "left")
	m.set(pick(m, "60", "48", "75", "160", "0"), "magnetos", "right")
	m.maybe(50, []string{"magnetos", "limits", "drop"}, "150", "175 rpm")
	m.maybe(50, []string{"magnetos", "limits", "difference"}, "50")
}

// heads adds the temperatures of the heads, which stand in the section itself.
func (m *maker) heads() {
	if len(m.names) < 2 {
		return
	}
	unit, middle := "F", 325.0
	if m.chance(40) {
		unit, middle = "C", 163
	}
	m.set(unit, "heads", "unit")
	m.maybe(70, []string{"heads", "magneto"}, "left", "right", "both")
	warm := m.around(middle, 0.03*middle, 0.6*middle, 0.9*middle)
	for _, n := range m.names {
		m.set(warm(n), "heads", n)
	}
}

// crankcaseHold adds a two-stroke's crankcase that was pumped up, as it is told in a line.
func (m *maker) crankcaseHold() {
	m.set(pick(m, "6 psi to 5.5 in 10 min", "6 psi to 5.9 in 10 min", "6 psi to 2 in 5 min", "0.4 bar to 0.39 bar in 10 min"), "crankcase-hold")
}

// liveMagneto: where the speed did not fall on one magneto alone, the sheet warns of the
// propeller, and no check moves the crankshaft with the wires on the plugs.
func liveMagneto(s *subject, k *tally) {
	live := false
	for _, side := range []string{"left", "right"} {
		live = live || fmt.Sprint(s.tree.get("magnetos", side)) == "0"
	}
	text := strings.ToLower(strings.Join(s.out.Cautions, " "))
	if warns := strings.Contains(text, "live magneto") || strings.Contains(text, "magneto may be live"); live != warns {
		k.saw()
		k.fail("a magneto without a drop: %v; cautions %q", live, s.out.Cautions)
		return
	}
	if !live {
		return
	}
	k.saw()
	for _, p := range s.out.proposals() {
		do := strings.ToLower(p.Do)
		moves := turningChecks[p.Name] || strings.Contains(do, "by hand") || strings.Contains(do, "magneto's timing")
		if off := strings.Contains(do, "every plug wire off its plug"); moves && !off {
			k.fail("%s (%s) moves the crankshaft with a magneto that may fire: %q", p.at, p.Name, p.Do)
		}
	}
}

package laws_test

import "slices"

// beforeWork gives a share of the jobs what was read before some work: as it is now, or some
// cylinders far lower, or higher, than now.
func (m *maker) beforeWork() {
	if m.rotary || m.get("compression", "dry") == nil || !m.chance(8) {
		return
	}
	low, share := m.some(len(m.names)), pick(m, 0.4, 0.6, 0.75, 1.2)
	m.set(pick(m, "head gasket renewed", "valves ground in", "new piston rings", "timing belt renewed", "run warm and tested again"), "before", "done")
	m.set("2026-03-12", "before", "date")
	m.set(m.unit.name, "before", "compression", "unit")
	m.set(byCylinder(m.names, func(n string) any {
		if slices.Contains(low, n) {
			return m.unit.write(m.pressure[n] * share)
		}
		return m.unit.write(m.pressure[n] * m.within(0.98, 1.02))
	}), "before", "compression", "dry")
	if m.get("leakage", "dry") != nil && m.chance(40) {
		m.set(byCylinder(low, func(string) any { return pick(m, "64 %", "35 %", "9 %") }), "before", "leakage", "dry")
	}
}

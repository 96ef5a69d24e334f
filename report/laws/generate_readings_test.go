package laws_test

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// A unitForm is a unit of pressure as a shop writes it.
type unitForm struct {
	name     string
	perPSI   float64
	decimals int
}

var unitForms = []unitForm{{"psi", 1, 0}, {"psi", 1, 0}, {"psi", 1, 0}, {"bar", 0.0689476, 1}, {"kPa", 6.89476, 0}, {"kgf/cm2", 0.0703070, 1}, {"MPa", 0.00689476, 2}}

func (u unitForm) write(psi float64) string {
	return strconv.FormatFloat(psi*u.perPSI, 'f', u.decimals, 64)
}

// faults are what can be wrong with an engine that the generator makes.
var faults = []string{"none", "none", "none", "a little uneven", "one low", "one low", "one very low", "one dead", "two neighbours low", "two neighbours dead", "scattered low",
	"scattered dead", "bank low", "bank dead", "all low", "all very low", "all dead", "all low and uneven", "one high", "one high and wet", "rings", "rings", "exhaust valve",
	"exhaust valve", "inlet valve", "gasket", "coolant", "washed", "lone dead", "lone"}

func (m *maker) chooseFault() {
	m.fault = pick(m, faults...)
	m.unit = pick(m, unitForms...)
	base := m.within(130, 190)
	switch {
	case m.diesel:
		base = m.within(340, 450)
	case m.twoStroke, m.rotary:
		base = m.within(95, 140)
	}
	scatter := m.within(0.012, 0.03)
	for _, name := range m.names {
		m.pressure[name] = base * (1 + scatter*math.Max(-2.2, math.Min(2.2, m.NormFloat64())))
	}
	scale := func(names []string, low, high float64) {
		m.hurt = names
		for _, name := range names {
			m.pressure[name] *= m.within(low, high)
		}
	}
	one := m.some(1)
	switch m.fault {
	case "a little uneven":
		scale(one, 0.86, 0.93)
	case "one low", "exhaust valve", "inlet valve", "rings":
		scale(one, 0.45, 0.82)
	case "one very low":
		scale(one, 0.16, 0.45)
	case "one dead", "lone dead":
		scale(one, 0, 0.06)
	case "two neighbours low", "gasket":
		scale(m.neighbours(), 0.4, 0.75)
	case "two neighbours dead":
		scale(m.neighbours(), 0, 0.1)
	case "scattered low":
		scale(m.some(3), 0.4, 0.82)
	case "scattered dead":
		scale(m.some(3), 0, 0.1)
	case "bank low", "bank dead":
		names := one
		if m.banks != nil {
			names = m.banks[m.IntN(2)]
		}
		if m.fault == "bank low" {
			scale(names, 0.66, 0.72)
		} else {
			scale(names, 0, 0.08)
		}
	case "all low":
		scale(m.names, 0.5, 0.54)
	case "all very low":
		scale(m.names, 0.3, 0.33)
	case "all low and uneven":
		scale(m.names, 0.35, 0.7)
	case "all dead", "washed":
		scale(m.names, 0, 0.1)
	case "one high", "one high and wet":
		scale(one, 1.15, 1.4)
	case "coolant":
		scale(one, 0.55, 1.25)
	}
}

// neighbours are two that stand side by side, as far as the numbers say.
func (m *maker) neighbours() []string {
	row := m.names
	if m.banks != nil {
		row = m.banks[m.IntN(2)]
	}
	if len(row) < 2 {
		return row
	}
	i := m.IntN(len(row) - 1)
	return row[i : i+2]
}

func (m *maker) conditions() {
	c := func(keys ...string) []string { return append([]string{"conditions"}, keys...) }
	if m.chance(75) {
		m.set(pick(m, "warm", "warm", "cold", "hot"), c("engine")...)
	}
	if m.chance(65) {
		m.set(pick(m, "open", "open", "open", "open", "open", "closed", "not sure"), c("throttle")...)
		m.set(pick(m, "all", "all", "all", "one at a time"), c("plugs-out")...)
		m.set(fmt.Sprint(4+m.IntN(4)), c("strokes")...)
	}
	m.maybe(35, c("cranking"), "210 rpm", "180 rpm", "250 rpm", "110 rpm")
	if m.chance(30) {
		m.set("12.6 V", c("battery", "rest")...)
		m.set(pick(m, "10.8 V", "10.2 V", "8.4 V"), c("battery", "cranking")...)
		m.maybe(50, c("battery", "charger"), "yes", "no")
	}
	switch m.IntN(8) {
	case 0, 1:
		m.set(pick(m, "400 ft", "120 m", "5200 ft", "2400 m"), c("altitude")...)
	case 2:
		m.set(pick(m, "25.1 inHg", "98.5 kPa"), c("barometer")...)
	}
	m.maybe(8, c("choke"), "open", "closed")
	m.maybe(30, c("needle"), "holds", "holds", "holds", "falls back", "flutters")
	m.maybe(5, c("method"), "throttle blocked with a wedge", "tested through the injector hole")
	m.gauges()
}

func (m *maker) gauges() {
	if m.chance(65) {
		span := 300.0
		if m.diesel {
			span = 1000
		}
		g := newTree()
		g.put("name", "dial A")
		g.put("range", "0-"+m.unit.write(span)+" "+m.unit.name)
		g.put("accuracy", pick(m, "2 % of span", "1 % of reading", "grade B", "class 1.6", "5 % of span"))
		if m.chance(40) {
			g.put("division", m.unit.write(span/60)+" "+m.unit.name)
		}
		if m.chance(10) {
			g.put("reads", pick(m, "120 at 121", "102 at 120"))
		}
		m.set(g, "gauges", "compression")
	}
	if m.chance(30) {
		m.set("100 psi", "gauges", "leakage", "supply")
	}
	if m.chance(40) {
		m.set("0-100 psi", "gauges", "fuel", "range")
		m.set(pick(m, "grade B", "3 % of span"), "gauges", "fuel", "accuracy")
	}
}

// inUnit writes a pressure given in psi, as one of the ways that people write.
func (m *maker) reading(psi float64) string {
	v := m.unit.write(psi)
	if psi < 3 {
		return pick(m, "0", "0", "no pressure", v)
	}
	step := math.Pow10(-m.unit.decimals)
	number, _ := strconv.ParseFloat(v, 64)
	up := func(f float64) string {
		return strconv.FormatFloat(number+f*math.Max(step, number*0.03), 'f', m.unit.decimals, 64)
	}
	switch m.IntN(60) {
	case 0:
		return "about " + v
	case 1:
		return v + "-" + up(1)
	case 2:
		return v + "+"
	case 3:
		return "over " + v
	case 4:
		return v + " " + m.unit.name
	case 5:
		if m.unit.name == "psi" {
			return v + ".5"
		}
	}
	return v
}

// byCylinder is a tree of values for these cylinders.
func byCylinder(names []string, value func(string) any) *tree {
	t := newTree()
	for _, name := range names {
		if v := value(name); v != nil {
			t.put(name, v)
		}
	}
	return t
}

// refusal is a word for a test that was not made.
func (m *maker) refusal() string {
	return pick(m, "not tested", "declined", "declined (cost)", "could not test (plug seized)", "not applicable")
}

func (m *maker) readings() {
	switch {
	case m.rotary:
		m.faces()
	case m.chance(6):
		m.set(m.refusal(), "compression")
	case m.chance(82) || m.fault == "lone dead" || m.fault == "lone":
		m.compression()
	}
	if m.chance(40) {
		m.leakage()
	}
	if !m.diesel && m.chance(45) || m.fault == "one high and wet" || m.fault == "washed" {
		m.plugs()
	}
	if !m.rotary && m.chance(35) || m.rotary && m.chance(20) {
		m.fuelPressure()
	}
	for range 8 { // a job needs at least one reading
		if slices.ContainsFunc([]string{"compression", "rotors", "leakage", "plugs", "fuel-pressure"}, func(key string) bool { return m.sub(key) != nil }) {
			return
		}
		m.drop("fuel-pressure")
		m.fuelPressure()
	}
}

func (m *maker) compression() {
	m.set(m.unit.name, "compression", "unit")
	read := m.names
	if m.chance(7) {
		read = m.some(len(m.names))
	}
	if strings.HasPrefix(m.fault, "lone") {
		read = m.hurt
		if len(read) == 0 {
			read = m.names[:1]
		}
	}
	bounded := m.chance(5) // a gauge that ended too early
	m.set(byCylinder(read, func(name string) any {
		p := m.pressure[name]
		switch m.IntN(100) {
		case 0:
			return m.refusal()
		case 1, 2, 3, 4:
			return anys([]string{m.unit.write(p), m.unit.write(p * m.within(0.985, 1.015))})
		case 5:
			return anys([]string{m.unit.write(p), m.unit.write(p * m.within(0.8, 0.92))})
		}
		if top := m.unit.write(150); bounded && p > 150 && !m.diesel {
			return top + "+"
		}
		return m.reading(p)
	}), "compression", "dry")
	if m.chance(15) && len(m.names) > 1 {
		order := m.Perm(len(m.names))
		names := make([]string, len(order))
		for i, k := range order {
			names[i] = m.names[k]
		}
		m.set(names, "compression", "order")
	}
	if m.chance(15) {
		share := map[bool]float64{true: 0.32, false: 0.58}
		m.set(byCylinder(read, func(name string) any {
			return m.unit.write(m.pressure[name] * share[m.fault == "rings" && m.isHurt(name)])
		}), "compression", "first")
	}
	if m.chance(8) {
		name := read[0]
		m.set(m.unit.write(m.pressure[name]*m.within(0.97, 1.05)), "compression", "again", name)
	}
	m.wet(read)
	m.compressionLimits()
	if m.chance(7) && !m.diesel {
		m.set(byCylinder(m.names, func(name string) any {
			t := newTree()
			t.put("idle", m.unit.write(m.pressure[name]*0.45))
			t.put("snap", m.unit.write(m.pressure[name]*0.8))
			return t
		}), "compression", "running")
	}
}

func (m *maker) isHurt(name string) bool {
	for _, h := range m.hurt {
		if h == name {
			return true
		}
	}
	return false
}

// wet makes a test with oil in a share of the jobs; oil seldom goes into a
// diesel, but it happens.
func (m *maker) wet(read []string) {
	if !m.chance(22) || m.diesel && m.chance(80) {
		return
	}
	names := m.hurt
	if len(names) == 0 || m.chance(30) {
		names = read
	}
	rise := 1.04
	if m.fault == "rings" || m.fault == "washed" || m.fault == "all low" || m.chance(10) {
		rise = m.within(1.2, 1.45)
	}
	m.set(byCylinder(names, func(name string) any { return m.unit.write(m.pressure[name] * rise * m.within(0.99, 1.02)) }), "compression", "wet")
	if m.chance(60) {
		for _, name := range read {
			if !m.isHurt(name) {
				m.set(m.unit.write(m.pressure[name]*m.within(1, 1.06)), "compression", "wet", name)
				break
			}
		}
	}
	m.maybe(50, []string{"compression", "oil"}, "5 ml", "3 ml", "15 ml")
}

func (m *maker) compressionLimits() {
	if !m.chance(45) {
		return
	}
	base := 0.0
	for _, p := range m.pressure {
		base = math.Max(base, p)
	}
	l := func(key string) []string { return []string{"compression", "limits", key} }
	if m.chance(70) {
		m.set(m.unit.write(base*pick(m, 0.6, 0.7, 0.8, 0.88, 0.97, 1.1))+" "+m.unit.name, l("minimum")...)
	}
	m.maybe(30, l("lowest"), "75 % of highest", "70 % of highest", "85 % of highest")
	m.maybe(25, l("spread"), "10 % of highest", "15 % of highest", "10 % of lowest")
	m.maybe(20, l("difference"), m.unit.write(25)+" "+m.unit.name)
	m.maybe(15, l("below-mean"), "20 %", "12 %")
	m.maybe(10, l("from-mean"), m.unit.write(30)+" "+m.unit.name)
	if !m.has("compression", "limits") || len(m.sub("compression", "limits").keys) == 0 {
		m.set("75 % of highest", l("lowest")...)
	}
	m.maybe(15, l("from"), "sea level")
	m.maybe(10, l("cranking"), "250 rpm")
	m.maybe(60, l("source"), "workshop manual, p. 112")
	if m.chance(10) && readerKnows("engine: {layout: single}\ncompression: {unit: psi, dry: [150], limits: {standard: 170-190 psi}}\n") {
		m.set(m.unit.write(base*0.98)+"-"+m.unit.write(base*1.1)+" "+m.unit.name, l("standard")...)
	}
}

func (m *maker) faces() {
	if m.chance(5) {
		m.set(m.refusal(), "rotors")
		return
	}
	m.set(m.unit.name, "rotors", "unit")
	m.maybe(60, []string{"rotors", "cranking"}, "250 rpm", "210 rpm")
	bad := m.IntN(3)
	m.set(byCylinder(m.names, func(name string) any {
		if m.chance(4) {
			return "not tested"
		}
		faces := make([]string, 3)
		for i := range faces {
			p := 105 * m.within(0.97, 1.03)
			if m.isHurt(name) && (m.fault != "one low" || i == bad) && (m.fault != "gasket" || i != bad) {
				p = m.pressure[name]
			}
			faces[i] = m.unit.write(p)
		}
		return anys(faces)
	}), "rotors", "faces")
	if m.chance(50) {
		m.set(m.unit.write(pick(m, 85.0, 98, 104))+" "+m.unit.name, "rotors", "limits", "minimum")
		m.maybe(60, []string{"rotors", "limits", "between-faces"}, m.unit.write(21)+" "+m.unit.name)
		m.maybe(50, []string{"rotors", "limits", "between-rotors"}, m.unit.write(14)+" "+m.unit.name)
	}
}

package laws_test

import (
	"fmt"
	"slices"
	"strconv"
)

func (m *maker) leakage() {
	if m.chance(12) {
		m.set(m.refusal(), "leakage")
		return
	}
	names := m.names
	if m.chance(35) {
		names = m.hurt
		if len(names) == 0 {
			names = m.some(2)
		}
	}
	m.set(byCylinder(names, m.leak), "leakage", "dry")
	m.maybe(40, []string{"leakage", "limit"}, "20 %", "15 %", "10 %")
	m.maybe(30, []string{"leakage", "engine"}, "warm", "cold")
}

// leak is one cylinder's air: where the fault lets it out, or as a sound one.
func (m *maker) leak(name string) any {
	loss, at := m.within(4, 13), "crankcase"
	if m.isHurt(name) && m.chance(88) {
		loss = m.within(25, 60)
		switch m.fault {
		case "exhaust valve", "inlet valve":
			at = map[string]string{"exhaust valve": "exhaust", "inlet valve": "inlet"}[m.fault]
		case "gasket", "two neighbours low", "two neighbours dead":
			at = "neighbour"
		case "coolant", "one high and wet":
			at = "coolant"
		case "all low":
			loss, at = m.within(5, 12), "nowhere" // low, yet tight
		case "rings", "washed", "all low and uneven":
		default:
			at = pick(m, "exhaust", "inlet", "crankcase", "neighbour", "outside")
		}
	}
	if m.sayAir() && at == "coolant" || (m.twoStroke || m.rotary) && at == "inlet" {
		at = "crankcase"
	}
	if at == "neighbour" && (len(m.names) == 1 || m.text("engine", "heads") == "separate") {
		at = "outside"
	}
	if m.rotary && at == "neighbour" {
		at = "exhaust"
	}
	if m.chance(3) {
		return m.refusal()
	}
	if m.chance(15) {
		return fmt.Sprintf("%.0f/80", 80*(1-loss/100))
	}
	t := newTree()
	if !m.chance(6) || !readerKnows("engine: {layout: single}\nleakage: {dry: {1: {at: [exhaust]}}}\n") {
		t.put("loss", pick(m, "", "", "", "", "over ")+fmt.Sprintf("%.0f %%", loss))
	}
	if loss > 15 || m.chance(30) {
		t.put("at", anys([]string{at}))
	}
	if len(t.keys) == 0 {
		t.put("at", anys([]string{at}))
	}
	return t
}

var allLooks = []string{"normal", "worn", "sooty", "fuel-wet", "oil-wet", "ash", "white", "blistered", "melted", "detonation", "coolant", "bridged", "damaged", "tracked"}

func (m *maker) plugs() {
	if m.diesel && m.text("engine", "fuel") == "diesel" {
		return
	}
	if m.chance(10) {
		m.set(m.refusal(), "plugs")
		return
	}
	usual := "normal"
	if m.chance(25) {
		usual = pick(m, "sooty", "worn", "white", "ash", "oil-wet", "fuel-wet", "detonation")
	}
	names := m.names
	if m.chance(15) {
		names = m.some(3)
	}
	gap := m.chance(20)
	if gap {
		m.set("1.1 mm +/- 0.1", "plugs", "gap")
	}
	m.set(byCylinder(names, func(name string) any {
		look := usual
		if m.isHurt(name) && m.chance(75) {
			look = map[string]string{"rings": "oil-wet", "one high and wet": pick(m, "oil-wet", "fuel-wet", "coolant"), "coolant": "coolant", "washed": "fuel-wet",
				"exhaust valve": "normal", "one dead": "fuel-wet"}[m.fault]
			if look == "" {
				look = pick(m, allLooks...)
			}
		} else if m.chance(4) {
			look = pick(m, allLooks...)
		}
		if !gap {
			return look
		}
		t := newTree()
		t.put("look", look)
		t.put("gap", pick(m, "1.1 mm", "1.1 mm", "1.05 mm", "1.5 mm", "0.9 mm", "0.2 mm"))
		return t
	}), "plugs", "looks")
}

var fuelSystems = []string{"port, return line", "port, return line", "port, no return", "throttle body", "direct, low side"}

// fuelPressure makes readings of a system as it should be, with one thing
// wrong in half of the jobs.
func (m *maker) fuelPressure() {
	if m.chance(8) {
		m.set(m.refusal(), "fuel-pressure")
		return
	}
	system, base := pick(m, fuelSystems...), 42.0
	switch {
	case m.diesel:
		system, base = "diesel, lift pump", 12
	case m.carb:
		system, base = "carburettor", 5
	case system == "throttle body":
		base = 13
	case system == "direct, low side":
		base = 65
	}
	f := "fuel-pressure"
	m.set("psi", f, "unit")
	if m.chance(85) {
		m.set(system, f, "system")
	}
	if m.chance(8) {
		m.set(m.circuit(system, base, m.chance(50)), f, "circuits", "front tank")
		m.set(m.circuit(system, base, m.chance(50)), f, "circuits", "rear tank")
		if m.chance(50) {
			m.set(fmt.Sprintf("%.0f-%.0f psi", base*0.9, base*1.1), f, "limits", "key-on")
		}
		return
	}
	c := m.circuit(system, base, m.chance(55))
	for _, key := range c.keys {
		m.set(c.values[key], f, key)
	}
	if m.chance(25) && !m.diesel && readerKnows("engine: {layout: single}\nfuel-pressure: {unit: psi, idle: 40, pump: electric}\n") {
		m.set(pick(m, "electric", "mechanical"), f, "pump")
	}
}

// circuit is what one rail reads. A bad one has a reading or two off.
func (m *maker) circuit(system string, base float64, bad bool) *tree {
	values := map[string]float64{"key-on": base, "idle": base, "snap": base * 1.02}
	if system == "port, return line" || system == "throttle body" {
		values["return-pinched"] = base * 1.8
	}
	if system == "port, return line" {
		values["idle"], values["hose-off"] = base*0.8, base
	}
	if m.carb {
		delete(values, "key-on")
	}
	factors := map[string]float64{}
	if bad {
		for _, key := range []string{"key-on", "idle", "hose-off", "snap", "return-pinched"} {
			if m.chance(40) {
				factors[key] = pick(m, 0.0, 0.5, 0.75, 0.85, 1.25, 1.6)
			}
		}
	}
	t := newTree()
	limits := newTree()
	limited := m.chance(60)
	for _, key := range []string{"key-on", "idle", "hose-off", "snap", "return-pinched"} {
		v, has := values[key]
		if !has || key != "idle" && m.chance(35) {
			continue
		}
		if limited && m.chance(70) {
			limits.put(key, pick(m, fmt.Sprintf("%.1f-%.1f psi", v*0.9, v*1.1), fmt.Sprintf("%.1f psi +/- %.1f", v, v*0.08), fmt.Sprintf("at least %.1f psi", v*0.9), fmt.Sprintf("at most %.1f psi", v*1.1)))
		}
		if factor, off := factors[key]; off {
			v *= factor
		}
		t.put(key, strconv.FormatFloat(v*m.within(0.98, 1.02), 'f', 1, 64))
	}
	m.after(t, limits, base, bad, limited)
	if system == "port, return line" {
		if m.chance(40) {
			t.put("fuel-in-hose", pick(m, "no", "no", "no", "yes", "not looked"))
		}
		if m.chance(30) {
			t.put("manifold-vacuum", "18 inHg")
		}
	}
	if len(limits.keys) > 0 {
		limits.put("source", "manual, p. 40")
		t.put("limits", limits)
	}
	return t
}

// after is what a circuit holds after switching off, and what it delivers.
func (m *maker) after(t, limits *tree, base float64, bad, limited bool) {
	if m.chance(45) {
		held := pick(m, 0.95, 0.9, 0.85)
		if bad && m.chance(50) {
			held = pick(m, 0, 0.3, 0.6)
		}
		hold := newTree()
		hold.put("1 min", fmt.Sprintf("%.1f", base*(held+0.02)))
		hold.put("5 min", fmt.Sprintf("%.1f", base*held))
		t.put("hold", hold)
		if limited && m.chance(60) {
			limits.put("hold", fmt.Sprintf("at least %.1f psi after 5 min", base*0.75))
		}
	}
	if m.chance(25) {
		ml := pick(m, 550, 600, 700)
		if bad && m.chance(40) {
			ml = pick(m, 150, 300)
		}
		t.put("volume", fmt.Sprintf("%d ml in 30 s", ml))
		if limited && m.chance(60) {
			limits.put("volume", "at least 450 ml in 30 s")
		}
	}
}

var sights = []string{"scored bore at the front", "bright ring at the top of the wall, nothing else", "coolant standing on the crown", "exhaust valve edge burnt", "hole in the piston", "good cross-hatch, clean seats", "fuel standing on the piston"}

func (m *maker) rest() {
	if m.chance(12) {
		names := m.hurt
		if len(names) == 0 || m.chance(30) {
			names = m.some(2)
		}
		m.set(byCylinder(names, func(string) any { return pick(m, sights...) }), "borescope")
	}
	if !m.sayAir() && !m.rotary {
		m.maybe(12, []string{"coolant-gas-test"}, "positive", "negative", "negative", "not tested")
	}
	if m.chance(15) {
		m.set([]string{pick(m, "play in the fan bearing", "oil on the rear of the block", "pitted spark lead")}, "findings")
	}
	if m.chance(35) {
		m.set([]string{pick(m, "Set the valves and test again", "Renew the water hoses next winter", "Head off before anything else")}, "recommended")
	}
	if m.chance(20) {
		m.set([]string{pick(m, "Leakage test declined by the owner", "New battery refused")}, "declined")
	}
	m.maybe(25, []string{"notes"}, "Dipstick smells of fuel. Ordered gaskets on account.", "Engine was warm from the drive in.")
	if m.chance(20) {
		shop := newTree()
		shop.put("name", "Harrow Mills Engine Works")
		shop.put("disclaimer", "Figures as read on the day; ask before you rely on them.")
		m.set(shop, "shop")
	}
	if m.chance(8) {
		m.set("cover not taken off", "not-tested", "valve clearance")
	}
	if m.chance(15) {
		photo := newTree()
		photo.put("name", "P4")
		photo.put("shows", pick(m, "plug of the last cylinder", "oil on the block"))
		m.set([]any{photo}, "photos")
	}
	m.clean()
}

// clean takes out what the reader would refuse together: an empty group.
func (m *maker) clean() {
	for _, key := range slices.Clone(m.keys) {
		if group, ok := m.values[key].(*tree); ok && len(group.keys) == 0 {
			m.drop(key)
		}
	}
}

package laws_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"sync"
)

// A maker makes one random job. The same seed makes the same job.
type maker struct {
	*rand.Rand
	*tree
	kind      string // inline, V, flat ...
	names     []string
	banks     [][]string
	rotary    bool
	diesel    bool
	twoStroke bool
	carb      bool
	fault     string
	hurt      []string // the cylinders that the fault is in
	unit      unitForm
	pressure  map[string]float64 // what each cylinder truly makes, psi
}

// makeJob makes the job of a seed. It may be one that the reader refuses; try
// counts how often that was so before.
func makeJob(seed uint64, try int) *tree {
	m := &maker{Rand: rand.New(rand.NewPCG(seed, uint64(try)+77)), tree: newTree(), pressure: map[string]float64{}}
	m.set(pick(m, "customer", "customer", "workshop", "invoice", "pre-purchase"), "sheet")
	m.engine()
	m.chooseFault()
	m.identity()
	m.conditions()
	m.readings()
	m.systems()
	m.beforeWork()
	m.rest()
	return m.tree
}

func (m *maker) chance(percent int) bool { return m.IntN(100) < percent }

func pick[T any](m *maker, some ...T) T { return some[m.IntN(len(some))] }

// within is a number between two others.
func (m *maker) within(low, high float64) float64 { return low + (high-low)*m.Float64() }

// maybe sets one of the values in a share of the jobs.
func (m *maker) maybe(percent int, path []string, values ...string) {
	if m.chance(percent) {
		m.set(pick(m, values...), path...)
	}
}

// some are up to n of the cylinders, at least one, in their order.
func (m *maker) some(n int) []string {
	chosen := m.Perm(len(m.names))[:1+m.IntN(min(n, len(m.names)))]
	slices.Sort(chosen)
	out := make([]string, len(chosen))
	for i, k := range chosen {
		out[i] = m.names[k]
	}
	return out
}

func numbers(from, to int) []string {
	var out []string
	for i := from; i <= to; i++ {
		out = append(out, fmt.Sprint(i))
	}
	return out
}

func (m *maker) engine() {
	m.layout()
	e := func(keys ...string) []string { return append([]string{"engine"}, keys...) }
	m.fuel()
	if !m.rotary && m.twoStroke {
		m.set("two-stroke", e("cycle")...)
	} else {
		m.maybe(20, e("cycle"), "four-stroke")
	}
	m.maybe(25, e("charging"), "natural", "turbo", "supercharged")
	cc := m.within(90, 600)
	if m.chance(50) {
		if total := cc * float64(len(m.names)); total > 950 {
			m.set(fmt.Sprintf("%.1f L", total/1000), e("displacement")...)
		} else {
			m.set(fmt.Sprintf("%.0f ml", total), e("displacement")...)
		}
	}
	if m.chance(45) {
		ratio := m.within(8, 12)
		switch {
		case m.diesel:
			ratio = m.within(15, 22)
		case m.chance(15):
			ratio = m.within(4.6, 8)
		}
		m.set(fmt.Sprintf("%.1f", ratio), e("compression-ratio")...)
		m.maybe(15, e("inlet-closes"), "50 deg", "62 deg", "70 deg")
	}
	if len(m.names) <= 2 && !m.rotary {
		m.maybe(20, e("decompressor"), "none", "automatic", "held off")
	}
	m.maybe(8, e("variable-timing"), "yes", "no")
	m.newFacts()
	if !m.rotary && m.kind != "radial" && m.kind != "custom" {
		m.maybe(20, e("mount"), "front lengthwise", "rear", "mid", "on stand")
	}
	if n := len(m.names); n > 2 && !m.rotary && m.chance(25) {
		order := m.Perm(n)
		firing := make([]string, n)
		for i, k := range order {
			firing[i] = m.names[k]
		}
		m.set(firing, e("firing-order")...)
	}
}

// layouts are all arrangements, the common ones more often.
var layouts = []string{"single", "single", "inline", "inline", "inline", "inline", "inline", "V", "V", "V", "flat", "flat", "narrow-V", "W", "radial", "rotary", "rotary", "custom"}

func (m *maker) layout() {
	m.kind = pick(m, layouts...)
	n, layout, twoBanks := 1, m.kind, false
	switch m.kind {
	case "inline":
		n = pick(m, 2, 3, 4, 4, 4, 5, 6, 6, 8, 2+m.IntN(11))
		layout = fmt.Sprintf("inline-%d", n)
	case "V", "flat":
		n, twoBanks = 2*pick(m, 1, 2, 3, 3, 4, 4, 5, 6), true
		layout = fmt.Sprintf("%s-%d", m.kind, n)
		if m.kind == "V" {
			layout = fmt.Sprintf("V%d", n)
		}
	case "narrow-V":
		n = pick(m, 4, 5, 6)
		layout = fmt.Sprintf("narrow-V%d", n)
	case "W":
		n, twoBanks = pick(m, 8, 12), true
		layout = fmt.Sprintf("W%d", n)
	case "radial":
		n = 3 + 2*m.IntN(4)
		layout = fmt.Sprintf("radial-%d", n)
	case "rotary":
		n, m.rotary = 1+m.IntN(4), true
		layout = fmt.Sprintf("rotary-%d", n)
	case "custom":
		m.custom()
		return
	}
	m.set(layout, "engine", "layout")
	m.names = numbers(1, n)
	if !twoBanks {
		return
	}
	m.set(pick(m, "left", "right"), "engine", "first-bank")
	if n > 2 {
		numbering := pick(m, "across banks", "bank by bank")
		m.set(numbering, "engine", "numbering")
		m.banks = [][]string{m.names[:n/2], m.names[n/2:]}
		if numbering == "across banks" {
			m.banks = [][]string{nil, nil}
			for i, name := range m.names {
				m.banks[i%2] = append(m.banks[i%2], name)
			}
		}
	}
	if m.kind == "flat" {
		m.maybe(20, []string{"engine", "heads"}, "separate")
	}
}

func (m *maker) custom() {
	m.set("custom", "engine", "layout")
	m.names = []string{"front left", "front right", "rear left", "rear right"}
	var cylinders []any
	for i, name := range m.names {
		c := newTree()
		c.put("name", name)
		c.put("x", fmt.Sprint(i%2))
		c.put("y", fmt.Sprint(i/2))
		c.put("head", "1")
		cylinders = append(cylinders, c)
	}
	m.set(cylinders, "engine", "cylinders")
}

func (m *maker) fuel() {
	small := len(m.names) <= 3 && m.kind != "radial" && m.kind != "flat"
	switch {
	case m.rotary:
		m.maybe(60, []string{"engine", "fuel"}, "petrol")
		return
	case m.chance(22) && m.kind != "radial":
		m.diesel = true
		m.set("diesel", "engine", "fuel")
	case small && m.chance(30):
		m.twoStroke = true
		m.set(pick(m, "petrol", "two-stroke mix"), "engine", "fuel")
	case m.chance(82):
		m.set(pick(m, "petrol", "petrol", "petrol", "petrol", "lpg", "cng", "ethanol"), "engine", "fuel")
	default: // not said; one in four of these is a diesel in truth
		m.diesel = m.chance(25)
	}
	m.carb = !m.diesel && (m.twoStroke || m.kind == "radial" || m.chance(20))
}

// newFacts are the engine facts that decide; each is set only where the reader
// knows its key already.
func (m *maker) newFacts() {
	add := func(percent int, key string, values ...string) {
		if v := pick(m, values...); m.chance(percent) && readerKnows("engine: {layout: inline-4, "+key+": "+scalar(v)+"}\ncompression: {unit: psi, dry: [150, 150, 150, 150]}\n") {
			m.set(v, "engine", key)
		}
	}
	if !m.rotary && !m.twoStroke {
		add(40, "lifters", "hydraulic", "solid")
		add(10, "valve-gear", "side valves", "overhead valves")
		add(30, "timing-drive", "belt", "chain", "gears")
		if m.banks != nil {
			add(40, "camshafts", "one", "one per bank", "two per bank")
		}
		add(20, "interference", "yes", "no")
	}
	add(35, "cooling", "liquid", "air")
	add(20, "hybrid", "yes")
	add(30, "runs", "well", "rough", "does not run", "not tried")
	if m.kind == "inline" && len(m.names) == 4 && !m.diesel && m.chance(30) &&
		readerKnows("engine: {layout: inline-4, shared-coils: [[1, 4], [2, 3]]}\ncompression: {unit: psi, dry: [150, 150, 150, 150]}\n") {
		m.set([]any{anys([]string{"1", "4"}), anys([]string{"2", "3"})}, "engine", "shared-coils")
	}
	if m.kind == "V" && len(m.names) == 8 && m.chance(30) &&
		readerKnows("engine: {layout: V8, numbering: across banks, first-bank: left, deactivates: [1, 4, 6, 7]}\ncompression: {unit: psi, dry: [150, 150, 150, 150, 150, 150, 150, 150]}\n") {
		m.set([]string{"1", "4", "6", "7"}, "engine", "deactivates")
	}
}

var known sync.Map

// readerKnows tells whether a job file is read without a problem: whether its
// keys are known yet.
func readerKnows(text string) bool {
	yes, tried := known.Load(text)
	if !tried {
		_, problems := reader.Read("probe.yaml", []byte(text))
		yes = len(problems) == 0
		known.Store(text, yes)
	}
	return yes.(bool)
}

func (m *maker) identity() {
	m.set(fmt.Sprintf("W-%d", m.IntN(9999)), "job", "number")
	m.set("2026-05-14", "job", "date")
	if m.chance(45) {
		m.set(m.complaints(), "job", "complaints")
	}
	m.maybe(40, []string{"job", "reason"}, "Bought untested", "Runs rough on the hill road", "No start after standing; coolant loss said to be none", "Baseline before parts are bought")
	m.maybe(35, []string{"vehicle", "description"}, "2009 panel van", "barn-found tractor", "stationary pump engine")
	m.maybe(12, []string{"vehicle", "stood"}, "8 months", "2 years", "3 weeks")
	if m.chance(25) {
		m.set(pick(m, []string{"P0300"}, []string{"P0303", "P0171"}, []string{"P0016"}), "vehicle", "codes")
	}
	if m.chance(22) {
		m.set([]string{m.workDone()}, "vehicle", "work-done")
	}
	for _, key := range []string{"onset", "oil-use"} {
		value := map[string]string{"onset": "slow over months", "oil-use": "1 l in 1000 km"}[key]
		if m.chance(10) && readerKnows("job: {"+key+": "+value+"}\nengine: {layout: single}\ncompression: {unit: psi, dry: [150]}\n") {
			m.set(value, "job", key)
		}
	}
	if m.chance(12) && readerKnows("smoke: {colour: blue, when: [start]}\nengine: {layout: single}\ncompression: {unit: psi, dry: [150]}\n") {
		m.set(pick(m, "blue", "white", "black"), "smoke", "colour")
		m.set([]string{pick(m, "start", "idle", "load", "overrun", "always")}, "smoke", "when")
	}
}

func (m *maker) complaints() []string {
	all := []string{"misfire", "no start", "hard start", "rich running", "lean running", "low power", "oil use", "coolant loss", "overheating", "noise", "stood"}
	if m.rotary || m.sayAir() {
		all = slices.DeleteFunc(all, func(c string) bool { return c == "coolant loss" })
	}
	var out []string
	for _, k := range m.Perm(len(all))[:1+m.IntN(2)] {
		if !(all[k] == "hard start" && slices.Contains(out, "no start")) {
			out = append(out, all[k])
		}
	}
	return out
}

func (m *maker) sayAir() bool { return m.text("engine", "cooling") == "air" }

// workDone is something that was done before, by the names of checks or in
// other words.
func (m *maker) workDone() string {
	return pick(m, "new plugs", "coil on "+m.names[0]+" swapped", "valve lash done", "leak-down done", "borescope not available", "fuel-volume done",
		"cam timing marks done", "second gauge done", "head gasket renewed", "wet test done", "compression test done",
		strings.ReplaceAll(pick(m, "watch-valve-gear", "coolant-gas-test", "pump-volts", "turn-by-hand"), "-", pick(m, " ", "-"))+" done")
}

package loop_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
)

// Fuel systems as the job file names them.
const (
	carburettor  = "carburettor"
	throttleBody = "throttle body"
	portReturn   = "port, return line"
	portNoReturn = "port, no return"
	directLow    = "direct, low side"
	dieselLift   = "diesel, lift pump"
)

// A family is a common kind of engine.
type family struct {
	name       string
	layout     string
	cylinders  int // rotors of a rotary
	fuel       string
	twoStroke  bool
	air        bool       // cooled by air
	flies      bool       // it has two magnetos
	separate   bool       // a head for each cylinder
	cc         [2]float64 // swept volume of one cylinder, from and to
	ratio      [2]float64
	systems    []string
	lifters    []string // "" where there is nothing to set
	camshafts  []string
	decompress bool // may have an automatic decompressor
}

var families = []family{
	{name: "small single", layout: "single", cylinders: 1, fuel: "petrol", air: true, cc: [2]float64{100, 200}, ratio: [2]float64{8, 9.5}, systems: []string{carburettor}, lifters: []string{"solid"}, camshafts: []string{"one"}, decompress: true},
	{name: "large single", layout: "single", cylinders: 1, fuel: "petrol", cc: [2]float64{400, 650}, ratio: [2]float64{9, 11.5}, systems: []string{carburettor, portNoReturn}, lifters: []string{"solid"}, camshafts: []string{"one"}, decompress: true},
	{name: "V-twin", layout: "V2", cylinders: 2, fuel: "petrol", air: true, separate: true, cc: [2]float64{350, 800}, ratio: [2]float64{8, 10}, systems: []string{carburettor, portNoReturn}, lifters: []string{"solid", "hydraulic"}, camshafts: []string{"one", "one per bank"}},
	{name: "inline three", layout: "inline-3", cylinders: 3, fuel: "petrol", cc: [2]float64{330, 340}, ratio: [2]float64{10, 11}, systems: []string{portNoReturn, directLow}, lifters: []string{"solid", "hydraulic"}, camshafts: []string{"two per bank"}},
	{name: "inline four", layout: "inline-4", cylinders: 4, fuel: "petrol", cc: [2]float64{300, 600}, ratio: [2]float64{8.5, 11}, systems: []string{carburettor, throttleBody, portReturn, portNoReturn, directLow}, lifters: []string{"solid", "hydraulic"}, camshafts: []string{"one", "two per bank"}},
	{name: "inline four on LPG", layout: "inline-4", cylinders: 4, fuel: "lpg", cc: [2]float64{400, 500}, ratio: [2]float64{9, 10}, lifters: []string{"solid", "hydraulic"}, camshafts: []string{"one"}},
	{name: "inline six", layout: "inline-6", cylinders: 6, fuel: "petrol", cc: [2]float64{400, 700}, ratio: [2]float64{8.5, 10.5}, systems: []string{carburettor, portReturn, portNoReturn}, lifters: []string{"solid", "hydraulic"}, camshafts: []string{"one", "two per bank"}},
	{name: "flat four, air", layout: "flat-4", cylinders: 4, fuel: "petrol", air: true, separate: true, cc: [2]float64{300, 450}, ratio: [2]float64{7, 8.5}, systems: []string{carburettor}, lifters: []string{"solid"}, camshafts: []string{"one"}},
	{name: "flat four, liquid", layout: "flat-4", cylinders: 4, fuel: "petrol", cc: [2]float64{400, 630}, ratio: [2]float64{9, 10.5}, systems: []string{portReturn, portNoReturn}, lifters: []string{"solid", "hydraulic"}, camshafts: []string{"one per bank", "two per bank"}},
	{name: "flat six, air", layout: "flat-6", cylinders: 6, fuel: "petrol", air: true, separate: true, cc: [2]float64{350, 600}, ratio: [2]float64{8.5, 10}, systems: []string{portReturn}, lifters: []string{"solid"}, camshafts: []string{"one per bank"}},
	{name: "flat six, liquid", layout: "flat-6", cylinders: 6, fuel: "petrol", cc: [2]float64{450, 600}, ratio: [2]float64{10, 11.5}, systems: []string{portNoReturn}, lifters: []string{"hydraulic"}, camshafts: []string{"two per bank"}},
	{name: "V6", layout: "V6", cylinders: 6, fuel: "petrol", cc: [2]float64{400, 600}, ratio: [2]float64{9, 11}, systems: []string{portReturn, portNoReturn, directLow}, lifters: []string{"hydraulic", "solid"}, camshafts: []string{"one", "one per bank", "two per bank"}},
	{name: "V8", layout: "V8", cylinders: 8, fuel: "petrol", cc: [2]float64{500, 800}, ratio: [2]float64{8, 10.5}, systems: []string{carburettor, throttleBody, portReturn, portNoReturn}, lifters: []string{"hydraulic"}, camshafts: []string{"one", "one per bank"}},
	{name: "V12", layout: "V12", cylinders: 12, fuel: "petrol", cc: [2]float64{400, 500}, ratio: [2]float64{9, 11}, systems: []string{portReturn}, lifters: []string{"hydraulic", "solid"}, camshafts: []string{"one per bank"}},
	{name: "two-stroke single", layout: "single", cylinders: 1, fuel: "two-stroke mix", twoStroke: true, air: true, cc: [2]float64{50, 250}, ratio: [2]float64{7, 9}, systems: []string{carburettor}},
	{name: "two-stroke twin", layout: "inline-2", cylinders: 2, fuel: "two-stroke mix", twoStroke: true, cc: [2]float64{125, 350}, ratio: [2]float64{7, 9}, systems: []string{carburettor}},
	{name: "diesel four", layout: "inline-4", cylinders: 4, fuel: "diesel", cc: [2]float64{400, 600}, ratio: [2]float64{16, 22}, systems: []string{dieselLift}, lifters: []string{"solid", "hydraulic"}, camshafts: []string{"one"}},
	{name: "diesel six", layout: "inline-6", cylinders: 6, fuel: "diesel", cc: [2]float64{700, 1200}, ratio: [2]float64{16, 18}, systems: []string{dieselLift}, lifters: []string{"solid"}, camshafts: []string{"one"}},
	{name: "diesel V8", layout: "V8", cylinders: 8, fuel: "diesel", cc: [2]float64{750, 850}, ratio: [2]float64{17, 22}, systems: []string{dieselLift}, lifters: []string{"hydraulic"}, camshafts: []string{"one"}},
	{name: "rotary", layout: "rotary-2", cylinders: 2, fuel: "petrol", cc: [2]float64{574, 654}, ratio: [2]float64{9, 10}, systems: []string{carburettor, portReturn}},
}

// A machine is one engine of a family.
type machine struct {
	family
	eachML    float64
	cr        float64
	usual     float64 // compression of a new one, psi
	system    string
	lifter    string
	camshaft  string
	byBank    bool
	banks     [][]int // cylinders from 0, front to rear
	heads     [][]int
	starts    bool   // the engine runs
	well      bool   // and runs well
	released  bool   // its automatic decompressor is at work in the test
	timing    string // belt, chain, gears
	meets     bool   // valves and pistons can meet
	tellsFact bool   // the job says what is known of camshafts, lifters and cooling
}

func (f *family) rotary() bool { return f.layout == "rotary-2" }
func (f *family) diesel() bool { return f.fuel == "diesel" }
func (f *family) flat() bool   { return strings.HasPrefix(f.layout, "flat") }
func (f *family) valves() bool { return !f.rotary() && !f.twoStroke }
func (f *family) twoBanks() bool {
	return f.cylinders > 1 && (f.flat() || strings.HasPrefix(f.layout, "V"))
}

// oilTells reports that oil put into a bore lies on its rings and may be put in.
func (m *machine) oilTells() bool { return m.valves() && !m.diesel() && !m.flat() && m.eachML >= 125 }

func pick[T any](r *rand.Rand, of []T) T {
	if len(of) == 0 {
		var none T
		return none
	}
	return of[r.IntN(len(of))]
}

func between(r *rand.Rand, from, to float64) float64 { return from + (to-from)*r.Float64() }

func newMachine(r *rand.Rand, f family) *machine {
	m := &machine{family: f, eachML: between(r, f.cc[0], f.cc[1]), cr: between(r, f.ratio[0], f.ratio[1]), starts: true,
		system: pick(r, f.systems), lifter: pick(r, f.lifters), camshaft: pick(r, f.camshafts), byBank: r.IntN(2) == 0,
		timing: pick(r, []string{"belt", "chain"}), meets: r.IntN(3) > 0, tellsFact: r.IntN(3) > 0}
	// Petrol by its ratio with the inlet closing 60 degrees after bottom dead
	// centre, from the slider-crank and n = 1.25; the rest common practice.
	switch {
	case f.diesel():
		m.usual = between(r, 380, 450)
	case f.twoStroke:
		m.usual = between(r, 125, 160)
	case f.rotary():
		m.usual = between(r, 115, 125)
	default:
		m.usual = 142 + 25*(m.cr-8)
	}
	if m.cylinders < 3 {
		m.timing = "chain"
	}
	m.place()
	return m
}

// place puts the cylinders into banks and heads.
func (m *machine) place() {
	one := make([]int, m.cylinders)
	for i := range one {
		one[i] = i
	}
	m.banks = [][]int{one}
	if m.twoBanks() {
		m.banks = [][]int{{}, {}}
		for i := range one {
			b := i % 2
			if m.byBank {
				b = i * 2 / m.cylinders
			}
			m.banks[b] = append(m.banks[b], i)
		}
	}
	m.heads = m.banks
	if m.separate {
		m.heads = nil
		for i := range one {
			m.heads = append(m.heads, []int{i})
		}
	}
}

// cylinderName is what the job calls a cylinder, or a rotor.
func (m *machine) cylinderName(i int) string {
	if m.rotary() {
		return []string{"front", "rear"}[i]
	}
	return strconv.Itoa(i + 1)
}

// pairs are the cylinders that stand side by side under one head.
func (m *machine) pairs() [][2]int {
	var list [][2]int
	for _, h := range m.heads {
		for i := 1; i < len(h); i++ {
			list = append(list, [2]int{h[i-1], h[i]})
		}
	}
	return list
}

// yaml is the engine's line of the job file; facts are its optional keys that
// the reader knows; decompressor is what was found of one.
func (m *machine) yaml(fact func(key, value string) string, decompressor string) string {
	parts := []string{"layout: " + m.layout}
	if m.twoBanks() {
		numbering := "across banks"
		if m.byBank {
			numbering = "bank by bank"
		}
		parts = append(parts, "numbering: "+numbering, "first-bank: left")
	}
	if m.separate {
		parts = append(parts, "heads: separate")
	}
	parts = append(parts, "fuel: "+m.fuel)
	if m.twoStroke {
		parts = append(parts, "cycle: two-stroke")
	}
	parts = append(parts, fmt.Sprintf("displacement: %.0f ml", m.eachML*float64(m.cylinders)))
	if !m.rotary() {
		parts = append(parts, fmt.Sprintf("compression-ratio: %.1f", m.cr))
	}
	if decompressor == "" && m.released && m.tellsFact {
		decompressor = "automatic"
	}
	if decompressor != "" {
		parts = append(parts, "decompressor: "+decompressor)
	}
	if m.tellsFact {
		cooling := "liquid"
		if m.air {
			cooling = "air"
		}
		parts = append(parts, fact("cooling", cooling))
		if m.valves() {
			parts = append(parts, fact("camshafts", m.camshaft), fact("lifters", m.lifter), fact("timing-drive", m.timing), fact("interference", map[bool]string{true: "yes", false: "no"}[m.meets]))
		}
	}
	runs := "rough"
	switch {
	case !m.starts:
		runs = "does not run"
	case m.well:
		runs = "well"
	}
	parts = append(parts, fact("runs", runs))
	return "engine: {" + strings.Join(slices.DeleteFunc(parts, func(p string) bool { return p == "" }), ", ") + "}\n"
}

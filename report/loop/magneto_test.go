package loop_test

import "fmt"

// A magnetoTruth is what is wrong with the sparks of an engine with two magnetos.
type magnetoTruth struct {
	side       string // of the magneto, "" where nothing is wrong
	cylinder   int    // whose plug or wire fails on it
	plug, wire bool
	sooted     bool // the plug is fouled with what burns off
	weak       bool // the magneto itself
	live       bool // its ground wire is open
}

// flyers are engines with two magnetos, kept apart from the families of the road: only
// faults of magnetos are theirs.
var flyers = []family{
	{name: "aircraft four", layout: "flat-4", cylinders: 4, fuel: "petrol", air: true, separate: true, flies: true, cc: [2]float64{820, 1480}, ratio: [2]float64{7, 8.7}, systems: []string{carburettor}, lifters: []string{"hydraulic"}, camshafts: []string{"one"}},
	{name: "aircraft six", layout: "flat-6", cylinders: 6, fuel: "petrol", air: true, separate: true, flies: true, cc: [2]float64{1280, 1560}, ratio: [2]float64{7.5, 8.7}, systems: []string{portReturn, carburettor}, lifters: []string{"hydraulic"}, camshafts: []string{"one"}},
	{name: "aircraft radial", layout: "radial-7", cylinders: 7, fuel: "petrol", air: true, separate: true, flies: true, cc: [2]float64{1200, 1800}, ratio: [2]float64{5.5, 7}, systems: []string{carburettor}, lifters: []string{"solid"}, camshafts: []string{"one"}},
}

// sparkFails is a fault of one plug or wire, or of a magneto, on one side.
func sparkFails(name, cause string, reads []string, spoil func(*magnetoTruth)) fault {
	return fault{name: name, among: flyers, causes: []string{cause}, complaints: []string{"misfire", "low power"}, reads: reads,
		spoil: func(b *bench) {
			m := &b.truth.further.magneto
			m.side, m.cylinder = pick(b.rng, []string{"left", "right"}), b.rng.IntN(b.cylinders)
			spoil(m)
		}}
}

var magnetoFaults = []fault{
	sparkFails("magneto-plug-fouled", "magneto-plug", []string{"magnetos"}, func(m *magnetoTruth) { m.plug, m.sooted = true, true }),
	sparkFails("magneto-plug-worn", "magneto-plug", []string{"magnetos"}, func(m *magnetoTruth) { m.plug = true }),
	sparkFails("magneto-wire", "magneto-lead", nil, func(m *magnetoTruth) { m.wire = true }),
	sparkFails("magneto-wire-and-heads", "magneto-lead", []string{"magnetos", "heads"}, func(m *magnetoTruth) { m.wire = true }),
	sparkFails("magneto-weak", "magneto", nil, func(m *magnetoTruth) { m.weak = true }),
	{name: "magneto-live", among: flyers, causes: []string{"magneto-ground"}, complaints: []string{""}, reads: []string{"magnetos"}, spoil: func(b *bench) {
		b.truth.further.magneto = magnetoTruth{side: pick(b.rng, []string{"left", "right"}), live: true}
	}},
}

// magnetos are the drops on each magneto alone: on a sound one what the FAA's training
// text has, 25 to 75 rpm.
func (b *bench) magnetos() string {
	t, drops := &b.truth.further.magneto, map[string]float64{}
	for _, side := range []string{"left", "right"} {
		drops[side] = 55 + b.draw(-15, 15)
		other := t.side != "" && t.side != side
		switch {
		case t.live && other: // the one that should be off fires on
			drops[side] = 0
		case t.side == side && (t.plug || t.wire):
			drops[side] += b.draw(150, 300)
		case t.side == side && t.weak:
			drops[side] += b.draw(120, 220)
		}
	}
	return fmt.Sprintf("{at: 1800 rpm, left: %.0f, right: %.0f, limits: {drop: 150, difference: 50, source: handbook}}", drops["left"], drops["right"])
}

// headsRead are the heads after a run on the magneto that loses more.
func (b *bench) headsRead() string {
	t, side, warm := &b.truth.further.magneto, "left", map[int]float64{}
	if t.side != "" {
		side = t.side
	}
	for i := range b.bores {
		warm[i] = 320 * b.noise(0.03)
		if (t.plug || t.wire) && t.cylinder == i {
			warm[i] *= 0.6
		}
	}
	return fmt.Sprintf("{unit: F, magneto: %s, at: 1400 rpm, temperature: %s}", side, byCylinder(b.machine, warm, func(v float64) string { return fmt.Sprintf("%.0f", v) }))
}

// magnetoAnswers are what somebody finds who makes one of these checks.
var magnetoAnswers = map[string]func(b *bench, on []int) answer{
	"magneto-check": taken("magnetos"),
	"cold-cylinder": taken("heads"),
	"burn-plugs-clean": func(b *bench, _ []int) answer {
		return yes(b.truth.further.magneto.sooted, "both alike now", "still uneven")
	},
	"plug-and-lead-swap": func(b *bench, on []int) answer {
		t := &b.truth.further.magneto
		if t.wire && (len(on) == 0 || on[0] == t.cylinder) {
			return answer{true, []string{"the lead leaks"}}
		}
		return yes(t.plug && (len(on) == 0 || on[0] == t.cylinder), "the plug is bad", "both are good")
	},
	"magneto-ground-test": func(b *bench, _ []int) answer {
		return yes(b.truth.further.magneto.live, "lead or switch is open", "each is grounded")
	},
	"magneto-look": func(b *bench, _ []int) answer {
		return yes(b.truth.further.magneto.weak, "worn or out of time", "right")
	},
}

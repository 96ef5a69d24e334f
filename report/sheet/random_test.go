package sheet_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
)

// A jobWriter writes random job files: any engine, any sections, short and
// long words.
type jobWriter struct {
	*rand.Rand
	strings.Builder
	full  bool // every section, every key
	long  bool // long words
	names []string
}

func randomJob(seed uint64) string {
	w := &jobWriter{Rand: rand.New(rand.NewPCG(seed, 11))}
	w.full, w.long = w.IntN(4) == 0, w.IntN(3) == 0
	w.identity()
	rotors := w.engine()
	w.conditions()
	if rotors > 0 {
		w.rotors()
	} else {
		w.readings()
	}
	if w.has() {
		w.fuel()
	}
	w.own()
	return w.String()
}

func (w *jobWriter) has() bool { return w.full || w.IntN(5) < 3 }

func (w *jobWriter) line(format string, args ...any) { fmt.Fprintf(w, format+"\n", args...) }

func pick[T any](w *jobWriter, some ...T) T { return some[w.IntN(len(some))] }

// words are up to n words, twice as many and with one that is hard to break in
// a job of long words.
func (w *jobWriter) words(n int) string {
	vocabulary := []string{"bought", "untested", "engine", "of", "a", "stored", "saloon", "with", "workshop", "harbour", "number", "three", "before", "parts"}
	if w.long {
		n *= 2
	}
	var all []string
	for range 1 + w.IntN(n) {
		all = append(all, vocabulary[w.IntN(len(vocabulary))])
	}
	if w.long && w.IntN(3) == 0 {
		all = append(all, "Oberammergauer-Passionsfestspiel")
	}
	return strings.Join(all, " ")
}

func (w *jobWriter) identity() {
	w.line("job:\n  number: W-%d\n  date: 2026-05-14\n  technician: %s\n  reason: %s", w.IntN(9999), w.words(2), w.words(8))
	if w.has() {
		w.line("  complaints: [misfire, oil use, hard start]\n  ordered-by: %s\n  invoice: \"33%d\"\n  place: %s\n  started: \"09:40\"", w.words(3), w.IntN(99), w.words(3))
		w.line("  authorised: {by: %s, when: the day before, how: by phone}\n  valid: {days: 60, distance: 2000 km}", w.words(2))
	}
	if w.has() {
		w.line("shop: profiles/harrow-mills.yaml")
	}
	if w.has() {
		w.line("customer: {name: %s}\nseller: {name: %s}\nindependence: %s", w.words(3), w.words(3), w.words(8))
	}
	w.line("vehicle:\n  description: %s", w.words(5))
	if w.has() {
		w.line("  vin: HM4120W0P31207\n  vin-read-at: %s\n  plate: HM 20 418\n  engine-number: HM-1201\n  odometer: {reading: 143210 mi, status: actual}", w.words(2))
		w.line("  vin-matches: %s\n  state-on-arrival: %s\n  codes: [P0300, P0301, P0304]\n  stood: 8 months\n  work-done: [%s, %s]\n  driver-side: left", w.words(4), w.words(6), w.words(3), w.words(3))
	}
}

// engine writes an engine and returns its number of rotors.
func (w *jobWriter) engine() (rotors int) {
	n, banks := 0, false
	layout := ""
	switch w.IntN(10) {
	case 0:
		n, layout = 1, "single"
	case 1, 2:
		n = 2 + w.IntN(11)
		layout = fmt.Sprintf("inline-%d", n)
	case 3, 4, 5:
		n, banks = 2*(1+w.IntN(8)), true
		layout = fmt.Sprintf("V%d", n)
	case 6:
		n, banks = 2*(1+w.IntN(6)), true
		layout = fmt.Sprintf("flat-%d", n)
	case 7:
		n = 3 + 2*w.IntN(4)
		layout = fmt.Sprintf("radial-%d", n)
	case 8:
		n = pick(w, 4, 5, 6)
		layout = fmt.Sprintf("narrow-V%d", n)
		if w.IntN(2) == 0 {
			n, banks = pick(w, 8, 12), true
			layout = fmt.Sprintf("W%d", n)
		}
	default:
		rotors = 1 + w.IntN(4)
		layout = fmt.Sprintf("rotary-%d", rotors)
	}
	w.line("engine:\n  layout: %s\n  fuel: %s", layout, pick(w, "petrol", "petrol", "diesel"))
	if banks {
		w.line("  numbering: %s\n  first-bank: %s", pick(w, "across banks", "bank by bank"), pick(w, "left", "right"))
	}
	if rotors == 0 {
		for i := range n {
			w.names = append(w.names, fmt.Sprint(i+1))
		}
		order := w.Perm(n)
		firing := make([]string, n)
		for i, k := range order {
			firing[i] = w.names[k]
		}
		if n > 1 && w.has() {
			w.line("  firing-order: %s", strings.Join(firing, "-"))
		}
		if !strings.HasPrefix(layout, "radial") && w.has() {
			w.line("  mount: %s", pick(w, "front lengthwise", "rear", "mid", "on stand"))
		}
	}
	if w.has() {
		w.line("  displacement: 4.7 L\n  compression-ratio: 9.2")
	}
	for i := range rotors {
		w.names = append(w.names, fmt.Sprint(i+1))
	}
	return rotors
}

func (w *jobWriter) conditions() {
	w.line("conditions:\n  engine: %s", pick(w, "cold", "warm", "hot"))
	if w.has() {
		w.line("  coolant: 82 C\n  throttle: %s\n  plugs-out: all\n  strokes: 6\n  cranking: 210 rpm\n  battery: {rest: 12.6 V, cranking: 10.8 V, charger: yes}", pick(w, "open", "closed", "not sure"))
		w.line("  altitude: 400 ft\n  needle: holds\n  ignition-disabled: %s\n  fuel-disabled: %s\n  method: %s", w.words(3), w.words(3), w.words(6))
	}
	if w.has() {
		w.line("gauges:\n  compression: {name: dial %s, range: 0-300 psi, accuracy: 2 %% of span, division: 5 psi, checked: 2026-01-10}", w.words(1))
		w.line("  leakage: {supply: 100 psi, orifice: 0.040 in}\n  fuel: {range: 0-100 psi, accuracy: grade B}")
	}
}

// of is a map of cylinders with values; some are passed over.
func (w *jobWriter) of(part int, value func() string) string {
	var all []string
	for i, name := range w.names {
		if i > 0 && w.IntN(10) >= part {
			continue
		}
		all = append(all, name+": "+value())
	}
	return "{" + strings.Join(all, ", ") + "}"
}

func (w *jobWriter) pressure() string {
	v := 150 + w.IntN(12)
	switch w.IntN(12) {
	case 0:
		v = 60 + w.IntN(60)
	case 1:
		return fmt.Sprintf("[%d, %d]", v, v+3)
	case 2:
		if w.IntN(3) == 0 {
			return pick(w, "not tested", "could not test (plug seized)", "about 140", "[130, 165]", "0")
		}
	}
	return fmt.Sprint(v)
}

func (w *jobWriter) readings() {
	w.line("compression:\n  unit: psi\n  dry: %s", w.of(10, w.pressure))
	whole := func() string { return fmt.Sprint(150 + w.IntN(30)) }
	if w.has() {
		w.line("  first: %s\n  wet: %s\n  oil: 5 ml\n  again: {1: 151}", w.of(8, func() string { return fmt.Sprint(70 + w.IntN(30)) }), w.of(pick(w, 2, 5, 9), whole))
	}
	if w.has() {
		w.line("  limits: {minimum: 128 psi, lowest: 75 %% of highest, spread: 10 %% of highest, difference: 25 psi, from: sea level, source: %q}", "manual, "+w.words(4))
	}
	if w.has() {
		at := func() string { return pick(w, "exhaust", "inlet", "crankcase", "coolant") }
		w.line("leakage:\n  limit: 20 %%\n  dry: %s", w.of(9, func() string {
			return fmt.Sprintf("{loss: %d %%, at: [%s]}", pick(w, 5, 7, 8, 9, 12, 34), at())
		}))
	}
	if w.has() {
		w.line("plugs:\n  fitted: 3 months ago\n  gap: 1.1 mm +/- 0.1\n  looks: %s", w.of(9, func() string {
			return pick(w, "normal", "normal", "normal", "worn", "sooty", "oil-wet", "detonation", "{look: oil-wet, gap: 1.3 mm, note: "+w.words(3)+"}")
		}))
	}
}

func (w *jobWriter) rotors() {
	w.line("rotors:\n  unit: bar\n  cranking: 250 rpm\n  faces: %s", w.of(10, func() string {
		return fmt.Sprintf("[%.1f, %.1f, %.1f]", 6.5+w.Float64(), 6.5+w.Float64(), 5+2*w.Float64())
	}))
	if w.has() {
		w.line("  limits: {minimum: 6.9 bar, between-faces: 1.5 bar, between-rotors: 1.0 bar, source: %s}", w.words(3))
	}
}

func (w *jobWriter) fuel() {
	w.line("fuel-pressure:\n  unit: psi\n  system: port, return line\n  key-on: %d\n  idle: 33\n  hose-off: 42", 30+w.IntN(15))
	if w.has() {
		w.line("  snap: 39\n  return-pinched: 71\n  manifold-vacuum: 18 inHg\n  hold: {1 min: 38, 5 min: 36, 10 min: 21}\n  volume: 500 ml in 30 s\n  fuel-in-hose: no")
		w.line("  limits: {key-on: 35-45 psi, idle: 28-35 psi, hose-off: 39 psi +/- 3, hold: at least 30 psi after 5 min, source: %s}", w.words(3))
	}
}

func (w *jobWriter) own() {
	if w.has() {
		w.line("photos: [{name: P1, shows: %s}, {name: P2, shows: %s}]", w.words(4), w.words(4))
		w.line("findings: [%s, %s]\nrecommended: [%s, %s]\ndeclined: [%s]", w.words(6), w.words(6), w.words(6), w.words(6), w.words(6))
		w.line("coolant-gas-test: negative\nnotes: %s\nnot-tested: {oil pressure: %s}", w.words(10), w.words(4))
	}
}

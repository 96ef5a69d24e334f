package loop_test

import (
	"fmt"
	"maps"
	"slices"
	"strings"
)

// A jobFile is what the mechanic has written down so far. Pressures are in psi
// until they are written.
type jobFile struct {
	m          *machine
	unit, said string // unit of the figures, and the unit that the job says
	complaints []string
	onset      string
	oilUse     string
	smoke      string
	stood      string
	codes      []string
	workDone   []string

	engine, throttle, plugsOut, needle string
	charger                            bool
	strokes                            int
	cranking                           int
	crankVolts                         float64
	fuelless                           bool // the book was not looked at for fuel
	noFuel                             bool // there is no fuel pressure to read

	order                  []int
	first, dry, again, wet map[int]float64
	untold                 map[int]bool // not tested
	oilML                  float64
	running                map[int][2]float64
	minimum                float64
	leaks                  map[int]leakEntry
	looks                  map[int]string
	faces                  [][3]float64
	facesCranking          int
	fuel                   map[string]float64
	hold                   map[string]float64
	volume                 float64
	inHose                 string
	views                  map[int]view
	coolantGas             string
	gauge                  string
	further                map[string]string // sections of further tests, as they are written
	decompressor           string            // as somebody looked and found, "" where nobody did
}

type leakEntry struct {
	loss float64
	at   []string
}

// A view is what a camera showed of one cylinder.
type view struct{ wall, crown, valves, seat string }

func newJobFile(m *machine) *jobFile {
	return &jobFile{m: m, unit: "psi", gauge: "dial A", first: map[int]float64{}, dry: map[int]float64{}, again: map[int]float64{}, wet: map[int]float64{},
		untold: map[int]bool{}, running: map[int][2]float64{}, leaks: map[int]leakEntry{}, looks: map[int]string{}, fuel: map[string]float64{}, hold: map[string]float64{}, views: map[int]view{}, further: map[string]string{}}
}

// number writes a pressure in the job's unit.
func (j *jobFile) number(psi float64) string {
	psi = max(0, psi)
	switch j.unit {
	case "bar":
		return fmt.Sprintf("%.1f", psi/14.504)
	case "kgf/cm2":
		return fmt.Sprintf("%.1f", psi/14.223)
	}
	return fmt.Sprintf("%.0f", psi)
}

// byCylinder writes a map by cylinder, in the engine's order.
func byCylinder[V any](of *machine, m map[int]V, write func(V) string) string {
	var parts []string
	for _, i := range slices.Sorted(maps.Keys(m)) {
		parts = append(parts, fmt.Sprintf("%s: %s", of.cylinderName(i), write(m[i])))
	}
	return "{" + strings.Join(parts, ", ") + "}"
}

// yaml writes the job file. fact gives an optional key in the form that the
// reader takes, "" where it takes none.
func (j *jobFile) yaml(fact func(key, value string) string) string {
	var b strings.Builder
	j.writeHead(&b, fact)
	b.WriteString(j.m.yaml(fact, j.decompressor))
	j.writeConditions(&b)
	j.writeCompression(&b)
	j.writeRotors(&b)
	j.writeLeakage(&b)
	if len(j.looks) > 0 {
		fmt.Fprintf(&b, "plugs: {looks: %s}\n", byCylinder(j.m, j.looks, func(s string) string { return s }))
	}
	j.writeFuel(&b)
	if len(j.views) > 0 {
		fmt.Fprintf(&b, "borescope: %s\n", byCylinder(j.m, j.views, func(v view) string { return v.yaml(fact) }))
	}
	for _, t := range furtherTests {
		if v, made := j.further[t.section]; made {
			fmt.Fprintf(&b, "%s: %s\n", t.section, v)
		}
	}
	if j.coolantGas != "" {
		fmt.Fprintf(&b, "coolant-gas-test: %s\n", j.coolantGas)
	}
	return b.String()
}

func (j *jobFile) writeHead(b *strings.Builder, fact func(key, value string) string) {
	head := []string{`number: "L-1"`, "date: 2026-05-14", "reason: " + "Simulated engine"}
	if len(j.complaints) > 0 {
		head = append(head, "complaints: ["+strings.Join(j.complaints, ", ")+"]")
	}
	if j.onset != "" {
		head = append(head, fact("onset", j.onset))
	}
	if j.oilUse != "" {
		head = append(head, fact("oil-use", j.oilUse))
	}
	head = slices.DeleteFunc(head, func(p string) bool { return p == "" })
	fmt.Fprintf(b, "job: {%s}\n", strings.Join(head, ", "))
	if s := fact("smoke", j.smoke); j.smoke != "" && s != "" {
		b.WriteString(s + "\n")
	}
	var vehicle []string
	if j.m.flies {
		vehicle = append(vehicle, "description: light airplane")
	}
	if j.stood != "" {
		vehicle = append(vehicle, "stood: "+j.stood)
	}
	if len(j.codes) > 0 {
		vehicle = append(vehicle, "codes: ["+strings.Join(j.codes, ", ")+"]")
	}
	if len(j.workDone) > 0 {
		quoted := make([]string, len(j.workDone))
		for i, w := range j.workDone {
			quoted[i] = "'" + strings.ReplaceAll(w, "'", "''") + "'"
		}
		vehicle = append(vehicle, "work-done: ["+strings.Join(quoted, ", ")+"]")
	}
	if len(vehicle) > 0 {
		fmt.Fprintf(b, "vehicle: {%s}\n", strings.Join(vehicle, ", "))
	}
}

func (j *jobFile) writeConditions(b *strings.Builder) {
	var c []string
	add := func(key, value string) {
		if value != "" {
			c = append(c, key+": "+value)
		}
	}
	add("engine", j.engine)
	add("throttle", j.throttle)
	add("plugs-out", j.plugsOut)
	add("needle", j.needle)
	if j.strokes > 0 {
		c = append(c, fmt.Sprintf("strokes: %d", j.strokes))
	}
	if j.cranking > 0 && !j.m.rotary() {
		c = append(c, fmt.Sprintf("cranking: %d rpm", j.cranking))
	}
	if j.crankVolts > 0 {
		c = append(c, fmt.Sprintf("battery: {cranking: %.1f V, charger: %v}", j.crankVolts, map[bool]string{true: "yes", false: "no"}[j.charger]))
	} else if j.charger {
		c = append(c, "battery: {charger: yes}")
	}
	if len(c) > 0 {
		fmt.Fprintf(b, "conditions: {%s}\n", strings.Join(c, ", "))
	}
	span := "0-300 psi"
	if j.m.diesel() {
		span = "0-1000 psi"
	}
	if len(j.dry) > 0 || j.faces != nil {
		fmt.Fprintf(b, "gauges: {compression: {name: %s, range: %s, accuracy: 2 %% of span, division: 5 psi}}\n", j.gauge, span)
	}
}

func (j *jobFile) writeCompression(b *strings.Builder) {
	if j.m.rotary() || len(j.dry)+len(j.wet)+len(j.running) == 0 {
		return
	}
	said := j.unit
	if j.said != "" {
		said = j.said
	}
	fmt.Fprintf(b, "compression:\n  unit: %s\n", said)
	if len(j.order) > 0 && len(j.order) == len(j.dry) {
		names := make([]string, len(j.order))
		for k, i := range j.order {
			names[k] = j.m.cylinderName(i)
		}
		fmt.Fprintf(b, "  order: [%s]\n", strings.Join(names, ", "))
	}
	dry := map[int]string{}
	for i, v := range j.dry {
		dry[i] = j.number(v)
	}
	for i := range j.untold {
		dry[i] = "not tested"
	}
	for _, s := range []struct {
		key    string
		values map[int]float64
	}{{"first", j.first}, {"again", j.again}, {"wet", j.wet}} {
		if len(s.values) > 0 {
			fmt.Fprintf(b, "  %s: %s\n", s.key, byCylinder(j.m, s.values, j.number))
		}
	}
	if len(dry) > 0 {
		fmt.Fprintf(b, "  dry: %s\n", byCylinder(j.m, dry, func(s string) string { return s }))
	}
	if j.oilML > 0 {
		fmt.Fprintf(b, "  oil: %.0f ml\n", j.oilML)
	}
	if len(j.running) > 0 {
		fmt.Fprintf(b, "  running: %s\n", byCylinder(j.m, j.running, func(v [2]float64) string { return "{idle: " + j.number(v[0]) + ", snap: " + j.number(v[1]) + "}" }))
	}
	if j.minimum > 0 {
		fmt.Fprintf(b, "  limits: {minimum: %s, source: \"service manual, p. 8\"}\n", j.number(j.minimum)+" "+j.unit)
	}
}

func (j *jobFile) writeRotors(b *strings.Builder) {
	if j.faces == nil {
		return
	}
	var parts []string
	for i, f := range j.faces {
		parts = append(parts, fmt.Sprintf("%s: [%.1f, %.1f, %.1f]", j.m.cylinderName(i), f[0], f[1], f[2]))
	}
	fmt.Fprintf(b, "rotors:\n  unit: kgf/cm2\n  cranking: %d rpm\n  faces: {%s}\n", j.facesCranking, strings.Join(parts, ", "))
	if j.minimum > 0 {
		b.WriteString("  limits: {minimum: 6.9 kgf/cm2, between-faces: 1.5 kgf/cm2, between-rotors: 1.0 kgf/cm2, source: \"engine manual, p. 9\"}\n")
	}
}

func (j *jobFile) writeLeakage(b *strings.Builder) {
	if len(j.leaks) > 0 {
		at := "warm"
		if !j.m.starts {
			at = "cold"
		}
		fmt.Fprintf(b, "leakage: {engine: %s, dry: %s}\n", at, byCylinder(j.m, j.leaks, func(l leakEntry) string {
			return fmt.Sprintf("{loss: %.0f %%, at: [%s]}", l.loss, strings.Join(l.at, ", "))
		}))
	}
}

// fuelKeys are the pressures of the fuel section in the order of the file.
var fuelKeys = []string{"key-on", "idle", "hose-off", "snap", "return-pinched"}

func (j *jobFile) writeFuel(b *strings.Builder) {
	if j.noFuel {
		b.WriteString("fuel-pressure: not applicable\n")
		return
	}
	if len(j.fuel)+len(j.hold) == 0 && j.volume == 0 && j.inHose == "" {
		return
	}
	fmt.Fprintf(b, "fuel-pressure:\n  unit: psi\n  system: '%s'\n", j.m.system)
	for _, k := range fuelKeys {
		if v, read := j.fuel[k]; read {
			fmt.Fprintf(b, "  %s: %.1f\n", k, max(0, v))
		}
	}
	if len(j.hold) > 0 {
		var parts []string
		for _, at := range []string{"1 min", "5 min", "10 min"} {
			if v, read := j.hold[at]; read {
				parts = append(parts, fmt.Sprintf("%s: %.0f", at, max(0, v)))
			}
		}
		fmt.Fprintf(b, "  hold: {%s}\n", strings.Join(parts, ", "))
	}
	if j.volume > 0 {
		fmt.Fprintf(b, "  volume: %.0f ml in 30 s\n", j.volume)
	}
	if j.inHose != "" {
		fmt.Fprintf(b, "  fuel-in-hose: %s\n", j.inHose)
	}
	if j.fuelless {
		return
	}
	u := usualFuel[j.m.system]
	key := "key-on"
	if j.m.system == carburettor || j.m.system == dieselLift {
		key = "idle"
	}
	limits := []string{fmt.Sprintf("%s: %.1f-%.1f psi", key, 0.88*u, 1.12*u)}
	if j.m.system == portReturn {
		limits = append(limits, fmt.Sprintf("idle: %.0f-%.0f psi", u-12, u-4))
	}
	if len(j.hold) > 0 {
		limits = append(limits, fmt.Sprintf("hold: at least %.0f psi after 5 min", 0.7*u))
	}
	if j.volume > 0 && j.m.system != carburettor {
		limits = append(limits, "volume: at least 450 ml in 30 s")
	}
	fmt.Fprintf(b, "  limits: {%s, source: \"service manual, p. 40\"}\n", strings.Join(limits, ", "))
}

// yaml is what was seen, in the list's words where the reader takes these,
// else in a mechanic's.
func (v view) yaml(fact func(key, value string) string) string {
	if v == (view{}) {
		v = view{wall: "good", crown: "good", valves: "good"}
	}
	var parts, words []string
	said := map[string]string{"scored": "scored cylinder wall", "holed": "hole in the piston", "burnt": "burnt exhaust valve", "bent": "bent valve", "carbon": "carbon deposits", "washed": "crown washed clean by coolant", "marked": "piston crown marked by a valve", "glazed": "glazed wall"}
	for _, p := range [][2]string{{"wall", v.wall}, {"crown", v.crown}, {"valves", v.valves}, {"seat", v.seat}} {
		if p[1] != "" {
			parts = append(parts, p[0]+": "+p[1])
		}
		if w := said[p[1]]; w != "" && !slices.Contains(words, w) {
			words = append(words, w)
		}
	}
	if fact("borescope", "words") != "" {
		return "{" + strings.Join(parts, ", ") + "}"
	}
	if words == nil {
		return "nothing wrong seen"
	}
	return strings.Join(words, " and ")
}

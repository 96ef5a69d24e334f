package cause

import (
	"maps"
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// A Trial is a copy of a test into which the outcome of a check is entered, to
// see where it would lead. What it changes it copies first.
type Trial struct {
	diag.Test
	Case      *known.Case // as it was before
	Cylinders []string    // that the check is made on
}

// Try gives the case as it would be after an outcome of a check.
func Try(c *known.Case, k *Check, o *Outcome, cylinders []string) *known.Case {
	t := &Trial{Test: *c.Test, Case: c, Cylinders: cylinders}
	if o.Enter != nil && !(k.Fuel && (t.Fuel == nil || len(t.Fuel.Circuits) == 0)) { // a section of fuel is not made up for it
		o.Enter(t)
		if k.Made == nil { // no reading shows that it was made
			t.note(k.Name, o.Name, k.OfSet)
		}
		after := c.After(&t.Test)
		if k.Made == nil || k.IsMade(after, cylinders) {
			return after
		}
		t.note(k.Name, o.Name, k.OfSet)
		return c.After(&t.Test)
	}
	t.note(k.Name, o.Name, k.OfSet)
	return c.Noting(&t.Test)
}

// note writes a check and its outcome among the work done.
func (t *Trial) note(check, outcome string, ofSet bool) {
	text := strings.ReplaceAll(check, "-", " ") + " done"
	var cylinders []string
	if len(t.Cylinders) > 0 && !ofSet {
		cylinders = t.Cylinders
		text += " on " + strings.Join(cylinders, " and ")
	}
	text += ": " + outcome
	t.Case.Wrote(text, cylinders)
	t.History.WorkDone = append(slices.Clone(t.History.WorkDone), text)
}

// leak enters a loss in percent at a place, or none to speak of at "".
func leak(percent float64, at ...string) func(*Trial) {
	return func(t *Trial) {
		section := diag.Leakage{State: diag.Tested}
		if t.Leakage != nil {
			section = *t.Leakage
			section.State = diag.Tested
		}
		section.Dry = maps.Clone(section.Dry)
		if section.Dry == nil {
			section.Dry = map[string]diag.Leak{}
		}
		for _, n := range t.on() {
			section.Dry[n] = diag.Leak{Reading: reading(percent), At: at}
		}
		t.Leakage = &section
	}
}

// heardAt enters where the air goes of cylinders whose loss was read.
func heardAt(at string) func(*Trial) {
	return func(t *Trial) {
		if t.Leakage == nil {
			return
		}
		section := *t.Leakage
		section.Dry = maps.Clone(section.Dry)
		for n, read := range section.Dry {
			if slices.Contains(t.on(), n) {
				read.At = []string{at}
				section.Dry[n] = read
			}
		}
		t.Leakage = &section
	}
}

// on are the cylinders that the check is made on; all where none are named.
func (t *Trial) on() []string {
	if len(t.Cylinders) == 0 {
		return t.Engine.Names()
	}
	return t.Cylinders
}

func reading(v float64) diag.Reading { return diag.Reading{State: diag.Tested, Values: []float64{v}} }

// wetRise enters readings after oil: by what part of what they lack the
// cylinders rise; a good one, as a control, hardly does.
func wetRise(part float64) func(*Trial) {
	return func(t *Trial) {
		if t.Compression == nil {
			return
		}
		section := *t.Compression
		section.Wet = maps.Clone(section.Wet)
		if section.Wet == nil {
			section.Wet = map[string]diag.Reading{}
		}
		healthy := t.Case.Healthy()
		for _, n := range t.on() {
			if r := t.Case.Cylinder(n); r != nil && r.Dry != nil {
				section.Wet[n] = reading(*r.Dry + part*max(healthy-*r.Dry, 0.3*healthy) + 0.02*healthy)
			}
		}
		for _, n := range t.Case.Others(t.on()) {
			if !t.Case.Grade(n).IsLow() {
				section.Wet[n] = reading(*t.Case.Cylinder(n).Dry * 1.02)
				break
			}
		}
		t.Compression = &section
	}
}

// readRest enters readings of the cylinders that were not read: as a good one reads, and the
// first of them as this part of it. Where nothing was read that says what a good one reads,
// or the section is another, it is noted in words alone.
func readRest(part float64) func(*Trial) {
	return func(t *Trial) {
		if t.Compression == nil || !t.Case.DryRead() || t.Case.Healthy() <= 0 {
			return
		}
		section := *t.Compression
		section.Dry = maps.Clone(section.Dry)
		if section.Dry == nil {
			section.Dry = map[string]diag.Reading{}
		}
		reads := part * t.Case.Healthy()
		for _, n := range t.on() {
			if r := t.Case.Cylinder(n); r == nil || r.Dry == nil {
				section.Dry[n] = reading(reads)
				reads = t.Case.Healthy()
			}
		}
		t.Compression = &section
	}
}

// Known is what is known of a test. Readings of which the job says that they stayed when the
// test was repeated by the book are judged as if they had been read so.
func Known(t *diag.Test) *known.Case {
	c := known.New(t)
	if !c.ThrottleShut() && !c.ChokeShut() {
		return c
	}
	o := CheckNamed("repeat-method").Answer(c, nil)
	if o == nil || !o.Else || o.Enter == nil {
		return c
	}
	again := &Trial{Test: *t, Case: c}
	o.Enter(again)
	return known.New(&again.Test)
}

// byTheBook enters that the readings as they are were read again with the throttle and the
// choke open and all plugs out, so that they are judged.
func byTheBook(t *Trial) {
	if t.Compression == nil {
		return
	}
	section := *t.Compression // whose sums are done anew
	t.Compression = &section
	t.Conditions.Throttle, t.Conditions.Choke, t.Conditions.PlugsOut = "open", "", "all"
}

// What a sound cylinder reads with the engine running, as a part of what it
// reads on the starter: common practice, no source.
const (
	soundIdle = 0.5
	soundSnap = 0.8
)

// running enters compression with the engine running: of the cylinders that the
// check is made on by these parts of what is usual, and of the others as usual.
// Of no cylinders in particular, high stands for all and low for the one that
// misfires, or the first. What cannot be compared with others is noted in words.
func running(outcome string, part float64) func(*Trial) {
	return func(t *Trial) {
		read := t.Case.Read()
		dead := func(n string) bool { return t.Case.Grade(n) == diag.NoPressure }
		if t.Compression == nil || len(read) < diag.LeastForShares || slices.ContainsFunc(t.Cylinders, dead) {
			t.note("running-compression", outcome, false)
			return
		}
		apart := t.Cylinders
		switch _, named := t.Case.MisfireCodes(); {
		case len(apart) > 0 && len(apart) < len(read):
		case part > 1:
			apart = read
		case len(named) > 0:
			apart = named[:1]
		default:
			apart = read[:1]
		}
		section := *t.Compression
		section.Running = maps.Clone(section.Running)
		if section.Running == nil {
			section.Running = map[string]diag.Running{}
		}
		for _, n := range read {
			snap := soundSnap
			if slices.Contains(apart, n) {
				snap *= part
			}
			dry := *t.Case.Cylinder(n).Dry
			idle, open := reading(soundIdle*dry), reading(snap*dry)
			section.Running[n] = diag.Running{Idle: &idle, Snap: &open}
		}
		t.Compression = &section
	}
}

// gas enters the result of the test for combustion gas in the coolant.
func gas(result string) func(*Trial) {
	return func(t *Trial) { t.CoolantGas, t.GasTest = result, diag.GasTest{} }
}

// saw enters what a camera shows in the cylinders.
func saw(b diag.Bore) func(*Trial) {
	return func(t *Trial) {
		t.Bores = maps.Clone(t.Bores)
		if t.Bores == nil {
			t.Bores = map[string]diag.Bore{}
		}
		for _, n := range t.on() {
			t.Bores[n] = b
		}
	}
}

// circuits gives a copy of the fuel circuits to change.
func (t *Trial) circuits(change func(*diag.Circuit)) {
	if t.Fuel == nil {
		return
	}
	section := *t.Fuel
	section.Circuits = slices.Clone(section.Circuits)
	for i := range section.Circuits {
		change(&section.Circuits[i])
	}
	t.Fuel = &section
}

// hose enters whether fuel was found in the regulator's hose.
func hose(found string) func(*Trial) {
	return func(t *Trial) { t.circuits(func(k *diag.Circuit) { k.FuelInHose = found }) }
}

// pinched enters the pressure with the return closed, as a part of the steady one.
func pinched(part float64) func(*Trial) {
	return func(t *Trial) {
		at := t.steady()
		t.circuits(func(k *diag.Circuit) {
			r := reading(part * at)
			k.ReturnPinched = &r
		})
	}
}

// held enters the pressure five minutes after switching off, as a part of the
// steady one.
func held(part float64) func(*Trial) {
	return func(t *Trial) {
		at := t.steady()
		t.circuits(func(k *diag.Circuit) { k.Hold = []diag.HoldReading{{Minutes: 5, Reading: reading(part * at)}} })
	}
}

// steady is the highest limit or reading of the steady pressures.
func (t *Trial) steady() float64 {
	most := 0.0
	for _, k := range t.Case.Circuits() {
		for _, r := range k.Steady() {
			most = max(most, r.Value)
			if r.LimitHigh != nil {
				most = max(most, *r.LimitHigh)
			}
		}
	}
	return most
}

// looks enters plugs that look alike in every cylinder.
func looks(look string) func(*Trial) {
	return func(t *Trial) {
		section := diag.Plugs{State: diag.Tested}
		if t.Plugs != nil {
			section = *t.Plugs
			section.State = diag.Tested
		}
		section.ByCylinder = map[string]diag.Plug{}
		for _, n := range t.on() {
			section.ByCylinder[n] = diag.Plug{State: diag.Tested, Look: look}
		}
		t.Plugs = &section
	}
}

package job

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// mostFuel is beyond what any injection system makes, in bar.
const mostFuel = 4000

var (
	vacuums = bounds{[]quantity.Unit{quantity.KPa, quantity.InHg, quantity.HPa, quantity.Bar, quantity.PSI}, 0, 101.325, [2]float64{20, 90}}
	times   = bounds{[]quantity.Unit{quantity.Second, quantity.Minute, quantity.Hour}, 0.1, 7 * 24 * 3600, [2]float64{}}
	amounts = bounds{[]quantity.Unit{quantity.Millilitre, quantity.Litre, quantity.USFluidOunce, quantity.USPint, quantity.USQuart, quantity.CubicInch}, 0, 1_000_000, [2]float64{}}
)

func (r *reader) fuelPressure(top *section, spec diag.Spec) *diag.FuelPressure {
	if state, reason, ok := r.stated(top, "fuel-pressure"); ok {
		return &diag.FuelPressure{State: state, Reason: reason}
	}
	sec := top.group("fuel-pressure")
	if sec == nil {
		return nil
	}
	out := &diag.FuelPressure{System: sec.word("system").Value, Pump: sec.word("pump").Value, PumpHeard: sec.yesNo("pump-heard")}
	s := r.scaleFor(sec, pressures{name: "fuel-pressure", usual: diag.UsualFuel(spec, out.System), of: "any fuel system", verb: "runs at", most: mostFuel,
		keys: []string{"key-on", "idle", "hose-off", "snap", "return-pinched", "hold", "circuits"}})
	if !math.IsInf(s.usual.Most, 1) {
		s.of = "a petrol system without direct injection"
	}
	if sec.get("circuits") != nil {
		out.Circuits = r.circuits(sec, s)
	} else {
		out.Circuits = []diag.Circuit{r.circuit(sec, s, "")}
	}
	s.finish()
	out.Unit = s.unit
	out.State, out.Reason = circuitsState(out.Circuits)
	return out
}

func circuitsState(circuits []diag.Circuit) (diag.State, string) {
	var parts []whyNot
	for _, c := range circuits {
		for _, reading := range []*diag.Reading{c.KeyOn, c.Idle, c.HoseOff, c.Snap, c.ReturnPinched} {
			if reading != nil {
				parts = append(parts, whyNot{reading.State, reading.Reason})
			}
		}
		if len(c.Hold) > 0 || c.VolumeEntered != "" || c.ManifoldVacuum != nil || c.FuelInHose == "yes" || c.FuelInHose == "no" {
			return diag.Tested, ""
		}
	}
	return stateOf(parts)
}

func (r *reader) circuits(sec *section, s *scale) []diag.Circuit {
	for _, e := range sec.node.entries {
		if slices.Contains(keyNames(circuitKeys), e.key) && e.key != "limits" {
			r.report(e.pos, "put it under one of the circuits", "'%s' stands beside 'circuits', which takes its place", sec.label(e.key))
		}
	}
	n := sec.get("circuits")
	if n.kind != mapping || len(n.entries) == 0 {
		r.report(n.pos, "such as {front tank: {key-on: 41}}", "'fuel-pressure.circuits' is %s, expected circuits by name", describe(n))
		return nil
	}
	common := r.fuelLimits(sec, s)
	var out []diag.Circuit
	for _, e := range n.entries {
		if isEmpty(e.value) {
			r.report(e.pos, emptyReading, "'fuel-pressure.circuits.%s' has no value", short(e.key))
			continue
		}
		if one := r.section(e.value, "fuel-pressure.circuits."+e.key, circuitKeys); one != nil {
			c := r.circuit(one, s, e.key)
			c.Limits = withCommon(c.Limits, common)
			out = append(out, c)
		}
	}
	return out
}

// withCommon adds the limits that hold for every circuit to a circuit's own:
// those of readings for which it has none.
func withCommon(own, common []diag.FuelLimit) []diag.FuelLimit {
	out := slices.Clone(own)
	for _, l := range common {
		if !slices.ContainsFunc(own, func(o diag.FuelLimit) bool { return o.For == l.For }) {
			out = append(out, l)
		}
	}
	return out
}

func (r *reader) circuit(sec *section, s *scale, name string) diag.Circuit {
	c := diag.Circuit{
		Name:           name,
		KeyOn:          s.key(sec, "key-on"),
		Idle:           s.key(sec, "idle"),
		HoseOff:        s.key(sec, "hose-off"),
		Snap:           s.key(sec, "snap"),
		ReturnPinched:  s.key(sec, "return-pinched"),
		ManifoldVacuum: sec.amount("manifold-vacuum", vacuums),
		Hold:           r.hold(sec, s),
		FuelInHose:     sec.word("fuel-in-hose").Value,
	}
	if c.ManifoldVacuum != nil {
		c.VacuumEntered = sec.scalarText("manifold-vacuum")
	}
	if n := sec.scalar("volume"); n != nil {
		if p, ok := r.phrase(n, sec.label("volume"), "500 ml in 30 s", quantity.Volume); ok {
			if ml, seconds, ok := r.delivery(n, p, sec.label("volume")); ok {
				c.VolumeML, c.VolumeSeconds, c.VolumeEntered = ml, seconds, n.text
			}
		}
	}
	c.Limits = r.fuelLimits(sec, s)
	return c
}

// heldHint writes a pressure and a time that stand among words, 'drops to 0 in 1
// min', as the file has them; "" where there are none.
func heldHint(text string) string {
	fields := strings.Fields(fold(text))
	for from := range fields {
		p, err := quantity.ScanAs(strings.Join(fields[from:], " "), quantity.Pressure)
		if err == nil && len(p.Parts) == 2 && p.Only(quantity.In, quantity.After) && quantity.DimensionOf(p.Parts[1].Value.Unit) == quantity.Time {
			return "write {" + p.Parts[1].Text + ": " + p.Parts[0].Text + "}"
		}
	}
	return ""
}

// timesSaid writes pressures with their times that are told in one line, 38 after a minute, 20 after ten; "" for any other text.
func timesSaid(text string) string {
	if hint := timeKeys.hint(text); text != "" && strings.HasPrefix(hint, "write {") {
		return strings.Replace(hint, "write {", "write hold: {", 1)
	}
	return ""
}

// hold reads pressures by the time since switching off.
func (r *reader) hold(sec *section, s *scale) []diag.HoldReading {
	n := sec.get("hold")
	if n == nil {
		return nil
	}
	if n.kind == scalar {
		if p, err := quantity.ScanAs(n.text, quantity.Pressure); err == nil && len(p.Parts) == 2 && p.Joins[0] == quantity.After { // 36 after 5 min
			at := r.within(n, p.Parts[1].At)
			n = &node{kind: mapping, pos: n.pos, entries: []entry{{p.Parts[1].Text, at, &node{pos: n.pos, text: p.Parts[0].Text, plain: true, tag: "!!str"}}}}
		}
	}
	if n.kind != mapping || len(n.entries) == 0 {
		r.report(n.pos, cmp.Or(heldHint(n.text), timesSaid(n.text), "such as {1 min: 40, 5 min: 36}"), "'%s' is %s, expected pressures by time", sec.label("hold"), describe(n))
		return nil
	}
	samples := s.samples // a pressure that has bled off says nothing of the unit
	var out []diag.HoldReading
	for _, e := range n.entries {
		label := sec.label("hold") + "." + e.key
		seconds := r.amount(&node{pos: e.pos, text: e.key}, label, "5 min", times)
		reading, ok := s.reading(e.value, label)
		if seconds != nil && ok {
			out = append(out, diag.HoldReading{Minutes: *seconds / 60, Reading: reading})
		}
	}
	if len(samples) > 0 {
		s.samples = samples
	}
	slices.SortStableFunc(out, func(a, b diag.HoldReading) int { return cmp.Compare(a.Minutes, b.Minutes) })
	return out
}

// delivery reads '500 ml in 30 s'.
func (r *reader) delivery(n *node, p quantity.Phrase, label string) (ml, seconds float64, ok bool) {
	if v, one := p.Single(); one && quantity.DimensionOf(v.Value.Unit) == quantity.Flow { // 1 l/min
		if flow, err := v.Value.In(quantity.MlPerMin); err == nil && flow > 0 {
			return flow, 60, true
		}
	}
	volume, time, ok := p.Cut(quantity.In)
	if len(p.Parts) == 2 && p.Joins[0] == quantity.Slash { // 500 ml/30 s
		volume, time, ok = p.Cut(quantity.Slash)
	}
	if !ok || len(volume.Parts) != 1 || len(time.Parts) != 1 {
		r.report(n.pos, "such as '500 ml in 30 s'", "'%s' is '%s', expected a volume in a time", label, short(n.text))
		return 0, 0, false
	}
	millilitres := r.within(n, 0)
	a := r.value(n, millilitres, volume.Parts[0].Value, label, "500 ml in 30 s", amounts)
	if a == nil {
		return 0, 0, false
	}
	b := r.value(n, r.within(n, time.Parts[0].At), time.Parts[0].Value, label, "500 ml in 30 s", times)
	if b == nil {
		return 0, 0, false
	}
	return *a, *b, true
}

// fuelLimits reads the permitted pressures, in the file's order.
func (r *reader) fuelLimits(sec *section, s *scale) []diag.FuelLimit {
	l := sec.group("limits")
	if l == nil {
		return nil
	}
	source := l.scalarText("source")
	var out []diag.FuelLimit
	for _, e := range l.node.entries {
		if !slices.Contains(keyNames(fuelLimitKeys), e.key) || e.key == "source" || isEmpty(e.value) {
			continue
		}
		items := []*node{e.value}
		if e.key == "hold" && e.value.kind == list {
			items = e.value.items
		}
		for _, item := range items {
			if limit, ok := r.fuelLimit(l, s, e.key, item); ok {
				limit.Source = source
				out = append(out, limit)
			}
		}
	}
	return out
}

func (r *reader) fuelLimit(l *section, s *scale, key string, n *node) (diag.FuelLimit, bool) {
	label := l.label(key)
	out := diag.FuelLimit{For: key, Low: math.Inf(-1), High: math.Inf(1)}
	if n.kind != scalar {
		r.report(n.pos, "such as 35-45 psi", "'%s' is %s, expected a range", label, describe(n))
		return out, false
	}
	out.Entered = n.text
	p, ok := s.scan(n, label)
	if !ok {
		return out, false
	}
	if key == "volume" {
		return r.volumeLimit(n, p, label, out)
	}
	before, after, timed := p.Cut(quantity.After)
	switch {
	case timed && key != "hold":
		r.report(n.pos, "a pressure after a time is 'hold'", "'%s' is '%s', expected a range of pressure", label, short(n.text))
		return out, false
	case !timed && key == "hold" || timed && len(after.Parts) != 1:
		r.report(n.pos, "such as 'at least 30 psi after 5 min'", "'%s' is '%s', expected a pressure after a time", label, short(n.text))
		return out, false
	case timed:
		seconds := r.value(n, r.within(n, after.Parts[0].At), after.Parts[0].Value, label, "at least 30 psi after 5 min", times)
		if seconds == nil {
			return out, false
		}
		out.Minutes = *seconds / 60
	}
	return out, r.ends(s, n, before, label, &out)
}

// volumeLimit reads 'at least 500 ml in 30 s'; its ends are in ml per minute.
func (r *reader) volumeLimit(n *node, p quantity.Phrase, label string, out diag.FuelLimit) (diag.FuelLimit, bool) {
	ml, seconds, ok := r.delivery(n, p, label)
	if !ok {
		return out, false
	}
	out.Minutes = seconds / 60
	if p.Bound == quantity.AtMost {
		out.High = ml / seconds * 60
	} else {
		out.Low = ml / seconds * 60
	}
	return out, true
}

// ends reads the ends of a range of pressure.
func (r *reader) ends(s *scale, n *node, p quantity.Phrase, label string, out *diag.FuelLimit) bool {
	end := func(part quantity.Part, to *float64) bool {
		part.Bound = quantity.Exact
		v, ok := s.limitValue(n, part, label)
		*to = v
		return ok
	}
	a, b, tolerance := p.Pair(quantity.PlusMinus)
	low, high, band := p.Pair(quantity.To)
	switch {
	case len(p.Parts) == 1 && p.Bound == quantity.AtLeast:
		return end(p.Parts[0], &out.Low)
	case len(p.Parts) == 1 && p.Bound == quantity.AtMost:
		return end(p.Parts[0], &out.High)
	case tolerance && p.Bound == quantity.Exact:
		var middle, off float64
		if !end(a, &middle) || !end(b, &off) {
			return false
		}
		out.Low, out.High = middle-off, middle+off
		return true
	case band && p.Bound == quantity.Exact:
		if low.Value.Number == 0 {
			out.Low = 0
		} else if !end(low, &out.Low) {
			return false
		}
		if !end(high, &out.High) {
			return false
		}
		if out.Low >= out.High {
			r.report(n.pos, "the lower value goes first", "'%s' is '%s', which does not rise", label, short(n.text))
			return false
		}
		return true
	case len(s.units) > 0:
		r.report(n.pos, "such as '2-4', 'at least 3' or 'at most 5'", "'%s' is '%s', expected a range", label, short(n.text))
		return false
	}
	text := p.Parts[0].Text
	r.report(n.pos, "such as '35-45 psi', '"+text+" +/- 3' or 'at least "+text+"'", "'%s' is '%s', expected a range of pressure", label, short(n.text))
	return false
}

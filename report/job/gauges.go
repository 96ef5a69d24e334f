package job

import (
	"errors"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/gauge"
	"gaugesheet/diag/quantity"
)

var (
	hoses    = bounds{volumes, 0, 1000, [2]float64{0.5, 50}}
	orifices = bounds{millimetres, 0.05, 20, [2]float64{0.3, 6}}
)

// shopGauges lists the gauges of a shop profile by name.
func (r *reader) shopGauges(s *section) map[string]*node {
	n := s.get("gauges")
	if n == nil {
		return nil
	}
	out := map[string]*node{}
	add := func(name string, g *node) {
		r.gauge(g, "gauges."+name, quantity.None)
		out[name] = g
	}
	switch n.kind {
	case mapping:
		for _, e := range n.entries {
			add(e.key, e.value)
		}
	case list:
		for _, item := range n.items {
			if name := item.get("name"); name != nil && name.kind == scalar {
				add(name.text, item)
				continue
			}
			r.report(item.pos, "a job names it", "a gauge of the shop has no 'name'")
		}
	default:
		r.report(n.pos, "such as 'gauges: {dial A: {range: 0-300 psi}}'", "'shop.gauges' is %s, expected gauges by name", describe(n))
	}
	return out
}

// sectionGauge reads the gauge of one kind of test, in the unit of its section.
func (r *reader) sectionGauge(s *section, key string, shop map[string]*node, unit quantity.Unit) *diag.Gauge {
	n := s.get(key)
	if n == nil {
		return nil
	}
	label := s.label(key)
	if n.kind != scalar {
		return r.gauge(n, label, unit)
	}
	g, ok := shop[n.text]
	if !ok && r.shopLost {
		return nil
	}
	if !ok {
		var known []string
		for name := range shop {
			known = append(known, name)
		}
		slices.Sort(known)
		hint := "the shop profile has none: give its keys here, such as {name: dial A, range: 0-300 psi}"
		if p, err := quantity.ScanAs(n.text, quantity.Pressure); err == nil && p.Parts[0].Value.Number >= 0 {
			hint = r.aloneHint(label, n.text, keysOf(s.keys, key))
		} else if len(known) > 0 {
			hint = "the shop's gauges are " + allOf(known)
		}
		if near := nearest(n.text, known); near != "" {
			hint = "did you mean '" + near + "'?"
		}
		r.report(n.pos, hint, "'%s' is '%s', which is no gauge of the shop profile", label, short(n.text))
		return nil
	}
	out := (&reader{run: &run{options: r.options}, name: r.name}).gauge(g, label, unit) // reported when the profile was read
	if out != nil && out.Name == "" {
		out.Name = n.text
	}
	return out
}

// gauge reads one gauge; figures are converted to the unit, where there is one.
func (r *reader) gauge(n *node, label string, unit quantity.Unit) *diag.Gauge {
	s := r.section(n, label, gaugeKeys)
	if s == nil {
		return nil
	}
	g := &diag.Gauge{
		Name:         s.scalarText("name"),
		Valve:        s.scalarText("valve"),
		HoseVolumeML: orZero(s.amount("hose-volume", hoses)),
		Checked:      s.date("checked").Time,
		OrificeMM:    orZero(s.amount("orifice", orifices)),
		GoodReading:  s.scalarText("good-reading"),
		Doubt:        s.scalarText("doubt"),
	}
	g.GoodLoss = lossIn(g.GoodReading)
	own := quantity.None
	if t := s.scalar("range"); t != nil {
		own = r.gaugeRange(t, label, g, unit)
	}
	if t := s.scalar("accuracy"); t != nil {
		r.accuracy(t, label, g)
	}
	r.gaugePressures(s, g, own, unit)
	return g
}

// testerReads finds a loss at the beginning of what a leakage tester reads on something
// known: '43/80', '43 of 80 psi', '5 % on a new cylinder'.
var testerReads = regexp.MustCompile(`^\D{0,8}?(\d+(?:\.\d+)?)(?: ?[a-z]+)? ?(?:%|(?:/|of) ?(\d+(?:\.\d+)?))`)

// lossIn is that loss in percent of the supply, 0 where the words name none.
func lossIn(words string) float64 {
	m := testerReads.FindStringSubmatch(words)
	if m == nil {
		return 0
	}
	lost, _ := strconv.ParseFloat(m[1], 64)
	if m[2] != "" {
		supply, _ := strconv.ParseFloat(m[2], 64)
		lost = 100 * (1 - lost/supply)
	}
	if !(lost > 0 && lost < 100) { // and no number where the supply is 0
		return 0
	}
	return lost
}

// gaugePressures reads the single pressures of a gauge. A bare number is in
// the unit of the gauge's range, or of the section.
func (r *reader) gaugePressures(s *section, g *diag.Gauge, own, unit quantity.Unit) {
	if n := s.scalar("division"); n != nil {
		if p, err := quantity.ParseAs(n.text, quantity.Pressure); err != nil {
			r.unreadable(n, s.label("division"), err)
		} else if v, ok := r.gaugeValue(n, p, s.label("division"), own, unit); ok {
			g.Division = v
		}
	}
	if n := s.scalar("supply"); n != nil {
		if v, err := quantity.ParseAs(n.text, quantity.Pressure); err != nil {
			r.unreadable(n, s.label("supply"), err)
		} else if quantity.DimensionOf(v.Unit) != quantity.Pressure || v.Number <= 0 {
			r.report(n.pos, "such as '100 psi'", "'%s' is '%s', expected a pressure over 0 with its unit", s.label("supply"), short(n.text))
		} else {
			g.Supply, g.SupplyUnit = v.Number, v.Unit
		}
	}
	n := s.scalar("reads")
	if n == nil {
		return
	}
	p, err := quantity.ScanAs(n.text, quantity.Pressure)
	if err != nil || len(p.Parts) != 2 || p.Joins[0] != quantity.At {
		r.report(n.pos, "'120 at 121': the gauge shows 120 at a true 121", "'%s' is '%s', expected what is read at which pressure", s.label("reads"), short(n.text))
		return
	}
	a, okA := r.gaugeValue(n, p.Parts[0].Value, s.label("reads"), own, unit)
	b, okB := r.gaugeValue(n, p.Parts[1].Value, s.label("reads"), own, unit)
	if okA && okB {
		g.ReadsAt = [2]float64{a, b}
	}
}

// gaugeValue reads a pressure of a gauge in unit; a bare number is in own, or
// where that is not known in unit already.
func (r *reader) gaugeValue(n *node, v quantity.Value, label string, own, unit quantity.Unit) (float64, bool) {
	if v.Unit == quantity.None {
		v.Unit = own
	}
	if v.Unit != quantity.None && !pressureOrPercent(v.Unit) || v.Number <= 0 {
		r.report(n.pos, "such as '5 psi'", "'%s' is '%s', expected a pressure over 0", label, short(n.text))
		return 0, false
	}
	if unit == quantity.None || v.Unit == quantity.Percent {
		return v.Number, true
	}
	out, err := v.In(unit)
	return out, err == nil
}

func pressureOrPercent(u quantity.Unit) bool {
	return quantity.DimensionOf(u) == quantity.Pressure || u == quantity.Percent
}

// gaugeRange reads the ends of a scale and gives its unit.
func (r *reader) gaugeRange(n *node, label string, g *diag.Gauge, unit quantity.Unit) quantity.Unit {
	bad := func() quantity.Unit {
		r.report(n.pos, "such as '0-300 psi'", "'%s.range' is '%s', expected both ends of the scale with their unit", label, short(n.text))
		return quantity.None
	}
	p, err := quantity.ScanAs(n.text, quantity.Pressure)
	a, b, ok := p.Pair(quantity.To)
	if top, alone := p.Single(); alone && (top.Bound == quantity.Exact || top.Bound == quantity.AtMost) { // 300 psi: from nothing
		a, b, ok = top, top, true
		a.Value.Number = 0
	}
	low, high := a.Value, b.Value
	if err != nil || !ok || !pressureOrPercent(high.Unit) || low.Unit != high.Unit || low.Number >= high.Number {
		return bad()
	}
	if unit == quantity.None || high.Unit == quantity.Percent {
		g.Low, g.High = low.Number, high.Number
		return high.Unit
	}
	bottom, errLow := low.In(unit)
	top, errHigh := high.In(unit)
	if errLow != nil || errHigh != nil {
		return bad()
	}
	g.Low, g.High = bottom, top
	return high.Unit
}

func (r *reader) accuracy(n *node, label string, g *diag.Gauge) {
	a, err := gauge.ParseAccuracy(n.text)
	if v, bad := quantity.Parse(strings.TrimLeft(n.text, "+-/ ±")); err != nil && bad == nil && quantity.DimensionOf(v.Unit) == quantity.Pressure {
		hint := "such as '2 % of span': in percent of the whole scale"
		if g.High > g.Low {
			hint = "of a scale of " + plainNumber(g.High-g.Low) + " that is '" + quantity.Format(100*v.Number/(g.High-g.Low), 1) + " % of span'"
		}
		r.report(n.pos, hint, "'%s.accuracy' is '%s', expected a percentage or a class", label, short(n.text))
		return
	}
	if err != nil {
		var problem *gauge.AccuracyError
		expected, hint := "an accuracy", ""
		if errors.As(err, &problem) {
			expected, hint = problem.Expected, problem.Hint
		}
		r.report(n.pos, hint, "'%s.accuracy' is '%s', expected %s", label, short(n.text), expected)
		return
	}
	g.Accuracy, g.AccuracyText = &a, n.text
}

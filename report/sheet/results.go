package sheet

import (
	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
	"gaugesheet/layout/figure"
	"gaugesheet/report/readings"
	"gaugesheet/templates"
)

// result is what one kind of test came to: a line on an invoice.
type result struct {
	test              string // as a story names it
	name, word, value string
	mark              figure.Mark
	state             diag.State
}

func (r result) of(test string) result {
	r.test = test
	return r
}

// results are the tests that fit the engine, each with what it came to.
func (v *view) results() []result {
	var rs []result
	if v.rotors() != nil {
		rs = append(rs, v.rotorsResult().of("rotors"))
	} else {
		rs = append(rs, v.compressionResult().of("compression"))
	}
	rs = append(rs, v.leakageResult().of("leakage"))
	if !v.test.Spec.Diesel() {
		rs = append(rs, v.plugsResult().of("plugs"))
	}
	rs = append(rs, v.fuelResult().of("fuel pressure"))
	for i := range rs {
		if test := rs[i].test; test != "" {
			rs[i].mark = withConcern(rs[i].mark, v.concern(test, ""))
		}
	}
	return rs
}

// missing is the result of a test that was not made.
func (v *view) missing(name, test string) result {
	r := result{name: name, word: v.state(diag.NotTested), mark: figure.NotTested, state: diag.NotTested}
	if u, ok := v.untested(test); ok {
		r.word, r.state, r.value = v.state(u.State), u.State, u.Reason
	}
	return r
}

func (v *view) compressionResult() result {
	name := v.label("test.compression")
	c := v.compression()
	if c == nil {
		return v.missing(name, "compression")
	}
	r := v.limitsResult(name, c.Limits, v.limitResultWords)
	var apart diag.Names
	for i := range c.Cylinders {
		if c.Cylinders[i].Disagree {
			apart = append(apart, c.Cylinders[i].Name)
		}
	}
	if len(apart) > 0 && r.word == v.judged(diag.Within) { // which is said of the others
		r.value, r.word, r.mark = v.label("tile.not-averaged", "cylinders", apart), "", figure.LookAgain
	}
	if c.DefaultLimit && r.mark == figure.High { // custom, not a limit: the findings say how bad it is
		r.word, r.mark = v.label("tile.past-usual"), figure.LookAgain
		if v.concern("compression", "").Rank() > 1 {
			r.mark = v.pressureMark(nil)
		}
	}
	return r
}

// limitsResult is what a test came to by its limits: the verdict that decides
// among them, with that limit in words.
func (v *view) limitsResult(name string, limits []diag.LimitResult, words func(diag.LimitResult) string) result {
	verdicts := make([]diag.Verdict, len(limits))
	for i, l := range limits {
		verdicts[i] = l.Verdict
	}
	verdict, at := worst(verdicts)
	r := result{name: name, state: diag.Tested, word: v.judged(verdict), value: v.label("tile.no-limit")}
	if at >= 0 {
		r.value, r.mark = words(limits[at]), verdictMark(verdict, limits[at].Value > limits[at].Limit)
	}
	return r
}

// limitResultWords is a limit with the value that decided it, in short.
func (v *view) limitResultWords(l diag.LimitResult) string {
	if l.Verdict == diag.NotJudged {
		return v.optional("not-judged."+l.Reason, v.limitWords(l))
	}
	if c := v.compression(); c != nil && c.Lowest == 0 && l.Unit == quantity.Percent {
		return v.label("tile.limit-of-nothing", "bare", v.limitNumber(l))
	}
	return v.label("tile.limit."+l.Rule, "value", v.foundNumber(l), "bare", v.limitNumber(l))
}

// foundNumber is what was found against a limit, for an owner in whole percent.
func (v *view) foundNumber(l diag.LimitResult) any {
	n := number(l.Value, v.decimalsOf(l.Unit), l.Unit)
	if l.Ends != nil {
		return readings.Between(l.Ends[0], l.Ends[1], func(x float64) string { return quantity.Format(x, n.Decimals) }) + "\u00a0" + string(l.Unit)
	}
	if l.Unit != quantity.Percent { // as it was read
		n.Decimals = quantity.DecimalsRead(l.Value, n.Decimals)
		return n
	}
	if v.workshop() {
		return n
	}
	return templates.Whole(n, v.limitNumber(l))
}

func (v *view) rotorsResult() result {
	rotors := v.rotors()
	return v.limitsResult(v.label("test.rotors"), rotors.Limits, func(l diag.LimitResult) string {
		return v.label("tile.rotors", "value", number(l.Value, rotors.Decimals, l.Unit), "limit", number(l.Limit, rotors.Decimals, l.Unit), "rule", v.optional("rotor-rule."+l.Rule, l.Rule))
	})
}

func (v *view) leakageResult() result {
	name := v.label("test.leakage")
	l := v.leakage()
	if l == nil {
		return v.missing(name, "leakage")
	}
	r := result{name: name, state: diag.Tested}
	var verdicts []diag.Verdict
	for _, c := range l.Cylinders {
		if c.Loss != nil {
			verdicts = append(verdicts, c.Verdict)
		}
	}
	verdict, _ := worst(verdicts)
	r.word, r.mark = v.judged(verdict), verdictMark(verdict, true)
	if len(verdicts) == 0 { // only readings after oil, or repeats that disagree
		return r
	}
	if l.Limit != nil { // the readings beside it say the most
		r.value = v.label("tile.leakage", "limit", percent(*l.Limit))
		return r
	}
	r.word = v.label("tile.no-limit-word")
	switch concern := v.concern("leakage", "").Rank(); {
	case concern == 1:
		r.mark = figure.LookAgain
	case concern > 1:
		r.mark = figure.High
	}
	return r
}

func (v *view) plugsResult() result {
	name := v.label("test.plugs")
	p := v.plugs()
	if p == nil {
		return v.missing(name, "plugs")
	}
	r := result{name: name, state: diag.Tested}
	odd, worn := diag.Names{}, 0
	for _, c := range p.Cylinders {
		if c.State == diag.Tested && c.Look != "" && c.Look != "normal" && c.Look != "worn" || c.Gap == diag.Outside {
			odd = append(odd, c.Name)
		} else if c.State == diag.Tested && c.Look == "worn" {
			worn++
		}
	}
	if len(odd) == 0 && worn > 0 {
		r.mark, r.word = figure.LookAgain, v.label("tile.plugs-worn", "count", worn, "of", p.N)
		return r
	}
	if len(odd) == 0 {
		r.mark, r.word = figure.Within, v.label("tile.plugs-even")
		return r
	}
	r.mark, r.word = figure.LookAgain, v.label("tile.plugs-odd", "count", len(odd), "of", p.N)
	return r
}

func (v *view) fuelResult() result {
	name := v.label("test.fuel")
	f := v.fuel()
	if f == nil {
		return v.missing(name, "fuel pressure")
	}
	r := result{name: name, state: diag.Tested}
	at, of := limitedReadings(f)
	verdicts := make([]diag.Verdict, len(at))
	for i := range at {
		verdicts[i] = at[i].Verdict
	}
	if len(at) == 0 {
		r.word, r.mark = v.judged(diag.NotJudged), figure.NoMark
		return r
	}
	judged := false
	for i := range at {
		if verdicts[i] != diag.NotJudged {
			judged = true
		}
	}
	if judged { // readings without a limit say nothing beside judged ones
		for i := range at {
			if verdicts[i] == diag.NotJudged {
				verdicts[i] = diag.Within
			}
		}
	}
	verdict, i := worst(verdicts)
	if verdict == diag.Within {
		for i = range at {
			if at[i].LimitLow != nil || at[i].LimitHigh != nil {
				break
			}
		}
	}
	r.word, r.mark = v.judged(verdict), verdictMark(verdict, !under(at[i].Value, at[i].LimitLow))
	r.value = v.label("tile.fuel", "circuit", of[i], "name", v.readingName(at[i].Name), "held", at[i].Name == "hold", "value", number(at[i].Value, quantity.DecimalsRead(at[i].Value, f.Decimals), f.Unit), "limit", v.fuelLimit(at[i], f))
	return r
}

// limitedReadings are the fuel pressures that may have limits, and the circuit of each.
func limitedReadings(f *diag.FuelResult) (readings []diag.FuelReading, of []string) {
	for _, c := range f.Circuits {
		readings = append(readings, c.Readings...)
		for _, h := range c.Hold {
			if h.LimitLow != nil {
				readings = append(readings, diag.FuelReading{Name: "hold", Value: h.Value, LimitLow: h.LimitLow, Verdict: h.Verdict})
			}
		}
		for len(of) < len(readings) {
			of = append(of, c.Name)
		}
	}
	return readings, of
}

// fuelLimit is the permitted range of a reading in short: "40–44", "at least 36".
func (v *view) fuelLimit(r diag.FuelReading, f *diag.FuelResult) string {
	low, high := r.LimitLow, r.LimitHigh
	switch {
	case low != nil && high != nil:
		return v.label("fuel.between", "low", read(*low, f.Decimals), "high", read(*high, f.Decimals))
	case low != nil:
		return v.label("fuel.at-least", "low", read(*low, f.Decimals))
	case high != nil:
		return v.label("fuel.at-most", "high", read(*high, f.Decimals))
	}
	return ""
}

// readingName is a fuel reading by its usual name.
func (v *view) readingName(name string) string { return v.label("fuel.name." + name) }

package sheet

import (
	"fmt"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
	"gaugesheet/diag/known"
	"gaugesheet/diag/quantity"
	"gaugesheet/layout/figure"
	"gaugesheet/report/job"
	"gaugesheet/templates"
)

// view is what the blocks of one sheet are made from: the job, what it says,
// and the words. It keeps the first entry that the catalogue lacks.
type view struct {
	job     *job.Job
	test    *diag.Test
	d       *diag.Diagnosis
	engine  *engine.Engine
	words   *templates.Catalogue
	sheet   *templates.Sheet
	options Options
	told    map[string]bool // sentences that stand on the page
	said    map[*diag.Story]templates.SaidStory
	titles  map[*diag.Finding]string // what each finding says was seen
	known   *known.Case              // for a bench sheet, made when first asked for
	err     error
}

// facts pairs names with values: facts("limit", number).
func facts(pairs ...any) diag.Facts {
	f := diag.Facts{}
	for i := 0; i+1 < len(pairs); i += 2 {
		f[pairs[i].(string)] = pairs[i+1]
	}
	return f
}

// label is a fixed word of the sheets with facts in place.
func (v *view) label(key string, pairs ...any) string {
	s, err := v.words.Label(key, facts(pairs...))
	return v.keep(s, err)
}

// optional is a label that a key may lack; then it is the fallback.
func (v *view) optional(key, fallback string, pairs ...any) string {
	if !v.words.Has("labels", key) {
		return fallback
	}
	return v.label(key, pairs...)
}

func (v *view) keep(s string, err error) string {
	if err != nil && v.err == nil {
		v.err = err
	}
	return onPage(s)
}

// allOnPage is onPage for each of several texts.
func allOnPage(texts []string) []string {
	out := make([]string, len(texts))
	for i, s := range texts {
		out[i] = onPage(s)
	}
	return out
}

// number prints a value with a unit, as words need it.
func number(value float64, decimals int, unit quantity.Unit) diag.Number {
	return diag.Number{Value: value, Decimals: decimals, Unit: unit}
}

// read prints a value that was read, or a limit on it, with the usual decimals
// of its section or those that it has of its own.
func read(value float64, decimals int) string {
	return quantity.Format(value, quantity.DecimalsRead(value, decimals))
}

// pressure prints a reading of the compression test without its unit.
func (v *view) pressure(value float64) string { return read(value, v.compression().Decimals) }

func percent(value float64) diag.Number { return number(value, 0, quantity.Percent) }

// percentOf prints percentages of readings with one decimal.
func percentOf(value float64) diag.Number { return number(value, 1, quantity.Percent) }

// gradeMark is the symbol of a grade.
func gradeMark(g diag.Grade) figure.Mark {
	switch g {
	case diag.Even:
		return figure.Within
	case diag.Watch:
		return figure.LookAgain
	case diag.Low, diag.VeryLow, diag.NoPressure:
		return figure.Low
	case diag.High:
		return figure.High
	case diag.GradeTooClose:
		return figure.TooClose
	case diag.GradeNotJudged:
		return figure.NoMark
	}
	return figure.NotTested
}

// gradeTone is how a grade is filled.
func gradeTone(g diag.Grade) figure.Tone {
	switch g {
	case diag.Even:
		return figure.Plain
	case diag.Watch, diag.GradeTooClose:
		return figure.Faint
	case diag.Low:
		return figure.Hatch
	case diag.VeryLow, diag.NoPressure:
		return figure.Dense
	case diag.High:
		return figure.Raised
	}
	return figure.Open
}

// verdictMark is the symbol of a verdict on a limit: of what is outside, on
// which side.
func verdictMark(verdict diag.Verdict, over bool) figure.Mark {
	switch {
	case verdict == diag.Within:
		return figure.Within
	case verdict == diag.Outside && over:
		return figure.High
	case verdict == diag.Outside:
		return figure.Low
	case verdict == diag.TooClose:
		return figure.TooClose
	}
	return figure.NoMark
}

// under reports a value under the least that is permitted.
func under(value float64, low *float64) bool { return low != nil && value < *low }

// worst is the verdict that decides among several: outside, too close to
// call, not judged, within.
func worst(verdicts []diag.Verdict) (diag.Verdict, int) {
	rank := map[diag.Verdict]int{diag.Within: 1, diag.NotJudged: 2, diag.TooClose: 3, diag.Outside: 4}
	best := -1
	for i, verdict := range verdicts {
		if best < 0 || rank[verdict] > rank[verdicts[best]] {
			best = i
		}
	}
	if best < 0 {
		return diag.NotJudged, -1
	}
	return verdicts[best], best
}

// joined puts the parts that say something in a line.
func joined(separator string, parts ...string) string {
	said := parts[:0:0]
	for _, p := range parts {
		if p = strings.TrimSpace(p); p != "" {
			said = append(said, p)
		}
	}
	return strings.Join(said, separator)
}

// made is a section of the diagnosis where its test was made, else nil.
func made[T any](section *T, state func(*T) diag.State) *T {
	if section == nil || state(section) != diag.Tested {
		return nil
	}
	return section
}

func (v *view) compression() *diag.CompressionResult {
	return made(v.d.Compression, func(c *diag.CompressionResult) diag.State { return c.State })
}

func (v *view) leakage() *diag.LeakageResult {
	return made(v.d.Leakage, func(l *diag.LeakageResult) diag.State { return l.State })
}

func (v *view) plugs() *diag.PlugsResult {
	return made(v.d.Plugs, func(p *diag.PlugsResult) diag.State { return p.State })
}

func (v *view) rotors() *diag.RotorsResult {
	return made(v.d.Rotors, func(r *diag.RotorsResult) diag.State { return r.State })
}

func (v *view) fuel() *diag.FuelResult {
	return made(v.d.Fuel, func(f *diag.FuelResult) diag.State { return f.State })
}

// untested finds what the job says of a test that was not made at all.
func (v *view) untested(test string) (diag.Untested, bool) {
	for _, u := range v.d.NotTested {
		if u.Test == test && len(u.Cylinders) == 0 && u.Reading == "" {
			return u, true
		}
	}
	return diag.Untested{}, false
}

// workshop reports a sheet for the next mechanic.
func (v *view) workshop() bool { return v.sheet.Audience == templates.Workshop }

func (v *view) errorf(format string, args ...any) {
	if v.err == nil {
		v.err = fmt.Errorf(format, args...)
	}
}

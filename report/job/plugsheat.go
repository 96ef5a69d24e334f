package job

import (
	"math"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// heatRange reads the heat range of the plugs beside the book's.
func (r *reader) heatRange(s *section) diag.HeatRange {
	fitted, a := s.bare("fitted", quantity.None)
	book, b := s.bare("book", quantity.None)
	return diag.HeatRange{Fitted: fitted, Book: book, Higher: s.word("higher").Value, Given: a && b}
}

// coolantGas reads the test of the coolant for combustion gas: its result, or
// that with how it was made.
func (r *reader) coolantGas(top *section) (string, diag.GasTest) {
	n := top.get("coolant-gas-test")
	if n == nil || n.kind != mapping {
		return top.word("coolant-gas-test").Value, diag.GasTest{}
	}
	s := top.group("coolant-gas-test")
	result := s.word("result")
	if !result.Given() && s.get("result") == nil {
		r.report(n.pos, "such as {result: negative, engine: hot, minutes: 5}", "'%s' has no result", s.name)
	}
	minutes, _ := s.bare("minutes", quantity.Minute)
	return result.Value, diag.GasTest{Engine: s.word("engine").Value, Minutes: minutes, Fluid: s.scalarText("fluid")}
}

// bare reads a number of a key, which may name its unit; ok is false where there
// is none.
func (s *section) bare(key string, unit quantity.Unit) (value float64, ok bool) {
	n := s.scalar(key)
	if n == nil {
		return 0, false
	}
	v, err := quantity.Parse(n.text)
	if err == nil && v.Unit != quantity.None && v.Unit != unit {
		v.Number, err = v.In(unit)
	}
	if err != nil || math.IsInf(v.Number, 0) || v.Number < 0 {
		s.r.report(n.pos, exampleOf(s.keys, key), "'%s' is '%s', expected a number", s.label(key), short(n.text))
		return 0, false
	}
	return v.Number, true
}

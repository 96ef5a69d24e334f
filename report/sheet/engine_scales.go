package sheet

import (
	"cmp"
	"math"
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
	"gaugesheet/layout/figure"
)

// compressionScale is the scale of the cranking pressure, with the maker's own
// limit and the strictest of all where that is another.
func (v *view) compressionScale() figure.EngineScale {
	c := v.compression()
	s := figure.EngineScale{Title: v.label("plan.pressure", "unit", onPage(string(c.Unit)))}
	for _, l := range drawnLimits(c) {
		s.Limits = append(s.Limits, v.pressureLimit(l.result, l.height, c.Decimals))
	}
	return s
}

// A limitAt is a limit with the reading at which it is just kept.
type limitAt struct {
	result diag.LimitResult
	height float64
}

// drawnLimits are the maker's lowest pressure, else the first limit given, and
// the limit that asks for the highest reading where that is another.
func drawnLimits(c *diag.CompressionResult) []limitAt {
	var all []limitAt
	for _, l := range c.Limits {
		if heights := limitHeights(c, c.Highest, l); len(heights) > 0 {
			if h := heights[0]; h > 0 && !math.IsInf(h, 0) && !math.IsNaN(h) {
				all = append(all, limitAt{l, h})
			}
		}
	}
	if len(all) == 0 {
		return nil
	}
	maker := 0
	if i := slices.IndexFunc(all, func(l limitAt) bool { return l.result.Rule == "minimum" }); i >= 0 {
		maker = i
	}
	strictest := slices.MaxFunc(all, func(a, b limitAt) int { return cmp.Compare(a.height, b.height) })
	drawn := []limitAt{all[maker]}
	if strictest.height > all[maker].height {
		drawn = append(drawn, strictest)
	}
	return drawn
}

// pressureLimit is a limit as a line across the bars, with its words under the
// figure.
func (v *view) pressureLimit(l diag.LimitResult, height float64, decimals int) figure.EngineLimit {
	at := number(height, decimals, l.Unit)
	if l.Unit == quantity.Percent {
		at.Unit = v.compression().Unit
	}
	rule := v.label("plan.limit-minimum")
	if l.Rule != "minimum" {
		rule = v.limitWords(l)
	}
	entered := ""
	if l.Corrected {
		entered = l.AsEntered
	}
	return figure.EngineLimit{
		Value: height,
		Label: quantity.Format(at.Value, at.Decimals),
		Key:   v.label("plan.limit", "value", onPage(at.String()), "rule", rule, "entered", entered, "source", v.source(l.Source)),
	}
}

func (v *view) rotorScale() figure.EngineScale {
	r := v.rotors()
	s := figure.EngineScale{Title: v.label("plan.pressure", "unit", onPage(string(r.Unit)))}
	for _, l := range r.Limits {
		if l.Rule == "minimum" {
			at := number(l.Limit, r.Decimals, r.Unit)
			s.Limits = []figure.EngineLimit{{
				Value: l.Limit,
				Label: quantity.Format(at.Value, at.Decimals),
				Key:   v.label("plan.limit", "value", onPage(at.String()), "rule", v.label("plan.limit-minimum"), "entered", "", "source", v.source(l.Source)),
			}}
			break
		}
	}
	return s
}

func (v *view) leakageScale() figure.EngineScale {
	s := figure.EngineScale{Title: v.label("plan.leakage")}
	if limit := v.leakage().Limit; limit != nil {
		at := number(*limit, quantity.DecimalsRead(*limit, 0), quantity.Percent)
		s.Limits = []figure.EngineLimit{{
			Value: *limit,
			Label: quantity.Format(at.Value, at.Decimals),
			Key:   v.label("plan.limit-leakage", "value", at),
		}}
	}
	return s
}

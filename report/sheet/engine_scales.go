package sheet

import (
	"cmp"
	"math"
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
	"gaugesheet/diag/quantity"
	"gaugesheet/layout/figure"
)

// leastScale is how far the scale of the cranking pressure reaches at least, in psi: twice
// what counts as none, so that nothing is drawn long on a scale of nearly nothing.
const leastScale = 50

// compressionScale is the scale of the cranking pressure, with the maker's own
// limit and the strictest of all where that is another.
func (v *view) compressionScale() figure.EngineScale {
	c := v.compression()
	s := figure.EngineScale{Title: v.label("plan.pressure", "unit", onPage(string(c.Unit)))}
	if least, err := quantity.Convert(leastScale, quantity.PSI, c.Unit); err == nil {
		s.Least = least
	}
	if v.ownLimitMisleads() {
		return s
	}
	source := ""
	for _, l := range drawnLimits(c) {
		if l.result.Source == source { // it is said once
			l.result.Source = ""
		} else {
			source = l.result.Source
		}
		s.Limits = append(s.Limits, v.pressureLimit(l.result, l.height, c.Decimals))
	}
	return s
}

// ownLimitMisleads reports a usual limit, where none was given, that is reckoned
// from a reading that stands out upwards, or from readings that are not judged.
func (v *view) ownLimitMisleads() bool {
	c := v.compression()
	judged := false
	for _, r := range c.Cylinders {
		if r.Grade == diag.High {
			return c.DefaultLimit
		}
		judged = judged || r.Grade != diag.GradeNotJudged && r.Grade != diag.GradeNotTested
	}
	return c.DefaultLimit && (!judged || v.d.Withheld)
}

// underLimit is how a reading stands to the limits that it decides, or to the
// lowest pressure allowed, which each reading has to keep: below by more than
// the gauge, too close to call, or within.
func (v *view) underLimit(r *diag.CylinderResult) diag.Verdict {
	verdict := diag.Within
	for _, l := range v.compression().Limits {
		switch {
		case l.Verdict != diag.Outside && l.Verdict != diag.TooClose || l.Verdict == diag.Outside && v.compression().DefaultLimit:
		case v.readsAs(r, l.Cylinder):
			verdict, _ = worst([]diag.Verdict{verdict, l.Verdict})
		case l.Rule != "minimum" || r.Dry == nil || *r.Dry >= l.Limit+l.Uncertainty:
		case *r.Dry < l.Limit-l.Uncertainty:
			verdict = diag.Outside
		default:
			verdict, _ = worst([]diag.Verdict{verdict, diag.TooClose})
		}
	}
	return verdict
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

// readsAs reports whether a cylinder is the named one, or reads the same.
func (v *view) readsAs(r *diag.CylinderResult, name string) bool {
	other := v.compression().Cylinder(name)
	return r.Name == name || other != nil && other.Dry != nil && r.Dry != nil && *other.Dry == *r.Dry
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
		Key:   v.limitKey(at, rule, entered, v.source(l.Source)),
	}
}

// limitKey says what a limit's line is: whence, and what it is at sea level,
// only where no table of limits says so.
func (v *view) limitKey(at diag.Number, rule, entered, source string) string {
	if v.hasBlock("limits") {
		entered, source = "", ""
	}
	return v.label("plan.limit", "value", onPage(at.String()), "rule", rule, "entered", entered, "source", source)
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
				Key:   v.limitKey(at, v.label("plan.limit-minimum"), "", v.source(l.Source)),
			}}
			break
		}
	}
	return s
}

func (v *view) leakageScale() figure.EngineScale {
	s := figure.EngineScale{Title: v.label("plan.leakage"), Least: known.WornLoss}
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

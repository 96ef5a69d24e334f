package sheet

import (
	"math"
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
	"gaugesheet/layout/figure"
)

// A rulerLimit is a limit as a line on the ruler.
type rulerLimit struct {
	at    float64 // percent below the best
	words string
}

// limits are the lines on the ruler: of the limits that go by the other
// cylinders the strictest, and the minimum where it lies on the ruler; where it
// does not, the next of the others.
func (r *cylinderRuler) limits() []rulerLimit {
	if r.c.DefaultLimit {
		return nil
	}
	var relative, minimum []rulerLimit
	for _, l := range r.c.Limits {
		for _, height := range limitHeights(r.c, max(r.c.Highest, r.best), l) {
			line := rulerLimit{r.below(height), r.limitText(l, r.below(height))}
			switch {
			case !(line.at > 0) || math.IsInf(line.at, 0):
			case l.Rule == "minimum":
				minimum = append(minimum, line)
			default:
				relative = append(relative, line)
			}
		}
	}
	byPlace := func(a, b rulerLimit) int {
		if a.at < b.at {
			return -1
		}
		return 1
	}
	slices.SortStableFunc(relative, byPlace)
	relative = slices.CompactFunc(relative, func(a, b rulerLimit) bool { return math.Abs(a.at-b.at) < 0.1 })
	lines := relative[:min(len(relative), 1)]
	reach := r.reach(lines)
	for _, m := range minimum {
		if m.at <= reach {
			return append(slices.Clone(lines), m)
		}
	}
	return relative[:min(len(relative), 2)]
}

// leastReach is how far the ruler goes at least, in percent: past the grades.
const leastReach = 18

// reach is how far the ruler goes to show every cylinder and line.
func (r *cylinderRuler) reach(lines []rulerLimit) float64 {
	reach := float64(leastReach)
	for _, b := range r.bars {
		reach = max(reach, b.value)
	}
	for _, l := range lines {
		reach = max(reach, l.at)
	}
	return min(reach, 100)
}

// limitText is a limit as the ruler has it: in percent below the best, a
// pressure with the percent that it makes.
func (r *cylinderRuler) limitText(l diag.LimitResult, at float64) string {
	v := r.view
	switch l.Rule {
	case "minimum":
		return v.label("spread.minimum", "value", v.limitNumber(l))
	case "lowest of highest", "spread of highest":
		return v.label("spread.limit", "percent", number(at, v.places(at), quantity.Percent))
	case "difference":
		n := v.limitNumber(l)
		return v.label("spread.difference", "value", n, "percent", v.percentFor(100*rounded(n.Value, n.Decimals)/r.best))
	}
	return v.label("spread.limit-other", "rule", v.limitWords(l))
}

// places are the decimals of a limit in percent: those that it has.
func (v *view) places(percent float64) int {
	if math.Abs(percent-math.Round(percent)) < 1e-6 {
		return 0
	}
	return 1
}

// strict is the limit up to which the ruler's zones are the maker's own and not
// those of the grades, in percent: up to here a limit is stricter than the
// grades, or as strict.
const strict = 16

// zones are what the limits allow and what not, where a limit is as strict as
// the grades; else the bands of the grades.
func (r *cylinderRuler) zones(lines []rulerLimit) []figure.SpreadZone {
	v := r.view
	var zones []figure.SpreadZone
	if r.above() {
		zones = append(zones, figure.SpreadZone{Word: v.label("spread.above"), Tone: figure.Raised})
	}
	strictest := math.Inf(1)
	for _, l := range lines {
		strictest = min(strictest, l.at)
	}
	if strictest <= strict {
		return append(zones,
			figure.SpreadZone{To: strictest, Word: v.label("spread.within"), Tone: figure.Plain},
			figure.SpreadZone{To: 100, Tone: figure.Hatch})
	}
	return append(zones, v.gradeZones()...)
}

// gradeZones are the bands of the grades, in percent below the best.
func (v *view) gradeZones() []figure.SpreadZone {
	return []figure.SpreadZone{
		{To: 100 - diag.EvenFrom, Word: v.grade(diag.Even), Tone: figure.Plain},
		{To: 100 - diag.WatchFrom, Word: v.grade(diag.Watch), Tone: figure.Faint},
		{To: 100, Word: v.grade(diag.Low), Tone: figure.Hatch},
	}
}

// limitHeights are the readings at which a limit is just kept beside the highest.
func limitHeights(c *diag.CompressionResult, highest float64, l diag.LimitResult) []float64 {
	part := l.Limit / 100
	switch l.Rule {
	case "minimum":
		return []float64{l.Limit}
	case "lowest of highest":
		return []float64{part * highest}
	case "lowest of mean":
		return []float64{part * c.Mean}
	case "lowest of median":
		return []float64{part * c.Median}
	case "spread of highest":
		return []float64{(1 - part) * highest}
	case "spread of lowest":
		return []float64{highest / (1 + part)}
	case "spread of mean":
		return []float64{highest - part*c.Mean}
	case "spread of median":
		return []float64{highest - part*c.Median}
	case "difference":
		return []float64{highest - l.Limit}
	case "below mean":
		if l.Unit != quantity.Percent {
			return []float64{c.Mean - l.Limit}
		}
		return []float64{(1 - part) * c.Mean}
	case "from mean":
		if l.Unit == quantity.Percent {
			return []float64{(1 - part) * c.Mean, (1 + part) * c.Mean}
		}
		return []float64{c.Mean - l.Limit, c.Mean + l.Limit}
	}
	return nil
}

// limitWords is a limit in words: "75 % of the highest".
func (v *view) limitWords(l diag.LimitResult) string {
	return v.label("limit."+l.Rule, "limit", v.limitNumber(l))
}

// limitNumber is a limit's figure, with decimals only where it has some; one
// that was corrected has no more than the readings.
func (v *view) limitNumber(l diag.LimitResult) diag.Number {
	switch {
	case l.Limit == math.Trunc(l.Limit):
		return number(l.Limit, 0, l.Unit)
	case l.Corrected:
		return number(l.Limit, v.decimalsOf(l.Unit), l.Unit)
	}
	return number(l.Limit, max(1, v.decimalsOf(l.Unit)), l.Unit)
}

func (v *view) decimalsOf(unit quantity.Unit) int {
	if unit == quantity.Percent || v.compression() == nil {
		return 1
	}
	return v.compression().Decimals
}

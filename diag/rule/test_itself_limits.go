package rule

import (
	"gaugesheet/diag"
	"gaugesheet/diag/known"
	"gaugesheet/diag/quantity"
)

// A stated minimum outside these parts of the likely pressure is doubted.
const (
	mostOfLikely  = 0.89
	leastOfLikely = 0.35
)

// Beyond these a limit lets nearly everything pass, or condemns what nearly every
// engine gives: judgement, no source.
const (
	mostMinimumPetrol = 200 // psi
	mostMinimumSpark  = 250 // on gas or ethanol, whose ratios are higher
	mostMinimumDiesel = 450
	halfApart         = 50 // percent
	leastLeakage      = 4  // percent lost
	mostLeakage       = 60
)

func limitImplausible(c *known.Case) []diag.Notice {
	list := minimumImplausible(c)
	if c.Compression != nil {
		for _, l := range c.Compression.Limits {
			if variant := limitBeyond(c, l); variant != "" && len(list) == 0 {
				list = notice("limit-implausible", variant, nil, diag.Facts{"limit": l.Entered})
			}
		}
	}
	if leak := c.Leakage; c.LimitOfAnotherTester() {
		list = append(list, notice("limit-implausible", "tester", nil, diag.Facts{"limit": leak.LimitEntered, "sound": c.Gauges.Leakage.GoodReading})...)
	} else if leak != nil && leak.Limit != nil && (*leak.Limit < leastLeakage || *leak.Limit > mostLeakage) {
		list = append(list, notice("limit-implausible", "leakage", nil, diag.Facts{"limit": leak.LimitEntered, "little": *leak.Limit < leastLeakage})...)
	}
	return list
}

// limitBeyond gives the variant of a limit that no book has, whatever the engine's
// ratio; "" for any other.
func limitBeyond(c *known.Case, l diag.Limit) string {
	switch l.Kind {
	case diag.Minimum:
		most, asked := map[string]float64{"petrol": mostMinimumPetrol, "lpg": mostMinimumSpark, "cng": mostMinimumSpark, "ethanol": mostMinimumSpark, "diesel": mostMinimumDiesel}[c.Spec.Fuel]
		if psi, err := quantity.Convert(l.Value, l.Unit, quantity.PSI); err == nil && asked && c.Spec.Ratio == 0 && psi > most {
			return "high"
		}
	case diag.Lowest:
		if l.Value < 100-halfApart {
			return "apart"
		}
	case diag.Spread:
		if l.Value > halfApart {
			return "apart"
		}
	case diag.Difference:
		if highest, err := quantity.Convert(c.Cranking().Highest, c.Cranking().Unit, l.Unit); err == nil && highest > 0 && l.Value > highest*halfApart/100 {
			return "apart"
		}
	}
	return ""
}

// minimumImplausible is a stated minimum that the engine's ratio makes unlikely.
func minimumImplausible(c *known.Case) []diag.Notice {
	s := c.Spec
	if c.Compression == nil || s.Ratio == 0 || s.VariableTiming == diag.Yes || s.TwoStroke || s.Decompressor == "automatic" {
		return nil
	}
	for _, l := range c.Compression.Limits {
		if l.Kind != diag.Minimum {
			continue
		}
		likely, ok := c.LikelyPressure(l)
		if !ok {
			return nil
		}
		variant := ""
		switch part := l.Value / likely; {
		case part > mostOfLikely:
		case part < leastOfLikely:
			variant = "low"
		default:
			continue
		}
		return notice("limit-implausible", variant, nil, diag.Facts{
			"limit": l.Entered, "ratio": diag.Number{Value: s.Ratio, Decimals: 1},
			"likely": diag.Number{Value: likely, Decimals: quantity.DefaultDecimals(l.Unit), Unit: l.Unit}})
	}
	return nil
}

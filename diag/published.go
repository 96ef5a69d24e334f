package diag

import (
	"slices"

	"gaugesheet/diag/quantity"
)

// A publishedLimit is one rule in circulation.
type publishedLimit struct {
	name, source string
	kind         LimitKind
	of           Basis
	value        float64
	unit         quantity.Unit
	fuels        fuels
}

// fuels says which engines a published rule speaks of.
type fuels uint8

const (
	sparkIgnition fuels = iota
	compressionIgnition
	twoStrokeDiesel
)

func (f fuels) fits(s Spec) bool {
	switch f {
	case sparkIgnition:
		return !s.Diesel()
	case compressionIgnition:
		return s.Diesel()
	}
	return s.Diesel() && s.TwoStroke
}

// publishedLimits are the rules in circulation, public documents first. They
// contradict each other, which is why a sheet may show them side by side.
var publishedLimits = []publishedLimit{
	{"lowest at least 75 % of highest", "TM 5-4210-230-14&P-1, addendum 2", Lowest, OfHighest, 75, quantity.Percent, sparkIgnition},
	{"at least 85 psi", "OD1001, lesson 3, p. 91", Minimum, "", 85, quantity.PSI, sparkIgnition},
	{"within 25 psi of each other", "OD1001, lesson 3, p. 91", Difference, "", 25, quantity.PSI, sparkIgnition},
	{"within 10 psi of each other", "TM 10-3930-618-20, para 2-12", Difference, "", 10, quantity.PSI, sparkIgnition},
	{"no more than 20 % below the mean", "TM 1-1500-204-23-1, compression test (d)", BelowMean, "", 20, quantity.Percent, sparkIgnition},
	{"lowest at least 70 % of highest", CommonPractice, Lowest, OfHighest, 70, quantity.Percent, sparkIgnition},
	{"at least 100 psi", CommonPractice, Minimum, "", 100, quantity.PSI, sparkIgnition},
	{"within 10 % of highest", CommonPractice, Spread, OfHighest, 10, quantity.Percent, sparkIgnition},
	{"within 15 % of highest", CommonPractice, Spread, OfHighest, 15, quantity.Percent, sparkIgnition},
	{"within 1 kgf/cm2 (14 psi) of each other", CommonPractice, Difference, "", 1, quantity.KgfPerCm2, sparkIgnition},
	{"within 2 kgf/cm2 (28 psi) of each other", CommonPractice, Difference, "", 2, quantity.KgfPerCm2, sparkIgnition},
	{"within 3 bar (44 psi) of each other", CommonPractice, Difference, "", 3, quantity.Bar, sparkIgnition},

	{"within 100 psi of each other", "TM 5-2420-230-24-2, p. 14-22", Difference, "", 100, quantity.PSI, compressionIgnition},
	{"within 25 psi of each other, running at 600 rpm", "TM 5-3895-359-14&P, table 1", Difference, "", 25, quantity.PSI, twoStrokeDiesel},
	{"at least 300 psi", CommonPractice, Minimum, "", 300, quantity.PSI, compressionIgnition},
	{"no more than 50 psi below the mean", CommonPractice, BelowMean, "", 50, quantity.PSI, compressionIgnition},
	{"within 10 % of highest", CommonPractice, Spread, OfHighest, 10, quantity.Percent, compressionIgnition},
	{"lowest at least 80 % of highest", "from memory", Lowest, OfHighest, 80, quantity.Percent, compressionIgnition},
}

// published applies the rules that speak of this fuel by bare arithmetic, with
// no uncertainty and with equality within.
func (c *cranking) published() []PublishedRule {
	if slices.ContainsFunc(c.names, func(n string) bool { return bounded(c.test.Compression.Dry[n]) }) { // of what nobody read there is no bare arithmetic
		return nil
	}
	bare := &cranking{test: c.test, names: c.names, tool: instrument{exact: true}, samples: make(set, len(c.samples))}
	for i, s := range c.samples {
		bare.samples[i] = sample{name: s.name, value: s.value}
	}
	var list []PublishedRule
	for _, p := range publishedLimits {
		if p.fuels.fits(c.test.Spec) {
			list = append(list, p.apply(bare))
		}
	}
	return list
}

// apply judges readings that carry no uncertainty.
func (p publishedLimit) apply(bare *cranking) PublishedRule {
	l := Limit{Kind: p.kind, Of: p.of, Value: p.value, Unit: p.unit}
	r := bare.judge(l, atmosphere{})
	return PublishedRule{
		Name: p.name, Rule: r.Rule, Source: p.source, Limit: r.Limit, Value: r.Value, Unit: r.Unit, Verdict: r.Verdict,
	}
}

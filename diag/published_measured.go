package diag

import (
	"math"

	"gaugesheet/diag/quantity"
)

// What the rules in circulation on further tests look at.
const (
	BalanceSpread = "balance-spread" // of the speeds with one cylinder off, in percent of the highest
	BackAtSpeed   = "back-pressure"  // at a speed
)

const (
	byBalanceExercise = "contextual exercise on engine performance, NATEF VIII.A.6"
	balancePublished  = 10.0 // percent
)

// publishedBackPressures are the limits in circulation on the pressure in the
// exhaust. They contradict each other, so that none of them is a verdict.
var publishedBackPressures = []struct {
	name, source string
	at           string // "" for any speed
	most         float64
	unit         quantity.Unit
	diesel       bool
}{
	{"at most 1.25 psi at idle", CommonPractice, "idle", 1.25, quantity.PSI, false},
	{"at most 3 psi at 2000 rpm", CommonPractice, "2000 rpm", 3, quantity.PSI, false},
	{"at most 2 psi at 2500 rpm", CommonPractice, "2500 rpm", 2, quantity.PSI, false},
	{"at most 27 inH2O", "TM 5-3805-258-24-1, p. 399", "", 27, quantity.InH2O, true},
	{"at most 34 inH2O", "TM 5-3805-260-24", "", 34, quantity.InH2O, true},
}

// published applies the rules in circulation that speak of this test and engine,
// with no uncertainty and equality within.
func (r *MeasuredResult) published(spec Spec) []PublishedRule {
	switch r.Name {
	case "balance":
		return r.publishedBalance()
	case "back-pressure":
		return r.publishedBack(spec)
	}
	return nil
}

func (r *MeasuredResult) publishedBalance() []PublishedRule {
	low, high, n := math.Inf(1), math.Inf(-1), 0
	for _, m := range r.Readings {
		if m.Name == "speed" && m.Cylinder != "" {
			low, high, n = math.Min(low, m.Value), math.Max(high, m.Value), n+1
		}
	}
	if n < 2 || high <= 0 {
		return nil
	}
	spread := 100 * (high - low) / high
	return []PublishedRule{{Name: "speeds within 10 % of the highest", Source: byBalanceExercise, Rule: BalanceSpread,
		Limit: balancePublished, Value: spread, Unit: quantity.Percent, Verdict: atMost(spread, balancePublished)}}
}

func (r *MeasuredResult) publishedBack(spec Spec) []PublishedRule {
	var list []PublishedRule
	for _, p := range publishedBackPressures {
		if p.diesel != spec.Diesel() {
			continue
		}
		for _, m := range r.Readings {
			v, err := quantity.Convert(m.Value, m.Unit, p.unit)
			if err != nil || m.Name != "pressure" || p.at != "" && !sameAt(m.At, p.at) {
				continue
			}
			list = append(list, PublishedRule{Name: p.name, Source: p.source, Rule: BackAtSpeed, Limit: p.most, Value: v, Unit: p.unit, Verdict: atMost(v, p.most)})
		}
	}
	return list
}

func atMost(v, most float64) Verdict {
	if v > most+tiny {
		return Outside
	}
	return Within
}

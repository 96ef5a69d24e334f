package rule

import (
	"math"
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

var fuelRules = slices.Concat(fuelLevelRules, fuelHoseRules, fuelHoldRules)

var fuelVocabulary = map[string][]string{
	"causes": {
		"pump-circuit", "pump", "fuel-filter", "regulator-open", "regulator-stuck", "return-blocked", "vacuum-hose", "supply-restricted", "pump-voltage",
		"regulator-diaphragm", "no-vacuum-signal", "not-referenced", "pump-check-valve", "leaking-injector", "fuel-contracts", "heat-soak", "air-in-fuel",
		"wrong-pump", "readings-swapped", "by-design",
	},
	"doubts": {"fuel-near-limit", "system-not-recorded", "no-hold-limit", "which-needle", "no-snap-limit", "vacuum-not-recorded", "no-volume-limit"},
}

// The systems of the job file.
const (
	carburettor  = "carburettor"
	throttleBody = "throttle body"
	portReturn   = "port, return line"
	portNoReturn = "port, no return"
	directLow    = "direct, low side"
	dieselLift   = "diesel, lift pump"
)

// A circuit is one rail, tank or pump: its readings and the sums on them.
type circuit struct {
	*diag.CircuitResult
	in *diag.Circuit
	c  *Case
}

func (c *Case) circuits() []circuit {
	if c.Sums.Fuel == nil || c.Fuel == nil {
		return nil
	}
	var list []circuit
	for i := range c.Sums.Fuel.Circuits {
		sums := &c.Sums.Fuel.Circuits[i]
		for j := range c.Fuel.Circuits {
			if in := &c.Fuel.Circuits[j]; in.Name == sums.Name {
				list = append(list, circuit{CircuitResult: sums, in: in, c: c})
			}
		}
	}
	return list
}

// eachCircuit runs one look over every circuit.
func eachCircuit(look func(circuit) *diag.Finding) func(*Case) []diag.Finding {
	return func(c *Case) []diag.Finding {
		var found []diag.Finding
		for _, k := range c.circuits() {
			if f := look(k); f != nil {
				f.Circuit = k.Name
				found = append(found, *f)
			}
		}
		return found
	}
}

// psi gives a pressure of the trade's in the section's unit.
func (c *Case) psi(v float64) float64 {
	in, err := quantity.Convert(v, quantity.PSI, c.Sums.Fuel.Unit)
	if err != nil {
		return v
	}
	return in
}

// fuelNumber is a pressure in the section's unit. A reading taken between two
// marks of the gauge keeps its decimal: it is the reader's own number.
func (c *Case) fuelNumber(v float64) diag.Number {
	decimals := c.Sums.Fuel.Decimals
	if scaled := v * math.Pow10(decimals); math.Abs(scaled-math.Round(scaled)) > 0.05 {
		decimals++
	}
	return diag.Number{Value: v, Decimals: decimals, Unit: c.Sums.Fuel.Unit}
}

// below reports a reading under its lower limit; clear where that is beyond
// the uncertainty. above is the same for the upper one.
func below(r *diag.FuelReading) (past, clear bool) {
	past = r != nil && r.LimitLow != nil && r.Value < *r.LimitLow && (r.Verdict == diag.Outside || r.Verdict == diag.TooClose)
	return past, past && r.Verdict == diag.Outside
}

func above(r *diag.FuelReading) (past, clear bool) {
	past = r != nil && r.LimitHigh != nil && r.Value > *r.LimitHigh && (r.Verdict == diag.Outside || r.Verdict == diag.TooClose)
	return past, past && r.Verdict == diag.Outside
}

// steady are the readings at no load, the most telling first. The hose comes
// off only where a hose to the manifold is.
func (k circuit) steady() []*diag.FuelReading {
	names := []string{"key-on", "idle"}
	if k.mayBeReferenced() {
		names = append(names, "hose-off")
	}
	var list []*diag.FuelReading
	for _, name := range names {
		if r := k.Reading(name); r != nil {
			list = append(list, r)
		}
	}
	return list
}

// worst gives the first steady reading that is past its limit, one that is
// clear of uncertainty before one that is not.
func (k circuit) worst(beyond func(*diag.FuelReading) (past, clear bool)) (r *diag.FuelReading, clear bool) {
	for _, s := range k.steady() {
		past, sure := beyond(s)
		if past && (r == nil || sure && !clear) {
			r, clear = s, sure
		}
	}
	return r, clear
}

// referenced reports a regulator with a hose to the manifold; mayBeReferenced
// also where the system was not recorded.
func (k circuit) referenced() bool      { return k.c.Fuel.System == portReturn }
func (k circuit) mayBeReferenced() bool { return k.referenced() || k.c.Fuel.System == "" }
func (k circuit) hasReturn() bool       { return k.mayBeReferenced() || k.c.Fuel.System == throttleBody }

// fuelFinding is a finding on one reading with the facts that its words use.
func (k circuit) fuelFinding(rule string, r *diag.FuelReading, clear bool) *diag.Finding {
	f := &diag.Finding{Rule: rule, Urgency: diag.ActSoon, Confidence: diag.Fair, Facts: k.facts(r)}
	if !clear {
		f.Urgency, f.Confidence, f.Doubts = diag.CheckAgain, diag.Weak, phrases("fuel-near-limit")
	}
	return f
}

func (k circuit) facts(r *diag.FuelReading) diag.Facts {
	facts := diag.Facts{"value": k.c.fuelNumber(r.Value), "reading": readingInWords[r.Name], "limit": limitInWords(k.c, r),
		"verdict": string(r.Verdict), "uncertainty": diag.Number{Value: r.Uncertainty, Decimals: max(1, k.c.Sums.Fuel.Decimals), Unit: k.c.Sums.Fuel.Unit},
		"short": "", "flow": ""}
	if r.LimitLow != nil && *r.LimitLow > 0 && r.Value < *r.LimitLow {
		facts["short"] = percent(100*(1 - r.Value / *r.LimitLow), 0).String()
	}
	if k.InjectorFlowPercent != nil {
		facts["flow"] = percent(*k.InjectorFlowPercent, 0).String()
	}
	return facts
}

var readingInWords = map[string]string{
	"key-on": "with the key on", "idle": "at idle", "hose-off": "with the hose off", "snap": "on a quick opening of the throttle", "return-pinched": "with the return closed",
}

// limitInWords is the limit as the job has it, "" for none.
func limitInWords(c *Case, r *diag.FuelReading) string {
	switch {
	case r.LimitEntered != "":
		return r.LimitEntered
	case r.LimitLow != nil && r.LimitHigh != nil:
		return quantity.Format(*r.LimitLow, c.Sums.Fuel.Decimals) + " to " + c.fuelNumber(*r.LimitHigh).String()
	case r.LimitLow != nil:
		return "at least " + c.fuelNumber(*r.LimitLow).String()
	case r.LimitHigh != nil:
		return "at most " + c.fuelNumber(*r.LimitHigh).String()
	}
	return ""
}

// lowest steady pressure that still counts as some: common practice, no source.
func (c *Case) noFuel(v float64) bool { return v < c.psi(1) }

// pumpDead reports that whatever was read of a circuit had no pressure.
func (k circuit) pumpDead() *diag.FuelReading {
	var dead *diag.FuelReading
	for _, s := range k.steady() {
		if !k.c.noFuel(s.Value) {
			return nil
		}
		if dead == nil {
			dead = s
		}
	}
	return dead
}

// climbs reports that the pressure rose well above the steady one with the
// return closed, so that the pump can do more than the regulator lets it;
// known is false where that was not tried.
func (k circuit) climbs() (climbs, known bool) {
	pinched := k.Reading("return-pinched")
	steady := k.steady()
	if pinched == nil || len(steady) == 0 {
		return false, false
	}
	over := steady[0].Value
	if steady[0].LimitHigh != nil {
		over = *steady[0].LimitHigh
	}
	return pinched.Value > 1.2*over, true
}

package rule

import (
	"math"
	"slices"

	"gaugesheet/diag"
)

var fuelHoldRules = []Rule{
	{
		Name: "falls-off-fast", Title: "The pressure falls off fast after switching off",
		Trigger: "a held pressure under its limit at its time or before it, for pressure that is shut in falls (too close to call and under it as read: check again); without a limit more than 5 psi lost within 5 minutes",
		Why:     "After switching off, the pump's check valve, the regulator and the injectors close the rail. Closing feed and return in turn tells which of the three lets go.",
		Source:  "common practice: a fall of more than 5 psi in about 5 minutes is a fault", Class: Single, Needs: []Need{NeedsFuel},
		Variants: []string{"no-limit"},
		Findings: eachCircuit(fallsOffFast),
	},
	{
		Name: "falls-off-slowly", Title: "The pressure falls off slowly after switching off",
		Trigger: "more than 5 psi lost, but not within 5 minutes, or on a throttle body, and no limit that says otherwise",
		Why:     "Some fall is normal: fuel shrinks as it cools, and some systems are built to let the pressure go. It matters only where the engine is slow to restart warm.",
		Source:  "common practice, no source", Class: Information, Needs: []Need{NeedsFuel},
		Findings: eachCircuit(fallsOffSlowly),
	},
	{
		Name: "rises-after-key-off", Title: "The pressure rises after switching off",
		Trigger: "a held pressure over the one at switching off",
		Why:     "A warm engine heats the fuel that is shut in, and the pressure rises for a while. That is normal, and shows that the rail is closed.",
		Source:  "common practice, no source", Class: Information, Needs: []Need{NeedsFuel},
		Findings: eachCircuit(risesAfterKeyOff),
	},
	{
		Name: "not-held-tested", Title: "The pressure held after switching off was not read",
		Trigger: "pressures of an injection system, and none after switching off",
		Why:     "Right pressure with the key on, at idle and with the hose off does not clear an injector that drips: only the pressure held afterwards would show it.",
		Source:  "common practice, no source", Class: TestItself, Needs: []Need{NeedsFuel},
		Variants: []string{"rich"},
		Notices:  notHeldTested,
	},
}

// fallPSI is how much a held pressure may fall in fallMinutes without a limit
// of its own: common practice, no source.
const (
	fallPSI     = 5.0
	fallMinutes = 5.0
)

// holdFrom is the pressure at switching off.
func (k circuit) holdFrom() (float64, bool) {
	if len(k.Hold) > 0 && k.Hold[0].Minutes == 0 {
		return k.Hold[0].Value, true
	}
	for _, name := range []string{"key-on", "hose-off", "idle"} {
		if r := k.Reading(name); r != nil {
			return r.Value, true
		}
	}
	return 0, false
}

// holdPast gives the first point under its limit, one clear of uncertainty
// before one that is not; limited whether any point has one.
func (k circuit) holdPast() (worst *diag.HoldPoint, limited bool) {
	for i := range k.Hold {
		h := &k.Hold[i]
		if h.LimitLow == nil {
			continue
		}
		limited = true
		past := h.Value < *h.LimitLow && (h.Verdict == diag.Outside || h.Verdict == diag.TooClose)
		if past && (worst == nil || h.Verdict == diag.Outside && worst.Verdict != diag.Outside) {
			worst = h
		}
	}
	return worst, limited
}

func (k circuit) holdFacts(h *diag.HoldPoint, from float64) diag.Facts {
	facts := diag.Facts{"from": k.c.fuelNumber(from), "held": k.c.fuelNumber(h.Value), "fall": k.c.fuelNumber(math.Abs(from - h.Value)),
		"minutes": minutes(h.Minutes), "limit": ""}
	if h.LimitLow != nil {
		limit := "at least " + k.c.fuelNumber(*h.LimitLow).String()
		if h.LimitMinutes > 0 && h.LimitMinutes != h.Minutes {
			limit += " after " + minutes(h.LimitMinutes).String()
		}
		facts["limit"] = limit
	}
	return facts
}

func minutes(m float64) diag.Number {
	n := diag.Number{Value: m, Unit: "min"}
	if m != math.Trunc(m) {
		n.Decimals = 1
	}
	return n
}

func fallsOffFast(k circuit) *diag.Finding {
	from, known := k.holdFrom()
	worst, limited := k.holdPast()
	f := &diag.Finding{Rule: "falls-off-fast", Urgency: diag.ActSoon, Confidence: diag.Fair}
	switch {
	case worst != nil:
		if !known {
			from = worst.Value
		}
		if worst.Verdict == diag.TooClose {
			f.Urgency, f.Confidence, f.Doubts = diag.CheckAgain, diag.Weak, phrases("fuel-near-limit")
		}
	case limited || !known || k.lets():
		return nil
	default:
		worst = k.fastPoint(from)
		if worst == nil {
			return nil
		}
		f.Variant, f.Urgency, f.Confidence, f.Doubts = "no-limit", diag.CheckAgain, diag.Weak, phrases("no-hold-limit")
	}
	f.Facts = k.holdFacts(worst, from)
	f.Facts["known"] = known
	f.Causes = phrases("pump-check-valve", "leaking-injector")
	if k.hasReturn() {
		f.Causes = phrases("pump-check-valve", "regulator-open", "leaking-injector")
	}
	f.Next = k.c.next(nil, "pinch-feed-and-return", "injector-balance")
	if k.in.FuelInHose == "yes" { // the way that the pressure takes was seen
		f.Causes = phrases("regulator-diaphragm", "leaking-injector", "pump-check-valve")
		f.Next = k.c.next(nil, "renew-regulator", "pinch-feed-and-return")
	}
	return f
}

// lets reports a system that may let its pressure go by design.
func (k circuit) lets() bool {
	return slices.Contains([]string{throttleBody, carburettor, dieselLift}, k.c.Fuel.System)
}

func (k circuit) fastPoint(from float64) *diag.HoldPoint {
	for i := range k.Hold {
		h := &k.Hold[i]
		if h.Minutes > 0 && h.Minutes <= fallMinutes && from-h.Value > k.c.psi(fallPSI)+1e-9 {
			return h
		}
	}
	return nil
}

func fallsOffSlowly(k circuit) *diag.Finding {
	from, known := k.holdFrom()
	_, limited := k.holdPast()
	if !known || limited || len(k.Hold) == 0 || k.fastPoint(from) != nil && !k.lets() {
		return nil
	}
	last := &k.Hold[len(k.Hold)-1]
	if from-last.Value <= k.c.psi(fallPSI)+1e-9 && !(k.lets() && from-last.Value > from/2) {
		return nil
	}
	return &diag.Finding{Rule: "falls-off-slowly", Urgency: diag.NoAction, Confidence: diag.Fair, Facts: k.holdFacts(last, from),
		Causes: phrases("fuel-contracts", "by-design", "pump-check-valve")}
}

func risesAfterKeyOff(k circuit) *diag.Finding {
	from, known := k.holdFrom()
	// With the engine off the manifold's vacuum is gone, and the pressure is no
	// longer the lower one of idling.
	onlyIdle := k.Reading("key-on") == nil && k.Reading("hose-off") == nil && len(k.Hold) > 0 && k.Hold[0].Minutes > 0
	if !known || onlyIdle && k.mayBeReferenced() {
		return nil
	}
	for i := range k.Hold {
		if h := &k.Hold[i]; h.Minutes > 0 && h.Value-from > math.Max(k.repeatability(), k.c.psi(1)) {
			return &diag.Finding{Rule: "rises-after-key-off", Urgency: diag.NoAction, Confidence: diag.Fair,
				Facts: k.holdFacts(h, from), Causes: phrases("heat-soak")}
		}
	}
	return nil
}

func notHeldTested(c *Case) []diag.Notice {
	for _, k := range c.circuits() {
		if len(k.Hold) > 0 || len(k.steady()) == 0 || k.lets() || k.pumpDead() != nil {
			continue
		}
		n := diag.Notice{Rule: "not-held-tested", Facts: diag.Facts{"circuit": k.Name}}
		if c.complains(rich, "hard start") {
			n.Variant = "rich"
		}
		return []diag.Notice{n}
	}
	return nil
}

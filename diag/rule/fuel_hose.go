package rule

import (
	"math"

	"gaugesheet/diag"
)

var fuelHoseRules = []Rule{
	{
		Name: "regulator-responds", Title: "The regulator follows the manifold",
		Trigger: "the pressure rises when the regulator's hose is taken off: by most of what the manifold's vacuum makes, or by 4 psi at least where that was not read; less is a weak response",
		Why:     "The regulator keeps the pressure across the injectors the same, so it keeps the rail lower by the vacuum of the manifold. With the hose off the rail must rise by just that.",
		Source:  "common practice: hose-on and hose-off pairs from 7 to 14 psi apart; 1 inHg is 0.491 psi (NIST SP 811, appendix B.8)", Class: Information, Needs: []Need{NeedsFuel},
		Variants: []string{"partly"},
		Findings: eachCircuit(regulatorResponds),
	},
	{
		Name: "regulator-no-response", Title: "The regulator does not follow the manifold",
		Trigger: "the pressure changes by less than 2 psi when the regulator's hose is taken off, on a system that has such a hose or was not recorded",
		Why: "No change may mean a regulator that is stuck, a hose that brings no vacuum, or a system whose regulator was never meant to follow the manifold. " +
			"The hose and the system are asked about before the regulator is blamed.",
		Source: "common practice, no source", Class: Single, Needs: []Need{NeedsFuel},
		Findings: eachCircuit(regulatorNoResponse),
	},
	{
		Name: "hose-off-falls", Title: "The pressure fell when the hose came off",
		Trigger: "hose-off pressure under the idle pressure, beyond uncertainty",
		Why:     "Taking the hose off can only raise the pressure or leave it. A fall says that two readings were exchanged, or that the pump cannot keep up.",
		Source:  "common practice, no source", Class: TestItself, Needs: []Need{NeedsFuel},
		Findings: eachCircuit(hoseOffFalls),
	},
	{
		Name: "fuel-in-hose", Title: "Fuel in the regulator's vacuum hose",
		Trigger: "fuel was found in the hose, whatever the pressure",
		Why: "That hose holds air; a torn diaphragm is the way for fuel into it. From there the manifold draws it in, unmeasured: the engine runs rich while the pressure may read low. " +
			"No gauge is needed to see it.",
		Source: "common practice, no source", Class: Together,
		Findings: eachCircuit(fuelInHose),
	},
}

// Thresholds of the regulator's response, in psi, and as parts of the rise
// that the manifold's vacuum makes: common practice, no source.
const (
	noResponse       = 2.0
	fullResponse     = 4.0
	noResponsePart   = 0.25
	fullResponsePart = 0.60
)

// rise gives how much the pressure rose with the hose off, and the bounds of
// no and of full response; ok is false where it was not tried, or where there
// is no such hose.
func (k circuit) rise() (rise, none, full float64, ok bool) {
	idle, off := k.Reading("idle"), k.Reading("hose-off")
	if idle == nil || off == nil || !k.mayBeReferenced() || k.pumpDead() != nil {
		return 0, 0, 0, false
	}
	none, full = k.c.psi(noResponse), k.c.psi(fullResponse)
	if k.ExpectedRise != nil {
		if *k.ExpectedRise < none {
			return 0, 0, 0, false // too little vacuum to see a response
		}
		none, full = math.Min(none, noResponsePart**k.ExpectedRise), fullResponsePart**k.ExpectedRise
	}
	return off.Value - idle.Value, none, full, true
}

func (k circuit) hoseFinding(rule string) *diag.Finding {
	idle, off := k.Reading("idle"), k.Reading("hose-off")
	f := &diag.Finding{Rule: rule, Urgency: diag.CheckAgain, Confidence: diag.Fair, Facts: diag.Facts{
		"on": k.c.fuelNumber(idle.Value), "off": k.c.fuelNumber(off.Value), "rise": k.c.fuelNumber(math.Abs(off.Value - idle.Value)), "expected": ""}}
	if k.ExpectedRise != nil {
		f.Facts["expected"] = k.c.fuelNumber(*k.ExpectedRise).String()
	}
	if !k.referenced() {
		f.Confidence, f.Doubts = diag.Weak, phrases("system-not-recorded")
	}
	return f
}

func regulatorResponds(k circuit) *diag.Finding {
	rise, none, full, ok := k.rise()
	if !ok || rise < none {
		return nil
	}
	f := k.hoseFinding("regulator-responds")
	f.Urgency = diag.NoAction
	if rise < full {
		f.Variant, f.Urgency, f.Confidence = "partly", diag.CheckAgain, diag.Weak
		f.Causes = phrases("no-vacuum-signal", "regulator-stuck")
		f.Next = k.c.next(nil, "vacuum-at-hose")
		if k.ExpectedRise == nil {
			f.Doubts = append(f.Doubts, phrases("vacuum-not-recorded")...)
		}
	}
	return f
}

func regulatorNoResponse(k circuit) *diag.Finding {
	rise, none, _, ok := k.rise()
	if !ok || rise >= none || k.falls() {
		return nil
	}
	f := k.hoseFinding("regulator-no-response")
	f.Causes = phrases("no-vacuum-signal", "regulator-stuck")
	if !k.referenced() {
		f.Causes = phrases("not-referenced", "no-vacuum-signal", "regulator-stuck")
	}
	f.Next = k.c.next(nil, "vacuum-at-hose")
	return f
}

func (k circuit) falls() bool {
	idle, off := k.Reading("idle"), k.Reading("hose-off")
	return idle != nil && off != nil && idle.Value-off.Value > math.Max(k.repeatability(), k.c.psi(1))
}

// repeatability is the expanded uncertainty of a difference of two readings of
// one gauge, in which its scale error cancels: 2 sqrt(2) of 0.25 psi where the
// gauge's division is not recorded.
func (k circuit) repeatability() float64 {
	u := k.c.psi(0.25)
	if g := k.c.Gauges.Fuel; g != nil && g.Division > 0 {
		u = math.Max(u, g.Division/math.Sqrt(12))
	}
	return 2 * math.Sqrt2 * u
}

func hoseOffFalls(k circuit) *diag.Finding {
	if !k.falls() || !k.mayBeReferenced() {
		return nil
	}
	f := k.hoseFinding("hose-off-falls")
	f.Confidence = diag.Weak
	f.Causes = phrases("readings-swapped", "pump")
	f.Next = k.c.next(nil, "repeat-hose-test")
	return f
}

func fuelInHose(k circuit) *diag.Finding {
	if k.in.FuelInHose != "yes" {
		return nil
	}
	f := &diag.Finding{Rule: "fuel-in-hose", Urgency: diag.ActSoon, Confidence: diag.Fair,
		Causes: phrases("regulator-diaphragm"), Next: k.c.next(nil, "renew-regulator", "oil-for-fuel")}
	if low, _ := k.worst(below); low != nil || k.c.richSign() != "" {
		f.Confidence = diag.Strong // the mixture or the gauge shows it too
	}
	return f
}

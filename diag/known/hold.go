package known

import (
	"gaugesheet/diag"
	"slices"
)

// FallPSI is how much a held pressure may fall in FallMinutes without a limit
// of its own: common practice, no source.
const (
	FallPSI     = 5.0
	FallMinutes = 5.0
)

// HoldFrom is the pressure at switching off.
func (k Circuit) HoldFrom() (float64, bool) {
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

// HoldPast gives the first point under its limit, one clear of uncertainty
// before one that is not; limited whether any point has one.
func (k Circuit) HoldPast() (worst *diag.HoldPoint, limited bool) {
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

// Lets reports a system that may let its pressure go by design.
func (k Circuit) Lets() bool {
	return slices.Contains([]string{ThrottleBody, Carburettor, DieselLift}, k.Case.Fuel.System)
}

func (k Circuit) FastPoint(from float64) *diag.HoldPoint {
	for i := range k.Hold {
		h := &k.Hold[i]
		if h.Minutes > 0 && h.Minutes <= FallMinutes && from-h.Value > k.Case.Psi(FallPSI)+1e-9 {
			return h
		}
	}
	return nil
}

package known

import (
	"slices"

	"gaugesheet/diag"
)

// FallPSI is how much a held pressure may fall in FallMinutes without a limit
// of its own: common practice, no source.
const (
	FallPSI     = 5.0
	FallMinutes = 5.0
)

// HoldFrom is the pressure at switching off: as read then, or the higher of
// those with the key on and at idle. A pump that primes little with the key on
// has filled the rail by the time that the engine ran. With the hose off it
// stood higher than it does when the hose is on again.
func (k Circuit) HoldFrom() (from float64, known bool) {
	if len(k.Hold) > 0 && k.Hold[0].Minutes == 0 {
		return k.Hold[0].Value, true
	}
	for _, name := range []string{"key-on", "idle"} {
		if r := k.Reading(name); r != nil {
			from, known = max(from, r.Value), true
		}
	}
	return from, known
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
	return slices.Contains([]string{ThrottleBody, Carburettor, DieselLift}, k.Case.FuelSystem())
}

// FastPoint is the first point that has fallen fast without a limit that says
// so: by more than is usual, or to nothing within a minute.
func (k Circuit) FastPoint(from float64) *diag.HoldPoint {
	for i := range k.Hold {
		h := &k.Hold[i]
		gone := h.Minutes <= goneMinutes && k.Case.NoFuel(h.Value) && !k.Case.NoFuel(from)
		if h.Minutes > 0 && (gone || h.Minutes <= FallMinutes && from-h.Value > k.Case.Psi(FallPSI)+1e-9) {
			return h
		}
	}
	return nil
}

// goneMinutes is the time within which no rail that is meant to hold goes down
// to nothing: common practice, no source.
const goneMinutes = 1

// Unwatched is a rail whose pressure is no worse than it should be as far as was read, with
// the gauge on it, and of which nobody saw what is left after switching off: an empty rail is
// filled at every start.
var Unwatched = OfEngine("injection, its pressure read and not found wrong, and none after switching off", func(c *Case) bool {
	return c.Injected() && c.Primes() && !c.PressurePast() && !c.HoldRead() && c.SomeCircuit(func(k Circuit) bool {
		return len(k.Steady()) > 0 && k.PumpDead() == nil && !k.Lets()
	})
})

// A Fall is what is left of the pressure some time after switching off.
type Fall struct {
	At      *diag.HoldPoint
	From    float64
	Known   bool // From is
	Limited bool // by a limit of the job
	Clear   bool // of uncertainty
}

// FallsFast gives the fall of a circuit that does not hold its pressure: under
// a limit, or without one faster than is usual; nil where it holds, where that
// was not read, and where such systems let go by design.
func (k Circuit) FallsFast() *Fall {
	from, known := k.HoldFrom()
	worst, limited := k.HoldPast()
	if worst != nil && k.fellShort(worst) {
		worst = nil
	}
	if worst != nil {
		if !known {
			from = worst.Value
		}
		return &Fall{worst, from, known, true, worst.Verdict == diag.Outside}
	}
	if limited || !known || k.Lets() {
		return nil
	}
	if at := k.FastPoint(from); at != nil {
		return &Fall{at, from, true, false, true}
	}
	return nil
}

// fellShort reports a held pressure that is under its limit only because the
// pressure was under its own limit before: it kept the part that a right one may
// come down to.
func (k Circuit) fellShort(h *diag.HoldPoint) bool {
	low, _ := k.Worst(Below)
	return low != nil && h.Value >= *h.LimitLow*low.Value / *low.LimitLow
}

// FallsSlowly gives the fall of a circuit that loses pressure and of which no
// limit says that it must not: more than is usual but slowly, or by design.
func (k Circuit) FallsSlowly() *Fall {
	from, known := k.HoldFrom()
	_, limited := k.HoldPast()
	if !known || limited || len(k.Hold) == 0 || k.FallsFast() != nil {
		return nil
	}
	last := &k.Hold[len(k.Hold)-1]
	if from-last.Value <= k.Case.Psi(FallPSI)+1e-9 && !(k.Lets() && from-last.Value > from/2) {
		return nil
	}
	return &Fall{last, from, true, false, true}
}

// Rises gives the first point that stands above the pressure at switching off,
// nil for none. With the engine off the manifold's vacuum is gone, and the rail
// comes up to what it is without the hose: the lower pressure of idling tells
// nothing where there may be a hose.
func (k Circuit) Rises() *Fall {
	from, known := k.HoldFrom()
	unread := len(k.Hold) > 0 && k.Hold[0].Minutes > 0
	onlyIdle := k.Reading("key-on") == nil && k.Reading("hose-off") == nil && unread
	if r := k.Reading("hose-off"); r != nil && unread {
		from, known = max(from, r.Value), true
	}
	if !known || onlyIdle && k.MayBeReferenced() {
		return nil
	}
	for i := range k.Hold {
		if h := &k.Hold[i]; h.Minutes > 0 && h.Value-from > max(k.Repeatability(), k.Case.Psi(1)) {
			return &Fall{h, from, true, false, true}
		}
	}
	return nil
}

// HeldHigh gives the first point over its upper limit, nil for none.
func (k Circuit) HeldHigh() *Fall {
	from, known := k.HoldFrom()
	for i := range k.Hold {
		h := &k.Hold[i]
		if h.LimitHigh != nil && h.Value > *h.LimitHigh && (h.Verdict == diag.Outside || h.Verdict == diag.TooClose) {
			return &Fall{h, from, known, true, h.Verdict == diag.Outside}
		}
	}
	return nil
}

// Holds reports pressure that was read after switching off and is held: within
// its limit, or without one for as long as is usual.
func (k Circuit) Holds() bool {
	past, limited := k.HoldPast()
	from, known := k.HoldFrom()
	if limited {
		return past == nil && slices.ContainsFunc(k.Hold, func(h diag.HoldPoint) bool { return h.Verdict == diag.Within })
	}
	if !known || k.FastPoint(from) != nil || len(k.Hold) == 0 {
		return false
	}
	last := k.Hold[len(k.Hold)-1]
	return last.Minutes >= FallMinutes && from-last.Value <= k.Case.Psi(FallPSI)+1e-9
}

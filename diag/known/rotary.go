package known

import (
	"slices"
	"strings"

	"gaugesheet/diag"
)

// A Rotor is one rotor with the sums on its faces.
type Rotor struct {
	*diag.RotorResult
	Case *Case
}

// Rotors lists the rotors of which a face was read, in the engine's order.
func (c *Case) Rotors() []Rotor {
	if c.Sums.Rotors == nil {
		return nil
	}
	var list []Rotor
	for i := range c.Sums.Rotors.Rotors {
		if r := &c.Sums.Rotors.Rotors[i]; len(r.Values) > 0 {
			list = append(list, Rotor{r, c})
		}
	}
	return list
}

// Rotor gives a rotor by its name; false where none of its faces was read.
func (c *Case) Rotor(name string) (Rotor, bool) {
	for _, r := range c.Rotors() {
		if r.Name == name {
			return r, true
		}
	}
	return Rotor{}, false
}

// DeadFaces lists the faces without pressure, counted from 0.
// None are where the readings may stand in another unit.
func (r Rotor) DeadFaces() []int {
	var list []int
	if slices.ContainsFunc(r.Case.Noted, func(n diag.Notice) bool { return r.Case.WholeSection(n) == "rotors" }) {
		return nil
	}
	for i, g := range r.Grade {
		if g == diag.NoPressure {
			list = append(list, i)
		}
	}
	return list
}

// Even reports a rotor of which all faces read, two at least, are low and none
// stands apart from the others: what ails it ails all of it.
func (r Rotor) Even() bool {
	return len(r.Values) > 1 && len(r.LowFaces) == len(r.Values) && len(r.Apart) == 0
}

// SingledOut lists the faces of a rotor that are low by themselves: where all
// are under the minimum, those that stand apart from the best of them.
func (r Rotor) SingledOut() []int {
	switch {
	case r.Even():
		return nil
	case len(r.LowFaces) == len(r.Values) && len(r.Apart) > 0:
		return r.Apart
	}
	return r.LowFaces
}

// LowestOf is the lowest reading of some faces.
func (r Rotor) LowestOf(faces []int) float64 {
	low := r.Values[faces[0]]
	for _, i := range faces {
		low = min(low, r.Values[i])
	}
	return low
}

// rotorFloorPSI is a minimum that no maker is known to go under, in psi: 43 psi
// for an early engine whose new figure was 85 (common practice, no source).
// An engine that would not start and reads under what its kind gives new is
// flooded until it was dried: 85 psi, that early engine's figure (the same).
const (
	rotorFloorPSI   = 43
	floodedFloorPSI = 85
)

// UnderFloor reports a rotor that is low for nearly any engine of its kind,
// where the job states no minimum.
func (r Rotor) UnderFloor() bool {
	c := r.Case
	judged := slices.ContainsFunc(r.Grade, func(g diag.Grade) bool { return g != diag.GradeNotJudged })
	return judged && c.RotorLimit(string(diag.Minimum)) == nil && len(r.SingledOut()) == 0 && r.Best > 0 && r.Best < c.RotorFloor()
}

// RotorFloor is the pressure under which every face of a rotor is low where the
// job states no minimum, in the unit of the readings.
func (c *Case) RotorFloor() float64 {
	if c.MayBeFlooded() {
		return c.rotorPSI(floodedFloorPSI)
	}
	return c.rotorPSI(rotorFloorPSI)
}

func (c *Case) rotorPSI(v float64) float64 { return inUnit(v, c.Sums.Rotors.Unit) }

// RotorLimit is the limit of a rule ("minimum", "between faces", "between
// rotors") as judged, nil where the job states none.
func (c *Case) RotorLimit(rule string) *diag.LimitResult {
	if c.Sums.Rotors == nil {
		return nil
	}
	for i := range c.Sums.Rotors.Limits {
		if l := &c.Sums.Rotors.Limits[i]; l.Rule == rule {
			return l
		}
	}
	return nil
}

// The rules of limits on rotors.
const (
	BetweenFaces  = "between faces"
	BetweenRotors = "between rotors"
)

// DecidedBy is the limit that faces of a rotor are past, the clearest first,
// nil for none, and whether they are low beyond uncertainty: past it by more
// than that, or by their grade where no limit between the faces is stated.
func (r Rotor) DecidedBy(faces []int) (limit *diag.LimitResult, clear bool) {
	low := r.LowestOf(faces)
	graded := r.Case.RotorLimit(BetweenFaces) == nil && len(r.Apart) > 0
	for _, rule := range []string{string(diag.Minimum), BetweenFaces} {
		l := r.Case.RotorLimit(rule)
		if l == nil || l.Verdict == diag.NotJudged {
			continue
		}
		past := l.Limit - low
		if rule == BetweenFaces {
			past = r.Best - low - l.Limit
		}
		if past > 0 && (limit == nil || !clear && past > l.Uncertainty) {
			limit, clear = l, past > l.Uncertainty
		}
	}
	return limit, clear || graded
}

// OtherRotorWell reports another rotor of the same test that reads well: the
// starter that turned it is not slow, and the gauge that read it not at fault.
func (c *Case) OtherRotorWell(name string) bool {
	return slices.ContainsFunc(c.Rotors(), func(r Rotor) bool {
		return r.Name != name && len(r.LowFaces) == 0 && !r.UnderFloor()
	})
}

// floodWords are words of a flooded engine.
var floodWords = []string{"flood", "soaked with fuel", "wet with fuel", "fuel-soaked"}

// SaidFlooded reports an engine that was found flooded: by its plugs, the
// method, or what the technician found.
func (c *Case) SaidFlooded() bool {
	return c.Flooded() || slices.ContainsFunc(c.Works(), func(w Work) bool { return SpeaksOf(w.Text, floodWords...) })
}

// MayBeFlooded reports a rotary engine that would not start: its faces read low
// on the fuel that washed the oil off, until that is dried.
func (c *Case) MayBeFlooded() bool {
	return c.Rotary() && (c.SaidFlooded() || c.Complains("no start") || c.Spec.Runs == "does not run" || strings.Contains(c.History.Onset, "flood"))
}

// RotorsApart gives the lowest and the best rotor by their means; false where
// fewer than two were read.
func (c *Case) RotorsApart() (low, best Rotor, ok bool) {
	rotors := slices.DeleteFunc(c.Rotors(), func(r Rotor) bool { return !(r.Best > 0) && len(r.DeadFaces()) == 0 })
	if len(rotors) < 2 {
		return Rotor{}, Rotor{}, false
	}
	low, best = rotors[0], rotors[0]
	for _, r := range rotors {
		if r.Mean < low.Mean {
			low = r
		}
		if r.Mean > best.Mean {
			best = r
		}
	}
	return low, best, low.Name != best.Name
}

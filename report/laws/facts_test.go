package laws_test

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// What the job says of its engine, read from the job file.

func (s *subject) fuel() string { return s.tree.text("engine", "fuel") }
func (s *subject) diesel() bool { return s.fuel() == "diesel" }
func (s *subject) twoStroke() bool {
	return s.tree.text("engine", "cycle") == "two-stroke" || s.fuel() == "two-stroke mix"
}

// repair is what the sheet says is done about the story that leads it, "" for nothing.
func (s *subject) repair() string {
	if i := s.out.Verdict.About; i != nil && *i >= 0 && *i < len(s.out.Stories) {
		return s.out.Stories[*i].Repair
	}
	return ""
}

func (s *subject) layout() string { return s.tree.text("engine", "layout") }
func (s *subject) rotary() bool   { return strings.HasPrefix(s.layout(), "rotary") }
func (s *subject) flat() bool     { return strings.HasPrefix(s.layout(), "flat") }

// system is the kind of fuel system, "" where it is not said.
func (s *subject) system() string { return s.tree.text("fuel-pressure", "system") }

// names are the cylinders, or the rotors of a rotary engine.
func (s *subject) names() []string {
	if s.rotary() {
		return s.out.Engine.Rotors
	}
	return s.out.Engine.Cylinders
}

func (s *subject) complaints() []string { return s.tree.texts("job", "complaints") }

func (s *subject) complains(of ...string) bool { return overlap(s.complaints(), of) }

// petrolFourStroke tells that the job says so: a fuel that is lit by a spark,
// and no two-stroke.
func (s *subject) petrolFourStroke() bool {
	return s.fuel() == "petrol" && !s.twoStroke() && !s.rotary()
}

// ccPerCylinder is 0 where the displacement is not known.
func (s *subject) ccPerCylinder() float64 {
	text := s.tree.text("engine", "displacement")
	number, unit, _ := strings.Cut(text, " ")
	v, err := strconv.ParseFloat(number, 64)
	if err != nil {
		return 0
	}
	if unit == "L" {
		v *= 1000
	}
	return v / float64(len(s.names()))
}

func (s *subject) ratio() float64 {
	v, _ := strconv.ParseFloat(s.tree.text("engine", "compression-ratio"), 64)
	return v
}

// perPSI is how many of a unit make one psi (NIST SP 811, appendix B.8).
var perPSI = map[string]float64{"psi": 1, "kPa": 6.894757, "bar": 0.06894757, "MPa": 0.006894757, "kgf/cm2": 0.07030696}

// psi is a pressure of the compression test in psi.
func (s *subject) psi(v float64) float64 {
	unit := s.out.Compression.Unit
	if s.rotary() {
		unit = s.out.Rotors.Unit
	}
	return v / perPSI[unit]
}

// dry are the readings of the compression test by cylinder, in psi.
func (s *subject) dry() map[string]float64 {
	all := map[string]float64{}
	for _, c := range s.out.Compression.Cylinders {
		if c.Dry != nil {
			all[c.Cylinder] = s.psi(*c.Dry)
		}
	}
	return all
}

func (s *subject) grade(cylinder string) string {
	for _, c := range s.out.Compression.Cylinders {
		if c.Cylinder == cylinder {
			return c.Grade
		}
	}
	return ""
}

func (s *subject) look(cylinder string) string {
	for _, c := range s.out.Plugs.Cylinders {
		if c.Cylinder == cylinder {
			return c.Look
		}
	}
	return ""
}

// dieselReadings tells of pressures that only a diesel gives.
func (s *subject) dieselReadings() bool {
	for _, p := range s.dry() {
		if p > 350 {
			return true
		}
	}
	return false
}

// oilTells tells whether oil in the cylinders is allowed and can tell
// something: not in a diesel or what may be one, not under 125 cc a cylinder,
// not on flat engines, two-strokes and rotaries.
func (s *subject) oilTells() string {
	switch cc := s.ccPerCylinder(); {
	case s.diesel():
		return "a diesel"
	case s.fuel() == "":
		return "an engine of unknown fuel"
	case s.dieselReadings():
		return "an engine that reads as only a diesel does"
	case s.twoStroke():
		return "a two-stroke"
	case s.rotary():
		return "a rotary engine"
	case s.flat():
		return "a flat engine"
	case cc > 0 && cc < 124.5:
		return "an engine of less than 125 cc a cylinder"
	}
	return ""
}

// air is the pressure of the air beside that at sea level: from the altitude
// by the International Standard Atmosphere, or from the barometer. 0 where
// neither is known.
func (s *subject) air() float64 {
	number, unit, _ := strings.Cut(s.tree.text("conditions", "altitude"), " ")
	if v, err := strconv.ParseFloat(number, 64); err == nil {
		if unit == "ft" {
			v *= 0.3048
		}
		return math.Pow(1-0.0065*v/288.15, 5.2559)
	}
	number, unit, _ = strings.Cut(s.tree.text("conditions", "barometer"), " ")
	if v, err := strconv.ParseFloat(number, 64); err == nil {
		return v / map[string]float64{"inHg": 29.92, "kPa": 101.325}[unit]
	}
	return 0
}

// clauses are the parts of a text between its stops, without those that say
// what is not to be done.
func clauses(text string) []string {
	var out []string
	for _, clause := range stops.Split(text, -1) {
		if clause = strings.TrimSpace(clause); clause != "" && !negated.MatchString(clause) {
			out = append(out, clause)
		}
	}
	return out
}

var (
	stops   = regexp.MustCompile(`[.;:!?,](?:\s|$)`)
	negated = regexp.MustCompile(`(?i)\b(not|never|no|without|leave|nor|instead of|don't)\b`)
)

// finds gives the first clause in which a pattern is found, "" for none.
func finds(text string, pattern *regexp.Regexp) string {
	for _, clause := range clauses(text) {
		if pattern.MatchString(clause) {
			return clause
		}
	}
	return ""
}

// The families of findings by what they speak of, for laws on words.
var (
	fuelRule    = regexp.MustCompile(`^(no-fuel-pressure|fuel-|sags-|pump-|key-on|regulator-|hose-off|falls-off|rises-after|not-held|lean-pressure|lean-and|rich-and-pressure|rich-but)`)
	mixtureRule = regexp.MustCompile(`^(lean|rich)-`) // of the mixture, which cylinders may be tied to
	plugRule    = regexp.MustCompile(`^(plug|detonation|overheated|coolant-washed|gap-out|all-sooty|bank-sooty|one-sooty|some-sooty|oil-wet|fuel-wet|lean-all|one-white|white-on-gas|some-white|ash-|shared-coil)`)
	leakRule    = regexp.MustCompile(`^(leaks-|leakage-|sound-but-leaks|low-but-tight)`)
)

// read counts the cylinders with a reading in the section that a rule speaks
// of; of a rule of no single section the most of any.
func (s *subject) read(rule string) int {
	dry, leaks, looks := len(s.dry()), 0, 0
	for _, c := range s.out.Leakage.Cylinders {
		if c.Loss != nil || len(c.At) > 0 {
			leaks++
		}
	}
	for _, c := range s.out.Plugs.Cylinders {
		if c.Look != "" {
			looks++
		}
	}
	for _, r := range s.out.Rotors.Faces {
		dry = max(dry, len(r.Values))
	}
	if rule != "" {
		dry = max(dry, s.furtherCylinders())
	}
	switch {
	case plugRule.MatchString(rule):
		return looks
	case leakRule.MatchString(rule):
		return max(leaks, dry)
	}
	return max(dry, leaks, looks)
}

// neighbours tells whether two cylinders stand side by side under one gasket.
func (s *subject) neighbours(a, b string) bool {
	return slices.ContainsFunc(s.out.Engine.Neighbours, func(pair []string) bool {
		return slices.Contains(pair, a) && slices.Contains(pair, b)
	})
}

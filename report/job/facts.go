package job

import (
	"gaugesheet/diag"
	"gaugesheet/diag/engine"
)

var camshafts = []string{"one", "one per bank", "two per bank"}

// valveKeys are of engines that have valves and pistons.
var valveKeys = []string{"camshafts", "lifters", "valve-gear", "timing-drive", "interference"}

// facts reads what an engine is apart from its size: what decides which checks
// fit it.
func (r *reader) facts(s *section, e *engine.Engine, spec *diag.Spec) {
	if e != nil && e.Kind == engine.Rotary {
		for _, key := range valveKeys {
			if s.get(key) != nil {
				r.report(s.keyPos(key), "leave it out", "'%s' is for engines with valves, and the engine is a rotary", s.label(key))
			}
		}
	}
	spec.Camshafts = r.camshafts(s, e)
	spec.Lifters = s.word("lifters").Value
	spec.ValveGear = s.word("valve-gear").Value
	spec.TimingDrive = s.word("timing-drive").Value
	spec.Interference = s.yesNo("interference")
	spec.Cooling = s.word("cooling").Value
	spec.Inverted = s.yesNo("inverted")
	spec.Hybrid = s.yesNo("hybrid")
	spec.Runs = s.word("runs").Value
	spec.Deactivates = s.cylinders("deactivates")
	if all := len(r.cylinderNames); all > 0 && len(spec.Deactivates) == all {
		r.report(s.get("deactivates").pos, "the cylinders that go on working are left out", "'%s' has every %s", s.label("deactivates"), r.cylinderWord)
	}
	spec.SharedCoils = r.sharedCoils(s)
}

// camshafts takes a bare number where it can only mean one thing.
func (r *reader) camshafts(s *section, e *engine.Engine) string {
	n := s.scalar("camshafts")
	if n == nil {
		return ""
	}
	banks := 1
	if e != nil && e.IsTwoBank() {
		banks = 2
	}
	switch given := plainWords(n.text); {
	case given == "sohc" || given == "single overhead" || given == "single cam":
		return camshafts[banks-1]
	case banks == 1 && (given == "two" || given == "2"), banks == 2 && (given == "four" || given == "4"):
		return "two per bank"
	case given == "1":
		return "one"
	case given == "two" || given == "2":
		r.report(n.pos, "two in all are 'one per bank'", "'%s' is '%s' on an engine of two banks, expected %s", s.label("camshafts"), short(n.text), anyOf(camshafts))
		return ""
	}
	return s.word("camshafts").Value
}

// sharedCoils reads the cylinders of each coil that fires several.
func (r *reader) sharedCoils(s *section) [][]string {
	n, label := s.get("shared-coils"), s.label("shared-coils")
	if n != nil && n.kind != list {
		r.report(n.pos, "such as [[1, 4], [2, 3]]", "'%s' is %s, expected the cylinders of each coil", label, describe(n))
		return nil
	}
	var out [][]string
	on := map[string]bool{}
	for _, item := range s.list("shared-coils", "[[1, 4], [2, 3]]") {
		if item.kind != list {
			r.report(item.pos, "such as [[1, 4], [2, 3]]", "'%s' has %s in it, expected the cylinders of each coil", label, describe(item))
			return nil
		}
		coil := r.nameList(item, label)
		if len(coil) < 2 {
			r.report(item.pos, "a coil of one cylinder is left out", "'%s' has a coil of %d, expected two %ss or more", label, len(coil), r.cylinderWord)
			continue
		}
		for _, name := range coil {
			if r.checkCylinder(name, label, item.pos) && on[name] {
				r.report(item.pos, "a cylinder has one coil", "'%s' has %s %s twice", label, r.cylinderWord, name)
			}
			on[name] = true
		}
		out = append(out, coil)
	}
	return out
}

package diag

import "slices"

// Untested is a test, or a part of one, that was not made, and why.
type Untested struct {
	Test      string // "compression", "leakage", "plugs", "fuel pressure", ... or the job's own words
	State     State
	Reason    string
	Cylinders []string // the cylinders (or rotors) that it holds for; none where for the whole test
	Reading   string   // the fuel reading that it holds for, "hose-off"; "" for the whole test
	Circuit   string   // the circuit of the reading
}

// untestedParts puts together the cylinders that were left out of a test for
// the same reason.
type untestedParts []Untested

func (p *untestedParts) add(test, name string, state State, reason string) {
	if state == "" || state == Tested {
		return
	}
	for i := range *p {
		if u := &(*p)[i]; u.Test == test && u.State == state && u.Reason == reason {
			if !slices.Contains(u.Cylinders, name) {
				u.Cylinders = append(u.Cylinders, name)
			}
			return
		}
	}
	*p = append(*p, Untested{Test: test, State: state, Reason: reason, Cylinders: []string{name}})
}

// partsUntested lists the cylinders and readings that were left out of a test
// that was made, with the states and reasons that the job gives them.
func (t *Test) partsUntested() []Untested {
	var parts untestedParts
	names := t.cylinders()
	if c := t.Compression; c != nil && c.State == Tested {
		for _, name := range names {
			parts.add("compression", name, c.Dry[name].State, c.Dry[name].Reason)
		}
		for _, name := range names {
			parts.add("first stroke", name, c.First[name].State, c.First[name].Reason)
			parts.add("compression again", name, c.Again[name].State, c.Again[name].Reason)
			parts.add("wet test", name, c.Wet[name].State, c.Wet[name].Reason)
			for _, r := range []*Reading{c.Running[name].Idle, c.Running[name].Snap} {
				if r != nil {
					parts.add("running compression", name, r.State, r.Reason)
				}
			}
		}
	}
	if l := t.Leakage; l != nil && l.State == Tested {
		for _, name := range names {
			parts.add("leakage", name, l.Dry[name].State, l.Dry[name].Reason)
		}
		for _, name := range names {
			parts.add("wet leakage", name, l.Wet[name].State, l.Wet[name].Reason)
		}
	}
	if p := t.Plugs; p != nil && p.State == Tested {
		for _, name := range names {
			parts.add("plugs", name, p.ByCylinder[name].State, p.ByCylinder[name].Reason)
		}
	}
	if r := t.Rotors; r != nil && r.State == Tested {
		for _, rotor := range r.Rotors {
			parts.add("rotors", rotor.Name, rotor.State, rotor.Reason)
			for _, face := range rotor.Faces {
				parts.add("rotor faces", rotor.Name, face.State, face.Reason)
			}
		}
	}
	return append(parts, t.fuelUntested()...)
}

// StateOf is whether a test was made of a cylinder or rotor, and why it was not, as the
// job has it by cylinder: of compression, leakage, plugs and rotors. The state is empty
// where it says nothing of that one.
func (t *Test) StateOf(test, name string) (State, string) {
	switch {
	case test == "compression" && t.Compression != nil:
		return t.Compression.Dry[name].State, t.Compression.Dry[name].Reason
	case test == "leakage" && t.Leakage != nil:
		return t.Leakage.Dry[name].State, t.Leakage.Dry[name].Reason
	case test == "plugs" && t.Plugs != nil:
		return t.Plugs.ByCylinder[name].State, t.Plugs.ByCylinder[name].Reason
	case test == "rotors" && t.Rotors != nil:
		for _, rotor := range t.Rotors.Rotors {
			if rotor.Name == name {
				return rotor.State, rotor.Reason
			}
		}
	}
	return "", ""
}

// fuelUntested lists the fuel readings that the job names and that were not
// taken.
func (t *Test) fuelUntested() []Untested {
	if t.Fuel == nil || t.Fuel.State != Tested {
		return nil
	}
	var parts []Untested
	for i := range t.Fuel.Circuits {
		c := &t.Fuel.Circuits[i]
		for _, r := range c.readings() {
			if r.reading.State != Tested {
				parts = append(parts, Untested{Test: "fuel pressure", State: r.reading.State, Reason: r.reading.Reason, Reading: r.name, Circuit: c.Name})
			}
		}
		for _, h := range c.Hold {
			if h.State != "" && h.State != Tested {
				parts = append(parts, Untested{Test: "fuel pressure", State: h.State, Reason: h.Reason, Reading: hold, Circuit: c.Name})
			}
		}
	}
	return parts
}

package diag

import "slices"

// partsUntested lists the cylinders and readings that were left out of a test
// that was made, with the states and reasons that the job gives them.
func (t *Test) partsUntested() []Untested {
	var parts []Untested
	add := func(test, name string, state State, reason string) {
		if state == "" || state == Tested {
			return
		}
		for i := range parts {
			if p := &parts[i]; p.Test == test && p.State == state && p.Reason == reason {
				if !slices.Contains(p.Cylinders, name) {
					p.Cylinders = append(p.Cylinders, name)
				}
				return
			}
		}
		parts = append(parts, Untested{Test: test, State: state, Reason: reason, Cylinders: []string{name}})
	}
	names := t.cylinders()
	if c := t.Compression; c != nil && c.State == Tested {
		for _, name := range names {
			add("compression", name, c.Dry[name].State, c.Dry[name].Reason)
		}
		for _, name := range names {
			add("first stroke", name, c.First[name].State, c.First[name].Reason)
			add("compression again", name, c.Again[name].State, c.Again[name].Reason)
			add("wet test", name, c.Wet[name].State, c.Wet[name].Reason)
			for _, r := range []*Reading{c.Running[name].Idle, c.Running[name].Snap} {
				if r != nil {
					add("running compression", name, r.State, r.Reason)
				}
			}
		}
	}
	if l := t.Leakage; l != nil && l.State == Tested {
		for _, name := range names {
			add("leakage", name, l.Dry[name].State, l.Dry[name].Reason)
		}
		for _, name := range names {
			add("wet leakage", name, l.Wet[name].State, l.Wet[name].Reason)
		}
	}
	if p := t.Plugs; p != nil && p.State == Tested {
		for _, name := range names {
			add("plugs", name, p.ByCylinder[name].State, p.ByCylinder[name].Reason)
		}
	}
	if r := t.Rotors; r != nil && r.State == Tested {
		for _, rotor := range r.Rotors {
			add("rotors", rotor.Name, rotor.State, rotor.Reason)
			for _, face := range rotor.Faces {
				add("rotor faces", rotor.Name, face.State, face.Reason)
			}
		}
	}
	return append(parts, t.fuelUntested()...)
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

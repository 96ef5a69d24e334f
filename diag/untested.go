package diag

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
				p.Cylinders = append(p.Cylinders, name)
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
	}
	if l := t.Leakage; l != nil && l.State == Tested {
		for _, name := range names {
			add("leakage", name, l.Dry[name].State, l.Dry[name].Reason)
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
	}
	return parts
}

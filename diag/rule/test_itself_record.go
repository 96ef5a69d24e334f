package rule

import (
	"slices"

	"gaugesheet/diag"
)

// What is asked for in words of its own, because it is missed only where
// something else depends on it.
const (
	rangeMissing     = "the gauge's range, without which its accuracy says nothing"
	fuelRangeMissing = "the fuel gauge's range, without which its accuracy says nothing"
	airMissing       = "the altitude (the limit is one for sea level)"
)

func methodIncomplete(c *Case) []diag.Notice {
	var list []diag.Notice
	section, missing := "compression", diag.Names(nil)
	switch {
	case c.Has(NeedsRotors):
		section, missing = "rotors", c.notRecorded(c.Rotors.CrankingRPM > 0 || c.Conditions.CrankingRPM != nil, "cranking speed", c.Sums.Rotors.Limits)
	case c.dryRead():
		missing = c.notRecorded(c.Conditions.Strokes > 0, "strokes", c.Sums.Compression.Limits)
	}
	if len(missing) > 0 {
		list = notice("method-incomplete", "", nil, diag.Facts{"missing": missing, "section": section})
	}
	if c.Has(NeedsFuel) && lacksRange(c.Gauges.Fuel) {
		list = append(list, notice("method-incomplete", "", nil, diag.Facts{"missing": diag.Names{fuelRangeMissing}, "section": "fuel-pressure"})...)
	}
	return list
}

// notRecorded lists what was not written down of a test made on the starter;
// turning is whether it is known how the engine was turned, and its name.
func (c *Case) notRecorded(turning bool, name string, limits []diag.LimitResult) diag.Names {
	var missing diag.Names
	ask := func(known bool, what string) {
		if !known {
			missing = append(missing, what)
		}
	}
	ask(c.Gauges.Compression != nil, "gauge")
	ask(c.Conditions.Engine != "" || c.Conditions.CoolantC != nil, "engine temperature")
	ask(c.Spec.Diesel() || c.Conditions.Throttle == "open" || c.Conditions.Throttle == "closed", "throttle")
	ask(turning, name)
	ask(!lacksRange(c.Gauges.Compression), rangeMissing)
	ask(!slices.ContainsFunc(limits, func(l diag.LimitResult) bool { return l.Uncorrected }), airMissing)
	return missing
}

// lacksRange reports a gauge whose accuracy is a part of a span that was not
// recorded.
func lacksRange(g *diag.Gauge) bool {
	return g != nil && g.Accuracy != nil && g.Accuracy.NeedsRange() && !(g.High > g.Low)
}

// dryRead reports that compression was read dry, if only as a lower bound.
func (c *Case) dryRead() bool {
	return c.anyCylinder(func(r *diag.CylinderResult) bool { return len(r.DryReadings) > 0 })
}

// boundsOnly lists the cylinders known only to read more than a figure.
func (c *Case) boundsOnly() []string {
	return c.cylindersThat(func(r *diag.CylinderResult) bool { return len(r.DryReadings) > 0 && r.Kind == diag.AtLeast })
}

func lowerBound(c *Case) []diag.Notice {
	names := c.boundsOnly()
	if len(names) == 0 {
		return nil
	}
	least := c.Cylinder(names[0]).DryReadings[0]
	for _, name := range names {
		least = min(least, slices.Min(c.Cylinder(name).DryReadings))
	}
	return notice("lower-bound", "", names, diag.Facts{"least": c.pressure(least)})
}

func tooFewCylinders(c *Case) []diag.Notice {
	names := c.Engine.Names()
	variant := ""
	var read func(name string) bool
	switch {
	case len(names) < 2:
		return nil
	case c.dryRead():
		read = func(name string) bool { return len(c.Compression.Dry[name].Values) > 0 }
	case c.Has(NeedsRotors):
		variant = "rotors"
		read = func(name string) bool {
			return slices.ContainsFunc(c.Sums.Rotors.Rotors, func(r diag.RotorResult) bool { return r.Name == name && len(r.Values) > 0 })
		}
	// Beside a whole compression test the leakage of the low ones is enough.
	case c.Has(NeedsLeakage):
		read = func(name string) bool { return len(c.Leakage.Dry[name].Values) > 0 }
	default:
		return nil
	}
	unread := slices.DeleteFunc(slices.Clone(names), read)
	if len(unread) == 0 {
		return nil
	}
	return notice("too-few-cylinders", variant, unread, diag.Facts{"read": len(names) - len(unread), "of": len(names)})
}

// noticeOf is the first notice of a rule so far, nil for none.
func (c *Case) noticeOf(rule string) *diag.Notice {
	for i := range c.Sums.Notices {
		if n := &c.Sums.Notices[i]; n.Rule == rule {
			return n
		}
	}
	return nil
}

// unitSuspect passes on what reading the job found, but for a compression of
// next to nothing with a reading of 0 among it: nothing is nothing in any unit.
func unitSuspect(c *Case) []diag.Notice {
	s := c.Sums.Compression
	nothing := s != nil && s.WithoutPressure() && s.Lowest <= 0
	return slices.DeleteFunc(noted("unit-suspect")(c), func(n diag.Notice) bool {
		return nothing && n.Facts["section"] == "compression"
	})
}

// wholeSection is the section all of whose readings, two at least, may stand in
// another unit by a notice of it; "" where the notice is of single readings.
func (c *Case) wholeSection(n diag.Notice) string {
	section, _ := n.Facts["section"].(string)
	if n.Rule != "unit-suspect" || n.Variant == "range-with-dot" || len(n.Cylinders) > 0 {
		return ""
	}
	if s := c.Sums.Compression; section == "compression" && (s == nil || s.N < 2) {
		return ""
	}
	return section
}

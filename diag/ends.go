package diag

import "maps"

// UpTo is a reading that is known only not to be more than a figure: a band from nothing.
func (r Reading) UpTo() (end float64, ok bool) {
	if r.Kind != Band || len(r.Values) != 1 || r.Values[0] > r.HalfWidth {
		return 0, false
	}
	return r.Values[0] + r.HalfWidth, true
}

// ends reckons a set again with each reading that is known only not to be more than a figure
// at either of its ends: what is said of such a set is said from the one to the other, and the
// middle, which nobody read, is not printed.
func (c *cranking) ends(r *CompressionResult) {
	section := c.test.Compression
	at := [2]map[string]Reading{maps.Clone(section.Dry), maps.Clone(section.Dry)}
	some := false
	for name, one := range section.Dry {
		if end, ok := one.UpTo(); ok && one.State == Tested {
			some = true
			for i, v := range []float64{0, end} {
				at[i][name] = Reading{State: Tested, Values: []float64{v}, Entered: one.Entered, Unit: one.Unit}
			}
		}
	}
	if !some {
		return
	}
	var of [2]*CompressionResult
	for i := range at {
		test, moved := *c.test, *section
		moved.Dry = at[i]
		test.Compression = &moved
		of[i] = assessCompression(&test)
	}
	r.Ends = &of
	for i := range r.Limits {
		if a, b := of[0].Limits, of[1].Limits; i < len(a) && i < len(b) && a[i].Verdict != NotJudged && b[i].Verdict != NotJudged && r.Limits[i].Verdict != NotJudged && a[i].Value != b[i].Value {
			r.Limits[i].Ends = &[2]float64{a[i].Value, b[i].Value}
			if a[i].Verdict == b[i].Verdict { // wherever between them it lies
				r.Limits[i].Verdict = a[i].Verdict
			}
		}
	}
}

// EndsOf are the readings of a cylinder between which it is known to lie, where it is known
// only not to read more than one; nil for a reading that is one.
func (r *CompressionResult) EndsOf(name string) *[2]float64 {
	if r.Ends == nil {
		return nil
	}
	a, b := r.Ends[0].Cylinder(name), r.Ends[1].Cylinder(name)
	if a == nil || b == nil || a.Dry == nil || b.Dry == nil || *a.Dry == *b.Dry {
		return nil
	}
	return &[2]float64{*a.Dry, *b.Dry}
}

// bounded reports a reading that is known only not to be more than a figure: how far it rose,
// or fell, nobody knows.
func bounded(r Reading) bool {
	_, ok := r.UpTo()
	return ok
}

package known

import (
	"math"
	"slices"

	"gaugesheet/diag"
)

// AnyCylinder reports a cylinder of such compression.
func (c *Case) AnyCylinder(is func(*diag.CylinderResult) bool) bool {
	list := c.Cranking().Cylinders
	for i := range list {
		if is(&list[i]) {
			return true
		}
	}
	return false
}

// CylindersThat lists cylinders by their compression, in the engine's order.
func (c *Case) CylindersThat(is func(*diag.CylinderResult) bool) []string {
	var names []string
	for i := range c.Cranking().Cylinders {
		if r := &c.Cranking().Cylinders[i]; is(r) {
			names = append(names, r.Name)
		}
	}
	return names
}

// Cylinder gives a cylinder's compression, nil where there is none.
func (c *Case) Cylinder(name string) *diag.CylinderResult {
	return c.Cranking().Cylinder(name)
}

// Grade gives a cylinder's grade; not tested where its compression was not.
func (c *Case) Grade(name string) diag.Grade {
	if r := c.Cylinder(name); r != nil {
		return r.Grade
	}
	return diag.GradeNotTested
}

// LowSet lists the cylinders graded low, very low or without pressure, in the
// engine's order.
func (c *Case) LowSet() []string {
	return c.CylindersThat(func(r *diag.CylinderResult) bool { return r.Grade.IsLow() })
}

// Graded lists the cylinders of one of these grades, in the engine's order.
func (c *Case) Graded(grades ...diag.Grade) []string {
	return c.CylindersThat(func(r *diag.CylinderResult) bool { return slices.Contains(grades, r.Grade) })
}

// Read lists the cylinders whose compression was read, in the engine's order;
// not those known only to read more than some value. The list is the case's own.
func (c *Case) Read() []string {
	if c.read == nil {
		c.read = c.CylindersThat(func(r *diag.CylinderResult) bool { return r.Dry != nil && r.Kind != diag.AtLeast })
		if c.read == nil {
			c.read = []string{}
		}
	}
	return c.read
}

// InOrder sorts cylinders as the engine lists them.
func (c *Case) InOrder(names []string) {
	slices.SortFunc(names, func(a, b string) int { return c.Engine.Index(a) - c.Engine.Index(b) })
}

// Others lists the cylinders that were read and are not among these.
func (c *Case) Others(names []string) []string {
	others := make([]string, 0, len(c.Read()))
	for _, name := range c.Read() {
		if !slices.Contains(names, name) {
			others = append(others, name)
		}
	}
	return others
}

// Spread gives the lowest and highest dry reading of some cylinders.
func (c *Case) Spread(names []string) (low, high float64) {
	for i, name := range names {
		v := *c.Cylinder(name).Dry
		if i == 0 {
			low, high = v, v
		}
		low, high = min(low, v), max(high, v)
	}
	return low, high
}

// AnyLow reports that one of these cylinders is graded low or worse.
func (c *Case) AnyLow(names []string) bool {
	return slices.ContainsFunc(names, func(n string) bool { return c.Grade(n).IsLow() })
}

// AnyRotorLow reports that one of these rotors has a face that reads low.
func (c *Case) AnyRotorLow(names []string) bool { return slices.ContainsFunc(names, c.rotorLow) }

// AnyFar reports a cylinder so far down that the engine is not run to see
// whether it recovers.
func (c *Case) AnyFar(names []string) bool { return slices.ContainsFunc(names, c.Far) }

// Far reports a cylinder that is graded very low or without pressure.
func (c *Case) Far(name string) bool {
	g := c.Grade(name)
	return g == diag.VeryLow || g == diag.NoPressure
}

// AllDead reports cylinders none of which has any pressure.
func (c *Case) AllDead(names []string) bool {
	return len(names) > 0 && !slices.ContainsFunc(names, func(n string) bool { return c.Grade(n) != diag.NoPressure })
}

// NeighboursOf lists the cylinders that stand beside one under the same head.
func (c *Case) NeighboursOf(name string) []string {
	var list []string
	for _, pair := range c.Engine.Neighbours() {
		switch name {
		case pair[0]:
			list = append(list, pair[1])
		case pair[1]:
			list = append(list, pair[0])
		}
	}
	return list
}

// Compared lists the cylinders whose compression was read, known to a figure or
// only to read more than one.
func (c *Case) Compared() []string {
	return c.CylindersThat(func(r *diag.CylinderResult) bool { return r.Dry != nil })
}

// ReadAny lists the cylinders of which any reading was taken.
func (c *Case) ReadAny() []string {
	return c.Those(func(n string) bool {
		r := c.Cylinder(n)
		return r != nil && r.Dry != nil || c.Leak(n) != nil || c.Plug(n) != nil
	})
}

// ClearDifference is what two readings of this test may differ by and still be
// the same: 2 sqrt(2) times the standard uncertainty of one.
func (c *Case) ClearDifference() float64 { return 2 * math.Sqrt2 * c.Cranking().URepeat }

// LowByEvery are the lowest and the highest repeat of a cylinder whose repeats are too far
// apart to be averaged, in percent of the best cylinder; ok where each of them is low.
func (c *Case) LowByEvery(name string) (low, high float64, ok bool) {
	r, s := c.Cylinder(name), c.Cranking()
	lone := slices.ContainsFunc(s.Limits, func(l diag.LimitResult) bool { return l.Reason == "lone-reading" }) // beside this one it is one of two
	if r == nil || !s.LowByEvery(r) || !lone && len(c.Graded(diag.GradeNotJudged, diag.GradeNotTested)) == len(s.Cylinders) {
		return 0, 0, false
	}
	low, high = 100*slices.Min(r.DryReadings)/s.Reference, 100*slices.Max(r.DryReadings)/s.Reference
	return low, high, true
}

// ReadsLowByEvery is that as a condition.
var ReadsLowByEvery = OfAll("repeats that disagree, each of them under 85 % of the best cylinder", func(c *Case, n string) bool { _, _, ok := c.LowByEvery(n); return ok })

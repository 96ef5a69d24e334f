package rule

import (
	"slices"
	"sync"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
	"gaugesheet/diag/quantity"
)

// missing gives the first kind of reading that the case lacks, "" for none.
func (c *Case) missing(needs []Need) Need {
	for _, n := range needs {
		if !c.Has(n) {
			return n
		}
	}
	return ""
}

// Has reports whether a kind of reading was taken.
func (c *Case) Has(n Need) bool {
	switch n {
	case NeedsCompression:
		return c.Sums.Compression != nil && c.Sums.Compression.N > 0
	case NeedsWet:
		return c.anyCylinder(func(r *diag.CylinderResult) bool { return r.Wet != nil && r.Dry != nil })
	case NeedsFirst:
		return c.anyCylinder(func(r *diag.CylinderResult) bool { return r.First != nil && r.Dry != nil })
	case NeedsLeakage:
		return c.Sums.Leakage != nil && c.Sums.Leakage.State == diag.Tested
	case NeedsPlugs:
		return c.Sums.Plugs != nil && c.Sums.Plugs.State == diag.Tested
	case NeedsRotors:
		return c.Sums.Rotors != nil && c.Sums.Rotors.State == diag.Tested
	case NeedsFuel:
		return c.Sums.Fuel != nil && c.Sums.Fuel.State == diag.Tested
	case NeedsEarlier:
		return len(c.Earlier) > 0
	}
	return false
}

func (c *Case) anyCylinder(is func(*diag.CylinderResult) bool) bool {
	return len(c.cylindersThat(is)) > 0
}

// cylindersThat lists cylinders by their compression, in the engine's order.
func (c *Case) cylindersThat(is func(*diag.CylinderResult) bool) []string {
	if c.Sums.Compression == nil {
		return nil
	}
	var names []string
	for i := range c.Sums.Compression.Cylinders {
		if r := &c.Sums.Compression.Cylinders[i]; is(r) {
			names = append(names, r.Name)
		}
	}
	return names
}

// Cylinder gives a cylinder's compression, nil where there is none.
func (c *Case) Cylinder(name string) *diag.CylinderResult {
	if c.Sums.Compression == nil {
		return nil
	}
	return c.Sums.Compression.Cylinder(name)
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
	return c.cylindersThat(func(r *diag.CylinderResult) bool { return r.Grade.IsLow() })
}

// Graded lists the cylinders of one of these grades, in the engine's order.
func (c *Case) Graded(grades ...diag.Grade) []string {
	return c.cylindersThat(func(r *diag.CylinderResult) bool { return slices.Contains(grades, r.Grade) })
}

// Read lists the cylinders whose compression was read, in the engine's order;
// not those known only to read more than some value.
func (c *Case) Read() []string {
	return c.cylindersThat(func(r *diag.CylinderResult) bool { return r.Dry != nil && r.Kind != diag.AtLeast })
}

// Leak gives a cylinder's leakage, nil where it was not read.
func (c *Case) Leak(name string) *diag.LeakResult {
	if c.Sums.Leakage == nil {
		return nil
	}
	if l := c.Sums.Leakage.Cylinder(name); l != nil && l.Loss != nil {
		return l
	}
	return nil
}

// Plug gives a cylinder's plug, nil where it was not looked at.
func (c *Case) PlugOf(name string) *diag.PlugResult {
	if c.Sums.Plugs == nil {
		return nil
	}
	for i := range c.Sums.Plugs.Cylinders {
		if p := &c.Sums.Plugs.Cylinders[i]; p.Name == name && p.State == diag.Tested {
			return p
		}
	}
	return nil
}

// looks reports whether a cylinder's plug has one of these looks.
func (c *Case) looks(name string, looks ...string) bool {
	p := c.PlugOf(name)
	return p != nil && slices.Contains(looks, p.Look)
}

// pressure is a number in the compression section's unit and decimals.
func (c *Case) pressure(v float64) diag.Number {
	return diag.Number{Value: v, Decimals: c.Sums.Compression.Decimals, Unit: c.Sums.Compression.Unit}
}

// percent is a number of percent, whole where it is read as one.
func percent(v float64, decimals int) diag.Number {
	return diag.Number{Value: v, Decimals: decimals, Unit: quantity.Percent}
}

// place is where the first of some cylinders stands in the engine.
func (c *Case) place(names []string) int {
	if len(names) == 0 {
		return -1
	}
	if i := slices.Index(c.Engine.Names(), names[0]); i >= 0 {
		return i
	}
	return len(c.Engine.Names())
}

// noticed reports whether a rule gave a notice so far.
func (c *Case) noticed(rule string) bool {
	return slices.ContainsFunc(c.Sums.Notices, func(n diag.Notice) bool { return n.Rule == rule })
}

// next is the first of some checks that the job does not say was made already,
// on these cylinders; nil where all were.
func (c *Case) next(cylinders []string, checks ...string) *diag.Check {
	for _, key := range checks {
		if !c.doneOn(key, cylinders) {
			facts := diag.Facts{"Cylinders": diag.Names(cylinders), "all": len(cylinders) == len(c.Engine.Cylinders), "diesel": c.Spec.Diesel(), "rotary": c.Engine.Kind == engine.Rotary}
			return &diag.Check{Key: key, Facts: facts, Minutes: minutesFor(key)}
		}
	}
	return nil
}

func phrases(keys ...string) []diag.Phrase {
	list := make([]diag.Phrase, len(keys))
	for i, k := range keys {
		list[i].Key = k
	}
	return list
}

// everyRule is All, put together once.
var everyRule = sync.OnceValue(All)

var rulesByName = sync.OnceValue(func() map[string]*Rule {
	all := everyRule()
	index := make(map[string]*Rule, len(all))
	for i := range all {
		index[all[i].Name] = &all[i]
	}
	return index
})

func byName(name string) *Rule { return rulesByName()[name] }

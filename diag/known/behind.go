package known

import (
	"slices"

	"gaugesheet/diag"
)

// BehindABreak reports cylinders without pressure, three at least, that stand together at the
// rear of a row of three or more, while those ahead of them were read and make good pressure,
// and no row has any elsewhere: what drives the valves, mostly at the front, turns, and a
// camshaft that broke leaves all of them still behind the break.
func (c *Case) BehindABreak(dead []string) bool {
	if !c.HasValves() || c.Ported() || len(dead) < 3 {
		return false
	}
	found := 0
	for _, bank := range c.Engine.Banks {
		row := bank.Cylinders
		still := slices.DeleteFunc(slices.Clone(row), func(n string) bool { return !slices.Contains(dead, n) })
		turning := slices.DeleteFunc(slices.Clone(row), func(n string) bool { return c.Grade(n) != diag.Even })
		if len(still) == 0 {
			continue
		}
		if len(row) < 3 || len(still) < 2 || len(turning) == 0 || len(still)+len(turning) != len(row) || !slices.Equal(still, row[len(turning):]) {
			return false
		}
		found += len(still)
	}
	return found == len(dead)
}

package known

import (
	"slices"
	"strings"
)

// newCatalyst are words of a catalyst that is new, readAfter of a place behind it.
var (
	newCatalyst = pairs("catalyst|catalytic|converter|cat", "new|renewed|replaced|fitted|changed")
	readAfter   = pairs("after|behind|downstream|post", "catalyst|catalytic|converter|cat")
)

// BlockedBehindCatalyst reports back-pressure that a catalyst cannot make: one that was renewed, or
// behind which it was read. What holds back is then behind it, and the exhaust is opened there.
func (c *Case) BlockedBehindCatalyst() bool {
	r := c.Measured(BackPressure)
	if r == nil {
		return false
	}
	renewed := func(line string) bool { return SpeaksOf(plainWords(line), newCatalyst...) }
	return slices.ContainsFunc(c.History.WorkDone, renewed) || c.Before != nil && renewed(c.Before.Done) ||
		SpeaksOf(strings.ToLower(r.Word("at")), readAfter...)
}

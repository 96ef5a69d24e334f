package figure

import (
	"cmp"
	"math"
	"slices"
)

// An arrangement says where the text of each cylinder stands: beside its bore
// or above and below it, and whether the small values stand opposite.
type arrangement struct {
	stacked   bool // above and below the bore instead of left and right
	split     bool // the small values on the other side of the bore
	alternate bool // sides change from one cylinder to the next
}

// arrangementsOf are the arrangements to try, in groups: first those that suit
// an engine that stands or lies on the page, last those in which the sides
// alternate. Where a head has two rows of bores the words stay out of it.
func arrangementsOf(d EnginePlan) [][]arrangement {
	if d.Ring {
		return [][]arrangement{{{}}}
	}
	beside, around := []arrangement{{split: true}, {}}, []arrangement{{stacked: true, split: true}, {stacked: true}}
	alternating := []arrangement{{alternate: true}, {stacked: true, alternate: true}}
	if slices.ContainsFunc(d.Heads, func(head []int) bool { return twoRows(d, head) }) {
		beside, around = beside[1:], around[1:]
	}
	if lies(d) {
		return [][]arrangement{around, beside, alternating}
	}
	return [][]arrangement{beside, around, alternating}
}

// lies reports whether the engine's rows run across the page.
func lies(d EnginePlan) bool {
	if lying, ok := bankAxis(d); ok {
		return lying
	}
	return spanOf(d, false) > spanOf(d, true)
}

// spanOf is how wide or, stacked, how high the plan is in pitches.
func spanOf(d EnginePlan, stacked bool) float64 {
	low, high := math.Inf(1), math.Inf(-1)
	for _, c := range d.Cylinders {
		low, high = min(low, coordinate(c, stacked)), max(high, coordinate(c, stacked))
	}
	return high - low
}

// twoRows reports whether a head's bores stand in neither one row nor one
// column.
func twoRows(d EnginePlan, head []int) bool {
	spread := func(stacked bool) bool {
		middle := middleOf(d, head, stacked)
		return slices.ContainsFunc(head, func(i int) bool {
			return i >= 0 && i < len(d.Cylinders) && math.Abs(coordinate(d.Cylinders[i], stacked)-middle) > 0.05
		})
	}
	return spread(false) && spread(true)
}

// side is where the main text of cylinder i stands: away from the middle of
// its head, then away from the middle of the engine.
func (a arrangement) side(p EnginePlan, i int) Direction {
	before, after := Left, Right
	if a.stacked {
		before, after = Up, Down
	}
	if a.alternate {
		if rankAlong(p, i, a.stacked)%2 == 0 {
			return before
		}
		return after
	}
	here := coordinate(p.Cylinders[i], a.stacked)
	for _, middle := range []float64{middleOf(p, headOf(p, i), a.stacked), middleOf(p, nil, a.stacked)} {
		if here < middle-0.05 {
			return before
		}
		if here > middle+0.05 {
			return after
		}
	}
	return before
}

func opposite(d Direction) Direction {
	switch d {
	case Left:
		return Right
	case Right:
		return Left
	case Up:
		return Down
	}
	return Up
}

// coordinate is the cylinder's place across the line that its text stands
// along: x where the text is at its sides, y where it is above and below.
func coordinate(c Cylinder, stacked bool) float64 {
	if stacked {
		return c.Y
	}
	return c.X
}

func headOf(p EnginePlan, i int) []int {
	for _, head := range p.Heads {
		if slices.Contains(head, i) {
			return head
		}
	}
	return []int{i}
}

// middleOf is the middle of some of the cylinders, of all where none are given.
func middleOf(p EnginePlan, some []int, stacked bool) float64 {
	low, high := math.Inf(1), math.Inf(-1)
	for i, c := range p.Cylinders {
		if some == nil || slices.Contains(some, i) {
			low, high = min(low, coordinate(c, stacked)), max(high, coordinate(c, stacked))
		}
	}
	return (low + high) / 2
}

// rankAlong is how many cylinders come before i along the row.
func rankAlong(p EnginePlan, i int, stacked bool) int {
	rank := 0
	for j, c := range p.Cylinders {
		if d := cmp.Compare(coordinate(c, !stacked), coordinate(p.Cylinders[i], !stacked)); d < 0 || d == 0 && j < i {
			rank++
		}
	}
	return rank
}

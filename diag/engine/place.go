package engine

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// Distances of the drawing, in pitches. How far apart banks stand differs
// from engine to engine and decides nothing; only that they are further apart
// than neighbours matters.
const (
	vRowOffset    = 0.9                // bank centre from the crankshaft, V
	flatRowOffset = 1.3                // the same, flat: the crankcase lies between
	staggerStep   = 0.5                // along the crankshaft from one cylinder of a narrow V to the next
	wBankOffset   = 1.2                // centre of a W engine's bank from the crankshaft
	rowsApart     = 0.8660254037844386 // sqrt(3)/2: neighbours across the rows are one pitch apart
	maxCoordinate = 1e6                // of a custom layout
	maxCustom     = 64                 // cylinders of a custom layout, more than a page can show
)

func (b *builder) placeOneBank(e *Engine) bool {
	bank, ok := b.oneBank()
	sign := -1.0
	if e.Kind == NarrowV && b.spec.FirstBank != "" {
		side, sideOK := b.firstBank()
		ok = ok && sideOK
		sign = sideSign(side, b.mount)
		e.firstRowGiven = true
	}
	if !ok {
		return false
	}
	e.Banks = []Bank{bank}
	for i := range bank.Cylinders {
		x, y := 0.0, float64(i)
		switch e.Kind {
		case NarrowV:
			x, y = staggered(i, sign)
		case Radial:
			x, y = onRing(i, len(bank.Cylinders))
		}
		e.add(bank.Cylinders[i], 0, x, y)
	}
	e.sortByNumber()
	return true
}

func (b *builder) placeTwoBanks(e *Engine) bool {
	banks, numbered, ok := b.twoBanks()
	if !ok {
		return false
	}
	e.Banks, e.Numbered = banks, numbered
	for k, bank := range banks {
		sign := sideSign(bank.Name, b.mount)
		for i, name := range bank.Cylinders {
			x, y := 0.0, float64(i)
			switch e.Kind {
			case V:
				x = sign * vRowOffset
			case Flat:
				x = sign * flatRowOffset
			case W:
				// The first cylinder of each bank is drawn in the outer row.
				x, y = staggered(i, sign)
				x += sign * wBankOffset
			}
			e.add(name, k, x, y)
		}
	}
	e.sortByNumber()
	return true
}

// staggered places the i-th cylinder of two staggered rows; the first row is
// on the side of sign.
func staggered(i int, sign float64) (x, y float64) {
	if i%2 == 1 {
		sign = -sign
	}
	return sign * rowsApart / 2, float64(i) * staggerStep
}

// onRing places the i-th of n cylinders clockwise from the top, one pitch
// from the next.
func onRing(i, n int) (x, y float64) {
	radius := 0.5 / math.Sin(math.Pi/float64(n))
	angle := 2 * math.Pi * float64(i) / float64(n)
	return radius * math.Sin(angle), -radius * math.Cos(angle)
}

func (b *builder) placeRotors(e *Engine) bool {
	names, ok := b.ownNames()
	if !ok {
		return false
	}
	for i, name := range names {
		e.Rotors = append(e.Rotors, Rotor{Name: name, Faces: [3]string{"A", "B", "C"}, Y: float64(i)})
	}
	return true
}

func (b *builder) placeCustom(e *Engine) bool {
	cylinders := b.spec.Custom
	if len(cylinders) == 0 {
		b.report("cylinders", -1, "a custom layout needs the place of each cylinder",
			"such as 'cylinders: [{name: front, x: 0, y: 0, head: 1}, {name: rear, x: 0, y: 1, head: 2}]'; x to the right, y to the rear")
		return false
	}
	if len(cylinders) > maxCustom {
		b.report("cylinders", maxCustom, fmt.Sprintf("%d cylinders are listed; a custom layout has at most %d", len(cylinders), maxCustom), "")
		return false
	}
	names := make([]string, len(cylinders))
	ok := true
	for i, c := range cylinders {
		names[i] = strings.TrimSpace(c.Name)
		if !(math.Abs(c.X) <= maxCoordinate && math.Abs(c.Y) <= maxCoordinate) {
			b.report("cylinders", i, fmt.Sprintf("the place of cylinder %s is not a usable pair of numbers", names[i]),
				"x to the right, y to the rear, in any one scale")
			ok = false
		}
	}
	ok = b.checkNames("cylinders", names, same) && ok
	if !ok || !b.checkPlaces(names) {
		return false
	}
	pitch := smallestGap(len(cylinders), func(i, j int) float64 {
		return math.Hypot(cylinders[i].X-cylinders[j].X, cylinders[i].Y-cylinders[j].Y)
	})
	for i, c := range cylinders {
		e.add(names[i], -1, c.X/pitch, c.Y/pitch)
	}
	e.sortByNumber()
	return true
}

// minGap keeps positions, once divided by the pitch, within floating point.
const minGap = 1e-6

func (b *builder) checkPlaces(names []string) bool {
	ok := true
	for j, c := range b.spec.Custom {
		for i, other := range b.spec.Custom[:j] {
			if math.Hypot(c.X-other.X, c.Y-other.Y) < minGap {
				b.report("cylinders", j, fmt.Sprintf("cylinders %s and %s are in the same place", names[i], names[j]), "")
				ok = false
			}
		}
	}
	return ok
}

// smallestGap is the smallest distance between two of n points, 1 where there
// are no two.
func smallestGap(n int, distance func(i, j int) float64) float64 {
	smallest := math.Inf(1)
	for i := range n {
		for j := range i {
			smallest = min(smallest, distance(i, j))
		}
	}
	if math.IsInf(smallest, 1) {
		return 1
	}
	return smallest
}

// add appends a cylinder in place order.
func (e *Engine) add(name string, bank int, x, y float64) {
	e.order = append(e.order, len(e.Cylinders))
	e.Cylinders = append(e.Cylinders, Cylinder{Name: name, Bank: bank, Head: -1, X: x, Y: y})
}

// sortByNumber puts the cylinders in numerical order if all names are
// numbers, and keeps the order of places beside it.
func (e *Engine) sortByNumber() {
	number := map[string]int{}
	for _, c := range e.Cylinders {
		n, err := strconv.Atoi(c.Name)
		if err != nil {
			return
		}
		number[c.Name] = n
	}
	byPlace := e.Names()
	slices.SortStableFunc(e.Cylinders, func(a, b Cylinder) int { return number[a.Name] - number[b.Name] })
	for i, name := range byPlace {
		e.order[i] = e.Index(name)
	}
}

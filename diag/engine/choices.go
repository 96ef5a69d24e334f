package engine

import (
	"fmt"
	"slices"
	"strings"
)

// A Choice is a way of numbering an engine of two banks: the numbering, "" for
// two cylinders, and the side of the vehicle that cylinder 1 is on.
type Choice struct{ Numbering, FirstBank string }

// Choices are the ways of numbering a layout of two banks that sits lengthwise;
// none for any other.
func Choices(layout string) []Choice {
	l, problem := ParseLayout(layout)
	if problem != nil || !l.Kind.TwoBanks() {
		return nil
	}
	numberings := []string{AcrossBanks, BankByBank}
	if l.Count == 2 { // both are the same
		numberings = []string{""}
	}
	var out []Choice
	for _, numbering := range numberings {
		for _, side := range []string{left, right} {
			one := Choice{numbering, side}
			if _, problems := one.engine(layout); len(problems) == 0 {
				out = append(out, one)
			}
		}
	}
	return out
}

func (c Choice) engine(layout string) (*Engine, []Problem) {
	return New(Spec{Layout: layout, Numbering: c.Numbering, FirstBank: c.FirstBank})
}

// Banks are the banks of a layout that is numbered so; none where it cannot be.
func (c Choice) Banks(layout string) []Bank {
	e, problems := c.engine(layout)
	if len(problems) > 0 {
		return nil
	}
	return e.Banks
}

// DrawChoices draws the ways of numbering a layout side by side, each under its
// number in the list, with the words for it below.
func DrawChoices(layout string) []string {
	const widest, gap = 76, 4
	choices := Choices(layout)
	drawn := make([][]string, 0, len(choices))
	width := 0
	for i, c := range choices {
		e, problems := c.engine(layout)
		if len(problems) > 0 {
			continue
		}
		one := append([]string{fmt.Sprint(i + 1), "^ front"}, e.grid(e.Plan())...)
		if c.Numbering != "" {
			one = append(one, c.Numbering)
		}
		one = append(one, "1 on the "+c.FirstBank)
		for _, line := range one {
			width = max(width, len([]rune(line)))
		}
		drawn = append(drawn, one)
	}
	inRow := len(drawn)
	if inRow*(width+gap)-gap > widest {
		inRow = 2
	}
	var out []string
	for row := range slices.Chunk(drawn, max(inRow, 1)) {
		for i := range row[0] {
			var line strings.Builder
			for _, one := range row {
				fmt.Fprintf(&line, "%-*s", width+gap, one[i])
			}
			out = append(out, strings.TrimRight(line.String(), " "))
		}
	}
	return out
}

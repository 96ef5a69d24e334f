package engine

import (
	"math"
	"slices"
	"strings"
)

// Drawing draws the engine's plan in text: names in brackets in their places,
// the arrows that are known, and each bank listed front to rear.
func (e *Engine) Drawing() string {
	p := e.Plan()
	var out []string
	out = append(out, caption(p)...)
	out = append(out, e.grid(p)...)
	if e.IsTwoBank() {
		var banks []string
		for _, bank := range e.Banks {
			banks = append(banks, bank.Name+" "+strings.Join(bank.Cylinders, "-"))
		}
		out = append(out, strings.Join(banks, " / "))
	}
	return strings.Join(out, "\n") + "\n"
}

func caption(p Plan) []string {
	arrows := map[Direction]string{Up: "^", Down: "v", ToLeft: "<", ToRight: ">"}
	var lines []string
	if p.VehicleFront != NotShown {
		lines = append(lines, arrows[p.VehicleFront]+" front of the vehicle")
	}
	if p.EngineFront != NotShown {
		lines = append(lines, arrows[p.EngineFront]+" front of the engine")
	}
	if len(lines) == 0 {
		lines = append(lines, p.View)
	}
	return lines
}

// grid writes the names onto lines of text. Every pitch takes enough columns
// for the longest name; half pitches, where the layout has them, get a line.
func (e *Engine) grid(p Plan) []string {
	longest := 1
	for _, q := range p.Places {
		longest = max(longest, len([]rune(q.Name)))
	}
	columns := float64(longest + 4)
	lines := 1.0
	if slices.Contains([]Kind{NarrowV, W, Radial, Custom}, e.Kind) {
		lines = 2
	}
	places := slices.Clone(p.Places)
	slices.SortStableFunc(places, func(a, b Place) int {
		if d := line(a, lines) - line(b, lines); d != 0 {
			return d
		}
		return int(math.Copysign(1, a.X-b.X))
	})
	var rows []string
	for _, q := range places {
		for len(rows) <= line(q, lines) {
			rows = append(rows, "")
		}
		row := &rows[line(q, lines)]
		gap := int(math.Round(q.X*columns)) - len([]rune(*row))
		*row += strings.Repeat(" ", max(gap, 0)) + "(" + q.Name + ")"
	}
	return rows
}

func line(q Place, lines float64) int { return int(math.Round(q.Y * lines)) }

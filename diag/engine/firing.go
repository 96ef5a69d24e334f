package engine

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// firingOrder checks that the firing order names every cylinder, or rotor,
// once. It gives nil where it is not given or not sound.
func (b *builder) firingOrder(e *Engine) []string {
	if len(b.spec.FiringOrder) == 0 {
		return nil
	}
	order := trimAll(b.spec.FiringOrder)
	names := e.Names()
	if !e.Numbered {
		names = numbers(len(e.Cylinders))
	}
	if e.Numbered && e.IsTwoBank() && allPlaces(order) && !slices.ContainsFunc(order, func(s string) bool { return e.Index(s) >= 0 }) {
		byName, err := e.fromPositions(order)
		if err != nil {
			b.report("firing-order", -1, err.Error(), "L1 is the front cylinder of the left bank")
			return nil
		}
		order = byName
	}
	if byName := byNumber(order, b.spec.Names); byName != nil {
		order = byName
	}
	what := "cylinder"
	if e.Kind == Rotary {
		what = "rotor"
	}
	if !slices.ContainsFunc(order, func(s string) bool { return slices.Contains(names, s) }) {
		b.report("firing-order", -1, fmt.Sprintf("the firing order names %s, but the engine has no such %ss", joinWords(quoteAll(order), "and"), what),
			fmt.Sprintf("the %ss are %s", what, joinWords(names, "and")))
		return nil
	}
	if !b.isPermutation(order, names, what) {
		return nil
	}
	return order
}

// byNumber turns the numbers of cylinders, or rotors, that have names of their
// own into these; nil where the order is no order of such numbers.
func byNumber(order, names []string) []string {
	out := make([]string, len(order))
	for i, s := range order {
		n, err := strconv.Atoi(s)
		if err != nil || n < 1 || n > len(names) || slices.Contains(names, s) {
			return nil
		}
		out[i] = names[n-1]
	}
	return out
}

func quoteAll(names []string) []string {
	out := make([]string, len(names))
	for i, name := range names {
		out[i] = quoteEmpty(name)
	}
	return out
}

func (b *builder) isPermutation(order, names []string, what string) bool {
	ok := true
	seen := map[string]bool{}
	var missing []string
	for _, name := range names {
		if !slices.Contains(order, name) {
			missing = append(missing, name)
		}
	}
	for i, name := range order {
		switch {
		case !slices.Contains(names, name):
			b.report("firing-order", i, fmt.Sprintf("the firing order has %s, but the engine has no such %s", quoteEmpty(name), what),
				fmt.Sprintf("the %ss are %s", what, joinWords(names, "and")))
			ok = false
		case seen[name]:
			message := fmt.Sprintf("the firing order has %s %s twice", what, name)
			if len(missing) == 1 { // one mistake
				message, missing = message+" and lacks "+missing[0], nil
			}
			b.report("firing-order", i, message, "")
			ok = false
		}
		seen[name] = true
	}
	if len(missing) > 0 {
		if len(missing) > 1 {
			what += "s"
		}
		b.report("firing-order", -1, fmt.Sprintf("the firing order lacks %s %s", what, joinWords(missing, "and")), "")
		ok = false
	}
	return ok
}

// placeName names the place of the n-th cylinder (from 0) of a bank: its
// side's initial and its rank from the front, such as R1.
func placeName(bank string, n int) string {
	return strings.ToUpper(bank[:1]) + strconv.Itoa(n+1)
}

// readPlace takes a place such as R1 apart.
func readPlace(s string) (initial string, rank int, ok bool) {
	if len(s) < 2 {
		return "", 0, false
	}
	initial = strings.ToUpper(s[:1])
	if !strings.Contains("LRF", initial) || s[1] < '1' || s[1] > '9' {
		return "", 0, false
	}
	rank, err := strconv.Atoi(s[1:])
	return initial, rank, err == nil
}

func allPlaces(order []string) bool {
	for _, s := range order {
		if _, _, ok := readPlace(s); !ok {
			return false
		}
	}
	return true
}

// fromPositions turns places of a two-bank engine into its cylinders' names.
// R2 is the second cylinder from the front of the right bank; L is the left
// bank. Where the banks are front and rear, F is the front bank and R the
// rear one.
func (e *Engine) fromPositions(order []string) ([]string, error) {
	if !e.IsTwoBank() {
		return nil, fmt.Errorf("places such as R1 are for engines of two banks; %s is not one", e.Layout)
	}
	names := make([]string, len(order))
	for i, s := range order {
		initial, rank, ok := readPlace(strings.TrimSpace(s))
		if !ok {
			return nil, fmt.Errorf("'%s' is not a place: expected a bank's initial and a number, such as R1", s)
		}
		k := slices.IndexFunc(e.Banks, func(b Bank) bool { return strings.ToUpper(b.Name[:1]) == initial })
		if k < 0 {
			return nil, fmt.Errorf("no place %s: the banks are %s and %s", s, e.Banks[0].Name, e.Banks[1].Name)
		}
		if rank > len(e.Banks[k].Cylinders) {
			return nil, fmt.Errorf("no place %s: the %s bank has %d in it", s, e.Banks[k].Name, len(e.Banks[k].Cylinders))
		}
		names[i] = e.Banks[k].Cylinders[rank-1]
	}
	return names, nil
}

// Position names the place of a cylinder in a two-bank engine, such as "R1"
// for the front cylinder of the right bank; "" otherwise.
func (e *Engine) Position(name string) string {
	k := e.BankOf(name)
	if !e.IsTwoBank() || k < 0 {
		return ""
	}
	return placeName(e.Banks[k].Name, slices.Index(e.Banks[k].Cylinders, name))
}

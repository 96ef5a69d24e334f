package story

import (
	"cmp"
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/cause"
	"gaugesheet/diag/rule"
)

// sorted gives the causes for which more speaks than against, the likeliest
// first; what weighs the same stays in the order in which it was entered.
func (b *ledger) sorted() []string {
	if b.ranked == nil {
		b.ranked = b.rank()
	}
	return b.ranked
}

func (b *ledger) rank() []string {
	order := slices.DeleteFunc(slices.Clone(b.order), func(name string) bool { return b.net(name) <= 0 })
	plain := slices.ContainsFunc(order, func(name string) bool { return !cause.Named(name).Vague })
	weights := make(map[string]int, len(order))
	for _, name := range order {
		weights[name] = b.net(name)
		if plain && cause.Named(name).Vague {
			weights[name] /= 2
		}
	}
	shown := b.evident(order)
	var aside map[string]int
	if len(b.lesser) > 0 {
		aside = make(map[string]int, len(order))
		for _, name := range order {
			aside[name] = b.aside(name)
		}
	}
	proven := b.proven(order)
	slices.SortStableFunc(order, func(x, y string) int {
		return cmp.Or(cmp.Compare(shown[y], shown[x]), cmp.Compare(aside[x], aside[y]), later(x, y, proven), cmp.Compare(weights[y], weights[x]))
	})
	if len(order) > 1 && aside != nil { // what comes after it need not press
		slices.SortStableFunc(order[1:], func(x, y string) int {
			return cmp.Or(cmp.Compare(shown[y], shown[x]), later(x, y, proven), cmp.Compare(weights[y], weights[x]))
		})
	}
	return order
}

// later orders two names of which one may be the one that comes first.
func later(x, y, first string) int {
	switch first {
	case x:
		return -1
	case y:
		return 1
	}
	return 0
}

// evident marks what was seen, which stands before what is inferred. It is nil
// where nothing was.
func (b *ledger) evident(order []string) map[string]int {
	if !slices.ContainsFunc(order, b.seen) {
		return nil
	}
	shown := map[string]int{}
	for _, name := range order {
		if b.shown(name) {
			shown[name] = 1
		}
	}
	return shown
}

// proven is the likeliest of what the test of the coolant for combustion gas
// showed, "" for none: gas gets there through gasket, head or bore and in no other
// way.
func (b *ledger) proven(order []string) string {
	first := ""
	for _, name := range order {
		if b.heaviest(name, rule.OfCoolant) >= rule.Known && b.net(name) >= rule.Known && (first == "" || b.net(name) > b.net(first)) {
			first = name
		}
	}
	return first
}

// press remembers which findings press most, so that what is suspected first
// explains one of these: what stops the engine, whatever else was found beside
// it; and what asks for action, and not only what asks for none.
func (b *ledger) press(members []*member, most diag.Urgency) {
	b.urgent, b.lesser, b.gauged = b.urgent[:0], b.lesser[:0], false
	for _, m := range members {
		switch m.finding.Urgency {
		case most:
			b.urgent = append(b.urgent, m.rule.Name)
			b.gauged = b.gauged || m.rule.Kind == rule.OfCompression
		case diag.NoAction:
			b.lesser = append(b.lesser, m.rule.Name)
		default:
			if most == diag.DoNotRun {
				b.lesser = append(b.lesser, m.rule.Name)
			}
		}
	}
	if len(b.lesser) > 0 {
		b.ranked = nil
	}
}

// aside is 1 for a cause for which only findings speak that press less: no
// other, no sign, and no answer of a check; and for a fault of the test of which
// none speaks that presses. What is known of the test speaks of pressures, where
// one of these presses.
func (b *ledger) aside(name string) int {
	aside := 0
	ofTest := cause.Named(name).Test
	for _, e := range b.entries {
		if e.Cause != name || e.Weight <= 0 {
			continue
		}
		if ofTest && !slices.Contains(b.urgent, e.By) && !(b.gauged && !slices.Contains(b.lesser, e.By)) { // how it was tested explains nothing that presses
			aside = 1
			continue
		}
		if slices.Contains(b.urgent, e.By) || !slices.Contains(b.lesser, e.By) {
			return 0
		}
		aside = 1
	}
	return aside
}

// first is the likeliest cause, "" for none.
func (b *ledger) first() string {
	if order := b.sorted(); len(order) > 0 {
		return order[0]
	}
	return ""
}

// top gives the likeliest causes, at most three; of several cylinders each with
// those that it concerns where these are not all.
func (b *ledger) top(cylinders []string) []diag.Phrase {
	order := b.sorted()
	list := make([]diag.Phrase, 0, shownCauses)
	for _, name := range order[:min(len(order), shownCauses)] {
		at := b.account(name).at
		if len(cylinders) == 0 || len(at) == len(cylinders) || cause.Shared(name) {
			at = nil
		}
		b.c.InOrder(at)
		list = append(list, diag.Phrase{Key: name, Facts: diag.Facts{"at": diag.Names(at), "airCooled": b.c.AirCooled()}})
	}
	return list
}

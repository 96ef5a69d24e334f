package story

import (
	"cmp"
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/cause"
	"gaugesheet/diag/known"
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
	list := make([]standing, 0, len(b.accounts))
	plain := false
	for i := range b.accounts {
		if a := &b.accounts[i]; a.net > 0 {
			k := cause.Named(a.cause)
			list = append(list, standing{cause: k, weight: a.net})
			plain = plain || !k.Vague
		}
	}
	evident := slices.ContainsFunc(list, func(x standing) bool { return b.shown(x.cause.Name) })
	proven := b.proven(list)
	for i := range list {
		x := &list[i]
		if plain && x.cause.Vague {
			x.weight /= 2
		}
		x.weight = max(x.weight-b.ofOthers(x.cause.Name), 1)
		x.unseen = evident && !b.shown(x.cause.Name)
		x.aside = len(b.lesser) > 0 && (b.aside(x.cause) || b.stops != "" && !b.speaks(b.stops, x.cause.Name) && !b.shown(x.cause.Name))
		x.unproven = i != proven
	}
	slices.SortStableFunc(list, func(x, y standing) int {
		return cmp.Or(later(x.unseen, y.unseen), later(x.aside, y.aside), later(x.unproven, y.unproven), cmp.Compare(y.weight, x.weight))
	})
	if len(list) > 1 && len(b.lesser) > 0 { // what comes after it need not press
		slices.SortStableFunc(list[1:], func(x, y standing) int {
			return cmp.Or(later(x.unseen, y.unseen), later(x.unproven, y.unproven), cmp.Compare(y.weight, x.weight))
		})
	}
	order := make([]string, len(list))
	for i := range list {
		order[i] = list[i].cause.Name
	}
	return order
}

// ofOthers is the weight that a cause has from findings on cylinders other than those
// that stop the engine, for it and against it: what two neighbours let through is not why a
// third is dead, and what they hold is no reason against it.
func (b *ledger) ofOthers(name string) int {
	sum := 0
	for i := range b.entries {
		if e := &b.entries[i]; len(b.elsewhere) > 0 && e.Cause == name && slices.Contains(b.elsewhere, e.By) {
			sum += e.Weight
		}
	}
	return sum
}

// otherCylinders are the rules of a story that speak only of cylinders other than those of
// the findings that stop the engine; none where these speak of the whole engine.
func otherCylinders(members []*member) []string {
	var stopped []string
	for _, m := range members {
		if m.finding.Urgency == diag.DoNotRun {
			if len(m.finding.Cylinders) == 0 {
				return nil
			}
			stopped = appendNew(stopped, m.finding.Cylinders)
		}
	}
	var rules, shared []string
	for _, m := range members {
		apart := len(m.finding.Cylinders) > 0 && !slices.ContainsFunc(m.finding.Cylinders, func(n string) bool { return slices.Contains(stopped, n) })
		if apart {
			rules = append(rules, m.rule.Name)
		} else {
			shared = append(shared, m.rule.Name)
		}
	}
	return slices.DeleteFunc(rules, func(r string) bool { return slices.Contains(shared, r) })
}

// A standing is a cause with what decides its place among those of a story.
type standing struct {
	cause    *cause.Cause
	weight   int
	unseen   bool // others were seen or shown by a check, and stand before what is inferred
	aside    bool
	unproven bool // the test of the coolant has not shown it as the likeliest
}

// later orders what does not hold before what does.
func later(x, y bool) int {
	switch {
	case x == y:
		return 0
	case x:
		return 1
	}
	return -1
}

// proven is the place of the likeliest of what the test of the coolant for
// combustion gas showed, -1 for none: gas gets there through gasket, head or bore
// and in no other way.
func (b *ledger) proven(list []standing) int {
	first := -1
	for i, x := range list {
		if b.heaviest(x.cause.Name, rule.OfCoolant) >= rule.Known && x.weight >= rule.Known && (first < 0 || x.weight > list[first].weight) {
			first = i
		}
	}
	return first
}

// press remembers which findings press most, so that what is suspected first
// explains one of these: what stops the engine, whatever else was found beside
// it; and what asks for action, and not only what asks for none.
func (b *ledger) press(members []*member, most diag.Urgency) {
	b.urgent, b.lesser, b.gauged, b.stops = b.urgent[:0], b.lesser[:0], false, ""
	b.sighted = false
	b.elsewhere = nil
	if most == diag.DoNotRun {
		b.elsewhere = otherCylinders(members)
	}
	for _, m := range members {
		switch m.finding.Urgency {
		case most:
			if most == diag.DoNotRun && m.rule.Class == rule.TestItself && b.stops == "" {
				b.stops = m.rule.Name
			}
			b.urgent = append(b.urgent, m.rule.Name)
			b.sighted = b.sighted || most == diag.DoNotRun && m.rule.Kind == rule.OfSight
			b.gauged = b.gauged || m.rule.Kind == rule.OfCompression
		case diag.NoAction:
			b.lesser = append(b.lesser, m.rule.Name)
		default:
			if most == diag.DoNotRun {
				b.lesser = append(b.lesser, m.rule.Name)
			}
		}
	}
	if len(b.lesser) > 0 || len(b.elsewhere) > 0 {
		b.ranked = nil
	}
}

// aside reports a cause for which only findings speak that press less, or hints in
// what is told of the engine: no other, no sign, and no answer of a check; and for a fault of the test of which
// none speaks that presses. What is known of the test speaks of pressures, where
// one of these presses.
func (b *ledger) aside(k *cause.Cause) bool {
	aside := false
	for i := range b.entries {
		e := &b.entries[i]
		if e.Cause != k.Name || e.Weight <= 0 {
			continue
		}
		if b.sighted && e.Kind == string(rule.OfCheck) && !slices.ContainsFunc(b.urgent, func(r string) bool { return b.speaks(r, e.Cause) }) { // what a check found need not press beside damage that was seen
			aside = true
			continue
		}
		if k.Test && !slices.Contains(b.urgent, e.By) && !(b.gauged && !slices.Contains(b.lesser, e.By)) { // how it was tested explains nothing that presses
			aside = true
			continue
		}
		if slices.Contains(b.urgent, e.By) || !(e.Kind == string(rule.OfHistory) && e.Weight < rule.Known) && !slices.Contains(b.lesser, e.By) {
			return false
		}
		aside = true
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

// top gives the likeliest causes, at most three, so far without their facts.
func (b *ledger) top() []diag.Phrase {
	order := b.sorted()
	list := make([]diag.Phrase, 0, min(len(order), shownCauses))
	for i, name := range order {
		said := slices.ContainsFunc(cause.Named(name).Within, func(w string) bool { return slices.Contains(order[:i], w) })
		if len(list) < shownCauses && !said {
			list = append(list, diag.Phrase{Key: name})
		}
	}
	return list
}

// facts are what the words of a cause use; of several cylinders those that it
// concerns where these are not all.
func (b *ledger) facts(name string, cylinders []string) diag.Facts {
	at := b.account(name).at
	if len(cylinders) == 0 || len(at) == len(cylinders) || cause.Shared(name) {
		at = nil
	}
	b.c.InOrder(at)
	return diag.Facts{"at": diag.Names(at), "strobed": name == "early-ignition" && (known.EarlyBase.HoldsIn(b.c) || known.MuchAdvance.HoldsIn(b.c)), "airCooled": b.c.AirCooled(), "flies": b.c.Flies(), "drive": b.c.DriveNamed(), "meterOpen": b.c.MeterOpen(), "diesel": b.c.Spec.Diesel(), "pcv": b.c.MayHavePCV(),
		"distributor": b.c.Distributor(), "mateFires": cause.MatesFire(b.c, cylinders), "ownCarb": cause.OwnCarburettor(b.c, cylinders), "coilsOpen": len(b.c.Spec.SharedCoils) == 0, "afloat": b.c.WetExhaust(), "rawWater": b.c.RawWaterCooled(), "ranDown": len(cylinders) > 0 && !slices.ContainsFunc(cylinders, func(n string) bool { return !b.c.OilRunsDown(n) })}
}

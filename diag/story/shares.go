package story

import (
	"slices"

	"gaugesheet/diag/cause"
	"gaugesheet/diag/known"
	"gaugesheet/diag/rule"
)

// A share is the part of a story's weight that one cause has.
type share struct {
	cause string
	part  float64
}

// shares are those of the likeliest causes; once a check has shown some, of
// these alone.
func (b *ledger) shares() []share {
	order := b.sorted()
	if found := b.found(); len(found) > 0 {
		order = found
		if b.seen(found[0]) { // whatever else was seen is there beside it
			order = found[:1]
		}
	}
	if b.stops != "" && rule.Named(b.stops).Kind != rule.OfSight && b.speaks(b.stops, order[0]) { // what was measured so is settled before the rest
		order = slices.DeleteFunc(slices.Clone(order), func(name string) bool { return !b.speaks(b.stops, name) })
	}
	order = order[:min(len(order), weighed)]
	sum := 0
	for _, name := range order {
		sum += b.net(name)
	}
	list := make([]share, len(order))
	for i, name := range order {
		list[i] = share{name, float64(b.net(name)) / float64(sum)}
	}
	return list
}

// settles is how likely the outcome of a check tells two different causes apart
// that are drawn by their shares.
func settles(outcomes []*cause.Outcome, shares []share) float64 {
	list := make([]float64, len(shares)*len(outcomes))
	shown := func(i int) []float64 { return list[i*len(outcomes):][:len(outcomes)] }
	for i := range shares {
		shows(shown(i), outcomes, shares[i].cause)
	}
	apart := 0.0
	for i := range shares {
		for j := range i {
			if cause.SameWork(shares[i].cause, shares[j].cause) {
				continue
			}
			alike := 0.0
			one, other := shown(i), shown(j)
			for o := range outcomes {
				alike += min(one[o], other[o])
			}
			apart += 2 * shares[i].part * shares[j].part * (1 - alike)
		}
	}
	return apart
}

// shows enters into a list how likely each outcome is where a cause is there. One that several
// outcomes speak for shows by each of them alike; what none speaks for, and
// what a check may miss, shows by the outcome that is left.
func shows(list []float64, outcomes []*cause.Outcome, name string) {
	speakers, rest := 0, -1
	for i := range outcomes {
		if outcomes[i].Else {
			rest = i
		}
		if slices.Contains(outcomes[i].For, name) {
			speakers++
		}
	}
	left := 1.0
	for i := range outcomes {
		if slices.Contains(outcomes[i].For, name) {
			list[i] = outcomes[i].Shows() / float64(speakers)
			left -= list[i]
		}
	}
	if rest >= 0 {
		list[rest] += left
	}
}

// surest is how likely a check shows a cause that is there, on this engine; 0 where none of
// its outcomes speaks for it.
func surest(c *known.Case, k *cause.Check, name string) float64 {
	sure := 0.0
	if about := cause.SetOf(name); !k.Proves(&about) {
		return sure
	}
	for _, o := range k.Open(c) {
		if !o.Else && slices.Contains(o.For, name) {
			sure = max(sure, o.Shows())
		}
	}
	return sure
}

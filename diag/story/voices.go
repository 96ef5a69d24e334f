package story

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/cause"
	"gaugesheet/diag/rule"
)

// speaks reports that a rule's findings speak for a cause.
func (b *ledger) speaks(by, cause string) bool {
	return slices.ContainsFunc(b.entries, func(e diag.Entry) bool { return e.By == by && e.Weight > 0 && (cause == "" || e.Cause == cause) })
}

// spokenOf reports a voice of a rule, or of a sign, on a cause, for or against it.
func (b *ledger) spokenOf(by, cause string) bool {
	return slices.ContainsFunc(b.entries, func(e diag.Entry) bool { return e.By == by && e.Cause == cause })
}

// against gives what speaks against the likeliest cause, each with the cylinders that it
// is so of, where these are not all of the story's, nor those that the cause is said of.
func (b *ledger) against() []diag.Phrase {
	var list []diag.Phrase
	first := b.first()
	in := b.account(first).at
	for _, e := range b.entries {
		if e.Cause != first || e.Weight >= 0 || e.Against == "" || slices.ContainsFunc(list, func(p diag.Phrase) bool { return p.Key == e.Against }) {
			continue
		}
		p := diag.Phrase{Key: e.Against, Facts: diag.Facts{}}
		if len(e.At) > 0 && len(e.At) < len(b.c.Every()) && !slices.Equal(e.At, in) {
			p.Facts["at"] = diag.Names(slices.Clone(e.At))
		}
		list = append(list, p)
	}
	return list
}

// against is what speaks against the story's likeliest cause; which cylinders it is so of
// goes without saying where these are the story's.
func (s *story) against() []diag.Phrase {
	list := s.book.against()
	for _, p := range list {
		if at, some := p.Facts["at"].(diag.Names); some && slices.Equal(at, s.Cylinders) {
			delete(p.Facts, "at")
		}
	}
	return list
}

// agreeing are the kinds of tests that speak for a cause by themselves: low
// pressure for any loss of it, others by what they heard, saw or measured.
func (b *ledger) agreeing(name string) []rule.Kind {
	var list []rule.Kind
	sure := false
	for _, h := range b.account(name).kinds {
		kind, weight := h.kind, h.weight
		counts := kind != rule.OfHistory && kind != rule.OfTest && kind != ""
		measured := kind == rule.OfCompression || kind == rule.OfRotors || kind == rule.OfFuel
		if counts && (weight >= rule.DryUp || measured && weight > 0) {
			list = append(list, kind)
			sure = sure || weight >= rule.Known
		}
	}
	slices.Sort(list)
	if !sure { // several hints are no proof
		list = list[:min(1, len(list))]
	}
	return list
}

// rivalled reports another cause, which is another fault, that all of the kinds of
// tests which agree on the likeliest speak for too and that weighs nearly as much: they
// agree on what is so, and not on why.
func (b *ledger) rivalled(kinds []rule.Kind) bool {
	order := b.sorted()
	if len(order) < 2 || cause.OneFault(order[0], order[1]) || len(b.found()) > 0 {
		return false
	}
	return float64(b.net(order[1])) > nearly*float64(b.net(order[0])) && !slices.ContainsFunc(kinds, func(k rule.Kind) bool { return b.heaviest(order[1], k) == 0 })
}

// nearly is the part of the likeliest cause's weight from which another is as likely as
// it: judgement, no source.
const nearly = 0.75

package story

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
	"gaugesheet/diag/rule"
)

// cleared enters what was measured right elsewhere against the causes that a complaint brings
// in: what other findings of the sheet deny of the engine, and what a sign denies of every
// cylinder. What one finding clears, another does not suspect.
func (b *ledger) cleared(s *story, told []*story) {
	for _, other := range told {
		if other == s || other.About == diag.AboutTest {
			continue
		}
		for _, m := range other.members {
			if len(m.subject.Cylinders) > 0 {
				continue
			}
			voices := m.rule.Against
			if m.rule.Weigh != nil {
				voices = slices.Concat(voices, m.rule.Weigh(b.c, m.subject))
			}
			b.hear(m.rule, m.subject, b.denials(voices))
		}
	}
	if s.About != diag.AboutEngine || len(s.ofCylinders()) > 0 { // of which the signs have been asked
		return
	}
	each := b.c.ByItself(b.c.Every())
	for i := range signs() {
		g := &signs()[i]
		if g.About != string(diag.AboutCylinders) || slices.Contains(ofSealing, g.Kind) || !b.hears(g) || len(g.Against) == 0 || !b.c.Opens(&g.gate) ||
			slices.ContainsFunc(each, func(one known.Subject) bool { return !g.When.HoldsFor(b.c, one) }) {
			continue
		}
		for _, v := range b.denials(g.Voices()) {
			b.add(v, v.Kind, g.Words(), nil)
		}
	}
}

// ofSealing are the kinds of tests that say how a cylinder seals: what rattles in one that does is
// not cleared by them.
var ofSealing = []rule.Kind{rule.OfCompression, rule.OfLeakage, rule.OfPlugs}

// denials are those of some voices that clear a cause which the ledger has: what only tips the
// balance does not.
func (b *ledger) denials(voices []rule.Voice) []rule.Voice {
	return slices.DeleteFunc(slices.Clone(voices), func(v rule.Voice) bool { return v.Weight > -rule.Known || !b.knows(v.Cause) })
}

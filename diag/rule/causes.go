package rule

import (
	"cmp"
	"slices"
	"strings"

	"gaugesheet/diag"
)

// shownCauses is how many causes a finding gives; beyond three nobody acts on
// the list.
const shownCauses = 3

// causes weighs what a finding may come from. Evidence only ever adds weight
// to what it speaks for, so that more evidence of a cause never lowers it.
type causes struct {
	order  []string
	weight map[string]int
}

// weigh starts from causes in the order in which the trade meets them.
func weigh(commonest ...string) *causes {
	w := &causes{weight: map[string]int{}}
	for i, key := range commonest {
		w.add(key, 50-5*i)
	}
	return w
}

func (w *causes) add(key string, weight int) {
	if _, known := w.weight[key]; !known {
		w.order = append(w.order, key)
	}
	w.weight[key] += weight
}

func (w *causes) addIf(is bool, weight int, keys ...string) {
	if is {
		for _, k := range keys {
			w.add(k, weight)
		}
	}
}

// sorted gives all causes, the likeliest first; what weighs the same stays in
// the trade's order.
func (w *causes) sorted() []string {
	order := slices.Clone(w.order)
	slices.SortStableFunc(order, func(a, b string) int { return cmp.Compare(w.weight[b], w.weight[a]) })
	return order
}

// top gives the likeliest causes, at most three.
func (w *causes) top() []diag.Phrase {
	order := w.sorted()
	return phrases(order[:min(len(order), shownCauses)]...)
}

// The weights of evidence: a place where air is heard outweighs everything, a
// wet test or a look into the bore outweighs what is common, a plug or a first
// stroke only tips the balance.
const (
	heard = 100
	seen  = 80
	known = 60
	wet   = 60
	dryUp = 30
	hint  = 20
)

// tight is the loss in percent under which a cylinder holds its air.
const tight = 10

// evidence adds to the causes what else is known of one cylinder.
func (c *Case) evidence(w *causes, name string) {
	c.evidenceOfWet(w, name)
	c.evidenceOfLeak(w, name)
	c.evidenceOfPlug(w, name)
	c.evidenceOfBore(w, name)
	switch c.strokePattern(name) {
	case "builds-slowly":
		w.add("rings", hint)
	case "does-not-build":
		w.addIf(!c.Spec.TwoStroke, hint, "exhaust-valve")
	}
	if c.stood() {
		w.addIf(!c.Spec.TwoStroke, known, "stuck-valve")
		w.add("stuck-rings", hint)
	}
	w.addIf(c.CoolantGas == "positive", known, "head-gasket")
	w.addIf(c.complains("coolant loss"), hint, "head-gasket")
}

func (c *Case) evidenceOfWet(w *causes, name string) {
	switch c.wetEvidence(name) {
	case wetRises:
		w.add("rings", wet)
	case wetFlat:
		w.addIf(c.Grade(name) == diag.NoPressure, dryUp, "holed-piston", "bent-valve")
		w.addIf(c.Grade(name) == diag.NoPressure && !c.Spec.TwoStroke, dryUp, "stuck-valve", "valve-motion")
		if c.Spec.TwoStroke {
			w.add("head-gasket", dryUp)
			return
		}
		for _, k := range []string{"exhaust-valve", "inlet-valve", "valve-lash", "head-gasket", "warped-or-cracked-head"} {
			w.add(k, dryUp)
		}
	}
}

func (c *Case) evidenceOfLeak(w *causes, name string) {
	l := c.Leak(name)
	if l == nil {
		return
	}
	for _, at := range l.At {
		switch {
		case *l.Loss < tight && at != "coolant" && at != "neighbour":
			// so little passes anywhere
		case at == "exhaust" && !c.Spec.TwoStroke:
			w.add("exhaust-valve", heard)
		case at == "exhaust" || at == "crankcase": // a two-stroke's exhaust port is behind its piston
			w.add("rings", heard)
		case at == "inlet":
			w.add("inlet-valve", heard)
		case at == "coolant", at == "neighbour":
			w.add("head-gasket", heard)
			w.add("warped-or-cracked-head", heard)
		}
	}
	if *l.Loss < tight && !c.Spec.TwoStroke {
		w.add("valve-motion", heard)
		w.add("valve-lash", seen)
	}
}

// evidenceOfPlug leaves soot and wetness on a dead cylinder aside: a plug that
// does not fire looks like that whatever the cause.
func (c *Case) evidenceOfPlug(w *causes, name string) {
	w.addIf(c.looks(name, "coolant"), known, "head-gasket")
	w.addIf(c.looks(name, "damaged", "melted"), known, "holed-piston")
	if g := c.Grade(name); g != diag.VeryLow && g != diag.NoPressure {
		w.addIf(c.looks(name, "oil-wet"), dryUp, "rings")
		w.addIf(c.looks(name, "fuel-wet"), hint, "washed-bore")
	}
}

func (c *Case) evidenceOfBore(w *causes, name string) {
	looked := strings.ToLower(c.Borescope[name])
	w.addIf(speaksOf(looked, "scor", "scratch", "groove"), seen, "scored-bore")
	w.addIf(speaksOf(looked, "hole in", "holed", "broken piston", "melted"), seen, "holed-piston")
	w.addIf(speaksOf(looked, "exhaust valve burn", "burnt exhaust valve", "exhaust valve crack", "exhaust valve chip"), seen, "exhaust-valve")
	w.addIf(speaksOf(looked, "bent valve", "valve strike", "struck"), seen, "bent-valve")
}

// speaksOf reports whether a text has one of these words, not denied by a
// "no" just before it.
func speaksOf(text string, words ...string) bool {
	return slices.ContainsFunc(words, func(word string) bool {
		at := strings.Index(text, word)
		return at >= 0 && !strings.HasSuffix(text[:at], "no ") && !strings.HasSuffix(text[:at], "not ")
	})
}

// stoodMonths is how long an engine stands before its rings and valves may
// have stuck: common practice, no source.
const stoodMonths = 6

func (c *Case) stood() bool { return c.History.StoodMonths > stoodMonths }

// against gives what speaks against the likeliest cause of a finding.
func (c *Case) against(first string, names []string) []diag.Phrase {
	var list []diag.Phrase
	all := func(outcome wetOutcome) bool {
		return !slices.ContainsFunc(names, func(n string) bool { return c.wetEvidence(n) != outcome })
	}
	valves := slices.Contains([]string{"exhaust-valve", "inlet-valve", "valve-lash", "stuck-valve", "bent-valve"}, first)
	gasket := first == "head-gasket" || first == "warped-or-cracked-head"
	add := func(is bool, key string) {
		if is {
			list = append(list, diag.Phrase{Key: key})
		}
	}
	add((valves || gasket) && all(wetRises), "rose-with-oil")
	add(slices.Contains([]string{"rings", "scored-bore", "stuck-rings"}, first) && all(wetFlat), "no-wet-rise")
	add(gasket && c.CoolantGas == "negative", "no-gas-in-coolant")
	add(!slices.Contains([]string{"valve-motion", "cam-timing"}, first) && c.allTight(names), "holds-air")
	return list
}

// allTight reports that all of these cylinders were tested for leakage and
// hold their air.
func (c *Case) allTight(names []string) bool {
	return len(names) > 0 && !slices.ContainsFunc(names, func(n string) bool {
		l := c.Leak(n)
		return l == nil || *l.Loss >= tight
	})
}

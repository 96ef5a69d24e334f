package rule

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"gaugesheet/diag"
)

var plugRules = slices.Concat(plugDamageRules, plugColourRules)

var plugVocabulary = map[string][]string{
	"causes": {
		"foreign-object", "piston-contact", "wrong-plug-reach", "too-hot", "early-ignition", "knock", "wrong-heat-range",
		"rich-mixture", "weak-spark", "short-trips", "own-injector", "own-spark", "shared-runner", "manifold-distribution", "bank-sensor", "bank-exhaust-leak",
		"rings", "guides-or-seals", "breather", "too-much-oil", "flooding", "lean-mixture", "air-leak", "low-fuel-pressure", "oil-burning", "oil-additive",
		"plug-age", "loose-deposit", "moisture-at-plug", "coil-or-lead", "head-gasket", "warped-or-cracked-head", "low-compression", "gap-not-set", "washed-bore",
		"wrong-mix",
	},
	"doubts":  {"colour-only", "plugs-new", "plugs-not-all-read"},
	"against": {"others-alike"},
}

// plugsRead lists the cylinders whose plug was looked at and whose look can
// speak of the mixture: a cylinder without pressure does not burn, so its plug
// says nothing of why.
func (c *Case) plugsRead() []string {
	var names []string
	for _, name := range c.Engine.Names() {
		grade := c.Grade(name)
		if p := c.PlugOf(name); p != nil && p.Look != "" && grade != diag.VeryLow && grade != diag.NoPressure {
			names = append(names, name)
		}
	}
	return names
}

// looking lists the cylinders of plugsRead with one of these looks.
func (c *Case) looking(looks ...string) []string {
	var names []string
	for _, name := range c.plugsRead() {
		if c.looks(name, looks...) {
			names = append(names, name)
		}
	}
	return names
}

// plugsLooking lists the cylinders with one of these looks, with pressure or not:
// damage speaks for itself.
func (c *Case) plugsLooking(looks ...string) []string {
	var names []string
	for _, name := range c.Engine.Names() {
		if c.looks(name, looks...) {
			names = append(names, name)
		}
	}
	return names
}

// A pattern is how plugs of one look lie in the engine. What they share is
// where their cause is looked for.
type pattern string

const (
	onNone       pattern = ""
	onAll        pattern = "all"
	onBank       pattern = "bank"
	onOne        pattern = "one"
	onEnds       pattern = "ends"
	onNeighbours pattern = "neighbours"
	onSome       pattern = "some"
)

func (c *Case) patternOf(set []string) pattern {
	read := c.plugsRead()
	switch {
	case len(set) == 0:
		return onNone
	case len(set) == len(read) && (len(read) > 1 || len(c.Engine.Names()) == 1):
		return onAll
	case len(set) == 1:
		return onOne
	case c.bankOfAll(set) >= 0:
		return onBank
	case c.atEnds(set):
		return onEnds
	case len(c.Engine.NeighbourRuns(set)) == 1:
		return onNeighbours
	}
	return onSome
}

// bankOfAll gives the bank whose plugs, two at least, are this set while two
// at least were read on the other; -1 for none.
func (c *Case) bankOfAll(set []string) int {
	if !c.Engine.IsTwoBank() {
		return -1
	}
	var read [2]int
	for _, name := range c.plugsRead() {
		if b := c.Engine.BankOf(name); b >= 0 {
			read[b]++
		}
	}
	bank := c.Engine.BankOf(set[0])
	same := !slices.ContainsFunc(set, func(n string) bool { return c.Engine.BankOf(n) != bank })
	if bank >= 0 && same && len(set) > 1 && len(set) == read[bank] && read[1-bank] > 1 {
		return bank
	}
	return -1
}

// atEnds reports the two end cylinders of a row of four or more.
func (c *Case) atEnds(set []string) bool {
	if len(c.Engine.Banks) != 1 || len(set) != 2 {
		return false
	}
	row := c.Engine.Banks[0].Cylinders
	return len(row) >= 4 && slices.Contains(set, row[0]) && slices.Contains(set, row[len(row)-1])
}

// plugFinding is a finding on plugs of one look. colour marks what rests on
// colour or wetness alone, which shows the last minutes of running and no more.
func (c *Case) plugFinding(rule string, names []string, urgency diag.Urgency, colour bool) diag.Finding {
	f := diag.Finding{Rule: rule, Cylinders: names, Urgency: urgency, Confidence: diag.Fair,
		Facts: diag.Facts{"read": len(c.plugsRead()), "bank": "", "low": c.anyLow(names)}}
	if bank := c.bankOfAll(names); bank >= 0 {
		f.Facts["bank"] = c.bankLabel(bank)
	}
	if !colour {
		return f
	}
	f.Confidence = diag.Weak
	f.Doubts = phrases("colour-only")
	if c.plugsNew() {
		f.Doubts = phrases("plugs-new")
	}
	if len(c.plugsRead()) < len(c.Engine.Names()) && !c.Sums.Plugs.Complete {
		f.Doubts = append(f.Doubts, phrases("plugs-not-all-read")...)
	}
	return f
}

func (c *Case) bankLabel(bank int) string {
	if label := c.Engine.SideLabel(bank); label != "" {
		return label
	}
	return c.Engine.Banks[bank].Name
}

var fittedAgo = regexp.MustCompile(`(\d+)\s*(day|week)`)

// newPlugDays is how long plugs count as new: until then their colour says
// little, and a fault may have been hidden with them. Common practice, no source.
const newPlugDays = 31

// plugsNew reports plugs fitted recently, from the words of the job.
func (c *Case) plugsNew() bool {
	fitted := strings.ToLower(c.Plugs.Fitted)
	if m := fittedAgo.FindStringSubmatch(fitted); m != nil {
		n, err := strconv.Atoi(m[1])
		if m[2] == "week" {
			n *= 7
		}
		return err == nil && n <= newPlugDays
	}
	if fitted != "" {
		return speaksOf(fitted, "new", "today", "yesterday", "just", "this week", "last week", "recent")
	}
	return c.workDone("new plugs", "plugs renewed", "plugs replaced", "new spark plugs", "replaced plugs")
}

// A colour is a look that speaks of the mixture.
type colour struct {
	look    string
	urgency diag.Urgency
}

// in gives the findings of a rule on plugs of this look that lie in one of
// these patterns.
func (k colour) in(rule string, causes, checks []string, at ...pattern) func(*Case) []diag.Finding {
	return func(c *Case) []diag.Finding {
		set := c.looking(k.look)
		p := c.patternOf(set)
		if !slices.Contains(at, p) {
			return nil
		}
		f := c.plugFinding(rule, set, k.urgency, true)
		f.Causes = phrases(causes...)
		switch p {
		case onEnds:
			f.Variant, f.Causes = string(p), phrases("manifold-distribution", "own-injector")
		case onNeighbours:
			f.Variant, f.Causes = string(p), phrases("shared-runner", "own-injector")
		}
		f.Next = c.next(set, checks...)
		return []diag.Finding{f}
	}
}

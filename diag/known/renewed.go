package known

import (
	"regexp"
	"slices"
	"strings"
)

// Words that say of a part that another is in, or that it is as good as new, and
// words that say that it was only looked at or set.
var (
	renewed = []string{"new", "renewed", "replaced", "another", "fitted", "changed", "exchanged", "redone", "rebuilt", "rebuild", "reconditioned", "overhauled", "overhaul", "job",
		"ground", "reground", "lapped", "recut", "honed", "hone", "bored", "rebored", "sleeved", "relined", "machined"}
	cleaned  = []string{"cleaned", "cleared", "unblocked", "flushed", "washed", "blown through"}
	lookedAt = []string{"checked", "check", "tested", "test", "measured", "looked", "inspected", "seen", "watched", "adjusted", "set", "cleaned", "read", "compared", "listened", "swap", "swapped", "moved", "gives", "differs", "drips", "removed", "freed",
		"good", "fine", "ok", "worn", "low", "noisy", "broken", "leaking", "stays", "shut", "stuck", "opens", "blocked", "suspected", "smells", "bubbles", "type", "number", "not", "no"}
)

// mostBare is the most words of a line of work that only names its parts.
const mostBare = 4

// otherParts are names of other parts that begin like one of the engine's.
var otherParts = strings.NewReplacer("head gasket", "headgasket", "head bolt", "headbolt", "head light", "headlight", "valve cover", "valvecover", "oil sender", "oilsender", "oil pressure", "oilpressure", "rocker cover", "rockercover", "exhaust manifold", "exhaustmanifold")

// longAgo reports work so old that its parts have worn since.
func longAgo(text string) bool {
	return slices.ContainsFunc(agoWords, func(ago string) bool { return strings.Contains(text, ago) }) && yearsAgo.MatchString(text)
}

var agoWords = []string{"ago", "back", "before"}

var yearsAgo = regexp.MustCompile(`\b(?:[5-9]|\d\d+|five|six|seven|eight|nine|ten|many|some) years? (?:ago|back|before)\b|\b\d{2,3}[ ,.]?000 (?:km|kilometres|mi|miles) (?:ago|back|before)\b`)

// clauses is where one thing of a line of work ends and the next begins.
var clauses = regexp.MustCompile(`[,;:.()]|\bbut\b|\bthen\b`)

// Renewed gives those of some parts that were renewed in all of these cylinders:
// there is a line of what was done that names the part and no other cylinder, and says
// that it is new or, in a few words, nothing else. The parts are always the same ones.
func (c *Case) Renewed(cylinders []string, parts *Vocabulary) []int {
	if !c.SomethingDone() {
		return nil
	}
	c.Works()
	var places []int
	hear := func(line string) {
		if w := c.parsed[line]; len(w.renews) > 0 && w.on(cylinders) {
			places = append(places, w.new.by(func() []int { return partsIn(w.renews, parts) })...)
		}
	}
	for _, line := range c.History.WorkDone {
		hear(line)
	}
	if c.Before != nil {
		hear(c.Before.Done)
	}
	slices.Sort(places)
	return slices.Compact(places)
}

// Cleaned gives those of some parts that were cleaned, of which all work without it is as when
// they were new.
func (c *Case) Cleaned(parts *Vocabulary) []int {
	if len(c.History.WorkDone) == 0 {
		return nil
	}
	c.Works()
	var places []int
	for _, line := range c.History.WorkDone {
		if w := c.parsed[line]; len(w.cleans) > 0 {
			places = append(places, partsIn(w.cleans, parts)...)
		}
	}
	slices.Sort(places)
	return slices.Compact(places)
}

// partsIn are the parts that some clauses name.
func partsIn(clauses []string, parts *Vocabulary) []int {
	var places []int
	for _, clause := range clauses {
		places = append(places, parts.In(clause)...)
	}
	return places
}

// SomethingDone reports a job that says of any work.
func (c *Case) SomethingDone() bool {
	return len(c.History.WorkDone) > 0 || c.Before != nil && c.Before.Done != ""
}

// on reports work on all of these cylinders: it names them, or none.
func (w *Work) on(cylinders []string) bool {
	return len(w.Cylinders) == 0 || !slices.ContainsFunc(cylinders, func(n string) bool { return !slices.Contains(w.Cylinders, n) })
}

// renewing gives the clauses of a line of work that say that something is new,
// or only name it. What stands in front of a colon only heads what came of it.
func renewing(text string) []string {
	if longAgo(text) {
		return nil
	}
	heads := 0
	if head, rest, cut := strings.Cut(text, ":"); cut && !saysAny(rest, renewed) {
		heads = len(clauses.Split(head, -1))
	}
	var list []string
	for i, clause := range clauses.Split(otherParts.Replace(text), -1) {
		bare := i >= heads && len(strings.Fields(clause)) <= mostBare && !saysAny(clause, lookedAt)
		if saysAny(clause, renewed) || bare {
			list = append(list, clause)
		}
	}
	return list
}

// cleaning gives the clauses of a line of work that say that something was cleaned.
func cleaning(text string) []string {
	if !saysAny(text, cleaned) || longAgo(text) {
		return nil
	}
	return slices.DeleteFunc(clauses.Split(otherParts.Replace(text), -1), func(clause string) bool { return !saysAny(clause, cleaned) })
}

func saysAny(clause string, words []string) bool {
	return slices.ContainsFunc(words, func(x string) bool { return has(clause, x) })
}

// Package rule holds the rules of the diagnosis: one file per family, one
// ordered slice of rule values, each with its own words for why it exists.
// Diagnose runs them over a test.
//
// To add a rule, write its value into its family's slice and its words into
// the catalogue of package templates; tests fail until both are complete.
package rule

import "gaugesheet/diag"

// A Class is where a finding stands in the order of saying, after urgency.
type Class uint8

// The classes, first said first.
const (
	TestItself  Class = iota // the test is judged before the engine
	Together                 // two kinds of readings agree or contradict
	Group                    // several cylinders with something in common
	Single                   // one cylinder, one plug, one pressure
	Elsewhere                // what was tested is sound, so the fault is elsewhere
	Sound                    // nothing wrong here
	Information              // context that changes no verdict
)

// A Need is a kind of reading that a rule cannot do without.
type Need string

// The needs.
const (
	NeedsCompression Need = "compression"
	NeedsWet         Need = "wet test"
	NeedsFirst       Need = "first strokes"
	NeedsLeakage     Need = "leakage"
	NeedsPlugs       Need = "plugs"
	NeedsRotors      Need = "rotors"
	NeedsFuel        Need = "fuel pressure"
	NeedsEarlier     Need = "an earlier test"
)

// A Rule is one pattern that the trade knows: what triggers it, why it means
// what it means, and how to see it in a case.
type Rule struct {
	Name    string // as findings, JSON and the command `rules` have it
	Title   string // what it recognises, in a few words
	Trigger string // what fires it, with its numbers
	Why     string // a paragraph: why this pattern points where it points
	Source  string // published source, or "common practice"
	Class   Class
	Needs   []Need
	// YieldsTo names the rules that say the same better: a finding of this
	// rule is dropped where one of them was found for any of its cylinders
	// (or for the whole engine, where either names no cylinder).
	YieldsTo []string

	// Doubt is the key of the doubt that a notice of this rule casts on what
	// was found from the readings named in Doubts, for its cylinders (for all,
	// where it names none). Such findings are weak until the test is repeated,
	// and their next check becomes Repeat, where one is named.
	Doubt  string
	Doubts []Need
	Repeat string

	// Variants are the wordings that the rule has beside its usual one, as
	// Finding.Variant and Notice.Variant name them.
	Variants []string

	// One of the two is set; it returns nil where the pattern is not there.
	Findings func(*Case) []diag.Finding
	Notices  func(*Case) []diag.Notice
}

// A Case is a test with its sums done: what rules look at.
type Case struct {
	*diag.Test
	Sums *diag.Diagnosis // sections only, and the notices so far
}

// families are the rules in the order in which they are tried: the test
// itself, then each kind of reading, then the combinations.
var families = [][]Rule{
	testRules,
	compressionRules,
	wetRules,
	rotorRules,
	earlierRules,
	leakageRules,
	plugRules,
	fuelRules,
	togetherRules,
}

// All is every rule in the order in which it is tried.
func All() []Rule {
	var all []Rule
	for _, family := range families {
		all = append(all, family...)
	}
	return all
}

// Package rule holds the patterns that the trade knows, one family a file, and
// knows what is known of an engine and the names of causes, but no check, no order
// of causes and no sentence. A rule is a value: what it recognises (conditions
// that carry their words), of which cylinders, for and against which causes it
// speaks, and the facts that its words need.
//
// To add a rule, write its value into its family's slice and its words into
// the catalogue of package templates; tests fail until both are complete.
package rule

import (
	"slices"
	"sync"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

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

// A Brought is what brings about what a rule finds where a fault elsewhere does: it is told in
// the story of that fault then.
type Brought uint8

const (
	ByItself Brought = iota // it is a matter of its own
	ByFault                 // a fault that puts the readings past their limits
	ByHeat                  // a fault that makes an exhaust glow
	ByMiss                  // a cylinder that does not burn
	WithMiss                // likewise, where the gas of a miss leads what is told
)

// A Rule is one pattern that the trade knows.
type Rule struct {
	Name   string // as findings, JSON and the command `rules` have it
	Title  string // what it recognises, in a few words
	Why    string // a paragraph: why this pattern points where it points
	Source string // published source, or "common practice, no source"
	Class  Class
	About  diag.About
	// Ties names what else the finding is about: the stories become one.
	Ties []diag.About
	// TiesSystems are further tests whose stories become one with it.
	TiesSystems []string

	Needs []known.Need
	Of    Scope           // of which cylinders or circuits it is asked
	When  known.Condition // what has to hold for one of them

	Kind    Kind // the kind of test that its voices come from
	For     []Voice
	Against []Voice
	Weigh   func(*known.Case, known.Subject) []Voice // voices that depend on more than the condition

	// Say gives the variant, the facts, the urgency, and how sure the finding
	// is by itself and why no surer. It decides nothing else.
	Say func(*known.Case, known.Subject) diag.Finding
	// Headline is the key of the verdict where its finding leads the sheet.
	Headline string
	// SaysBetterThan names the rules whose findings on the same cylinders are
	// folded into this one; InsteadOf those that are dropped for it.
	SaysBetterThan, InsteadOf []string
	// Lesser names the rule that says less of the very same, which is told for this one in a
	// story that asks for something; "" for none.
	Lesser string
	// Implies names the rules that say less of the very same: they stand among
	// the findings, said by this one.
	Implies []string
	// Keeps: it explains what other readings found and is as urgent as they are,
	// so that a sound result never makes a matter more urgent.
	Keeps bool
	// Brought is what brings it about beside a cause of its own.
	Brought Brought
	// Unexplained: it answers the complaints that no story explains, once all are told.
	Unexplained bool
	// Before: its story is told before others as urgent: money spent on these is
	// lost while it is open.
	Before bool
	// LooksIn: it stops the engine until somebody has looked inside, before air or hand
	// moves what may lie there.
	LooksIn bool
	// StopsFor are the checks before which it lets nothing turn the engine, the first that
	// fits.
	StopsFor []string
	// Repair is what is done about it, by the key of its words, where it names no cause: it is
	// put right before anything else is asked.
	Repair string
	// Apart: it is a matter of its own beside whatever else is found of the engine, and put right
	// by itself.
	Apart bool
	// Rest: it is told only where nothing else that was found presses as much.
	Rest bool
	// Open: it answers a complaint that no other story explains, and is silent
	// where there is none.
	Open bool
	// Absolute: it compares a cylinder with a figure and not with the others.
	Absolute bool
	// TellsAll: its headline tells of more cylinders than its finding names.
	TellsAll bool
	// Warns: it says what is done before every start lest the engine comes to harm, and is
	// told next after what leads, however much else was found.
	Warns bool
	// Felt are the complaints that what it finds brings about, where nothing but it is found;
	// nil for all that its causes explain.
	Felt []string
	// Look is what plugs show by it that leaves what was found sound to be said first,
	// "worn"; "" for none.
	Look string
	// Beside is the sentence over a sheet of an engine whose every test was sound, and of which
	// nothing but this is told; "" for the usual one.
	Beside string
	// Variants are the wordings beside the usual one.
	Variants []string

	// Of a rule on the test itself: Notices gives remarks, Doubt is the key of
	// the doubt that they cast on findings that rest on the readings in Doubts,
	// Repeat the check that repeats what is doubtful.
	Notices func(*known.Case) []diag.Notice
	Asks    string // what Notices looks for, in words: the trigger of such a rule
	// ComplaintsWait: complaints that nothing explains wait until the test was made again.
	ComplaintsWait bool
	Doubt          string
	Doubts         []known.Need
	Repeat         string
	// RepeatOf gives the check of one notice, where they differ, HeadlineOf the
	// key of the verdict; Alone whether it asks for the check also where nothing
	// that was found rests on it.
	RepeatOf   func(*known.Case, diag.Notice) string
	HeadlineOf func(*known.Case, diag.Notice) string
	Alone      func(*known.Case, diag.Notice) bool
	// Shifts: it moves all readings alike, so that it makes doubtful what compares
	// them with a figure of the book and not what compares them with each other.
	Shifts bool
	// Slip: what it doubts may be a slip of the pen, which is asked about before
	// anything is looked into for it.
	Slip bool
	// TurnsSlowly: the starter did not turn the engine as it should, which makes any
	// gauge read low.
	TurnsSlowly bool
	// Between is what is left of a notice where cylinders are held against each
	// other, and whether anything is; nil leaves all of it.
	Between func(diag.Notice) (diag.Notice, bool)
	// OfSound is likewise what is left where the readings say that all is well; nil
	// leaves all of it.
	OfSound func(*known.Case, diag.Notice) (diag.Notice, bool)
	// MakesUp reports readings of these cylinders that the fault of the test would make of
	// sound ones; they wait, and no part is suspected for them alone, until it was made
	// again. nil for none.
	MakesUp func(*known.Case, diag.Notice, []string) bool
	// Unsettles: what rests on the doubted readings alone is at most to be
	// checked again, whatever they say.
	Unsettles func(diag.Notice) bool
}

// Trigger is what fires the rule, in words made from what is asked.
func (r *Rule) Trigger() string {
	if r.Notices != nil {
		return r.Asks
	}
	when := r.When.String()
	switch {
	case r.Of.Words == "":
		return when
	case when == "":
		return r.Of.Words
	}
	return r.Of.Words + ": " + when
}

// HeadlineFor is the key of the verdict that a notice leads, "" for none of its
// own.
func (r *Rule) HeadlineFor(c *known.Case, n diag.Notice) string {
	if r.HeadlineOf != nil {
		return r.HeadlineOf(c, n)
	}
	return r.Headline
}

// Proves reports a rule by which work that was done is proved good.
func (r *Rule) Proves() bool { return r.Class == Sound && r.Kind == OfEarlier }

// families are the rules in the order in which they are tried: the test
// itself, then each kind of reading, then the combinations.
var families = [][]Rule{
	testRules,
	compressionRules,
	wetRules,
	runningRules,
	rotorRules,
	earlierRules,
	leakageRules,
	plugRules,
	fuelRules,
	furtherRules,
	oilRules,
	startingRules, peakRules,
	vacuumRules, lateCam, lateAndLow, markRules, lateTiming, beatAndLow, beatAndBreath, lowByLow,
	balanceDoubt, balanceRules, bankPulls,
	magnetoRules, fouledRules, headRules,
	injectorSet, injectorRules,
	trimRules, oldSoot, sootyAndRich, sootyAndLean, whiteAndLean, gasRules,
	crankcaseRules, crankcaseHoldRules, backPressureRules, exhaustGlows, exhaustBreathed, ownWords,
	coolantInside, linerRules, coolingRules,
	clearanceRules, lashTogether, timingRules,
	dieselSet, dieselRules,
	fellTogether, sealingTogether,
	engineTogether,
	mixtureTogether, missRules,
	oneFault,
	rodRules, foundRules, faultRules, codeRules,
	heldRules, oilUseRules, historyRules, fuelStood, dangerRules,
}

// All is every rule in the order in which it is tried.
func All() []Rule { return slices.Concat(families...) }

var everyRule = sync.OnceValue(All)

var rulesByName = sync.OnceValue(func() map[string]*Rule {
	all := everyRule()
	index := make(map[string]*Rule, len(all))
	for i := range all {
		index[all[i].Name] = &all[i]
	}
	return index
})

// At gives the rule at a place among All.
func At(order int) *Rule { return &everyRule()[order] }

// Named gives a rule by its name, nil where there is none.
func Named(name string) *Rule { return rulesByName()[name] }

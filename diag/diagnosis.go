// Package diag holds an engine's test readings, a Test, and what is made of
// them, a Diagnosis (the sums on the readings, the verdict on every limit with
// the uncertainty that decided it, what the readings point to), and knows nothing
// of files, clocks, languages or pages.
//
// Nothing here says a sentence: a finding carries a rule's name and the facts,
// and whoever prints it has the words.
//
// Assess does the sums. The rest of the Diagnosis is made by package story, from
// the patterns of package rule and the causes and checks of package cause.
package diag

import (
	"strconv"
	"strings"
	"time"

	"gaugesheet/diag/quantity"
)

// Verdict is the verdict on a limit.
type Verdict string

// The verdicts.
const (
	Within    Verdict = "within"
	Outside   Verdict = "outside"
	TooClose  Verdict = "too close to call"
	NotJudged Verdict = "not judged"
)

// Grade is how a cylinder stands beside the others.
type Grade string

// The grades.
const (
	Even           Grade = "even"
	Watch          Grade = "watch"
	Low            Grade = "low"
	VeryLow        Grade = "very low"
	NoPressure     Grade = "no pressure"
	High           Grade = "high"
	GradeTooClose  Grade = "too close to call"
	GradeNotJudged Grade = "not judged"
	GradeNotTested Grade = "not tested"
)

// IsLow reports low, very low or no pressure; watch is not low.
func (g Grade) IsLow() bool { return g == Low || g == VeryLow || g == NoPressure }

// IsGood reports pressure of which no grade says that it is low.
func (g Grade) IsGood() bool { return g == Even || g == Watch || g == High }

// Urgency is how soon something should be done.
type Urgency string

// The urgencies, mildest first.
const (
	NoAction   Urgency = "no action"
	CheckAgain Urgency = "check again"
	ActSoon    Urgency = "act soon"
	DoNotRun   Urgency = "do not run until checked"
)

// Rank orders urgencies: 0 no action to 3 do not run.
func (u Urgency) Rank() int {
	switch u {
	case CheckAgain:
		return 1
	case ActSoon:
		return 2
	case DoNotRun:
		return 3
	}
	return 0
}

// Confidence is how sure a finding is.
type Confidence string

// The confidences, least first.
const (
	Weak   Confidence = "weak"   // near the limit, the method unknown, or one indirect sign
	Fair   Confidence = "fair"   // one test, clear of uncertainty
	Strong Confidence = "strong" // two independent tests agree
)

// Facts are the values that the words of a finding use, by name: Number,
// Names, string, int, bool or *When.
type Facts map[string]any

// A Number is a value to be printed with its decimals and unit.
type Number struct {
	Value    float64
	Decimals int
	Unit     quantity.Unit // "" for none
}

// String prints the number with its unit after a non-breaking space.
func (n Number) String() string {
	s := quantity.Format(n.Value, n.Decimals)
	if n.Unit == "" {
		return s
	}
	return s + "\u00a0" + string(n.Unit)
}

// Printed is the value that String gives, rounded to its decimals.
func (n Number) Printed() float64 {
	v, err := strconv.ParseFloat(quantity.Format(n.Value, n.Decimals), 64)
	if err != nil {
		return n.Value
	}
	return v
}

// When is when another test was made: its day, or, where that is not known, the
// label that the job gives it.
type When struct {
	Day   time.Time
	Label string
}

// Names are cylinders, rotors or circuits by name, in the engine's order.
type Names []string

// A Phrase is an entry of the catalogue of words with its facts: a cause, an
// argument against one, a doubt.
type Phrase struct {
	Key   string
	Facts Facts
}

// A Check is a next check by its name in the catalogue, with the cylinders or
// other facts that its words need.
type Check struct {
	Key       string
	Cylinders []string // that it is made on; none for the engine or the fuel
	Facts     Facts
	Minutes   int      // roughly how long it takes
	Outcomes  []string // by name, all of them, in the order of the catalogue
	Sets      bool     // something is opened, set, cleaned, run in or replaced as it is made
	// Shown: the check before it shows on which cylinders it is made, and those that are
	// named stand for them.
	Shown bool
}

// A Finding is what one rule found.
type Finding struct {
	Rule       string
	Variant    string // which of the rule's wordings; "" the usual one
	Cylinders  []string
	Circuit    string
	Urgency    Urgency
	Confidence Confidence
	Facts      Facts
	Causes     []Phrase // likeliest first, at most three shown
	Against    []Phrase // what speaks against the likeliest cause
	Doubts     []Phrase // why the confidence is no higher
	Next       *Check
	SaidBy     string // the rule that leads its story or says it better; "" of a leading finding
	Better     bool   // SaidBy says it better, and not only leads
	Headline   string // key of the verdict that it leads; "" for the rule's own
}

// About is what a story is about.
type About string

// What stories are about.
const (
	AboutCylinders About = "cylinders" // these cylinders, or rotors
	AboutFuel      About = "fuel"      // the fuel supply
	AboutMixture   About = "mixture"   // spark, air and mixture, plugs as a set
	AboutTest      About = "test"      // the test itself
	AboutSystem    About = "system"    // what a further test looks at: the oil, the breathing, the cooling
	AboutEngine    About = "engine"    // the engine as a whole
)

// A Story is all that was found on one subject, with one order of causes.
type Story struct {
	About      About
	Cylinders  []string // in the engine's order; none for the engine, the fuel or the mixture as such
	With       []string // of one that is about no cylinder, those of what it explains
	Circuit    string
	System     string // of a story about a system: the key of the test that looks at it
	Part       string // of that system, where the story is about a part that is judged by itself
	Urgency    Urgency
	Confidence Confidence
	Members    []Finding // the leading one first; the others say so in SaidBy
	Notices    []Notice  // of a story about the test
	Causes     []Phrase  // likeliest first, at most three
	Against    []Phrase  // what the ledger holds against the first cause
	Doubts     []Phrase  // why it is no surer
	Codes      []string  // stored trouble codes that speak for one of its causes
	Tests      []string  // the tests that its findings rest on: "compression", "leakage", "plugs", "rotors", "fuel pressure"
	SoundBy    []string  // the kinds of test that agree that all is well, where two do
	Explains   []string  // the complaints that its causes explain
	Ledger     []Entry   // every voice for or against a cause, for whoever asks why
	Next       *Check
	Repair     string // what is done about it where no check comes next as its cause is as good as known, by the key of its words; "" for nothing yet
	Sound      bool   // it shows something to be sound, and not only that nothing has to be done
	// Found is what it would say over a sheet, where what it is about does not tell it
	// from others of the engine; no key for others.
	Found Phrase
}

// Also is what another story of the same urgency is about.
type Also struct {
	About     About
	Found     Phrase // as a Story has it
	Cylinders []string
	Circuit   string
	System    string
	Part      string
}

// SystemKey names a system, or a part of one, as words are looked up:
// "oil-pressure", "cooling cap".
func SystemKey(system, part string) string { return strings.TrimSpace(system + " " + part) }

// An Entry is one voice in the ledger of a story.
type Entry struct {
	Cause   string
	Weight  int      // less than 0 speaks against
	Kind    string   // the kind of test that it comes from, "" for what is merely common
	By      string   // the rule, or the condition in words
	Against string   // key of the words that say what speaks against
	At      []string // the cylinders that it was found of; none where it is of all that it may be of
}

// A Step is a check of the plan with where each of its outcomes leads.
type Step struct {
	Check *Check
	Leads []Lead // in the order of the check's outcomes
}

// A Lead is where one outcome of a check leads.
type Lead struct {
	Outcome string // by name
	Cause   string // the likeliest cause then, "" where none is
	Facts   Facts  // of its words
	Left    bool   // that cause is what is left, as the outcome speaks for none and nothing more is asked
	Settled bool   // nothing more has to be checked for it
	Next    *Check // the check that comes next then, nil for none
	Repair  string // what is done then where the outcome excludes a cause and no check is left, by name
}

// A Notice is a remark on the test itself, said before the findings.
type Notice struct {
	Rule      string
	Variant   string
	Cylinders []string
	Facts     Facts
}

// A Diagnosis is what a test says.
type Diagnosis struct {
	Flies       bool     // it is the engine of an aircraft
	Breathed    bool     // its exhaust gets to where people breathe
	Glows       bool     // its exhaust was seen to glow
	RawFuel     bool     // what leads it sends fuel unburned into a catalyst
	Chambers    Chambers // what one speaks of on this engine
	Compression *CompressionResult
	Leakage     *LeakageResult
	Plugs       *PlugsResult
	Rotors      *RotorsResult
	Fuel        *FuelResult
	Measured    []MeasuredResult // the further tests, in the order of the job
	Stories     []Story          // in the order in which they are to be said
	Plan        []Step           // the next check first
	Findings    []Finding        // the leading findings of the stories, in their order
	// Folded are findings that a combination among Findings says better: true
	// by themselves, yet not said twice.
	Folded    []Finding
	Notices   []Notice
	NotTested []Untested
	Cautions  []string // keys of the catalogue
	Verdict   Phrase   // the sheet's one sentence
	Advice    Phrase   // the second line under it
	Urgency   Urgency
	Next      *Check // the one next check of the sheet; nil where none is needed
	Withheld  bool   // nothing is judged, because the tests that would tell were not made
	Proven    bool   // the tests show the engine sound, and not only that they found nothing: only then a tick
	Lead      int    // index of the story that leads the sheet, -1 for none
	NextFor   int    // index of the story it settles, -1 for none
}

package figure

// A Finding is one finding in words.
type Finding struct {
	Mark    Mark
	Says    string
	Because string
	Urgency string
	Causes  []string // ranked
	Short   bool     // what it says and why run on: nothing has to be done
	Sure    string   // how sure, and why
	Against []string // what speaks against it
	Rule    string   // the rule's name; empty on sheets for lay readers
}

// A NextCheck is the one check that settles most.
type NextCheck struct {
	Title, Do string
	For       string    // what it is for: "to hear where the air goes"
	Outcomes  []Outcome // all of them
	Effort    string    // "about 10 minutes"
}

// An Outcome is one thing that a check can show, and what that means.
type Outcome struct{ If, Then string }

// Findings describes the findings in their order.
type Findings struct {
	Title, Sub string
	Items      []Finding
	Lead       FindingWords
	// Least is how many findings, from the first, are there at brief however
	// little room there is. 0 is 2.
	Least int
	// More says how much was left out for want of room, and where it can be
	// read. Where it is nil nothing is left out.
	More func(Omitted) string
}

// FindingWords are the words before the parts of a finding; a part without
// one starts with its own words.
type FindingWords struct {
	Causes  string // "Most likely first:"
	Cause   string // where there is only one: "Likely cause:"
	Sure    string // "How sure:"
	Against string // "Speaks against it:"
	Rule    string // "Rule:"
}

// Omitted counts what a block left out at its level of detail.
type Omitted struct {
	Findings int // whole findings
	Causes   int // likely causes
	Against  int // what speaks against a finding
	Reasons  int // why findings say what they say
}

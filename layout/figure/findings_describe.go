package figure

// A Finding is one finding in words. Each text is whole, with its punctuation.
type Finding struct {
	Mark      Mark
	Says      string // what was seen: "3 and 5 are low together:"
	Urgency   string // runs on from it: "act soon."
	Because   string
	Suspected string // "Suspected first: the head gasket; then a cracked head."
	Against   string // what speaks against it
	Sure      string // how sure, and why
	Rule      string // the rule's name; empty on sheets for lay readers
	Quotes    bool   // why is the shop's own words, which stand nowhere else: it is never left out
	Short     bool   // nothing has to be done: what was seen is enough where room is short
}

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

// FindingWords are the words before the parts of a finding.
type FindingWords struct {
	Sure    string // "How sure:"
	Against string // "Speaks against it:"
	Rule    string // "Rule:"
	Also    string // "Also:", before findings that are only named for want of room; "" leaves them out
}

// Omitted counts the findings of which a block left something out at its level
// of detail.
type Omitted struct {
	Findings  int // left out whole
	Reasons   int // without why
	Suspected int // without what is suspected
	Doubts    int // without what speaks against it, or how sure it is
}

// A NextCheck is the one check that settles most, or what to do with the sheet
// where there is none.
type NextCheck struct {
	Title, Effort string    // "Next check", "about 10 minutes"
	Do            string    // how it is made
	Outcomes      []Outcome // all of them
	Others        string    // what comes next after those that do not say it
	Again         *Again    // nil for no room for the next readings
}

// An Outcome is one thing that a check can show, what that means, and what
// comes next then.
type Outcome struct{ If, Then, Next string }

// Again describes readings with room for those of the next test beside them.
type Again struct {
	Heads []string // above the columns of readings
	Next  string   // above the empty boxes
	Boxes int      // empty boxes in a row
	Rows  []AgainRow
}

// An AgainRow is a cylinder with its readings, one for each head.
type AgainRow struct {
	Number string
	Values []string
}

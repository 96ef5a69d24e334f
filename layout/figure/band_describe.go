package figure

// A Reading is one row of a pressure figure: a reading with what is allowed for
// it.
type Reading struct {
	Name      string // "key on", "after 5 min"
	Value     float64
	Text      string  // as entered
	From, To  float64 // ends of a range that was entered; equal to Value for one reading
	Low, High float64 // whisker of the gauge; equal to Value for none
	More      bool    // a lower bound: the value may be more
	Mark      Mark
	Judged    string   // the verdict in a word, where it is not within
	Allowed   *Allowed // nil for none
}

// An Allowed is a permitted range; Low or High may be infinite.
type Allowed struct {
	Low, High float64
	Text      string // "40 to 44", "30 or more"
	Beside    string // the same behind a reading in a line: "(40 to 44)"
}

// A Circuit is the readings of one rail, tank or pump.
type Circuit struct {
	Name     string // over its rows; empty where there is one circuit
	Readings []Reading
	Captions []string // regulator response and the like
}

// A Pressures describes the pressures of all circuits on one scale.
type Pressures struct {
	Title    string
	Alt      string                    // what the rows show, in words
	Sub      func(start string) string // what stands behind the title; start is where the scale begins, "" for zero
	Unit     string
	Circuits []Circuit
	// RunsOn is for a page that has all its figures in tables: at brief the readings
	// run on in words, and are rows where the page has height for them.
	RunsOn bool
}

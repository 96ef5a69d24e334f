// Package figure draws the parts of a test sheet, each from a plain
// description of its own: words, numbers and places, with nothing known of how
// they were found. Every figure is a layout.Block.
package figure

import "gaugesheet/layout"

// A Mark is a symbol that carries a verdict beside its word. The marks differ
// in shape, so that they survive a grey printer and any eye.
type Mark uint8

// The marks.
const (
	NoMark    Mark = iota
	Good           // tick
	Notice         // filled dot: watch, check again
	Act            // filled triangle, point down: low, outside, act soon
	Stop           // filled octagon with a bar: do not run until checked
	High           // triangle, point up, outlined
	Edge           // two waves: too close to call
	NotTested      // open circle
	NotJudged      // open square with a question mark's dot: read, yet not judged
)

// A Tone is how a cylinder or a bar is filled, so that it can be told apart
// without colour.
type Tone uint8

// The tones.
const (
	Plain  Tone = iota // even
	Faint              // watch, too close to call: sparse dots or a light hatch
	Hatch              // low: hatched
	Dense              // very low, no pressure: cross-hatched
	Raised             // high: horizontal lines
	Open               // not tested, not judged: empty, dashed outline
)

// A Direction is where an arrow points on the plan.
type Direction uint8

// The directions; Nowhere draws no arrow.
const (
	Nowhere Direction = iota
	Up
	Down
	Left
	Right
)

// A Cylinder is one cylinder (or rotor) of an engine plan.
type Cylinder struct {
	X, Y   float64 // place in the plan in cylinder pitches, y down
	Number string
	Value  string // the dry reading, large; empty on a bench sheet
	Word   string // the grade: even, low, not tested ...
	Mark   Mark
	Tone   Tone
	Notes  []Label // small values beside the cylinder: wet, leakage, plug; at most four
	Faces  []Label // of a rotor: what was read at each of its faces, in place of Value
}

// A Label is a small value with what it is.
type Label struct{ Name, Value string }

// A BankLabel names a bank over or beside its cylinders.
type BankLabel struct {
	Text      string
	Cylinders []int
}

// An EnginePlan describes the engine seen from above.
type EnginePlan struct {
	Title     string // heading, "Cylinder by cylinder"
	Sub       string // beside the heading: unit, what the small values are
	Cylinders []Cylinder
	Heads     [][]int // who shares a head gasket: one dashed outline each
	Banks     []BankLabel
	Vehicle   Direction // where the vehicle's front is
	Engine    Direction // where the engine's front is
	VehicleAt string    // words at the arrow: "front of vehicle"
	EngineAt  string    // "front of engine"
	Rotary    bool      // cylinders are rotor housings
	Ring      bool      // cylinders stand in a ring
	Pen       bool      // a bench sheet: draw empty boxes to write in
	Captions  []string  // under the plan: outline meaning, firing order
	NotesLeft string    // caption that says where the notes are when they were left out; empty leaves none out
}

// A Bar is one cylinder in a spread chart.
type Bar struct {
	Label     string
	Value     float64
	Text      string  // the value as entered, over the bar
	Low, High float64 // ends of the whisker; equal to Value for none
	Ghost     float64 // wet or earlier reading behind the bar; used when HasGhost
	HasGhost  bool
	GhostText string
	Missing   string // why there is no bar: "not tested"; empty where there is one
	AtLeast   bool   // a lower bound: the bar is open at the top
	Tone      Tone
	Highest   bool
	Lowest    bool
	Group     int // bars of another group stand apart: banks, rotors
}

// A RuleLine is a limit drawn across a chart.
type RuleLine struct {
	Value float64
	Text  string // the limit with its rule: "116 psi = 75 % of the highest"
}

// A Spread describes a bar chart of one reading per cylinder, from zero.
type Spread struct {
	Title, Sub  string
	Unit        string
	Bars        []Bar
	Lines       []RuleLine
	GhostName   string   // what the ghost bars are: "after oil", "2 Nov 2025"
	WhiskerName string   // what the whiskers are: "what the gauge can tell apart"
	Captions    []string // under the chart
}

// A Reading is one marker on a pressure band.
type Reading struct {
	Name      string // "key on"
	Value     float64
	Text      string
	Low, High float64 // whisker; equal to Value for none
	Mark      Mark
}

// An Allowed is a permitted range on a pressure band; Low or High may be
// infinite.
type Allowed struct {
	For       string // which reading it is for: "key on"
	Low, High float64
	Text      string // at the end of the row: "allowed 40-44"
}

// A HoldPoint is a pressure at a time after switching off.
type HoldPoint struct {
	Minutes float64
	Value   float64
	Text    string
}

// A PressureBand describes a pressure scale with its readings, and the curve
// of how the pressure holds where it was timed.
type PressureBand struct {
	Title, Sub string
	Unit       string
	Readings   []Reading
	Allowed    []Allowed
	Hold       []HoldPoint
	HoldLimit  *HoldPoint
	HoldName   string   // over the curve: "held after switching off, psi"
	Captions   []string // regulator response and the like
}

// A Tile is one test in the row under the verdict.
type Tile struct {
	Mark              Mark
	Name, Word, Value string
}

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

// A Field is a named value of the identity block or a list.
type Field struct{ Name, Value string }

// A Table is a table of words and numbers.
type Table struct {
	Name, Title, Sub string
	Columns          []Column
	Rows             [][]string
	Captions         []string
	Pen              bool   // rows for handwriting: at least 7 mm high
	RunOn            bool   // at compact the rows run on as a paragraph
	Sum              string // what the rows come to, in place of them at brief
}

// A Column is a column of a table.
type Column struct {
	Head    string
	Numbers bool    // aligned at the right
	Share   float64 // of the width; 0 as wide as its words need
}

// A Head describes the top of the sheet: the shop at the left, the kind of
// sheet, job number and date at the right.
type Head struct {
	Shop   string
	Lines  []string      // address, phone, registration
	Logo   *layout.Image // nil for none
	Kind   string        // "Engine test sheet"
	Number string        // job number
	Date   string
}

// An Identity describes the named fields under the head. A value too long for
// its column takes more columns.
type Identity struct {
	Fields  []Field
	Columns int // 3 or 4; 0 lets the width decide
}

// A Verdict describes the sentence that the sheet opens with.
type Verdict struct {
	Mark     Mark
	Sentence string
	Second   string // the line under it
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

// A List is a heading over lines of words: method, not tested, cautions and
// lists of a sheet's own.
type List struct {
	Title string
	Items []string
	Run   bool // one running paragraph instead of a line for each
	Short Short
}

// Short is how a text that need not stand whole gives way: at compact it runs
// on as one paragraph, at brief each part of it keeps its first words. The zero
// Short keeps all words at every level.
type Short struct {
	Words int    // that each part keeps at brief
	Parts int    // that are kept at brief, the first ones; 0 is all
	Left  string // said behind it where words were left out: where they stand
}

// Entries are a heading over lines that each begin with what they are: the
// names stand in a column of their own, and one given again is not repeated.
type Entries struct {
	Name  string // block "list:" with this name
	Title string
	Lines []Field
	Note  string // small, behind the title
	Short Short
}

// A SignOff describes the lines to sign on, one to three.
type SignOff struct {
	Lines []SignLine
	Note  string // small, above the lines: what is signed
}

// A SignLine is one line to sign on.
type SignLine struct {
	Label string // under the line: "tested by"
	Over  string // on the line: a typed name; usually empty
}

// A Foot describes the last line of the page.
type Foot struct {
	Left  []string // what the sheet is and is not
	Right []string // fingerprint, page, attached note
}

// CheckBoxes describes boxes to tick, in groups of one answer each.
type CheckBoxes struct {
	Name, Title string
	Groups      []CheckGroup
}

// A CheckGroup is a question with its answers and perhaps a line to write on.
type CheckGroup struct {
	Label   string
	Choices []string
	Ticked  []bool // by choice; nil for none
	WriteIn string // what a short line after the choices is for: "V at rest"; empty for no line
}

// FieldLines describes labels with a line to write on behind each.
type FieldLines struct {
	Name, Title string
	Fields      []Field // a field with a value shows it on the line
	Columns     int     // 0 is 2
}

package figure

import "gaugesheet/layout"

// A PenMasthead is the head of a sheet to be written on: which engine it is for,
// and how to work through it.
type PenMasthead struct {
	Title string // "Bench sheet: V8"
	Sub   string // under the title
	Brief string // the same in short, for a full page
	Shop  string // at the right; empty leaves room for a stamp
}

// A PenForm is rows of boxes to write in and to tick, for a pen and greasy
// hands.
type PenForm struct {
	Name  string
	Steps []PenStep
	With  []PenStep // of other forms of the page, whose boxes begin at the same place
}

// A PenStep is a row of boxes. On sheets that are worked through from top to
// bottom it has a letter and a name at its left, and a quiet line under the
// name: when, or with what.
type PenStep struct {
	Letter, Name, When string
	Boxes              []PenBox
	Joins              bool // stands in the row of the step before it
	Apart              bool // begins a part of the form, with a space above
}

// A PenBox is a box to write in, or one that holds boxes to tick.
type PenBox struct {
	Label   string        // small, at the top left
	Unit    string        // small, at the right end of the line to write on
	Choices []string      // a few words each, with a box to tick before them
	Room    layout.Length // how much higher it may grow on a page with room
	Ticked  []bool        // by choice; nil for none
	Value   string        // what is known already
	Share   float64       // of the width that is over; 0 is 1
}

// A PenTable is a row of boxes to each cylinder, its number in a tab at the
// left. A row without a number has an empty tab to write it in.
type PenTable struct {
	Name    string
	Columns []PenColumn // after the tab's
	Tabs    PenColumn   // the heading of the tabs
	Rows    []string
	Tall    bool // rows for larger boxes
}

// A PenColumn is a column of boxes. One with a letter begins what is written
// down in the step of that letter.
type PenColumn struct {
	Letter, Head string
	Least        layout.Length // 0 is the least width of a box
}

// A PenPlan is an engine seen from above with empty bores, to write in what is
// seen, and its numbers in tabs beside them or tabs to write them in.
type PenPlan struct {
	Alt       string // what the figure shows, in words
	Cylinders []PenBore
	Heads     [][]int // cylinders under one head gasket: one outline each
	Banks     []BankLabel
	Front     string    // at the arrow to the engine's front, which is up; for a ring, from where it is seen
	Vehicle   string    // at the arrow to the vehicle's front
	VehicleAt Direction // where that is; Nowhere draws none
	Build     Build
}

// A PenBore is a cylinder of a PenPlan.
type PenBore struct {
	X, Y   float64 // place in cylinder pitches, y to the rear
	Number string  // empty for a tab to write it in
}

// Package figure draws the parts of a test sheet, each from a plain description of
// its own, and knows words, numbers and places, but not how they were found. Every figure is a layout.Block.
package figure

// A Mark is a symbol that stands beside its word. Each has one meaning, and
// they differ in shape, so that they survive a grey printer and any eye.
// Urgency has words and no symbol.
type Mark uint8

// The marks.
const (
	NoMark    Mark = iota
	Within         // tick: a test that came out within
	Low            // filled triangle, point down: too low
	High           // filled triangle, point up: too high
	TooClose       // two waves: too close to call
	LookAgain      // filled dot: look again
	NotTested      // open circle
	CouldNot       // open circle with a stroke through it: could not test
	Declined       // dash
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

// A Label is a small value with what it is.
type Label struct{ Name, Value string }

// A Field is a named value of the identity block or a list.
type Field struct {
	Name, Value string
	Lead        string // the name as it stands before the value in a line: "Vehicle:"
}

package figure

// A Cylinder is one cylinder (or rotor) of an engine.
type Cylinder struct {
	X, Y   float64       // place in the plan in cylinder pitches, y down
	Number string        // its name, in a tab; empty on a bench sheet where the numbering is not known
	Bars   []CylinderBar // one for each scale of the figure, in their order; the first is the reading in the bore
	Plug   PlugWord
	Faces  []Face // of a rotor: the readings at its faces, instead of the first bar
}

// A Face is one face of a rotor.
type Face struct {
	Name string
	Bar  CylinderBar
}

// A CylinderBar is a reading on one scale: a bar from zero, and its words.
type CylinderBar struct {
	Text  string  // the value as entered; empty where nothing was read
	Value float64 // to where the bar goes
	Upto  float64 // above Value where a range was entered, or readings disagree: the bar goes on, open, to here
	Open  bool    // a lower bound: the bar has no end
	Tone  Tone
	Mark  Mark   // before Word
	Word  string // beyond the bar: "low, 62 %"; or why nothing was read: "plug seized"
	Marks []BarMark
}

// A BarMark is another reading on the scale of a bar: the same cylinder at
// another time, or with oil in it.
type BarMark struct {
	Shape MarkShape
	Value float64
	Text  string
}

// A MarkShape is the outline of a small mark on a bar. All are open: filled
// ones are marks of what was found.
type MarkShape uint8

// The shapes.
const (
	Wedge   MarkShape = iota // with oil in the cylinder
	Diamond                  // at an earlier test
)

// A PlugWord is how a spark plug looked, in a word or two.
type PlugWord struct {
	Text string
	Mark Mark
	Tone Tone // Plain for one that looked as it should
}

// An EngineScale is what the bars of one test are drawn on, from zero.
type EngineScale struct {
	Title  string           // over its bars: "pressure, psi"
	Least  float64          // the scale reaches to here at least
	Limits []EngineLimit    // at most two are drawn
	Tones  [Open + 1]string // what a tone of its bars means, under the figure; "" for none
}

// An EngineLimit is a line across the bars of a scale.
type EngineLimit struct {
	Value float64
	Label string // at the line: "116"
	Key   string // under the figure: "116 psi: 75 % of the best"
}

// A Tie says what neighbouring cylinders have in common: a line is drawn from
// the wall between them to its words.
type Tie struct {
	Cylinders [2]int
	Text      string
}

// A BankLabel names a bank.
type BankLabel struct {
	Text      string
	Cylinders []int
}

// A Build is how the cylinders of an engine stand, which is how they are
// drawn from above.
type Build uint8

// The builds.
const (
	Upright Build = iota // one row, or places of their own: bores seen from above
	Leaning              // two banks of a V: bores seen at a slant
	Lying                // two banks of a flat engine: barrels seen from the side
	Ring                 // a radial engine: cylinders around the crankcase
	Rotors               // rotor housings
)

// An EnginePlan describes the engine seen from above, and a bar for each of
// its cylinders.
type EnginePlan struct {
	Title      string // heading: "What each cylinder made"
	Alt        string // what the figure shows, in words
	Sub        string // beside the heading: unit, how it was tested
	Build      Build
	Cylinders  []Cylinder
	Heads      [][]int // who shares a head gasket: one outline each
	Banks      []BankLabel
	Vehicle    Direction // where the vehicle's front is
	Engine     Direction // where the engine's front is
	VehicleAt  string    // words at the arrow: "front of vehicle"
	EngineAt   string    // "front of engine"
	Scales     []EngineScale
	Plugs      string // over the words for the plugs; empty where no plug was looked at
	Ties       []Tie
	ShapeKeys  [2]string // by MarkShape, under the figure: "after a little oil"
	ShapeLists [2]string // by MarkShape, before the values of the marks where they have no room at the bars: "after a little oil:"
	Captions   []string  // under the keys
	// Repeats are the readings whose mean stands on the figure, behind RepeatsAt: "mean
	// of:". At brief RepeatsBrief says only that they are means.
	RepeatsAt    string
	RepeatsBrief string
	Repeats      []Repeat
	// Tabled: every reading stands in a table too. At brief the first scale is
	// enough, under a heading of its own.
	Tabled      bool
	TabledTitle string
	TabledSub   string
}

// A Repeat is all that was read of a cylinder more than once.
type Repeat struct{ Number, Text string }

package figure

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

package diag

import (
	"time"

	"gaugesheet/diag/engine"
	"gaugesheet/diag/gauge"
	"gaugesheet/diag/quantity"
)

// A Test is everything that is known of one engine's test: the engine, how it
// was tested, and the readings, clean and in the unit of their section.
type Test struct {
	Engine     *engine.Engine
	Spec       Spec
	Conditions Conditions
	Gauges     Gauges
	History    History

	// A section is nil where the job has none.
	Compression *Compression
	Leakage     *Leakage
	Plugs       *Plugs
	Rotors      *Rotors
	Fuel        *FuelPressure
	Measured    []Measured // the further tests, in bench order

	Borescope  map[string]string // what was seen, by cylinder, in free words
	Bores      map[string]Bore   // what was seen, by cylinder, in the list's words
	CoolantGas string            // "positive", "negative", "not tested" or ""
	GasTest    GasTest           // how the coolant was tested for gas
	Untested   []Untested        // what the job says was not tested, in its order
	Earlier    []Earlier         // oldest first
	Before     *Before           // the readings before the work, nil for none

	// Noted are notices that reading the job gave rise to (rule names such as
	// "unit-suspect", "units-contradict"), with their facts; those of Suspects
	// among them.
	Noted []Notice
}

// A GasTest is how the coolant was tested for combustion gas. Zero values are
// not recorded.
type GasTest struct {
	Engine  string  // "hot" or "cold"
	Minutes float64 // how long it was drawn through the fluid
	Fluid   string  // its colour at the end, as entered
}

// Spec is what kind of engine it is. Zero values are not recorded.
type Spec struct {
	Fuel           string // "petrol", "diesel", "lpg", "cng", "ethanol", "two-stroke mix" or ""
	TwoStroke      bool
	Charging       string // "natural", "turbo", "supercharged"
	DisplacementML float64
	Ratio          float64 // compression ratio, 9.2 for 9.2:1
	BoreMM         float64
	StrokeMM       float64
	RodMM          float64
	InletClosesDeg float64 // after bottom dead centre, at the seat
	VariableTiming Tri
	Decompressor   string // "none", "automatic", "held off" or ""

	Camshafts    string     // "one", "one per bank", "two per bank" or ""
	Lifters      string     // "hydraulic", "solid" or ""
	ValveGear    string     // "side valves", "overhead valves" or ""
	TimingDrive  string     // "belt", "chain", "gears" or ""
	Interference Tri        // valves and pistons can meet
	Cooling      string     // "liquid", "air" or ""
	Deactivates  []string   // cylinders that are shut down together at light load
	SharedCoils  [][]string // cylinders that one coil fires together
	Inverted     Tri        // cylinders hang down, so that liquid collects in them
	Hybrid       Tri
	Runs         string // "well", "rough", "does not run", "not tried" or ""
	AlsoGas      bool   // it burns gas as well as what Fuel says
	FuelShown    bool   // the fuel is not stated, but told by what only such an engine has
}

// Diesel reports compression ignition.
func (s Spec) Diesel() bool { return s.Fuel == "diesel" }

// Throttled reports an engine whose throttle can spoil a compression test: not one
// that is said to be a diesel.
func (s Spec) Throttled() bool { return !s.Diesel() || s.FuelShown }

// Tri is yes, no or not recorded.
type Tri uint8

// The three answers.
const (
	Unknown Tri = iota
	Yes
	No
)

// Conditions are how the test was done. Empty or nil is not recorded.
type Conditions struct {
	Engine           string // "cold", "warm", "hot"
	CoolantC         *float64
	Throttle         string // "open", "closed", "not sure"
	PlugsOut         string // "all", "one at a time"
	Strokes          int
	CrankingRPM      *float64
	Battery          Battery
	AltitudeM        *float64
	BarometerKPa     *float64 // station pressure
	Choke            string
	Needle           string // "holds", "falls back", "flutters"
	Method           string // anything unusual in how it was done
	IgnitionDisabled string
	FuelDisabled     string
}

// Battery is the state of the battery, in volts.
type Battery struct {
	RestV, CrankingV *float64
	Charger          Tri
}

// Gauges are the instruments. A nil gauge was not recorded.
type Gauges struct {
	Compression, Leakage, Fuel *Gauge
}

// A Gauge is one instrument, in the unit of the section that it is used in.
type Gauge struct {
	Name         string
	Low, High    float64 // range; both 0 where not recorded
	Accuracy     *gauge.Accuracy
	AccuracyText string  // as entered
	Division     float64 // smallest graduation, 0 where not recorded
	Valve        string  // where the check valve is: "at plug", "at gauge"
	HoseVolumeML float64
	Checked      time.Time  // zero where not recorded
	ReadsAt      [2]float64 // indicated and true pressure of a check; zero where none
	Supply       float64    // leakage tester: supply pressure, in SupplyUnit
	SupplyUnit   quantity.Unit
	OrificeMM    float64
	GoodReading  string
	GoodLoss     float64 // leakage tester: what GoodReading comes to in percent lost; 0 where it names no figure
	Doubt        string  // why its readings are doubted, in the job's words
}

// History is what is known of the vehicle that bears on the engine.
type History struct {
	Vehicle     string // what it is, in the job's words
	Complaints  []string
	Codes       []string // diagnostic trouble codes, upper case
	StoodMonths float64  // how long the engine stood; 0 not recorded
	WorkDone    []string // already done: never proposed again as a check
	Findings    []string // what the technician saw and wants said
	ForBuyer    bool     // tested for somebody who means to buy it
	Arrival     string   // how the vehicle came in, in the job's words
	Said        []string // what the customer said is wrong, in whole sentences
	OwnWords    []string // of these, those in which no complaint was known
	Onset       string   // how it came on: "sudden at full load", "slow over months"
	OilUse      string   // as entered, "1 l in 1000 km"
	Heard       []string // complaints that words elsewhere tell of: how it came in or came on, what was found
	Smoke       Smoke
	ForSale     bool   // it is a seller's, tested before it is bought, and nobody has agreed to work on it
	Distance    string // run, as entered: "980 h", "143210 mi"; "" where it is not said or not the true one
}

// CodeComplaint is what the name of a complaint begins with that a stored code makes.
const CodeComplaint = "stored code "

// Smoke is the exhaust smoke that was seen.
type Smoke struct {
	Colour string   // "blue", "white", "black" or ""
	When   []string // "start", "idle", "load", "overrun", "always"
}

// A Bore is what a camera showed of one cylinder; "" was not said.
type Bore struct {
	Wall   string // "scored", "glazed", "rust", "good"
	Crown  string // "washed", "carbon", "holed", "melted", "marked", "good"
	Valves string // "burnt", "bent", "carbon", "rust", "good"
	Seat   string // "burnt", "carbon", "rust", "good"
	Note   string // free words
}

// Before is what was read of the same engine before the work that this test
// proves.
type Before struct {
	Done string    // the work, as entered
	Date time.Time // zero where not recorded
	Test *Test     // its sections; engine and gauges are those of the job
}

// State says whether a test or a reading was taken.
type State string

// The states of a test.
const (
	Tested        State = "tested"
	NotTested     State = "not tested"
	CouldNot      State = "could not test"
	Declined      State = "declined"
	NotApplicable State = "not applicable"
	NotTold       State = "read, not told" // somebody read it and kept the figure
)

// Kind says how exact a reading is.
type Kind uint8

// The kinds of readings.
const (
	Exact    Kind = iota
	Estimate      // "about 120": three times the usual repeatability
	Band          // "145-155": the middle, half the width as standard uncertainty
	AtLeast       // "300+": shown, not judged against relative limits
)

// A Reading is one cylinder's reading with its repeats.
type Reading struct {
	State     State
	Reason    string    // for CouldNot and the like
	Values    []float64 // repeats in order, in the section's unit
	Kind      Kind
	HalfWidth float64 // of a Band
	Entered   string  // as the job file has it
	// Unit is the reading's own where it names one; Values are in the section's
	// all the same.
	Unit quantity.Unit
}

// Value is the mean of the repeats; false where nothing was read.
func (r Reading) Value() (float64, bool) {
	if r.State != Tested || len(r.Values) == 0 {
		return 0, false
	}
	sum := 0.0
	for _, v := range r.Values {
		sum += v
	}
	return sum / float64(len(r.Values)), true
}

// Compression is a cranking compression test.
type Compression struct {
	State      State
	Reason     string
	Unit       quantity.Unit
	Order      []string // as tested; empty where not recorded
	First      map[string]Reading
	Dry        map[string]Reading
	Again      map[string]Reading // tested again at the end
	Wet        map[string]Reading
	OilML      float64 // dose; 0 not recorded
	WetInWords string
	Strokes    map[string]int // where another number than Conditions.Strokes
	Running    map[string]Running
	Limits     []Limit // in the job's order; empty where the job gives none
	Standard   *Standard
}

// A Standard is the usual figure of a new engine by the book. It is no limit:
// under it is a remark.
type Standard struct {
	Low, High float64 // equal where the book gives one figure
	Unit      quantity.Unit
	Entered   string
}

// Running is compression with the engine running.
type Running struct{ Idle, Snap *Reading }

// LimitKind is what a limit limits.
type LimitKind string

// The kinds of compression limits.
const (
	Minimum    LimitKind = "minimum"
	Lowest     LimitKind = "lowest" // lowest as a part of the basis
	Spread     LimitKind = "spread" // highest less lowest as a part of the basis
	Difference LimitKind = "difference"
	BelowMean  LimitKind = "below mean"
	FromMean   LimitKind = "from mean" // either way
)

// Basis is what a percentage is taken of.
type Basis string

// The bases.
const (
	OfHighest Basis = "highest"
	OfLowest  Basis = "lowest"
	OfMean    Basis = "mean"
	OfMedian  Basis = "median"
)

// A Limit is one limit on the compression.
type Limit struct {
	Kind    LimitKind
	Of      Basis   // for Lowest and Spread
	Value   float64 // in Unit
	Unit    quantity.Unit
	Entered string
	Source  string
	// FromSeaLevel: the limit holds at sea level and is corrected for the
	// altitude or the barometer of the test.
	FromSeaLevel bool
	CrankingRPM  float64 // the speed that the limit is for; 0 not stated
}

// Leakage is a cylinder leakage (leak-down) test.
type Leakage struct {
	State        State
	Reason       string
	Engine       string // "cold", "warm", "hot" or "" for the conditions' own
	Limit        *float64
	LimitEntered string
	Dry, Wet     map[string]Leak
}

// A Leak is one cylinder's leakage in percent of the supply, and where the air
// goes.
type Leak struct {
	Reading          // Values in percent lost; none where only the place was noted
	At      []string // exhaust inlet crankcase coolant neighbour outside nowhere
	Most    string   // the place where most of it goes, "" not said
}

// Plugs are the spark plugs as read.
type Plugs struct {
	State      State
	Reason     string
	Fitted     string // when, as entered
	GapMM      float64
	GapTolMM   float64
	GapEntered string
	HeatRange  HeatRange
	Reach      string // "same", "longer", "shorter" than the book's, or ""
	ByCylinder map[string]Plug
}

// A HeatRange is that of the plugs fitted beside the book's, as their maker
// numbers it. Makers number in opposite directions: Higher says what a higher
// number is, "hotter" or "colder", "" where that is not recorded.
type HeatRange struct {
	Fitted, Book float64
	Higher       string
	Given        bool // both were recorded
}

// A Plug is one plug.
type Plug struct {
	State  State
	Reason string
	Look   string // normal worn sooty fuel-wet oil-wet ash white blistered melted detonation coolant bridged damaged tracked
	GapMM  *float64
	Photo  string
	Note   string
}

// Rotors are the faces of a rotary engine.
type Rotors struct {
	State       State
	Reason      string
	Unit        quantity.Unit
	CrankingRPM float64 // 0 not recorded
	Rotors      []Rotor // in the engine's order
	Minimum     *Limit
	Faces       *Limit // between the faces of one rotor
	Apart       *Limit // between rotors
}

// A Rotor is one rotor's three faces in the order read.
type Rotor struct {
	Name   string
	State  State
	Reason string
	Faces  []Reading
}

// FuelPressure is a fuel-pressure test; one circuit, or several.
type FuelPressure struct {
	State     State
	Reason    string
	Unit      quantity.Unit
	System    string // as in the job file, or ""
	Pump      string // "electric", "mechanical" or ""
	PumpHeard Tri
	Circuits  []Circuit
}

// A Circuit is one rail, tank or pump with its readings. Nil is not read.
type Circuit struct {
	Name           string // "" where there is one
	KeyOn          *Reading
	Idle           *Reading
	HoseOff        *Reading
	Snap           *Reading
	ReturnPinched  *Reading
	ManifoldVacuum *float64 // kPa below the atmosphere
	VacuumEntered  string
	Hold           []HoldReading // by time
	VolumeML       float64
	VolumeSeconds  float64
	VolumeEntered  string
	FuelInHose     string // "yes", "no", "not looked" or ""
	Limits         []FuelLimit
}

// A HoldReading is the pressure some time after switching off.
type HoldReading struct {
	Minutes float64
	Reading
}

// A FuelLimit is a permitted range of one fuel reading. Low or High may be
// infinite. They are in the section's unit, for "volume" in ml per minute.
type FuelLimit struct {
	For       string // "key-on", "idle", "hose-off", "snap", "return-pinched", "hold", "volume"
	Low, High float64
	Minutes   float64 // for "hold"; for "volume" the time in which it is to be delivered
	Entered   string
	Source    string
}

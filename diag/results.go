package diag

import (
	"gaugesheet/diag/air"
	"gaugesheet/diag/quantity"
)

// A CompressionResult is the sums on a compression test, in its unit.
type CompressionResult struct {
	// Ends is the set once more with each reading that is known only not to be more than a
	// figure at nothing, and at that figure; nil where there is none.
	Ends *[2]*CompressionResult

	State    State
	Complete bool // every cylinder was read
	Unit     quantity.Unit
	Decimals int // as many as the gauge's division supports

	// Statistics over the dry readings taken; N is how many. All 0 where N is 0.
	N                        int
	Highest, Lowest          float64
	HighestAt, LowestAt      string
	Mean, Median             float64
	Difference               float64
	SpreadPercentOfHighest   float64
	SpreadPercentOfLowest    float64 // +Inf where the lowest is 0
	SpreadPercentOfMean      float64
	LowestPercentOfHighest   float64
	LowestPercentBelowMean   float64
	LowestPercentBelowMedian float64
	Reference                float64 // what grades are taken of
	HighestU                 float64 // expanded uncertainty of the highest against a figure not read on this gauge
	HighestBound             float64 // the most of what some are known only to read more than; 0 for none
	URepeat                  float64 // standard uncertainty of one reading from repeatability
	Limits                   []LimitResult
	DefaultLimit             bool // the limits are the program's own, none was given
	Published                []PublishedRule
	Cylinders                []CylinderResult // in the engine's order
	Expected                 *Expected
	Standard                 *Standard // the book's usual figure, nil where the job gives none
	AltitudeFactor           *float64  // pressure ratio used on limits from sea level
	DensityFactor            *float64  // what popular tables would use
	WetControl               *float64  // rise of the control in percent of dry
	ComparedWith             string    // label of the earlier test compared; "" none
	NotComparable            string    // key of the reason why the earlier test is not compared
}

// Cylinder gives a cylinder's result by name, nil where there is none.
func (c *CompressionResult) Cylinder(name string) *CylinderResult {
	for i := range c.Cylinders {
		if c.Cylinders[i].Name == name {
			return &c.Cylinders[i]
		}
	}
	return nil
}

// A CylinderResult is one cylinder of a compression test.
type CylinderResult struct {
	Name              string
	State             State
	Reason            string
	First             *float64
	Dry               *float64 // the mean of the repeats; nil where they disagree
	DryReadings       []float64
	Disagree          bool // the repeats are too far apart: both shown, Dry nil
	WetDisagree       bool // so are those with oil
	BeyondGauge       bool // above the top of the gauge's scale: shown, not judged
	Entered           string
	Kind              Kind
	Again             *float64
	Wet               *float64
	WetRise           *float64 // wet less dry, in the unit
	WetRisePercent    *float64
	PercentOfHighest  *float64
	PercentFromMedian *float64
	PercentOfRef      float64 // of the reference; with U in points
	UPercent          float64 // expanded uncertainty of PercentOfRef in points
	AtMost            bool    // PercentOfRef is of a lower bound: it is that much at most
	U                 float64 // 2u of one reading, for the chart's whisker
	Grade             Grade
	Change            *float64 // against the earlier test
	ChangeU           float64
}

// A LimitResult is the verdict on one limit. Value, Limit and Uncertainty are
// in Unit; percentages in points.
type LimitResult struct {
	Rule        string // "minimum", "lowest of highest", "spread of highest", "difference", "below mean", "from mean" ...
	Limit       float64
	Unit        quantity.Unit
	Value       float64
	Ends        *[2]float64 // between which Value lies, where a reading is known only not to be more than a figure
	Uncertainty float64
	Verdict     Verdict
	Reason      string // key: why it is not judged
	Cylinder    string // the deciding one
	AsEntered   string
	Source      string
	Corrected   bool // Limit is AsEntered brought to the test's air pressure
	// Uncorrected: the limit holds at sea level, and neither altitude nor
	// barometer of the test is known to bring it there.
	Uncorrected bool
	ByDensity   float64 // what popular tables would make of it; 0 not known
	PastAsRead  bool    // the value as read is past the limit
	Bounded     bool    // Value is taken beside a lower bound: it is that far past the limit at least
}

// Custom reports the limit that is custom, because the job states none.
func (r *LimitResult) Custom() bool { return r.Source == CommonPractice }

// A PublishedRule is one of the rules in circulation applied to these readings
// by bare arithmetic, equality within.
type PublishedRule struct {
	Name, Source string
	Rule         string // as of a LimitResult
	Limit, Value float64
	Unit         quantity.Unit
	Verdict      Verdict
}

// Expected is a plausible band of cranking pressure from the engine's
// geometry, in the test's unit; never a limit.
type Expected struct {
	Low, High float64
	Working   air.Working // at the air pressure that the conditions give, else the standard one
	// ByRatio: the inlet's closing is not known, and the band is that of every
	// usual one.
	ByRatio bool
}

// A LeakageResult is the sums on a leakage test.
type LeakageResult struct {
	State     State
	Complete  bool
	Limit     *float64
	Orifice   bool // the limit is what the tester reads on its master orifice
	Median    float64
	N         int
	Cylinders []LeakResult
}

// Cylinder gives a cylinder's result by name, nil where there is none.
func (l *LeakageResult) Cylinder(name string) *LeakResult {
	for i := range l.Cylinders {
		if l.Cylinders[i].Name == name {
			return &l.Cylinders[i]
		}
	}
	return nil
}

// A LeakResult is one cylinder of a leakage test, in percent of the supply.
type LeakResult struct {
	Name        string
	State       State
	Reason      string
	Loss        *float64
	Bound       bool // the loss is that much at least
	Wet         *float64
	WetAt       []string // where the air went with oil in it
	Entered     string
	At          []string
	Most        string  // the place where most of the air goes, "" not said
	Cover       bool    // what goes to the crankcase was heard under the valve cover
	Verdict     Verdict // against the limit; NotJudged without one
	Uncertainty float64 // against the limit, in points
	PastAsRead  bool    // the loss as read is past the limit
}

// A PlugsResult is the plugs as read.
type PlugsResult struct {
	State     State
	Complete  bool
	N         int
	Cylinders []PlugResult
}

// A PlugResult is one plug.
type PlugResult struct {
	Name    string
	State   State
	Reason  string
	Look    string
	GapMM   *float64
	Gap     Verdict // against the book gap; NotJudged without one
	Note    string
	Photo   string
	GapText string
}

// A RotorsResult is the sums on a rotary engine's faces.
type RotorsResult struct {
	State    State
	Complete bool
	Unit     quantity.Unit
	Decimals int
	Rotors   []RotorResult
	Limits   []LimitResult
}

// A RotorResult is one rotor.
type RotorResult struct {
	Name       string
	State      State
	Reason     string
	Values     []float64
	Entered    []string
	Best       float64
	Mean       float64
	Difference float64
	LowFaces   []int // counted from 0
	Apart      []int // faces that stand far under the rotor's best, or have no pressure while another has
	Grade      []Grade
}

// A FuelResult is the sums on a fuel-pressure test.
type FuelResult struct {
	State    State
	Unit     quantity.Unit
	Decimals int
	Circuits []CircuitResult
}

// A CircuitResult is one circuit of a fuel-pressure test.
type CircuitResult struct {
	Name                string
	Readings            []FuelReading
	InjectorFlowPercent *float64
	AcrossInjector      bool // the flow is from the pressure across the injector
	RegulatorRise       *float64
	RegulatorRiseU      float64  // expanded, between two readings of one gauge
	ExpectedRise        *float64 // from the manifold vacuum
	Hold                []HoldPoint
	Volume              *FuelVolume // nil where it was not taken
}

// Reading gives a reading by name, nil where it was not taken.
func (r *CircuitResult) Reading(name string) *FuelReading {
	for i := range r.Readings {
		if r.Readings[i].Name == name {
			return &r.Readings[i]
		}
	}
	return nil
}

// A FuelReading is one reading with its limit. LimitLow and LimitHigh are nil
// where that side has none.
type FuelReading struct {
	Name                string // "key-on", "idle", "hose-off", "snap", "return-pinched"
	Value               float64
	Entered             string
	LimitLow, LimitHigh *float64
	LimitEntered        string
	Source              string
	Uncertainty         float64
	Verdict             Verdict
	PastAsRead          bool // the value as read is past the limit
	Disagree            bool // the repeats are too far apart to be judged; Value is the last
	BeyondGauge         bool // above the top of the gauge's scale: shown, not judged
	Bound               bool // known only to be that much at least
}

// Limited reports a reading that a limit of the job is for.
func (r *FuelReading) Limited() bool { return r.LimitLow != nil || r.LimitHigh != nil }

// A HoldPoint is the pressure some minutes after switching off.
type HoldPoint struct {
	Minutes, Value float64
	Entered        string
	LimitLow       *float64
	LimitHigh      *float64
	LimitMinutes   float64 // the limit's own time; 0 where it names none
	LimitEntered   string
	Verdict        Verdict
	Uncertainty    float64
	PastAsRead     bool // the value as read is past the limit
}

// A FuelVolume is what a pump delivered, in ml per minute, by bare arithmetic.
type FuelVolume struct {
	PerMinute           float64
	Entered             string
	LimitLow, LimitHigh *float64
	LimitMinutes        float64 // the time of the limit as entered; 0 not known
	LimitEntered        string
	Verdict             Verdict
}

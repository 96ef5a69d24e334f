// Package diag reads an engine's test readings. A Test goes in, a Diagnosis
// comes out: the sums on the readings, the verdict on every limit with the
// uncertainty that decided it, and what the readings point to.
//
// Nothing here reads a file, a clock or a locale, and nothing here says a
// sentence: a finding carries a rule's name and the facts, and whoever prints
// it has the words.
//
// Assess does the sums. Package rule holds the rules and makes the Diagnosis.
package diag

import (
	"gaugesheet/diag/quantity"
)

// Verdict is the verdict on a limit.
type Verdict string

// The verdicts.
const (
	Within    Verdict = "within"
	Outside   Verdict = "outside"
	TooClose  Verdict = "too close to call"
	NotJudged Verdict = "not judged"
)

// Grade is how a cylinder stands beside the others.
type Grade string

// The grades.
const (
	Even           Grade = "even"
	Watch          Grade = "watch"
	Low            Grade = "low"
	VeryLow        Grade = "very low"
	NoPressure     Grade = "no pressure"
	High           Grade = "high"
	GradeTooClose  Grade = "too close to call"
	GradeNotJudged Grade = "not judged"
	GradeNotTested Grade = "not tested"
)

// IsLow reports low, very low or no pressure; watch is not low.
func (g Grade) IsLow() bool { return g == Low || g == VeryLow || g == NoPressure }

// Urgency is how soon something should be done.
type Urgency string

// The urgencies, mildest first.
const (
	NoAction   Urgency = "no action"
	CheckAgain Urgency = "check again"
	ActSoon    Urgency = "act soon"
	DoNotRun   Urgency = "do not run until checked"
)

// Rank orders urgencies: 0 no action to 3 do not run.
func (u Urgency) Rank() int {
	switch u {
	case CheckAgain:
		return 1
	case ActSoon:
		return 2
	case DoNotRun:
		return 3
	}
	return 0
}

// Confidence is how sure a finding is.
type Confidence string

// The confidences, least first.
const (
	Weak   Confidence = "weak"   // near the limit, the method unknown, or one indirect sign
	Fair   Confidence = "fair"   // one test, clear of uncertainty
	Strong Confidence = "strong" // two independent tests agree
)

// Facts are the values that the words of a finding use, by name: Number,
// Names, string, int, or bool.
type Facts map[string]any

// A Number is a value to be printed with its decimals and unit.
type Number struct {
	Value    float64
	Decimals int
	Unit     quantity.Unit // "" for none
}

// String prints the number with its unit after a non-breaking space.
func (n Number) String() string {
	s := quantity.Format(n.Value, n.Decimals)
	if n.Unit == "" {
		return s
	}
	return s + "\u00a0" + string(n.Unit)
}

// Names are cylinders, rotors or circuits by name, in the engine's order.
type Names []string

// A Phrase is an entry of the catalogue of words with its facts: a cause, an
// argument against one, a doubt.
type Phrase struct {
	Key   string
	Facts Facts
}

// A Check is a next check by its name in the catalogue, with the cylinders or
// other facts that its words need.
type Check struct {
	Key     string
	Facts   Facts
	Minutes int // roughly how long it takes
}

// A Finding is what one rule found.
type Finding struct {
	Rule       string
	Variant    string // which of the rule's wordings; "" the usual one
	Cylinders  []string
	Circuit    string
	Urgency    Urgency
	Confidence Confidence
	Facts      Facts
	Causes     []Phrase // likeliest first, at most three shown
	Against    []Phrase // what speaks against the likeliest cause
	Doubts     []Phrase // why the confidence is no higher
	Next       *Check
	SaidBy     string // of a folded finding: the rule that says it better
}

// A Notice is a remark on the test itself, said before the findings.
type Notice struct {
	Rule      string
	Variant   string
	Cylinders []string
	Facts     Facts
}

// A Diagnosis is what a test says.
type Diagnosis struct {
	Compression *CompressionResult
	Leakage     *LeakageResult
	Plugs       *PlugsResult
	Rotors      *RotorsResult
	Fuel        *FuelResult
	Findings    []Finding // in the order in which they are to be said
	// Folded are findings that a combination among Findings says better: true
	// by themselves, yet not said twice.
	Folded    []Finding
	Notices   []Notice
	NotTested []Untested
	Cautions  []string // keys of the catalogue
	Verdict   Phrase   // the sheet's one sentence
	Advice    Phrase   // the second line under it
	Urgency   Urgency
	Next      *Check // the one next check of the sheet; nil where none is needed
	NextFor   int    // index of the finding it settles, -1 for none
}

// A CompressionResult is the sums on a compression test, in its unit.
type CompressionResult struct {
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
	URepeat                  float64 // standard uncertainty of one reading from repeatability
	Limits                   []LimitResult
	DefaultLimit             bool // the limits are the program's own, none was given
	Published                []PublishedRule
	Cylinders                []CylinderResult // in the engine's order
	Expected                 *Expected
	AltitudeFactor           *float64 // pressure ratio used on limits from sea level
	DensityFactor            *float64 // what popular tables would use
	WetControl               *float64 // rise of the control in percent of dry
	ComparedWith             string   // label of the earlier test compared; "" none
	NotComparable            string   // key of the reason why the earlier test is not compared
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
}

// A PublishedRule is one of the rules in circulation applied to these readings
// by bare arithmetic, equality within.
type PublishedRule struct {
	Name, Source string
	Limit, Value float64
	Unit         quantity.Unit
	Verdict      Verdict
}

// Expected is a plausible band of cranking pressure from the engine's
// geometry, in the test's unit; never a limit.
type Expected struct {
	Low, High float64
	Basis     string
}

// A LeakageResult is the sums on a leakage test.
type LeakageResult struct {
	State     State
	Complete  bool
	Limit     *float64
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
	Wet         *float64
	Entered     string
	At          []string
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
func (c *CircuitResult) Reading(name string) *FuelReading {
	for i := range c.Readings {
		if c.Readings[i].Name == name {
			return &c.Readings[i]
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
}

// A HoldPoint is the pressure some minutes after switching off.
type HoldPoint struct {
	Minutes, Value float64
	Entered        string
	LimitLow       *float64
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
	LimitEntered        string
	Verdict             Verdict
}

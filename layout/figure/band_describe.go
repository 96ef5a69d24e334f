package figure

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

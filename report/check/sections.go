package check

import (
	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// section is how every section begins.
type section struct {
	State    string `json:"state"`
	Reason   string `json:"reason,omitempty"`
	Complete *bool  `json:"complete,omitempty"` // every cylinder was read
}

// absent is a section that the job lacks.
var absent = section{State: string(diag.NotTested)}

// stated is a section by its state and the reason alone, where the job says
// nothing else of that test; else the section as it is.
func stated(t *diag.Test, d *diag.Diagnosis, test string, full any) any {
	if !onlyStated(t, test) {
		return full
	}
	for _, u := range d.NotTested {
		if u.Test == test && len(u.Cylinders) == 0 && u.Reading == "" {
			return section{State: string(u.State), Reason: u.Reason}
		}
	}
	return full
}

// onlyStated tells whether a section has neither readings nor limits.
func onlyStated(t *diag.Test, test string) bool {
	switch test {
	case "compression":
		c := t.Compression
		return c != nil && len(c.Dry)+len(c.First)+len(c.Again)+len(c.Wet)+len(c.Running)+len(c.Limits) == 0 && c.Standard == nil
	case "leakage":
		return t.Leakage != nil && len(t.Leakage.Dry)+len(t.Leakage.Wet) == 0 && t.Leakage.Limit == nil
	case "plugs":
		return t.Plugs != nil && len(t.Plugs.ByCylinder) == 0 && t.Plugs.GapMM == 0
	case "rotors":
		return t.Rotors != nil && len(t.Rotors.Rotors) == 0
	case "fuel pressure":
		return t.Fuel != nil && len(t.Fuel.Circuits) == 0
	}
	return false
}

type compressionResult struct {
	section
	Unit                   quantity.Unit               `json:"unit"`
	Highest                *float64                    `json:"highest"`
	Lowest                 *float64                    `json:"lowest"`
	HighestAt              *string                     `json:"highest_at"`
	LowestAt               *string                     `json:"lowest_at"`
	Mean                   *float64                    `json:"mean"`
	Median                 *float64                    `json:"median"`
	Difference             *float64                    `json:"difference"`
	SpreadPercentOfHighest *float64                    `json:"spread_percent_of_highest"`
	LowestPercentOfHighest *float64                    `json:"lowest_percent_of_highest"`
	LowestPercentBelowMean *float64                    `json:"lowest_percent_below_mean"`
	Limits                 []limitResult               `json:"limits"`
	PublishedRules         []publishedResult           `json:"published_rules"`
	Cylinders              []compressionCylinderResult `json:"cylinders"`
	Expected               *expectedResult             `json:"expected"`
	Standard               *standardResult             `json:"standard,omitempty"`
	AltitudeFactor         *float64                    `json:"altitude_factor"`
}

type limitResult struct {
	Rule           string        `json:"rule"`
	Limit          *float64      `json:"limit"`
	Unit           quantity.Unit `json:"unit"`
	Value          *float64      `json:"value"`
	Uncertainty    *float64      `json:"uncertainty"`
	Verdict        string        `json:"verdict"`
	Reason         string        `json:"reason,omitempty"`
	Cylinder       string        `json:"cylinder"`
	LimitAsEntered string        `json:"limit_as_entered"`
	Source         string        `json:"source"`
}

type publishedResult struct {
	Name    string        `json:"name"`
	Source  string        `json:"source"`
	Limit   *float64      `json:"limit"`
	Value   *float64      `json:"value"`
	Unit    quantity.Unit `json:"unit"`
	Verdict string        `json:"verdict"`
}

type compressionCylinderResult struct {
	Cylinder          string    `json:"cylinder"`
	First             *float64  `json:"first"`
	Dry               *float64  `json:"dry"`
	Entered           string    `json:"entered"`
	DryReadings       []float64 `json:"dry_readings"`
	Kind              string    `json:"kind"` // exact, estimate, band, at least
	Again             *float64  `json:"again"`
	Wet               *float64  `json:"wet"`
	WetRise           *float64  `json:"wet_rise"`
	WetRisePercent    *float64  `json:"wet_rise_percent"`
	PercentOfHighest  *float64  `json:"percent_of_highest"`
	PercentFromMedian *float64  `json:"percent_from_median"`
	Grade             string    `json:"grade"`
	State             string    `json:"state"`
	Reason            string    `json:"reason,omitempty"`
}

// standardResult is the book's usual figure.
type standardResult struct {
	Low       *float64      `json:"low"`
	High      *float64      `json:"high"`
	Unit      quantity.Unit `json:"unit"`
	AsEntered string        `json:"as_entered"`
}

type expectedResult struct {
	Low   *float64 `json:"low"`
	High  *float64 `json:"high"`
	Basis string   `json:"basis"`
}

// kinds are the words for how exact a reading is.
var kinds = map[diag.Kind]string{diag.Exact: "exact", diag.Estimate: "estimate", diag.Band: "band", diag.AtLeast: "at least"}

func compressionOf(c *diag.CompressionResult, basis string) any {
	if c == nil {
		return absent
	}
	// A mean has one digit more than the gauge.
	mean := func(v float64) *float64 { return decimals(v, c.Decimals+1) }
	r := compressionResult{
		section: section{State: string(c.State), Complete: &c.Complete}, Unit: c.Unit,
		Limits: limitsOf(c.Limits, c.Decimals), PublishedRules: []publishedResult{}, Cylinders: []compressionCylinderResult{},
		AltitudeFactor: optional(c.AltitudeFactor, func(v float64) *float64 { return decimals(v, 4) }),
	}
	if c.N > 0 {
		r.Highest, r.Lowest, r.HighestAt, r.LowestAt = number(c.Highest), number(c.Lowest), &c.HighestAt, &c.LowestAt
		r.Mean, r.Median, r.Difference = mean(c.Mean), number(c.Median), number(c.Difference)
		r.SpreadPercentOfHighest, r.LowestPercentOfHighest = percent(c.SpreadPercentOfHighest), percent(c.LowestPercentOfHighest)
		r.LowestPercentBelowMean = percent(c.LowestPercentBelowMean)
	}
	r.PublishedRules = append(r.PublishedRules, publishedOf(c.Published, c.Decimals)...)
	for _, cyl := range c.Cylinders {
		r.Cylinders = append(r.Cylinders, compressionCylinderResult{
			Cylinder: cyl.Name, First: optional(cyl.First, number), Dry: optional(cyl.Dry, number), Entered: cyl.Entered,
			DryReadings: numbers(cyl.DryReadings), Kind: kinds[cyl.Kind], Again: optional(cyl.Again, number),
			Wet: optional(cyl.Wet, number), WetRise: optional(cyl.WetRise, number),
			WetRisePercent: optional(cyl.WetRisePercent, percent), PercentOfHighest: optional(cyl.PercentOfHighest, percent),
			PercentFromMedian: optional(cyl.PercentFromMedian, percent),
			Grade:             string(cyl.Grade), State: string(cyl.State), Reason: cyl.Reason,
		})
	}
	if b := c.Standard; b != nil {
		r.Standard = &standardResult{number(b.Low), number(b.High), b.Unit, b.Entered}
	}
	if e := c.Expected; e != nil {
		r.Expected = &expectedResult{mean(e.Low), mean(e.High), basis}
	}
	return r
}

// inUnit rounds a sum: percentages to one decimal, others to one digit more
// than the gauge has.
func inUnit(v float64, unit quantity.Unit, gauge int) *float64 {
	if unit == quantity.Percent {
		return percent(v)
	}
	return decimals(v, gauge+1)
}

func limitsOf(limits []diag.LimitResult, gauge int) []limitResult {
	out := []limitResult{}
	for _, l := range limits {
		r := limitResult{
			Rule: l.Rule, Limit: number(l.Limit), Unit: l.Unit, Verdict: string(l.Verdict), Reason: l.Reason,
			Cylinder: l.Cylinder, LimitAsEntered: l.AsEntered, Source: l.Source,
		}
		if l.Verdict != diag.NotJudged || l.Value != 0 {
			r.Value, r.Uncertainty = inUnit(l.Value, l.Unit, gauge), inUnit(l.Uncertainty, l.Unit, gauge)
		}
		out = append(out, r)
	}
	return out
}

type leakageResult struct {
	section
	Limit     *float64                `json:"limit"`
	Cylinders []leakageCylinderResult `json:"cylinders"`
}

type leakageCylinderResult struct {
	Cylinder    string   `json:"cylinder"`
	LossPercent *float64 `json:"loss_percent"`
	WetPercent  *float64 `json:"wet_loss_percent"`
	Entered     string   `json:"entered"`
	At          []string `json:"at"`
	Most        string   `json:"most"`
	Verdict     string   `json:"verdict"`
	State       string   `json:"state"`
	Reason      string   `json:"reason,omitempty"`
}

func leakageOf(l *diag.LeakageResult) any {
	if l == nil {
		return absent
	}
	r := leakageResult{section: section{State: string(l.State), Complete: &l.Complete}, Limit: optional(l.Limit, number), Cylinders: []leakageCylinderResult{}}
	for _, c := range l.Cylinders {
		r.Cylinders = append(r.Cylinders, leakageCylinderResult{
			Cylinder: c.Name, LossPercent: optional(c.Loss, percent), WetPercent: optional(c.Wet, percent),
			Entered: c.Entered, At: list(c.Heard(c.At)), Most: c.Heard([]string{c.Most})[0], Verdict: string(c.Verdict), State: string(c.State), Reason: c.Reason,
		})
	}
	return r
}

type plugsResult struct {
	section
	Cylinders []plugResult `json:"cylinders"`
}

type plugResult struct {
	Cylinder   string   `json:"cylinder"`
	Look       string   `json:"look"`
	GapMM      *float64 `json:"gap_mm"`
	GapVerdict string   `json:"gap_verdict"`
	Photo      string   `json:"photo"`
	Note       string   `json:"note"`
	State      string   `json:"state"`
}

func plugsOf(p *diag.PlugsResult) any {
	if p == nil {
		return absent
	}
	r := plugsResult{section{State: string(p.State), Complete: &p.Complete}, []plugResult{}}
	for _, c := range p.Cylinders {
		r.Cylinders = append(r.Cylinders, plugResult{c.Name, c.Look, optional(c.GapMM, number), string(c.Gap), c.Photo, c.Note, string(c.State)})
	}
	return r
}

type rotorsResult struct {
	section
	Unit   quantity.Unit `json:"unit"`
	Faces  []rotorResult `json:"faces"`
	Limits []limitResult `json:"limits"`
}

type rotorResult struct {
	Rotor      string    `json:"rotor"`
	Values     []float64 `json:"values"`
	Entered    []string  `json:"entered"`
	Difference *float64  `json:"difference"`
	Grades     []string  `json:"grades"`
	State      string    `json:"state"`
	Reason     string    `json:"reason,omitempty"`
}

func rotorsOf(r *diag.RotorsResult) any {
	if r == nil {
		return absent
	}
	out := rotorsResult{section{State: string(r.State), Complete: &r.Complete}, r.Unit, []rotorResult{}, limitsOf(r.Limits, r.Decimals)}
	for _, rotor := range r.Rotors {
		one := rotorResult{Rotor: rotor.Name, Values: numbers(rotor.Values), Entered: list(rotor.Entered), Grades: []string{}, State: string(rotor.State), Reason: rotor.Reason}
		if len(rotor.Values) > 0 {
			one.Difference = number(rotor.Difference)
		}
		for _, g := range rotor.Grade {
			one.Grades = append(one.Grades, string(g))
		}
		out.Faces = append(out.Faces, one)
	}
	return out
}

type fuelResult struct {
	section
	Unit                quantity.Unit   `json:"unit"`
	Readings            []fuelReading   `json:"readings"`
	InjectorFlowPercent *float64        `json:"injector_flow_percent"`
	RegulatorRise       *float64        `json:"regulator_rise"`
	Hold                []holdResult    `json:"hold"`
	Circuits            []circuitResult `json:"circuits"`
}

type fuelReading struct {
	Circuit     string   `json:"circuit"`
	Name        string   `json:"name"`
	Value       *float64 `json:"value"`
	Entered     string   `json:"entered"`
	LimitLow    *float64 `json:"limit_low"`
	LimitHigh   *float64 `json:"limit_high"`
	Uncertainty *float64 `json:"uncertainty"`
	Verdict     string   `json:"verdict"`
}

type holdResult struct {
	Minutes  *float64 `json:"minutes"`
	Value    *float64 `json:"value"`
	LimitLow *float64 `json:"limit_low"`
	Verdict  string   `json:"verdict"`
}

type circuitResult struct {
	Name                string       `json:"name"`
	InjectorFlowPercent *float64     `json:"injector_flow_percent"`
	RegulatorRise       *float64     `json:"regulator_rise"`
	Hold                []holdResult `json:"hold"`
}

func fuelOf(f *diag.FuelResult) any {
	if f == nil {
		return absent
	}
	r := fuelResult{section: section{State: string(f.State)}, Unit: f.Unit, Readings: []fuelReading{}, Hold: []holdResult{}, Circuits: []circuitResult{}}
	for _, c := range f.Circuits {
		for _, one := range c.Readings {
			r.Readings = append(r.Readings, fuelReading{
				Circuit: c.Name, Name: one.Name, Value: number(one.Value), Entered: one.Entered,
				LimitLow: optional(one.LimitLow, number), LimitHigh: optional(one.LimitHigh, number),
				Uncertainty: decimals(one.Uncertainty, f.Decimals+1), Verdict: string(one.Verdict),
			})
		}
		circuit := circuitResult{c.Name, optional(c.InjectorFlowPercent, percent), optional(c.RegulatorRise, number), []holdResult{}}
		for _, h := range c.Hold {
			circuit.Hold = append(circuit.Hold, holdResult{number(h.Minutes), number(h.Value), optional(h.LimitLow, number), string(h.Verdict)})
		}
		r.Circuits = append(r.Circuits, circuit)
	}
	if len(r.Circuits) == 1 { // of several, each has its own
		only := r.Circuits[0]
		r.InjectorFlowPercent, r.RegulatorRise, r.Hold = only.InjectorFlowPercent, only.RegulatorRise, only.Hold
	}
	return r
}

// publishedOf are the rules in circulation with what was found, to as many
// decimals as pressures have.
func publishedOf(rules []diag.PublishedRule, decimals int) []publishedResult {
	var list []publishedResult
	for _, p := range rules {
		value := inUnit(p.Value, p.Unit, decimals)
		if p.Verdict == diag.NotJudged {
			value = nil // there is none, which is not 0
		}
		list = append(list, publishedResult{p.Name, p.Source, number(p.Limit), value, p.Unit, string(p.Verdict)})
	}
	return list
}

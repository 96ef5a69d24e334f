package diag

import (
	"math"

	"gaugesheet/diag/quantity"
)

// usualGapTolerance stands where the book gives the gap without one, in mm:
// common practice, no source.
const usualGapTolerance = 0.1

func assessPlugs(t *Test) *PlugsResult {
	section := t.Plugs
	if section == nil {
		return nil
	}
	names := t.cylinders()
	r := &PlugsResult{Complete: len(names) > 0}
	var states []State
	for _, name := range names {
		plug, given := section.ByCylinder[name]
		result := PlugResult{Name: name, Look: plug.Look, GapMM: plug.GapMM, Gap: NotJudged, Note: plug.Note, Photo: plug.Photo}
		state := plug.State
		if given && state == "" && (plug.Look != "" || plug.GapMM != nil) {
			state = Tested
		}
		result.State, result.Reason = stateOr(state, plug.Reason, section.State, section.Reason)
		if plug.GapMM != nil {
			result.Gap, result.GapText = section.gap(*plug.GapMM), gapText(*plug.GapMM)
		}
		if result.State == Tested {
			r.N++
		}
		states = append(states, state)
		r.Cylinders = append(r.Cylinders, result)
	}
	r.Complete = r.Complete && r.N == len(names)
	r.State = sectionState(section.State, states)
	return r
}

// gap judges a gap in mm against the book's, by bare arithmetic.
func (p *Plugs) gap(mm float64) Verdict {
	if p.GapMM <= 0 || !finite(mm) {
		return NotJudged
	}
	tolerance := p.GapTolMM
	if tolerance <= 0 {
		tolerance = usualGapTolerance
	}
	if math.Abs(mm-p.GapMM) > tolerance+tiny {
		return Outside
	}
	return Within
}

// gapText writes a gap with one decimal, or with two where it has them.
func gapText(mm float64) string {
	decimals := 1
	if math.Abs(mm*10-math.Round(mm*10)) > 1e-6 {
		decimals = 2
	}
	return Number{Value: mm, Decimals: decimals, Unit: quantity.Millimetre}.String()
}

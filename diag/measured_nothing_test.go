package diag

import (
	"testing"

	"gaugesheet/diag/quantity"
)

func TestNothingMeasuredKeepsNoLimit(t *testing.T) {
	m := &Measured{Name: "valves", State: Tested, Unit: quantity.Inch,
		Readings: []Measurement{{Name: "exhaust", Cylinder: "1", Unit: quantity.Inch, Reading: Reading{State: Tested, Values: []float64{0.012}, Entered: "0.012"}}},
		Words:    []Word{{Name: "exhaust", Cylinder: "3", Value: NothingMeasured}, {Name: "engine", Value: "cold"}},
		Limits:   []Range{{For: "exhaust", Low: 0.010, High: 0.014, Unit: quantity.Inch, Entered: "0.010-0.014"}}}
	r := m.assess()
	shown := r.WithNothingMeasured(m)
	of := shown.Of("exhaust", "3")
	if of == nil || of.Entered != NothingMeasured || of.Verdict != Outside {
		t.Errorf("of the valve without clearance: %+v, want it outside its limit", of)
	}
	if len(shown.Words) != 1 || shown.Word("engine") != "cold" {
		t.Errorf("words beside the readings: %v, want the engine's alone", shown.Words)
	}
	if r.Of("exhaust", "3") != nil || len(r.Words) != 2 {
		t.Error("the result that the rules read was changed")
	}
	m.Limits = nil
	r = m.assess()
	shown = r.WithNothingMeasured(m)
	if of := shown.Of("exhaust", "3"); of == nil || of.Verdict != NotJudged {
		t.Errorf("without a limit: %+v, want it not judged", of)
	}
}

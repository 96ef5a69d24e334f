package rule

import (
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/rule/sample"
)

// of gives the first finding of a rule, nil where it found nothing.
func of(d *diag.Diagnosis, rule string) *diag.Finding {
	for i := range d.Findings {
		if d.Findings[i].Rule == rule {
			return &d.Findings[i]
		}
	}
	return nil
}

// TestLeakageUrgency holds how soon a leak is to be seen to against the bands
// of common practice (to 10 % good, to 20 % serviceable, to 30 % worn; no
// source) and a limit of the job.
func TestLeakageUrgency(t *testing.T) {
	four := func(loss float64, at string, more ...sample.Change) *diag.Test {
		return sample.Of("inline-4", append([]sample.Change{
			sample.Leak("1", 8), sample.Leak("2", 8), sample.Leak("3", 8), sample.Leak("4", loss, at)}, more...)...)
	}
	cold := sample.Method(func(k *diag.Conditions) { k.Engine = "cold" })
	tests := []struct {
		name, rule string
		test       *diag.Test
		urgency    diag.Urgency
		confidence diag.Confidence
	}{
		{"rings, serviceable", "leaks-to-crankcase", four(15, "crankcase"), diag.NoAction, diag.Fair},
		{"rings, more than 10 points over the others", "leaks-to-crankcase", four(19, "crankcase"), diag.CheckAgain, diag.Fair},
		{"rings, worn", "leaks-to-crankcase", four(26, "crankcase"), diag.CheckAgain, diag.Fair},
		{"rings, act", "leaks-to-crankcase", four(35, "crankcase"), diag.ActSoon, diag.Fair},
		{"valve, over 10 %", "leaks-at-exhaust", four(12, "exhaust"), diag.CheckAgain, diag.Fair},
		{"valve, over 20 %", "leaks-at-exhaust", four(24, "exhaust"), diag.CheckAgain, diag.Fair},
		{"valve, over 30 %", "leaks-at-exhaust", four(34, "exhaust"), diag.ActSoon, diag.Fair},
		{"valve, inside the limit", "leaks-at-exhaust", four(14, "exhaust", sample.LeakLimit(20)), diag.CheckAgain, diag.Fair},
		{"valve, outside the limit", "leaks-at-exhaust", four(29, "exhaust", sample.LeakLimit(20)), diag.ActSoon, diag.Fair},
		{"valve, over the limit by less than the tester tells", "leaks-at-exhaust", four(20.5, "exhaust", sample.LeakLimit(20)), diag.CheckAgain, diag.Weak},
		{"coolant, whatever the loss", "leaks-to-coolant", four(3, "coolant"), diag.ActSoon, diag.Fair},
		{"cold: provisional", "leaks-to-crankcase", four(45, "crankcase", cold), diag.CheckAgain, diag.Weak},
		{"cold, but to the coolant", "leaks-to-coolant", four(45, "coolant", cold), diag.ActSoon, diag.Fair},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			f := of(Diagnose(tt.test), tt.rule)
			if f == nil {
				t.Fatalf("%s did not fire", tt.rule)
			}
			if f.Urgency != tt.urgency || f.Confidence != tt.confidence {
				t.Errorf("%s, %s; want %s, %s", f.Urgency, f.Confidence, tt.urgency, tt.confidence)
			}
		})
	}
}

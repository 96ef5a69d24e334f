package rule

import (
	"slices"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/rule/sample"
)

func TestPlugsNew(t *testing.T) {
	for fitted, want := range map[string]bool{
		"new": true, "today": true, "just fitted": true, "last week": true, "10 days ago": true, "2 weeks ago": true, "31 days": true,
		"3 months ago": false, "8 weeks ago": false, "40 days ago": false, "2019": false, "not new": false, "": false, "unknown": false,
	} {
		c := &Case{Test: sample.Of("inline-4", sample.Looks("sooty", "normal", "normal", "normal"), sample.Fitted(fitted))}
		if got := c.plugsNew(); got != want {
			t.Errorf("fitted %q: new %v, want %v", fitted, got, want)
		}
	}
	c := &Case{Test: sample.Of("inline-4", sample.Looks("sooty"), sample.Done("new plugs"))}
	if !c.plugsNew() {
		t.Error("work done: new plugs: not taken as new")
	}
}

// TestColourIsWeak asks that plug colour alone never makes a finding more than
// weak, and that damage is not a colour.
func TestColourIsWeak(t *testing.T) {
	for look, want := range map[string]diag.Confidence{"sooty": diag.Weak, "white": diag.Weak, "oil-wet": diag.Weak, "fuel-wet": diag.Weak, "coolant": diag.Weak, "melted": diag.Fair, "damaged": diag.Fair} {
		d := Diagnose(sample.Of("inline-4", sample.Looks("normal", look, "normal", "normal")))
		if len(d.Findings) == 0 || d.Findings[0].Confidence != want {
			t.Errorf("%s: %v, want %s", look, d.Findings, want)
		}
	}
	d := Diagnose(sample.Of("inline-4", sample.Looks("normal", "sooty", "normal", "normal"), sample.Fitted("new")))
	if !slices.Contains(keys(d.Findings[0].Doubts), "plugs-new") {
		t.Errorf("new plugs cast no doubt: %v", d.Findings[0].Doubts)
	}
}

func TestPatterns(t *testing.T) {
	s, n := "sooty", "normal"
	tests := []struct {
		layout string
		looks  []string
		want   pattern
	}{
		{"inline-4", []string{s, s, s, s}, onAll},
		{"inline-4", []string{s, s, s, n}, onNeighbours},
		{"inline-4", []string{s, n, n, s}, onEnds},
		{"inline-4", []string{n, n, s, n}, onOne},
		{"inline-4", []string{s, n, s, n}, onSome},
		{"inline-4", []string{n, n, n, n}, onNone},
		{"single", []string{s}, onAll},
		{"V8", []string{s, n, s, n, s, n, s, n}, onBank}, // numbered across the banks
		{"V8", []string{s, n, s, n, n, n, n, n}, onNeighbours},
		{"V8", []string{s, s, n, n, n, n, n, n}, onSome}, // opposite each other, no neighbours
		{"V8", []string{s, "", s, "", s, "", s, ""}, onAll},
	}
	for _, tt := range tests {
		test := sample.Of(tt.layout, sample.Looks(tt.looks...))
		c := &Case{Test: test, Sums: diag.Assess(test)}
		if got := c.patternOf(c.looking("sooty")); got != tt.want {
			t.Errorf("%s %v: %q, want %q", tt.layout, tt.looks, got, tt.want)
		}
	}
}

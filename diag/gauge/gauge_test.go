package gauge

import (
	"errors"
	"math"
	"testing"
)

func near(got, want, tolerance float64) bool { return math.Abs(got-want) <= tolerance }

func accuracy(t *testing.T, text string) Accuracy {
	t.Helper()
	a, err := ParseAccuracy(text)
	if err != nil {
		t.Fatalf("ParseAccuracy(%q): %v", text, err)
	}
	return a
}

func TestHalfWidth(t *testing.T) {
	tests := []struct {
		source, accuracy         string
		low, high, reading, want float64
	}{
		// US Army subcourse SM0486, p. 55: 2 percent in the middle half, 3 elsewhere.
		{"SM0486 p. 55", "grade B", 0, 300, 150, 6},
		{"SM0486 p. 55", "grade B", 0, 300, 75, 6},
		{"SM0486 p. 55", "grade B", 0, 300, 225, 6},
		{"SM0486 p. 55", "grade B", 0, 300, 74, 9},
		{"SM0486 p. 55", "GRADE b", 0, 300, 226, 9},
		{"SM0486 p. 55, over the end of the scale", "grade B", 0, 300, 320, 9},
		{"ASME B40.100 grade A, common practice", "grade A", 0, 100, 50, 1},
		{"ASME B40.100 grade A, common practice", "grade A", 0, 100, 80, 2},
		{"ASME B40.100 grade 3A, from memory", "grade 3A", 0, 100, 10, 0.25},
		// EN 837-1: percent of span over the whole scale (from memory); a trade
		// page works out 0.16 bar for class 1.6 on 0-10 bar, and 1 bar for
		// class 1.0 on 0-100 bar.
		{"EN 837-1 class 1.6", "class 1.6", 0, 10, 1, 0.16},
		{"EN 837-1 class 1.6", "Class 1.6", 0, 10, 9.9, 0.16},
		{"EN 837-1 class 1.0", "class 1.0", 0, 100, 10, 1},
		{"span that does not begin at 0", "2 % of span", 100, 300, 110, 4},
		{"plain percent of span", "2% of span", 0, 300, 20, 6},
		{"plain percent of reading", "1.5 % of reading", 0, 300, 120, 1.8},
		{"of reading needs no range", "1.5 % of reading", 0, 0, 120, 1.8},
		{"of span without a range: as not recorded", "2 % of span", 0, 0, 120, 3.6},
	}
	for _, tt := range tests {
		g := Gauge{Accuracy: accuracy(t, tt.accuracy), Low: tt.low, High: tt.high}
		if got := g.HalfWidth(tt.reading); !near(got, tt.want, 1e-12) {
			t.Errorf("%s: %s on %v-%v at %v: %v, want %v", tt.source, tt.accuracy, tt.low, tt.high, tt.reading, got, tt.want)
		}
	}
	if got := (Gauge{High: 300}).HalfWidth(120); !near(got, 3.6, 1e-12) {
		t.Errorf("not recorded: %v, want 3 percent of 120", got)
	}
}

func TestAccuracyNeedsRange(t *testing.T) {
	for text, want := range map[string]bool{"grade B": true, "class 1": true, "2 % of span": true, "2 % of reading": false} {
		a := accuracy(t, text)
		if a.NeedsRange() != want || !a.Known() {
			t.Errorf("%s: needs range %v, known %v", text, a.NeedsRange(), a.Known())
		}
	}
	if (Accuracy{}).Known() {
		t.Error("the zero accuracy is known")
	}
}

func TestParseAccuracyRefuses(t *testing.T) {
	for text, hint := range map[string]string{
		"":                  "",
		"good":              "",
		"grade E":           "",
		"class 2":           "",
		"class 1.6 %":       "",
		"0 % of span":       "",
		"30 % of span":      "",
		"-2 % of reading":   "",
		"2 of span":         "",
		"1,500 % of span":   "",
		"nan % of reading":  "",
		"2 %":               "write 2 % of span (of the whole scale) or 2 % of reading",
		"2 % of full scale": "write 2 % of span (of the whole scale) or 2 % of reading",
	} {
		got, err := ParseAccuracy(text)
		var accuracy *AccuracyError
		if !errors.As(err, &accuracy) || accuracy.Expected == "" || accuracy.Hint != hint {
			t.Errorf("ParseAccuracy(%q) = %v, %#v", text, got, err)
		}
		if got.Known() {
			t.Errorf("ParseAccuracy(%q) failed and gave %v", text, got)
		}
	}
}

func TestStandard(t *testing.T) {
	// Grade B on 0-300 psi, middle half: 6/sqrt 3 = 3.464 (rectangular
	// distribution, JCGM 100:2008, 4.3.7).
	g := Gauge{Accuracy: accuracy(t, "grade B"), High: 300}
	if got := g.Standard(105); !near(got, 3.464, 5e-4) {
		t.Errorf("got %v, want 3.464", got)
	}
	g.Offset = -1 // 120 at 121: sqrt(12 + 1)
	if got := g.Standard(120); !near(got, math.Sqrt(13), 1e-12) {
		t.Errorf("with an offset of 1: %v, want sqrt 13", got)
	}
}

func TestRepeatability(t *testing.T) {
	for _, tt := range []struct{ division, pooled, want float64 }{
		{5, 0, 1.4434}, // 5/sqrt 12, JCGM 100:2008, F.2.2.1
		{5, 2, 2},
		{0, 0.4, 0.4},
		{0, 0, DefaultCompression},
	} {
		if got := Repeatability(tt.division, tt.pooled, DefaultCompression); !near(got, tt.want, 1e-4) {
			t.Errorf("%+v: got %v", tt, got)
		}
	}
}

func TestPooledDeviation(t *testing.T) {
	for _, tt := range []struct {
		groups [][]float64
		want   float64
	}{
		{nil, 0},
		{[][]float64{{158}, {160}}, 0},
		{[][]float64{{158, 160}}, math.Sqrt2},
		{[][]float64{{158, 160}, {62}, {100, 100, 103}}, math.Sqrt(8.0 / 3)}, // (2 + 6) / (1 + 2)
	} {
		if got := PooledDeviation(tt.groups); !near(got, tt.want, 1e-12) {
			t.Errorf("%v: got %v, want %v", tt.groups, got, tt.want)
		}
	}
}

// Sums of independent uncertainties, worked out by hand from JCGM 100:2008, 5.1.2.
func TestExpanded(t *testing.T) {
	if got := Expanded(1.5); got != 3 {
		t.Errorf("one reading: %v, want 3", got)
	}
	if got := Expanded(1.5, 1.5); !near(got, 2*math.Sqrt2*1.5, 1e-12) {
		t.Errorf("difference: %v, want 2 sqrt 2 u", got)
	}
	if got := Expanded(3, 4); got != 10 {
		t.Errorf("against a book figure: %v, want 10", got)
	}
	if got := ExpandedAgainstEarlier(3, 4, 5, 6, true); got != 10 {
		t.Errorf("earlier, same gauge: %v, want 10", got)
	}
	if got := ExpandedAgainstEarlier(1, 1, 1, 1, false); got != 4 {
		t.Errorf("earlier, another gauge: %v, want 4", got)
	}
}

func TestJudge(t *testing.T) {
	tenth, fifth := 0.1, 0.2 // added at run time they make 0.30000000000000004
	tests := []struct {
		source          string
		value, limit, u float64
		side            Side
		want            Verdict
	}{
		// ILAC-G8:09/2019, 4.1, as worked in a trade article: tolerance 0.003
		// mm, U 0.0010 mm, so acceptance is 0.002 mm.
		{"ILAC-G8, accepted", 0.0017, 0.003, 0.0010, AtMost, Within},
		{"ILAC-G8, not accepted", 0.0025, 0.003, 0.0010, AtMost, TooClose},
		{"ILAC-G8, edge", 0.002, 0.003, 0.0010, AtMost, Within},
		{"ILAC-G8, edge, lower side", -0.002, -0.003, 0.0010, AtLeast, Within},
		// Second worked case: T 4.00, U 1.600, acceptance at 2.40 with w = U.
		{"ILAC-G8, T 4.00 U 1.600", 2.40, 4.00, 1.600, AtMost, Within},
		{"ILAC-G8, T 4.00 U 1.600", 2.41, 4.00, 1.600, AtMost, TooClose},
		{"ILAC-G8, T 4.00 U 1.600", 5.61, 4.00, 1.600, AtMost, Outside},
		// Grade B on 0-300 psi against 105 psi: U 6.928, worked out by hand.
		{"grade B, 105 psi", 111.93, 105, 6.928, AtLeast, Within},
		{"grade B, 105 psi", 111.92, 105, 6.928, AtLeast, TooClose},
		{"grade B, 105 psi", 98.08, 105, 6.928, AtLeast, TooClose},
		{"grade B, 105 psi", 98.07, 105, 6.928, AtLeast, Outside},
		// FAA AC 43.13-1B, 8-14: a loss "in excess of" 25 percent, so 60/80 is not.
		{"the limit itself", 25, 25, 0, AtMost, Within},
		{"the limit itself, lower side", 128, 128, 0, AtLeast, Within},
		{"just over", 26.25, 25, 0, AtMost, Outside},
		{"just under", 127.9, 128, 0, AtLeast, Outside},
		{"equal but for round-off", tenth + fifth, 0.3, 0, AtMost, Within},
		{"a limit of 0", 0, 0, 0, AtLeast, Within},
		{"not a number", math.NaN(), 1, 0, AtLeast, NotJudged},
		{"infinite limit", 1, math.Inf(1), 0, AtMost, NotJudged},
		{"negative uncertainty", 1, 1, -1, AtMost, NotJudged},
		{"unknown uncertainty", 1, 1, math.NaN(), AtMost, NotJudged},
	}
	for _, tt := range tests {
		if got := Judge(tt.value, tt.limit, tt.u, tt.side); got != tt.want {
			t.Errorf("%s: %v against %v with U %v: %s, want %s", tt.source, tt.value, tt.limit, tt.u, got, tt.want)
		}
	}
}

package known

import "testing"

func TestSpeaksOfHearsDenials(t *testing.T) {
	tests := []struct {
		text  string
		words []string
		want  bool
	}{
		{"scored bore at the front", ScoredWords, true},
		{"no scoring", ScoredWords, false},
		{"wall not scored", ScoredWords, false},
		{"without any scoring", ScoredWords, false},
		{"no visible signs of scoring", ScoredWords, false},
		{"scoring: none", ScoredWords, false},
		{"no scoring, exhaust valve burnt", BurntValve, true},
		{"no scoring but a burnt valve", BurntValve, true},
		{"exhaust valve edge burnt", BurntValve, true},
		{"burnt edge on the exhaust valve", BurntValve, true},
		{"seat of the inlet chipped", BurntValve, true},
		{"valves good, oil burns", BurntValve, false},
		{"no burnt valve", BurntValve, false},
		{"crack between the seats", BurntValve, false},
		{"not clean, scored all the way down", ScoredWords, true},
		{"no 3 scored", ScoredWords, true},
		{"no compression because of a holed piston", HoledWords, true},
		{"plug hole in the head is stripped", HoledWords, false},
		{"hole in the piston", HoledWords, true},
		{"crown holed", HoledWords, true},
		{"no hole in the piston", HoledWords, false},
		{"free of carbon on the crown", CarbonWords, false},
		{"", ScoredWords, false},
	}
	for _, tt := range tests {
		if got := SpeaksOf(tt.text, tt.words...); got != tt.want {
			t.Errorf("%q speaks of %v: %v, want %v", tt.text, tt.words, got, tt.want)
		}
	}
}

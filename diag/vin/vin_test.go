package vin

import (
	"errors"
	"strings"
	"testing"
)

func TestCheck(t *testing.T) {
	tests := []struct {
		source   string
		vin      string
		expected string
		matches  bool
	}{
		{"49 CFR 565.15, table V, sample", "1G4AH59H45G118341", "4", true},
		{"NHTSA outline for new manufacturers, p. 18", "1J9RP1A36A1644345", "6", true},
		{"common practice, no source: remainder 10 is X", "1M8GDM9AXKP042788", "X", true},
		{"from memory: seventeen ones", "11111111111111111", "1", true},
		{"CFR sample in lower case", "1g4ah59h45g118341", "4", true},
		{"CFR sample, last digit misread", "1G4AH59H45G118347", "5", false},
		{"CFR sample, letter in the ninth place", "1G4AH59HA5G118341", "4", false},
	}
	for _, tt := range tests {
		got, err := Check(tt.vin)
		if err != nil {
			t.Errorf("%s: %v", tt.source, err)
			continue
		}
		if !got.Applies || got.Expected != tt.expected || got.Matches() != tt.matches || got.Found != strings.ToUpper(tt.vin[8:9]) {
			t.Errorf("%s: %+v, matches %v; want %s, %v", tt.source, got, got.Matches(), tt.expected, tt.matches)
		}
	}
}

func TestCheckDoesNotApply(t *testing.T) {
	for _, vin := range []string{"", "1234567", "ZZZZZZ1JZXW000001", "OOOOOOOOOOOOOOOOO", "1G4AH59H45G1183411"} {
		got, err := Check(vin)
		if err != nil || got.Applies || got.Reason == "" || got.Matches() {
			t.Errorf("Check(%q) = %+v, %v; want not applicable, with a reason", vin, got, err)
		}
	}
}

func TestIllegalCharacters(t *testing.T) {
	for vin, want := range map[string]CharacterError{
		"1G4AH59H45G11834I": {'I', 17},
		"1O4AH59H45G118341": {'O', 2},
		"1G4QH59H45G118341": {'Q', 4},
		"1G4-H59H45G118341": {'-', 4},
	} {
		_, err := Check(vin)
		var got *CharacterError
		if !errors.As(err, &got) || *got != want {
			t.Errorf("Check(%q): %v; want %v", vin, err, &want)
		}
	}
}

func TestCheckDigitCompletes(t *testing.T) {
	digit, err := CheckDigit("1G4AH59H05G118341")
	if err != nil || digit != "4" {
		t.Errorf("got %q, %v; want the 4 of 49 CFR 565.15, table V", digit, err)
	}
	if _, err := CheckDigit("1G4AH59H"); err == nil {
		t.Error("eight characters gave no error")
	}
}

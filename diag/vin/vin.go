// Package vin works out the check digit of a vehicle identification number by
// 49 CFR 565.15(c), and knows nothing of vehicles.
package vin

import (
	"fmt"
	"strings"
)

// Length is the number of characters of a VIN since model year 1981 (49 CFR 565.13).
const Length = 17

// checkPosition is the index of the check digit, the ninth character.
const checkPosition = 8

// The values of 49 CFR 565.15, table III, and the weights of table IV.
var (
	values = map[rune]int{
		'0': 0, '1': 1, '2': 2, '3': 3, '4': 4, '5': 5, '6': 6, '7': 7, '8': 8, '9': 9,
		'A': 1, 'B': 2, 'C': 3, 'D': 4, 'E': 5, 'F': 6, 'G': 7, 'H': 8,
		'J': 1, 'K': 2, 'L': 3, 'M': 4, 'N': 5, 'P': 7, 'R': 9,
		'S': 2, 'T': 3, 'U': 4, 'V': 5, 'W': 6, 'X': 7, 'Y': 8, 'Z': 9,
	}
	weights = [Length]int{8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2}
)

// Result is the outcome of a check.
type Result struct {
	// Applies is false where the rule does not bind; Reason then says why.
	Applies bool
	Reason  string
	// Found is the ninth character, Expected the check digit ('0' to '9' or 'X').
	Found, Expected string
}

// Matches reports whether the check digit is the right one. Of numbers with
// one wrong character taken at random about one in eleven matches all the same.
func (r Result) Matches() bool { return r.Applies && r.Found == r.Expected }

// CharacterError reports a character that no VIN contains.
type CharacterError struct {
	Found    rune
	Position int // counted from 1
}

func (e *CharacterError) Error() string {
	return fmt.Sprintf("character %d is %q, expected 0-9 or A-Z without I, O and Q", e.Position, e.Found)
}

// Check compares the check digit. It applies only to numbers of 17 characters
// that begin with 1 to 5, the codes of North America; makers elsewhere may put
// anything in the ninth place, and numbers before model year 1981 are shorter.
// Lower case counts as upper case. The error is a *CharacterError, for the
// first character that a VIN cannot contain.
func Check(vin string) (Result, error) {
	characters := []rune(strings.ToUpper(strings.TrimSpace(vin)))
	if len(characters) != Length {
		return Result{Reason: fmt.Sprintf("%d characters, the check digit is defined for %d", len(characters), Length)}, nil
	}
	if characters[0] < '1' || characters[0] > '5' {
		return Result{Reason: fmt.Sprintf("begins with %q, the check digit is required where it begins with 1 to 5", characters[0])}, nil
	}
	digit, err := checkDigit(characters)
	if err != nil {
		return Result{}, err
	}
	return Result{Applies: true, Found: string(characters[checkPosition]), Expected: digit}, nil
}

// CheckDigit works out the check digit, '0' to '9' or 'X', of a number of 17
// characters; what stands in the ninth place does not matter as long as a VIN
// may contain it.
func CheckDigit(vin string) (string, error) {
	characters := []rune(strings.ToUpper(strings.TrimSpace(vin)))
	if len(characters) != Length {
		return "", fmt.Errorf("found %d characters, expected %d", len(characters), Length)
	}
	return checkDigit(characters)
}

// checkDigit takes the weighted sum modulo 11, in whole numbers: the decimal
// remainders that are also in use are rounded, and misprinted in places.
func checkDigit(characters []rune) (string, error) {
	sum := 0
	for i, c := range characters {
		value, ok := values[c]
		if !ok {
			return "", &CharacterError{Found: c, Position: i + 1}
		}
		sum += weights[i] * value
	}
	return "0123456789X"[sum%11 : sum%11+1], nil
}

package quantity

import (
	"fmt"
	"strconv"
	"strings"
)

// Value is a number with its unit; the Unit is None for a bare number.
type Value struct {
	Number float64
	Unit   Unit
}

// In gives the value's number in unit. A bare number is taken to be in unit
// already, as a job file's section does with its own unit.
func (v Value) In(unit Unit) (float64, error) {
	if v.Unit == None {
		return Convert(v.Number, unit, unit)
	}
	return Convert(v.Number, v.Unit, unit)
}

// ParseError reports text that is not one number with at most one unit.
type ParseError struct {
	Found    string // the offending text
	Expected string // what should have stood there
	Hint     string // what may have been meant, may be empty
	At       int    // the character at which it stands, counted from 0
}

const (
	numberExpected = "a number such as 120, 11.2, 1 100 or 5 1/2"
	unitExpected   = "a unit such as psi, kPa, bar, mm, ml, C, rpm or %"
)

// Parse reads one number and at most one unit: '120', '11.2 bar', '1 100 kPa'
// (a space, also a narrow or no-break one, between thousands), '5 1/2 bar',
// '-10 C'. The errors are of type *ParseError. A comma is a decimal one where it
// can be nothing else; '1,100' is an error that offers both readings. So are NaN,
// infinities and units that do not say what they measure, such as 'lb'.
func Parse(text string) (Value, error) { return ParseAs(text, Dimensionless) }

// ParseAs is Parse where a dimension is expected, as in ScanAs.
func ParseAs(text string, expected Dimension) (Value, error) {
	p, err := ScanAs(text, expected)
	if err != nil {
		return Value{}, err
	}
	part, ok := p.Single()
	if !ok {
		return Value{}, p.notOne(text)
	}
	if part.Bound != Exact {
		return Value{}, &ParseError{Found: text, Expected: numberExpected}
	}
	return part.Value, nil
}

// notOne says that a phrase of several numbers is not one.
func (p Phrase) notOne(text string) *ParseError {
	err := &ParseError{Found: text, Expected: numberExpected, At: p.Parts[1].At}
	if p.Joins[0] == Slash {
		err.Expected = "one number; a fraction is one such as 1/2, 3/4 or 5 1/2"
		if len(p.Parts) == 2 && p.Parts[0].Value.Unit == None {
			err.Hint = fmt.Sprintf("%s and %s may be two readings: write one of them", p.Parts[0].Text, p.Parts[1].Text)
		}
	}
	return err
}

// separatorHint offers what figures with commas and points may have been meant
// to be: one sign between thousands, the other before decimals.
func separatorHint(digits, spelled string) string {
	with := func(number string) string { return strings.TrimSpace(number + " " + spelled) }
	commas, points := strings.Count(digits, ","), strings.Count(digits, ".")
	switch {
	case commas == 1 && points == 0: // 1,100
		decimal, _ := strconv.ParseFloat(strings.Replace(digits, ",", ".", 1), 64)
		return fmt.Sprintf("write %s or %s", with(strings.Replace(digits, ",", "", 1)), with(strconv.FormatFloat(decimal, 'f', -1, 64)))
	case inThousands(digits, ",", "."):
		return "write " + with(strings.ReplaceAll(digits, ",", ""))
	case inThousands(digits, ".", ","):
		return "write " + with(strings.Replace(strings.ReplaceAll(digits, ".", ""), ",", ".", 1))
	}
	return ""
}

// inThousands reports figures in groups of three with one sign between them and
// perhaps another before decimals.
func inThousands(digits, between, point string) bool {
	whole, _, _ := strings.Cut(digits, point)
	groups := strings.Split(whole, between)
	for i, g := range groups {
		if len(g) != 3 && (i > 0 || len(g) > 3 || g == "") {
			return false
		}
	}
	return len(groups) > 1
}

// unitHint offers a unit for the spellings that are common at the bench and
// yet do not name one.
func unitHint(folded, number string) string {
	switch folded {
	case "lb", "lbs", "#", "pound", "pounds", "lbf", "ps", "p":
		return fmt.Sprintf("if it is pounds per square inch, write %s psi", number)
	case "b", "ba", "barr", "br":
		return fmt.Sprintf("if it is bar, write %s bar", number)
	case "psia":
		return "psia is absolute pressure; a gauge reading is in psi"
	case "kg", "kgs", "kgf", "kilo", "kilos":
		return fmt.Sprintf("if it is kilograms-force per square centimetre, write %s kgf/cm2", number)
	case "at", "atm", "ata":
		return "write it in bar: 1 atm is 1.013 bar, 1 at is 0.981 bar"
	}
	return ""
}

func (e *ParseError) Error() string {
	return fmt.Sprintf("found %q, expected %s", e.Found, e.Expected)
}

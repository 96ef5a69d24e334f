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
}

func (e *ParseError) Error() string {
	return fmt.Sprintf("found %q, expected %s", e.Found, e.Expected)
}

const (
	numberExpected = "a number such as 120, 11.2, 1 100 or 5 1/2"
	unitExpected   = "a unit such as psi, kPa, bar, mm, ml, C, rpm or %"
)

// Spellings of spaces, signs and fractions that word processors and phones put in.
var plainer = strings.NewReplacer(
	"\u00a0", " ", "\u202f", " ", "\u2009", " ", "\t", " ", "\u2212", "-", "\u2044", "/",
	"½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8")

var (
	leadingNumber  = lazily(`^([+-]?)([0-9.,](?:[0-9., ]*[0-9.,])?(?:/[0-9]+)?) ?(.*)$`)
	plainNumber    = lazily(`^(?:[0-9]+(?:\.[0-9]+)?|\.[0-9]+)$`)
	groupedNumber  = lazily(`^[0-9]{1,3}(?: [0-9]{3})+(?:\.[0-9]+)?$`)
	fractionNumber = lazily(`^(?:([0-9]+) )?([0-9]+)/([0-9]+)$`)

	commaAmbiguous = lazily(`^[1-9][0-9]{0,2},[0-9]{3}$`)
	commaDecimal   = lazily(`^[0-9]+,[0-9]+$`)
	commaThousands = lazily(`^[0-9]{1,3}(?:,[0-9]{3})+(?:\.[0-9]+)?$`)
	pointThousands = lazily(`^[0-9]{1,3}(?:\.[0-9]{3})+(?:,[0-9]+)?$`)
)

// Parse reads one number and at most one unit: '120', '11.2 bar', '1 100 kPa'
// (a space, also a narrow or no-break one, between thousands), '5 1/2 bar',
// '-10 C'. The errors are of type *ParseError. A comma is always one of them,
// since it stands for the decimal point in one country and between the
// thousands in the next; the hint offers the readings. So are NaN, infinities
// and units that do not say what they measure, such as 'lb'.
func Parse(text string) (Value, error) {
	clean := strings.Join(strings.Fields(plainer.Replace(text)), " ")
	if number, ok := strings.CutSuffix(clean, " 1/m"); ok { // whose 1 is no part of the number
		clean = number + " " + string(PerMetre)
	}
	m := leadingNumber().FindStringSubmatch(clean)
	if m == nil {
		return Value{}, &ParseError{Found: text, Expected: numberExpected, Hint: poundHint(clean)}
	}
	sign, digits, spelled := m[1], m[2], m[3]

	number, err := parseNumber(digits, spelled)
	if err != nil {
		return Value{}, err
	}
	if sign == "-" {
		number = -number
	}
	unit, err := parseUnit(spelled, sign+digits)
	if err != nil {
		return Value{}, err
	}
	return Value{Number: number, Unit: unit}, nil
}

func parseNumber(digits, spelled string) (float64, error) {
	switch {
	case plainNumber().MatchString(digits), groupedNumber().MatchString(digits):
		v, err := strconv.ParseFloat(strings.ReplaceAll(digits, " ", ""), 64)
		if err != nil || !finite(v) {
			return 0, &ParseError{Found: digits, Expected: "a smaller number"}
		}
		return v, nil
	case fractionNumber().MatchString(digits):
		return parseFraction(digits)
	}
	return 0, &ParseError{Found: digits, Expected: numberExpected, Hint: separatorHint(digits, spelled)}
}

// parseFraction takes only what a rule or a dial is divided into, so that
// '145/148' (two readings) or '72/80' (held of supplied) is not turned into a
// number below one.
func parseFraction(digits string) (float64, error) {
	m := fractionNumber().FindStringSubmatch(digits)
	whole, _ := strconv.ParseFloat("0"+m[1], 64)
	numerator, _ := strconv.ParseFloat(m[2], 64)
	denominator, _ := strconv.ParseFloat(m[3], 64)
	switch denominator {
	case 2, 3, 4, 5, 8, 10, 16, 32, 64:
		if numerator > 0 && numerator < denominator && finite(whole) {
			return whole + numerator/denominator, nil
		}
	}
	err := &ParseError{Found: digits, Expected: "one number; a fraction is one such as 1/2, 3/4 or 5 1/2"}
	if m[1] == "" {
		err.Hint = fmt.Sprintf("%s and %s may be two readings: write one of them", m[2], m[3])
	}
	return 0, err
}

func separatorHint(digits, spelled string) string {
	with := func(number string) string { return strings.TrimSpace(number + " " + spelled) }
	switch {
	case commaAmbiguous().MatchString(digits):
		decimal, _ := strconv.ParseFloat(strings.Replace(digits, ",", ".", 1), 64)
		return fmt.Sprintf("write %s or %s",
			with(strings.Replace(digits, ",", "", 1)), with(strconv.FormatFloat(decimal, 'f', -1, 64)))
	case commaDecimal().MatchString(digits):
		return "write " + with(strings.Replace(digits, ",", ".", 1))
	case commaThousands().MatchString(digits):
		return "write " + with(strings.ReplaceAll(digits, ",", ""))
	case pointThousands().MatchString(digits):
		return "write " + with(strings.Replace(strings.ReplaceAll(digits, ".", ""), ",", ".", 1))
	}
	return ""
}

func parseUnit(spelled, number string) (Unit, error) {
	if spelled == "" {
		return None, nil
	}
	folded := foldSpelling(spelled)
	if u, ok := bySpelling[folded]; ok {
		return u, nil
	}
	return None, &ParseError{Found: spelled, Expected: unitExpected, Hint: unitHint(folded, number)}
}

// unitHint offers a unit for the spellings that are common at the bench and
// yet do not name one.
func unitHint(folded, number string) string {
	switch folded {
	case "lb", "lbs", "#", "pound", "pounds", "lbf", "ps", "p":
		return fmt.Sprintf("if it is pounds per square inch, write %s psi", number)
	case "psia":
		return "psia is absolute pressure; a gauge reading is in psi"
	case "kg", "kgs", "kgf", "kilo", "kilos":
		return fmt.Sprintf("if it is kilograms-force per square centimetre, write %s kgf/cm2", number)
	case "at", "atm", "ata":
		return "write it in bar: 1 atm is 1.013 bar, 1 at is 0.981 bar"
	}
	return ""
}

var poundSign = lazily(`^# ?([0-9]+(?:\.[0-9]+)?)(?: ?lbs?)?$`)

func poundHint(clean string) string {
	if m := poundSign().FindStringSubmatch(clean); m != nil {
		return unitHint("#", m[1])
	}
	return ""
}

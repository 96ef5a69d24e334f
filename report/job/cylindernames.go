package job

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"gaugesheet/diag/engine"
)

// cylinderWord takes the words and signs off that people write before the number
// of a cylinder: cyl 1, #1, no. 1.
func cylinderWord(name string) string {
	plain := fold(name)
	for _, before := range []string{"cylinder", "cyl.", "cyl", "number", "no.", "nr.", "no", "rotor", "pot", "#", "c"} {
		rest, ok := strings.CutPrefix(plain, before)
		rest = strings.TrimLeft(rest, " .#-_")
		if ok && startsWithFigure(rest) {
			plain = rest
			break
		}
	}
	if startsWithFigure(plain) && strings.Trim(plain, "0123456789") == "" {
		if short := strings.TrimLeft(plain, "0"); short != "" {
			return short
		}
	}
	return name
}

// cylinderMeant gives the cylinder that other words name: 'cyl 1', 'L2', 'rest'.
// Where they could name two it gives the words themselves.
func (r *reader) cylinderMeant(name string) string {
	if r.cylinderNames == nil || slices.Contains(r.cylinderNames, name) {
		return name
	}
	for _, known := range r.cylinderNames {
		if fold(known) == fold(name) {
			return known
		}
	}
	if known := cylinderWord(name); slices.Contains(r.cylinderNames, known) {
		return known
	}
	if word, _ := vocabularyOf("all others").find(name, []string{others}); word != "" {
		return word
	}
	if known, sure := r.atPlace(name); sure {
		return known
	}
	return name
}

// atPlace gives the cylinder at a place of a bank, 'L2' or 'left 2', counted from
// the front. It is not sure where that bank has a cylinder of that number besides.
func (r *reader) atPlace(name string) (cylinder string, sure bool) {
	bank, number, ok := r.bankPlace(name)
	if !ok {
		return "", false
	}
	cylinder = bank.Cylinders[number-1]
	also := strconv.Itoa(number)
	return cylinder, cylinder == also || !slices.Contains(bank.Cylinders, also)
}

// bankPlace takes 'left 2' apart.
func (r *reader) bankPlace(name string) (bank engine.Bank, place int, ok bool) {
	m := bankPlaceForm().FindStringSubmatch(fold(name))
	if m == nil || len(r.bankList) < 2 {
		return bank, 0, false
	}
	place, _ = strconv.Atoi(m[2])
	for _, b := range r.bankList {
		if strings.HasPrefix(fold(b.Name), m[1][:1]) && (len(m[1]) == 1 || fold(b.Name) == m[1]) && place >= 1 && place <= len(b.Cylinders) {
			return b, place, true
		}
	}
	return bank, place, false
}

var bankPlaceForm = lazily(`^(left|right|front|rear|l|r)[ .-]?([0-9]{1,2})$`)

// placeHint translates a cylinder that is named by its place on a bank.
func (r *reader) placeHint(name string) string {
	m := bankPlaceForm().FindStringSubmatch(fold(name))
	if m == nil || len(r.bankList) < 2 {
		return ""
	}
	if bank, place, ok := r.bankPlace(name); ok {
		return fmt.Sprintf("%s is cylinder %s counted from the front, and cylinder %d stands on that bank too: write the one you mean", short(name), bank.Cylinders[place-1], place)
	}
	var banks []string
	for _, b := range r.bankList {
		banks = append(banks, fmt.Sprintf("%s (%s)", b.Name, strings.Join(b.Cylinders, ", ")))
	}
	return "the banks are " + allOf(banks)
}

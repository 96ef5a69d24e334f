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
	plain, counts := strings.TrimLeft(fold(name), "*–—( "), vocabularyOf("number of cylinders")
	for _, before := range []string{"cylinder", "cyl.", "cyl", "number", "no.", "nr.", "no", "rotor", "pot", "hole", "zylinder", "zyl.", "zyl", "cilindro", "cil.", "cylindre", "№", "n°", "nº", "#", "c"} {
		rest, ok := strings.CutPrefix(plain, before)
		rest = strings.TrimLeft(rest, " .#-_")
		if ok && startsWithFigure(rest) {
			plain = rest
			break
		}
	}
	if known, _ := counts.find(plain, counts.Words); known != "" { // one
		return known
	}
	for _, end := range []string{"st", "nd", "rd", "th"} {
		if before, ok := strings.CutSuffix(plain, end); ok && isWhole(before) {
			plain = before
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
	m := bankPlaceForm().FindStringSubmatch(sideFirst(name))
	if m == nil || len(r.bankList) < 2 {
		return bank, 0, false
	}
	place, _ = strconv.Atoi(m[2])
	side := strings.TrimSuffix(m[1], "h") // lh
	for _, b := range r.bankList {
		if strings.HasPrefix(fold(b.Name), side[:1]) && (len(side) == 1 || fold(b.Name) == m[1]) && place >= 1 && place <= len(b.Cylinders) {
			return b, place, true
		}
	}
	return bank, place, false
}

// sideFirst writes a cylinder of a bank with its side before its number: 1L, '2
// right'.
func sideFirst(name string) string {
	name = fold(name)
	number := leadingNumber(name)
	side := strings.TrimLeft(name[len(number):], " -")
	if number != "" && slices.Contains([]string{"l", "r", "lh", "rh", "left", "right"}, side) {
		return side + number
	}
	return name
}

var bankPlaceForm = lazily(`^(left|right|front|rear|lh|rh|l|r)(?:[ .-]?(?:bank|side|hand|no|cyl|cylinder))*[ .-]?([0-9]{1,2})$`)

// placeHint translates a cylinder that is named by its place on a bank.
func (r *reader) placeHint(name string) string {
	m := bankPlaceForm().FindStringSubmatch(sideFirst(name))
	if len(r.bankList) < 2 || m == nil && !sideNamed(name) {
		return ""
	}
	if bank, place, ok := r.bankPlace(name); ok {
		return fmt.Sprintf("%s is cylinder %s counted from the front, and cylinder %d stands on that bank too: write the one you mean", short(name), bank.Cylinders[place-1], place)
	}
	var banks []string
	for _, b := range r.bankList {
		banks = append(banks, fmt.Sprintf("%s (%s)", b.Name, strings.Join(b.Cylinders, ", ")))
	}
	if m == nil {
		return "write the number; front to rear the banks are " + allOf(banks)
	}
	return "the banks are " + allOf(banks)
}

// sideNamed reports a cylinder that is named by a side and an end: left rear, LF, driver rear.
func sideNamed(name string) bool {
	first, end, more := strings.Cut(strings.ReplaceAll(fold(name), "-", " "), " ")
	return slices.Contains(strings.Fields("lf lr rf rr fl fr rl"), fold(name)) || more && slices.Contains(strings.Fields("left right front rear lh rh nearside offside"), first) ||
		slices.Contains(strings.Fields("driver drivers driver's passenger passengers passenger's"), first) && slices.Contains([]string{"front", "rear", "back"}, end)
}

// asPlaces reports that all of some names are places on banks, 'L1' to 'R4', and
// that one of them at least can be nothing else, being no number of that bank.
func (r *reader) asPlaces(names []string) bool {
	certain := false
	for _, name := range names {
		bank, place, ok := r.bankPlace(name)
		if !ok {
			return false
		}
		certain = certain || !slices.Contains(bank.Cylinders, strconv.Itoa(place))
	}
	return certain
}

// named are the cylinders that some names mean.
func (r *reader) named(names []string) []string {
	places := r.asPlaces(names)
	out := make([]string, len(names))
	for i, name := range names {
		out[i] = r.cylinderMeant(name)
		if bank, place, ok := r.bankPlace(name); ok && places {
			out[i] = bank.Cylinders[place-1]
		}
	}
	return out
}

// bankNamed gives the bank that a key names, 'left', 'LH' or 'left bank'.
func (r *reader) bankNamed(name string) (engine.Bank, bool) {
	if len(r.bankList) < 2 {
		return engine.Bank{}, false
	}
	vocabulary := vocabularyOf("first bank")
	meant, _ := vocabulary.find(name, vocabulary.Words)
	for _, b := range r.bankList {
		if fold(b.Name) == fold(name) || b.Name == meant {
			return b, true
		}
	}
	return engine.Bank{}, false
}

// byBanks gives each cylinder its own of the values that are listed by bank, from
// the front: {left: [150, 148], right: [152, 149]}.
func (r *reader) byBanks(entries []entry) []entry {
	var out []entry
	for _, e := range entries {
		bank, ok := r.bankNamed(e.key)
		if !ok || slices.Contains(r.cylinderNames, e.key) {
			return entries
		}
		value := e.value
		if len(bank.Cylinders) == 1 && (value.kind == scalar || value.kind == list) {
			out = append(out, entry{bank.Cylinders[0], e.pos, value})
			continue
		}
		if value.kind == scalar {
			value = r.typedFor(value, len(bank.Cylinders))
		}
		if value == nil || value.kind != list || len(value.items) != len(bank.Cylinders) {
			return entries
		}
		for i, name := range bank.Cylinders {
			out = append(out, entry{name, value.items[i].pos, value.items[i]})
		}
	}
	return out
}

// bankRows reads the readings of each bank behind its name, 'L 140 142 R 141 139'; nil
// for any other text.
func (r *reader) bankRows(n *node) *node {
	if len(r.bankList) < 2 || len(n.text) > longestSaid {
		return nil
	}
	var taken []string
	out := r.rowsBehind(n, " ,;|", func(text string) string {
		bank, isBank := r.bankNamed(strings.TrimRight(text, ":="))
		if !isBank || slices.Contains(taken, bank.Name) {
			return ""
		}
		taken = append(taken, bank.Name)
		return bank.Name
	})
	if out == nil {
		return nil
	}
	for _, b := range r.bankList {
		if row := out.get(b.Name); row == nil || len(row.items) != len(b.Cylinders) || len(row.items) < 2 {
			return nil
		}
	}
	return out
}

// rowsBehind reads rows of readings, each behind what it is called; nil where something else
// stands among them. called gives the name that a word is, "" for none.
func (r *reader) rowsBehind(n *node, between string, called func(text string) string) *node {
	out := &node{kind: mapping, pos: n.pos}
	for _, f := range separate(evenly(n.text), between) {
		if name := called(f.text); name != "" {
			out.entries = append(out.entries, entry{name, r.within(n, f.at), &node{kind: list, pos: r.within(n, f.at)}})
			continue
		}
		if len(out.entries) == 0 || !isReading(f.text) {
			return nil
		}
		row := out.entries[len(out.entries)-1].value
		row.items = append(row.items, r.piece(n, f))
	}
	if len(out.entries) == 0 {
		return nil
	}
	return out
}

// barHint answers a list in two parts with a bar between, which may be banks.
func (r *reader) barHint(text string) string {
	halves := strings.Split(text, "|")
	if len(halves) != len(r.bankList) || len(halves) < 2 {
		return ""
	}
	var parts []string
	for i, half := range halves {
		list := asList(half, len(r.bankList[i].Cylinders))
		if len(list) != len(r.bankList[i].Cylinders) {
			return ""
		}
		parts = append(parts, r.bankList[i].Name+": "+listed(list))
	}
	return "for one bank and then the other, each from the front, write {" + strings.Join(parts, ", ") + "}; in the order of the numbers leave the '|' out"
}

package job

import (
	"cmp"
	"slices"
	"strings"
)

// keyedRow writes a row, or values behind their cylinders, that begin with the name of their
// key, 'ohms 14.2 14.1 open 14.2' and 'rpm drop 1 70 2 100', as that key of the section; ""
// for any other text.
func (r *reader) keyedRow(section, text string, keys []key) string {
	fields := separate(text, " ")
	first := slices.IndexFunc(fields, func(t typed) bool { return startsWithFigure(strings.TrimLeft(t.text, "#.-+")) })
	if first < 1 || first > 3 || len(r.cylinderNames) < 2 {
		return ""
	}
	row := string([]rune(text)[fields[first].at:])
	figures, unit := unitBehind(row, keys)
	value := r.rowOrPairs(figures)
	if value == "" {
		return ""
	}
	words := listedWords(fields[:first])
	names := append([]string{strings.ReplaceAll(fold(words), " ", "-")}, keysCalled(words)...)
	for _, f := range fields[:first] {
		names = append(names, fold(f.text))
	}
	for _, name := range names {
		k := keyOf(keys, name)
		if k.form != asReadings && k.form != asAllTexts {
			continue
		}
		if unit == "" && len(k.units) == 0 && keyOf(keys, "unit").name != "" {
			unit = "unit: " + cmp.Or(aloneUnits[section], "...") + ", "
		}
		return "write '" + section + ": {" + unit + k.name + ": " + value + "}'"
	}
	return ""
}

// rowOrPairs writes a row with an entry for each cylinder, or pairs of cylinders and
// readings, as the file has them; "" for any other text. What a meter shows without a way
// through is open.
func (r *reader) rowOrPairs(text string) string {
	if names, values := r.asPairs(text); names != nil {
		return paired(names, values)
	}
	entries := strings.FieldsFunc(text, func(c rune) bool { return strings.ContainsRune(" ;/", c) })
	if len(entries) != len(r.cylinderNames) {
		return ""
	}
	figures := 0
	for i, e := range entries {
		e = strings.TrimRight(e, ",")
		whole, part, comma := strings.Cut(e, ",")
		switch {
		case isFigures(e):
			figures++
		case comma && isWhole(whole) && isWhole(part): // 0,6
			e = whole + "." + part
			figures++
		case slices.Contains(openWords, fold(e)) || fold(e) == "open":
			e = "open"
		default:
			return ""
		}
		entries[i] = e
	}
	if figures == 0 {
		return ""
	}
	return "[" + strings.Join(entries, ", ") + "]"
}

// dropsInLine writes by how much the speed fell that is told in one line, '3 and 4 no drop,
// others 100 rpm', as the key for it; "" for any other text.
func (r *reader) dropsInLine(section, text string) string {
	if section != "balance" || !strings.Contains(fold(text), "drop") && !strings.Contains(fold(text), "no change") {
		return ""
	}
	var all []string
	for _, h := range headedWords(strings.ReplaceAll(fold(text), " rpm", "")) {
		figure := dropFigure(h.word)
		names := r.groupOf(h.head)
		if !isFigures(figure) || len(names) == 0 {
			return ""
		}
		for _, name := range names {
			all = append(all, name+": "+figure)
		}
	}
	if len(all) < 2 {
		return ""
	}
	return "write 'balance: {drop: {" + strings.Join(all, ", ") + "}}'"
}

// dropWords are what stands beside the figure by which the speed fell.
var dropWords = strings.NewReplacer("drops", "", "dropped", "", "drop", "", "down", "", "fell", "", "rpm", "", "of", "", "by", "")

// dropFigure is by how much the speed fell, without the words beside it; 'nothing' is 0.
func dropFigure(text string) string {
	figure := strings.TrimLeft(strings.TrimSpace(dropWords.Replace(text)), "-")
	if slices.Contains([]string{"no", "nothing", "none", "no change", "no difference", "nil", "zero"}, figure) {
		return "0"
	}
	return figure
}

// dropsSaid are the falls of the speed that are said to be such, {1: 70 drop, 3: nothing}, as
// the key for them has them; "" for any others.
func dropsSaid(n *node, isOne func(string) bool) string {
	var all []string
	said := false
	for _, e := range n.entries {
		if !isOne(e.key) || e.value.kind != scalar {
			continue
		}
		plain := fold(e.value.text)
		figure := dropFigure(plain)
		if !isFigures(figure) {
			return ""
		}
		said = said || strings.TrimSpace(dropWords.Replace(plain)) != plain && !strings.HasSuffix(plain, "rpm")
		all = append(all, cylinderWord(e.key)+": "+figure)
	}
	if !said {
		return ""
	}
	return "drop: {" + strings.Join(all, ", ") + "}"
}

// figuresBehind is a row without the unit behind it.
func figuresBehind(text string, keys []key) string {
	figures, _ := unitBehind(text, keys)
	return figures
}

// behindName is a text without the name of a test that it begins with: comp 150 148.
func behindName(text string) string {
	if first, rest, ok := strings.Cut(text, " "); ok && slices.Contains(keysCalled(first), "compression") {
		return rest
	}
	return text
}

// sideRows writes the readings of each bank behind its side, left 150 148 right 145 60, where the
// banks are not known yet; "" for any other text.
func sideRows(section string, n *node) string {
	if section != "compression" || n.kind != scalar || len(n.text) > longestSaid {
		return ""
	}
	var sides, rows []string
	figures := 0
	unit := cmp.Or(string(firstUnit(n)), "psi")
	for _, f := range strings.FieldsFunc(n.text, func(c rune) bool { return strings.ContainsRune(" ,;:/=|", c) }) {
		side := bankSide(f)
		switch {
		case side != "" && len(f) > 1 && !isFigures(f):
			sides, rows = append(sides, side), append(rows, "")
		case isFigures(f) && len(rows) > 0:
			rows[len(rows)-1] += " " + f
			figures++
		case fold(f) != unit:
			return ""
		}
	}
	if len(sides) != 2 || figures < 4 || sides[0] == sides[1] {
		return ""
	}
	return "write 'compression: {unit: " + unit + ", dry: {" + sides[0] + ":" + rows[0] + ", " + sides[1] + ":" + rows[1] + "}}', with the gauge's unit"
}

package job

import (
	"cmp"
	"slices"
	"strings"

	"gaugesheet/diag/quantity"
)

// namedFigures answers readings that stand with their names in the place of a section's
// keys, 'key on 43 psi, idle 36'; "" for any other text.
func namedFigures(section, text string, keys []key) string {
	var pairs []string
	text = strings.ReplaceAll(text, " and ", ", ")
	for _, piece := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ';' }) {
		name, figure := namedFigure(strings.TrimSpace(piece), keys, len(piece) < len(text))
		if number, side, ok := strings.Cut(strings.TrimSpace(piece), " "); name == "" && ok && isFigures(number) && isSide(side) && aloneUnder[section] != "" { // 2 atdc
			name, figure = aloneUnder[section], number+" deg "+fold(side)
		}
		if name == "" {
			return ""
		}
		pairs = append(pairs, name+": "+figure)
	}
	if len(pairs) == 0 {
		return ""
	}
	unit := cmp.Or(figuresUnit(pairs), aloneUnits[section])
	if slices.ContainsFunc(pairs, isBare) && keyOf(keys, "unit").name != "" && unit != "" {
		return "write '" + section + ": {unit: " + unit + ", " + strings.Join(pairs, ", ") + "}', with the gauge's unit"
	}
	return "write '" + section + ": {" + strings.Join(pairs, ", ") + "}'"
}

// unitBehind takes the unit off that stands behind a row of figures, 360 355 410 350 F,
// and writes its key.
func unitBehind(text string, keys []key) (figures, unit string) {
	at := strings.LastIndexByte(text, ' ')
	k := keyOf(keys, "unit")
	if at < 0 || k.name == "" || isFigures(text[at+1:]) {
		return text, ""
	}
	word, _ := vocabularyOf(k.says).find(text[at+1:], k.words)
	if v, err := quantity.Parse("1 " + text[at+1:]); word == "" && err == nil && slices.Contains(k.words, string(v.Unit)) {
		word = string(v.Unit)
	}
	if word == "" {
		return text, ""
	}
	return text[:at], "unit: " + word + ", "
}

// namedFigure is the key that a piece of text names and the figure beside its name,
// before or behind it; "" for a piece that has not just these. A word that only may mean
// the key, hot for idle, does so beside others.
func namedFigure(piece string, keys []key, others bool) (name, figure string) {
	figure, words := leadingFigure(piece, "")
	if figure == "" {
		at := strings.IndexAny(piece, "0123456789")
		if at <= 0 {
			return "", ""
		}
		rest := ""
		if figure, rest = leadingFigure(piece[at:], ""); figure == "" || rest != "" {
			return "", ""
		}
		words = piece[:at]
	}
	if name, value := speedKey(words, figure, keys); name != "" {
		return name, value
	}
	words = strings.TrimPrefix(strings.Trim(strings.TrimSpace(words), ":="), "at ")
	names := []string{strings.ReplaceAll(fold(words), " ", "-")}
	if others {
		names = append(names, keysCalled(words)...)
		if first, rest, _ := strings.Cut(fold(words), " "); slices.Contains([]string{"drop", "drops", "dropped", "down", "falls", "fell", "mag", "side"}, rest) { // left drop 90
			names = append(names, first)
		}
	}
	for _, called := range names {
		if k := keyOf(keys, called); k.name == called && called != "" {
			return called, figure
		}
	}
	return "", ""
}

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
	if len(text) > longestSaid {
		return ""
	}
	var pairs []pair
	behind := ""
	all := clauses(text)
	for _, clause := range all {
		name, figure := namedFigure(clause, keys, len(all) > 1)
		if sided := sidedFigure(clause); name == "" && sided != "" && aloneUnder[section] != "" { // 2 atdc
			name, figure = aloneUnder[section], sided
		}
		switch limit := limitOf(clause, pairs, keys); {
		case strings.HasPrefix(limit, "{"):
			name, figure = "limits", limit
		case limit != "": // one figure
			behind = limit
			continue
		}
		if m := fellSaid().FindStringSubmatch(fold(clause)); m != nil && name == "" && keyOf(keys, "hold").name != "" { // drops to 30 in 5 min
			name, figure = "hold", "{"+m[2]+": "+m[1]+"}"
		}
		if word, value := led(key{keys: keys}, clause); name == "" && word != "" { // vac advance disconnected
			name, figure = word, value
		}
		if name == "" && len(pairs) > 0 && behind == "" && pairs[0].name != aloneUnder[section] { // of no key
			behind = "; '" + short(clause) + "' goes into 'notes'"
			continue
		}
		if name == "" || pairOf(pairs, name) != "" {
			return ""
		}
		figure = inchesOf(figure, aloneUnits[section])
		pairs = append(pairs, pair{name, figure})
	}
	if len(pairs) == 0 {
		return ""
	}
	texts := make([]string, len(pairs))
	for i, p := range pairs {
		texts[i] = p.name + ": " + commaInNumber().ReplaceAllString(p.figure, "$1.$2")
	}
	unit := cmp.Or(figuresUnit(texts), aloneUnits[section])
	if slices.ContainsFunc(texts, isBare) && keyOf(keys, "unit").name != "" && unit != "" {
		return "write '" + section + ": {unit: " + unit + ", " + strings.Join(texts, ", ") + "}', with the gauge's unit" + behind
	}
	return "write '" + section + ": {" + strings.Join(texts, ", ") + "}'" + behind
}

// sidedFigure is an angle with its side of the mark, 6 BTDC at idle, as it is read; "" for
// any other clause.
func sidedFigure(clause string) string {
	angle, at, atSpeed := strings.Cut(fold(clause), " at ")
	figure, side := leadingFigure(angle, string(quantity.Degree))
	if figure == "" || !isSide(side) {
		return ""
	}
	figure += " " + fold(side)
	if speed := strings.TrimSpace(strings.TrimSuffix(at, "rpm")); atSpeed && isWhole(speed) {
		figure += " at " + speed + " rpm"
	}
	return figure
}

// inchesOf is a figure in inches in the unit that a section's inches are of: 18" of vacuum.
func inchesOf(figure, unit string) string {
	if v, err := quantity.Parse(figure); err != nil || v.Unit != quantity.Inch || unit != string(quantity.InHg) {
		return figure
	}
	return strings.TrimSpace(strings.TrimRight(figure, `inches."`)) + " " + unit
}

// fellSaid is what a pressure fell to in a time.
var fellSaid = lazily(`^(?:then )?(?:drops|dropped|falls|fell|bleeds|bled|leaks|leaked|down|goes down|went down)(?: off| down)? to (\d[\d.]*(?: ?[a-z]+)?) (?:in|after|within) (\d+ ?[a-z]+)$`)

// A pair is a key and its figure.
type pair struct{ name, figure string }

func pairOf(pairs []pair, name string) string {
	for _, p := range pairs {
		if p.name == name {
			return p.figure
		}
	}
	return ""
}

// limitOf is the limit behind the reading that it is for, 'idle 55 spec 58', as the keys of
// limits have it, or how one figure is written for a limit; "" for any other clause.
func limitOf(clause string, pairs []pair, keys []key) string {
	word, figure, _ := strings.Cut(fold(clause), " ")
	if len(pairs) == 0 || !slices.Contains([]string{"spec", "specs", "limit", "limits", "book", "should"}, strings.TrimRight(word, ":=")) {
		return ""
	}
	last := pairs[len(pairs)-1].name
	figure = strings.TrimPrefix(strings.TrimPrefix(strings.TrimPrefix(figure, "be "), "says "), "is ")
	limits := keyOf(keys, "limits")
	p, err := quantity.ScanAs(figure, quantity.Pressure)
	if err != nil || keyOf(limits.keys, last).name == "" {
		return ""
	}
	if _, one := p.Single(); one && p.Bound == quantity.Exact {
		return "; what the book allows is a range: 'limits: {" + last + ": " + figure + " +/- ...}' or '" + "at least " + figure + "'"
	}
	return "{" + last + ": " + figure + "}"
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
		fields := separate(piece, " ")
		first := slices.IndexFunc(fields, func(t typed) bool { return startsWithFigure(strings.TrimLeft(t.text, "+-.")) })
		if first <= 0 {
			return "", ""
		}
		rest := ""
		if figure, rest = leadingFigure(listedWords(fields[first:]), ""); figure == "" || rest != "" {
			return "", ""
		}
		words = listedWords(fields[:first])
	}
	if name, value := speedKey(words, figure, keys); name != "" {
		return name, value
	}
	words = strings.TrimPrefix(strings.Trim(strings.TrimSpace(words), ":="), "at ")
	names := []string{strings.ReplaceAll(fold(words), " ", "-")}
	if others || keyOf(keys, "starts").name != "" { // opens 180 F
		names = append(names, keysCalled(words)...)
		if first, rest, _ := strings.Cut(fold(words), " "); slices.Contains([]string{"drop", "drops", "dropped", "down", "falls", "fell", "mag", "side"}, rest) { // left drop 90
			names = append(names, first)
		}
	}
	if fields := strings.Fields(fold(words)); others && len(fields) > 2 { // at the rail key on
		names = append(names, strings.Join(fields[len(fields)-2:], "-"), fields[len(fields)-1])
	}
	for _, called := range names {
		if k := keyOf(keys, called); k.name == called && called != "" {
			return called, figure
		}
	}
	return "", ""
}

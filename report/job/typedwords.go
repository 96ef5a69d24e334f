package job

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"

	"gaugesheet/diag/engine"
)

// layoutMeant gives the layout that other usual words name, such as 'straight
// six', '4 cyl inline' and 'v-twin'; the text itself where it is none of these.
// Rotors is how many rotors the job has readings of.
func layoutMeant(text string, rotors int) string {
	if len(text) > longestSaid {
		return text
	}
	kinds, counts := vocabularyOf("engine"), vocabularyOf("number of cylinders")
	plain := plainWords(text)
	whole := strings.TrimSuffix(strings.TrimSuffix(plain, " engine"), " motor")
	switch kind, _ := kinds.find(whole, kinds.Words); {
	case kind == "single":
		return kind
	case kind == "rotary" && rotors > 0:
		return "rotary-" + strconv.Itoa(rotors)
	case whole == "triple":
		return "inline-3"
	case kind != "":
		return text
	}
	var words []string
	count := ""
	for _, word := range strings.Fields(apartFigures(apartWords.Replace(plain))) {
		if n, _ := counts.find(cmp.Or(soundsLike[word], word), counts.Words); n != "" && count == "" {
			count = n
		} else if !slices.Contains(cylinderNouns, word) {
			words = append(words, word)
		}
	}
	kind, _ := kinds.find(strings.Join(words, " "), kinds.Words)
	if startsWithFigure(plain) && len(strings.Join(words, "")) == 1 { // 16v has so many valves
		kind = ""
	}
	switch {
	case kind == "" || count == "" || kind == "single":
		return text
	case kind == "V":
		return kind + count
	}
	return kind + "-" + count
}

// cylinderNouns are the words beside a number of cylinders that say only that.
var cylinderNouns = []string{"engine", "motor", "cylinder", "cylinders", "cyl", "cyls", "pot", "cylindres", "zylinder", "cilindros", "cilindri", "cilindro"}

// apartWords takes the words apart that German runs together: Reihenvierzylinder.
var apartWords = strings.NewReplacer("reihen", "reihen ", "zylinder", " zylinder ", "motor", " motor ", "boxer", " boxer ")

// soundsLike are numbers that a telephone heard as other words.
var soundsLike = map[string]string{"for": "4", "fore": "4", "to": "2", "too": "2", "sex": "6", "ate": "8"}

// apartFigures puts a space between letters and the figures beside them: v8.
func apartFigures(text string) string {
	var b strings.Builder
	figure := false
	for i, c := range text {
		isFigure := c >= '0' && c <= '9'
		if i > 0 && isFigure != figure {
			b.WriteByte(' ')
		}
		figure = isFigure
		b.WriteRune(c)
	}
	return b.String()
}

// standHint answers a layout that is only a number of cylinders, or only how
// they stand.
func standHint(text string) string {
	if len(text) > longestSaid {
		return ""
	}
	counts := vocabularyOf("number of cylinders")
	plain := plainWords(text)
	if first, _, _ := strings.Cut(strings.TrimSpace(text), " "); isFigures(first) && strings.Contains(first, ".") {
		if hint := layoutWithin(strings.Fields(text)); hint != "" {
			return hint
		}
		return "say how many cylinders and how they stand, such as inline-4; 'displacement: " + first + " L', if that is what " + first + " is"
	}
	if n, ok := strings.CutSuffix(plain, "v"); ok && isWhole(n) {
		return "valves are not named: write how the cylinders stand, such as V" + n + " or inline-4"
	}
	if fields := strings.Fields(plain); len(fields) == 2 { // twin 650
		for i, f := range fields {
			if sizeUnit(f, 2) != "" && isCount(fields[1-i]) {
				return standHint(fields[1-i])
			}
		}
	}
	for _, noun := range cylinderNouns[2:] {
		plain = strings.TrimSuffix(plain, " "+noun)
	}
	for _, end := range []string{" cylinders", " cylinder", " cyls", " cyl", "cyl", " pot", " pots", " banger"} {
		plain = strings.TrimSuffix(plain, end)
	}
	if n, _ := counts.find(plain, counts.Words); n != "" {
		return standsHint(n)
	}
	if hint := layoutWithin(strings.Fields(text)); hint != "" {
		return hint
	}
	if hint := countWithin(plainWords(text)); hint != "" {
		return hint
	}
	return kindHint(plain)
}

// kindHint answers how cylinders stand without their number.
func kindHint(plain string) string {
	kinds := vocabularyOf("engine")
	kind, answer := kinds.find(plain, kinds.Words)
	switch kind {
	case "":
		return answer
	case "V":
		return "of how many cylinders? such as V8"
	case "rotary":
		return "of how many rotors? such as rotary-2"
	}
	if kind == "radial" {
		return "of how many cylinders? such as radial-7"
	}
	return "of how many cylinders? such as " + kind + "-4"
}

// standsHint asks how so many cylinders stand.
func standsHint(n string) string {
	return "say how they stand: inline-" + n + ", V" + n + " or flat-" + n
}

// countWithin answers words that tell a number of cylinders among others: 4 cyl tractor
// motor, twin outboard; "" for any others.
func countWithin(plain string) string {
	counts := vocabularyOf("number of cylinders")
	fields := strings.Fields(plain)
	for i, f := range fields {
		n, _ := counts.find(f, counts.Words)
		behind := i+1 < len(fields) && slices.Contains([]string{"cylinder", "cylinders", "cyl", "cyls", "pot", "pots", "banger", "lung", "lunger"}, fields[i+1])
		switch {
		case n == "1" && behind:
			return "write 'single' alone"
		case n != "" && (behind || f == "twin" || f == "triple" || slices.Contains([]string{"four", "five", "six", "eight", "ten", "twelve"}, f)): // flathead six
			return standsHint(n) + ", without what else is said of it"
		}
	}
	return ""
}

// inFigures are a numbering's banks as people write them for each number of
// cylinders: 1-3-5 / 2-4-6.
func inFigures(numbering string) string {
	var out []string
	for count := 4; count <= 16; count += 2 {
		var banks [2][]string
		for i := range count {
			bank := i % 2
			if numbering == engine.BankByBank {
				bank = i / (count / 2)
			}
			banks[bank] = append(banks[bank], strconv.Itoa(i+1))
		}
		one, two := strings.Join(banks[0], "-"), strings.Join(banks[1], "-")
		out = append(out, one+" / "+two, one+"/"+two)
		if count < 10 {
			out = append(out, strings.Join(banks[0], "")+"/"+strings.Join(banks[1], ""))
		}
	}
	return strings.Join(out, "; ")
}

// filling are words between those that say where the odd cylinders stand.
var filling = strings.Fields("numbers numbered cylinders ones are is on the side bank hand in and at to")

// sideOfOdd is the side on which the odd cylinders stand, 1 among them, by what was
// written for a numbering: odd left even right; "" where that does not say it.
func sideOfOdd(text string) string {
	fields := strings.FieldsFunc(fold(text), func(c rune) bool { return strings.ContainsRune(" ,;/", c) })
	fields = slices.DeleteFunc(fields, func(w string) bool { return slices.Contains(filling, w) })
	if len(fields) < 2 || fields[0] != "odd" && fields[0] != "odds" || len(fields) > 2 && fields[2] != "even" && fields[2] != "evens" || len(fields) > 4 {
		return ""
	}
	side, _ := vocabularyOf("first bank").find(fields[1], engineSides)
	return side
}

// numbered reads a numbering that says on which side the odd cylinders are, and answers one
// that has the side of cylinder 1 behind it.
func (r *reader) numbered(s *section, spec *engine.Spec) {
	n := s.get("numbering")
	if side := sideOfOdd(s.scalarText("numbering")); side != "" { // odds on the right
		if spec.FirstBank != "" && spec.FirstBank != side {
			r.report(n.pos, "which is it? cylinder 1 is one of the odd ones", "'engine.numbering' has cylinder 1 on the %s, 'first-bank' on the %s", side, spec.FirstBank)
		}
		spec.Numbering, spec.FirstBank = engine.AcrossBanks, side
	}
	if numbering, side := numberingAndSide(spec.Numbering); side != "" {
		r.report(n.pos, "write 'numbering: "+numbering+"' and 'first-bank: "+cmp.Or(spec.FirstBank, side)+"'", "'engine.numbering' is '%s', which is two things", short(spec.Numbering))
	}
}

// numberingAndSide takes the side of cylinder 1 off a numbering that is said with it,
// 'across banks, left'; the side is "" where there is none.
func numberingAndSide(text string) (numbering, side string) {
	fields := strings.FieldsFunc(text, func(c rune) bool { return strings.ContainsRune(" ,;()", c) })
	if len(fields) < 2 {
		return text, ""
	}
	sides, numberings := vocabularyOf("first bank"), vocabularyOf("numbering")
	side, _ = sides.find(fields[len(fields)-1], engineSides)
	for size := len(fields) - 1; side != "" && size > 0; size-- { // across banks 1 on the left
		if numbering, _ = numberings.find(strings.Join(fields[:size], " "), numberings.Words); numbering != "" {
			return numbering, side
		}
	}
	return text, ""
}

// powers are what is counted of an engine's power, which is no size.
var powers = strings.Fields("hp bhp kw ps cv horsepower horse horses")

// layoutWithin answers words of which some are a layout.
func layoutWithin(fields []string) string {
	layout, _ := layoutIn(fields)
	if layout == nil {
		return ""
	}
	for i, f := range fields { // 350 V8, twin 650
		if unit := sizeUnit(f, layout.Count); unit != "" && (i+1 == len(fields) || !isCount(fields[i+1]) && !slices.Contains(powers, fold(fields[i+1]))) {
			return "write '" + layout.String() + ", " + f + " " + unit + "', if " + f + " is its size in that unit"
		}
	}
	hint := "write '" + layout.String() + "' alone; size and fuel have keys of their own"
	for _, f := range fields { // DOHC
		if name := keyTaking(key{keys: engineKeys}, f); !isFigures(f) && !isCount(f) && !isLayout(f) && name != "" && name != "layout" && name != "fuel" && name != "first-bank" && name != "numbering" {
			hint += ": '" + name + ": " + f + "'"
		} else if keyOf(engineKeys, fold(f)).form == asYesNo && keyOf(engineKeys, fold(f)).name != "" {
			hint += ": '" + fold(f) + ": yes'"
		}
	}
	if first := fields[0]; isFigures(first) && strings.Contains(first, ".") {
		hint += ": 'displacement: " + first + " L', if that is what it is"
	}
	if side := sideOfFirst(strings.Join(fields, " ")); layout.Kind.TwoBanks() && layout.Count > 2 {
		hint += "; such an engine also needs 'numbering: across banks' or 'bank by bank', and 'first-bank: " + cmp.Or(side, "left' or 'right") + "'"
	}
	return hint
}

// firstOn is where cylinder 1 or bank 1 is said to be.
var firstOn = lazily(`(?:bank|cyl|cylinder|no\.?|number|#) ?1 (?:is |at |on |in |the |by |side )*([a-z]+)`)

// sideOfFirst is the side on which cylinder 1 is by what is said of an engine, "" where it
// is not said.
func sideOfFirst(text string) string {
	m := firstOn().FindStringSubmatch(fold(text))
	if m == nil {
		return ""
	}
	side, _ := vocabularyOf("first bank").find(m[1], engineSides)
	return side
}

// layoutIn finds a layout among words that say more of an engine.
func layoutIn(fields []string) (*engine.Layout, int) {
	for size := min(len(fields)-1, 4); size > 0; size-- {
		for i := 0; i+size <= len(fields); i++ {
			layout, problem := engine.ParseLayout(layoutMeant(strings.Join(fields[i:i+size], " "), 0))
			if problem == nil {
				return &layout, i
			}
		}
	}
	return nil, 0
}

// SizeUnit gives the unit of a bare number in what is said of an engine, where it is
// too large for anything but its size; "" for any other.
func SizeUnit(number, engineText string) string {
	layout, _ := layoutIn(strings.Fields(strings.ReplaceAll(engineText, ",", " ")))
	if layout == nil {
		return ""
	}
	return sizeUnit(strings.TrimRight(number, ","), layout.Count)
}

// namesOf are the cylinders of an engine that could not be made, by the layout that is
// found among the words for it; none where there is none.
func namesOf(layout *node) []string {
	if layout == nil || layout.kind != scalar || len(layout.text) > longestSaid {
		return nil
	}
	l, problem := engine.ParseLayout(layoutMeant(layout.text, 0))
	if problem != nil {
		if found, _ := layoutIn(strings.Fields(layout.text)); found != nil {
			l = *found
		}
	}
	if l.Kind == engine.Custom || l.Kind == engine.Rotary || l.Count == 2 { // these may have names of their own
		return nil
	}
	var names []string
	for i := range l.Count {
		names = append(names, strconv.Itoa(i+1))
	}
	return names
}

// engineSaid writes the engine that one of the file's lines tells of beside something else,
// as the key that is missing; "" for none.
func (r *reader) engineSaid() string {
	for i, line := range r.lines[:min(len(r.lines), farthest)] {
		if len(line) > longestSaid || len(r.sources) > 0 && i >= r.sources[0].from {
			break
		}
		fields := strings.Fields(strings.NewReplacer(",", " ", ":", " ").Replace(line))
		text := ""
		if layout, at := layoutIn(append([]string{"the"}, fields...)); layout != nil && layout.Count > 0 && at > 0 {
			text = layout.String()
		} else if hint := countWithin(plainWords(strings.Join(fields, " "))); strings.HasPrefix(hint, "say") {
			return hint + ": 'engine: {layout: ...}'"
		}
		if text == "" {
			continue
		}
		for _, f := range fields {
			if word, _ := vocabularyOf("fuel").find(f, fuels); word != "" {
				text += ", fuel: " + word
			}
		}
		return "write it with its key: 'engine: {layout: " + text + "}'"
	}
	return ""
}

// sizeUnit is the unit in which an engine of so many cylinders has such a size:
// cubic centimetres, or cubic inches where each cylinder would be too small for
// that. It is "" for what is none.
func sizeUnit(number string, cylinders int) string {
	const smallest, least, leastOfMany = 40, 50, 100 // a size, and cc of one cylinder
	n, err := strconv.Atoi(number)
	switch {
	case err != nil || n < smallest || cylinders == 0:
		return ""
	case cylinders > 1 && n < least*cylinders, cylinders > 4 && n < leastOfMany*cylinders:
		return "ci"
	}
	return "cc"
}

// monthsElsewhere are names of months, or their beginnings, that other languages
// write otherwise.
var monthsElsewhere = strings.NewReplacer("enero", "january", "febrero", "february", "marzo", "march", "abril", "april", "mayo", "may", "junio", "june", "julio", "july", "agosto", "august", "septiembre", "september", "octubre", "october", "noviembre", "november", "diciembre", "december",
	"gennaio", "january", "febbraio", "february", "aprile", "april", "maggio", "may", "giugno", "june", "luglio", "july", "settembre", "september", "ottobre", "october", "dicembre", "december", "januar ", "january ", "februar ", "february ", "märz", "march", "mai ", "may ", "juni ", "june ", "juli ", "july ", "oktober", "october", "okt ", "oct ", "dezember", "december", "dez ", "dec ", "sept ", "sep ",
	"janvier", "january", "février", "february", "fevrier", "february", "mars ", "march ", "avril", "april", "juin ", "june ", "juillet", "july", "août", "august", "aout ", "august ", "septembre", "september", "octobre", "october",
	"novembre", "november", "décembre", "december", "decembre", "december")

// daysOfWeek are the days that people write beside a date.
var daysOfWeek = strings.Fields("mon monday tue tues tuesday wed weds wednesday thu thur thurs thursday fri friday sat saturday sun sunday")

// plainDate writes a date that has its month as a word in one way: 14th of
// May, 2026 and 14-May-26 are 14 may 2026 and 14 may 26.
func plainDate(text string) string {
	if !strings.ContainsFunc(text, unicode.IsLetter) {
		return text
	}
	var words []string
	for _, word := range strings.FieldsFunc(strings.ToLower(text), func(c rune) bool { return strings.ContainsRune(" .,-/'’", c) }) {
		for _, end := range []string{"st", "nd", "rd", "th"} {
			if day, ok := strings.CutSuffix(word, end); ok && isWhole(day) {
				word = day
			}
		}
		if slices.Contains(daysOfWeek, word) {
			continue
		}
		if word != "of" && word != "the" && word != "de" && word != "del" {
			words = append(words, word)
		}
	}
	return strings.TrimSpace(monthsElsewhere.Replace(strings.Join(words, " ") + " "))
}

// dateHint gives a date in the form that is taken, both where day and month
// could be either way round.
func dateHint(text string) string {
	for _, form := range []string{"2 January 2006", "2 Jan 2006", "2 January 06", "2 Jan 06", "January 2 2006", "Jan 2 2006", "Jan 2 06", "2006/1/2", "2006.1.2", "2006-1-2", "20060102"} {
		if d, err := time.Parse(form, plainDate(text)); err == nil {
			return "write " + d.Format(time.DateOnly)
		}
	}
	var meant []string
	for _, form := range []string{"1/2/2006", "1/2/06", "2/1/2006", "2/1/06", "2.1.2006", "2.1.06", "1-2-2006", "2-1-2006", "1 2 2006", "2 1 2006", "1 2 06", "2 1 06"} {
		if d, err := time.Parse(form, text); err == nil {
			if iso := d.Format(time.DateOnly); len(meant) == 0 || meant[0] != iso {
				meant = append(meant, iso)
			}
		}
	}
	switch len(meant) {
	case 0:
		return usualDate
	case 1:
		return "write " + meant[0]
	}
	return "write " + meant[0] + " or " + meant[1] + ": day and month could be either way round"
}

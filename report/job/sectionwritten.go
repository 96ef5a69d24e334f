package job

import (
	"cmp"
	"slices"
	"strings"

	"gaugesheet/diag/quantity"
)

// sectionTold writes a sentence about a test with its keys, and says what of it has none; "" where fewer than two figures,
// or one with its words, find theirs.
func sectionTold(section, text string, keys []key) (hint string, placed int) {
	if len(text) > longestSaid || slices.ContainsFunc(keys, func(k key) bool { return k.speeds && len(k.keys) > 0 }) { // trims and gas, which are told in another way
		return "", 0
	}
	top, rest, _ := strings.Cut(section, ".")
	text = signsSaid.Replace(figuresFor(withBlanks(text)))
	words, whole := toldWords(text), []rune(text)
	figures := figuresTold(words, whole)
	left := besideFigures(words, figures)
	var path []string
	if rest != "" {
		path = strings.Split(rest, ".")
	}
	all := toldKeys(top, path, keys, unitsUnder(top, path))
	w := &sectionWriter{keys: all, depth: len(path), units: unitsUnder(top, path), unitKey: keyOf(keys, "unit").name != ""}
	if !w.place(figures, keys, aloneUnder[section]) {
		return "", 0
	}
	w.putLeft(left, keys)
	switch at := keyOf(keys, "at"); {
	case w.speed != "" && at.form == asMeasured:
		w.put([]string{"at"}, w.speed)
	case w.speed != "":
		w.loose = append(w.loose, "'at "+w.speed+"'")
	}
	unit := ""
	if w.bare && keyOf(keys, "unit").name != "" {
		unit = "unit: " + cmp.Or(w.unit, aloneUnits[top], "psi") + ", "
	}
	hint = "write '" + section[strings.LastIndexByte(section, '.')+1:] + ": {" + unit + w.written() + "}'"
	if unit != "" {
		hint += ", with the gauge's unit"
	}
	if w.doubt {
		hint += ", in C or F, whichever it was"
	}
	if len(w.loose) > 0 {
		hint += "; " + allOf(w.loose) + " goes into 'findings' or 'notes'"
	}
	return hint, w.placed
}

// putLeft puts what stands in a sentence without a figure under the keys that take it, and notes the rest.
func (w *sectionWriter) putLeft(left []typed, keys []key) {
	for _, l := range left {
		if name := keyTaking(key{keys: w.last.keys}, tellingWords(l.text)); name != "" && len(w.paths) == 1 && len(w.paths[0]) == 1 && keyOf(w.last.keys, "reading").name != "" { // 10 in and steady
			path := w.paths[0]
			w.paths[0] = append(slices.Clone(path), "reading")
			w.put(append(slices.Clone(path), name), tellingWords(l.text))
		} else if name := keyTaking(key{keys: keys}, l.text); name != "" {
			w.put([]string{name}, inQuotes(fold(l.text)))
		} else if w.wordsLeft(l.text, keys) || w.ofKeys(l.text) {
			continue
		} else if !slices.ContainsFunc(strings.Fields(l.text), func(f string) bool { return !tellsWord(f) }) {
			continue
		} else {
			w.loose = append(w.loose, "'"+short(l.text)+"'")
		}
	}
}

// tellingWords are the words of a text that tell something.
func tellingWords(text string) string {
	return strings.Join(slices.DeleteFunc(strings.Fields(strings.ToLower(text)), tellsWord), " ")
}

// signsSaid are signs in words.
var signsSaid = strings.NewReplacer("minus ", "-", "Minus ", "-", "plus ", "+", "Plus ", "+")

// unitsUnder are the units of the readings under a way into a section.
func unitsUnder(section string, path []string) []quantity.Unit {
	units, keys := unitsOfSection(section), keysOf(fileKeys, section)
	for _, name := range path {
		k := keyOf(keys, name)
		if len(k.units) > 0 {
			units = k.units
		}
		keys = k.keys
	}
	return units
}

// A sectionWriter puts figures under their keys.
type sectionWriter struct {
	keys    []toldKey
	depth   int // of the keys that stand above these
	paths   [][]string
	values  []string
	loose   []string
	bare    bool
	placed  int
	unitKey bool // its bare figures may have a unit beside them
	doubt   bool // a temperature may be in either
	is      quantity.Unit
	units   []quantity.Unit // of the section
	last    key             // of the figure placed last
	unit    string
	speed   string // at which all were read
}

// place puts each figure under its key; it is false where too few find theirs.
func (w *sectionWriter) place(figures []toldFigure, keys []key, usual string) bool {
	used := map[int]bool{}
	named := 0
	var later []int // of which no words tell the key
	for n, f := range figures {
		if toBe(f) {
			w.leave(f)
			continue
		}
		last := quantity.None
		if n > 0 {
			last = figures[n-1].unit
		}
		at, said := keyOfFigure(f, w.keys, used, last)
		if w.placeBySpeed(f, keys, at, said) {
			w.placed, named = w.placed+1, named+1
			continue
		}
		if at < 0 && n == 0 && usual != "" && !toBe(f) {
			at = slices.IndexFunc(w.keys, func(k toldKey) bool { return k.path[len(k.path)-1] == usual && k.takes(f) })
			if at >= 0 && f.unit != quantity.None {
				named++
			}
		}
		switch {
		case at < 0 && f.unit != quantity.None:
			later = append(later, n)
		case at < 0:
			w.leave(f)
		default:
			if used[at] = true; said != "" {
				named++
			}
			w.placed++
			w.putFigure(f, w.keys[at])
			w.wordsBeside(f, w.keys[at], keys)
		}
	}
	w.placeByUnit(figures, later, used)
	return w.placed > 0 && (named > 0 || len(w.paths) > w.placed) && len(w.loose) <= w.placed+1
}

// ofKeys reports words of which each is one of a key's.
func (w *sectionWriter) ofKeys(text string) bool {
	return !slices.ContainsFunc(strings.Fields(strings.ToLower(text)), func(f string) bool {
		return !tellsWord(f) && !slices.ContainsFunc(w.keys, func(k toldKey) bool { return slices.Contains(k.words, f) })
	})
}

// wordsLeft puts a word that stands among others under the key of the section that takes it.
func (w *sectionWriter) wordsLeft(text string, keys []key) bool {
	for _, k := range keys {
		given := slices.ContainsFunc(w.paths, func(p []string) bool { return p[0] == k.name })
		if word := wordWithin(k, text); (k.form == asWord || k.form == asWordList) && k.name != "unit" && word != "" && !given && !strings.Contains(" "+strings.ToLower(text)+" ", " "+k.name+" ") {
			w.put([]string{k.name}, inQuotes(word))
			return true
		}
	}
	return false
}

// placeByUnit puts figures under the only key left that their units are of.
func (w *sectionWriter) placeByUnit(figures []toldFigure, later []int, used map[int]bool) {
	for _, n := range later {
		f := figures[n]
		if byHowMuch(f) {
			w.leave(f)
			continue
		}
		if at, _ := keyOfFigure(toldFigure{unit: f.unit, time: f.time}, w.keys, used, quantity.None); at >= 0 && !used[at] {
			used[at] = true
			w.placed++
			w.putFigure(f, w.keys[at])
		} else {
			w.leave(f)
		}
	}
}

// leave notes a figure that belongs to no key.
func (w *sectionWriter) leave(f toldFigure) {
	if w.needle(f) {
		return
	}
	w.loose = append(w.loose, "'"+short(strings.TrimSpace(textOf(f.beside[:f.ahead])+" "+f.text+" "+textOf(f.beside[f.ahead:])))+"'")
}

// needle puts a figure by which the needle moved behind the reading that it was of.
func (w *sectionWriter) needle(f toldFigure) bool {
	if f.speed != "" || f.time != "" || saidIn(f.beside, "to") || saidIn(f.beside, "off") {
		return false
	}
	if w.last.name == "" || keyOf(w.last.keys, "by").name == "" || len(w.paths) == 0 {
		return false
	}
	word := wordWithin(keyOf(w.last.keys, "needle"), textOf(f.beside))
	i := len(w.paths) - 1
	if word == "" || len(w.paths[i]) > 1 {
		return false
	}
	path := w.paths[i]
	w.paths[i] = append(slices.Clone(path), "reading")
	w.put(append(slices.Clone(path), "needle"), word)
	w.put(append(slices.Clone(path), "by"), f.text)
	return true
}

// placeBySpeed puts a figure under its speed where the section's readings go by that, and no key of its own is named as
// well.
func (w *sectionWriter) placeBySpeed(f toldFigure, keys []key, at int, said string) bool {
	name, value := "", ""
	switch {
	case f.speed != "":
		own := at >= 0 && w.keys[at].of.form == asMeasured && len(w.keys[at].of.keys) > 0 && !slices.Contains([]string{"idle", "hot", "warm"}, said)
		if name, value = speedKey("at "+f.speed, w.atSpeed(f, keys), keys); name == "" || own {
			return false
		}
	case saidIn(f.beside, "idle") || saidIn(f.beside, "idling"):
		if name, value = idleKey(w.atSpeed(f, keys), keys); name == "" || said != "" {
			return false
		}
	default:
		return false
	}
	w.putAt([]string{name}, value, f)
	w.wordsBeside(f, toldKey{}, keys)
	return true
}

// idleKey is speedKey at idle, where idle is a speed as any other.
func idleKey(figure string, keys []key) (name, value string) {
	if keyOf(keys, "idle").speeds {
		return "idle", figure
	}
	return speedKey("idle", figure, keys)
}

// atSpeed is a figure as it stands by its speed.
func (w *sectionWriter) atSpeed(f toldFigure, keys []key) string {
	i := slices.IndexFunc(keys, func(k key) bool { return k.form == asAtSpeeds || k.speeds })
	if i < 0 {
		return f.text
	}
	value := w.figure(f, keys[i])
	if len(keys[i].units) > 0 && isFigures(value) {
		value += " " + string(keys[i].units[0])
	}
	return value
}

func textOf(words []toldWord) string {
	texts := make([]string, len(words))
	for i, one := range words {
		texts[i] = one.text
	}
	return strings.Join(texts, " ")
}

// putFigure puts a figure under a key, with what else is said of it.
func (w *sectionWriter) putFigure(f toldFigure, k toldKey) {
	path, value := k.path[w.depth:], w.figure(f, k.of)
	w.last = k.of
	if len(k.units) > 0 && f.unit == quantity.None && !strings.ContainsAny(value, "dg") && (len(k.of.units) > 0 || len(k.path) > 1 && !slices.Contains(k.units, quantity.PSI)) {
		value += " " + string(unitLikely(f.number, k.units))
		w.doubt = w.doubt || f.number <= boiling && slices.Contains(k.units, quantity.Fahrenheit)
	} else if f.unit == quantity.None && !w.unitKey && w.unit != "" && len(k.units) > 0 && slices.Contains(k.units, w.is) && isFigures(value) {
		value += " " + w.unit
	} else if f.unit == quantity.None && !w.unitKey && len(k.units) > 0 && k.units[0] == quantity.PSI && isFigures(value) {
		value += " psi"
	} else {
		w.bare = w.bare || f.unit == quantity.None && k.of.form != asAmount && len(k.path) == 1
		if f.unit != quantity.None && w.unit == "" && len(k.of.units) == 0 {
			w.unit, w.is = string(f.unit), f.unit
		}
	}
	if f.time != "" && k.of.name != "hold" { // in 12 minutes
		if i := slices.IndexFunc(w.keys, func(o toldKey) bool {
			return len(o.units) > 0 && quantity.DimensionOf(o.units[0]) == quantity.Time && len(o.path) == len(k.path) && (len(o.path) < 2 || o.path[len(o.path)-2] == k.path[len(k.path)-2])
		}); i >= 0 {
			defer w.put(w.keys[i].path[w.depth:], f.time)
		} else {
			w.loose = append(w.loose, "'in "+f.time+"'")
		}
	}
	if k.of.name == "hold" {
		w.put(append(slices.Clone(path), f.time), value)
		return
	}
	word := keyTaking(key{keys: k.of.keys}, strings.Join(besideKey(f.beside, k.words), " "))
	switch {
	case word != "" && keyOf(k.of.keys, "reading").name != "":
		w.put(append(slices.Clone(path), "reading"), value)
		w.put(append(slices.Clone(path), word), strings.Join(besideKey(f.beside, k.words), " "))
	case f.speed != "" && keyOf(k.of.keys, "at").name != "":
		w.put(path, value+" at "+f.speed)
	case f.speed != "" && k.of.form == asAtSpeeds:
		w.put(append(slices.Clone(path), f.speed), value)
	case f.speed != "":
		w.put(path, value)
		w.speed = f.speed
	default:
		w.put(path, value)
	}
}

// wordsBeside puts the words beside a figure under the keys of the section that take them.
func (w *sectionWriter) wordsBeside(f toldFigure, k toldKey, keys []key) {
	for _, word := range besideKey(f.beside, k.words) {
		name := keyTaking(key{keys: keys}, word)
		given := slices.ContainsFunc(w.paths, func(p []string) bool { return p[0] == name })
		if name != "" && name != word && !given && !slices.Contains(sayLittle, word) && !slices.Contains(deniers, word) && keyTaking(key{keys: k.of.keys}, word) == "" {
			w.put([]string{name}, word)
		}
	}
}

// besideKey are the words beside a figure that are neither its key's nor say nothing.
func besideKey(words []toldWord, called []string) []string {
	var out []string
	for _, w := range words {
		if !tellsWord(w.low) && !slices.ContainsFunc(called, func(c string) bool { return slices.Contains(strings.Fields(c), w.low) }) {
			out = append(out, w.low)
		}
	}
	return out
}

// boiling is, give or take, where water boils in Celsius.
const boiling = 110

// unitLikely is the unit in which a bare figure is, among some: temperatures above the boiling point of water are Fahrenheit.
func unitLikely(number float64, units []quantity.Unit) quantity.Unit {
	if number > boiling && slices.Contains(units, quantity.Fahrenheit) {
		return quantity.Fahrenheit
	}
	return units[0]
}

// figure is a figure as the file has it.
func (w *sectionWriter) figure(f toldFigure, k key) string {
	text := strings.TrimLeft(f.text, "+")
	if k.signed && slices.Contains(w.units, quantity.InH2O) && saidIn(f.beside, "vacuum") && f.number > 0 { // in a crankcase
		text, f.number = "-"+text, -f.number
	}
	if f.unit == quantity.Inch && slices.Contains(w.units, quantity.InH2O) {
		return plainNumber(f.number) + " " + string(quantity.InH2O)
	}
	if f.unit == quantity.Inch && slices.Contains(w.units, quantity.InHg) {
		return plainNumber(f.number) + " " + string(quantity.InHg)
	}
	if side := sideIn(f.beside); side != "" && (f.unit == quantity.Degree || slices.Contains(k.units, quantity.Degree)) {
		return plainNumber(f.number) + " deg " + side
	}
	return text
}

// sideIn is the side of a mark that is named beside an angle.
func sideIn(words []toldWord) string {
	for size := min(4, len(words)); size > 0; size-- {
		for i := 0; i+size <= len(words); i++ {
			if said := strings.ToLower(textOf(words[i : i+size])); isSide(said) {
				return said
			}
		}
	}
	return ""
}

// putAt puts a value that stands by its speed.
func (w *sectionWriter) putAt(path []string, value string, f toldFigure) {
	w.bare = w.bare || f.unit == quantity.None
	if inner, ok := strings.CutPrefix(value, "{"); ok { // {2500 rpm: 45}
		name, figure, _ := strings.Cut(strings.TrimSuffix(inner, "}"), ": ")
		w.put(append(slices.Clone(path), name), figure)
		return
	}
	w.put(path, value)
}

func (w *sectionWriter) put(path []string, value string) {
	w.paths, w.values = append(w.paths, path), append(w.values, value)
}

// written are the values under their keys, those of one group together.
func (w *sectionWriter) written() string {
	var out []string
	done := map[string]bool{}
	for i, path := range w.paths {
		if done[path[0]] {
			continue
		}
		done[path[0]] = true
		if len(path) == 1 {
			out = append(out, path[0]+": "+w.values[i])
			continue
		}
		inner := &sectionWriter{}
		for j, p := range w.paths {
			if p[0] == path[0] && len(p) > 1 {
				inner.put(p[1:], w.values[j])
			}
		}
		out = append(out, path[0]+": {"+inner.written()+"}")
	}
	return strings.Join(out, ", ")
}

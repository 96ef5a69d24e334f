package job

import (
	"slices"
	"strconv"
	"strings"
)

// A saying is what one text tells of some cylinders.
type saying struct {
	names   []string // 'others' for all that are not named
	value   typed
	row     []saying // of each cylinder its own, where several are named together
	from    int      // the word at which its cylinders are named
	end     int      // the word behind it
	excepts bool     // it stands behind 'except'
	plain   bool     // a bare number is named, with nothing that says that it is a cylinder
	linked  bool     // words stand between that say that it is of these
	raw     bool     // the value is not understood
}

// A heads is some cylinders that are named at a word of a text.
type heads struct {
	names []string
	end   int
	plain bool // a bare number, which may be anything
}

// A teller takes what one text tells of cylinders apart.
type teller struct {
	r      *reader
	words  []toldWord
	whole  []rune
	reads  func(string) (string, bool) // how a value is to be written, where it is one
	links  []string
	behind []string // between a value and its cylinder
	soft   bool     // values are words
	free   bool     // any words are one
	beside bool     // bare numbers one behind the other are cylinders
	rows   bool     // cylinders that are named together may have a row behind them
	tries  int
}

// mostTold is how many words a text may have that is taken apart, mostTries how many ways are gone.
const (
	mostTold  = 120
	mostTries = 4000
)

func (r *reader) teller(text string, reads func(string) (string, bool), links ...string) *teller {
	if len(text) > longestSaid || len(r.cylinderNames) < 2 {
		return nil
	}
	text = withBlanks(text)
	t := &teller{r: r, words: toldWords(text), whole: []rune(text), reads: reads, links: append(links, tellsOf...),
		behind: append([]string{"on", "in", "for", "at", "@", "from", "on the", "in the", "with", "with number", "out of", "at number", "on number"}, links...)}
	if len(t.words) < 2 || len(t.words) > mostTold {
		return nil
	}
	units := 0
	for i := range t.words {
		bar := i > 0 && t.words[i].low == "bar"
		t.words[i].excepted = bar && len(t.headsAt(i+1)) > 0
		if bar && !t.words[i].excepted && startsWithFigure(t.words[i-1].low) {
			units++
		}
	}
	for i := range t.words { // 24 bar 3 20 bar, where it is the unit
		t.words[i].excepted = t.words[i].excepted && !(units > 0 && startsWithFigure(t.words[i-1].low))
	}
	return t
}

// phrase is the end of the longest of some phrases at a word.
func (t *teller) phrase(at int, phrases []string) int {
	end := toldPhrase(t.words, at, phrases)
	if end > at && t.words[at].low == "bar" && !t.words[at].excepted {
		return at
	}
	return end
}

// cylinderAt gives the cylinder that is named at a word, and the word behind it.
func (t *teller) cylinderAt(at int) (name string, end int, plain bool) {
	names := t.r.cylinderNames
	i := at
	for i < len(t.words) && i < at+2 && slices.Contains(cylinderNoun, t.words[i].low) {
		i++
	}
	if i == len(t.words) || t.words[i].breaks {
		return "", at, false
	}
	word := t.words[i].low
	if n := ordinal(word); n > 0 && (i == 0 || !slices.Contains([]string{"a", "per", "each", "every", "one"}, t.words[i-1].low)) {
		if !slices.Contains(names, strconv.Itoa(n)) {
			return "", at, false
		}
		i++
		if i < len(t.words) && (t.words[i].low == "one" || slices.Contains(cylinderNoun, t.words[i].low)) {
			i++
		}
		return strconv.Itoa(n), i, false
	}
	if last := names[len(names)-1]; i == at && word == "last" && isWhole(last) && i+1 < len(t.words) && (t.words[i+1].low == "one" || slices.Contains(cylinderNoun, t.words[i+1].low)) {
		return last, i + 2, false
	}
	if i+1 < len(t.words) && i == at { // left 2
		if two := t.r.cylinderMeant(word + " " + t.words[i+1].low); slices.Contains(names, two) && !isWhole(word) {
			return two, i + 2, false
		}
	}
	if word == "one" && i == at && !slices.ContainsFunc(t.words, func(w toldWord) bool { return w.low == "two" }) { // one of them
		return "", at, false
	}
	if meant := t.r.cylinderMeant(t.words[i].text); slices.Contains(names, meant) {
		return meant, i + 1, i == at && (meant == word || numberWords[word] > 0)
	}
	return "", at, false
}

// ordinal is the number that a word puts things in order by, third and 3rd; 0 for any other.
func ordinal(word string) int {
	for _, end := range []string{"st", "nd", "rd", "th"} {
		if before, ok := strings.CutSuffix(word, end); ok && isWhole(before) {
			n, _ := strconv.Atoi(before)
			return n
		}
	}
	return slices.Index(ordinalWords, word) + 1
}

// countAt is a number at a word, in figures or in words; 0 for none.
func (t *teller) countAt(at int) int {
	if at >= len(t.words) {
		return 0
	}
	if n, err := strconv.Atoi(t.words[at].low); err == nil {
		return n
	}
	return numberWords[t.words[at].low]
}

// groupAt gives the cylinders that are named together in words at a word.
func (t *teller) groupAt(at int) (names []string, end int) {
	all := t.r.cylinderNames
	i := t.phrase(at, []string{"the", "on the", "both"})
	word := t.words[min(i, len(t.words)-1)].low
	switch n := t.countAt(i + 1); {
	case i == len(t.words):
		return nil, at
	case word == "first" && n > 1 && n < len(all):
		return all[:n], i + 2
	case word == "last" && n > 1 && n < len(all):
		return all[len(all)-n:], i + 2
	case word == "all" && n > 1 && n == len(all), word == "other" && n > 0 && n < len(all):
		end := i + 2
		if end < len(t.words) && slices.Contains(cylinderNoun, t.words[end].low) {
			end++
		}
		return []string{others}, end
	}
	if t.countAt(i) == len(all) && i+1 < len(t.words) && slices.Contains([]string{"cylinders", "cyls", "plugs", "pots", "holes", "injectors"}, t.words[i+1].low) { // all 8 cylinders
		return []string{others}, i + 2
	}
	if end := t.phrase(at, othersTold); end > at {
		return []string{others}, end
	}
	if end := t.phrase(at, allTold); end > at {
		return []string{others}, end
	}
	if parity := strings.TrimSuffix(word, "s"); parity == "odd" || parity == "even" {
		return t.r.groupOf(parity), t.phrase(i+1, []string{"bank", "side", "ones", "cylinders", "numbers", "cyls"})
	}
	if bank, ok := t.r.bankNamed(word); ok && !slices.Contains(all, word) && !t.endNamed(i) {
		return bank.Cylinders, t.phrase(i+1, []string{"bank", "side", "hand side", "hand bank", "hand", "row", "head"})
	}
	return nil, at
}

var gluedNames = lazily(`^#?\d{1,2}(?:[,&+/-]#?\d{1,2})+$`)

// headsAt gives the ways in which cylinders are named at a word, alone or with others behind.
func (t *teller) headsAt(at int) []heads {
	var out []heads
	if at >= len(t.words) {
		return nil
	}
	if names, end := t.groupAt(at); end > at {
		out = append(out, heads{names, end, false})
	}
	first := heads{}
	if glued := t.words[at].low; gluedNames().MatchString(glued) {
		first = heads{t.r.groupOf(glued), at + 1, false}
	} else if i := t.phrase(at, append([]string{"the", "both", "on"}, cylinderNoun...)); i > at && i < len(t.words) && gluedNames().MatchString(t.words[i].low) { // cyls 1,2
		first = heads{t.r.groupOf(t.words[i].low), i + 1, false}
	} else if name, end, plain := t.cylinderAt(t.phrase(at, []string{"the", "both"})); name != "" {
		first = heads{[]string{name}, end, plain}
	}
	if len(first.names) == 0 {
		return out
	}
	return append(out, t.further(first)...)
}

// further gives cylinders with those that stand behind them one by one, 1, 2 and 4, 1 to 4.
func (t *teller) further(first heads) []heads {
	out := []heads{first}
	last := first
	for {
		i := last.end
		if len(first.names) == 1 && len(last.names) == 1 { // to
			if j := t.phrase(i, []string{"to", "thru", "through", "-", "–"}); j > i {
				name, end, _ := t.cylinderAt(j)
				from, to := slices.Index(t.r.cylinderNames, first.names[0]), slices.Index(t.r.cylinderNames, name)
				if from >= 0 && to > from {
					return append(out, heads{t.r.cylinderNames[from : to+1], end, false})
				}
			}
		}
		j := i
		for j < len(t.words) && j < i+2 && (t.words[j].low == "," || t.words[j].low == "/") {
			j++
		}
		j = t.phrase(j, []string{"and", "&", "n", "+", "'n'", "or"})
		name, end, _ := t.cylinderAt(j)
		beside := j == i && (t.soft || t.beside) && end == j+1 && isWhole(name) // tan on 1 2 and 4
		if j == i && !beside || name == "" || slices.Contains(last.names, name) {
			return out
		}
		last = heads{append(slices.Clone(last.names), name), end, false}
		out = append(out, last)
	}
}

// link is the end of what stands between cylinders and what is told of them.
func (t *teller) link(at int) int {
	for {
		end := t.phrase(at, t.links)
		if t.soft {
			end = max(end, t.phrase(at, softly))
		}
		if end == at {
			return at
		}
		at = end
	}
}

// mostOfValue is how many words a value has at most.
const mostOfValue = 7

// valuesAt gives the values that begin at a word.
func (t *teller) valuesAt(at int) (out []saying) {
	for end := at + 1; end <= min(at+mostOfValue, len(t.words)); end++ {
		if last := t.words[end-1]; last.breaks && last.low != "/" || last.excepted || last.low == "=" || last.low == ":" {
			break
		}
		text := t.text(at, end)
		if t.words[at].bracket && end == at+1 {
			text = strings.Trim(text, "() ")
		}
		if value, ok := t.reads(text); ok {
			out = append(out, saying{value: typed{value, t.words[at].at}, end: end})
		}
	}
	return out
}

// text is what stands between two words as it was written.
func (t *teller) text(from, to int) string {
	return string(t.whole[t.words[from].at:t.words[to-1].end])
}

// clausesAt gives what may be told at a word: of cylinders that are named before or behind it, and
// of all.
func (t *teller) clausesAt(at int) (out []saying) {
	for _, h := range t.headsAt(at) {
		linked := t.link(h.end)
		values := t.valuesAt(linked)
		if len(values) == 0 {
			values = t.valuesAt(h.end)
		}
		if len(values) == 0 && !h.plain && h.end < len(t.words) && t.words[h.end].low == "," && len(t.headsAt(h.end+1)) == 0 { // the second one, 85
			values = t.valuesAt(t.link(h.end + 1))
		}
		if row := t.rowAt(linked, len(h.names)); t.rows && len(h.names) > 1 && len(row) > 0 {
			out = append(out, saying{names: h.names, row: row, end: row[len(row)-1].end})
		}
		dash := linked == h.end+1 && slices.Contains([]string{"-", "–"}, t.words[h.end].low) // which may be a band's
		for _, v := range values {
			v.names, v.plain = h.names, h.plain && (linked == h.end || dash)
			v.end = t.phrase(v.end, []string{"each", "apiece", "both", "all"})
			out = append(out, v)
		}
	}
	begin := t.phrase(at, []string{"got", "i got", "we got", "only", "only got", "just", "had", "there's", "there is", "there was"})
	for _, v := range t.valuesAt(begin) {
		if on := t.phrase(v.end, t.behind); on > v.end {
			for _, h := range t.headsBehind(on) {
				v.names, v.end = h.names, h.end
				out = append(out, v)
			}
		}
		if end := t.phrase(v.end, behindAll); end > v.end {
			out = append(out, saying{names: []string{others}, value: v.value, end: end})
		}
		if t.phrase(v.end, apartFrom) > v.end {
			out = append(out, saying{names: []string{others}, value: v.value, end: v.end})
		}
	}
	return out
}

// headsBehind are cylinders that stand behind what is told of them, where nothing else follows them: 0.3 on 1 2 and 4.
func (t *teller) headsBehind(at int) []heads {
	out := t.headsAt(at)
	t.beside = true
	all := t.headsAt(at)
	t.beside = false
	if last := len(all) - 1; last >= len(out) && (all[last].end == len(t.words) || t.words[all[last].end].breaks) {
		out = append(out, all[last])
	}
	return out
}

// rowAt reads one value after another for some cylinders that are named together.
func (t *teller) rowAt(at, cylinders int) (row []saying) {
	for len(row) < cylinders {
		values := t.valuesAt(at)
		if len(values) == 0 {
			return nil
		}
		row = append(row, values[0])
		if at = values[0].end; at < len(t.words) && t.words[at].low == "," && len(row) < cylinders {
			at++
		}
	}
	return row
}

// between is the end of what stands between two things that are told, and whether the next one
// is excepted from the last.
func (t *teller) between(at int) (end int, excepts bool) {
	for at < len(t.words) {
		switch end := t.phrase(at, apartFrom); {
		case end > at:
			at, excepts = end, true
		case t.words[at].breaks:
			at++
		case t.phrase(at, joinsTold) > at:
			at = t.phrase(at, joinsTold)
		default:
			return at, excepts
		}
	}
	return at, excepts
}

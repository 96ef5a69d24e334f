package job

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"

	"gaugesheet/diag"
)

// A section is a set of keys being read. All its methods take a nil section
// for one that the file does not have.
type section struct {
	r    *reader
	name string // as messages have it; "" for the whole file
	node *node
	keys []key
}

// section checks the keys of a mapping. It is nil where the node is no mapping.
func (r *reader) section(n *node, name string, keys []key) *section {
	if n == nil {
		return nil
	}
	if isEmpty(n) {
		r.report(n.pos, "give it a value, or leave it out", "%s has no value", orFile(name))
		return nil
	}
	if n.kind != mapping {
		r.noSection(n, name, keys)
		return nil
	}
	r.joinWords(n, keys)
	joinList(n, keys)
	oneSpelling(n, keyNames(keys))
	r.outdented(n, keys)
	for i, e := range n.entries {
		switch {
		case keyOf(keys, e.key).name == "":
			if !r.cylinderAsKey(n, i, name) {
				r.unknownKey(n, i, name, keys)
			}
		case (keyOf(keys, e.key).form == asText || strings.HasSuffix(e.value.text, ",") && !r.saidWhole(e, keyOf(keys, e.key))) && r.cutShort(e, labelOf(name, e.key)):
		case isEmpty(e.value) && !r.hidden(e, labelOf(name, e.key)):
			r.report(e.pos, emptyHint(e.key), "'%s' has no value", labelOf(name, e.key))
		}
	}
	return &section{r, name, n, keys}
}

// oneSpelling gives keys that are written in another way, with capitals, with
// spaces or signs for hyphens, or as in American English, the spelling that they
// are known by.
func oneSpelling(n *node, known []string) {
	if n == nil {
		return
	}
	for i, e := range n.entries {
		if slices.Contains(known, e.key) {
			continue
		}
		name := strings.NewReplacer(" ", "-", "_", "-").Replace(fold(strings.TrimRight(e.key, " :")))
		if other, ok := otherSpellings[name]; ok {
			name = other
		}
		if slices.Contains(known, name) && n.get(name) == nil {
			n.entries[i].key = name
		}
	}
}

func orFile(name string) string {
	if name == "" {
		return "the file"
	}
	return "'" + name + "'"
}

func isEmpty(n *node) bool { return n.kind == scalar && (n.null || n.text == "") }

func emptyHint(key string) string {
	switch key {
	case "before":
		return "what was read before the work stands below it, two spaces further in, or within its braces: 'before: {done: ..., compression: {unit: psi, dry: {...}}}'"
	case "accent":
		return `a # begins a comment unless it is in quotes: accent: "#2e6b57"`
	case "dry", "first", "again", "wet", "loss", "compression", "leakage", "plugs", "rotors", "fuel-pressure",
		"key-on", "idle", "hose-off", "snap", "return-pinched", "held":
		return emptyReading
	}
	return "give it a value, or leave the key out"
}

const emptyReading = "say which you mean: not tested, could not test (why), declined, not applicable, or 0 for no pressure"

// get gives the value of a key, nil where it is not given or is empty.
func (s *section) get(key string) *node {
	if s == nil {
		return nil
	}
	n := s.node.get(key)
	if n == nil || isEmpty(n) {
		return nil
	}
	return n
}

func (s *section) keyPos(key string) Pos {
	if s == nil {
		return Pos{}
	}
	return s.node.keyPos(key)
}

// label names a key of the section in messages.
func (s *section) label(key string) string { return labelOf(s.name, key) }

func labelOf(section, key string) string {
	if section == "" {
		return short(key)
	}
	return section + "." + short(key)
}

// group gives the section under a key.
func (s *section) group(key string) *section {
	n := s.get(key)
	if n == nil {
		return nil
	}
	return s.r.section(n, s.label(key), keysOf(s.keys, key))
}

// scalar gives a key's single value, nil where there is none.
func (s *section) scalar(key string) *node {
	n := s.get(key)
	if n == nil {
		return nil
	}
	return s.r.scalar(n, s.label(key), "one value")
}

func (r *reader) scalar(n *node, label, expected string) *node {
	if n.kind != scalar {
		r.report(n.pos, inOneText(n, label), "'%s' is %s, expected %s", label, describe(n), expected)
		return nil
	}
	return n
}

// inOneText says how a list of texts, or what is told of some cylinders, is written as one;
// "" for anything else.
func inOneText(n *node, label string) string {
	var texts []string
	for _, e := range n.entries {
		if e.value.kind != scalar || strings.Trim(e.key, "0123456789") != "" || plainQuantity(e.value.text) && isFigures(e.value.text) {
			return ""
		}
		texts = append(texts, e.key+": "+e.value.text)
	}
	if len(texts) > 0 {
		return "write it in one text, " + label[strings.LastIndexByte(label, '.')+1:] + ": '" + short(strings.Join(texts, "; ")) + "'"
	}
	for _, item := range n.items {
		if item.kind != scalar {
			return ""
		}
		texts = append(texts, item.text)
	}
	switch key := label[strings.LastIndexByte(label, '.')+1:]; {
	case n.kind != list || len(texts) == 0:
		return ""
	case len(texts) == 1:
		return "write " + key + ": " + short(texts[0])
	default:
		return "write " + key + `: "` + short(strings.Join(texts, "; ")) + `"`
	}
}

// text gives a key's text with its place.
func (s *section) text(key string) Text {
	n := s.scalar(key)
	if n == nil {
		return Text{}
	}
	return Text{n.text, n.pos}
}

// list gives the items of a list.
func (s *section) list(key, example string) []*node {
	n := s.get(key)
	if n == nil {
		return nil
	}
	if n.kind != list {
		hint := "write " + key + ": " + example
		if n.kind == scalar && keyOf(s.keys, key).form != asGroups {
			hint = fmt.Sprintf("write %s: [%s]", key, n.text)
		} else if n.kind == mapping && keyOf(s.keys, key).form == asTexts && !slices.ContainsFunc(n.entries, func(e entry) bool { return e.value.kind != scalar || isEmpty(e.value) }) { // head gasket: weeping
			texts := make([]string, len(n.entries))
			for i, e := range n.entries {
				texts[i] = strconv.Quote(e.key + ": " + e.value.text)
			}
			hint = "a text with a colon needs quotes: write " + key + ": [" + strings.Join(texts, ", ") + "]"
		}
		s.r.report(n.pos, hint, "'%s' is %s, expected a list", s.label(key), describe(n))
		return nil
	}
	return n.items
}

// texts gives a list of texts; one text stands for a list of it.
func (s *section) texts(key string) []Text {
	var out []Text
	items := []*node{s.get(key)}
	if items[0] == nil || items[0].kind != scalar {
		items = s.list(key, "[first, second]")
	} else if codes := codesIn(items[0]); key == "codes" && codes != nil {
		items = codes
	} else if marked := s.r.markedTexts(items[0]); marked != nil {
		items = marked
	}
	for _, item := range items {
		if isEmpty(item) {
			s.r.report(item.pos, "leave it out", "an entry of '%s' is empty", s.label(key))
		} else if n := s.r.scalar(item, s.label(key), "a list of texts"); n != nil {
			out = append(out, Text{n.text, n.pos})
		}
	}
	return out
}

// word gives a key's value where it is one of the words of the key table.
func (s *section) word(key string) Text {
	n := s.scalar(key)
	if n == nil {
		return Text{}
	}
	return s.r.wordOf(n, s.label(key), keyOf(s.keys, key))
}

// wordOf takes one of a key's words, or another that stands for it.
func (r *reader) wordOf(n *node, label string, k key) Text {
	vocabulary := vocabularyOf(k.says)
	word, hint := vocabulary.find(n.text, k.words)
	if word != "" {
		return Text{word, n.pos}
	}
	hint = cmp.Or(hint, temperatureHint(n.text, k), twoWordsHint(vocabulary, n.text, k.words), vocabulary.askedWithin(n.text), meant(n.text, k.words))
	if near := vocabulary.nearTo(n.text, k.words); hint == "" && near != "" {
		hint = fmt.Sprintf("did you mean '%s'?", near)
	}
	hint = cmp.Or(hint, vocabulary.Else)
	r.report(n.pos, hint, "'%s' is '%s', expected %s", label, short(n.text), anyOf(k.words))
	return Text{}
}

func (s *section) wordList(key string) []string {
	if s == nil {
		return nil
	}
	var out []string
	k := keyOf(s.keys, key)
	for _, item := range s.wordItems(key, k) {
		n := s.r.scalar(item, s.label(key), "a list of words")
		if n == nil {
			continue
		}
		if w := s.r.wordOf(n, s.label(key), k); w.Value != "" {
			out = append(out, w.Value)
		}
	}
	return out
}

// wordItems are the items of a list of words, which may be written as one text.
func (s *section) wordItems(key string, of key) []*node {
	items := []*node{s.get(key)} // one word stands for a list of it
	if items[0] == nil || items[0].kind != scalar {
		items = s.list(key, "["+of.words[0]+"]")
	} else if vocabulary := vocabularyOf(of.says); !vocabulary.answers(items[0].text, of.words) && severalWords(vocabulary, items[0].text, of.words) != nil {
		pieces := severalWords(vocabulary, items[0].text, of.words) // misfire, oil use
		items = nil
		for _, t := range pieces {
			items = append(items, s.r.piece(s.get(key), t))
		}
	}
	return items
}

// severalWords takes a text of several words of a list apart, at its commas, or at
// 'and' where each part is such a word; nil for any other text.
func severalWords(v Vocabulary, text string, words []string) []typed {
	if strings.ContainsAny(text, ",;/") {
		return separate(text, ",;/")
	}
	pieces := separate(strings.NewReplacer(" and ", "  ;  ", " & ", " ; ", " + ", " ; ").Replace(text), ";")
	for _, p := range pieces {
		if !v.answers(p.text, words) {
			return nil
		}
	}
	if len(pieces) < 2 {
		return nil
	}
	return pieces
}

func (s *section) yesNo(key string) diag.Tri {
	n := s.scalar(key)
	if n == nil {
		return diag.Unknown
	}
	vocabulary := vocabularyOf("yes or no")
	word, _ := vocabulary.find(n.text, vocabulary.Words)
	switch {
	case word == "yes":
		return diag.Yes
	case word == "no":
		return diag.No
	case slices.Contains(strings.Split(notSure, "; "), plainWords(n.text)): // as where the line is left out
		return diag.Unknown
	}
	s.r.report(n.pos, "leave the line out where nobody knows", "'%s' is '%s', expected yes or no", s.label(key), short(n.text))
	return diag.Unknown
}

// whole gives a whole number from low to high; 0 where it is not given.
func (s *section) whole(key string, low, high int) int {
	n := s.scalar(key)
	if n == nil {
		return 0
	}
	return s.r.whole(n, s.label(key), low, high)
}

func (r *reader) whole(n *node, label string, low, high int) int {
	counts := vocabularyOf("number of cylinders")
	text := n.text
	if number, what, ok := strings.Cut(fold(text), " "); ok && (strings.HasSuffix(label, what) || slices.Contains(keysCalled(what), label[strings.LastIndexByte(label, '.')+1:])) { // 6 strokes, 6 cranks
		text = number
	}
	if number, _ := counts.find(text, counts.Words); number != "" && strings.ContainsFunc(text, unicode.IsLetter) && high <= mostStrokes { // six
		text = number
	}
	v, err := strconv.Atoi(text)
	if err != nil || v < low || v > high {
		hint := ""
		if a, b, ok := strings.Cut(text, "-"); ok && isWhole(a) && isWhole(b) {
			hint = "write " + a + " or " + b
		}
		if a, b, ok := strings.Cut(fold(n.text), " or "); ok && isWhole(a) && startsWithFigure(b) { // 6 or 7 turns
			hint = "write " + a + " or " + strings.Fields(b)[0]
		}
		r.report(n.pos, hint, "'%s' is '%s', expected a whole number from %d to %d", label, short(n.text), low, high)
		return 0
	}
	return v
}

var isoDate = lazily(`^\d{4}-\d{2}-\d{2}$`)

// date gives a key's date; the zero time where it is not given.
func (s *section) date(key string) Date {
	n := s.scalar(key)
	if n == nil {
		return Date{}
	}
	d, err := time.Parse(time.DateOnly, n.text)
	if err != nil || !isoDate().MatchString(n.text) {
		s.r.report(n.pos, s.r.dateAnswer(n.text), "'%s' is '%s', expected a date of the calendar", s.label(key), short(n.text))
		return Date{}
	}
	if !s.r.checkDate(n, s.label(key), d) {
		return Date{}
	}
	return Date{Time: d, Entered: Text{n.text, n.pos}}
}

// clock gives a key's time of day as entered.
func (s *section) clock(key string) Text {
	n := s.scalar(key)
	if n == nil {
		return Text{}
	}
	if _, err := time.Parse("15:04", n.text); err != nil {
		s.r.report(n.pos, `hours and minutes in quotes, such as "09:40"`, "'%s' is '%s', expected a time of day", s.label(key), short(n.text))
		return Text{}
	}
	return Text{n.text, n.pos}
}

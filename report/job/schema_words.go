package job

import (
	"cmp"
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"gaugesheet/diag/engine"
	"gaugesheet/diag/quantity"
)

// wordOf is the schema of a word of a key: its own, which an editor offers, or
// another that stands for one of them.
func (w *schemaWriter) wordOf(k key) Object {
	base := "word-" + defName(cmp.Or(k.says, k.name+"-"+k.words[0]))
	name := base
	for i := 2; w.words[name] != nil && !slices.Equal(ownWords(w.words[name]), k.words); i++ {
		name = fmt.Sprintf("%s-%d", base, i)
	}
	w.keep(name, func() Object {
		others := vocabularyOf(k.says).others(k.words)
		if k.name == "unit" {
			for _, u := range k.words {
				others = append(others, quantity.Spellings(quantity.Unit(u))...)
			}
		}
		if k.says == "complaint" {
			return append(orOwnWords(wordSchema(k.words, slices.Concat(others, noComplaint))), Member{"description", k.allWords()})
		}
		return append(wordSchema(k.words, others), Member{"description", k.allWords()})
	})
	return Object{{"$ref", "#/$defs/" + name}}
}

// defName is a name as $defs has them.
func defName(name string) string {
	return strings.Map(func(c rune) rune {
		if c >= 'a' && c <= 'z' || c >= '0' && c <= '9' {
			return c
		}
		return '-'
	}, strings.ToLower(name))
}

// keep makes a schema for $defs where there is none of that name.
func (w *schemaWriter) keep(name string, make func() Object) {
	if w.words[name] == nil {
		w.words[name] = make()
		w.order = append(w.order, name)
	}
}

func (w *schemaWriter) wordDefs() Object {
	var out Object
	for _, name := range w.order {
		out = append(out, Member{name, w.words[name]})
	}
	return out
}

// wordSchema takes a list of words, and others in any case.
func wordSchema(words, others []string) Object {
	var values []any
	var spellings []string
	for _, word := range slices.Concat(words, others) {
		spellings = append(spellings, anyCase(word))
		if word == "true" || word == "false" { // as YAML has them
			values = append(values, word == "true")
		}
		if jsonNumber().MatchString(word) {
			values = append(values, json.Number(word))
		}
	}
	out := []any{Object{{"enum", words}}, Object{{"type", "string"}, {"pattern", "^ *(?:" + strings.Join(spellings, "|") + ") *$"}}}
	if len(values) > 0 {
		out = append(out, Object{{"enum", values}})
	}
	return either(out...)
}

func spelledAny(phrases []string) []string {
	out := make([]string, len(phrases))
	for i, phrase := range phrases {
		out[i] = anyCase(phrase)
	}
	return out
}

// orOwnWords takes what a customer says in words of his own too, as inOwnWords does: text of
// some letters, and of two long words where a figure stands in it.
func orOwnWords(words Object) Object {
	list, _ := words[0].Value.([]any)
	least := strconv.Itoa(leastLetters)
	plain := Object{{"type", "string"}, {"pattern", `^(?:[^0-9\p{L}]*\p{L}){` + least + `}[^0-9]*$`}}
	figures := Object{{"type", "string"}, {"pattern", `\p{L}{` + least + `}.*[^\p{L}].*\p{L}{` + least + `}`}}
	return either(append(list, plain, figures)...)
}

func ownWords(schema Object) []string {
	list, _ := schema[0].Value.([]any)
	first, _ := list[0].(Object)
	words, _ := first[0].Value.([]string)
	return words
}

// anyCase is a pattern of a phrase: case, hyphens and spaces do not matter.
func anyCase(phrase string) string {
	var b strings.Builder
	for _, c := range phrase {
		lower, upper := strings.ToLower(string(c)), strings.ToUpper(string(c))
		switch {
		case strings.ContainsRune(" -_", c):
			b.WriteString("[ _-]+")
		case strings.ContainsRune("'.!", c):
			b.WriteString("[" + string(c) + "]?")
		case lower != upper:
			b.WriteString("[" + upper + lower + "]")
		case strings.ContainsRune(`\\^$*+?()[]{}|/`, c):
			b.WriteString(`\` + string(c))
		default:
			b.WriteRune(c)
		}
	}
	return b.String()
}

func (w *schemaWriter) yesOrNo() Object {
	w.keep("yes-or-no", func() Object {
		v := vocabularyOf("yes or no")
		return append(wordSchema(v.Words, append(v.others(v.Words), strings.Split(notSure, "; ")...)), Member{"description", "yes or no"})
	})
	return Object{{"anyOf", []any{Object{{"type", "boolean"}}, Object{{"$ref", "#/$defs/yes-or-no"}}}}}
}

// state is the schema of a section that is only a word such as 'declined'.
func (w *schemaWriter) state() Object {
	w.keep("state", func() Object {
		v := vocabularyOf("state of a test")
		var spellings []string
		for _, word := range slices.Concat(v.Words, v.others(v.Words)) {
			spellings = append(spellings, anyCase(word))
		}
		return either(Object{{"enum", v.Words}}, Object{{"type", "string"}, {"pattern", "^ *(?:" + strings.Join(spellings, "|") + ")"}})
	})
	return Object{{"$ref", "#/$defs/state"}}
}

// described is what is said of a key, with the other words that it takes.
func (k key) described() string {
	var others []string
	for _, w := range k.wordsWithOthers() {
		if len(w.Also) > 0 {
			others = append(others, w.Name+" (also "+strings.Join(w.Usual(), ", ")+")")
		}
	}
	if len(others) == 0 {
		return k.doc
	}
	return k.doc + " Words: " + strings.Join(others, "; ") + "."
}

// allWords lists the words of a key with every other that is taken for them.
func (k key) allWords() string {
	var out []string
	for _, w := range k.wordsWithOthers() {
		text := w.Name
		if len(w.Also) > 0 {
			text += ": " + strings.Join(w.Also, ", ")
		}
		out = append(out, text)
	}
	return strings.Join(out, "; ")
}

// aloneWords is the schema of the words that stand for a section of which each
// goes to one of its keys; of none where there are no such words.
func (w *schemaWriter) aloneWords(section key) Object {
	if section.name == "plugs" {
		return w.looksInOne()
	}
	var spellings []string
	for _, k := range section.keys {
		if k.form != asWord && k.form != asWordList || k.says == "" {
			continue
		}
		for _, word := range slices.Concat(k.words, vocabularyOf(k.says).others(k.words)) {
			if _, _, stated := parseState(word); !stated && keyTaking(section, word) != "" {
				spellings = append(spellings, word)
			}
		}
	}
	if len(spellings) == 0 {
		return Object{{"not", Object{}}}
	}
	name := "words-of-" + section.name
	w.keep(name, func() Object { return listOf(spellings) })
	return Object{{"$ref", "#/$defs/" + name}}
}

// wordsOf is the schema of a line of a key's words.
func (w *schemaWriter) wordsOf(k key) Object {
	name := "words-" + defName(k.says)
	w.keep(name, func() Object { return listOf(slices.Concat(k.words, vocabularyOf(k.says).others(k.words))) })
	return Object{{"$ref", "#/$defs/" + name}}
}

// looksInOne is the schema of looks in one text: one for all, or one for each.
func (w *schemaWriter) looksInOne() Object {
	w.keep("looks-in-one", func() Object {
		look := keyOf(plugKeys, "look")
		var spellings []string
		for _, word := range slices.Concat(look.words, vocabularyOf(look.says).others(look.words)) {
			spellings = append(spellings, anyCase(word))
		}
		one := "(?:" + strings.Join(spellings, "|") + ")"
		return Object{{"type", "string"}, {"pattern", "^ *(?:[Aa][Ll][Ll] +)?" + one + "(?: *[,; ] *" + one + ")* *$"}}
	})
	return Object{{"$ref", "#/$defs/looks-in-one"}}
}

// listOf is the schema of a line of some words with commas between.
func listOf(all []string) Object {
	spellings := make([]string, len(all))
	for i, word := range all {
		spellings[i] = anyCase(word)
	}
	words := "(?:" + strings.Join(spellings, "|") + ")"
	return Object{{"type", "string"}, {"pattern", "^ *" + words + "(?: *[,;] *" + words + ")* *$"}}
}

// layoutWords are the layouts by name, and other words for them, as patterns:
// those of two banks, those that go round, and all.
type layoutWords struct {
	layouts                     []string
	twoBanks, pair, rotary, all string
}

// layoutsInWords makes the patterns of layouts from the layouts that the
// program knows and the words that are taken for them.
func layoutsInWords() layoutWords {
	var l layoutWords
	kinds, counts := vocabularyOf("engine"), vocabularyOf("number of cylinders")
	var two, pair, rotary, rest []string
	for _, p := range engine.Known() {
		if slices.Contains(l.layouts, p.Spec.Layout) {
			continue
		}
		l.layouts = append(l.layouts, p.Spec.Layout)
		known, problem := engine.ParseLayout(p.Spec.Layout)
		if problem != nil {
			continue
		}
		pattern := layoutPattern(known, kinds, counts)
		switch {
		case known.Kind.TwoBanks() && known.Count == 2:
			pair = append(pair, pattern)
		case known.Kind.TwoBanks():
			two = append(two, pattern)
		case known.Kind == engine.Rotary:
			rotary = append(rotary, pattern)
		default:
			rest = append(rest, pattern)
		}
	}
	rotary = append(rotary, anyCase("rotary"), anyCase("wankel"))
	whole := func(patterns ...string) string {
		return "^ *(?:" + strings.Join(patterns, "|") + ")(?:" + layoutEnds + ")? *$"
	}
	l.twoBanks, l.pair, l.rotary = whole(two...), whole(pair...), whole(rotary...)
	l.all = whole(slices.Concat(two, pair, rotary, rest)...)
	return l
}

// layoutEnds is what may stand behind a layout.
const layoutEnds = "[ _-]+(?:[Ee]ngine|[Cc]ylinders?|[Cc]yl\\.?)"

func layoutPattern(l engine.Layout, kinds, counts Vocabulary) string {
	kind := l.Kind.String()
	words := []string{anyCase(kind)}
	for _, other := range kinds.others([]string{kind}) {
		words = append(words, anyCase(other))
	}
	if l.Kind == engine.Single || l.Kind == engine.Custom {
		return strings.Join(words, "|")
	}
	numbers := []string{fmt.Sprint(l.Count)}
	for _, other := range counts.others([]string{fmt.Sprint(l.Count)}) {
		numbers = append(numbers, anyCase(other))
	}
	number, stands := "(?:"+strings.Join(numbers, "|")+")", "(?:"+strings.Join(words, "|")+")"
	out := stands + "[ _-]*" + number + "|" + number + "[ _-]+(?:[Cc]yl(?:inders?)?\\.?[ _-]+)?" + stands
	if l.Kind == engine.Inline && l.Count == 3 {
		out += "|" + anyCase("triple")
	}
	return "(?:" + out + ")"
}

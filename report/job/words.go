package job

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"gaugesheet/diag/engine"
	"gaugesheet/templates"
)

// fold reduces ways of writing a phrase to one: case and spaces do not matter.
func fold(s string) string {
	if folded(s) {
		return s
	}
	return strings.Join(strings.Fields(strings.ToLower(s)), " ")
}

// folded reports a text of plain letters that is as fold leaves it, as most are.
func folded(s string) bool {
	space := true // none at the start, and no two
	for i := range len(s) {
		switch c := s[i]; {
		case c == ' ' && space, c < ' ', c >= 0x7f, 'A' <= c && c <= 'Z':
			return false
		default:
			space = c == ' '
		}
	}
	return !space || s == ""
}

// short cuts what is quoted in a message to a readable length.
func short(s string) string {
	const most = 60
	s = strings.Join(strings.Fields(s), " ")
	if r := []rune(s); len(r) > most {
		return string(r[:most]) + "..."
	}
	return s
}

// longestWord is beyond what any key or word is long.
const longestWord = 60

// nearest gives the word of the list that s was probably meant to be, or "".
// Hyphens, spaces and underscores do not count, and a beginning is enough. A word that
// says the opposite is never meant, however few letters are between the two.
func nearest(s string, words []string) string {
	if len(s) > longestWord {
		return ""
	}
	words = slices.DeleteFunc(slices.Clone(words), func(word string) bool {
		return opposite(s, word) && !strings.HasPrefix(strings.ToLower(word), strings.ToLower(s))
	})
	plain := strings.NewReplacer("4-stroke", "fourstroke", "2-stroke", "twostroke", "-", "", "_", "", " ", "", ",", "")
	given := plain.Replace(strings.ToLower(s))
	byPlain, begun := map[string]string{}, []string(nil)
	known := make([]string, len(words))
	for i, word := range words {
		w := plain.Replace(strings.ToLower(word))
		if min(len(w), len(given)) >= 3 && (strings.HasPrefix(w, given) || strings.HasPrefix(given, w)) {
			begun = append(begun, word)
		}
		known[i], byPlain[w] = w, word
	}
	if len(begun) == 1 {
		return begun[0]
	}
	if len(given) < 3 { // a number, or an abbreviation of anything
		return ""
	}
	near := templates.Nearest(given, known)
	if len(given) <= 4 && shared(given, near) < len(given)-1 { // hot is no wet
		return ""
	}
	return byPlain[near]
}

// shared counts the letters that two words have in common, wherever they stand.
func shared(a, b string) int {
	n := 0
	for _, c := range a {
		if i := strings.IndexRune(b, c); i >= 0 {
			b = b[:i] + b[i+len(string(c)):]
			n++
		}
	}
	return n
}

// EngineMeant gives the name of an engine, with or without a numbering, in the
// words of the layouts where it is named in other usual ones: 'slant 4', 'V
// eight, bank by bank', and what else is said of it by its keys: 5.7 V8 gas.
func EngineMeant(name string) (layout string, more [][2]string) {
	named := func(layout, numbering string) string {
		if layout = layoutMeant(layout, 0); numbering != "" {
			layout += "," + numbering
		}
		return layout
	}
	first, numbering, _ := strings.Cut(name, ",")
	whole := named(first, numbering)
	if _, problem := engine.SpecFor(whole); problem == nil {
		return whole, nil
	}
	layout, numbering = "", ""
	for _, said := range EngineWords(name) {
		switch said[0] {
		case "layout":
			layout = said[1]
		case "numbering":
			numbering = said[1]
		default:
			more = append(more, said)
		}
	}
	if !isLayout(layout) {
		return whole, nil
	}
	return named(layout, numbering), more
}

// LayoutHint is the hint of an engine's problem; for a layout that is close to
// a known one, that.
func LayoutHint(p engine.Problem, layout string) string {
	if p.Field != "layout" || !strings.HasSuffix(p.Hint, engine.LayoutForms) {
		return p.Hint
	}
	first, _, _ := strings.Cut(layout, ",")
	if hint := cmp.Or(standHint(layout), standHint(first)); hint != "" {
		return hint
	}
	var layouts []string
	for _, known := range engine.Known() {
		layouts = append(layouts, known.Spec.Layout)
	}
	layout, _, _ = strings.Cut(layout, ",") // without a numbering
	if near := nearest(layout, layouts); near != "" {
		return fmt.Sprintf("did you mean '%s'?", near)
	}
	return p.Hint
}

// meant is the hint for a word that is none of those expected.
func meant(found string, words []string) string {
	near := nearest(found, words)
	switch {
	case near != "":
		return fmt.Sprintf("did you mean '%s'?", near)
	case slices.ContainsFunc(words, func(w string) bool { return strings.HasPrefix(w, found+",") }):
		return "within braces a text with a comma needs quotes"
	}
	return ""
}

// anyOf lists words as in a sentence: "open, closed or not sure".
func anyOf(words []string) string { return inWords(words, "or") }

// allOf lists words as in a sentence: "1, 2 and 3".
func allOf(words []string) string { return inWords(words, "and") }

func inWords(words []string, last string) string {
	if slices.ContainsFunc(words, func(w string) bool { return strings.Contains(w, ",") && !strings.Contains(w, "(") }) {
		quoted := make([]string, len(words))
		for i, w := range words {
			quoted[i] = "'" + w + "'"
		}
		words = quoted
	}
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	n := len(words) - 1
	return strings.Join(words[:n], ", ") + " " + last + " " + words[n]
}

// describe says what stands in a node, for messages.
func describe(n *node) string {
	switch {
	case n.kind == list:
		return "a list"
	case n.kind == mapping:
		return "a set of keys"
	case n.null || n.text == "":
		return "empty"
	}
	return "'" + short(n.text) + "'"
}

// denying are the beginnings that turn a word into its opposite, and deniers the words that
// do so to what they stand beside.
var (
	denying = []string{"ir", "un", "in", "im", "dis", "non", "not", "no"}
	deniers = []string{"not", "no", "never", "without", "none", "non"}
)

// opposite reports two texts of which one denies what the other says: irregularly and
// regularly, not connected and connected.
func opposite(a, b string) bool {
	one, other := wordsOf(a), wordsOf(b)
	return (denials(one, other)+denials(other, one))%2 == 1
}

// wordsOf are the words of a text in small letters.
func wordsOf(text string) []string {
	return strings.FieldsFunc(strings.ToLower(text), func(c rune) bool { return c == ' ' || c == '-' || c == '_' || c == ',' })
}

// denials counts the words of a text that deny, alone or by how a word of the other begins
// in it.
func denials(text, other []string) int {
	n := 0
	for _, word := range text {
		if slices.Contains(deniers, word) || !slices.Contains(other, word) && deniesOne(word, other) {
			n++
		}
	}
	return n
}

// deniesOne reports a word that is one of these with a beginning that denies it, give or take
// a letter.
func deniesOne(word string, others []string) bool {
	return slices.ContainsFunc(denying, func(begins string) bool {
		rest, ok := strings.CutPrefix(word, begins)
		return ok && slices.ContainsFunc(others, func(other string) bool {
			return rest == other || len(rest) >= 5 && templates.Nearest(rest, []string{other}) != "" && len(rest) >= len(other)-1 && len(rest) <= len(other)+1
		})
	})
}

package sight

import "strings"

// Near is the part that a clause names first, "" for none, and the word that was probably meant
// where a letter is wrong.
func Near(clause string) (of, meant string) {
	c := parse(likeWords.Replace(strings.ToLower(clause)))
	for _, w := range c.words {
		switch {
		case w.kind == isUnknown && meant == "":
			meant = misspelled(w.text)
		case w.kind == isPart && of == "":
			of = string(w.part)
		}
	}
	return of, meant
}

// misspelled is the word of a part or a harm from which another differs by one letter, "" for none.
func misspelled(text string) string {
	best := ""
	for name, w := range lexicon().whole {
		if (w.kind == isHarm || w.kind == isPart) && len(name) > 4 && !strings.Contains(name, " ") && oneOff(text, name) && (best == "" || name < best) {
			best = name
		}
	}
	return best
}

// oneOff reports two words of which one letter was put in, left out, changed or swapped.
func oneOff(a, b string) bool {
	if len(a) > len(b) {
		a, b = b, a
	}
	if a == b || len(b)-len(a) > 1 {
		return false
	}
	i := 0
	for i < len(a) && a[i] == b[i] {
		i++
	}
	if len(a) < len(b) {
		return a[i:] == b[i+1:]
	}
	return a[i+1:] == b[i+1:] || i+1 < len(a) && a[i] == b[i+1] && a[i+1] == b[i] && a[i+2:] == b[i+2:]
}

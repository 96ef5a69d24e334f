package sight

import (
	"slices"
	"strings"
)

// nearMost is how many words that are known Near gives.
const nearMost = 5

// Near are words that are known of the parts that a clause names, or of any, and the one that
// was probably meant where a letter is wrong.
func Near(clause string) (meant string, known []string) {
	c := parse(likeWords.Replace(strings.ToLower(clause)))
	for _, w := range c.words {
		if w.kind == isUnknown && meant == "" {
			meant = misspelled(w.text)
		}
	}
	parts := c.of(isPart)
	if len(parts) == 0 {
		parts = []word{{part: "wall"}, {part: "crown"}, {part: "valve"}}
	}
	for _, w := range parts {
		for _, name := range usualWords[w.part] {
			if len(known) < nearMost && !slices.Contains(known, name) {
				known = append(known, name)
			}
		}
	}
	if len(known) == 0 {
		known = []string{"cracked", "broken", "missing", "scored", "good"}
	}
	return meant, known
}

// usualWords are what is mostly said of the parts.
var usualWords = map[part][]string{
	"ring": {"broken", "stuck", "missing", "worn", "good"}, "land": {"broken", "cracked", "good"}, "piston": {"scored", "holed", "cracked", "broken", "good"}, "crown": {"holed", "melted", "marked", "washed", "good"},
	"wall": {"scored", "rusty", "pitted", "cracked", "good"}, "head": {"cracked", "burned", "good"}, "valve": {"burned", "bent", "broken", "stuck", "good"}, "vhead": {"missing"},
	"seat": {"burned", "loose", "pitted", "recessed", "good"}, "gasket": {"blown", "burned", "good"}, "plug": {"broken", "melted", "good"}, "clip": {"missing", "good"}, "gear": {"broken", "loose", "good"},
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

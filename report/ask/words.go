package ask

import (
	"slices"
	"strings"
	"sync"

	"gaugesheet/report/job"
)

// fold reduces ways of writing a word to one.
func fold(s string) string { return strings.Join(strings.Fields(strings.ToLower(s)), " ") }

// wordFor gives the word of a key that was typed: itself, another for it, or
// the beginning of only one, its own words before the others. Where several
// begin so they are all given, where none does the text as it is.
func wordFor(k job.Key, typed string) []string {
	typed = fold(typed)
	var begun, meant []string
	for _, w := range k.Words {
		for i, spelled := range append([]string{w.Name}, w.Also...) {
			switch {
			case fold(spelled) == typed:
				return []string{w.Name}
			case !strings.HasPrefix(fold(spelled), typed):
			case i == 0:
				begun = append(begun, w.Name)
			case !slices.Contains(meant, w.Name):
				meant = append(meant, w.Name)
			}
		}
	}
	switch {
	case typed == "" || len(begun)+len(meant) == 0:
		return []string{typed}
	case len(begun) > 0:
		return begun
	}
	return meant
}

// manyWords takes a line of several words of a key apart, with commas or
// without: 'misfire oil use'.
func manyWords(k job.Key, line string) []string {
	var out []string
	for part := range strings.SplitSeq(strings.Trim(line, "[] "), ",") {
		words := strings.Fields(part)
		for len(words) > 0 {
			n := len(words)
			for n > 1 && !isWord(k, strings.Join(words[:n], " ")) {
				n--
			}
			if n == 1 && !isWord(k, words[0]) && len(out) == 0 { // left as it is, for the reader to answer
				n = len(words)
			}
			out, words = append(out, strings.Join(words[:n], " ")), words[n:]
		}
	}
	return out
}

// isWord tells whether a text is a word of a key or begins exactly one.
func isWord(k job.Key, text string) bool {
	found := wordFor(k, text)
	return len(found) == 1 && slices.ContainsFunc(k.Words, func(w job.Word) bool { return w.Name == found[0] })
}

// named lists the words of a key for a prompt.
func named(k job.Key) []string {
	out := make([]string, len(k.Words))
	for i, w := range k.Words {
		out[i] = w.Name
	}
	return out
}

// anyOf lists words as in a sentence.
func anyOf(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " or " + words[len(words)-1]
}

// fileKeys are the keys of the job file, made once.
var fileKeys = sync.OnceValue(job.Keys)

// keyAt gives the key of the job file at a path; the zero Key where there is
// none.
func keyAt(path string) job.Key {
	keys, found := fileKeys(), job.Key{}
	for part := range strings.SplitSeq(path, ".") {
		i := slices.IndexFunc(keys, func(k job.Key) bool { return k.Name == part })
		if i < 0 {
			return job.Key{}
		}
		found, keys = keys[i], keys[i].Keys
	}
	return found
}

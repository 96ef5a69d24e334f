package job

import (
	"fmt"
	"strings"
)

// fold reduces ways of writing a phrase to one: case and spaces do not matter.
func fold(s string) string { return strings.Join(strings.Fields(strings.ToLower(s)), " ") }

// short cuts what is quoted in a message to a readable length.
func short(s string) string {
	const most = 60
	s = strings.Join(strings.Fields(s), " ")
	if r := []rune(s); len(r) > most {
		return string(r[:most]) + "..."
	}
	return s
}

// nearest gives the word of the list that s was probably meant to be, or "".
// Hyphens, spaces and underscores do not count.
func nearest(s string, words []string) string {
	plain := strings.NewReplacer("-", "", "_", "", " ", "")
	given := plain.Replace(strings.ToLower(s))
	best, bestAt := "", 3
	for _, word := range words {
		d := distance(given, plain.Replace(strings.ToLower(word)))
		// One slip in short words, two in longer ones; never half the word.
		if d < bestAt && (d == 0 || d*3 <= len(word)) {
			best, bestAt = word, d
		}
	}
	return best
}

// distance is the number of letters to put in, take out, change or swap with
// their neighbour to make a of b.
func distance(a, b string) int {
	x, y := []rune(a), []rune(b)
	if len(x) > 40 || len(y) > 40 {
		return 40
	}
	var before, last, row []int
	for j := range len(y) + 1 {
		last = append(last, j)
	}
	for i := 1; i <= len(x); i++ {
		row = []int{i}
		for j := 1; j <= len(y); j++ {
			cost := 1
			if x[i-1] == y[j-1] {
				cost = 0
			}
			d := min(last[j]+1, row[j-1]+1, last[j-1]+cost)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				d = min(d, before[j-2]+1)
			}
			row = append(row, d)
		}
		before, last = last, row
	}
	return last[len(y)]
}

// meant is the hint for a word that is none of those expected.
func meant(found string, words []string) string {
	if near := nearest(found, words); near != "" {
		return fmt.Sprintf("did you mean '%s'?", near)
	}
	return ""
}

// anyOf lists words as in a sentence: "open, closed or not sure".
func anyOf(words []string) string { return inWords(words, "or") }

// allOf lists words as in a sentence: "1, 2 and 3".
func allOf(words []string) string { return inWords(words, "and") }

func inWords(words []string, last string) string {
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

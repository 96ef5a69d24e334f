package known

import (
	"regexp"
	"slices"
	"strings"
)

// pairReach is how many words may stand between the two of a pair.
const pairReach = 5

// speaksOfPair reports a thing and one of what may be said of it that a text says of one
// another: "pushrod" and "bent" in "the exhaust pushrod was found bent", in either order, in
// one clause and near one another, neither denied. Each is the beginning of words.
func speaksOfPair(text, one, other string) bool {
	starts := wordStarts(text, one)
	if len(starts) == 0 { // of most things no text speaks
		return false
	}
	for what := range strings.SplitSeq(other, "|") {
		if saidNear(text, starts, one, what) {
			return true
		}
	}
	return false
}

// saidNear reports that a thing, which begins at these places of a text, and what may be said
// of it stand near one another.
func saidNear(text string, starts []int, one, other string) bool {
	others := wordStarts(text, other)
	for _, a := range starts {
		for _, b := range others {
			from, to := min(a+len(one), b+len(other)), max(a, b)
			if from > to { // one within the other
				continue
			}
			between := text[from:to]
			if clauseEnd.MatchString(decimals.ReplaceAllString(strings.ReplaceAll(between, ":", " "), "0")) || len(strings.Fields(between)) > pairReach+1 {
				continue // "pushrods: one is bent" says one thing
			}
			if !deniedNear(text[:a], text[a+len(one):]) && !deniedNear(text[:b], text[b+len(other):]) {
				return true
			}
		}
	}
	return false
}

// decimals are the point of a number, or its comma, where no clause ends.
var decimals = regexp.MustCompile(`\d[.,]\d`)

// wordStarts are the places at which a word, or several, begins in a text.
func wordStarts(text, word string) []int {
	var places []int
	for from := 0; ; {
		at := strings.Index(text[from:], word)
		if at < 0 {
			return places
		}
		at += from
		if at == 0 || !letter(text[at-1]) {
			places = append(places, at)
		}
		from = at + len(word)
	}
}

// pairs puts each of some things beside all that may be said of them, in the form in
// which SpeaksOf looks for a pair.
func pairs(things, said string) []string {
	list := strings.Split(things, "|")
	for i, thing := range list {
		list[i] = thing + pairMark + said
	}
	return list
}

// firstOf are the things of a list of pairs: a text that speaks of one of these pairs has one
// of them. A word that is no pair is one.
func firstOf(words []string) []string {
	var list []string
	for _, word := range words {
		one, _, _ := strings.Cut(word, pairMark)
		if one = strings.TrimSpace(one); !slices.Contains(list, one) {
			list = append(list, one)
		}
	}
	return list
}

// pairMark stands between the two of a pair in a list of words.
const pairMark = "~"

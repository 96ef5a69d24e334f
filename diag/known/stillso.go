package known

import (
	"regexp"
	"slices"
	"strings"
)

// A spoken part or danger: what a line may say of it, what its clause speaks of otherwise, and
// what the whole line is about then.
type saying struct{ words, not, about []string }

func (d *saying) in(text string) bool {
	if !SpeaksOf(text, d.words...) || speaksWord(text, d.about) {
		return false
	}
	return len(d.not) == 0 || slices.ContainsFunc(commaClauses(text), func(clause string) bool {
		return SpeaksOf(clause, d.words...) && !speaksWord(clause, d.not)
	})
}

var (
	// openedUp is where a line says what came off, behind which stands what was seen there: "filter
	// cut open, a few flakes".
	openedUp = regexp.MustCompile(`\b(open|opened|off|out|down|apart|removed|drained|stripped|dropped|unscrewed|in half)(?: and)?, `)
	// commas are where a clause of a line ends; not at a colon, nor within a number.
	commas = regexp.MustCompile(`, |[;!?()]|\. |\bbut\b`)
)

// foundIn is a line of findings in which what came off stands with what was seen there.
func foundIn(text string) string { return openedUp.ReplaceAllString(text, "$1: ") }

func commaClauses(text string) []string { return commas.Split(text, -1) }

// stillSo is what a line says that is so still: it has none of the clauses of what was put right.
// One that names nothing ("now replaced"), or the same again, is of those before it as well.
func stillSo(text string) string {
	if !mended(text) {
		return text
	}
	var left []string
	for _, clause := range commaClauses(text) {
		switch {
		case strings.TrimSpace(clause) == "":
		case !mended(clause):
			left = append(left, clause)
		case namesNothing(clause) || namesAgain(clause, left):
			left = nil
		}
	}
	return strings.Join(left, "; ")
}

// ofNoPart are the words that may stand before "replaced" where it says of what came before that
// it was.
var ofNoPart = words("it its it's they them this that these those now then was were is are be been has have had all both each one ones new also already since today by us and with properly at once later just the a an old will temporarily")

// namesNothing reports a clause that only says that something was put right.
func namesNothing(clause string) bool {
	for _, word := range strings.Fields(clause) {
		if SpeaksOf(word, putRight...) || word == "put" {
			return true
		}
		if !ofNoPart[word] {
			return false
		}
	}
	return true
}

// commonWords are such as two clauses have in common without being of the same thing.
var commonWords = words("cylinder cylinders with from that been left right front rear side bank inlet intake exhaust this were where replaced renewed fitted cleaned")

// namesAgain reports a clause that names something of which others speak already.
func namesAgain(clause string, others []string) bool {
	return slices.ContainsFunc(strings.Fields(clause), func(word string) bool {
		return len(word) > 3 && !commonWords[word] && slices.ContainsFunc(others, func(o string) bool { return slices.Contains(strings.Fields(o), word) })
	})
}

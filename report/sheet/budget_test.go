package sheet_test

import (
	"regexp"
	"strings"
	"testing"
)

// word is what a reader reads, not a number with its unit's sign.
var word = regexp.MustCompile(`\pL{2}`)

// A page is read by somebody who did not ask for a book. On the mean of the
// examples, so that one of them may need more, an owner's sheet keeps to so many
// words, and so does each block of sentences; what figures and tables hold was
// measured. Where a new sentence is worth its words, shorten another.
func TestWordsOfOwnersSheetsAreFew(t *testing.T) {
	budgets := map[string]map[string]int{
		"customer": {"": 435, "verdict": 56, "findings": 80, "next-check": 65, "cautions": 54, "method": 27, "notices": 9, "not-tested": 23, "foot": 21, "spread": 22},
		"invoice":  {"": 458, "verdict": 53, "results": 62, "findings": 80, "next-check": 65, "cautions": 54, "method": 27, "notices": 9, "foot": 21},
	}
	paths := examples(t)
	for kind, most := range budgets {
		count := map[string]int{}
		for _, path := range paths {
			for _, text := range drawn(t, readExample(t, path), kind, "letter").Texts() {
				block, _, _ := strings.Cut(text.Block, "/")
				for _, w := range strings.Fields(text.String) {
					if word.MatchString(w) {
						count[""]++
						count[block]++
					}
				}
			}
		}
		for block, n := range count {
			t.Logf("%s %s: %.1f words", kind, block, float64(n)/float64(len(paths)))
		}
		for block, budget := range most {
			switch mean := float64(count[block]) / float64(len(paths)); {
			case mean == 0:
				t.Errorf("%s %s: says nothing, on no example", kind, block)
			case mean > float64(budget):
				t.Errorf("%s %s: %.1f words on the mean of the examples, more than %d", kind, block, mean, budget)
			}
		}
	}
}

package rule

import (
	"slices"

	"gaugesheet/diag/known"
)

// A Sign speaks for or against causes and is no finding of its own: what is
// known beside a pattern that another rule recognises.
type Sign struct {
	When    known.Condition
	Kind    Kind
	About   string // "cylinders": asked of each cylinder of a story; "engine": of the story of the whole engine; "any"
	For     []Voice
	Against []Voice
	words   string // of its condition, made once
	brings  bool   // a voice of it counts in any story
}

// Words are its condition in words.
func (s *Sign) Words() string { return s.words }

// Brings reports a sign that speaks for a cause strongly enough to bring it into
// a story.
func (s *Sign) Brings() bool { return s.brings }

// Signs are all signs.
func Signs() []Sign { return signs }

var signs = concatSigns(compressionSigns, wetSigns, runningSigns, leakageSigns, plugSigns, fuelSigns, historySigns, foundSigns, codeSigns, testSigns, mixtureSigns, systemSigns)

func concatSigns(lists ...[]Sign) []Sign {
	var all []Sign
	for _, l := range lists {
		all = append(all, l...)
	}
	for i := range all {
		all[i].words = all[i].When.String()
		all[i].brings = slices.ContainsFunc(slices.Concat(all[i].For, all[i].Against), func(v Voice) bool { return v.Weight >= Known })
	}
	return all
}

package rule

import (
	"cmp"
	"slices"

	"gaugesheet/diag/known"
)

// A Sign speaks for or against causes and is no finding of its own: what is
// known beside a pattern that another rule recognises.
type Sign struct {
	Needs   []known.Need // without which the condition cannot hold
	When    known.Condition
	Kind    Kind
	About   string   // "cylinders": asked of each cylinder of a story; "engine": of the story of the whole engine; "any"
	Among   []string // causes of which a story, of no cylinders, has to have one for it to count there; nil for any story
	For     []Voice
	Against []Voice
	words   string  // of its condition, made once
	voices  []Voice // all of them, made once
	brings  bool    // a voice of it counts in any story
}

// Words are its condition in words.
func (s *Sign) Words() string { return s.words }

// Voices are those for and against, each with its kind of test.
func (s *Sign) Voices() []Voice { return s.voices }

// Brings reports a sign that speaks for a cause strongly enough to bring it into
// a story.
func (s *Sign) Brings() bool { return s.brings }

// Signs are all signs.
func Signs() []Sign { return signs }

var signs = concatSigns(compressionSigns, wetSigns, runningSigns, rodSigns, leakageSigns, plugSigns, fuelSigns, historySigns, foundSigns,
	faultSigns, codeSigns, testSigns, mixtureSigns, trimSigns, systemSigns, withinSigns, magnetoSigns)

func concatSigns(lists ...[]Sign) []Sign {
	var all []Sign
	for _, l := range lists {
		all = append(all, l...)
	}
	for i := range all {
		s := &all[i]
		if s.Kind == OfLeakage && s.Needs == nil { // what is heard in a leakage test is never there without one
			s.Needs = []known.Need{known.NeedsLeakage}
		}
		s.words, s.voices = s.When.String(), slices.Concat(s.For, s.Against)
		for j := range s.voices {
			s.voices[j].Kind = cmp.Or(s.voices[j].Kind, s.Kind)
		}
		s.brings = slices.ContainsFunc(s.voices, func(v Voice) bool { return v.Weight >= Known })
	}
	return all
}

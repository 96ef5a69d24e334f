package known

import "slices"

// A Vocabulary is things by the names that each goes by, so that those of which a
// text speaks are found word by word and not by looking for every name.
type Vocabulary struct {
	byFirst map[string][]called // what begins with a word
	others  []called            // what begins with none
}

// called is one name of a thing, by the thing's place in the list.
type called struct {
	place int
	name  string
}

// NewVocabulary is one of things by their names, which are in plain form.
func NewVocabulary(things []Phrases) *Vocabulary {
	v := &Vocabulary{byFirst: map[string][]called{}}
	for place, names := range things {
		for _, name := range names {
			if first := firstWord(name); first != "" {
				v.byFirst[first] = append(v.byFirst[first], called{place, name})
			} else {
				v.others = append(v.others, called{place, name})
			}
		}
	}
	return v
}

// firstWord is the word that a text begins with, "" where it begins with none.
func firstWord(text string) string {
	end := 0
	for end < len(text) && letter(text[end]) {
		end++
	}
	return text[:end]
}

// In gives the things of which a text in plain form speaks and that it does not deny
// right before: their places, sorted. A name that is only a part of a longer one
// there is not meant: 'leak down again' is not 'leak down'.
func (v *Vocabulary) In(text string) []int {
	var said []span
	hear := func(list []called) {
		for _, one := range list {
			for from := 0; ; {
				at := placeOf(text, one.name, from)
				if at < 0 {
					break
				}
				if s := (span{one.place, at, at + len(one.name)}); !slices.Contains(said, s) {
					said = append(said, s)
				}
				from = at + 1
			}
		}
	}
	for rest := text; rest != ""; {
		if word := firstWord(rest); word != "" {
			hear(v.byFirst[word])
			rest = rest[len(word):]
		} else {
			rest = rest[1:]
		}
	}
	hear(v.others)
	var places []int
	for _, s := range said {
		if !slices.Contains(places, s.place) && !slices.ContainsFunc(said, s.partOf) {
			places = append(places, s.place)
		}
	}
	slices.Sort(places)
	return places
}

// span is where a text has a name of a thing.
type span struct{ place, from, to int }

// partOf reports a name within a longer one of another thing.
func (s span) partOf(o span) bool {
	return o.place != s.place && o.from <= s.from && s.to <= o.to && o.to-o.from > s.to-s.from
}

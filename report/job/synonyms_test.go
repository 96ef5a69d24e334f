package job

import (
	"slices"
	"testing"
)

// TestVocabularies: every key's vocabulary exists, no words mean two things in
// one, and what they mean is a word that some key takes.
func TestVocabularies(t *testing.T) {
	used := map[string]bool{"engine": true, "number of cylinders": true, "yes or no": true, "state of a test": true, "pressure": true, "all others": true, "basis of a percentage": true, "doubt": true, "change": true}
	var walk func(keys []key)
	walk = func(keys []key) {
		for _, k := range keys {
			if k.says != "" {
				used[k.says] = true
				if vocabularyOf(k.says).Name == "" {
					t.Errorf("the key %s has no vocabulary '%s'", k.name, k.says)
				}
			}
			walk(k.keys)
		}
	}
	for _, keys := range [][]key{fileKeys, shopKeys, gaugeKeys} {
		walk(keys)
	}
	for _, v := range vocabularies {
		if !used[v.Name] {
			t.Errorf("no key uses the vocabulary '%s'", v.Name)
		}
		seen := map[string]string{}
		once := func(words []string, means string) {
			for _, w := range words {
				if before, twice := seen[plainWords(w)]; twice && before != means {
					t.Errorf("%s: '%s' means '%s' and '%s'", v.Name, w, before, means)
				}
				seen[plainWords(w)] = means
			}
		}
		for _, w := range v.Words {
			once([]string{w}, w)
		}
		for _, s := range v.Also {
			if len(v.Words) > 0 && !slices.Contains(v.Words, s.Means) {
				t.Errorf("%s: '%s' is none of its words", v.Name, s.Means)
			}
			once(s.Words, s.Means)
		}
		for _, q := range v.Asks {
			once(q.Words, q.Answer)
		}
	}
}

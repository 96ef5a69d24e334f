package rule

import (
	"maps"
	"slices"
)

// vocabularies are the keys of the catalogue of words that each family of
// rules uses, by section: causes, against, doubts, checks, verdicts, cautions.
var vocabularies = []map[string][]string{
	testVocabulary,
	compressionVocabulary,
	wetVocabulary,
	rotorVocabulary,
	earlierVocabulary,
	leakageVocabulary,
	plugVocabulary,
	fuelVocabulary,
	togetherVocabulary,
	closingVocabulary,
}

// Vocabulary lists, by section, every key of the catalogue of words that a
// diagnosis may use beside the names of rules and their variants.
func Vocabulary() map[string][]string {
	all := map[string][]string{}
	for _, v := range vocabularies {
		for section, keys := range v {
			all[section] = append(all[section], keys...)
		}
	}
	for _, section := range slices.Sorted(maps.Keys(all)) {
		slices.Sort(all[section])
		all[section] = slices.Compact(all[section])
	}
	return all
}

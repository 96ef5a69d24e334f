package job

import (
	"slices"
	"strings"
)

// complaints reads what is wrong with the vehicle: words of the list, or a sentence of
// the customer's in which such words stand. The sentences come back too, so that they
// are not lost for the word that was read out of them.
func (s *section) complaints() (words, told []string) {
	if s == nil {
		return nil, nil
	}
	k := keyOf(s.keys, "complaints")
	if n := s.get("complaints"); n != nil && n.kind == scalar && slices.Contains(noComplaint, plainWords(n.text)) { // n/a, which is no list of two
		return nil, nil
	}
	for _, item := range s.wordItems("complaints", k) {
		n := s.r.scalar(item, s.label("complaints"), "a list of words")
		switch {
		case n == nil || slices.Contains(noComplaint, plainWords(n.text)):
			continue
		case !vocabularyOf(k.says).answers(n.text, k.words):
			if heard := complaintsIn(n.text); len(heard) > 0 {
				words, told = appendNew(words, heard...), append(told, n.text)
				continue
			}
		}
		if w := s.r.wordOf(n, s.label("complaints"), k); w.Value != "" {
			words = appendNew(words, w.Value)
		}
	}
	return words, told
}

// appendNew adds words that are not there yet.
func appendNew(words []string, more ...string) []string {
	for _, w := range more {
		if !slices.Contains(words, w) {
			words = append(words, w)
		}
	}
	return words
}

// noComplaint is what people write where the list should stay empty.
var noComplaint = []string{"none", "no", "nothing", "n/a", "na", "no complaints", "no complaint", "nil", "nothing wrong"}

// complaintPhrases are what stands for a complaint in a sentence, whatever else the
// sentence says; the list's own words of one sense come with them.
var complaintPhrases = []Synonym{
	says("hard start", "hard start; hard starting; hard to start; starts hard; starts badly; starts poorly; long crank; long cranking; slow to start; difficult to start; takes ages to start; takes a long time to start; cranks a long time; reluctant to start"),
	says("no start", "wont start; will not start; does not start; doesnt start; no start; cannot start; cant start; wont fire; will not fire; does not fire; never starts; refuses to start"),
	says("misfire", "runs rough; rough running; running rough; rough idle; idles rough; rough; runs bad; runs badly; bad idle; shakes; shaking; misfire; misfires; misfiring; misses; runs on one; runs on two; runs on three; runs on five; runs on six; runs on seven; running on three; running on two; has a miss; with a miss; stumble; stumbles; stumbling; drops a cylinder; a cylinder drops out; hitting on three"),
	says("rich running", "rich running; runs rich; running rich; too rich; smells of fuel; smells of petrol; smells of gas; smells of gasoline; stinks of fuel; stinks of petrol; smell of fuel; smell of petrol; floods; flooding"),
	says("lean running", "lean running; runs lean; running lean; too lean"),
	says("low power", "low power; no power; lack of power; lacks power; down on power; loss of power; loses power; power loss; lost power; lost its power; poor power; gutless; sluggish; wont pull; will not pull; does not pull; doesnt pull; no pull; wont rev; will not rev; does not rev; wont plane; will not plane; does not plane; wont get on plane; slow on hills; slow uphill; bogs; bogs down"),
	says("oil use", "oil use; burns oil; burning oil; uses oil; using oil; oil consumption; drinks oil; drinking oil; goes through oil"),
	says("coolant loss", "coolant loss; loses coolant; losing coolant; lost coolant; uses coolant; using coolant; loses water; losing water; uses water; using water; water loss; drinks water; coolant goes down; coolant level drops; coolant disappears"),
	says("overheating", "overheating; overheats; overheated; overheat; runs hot; running hot; gets hot; boils; boiled; boiling; boiling over; temperature climbs"),
	says("noise", "noise; noises; noisy; knock; knocks; knocking; rattle; rattles; rattling; ticking; tapping; clatter; clatters; clattering; clacks; clunk; clunks"),
	says("stood", "stood unused; been sitting; laid up; barn find; not run for years"),
}

// denies are words with which a sentence may tell that there is no such complaint, or none
// any more: it is then asked about.
var denies = strings.Fields("no not never without none nothing isnt doesnt didnt dont until used was were cured fixed gone ok okay fine")

// howMuch are words between what it does and of what: "uses a bit of oil".
var howMuch = strings.NewReplacer(" a bit of ", " ", " a little ", " ", " a lot of ", " ", " lots of ", " ", " some ", " ", " too much ", " ", " quite a bit of ", " ", " its ", " ", " the ", " ")

// onlyThen are words by which an engine that does not start does so at other times.
var onlyThen = strings.Fields("hot cold warm wet damp rain morning mornings sometimes intermittently intermittent occasionally times")

// complaintsIn gives the complaints that a sentence tells of, in the list's order.
func complaintsIn(text string) []string {
	rest := " " + strings.Join(strings.FieldsFunc(plainWords(text), func(c rune) bool { return c == ' ' || strings.ContainsRune(",;:/()\"+&", c) }), " ") + " "
	rest = howMuch.Replace(rest)
	var found []string
	for _, c := range complaintPhrases {
		for _, phrase := range slices.SortedFunc(slices.Values(c.Words), func(a, b string) int { return len(b) - len(a) }) {
			if strings.Contains(rest, " "+phrase+" ") {
				rest = strings.ReplaceAll(rest, " "+phrase+" ", " , ")
				found = append(found, c.Means)
			}
		}
	}
	left := strings.Fields(rest)
	says := func(words []string) bool {
		return slices.ContainsFunc(left, func(w string) bool { return slices.Contains(words, w) })
	}
	if says(denies) {
		return nil
	}
	if at := slices.Index(found, "no start"); at >= 0 && says(onlyThen) {
		found[at] = "hard start"
	}
	slices.SortStableFunc(found, func(a, b string) int { return slices.Index(complaints, a) - slices.Index(complaints, b) })
	return slices.Compact(found)
}

package job

import (
	"slices"
	"strings"
	"sync"
	"unicode"

	"gaugesheet/diag/known"
)

// complaints reads what is wrong with the vehicle: words of the list, or a sentence of
// the customer's in which such words stand. The sentences come back too, so that they
// are not lost for the word that was read out of them; own are those of which no word is
// known, which the sheet says back as they are.
func (s *section) complaints() (words, told, own []string) {
	if s == nil {
		return nil, nil, nil
	}
	k := keyOf(s.keys, "complaints")
	if n := s.get("complaints"); n != nil && n.kind == scalar && slices.Contains(noComplaint, plainWords(n.text)) { // n/a, which is no list of two
		return nil, nil, nil
	}
	items := s.wordItems("complaints", k)
	if n := s.get("complaints"); len(items) > 1 && n != nil && n.kind == scalar {
		if words = sentenceTells(items, k); words != nil { // its commas are those of a sentence
			return words, []string{n.text}, nil
		}
	}
	for _, item := range items {
		n := s.r.scalar(item, s.label("complaints"), "a list of words")
		switch {
		case n == nil || slices.Contains(noComplaint, plainWords(n.text)):
			continue
		case known.TellsOfOilLight(n.text), tellsOfNothing(n.text):
			told = append(told, n.text)
			continue
		case len(known.SmokeTold(n.text)) > 0:
			words, told = appendNew(words, complaintsIn(n.text)...), append(told, n.text)
			continue
		case !vocabularyOf(k.says).answers(n.text, k.words):
			if heard := complaintsIn(n.text); len(heard) > 0 {
				words, told = appendNew(words, heard...), append(told, n.text)
				continue
			}
			if tellsOfPast(n.text) { // what was told before it is so no more
				words, told = nil, append(append(told, words...), n.text)
				continue
			}
			if turnsOver().MatchString(fold(n.text)) || known.TellsOfExhaust(n.text) || saidNot(n.text) { // no fault of the engine by itself
				told = append(told, n.text)
				continue
			}
			when := len(items) > 1 && strings.Contains(n.text, " ") && known.TellsOnlyWhen(n.text) // "fine in neutral"
			if when || inOwnWords(n.text, k) {
				told, own = append(told, n.text), append(own, n.text)
				continue
			}
		}
		if w := s.r.wordOf(n, s.label("complaints"), k); w.Value != "" {
			words = appendNew(words, w.Value)
		}
	}
	return words, told, own
}

// leastLetters is how many letters what somebody tells has at least.
const leastLetters = 4

// inOwnWords reports what is wrong in words of which none is known, and which are no slip in
// writing one that is: nothing that a customer tells is lost for want of a word.
func inOwnWords(text string, k key) bool {
	vocabulary, words := vocabularyOf(k.says), strings.Fields(plainWords(text))
	letters, long := 0, 0
	for _, w := range words {
		n := 0
		for _, c := range w {
			if unicode.IsLetter(c) {
				n++
			}
		}
		if letters += n; n >= leastLetters {
			long++
		}
	}
	slip := slipOf(text, slices.Concat(k.words, vocabulary.others(k.words))) || (len(words) < leastSaid || storedCode().MatchString(text)) && vocabulary.askedWithin(text) != "" || twoWordsHint(vocabulary, text, k.words) != ""
	figure := strings.ContainsAny(text, "0123456789") && long < 2 // "about 120" tells of nothing
	return !slip && !figure && letters >= leastLetters
}

// slipOf reports a slip in writing one of some phrases, word by word: "runs cold" is none of
// "runs bad".
func slipOf(text string, phrases []string) bool {
	near := strings.Fields(nearest(text, phrases))
	words := strings.Fields(plainWords(text))
	if len(near) != len(words) {
		return len(near) > 0 && (len(near) == 1 || len(words) == 1) // together or apart
	}
	for i, w := range words {
		if w != near[i] && !strings.HasPrefix(near[i], w) && nearest(w, near[i:i+1]) == "" {
			return false
		}
	}
	return len(near) > 0
}

// storedCode is a code of the engine's computer, which has a key of its own.
var storedCode = lazily(`(?i)\b[pbcu][0-9]{4}\b`)

// leastSaid is how many words say more than a word that is asked about.
const leastSaid = 3

// tellsOfPast reports a part of what is told by which what comes before it is so no more.
func tellsOfPast(text string) bool {
	said := plainWords(text)
	return overWithIt().MatchString(said) && len(said) < len("no longer so since all of them are new")
}

// saidNot reports a complaint that is said not to be, or to be no more, or that all is well then.
func saidNot(text string) bool {
	heard, left := heardIn(text)
	return anyOfWords(left, denies) && (len(heard) > 0 || slices.ContainsFunc(left, isWell) || anyOfWords(left, troubles))
}

// troubles are words of what else there might have been.
var troubles = strings.Fields("smoke smokes smoking noise noises leak leaks leaking code codes light lights lamp problem problems issue issues trouble change difference alarm warning warnings vibration")

// tellsOfNothing reports a sentence that says that nothing is wrong, and no complaint beside it:
// "nothing wrong, just a yearly look".
func tellsOfNothing(text string) bool {
	parts := sentenceEnds().Split(text, -1)
	return len(parts) > 1 && len(complaintsIn(text)) == 0 && slices.Contains(noComplaint, plainWords(strings.TrimSpace(parts[0])))
}

// anyOfWords reports one of some words among others.
func anyOfWords(words, of []string) bool {
	return slices.ContainsFunc(words, func(w string) bool { return slices.Contains(of, w) })
}

// sentenceTells gives the complaints that the parts of a sentence between its commas tell of,
// which say more than words of the list: "misfires at idle, worse hot"; nil for such words alone,
// and where one is asked about, or may tell of what is past.
func sentenceTells(parts []*node, k key) []string {
	v := vocabularyOf(k.says)
	var words []string
	listed, other, then := false, false, false
	for _, n := range parts {
		heard, said := complaintsIn(n.text), strings.Fields(plainWords(n.text))
		switch word, answer := v.find(n.text, k.words); {
		case word != "":
			words, listed = appendNew(words, word), true
		case answer != "" || v.askedWithin(n.text) != "":
			return nil
		case len(heard) > 0:
			words = appendNew(words, heard...)
		case !anyOfWords(said, known.Circumstances) || anyOfWords(said, past):
			return nil // another matter, in words of the customer's own
		default:
			other, then = true, then || anyOfWords(said, onlyThen)
		}
	}
	if listed && !other {
		return nil
	}
	if at := slices.Index(words, "no start"); at >= 0 && then {
		words[at] = "hard start"
	}
	return inOrder(words)
}

// past are words of what is no more.
var past = strings.Fields("until used was were cured fixed gone anymore longer none nothing")

// appendNew adds words that are not there yet.
func appendNew(words []string, more ...string) []string {
	for _, w := range more {
		if !slices.Contains(words, w) {
			words = append(words, w)
		}
	}
	return words
}

// turnsOver is what is said of the starter beside a complaint, and is none.
var turnsOver = lazily(`^(?:it |engine |but |still )*(?:cranks|turns|spins)(?: over)?(?: (?:fine|ok|okay|good|well|strong|strongly|normally|quick|quickly|fast|all right|alright))$`)

// noComplaint is what people write where the list should stay empty.
var noComplaint = []string{"none", "no", "nothing", "n/a", "na", "no complaints", "no complaint", "nil", "nothing wrong"}

// A complaintCalled is what people call one complaint.
type complaintCalled struct {
	means string
	both  string // by itself in the list, and in a sentence, whatever else that says
	alone string // only by itself: within a sentence it may be something else
	told  string // only in a sentence, which is then kept beside the word
}

// complaintsCalled is the one table of these words: the list's synonyms and what is heard
// in a customer's sentence are made from it. What one has a longer phrase of goes before it.
var complaintsCalled = []complaintCalled{
	{"hard start",
		"hard starting; starts hard; hard to start; long crank; slow to start; difficult to start",
		"poor starting",
		"starts badly; starts poorly; long cranking; takes ages to start; takes a long time to start; cranks a long time; reluctant to start"},
	{"no start",
		"wont start; will not start; does not start; doesnt start",
		"cranks but no start; cranks no start; crank no start; non starter; not starting",
		"cannot start; cant start; wont fire; will not fire; does not fire; never starts; refuses to start"},
	{"lean running",
		"runs lean; running lean; too lean",
		"lean",
		""},
	{"misfire",
		"misfires; misfiring; misses; runs on three",
		"miss; missing; skips; skipping; a miss; runs on 3; dead cylinder; p0300",
		"stalls; stalling; stalled; dies at idle; dies when; keeps dying; cuts out; cutting out; conks out; conking out; " +
			"backfires; backfiring; backfire; back fires; back firing; pops and bangs; popping and banging; pops; popping; bangs in the exhaust; bangs through the exhaust; " +
			"runs rough; rough running; running rough; rough idle; idles rough; rough; runs bad; runs badly; bad idle; shakes; shaking; runs on one; runs on two; runs on five; runs on six; runs on seven; running on three; running on two; has a miss; with a miss; stumble; stumbles; stumbling; drops a cylinder; a cylinder drops out; hitting on three"},
	{"rich running",
		"runs rich; running rich; too rich; smells of fuel",
		"rich; over fuelling",
		"smells of petrol; smell petrol; smell fuel; smell gas; smell gasoline; smells of gas; smells of gasoline; stinks of fuel; stinks of petrol; smell of fuel; smell of petrol; floods; flooding"},
	{"low power",
		"no power; lack of power; lacks power; down on power; loss of power; power loss; gutless; sluggish; lost power; poor power",
		"weak",
		"loses power; lost its power; low output; wont pull; will not pull; does not pull; doesnt pull; no pull; wont rev; will not rev; does not rev; wont plane; will not plane; does not plane; wont get on plane; slow on hills; slow uphill; bogs; bogs down"},
	{"oil use",
		"burns oil; burning oil; uses oil; using oil; oil consumption; drinks oil",
		"oil burning; high oil consumption; oil loss",
		"drinking oil; goes through oil; quart every; uses a quart; uses a litre; uses a liter; uses a pint; litre every; liter every; pint every; litre of oil; liter of oil; quart of oil; pint of oil; blows oil; blowing oil; throws oil; spits oil; tops up oil; topping up oil; top up the oil; adding oil"},
	{"coolant loss",
		"loses coolant; losing coolant; loosing coolant; loosing water; looses coolant; losing water; uses water; uses coolant; using coolant; using water; loses water; water loss",
		"coolant leak",
		"lost coolant; drinks water; coolant goes down; coolant level drops; coolant disappears; top up coolant; top up water; top up bottle; top up tank; top up radiator; topping up coolant; topping up water; topping up bottle; topping up radiator; add water; adding water; adds water; add coolant; adding coolant; needs water; needs coolant; needs topping up with water; fill up the radiator"},
	{"overheating",
		"overheats; overheat; runs hot; running hot; gets hot; boils; boiling over",
		"",
		"overheated; boiled; boiling; boils over; temperature climbs; temperature rises; temperature goes up; temperature needle climbs; needle climbs; gauge climbs; in the red; into the red; into red"},
	{"noise",
		"noisy; knock; knocking; knocks; ticking; tapping; rattle; clatter",
		"tick; lifter noise; bottom end noise",
		"noises; rattles; rattling; clatters; clattering; clacks; clunk; clunks"},
	{"stood",
		"been sitting; stood unused; laid up; barn find; not run for years",
		"sat; sitting; stored",
		""},
}

// complaintSynonyms are the words that stand for one of the list by themselves.
func complaintSynonyms() []Synonym {
	var out []Synonym
	for _, name := range complaints {
		for _, c := range complaintsCalled {
			if c.means == name {
				out = append(out, says(name, strings.Trim(c.both+"; "+c.alone, "; ")))
			}
		}
	}
	return out
}

// complaintPhrases are what stands for a complaint in a sentence, the longest of each
// first; the list's own word too, but for 'stood', which may be said of anything.
var complaintPhrases = sync.OnceValue(func() []Synonym {
	var out []Synonym
	for _, c := range complaintsCalled {
		phrases := says(c.means, strings.Trim(c.both+"; "+c.told, "; "))
		if c.means != "stood" {
			phrases.Words = append(phrases.Words, c.means)
		}
		slices.SortStableFunc(phrases.Words, func(a, b string) int { return len(b) - len(a) })
		out = append(out, phrases)
	}
	return out
})

// denies are words with which a sentence may tell that there is no such complaint, or none
// any more: it is then asked about.
var denies = strings.Fields("no not never without none nothing isnt doesnt didnt dont until used was were cured fixed gone ok okay fine")

// howMuch are words between what it does and of what: "uses a bit of oil".
var howMuch = strings.NewReplacer(" a bit of ", " ", " a little ", " ", " a lot of ", " ", " lots of ", " ", " some ", " ", " too much ", " ", " quite a bit of ", " ", " its ", " ", " the ", " ")

// onlyThen are words by which an engine that does not start does so at other times.
var onlyThen = strings.Fields("hot cold warm wet damp rain morning mornings sometimes intermittently intermittent occasionally times")

// complaintsIn gives the complaints that a sentence tells of, in the list's order: of each part
// of it that denies none.
func complaintsIn(text string) []string {
	found, text := known.SymptomsTold(text)
	told := len(found)
	var all []string
	parts := sentenceEnds().Split(untilWarm().ReplaceAllString(text, " "), -1)
	for i := 0; i < len(parts); i++ {
		heard, left := heardIn(parts[i])
		switch denied := anyOfWords(left, denies); {
		case len(heard) == 0 && overWithIt().MatchString(plainWords(parts[i])): // of what came before
			return inOrder(found[:told])
		case denied && len(heard) > 0 && strings.Contains(parts[i], " and "): // which may deny another thing
			parts = append(parts, strings.Split(parts[i], " and ")...)
		case !denied:
			found, all = append(found, heard...), append(all, left...)
		}
	}
	if at := slices.Index(found, "no start"); at >= 0 && anyOfWords(all, onlyThen) {
		found[at] = "hard start"
	}
	return inOrder(found)
}

// inOrder puts complaints in the list's order, those of no list behind.
func inOrder(found []string) []string {
	place := func(name string) int {
		if at := slices.Index(complaints, name); at >= 0 {
			return at
		}
		return len(complaints)
	}
	slices.SortStableFunc(found, func(a, b string) int { return place(a) - place(b) })
	return slices.Compact(found)
}

var (
	// sentenceEnds are where one thing that a sentence tells ends and the next begins.
	sentenceEnds = lazily(`[,;:()/]| then |\b(?:but|though|although|except|however|yet|otherwise)\b`)
	// overWithIt says of what comes before it that it is so no more, but where a circumstance
	// follows: "gone once warm".
	overWithIt = lazily(`\b(?:did until|fixed|cured|anymore|any more|no longer|gone(?: now)?$|gone since)\b|\bgone$`)
	untilWarm  = lazily(`\buntil (?:it is |it's |it has |they are )?(?:fully )?(?:warm(?:ed up|s up)?|hot|up to temperature)\b`)
)

// isWell is a word of what is well at other times.
func isWell(w string) bool { return w == "fine" || w == "ok" || w == "okay" }

// heardIn gives the complaints that a clause of a sentence tells of, and the words left of it.
func heardIn(clause string) (found, left []string) {
	rest := " " + strings.Join(strings.FieldsFunc(plainWords(clause), func(c rune) bool { return c == ' ' || strings.ContainsRune(",;:/()\"+&", c) }), " ") + " "
	rest = howMuch.Replace(rest)
	for _, c := range complaintPhrases() {
		for _, phrase := range c.Words {
			if strings.Contains(rest, " "+phrase+" ") {
				rest = strings.ReplaceAll(rest, " "+phrase+" ", " , ")
				found = append(found, c.Means)
			}
		}
	}
	before, after, _ := strings.Cut(rest, " , ")
	left = slices.DeleteFunc(strings.Fields(after), func(w string) bool { return slices.Contains(onceSo, w) })
	return found, append(strings.Fields(before), left...)
}

// onceSo say of what follows them that it is so no more, and nothing of what stands before:
// "no power since the belt was done".
var onceSo = strings.Fields("was were used")

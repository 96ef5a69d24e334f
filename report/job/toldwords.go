package job

import (
	"slices"
	"strconv"
	"strings"
	"unicode"
)

// A toldWord is a word or a sign of what is told in one text, with the characters that it
// takes there.
type toldWord struct {
	text     string
	low      string
	at, end  int
	breaks   bool // a sign at which one thing ends and the next begins
	bracket  bool // a remark in brackets
	excepted bool // 'bar' in front of a cylinder, which is no unit there
}

// toldWords takes a text apart into its words and signs. A point or comma within a number
// stays in it.
func toldWords(text string) []toldWord {
	runes := []rune(text)
	var out []toldWord
	put := func(from, to int) {
		if from < to {
			piece := string(runes[from:to])
			out = append(out, toldWord{text: piece, low: strings.ToLower(strings.ReplaceAll(piece, "’", "'")), at: from, end: to})
		}
	}
	sign := func(i int) {
		put(i, i+1)
		out[len(out)-1].breaks = strings.ContainsRune(",;|.!", runes[i])
	}
	isDigit := func(i int) bool { return i >= 0 && i < len(runes) && unicode.IsDigit(runes[i]) }
	begin := 0
	for i := 0; i < len(runes); i++ {
		switch c := runes[i]; {
		case unicode.IsSpace(c):
			put(begin, i)
			begin = i + 1
		case strings.ContainsRune(";|=:", c), c == ')', c == ',' && !(isDigit(i-1) && isDigit(i+1)):
			put(begin, i)
			sign(i)
			begin = i + 1
		case c == '(' && slices.Contains(runes[i:], ')'):
			put(begin, i)
			to := i + slices.Index(runes[i:], ')') + 1
			put(i, to)
			out[len(out)-1].bracket = true
			begin, i = to, to-1
		case (c == '.' || c == '!') && (i+1 == len(runes) || unicode.IsSpace(runes[i+1])) && !slices.Contains(abbreviated, strings.ToLower(string(runes[begin:i+1]))):
			put(begin, i)
			sign(i)
			begin = i + 1
		}
	}
	put(begin, len(runes))
	out = dashesApart(out)
	for i := range out {
		out[i].breaks = out[i].breaks || slices.Contains([]string{"/", "*", "·"}, out[i].low)
	}
	return out
}

// abbreviated are words that a point belongs to.
var abbreviated = strings.Fields("no. nr. cyl. approx. ca. abt. min. max. c.")

// toldPhrase finds the longest of some phrases, in lower case, that stands at a word, and gives the word behind
// it; the same place for none.
func toldPhrase(words []toldWord, at int, phrases []string) int {
	end := at
	for _, phrase := range phrases {
		fields := strings.Fields(phrase)
		if at+len(fields) > len(words) || at+len(fields) <= end {
			continue
		}
		same := true
		for i, f := range fields {
			same = same && words[at+i].low == f
		}
		if same {
			end = at + len(fields)
		}
	}
	return end
}

var (
	// tellsOf are the words and signs between a cylinder and what is told of it, which say nothing of it. Those that
	// tell of a change, up by so much, are none.
	tellsOf = strings.Split("is;was;were;are;at;which;that;it;it's;reads;read;reading;had;has;have;having;got;gets;get;gave;gives;give;made;makes;make;did;shows;showed;showing;show;came;comes;come;came in;came out;up to;down to;rose to;went to;goes to;comes to;came to;"+
		"went;to;within;improved to;stayed at;stayed;still at;ended up at;ended at;finished at;settled at;dropped back to;fell back to;flows;flowed;pops;popped;pops at;pop;pop at;spins;turns;runs;ran;comes in at;came in at;hits;bang on;spot on;dead on;said;says;came back;came back at;dropped to;fell to;climbed to;jumped to;now;only;just;with;being;looks;looked;look;looking;sat;sits;measured;turned out;pumped;pumped up to;hit;stopped at;seems;a;an;the;also;both;each;still;who;one;ones;to be;all;=;:;);-;–;—;->;-->;=>;i got;we got;where", ";")
	// softly are words beside a look that take nothing from it.
	softly = strings.Split("a bit;bit;slightly;a little;a touch;touch;rather;quite;very;pretty;kind of;sort of;kinda;really;nice and;nice;lovely;proper;properly;all;completely;totally;plain;just", ";")
	// apartFrom stand before what is told of cylinders that differ from all others.
	apartFrom = strings.Split("except;except for;except that;excepting;but;but for;apart from;other than;aside from;save;save for;excluding;ex;bar;barring", ";")
	// joinsTold stand between two things that are told, or two cylinders.
	joinsTold = strings.Split("and;&;n;'n';then;and then;but;while;whereas;plus;+;also;with", ";")
	// behindAll hold what stands before them for all cylinders.
	behindAll = strings.Split("all round;all around;all over;across the board;everywhere;each;apiece;all;all the way across;right across", ";")
	// allTold name all cylinders.
	allTold = strings.Split("all;everything;every one;everyone;all of them;they all;they are all;they're all;the lot;each;every cylinder;all cylinders;all cyls;all plugs;all the plugs;every plug;all of em", ";")
	// othersTold name all cylinders that are not named.
	othersTold = strings.Split("rest;the rest;others;the others;all the rest;all the others;all others;rest of them;the rest of them;remaining;the remaining;remaining ones;the remaining ones;remainder;the remainder;everything else;all the other ones;the other ones", ";")
	// cylinderNoun stand before a cylinder's number, or behind an ordinal.
	cylinderNoun = strings.Fields("cylinder cylinders cyl cyl. cyls cyls. no no. nos nos. nr nr. number numbers plug plugs pot pots hole holes injector injectors inj coil #")
	ordinalWords = strings.Fields("first second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth")
)

// tellsWord reports a word that stands beside cylinders and what is told of them.
func tellsWord(word string) bool {
	word = strings.ToLower(strings.TrimRight(word, ",.:;"))
	for _, list := range [][]string{tellsOf, apartFrom, joinsTold, behindAll, allTold, othersTold, cylinderNoun, ordinalWords, deniers} {
		if slices.Contains(list, word) {
			return true
		}
	}
	return false
}

var dashedGlued = lazily(`^(\d{1,2})-(\d{2,3}(?:\.\d+)?)$`)

// dashesApart takes cylinders apart from the readings behind their dashes, 1-150 2-148, where several are written so and none
// can be a band.
func dashesApart(words []toldWord) []toldWord {
	var out []toldWord
	pairs := 0
	for _, w := range words {
		m := dashedGlued().FindStringSubmatch(w.text)
		if m == nil {
			out = append(out, w)
			continue
		}
		name, _ := strconv.Atoi(m[1])
		value, _ := strconv.ParseFloat(m[2], 64)
		if name < 1 || value < 5*float64(max(name, 4)) {
			return words
		}
		pairs++
		at := w.at + len(m[1])
		out = append(out, toldWord{text: m[1], low: m[1], at: w.at, end: at}, toldWord{text: "=", low: "=", at: at, end: at + 1}, toldWord{text: m[2], low: m[2], at: at + 1, end: w.end})
	}
	if pairs < 2 {
		return words
	}
	return out
}

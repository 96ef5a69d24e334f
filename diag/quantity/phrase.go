package quantity

import "strings"

// A Bound says how a figure is meant.
type Bound uint8

// The bounds that a phrase may have.
const (
	Exact   Bound = iota
	About         // 'about 120', '~120', '120ish'
	AtLeast       // 'over 300', '300+', 'at least 30', '30 min'
	AtMost        // 'under 30', 'at most 45', '45 max'
)

// A Join is what stands between two numbers of a phrase.
type Join uint8

// The joins that a phrase may have.
const (
	To        Join = iota // '145-155', '145..155', '145 to 155'
	PlusMinus             // '39 +/- 3'
	Slash                 // '72/80'
	Of                    // '72 of 80'
	In                    // '500 ml in 30 s', '500 ml per minute'
	After                 // '30 psi after 5 min'
	At                    // '16 psi at 750 rpm'
	And                   // '145 and 148'
	Bracket               // '24 bar (348 psi)'
	Next                  // '150, 148' or '150 148'
)

// A Part is one number of a phrase.
type Part struct {
	Value Value
	Text  string // as it stands there, with its unit
	At    int    // the character at which it begins, counted from 0
	Bound Bound  // of this part alone
}

// A Phrase is what is written for one figure: its numbers, and what ties them
// together.
type Phrase struct {
	Bound Bound // of the first part
	Parts []Part
	Joins []Join // between the parts, one less than these
}

// Single gives the phrase's only number.
func (p Phrase) Single() (Part, bool) {
	if len(p.Parts) != 1 {
		return Part{}, false
	}
	return p.Parts[0], true
}

// Pair gives the two numbers of a phrase that is nothing but these, tied by the
// join; a number without a unit takes the other's.
func (p Phrase) Pair(join Join) (a, b Part, ok bool) {
	if len(p.Parts) != 2 || p.Joins[0] != join {
		return Part{}, Part{}, false
	}
	a, b = p.Parts[0], p.Parts[1]
	switch {
	case a.Value.Unit == None && b.Value.Unit != None:
		a.Value.Unit = b.Value.Unit
	case b.Value.Unit == None && a.Value.Unit != None:
		b.Value.Unit = a.Value.Unit
	}
	return a, b, true
}

// Cut takes a phrase apart at the first of a join, ok where it has one.
func (p Phrase) Cut(join Join) (before, after Phrase, ok bool) {
	for i, j := range p.Joins {
		if j == join {
			return Phrase{p.Bound, p.Parts[:i+1], p.Joins[:i]}, Phrase{p.Parts[i+1].Bound, p.Parts[i+1:], p.Joins[i+1:]}, true
		}
	}
	return p, Phrase{}, false
}

// Only reports whether all joins of a phrase of several numbers are one of these.
func (p Phrase) Only(joins ...Join) bool {
	for _, j := range p.Joins {
		found := false
		for _, one := range joins {
			found = found || j == one
		}
		if !found {
			return false
		}
	}
	return len(p.Joins) > 0
}

// Texts are the numbers as they stand there.
func (p Phrase) Texts() []string {
	out := make([]string, len(p.Parts))
	for i, part := range p.Parts {
		out[i] = part.Text
	}
	return out
}

// boundsBefore are the words and signs before a number that say how it is meant,
// longer ones first where one begins with another.
var boundsBefore = []struct {
	words string
	bound Bound
}{
	{"approximately", About}, {"approx.", About}, {"approx", About}, {"about", About}, {"around", About}, {"roughly", About}, {"circa", About}, {"ca.", About}, {"ca", About},
	{"abt.", About}, {"abt", About}, {"nearly", About}, {"almost", About}, {"just about", About}, {"some", About}, {"say", About}, {"maybe", About}, {"c.", About}, {"~", About}, {"≈", About},
	{"not less than", AtLeast}, {"no less than", AtLeast}, {"at least", AtLeast}, {"more than", AtLeast}, {"better than", AtLeast}, {"greater than", AtLeast}, {"off the scale at", AtLeast},
	{"pegged at", AtLeast}, {"pegged", AtLeast}, {"over", AtLeast}, {"above", AtLeast}, {"beyond", AtLeast}, {"minimum", AtLeast}, {"min.", AtLeast}, {"min", AtLeast}, {">=", AtLeast}, {"=>", AtLeast}, {">", AtLeast}, {"≥", AtLeast},
	{"not more than", AtMost}, {"no more than", AtMost}, {"not over", AtMost}, {"at most", AtMost}, {"less than", AtMost}, {"up to", AtMost}, {"under", AtMost}, {"below", AtMost},
	{"maximum", AtMost}, {"max.", AtMost}, {"max", AtMost}, {"<=", AtMost}, {"=<", AtMost}, {"<", AtMost}, {"≤", AtMost},
}

// boundsAfter are those behind a number.
var boundsAfter = []struct {
	words string
	bound Bound
}{
	{"+", AtLeast}, {"plus", AtLeast}, {"or more", AtLeast}, {"or better", AtLeast}, {"and up", AtLeast}, {"and over", AtLeast}, {"minimum", AtLeast}, {"min.", AtLeast}, {"min", AtLeast},
	{"or less", AtMost}, {"maximum", AtMost}, {"max.", AtMost}, {"max", AtMost}, {"and under", AtMost},
	{"'ish", About}, {"-ish", About}, {"ish", About}, {"or so", About}, {"approximately", About}, {"approx.", About}, {"approx", About}, {"roughly", About}, {"give or take", About}, {"??", About}, {"?", About},
}

// joinsBetween are the words and signs between two numbers, longer ones first
// where one begins with another.
var joinsBetween = []struct {
	words string
	join  Join
}{
	{"+ / -", PlusMinus}, {"+/-", PlusMinus}, {"+-", PlusMinus}, {"±", PlusMinus}, {"plus or minus", PlusMinus}, {"plus/minus", PlusMinus},
	{"->", Next}, {"→", Next}, {"...", To}, {"..", To}, {"…", To}, {"–", To}, {"—", To}, {"-", To}, {"up to", To}, {"thru", To}, {"through", To}, {"to", To},
	{"/", Slash}, {"out of", Of}, {"of", Of}, {"in", In}, {"per", In}, {"over", In}, {"after", After}, {"at", At}, {"@", At}, {"and then", Next}, {"and", And}, {"&", And}, {"then", Next}, {"(", Bracket},
	{",", Next}, {";", Next}, {"|", Next},
}

// Plain spells out spaces, signs and fractions that word processors and phones
// put in.
func Plain(text string) string { return plainer.Replace(text) }

// Spellings of spaces, signs and fractions that word processors and phones put in.
var plainer = strings.NewReplacer(
	"\u00a0", " ", "\u202f", " ", "\u2009", " ", "\u2007", " ", "\t", " ", "\u2212", "-", "\u2044", "/", "·", ".", "_", " ", "’", "'",
	"½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8")

func (b Bound) String() string {
	return [...]string{"exact", "about", "at least", "at most"}[b]
}

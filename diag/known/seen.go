package known

import (
	"regexp"
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/sight"
)

// SeenIn is all that the job says of a look into one cylinder, in lower case:
// the camera's words, its notes, and the technician's findings that name the
// cylinder.
func (c *Case) SeenIn(name string) string {
	if len(c.Borescope)+len(c.Bores)+len(c.History.WorkDone)+len(c.History.Findings) == 0 {
		return ""
	}
	if text, known := c.seen[name]; known {
		return text
	}
	if c.seen == nil {
		c.seen = map[string]string{}
	}
	c.seen[name] = c.sightsOf(name)
	return c.seen[name]
}

func (c *Case) sightsOf(name string) string {
	var texts []string
	if look := c.Borescope[name]; look != "" {
		texts = append(append(texts, look), c.lookAt(look, true).Says...)
	}
	if b, ok := c.Bores[name]; ok {
		for _, part := range []struct{ what, look string }{{"wall", b.Wall}, {"crown", b.Crown}, {"valves", b.Valves}, {"seat", b.Seat}} {
			if part.look != "" {
				texts = append(texts, part.what+" "+part.look)
			}
		}
		if b.Wall == "pitted" {
			texts = append(texts, "wall rusty", sight.PittedWall)
		}
		texts = append(texts, b.Note)
	}
	for _, w := range c.sightsSaid() {
		if slices.Contains(w.Cylinders, name) || w.inside && !c.Several() {
			texts = append(append(texts, w.sight), c.lookAt(w.sight, false).Says...)
		}
	}
	if len(texts) == 0 { // of most cylinders
		return ""
	}
	return ringGrooves.ReplaceAllString(strings.ToLower(strings.Join(texts, "; ")), "slot")
}

// ringGrooves are grooves that were made there.
var ringGrooves = regexp.MustCompile(`\b(?:ring|oil|circlip) grooves?\b|\b(?:in|into|from|out of) (?:the|its|their|a) grooves?\b`)

// Looked reports a cylinder that a camera was put into.
func (c *Case) Looked(name string) bool {
	b, ok := c.Bores[name]
	return c.Borescope[name] != "" || ok && b != diag.Bore{}
}

// Seen reports that what was seen in a cylinder speaks of one of these.
func (c *Case) Seen(name string, words ...string) bool {
	text := c.SeenIn(name)
	return text != "" && SpeaksOf(text, words...)
}

// AnySeen reports that what was seen in one of some cylinders speaks of one of these.
func (c *Case) AnySeen(names, words []string) bool {
	return slices.ContainsFunc(names, func(n string) bool { return c.Seen(n, words...) })
}

// onInletValves are words of carbon on the backs of valves, where nobody says that it is
// the exhaust's.
var onInletValves = []string{"valves carbon", "carbon on the valves", "carbon on valves", "carbon on the inlet valves", "carbon on the intake valves"}

// DepositsSeen lists the cylinders of a petrol engine with direct injection on whose
// valves carbon was seen: no fuel washes its intake valves, so that it grows there until
// the air has no way.
func (c *Case) DepositsSeen() []string {
	if c.FuelSystem() != DirectLow || c.Spec.Diesel() {
		return nil
	}
	return c.Those(func(n string) bool {
		return c.Seen(n, sight.InletCarbon) || c.Seen(n, onInletValves...) && !c.Seen(n, "exhaust valve")
	})
}

// putRight are words of work that put right what was seen, notMended of what is so in spite of
// it.
var (
	putRight  = []string{"replaced", "renewed", "repaired", "fitted", "reground", "lapped", "rebored", "honed", "sleeved", "cleaned", "tightened", "put right", "mended", "fixed", "sealed", "cured", "made good"}
	notMended = []string{"still", "again", "since"}
)

// mended reports a line that says that what it speaks of was put right: it is there no more.
func mended(text string) bool {
	return SpeaksOf(text, putRight...) && !speaksWord(text, notMended)
}

// Words of what is seen in a cylinder.
var (
	ScoredWords = []string{"scor", "scratch", "groove", "scuff"}
	HoledWords  = []string{"hole in the piston", "hole in piston", "hole in the crown", "hole in crown", "hole burnt in", "hole burned in", "hole melted in", "hole knocked in", "burnt a hole", "burned a hole", "melted a hole", "hole in its crown", "hole in its piston", "hole through", "holed", "broken piston", "piston broken", "burnt through", "melted through"}
	// MeltedPiston is a piston that heat has taken metal off, and that need have no hole.
	MeltedPiston = append([]string{"crown melted", "melted piston", "piston melted", "pistons melted", "melted crown"}, pairs("piston|crown|ring land|top land", "melted|eaten away|eroded|edge gone|burned away|burnt away")...)
	// GonePiston is either.
	GonePiston  = slices.Concat(HoledWords, MeltedPiston)
	BurntValve  = append([]string{"valve crack", "valve is crack", "valve gone"}, pairs("valve|seat", "burn|chip|torched|guttered")...)
	BentValve   = []string{"bent valve", "valve bent", "valves bent", "valve is bent"}
	MarkedCrown = append([]string{"valve strike", "crown marked", "dented", "dents", "impact mark", "valve mark"},
		append(pairs("piston|pistons|crown|crowns|valve|valves|chamber|plug|electrode|bore|roof", "struck"), // what else was struck lies outside
			pairs("valve|valves", "hit the piston|hit piston|touched the piston|touched piston|met the piston|hit the crown|kissed")...)...)
	WashedCrown  = []string{"steam clean", "steam-clean", "washed", "clean crown", "crown clean"}
	LiquidWords  = []string{"liquid", "water", "coolant", "fluid", "pool", "puddle", "wet with fuel", "fuel standing", "oil standing"}
	CarbonWords  = []string{"crown carbon", "carbon on the crown", "carbon on crown", "carbon on the piston", "carbon on piston", "carboned", "heavy carbon", "coked"}
	CarbonOnSeat = []string{"seat carbon", "valves carbon", "carbon on the valves", "carbon on the inlet valves", "carbon on valves", "carbon on the seat", "carbon on a seat", "carbon on seat"}
	RustOnValve  = append([]string{"valves rust", "seat rust"}, pairs("valve|valves|seat|seats", "rust|corroded")...)
	RustOnWall   = append([]string{"wall rust"}, pairs("wall|walls|bore|liner|cylinder", "rust|corroded")...)
	Glazed       = []string{"glaz"}
	GoodWall     = []string{"wall good", "walls good", "bore good", "wall clean", "hone visible", "cross-hatch", "crosshatch"}
	GoodCrown    = []string{"crown good", "piston good"}
	GoodValves   = []string{"valves good", "valve good", "seats good", "seat good"}
)

// SpeaksOf reports whether a text has one of these words, not denied where it
// stands: "no scoring", "not scored", "without any scoring", "no sign of
// scoring", "scoring: none". Of a pair both stand near one another.
func SpeaksOf(text string, words ...string) bool {
	return slices.ContainsFunc(words, func(word string) bool {
		if one, other, pair := strings.Cut(word, pairMark); pair {
			return speaksOfPair(text, one, other)
		}
		for from := 0; ; {
			at := strings.Index(text[from:], word)
			if at < 0 {
				return false
			}
			at += from
			if !deniedNear(text[:at], text[at+len(word):]) {
				return true
			}
			from = at + len(word)
		}
	})
}

// denialReach is how many words behind a denial it still reaches.
const denialReach = 4

var (
	clauseEnd  = regexp.MustCompile(`[,;.:?!()]|\bbut\b|\bbecause\b|\bso\b`)
	denial     = regexp.MustCompile(`^(no|not|without|nothing|never|nor|neither|free|isn't|aren't)$`)
	afterNone  = regexp.MustCompile(`^\w*\s*:?\s*(none|no|nil)\b`)
	wordsOfAny = regexp.MustCompile(`\S+`)
)

// deniedNear reports a word that what stands before it in its clause, or right
// after it, denies.
func deniedNear(before, after string) bool {
	if ends := clauseEnd.FindAllStringIndex(before, -1); len(ends) > 0 {
		before = before[ends[len(ends)-1][1]:]
	}
	near := wordsOfAny.FindAllString(before, -1)
	near = near[max(0, len(near)-denialReach):]
	for i, word := range near {
		number := i+1 < len(near) && near[i+1][0] >= '0' && near[i+1][0] <= '9' // "no 3" is a cylinder
		if denial.MatchString(word) && !number {
			return true
		}
	}
	return afterNone.MatchString(after)
}

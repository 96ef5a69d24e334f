package known

import (
	"regexp"
	"slices"
	"strings"
)

// Where a noise can be loudest, by the names that the outcomes of listening for it have.
const (
	NoiseAtHead  = "at the head"
	NoiseAtBlock = "at the block"
	NoiseAtDrive = "at the drive"
	// NoiseBeside is at something that is no part of what the cylinders do: at what joins
	// the engine to what it drives, at what its belt drives, or at what hangs on it.
	NoiseBeside   = "elsewhere"
	NoiseAtPlate  = "at the drive plate"
	NoiseAtDriven = "at what the belt drives"
)

// noisePlaces are what a noise is heard at, and whether that is beside the cylinders. What hangs
// on the engine is looked for first: a timing cover is no valve cover, and an exhaust's joint no
// head.
var noisePlaces = []struct {
	at, words string
	beside    bool
}{
	{NoiseAtPlate, `bell ?housings?|flex ?plate|fly ?wheel|(?:torque )?converter|gear ?box|transmission|clutch`, true},
	{NoiseAtDriven, `alternator|generator|dynamo|pulleys?|idlers?|water pump|steering pump|compressor|accessor\w+|belt tensioner|drive belt|fan`, true},
	{NoiseBeside, `exhaust|heat shield|(?:engine )?mounts?|starter|bracket`, true},
	{NoiseAtDrive, `timing (?:cover|chain|belt|drive|case)|front cover|chain|front|drive`, false},
	{NoiseAtBlock, `(?:engine )?block|sump|oil pan|below|bottom end|lower end|crankcase`, false},
	{NoiseAtHead, `heads?|valve covers?|cam covers?|top end|top|rockers?`, false},
}

const (
	quietSaid = `quiet|silent|nothing(?: is| was)?(?: heard)?|no (?:noise|knock|tick|sound|rattle|thud)s?|(?:not|never) (?:so |as |very )?(?:loud\w*|heard|there|at|from|in|on|the|coming)|(?:not|n't) (?:come|be heard)`
	loudSaid  = `loud|louder|loudest|strongest|worst|clearest|comes from|heard`
)

// What is said of where a noise is heard, and whether it is heard there.
var (
	noiseSaid = func() *regexp.Regexp {
		var ways []string
		for _, p := range noisePlaces {
			ways = append(ways, p.words)
		}
		return regexp.MustCompile(`\b(?:(` + strings.Join(append(ways, quietSaid, loudSaid), `)|(`) + `))\b`)
	}()
	// quietens is a noise that grows less, of which another word would say that it is not there.
	quietens = regexp.MustCompile(`\b(?:goes|gets|becomes|turns|grows|is|it) quiet\b|\bquiet (?:with|when|as|once|if)\b`)
	// besideName is what has "head", "drive" or "belt" in its name and is no place of a noise.
	besideName = strings.NewReplacer("in drive", "", "cold engine", "", "drive away", "", "test drive", "", "drive plate", "flexplate", "driveplate", "flexplate", "at the top of the rev", "", "no 1", "1", "no change", "")
	noiseEnds  = regexp.MustCompile(`[;:.()]|,|\b(?:but|while|whereas)\b`)
)

// noiseWords are words of a noise, listened those of somebody who looked for where it is.
var (
	noiseWords = []string{"noise", "knock", "tick", "tapping", "rattl", "clatter", "thud", "clunk", "rumbl", "whine", "squeal", "scrap", "grind"}
	listened   = Plain("noise source", "stethoscope", "noise located", "noise listened", "finding the noise", "finding the noise by ear", "listened")
)

// tellsOfNoise reports a text that has a word of a noise: what sticks does not tick.
func tellsOfNoise(text string) bool {
	return slices.ContainsFunc(noiseWords, func(word string) bool { return len(wordStarts(text, word)) > 0 })
}

// heard is where a noise was found loud and where it was found quiet.
type heard struct {
	loud, quiet []string
	unmoved     bool // it stays as each cylinder is cut out
	asked       bool
}

// heard is what a work says of a noise, read once, also for the trials of the plan.
func (w *Work) heard() *heard {
	h := w.noise
	if h.asked {
		return h
	}
	h.asked = true
	noisy, by := tellsOfNoise(w.Text), w.Says(listened...)
	if noisy || by {
		h.hear(w.Text, by)
	}
	h.unmoved = noisy && len(w.Cylinders) == 0 && unmoved.MatchString(w.Text) && saysCut(w.Text) &&
		slices.ContainsFunc(eachOfThem, func(word string) bool { return strings.Contains(w.Text, word) }) // what is denied is a change
	return h
}

// NoiseHeard is where the job says that a noise is loud, clause by clause, and where not.
func (c *Case) NoiseHeard() (loud, quiet []string) {
	if !c.Complains("noise") {
		return nil, nil
	}
	works := c.Works()
	for i := range works {
		h := works[i].heard()
		loud, quiet = append(loud, h.loud...), append(quiet, h.quiet...)
	}
	loud = slices.DeleteFunc(loud, func(at string) bool { return slices.Contains(quiet, at) })
	return loud, quiet
}

// hear reads one line: what is said of a place stands in its clause, before it or behind, or
// in the next one ("cover, heads and block quiet"). A place of which nothing is said is where
// somebody who listened heard it, if nothing else is.
func (h *heard) hear(text string, listened bool) {
	var open []string
	text = quietens.ReplaceAllString(besideName.Replace(text), "")
	for _, clause := range noiseEnds.Split(text, -1) {
		open = h.clause(clause, open)
	}
	if (listened || len(h.quiet) > 0) && len(h.loud) == 0 { // "not at the block but at the front"
		h.loud = append(h.loud, open...)
	}
}

// clause reads one clause after places of which nothing was said yet, and gives those of
// which nothing is said still.
func (h *heard) clause(clause string, open []string) []string {
	var last string    // what was said last, and of no place yet
	var since []string // the places behind it
	behind := false    // what is said of a place stands behind it
	before := open     // the places before it
	for _, m := range noiseSaid.FindAllStringSubmatchIndex(clause, -1) {
		name := noiseName(m)
		switch {
		case name != "loud" && name != "quiet" && last == "":
			before = append(before, name)
			continue
		case name != "loud" && name != "quiet":
			since = append(since, name)
			continue
		case last == "" && len(before) > len(open): // "cover, heads and block quiet"
			h.add(before, name == "loud")
			before, open, behind = nil, nil, true
		case behind:
			h.add(since, name == "loud")
		case len(since) > 1: // "loud at the housing and the block quiet"
			h.add(since[:len(since)-1], last == "loud")
			h.add(since[len(since)-1:], name == "loud")
		case len(since) > 0:
			h.add(since, last == "loud")
		}
		last, since = name, nil
	}
	switch {
	case last == "":
		return before
	case len(since) > 0:
		h.add(since, last == "loud")
	default: // what is said in a clause of its own is of what came before
		h.add(open, last == "loud")
		return nil
	}
	return open
}

func (h *heard) add(places []string, loud bool) {
	if loud {
		h.loud = append(h.loud, places...)
	} else {
		h.quiet = append(h.quiet, places...)
	}
}

// noiseName is what one match of noiseSaid stands for: a place, "quiet" or "loud".
func noiseName(m []int) string {
	for i, p := range noisePlaces {
		if m[2*i+2] >= 0 {
			return p.at
		}
	}
	if m[2*len(noisePlaces)+2] >= 0 {
		return "quiet"
	}
	return "loud"
}

// NoiseLoudest is where the job says that the noise is loud: the places, without those that it
// says are quiet.
func (c *Case) NoiseLoudest() []string {
	loud, _ := c.NoiseHeard()
	return loud
}

// unmoved is a noise that stays as it is with each cylinder cut out, in words.
var unmoved = regexp.MustCompile(`(?:(?:not|n't|never|no) (?:\w+ )?(?:change|changes|affected|difference|quieter)|unchanged|stays|the same|no cylinder|none)\b`)

// cutOut are words of cylinders that were cut out one by one.
var cutOut = pairs("cylinder|cylinders|injector|injectors|coil|coils|lead|leads|plug wire|plug wires|spark", "off|out|cut|killed|disabled|shorted|unplugged|disconnected|grounded")

// eachOfThem are words of all of them.
var eachOfThem = []string{"each", "any cylinder", "any injector", "any coil", "any lead", "every", "no cylinder", "one after", "one by one", "in turn", "cylinders", "injectors", "coils", "leads"}

// NoiseUnmoved is an engine whose noise is the same with each cylinder cut out.
var NoiseUnmoved = OfEngine("a complaint of noise, and the job says that it stays as each cylinder is cut out", func(c *Case) bool {
	return c.Complains("noise") && slices.ContainsFunc(c.Works(), func(w Work) bool { return w.heard().unmoved })
})

// saysCut reports a text that tells of cylinders that were cut out, denied or not: what is
// denied there is a change.
func saysCut(text string) bool {
	return slices.ContainsFunc(cutOut, func(pair string) bool {
		of, said, _ := strings.Cut(pair, pairMark)
		return len(wordStarts(text, of)) > 0 && slices.ContainsFunc(strings.Split(said, "|"), func(what string) bool { return len(wordStarts(text, what)) > 0 })
	})
}

// CutOutInTurn is an engine of which each cylinder was cut out in turn, in a balance or by the
// job's words: nobody is asked to do it again.
var CutOutInTurn = Any(NoiseUnmoved, OfEngine("each cylinder was cut out in a balance", func(c *Case) bool {
	for _, n := range c.Every() {
		if _, _, read := c.Drop(n); !read {
			return false
		}
	}
	return true
}))

// NoiseNowhere is one of which the job names no place where it is loud.
var NoiseNowhere = OfEngine("heard at no part of the engine", func(c *Case) bool { return len(c.NoiseLoudest()) == 0 })

// NoiseAtSide is a noise that was heard loudest beside the cylinders, at none of what they move.
var NoiseAtSide = OfEngine("a complaint of noise, and the job says that it is loudest beside the engine's own parts and at none of them", func(c *Case) bool {
	loud := c.NoiseLoudest()
	for _, p := range noisePlaces {
		if !p.beside && slices.Contains(loud, p.at) {
			return false
		}
	}
	return len(loud) > 0
})

// NoiseBelow is an engine that makes a noise, and the job says that it is loudest at the
// block or under it, or that a bearing is heard.
var NoiseBelow = OfEngine("a complaint of noise, and the job says that it is loudest at the block or below; or a knock at the bottom end was found", func(c *Case) bool {
	return c.HasValves() && (slices.Contains(c.NoiseLoudest(), NoiseAtBlock) || c.Found(knockBelow...))
})

package known

import (
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/sight"
)

// lookAt is what was made out of some words of what was seen, once for each: of a look into a
// cylinder, or of a line that speaks of it.
func (c *Case) lookAt(text string, into bool) sight.Look {
	key := text
	if !into {
		key = "§" + text
	}
	if look, known := c.looks[key]; known {
		return look
	}
	if c.looks == nil {
		c.looks = map[string]sight.Look{}
	}
	look := sight.Read(text, into)
	look.Unread = slices.DeleteFunc(look.Unread, func(clause string) bool {
		return SpeaksOf(ringGrooves.ReplaceAllString(plainWords(clause), "slot"), seenElsewhere...)
	})
	c.looks[key] = look
	return look
}

// sightsSaid are the lines of work and findings that may say what was seen in a cylinder, and
// that was not put right.
func (c *Case) sightsSaid() []*Work {
	works := c.Works()
	var list []*Work
	for i := range works {
		if w := &works[i]; w.sight != "" && !w.putRight {
			list = append(list, w)
		}
	}
	return list
}

// seenElsewhere are the words of what is seen that stand in lists of their own.
var seenElsewhere = slices.Concat(ScoredWords, GonePiston, BurntValve, BentValve, MarkedCrown, WashedCrown, LiquidWords, CarbonWords, CarbonOnSeat, RustOnValve, RustOnWall, Glazed,
	GoodWall, GoodCrown, GoodValves, BrokenGear, StuckOpen, metalWords, BentRod, adapterLeaks, outOfIt, OilyWells, InjectorTar, onInletValves, CoolantBurnt, CrankcaseLeaks)

// Words of what is seen that package sight makes out.
var (
	BrokenRing  = []string{sight.BrokenRing}
	BrokenLand  = []string{sight.BrokenLand}
	RingPiece   = []string{sight.RingPiece}
	StuckRing   = []string{sight.StuckRing}
	CrackedPist = []string{sight.CrackedPist}
	CrackedHead = []string{sight.CrackedHead}
	CrackedWall = []string{sight.CrackedWall}
	BrokenValve = []string{sight.BrokenValve}
	HotValve    = []string{sight.HotValve}
	LeakyValve  = []string{sight.LeakyValve}
	BlownGasket = []string{sight.BlownGasket}
	BrokenPlug  = []string{sight.BrokenPlug}
	MeltedPlug  = []string{sight.MeltedPlug}
	PinClipOut  = []string{sight.PinClip}
	LooseThing  = []string{sight.LooseThing}
	OilSeen     = []string{sight.OilSeen}
	FuelSeen    = []string{sight.FuelSeen}
	WetSeen     = []string{sight.WetSeen}
	WornSeen    = []string{sight.WornSeen}
	PittedWall  = []string{sight.PittedWall}
	CarbonCrumb = []string{sight.CarbonCrumb}
	lightScore  = []string{sight.LightScore}
	deepScore   = []string{sight.DeepScore}
)

// ScoredLightly reports cylinders of which the marks on the wall are called light, and of none
// that they are more.
func (c *Case) ScoredLightly(names []string) bool {
	return c.AnySeen(names, lightScore) && !slices.ContainsFunc(names, func(n string) bool {
		return c.Seen(n, ScoredWords...) && (c.Seen(n, deepScore...) || !c.Seen(n, lightScore...))
	})
}

// ofValves are the sights of a cylinder's valves.
var ofValves = slices.Concat(CarbonCrumb, BrokenGear, BrokenValve, HotValve, LeakyValve, BurntValve, BentValve, StuckOpen)

// judgedAgain are words of a second look at what was seen, by name.
const judgedAgain = "second look"

// SeenNotJudged lists what was written of a look into a cylinder and was not made out, as it was
// written; nothing where somebody judged it since.
func (c *Case) SeenNotJudged(name string) []string {
	var list []string
	if text := c.Borescope[name]; text != "" {
		list = slices.Clone(c.lookAt(text, true).Unread)
	}
	for _, w := range c.sightsSaid() {
		if slices.Contains(w.Cylinders, name) || w.inside && !c.Several() {
			list = append(list, c.unreadOf(w)...)
		}
	}
	if !c.HasValves() && c.Seen(name, ofValves...) { // it has others, of which nothing is known here
		list = append(list, c.Borescope[name])
	}
	if len(list) == 0 || c.DoneOn([]string{name}, judgedAgain) != nil {
		return nil
	}
	return list
}

// SaidAside reports words of a look into a cylinder that name neither a part nor damage, beside
// others that do.
func (c *Case) SaidAside(name, clause string) bool {
	return slices.Contains(c.lookAt(c.Borescope[name], true).Aside, clause)
}

// unreadOf is what a line says of damage to a part within a cylinder that nothing makes out: of
// the technician's findings, and not where they speak of a fault that is known by its words.
func (c *Case) unreadOf(w *Work) []string {
	look := c.lookAt(w.sight, false)
	if !look.Harm || !look.Inside || len(look.Unread) == 0 || !c.foundAs(w) {
		return nil
	}
	return look.Unread
}

// foundAs reports a line that stands among the technician's findings, and in which no fault was
// made out.
func (c *Case) foundAs(w *Work) bool {
	_, lines := c.FaultsFound()
	return slices.ContainsFunc(c.History.Findings, func(line string) bool {
		return c.parsed[line].Text == w.Text && !slices.Contains(lines, line)
	})
}

// SeenNowhere are the lines among the findings that say what was seen in the engine, of a
// cylinder that they do not name; in an engine of one cylinder it is that one.
func (c *Case) SeenNowhere() []string { return remembered(&c.nowhere, c.readNowhere) }

func (c *Case) readNowhere() []string {
	var list []string
	if !c.Several() || len(c.History.Findings) == 0 {
		return nil
	}
	for _, w := range c.sightsSaid() {
		if len(w.Cylinders) == 0 && w.inside && c.foundAs(w) && (len(c.unreadOf(w)) > 0 || c.saysAny(w, damaged)) {
			list = append(list, w.sight)
		}
	}
	return list
}

// SeenNowhereStops reports that one of these lines speaks of what comes to pieces as the engine
// turns.
func (c *Case) SeenNowhereStops() bool {
	return slices.ContainsFunc(c.sightsSaid(), func(w *Work) bool {
		return len(w.Cylinders) == 0 && w.inside && c.saysAny(w, loosening)
	})
}

// loosening are sights of what comes to pieces, or lies about.
var loosening = []string{sight.RingPiece, sight.CrackedPist, sight.CrackedWall, sight.BrokenValve, sight.PinClip, sight.LooseThing, "crown holed", "piston broken", "piston melted", "crown marked", "valve bent"}

// saysAny reports a line out of which one of some sights was made.
func (c *Case) saysAny(w *Work, sights []string) bool {
	return slices.ContainsFunc(c.lookAt(w.sight, false).Says, func(said string) bool { return slices.Contains(sights, said) })
}

// damaged are these, and sights of damage besides, wherever it was seen.
var damaged = append([]string{sight.BrokenRing, sight.BrokenLand, sight.CrackedHead, sight.BlownGasket, "wall scored", "valve burned", "valve chipped", "seat burned"}, loosening...)

// quotedMost is how many letters of what somebody wrote stand in a finding: all of it stands with
// the job's other words.
const quotedMost = 60

// InShort cuts what was written down to that.
func InShort(said []string) diag.Names {
	var list diag.Names
	left := quotedMost
	for _, text := range said {
		letters := []rune(text)
		if len(letters) > left {
			cut := strings.LastIndex(string(letters[:left]), " ")
			return append(list, strings.TrimSpace(string(letters[:left])[:max(cut, 0)]+" …"))
		}
		list, left = append(list, text), max(left-len(letters)-2, 0)
	}
	return list
}

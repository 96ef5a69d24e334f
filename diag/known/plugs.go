package known

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"gaugesheet/diag"
)

// Plug gives a cylinder's plug, nil where it was not looked at.
func (c *Case) Plug(name string) *diag.PlugResult {
	if c.Sums.Plugs == nil {
		return nil
	}
	for i := range c.Sums.Plugs.Cylinders {
		if p := &c.Sums.Plugs.Cylinders[i]; p.Name == name && p.State == diag.Tested {
			return p
		}
	}
	return nil
}

// Looks reports whether a cylinder's plug has one of these looks.
func (c *Case) Looks(name string, looks ...string) bool {
	p := c.Plug(name)
	return p != nil && slices.Contains(looks, p.Look)
}

// PlugsRead lists the cylinders whose plug was looked at and whose look can
// speak of the mixture: a cylinder without pressure does not burn, so its plug
// says nothing of why.
func (c *Case) PlugsRead() []string {
	if c.plugs == nil {
		c.plugs = c.plugsRead()
	}
	return slices.Clip(c.plugs)
}

func (c *Case) plugsRead() []string {
	names := []string{}
	for _, name := range c.Every() {
		grade := c.Grade(name)
		if p := c.Plug(name); p != nil && p.Look != "" && grade != diag.VeryLow && grade != diag.NoPressure {
			names = append(names, name)
		}
	}
	return names
}

// Looking lists the cylinders of plugsRead with one of these looks.
func (c *Case) Looking(looks ...string) []string {
	var names []string
	for _, name := range c.PlugsRead() {
		if c.Looks(name, looks...) {
			names = append(names, name)
		}
	}
	return names
}

// PlugsLooking lists the cylinders with one of these looks, with pressure or not:
// damage speaks for itself.
func (c *Case) PlugsLooking(looks ...string) []string {
	return c.Those(func(n string) bool { return c.Looks(n, looks...) })
}

// LeanAlone reports cylinders whose plugs show the heat of a mixture too lean, beside others that
// were looked at and do not.
func (c *Case) LeanAlone(names []string) bool {
	lean := c.PlugsLooking("white", "blistered", "melted", "detonation")
	in := func(n string) bool { return slices.Contains(lean, n) }
	return len(names) > 0 && !slices.ContainsFunc(names, func(n string) bool { return !in(n) }) && slices.ContainsFunc(c.PlugsRead(), func(n string) bool { return !in(n) })
}

// PlugsDiffer reports plugs that were looked at and do not all look alike.
func (c *Case) PlugsDiffer() bool {
	read := c.PlugsRead()
	return slices.ContainsFunc(read, func(n string) bool { return c.Plug(n).Look != c.Plug(read[0]).Look })
}

// A Pattern is how plugs of one look lie in the engine. What they share is
// where their cause is looked for.
type Pattern string

const (
	OnNone       Pattern = ""
	OnAll        Pattern = "all"
	OnBank       Pattern = "bank"
	OnOne        Pattern = "one"
	OnEnds       Pattern = "ends"
	OnNeighbours Pattern = "neighbours"
	OnSome       Pattern = "some"
)

// PatternOf is how cylinders lie among those whose plugs were read.
func (c *Case) PatternOf(set []string) Pattern {
	read := c.PlugsRead()
	switch {
	case len(set) == 0:
		return OnNone
	case len(set) == len(read) && c.PlugsSpeakForAll():
		return OnAll
	case len(set) == 1:
		return OnOne
	case c.BankOfAll(set) >= 0:
		return OnBank
	case c.AtEnds(set):
		return OnEnds
	case len(c.Engine.NeighbourRuns(set)) == 1:
		return OnNeighbours
	}
	return OnSome
}

// PlugsSpeakForAll reports that more than half of the plugs were read: what two suspects of
// eight have in common is nothing that the engine has.
func (c *Case) PlugsSpeakForAll() bool { return 2*len(c.PlugsRead()) > len(c.Every()) }

// BankOfAll gives the bank whose plugs, two at least, are this set while two
// at least were read on the other; -1 for none.
func (c *Case) BankOfAll(set []string) int {
	if !c.Engine.IsTwoBank() {
		return -1
	}
	var read [2]int
	for _, name := range c.PlugsRead() {
		if b := c.Engine.BankOf(name); b >= 0 {
			read[b]++
		}
	}
	bank := c.Engine.BankOf(set[0])
	same := !slices.ContainsFunc(set, func(n string) bool { return c.Engine.BankOf(n) != bank })
	if bank >= 0 && same && len(set) > 1 && len(set) == read[bank] && read[1-bank] > 1 {
		return bank
	}
	return -1
}

// AtEnds reports the two end cylinders of a row of four or more.
func (c *Case) AtEnds(set []string) bool {
	if len(c.Engine.Banks) != 1 || len(set) != 2 {
		return false
	}
	row := c.Engine.Banks[0].Cylinders
	return len(row) >= 4 && slices.Contains(set, row[0]) && slices.Contains(set, row[len(row)-1])
}

// BankLabel is what a bank is called: by its side, else by its own name.
func (c *Case) BankLabel(bank int) string {
	if label := c.Engine.SideLabel(bank); label != "" {
		return label
	}
	return c.Engine.Banks[bank].Name
}

var fittedAgo = regexp.MustCompile(`(\d+)\s*(day|week)`)

// NewPlugDays is how long plugs count as new: until then their colour says
// little, and a fault may have been hidden with them. Common practice, no source.
const NewPlugDays = 31

// PlugsNew reports plugs fitted recently, from the words of the job.
func (c *Case) PlugsNew() bool {
	if c.Plugs == nil {
		return false
	}
	fitted := strings.ToLower(c.Plugs.Fitted)
	if m := fittedAgo.FindStringSubmatch(fitted); m != nil {
		n, err := strconv.Atoi(m[1])
		if m[2] == "week" {
			n *= 7
		}
		return err == nil && n <= NewPlugDays
	}
	if fitted != "" {
		return SpeaksOf(fitted, "new", "today", "yesterday", "just", "this week", "last week", "recent")
	}
	return c.WorkDone("new plugs", "plugs renewed", "plugs replaced", "new spark plugs", "replaced plugs")
}

// ClosedGap is the part of the book's gap under which something pushed it
// shut: common practice, no source.
const ClosedGap = 0.30

// A Gap is how a plug's gap stands beside the book's.
type Gap string

const (
	GapRight  Gap = "" // within its limits, or not judged
	GapWide   Gap = "wide"
	GapNarrow Gap = "narrow"
	GapShut   Gap = "closed" // something pushed it shut
)

// GapOf is how the gap of a cylinder's plug stands beside the book's.
func (c *Case) GapOf(name string) Gap {
	p := c.Plug(name)
	switch {
	case p == nil || c.Plugs == nil || p.GapMM == nil || p.Gap != diag.Outside:
		return GapRight
	case *p.GapMM < ClosedGap*c.Plugs.GapMM:
		return GapShut
	case *p.GapMM < c.Plugs.GapMM:
		return GapNarrow
	}
	return GapWide
}

// PlugTellsOfHarm reports a plug that was hit, or melted, or shows knock: what did so is in
// the cylinder, or went through it.
func (c *Case) PlugTellsOfHarm(name string) bool {
	return c.GapClosed(name) || c.Looks(name, "melted", "damaged", "detonation")
}

// GapClosed reports a plug whose gap something pushed shut.
func (c *Case) GapClosed(name string) bool { return c.GapOf(name) == GapShut }

// PlugsGapped lists the cylinders whose plug's gap stands so.
func (c *Case) PlugsGapped(as Gap) []string {
	return c.Those(func(n string) bool { return c.GapOf(n) == as })
}

// ColourOthers counts the plugs beside these whose look can speak of the mixture.
func (c *Case) ColourOthers(names []string) int {
	n := 0
	for _, name := range c.PlugsRead() {
		if !slices.Contains(names, name) {
			n++
		}
	}
	return n
}

// GasFuel reports an engine that runs on gas, which burns clean and white.
func (c *Case) GasFuel() bool {
	return c.Spec.Fuel == "lpg" || c.Spec.Fuel == "cng" || c.Spec.AlsoGas
}

// EveryPlugWet reports fuel on every plug looked at, two at least where the
// engine has several cylinders, whether or not they have pressure.
func (c *Case) EveryPlugWet() bool {
	if c.Sums.Plugs == nil {
		return false
	}
	wet := len(c.PlugsLooking("fuel-wet"))
	return wet > 0 && wet == c.Sums.Plugs.N && (wet > 1 || !c.Several())
}

// Looks that plugs too hot for the engine have, and too cold.
var (
	hotLooks  = []string{"white", "blistered", "melted"}
	coldLooks = []string{"sooty"}
)

// HeatRangeRight is plugs of the heat range that the book asks for.
var HeatRangeRight = OfEngine("plugs of the book's heat range", func(c *Case) bool {
	return c.Test.Plugs != nil && c.Test.Plugs.HeatRange.Given && c.Test.Plugs.HeatRange.Fitted == c.Test.Plugs.HeatRange.Book
})

// WrongHeat lists the cylinders whose plug shows that its heat range is not the
// book's: hotter and white, blistered or melted, colder and sooty. Where the job
// does not say which way the maker numbers, either shows it.
func (c *Case) WrongHeat() (names []string, hot bool) {
	if c.Test.Plugs == nil || c.Spec.Diesel() {
		return nil, false
	}
	h := c.Test.Plugs.HeatRange
	if !h.Given || h.Fitted == h.Book {
		return nil, false
	}
	hotter := (h.Fitted > h.Book) == (h.Higher == "hotter")
	if h.Higher == "" || hotter {
		names = c.PlugsLooking(hotLooks...)
	}
	if len(names) > 0 {
		return names, true
	}
	if h.Higher == "" || !hotter {
		names = c.Looking(coldLooks...)
	}
	return names, false
}

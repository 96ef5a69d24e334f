package known

import (
	"regexp"
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
)

// A Liquid is why liquid may lie in a cylinder.
type Liquid string

// The reasons, the surest first.
const (
	LiquidSeen    Liquid = "seen"    // it was seen there
	LiquidWetPlug Liquid = "plug"    // it reads high and its plug is wet or washed
	LiquidCoolant Liquid = "coolant" // it reads high and the engine loses coolant
	LiquidBelow   Liquid = "below"   // its plug is oily, and it hangs under the crankshaft
	LiquidEnters  Liquid = "enters"  // coolant seems to get into it, whatever it reads
)

// LiquidIn gives the reason why liquid may lie in a cylinder, "" for none.
// Liquid takes up room and so raises the reading; enough of it stops the piston.
func (c *Case) LiquidIn(name string) Liquid {
	liquid, known := c.liquid[name]
	if !known {
		if c.liquid == nil {
			c.liquid = map[string]Liquid{}
		}
		liquid = c.liquidIn(name)
		c.liquid[name] = liquid
	}
	return liquid
}

func (c *Case) liquidIn(name string) Liquid {
	switch {
	case c.LiquidSeenIn(name):
		return LiquidSeen
	case c.NoLiquidCame(name):
		return ""
	case c.Looks(name, "coolant", "fuel-wet", "oil-wet") && c.StandsHigh(name):
		return LiquidWetPlug
	case c.LosesCoolant() && !c.AirCooled() && c.StandsHigh(name):
		return LiquidCoolant
	case c.HangsBelow(name) && c.Looks(name, "oil-wet"):
		return LiquidBelow
	case c.CoolantEnters(name):
		return LiquidEnters
	}
	return ""
}

// LiquidSeenIn reports liquid that was seen in a cylinder, and not beside it: looked at, or
// come out as its plug did; or an oily cylinder that hangs and stopped the engine.
func (c *Case) LiquidSeenIn(name string) bool {
	seen := seenFromBelow.ReplaceAllString(c.SeenIn(name), "")
	if seen != "" && (SpeaksOf(seen, LiquidWords...) && SpeaksOf(besideIt.ReplaceAllString(seen, ""), LiquidWords...) || SpeaksOf(seen, outOfIt...) || liquidFound(seen)) {
		return true
	}
	return c.cameOut(name)
}

// cameOut reads what was noted of a cylinder's plug, and why it could not be tested.
func (c *Case) cameOut(name string) bool {
	note, leak, press := "", "", ""
	if p := c.Plug(name); p != nil {
		note = p.Note
	}
	if c.Leakage != nil {
		leak = c.Leakage.Dry[name].Reason
	}
	if c.Compression != nil {
		press = c.Compression.Dry[name].Reason
	}
	if note == "" && leak == "" && press == "" { // of most cylinders
		return false
	}
	stops := strings.ToLower(leak + "; " + press)
	return SpeaksOf(strings.ToLower(note)+"; "+stops, outOfIt...) || c.HangsBelow(name) && c.Looks(name, "oil-wet") && SpeaksOf(stops, stopsOnIt...)
}

// Words of liquid that came out of a cylinder, or that stopped an engine.
var (
	outOfIt   = append([]string{"full of oil", "full of water", "full of fuel", "full of coolant", "full of petrol", "full of gasoline", "full of diesel", "hydraulic lock", "hydrolock", "liquid lock"}, pairs("oil|water|fuel|coolant|petrol|gasoline|diesel", "ran out|runs out|poured|pours|came out of the hole|dripped out|drips out")...)
	stopsOnIt = []string{"stops", "stopped", "locks", "locked", "will not turn", "won't turn", "does not turn"}
)

// OilRunsDown reports a cylinder that hangs below the crankshaft of an engine that stood:
// oil gets into it past rings and guides that are sound.
func (c *Case) OilRunsDown(name string) bool {
	return c.HangsBelow(name) && (c.Stood() || slices.Contains(c.History.Complaints, "stood") || c.History.StoodMonths > 0)
}

// besideIt is what is said of what lies beside a cylinder and not in it: the well in
// which its plug stands, the boot or tube there, a joint outside, the water with soap by
// which it is looked for and the parts that water gives their name.
var besideIt = regexp.MustCompile(`[^;,.]*\b(?:plug wells?|plug tubes?|wells? (?:of|around|at)|boots?|soap\w*|spray\w*|(?:gasket|head) (?:edge|joint)|edge of the (?:head )?gasket|joint|flange|outside|(?:foot|bottom|lower end|lower seals?|outside) of|into the (?:oil pan|sump|pan|crankcase)|core plugs?|freeze plugs?|` +
	`(?:water|coolant) (?:pump|hose|jacket|pipe|outlet|inlet|neck|temperature|gauge|manifold|passages?|level|bottle|tank|side|hole))\b[^;,.]*`)

// seenFromBelow is what is said of coolant under a liner: with the oil pan off, at the rings that
// seal its foot, or at the hole between them. It comes down the outside.
var seenFromBelow = regexp.MustCompile(`[^;]*\b(?:(?:oil pan|pan|sump) (?:is |was )?(?:off|out|removed|dropped|down)|(?:seen )?from (?:below|underneath)|(?:lower|sealing|bottom|liner|sleeve) (?:sealing )?(?:rings?|seals?|o rings?|orings?)|weep ?holes?|tell ?tales?|(?:off|down|outside) (?:of )?(?:the |its )?(?:liner|sleeve)s?|(?:liner|sleeve)s?\b[^;,.]*\b(?:at the bottom|at its foot|below|underneath))\b[^;]*`)

// NoLiquidCame reports an engine that was turned by hand with the plugs out, and
// nothing came out of this cylinder.
func (c *Case) NoLiquidCame(name string) bool {
	return c.DoneOn([]string{name}, "turn by hand", "turned by hand").Says("free", "freely", "no liquid", "nothing came out")
}

// StandsHigh reports a cylinder that reads more than a tenth above every other,
// two at least, also in a test that is not judged: a shut throttle lowers all
// alike. Beside others that have no pressure it is no more than the sound one.
func (c *Case) StandsHigh(name string) bool {
	if c.Grade(name) == diag.High {
		return true
	}
	r := c.Cylinder(name)
	if r == nil || r.Dry == nil || r.Kind == diag.AtLeast || !slices.Contains([]diag.Grade{diag.Even, diag.GradeNotJudged}, r.Grade) {
		return false
	}
	others := c.Others([]string{name})
	if len(others) < 2 {
		return false
	}
	_, high := c.Spread(others)
	return *r.Dry > 1.1*high && slices.ContainsFunc(others, func(n string) bool { return c.Grade(n) != diag.NoPressure })
}

// LiquidPossible lists the cylinders in which liquid may lie.
func (c *Case) LiquidPossible() []string {
	return c.Those(func(n string) bool { return c.LiquidIn(n) != "" })
}

// LiquidLies reports liquid seen in one of some cylinders, of any where none are named,
// that nobody is said to have turned out since.
func (c *Case) LiquidLies(names []string) bool {
	if len(names) == 0 {
		names = c.Every()
	}
	return slices.ContainsFunc(names, func(n string) bool { return c.LiquidIn(n) == LiquidSeen }) &&
		!c.WorkDone(turnedOut...)
}

// turnedOut are words of work by which liquid left the cylinders.
var turnedOut = []string{"turn by hand", "turned by hand", "with the plugs out", "turned out", "drained", "pumped out", "blown out", "sucked out"}

// CrankedEmpty reports an engine that its starter turned with all plugs out, each cylinder that
// coolant may get into read by it and none high: what lay there came out then. Where the
// cooling system was pumped up since, more may have been pressed in.
func (c *Case) CrankedEmpty() bool {
	if c.Conditions.PlugsOut != "all" || c.Compression == nil || CoolingFalls.HoldsIn(c) || c.WorkDone("cooling pressure", "coolant pressure", "cooling system pressure") {
		return false
	}
	enters := c.LiquidPossible()
	return len(enters) > 0 && !slices.ContainsFunc(enters, func(n string) bool {
		r := c.Cylinder(n)
		return c.LiquidIn(n) != LiquidEnters || r == nil || r.Dry == nil
	})
}

// HangsBelow reports a cylinder under the crankshaft, into which oil runs: all
// of an inverted engine, and those of a radial one that lie in its lower third.
func (c *Case) HangsBelow(name string) bool {
	if c.Spec.Inverted == diag.Yes {
		return true
	}
	i := c.Engine.Index(name)
	if c.Engine.Kind != engine.Radial || i < 0 || i >= len(c.Engine.Cylinders) {
		return false
	}
	lowest := 0.0
	for _, x := range c.Engine.Cylinders {
		lowest = max(lowest, x.Y) // seen from the rear, Y grows downwards
	}
	return c.Engine.Cylinders[i].Y > lowestThird*lowest
}

// OilRanDown reports a cylinder that hangs below the crankshaft with an oily plug, and
// that was turned over since: what runs down as such an engine stands, of which no more
// lies in it now, since liquid would have made it read high or come out with the air.
func (c *Case) OilRanDown(name string) bool {
	if c.LiquidIn(name) != LiquidBelow {
		return false
	}
	if r := c.Cylinder(name); r != nil && r.Dry != nil {
		return !c.StandsHigh(name)
	}
	_, read := c.Loss(name)
	return read
}

// OilGathersBelow reports that oil may have run into a cylinder that hangs below the
// crankshaft: whatever else is found, the starter waits until it was turned by hand and,
// since a little can lie there still, until it was looked into.
func (c *Case) OilGathersBelow() bool {
	if c.Engine.Kind != engine.Radial && c.Spec.Inverted != diag.Yes {
		return false
	}
	return slices.ContainsFunc(c.Every(), func(n string) bool {
		return c.LiquidIn(n) == LiquidBelow || c.HangsBelow(n) && c.Looks(n, "oil-wet") && c.NoLiquidCame(n) && c.SeenIn(n) == ""
	})
}

// lowestThird is how far below the crankshaft, as a part of the lowest
// cylinder's, a cylinder of a radial engine still gathers oil.
const lowestThird = 0.45

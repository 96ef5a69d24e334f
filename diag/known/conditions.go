package known

import (
	"slices"
	"strings"

	"gaugesheet/diag"
)

// all asks something of every cylinder of a subject.
func all(s Subject, is func(string) bool) bool {
	return len(s.Cylinders) > 0 && !slices.ContainsFunc(s.Cylinders, func(n string) bool { return !is(n) })
}

// someOf asks something of one cylinder of a subject at least.
func someOf(s Subject, is func(string) bool) bool { return slices.ContainsFunc(s.Cylinders, is) }

// OfAll is a condition on each cylinder of the subject, OfAny on one at least.
func OfAll(words string, is func(*Case, string) bool) Condition {
	return Is(words, func(c *Case, s Subject) bool { return all(s, func(n string) bool { return is(c, n) }) })
}

// OfAny is a condition on one cylinder of the subject at least.
func OfAny(words string, is func(*Case, string) bool) Condition {
	return Is(words, func(c *Case, s Subject) bool { return someOf(s, func(n string) bool { return is(c, n) }) })
}

// OfEngine is a condition on the engine or its test as a whole.
func OfEngine(words string, is func(*Case) bool) Condition {
	return ofCase(words, is)
}

// OfCircuit is a condition on a fuel circuit.
func OfCircuit(words string, is func(Circuit) bool) Condition {
	return Is(words, func(_ *Case, s Subject) bool { return s.Circuit != nil && is(*s.Circuit) })
}

// Conditions on the compression of a cylinder.
var (
	Low  = OfAll("graded low (under 85 % of the reference), very low or without pressure", func(c *Case, n string) bool { return c.Grade(n).IsLow() })
	Dead = OfAll("without pressure (under 15 % of the reference)", func(c *Case, n string) bool { return c.Grade(n) == diag.NoPressure })
	// ReadsHigh is one that stands above an otherwise even set.
	ReadsHigh = OfAll("graded high (over 10 % above the others, which agree; not, its plug being dry, where they are under what the geometry gives and it is not over that, or under the stated minimum and it is not, or under 60 % of it, of two 70 %, and it gives no more than a sound engine may)", func(c *Case, n string) bool { return c.Grade(n) == diag.High })
	// Sealing is compression that is good as far as is known.
	Sealing  = OfAll("graded even, and not under a stated minimum", func(c *Case, n string) bool { return c.HoldsWell(n) })
	NotLow   = OfAll("graded even, watch or high", func(c *Case, n string) bool { return c.Grade(n).IsGood() })
	NoneDead = OfEngine("some cylinder has pressure", func(c *Case) bool { return !c.Dead() })
)

// Conditions on the answer to oil.
var (
	OilRises    = OfAll("up with oil (15 % more than the control and half of what it lacks; without a control 25 %)", func(c *Case, n string) bool { return c.WetEvidence(n) == WetRises })
	OilFlat     = OfAll("no rise with oil (under 5 % more than the control)", func(c *Case, n string) bool { return c.WetEvidence(n) == WetFlat })
	OilNotTried = OfAll("oil not tried, or it told nothing", func(c *Case, n string) bool { return c.WetEvidence(n) == "" })
)

// AirAt is air heard at a place.
func AirAt(place string) Condition {
	words := "air at the " + place + ", more than 10 % lost or no figure"
	if place == AtCoolant || place == AtNeighbour {
		words = "air at the " + place + ", whatever the loss"
	}
	return OfAll(words, func(c *Case, n string) bool { return c.LeaksAt(n, place) })
}

// AirAtHalf is air at a place in half the cylinders of the subject at least.
func AirAtHalf(place string) Condition {
	return Is("air at the "+place+" in half of them at least", func(c *Case, s Subject) bool {
		with := 0
		for _, n := range s.Cylinders {
			if c.LeaksAt(n, place) {
				with++
			}
		}
		return with > 0 && 2*with >= len(s.Cylinders)
	})
}

// Tight is a cylinder that lost under 10 %, or no more than sound ones do.
var Tight = OfAll("under 10 % lost in the leakage test, or low and past the rings alone under 20 % and no more than 3 points over what cylinders that make good pressure lose", func(c *Case, n string) bool { return c.AllTight([]string{n}) })

// LossTooSmall is a cylinder that loses too little for the pressure that it lacks.
var LossTooSmall = OfAll("an engine with valves that is not flooded; no pressure, and 40 % lost at most in the leakage test (60 % where no cylinder has pressure), or a quarter low, 15 % lost at most, inside its limit, and no sound cylinder tested beside it; past the rings or at no named place, and no rise with oil", (*Case).LossTooSmall)

// Plug is a plug with one of these looks.
func Plug(looks ...string) Condition {
	return OfAll("plug "+strings.Join(looks, " or "), func(c *Case, n string) bool { return c.Looks(n, looks...) })
}

// MetalOnPlug is a plug of which the job says in words that there is metal on it: in
// its note, or among the findings.
var MetalOnPlug = OfAll("metal on its plug, in words", func(c *Case, n string) bool {
	p := c.Plug(n)
	return p != nil && SpeaksOf(strings.ToLower(p.Note), append([]string{"aluminium", "aluminum"}, metalWords...)...) ||
		c.Seen(n, metalWords...)
})

var metalWords = []string{"metal on the plug", "metal on plug", "metal on its plug", "metal speck", "specks of metal", "bits of metal", "grey specks", "gray specks", "silver specks", "aluminium speck", "aluminum speck", "specks of alumin", "aluminium on the plug", "aluminum on the plug", "aluminium on plug", "aluminum on plug", "aluminium on the electrode", "aluminum on the electrode", "aluminium on the insulator", "aluminum on the insulator"}

// BurningPlug is that, in a cylinder with pressure enough to burn.
func BurningPlug(looks ...string) Condition {
	return OfAll("plug "+strings.Join(looks, " or ")+", with pressure enough to burn", func(c *Case, n string) bool { return c.Looks(n, looks...) && !c.Far(n) })
}

// SeenThere is something that was seen in the cylinder.
func SeenThere(what string, words []string) Condition {
	return OfAll(what+" seen in it", func(c *Case, n string) bool { return c.Seen(n, words...) })
}

// Strokes is how a cylinder builds up, by the pattern's name.
func Strokes(pattern, words string) Condition {
	return OfAll(words, func(c *Case, n string) bool { return c.StrokePattern(n) == pattern })
}

// Complaint is one of these complaints in the job.
func Complaint(of ...string) Condition {
	return OfEngine("a complaint of "+strings.Join(of, " or "), func(c *Case) bool { return c.Complains(of...) })
}

// Conditions on the engine and on what is told of it.
var (
	TwoStroke = OfEngine("a two-stroke that draws through its crankcase", func(c *Case) bool { return c.Ported() })
	Diesel    = OfEngine("a diesel", func(c *Case) bool { return c.Spec.Diesel() })
	Valves    = OfEngine("an engine with valves", func(c *Case) bool { return c.HasValves() })
	// InletValved is an engine that draws in past valves, and not through ports.
	InletValved = OfEngine("an engine with inlet valves", func(c *Case) bool { return c.InletValves() })
	Lash        = OfEngine("valves whose clearance can be set", func(c *Case) bool { return c.LashCanBeSet() })
	Single      = OfEngine("an engine of one cylinder", func(c *Case) bool { return !c.Several() })
	StoodShort  = OfEngine("said to have stood, every cylinder read, none low and none losing too much, and neither rust nor liquid, a washed plug or a valve that hangs seen in any", func(c *Case) bool { return c.StoodAndSound() })
	StoodLong   = OfEngine("stood more than 6 months", func(c *Case) bool { return c.Stood() })
	GasFound    = OfEngine("combustion gas found in the coolant", func(c *Case) bool { return c.CoolantGas == "positive" })
	NoGasFound  = OfEngine("no combustion gas found in the coolant, by a test that was not made cold or short", func(c *Case) bool { return c.CoolantGas == "negative" && !c.GasTestWeak() })
	NoGasWeak   = OfEngine("no combustion gas found in the coolant, by a test made cold or in under 5 minutes", func(c *Case) bool { return c.CoolantGas == "negative" && c.GasTestWeak() })
	// CoolantEntering is asked of an engine: not of one of its cylinders.
	CoolantEntering = OfEngine("coolant that seems to get into a cylinder", func(c *Case) bool { return c.CoolantEntersAny() })
	CoolantEnters   = OfAll("not cooled by air; its piston seen washed clean, and not all alike, while coolant is lost, burnt or boils, or gas was found there; or its plug washed by coolant, and it is low, or rust was seen in it, or air from it bubbles into the coolant, or combustion gas was found there, or (not where every plug looks so) "+
		"the engine loses coolant, smokes white, overheats, is low all over or does not start; or a rotor that is low, with combustion gas in the coolant", func(c *Case, n string) bool { return c.CoolantEnters(n) })
	AirCooled   = OfEngine("cooled by air", func(c *Case) bool { return c.AirCooled() })
	OneCamshaft = OfEngine("one camshaft for both banks", func(c *Case) bool { return c.OneCamshaft() })
	SuddenOnset = OfEngine("it came on suddenly", func(c *Case) bool { return c.CameSuddenly() })
)

package known

import (
	"regexp"
	"slices"
	"strings"
)

// Figures for an engine that something holds: judgement, no source.
const (
	charged   = 1.025 // of its nominal voltage, that a battery rests at which is charged: 12.3 V of 12
	heldUnder = 100.0 // rpm, under which a charged battery that is pulled down turns against something
)

// batteryNominal is what the battery is called, by its voltage at rest, or on the starter
// where that was not read.
func (c *Case) batteryNominal() float64 {
	cranking, rest := c.Conditions.Battery.CrankingV, c.Conditions.Battery.RestV
	told := 12.0
	switch {
	case rest != nil:
		told = *rest
	case cranking != nil:
		told = *cranking
	}
	switch {
	case told > 15.5:
		return 24
	case rest != nil && told < 8, rest == nil && told <= 6.3:
		return 6
	}
	return 12
}

// SlowByDrag is an engine that turns too slowly while its starter draws more than it may, or
// pulls down a battery that was charged: something is hard to turn, and no charger makes it
// lighter.
var SlowByDrag = OfEngine("turned under 150 rpm or under its limit, and the starter draws more than its limit; or turned under 100 rpm or not at all, the battery charged at rest (12.3 V of 12) and on the starter under 9.6 V or its limit, and the starter not said to draw less than its limit", func(c *Case) bool {
	return c.TurnsUnder() && DrawsMuch.HoldsIn(c) || c.heldOnStarter()
})

// heldOnStarter reports a good battery that is pulled far down by an engine that hardly
// turns, or does not.
func (c *Case) heldOnStarter() bool {
	rest, rpm := c.Conditions.Battery.RestV, c.Conditions.CrankingRPM
	if rest == nil || *rest < charged*c.batteryNominal() || rpm == nil || *rpm >= heldUnder {
		return false
	}
	_, sags := c.BatterySags()
	return (sags || BatteryUnder.HoldsIn(c)) && !DrawsLittle.HoldsIn(c)
}

// WetAndHeld lists the cylinders whose plugs are wet with fuel or washed in an engine that
// something holds, be they all: what floods an engine may fill a cylinder.
func (c *Case) WetAndHeld() []string {
	if !Held.HoldsIn(c) {
		return nil
	}
	return c.Those(func(n string) bool {
		return c.Looks(n, "fuel-wet", "coolant") && !c.NoLiquidCame(n) && !c.turnedSince(n)
	})
}

// turnedSince reports a cylinder that was read on the starter with its plug out, and not high:
// what lay in it came out then.
func (c *Case) turnedSince(name string) bool {
	r := c.Cylinder(name)
	return r != nil && r.Dry != nil && !c.StandsHigh(name)
}

// Held is an engine that something holds: it was found not to turn, or drags on its starter.
var Held = Any(EngineStuck, SlowByDrag)

// LiquidHolds is such an engine with a sign of what does not give way in a cylinder.
var LiquidHolds = All(Any(Held, LiquidCameOut), OfEngine("an engine that starts badly, or that nobody says runs well", func(c *Case) bool {
	return c.Spec.Runs != "well" || c.Complains("no start", "hard start")
}), Any(
	OfEngine("a wet or washed plug", func(c *Case) bool { return len(c.WetAndHeld()) > 0 }),
	CoolantMissed,
	OilOverFull, OilSmells, LiquidCameOut, liquidSeenInAny,
))

// CoolantMissed is coolant that is lost, burnt or found where it has no business.
var CoolantMissed = OfEngine("coolant that gets into a cylinder, is lost or is burnt", func(c *Case) bool {
	return !c.AirCooled() && (c.LosesCoolant() || c.CoolantSigns() > 0 || c.CoolantEntersAny())
})

// EngineStuck is an engine that was found not to turn, or to turn hard by hand.
var EngineStuck = Any(FoundSo("an engine that does not turn", NotTurning), TurnsHard)

// TurnsHard is an engine that hardly turns, or does not, where a hand tries it; TurnsStiffly one
// of these that turns.
var (
	TurnsHard    = OfEngine("an engine that does not turn, or turns hard, by hand or bar among the technician's findings", func(c *Case) bool { return c.turnsByHand(fixedSaid) || c.turnsByHand(stiffSaid) })
	TurnsStiffly = All(OfEngine("an engine that turns hard by hand", func(c *Case) bool { return c.turnsByHand(stiffSaid) && !c.turnsByHand(fixedSaid) }), Not(FoundSo("an engine that does not turn", NotTurning)))
)

// turnsByHand reports a line of the work or the findings on how the engine turns by hand that
// says so. That it "cannot be turned" is no work that was not done.
func (c *Case) turnsByHand(so *regexp.Regexp) bool {
	of := func(line string) bool {
		text := plainWords(line)
		return byHandSaid.MatchString(text) && !mended(text) && slices.ContainsFunc(clausesOf(text), func(clause string) bool {
			return byHandSaid.MatchString(clause) && so.MatchString(clause) && !otherTurning.MatchString(clause) && !otherThings.MatchString(clause) && !notHard.MatchString(clause)
		})
	}
	return slices.ContainsFunc(c.History.Findings, of) || slices.ContainsFunc(c.History.WorkDone, of)
}

// clausesOf parts what was found into what is said by itself; what follows a comma goes on
// with what stands before it.
func clausesOf(text string) []string {
	return strings.FieldsFunc(strings.ReplaceAll(text, " but ", ";"), func(r rune) bool { return r == ';' || r == '.' || r == '!' || r == '?' })
}

var (
	byHandSaid = regexp.MustCompile(`\b(?:by hand|by bar|by a bar|with a bar|on (?:a|the) bar|breaker bar|bar on the crank\w*|with (?:a|the) (?:wrench|spanner)|on the crank\w*(?: bolt| nut)?|(?:plugs|injectors|glow plugs) (?:out|removed)|by the (?:flywheel|crank\w*|fan|propeller|prop)|by hand crank)\b`)
	fixedSaid  = regexp.MustCompile(`\b(?:(?:does not|doesn't|do not|will not|won't|would not|wouldn't|cannot|can not|can't|could not|couldn't|refuses to|did not|didn't) (?:even )?(?:be )?(?:turn|move|budge|rotate)\w*|seized|locked|jammed|stuck)\b`)
	stiffSaid  = regexp.MustCompile(`\b(?:stiff|hard|tight|heavy)\b`)
	notHard    = regexp.MustCompile(`\b(?:not|isn't|wasn't|never|no longer|nothing) (?:very |too |so |at all )?(?:stiff|hard|tight|heavy|seized|locked|jammed|stuck)\b|\b(?:now|turns|turned|spins) (?:over )?(?:freely|free|easily)\b|\bstops? hard\b`)
	// otherTurning are parts that turn, or move, beside the crankshaft.
	otherTurning = regexp.MustCompile(`\b(?:alternators?|generator|dynamo|turbo\w*|pumps?|pulleys?|idlers?|tensioners?|fan clutch|fan blades?|viscous|distributor|steering|compressor|supercharger|blower|camshafts?|cams?|wheels?|valves?|rockers?|taps?|keys?|thermostat|throttle|choke|butterfly|spindle|bolts?|nuts?|screws?|stud|plug \w+ (?:is|was)|nipples?|starter (?:shaft|pinion|armature|motor)|rotor|vanes?|mixture)\b`)
)

// LiquidCameOut is fuel, water or oil that came out of a cylinder, or stands in one, of which
// nobody says which it is, and that nobody is said to have turned out since.
var LiquidCameOut = OfEngine("liquid that came out of a cylinder, or stands in one, which is not named, among the technician's findings", func(c *Case) bool {
	if len(c.History.Findings) == 0 || c.WorkDone(turnedOut...) {
		return false
	}
	c.Works()
	return slices.ContainsFunc(c.History.Findings, func(line string) bool {
		w := c.parsed[line]
		return len(w.Cylinders) == 0 && !w.putRight && liquidFound(w.Text)
	})
})

// liquidSeenInAny is liquid that was seen in a cylinder which is named.
var liquidSeenInAny = OfEngine("liquid seen in a cylinder", func(c *Case) bool { return c.LiquidLies(nil) })

// liquidFound reports a text that tells of liquid out of a plug's hole or a cylinder, or
// standing in one; mist is what any engine on its starter blows out of its holes.
func liquidFound(text string) bool {
	return slices.ContainsFunc(clausesOf(text), func(clause string) bool {
		for _, at := range liquidOutOf.FindAllStringIndex(clause, -1) {
			if !deniedNear(clause[:at[0]], clause[at[1]:]) && !blownOut.MatchString(clause) && !besideIt.MatchString(clause) {
				return true
			}
		}
		return false
	})
}

var (
	liquidOutOf = regexp.MustCompile(`\b(?:fuel|petrol|gasoline|diesel|oil|water|coolant|liquid)\b(?: \w+){0,2} (?:(?:came|comes|coming|ran|runs|running|poured|pours|squirted|squirts|shot|shoots|dripped|drips|pushed|flowed|flows|gushed)(?: \w+){0,2} (?:out|from)\b(?: of)?|(?:standing |lies |stands |lying |pooled |found |seen )?in|on top of)(?: \w+){0,2} (?:cylinders?|plug holes?|spark plug holes?|injector holes?|holes?|bores?|pots?|chambers?|pistons?)\b`)
	blownOut    = regexp.MustCompile(`\b(?:mist|vapou?r|haze|fog|wells?)\b`)
)

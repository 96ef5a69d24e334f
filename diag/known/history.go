package known

import (
	"slices"
	"strconv"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
)

// StoodMonths is how long an engine stands before its rings and valves may
// have stuck: common practice, no source.
const StoodMonths = 6

// Stood reports an engine that stood for so long, or for an unknown time.
func (c *Case) Stood() bool {
	return c.History.StoodMonths > StoodMonths || c.History.StoodMonths == 0 && slices.Contains(c.History.Complaints, "stood")
}

// stoodOnset are words of how it began that say that the engine had stood.
var stoodOnset = []string{"laid up", "lay up", "stood", "standing", "storage", "stored", "unused", "parked", "not used", "barn"}

// CameOfStanding is an engine that stood for long, or whose trouble began as it had stood.
var CameOfStanding = OfEngine("stood more than 6 months, or it began after the engine had stood", func(c *Case) bool {
	return c.Stood() || c.OnsetSays(stoodOnset...)
})

// RanSinceItStood is an engine that runs and was warm as it was tested, and of which fewer
// cylinders than half read low: its bores were oiled by then, and what standing does it does
// to all.
var RanSinceItStood = OfEngine("it runs, was tested warm, and fewer than half of its cylinders read low", func(c *Case) bool {
	low := len(c.LowSet())
	return (c.Spec.Runs == "well" || c.Spec.Runs == "rough") && (c.Conditions.Engine == "warm" || c.Conditions.Engine == "hot") && low > 0 && 2*low < len(c.Read())
})

// driven are words of an engine in use.
var driven = []string{"driven daily", "daily driver", "daily use", "in daily use", "used daily", "driven every day", "runs every day", "runs daily", "in regular use", "driven regularly", "commutes"}

// InUse is an engine that is run as it is, and was not said to have stood: its oil use is
// counted over a distance, it smokes as it works, it grew worse over months, or it is said so.
var InUse = OfEngine("in use: oil use over a distance, smoke as it works, a trouble that came slowly, or said to be; and not said to have stood", func(c *Case) bool {
	if !c.Starts() || c.History.StoodMonths > 0 || slices.Contains(c.History.Complaints, "stood") || CameOfStanding.HoldsIn(c) {
		return false
	}
	said := c.told(driven...) || c.History.Vehicle != "" && SpeaksOf(plainWords(c.History.Vehicle), driven...)
	return said || c.History.OilUse != "" || c.CameSlowly() || c.Smokes("blue", "load", "always", "overrun")
})

// StoodAndSound reports an engine that is said to have stood and whose cylinders were all
// read and seal: what stands may stick, and here nothing did, nor was anything seen of
// what standing leaves behind.
func (c *Case) StoodAndSound() bool {
	if !slices.Contains(c.History.Complaints, "stood") || !c.SealingRead() || c.NotJudged() != "" || c.AllLow() != nil || c.Dead() || len(c.LowSet()) > 0 {
		return false
	}
	return len(c.Those(func(n string) bool { return c.HighLoss(n) || c.SufferedAsItStood(n) })) == 0
}

// SufferedAsItStood reports a cylinder in which rust, liquid or a valve that hangs was
// seen, or whose plug water washed, whatever pressure it holds; not oil that ran down into
// a cylinder that hangs, as it does in every such engine.
func (c *Case) SufferedAsItStood(name string) bool {
	return c.WaterIn(name) || c.LiquidIn(name) != "" && !c.OilRanDown(name) || c.Seen(name, StuckOpen...)
}

// Complains reports one of the job's complaints; a stored misfire code is one
// too.
func (c *Case) Complains(of ...string) bool {
	if slices.Contains(of, "misfire") {
		if misfires, _ := c.MisfireCodes(); misfires || c.misfiresByLight() {
			return true
		}
	}
	said := func(x string) bool { return slices.Contains(of, x) || x == Hunting && slices.Contains(of, "misfire") } // it fires unevenly
	return slices.ContainsFunc(c.pending(), said) || slices.ContainsFunc(c.heard(), said) || c.saidByCode(of)
}

// MisfireCodes reports a stored code of misfiring, P0300 to P0312, and the
// cylinders that such codes name (SAE J2012, from memory), in the engine's
// order.
func (c *Case) MisfireCodes() (stored bool, cylinders []string) {
	for _, code := range c.History.Codes {
		number, is := strings.CutPrefix(code, "P03")
		n, err := strconv.Atoi(number)
		if !is || err != nil || n > 12 {
			continue
		}
		stored = true
		if name := strconv.Itoa(n); c.Engine.Index(name) >= 0 {
			cylinders = append(cylinders, name)
		}
	}
	c.InOrder(cylinders)
	return stored, slices.Compact(cylinders)
}

// MisfireOf are the cylinders that the stored codes of misfiring name where no
// such code speaks of all of them (P0300), in the engine's order.
func (c *Case) MisfireOf() []string {
	if c.Coded("P0300") {
		return nil
	}
	_, named := c.MisfireCodes()
	return named
}

// OneMisfires reports stored codes of misfiring that name some cylinders and
// not all.
func (c *Case) OneMisfires() bool {
	_, named := c.MisfireCodes()
	return len(named) > 0 && len(named) < len(c.Every())
}

// testedCharged is the test made again with a charger on, or with the battery charged; nil
// for none.
func (c *Case) testedCharged() *Work {
	return c.DoneOn(nil, "repeat with charger", "repeated with charger", "repeated with a charger", "charge and repeat", "battery charged and repeated")
}

// CameUpWithCharger is an engine that starts badly, or not, and whose readings
// came up when it was tested again with a charger on.
var CameUpWithCharger = OfEngine("hard starting or no start, and the job says that readings came up with a charger on", func(c *Case) bool {
	return c.testedCharged().Says("come up", "came up") && c.Complains("hard start", "no start")
})

// SlowAndStartsBadly is an engine that starts badly, or not, and that its starter was
// seen to turn slowly, or its battery to sag.
var SlowAndStartsBadly = OfEngine("hard starting or no start, and a cranking speed under 150 rpm or a battery under 9.6 V on the starter", func(c *Case) bool {
	_, sags := c.BatterySags()
	return c.Complains("hard start", "no start") && (sags || c.TurnsSlowly()) && !c.staysCharged()
})

// staysCharged reports readings that stayed as the test was made again with a battery that
// had been charged.
func (c *Case) staysCharged() bool {
	w := c.testedCharged()
	return w.Says("stay", "stayed", "same", "reads as before") && !w.Says("come up", "came up")
}

// TimingTouched reports valves whose drive or camshaft was just worked on.
func (c *Case) TimingTouched() bool {
	return c.HasValves() && (c.workedOn("timing belt", "timing chain", "cam belt", "cambelt", "camshaft", "belt changed", "belt renewed", "belt replaced") || SinceDriveRenewed.HoldsIn(c))
}

// SinceDriveRenewed is a trouble that came with work on what drives the valves: not with a belt
// that drives something else, as any is where a chain or gears turn the camshaft.
var SinceDriveRenewed = OfEngine("its trouble began as the belt or chain that drives its valves was renewed", func(c *Case) bool {
	if !c.HasValves() || !c.OnsetSays("since", "after") {
		return false
	}
	drives := "cambelt|cam belt|timing belt|timing chain|cam chain|camshaft"
	if c.Spec.TimingDrive == "belt" || c.Spec.TimingDrive == "" {
		drives += "|belt"
	}
	return c.OnsetSays(pairs(drives, "renewed|replaced|changed|fitted|done|new|put on")...) && !c.OnsetSays("drive belt", "fan belt", "alternator belt")
})

// DriveDisturbed reports valves whose drive was just worked on, or had to come off for
// the head that carries their camshaft: each time it goes back by its marks.
func (c *Case) DriveDisturbed() bool {
	inHead := c.Spec.TimingDrive == "belt" || slices.Contains([]string{"one per bank", "two per bank"}, c.Spec.Camshafts)
	return c.TimingTouched() || c.HasValves() && inHead && c.workedOn("head gasket", "headgasket", "head skimmed", "head off", "head resurfaced", "cylinder head", "head overhauled", "head rebuilt", "valves ground", "valve job")
}

// workedOn reports work of which the job says that it was done, now or between the
// readings before it and these.
func (c *Case) workedOn(words ...string) bool {
	if c.WorkDone(words...) {
		return true
	}
	if c.Before == nil || c.Before.Done == "" {
		return false
	}
	w := c.workOf(c.Before.Done)
	return w.Says(words...)
}

// DriveMayHaveLetGo reports an engine with valves that will not start, of which some
// cylinders have no pressure and all others are low: what they have in common moves
// their valves. One that stood for long has its valves stuck instead.
func (c *Case) DriveMayHaveLetGo() bool {
	return c.HasValves() && c.WillNotStart() && !c.Stood() && c.AllLow() != nil && len(c.Graded(diag.NoPressure)) > 0 && !c.Flooded()
}

// DriveMaySlip reports an engine whose valves a belt or chain drives, as far as is known: not
// one with gears, as small engines of mowers and pumps have them too.
func (c *Case) DriveMaySlip() bool {
	d := c.Spec.TimingDrive
	return c.HasValves() && d != "gears" && (d != "" || !c.FlywheelMagneto())
}

// Coded reports one of these trouble codes.
func (c *Case) Coded(codes ...string) bool {
	return slices.ContainsFunc(c.History.Codes, func(x string) bool { return slices.Contains(codes, x) })
}

// Sealable reports a complaint that the sealing could have explained.
func (c *Case) Sealable(complaint string) bool {
	return complaint != "stood" && complaint != "noise" && complaint != "oil use" && complaint != Hunting && complaint != HangingRevs && complaint != OilOutside
}

// Complaint is the first complaint that the sealing could have explained.
func (c *Case) Complaint() string {
	for _, x := range c.pending() {
		if c.Sealable(x) {
			return x
		}
	}
	if misfires, _ := c.MisfireCodes(); misfires {
		return "misfire"
	}
	return ""
}

const rich, lean = "rich running", "lean running"

// Sign says what speaks of a mixture: "plugs", "complaint", "code" or "".
func (c *Case) Sign(look, complaint string, codes ...string) string {
	switch {
	case look != "" && c.Has(NeedsPlugs) && c.PatternOf(c.Looking(look)) == OnAll:
		return "plugs"
	case c.Complains(complaint):
		return "complaint"
	case c.Coded(codes...):
		return "code"
	}
	return ""
}

// RichSign says what speaks of a mixture too rich, as Sign does. The codes are
// those of SAE J2012, from memory.
func (c *Case) RichSign() string {
	sign := c.Sign("sooty", rich, "P0172", "P0175")
	if sign == "" && c.ToldRich() {
		return "complaint"
	}
	return sign
}

// LeanSign is that of a lean mixture. On gas white plugs are as they should be.
func (c *Case) LeanSign() string {
	look := "white"
	if c.Spec.Fuel == "lpg" || c.Spec.Fuel == "cng" {
		look = ""
	}
	return c.Sign(look, lean, "P0171", "P0174")
}

// ToldRich reports a complaint, a code or black smoke that speaks of a rich
// mixture.
func (c *Case) ToldRich() bool {
	return c.Complains(rich) || c.Coded("P0172", "P0175") || c.Smokes("black") && !c.Spec.Diesel()
}

// Warmth is how warm an engine was: "cold", "hot", or "" where that was not
// recorded or is in between.
func Warmth(k diag.Conditions) string {
	switch {
	case k.Engine == "cold":
		return "cold"
	case k.Engine == "warm", k.Engine == "hot":
		return "hot"
	case k.Engine == "" && k.CoolantC != nil && *k.CoolantC <= coldC:
		return "cold"
	case k.Engine == "" && k.CoolantC != nil && *k.CoolantC >= hotC:
		return "hot"
	}
	return ""
}

// Coolant temperatures in degrees Celsius at which nobody would argue.
const (
	coldC = 40
	hotC  = 70
)

// OnsetSays reports one of these words in what is told of how the trouble came on.
func (c *Case) OnsetSays(words ...string) bool {
	return c.History.Onset != "" && SpeaksOf(strings.ToLower(c.History.Onset), words...)
}

// CameSuddenly and CameSlowly are how the trouble began, by the job's words.
func (c *Case) CameSuddenly() bool {
	return c.OnsetSays("sudden", "at once", "bang", "full load", "full throttle", "overnight")
}

// CameSlowly reports a trouble that came over weeks or longer.
func (c *Case) CameSlowly() bool {
	return c.OnsetSays("slow", "gradual", "over month", "over year", "over week", "month", "year") && !c.CameSuddenly()
}

// UsesOil reports that the engine is said to use oil.
func (c *Case) UsesOil() bool { return (c.Complains(oilUse) || c.oilUseTold()) && !c.OilUseUsual() }

// Smokes reports smoke of a colour, seen at one of these times; at any time
// where none are named.
func (c *Case) Smokes(colour string, when ...string) bool {
	if c.History.Smoke.Colour != colour {
		return false
	}
	return len(when) == 0 || slices.ContainsFunc(when, func(x string) bool { return slices.Contains(c.History.Smoke.When, x) })
}

// PuffAtStart reports an engine whose cylinders lie, or hang, so that oil runs into them
// while it stands, and that smokes blue as it starts and at no other time.
func (c *Case) PuffAtStart() bool {
	lies := c.Engine.Kind == engine.Flat || c.Engine.Kind == engine.Radial || c.Spec.Inverted == diag.Yes
	return lies && c.Smokes("blue", "start") && len(c.History.Smoke.When) == 1
}

// LosesCoolant reports that coolant goes somewhere, by complaint, white smoke
// of a warm engine, or the coolant test.
func (c *Case) LosesCoolant() bool {
	return c.Complains("coolant loss") || c.CoolantGas == "positive" || c.Smokes("white", "load", "always") || c.Smokes("white") && !c.Spec.Diesel() && !c.AirCooled() && !c.SteamAtStart()
}

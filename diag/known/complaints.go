package known

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"gaugesheet/diag"
)

// Complaints that are told by other keys than the list of them.
const (
	// RoughRunning is that of an engine that came in running roughly, where its owner names
	// no other: what explains a misfire explains it.
	RoughRunning = "rough running"
	// BlueSmoke is oil that is burnt, of whose use nobody speaks: what explains oil use
	// explains it.
	BlueSmoke = "blue smoke"
	// WhiteSmoke is coolant that is burnt, or on a diesel fuel that is not.
	WhiteSmoke = "white smoke"
	// BlackSmoke is that of a diesel, which has too little air for its fuel; on petrol it is
	// a rich mixture.
	BlackSmoke = "black smoke"
	// OilLight is an oil pressure light that comes on, or a code of too low a pressure.
	OilLight = "oil pressure light"
)

const noStart, oilUse, coolantLoss = "no start", "oil use", "coolant loss"

// Complaints are the job's complaints that a cause can explain, in its order, by whatever key
// they are told: a stored code, an engine light that flashes, smoke, oil use in a figure, and,
// where nothing else is said, how the engine ran as it came in or what words of it tell.
// That the engine stood for long is how it came here and not what is wrong with
// it; a rule of its own speaks of it.
func (c *Case) Complaints() []string {
	list := slices.DeleteFunc(slices.Clone(c.History.Complaints), func(x string) bool {
		return x == "stood" && (c.Stood() || c.StoodAndSound()) || x == oilUse && c.OilUseUsual()
	})
	add := func(told bool, complaint string, or ...string) {
		if told && !slices.ContainsFunc(append(or, complaint), func(x string) bool { return slices.Contains(list, x) }) {
			list = append(list, complaint)
		}
	}
	misfires, _ := c.MisfireCodes()
	add(misfires || c.misfiresByLight(), "misfire")
	add(c.oilUseTold(), oilUse)
	if c.History.Smoke.Colour != "" {
		add(c.Smokes("blue") && !c.PuffAtStart(), BlueSmoke, oilUse)
		add(c.Smokes("white") && !c.SteamAtStart(), WhiteSmoke, coolantLoss)
		add(c.Smokes("black") && !c.Spec.Diesel(), rich)
		add(c.Smokes("black") && c.Spec.Diesel(), BlackSmoke, rich)
	}
	for _, code := range c.History.Codes {
		if says := codeSays[code]; says != "" {
			add(true, says)
		} else {
			add(!isMisfireCode(code), diag.CodeComplaint+code)
		}
	}
	add(c.told(oilLight...), OilLight)
	if len(list) > 0 || slices.ContainsFunc(c.History.Complaints, func(x string) bool { return x != "stood" }) {
		return list
	}
	for _, x := range c.heard() {
		if x == BlackSmoke && !c.Spec.Diesel() {
			x = rich
		}
		add(c.History.Smoke.Colour == "" || !strings.HasSuffix(x, " smoke"), x)
	}
	add(len(list) == 0 && c.Spec.Runs == "rough", RoughRunning)
	add(len(list) == 0 && c.Spec.Runs == "does not run", noStart)
	return list
}

// codeSays are codes that say in other words what a driver complains of (SAE J2012, from memory).
var codeSays = map[string]string{"P0217": "overheating", "P0524": OilLight}

// saidByCode reports a complaint that a stored code makes in the driver's stead.
func (c *Case) saidByCode(of []string) bool {
	return slices.ContainsFunc(c.History.Codes, func(code string) bool { return slices.Contains(of, codeSays[code]) })
}

// oilLight are words of a light that warns of the oil pressure, or of a gauge of the dash that
// shows too little of it.
var oilLight = append(pairs("oil light|oil pressure light|oil lamp|oil pressure lamp|oil warning|oil gauge|oil pressure gauge", "comes on|came on|flicker|glows|flashes|stays on|is on|on at|lit|lights up|drops|falls|sinks|low|the red|zero|shows nothing"),
	pairs("low oil pressure|oil pressure low|no oil pressure", "dash|cluster")...)

// OwnWords are what is wrong in words of the customer's own of which nothing here makes a
// complaint; when something else is so belongs to that, and what somebody holds an engine to
// need is nothing that it does.
func (c *Case) OwnWords() []string {
	return slices.DeleteFunc(slices.Clone(c.History.OwnWords), func(text string) bool {
		plain := plainWords(text)
		return TellsOfOilLight(text) || len(SmokeTold(text)) > 0 || SpeaksOf(plain, flashes...) || SpeaksOf(plain, hearsay...) || TellsOnlyWhen(text) && len(c.Complaints()) > 0 || c.answered(text)
	})
}

// TellsOfOilLight reports a text that tells of a light that warns of the oil pressure, or of a gauge that shows too little.
func TellsOfOilLight(text string) bool { return SpeaksOf(plainWords(text), oilLight...) }

// heard are the complaints that words elsewhere tell of, where the job names none.
func (c *Case) heard() []string {
	if len(c.History.Heard) == 0 || slices.ContainsFunc(c.History.Complaints, func(x string) bool { return x != "stood" }) {
		return nil
	}
	return c.History.Heard
}

// AsComplaint is the complaint of which the causes of another are kept.
func AsComplaint(complaint string) string {
	switch complaint {
	case RoughRunning:
		return "misfire"
	case BlueSmoke:
		return oilUse
	}
	return complaint
}

// Words of when an engine smokes, and that it clears.
var (
	smokesWhen = []struct {
		when  string
		words []string
	}{
		{"start", []string{"start", "starts", "starting", "startup", "cold morning", "cold mornings", "frost", "frosty", "freezing", "winter", "when cold", "when it is cold", "first thing", "first minute"}},
		{"idle", []string{"idle", "idling", "at the lights"}},
		{"load", []string{"load", "uphill", "up hill", "up hills", "up a hill", "up the hill", "on hills", "on a hill", "on the hills", "pulling", "climbing", "towing", "accelerate", "accelerates", "accelerating", "acceleration", "full throttle", "foot down", "hard driving"}},
		{"overrun", []string{"overrun", "coasting", "coast", "off the throttle", "off throttle", "off the gas", "lift off", "lifting off", "lift my foot", "foot off", "back off", "backing off", "downhill", "down hill", "down hills", "down a hill", "down the hill", "decel", "deceleration", "decelerating", "slowing down", "engine braking"}},
		{"always", []string{"always", "all the time", "all the way", "constantly", "never stops"}},
	}
	inFrost  = []string{"frost", "frosty", "freezing", "winter", "cold morning", "cold mornings", "cold day", "cold days", "cold weather", "ice", "below zero", "snow"}
	itClears = append([]string{"clears", "clear up", "runs clean", "then clean", "then nothing", "then none", "goes away", "until warm", "until it is warm", "a few seconds", "some seconds", "a minute", "one minute", "a moment", "then stops"}, pairs("gone|stops|away|clean", "after|once|when|in|later")...)
)

// SteamAtStart is an engine that smokes white as it starts and at no other time: lit by a spark
// the water that its cold exhaust held; of a diesel that starts well in the frost, and of which it
// is told that it clears, the fuel of its first cold strokes.
func (c *Case) SteamAtStart() bool {
	if !c.Smokes("white", "start") || len(c.History.Smoke.When) != 1 || c.Complains(coolantLoss, "overheating") {
		return false
	}
	ill := slices.ContainsFunc(c.History.Complaints, func(x string) bool { return x != "stood" }) || c.Spec.Runs == "rough" || c.Spec.Runs == "does not run"
	return !c.Spec.Diesel() || !ill && c.told(inFrost...) && c.told(itClears...)
}

// oilUseTold reports oil use in a figure that is more than what any engine uses, or in words
// that do not say that there is none.
func (c *Case) oilUseTold() bool {
	text := strings.ToLower(strings.TrimSpace(c.History.OilUse))
	if text == "" || SpeaksOf(text, "none", "nil", "nothing", "normal", "not measurable", "negligible", "within") || strings.HasPrefix(text, "no") || text == "0" {
		return false
	}
	u := c.OilUsed()
	return u == nil || u.Is != "usual"
}

// isMisfireCode reports a code that says no more than that it misfires.
func isMisfireCode(code string) bool {
	n, err := strconv.Atoi(strings.TrimPrefix(code, "P03"))
	return err == nil && strings.HasPrefix(code, "P03") && n <= 12
}

// smokeTold are words of smoke by its color; smokeOfTest those of a machine that makes some.
var (
	smokeTold   = map[string][]string{BlueSmoke: pairs(smokeNames, "blue|bluish"), WhiteSmoke: pairs(smokeNames, "white|whitish"), BlackSmoke: pairs(smokeNames, "black")}
	smokeOfTest = []string{"smoke test", "smoke machine", "smoke tester", "smoke comes out", "smoke came out"}
)

// noSmoke is a clause that says of smoke that there is none, or none any more.
var noSmoke = regexp.MustCompile(`\b(?:never|none|used to|no longer|any ?more|cured|fixed|not now)\b|\b(?:no|gone) *$`)

// smokeNames are what comes out of an exhaust.
const smokeNames = "smoke|smokes|smoking|smoky|puff|puffs|puffing|steam|steams|steaming|cloud|clouds|haze|fumes"

// SmokeSaid is the smoke that a sentence tells of, with when it smokes; without a color for none.
func SmokeSaid(text string) diag.Smoke {
	told := SmokeTold(text)
	if len(told) == 0 {
		return diag.Smoke{}
	}
	smoke := diag.Smoke{Colour: strings.TrimSuffix(told[0], " smoke")}
	for _, at := range smokesWhen {
		if SpeaksOf(plainWords(text), at.words...) {
			smoke.When = append(smoke.When, at.when)
		}
	}
	return smoke
}

// SmokeTold gives the exhaust smoke that a sentence tells of.
func SmokeTold(text string) []string {
	plain := strings.Join(slices.DeleteFunc(strings.FieldsFunc(plainWords(text), func(c rune) bool { return strings.ContainsRune(",;.:", c) }), noSmoke.MatchString), ",")
	if !SpeaksOf(plain, strings.Split(smokeNames, "|")...) || SpeaksOf(plain, smokeOfTest...) || mended(plain) {
		return nil
	}
	var found []string
	for _, x := range []string{BlueSmoke, WhiteSmoke, BlackSmoke} {
		if SpeaksOf(plain, smokeTold[x]...) {
			found = append(found, x)
		}
	}
	return found
}

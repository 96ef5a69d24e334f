package known

import (
	"slices"
	"strings"
)

// Symptoms that are told in sentences, and that other faults bring about than a complaint of
// the list by which they might go.
const (
	Hunting      = "hunting"
	SpittingBack = "spitting back"
	HangingRevs  = "hanging revs"
	OilOutside   = "oil leak"
)

// A symptom is one of them: the words in which it is told, and those of what says something else.
type symptom struct {
	name  string
	words []string
	not   []string
}

// backWords are what an engine does that blows back out of its intake.
var backWords = strings.Split("spits|spitting|pops|popping|coughs|coughing|sneezes|backfires|backfiring|back fires|backfire", "|")

var symptoms = []symptom{
	{Hunting, append(pairs("revs|rpm|engine speed|speed|idle", "up and down|rise and fall|rises and falls|rising and falling|wander|fluctuat"), "hunts", "hunting", "surges", "surging"), nil},
	{SpittingBack, append(pairs(strings.Join(backWords, "|"), "carb|air box|airbox|air cleaner|intake|inlet|throttle body"),
		"pops back", "popping back", "spits back", "spitting back", "coughs back", "sneezes back"), nil},
	{HangingRevs, append(hangingIdle, "high idle", "idle too high", "idle is too high", "idles too fast", "idles fast", "idles high"), []string{"fast idle cam"}},
	{OilOutside, slices.Concat(pairs("oil", "leak|leaks|leaking|weeps|weeping|seeps|drips|dripping|on the floor|on the ground|out of the dipstick"), pairs("seal|gasket|dipstick tube|rear main|valve cover|rocker cover|oil pan|sump", "pushed out|blown out|oily")),
		append([]string{"hydraulic", "steering", "fork", "shock", "exhaust", "tailpipe", "turbo", "burn", "coolant", "into the", "cylinder", "plug", "pours", "gushes", "sprays", "stream", "test"}, otherOil...)},
}

// leanByChoke are words of an engine that runs with its choke and badly without.
var leanByChoke = append(pairs("choke", "runs only|only runs|only run|only idle|run only|run on|runs on|idles on|run without|runs better|better with|better on|steadier|smoother|smooths out|dies without|dies when|stalls without|stalls when|dies with|needs|has to stay on|half on|half out|half shut|half closed"),
	"only with choke", "only with the choke", "only on choke", "only on the choke", "only on half choke", "half choke")

// SymptomsTold gives the symptoms that a sentence tells of, and what it says beside them. What
// needs its choke to run gets too little fuel.
func SymptomsTold(text string) (told []string, rest string) {
	rest = plainWords(text)
	for _, s := range symptoms {
		if SpeaksOf(rest, s.words...) && !speaksWord(rest, s.not) {
			told = append(told, s.name)
		}
	}
	if SpeaksOf(rest, leanByChoke...) && !SpeaksOf(rest, "stuck", "broken", "cable", "no better") && (len(told) > 0 || !strings.Contains(rest, "start")) {
		told = append(told, lean)
	}
	if slices.Contains(told, SpittingBack) { // its words are those of a misfire too
		for _, w := range backWords {
			rest = strings.ReplaceAll(rest, w, ",")
		}
	}
	return told, rest
}

// Words of when something is so: how it goes with load, warmth, weather or time.
var (
	Circumstances = strings.Fields("worse worst better only mostly mainly especially fine ok okay when whenever while hot cold warm wet damp rain sometimes always intermittent intermittently uphill downhill morning mornings started steady random")
	comesAndGoes  = strings.Fields("load idle picks clears smooths away")
	// circumstanced are words that stand beside these.
	circumstanced = strings.Fields("under load loaded unloaded no without with at in on up down over after before until from to for of and or but then again also just even most more less very quite bit it is its gets goes clears away out off through the a an all any first few every about around " +
		"idle idling revs revved revving rev rpm throttle speed speeds high low full half part light heavy pulling pull pulls towing climbing climb accelerating acceleration cruising cruise gear gears neutral mph kmh knots altitude trolling overrun slowing driving drive drives driven running run runs traffic highway town hill hills slope grade " +
		"start starting restart engine warms warmed warmup minute minutes second seconds hour hours mile miles km day days week weeks month months year years winter summer weather plane mowing cutting working rainy humid night overnight long short trips picks smooth smooths smoothly normal normally often rarely occasionally suddenly slowly")
)

// TellsOnlyWhen reports words that say no more than when something else is so.
func TellsOnlyWhen(text string) bool {
	some := false
	if SpeaksOf(plainWords(text), "runs on") { // after it was switched off
		return false
	}
	for _, w := range strings.FieldsFunc(plainWords(text), func(c rune) bool { return c == ' ' || strings.ContainsRune(",;:/.()\"", c) }) {
		switch {
		case slices.Contains(Circumstances, w), slices.Contains(comesAndGoes, w):
			some = true
		case !slices.Contains(circumstanced, w) && strings.Trim(w, "0123456789") != "":
			return false
		}
	}
	return some
}

// hearsay are words of what somebody else holds an engine to need.
var hearsay = pairs("said to|told it|told that it|supposed to|believed to|advised|quoted|second opinion", "rebuild|rebuilt|overhaul|new engine|replaced|replacement|second opinion|needs|scrap")

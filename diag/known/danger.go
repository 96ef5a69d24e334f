package known

import (
	"regexp"
	"slices"
	"strings"
)

// fuelOutside is fuel that gets out where a spark or a hot pipe lights it.
var fuelOutside = pairs("fuel|petrol|gasoline", "drip|weep|spray|puddle|runs down|running down|leaks from|leaks onto|leaks out|leaking from|leaking onto")

// fuelGetsOut is fuel at what it runs through, beside that; not where it was put, where
// a joint was opened for a test, or a pressure that falls.
var fuelGetsOut = saying{slices.Concat(pairs("fuel|petrol|gasoline|diesel", "drips from|drips at|drips on|weeps|spray|squirt|pours|puddle|runs down|running down|leaks from|leaks onto|leaks out|leaking from|leaking onto|leaks at|leaks by|leaks on|leaks around|leaking at|leaking by|leaking on|leak at|leak from|leak by"),
	pairs("fuel tank|petrol tank", "wet|leak|rusted through|cracked|holed"), pairs("wet", "with petrol|with fuel|with gasoline|with diesel"), pairs("fuel line|fuel hose|fuel pipe|fuel rail|petrol line|petrol hose|petrol pipe|injector pipe|injection pipe|injector line|fuel union|fuel fitting", "wet|crack|burst|leak|split|rusted through|chafed through|holed"),
	[]string{"fuel leak", "petrol leak", "gasoline leak", "leaks petrol", "leaks gasoline", "smells of petrol round the", "smells of fuel round the", "smells of petrol at the", "smells of fuel at the"}),
	[]string{"plug", "electrode", "nozzle", "into the", "in the oil", "in the cylinder", "piston", "crown", "bore", "wall", "vacuum", "diaphragm", "seep", "exhaust", "dipstick"},
	[]string{"leak off", "leaks off", "back leak", "cracked open", "cracked off", "cracking", "loosened", "fuel pressure", "pressure falls", "pressure drops", "leaks down", "leaking down", "test"}}

// metalInFilter is as much metal as no engine at work leaves in its oil filter or on its magnet.
var metalInFilter = saying{slices.Concat(pairs("filter|magnet|drain plug|strainer|pleats", "full of metal|full of steel|flakes|slivers|chips of metal|metal chips|shavings|swarf|bearing metal"), pairs("magnet|filter cut open|pleats", "steel")),
	[]string{"air filter", "air cleaner", "fuel", "tank", "carb", "particulate", "cabin", "fuzz", "paste", "a few", "stainless", "paint", "rust", "gearbox", "gear oil", "transmission"}, nil}

// grave is what stops an engine, wherever it sits, beside a ruined bottom end: what drives the
// valves comes apart, oil or coolant runs out in a stream.
var grave = []saying{
	{pairs("timing belt|cam belt|cambelt|toothed belt|timing chain|cam chain", "fray|teeth missing|missing teeth|teeth gone|missing a tooth|tooth missing|tooth gone|torn|shredded|delaminat|cracked|broken link|link broken|in pieces|hanging by|strands|coming apart|guide broken|guide in pieces|rail broken"), []string{"cover cracked", "cover torn", "cover broken"}, nil},
	{pairs("oil", "pours|pouring|gushes|gushing|sprays|spraying|squirts|squirting|in a stream|streams out"), []string{"rocker", "cover off", "jet", "squirter", "plug hole"}, nil},
	{pairs("oil cooler|oil line|oil hose|oil pipe|oil feed", "burst|split|broken|cracked|rubbed through|chafed through|rusted through|torn|blown off"), []string{"bracket", "fin"}, nil},
	{pairs("coolant|water|antifreeze", "pours|pouring|gushes|gushing|sprays out|spraying|squirts|squirting|streams out"), []string{"tell tale", "telltale", "tell-tale", "pilot hole", "exhaust", "plug hole", "drain"}, nil},
	{pairs("radiator hose|coolant hose|heater hose|water hose", "burst|split|torn|blown off"), nil, nil},
	{pairs("head bolt|head bolts|head stud|head studs|head nut|cylinder bolt|case bolt|cap bolt|main cap|rod bolt", "broken|broke|snapped|sheared|missing|stripped|pulled out"), nil, nil},
	{pairs("block|crankcase|oil pan|sump", "cracked|crack in|holed|hole in"), []string{"breather", "vent", "hose", "heater", "gasket", "bracket", "guard", "plug"}, nil},
}

// graveAloft is what stops an aircraft beside that, where nobody pulls over.
var graveAloft = []saying{
	{pairs("exhaust|stack|stacks|muffler|muff|heat exchanger|tailpipe|riser|collector", "crack|leak|hole in|burnt through|burned through|burst|blows|blowing|blown|broken|loose|missing|gray streak|grey streak|bulge"), []string{"valve", "hiss", "heard", "air ", "guide"}, nil},
	{pairs("engine mount|mount bolt|engine mounting|mounting bolt", "broken|broke|crack|snapped|sheared|missing|loose"), nil, nil},
	{pairs("induction|intake|inlet", "crack|broken|split|torn"), []string{"valve", "guide"}, nil},
	{pairs("propeller|blade|spinner", "crack|loose|bent|broken"), nil, nil},
	{pairs("throttle cable|mixture cable|throttle linkage|control cable|magneto|carburetor|carburettor", "loose|broken|frayed|cracked"), nil, nil},
}

// outerDamage are words of damage or of a leak, of whatever part.
var outerDamage = saying{append([]string{"leak", "crack", "split", "broken", "broke off", "snapped", "sheared", "burst", "torn", "rusted through", "burnt through", "burned through", "worn through", "rubbed through", "chafed", "frayed", "shredded", "melted",
	"drips", "dripping", "weeps", "weeping", "pours", "pouring", "gushes", "gushing", "sprays", "spraying", "squirts", "fallen off", "come off", "came off", "hanging by", "in pieces", "holed", "collapsed", "perished", "bulging", "wet underneath"},
	slices.Concat(pairs("gasket|seal|joint|hose|boot|flange", "blown|blows|blowing|hole in|holed"), pairs("oil filter|filter cut open|magnet|drain plug", "flakes|slivers|chips"), pairs("hole in|holes in", "hose|boot|duct|pipe|manifold|radiator|exhaust|pan|case"), pairs("bolt|bolts|nut|nuts|stud|studs|clamp|clip|circlip|screw|washer", "missing|loose|stripped|pulled out"))...),
	// what is slight, old or no part of the engine, and what was a test
	[]string{"slight", "lightly", "light leak", "light weep", "light oil", "minor", "small leak", "small weep", "a little", "tiny", "old leak", "old oil", "old stain", "trace", "seep", "damp", "sweat", "mist", "film", "superficial", "harmless", "usual", "cosmetic", "valve cover", "rocker cover", "cam cover", "tappet cover",
		"paint", "broken in", "bracket", "heat shield", "door", "fender", "seat belt", "windshield", "windscreen", "lamp", "tire", "tyre", "recoil", "mirror", "tray", "steering", "clutch", "gearbox", "transmission", "differential", "axle"},
	[]string{"leak down", "leakdown", "leak-down", "leak off", "leak-off", "leaks off", "leak test", "leakage", "back leak", "fuel pressure", "leaks down", "leaking down", "air leak", "leaks air", "hiss", "heard", "cracked open", "cracked off", "cracking"}}

// emptyClause is a clause that denies all of a kind: "none cracked", "nothing broken".
var emptyClause = regexp.MustCompile(`[^,;:]*\b(?:none|nothing|neither|nowhere)\b[^,;:]*`)

// SeenUnjudged are the lines among the findings that have a word of damage or of a leak which
// is not denied, slight or put right; stops reports one that stops an engine, and then the lines
// are those alone.
func (c *Case) SeenUnjudged() (lines []string, stops bool) {
	if len(c.History.Findings) == 0 {
		return nil, false
	}
	c.Works() // reads them
	for _, line := range c.History.Findings {
		text := emptyClause.ReplaceAllString(foundIn(stillSo(strings.ToLower(c.parsed[line].Text))), "")
		if text == "" {
			continue
		}
		switch one := !c.tellsBentRod(line, text) && c.isGrave(text); {
		case one && !stops: // what stops it is said by itself
			lines, stops = []string{line}, true
		case one, !stops && (outerDamage.in(text) || slices.Contains(c.UnreadBelow(), line)):
			lines = append(lines, line)
		}
	}
	return lines, stops
}

func (c *Case) isGrave(text string) bool {
	says := func(d saying) bool { return d.in(text) }
	return slices.ContainsFunc(grave, says) || ruinedBelow(text) != "" || c.Flies() && slices.ContainsFunc(graveAloft, says)
}

// speaksWord reports a text in which one of these begins a word.
func speaksWord(text string, words []string) bool {
	return slices.ContainsFunc(words, func(word string) bool { return len(wordStarts(text, word)) > 0 })
}

var (
	// SeenElsewhere is such a line, SeenGrave one that stops an engine.
	SeenElsewhere = OfEngine("a word of damage or of a leak among the technician's findings, not denied, slight or put right", func(c *Case) bool {
		lines, stops := c.SeenUnjudged()
		return len(lines) > 0 && !stops
	})
	SeenGrave = OfEngine("among the technician's findings what stops an engine wherever it sits: what drives its valves comes apart, a bearing, the crankshaft, a rod, what oils them or what the crankshaft drives by is ruined, oil or coolant runs out in a stream or its hose has burst, a bolt of the head is broken, a block is cracked; of an aircraft an exhaust, a mount or an intake that is cracked", func(c *Case) bool {
		_, stops := c.SeenUnjudged()
		return stops
	})
	// FuelSeenOutside is fuel that gets out.
	FuelSeenOutside = OfEngine("fuel that drips, weeps, leaks or sprays, or wets what it runs through, among the technician's findings", func(c *Case) bool {
		return c.findingSays(func(text string) bool {
			text = foundIn(stillSo(text))
			smelled := SpeaksOf(text, "wet") && SpeaksOf(text, fuelSmelled...) && !speaksWord(text, fuelGetsOut.not) && !speaksWord(text, fuelGetsOut.about)
			return smelled || SpeaksOf(text, fuelOutside...) || fuelGetsOut.in(text)
		})
	})
)

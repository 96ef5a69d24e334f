package known

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"gaugesheet/diag/sight"
)

// Words of ruin: of any part, and of what runs in oil besides.
const (
	cameTo    = "broken|broke|snapped|sheared|crack|in two|in pieces|shatter|disintegrat|fell apart|fallen apart|seized|jammed|failed|collaps|destroyed|ruined|wrecked|let go|stripped|split"
	cameOff   = "missing|gone|loose|fallen|fell off|fell out|came off|come off|came out|come out|blown out|pushed out|backed out|off its|adrift|walked"
	marred    = "scor|scratch|groov|blue|black|burn|overheat|pitted|hammered|oval|rocks|has play|have play|play felt|too much play|excessive|worn out|badly worn|damage"
	ruinedRun = "copper|bronze|wiped|spun|turned in|melted|worn through|worn to the|picked up|flaked|flaking|fatigue|delaminat|welded|shot|knocked out|hammered out|bare"
)

// bottomRuin is what stops an engine of its bottom end, and the fault that it is.
var bottomRuin = []struct {
	fault string
	saying
}{
	{"bearings", saying{pairs(sight.Bearing, cameTo+"|"+cameOff+"|"+ruinedRun), wipedDown, nil}},
	{"bearings", saying{pairs(sight.Bearing, marred), append(marredLittle, wipedDown...), nil}},
	{"bottom-end", saying{pairs(sight.Shaft, cameTo+"|bent|bowed|buckled|twisted|through the block|through the side|through the case|out of the block|hammered|welded|loose on|melted"), []string{otherThing}, nil}},
	{"bottom-end", saying{pairs(sight.Shaft, "scor|groov|blue|black|burn|overheat"), append(marredLittle, otherThing), nil}},
	{"bottom-end", saying{pairs(sight.CapBolt, cameTo+"|"+cameOff+"|stretched|finger tight"), nil, nil}},
	{"valve-gear", saying{pairs(sight.Camshaft, cameTo), []string{otherThing, "cap "}, nil}},
	{"oil-pump", saying{pairs(sight.OilPump, cameTo+"|"+cameOff+"|does not turn|not turning|dead|rounded|off"), []string{otherThing, "seal", "gasket"}, nil}},
	{"oil-strainer", saying{pairs(sight.OilPickUp, cameTo+"|"+cameOff+"|block|clog|chok|plugged|bunged|full of|packed|sealed up"), nil, nil}},
	{"oil-way", saying{pairs(sight.OilPlug, cameOff+"|crack|leak|not fitted|left out"), nil, nil}},
	{"drive-plate", saying{pairs(sight.Plate, cameTo+"|"+cameOff+"|worn oval"), []string{otherThing}, nil}},
	{"chain", saying{pairs(sight.Guide, cameTo+"|missing|gone|worn through|in bits"), []string{otherThing}, nil}},
}

var (
	otherThing   = "otherthing"
	wipedDown    = []string{"wiped clean", "wiped down", "looks good", "looked good", "noise", "seal", "gasket", otherThing}
	marredLittle = []string{"slight", "light", "faint", "fine", "minor", "superficial", "a little", "polish", "within", "in spec", "black oil", "oil black", "usual", "normal"}
	// supposed is what nobody saw.
	supposed = regexp.MustCompile(`\b(?:suspect\w*|maybe|perhaps|possibl[ey]|probably|might|may be|could be|sounds? like|as if|feared|check(?:ed)? for|look(?:ed|ing)? for|in case|whether|if|to see)\b`)
	// noOilUp is oil that does not get where it is pumped to.
	noOilUp  = regexp.MustCompile(`\b(?:no oil|dry of oil|without oil) (?:\w+ ){0,3}?(?:at|to|on|in|reaches|reaching) (?:the )?(?:rockers?|valve gear|valve train|cams?|camshafts?|camshaft bearings|top end|tappets|lifters|main bearings|bearings)\b(?: cover)?`)
	endFloat = regexp.MustCompile(`\bcrank(?:shaft)? (?:thrust |end )(?:float|play|clearance)\D{0,12}?(\d+(?:[.,]\d+)?) ?(mm|thou)\b`)
)

// mostEndFloat is how far a crankshaft moves at most that its thrust washers still hold, in mm:
// common practice, no source; new ones leave 0.05 to 0.3.
const mostEndFloat = 0.5

// ruinedBelow is the fault of the bottom end that a text in plain words says was seen, and that
// stops the engine; "" for none.
func ruinedBelow(text string) string {
	if fault := toldBelow(text); fault != "" {
		return fault
	}
	if text = sight.Bottom(text); !strings.Contains(text, "part") { // as the kinds of parts are called
		return ""
	}
	clauses := commaClauses(text)
	for i := range bottomRuin {
		for _, clause := range clauses {
			if b := &bottomRuin[i]; b.in(clause) && !supposed.MatchString(clause) {
				return b.fault
			}
		}
	}
	return ""
}

// toldBelow is a fault of the bottom end that is told by what it does.
func toldBelow(text string) string {
	if !strings.Contains(text, "oil") && !strings.Contains(text, "crank") { // as most are
		return ""
	}
	if m := endFloat.FindStringSubmatch(text); m != nil {
		far, _ := strconv.ParseFloat(strings.ReplaceAll(m[1], ",", "."), 64)
		if m[2] == "thou" {
			far *= 0.0254
		}
		if far > mostEndFloat {
			return "bearings"
		}
	}
	if dry := noOilUp.FindString(text); dry != "" && !strings.HasSuffix(dry, "cover") {
		return "oil-way"
	}
	return ""
}

var (
	partBelow = regexp.MustCompile(`\b(?:` + strings.Join([]string{sight.Bearing, sight.Shaft, sight.CapBolt, sight.OilPump, sight.OilPickUp, sight.OilPlug, sight.Plate}, "|") + `)\b`)
	// saidWhole are words of a part that is as it should be, or of what was done or measured with it.
	saidWhole = regexp.MustCompile(`\b(?:good|fine|ok|okay|sound|within|in spec|new|as it should|as they should|true|straight|tight|normal|usual|even|clean|free|freely|smooth|smoothly|round|perfect|intact|whole|unworn|unmarked|right|in order|in time|no|not|none|without|never|nothing|renewed|replaced|fitted|torqued|tightened|turns?|turned|rotates?|lined|marks?|ordered|removed|refitted|primed|polished|clearances?|float|side|worn)\b|` +
		`^\W*\w+\W*$`)
	numbered = regexp.MustCompile(`\bno\.? ?(\d)`) // "no. 2" denies nothing
)

// UnreadBelow are the lines among the findings on the bottom end of an engine that makes a noise, or
// shows too little oil pressure, that nobody understands and that do not call it good: what was seen
// there comes before an engine is run to listen to it.
func (c *Case) UnreadBelow() []string { return c.foundFaults().below }

func (c *Case) unreadBelow(read []string) []string {
	if len(c.History.Findings) == 0 || !c.Complains("noise") && !slices.Contains(c.Complaints(), OilLight) {
		return nil
	}
	var list []string
	for _, line := range c.History.Findings {
		text := sight.Bottom(foundIn(stillSo(c.parsed[line].Text)))
		text = numbered.ReplaceAllString(text, "$1")
		if partBelow.MatchString(text) && !saidWhole.MatchString(text) && !supposed.MatchString(text) && !tellsOfNoise(text) && !slices.Contains(read, line) {
			list = append(list, line)
		}
	}
	return list
}

package known

import (
	"regexp"
	"strconv"
	"strings"

	"gaugesheet/diag/engine"
)

// oilFigure is oil used over a distance or a time, as people write it: "1 l in 1000 km", "half a
// quart every 1,000 miles".
var oilFigure = regexp.MustCompile(`(?:^|\s)(\d+ ?/ ?\d+|\d+(?:[.,]\d+)?|half an?|half|one|an?) ?(l|lit(?:re|er)s?|ml|cc|qts?|quarts?|pints?|pts?|gallons?|gal)\b(?: of)?(?: oil)? ?(?:in|per|/|every|over|to|an?|for|on|each)? ?(?:the |each |every |about |last )?(\d[\d.,  ]*)? ?(km|kms|kilomet(?:re|er)s?|miles?|mi|hours?|hrs?|h)\b`)

// Litres of what oil is measured in, and kilometers of how far is driven, by the first letter.
var (
	litres     = map[byte]float64{'l': 1, 'm': 0.001, 'c': 0.001, 'q': 0.946, 'p': 0.473, 'g': 3.785}
	kilometres = map[byte]float64{'k': 1, 'm': 1.609}
)

// An oilScale is the oil that a sound engine of a kind uses and nobody need look for, and from
// what on it may run short before anybody looks: litres in 1000 km or in an hour; and the usual
// in the words of who counts in these, or in quarts and miles. Common practice, no source; makers
// allow more.
type oilScale struct {
	usual, much   float64
	metric, other string
}

var (
	oilOfCars    = oilScale{0.3, 2, "0.3 l in 1000 km", "1 qt in 2000 mi"}
	oilOfHeavy   = oilScale{0.5, 3, "0.5 l in 1000 km", "1 qt in 1200 mi"} // whose engines burn many times the fuel
	oilOfRotary  = oilScale{0.6, 2, "0.6 l in 1000 km", "1 qt in 1000 mi"} // which is fed oil for its seals
	oilByHour    = oilScale{0.1, 0.5, "0.1 l in an hour", "1 qt in 10 h"}
	oilAloft     = oilScale{0.25, 1, "0.25 l in an hour", "1 qt in 4 h"}
	oilOfRadials = oilScale{1, 4, "1 l in an hour", "1 qt in an hour"}
)

// An OilUse is the oil that an engine is told to use in a figure, against what is usual of its kind.
type OilUse struct {
	Told   string // as it is written
	Rate   float64
	Usual  string // what is usual, in the units that it is told in
	Hourly bool
	Is     string // "usual", "more" or "much"
}

// OilUsed is that figure; nil where none is told, or an engine burns its oil with its fuel.
func (c *Case) OilUsed() *OilUse { return remembered(&c.oilUsed, c.readOilUse) }

func (c *Case) readOilUse() *OilUse {
	m := oilFigure.FindStringSubmatch(strings.ToLower(strings.TrimSpace(c.History.OilUse)))
	if m == nil || c.Ported() {
		return nil
	}
	used, over := oilNumber(m[1]), 1.0
	if m[3] != "" {
		over = distance(m[3])
	}
	if used <= 0 || over <= 0 {
		return nil
	}
	km, driven := kilometres[m[4][0]]
	u := &OilUse{Told: c.History.OilUse, Rate: used * litres[m[2][0]] / over, Hourly: !driven}
	if driven {
		u.Rate *= 1000 / km
	}
	scale := c.oilScale(driven)
	metric := m[2][0] == 'l' || m[2][0] == 'm' || m[2][0] == 'c'
	if u.Usual = scale.other; metric && m[4][0] != 'm' {
		u.Usual = scale.metric
	}
	switch {
	case u.Rate <= scale.usual*oilRounded:
		u.Is = "usual"
	case u.Rate >= scale.much/oilRounded:
		u.Is = "much"
	default:
		u.Is = "more"
	}
	return u
}

// oilRounded takes up what quarts and miles are rounded by.
const oilRounded = 1.02

func (c *Case) oilScale(driven bool) oilScale {
	switch {
	case driven && c.Rotary():
		return oilOfRotary
	case driven && c.Spec.Diesel() && c.described(heavyVehicles) && !c.described([]string{"pickup", "pick up"}):
		return oilOfHeavy
	case driven:
		return oilOfCars
	case c.Engine.Kind == engine.Radial:
		return oilOfRadials
	case c.Flies() || c.TestedAsAircraft():
		return oilAloft
	}
	return oilByHour
}

// oilNumber reads "1/2", "0,3", "half a" and "a".
func oilNumber(text string) float64 {
	if above, below, fraction := strings.Cut(strings.ReplaceAll(text, " ", ""), "/"); fraction {
		a, _ := strconv.ParseFloat(above, 64)
		b, _ := strconv.ParseFloat(below, 64)
		if b == 0 {
			return 0
		}
		return a / b
	}
	switch {
	case strings.HasPrefix(text, "half"):
		return 0.5
	case text == "a", text == "an", text == "one":
		return 1
	}
	v, _ := strconv.ParseFloat(strings.Replace(text, ",", ".", 1), 64)
	return v
}

// thousands are figures in groups of three, as distances are written.
var thousands = regexp.MustCompile(`^\d{1,3}(?:[.,  ]\d{3})+$`)

func distance(text string) float64 {
	text = strings.Trim(text, " .,\u00a0")
	if thousands.MatchString(text) {
		text = strings.NewReplacer(".", "", ",", "", " ", "", "\u00a0", "").Replace(text)
	}
	v, _ := strconv.ParseFloat(strings.Replace(text, ",", ".", 1), 64)
	return v
}

// OilUseUsual reports a figure of oil use that is usual, of an engine whose cylinders were read
// and that shows no other sign of burning oil, nor has new rings: it is answered, and is nothing to look for.
func (c *Case) OilUseUsual() bool {
	u := c.OilUsed()
	return u != nil && u.Is == "usual" && c.SealingRead() && !(c.Smokes("blue") && !c.PuffAtStart()) &&
		!RingsNotRunIn.HoldsIn(c) && len(c.PlugsLooking("oil-wet")) == 0 && 2*len(c.PlugsLooking("ash")) <= len(c.PlugsRead()) && !CrankcaseHigh.HoldsIn(c)
}

// OilRunsShort is a figure so high that the oil may run short between two looks at its level.
var OilRunsShort = OfEngine("oil use told in a figure many times what is usual of its kind", func(c *Case) bool {
	u := c.OilUsed()
	return u != nil && u.Is == "much"
})

package rule

import (
	"math"
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
	"gaugesheet/diag/quantity"
)

// wetRules read the test repeated with a little oil in the cylinder.
var wetRules = []Rule{
	{
		Name: "no-oil-in-diesel", Title: "Oil was put into a diesel's cylinder", Class: TestItself,
		Trigger: "a wet test is recorded on a diesel",
		Why: "A diesel's chamber is small and the engine fires on what it compresses: oil can lock the piston or ignite and run the engine away. " +
			"Its readings with oil are not used, and no wet test is ever proposed.",
		Source:  "common practice (a light diesel's instructions: no oil in the cylinder)",
		Notices: noOilInDiesel,
	},
	{
		Name: "wet-rise-everywhere", Title: "Every cylinder rose alike with oil", Class: Information, Needs: []Need{NeedsWet},
		Trigger: "two cylinders or more were tested wet, each rose by 5 % of the median dry reading at least, and the rises lie within 10 points of each other",
		Why: "Oil fills room and seals dry bores, and so lifts every cylinder somewhat. A rise that all share comes from the dose, or from bores dry all over, " +
			"and tells nothing of one cylinder against another.",
		Source:   "common practice",
		Findings: wetRiseEverywhere,
	},
	{
		Name: "wet-rise", Title: "A low cylinder comes up with oil", Class: Single, Needs: []Need{NeedsWet},
		Trigger: "a low cylinder rises with oil by 15 % of its dry reading more than the control cylinders do, and regains half of what it lacks at least; without a control by 25 % and half",
		Why: "Oil lies on the piston and seals the rings for a few strokes. Pressure that comes back with it was escaping past the rings; " +
			"a leak at a valve or the gasket, above the oil, would still be there.",
		Source: "US Army TM 5-4210-230-14&P-1, Addendum No. 2; US Army TM 10-3930-647-14&P, para 4-40; the thresholds: common practice", YieldsTo: []string{"wet-rise-everywhere"},
		Findings: wetFinding("wet-rise", wetRises),
	},
	{
		Name: "wet-partial", Title: "A low cylinder comes up only in part", Class: Single, Needs: []Need{NeedsWet},
		Trigger: "a low cylinder rises clearly with oil but regains less than half of what it lacks, or rises by 5 to 15 % more than the control (5 to 25 % without one)",
		Why: "Some rise comes from the oil's own volume. A cylinder that gains some and stays far below the rest may leak past rings and valves both, or only show the dose; " +
			"the wet test leaves it open.",
		Source: "common practice", YieldsTo: []string{"wet-rise-everywhere"}, Variants: []string{"inconclusive"},
		Findings: wetPartial,
	},
	{
		Name: "wet-no-rise", Title: "A low cylinder stays low with oil", Class: Single, Needs: []Need{NeedsWet},
		Trigger: "a low cylinder rises with oil by less than 5 % more than the control cylinders",
		Why: "Oil seals the rings and nothing else. What stays low with it leaks above the piston: at a valve, at the head gasket, through a crack; " +
			"or past rings so broken, or a piston so holed, that oil cannot seal them.",
		Source: "US Army TM 5-4210-230-14&P-1, Addendum No. 2; US Army TM 10-3930-647-14&P, para 4-40; the threshold: common practice", YieldsTo: []string{"wet-rise-everywhere"}, Variants: []string{"two-stroke"},
		Findings: wetFinding("wet-no-rise", wetFlat),
	},
}

// wetOutcome is what oil did to a low cylinder; "" where that was not tested
// or cannot be told.
type wetOutcome string

const (
	wetRises   wetOutcome = "rises"
	wetPartly  wetOutcome = "partly"
	wetUnclear wetOutcome = "unclear"
	wetFlat    wetOutcome = "flat"
)

// The thresholds of the wet test, in percent; the rise with no control to
// take off has to be larger. Common practice, no source.
const (
	netRise        = 15
	rawRise        = 25
	noRise         = 5
	everywhereRise = 5
	everywhereSpan = 10
)

func (c *Case) wetOutcome(name string) wetOutcome {
	r := c.Cylinder(name)
	if r == nil || r.Wet == nil || r.Dry == nil || !c.shortOfPressure(r) || c.Spec.Diesel() {
		return ""
	}
	rise := *r.Wet - *r.Dry
	needed, net := c.wetNet(r)
	recovered := rise >= (c.healthy()-*r.Dry)/2
	switch {
	case net >= needed && recovered:
		return wetRises
	case net >= needed:
		return wetPartly
	case net >= noRise:
		return wetUnclear
	}
	return wetFlat
}

// shortOfPressure reports a cylinder graded low; the only cylinder of an engine
// has no grade and is short where it is under its minimum.
func (c *Case) shortOfPressure(r *diag.CylinderResult) bool {
	if len(c.Engine.Cylinders) > 1 {
		return r.Grade.IsLow()
	}
	return r.Dry != nil && *r.Dry < c.singleMinimum()
}

// singleMinimum is the stated minimum of an engine of one cylinder in the unit
// of the readings, 0 where there is none or it is not judged.
func (c *Case) singleMinimum() float64 {
	m := c.minimum()
	if m == nil || m.Verdict == diag.NotJudged {
		return 0
	}
	v, err := quantity.Convert(m.Limit, m.Unit, c.Sums.Compression.Unit)
	if err != nil {
		return 0
	}
	return v
}

// short lists the cylinders short of pressure, in the engine's order.
func (c *Case) short() []string { return c.cylindersThat(c.shortOfPressure) }

// wetEvidence is what the wet test says of a low cylinder's causes: nothing
// where all rose alike or the dose was too large. Where no figures were taken, plain words count.
func (c *Case) wetEvidence(name string) wetOutcome {
	switch {
	case c.Spec.Diesel() || c.Cylinder(name) == nil || !c.shortOfPressure(c.Cylinder(name)):
		return ""
	case c.noticed("wet-dose-too-large"):
		return ""
	case len(c.wetTested()) == 0:
		return wetFromWords(c.Compression.WetInWords)
	case c.risesEverywhere():
		return ""
	}
	return c.wetOutcome(name)
}

// wetFromWords understands only what cannot be taken for anything else.
func wetFromWords(words string) wetOutcome {
	words = strings.ToLower(words)
	switch {
	case speaksOf(words, "no change", "no rise", "no better", "unchanged", "no difference", "same"):
		return wetFlat
	case speaksOf(words, "slight", "little", "partly", "some"):
		return wetUnclear
	case speaksOf(words, "significant", "considerabl", "clearly", "much better", "came up", "normal"):
		return wetRises
	}
	return ""
}

// wetNet gives the rise of a cylinder in percent of its own dry reading, less
// the control's where there is one, and how much of it counts as a rise.
func (c *Case) wetNet(r *diag.CylinderResult) (needed, net float64) {
	rise := *r.Wet - *r.Dry
	// A dead cylinder has no percent of its own: a rise is then a part of the
	// healthy ones' pressure.
	base := max(*r.Dry, 0.15*c.healthy())
	if base <= 0 {
		return rawRise, 0
	}
	net = 100 * rise / base
	if c.hasControl() {
		return netRise, net - *c.Sums.Compression.WetControl
	}
	return rawRise, net
}

// hasControl reports that a cylinder that is not low was tested wet too.
func (c *Case) hasControl() bool { return c.Sums.Compression.WetControl != nil }

func (c *Case) wetTested() []string {
	return c.cylindersThat(func(r *diag.CylinderResult) bool { return r.Wet != nil && r.Dry != nil })
}

// healthy is the middle of the cylinders that are not low, the reference where
// all are, or the minimum of an engine of one cylinder.
func (c *Case) healthy() float64 {
	if len(c.Engine.Cylinders) == 1 {
		return c.singleMinimum()
	}
	var v []float64
	for i := range c.Sums.Compression.Cylinders {
		if r := &c.Sums.Compression.Cylinders[i]; r.Dry != nil && !r.Grade.IsLow() {
			v = append(v, *r.Dry)
		}
	}
	if len(v) == 0 {
		return c.Sums.Compression.Reference
	}
	return median(v)
}

func median(v []float64) float64 {
	v = slices.Clone(v)
	slices.Sort(v)
	n := len(v)
	if n == 0 {
		return math.NaN()
	}
	return (v[(n-1)/2] + v[n/2]) / 2
}

// risesEverywhere reports that every cylinder tested wet rose alike.
func (c *Case) risesEverywhere() bool {
	least, most, tested := c.wetSpan()
	return len(tested) > 1 && least >= everywhereRise && most-least <= everywhereSpan
}

// wetSpan gives the smallest and the largest rise in percent of the median dry
// reading, and the cylinders tested.
func (c *Case) wetSpan() (least, most float64, tested []string) {
	s := c.Sums.Compression
	tested = c.wetTested()
	least, most = math.Inf(1), math.Inf(-1)
	if s.Median <= 0 {
		return 0, 0, nil
	}
	for _, name := range tested {
		r := c.Cylinder(name)
		rise := 100 * (*r.Wet - *r.Dry) / s.Median
		least, most = min(least, rise), max(most, rise)
	}
	return least, most, tested
}

func noOilInDiesel(c *Case) []diag.Notice {
	if !c.Spec.Diesel() || c.Compression == nil {
		return nil
	}
	var oiled []string
	for _, name := range c.Engine.Names() {
		if len(c.Compression.Wet[name].Values) > 0 {
			oiled = append(oiled, name)
		}
	}
	if len(oiled) == 0 && c.Compression.OilML == 0 && c.Compression.WetInWords == "" {
		return nil
	}
	return notice("no-oil-in-diesel", "", oiled, nil)
}

func wetRiseEverywhere(c *Case) []diag.Finding {
	if c.Spec.Diesel() || !c.risesEverywhere() {
		return nil
	}
	least, most, tested := c.wetSpan()
	return []diag.Finding{{
		Rule: "wet-rise-everywhere", Cylinders: tested, Urgency: diag.NoAction, Confidence: diag.Fair,
		Facts: diag.Facts{"least": percent(least, 0), "most": percent(most, 0)},
	}}
}

func wetFinding(rule string, outcome wetOutcome) func(*Case) []diag.Finding {
	return func(c *Case) []diag.Finding {
		return c.wetAlike(rule, "", outcome)
	}
}

// wetAlike is one finding for the cylinders to which oil did the same, with one
// of its own for those without pressure, whose causes are others.
func (c *Case) wetAlike(rule, variant string, outcome wetOutcome) []diag.Finding {
	var some, none []string
	for _, name := range c.short() {
		switch {
		case c.wetOutcome(name) != outcome:
		case c.Grade(name) == diag.NoPressure:
			none = append(none, name)
		default:
			some = append(some, name)
		}
	}
	var list []diag.Finding
	for _, names := range [][]string{some, none} {
		if len(names) > 0 {
			list = append(list, c.wetSaid(rule, variant, names))
		}
	}
	return list
}

func wetPartial(c *Case) []diag.Finding {
	return append(c.wetAlike("wet-partial", "", wetPartly), c.wetAlike("wet-partial", "inconclusive", wetUnclear)...)
}

// wetFacts is the arithmetic of the wet test on some cylinders: one number
// each, or the least and the most.
func (c *Case) wetFacts(names []string) diag.Facts {
	var dry, wet, rise, net []float64
	for _, name := range names {
		r := c.Cylinder(name)
		_, n := c.wetNet(r)
		dry, wet = append(dry, *r.Dry), append(wet, *r.Wet)
		rise, net = append(rise, *r.Wet-*r.Dry), append(net, n)
	}
	between := func(v []float64) string { return c.span(slices.Min(v), slices.Max(v)) }
	nets := percent(slices.Max(net), 0).String()
	if least := percent(slices.Min(net), 0).String(); least != nets {
		nets = quantity.Format(slices.Min(net), 0) + "–" + nets
	}
	return diag.Facts{"dry": between(dry), "wet": between(wet), "rise": between(rise), "net": nets,
		"healthy": c.pressure(c.healthy()), "control": c.hasControl(), "dead": c.Grade(names[0]) == diag.NoPressure}
}

// wetSaid is a finding of the wet test on some cylinders with its arithmetic.
func (c *Case) wetSaid(rule, variant string, names []string) diag.Finding {
	f := diag.Finding{
		Rule: rule, Variant: variant, Cylinders: names, Urgency: diag.CheckAgain, Confidence: diag.Fair,
		Facts: c.wetFacts(names), Next: c.next(names, "leak-down", "borescope"),
	}
	w := weigh("rings", "exhaust-valve", "head-gasket")
	switch {
	case rule == "wet-rise":
		w = weigh("rings", "scored-bore", "piston")
	case rule == "wet-no-rise" && c.Spec.TwoStroke:
		f.Variant = "two-stroke"
		w = weigh("head-gasket", "piston", "warped-or-cracked-head")
	case rule == "wet-no-rise" && c.Grade(names[0]) == diag.NoPressure:
		w = weigh("stuck-valve", "holed-piston", "head-gasket")
	case rule == "wet-no-rise" && len(names) > 1 && len(c.Engine.NeighbourRuns(names)) == 1:
		w = weigh("head-gasket", "warped-or-cracked-head", "exhaust-valve")
		f.Next = c.next(names, "leak-down-pair", "borescope")
	case rule == "wet-no-rise":
		w = weigh("exhaust-valve", "inlet-valve", "head-gasket")
	}
	f.Causes = w.top()
	c.doubtWet(&f)
	return f
}

// doubtWet weakens a wet test where oil does not lie on the rings, or where no
// control tells what the oil alone does.
func (c *Case) doubtWet(f *diag.Finding) {
	weaken := func(is bool, key string) {
		if is {
			f.Confidence = diag.Weak
			f.Doubts = append(f.Doubts, diag.Phrase{Key: key})
		}
	}
	weaken(c.Engine.Kind == engine.Flat, "flat-engine")
	weaken(c.Spec.TwoStroke, "two-stroke")
	weaken(!c.hasControl(), "no-control")
}

var wetVocabulary = map[string][]string{
	"causes": {"rings", "scored-bore", "piston", "stuck-valve", "holed-piston", "head-gasket", "warped-or-cracked-head", "exhaust-valve", "inlet-valve"},
	"doubts": {"flat-engine", "two-stroke", "no-control"},
	"checks": {"leak-down", "leak-down-pair", "borescope"},
}

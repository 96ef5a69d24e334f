package rule

import (
	"slices"

	"gaugesheet/diag"
)

// earlierRules compare with an earlier test of the same engine.
var earlierRules = []Rule{
	{
		Name: "changed-since-earlier", Title: "Changed since the earlier test", Class: Single, Needs: []Need{NeedsCompression, NeedsEarlier},
		Trigger: "a cylinder differs from an earlier test, made with the same temperature and throttle, by more than both readings' uncertainty",
		Why: "An engine is best compared with itself. A cylinder that fell since the last test is getting worse, even inside every limit; one that rose tells that a repair, or some running, did it good. " +
			"The comparison goes cylinder by cylinder, since a mean hides what one of them lost.",
		Source: "JCGM 100:2008 (the uncertainty of a difference)", Variants: []string{"risen"}, YieldsTo: []string{"none-anywhere"},
		Findings: changedSinceEarlier,
	},
	{
		Name: "low-cold-only", Title: "Low cold, and not low warm", Class: Together, Needs: []Need{NeedsCompression, NeedsEarlier},
		Trigger:  "of two tests of this engine, one cold and one warm or hot, a cylinder is low in the cold one and not in the other",
		Why:      "Metal grows and oil thins as the engine warms. Rings that seal only when warm, or carbon on a seat, show in the cold test alone. The warm test is the one that published figures are for, and it decides.",
		Source:   "common practice",
		Findings: func(c *Case) []diag.Finding { return c.coldAgainstHot("low-cold-only") },
	},
	{
		Name: "low-hot-only", Title: "Low warm, and not low cold", Class: Together, Needs: []Need{NeedsCompression, NeedsEarlier},
		Trigger:  "of two tests of this engine, one cold and one warm or hot, a cylinder is low in the warm one and not in the other",
		Why:      "A valve with too little clearance stands open when its stem has grown; a valve may stick in a hot guide and a crack may open. A cold engine hides all of these.",
		Source:   "common practice",
		Findings: func(c *Case) []diag.Finding { return c.coldAgainstHot("low-hot-only") },
	},
}

func changedSinceEarlier(c *Case) []diag.Finding {
	s := c.Sums.Compression
	if s.ComparedWith == "" {
		return nil
	}
	var fallen, risen []string
	for _, name := range c.Read() {
		switch r := c.Cylinder(name); {
		case r.Change == nil:
		case *r.Change < -r.ChangeU:
			fallen = append(fallen, name)
		case *r.Change > r.ChangeU:
			risen = append(risen, name)
		}
	}
	var list []diag.Finding
	if len(fallen) > 0 {
		f := c.finding("changed-since-earlier", fallen, c.changeFacts(fallen))
		if w := c.weighSingle(); len(fallen) == 1 {
			c.evidence(w, fallen[0])
			f.Causes = w.top()
		}
		f.Next = c.nextForLow(fallen)
		list = append(list, f)
	}
	if len(risen) > 0 {
		f := c.finding("changed-since-earlier", risen, c.changeFacts(risen))
		f.Variant, f.Urgency = "risen", diag.NoAction
		list = append(list, f)
	}
	return list
}

// changeFacts are the numbers of the largest change among some cylinders.
func (c *Case) changeFacts(names []string) diag.Facts {
	most := c.Cylinder(names[0])
	for _, n := range names {
		if r := c.Cylinder(n); *r.Change**r.Change > *most.Change**most.Change {
			most = r
		}
	}
	change := *most.Change
	if change < 0 {
		change = -change
	}
	return diag.Facts{
		"cylinder": most.Name, "now": c.pressure(*most.Dry), "then": c.pressure(*most.Dry - *most.Change),
		"change": c.pressure(change), "u": c.pressure(most.ChangeU), "earlier": c.Sums.Compression.ComparedWith,
	}
}

// warmth is how warm an engine was: "cold", "hot", or "" where that was not
// recorded or is in between.
func warmth(k diag.Conditions) string {
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

// coldAgainstHot compares this test with the latest earlier one made at the
// other temperature.
func (c *Case) coldAgainstHot(rule string) []diag.Finding {
	now := warmth(c.Conditions)
	for _, earlier := range slices.Backward(c.Earlier) {
		then := ""
		if earlier.Test != nil && earlier.Test.Compression != nil {
			then = warmth(earlier.Test.Conditions)
		}
		if now == "" || then == "" || now == then {
			continue
		}
		other := &Case{Test: earlier.Test, Sums: diag.Assess(earlier.Test)}
		if !other.Has(NeedsCompression) {
			continue
		}
		cold, hot := c, other
		if now == "hot" {
			cold, hot = other, c
		}
		low, good := cold, hot
		if rule == "low-hot-only" {
			low, good = hot, cold
		}
		return c.lowInOne(rule, low, good, earlier.Label)
	}
	return nil
}

// lowInOne finds the cylinders low in one test and sound in the other.
func (c *Case) lowInOne(rule string, low, good *Case, label string) []diag.Finding {
	names := slices.DeleteFunc(low.LowSet(), func(n string) bool {
		g := good.Grade(n)
		return g != diag.Even && g != diag.Watch && g != diag.High
	})
	if len(names) == 0 {
		return nil
	}
	a, b := low.Cylinder(names[0]), good.Cylinder(names[0])
	f := c.finding(rule, names, diag.Facts{
		"earlier": label, "cylinder": names[0], "low": low.pressure(*a.Dry), "good": good.pressure(*b.Dry),
		"lowPercent": percent(a.PercentOfRef, 0), "goodPercent": percent(b.PercentOfRef, 0)})
	if rule == "low-cold-only" {
		f.Causes = phrases("rings", "carbon-on-seat", "stuck-rings")
		if low != c {
			f.Urgency = diag.NoAction
		}
		f.Next = c.next(names, "warm-retest")
		return []diag.Finding{f}
	}
	f.Causes = phrases("valve-lash", "sticking-valve", "warped-or-cracked-head")
	f.Urgency = diag.ActSoon
	f.Next = c.next(names, "valve-lash", "leak-down")
	return []diag.Finding{f}
}

var earlierVocabulary = map[string][]string{
	"causes": {"rings", "carbon-on-seat", "stuck-rings", "valve-lash", "sticking-valve", "warped-or-cracked-head"},
	"checks": {"warm-retest", "valve-lash", "leak-down"},
}

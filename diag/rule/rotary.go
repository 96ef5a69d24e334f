package rule

import "gaugesheet/diag"

// rotorRules read the three faces of each rotor of a rotary engine.
var rotorRules = []Rule{
	{
		Name: "one-face-low", Title: "One face of a rotor is low", Class: Single, Needs: []Need{NeedsRotors},
		Trigger: "one face of three is under the minimum, further from the rotor's best than the limit between faces allows, or, without limits, under 85 % of the rotor's best",
		Why:     "Each face is sealed by side and corner seals of its own and shares an apex seal with the face on either side. Where only one face is low, what it has to itself leaks.",
		Source:  "common practice", Variants: []string{"too-close"},
		Findings: facesLow("one-face-low", 1),
	},
	{
		Name: "two-faces-low", Title: "Two faces of a rotor are low", Class: Single, Needs: []Need{NeedsRotors},
		Trigger: "two faces of three are low, each by the measure of one-face-low",
		Why:     "Two faces meet at one apex. An apex seal that has chipped or stuck lets both of them down and leaves the third alone.",
		Source:  "common practice", Variants: []string{"too-close"},
		Findings: facesLow("two-faces-low", 2),
	},
	{
		Name: "rotor-low", Title: "All faces of a rotor are low", Class: Group, Needs: []Need{NeedsRotors},
		Trigger: "all three faces of a rotor are under the minimum",
		Why:     "Faces that agree with each other and are all low are worn and not broken: seals, springs and housing have lost the same everywhere. A slow starter does it too, since these readings depend on the cranking speed.",
		Source:  "common practice", Variants: []string{"too-close"},
		Findings: facesLow("rotor-low", 3),
	},
	{
		Name: "rotors-apart", Title: "The rotors differ from each other", Class: Single, Needs: []Need{NeedsRotors},
		Trigger: "the means of two rotors differ by more than the stated limit; without one, by more than 15 % of the better",
		Why:     "Rotors on one shaft are cranked at the same speed with the same gauge. What lies between them is in the engine: the lower one has worn more or was run hotter.",
		Source:  "common practice", Variants: []string{"too-close"},
		Findings: rotorsApart,
	},
}

func facesLow(rule string, count int) func(*Case) []diag.Finding {
	return func(c *Case) []diag.Finding {
		var list []diag.Finding
		for _, r := range c.Sums.Rotors.Rotors {
			if len(r.LowFaces) == count && len(r.Values) > 0 {
				list = append(list, c.facesSaid(rule, r))
			}
		}
		return list
	}
}

func (c *Case) facesSaid(rule string, r diag.RotorResult) diag.Finding {
	low, best := r.Values[r.LowFaces[0]], r.Best
	for _, i := range r.LowFaces {
		low = min(low, r.Values[i])
	}
	f := c.finding(rule, []string{r.Name}, diag.Facts{
		"value": c.facePressure(low), "best": c.facePressure(best), "mean": c.facePressure(r.Mean),
		"difference": c.facePressure(r.Difference), "byLimit": false,
	})
	f.Urgency = diag.ActSoon
	if l := c.faceLimit(rule); l != nil {
		f.Facts["byLimit"], f.Facts["limit"], f.Facts["u"] = true, c.facePressure(l.Limit), c.facePressure(l.Uncertainty)
		if l.Verdict != diag.Outside {
			f.Variant, f.Urgency, f.Confidence, f.Doubts = "too-close", diag.CheckAgain, diag.Weak, phrases("near-limit")
		}
	}
	switch rule {
	case "one-face-low":
		f.Causes = phrases("side-seal", "corner-seal", "apex-seal")
	case "two-faces-low":
		f.Causes = phrases("apex-seal", "corner-seal", "side-seal")
	default:
		w := weigh("rotor-wear", "weak-cranking")
		w.addIf(c.stood(), known, "stuck-seals")
		f.Causes = w.top()
	}
	f.Next = c.next(f.Cylinders, "face-peaks", "second-gauge")
	return f
}

// faceLimit is the limit that made faces low, the clearest first; nil where
// the job states none.
func (c *Case) faceLimit(rule string) *diag.LimitResult {
	var best *diag.LimitResult
	for i := range c.Sums.Rotors.Limits {
		l := &c.Sums.Rotors.Limits[i]
		if l.Rule == "between rotors" || l.Rule == "between faces" && rule == "rotor-low" {
			continue
		}
		if l.Verdict == diag.Outside && (best == nil || best.Verdict != diag.Outside) || l.Verdict == diag.TooClose && l.PastAsRead && best == nil {
			best = l
		}
	}
	return best
}

func (c *Case) facePressure(v float64) diag.Number {
	return diag.Number{Value: v, Decimals: c.Sums.Rotors.Decimals, Unit: c.Sums.Rotors.Unit}
}

// apartPercent is how far rotors may lie apart where no limit is stated, in
// percent of the better: common practice, no source.
const apartPercent = 15

func rotorsApart(c *Case) []diag.Finding {
	var best, worst *diag.RotorResult
	for i := range c.Sums.Rotors.Rotors {
		r := &c.Sums.Rotors.Rotors[i]
		if len(r.Values) == 0 {
			continue
		}
		if best == nil || r.Mean > best.Mean {
			best = r
		}
		if worst == nil || r.Mean < worst.Mean {
			worst = r
		}
	}
	if best == nil || best == worst {
		return nil
	}
	apart := best.Mean - worst.Mean
	f := c.finding("rotors-apart", []string{worst.Name}, diag.Facts{
		"low": c.facePressure(worst.Mean), "high": c.facePressure(best.Mean), "apart": c.facePressure(apart), "best": best.Name, "byLimit": false,
	})
	f.Urgency = diag.ActSoon
	limit := c.limitBetweenRotors()
	switch {
	case limit == nil:
		if best.Mean <= 0 || 100*apart <= apartPercent*best.Mean {
			return nil
		}
	case limit.Verdict == diag.Outside:
	case limit.Verdict == diag.TooClose && limit.PastAsRead:
		f.Variant, f.Urgency, f.Confidence, f.Doubts = "too-close", diag.CheckAgain, diag.Weak, phrases("near-limit")
	default:
		return nil
	}
	if limit != nil {
		f.Facts["byLimit"], f.Facts["limit"], f.Facts["u"] = true, c.facePressure(limit.Limit), c.facePressure(limit.Uncertainty)
		f.Facts["apart"] = c.facePressure(limit.Value)
	}
	f.Causes = phrases("rotor-wear", "apex-seal")
	if n := len(worst.LowFaces); n == 1 || n == 2 { // a face that leaks pulls the mean down
		f.Causes = phrases("apex-seal", "side-seal", "rotor-wear")
	}
	f.Next = c.next(f.Cylinders, "face-peaks", "second-gauge")
	return []diag.Finding{f}
}

func (c *Case) limitBetweenRotors() *diag.LimitResult {
	for i := range c.Sums.Rotors.Limits {
		if l := &c.Sums.Rotors.Limits[i]; l.Rule == "between rotors" {
			return l
		}
	}
	return nil
}

var rotorVocabulary = map[string][]string{
	"causes": {"side-seal", "corner-seal", "apex-seal", "rotor-wear", "weak-cranking", "stuck-seals"},
	"doubts": {"near-limit"},
	"checks": {"face-peaks", "second-gauge"},
}

package rule

import (
	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// rotorRules read the three faces of each rotor of a rotary engine. A face
// without pressure, or far under the best of its rotor, is told before wear;
// after a no-start all that is low is flooding until it is dried.
var rotorRules = []Rule{
	{
		Name: "one-face-low", Title: "One face of a rotor is low", Class: Single, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsRotors},
		Why:    "Each face is sealed by side and corner seals of its own and shares an apex seal with the face on either side. Where only one face is low, what it has to itself leaks.",
		Source: "common practice, no source", Variants: []string{"dead", "too-close"},
		Of: eachRotor, When: facesLow("one face of three", 1),
		Kind: OfRotors, For: common("side-seal", "corner-seal", "apex-seal"), Weigh: flooded,
		Say: facesSaid, Headline: "rotor-one-face",
	},
	{
		Name: "two-faces-low", Title: "Two faces of a rotor are low", Class: Single, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsRotors},
		Why:    "Two faces meet at one apex. An apex seal that has chipped or stuck lets both of them down and leaves the third alone. A broken seal scores the housing as it turns.",
		Source: "common practice, no source", Variants: []string{"dead", "too-close"},
		Of: eachRotor, When: facesLow("two faces of three", 2),
		Kind: OfRotors, For: []Voice{{Cause: "apex-seal", Weight: Known}, {Cause: "corner-seal", Weight: DryUp}, {Cause: "side-seal", Weight: Hint}}, Weigh: flooded,
		Say: twoFacesSaid, Headline: "rotor-two-faces",
	},
	{
		Name: "rotor-low", Title: "All faces of a rotor are low", Class: Group, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsRotors},
		Why: "Faces that agree with each other and are all low are worn and not broken: seals, springs and housing have lost the same everywhere. A slow starter does it too, since these " +
			"readings depend on the cranking speed; but not where the other rotor, turned by the same starter, reads well. An engine that would not start is flooded until it is proved dry.",
		Source: "common practice, no source; without a minimum, under 43 psi, the least that is known as one, or under 85 psi after a no-start", Variants: []string{"dead", "floor", "too-close"},
		Of: eachRotor, When: known.Any(rotorEven, rotorFloor),
		Kind: OfRotors, For: common("rotor-wear"), Weigh: rotorVoices,
		Absolute: true, Say: rotorSaid, Headline: "rotor-low",
	},
	{
		Name: "rotors-apart", Title: "The rotors differ from each other", Class: Single, About: diag.AboutCylinders, Needs: []known.Need{known.NeedsRotors},
		Why:    "Rotors on one shaft are cranked at the same speed with the same gauge. What lies between them is in the engine: the lower one has worn more or was run hotter.",
		Source: "common practice, no source", Variants: []string{"too-close"},
		Of: oneSet("the lowest of two rotors or more", func(c *known.Case) []string {
			low, _, ok := c.RotorsApart()
			if !ok {
				return nil
			}
			return []string{low.Name}
		}),
		When: known.OfEngine("the means of two rotors differ by more than the stated limit; without one, by more than 15 % of the better", func(c *known.Case) bool {
			apart, _, _ := rotorsApart(c)
			return apart
		}),
		Kind: OfRotors, Weigh: apartVoices,
		Say: rotorsApartSaid, Headline: "rotors-apart",
	},
}

// eachRotor asks of every rotor of which a face was read.
var eachRotor = Scope{Words: "a rotor", Each: true, Of: func(c *known.Case) []known.Subject {
	var names []string
	for _, r := range c.Rotors() {
		names = append(names, r.Name)
	}
	return each(names)
}}

// ofRotor is a condition on each rotor of the subject.
func ofRotor(words string, is func(known.Rotor) bool) known.Condition {
	return known.OfAll(words, func(c *known.Case, n string) bool {
		r, ok := c.Rotor(n)
		return ok && is(r)
	})
}

func facesLow(words string, count int) known.Condition {
	return ofRotor(words+" without pressure (under 15 % of the rotor's best or 25 psi), further from its best than the limit between faces, without one under 85 % of its best, or under the minimum while the others are not",
		func(r known.Rotor) bool { return len(r.SingledOut()) == count })
}

var (
	rotorEven  = ofRotor("all faces read, two at least, under the minimum or without pressure, and none apart from the others", known.Rotor.Even)
	rotorFloor = ofRotor("no minimum stated, and every face under 43 psi, or under 85 psi on an engine that did not start or is flooded", known.Rotor.UnderFloor)
)

// flooded is a rotary that would not start: first what its faces read on the
// fuel in them, unless one of them is dead among sound ones.
func flooded(c *known.Case, s known.Subject) []Voice {
	if !c.MayBeFlooded() {
		return nil
	}
	weight := Sight
	for _, n := range s.Cylinders {
		if c.CoolantEnters(n) { // what lies in it is more likely coolant
			return speaks(Hint, "flooding")
		}
		if r, ok := c.Rotor(n); ok && len(r.DeadFaces()) > 0 && !r.Even() {
			weight = DryUp
		}
	}
	if c.SaidFlooded() {
		return []Voice{{Cause: "flooding", Weight: weight + Hint, Kind: OfSight}}
	}
	return []Voice{{Cause: "flooding", Weight: weight, Kind: OfHistory}}
}

// rotorVoices ask for the starter only where no other rotor clears it.
func rotorVoices(c *known.Case, s known.Subject) []Voice {
	voices := flooded(c, s)
	well := false
	for _, n := range s.Cylinders {
		well = well || c.OtherRotorWell(n)
	}
	speed := c.Sums.Rotors != nil && c.Test.Rotors != nil && c.Test.Rotors.CrankingRPM >= fastRotorCranking
	switch {
	case well:
		voices = append(voices, denies(Known, "other-rotor-well", "weak-cranking", "throttle-or-choke")...)
	case speed:
		voices = append(voices, denies(Known, "cranked-fast", "weak-cranking")...)
	default:
		voices = append(voices, Voice{Cause: "weak-cranking", Weight: commonest - rarer})
	}
	for _, n := range s.Cylinders {
		if r, ok := c.Rotor(n); ok && len(r.DeadFaces()) == len(r.Values) {
			return append(voices, Voice{Cause: "apex-seal", Weight: Known}, Voice{Cause: "rotor-wear", Weight: -DryUp, Says: "wear-leaves-some"})
		}
	}
	return voices
}

// fastRotorCranking is the speed in rpm from which a starter does not make a
// rotary read low; testers bring their readings to 250. Common practice, no source.
const fastRotorCranking = 230

// facesSaid speaks of the faces that are low by themselves.
func facesSaid(c *known.Case, s known.Subject) diag.Finding {
	return faceFinding(c, s, func(r known.Rotor) []int { return r.SingledOut() })
}

// twoFacesSaid: an apex seal that went all at once has broken, and its piece scores the
// housing, and goes out through a turbocharger, at every turn.
func twoFacesSaid(c *known.Case, s known.Subject) diag.Finding {
	f := facesSaid(c, s)
	if f.Urgency == diag.ActSoon && c.CameSuddenly() && !c.MayBeFlooded() {
		f.Urgency, f.Facts["sudden"] = diag.DoNotRun, true
	}
	return f
}

func rotorSaid(c *known.Case, s known.Subject) diag.Finding {
	f := faceFinding(c, s, func(r known.Rotor) []int { return everyFace(len(r.Values)) })
	if rotorFloor.Holds(c, s) && f.Variant == "" {
		f.Variant, f.Urgency = "floor", diag.CheckAgain
		f.Facts["floor"] = c.FacePressure(c.RotorFloor())
	}
	return f
}

func everyFace(n int) []int {
	list := make([]int, n)
	for i := range list {
		list[i] = i
	}
	return list
}

// faceFinding has the facts of the worst of the rotors in the usual places and
// those of each beside them. One without pressure is not to be run; one that no
// limit is clearly passed in is to be checked again.
func faceFinding(c *known.Case, s known.Subject, faces func(known.Rotor) []int) diag.Finding {
	f := diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Fair, Facts: diag.Facts{"byLimit": false, "partly": false, "allLow": false, "flooded": c.MayBeFlooded()}}
	var worst known.Rotor
	var eachSaid diag.Names
	clear, dead, whole := false, false, true // whole: no face of any has pressure
	for i, n := range s.Cylinders {
		r, _ := c.Rotor(n)
		set := faces(r)
		if i == 0 || r.LowestOf(set) < worst.LowestOf(faces(worst)) {
			worst = r
		}
		_, sure := r.DecidedBy(set)
		clear, dead = clear || sure, dead || len(r.DeadFaces()) > 0
		whole = whole && len(r.DeadFaces()) == len(r.Values)
		f.Facts["partly"] = f.Facts["partly"] == true || len(r.Values) < 3
		f.Facts["allLow"] = f.Facts["allLow"] == true || len(r.LowFaces) == len(r.Values) && len(set) < len(r.Values)
		eachSaid = append(eachSaid, n+": "+c.FacePressure(r.LowestOf(set)).String())
	}
	set := faces(worst)
	f.Facts["value"], f.Facts["best"], f.Facts["mean"] = c.FacePressure(worst.LowestOf(set)), c.FacePressure(worst.Best), c.FacePressure(worst.Mean)
	f.Facts["difference"], f.Facts["each"] = c.FacePressure(worst.Difference), eachSaid
	l, _ := worst.DecidedBy(set)
	if l != nil {
		f.Facts["byLimit"], f.Facts["limit"], f.Facts["u"] = true, c.FacePressure(l.Limit), c.FacePressure(l.Uncertainty)
	}
	switch {
	case dead:
		f.Variant, f.Urgency, f.Headline = "dead", diag.DoNotRun, "rotor-dead"
		if whole {
			f.Headline = "rotor-no-pressure"
		}
	case l != nil && !clear:
		f.Variant, f.Urgency, f.Confidence, f.Doubts = "too-close", diag.CheckAgain, diag.Weak, []diag.Phrase{{Key: "near-limit"}}
	}
	return f
}

// apartPercent is how far rotors may lie apart where no limit is stated, in
// percent of the better: common practice, no source.
const apartPercent = 15

// rotorsApart reports rotors that differ, whether beyond uncertainty, and the
// limit that says so, nil for none.
func rotorsApart(c *known.Case) (apart, clear bool, limit *diag.LimitResult) {
	low, best, ok := c.RotorsApart()
	if !ok {
		return false, false, nil
	}
	limit = c.RotorLimit(known.BetweenRotors)
	switch {
	case limit == nil, limit.Verdict == diag.NotJudged:
		return best.Mean > 0 && 100*(best.Mean-low.Mean) > apartPercent*best.Mean, true, nil
	case limit.Verdict == diag.Outside:
		return true, true, limit
	}
	return limit.Verdict == diag.TooClose && limit.PastAsRead, false, limit
}

// apartVoices speak only of a rotor of which nothing else is known: a face that
// leaks pulls the mean down, and one low all over is weighed as such.
func apartVoices(c *known.Case, s known.Subject) []Voice {
	r, ok := c.Rotor(s.Name())
	switch {
	case ok && len(r.SingledOut()) > 0:
		return denies(Hint, "a-face-pulls-down", "rotor-wear")
	case ok && (r.Even() || r.UnderFloor()):
		return nil
	}
	return append(common("rotor-wear", "apex-seal"), denies(Known, "same-starter", "weak-cranking")...)
}

func rotorsApartSaid(c *known.Case, _ known.Subject) diag.Finding {
	low, best, _ := c.RotorsApart()
	_, clear, limit := rotorsApart(c)
	f := diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Fair, Facts: diag.Facts{
		"low": c.FacePressure(low.Mean), "high": c.FacePressure(best.Mean), "apart": c.FacePressure(best.Mean - low.Mean), "best": best.Name, "bestRotor": diag.Names{best.Name}, "byLimit": false}}
	if limit != nil {
		f.Facts["byLimit"], f.Facts["limit"], f.Facts["u"], f.Facts["apart"] = true, c.FacePressure(limit.Limit), c.FacePressure(limit.Uncertainty), c.FacePressure(limit.Value)
	}
	if !clear {
		f.Variant, f.Urgency, f.Confidence, f.Doubts = "too-close", diag.CheckAgain, diag.Weak, []diag.Phrase{{Key: "near-limit"}}
	}
	return f
}

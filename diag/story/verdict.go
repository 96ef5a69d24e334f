package story

import (
	"cmp"
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/cause"
	"gaugesheet/diag/known"
	"gaugesheet/diag/rule"
)

// conclude sets the verdict and the line under it: the first story leads, and
// every other that is as urgent is named with it. Where no story asks for
// anything the verdict says what was found sound, or why nothing can be judged.
func conclude(c *known.Case, d *diag.Diagnosis) {
	lead := leading(d)
	nameFound(c, d)
	d.Lead = -1
	if lead != nil {
		d.Lead = 0
	}
	if lead == nil {
		withoutLead(c, d)
	} else {
		led(c, d, lead)
	}
	if d.Advice.Key == "advice-none" && !(c.MainTestsMade() && c.SealingRead() && len(c.History.Complaints) == 0) {
		d.Advice.Key = "advice-none-tested"
	}
	if d.Advice.Key == "advice-none" && sealingClose(c) {
		d.Advice.Key = "advice-none-close"
	}
	d.Advice.Facts = adviceFacts(c, d, lead)
	d.Proven = shownSound(c, d)
}

// nameFound has every story of the whole engine, of the mixture or of a further test that
// asks for something, and does not lead, say what it found: of these more than one thing can
// be so, and a section's name says more than was found, or, of worn plugs, another thing.
func nameFound(c *known.Case, d *diag.Diagnosis) {
	for i := 1; i < len(d.Stories); i++ {
		if s := &d.Stories[i]; (s.About == diag.AboutEngine || s.About == diag.AboutSystem || s.About == diag.AboutMixture) && s.Urgency != diag.NoAction && len(s.Members) > 0 {
			s.Found = diag.Phrase{Key: cmp.Or(s.Members[0].Headline, "see-findings"), Facts: verdictFacts(c, s)}
		}
	}
}

// leading is the first story that asks for something, nil for none.
func leading(d *diag.Diagnosis) *diag.Story {
	if len(d.Stories) > 0 && d.Stories[0].Urgency != diag.NoAction {
		return &d.Stories[0]
	}
	return nil
}

// led makes a story the sheet's verdict.
func led(c *known.Case, d *diag.Diagnosis, s *diag.Story) {
	facts := verdictFacts(c, s)
	facts["with"], facts["also"] = besides(c, s), alsoUrgent(d)
	if s.About == diag.AboutTest {
		d.Verdict = diag.Phrase{Key: "test-first", Facts: facts}
		if len(s.Notices) > 0 {
			n := s.Notices[0]
			if r := rule.Named(n.Rule); r != nil {
				d.Verdict.Key = cmp.Or(r.HeadlineFor(c, n), d.Verdict.Key)
			}
			facts["Cylinders"] = diag.Names(noticed(s, n.Rule))
			for _, key := range []string{"read", "of", "section"} {
				if fact, told := n.Facts[key]; told {
					facts[key] = fact
				}
			}
		}
		d.Advice = diag.Phrase{Key: "advice-repeat"}
		if s.Urgency == diag.DoNotRun {
			d.Advice.Key = "advice-do-not-run"
		}
		return
	}
	d.Verdict = diag.Phrase{Key: cmp.Or(s.Members[0].Headline, "see-findings"), Facts: facts}
	if r := besideSound(c, d, s); r != nil {
		facts["looks"], d.Verdict.Key = r.Look, cmp.Or(r.Beside, "plugs-only")
	}
	if r := c.MainRefused(); r != nil && d.Verdict.Key == r.Verdict() {
		delete(facts, "refused") // it says so itself
	}
	d.Advice = diag.Phrase{Key: advice(c, d, s)}
}

// besideSound is the rule of a story that is of how plugs look, or of what was seen and is not
// judged, and of nothing else, in an engine of which nothing is complained and whose cylinders were
// all found to seal, so that what was found sound is said first; nil for any other.
func besideSound(c *known.Case, d *diag.Diagnosis, s *diag.Story) *rule.Rule {
	sound := !c.Ails() && c.SealingRead() && c.Sound() && c.PressureEnough()
	if s.Urgency != diag.CheckAgain || !sound {
		return nil
	}
	lead := rule.Named(s.Members[0].Rule)
	switch {
	case lead == nil || lead.Look == "" && lead.Beside == "":
		return nil
	case lead.Beside != "":
		if len(alsoUrgent(d)) > 0 {
			return nil
		}
		return lead
	case !c.MainTestsMade() || slices.ContainsFunc(s.Members, func(f diag.Finding) bool { r := rule.Named(f.Rule); return r == nil || r.Kind != rule.OfPlugs }):
		return nil
	}
	return lead
}

// noticed are the cylinders of all notices of one rule in a story of the test: a
// headline hides none of them.
func noticed(s *diag.Story, of string) []string {
	var names []string
	for _, n := range s.Notices {
		if n.Rule == of {
			names = appendNew(names, n.Cylinders)
		}
	}
	return names
}

// besides are the cylinders of a story that its leading finding does not name, or of what it
// explains where these are not all.
func besides(c *known.Case, s *diag.Story) diag.Names {
	if len(s.With) > 0 && len(s.With) < len(c.Every()) {
		return c.Those(func(n string) bool { return slices.Contains(s.With, n) })
	}
	if len(s.Members) == 0 || rule.Named(s.Members[0].Rule).TellsAll {
		return nil
	}
	if len(s.Members[0].Cylinders) == 0 && (s.About != diag.AboutCylinders || rule.Named(s.Members[0].Rule).About == diag.AboutCylinders) { // they are the story's
		return nil
	}
	var rest diag.Names
	for _, n := range s.Cylinders {
		if !slices.Contains(s.Members[0].Cylinders, n) && !soundIn(s, n) {
			rest = append(rest, n)
		}
	}
	return rest
}

// soundIn reports a cylinder of a story of which the story tells only what asks for nothing.
func soundIn(s *diag.Story, name string) bool {
	named := false
	for i := range s.Members {
		if m := &s.Members[i]; slices.Contains(m.Cylinders, name) {
			named = true
			if m.Urgency != diag.NoAction {
				return false
			}
		}
	}
	return named
}

// alsoUrgent names what the other stories of the same urgency are about, so
// that the headline hides none of them. A complaint that nothing explains is
// answered in its place.
func alsoUrgent(d *diag.Diagnosis) []diag.Also {
	var list []diag.Also
	for i := 1; i < len(d.Stories) && d.Urgency != diag.NoAction; i++ {
		s := &d.Stories[i]
		if s.Urgency != d.Urgency {
			break
		}
		if d.Stories[0].About == diag.AboutTest && waitsFor(&d.Stories[0], s, d.Urgency) {
			continue // which is what the headline asks for
		}
		if slipOf(&d.Stories[0], s) {
			continue // the headline names it
		}
		if len(s.Members) > 0 && rule.Named(s.Members[0].Rule).Class == rule.Elsewhere {
			continue
		}
		list = append(list, diag.Also{About: s.About, Found: s.Found, Cylinders: s.Cylinders, Circuit: s.Circuit, System: s.System, Part: s.Part})
	}
	return list
}

// waitsFor reports a story that waits for the test of which another is: it asks for the same
// check and for no more, or suspects first the very fault of the test.
func waitsFor(test, s *diag.Story, urgency diag.Urgency) bool {
	if urgency == diag.CheckAgain && s.Next != nil && test.Next != nil && s.Next.Key == test.Next.Key {
		return true
	}
	return len(s.Cylinders) == 0 && len(test.Causes) > 0 && len(s.Causes) > 0 && s.Causes[0].Key == test.Causes[0].Key && cause.Named(s.Causes[0].Key).Test
}

// slipOf reports a story of the cylinders whose figures a story of the test may
// take for a slip of the pen.
func slipOf(test, s *diag.Story) bool {
	return test.About == diag.AboutTest && test.Urgency == diag.DoNotRun && len(s.Cylinders) > 0 &&
		!slices.ContainsFunc(s.Cylinders, func(n string) bool { return !slices.Contains(test.Notices[0].Cylinders, n) })
}

// verdictFacts are what the verdicts use; s is the leading story or nil.
func verdictFacts(c *known.Case, s *diag.Story) diag.Facts {
	facts := diag.Facts{"rotary": c.Rotary(), "Cylinders": diag.Names(nil), "of": len(c.Every()), "circuit": "", "bank": "", "read": len(c.ReadAny()), "compared": len(c.Compared()),
		"with": diag.Names(nil), "also": []diag.Also(nil), "complaints": diag.Names(nil), "complaint": "", "raw": false, "looks": "", "own": false, "reading": ""}
	if r := c.MainRefused(); r != nil {
		facts["refused"], facts["declined"] = diag.Names(r.Tests), r.Declined()
	}
	if s == nil || len(s.Members) == 0 {
		return facts
	}
	f := &s.Members[0]
	names := f.Cylinders
	if len(names) == 0 && s.About == diag.AboutCylinders {
		names = s.Cylinders
	}
	facts["circuit"] = f.Circuit
	for key, fact := range f.Facts {
		if _, ours := facts[key]; ours && key != "Cylinders" && key != "read" && key != "of" || key == "bank" {
			facts[key] = fact
		}
	}
	facts["Cylinders"] = diag.Names(names)
	if r := rule.Named(f.Rule); r != nil && r.Open { // of these alone it says that they are not explained
		facts["complaints"] = diag.Names(s.Explains)
	}
	return facts
}

// advice is the line under a verdict that a story leads.
func advice(c *known.Case, d *diag.Diagnosis, s *diag.Story) string {
	byCause := ""
	if len(s.Causes) > 0 {
		if k := cause.Named(s.Causes[0].Key); k != nil {
			byCause = k.Advice
		}
	}
	switch {
	case s.Urgency == diag.DoNotRun:
		return "advice-do-not-run"
	case d.Next != nil && repeatsTest(d.Next.Key):
		return "advice-repeat"
	case c.Noticed("too-few-cylinders"):
		return "advice-complete"
	case s.Confidence == diag.Weak && d.Next != nil:
		return "advice-weak"
	case byCause != "" && byCause != "advice-repeat":
		return byCause
	case d.Next != nil:
		return "advice-next-check"
	}
	return "advice-findings"
}

// adviceFacts are what the line under the verdict uses: how sure the leading
// story is, whether a check comes next, and how many stories more ask for
// something.
func adviceFacts(c *known.Case, d *diag.Diagnosis, s *diag.Story) diag.Facts {
	facts := diag.Facts{"sure": "", "check": d.Next != nil, "more": 0, "rotary": c.Rotary(), "diesel": c.Spec.Diesel()}
	if s == nil {
		return facts
	}
	more := 0
	for i := range d.Stories {
		if other := &d.Stories[i]; other != s && other.Urgency != diag.NoAction {
			more++
		}
	}
	facts["sure"], facts["more"] = string(s.Confidence), more
	return facts
}

// withoutLead sets the verdict where no story asks for anything.
func withoutLead(c *known.Case, d *diag.Diagnosis) {
	say := func(verdict, advice string, more diag.Facts) {
		facts := verdictFacts(c, nil)
		for key, fact := range more {
			facts[key] = fact
		}
		d.Verdict, d.Advice = diag.Phrase{Key: verdict, Facts: facts}, diag.Phrase{Key: advice}
	}
	sound := firstSound(d)
	apart := c.CylindersThat(func(r *diag.CylinderResult) bool { return r.Disagree })
	switch {
	case c.MainRefused() != nil: // whatever else was found sound
		say(c.MainRefused().Verdict(), "advice-findings", nil)
		delete(d.Verdict.Facts, "refused") // it says so itself
		d.Withheld = true
	case c.Noticed("too-few-cylinders"):
		n := c.NoticeOf("too-few-cylinders")
		key := "too-few-cylinders"
		if n.Variant == "rotors" {
			key = "too-few-rotors"
		}
		say(key, "advice-complete", diag.Facts{"read": n.Facts["read"], "of": n.Facts["of"]})
	case c.NotJudged() != "" && !(sound != nil && sound.About == diag.AboutCylinders && len(c.RepairedTo(known.Proved)) > 0):
		say(notJudged(c))
	case len(apart) > 0 && sound == nil:
		say("not-judged-some", "advice-test-again", diag.Facts{"Cylinders": diag.Names(apart)})
	case len(c.BoundsOnly()) > 0 && (sound == nil || beside(sound) && !c.PressureEnough()):
		key, advice := boundsVerdict(c)
		say(key, advice, diag.Facts{"Cylinders": diag.Names(c.BoundsOnly())})
	case c.OnlyWet() && sound == nil:
		say("wet-only", "advice-none", nil)
	case sound != nil && beside(sound) && sealingClose(c): // how the engine seals is not hidden behind its fuel
		say("sealing-close", "advice-none-close", nil)
	case sound != nil:
		led(c, d, sound)
		d.Lead = slices.IndexFunc(d.Stories, func(s diag.Story) bool {
			return s.About == sound.About && s.System == sound.System && s.Part == sound.Part && slices.Equal(s.Cylinders, sound.Cylinders)
		})
		d.Advice = diag.Phrase{Key: soundAdvice(c, sound)}
	default:
		say(withoutFindings(c))
	}
}

// beside reports a story of the fuel or the mixture, which says nothing of how the
// cylinders seal.
func beside(s *diag.Story) bool { return s.About == diag.AboutFuel || s.About == diag.AboutMixture }

// sealingClose reports pressures of which one is too close to its limit to call.
func sealingClose(c *known.Case) bool {
	return c.Sums.Rotors != nil && !kept(c.Sums.Rotors.Limits) || c.Sums.Compression != nil && !kept(c.Sums.Compression.Limits)
}

// withoutFindings is what is said where nothing was found at all, neither a fault
// nor anything sound.
func withoutFindings(c *known.Case) (verdict, advice string, facts diag.Facts) {
	switch {
	case c.Noticed("fuel-limit-missing"):
		return "fuel-not-judged", "advice-no-figure", nil
	case c.Has(known.NeedsRotors):
		return "rotors-even", "advice-none", nil
	case c.Has(known.NeedsCompression) && !c.PressureEnough():
		return "not-judged", "advice-no-figure", nil
	case c.Has(known.NeedsCompression), c.Has(known.NeedsLeakage), c.Has(known.NeedsPlugs), c.Has(known.NeedsFuel):
		return "nothing-found", "advice-none", nil
	case c.Cranking().State == diag.Tested:
		return "not-judged", "advice-test-again", nil
	case slices.ContainsFunc(c.Sums.Measured, func(r diag.MeasuredResult) bool { return r.State == diag.Tested }):
		return "further-only", "advice-none", nil
	}
	return "nothing-tested", "advice-test-again", nil
}

// notJudged is why nothing is judged, and the line under it; one cylinder that reads
// what its ratio makes likely lacks the maker's figure and no other test, and one that reads
// what its decompressor leaves lacks no test while nobody complains.
func notJudged(c *known.Case) (verdict, advice string, facts diag.Facts) {
	if c.InBandAlone() {
		return "single-in-band", "advice-no-figure", nil
	}
	if c.ReleasedAsBuilt() {
		return "released-as-built", "advice-released", nil
	}
	return c.NotJudged(), "advice-test-again", nil
}

// soundAdvice is the line under what was found sound: without a figure of the
// maker's nothing can be said of how it compares with new, and a least pressure says no more
// of what there is than where one alone was read.
func soundAdvice(c *known.Case, s *diag.Story) string {
	if len(c.BoundsOnly()) > 0 && !c.Has(known.NeedsCompression) {
		_, advice := boundsVerdict(c)
		return advice
	}
	if c.Has(known.NeedsCompression) && c.Minimum() == nil && (s.About == diag.AboutEngine || !c.PressureEnough()) {
		return "advice-no-figure"
	}
	return "advice-none"
}

// firstSound is the first story of something that was found sound, nil for none;
// a repair that is proved is what the owner paid for, and comes first.
func firstSound(d *diag.Diagnosis) *diag.Story {
	if i := slices.IndexFunc(d.Stories, func(s diag.Story) bool {
		return s.Urgency == diag.NoAction && len(s.Members) > 0 && rule.Named(s.Members[0].Rule).Proves()
	}); i >= 0 {
		return &d.Stories[i]
	}
	sound := func(s *diag.Story) bool {
		return slices.ContainsFunc(s.Members[:min(1, len(s.Members))], func(f diag.Finding) bool {
			r := rule.Named(f.Rule)
			return r != nil && r.Class == rule.Sound
		})
	}
	// how the engine seals is what most of the sheet is about, before one gauge of a system
	for _, sealing := range []bool{true, false} {
		for i := range d.Stories {
			s := &d.Stories[i]
			if (s.About == diag.AboutEngine || s.About == diag.AboutCylinders) == sealing && sound(s) {
				return s
			}
		}
	}
	return nil
}

// boundsVerdict names the verdict, and the line under it, of a set of which
// some or all readings are only lower bounds.
func boundsVerdict(c *known.Case) (verdict, advice string) {
	s := c.Cranking()
	cleared, stated := true, false
	for _, l := range s.Limits {
		if l.Rule == string(diag.Minimum) {
			stated, cleared = true, cleared && l.Verdict == diag.Within
		}
	}
	switch {
	case s.N > 0:
		return "lower-bound-some", "advice-lower-bound"
	case stated && cleared && s.Complete && len(c.BoundsOpen()) == 0:
		return "above-minimum", "advice-none"
	}
	if !c.Several() { // with nothing to be compared with but a figure
		return "lower-bound", "advice-no-figure"
	}
	return "lower-bound", "advice-lower-bound"
}

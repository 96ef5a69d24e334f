package laws_test

import (
	"regexp"
	"slices"
	"strings"
)

var truthLaws = []law{
	{name: "T1 a limit outside", least: 500, says: "a limit of the job judged outside has a finding above 'no action' that is about it, of at least its urgency the verdict", check: outsideIsSaid},
	{name: "T1 a further test outside", least: 60, says: "a reading of a further test outside a limit of the job has a story above 'no action' that rests on it", check: furtherOutside},
	{name: "T1 verdict as urgent as the findings", least: 1500, says: "the verdict is as urgent as the most urgent finding and story",
		check: func(s *subject, k *tally) {
			for _, f := range s.out.Findings {
				k.saw()
				if rank(f.Urgency) > rank(s.out.Verdict.Urgency) {
					k.fail("the verdict is %q, %s is %q", s.out.Verdict.Urgency, f.Rule, f.Urgency)
				}
			}
			for _, one := range s.out.Stories {
				if rank(one.Urgency) > rank(s.out.Verdict.Urgency) {
					k.fail("the verdict is %q, the story about %s %v is %q", s.out.Verdict.Urgency, one.About, one.Cylinders, one.Urgency)
				}
			}
		}},
	{name: "T1 only from a finding", least: 1500, says: "the verdict is no more urgent than what was found and remarked",
		check: func(s *subject, k *tally) {
			k.saw()
			most := 0
			for _, f := range s.out.Findings {
				most = max(most, rank(f.Urgency))
			}
			for _, one := range s.out.Stories {
				most = max(most, rank(one.Urgency))
			}
			if len(s.out.Notices) > 0 { // a doubt of the test itself asks for a repeat
				most = max(most, rank(checkAgain))
			}
			for _, n := range s.out.NotTested {
				if n.Test == "compression" || n.Test == "rotors" || n.State == "declined" {
					most = max(most, rank(checkAgain))
				}
			}
			if rank(s.out.Verdict.Urgency) > most {
				k.fail("%q, yet nothing found is more than %d of 3", s.out.Verdict.Urgency, most)
			}
		}},
	{name: "T2 reassurance needs a reason", least: 15, says: "'seals well', 'look elsewhere', 'nothing to do' need every main test made and within, no complaint unanswered, and pressure known to be enough", check: reassuranceNeedsReason},
	{name: "T3 floor", least: 25, says: "without a maker's figure a petrol four-stroke under 100 psi or a diesel under 250 psi everywhere is low, and that is said first", check: floor},
	{name: "T3 floor named", least: 20, says: "with a decompressor at work or a shut throttle nothing is called low without naming these", check: spoiltIsNamed},
	{name: "T4 a lone dead cylinder", least: 10, says: "no pressure is no pressure whether or not the others were read", check: loneDead},
	{name: "T5 equal entries", least: 500, says: "equal entries in equal conditions get equal grades", check: equalEntries},
	{name: "T5 bounds decide", least: 10, says: "a reading far below what the others read at least is low", check: boundsDecide},
	{name: "T6 others and median", least: 150, says: "'the others' need two others, 'the median' and 'typical' three", check: othersWereRead},
	{name: "T6 plugs nobody looked at", least: 300, says: "nothing is said of plugs that were not looked at",
		check: func(s *subject, k *tally) {
			for _, p := range s.out.Plugs.Cylinders {
				if p.Look != "" || p.GapVerdict != "" {
					return
				}
			}
			k.saw()
			for _, f := range s.out.Findings {
				for _, text := range []string{f.Says, f.Because, strings.Join(f.Against, ". ")} {
					if m := plugLooks.FindString(text); m != "" {
						k.fail("%s says %q, and no plug was looked at", f.Rule, m)
					}
				}
			}
		}},
	{name: "T8 complaints answered", least: 600, says: "every complaint is answered by name", check: complaintsAnswered},
	{name: "T8 refusal leads", least: 25, says: "a job whose main tests were all declined leads with that, and one whose main tests were not made does not reassure",
		check: func(s *subject, k *tally) {
			states, declined := map[string]string{}, true
			for _, key := range []string{"compression", "rotors", "leakage"} {
				if word := s.tree.text(key); word == "not applicable" {
					return
				} else if word != "" {
					states[key] = word
					declined = declined && strings.HasPrefix(word, "declined")
				} else if s.tree.has(key) {
					return
				}
			}
			if len(states) == 0 {
				return
			}
			k.saw()
			if declined && !refusalWords.MatchString(s.out.Verdict.Sentence) && !refusalWords.MatchString(s.out.Verdict.Advice) {
				k.fail("%v, and the verdict says %q %q", states, s.out.Verdict.Sentence, s.out.Verdict.Advice)
			}
			if tick := s.reassures(); tick != "" {
				k.fail("%v, yet %q", states, tick)
			}
		}},
}

var (
	plugLooks    = regexp.MustCompile(`(?i)\b(plugs? (is|are|look|looks|show|shows|of|has|have)|on (every|each|all|the) plugs?)\b`)
	refusalWords = regexp.MustCompile(`(?i)\b(declined|refused|not (tested|made|allowed|taken)|could not|no readings|was not|were not|cannot|not applicable|without a)\b`)
)

// Words that reassure.
var (
	sealWords    = regexp.MustCompile(`(?i)look(ed)? (for )?elsewhere|seals? (well|evenly)|sealing sound`)
	nothingWords = regexp.MustCompile(`(?i)nothing to do|no action on these|nothing in these readings asks|no work is called for`)
)

var tickWords = regexp.MustCompile(`(?i)nothing to do|no action on these|look(ed)? (for )?elsewhere|seals? (well|evenly)|sealing (even|sound)|fuel pressure (is as the book asks|within)|nothing in these readings asks|no work is called for`)

// reassures gives the words with which the sheet's verdict reassures, "" where
// it does not.
func (s *subject) reassures() string {
	return tickWords.FindString(s.out.Verdict.Sentence + ". " + s.out.Verdict.Advice)
}

// main names the tests that the job has, as the JSON's sections do.
var mainTests = []string{"compression", "rotors", "leakage", "fuel-pressure"}

func reassuranceNeedsReason(s *subject, k *tally) {
	words := s.reassures()
	var at string
	if words == "" {
		for _, f := range s.out.lead() {
			if m := sealWords.FindString(f.Says + ". " + f.Because); m != "" {
				words, at = m, f.Rule
			}
		}
	}
	if words == "" {
		return
	}
	k.saw()
	if at == "" {
		at = "the verdict"
	}
	ofFuel := strings.HasPrefix(strings.ToLower(words), "fuel pressure")
	for _, test := range mainTests {
		if ofFuel && test != "fuel-pressure" {
			continue
		}
		if word := s.tree.text(test); word != "" && !strings.HasPrefix(word, "not applicable") {
			k.fail("%s says %q, and %s is %q", at, words, test, word)
		}
	}
	// That the fuel pressure is within its limits says nothing of the cylinders.
	if !s.tree.has("compression") && !s.tree.has("rotors") && !s.tree.has("leakage") && !ofFuel {
		k.fail("%s says %q without a test of how the cylinders seal", at, words)
	}
	for what, complete := range map[string]*bool{"compression": s.out.Compression.Complete, "rotors": s.out.Rotors.Complete} {
		if complete != nil && !*complete {
			k.fail("%s says %q, and %s is not complete", at, words, what)
		}
	}
	if nothingWords.MatchString(words) && len(s.complaints()) > 0 {
		k.fail("%s says %q to the complaints %v", at, words, s.complaints())
	}
	if s.tree.has("vehicle", "stood") && !strings.Contains(s.tree.text("vehicle", "stood"), "week") && strings.Contains(strings.ToLower(words), "nothing") {
		k.fail("%s says %q of an engine that stood %s", at, words, s.tree.text("vehicle", "stood"))
	}
	for _, l := range slices.Concat(s.out.Compression.Limits, s.out.Rotors.Limits) {
		if l.Verdict == "outside" || l.Verdict == "too close to call" && l.Rule == "minimum" {
			k.fail("%s says %q, and %s is %s", at, words, l.Rule, l.Verdict)
		}
	}
	if dry := s.dry(); len(dry) > 0 && !ofFuel && !s.enough() {
		k.fail("%s says %q, and no limit, no expected band and no floor says that %v psi is enough", at, words, dry)
	}
}

// enough tells whether the pressure is known to be enough: by a minimum, by the
// expected band, or by the floor for its kind. Of an engine whose fuel is not
// known nothing is asked.
func (s *subject) enough() bool {
	for _, l := range s.out.Compression.Limits {
		if l.Rule == "minimum" && l.Verdict == "within" {
			return true
		}
	}
	if e := s.out.Compression.Expected; e != nil && e.Low != nil && s.out.Compression.Lowest != nil && *s.out.Compression.Lowest >= *e.Low*0.99 {
		return true
	}
	if s.fuel() == "" || s.rotary() || s.tree.has("compression", "limits", "standard") {
		return true
	}
	low := 100.0
	switch {
	case s.twoStroke(): // usual of small engines, common practice, no source
		low = 90
	case s.diesel():
		low = 250
	case s.ratio() > 0 && s.ratio() < 8: // older engines give less
		return true
	}
	if air := s.air(); air > 0 {
		low *= air
	}
	for _, p := range s.dry() {
		if p < low*0.98 {
			return false
		}
	}
	return true
}

// spoilt tells that the test itself keeps the pressure down.
func (s *subject) spoilt() string {
	switch {
	case s.tree.text("engine", "decompressor") == "automatic":
		return "decompressor"
	case s.tree.text("conditions", "throttle") == "closed" && !s.diesel():
		return "throttle"
	}
	return ""
}

// lowRatioShare is what an engine of ratio 5 gives of what one of 8 does.
const lowRatioShare = 0.5

// mayBeOfLowRatio is an engine of a kind that is built with ratios down to 5, and its
// own is not known.
func (s *subject) mayBeOfLowRatio() bool {
	if s.diesel() || s.ratio() > 0 {
		return false
	}
	small := len(s.names()) <= 2 && s.tree.text("engine", "cooling") != "liquid" && s.tree.text("engine", "valve-gear") != "overhead valves"
	return small || strings.HasPrefix(s.layout(), "radial") || s.tree.text("engine", "inverted") == "yes" || s.tree.text("engine", "valve-gear") == "side valves"
}

func floor(s *subject, k *tally) {
	dry := s.dry()
	low, soon := 100.0, 80.0
	switch {
	case s.diesel() && !s.twoStroke():
		low, soon = 250, 200
	case !s.petrolFourStroke():
		return
	}
	if len(dry) < len(s.names()) || s.spoilt() != "" || s.tree.has("compression", "limits", "minimum") || s.ratio() > 0 && s.ratio() < 8 || s.tree.has("compression", "limits", "standard") {
		return
	}
	if air := s.air(); air > 0 {
		low, soon = low*air, soon*air
	}
	if s.mayBeOfLowRatio() { // half of it is right at 5 to 1; a complaint has it looked up
		low, soon = low*lowRatioShare, soon*lowRatioShare
	}
	highest := 0.0
	for _, c := range s.out.Compression.Cylinders {
		if c.Kind != "exact" {
			return
		}
		highest = max(highest, dry[c.Cylinder])
	}
	if highest > low*0.96 {
		return
	}
	// Figures that another unit would make likely: the unit is read off first.
	// A flooded engine is dried before its readings count.
	looked, wet := 0, 0
	for _, p := range s.out.Plugs.Cylinders {
		if p.Look != "" {
			looked++
		}
		if p.Look == "fuel-wet" {
			wet++
		}
	}
	if 2*wet > looked {
		return
	}
	for _, n := range s.out.Notices {
		if n.Rule == "unit-suspect" && strings.Contains(n.Says, "looks like") {
			return
		}
	}
	k.saw()
	if len(s.out.lead()) == 0 {
		k.fail("the highest of %v is %.0f psi, and nothing is found", dry, highest)
		return
	}
	least := checkAgain
	if highest < soon*0.96 {
		least = actSoon
	}
	if rank(s.out.Verdict.Urgency) < rank(least) {
		k.fail("the highest of %d is %.0f psi, and the verdict is %q, expected %q at least", len(dry), highest, s.out.Verdict.Urgency, least)
	}
	first := s.out.lead()[0] // what was seen in a cylinder may stand before it
	if !strings.HasPrefix(first.Rule, "seen-") && len(first.Cylinders) != 0 && len(first.Cylinders) != len(dry) && rank(first.Urgency) < rank(doNotRun) {
		k.fail("the highest of %d is %.0f psi, and the first finding is %s of %v", len(dry), highest, first.Rule, first.Cylinders)
	}
	if m := tickWords.FindString(s.out.Verdict.Sentence); m != "" {
		k.fail("the highest of %d is %.0f psi, and the verdict says %q", len(dry), highest, m)
	}
}

var spoiltWords = map[string]*regexp.Regexp{"decompressor": regexp.MustCompile(`(?i)decompress|starting aid`), "throttle": regexp.MustCompile(`(?i)throttle|breathe freely`)}

func spoiltIsNamed(s *subject, k *tally) {
	why := s.spoilt()
	if why == "" || len(s.dry()) == 0 {
		return
	}
	k.saw()
	words := spoiltWords[why]
	if !words.MatchString(s.out.Verdict.Sentence + s.out.Verdict.Advice) {
		for _, f := range s.out.Findings {
			if strings.HasPrefix(f.Rule, "all-low") && !words.MatchString(f.Says+f.Because+strings.Join(f.Causes, " ")) {
				k.fail("%s, yet %s says %q without naming it", why, f.Rule, f.Says)
			}
		}
		if !words.MatchString(s.allText()) {
			k.fail("%s at work, and nothing says so", why)
		}
	}
}

func (s *subject) allText() string {
	var b strings.Builder
	for _, one := range s.out.said() {
		b.WriteString(one.text + ". ")
	}
	return b.String()
}

func loneDead(s *subject, k *tally) {
	dry := s.dry()
	if len(dry) != 1 || len(s.names()) < 2 || s.spoilt() != "" {
		return
	}
	for name, p := range dry {
		if entry := s.tree.text("compression", "dry", name); p > 5 || strings.Contains(entry, "+") || strings.HasPrefix(entry, "over") {
			return
		}
		k.saw()
		i := slices.IndexFunc(s.out.Findings, func(f finding) bool {
			return rank(f.Urgency) >= rank(actSoon) && slices.Contains(f.Cylinders, name) && !fuelRule.MatchString(f.Rule) && !plugRule.MatchString(f.Rule)
		})
		if i < 0 {
			k.fail("%s reads %.0f psi, alone, and no finding of it is 'act soon' or more", name, p)
		}
		if g := s.grade(name); g != "no pressure" {
			k.fail("%s reads %.0f psi, alone, and is graded %q", name, p, g)
		}
		for check, at := range s.out.proposed() {
			if check == "swap-coil" || check == "injector-balance" {
				k.fail("%s reads %.0f psi, alone, and %s proposes %s", name, p, at, check)
			}
		}
	}
}

func equalEntries(s *subject, k *tally) {
	grades, who := map[string]string{}, map[string]string{}
	for _, c := range s.out.Compression.Cylinders {
		if c.Dry == nil || s.tree.has("compression", "strokes") {
			continue
		}
		if g, twice := grades[c.Entered]; twice {
			k.saw()
			if g != c.Grade {
				k.fail("%s and %s read %q, graded %q and %q", who[c.Entered], c.Cylinder, c.Entered, g, c.Grade)
			}
		}
		grades[c.Entered], who[c.Entered] = c.Grade, c.Cylinder
	}
	for _, r := range s.out.Rotors.Faces {
		by := map[string]string{}
		for i, e := range r.Entered {
			if i < len(r.Grades) {
				if g, twice := by[e]; twice && g != r.Grades[i] {
					k.fail("two faces of rotor %s read %q, graded %q and %q", r.Rotor, e, g, r.Grades[i])
				}
				by[e] = r.Grades[i]
			}
		}
	}
	verdicts := map[string]string{}
	for _, c := range s.out.Leakage.Cylinders {
		if v, twice := verdicts[c.Entered]; twice && c.Loss != nil && v != c.Verdict {
			k.fail("two cylinders lose %q, judged %q and %q", c.Entered, v, c.Verdict)
		}
		verdicts[c.Entered] = c.Verdict
	}
}

// boundsDecide: 120 psi beside three of '150+' is low by a fifth at least.
func boundsDecide(s *subject, k *tally) {
	least, bounds := 0.0, 0
	for _, c := range s.out.Compression.Cylinders {
		if c.Kind == "at least" && c.Dry != nil {
			if bounds++; least == 0 || *c.Dry < least {
				least = *c.Dry
			}
		}
	}
	if bounds < 2 || s.spoilt() != "" || slices.ContainsFunc(s.out.rulesOfNotices(), func(r string) bool { return r == "unit-suspect" }) {
		return
	}
	for _, c := range s.out.Compression.Cylinders {
		if c.Dry == nil || c.Kind != "exact" || len(c.DryReadings) > 1 || *c.Dry > 0.8*least {
			continue
		}
		k.saw()
		if !slices.Contains([]string{"low", "very low", "no pressure"}, c.Grade) {
			k.fail("%s reads %v, %d others %v at least, and it is graded %q", c.Cylinder, *c.Dry, bounds, least, c.Grade)
		}
		if !slices.ContainsFunc(s.out.Findings, func(f finding) bool { return rank(f.Urgency) > 0 && about(f, c.Cylinder) }) {
			k.fail("%s reads %v, %d others %v at least, and nothing is found of it", c.Cylinder, *c.Dry, bounds, least)
		}
	}
}

package laws_test

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// What a check does to the engine, by the names of the catalogue and what each
// of them asks for.
var (
	// starterChecks use the starter or a running engine. The pump alone, and
	// air, camera and hand, do not.
	starterChecks = set("repeat-with-charger repeat-method second-gauge repeat-wet dry-and-repeat warm-retest complete-set face-peaks wet-test leak-down-again " +
		"compression-test running-compression exhaust-restriction coolant-gas-test run-and-retest smoke-on-overrun swap-coil injector-balance timing-and-cooling fuel-trims " +
		"bank-trims purge-pinch fuel-pressure-test held-pressure repeat-hose-test vacuum-at-hose restrict-return return-to-can pinch-feed-and-return charge-and-repeat " +
		"dry-chambers oil-consumption cap-and-cool spark-test clear-hose second-fuel-gauge magneto-check burn-plugs-clean cold-cylinder cold-start-and-drive coil-feed-test")
	// turningChecks turn the crankshaft.
	turningChecks = set("turn-by-hand turn-engine-check-cam watch-valve-gear cam-timing-marks valve-lash leak-down leak-down-pair leak-place ports-look")
	// pinchingChecks close a line.
	pinchingChecks = set("restrict-return pinch-feed-and-return")
)

func set(words string) map[string]bool {
	out := map[string]bool{}
	for _, w := range strings.Fields(words) {
		out[w] = true
	}
	return out
}

var (
	// runningWords ask for the starter or a running engine.
	runningWords = regexp.MustCompile(`(?i)\b(crank(s|ed|ing)?|starters?|start(ing|ed)? (it|the engine|cold|warm|up)|run(s|ning)? (it|the engine)|let it run|run it|engine running|with the engine running|runs? well|` +
		`at idle|at 2500 rpm|snap|road test|drive (it|the)|when slowing|warm|warmed|working temperature|repeat the compression|compression test|test the compression|` +
		`turn(ed)? (it |the engine )?over( once)?|combustion gas|gas test|after switching off|switch off and|while it runs|running compression|oil, run)\b`)
	againWords    = regexp.MustCompile(`(?i)(repeat (it|with|by)|\b(it|they|test) (is|are) (to be )?(made|repeated|read|tested) again before|read (it|them) again|check the figure again|test dry|crank it|, repeat\.|rule out a misreading|is repeated with a charger|another gauge is tried|has been tried)`)
	retestWords   = regexp.MustCompile(`(?i)\btest(ed)? (these |them |it |all )?again\b`)
	oilWords      = regexp.MustCompile(`(?i)\b(put|puts|pour|squirt|add|give|use|with) [^.;:]{0,40}\boil\b|^oil (it|the|them|each|every|and)\b|\boil (it|the cylinders|them|each cylinder|every cylinder)\b|\bwet test\b|\ba little oil\b|\bml (of )?(engine )?oil\b`)
	pinchWords    = regexp.MustCompile(`(?i)\b(pinch|clamp|close|squeeze|restrict)\w*\b[^.;:]{0,30}\b(line|hose|return|feed)\b`)
	oilRemoval    = regexp.MustCompile(`(?i)\bblow the oil out|until the oil of the wet test is burned|oil filler|oil level|engine oil|smell the oil|oil pressure|oil on the`)
	testingGoesOn = regexp.MustCompile(`(?i)testing (can|may) go on|go on testing|test as usual|may be cranked|can be cranked`)
)

var (
	// forbids are the words of a caution that keep the engine from running, or speak of
	// something else.
	forbids = regexp.MustCompile(`(?i)do not (crank or run|run or crank)[^.]*|before (it|the engine) runs( again)?|before running|can start by itself|run away|camshaft's drive`)
	runsIt  = regexp.MustCompile(`(?i)\b(run(s|ning)?|crank(s|ed|ing)?|driv(e|en|ing)|starters?|starts?|start(ed|ing)|pulling|kicking)\b`)
)

var safetyLaws = []law{
	{name: "S1 names", least: 60, says: "at 'do not run until checked' no check is proposed that uses the starter or runs the engine",
		check: func(s *subject, k *tally) {
			if s.out.Verdict.Urgency != doNotRun {
				return
			}
			for name, at := range s.out.proposed() {
				k.saw()
				if starterChecks[name] {
					k.fail("%s is proposed by %s", name, at)
				}
			}
		}},
	{name: "S1 words", least: 60, says: "at 'do not run until checked' no words ask for a start, a run, a warm engine or a test again",
		check: func(s *subject, k *tally) {
			if s.out.Verdict.Urgency != doNotRun {
				return
			}
			k.saw()
			if c := finds(s.out.Verdict.Advice, runningWords); c != "" {
				k.fail("the advice says %q", c)
			}
			for _, p := range s.out.proposals() {
				c := finds(p.Do, runningWords)
				if c == "" && !strings.HasPrefix(p.Name, "leak-down") && p.Name != "soap-joints" {
					c = finds(p.Do, retestWords)
				}
				if c != "" {
					k.fail("%s asks (%s): %q", p.at, p.Name, c)
				}
			}
		}},
	{name: "S1 remarks", least: 60, says: "at 'do not run until checked' no remark on the test asks for a reading that the starter takes",
		check: stopped(func(s *subject, k *tally) {
			for _, n := range s.out.Notices {
				k.saw()
				if c := finds(n.Says, againWords); c != "" && !strings.Contains(n.Says, "once it may turn") {
					k.fail("%s says %q: %q", n.Rule, c, n.Says)
				}
			}
		})},
	{name: "S1 by hand", least: 60, says: "at 'do not run until checked' every check that turns the engine says 'by hand'",
		check: stopped(func(s *subject, k *tally) {
			for _, p := range s.out.proposals() {
				if turningChecks[p.Name] || strings.Contains(p.Do, "turn the engine") {
					k.saw()
					if !strings.Contains(strings.ToLower(p.Do), "by hand") {
						k.fail("%s (%s) turns the engine and does not say by hand: %q", p.at, p.Name, p.Do)
					}
				}
			}
		})},
	{name: "S1 caution", least: 60, says: "at 'do not run until checked' the sheet has the caution, and elsewhere not",
		check: func(s *subject, k *tally) {
			has := slices.ContainsFunc(s.out.Cautions, func(c string) bool {
				return strings.HasPrefix(c, "Do not run or crank") || strings.HasPrefix(c, "Do not crank")
			})
			if do := s.out.Verdict.Urgency == doNotRun; do || has {
				k.saw()
				if do != has {
					k.fail("urgency %q, cautions %q", s.out.Verdict.Urgency, s.out.Cautions)
				}
			}
		}},
	{name: "S1 no caution runs it", least: 60, says: "at 'do not run until checked' no caution speaks of running, cranking or driving the engine as allowed",
		check: stopped(func(s *subject, k *tally) {
			for _, c := range s.out.Cautions {
				k.saw()
				if said := finds(forbids.ReplaceAllString(c, ""), runsIt); said != "" {
					k.fail("a caution says %q: %q", said, c)
				}
			}
		})},
	{name: "S2 S3 no oil where it harms or tells nothing", least: 500, says: "no oil is asked for in a diesel or what may be one, a two-stroke, a rotary, a flat engine, or under 125 cc a cylinder",
		check: noOil},
	{name: "S3 dose", least: 40, says: "the dose of oil follows from the engine: about 1 ml for 100 cc of one cylinder, at most a tenth of the chamber; without a displacement the rule stands there and no dose",
		check: oilDose},
	{name: "S4 liquid first", least: 12, says: "where liquid may be in a cylinder it comes before 'seals well', carbon and guides, and the starter is not used",
		check: liquidFirst},
	{name: "S4 turning by hand ends nothing", least: 20, says: "turning by hand never ends with 'testing can go on'",
		check: func(s *subject, k *tally) {
			for _, p := range s.out.proposals() {
				if p.Name != "turn-by-hand" {
					continue
				}
				k.saw()
				for _, r := range p.results() {
					if testingGoesOn.MatchString(r.Then) {
						k.fail("%s: %q", p.at, r.Then)
					}
				}
			}
		}},
	{name: "S5 pinching", least: 150, says: "a line is pinched only in a return system",
		check: func(s *subject, k *tally) {
			never := s.diesel() || slices.Contains([]string{"port, no return", "direct, low side", "diesel, lift pump"}, s.system())
			if !never {
				return
			}
			k.saw()
			for name, at := range s.out.proposed() {
				if pinchingChecks[name] {
					k.fail("%s proposes %s on %q, fuel %q", at, name, s.system(), s.fuel())
				}
			}
			for _, a := range s.out.asked() {
				if c := finds(a.text, pinchWords); c != "" && !strings.Contains(c, "purge") {
					k.fail("%s says %q on %q, fuel %q", a.at, c, s.system(), s.fuel())
				}
			}
		}},
	{name: "S6 hybrid", least: 60, says: "a hybrid has the caution on high voltage and starting by itself, and defers to qualified people",
		check: func(s *subject, k *tally) {
			if !readerKnows("engine: {layout: inline-4, hybrid: yes}\ncompression: {unit: psi, dry: [150, 150, 150, 150]}\n") {
				k.notThere("engine.hybrid")
				return
			}
			text := strings.ToLower(strings.Join(s.out.Cautions, " "))
			if s.tree.text("engine", "hybrid") != "yes" {
				if strings.Contains(text, "high voltage") || strings.Contains(text, "high-voltage") {
					k.fail("no hybrid, yet: %s", text)
				}
				return
			}
			k.saw()
			for _, want := range hybridWords {
				if !want.MatchString(text) {
					k.fail("the cautions lack %s: %s", want, text)
				}
			}
		}},
	{name: "S7 a live magneto", least: 5, says: "where a magneto may fire with its switch off the sheet warns of the propeller, and no check moves it with the wires on the plugs", check: liveMagneto},
	{name: "S7 cautions and checks agree", least: 1500, says: "no caution is contradicted by a check",
		check: cautionsAgree},
}

var hybridWords = []*regexp.Regexp{regexp.MustCompile(`high[- ]voltage`), regexp.MustCompile(`by itself|on its own|self-start`), regexp.MustCompile(`qualified|trained|licensed`)}

func noOil(s *subject, k *tally) {
	what := s.oilTells()
	if what == "" {
		return
	}
	k.saw()
	for _, name := range []string{"wet-test", "repeat-wet"} {
		if at, is := s.out.proposed()[name]; is {
			k.fail("%s proposes %s on %s", at, name, what)
		}
	}
	for _, a := range s.out.asked() {
		if c := finds(a.text, oilWords); c != "" && !oilRemoval.MatchString(c) {
			k.fail("%s says %q of %s", a.at, c, what)
		}
	}
}

var (
	dosePattern = regexp.MustCompile(`(\d+(?:\.\d+)?)(?:\s*(?:to|-|–)\s*(\d+(?:\.\d+)?))?\s*(?:ml|cc)\b`)
	sentenceEnd = regexp.MustCompile(`[.;:](?:\s|$)`)
	doseRule    = regexp.MustCompile(`(?i)1\s*(ml|cc) (of oil )?(per|for (each|every)?) ?100\s*(cc|ml|cm3)`)
	notADose    = regexp.MustCompile(`(?i)chamber|minute|30 s|delivers|fuel|displac|a cylinder of|used|went in`)
)

// oilDose looks at every dose of oil that a sheet asks for, in remarks too.
func oilDose(s *subject, k *tally) {
	cc := s.ccPerCylinder()
	texts := s.out.asked()
	for _, n := range s.out.Notices {
		texts = append(texts, sentence{"notice " + n.Rule, n.Says})
	}
	for _, a := range texts {
		oils := strings.Contains(strings.ToLower(a.text), "oil") || strings.Contains(a.text, "wet") || strings.Contains(a.text, "dose")
		if !oils || !dosePattern.MatchString(a.text) && finds(a.text, oilWords) == "" {
			continue
		}
		hasRule := doseRule.MatchString(a.text)
		plain := doseRule.ReplaceAllString(a.text, "")
		_, check, _ := strings.Cut(a.at, ": ") // the rule before it may well be called after a wet test
		asks := strings.Contains(check, "wet") && !strings.Contains(a.at, "outcome")
		if asks {
			k.saw()
			if !hasRule && !dosePattern.MatchString(plain) {
				k.fail("%s asks for oil without a dose: %q", a.at, a.text)
			}
		}
		for _, clause := range sentenceEnd.Split(plain, -1) {
			m := dosePattern.FindStringSubmatch(clause)
			if m == nil || notADose.MatchString(clause) || strings.Contains(clause, s.tree.text("compression", "oil")) && s.tree.has("compression", "oil") && !asks {
				continue
			}
			if cc == 0 {
				k.fail("%s has a dose without a displacement: %q", a.at, clause)
				continue
			}
			for _, number := range m[1:] {
				ml, err := strconv.ParseFloat(number, 64)
				if err != nil {
					continue
				}
				if ml < 0.55*cc/100 || ml > 1.5*cc/100 {
					k.fail("%s asks for %s ml in %.0f cc a cylinder", a.at, number, cc)
				}
				if r := s.ratio(); r > 1 && ml > cc/(r-1)/10+0.5 {
					k.fail("%s asks for %s ml, more than a tenth of the chamber of %.0f ml", a.at, number, cc/(r-1))
				}
			}
		}
	}
}

var (
	liquidSeen = regexp.MustCompile(`(?i)(coolant|water|fuel|oil|liquid) standing|full of|liquid`)
	wetLooks   = set("oil-wet fuel-wet coolant")
	liquidText = regexp.MustCompile(`(?i)\bliquid|coolant, fuel or oil|(fuel|oil) (lying )?in the (bore|cylinder)|coolant (seems|in|gets)|water or (fuel|oil)|hydraulic`)
	reassuring = regexp.MustCompile(`(?i)seals? (well|evenly)|carbon|guides?\b|deposits`)
)

// lowest of a radial engine are its lower cylinders, where oil gathers.
func (s *subject) lower() []string {
	return map[string][]string{"radial-3": {"2", "3"}, "radial-5": {"3", "4"}, "radial-7": {"4", "5"}, "radial-9": {"5", "6"}}[s.layout()]
}

// mayHoldLiquid are the cylinders that may hold liquid, with the reason.
func (s *subject) mayHoldLiquid() map[string]string {
	why := map[string]string{}
	dry := s.dry()
	for _, c := range s.out.Compression.Cylinders {
		if c.Kind == "at least" { // it may read as high as any
			dry[c.Cylinder] = math.Inf(1)
		}
	}
	for _, name := range s.names() {
		v, read := dry[name]
		highest, others := 0.0, 0
		for other, p := range dry {
			if other != name {
				highest, others = max(highest, p), others+1
			}
		}
		// Beside others that hardly have pressure it is no more than the sound one.
		high := read && others > 1 && v > 1.1*highest && highest > v/2 && v > 60
		switch {
		case high && wetLooks[s.look(name)]:
			why[name] = "it reads well above the others and its plug is " + s.look(name)
		case high && (s.complains("coolant loss") || s.tree.text("coolant-gas-test") == "positive"):
			why[name] = "it reads well above the others and coolant is lost"
		case slices.Contains(s.lower(), name) && s.look(name) == "oil-wet":
			why[name] = "it is a lower cylinder of a radial engine and oily"
		case liquidSeen.MatchString(s.tree.text("borescope", name)):
			why[name] = "liquid was seen in it"
		}
	}
	return why
}

func liquidFirst(s *subject, k *tally) {
	for name, why := range s.mayHoldLiquid() {
		k.saw()
		// Places count through all stories, in their order.
		liquid, reassured, before, by := -1, -1, 0, ""
		for _, st := range s.out.Stories {
			if slices.Contains(st.Cylinders, name) && st.For[0] == "liquid-in-cylinder" && st.Urgency == "no action" { // it was turned since, and is drained by hand before each start
				liquid, reassured = 0, -1
				break
			}
			text := strings.Join(append([]string{st.Says, st.Because}, st.Causes...), " ")
			about := len(st.Cylinders) == 0 || slices.Contains(st.Cylinders, name)
			if at := liquidText.FindStringIndex(text); about && liquid < 0 && at != nil {
				liquid = before + at[0]
			}
			// Carbon that holds a valve open makes no reading high.
			if at := reassuring.FindStringIndex(strings.ReplaceAll(text, "carbon on the seat", strings.Repeat("-", len("carbon on the seat")))); about && reassured < 0 && at != nil {
				reassured, by = before+at[0], st.Says
			}
			before += len(text)
		}
		switch {
		case liquid < 0:
			k.fail("nothing is said of liquid in %s, though %s", name, why)
		case reassured >= 0 && reassured < liquid:
			k.fail("%q comes before liquid in %s, though %s", by, name, why)
		}
		for check, at := range s.out.proposed() {
			if starterChecks[check] {
				k.fail("%s proposes %s, though %s: %s", at, check, name, why)
			}
		}
	}
}

// What cautions speak against, in the words of a check.
var (
	startingWords = regexp.MustCompile(`(?i)\b(crank|compression test|run the engine|test the compression|engine running)\b`)
	hotCapWords   = regexp.MustCompile(`(?i)open the (radiator )?cap of (the|a) (hot|warm)|(hot|warm) cooling system`)
	openLineWords = regexp.MustCompile(`(?i)open the high-pressure|crack (open )?(the|each) injector|loosen (the|each) injector (line|pipe)`)
)

// cautionsAgree holds each caution against what the checks ask for.
func cautionsAgree(s *subject, k *tally) {
	for _, c := range s.out.Cautions {
		var against *regexp.Regexp
		switch lower := strings.ToLower(c); {
		case strings.Contains(lower, "not run") || strings.Contains(lower, "not crank"):
			against = runningWords
		case strings.Contains(lower, "turn") && strings.Contains(lower, "by hand first"):
			against = startingWords
		case strings.Contains(lower, "oil into a diesel") || strings.Contains(lower, "no oil"):
			against = oilWords
		case strings.Contains(lower, "hot coolant"):
			against = hotCapWords
		case strings.Contains(lower, "never opened") || strings.Contains(lower, "never open;"):
			against = openLineWords
		default:
			continue
		}
		k.saw()
		for _, a := range s.out.asked() {
			if strings.Contains(a.at, "outcome") {
				continue
			}
			if clause := finds(a.text, against); clause != "" && !strings.Contains(strings.ToLower(a.text), "by hand") {
				k.fail("the caution %q and %s: %q", c, a.at, clause)
			}
		}
	}
}

// stopped is a law of sheets that stop the engine.
func stopped(check func(*subject, *tally)) func(*subject, *tally) {
	return func(s *subject, k *tally) {
		if s.out.Verdict.Urgency == doNotRun {
			check(s, k)
		}
	}
}

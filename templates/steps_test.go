package templates_test

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/cause"
	"gaugesheet/diag/engine"
	"gaugesheet/diag/known"
	"gaugesheet/diag/rule/sample"
	"gaugesheet/templates"
)

func TestStepsHaveTheOutcomesOfTheirChecks(t *testing.T) {
	c := words(t)
	for _, k := range cause.Checks {
		var want []string
		for _, o := range k.Outcomes {
			want = append(want, o.Name)
		}
		slices.Sort(want)
		have, err := c.OutcomesOf(k.Name)
		if err != nil || !slices.Equal(have, want) {
			t.Errorf("%s: words for the outcomes %q, the check has %q (%v)", k.Name, have, want, err)
		}
	}
	for _, name := range c.Keys("steps") {
		if cause.CheckNamed(name) == nil {
			t.Errorf("words for %q, which is no check", name)
		}
	}
}

// texts are all texts of a check as it is said.
func texts(s templates.SaidCheck) []string {
	all := []string{s.Name, s.For, s.Do, s.Effort}
	for _, o := range s.Outcomes {
		all = append(all, o.If, o.Then)
	}
	return all
}

// factCombinations are all that the facts of a check may be, those left out
// that exclude each other. Facts that no sentence asks for beside each other
// change together.
func factCombinations(minutes int) []diag.Facts {
	flags := [][]string{{"all"}, {"several"}, {"diesel"}, {"rotary"}, {"twoStroke"}, {"byHand", "starts"}, {"oil"}, {"airCooled", "hotValve", "short", "looked", "moved", "lash", "oiled", "injected", "carburetted", "afterOil", "alike", "leftOpen", "oilSmells", "drivenPump", "oilRead", "blown", "aircraft", "valveAir", "coolantIn", "gasInside", "braked", "wetExhaust", "distributor", "prop", "methodOpen", "hose", "itTracks", "wide", "hangs", "lies", "rope", "rawWater", "noGas", "gasFound", "met", "cold", "oilMixed", "meterOpen", "pcv", "levelRead", "oilShort", "ownGauge", "sinks", "wasSet", "heldOpen", "reach", "seized", "ails", "stood", "plugsIn", "choked", "unheld", "allLow", "scored", "opened", "watered", "driveTold", "cutOut", "regenerates", "resists", "mateFires", "ownCarb", "governed", "noSmoke", "tight", "turbo", "roads", "behindCat", "baseRight", "coolsRight", "rangeRight"}, {"direct"}}
	var list []diag.Facts
	for bits := range 1 << len(flags) {
		f := diag.Facts{"minutes": minutes}
		for i, names := range flags {
			for _, name := range names {
				f[name] = bits>>i&1 == 1
			}
		}
		if f["coded"] = diag.Names(nil); f["several"] == true {
			f["coded"] = diag.Names{"2"}
		}
		is := func(name string) bool { return f[name].(bool) }
		if is("rotary") && (is("twoStroke") || is("diesel")) || is("diesel") && is("oil") || is("all") && !is("several") {
			continue
		}
		list = append(list, f)
	}
	return list
}

func TestEveryStepCanBeSaidOfEveryEngine(t *testing.T) {
	if testing.Short() {
		t.Skip("takes seconds")
	}
	c := words(t)
	sets := map[bool][][]string{false: {nil, {"1"}, {"2", "3"}}, true: {{"1"}, {"1", "2", "3", "4"}}}
	for _, k := range cause.Checks {
		check := diag.Check{Key: k.Name, Minutes: k.Minutes}
		for _, o := range k.Outcomes {
			check.Outcomes = append(check.Outcomes, o.Name)
		}
		for i, facts := range factCombinations(k.Minutes) {
			for _, names := range sets[facts["all"].(bool)] {
				check.Cylinders, check.Facts = names, facts
				facts["tracked"] = diag.Names{"4"}[:i/2%2]
				facts["lowOfTight"] = diag.Names{"3"}[:i/2%2]
				facts["thin"] = diag.Names{"3"}[:i/2%2]
				facts["rest"] = diag.Names{"2", "3"}[:1+i%2]
				facts["beside"] = diag.Names{"2", "3"}[:i%3]
				facts["Cylinders"], facts["dose"], facts["worse"], facts["chokedBank"] = diag.Names(names), []string{"", "5\u00a0ml"}[i%2], []string{"", "left"}[i/2%2], []string{"", "bank 2"}[i%2]
				facts["fault"], facts["found"] = []string{"", "exhaust", "fuel-filter", "coolant-flow", "intake-deposits"}[i%5], diag.Names{"fan stands still"}[:i/2%2]
				for reader, a := range audiences {
					said, err := c.Check(check, a)
					if err != nil {
						t.Fatalf("%s, %v, %s: %v", k.Name, facts, reader, err)
					}
					if problem := illFormed(said); problem != "" {
						t.Fatalf("%s, %v, %s: %s", k.Name, facts, reader, problem)
					}
				}
			}
		}
	}
}

var badText = regexp.MustCompile(`<no value>|NaN|%!|  | [,.;:]|\{\{`)

// illFormed gives what is wrong with the form of a check that is said.
func illFormed(s templates.SaidCheck) string {
	begins := map[string]bool{}
	for _, o := range s.Outcomes {
		switch {
		case begins[o.If]:
			return fmt.Sprintf("two outcomes begin with %q", o.If)
		case strings.Contains(o.If+o.Then, ":") || strings.HasSuffix(o.If, ".") || strings.HasSuffix(o.Then, "."):
			return fmt.Sprintf("an outcome is a result and its meaning without a full stop, found %q and %q", o.If, o.Then)
		case o.If[:1] != strings.ToUpper(o.If[:1]) || o.Then[:1] != strings.ToLower(o.Then[:1]):
			return fmt.Sprintf("%q: %q do not read as one sentence", o.If, o.Then)
		case strings.HasPrefix(o.If, "If "):
			return fmt.Sprintf("%q begins with 'If'", o.If)
		}
		begins[o.If] = true
	}
	for _, text := range texts(s) {
		if text == "" || badText.MatchString(text) || strings.TrimSpace(text) != text {
			return fmt.Sprintf("badly said: %q", text)
		}
	}
	switch {
	case !strings.HasSuffix(s.Do, ".") && !strings.HasSuffix(s.Do, "?") || strings.HasSuffix(s.Name, ".") || strings.HasSuffix(s.For, "."):
		return fmt.Sprintf("what to do is a sentence, name and purpose are none: %q, %q, %q", s.Do, s.Name, s.For)
	case len([]rune(s.Name)) > 45 || len([]rune(s.Do)) > 330:
		return fmt.Sprintf("too long: %q, %q", s.Name, s.Do)
	case s.IfSo != s.Outcomes[0].Line() || s.IfNot != s.Outcomes[len(s.Outcomes)-1].Line():
		return fmt.Sprintf("the first and last outcomes are %q and %q", s.IfSo, s.IfNot)
	}
	return ""
}

// engines are kinds of engines on which the checks differ.
func engines() map[string]*diag.Test {
	four := []float64{150, 150, 95, 150}
	spec := func(change func(*diag.Spec)) sample.Change { return func(t *diag.Test) { change(&t.Spec) } }
	diesel := spec(func(s *diag.Spec) { s.Fuel = "diesel" })
	list := map[string]*diag.Test{
		"petrol":           sample.Dry("inline-4", four),
		"with its size":    sample.Dry("inline-4", four, spec(func(s *diag.Spec) { s.DisplacementML, s.Ratio = 2000, 9.5 })),
		"after oil":        sample.Dry("inline-4", four, func(t *diag.Test) { t.Compression.Wet["3"] = sample.Read(98) }),
		"fuel unknown":     sample.Dry("inline-4", four, spec(func(s *diag.Spec) { s.Fuel = "" })),
		"hydraulic":        sample.Dry("v8", []float64{150, 150, 95, 150, 150, 150, 150, 150}, spec(func(s *diag.Spec) { s.Lifters = "hydraulic" })),
		"flat, air-cooled": sample.Dry("flat-4", four, spec(func(s *diag.Spec) { s.Cooling = "air" })),
		"single":           sample.Dry("single", []float64{90}),
		"diesel":           sample.Dry("inline-4", []float64{400, 400, 250, 400}, diesel),
		"single diesel":    sample.Dry("single", []float64{250}, diesel),
		"two-stroke":       sample.Dry("inline-3", []float64{120, 70, 120}, spec(func(s *diag.Spec) { s.TwoStroke, s.Cooling = true, "air" })),
		"single two-stroke": sample.DryOf(engine.Spec{Layout: "single"}, []float64{70}, spec(func(s *diag.Spec) {
			s.TwoStroke, s.Fuel = true, "two-stroke mix"
		})),
		"rotary": sample.Faces([][3]float64{{6, 6, 6}, {8, 8, 8}}),
	}
	for _, system := range []string{known.PortReturn, known.Carburettor} {
		list["petrol, "+system] = sample.Dry("inline-4", four, func(t *diag.Test) { t.Fuel = &diag.FuelPressure{State: diag.Tested, System: system} })
	}
	return list
}

// enginesTried are all of these, and every third by name where time is short.
func enginesTried() map[string]*diag.Test {
	list := engines()
	if testing.Short() {
		for i, name := range slices.Sorted(maps.Keys(list)) {
			if i%6 > 0 {
				delete(list, name)
			}
		}
	}
	return list
}

// A wordLaw forbids words where something holds of the engine.
type wordLaw struct {
	name  string
	holds func(c *known.Case, k *cause.Check, at diag.Urgency) bool
	never *regexp.Regexp
}

var (
	wordLaws = []wordLaw{
		{"what may not be run is not run, cranked or warmed", func(_ *known.Case, _ *cause.Check, at diag.Urgency) bool { return at == diag.DoNotRun },
			regexp.MustCompile(`(?i)\b(starters?|crank(s|ed|ing)?|runs?|ran|running|start(s|ed|ing)?|warm(ed)?|idle|snap|drive (it|a)|rpm|throttle held open|switching off|switch off|test (it |all |these )?again|retest)\b`)},
		{"no oil where none may go in", func(c *known.Case, _ *cause.Check, _ diag.Urgency) bool {
			return !c.OilTells()
		}, regexp.MustCompile(`(?i)\b(ml|teaspoon)\b|\bput [^.;:]{0,40}\boil\b|\boil (it|the cylinders)\b|\bwet test\b`)},
		{"no valves where there are none", func(c *known.Case, _ *cause.Check, _ diag.Urgency) bool { return !c.HasValves() },
			regexp.MustCompile(`(?i)\b(valves?|camshaft|lash|seats?|lobe|lifter)\b`)},
		{"no coolant where air cools", func(c *known.Case, _ *cause.Check, _ diag.Urgency) bool { return c.AirCooled() }, regexp.MustCompile(`(?i)\b(coolant|radiator|cooling system|block test)\b`)},
		{"no spark plugs in a diesel", func(c *known.Case, _ *cause.Check, _ diag.Urgency) bool { return c.Spec.Diesel() },
			regexp.MustCompile(`(?i)\bspark|\bcoil\b|(^|[^w] )\bplugs? (out|hole)|\bthrottle\b`)},
		{"no second cylinder on a single", func(c *known.Case, _ *cause.Check, _ diag.Urgency) bool { return !c.Several() },
			regexp.MustCompile(`(?i)\b(the others?|(every|each) cylinder|all cylinders|good cylinder|good one|cylinder beside|cylinder 1|swapping two)\b`)},
		{"a rotary has no pistons", func(c *known.Case, _ *cause.Check, _ diag.Urgency) bool { return c.Rotary() },
			regexp.MustCompile(`(?i)\b(pistons?|rings?|head gasket|head joint|the head|cylinders?|top of its (compression )?stroke)\b`)},
		{"no lash where lifters are hydraulic", func(c *known.Case, _ *cause.Check, _ diag.Urgency) bool { return !c.LashCanBeSet() }, regexp.MustCompile(`(?i)\b(lash|clearance)\b`)},
		{"turning by hand is no leave to go on", func(_ *known.Case, k *cause.Check, _ diag.Urgency) bool { return k.Name == "turn-by-hand" },
			regexp.MustCompile(`(?i)testing (can|may) go on|may be (cranked|started)`)},
		{"only a soft rubber return is pinched", func(*known.Case, *cause.Check, diag.Urgency) bool { return true },
			regexp.MustCompile(`(?i)\b(pinch|clamp|squeeze)\w* (the |a )?(feed|line|fuel line|plastic|metal|purge)`)},
		{"no odd bones", func(*known.Case, *cause.Check, diag.Urgency) bool { return true },
			regexp.MustCompile(`(?i)\b(exchang\w*|membranes?|if so|if not|inlet|petrol|spanner|earth|sump|carburettor|colour|vapour|neighbour\w*|is followed up|can be followed)\b(?: up)?`)},
	}
	// allowed are valves that every engine has, and words of the trade that hold a forbidden one.
	allowed = strings.NewReplacer("can be followed up", "", "purge valve", "purge", "check valve", "check", "glow-plug", "glow", "O-ring", "seal")
)

func TestStepsKeepTheLaws(t *testing.T) {
	c := words(t)

	for engineName, test := range enginesTried() {
		one := known.New(test)
		for i := range cause.Checks {
			k := &cause.Checks[i]
			for _, at := range []diag.Urgency{diag.ActSoon, diag.DoNotRun} {
				for _, names := range [][]string{nil, one.Engine.Names()[:1], one.Engine.Names()[len(one.Engine.Names())/2:], one.Engine.Names()} {
					if !k.Allowed(one, names, at) {
						continue
					}
					for reader, a := range audiences {
						said, err := c.Check(*k.Ask(one, names, at), a)
						if err != nil {
							t.Fatalf("%s, %s: %v", engineName, k.Name, err)
						}
						keepsLaws(t, fmt.Sprintf("%s, %s, %s, %v, %s", engineName, k.Name, at, names, reader), one, k, at, said)
					}
				}
			}
		}
	}
}

func keepsLaws(t *testing.T, where string, c *known.Case, k *cause.Check, at diag.Urgency, said templates.SaidCheck) {
	t.Helper()
	for _, law := range wordLaws {
		if !law.holds(c, k, at) {
			continue
		}
		for _, text := range texts(said) {
			if found := law.never.FindString(allowed.Replace(text)); found != "" {
				t.Errorf("%s: %s, yet %q says %q", where, law.name, text, found)
			}
		}
	}
	turns := k.Is(cause.Hand) && at == diag.DoNotRun || strings.HasPrefix(k.Name, "leak-down")
	if turns && !strings.Contains(said.Do, "by hand") {
		t.Errorf("%s: turns the engine and does not say by hand: %q", where, said.Do)
	}
	if k.Is(cause.Oils) {
		rule := strings.Contains(said.Do, "about 1 ml of oil for every 100 cc of one cylinder")
		if dosed := c.OilDose() > 0; dosed == rule || dosed && !strings.Contains(said.Do, "ml of oil") {
			t.Errorf("%s: the dose follows from the engine, and is the rule where its size is not known: %q", where, said.Do)
		}
	}
	if k.Name == "leak-down" && c.Has(known.NeedsWet) && !strings.Contains(said.Do, "hides a leak") {
		t.Errorf("%s: oil on the rings hides a leak, and it does not say so: %q", where, said.Do)
	}
}

func TestOutcomeWithoutWordsIsRefused(t *testing.T) {
	c := words(t)
	if _, err := c.Check(diag.Check{Key: "leak-down", Outcomes: []string{"no such outcome"}, Facts: diag.Facts{}}, templates.Customer); err == nil {
		t.Error("an outcome without words was said")
	}
}

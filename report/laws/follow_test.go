package laws_test

import (
	"math/rand/v2"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

var followLaws = []law{
	{name: "O4 follow it and it ends", least: 150, every: 3, says: "any outcome of the next check, entered into the job, leads to a cause or another check; never the same again, and at an end within six", check: follow},
	{name: "O4 every first outcome", least: 100, every: 5, says: "after no outcome of the next check is the same check asked for again", check: everyOutcome},
}

// mostSteps is how many checks may follow each other.
const mostSteps = 6

// follow goes one way at random through the checks that a job leads to.
func follow(s *subject, k *tally) {
	dice := rand.New(rand.NewPCG(s.seed, 41))
	var asked []string
	at := s
	for step := 0; ; step++ {
		c := at.out.Verdict.NextCheck
		if c == nil {
			if step > 0 {
				k.saw()
				endsInCause(at, k, asked)
			}
			return
		}
		if c.Name == "" {
			k.notThere("name of the next check")
			return
		}
		// The same test on other cylinders is another check, so the cylinders
		// belong to the name.
		name := strings.TrimSpace(c.Name + " " + strings.Join(c.Cylinders, ","))
		if slices.Contains(asked, name) {
			k.saw()
			k.fail("%s is asked for again after %q", name, asked)
			return
		}
		asked = append(asked, name)
		if len(asked) > mostSteps {
			k.saw()
			k.fail("no end after %q", asked)
			return
		}
		if len(c.Outcomes) == 0 {
			k.notThere("outcomes of the next check")
			return
		}
		r := c.Outcomes[dice.IntN(len(c.Outcomes))]
		t := enter(at, c, r)
		other := at.vary(t)
		if other == nil {
			k.saw()
			_, err := subjectOf(s.seed, t)
			k.fail("the outcome %q of %s cannot be entered: %v", r.Name+" "+r.If, name, err)
			return
		}
		at = other
	}
}

// endsInCause: where nothing more is asked for, the sheet says what it points
// to, or asks for nothing at all.
func endsInCause(s *subject, k *tally, asked []string) {
	if s.out.Verdict.Urgency == noAction {
		return
	}
	for _, one := range s.out.Stories {
		if len(one.CauseNames) > 0 {
			return
		}
	}
	for _, f := range s.out.Findings {
		if len(f.Causes) > 0 || f.Rule == "tests-declined" { // what was refused is not asked for, and is not judged
			return
		}
	}
	k.fail("after %q the sheet is at %q, %q, without a cause and without a check", asked, s.out.Verdict.Urgency, s.out.Verdict.Sentence)
}

func everyOutcome(s *subject, k *tally) {
	c := s.out.Verdict.NextCheck
	if c == nil || c.Name == "" {
		return
	}
	for _, r := range c.Outcomes {
		other := s.vary(enter(s, c, r))
		if other == nil {
			k.fail("the outcome %q of %s cannot be entered", r.Name+" "+r.If, c.Name)
			continue
		}
		k.saw()
		if n := other.out.Verdict.NextCheck; n != nil && n.Name == c.Name && slices.Equal(n.Cylinders, c.Cylinders) {
			k.fail("%s on %v is asked for again after %q", c.Name, c.Cylinders, r.If+" "+r.Then)
		}
	}
}

// enter writes an outcome into a copy of the job: as the readings that would
// show it, where the job file has a place for them, else under the work done,
// by the names of the check and the outcome.
func enter(s *subject, c *nextCheck, r result) *tree {
	t := s.tree.clone()
	cylinders := c.Cylinders
	if len(cylinders) == 0 {
		cylinders = s.names()
	}
	entered := false
	switch c.Name {
	case "leak-down", "leak-down-pair", "leak-down-again":
		entered = enterLeakage(t, cylinders, r.Name)
		if c.Name == "leak-down-again" {
			t.add([]string{"vehicle", "work-done"}, c.Name+" done: "+r.Name)
			entered = true
		}
	case "leak-place":
		entered = enterPlace(t, cylinders, r.Name)
	case "wet-test", "repeat-wet":
		entered = enterWet(s, t, cylinders, r.Name)
		if c.Name == "repeat-wet" { // with the dose that the check names, and as a repeat
			t.drop("compression", "oil")
			t.add([]string{"vehicle", "work-done"}, c.Name+" done: "+r.Name)
			entered = true
		}
	case "coolant-gas-test":
		t.set(map[string]string{"none": "negative", "gas": "positive"}[r.Name], "coolant-gas-test")
		entered = true
	case "borescope":
		for _, name := range cylinders {
			t.set(clean(r.If), "borescope", name)
		}
		entered = true
	case "fuel-volume":
		setFuel(t, "volume", map[bool]string{true: "600 ml in 30 s", false: "150 ml in 30 s"}[r.Name == "enough"])
		entered = true
	case "hose-for-fuel":
		setFuel(t, "fuel-in-hose", map[bool]string{true: "no", false: "yes"}[r.Name == "dry"])
		entered = true
	case "compression-test", "complete-set":
		entered = enterCompression(s, t, r.Name)
	}
	if !entered {
		t.add([]string{"vehicle", "work-done"}, c.Name+" done: "+r.Name)
	}
	return t
}

// setFuel writes a fuel reading, into every circuit where there are several.
func setFuel(t *tree, key, value string) {
	if t.sub("fuel-pressure") == nil {
		t.drop("fuel-pressure")
	}
	circuits := t.sub("fuel-pressure", "circuits")
	if circuits == nil {
		t.set(value, "fuel-pressure", key)
		return
	}
	for _, name := range circuits.keys {
		t.set(value, "fuel-pressure", "circuits", name, key)
	}
}

var noWord = regexp.MustCompile(`[^A-Za-z0-9 ,.-]+`)

// clean leaves of a text what cannot be taken for YAML.
func clean(text string) string {
	text = noWord.ReplaceAllString(text, " ")
	return strings.TrimSpace(text[:min(len(text), 60)])
}

// enterLeakage writes where the air goes, a third of it or next to none.
func enterLeakage(t *tree, cylinders []string, outcome string) bool {
	at := map[string]string{"exhaust": "exhaust", "exhaust port": "exhaust", "inlet": "inlet", "crankcase": "crankcase", "coolant": "coolant",
		"neighbour": "neighbour", "air comes across": "neighbour", "tight": "crankcase", "loses less": "crankcase"}[outcome]
	if at == "" || t.has("leakage", "loss") {
		return false
	}
	loss := "35 %"
	if outcome == "tight" || outcome == "loses less" {
		loss = "6 %"
	}
	if t.sub("leakage") == nil {
		t.drop("leakage")
	}
	for _, name := range cylinders {
		one := newTree()
		one.put("loss", loss)
		one.put("at", anys([]string{at}))
		t.set(one, "leakage", "dry", name)
	}
	return true
}

// enterPlace writes where the air goes beside the losses that were read; false where
// a loss is no figure with a place for that.
func enterPlace(t *tree, cylinders []string, outcome string) bool {
	at := map[string]string{"exhaust port": "exhaust"}[outcome]
	if at == "" {
		at = outcome
	}
	for _, name := range cylinders {
		if !t.has("leakage", "dry", name, "loss") {
			return false
		}
	}
	for _, name := range cylinders {
		t.set(anys([]string{at}), "leakage", "dry", name, "at")
	}
	return true
}

// enterWet writes readings after oil: risen by a third, or hardly, with a
// control that hardly rises. It gives false where there is no figure to start
// from.
func enterWet(s *subject, t *tree, cylinders []string, outcome string) bool {
	rise := map[string]float64{"rises": 1.33, "hardly rises": 1.02}[outcome]
	if rise == 0 {
		return false
	}
	put := func(name string, by float64) bool {
		text := s.tree.text("compression", "dry", name)
		v, err := strconv.ParseFloat(text, 64)
		if err != nil || v == 0 {
			return false
		}
		_, after, _ := strings.Cut(text, ".")
		t.set(strconv.FormatFloat(v*by, 'f', len(after), 64), "compression", "wet", name)
		return true
	}
	all := true
	for _, name := range cylinders {
		all = put(name, rise) && all
	}
	for _, name := range s.names() {
		if !slices.Contains(cylinders, name) && s.grade(name) == "even" && put(name, 1.02) {
			break
		}
	}
	return all
}

// enterCompression fills the cylinders that were not read: with readings like
// the highest, or where they stand apart or low with half of that.
func enterCompression(s *subject, t *tree, outcome string) bool {
	if s.rotary() {
		return false
	}
	value, unit := 150.0, "psi"
	if s.diesel() {
		value = 400
	}
	if h := s.out.Compression.Highest; h != nil && *h > 0 {
		value, unit = *h, s.out.Compression.Unit
	}
	if t.sub("compression") == nil {
		t.drop("compression")
	}
	if !t.has("compression", "unit") {
		t.set(unit, "compression", "unit")
	}
	if t.sub("compression", "dry") == nil {
		t.set(newTree(), "compression", "dry")
	}
	first := true
	for _, name := range s.names() {
		text := t.text("compression", "dry", name)
		if !t.has("compression", "dry", name) || strings.Contains(text, "test") || strings.HasPrefix(text, "declined") || text == "not applicable" {
			read := value
			if outcome == "low" || outcome == "apart" && first { // one stands apart
				read, first = value/2, false
			}
			t.set(strconv.FormatFloat(read, 'g', 4, 64)+" "+unit, "compression", "dry", name)
		}
	}
	return true
}

package laws_test

import (
	"fmt"
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
		results := c.results()
		r := results[dice.IntN(len(results))]
		asked[len(asked)-1] = name
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
		if len(f.Causes) > 0 {
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
	for _, r := range c.results() {
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
// show it, where the job file has a place for them, else in words under the
// work done.
func enter(s *subject, c *nextCheck, r result) *tree {
	t := s.tree.clone()
	cylinders := c.Cylinders
	if len(cylinders) == 0 {
		cylinders = s.names()
	}
	words := strings.ToLower(r.Name + " " + r.If)
	if len(c.Outcomes) == 0 {
		words = strings.ToLower(r.Then) // the two outcomes of a check without names
	}
	switch c.Name {
	case "leak-down", "leak-down-pair", "leak-down-again":
		enterLeakage(s, t, cylinders, words)
	case "wet-test", "repeat-wet":
		enterWet(s, t, cylinders, words)
	case "coolant-gas-test":
		t.set(map[bool]string{true: "negative", false: "positive"}[negative.MatchString(words)], "coolant-gas-test")
	case "borescope":
		for _, name := range cylinders {
			t.set(map[bool]string{true: "nothing to be seen, clean wall and seats", false: "scored wall"}[negative.MatchString(words)], "borescope", name)
		}
	case "fuel-volume":
		setFuel(t, "volume", map[bool]string{true: "600 ml in 30 s", false: "150 ml in 30 s"}[strings.Contains(words, "enough")])
	case "hose-for-fuel":
		setFuel(t, "fuel-in-hose", map[bool]string{true: "no", false: "yes"}[strings.Contains(words, "dry") || negative.MatchString(words)])
	}
	t.add([]string{"vehicle", "work-done"}, c.Name+" done: "+clean(r.Name+" "+r.If+" "+r.Then))
	if c.Name == "compression-test" || c.Name == "complete-set" {
		enterCompression(s, t)
	}
	if _, is := t.get("fuel-pressure").(string); is && c.Name == "fuel-pressure-test" {
		t.drop("fuel-pressure")
	}
	return t
}

// setFuel writes a fuel reading, into every circuit where there are several.
func setFuel(t *tree, key, value string) {
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

var negative = regexp.MustCompile(`(?i)\b(none|no|not|nothing|negative|hardly|clean|tight)\b`)

// clean leaves of a text what cannot be taken for YAML.
func clean(text string) string {
	text = noWord.ReplaceAllString(text, " ")
	return strings.TrimSpace(text[:min(len(text), 60)])
}

func enterLeakage(s *subject, t *tree, cylinders []string, words string) {
	loss, at := "35 %", ""
	for _, place := range []struct{ word, at string }{{"hardly", ""}, {"little", ""}, {"tight", ""}, {"seals", ""}, {"no air there", "exhaust"}, {"exhaust", "exhaust"}, {"inlet", "inlet"}, {"intake", "inlet"},
		{"filler", "crankcase"}, {"crankcase", "crankcase"}, {"rings", "crankcase"}, {"coolant", "coolant"}, {"bubbles", "coolant"}, {"beside", "neighbour"}, {"neighbour", "neighbour"}, {"comes out there", "neighbour"}, {"outside", "outside"}, {"thread", "outside"}} {
		if strings.Contains(words, place.word) {
			at = place.at
			break
		}
	}
	if at == "" {
		loss, at = "6 %", "crankcase"
	}
	if _, is := t.get("leakage").(string); is {
		t.drop("leakage")
	}
	if t.has("leakage", "loss") {
		return
	}
	for _, name := range cylinders {
		one := newTree()
		one.put("loss", loss)
		one.put("at", anys([]string{at}))
		t.set(one, "leakage", "dry", name)
	}
}

// enterWet writes readings after oil: risen by a third, or hardly, with a
// control that hardly rises.
func enterWet(s *subject, t *tree, cylinders []string, words string) {
	rise := 1.33
	if negative.MatchString(words) || strings.Contains(words, "little") {
		rise = 1.02
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
	for _, name := range cylinders {
		put(name, rise)
	}
	for _, name := range s.names() {
		if !slices.Contains(cylinders, name) && s.grade(name) == "even" && put(name, 1.02) {
			return
		}
	}
}

// enterCompression fills the cylinders that were not read with readings like
// the highest, or a set of even ones.
func enterCompression(s *subject, t *tree) {
	if s.rotary() {
		return
	}
	value, unit := "150", "psi"
	if s.diesel() {
		value = "400"
	}
	if h := s.out.Compression.Highest; h != nil {
		value, unit = fmt.Sprint(*h), s.out.Compression.Unit
	}
	if _, is := t.get("compression").(string); is {
		t.drop("compression")
	}
	if !t.has("compression", "unit") {
		t.set(unit, "compression", "unit")
	}
	for _, name := range s.names() {
		if text := t.text("compression", "dry", name); text == "" && !t.has("compression", "dry", name) || strings.Contains(text, "test") || strings.HasPrefix(text, "declined") {
			t.set(value, "compression", "dry", name)
		}
	}
}

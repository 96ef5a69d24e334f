package laws_test

import (
	"slices"
	"strings"
)

// kinds counts the independent kinds of test that the job has of these
// cylinders, or of the whole engine where none are named. The first stroke and
// repeats are of the same kind as the reading they belong to, and a complaint
// is no test.
func (s *subject) kinds(cylinders []string) int {
	n := 0
	of := func(path ...string) bool {
		m := s.tree.sub(path...)
		if m == nil {
			return false
		}
		return len(cylinders) == 0 || overlap(m.keys, cylinders) || m.has("all") || m.has("others")
	}
	for _, is := range []bool{
		of("compression", "dry") || s.rotary() && s.tree.has("rotors", "faces"), of("compression", "wet") || s.tree.has("compression", "wet-in-words"), of("compression", "running"),
		of("leakage", "dry") || of("leakage", "loss"), of("plugs", "looks"), of("borescope"), s.tree.has("coolant-gas-test"), s.tree.has("fuel-pressure"),
		s.tree.has("vehicle", "codes"), s.tree.has("smoke"), s.tree.has("findings"), s.tree.has("earlier"), s.tree.has("before"),
	} {
		if is {
			n++
		}
	}
	return n
}

func strongIsEarned(s *subject, k *tally) {
	judge := func(at, confidence string, cylinders, against []string) {
		if confidence != "strong" {
			return
		}
		k.saw()
		if len(against) > 0 {
			k.fail("%s of %v is strong, and against it: %q", at, cylinders, against)
		}
		if s.kinds(cylinders) < 2 {
			k.fail("%s of %v is strong on one kind of test", at, cylinders)
		}
	}
	for _, f := range s.out.Findings {
		judge(f.Rule, f.Confidence, f.Cylinders, f.Against)
	}
	for _, one := range s.out.Stories {
		judge("the story about "+one.About, one.Confidence, one.Cylinders, one.Against)
	}
}

// family is the kind of test that a rule goes by.
func family(rule string) string {
	switch {
	case plugRule.MatchString(rule):
		return "plugs"
	case leakRule.MatchString(rule):
		return "leakage"
	case fuelRule.MatchString(rule):
		return "fuel"
	case strings.HasPrefix(rule, "wet-"):
		return "wet"
	}
	return "compression"
}

func threeAgree(s *subject, k *tally) {
	if !s.out.told() {
		k.notThere("stories")
		return
	}
	for _, one := range s.out.Stories {
		if one.About != "cylinders" || len(one.Against) > 0 || len(one.CauseNames) == 0 {
			continue
		}
		kinds := map[string]bool{}
		for _, f := range s.out.Findings { // those that name the story's first cause
			if slices.Contains(one.For, f.Rule) && overlap(f.Cylinders, one.Cylinders) && firstOf(f.CauseNames) == one.CauseNames[0] && rank(f.Urgency) > 0 {
				kinds[family(f.Rule)] = true
			}
		}
		if len(kinds) < 3 || s.kinds(one.Cylinders) < 3 {
			continue
		}
		k.saw()
		if one.Confidence == "weak" {
			k.fail("%v agree on %s of %v, and that is weak", kinds, one.CauseNames[0], one.Cylinders)
		}
	}
}

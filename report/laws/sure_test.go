package laws_test

import (
	"fmt"
	"slices"
	"strconv"
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
	// Fuel in the regulator's hose is seen, and not read off the gauge.
	for _, is := range []bool{
		strings.Contains(fmt.Sprint(s.tree), "fuel-in-hose: yes"),
		of("compression", "dry") || s.rotary() && s.tree.has("rotors", "faces"), of("compression", "wet") || s.tree.has("compression", "wet-in-words"), of("compression", "running"),
		of("leakage", "dry") || of("leakage", "loss"), of("plugs", "looks"), of("borescope"), s.tree.has("coolant-gas-test"), s.tree.has("fuel-pressure"),
		s.tree.has("vehicle", "codes"), s.tree.has("smoke"), s.tree.has("findings"), s.tree.has("earlier"), s.tree.has("before"),
		of("balance", "drop") || of("balance", "speed"), of("valves", "inlet") || of("valves", "exhaust"), of("starting", "peaks"), of("injectors", "before") || of("injectors", "after"), of("diesel", "return", "cylinders"), s.tree.has("vacuum"), s.tree.has("crankcase"), s.tree.has("cooling"), s.tree.has("timing"), s.tree.has("back-pressure"), s.tree.has("oil-pressure"), s.tree.has("trims"), s.tree.has("exhaust-gas"), s.tree.has("magnetos"), of("heads"), s.tree.has("crankcase-hold"),
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

// threeAgree brings a wet test and a leak-down to a cylinder that is low by
// itself, both of which agree with what makes it low: no rise with oil and air
// at the exhaust, or a rise and air at the oil filler.
func threeAgree(s *subject, k *tally) {
	if !s.petrolFourStroke() || s.oilTells() != "" || s.spoilt() != "" || len(s.names()) < 4 || !exact(s.out.Compression) || s.tree.has("valves") || s.tree.has("before") { // a clearance of none explains the leak, and work that was done speaks against what it renewed
		return
	}
	var low, even []string
	dry := map[string]float64{} // as it was read, "97 psi" too
	for _, c := range s.out.Compression.Cylinders {
		if c.Dry != nil {
			dry[c.Cylinder] = *c.Dry
		}
		switch {
		case c.Dry == nil:
			return
		case c.Grade == "low" || c.Grade == "very low":
			low = append(low, c.Cylinder)
		case c.Grade == "even":
			even = append(even, c.Cylinder)
		}
	}
	if len(low) != 1 || len(even) < 3 {
		return
	}
	for _, fault := range []struct {
		cause, at string
		rise      float64
	}{{"exhaust-valve", "exhaust", 1.01}, {"rings", "crankcase", 1.35}} {
		t := s.tree.clone()
		for _, key := range []string{"plugs", "leakage", "borescope", "coolant-gas-test", "vacuum", "balance", "cooling"} {
			t.drop(key)
		}
		for _, key := range []string{"wet", "oil", "first"} {
			t.drop("compression", key)
		}
		for _, key := range []string{"codes", "stood"} {
			t.drop("vehicle", key)
		}
		t.drop("job", "complaints")
		t.drop("compression", "limits")
		for name, rise := range map[string]float64{low[0]: fault.rise, even[0]: 1.02} {
			t.set(strconv.FormatFloat(dry[name]*rise, 'f', 3, 64), "compression", "wet", name)
		}
		one := newTree()
		one.put("loss", "40 %")
		one.put("at", anys([]string{fault.at}))
		t.set(one, "leakage", "dry", low[0])
		other := s.vary(t)
		if other == nil {
			continue
		}
		if !other.out.told() {
			k.notThere("stories")
			return
		}
		k.saw()
		for _, one := range other.out.Stories {
			if slices.Contains(one.Cylinders, low[0]) && (one.Confidence == "weak" || firstOf(one.CauseNames) != fault.cause) {
				k.fail("low, %s and a rise of %.0f %% with oil: the story about %v is %s, its causes %v", fault.at, 100*(fault.rise-1), one.Cylinders, one.Confidence, one.CauseNames)
			}
		}
	}
}

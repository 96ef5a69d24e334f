package laws_test

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
)

// Laws put to the test where chance seldom brings it: a job is changed so that
// the law applies, and then held against it.
var forcedLaws = []law{
	{name: "S1 made urgent", least: 300, every: 5, says: "S1 where a damaged plug, no pressure or liquid seen makes any job one that must not be run", check: madeUrgent},
	{name: "T1 any limit", least: 500, every: 7, says: "T1 for every kind of limit on every reading of a job, set so that it is outside", check: anyLimit},
	{name: "T8 any complaint", least: 300, every: 20, says: "every complaint put to any job is answered by name, and nothing reassures beside it", check: anyComplaint},
	{name: "T8 runs roughly", least: 100, says: "an engine that came in running roughly is never left with nothing to do", check: runsRoughly},
	{name: "T4 repeats", least: 60, every: 6, says: "a cylinder that is low, or has no pressure, by each of its repeats is never left at checking again", check: lowRepeats},
	{name: "T2 left open", least: 60, every: 6, says: "a reading whose repeats disagree, or that is only a bound, reassures of nothing, and repeats that are all past the limit are past it", check: leftOpen},
	{name: "T5 first bank", least: 60, every: 4, says: "the side that cylinder 1 is on changes no finding", check: otherBank},
	{name: "T2 made sound", least: 60, every: 10, says: "T2 where everything that was tested is sound", check: madeSound},
	{name: "T10 made low and tight", least: 60, every: 10, says: "T10 where all cylinders are low and lose no air", check: madeLow},
	{name: "S2 made a diesel", least: 60, every: 8, says: "S2 where the fuel of a job is diesel, or not said", check: madeDiesel},
}

// on holds a changed job against a law and says what was changed.
func (k *tally) on(other *subject, what string, check func(*subject, *tally)) {
	if other == nil {
		return
	}
	from := len(k.now)
	check(other, k)
	for i := from; i < len(k.now); i++ {
		k.now[i] = what + ": " + k.now[i]
	}
}

func madeUrgent(s *subject, k *tally) {
	name := s.names()[0]
	all := func(other *subject, k *tally) {
		for _, l := range safetyLaws {
			if strings.HasPrefix(l.name, "S1") || strings.HasPrefix(l.name, "S7") {
				l.check(other, k)
			}
		}
	}
	if !s.diesel() && s.tree.text("plugs") == "" && !s.tree.has("plugs", "looks", "all") {
		k.on(s.vary(s.tree.with("damaged", "plugs", "looks", name)), "plug of "+name+" damaged", all)
	}
	if s.tree.has("compression", "dry", name) {
		k.on(s.vary(s.tree.with("0", "compression", "dry", name)), name+" at 0", all)
	}
	if s.tree.text("borescope", name) == "" && !s.rotary() {
		k.on(s.vary(s.tree.with("coolant standing on the crown", "borescope", name)), "coolant seen in "+name, all)
	}
}

func anyLimit(s *subject, k *tally) {
	if dry, c := s.dry(), s.out.Compression; len(dry) > 1 && s.spoilt() == "" && c.Highest != nil && *c.Highest > 0 && exact(c) {
		unit := " " + c.Unit
		write := func(v float64) string { return strconv.FormatFloat(v, 'f', 3, 64) + unit }
		limits := map[string]string{"minimum": write(*c.Highest * 1.25)}
		if spread := *c.Difference / *c.Highest; spread > 0.06 {
			limits["spread"] = fmt.Sprintf("%.1f %% of highest", 50*spread)
			limits["lowest"] = fmt.Sprintf("%.1f %% of highest", 100-50*spread)
			limits["difference"] = write(*c.Difference / 2)
			limits["below-mean"] = fmt.Sprintf("%.2f %%", 8*spread)
			limits["from-mean"] = write(*c.Difference / 12)
		}
		for _, key := range slices.Sorted(maps.Keys(limits)) {
			value := limits[key]
			t := s.tree.clone()
			t.drop("compression", "limits")
			t.set(value, "compression", "limits", key)
			k.on(s.vary(t), "limit "+key+" "+value, outsideIsSaid)
		}
	}
	for _, r := range s.out.FuelPressure.Readings {
		if r.Circuit != "" || r.Value == nil || *r.Value < 2 {
			continue
		}
		for _, value := range []string{fmt.Sprintf("at least %.1f psi", *r.Value*1.5), fmt.Sprintf("at most %.1f psi", *r.Value*0.6)} {
			t := s.tree.clone()
			t.drop("fuel-pressure", "limits")
			t.set(value, "fuel-pressure", "limits", r.Name)
			k.on(s.vary(t), "limit "+r.Name+" "+value, outsideIsSaid)
		}
	}
	for _, c := range s.out.FuelPressure.Circuits {
		for _, h := range c.Hold {
			if c.Name == "" && h.Value != nil && h.Minutes != nil && *h.Value > 2 {
				value := fmt.Sprintf("at least %.1f psi after %g min", *h.Value*1.5, *h.Minutes)
				t := s.tree.clone()
				t.drop("fuel-pressure", "limits")
				t.set(value, "fuel-pressure", "limits", "hold")
				k.on(s.vary(t), "limit hold "+value, outsideIsSaid)
			}
		}
	}
	for _, c := range s.out.Leakage.Cylinders {
		if c.Loss != nil && *c.Loss > 6 && !strings.Contains(c.Entered, "over") {
			value := fmt.Sprintf("%.0f %%", *c.Loss/3)
			k.on(s.vary(s.tree.with(value, "leakage", "limit")), "leakage limit "+value, outsideIsSaid)
			return
		}
	}
}

// exact tells that every reading of the set is one.
func exact(c compression) bool {
	for _, one := range c.Cylinders {
		if one.Dry != nil && (one.Kind != "exact" || len(one.DryReadings) > 1) {
			return false
		}
	}
	return true
}

func anyComplaint(s *subject, k *tally) {
	for _, complaint := range slices.Sorted(maps.Keys(answers)) {
		if s.rotary() && complaint == "coolant loss" || s.tree.text("engine", "cooling") == "air" && complaint == "coolant loss" {
			continue
		}
		other := s.vary(s.tree.with([]string{complaint}, "job", "complaints"))
		k.on(other, "complaint "+complaint, complaintsAnswered)
		if other != nil && nothingWords.MatchString(other.reassures()) {
			k.fail("complaint %s: the verdict says %q", complaint, other.out.Verdict.Sentence+" "+other.out.Verdict.Advice)
		}
	}
}

func otherBank(s *subject, k *tally) {
	side := map[string]string{"left": "right", "right": "left"}[s.tree.text("engine", "first-bank")]
	if side == "" || s.tree.has("vehicle", "codes") { // a code names a bank, and so a side
		return
	}
	other := s.vary(s.tree.with(side, "engine", "first-bank"))
	if other == nil {
		return
	}
	k.saw()
	if x, y := rules(s.out, nil), rules(other.out, nil); !slices.Equal(x, y) || s.out.Verdict.Urgency != other.out.Verdict.Urgency {
		k.fail("with cylinder 1 on the %s the findings are %q, else %q", side, y, x)
	}
}

// madeDiesel makes a diesel of an engine that was none, its readings as high as
// a diesel's and one of them low, so that a test with oil is near at hand.
func madeDiesel(s *subject, k *tally) {
	if s.rotary() || s.twoStroke() || len(s.names()) < 2 || s.tree.text("compression") != "" {
		return
	}
	for _, fuel := range []string{"diesel", ""} {
		t := s.tree.clone()
		for _, key := range []string{"compression", "plugs", "fuel-pressure"} {
			t.drop(key)
		}
		t.drop("gauges")
		t.drop("engine", "compression-ratio")
		t.drop("engine", "fuel")
		if fuel != "" {
			t.set(fuel, "engine", "fuel")
		}
		t.set("psi", "compression", "unit")
		for i, name := range s.names() {
			t.set(fmt.Sprint(map[bool]int{true: 270, false: 400 + i}[i == 0]), "compression", "dry", name)
		}
		k.on(s.vary(t), "fuel '"+fuel+"', 400 psi", noOil)
	}
}

// readings makes an engine with pistons, four strokes and a spark of a job, with
// these readings in psi and nothing else told of it but what holds; nil of another.
func readings(s *subject, of func(i int) float64, with map[string]string) *subject {
	if s.rotary() || s.twoStroke() || s.diesel() || len(s.names()) < 2 || s.tree.text("compression") != "" {
		return nil
	}
	t := s.tree.clone()
	for _, key := range []string{"compression", "leakage", "plugs", "fuel-pressure", "gauges", "borescope", "smoke", "vehicle", "findings", "coolant-gas-test", "before", "not-tested", "declined", "conditions"} {
		t.drop(key)
	}
	for _, key := range []string{"complaints", "onset", "oil-use"} {
		t.drop("job", key)
	}
	for _, key := range []string{"compression-ratio", "bore", "stroke", "rod", "inlet-closes", "decompressor", "runs", "deactivates"} {
		t.drop("engine", key)
	}
	t.set("petrol", "engine", "fuel")
	t.set("psi", "compression", "unit")
	for i, name := range s.names() {
		t.set(fmt.Sprint(of(i)), "compression", "dry", name)
	}
	for key, value := range with {
		t.set(value, strings.Split(key, " ")...)
	}
	return s.vary(t)
}

func madeSound(s *subject, k *tally) {
	sound := func(i int) float64 { return 165 + float64(i%3) }
	for _, with := range []map[string]string{
		{},
		{"compression limits minimum": "120 psi"},
		{"compression limits minimum": "120 psi", "engine runs": "rough"},
		{"compression limits minimum": "120 psi", "fuel-pressure": "could not test (no gauge)"},
	} {
		if other := readings(s, sound, with); other != nil {
			k.on(s.vary(soundLeakage(other)), fmt.Sprint("sound, ", with), reassuranceNeedsReason)
		}
	}
}

func madeLow(s *subject, k *tally) {
	for _, psi := range []float64{62, 88} {
		k.on(readings(s, func(i int) float64 { return psi + float64(i%3) }, nil), fmt.Sprintf("all at %g psi", psi), tightKeepsUrgency)
	}
}

func runsRoughly(s *subject, k *tally) {
	if s.tree.text("engine", "runs") != "rough" || !s.out.told() {
		return
	}
	k.saw()
	if rank(s.out.Verdict.Urgency) == 0 {
		k.fail("it runs roughly, and the sheet says %q: %q", s.out.Verdict.Urgency, s.out.Verdict.Sentence)
	}
}

func lowRepeats(s *subject, k *tally) {
	for entry, least := range map[string]string{"82 70": actSoon, "0 9": doNotRun} {
		names := s.names()
		t := readings(s, func(int) float64 { return 150 }, nil)
		if t == nil {
			return
		}
		other := t.tree.clone()
		other.set(strings.Fields(entry), "compression", "dry", names[len(names)-1])
		k.on(s.vary(other), "repeats "+entry, func(o *subject, k *tally) {
			k.saw()
			if rank(o.out.Verdict.Urgency) < rank(least) {
				k.fail("the sheet says %q: %q", o.out.Verdict.Urgency, o.out.Verdict.Sentence)
			}
		})
	}
}

func leftOpen(s *subject, k *tally) {
	t := readings(s, func(int) float64 { return 160 }, map[string]string{"compression limits minimum": "120 psi"})
	if t == nil {
		return
	}
	for _, row := range []struct {
		section, unit, key, entry, limit string
		least                            string
	}{
		{"fuel-pressure", "psi", "idle", "12 30", "38-44 psi", actSoon}, {"fuel-pressure", "psi", "idle", "30 41", "38-44 psi", checkAgain},
		{"fuel-pressure", "psi", "idle", "over 30", "38-44 psi", checkAgain}, {"oil-pressure", "psi", "idle", "over 5", "at least 15 psi", checkAgain},
		{"oil-pressure", "psi", "idle", "3 9", "at least 15 psi", actSoon}, {"oil-pressure", "psi", "idle", "9 24", "at least 15 psi", checkAgain},
	} {
		other := t.tree.clone()
		other.drop(row.section) // as read by whatever else the job says of it
		other.set(row.unit, row.section, "unit")
		if strings.HasPrefix(row.entry, "over") {
			other.set(row.entry, row.section, row.key)
		} else {
			other.set(strings.Fields(row.entry), row.section, row.key)
		}
		other.set(row.limit, row.section, "limits", row.key)
		k.on(s.vary(other), row.section+" "+row.entry, func(o *subject, k *tally) {
			k.saw()
			if rank(o.out.Verdict.Urgency) < rank(row.least) {
				k.fail("the sheet says %q: %q", o.out.Verdict.Urgency, o.out.Verdict.Sentence)
			}
		})
	}
}

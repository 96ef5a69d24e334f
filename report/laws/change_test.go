package laws_test

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// Laws on what may change when the job is changed.
var changeLaws = []law{
	{name: "T5 order of entries", least: 100, every: 8, says: "the order in which cylinders are listed changes nothing", check: orderChangesNothing},
	{name: "T5 unit", least: 30, every: 4, says: "the unit changes no verdict", check: unitChangesNothing},
	{name: "T5 numbering from the other end", least: 40, every: 3, says: "an engine in line numbered from the other end gets the same verdict", check: mirrorChangesNothing},
	{name: "T9 free text is not read", least: 150, every: 10, says: "notes, reason and recommended are printed and never parsed", check: freeTextIsNotRead},
	{name: "T9 done is not proposed", least: 150, every: 6, says: "a check that was done, by its name with hyphens or spaces, is not proposed", check: doneIsNotProposed},
	{name: "T9 not done is not done", least: 150, every: 7, says: "'not available' and 'not done' are not done", check: notDone},
	{name: "T9 done on another cylinder", least: 2, every: 0, says: "a coil swapped on another cylinder leaves the check for this one, and on this one takes it away", check: coilElsewhere},
	{name: "T10 sound section", least: 250, every: 5, says: "adding a sound result never raises the urgency", check: soundNeverRaises},
	{name: "T10 low yet tight", least: 10, says: "low everywhere yet tight keeps the urgency that low everywhere had", check: tightKeepsUrgency},
	{name: "T5 same job, same words", least: 100, every: 12, says: "the same job gives the same JSON, and another reader's sheet the same findings", check: sameAgain},
	{name: "T10 lower never better", least: 120, every: 5, says: "making a low cylinder lower never reduces the urgency", check: lowerNeverBetter},
	{name: "T10 evidence never lowers", least: 60, every: 4, says: "evidence for a cause never lowers its rank", check: evidenceNeverLowers},
}

// orderChangesNothing lists every map of cylinders from its end.
func orderChangesNothing(s *subject, k *tally) {
	t := s.tree.clone()
	for _, path := range [][]string{{"compression", "dry"}, {"compression", "first"}, {"compression", "wet"}, {"leakage", "dry"}, {"plugs", "looks"}, {"borescope"},
		{"starting", "peaks"}, {"balance", "drop"}, {"injectors", "before"}, {"valves", "exhaust"}, {"heads"}, {"diesel", "return", "cylinders"}, {"before", "compression", "dry"}, {"before", "leakage", "dry"}} {
		if m := t.sub(path...); m != nil {
			slices.Reverse(m.keys)
		}
	}
	other := s.vary(t)
	if other == nil {
		return
	}
	k.saw()
	if what := differ(s, other); what != "" {
		k.fail("listed from the end: %s", what)
	}
}

// differ compares what is said of two jobs: verdict, findings, checks.
func differ(a, b *subject) string {
	if x, y := a.out.Verdict.Urgency, b.out.Verdict.Urgency; x != y {
		return fmt.Sprintf("urgency %q and %q", x, y)
	}
	if x, y := a.out.Verdict.Sentence, b.out.Verdict.Sentence; x != y {
		return fmt.Sprintf("verdict %q and %q", x, y)
	}
	if x, y := rules(a.out, nil), rules(b.out, nil); !slices.Equal(x, y) {
		return fmt.Sprintf("findings %q and %q", x, y)
	}
	if x, y := checkName(a.out.Verdict.NextCheck), checkName(b.out.Verdict.NextCheck); x != y {
		return fmt.Sprintf("next check %q and %q", x, y)
	}
	return ""
}

func checkName(c *nextCheck) string {
	if c == nil {
		return ""
	}
	return c.Name
}

// rules lists the findings by rule, cylinders, urgency and confidence, the
// cylinders renamed.
func rules(o *outcome, rename map[string]string) []string {
	var out []string
	for _, f := range o.Findings {
		names := slices.Clone(f.Cylinders)
		for i, n := range names {
			if to, ok := rename[n]; ok {
				names[i] = to
			}
		}
		slices.Sort(names)
		out = append(out, fmt.Sprint(f.Rule, names, f.Urgency, f.Confidence))
	}
	slices.Sort(out)
	return out
}

var bareNumber = regexp.MustCompile(`^\d+(\.\d+)?$`)

// unitChangesNothing writes the whole compression test in kPa, each figure to
// the same share of it, where it was in psi. Gauge and limits bring their own
// units. Grades at the edge of a band may change with the rounding, and what
// follows from them.
func unitChangesNothing(s *subject, k *tally) {
	dry := s.tree.sub("compression", "dry")
	if s.tree.text("compression", "unit") != "psi" || dry == nil {
		return
	}
	t := s.tree.clone()
	t.set("kPa", "compression", "unit")
	for _, key := range []string{"dry", "first", "wet", "again"} {
		m := t.sub("compression", key)
		if m == nil {
			continue
		}
		for _, name := range m.keys {
			text, ok := m.values[name].(string)
			if !ok || !bareNumber.MatchString(text) {
				if ok && !strings.ContainsAny(text, "0123456789") {
					continue
				}
				return
			}
			v, _ := strconv.ParseFloat(text, 64)
			m.values[name] = strconv.FormatFloat(v*6.894757, 'f', 3, 64)
		}
	}
	if s.tree.has("compression", "running") {
		return
	}
	other := s.vary(t)
	if other == nil {
		return
	}
	edge := false
	for _, o := range []*outcome{s.out, other.out} {
		for _, n := range o.Notices { // a figure tells another unit, and the same in kPa does not
			edge = edge || n.Rule == "unit-suspect"
		}
		for _, l := range o.Compression.Limits {
			edge = edge || l.Verdict == "too close to call"
		}
		for i, c := range o.Compression.Cylinders {
			if c.PercentOfHighest != nil {
				for _, at := range []float64{90, 85, 75, 70, 60, 50, 15} {
					edge = edge || math.Abs(*c.PercentOfHighest-at) < 2
				}
			}
			edge = edge || c.Dry != nil && s.out == o && math.Abs(*c.Dry-25) < 0.5 // under 25 psi there is no pressure
			edge = edge || c.Grade == "too close to call" || s.out.Compression.Cylinders[i].Grade == "too close to call"
		}
	}
	if h := s.out.Compression.Highest; edge || h != nil && *h < 30 { // so low, whole figures are too coarse
		return
	}
	k.saw()
	for i, c := range s.out.Compression.Cylinders {
		if g := other.out.Compression.Cylinders[i].Grade; g != c.Grade {
			k.fail("%s is %q in psi and %q in kPa", c.Cylinder, c.Grade, g)
		}
	}
	if x, y := s.out.Verdict.Urgency, other.out.Verdict.Urgency; x != y {
		k.fail("%q in psi and %q in kPa", x, y)
	}
}

// mirrorChangesNothing numbers an engine in line from its other end.
func mirrorChangesNothing(s *subject, k *tally) {
	n := len(s.names())
	if !strings.HasPrefix(s.layout(), "inline") || n < 3 || s.tree.has("compression", "order") || s.tree.has("engine", "shared-coils") ||
		s.tree.has("engine", "firing-order") || s.tree.has("vehicle", "codes") || s.tree.has("vehicle", "work-done") || s.tree.has("compression", "again") || s.tree.has("cooling") { // which names cylinders in words
		return
	}
	rename := map[string]string{}
	for i := 1; i <= n; i++ {
		rename[fmt.Sprint(i)] = fmt.Sprint(n + 1 - i)
	}
	t := s.tree.clone()
	for _, path := range [][]string{{"compression", "dry"}, {"compression", "first"}, {"compression", "wet"}, {"compression", "running"}, {"leakage", "dry"}, {"plugs", "looks"}, {"borescope"},
		{"starting", "peaks"}, {"balance", "drop"}, {"injectors", "before"}, {"valves", "exhaust"}, {"heads"}, {"diesel", "return", "cylinders"}, {"before", "compression", "dry"}, {"before", "leakage", "dry"}} {
		m := t.sub(path...)
		if m == nil {
			continue
		}
		mirrored := newTree()
		for i := len(m.keys) - 1; i >= 0; i-- {
			name := m.keys[i]
			if to := rename[name]; to != "" { // others are keys of the section
				name = to
			}
			mirrored.put(name, m.values[m.keys[i]])
		}
		t.set(mirrored, path...)
	}
	other := s.vary(t)
	if other == nil {
		return
	}
	k.saw()
	if x, y := s.out.Verdict.Urgency, other.out.Verdict.Urgency; x != y {
		k.fail("%q, and %q numbered from the other end", x, y)
	}
	if x, y := rules(s.out, rename), rules(other.out, nil); !slices.Equal(x, y) {
		k.fail("findings %q, and %q numbered from the other end", x, y)
	}
}

// soundNeverRaises adds sections in which nothing is wrong.
func soundNeverRaises(s *subject, k *tally) {
	add := map[string]func(*tree) bool{
		"plugs all normal": func(t *tree) bool {
			if t.has("plugs") || s.diesel() || s.fuel() == "" {
				return false
			}
			t.set("normal", "plugs", "looks", "all")
			return true
		},
		"leakage sound on all": func(t *tree) bool {
			if t.has("leakage") || s.rotary() {
				return false
			}
			t.set(soundLeakage(s).sub("leakage"), "leakage")
			return true
		},
		"no gas in the coolant": func(t *tree) bool {
			if t.has("coolant-gas-test") || s.rotary() || t.text("engine", "cooling") == "air" {
				return false
			}
			t.set("negative", "coolant-gas-test")
			return true
		},
		"fuel pressure within": func(t *tree) bool {
			if t.text("conditions", "needle") == "flutters" || // then it is not sound
				t.has("fuel-pressure") || s.diesel() || s.fuel() == "" || s.rotary() {
				return false
			}
			f := newTree()
			for _, pair := range [][2]string{{"unit", "psi"}, {"system", "port, no return"}, {"key-on", "50"}, {"idle", "50"}} {
				f.put(pair[0], pair[1])
			}
			t.set(f, "fuel-pressure")
			t.set("45-55 psi", "fuel-pressure", "limits", "key-on")
			t.set("45-55 psi", "fuel-pressure", "limits", "idle")
			return true
		},
	}
	for what, make := range add {
		t := s.tree.clone()
		if !make(t) {
			continue
		}
		other := s.vary(t)
		if other == nil {
			continue
		}
		k.saw()
		if rank(other.out.Verdict.Urgency) > rank(s.out.Verdict.Urgency) {
			k.fail("%s raises %q to %q: %q", what, s.out.Verdict.Urgency, other.out.Verdict.Urgency, other.out.Verdict.Sentence)
		}
	}
}

// lowerNeverBetter takes a fifth off a cylinder that is low, step by step to
// nothing.
func lowerNeverBetter(s *subject, k *tally) {
	for _, c := range s.out.Compression.Cylinders {
		text := s.tree.text("compression", "dry", c.Cylinder)
		if c.Grade != "low" && c.Grade != "very low" || !bareNumber.MatchString(text) {
			continue
		}
		v, _ := strconv.ParseFloat(text, 64)
		urgency := s.out.Verdict.Urgency
		before := text
		for _, share := range []float64{0.8, 0.5, 0.2, 0} {
			_, after, _ := strings.Cut(text, ".")
			entry := strconv.FormatFloat(v*share, 'f', len(after), 64)
			other := s.vary(s.tree.with(entry, "compression", "dry", c.Cylinder))
			if other == nil {
				continue
			}
			k.saw()
			if rank(other.out.Verdict.Urgency) < rank(urgency) {
				k.fail("%s at %s: %q, at %s: %q", c.Cylinder, before, urgency, entry, other.out.Verdict.Urgency)
			}
			urgency, before = other.out.Verdict.Urgency, entry
		}
		return
	}
}

// signs are readings that speak for a cause in one cylinder.
var signs = []struct {
	cause, at string
}{{"exhaust-valve", "exhaust"}, {"inlet-valve", "inlet"}, {"rings", "crankcase"}, {"head-gasket", "neighbour"}}

// mostCauses are shown of a subject; a list that is full may have left one out.
const mostCauses = 3

// evidenceNeverLowers adds a leak-down test that shows where the air goes.
func evidenceNeverLowers(s *subject, k *tally) {
	if s.rotary() || s.twoStroke() || s.tree.text("leakage") != "" {
		return
	}
	for _, low := range s.out.Compression.Cylinders {
		name := low.Cylinder
		if low.Grade != "low" && low.Grade != "very low" || s.tree.has("leakage", "dry", name) {
			continue
		}
		before, alone := causesOf(s.out, name)
		for _, sign := range signs {
			if sign.at == "neighbour" && !slices.ContainsFunc(s.names(), func(n string) bool { return s.neighbours(n, name) }) {
				continue
			}
			one := newTree()
			one.put("loss", "38 %")
			one.put("at", anys([]string{sign.at}))
			other := s.vary(s.tree.with(one, "leakage", "dry", name))
			if other == nil || len(before) == 0 {
				continue
			}
			k.saw()
			after, _ := causesOf(other.out, name)
			was, is := slices.Index(before, sign.cause), slices.Index(after, sign.cause)
			if is < 0 && (was >= 0 || alone && len(before) < mostCauses) || was >= 0 && is > was {
				k.fail("38 %% of the air of %s at %s: %s was at %d of %v and is at %d of %v", name, sign.at, sign.cause, was, before, is, after)
			}
		}
		return
	}
}

// causesOf are the causes of the story about a cylinder, or of the first
// finding about it in a story of the engine, and whether that is about it
// alone: of several cylinders the causes are those that they share.
func causesOf(o *outcome, cylinder string) (causes []string, alone bool) {
	for _, one := range o.Stories {
		if slices.Contains(one.Cylinders, cylinder) && one.About != "mixture" { // its plug is another matter
			return one.CauseNames, len(one.Cylinders) == 1
		}
	}
	for _, f := range o.Findings {
		if slices.Contains(f.Cylinders, cylinder) && len(f.CauseNames) > 0 && !plugRule.MatchString(f.Rule) {
			return f.CauseNames, len(f.Cylinders) == 1
		}
	}
	return nil, false
}

// tightKeepsUrgency adds sound leakage to an engine that is low everywhere.
func tightKeepsUrgency(s *subject, k *tally) {
	lead := s.out.lead()
	if len(lead) == 0 || lead[0].Rule != "all-low" || s.tree.has("leakage") || len(s.names()) < 2 {
		return
	}
	if slices.ContainsFunc(s.out.Findings, func(f finding) bool { return f.Rule == "oil-wet" && f.Urgency == s.out.Verdict.Urgency }) {
		return // oil on plugs hurries by itself, and less where the rings hold
	}
	other := s.vary(soundLeakage(s))
	if other == nil {
		return
	}
	for _, one := range s.out.Stories[1:] { // another matter, of which a sound leakage may say more
		if one.Urgency == s.out.Verdict.Urgency {
			return
		}
	}
	k.saw()
	if a, b := s.out.Verdict.Urgency, other.out.Verdict.Urgency; a != b {
		k.fail("low everywhere is %q, and %q where it is tight", a, b)
	}
}

func soundLeakage(s *subject) *tree {
	t := s.tree.clone()
	for i, name := range s.names() {
		one := newTree()
		one.put("loss", fmt.Sprint(6+i%4, " %"))
		one.put("at", anys([]string{"crankcase"}))
		t.set(one, "leakage", "dry", name)
	}
	t.set("20 %", "leakage", "limit")
	return t
}

// sameAgain diagnoses a job again, and for another reader.
func sameAgain(s *subject, k *tally) {
	other := s.vary(s.tree)
	if other == nil {
		return
	}
	k.saw()
	if string(other.raw) != string(s.raw) {
		k.fail("the same job gives other JSON the second time")
	}
	kind := map[string]string{"customer": "workshop"}[s.tree.text("sheet")]
	if kind == "" {
		kind = "customer"
	}
	if other = s.vary(s.tree.with(kind, "sheet")); other == nil {
		return
	}
	if x, y := rules(s.out, nil), rules(other.out, nil); !slices.Equal(x, y) || s.out.Verdict.Urgency != other.out.Verdict.Urgency {
		k.fail("as a %s sheet the findings are %q, else %q", kind, y, x)
	}
}

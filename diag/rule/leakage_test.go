package rule_test

import (
	"slices"
	"strings"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
	"gaugesheet/diag/rule"
	"gaugesheet/diag/rule/sample"
	"gaugesheet/diag/story"
)

// A sealing case is a test of one pattern of leakage or plugs: which rules must
// and must not fire, and what the story of the first of them says.
type sealingCase struct {
	name  string
	test  *diag.Test
	fires string // rules, "rule 1,2" with its cylinders; or notices
	not   string
	first string          // likeliest cause of that story; "-" for none
	sure  diag.Confidence // "" is not asked
	soon  diag.Urgency    // of that story; "" is not asked
	next  string          // its check; "" is not asked
}

// storyWith gives the story in which a rule speaks, and what the rule found.
func storyWith(d *diag.Diagnosis, rule string) (*diag.Story, *diag.Finding) {
	for i := range d.Stories {
		for j := range d.Stories[i].Members {
			if f := &d.Stories[i].Members[j]; f.Rule == rule {
				return &d.Stories[i], f
			}
		}
	}
	return nil, nil
}

// needsAreNeeded: a sign is not asked where the job lacks what it needs, so that
// it must not hold there.
func needsAreNeeded(t *testing.T, test *diag.Test) {
	t.Helper()
	c := known.New(test)
	for _, g := range rule.Signs() {
		need := c.Missing(g.Needs)
		if need == "" {
			continue
		}
		for _, s := range append(slices.Clone(c.EachCylinder()), known.Subject{}) {
			if g.When.Holds(c, s) {
				t.Errorf("the sign %q holds of %q without %s", g.Words(), s.Name(), need)
			}
		}
	}
}

func runSealing(t *testing.T, cases []sealingCase) {
	for _, tt := range cases {
		t.Run(tt.name, func(t *testing.T) {
			d := story.WithoutPlan(tt.test)
			needsAreNeeded(t, tt.test)
			for i, want := range strings.Split(tt.fires, "; ") {
				if want == "" { // none has to
					continue
				}
				name, cylinders, _ := strings.Cut(want, " ")
				if slices.ContainsFunc(d.Notices, func(n diag.Notice) bool { return n.Rule == name }) {
					continue
				}
				s, f := storyWith(d, name)
				if s == nil {
					t.Errorf("%s did not fire", name)
					continue
				}
				if got := strings.Join(f.Cylinders, ","); cylinders != "" && got != cylinders {
					t.Errorf("%s of %q, want %q", name, got, cylinders)
				}
				if i > 0 {
					continue
				}
				tt.check(t, s)
			}
			for _, name := range strings.Fields(tt.not) {
				if s, _ := storyWith(d, name); s != nil {
					t.Errorf("%s fired", name)
				}
			}
		})
	}
}

func (tt *sealingCase) check(t *testing.T, s *diag.Story) {
	first := "-"
	if len(s.Causes) > 0 {
		first = s.Causes[0].Key
	}
	if tt.first != "" && first != tt.first {
		t.Errorf("first cause %s, want %s: %v", first, tt.first, s.Ledger)
	}
	if tt.sure != "" && s.Confidence != tt.sure {
		t.Errorf("how sure: %s, want %s", s.Confidence, tt.sure)
	}
	if tt.next != "" && (s.Next == nil || s.Next.Key != tt.next) {
		t.Errorf("next check %v, want %s", s.Next, tt.next)
	}
	if tt.soon != "" && s.Urgency != tt.soon {
		t.Errorf("urgency %s, want %s", s.Urgency, tt.soon)
	}
}

// only adds where air was heard, without a figure.
func only(name string, at ...string) sample.Change {
	return func(t *diag.Test) {
		sample.Leak(name, 0, at...)(t)
		t.Leakage.Dry[name] = diag.Leak{Reading: diag.Reading{State: diag.Tested}, At: at}
	}
}

// most is a leak of which most goes out at the first place.
func most(name string, loss float64, at ...string) sample.Change {
	return func(t *diag.Test) {
		sample.Leak(name, loss, at...)(t)
		l := t.Leakage.Dry[name]
		l.Most = at[0]
		t.Leakage.Dry[name] = l
	}
}

// bound is a loss known only to be more.
func bound(name string, loss float64, at ...string) sample.Change {
	return func(t *diag.Test) {
		sample.Leak(name, loss, at...)(t)
		l := t.Leakage.Dry[name]
		l.Kind = diag.AtLeast
		t.Leakage.Dry[name] = l
	}
}

// tightBut is an engine that holds its air in every cylinder but these.
func tightBut(layout string, names []string, changes ...sample.Change) []sample.Change {
	var list []sample.Change
	for _, n := range sample.Of(layout).Engine.Names() {
		if !slices.Contains(names, n) {
			list = append(list, sample.Leak(n, 6))
		}
	}
	return append(list, changes...)
}

var (
	evenFour  = []float64{150, 152, 148, 151}
	oneCam    = sample.Spec(func(s *diag.Spec) { s.Camshafts = "one" })
	airCooled = sample.Spec(func(s *diag.Spec) { s.Cooling = "air" })
	onGas     = sample.Spec(func(s *diag.Spec) { s.Fuel = "lpg" })
)

func TestLeakPlaces(t *testing.T) {
	const three = "1,3,5" // one bank of an engine numbered across its banks
	runSealing(t, []sealingCase{
		{name: "exhaust of one", test: sample.Of("inline-4", tightBut("inline-4", []string{"3"}, sample.Leak("3", 34, "exhaust"))...),
			fires: "leaks-at-exhaust 3", not: "leakage-high leakage-good valves-leak-together", first: "exhaust-valve", sure: diag.Fair, soon: diag.ActSoon},
		{name: "exhaust of one, cold", test: sample.Of("inline-4", tightBut("inline-4", []string{"3"}, sample.Leak("3", 34, "exhaust"), sample.Method(func(k *diag.Conditions) { k.Engine = "cold" }))...),
			fires: "leaks-at-exhaust 3", sure: diag.Weak, soon: diag.CheckAgain},
		{name: "a place without a figure", test: sample.Of("V6", only("2", "exhaust")), fires: "leaks-at-exhaust 2", first: "exhaust-valve", soon: diag.CheckAgain},
		{name: "the crankcase without a figure, of a cylinder as good as the others", test: sample.Dry("inline-6", []float64{150, 151, 149, 150, 152, 150}, only("5", "crankcase")), fires: "crankcase-loss-common 5", not: "leaks-past-rings", soon: diag.NoAction},
		{name: "the crankcase without a figure, of a low one", test: sample.Dry("inline-6", []float64{150, 151, 149, 150, 112, 150}, only("5", "crankcase")), fires: "leaks-to-crankcase 5", not: "crankcase-loss-common", first: "rings"},
		{name: "the crankcase without a figure", test: sample.Of("inline-6", only("5", "crankcase")), fires: "leaks-to-crankcase 5", not: "crankcase-loss-common", first: "rings"},
		{name: "most at the filler decides", test: sample.Of("inline-4", tightBut("inline-4", []string{"2"}, most("2", 40, "crankcase", "exhaust"))...),
			fires: "leaks-to-crankcase 2; leaks-at-exhaust 2", first: "rings"},
		{name: "most at the exhaust decides", test: sample.Of("inline-4", tightBut("inline-4", []string{"2"}, most("2", 40, "exhaust", "crankcase"))...),
			fires: "leaks-at-exhaust 2", first: "exhaust-valve"},
		{name: "the crankcase beside a valve is not the rings", test: sample.Of("inline-4", tightBut("inline-4", []string{"2"}, sample.Leak("2", 40, "inlet", "crankcase"))...),
			fires: "leaks-at-inlet 2", first: "inlet-valve"},
		{name: "over 20 % is too much", test: sample.Of("inline-4", bound("1", 20)), fires: "leakage-high 1", not: "leakage-good"},
		{name: "over 5 % says nothing good", test: sample.Of("inline-4", sample.Leak("2", 4), bound("1", 5)), fires: "too-few-cylinders", not: "leakage-good leakage-high"},
		{name: "8 % over a limit of 5, at a valve", test: sample.Of("inline-4", tightBut("inline-4", []string{"1"}, sample.Leak("1", 9, "exhaust"), sample.LeakLimit(5))...),
			fires: "leaks-at-exhaust", soon: diag.ActSoon},
		{name: "a bank at the exhaust", test: sample.Of("V6", tightBut("V6", strings.Split(three, ","), sample.Leak("1", 60, "exhaust"), sample.Leak("3", 55, "exhaust"), sample.Leak("5", 58, "exhaust"))...),
			fires: "valves-leak-together " + three + "; leaks-at-exhaust " + three, not: "leakage-high", first: "cam-timing", soon: diag.ActSoon},
		{name: "a bank at either valve", test: sample.Of("V6", tightBut("V6", strings.Split(three, ","), sample.Leak("1", 60, "exhaust"), sample.Leak("3", 55, "inlet"), only("5", "exhaust"))...),
			fires: "valves-leak-together " + three, first: "cam-timing"},
		{name: "a bank of one camshaft is not its timing", test: sample.Of("V8", tightBut("V8", []string{"1", "3", "5", "7"}, oneCam,
			sample.Leak("1", 40, "exhaust"), sample.Leak("3", 35, "exhaust"), sample.Leak("5", 38, "exhaust"), sample.Leak("7", 41, "exhaust"))...),
			fires: "valves-leak-together 1,3,5,7", first: "valve-lash"},
		{name: "both banks are not one bank", test: sample.Of("V6", tightBut("V6", []string{"1", "2", "3"}, sample.Leak("1", 40, "exhaust"), sample.Leak("2", 40, "exhaust"), sample.Leak("3", 40, "exhaust"))...),
			fires: "leaks-at-exhaust", not: "valves-leak-together", first: "exhaust-valve"},
		{name: "a row in which every valve leaks", test: sample.Of("inline-4", sample.Leak("1", 70, "inlet"), sample.Leak("2", 80, "exhaust"), sample.Leak("3", 75, "inlet"), sample.Leak("4", 72, "inlet")),
			fires: "valves-leak-together 1,2,3,4", first: "bent-valve"},
		{name: "air at both valves is the test's", test: sample.Of("V6", tightBut("V6", []string{"2"}, sample.Leak("2", 70, "inlet", "exhaust"))...),
			fires: "leaks-at-exhaust 2", not: "valves-leak-together", sure: diag.Weak, soon: diag.CheckAgain},
		{name: "gas lets valves sink into their seats", test: sample.Of("inline-6", tightBut("inline-6", []string{"4"}, onGas, sample.Leak("4", 30, "exhaust"))...),
			fires: "leaks-at-exhaust 4", first: "exhaust-valve"},
		{name: "exhaust of a two-stroke", test: sample.Of("inline-2", sample.TwoStroke, sample.Leak("1", 8), sample.Leak("2", 35, "exhaust")), fires: "leaks-at-exhaust 2", first: "rings", sure: diag.Fair},
		{name: "inlet of a two-stroke", test: sample.Of("inline-3", sample.TwoStroke, sample.Leak("1", 8), sample.Leak("2", 35, "inlet")), fires: "leaks-at-inlet 2", first: "reed-valve"},
		{name: "neighbours of a two-stroke", test: sample.Of("inline-2", sample.TwoStroke, sample.Leak("1", 18, "neighbour"), sample.Leak("2", 20, "neighbour")),
			fires: "leaks-to-neighbour 1,2", first: "head-gasket"},
		{name: "bubbles, whatever the loss", test: sample.Of("inline-3", tightBut("inline-3", []string{"2"}, sample.Leak("2", 3, "coolant"))...),
			fires: "leaks-to-coolant 2", not: "leakage-good", first: "head-gasket", soon: diag.ActSoon},
		{name: "no coolant in an engine cooled by air", test: sample.Of("flat-4", airCooled, sample.Leak("1", 30, "coolant")), fires: "leakage-high 1", not: "leaks-to-coolant"},
		{name: "the tester's own thread", test: sample.Dry("inline-4", []float64{150, 152, 100, 151}, sample.Leak("3", 40, "outside")),
			fires: "leaks-outside 3", not: "leakage-good", first: "plug-or-adapter-thread", sure: diag.Fair},
		{name: "within the limit, a valve heard", test: sample.Of("inline-4", sample.Leak("1", 12, "exhaust"), sample.Leak("2", 9), sample.Leak("3", 16, "crankcase"), sample.Leak("4", 8), sample.LeakLimit(30)), fires: "leaks-at-exhaust 1", not: "leakage-good"},
		{name: "common on a used engine", test: sample.Of("inline-4", sample.Leak("1", 14, "crankcase"), sample.Leak("2", 16, "crankcase"), sample.Leak("3", 15, "crankcase"), sample.Leak("4", 18, "crankcase")),
			fires: "crankcase-loss-common 1,2,3,4; leaks-to-crankcase 1,2,3,4", not: "sound-but-leaks", first: "-", soon: diag.NoAction},
		{name: "a torrent is no ring", test: sample.Of("flat-6", tightBut("flat-6", []string{"4"}, sample.Leak("4", 85, "crankcase"))...), fires: "leaks-to-crankcase 4", first: "rings", soon: diag.ActSoon},
	})
}

func TestLeakLevels(t *testing.T) {
	worn := []sample.Change{sample.Leak("1", 38, "crankcase"), sample.Leak("2", 42, "crankcase"), sample.Leak("3", 35, "crankcase"), sample.Leak("4", 40, "crankcase")}
	runSealing(t, []sealingCase{
		{name: "worn: two tests agree", test: sample.Dry("inline-4", []float64{82, 80, 84, 78}, append(worn, sample.Minimum(120))...),
			fires: "low-everywhere-and-leaks", not: "sound-but-leaks leakage-good", first: "wear", sure: diag.Strong, soon: diag.ActSoon},
		{name: "all high, all sound", test: sample.Dry("inline-4", evenFour, append(worn, sample.Minimum(120))...), fires: "sound-but-leaks 1,2,3,4", not: "low-everywhere-and-leaks"},
		{name: "high past the rings, compression even", test: sample.Dry("inline-4", evenFour, tightBut("inline-4", []string{"2"}, sample.Leak("2", 45, "crankcase"))...),
			fires: "sound-but-leaks 2", not: "leaks-to-crankcase leakage-high leaks-but-serviceable", soon: diag.CheckAgain},
		{name: "24 % with good compression", test: sample.Dry("inline-4", evenFour, tightBut("inline-4", []string{"2"}, sample.Leak("2", 24, "crankcase"))...),
			fires: "leaks-but-serviceable 2", not: "sound-but-leaks leaks-to-crankcase crankcase-loss-common"},
		{name: "24 % with oil use", test: sample.Dry("inline-4", evenFour, tightBut("inline-4", []string{"2"}, sample.Leak("2", 24, "crankcase"), sample.Complains("oil use"))...),
			fires: "sound-but-leaks 2", not: "leaks-but-serviceable"},
		{name: "24 % inside a limit", test: sample.Dry("inline-4", evenFour, tightBut("inline-4", []string{"2"}, sample.Leak("2", 24, "crankcase"), sample.Leak("1", 20, "crankcase"), sample.Leak("3", 21, "crankcase"), sample.LeakLimit(30))...),
			fires: "crankcase-loss-common 1,2,3", not: "leaks-but-serviceable sound-but-leaks"},
		{name: "24 % outside a limit is never nothing", test: sample.Dry("inline-4", evenFour, tightBut("inline-4", []string{"2"}, sample.Leak("2", 24, "crankcase"), sample.LeakLimit(15))...),
			fires: "leaks-but-serviceable 2", soon: diag.CheckAgain},
		{name: "no place", test: sample.Of("V8", tightBut("V8", []string{"6"}, sample.Leak("6", 33))...), fires: "leakage-high 6", not: "leaks-to-crankcase leakage-good", first: "leak-place-unknown"},
		{name: "no place, two-stroke", test: sample.Of("inline-2", sample.TwoStroke, sample.Leak("1", 33)), fires: "leakage-high 1", first: "rings"},
		{name: "a rotary has no valves", test: sample.Of("rotary-2", sample.Leak("1", 57, "exhaust"), sample.Leak("2", 8)), fires: "rotor-leaks 1", not: "leaks-at-exhaust leakage-high", first: "side-seal"},
		{name: "no middle of two", test: sample.Of("inline-2", sample.Leak("1", 4), sample.Leak("2", 16)), fires: "leakage-good", not: "leakage-high"},
		{name: "low but tight", test: sample.Dry("inline-4", []float64{150, 152, 90, 151}, sample.Leak("3", 6), sample.Leak("1", 5)), fires: "low-but-tight 3", not: "leakage-good", first: "valve-motion"},
		{name: "low but tight, and oil brought it up", test: sample.Dry("inline-4", []float64{150, 152, 90, 151}, sample.Leak("3", 6), sample.Wet(map[string]float64{"1": 154, "3": 138})),
			fires: "low-but-tight 3; leak-down-after-oil", first: "rings"},
		{name: "low but tight, two-stroke", test: sample.Dry("inline-2", []float64{120, 80}, sample.TwoStroke, sample.Leak("2", 6), sample.Leak("1", 5)), fires: "low-but-tight 2", first: "adapter-leak"},
		{name: "an engine's only cylinder under its minimum, tight", test: sample.Dry("single", []float64{70}, sample.Minimum(110), sample.Leak("1", 6)), fires: "low-but-tight 1", first: "valve-motion"},
		{name: "all lose little", test: sample.Of("flat-4", sample.Leak("1", 4), sample.Leak("2", 5), sample.Leak("3", 6), sample.Leak("4", 7)), fires: "leakage-good", not: "leakage-high", soon: diag.NoAction},
		{name: "all lose little, yet all low", test: sample.Dry("inline-4", []float64{82, 80, 84, 78}, sample.Minimum(120), sample.Leak("1", 4), sample.Leak("2", 5)), fires: "all-low", not: "leakage-good low-everywhere-and-leaks"},
		{name: "gas in the coolant, no cylinder known", test: sample.Dry("inline-4", evenFour, gasIn("positive")), fires: "combustion-gas-in-coolant", first: "head-gasket", soon: diag.ActSoon},
		{name: "gas in the coolant of an engine that loses it", test: sample.Dry("inline-4", evenFour, gasIn("positive"), sample.Complains("coolant loss")), fires: "combustion-gas-in-coolant", first: "head-gasket", soon: diag.DoNotRun},
		{name: "gas in the coolant of an engine that boils", test: sample.Dry("V6", []float64{170, 171, 169, 170, 168, 172}, gasIn("positive"), sample.Complains("overheating")), fires: "combustion-gas-in-coolant", first: "head-gasket", soon: diag.DoNotRun},
		{name: "gas in the coolant and a misfire", test: sample.Dry("inline-4", evenFour, gasIn("positive"), sample.Complains("misfire")), fires: "combustion-gas-in-coolant", soon: diag.ActSoon},
		{name: "gas in the coolant, and bubbles from one", test: sample.Dry("inline-4", evenFour, gasIn("positive"), sample.Leak("2", 5, "coolant")), fires: "leaks-to-coolant 2; combustion-gas-in-coolant 2", first: "head-gasket", sure: diag.Strong},
		{name: "no gas, bubbles", test: sample.Of("inline-4", gasIn("negative"), sample.Leak("2", 5, "coolant")), fires: "leaks-to-coolant 2", first: "head-gasket", sure: diag.Weak},
		{name: "gas in the coolant of an engine without any", test: sample.Dry("flat-4", evenFour, airCooled, gasIn("positive")), fires: "even-no-minimum", not: "combustion-gas-in-coolant"},
		{name: "four low neighbours of which one leaks across", test: sample.Dry("inline-6", []float64{100, 102, 101, 103, 150, 151}, sample.Leak("1", 31, "neighbour"), sample.Leak("2", 57, "crankcase"), sample.Leak("3", 6), sample.Leak("4", 29, "exhaust")), fires: "leaks-to-neighbour 1", not: "gasket-agrees"},
		{name: "low neighbours that leak apart", test: sample.Dry("inline-4", []float64{150, 100, 98, 151}, sample.Leak("2", 40, "exhaust"), sample.Leak("3", 38, "crankcase")), fires: "leaks-at-exhaust 2; leaks-to-crankcase 3", not: "gasket-agrees"},
		{name: "a low one that leaks at a valve is no valve that does not move", test: sample.Dry("inline-4", []float64{150, 152, 90, 151}, sample.Leak("3", 40, "exhaust")), fires: "leaks-at-exhaust 3", first: "exhaust-valve", sure: diag.Strong},
	})
}

func gasIn(coolant string) sample.Change { return func(t *diag.Test) { t.CoolantGas = coolant } }

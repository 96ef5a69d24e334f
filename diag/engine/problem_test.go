package engine

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestProblems(t *testing.T) {
	v4 := func(change func(*Spec)) Spec {
		s := Spec{Layout: "V4", Numbering: AcrossBanks, FirstBank: "left"}
		change(&s)
		return s
	}
	listed := func(banks ...BankSpec) Spec { return Spec{Layout: "V4", Banks: banks} }
	inline := func(change func(*Spec)) Spec {
		s := Spec{Layout: "inline-4"}
		change(&s)
		return s
	}
	tests := []struct {
		name    string
		spec    Spec
		field   string
		index   int
		message string
		hint    string
	}{
		{"V8 numbering", Spec{Layout: "V8"}, "numbering", -1, "cannot be guessed",
			"across banks' (1-3-5-7 / 2-4-6-8) or 'numbering: bank by bank' (1-2-3-4 / 5-6-7-8)"},
		{"flat-6 numbering", Spec{Layout: "flat-6", FirstBank: "left"}, "numbering", -1, "cannot be guessed", "(1-3-5 / 2-4-6)"},
		{"W8 numbering", Spec{Layout: "W8", Mount: FrontCrosswiseLeft}, "numbering", -1, "cannot be guessed", "banks: {front: [1, 3, 5, 7], rear:"},
		{"V2 places", Spec{Layout: "V2"}, "numbering", -1, "cannot be guessed", "banks: {left: [left], right: [right]}"},
		{"V2 numbering without first bank", Spec{Layout: "V2", Numbering: AcrossBanks}, "first-bank", -1, "not the bank that cylinder 1 is on", "left or right"},
		{"unknown numbering", v4(func(s *Spec) { s.Numbering = "clockwise" }), "numbering", -1, "unknown numbering 'clockwise'", "1-3 / 2-4"},
		{"no first bank", v4(func(s *Spec) { s.FirstBank = "" }), "first-bank", -1, "not the bank that cylinder 1 is on", "left or right"},
		{"no first bank, crosswise", v4(func(s *Spec) { s.FirstBank, s.Mount = "", FrontCrosswiseLeft }), "first-bank", -1, "not the bank", "front or rear"},
		{"driver side", v4(func(s *Spec) { s.FirstBank = "driver side" }), "first-bank", -1, "not a side of the vehicle", "steering wheel"},
		{"port", v4(func(s *Spec) { s.FirstBank = "port" }), "first-bank", -1, "not a side", "port is left"},
		{"starboard", v4(func(s *Spec) { s.FirstBank = "starboard" }), "first-bank", -1, "not a side", "starboard is right"},
		{"left on a crosswise engine", v4(func(s *Spec) { s.Mount = FrontCrosswiseRight }), "first-bank", -1, "front and a rear bank", "towards"},
		{"front on a lengthwise engine", v4(func(s *Spec) { s.FirstBank, s.Mount = "front", FrontLengthwise }), "first-bank", -1, "left and a right bank", "crosswise"},
		{"numbering on inline", inline(func(s *Spec) { s.Numbering = AcrossBanks }), "numbering", -1, "two banks", "leave"},
		{"first bank on inline", inline(func(s *Spec) { s.FirstBank = "left" }), "first-bank", -1, "two banks", "leave"},
		{"one bank of two", listed(BankSpec{"left", []string{"1", "3"}}), "banks", -1, "two banks; 1 listed", "across banks"},
		{"bank names", listed(BankSpec{"left", []string{"1", "3"}}, BankSpec{"odd", []string{"2", "4"}}), "banks", 1, "'odd' is not a side", "left or right"},
		{"not opposite", listed(BankSpec{"left", []string{"1", "3"}}, BankSpec{"rear", []string{"2", "4"}}), "banks", -1, "not opposite sides", ""},
		{"bank too short", listed(BankSpec{"left", []string{"1", "3"}}, BankSpec{"right", []string{"2"}}), "banks", 1, "2 in each bank; the right bank lists 1", ""},
		{"named twice", listed(BankSpec{"left", []string{"1", "3"}}, BankSpec{"right", []string{"2", "3"}}), "banks", 1, "cylinder 3 is named twice", ""},
		{"empty name", listed(BankSpec{"left", []string{"1", " "}}, BankSpec{"right", []string{"2", "4"}}), "banks", 0, "without a name", ""},
		{"banks against numbering", Spec{Layout: "V4", Numbering: BankByBank, FirstBank: "left",
			Banks: []BankSpec{{"left", []string{"1", "3"}}, {"right", []string{"2", "4"}}}}, "numbering", -1, "means 1-2 / 3-4, but 'banks' lists 1-3 / 2-4", "alone is enough"},
		{"banks against first bank", Spec{Layout: "V4", FirstBank: "right",
			Banks: []BankSpec{{"left", []string{"1", "3"}}, {"right", []string{"2", "4"}}}}, "first-bank", -1, "does not list cylinder 1 there", ""},
		{"two banks of an inline", inline(func(s *Spec) { s.Banks = []BankSpec{{"a", []string{"1", "2"}}, {"b", []string{"3", "4"}}} }), "banks", 1, "one bank; 2 are listed", ""},
		{"two banks of a narrow V", Spec{Layout: "narrow-V4", Banks: []BankSpec{{"left", []string{"1", "3"}}, {"right", []string{"2", "4"}}}}, "banks", 1, "one bank", "as they alternate"},
		{"bank of an inline too long", inline(func(s *Spec) { s.Banks = []BankSpec{{"row", numbers(5)}} }), "banks", 0, "the bank lists 5", ""},
		{"banks of a rotary", Spec{Layout: "rotary-2", Banks: []BankSpec{{"a", []string{"1"}}}}, "banks", -1, "does not apply", ""},
		{"heads of a rotary", Spec{Layout: "rotary-2", SeparateBarrels: true}, "heads", -1, "no cylinder heads", ""},
		{"head with a stranger", inline(func(s *Spec) { s.Heads = [][]string{{"1", "2"}, {"3", "4", "5"}} }), "heads", 1, "no cylinder 5 under head 2", "1, 2, 3 and 4"},
		{"cylinder under two heads", inline(func(s *Spec) { s.Heads = [][]string{{"1", "2"}, {"2", "3", "4"}} }), "heads", 1, "cylinder 2 is under two heads", ""},
		{"cylinder under no head", inline(func(s *Spec) { s.Heads = [][]string{{"1", "2"}} }), "heads", -1, "no head is given for cylinders 3 and 4", ""},
		{"empty head", inline(func(s *Spec) { s.Heads = [][]string{numbers(4), {}} }), "heads", 1, "head 2 has no cylinders", ""},
		{"heads twice", inline(func(s *Spec) { s.Heads, s.SeparateBarrels = [][]string{numbers(4)}, true }), "heads", -1, "said to be separate", ""},
		{"firing order doubled", inline(func(s *Spec) { s.FiringOrder = strings.Split("1-3-3-4-2", "-") }), "firing-order", 2, "has cylinder 3 twice", ""},
		{"firing order short", inline(func(s *Spec) { s.FiringOrder = strings.Split("1-3", "-") }), "firing-order", -1, "lacks cylinders 2 and 4", ""},
		{"firing order stranger", inline(func(s *Spec) { s.FiringOrder = strings.Split("1-3-4-2-5", "-") }), "firing-order", 4, "has 5, but the engine has no such cylinder", "1, 2, 3 and 4"},
		{"firing order of rotors", Spec{Layout: "rotary-2", FiringOrder: []string{"1"}}, "firing-order", -1, "lacks rotor 2", ""},
		{"firing order by place", v4(func(s *Spec) { s.FiringOrder = strings.Split("L1-R1-L2-R3", "-") }), "firing-order", -1, "the right bank has 2", "front cylinder of the left bank"},
		{"mount", inline(func(s *Spec) { s.Mount = "sideways" }), "mount", -1, "unknown mount 'sideways'", "on stand"},
		{"mount, which way", inline(func(s *Spec) { s.Mount = "front crosswise" }), "mount", -1, "unknown mount", "engine front left' or"},
		{"names short", inline(func(s *Spec) { s.Names = []string{"a", "b"} }), "cylinders", -1, "4 to name; 2 names", ""},
		{"names doubled", Spec{Layout: "inline-2", Names: []string{"a", "a"}}, "cylinders", 1, "named twice", ""},
		{"names and banks", inline(func(s *Spec) { s.Names, s.Banks = numbers(4), []BankSpec{{"row", numbers(4)}} }), "cylinders", -1, "named twice: in a list", ""},
		{"places outside custom", inline(func(s *Spec) { s.Custom = []CustomCylinder{{Name: "a"}} }), "cylinders", -1, "are for 'layout: custom'", ""},
		{"custom without cylinders", Spec{Layout: "custom"}, "cylinders", -1, "needs the place of each cylinder", "x to the right"},
		{"custom with too many", Spec{Layout: "custom", Custom: make([]CustomCylinder, 65)}, "cylinders", 64, "at most 64", ""},
		{"custom without a place", Spec{Layout: "custom", Custom: []CustomCylinder{{"a", math.NaN(), 0, 1}}}, "cylinders", 0, "usable pair of numbers", ""},
		{"custom in one place", Spec{Layout: "custom", Custom: []CustomCylinder{{"a", 1, 1, 1}, {"b", 1, 1, 1}}}, "cylinders", 1, "same place", ""},
		{"custom without a head", Spec{Layout: "custom", Custom: []CustomCylinder{{"a", 1, 1, 1}, {"b", 1, 2, 0}}}, "cylinders", 1, "head of cylinder b is not given", "count from 1"},
		{"custom with heads twice", Spec{Layout: "custom", Custom: []CustomCylinder{{"a", 1, 1, 1}}, Heads: [][]string{{"a"}}}, "heads", -1, "given twice", ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, problems := New(tt.spec)
			found := slices.ContainsFunc(problems, func(p Problem) bool {
				return p.Field == tt.field && p.Index == tt.index && strings.Contains(p.Message, tt.message) && strings.Contains(p.Hint, tt.hint)
			})
			if !found {
				t.Errorf("want %s[%d] with %q, hint %q; got:\n%+v", tt.field, tt.index, tt.message, tt.hint, problems)
			}
			if len(problems) != 1 {
				t.Errorf("%d problems, want the one: %v", len(problems), problems)
			}
		})
	}
}

func TestAllProblemsAtOnce(t *testing.T) {
	e, problems := New(Spec{Layout: "inline-4", Numbering: AcrossBanks, Mount: "sideways",
		Heads: [][]string{{"1", "2", "3"}}, FiringOrder: []string{"1", "9"}})
	var fields []string
	for _, p := range problems {
		fields = append(fields, p.Field)
	}
	if diff := cmp.Diff([]string{"mount", "numbering", "heads", "firing-order", "firing-order"}, fields); diff != "" {
		t.Errorf("fields (-want +got):\n%s", diff)
	}
	if e == nil || len(e.Cylinders) != 4 || e.FiringOrder != nil {
		t.Errorf("engine %+v, want four cylinders to check names against", e)
	}
	if e, _ := New(Spec{Layout: "V8"}); e != nil {
		t.Errorf("an engine with unknown numbering has cylinders: %+v", e)
	}
}

// check holds for everything New returns, sound or not.
func check(t *testing.T, spec Spec) {
	e, problems := New(spec)
	if e == nil {
		if len(problems) == 0 {
			t.Fatalf("%+v: neither an engine nor a problem", spec)
		}
		return
	}
	for _, c := range e.Cylinders {
		if c.Head < 0 || !slices.Contains(e.Heads[c.Head], c.Name) {
			t.Fatalf("%+v: cylinder %q is not under its head", spec, c.Name)
		}
	}
	pairs := e.Neighbours()
	runs := e.NeighbourRuns(e.Names())
	inRuns := 0
	for _, run := range runs {
		inRuns += len(run)
	}
	if inRuns != len(e.Cylinders) || len(runs)+len(pairs) < len(e.Cylinders) {
		t.Fatalf("%+v: %d cylinders in runs %v with pairs %v", spec, len(e.Cylinders), runs, pairs)
	}
	if p := e.Plan(); math.IsNaN(p.Width) || math.IsInf(p.Height, 0) {
		t.Fatalf("%+v: plan of %g by %g", spec, p.Width, p.Height)
	}
}

// Junk made of plausible words, so that it gets past the first check.
func TestNewTakesJunk(t *testing.T) {
	words := []string{"", "1", "2", "3", "4", "L1", "R2", "left", "right", "front", "rear", "vehicle left", "é", "across banks", "bank by bank",
		"V2", "V4", "flat-4", "inline-3", "narrow-V4", "W8", "radial-3", "rotary-2", "custom", "single", Mid, FrontLengthwise, FrontCrosswiseLeft}
	layouts := words[15:25]
	r := rand.New(rand.NewPCG(1, 2))
	word := func() string { return words[r.IntN(len(words))] }
	list := func() []string {
		var out []string
		for range r.IntN(5) {
			out = append(out, word())
		}
		return out
	}
	for range 20000 {
		spec := Spec{Layout: layouts[r.IntN(len(layouts))], Numbering: word(), FirstBank: word(), Mount: word(),
			FiringOrder: list(), SeparateBarrels: r.IntN(4) == 0, Unnumbered: r.IntN(3) == 0}
		for range r.IntN(3) {
			spec.Banks = append(spec.Banks, BankSpec{word(), list()})
			spec.Heads = append(spec.Heads, list())
		}
		if r.IntN(2) == 0 {
			spec.Names = list()
		}
		for range r.IntN(4) {
			spec.Custom = append(spec.Custom, CustomCylinder{word(), float64(r.IntN(5)), float64(r.IntN(3)), r.IntN(3)})
		}
		check(t, spec)
	}
}

func FuzzNew(f *testing.F) {
	f.Add("V8", "across banks", "left", "left:1,3,5,7;right:2,4,6,8", "1,2;3", "1-8-4-3", "mid", 0.5, 1.0)
	f.Add("custom", "", "", "", "", "", "", math.MaxFloat64, math.Inf(-1))
	f.Add("narrow v 5", "", "rear", ":", ";", "-", ",", 0.0, 0.0)
	f.Fuzz(func(t *testing.T, layout, numbering, firstBank, banks, heads, order, mount string, x, y float64) {
		spec := Spec{Layout: layout, Numbering: numbering, FirstBank: firstBank, Mount: mount, FiringOrder: strings.Split(order, "-")}
		for i, bank := range strings.Split(banks, ";") {
			name, cylinders, _ := strings.Cut(bank, ":")
			spec.Banks = append(spec.Banks, BankSpec{name, strings.Split(cylinders, ",")})
			spec.Custom = append(spec.Custom, CustomCylinder{fmt.Sprint(i, name), x * float64(i), y, i})
		}
		for _, head := range strings.Split(heads, ";") {
			spec.Heads = append(spec.Heads, strings.Split(head, ","))
		}
		check(t, spec)
		spec.Banks, spec.Heads = nil, nil
		check(t, spec)
	})
}

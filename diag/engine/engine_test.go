package engine

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func mustNew(t *testing.T, spec Spec) *Engine {
	t.Helper()
	e, problems := New(spec)
	if len(problems) > 0 {
		t.Fatalf("New(%+v): %v", spec, problems)
	}
	return e
}

func acrossV8(first string) Spec {
	return Spec{Layout: "V8", Numbering: AcrossBanks, FirstBank: first}
}

// pairs reads "1-3 3-5" as pairs of names.
func pairs(text string) [][2]string {
	out := [][2]string{}
	for _, word := range strings.Fields(text) {
		a, b, _ := strings.Cut(word, "-")
		out = append(out, [2]string{a, b})
	}
	return out
}

// The numberings 1-3-5-7 / 2-4-6-8 and 1-2-3-4 / 5-6-7-8 of V engines: US Army
// TM 5-4210-230-14&P-1 ("odd bank", "even bank"); Auto Engine Repair (2021),
// p. 126. That the gasket between two bores joins cylinders beside each other
// in a bank, not consecutive numbers, follows from the geometry.
func TestNeighbours(t *testing.T) {
	tests := []struct {
		name string
		spec Spec
		want string
	}{
		{"V8 across banks", acrossV8("left"), "1-3 3-5 5-7 2-4 4-6 6-8"},
		{"V8 bank by bank", Spec{Layout: "V8", Numbering: BankByBank, FirstBank: "right"}, "1-2 2-3 3-4 5-6 6-7 7-8"},
		{"flat-4 across banks", Spec{Layout: "flat-4", Numbering: AcrossBanks, FirstBank: "right"}, "1-3 2-4"},
		{"flat-4 bank by bank", Spec{Layout: "flat-4", Numbering: BankByBank, FirstBank: "right"}, "1-2 3-4"},
		// Eight in a row: neighbours are n-1 and n+1 (common practice, no source).
		{"inline-8", Spec{Layout: "inline-8"}, "1-2 2-3 3-4 4-5 5-6 6-7 7-8"},
		{"inline-4 from the flywheel end", Spec{Layout: "inline-4", Banks: []BankSpec{{"row", []string{"4", "3", "2", "1"}}}}, "4-3 3-2 2-1"},
		// Two staggered rows under one head (common practice, no source).
		{"narrow-V6", Spec{Layout: "narrow-V6"}, "1-2 1-3 2-3 2-4 3-4 3-5 4-5 4-6 5-6"},
		{"W12 across banks", Spec{Layout: "W12", Numbering: AcrossBanks, FirstBank: "left"},
			"1-3 1-5 3-5 3-7 5-7 5-9 7-9 7-11 9-11 2-4 2-6 4-6 4-8 6-8 6-10 8-10 8-12 10-12"},
		{"W8 bank by bank", Spec{Layout: "W8", Numbering: BankByBank, FirstBank: "left"},
			"1-2 1-3 2-3 2-4 3-4 5-6 5-7 6-7 6-8 7-8"},
		{"separate barrels", Spec{Layout: "flat-4", Numbering: BankByBank, FirstBank: "right", SeparateBarrels: true}, ""},
		{"radial-7", Spec{Layout: "radial-7"}, ""},
		{"rotary-2", Spec{Layout: "rotary-2"}, ""},
		{"single", Spec{Layout: "single"}, ""},
		{"V2 by names", Spec{Layout: "V2", Banks: []BankSpec{{"left", []string{"left"}}, {"right", []string{"right"}}}}, ""},
		{"heads given", Spec{Layout: "inline-4", Heads: [][]string{{"1", "2"}, {"3", "4"}}}, "1-2 3-4"},
		{"heads given, not beside each other", Spec{Layout: "inline-4", Heads: [][]string{{"1", "3"}, {"2", "4"}}}, ""},
		{"both banks cast in one", Spec{Layout: "V4", Numbering: AcrossBanks, FirstBank: "left", Heads: [][]string{{"1", "2", "3", "4"}}}, "1-3 2-4"},
		{"custom square, no diagonals", Spec{Layout: "custom", Custom: []CustomCylinder{
			{"a", 0, 0, 1}, {"b", 100, 0, 1}, {"c", 0, 100, 1}, {"d", 100, 100, 1}}}, "a-b a-c b-d c-d"},
		{"custom, closest under each head", Spec{Layout: "custom", Custom: []CustomCylinder{
			{"a", 0, 0, 1}, {"b", 0, 3, 1}, {"c", 0, 6, 1}, {"d", 1, 0, 2}, {"e", 1, 1, 2}}}, "a-b b-c d-e"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			e := mustNew(t, tt.spec)
			want := pairs(tt.want)
			if diff := cmp.Diff(want, e.Neighbours()); diff != "" {
				t.Errorf("neighbours (-want +got):\n%s", diff)
			}
			for _, a := range e.Names() {
				for _, b := range e.Names() {
					inPairs := slices.Contains(want, [2]string{a, b}) || slices.Contains(want, [2]string{b, a})
					if e.AreNeighbours(a, b) != inPairs {
						t.Errorf("AreNeighbours(%s, %s) = %v, Neighbours says %v", a, b, !inPairs, inPairs)
					}
				}
			}
		})
	}
}

// A V4 outboard with cylinders named by place; upright, its "front" is its top.
func TestNamedCylinders(t *testing.T) {
	e := mustNew(t, Spec{Layout: "V4", Banks: []BankSpec{
		{"left", []string{"top left", "bottom left"}}, {"right", []string{"top right", "bottom right"}}}})
	want := [][2]string{{"top left", "bottom left"}, {"top right", "bottom right"}}
	if diff := cmp.Diff(want, e.Neighbours()); diff != "" {
		t.Errorf("neighbours (-want +got):\n%s", diff)
	}
	twin := mustNew(t, Spec{Layout: "V2", Names: []string{"front", "rear"}})
	if diff := cmp.Diff([]Bank{{"front", []string{"front"}}, {"rear", []string{"rear"}}}, twin.Banks); diff != "" {
		t.Errorf("banks of a twin (-want +got):\n%s", diff)
	}
	if got := twin.SideLabel(0); got != "front" {
		t.Errorf("side label = %q", got)
	}
	row := mustNew(t, Spec{Layout: "inline-2", Names: []string{"left", "right"}})
	if diff := cmp.Diff(pairs("left-right"), row.Neighbours()); diff != "" {
		t.Errorf("neighbours of a twin in a row (-want +got):\n%s", diff)
	}
}

func TestNeighbourRuns(t *testing.T) {
	narrow := Spec{Layout: "narrow-V6"}
	tests := []struct {
		name string
		spec Spec
		set  []string
		want [][]string
	}{
		{"1 and 3 on an odd/even V8", acrossV8("left"), []string{"3", "1"}, [][]string{{"1", "3"}}},
		{"1 and 2 on an odd/even V8", acrossV8("left"), []string{"1", "2"}, [][]string{{"1"}, {"2"}}},
		{"two runs", acrossV8("right"), []string{"1", "3", "7", "6", "8"}, [][]string{{"1", "3"}, {"7"}, {"6", "8"}}},
		{"middle pair", Spec{Layout: "inline-4"}, []string{"2", "3"}, [][]string{{"2", "3"}}},
		{"joined across rows", narrow, []string{"1", "4", "2"}, [][]string{{"1", "2", "4"}}},
		{"apart in the stagger", narrow, []string{"1", "4"}, [][]string{{"1"}, {"4"}}},
		{"unknown and doubled", Spec{Layout: "inline-4"}, []string{"9", "2", "2"}, [][]string{{"2"}}},
		{"none", Spec{Layout: "inline-4"}, nil, [][]string{}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if diff := cmp.Diff(tt.want, mustNew(t, tt.spec).NeighbourRuns(tt.set)); diff != "" {
				t.Errorf("runs (-want +got):\n%s", diff)
			}
		})
	}
}

func TestBanks(t *testing.T) {
	tests := []struct {
		name   string
		spec   Spec
		want   []Bank
		labels []string
	}{
		{"first bank first", acrossV8("right"),
			[]Bank{{"right", []string{"1", "3", "5", "7"}}, {"left", []string{"2", "4", "6", "8"}}}, []string{"vehicle right", "vehicle left"}},
		{"as listed", Spec{Layout: "V4", Banks: []BankSpec{{"Vehicle Left", []string{"2", "4"}}, {"right", []string{"1", "3"}}}},
			[]Bank{{"left", []string{"2", "4"}}, {"right", []string{"1", "3"}}}, []string{"vehicle left", "vehicle right"}},
		{"crosswise", Spec{Layout: "V6", Numbering: "Bank by bank", FirstBank: "rear", Mount: FrontCrosswiseLeft},
			[]Bank{{"rear", []string{"1", "2", "3"}}, {"front", []string{"4", "5", "6"}}}, []string{"rear", "front"}},
		{"both ways of saying it agree", Spec{Layout: "V4", Numbering: AcrossBanks, FirstBank: "right",
			Banks: []BankSpec{{"left", []string{"2", "4"}}, {"right", []string{"1", "3"}}}},
			[]Bank{{"left", []string{"2", "4"}}, {"right", []string{"1", "3"}}}, []string{"vehicle left", "vehicle right"}},
		{"twin without a numbering", Spec{Layout: "V2", FirstBank: "rear"},
			[]Bank{{"rear", []string{"1"}}, {"front", []string{"2"}}}, []string{"rear", "front"}},
		{"inline", Spec{Layout: "inline-2"}, []Bank{{"inline", []string{"1", "2"}}}, []string{""}},
		{"unnumbered", Spec{Layout: "V4", Unnumbered: true},
			[]Bank{{"left", []string{"L1", "L2"}}, {"right", []string{"R1", "R2"}}}, []string{"vehicle left", "vehicle right"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			e := mustNew(t, tt.spec)
			if diff := cmp.Diff(tt.want, e.Banks); diff != "" {
				t.Errorf("banks (-want +got):\n%s", diff)
			}
			for k, want := range tt.labels {
				if got := e.SideLabel(k); got != want {
					t.Errorf("SideLabel(%d) = %q, want %q", k, got, want)
				}
				for _, name := range e.Banks[k].Cylinders {
					if e.BankOf(name) != k {
						t.Errorf("BankOf(%s) = %d, want %d", name, e.BankOf(name), k)
					}
				}
			}
			if e.Numbered == tt.spec.Unnumbered {
				t.Errorf("Numbered = %v", e.Numbered)
			}
		})
	}
}

func TestCylindersInNumericalOrder(t *testing.T) {
	e := mustNew(t, Spec{Layout: "V12", Numbering: AcrossBanks, FirstBank: "left"})
	if diff := cmp.Diff(numbers(12), e.Names()); diff != "" {
		t.Errorf("names (-want +got):\n%s", diff)
	}
	if e.Index("10") != 9 || e.Index("13") != -1 || e.BankOf("13") != -1 {
		t.Errorf("Index(10) = %d, Index(13) = %d", e.Index("10"), e.Index("13"))
	}
}

func TestHeads(t *testing.T) {
	tests := []struct {
		name string
		spec Spec
		want [][]string
	}{
		{"one per bank", Spec{Layout: "V4", Numbering: AcrossBanks, FirstBank: "left"}, [][]string{{"1", "3"}, {"2", "4"}}},
		{"narrow V has one", Spec{Layout: "narrow-V4"}, [][]string{{"1", "2", "3", "4"}}},
		{"W has two", Spec{Layout: "W8", Numbering: BankByBank, FirstBank: "left"}, [][]string{{"1", "2", "3", "4"}, {"5", "6", "7", "8"}}},
		{"as listed", Spec{Layout: "inline-3", Heads: [][]string{{"2", "3"}, {"1"}}}, [][]string{{"2", "3"}, {"1"}}},
		{"separate", Spec{Layout: "inline-3", SeparateBarrels: true}, [][]string{{"1"}, {"2"}, {"3"}}},
		{"radial", Spec{Layout: "radial-3"}, [][]string{{"1"}, {"2"}, {"3"}}},
		{"custom", Spec{Layout: "custom", Custom: []CustomCylinder{{"a", 0, 0, 2}, {"b", 0, 9, 1}, {"c", 5, 0, 2}}}, [][]string{{"a", "c"}, {"b"}}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			e := mustNew(t, tt.spec)
			if diff := cmp.Diff(tt.want, e.Heads); diff != "" {
				t.Errorf("heads (-want +got):\n%s", diff)
			}
			for _, c := range e.Cylinders {
				if !slices.Contains(e.Heads[c.Head], c.Name) {
					t.Errorf("cylinder %s says head %d, which has %v", c.Name, c.Head, e.Heads[c.Head])
				}
			}
		})
	}
}

func TestParseLayout(t *testing.T) {
	good := map[string]string{"v8": "V8", "V-8": "V8", "Inline-4": "inline-4", "inline 4": "inline-4", "flat 4": "flat-4",
		"FLAT_6": "flat-6", "narrow-v6": "narrow-V6", "Narrow V 5": "narrow-V5", "w12": "W12", "radial 9": "radial-9",
		" rotary-2 ": "rotary-2", "Single": "single", "custom": "custom"}
	for text, want := range good {
		l, problem := ParseLayout(text)
		if problem != nil || l.String() != want {
			t.Errorf("ParseLayout(%q) = %v, %v; want %s", text, l, problem, want)
		}
	}
	bad := map[string]string{"i4": "inline-4", "L4": "inline-4", "straight-6": "inline-6", "boxer 4": "flat-4", "VR6": "narrow-V6",
		"inline-1": "single", "V5": "narrow-V5", "V18": "custom", "radial-4": "custom", "flat-5": "custom", "": "single, inline",
		"cheese": "single, inline", "V99999999999999999999": "single, inline", "boxer-5": "single, inline"}
	for text, hint := range bad {
		_, problem := ParseLayout(text)
		if problem == nil || problem.Field != "layout" || !strings.Contains(problem.Hint, hint) {
			t.Errorf("ParseLayout(%q): %+v; want a hint with %q", text, problem, hint)
		}
	}
}

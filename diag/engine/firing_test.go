package engine

import (
	"slices"
	"strings"
	"testing"
)

// Every firing order in the list has to be one of the engine it is listed for:
// New accepts only permutations. The sources stand beside the orders.
func TestFiringExamplesArePermutations(t *testing.T) {
	shown := map[string]bool{}
	for _, preset := range Known() {
		for _, f := range preset.Firing {
			shown[f.Layout+f.Order] = true
			spec := preset.Spec
			spec.FiringOrder = strings.Split(f.Order, "-")
			e, problems := New(spec)
			if len(problems) > 0 {
				t.Errorf("%s, %s: %v", preset.Name, f.Order, problems)
				continue
			}
			sorted := slices.Sorted(slices.Values(e.FiringOrder))
			if !slices.Equal(sorted, slices.Sorted(slices.Values(e.Names()))) {
				t.Errorf("%s: %v is no permutation", preset.Name, e.FiringOrder)
			}
			if f.Source == "" {
				t.Errorf("%s, %s: no source", preset.Name, f.Order)
			}
		}
	}
	for _, f := range firingExamples {
		if !shown[f.Layout+f.Order] {
			t.Errorf("%s %s is shown with no preset", f.Layout, f.Order)
		}
	}
}

// One firing order of one engine, written by place and by number, has to be
// the same order: pairs of published orders (flat-4 and flat-6 across the
// banks: FAA powerplant handbook text; V6: Auto Engine Repair (2021), p. 126;
// the orders by place and flat-6 bank by bank: common practice, no source).
func TestFiringOrdersByPlaceAndByNumberAgree(t *testing.T) {
	tests := []struct {
		layout, numbering, byPlace, byNumber string
	}{
		{"flat-4", AcrossBanks, "R1-R2-L1-L2", "1-3-2-4"},
		{"flat-6", AcrossBanks, "R1-L2-R3-L1-R2-L3", "1-4-5-2-3-6"},
		{"flat-6", BankByBank, "R1-L3-R2-L1-R3-L2", "1-6-2-4-3-5"},
		{"V6", AcrossBanks, "R1-L3-R3-L2-R2-L1", "1-6-5-4-3-2"},
	}
	for _, tt := range tests {
		e := mustNew(t, Spec{Layout: tt.layout, Numbering: tt.numbering, FirstBank: "right", FiringOrder: strings.Split(tt.byPlace, "-")})
		if got := strings.Join(e.FiringOrder, "-"); got != tt.byNumber {
			t.Errorf("%s %s: %s is %s by number, want %s", tt.layout, tt.numbering, tt.byPlace, got, tt.byNumber)
		}
		for i, name := range e.FiringOrder {
			if want := strings.Split(tt.byPlace, "-")[i]; e.Position(name) != want {
				t.Errorf("%s: Position(%s) = %s, want %s", tt.layout, name, e.Position(name), want)
			}
		}
	}
}

// Cylinders and rotors that have names of their own go by their numbers too:
// the order of the names.
func TestFiringOrderByNumber(t *testing.T) {
	tests := []struct {
		spec Spec
		want string // the order, or the problems
	}{
		{Spec{Layout: "rotary-2", Names: []string{"front", "rear"}, FiringOrder: []string{"1", "2"}}, "front-rear"},
		{Spec{Layout: "rotary-2", Names: []string{"front", "rear"}, FiringOrder: []string{"rear", "front"}}, "rear-front"},
		{Spec{Layout: "inline-3", Names: []string{"a", "b", "c"}, FiringOrder: []string{"1", "3", "2"}}, "a-c-b"},
		{Spec{Layout: "inline-3", Names: []string{"3", "2", "1"}, FiringOrder: []string{"1", "3", "2"}}, "1-3-2"},
		{Spec{Layout: "rotary-2", Names: []string{"front", "rear"}, FiringOrder: []string{"2", "3"}},
			"firing-order: the firing order names 2 and 3, but the engine has no such rotors"},
		{Spec{Layout: "rotary-2", Names: []string{"front", "rear"}, FiringOrder: []string{"1", "1"}},
			"firing-order: the firing order has rotor front twice and lacks rear"},
		{Spec{Layout: "inline-3", Names: []string{"a", "b", "c"}, FiringOrder: []string{"1", "2"}},
			"firing-order: the firing order lacks cylinder c"},
	}
	for _, tt := range tests {
		e, problems := New(tt.spec)
		got := strings.Join(e.FiringOrder, "-")
		if len(problems) > 0 {
			var said []string
			for _, p := range problems {
				said = append(said, p.Error())
			}
			got = strings.Join(said, "; ")
		}
		if got != tt.want {
			t.Errorf("%v of %v: %s, want %s", tt.spec.FiringOrder, tt.spec.Names, got, tt.want)
		}
	}
}

func TestFromPositions(t *testing.T) {
	lengthwise := mustNew(t, acrossV8("left"))
	crosswise := mustNew(t, Spec{Layout: "V4", Numbering: BankByBank, FirstBank: "front", Mount: FrontCrosswiseRight})
	got, err := crosswise.fromPositions([]string{"f1", "R2"})
	if err != nil || !slices.Equal(got, []string{"1", "4"}) {
		t.Errorf("f1, R2 of a crosswise V4 = %v, %v", got, err)
	}
	bad := []struct {
		e     *Engine
		place string
		want  string
	}{
		{lengthwise, "R5", "the right bank has 4"},
		{lengthwise, "F1", "the banks are left and right"},
		{lengthwise, "R0", "not a place"},
		{lengthwise, "", "not a place"},
		{mustNew(t, Spec{Layout: "inline-4"}), "L1", "two banks"},
	}
	for _, tt := range bad {
		if _, err := tt.e.fromPositions([]string{tt.place}); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("fromPositions(%q): %v, want %q", tt.place, err, tt.want)
		}
	}
}

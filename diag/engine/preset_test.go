package engine

import (
	"strings"
	"testing"
)

func TestDrawing(t *testing.T) {
	tests := []struct {
		spec Spec
		want string
	}{
		{Spec{Layout: "V6", Numbering: AcrossBanks, FirstBank: "right", Mount: FrontLengthwise}, `
^ front of the vehicle
^ front of the engine
(2)      (1)
(4)      (3)
(6)      (5)
right 1-3-5 / left 2-4-6
`},
		{Spec{Layout: "V6", Numbering: BankByBank, FirstBank: "rear", Mount: FrontCrosswiseRight}, `
^ front of the vehicle
> front of the engine
(6)  (5)  (4)

(3)  (2)  (1)
rear 1-2-3 / front 4-5-6
`},
		{Spec{Layout: "narrow-V4"}, `
^ front of the engine
(1)
    (2)
(3)
    (4)
`},
		{Spec{Layout: "radial-3"}, `
seen from the rear
  (1)

(3)  (2)
`},
	}
	for _, tt := range tests {
		if got := mustNew(t, tt.spec).Drawing(); got != strings.TrimPrefix(tt.want, "\n") {
			t.Errorf("%s:\n%s\nwant:%s", tt.spec.Layout, got, tt.want)
		}
	}
}

// Every cylinder must be in its preset's drawing, once.
func TestKnown(t *testing.T) {
	seen := map[string]bool{}
	for _, p := range Known() {
		if seen[p.Name] {
			t.Errorf("%s is listed twice", p.Name)
		}
		seen[p.Name] = true
		for _, name := range mustNew(t, p.Spec).Names() {
			if n := strings.Count(p.Drawing, "("+name+")"); n != 1 {
				t.Errorf("%s: cylinder %s is drawn %d times", p.Name, name, n)
			}
		}
	}
	for _, name := range []string{"single", "inline-12", "V2", "V16, bank by bank", "flat-12, across banks", "narrow-V5",
		"W12, across banks", "radial-9", "rotary-4", "custom"} {
		if !seen[name] {
			t.Errorf("%s is not listed", name)
		}
	}
}

func TestSpecForAndFind(t *testing.T) {
	tests := []struct{ name, numbering, found string }{
		{"v8", "", "V8, across banks"},
		{"V8, bank by bank", BankByBank, "V8, bank by bank"},
		{"v8 Bank-by-bank", BankByBank, "V8, bank by bank"},
		{"inline 4", "", "inline-4"},
		{"flat-2", "", "flat-2"},
		{"custom", "", "custom"},
	}
	for _, tt := range tests {
		spec, problem := SpecFor(tt.name)
		if problem != nil || spec.Numbering != tt.numbering {
			t.Errorf("SpecFor(%q) = %+v, %v", tt.name, spec, problem)
		}
		if p, ok := Find(tt.name); !ok || p.Name != tt.found {
			t.Errorf("Find(%q) = %q, %v; want %q", tt.name, p.Name, ok, tt.found)
		}
	}
	for _, name := range []string{"", "V8, sideways", "V8,", "inline-4, across banks", "boxer-4"} {
		if spec, problem := SpecFor(name); problem == nil {
			t.Errorf("SpecFor(%q) = %+v, want a problem", name, spec)
		}
		if _, ok := Find(name); ok {
			t.Errorf("Find(%q) found one", name)
		}
	}
}

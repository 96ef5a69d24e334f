package engine

import (
	"slices"
	"strings"
	"testing"
)

// Of every layout of two banks all numberings are drawn, in lines that fit a
// terminal; of others there is nothing to choose.
func TestDrawChoices(t *testing.T) {
	for _, p := range Known() {
		e := mustNew(t, p.Spec)
		choices := Choices(p.Spec.Layout)
		if e.IsTwoBank() != (len(choices) > 0) {
			t.Errorf("%s has %d ways of numbering", p.Name, len(choices))
		}
		if p.Spec.Numbering != "" && !slices.Contains(choices, Choice{p.Spec.Numbering, p.Spec.FirstBank}) {
			t.Errorf("%s is none of %v", p.Name, choices)
		}
		drawing := strings.Join(DrawChoices(p.Spec.Layout), "\n")
		for _, name := range e.Names() {
			if n := strings.Count(drawing, "("+name+")"); n != len(choices) {
				t.Errorf("%s: cylinder %s is drawn %d times:\n%s", p.Name, name, n, drawing)
			}
		}
		for line := range strings.Lines(drawing) {
			if len(line) > 79 {
				t.Errorf("%s: a line is too wide:\n%s", p.Name, drawing)
			}
		}
	}
	want := `
1                 2
^ front           ^ front
(1)      (2)      (2)      (1)
1 on the left     1 on the right`
	if got := "\n" + strings.Join(DrawChoices("V2"), "\n"); got != want {
		t.Errorf("%s", got)
	}
}

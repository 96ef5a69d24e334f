package figure

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"gaugesheet/layout"
	"gaugesheet/layout/face"
)

// A check shows all its outcomes at every level and width, and where each
// leads as long as it is not at its least.
func TestForksHaveEveryOutcome(t *testing.T) {
	for seed := range many(60) {
		r := rand.New(rand.NewPCG(seed, 5))
		d := randomCheck(r)
		for i := range d.Outcomes {
			d.Outcomes[i].Next = fmt.Sprintf("Next %d", i)
		}
		for _, level := range everyLevel {
			width := oneOf[layout.Length](r, 180, 216, 262, 541)
			rec, area := drawn(t, NewNextCheck(d), width, level, 0)
			what := fmt.Sprintf("seed %d, %d outcomes, %s, %.0f pt", seed, len(d.Outcomes), level, width)
			checkDrawn(t, what, rec, area)
			text := textOf(rec)
			for i := range d.Outcomes {
				if !strings.Contains(text, fmt.Sprintf("Outcome%d", i)) {
					t.Errorf("%s: outcome %d is missing", what, i)
				}
				if level != layout.Brief && !strings.Contains(text, fmt.Sprintf("Next%d", i)) {
					t.Errorf("%s: what comes after outcome %d is missing", what, i)
				}
			}
		}
	}
}

// An arrow leads to every outcome of a fork.
func TestForksHaveAnArrowForEachOutcome(t *testing.T) {
	for n := 1; n <= 6; n++ {
		d := NextCheck{Title: "Next check", Do: "Listen at the plug hole."}
		for i := range n {
			d.Outcomes = append(d.Outcomes, Outcome{If: fmt.Sprintf("Outcome %d", i), Then: "the gasket"})
		}
		for _, width := range []layout.Length{216, 541} {
			rec, _ := drawn(t, NewNextCheck(d), width, layout.Full, 0)
			heads := 0
			for _, line := range rec.Lines() {
				if strings.HasPrefix(line, "fill") {
					heads++
				}
			}
			if heads != n {
				t.Errorf("%d outcomes in %.0f pt have %d arrows", n, width, heads)
			}
		}
	}
}

// The headline is as large as leaves it one line, and never under 15 points
// where it is 21 by design; question and word of each answer always stand.
func TestVerdictsKeepTheirSize(t *testing.T) {
	th := DefaultTheme(face.Metrics())
	th.Sizes[layout.Display] = 21
	for words := 1; words <= 30; words++ {
		d := Verdict{Mark: Low, Sentence: strings.TrimSpace(strings.Repeat("cylinder ", words)),
			Answers: []Answer{{"How urgent", "Act soon", "before parts are bought", 0, false}, {"How sure", "Fair", "one test", 2, false}}}
		for _, level := range everyLevel {
			if size := headlineFace(th, d.Sentence, 500, level).Size; size < 15 || size > 21 {
				t.Errorf("%d words, %s: the headline is set in %.1f pt", words, level, size)
			}
			rec, _ := drawn(t, NewVerdict(d), 541, level, 0)
			for _, want := range []string{"Howurgent", "Actsoon", "Howsure", "Fair"} {
				if !strings.Contains(textOf(rec), want) {
					t.Errorf("%s: %q is missing", level, want)
				}
			}
		}
	}
}

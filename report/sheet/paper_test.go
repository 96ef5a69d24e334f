package sheet_test

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/layout"
	"gaugesheet/layout/figure"
	"gaugesheet/layout/record"
	"gaugesheet/report/job"
	"gaugesheet/templates"
)

// mostHole is how much empty paper a column may show on a page that leaves
// something out, beside the space between rows: a template's, and what free
// height adds to it.
const mostHole = 12*layout.MM + (5+12)*layout.Pt

// checkNoHoles fails where a page says that it has no room for something and
// yet has.
func checkNoHoles(t *testing.T, rec *record.Recorder, kind, paper string) {
	t.Helper()
	if !leavesOut(t, rec) {
		return
	}
	for _, h := range holes(rec, printable(paper)) {
		if h.height > mostHole {
			t.Errorf("%s: something is left out, and %v", kind, h)
		}
	}
}

// A hole is empty paper in a column, below the block that it follows.
type hole struct {
	below  string
	height layout.Length
}

func (h hole) String() string {
	return fmt.Sprintf("%.0f mm are empty below %s", h.height.MM(), h.below)
}

// holes are the empty stretches of the page's columns: from the ink of each
// block to that of the next one under it, or to the page's foot. The room above
// a line to sign on is not empty: a name goes there.
func holes(rec *record.Recorder, page layout.Rect) []hole {
	type block struct {
		name      string
		area, ink layout.Rect
	}
	var blocks []block
	for _, b := range rec.Boxes() {
		if ink, ok := rec.Ink(b.Name); ok && !strings.Contains(b.Name, "/") {
			blocks = append(blocks, block{b.Name, b.Rect, ink})
		}
	}
	var all []hole
	for _, a := range blocks {
		end := page.Bottom()
		for _, b := range blocks {
			beside := b.area.X >= a.area.Right()-1 || a.area.X >= b.area.Right()-1
			if b.area.Y <= a.area.Y || beside {
				continue
			}
			if b.name == "sign-off" {
				end = min(end, b.area.Y)
			}
			end = min(end, b.ink.Y)
		}
		all = append(all, hole{a.name, end - a.ink.Bottom()})
	}
	return all
}

// words are the catalogue's, as the pages of these tests have them.
func words(t *testing.T) *templates.Catalogue {
	t.Helper()
	c, err := templates.Words("en")
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// leavesOut tells whether a page says that it leaves something out.
func leavesOut(t *testing.T, rec *record.Recorder) bool {
	t.Helper()
	text := strings.Join(strings.Fields(pageText(rec)), " ")
	said, err := words(t).Label("finding.more", diag.Facts{"findings": 0, "reasons": true, "suspected": false, "doubts": false})
	if err != nil {
		t.Fatal(err)
	}
	lead, _, _ := strings.Cut(said, ":")
	inFull, err := words(t).Label("work.in-full", nil)
	if err != nil {
		t.Fatal(err)
	}
	return strings.Contains(text, lead+":") || strings.Contains(text, inFull)
}

// squeezed is a text as it can be looked for on a page, wherever its lines end.
func squeezed(s string) string {
	return strings.NewReplacer(" ", "", "\n", "", "\u00a0", "", "\u202f", "", "·", "").Replace(s)
}

// checkShopsWords fails where a text that the shop wrote is not on the page,
// unless the page says where it stands; what is recommended and declined, and
// the shop's terms, then stand there with their first words.
func checkShopsWords(t *testing.T, rec *record.Recorder, j *job.Job, kind string) {
	t.Helper()
	page := squeezed(pageText(rec))
	out := leavesOut(t, rec)
	look := func(what string, always bool, texts ...job.Text) {
		for _, text := range texts {
			if text.Value == "" || strings.Contains(page, squeezed(text.Value)) {
				continue
			}
			first := strings.Fields(text.Value)
			if !out || always && !strings.Contains(page, squeezed(strings.Join(first[:min(3, len(first))], ""))) {
				t.Errorf("%s: %s %q is not on the page, which says nothing of it", kind, what, text.Value)
			}
		}
	}
	look("recommended", true, j.Recommended...)
	look("declined", true, j.Declined...)
	look("the disclaimer", true, j.Shop.Disclaimer)
	look("the finding", false, j.Findings...)
	look("the note", false, j.Notes)
	look("the code", false, j.Vehicle.Codes...)
	look("the work done", false, j.Vehicle.WorkDone...)
	for _, photo := range j.Photos {
		look("the photo", false, photo.Shows)
	}
}

// noNumber is what numbers look like that went wrong.
var noNumber = regexp.MustCompile(`NaN|[+-]?\bInf\b|%!|\bnil\b|<no value>|(^|[\s(])[-−]0([^\d.]|$)`)

func checkNumbers(t *testing.T, rec *record.Recorder, kind string) {
	t.Helper()
	for _, text := range rec.Texts() {
		if bad := noNumber.FindString(text.String); bad != "" {
			t.Errorf("%s: %q in %q", kind, bad, text.String)
		}
	}
}

// checkLineEnds fails where a line ends in a separator.
func checkLineEnds(t *testing.T, rec *record.Recorder, kind string) {
	t.Helper()
	for _, a := range rec.Texts() {
		last := strings.HasSuffix(strings.TrimRight(a.String, " "), "·")
		for _, b := range rec.Texts() {
			last = last && !(b.Block == a.Block && b.Rect.X > a.Rect.X && b.Rect.Y < a.Rect.Bottom() && a.Rect.Y < b.Rect.Bottom())
		}
		if last {
			t.Errorf("%s: a line ends in a separator: %q", kind, a.String)
		}
	}
}

// twoMarks are marks where a word between them is missing.
var twoMarks = regexp.MustCompile(`[,;:] ?[.,;:](\s|$)`)

// checkMarks fails where a sentence has lost the words between two marks.
func checkMarks(t *testing.T, rec *record.Recorder, kind string) {
	t.Helper()
	for _, a := range rec.Texts() {
		if twoMarks.MatchString(a.String) {
			t.Errorf("%s: words are missing in %q", kind, a.String)
		}
	}
}

// checkTabs fails where a cylinder is nowhere in a tab: its number in the
// colour of the paper.
func checkTabs(t *testing.T, rec *record.Recorder, test *diag.Test, kind string) {
	t.Helper()
	paper := figure.DefaultTheme(rec.Measurer).Paper
	tabs := map[string]bool{}
	for _, text := range rec.Texts() {
		if text.Color == paper {
			tabs[text.String] = true
		}
	}
	for _, c := range test.Engine.Cylinders {
		if !tabs[c.Name] {
			t.Errorf("%s: cylinder %s is in no tab", kind, c.Name)
		}
	}
}

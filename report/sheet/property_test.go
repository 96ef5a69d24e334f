package sheet_test

import (
	"flag"
	"fmt"
	"regexp"
	"strings"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
	"gaugesheet/layout"
	"gaugesheet/layout/face"
	"gaugesheet/layout/record"
	"gaugesheet/report/job"
	"gaugesheet/report/sheet"
)

// jobs is how many random jobs are put on every sheet.
var jobs = flag.Int("jobs", 200, "how many random jobs are put on every sheet")

// A random job must go on one page of every kind of sheet, whole and legible,
// with every reading on it and the findings in order of urgency.
func TestRandomJobsOnEverySheet(t *testing.T) {
	papers := []string{"letter", "a4", "legal"}
	for seed := range many(*jobs) {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			t.Parallel()
			text := randomJob(seed)
			j := readJob(t, "random.yaml", []byte(text))
			for kind := range smallestType {
				checkRandom(t, j, kind, papers[seed%3])
			}
			if t.Failed() && testing.Verbose() {
				t.Log(text)
			}
		})
	}
}

func checkRandom(t *testing.T, j *job.Job, kind, paper string) {
	t.Helper()
	d := diagnosed(j)
	s, err := sheet.New(j, d, sheet.Options{Kind: kind, Paper: paper, Version: "test"})
	if err != nil {
		t.Errorf("%s (%d cylinders): %v", j.Test().Engine.Layout, len(j.Test().Engine.Cylinders), err)
		return
	}
	rec := record.New(face.Metrics())
	s.Draw(rec)
	checkPage(t, rec, kind, paper)
	checkNumbers(t, rec, kind)
	checkLineEnds(t, rec, kind)
	checkMarks(t, rec, kind)
	if kind == "blank" {
		return
	}
	checkReadings(t, rec, j.Test(), d, kind)
	checkFindingOrder(t, rec, d, kind)
	checkTabs(t, rec, j.Test(), kind)
	checkShopsWords(t, rec, j, kind)
	checkNoHoles(t, rec, kind, paper)
}

// checkReadings fails where a reading is nowhere on the page: a band with its
// ends, the middle of other repeats with the decimal that it has.
func checkReadings(t *testing.T, rec *record.Recorder, test *diag.Test, d *diag.Diagnosis, kind string) {
	t.Helper()
	page := map[string]bool{}
	for _, word := range strings.FieldsFunc(pageText(rec), func(r rune) bool { return strings.ContainsRune(" \n/(),;:~+", r) }) {
		page[strings.TrimRight(word, ".")] = true
	}
	broken := strings.ReplaceAll(pageText(rec), "\n", "") // a word may be broken after its hyphen
	want := func(what, value string) {
		for _, word := range strings.Fields(value) {
			if !page[word] && !(strings.Contains(word, "-") && strings.Contains(broken, word)) {
				t.Errorf("%s: %s %q is not on the page", kind, what, value)
				return
			}
		}
	}
	number := func(what string, value *float64, decimals int) {
		if value != nil {
			want(what, quantity.Format(*value, quantity.DecimalsRead(*value, decimals)))
		}
	}
	if c := d.Compression; c != nil {
		for _, r := range c.Cylinders {
			if half := test.Compression.Dry[r.Name].HalfWidth; r.Dry != nil && half > 0 {
				end := func(v float64) string { return quantity.Format(v, quantity.DecimalsRead(v, c.Decimals)) }
				want("band of "+r.Name, end(*r.Dry-half)+"–"+end(*r.Dry+half))
			} else {
				number("compression of "+r.Name, r.Dry, c.Decimals)
			}
			number("compression with oil of "+r.Name, r.Wet, c.Decimals)
		}
	}
	if l := d.Leakage; l != nil {
		for _, r := range l.Cylinders {
			number("leakage of "+r.Name, r.Loss, 0)
		}
	}
	if p := d.Plugs; p != nil {
		for _, r := range p.Cylinders {
			want("plug of "+r.Name, r.Look)
		}
	}
	if r := d.Rotors; r != nil {
		for _, rotor := range r.Rotors {
			for _, v := range rotor.Values {
				number("face of "+rotor.Name, &v, r.Decimals)
			}
		}
	}
	if f := d.Fuel; f != nil {
		for _, c := range f.Circuits {
			for _, r := range c.Readings {
				number("fuel pressure, "+r.Name, &r.Value, f.Decimals)
			}
			for _, h := range c.Hold {
				number("held pressure", &h.Value, f.Decimals)
			}
		}
	}
}

// urgencyOf is the urgency behind what a finding begins with.
var urgencyOf = regexp.MustCompile(`[:;] (check again|act soon|do not run until checked|no action)\.`)

// checkFindingOrder fails where a less urgent finding stands before a more
// urgent one, or the most urgent is not there.
func checkFindingOrder(t *testing.T, rec *record.Recorder, d *diag.Diagnosis, kind string) {
	t.Helper()
	rank := map[string]int{}
	for _, u := range []diag.Urgency{diag.NoAction, diag.CheckAgain, diag.ActSoon, diag.DoNotRun} {
		rank[string(u)] = u.Rank()
	}
	last, first := 99, true
	text := ""
	for _, part := range rec.Texts() {
		if strings.HasSuffix(part.Block, "findings") && !strings.HasSuffix(part.Block, "own-findings") {
			text += " " + strings.ReplaceAll(part.String, "\u00a0", " ")
		}
	}
	text = strings.Join(strings.Fields(text), " ")
	for _, said := range urgencyOf.FindAllStringSubmatch(text, -1) {
		r := rank[said[1]]
		if r > last {
			t.Errorf("%s: a finding of %q stands after one of less urgency", kind, said[1])
		}
		if first && r != d.Stories[0].Urgency.Rank() {
			t.Errorf("%s: the first finding on the page is not the most urgent", kind)
		}
		last, first = r, false
	}
	if first && len(d.Findings) > 0 && d.Urgency != diag.NoAction { // what asks for nothing has no urgency
		t.Errorf("%s: no finding is on the page", kind)
	}
}

// Every word on a page is pure black, or white in a tab: a fax and a one-colour
// printer break any other ink up into dots.
func TestWordsAreBlack(t *testing.T) {
	black, white := layout.Color{}, layout.Color{R: 0xff, G: 0xff, B: 0xff}
	for _, path := range examples(t) {
		j := readExample(t, path)
		for kind := range smallestType {
			for _, text := range drawn(t, j, kind, papersOf(path)[0]).Texts() {
				if text.Color != black && text.Color != white {
					t.Errorf("%s, %s: %q is in %v", path, kind, text.String, text.Color)
				}
			}
		}
	}
}

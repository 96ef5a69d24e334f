package sheet_test

import (
	"slices"
	"strings"
	"testing"

	"gaugesheet/report/conform"
	"gaugesheet/report/sheet"
)

// heardOn is what one hears of a job's sheet, part by part.
func heardOn(t *testing.T, text, kind string) []string {
	t.Helper()
	j := readJob(t, "job.yaml", []byte(text))
	s, err := sheet.New(j, diagnosed(j), sheet.Options{Kind: kind, Paper: "letter", Version: "test"})
	if err != nil {
		t.Fatal(err)
	}
	file, err := s.PDF()
	if err != nil {
		t.Fatal(err)
	}
	r, err := conform.Check(file)
	if err != nil {
		t.Fatal(err)
	}
	for i, said := range r.Heard {
		r.Heard[i] = strings.TrimSpace(said)
	}
	return r.Heard
}

const heardJob = `job: {number: W-1}
engine: {layout: inline-4, fuel: petrol}
compression: {unit: psi, dry: {1: 150, 2: 152, 3: could not test (plug seized), 4: 96}, limits: {minimum: 116 psi, difference: 20 psi}}
leakage: {limit: 20 %, dry: {1: {loss: 8 %}, 2: {loss: 9 %}, 3: could not test (plug seized), 4: {loss: 34 %, at: [exhaust]}}}
`

// A heading that text runs on from is heard as one, on every sheet that has it;
// so are the steps of the bench.
func TestHeadingsAreHeard(t *testing.T) {
	for kind, headings := range map[string][]string{
		"customer": {"Cautions", "Next check", "What we found"}, "invoice": {"Cautions"}, "pre-purchase": {"Cautions", "How we tested"},
		"workshop": {"Cautions", "How we tested", "Sums", "Readings", "Limits"}, "blank": {"L Plugs out", "M Dry", "Q Before it leaves"},
	} {
		heard := heardOn(t, heardJob, kind)
		for _, h := range headings {
			if !slices.Contains(heard, "H2: "+h) {
				t.Errorf("%s: the heading %q is not heard by itself", kind, h)
			}
		}
	}
}

// What could not be tested is heard with that, not only with the reason; and a
// mark beside a grade says nothing that the grade says.
func TestStatesAreHeardOnce(t *testing.T) {
	all := strings.Join(heardOn(t, heardJob, "customer"), "\n")
	if !strings.Contains(all, "3: could not test: plug seized") {
		t.Errorf("it is not heard that 3 could not be tested:\n%s", all)
	}
	heard := heardOn(t, heardJob, "workshop")
	if !slices.Contains(heard, "TD: low") {
		t.Errorf("the grade of 4 is not heard by itself in %q", heard)
	}
}

// What is outside its limit has the symbol of the side on which it is.
func TestMarksOfLimitsPointTheirWay(t *testing.T) {
	heard := heardOn(t, heardJob, "workshop")
	for words, sign := range map[string]string{"minimum 116": "too low", "apart, up to 20": "too high", "air lost, up to 20 %": "too high"} {
		at := slices.Index(heard, "TH: "+words)
		if at < 0 || at+2 >= len(heard) || heard[at+2] != "TD: "+sign+" outside" {
			t.Errorf("one does not hear of %q that it is %s", words, sign)
		}
	}
}

package sheet_test

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"gaugesheet/layout/record"
)

// saidTwice gives the sentences of six words and more that stand twice on a
// page.
func saidTwice(rec *record.Recorder) []string {
	blocks, order := map[string]string{}, []string{}
	for _, text := range rec.Texts() {
		if _, known := blocks[text.Block]; !known {
			order = append(order, text.Block)
		}
		blocks[text.Block] += " " + strings.ReplaceAll(text.String, "\u00a0", " ")
	}
	const long = 6
	var twice []string
	count := map[string]int{}
	for _, name := range order {
		for _, s := range sentence.Split(strings.Join(strings.Fields(blocks[name]), " "), -1) {
			s = strings.ToLower(strings.Trim(lead.ReplaceAllString(quoted.ReplaceAllString(s, ""), ""), " ."))
			if len(strings.Fields(s)) < long {
				continue
			}
			if count[s]++; count[s] == 2 {
				twice = append(twice, s)
			}
		}
	}
	return twice
}

// quoted is a pointer to what was said.
var quoted = regexp.MustCompile(`“[^”]*”`)

// lead is a word before sentences that run on from it.
var lead = regexp.MustCompile(`^\s*\pL+: `)

var sentence = regexp.MustCompile(`[.!?] `)

// An owner's page says nothing twice: not in headline and finding, not in two
// findings, not in remarks.
func TestOwnersPagesSayThingsOnce(t *testing.T) {
	paths, err := filepath.Glob("../cases/testdata/*.yaml")
	if err != nil || len(paths) < 100 {
		t.Fatalf("expected the cases, found %d (%v)", len(paths), err)
	}
	once := func(name, folder string, data []byte) {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			for _, s := range saidTwice(drawn(t, readJobIn(t, folder, name, data), "customer", "")) {
				t.Errorf("stands twice: %q", s)
			}
		})
	}
	paths = paths[:many(len(paths))]
	for _, path := range append(paths, examples(t)...) {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		once(filepath.Base(path), filepath.Dir(path), data)
	}
	for seed := range many(60) {
		once(fmt.Sprint("random ", seed), examplesDir, []byte(randomJob(seed)))
	}
}

// What leads a story of its own is not told among the reasons of another, and who is
// meant is not named again in each sentence.
func TestReasonsAreNoTitles(t *testing.T) {
	data := "engine: {layout: V8, fuel: petrol, numbering: across banks, first-bank: left, lifters: hydraulic}\nconditions: {engine: cold, throttle: open, plugs-out: all, strokes: 6}\nvehicle: {stood: 6 years}\n" +
		"compression: {unit: psi, dry: {1: 60, 2: 120, 3: 118, 4: 0, 5: 64, 6: 122, 7: 117, 8: 121}, wet: {1: 110, 2: 128, 4: 0, 5: 112}, oil: 6 ml}\n"
	page := strings.Join(strings.Fields(pageText(drawn(t, readJob(t, "stood.yaml", []byte(data)), "customer", "letter"))), " ")
	if n := strings.Count(page, "which alone can lower readings"); n != 1 {
		t.Errorf("that the engine stood is said %d times: %s", n, page)
	}
	for _, says := range []string{"Also: It stayed low with oil.", "do not lie side by side. They came up with oil."} {
		if !strings.Contains(page, says) {
			t.Errorf("%q is not said: %s", says, page)
		}
	}
}

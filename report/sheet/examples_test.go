package sheet_test

import (
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/story"
	"gaugesheet/layout"
	"gaugesheet/layout/face"
	"gaugesheet/layout/record"
	"gaugesheet/report/job"
	"gaugesheet/report/sheet"
)

const examplesDir = "../../examples"

// examples are the names of the example jobs.
func examples(t testing.TB) []string {
	t.Helper()
	paths, err := filepath.Glob(filepath.Join(examplesDir, "*.yaml"))
	if err != nil || len(paths) < 8 {
		t.Fatalf("expected at least eight examples, found %d (%v)", len(paths), err)
	}
	return paths
}

// exampleJobs has those that were read, by their paths: many tests look at the same
// sheets of them.
var exampleJobs, exampleSheets sync.Map

func readExample(t testing.TB, path string) *job.Job {
	t.Helper()
	if j, read := exampleJobs.Load(path); read {
		return j.(*job.Job)
	}
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	j, _ := exampleJobs.LoadOrStore(path, readJob(t, path, data))
	return j.(*job.Job)
}

func readJob(t testing.TB, path string, data []byte) *job.Job {
	t.Helper()
	return readJobIn(t, examplesDir, path, data)
}

// readJobIn reads a job whose files are in a folder.
func readJobIn(t testing.TB, folder, path string, data []byte) *job.Job {
	t.Helper()
	j, problems := job.Reader{
		Open:     func(name string) ([]byte, error) { return os.ReadFile(filepath.Join(folder, name)) },
		HasGlyph: face.Metrics().Has,
	}.Read(path, data)
	if len(problems) > 0 {
		t.Fatalf("%v\n%s", problems, data)
	}
	return j
}

// diagnoses has those that were made: a job is diagnosed once, however many
// sheets of it are drawn.
var diagnoses sync.Map

func diagnosed(j *job.Job) *diag.Diagnosis {
	made, _ := diagnoses.LoadOrStore(j, sync.OnceValue(func() *diag.Diagnosis { return story.Diagnose(j.Test()) }))
	return made.(func() *diag.Diagnosis)()
}

// many is how often a test tries what is made at random: a tenth with -short.
func many(n int) uint64 {
	if testing.Short() {
		n = max(n/10, 1)
	}
	return uint64(n)
}

// papersOf are the papers that an example is drawn on: all, one with -short.
func papersOf(path string) []string {
	papers := []string{"letter", "a4", "legal"}
	if testing.Short() {
		return papers[len(path)%len(papers):][:1]
	}
	return papers
}

// drawn records a job's sheet; that of an example once, however many tests look at it.
func drawn(t testing.TB, j *job.Job, kind, paper string) *record.Recorder {
	t.Helper()
	if kept, _ := exampleJobs.Load(j.Name); kept != j {
		return drawnAnew(t, j, kind, paper)
	}
	of := [3]string{j.Name, kind, paper}
	if rec, made := exampleSheets.Load(of); made {
		return rec.(*record.Recorder)
	}
	rec, _ := exampleSheets.LoadOrStore(of, drawnAnew(t, j, kind, paper))
	return rec.(*record.Recorder)
}

func drawnAnew(t testing.TB, j *job.Job, kind, paper string) *record.Recorder {
	t.Helper()
	s, err := sheet.New(j, diagnosed(j), sheet.Options{Kind: kind, Paper: paper, Version: "test"})
	if err != nil {
		t.Fatalf("%s on %s: %v", kind, paper, err)
	}
	rec := record.New(face.Metrics())
	s.Draw(rec)
	return rec
}

// printable is the page inside the margins: 10 mm, and 15 mm where it is bound.
func printable(paper string) layout.Rect {
	size := map[string]layout.Size{
		"letter": {W: 612, H: 792}, "legal": {W: 612, H: 1008}, "a4": {W: 210 * layout.MM, H: 297 * layout.MM},
	}[paper]
	return layout.Rect{X: 15 * layout.MM, Y: 10 * layout.MM, W: size.W - 25*layout.MM, H: size.H - 20*layout.MM}
}

// smallestType is the least size of type on each kind of sheet, in points.
var smallestType = map[string]layout.Length{"customer": 8, "invoice": 8, "workshop": 7.5, "pre-purchase": 7.5, "blank": 7.5}

// checkPage fails where two texts overlap, one leaves the margins, or type is
// too small to read.
func checkPage(t *testing.T, rec *record.Recorder, kind, paper string) {
	t.Helper()
	if len(rec.Texts()) == 0 {
		t.Error("nothing was drawn")
	}
	for _, pair := range rec.Overlaps() {
		t.Errorf("overlap: %v", pair)
	}
	for _, outside := range rec.Outside(printable(paper)) {
		t.Errorf("outside the margins: %s", outside)
	}
	for _, text := range rec.Texts() {
		if text.Face.Size < smallestType[kind]-0.001 {
			t.Errorf("%q is set in %.2f pt", text.String, text.Face.Size)
		}
	}
}

func pageText(rec *record.Recorder) string {
	var b strings.Builder
	for _, text := range rec.Texts() {
		b.WriteString(strings.ReplaceAll(text.String, "\u00a0", " "))
		b.WriteByte('\n')
	}
	return b.String()
}

func TestEveryExampleOnEverySheet(t *testing.T) {
	for _, path := range examples(t) {
		j := readExample(t, path)
		for kind := range smallestType {
			for _, paper := range papersOf(path) {
				t.Run(strings.TrimSuffix(filepath.Base(path), ".yaml")+"/"+kind+"/"+paper, func(t *testing.T) {
					checkPage(t, drawn(t, j, kind, paper), kind, paper)
				})
			}
		}
	}
}

package archive

import (
	"bytes"
	"cmp"
	"errors"
	"flag"
	"fmt"
	"image"
	"image/jpeg"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime/debug"
	"testing"
	"time"

	"gaugesheet/diag/story"
	"gaugesheet/layout/face"
	"gaugesheet/report/budget"
	"gaugesheet/report/job"
	"gaugesheet/report/sheet"
	"gaugesheet/templates"
)

var files = flag.Int("files", 120, "how many damaged files are read in TestDamagedFiles")

// A kind of file that the program reads, and how it is damaged and read. Reading
// gives what came of it in a word.
type fileKind struct {
	name   string
	seeds  func(testing.TB) [][]byte
	damage func(spoiler, []byte) []byte
	read   func(testing.TB, []byte) string
}

// fileKinds are all kinds of files that come from elsewhere.
var fileKinds = []fileKind{
	{"job", jobs, func(s spoiler, data []byte) []byte { return s.times(data, s.text) }, readJob},
	{"profile", func(t testing.TB) [][]byte { return matching(t, "../../examples/profiles/*.yaml") },
		func(s spoiler, data []byte) []byte { return s.times(data, s.text) }, readProfile},
	{"template", func(t testing.TB) [][]byte { return matching(t, "../../templates/sheets/*.yaml") },
		func(s spoiler, data []byte) []byte { return s.times(data, s.text) }, readTemplate},
	{"picture", pictures, func(s spoiler, data []byte) []byte { return s.times(data, s.picture) }, readPicture},
	{"PDF", sheets, func(s spoiler, data []byte) []byte { return s.times(data, s.bytes) }, readPDF},
	{"PDF, written anew", sheets, nil, readPDF},
}

// matching are the files of a pattern.
func matching(t testing.TB, patterns ...string) [][]byte {
	t.Helper()
	var all [][]byte
	for _, p := range patterns {
		names, err := filepath.Glob(p)
		if err != nil || names == nil {
			t.Fatalf("%s: no files, error %v", p, err)
		}
		for _, name := range names {
			data, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			all = append(all, data)
		}
	}
	return all
}

func jobs(t testing.TB) [][]byte {
	return matching(t, "../../examples/*.yaml", "../job/testdata/ok/*.yaml", "../job/testdata/err/*.yaml", "../cases/testdata/*.yaml")
}

func pictures(t testing.TB) [][]byte {
	rect := image.Rect(0, 0, 40, 30)
	all := [][]byte{picture(t, image.NewGray(rect)), picture(t, image.NewRGBA(rect)), picture(t, image.NewNRGBA64(rect)), picture(t, image.NewGray16(rect))}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, image.NewRGBA(rect), nil); err != nil {
		t.Fatal(err)
	}
	return append(all, b.Bytes())
}

func sheets(t testing.TB) [][]byte {
	all := [][]byte{draw(t, fourCylinders, sheet.Options{}), withLogo(t, pictures(t)[1]), draw(t, fourCylinders, sheet.Options{Version: "v0.1.0"})}
	return append(all, matching(t, "shown/testdata/*.pdf", "testdata/refused/*.pdf")...)
}

// besideJob reads a job with these files beside it, and the examples' own.
func besideJob(files map[string][]byte) job.Reader {
	return job.Reader{HasGlyph: face.Metrics().Has, Today: time.Date(2026, 11, 26, 9, 0, 0, 0, time.UTC), Open: func(name string) ([]byte, error) {
		if data, ok := files[name]; ok {
			return data, nil
		}
		if filepath.IsLocal(name) { // what the examples draw on
			return os.ReadFile(filepath.Join("../../examples", name))
		}
		return nil, fs.ErrNotExist
	}}
}

// drawnFrom draws a job's sheet, and has verify say that it is the same.
func drawnFrom(t testing.TB, reader job.Reader, text []byte, o sheet.Options) string {
	t.Helper()
	j, problems := reader.Read("job.yaml", text)
	if o.Kind == "blank" {
		j, problems = reader.ReadForBlank("job.yaml", text)
	}
	if len(problems) > 0 {
		if err := problems.Print(io.Discard, true); err != nil {
			t.Error(err)
		}
		return "refused"
	}
	o.Version = version
	var s *sheet.Sheet
	var err error
	if o.Kind == "blank" {
		s, err = sheet.Blank(j.Test().Engine, j, o)
	} else {
		s, err = sheet.New(j, story.Diagnose(j.Test()), o)
	}
	if err != nil {
		return "refused"
	}
	page, err := s.PDF()
	if err != nil {
		return "refused"
	}
	if got, said := outcomeOf(t, page); got != Same {
		t.Errorf("a sheet was drawn, of which verify says %d: %s", got, said)
	}
	return "drawn"
}

func readJob(t testing.TB, data []byte) string {
	reader := besideJob(map[string][]byte{"self.yaml": data, "job.yaml": data, "before.yaml": []byte(fourCylinders), "shop.yaml": []byte("name: Harrow Mills Engine Works\n")})
	return drawnFrom(t, reader, data, sheet.Options{Kind: templates.Kinds()[len(data)%len(templates.Kinds())]})
}

func readProfile(t testing.TB, data []byte) string {
	reader := besideJob(map[string][]byte{"shop.yaml": data})
	return drawnFrom(t, reader, []byte("shop: shop.yaml\n"+fourCylinders), sheet.Options{Kind: "workshop"})
}

func readTemplate(t testing.TB, data []byte) string {
	return drawnFrom(t, besideJob(nil), full, sheet.Options{Template: data, TemplateName: "own.yaml"})
}

func readPicture(t testing.TB, data []byte) string {
	name := "p.png"
	if bytes.HasPrefix(data, []byte("\xff\xd8")) {
		name = "p.jpg"
	}
	text := fmt.Sprintf("shop: {name: Harrow Mills Engine Works, logo: %s}\nsheet: pre-purchase\nphotos: [{name: P1, file: %s, shows: plug 1}]\n", name, name) + fourCylinders
	return drawnFrom(t, besideJob(map[string][]byte{name: data}), []byte(text), sheet.Options{})
}

func readPDF(t testing.TB, data []byte) string {
	Made(data)
	worst := Same
	sheets, err := OpenAll(data)
	for _, s := range sheets {
		if err != nil {
			break
		}
		var v Verdict
		if v, err = s.Verify(version); err == nil {
			s.CheckSignature(&v, nil, time.Time{})
			worst = max(worst, v.Outcome())
		}
	}
	if errors.Is(err, errPanic) {
		t.Errorf("%v", err)
	}
	if err != nil {
		return "refused"
	}
	return map[Outcome]string{Same: "the same", Unvouched: "says the same", Different: "different"}[worst]
}

// full is a job with every test.
var full, _ = os.ReadFile("../../examples/v12-everything.yaml")

// damagedFile makes a damaged file from its number.
func damagedFile(t testing.TB, kind fileKind, seeds [][]byte, number int) []byte {
	s := spoiler{rand.New(rand.NewPCG(uint64(number), uint64(len(kind.name)))), seeds}
	if kind.damage != nil {
		return kind.damage(s, seeds[s.IntN(len(seeds))])
	}
	m := newMutation(number, newDoc(t, seeds[s.IntN(2)]))
	if s.IntN(2) == 0 {
		m.d.pack = deflated
	}
	if s.IntN(10) == 0 {
		hostile[s.IntN(len(hostile))].change(m.d)
	}
	for range 1 + m.IntN(4) {
		m.change()
	}
	return m.bytes()
}

// Damaged and hostile files of every kind bring no panic, and take no more time
// and memory than a file may.
func TestDamagedFiles(t *testing.T) {
	if testing.Short() {
		t.Skip("takes seconds")
	}
	for k, kind := range fileKinds {
		t.Run(kind.name, func(t *testing.T) {
			count := (*files + k) / len(fileKinds)
			seeds := kind.seeds(t)
			came := map[string]int{}
			var most budget.Spent
			for i := range count {
				data := damagedFile(t, kind, seeds, i)
				word, spent := readHeld(t, kind, data)
				came[word]++
				most = budget.Spent{Time: max(most.Time, spent.Time), Memory: max(most.Memory, spent.Memory)}
				if t.Failed() {
					name := filepath.Join(os.TempDir(), fmt.Sprintf("gaugesheet-%s-%d", kind.name[:3], i))
					os.WriteFile(name, data, 0o666)
					t.Fatalf("%s %d, kept as %s: it took %v and %d MiB", kind.name, i, name, spent.Time, spent.Memory>>20)
				}
			}
			t.Logf("%5d files, at most %4d ms and %3d MiB: %v", count, most.Time.Milliseconds(), most.Memory>>20, came)
		})
	}
}

// readHeld reads a file and fails the test where it brings a panic, or takes more
// than it may.
func readHeld(t *testing.T, kind fileKind, data []byte) (word string, spent budget.Spent) {
	t.Helper()
	spent = budget.Of(func() {
		defer func() {
			if p := recover(); p != nil {
				t.Errorf("panic: %v\n%s", p, debug.Stack())
			}
		}()
		word = kind.read(t, data)
	})
	if spent.Time > budget.Time || spent.Memory > budget.Memory {
		t.Errorf("more than may be taken")
	}
	return word, spent
}

// fuzz fuzzes a kind of file: whatever it is, it brings no panic and takes no more
// than it may.
func fuzz(f *testing.F, name string) {
	for _, kind := range fileKinds {
		if kind.name != name {
			continue
		}
		enough := 30 // each is read before anything is changed
		if testing.Short() {
			enough = 10
		}
		seeds := kind.seeds(f)
		for i := 0; i < len(seeds); i += 1 + len(seeds)/enough {
			f.Add(seeds[i])
		}
		f.Fuzz(func(t *testing.T, data []byte) {
			budget.Held(t, func() { kind.read(t, data) })
		})
		return
	}
	f.Fatalf("no kind %s", cmp.Or(name, "of file"))
}

func FuzzJob(f *testing.F)      { fuzz(f, "job") }
func FuzzProfile(f *testing.F)  { fuzz(f, "profile") }
func FuzzTemplate(f *testing.F) { fuzz(f, "template") }
func FuzzPicture(f *testing.F)  { fuzz(f, "picture") }
func FuzzPDF(f *testing.F)      { fuzz(f, "PDF") }

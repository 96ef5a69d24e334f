package archive

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/pdfcpu/pdfcpu/pkg/api"

	"gaugesheet/diag/story"
	"gaugesheet/report/archive/pdffile"
	"gaugesheet/report/job"
	"gaugesheet/report/sheet"
)

const version = "v1.2.3"

const fourCylinders = `job: {number: "W-2041", date: 2026-05-14}
engine: {layout: inline-4}
compression: {unit: psi, dry: [150, 155, 148, 138]}
`

// first is the first difference, "" where there is none.
func first(v Verdict) string {
	if len(v.Differences) > 0 {
		return v.Differences[0]
	}
	return ""
}

// draw makes the sheet of a job.
func draw(t testing.TB, text string, o sheet.Options) []byte {
	t.Helper()
	j, problems := job.Read("job.yaml", []byte(text), nil)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	if o.Version == "" {
		o.Version = version
	}
	s, err := sheet.New(j, story.Diagnose(j.Test()), o)
	if err != nil {
		t.Fatal(err)
	}
	data, err := s.PDF()
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// edited is a PDF under the hands of someone who changes it: new objects go to
// its end, as editors of PDFs do it.
type edited struct {
	t    *testing.T
	data []byte
}

func (e *edited) file() *pdffile.File {
	e.t.Helper()
	f, err := pdffile.Open(e.data)
	if err != nil {
		e.t.Fatal(err)
	}
	return f
}

// page gives the page and its number.
func (e *edited) page() (pdffile.Page, int) {
	e.t.Helper()
	pages, err := e.file().Pages()
	if err != nil {
		e.t.Fatal(err)
	}
	return pages[0], pages[0].Ref.Number
}

var (
	startOfList = regexp.MustCompile(`startxref\n(\d+)`)
	trailerKeys = regexp.MustCompile(`/Root \d+ 0 R /Info \d+ 0 R /ID \[[^]]*\]`)
	sizeOfList  = regexp.MustCompile(`/Size (\d+)`)
)

// put puts an object in the place of another.
func (e *edited) put(number int, object string) {
	starts := startOfList.FindAllSubmatch(e.data, -1)
	trailer := trailerKeys.Find(e.data)
	size, err := strconv.Atoi(string(sizeOfList.FindSubmatch(e.data[bytes.LastIndex(e.data, []byte("/XRef")):])[1]))
	if err != nil {
		e.t.Fatal(err)
	}
	var out bytes.Buffer
	out.Write(e.data)
	at := out.Len()
	fmt.Fprintf(&out, "%d 0 obj\n%s\nendobj\n", number, object)
	list := out.Len()
	fmt.Fprintf(&out, "%d 0 obj\n<</Type /XRef /Size %d /W [1 4 1] /Index [%d 1 %d 1] %s /Prev %s /Length 12>>\nstream\n", size, size+1, number, size, trailer, starts[len(starts)-1][1])
	for _, place := range []int{at, list} {
		out.Write(binary.BigEndian.AppendUint32([]byte{1}, uint32(place)))
		out.WriteByte(0)
	}
	fmt.Fprintf(&out, "\nendstream\nendobj\nstartxref\n%d\n%%%%EOF\n", list)
	e.data = out.Bytes()
}

// content changes what the page draws.
func (e *edited) content(change func(string) string) {
	e.t.Helper()
	page, _ := e.page()
	content, err := e.file().Content(page.Dict)
	if err != nil {
		e.t.Fatal(err)
	}
	changed := change(string(content))
	if changed == string(content) {
		e.t.Fatal("nothing was changed")
	}
	e.put(page.Dict["Contents"].(pdffile.Ref).Number, fmt.Sprintf("<</Length %d>>\nstream\n%s\nendstream", len(changed), changed))
}

// text changes the first text that is, or else has, the one.
func (e *edited) text(from, to string) {
	e.t.Helper()
	page, _ := e.page()
	drawn, _, err := readPage(e.file(), page)
	if err != nil {
		e.t.Fatal(err)
	}
	fonts, err := e.file().Fonts(page.Dict)
	if err != nil {
		e.t.Fatal(err)
	}
	at := slices.IndexFunc(drawn.runs, func(r pdffile.Run) bool { return r.Text == from })
	if at < 0 {
		at = slices.IndexFunc(drawn.runs, func(r pdffile.Run) bool { return strings.Contains(r.Text, from) })
	}
	if at < 0 {
		e.t.Fatalf("the page does not say %q", from)
	}
	run := drawn.runs[at]
	before, _ := codesOf(fonts[run.Font], run.Text)
	after, ok := codesOf(fonts[run.Font], strings.Replace(run.Text, from, to, 1))
	if !ok {
		e.t.Fatalf("the page's font lacks letters of %q", to)
	}
	e.content(func(content string) string { return strings.Replace(content, before, after, 1) })
}

func TestVerifyNamesTheDifference(t *testing.T) {
	entry := func(key, value string) func(*edited) {
		return func(e *edited) {
			_, n := e.page()
			f := regexp.MustCompile(fmt.Sprintf(`(?s)\n%d 0 obj\n(<<.*?>>)\nendobj`, n)).FindSubmatch(e.data)
			if f == nil {
				e.t.Fatal("no page")
			}
			text := regexp.MustCompile(`/`+key+` \[[^]]*\]`).ReplaceAllString(string(f[1]), "")
			e.put(n, strings.TrimSuffix(text, ">>")+" /"+key+" "+value+">>")
		}
	}
	tests := []struct {
		name string
		edit func(*edited)
		want string // an expression
	}{
		{"nothing", func(*edited) {}, `^$`},
		{"a reading", func(e *edited) { e.text("138", "158") }, `^the page says 158 for cylinder 4, its job file gives 138$`},
		{"another reading", func(e *edited) { e.text("148", "138") }, `^the page says 138 for cylinder 3, its job file gives 148$`},
		{"a word", func(e *edited) { e.text("W-2041", "W-2014") }, `^the page says '.*W-2014.*', its job file gives '.*W-2041.*'$`},
		{"a line more", func(e *edited) { e.content(func(s string) string { return s + "\n0 0 m 100 100 l S\n" }) },
			`^something was drawn over the page, at '.+'$`},
		{"a text out of place", func(e *edited) {
			first := true
			e.content(func(s string) string {
				return regexp.MustCompile(` [0-9.]+ [0-9.]+ Td `).ReplaceAllStringFunc(s, func(start string) string {
					if first {
						first = false
						return " 9 700 Td "
					}
					return start
				})
			})
		}, `^the words are the same, but the page draws something that its job file does not give, before its first words$`},
		{"a note over the page", entry("Annots", "[<</Type /Annot /Subtype /FreeText /Rect [40 40 500 500]>>]"), `^a note lies over the page, at '.+'$`},
		{"another paper", entry("MediaBox", "[0 0 300 300]"), `^the paper's size is 300 x 300 points, its job file gives 612 x 792$`},
		{"a cut of the page", entry("CropBox", "[0 0 300 300]"), `^only a part of the page is shown, or meant to be \(CropBox\)$`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			e := &edited{t, draw(t, fourCylinders, sheet.Options{})}
			tt.edit(e)
			s, err := Open(e.data)
			if err != nil {
				t.Fatal(err)
			}
			v, err := s.Verify(version)
			if err != nil {
				t.Fatal(err)
			}
			if !regexp.MustCompile(tt.want).MatchString(first(v)) {
				t.Errorf("the difference is %q, want %s", first(v), tt.want)
			}
		})
	}
}

// Whichever cylinder differs is named, though others have the same readings.
func TestVerifyNamesTheCylinder(t *testing.T) {
	job := func(readings []int, wet int) string {
		return fmt.Sprintf("engine: {layout: V8, numbering: across banks, first-bank: left}\n"+
			"compression: {unit: psi, dry: [%s], wet: {5: %d}}\n", strings.Trim(strings.Join(strings.Fields(fmt.Sprint(readings)), ", "), "[]"), wet)
	}
	readings := []int{150, 152, 150, 152, 150, 152, 150, 152}
	page := draw(t, job(readings, 170), sheet.Options{})
	difference := func(t *testing.T, text string) string {
		t.Helper()
		s, err := Open(page)
		if err != nil {
			t.Fatal(err)
		}
		s.Job.Data = []byte(text)
		v, err := s.Verify(version)
		if err != nil {
			t.Fatal(err)
		}
		return first(v)
	}
	for i, was := range readings {
		for n, is := range []int{151, 60} {
			if testing.Short() && (i+n)%4 > 0 {
				continue
			}
			changed := slices.Clone(readings)
			changed[i] = is
			want := fmt.Sprintf("the page says %d for cylinder %d, its job file gives %d", was, i+1, is)
			if got := difference(t, job(changed, 170)); got != want {
				t.Errorf("the difference is %q, want %q", got, want)
			}
		}
	}
	if got, want := difference(t, job(readings, 160)), "the page says 170 for cylinder 5, its job file gives 160"; got != want {
		t.Errorf("the difference is %q, want %q", got, want)
	}
}

// A general-purpose library takes the job file out as this program does.
func TestOthersTakeTheJobFileOut(t *testing.T) {
	api.DisableConfigDir()
	files, err := api.ExtractAttachmentsRaw(bytes.NewReader(draw(t, fourCylinders, sheet.Options{})), "", nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(files) != 1 || files[0].FileName != "job.yaml" || files[0].Desc != sheet.JobFileDescription {
		t.Fatalf("the attached files are %v", files)
	}
	data, err := io.ReadAll(files[0])
	if err != nil || string(data) != fourCylinders {
		t.Errorf("the job file is %q, error %v", data, err)
	}
}

// What a file says of the version that made it changes nothing of how strictly
// it is read.
func TestVerifyAnotherVersion(t *testing.T) {
	e := &edited{t, draw(t, fourCylinders, sheet.Options{Version: "v0.9.0"})}
	check := func(want string) {
		t.Helper()
		s, err := Open(e.data)
		if err != nil {
			t.Fatal(err)
		}
		v, err := s.Verify(version)
		if err != nil {
			t.Fatal(err)
		}
		if len(v.Notes) != 1 || !strings.Contains(v.Notes[0], "made by version v0.9.0") {
			t.Errorf("notes %q", v.Notes)
		}
		if !regexp.MustCompile(want).MatchString(first(v)) || (want == "^$") != (v.Outcome() == Same) {
			t.Errorf("the difference is %q, want %s", first(v), want)
		}
	}
	check(`^$`)
	plain := e.data
	e.text("138", "158")
	check(`^the page says 158 for cylinder 4, its job file gives 138$`)
	e.data = plain
	e.content(func(s string) string { return s + "\n0 0 m 100 100 l S\n" })
	check(`^something was drawn over the page`)
}

// A sheet that other programs have saved again still says the same.
func TestVerifyAfterOthersSavedIt(t *testing.T) {
	tool, err := exec.LookPath("qpdf")
	if err != nil {
		t.Skip("qpdf is not installed")
	}
	in, out := filepath.Join(t.TempDir(), "in.pdf"), filepath.Join(t.TempDir(), "out.pdf")
	if err := os.WriteFile(in, draw(t, fourCylinders, sheet.Options{}), 0o666); err != nil {
		t.Fatal(err)
	}
	for _, how := range []string{"--object-streams=generate", "--linearize", "--qdf"} {
		if said, err := exec.Command(tool, how, in, out).CombinedOutput(); err != nil {
			t.Fatalf("%s: %v: %s", how, err, said)
		}
		data, err := os.ReadFile(out)
		if err != nil {
			t.Fatal(err)
		}
		s, err := Open(data)
		if err != nil {
			t.Fatalf("%s: %v", how, err)
		}
		if v, err := s.Verify(version); err != nil || v.Outcome() != Same {
			t.Errorf("after %s: %q, error %v", how, first(v), err)
		}
		if string(s.Job.Data) != fourCylinders {
			t.Errorf("after %s the job file is another", how)
		}
	}
}

// A few kilobytes may unpack to a great deal: it is refused, and soon.
func TestRefusesWhatUnpacksWithoutEnd(t *testing.T) {
	tests := []struct {
		name, what string
		times      int
		want       string
	}{
		{"more than a page", "0 0 m\n", 2 << 20, ErrTooLarge.Error()},
		{"more than memory", "0 0 m\n", 30 << 20, ErrTooLarge.Error()},
	}
	for i, tt := range tests {
		if testing.Short() && i > 0 {
			break
		}
		t.Run(tt.name, func(t *testing.T) {
			e := &edited{t, draw(t, fourCylinders, sheet.Options{})}
			var packed bytes.Buffer
			z := zlib.NewWriter(&packed)
			for range 16 {
				if _, err := io.WriteString(z, strings.Repeat(tt.what, tt.times/16)); err != nil {
					t.Fatal(err)
				}
			}
			if err := z.Close(); err != nil {
				t.Fatal(err)
			}
			page, _ := e.page()
			e.put(page.Dict["Contents"].(pdffile.Ref).Number, fmt.Sprintf("<</Filter /FlateDecode /Length %d>>\nstream\n%s\nendstream", packed.Len(), packed.Bytes()))
			start := time.Now()
			s, err := Open(e.data)
			if err == nil {
				_, err = s.Verify(version)
			}
			if err == nil || err.Error() != tt.want {
				t.Errorf("the error is %v, want %s", err, tt.want)
			}
			if took := time.Since(start); took > 2*time.Second {
				t.Errorf("it took %v", took)
			}
		})
	}
}

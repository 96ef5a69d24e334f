package pdffile

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"gaugesheet/layout"
	"gaugesheet/layout/pdf"
	"gaugesheet/report/budget"
)

// page is a document with three texts, one of them turned, and two attached
// files.
func page(t *testing.T) []byte {
	t.Helper()
	doc := pdf.New(pdf.Options{
		Paper: layout.Size{W: 612, H: 792}, Title: "Pressure (psi) \\ Ω", Keywords: "words; more words",
		Attachments: []pdf.Attachment{
			{Name: "job.yaml", Type: "application/yaml", Description: "the job", Data: []byte("engine: {}\n")},
			{Name: "../Größe.yaml", Type: "application/yaml", Description: "no letters: ", Data: bytes.Repeat([]byte("a: 1\n"), 5000)},
		},
	})
	black := layout.Color{}
	face := layout.Face{Size: 10}
	doc.Text(layout.Point{X: 72, Y: 72}, "highest 152 psi (2)", face, black)
	doc.Text(layout.Point{X: 72, Y: 90}, `back\slash, ) and ±2 µm`, face, black)
	doc.Rotate(90, layout.Point{X: 300, Y: 300}, func() {
		doc.Text(layout.Point{X: 300, Y: 300}, "turned", layout.Face{Weight: layout.Bold, Size: 8}, black)
	})
	data, err := doc.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func check(t *testing.T, data []byte) {
	t.Helper()
	f, err := Open(data)
	if err != nil {
		t.Fatal(err)
	}
	info, err := f.Dict(f.Trailer["Info"])
	if err != nil {
		t.Fatal(err)
	}
	if got, _ := f.Text(info["Title"]); got != "Pressure (psi) \\ Ω" {
		t.Errorf("title is %q", got)
	}
	attached, err := f.Attached()
	for i := range attached {
		attached[i].Spec, attached[i].Key, attached[i].Place = nil, nil, nil // objects of the file, which differ by how it was saved
	}
	if err != nil {
		t.Fatal(err)
	}
	want := []Attached{
		{Name: "job.yaml", Description: "the job", Data: []byte("engine: {}\n"), Listed: true},
		{Name: "../Größe.yaml", Description: "no letters: ", Data: bytes.Repeat([]byte("a: 1\n"), 5000), Listed: true},
	}
	if diff := cmp.Diff(want, attached); diff != "" {
		t.Errorf("attached files (-want +got):\n%s", diff)
	}
	pages, err := f.Pages()
	if err != nil || len(pages) != 1 {
		t.Fatalf("%d pages, error %v", len(pages), err)
	}
	content, err := f.Content(pages[0].Dict)
	if err != nil {
		t.Fatal(err)
	}
	ops, err := f.Operations(content)
	if err != nil {
		t.Fatal(err)
	}
	fonts, err := f.Fonts(pages[0].Dict)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, r := range Runs(ops, fonts) {
		got = append(got, fmt.Sprintf("%s at %g,%g size %g", r.Text, r.X, r.Y, r.Size))
	}
	runs := []string{"highest 152 psi (2) at 72,720 size 10", `back\slash, ) and ±2 µm at 72,702 size 10`, "turned at 300,492 size 8"}
	if diff := cmp.Diff(runs, got); diff != "" {
		t.Errorf("texts (-want +got):\n%s", diff)
	}
}

func TestReadsOurPages(t *testing.T) { check(t, page(t)) }

// Files that a general-purpose tool has saved again have packed objects, a
// packed list of objects, and other numbers.
func TestReadsPagesSavedByOthers(t *testing.T) {
	if testing.Short() {
		t.Skip("takes seconds")
	}
	tool, err := exec.LookPath("qpdf")
	if err != nil {
		t.Skip("qpdf is not installed")
	}
	dir := t.TempDir()
	in := filepath.Join(dir, "in.pdf")
	if err := os.WriteFile(in, page(t), 0o666); err != nil {
		t.Fatal(err)
	}
	before, err := Open(page(t))
	if err != nil {
		t.Fatal(err)
	}
	pages, err := before.Pages()
	if err != nil {
		t.Fatal(err)
	}
	digest, err := before.Digest(pages[0].Dict["Resources"])
	if err != nil {
		t.Fatal(err)
	}
	for _, args := range [][]string{
		{"--object-streams=generate"}, {"--object-streams=generate", "--recompress-flate", "--compression-level=1"},
		{"--linearize"}, {"--qdf"}, {"--stream-data=uncompress"},
	} {
		t.Run(strings.Join(args, " "), func(t *testing.T) {
			out := filepath.Join(dir, "out.pdf")
			if said, err := exec.Command(tool, append(args, in, out)...).CombinedOutput(); err != nil {
				t.Fatalf("%v: %s", err, said)
			}
			data, err := os.ReadFile(out)
			if err != nil {
				t.Fatal(err)
			}
			check(t, data)
			f, err := Open(data)
			if err != nil {
				t.Fatal(err)
			}
			pages, err := f.Pages()
			if err != nil {
				t.Fatal(err)
			}
			if got, err := f.Digest(pages[0].Dict["Resources"]); err != nil || got != digest {
				t.Errorf("what the page draws with changed: %v", err)
			}
		})
	}
	for _, streams := range []string{"--object-streams=disable", "--object-streams=generate"} {
		for _, how := range [][]string{{"", "secret", "256"}, {"", "secret", "128", "--use-aes=y"}, {"", "secret", "128", "--use-aes=n"}, {"", "secret", "40"}, {"asked for", "secret", "256"}, {"asked for", "secret", "40"}} {
			t.Run(fmt.Sprint("encrypted ", how, streams), func(t *testing.T) {
				out := filepath.Join(dir, "out.pdf")
				for range 5 { // the salt, and with it the number of rounds, is another each time
					args := append(append([]string{"--allow-weak-crypto", streams, "--encrypt"}, how...), "--", in, out)
					if said, err := exec.Command(tool, args...).CombinedOutput(); err != nil {
						t.Fatalf("%v: %s", err, said)
					}
					data, err := os.ReadFile(out)
					if err != nil {
						t.Fatal(err)
					}
					if how[0] == "" {
						check(t, data)
					} else if _, err := Open(data); !errors.Is(err, ErrEncrypted) {
						t.Errorf("the error is %v, want ErrEncrypted", err)
					}
				}
			})
		}
	}
}

func TestRefusals(t *testing.T) {
	whole := page(t)
	loop := strings.Replace(string(whole), "/Pages 1 0 R", "/Pages 2 0 R", 1)
	tests := []struct {
		name, data string
		want       string
	}{
		{"empty", "", "it is not a PDF"},
		{"a job file", "engine: {layout: V8}\n", "it is not a PDF"},
		{"only a head", "%PDF-1.7\n", "its end is missing"},
		{"cut off", string(whole[:len(whole)/2]), "its end is missing"},
		{"list of objects elsewhere", strings.Replace(string(whole), "startxref\n", "startxref\n9", 1), "its list of objects is not where it should be"},
		{"list of objects at the start", "%PDF-1.7\nstartxref\n0\n%%EOF", "its list of objects is not where it should be"},
		{"no root", "%PDF-1.7\nxref\n0 1\n0000000000 65535 f \ntrailer\n<</Size 1>>\nstartxref\n9\n%%EOF", "it has no root"},
		{"a list that leads to itself", "%PDF-1.7\nxref\n0 1\n0000000000 65535 f \ntrailer\n<</Size 1 /Prev 9>>\nstartxref\n9\n%%EOF", "its list of objects is not where it should be"},
		{"deep arrays", "%PDF-1.7\nxref\n0 1\n0000000000 65535 f \ntrailer\n" + strings.Repeat("[", 100000) + "\nstartxref\n9\n%%EOF", "objects stand more than 60 deep in one another"},
		{"a count that is too large", "%PDF-1.7\nxref\n0 99999999\n\ntrailer\n<<>>\nstartxref\n9\n%%EOF", "its list of objects is not readable"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := Open([]byte(tt.data))
			if err == nil || err.Error() != tt.want {
				t.Errorf("error is %v, want %q", err, tt.want)
			}
		})
	}
	f, err := Open([]byte(loop))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := f.Pages(); err != nil {
		t.Logf("pages that are no tree: %v", err)
	}
}

// FuzzOpen reads damaged files to the end: they may be refused, nothing else, and
// take no more time and memory than a file may.
func FuzzOpen(f *testing.F) {
	doc := pdf.New(pdf.Options{Paper: layout.Size{W: 100, H: 100}, Attachments: []pdf.Attachment{{Name: "a", Type: "text/plain", Data: []byte("b")}}})
	doc.Stroke(layout.RectPath(layout.Rect{X: 1, Y: 1, W: 9, H: 9}), layout.Pen{Width: 1})
	data, err := doc.Bytes()
	if err != nil {
		f.Fatal(err)
	}
	f.Add(data)
	f.Add(data[:len(data)-30])
	f.Add([]byte("%PDF-1.7\n1 0 obj\n<</Type/XRef/W[1 2 1]/Size 2/Root 1 0 R/Length 8>>\nstream\n12345678\nendstream\nstartxref\n9\n%%EOF"))
	f.Fuzz(func(t *testing.T, data []byte) { budget.Held(t, func() { readToTheEnd(data) }) })
}

func readToTheEnd(data []byte) {
	file, err := Open(data)
	if err != nil {
		return
	}
	file.Attached()
	pages, err := file.Pages()
	if err != nil {
		return
	}
	for _, p := range pages {
		file.Digest(p.Dict)
		if content, err := file.Content(p.Dict); err == nil {
			if ops, err := file.Operations(content); err == nil {
				fonts, _ := file.Fonts(p.Dict)
				Runs(ops, fonts)
			}
		}
	}
}

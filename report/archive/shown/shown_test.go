package shown

import (
	"bytes"
	"flag"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"gaugesheet/layout"
	"gaugesheet/layout/pdf"
	"gaugesheet/report/archive/pdffile"
)

var update = flag.Bool("update", false, "save the files in testdata anew, by the programs that are installed")

// saved are the files in testdata: a page of ours, before.pdf, as programs
// saved it, and how far apart its measures may be then.
var saved = []struct {
	file, command string
	within        float64
}{
	{"qpdf-linearized.pdf", "qpdf --linearize IN OUT", 0.001},
	{"qpdf-packed.pdf", "qpdf --object-streams=generate IN OUT", 0.001},
	{"qpdf-encrypted.pdf", "qpdf --encrypt - secret 256 -- IN OUT", 0.001},
	{"qpdf-encrypted-40.pdf", "qpdf --allow-weak-crypto --encrypt - secret 40 -- IN OUT", 0.001},
	{"mutool-clean.pdf", "mutool clean -ggg IN OUT", 0.001},
	{"mutool-sanitized.pdf", "mutool clean -s -a IN OUT", 0.001},
	{"ghostscript.pdf", "gs -q -sDEVICE=pdfwrite -o OUT IN", 0.06},
	{"pdfunite.pdf", "pdfunite IN IN OUT", 0.001},
}

// page is a page with what pages of ours draw with.
func page(t *testing.T) []byte {
	t.Helper()
	doc := pdf.New(pdf.Options{
		Paper: layout.Size{W: 300, H: 200}, Title: "Trial", Lang: "en",
		Attachments: []pdf.Attachment{{Name: "job.yaml", Type: "application/yaml", Description: "the job", Data: []byte("engine: {}\n")}},
	})
	black, blue := layout.Color{}, layout.Color{R: 16, G: 68, B: 92}
	box := layout.RectPath(layout.Rect{X: 20, Y: 20, W: 60, H: 30})
	doc.Fill(box, blue)
	doc.Stroke(box, layout.Pen{Width: 0.9, Color: black})
	doc.Stroke(layout.Path{{Op: layout.Move, P: [3]layout.Point{{X: 10, Y: 100}}}, {Op: layout.Cubic, P: [3]layout.Point{{X: 50, Y: 60}, {X: 90, Y: 140}, {X: 130, Y: 100}}}}, layout.Pen{Width: 1, Dash: []layout.Length{3, 2}, Round: true})
	doc.Text(layout.Point{X: 20, Y: 80}, "highest 152 psi, wet waves", layout.Face{Size: 10}, black)
	doc.Rotate(90, layout.Point{X: 200, Y: 100}, func() {
		doc.Text(layout.Point{X: 200, Y: 100}, "turned", layout.Face{Weight: layout.Bold, Size: 8}, blue)
	})
	doc.Clip(layout.RectPath(layout.Rect{X: 210, Y: 20, W: 40, H: 20}), func() {
		doc.Fill(layout.RectPath(layout.Rect{X: 200, Y: 10, W: 40, H: 20}), blue)
	})
	data, err := doc.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func read(t *testing.T, file string) (*pdffile.File, []Mark) {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("testdata", file))
	if err != nil {
		t.Fatal(err)
	}
	f, err := pdffile.Open(data)
	if err != nil {
		t.Fatal(err)
	}
	pages, err := f.Pages()
	if err != nil {
		t.Fatal(err)
	}
	marks, _, err := Marks(f, pages[0])
	if err != nil {
		t.Fatal(err)
	}
	return f, marks
}

// Whoever saved a page, it shows the same, and carries the same.
func TestSaved(t *testing.T) {
	if *update {
		save(t)
	}
	_, want := read(t, "before.pdf")
	text := ""
	kinds := map[Kind]int{}
	for _, m := range want {
		kinds[m.Kind]++
		text += m.Text
	}
	if text != "highest152psi,wetwavesturned" || kinds[Area] != 2 || kinds[Line] != 2 {
		t.Fatalf("the page shows %q, and of each kind %v", text, kinds)
	}
	for _, s := range saved {
		t.Run(s.file, func(t *testing.T) {
			f, got := read(t, s.file)
			if err := f.Unambiguous(); err != nil {
				t.Error(err)
			}
			if len(got) != len(want) {
				t.Fatalf("%d marks, want %d", len(got), len(want))
			}
			for i := range got {
				if !Same(got[i], want[i], s.within) {
					t.Errorf("mark %d is %+v, want %+v", i, got[i], want[i])
				}
			}
			files, err := f.Attached()
			if err != nil || len(files) != 1 || !bytes.Equal(files[0].Data, []byte("engine: {}\n")) {
				t.Errorf("it carries %v, error %v", files, err)
			}
		})
	}
}

func save(t *testing.T) {
	in := filepath.Join("testdata", "before.pdf")
	if err := os.WriteFile(in, page(t), 0o666); err != nil {
		t.Fatal(err)
	}
	for _, s := range saved {
		words := strings.Fields(s.command)
		for i, w := range words {
			words[i] = strings.NewReplacer("IN", in, "OUT", filepath.Join("testdata", s.file)).Replace(w)
			if w == "-" {
				words[i] = ""
			}
		}
		if said, err := exec.Command(words[0], words[1:]...).CombinedOutput(); err != nil {
			t.Fatalf("%s: %v: %s", s.command, err, said)
		}
	}
}

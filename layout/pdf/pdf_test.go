package pdf

import (
	"bytes"
	"compress/zlib"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/go-pdf/fpdf"
	"github.com/google/go-cmp/cmp"
	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"

	"gaugesheet/layout"
	"gaugesheet/layout/face"
)

var (
	letter  = layout.Size{W: 612, H: 792}
	regular = layout.Face{Size: 9}
	bold    = layout.Face{Weight: layout.Bold, Size: 9}
	black   = layout.Color{}
)

func at(x, y layout.Length) layout.Point { return layout.Point{X: x, Y: y} }

func sampleOptions() Options {
	return Options{
		Paper: letter, Title: "Engine test sheet W-2041", Author: "Harrow Mills Engine Works",
		Subject: "Zündkerzen – geprüft", Keywords: "compression", Creator: "gaugesheet", Lang: "en",
		Created: time.Date(2026, 5, 14, 9, 30, 0, 0, time.UTC),
		Attachments: []Attachment{
			{Name: "job.yaml", Type: "application/yaml", Description: "The job file", Data: []byte("engine: V8\n")},
			{Name: "zweite (Übersicht).txt", Type: "text/plain", Description: "", Data: bytes.Repeat([]byte{0, 255, '\r', '\n'}, 300)},
			{Name: "a.png", Type: "image/png", Data: nil},
		},
	}
}

func drawSample(s layout.Surface) {
	s.Fill(layout.RoundRect(layout.Rect{X: 40, Y: 40, W: 200, H: 60}, 4), layout.Color{R: 200, G: 210, B: 220})
	s.Text(at(50, 60), "152 psi · 75 % ≤ limit", regular, black)
	s.Clip(layout.Circle(at(300, 100), 20), func() {
		s.Stroke(layout.Polyline(at(270, 90), at(330, 110)), layout.Pen{Width: 2, Dash: []layout.Length{3, 2}})
		s.Text(at(290, 100), "clipped", bold, black)
	})
	s.Text(at(50, 80), "Ελληνικά Кириллица Łódź", regular, black)
	s.Rotate(90, at(400, 100), func() { s.Text(at(400, 100), "upright", regular, black) })
	s.Text(at(50, 95), "bold after", bold, layout.Color{R: 10, G: 80, B: 90})
}

func sample(t *testing.T, opt Options) []byte {
	t.Helper()
	d := New(opt)
	drawSample(d)
	b, err := d.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func read(t *testing.T, file []byte) *model.Context {
	t.Helper()
	ctx, err := api.ReadValidateAndOptimize(bytes.NewReader(file), model.NewDefaultConfiguration())
	if err != nil {
		t.Fatalf("not a valid PDF: %v", err)
	}
	return ctx
}

// loose is a file with its packed objects behind it as they are.
func loose(t *testing.T, file []byte) []byte {
	t.Helper()
	return append(bytes.Clone(file), inflated(t, file, "/Type /ObjStm")...)
}

// inflated is what the first data with an entry are before packing.
func inflated(t *testing.T, file []byte, entry string) []byte {
	t.Helper()
	_, packed, ok := bytes.Cut(file, []byte(entry))
	_, packed, found := bytes.Cut(packed, []byte("stream\n"))
	if !ok || !found {
		t.Fatalf("the file has no data with %q", entry)
	}
	z, err := zlib.NewReader(bytes.NewReader(packed))
	if err != nil {
		t.Fatal(err)
	}
	data, err := io.ReadAll(z)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func TestValidOnePage(t *testing.T) {
	file := sample(t, sampleOptions())
	ctx := read(t, file)
	file = loose(t, file)
	if ctx.PageCount != 1 {
		t.Errorf("%d pages, want 1", ctx.PageCount)
	}
	if n := len(ctx.Optimize.FontObjects); n != 2 {
		t.Errorf("%d fonts, want 2", n)
	}
	if n := bytes.Count(file, []byte("/FontFile2 ")); n != 2 {
		t.Errorf("%d font files embedded, want 2", n)
	}
	if n := len(ctx.Optimize.ImageObjects); n != 0 {
		t.Errorf("%d pictures on a page of vectors", n)
	}
	for _, want := range []string{"/Lang (en)", "/DisplayDocTitle true", "/AFRelationship /Source", "/Subtype /application#2Fyaml", "/ID [<"} {
		if !bytes.Contains(file, []byte(want)) {
			t.Errorf("the file lacks %q", want)
		}
	}
	if ctx.Title != "Engine test sheet W-2041" {
		t.Errorf("title %q", ctx.Title)
	}
}

func TestOnlyUsedFacesAreEmbedded(t *testing.T) {
	d := New(Options{Paper: letter})
	d.Text(at(50, 50), "bold only", bold, black)
	file, err := d.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	if n := len(read(t, file).Optimize.FontObjects); n != 1 {
		t.Errorf("%d fonts, want 1", n)
	}
}

func TestAttachmentsComeBack(t *testing.T) {
	opt := sampleOptions()
	got, err := api.ExtractAttachmentsRaw(bytes.NewReader(sample(t, opt)), "", nil, model.NewDefaultConfiguration())
	if err != nil {
		t.Fatal(err)
	}
	found := map[string][]byte{}
	for _, a := range got {
		var b bytes.Buffer
		if _, err := b.ReadFrom(a); err != nil {
			t.Fatal(err)
		}
		found[a.FileName] = b.Bytes()
	}
	for _, want := range opt.Attachments {
		data, ok := found[want.Name]
		if !ok {
			t.Errorf("%q is not among the attachments", want.Name)
		}
		if !bytes.Equal(data, want.Data) {
			t.Errorf("%q: %d bytes came back, not the %d put in", want.Name, len(data), len(want.Data))
		}
	}
	if len(got) != len(opt.Attachments) {
		t.Errorf("%d attachments, want %d", len(got), len(opt.Attachments))
	}
}

// The same job must give the same bytes, also while others are written, and
// the shared font files must stay as they are.
func TestSameBytesFromEveryGoroutine(t *testing.T) {
	before := [2][]byte{bytes.Clone(face.Regular), bytes.Clone(face.Bold)}
	want := sample(t, sampleOptions())
	var wg sync.WaitGroup
	files := make([][]byte, 16)
	for i := range files {
		wg.Go(func() {
			d := New(sampleOptions())
			drawSample(d)
			files[i], _ = d.Bytes()
		})
	}
	wg.Wait()
	for i, got := range files {
		if !bytes.Equal(got, want) {
			t.Fatalf("file %d differs from the first", i)
		}
	}
	if !bytes.Equal(before[0], face.Regular) || !bytes.Equal(before[1], face.Bold) {
		t.Error("a document wrote to the shared font files")
	}
}

func TestNoClock(t *testing.T) {
	file := sample(t, Options{Paper: letter})
	for _, date := range regexp.MustCompile(`D:\d{4}`).FindAll(file, -1) {
		if string(date) != "D:2000" {
			t.Errorf("a date %s in a document that was given none", date)
		}
	}
}

func pdftotext(t *testing.T, file []byte) string {
	t.Helper()
	if _, err := exec.LookPath("pdftotext"); err != nil {
		t.Skip("pdftotext is not installed")
	}
	name := filepath.Join(t.TempDir(), "sheet.pdf")
	if err := os.WriteFile(name, file, 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("pdftotext", "-raw", name, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

func TestTextComesBack(t *testing.T) {
	text := pdftotext(t, sample(t, sampleOptions()))
	for _, want := range []string{"152 psi · 75 % ≤ limit", "clipped", "Ελληνικά Кириллица Łódź", "upright", "bold after"} {
		if !strings.Contains(text, want) {
			t.Errorf("the text lacks %q:\n%s", want, text)
		}
	}
}

// content is the page's drawing as it is before packing.
func content(t *testing.T, draw func(*Doc)) string {
	t.Helper()
	d := New(Options{Paper: layout.Size{W: 100, H: 100}})
	draw(d)
	file, err := d.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	_, rest, _ := bytes.Cut(file, []byte("stream\n"))
	z, err := zlib.NewReader(bytes.NewReader(rest))
	if err != nil {
		t.Fatal(err)
	}
	page, err := io.ReadAll(z)
	if err != nil {
		t.Fatal(err)
	}
	return string(page)
}

func TestOperators(t *testing.T) {
	got := content(t, func(d *Doc) {
		d.Fill(layout.Polygon(at(1, 1), at(2.004, 1), at(2, 3)), layout.Color{R: 255})
		d.Stroke(layout.Polyline(at(10, 10), at(20, 10)), layout.Pen{})
		d.Clip(layout.RectPath(layout.Rect{W: 50, H: 50}), func() {
			d.Fill(layout.Polygon(at(1, 1), at(2, 1)), layout.Color{G: 255})
		})
		d.Fill(layout.Polygon(at(5, 5), at(6, 6)), layout.Color{G: 255})
	})
	want := strings.Join([]string{
		"0.000 G", "0.000 g", // the library's own start
		"/Artifact BMC", "1.000 0.000 0.000 rg", "1 99 m", "2 99 l", "2 97 l", "h", "f", "EMC",
		"q", "0 100 m", "50 100 l", "50 50 l", "0 50 l", "h", "W n",
		"/Artifact BMC", "0.000 1.000 0.000 rg", "1 99 m", "2 99 l", "h", "f", "EMC", "Q",
		// After the scope the page has the red fill again: green must be said again.
		"/Artifact BMC", "0.000 1.000 0.000 rg", "5 95 m", "6 94 l", "h", "f", "EMC",
	}, "\n")
	_, got, _ = strings.Cut(got, "w\n")
	if diff := cmp.Diff(strings.Fields(want), strings.Fields(got)); diff != "" {
		t.Errorf("page content (-want +got):\n%s", diff)
	}
}

func TestFaceIsSaidAgainAfterAScope(t *testing.T) {
	got := content(t, func(d *Doc) {
		d.Text(at(1, 1), "a", regular, black)
		d.Rotate(30, at(1, 1), func() { d.Text(at(1, 1), "b", bold, black) })
		d.Text(at(1, 1), "c", bold, black)
	})
	if n := strings.Count(got, " Tf"); n != 3 {
		t.Errorf("%d choices of a face, want 3:\n%s", n, got)
	}
}

// What text is measured with is what the library would set it with.
func TestAdvancesOfTheLibrary(t *testing.T) {
	f := fpdf.New("P", "pt", "A4", "")
	for weight, file := range [][]byte{layout.Regular: face.Regular, layout.Bold: face.Bold} {
		f.AddUTF8FontFromBytes("sans", styles[weight], file)
		f.SetFont("sans", styles[weight], 10)
		for r := range rune(0x10000) {
			if !face.Metrics().Has(r) {
				continue
			}
			got := face.Metrics().Width(string(r), layout.Face{Weight: layout.Weight(weight), Size: 1000})
			if w := f.GetStringSymbolWidth(string(r)); layout.Length(w) != got {
				t.Errorf("%U is %v wide, in the document %v", r, got, w)
			}
		}
	}
}

// Nothing that is drawn may bring the program down.
func TestUnknownCharacters(t *testing.T) {
	d := New(Options{Paper: letter})
	d.Text(at(50, 50), "ok \U0001F600\xff漢", regular, black)
	if _, err := d.Bytes(); err != nil {
		t.Error(err)
	}
}

// The table of widths in the file must be what text was measured with.
func TestWidthsInTheFile(t *testing.T) {
	const text = "152 psi Wäß Ж≤"
	for _, f := range []layout.Face{regular, bold} {
		d := New(Options{Paper: letter})
		d.Text(at(50, 50), text, f, black)
		file, err := d.Bytes()
		if err != nil {
			t.Fatal(err)
		}
		found := regexp.MustCompile(`/W\[0\[([0-9 ]+)\]\]`).FindSubmatch(loose(t, file))
		if found == nil {
			t.Fatal("no table of widths")
		}
		got := strings.Fields(string(found[1]))[1:] // after the missing character's
		var want []string
		seen := map[rune]bool{}
		for _, r := range usual + text {
			if !seen[r] {
				seen[r] = true
				w := face.Metrics().Width(string(r), layout.Face{Weight: f.Weight, Size: 1000})
				want = append(want, strconv.Itoa(int(w)))
			}
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s widths (-measured +file):\n%s", f.Weight, diff)
		}
	}
}

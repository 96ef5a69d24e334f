package conform

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/types"

	"gaugesheet/layout"
	"gaugesheet/layout/pdf"
)

var (
	face  = layout.Face{Size: 9}
	black = layout.Color{}
)

// write writes a page with a title, whose parts draw draws.
func write(t *testing.T, draw func(d *pdf.Doc)) []byte {
	t.Helper()
	d := pdf.New(pdf.Options{
		Paper: layout.Size{W: 300, H: 300}, Title: "Sheet & page <1>", Author: "Harrow Mills Engine Works", Lang: "en-US", Creator: "gaugesheet",
		Attachments: []pdf.Attachment{{Name: "job.yaml", Type: "application/yaml", Description: "job", Data: []byte("engine: V8\n")}},
	})
	draw(d)
	file, err := d.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	return file
}

func say(d *pdf.Doc, text string) { d.Text(layout.Point{X: 20, Y: 50}, text, face, black) }

func tag(d *pdf.Doc, kind layout.TagKind, draw func()) { layout.Tag{Kind: kind}.Draw(d, draw) }

// page is a page with some of everything.
func page(d *pdf.Doc) {
	tag(d, layout.Heading1, func() { say(d, "Title") })
	d.Stroke(layout.Polyline(layout.Point{X: 1, Y: 1}, layout.Point{X: 9, Y: 9}), layout.Pen{Width: 1})
	tag(d, layout.Group, func() {
		tag(d, layout.Heading2, func() { say(d, "Part") })
		tag(d, layout.List, func() {
			tag(d, layout.Item, func() { say(d, "one") })
			tag(d, layout.ItemOfParts, func() {
				tag(d, layout.Paragraph, func() { say(d, "two") })
				tag(d, layout.Paragraph, func() { say(d, "three") })
			})
		})
		tag(d, layout.Table, func() { row(d, 1, 1); row(d, 2) })
	})
	layout.Tag{Kind: layout.Picture, Alt: "a line (1 < 2) of 3–4\u00a0mm, é", Area: layout.Rect{X: 10, Y: 10, W: 50, H: 20}}.Draw(d, func() {
		d.Clip(layout.RectPath(layout.Rect{W: 99, H: 99}), func() { say(d, "not read") })
	})
	tag(d, layout.Decoration, func() { say(d, "two") })
}

// row is a row of a heading cell and others that span some columns.
func row(d *pdf.Doc, spans ...int) {
	tag(d, layout.TableRow, func() {
		tag(d, layout.HeadLeft, func() { say(d, "head") })
		for _, span := range spans {
			layout.Tag{Kind: layout.DataCell, Span: span}.Draw(d, func() { say(d, "cell") })
		}
	})
}

func TestKeepsAndIsHeard(t *testing.T) {
	r, err := Check(write(t, page))
	if err != nil || len(r.Broken) > 0 {
		t.Errorf("broken is %q, error %v", r.Broken, err)
	}
	want := []string{"H1: Title", "H2: Part", "LBody: one", "P: two", "P: three", "TH: head", "TD: cell", "TD: cell", "TH: head", "TD: cell", "Figure: a line (1 < 2) of 3–4 mm, é"}
	if !slices.Equal(r.Heard, want) {
		t.Errorf("heard is %q, want %q", r.Heard, want)
	}
	if !slices.Equal(r.Unheard, []string{"two"}) {
		t.Errorf("not heard is %q", r.Unheard)
	}
}

// inMetadata swaps a text in the metadata of a file, whose data stay as long as
// they were.
func inMetadata(t *testing.T, file []byte, from, to string) []byte {
	t.Helper()
	at := bytes.Index(file, []byte("/Subtype /XML"))
	start := at + bytes.Index(file[at:], []byte("stream\n")) + len("stream\n")
	end := start + bytes.Index(file[start:], []byte("\nendstream"))
	z, err := zlib.NewReader(bytes.NewReader(file[start:end]))
	if err != nil {
		t.Fatal(err)
	}
	data, err := io.ReadAll(z)
	if err != nil || !bytes.Contains(data, []byte(from)) {
		t.Fatalf("the metadata have no %q; error %v", from, err)
	}
	var packed bytes.Buffer
	w, _ := zlib.NewWriterLevel(&packed, zlib.BestCompression)
	w.Write(bytes.Replace(data, []byte(from), []byte(to), 1))
	w.Close()
	if packed.Len() > end-start {
		t.Fatalf("the metadata are %d bytes, there is room for %d", packed.Len(), end-start)
	}
	return slices.Concat(file[:start], packed.Bytes(), make([]byte, end-start-packed.Len()), file[end:])
}

// Each rule finds a page that breaks it.
func TestFindsWhatIsBroken(t *testing.T) {
	swap := func(from, to string) func(file []byte) []byte {
		return func(file []byte) []byte {
			if bytes.Count(file, []byte(from)) == 0 {
				t.Errorf("the file has no %q", from)
			}
			return bytes.Replace(file, []byte(from), []byte(to+strings.Repeat(" ", max(0, len(from)-len(to)))), 1)
		}
	}
	said := func(from, to string) func(file []byte) []byte {
		return func(file []byte) []byte { return inMetadata(t, file, from, to) }
	}
	same := func(file []byte) []byte { return file }
	more := func(content string) func(file []byte) []byte {
		return func(file []byte) []byte { return drawnOn(t, file, content) }
	}
	for _, c := range []struct {
		name, clause string
		draw         func(d *pdf.Doc)
		edit         func(file []byte) []byte
	}{
		{"letters after the header", "19005-3, 6.1.2", page, swap("%\xe2\xe3\xcf\xd3", "%abcd")},
		{"data at the end", "19005-3, 6.1.3", page, func(file []byte) []byte { return append(file, "\nmore"...) }},
		{"an object's beginning", "19005-3, 6.1.9", page, swap("3 0 obj\n<<", "3 0 obj <<")},
		{"no language", "14289-1, 7.2", page, swap("/Lang (en-US)", "")},
		{"another language", "19005-3, 6.7.4", page, swap("/Lang (en-US)", "/Lang (de-DE)")},
		{"not marked", "19005-3, 6.7.2.2", page, swap("/Marked true", "/Marked null")},
		{"title not shown", "14289-1, 7.1", page, swap("/DisplayDocTitle true", "")},
		{"no output intent", "19005-3, 6.2.3", page, swap("/OutputIntents", "/OutputIntentz")},
		{"no metadata", "19005-3, 6.6.2.1", page, swap("/Metadata 1", "/Metadatx 1")},
		{"metadata without end", "19005-3, 6.6.2.1", page, said("</rdf:Seq>", "</rdf:Sek>")},
		{"another title", "19005-3, 6.6.2", page, said("Sheet &amp; page", "Sheet &amp; pag2")},
		{"a property of no schema", "19005-3, 6.6.2.3", page, said("http://www.aiim.org/pdfua/ns/id/</", "http://www.aiim.org/pdfua/ns/ie/</")},
		{"level U", "19005-3, 6.6.4", page, said("conformance>A<", "conformance>U<")},
		{"another part of PDF/UA", "14289-1, 5", page, said("<pdfuaid:part>1<", "<pdfuaid:part>2<")},
		{"a file that belongs to nothing", "19005-3, 6.8", page, swap("/AF [", "/AX [")},
		{"not in order", "14289-1, 7.18.3", page, swap("/Tabs /S", "/Tabs /R")},
		{"not in the list of owners", "14289-1, 7.1", page, swap("/StructParents 0", "")},
		{"a wrong length", "19005-3, 6.1.7.1", page, func(file []byte) []byte {
			at := bytes.Index(file, []byte("/XML /Filter /FlateDecode /Length ")) + len("/XML /Filter /FlateDecode /Length ")
			file[at]++ // a digit that is no 9
			return file
		}},
		{"inks of print", "19005-3, 6.2.4.3", page, more("0 0 0 1 k")},
		{"not in a stretch", "14289-1, 7.1", page, more("0 0 9 9 re f")},
		{"an unknown operator", "19005-3, 6.2.2", page, more("1 wobble")},
		{"states not restored", "19005-3, 6.2.2", page, more("q")},
		{"rows of different lengths", "14289-1, 7.2", func(d *pdf.Doc) { tag(d, layout.Table, func() { row(d, 1); row(d, 1, 1) }) }, same},
		{"a table without headings", "14289-1, 7.5", func(d *pdf.Doc) {
			tag(d, layout.Table, func() {
				tag(d, layout.TableRow, func() { tag(d, layout.DataCell, func() { say(d, "cell") }) })
			})
		}, same},
		{"an item in no list", "14289-1, 7.2", func(d *pdf.Doc) { tag(d, layout.Item, func() { say(d, "item") }) }, same},
		{"a paragraph in a list", "14289-1, 7.2", func(d *pdf.Doc) {
			tag(d, layout.List, func() { tag(d, layout.Paragraph, func() { say(d, "item") }) })
		}, same},
		{"a figure without place", "32000-1, 14.8.5.4", func(d *pdf.Doc) {
			layout.Tag{Kind: layout.Picture, Alt: "nowhere"}.Draw(d, func() { say(d, "9") })
		}, same},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, err := Check(c.edit(write(t, c.draw)))
			if err != nil {
				t.Fatal(err)
			}
			if !slices.ContainsFunc(r.Broken, func(s string) bool { return strings.HasPrefix(s, "ISO "+c.clause+":") }) {
				t.Errorf("found are %q, want one of ISO %s", r.Broken, c.clause)
			}
		})
	}
}

// drawnOn is a file whose page draws something more, as editors of PDFs do it:
// with a new object at the end.
func drawnOn(t *testing.T, file []byte, content string) []byte {
	t.Helper()
	d, err := open(file)
	if err != nil {
		t.Fatal(err)
	}
	data, err := d.ctx.PageContent(d.page, 1)
	if err != nil {
		t.Fatal(err)
	}
	number := d.page["Contents"].(types.IndirectRef).ObjectNumber.Value()
	trailer := regexp.MustCompile(`/Root \d+ 0 R /Info \d+ 0 R /ID \[[^]]*\]`).Find(file)
	start := regexp.MustCompile(`startxref\n(\d+)`).FindSubmatch(file)[1]
	size := len(d.ctx.Table)
	out := bytes.NewBuffer(bytes.Clone(file))
	at := out.Len()
	fmt.Fprintf(out, "%d 0 obj\n<</Length %d>>\nstream\n%s\n%s\nendstream\nendobj\n", number, len(data)+1+len(content), data, content)
	list := out.Len()
	fmt.Fprintf(out, "%d 0 obj\n<</Type /XRef /Size %d /W [1 4 1] /Index [%d 1 %d 1] %s /Prev %s /Length 12>>\nstream\n", size, size+1, number, size, trailer, start)
	for _, place := range []int{at, list} {
		out.Write(append(binary.BigEndian.AppendUint32([]byte{1}, uint32(place)), 0))
	}
	fmt.Fprintf(out, "\nendstream\nendobj\nstartxref\n%d\n%%%%EOF\n", list)
	return out.Bytes()
}

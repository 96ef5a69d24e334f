package archive

import (
	"bytes"
	"compress/zlib"
	"encoding/hex"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
	"testing"

	"gaugesheet/report/archive/pdffile"
)

// A doc is a PDF taken apart, to be changed and written anew: its streams
// unpacked, its objects by their numbers.
type doc struct {
	t       testing.TB
	objects map[int]pdffile.Object
	trailer pdffile.Dict
	next    int // numbers below it are taken
	first   int // the object that is written first, 0 for that of the least number
	// packed packs a stream's data; nil leaves them as they are.
	pack func([]byte) (packed []byte, filter pdffile.Object)
}

func newDoc(t testing.TB, data []byte) *doc {
	t.Helper()
	f, err := pdffile.Open(data)
	if err != nil {
		t.Fatal(err)
	}
	d := &doc{t: t, objects: map[int]pdffile.Object{}, trailer: pdffile.Dict{}}
	for _, key := range []pdffile.Name{"Root", "Info", "ID"} {
		d.trailer[key] = f.Trailer[key]
	}
	size, _ := f.Trailer["Size"].(float64)
	for n := 1; n < int(size)+100; n++ {
		o, err := f.Resolve(pdffile.Ref{Number: n})
		if err != nil {
			t.Fatal(err)
		}
		s, ok := o.(*pdffile.Stream)
		if o == nil || ok && (s.Dict["Type"] == pdffile.Name("XRef") || s.Dict["Type"] == pdffile.Name("ObjStm")) {
			continue
		}
		if ok && s.Dict["Filter"] == pdffile.Name("FlateDecode") {
			plain, err := f.Unpack(s)
			if err != nil {
				t.Fatal(err)
			}
			s = &pdffile.Stream{Dict: maps.Clone(s.Dict), Raw: plain}
			delete(s.Dict, "DecodeParms")
			delete(s.Dict, "Filter")
			o = s
		}
		d.objects[n] = o
	}
	return d
}

// at gives the object of a reference, others as they are.
func (d *doc) at(o pdffile.Object) pdffile.Object {
	if ref, ok := o.(pdffile.Ref); ok {
		return d.objects[ref.Number]
	}
	return o
}

func (d *doc) dict(o pdffile.Object) pdffile.Dict {
	d.t.Helper()
	switch o := d.at(o).(type) {
	case pdffile.Dict:
		return o
	case *pdffile.Stream:
		return o.Dict
	}
	d.t.Fatalf("%v is no dictionary", o)
	return nil
}

func (d *doc) list(o pdffile.Object) []pdffile.Object {
	list, _ := d.at(o).([]pdffile.Object)
	return list
}

func (d *doc) root() pdffile.Dict  { return d.dict(d.trailer["Root"]) }
func (d *doc) pages() pdffile.Dict { return d.dict(d.root()["Pages"]) }
func (d *doc) page() pdffile.Dict  { return d.dict(d.list(d.pages()["Kids"])[0]) }

func (d *doc) resources() pdffile.Dict {
	page := d.page()
	if page["Resources"] == nil {
		return d.dict(d.pages()["Resources"])
	}
	return d.dict(page["Resources"])
}

// content is the stream that the page draws.
func (d *doc) content() *pdffile.Stream { return d.at(d.page()["Contents"]).(*pdffile.Stream) }

// add adds an object.
func (d *doc) add(o pdffile.Object) pdffile.Ref {
	for d.next == 0 || d.objects[d.next] != nil {
		d.next++
	}
	d.objects[d.next] = o
	return pdffile.Ref{Number: d.next}
}

// stream adds a stream.
func (d *doc) stream(dict pdffile.Dict, data string) pdffile.Ref {
	return d.add(&pdffile.Stream{Dict: dict, Raw: []byte(data)})
}

// draws adds operations to the end of the page's content.
func (d *doc) draws(ops string) { d.content().Raw = append(d.content().Raw, "\n"+ops+"\n"...) }

// replace changes the page's content once.
func (d *doc) replace(from, to string) {
	d.t.Helper()
	if !bytes.Contains(d.content().Raw, []byte(from)) {
		d.t.Fatalf("the page's content has no %q", from)
	}
	d.content().Raw = bytes.Replace(d.content().Raw, []byte(from), []byte(to), 1)
}

// read is the file as the reader has it, with its pages.
func (d *doc) read() (*pdffile.File, []pdffile.Page) {
	d.t.Helper()
	f, err := pdffile.Open(d.bytes())
	if err != nil {
		d.t.Fatal(err)
	}
	pages, err := f.Pages()
	if err != nil {
		d.t.Fatal(err)
	}
	return f, pages
}

// font is the font of the page that shows a text, with the text's codes and
// place.
func (d *doc) font(text string) (font pdffile.Dict, run pdffile.Run, codes string) {
	d.t.Helper()
	f, pages := d.read()
	page, _, err := readPage(f, pages[0])
	if err != nil {
		d.t.Fatal(err)
	}
	fonts, err := f.Fonts(pages[0].Dict)
	if err != nil {
		d.t.Fatal(err)
	}
	at := slices.IndexFunc(page.runs, func(r pdffile.Run) bool { return r.Text == text })
	if at < 0 {
		d.t.Fatalf("the page does not say %q", text)
	}
	run = page.runs[at]
	codes, _ = codesOf(fonts[run.Font], text)
	return d.dict(d.dict(d.resources()["Font"])[run.Font]), run, codes
}

// codesOf is a text as a page's content shows it.
func codesOf(font pdffile.Font, text string) (string, bool) {
	var b strings.Builder
	for _, r := range text {
		found := false
		for code, s := range font {
			if s == string(r) {
				b.Write([]byte{byte(code >> 8), byte(code)})
				found = true
				break
			}
		}
		if !found {
			return "", false
		}
	}
	escaped := strings.NewReplacer(`\`, `\\`, "(", `\(`, ")", `\)`, "\r", `\r`).Replace(b.String())
	return "(" + escaped + ")", true
}

// bytes writes the PDF.
func (d *doc) bytes() []byte {
	var out, list bytes.Buffer // in the order of the file, in that of the numbers
	out.WriteString("%PDF-1.7\n%\xe2\xe3\xcf\xd3\n")
	size := slices.Max(slices.Collect(maps.Keys(d.objects))) + 1
	fmt.Fprintf(&list, "xref\n0 %d\n0000000000 65535 f \n", size)
	places := make([]int, size)
	for i := 0; i < size; i++ {
		n := i
		switch {
		case i == 0:
			n = d.first
		case i == d.first:
			n = 0
		}
		o, there := d.objects[n]
		if !there {
			continue
		}
		places[n] = out.Len()
		fmt.Fprintf(&out, "%d 0 obj\n%s\nendobj\n", n, written(d.packed(o)))
	}
	for _, at := range places[1:] {
		if at == 0 {
			list.WriteString("0000000000 65535 f \n")
		} else {
			fmt.Fprintf(&list, "%010d 00000 n \n", at)
		}
	}
	at := out.Len()
	out.Write(list.Bytes())
	d.trailer["Size"] = float64(size)
	fmt.Fprintf(&out, "trailer\n%s\nstartxref\n%d\n%%%%EOF\n", written(d.trailer), at)
	return out.Bytes()
}

// packed is an object as the file has it.
func (d *doc) packed(o pdffile.Object) pdffile.Object {
	s, ok := o.(*pdffile.Stream)
	if !ok || d.pack == nil || s.Dict["Filter"] != nil {
		return o
	}
	packed := &pdffile.Stream{Dict: maps.Clone(s.Dict)}
	var filter pdffile.Object
	if packed.Raw, filter = d.pack(s.Raw); filter != nil {
		packed.Dict["Filter"] = filter
	}
	return packed
}

func deflated(data []byte) ([]byte, pdffile.Object) {
	var b bytes.Buffer
	z := zlib.NewWriter(&b)
	z.Write(data)
	z.Close()
	return b.Bytes(), pdffile.Name("FlateDecode")
}

// written is an object in the notation of PDF.
func written(o pdffile.Object) string {
	switch o := o.(type) {
	case nil:
		return "null"
	case float64:
		return strconv.FormatFloat(o, 'f', -1, 64)
	case pdffile.String:
		return "<" + hex.EncodeToString([]byte(o)) + ">"
	case pdffile.Name:
		return name(o)
	case pdffile.Ref:
		return fmt.Sprintf("%d %d R", o.Number, o.Generation)
	case []pdffile.Object:
		items := make([]string, len(o))
		for i := range o {
			items[i] = written(o[i])
		}
		return "[" + strings.Join(items, " ") + "]"
	case pdffile.Dict:
		var b strings.Builder
		for _, key := range slices.Sorted(maps.Keys(o)) {
			b.WriteString(name(key) + " " + written(o[key]) + "\n")
		}
		return "<<" + b.String() + ">>"
	case *pdffile.Stream:
		if _, said := o.Dict["Length"].(raw); !said {
			o.Dict["Length"] = float64(len(o.Raw))
		}
		return written(o.Dict) + "\nstream\n" + string(o.Raw) + "\nendstream"
	}
	return fmt.Sprint(o)
}

func name(n pdffile.Name) string {
	var b strings.Builder
	b.WriteByte('/')
	for _, c := range []byte(n) {
		if c == '#' || c <= ' ' || c > '~' || strings.IndexByte("()<>[]{}/%", c) >= 0 {
			fmt.Fprintf(&b, "#%02x", c)
		} else {
			b.WriteByte(c)
		}
	}
	return b.String()
}

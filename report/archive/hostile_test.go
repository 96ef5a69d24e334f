package archive

import (
	"bytes"
	"compress/flate"
	"compress/zlib"
	"encoding/binary"
	"fmt"
	"hash/adler32"
	"io"
	"strings"
	"testing"

	"gaugesheet/report/archive/pdffile"
	"gaugesheet/report/budget"
	"gaugesheet/report/sheet"
)

// packedTimes packs a text so many times over (ISO 32000-1, 7.4.4.2; RFC 1950). A
// long piece is packed once and its block repeated, which is as good as gigabytes
// packed and takes no time.
func packedTimes(s string, times int) []byte {
	inPiece := min(max(1<<17/len(s), 1), times)
	piece := bytes.Repeat([]byte(s), inPiece)
	out := []byte{0x78, 0x9c}
	sum := uint32(1)
	block := flateBlock(piece)
	for range times / inPiece {
		out, sum = append(out, block...), sumOfBoth(sum, adler32.Checksum(piece), len(piece))
	}
	rest := []byte(strings.Repeat(s, times%inPiece))
	out, sum = append(out, flateBlock(rest)...), sumOfBoth(sum, adler32.Checksum(rest), len(rest))
	out = append(out, 1, 0, 0, 0xff, 0xff) // the last block, of nothing
	return binary.BigEndian.AppendUint32(out, sum)
}

// flateBlock is data packed, to the end of a byte, with more to come.
func flateBlock(data []byte) []byte {
	var b bytes.Buffer
	w, _ := flate.NewWriter(&b, flate.DefaultCompression) // a level that there is
	w.Write(data)
	w.Flush()
	return b.Bytes()
}

// sumOfBoth is the checksum of two stretches of data, from theirs and the second's
// length (RFC 1950, 9).
func sumOfBoth(first, second uint32, length int) uint32 {
	const base = 65521
	low := (first&0xffff + second&0xffff + base - 1) % base
	high := uint64(first>>16) + uint64(second>>16) + uint64(length%base)*uint64((first&0xffff+base-1)%base)
	return uint32(high%base)<<16 | low
}

// What is packed so is what the standard library packs.
func TestPackedTimes(t *testing.T) {
	for _, times := range []int{1, 3, 100_000, 123_457} {
		z, err := zlib.NewReader(bytes.NewReader(packedTimes("0 0 m ", times)))
		if err != nil {
			t.Fatal(err)
		}
		if got, err := io.ReadAll(z); err != nil || string(got) != strings.Repeat("0 0 m ", times) {
			t.Errorf("%d times: %d bytes come out, error %v", times, len(got), err)
		}
	}
}

func (d *doc) contentOf(raw []byte, filter pdffile.Object) {
	s := d.content()
	s.Raw, s.Dict["Filter"] = raw, filter
}

// hostile are files that want more than is theirs. A sheet of them is refused,
// or differs; nothing else.
var hostile = []struct {
	name   string
	change func(*doc)
}{
	{"content that unpacks to a gigabyte", func(d *doc) { d.contentOf(packedTimes(strings.Repeat("0 0 m ", 1000), 180_000), pn("FlateDecode")) }},
	{"content packed three times", func(d *doc) {
		raw := packedTimes(strings.Repeat("0 0 m ", 1000), 100_000)
		raw, _ = deflated(raw)
		raw, _ = deflated(raw)
		d.contentOf(raw, list{pn("FlateDecode"), pn("FlateDecode"), pn("FlateDecode")})
	}},
	{"four million saved states", func(d *doc) { d.contentOf(packedTimes("q ", 4_000_000), pn("FlateDecode")) }},
	{"a million empty arrays", func(d *doc) { d.contentOf(packedTimes("[]", 3_000_000), pn("FlateDecode")) }},
	{"arrays in one another", func(d *doc) { d.contentOf(packedTimes("[", 1_000_000), pn("FlateDecode")) }},
	{"an outline without end", func(d *doc) { d.contentOf(append([]byte("0 0 m "), bytes.Repeat([]byte("1 1 l "), 900_000)...), nil) }},
	{"clips upon clips", func(d *doc) {
		d.contentOf([]byte(strings.Repeat("0 0 m 1 2 l 3 4 l 5 5 l W n ", 40)+strings.Repeat("0 0 m 9 9 l S ", 100_000)), nil)
	}},
	{"long outlines as clips", func(d *doc) {
		d.contentOf([]byte("0 0 m "+strings.Repeat("1 2 l ", 90_000)+"W n "+strings.Repeat("0 0 m 9 9 l S ", 50_000)), nil)
	}},
	{"letters without end", func(d *doc) {
		_, run, _ := d.font("138")
		d.draws(fmt.Sprintf("BT /%s 9 Tf (%s) Tj ET", run.Font, strings.Repeat("\x00\x01", 3_000_000)))
	}},
	{"spaces without end", func(d *doc) {
		font, run, _ := d.font("138")
		d.at(font["ToUnicode"]).(*pdffile.Stream).Raw = []byte("1 beginbfrange <0000> <ffff> <0020> endbfrange")
		d.draws(fmt.Sprintf("BT /%s 9 Tf (%s) Tj ET", run.Font, strings.Repeat("\x00\x03", 3_000_000)))
	}},
	{"ranges of characters", func(d *doc) {
		font, _, _ := d.font("138")
		d.at(font["ToUnicode"]).(*pdffile.Stream).Raw = []byte("1 beginbfrange " + strings.Repeat("<0000> <ffff> <0041004200430044> ", 100_000) + "endbfrange")
	}},
	{"long texts for each character", func(d *doc) {
		font, _, _ := d.font("138")
		d.at(font["ToUnicode"]).(*pdffile.Stream).Raw = []byte("1 beginbfrange <0000> <ffff> <" + strings.Repeat("0041", 500_000) + "> endbfrange")
	}},
	{"widths without end", func(d *doc) {
		d.descendant()["W"] = append(list{0.0, 65535.0, 500.0}, repeat(list{0.0, 65535.0, 500.0}, 100_000)...)
	}},
	{"parts in parts", func(d *doc) {
		inner := d.form()
		for range 6 {
			outer := d.form()
			d.objects[outer.Number].(*pdffile.Stream).Raw = bytes.Repeat([]byte("/F Do "), 1000)
			d.dict(outer)["Resources"] = dict{"XObject": dict{"F": inner}}
			inner = outer
		}
		d.named("XObject", "Fm9", inner)
		d.draws("/Fm9 Do")
	}},
	{"a part in itself", func(d *doc) {
		f := d.form()
		d.objects[f.Number].(*pdffile.Stream).Raw = bytes.Repeat([]byte("/F Do "), 1000)
		d.dict(f)["Resources"] = dict{"XObject": dict{"F": f}}
		d.named("XObject", "Fm9", f)
		d.draws("/Fm9 Do")
	}},
	{"glyphs of glyphs", func(d *doc) {
		s := d.at(d.dict(d.descendant()["FontDescriptor"])["FontFile2"]).(*pdffile.Stream)
		s.Raw = nested(d.t, s.Raw)
	}},
	{"a large picture", func(d *doc) {
		d.named("XObject", "Im9", d.add(&pdffile.Stream{Dict: dict{"Type": pn("XObject"), "Subtype": pn("Image"), "Width": 30000.0, "Height": 30000.0, "ColorSpace": pn("DeviceRGB"), "BitsPerComponent": 8.0, "Filter": pn("FlateDecode")},
			Raw: packedTimes(strings.Repeat("\x00", 1<<20), 1000)}))
		d.draws("/Im9 Do")
	}},
	{"pages that lead to one another", func(d *doc) { d.pages()["Kids"] = list{d.root()["Pages"], d.list(d.pages()["Kids"])[0]} }},
	{"a hundred thousand pages", func(d *doc) {
		d.pages()["Kids"] = repeat(d.list(d.pages()["Kids"]), 100_000)
		d.pages()["Count"] = 100_000.0
	}},
	{"nodes in nodes", func(d *doc) {
		inner := d.list(d.pages()["Kids"])[0]
		for range 20_000 {
			inner = dict{"Type": pn("Pages"), "Count": 1.0, "Kids": list{d.add(inner)}}
		}
		d.pages()["Kids"] = list{d.add(inner)}
	}},
	{"attached files without end", func(d *doc) {
		file := d.add(&pdffile.Stream{Dict: dict{"Type": pn("EmbeddedFile"), "Filter": pn("FlateDecode")}, Raw: packedTimes(strings.Repeat(" ", 1<<20), 60)})
		for i := range 900 {
			name := pdffile.String(fmt.Sprint(i))
			d.dict(d.dict(d.root()["Names"])["EmbeddedFiles"])["Names"] = append(d.specs(), name, d.add(dict{"F": name, "EF": dict{"F": file}}))
		}
	}},
	{"names that lead to themselves", func(d *doc) {
		names := d.add(dict{})
		d.dict(names)["Kids"] = repeat(list{names}, 10_000)
		d.dict(d.root()["Names"])["EmbeddedFiles"] = names
	}},
	{"twenty job files", func(d *doc) {
		delete(d.trailer, "Info")
		for i := range 19 {
			d.attach(fmt.Sprint(i, ".yaml"), sheet.JobFileDescription, strings.Replace(fourCylinders, "138", fmt.Sprint(120+i), 1))
		}
	}},
	{"notes without end", func(d *doc) {
		d.page()["Annots"] = repeat(list{d.add(dict{"Subtype": pn("Text"), "Rect": blank})}, 100_000)
	}},
	{"fields without end", func(d *doc) {
		d.root()["AcroForm"] = dict{"Fields": repeat(list{d.add(dict{"FT": pn("Sig"), "V": dict{"Name": pdffile.String("x")}})}, 100_000)}
	}},
	{"a stamp of many marks", func(d *doc) { d.draws("1 0 0 1 0 -100 cm " + strings.Repeat("0 0 m 1 1 l S ", 40_000)) }},
	{"figures without end", func(d *doc) {
		_, run, codes := d.font("138")
		d.draws(fmt.Sprintf("BT /%s 9 Tf ET ", run.Font) + strings.Repeat("BT "+codes+" Tj ET ", 20_000))
	}},
	{"a job file of names for names", func(d *doc) {
		text := "a0: &a0 [x, x, x, x, x, x, x, x, x]\n"
		for i := 1; i < 12; i++ {
			text += fmt.Sprintf("a%d: &a%d [%s]\n", i, i, strings.Repeat(fmt.Sprintf("*a%d, ", i-1), 9))
		}
		d.job(text + fourCylinders)
	}},
	{"a job file of braces", func(d *doc) { d.job(strings.Repeat("{a: ", 100_000)) }},
	{"a job file of many lines", func(d *doc) { d.job(strings.Repeat("k: v\n", 2_000_000)) }},
	{"a job file of long notes", func(d *doc) { d.job(fourCylinders + "notes: " + strings.Repeat("words and words ", 300_000) + "\n") }},
	{"a job with a thousand findings", func(d *doc) { d.job(fourCylinders + "findings: [" + strings.Repeat("a finding, ", 20_000) + "x]\n") }},
}

func repeat(l list, times int) list {
	var out list
	for range times {
		out = append(out, l...)
	}
	return out
}

// job changes the job file that the sheet carries.
func (d *doc) job(text string) {
	d.at(d.dict(d.dict(d.specs()[1])["EF"])["F"]).(*pdffile.Stream).Raw = []byte(text)
}

// nested is a font whose first letter is a glyph of a thousand glyphs, each of
// which is one again.
func nested(t testing.TB, font []byte) []byte {
	number := func(at, size int) int {
		v := 0
		for _, c := range font[at : at+size] {
			v = v<<8 | int(c)
		}
		return v
	}
	out := bytes.Clone(font)
	var glyf []byte
	part := "\x00\x20\x00\x01\x00\x00" // flags: more follow; glyph 1
	glyf = append(glyf, "\xff\xff\x00\x00\x00\x00\x03\xe8\x03\xe8"+strings.Repeat(part, 10_000)...)
	for len(glyf)%4 != 0 {
		glyf = append(glyf, 0)
	}
	for row := 12; row < 12+16*number(4, 2); row += 16 {
		put := func(v, at int) {
			out[at], out[at+1], out[at+2], out[at+3] = byte(v>>24), byte(v>>16), byte(v>>8), byte(v)
		}
		switch string(font[row : row+4]) {
		case "glyf":
			put(len(font), row+8)
			put(len(glyf), row+12)
		case "loca":
			loca := []byte{}
			count := number(row+12, 4)/2 + 1
			for i := range count {
				v := 0
				if i > 1 {
					v = len(glyf) / 2
				}
				loca = append(loca, byte(v>>8), byte(v))
			}
			put(len(font)+len(glyf), row+8)
			put(len(loca), row+12)
			out = append(append(out, glyf...), loca...)
		}
	}
	return out
}

func TestHostileSheets(t *testing.T) {
	if testing.Short() {
		t.Skip("takes seconds")
	}
	base := draw(t, fourCylinders, sheet.Options{})
	var rows tally
	defer rows.log(t)
	for _, h := range hostile {
		rows.run(t, h.name, func(t *testing.T) {
			d := newDoc(t, base)
			h.change(d)
			data := d.bytes()
			budget.Held(t, func() {
				if got, said := outcomeOf(t, data); got != refused && got != Different {
					t.Errorf("the outcome is %d; said %q", got, said)
				}
			})
			budget.Held(t, func() { Made(data) })
		})
	}
}

// pagesOf adds many pages that have the same content, and so many parts that are
// the same.
func (d *doc) pagesOf(count int, content string, parts int, part string) {
	page := dict{"Type": pn("Page"), "Parent": d.root()["Pages"], "MediaBox": area(0, 0, 9, 9), "Resources": dict{}, "Contents": d.stream(dict{}, content)}
	if parts > 0 {
		named := dict{}
		f := d.stream(dict{"Type": pn("XObject"), "Subtype": pn("Form"), "BBox": area(0, 0, 9, 9)}, part)
		for i := range parts {
			named[pn(fmt.Sprint("X", i))] = f
		}
		page["Resources"] = dict{"XObject": named}
	}
	kids := list{}
	for range count {
		kids = append(kids, d.add(page))
	}
	d.pages()["Kids"] = append(kids, d.list(d.pages()["Kids"])...)
	d.pages()["Count"] = float64(count + 1)
}

// Small files of many pages that are the same are looked through within the
// budget, whether the sheet is found among them or not.
func TestHostilePages(t *testing.T) {
	if testing.Short() {
		t.Skip("takes seconds")
	}
	base := draw(t, fourCylinders, sheet.Options{})
	for name, add := range map[string]func(*doc){
		"a long text on each":       func(d *doc) { d.pagesOf(900, "("+strings.Repeat("x", 3_900_000)+") Tj", 0, "") },
		"a long code on each":       func(d *doc) { d.pagesOf(900, "<"+strings.Repeat("00", 1_900_000)+"> Tj", 0, "") },
		"a long remark on each":     func(d *doc) { d.pagesOf(900, "%"+strings.Repeat("x", 3_900_000)+"\nq Q", 0, "") },
		"parts with a long text":    func(d *doc) { d.pagesOf(900, "q Q", 100, "("+strings.Repeat("x", 3_900_000)+") Tj") },
		"parts with a long remark":  func(d *doc) { d.pagesOf(900, "q Q", 100, "%"+strings.Repeat("x", 3_900_000)+"\n") },
		"parts that are all a page": func(d *doc) { d.pagesOf(900, "q Q", 100, strings.Repeat("1 0 0 1 0 0 cm ", 3000)) },
	} {
		t.Run(name, func(t *testing.T) {
			d := newDoc(t, base)
			add(d)
			data := d.bytes()
			budget.Held(t, func() {
				if got, said := outcomeOf(t, data); got != refused && got != Unvouched {
					t.Errorf("the outcome is %d; said %q", got, said)
				}
			})
		})
	}
}

// Files in which the list of objects, or what is packed in it, wants more than
// is its own.
func TestHostileLists(t *testing.T) {
	if testing.Short() {
		t.Skip("takes seconds")
	}
	packed := func(entries, data string) string {
		return fmt.Sprintf("<<%s /Filter /FlateDecode /Length %d>>\nstream\n%s\nendstream", entries, len(data), data)
	}
	file := func(objects ...string) []byte {
		var b bytes.Buffer
		b.WriteString("%PDF-1.7\n")
		rows := ""
		for i, o := range objects {
			rows += fmt.Sprintf("%010d 00000 n \n", b.Len())
			fmt.Fprintf(&b, "%d 0 obj\n%s\nendobj\n", i+1, o)
		}
		fmt.Fprintf(&b, "xref\n0 %d\n0000000000 65535 f \n%strailer\n<</Size %d /Root 1 0 R /Info 2 0 R>>\nstartxref\n%d\n%%%%EOF\n", len(objects)+1, rows, len(objects)+1, b.Len())
		return b.Bytes()
	}
	pages := "<</Type /Catalog /Pages 3 0 R>>"
	tests := map[string][]byte{
		"a list of objects in gigabytes": []byte("%PDF-1.7\n1 0 obj\n" + packed("/Type /XRef /W [1 8 8] /Size 200000 /Root 1 0 R", string(packedTimes(strings.Repeat("\x00", 1<<20), 2000))) + "\nendobj\nstartxref\n9\n%%EOF\n"),
		"a list of objects of many rows": []byte("%PDF-1.7\nxref\n0 250000\n" + strings.Repeat("0000000009 00000 n \n", 250000) + "trailer\n<</Size 1 /Root 1 0 R>>\nstartxref\n9\n%%EOF\n"),
		"a list of objects that repeats": []byte("%PDF-1.7\nxref\n" + strings.Repeat("0 1\n0000000000 65535 f \n", 300_000) + "trailer\n<</Size 1 /Root 1 0 R>>\nstartxref\n9\n%%EOF\n"),
		"a length that is itself":        file(pages, "<<>>", "<</Length 3 0 R>>\nstream\nx\nendstream"),
		"objects that are one another":   file(pages, "<<>>", "4 0 R", "3 0 R"),
		"packed objects in gigabytes":    file(pages, "<<>>", packed("/Type /ObjStm /N 1000000 /First 10", string(packedTimes(strings.Repeat("1 0 ", 1<<18), 1500)))),
		"a million packed objects":       file(pages, "<<>>", packed("/Type /ObjStm /N 1000000 /First 4000000", string(packedTimes("1 0 ", 1_000_000)))),
		"a file of nothing but notes":    append([]byte("%PDF-1.7\n"), bytes.Repeat([]byte("%%%%%%%%%%%%%%%\n"), 2_000_000)...),
		"a file of nothing but starts":   append([]byte("%PDF-1.7\n"), bytes.Repeat([]byte("startxref\n9\n"), 2_000_000)...),
		"a string that does not end":     []byte("%PDF-1.7\nxref\n0 1\n0000000000 65535 f \ntrailer\n<</Root (" + strings.Repeat("(", 20_000_000) + "startxref\n9\n%%EOF\n"),
		"a name that does not end":       []byte("%PDF-1.7\nxref\n0 1\n0000000000 65535 f \ntrailer\n<</" + strings.Repeat("#41", 6_000_000) + "\nstartxref\n9\n%%EOF\n"),
		"a dictionary of many names":     []byte("%PDF-1.7\nxref\n0 1\n0000000000 65535 f \ntrailer\n<<" + manyNames(400_000) + ">>\nstartxref\n9\n%%EOF\n"),
		"more than is read":              append([]byte("%PDF-1.7\n"), make([]byte, MostBytes)...),
	}
	var rows tally
	defer rows.log(t)
	for name, data := range tests {
		rows.run(t, name, func(t *testing.T) {
			budget.Held(t, func() {
				if got, said := outcomeOf(t, data); got != refused {
					t.Errorf("the outcome is %d; said %q", got, said)
				}
			})
		})
	}
}

package archive

import (
	"bytes"
	"fmt"
	"maps"
	"regexp"
	"strings"
	"testing"

	"gaugesheet/report/archive/pdffile"
	"gaugesheet/report/sheet"
)

// apartRows are things of which two readers of PDF make two pages: each does as
// it likes, or as the standard says, and this program as one of them.
var apartRows = []alteration{
	{"content packed by differences, said by reference", func(d *doc) {
		s := d.content()
		s.Raw, s.Dict["Filter"] = deflated(s.Raw)
		s.Dict["DecodeParms"] = dict{"Predictor": d.add(12.0), "Columns": d.add(10.0)}
	}, refused, `by differences`},
	{"content packed by differences, said in short", func(d *doc) {
		s := d.content()
		s.Raw, s.Dict["Filter"] = deflated(s.Raw)
		s.Dict["DP"] = dict{"Predictor": 12.0, "Columns": 10.0}
	}, refused, `'?DP'?`},
	{"content that says it is a picture", func(d *doc) { d.content().Dict["Filter"] = pn("DCTDecode") }, refused, `packed as a picture`},
	{"content that says it is metadata", func(d *doc) { d.content().Dict["Type"] = pn("Metadata") }, refused, `'?Type'?`},
	{"content beside nothing", func(d *doc) { d.page()["Contents"] = list{d.page()["Contents"], nil} }, refused, `a part of the page's content is none`},
	{"content beside what is not there", func(d *doc) { d.page()["Contents"] = list{pdffile.Ref{Number: 9999}, d.page()["Contents"]} }, refused, `a part of the page's content is none`},
	{"content packed as something says that is not there", func(d *doc) { d.content().Dict["Filter"] = pdffile.Ref{Number: 9999} }, refused, `in a way that is not said`},
	{"content in lists of lists", func(d *doc) {
		d.page()["Contents"] = list{d.page()["Contents"], list{d.stream(dict{}, "1 g 0 0 600 700 re f")}}
	}, refused, `content`},
	{"a page whose parent is another than the node it is in", func(d *doc) {
		page := d.page()
		d.pages()["Resources"] = page["Resources"]
		delete(page, "Resources")
		page["Parent"] = d.add(dict{"Type": pn("Pages"), "Kids": list{}, "Count": 0.0, "Resources": dict{"Font": dict{}}})
	}, refused, `pages are not in order`},
	{"notes that are no list", func(d *doc) { d.page()["Annots"] = dict{"Subtype": pn("Link")} }, refused, `in the place of a list`},
	{"resources that are none", func(d *doc) { d.resources()["XObject"] = pn("None") }, refused, `in the place of a dictionary`},
	{"a node of pages with an entry that nobody knows", func(d *doc) { d.pages()["Hologram"] = dict{} }, Different, `'Hologram'`},
	{"a node of pages that has notes", func(d *doc) { d.pages()["Annots"] = list{dict{"Subtype": pn("Stamp"), "Rect": d.over()}} }, Different, `'Annots'`},
	{"another first page, said at the start", func(d *doc) {
		page := maps.Clone(d.page())
		page["Contents"] = d.stream(dict{}, "0 0 m 9 9 l S")
		d.linearized(d.add(page))
	}, refused, `a page that is not in its list of pages`},
	{"another object as the first page, said at the start", func(d *doc) { d.linearized(d.page()["Contents"]) }, refused, `that its first page is another one`},
	{"the first page said at the start", func(d *doc) { d.linearized(d.list(d.pages()["Kids"])[0]) }, Same, ``},
	{"what is left of a first page, further on in the file", func(d *doc) {
		d.linearized(d.page()["Contents"])
		d.first = 0
	}, Same, ``},
	{"a pen that is wide one way", func(d *doc) {
		d.content().Raw = regexp.MustCompile(`([\d.]+) ([\d.]+) m\s([\d.]+) ([\d.]+) l\sS\b`).ReplaceAllFunc(d.content().Raw, func(line []byte) []byte {
			var x, y, u, v float64
			fmt.Sscanf(string(line), "%g %g m\n%g %g l", &x, &y, &u, &v)
			return fmt.Appendf(nil, "q 200 0 0 0.005 0 0 cm %.7f %.4f m %.7f %.4f l S Q", x/200, y*200, u/200, v*200)
		})
	}, Different, `.`},
	{"places that are lost in rounding", func(d *doc) {
		_, run, codes := d.font("138")
		content := string(d.content().Raw)
		at := strings.LastIndex(content[:strings.Index(content, codes+" Tj")], "BT ")
		end := at + strings.Index(content[at:], " ET") + 3
		moved := strings.Replace(content[at:end], fmt.Sprintf("%g %g Td", run.X, run.Y), fmt.Sprintf("%g %g Td", run.X-200, run.Y), 1)
		d.content().Raw = []byte(content[:at] + "q 100000 0 0 100000 0 0 cm 1 0 0 1 100000 0 cm 1 0 0 1 -99999.998 0 cm 0.00001 0 0 0.00001 0 0 cm " + moved + " Q" + content[end:])
	}, Different, `.`},
	{"letters outside of a text", func(d *doc) {
		_, _, codes := d.font("138")
		d.replace(codes+" Tj", "ET "+codes+" Tj BT")
	}, Different, `.`},
	{"a state saved within a text", func(d *doc) {
		_, _, codes := d.font("138")
		d.replace(codes+" Tj", "q 0 0 Td Q "+codes+" Tj")
	}, Different, `within a text`},
	{"a text within a text", func(d *doc) {
		_, _, codes := d.font("138")
		d.replace(codes+" Tj", codes+" Tj BT ET")
	}, Different, `within a text`},
	{"an outline through which the page is scaled", func(d *doc) { d.draws("20 5 m q 2 0 0 2 0 0 cm Q 30 10 l S") }, Different, `within an outline`},
	{"a color of more parts than its space has", func(d *doc) { d.draws("/DeviceGray cs 0 0.5 1 sc 20 5 40 10 re f") }, Different, `parts`},
	{"an end of line in a text", func(d *doc) {
		_, run, _ := d.font("138")
		d.draws(fmt.Sprintf("BT /%s 9 Tf 20 5 Td (\x00\r) Tj ET", run.Font))
	}, refused, `an end of line in a text`},
	{"a code that no byte has", func(d *doc) {
		_, run, _ := d.font("138")
		d.draws(fmt.Sprintf(`BT /%s 9 Tf 20 5 Td (\000\403) Tj ET`, run.Font))
	}, refused, `a code in a text that no byte has`},
	{"a number of more figures than readers take", func(d *doc) { d.draws("0.000000000000000000000001 0 m 3 4 l S") }, refused, `not a number of PDF`},
	{"curves as a few straight lines", func(d *doc) { d.content().Raw = append([]byte("100 i\n"), d.content().Raw...) }, Different, `.`},
	{"spaces that are wider for some", func(d *doc) {
		_, _, codes := d.font("138")
		d.replace(codes+" Tj", "9 Tw "+codes+" Tj 0 Tw")
	}, Different, `spaces`},
	{"a type in a collection of types", func(d *doc) {
		s := d.at(d.dict(d.descendant()["FontDescriptor"])["FontFile2"]).(*pdffile.Stream)
		s.Raw = append([]byte("ttcf"), s.Raw[4:]...)
	}, Different, `a type that is not the sheet's`},
	{"a type with pictures of its letters", func(d *doc) {
		s := d.at(d.dict(d.descendant()["FontDescriptor"])["FontFile2"]).(*pdffile.Stream)
		s.Raw = bytes.Replace(s.Raw, []byte("hhea"), []byte("hhea"), 1)
		s.Raw = withTable(s.Raw, "sbix", "pictures")
	}, Different, `a type that is not the sheet's`},
	{"widths by reference", func(d *doc) {
		w := d.list(d.list(d.descendant()["W"])[1])
		w[d.code("3")] = d.add(3000.0)
	}, Different, `.`},
	{"a usual width by reference", func(d *doc) {
		w := d.list(d.list(d.descendant()["W"])[1])
		d.descendant()["DW"] = d.add(w[d.code("3")])
		d.descendant()["W"] = list{0.0, w[:d.code("3")]}
	}, Different, `.`},
	{"two widths for a letter", func(d *doc) {
		three := float64(d.code("3"))
		d.descendant()["W"] = append(list{three, list{3000.0}}, d.list(d.descendant()["W"])...)
	}, Different, `a type that is not the sheet's`},
	{"two characters for a letter", func(d *doc) {
		font, _, _ := d.font("138")
		s := d.at(font["ToUnicode"]).(*pdffile.Stream)
		s.Raw = bytes.Replace(s.Raw, []byte("endcmap"), fmt.Appendf(nil, "1 beginbfchar <%04x> <0038> endbfchar endcmap", d.code("3")), 1)
		s.Raw = bytes.Replace(s.Raw, []byte("begincmap"), fmt.Appendf(nil, "begincmap 1 beginbfchar <%04x> <0038> endbfchar", d.code("3")), 1)
	}, Different, `.`},
	{"characters in what says how codes are drawn", characters("1 begincidchar <CODE> 49 endcidchar"), refused, `a list of characters`},
	{"characters in what says how a stretch of codes is drawn", characters("1 begincidrange <CODE> <CODE> 49 endcidrange"), refused, `a list of characters`},
	{"characters of another list", characters("/Identity-H usecmap"), refused, `a list of characters`},
	{"characters of a list that has no end", characters("1 beginbfchar <CODE> <0035>"), refused, `a list of characters`},
	{"characters of a list with another end", characters("1 beginbfchar <CODE> <0035> endbfrange"), refused, `a list of characters`},
	{"characters of codes of three bytes", characters("1 beginbfchar <00CODE> <0035> endbfchar"), refused, `a list of characters`},
	{"a character by its name", characters("1 beginbfchar <CODE> /five endbfchar"), refused, `a list of characters`},
	{"the page in a group of colors of its own", func(d *doc) {
		d.page()["Group"] = dict{"S": pn("Transparency"), "CS": list{pn("Separation"), pn("None"), pn("DeviceGray"), dict{"FunctionType": 2.0, "Domain": list{0.0, 1.0}, "N": 1.0}}}
	}, Different, `how its colors are blended`},
	{"the page in a group, as programs write it", func(d *doc) {
		d.page()["Group"] = dict{"S": pn("Transparency"), "CS": pn("DeviceRGB"), "I": true}
	}, Unvouched, `how its colors are blended`},
	{"colors by another profile", func(d *doc) {
		intent := maps.Clone(d.dict(d.list(d.root()["OutputIntents"])[0]))
		intent["DestOutputProfile"] = d.stream(dict{"N": 3.0}, "x")
		d.root()["OutputIntents"] = list{intent}
	}, Different, `another meaning of its colors`},
}

// overs are ways to draw over the page with something that says it is small, or
// that is seen at times only.
var overs = []alteration{
	{"a signature that is printed only", func(d *doc) {
		d.annotate(dict{"Subtype": pn("Widget"), "FT": pn("Sig"), "T": pdffile.String("s"), "Rect": d.over(), "F": 36.0, "AP": dict{"N": d.form()}})
		d.root()["AcroForm"] = dict{"Fields": d.page()["Annots"], "SigFlags": 3.0}
	}, Different, `a visible signature lies over the page, at '?138`},
	{"a signature that shows while the mouse is there", func(d *doc) {
		d.annotate(dict{"Subtype": pn("Widget"), "FT": pn("Sig"), "T": pdffile.String("s"), "Rect": d.over(), "F": 288.0, "AP": dict{"N": d.form()}})
		d.root()["AcroForm"] = dict{"Fields": d.page()["Annots"], "SigFlags": 3.0}
	}, Different, `a visible signature lies over the page, at '?138`},
	{"a signature that is hidden", func(d *doc) {
		d.annotate(dict{"Subtype": pn("Widget"), "FT": pn("Sig"), "T": pdffile.String("s"), "Rect": d.over(), "F": 2.0})
		d.root()["AcroForm"] = dict{"Fields": d.page()["Annots"], "SigFlags": 3.0}
	}, Same, `a place for a signature`},
	{"a link with a wide border", func(d *doc) {
		d.annotate(dict{"Subtype": pn("Link"), "Rect": blank, "Border": list{0.0, 0.0, 900.0}, "Dest": list{d.list(d.pages()["Kids"])[0], pn("Fit")}})
	}, Different, `a link lies over the page`},
	{"a box with a wide border", func(d *doc) {
		d.annotate(dict{"Subtype": pn("Square"), "Rect": blank, "BS": dict{"W": 900.0}})
	}, Different, `a box lies over the page`},
	{"a line that says nothing of what it looks like", func(d *doc) {
		d.annotate(dict{"Subtype": pn("Line"), "Rect": blank, "L": area(100, 400, 400, 400), "AP": dict{}})
	}, Different, `a line lies over the page`},
	{"a line of which only the pressed state has a look", func(d *doc) {
		d.annotate(dict{"Subtype": pn("Line"), "Rect": blank, "L": area(100, 400, 400, 400), "AP": dict{"N": dict{}, "D": d.form()}})
	}, Different, `a line lies over the page`},
	{"a drawing of no size", func(d *doc) {
		f := d.form()
		d.dict(f)["BBox"] = area(0, 0, 0, 0)
		d.annotate(dict{"Subtype": pn("Ink"), "Rect": blank, "AP": dict{"N": f}})
	}, Different, `a drawing lies over the page`},
	{"a note that is elsewhere on paper", func(d *doc) {
		d.annotate(dict{"Subtype": pn("Watermark"), "Rect": blank, "AP": dict{"N": d.form()}, "FixedPrint": dict{"Type": pn("FixedPrint"), "H": 0.5, "V": 0.5}})
	}, Different, `something lies over the page`},
	{"a stamp that keeps its size when the page is small", func(d *doc) {
		d.annotate(dict{"Subtype": pn("Stamp"), "Rect": blank, "F": 12.0, "AP": dict{"N": d.form()}})
	}, Different, `a stamp lies over the page`},
	{"a letter that is larger than it says", func(d *doc) {
		font, _, _ := d.font("138")
		own := d.copied(font)
		s := d.at(d.dict(d.dict(d.list(own["DescendantFonts"])[0])["FontDescriptor"])["FontFile2"]).(*pdffile.Stream)
		s.Raw = small(d.t, s.Raw, d.code("8"))
		d.named("Font", "F9", d.add(own))
		d.draws(fmt.Sprintf("1 g BT /F9 900 Tf 15 5 Td (%s) Tj ET", string([]byte{0, byte(d.code("8"))})))
	}, Different, `drawn over the page`},
	{"a corner that is longer than its line", func(d *doc) { d.draws("1000 M 4 w 20 5 m 40 5.2 l 20 5.4 l S") }, Different, `drawn over the page`},
	{"a page of another file in a part", func(d *doc) {
		f := d.form()
		d.dict(f)["Ref"] = dict{"F": pdffile.String("b.pdf"), "Page": 0.0}
		d.named("XObject", "Fm9", f)
		d.draws("q 1 0 0 1 20 3 cm /Fm9 Do Q")
	}, Different, `a page of another file`},
}

// carriers are things done to what a sheet carries.
var carriers = []alteration{
	{"a file before the job file", func(d *doc) {
		file := d.stream(dict{"Type": pn("EmbeddedFile")}, "x")
		spec := d.add(dict{"Type": pn("Filespec"), "F": pdffile.String("a.yaml"), "UF": pdffile.String("a.yaml"), "EF": dict{"F": file}})
		d.dict(d.dict(d.root()["Names"])["EmbeddedFiles"])["Names"] = append(list{pdffile.String("a"), spec}, d.specs()...)
	}, Unvouched, `another file, 'a.yaml'`},
	{"a file of the job file's name", func(d *doc) { d.attach("job.yaml", "", "x") }, Different, `two files of the name 'job.yaml'`},
	{"a file of the job file's name before it", func(d *doc) {
		file := d.stream(dict{"Type": pn("EmbeddedFile")}, "x")
		spec := d.add(dict{"Type": pn("Filespec"), "F": pdffile.String("job.yaml"), "UF": pdffile.String("job.yaml"), "EF": dict{"F": file}})
		d.dict(d.dict(d.root()["Names"])["EmbeddedFiles"])["Names"] = append(list{pdffile.String("a"), spec}, d.specs()...)
	}, Different, `two files of the name 'job.yaml'`},
	{"a file that is elsewhere", func(d *doc) {
		d.root()["AF"] = append(d.list(d.root()["AF"]), d.add(dict{"Type": pn("Filespec"), "FS": pn("URL"), "F": pdffile.String("https://example.org/job.yaml"), "AFRelationship": pn("Source")}))
	}, Different, `names a file that it does not carry`},
	{"a job file that is packed as a picture", func(d *doc) {
		d.at(d.dict(d.dict(d.specs()[1])["EF"])["F"]).(*pdffile.Stream).Dict["Filter"] = pn("DCTDecode")
	}, refused, `packed as a picture`},
}

// characters adds to the list of characters of the reading's font; CODE is that of
// its middle figure.
func characters(more string) func(*doc) {
	return func(d *doc) {
		font, _, _ := d.font("138")
		s := d.at(font["ToUnicode"]).(*pdffile.Stream)
		more := strings.ReplaceAll(more, "CODE", fmt.Sprintf("%04x", d.code("3")))
		s.Raw = bytes.Replace(s.Raw, []byte("endcmap"), []byte(more+"\nendcmap"), 1)
	}
}

// linearized says at the file's start which object its first page is, for readers
// that show it before they have all of the file.
func (d *doc) linearized(page pdffile.Object) {
	o := dict{"Linearized": 1.0, "L": 1000.0, "O": float64(page.(pdffile.Ref).Number), "E": 1.0, "N": 1.0, "T": 1.0, "H": list{1.0, 1.0}}
	d.first = d.add(o).Number
	for range 3 { // a length has to be right before it can be, and so the place of the list
		data := d.bytes()
		o["L"], o["T"] = float64(len(data)), float64(bytes.LastIndex(data, []byte("\nxref\n"))+1)
	}
}

// copied is a dictionary with copies of all that it refers to.
func (d *doc) copied(o dict) dict { return d.copyOf(o).(dict) }

func (d *doc) copyOf(o pdffile.Object) pdffile.Object {
	switch o := o.(type) {
	case pdffile.Ref:
		return d.add(d.copyOf(d.objects[o.Number]))
	case list:
		out := list{}
		for _, item := range o {
			out = append(out, d.copyOf(item))
		}
		return out
	case dict:
		out := dict{}
		for key, item := range o {
			out[key] = d.copyOf(item)
		}
		return out
	case *pdffile.Stream:
		return &pdffile.Stream{Dict: d.copied(o.Dict), Raw: bytes.Clone(o.Raw)}
	}
	return o
}

// withTable is a font with another table.
func withTable(font []byte, tag, data string) []byte {
	count := int(font[4])<<8 | int(font[5])
	out := append([]byte{}, font[:12]...)
	out[4], out[5] = byte((count+1)>>8), byte(count+1)
	word := func(v int) []byte { return []byte{byte(v >> 24), byte(v >> 16), byte(v >> 8), byte(v)} }
	for row := 12; row < 12+16*count; row += 16 {
		at := int(font[row+8])<<24 | int(font[row+9])<<16 | int(font[row+10])<<8 | int(font[row+11])
		out = append(append(append(out, font[row:row+8]...), word(at+16)...), font[row+12:row+16]...)
	}
	out = append(append(append(append(out, tag...), 0, 0, 0, 0), word(len(font)+16)...), word(len(data))...)
	return append(append(out, font[12+16*count:]...), data...)
}

// small is a font of which a letter says that it is smaller than it is.
func small(t testing.TB, font []byte, letter int) []byte {
	out := bytes.Clone(font)
	at, _ := glyphAt(t, out, letter)
	copy(out[at+2:at+10], []byte{0, 0, 0, 0, 0, 1, 0, 1})
	return out
}

// What readers of PDF disagree on is no way to show another number.
func TestDisagreements(t *testing.T) {
	if testing.Short() {
		t.Skip("takes seconds")
	}
	altered(t, draw(t, fourCylinders, sheet.Options{}), deflated, apartRows, overs, carriers)
}

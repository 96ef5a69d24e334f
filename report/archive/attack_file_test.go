package archive

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"
	"testing"

	"gaugesheet/report/archive/pdffile"
	"gaugesheet/report/sheet"
)

// beside are things that a page or a document can have beside its content.
var beside = []alteration{
	{"a note over the reading", func(d *doc) {
		d.annotate(dict{"Subtype": pn("FreeText"), "Rect": d.over(), "Contents": pdffile.String("158"), "DA": pdffile.String("/Helv 9 Tf")})
	}, Different, `a note lies over the page, at '?138`},
	{"a note beside the page's words", func(d *doc) {
		d.annotate(dict{"Subtype": pn("FreeText"), "Rect": blank, "Contents": pdffile.String("seen"), "AP": dict{"N": d.form()}})
	}, Unvouched, `a note stands on the page beside what it says: 'seen'`},
	{"a note with a line that leads elsewhere", func(d *doc) {
		d.annotate(dict{"Subtype": pn("FreeText"), "Rect": blank, "CL": area(0, 0, 300, 300)})
	}, Different, `a note lies over the page`},
	{"a stamp over the reading", func(d *doc) {
		d.annotate(dict{"Subtype": pn("Stamp"), "Rect": d.over(), "AP": dict{"N": d.form()}})
	}, Different, `a stamp lies over the page, at '?138`},
	{"a box over the reading", func(d *doc) { d.annotate(dict{"Subtype": pn("Square"), "Rect": d.over(), "IC": list{1.0}}) }, Different, `a box lies over the page`},
	{"a line that is drawn by its points", func(d *doc) {
		d.annotate(dict{"Subtype": pn("Line"), "Rect": blank, "L": area(100, 400, 400, 400)})
	}, Different, `a line lies over the page`},
	{"a drawing over the page", func(d *doc) {
		d.annotate(dict{"Subtype": pn("Ink"), "Rect": blank, "InkList": list{area(100, 400, 400, 400)}})
	}, Different, `a drawing lies over`},
	{"a highlight by its points", func(d *doc) {
		d.annotate(dict{"Subtype": pn("Highlight"), "Rect": blank, "QuadPoints": list{0.0, 0.0, 600.0, 0.0, 0.0, 700.0, 600.0, 700.0}})
	}, Different, `a highlight lies over`},
	{"a kind of note that nobody knows", func(d *doc) { d.annotate(dict{"Subtype": pn("Hologram"), "Rect": blank}) }, Different, `something lies over`},
	{"a note of three dimensions", func(d *doc) { d.annotate(dict{"Subtype": pn("3D"), "Rect": d.over()}) }, Different, `something lies over`},
	{"a form field over the reading", func(d *doc) {
		d.annotate(dict{"Subtype": pn("Widget"), "FT": pn("Tx"), "T": pdffile.String("x"), "V": pdffile.String("158"), "Rect": d.over()})
		d.root()["AcroForm"] = dict{"Fields": d.page()["Annots"], "NeedAppearances": true}
	}, Different, `a form field lies over the page, at '?138`},
	{"a link that runs something", func(d *doc) {
		d.annotate(dict{"Subtype": pn("Link"), "Rect": blank, "A": dict{"S": pn("Launch")}})
	}, Different, `a link on the page could run something`},
	{"a visible signature beside the page's words", func(d *doc) {
		d.annotate(dict{"Subtype": pn("Widget"), "FT": pn("Sig"), "T": pdffile.String("s"), "Rect": blank, "AP": dict{"N": d.form()}, "V": dict{"Type": pn("Sig"), "Name": pdffile.String("R. Okafor")}})
		d.root()["AcroForm"] = dict{"Fields": d.page()["Annots"], "SigFlags": 3.0}
	}, Unvouched, `a visible signature stands on the page`},
	{"a visible signature over the reading", func(d *doc) {
		d.annotate(dict{"Subtype": pn("Widget"), "FT": pn("Sig"), "T": pdffile.String("s"), "Rect": d.over(), "AP": dict{"N": d.form()}})
		d.root()["AcroForm"] = dict{"Fields": d.page()["Annots"], "SigFlags": 3.0}
	}, Different, `a visible signature lies over the page, at '?138`},
	{"a signature that is not seen", func(d *doc) {
		d.annotate(dict{"Subtype": pn("Widget"), "FT": pn("Sig"), "T": pdffile.String("s"), "Rect": area(0, 0, 0, 0), "V": dict{"Type": pn("Sig"), "Name": pdffile.String("R. Okafor")}})
		d.root()["AcroForm"] = dict{"Fields": d.page()["Annots"], "SigFlags": 3.0}
	}, Same, `a PDF signature by 'R. Okafor', which is not checked here`},
	{"an attached file pinned beside the page's words", func(d *doc) {
		d.annotate(dict{"Subtype": pn("FileAttachment"), "Rect": area(0, -60, 10, -50), "FS": dict{"Type": pn("Filespec"), "UF": pdffile.String("a.txt"), "EF": dict{"F": d.stream(dict{}, "a")}}})
	}, Unvouched, `an attached file's sign stands on the page`},
	{"a stamp in the content beside the page's words", func(d *doc) { d.draws("1 0 0 rg 20 5 40 10 re f") }, Unvouched, `a stamp stands on the page beside what it says`},
	{"a form that draws the page anew", func(d *doc) { d.root()["AcroForm"] = dict{"Fields": list{}, "XFA": d.stream(dict{}, "<x/>")} }, Different, `a form that draws the page anew`},
	{"a form that is only drawn by some", func(d *doc) { d.root()["NeedsRendering"] = true }, Different, `draws the page anew`},
	{"a cover for other files", func(d *doc) { d.root()["Collection"] = dict{"View": pn("T")} }, Different, `a cover for other files`},
	{"a script when it is opened", func(d *doc) { d.root()["OpenAction"] = script() }, Different, `happens when it is opened`},
	{"a place at which it is opened", func(d *doc) { d.root()["OpenAction"] = list{d.list(d.pages()["Kids"])[0], pn("Fit")} }, Same, ``},
	{"a script by name", func(d *doc) {
		d.dict(d.root()["Names"])["JavaScript"] = dict{"Names": list{pdffile.String("a"), script()}}
	}, Different, `could run something`},
	{"something that happens when it is printed", func(d *doc) { d.root()["AA"] = dict{"WP": script()} }, Different, `happens by itself`},
	{"something that happens on the page", func(d *doc) { d.page()["AA"] = dict{"O": script()} }, Different, `happens by itself`},
	{"an entry that nobody knows", func(d *doc) { d.root()["Hologram"] = dict{} }, Different, `'Hologram'`},
	{"an entry of the page that nobody knows", func(d *doc) { d.page()["Hologram"] = dict{} }, Different, `'Hologram'`},
	{"bookmarks", func(d *doc) { d.root()["Outlines"] = dict{"Type": pn("Outlines")} }, Unvouched, `bookmarks`},
	{"layers that the page does not use", func(d *doc) { d.root()["OCProperties"] = dict{"OCGs": list{}, "D": dict{}} }, Unvouched, `layers`},
	{"a small picture of the page", func(d *doc) {
		d.page()["Thumb"] = d.stream(dict{"Width": 1.0, "Height": 1.0, "ColorSpace": pn("DeviceGray"), "BitsPerComponent": 8.0}, "\xff")
	}, Unvouched, `a small picture of the page`},
	{"another title", func(d *doc) { d.dict(d.trailer["Info"])["Title"] = pdffile.String("Engine test: all good") }, Unvouched, `what the document says of itself.*title`},
	{"other metadata", func(d *doc) { d.at(d.root()["Metadata"]).(*pdffile.Stream).Raw = []byte("<x/>") }, Unvouched, `other metadata`},
	{"no metadata", func(d *doc) { delete(d.root(), "Metadata") }, Unvouched, `gone: metadata`},
	{"other meanings of colors", func(d *doc) { d.root()["OutputIntents"] = list{dict{"S": pn("GTS_PDFX")}} }, Unvouched, `another meaning of its colors`},
	{"nothing said of itself", func(d *doc) { delete(d.trailer, "Info") }, Unvouched, `what the document says of itself`},
	{"nothing said of itself, and another reading", func(d *doc) { delete(d.trailer, "Info"); d.to158() }, Different, `158 for cylinder 4, its job file gives 138`},
	{"it claims another kind of sheet", func(d *doc) { d.keywords("customer", "workshop") }, Different, `.`},
	{"it claims another paper", func(d *doc) { d.keywords("letter", "a4") }, Different, `.`},
	{"it claims another language", func(d *doc) { d.root()["Lang"] = pdffile.String("en-GB") }, Different, `.`},
}

// keywords changes what the document says of itself.
func (d *doc) keywords(from, to string) {
	info := d.dict(d.trailer["Info"])
	words := string(info["Keywords"].(pdffile.String))
	changed := strings.Replace(strings.Replace(words, from, to, 1), wide(from), wide(to), 1)
	if changed == words {
		d.t.Fatalf("%q is not in the keywords", from)
	}
	info["Keywords"] = pdffile.String(changed)
}

// papers are things done to the page as a whole, its pages and its files.
var papers = []alteration{
	{"turned", func(d *doc) { d.page()["Rotate"] = 90.0 }, Different, `the page is turned`},
	{"upside down", func(d *doc) { d.pages()["Rotate"] = 180.0 }, Different, `the page is turned`},
	{"turned once round", func(d *doc) { d.page()["Rotate"] = 360.0 }, Same, ``},
	{"not turned", func(d *doc) { d.page()["Rotate"] = 0.0 }, Same, ``},
	{"a part of the page", func(d *doc) { d.page()["CropBox"] = area(0, 0, 612, 500) }, Different, `only a part of the page`},
	{"a part of the page, said above it", func(d *doc) { d.pages()["CropBox"] = area(0, 0, 612, 500) }, Different, `only a part of the page`},
	{"all of the page", func(d *doc) { d.page()["CropBox"] = area(612, 792, 0, 0) }, Same, ``},
	{"a part that is printed", func(d *doc) { d.page()["TrimBox"] = area(0, 0, 612, 500) }, Different, `only a part of the page`},
	{"another paper", func(d *doc) { d.page()["MediaBox"] = area(0, 0, 612, 500) }, Different, `the paper's size`},
	{"another scale", func(d *doc) { d.page()["UserUnit"] = 2.0 }, Different, `another size`},
	{"the scale as it is", func(d *doc) { d.page()["UserUnit"] = 1.0 }, Same, ``},
	{"resources said above the page", func(d *doc) { d.pages()["Resources"] = d.page()["Resources"]; delete(d.page(), "Resources") }, Same, ``},
	{"no list of procedures, no empty resources", func(d *doc) {
		r := d.resources()
		for k := range r {
			if k == "ProcSet" || k != "Font" && len(d.dict(r[k])) == 0 {
				delete(r, k)
			}
		}
	}, Same, ``},
	{"the content in two pieces", func(d *doc) {
		raw := d.content().Raw
		cut := bytes.Index(raw, []byte("\nEMC"))
		d.page()["Contents"] = list{d.stream(dict{}, string(raw[:cut])), d.stream(dict{}, string(raw[cut:]))}
	}, Same, ``},
	{"the content packed twice", func(d *doc) {
		s := d.content()
		s.Raw, _ = deflated(s.Raw)
		s.Raw, _ = deflated(s.Raw)
		s.Dict["Filter"] = list{pn("FlateDecode"), pn("FlateDecode")}
	}, Same, ``},
	{"a second page of the same sheet", func(d *doc) { d.secondPage("") }, Different, `a second page of the same sheet`},
	{"a second page of the same sheet, as a part that stands by itself", func(d *doc) {
		f := d.stream(dict{"Type": pn("XObject"), "Subtype": pn("Form"), "BBox": area(0, 0, 612, 792), "Resources": d.page()["Resources"]}, string(d.content().Raw))
		d.secondPage("/Fm8 Do")
		d.named("XObject", "Fm8", f)
	}, Different, `a second page of the same sheet`},
	{"a second page of the same sheet, as a stamp", func(d *doc) {
		f := d.stream(dict{"Type": pn("XObject"), "Subtype": pn("Form"), "BBox": area(0, 0, 612, 792), "Resources": d.page()["Resources"]}, string(d.content().Raw))
		d.secondPage("q Q")
		d.dict(d.list(d.pages()["Kids"])[1])["Annots"] = list{d.add(dict{"Type": pn("Annot"), "Subtype": pn("Stamp"), "Rect": area(0, 0, 612, 792), "AP": dict{"N": f}})}
	}, Different, `a second page of the same sheet`},
	{"a second page of the same sheet, before a picture in its content", func(d *doc) {
		d.secondPage(string(d.content().Raw) + "\nBI /W 1 /H 1 /CS /G /BPC 8 ID \x00 EI")
	}, Different, `a second page of the same sheet`},
	{"another page beside it", func(d *doc) { d.secondPage("0 0 100 100 re f") }, Unvouched, `another page stands beside it, which is not looked at; the sheet is page 1`},
	{"another page before it", func(d *doc) {
		d.secondPage("0 0 100 100 re f")
		kids := d.list(d.pages()["Kids"])
		d.pages()["Kids"] = list{kids[1], kids[0]}
	}, Unvouched, `another page stands beside it`},
	{"another page before it, and another reading", func(d *doc) {
		d.to158()
		d.secondPage("0 0 100 100 re f")
		kids := d.list(d.pages()["Kids"])
		d.pages()["Kids"] = list{kids[1], kids[0]}
	}, Different, `158 for cylinder 4, its job file gives 138`},
	{"its page taken out of a longer document", func(d *doc) {
		d.secondPage("0 0 100 100 re f")
		d.page()["Contents"] = d.stream(dict{}, "0 0 50 50 re f")
	}, refused, `none of the 2 pages`},
	{"two contents for one attached file", func(d *doc) {
		d.dict(d.dict(d.specs()[1])["EF"])["UF"] = d.stream(dict{"Type": pn("EmbeddedFile")}, strings.Replace(fourCylinders, "138", "158", 1))
	}, Different, `.`},
	{"two names for one attached file", func(d *doc) { d.dict(d.specs()[1])["F"] = pdffile.String("other.yaml") }, Different, `it has two names`},
	{"a second job file", func(d *doc) {
		d.attach("b.yaml", sheet.JobFileDescription, strings.Replace(fourCylinders, "138", "158", 1))
	}, Different, `.`},
	{"a file that the job does not draw on", func(d *doc) { d.attach("b.yaml", "gaugesheet shop file", "name: x\n") }, Different, `'b.yaml', which its job file does not draw on`},
	{"a file of somebody else's", func(d *doc) { d.attach("invoice.xml", "the invoice", "<x/>") }, Unvouched, `another file, 'invoice.xml'`},
	{"no job file", func(d *doc) { delete(d.root(), "Names"); delete(d.root(), "AF") }, refused, `carries no job file`},
	{"the job file named by the page only", func(d *doc) {
		d.page()["AF"] = list{d.specs()[1]}
		delete(d.root(), "Names")
		delete(d.root(), "AF")
	}, Unvouched, `not on its list of attached files`},
	{"a node of pages that says it is a page", func(d *doc) { d.pages()["Type"] = pn("Page") }, refused, `pages are not in order`},
	{"a page that has pages", func(d *doc) { d.page()["Kids"] = list{} }, refused, `pages are not in order`},
	{"a count of pages that is wrong", func(d *doc) { d.pages()["Count"] = 2.0 }, refused, `pages are not in order`},
	{"content packed by differences", func(d *doc) {
		s := d.content()
		for len(s.Raw)%10 != 0 {
			s.Raw = append(s.Raw, ' ')
		}
		var rows []byte
		for i := 0; i < len(s.Raw); i += 10 {
			rows = append(append(rows, 0), s.Raw[i:i+10]...)
		}
		s.Raw, s.Dict["Filter"] = deflated(rows)
		s.Dict["DecodeParms"] = dict{"Predictor": 12.0, "Columns": 10.0}
	}, refused, `by differences`},
	{"a turn of the page that is nothing, where readers look above", func(d *doc) { d.page()["Rotate"] = nil }, refused, `pages are not in order`},
	{"content in letters, with a sign that some readers pass over", func(d *doc) {
		d.content().Raw = fmt.Appendf(nil, "%x\x00>", d.content().Raw)
		d.content().Dict["Filter"] = pn("ASCIIHexDecode")
	}, refused, `not readable`},
	{"content in letters of 85, with a sign that some readers pass over", func(d *doc) {
		d.content().Raw = []byte("\x01\x0287cUR~>")
		d.content().Dict["Filter"] = pn("ASCII85Decode")
	}, refused, `not readable`},
	{"a list of filters, and what they need not in one", func(d *doc) {
		d.content().Dict["Filter"], d.content().Dict["DecodeParms"] = list{pn("FlateDecode")}, pdffile.Dict{}
	}, refused, `readers take differently`},
	{"content in another file", func(d *doc) { d.content().Dict["F"] = pdffile.String("b.txt") }, refused, `in another file`},
	{"numbers that PDF does not have", func(d *doc) { d.draws("1e2 0 m 3 4 l S") }, refused, `not a number of PDF`},
	{"numbers that are two", func(d *doc) { d.draws("1-2 0 m 3 4 l S") }, refused, `not a number of PDF`},
	{"content that ends in the middle", func(d *doc) { d.draws("(138") }, refused, `ends in the middle`},
}

// An update is appended to a file, as editors save changes.
func update(data []byte, objects string, at map[int]int, trailer string) []byte {
	start := startOfList.FindAllSubmatch(data, -1)
	out := bytes.NewBuffer(bytes.Clone(data))
	base := out.Len()
	out.WriteString(objects)
	list := out.Len()
	out.WriteString("xref\n")
	for n, offset := range at {
		fmt.Fprintf(out, "%d 1\n%010d 00000 n \n", max(n, -n), base+offset)
	}
	fmt.Fprintf(out, "trailer\n<<%s /Prev %s>>\nstartxref\n%d\n%%%%EOF\n", trailer, start[len(start)-1][1], list)
	return out.Bytes()
}

// Files that readers disagree about.
func TestAmbiguousFiles(t *testing.T) {
	made := func() *doc { return newDoc(t, draw(t, fourCylinders, sheet.Options{})) }
	d := made()
	plain := d.bytes()
	contentNumber := d.page()["Contents"].(pdffile.Ref).Number
	keys := fmt.Sprintf("/Size %v /Root %s /Info %s", written(d.trailer["Size"]), written(d.trailer["Root"]), written(d.trailer["Info"]))
	content := func(d *doc) string { return fmt.Sprintf("%d 0 obj\n%s\nendobj\n", contentNumber, written(d.content())) }
	other := made()
	other.to158()
	noted := made()
	noted.draws("% 7 0 obj")
	between := func(at, put string) []byte { return bytes.Replace(plain, []byte(at), []byte(put), 1) }
	tests := []struct {
		name string
		data []byte
		want Outcome
		says string
	}{
		{"nothing", plain, Same, ``},
		{"space after the end", append(bytes.Clone(plain), " \n\n"...), Same, ``},
		{"the same content again, as an update", update(plain, content(d), map[int]int{contentNumber: 0}, keys), Same, ``},
		{"other content, as an update", update(plain, content(other), map[int]int{contentNumber: 0}, keys), Different, `158 for cylinder 4, its job file gives 138`},
		{"other content in the file, the list leads to the first", update(plain, content(other), map[int]int{}, keys), refused, `in it twice`},
		{"an object that no list has", update(plain, "900 0 obj\n(x)\nendobj\n", map[int]int{}, keys), refused, `not in its list`},
		{"words between objects", between("\n2 0 obj", "\nhello\n2 0 obj"), refused, `.`},
		{"words after the end", append(bytes.Clone(plain), "hello"...), refused, `.`},
		{"another file after the end", append(bytes.Clone(plain), other.bytes()...), refused, `.`},
		{"another file before it", append(other.bytes(), plain...), refused, `.`},
		{"words before the start", append([]byte("hello\n"), plain...), refused, `.`},
		{"a second place for the list", append(bytes.Clone(plain), "startxref\n15\n%%EOF\n"...), refused, `.`},
		{"a place for the list that nothing reads", bytes.Replace(plain, []byte("\nxref\n"), []byte("\n\n%xref"), 1), refused, `.`},
		{"two lists for two kinds of readers", update(plain, "", map[int]int{}, keys+" /XRefStm 15"), refused, `.`},
		{"another root in an older list", update(plain, "", map[int]int{}, strings.Replace(keys, "/Root "+written(d.trailer["Root"]), "/Root "+written(d.trailer["Info"]), 1)), refused, `.`},
		{"a row that is a byte shorter", between(" 00000 n \n", " 00000 n\n"), refused, `not written as it should be`},
		{"a word in a list of objects", between(" 00000 n \n", " 00000 n%\n"), refused, `not written as it should be`},
		{"two lists for two kinds of readers, by reference", update(plain, "", map[int]int{}, keys+" /XRefStm 1 0 R"), refused, `two lists of objects`},
		{"data that look like objects", noted.bytes(), refused, `could pass for objects`},
		{"a list that has an object twice", update(plain, content(d), map[int]int{contentNumber: 0, -contentNumber: 0}, keys), refused, `has one of them twice`},
		{"a name twice", between("/Contents ", "/Contents 1 0 R /Contents "), refused, `.`},
		{"a remark between objects", between("\n2 0 obj", "\n%hello\n2 0 obj"), refused, `.`},
		{"a remark after the end", append(bytes.Clone(plain), "%hello\n"...), Unvouched, `a remark between objects`},
		{"fewer objects than it has", bytes.Replace(plain, fmt.Appendf(nil, "/Size %v", written(d.trailer["Size"])), []byte("/Size 9"), 1), Unvouched, `objects beyond the number`},
		{"another generation", between("/Contents "+strconv.Itoa(contentNumber)+" 0 R", "/Contents "+strconv.Itoa(contentNumber)+" 1 R"), refused, `another generation`},
	}
	var rows tally
	defer rows.log(t)
	for _, tt := range tests {
		rows.run(t, tt.name, func(t *testing.T) { check(t, tt.data, tt.want, tt.says) })
	}
}

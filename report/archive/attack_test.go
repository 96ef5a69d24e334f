package archive

import (
	"bytes"
	"fmt"
	"image"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"gaugesheet/report/archive/pdffile"
	"gaugesheet/report/sheet"
)

// refused stands for a file of which nothing is said but why it is not read.
const refused Outcome = -1

// An alteration is something that was done to a sheet, and what verify has to
// say of it.
type alteration struct {
	name   string
	change func(*doc)
	want   Outcome
	says   string // an expression that one of the sentences fits
}

// Shorter names for what alterations are made of.
type (
	dict = pdffile.Dict
	pn   = pdffile.Name
	list = []pdffile.Object
)

func area(x0, y0, x1, y1 float64) list { return list{x0, y0, x1, y1} }

// blank is a place of the sheet where nothing stands, over is one on the
// reading of cylinder 4.
var blank = area(20, 5, 60, 15)

func (d *doc) over() list {
	_, run, _ := d.font("138")
	return area(run.X-1, run.Y-2, run.X+20, run.Y+10)
}

// to changes the reading 138 to 158 in the content, which its font can show.
func (d *doc) to158() {
	font, _, before := d.font("138")
	f, err := pdffile.Open(d.bytes())
	if err != nil {
		d.t.Fatal(err)
	}
	characters, err := f.Characters(font["ToUnicode"])
	if err != nil {
		d.t.Fatal(err)
	}
	after, ok := codesOf(characters, "158")
	if !ok {
		d.t.Fatal("the font has no 5")
	}
	d.replace(before, after)
}

// code is the code of a character in the font of the reading 138.
func (d *doc) code(c string) int {
	font, _, _ := d.font("138")
	f, err := pdffile.Open(d.bytes())
	if err != nil {
		d.t.Fatal(err)
	}
	characters, err := f.Characters(font["ToUnicode"])
	if err != nil {
		d.t.Fatal(err)
	}
	for code, s := range characters {
		if s == c {
			return int(code)
		}
	}
	d.t.Fatalf("the font has no %s", c)
	return 0
}

// annotate puts a note on the page.
func (d *doc) annotate(entries dict) {
	entries["Type"] = pn("Annot")
	d.page()["Annots"] = append(d.list(d.page()["Annots"]), d.add(entries))
}

// form is a part of a page that paints an area white.
func (d *doc) form() pdffile.Ref {
	return d.stream(dict{"Type": pn("XObject"), "Subtype": pn("Form"), "BBox": area(0, 0, 20, 12)}, "1 g 0 0 20 12 re f")
}

// named adds a resource of the page.
func (d *doc) named(category, name pn, o pdffile.Object) {
	r := d.resources()
	if r[category] == nil || len(d.dict(r[category])) == 0 {
		r[category] = dict{}
	}
	d.dict(r[category])[name] = o
}

// descendant is the part of the font of 138 that has its outlines.
func (d *doc) descendant() dict {
	font, _, _ := d.font("138")
	return d.dict(d.list(font["DescendantFonts"])[0])
}

// specs are the descriptions of the attached files.
func (d *doc) specs() list {
	return d.list(d.dict(d.dict(d.root()["Names"])["EmbeddedFiles"])["Names"])
}

func (d *doc) attach(name, description, data string) {
	file := d.stream(dict{"Type": pn("EmbeddedFile")}, data)
	spec := d.add(dict{"Type": pn("Filespec"), "F": pdffile.String(name), "UF": pdffile.String(name), "Desc": pdffile.String(description), "EF": dict{"F": file, "UF": file}})
	d.dict(d.dict(d.root()["Names"])["EmbeddedFiles"])["Names"] = append(d.specs(), pdffile.String("x"+name), spec)
}

// secondPage adds a page, which other marks it as being other than the first.
func (d *doc) secondPage(content string) {
	page := dict{}
	for k, v := range d.page() {
		page[k] = v
	}
	delete(page, "StructParents")
	if content != "" {
		page["Contents"] = d.stream(dict{}, content)
	}
	page["Parent"] = d.root()["Pages"]
	d.pages()["Kids"] = append(d.list(d.pages()["Kids"]), d.add(page))
	d.pages()["Count"] = 2.0
}

func script() dict { return dict{"S": pn("JavaScript"), "JS": pdffile.String("app.alert(1)")} }

// shows are ways to show another number, or to hide or move one.
var shows = []alteration{
	{"the reading in the page's content", (*doc).to158, Different, `158 for cylinder 4, its job file gives 138`},
	{"the reading in the job file", func(d *doc) {
		s := d.at(d.dict(d.dict(d.specs()[1])["EF"])["F"]).(*pdffile.Stream)
		s.Raw = bytes.Replace(s.Raw, []byte("138"), []byte("158"), 1)
	}, Different, `138 for cylinder 4, its job file gives 158`},
	{"a white box over the reading", func(d *doc) {
		o := d.over()
		d.draws(fmt.Sprintf("1 g %v %v 20 12 re f", o[0], o[1]))
	}, Different, `drawn over the page, at '?138`},
	{"a white box under the reading", func(d *doc) {
		o := d.over()
		d.content().Raw = append(fmt.Appendf(nil, "q 1 g %v %v 20 12 re f Q\n", o[0], o[1]), d.content().Raw...)
	}, Different, `drawn over the page`},
	{"a thick white line", func(d *doc) {
		o := d.over()
		d.draws(fmt.Sprintf("1 G 12 w %v %v m %v %v l S", o[0], o[1].(float64)+6, o[2], o[1].(float64)+6))
	}, Different, `drawn over the page, at '?138`},
	{"a second reading over the first", func(d *doc) {
		_, run, _ := d.font("138")
		d.draws(fmt.Sprintf("BT /%s %g Tf %g %g Td <%04x> Tj ET", run.Font, run.Size, run.X, run.Y, d.code("5")))
	}, Different, `drawn over the page`},
	{"a picture over the reading", func(d *doc) {
		d.named("XObject", "Im9", d.stream(dict{"Type": pn("XObject"), "Subtype": pn("Image"), "Width": 1.0, "Height": 1.0, "ColorSpace": pn("DeviceGray"), "BitsPerComponent": 8.0}, "\xff"))
		o := d.over()
		d.draws(fmt.Sprintf("q 20 0 0 12 %v %v cm /Im9 Do Q", o[0], o[1]))
	}, Different, `drawn over the page, at '?138`},
	{"a picture in the content", func(d *doc) {
		o := d.over()
		d.draws(fmt.Sprintf("q 20 0 0 12 %v %v cm BI /W 1 /H 1 /CS /G /BPC 8 ID \xff EI Q", o[0], o[1]))
	}, Different, `a picture in its content`},
	{"a part of its own over the reading", func(d *doc) {
		d.named("XObject", "Fm9", d.form())
		o := d.over()
		d.draws(fmt.Sprintf("q 1 0 0 1 %v %v cm /Fm9 Do Q", o[0], o[1]))
	}, Different, `drawn over the page, at '?138`},
	{"a part in a font of its own over the reading", func(d *doc) {
		f := d.form()
		d.objects[f.Number].(*pdffile.Stream).Raw = []byte("BT /H 10 Tf (158) Tj ET")
		d.dict(f)["Resources"] = dict{"Font": dict{"H": dict{"Type": pn("Font"), "Subtype": pn("Type1"), "BaseFont": pn("Helvetica")}}}
		d.named("XObject", "Fm9", f)
		o := d.over()
		d.draws(fmt.Sprintf("q 1 0 0 1 %v %v cm /Fm9 Do Q", o[0], o[1]))
	}, Different, `drawn over the page, at '?138`},
	{"a shade over the page", func(d *doc) {
		d.named("Shading", "Sh9", dict{"ShadingType": 2.0, "ColorSpace": pn("DeviceGray"), "Coords": area(0, 0, 1, 0), "Extend": list{true, true},
			"Function": dict{"FunctionType": 2.0, "Domain": list{0.0, 1.0}, "N": 1.0, "C0": list{1.0}, "C1": list{1.0}}})
		d.draws("/Sh9 sh")
	}, Different, `draws with "sh"`},
	{"white ink", func(d *doc) {
		_, _, codes := d.font("138")
		d.replace(codes+" Tj", "1 g "+codes+" Tj")
	}, Different, `.`},
	{"ink in a space of its own", func(d *doc) {
		d.named("ColorSpace", "C9", list{pn("Separation"), pn("None"), pn("DeviceGray"), dict{"FunctionType": 2.0, "Domain": list{0.0, 1.0}, "N": 1.0}})
		_, _, codes := d.font("138")
		d.replace(codes+" Tj", "/C9 cs 1 scn "+codes+" Tj")
	}, Different, `.`},
	{"plain colors that mean others", func(d *doc) {
		d.named("ColorSpace", "DefaultRGB", list{pn("CalRGB"), dict{"WhitePoint": list{1.0, 1.0, 1.0}, "Gamma": list{9.0, 9.0, 9.0}}})
	}, Different, `colors? that mean others|colours that mean others`},
	{"letters that are not filled", func(d *doc) {
		_, _, codes := d.font("138")
		d.replace(codes+" Tj", "3 Tr "+codes+" Tj 0 Tr")
	}, Different, `letters that are not filled`},
	{"letters under a clip", func(d *doc) {
		_, _, codes := d.font("138")
		content := string(d.content().Raw)
		at := strings.LastIndex(content[:strings.Index(content, codes+" Tj")], "BT ")
		end := at + strings.Index(content[at:], " ET") + 3
		d.content().Raw = []byte(content[:at] + "q 0 0 1 1 re W n " + content[at:end] + " Q" + content[end:])
	}, Different, `.`},
	{"letters clipped to letters", func(d *doc) { d.draws("7 Tr") }, Different, `letters that are not filled`},
	{"letters without ink", func(d *doc) {
		d.named("ExtGState", "G9", dict{"ca": 0.0})
		_, _, codes := d.font("138")
		d.replace(codes+" Tj", "/G9 gs "+codes+" Tj")
	}, Different, `.`},
	{"a soft mask", func(d *doc) {
		d.named("ExtGState", "G9", dict{"SMask": dict{"S": pn("Luminosity"), "G": d.form()}})
		d.content().Raw = append([]byte("/G9 gs\n"), d.content().Raw...)
	}, Different, `.`},
	{"blending", func(d *doc) {
		d.named("ExtGState", "G9", dict{"BM": pn("Difference")})
		d.content().Raw = append([]byte("/G9 gs\n"), d.content().Raw...)
	}, Different, `.`},
	{"a part that can be hidden", func(d *doc) {
		d.root()["OCProperties"] = dict{"OCGs": list{}, "D": dict{}}
		d.named("Properties", "P9", dict{"Type": pn("OCG"), "Name": pdffile.String("x")})
		_, _, codes := d.font("138")
		d.replace(codes+" Tj", "/OC /P9 BDC "+codes+" Tj EMC")
	}, Different, `.`},
	{"a form that can be hidden, over the page", func(d *doc) {
		f := d.form()
		d.dict(f)["OC"] = dict{"Type": pn("OCG"), "Name": pdffile.String("x")}
		d.named("XObject", "Fm9", f)
		o := d.over()
		d.draws(fmt.Sprintf("q 1 0 0 1 %v %v cm /Fm9 Do Q", o[0], o[1]))
	}, Different, `drawn over the page`},
	{"letters moved by a number among them", func(d *doc) {
		_, _, codes := d.font("138")
		d.replace(codes+" Tj", "["+codes+" 3000 "+codes+"] TJ")
	}, Different, `.`},
	{"letters spread", func(d *doc) { _, _, codes := d.font("138"); d.replace(codes, "5 Tc "+codes) }, Different, `.`},
	{"letters narrowed", func(d *doc) { _, _, codes := d.font("138"); d.replace(codes, "5 Tz "+codes) }, Different, `.`},
	{"letters raised", func(d *doc) { _, _, codes := d.font("138"); d.replace(codes, "5 Ts "+codes) }, Different, `.`},
	{"a text in another place", func(d *doc) {
		_, run, _ := d.font("138")
		d.replace(fmt.Sprintf("%.2f %.2f Td", run.X, run.Y), fmt.Sprintf("%.2f %.2f Td", run.X+30, run.Y))
	}, Different, `.`},
	{"a text in another size", func(d *doc) {
		_, run, codes := d.font("138")
		d.replace(codes, fmt.Sprintf("/%s %g Tf %s", run.Font, run.Size*2, codes))
	}, Different, `.`},
	{"everything after one place left out", func(d *doc) { d.content().Raw = d.content().Raw[:bytes.Index(d.content().Raw, []byte("EMC"))+3] }, Different, `the page does not say`},
	{"an operator of no meaning", func(d *doc) { d.draws("xyz") }, Different, `"xyz"`},
	{"more ends than starts", func(d *doc) { d.draws("Q 0 g") }, Different, `more ends`},
	{"other words for who listens or copies", func(d *doc) {
		_, _, codes := d.font("138")
		d.replace(codes+" Tj", "/Span <</ActualText (158)>> BDC "+codes+" Tj EMC")
	}, Different, `.`},
	{"other tags", func(d *doc) {
		for _, o := range d.objects {
			if e, ok := o.(dict); ok && e["S"] == pn("P") && e["K"] != nil {
				e["ActualText"] = pdffile.String("4: 158")
				return
			}
		}
		d.t.Fatal("the sheet has no tags")
	}, Different, `read aloud`},
}

// faces are ways to do so by the type.
var faces = []alteration{
	{"characters that claim to be others", func(d *doc) {
		font, _, _ := d.font("138")
		s := d.at(font["ToUnicode"]).(*pdffile.Stream)
		three, five := fmt.Sprintf("<%04x> <0033>", d.code("3")), fmt.Sprintf("<%04x> <0035>", d.code("5"))
		d.to158()
		s.Raw = bytes.Replace(s.Raw, []byte(three), []byte("<fff0> <fff0>"), 1)
		s.Raw = bytes.Replace(s.Raw, []byte(five), []byte(strings.Replace(five, "0035", "0033", 1)), 1)
	}, Different, `.`},
	{"codes for other outlines", func(d *doc) {
		m := make([]byte, 2*200)
		for i := range 200 {
			m[2*i+1] = byte(i)
		}
		m[2*d.code("3")+1] = byte(d.code("5"))
		d.descendant()["CIDToGIDMap"] = d.stream(dict{}, string(m))
	}, Different, `.`},
	{"outlines of other letters", func(d *doc) {
		s := d.at(d.dict(d.descendant()["FontDescriptor"])["FontFile2"]).(*pdffile.Stream)
		s.Raw = swapped(d.t, s.Raw, d.code("3"), d.code("5"))
	}, Different, `.`},
	{"other widths", func(d *doc) {
		w := d.list(d.list(d.descendant()["W"])[1])
		w[d.code("3")] = 3000.0
	}, Different, `.`},
	{"another encoding", func(d *doc) {
		font, _, _ := d.font("138")
		font["Encoding"] = pn("Identity-V")
	}, Different, `a type that is not the sheet's`},
	{"a type that is not embedded", func(d *doc) {
		delete(d.dict(d.descendant()["FontDescriptor"]), "FontFile2")
	}, Different, `a type that is not the sheet's`},
	{"a second type in the same place", func(d *doc) {
		d.dict(d.descendant()["FontDescriptor"])["FontFile3"] = d.stream(dict{"Subtype": pn("OpenType")}, "x")
	}, Different, `a type that is not the sheet's`},
	{"a type of drawings", func(d *doc) {
		_, run, _ := d.font("138")
		d.named("Font", run.Font, dict{"Type": pn("Font"), "Subtype": pn("Type3"), "FontBBox": area(0, 0, 1, 1), "FontMatrix": list{1.0, 0.0, 0.0, 1.0, 0.0, 0.0},
			"CharProcs": dict{"a": d.stream(dict{}, "0 0 1 1 re f")}, "Encoding": dict{"Differences": list{0.0, pn("a")}}, "FirstChar": 0.0, "LastChar": 0.0, "Widths": list{1.0}})
	}, Different, `a type that is not the sheet's`},
}

// swapped is a font in which two glyphs have changed places.
func swapped(t testing.TB, font []byte, a, b int) []byte {
	out := bytes.Clone(font)
	a0, a1 := glyphAt(t, out, a)
	b0, b1 := glyphAt(t, out, b)
	n := min(a1-a0, b1-b0)
	if n < 20 {
		t.Fatal("no outlines")
	}
	if b1-b0 <= a1-a0 { // the outline of b in the place of a, where it fits
		copy(out[a0:a1], font[b0:b1])
	} else {
		copy(out[b0:b1], font[a0:a1])
	}
	return out
}

// glyphAt is where a font has a letter's outline.
func glyphAt(t testing.TB, font []byte, letter int) (from, to int) {
	number := func(at, size int) int {
		v := 0
		for _, c := range font[at : at+size] {
			v = v<<8 | int(c)
		}
		return v
	}
	var loca, glyf, head int
	for row := 12; row < 12+16*number(4, 2); row += 16 {
		switch string(font[row : row+4]) {
		case "loca":
			loca = number(row+8, 4)
		case "glyf":
			glyf = number(row+8, 4)
		case "head":
			head = number(row+8, 4)
		}
	}
	if loca == 0 || glyf == 0 || head == 0 {
		t.Fatal("no outlines")
	}
	size, unit := 2, 2
	if number(head+50, 2) == 1 {
		size, unit = 4, 1
	}
	return glyf + unit*number(loca+size*letter, size), glyf + unit*number(loca+size*(letter+1), size)
}

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
	{"another page beside it", func(d *doc) { d.secondPage("0 0 100 100 re f") }, Unvouched, `another page stands beside it`},
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
	}, Same, ``},
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
	{"content in another file", func(d *doc) { d.content().Dict["F"] = pdffile.String("b.txt") }, refused, `in another file`},
	{"numbers that PDF does not have", func(d *doc) { d.draws("1e2 0 m 3 4 l S") }, refused, `not a number of PDF`},
	{"numbers that are two", func(d *doc) { d.draws("1-2 0 m 3 4 l S") }, refused, `not a number of PDF`},
	{"content that ends in the middle", func(d *doc) { d.draws("(138") }, refused, `ends in the middle`},
}

// outcome is what verify says of a file.
func outcomeOf(t testing.TB, data []byte) (Outcome, string) {
	t.Helper()
	sheets, err := OpenAll(data)
	worst, said := Same, ""
	for _, s := range sheets {
		var v Verdict
		if v, err = s.Verify(version); err != nil {
			break
		}
		worst = max(worst, v.Outcome())
		said += strings.Join(append(append(v.Differences, v.Reasons...), v.Notes...), "\n") + "\n"
	}
	if err != nil {
		return refused, err.Error()
	}
	return worst, said
}

// What was done to a sheet, and what verify has to say: of a sheet that this
// version drew, and of one that claims another version.
func TestAlterations(t *testing.T) {
	if testing.Short() {
		t.Skip("takes seconds")
	}
	drawn := map[string][]byte{}
	for _, claimed := range []string{version, "v0.1.0"} {
		drawn[claimed] = draw(t, fourCylinders, sheet.Options{Version: claimed})
	}
	right, rows := 0, 0
	for _, table := range [][]alteration{shows, faces, beside, papers} {
		for _, a := range table {
			for _, claimed := range []string{version, "v0.1.0"} {
				rows++
				if t.Run(a.name+"/"+claimed, func(t *testing.T) {
					d := newDoc(t, drawn[claimed])
					d.pack = deflated
					a.change(d)
					got, said := outcomeOf(t, d.bytes())
					if got != a.want || !regexp.MustCompile(a.says).MatchString(said) {
						t.Errorf("the outcome is %d, want %d; said %q, want %s", got, a.want, said, a.says)
					}
				}) {
					right++
				}
			}
		}
	}
	t.Logf("%d of %d rows are right", right, rows)
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
		fmt.Fprintf(out, "%d 1\n%010d 00000 n \n", n, base+offset)
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
		{"a name twice", between("/Contents ", "/Contents 1 0 R /Contents "), refused, `.`},
		{"another generation", between("/Contents "+strconv.Itoa(contentNumber)+" 0 R", "/Contents "+strconv.Itoa(contentNumber)+" 1 R"), refused, `another generation`},
	}
	right := 0
	for _, tt := range tests {
		if t.Run(tt.name, func(t *testing.T) {
			got, said := outcomeOf(t, tt.data)
			if got != tt.want || !regexp.MustCompile(tt.says).MatchString(said) {
				t.Errorf("the outcome is %d, want %d; said %q, want %s", got, tt.want, said, tt.says)
			}
		}) {
			right++
		}
	}
	t.Logf("%d of %d rows are right", right, len(tests))
}

// A picture is another where its data, its mask or the meaning of its data is.
func TestAlteredPictures(t *testing.T) {
	page := withLogo(t, picture(t, image.NewRGBA(image.Rect(0, 0, 40, 30))))
	logo := func(d *doc) *pdffile.Stream {
		for _, o := range d.dict(d.resources()["XObject"]) {
			return d.at(o).(*pdffile.Stream)
		}
		t.Fatal("no logo")
		return nil
	}
	for name, change := range map[string]func(*doc){
		"one byte":     func(d *doc) { logo(d).Raw[0] ^= 0x80 },
		"turned over":  func(d *doc) { logo(d).Dict["Decode"] = list{1.0, 0.0, 1.0, 0.0, 1.0, 0.0} },
		"a mask":       func(d *doc) { logo(d).Dict["SMask"] = d.form() },
		"another size": func(d *doc) { logo(d).Dict["Width"], logo(d).Dict["Height"] = 30.0, 40.0 },
	} {
		d := newDoc(t, page)
		d.pack = deflated
		if got, said := outcomeOf(t, d.bytes()); got != Same {
			t.Fatalf("unchanged: %d, %q", got, said)
		}
		change(d)
		if got, said := outcomeOf(t, d.bytes()); got != Different {
			t.Errorf("%s: the outcome is %d, want %d; said %q", name, got, Different, said)
		}
	}
}

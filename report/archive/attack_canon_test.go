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

// inOtherWords are pages that are written otherwise than a sheet is, in words
// that a reading which allows for the ways of other programs might let pass.
var inOtherWords = []alteration{
	{"a clip whose outline is closed in its middle", func(d *doc) {
		d.aroundReading("q 0 0 m 700 0 l h 700 900 l h 0 900 l W n", "Q")
	}, Different, `draws something that its job file does not give`},
	{"bars whose outline is closed in its middle", func(d *doc) {
		s := d.content()
		was := len(s.Raw)
		s.Raw = regexp.MustCompile(`(\S+ \S+ m\s\S+ \S+ l)\s(\S+ \S+ l)\s(\S+ \S+ l)\s(?:h\s)?f`).ReplaceAll(s.Raw, []byte("$1 h $2 h $3 f"))
		if len(s.Raw) == was {
			d.t.Fatal("no bars")
		}
	}, Different, `draws something that its job file does not give`},
	{"a space of colors by the name of a plain one, used", func(d *doc) {
		d.named("ColorSpace", "DeviceRGB", d.upsideDown())
		d.aroundReading("q /DeviceRGB cs 0 0 0 sc", "Q")
	}, Different, `colours that mean others`},
	{"a space of colors by the name of a plain one", func(d *doc) { d.named("ColorSpace", "DeviceRGB", d.upsideDown()) }, Different, `colours that mean others`},
	{"content in two parts, a word over both", func(d *doc) { d.cutAtReading("q 1 g Q", "q") }, refused, `cut in the middle of a word`},
	{"content in two parts, a remark over both", func(d *doc) { d.cutAtReading("% and so", "") }, refused, `cut in the middle of a word`},
	{"content in two parts", func(d *doc) { d.cutAtReading("q Q\n", "\n") }, Same, ``},
	{"a part that leaves an outline behind", func(d *doc) { d.before("0 0 700 900 re") }, Different, `.`},
	{"a part that leaves a text open", func(d *doc) { d.before("BT 300 0 0 300 0 0 Tm") }, Different, `.`},
	{"a part that leaves a hidden part open", func(d *doc) {
		d.before("/OC /Layer BDC")
		d.root()["OCProperties"] = dict{"OCGs": list{}, "D": dict{}}
	}, Different, `.`},
	{"a part that draws nothing", func(d *doc) { d.before("q Q") }, Unvouched, `written anew`},
	{"what is read aloud of two cylinders exchanged", func(d *doc) {
		ids := regexp.MustCompile(`/MCID (\d+)`)
		a, b := ids.FindIndex(d.content().Raw), []int(nil)
		for _, m := range ids.FindAllIndex(d.content().Raw, -1) {
			if !bytes.Equal(d.content().Raw[m[0]:m[1]], d.content().Raw[a[0]:a[1]]) && m[1]-m[0] == a[1]-a[0] {
				b = m
			}
		}
		raw := bytes.Clone(d.content().Raw)
		copy(raw[a[0]:a[1]], d.content().Raw[b[0]:b[1]])
		copy(raw[b[0]:b[1]], d.content().Raw[a[0]:a[1]])
		d.content().Raw = raw
	}, Different, `by which a page is read aloud`},
	{"a reading that is not read aloud", func(d *doc) {
		d.content().Raw = regexp.MustCompile(`/(P|TD) <</MCID \d+>>\s*BDC`).ReplaceAll(d.content().Raw, []byte("/Artifact BMC"))
	}, Different, `by which a page is read aloud`},
	{"a space within a number, for who hears it", func(d *doc) {
		_, run, codes := d.font("138")
		space, _ := codesOf(d.fonts()[run.Font], " ")
		d.replace(codes+" Tj", fmt.Sprintf("[<%04x> %s 278 <%04x%04x>] TJ", d.code("1"), space, d.code("3"), d.code("8")))
	}, Different, `by which a page is read aloud`},
	{"the page's number among the tags", func(d *doc) { d.page()["StructParents"] = 77.0 }, Unvouched, `another word on its tags`},
	{"a type of fewer letters than are shown", func(d *doc) { d.typeWith(func(font []byte) { maxp(d.t, font)[5] = 3 }) }, Different, `type that is not the sheet's`},
	{"a type without the number of its letters", func(d *doc) { d.typeWith(func(font []byte) { maxp(d.t, font)[0] = 9 }) }, Different, `type that is not the sheet's`},
	{"a type of a collection that readers know by heart", func(d *doc) {
		d.descendant()["CIDSystemInfo"] = dict{"Registry": pdffile.String("Adobe"), "Ordering": pdffile.String("Japan1"), "Supplement": 2.0}
	}, Different, `type that is not the sheet's`},
	{"a second type that is the same", func(d *doc) {
		font, run, _ := d.font("138")
		d.named("Font", "F9", d.add(maps.Clone(font)))
		d.content().Raw = bytes.ReplaceAll(d.content().Raw, []byte("/"+string(run.Font)+" "), []byte("/F9 "))
	}, Unvouched, `written anew`},
	{"colors blended in grey", func(d *doc) {
		d.page()["Group"] = dict{"S": pn("Transparency"), "CS": pn("DeviceGray"), "I": true}
	}, Different, `how its colors are blended`},
	{"a name for the page", func(d *doc) {
		d.root()["PageLabels"] = dict{"Nums": list{0.0, dict{"P": pdffile.String("cylinder 4: 158 psi")}}}
	}, Unvouched, `names for its pages`},
	{"a figure close to the reading", func(d *doc) {
		_, run, _ := d.font("138")
		d.draws(fmt.Sprintf("BT /%s %g Tf %g %g Td <%04x> Tj ET", run.Font, run.Size, run.X-8, run.Y, d.code("1")))
	}, Different, `drawn over the page`},
	{"a note close to the reading", func(d *doc) {
		_, run, _ := d.font("138")
		d.annotate(dict{"Subtype": pn("FreeText"), "Rect": area(run.X-9, run.Y, run.X-4, run.Y+8), "Contents": pdffile.String("1"), "DA": pdffile.String("/H 8 Tf")})
	}, Different, `a note lies over the page`},
	{"a signature's place without an area that draws over the page", func(d *doc) {
		d.annotate(dict{"Subtype": pn("Widget"), "FT": pn("Sig"), "Rect": area(300, 400, 300, 500), "AP": dict{"N": d.stream(dict{"Subtype": pn("Form"), "BBox": area(0, 0, 600, 850)}, "1 g 0 0 600 850 re f")}})
	}, Different, `a visible signature lies over the page`},
	{"a stamp without an area that draws over the page", func(d *doc) {
		d.annotate(dict{"Subtype": pn("Stamp"), "Rect": area(5, 5, 5, 9), "AP": dict{"N": d.stream(dict{"Subtype": pn("Form"), "BBox": area(0, 0, 600, 850)}, "1 g 0 0 600 850 re f")}})
	}, Different, `a stamp lies over the page`},
	{"a field in large type in a small area", func(d *doc) {
		d.annotate(dict{"Subtype": pn("Widget"), "FT": pn("Tx"), "V": pdffile.String("158"), "DA": pdffile.String("/Helv 40 Tf 0 g"), "Rect": area(2, 2, 20, 10)})
	}, Different, `a form field lies over the page`},
	{"a signature's place without an area that draws nothing", func(d *doc) {
		d.annotate(dict{"Subtype": pn("Widget"), "FT": pn("Sig"), "Rect": area(0, 0, 0, 0), "AP": dict{"N": d.stream(dict{"Subtype": pn("Form"), "BBox": area(0, 0, 0, 0)}, "% nothing\n")}})
	}, Same, ``},
	{"another language", func(d *doc) { d.root()["Lang"] = pdffile.String("fr") }, Unvouched, `another language`},
	{"a reading in another language", func(d *doc) { d.aroundReading("/Span <</Lang (fr)>> BDC", "EMC") }, Different, `.`},
	{"something else said of the document", func(d *doc) { d.dict(d.trailer["Info"])["Odometer"] = pdffile.String("12 000 km") }, Unvouched, `'Odometer'`},
	{"another date of the document", func(d *doc) { d.dict(d.trailer["Info"])["CreationDate"] = pdffile.String("D:20190101000000Z") }, Same, `the file says that it was made at`},
	{"another date of the job file", func(d *doc) {
		s := d.at(d.dict(d.dict(d.specs()[1])["EF"])["F"]).(*pdffile.Stream)
		s.Dict["Params"] = dict{"ModDate": pdffile.String("D:20190101000000Z"), "Size": 1.0}
	}, Unvouched, `says other things of a file that it carries`},
	{"the job file under another name in the list of files", func(d *doc) {
		d.specs()[0] = pdffile.String("cylinder 4 158 psi.yaml")
	}, Unvouched, `says other things of a file that it carries`},
	{"a version that is a sentence", func(d *doc) {
		d.keywords(version, "cylinder 4 was read again: 158 psi")
	}, Unvouched, `what the document says of itself`},
}

// aroundReading puts operations before and after those that show the reading.
func (d *doc) aroundReading(before, after string) {
	d.t.Helper()
	from, to := d.placeOfReading()
	raw := d.content().Raw
	d.content().Raw = []byte(string(raw[:from]) + before + "\n" + string(raw[from:to]) + "\n" + after + "\n" + string(raw[to:]))
}

func (d *doc) placeOfReading() (from, to int) {
	d.t.Helper()
	_, _, codes := d.font("138")
	raw := string(d.content().Raw)
	i := strings.Index(raw, codes+" Tj")
	if i < 0 {
		d.t.Fatal("no reading")
	}
	return strings.LastIndex(raw[:i], "BT "), i + strings.Index(raw[i:], "ET") + 2
}

// cutAtReading makes two parts of the content, of which one ends and the other
// begins with some operations.
func (d *doc) cutAtReading(end, begin string) {
	from, _ := d.placeOfReading()
	raw := string(d.content().Raw)
	d.page()["Contents"] = list{d.stream(dict{}, raw[:from]+end), d.stream(dict{}, begin+" "+raw[from:])}
	if begin == "q" {
		d.page()["Contents"] = list{d.stream(dict{}, raw[:from]+end), d.stream(dict{}, begin+" "+raw[from:]+" Q")}
	}
}

// before has a part of its own drawn before everything else.
func (d *doc) before(ops string) {
	d.named("XObject", "Fm9", d.stream(dict{"Type": pn("XObject"), "Subtype": pn("Form"), "BBox": area(0, 0, 700, 900), "Resources": dict{"Properties": dict{"Layer": dict{"Type": pn("OCG")}}}}, ops))
	d.content().Raw = append([]byte("/Fm9 Do\n"), d.content().Raw...)
}

// upsideDown is a space of colors in which black is white.
func (d *doc) upsideDown() list {
	ends := list{0.0, 1.0, 0.0, 1.0, 0.0, 1.0}
	turn := d.stream(dict{"FunctionType": 4.0, "Domain": ends, "Range": ends}, "{pop pop pop 1 1 1}")
	return list{pn("DeviceN"), list{pn("A"), pn("B"), pn("C")}, pn("DeviceRGB"), turn}
}

// fonts are those of the page.
func (d *doc) fonts() map[pdffile.Name]pdffile.Font {
	f, pages := d.read()
	fonts, err := f.Fonts(pages[0].Dict)
	if err != nil {
		d.t.Fatal(err)
	}
	return fonts
}

// typeWith changes the type of the reading.
func (d *doc) typeWith(change func(font []byte)) {
	s := d.at(d.dict(d.descendant()["FontDescriptor"])["FontFile2"]).(*pdffile.Stream)
	s.Raw = bytes.Clone(s.Raw)
	change(s.Raw)
}

// maxp is the table of a type that says how many letters it has.
func maxp(t testing.TB, font []byte) []byte {
	for row := 12; row < 12+16*int(font[5]); row += 16 {
		if string(font[row:row+4]) == "maxp" {
			at := int(font[row+9])<<16 | int(font[row+10])<<8 | int(font[row+11])
			return font[at : at+32]
		}
	}
	t.Fatal("no table of the type says how many letters it has")
	return nil
}

// What is drawn with other words than a sheet is drawn with, is never the same.
func TestOtherWords(t *testing.T) {
	if testing.Short() {
		t.Skip("takes seconds")
	}
	drawn := draw(t, fourCylinders, sheet.Options{})
	altered(t, drawn, deflated, inOtherWords)
}

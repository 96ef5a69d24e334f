package archive

import (
	"bytes"
	"image"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"gaugesheet/report/archive/pdffile"
	"gaugesheet/report/sheet"
)

// tj is a text of a content as sheets write it, with its place and its codes.
var tj = regexp.MustCompile(`BT (/\w+ \S+ Tf )?(\S+) (\S+) Td \(((?s:\\.|[^\\()])*)\) Tj ET`)

// everyText writes all texts of the content anew.
func (d *doc) everyText(as string) {
	d.t.Helper()
	was := len(d.content().Raw)
	if d.content().Raw = tj.ReplaceAll(d.content().Raw, []byte(as)); len(d.content().Raw) == was {
		d.t.Fatal("no texts")
	}
}

// byDifferences packs the logo by differences of the pixel before, of rows of so many
// pixels of so many parts of so many bits, which readers take for so many bytes.
func (d *doc) byDifferences(columns, colors, bits, pixel int) {
	s := d.dict(d.resources()["XObject"])
	picture := d.at(s["P1"]).(*pdffile.Stream)
	var rows []byte
	for row := range slices.Chunk(picture.Raw, columns*colors*bits/8) {
		rows = append(rows, 1)
		for i, b := range row {
			if i >= pixel {
				b -= row[i-pixel]
			}
			rows = append(rows, b)
		}
	}
	picture.Raw, picture.Dict["Filter"] = deflated(rows)
	picture.Dict["DecodeParms"] = dict{"Predictor": 15.0, "Columns": float64(columns), "Colors": float64(colors), "BitsPerComponent": float64(bits)}
}

// signed puts a signature on the sheet that shows nothing, with more in its field, its
// value and its form.
func (d *doc) signed(field, value, form dict) {
	v := dict{"Type": pn("Sig"), "Filter": pn("Adobe.PPKLite"), "SubFilter": pn("adbe.pkcs7.detached"), "ByteRange": list{0.0, 1.0, 2.0, 3.0}, "Contents": pdffile.String("\x30"), "M": pdffile.String("D:20260602120000+02'00'")}
	f := dict{"Subtype": pn("Widget"), "FT": pn("Sig"), "T": pdffile.String("s"), "F": 132.0, "Rect": area(0, 0, 0, 0), "V": v}
	with := dict{"SigFlags": 3.0}
	for into, more := range map[*dict]dict{&f: field, &v: value, &with: form} {
		for key, o := range more {
			(*into)[key] = o
		}
	}
	d.annotate(f)
	with["Fields"] = d.page()["Annots"]
	d.root()["AcroForm"] = with
}

// drawing is a part that covers the page.
func (d *doc) drawing(ops string) pdffile.Ref {
	return d.stream(dict{"Type": pn("XObject"), "Subtype": pn("Form"), "BBox": area(0, 0, 612, 792)}, ops)
}

// listedCopies has the list of attached files lead to copies of what describes them.
func (d *doc) listedCopies() {
	files := slices.Clone(d.specs())
	for i := 1; i < len(files); i += 2 {
		files[i] = d.add(maps.Clone(d.dict(files[i])))
	}
	d.names()["Names"] = files
}

func (d *doc) info(key pn, text pdffile.String) { d.dict(d.trailer["Info"])[key] = text }

// otherPictures are pictures that are drawn or packed in other ways.
var otherPictures = []alteration{
	{"a picture with two names", func(d *doc) { d.replace("/P1 Do", "/P1 /P2 Do") }, Different, `other operands than its name`},
	{"a picture with a number", func(d *doc) { d.replace("/P1 Do", "/P1 5 Do") }, Different, `other operands than its name`},
	{"a picture by differences of its pixels", func(d *doc) { d.byDifferences(40, 3, 8, 3) }, Same, ``},
	{"a picture by differences of a byte and a half", func(d *doc) { d.byDifferences(80, 3, 4, 1) }, refused, `by differences`},
	{"a picture by differences of bits that no picture has", func(d *doc) { d.byDifferences(32, 3, 10, 3) }, refused, `by differences`},
	{"a picture by differences of other pixels", func(d *doc) { d.byDifferences(120, 1, 8, 1) }, Unvouched, `by differences of other rows`},
}

// otherSteps are sheets that come to the same marks in other steps, and what stands in
// places where programs put things when they save or sign.
var otherSteps = []alteration{
	{"what colors mean, by differences", func(d *doc) {
		s := d.at(d.dict(d.list(d.root()["OutputIntents"])[0])["DestOutputProfile"]).(*pdffile.Stream)
		s.Raw, s.Dict["Filter"] = deflated(slices.Concat([]byte{0}, s.Raw))
		s.Dict["DecodeParms"] = dict{"Predictor": 10.0, "Columns": float64(len(s.Raw))}
	}, refused, `.`},
	{"texts by pieces that go to and fro", func(d *doc) { d.everyText("BT $1$2 $3 Td [400 -400 ($4) 900] TJ ET") }, Unvouched, `written anew`},
	{"texts by steps", func(d *doc) { d.everyText("BT $1$2 $3 Td 9 9 Td -9 -9 Td ($4) Tj ET") }, Unvouched, `written anew`},
	{"spaces beyond the page", func(d *doc) {
		d.content().Raw = tj.ReplaceAllFunc(d.content().Raw, func(text []byte) []byte {
			return bytes.ReplaceAll(tj.ReplaceAll(text, []byte("BT $1$2 $3 Td [($4)] TJ ET")), []byte("\x00\x01"), []byte(") 1500 (\x00\x01) -1500 ("))
		})
	}, Unvouched, `written anew`},
	{"texts on a scale to and fro", func(d *doc) {
		d.content().Raw = slices.Concat([]byte("q .01 0 0 .01 0 0 cm 100 0 0 100 0 0 cm\n"), d.content().Raw, []byte("\nQ"))
	}, Unvouched, `written anew`},
	{"a text of nothing more", func(d *doc) { d.draws("BT /R 8 Tf <0001> Tj ET") }, Unvouched, `written anew`},
	{"an area of the page that cuts nothing", func(d *doc) { d.aroundReading("q 0 0 2000 2000 re W n", "Q") }, Unvouched, `written anew`},
	{"lines a hair off", func(d *doc) {
		d.content().Raw = regexp.MustCompile(`(\d+\.\d\d) (\S+) l`).ReplaceAll(d.content().Raw, []byte("${1}04 $2 l"))
	}, Unvouched, `written anew`},
	{"pens and colors set where they are not used", func(d *doc) { d.draws("q .5 g 1 0 0 RG 9 w 2 J [3] 0 d Q") }, Same, ``},
	{"states saved around the page", func(d *doc) { d.content().Raw = slices.Concat([]byte("q q\n"), d.content().Raw, []byte("\nQ Q")) }, Same, ``},
	{"a scale of one", func(d *doc) { d.aroundReading("q 1 0 0 1 0 0 cm", "Q") }, Same, ``},

	{"a signature as programs write it", func(d *doc) {
		d.signed(dict{"AP": dict{"N": d.stream(dict{"Type": pn("XObject"), "Subtype": pn("Form"), "BBox": area(0, 0, 0, 0)}, "% nothing\n")}, "MK": dict{}, "DA": pdffile.String("/Helv 0 Tf 0 g"), "Lock": dict{"Type": pn("SigFieldLock"), "Action": pn("All")}},
			dict{"Reference": list{dict{"Type": pn("SigRef"), "TransformMethod": pn("DocMDP"), "Data": d.trailer["Root"], "TransformParams": dict{"Type": pn("TransformParams"), "P": 2.0, "V": pn("1.2")}}}, "Prop_Build": dict{"App": dict{"Name": pn("signer"), "REx": pdffile.String("2.1")}}},
			dict{"DA": pdffile.String("/Helv 0 Tf 0 g"), "DR": dict{"Font": dict{"Helv": dict{"Type": pn("Font"), "Subtype": pn("Type1"), "BaseFont": pn("Helvetica"), "Encoding": pn("WinAnsiEncoding")}}}})
	}, Same, `a PDF signature`},
	{"a signature with a text field below", func(d *doc) {
		d.signed(dict{"Kids": list{d.add(dict{"FT": pn("Tx"), "T": pdffile.String("reading"), "V": pdffile.String("158 psi")})}}, nil, nil)
	}, Unvouched, `/AcroForm of the catalog`},
	{"a signature under a field that runs something", func(d *doc) {
		d.signed(dict{"Parent": d.add(dict{"FT": pn("Sig"), "T": pdffile.String("p"), "AA": dict{"K": script()}})}, nil, nil)
	}, Unvouched, `/AcroForm of the catalog`},
	{"a hidden signature that draws", func(d *doc) {
		d.signed(dict{"F": 2.0, "Rect": area(0, 0, 612, 792), "AP": dict{"N": d.drawing("1 g 0 0 612 792 re f")}}, nil, nil)
	}, Unvouched, `/AcroForm of the catalog`},
	{"a signature with looks under the pointer", func(d *doc) {
		d.signed(dict{"AP": dict{"R": d.drawing("1 g 0 0 612 792 re f")}}, nil, nil)
	}, Unvouched, `/AcroForm of the catalog`},
	{"a signature that looks like a button", func(d *doc) { d.signed(dict{"MK": dict{"CA": pdffile.String("158 psi")}}, nil, nil) }, Unvouched, `/AcroForm of the catalog`},
	{"a signature that asks for words", func(d *doc) {
		d.signed(dict{"SV": dict{"Reasons": list{pdffile.String("cylinder 4: 158 psi")}}}, nil, nil)
	}, Unvouched, `/AcroForm of the catalog`},
	{"a signature that carries a file", func(d *doc) {
		d.signed(nil, dict{"Prop_Build": dict{"EF": dict{"F": d.stream(dict{"Type": pn("EmbeddedFile")}, "a: 158")}}}, nil)
	}, Unvouched, `/AcroForm of the catalog`},
	{"a form of signatures with pictures for its fields", func(d *doc) {
		d.signed(nil, nil, dict{"DR": dict{"XObject": dict{"X": d.drawing("0 0 9 9 re f")}}})
	}, Unvouched, `/AcroForm`},
	{"certificates that are pictures", func(d *doc) {
		d.root()["DSS"] = dict{"Certs": list{d.stream(dict{"Type": pn("XObject"), "Subtype": pn("Image"), "Width": 1.0, "Height": 1.0, "BitsPerComponent": 8.0, "ColorSpace": pn("DeviceGray")}, "x")}}
	}, Unvouched, `/DSS`},
	{"certificates", func(d *doc) { d.root()["DSS"] = dict{"Certs": list{d.stream(dict{}, "x")}} }, Same, ``},

	{"turned more often than readers count", func(d *doc) { d.page()["Rotate"] = 9999999720.0 }, Unvouched, `/Rotate`},
	{"turned once round to the left", func(d *doc) { d.page()["Rotate"] = -360.0 }, Same, ``},
	{"a list of files that leads to copies", func(d *doc) { d.listedCopies() }, Unvouched, `not on its list of attached files`},
	{"files that say how they are kept", func(d *doc) { d.dict(d.specs()[1])["Filter"] = pn("Standard") }, Unvouched, `has a /Filter`},
	{"a title with half a letter more", func(d *doc) {
		was := d.dict(d.trailer["Info"])["Title"].(pdffile.String)
		if !strings.HasPrefix(string(was), "\xfe\xff") {
			was = pdffile.String("\xfe\xff" + wide(string(was)))
		}
		d.info("Title", was+"\x01")
	}, Unvouched, `in letters that readers take differently`},
	{"a date in words", func(d *doc) { d.info("ModDate", "cylinder 4: 158 psi") }, Unvouched, `/ModDate of the information`},

	{"a page to which nothing leads", func(d *doc) {
		d.add(dict{"Type": pn("Page"), "MediaBox": area(0, 0, 612, 792), "Contents": d.stream(dict{}, "0 0 9 9 re f")})
	}, Unvouched, `to which nothing leads`},
	{"a picture to which nothing leads", func(d *doc) {
		d.stream(dict{"Type": pn("XObject"), "Subtype": pn("Image"), "Width": 1.0, "Height": 1.0, "BitsPerComponent": 8.0, "ColorSpace": pn("DeviceGray")}, "x")
	}, Unvouched, `to which nothing leads`},
	{"a script to which nothing leads", func(d *doc) { d.add(script()) }, Unvouched, `to which nothing leads`},
	{"another root to which nothing leads", func(d *doc) { d.add(dict{"Type": pn("Catalog"), "Pages": d.root()["Pages"]}) }, Unvouched, `to which nothing leads`},
	{"a number to which nothing leads", func(d *doc) { d.add(4711.0) }, Same, ``},
	{"data to which nothing leads", func(d *doc) { d.stream(dict{}, "0 0 9 9 re f") }, Same, ``},
}

func TestOtherSteps(t *testing.T) {
	altered(t, withLogo(t, picture(t, image.NewRGBA(image.Rect(0, 0, 40, 30)))), nil, otherPictures, otherSteps)
}

// A file that says at its start that it has more pages than it has is read by that.
func TestPagesAtTheStart(t *testing.T) {
	d := newDoc(t, draw(t, fourCylinders, sheet.Options{}))
	d.pack = deflated
	data := d.hurried(hurry{first: leading, named: true})
	check(t, data, Same, ``)
	for _, other := range []string{"/N 5", "/N 0", "/X 1"} {
		check(t, bytes.Replace(data, []byte("/N 1"), []byte(other), 1), refused, `another number of pages`)
	}
	check(t, regexp.MustCompile(`/T \d{10}`).ReplaceAll(data, []byte("/T 0000000009")), refused, `its list of objects is elsewhere`)
	check(t, bytes.Replace(data, []byte("/E 1"), []byte("/P 1"), 1), refused, `its first page is another one`)
}

// An update of nothing is one that some readers cannot read.
func TestUpdateOfNothing(t *testing.T) {
	d := newDoc(t, draw(t, fourCylinders, sheet.Options{}))
	entries := "/Root " + written(d.trailer["Root"]) + " /Info " + written(d.trailer["Info"])
	n := d.page()["Contents"].(pdffile.Ref).Number
	content := "\n" + strings.TrimSpace(written(d.content())) + "\nendobj\n"
	check(t, update(d.bytes(), strconv.Itoa(n)+" 0 obj"+content, map[int]int{n: 0}, "/Size 999 "+entries), Same, ``)
	check(t, update(d.bytes(), "", nil, "/Size 999 "+entries), Unvouched, `a list of objects without any`)
}

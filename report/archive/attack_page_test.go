package archive

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"gaugesheet/report/archive/pdffile"
)

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
		d.replace(fmt.Sprintf("%g %g Td", run.X, run.Y), fmt.Sprintf("%g %g Td", run.X+30, run.Y))
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

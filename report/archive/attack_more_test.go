package archive

import (
	"bytes"
	"regexp"
	"slices"
	"testing"

	"gaugesheet/report/archive/pdffile"
	"gaugesheet/report/sheet"
)

// firstStream is the data of an entry.
func (d *doc) firstStream(o pdffile.Object) *pdffile.Stream { return d.at(o).(*pdffile.Stream) }

// asData makes data of a dictionary.
func (d *doc) asData(o pdffile.Object) {
	n := o.(pdffile.Ref).Number
	d.objects[n] = &pdffile.Stream{Dict: d.objects[n].(dict), Raw: []byte("x")}
}

// beyond are things of which a sheet has none and which programs do not write when they
// save one: whether they do harm is not asked.
var beyond = []alteration{
	{"a tag in its place", func(d *doc) {
		tag := d.firstTag()
		tag["P"] = d.at(tag["P"])
	}, Unvouched, `/StructTreeRoot .* stands in its place`},
	{"a tag with an entry that is nothing", func(d *doc) { d.firstTag()["Lang"] = nil }, Unvouched, `/StructTreeRoot .* has a /Lang that is nothing`},
	{"a tag with metadata", func(d *doc) { d.firstTag()["Metadata"] = d.root()["Metadata"] }, Unvouched, `has a /Metadata`},
	{"a tag with a parent of another name", func(d *doc) { d.firstTag()["Parent"] = d.root()["Pages"] }, Unvouched, `has a /Parent`},
	{"a type with procedures", func(d *doc) { d.descendant()["ProcSet"] = list{pn("PDF")} }, Unvouched, `/Font .* has a /ProcSet`},
	{"a type with a length", func(d *doc) { d.descendant()["Length"] = 1.0 }, Unvouched, `/Font .* has a /Length`},
	{"a kind by reference", func(d *doc) { d.descendant()["Type"] = d.add(pn("Font")) }, Unvouched, `/Font .* /Type stands in its place, or by itself`},
	{"no files in the list of names", func(d *doc) { d.dict(d.root()["Names"])["EmbeddedFiles"] = nil }, Unvouched, `not on its list of attached files`},
	{"an entry of the page that is nothing", func(d *doc) { d.page()["Annots"] = nil }, Unvouched, `page has a /Annots that is nothing`},
	{"files of the page", func(d *doc) { d.page()["AF"] = d.root()["AF"] }, Unvouched, `page has a /AF`},
	{"an order of fields that nobody knows", func(d *doc) { d.page()["Tabs"] = pn("Hologram") }, Unvouched, `/Tabs of the page`},
	{"a page shown over all of the screen", func(d *doc) { d.root()["PageMode"] = pn("FullScreen") }, Unvouched, `/PageMode of the catalog`},
	{"a page shown beside its files", func(d *doc) { d.root()["PageMode"] = pn("UseAttachments") }, Same, ``},
	{"a wish of how it is shown that nobody knows", func(d *doc) { d.dict(d.root()["ViewerPreferences"])["Enforce"] = list{pn("PrintScaling")} }, Unvouched, `/ViewerPreferences of the catalog`},
	{"a window without bars", func(d *doc) { d.dict(d.root()["ViewerPreferences"])["HideToolbar"] = true }, Same, ``},
	{"an extension with more than its name", func(d *doc) { d.root()["Extensions"] = dict{"ADBE": dict{"BaseVersion": pn("1.7"), "JS": script()}} }, Unvouched, `/Extensions of the catalog`},
	{"an extension", func(d *doc) {
		d.root()["Extensions"] = dict{"ADBE": dict{"BaseVersion": pn("1.7"), "ExtensionLevel": 8.0}}
	}, Same, ``},
	{"a version that nobody knows", func(d *doc) { d.root()["Version"] = pn("9.9") }, Unvouched, `/Version of the catalog`},
	{"a place by name", func(d *doc) { d.root()["Dests"] = dict{"top": list{d.list(d.pages()["Kids"])[0], pn("Fit")}} }, Same, ``},
	{"a place by name that runs something", func(d *doc) { d.root()["Dests"] = dict{"top": dict{"D": script(), "A": script()}} }, Unvouched, `/Dests of the catalog`},
	{"what was needed to check a signature", func(d *doc) {
		d.root()["DSS"] = dict{"Type": pn("DSS"), "Certs": list{d.stream(dict{}, "x")}, "VRI": dict{"0A": dict{"Cert": list{d.stream(dict{}, "y")}}}}
	}, Same, ``},
	{"more than what was needed to check a signature", func(d *doc) { d.root()["DSS"] = dict{"Certs": list{script()}} }, Unvouched, `/DSS of the catalog`},
	{"permissions that are none", func(d *doc) { d.root()["Perms"] = dict{"DocMDP": script()} }, Unvouched, `/Perms of the catalog`},
	{"a field of a signature with an entry that nobody knows", func(d *doc) {
		d.annotate(dict{"Subtype": pn("Widget"), "FT": pn("Sig"), "T": pdffile.String("s"), "Rect": area(0, 0, 0, 0), "Hologram": 1.0})
	}, Unvouched, `/Annots of the page`},
	{"text of itself in a way that older readers take for other letters", func(d *doc) {
		info := d.dict(d.trailer["Info"])
		info["Creator"] = "\xef\xbb\xbf" + info["Creator"].(pdffile.String)
	}, Unvouched, `what the document says of itself.*creator`},
	{"a part with more than its number", func(d *doc) {
		d.content().Raw = bytes.Replace(d.content().Raw, []byte("<</MCID 1>>"), []byte("<</MCID 1 /Contents (158)>>"), 1)
	}, Unvouched, `written anew`},
	{"states saved in one another more often than some readers do", func(d *doc) {
		d.content().Raw = slices.Concat(bytes.Repeat([]byte("q "), 30), d.content().Raw, bytes.Repeat([]byte(" Q"), 30))
	}, Unvouched, `written anew`},
	{"a state saved around the page", func(d *doc) { d.content().Raw = slices.Concat([]byte("q\n"), d.content().Raw, []byte("\nQ\n")) }, Same, ``},
	{"a page that is data", func(d *doc) { d.asData(d.list(d.pages()["Kids"])[0]) }, refused, `data stand in the place of a dictionary`},
	{"a root that is data", func(d *doc) { d.asData(d.trailer["Root"]) }, refused, `data stand in the place of a dictionary`},
	{"what it says of itself as data", func(d *doc) { d.asData(d.trailer["Info"]) }, Unvouched, `'Length'`},
	{"resources that are data", func(d *doc) {
		d.page()["Resources"] = d.add(d.at(d.page()["Resources"]))
		d.asData(d.page()["Resources"])
	}, refused, `in the place of a dictionary`},
	{"a tag that is data", func(d *doc) { d.asData(d.root()["StructTreeRoot"]) }, Different, `by which a page is read aloud`},
	{"a state within an outline", func(d *doc) {
		d.content().Raw = regexp.MustCompile(` m\n`).ReplaceAll(d.content().Raw, []byte(" m\n/Perceptual ri\n"))
	}, Different, `"ri" within an outline`},
	{"a line without an outline", func(d *doc) { d.draws("S") }, Different, `"S" without an outline`},
	{"an area within a text", func(d *doc) { d.draws("BT 0 0 m ET") }, Different, `"m" within a text`},
	{"a part that goes beyond its text", func(d *doc) {
		d.content().Raw = regexp.MustCompile(`(/P <</MCID \d+>>BDC\s+)(?:0.000 g\s+)?BT `).ReplaceAll(d.content().Raw, []byte("BT $1"))
	}, Different, `a part that goes beyond its text`},
	{"a paper that is larger by a hair", func(d *doc) { d.pages()["MediaBox"] = area(0, 0, 612.00001, 792) }, Unvouched, `/MediaBox of the page`},
	{"a page put far away and back", func(d *doc) {
		d.content().Raw = slices.Concat([]byte("q 1 0 0 1 50000 50000 cm 1 0 0 1 -50000 -50000 cm\n"), d.content().Raw, []byte("\nQ"))
	}, Unvouched, `written anew`},
	{"a page made large and small again", func(d *doc) {
		d.content().Raw = slices.Concat([]byte("q 9999 0 0 9999 0 0 cm .00010001 0 0 .00010001 0 0 cm\n"), d.content().Raw, []byte("\nQ"))
	}, Unvouched, `written anew`},
	{"a page put elsewhere by a hair", func(d *doc) {
		d.content().Raw = slices.Concat([]byte("q 1 0 0 1 0 .001 cm\n"), d.content().Raw, []byte("\nQ"))
	}, Unvouched, `written anew`},
	{"another color by a hair", func(d *doc) {
		d.content().Raw = bytes.ReplaceAll(d.content().Raw, []byte("0.063 0.267"), []byte("0.064 0.267"))
	}, Unvouched, `written anew`},
	{"content packed as it says by reference", func(d *doc) {
		d.pack = nil
		s := d.content()
		s.Raw, s.Dict["Filter"] = deflated(s.Raw)
		s.Dict["Filter"] = list{d.add(s.Dict["Filter"])}
	}, Unvouched, `/Contents of the page`},
	{"content packed in a way that says something else too", func(d *doc) {
		s := d.content()
		s.Raw, s.Dict["Filter"] = deflated(s.Raw)
		s.Dict["DecodeParms"] = dict{"EarlyChange": 0.0}
	}, Unvouched, `/Contents of the page`},
	{"no keywords", func(d *doc) { delete(d.dict(d.trailer["Info"]), "Keywords") }, Unvouched, `what the document says of itself.*keywords`},
	{"a maker that is no text", func(d *doc) { d.dict(d.trailer["Info"])["Producer"] = list{} }, Unvouched, `/Producer of the information`},
	{"a list of objects with an entry that nobody knows", func(d *doc) { d.trailer["Hologram"] = 1.0 }, Unvouched, `the list of objects has a /Hologram`},
	{"a node of pages with another paper", func(d *doc) {
		d.page()["MediaBox"] = d.pages()["MediaBox"]
		d.pages()["MediaBox"] = area(0, 0, 300, 300)
	}, Unvouched, `hands down another /MediaBox`},
	{"data in a way of packing that is nothing", func(d *doc) {
		s := d.firstStream(d.root()["Metadata"])
		s.Raw, s.Dict["Filter"] = deflated(s.Raw)
		s.Dict["DecodeParms"] = nil
	}, Unvouched, `is packed as nothing says`},
	{"data with something behind them", func(d *doc) {
		s := d.firstStream(d.root()["Metadata"])
		s.Raw, s.Dict["Filter"] = deflated(s.Raw)
		s.Raw = append(s.Raw, "and more"...)
	}, Unvouched, `data with more than is packed in them`},
	{"a remark in the content", func(d *doc) { d.draws("% seen") }, Unvouched, `a remark`},
	{"a number with a sign before it", func(d *doc) {
		d.content().Raw = bytes.Replace(d.content().Raw, []byte(" 0 J"), []byte(" +0 J"), 1)
		d.draws("+0 J")
	}, Unvouched, `the number \+0`},
	{"a name with letters in figures", func(d *doc) { d.content().Raw = bytes.Replace(d.content().Raw, []byte("MCID"), []byte("MC#49D"), 1) }, Unvouched, `a name with the letter`},
	{"a string of half a figure", func(d *doc) { d.dict(d.trailer["Info"])["Producer"] = raw("<313>") }, Unvouched, `half a figure`},
	{"a whole number with a point", func(d *doc) { d.dict(d.descendant()["FontDescriptor"])["Flags"] = raw("4.0") }, Unvouched, `with a point at /Flags`},
	{"an area with points", func(d *doc) { d.page()["CropBox"] = raw("[0.0 0.00 612.000 792.0]") }, Same, ``},
}

// What is on no list is not vouched for, be it harmless or not.
func TestBeyondTheLists(t *testing.T) {
	drawn := draw(t, fourCylinders, sheet.Options{})
	altered(t, drawn, nil, beyond)
}

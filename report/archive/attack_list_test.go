package archive

import (
	"image"
	"slices"
	"strings"
	"testing"

	"gaugesheet/report/archive/pdffile"
)

// raw is an object as it is written.
type raw string

// names is the node of the names of the attached files.
func (d *doc) names() dict { return d.dict(d.dict(d.root()["Names"])["EmbeddedFiles"]) }

// firstTag is a tag that has the number of a part of the page.
func (d *doc) firstTag() dict {
	for n := 1; n < d.next+1000; n++ {
		if e, ok := d.objects[n].(dict); ok && e["S"] == pn("P") && e["K"] != nil {
			return e
		}
	}
	d.t.Fatal("the sheet has no tags")
	return nil
}

// aroundPart begins a part before the first one with a number, and ends it after that.
func (d *doc) aroundPart(begin string) {
	raw := string(d.content().Raw)
	at := strings.Index(raw, "/P <</MCID")
	end := at + strings.Index(raw[at:], "EMC")
	d.content().Raw = []byte(raw[:at] + begin + "\n" + raw[at:end] + "EMC\n" + raw[end:])
}

// listings are lists that readers read otherwise than it is done here: of attached
// files, of widths, of tags, and of what stands for nothing.
var listings = []alteration{
	{"a file in the list that is nothing", func(d *doc) {
		d.names()["Names"] = append(list{pdffile.String("00"), nil}, d.specs()...)
	}, refused, `its list of attached files`},
	{"a file in the list that is not there", func(d *doc) {
		d.names()["Names"] = append(list{pdffile.String("00"), pdffile.Ref{Number: 9999}}, d.specs()...)
	}, refused, `its list of attached files`},
	{"a file in the list that is a name only", func(d *doc) {
		d.names()["Names"] = append(d.specs(), pdffile.String("x"), pdffile.String("b.yaml"))
	}, refused, `its list of attached files`},
	{"a name in the list without a file", func(d *doc) { d.names()["Names"] = append(d.specs(), pdffile.String("9")) }, refused, `its list of attached files`},
	{"a node of the list with names and parts", func(d *doc) {
		d.names()["Kids"] = list{dict{"Limits": d.specs()[:1], "Names": list{d.specs()[0], d.specs()[len(d.specs())-1]}}}
	}, refused, `its list of attached files`},
	{"a list of files out of order", func(d *doc) {
		d.attach("b.yaml", "", "x")
		s := d.specs()
		n := len(s) - 2
		d.names()["Names"] = slices.Concat(s[n:], s[:n])
	}, Unvouched, `its list of attached files is not in order`},
	{"a name in the list twice", func(d *doc) { d.attach("b.yaml", "", "x"); d.specs()[len(d.specs())-2] = d.specs()[0] }, refused, `its list of attached files`},
	{"a list of files with other ends than it has", func(d *doc) {
		d.names()["Limits"] = list{pdffile.String("x"), pdffile.String("y")}
	}, refused, `its list of attached files`},
	{"a list of files in parts with other ends than they have", func(d *doc) {
		part := dict{"Names": d.specs(), "Limits": list{pdffile.String("a"), pdffile.String("b")}}
		d.dict(d.root()["Names"])["EmbeddedFiles"] = dict{"Kids": list{d.add(part)}}
	}, refused, `its list of attached files`},
	{"a list of files in parts", func(d *doc) {
		s := d.specs()
		part := dict{"Names": s, "Limits": list{s[0], s[len(s)-2]}}
		d.dict(d.root()["Names"])["EmbeddedFiles"] = dict{"Kids": list{d.add(part)}}
	}, Same, ``},
	{"first codes of widths with a point", func(d *doc) { d.list(d.descendant()["W"])[0] = raw("0.0") }, refused, `/W has a number that is not whole`},
	{"a tag whose part of the page has a number with a point", func(d *doc) { d.firstTag()["K"] = list{raw("0.")} }, refused, `/K has a number that is not whole`},
	{"an artifact around a part that is read aloud", func(d *doc) { d.aroundPart("/Artifact BMC") }, Different, `by which a page is read aloud`},
	{"an artifact around a part that is read aloud, by its entries", func(d *doc) { d.aroundPart("/Artifact <</Type /Pagination>> BDC") }, Different, `by which a page is read aloud`},
	{"a part that is read aloud within one without a number", func(d *doc) { d.aroundPart("/Sect BMC") }, Different, `by which a page is read aloud`},
	{"content with the word that ends it", func(d *doc) { d.pack = nil; d.draws("% endstream") }, refused, `could pass for ended before they are`},
	{"a way of packing that is nothing", func(d *doc) { d.content().Dict["Filter"] = raw("null") }, refused, `in a way that is not said`},
	{"no form that draws the page anew", func(d *doc) { d.root()["NeedsRendering"] = false }, Same, ``},
	{"more than all of the page", func(d *doc) { d.page()["CropBox"] = area(-10, -10, 700, 900) }, Same, ``},
	{"more than all of the page on one side, less on another", func(d *doc) { d.page()["CropBox"] = area(-10, 10, 700, 900) }, Different, `only a part of the page`},
}

// Lists are read in one way, or not at all.
func TestListings(t *testing.T) {
	drawn := withLogo(t, picture(t, image.NewRGBA(image.Rect(0, 0, 40, 30))))
	altered(t, drawn, nil, listings)
}

package conform

import (
	"bytes"
	"regexp"
	"strconv"

	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/types"
)

// header: the file begins with its version and a comment of bytes that are no
// letters.
func (d *document) header() {
	d.want(regexp.MustCompile(`^%PDF-1\.[0-7](\r\n|\n|\r)`).Match(d.raw), pdfA+"6.1.2", "the file begins with %q", d.raw[:min(10, len(d.raw))])
	_, after, _ := bytes.Cut(d.raw[:min(40, len(d.raw))], []byte("\n"))
	letters := len(after) < 5 || after[0] != '%'
	for _, b := range after[1:min(5, len(after))] {
		letters = letters || b <= 127
	}
	d.want(!letters, pdfA+"6.1.2", "no comment of four bytes over 127 after the header")
}

// end: the file has an identity, is not encrypted, and ends where it says.
func (d *document) end() {
	d.want(len(d.ctx.ID) == 2, pdfA+"6.1.3", "the trailer has no ID")
	d.want(d.ctx.Encrypt == nil, pdfA+"6.1.3", "the file is encrypted")
	d.want(regexp.MustCompile(`%%EOF(\r\n|\n|\r)?$`).Match(d.raw), pdfA+"6.1.3", "data after the end of the file")
}

var (
	streamStart = regexp.MustCompile(`/Length (\d+)[^>]*>>\s*stream(\r\n|\n|\r)`)
	objectStart = regexp.MustCompile(`(?m)^\d+( +)\d+( +)obj(.?)`)
)

// streams: objects and streams are written as the standard has it.
func (d *document) streams() {
	for _, m := range streamStart.FindAllSubmatchIndex(d.raw, -1) {
		length, err := strconv.Atoi(string(d.raw[m[2]:m[3]]))
		end := m[1] + length
		ok := err == nil && end+10 <= len(d.raw) && regexp.MustCompile(`^(\r\n|\n|\r)endstream`).Match(d.raw[end:])
		d.want(ok, pdfA+"6.1.7.1", "a stream's Length is not that of its data")
		d.want(string(d.raw[m[4]:m[5]]) != "\r", pdfA+"6.1.7.1", "'stream' followed by a carriage return alone")
	}
	for _, m := range objectStart.FindAllSubmatch(d.raw, -1) {
		d.want(string(m[1]) == " " && string(m[2]) == " " && len(m[3]) == 0, pdfA+"6.1.9", "an object begins with %q", m[0])
	}
	d.every(func(o types.Object) {
		s, ok := o.(types.StreamDict)
		if !ok {
			return
		}
		for _, key := range []string{"F", "FFilter", "FDecodeParms"} {
			d.want(s.Dict[key] == nil, pdfA+"6.1.7.1", "a stream with %s", key)
		}
		for _, f := range s.FilterPipeline {
			d.want(f.Name != "LZWDecode" && f.Name != "Crypt", pdfA+"6.1.7.2", "a stream packed by %s", f.Name)
		}
	})
}

// limits: nothing is larger than readers have to take.
func (d *document) limits() {
	d.want(len(d.ctx.Table) <= 8388607, pdfA+"6.1.13", "%d objects", len(d.ctx.Table))
	d.every(func(o types.Object) {
		switch o := o.(type) {
		case types.Name:
			d.want(len(o) <= 127, pdfA+"6.1.13", "a name of %d bytes", len(o))
		case types.StringLiteral:
			d.want(len(o) <= 32767, pdfA+"6.1.13", "a string of %d bytes", len(o))
		case types.HexLiteral:
			d.want(len(o)/2 <= 32767, pdfA+"6.1.13", "a string of %d bytes", len(o)/2)
		case types.Integer:
			d.want(int64(o) >= -2147483648 && int64(o) <= 2147483647, pdfA+"6.1.13", "the number %d", o)
		}
	})
	for _, side := range d.size {
		d.want(side >= 3 && side <= 14400, pdfA+"6.1.13", "a page of %v points", side)
	}
	depth := 0
	for _, op := range d.content {
		switch op.name {
		case "q":
			depth++
		case "Q":
			depth--
		}
		d.want(depth >= 0 && depth <= 28, pdfA+"6.1.13", "states saved %d deep", depth)
	}
	d.want(depth == 0, pdfA+"6.2.2", "%d states saved and not restored", depth)
}

// catalog: the document says its language, that it is tagged, and that readers
// show its title.
func (d *document) catalog() {
	for key, clause := range map[string]string{"AA": "6.5.2", "OpenAction": "6.5.1", "AcroForm": "6.4.1", "Requirements": "6.11", "OCProperties": "6.9"} {
		d.want(d.root[key] == nil, pdfA+clause, "the catalog has %s", key)
	}
	language := d.text(d.root["Lang"])
	d.want(regexp.MustCompile(`^[A-Za-z]{1,8}(-[A-Za-z0-9]{1,8})*$`).MatchString(language), pdfA+"6.7.4", "the language is %q", language)
	d.want(language != "", pdfUA+"7.2", "no language")
	mark := d.dict(d.root["MarkInfo"])
	d.want(d.object(mark["Marked"]) == types.Boolean(true), pdfA+"6.7.2.2", "the document is not said to be tagged")
	d.want(mark["Suspects"] == nil || d.object(mark["Suspects"]) == types.Boolean(false), pdfUA+"7.1", "tags are said to be suspect")
	shown := d.dict(d.root["ViewerPreferences"])["DisplayDocTitle"]
	d.want(d.object(shown) == types.Boolean(true), pdfUA+"7.1", "readers are not asked to show the title")
}

// nothingThatRuns: no annotations, no actions.
func (d *document) nothingThatRuns() {
	d.want(len(d.array(d.page["Annots"])) == 0, pdfA+"6.3", "annotations on the page")
	d.want(d.page["AA"] == nil, pdfA+"6.5.2", "actions of the page")
	d.want(d.name(d.page["Tabs"]) == "S", pdfUA+"7.18.3", "one does not go through the page in the order of its structure")
	d.every(func(o types.Object) {
		if dict, ok := o.(types.Dict); ok && dict["JS"] != nil {
			d.want(false, pdfA+"6.5.1", "a script")
		}
	})
}

// attachments: each file says what it is, of what type, and how it belongs to the
// document.
func (d *document) attachments() {
	tied := map[int]bool{}
	for _, o := range d.array(d.root["AF"]) {
		if ref, ok := o.(types.IndirectRef); ok {
			tied[ref.ObjectNumber.Value()] = true
		}
	}
	for number, entry := range d.ctx.Table {
		if entry == nil || entry.Free {
			continue
		}
		spec, ok := entry.Object.(types.Dict)
		if !ok || spec["EF"] == nil {
			continue
		}
		d.want(spec["F"] != nil && d.text(spec["F"]) == d.text(spec["UF"]), pdfA+"6.8", "an attachment has not the same name twice")
		relation := d.name(spec["AFRelationship"])
		known := map[string]bool{"Source": true, "Data": true, "Alternative": true, "Supplement": true, "Unspecified": true}
		d.want(known[relation], pdfA+"6.8", "an attachment is related by %q", relation)
		d.want(tied[number], pdfA+"6.8", "an attachment belongs to nothing")
		for _, o := range d.dict(spec["EF"]) {
			file := d.dict(o)
			d.want(regexp.MustCompile(`^[-\w.+]+/[-\w.+]+$`).MatchString(d.name(file["Subtype"])), pdfA+"6.8", "an attachment of type %q", d.name(file["Subtype"]))
			d.want(d.dict(file["Params"])["ModDate"] != nil, pdfA+"6.8", "an attachment without a date")
		}
	}
}

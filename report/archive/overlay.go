package archive

import (
	"math"
	"regexp"
	"slices"
	"strings"

	"gaugesheet/report/archive/pdffile"
	"gaugesheet/report/archive/shown"
)

// form judges the document's form: signatures are in one.
func (c *comparison) form(o pdffile.Object) error {
	form, err := c.s.file.Dict(o)
	if err != nil {
		return err
	}
	if form["XFA"] != nil {
		c.v.differs("the PDF has a form that draws the page anew")
	}
	fields, err := c.s.file.Array(form["Fields"])
	if err != nil {
		return err
	}
	if len(fields) > 100 {
		return pdffile.ErrTooLarge
	}
	for _, o := range fields {
		field, err := c.s.file.Dict(o)
		if err != nil {
			return err
		}
		if field["FT"] != pdffile.Name("Sig") || field["Kids"] != nil && field["V"] == nil {
			c.v.doubts("the PDF has a form")
			break
		}
		if err := c.signature(field); err != nil {
			return err
		}
	}
	for key := range form {
		if !slices.Contains([]pdffile.Name{"XFA", "Fields", "SigFlags", "DA", "DR", "NeedAppearances", "Q"}, key) {
			c.v.differs("the PDF has a form with an entry %s, which could run something", quoted(string(key)))
		}
	}
	return nil
}

// signature notes a PDF signature, which other programs check.
func (c *comparison) signature(field pdffile.Dict) error {
	value, err := c.s.file.Dict(field["V"])
	if err != nil {
		return err
	}
	name, err := c.s.file.Text(value["Name"])
	if err != nil {
		return err
	}
	switch {
	case value == nil:
		c.v.notes("the PDF has a place for a signature")
	case name != "":
		c.v.notes("the PDF carries a PDF signature by %s, which is not checked here", quoted(name))
	default:
		c.v.notes("the PDF carries a PDF signature, which is not checked here")
	}
	return nil
}

// notesOver judges what lies over the page: notes, stamps, links, fields.
func (c *comparison) notesOver() error {
	notes, err := c.s.file.Array(c.ours.page.Dict["Annots"])
	if err != nil {
		return err
	}
	if len(notes) > 1000 {
		return pdffile.ErrTooLarge
	}
	for _, o := range notes {
		note, err := c.s.file.Dict(o)
		if err != nil {
			return err
		}
		if err := c.note(note); err != nil {
			return err
		}
	}
	return nil
}

// noteNames are how messages call the kinds of notes.
var noteNames = map[pdffile.Name]string{
	"FreeText": "a note", "Text": "a note", "Popup": "the window of a note", "Stamp": "a stamp", "Widget": "a form field", "Link": "a link",
	"Highlight": "a highlight", "Underline": "an underline", "StrikeOut": "a strike-out", "Ink": "a drawing", "Line": "a line", "Square": "a box",
	"Circle": "an ellipse", "Redact": "a black-out", "FileAttachment": "an attached file's sign",
}

func (c *comparison) note(note pdffile.Dict) error {
	kind, _ := note["Subtype"].(pdffile.Name)
	name, known := noteNames[kind]
	if !known {
		name = "something"
	}
	signature, err := c.isSignature(note, kind)
	if err != nil {
		return err
	}
	if signature {
		name = "a visible signature"
	}
	for _, key := range []pdffile.Name{"A", "AA", "PA", "MK"} {
		if note[key] != nil && (key != "MK" || !signature) {
			c.v.differs("%s on the page could run something", name)
			return nil
		}
	}
	area, reach, seen, err := c.reachOnPage(note, kind, signature)
	if err != nil || !seen {
		return err
	}
	for _, b := range []shown.Box{area, reach.Grown(near)} { // the nearer place says more
		if over := c.under(b); over != "" {
			c.v.differs("%s lies over the page, %s", name, over)
			return nil
		}
	}
	contents, err := c.s.file.Text(note["Contents"])
	if err != nil {
		return err
	}
	if contents = strings.TrimSpace(contents); contents != "" {
		contents = ": " + quoted(contents)
	}
	c.v.doubts("%s stands on the page beside what it says%s", name, contents)
	return nil
}

// reachOnPage is the area of a note, and where it may cover the page; not seen
// for a signature that shows nothing.
func (c *comparison) reachOnPage(note pdffile.Dict, kind pdffile.Name, signature bool) (area, reach shown.Box, seen bool, err error) {
	rect, err := c.s.file.Box(note["Rect"])
	if err != nil {
		return area, reach, false, err
	}
	area = shown.Box{X0: rect[0], Y0: rect[1], X1: rect[2], Y1: rect[3]}
	number, err := c.s.file.Number(note["F"])
	if err != nil {
		return area, reach, false, err
	}
	const hidden, fixed = 2, 8                                                // others hide on the screen or on paper only, or at times
	if number < 0 || number > math.MaxInt32 || number != math.Trunc(number) { // read by each reader in its own way
		return area, everywhere, true, nil
	}
	flags := int(number)
	if signature && flags&hidden != 0 {
		return area, reach, false, nil
	}
	if area.X0 == area.X1 || area.Y0 == area.Y1 { // fitted into no area, some readers draw it in its own size
		draws, err := c.draws(note)
		return area, everywhere, draws || !signature, err
	}
	if reach, err = c.reach(note, kind, area, signature); err != nil {
		return area, reach, false, err
	}
	if flags&fixed != 0 && kind != "Text" && kind != "FileAttachment" && kind != "Popup" { // it grows as the page is made smaller
		reach = everywhere
	}
	return area, reach, true, nil
}

// isSignature tells the field of a signature.
func (c *comparison) isSignature(note pdffile.Dict, kind pdffile.Name) (bool, error) {
	if kind != "Widget" {
		return false, nil
	}
	if note["FT"] != nil {
		return note["FT"] == pdffile.Name("Sig"), nil
	}
	parent, err := c.s.file.Dict(note["Parent"])
	return parent["FT"] == pdffile.Name("Sig"), err
}

// everywhere is all of a page, and beyond.
var everywhere = shown.Box{X0: -1e6, Y0: -1e6, X1: 1e6, Y1: 1e6}

// reach is where a note may draw: within its area where it says itself what it
// looks like; else readers draw it, lines go where their points are, and
// borders are as wide as they say.
func (c *comparison) reach(note pdffile.Dict, kind pdffile.Name, box shown.Box, signature bool) (shown.Box, error) {
	const icon = 40 // points: a reader's own sign for a note, which does not shrink with the page
	switch kind {
	case "Text", "FileAttachment", "Popup":
		return box.Grown(icon), nil
	}
	if noteNames[kind] == "" { // it may draw wherever it likes, on paper too
		return everywhere, nil
	}
	if own, err := c.hasLooks(note); own || err != nil {
		return box.Grown(2), err
	}
	switch {
	case kind == "Square", kind == "Circle", kind == "Link", kind == "Highlight", kind == "Underline", kind == "StrikeOut", signature:
		if note["CL"] != nil || note["QuadPoints"] != nil || note["BE"] != nil {
			return everywhere, nil
		}
		wide, err := c.border(note)
		return box.Grown(2 + wide), err
	} // words and stamps are as large as readers make them
	return everywhere, nil
}

// hasLooks tells whether a note says itself what it looks like: by a drawing that
// readers fit into its area.
func (c *comparison) hasLooks(note pdffile.Dict) (bool, error) {
	looks, err := c.s.file.Dict(note["AP"])
	if err != nil {
		return false, err
	}
	o, err := c.s.file.Resolve(looks["N"])
	if states, ok := o.(pdffile.Dict); ok && err == nil {
		state, _ := note["AS"].(pdffile.Name)
		o, err = c.s.file.Resolve(states[state])
	}
	drawing, ok := o.(*pdffile.Stream)
	if err != nil || !ok {
		return false, err
	}
	area, err := c.s.file.Box(drawing.Dict["BBox"])
	return area[0] < area[2] && area[1] < area[3], err
}

// draws tells whether a note draws anything to look like.
func (c *comparison) draws(note pdffile.Dict) (bool, error) {
	looks, err := c.s.file.Dict(note["AP"])
	if err != nil {
		return false, err
	}
	o, err := c.s.file.Resolve(looks["N"])
	drawing, ok := o.(*pdffile.Stream)
	if err != nil || !ok {
		return o != nil, err
	}
	return c.drawsAnything(drawing)
}

// drawsAnything tells whether a drawing that stands by itself has any operation.
func (c *comparison) drawsAnything(drawing *pdffile.Stream) (bool, error) {
	data, err := c.s.file.UnpackPlain(drawing)
	if err != nil {
		return false, err
	}
	ops, err := c.s.file.Operations(remark.ReplaceAll(data, nil)) // by which some programs mark a signature that shows nothing
	return len(ops) > 0 || err != nil, nil
}

// remark is one that has a line of its own.
var remark = regexp.MustCompile(`(?m)^%[^\r\n]*$`)

// border is how wide the border of a note is that readers draw.
func (c *comparison) border(note pdffile.Dict) (float64, error) {
	style, err := c.s.file.Dict(note["BS"])
	if err != nil {
		return 0, err
	}
	wide, err := c.s.file.Number(style["W"])
	if err != nil {
		return 0, err
	}
	border, err := c.s.file.Array(note["Border"])
	if err != nil || len(border) < 3 {
		return wide, err
	}
	old, err := c.s.file.Number(border[2])
	return max(wide, old), err
}

package archive

import (
	"errors"
	"strings"

	"gaugesheet/report/archive/pdffile"
)

// others judges the other pages of the PDF. What stands on them is not compared:
// a copy of the sheet with other words cannot be told from another sheet, so it is
// said which page was looked at.
func (c *comparison) others(pages []pdffile.Page) error {
	print := shortPrint(c.s.JobFingerprint())
	for _, page := range pages {
		if c.s.says(page, print) {
			c.v.differs("the PDF has a second page of the same sheet")
			return nil
		}
	}
	number := 1
	for number <= len(c.s.pages) && c.s.pages[number-1].Ref != c.ours.page.Ref {
		number++
	}
	if n := len(pages); n == 1 {
		c.v.doubts("another page stands beside it, which is not looked at; the sheet is page %d", number)
	} else if n > 1 {
		c.v.doubts("%d other pages stand beside it, which are not looked at; the sheet is page %d", n, number)
	}
	return nil
}

// says tells whether a page shows a text, in its content, in parts of it that
// stand by themselves, or in what lies over it. One that cannot be read says
// nothing.
func (s *Sheet) says(page pdffile.Page, text string) bool {
	content, err := s.file.Content(page.Dict)
	if err != nil {
		return false
	}
	t := &seeker{file: s.file, text: text, left: mostParts}
	return t.within(content, page.Dict, 0) || t.notes(page.Dict["Annots"])
}

// A seeker looks for a text in a page and its parts.
type seeker struct {
	file *pdffile.File
	text string
	left int // how many parts are still looked at
}

// How many parts of a page are looked at, and how deep in one another.
const (
	mostParts   = 100
	deepestPart = 4
)

// within looks in a content, and in the parts that it may draw.
func (t *seeker) within(content []byte, of pdffile.Dict, depth int) bool {
	if t.left--; t.left < 0 || depth > deepestPart {
		return false
	}
	ops, _ := t.file.Operations(content) // what is readable of it
	fonts, err := t.file.Fonts(of)
	if err != nil {
		return false
	}
	var said strings.Builder
	for _, r := range pdffile.Runs(ops, fonts) {
		said.WriteString(r.Text)
	}
	if strings.Contains(strings.ReplaceAll(said.String(), "\u00a0", " "), t.text) {
		return true
	}
	resources, err := t.file.Dict(of["Resources"])
	if err != nil {
		return false
	}
	parts, err := t.file.Dict(resources["XObject"])
	if err != nil {
		return false
	}
	for _, o := range parts {
		if t.part(o, of["Resources"], depth+1) {
			return true
		}
	}
	return false
}

// part looks in a part that stands by itself, which may draw with what the page
// has.
func (t *seeker) part(o, resources pdffile.Object, depth int) bool {
	s, err := t.file.Stream(o)
	if err != nil || s == nil || s.Dict["Subtype"] == pdffile.Name("Image") {
		return false
	}
	content, err := t.file.UnpackPlain(s)
	if err != nil {
		return false
	}
	if s.Dict["Resources"] != nil {
		resources = s.Dict["Resources"]
	}
	return t.within(content, pdffile.Dict{"Resources": resources}, depth)
}

// notes looks in what notes over the page look like.
func (t *seeker) notes(o pdffile.Object) bool {
	notes, err := t.file.Array(o)
	if err != nil {
		return false
	}
	for _, o := range notes[:min(len(notes), mostParts)] {
		note, err := t.file.Dict(o)
		looks, err2 := t.file.Dict(note["AP"])
		if errors.Join(err, err2) == nil && t.part(looks["N"], nil, 1) {
			return true
		}
	}
	return false
}

package archive

import (
	"errors"
	"maps"
	"slices"
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
	if *s.left < 0 {
		return false
	}
	content, err := s.file.Content(page.Dict)
	if *s.left -= len(content); err != nil || *s.left < 0 {
		return false
	}
	if s.parts == nil {
		s.parts = map[pdffile.Ref]bool{}
	}
	t := &seeker{file: s.file, text: text, known: s.parts, left: s.left}
	return t.within(content, page.Dict, 0) || t.notes(page.Dict["Annots"])
}

// A seeker looks for a text in a page and its parts.
type seeker struct {
	file  *pdffile.File
	text  string
	known map[pdffile.Ref]bool // whether a part has it
	left  *int                 // how many bytes of pages and parts are still looked at, for all sheets
}

// How much of pages and their parts is looked at, which files can name again and
// again, how many parts of one page, and how deep in one another.
const (
	mostLooked  = 32 << 20 // bytes
	mostParts   = 100
	deepestPart = 4
)

// within looks in a content, and in the parts that it may draw.
func (t *seeker) within(content []byte, of pdffile.Dict, depth int) bool {
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
	names := slices.Sorted(maps.Keys(parts))
	for _, name := range names[:min(len(names), mostParts)] {
		if t.part(parts[name], of["Resources"], depth+1) {
			return true
		}
	}
	return false
}

// part looks in a part that stands by itself, which may draw with what the page
// has: once, wherever it is drawn.
func (t *seeker) part(o, resources pdffile.Object, depth int) bool {
	ref, isRef := o.(pdffile.Ref)
	if has, known := t.known[ref]; known && isRef {
		return has
	}
	s, err := t.file.Stream(o)
	if err != nil || s == nil || s.Dict["Subtype"] == pdffile.Name("Image") || depth > deepestPart {
		return false
	}
	t.known[ref] = false // where parts go round in a circle
	if len(s.Raw) > *t.left {
		return false
	}
	content, err := t.file.UnpackPlain(s)
	if *t.left -= len(content); err != nil || *t.left < 0 {
		return false
	}
	if s.Dict["Resources"] != nil {
		resources = s.Dict["Resources"]
	}
	t.known[ref] = t.within(content, pdffile.Dict{"Resources": resources}, depth)
	return t.known[ref]
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

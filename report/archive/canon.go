package archive

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"gaugesheet/report/archive/pdffile"
)

// A canon holds every object that a file leads to against the sheet's own, entry by
// entry: it has the same, written in the same way, or what a table says that
// programs put there when they save. Whatever else there is, known to do harm or not,
// is not vouched for. It is asked last, of files of which nothing else can be said.
type canon struct {
	c     *comparison
	seen  map[[2]pdffile.Ref]bool
	left  int    // how many objects are still looked at
	deep  int    // how deep in one another
	found string // the first thing that is not in order, by the way to it
}

// canonical doubts a file that has or says anything beside what a sheet has.
func (c *comparison) canonical() error {
	if c.v.Outcome() != Same {
		return nil
	}
	n := &canon{c: c, seen: map[[2]pdffile.Ref]bool{{c.ours.page.Ref, c.again.drawn.page.Ref}: true}, left: 1 << 18}
	ours, theirs, err := c.catalogs()
	if err != nil {
		return err
	}
	for _, step := range []func() error{
		func() error { return n.entries("catalog", ours, theirs, catalogForms) },
		func() error { return n.entries("page", c.ours.page.Dict, c.again.drawn.page.Dict, pageForms) },
		n.files, n.info, n.above, n.lists,
	} {
		if err := step(); err != nil {
			return err
		}
	}
	if n.found == "" {
		n.found = c.s.file.Odd(c.again.file)
	}
	if n.found == "" {
		n.found, err = c.s.file.Stray()
	}
	if err != nil {
		return err
	}
	if n.found != "" {
		c.v.doubts("the PDF is written as no sheet is, and as no program known here saves one: %s", n.found)
	}
	return nil
}

func (n *canon) finds(format string, args ...any) {
	if n.found == "" {
		n.found = fmt.Sprintf(format, args...)
	}
}

// walk goes through two objects that stand in the same place.
func (n *canon) walk(way string, a, b pdffile.Object) error {
	const deepest = 1000
	n.left--
	n.deep++
	defer func() { n.deep-- }()
	if n.left < 0 || n.deep > deepest {
		return pdffile.ErrTooLarge
	}
	refA, isRefA := a.(pdffile.Ref)
	refB, isRefB := b.(pdffile.Ref)
	if isRefA && isRefB {
		if n.seen[[2]pdffile.Ref{refA, refB}] {
			return nil
		}
		n.seen[[2]pdffile.Ref{refA, refB}] = true
	}
	if isRefA != isRefB { // not all readers look references up everywhere, or know where they are without one
		n.finds("%s stands in its place, or by itself, where the sheet's does not", way)
		return nil
	}
	from, with := a, b
	a, err := n.c.s.file.Resolve(a)
	if err != nil {
		return err
	}
	if b, err = n.c.again.file.Resolve(b); err != nil {
		return err
	}
	stream, isStream := a.(*pdffile.Stream)
	if !isStream {
		return n.values(way, a, b)
	}
	other, ok := b.(*pdffile.Stream)
	if !ok {
		n.finds("%s is data", way)
		return nil
	}
	if same, err := n.c.pair.alike(from, with); err != nil || !same { // which was asked before, and is remembered
		n.finds("%s has other data", way)
		return err
	}
	return n.stream(way, stream, other)
}

// values goes through two objects that are no data.
func (n *canon) values(way string, a, b pdffile.Object) error {
	switch a := a.(type) {
	case []pdffile.Object:
		list, ok := b.([]pdffile.Object)
		if !ok || len(a) != len(list) {
			n.finds("%s is another list", way)
			return nil
		}
		for i := range a {
			if err := n.walk(way, a[i], list[i]); err != nil || n.found != "" {
				return err
			}
		}
	case pdffile.Dict:
		if dict, ok := b.(pdffile.Dict); ok {
			return n.entries(way, a, dict, nil)
		}
		n.finds("%s is a dictionary", way)
	default:
		n.plain(way, a, b)
	}
	return nil
}

// plain compares what has no parts.
func (n *canon) plain(way string, a, b pdffile.Object) {
	switch {
	case a == nil:
		n.finds("%s is nothing", way)
	case a != b:
		n.finds("%s is another", way)
	}
}

// stream compares how data are packed that say the same, and what goes with them.
func (n *canon) stream(way string, a, b *pdffile.Stream) error {
	if said := n.c.s.file.Packed(a); said != "" {
		n.finds("%s is packed %s", way, said)
		return nil
	}
	without := func(d pdffile.Dict) pdffile.Dict {
		d = maps.Clone(d)
		for _, key := range []pdffile.Name{"Length", "Filter", "DecodeParms"} {
			delete(d, key)
		}
		return d
	}
	return n.entries(way, without(a.Dict), without(b.Dict), streamForms)
}

// entries compares two dictionaries. An entry that has a form is judged by it, and may
// be missing.
func (n *canon) entries(way string, a, b pdffile.Dict, forms map[pdffile.Name]form) error {
	for _, key := range slices.Sorted(maps.Keys(b)) {
		if _, given := a[key]; !given && forms[key] == nil {
			n.finds("%s has no /%s", way, key)
		}
	}
	for _, key := range slices.Sorted(maps.Keys(a)) {
		if n.found != "" {
			return nil
		}
		o, err := n.c.s.file.Resolve(a[key])
		if err != nil {
			return err
		}
		theirs, drawn := b[key]
		switch fits := forms[key]; {
		case o == nil:
			n.finds("%s has a /%s that is nothing", way, key)
		case fits != nil:
			ok, err := fits(n, a[key])
			if err != nil {
				return err
			}
			if !ok {
				n.finds("/%s of the %s", key, way)
			}
		case !drawn:
			n.finds("%s has a /%s", way, key)
		default:
			if err := n.walk(strings.TrimPrefix(way+" /"+string(key), "catalog "), a[key], theirs); err != nil {
				return err
			}
		}
	}
	return nil
}

// files goes through the list of attached files: in whatever nodes it stands, it has
// the sheet's own entries, which lead to what the sheet's lead to.
func (n *canon) files() error {
	ours, err := n.c.s.file.Attached()
	if err != nil {
		return err
	}
	theirs, err := n.c.again.file.Attached()
	if err != nil {
		return err
	}
	if len(ours) != len(theirs) {
		n.finds("the list of attached files has others")
		return nil
	}
	for i, a := range ours {
		if a.Key != theirs[i].Key || a.Listed != theirs[i].Listed {
			n.finds("the list of attached files has another name")
			return nil
		}
		if err := n.walk("attached files", a.Place, theirs[i].Place); err != nil {
			return err
		}
	}
	return nil
}

// info judges how it is written what the document says of itself: what of it programs
// leave is the sheet's, as it stands there or in letters that all readers know.
func (n *canon) info() error {
	info, err := n.c.s.file.NoData(n.c.s.file.Trailer["Info"])
	if err != nil {
		return err
	}
	theirs, err := n.c.again.file.Dict(n.c.again.file.Trailer["Info"])
	if err != nil {
		return err
	}
	for _, key := range []pdffile.Name{"Title", "Author", "Subject", "Keywords", "Creator"} {
		if s, isString := info[key].(pdffile.String); isString && s != theirs[key] && !s.Plain() {
			n.finds("the information has a /%s in letters that readers take differently", key)
		}
	}
	return n.entries("information", info, nil, infoForms)
}

// above judges the nodes above the page: what they hand down is the page's.
func (n *canon) above() error {
	page := n.c.ours.page.Dict
	for _, node := range n.c.ours.page.Above {
		for _, key := range []pdffile.Name{"MediaBox", "CropBox", "Resources", "Rotate"} {
			if o, given := node[key]; given {
				if same, err := n.alikeHere(o, page[key]); err != nil || !same {
					n.finds("a node of pages hands down another /%s than the page has", key)
					return err
				}
			}
		}
		for _, key := range []pdffile.Name{"Type", "Kids", "Count", "Parent", "LastModified"} {
			if o, given := node[key]; given && o == nil {
				n.finds("a node of pages has a /%s that is nothing", key)
			}
		}
	}
	return nil
}

// alikeHere compares two objects of the file.
func (n *canon) alikeHere(a, b pdffile.Object) (bool, error) {
	refA, isRefA := a.(pdffile.Ref)
	refB, isRefB := b.(pdffile.Ref)
	if isRefA && isRefB && refA == refB {
		return true, nil
	}
	one, err := n.c.s.file.Digest(a)
	if err != nil {
		return false, err
	}
	other, err := n.c.s.file.Digest(b)
	return one == other, err
}

// lists judges what stands with the file's lists of objects.
func (n *canon) lists() error {
	for _, trailer := range n.c.s.file.Trailers() {
		for _, key := range slices.Sorted(maps.Keys(trailer)) {
			fits := trailerForms[key]
			if fits == nil {
				n.finds("the list of objects has a /%s", key)
				return nil
			}
			if ok, err := fits(n, trailer[key]); err != nil || !ok {
				n.finds("/%s of the list of objects", key)
				return err
			}
		}
	}
	return nil
}

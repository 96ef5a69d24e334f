package pdffile

import (
	"maps"
	"strings"
	"unicode/utf16"
)

// Dict gives a dictionary by reference or directly; nil where there is none.
// A stream's dictionary counts. Something else in its place is damage, of which
// readers make nothing, or no page at all; so it is for the others.
func (f *File) Dict(o Object) (Dict, error) {
	o, err := f.Resolve(o)
	switch o := o.(type) {
	case nil:
		return nil, err
	case Dict:
		return o, err
	case *Stream:
		return o.Dict, err
	}
	return nil, damaged("something else stands in the place of a dictionary")
}

// NoData gives a dictionary as Dict does; one of data is damage, which readers take or
// not where none belongs.
func (f *File) NoData(o Object) (Dict, error) {
	o, err := f.Resolve(o)
	if _, isData := o.(*Stream); isData && err == nil {
		return nil, damaged("data stand in the place of a dictionary")
	}
	if err != nil {
		return nil, err
	}
	return f.Dict(o)
}

// Array gives an array; nil where there is none.
func (f *File) Array(o Object) ([]Object, error) {
	o, err := f.Resolve(o)
	list, ok := o.([]Object)
	if err == nil && o != nil && !ok {
		return nil, damaged("something else stands in the place of a list")
	}
	return list, err
}

// Number gives a number; 0 where there is none.
func (f *File) Number(o Object) (float64, error) {
	o, err := f.Resolve(o)
	v, ok := o.(float64)
	if err == nil && o != nil && !ok {
		return 0, damaged("something else stands in the place of a number")
	}
	return v, err
}

// Stream gives a stream; nil where there is none.
func (f *File) Stream(o Object) (*Stream, error) {
	o, err := f.Resolve(o)
	s, _ := o.(*Stream)
	return s, err
}

// Text gives a text string: UTF-16 and UTF-8 where they are marked as such,
// else its bytes as Latin letters; "" where there is none.
func (f *File) Text(o Object) (string, error) {
	o, err := f.Resolve(o)
	s, _ := o.(String)
	text := string(s)
	switch {
	case strings.HasPrefix(text, "\xfe\xff"):
		return UTF16(text[2:]), err
	case strings.HasPrefix(text, "\xef\xbb\xbf"):
		return strings.ToValidUTF8(text[3:], "\ufffd"), err
	}
	var b strings.Builder
	for i := range len(text) {
		b.WriteRune(rune(text[i]))
	}
	return b.String(), err
}

// Plain tells whether a text string says the same to every reader: it is in Latin letters
// without accents, or in UTF-16 as it should be.
func (s String) Plain() bool {
	wide, isWide := strings.CutPrefix(string(s), "\xfe\xff")
	if !isWide {
		return plainText([]byte(s))
	}
	text := UTF16(wide)
	return len(wide)%2 == 0 && !strings.ContainsAny(text, "\ufffd\x1b")
}

// UTF16 decodes big-endian UTF-16.
func UTF16(s string) string {
	units := make([]uint16, 0, len(s)/2)
	for i := 0; i+1 < len(s); i += 2 {
		units = append(units, uint16(s[i])<<8|uint16(s[i+1]))
	}
	return string(utf16.Decode(units))
}

// Catalog is the document's root.
func (f *File) Catalog() (Dict, error) {
	d, err := f.NoData(f.Trailer["Root"])
	if err == nil && d == nil {
		err = damaged("it has no root")
	}
	return d, err
}

// A Page is a page with what it has from the nodes above it.
type Page struct {
	Dict
	Ref   Ref    // zero where the page stands in its parent's place
	Above []Dict // the nodes that it stands in, the root first
}

// Pages are the document's pages in order.
func (f *File) Pages() ([]Page, error) {
	root, err := f.Catalog()
	if err != nil {
		return nil, err
	}
	var pages []Page
	count, err := f.pages(root["Pages"], level{}, visits{}, &pages)
	if err == nil && count != len(pages) {
		err = errPages
	}
	return pages, err
}

var errPages = damaged("its pages are not in order")

// visits are the references that were followed in a tree, each of which has to
// lead to another node.
type visits map[Ref]bool

// enter follows a reference; one that was followed before makes no tree.
func (v visits) enter(o Object) bool {
	ref, ok := o.(Ref)
	if !ok {
		ref = Ref{Number: -1 - len(v)} // a node in its parent's place leads nowhere back
	}
	if v[ref] {
		return false
	}
	v[ref] = true
	return true
}

// inherited are the entries of a page that may stand above it.
var inherited = []Name{"MediaBox", "CropBox", "Resources", "Rotate"}

// A level is where in the tree of pages a node stands.
type level struct {
	parent Ref    // the node above
	with   Dict   // what comes from above
	nodes  []Dict // all nodes above
}

// pages adds the pages below a node, and gives how many the node says that
// there are. Readers tell nodes and pages apart by their type or by what they
// have, and look for what a page lacks in the nodes that lead to it or in the
// parents that it names: both have to agree.
func (f *File) pages(o Object, at level, seen visits, pages *[]Page) (int, error) {
	const most = 5000
	if !seen.enter(o) || len(seen) > 2*most || len(*pages) >= most {
		return 0, errPages
	}
	node, err := f.NoData(o)
	if err != nil {
		return 0, err
	}
	parent, named := node["Parent"].(Ref)
	if named != (len(at.nodes) > 0) || parent != at.parent {
		return 0, errPages
	}
	own := maps.Clone(node)
	for _, k := range inherited {
		if v, given := node[k]; given { // nothing, where readers look above or not
			if said, err := f.Resolve(v); err != nil || said == nil {
				return 0, errPages
			}
		}
		if _, given := own[k]; !given && at.with[k] != nil && own != nil {
			own[k] = at.with[k]
		}
	}
	kids, err := f.Array(node["Kids"])
	if err != nil {
		return 0, err
	}
	ref, _ := o.(Ref)
	switch {
	case node["Type"] == Name("Page") && node["Kids"] == nil && len(at.nodes) > 0:
		*pages = append(*pages, Page{own, ref, at.nodes})
		return 1, nil
	case node["Type"] != Name("Pages") || kids == nil:
		return 0, errPages
	}
	before := len(*pages)
	below := level{ref, own, append(at.nodes[:len(at.nodes):len(at.nodes)], node)}
	for _, kid := range kids {
		if _, err := f.pages(kid, below, seen, pages); err != nil {
			return 0, err
		}
	}
	count, err := f.Number(node["Count"])
	if err != nil || int(count) != len(*pages)-before {
		return 0, errPages
	}
	return int(count), nil
}

// Box gives an area: its lower left and upper right corners, however it names
// them.
func (f *File) Box(o Object) ([4]float64, error) {
	list, err := f.Array(o)
	if err != nil {
		return [4]float64{}, err
	}
	if len(list) != 4 {
		return [4]float64{}, damaged("an area has %d numbers", len(list))
	}
	var v [4]float64
	for i := range v {
		if v[i], err = f.Number(list[i]); err != nil {
			return v, err
		}
	}
	return [4]float64{min(v[0], v[2]), min(v[1], v[3]), max(v[0], v[2]), max(v[1], v[3])}, nil
}

// Search allows for more objects to be made: a page is looked for among many.
func (f *File) Search() { f.made = 2 * mostMade }

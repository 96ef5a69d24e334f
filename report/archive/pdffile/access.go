package pdffile

import (
	"strings"
	"unicode/utf16"
)

// Dict gives a dictionary by reference or directly; nil where there is none.
// A stream's dictionary counts.
func (f *File) Dict(o Object) (Dict, error) {
	o, err := f.Resolve(o)
	switch o := o.(type) {
	case Dict:
		return o, err
	case *Stream:
		return o.Dict, err
	}
	return nil, err
}

// Array gives an array; nil where there is none.
func (f *File) Array(o Object) ([]Object, error) {
	o, err := f.Resolve(o)
	list, _ := o.([]Object)
	return list, err
}

// Number gives a number; 0 where there is none.
func (f *File) Number(o Object) (float64, error) {
	o, err := f.Resolve(o)
	v, _ := o.(float64)
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
	d, err := f.Dict(f.Trailer["Root"])
	if err == nil && d == nil {
		err = damaged("it has no root")
	}
	return d, err
}

// Pages are the document's pages in order, at most a thousand of them.
func (f *File) Pages() ([]Dict, error) {
	root, err := f.Catalog()
	if err != nil {
		return nil, err
	}
	var pages []Dict
	err = f.pages(root["Pages"], Dict{}, visits{}, &pages)
	return pages, err
}

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

func (f *File) pages(o Object, above Dict, seen visits, pages *[]Dict) error {
	const most = 1000
	if !seen.enter(o) || len(seen) > most || len(*pages) >= most {
		return damaged("its pages are not in order")
	}
	node, err := f.Dict(o)
	if err != nil || node == nil {
		return err
	}
	own := Dict{}
	for k, v := range node {
		own[k] = v
	}
	for _, k := range inherited {
		if _, given := own[k]; !given && above[k] != nil {
			own[k] = above[k]
		}
	}
	kids, err := f.Array(node["Kids"])
	if err != nil {
		return err
	}
	if node["Type"] == Name("Page") || kids == nil {
		*pages = append(*pages, own)
		return nil
	}
	for _, kid := range kids {
		if err := f.pages(kid, own, seen, pages); err != nil {
			return err
		}
	}
	return nil
}

// An Attached file travels in the document.
type Attached struct {
	Name, Description string
	Data              []byte
}

// Attached are the files that travel in the document, in the order of its
// list of names.
func (f *File) Attached() ([]Attached, error) {
	root, err := f.Catalog()
	if err != nil {
		return nil, err
	}
	names, err := f.Dict(root["Names"])
	if err != nil {
		return nil, err
	}
	var files []Attached
	err = f.nameTree(names["EmbeddedFiles"], visits{}, &files)
	return files, err
}

func (f *File) nameTree(o Object, seen visits, files *[]Attached) error {
	const most = 1000
	if o == nil {
		return nil
	}
	if !seen.enter(o) || len(seen) > most {
		return damaged("its list of attached files is not in order")
	}
	node, err := f.Dict(o)
	if err != nil || node == nil {
		return err
	}
	names, err := f.Array(node["Names"])
	if err != nil {
		return err
	}
	for i := 1; i < len(names); i += 2 {
		if len(*files) >= most {
			return damaged("it has more than %d attached files", most)
		}
		file, err := f.attached(names[i])
		if err != nil {
			return err
		}
		*files = append(*files, file)
	}
	kids, err := f.Array(node["Kids"])
	if err != nil {
		return err
	}
	for _, kid := range kids {
		if err := f.nameTree(kid, seen, files); err != nil {
			return err
		}
	}
	return nil
}

func (f *File) attached(o Object) (a Attached, err error) {
	spec, err := f.Dict(o)
	if err != nil {
		return a, err
	}
	if a.Name, err = f.Text(spec["UF"]); err == nil && a.Name == "" {
		a.Name, err = f.Text(spec["F"])
	}
	if err != nil {
		return a, err
	}
	if a.Description, err = f.Text(spec["Desc"]); err != nil {
		return a, err
	}
	embedded, err := f.Dict(spec["EF"])
	if err != nil {
		return a, err
	}
	s, err := f.Stream(embedded["F"])
	if err != nil {
		return a, err
	}
	if s == nil {
		return a, damaged("the attached file %q has no contents", a.Name)
	}
	a.Data, err = f.Unpack(s)
	return a, err
}

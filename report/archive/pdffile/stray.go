package pdffile

import (
	"fmt"
	"maps"
	"slices"
)

// Stray says which object nothing in the file leads to; "" where there is none. Some
// programs go through all objects, or take another for the first when they mend a file.
// What a file is kept with is none: lists of objects, packed objects, how long data are,
// where its start says that things are, and what a content had that was written
// anew.
func (f *File) Stray() (string, error) {
	r := &reach{f: f, seen: map[int]bool{}, left: mostMade}
	for _, t := range f.trailers {
		if err := r.follow(t, 0); err != nil {
			return "", err
		}
	}
	for _, n := range slices.Sorted(maps.Keys(f.places)) {
		p := f.places[n]
		if p == (position{}) || r.seen[n] {
			continue
		}
		o, err := f.Resolve(Ref{n, p.generation})
		if err != nil {
			return "", err
		}
		if !keeps(o) {
			return fmt.Sprintf("an object to which nothing leads, %d", n), nil
		}
	}
	return "", nil
}

// keeps tells the objects that a file is kept with, or that say nothing.
func keeps(o Object) bool {
	switch o := o.(type) {
	case nil, float64:
		return true
	case Dict:
		return o["Linearized"] != nil || only(o, "ProcSet", "Font", "XObject", "ColorSpace", "ExtGState", "Pattern", "Shading", "Properties")
	case *Stream:
		if o.Dict["Type"] == nil { // data that are of no kind, or say where things are (ISO 32000-2, annex F)
			return only(o.Dict, "S", "P", "T", "O", "A", "E", "V", "I", "C", "L", "R", "B", "Length", "Filter", "DecodeParms")
		}
		return o.Dict["Type"] == Name("ObjStm") || o.Dict["Type"] == Name("XRef")
	}
	return false
}

// only tells whether a dictionary has no entries but these.
func only(d Dict, keys ...Name) bool {
	for key := range d {
		if !slices.Contains(keys, key) {
			return false
		}
	}
	return true
}

// A reach goes through what objects lead to.
type reach struct {
	f    *File
	seen map[int]bool
	left int
}

func (r *reach) follow(o Object, deep int) error {
	if r.left--; r.left < 0 || deep > deepest*deepest {
		return ErrTooLarge
	}
	switch o := o.(type) {
	case Ref:
		if r.seen[o.Number] {
			return nil
		}
		r.seen[o.Number] = true
		v, err := r.f.Resolve(o)
		if err != nil {
			return err
		}
		return r.follow(v, deep+1)
	case Dict:
		for _, v := range o {
			if err := r.follow(v, deep+1); err != nil {
				return err
			}
		}
	case []Object:
		for _, v := range o {
			if err := r.follow(v, deep+1); err != nil {
				return err
			}
		}
	case *Stream:
		return r.follow(o.Dict, deep+1)
	}
	return nil
}

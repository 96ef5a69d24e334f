package pdffile

import (
	"crypto/sha256"
	"fmt"
	"maps"
	"slices"
)

// unseen are entries that say how data are kept, or where, not what is seen.
var unseen = map[Name]bool{
	"Parent": true, "Length": true, "Filter": true, "DecodeParms": true, "Metadata": true, "StructParents": true,
}

// A digest is the fingerprint of what an object says.
type digest [sha256.Size]byte

// Digest is a fingerprint of an object with everything that it refers to,
// streams unpacked: equal where two files draw the same with it, however they
// are packed.
func (f *File) Digest(o Object) (string, error) {
	d := &digester{file: f, done: map[int]digest{}}
	sum, err := d.of(o, 0)
	return fmt.Sprintf("%x", sum), err
}

type digester struct {
	file *File
	done map[int]digest
}

func (d *digester) of(o Object, depth int) (sum digest, err error) {
	if depth > deepest {
		return sum, damaged("objects refer to one another without end")
	}
	h := sha256.New()
	write := func(kind string, parts ...any) { fmt.Fprintln(h, append([]any{kind}, parts...)...) }
	switch o := o.(type) {
	case Ref:
		return d.ref(o, depth)
	case Dict:
		write("dictionary")
		for _, key := range slices.Sorted(maps.Keys(o)) {
			if unseen[key] {
				continue
			}
			value, err := d.of(o[key], depth+1)
			if err != nil {
				return sum, err
			}
			write("entry", string(key), value)
		}
	case []Object:
		write("array")
		for _, item := range o {
			value, err := d.of(item, depth+1)
			if err != nil {
				return sum, err
			}
			write("item", value)
		}
	case *Stream:
		dict, err := d.of(o.Dict, depth+1)
		if err != nil {
			return sum, err
		}
		data, err := d.file.Unpack(o)
		if err != nil {
			return sum, err
		}
		coding, err := d.file.Coding(o)
		if err != nil {
			return sum, err
		}
		write("stream", dict, coding, sha256.Sum256(data))
	default:
		write(fmt.Sprintf("%T", o), o)
	}
	return digest(h.Sum(nil)), nil
}

// ref is what a reference refers to, looked at once.
func (d *digester) ref(r Ref, depth int) (digest, error) {
	if sum, ok := d.done[r.Number]; ok {
		return sum, nil
	}
	d.done[r.Number] = digest{} // where objects go round in a circle
	o, err := d.file.Resolve(r)
	if err != nil {
		return digest{}, err
	}
	sum, err := d.of(o, depth+1)
	d.done[r.Number] = sum
	return sum, err
}

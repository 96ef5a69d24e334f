package pdffile

import (
	"bytes"
	"errors"
	"math"
)

const (
	mostObjects = 1 << 20
	mostTables  = 64       // lists of objects, one for each time a file was saved
	mostUnpack  = 64 << 20 // bytes unpacked from one file, all in all
)

// Reasons for which a file is not read.
var (
	ErrNotPDF    = errors.New("it is not a PDF")
	ErrEncrypted = errors.New("it is encrypted")
)

// A place is where an object is: at a byte of the file, or in another object.
type place struct {
	at       int // 0 where it is in another object
	in, rank int
}

// File is an opened PDF file.
type File struct {
	Trailer Dict

	data     []byte
	places   map[int]place
	done     map[int]Object
	packs    map[int][]Object // the objects in an object stream
	resolves int              // depth of objects being resolved
	unpacked int
}

// Open reads the list of a file's objects. The error is ErrNotPDF,
// ErrEncrypted or a *DamageError.
func Open(data []byte) (*File, error) {
	head := bytes.Index(data[:min(len(data), 1024)], []byte("%PDF-"))
	if head < 0 {
		return nil, ErrNotPDF
	}
	f := &File{data: data[head:], places: map[int]place{}, done: map[int]Object{}, packs: map[int][]Object{}}
	if err := f.tables(); err != nil {
		return nil, err
	}
	if f.Trailer["Encrypt"] != nil {
		return nil, ErrEncrypted
	}
	if _, ok := f.Trailer["Root"].(Ref); !ok {
		return nil, damaged("it has no root")
	}
	return f, nil
}

// tables reads the lists of objects, the newest first.
func (f *File) tables() error {
	mark := []byte("startxref")
	i := bytes.LastIndex(f.data, mark)
	if i < 0 {
		return damaged("its end is missing")
	}
	l := &lexer{data: f.data, at: i + len(mark)}
	o, err := l.object(0)
	if err != nil {
		return err
	}
	next, seen := o, map[int]bool{}
	for next != nil {
		at, ok := whole(next)
		if !ok || at <= 0 || at >= len(f.data) || seen[at] || len(seen) >= mostTables {
			return damaged("its list of objects is not where it should be")
		}
		seen[at] = true
		trailer, err := f.table(at)
		if err != nil {
			return err
		}
		if f.Trailer == nil {
			f.Trailer = trailer
		}
		if hybrid, ok := whole(trailer["XRefStm"]); ok && hybrid > 0 && hybrid < len(f.data) {
			if _, err := f.tableStream(hybrid); err != nil {
				return err
			}
		}
		next = trailer["Prev"]
	}
	return nil
}

// table reads one list of objects with its trailer.
func (f *File) table(at int) (Dict, error) {
	l := &lexer{data: f.data, at: at}
	l.skipSpace()
	if !l.take("xref") {
		return f.tableStream(at)
	}
	for {
		l.skipSpace()
		if l.take("trailer") {
			break
		}
		first, ok1 := whole(l.word())
		l.skipSpace()
		count, ok2 := whole(l.word())
		if !ok1 || !ok2 || first < 0 || count < 0 || first+count > mostObjects {
			return nil, damaged("its list of objects is not readable")
		}
		for n := first; n < first+count; n++ {
			l.skipSpace()
			at, ok := whole(l.word())
			l.skipSpace()
			l.word()
			l.skipSpace()
			kind := l.word()
			if !ok || kind != operator("n") && kind != operator("f") {
				return nil, damaged("its list of objects is not readable")
			}
			if kind == operator("n") {
				f.put(n, place{at: at})
			} else {
				f.put(n, place{})
			}
		}
	}
	o, err := l.object(0)
	if err != nil {
		return nil, err
	}
	d, ok := o.(Dict)
	if !ok {
		return nil, damaged("its trailer is not readable")
	}
	return d, nil
}

// put notes a place; lists are read newest first, so the first one counts.
func (f *File) put(n int, p place) {
	if _, known := f.places[n]; !known {
		f.places[n] = p
	}
}

// tableStream reads a list of objects that is a stream.
func (f *File) tableStream(at int) (Dict, error) {
	_, o, err := f.objectAt(at)
	if err != nil {
		return nil, err
	}
	s, ok := o.(*Stream)
	if !ok || s.Dict["Type"] != Name("XRef") {
		return nil, damaged("its list of objects is not where it should be")
	}
	if s.Dict["Encrypt"] != nil {
		return nil, ErrEncrypted
	}
	data, err := f.unpackList(s)
	if err != nil {
		return nil, err
	}
	var width [3]int
	widths, _ := s.Dict["W"].([]Object)
	if len(widths) != 3 {
		return nil, damaged("its list of objects is not readable")
	}
	for i := range width {
		if width[i], ok = whole(widths[i]); !ok || width[i] < 0 || width[i] > 8 {
			return nil, damaged("its list of objects is not readable")
		}
	}
	size := width[0] + width[1] + width[2]
	index, _ := s.Dict["Index"].([]Object)
	if index == nil {
		index = []Object{0.0, s.Dict["Size"]}
	}
	if size == 0 || len(index)%2 != 0 {
		return nil, damaged("its list of objects is not readable")
	}
	for i := 0; i < len(index); i += 2 {
		first, ok1 := whole(index[i])
		count, ok2 := whole(index[i+1])
		if !ok1 || !ok2 || first < 0 || count < 0 || first+count > mostObjects || count*size > len(data) {
			return nil, damaged("its list of objects is not readable")
		}
		for n := first; n < first+count; n++ {
			f.put(n, entry(data[:size], width))
			data = data[size:]
		}
	}
	return s.Dict, nil
}

func entry(data []byte, width [3]int) place {
	var field [3]int
	for i, w := range width {
		for _, b := range data[:w] {
			field[i] = field[i]<<8 | int(b)
		}
		data = data[w:]
	}
	if width[0] == 0 {
		field[0] = 1
	}
	switch field[0] {
	case 1:
		return place{at: field[1]}
	case 2:
		return place{in: field[1], rank: field[2]}
	}
	return place{}
}

// objectAt reads the numbered object at a byte of the file.
func (f *File) objectAt(at int) (int, Object, error) {
	if at <= 0 || at >= len(f.data) {
		return 0, nil, damaged("an object is not where the list of objects says")
	}
	l := &lexer{data: f.data, at: at}
	l.skipSpace()
	n, ok := whole(l.word())
	l.skipSpace()
	l.word()
	l.skipSpace()
	if !ok || !l.take("obj") {
		return 0, nil, damaged("an object is not where the list of objects says")
	}
	o, err := l.objectOrRef(0)
	if err != nil {
		return 0, nil, err
	}
	if word, ok := o.(operator); ok {
		if word == "endobj" {
			return n, nil, nil
		}
		return 0, nil, damaged("object %d is not readable", n)
	}
	d, ok := o.(Dict)
	if !ok {
		return n, o, nil
	}
	l.skipSpace()
	if !l.take("stream") {
		return n, d, nil
	}
	if !l.take("\r\n") {
		l.take("\n")
	}
	length, err := f.Number(d["Length"])
	if err != nil {
		return 0, nil, err
	}
	end := l.at + int(length)
	if length < 0 || length > float64(len(f.data)-l.at) {
		return 0, nil, damaged("the data of object %d go beyond the end of the file", n)
	}
	after := &lexer{data: f.data, at: end}
	after.skipSpace()
	if !after.take("endstream") {
		return 0, nil, damaged("the data of object %d do not end where they should", n)
	}
	return n, &Stream{Dict: d, Raw: f.data[l.at:end]}, nil
}

// Resolve gives the object that a reference refers to, other objects as they
// are. What is not in the file is null.
func (f *File) Resolve(o Object) (Object, error) {
	ref, ok := o.(Ref)
	if !ok {
		return o, nil
	}
	if o, ok := f.done[ref.Number]; ok {
		return o, nil
	}
	p, ok := f.places[ref.Number]
	if !ok || p == (place{}) {
		return nil, nil
	}
	if f.resolves++; f.resolves > deepest {
		f.resolves--
		return nil, damaged("objects refer to one another without end")
	}
	defer func() { f.resolves-- }()
	var found Object
	var err error
	if p.at > 0 {
		var n int
		n, found, err = f.objectAt(p.at)
		if err == nil && n != ref.Number {
			err = damaged("object %d is not where the list of objects says", ref.Number)
		}
	} else {
		found, err = f.packed(p)
	}
	if err != nil {
		return nil, err
	}
	if found, err = f.Resolve(found); err != nil {
		return nil, err
	}
	f.done[ref.Number] = found
	return found, nil
}

// packed gives an object out of an object stream.
func (f *File) packed(p place) (Object, error) {
	objects, ok := f.packs[p.in]
	if !ok {
		if in, ok := f.places[p.in]; !ok || in.at == 0 {
			return nil, damaged("a packed object is missing")
		}
		o, err := f.Resolve(Ref{Number: p.in})
		if err != nil {
			return nil, err
		}
		s, ok := o.(*Stream)
		if !ok {
			return nil, damaged("a packed object is missing")
		}
		if objects, err = f.unpackObjects(s); err != nil {
			return nil, err
		}
		f.packs[p.in] = objects
	}
	if p.rank < 0 || p.rank >= len(objects) {
		return nil, damaged("a packed object is missing")
	}
	return objects[p.rank], nil
}

func (f *File) unpackObjects(s *Stream) ([]Object, error) {
	data, err := f.unpackList(s)
	if err != nil {
		return nil, err
	}
	count, ok1 := whole(s.Dict["N"])
	first, ok2 := whole(s.Dict["First"])
	if !ok1 || !ok2 || count < 0 || count > len(data) || first < 0 || first > len(data) {
		return nil, damaged("packed objects are not readable")
	}
	list := &lexer{data: data[:first]}
	objects := make([]Object, count)
	for i := range objects {
		list.skipSpace()
		list.word()
		list.skipSpace()
		at, ok := whole(list.word())
		if !ok || at < 0 || at > len(data)-first {
			return nil, damaged("packed objects are not readable")
		}
		l := &lexer{data: data, at: first + at}
		if objects[i], err = l.objectOrRef(0); err != nil {
			return nil, err
		}
	}
	return objects, nil
}

// whole gives a number that is whole and fits.
func whole(o Object) (int, bool) {
	v, ok := o.(float64)
	if !ok || v != math.Trunc(v) || math.Abs(v) > 1<<40 {
		return 0, false
	}
	return int(v), true
}

package pdffile

import (
	"bytes"
	"math"
)

// File is an opened PDF file.
type File struct {
	Trailer Dict

	data     []byte
	places   map[int]position
	done     map[int]Object
	packs    map[int][]Object // the objects in an object stream
	resolves int              // depth of objects being resolved
	made     int              // how many objects may still be made
	unpacked int
	hashed   int
	trailers []Dict       // newest first
	start    int          // of the newest list of objects, as the end of the file says
	lists    []int        // where the lists stand that lead on from there, the newest first
	shifted  bool         // something stands before it, and places count from either
	tail     int          // how far from its end it says where that list is
	hybrid   bool         // it has two lists of objects for two kinds of readers
	listed   map[int]bool // objects of the list that is being read
	repeated bool         // a list has an object twice
	key      *key         // nil where it is not encrypted
	odd      string       // what is written as nobody writes it, the first thing
	pointed  map[Name]bool
}

// Open reads the list of a file's objects. The error is ErrNotPDF,
// ErrEncrypted, ErrTooLarge or a *DamageError.
func Open(data []byte) (*File, error) {
	head := bytes.Index(data[:min(len(data), 1024)], []byte("%PDF-"))
	if head < 0 {
		return nil, ErrNotPDF
	}
	f := &File{data: data[head:], places: map[int]position{}, done: map[int]Object{}, packs: map[int][]Object{}, pointed: map[Name]bool{}, made: mostMade, shifted: head > 0}
	if err := f.tables(); err != nil {
		return nil, err
	}
	if _, ok := f.Trailer["Root"].(Ref); !ok {
		return nil, damaged("it has no root")
	}
	if f.Trailer["Encrypt"] != nil {
		if err := f.unlock(); err != nil {
			return nil, err
		}
		clear(f.done) // what was read on the way was not opened
		clear(f.packs)
	}
	return f, nil
}

func (f *File) lexer(data []byte, at int) *lexer {
	return &lexer{data: data, at: at, left: &f.made, odd: &f.odd, pointed: f.pointed}
}

// A numbered object of the file with where it ends.
type numbered struct {
	Ref
	object Object
	end    int
}

// objectAt reads the numbered object at a byte of the file.
func (f *File) objectAt(at int) (numbered, error) {
	if at <= 0 || at >= len(f.data) {
		return numbered{}, damaged("an object is not where the list of objects says")
	}
	l := f.lexer(f.data, at)
	n, ok1 := l.whole()
	g, ok2 := l.whole()
	l.skipSpace()
	if !ok1 || !ok2 || !l.take("obj") {
		return numbered{}, damaged("an object is not where the list of objects says")
	}
	if g != 0 {
		l.finds("object %d of a generation", n)
	}
	object, err := f.body(l, n)
	if err != nil {
		return numbered{}, err
	}
	l.skipSpace()
	if before := l.at - 1; !l.take("endobj") {
		return numbered{}, damaged("object %d does not end where it should", n)
	} else if !isEndOfLine(l.data[before]) || l.at < len(l.data) && !isEndOfLine(l.data[l.at]) && l.data[l.at] != ' ' {
		l.finds("object %d with an end that has no line of its own", n)
	}
	if l.remarks > 0 {
		l.finds("a remark, or white space of another kind, in object %d", n)
	}
	return numbered{Ref{n, g}, object, l.at}, nil
}

// body reads what stands between obj and endobj.
func (f *File) body(l *lexer, n int) (Object, error) {
	l.skipSpace()
	if bytes.HasPrefix(l.data[min(l.at, len(l.data)):], []byte("endobj")) {
		return nil, nil
	}
	start := l.at
	o, err := l.objectOrRef(0)
	if err != nil {
		return nil, err
	}
	d, ok := o.(Dict)
	if _, isWord := o.(operator); isWord || pointed(o, l.data[start:l.at]) {
		return nil, damaged("object %d is not readable", n)
	}
	l.skipSpace()
	if !ok || !l.take("stream") {
		return o, nil
	}
	if !l.take("\r\n") && !l.take("\n") {
		return nil, damaged("the data of object %d do not begin where they should", n)
	}
	length, err := f.Resolve(d["Length"])
	if err != nil {
		return nil, err
	}
	size, ok := whole(length)
	if !ok || size < 0 || size > len(f.data)-l.at {
		return nil, damaged("the data of object %d go beyond the end of the file", n)
	}
	raw := f.data[l.at : l.at+size : l.at+size]
	l.at += size
	for l.take("\r") || l.take("\n") || l.take(" ") {
	}
	if !l.take("endstream") {
		return nil, damaged("the data of object %d do not end where they should", n)
	}
	if l.at < len(l.data) && !isEndOfLine(l.data[l.at]) {
		l.finds("data of object %d with an end that has no line of its own", n)
	}
	return &Stream{Dict: d, Raw: raw}, nil
}

// Resolve gives the object that a reference refers to, other objects as they
// are. What is not in the file is null.
func (f *File) Resolve(o Object) (Object, error) {
	ref, ok := o.(Ref)
	if !ok {
		return o, nil
	}
	p, ok := f.places[ref.Number]
	if !ok || p == (position{}) {
		return nil, nil
	}
	if p.generation != ref.Generation {
		return nil, damaged("object %d is referred to by another generation than it has", ref.Number)
	}
	if o, ok := f.done[ref.Number]; ok {
		return o, nil
	}
	if f.resolves++; f.resolves > deepest {
		f.resolves--
		return nil, damaged("objects refer to one another without end")
	}
	defer func() { f.resolves-- }()
	found, err := f.at(ref, p)
	if err != nil {
		return nil, err
	}
	if _, again := found.(Ref); again { // some readers follow it, some do not
		return nil, damaged("object %d is a reference to another", ref.Number)
	}
	f.done[ref.Number] = found
	return found, nil
}

func (f *File) at(ref Ref, p position) (Object, error) {
	if p.at == 0 {
		return f.packed(ref.Number, p)
	}
	o, err := f.objectAt(p.at)
	if err == nil && o.Ref != ref {
		err = damaged("object %d is not where the list of objects says", ref.Number)
	}
	if err != nil {
		return nil, err
	}
	return f.opened(o)
}

// packed gives an object out of an object stream.
func (f *File) packed(n int, p position) (Object, error) {
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
		numbers, list, err := f.unpackObjects(s)
		if err != nil {
			return nil, err
		}
		for rank, n := range numbers {
			if there, ok := f.places[n]; ok && there.in == p.in && there.at == 0 && there.rank != rank {
				return nil, damaged("object %d is not where the list of objects says", n)
			}
		}
		objects, f.packs[p.in] = list, list
	}
	if p.rank < 0 || p.rank >= len(objects) {
		return nil, damaged("packed object %d is missing", n)
	}
	return objects[p.rank], nil
}

// unpackObjects takes an object stream apart: the objects' numbers, and the
// objects.
func (f *File) unpackObjects(s *Stream) (numbers []int, objects []Object, err error) {
	unreadable := damaged("packed objects are not readable")
	if s.Dict["Type"] != Name("ObjStm") {
		return nil, nil, unreadable
	}
	data, err := f.unpackList(s)
	if err != nil {
		return nil, nil, err
	}
	count, ok1 := whole(s.Dict["N"])
	first, ok2 := whole(s.Dict["First"])
	if !ok1 || !ok2 || count < 0 || count > len(data) || first < 0 || first > len(data) {
		return nil, nil, unreadable
	}
	list := f.lexer(data[:first], 0)
	starts := make([]int, 0, min(count, mostObjects))
	for range count {
		n, ok1 := list.whole()
		at, ok2 := list.whole()
		if !ok1 || !ok2 || at > len(data)-first || len(starts) > 0 && first+at <= starts[len(starts)-1] {
			return nil, nil, unreadable
		}
		numbers, starts = append(numbers, n), append(starts, first+at)
	}
	f.oddPack(s, list)
	for i, start := range starts {
		end := len(data)
		if i+1 < len(starts) {
			end = starts[i+1]
		}
		o, err := f.alone(data, start, end)
		if err != nil {
			return nil, nil, err
		}
		objects = append(objects, o)
	}
	return numbers, objects, nil
}

// alone reads the one object that stands from a byte to another: some readers
// cut there, some read on.
func (f *File) alone(data []byte, start, end int) (Object, error) {
	l := f.lexer(data[:end], start)
	o, err := l.objectOrRef(0)
	if err != nil {
		return nil, err
	}
	if l.remarks > 0 {
		l.finds("a remark, or white space of another kind, among packed objects")
	}
	_, isWord := o.(operator)
	if isWord || pointed(o, data[start:l.at]) || !l.end() || end < len(data) && isWordly(data[end-1]) && isWordly(data[end]) {
		return nil, damaged("packed objects are not readable")
	}
	return o, nil
}

func isEndOfLine(c byte) bool { return c == '\n' || c == '\r' }

func isWordly(c byte) bool { return !isSpace(c) && !isDelimiter(c) }

// pointed tells whether an object is a number with a point. Where one stands by
// itself it is a length or a count, of which some readers take whole numbers
// only.
func pointed(o Object, text []byte) bool {
	_, isNumber := o.(float64)
	return isNumber && bytes.IndexByte(text, '.') >= 0
}

// whole gives a number that is whole and fits.
func whole(o Object) (int, bool) {
	v, ok := o.(float64)
	if !ok || v != math.Trunc(v) || math.Abs(v) > 1<<40 {
		return 0, false
	}
	return int(v), true
}

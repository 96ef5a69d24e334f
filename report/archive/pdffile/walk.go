package pdffile

// Unambiguous says whether every reader sees the same objects in a file: one
// that follows its list of objects, one that puts the list together anew from
// the objects, of which the last of a number counts, and one that repairs
// nothing. The error is a *DamageError or ErrTooLarge.
//
// For that the file is read from its first byte to its last: there is nothing
// but objects and lists of objects, each object in the list is in the file
// where the list says, and none is in the file that the list does not have.
func (f *File) Unambiguous() error {
	switch {
	case f.shifted:
		return damaged("something stands before its start")
	case f.hybrid:
		return damaged("it has two lists of objects for two kinds of readers")
	}
	w := &walk{f: f, last: map[int]place{}}
	if err := w.all(); err != nil {
		return err
	}
	for n, p := range f.places {
		if p != (place{}) && w.last[n] != p {
			return damaged("object %d is in it twice, or not where the list of objects says", n)
		}
	}
	for n := range w.last {
		if p, listed := f.places[n]; !listed && !w.lists[n] || listed && p == (place{}) {
			return damaged("object %d is in it, but not in its list of objects", n)
		}
	}
	return f.oneRoot()
}

// oneRoot reports a file whose lists of objects name several roots.
func (f *File) oneRoot() error {
	root, _ := f.Trailer["Root"].(Ref)
	for _, t := range f.trailers {
		if other, given := t["Root"]; given && other != root {
			return damaged("its lists of objects name two roots")
		}
		if (t["Encrypt"] == nil) != (f.Trailer["Encrypt"] == nil) && t["Root"] != nil {
			return damaged("it is encrypted for some readers only")
		}
	}
	return nil
}

// A walk reads a file in the order of its bytes.
type walk struct {
	f      *File
	last   map[int]place // of each number, the last object in the file
	lists  map[int]bool  // objects that are lists of objects
	starts int           // what the last startxref names
	ended  bool          // the last thing was the end of a file
}

func (w *walk) all() error {
	w.lists = map[int]bool{}
	l := w.f.lexer(w.f.data, 0)
	for !l.end() {
		if l.data[l.at] > '9' || l.data[l.at] < '0' {
			if err := w.list(l); err != nil {
				return err
			}
			continue
		}
		o, err := w.f.objectAt(l.at)
		if err != nil {
			return err
		}
		if err := w.note(o, l.at); err != nil {
			return err
		}
		l.at, w.ended = o.end, false
	}
	if !w.ended || w.starts != w.f.start {
		return damaged("its end is not where it should be")
	}
	return nil
}

// list reads over a list of objects, its trailer, or where a list is.
func (w *walk) list(l *lexer) error {
	switch at := l.at; {
	case l.take("xref"):
		w.ended = false
		_, err := w.f.tableRows(l, func(int, place) error { return nil })
		return err
	case l.take("startxref"):
		var ok bool
		if w.starts, ok = l.whole(); !ok {
			return damaged("its end is not readable")
		}
		w.ended = true
		return nil
	default:
		return damaged("something stands between its objects at byte %d", at)
	}
}

// note notes an object, and the objects that are packed in it.
func (w *walk) note(o numbered, at int) error {
	w.last[o.Number] = place{at: at, generation: o.Generation}
	s, ok := o.object.(*Stream)
	if !ok {
		return nil
	}
	switch s.Dict["Type"] {
	case Name("XRef"):
		w.lists[o.Number] = true
	case Name("ObjStm"):
		if w.f.places[o.Number].at != at {
			return nil // nobody reads it
		}
		open, err := w.f.opened(o)
		if err != nil {
			return err
		}
		numbers, _, err := w.f.unpackObjects(open.(*Stream))
		if err != nil {
			return err
		}
		for rank, n := range numbers {
			w.last[n] = place{in: o.Number, rank: rank}
		}
	}
	return nil
}

package pdffile

import "bytes"

// A position is where an object stands: at a byte of the file, or in another object.
type position struct {
	at, generation int // at is 0 where it is in another object
	in, rank       int
}

// tables reads the lists of objects, the newest first.
func (f *File) tables() error {
	elsewhere := damaged("its list of objects is not where it should be")
	mark := []byte("startxref")
	i := bytes.LastIndex(f.data, mark)
	if i < 0 {
		return damaged("its end is missing")
	}
	f.tail = len(f.data) - i
	at, ok := f.lexer(f.data, i+len(mark)).whole()
	seen := map[int]bool{}
	for f.start = at; ; {
		if !ok || at <= 0 || at >= len(f.data) || seen[at] || len(seen) >= mostTables {
			return elsewhere
		}
		seen[at] = true
		trailer, err := f.table(at)
		if err != nil {
			return err
		}
		f.trailers = append(f.trailers, trailer)
		f.hybrid = f.hybrid || trailer["XRefStm"] != nil
		if hybrid, ok := whole(trailer["XRefStm"]); ok && hybrid > 0 && hybrid < len(f.data) {
			if _, err := f.tableStream(hybrid); err != nil {
				return err
			}
		}
		if trailer["Prev"] == nil {
			break
		}
		at, ok = whole(trailer["Prev"])
	}
	f.Trailer = f.trailers[0]
	return nil
}

// table reads one list of objects with its trailer.
func (f *File) table(at int) (Dict, error) {
	l := f.lexer(f.data, at)
	l.skipSpace()
	f.lists = append(f.lists, l.at)
	f.listed = map[int]bool{}
	if !l.take("xref") {
		return f.tableStream(at)
	}
	return f.tableRows(l, f.put)
}

// tableRows reads a list of objects after its first word, with its trailer.
func (f *File) tableRows(l *lexer, put func(n int, p position) error) (Dict, error) {
	unreadable := damaged("its list of objects is not readable")
	rows := 0
	for l.skipSpace(); !l.take("trailer"); l.skipSpace() {
		first, ok1 := l.whole()
		count, ok2 := l.whole()
		if !ok1 || !ok2 || first+count > mostObjects || count > len(l.data) {
			return nil, unreadable
		}
		rows += count
		for n := first; n < first+count; n++ {
			at, ok1 := l.whole()
			generation, ok2 := l.whole()
			l.skipSpace()
			kind, err := l.word()
			if err != nil || !ok1 || !ok2 || kind != operator("n") && kind != operator("f") {
				return nil, unreadable
			}
			p := position{at: at, generation: generation}
			if kind == operator("f") {
				p = position{}
			} else if at == 0 {
				return nil, unreadable
			}
			if err := put(n, p); err != nil {
				return nil, err
			}
		}
	}
	if rows == 0 {
		l.finds("a list of objects without any")
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
func (f *File) put(n int, p position) error {
	if f.made--; f.made < 0 {
		return ErrTooLarge
	}
	f.repeated = f.repeated || f.listed[n]
	f.listed[n] = true
	if _, known := f.places[n]; !known {
		f.places[n] = p
	}
	return nil
}

// tableStream reads a list of objects that is a stream.
func (f *File) tableStream(at int) (Dict, error) {
	o, err := f.objectAt(at)
	if err != nil {
		return nil, err
	}
	s, ok := o.object.(*Stream)
	if !ok || s.Dict["Type"] != Name("XRef") {
		return nil, damaged("its list of objects is not where it should be")
	}
	data, err := f.unpackList(s)
	if err != nil {
		return nil, err
	}
	return s.Dict, f.rows(s.Dict, data)
}

// rows takes in the rows of a list of objects: which objects it has, and in
// columns of how many bytes it says where each stands.
func (f *File) rows(dict Dict, data []byte) error {
	unreadable := damaged("its list of objects is not readable")
	var width [3]int
	widths, _ := dict["W"].([]Object)
	if len(widths) != 3 {
		return unreadable
	}
	for i := range width {
		var ok bool
		if width[i], ok = whole(widths[i]); !ok || width[i] < 0 || width[i] > 8 {
			return unreadable
		}
	}
	size := width[0] + width[1] + width[2]
	index, _ := dict["Index"].([]Object)
	if index == nil {
		index = []Object{0.0, dict["Size"]}
	}
	if size == 0 || len(index)%2 != 0 {
		return unreadable
	}
	for i := 0; i < len(index); i += 2 {
		first, ok1 := whole(index[i])
		count, ok2 := whole(index[i+1])
		if !ok1 || !ok2 || first < 0 || count < 0 || first+count > mostObjects || count*size > len(data) {
			return unreadable
		}
		for n := first; n < first+count; n++ {
			p, ok := entry(data[:size], width)
			if !ok {
				return unreadable
			}
			if err := f.put(n, p); err != nil {
				return err
			}
			data = data[size:]
		}
	}
	if len(data) > 0 && f.odd == "" {
		f.odd = "a list of objects with more than its rows"
	}
	return nil
}

// entry reads a row of a list of objects that is a stream: a kind that nobody
// knows is refused.
func entry(data []byte, width [3]int) (position, bool) {
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
	switch {
	case field[0] == 0:
		return position{}, true
	case field[0] == 1 && field[1] > 0:
		return position{at: field[1], generation: field[2]}, true
	case field[0] == 2 && field[1] > 0:
		return position{in: field[1], rank: field[2]}, true
	}
	return position{}, false
}

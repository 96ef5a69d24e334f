package pdffile

import (
	"bytes"
	"reflect"
	"regexp"
	"slices"
	"strconv"
)

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
	case f.repeated:
		return damaged("a list of objects has one of them twice")
	case f.tail > 1024: // readers look no further
		return damaged("what says where its list of objects is stands too far from its end")
	case f.hybrid:
		return damaged("it has two lists of objects for two kinds of readers")
	}
	w := &walk{f: f, last: map[int]position{}, lists: map[int]bool{}}
	if err := w.all(); err != nil {
		return err
	}
	for n, p := range f.places {
		if p != (position{}) && w.last[n] != p {
			return damaged("object %d is in it twice, or not where the list of objects says", n)
		}
	}
	for n := range w.last {
		if p, listed := f.places[n]; !listed && !w.lists[n] || listed && p == (position{}) {
			return damaged("object %d is in it, but not in its list of objects", n)
		}
	}
	if f.places[0] != (position{}) {
		return damaged("it has an object 0")
	}
	for _, one := range []func() error{w.onePage, f.oneRoot, f.oneListing} {
		if err := one(); err != nil {
			return err
		}
	}
	return nil
}

// onePage reports pages beside those of the list of pages, in a file that says
// at its start which object its first page is: readers in a hurry go by that,
// and read the list of objects that stands first, whatever the end says.
func (w *walk) onePage() error {
	if w.first == nil {
		return nil
	}
	newest := w.f.lists[0]
	if n, ok := whole(w.length); !ok || n > len(w.f.data) || newest != w.newest && newest < n { // no update made it longer
		return damaged("the list of objects that stands first is not the one that its end names")
	}
	pages, err := w.f.Pages()
	if err != nil {
		return err
	}
	listed := map[int]bool{}
	for _, p := range pages {
		listed[p.Ref.Number] = true
	}
	for _, n := range w.pages {
		if !listed[n] {
			return damaged("object %d is a page that is not in its list of pages", n)
		}
	}
	if n, ok := whole(w.first); !ok || len(pages) == 0 || n != pages[0].Ref.Number || w.before != nil && w.before != 0.0 {
		return damaged("it says at its start that its first page is another one")
	}
	if n, ok := whole(w.count); !ok || n != len(pages) {
		return damaged("it says at its start that it has another number of pages")
	}
	rest, ok := whole(w.rest)
	if !ok || !slices.ContainsFunc(w.f.lists, func(at int) bool { return rest >= at-2 && rest < at+40 }) { // it names the first row, or what stands before the list
		return damaged("it says at its start that its list of objects is elsewhere")
	}
	return nil
}

// oneRoot reports a file whose lists of objects name several roots.
func (f *File) oneRoot() error {
	root, _ := f.Trailer["Root"].(Ref)
	for _, t := range f.trailers {
		if other, given := t["Root"]; given && other != root {
			return damaged("its lists of objects name two roots")
		}
		if t["Root"] != nil && (!reflect.DeepEqual(t["Encrypt"], f.Trailer["Encrypt"]) || t["Encrypt"] != nil && !reflect.DeepEqual(t["ID"], f.Trailer["ID"])) {
			return damaged("it is encrypted for some readers only")
		}
	}
	return nil
}

// A walk reads a file in the order of its bytes.
type walk struct {
	f      *File
	last   map[int]position // of each number, the last object in the file
	lists  map[int]bool     // objects that are lists of objects
	pages  []int            // objects that are pages, or could pass for one
	first  Object           // the first page, as the file says at its start; nil where it does not
	length Object           // how long the file is, as it says there
	count  Object           // how many pages it has, as it says there
	before Object           // how many of them stand before the first, likewise
	rest   Object           // where the list of objects of the others is, likewise
	newest int              // where the first list of objects stands, which is the newest for who goes by its start
	starts int              // what the last startxref names
	ended  bool             // the last thing was the end of a file
}

func (w *walk) all() error {
	l := w.f.lexer(w.f.data, 0)
	for {
		before := l.at
		ended := l.end()
		if likeObjects(l.data[before:l.at]) {
			return damaged("a remark between its objects could pass for objects")
		}
		w.f.oddRemarks(l.data[before:l.at])
		if ended {
			break
		}
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
		if err := w.led(at); err != nil {
			return err
		}
		if !evenRows(l.data[l.at:]) {
			return damaged("its list of objects is not written as it should be")
		}
		_, err := w.f.tableRows(l, func(int, position) error { return nil })
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

// led notes a list of objects, to which the end of the file has to lead: of one
// beside these, readers that go by the file's start make another document.
func (w *walk) led(at int) error {
	if w.newest == 0 {
		w.newest = at
	}
	if !slices.Contains(w.f.lists, at) {
		return damaged("it has a list of objects to which its end does not lead, at byte %d", at)
	}
	return nil
}

// note notes an object, and the objects that are packed in it.
func (w *walk) note(o numbered, at int) error {
	w.last[o.Number] = position{at: at, generation: o.Generation}
	within := w.f.data[at:o.end]
	if likeObjects(within[bytes.Index(within, []byte("obj"))+3:]) {
		return damaged("the data of object %d could pass for objects", o.Number)
	}
	w.see(o.Number, o.object)
	w.seeStart(o.object, at)
	s, ok := o.object.(*Stream)
	ends := 0
	if ok {
		ends = 1
	}
	if bytes.Count(within, []byte("endstream")) != ends { // a reader that mends the file ends the data at the first
		return damaged("the data of object %d could pass for ended before they are", o.Number)
	}
	if !ok {
		return nil
	}
	switch s.Dict["Type"] {
	case Name("XRef"):
		w.lists[o.Number] = true
		return w.led(at)
	case Name("ObjStm"):
		if w.f.places[o.Number].at != at {
			return nil // nobody reads it
		}
		open, err := w.f.opened(o)
		if err != nil {
			return err
		}
		numbers, objects, err := w.f.unpackObjects(open.(*Stream))
		if err != nil {
			return err
		}
		for rank, n := range numbers {
			w.last[n] = position{in: o.Number, rank: rank}
			w.see(n, objects[rank])
		}
	}
	return nil
}

// seeStart notes the object by which a file says where its first page is
// (ISO 32000-2, F.3.3). Readers look for it at the start only: further on it is
// what is left of one, in a file that was saved again.
func (w *walk) seeStart(o Object, at int) {
	const start = 1024 // bytes
	d, ok := o.(Dict)
	if !ok || d["Linearized"] == nil || at > start {
		return
	}
	w.first, w.length, w.count, w.before, w.rest = d["O"], d["L"], d["N"], d["P"], d["T"]
	if w.first == nil || len(w.last) > 1 {
		w.first = false // it is not the first object, or says nothing
	}
}

// see notes an object that could pass for a page.
func (w *walk) see(n int, o Object) {
	d, ok := o.(Dict)
	if !ok {
		return
	}
	if d["Type"] == Name("Page") || d["Type"] == nil && d["Kids"] == nil && d["Contents"] != nil && d["MediaBox"] != nil {
		w.pages = append(w.pages, n)
	}
}

// evenRows tells whether the rows of a list of objects have twenty bytes each:
// some readers count on it, others read words.
func evenRows(data []byte) bool {
	const row = 20
	for {
		data = bytes.TrimLeft(data, " \r\n")
		if bytes.HasPrefix(data, []byte("trailer")) {
			return true
		}
		head := headOfRows.FindSubmatch(data[:min(len(data), 50)])
		if head == nil {
			return false
		}
		count, err := strconv.Atoi(string(head[1]))
		data = data[len(head[0]):]
		if err != nil || count > len(data)/row {
			return false
		}
		for range count {
			if !isRow(data[:row]) {
				return false
			}
			data = data[row:]
		}
	}
}

var headOfRows = regexp.MustCompile(`^[0-9]{1,10} ([0-9]{1,10}) ?(?:\r\n|\r|\n)`)

// isRow tells whether twenty bytes are a row: ten figures, five, a letter, and
// an end of two.
func isRow(row []byte) bool {
	for i, c := range row[:18] {
		switch {
		case i == 10 || i == 16:
			if c != ' ' {
				return false
			}
		case i == 17:
			if c != 'n' && c != 'f' {
				return false
			}
		case c < '0' || c > '9':
			return false
		}
	}
	end := string(row[18:])
	return end == " \n" || end == " \r" || end == "\r\n"
}

// likeObjects tells whether data have what a reader that looks for objects
// would take for the start of one, or for a list of them.
func likeObjects(data []byte) bool {
	if hasListWord(data) {
		return true
	}
	for range mostWords {
		i := bytes.Index(data, []byte("obj"))
		if i < 0 {
			return false
		}
		if afterNumbers(data[:i]) {
			return true
		}
		data = data[i+3:]
	}
	return true
}

// mostWords is how many such words are looked at: nothing honest has as many.
const mostWords = 100_000

// afterNumbers tells whether data end with two numbers, as before an object.
func afterNumbers(data []byte) bool {
	back := func(data []byte, is func(byte) bool) []byte {
		for len(data) > 0 && is(data[len(data)-1]) {
			data = data[:len(data)-1]
		}
		return data
	}
	space := func(c byte) bool { return isSpace(c) || c == '\v' }
	figure := func(c byte) bool { return c >= '0' && c <= '9' }
	generation := back(data, space)
	number := back(generation, figure)
	before := back(number, space)
	return len(number) < len(generation) && len(before) < len(number) && len(before) > 0 && figure(before[len(before)-1])
}

// hasListWord tells whether a line begins with what a list of objects, or its end,
// begins with.
func hasListWord(data []byte) bool {
	for _, word := range []string{"xref", "trailer"} {
		rest := data
		for n := 0; ; n++ {
			i := bytes.Index(rest, []byte(word))
			if i < 0 {
				break
			}
			if n >= mostWords {
				return true
			}
			before := bytes.TrimSuffix(rest[:i], []byte("start"))
			rest = rest[i+len(word):]
			line := bytes.TrimRight(before, " \t\f\v\x00")
			after := bytes.TrimLeft(rest[:min(len(rest), 200)], " \t\f\v\x00")
			if bytes.HasSuffix(line, []byte("\n")) || bytes.HasSuffix(line, []byte("\r")) {
				if bytes.HasPrefix(after, []byte("<<")) || bytes.HasPrefix(after, []byte("\n")) || bytes.HasPrefix(after, []byte("\r")) {
					return true
				}
			}
		}
	}
	return false
}

package pdffile

import (
	"bufio"
	"bytes"
	"compress/zlib"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
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
		data, err := d.file.fingerprint(o)
		if err != nil {
			return sum, err
		}
		coding, err := d.file.Coding(o)
		if err != nil {
			return sum, err
		}
		write("stream", dict, coding, data)
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

// mostHashed is how many unpacked bytes of a file are looked at without being
// kept: those of its pictures.
const mostHashed = 256 << 20

// fingerprint is that of a stream's unpacked data. A picture that is packed as
// pictures are is unpacked row by row, for it may be large.
func (f *File) fingerprint(s *Stream) (digest, error) {
	params, isDict := s.Dict["DecodeParms"].(Dict)
	if s.Dict["Filter"] != Name("FlateDecode") || s.Dict["F"] != nil || s.Dict["DP"] != nil || s.Dict["DecodeParms"] != nil && !isDict {
		data, err := f.Unpack(s)
		return sha256.Sum256(toItsEnd(data)), err
	}
	raw := bytes.NewReader(s.Raw)
	z, err := zlib.NewReader(raw)
	if err != nil {
		return digest{}, damaged("packed data are not readable")
	}
	rows, err := f.rowsOf(params, false)
	if err != nil {
		return digest{}, err
	}
	h := sha256.New()
	in := bufio.NewReaderSize(&limited{z, &f.hashed}, 1<<16)
	if rows == nil {
		_, err = io.Copy(h, in)
	} else {
		err = rows.copy(h, in)
	}
	var damage *DamageError
	if err != nil && !errors.Is(err, ErrTooLarge) && !errors.As(err, &damage) {
		err = damaged("packed data are not readable")
	}
	f.behind(raw)
	return digest(h.Sum(nil)), err
}

// toItsEnd is a JPEG picture without what stands behind its end, where programs put
// an end of line or say once more that it has ended; other data as they are.
func toItsEnd(data []byte) []byte {
	const end = "\xff\xd9"
	whole := bytes.TrimRight(data, "\r\n \x00")
	for bytes.HasSuffix(whole, []byte(end+end)) {
		whole = whole[:len(whole)-len(end)]
	}
	if bytes.HasPrefix(data, []byte("\xff\xd8\xff")) && bytes.HasSuffix(whole, []byte(end)) {
		return whole
	}
	return data
}

// limited reads as long as the file's budget lasts.
type limited struct {
	r    io.Reader
	used *int
}

func (l *limited) Read(p []byte) (int, error) {
	n, err := l.r.Read(p)
	if *l.used += n; *l.used > mostHashed {
		return n, ErrTooLarge
	}
	return n, err
}

// copy undoes the differences of rows.
func (r *rows) copy(to io.Writer, from io.Reader) error {
	above, row := make([]byte, r.width), make([]byte, r.width+1)
	for {
		if _, err := io.ReadFull(from, row); errors.Is(err, io.EOF) {
			return nil
		} else if errors.Is(err, io.ErrUnexpectedEOF) {
			return damaged("packed data end in the middle of a row")
		} else if err != nil {
			return err
		}
		if !unfilter(row[0], row[1:], above, r.pixel) {
			return damaged("packed data are not readable")
		}
		if _, err := to.Write(row[1:]); err != nil {
			return err
		}
		copy(above, row[1:])
	}
}

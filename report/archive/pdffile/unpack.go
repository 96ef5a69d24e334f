package pdffile

import (
	"bytes"
	"compress/zlib"
	"encoding/ascii85"
	"fmt"
	"io"
	"slices"
)

// Unpack gives a stream's data as they were before they were packed. Only
// what page contents, attached files and lists of objects use is known; a
// picture stays in its own format.
func (f *File) Unpack(s *Stream) ([]byte, error) { return f.unpack(s, mostUnpack, false) }

// unpackList unpacks a list of objects.
func (f *File) unpackList(s *Stream) ([]byte, error) { return f.unpack(s, mostList, false) }

// unpackPlain unpacks what readers make different things of where it is packed
// by differences, as pictures and lists of objects may be.
func (f *File) unpackPlain(s *Stream) ([]byte, error) { return f.unpack(s, mostList, true) }

// UnpackPlain is Unpack for data that are no picture: they are not packed as
// one, nor by differences.
func (f *File) UnpackPlain(s *Stream) ([]byte, error) { return f.unpack(s, mostUnpack, true) }

// otherwise are entries by which data stand in another file, or that some
// readers take for the entries of pictures in a content, where names are short.
var otherwise = []Name{"F", "FFilter", "FDecodeParms", "DP"}

// packing is by which filters data are packed, with the parameters of each.
func (f *File) packing(s *Stream) (filters, params []Object, err error) {
	if filters, err = f.list(s.Dict["Filter"]); err != nil {
		return nil, nil, err
	}
	if params, err = f.list(s.Dict["DecodeParms"]); err != nil {
		return nil, nil, err
	}
	for _, key := range otherwise {
		if s.Dict[key] != nil {
			return nil, nil, damaged("data stand in another file, or are packed as /%s says, which readers take differently", key)
		}
	}
	if _, given := s.Dict["Filter"]; given && filters == nil { // nobody writes so, and not all read it
		return nil, nil, damaged("data are packed in a way that is not said")
	}
	if listed, err := f.isList(s.Dict["Filter"]); err != nil || listed {
		if alike, err := f.isList(s.Dict["DecodeParms"]); err != nil || !alike && len(params) > 0 { // a list of filters has a list of how
			return nil, nil, damaged("data are packed in a way that readers take differently")
		}
	}
	if len(filters) > 4 || len(params) > len(filters) {
		return nil, nil, damaged("data are packed in a way that is not known")
	}
	return filters, params, nil
}

func (f *File) unpack(s *Stream, most int, plain bool) ([]byte, error) {
	filters, params, err := f.packing(s)
	if err != nil {
		return nil, err
	}
	data := s.Raw
	for i, filter := range filters {
		var how Object
		if i < len(params) {
			how = params[i]
		}
		switch filter {
		case Name("FlateDecode"):
			if data, err = f.inflate(data, most); err == nil && how != nil {
				data, err = f.unpredict(data, how, plain)
			}
		case Name("ASCIIHexDecode"):
			data, err = hexadecimal(data)
		case Name("ASCII85Decode"):
			data, err = base85(data)
		case Name("DCTDecode"), Name("JPXDecode"):
			if plain {
				return nil, damaged("data that are no picture are packed as a picture")
			}
			if i < len(filters)-1 {
				return nil, damaged("data are packed in a way that is not known: after %v", filter)
			}
			return data, nil
		default:
			return nil, damaged("data are packed in a way that is not known: %v", filter)
		}
		if err != nil {
			return nil, err
		}
	}
	return data, nil
}

// plainText reports data in letters with nothing between them that some readers pass
// over and others take: of all white space the common five.
func plainText(data []byte) bool {
	for _, c := range data {
		if c < ' ' && c != '\t' && c != '\n' && c != '\f' && c != '\r' || c > '~' {
			return false
		}
	}
	return true
}

func hexadecimal(data []byte) ([]byte, error) {
	if !plainText(data) {
		return nil, damaged("packed data are not readable")
	}
	left := 1
	l := &lexer{data: data, left: &left}
	o, err := l.hexadecimal()
	if err != nil || !l.end() {
		return nil, damaged("packed data are not readable")
	}
	return []byte(o.(String)), nil
}

func base85(data []byte) ([]byte, error) {
	data, rest, ok := bytes.Cut(data, []byte("~>"))
	out := make([]byte, 4*len(data)+4) // a z stands for four
	n, _, err := ascii85.Decode(out, data, true)
	if err != nil || !ok || len(bytes.TrimSpace(rest)) > 0 || !plainText(data) {
		return nil, damaged("packed data are not readable")
	}
	return out[:n], nil
}

// isList reports an entry that is an array.
func (f *File) isList(o Object) (bool, error) {
	o, err := f.Resolve(o)
	_, is := o.([]Object)
	return is, err
}

// list gives an entry that may be one object or an array of them.
func (f *File) list(o Object) ([]Object, error) {
	o, err := f.Resolve(o)
	if err != nil || o == nil {
		return nil, err
	}
	list, ok := o.([]Object)
	if !ok {
		return []Object{o}, nil
	}
	out := make([]Object, len(list))
	for i := range list {
		if out[i], err = f.Resolve(list[i]); err != nil {
			return nil, err
		}
	}
	return out, nil
}

func (f *File) inflate(data []byte, most int) ([]byte, error) {
	in := bytes.NewReader(data)
	z, err := zlib.NewReader(in)
	if err != nil {
		return nil, damaged("packed data are not readable")
	}
	var out bytes.Buffer
	most = min(most, mostUnpack-f.unpacked)
	n, err := io.Copy(&out, io.LimitReader(z, int64(most)+1))
	if n > int64(most) {
		return nil, ErrTooLarge
	}
	f.unpacked += int(n)
	if err != nil {
		return nil, damaged("packed data are not readable")
	}
	f.behind(in)
	return out.Bytes(), nil
}

// rows are how data are packed by differences of their rows: how many bytes a
// row has, and a pixel.
type rows struct{ width, pixel int }

// rowsOf reads the parameters of a filter; nil where they pack nothing.
func (f *File) rowsOf(params Dict, plain bool) (*rows, error) {
	predictor := f.entryOr(params["Predictor"], 1)
	if predictor == 1 {
		return nil, nil
	}
	columns, colors, bits := f.entryOr(params["Columns"], 1), f.entryOr(params["Colors"], 1), f.entryOr(params["BitsPerComponent"], 8)
	if plain || predictor < 10 || predictor > 15 || columns < 1 || columns > 1<<16 || colors < 1 || colors > 32 || !slices.Contains([]int{1, 2, 4, 8, 16}, bits) ||
		colors*bits > 8 && colors*bits%8 != 0 { // pixels of a byte and a half, of which readers take one or two
		return nil, damaged("data are packed in a way that is not known: by differences")
	}
	return &rows{(columns*colors*bits + 7) / 8, (colors*bits + 7) / 8}, nil
}

// unpredict undoes the predictors of PNG, which lists of objects and pictures
// use. Rows that are cut short are damage: readers fill them up each in its way.
func (f *File) unpredict(data []byte, o Object, plain bool) ([]byte, error) {
	params, _ := o.(Dict)
	for key, v := range params {
		if v == nil { // given and nothing, which readers take differently
			return nil, damaged("data are packed with /%s that is not said", key)
		}
	}
	r, err := f.rowsOf(params, plain)
	if err != nil || r == nil {
		return data, err
	}
	var out bytes.Buffer
	if f.unpacked += len(data); f.unpacked > mostUnpack {
		return nil, ErrTooLarge
	}
	err = r.copy(&out, bytes.NewReader(data))
	return out.Bytes(), err
}

// entryOr is a whole number of a dictionary, or what stands for none; -1 for
// something else.
func (f *File) entryOr(o Object, usual int) int {
	o, err := f.Resolve(o)
	if err == nil && o == nil {
		return usual
	}
	if v, ok := whole(o); ok && err == nil {
		return v
	}
	return -1
}

// unfilter undoes one row's filter (PNG, part 9: filters 0 to 4), given the
// bytes of a pixel.
func unfilter(kind byte, row, above []byte, pixel int) bool {
	for i := range row {
		var left, corner byte
		if i >= pixel {
			left, corner = row[i-pixel], above[i-pixel]
		}
		switch kind {
		case 0:
		case 1:
			row[i] += left
		case 2:
			row[i] += above[i]
		case 3:
			row[i] += byte((int(left) + int(above[i])) / 2)
		case 4:
			row[i] += paeth(left, above[i], corner)
		default:
			return false
		}
	}
	return true
}

func paeth(left, above, corner byte) byte {
	p := int(left) + int(above) - int(corner)
	a, b, c := abs(p-int(left)), abs(p-int(above)), abs(p-int(corner))
	switch {
	case a <= b && a <= c:
		return left
	case b <= c:
		return above
	}
	return corner
}

func abs(v int) int { return max(v, -v) }

// Coding is the format that a picture stays in after it was unpacked, with its
// parameters; "" where it is none.
func (f *File) Coding(s *Stream) (string, error) {
	filters, err := f.list(s.Dict["Filter"])
	if err != nil || len(filters) == 0 {
		return "", err
	}
	last := filters[len(filters)-1]
	if last != Name("DCTDecode") && last != Name("JPXDecode") {
		return "", nil
	}
	params, err := f.list(s.Dict["DecodeParms"])
	if err != nil || len(params) < len(filters) {
		return fmt.Sprint(last), err
	}
	return fmt.Sprint(last, params[len(filters)-1]), nil
}

package pdffile

import (
	"bytes"
	"compress/zlib"
	"io"
)

// Unpack gives a stream's data as they were before they were packed. Only
// what page contents, attached files and lists of objects use is known; a
// picture stays in its own format.
func (f *File) Unpack(s *Stream) ([]byte, error) { return f.unpack(s, mostUnpack) }

// mostList is how many bytes are unpacked of what will be taken apart into
// objects, which take far more room: far more than a page or a list of ours.
const mostList = 8 << 20

// unpackList unpacks what will be taken apart.
func (f *File) unpackList(s *Stream) ([]byte, error) { return f.unpack(s, mostList) }

func (f *File) unpack(s *Stream, most int) ([]byte, error) {
	filters, err := f.list(s.Dict["Filter"])
	if err != nil {
		return nil, err
	}
	params, err := f.list(s.Dict["DecodeParms"])
	if err != nil {
		return nil, err
	}
	data := s.Raw
	for i, filter := range filters {
		switch filter {
		case Name("FlateDecode"):
			if data, err = f.inflate(data, most); err != nil {
				return nil, err
			}
			if i < len(params) {
				if data, err = f.unpredict(data, params[i]); err != nil {
					return nil, err
				}
			}
		case Name("DCTDecode"), Name("JPXDecode"):
			return data, nil
		default:
			return nil, damaged("data are packed in a way that is not known: %v", filter)
		}
	}
	return data, nil
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
	z, err := zlib.NewReader(bytes.NewReader(data))
	if err != nil {
		return nil, damaged("packed data are not readable")
	}
	var out bytes.Buffer
	most = min(most, mostUnpack-f.unpacked)
	n, err := io.Copy(&out, io.LimitReader(z, int64(most)+1))
	if n > int64(most) {
		return nil, damaged("more than %d MB are packed in it", most>>20)
	}
	f.unpacked += int(n)
	if err != nil {
		return nil, damaged("packed data are not readable")
	}
	return out.Bytes(), nil
}

// unpredict undoes the predictors of PNG, which lists of objects and pictures
// use.
func (f *File) unpredict(data []byte, o Object) ([]byte, error) {
	params, ok := o.(Dict)
	predictor, _ := whole(params["Predictor"])
	if !ok || predictor <= 1 {
		return data, nil
	}
	columns, colors, bits := entryOr(params["Columns"], 1), entryOr(params["Colors"], 1), entryOr(params["BitsPerComponent"], 8)
	if predictor < 10 || columns < 1 || columns > 1<<16 || colors < 1 || colors > 32 || bits < 1 || bits > 16 {
		return data, nil // packed as no page of ours is: compared as it is
	}
	pixel, width := max(colors*bits/8, 1), (columns*colors*bits+7)/8
	out := make([]byte, 0, len(data))
	above := make([]byte, width)
	for len(data) > width {
		row := bytes.Clone(data[1 : width+1])
		if !unfilter(data[0], row, above, pixel) {
			return nil, damaged("packed data are not readable")
		}
		out = append(out, row...)
		above, data = row, data[width+1:]
	}
	return out, nil
}

// entryOr is a whole number of a dictionary, or what stands for none.
func entryOr(o Object, usual int) int {
	if v, given := whole(o); given {
		return v
	}
	return usual
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

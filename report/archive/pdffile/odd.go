package pdffile

import (
	"bytes"
	"fmt"
	"maps"
	"regexp"
	"slices"
)

// Odd says what of a file is written as no program known here writes files, though
// all readers that were tried take it as it is taken here; "" where nothing is. Numbers
// with a point stand where another file, of this program, has them.
func (f *File) Odd(ours *File) string {
	if f.odd != "" {
		return f.odd
	}
	if !usualHead.Match(f.data[:min(len(f.data), 20)]) {
		return "what says that it is a PDF"
	}
	if !usualTail.Match(f.data[len(f.data)-f.tail:]) {
		return "what says where its end is"
	}
	size, _ := whole(f.Trailer["Size"])
	for n, p := range f.places {
		if n >= size && p != (position{}) { // which to who reads by the standard are not there (ISO 32000-2, table 15)
			return "objects beyond the number of them that it says it has"
		}
	}
	for _, key := range slices.Sorted(maps.Keys(f.pointed)) {
		if !ours.pointed[key] && !measures[key] {
			return fmt.Sprintf("a whole number with a point at /%s", key)
		}
	}
	return ""
}

var usualHead = regexp.MustCompile(`^%PDF-(?:1\.[0-7]|2\.0) ?(?:\r\n|\r|\n)`)

// usualTail is how a file ends: some readers look for just these lines.
var usualTail = regexp.MustCompile(`^startxref\s+[0-9]+ ?(?:\r\n|\r|\n)%%EOF\s*$`)

// measures are entries of which programs write whole numbers with a point.
var measures = map[Name]bool{
	"MediaBox": true, "CropBox": true, "BleedBox": true, "TrimBox": true, "ArtBox": true, "Rect": true, "BBox": true, "FontBBox": true, "Linearized": true, "UserUnit": true,
}

// Trailers are the dictionaries of the file's lists of objects, the newest first.
func (f *File) Trailers() []Dict { return f.trailers }

// Packed says how data are packed, where no program known here packs data so; ""
// where they do.
func (f *File) Packed(s *Stream) string {
	filters, isList := s.Dict["Filter"].([]Object)
	if !isList && s.Dict["Filter"] != nil {
		filters = []Object{s.Dict["Filter"]}
	}
	for _, filter := range filters {
		switch filter {
		case Name("FlateDecode"), Name("ASCIIHexDecode"), Name("DCTDecode"), Name("JPXDecode"):
		default:
			return fmt.Sprintf("by %v", filter)
		}
	}
	params, isList := s.Dict["DecodeParms"].([]Object)
	if !isList && s.Dict["DecodeParms"] != nil {
		params = []Object{s.Dict["DecodeParms"]}
	}
	for _, o := range params {
		how, isDict := o.(Dict)
		if !isDict && (o != nil || !isList) {
			return "as something says that is no dictionary"
		}
		for key, v := range how {
			if _, isNumber := v.(float64); !isNumber || !slices.Contains([]Name{"Predictor", "Columns", "Colors", "BitsPerComponent"}, key) {
				return fmt.Sprintf("with a /%s", key)
			}
		}
		if predictor := how["Predictor"]; predictor != nil && predictor != 1.0 && !f.byItsRows(s, how) {
			return "by differences of other rows than it has"
		}
	}
	for _, key := range []Name{"Filter", "DecodeParms"} {
		if o, given := s.Dict[key]; given && o == nil {
			return "as nothing says"
		}
	}
	return ""
}

// byItsRows tells whether data that are packed by differences are a picture, and packed by
// the rows and pixels that it has.
func (f *File) byItsRows(s *Stream, how Dict) bool {
	space, _ := s.Dict["ColorSpace"].(Name)
	colors := map[Name]int{"DeviceGray": 1, "DeviceRGB": 3, "DeviceCMYK": 4}[space]
	return s.Dict["Subtype"] == Name("Image") && f.entryOr(how["Colors"], 1) == colors && f.entryOr(how["BitsPerComponent"], 8) == f.entryOr(s.Dict["BitsPerComponent"], 1) &&
		f.entryOr(how["Columns"], 1) == f.entryOr(s.Dict["Width"], 0)
}

// oddRemarks looks at the remarks between objects: there are those that end a file or
// keep it from being taken for text, and those of one program.
func (f *File) oddRemarks(between []byte) {
	for _, line := range bytes.FieldsFunc(between, func(r rune) bool { return r == '\n' || r == '\r' }) {
		if line = bytes.TrimSpace(line); f.odd == "" && bytes.HasPrefix(line, []byte("%")) && !usualRemark.Match(line) {
			f.odd = "a remark between objects"
		}
	}
}

var usualRemark = regexp.MustCompile(`^(?:%%EOF$|%PDF-|%QDF[-:]|%[^ -~]{2}|%% (?:Original object ID:|Contents for page|Page)|%$)`)

// behind looks at what is left of data after what was packed: programs put an end of
// line there, or a zero.
func (f *File) behind(in *bytes.Reader) {
	if f.odd != "" || in.Len() == 0 {
		return
	}
	rest := make([]byte, min(in.Len(), 4))
	in.Read(rest)
	if in.Len() > 0 || len(bytes.Trim(rest, "\r\n\x00")) > 0 {
		f.odd = "data with more than is packed in them"
	}
}

// oddPack looks at how an object stream is written: what its dictionary has, and what is
// left of its head, at which the lexer is.
func (f *File) oddPack(s *Stream, head *lexer) {
	for _, key := range slices.Sorted(maps.Keys(s.Dict)) {
		if !slices.Contains([]Name{"Type", "N", "First", "Length", "Filter", "DecodeParms"}, key) {
			head.finds("packed objects with a /%s", key)
		}
	}
	if !head.end() {
		head.finds("packed objects with more before them than where they are")
	}
}

// finds notes that a file has something odd; the first counts.
func (l *lexer) finds(format string, args ...any) {
	if l.odd != nil && *l.odd == "" {
		*l.odd = fmt.Sprintf(format, args...)
	}
}

// oddNumber looks at how a number is written.
func (l *lexer) oddNumber(text []byte, v float64) {
	figures := bytes.TrimPrefix(text, []byte("-"))
	whole, _, point := bytes.Cut(figures, []byte("."))
	switch {
	case text[0] == '+', len(whole) > 10, len(whole) > 1 && whole[0] == '0' && point: // lengths are filled up with zeros
		l.finds("the number %s", text[:min(len(text), 20)])
	}
	if point && v == float64(int64(v)) {
		l.points = true
	}
}

// oddLetter looks at how a letter of a name is written.
func (l *lexer) oddLetter(c byte, escaped bool) {
	if plain := c > ' ' && c <= '~' && !isDelimiter(c) && c != '#'; plain == escaped {
		l.finds("a name with the letter %q", c)
	}
}

// oddFigures looks at how a string in figures is written.
func (l *lexer) oddFigures(text []byte) {
	figures := 0
	for _, c := range text {
		switch {
		case !isSpace(c):
			figures++
		case c != '\n' && c != '\r' && c != ' ':
			l.finds("a sign between the figures of a string")
		}
	}
	if figures%2 != 0 {
		l.finds("a string with half a figure")
	}
}

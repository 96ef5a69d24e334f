package shown

import (
	"math"

	"gaugesheet/report/archive/pdffile"
)

// A face is a font of a page, as sheets have them: composite, with embedded
// outlines, two bytes a letter.
type face struct {
	program *program
	toGlyph []byte // two bytes a code; nil where codes are numbers of glyphs
	widths  map[int]float64
	usual   float64
	text    pdffile.Font
	done    map[int]glyph
}

// A glyph is what a code shows.
type glyph struct {
	outline string // a fingerprint of its shape
	empty   bool
	box     Box     // in shares of the type size, as the type says
	reach   Box     // likewise, as its points lie
	shift   float64 // by which its outline is moved to the right, likewise
	width   float64
	text    string
}

var errType = unknown("a type that is not the sheet's")

// faceOf reads a font.
func (d *drawing) faceOf(o pdffile.Object) (*face, error) {
	ref, _ := o.(pdffile.Ref)
	if f, ok := d.types[ref]; ok && ref.Number > 0 {
		return f, nil
	}
	f := d.file
	dict, err := f.Dict(o)
	if err != nil {
		return nil, err
	}
	below, err := f.Array(dict["DescendantFonts"])
	if err != nil {
		return nil, err
	}
	if dict["Subtype"] != pdffile.Name("Type0") || dict["Encoding"] != pdffile.Name("Identity-H") || len(below) != 1 {
		return nil, errType
	}
	cid, err := f.Dict(below[0])
	if err != nil {
		return nil, err
	}
	system, err := f.Dict(cid["CIDSystemInfo"])
	if err != nil {
		return nil, err
	}
	if cid["Subtype"] != pdffile.Name("CIDFontType2") || system["Ordering"] != pdffile.String("Identity") { // of others readers have tables of their own
		return nil, errType
	}
	face := &face{widths: map[int]float64{}, usual: 1000, done: map[int]glyph{}}
	if o, err := f.Resolve(cid["DW"]); err != nil {
		return nil, err
	} else if dw, ok := o.(float64); ok {
		face.usual = dw
	}
	if err := face.readWidths(f, cid["W"]); err != nil {
		return nil, err
	}
	if face.text, err = f.Characters(dict["ToUnicode"]); err != nil {
		return nil, err
	}
	if err := face.readMap(f, cid["CIDToGIDMap"]); err != nil {
		return nil, err
	}
	if face.program, err = d.embedded(cid); err != nil {
		return nil, err
	}
	d.types[ref] = face
	return face, nil
}

// embedded is the program of outlines that a font has in the file.
func (d *drawing) embedded(cid pdffile.Dict) (*program, error) {
	descriptor, err := d.file.Dict(cid["FontDescriptor"])
	if err != nil {
		return nil, err
	}
	stream, err := d.file.Stream(descriptor["FontFile2"])
	if err != nil {
		return nil, err
	}
	if stream == nil || descriptor["FontFile"] != nil || descriptor["FontFile3"] != nil {
		return nil, errType
	}
	return d.programOf(stream)
}

func (d *drawing) programOf(s *pdffile.Stream) (*program, error) {
	if p, ok := d.programs[s]; ok {
		return p, nil
	}
	data, err := d.file.UnpackPlain(s)
	if err != nil {
		return nil, err
	}
	p, err := readProgram(data)
	if err != nil {
		return nil, err
	}
	d.programs[s] = p
	return p, nil
}

func (f *face) readMap(file *pdffile.File, o pdffile.Object) error {
	o, err := file.Resolve(o)
	if err != nil || o == nil || o == pdffile.Name("Identity") {
		return err
	}
	s, ok := o.(*pdffile.Stream)
	if !ok {
		return errType
	}
	f.toGlyph, err = file.UnpackPlain(s)
	if f.toGlyph == nil {
		f.toGlyph = []byte{}
	}
	return err
}

// readWidths reads how wide letters are (ISO 32000-2, 9.7.4.3).
func (f *face) readWidths(file *pdffile.File, o pdffile.Object) error {
	w, err := file.Array(o)
	if err != nil {
		return err
	}
	left := 1 << 17
	for len(w) >= 2 {
		first, ok := w[0].(float64)
		if !ok || first < 0 || first > 0xffff || first != math.Trunc(first) {
			return errType
		}
		o, err := file.Resolve(w[1])
		if err != nil {
			return err
		}
		if list, ok := o.([]pdffile.Object); ok {
			for i, v := range list {
				if !f.setWidth(int(first)+i, v, &left) {
					return errType
				}
			}
			w = w[2:]
			continue
		}
		last, ok1 := o.(float64)
		if len(w) < 3 || !ok1 || last > 0xffff {
			return errType
		}
		for c := int(first); c <= int(last); c++ {
			if !f.setWidth(c, w[2], &left) {
				return errType
			}
		}
		w = w[3:]
	}
	return nil
}

// setWidth sets how wide a letter is. Of two widths for one letter a reader
// takes the first or the last, and not all look up a reference here.
func (f *face) setWidth(code int, o pdffile.Object, left *int) bool {
	width, ok := o.(float64)
	before, given := f.widths[code]
	*left--
	f.widths[code] = width
	return ok && (!given || before == width) && *left >= 0
}

func (f *face) glyph(code int) (glyph, error) {
	if g, ok := f.done[code]; ok {
		return g, nil
	}
	number := code
	if f.toGlyph != nil {
		if 2*code+1 >= len(f.toGlyph) {
			return glyph{}, errType
		}
		number = int(f.toGlyph[2*code])<<8 | int(f.toGlyph[2*code+1])
	}
	g, err := f.program.glyph(number)
	if err != nil {
		return glyph{}, err
	}
	width, ok := f.widths[code]
	if !ok {
		width = f.usual
	}
	g.width, g.text = width/1000, f.text[uint16(code)]
	f.done[code] = g
	return g, nil
}

package pdf

import (
	"bytes"
	"fmt"
	"slices"
	"strconv"
	"sync"

	"gaugesheet/layout"
	"gaugesheet/layout/face"
	"gaugesheet/layout/face/sfnt"
)

// The PDF library can embed type by itself, at ten times the cost of the whole
// page: for each document and face it reads the font file twice, fills tables
// for 65 536 characters and packs two of them. So it is told of a face that
// needs no file (a stand-in), the page is written with the numbers of glyphs,
// and the end of the file gives the stand-in's object its true meaning: a
// composite font with the glyphs that the page uses (ISO 32000-2, 9.7).

// faceNames are the faces' names in a document, and those of their stand-ins.
var faceNames = [...]string{layout.Regular: "GaugesheetSans-Regular", layout.Bold: "GaugesheetSans-Bold"}

// usual are the characters that nearly every page has. Their glyphs come first and
// are in every file, so that most files have the same part of a face, which is cut
// out and packed once for all of them.
const usual = " %()+,-./0123456789:;ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz\u2013\u00b1\u00b7\u00b0"

// usedFace is a face in a document: the glyphs it uses, the usual ones and then
// others in the order of their first use, and the character each stands for.
type usedFace struct {
	name   string
	font   *sfnt.Font
	gids   []int
	runes  []rune
	number map[rune]int
}

func newUsedFace(w layout.Weight) *usedFace {
	f := &usedFace{name: faceNames[w], font: face.Font(w), gids: []int{0}, runes: []rune{0}, number: make(map[rune]int, 2*len(usual))}
	for _, r := range usual {
		f.glyph(r)
	}
	return f
}

// standIn is the face as the library reads it: a font without a file.
func (f *usedFace) standIn() []byte {
	return fmt.Appendf(nil, `{"Tp":"Core","Name":%q}`, f.name)
}

// mark is how the stand-in's object can be found in the library's file.
func (f *usedFace) mark() []byte { return []byte("/BaseFont /" + f.name + "\n") }

// glyph is the number of the glyph for a character.
func (f *usedFace) glyph(r rune) int {
	n, ok := f.number[r]
	if !ok {
		n = len(f.gids)
		f.number[r] = n
		f.gids = append(f.gids, f.font.Glyphs[r])
		f.runes = append(f.runes, r)
	}
	return n
}

// standIn is the number of the face's stand-in.
func (t *tail) standIn(f *usedFace) (int, error) {
	at := slices.IndexFunc(t.standIns, func(s numbered) bool { return bytes.Contains(s.object, f.mark()) })
	if at < 0 {
		return 0, fmt.Errorf("write the document: the face %s is not in the file", f.name)
	}
	return t.standIns[at].number, nil
}

// embed writes the face as the object that the stand-in was.
func (t *tail) embed(f *usedFace) error {
	at, err := t.standIn(f)
	if err != nil {
		return err
	}
	font := f.font
	// A file with a part of a face has a tag of six letters before its name.
	name := "SHEETS+" + f.name

	cut, err := f.cut()
	if err != nil {
		return err
	}
	program, unicode := t.stream("/Length1 %d", cut.program), t.stream("", cut.unicode)
	head := font.Tables["head"]
	corner := func(at int) int { return font.PerMille(int(int16(uint16(head[at])<<8 | uint16(head[at+1])))) }
	descriptor, descendant := t.reserve(), t.reserve()
	t.packed(descriptor, fmt.Appendf(nil, "<</Type/FontDescriptor/FontName/%s/Flags 4/ItalicAngle 0/StemV 80/Ascent %d/Descent %d/CapHeight %d/FontBBox[%d %d %d %d]/FontFile2 %d 0 R>>",
		name, face.Ascent, -face.Descent, face.CapHeight, corner(36), corner(38), corner(40), corner(42), program))
	widths := make([]byte, 0, 4*len(f.gids))
	for _, gid := range f.gids {
		widths = append(strconv.AppendInt(widths, int64(font.Advance(gid)), 10), ' ')
	}
	t.packed(descendant, fmt.Appendf(nil, "<</Type/Font/Subtype/CIDFontType2/BaseFont/%s/CIDToGIDMap/Identity/CIDSystemInfo<</Registry(Adobe)/Ordering(Identity)/Supplement 0>>/FontDescriptor %d 0 R/W[0[%s]]>>",
		name, descriptor, widths))
	t.packed(at, fmt.Appendf(nil, "<</Type/Font/Subtype/Type0/BaseFont/%s/Encoding/Identity-H/DescendantFonts[%d 0 R]/ToUnicode %d 0 R>>",
		name, descendant, unicode))
	return nil
}

// A cutFace is a part of a face and the map to its characters, packed.
type cutFace struct{ program, unicode deflated }

// cutFaces are the parts that files of this run had, by face and characters. Pages
// in the letters of one language have few; of more than mostCut the first are cut anew.
var cutFaces = struct {
	sync.Mutex
	by map[string]cutFace
}{by: map[string]cutFace{}}

const mostCut = 64

// cut is the part of the face that the document uses.
func (f *usedFace) cut() (cutFace, error) {
	key := f.name + string(f.runes)
	cutFaces.Lock()
	c, known := cutFaces.by[key]
	cutFaces.Unlock()
	if known {
		return c, nil
	}
	var err error
	if c.program, err = deflate(sfnt.Assemble(f.font.Subset(f.gids))); err != nil {
		return c, err
	}
	if c.unicode, err = deflate(f.toUnicode()); err != nil {
		return c, err
	}
	cutFaces.Lock()
	defer cutFaces.Unlock()
	if len(cutFaces.by) >= mostCut {
		clear(cutFaces.by)
	}
	cutFaces.by[key] = c
	return c, nil
}

// toUnicode says which character each glyph stands for, so that text can be
// searched and copied.
func (f *usedFace) toUnicode() []byte {
	var b bytes.Buffer
	b.WriteString("/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n" +
		"/CIDSystemInfo <</Registry (Adobe) /Ordering (UCS) /Supplement 0>> def\n" +
		"/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n" +
		"1 begincodespacerange\n<0000> <ffff>\nendcodespacerange\n")
	const most = 100 // entries of one list
	for start := 1; start < len(f.runes); start += most {
		end := min(start+most, len(f.runes))
		fmt.Fprintf(&b, "%d beginbfchar\n", end-start)
		for n := start; n < end; n++ {
			fmt.Fprintf(&b, "<%04x> <%04x>\n", n, f.runes[n])
		}
		b.WriteString("endbfchar\n")
	}
	b.WriteString("endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n")
	return b.Bytes()
}

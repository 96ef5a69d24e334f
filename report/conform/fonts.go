package conform

import (
	"encoding/binary"
	"math"
	"regexp"
	"strconv"
	"strings"
	"unicode/utf16"

	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/types"
)

// A font is a composite font of the page, as far as rules ask.
type font struct {
	unicode map[int]string
	used    map[int]bool
}

var (
	entriesOfMap = regexp.MustCompile(`(?s)beginbfchar(.*?)endbfchar`)
	entryOfMap   = regexp.MustCompile(`<([0-9A-Fa-f]+)>\s*<([0-9A-Fa-f]*)>`)
)

// pageFonts are the page's fonts by their names, with the codes that are shown.
func (d *document) pageFonts() map[string]*font {
	fonts := map[string]*font{}
	for key, o := range d.dict(d.res["Font"]) {
		f := &font{map[int]string{}, map[int]bool{}}
		for _, part := range entriesOfMap.FindAllSubmatch(d.data(d.dict(o)["ToUnicode"]), -1) {
			for _, m := range entryOfMap.FindAllStringSubmatch(string(part[1]), -1) {
				code, _ := strconv.ParseUint(m[1], 16, 32)
				f.unicode[int(code)] = utf16Text(m[2])
			}
		}
		fonts["/"+key] = f
	}
	var now *font
	for _, op := range d.content {
		switch op.name {
		case "Tf":
			now = fonts[op.args[0].(string)]
		case "Tj", "TJ":
			for _, code := range codes(op) {
				if now != nil {
					now.used[code] = true
				}
			}
		}
	}
	return fonts
}

func utf16Text(hex string) string {
	var units []uint16
	for ; len(hex) >= 4; hex = hex[4:] {
		u, _ := strconv.ParseUint(hex[:4], 16, 16)
		units = append(units, uint16(u))
	}
	return string(utf16.Decode(units))
}

// codes are those of two bytes that an operator shows.
func codes(op operation) (all []int) {
	for _, arg := range op.args {
		if s, ok := arg.([]byte); ok {
			for ; len(s) >= 2; s = s[2:] {
				all = append(all, int(s[0])<<8|int(s[1]))
			}
		}
	}
	return all
}

// fonts: the type is embedded, as wide as the document says, and every glyph that
// is shown has a character.
func (d *document) fonts() {
	used := d.pageFonts()
	for key, o := range d.dict(d.res["Font"]) {
		f := d.dict(o)
		d.want(d.name(f["Subtype"]) == "Type0" && d.name(f["Encoding"]) == "Identity-H", pdfA+"6.2.11.3.3", "a font that is not composite")
		below := d.array(f["DescendantFonts"])
		if len(below) != 1 {
			d.want(false, pdfA+"6.2.11.2", "a composite font of %d fonts", len(below))
			continue
		}
		cid := d.dict(below[0])
		d.want(d.name(cid["CIDToGIDMap"]) == "Identity", pdfA+"6.2.11.3.2", "codes are not glyphs")
		program := d.data(d.dict(cid["FontDescriptor"])["FontFile2"])
		d.want(len(program) > 0, pdfA+"6.2.11.4.1", "a font that is not embedded")
		d.want(strings.Contains(d.name(f["BaseFont"]), "+"), "ISO 32000-1, 9.6.4", "a part of a font without its tag")
		for code := range used["/"+key].used {
			d.want(code != 0, pdfA+"6.2.11.8", "a glyph that the font lacks is shown")
			said := used["/"+key].unicode[code]
			d.want(said != "" && said != "\x00" && said != "\ufeff" && said != "\ufffe", pdfA+"6.2.11.7.2", "the glyph %d is no character", code)
			private := said >= "\ue000" && said <= "\uf8ff"
			d.want(!private, pdfA+"6.2.11.7.3", "the glyph %d is a character of private use", code)
		}
		d.widths(cid, program, used["/"+key].used)
	}
}

// widths compares the widths in the document with those of the embedded font.
func (d *document) widths(cid types.Dict, program []byte, used map[int]bool) {
	table := func(name string) []byte {
		for i := range int(binary.BigEndian.Uint16(program[4:])) {
			entry := program[12+16*i:]
			if string(entry[:4]) == name {
				at, n := binary.BigEndian.Uint32(entry[8:]), binary.BigEndian.Uint32(entry[12:])
				return program[at : at+n]
			}
		}
		return nil
	}
	for _, name := range []string{"head", "hhea", "hmtx", "maxp", "glyf", "loca"} {
		if table(name) == nil {
			d.want(false, pdfA+"6.2.11.4.1", "the embedded font lacks %s", name)
			return
		}
	}
	em := float64(binary.BigEndian.Uint16(table("head")[18:]))
	many := int(binary.BigEndian.Uint16(table("hhea")[34:]))
	glyphs := int(binary.BigEndian.Uint16(table("maxp")[4:]))
	w := d.array(cid["W"])
	if len(w) != 2 {
		d.want(false, pdfA+"6.2.11.5", "no widths")
		return
	}
	first, list := int(d.number(w[0])), d.array(w[1])
	for code := range used {
		if code >= glyphs || code-first >= len(list) {
			d.want(false, pdfA+"6.2.11.4.1", "the glyph %d is not in the embedded font", code)
			continue
		}
		advance := float64(binary.BigEndian.Uint16(table("hmtx")[4*min(code, many-1):])) * 1000 / em
		d.want(math.Abs(advance-d.number(list[code-first])) <= 1, pdfA+"6.2.11.5", "the glyph %d is %v wide, in the font %v", code, d.number(list[code-first]), advance)
	}
}

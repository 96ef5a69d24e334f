//go:build ignore

// Command generate cuts the page's two faces out of the full Liberation Sans
// files: the characters that a test sheet may hold, without hinting
// instructions (a page is printed or shown smoothed), under a name of their
// own as the licence asks of changed copies. It writes the two font files, the
// licence text and the table of advances.
//
// Run it with go generate ./layout/pdf/fonts.
package main

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"go/format"
	"log"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"unicode/utf16"

	"github.com/go-fonts/liberation/liberationsansbold"
	"github.com/go-fonts/liberation/liberationsansregular"
)

// repertoire is what is kept: first and last code point of each range. Marks
// that combine and characters without width are left out, since nothing here
// places them.
var repertoire = [][2]rune{
	{0x0020, 0x007E}, {0x00A0, 0x00AC}, {0x00AE, 0x024F}, // Latin with all European and Vietnamese letters
	{0x0384, 0x03CE},                   // Greek
	{0x0400, 0x0482}, {0x048A, 0x0513}, // Cyrillic
	{0x1E00, 0x1EFF}, // Latin Extended Additional
	{0x2000, 0x200A}, {0x2010, 0x2022}, {0x2026, 0x2026}, {0x202F, 0x203E}, {0x2044, 0x2044},
	{0x2070, 0x2094}, {0x20A0, 0x20BF}, // superscripts, currencies
	{0x2105, 0x214E}, {0x2153, 0x215E}, // letterlike, fractions
	{0x2190, 0x21D4}, {0x2202, 0x2265}, // arrows, mathematics
	{0x25A0, 0x25E6}, // geometric shapes
	{0xFB01, 0xFB02},
}

func main() {
	log.SetFlags(0)
	faces := []struct {
		file, style string
		ttf         []byte
	}{
		{"regular.ttf", "Regular", liberationsansregular.TTF},
		{"bold.ttf", "Bold", liberationsansbold.TTF},
	}
	var advances [2][]int
	runes := common(read(faces[0].ttf), read(faces[1].ttf))
	for i, face := range faces {
		f := read(face.ttf)
		for _, r := range runes {
			advances[i] = append(advances[i], f.perMille(f.gids[r]))
		}
		if err := os.WriteFile(face.file, f.cut(runes, face.style), 0o644); err != nil {
			log.Fatal(err)
		}
	}
	if err := os.WriteFile("advances.go", table(runes, advances, read(faces[0].ttf)), 0o644); err != nil {
		log.Fatal(err)
	}
	copyLicence()
}

// common lists the wanted characters that both faces have.
func common(a, b *font) []rune {
	var runes []rune
	for _, span := range repertoire {
		for r := span[0]; r <= span[1]; r++ {
			if a.gids[r] != 0 && b.gids[r] != 0 {
				runes = append(runes, r)
			}
		}
	}
	return runes
}

// A font is a TrueType file taken apart.
type font struct {
	tables map[string][]byte
	gids   map[rune]int
	em     int
}

func u16(b []byte, at int) int { return int(binary.BigEndian.Uint16(b[at:])) }
func u32(b []byte, at int) int { return int(binary.BigEndian.Uint32(b[at:])) }

func read(ttf []byte) *font {
	f := &font{tables: map[string][]byte{}, gids: map[rune]int{}}
	for i := range u16(ttf, 4) {
		at := 12 + 16*i
		start := u32(ttf, at+8)
		f.tables[string(ttf[at:at+4])] = ttf[start : start+u32(ttf, at+12)]
	}
	f.em = u16(f.tables["head"], 18)
	f.readCharacters()
	return f
}

// readCharacters reads the Unicode subtable of format 4.
func (f *font) readCharacters() {
	cmap := f.tables["cmap"]
	for i := range u16(cmap, 2) {
		at := 4 + 8*i
		sub := cmap[u32(cmap, at+4):]
		if u16(cmap, at) != 3 || u16(cmap, at+2) != 1 || u16(sub, 0) != 4 {
			continue
		}
		n := u16(sub, 6) / 2
		for s := range n {
			last, first := u16(sub, 14+2*s), u16(sub, 16+2*n+2*s)
			delta, offset := u16(sub, 16+4*n+2*s), u16(sub, 16+6*n+2*s)
			for r := first; r <= last && r < 0xFFFF; r++ {
				gid := r + delta
				if offset != 0 {
					gid = u16(sub, 16+6*n+2*s+offset+2*(r-first))
					if gid != 0 {
						gid += delta
					}
				}
				if gid &= 0xFFFF; gid != 0 {
					f.gids[rune(r)] = gid
				}
			}
		}
		return
	}
	log.Fatal("no Unicode character map")
}

func (f *font) advance(gid int) int {
	metrics := u16(f.tables["hhea"], 34)
	return u16(f.tables["hmtx"], 4*min(gid, metrics-1))
}

func (f *font) bearing(gid int) int {
	metrics := u16(f.tables["hhea"], 34)
	if gid < metrics {
		return u16(f.tables["hmtx"], 4*gid+2)
	}
	return u16(f.tables["hmtx"], 4*metrics+2*(gid-metrics))
}

// perMille is an advance in thousandths of an em, rounded as a PDF's table of
// widths has it.
func (f *font) perMille(gid int) int { return f.scaled(f.advance(gid)) }

func (f *font) scaled(units int) int {
	return int(math.Round(float64(units) * 1000 / float64(f.em)))
}

func (f *font) glyph(gid int) []byte {
	loca, glyf := f.tables["loca"], f.tables["glyf"]
	if u16(f.tables["head"], 50) == 0 {
		return glyf[2*u16(loca, 2*gid) : 2*u16(loca, 2*gid+2)]
	}
	return glyf[u32(loca, 4*gid):u32(loca, 4*gid+4)]
}

// Flags of a part of a composite glyph.
const (
	argsAreWords    = 1 << 0
	haveScale       = 1 << 3
	moreComponents  = 1 << 5
	haveXYScale     = 1 << 6
	haveTwoByTwo    = 1 << 7
	haveInstruction = 1 << 8
)

// parts gives the offsets of the parts of a composite glyph and where the
// last of them ends.
func parts(glyph []byte) (offsets []int, end int) {
	at := 10
	for {
		flags := u16(glyph, at)
		offsets = append(offsets, at)
		at += 6
		if flags&argsAreWords != 0 {
			at += 2
		}
		switch {
		case flags&haveScale != 0:
			at += 2
		case flags&haveXYScale != 0:
			at += 4
		case flags&haveTwoByTwo != 0:
			at += 8
		}
		if flags&moreComponents == 0 {
			return offsets, at
		}
	}
}

func composite(glyph []byte) bool { return len(glyph) > 0 && int16(u16(glyph, 0)) < 0 }

// plain gives a glyph without its instructions, its parts renumbered.
func plain(glyph []byte, number map[int]int) []byte {
	if len(glyph) == 0 {
		return nil
	}
	if !composite(glyph) {
		at := 10 + 2*u16(glyph, 0)
		rest := glyph[at+2+u16(glyph, at):]
		return slices.Concat(glyph[:at], []byte{0, 0}, rest)
	}
	offsets, end := parts(glyph)
	out := slices.Clone(glyph[:end])
	for _, at := range offsets {
		binary.BigEndian.PutUint16(out[at:], uint16(u16(out, at)&^haveInstruction))
		binary.BigEndian.PutUint16(out[at+2:], uint16(number[u16(out, at+2)]))
	}
	return out
}

// cut gives the font with the named characters only.
func (f *font) cut(runes []rune, style string) []byte {
	order, number := []int{0}, map[int]int{0: 0}
	add := func(gid int) {
		if _, ok := number[gid]; !ok {
			number[gid] = len(order)
			order = append(order, gid)
		}
	}
	for _, r := range runes {
		add(f.gids[r])
	}
	for i := 0; i < len(order); i++ {
		if g := f.glyph(order[i]); composite(g) {
			offsets, _ := parts(g)
			for _, at := range offsets {
				add(u16(g, at+2))
			}
		}
	}

	var glyf, loca, hmtx []byte
	for _, gid := range order {
		loca = binary.BigEndian.AppendUint32(loca, uint32(len(glyf)))
		glyf = append(glyf, plain(f.glyph(gid), number)...)
		for len(glyf)%4 != 0 {
			glyf = append(glyf, 0)
		}
		hmtx = binary.BigEndian.AppendUint16(hmtx, uint16(f.advance(gid)))
		hmtx = binary.BigEndian.AppendUint16(hmtx, uint16(f.bearing(gid)))
	}
	loca = binary.BigEndian.AppendUint32(loca, uint32(len(glyf)))

	patched := func(name string, at, value int) []byte {
		t := slices.Clone(f.tables[name])
		binary.BigEndian.PutUint16(t[at:], uint16(value))
		return t
	}
	head := patched("head", 50, 1)
	binary.BigEndian.PutUint32(head[8:], 0)
	maxp := patched("maxp", 4, len(order))
	for at := 14; at < 28; at += 2 { // zones, storage, functions, stack, instructions
		binary.BigEndian.PutUint16(maxp[at:], 0)
	}
	post := slices.Clone(f.tables["post"][:32])
	binary.BigEndian.PutUint32(post, 0x00030000)
	return assemble(map[string][]byte{
		"OS/2": f.tables["OS/2"], "cmap": characters(runes, f.gids, number), "glyf": glyf,
		"head": head, "hhea": patched("hhea", 34, len(order)), "hmtx": hmtx, "loca": loca,
		"maxp": maxp, "name": names(style), "post": post,
	})
}

// characters is a character map of format 4 with a segment for each run of
// characters whose glyphs follow one another.
func characters(runes []rune, gids map[rune]int, number map[int]int) []byte {
	type segment struct{ first, last, delta int }
	var segments []segment
	for _, r := range runes {
		delta := (number[gids[r]] - int(r)) & 0xFFFF
		if n := len(segments); n > 0 && segments[n-1].last == int(r)-1 && segments[n-1].delta == delta {
			segments[n-1].last = int(r)
			continue
		}
		segments = append(segments, segment{int(r), int(r), delta})
	}
	segments = append(segments, segment{0xFFFF, 0xFFFF, 1})

	n := len(segments)
	log2 := int(math.Log2(float64(n)))
	var b []byte
	word := func(v int) { b = binary.BigEndian.AppendUint16(b, uint16(v)) }
	for _, v := range []int{0, 1, 3, 1, 0, 12} { // version, one table: Windows, Unicode, at 12
		word(v)
	}
	for _, v := range []int{4, 16 + 8*n, 0, 2 * n, 2 << log2, log2, 2*n - 2<<log2} {
		word(v)
	}
	for _, s := range segments {
		word(s.last)
	}
	word(0)
	for _, s := range segments {
		word(s.first)
	}
	for _, s := range segments {
		word(s.delta)
	}
	for range segments {
		word(0)
	}
	return b
}

func names(style string) []byte {
	entries := []struct {
		id   int
		text string
	}{
		{0, "Digitized data copyright (c) 2010 Google Corporation. Copyright (c) 2012 Red Hat, Inc. Cut for gaugesheet."},
		{1, "Gaugesheet Sans"}, {2, style}, {4, "Gaugesheet Sans " + style}, {6, "GaugesheetSans-" + style},
		{13, "Licensed under the SIL Open Font License, Version 1.1"}, {14, "https://openfontlicense.org"},
	}
	var records, text []byte
	for _, e := range entries {
		start := len(text)
		for _, u := range utf16.Encode([]rune(e.text)) {
			text = binary.BigEndian.AppendUint16(text, u)
		}
		for _, v := range []int{3, 1, 0x409, e.id, len(text) - start, start} {
			records = binary.BigEndian.AppendUint16(records, uint16(v))
		}
	}
	var b []byte
	for _, v := range []int{0, len(entries), 6 + len(records)} {
		b = binary.BigEndian.AppendUint16(b, uint16(v))
	}
	return slices.Concat(b, records, text)
}

func assemble(tables map[string][]byte) []byte {
	var tags []string
	for tag := range tables {
		tags = append(tags, tag)
	}
	slices.Sort(tags)
	n := len(tags)
	log2 := int(math.Log2(float64(n)))
	out := binary.BigEndian.AppendUint32(nil, 0x00010000)
	for _, v := range []int{n, 16 << log2, log2, 16*n - 16<<log2} {
		out = binary.BigEndian.AppendUint16(out, uint16(v))
	}
	var body []byte
	headAt := 0
	for _, tag := range tags {
		at := 12 + 16*n + len(body)
		if tag == "head" {
			headAt = at
		}
		data := tables[tag]
		padded := append(slices.Clone(data), make([]byte, (4-len(data)%4)%4)...)
		out = append(out, tag...)
		for _, v := range []uint32{checksum(padded), uint32(at), uint32(len(data))} {
			out = binary.BigEndian.AppendUint32(out, v)
		}
		body = append(body, padded...)
	}
	out = append(out, body...)
	binary.BigEndian.PutUint32(out[headAt+8:], 0xB1B0AFBA-checksum(out))
	return out
}

func checksum(b []byte) uint32 {
	var sum uint32
	for i := 0; i < len(b); i += 4 {
		sum += binary.BigEndian.Uint32(b[i:])
	}
	return sum
}

// table is the Go source of the advances.
func table(runes []rune, advances [2][]int, f *font) []byte {
	var b bytes.Buffer
	fmt.Fprintf(&b, "// Code generated by generate.go; DO NOT EDIT.\n\npackage fonts\n\n")
	os2, hhea := f.tables["OS/2"], f.tables["hhea"]
	fmt.Fprintf(&b, "// Heights of both faces in thousandths of an em.\nconst (\n\tAscent = %d\n\tDescent = %d\n\tCapHeight = %d\n)\n\n",
		f.scaled(u16(hhea, 4)), f.scaled(-int(int16(u16(hhea, 6)))), f.scaled(u16(os2, 88)))
	fmt.Fprintf(&b, "var spans = [...]span{\n")
	for i := 0; i < len(runes); {
		j := i
		for j+1 < len(runes) && runes[j+1] == runes[j]+1 {
			j++
		}
		fmt.Fprintf(&b, "{%#04x, %#04x, %d},\n", runes[i], runes[j], i)
		i = j + 1
	}
	fmt.Fprintf(&b, "}\n\n")
	for i, name := range []string{"regular", "bold"} {
		fmt.Fprintf(&b, "var %sAdvances = [...]uint16{", name)
		for k, a := range advances[i] {
			if k%16 == 0 {
				fmt.Fprintln(&b)
			}
			fmt.Fprintf(&b, "%d, ", a)
		}
		fmt.Fprintf(&b, "\n}\n\n")
	}
	src, err := format.Source(b.Bytes())
	if err != nil {
		log.Fatal(err)
	}
	return src
}

// copyLicence copies the licence from the module that holds the full fonts.
func copyLicence() {
	out, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}", "github.com/go-fonts/liberation").Output()
	if err != nil {
		log.Fatal(err)
	}
	text, err := os.ReadFile(filepath.Join(strings.TrimSpace(string(out)), "LICENSE-SIL"))
	if err != nil {
		log.Fatal(err)
	}
	if err := os.WriteFile("LICENSE-OFL.txt", text, 0o644); err != nil {
		log.Fatal(err)
	}
}

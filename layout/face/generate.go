//go:build ignore

// Command generate cuts the page's two faces out of the full Liberation Sans
// files: the characters that a test sheet may hold, without hinting
// instructions (a page is printed or shown smoothed), under a name of their
// own as the licence asks of changed copies. It writes the two font files, the
// licence text and the table of advances.
//
// Run it with go generate ./layout/face.
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

	"gaugesheet/layout/face/sfnt"
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

func read(ttf []byte) *sfnt.Font {
	f, err := sfnt.Read(ttf)
	if err != nil {
		log.Fatal(err)
	}
	return f
}

func u16(b []byte, at int) int { return int(binary.BigEndian.Uint16(b[at:])) }

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
			advances[i] = append(advances[i], f.Advance(f.Glyphs[r]))
		}
		if err := os.WriteFile(face.file, cut(f, runes, face.style), 0o644); err != nil {
			log.Fatal(err)
		}
	}
	if err := os.WriteFile("advances.go", table(runes, advances, read(faces[0].ttf)), 0o644); err != nil {
		log.Fatal(err)
	}
	copyLicence()
}

// common lists the wanted characters that both faces have.
func common(a, b *sfnt.Font) []rune {
	var runes []rune
	for _, span := range repertoire {
		for r := span[0]; r <= span[1]; r++ {
			if a.Glyphs[r] != 0 && b.Glyphs[r] != 0 {
				runes = append(runes, r)
			}
		}
	}
	return runes
}

// cut gives the font with the named characters only.
func cut(f *sfnt.Font, runes []rune, style string) []byte {
	gids, number := []int{0}, map[int]int{0: 0}
	for _, r := range runes {
		if _, ok := number[f.Glyphs[r]]; !ok {
			number[f.Glyphs[r]] = len(gids)
			gids = append(gids, f.Glyphs[r])
		}
	}
	tables := f.Subset(gids)
	post := slices.Clone(f.Tables["post"][:32])
	binary.BigEndian.PutUint32(post, 0x00030000)
	tables["post"], tables["OS/2"] = post, f.Tables["OS/2"]
	tables["cmap"], tables["name"] = characters(runes, f.Glyphs, number), names(style)
	return sfnt.Assemble(tables)
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

// table is the Go source of the advances.
func table(runes []rune, advances [2][]int, f *sfnt.Font) []byte {
	var b bytes.Buffer
	fmt.Fprintf(&b, "// Code generated by generate.go; DO NOT EDIT.\n\npackage face\n\n")
	os2, hhea := f.Tables["OS/2"], f.Tables["hhea"]
	fmt.Fprintf(&b, "// Heights of both faces in thousandths of an em.\nconst (\n\tAscent = %d\n\tDescent = %d\n\tCapHeight = %d\n)\n\n",
		f.PerMille(u16(hhea, 4)), f.PerMille(-int(int16(u16(hhea, 6)))), f.PerMille(u16(os2, 88)))
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

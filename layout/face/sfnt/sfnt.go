// Package sfnt takes TrueType files apart and puts smaller ones together: the
// glyphs that are wanted, without hinting instructions (ISO/IEC 14496-22, Open
// Font Format); it knows bytes, and no face of ours.
package sfnt

import (
	"encoding/binary"
	"errors"
	"math"
	"slices"
)

// A Font is a TrueType file taken apart.
type Font struct {
	Tables map[string][]byte
	Glyphs map[rune]int // numbers of glyphs by character
	Em     int          // units per em
}

func u16(b []byte, at int) int { return int(binary.BigEndian.Uint16(b[at:])) }
func u32(b []byte, at int) int { return int(binary.BigEndian.Uint32(b[at:])) }

// Read takes a file apart. It is for files that are known to be sound: the
// program's own.
func Read(ttf []byte) (*Font, error) {
	f := &Font{Tables: map[string][]byte{}, Glyphs: map[rune]int{}}
	for i := range u16(ttf, 4) {
		at := 12 + 16*i
		start := u32(ttf, at+8)
		f.Tables[string(ttf[at:at+4])] = ttf[start : start+u32(ttf, at+12)]
	}
	f.Em = u16(f.Tables["head"], 18)
	if !f.readCharacters() {
		return nil, errors.New("no Unicode character map")
	}
	return f, nil
}

// readCharacters reads the Unicode subtable of format 4, if there is one.
func (f *Font) readCharacters() bool {
	cmap := f.Tables["cmap"]
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
					f.Glyphs[rune(r)] = gid
				}
			}
		}
		return true
	}
	return false
}

// PerMille is a length in font units in thousandths of an em, rounded as a
// PDF's table of widths has it.
func (f *Font) PerMille(units int) int {
	return int(math.Round(float64(units) * 1000 / float64(f.Em)))
}

// Advance is a glyph's advance in thousandths of an em.
func (f *Font) Advance(gid int) int { return f.PerMille(f.advance(gid)) }

func (f *Font) advance(gid int) int {
	metrics := u16(f.Tables["hhea"], 34)
	return u16(f.Tables["hmtx"], 4*min(gid, metrics-1))
}

func (f *Font) bearing(gid int) int {
	metrics := u16(f.Tables["hhea"], 34)
	if gid < metrics {
		return u16(f.Tables["hmtx"], 4*gid+2)
	}
	return u16(f.Tables["hmtx"], 4*metrics+2*(gid-metrics))
}

func (f *Font) glyph(gid int) []byte {
	loca, glyf := f.Tables["loca"], f.Tables["glyf"]
	if u16(f.Tables["head"], 50) == 0 {
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

// Subset gives the tables that draw the named glyphs and the parts they are
// made of, renumbered in the order given; the first must be 0, the glyph of
// missing characters. Tables are glyf, head, hhea, hmtx, loca and maxp.
func (f *Font) Subset(gids []int) map[string][]byte {
	order, number := []int(nil), map[int]int{}
	add := func(gid int) {
		if _, ok := number[gid]; !ok {
			number[gid] = len(order)
			order = append(order, gid)
		}
	}
	for _, gid := range gids {
		add(gid)
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
		t := slices.Clone(f.Tables[name])
		binary.BigEndian.PutUint16(t[at:], uint16(value))
		return t
	}
	head := patched("head", 50, 1)
	binary.BigEndian.PutUint32(head[8:], 0)
	maxp := patched("maxp", 4, len(order))
	for at := 14; at < 28; at += 2 { // zones, storage, functions, stack, instructions
		binary.BigEndian.PutUint16(maxp[at:], 0)
	}
	return map[string][]byte{
		"glyf": glyf, "head": head, "hhea": patched("hhea", 34, len(order)),
		"hmtx": hmtx, "loca": loca, "maxp": maxp,
	}
}

// Assemble puts tables together to a file.
func Assemble(tables map[string][]byte) []byte {
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

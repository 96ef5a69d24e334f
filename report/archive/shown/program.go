package shown

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"gaugesheet/report/archive/pdffile"
)

// A program is the outlines of a TrueType font (OpenType 1.9: head, loca,
// glyf, hmtx). What a letter looks like is its outline, where that is put, and
// the instructions that move its points.
type program struct {
	glyf, hmtx []byte
	at         []uint32 // where glyphs are in glyf
	perEm      float64
	metrics    int
	hints      string // a fingerprint of what instructions draw on
	left       int    // how many parts of glyphs are still looked at
}

func readProgram(data []byte) (*program, error) {
	tables, err := tablesOf(data)
	if err != nil {
		return nil, err
	}
	head, loca, hhea, maxp := tables["head"], tables["loca"], tables["hhea"], tables["maxp"]
	if len(head) < 54 || len(hhea) < 36 || len(maxp) < 32 || tables["glyf"] == nil {
		return nil, errType
	}
	p := &program{glyf: tables["glyf"], hmtx: tables["hmtx"], perEm: float64(binary.BigEndian.Uint16(head[18:])), metrics: int(binary.BigEndian.Uint16(hhea[34:])), left: 100_000}
	if binary.BigEndian.Uint16(head[50:]) == 0 {
		for ; len(loca) >= 2; loca = loca[2:] {
			p.at = append(p.at, 2*uint32(binary.BigEndian.Uint16(loca)))
		}
	} else {
		for ; len(loca) >= 4; loca = loca[4:] {
			p.at = append(p.at, binary.BigEndian.Uint32(loca))
		}
	}
	if !p.agrees(head, maxp) {
		return nil, errType
	}
	p.at = p.at[:int(binary.BigEndian.Uint16(maxp[4:]))+1] // nobody looks beyond
	p.hints = fmt.Sprintf("%x", sha256.Sum256(fmt.Appendf(nil, "%x/%x/%x", tables["fpgm"], tables["prep"], tables["cvt "])))
	return p, nil
}

// agrees tells whether the tables say the same of how many letters there are,
// and are what they say they are. Readers show nothing of a type, or of the
// letters beyond the number that they go by.
func (p *program) agrees(head, maxp []byte) bool {
	const magic = 0x5F0F3CF5
	letters := int(binary.BigEndian.Uint16(maxp[4:]))
	return binary.BigEndian.Uint32(maxp) == 0x10000 && letters >= 1 && len(p.at) >= letters+1 &&
		p.metrics >= 1 && p.metrics <= letters && len(p.hmtx) >= 2*letters+2*p.metrics &&
		binary.BigEndian.Uint32(head[12:]) == magic && p.perEm >= 16 && p.perEm <= 16384
}

// fontTables are those that a type may have: outlines and what goes with them.
// Others hold pictures of letters, other outlines or colors, which some readers
// show instead.
var fontTables = map[string]bool{
	"head": true, "hhea": true, "maxp": true, "hmtx": true, "loca": true, "glyf": true, "cvt ": true, "fpgm": true, "prep": true,
	"cmap": true, "name": true, "post": true, "OS/2": true, "gasp": true, "kern": true, "GDEF": true, "DSIG": true, "hdmx": true, "VDMX": true, "LTSH": true,
}

// tablesOf are the tables of a font file, each there once.
func tablesOf(data []byte) (map[string][]byte, error) {
	if len(data) < 12 || !bytes.HasPrefix(data, []byte("\x00\x01\x00\x00")) && !bytes.HasPrefix(data, []byte("true")) { // no collection, no other kind of outlines
		return nil, errType
	}
	count := int(binary.BigEndian.Uint16(data[4:]))
	tables := map[string][]byte{}
	for i := range count {
		row := 12 + 16*i
		if row+16 > len(data) {
			return nil, errType
		}
		tag := string(data[row : row+4])
		at, size := binary.BigEndian.Uint32(data[row+8:]), binary.BigEndian.Uint32(data[row+12:])
		if _, twice := tables[tag]; twice || !fontTables[tag] || uint64(at)+uint64(size) > uint64(len(data)) {
			return nil, errType
		}
		tables[tag] = data[at : at+size]
	}
	return tables, nil
}

func (p *program) bytes(number int) ([]byte, error) {
	if number < 0 || number+1 >= len(p.at) {
		return nil, errType
	}
	from, to := p.at[number], p.at[number+1]
	if from > to || int(to) > len(p.glyf) {
		return nil, errType
	}
	return p.glyf[from:to], nil
}

// bearing is where a glyph's left end is put, which moves its outline.
func (p *program) bearing(number int) int {
	at := 4*number + 2
	if number >= p.metrics {
		at = 4*p.metrics + 2*(number-p.metrics)
	}
	if number < 0 || at+2 > len(p.hmtx) {
		return -1 << 16
	}
	return int(int16(binary.BigEndian.Uint16(p.hmtx[at:])))
}

func (p *program) glyph(number int) (glyph, error) {
	data, err := p.bytes(number)
	if err != nil {
		return glyph{}, err
	}
	if len(data) < 10 {
		return glyph{empty: true}, nil
	}
	shape, err := p.shape(number, 0)
	if err != nil {
		return glyph{}, err
	}
	side := func(at int) float64 { return float64(int16(binary.BigEndian.Uint16(data[at:]))) / p.perEm }
	sum := sha256.Sum256(fmt.Appendf(shape, " %g", p.perEm))
	g := glyph{outline: string(sum[:]), box: Box{side(2), side(4), side(6), side(8)}, shift: float64(p.bearing(number))/p.perEm - side(2), reach: everywhere}
	if b, ok := pointsOf(data); ok { // where a reader moves it to, or not
		b = Box{b.X0 / p.perEm, b.Y0 / p.perEm, b.X1 / p.perEm, b.Y1 / p.perEm}
		g.reach = b.around(Box{b.X0 + g.shift, b.Y0, b.X1 + g.shift, b.Y1})
	}
	return g, nil
}

// shape is a glyph in a notation of which equal glyphs have the same, however
// they were packed.
func (p *program) shape(number, depth int) ([]byte, error) {
	data, err := p.bytes(number)
	if err != nil || len(data) < 10 {
		return nil, err
	}
	if p.left--; p.left < 0 {
		return nil, pdffile.ErrTooLarge
	}
	contours := int(int16(binary.BigEndian.Uint16(data)))
	out := append([]byte{}, data[:10]...)
	if contours < 0 {
		return p.composite(out, data[10:], depth)
	}
	used, hinted, err := simpleLength(data, contours)
	if err != nil {
		return nil, err
	}
	out = append(out, data[10:used]...)
	if hinted {
		out = append(out, p.hints...)
	}
	return out, nil
}

// simpleLength is how many bytes of a simple glyph are in use; what follows is
// filling.
func simpleLength(data []byte, contours int) (used int, hinted bool, err error) {
	at := 10 + 2*contours
	if at+2 > len(data) || contours == 0 {
		return 0, false, errType
	}
	points := int(binary.BigEndian.Uint16(data[at-2:])) + 1
	instructions := int(binary.BigEndian.Uint16(data[at:]))
	at += 2 + instructions
	places := 0
	for n := 0; n < points; {
		if at >= len(data) {
			return 0, false, errType
		}
		flags, times := data[at], 1
		at++
		if flags&8 != 0 {
			if at >= len(data) {
				return 0, false, errType
			}
			times += int(data[at])
			at++
		}
		size := 0
		for _, bits := range [][2]byte{{2, 16}, {4, 32}} { // short, and same
			switch {
			case flags&bits[0] != 0:
				size++
			case flags&bits[1] == 0:
				size += 2
			}
		}
		places += size * times
		n += times
	}
	if at+places > len(data) {
		return 0, false, errType
	}
	return at + places, instructions > 0, nil
}

// composite is a glyph made of others: the shapes of these instead of their
// numbers.
func (p *program) composite(out, data []byte, depth int) ([]byte, error) {
	const more, words, scale, scales, matrix, instructed = 0x20, 1, 8, 0x40, 0x80, 0x100
	if depth > 4 {
		return nil, errType
	}
	for {
		if len(data) < 4 {
			return nil, errType
		}
		flags := binary.BigEndian.Uint16(data)
		part, err := p.shape(int(binary.BigEndian.Uint16(data[2:])), depth+1)
		if err != nil {
			return nil, err
		}
		size := 6
		if flags&words != 0 {
			size += 2
		}
		switch {
		case flags&scale != 0:
			size += 2
		case flags&scales != 0:
			size += 4
		case flags&matrix != 0:
			size += 8
		}
		if size > len(data) || len(out) > 1<<16 {
			return nil, errType
		}
		out = append(append(append(out, data[:2]...), data[4:size]...), part...)
		if data = data[size:]; flags&more == 0 {
			if flags&instructed != 0 {
				out = append(append(out, data...), p.hints...)
			}
			return out, nil
		}
	}
}

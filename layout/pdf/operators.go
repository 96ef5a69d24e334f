package pdf

import (
	"bytes"
	"fmt"
	"math"
	"strconv"

	"gaugesheet/layout"
)

// Outlines and text are written as operators here, with no more digits than
// places on the page have: the library gives points of curves five decimals
// and names a face by forty digits wherever it is used, which made a quarter of
// a page's bytes.

// write puts operators on the page.
func (d *Doc) write(operators []byte) {
	d.pdf.RawWriteStr(string(operators))
	d.room = operators[:0]
}

// outline is a path in the making, in the document's room for it.
func (d *Doc) outline(p layout.Path) []byte {
	b := d.room[:0]
	for _, s := range p {
		switch s.Op {
		case layout.Move:
			b = append(d.point(b, s.P[0]), "m\n"...)
		case layout.Line:
			b = append(d.point(b, s.P[0]), "l\n"...)
		case layout.Cubic:
			b = append(d.point(d.point(d.point(b, s.P[0]), s.P[1]), s.P[2]), "c\n"...)
		case layout.Close:
			b = append(b, "h\n"...)
		}
	}
	return b
}

// point adds a place on the page, which PDF counts from its foot.
func (d *Doc) point(b []byte, p layout.Point) []byte {
	return number(number(b, hundredths(p.X)), hundredths(d.opt.Paper.H)-hundredths(p.Y))
}

func hundredths(l layout.Length) int { return int(math.Round(float64(l) * 100)) }

// number adds hundredths as a number with a space behind it.
func number(b []byte, n int) []byte {
	if n < 0 {
		b, n = append(b, '-'), -n
	}
	b = strconv.AppendInt(b, int64(n/100), 10)
	if n %= 100; n > 0 {
		b = append(b, '.', byte('0'+n/10))
		if n%10 > 0 {
			b = append(b, byte('0'+n%10))
		}
	}
	return append(b, ' ')
}

// show sets a text, in its face where the page has another: two bytes for each
// glyph (ISO 32000-1, 9.7.6.2), of which those that mean something to strings
// are escaped (7.3.4.2).
func (d *Doc) show(w *waiting) {
	b := append(d.room[:0], "BT "...)
	if !d.known.face || d.face != w.face {
		b = append(append(append(b, '/'), resource[w.face.Weight]...), ' ')
		b = append(number(b, hundredths(w.face.Size)), "Tf "...)
		d.face, d.known.face = w.face, true
	}
	b = append(d.point(b, w.at), "Td ("...)
	f := d.used(w.face)
	for _, r := range w.text {
		n := f.glyph(r)
		b = escape(escape(b, byte(n>>8)), byte(n))
	}
	d.write(append(b, ") Tj ET"...))
}

func escape(b []byte, c byte) []byte {
	switch c {
	case '\\', '(', ')':
		return append(b, '\\', c)
	case '\r':
		return append(b, `\r`...)
	}
	return append(b, c)
}

// resource are the faces' names on the page.
var resource = [...]string{layout.Regular: "R", layout.Bold: "B"}

// nameFaces gives the faces these names in the list of what the page draws with.
func (t *tail) nameFaces(resources []byte, faces []*usedFace) ([]byte, error) {
	for weight, f := range faces {
		if f == nil {
			continue
		}
		number, err := t.standIn(f)
		if err != nil {
			return nil, err
		}
		at := bytes.Index(resources, fmt.Appendf(nil, " %d 0 R", number))
		from := bytes.LastIndexByte(resources[:max(at, 0)], '/')
		if from < 0 {
			return nil, fmt.Errorf("write the document: the page does not name the face %s", f.name)
		}
		resources = bytes.Replace(resources, resources[from+1:at], []byte(resource[weight]), 1)
	}
	return resources, nil
}

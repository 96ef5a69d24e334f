package shown

import (
	"strings"

	"gaugesheet/report/archive/pdffile"
)

// doText carries out the operations on text whose operands are numbers.
func (d *drawing) doText(name string, n []float64) error {
	t := &d.text
	switch name {
	case "BT":
		d.tm, d.line, d.open, d.within = identity, identity, true, len(d.marked)
	case "ET":
		if d.open = false; len(d.marked) != d.within {
			return unknown("a part that goes beyond its text")
		}
	case "Tc":
		t.space = n[0]
	case "Tw":
		return t.setWord(n[0])
	case "Tz":
		t.wide = n[0] / 100
	case "TL":
		t.lead = n[0]
	case "Ts":
		t.rise = n[0]
	case "Tr":
		t.mode = n[0]
		if n[0] != 0 {
			return unknown("letters that are not filled")
		}
	case "Td":
		return d.next(n[0], n[1])
	case "TD":
		t.lead = -n[1]
		return d.next(n[0], n[1])
	case "T*":
		return d.next(0, -t.lead)
	case "Tm":
		d.tm, d.line = matrix(n), matrix(n)
	}
	return nil
}

// setWord sets by how much spaces are wider. Of codes of two bytes the standard
// has none that is a space for this, some readers have.
func (t *textState) setWord(by float64) error {
	if by != 0 {
		return unknown("spaces that readers make differently wide")
	}
	return nil
}

func (d *drawing) next(x, y float64) error {
	if !d.line.holds(x, y) {
		return errRounding
	}
	d.line = matrix{1, 0, 0, 1, x, y}.times(d.line)
	d.tm = d.line
	return nil
}

func (d *drawing) setFace(op pdffile.Operation) error {
	if len(op.Operands) != 2 {
		return unknown("a font without its size")
	}
	size, ok := op.Operands[1].(float64)
	if !ok {
		return unknown("a font without its size")
	}
	o, err := d.resource("Font", pdffile.Operation{Operands: op.Operands[:1]})
	if err != nil {
		return err
	}
	d.text.size = size
	d.text.face, err = d.faceOf(o)
	return err
}

// show shows the strings of an operation.
func (d *drawing) show(op pdffile.Operation) error {
	operands := op.Operands
	if op.Name == "\"" {
		if len(operands) != 3 {
			return unknown("a text without its spaces")
		}
		word, ok1 := operands[0].(float64)
		space, ok2 := operands[1].(float64)
		if !ok1 || !ok2 {
			return unknown("a text without its spaces")
		}
		if err := d.text.setWord(word); err != nil {
			return err
		}
		d.text.space, operands = space, operands[2:]
	}
	if len(operands) != 1 || d.text.face == nil {
		return unknown("a text without a font")
	}
	if op.Name == "'" || op.Name == "\"" {
		if err := d.next(0, -d.text.lead); err != nil {
			return err
		}
	}
	parts, ok := operands[0].([]pdffile.Object)
	if !ok {
		parts = operands
	}
	for _, part := range parts {
		switch part := part.(type) {
		case pdffile.String:
			if err := d.letters(string(part)); err != nil {
				return err
			}
		case float64:
			if err := d.advance(-part / 1000 * d.text.size); err != nil {
				return err
			}
		default:
			return unknown("a text that is none")
		}
	}
	return nil
}

func (d *drawing) advance(by float64) error {
	if !d.tm.holds(by*d.text.wide, 0) || !d.ctm.holds(d.tm[4], d.tm[5]) {
		return errRounding
	}
	d.tm = matrix{1, 0, 0, 1, by * d.text.wide, 0}.times(d.tm)
	return nil
}

// letters shows a string of two-byte codes.
func (d *drawing) letters(codes string) error {
	t := d.text
	if len(codes)%2 != 0 {
		return unknown("half a letter")
	}
	for i := 0; i < len(codes); i += 2 {
		if d.shown++; d.shown > mostMeasures { // spaces too
			return pdffile.ErrTooLarge
		}
		code := int(codes[i])<<8 | int(codes[i+1])
		g, err := t.face.glyph(code)
		if err != nil {
			return err
		}
		d.hear(g.text)
		m := matrix{t.size * t.wide, 0, 0, t.size, 0, t.rise}.times(d.tm).times(d.ctm)
		if !g.empty {
			err := d.add(Mark{
				Kind: Letter, Text: g.text, Size: t.size * d.tm.times(d.ctm).scale(), Box: m.corners(g.box), Reach: m.reach(g.reach),
				look: g.outline, ink: d.fill, measures: append(m[:], g.shift*m[0], g.shift*m[1]),
			})
			if err != nil {
				return err
			}
		} else if strings.TrimSpace(g.text) != "" {
			return unknown("letters without a shape")
		}
		if err := d.advance(g.width*t.size + t.space); err != nil {
			return err
		}
	}
	return nil
}

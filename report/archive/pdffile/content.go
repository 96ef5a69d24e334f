package pdffile

import (
	"bytes"
	"math"
)

// An Operation is an operator of a page's content with what stands before it.
type Operation struct {
	Name     string
	Operands []Object
}

// contentEntries are those that a content has. What readers know from other
// kinds of data, some know here too.
var contentEntries = map[Name]bool{"Length": true, "Filter": true, "DecodeParms": true, "DL": true}

// Content gives the data of a page's content streams, joined.
func (f *File) Content(page Dict) ([]byte, error) {
	o, err := f.Resolve(page["Contents"])
	if err != nil {
		return nil, err
	}
	parts, ok := o.([]Object)
	if !ok {
		parts = []Object{page["Contents"]}
	}
	if len(parts) > 1000 {
		return nil, ErrTooLarge
	}
	var all []byte
	for _, part := range parts {
		s, err := f.Stream(part)
		if err != nil {
			return nil, err
		}
		if s == nil && len(parts) == 1 && !ok && part == nil {
			continue // a page without content
		}
		if s == nil { // nothing in its place is no better: some readers then show none of the others
			return nil, damaged("a part of the page's content is none")
		}
		data, err := f.unpackPlain(s)
		if err != nil {
			return nil, err
		}
		for key := range s.Dict {
			if !contentEntries[key] {
				return nil, damaged("the page's content has an entry /%s, which readers take differently", key)
			}
		}
		if len(all) > 0 && !apartFrom(all, data) {
			return nil, damaged("the page's content is cut in the middle of a word, which readers join or not")
		}
		if len(all)+len(data) > mostList {
			return nil, ErrTooLarge
		}
		all = append(append(all, data...), '\n')
	}
	return all, nil
}

// apartFrom tells whether a part of a content ends before the next one begins,
// also for readers that put nothing between them: there is space, and no remark
// that would go on.
func apartFrom(before, after []byte) bool {
	before = before[:len(before)-1] // the end of line that was put there
	line := before[bytes.LastIndexAny(before, "\r\n")+1:]
	if bytes.IndexByte(line, '%') >= 0 {
		return false
	}
	return len(before) == 0 || len(after) == 0 || isSpace(before[len(before)-1]) || isSpace(after[0])
}

// Operations takes a content apart; with an error, as far as it was readable.
func (f *File) Operations(content []byte) ([]Operation, error) {
	l := f.lexer(content, 0)
	l.shown = true
	var ops []Operation
	var operands []Object
	for !l.end() {
		o, err := l.object(0)
		if err != nil {
			return ops, err
		}
		op, ok := o.(operator)
		switch {
		case !ok:
			operands = append(operands, o)
		case op == "":
			return ops, damaged("the page's content is not readable")
		case op == "ID":
			return ops, ErrInline
		default:
			ops = append(ops, Operation{string(op), operands})
			operands = nil
		}
	}
	if l.remarks > 0 {
		l.finds("a remark, or white space of another kind, in a content")
	}
	if operands != nil {
		return ops, damaged("the page's content ends in the middle of an operation")
	}
	return ops, nil
}

// A Run is a text as a page shows it, with the start of its baseline in points
// from the page's lower left corner.
type Run struct {
	Text string
	X, Y float64
	Font Name
	Size float64
}

// mostText is how many bytes of codes are made into texts: a page of ours has a
// few thousand.
const mostText = 100_000

type matrix [6]float64

func (m matrix) times(n matrix) matrix {
	return matrix{
		m[0]*n[0] + m[1]*n[2], m[0]*n[1] + m[1]*n[3],
		m[2]*n[0] + m[3]*n[2], m[2]*n[1] + m[3]*n[3],
		m[4]*n[0] + m[5]*n[2] + n[4], m[4]*n[1] + m[5]*n[3] + n[5],
	}
}

type graphics struct {
	ctm  matrix
	font Name
	size float64
}

// Runs are the texts that operations show in a page's fonts, in their order.
func Runs(ops []Operation, fonts map[Name]Font) []Run {
	state := graphics{ctm: matrix{1, 0, 0, 1, 0, 0}}
	var saved []graphics
	var line matrix
	var runs []Run
	left := mostText
	show := func(text string) {
		if left -= len(text); left < 0 {
			return
		}
		at := line.times(state.ctm)
		runs = append(runs, Run{fonts[state.font].text(text), round(at[4]), round(at[5]), state.font, state.size})
	}
	for _, op := range ops {
		n := numbers(op.Operands)
		switch op.Name {
		case "q":
			saved = append(saved, state)
		case "Q":
			if len(saved) > 0 {
				state, saved = saved[len(saved)-1], saved[:len(saved)-1]
			}
		case "cm":
			if len(n) == 6 {
				state.ctm = matrix(n).times(state.ctm)
			}
		case "BT":
			line = matrix{1, 0, 0, 1, 0, 0}
		case "Td", "TD":
			if len(n) == 2 {
				line = matrix{1, 0, 0, 1, n[0], n[1]}.times(line)
			}
		case "Tm":
			if len(n) == 6 {
				line = matrix(n)
			}
		case "Tf":
			if len(op.Operands) == 2 {
				state.font, _ = op.Operands[0].(Name)
				state.size, _ = op.Operands[1].(float64)
			}
		case "Tj", "'", "\"", "TJ":
			show(shown(op.Operands))
		}
	}
	return runs
}

// shown joins the strings of an operator that shows text.
func shown(operands []Object) string {
	if len(operands) == 0 {
		return ""
	}
	switch o := operands[len(operands)-1].(type) {
	case String:
		return string(o)
	case []Object:
		text := ""
		for _, part := range o {
			s, _ := part.(String)
			text += string(s)
		}
		return text
	}
	return ""
}

func numbers(operands []Object) []float64 {
	var n []float64
	for _, o := range operands {
		v, ok := o.(float64)
		if !ok {
			return nil
		}
		n = append(n, v)
	}
	return n
}

func round(v float64) float64 { return math.Round(v*100) / 100 }

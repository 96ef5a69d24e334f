package pdffile

import (
	"bytes"
	"regexp"
	"strconv"
)

// deepest is how deep arrays and dictionaries may stand in one another.
const deepest = 60

// A lexer takes objects off the bytes of a file or a content stream.
type lexer struct {
	data  []byte
	at    int
	left  *int // how many objects may still be made
	shown bool // strings are codes of what is shown, each of which counts

	odd     *string       // what is written as nobody writes it, the first thing; may be nil
	points  bool          // there was a whole number with a point
	pointed map[Name]bool // entries with such a number
	remarks int           // how many there were, or other white space than programs write
}

// operator is a word of a content stream, or a keyword of the file.
type operator string

func isSpace(c byte) bool {
	return c == ' ' || c == '\n' || c == '\r' || c == '\t' || c == '\f' || c == 0
}

func isDelimiter(c byte) bool { return bytes.IndexByte([]byte("()<>[]{}/%"), c) >= 0 }

func (l *lexer) skipSpace() {
	for l.at < len(l.data) {
		switch c := l.data[l.at]; {
		case isSpace(c):
			if c == 0 || c == '\f' {
				l.remarks++
			}
			l.at++
		case c == '%':
			l.remarks++
			for l.at < len(l.data) && l.data[l.at] != '\n' && l.data[l.at] != '\r' {
				l.at++
			}
		default:
			return
		}
	}
}

// end reports whether nothing but space is left.
func (l *lexer) end() bool {
	l.skipSpace()
	return l.at >= len(l.data)
}

// take takes a mark where it comes next.
func (l *lexer) take(mark string) bool {
	if bytes.HasPrefix(l.data[min(l.at, len(l.data)):], []byte(mark)) {
		l.at += len(mark)
		return true
	}
	return false
}

// object takes the next object; a word that is none of PDF's own comes as an
// operator. References are not put together: see reference.
func (l *lexer) object(depth int) (Object, error) {
	l.skipSpace()
	if depth > deepest {
		return nil, damaged("objects stand more than %d deep in one another", deepest)
	}
	if *l.left--; *l.left < 0 {
		return nil, ErrTooLarge
	}
	if l.at >= len(l.data) {
		return nil, damaged("it ends in the middle of an object")
	}
	switch {
	case l.take("<<"):
		return l.dict(depth)
	case l.take("["):
		return l.array(depth)
	case l.take("/"):
		return l.name()
	case l.take("("):
		return l.literal()
	case l.take("<"):
		return l.hexadecimal()
	case isDelimiter(l.data[l.at]):
		return nil, damaged("an unexpected %q at byte %d", l.data[l.at], l.at)
	}
	return l.word()
}

// objectOrRef takes the next object, a reference as one.
func (l *lexer) objectOrRef(depth int) (Object, error) {
	l.skipSpace()
	start := l.at
	o, err := l.object(depth)
	n, isNumber := o.(float64)
	if err != nil || !isNumber || !isFigures(l.data[start:l.at]) || n != float64(int(n)) {
		return o, err
	}
	start = l.at
	l.skipSpace()
	second := l.at
	if l.at < len(l.data) && l.data[l.at] >= '0' && l.data[l.at] <= '9' {
		if g, ok := l.whole(); ok {
			written := l.data[second:l.at]
			l.skipSpace()
			if o, err := l.word(); err == nil && o == operator("R") {
				if len(written) > 1 && written[0] == '0' {
					l.finds("a reference to a generation %s", written)
				}
				return Ref{int(n), g}, nil
			}
		}
	}
	l.at = start
	return o, nil
}

func (l *lexer) array(depth int) (Object, error) {
	list := []Object{}
	for {
		l.skipSpace()
		if l.take("]") {
			return list, nil
		}
		o, err := l.objectOrRef(depth + 1)
		if err != nil {
			return nil, err
		}
		list = append(list, o)
	}
}

// wholeEntries are whole numbers: of others some readers make nothing.
var wholeEntries = map[Name]bool{
	"Length": true, "N": true, "First": true, "Size": true, "Count": true, "Prev": true, "Rotate": true, "StructParents": true, "MCID": true,
	"F": true, "Predictor": true, "Columns": true, "Colors": true, "BitsPerComponent": true, "Width": true, "Height": true,
}

// pointedCode is the first code of widths, and pointedMark the number of a marked part of
// a page, written with a point: some readers take these for nothing.
var (
	pointedCode = regexp.MustCompile(`\d*\.\d*\s*\[`)
	pointedMark = regexp.MustCompile(`^\[[^<]*\.`)
)

func (l *lexer) dict(depth int) (Object, error) {
	d := Dict{}
	for {
		l.skipSpace()
		if l.take(">>") {
			return d, nil
		}
		if !l.take("/") {
			return nil, damaged("a dictionary without a name at byte %d", l.at)
		}
		key, err := l.name()
		if err != nil {
			return nil, err
		}
		l.skipSpace()
		start := l.at
		l.points = false
		value, err := l.objectOrRef(depth + 1)
		if err != nil {
			return nil, err
		}
		if l.points && l.pointed != nil {
			l.pointed[key] = true
		}
		l.points = false
		if wholeEntries[key] && pointed(value, l.data[start:l.at]) {
			return nil, damaged("/%s is not a whole number", key)
		}
		if _, list := value.([]Object); list && (key == "W" && pointedCode.Match(l.data[start:l.at]) || key == "K" && pointedMark.Match(l.data[start:l.at])) {
			return nil, damaged("/%s has a number that is not whole where readers take whole ones", key)
		}
		if _, twice := d[key]; twice { // one reader takes the first, another the last
			return nil, damaged("a dictionary has /%s twice", key)
		}
		d[key] = value
	}
}

func (l *lexer) name() (Name, error) {
	var name []byte
	for ; l.at < len(l.data) && !isSpace(l.data[l.at]) && !isDelimiter(l.data[l.at]); l.at++ {
		c := l.data[l.at]
		if c == '#' {
			v, err := uint64(0), error(nil)
			if l.at+2 < len(l.data) {
				v, err = strconv.ParseUint(string(l.data[l.at+1:l.at+3]), 16, 8)
			}
			if err != nil || v == 0 {
				return "", damaged("a name with a wrong escape at byte %d", l.at)
			}
			l.oddLetter(byte(v), true)
			c = byte(v)
			l.at += 2
		} else {
			l.oddLetter(c, false)
		}
		name = append(name, c)
	}
	if len(name) == 0 {
		l.finds("a name without letters")
	}
	return Name(name), nil
}

// word takes a number, a keyword or an operator. What begins like a number has
// to be one as PDF has them: readers make different ones of 1e2 or 1-2.
func (l *lexer) word() (Object, error) {
	start := l.at
	text := l.letters()
	if len(text) == 0 {
		return operator(""), nil
	}
	if c := text[0]; c >= '0' && c <= '9' || c == '-' || c == '+' || c == '.' {
		v, ok := number(text)
		if !ok {
			return nil, damaged("%q at byte %d is not a number of PDF", text[:min(len(text), 20)], start)
		}
		l.oddNumber(text, v)
		return v, nil
	}
	switch string(text) {
	case "true":
		return true, nil
	case "false":
		return false, nil
	case "null":
		return nil, nil
	}
	return operator(text), nil
}

// letters takes what goes up to the next space or delimiter.
func (l *lexer) letters() []byte {
	start := l.at
	for l.at < len(l.data) && !isSpace(l.data[l.at]) && !isDelimiter(l.data[l.at]) {
		l.at++
	}
	return l.data[start:l.at]
}

// number reads a number: a sign, figures, and a point among them (ISO 32000-2,
// 7.3.3).
func number(text []byte) (float64, bool) {
	figures, points := 0, 0
	for i, c := range text {
		switch {
		case c >= '0' && c <= '9':
			figures++
		case c == '.':
			points++
		case i > 0 || c != '-' && c != '+':
			return 0, false
		}
	}
	if figures == 0 || points > 1 || figures > 20 {
		return 0, false
	}
	v, err := strconv.ParseFloat(string(text), 64)
	return v, err == nil
}

// whole takes a whole number that is not negative.
func (l *lexer) whole() (int, bool) {
	l.skipSpace()
	text := l.letters()
	n, err := strconv.Atoi(string(text))
	return n, err == nil && isFigures(text) && n <= 1<<40
}

// isFigures tells whether a number is written with figures alone, as those of
// objects are.
func isFigures(text []byte) bool {
	for _, c := range text {
		if c < '0' || c > '9' {
			return false
		}
	}
	return len(text) > 0
}

func (l *lexer) hexadecimal() (Object, error) {
	end := bytes.IndexByte(l.data[l.at:], '>')
	if end < 0 {
		return nil, damaged("it ends in the middle of a string")
	}
	var out []byte
	l.oddFigures(l.data[l.at : l.at+end])
	half, high := false, byte(0)
	for _, c := range l.data[l.at : l.at+end] {
		if isSpace(c) {
			continue
		}
		v, err := strconv.ParseUint(string(c), 16, 8)
		if err != nil {
			return nil, damaged("a string with a wrong figure at byte %d", l.at)
		}
		if half {
			out = append(out, high|byte(v))
		}
		half, high = !half, byte(v)<<4
	}
	if half {
		out = append(out, high)
	}
	l.at += end + 1
	return String(out), nil
}

var escapes = map[byte]byte{'n': '\n', 'r': '\r', 't': '\t', 'b': '\b', 'f': '\f'}

func (l *lexer) literal() (Object, error) {
	var out []byte
	for open := 1; l.at < len(l.data); l.at++ {
		switch c := l.data[l.at]; c {
		case '(':
			open++
			out = append(out, c)
		case ')':
			if open--; open == 0 {
				l.at++
				return String(out), nil
			}
			out = append(out, c)
		case '\\':
			l.at++
			if l.shown && l.at+2 < len(l.data) && l.data[l.at] > '3' && l.data[l.at] <= '7' && isOctal(l.data[l.at+1]) && isOctal(l.data[l.at+2]) {
				return nil, damaged("a code in a text that no byte has")
			}
			out = l.escape(out)
		case '\r': // an end of line in a string is a line feed, for some
			if l.shown {
				return nil, damaged("an end of line in a text, which readers take for two different codes")
			}
			l.finds("an end of line in a string")
			out = append(out, '\n')
			if l.at+1 < len(l.data) && l.data[l.at+1] == '\n' {
				l.at++
			}
		default:
			out = append(out, c)
		}
	}
	return nil, damaged("it ends in the middle of a string")
}

func isOctal(c byte) bool { return c >= '0' && c <= '7' }

// escape decodes what follows a backslash and stays on its last byte.
func (l *lexer) escape(out []byte) []byte {
	if l.at >= len(l.data) {
		return out
	}
	c := l.data[l.at]
	if special, ok := escapes[c]; ok {
		return append(out, special)
	}
	if octal := bytes.TrimLeft(l.data[l.at:min(l.at+3, len(l.data))], "01234567"); c != '(' && c != ')' && c != '\\' && (len(octal) > 0 || c > '3') {
		l.finds("a backslash in a string before %q", c)
	}
	switch {
	case c == '\n':
		return out
	case c == '\r':
		if l.at+1 < len(l.data) && l.data[l.at+1] == '\n' {
			l.at++
		}
		return out
	case c < '0' || c > '7':
		return append(out, c)
	}
	v := 0
	for i := 0; i < 3 && l.at < len(l.data) && l.data[l.at] >= '0' && l.data[l.at] <= '7'; i++ {
		v = v*8 + int(l.data[l.at]-'0')
		l.at++
	}
	l.at--
	return append(out, byte(v))
}

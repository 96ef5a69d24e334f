package pdffile

import "strings"

// A Font tells which characters the codes of a text stand for. Codes have two
// bytes; a font without a list of characters is one whose codes are the
// characters in UTF-16.
type Font map[uint16]string

// Fonts are the fonts of a page by the names that its content has for them.
func (f *File) Fonts(page Dict) (map[Name]Font, error) {
	resources, err := f.Dict(page["Resources"])
	if err != nil {
		return nil, err
	}
	named, err := f.Dict(resources["Font"])
	if err != nil {
		return nil, err
	}
	fonts := map[Name]Font{}
	for name, o := range named {
		font, err := f.Dict(o)
		if err != nil {
			return nil, err
		}
		if fonts[name], err = f.Characters(font["ToUnicode"]); err != nil {
			return nil, err
		}
	}
	return fonts, nil
}

// Characters reads the list of characters of a font; nil where there is none.
func (f *File) Characters(o Object) (Font, error) {
	list, err := f.Stream(o)
	if err != nil || list == nil {
		return nil, err
	}
	data, err := f.unpackPlain(list)
	if err != nil {
		return nil, err
	}
	return f.characters(data)
}

// listWords are the operators of a list of characters (Adobe Technical Note 5014),
// those that begin and end a part of it apart. Others say what a code is drawn
// with, or take in another list: some readers take that for characters too.
var listWords = wordsOf("findresource dict dup begin begincmap def endcmap CMapName currentdict defineresource pop end")

// listParts are the parts of a list of characters, by what ends them, and what
// begins them.
var listParts = map[string]string{"endcodespacerange": "begincodespacerange", "endbfchar": "beginbfchar", "endbfrange": "beginbfrange"}

func wordsOf(list string) map[string]bool {
	words := map[string]bool{}
	for _, w := range strings.Fields(list) {
		words[w] = true
	}
	return words
}

var errCharacters = damaged("a list of characters is written in a way that readers take differently")

// characters reads a list of characters (ISO 32000-2, 9.10.3).
func (f *File) characters(data []byte) (Font, error) {
	ops, err := f.Operations(data)
	if err != nil {
		return nil, err
	}
	font := Font{}
	begun := ""
	for _, op := range ops {
		begins := listParts[op.Name]
		switch {
		case begins != begun: // it ends what was not begun, or the other way round
			return nil, errCharacters
		case begins != "":
			begun = ""
			if err := f.listPart(font, op); err != nil {
				return nil, err
			}
		case isPart(op.Name):
			begun = op.Name
		case !listWords[op.Name]:
			return nil, errCharacters
		}
	}
	return font, nil
}

func isPart(name string) bool {
	for _, begins := range listParts {
		if begins == name {
			return true
		}
	}
	return false
}

// listPart reads a part of a list of characters, at its end.
func (f *File) listPart(font Font, op Operation) error {
	size := 2
	if op.Name == "endbfrange" {
		size = 3
	}
	o := op.Operands
	if len(o)%size != 0 {
		return errCharacters
	}
	for ; len(o) > 0; o = o[size:] {
		low, ok := code(o[0])
		switch {
		case !ok:
			return errCharacters
		case op.Name == "endbfchar":
			to, isText := o[1].(String)
			if !isText {
				return errCharacters
			}
			font.set(low, UTF16(string(to)))
		case op.Name == "endbfrange":
			if f.made -= font.fill(o[0], o[1], o[2]); f.made < 0 {
				return ErrTooLarge
			}
		}
	}
	return nil
}

// set sets what a code stands for. Of two characters for one code, one reader
// takes the first and another the last: it stands for none.
func (font Font) set(code uint16, text string) {
	if before, given := font[code]; given && before != text {
		text = "\ufffd"
	}
	font[code] = text
}

// fill sets a range of codes: to characters one after another, or to those
// of a list. It gives how many there were.
func (font Font) fill(low, high, to Object) int {
	from, ok1 := code(low)
	end, ok2 := code(high)
	if !ok1 || !ok2 {
		return 0
	}
	const longest = 64 // bytes that one code stands for
	if s, ok := to.(String); ok && len(s) > longest {
		return 0
	}
	n := 0
	for ; int(from)+n <= int(end); n++ {
		switch to := to.(type) {
		case String:
			r := []rune(UTF16(string(to)))
			if len(r) == 0 {
				return n
			}
			r[len(r)-1] += rune(n)
			font.set(from+uint16(n), string(r))
		case []Object:
			if n >= len(to) {
				return n
			}
			s, _ := to[n].(String)
			font.set(from+uint16(n), UTF16(string(s)))
		default:
			return n
		}
	}
	return n
}

func code(o Object) (uint16, bool) {
	s, ok := o.(String)
	switch {
	case ok && len(s) == 2:
		return uint16(s[0])<<8 | uint16(s[1]), true
	case ok && len(s) == 1:
		return uint16(s[0]), true
	}
	return 0, false
}

// text decodes a text's codes.
func (font Font) text(codes string) string {
	if font == nil {
		return UTF16(codes)
	}
	var b strings.Builder
	for i := 0; i+1 < len(codes); i += 2 {
		s, ok := font[uint16(codes[i])<<8|uint16(codes[i+1])]
		if !ok {
			s = "\ufffd"
		}
		b.WriteString(s)
	}
	return b.String()
}

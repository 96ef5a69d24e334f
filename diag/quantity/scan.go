package quantity

import (
	"unicode"
)

// Scan reads what is written for one figure: numbers with their units, and the
// words and signs between them, such as 'about 120', '145-155 psi', '39 psi +/- 3',
// '72/80' and 'at least 500 ml in 30 s'. The errors are of type *ParseError, and
// say at which character they are.
func Scan(text string) (Phrase, error) { return ScanAs(text, Dimensionless) }

// ScanAs is Scan where a dimension is expected: then spellings are taken that
// name a unit in that place only, such as 'lb' for a pressure and 'thou' for a
// length.
func ScanAs(text string, expected Dimension) (Phrase, error) {
	if v, ok := figures(text); ok {
		return Phrase{Parts: []Part{{Value: Value{Number: v}, Text: text}}}, nil
	}
	if len(text) > longest {
		return Phrase{}, &ParseError{Found: text, Expected: numberExpected}
	}
	s := &scanner{text: []rune(Plain(text)), expected: expected, whole: text}
	s.places(text)
	p, err := s.phrase()
	if err != nil {
		return Phrase{}, err
	}
	return p, nil
}

// longest is how many bytes one figure may take with its words: what is longer is
// none, and would be gone through for each of the numbers in it.
const longest = 1000

// A scanner is where the scan of a text has come to.
type scanner struct {
	text     []rune // with signs spelled out
	at       int
	expected Dimension
	whole    string // as written
	from     []int  // the character as written of each of the text
	listed   bool   // a space alone has separated two numbers
}

// places remembers where each character stood as written: a fraction that is
// one character there is spelled out here.
func (s *scanner) places(text string) {
	for i, c := range []rune(text) {
		for range []rune(Plain(string(c))) {
			s.from = append(s.from, i)
		}
	}
}

func (s *scanner) written(at int) int {
	switch {
	case len(s.from) == 0:
		return 0
	case at >= len(s.from):
		return s.from[len(s.from)-1] + 1
	}
	return s.from[at]
}

func (s *scanner) fail(at int, found, expected, hint string) error {
	return &ParseError{Found: found, Expected: expected, Hint: hint, At: s.written(at)}
}

func (s *scanner) spaces() {
	for s.at < len(s.text) && unicode.IsSpace(s.text[s.at]) {
		s.at++
	}
}

func (s *scanner) end() bool { return s.at >= len(s.text) }

// peek gives the character at some distance, 0 beyond the end.
func (s *scanner) peek(ahead int) rune {
	if i := s.at + ahead; i >= 0 && i < len(s.text) {
		return s.text[i]
	}
	return 0
}

func digit(c rune) bool { return c >= '0' && c <= '9' }

// take goes past some words or a sign, whose case and inner spaces do not
// matter; a word ends where letters end.
func (s *scanner) take(words string) bool {
	at := s.at
	for _, c := range words {
		if c == ' ' {
			before := at
			for at < len(s.text) && unicode.IsSpace(s.text[at]) {
				at++
			}
			if at == before {
				return false
			}
			continue
		}
		if at >= len(s.text) || unicode.ToLower(s.text[at]) != c {
			return false
		}
		at++
	}
	last := s.text[at-1]
	if unicode.IsLetter(last) && at < len(s.text) && (unicode.IsLetter(s.text[at]) || s.text[at] == '/' && at+1 < len(s.text) && unicode.IsLetter(s.text[at+1])) {
		return false
	}
	s.at = at
	return true
}

func (s *scanner) phrase() (Phrase, error) {
	var p Phrase
	between := s.take("between") || s.take("from")
	for {
		part, err := s.part(p.Joins)
		if err != nil {
			return p, err
		}
		p.Parts = append(p.Parts, part)
		s.spaces()
		if s.end() {
			break
		}
		join, err := s.join()
		if err != nil {
			return p, err
		}
		p.Joins = append(p.Joins, join)
		if join == Bracket {
			inner, err := s.bracket()
			if err != nil {
				return p, err
			}
			p.Parts = append(p.Parts, inner)
			if s.spaces(); !s.end() {
				return p, s.fail(s.at, string(s.text[s.at:]), "nothing behind the bracket", "")
			}
			break
		}
	}
	if between && len(p.Joins) == 1 && p.Joins[0] == And { // between 80 and 90
		p.Joins[0] = To
	}
	p.Bound = p.Parts[0].Bound
	return p, nil
}

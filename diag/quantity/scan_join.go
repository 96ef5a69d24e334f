package quantity

import (
	"strings"
	"unicode"
)

// join reads what stands between two numbers. A space alone is one too.
func (s *scanner) join() (Join, error) {
	begin := s.at
	if s.take("/") { // 1 qt/min
		if _, isTime := s.timeHere(); isTime {
			return In, nil
		}
		s.at = begin
	}
	for _, j := range joinsBetween {
		at := s.at
		if !s.take(j.words) {
			continue
		}
		if s.joinsHere(j.join) {
			return j.join, nil
		}
		s.at = at
	}
	if s.at > 0 && unicode.IsSpace(s.text[s.at-1]) && (digit(s.peek(0)) || s.peek(0) == '.' && digit(s.peek(1)) || s.peek(0) == '-' && digit(s.peek(1)) || s.boundHere()) {
		s.listed = true
		return Next, nil
	}
	end := s.at
	for end < len(s.text) && !unicode.IsSpace(s.text[end]) {
		end++
	}
	found := string(s.text[begin:end])
	return Next, s.fail(begin, found, unitExpected, unitHint(foldSpelling(found), strings.TrimSpace(string(s.text[:begin]))))
}

// boundHere reports whether a word that begins a part stands here.
func (s *scanner) boundHere() bool {
	at := s.at
	defer func() { s.at = at }()
	for _, b := range boundsBefore {
		if s.at = at; s.take(b.words) {
			s.spaces()
			return digit(s.peek(0))
		}
	}
	return false
}

// joinsHere reports whether a number follows a join, or the name of a time,
// 'per minute'.
func (s *scanner) joinsHere(j Join) bool {
	at := s.at
	defer func() { s.at = at }()
	s.spaces()
	if j == Bracket {
		return true
	}
	if j == In && !digit(s.peek(0)) {
		s.takeArticle()
		_, isTime := s.timeHere()
		return isTime
	}
	if s.boundHere() {
		return true
	}
	if c := s.peek(0); c == '-' || c == '+' || c == '.' {
		s.at++
	}
	if s.peek(0) == '.' {
		s.at++
	}
	return digit(s.peek(0))
}

// timeHere gives the unit of time whose name stands here.
func (s *scanner) timeHere() (Unit, bool) {
	unit, known := bySpelling[foldSpelling(s.word())]
	return unit, known && DimensionOf(unit) == Time
}

func (s *scanner) takeArticle() {
	for _, article := range []string{"a ", "one ", "an ", "the "} {
		if strings.HasPrefix(strings.ToLower(string(s.text[s.at:])), article) {
			s.at += len(article)
			s.spaces()
			return
		}
	}
}

// word gives the letters here.
func (s *scanner) word() string {
	end := s.at
	for end < len(s.text) && (unicode.IsLetter(s.text[end]) || s.text[end] == '.') {
		end++
	}
	return string(s.text[s.at:end])
}

// bracket reads a number in brackets.
func (s *scanner) bracket() (Part, error) {
	part, err := s.part(nil)
	if err != nil {
		return part, err
	}
	s.spaces()
	if s.peek(0) != ')' {
		return part, s.fail(s.at, string(s.text[s.at:]), "')' behind the number", "")
	}
	s.at++
	return part, nil
}

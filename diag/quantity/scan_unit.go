package quantity

import (
	"strings"
	"unicode"
)

// mostUnitWords is how many words a unit has at most: pounds per square inch.
const mostUnitWords = 4

// unit reads the unit behind a number, the longest that there is.
func (s *scanner) unit(number string) (u Unit, factor float64, spelled string, err error) {
	before := s.at
	s.spaces()
	begin := s.at
	for _, end := range s.unitEnds() {
		spelled = strings.TrimSpace(string(s.text[begin:end]))
		unit, known := bySpelling[foldSpelling(spelled)]
		loose, isLoose := looseSpellings[foldSpelling(spelled)]
		switch {
		case known && !s.wordOfJoin(spelled, end):
			s.at = end
			return unit, 1, spelled, nil
		case !known && isLoose && (loose.dimension == s.expected || loose.dimension == Length):
			s.at = end
			return loose.unit, loose.factor, spelled, nil
		}
	}
	s.at = before
	if s.peek(0) == ' ' || s.end() || !unitBegins(s.text[begin:]) {
		return None, 1, "", nil
	}
	if at := s.at; s.joinNow() || s.boundNow() {
		s.at = at
		return None, 1, "", nil
	}
	end := s.unitEnds()
	found := string(s.text[begin:end[0]])
	return None, 1, found, s.fail(begin, found, unitExpected, unitHint(foldSpelling(found), number))
}

// wordOfJoin reports an 'in' that has a number behind it and is no inch, and a
// 'min' behind another unit.
func (s *scanner) wordOfJoin(spelled string, end int) bool {
	if !strings.EqualFold(spelled, "in") {
		return false
	}
	for end < len(s.text) && unicode.IsSpace(s.text[end]) {
		end++
	}
	if end < len(s.text) && digit(s.text[end]) {
		return true
	}
	rest := &scanner{text: s.text, at: end}
	return rest.joinsHere(In)
}

func (s *scanner) joinNow() bool {
	_, err := s.join()
	return err == nil
}

func (s *scanner) boundNow() bool {
	var part Part
	s.behind(&part)
	return part.Bound != Exact
}

func unitBegins(text []rune) bool {
	return len(text) > 0 && (unicode.IsLetter(text[0]) || text[0] == '#')
}

// unitEnds are the places at which a unit that begins here may end, longest
// first.
func (s *scanner) unitEnds() []int {
	var ends []int
	words := 0
	end := s.at
	for end < len(s.text) && words < mostUnitWords {
		c := s.text[end]
		if unicode.IsSpace(c) {
			ends = append(ends, end)
			words++
			for end < len(s.text) && unicode.IsSpace(s.text[end]) {
				end++
			}
			continue
		}
		if strings.ContainsRune("+±()[],;~<>=≈–—:|&@", c) || c == '.' && end+1 < len(s.text) && s.text[end+1] == '.' {
			break
		}
		if c == '-' || c == '/' {
			ends = append(ends, end)
		}
		end++
	}
	if words < mostUnitWords {
		ends = append(ends, end)
	}
	out := make([]int, 0, len(ends))
	for i := len(ends) - 1; i >= 0; i-- {
		if ends[i] > s.at {
			out = append(out, ends[i])
		}
	}
	if len(out) == 0 {
		out = append(out, min(s.at+1, len(s.text)))
	}
	return out
}

// looseSpelling is one that names a unit only where its dimension is expected.
type looseSpelling struct {
	dimension Dimension
	unit      Unit
	factor    float64
}

var looseSpellings = func() map[string]looseSpelling {
	out := map[string]looseSpelling{}
	add := func(d Dimension, u Unit, factor float64, spellings ...string) {
		for _, s := range spellings {
			out[s] = looseSpelling{d, u, factor}
		}
	}
	add(Pressure, PSI, 1, "lb", "lbs", "#", "pound", "pounds", "lbf", "poundspersquareinch", "lbspersquareinch", "lbpersquareinch", "lbspersqin")
	add(Pressure, KgfPerCm2, 1, "kg", "kgs", "kgf", "kilo", "kilos", "kg/sqcm", "kgs/cm2", "kilogram", "kilograms")
	add(Pressure, InHg, 1, "hg")
	add(Length, Inch, 0.001, "thou", "thous", "thousandths", "mil", "mils", "thousandth")
	return out
}()

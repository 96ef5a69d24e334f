package quantity

import (
	"strconv"
	"strings"
	"unicode"
)

// figures reads a number and nothing else, as most readings are.
func figures(text string) (float64, bool) {
	if text == "" || strings.Trim(text, "0123456789.") != "" || strings.Count(text, ".") > 1 || strings.HasSuffix(text, ".") {
		return 0, false
	}
	v, err := strconv.ParseFloat(text, 64)
	return v, err == nil && finite(v)
}

// part reads one number with what stands before and behind it.
func (s *scanner) part(joins []Join) (Part, error) {
	s.spaces()
	begin, bound := s.at, Exact
	if len(joins) > 0 && joins[len(joins)-1] == In && !digit(s.peek(0)) { // per minute
		s.takeArticle()
		name := s.word()
		s.at += len([]rune(name))
		return Part{Value: Value{1, bySpelling[foldSpelling(name)]}, Text: string(s.text[begin:s.at]), At: s.written(begin)}, nil
	}
	for _, b := range boundsBefore {
		if s.take(b.words) {
			bound = b.bound
			break
		}
	}
	s.spaces()
	if s.peek(0) == '#' && digit(s.peek(1)) { // #110, pounds
		number := strings.TrimRight(strings.TrimPrefix(string(s.text[s.at:]), "#"), " lbsLBS#")
		if s.expected != Pressure {
			return Part{}, s.fail(s.at, string(s.text[s.at:]), numberExpected, unitHint("#", number))
		}
		s.at++
		part, err := s.number(begin, bound)
		if err == nil && part.Value.Unit == None {
			part.Value.Unit = PSI
		}
		return part, err
	}
	return s.number(begin, bound)
}

// number reads a number, its unit, and what stands behind it.
func (s *scanner) number(begin int, bound Bound) (Part, error) {
	start := s.at
	sign := 1.0
	switch s.peek(0) {
	case '-':
		sign = -1
		s.at++
	case '+':
		s.at++
	}
	at := s.at
	digits := s.digits()
	if digits == "" {
		return Part{}, s.noNumber(start)
	}
	plus := s.peek(0) == '+' && !s.plusMinus() // '300+ psi'
	if plus {
		s.at++
	}
	unit, factor, spelled, err := s.unit(string(s.text[start:at]) + digits)
	if err != nil {
		return Part{}, err
	}
	if unit != None && !strings.ContainsFunc(spelled, unicode.IsLetter) { // 5,000'
		spelled = string(unit)
	}
	value, perr := numberOf(digits, spelled)
	if perr != nil {
		perr.At = s.written(start)
		return Part{}, perr
	}
	part := Part{Value: Value{Number: sign * value * factor, Unit: unit}, At: s.written(start), Bound: bound}
	part.Text = strings.TrimSpace(string(s.text[start:s.at]))
	if plus {
		part.Text = strings.TrimSpace(string(s.text[start:at])+digits) + strings.TrimPrefix(part.Text, string(s.text[start:at])+digits+"+")
		part.Bound = AtLeast
	}
	s.behind(&part)
	if plus && bound != Exact || bound != Exact && part.Bound != bound {
		return Part{}, s.fail(begin, string(s.text[begin:s.at]), "a number that is inexact in one way", "")
	}
	return part, nil
}

// plusMinus reports whether a tolerance begins here.
func (s *scanner) plusMinus() bool {
	rest := strings.ReplaceAll(string(s.text[s.at:]), " ", "")
	return strings.HasPrefix(rest, "+/-") || strings.HasPrefix(rest, "+-")
}

// behind reads the words behind a number that say how it is meant.
func (s *scanner) behind(part *Part) {
	before := s.at
	s.spaces()
	if s.plusMinus() {
		s.at = before
		return
	}
	for _, b := range boundsAfter {
		at := s.at
		if !s.take(b.words) {
			continue
		}
		if after := s.at; b.words == "plus" { // 'plus or minus'
			s.at = at
			if s.take("plus or minus") || s.take("plus/minus") {
				s.at = before
				return
			}
			s.at = after
		}
		part.Bound = b.bound
		return
	}
	s.at = before
}

// noNumber says that there is no number where one is expected.
func (s *scanner) noNumber(at int) error {
	found := strings.TrimSpace(string(s.text[at:]))
	if found == "" {
		found = s.whole
	}
	return s.fail(at, found, numberExpected, "")
}

// digits goes past the figures of one number, with its point, thousands and
// fraction.
func (s *scanner) digits() string {
	if s.peek(0) == '.' && !digit(s.peek(1)) || s.peek(0) != '.' && !digit(s.peek(0)) {
		return ""
	}
	begin := s.at
	figures := func() int {
		at := s.at
		for digit(s.peek(0)) {
			s.at++
		}
		return s.at - at
	}
	head := figures()
	if s.thousands(head) { // 1 100
		s.at++
		figures()
	}
	for (s.peek(0) == '.' || s.peek(0) == ',') && digit(s.peek(1)) {
		s.at++
		figures()
	}
	if head > 0 { // 5 1/2, 1/2
		s.fraction(begin)
	}
	out := string(s.text[begin:s.at])
	if s.peek(0) == '.' && s.peek(1) != '.' && !unicode.IsLetter(s.peek(1)) { // a full stop
		s.at++
	}
	return out
}

// thousands reports a space with three figures behind it, after one to three.
// Where more numbers follow they are a list.
func (s *scanner) thousands(head int) bool {
	group := head >= 1 && head <= 3 && s.peek(0) == ' ' && digit(s.peek(1)) && digit(s.peek(2)) && digit(s.peek(3)) && !digit(s.peek(4)) && s.peek(4) != '/'
	return group && !s.listed && !(s.peek(4) == ' ' && digit(s.peek(5)))
}

// fraction goes past a fraction that a rule or a dial is divided into.
func (s *scanner) fraction(begin int) {
	plain := func(from, to int) bool { return to > from && strings.Trim(string(s.text[from:to]), "0123456789") == "" }
	at := s.at
	top, from := string(s.text[begin:at]), begin
	if s.peek(0) == ' ' && plain(begin, at) {
		from = at + 1
		end := from
		for end < len(s.text) && digit(s.text[end]) {
			end++
		}
		top, s.at = string(s.text[from:end]), end
	}
	if !plain(from, s.at) || s.peek(0) != '/' || !digit(s.peek(1)) {
		s.at = at
		return
	}
	slash := s.at
	for s.at++; digit(s.peek(0)); s.at++ {
	}
	if !isFraction(top, string(s.text[slash+1:s.at])) {
		s.at = at
	}
}

// isFraction takes only what a rule or a dial is divided into, so that '145/148'
// (two readings) and '72/80' (held of supplied) are no number below one.
func isFraction(top, bottom string) bool {
	a, errA := strconv.Atoi(top)
	b, errB := strconv.Atoi(bottom)
	if errA != nil || errB != nil {
		return false
	}
	switch b {
	case 2, 3, 4, 5, 8, 10, 16, 32, 64:
		return a > 0 && a < b
	}
	return false
}

// numberOf gives the value of some figures.
func numberOf(digits, spelled string) (float64, *ParseError) {
	plain := digits
	if decimalCommaOf(digits) {
		plain = strings.Replace(digits, ",", ".", 1)
	}
	if whole, fraction, ok := strings.Cut(plain, "/"); ok {
		return fractionOf(whole, fraction)
	}
	plain = strings.ReplaceAll(plain, " ", "")
	if strings.Contains(plain, ",") || strings.Count(plain, ".") > 1 {
		return 0, &ParseError{Found: digits, Expected: numberExpected, Hint: separatorHint(digits, spelled)}
	}
	v, err := strconv.ParseFloat(plain, 64)
	if err != nil || !finite(v) {
		return 0, &ParseError{Found: digits, Expected: "a smaller number"}
	}
	return v, nil
}

func fractionOf(whole, bottom string) (float64, *ParseError) {
	top := whole
	sum := 0.0
	if w, t, ok := strings.Cut(whole, " "); ok {
		sum, _ = strconv.ParseFloat(w, 64)
		top = t
	}
	a, _ := strconv.ParseFloat(top, 64)
	b, _ := strconv.ParseFloat(bottom, 64)
	if v := sum + a/b; finite(v) {
		return v, nil
	}
	return 0, &ParseError{Found: whole + "/" + bottom, Expected: "a smaller number"}
}

// decimalCommaOf reports a comma that can only stand for a decimal point: it is
// the only sign, and not followed by three figures that could be hundreds.
func decimalCommaOf(digits string) bool {
	whole, part, ok := strings.Cut(digits, ",")
	return ok && !strings.ContainsAny(part, ",. /") && !strings.ContainsAny(whole, ".") && (len(part) != 3 || strings.Trim(whole, "0") == "" || len(whole) > 3)
}

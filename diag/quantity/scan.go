package quantity

import (
	"fmt"
	"strconv"
	"strings"
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
	s := &scanner{text: []rune(Plain(text)), expected: expected, whole: text}
	s.places(text)
	p, err := s.phrase()
	if err != nil {
		return Phrase{}, err
	}
	return p, nil
}

// figures reads a number and nothing else, as most readings are.
func figures(text string) (float64, bool) {
	if text == "" || strings.Trim(text, "0123456789.") != "" || strings.Count(text, ".") > 1 || strings.HasSuffix(text, ".") {
		return 0, false
	}
	v, err := strconv.ParseFloat(text, 64)
	return v, err == nil && finite(v)
}

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

func (s *scanner) place(at int) int {
	switch {
	case len(s.from) == 0:
		return 0
	case at >= len(s.from):
		return s.from[len(s.from)-1] + 1
	}
	return s.from[at]
}

func (s *scanner) fail(at int, found, expected, hint string) error {
	return &ParseError{Found: found, Expected: expected, Hint: hint, At: s.place(at)}
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
	p.Bound = p.Parts[0].Bound
	return p, nil
}

// part reads one number with what stands before and behind it.
func (s *scanner) part(joins []Join) (Part, error) {
	s.spaces()
	begin, bound := s.at, Exact
	if len(joins) > 0 && joins[len(joins)-1] == In && !digit(s.peek(0)) { // per minute
		s.takeArticle()
		name := s.word()
		s.at += len([]rune(name))
		return Part{Value: Value{1, bySpelling[foldSpelling(name)]}, Text: string(s.text[begin:s.at]), At: s.place(begin)}, nil
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
	value, perr := numberOf(digits, spelled)
	if perr != nil {
		perr.At = s.place(start)
		return Part{}, perr
	}
	part := Part{Value: Value{Number: sign * value * factor, Unit: unit}, At: s.place(start), Bound: bound}
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

// join reads what stands between two numbers. A space alone is one too.
func (s *scanner) join() (Join, error) {
	begin := s.at
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
		name := s.word()
		if unit, ok := bySpelling[foldSpelling(name)]; ok && DimensionOf(unit) == Time {
			return true
		}
		return false
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

func (b Bound) String() string {
	return [...]string{"exact", "about", "at least", "at most"}[b]
}

func (e *ParseError) Error() string {
	return fmt.Sprintf("found %q, expected %s", e.Found, e.Expected)
}

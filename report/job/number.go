package job

import (
	"cmp"
	"errors"
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// A scale reads the numbers of one section: pressures in its unit, or percent.
type scale struct {
	pressures
	r        *reader
	label    string // of the section, in messages
	unit     quantity.Unit
	given    bool            // the unit is known
	cylinder string          // being read
	own      quantity.Unit   // of the number read last, where it named one
	units    []quantity.Unit // that it takes; none for pressures and percent
	signed   bool            // it may be below zero
	zero     bool            // of a limit: it may be zero

	bareAt  Pos       // the first bare number, where the unit is not known
	samples []sample  // numbers that tell the unit
	written []written // all readings
	beyond  []written // readings and limits more than can be
}

// A written number is one with its place.
type written struct {
	node  *node
	label string
	as    quantity.Value // as written, in its own unit or the section's
	own   bool           // it names its unit
	value float64        // in the section's unit
}

// A sample is one number as it was written.
type sample struct {
	cylinder string
	text     string
	number   float64
	unit     quantity.Unit // its own, or the section's
	own      bool
	value    float64 // in the section's unit
}

const (
	pressureExpected = "a pressure such as 120, 11.2 bar, about 120, 145-155 or over 300"
	percentExpected  = "a percentage such as 34 %"
)

func (s *scale) expected() string {
	switch {
	case len(s.units) > 1 && len(unitNames(s.units)) == 0:
		return "a number with its unit"
	case len(s.units) > 1 || len(s.units) == 1 && s.unit != quantity.None:
		return "a number in " + s.unitsTaken()
	case len(s.units) == 1:
		return "a number"
	case s.unit == quantity.Percent:
		return percentExpected
	}
	return pressureExpected
}

// unitNames are units as messages have them.
func unitNames(units []quantity.Unit) []string {
	var names []string
	for _, u := range units {
		if u != quantity.None {
			names = append(names, string(u))
		}
	}
	return names
}

// dimension is what the numbers of a scale measure.
func (s *scale) dimension() quantity.Dimension {
	if len(s.units) > 0 {
		return quantity.DimensionOf(s.units[0])
	}
	return quantity.DimensionOf(s.unit)
}

// scan reads the phrase of a node, and reports what it cannot read at the place
// where it stands.
func (s *scale) scan(n *node, label string) (quantity.Phrase, bool) {
	text := strings.TrimSpace(n.text)
	if strings.HasPrefix(text, "+") && !s.signed {
		s.r.report(n.pos, "rose by "+text[1:]+"? write the reading itself, without a sign", "'%s' is '%s', which may be a rise or a reading", label, short(n.text))
		return quantity.Phrase{}, false
	}
	p, err := quantity.ScanAs(text, s.dimension())
	if err == nil {
		return p, true
	}
	pos, hint := n.pos, s.answer(text)
	if strings.Contains(label, "limits.") {
		pos, hint = s.r.within(n, placeOf(err)), s.bookHint(err)
	}
	if hint == "" && len(s.units) == 0 && s.unit != quantity.Percent {
		hint = commaHint(text)
	}
	if hint == "" {
		_, hint = parseProblem(err)
		pos = s.r.within(n, placeOf(err))
	}
	if hint == "" {
		hint = s.wordsAnswer(text)
	}
	if hint == "" {
		hint = s.answer(foundBy(err))
	}
	s.r.report(pos, hint, "'%s' is '%s', expected %s", label, short(n.text), s.expected())
	return quantity.Phrase{}, false
}

// placeOf is the character at which a text could not be read.
func placeOf(err error) int {
	var problem *quantity.ParseError
	if errors.As(err, &problem) {
		return problem.At
	}
	return 0
}

// foundBy is what could not be read.
func foundBy(err error) string {
	var problem *quantity.ParseError
	if errors.As(err, &problem) {
		return problem.Found
	}
	return ""
}

// within gives the place of a character of a node's text, that of the node where
// the file has the text in another form.
func (r *reader) within(n *node, at int) Pos {
	if n.pos.Line < 1 || n.pos.Line > len(r.lines) || len(r.lines[n.pos.Line-1]) > longestLine {
		return n.pos
	}
	line := []rune(r.lines[n.pos.Line-1])
	for _, quote := range []int{0, 1} {
		if from := n.pos.Col - 1 + quote; from >= 0 && from <= len(line) && strings.HasPrefix(string(line[from:]), n.text) {
			return Pos{n.pos.Line, n.pos.Col + quote + at}
		}
	}
	return n.pos
}

// one gives the only number of a phrase, and reports any other phrase.
func (s *scale) one(n *node, p quantity.Phrase, label string) (float64, bool) {
	if len(p.Parts) == 2 && p.Joins[0] == quantity.Bracket && p.Bound == quantity.Exact {
		return s.double(n, p.Parts[0], p.Parts[1], label)
	}
	part, ok := p.Single()
	if !ok || part.Bound != quantity.Exact {
		s.r.report(n.pos, cmp.Or(s.joinedHint(n.text), s.severalIn(label, n.text, p)), "'%s' is '%s', expected %s", label, short(n.text), s.expected())
		return 0, false
	}
	if hint := commaHint(n.text); hint != "" && s.unfit(n.text) {
		s.r.report(n.pos, hint+"; for a decimal write "+strings.Replace(n.text, ",", ".", 1), "'%s' is '%s', which may be two numbers or one", label, short(n.text))
		return 0, false
	}
	return s.take(n, part.Value, part.Text, label)
}

// take converts a number to the section's unit and checks that it can be.
func (s *scale) take(n *node, v quantity.Value, text, label string) (float64, bool) {
	own := v.Unit != quantity.None
	switch {
	case !own && !s.given:
		if s.bareAt == (Pos{}) {
			s.bareAt = n.pos
		}
	case own && !s.takes(v.Unit):
		s.r.report(n.pos, s.otherUnitHint(v), "'%s' is in %s, expected %s", label, v.Unit, cmp.Or(s.unitsTaken(), "a number without a unit"))
		return 0, false
	}
	value, err := v.In(s.unit)
	if err != nil {
		s.r.unreadable(n, label, err)
		return 0, false
	}
	if v.Number < 0 && !s.signed {
		s.r.report(n.pos, s.meantBelow(v), "'%s' is '%s', below 0 %s, which no gauge reads", label, short(n.text), s.unit)
		return 0, false
	}
	if len(text) > 1 && text[0] == '0' && isWhole(text[1:2]) { // 052: the first figure is another
		s.r.report(n.pos, "look at the notes again: did you mean "+strings.TrimLeft(text, "0")+", or another figure in the place of the nought?", "'%s' is '%s', which begins with a nought", label, short(n.text))
		return 0, false
	}
	if own {
		s.own = v.Unit
	} else {
		v.Unit = s.unit
	}
	if s.unit == quantity.Percent && value > 100 && !s.signed {
		hint := ""
		if value <= 1000 {
			hint = "did you mean " + plainNumber(v.Number/10) + " %?"
		}
		s.r.report(n.pos, hint, "'%s' is '%s', above 100 %%, which is impossible", label, short(n.text))
		return 0, false
	}
	as := written{n, label, v, own, value}
	s.written = append(s.written, as)
	if (own || s.given) && value > s.mostHere() {
		s.beyond = append(s.beyond, as) // reported when all are known
		return value, true
	}
	s.samples = append(s.samples, sample{s.cylinder, text, v.Number, v.Unit, own, value})
	return value, true
}

// otherUnitHint answers a number in a unit that its scale does not take.
func (s *scale) otherUnitHint(v quantity.Value) string {
	switch {
	case v.Unit == quantity.Percent || s.unitsTaken() == "":
		return "write " + plainNumber(v.Number) + ", without '" + string(v.Unit) + "', if that is what the gauge showed"
	case v.Unit == quantity.Inch && s.takes(quantity.InHg):
		return "write " + plainNumber(v.Number) + " inHg, if it is inches of mercury"
	}
	return ""
}

func (s *scale) takes(u quantity.Unit) bool {
	if len(s.units) > 0 {
		return slices.Contains(s.units, u)
	}
	if s.unit == quantity.Percent {
		return u == quantity.Percent
	}
	for _, known := range pressureUnits {
		if string(u) == known {
			return true
		}
	}
	return false
}

func (s *scale) unitsTaken() string {
	if len(s.units) > 0 {
		return anyOf(unitNames(s.units))
	}
	if s.unit == quantity.Percent {
		return "percent"
	}
	return anyOf(pressureUnits)
}

// double reads a number given in two units; the first counts.
func (s *scale) double(n *node, a, b quantity.Part, label string) (float64, bool) {
	if b.Value.Unit == quantity.None || s.unit == quantity.Percent {
		s.r.report(n.pos, s.wetBeside(b.Text)+"a remark goes into 'notes'; in brackets stands the same pressure in another unit, as in '24 bar (360 psi)'",
			"'%s' is '%s', expected %s", label, short(n.text), s.expected())
		return 0, false
	}
	value, ok := s.take(n, a.Value, a.Text, label)
	if !ok {
		return 0, false
	}
	if !s.takes(b.Value.Unit) {
		s.r.report(n.pos, "", "'%s' is in %s, expected %s", label, b.Value.Unit, s.unitsTaken())
		return 0, false
	}
	if a.Value.Unit == quantity.None {
		a.Value.Unit = s.unit
	}
	s.contradiction(a, b)
	return value, true
}

// widestApart is how far two figures for one pressure may differ, in percent.
const widestApart = 2

func (s *scale) contradiction(first, second quantity.Part) {
	a, b := first.Value, second.Value
	other, err := quantity.Convert(b.Number, b.Unit, a.Unit)
	if err != nil || a.Number == other {
		return
	}
	apart := 100 * abs(other-a.Number) / max(a.Number, other)
	if apart <= widestApart {
		return
	}
	var cylinders []string
	if s.cylinder != "" {
		cylinders = []string{s.cylinder}
	}
	s.r.notice("units-contradict", "", cylinders, diag.Facts{
		"section":   s.name,
		"value":     diag.Number{Value: a.Number, Decimals: decimals(first.Text), Unit: a.Unit},
		"other":     diag.Number{Value: b.Number, Decimals: decimals(second.Text), Unit: b.Unit},
		"converted": diag.Number{Value: other, Decimals: quantity.DefaultDecimals(a.Unit), Unit: a.Unit},
		"percent":   diag.Number{Value: apart, Decimals: 1, Unit: quantity.Percent},
	})
}

func abs(v float64) float64 { return max(v, -v) }

// decimals counts the decimals that a number is written with.
func decimals(text string) int {
	_, after, found := strings.Cut(strings.Replace(text, ",", ".", 1), ".")
	if !found {
		return 0
	}
	return len(after) - len(strings.TrimLeft(after, "0123456789"))
}

// isFigures tells whether a text is a number and nothing else, as most readings
// are: no words and signs need be looked for.
func isFigures(text string) bool {
	return text != "" && strings.Trim(text, "0123456789.") == "" && strings.Count(text, ".") <= 1
}

// answer says what to type in place of words that are no reading; "" where they
// are none of those known.
func (s *scale) answer(text string) string {
	if isFigures(text) {
		return ""
	}
	if hint := cmp.Or(s.oilHint(text), spreadsheetDate(text)); hint != "" {
		return hint
	}
	for _, name := range []string{"state of a test", "pressure"} {
		if _, answer := vocabularyOf(name).find(text, nil); answer != "" {
			return answer
		}
	}
	if before, remark, ok := strings.Cut(text, "("); ok && strings.HasSuffix(remark, ")") && plainQuantity(before) {
		if word, _ := vocabularyOf("doubt").find(strings.TrimSuffix(remark, ")"), []string{"about"}); word != "" {
			return "write 'about " + strings.TrimSpace(before) + "'"
		}
		return "write " + strings.TrimSpace(before) + ", a remark goes into 'notes'; in brackets stands the same pressure in another unit, as in '24 bar (360 psi)'"
	}
	if near := nearest(text, stateWords); near != "" {
		return "did you mean '" + near + "'?"
	}
	return ""
}

// several offers what a phrase that is more than one number probably means.
func (s *scale) several(text string, p quantity.Phrase) string {
	texts := p.Texts()
	switch {
	case len(p.Parts) == 2 && (strings.Contains(text, "->") || strings.Contains(text, "→")):
		return s.arrowHint(texts[0], texts[1])
	case p.Bound == quantity.AtMost && len(p.Parts) == 1:
		return "a reading has no upper bound alone: write 'about " + texts[0] + "', '0-" + texts[0] + "', or 0 for no pressure"
	case len(p.Parts) < 2:
		return ""
	case p.Joins[0] == quantity.Slash && len(p.Parts) == 2:
		return s.slashHint(p.Parts[0], p.Parts[1])
	case p.Joins[0] == quantity.Of:
		return "held of supplied goes under 'leakage': " + strings.Join(texts, "/")
	case p.Joins[0] == quantity.At:
		return "write " + texts[0] + "; the speed goes under 'conditions: {cranking: 210 rpm}'"
	case len(p.Parts) == 2 && p.Only(quantity.And, quantity.Next):
		return "two readings of one " + s.r.cylinderWord + " are '[" + texts[0] + ", " + texts[1] + "]'; for a reading between the two write " + texts[0] + "-" + texts[1] + s.firstBeside(text, texts[0])
	case p.Only(quantity.To, quantity.Next, quantity.And, quantity.Slash):
		return "readings of several " + s.r.cylinderWord + "s are a list: [" + strings.Join(texts, ", ") + "]"
	}
	return ""
}

// arrowHint offers what two readings with an arrow between them may be.
func (s *scale) arrowHint(before, after string) string {
	of := func(key, text string) string { return "'" + key + ": {" + cmp.Or(s.cylinder, "1") + ": " + text + "}'" }
	if strings.HasSuffix(s.label, "wet") {
		return "the dry reading stands by itself: " + of("dry", before) + ", and here " + after
	}
	return "where the second is with oil, write " + before + " here and " + of("wet", after) + "; where the first is the first stroke, " + of("first", before) + " and here " + after
}

// slashHint offers the readings of '145/148' and '1/180'. It is empty for a
// fraction of a unit, such as 1/2.
func (s *scale) slashHint(x, y quantity.Part) string {
	a, b, first, second := x.Value.Number, y.Value.Number, x.Text, y.Text
	if s.unit == quantity.Percent {
		if a > b {
			return ""
		}
		return "held of supplied stands by itself under 'dry': " + first + "/" + second
	}
	if b <= 10 && a < b {
		return ""
	}
	repeats := "two readings of one cylinder are '[" + first + ", " + second + "]'"
	if s.r.isCylinder(first) && b > 10*a {
		return "cylinder " + first + " reading " + second + " is '" + first + ": " + second + "'; " + repeats
	}
	if b >= 1.5*a {
		return "first stroke and last stand by themselves: 'first: {" + cmp.Or(s.cylinder, "1") + ": " + first + "}' and here " + second + "; " + repeats
	}
	return repeats + "; of two cylinders, each stands by its own; held of supplied goes under 'leakage'"
}

// parseProblem takes apart what the quantity reader did not take.
func parseProblem(err error) (expected, hint string) {
	var problem *quantity.ParseError
	if errors.As(err, &problem) {
		return problem.Expected, problem.Hint
	}
	var conversion *quantity.ConversionError
	if errors.As(err, &conversion) {
		return "a number with a unit that fits", conversion.Reason
	}
	return "a number", ""
}

package job

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"gaugesheet/diag/quantity"
)

// bounds are the units that a quantity may have and its range in the first.
type bounds struct {
	units     []quantity.Unit
	low, high float64
	usual     [2]float64 // between which it mostly is, to tell the unit of a bare number
}

// amount gives a key's quantity in the first of its units; nil where it is
// not given or not sound.
func (s *section) amount(key string, b bounds) *float64 {
	n := s.scalar(key)
	if n == nil {
		return nil
	}
	return s.r.amount(n, s.label(key), exampleOf(s.keys, key), b)
}

// amount reads a quantity; the example is for who forgets the unit.
func (r *reader) amount(n *node, label, example string, b bounds) *float64 {
	p, ok := r.phrase(n, label, example, quantity.DimensionOf(b.units[0]))
	if !ok {
		return nil
	}
	part, ok := p.Single()
	if !ok || part.Bound != quantity.Exact {
		hint := "such as '" + example + "'"
		if ok {
			hint = "write '" + part.Text + "'"
		}
		hint = cmp.Or(inchesHint(n.text, quantity.DimensionOf(b.units[0])), hint)
		if strings.HasSuffix(label, "battery.rest") && len(p.Parts) == 2 && p.Only(quantity.Slash, quantity.Next) { // 12.6/10.8
			hint = "write 'battery: {rest: " + plainNumber(p.Parts[0].Value.Number) + " V, cranking: " + plainNumber(p.Parts[1].Value.Number) + " V}'"
		}
		r.report(n.pos, hint, "'%s' is '%s', expected one number with its unit", label, short(n.text))
		return nil
	}
	return r.value(n, n.pos, part.Value, label, example, b)
}

// twoVolts are the volts of a battery at rest and while it cranks.
var twoVolts = lazily(`^(\d+\.?\d*) ?v?(?: rest)? ?[/,] ?(\d+\.?\d*) ?v? (?:crank|cranking|while cranking)$`)

// wordsForAmount say where words go that stand in the place of an amount, by its key.
var wordsForAmount = map[string]string{
	"cranking":     "words on how it was turned go under 'conditions: {method: ...}'; where the speed was read it is such as '210 rpm'",
	"rest":         "where a charger or another battery helped, write 'battery: {charger: yes}'; what was read is such as '12.6 V'",
	"displacement": "where nobody knows it leave the line out; it is such as '4.7 L'",
	"oil":          "how much? measure it and write the ml; what oil it was goes into 'notes'",
}

// dashedFraction is a length in inches with a dash before its fraction.
var dashedFraction = lazily(`^(\d+)-(\d+/\d+) ?(?:"|in|inch|inches|”|″)?$`)

// inchesHint writes such a length, 3-7/16", as it is read; "" for any other text.
func inchesHint(text string, expected quantity.Dimension) string {
	m := dashedFraction().FindStringSubmatch(text)
	if m == nil || expected != quantity.Length {
		return ""
	}
	return "write '" + m[1] + " " + m[2] + " in'"
}

// measures reports a figure whose unit, if it has one, is of a dimension.
func measures(figure string, expected quantity.Dimension) bool {
	v, err := quantity.ParseAs(figure, expected)
	return err == nil && (v.Unit == quantity.None || quantity.DimensionOf(v.Unit) == expected)
}

// quantityText reports a text that can be scanned as what is expected.
func quantityText(text string, expected quantity.Dimension) bool {
	_, err := quantity.ScanAs(text, expected)
	return err == nil
}

// phrase scans a node's text, and reports what cannot be read where it stands.
func (r *reader) phrase(n *node, label, example string, expected quantity.Dimension) (quantity.Phrase, bool) {
	p, err := quantity.ScanAs(n.text, expected)
	if err != nil {
		wanted, hint := parseProblem(err)
		if strings.HasPrefix(wanted, "a unit such as") && example != "" && expected != quantity.Pressure {
			wanted, hint = "a number with its unit", ""
		}
		if a, b, ok := strings.Cut(fold(n.text), " x "); ok && startsWithFigure(a) && startsWithFigure(b) { // 94 x 84 mm
			unit := strings.TrimLeft(b, "0123456789. ")
			hint = "write 'bore: " + a + " " + unit + "' and 'stroke: " + b + "'"
		}
		if written := figuresFor(n.text); written != n.text && quantityText(written, expected) { // half a pint in 30 s, fifty
			hint = "write '" + short(likeExample(written, example)) + "'"
		}
		hint = cmp.Or(inchesHint(n.text, expected), hint)
		if m := twoVolts().FindStringSubmatch(fold(n.text)); m != nil && strings.HasSuffix(label, "battery.rest") { // 12.4 / 9.1 cranking
			hint = "write 'battery: {rest: " + m[1] + " V, cranking: " + m[2] + " V}'"
		}
		if !startsWithFigure(n.text) && hint == "" {
			hint = wordsForAmount[label[strings.LastIndexByte(label, '.')+1:]]
		}
		if figure, rest := onlyFigure(n.text, example); hint == "" && figure != "" && rest != "" && quantityText(figure, expected) && measures(figure, expected) {
			hint = "write '" + figure + "', if that is what it is; '" + short(rest) + "' goes into 'findings' or 'notes'"
		}
		if hint == "" && example != "" {
			hint = "such as '" + example + "'"
		}
		r.report(r.within(n, placeOf(err)), hint, "'%s' is '%s', expected %s", label, short(n.text), wanted)
	}
	return p, err == nil
}

// value takes a quantity in the first of its units.
func (r *reader) value(n *node, pos Pos, v quantity.Value, label, example string, b bounds) *float64 {
	names := make([]string, len(b.units))
	for i, u := range b.units {
		names[i] = string(u)
	}
	if v.Unit == quantity.None {
		r.report(pos, cmp.Or(b.likely(bareText(n.text, v.Number), v.Number), withUnit(bareText(n.text, v.Number), example)), "'%s' is '%s' without a unit, expected %s", label, short(n.text), anyOf(names))
		return nil
	}
	out, err := v.In(b.units[0])
	if err != nil || !slices.Contains(b.units, v.Unit) {
		hint := ""
		switch {
		case v.Unit == quantity.Degree: // 180 deg
			hint = b.likely(plainNumber(v.Number), v.Number)
		case v.Unit == quantity.Inch && slices.Contains(b.units, quantity.InHg): // 18"
			hint = "write " + plainNumber(v.Number) + " inHg, if it is inches of mercury"
		}
		r.report(pos, hint, "'%s' is in %s, expected %s", label, v.Unit, anyOf(names))
		return nil
	}
	if out < b.low || out > b.high {
		r.report(n.pos, b.meant(v, out), "'%s' is '%s', expected %s to %s %s", label, short(n.text), plainNumber(b.low), plainNumber(b.high), names[0])
		return nil
	}
	return &out
}

// meant offers what a quantity above its bounds was probably meant to be: in
// another unit, or with a point that slipped.
func (b bounds) meant(v quantity.Value, out float64) string {
	if -out >= b.low && -out <= b.high && out < 0 {
		return "did you mean " + plainNumber(-v.Number) + " " + string(v.Unit) + "? it is written without a sign"
	}
	if out <= b.high {
		return ""
	}
	var all []string
	for _, u := range b.units {
		if in, err := quantity.Convert(v.Number, u, b.units[0]); err == nil && u != v.Unit && in >= b.low && in <= b.high {
			all = append(all, plainNumber(v.Number)+" "+string(u))
			break
		}
	}
	for _, part := range []float64{10, 100} {
		if in := out / part; in >= b.low && in <= b.high {
			all = append(all, plainNumber(v.Number/part)+" "+string(v.Unit))
			break
		}
	}
	if len(all) == 0 {
		return ""
	}
	return "did you mean " + anyOf(all) + "?"
}

// likely offers a bare number in the units in which it would be a usual one; ""
// where there are none.
func (b bounds) likely(text string, number float64) string {
	var all []string
	for _, u := range b.units {
		if in, err := quantity.Convert(number, u, b.units[0]); err == nil && in >= b.usual[0] && in <= b.usual[1] && b.usual[1] > 0 && u != quantity.Centimetre {
			all = append(all, "'"+text+" "+string(u)+"'")
		}
	}
	if in, err := quantity.Convert(number/1000, quantity.Inch, b.units[0]); len(all) == 0 && err == nil && in >= b.usual[0] && in <= b.usual[1] && b.usual[1] > 0 {
		all = append(all, "'"+text+" thou'")
	}
	switch len(all) {
	case 0:
		return ""
	case 1:
		return "write " + all[0] + " if that is the unit"
	}
	return "write " + anyOf(all) + ", whichever it is in"
}

// bareText is a text that is one bare number, or where it is more, that number.
func bareText(text string, number float64) string {
	if isFigures(text) {
		return text
	}
	return plainNumber(number)
}

// withUnit offers a bare number with the unit of an example.
func withUnit(number, example string) string {
	if v, err := quantity.Parse(example); err == nil && v.Unit != quantity.None {
		return fmt.Sprintf("write '%s %s' if that is the unit", number, v.Unit)
	}
	return "such as '" + example + "'"
}

// unreadable reports what the quantity reader could not read.
func (r *reader) unreadable(n *node, label string, err error) {
	expected, hint := parseProblem(err)
	r.report(n.pos, hint, "'%s' is '%s', expected %s", label, short(n.text), expected)
}

// plainNumber prints a number with no more digits than it has.
func plainNumber(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

package job

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// stateWords are the ways of saying that there is no reading.
var stateWords = []string{string(diag.NotTested), string(diag.CouldNot), string(diag.Declined), string(diag.NotApplicable), string(diag.NotTold)}

// parseState reads 'not tested', 'could not test (why)' and the like. What
// stands in brackets or after a colon is the reason; other words that follow
// are given with the whole text as the reason.
func parseState(text string) (state diag.State, reason string, ok bool) {
	plain := strings.Join(strings.Fields(strings.TrimRight(text, ". ")), " ")
	if strings.HasPrefix(plain, "(") && strings.HasSuffix(plain, ")") && strings.Count(plain, "(") == 1 {
		plain = strings.TrimSpace(plain[1 : len(plain)-1])
	}
	if plain == "" || plain[0] >= '0' && plain[0] <= '9' { // a reading, as most are
		return "", "", false
	}
	word, rest := stateIn(plain)
	switch {
	case word == "":
	case rest == "":
		return diag.State(word), "", true
	case strings.HasPrefix(rest, " (") && strings.HasSuffix(rest, ")"):
		return diag.State(word), strings.TrimSpace(rest[2 : len(rest)-1]), true
	case strings.HasPrefix(rest, ": ") || strings.HasPrefix(rest, ", "):
		return diag.State(word), strings.TrimSpace(rest[2:]), true
	case strings.HasPrefix(rest, " "):
		return diag.State(word), plain, true
	}
	return "", "", false
}

// stateIn gives the state that a text begins with, in the words of the list
// or in others, and what follows them: the longest words count.
func stateIn(text string) (word, rest string) {
	try := func(means, words string) {
		after, ok := cutWords(text, words)
		if ok && (word == "" || len(after) < len(rest)) {
			word, rest = means, after
		}
	}
	for _, w := range stateWords {
		try(w, w)
	}
	for _, s := range vocabularyOf("state of a test").Also {
		for _, w := range s.Words {
			try(s.Means, w)
		}
	}
	return word, rest
}

// cutWords gives what follows some words at the beginning of a text, whose case,
// hyphens, commas and apostrophes do not matter.
func cutWords(text, words string) (rest string, ok bool) {
	plain := plainer.Replace(words)
	for i, c := range text {
		if c == '\'' || c == '’' || (c == ',' || c == '.') && plain != "" {
			continue
		}
		if plain == "" {
			return text[i:], c == ' ' || c == ':' || c == ','
		}
		next, size := utf8.DecodeRuneInString(plain)
		if c == '-' || c == '_' {
			c = ' '
		}
		if unicode.ToLower(c) != unicode.ToLower(next) {
			return "", false
		}
		plain = plain[size:]
	}
	return "", plain == ""
}

var plainer = strings.NewReplacer("'", "", "’", "", ",", "", "-", " ")

// reading reads one reading with its repeats. A problem is reported and gives
// false.
func (s *scale) reading(n *node, label string) (diag.Reading, bool) {
	switch {
	case n.kind == list:
		return s.repeats(n, label)
	case n.kind == mapping:
		s.r.report(n.pos, "", "'%s' is a set of keys, expected %s", label, s.expected())
		return diag.Reading{}, false
	case isEmpty(n):
		s.r.report(n.pos, emptyReading, "'%s' has no value", label)
		return diag.Reading{}, false
	}
	if state, reason, ok := parseState(n.text); ok {
		return diag.Reading{State: state, Reason: reason, Entered: n.text}, true
	}
	s.own = quantity.None
	out, ok := s.inexact(n, label)
	if s.unit != quantity.Percent {
		out.Unit = s.own
	}
	return out, ok
}

// kinds are how a figure may be meant, as readings have it.
var kinds = map[quantity.Bound]diag.Kind{quantity.Exact: diag.Exact, quantity.About: diag.Estimate, quantity.AtLeast: diag.AtLeast}

// inexact reads a single value with the words that say how exact it is.
func (s *scale) inexact(n *node, label string) (diag.Reading, bool) {
	out := diag.Reading{State: diag.Tested, Entered: n.text}
	if s.unit != quantity.Percent && saysNoPressure(n.text) {
		out.Values = []float64{0}
		return out, true
	}
	p, ok := s.scan(n, label)
	if !ok {
		return out, false
	}
	low, high, band := p.Pair(quantity.To)
	middle, half, tolerance := p.Pair(quantity.PlusMinus)
	switch {
	case (band || tolerance) && (p.Bound != quantity.Exact || p.Parts[1].Bound != quantity.Exact):
		s.r.report(n.pos, "write '"+low.Text+"-"+high.Text+"'", "'%s' is '%s', which is inexact twice over, expected a band or one number", label, short(n.text))
		return out, false
	case band:
		return s.band(n, low, high, label)
	case tolerance:
		return s.tolerance(n, middle, half, label)
	}
	kind, taken := kinds[p.Bound]
	if taken && len(p.Parts) == 1 {
		out.Kind, p.Parts[0].Bound, p.Bound = kind, quantity.Exact, quantity.Exact
	}
	v, ok := s.one(n, p, label)
	out.Values = []float64{v}
	return out, ok
}

// saysNoPressure tells whether a text says in words that the gauge did not move.
func saysNoPressure(text string) bool {
	vocabulary := vocabularyOf("pressure")
	word, _ := vocabulary.find(text, vocabulary.Words)
	return word != ""
}

// band reads a reading between two values.
func (s *scale) band(n *node, low, high quantity.Part, label string) (diag.Reading, bool) {
	out := diag.Reading{State: diag.Tested, Kind: diag.Band, Entered: n.text}
	a, okA := s.take(n, low.Value, low.Text, label)
	if !okA {
		return out, false
	}
	b, okB := s.take(n, high.Value, high.Text, label)
	if !okB {
		return out, false
	}
	switch {
	case a >= b:
		s.r.report(n.pos, s.fallingHint(n.text, low, high), "'%s' is '%s', which does not rise", label, short(n.text))
		return out, false
	case a > 0 && b > 10*a && s.r.isCylinder(low.Text): // 1-140
		s.r.report(n.pos, s.slashHint(low, high), "'%s' is '%s', too far from end to end for one reading", label, short(n.text))
		return out, false
	}
	out.Values, out.HalfWidth = []float64{(a + b) / 2}, (b-a)/2
	return out, true
}

// fallingHint offers what a band that does not rise was probably meant to be.
func (s *scale) fallingHint(text string, low, high quantity.Part) string {
	tenths := s.unit == quantity.Bar || s.unit == quantity.KgfPerCm2                          // 11-2
	if (strings.Contains(text, "..") || tenths && isWhole(low.Text)) && len(high.Text) == 1 { // 9..5
		if v, err := strconv.ParseFloat(low.Text+"."+high.Text, 64); err == nil && s.isUsual(v) {
			return "did you mean " + low.Text + "." + high.Text + "?"
		}
	}
	repeats := "; two readings are a list: [" + low.Text + ", " + high.Text + "]"
	if missing := len(low.Text) - len(high.Text); missing > 0 && isFigures(low.Text) && isFigures(high.Text) {
		if whole := low.Text[:missing] + high.Text; whole > low.Text { // 140-5
			return "did you mean " + low.Text + "-" + whole + "? the lower value goes first" + repeats
		}
	}
	return "the lower value goes first: " + high.Text + "-" + low.Text + repeats
}

// tolerance reads a reading with how far it may be off, 150 +/- 5: a band.
func (s *scale) tolerance(n *node, middle, half quantity.Part, label string) (diag.Reading, bool) {
	low, high := middle, middle
	low.Value.Number -= half.Value.Number
	high.Value.Number += half.Value.Number
	if half.Value.Unit != middle.Value.Unit || half.Value.Number <= 0 {
		s.r.report(n.pos, "such as '150 +/- 5', both in one unit", "'%s' is '%s', expected %s", label, short(n.text), s.expected())
		return diag.Reading{}, false
	}
	return s.band(n, low, high, label)
}

// repeats reads the readings of one cylinder taken again.
func (s *scale) repeats(n *node, label string) (diag.Reading, bool) {
	out := diag.Reading{State: diag.Tested, Entered: entered(n)}
	if len(n.items) == 0 {
		s.r.report(n.pos, emptyReading, "'%s' is an empty list", label)
		return out, false
	}
	sound := true
	for _, item := range n.items {
		if item.kind == list {
			s.r.report(item.pos, "", "'%s' has a list inside its list of repeats, expected numbers", label)
			sound = false
			continue
		}
		one, ok := s.reading(item, label)
		switch {
		case !ok:
			sound = false
		case one.State != diag.Tested || one.Kind == diag.Band || one.Kind == diag.AtLeast:
			s.r.report(item.pos, "leave it out of the list, or give it alone", "'%s' has '%s' among its repeats, expected numbers", label, short(item.text))
			sound = false
		default:
			out.Values = append(out.Values, one.Values...)
			out.Kind = max(out.Kind, one.Kind)
			if out.Unit == quantity.None {
				out.Unit = one.Unit
			}
		}
	}
	return out, sound
}

// entered writes a list of repeats, or values by cylinder, as the file has them.
func entered(n *node) string {
	if n.kind == scalar {
		return n.text
	}
	if n.kind == mapping {
		var all []string
		for _, e := range n.entries {
			all = append(all, e.key+": "+e.value.text)
		}
		return "{" + strings.Join(all, ", ") + "}"
	}
	return "[" + strings.Join(textsOf(n), ", ") + "]"
}

// textsOf are the texts of a list.
func textsOf(n *node) []string {
	var texts []string
	for _, item := range n.items {
		texts = append(texts, item.text)
	}
	return texts
}

// readings reads a section's readings by cylinder.
func (s *scale) readings(sec *section, key string) map[string]diag.Reading {
	n := sec.get(key)
	if n == nil {
		return nil
	}
	return byCylinder(s.r, n, sec.label(key), func(n *node, label, cylinder string) (diag.Reading, bool) {
		s.cylinder = cylinder
		defer func() { s.cylinder = "" }()
		return s.reading(n, label)
	})
}

// key reads a single reading of a section, nil where it is not given.
func (s *scale) key(sec *section, key string) *diag.Reading {
	n := sec.get(key)
	if n == nil {
		return nil
	}
	reading, ok := s.reading(n, sec.label(key))
	if !ok {
		return nil
	}
	return &reading
}

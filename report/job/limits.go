package job

import (
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

var limitKinds = map[string]diag.LimitKind{"minimum": diag.Minimum, "lowest": diag.Lowest, "spread": diag.Spread,
	"difference": diag.Difference, "below-mean": diag.BelowMean, "from-mean": diag.FromMean}

// limits reads the limits on compression, in the file's order, and the book's
// usual figure.
func (r *reader) limits(sec *section, s *scale) ([]diag.Limit, *diag.Standard) {
	l := sec.group("limits")
	if l == nil {
		return nil, nil
	}
	standard := r.standard(l, s)
	seaLevel := l.word("from").Given()
	speed, source := orZero(l.amount("cranking", crankings)), l.scalarText("source")
	var out []diag.Limit
	given := l.node.get("standard") != nil
	for _, e := range l.node.entries {
		kind, ok := limitKinds[e.key]
		given = given || ok
		n := l.scalar(e.key)
		if !ok || n == nil {
			continue
		}
		limit, ok := r.limit(l, s, kind, e.key, n)
		if !ok {
			continue
		}
		limit.Source, limit.CrankingRPM = source, speed
		limit.FromSeaLevel = seaLevel && limit.Unit != quantity.Percent
		out = append(out, limit)
	}
	if !given && !r.blank {
		r.report(l.node.pos, "expected one of minimum, lowest, spread, difference, below-mean and from-mean", "'%s' has no limit in it", l.name)
	}
	return out, standard
}

// standard reads the book's usual figure: '170-190 psi', or one number.
func (r *reader) standard(l *section, s *scale) *diag.Standard {
	n := l.scalar("standard")
	if n == nil {
		return nil
	}
	label := l.label("standard")
	p, ok := s.scan(n, label)
	if !ok {
		return nil
	}
	low, high, band := p.Pair(quantity.To)
	if !band {
		v, ok := s.limitOf(n, p, label)
		if !ok {
			return nil
		}
		return &diag.Standard{Low: v, High: v, Unit: s.unit, Entered: n.text}
	}
	a, okA := s.limitValue(n, low, label)
	b, okB := s.limitValue(n, high, label)
	switch {
	case !okA || !okB:
		return nil
	case a >= b:
		r.report(n.pos, "the lower value goes first", "'%s' is '%s', which does not rise", label, short(n.text))
		return nil
	}
	return &diag.Standard{Low: a, High: b, Unit: s.unit, Entered: n.text}
}

// limit reads one limit: a percentage, or a pressure in the section's unit.
func (r *reader) limit(l *section, s *scale, kind diag.LimitKind, key string, n *node) (diag.Limit, bool) {
	switch kind {
	case diag.Lowest, diag.Spread:
		return r.percentLimit(l, kind, key, n)
	case diag.BelowMean, diag.FromMean:
		if saysPercent(n.text) {
			return r.percentLimit(l, kind, key, n)
		}
	}
	if before, after, found := strings.Cut(strings.ToLower(n.text), "sea level"); found {
		figure := strings.TrimSuffix(strings.TrimSpace(before), " at")
		r.report(n.pos, "write '"+key+": "+figure+"' and beside it 'from: sea level'", "'%s' is '%s', expected a pressure alone", l.label(key), short(before+"sea level"+after))
		return diag.Limit{}, false
	}
	p, ok := s.scan(n, l.label(key))
	if !ok {
		return diag.Limit{}, false
	}
	if _, _, band := p.Pair(quantity.To); band && kind == diag.Minimum {
		r.report(n.pos, "a range that is the book's usual figure is 'standard: "+short(n.text)+"'; as a minimum write its lower end", "'%s' is '%s', expected one pressure", l.label(key), short(n.text))
		return diag.Limit{}, false
	}
	if _, single := p.Single(); single && p.Bound == quantity.AtLeast && kind == diag.Minimum { // 128 psi min
		p.Bound, p.Parts[0].Bound = quantity.Exact, quantity.Exact
	}
	v, ok := s.limitOf(n, p, l.label(key))
	return diag.Limit{Kind: kind, Value: v, Unit: s.unit, Entered: n.text}, ok
}

// limitOf takes the single number of a limit.
func (s *scale) limitOf(n *node, p quantity.Phrase, label string) (float64, bool) {
	samples, readings := s.samples, s.written
	v, ok := s.one(n, p, label)
	s.samples, s.written = samples, readings
	return v, ok && s.aboveZero(n, v, label)
}

// limitValue reads a pressure that is a limit: it says nothing of the unit of
// the readings.
func (s *scale) limitValue(n *node, part quantity.Part, label string) (float64, bool) {
	return s.limitOf(n, quantity.Phrase{Parts: []quantity.Part{part}}, label)
}

func (s *scale) aboveZero(n *node, v float64, label string) bool {
	if v == 0 && !s.zero {
		s.r.report(n.pos, "leave the limit out", "'%s' is '%s', expected more than 0", label, short(n.text))
	}
	return v != 0 || s.zero
}

// saysPercent reports a limit in percent.
func saysPercent(text string) bool {
	number, _ := cutBasis(text)
	v, err := quantity.Parse(number)
	return err == nil && v.Unit == quantity.Percent
}

// cutBasis takes '75 % of the highest' apart.
func cutBasis(text string) (number, basis string) {
	i := strings.IndexAny(text, "%")
	if i >= 0 {
		i++
	} else if i = strings.Index(strings.ToLower(text), "percent"); i >= 0 {
		i += len("percent")
	}
	if i < 0 {
		return text, ""
	}
	basis = fold(text[i:])
	for _, word := range []string{"of ", "the "} {
		basis = strings.TrimPrefix(basis, word)
	}
	return text[:i], basis
}

var bases = []string{string(diag.OfHighest), string(diag.OfLowest), string(diag.OfMean), string(diag.OfMedian)}

// percentLimit reads '75 % of highest'. Without 'of' it is of the highest; for
// limits against the mean, of the mean.
func (r *reader) percentLimit(l *section, kind diag.LimitKind, key string, n *node) (diag.Limit, bool) {
	label, example := l.label(key), "75 % of highest"
	if kind != diag.Lowest {
		example = "10 % of highest"
	}
	out := diag.Limit{Kind: kind, Of: diag.OfHighest, Unit: quantity.Percent, Entered: n.text}
	atMean := kind == diag.BelowMean || kind == diag.FromMean
	if atMean {
		out.Of, example = diag.OfMean, "20 %"
	}
	number, of := cutBasis(n.text)
	v, err := quantity.Parse(number)
	if err == nil && v.Unit != quantity.Percent {
		r.report(n.pos, noPercentHint(kind, key, n.text, example), "'%s' is '%s', expected a percentage", label, short(n.text))
		return out, false
	}
	if err != nil || v.Number <= 0 || v.Number > 100 {
		hint := "such as '" + example + "'"
		if err != nil {
			if _, h := parseProblem(err); h != "" {
				hint = h
			}
		}
		r.report(n.pos, hint, "'%s' is '%s', expected a percentage over 0, at most 100 %%", label, short(n.text))
		return out, false
	}
	out.Value = v.Number
	if of == "" {
		return out, true
	}
	basis := basisOf(of)
	if basis == "" || atMean && basis != diag.OfMean {
		expected := bases
		if atMean {
			expected = []string{string(diag.OfMean)}
		}
		hint := meant(of, expected)
		if near := nearest(of, expected); near != "" {
			hint = "did you mean '" + plainNumber(v.Number) + " % of " + near + "'?"
		}
		r.report(n.pos, hint, "'%s' is '%s', expected a percentage of %s", label, short(n.text), anyOf(expected))
		return out, false
	}
	out.Of = basis
	return out, true
}

// noPercentHint says what a limit in percent that is none was probably meant for.
func noPercentHint(kind diag.LimitKind, key, text, example string) string {
	v, err := quantity.Parse(text)
	switch {
	case err == nil && v.Unit == quantity.None && key == "spread":
		return "write '" + text + " %' if it is percent; a difference in pressure is 'difference'"
	case err == nil && v.Unit == quantity.None:
		return "write '" + text + " %' if it is percent"
	case err == nil && quantity.DimensionOf(v.Unit) == quantity.Pressure && kind == diag.Spread:
		return "write 'difference: " + text + "'"
	case err == nil && quantity.DimensionOf(v.Unit) == quantity.Pressure:
		return "write 'minimum: " + text + "'"
	}
	return "such as '" + example + "'"
}

func basisOf(text string) diag.Basis {
	word, _ := vocabularyOf("basis of a percentage").find(text, bases)
	return diag.Basis(word)
}

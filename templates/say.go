package templates

import (
	"fmt"
	"maps"
	"math"
	"strconv"
	"strings"
	"text/template"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// Said is a finding in words.
type Said struct {
	Says    string
	Because string
	Causes  []string
	Against []string
	Doubts  []string
	Next    *SaidCheck
}

// SaidCheck is a next check in words: its short name, what it is to find out,
// how it is made, what each of its outcomes would mean and how long it takes.
// IfSo and IfNot are the first and the last outcome as sentences.
type SaidCheck struct {
	Name, For, Do string
	Outcomes      []SaidOutcome
	IfSo, IfNot   string
	Effort        string
}

// Finding says a finding. An error names the entry that the catalogue lacks or
// the fact that its words miss.
func (c *Catalogue) Finding(f diag.Finding, a Audience) (Said, error) {
	key := variant(f.Rule, f.Variant)
	words, ok, err := lookup[entry[findingText]](c, "findings", key)
	if err != nil {
		return Said{}, err
	}
	if !ok {
		return Said{}, fmt.Errorf("no words for the finding %q", key)
	}
	facts := findingFacts(f)
	s := &speaker{c: c, a: a, facts: facts}
	said := Said{
		Says:    s.text(key, words.of(a).Says, nil),
		Because: s.text(key, words.of(a).Because, nil),
		Causes:  s.phrases("causes", f.Causes),
		Against: s.phrases("against", f.Against),
		Doubts:  s.phrases("doubts", f.Doubts),
	}
	if f.Next != nil {
		said.Next = s.check(*f.Next)
	}
	return said, s.err
}

// Notice says a notice.
func (c *Catalogue) Notice(n diag.Notice, a Audience) (string, error) {
	facts := diag.Facts{"Cylinders": diag.Names(n.Cylinders)}
	maps.Copy(facts, n.Facts)
	return c.one("notices", diag.Phrase{Key: variant(n.Rule, n.Variant), Facts: facts}, a)
}

// Verdict says the sheet's one sentence, or the line under it.
func (c *Catalogue) Verdict(p diag.Phrase, a Audience) (string, error) {
	said, err := c.one("verdicts", p, a)
	if refused, ok := p.Facts["refused"].(diag.Names); ok && len(refused) > 0 && err == nil {
		said, err = c.Label("verdict.refused", diag.Facts{"verdict": said, "tests": refused, "declined": p.Facts["declined"]})
	}
	if with, ok := p.Facts["with"].(diag.Names); ok && len(with) > 0 && err == nil {
		said, err = c.Label("verdict.with", diag.Facts{"verdict": said, "with": with})
	}
	if also, ok := p.Facts["also"].([]diag.Also); ok && len(also) > 0 && err == nil {
		return c.withAlso(said, also, a)
	}
	return said, err
}

// Found says what a story found as a part of another sentence.
func (c *Catalogue) Found(p diag.Phrase, a Audience) (string, error) {
	said, err := c.one("verdicts", p, a)
	return uncapital(said), err
}

// Cause says a cause by itself.
func (c *Catalogue) Cause(p diag.Phrase, a Audience) (string, error) { return c.one("causes", p, a) }

// Caution says a caution.
func (c *Catalogue) Caution(key string, a Audience) (string, error) {
	return c.one("cautions", diag.Phrase{Key: key}, a)
}

// Check says a next check by itself.
func (c *Catalogue) Check(check diag.Check, a Audience) (SaidCheck, error) {
	s := &speaker{c: c, a: a, facts: diag.Facts{}}
	said := s.check(check)
	if s.err != nil {
		return SaidCheck{}, s.err
	}
	return *said, nil
}

// CheckBriefly says a check's name, what it is for and how long it takes, and not
// how it is made or what it can show.
func (c *Catalogue) CheckBriefly(check diag.Check, a Audience) (SaidCheck, error) {
	s := &speaker{c: c, a: a, facts: diag.Facts{}}
	return *s.checkBriefly(check), s.err
}

// Expected says what the band of plausible cranking pressures was worked out
// from, at the air pressure of the conditions.
func (c *Catalogue) Expected(e *diag.Expected, at diag.Conditions) (string, error) {
	w := e.Working
	number := func(v float64, decimals int, unit quantity.Unit) diag.Number {
		return diag.Number{Value: v, Decimals: decimals, Unit: unit}
	}
	facts := diag.Facts{"alone": e.ByRatio, "ratio": strconv.FormatFloat(w.Ratio, 'g', -1, 64), "rod": "", "altitude": nil, "barometer": nil,
		"closes": strconv.FormatFloat(w.ClosesLow, 'g', -1, 64), "latest": strconv.FormatFloat(w.ClosesHigh, 'g', -1, 64),
		"effective": number(w.EffectiveLow, 2, ""), "effectiveHigh": number(w.EffectiveHigh, 2, ""),
		"exponent": number(w.ExponentLow, 2, ""), "exponentHigh": number(w.ExponentHigh, 2, "")}
	if w.TypicalRod > 0 {
		facts["rod"] = number(w.TypicalRod, 1, "")
	}
	switch {
	case at.BarometerKPa != nil:
		facts["barometer"] = number(*at.BarometerKPa, 1, quantity.KPa)
	case at.AltitudeM != nil:
		facts["altitude"] = number(*at.AltitudeM, 0, quantity.Metre)
	}
	return c.Label("expected.basis", facts)
}

// Label gives a fixed word of the sheets with its facts in place.
func (c *Catalogue) Label(key string, facts diag.Facts) (string, error) {
	t, ok, err := lookup[text](c, "labels", key)
	if err != nil {
		return "", err
	}
	if !ok {
		return "", fmt.Errorf("no words for the label %q", key)
	}
	s, err := c.say(t, facts)
	if err != nil {
		return "", fmt.Errorf("label %q: %w", key, err)
	}
	return s, nil
}

func (c *Catalogue) one(section string, p diag.Phrase, a Audience) (string, error) {
	s := &speaker{c: c, a: a, facts: diag.Facts{}}
	said := s.phrases(section, []diag.Phrase{p})
	if s.err != nil {
		return "", s.err
	}
	return said[0], nil
}

// speaker puts words together for one audience and keeps the first error.
type speaker struct {
	c     *Catalogue
	a     Audience
	facts diag.Facts
	err   error
}

// lookedUp is an entry that has to be there.
func lookedUp[T any](s *speaker, section, key string) T {
	words, ok, err := lookup[T](s.c, section, key)
	if err == nil && !ok {
		err = fmt.Errorf("%s: no words for %q", section, key)
	}
	if err != nil && s.err == nil {
		s.err = err
	}
	return words
}

func (s *speaker) text(key string, t text, own diag.Facts) string {
	return s.put(key, t, s.with(own))
}

// with are the facts of all that is said together with those of one thing.
func (s *speaker) with(own diag.Facts) diag.Facts {
	switch {
	case len(s.facts) == 0:
		return own
	case len(own) == 0:
		return s.facts
	}
	facts := make(diag.Facts, len(s.facts)+len(own))
	maps.Copy(facts, s.facts)
	maps.Copy(facts, own)
	return facts
}

// put is a text with these facts in it.
func (s *speaker) put(key string, t text, facts diag.Facts) string {
	said, err := s.c.say(t, facts)
	if err != nil && s.err == nil {
		s.err = fmt.Errorf("words for %q: %w", key, err)
	}
	return strings.TrimSpace(said)
}

func (s *speaker) phrases(section string, phrases []diag.Phrase) []string {
	said := make([]string, 0, len(phrases))
	for _, p := range phrases {
		words := lookedUp[entry[text]](s, section, p.Key)
		said = append(said, s.text(p.Key, words.of(s.a), p.Facts))
	}
	return said
}

func findingFacts(f diag.Finding) diag.Facts {
	facts := diag.Facts{"Cylinders": diag.Names(f.Cylinders), "Circuit": f.Circuit}
	maps.Copy(facts, f.Facts)
	return facts
}

func variant(rule, variant string) string {
	if variant == "" {
		return rule
	}
	return rule + "/" + variant
}

// wordFuncs are what the words may do with facts beside printing them.
func (c *Catalogue) wordFuncs() template.FuncMap {
	return template.FuncMap{
		"list":    c.list,
		"quoted":  c.quoted,
		"cyl":     nameFunc(func(of any) (string, error) { return c.cylinders(namesOf(of)) }),
		"Cyl":     nameFunc(func(of any) (string, error) { return capitalOf(c.cylinders(namesOf(of))) }),
		"plural":  plural,
		"only":    func() bool { return c.chambers == diag.OfOneCylinder },
		"many":    func(n diag.Names) bool { return len(n) != 1 },
		"where":   c.where,
		"capital": func(fact any) string { return capital(fmt.Sprint(fact)) },
		"whole":   Whole,
		"say":     c.term,
		"says":    c.terms,
		"ofCode":  func(complaint string) bool { return strings.HasPrefix(complaint, diag.CodeComplaint) },
		"known":   c.known,
		"because": func(state, reason string) (string, error) { return c.Because(diag.State(state), reason) },
		"when":    func(w *diag.When) (string, error) { return c.when(w, "when.") },
		"since":   func(w *diag.When) (string, error) { return c.when(w, "since.") },
		"stood":   c.stood,
		"span":    c.span,
		"rotor":   c.rotor,
		"Rotor":   func(n diag.Names) (string, error) { return capitalOf(c.rotor(n)) },
	}
}

// A nameFunc names cylinders, of which a fact may hold several or one.
type nameFunc func(of any) (string, error)

// namesOf are cylinders that a fact names: several, or one.
func namesOf(of any) diag.Names {
	if names, several := of.(diag.Names); several {
		return names
	}
	return diag.Names{fmt.Sprint(of)}
}

// Whole is a percentage without decimals, for whoever owns the engine; with its
// own where it could not else be told from the one that it is held against, or
// from nothing.
func Whole(value any, against ...any) any {
	n, ok := value.(diag.Number)
	if !ok || n.Unit != quantity.Percent {
		return value
	}
	short := n
	short.Decimals = 0
	for _, other := range against {
		if o, ok := other.(diag.Number); ok && short.Printed() == o.Printed() && n.Printed() != o.Printed() {
			return n
		}
	}
	if short.Printed() == 0 {
		return n
	}
	return short
}

// plural chooses by a count, which may be a number of things or the things.
func plural(count any, one, many string) (string, error) {
	switch n := count.(type) {
	case int:
		if n == 1 {
			return one, nil
		}
	case diag.Names:
		if len(n) == 1 {
			return one, nil
		}
	default:
		return "", fmt.Errorf("plural counts numbers or names, not %T", count)
	}
	return many, nil
}

// span says a range of two figures: "7.0 to 7.2 bar"; where both print the same
// it is that one.
func (c *Catalogue) span(low, high any) (string, error) {
	from, to := fmt.Sprint(low), fmt.Sprint(high)
	a, one := low.(diag.Number)
	b, both := high.(diag.Number)
	if from == to {
		return to, nil
	}
	if one && both && a.Unit == b.Unit {
		from = strings.TrimSuffix(from, "\u00a0"+string(b.Unit))
	}
	return c.Label("span", diag.Facts{"low": from, "high": to})
}

// stood says for how long an engine stood, of months in figures: "about 8
// months", "about 4 years"; of none "a time that is not known".
func (c *Catalogue) stood(months string) (string, error) {
	n, err := strconv.ParseFloat(months, 64)
	switch {
	case err != nil || n <= 0:
		return c.Label("stood.unknown", nil)
	case n < monthsOfWeek:
		return c.Label("stood.days", diag.Facts{"count": int(math.Round(n / monthsOfWeek * 7))})
	case n < 2 && n != 1:
		return c.Label("stood.weeks", diag.Facts{"count": int(math.Round(n / monthsOfWeek))})
	case n < 24:
		return c.Label("stood.months", diag.Facts{"count": int(math.Round(n))})
	}
	return c.Label("stood.years", diag.Facts{"years": diag.Number{Value: n / 12}})
}

// monthsOfWeek is a week in months.
const monthsOfWeek = 12 * 7 / 365.25

// UrgentUntil is what how urgent a diagnosis is comes to for an engine that flies, one whose
// exhaust people breathe or glows, or one that sends its fuel raw into a catalyst, which stands in every form of a page; "" for any
// other.
func (c *Catalogue) UrgentUntil(d *diag.Diagnosis) string {
	for _, of := range []struct {
		is  bool
		key string
	}{{d.Breathed, ".fumes"}, {d.Glows, ".glows"}, {d.RawFuel, ".raw-fuel"}, {d.Flies, ".aircraft"}} {
		if key := "urgent.why." + string(d.Urgency) + of.key; of.is && c.Has("labels", key) {
			said, _ := c.Label(key, nil) // it has no facts to lack
			return said
		}
	}
	return ""
}

package sheet

import (
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
	"gaugesheet/layout"
	"gaugesheet/layout/figure"
	"gaugesheet/report/readings"
)

// A limitLine is a limit with what was found and what came of it, of any test.
type limitLine struct {
	words, source      string
	found, uncertainty string
	verdict            diag.Verdict
	over               bool   // what is outside is above the limit
	reason             string // why it is not judged
}

// limitsBlock is every limit with the value found, how far that is sure, and
// the verdict.
func (v *view) limitsBlock() layout.Block {
	lines := append(v.pressureLimits(), v.leakageLimits()...)
	lines = append(lines, v.gapLimits()...)
	lines = append(lines, v.fuelLimits()...)
	if len(lines) == 0 {
		return nil
	}
	d := figure.Table{Name: "limits", Title: v.label("heading.limits"), RunOn: layout.Brief, Columns: []figure.Column{
		{Heading: v.label("column.limit")}, {Heading: v.label("column.found"), Numbers: true, Plain: true},
		{Heading: v.label("column.judged"), Plain: true},
	}}
	sources := newFootnotes()
	for _, l := range lines {
		sources.add(l.source)
	}
	if len(sources.texts) == 1 && sources.on == len(lines) { // said once for all
		d.Sub, sources = v.label("limits.source", "source", onPage(sources.texts[0])), newFootnotes()
	}
	for _, l := range lines {
		row := figure.TextRow(sources.mark(l.words, l.source), l.found)
		row.Cells[1].Note = l.uncertainty
		judged := figure.TableCell{Mark: limitMark(l.verdict, l.over), Text: v.term("judged-short", string(l.verdict)), Bold: l.verdict == diag.Outside}
		if l.verdict == diag.NotJudged {
			judged.Text = joined(": ", judged.Text, v.optional("not-judged."+l.reason, ""))
		}
		row.Cells = append(row.Cells, judged)
		row.Shade = l.verdict == diag.Outside
		d.Rows = append(d.Rows, row)
	}
	d.Captions = sources.captions()
	return figure.NewTable(d)
}

// limitMark is the symbol of a verdict in a table; what is within needs none.
func limitMark(verdict diag.Verdict, over bool) figure.Mark {
	if verdict == diag.Within {
		return figure.NoMark
	}
	return verdictMark(verdict, over)
}

// pressureLimits are those on the compression, by cylinder or by face.
func (v *view) pressureLimits() []limitLine {
	var limits []diag.LimitResult
	decimals := 0
	switch {
	case v.compression() != nil:
		limits, decimals = v.compression().Limits, v.compression().Decimals
	case v.rotors() != nil:
		limits, decimals = v.rotors().Limits, v.rotors().Decimals
	}
	var lines []limitLine
	for _, l := range limits {
		line := limitLine{words: v.limitRow(l), source: v.source(l.Source), verdict: l.Verdict, over: l.Value > l.Limit, reason: l.Reason}
		if l.Verdict != diag.NotJudged {
			places := decimals
			if l.Unit == quantity.Percent {
				places = 1
			}
			line.found = figureOf(l.Value, places, l.Unit)
			line.uncertainty = uncertain(l.Uncertainty, places)
			if l.Ends != nil { // which nobody read in its middle
				line.found, line.uncertainty = readings.Between(l.Ends[0], l.Ends[1], func(x float64) string { return figureOf(x, places, l.Unit) }), ""
			}
		}
		lines = append(lines, line)
	}
	return lines
}

// figureOf is a figure, with its unit only where that is not the section's.
func figureOf(value float64, decimals int, unit quantity.Unit) string {
	if unit == quantity.Percent {
		return onPage(number(value, decimals, unit).String())
	}
	return quantity.Format(value, decimals)
}

func uncertain(u float64, decimals int) string {
	if u <= 0 {
		return ""
	}
	said := quantity.Format(u, max(1, decimals))
	if strings.Trim(said, "0.") == "" { // not nothing, but less than the reading shows
		said = quantity.Format(u, max(1, decimals)+1)
	}
	return "±" + said
}

// limitRow is a limit in words, with what became of it where it was brought to
// the air of the test.
func (v *view) limitRow(l diag.LimitResult) string {
	here := v.limitNumber(l)
	here.Unit = unitShown(here.Unit)
	if v.rotors() != nil {
		here = number(l.Limit, v.rotors().Decimals, quantity.None)
	}
	entered := ""
	if l.Corrected {
		entered = onPage(l.AsEntered)
	}
	return v.label("limit-row."+l.Rule, "limit", here.String(), "entered", entered)
}

// unitShown is a unit in a table whose heading names the section's: only a
// percentage says so itself.
func unitShown(u quantity.Unit) quantity.Unit {
	if u == quantity.Percent {
		return u
	}
	return quantity.None
}

// leakageLimits is the limit on the air lost, at the cylinder that loses most.
func (v *view) leakageLimits() []limitLine {
	l := v.leakage()
	if l == nil || l.Limit == nil {
		return nil
	}
	var most *diag.LeakResult
	for i := range l.Cylinders {
		if c := &l.Cylinders[i]; c.Loss != nil && (most == nil || *c.Loss > *most.Loss) {
			most = c
		}
	}
	line := limitLine{words: v.label("limit.air-lost", "limit", percent(*l.Limit)), verdict: diag.NotJudged, over: true}
	if most != nil {
		line.found, line.uncertainty = v.lossPercent(most), uncertain(most.Uncertainty, 1)
		line.verdict = most.Verdict
	}
	return []limitLine{line}
}

// gapLimits is the book's plug gap, at a plug that is outside it where one is.
func (v *view) gapLimits() []limitLine {
	if v.plugs() == nil || v.test.Plugs == nil || v.test.Plugs.GapEntered == "" {
		return nil
	}
	line := limitLine{words: v.label("limit.gap", "gap", together(strings.ReplaceAll(v.test.Plugs.GapEntered, "+/-", "±"))), verdict: diag.NotJudged}
	for _, p := range v.plugs().Cylinders {
		if p.GapText != "" && (line.found == "" || p.Gap == diag.Outside && line.verdict != diag.Outside) {
			line.found, line.verdict, line.over = onPage(p.GapText), p.Gap, *p.GapMM > v.test.Plugs.GapMM
		}
	}
	if line.found == "" {
		return nil
	}
	return []limitLine{line}
}

// fuelLimits are those on the fuel pressure, by reading.
func (v *view) fuelLimits() []limitLine {
	var lines []limitLine
	for _, c := range circuits(v.fuel()) {
		for _, r := range c.Readings {
			if r.LimitLow == nil && r.LimitHigh == nil {
				continue
			}
			lines = append(lines, limitLine{
				words: v.label("limit.fuel", "circuit", c.Name, "name", v.readingName(r.Name), "limit", onPage(r.LimitEntered)),
				found: read(r.Value, v.fuel().Decimals), uncertainty: uncertain(r.Uncertainty, v.fuel().Decimals),
				verdict: r.Verdict, over: !under(r.Value, r.LimitLow), source: v.source(r.Source),
			})
		}
		for _, h := range c.Hold {
			if h.LimitLow == nil && h.LimitHigh == nil || h.Verdict == diag.NotJudged { // the limit is for another time
				continue
			}
			lines = append(lines, limitLine{
				words: v.label("limit.fuel", "circuit", c.Name, "name", v.label("fuel.name.hold"), "limit", onPage(h.LimitEntered)),
				found: read(h.Value, v.fuel().Decimals), uncertainty: uncertain(h.Uncertainty, v.fuel().Decimals), verdict: h.Verdict, over: !under(h.Value, h.LimitLow),
			})
		}
		if f := c.Volume; f != nil && f.LimitEntered != "" {
			lines = append(lines, limitLine{
				words: v.label("limit.fuel", "circuit", c.Name, "name", v.label("fuel.name.volume"), "limit", onPage(f.LimitEntered)),
				found: onPage(f.Entered), verdict: f.Verdict, over: !under(f.PerMinute, f.LimitLow),
			})
		}
	}
	return lines
}

func circuits(f *diag.FuelResult) []diag.CircuitResult {
	if f == nil {
		return nil
	}
	return f.Circuits
}

// Footnotes letter the sources of a table in the order in which they come.
type footnotes struct {
	texts []string
	on    int // lines that have one
}

func newFootnotes() *footnotes { return &footnotes{} }

func (f *footnotes) add(source string) {
	if source == "" {
		return
	}
	f.on++
	if f.letter(source) == "" {
		f.texts = append(f.texts, source)
	}
}

func (f *footnotes) letter(source string) string {
	for i, text := range f.texts {
		if text == source {
			return string(rune('a' + i%26))
		}
	}
	return ""
}

// mark puts the letter of a source behind words.
func (f *footnotes) mark(words, source string) string {
	if letter := f.letter(source); letter != "" {
		return words + "\u00a0(" + letter + ")"
	}
	return words
}

// captions are the sources by their letters.
func (f *footnotes) captions() []string {
	if len(f.texts) == 0 {
		return nil
	}
	lines := make([]string, len(f.texts))
	for i, text := range f.texts {
		lines[i] = "(" + f.letter(text) + ")\u00a0" + onPage(text)
	}
	return []string{strings.Join(lines, "; ")}
}

package sheet

import (
	"regexp"
	"slices"
	"strconv"

	"gaugesheet/diag"
	"gaugesheet/diag/gauge"
	"gaugesheet/diag/quantity"
	"gaugesheet/report/job"
)

// gaugeWords name the instruments and how good they are.
func (v *view) gaugeWords() []string {
	var parts []string
	add := func(key, section string, g *diag.Gauge) {
		if g == nil || !v.measuredBy(section) {
			return
		}
		about := joined(", ", v.rangeWords(section, g), g.AccuracyText)
		if within := v.withinWords(section, g); !v.sheet.Record && within != "" {
			about = within
		}
		if section == "leakage" {
			about = joined(", ", v.prefixed("method.supply", v.job.Entered("gauges", section, "supply")), v.prefixed("method.orifice", v.job.Entered("gauges", section, "orifice")), v.testerReads(g))
		}
		if !g.Checked.IsZero() {
			about = joined(", ", about, v.label("method.checked", "date", v.date(job.Date{Time: g.Checked})))
		}
		name := g.Name
		if name == "" && about == "" {
			return
		}
		parts = append(parts, v.label("method.gauge-"+key, "name", name, "about", about))
	}
	add("compression", "compression", v.test.Gauges.Compression)
	add("leakage", "leakage", v.test.Gauges.Leakage)
	add("fuel", "fuel", v.test.Gauges.Fuel)
	return append(parts, v.furtherGauges()...)
}

// furtherGauges name what the further tests were read on, for who has to vouch for them.
func (v *view) furtherGauges() []string {
	var parts []string
	for _, m := range v.test.Measured {
		if m.Gauge == nil || !v.sheet.Record {
			continue
		}
		about := joined(", ", v.job.Entered("gauges", job.GaugeOf(m.Name), "range"), m.Gauge.AccuracyText)
		if m.Gauge.Name == "" && about == "" {
			continue
		}
		parts = append(parts, v.label("method.gauge-further", "test", v.label("system."+m.Name), "name", m.Gauge.Name, "about", about))
	}
	return parts
}

// testerReads says what a leakage tester reads on something known: as the job says it, or
// where a tester of the shop's profile is judged by it.
func (v *view) testerReads(g *diag.Gauge) string {
	if v.leakage().Orifice {
		return v.prefixed("method.reads-orifice", g.GoodReading)
	}
	return v.prefixed("method.reads-sound", v.job.Entered("gauges", "leakage", "good-reading"))
}

// measuredBy reports a test that was made with the gauge of a section: what others
// could do says nothing of this engine.
func (v *view) measuredBy(section string) bool {
	if section == "leakage" {
		return v.leakage() != nil
	}
	return v.gaugeUnit(section) != ""
}

// rangeWords are a gauge's range as the job file has it; of a gauge that the
// shop's profile describes, in the unit of its test.
func (v *view) rangeWords(section string, g *diag.Gauge) string {
	if s := v.job.Entered("gauges", section, "range"); s != "" || g.High <= g.Low {
		return s
	}
	unit := v.gaugeUnit(section)
	if unit == "" {
		return ""
	}
	figures := func(value float64) string { return strconv.FormatFloat(value, 'g', 4, 64) }
	return v.label("method.range", "low", figures(g.Low), "high", figures(g.High), "unit", string(unit))
}

// gaugeUnit is the unit of the test that a gauge is for; "" where the test was
// not made.
func (v *view) gaugeUnit(section string) quantity.Unit {
	switch {
	case section == "fuel" && v.fuel() != nil:
		return v.fuel().Unit
	case section == "compression" && v.compression() != nil:
		return v.compression().Unit
	case section == "compression" && v.rotors() != nil:
		return v.rotors().Unit
	}
	return ""
}

// withinWords say by how much a gauge may be out at the highest reading, for
// who knows no classes of gauges; nothing where its accuracy is not known.
func (v *view) withinWords(section string, g *diag.Gauge) string {
	at := 0.0
	switch {
	case g.Accuracy == nil || g.Accuracy.NeedsRange() && g.High <= g.Low:
		return ""
	case section == "fuel" && v.fuel() != nil:
		for _, c := range v.fuel().Circuits {
			for _, r := range c.Readings {
				at = max(at, r.Value)
			}
		}
	case section == "compression" && v.compression() != nil:
		at = v.compression().Highest
	case section == "compression" && v.rotors() != nil:
		for _, r := range v.rotors().Rotors {
			at = max(at, r.Best)
		}
	}
	half := gauge.Gauge{Accuracy: *g.Accuracy, Low: g.Low, High: g.High}.HalfWidth(at)
	if half <= 0 {
		return ""
	}
	return v.label("method.within", "half", strconv.FormatFloat(half, 'g', 2, 64), "unit", string(v.gaugeUnit(section)))
}

// sourceWords name where an owner's fuel limits are from. Those of the pressure
// stand in the figure's legend, and the other sheets have a table; of the further tests,
// whose limits stand beside their readings, those are named on a sheet that others than the
// shop go by and that has no table of limits.
func (v *view) sourceWords() []string {
	var sources, further diag.Names
	add := func(to *diag.Names, source string) {
		if source != "" && !slices.Contains(*to, source) {
			*to = append(*to, source)
		}
	}
	if v.fuel() != nil && !v.sheet.Record {
		for _, c := range v.fuel().Circuits {
			for _, r := range c.Readings {
				add(&sources, r.Source)
			}
		}
	}
	untabled := v.sheet.Record && !v.hasBlock("limits")
	for i := range v.d.Measured {
		for _, m := range v.d.Measured[i].Readings {
			if m.Limited() && untabled {
				add(&further, onPage(m.Source))
			}
		}
	}
	var parts []string
	if len(sources) > 0 {
		parts = append(parts, v.label("method.sources", "sources", sources))
	}
	if len(further) > 0 {
		parts = append(parts, v.label("method.further-sources", "sources", bookOnce(further)))
	}
	return parts
}

// page is a place in a book: the book with the word before the page, and the page.
var page = regexp.MustCompile("^(.+, p\\.)[ \u00a0](.+)$")

// bookOnce names a book that several sources are from once, with all of their pages.
func bookOnce(sources diag.Names) diag.Names {
	var books diag.Names
	at := map[string]int{}
	for _, s := range sources {
		part := page.FindStringSubmatch(s)
		if part == nil {
			books = append(books, s)
			continue
		}
		if i, named := at[part[1]]; named {
			books[i] += ", " + part[2]
			continue
		}
		at[part[1]] = len(books)
		books = append(books, s)
	}
	return books
}

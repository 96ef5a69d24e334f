package sheet

import (
	"regexp"
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
	"gaugesheet/layout/figure"
)

// How rows of further tests are said where they run on, and which of them stand
// together with a column to a cylinder.

// brief is a reading, or what was ticked (nil), in the fewest words: its name
// within its test, its limit behind it, and the verdict where it is not within.
func (v *view) brief(r *diag.MeasuredResult, list, name, says string, m *diag.MeasuredReading) figure.RowBrief {
	d := figure.RowBrief{Says: says}
	if r.Name == diag.OtherReadings {
		d.Name = onPage(name)
	} else {
		empty := v.pumpedEmpty(r.Name)
		d.Name = v.optional("brief."+r.Name+" "+name, v.label(list+"."+r.Name+" "+name, "empty", empty), "empty", empty)
	}
	if strings.EqualFold(d.Name, v.label("kind."+r.Name)) {
		d.Name = "" // the test is called so
	}
	if m == nil || m.LimitEntered == "" {
		return d
	}
	d.Limit = v.label("further.brief", "limit", spanned(limitBeside(m)))
	if m.Verdict != diag.Within {
		d.Judged = v.term("judged-short", string(m.Verdict))
	}
	return d
}

// bareSpan is a limit of two figures without a unit.
var bareSpan = regexp.MustCompile(`^(\d+(?:\.\d+)?)-(\d+(?:\.\d+)?)$`)

// spanned is a limit as it stands on a page: from one figure to another with the dash
// that is no minus.
func spanned(limit string) string {
	return onPage(bareSpan.ReplaceAllString(limit, "${1}\u2013${2}"))
}

// unitWords are a unit that stands without a figure before it.
func unitWords(u quantity.Unit) string {
	if quantity.DimensionOf(u) == quantity.Temperature {
		return "\u00b0" + string(u)
	}
	return onPage(string(u))
}

// limitBeside is a limit without the unit that the reading before it has.
func limitBeside(m *diag.MeasuredReading) string {
	bare, cut := strings.CutSuffix(m.LimitEntered, string(m.Unit))
	if cut && m.Unit != quantity.None && m.Unit != quantity.Percent && strings.HasSuffix(bare, " ") {
		return strings.TrimRight(bare, " ")
	}
	return m.LimitEntered
}

// sameSpeed is where a reading was taken, without the speed where the one before
// it has it too: "bank 2" behind "idle bank 1".
func sameSpeed(before, m *diag.MeasuredReading) string {
	if before == nil || before.Name != m.Name {
		return m.At
	}
	speed, _, banks := strings.Cut(before.At, " bank ")
	if own, bank, ok := strings.Cut(m.At, " bank "); ok && banks && own == speed {
		return "bank\u00a0" + bank
	}
	return m.At
}

// limitsOnce says a limit that several readings of one name keep only behind the
// last of them.
func limitsOnce(rows []figure.TableRow) {
	for i := 0; i+1 < len(rows); i++ {
		a, b := &rows[i].Brief, &rows[i+1].Brief
		if a.Name == b.Name && a.Limit == b.Limit && a.Judged == "" {
			a.Limit = ""
		}
	}
}

// ofCylinders are values of cylinders in a line: what most of all have is said
// last, of the others.
func (v *view) ofCylinders(values []cylinderValue) string {
	count, most := map[string]int{}, ""
	for _, c := range values {
		if count[c.value]++; count[c.value] > count[most] {
			most = c.value
		}
	}
	const many = 3
	if n := len(v.names()); len(values) != n || count[most] < many || 2*count[most] <= n {
		most = ""
	}
	var said []string
	apart := len(values) - count[most]
	for _, c := range values {
		if c.value != most {
			said = append(said, v.label("further.of", "cylinder", c.cylinder, "value", c.value, "first", len(said) == 0 && !v.workshop(), "many", apart > 1, "rotors", v.rotors() != nil))
		}
	}
	if most != "" {
		said = append(said, v.label("further.of-others", "all", len(said) == 0, "value", most))
	}
	return strings.Join(said, ", ")
}

// A cylinderValue is what was read or seen of a cylinder, in words.
type cylinderValue struct{ cylinder, value string }

// furtherLead names a further test before its readings, with the unit that most
// of them share.
func (v *view) furtherLead(r *diag.MeasuredResult, common quantity.Unit) string {
	return joined(", ", capital(v.label("kind."+r.Name)), unitWords(common))
}

// commonUnit is the unit of all readings of a further test that were entered as
// bare numbers, said once for them; none where they are few, or percentages, or
// another bare number would seem to have it too.
func (v *view) commonUnit(r *diag.MeasuredResult) quantity.Unit {
	const few = 3
	var common quantity.Unit
	n := 0
	for i := range r.Readings {
		m := &r.Readings[i]
		switch {
		case m.Cylinder != "":
		case m.Unit == quantity.None:
			return quantity.None
		case takesUnit(m) && n > 0 && m.Unit != common:
			return quantity.None
		case takesUnit(m):
			common = m.Unit
			n++
		}
	}
	if n < few || common == quantity.Percent {
		return quantity.None
	}
	return common
}

// fewEach is how many rows of what was read of each cylinder are worth columns of
// their own.
const fewEach = 2

// eachApart gives the rows in which several cylinders were read a column to a
// cylinder, where there are enough of them.
func (v *view) eachApart(d *figure.Further) {
	n := 0
	for i := range d.Rows {
		if len(d.Rows[i].Each) > 0 {
			n++
		}
	}
	if n >= fewEach {
		d.Numbers = v.names()
		return
	}
	for i := range d.Rows {
		d.Rows[i].Each = nil
	}
}

// eachCells are what was read of each cylinder under one name: the name with the
// unit that all of them share, then a value to a cylinder; nil where few were
// read.
func (v *view) eachCells(words string, of []*diag.MeasuredReading) []figure.TableCell {
	names := v.names()
	if v.rotors() != nil || 2*len(of) < len(names) || len(of) < 2 {
		return nil
	}
	shared := sharesUnit(of)
	cells := make([]figure.TableCell, len(names)+1)
	cells[0].Text = words
	if shared {
		cells[0].Note = unitWords(of[0].Unit)
	}
	for _, m := range of {
		i := slices.Index(names, m.Cylinder)
		if i < 0 {
			return nil
		}
		text := v.furtherValue(m)
		if shared {
			text = v.bareValue(m)
		}
		cells[i+1] = figure.TableCell{Text: joined(", ", cells[i+1].Text, text), Bold: cells[i+1].Bold || m.Verdict == diag.Outside}
	}
	return cells
}

// sharesUnit reports readings that were all entered as bare numbers of one unit, but for
// those that were of nothing.
func sharesUnit(of []*diag.MeasuredReading) bool {
	figures := slices.DeleteFunc(slices.Clone(of), func(m *diag.MeasuredReading) bool { return m.Entered == diag.NothingMeasured })
	return len(figures) > 0 && !slices.ContainsFunc(figures, func(m *diag.MeasuredReading) bool { return !takesUnit(m) || m.Unit != of[0].Unit })
}

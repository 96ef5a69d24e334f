package check

import (
	"fmt"
	"slices"
	"strings"
	"text/tabwriter"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
	"gaugesheet/report/readings"
)

// readings sets the readings of every section in tables; with a cylinder,
// those of the others are left out.
func (p *printer) readings(t *diag.Test, d *diag.Diagnosis, cylinder string) {
	shown := func(name string) bool { return cylinder == "" || cylinder == name }
	p.compression(t, d.Compression, shown)
	p.leakage(t, d.Leakage, shown)
	p.plugs(d.Plugs, shown)
	p.rotors(d.Rotors, shown)
	p.fuel(d.Fuel)
	p.further(d)
}

// table sets rows in columns; columns that nowhere say anything are left out.
func (p *printer) table(head []string, rows [][]string) {
	used := make([]bool, len(head))
	for _, row := range rows {
		for i, cell := range row {
			used[i] = used[i] || cell != "" && cell != "-"
		}
	}
	var text strings.Builder
	t := tabwriter.NewWriter(&text, 0, 0, 2, ' ', 0)
	for _, row := range append([][]string{head}, rows...) {
		var cells []string
		for i, cell := range row {
			if used[i] {
				if cell == "" {
					cell = "-"
				}
				cells = append(cells, strings.Join(strings.Fields(cell), " "))
			}
		}
		fmt.Fprintln(t, "  "+strings.Join(cells, "\t"))
	}
	t.Flush()
	for line := range strings.Lines(text.String()) {
		p.line("%s", strings.TrimRight(line, " \n"))
	}
}

// heads are the headings of the columns of readings.
var heads = map[string]string{
	"first": "first", "entered": "as entered", "dry": "dry", "of-highest": "% of highest", "again": "again", "wet": "wet",
	"wet-rise": "rise", "earlier": "earlier", "change": "change", "idle": "idling", "snap": "snap", "grade": "grade",
	"leak-entered": "as entered", "leakage": "loss", "leak-at": "air escapes at, most first", "leak-wet": "wet", "leak-limit": "limit",
	"plug": "look", "gap": "gap", "plug-note": "note",
}

// columns sets columns of readings, a row to a cylinder.
func (p *printer) columns(columns []readings.Column, cylinders []string, shown func(string) bool) {
	head := []string{"cylinder"}
	for _, c := range columns {
		head = append(head, heads[c.Key])
	}
	var rows [][]string
	for _, name := range cylinders {
		if !shown(name) {
			continue
		}
		row := []string{name}
		for _, c := range columns {
			row = append(row, plain(c.Of(name).String()))
		}
		rows = append(rows, row)
	}
	p.table(head, rows)
}

// names are those of a section's cylinders.
func names[T any](results []T, name func(T) string) []string {
	all := make([]string, len(results))
	for i, r := range results {
		all[i] = name(r)
	}
	return all
}

// titled is a table's title with the unit of its readings, where it has any.
func titled(title string, unit quantity.Unit) string {
	if unit == quantity.None {
		return title
	}
	return title + ", " + string(unit)
}

func (p *printer) compression(t *diag.Test, c *diag.CompressionResult, shown func(string) bool) {
	if c == nil {
		return
	}
	p.title(titled("Compression", c.Unit))
	p.columns(readings.Compression(t, c), names(c.Cylinders, func(r diag.CylinderResult) string { return r.Name }), shown)
	if c.N > 1 {
		format := func(v float64) string { return quantity.Format(v, c.Decimals) }
		p.wrapped("  ", fmt.Sprintf("highest %s (%s), lowest %s (%s), mean %s, median %s, difference %s, spread %s %% of highest",
			format(c.Highest), c.HighestAt, format(c.Lowest), c.LowestAt, quantity.Format(c.Mean, c.Decimals+1),
			quantity.Format(c.Median, c.Decimals), format(c.Difference), quantity.Format(c.SpreadPercentOfHighest, 1)))
	}
	p.limits(c.Limits, c.Decimals)
	if c.Standard != nil {
		p.line("  usual by the book: %s", c.Standard.Entered)
	}
}

func (p *printer) limits(limits []diag.LimitResult, decimals int) {
	for _, l := range limits {
		digits := decimals
		if l.Unit == quantity.Percent {
			digits = 1
		}
		unit := " " + string(l.Unit)
		limit := l.AsEntered
		if limit == "" || l.Corrected {
			limit = quantity.Format(l.Limit, digits) + unit
		}
		text := fmt.Sprintf("limit, %s %s: ", l.Rule, limit)
		if l.Verdict == diag.NotJudged {
			text += string(l.Verdict)
		} else {
			text += fmt.Sprintf("%s, found %s%s, uncertain by %s%s", l.Verdict,
				quantity.Format(l.Value, digits), unit, quantity.Format(l.Uncertainty, max(digits, 1)), unit)
		}
		if l.Cylinder != "" {
			text += ", decided by " + l.Cylinder
		}
		if l.Source != "" {
			text += " (" + l.Source + ")"
		}
		p.wrapped("  ", text)
	}
}

func (p *printer) leakage(t *diag.Test, l *diag.LeakageResult, shown func(string) bool) {
	if l == nil {
		return
	}
	p.title("Leakage, % of the supply lost")
	p.columns(readings.Leakage(t, l), names(l.Cylinders, func(r diag.LeakResult) string { return r.Name }), shown)
	if l.Limit != nil {
		p.line("  limit: %s %%", quantity.Format(*l.Limit, 0))
	}
}

func (p *printer) plugs(r *diag.PlugsResult, shown func(string) bool) {
	if r == nil {
		return
	}
	p.title("Plugs")
	p.columns(readings.Plugs(r), names(r.Cylinders, func(c diag.PlugResult) string { return c.Name }), shown)
}

func (p *printer) rotors(r *diag.RotorsResult, shown func(string) bool) {
	if r == nil {
		return
	}
	p.title(titled("Rotors", r.Unit) + ", faces in the order read")
	rows := [][]string{}
	for _, rotor := range r.Rotors {
		if !shown(rotor.Name) {
			continue
		}
		if len(rotor.Values) == 0 {
			rows = append(rows, []string{rotor.Name, state(rotor.State, rotor.Reason), ""})
			continue
		}
		var faces []string
		for i, v := range rotor.Values {
			face := quantity.Format(v, r.Decimals)
			if slices.Contains(rotor.LowFaces, i) {
				face += " (low)"
			}
			faces = append(faces, face)
		}
		rows = append(rows, []string{rotor.Name, strings.Join(faces, ", "), quantity.Format(rotor.Difference, r.Decimals)})
	}
	p.table([]string{"rotor", "faces", "difference"}, rows)
	p.limits(r.Limits, r.Decimals)
}

func (p *printer) fuel(f *diag.FuelResult) {
	if f == nil || !slices.ContainsFunc(f.Circuits, func(c diag.CircuitResult) bool { return len(c.Readings)+len(c.Hold) > 0 }) {
		return
	}
	p.title(titled("Fuel pressure", f.Unit))
	rows := [][]string{}
	for _, c := range f.Circuits {
		for _, r := range c.Readings {
			rows = append(rows, []string{c.Name, r.Name, quantity.Format(r.Value, f.Decimals), r.LimitEntered,
				quantity.Format(r.Uncertainty, f.Decimals+1), string(r.Verdict)})
		}
		for _, h := range c.Hold {
			rows = append(rows, []string{c.Name, fmt.Sprintf("after %g min", h.Minutes), quantity.Format(h.Value, f.Decimals), h.LimitEntered, "", string(h.Verdict)})
		}
	}
	p.table([]string{"circuit", "reading", "value", "limit", "uncertain by", "verdict"}, rows)
	for _, c := range f.Circuits {
		name := ""
		if c.Name != "" {
			name = c.Name + ": "
		}
		if c.RegulatorRise != nil {
			p.line("  %sregulator rise %s %s", name, quantity.Format(*c.RegulatorRise, f.Decimals), f.Unit)
		}
		if c.InjectorFlowPercent != nil {
			p.line("  %sinjector flow %s %% of that at the middle of the limit", name, quantity.Format(*c.InjectorFlowPercent, 0))
		}
	}
}

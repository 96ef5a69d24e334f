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

// table sets rows in columns, whose headings stand under their keys; columns
// that nowhere say anything are left out.
func (p *printer) table(keys []string, rows [][]string) {
	head := make([]string, len(keys))
	for i, key := range keys {
		head[i] = p.say("terminal.column."+key, nil)
	}
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

// columns sets columns of readings, a row to a cylinder.
func (p *printer) columns(columns []readings.Column, cylinders []string, shown func(string) bool) {
	keys := []string{"cylinder"}
	for _, c := range columns {
		keys = append(keys, c.Key)
	}
	var rows [][]string
	for _, name := range cylinders {
		if !shown(name) {
			continue
		}
		row := []string{name}
		for _, c := range columns {
			row = append(row, p.value(c.Of(name)))
		}
		rows = append(rows, row)
	}
	p.table(keys, rows)
}

// value is a value with the lists' words as the reader has them.
func (p *printer) value(v readings.Value) string {
	if len(v.Terms) == 0 {
		return plain(v.Text)
	}
	if state := v.State(); state != "" {
		return p.state(state, v.Reason)
	}
	said := make([]string, len(v.Terms))
	for i, t := range v.Terms {
		said[i] = p.term(v.List, t)
	}
	return strings.Join(said, ", ")
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
func (p *printer) titled(key string, unit quantity.Unit) string {
	title := p.say(key, nil)
	if unit == quantity.None {
		return title
	}
	return p.say("terminal.in-unit", diag.Facts{"title": title, "unit": string(unit)})
}

func (p *printer) compression(t *diag.Test, c *diag.CompressionResult, shown func(string) bool) {
	if c == nil {
		return
	}
	p.title(p.titled("terminal.compression", c.Unit))
	p.columns(readings.Compression(t, c), names(c.Cylinders, func(r diag.CylinderResult) string { return r.Name }), shown)
	if c.N > 1 {
		p.wrapped("  ", p.say("terminal.sums", sums(c)))
	}
	if !c.DefaultLimit || len(c.Cylinders) > 1 { // one cylinder has no spread
		p.limits(c.Limits, c.Decimals)
	}
	if c.Standard != nil {
		p.line("  %s", p.say("terminal.standard", diag.Facts{"entered": c.Standard.Entered}))
	}
}

// sums are what is reckoned from the readings of a set, each as far as they are
// printed.
func sums(c *diag.CompressionResult) diag.Facts {
	of := func(sum func(*diag.CompressionResult) float64, print func(float64) string) string {
		return readings.OfEnds(c, sum, print)
	}
	print := func(v float64) string { return readings.Print(v, c.Decimals) }
	with := func(digits int) func(float64) string {
		return func(v float64) string { return quantity.Format(v, digits) }
	}
	_, digits := readings.Less(c.Highest, c.Lowest, c.Decimals)
	if c.Ends != nil {
		digits = c.Decimals
	}
	return diag.Facts{
		"highest": print(c.Highest), "highestAt": c.HighestAt, "lowestAt": c.LowestAt,
		"lowest": of(func(r *diag.CompressionResult) float64 { return r.Lowest }, print),
		"mean":   of(func(r *diag.CompressionResult) float64 { return r.Mean }, with(c.Decimals+1)),
		"median": of(func(r *diag.CompressionResult) float64 { return r.Median }, print),
		"difference": of(func(r *diag.CompressionResult) float64 {
			apart, _ := readings.Less(r.Highest, r.Lowest, r.Decimals)
			return apart
		}, with(digits)),
		"spread": of(func(r *diag.CompressionResult) float64 { return r.SpreadPercentOfHighest }, with(1)),
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
		facts := diag.Facts{"found": "", "uncertainty": "", "rule": l.Rule, "limit": limit, "verdict": p.term("judged", string(l.Verdict)), "cylinder": l.Cylinder, "source": l.Source}
		if l.Verdict != diag.NotJudged {
			facts["found"] = quantity.Format(l.Value, digits) + unit
			facts["uncertainty"] = quantity.Format(l.Uncertainty, max(digits, 1)) + unit
			if l.Ends != nil {
				facts["found"] = readings.Between(l.Ends[0], l.Ends[1], func(v float64) string { return quantity.Format(v, digits) }) + unit
				facts["uncertainty"] = ""
			}
		}
		p.wrapped("  ", p.say("terminal.limit", facts))
	}
}

func (p *printer) leakage(t *diag.Test, l *diag.LeakageResult, shown func(string) bool) {
	if l == nil {
		return
	}
	p.title(p.say("terminal.leakage", nil))
	p.columns(readings.Leakage(t, l), names(l.Cylinders, func(r diag.LeakResult) string { return r.Name }), shown)
	if l.Limit != nil {
		p.line("  %s", p.say("terminal.leakage-limit", diag.Facts{"limit": readings.Print(*l.Limit, 1)}))
	}
}

func (p *printer) plugs(r *diag.PlugsResult, shown func(string) bool) {
	if r == nil {
		return
	}
	p.title(p.say("terminal.plugs", nil))
	p.columns(readings.Plugs(r), names(r.Cylinders, func(c diag.PlugResult) string { return c.Name }), shown)
}

func (p *printer) rotors(r *diag.RotorsResult, shown func(string) bool) {
	if r == nil {
		return
	}
	p.title(p.say("terminal.rotors-order", diag.Facts{"title": p.titled("terminal.rotors", r.Unit)}))
	rows := [][]string{}
	for _, rotor := range r.Rotors {
		if !shown(rotor.Name) {
			continue
		}
		if len(rotor.Values) == 0 {
			rows = append(rows, []string{rotor.Name, p.state(rotor.State, rotor.Reason), ""})
			continue
		}
		var faces []string
		for i, v := range rotor.Values {
			face := quantity.Format(v, r.Decimals)
			if slices.Contains(rotor.LowFaces, i) {
				face = p.say("terminal.low-face", diag.Facts{"face": face})
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
	p.title(p.titled("terminal.fuel", f.Unit))
	rows := [][]string{}
	for _, c := range f.Circuits {
		for _, r := range c.Readings {
			rows = append(rows, []string{c.Name, r.Name, quantity.Format(r.Value, quantity.DecimalsRead(r.Value, f.Decimals)), r.LimitEntered,
				quantity.Format(r.Uncertainty, f.Decimals+1), p.term("judged", string(r.Verdict))})
		}
		for _, h := range c.Hold {
			rows = append(rows, []string{c.Name, p.say("terminal.held", diag.Facts{"minutes": readings.Print(h.Minutes, 0)}), quantity.Format(h.Value, quantity.DecimalsRead(h.Value, f.Decimals)), h.LimitEntered, "", p.term("judged", string(h.Verdict))})
		}
	}
	p.table([]string{"circuit", "reading", "value", "limit", "uncertain", "verdict"}, rows)
	for _, c := range f.Circuits {
		if c.RegulatorRise != nil {
			p.ofCircuit(c.Name, p.say("terminal.regulator-rise", diag.Facts{"rise": quantity.Format(*c.RegulatorRise, f.Decimals) + " " + string(f.Unit)}))
		}
		if c.InjectorFlowPercent != nil {
			p.ofCircuit(c.Name, p.say("terminal.injector-flow", diag.Facts{"flow": quantity.Format(*c.InjectorFlowPercent, 0)}))
		}
	}
}

// ofCircuit says something of a fuel circuit, by name where it has one.
func (p *printer) ofCircuit(name, text string) {
	if name != "" {
		text = p.say("terminal.circuit", diag.Facts{"circuit": name, "text": text})
	}
	p.line("  %s", text)
}

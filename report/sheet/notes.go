package sheet

import (
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/layout"
	"gaugesheet/layout/figure"
)

// notesLeft says under a plan without small values where they stand: on a
// sheet with a table of readings there, else under the chart, else here.
func (v *view) notesLeft() string {
	switch {
	case v.hasBlock("readings"):
		return v.label("plan.notes-in-table")
	case len(v.smallValues()) == 0: // only readings after oil can be left out
		return v.label("plan.notes-in-chart")
	case v.hasBlock("small-values"):
		return v.label("plan.notes-under-chart")
	}
	return joined(" · ", v.smallValues()...)
}

// smallValuesBlock is what the plan leaves out where it has no room for it.
func (v *view) smallValuesBlock() layout.Block { return figure.NewSmallValues(v.smallValues()) }

// smallValues lists leakage and plugs by value. Readings after oil stand in
// the spread chart.
func (v *view) smallValues() []string {
	var lists []string
	pressure := v.compression() != nil || v.rotors() != nil
	if pressure && v.leakage() != nil {
		lists = append(lists, v.cylinderList("plan.leak-list", func(name string) string {
			return labelValue(v.leakNote(name))
		}))
	}
	if pressure || v.leakage() != nil {
		lists = append(lists, v.cylinderList("plan.plug-list", func(name string) string {
			return labelValue(v.plugNote(name))
		}))
	}
	return slices.DeleteFunc(lists, func(s string) bool { return s == "" })
}

func labelValue(notes []figure.Label) string {
	if len(notes) == 0 {
		return ""
	}
	return notes[0].Value
}

func (v *view) hasBlock(name string) bool {
	for _, row := range v.sheet.Rows {
		if slices.Contains(row.Blocks(), name) {
			return true
		}
	}
	return false
}

// cylinderList gives each value with the cylinders that have it, in the order
// of the cylinders: "3 oil-wet, others normal". The value that most have comes
// last where it is every other's.
func (v *view) cylinderList(key string, value func(name string) string) string {
	var order []string
	by := map[string]diag.Names{}
	read := 0
	for _, name := range v.names() {
		if s := value(name); s != "" {
			if by[s] == nil {
				order = append(order, s)
			}
			by[s] = append(by[s], name)
			read++
		}
	}
	if read == 0 {
		return ""
	}
	if len(order) == 1 && read == len(v.names()) && read > 1 {
		return v.label(key, "list", v.label("plan.list-all", "value", order[0]))
	}
	common := slices.MaxFunc(order, func(a, b string) int { return len(by[a]) - len(by[b]) })
	var entries []string
	for _, s := range order {
		if s == common && len(by[s]) > 2 && read == len(v.names()) && len(order) > 1 {
			continue
		}
		entries = append(entries, v.label("plan.list-entry", "cylinders", strings.Join(by[s], ",\u00a0"), "value", s))
	}
	if len(entries) < len(order) {
		entries = append(entries, v.label("plan.list-others", "value", common))
	}
	return v.label(key, "list", strings.Join(entries, ", "))
}

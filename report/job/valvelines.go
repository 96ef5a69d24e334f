package job

import (
	"strings"

	"gaugesheet/diag/quantity"
)

// valvePairs writes the clearances of both valves behind each cylinder, '1 .20/.30, 2
// .20/.28', as the valves' section has them; "" for any other text.
func (r *reader) valvePairs(text string) string {
	var inlets, exhausts []string
	unit := ""
	for _, t := range separate(text, ",;") {
		name, rest, ok := r.leadingCylinder(t.text)
		inlet, exhaust, both := strings.Cut(strings.ReplaceAll(rest, " ", ""), "/")
		if !ok || !both || !isFigures(inlet) || !isFigures(exhaust) {
			return ""
		}
		if v, err := quantity.Parse(inlet); err == nil && v.Number > 0 && unit == "" {
			unit = "unit: " + string(clearanceUnit(v.Number)) + ", "
		}
		inlets, exhausts = append(inlets, name+": "+inlet), append(exhausts, name+": "+exhaust)
	}
	if len(inlets) < 2 {
		return ""
	}
	return "write 'valves: {" + unit + "inlet: {" + strings.Join(inlets, ", ") + "}, exhaust: {" + strings.Join(exhausts, ", ") + "}}', if the inlet valve's stands first"
}

// clearanceUnit is the unit in which a bare clearance of such a size is.
func clearanceUnit(number float64) quantity.Unit { return bareUnit(number, 0.05) }

// bareUnit is millimeters from the least of them that such a thing measures on, inches below.
func bareUnit(number, least float64) quantity.Unit {
	if number < least {
		return quantity.Inch
	}
	return quantity.Millimetre
}

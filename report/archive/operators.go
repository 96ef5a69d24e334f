package archive

import (
	"math"
	"reflect"
	"slices"

	"gaugesheet/report/archive/pdffile"
)

// states are operators that any page may be drawn with: programs that save one anew put
// them where they like, and what of it paints is among the marks, which are compared.
var states = []string{"q", "Q", "cm", "w", "J", "j", "M", "d", "i", "g", "G", "rg", "RG", "k", "K", "BT", "ET", "Td", "Tm", "TD", "T*", "TL", "Tf", "TJ", "Tj", "re", "h", "f", "BDC", "BMC", "EMC"}

// ourOperators tells whether the page is drawn with what a sheet is drawn with,
// and with nothing else that could paint, cut or hide.
func (c *comparison) ourOperators() bool {
	used := map[string]bool{}
	for _, op := range c.again.drawn.ops {
		used[op.Name] = true
	}
	if !reflect.DeepEqual(parts(c.ours.ops), parts(c.again.drawn.ops)) || depth(c.ours.ops) > max(mostSaved, depth(c.again.drawn.ops)) || slices.ContainsFunc(c.ours.ops, isFar) {
		return false
	}
	return !slices.ContainsFunc(c.ours.ops, func(op pdffile.Operation) bool { return !used[op.Name] && !slices.Contains(states, op.Name) })
}

// isFar tells whether an operation goes beyond all papers or scales by far: readers that
// reckon with few figures lose places in that, though it is taken back.
func isFar(op pdffile.Operation) bool {
	const beyond, times = 5000, 100
	far := func(o pdffile.Object) bool { v, _ := o.(float64); return math.Abs(v) > beyond }
	for i, o := range op.Operands {
		if list, isList := o.([]pdffile.Object); far(o) || isList && slices.ContainsFunc(list, far) {
			return true
		}
		v, _ := o.(float64)
		if op.Name == "cm" && i < 4 && (math.Abs(v) > times || v != 0 && math.Abs(v) < 1.0/times) {
			return true
		}
	}
	return false
}

// mostSaved is how often in a row readers of all times save a state (ISO 32000-1,
// table C.1).
const mostSaved = 28

// depth is how often in a row a content saves its state.
func depth(ops []pdffile.Operation) int {
	saved, most := 0, 0
	for _, op := range ops {
		switch op.Name {
		case "q":
			saved++
		case "Q":
			saved--
		}
		most = max(most, saved)
	}
	return most
}

// parts are the operations of a content that mark its parts.
func parts(ops []pdffile.Operation) []pdffile.Operation {
	return slices.DeleteFunc(slices.Clone(ops), func(op pdffile.Operation) bool { return op.Name != "BDC" && op.Name != "BMC" && op.Name != "EMC" })
}

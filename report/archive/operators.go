package archive

import (
	"math"
	"slices"

	"gaugesheet/report/archive/pdffile"
)

// sameSteps tells whether two contents draw the same step by step: every operation
// that makes an outline, paints, shows letters, cuts or marks a part is the sheet's,
// with the same operands in the same order. Between these, programs that save a page
// anew set pens, colours and types where they like; each step finds them as in the
// sheet. A page that comes to the same marks in other steps is not the same: how
// readers lay out, search and read it aloud goes by the steps.
func sameSteps(ours, theirs []pdffile.Operation) bool {
	a, b := steps(ours), steps(theirs)
	return len(a) == len(b) && depth(ours) <= max(mostSaved, depth(theirs)) && slices.EqualFunc(a, b, step.equal)
}

// A step is an operation with what of the state it draws with.
type step struct {
	pdffile.Operation
	with setting
}

func (s step) equal(t step) bool {
	return sameOperation(s.Operation, t.Operation) && s.with.equal(t.with)
}

// A setting is what was set, as it was set, by the name of what it is; inside are the
// changes of scale and the cuts that it stands in.
type setting struct {
	set    map[string]pdffile.Operation
	inside []pdffile.Operation
}

func (s setting) equal(t setting) bool {
	for _, key := range settings {
		if !sameOperation(s.set[key], t.set[key]) {
			return false
		}
	}
	return slices.EqualFunc(s.inside, t.inside, sameOperation)
}

// sets are the operators that set something, by what that is.
var sets = map[string]string{
	"g": "fill", "rg": "fill", "k": "fill", "G": "line", "RG": "line", "K": "line",
	"w": "width", "J": "ends", "j": "corners", "M": "points", "d": "dashes", "Tf": "type",
}

var settings = []string{"fill", "line", "width", "ends", "corners", "points", "dashes", "type"}

// drawsWith are what operators draw with: of others what is set says nothing.
var drawsWith = map[string][]string{
	"Tj": {"fill", "type"}, "TJ": {"fill", "type"}, "f": {"fill"}, "f*": {"fill"}, "F": {"fill"}, "Do": {"fill"}, // of pictures, which are all that sheets have
	"S": settings[1:7], "s": settings[1:7], "B": settings[:7], "B*": settings[:7], "b": settings[:7], "b*": settings[:7],
	"cm": {}, "m": {}, "l": {}, "c": {}, "v": {}, "y": {}, "re": {}, "h": {}, "n": {}, "W": {}, "W*": {}, "BT": {}, "ET": {}, "Td": {}, "BMC": {}, "BDC": {}, "EMC": {},
}

// start is what is set where a page begins (ISO 32000-2, table 51).
func start() map[string]pdffile.Operation {
	one := func(name string, v float64) pdffile.Operation {
		return pdffile.Operation{Name: name, Operands: []pdffile.Object{v}}
	}
	return map[string]pdffile.Operation{
		"fill": one("g", 0), "line": one("G", 0), "width": one("w", 1), "ends": one("J", 0), "corners": one("j", 0), "points": one("M", 10),
		"dashes": {Name: "d", Operands: []pdffile.Object{[]pdffile.Object{}, 0.0}},
	}
}

// steps are the steps of a content.
func steps(ops []pdffile.Operation) []step {
	var out []step
	set, inside := start(), []pdffile.Operation(nil)
	type saved struct {
		set    map[string]pdffile.Operation
		inside []pdffile.Operation
	}
	var before []saved
	for _, op := range ops {
		what, only := sets[op.Name]
		switch {
		case only:
			set[what] = op
		case op.Name == "q":
			before = append(before, saved{cloned(set), inside})
		case op.Name == "Q":
			if n := len(before); n > 0 {
				set, inside, before = before[n-1].set, before[n-1].inside, before[:n-1]
			}
		case op.Name == "cm" && sameOperation(op, unchanged):
		default:
			with, known := drawsWith[op.Name]
			if !known {
				with = settings
			}
			s := step{op, setting{map[string]pdffile.Operation{}, inside}}
			for _, key := range with {
				s.with.set[key] = set[key]
			}
			out = append(out, s)
			if op.Name == "cm" || op.Name == "W" || op.Name == "W*" {
				inside = append(inside[:len(inside):len(inside)], op)
			}
		}
	}
	return out
}

func cloned(set map[string]pdffile.Operation) map[string]pdffile.Operation {
	out := make(map[string]pdffile.Operation, len(set))
	for key, op := range set {
		out[key] = op
	}
	return out
}

// unchanged is a change of scale that changes nothing.
var unchanged = pdffile.Operation{Name: "cm", Operands: []pdffile.Object{1.0, 0.0, 0.0, 1.0, 0.0, 0.0}}

func sameOperation(a, b pdffile.Operation) bool {
	return a.Name == b.Name && slices.EqualFunc(a.Operands, b.Operands, sameOperand)
}

// sameOperand compares what stands before an operator: numbers are the same that are as
// near as programs write them.
func sameOperand(a, b pdffile.Object) bool {
	switch a := a.(type) {
	case float64:
		b, ok := b.(float64)
		const figures = 2e-6
		return ok && math.Abs(a-b) <= figures*max(1, math.Abs(b))
	case []pdffile.Object:
		b, ok := b.([]pdffile.Object)
		return ok && slices.EqualFunc(a, b, sameOperand)
	case pdffile.Dict:
		b, ok := b.(pdffile.Dict)
		if !ok || len(a) != len(b) {
			return false
		}
		for key, o := range a {
			other, given := b[key]
			if !given || !sameOperand(o, other) {
				return false
			}
		}
		return true
	}
	return a == b
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

package job

import (
	"fmt"
	"slices"
	"strings"

	"gaugesheet/diag/engine"
)

// Starter writes a commented job file for an engine such as "V8", "inline-4"
// or "V8, bank by bank". It becomes a job once the numbers are typed in. The
// full one has every key of the job file in its comments. The error is an
// engine.Problem.
func Starter(engineText string, full bool) ([]byte, error) {
	if _, problem := engine.SpecFor(engineText); problem != nil {
		return nil, *problem
	}
	preset, ok := engine.Find(engineText)
	if !ok {
		return nil, engine.Problem{Field: "layout", Index: -1, Message: fmt.Sprintf("no starter for '%s'", engineText), Hint: "one of " + engine.LayoutForms}
	}
	e, problems := engine.New(preset.Spec)
	if len(problems) > 0 {
		return nil, problems[0]
	}
	w := &starter{engine: e, rotary: e.Kind == engine.Rotary, full: full}
	w.opening(preset)
	w.commented(fileKeysBetween("", "engine"))
	w.layout(e, preset)
	w.commented(fileKeysBetween("engine", "compression"))
	w.readings(e)
	w.commented(fileKeysBetween("compression", ""))
	return []byte(w.b.String()), nil
}

type starter struct {
	b      strings.Builder
	engine *engine.Engine
	rotary bool
	full   bool // every key, not only the usual ones
	limits bool // within limits, of which none may be taken for the job's
}

// remarkAt is the column at which remarks begin.
const remarkAt = 44

func (w *starter) line(text, remark string) {
	if remark != "" {
		text += strings.Repeat(" ", max(remarkAt-len([]rune(text)), 1)) + "# " + remark
	}
	w.b.WriteString(text + "\n")
}

func (w *starter) opening(p engine.Preset) {
	name := p.Name
	if name == engine.Custom.String() {
		name = "custom layout"
	}
	w.line("# Engine test: "+name, "")
	w.line("# Type what was measured after the colons. A line with nothing after its colon", "")
	w.line("# has to be filled in or taken out; for no reading write 'not tested' or", "")
	w.line("# 'could not test (why)'. To use a line that begins with '#', take the '#' away,", "")
	w.line("# and write what it is in place of '...'.", "")
	if w.full {
		w.line("# A line that begins with '##' is used instead of another, or names a file.", "")
	}
}

// briefly are the keys that the short starter offers in its comments.
var briefly = map[string][]string{
	"job":           {"number", "date", "technician", "reason", "complaints"},
	"shop":          {"name", "phone"},
	"customer":      {"name"},
	"vehicle":       {"description", "plate", "odometer"},
	"conditions":    {"engine", "throttle", "plugs-out", "strokes", "cranking"},
	"gauges":        {"compression"},
	"compression":   {"wet", "oil", "limits"},
	"rotors":        {"cranking", "limits"},
	"leakage":       {"dry"},
	"plugs":         {"looks"},
	"fuel-pressure": {"unit", "key-on", "idle"},
	"limits":        {"minimum", "spread", "source"},
}

// offered gives the keys of a section that stand in the comments.
func (w *starter) offered(k key) []key {
	usual, known := briefly[k.name]
	if w.full || !known {
		return k.keys
	}
	return slices.DeleteFunc(slices.Clone(k.keys), func(sub key) bool { return !slices.Contains(usual, sub.name) })
}

// fileKeysBetween gives the keys of the file after one and before the other.
func fileKeysBetween(after, before string) []key {
	from, to := 0, len(fileKeys)
	for i, k := range fileKeys {
		switch k.name {
		case after:
			from = i + 1
		case before:
			to = i
		}
	}
	return fileKeys[from:to]
}

// commented writes keys of the file as comments.
func (w *starter) commented(keys []key) {
	for _, k := range keys {
		skip := k.name == "rotors" || k.name == "leakage" && w.rotary
		if _, brief := briefly[k.name]; skip || !w.full && !brief {
			continue
		}
		if len(k.keys) > 0 {
			w.line("", "")
		}
		w.key(k, "")
	}
}

// key writes one key as a comment, with those of its keys below it.
func (w *starter) key(k key, indent string) {
	if k.form != asGroup && k.form != asTestSection && k.name != "shop" {
		mark, doc := "#", k.doc
		if k.form == asFileName || k.form == asFileNames {
			mark = "##"
		}
		if k.insteadOf != "" {
			mark = "##"
			if !strings.HasPrefix(doc, "Instead of") {
				doc = "Instead of '" + k.insteadOf + "'. " + doc
			}
		}
		if sample := w.sample(k); sample == unchanged && k.example != "" {
			w.line(mark+indent+k.name+": "+sample, strings.TrimSuffix(doc, ".")+", such as "+k.example+".")
		} else {
			w.line(mark+indent+k.name+": "+sample, doc)
		}
		return
	}
	if k.name == "limits" {
		w.limits = true
		defer func() { w.limits = false }()
	}
	w.line("#"+indent+k.name+":", k.doc)
	for _, one := range w.offered(k) {
		if one.name != "circuits" { // it takes the place of its neighbours
			w.key(one, indent+"  ")
		}
	}
}

// sample is what a comment shows as a key's value, for this engine.
func (w *starter) sample(k key) string {
	names := w.engine.Names()
	switch {
	case k.form == asText || w.limits && len(k.words) == 0:
		return unchanged // nothing that would pass for the job's own
	case k.perName:
		return fitted(k.example, names)
	case k.name == "order":
		return "[" + strings.Join(names, ", ") + "]"
	case k.name == "banks":
		var banks []string
		for _, b := range w.engine.Banks {
			banks = append(banks, b.Name+": ["+strings.Join(b.Cylinders, ", ")+"]")
		}
		return "{" + strings.Join(banks, ", ") + "}"
	case k.name == "heads":
		var heads []string
		for _, h := range w.engine.Heads {
			heads = append(heads, "["+strings.Join(h, ", ")+"]")
		}
		return "[" + strings.Join(heads, ", ") + "]"
	case k.name == "deactivates":
		return "[" + strings.Join(names[:len(names)/2], ", ") + "]"
	case k.name == "shared-coils":
		var coils []string
		for i := range len(names) / 2 {
			coils = append(coils, "["+names[i]+", "+names[len(names)-1-i]+"]")
		}
		return "[" + strings.Join(coils, ", ") + "]"
	case k.name == "before" && w.rotary:
		return "{done: new seals, rotors: {unit: kgf/cm2, faces: {" + names[0] + ": [5.1, 5.0, 5.2]}}}"
	case k.name == "before":
		return "{done: new rings, compression: {unit: psi, dry: {" + names[0] + ": 95}}}"
	case k.name == "cylinders":
		return "[" + strings.Join(names, ", ") + "]"
	case k.example != "":
		return k.example
	case k.form == asWordList || k.form == asTexts || k.form == asFileNames:
		return "[...]"
	case len(k.words) > 0:
		return k.words[0]
	case k.form == asYesNo:
		return "no"
	case k.form == asReading:
		return "120"
	}
	return unchanged
}

// fitted gives an example by cylinder with the names of an engine's: where the
// engine has none of a name, the next that the example does not use.
func fitted(example string, names []string) string {
	entries := entriesOf(example)
	used := map[string]bool{}
	for _, e := range entries {
		name, _, _ := strings.Cut(e, ":")
		used[name] = true
	}
	free := slices.DeleteFunc(slices.Clone(names), func(n string) bool { return used[n] })
	var out []string
	for _, e := range entries {
		name, value, _ := strings.Cut(e, ":")
		if !slices.Contains(names, name) {
			if len(free) == 0 {
				continue
			}
			name, free = free[0], free[1:]
		}
		out = append(out, name+":"+value)
	}
	return "{" + strings.Join(out, ", ") + "}"
}

// entriesOf takes a mapping in braces apart, its entries as they are written.
func entriesOf(example string) []string {
	var out []string
	depth, start := 0, 1
	for i, c := range example {
		switch {
		case c == '{' || c == '[':
			depth++
		case c == '}' || c == ']':
			depth--
		}
		if depth == 1 && c == ',' || depth == 0 {
			out = append(out, strings.TrimSpace(example[start:i]))
			start = i + 1
		}
	}
	return out
}

func (w *starter) layout(e *engine.Engine, p engine.Preset) {
	w.line("", "")
	w.line("engine:", "")
	w.line("  layout: "+p.Spec.Layout, "")
	given := []string{"layout", "fuel", "firing-order", "numbering", "first-bank"}
	if !e.IsTwoBank() {
		given = append(given, "banks")
	}
	if w.rotary {
		given = append(append(given, "heads", "shared-coils"), valveKeys...)
	}
	if len(e.Names()) == 1 {
		given = append(given, "deactivates", "shared-coils")
	}
	if p.Spec.Numbering != "" {
		w.line("  numbering: "+p.Spec.Numbering, "check your manual: "+numbersOf(e)+otherWay(p))
	}
	if p.Spec.FirstBank != "" {
		w.line("  first-bank: "+p.Spec.FirstBank, "check your manual: the side of the vehicle that cylinder 1 is on")
	}
	if len(p.Spec.Custom) > 0 {
		w.line("  cylinders:", "the place and head of each; x grows to the right, y to the rear")
		for _, c := range p.Spec.Custom {
			w.line(fmt.Sprintf("    - {name: %s, x: %s, y: %s, head: %d}", c.Name, plainNumber(c.X), plainNumber(c.Y), c.Head), "")
		}
		given = append(given, "cylinders", "heads")
	}
	w.line("  fuel: petrol", "or "+anyOf(fuels[1:]))
	order, remark := strings.Join(e.Names(), "-"), "put in the order of your manual: this is none yet"
	if e.Kind == engine.Custom {
		order = "[" + strings.Join(e.Names(), ", ") + "]"
	}
	for _, f := range p.Firing {
		if f.Numbering != engine.ByPlace {
			order, remark = f.Order, "a common one; check your manual"
			break
		}
	}
	w.line("#  firing-order: "+order, remark)
	for _, k := range keysOf(fileKeys, "engine") {
		if w.full && !slices.Contains(given, k.name) {
			w.key(k, "  ")
		}
	}
}

// numbersOf writes the numbers bank by bank.
func numbersOf(e *engine.Engine) string {
	var banks []string
	for _, b := range e.Banks {
		banks = append(banks, strings.Join(b.Cylinders, "-"))
	}
	return strings.Join(banks, " / ")
}

// otherWay names the other numbering with its numbers.
func otherWay(p engine.Preset) string {
	spec := p.Spec
	spec.Numbering = engine.BankByBank
	if p.Spec.Numbering == spec.Numbering {
		spec.Numbering = engine.AcrossBanks
	}
	e, problems := engine.New(spec)
	if len(problems) > 0 {
		return ""
	}
	return "; '" + spec.Numbering + "' is " + numbersOf(e)
}

// readings writes the one section that has to be filled in.
func (w *starter) readings(e *engine.Engine) {
	w.line("", "")
	if w.rotary {
		w.line("rotors:", "")
		w.line("  unit: kgf/cm2", "or "+anyOf(pressureUnits[:4]))
		w.line("  faces:", "three for each rotor in the order read, such as [7.4, 7.2, 7.3]")
	} else {
		w.line("compression:", "")
		w.line("  unit: psi", "or "+anyOf(pressureUnits[1:]))
		w.line("  dry:", "a list such as [158, 160] where it was read again")
	}
	for _, name := range e.Names() {
		w.line("    "+name+":", "")
	}
	section := "compression"
	if w.rotary {
		section = "rotors"
	}
	i := slices.IndexFunc(fileKeys, func(k key) bool { return k.name == section })
	for _, k := range w.offered(fileKeys[i]) {
		if k.name != "unit" && k.name != "dry" && k.name != "faces" {
			w.key(k, "  ")
		}
	}
}

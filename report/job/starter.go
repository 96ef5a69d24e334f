package job

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"gaugesheet/diag/engine"
)

// Starter writes a commented job file for an engine such as "V8", "inline-4"
// or "V8, bank by bank", in the order of the bench sheet. It becomes a job once
// the numbers are typed in: its live lines are blank or what was asked for, and
// its comments show by example what belongs in a line, never as its value. The
// full one has every key of the job file in its comments. The shop profile is
// named in a live line of its own where there is one. The error is an
// engine.Problem.
func Starter(engineText string, full bool, shop string) ([]byte, error) {
	engineText, more := EngineMeant(engineText)
	asked, problem := engine.SpecFor(engineText)
	if problem != nil {
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
	w := &starter{engine: e, rotary: e.Kind == engine.Rotary, full: full, told: more}
	w.opening(preset, asked.Numbering != "")
	for _, name := range benchOrder {
		switch {
		case name == "engine":
			w.layout(preset, asked.Numbering)
		case name == "rotors" && w.rotary, name == "compression" && !w.rotary:
			w.readings(name)
		case name == "shop" && shop != "":
			w.line("", "")
			w.line("shop: "+shop, "the shop profile that was found")
		case name == "rotors" || w.rotary && slices.Contains(notForRotors, name):
		default:
			w.commented(keyOf(fileKeys, name))
		}
	}
	return []byte(w.b.String()), nil
}

// benchOrder are the keys of the file in the order of the bench sheet. A further
// test that has no place of its own in it comes after the one before it in
// measuredSections.
var benchOrder = func() []string {
	order := slices.Clone(ownPlaces)
	for i, s := range measuredSections {
		if i > 0 && !slices.Contains(order, s.name) {
			order = slices.Insert(order, slices.Index(order, measuredSections[i-1].name)+1, s.name)
		}
	}
	return order
}()

// ownPlaces are keys of the file in that order: what needs the engine running
// comes before the plugs come out, and oil, which is part of the compression
// test, after the leak-down.
var ownPlaces = []string{
	"format", "sheet", "paper", "language", "job", "shop", "customer", "seller", "independence", "vehicle", "engine",
	"conditions", "gauges", "oil-pressure", "fuel-pressure", "vacuum", "timing", "smoke", "cooling", "coolant-gas-test", "plugs", "compression", "rotors", "leakage", "valves", "borescope", "other-readings",
	"before", "photos", "findings", "recommended", "declined", "not-tested", "notes", "earlier",
}

// notForRotors are the sections that a rotary engine has not.
var notForRotors = []string{"compression", "leakage", "valves"}

type starter struct {
	b      strings.Builder
	engine *engine.Engine
	rotary bool
	full   bool        // every key, not only the usual ones
	told   [][2]string // of the engine, beside its layout: key and value
}

// remarkAt is the column at which remarks begin.
const remarkAt = 44

func (w *starter) line(text, remark string) {
	if remark != "" {
		text += strings.Repeat(" ", max(remarkAt-len([]rune(text)), 1)) + "# " + remark
	}
	w.b.WriteString(text + "\n")
}

func (w *starter) opening(p engine.Preset, numbered bool) {
	name := p.Name
	if !numbered {
		name = p.Spec.Layout
	}
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

// commented writes a key of the file as comments.
func (w *starter) commented(k key) {
	if _, brief := briefly[k.name]; !w.full && !brief {
		return
	}
	if len(k.keys) > 0 {
		w.line("", "")
	}
	w.key(k, "")
}

// key writes one key as a comment, with those of its keys below it. What
// belongs in it is shown by example in the remark.
func (w *starter) key(k key, indent string) {
	if k.form == asGroup || k.form == asTestSection || k.name == "shop" {
		w.line("#"+indent+k.written()+":", k.doc)
		for _, one := range w.offered(k) {
			if one.name != "circuits" { // it takes the place of its neighbours
				w.key(one, indent+"  ")
			}
		}
		return
	}
	mark, remark := "#", k.doc
	if k.form == asFileName || k.form == asFileNames {
		mark = "##"
	}
	if k.insteadOf != "" {
		mark = "##"
		if !strings.HasPrefix(remark, "Instead of") {
			remark = "Instead of '" + k.insteadOf + "'. " + remark
		}
	}
	value := unchanged
	if sample := w.sample(k); sample != "" {
		remark = strings.TrimSuffix(remark, ".") + ", such as " + sample + "."
		if others := otherWords(k, sample); others != "" {
			remark += " Or " + others + "."
		}
	}
	if w.sample(k) == "" && (k.form == asTexts || k.form == asWordList || k.form == asFileNames) {
		value = "[" + unchanged + "]"
	}
	if k.name == "wet" {
		remark += " Oil comes last, and never into a diesel."
	}
	w.line(mark+indent+k.written()+": "+value, remark)
}

// otherWords are the words that a key may have beside its sample.
func otherWords(k key, sample string) string {
	words := k.words
	if k.form == asYesNo {
		words = []string{"no", "yes"}
	}
	if k.form != asWord && k.form != asYesNo {
		return ""
	}
	return anyOf(slices.DeleteFunc(slices.Clone(words), func(w string) bool { return w == sample }))
}

// layout writes the engine. Numbering, first bank and fuel are never guessed:
// they stay open but for a numbering that was asked for.
func (w *starter) layout(p engine.Preset, numbering string) {
	w.line("", "")
	w.line("engine:", "")
	w.line("  layout: "+p.Spec.Layout, "")
	given := []string{"layout", "fuel", "firing-order", "numbering", "first-bank"}
	if !w.engine.IsTwoBank() {
		given = append(given, "banks")
	}
	if w.rotary {
		given = append(append(given, "heads", "shared-coils"), valveKeys...)
	}
	if len(w.engine.Names()) == 1 {
		given = append(given, "deactivates", "shared-coils")
	}
	if p.Spec.FirstBank != "" {
		w.line("# How the cylinders are numbered stands on the engine or in its manual:", "")
		for _, line := range engine.DrawChoices(p.Spec.Layout) {
			w.line(strings.TrimRight("# |  "+line, " "), "")
		}
	}
	if p.Spec.Numbering != "" {
		w.line(strings.TrimSuffix("  numbering: "+numbering, " "), "check your manual: "+anyOf([]string{engine.AcrossBanks, engine.BankByBank}))
	}
	if p.Spec.FirstBank != "" && !w.tells("first-bank") {
		w.line("  first-bank:", "left or right: the side of the vehicle that cylinder 1 is on")
	}
	if len(p.Spec.Custom) > 0 {
		w.line("  cylinders:", "the place and head of each; x grows to the right, y to the rear")
		for _, c := range p.Spec.Custom {
			w.line(fmt.Sprintf("    - {name: %s, x: %s, y: %s, head: %d}", c.Name, plainNumber(c.X), plainNumber(c.Y), c.Head), "")
		}
		given = append(given, "cylinders", "heads")
	}
	if !w.tells("fuel") {
		w.line("  fuel:", anyOf(fuels))
	}
	keys := keysOf(fileKeys, "engine")
	for _, said := range w.told {
		k := keyOf(keys, said[0])
		word, _ := vocabularyOf(k.says).find(said[1], k.words)
		w.line("  "+k.name+": "+cmp.Or(word, said[1]), "as you said")
		given = append(given, k.name)
	}
	w.line("#  firing-order: "+unchanged, w.firingRemark(p))
	for _, k := range keys {
		if w.full && !slices.Contains(given, k.name) {
			w.key(k, "  ")
		}
	}
}

// tells reports that a key of the engine was told beside its layout.
func (w *starter) tells(name string) bool {
	return slices.ContainsFunc(w.told, func(said [2]string) bool { return said[0] == name })
}

// firingRemark shows how a firing order is written.
func (w *starter) firingRemark(p engine.Preset) string {
	for _, f := range p.Firing {
		if f.Numbering != engine.ByPlace {
			return "The order of your manual, such as " + f.Order + "."
		}
	}
	order := strings.Join(w.engine.Names(), "-")
	if w.engine.Kind == engine.Custom {
		order = "[" + strings.Join(w.engine.Names(), ", ") + "]"
	}
	return "The cylinders in the order of your manual, such as " + order + "."
}

// readings writes the one section that has to be filled in.
func (w *starter) readings(section string) {
	w.line("", "")
	w.line(section+":", "")
	w.line("  unit:", anyOf(pressureUnits))
	if w.rotary {
		w.line("  faces:", "three for each rotor in the order read, such as [7.4, 7.2, 7.3]")
	} else {
		w.line("  dry:", "a list such as [158, 160] where it was read again")
	}
	for _, name := range w.engine.Names() {
		w.line("    "+name+":", "")
	}
	for _, k := range w.offered(keyOf(fileKeys, section)) {
		if k.name != "unit" && k.name != "dry" && k.name != "faces" {
			w.key(k, "  ")
		}
	}
}

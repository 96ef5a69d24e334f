package engine

import "strings"

// Preset is a layout with a numbering, as a starting point. The first bank of
// a preset with two banks is an example: every preset has to be checked
// against the engine's manual.
type Preset struct {
	Name    string // "V8, across banks"; just the layout where there is one numbering
	Spec    Spec   // makes an engine with New
	Drawing string // in text
	Firing  []FiringExample
}

// CheckManual is to stand beside every preset's numbering and firing orders.
const CheckManual = "examples; check them in the engine's manual"

// Known lists every layout with every numbering that the package knows.
func Known() []Preset {
	var presets []Preset
	add := func(spec Spec, numbering string) {
		e, problems := New(spec)
		if len(problems) > 0 {
			return
		}
		name := e.Layout
		if numbering != "" {
			name += ", " + numbering
		}
		presets = append(presets, Preset{name, spec, e.Drawing(), firingExamplesFor(e.Layout, numbering)})
	}
	add(Spec{Layout: Single.String()}, "")
	for _, kind := range []Kind{Inline, V, Flat, NarrowV, W, Radial, Rotary} {
		for _, n := range counts[kind] {
			layout := Layout{kind, n}.String()
			if !kind.TwoBanks() {
				add(Spec{Layout: layout}, "")
				continue
			}
			if n == 2 { // both numberings are the same
				add(Spec{Layout: layout, FirstBank: left}, "")
				continue
			}
			for _, numbering := range []string{AcrossBanks, BankByBank} {
				add(Spec{Layout: layout, Numbering: numbering, FirstBank: left}, numbering)
			}
		}
	}
	add(customExample(), "")
	return presets
}

// customExample is four cylinders in a square under one head.
func customExample() Spec {
	return Spec{Layout: Custom.String(), Custom: []CustomCylinder{
		{"front left", 0, 0, 1}, {"front right", 1, 0, 1}, {"rear left", 0, 1, 1}, {"rear right", 1, 1, 1}}}
}

// SpecFor reads the name of a layout with or without a numbering, spelled
// freely: "V8", "v8, bank by bank", "inline 4". Where no numbering is named
// the Spec has none: whether to leave the numbers open (Unnumbered) or to
// offer one as an example is for the caller to say. A numbering comes with the
// left bank as first bank, which is an example.
func SpecFor(name string) (Spec, *Problem) {
	layout, numbering, comma := strings.Cut(name, ",")
	numbering = plainWords(numbering)
	if !comma {
		for _, n := range []string{AcrossBanks, BankByBank} {
			if before, found := strings.CutSuffix(plainWords(name), " "+n); found {
				layout, numbering = before, n
			}
		}
	}
	l, problem := ParseLayout(layout)
	if problem != nil {
		return Spec{}, problem
	}
	if l.Kind == Custom {
		return customExample(), nil
	}
	spec := Spec{Layout: l.String(), Numbering: numbering}
	if !comma && numbering == "" {
		return spec, nil
	}
	spec.FirstBank = left
	if _, problems := New(spec); len(problems) > 0 {
		return Spec{}, &problems[0]
	}
	return spec, nil
}

// Find gives the preset of that name, spelled as for SpecFor. For an engine of
// two banks without a numbering it gives the one numbered across the banks, as
// an example.
func Find(name string) (Preset, bool) {
	spec, problem := SpecFor(name)
	if problem != nil {
		return Preset{}, false
	}
	for _, p := range Known() {
		if p.Spec.Layout == spec.Layout &&
			(spec.Numbering == "" || p.Spec.Numbering == "" || p.Spec.Numbering == spec.Numbering) {
			return p, true
		}
	}
	return Preset{}, false
}

// FiringExample is a firing order in common use.
type FiringExample struct {
	Layout    string // canonical
	Numbering string // the numbering that the order goes by, ByPlace, or "" where the source does not say
	Order     string // cylinders, or places, joined by hyphens
	Source    string
}

// ByPlace marks a firing order given by places such as R1, L2.
const ByPlace = "by place"

const (
	commonPractice = "common practice, no source"
	fromMemory     = "from memory"
	handbookFAA    = "FAA powerplant handbook text, firing order"
	armyRoller     = "US Army TM 5-3895-382-24"
	armyFireTruck  = "US Army TM 5-4210-230-14&P-1"
	textbook       = "Auto Engine Repair (2021), p. 126"
)

// firingExamples are the firing orders that the package knows. They are
// facts of configuration, not of any one engine.
var firingExamples = []FiringExample{
	{"single", "", "1", "one cylinder"},
	{"inline-2", "", "1-2", fromMemory},
	{"V2", "", "1-2", fromMemory},
	{"inline-3", "", "1-2-3", commonPractice},
	{"inline-3", "", "1-3-2", commonPractice},
	{"inline-4", "", "1-3-4-2", armyRoller},
	{"inline-4", "", "1-2-4-3", commonPractice},
	{"inline-5", "", "1-2-4-5-3", commonPractice},
	{"inline-6", "", "1-5-3-6-2-4", handbookFAA},
	{"V6", ByPlace, "R1-L1-R2-L2-R3-L3", commonPractice},
	{"V6", ByPlace, "R1-L2-R2-L3-L1-R3", commonPractice},
	{"V6", ByPlace, "R1-L3-R3-L2-R2-L1", commonPractice},
	{"V6", AcrossBanks, "1-6-5-4-3-2", textbook},
	{"V8", AcrossBanks, "1-8-4-3-6-5-7-2", textbook},
	{"V8", AcrossBanks, "1-2-7-3-4-5-6-8", armyFireTruck},
	{"V8", AcrossBanks, "1-8-7-2-6-5-4-3", fromMemory},
	{"V8", BankByBank, "1-5-4-2-6-3-7-8", fromMemory},
	{"V8", BankByBank, "1-3-7-2-6-5-4-8", fromMemory},
	{"V8", BankByBank, "1-5-3-7-4-8-2-6", fromMemory},
	{"V10", "", "1-10-9-4-3-6-5-8-7-2", commonPractice},
	{"V10", BankByBank, "1-6-5-10-2-7-3-8-4-9", fromMemory},
	{"V12", "", "1-7-5-11-3-9-6-12-2-8-4-10", commonPractice},
	{"V12", "", "1-12-5-8-3-10-6-7-2-11-4-9", fromMemory},
	{"flat-4", BankByBank, "1-4-3-2", commonPractice},
	{"flat-4", AcrossBanks, "1-3-2-4", handbookFAA},
	{"flat-4", AcrossBanks, "1-4-2-3", handbookFAA},
	{"flat-4", ByPlace, "R1-R2-L1-L2", commonPractice},
	{"flat-6", ByPlace, "R1-L2-R3-L1-R2-L3", commonPractice},
	{"flat-6", ByPlace, "R1-L3-R2-L1-R3-L2", commonPractice},
	{"flat-6", AcrossBanks, "1-4-5-2-3-6", handbookFAA},
	{"flat-6", BankByBank, "1-6-2-4-3-5", commonPractice},
	{"narrow-V6", "", "1-5-3-6-2-4", commonPractice},
	{"radial-5", "", "1-3-5-2-4", handbookFAA},
	{"radial-7", "", "1-3-5-7-2-4-6", handbookFAA},
	{"radial-9", "", "1-3-5-7-9-2-4-6-8", handbookFAA},
	{"rotary-2", "", "1-2", commonPractice},
}

// firingExamplesFor gives the examples of a layout that go by the numbering,
// by place, or by a numbering that their source does not say.
func firingExamplesFor(layout, numbering string) []FiringExample {
	var examples []FiringExample
	for _, f := range firingExamples {
		if f.Layout == layout && (f.Numbering == numbering || f.Numbering == ByPlace || f.Numbering == "") {
			examples = append(examples, f)
		}
	}
	return examples
}

package engine

import "slices"

// Spec is what is known of an engine, as someone would write it down. The
// zero value of a field means that it was not given.
type Spec struct {
	Layout    string // one of the forms in LayoutForms
	Numbering string // AcrossBanks or BankByBank
	FirstBank string // the bank of cylinder 1 by vehicle side: left, right, front, rear
	Banks     []BankSpec
	Heads     [][]string // cylinders under one head gasket

	// SeparateBarrels gives every cylinder a head of its own.
	SeparateBarrels bool

	FiringOrder []string // cylinder names, their numbers, or places such as R1, L2
	Mount       string   // one of Mounts
	Names       []string // own names instead of 1..n, in the order of the numbers
	Custom      []CustomCylinder

	// Unnumbered allows an engine of two banks whose numbering is not given,
	// as on an empty bench sheet. Its cylinders go by place (L1, R1 ...) and
	// Engine.Numbered is false.
	Unnumbered bool
}

// BankSpec is one bank as listed by the user, front to rear.
type BankSpec struct {
	Name      string
	Cylinders []string
}

// CustomCylinder is the place and head of one cylinder of a custom layout. X
// grows to the right and Y to the rear, in any one scale. Heads count from 1.
type CustomCylinder struct {
	Name string
	X, Y float64
	Head int
}

// Problem is something in a Spec that does not make an engine.
type Problem struct {
	Field   string // key of the engine section, such as "first-bank"
	Index   int    // the offending element of the field's list (of Banks, Heads, FiringOrder, Names, Custom), or -1
	Message string
	Hint    string
}

func (p Problem) Error() string { return p.Field + ": " + p.Message }

// Engine is a set of cylinders, or rotors, in their places.
type Engine struct {
	Layout    string // canonical: "inline-4", "V8", "custom"
	Kind      Kind
	Cylinders []Cylinder // by number; in the order listed where names are words
	Banks     []Bank     // the bank of cylinder 1 first; as listed where banks were listed
	Heads     [][]string // cylinders under one head gasket
	Rotors    []Rotor    // rotary engines only, which have no cylinders

	FiringOrder []string // nil where not given
	Mount       string   // one of Mounts, "" where not given
	Numbered    bool     // false only for Spec.Unnumbered

	firstRowGiven bool  // narrow V: the side of cylinder 1 was stated
	order         []int // indices into Cylinders by place: bank by bank, front to rear
}

// Cylinder is one cylinder in its place. See the package comment for X and Y.
type Cylinder struct {
	Name string
	Bank int // index into Engine.Banks, or -1
	Head int // index into Engine.Heads
	X, Y float64
}

// Bank is a row of cylinders, listed front to rear.
type Bank struct {
	Name      string
	Cylinders []string
}

// Rotor is one rotor of a rotary engine, in its place along the shaft. The
// three faces are named in the order in which they pass the gauge; which face
// of the rotor is which cannot be seen from outside.
type Rotor struct {
	Name  string
	Faces [3]string
	X, Y  float64
}

// New builds the engine that spec describes and reports everything that is
// wrong with it at once. The engine is nil when the problems leave open which
// cylinders it has and where; otherwise it is usable for checking names, even
// when, say, its firing order is not.
func New(spec Spec) (*Engine, []Problem) {
	b := &builder{spec: spec}
	b.mount = b.checkMount()
	layout, problem := ParseLayout(spec.Layout)
	if problem != nil {
		b.problems = append(b.problems, *problem)
		return nil, b.problems
	}
	b.layout = layout
	b.checkApplicable()
	e := b.build()
	return e, b.problems
}

type builder struct {
	spec     Spec
	layout   Layout
	mount    string
	problems []Problem
}

func (b *builder) report(field string, index int, message, hint string) {
	b.problems = append(b.problems, Problem{Field: field, Index: index, Message: message, Hint: hint})
}

func (b *builder) build() *Engine {
	e := &Engine{Layout: b.layout.String(), Kind: b.layout.Kind, Mount: b.mount, Numbered: true}
	var ok bool
	switch {
	case e.Kind == Rotary:
		ok = b.placeRotors(e)
	case e.Kind == Custom:
		ok = b.placeCustom(e)
	case e.Kind.TwoBanks():
		ok = b.placeTwoBanks(e)
	default:
		ok = b.placeOneBank(e)
	}
	if !ok {
		return nil
	}
	if e.Kind != Rotary {
		b.assignHeads(e)
	}
	e.FiringOrder = b.firingOrder(e)
	return e
}

// checkApplicable reports keys that mean nothing for this layout.
func (b *builder) checkApplicable() {
	kind, name := b.layout.Kind, b.layout.String()
	if !kind.TwoBanks() {
		if b.spec.Numbering != "" {
			b.report("numbering", -1, "'numbering' is for engines of two banks; "+name+" has none to choose from",
				"leave 'numbering' out")
		}
		if b.spec.FirstBank != "" && kind != NarrowV {
			b.report("first-bank", -1, "'first-bank' is for engines of two banks; "+name+" is not one",
				"leave 'first-bank' out")
		}
	}
	if (kind == Rotary || kind == Custom) && len(b.spec.Banks) > 0 {
		b.report("banks", -1, "'banks' does not apply to "+name, "leave 'banks' out")
	}
	if kind == Rotary && (len(b.spec.Heads) > 0 || b.spec.SeparateBarrels) {
		b.report("heads", -1, "a rotary engine has no cylinder heads", "leave 'heads' out")
	}
	if kind != Custom && len(b.spec.Custom) > 0 {
		b.report("cylinders", -1, "places under 'cylinders' are for 'layout: custom'; the layout is "+name,
			"write 'layout: custom', or leave the places out")
	}
	if len(b.spec.Names) > 0 && (kind == Custom || len(b.spec.Banks) > 0) {
		b.report("cylinders", -1, "the cylinders are named twice: in a list of names and by their places",
			"keep the names in one of the two")
	}
}

// Index gives the position of the named cylinder in Cylinders, or -1.
func (e *Engine) Index(name string) int {
	return slices.IndexFunc(e.Cylinders, func(c Cylinder) bool { return c.Name == name })
}

// BankOf gives the index in Banks of the named cylinder's bank, or -1.
func (e *Engine) BankOf(name string) int {
	if i := e.Index(name); i >= 0 {
		return e.Cylinders[i].Bank
	}
	return -1
}

// IsTwoBank reports whether the engine has two banks.
func (e *Engine) IsTwoBank() bool { return len(e.Banks) == 2 }

// SideLabel says on which side of the vehicle a bank of a two-bank engine
// lies: "vehicle left", "vehicle right", "front" or "rear"; "" otherwise.
func (e *Engine) SideLabel(bank int) string {
	if !e.IsTwoBank() || bank < 0 || bank > 1 {
		return ""
	}
	switch name := e.Banks[bank].Name; name {
	case left, right:
		return "vehicle " + name
	default:
		return name
	}
}

// Names lists the cylinders' names in the order of Cylinders; for a rotary
// engine the rotors' names.
func (e *Engine) Names() []string {
	names := make([]string, 0, len(e.Cylinders)+len(e.Rotors))
	for _, c := range e.Cylinders {
		names = append(names, c.Name)
	}
	for _, r := range e.Rotors {
		names = append(names, r.Name)
	}
	return names
}

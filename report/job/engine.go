package job

import (
	"cmp"
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
	"gaugesheet/diag/quantity"
)

var (
	millimetres = []quantity.Unit{quantity.Millimetre, quantity.Inch, quantity.Centimetre}
	volumes     = []quantity.Unit{quantity.Millilitre, quantity.Litre, quantity.CubicInch}

	displacements = bounds{volumes, 1, 200_000, [2]float64{100, 20_000}}
	bores         = bounds{millimetres, 5, 1000, [2]float64{25, 250}}
	rods          = bounds{millimetres, 5, 5000, [2]float64{40, 500}}
	cranks        = bounds{[]quantity.Unit{quantity.Degree}, 0, 180, [2]float64{20, 100}}
)

// engine reads the engine, by whose cylinders all else goes. It is nil where
// the file leaves open which it has.
func (r *reader) engine(top *section) (*engine.Engine, diag.Spec) {
	n := top.get("engine")
	if n == nil {
		if top.node.get("engine") == nil {
			r.report(Pos{1, 1}, cmp.Or(r.engineSaid(), "such as 'engine: {layout: inline-4}'"), "'engine' is missing")
		}
		return nil, diag.Spec{}
	}
	if n.kind == scalar {
		r.report(n.pos, "write 'engine: {layout: "+short(n.text)+"}'", "'engine' is '%s', expected keys such as layout and fuel", short(n.text))
		return nil, diag.Spec{}
	}
	before := r.faults
	s := top.group("engine")
	if s == nil {
		return nil, diag.Spec{}
	}
	if r.faults > before && s.node.get("layout") == nil { // under a key that was answered
		return nil, r.spec(s)
	}
	e := r.cylinders(top, s)
	switch {
	case e == nil: // what is read of them is judged by the layout that is named
		r.cylinderNames = namesOf(s.node.get("layout"))
	default:
		r.cylinderNames, r.bankList = e.Names(), e.Banks
		if e.Kind == engine.Rotary {
			r.cylinderWord = "rotor"
		}
	}
	spec := r.spec(s)
	if spec.Fuel == "" && s.get("fuel") == nil {
		spec.Fuel = fuelShown(top)
		spec.FuelShown = spec.Fuel != ""
	}
	r.facts(s, e, &spec)
	if n := top.get("vehicle").get("description"); n != nil && n.kind == scalar {
		described(n.text, s, e, &spec)
	}
	return e, spec
}

// fuelShown is the fuel of an engine that is not said to burn any, where the job
// writes of it what only a diesel has: its supply, or the tests of its injection;
// "" where it does not.
func fuelShown(top *section) string {
	supply, tests := top.get("fuel-pressure").get("system"), top.get("diesel")
	if supply != nil {
		if word, _ := vocabularyOf("fuel system").find(supply.text, fuelSystems); word == dieselSupply {
			return "diesel"
		}
	}
	if tests != nil && tests.kind == mapping && len(tests.entries) > 0 {
		return "diesel"
	}
	return ""
}

// spec reads what kind of engine it is, apart from its cylinders.
func (r *reader) spec(s *section) diag.Spec {
	fuel, cycle := s.word("fuel").Value, s.word("cycle").Value
	spec := diag.Spec{
		Fuel:           fuel,
		TwoStroke:      cycle == "two-stroke" || cycle == "" && fuel == "two-stroke mix",
		Charging:       s.word("charging").Value,
		DisplacementML: orZero(s.amount("displacement", displacements)),
		BoreMM:         orZero(s.amount("bore", bores)),
		StrokeMM:       orZero(s.amount("stroke", bores)),
		RodMM:          orZero(s.amount("rod", rods)),
		InletClosesDeg: orZero(s.amount("inlet-closes", cranks)),
		VariableTiming: s.yesNo("variable-timing"),
		Decompressor:   s.word("decompressor").Value,
	}
	if spec.Decompressor == "none" && s.get("decompressor") == nil {
		spec.Decompressor = ""
	}
	if n := s.scalar("compression-ratio"); n != nil {
		spec.Ratio = r.ratio(n)
	}
	return spec
}

func orZero(v *float64) float64 {
	if v == nil {
		return 0
	}
	return *v
}

func (r *reader) ratio(n *node) float64 {
	number := strings.TrimSuffix(strings.TrimSuffix(strings.ReplaceAll(n.text, " ", ""), ":1"), "to1")
	v, err := quantity.Parse(number)
	if err != nil || v.Unit != quantity.None || v.Number <= 1 || v.Number > 50 {
		hint := "9.2 for 9.2:1"
		if err == nil && v.Number/10 > 5 && v.Number/10 < 25 {
			hint = "did you mean " + plainNumber(v.Number/10) + "?"
		}
		if err != nil {
			_, hint = parseProblem(err)
		}
		if ratio, ok := strings.CutPrefix(n.text, "1:"); ok && isFigures(ratio) { // the wrong way round
			hint = "write " + ratio
		}
		r.report(n.pos, hint, "'engine.compression-ratio' is '%s', expected a number over 1, at most 50", short(n.text))
		return 0
	}
	return v.Number
}

// cylinders builds the engine and reports what does not make one at the key
// that is to blame.
func (r *reader) cylinders(top, s *section) *engine.Engine {
	before := r.faults
	r.nameRotors(top)
	spec := engine.Spec{
		Layout:      layoutMeant(s.scalarText("layout"), rotorsRead(top)),
		Numbering:   s.wordMeant("numbering"),
		FirstBank:   s.wordMeant("first-bank"),
		Mount:       s.wordMeant("mount"),
		Banks:       r.banks(s),
		FiringOrder: r.firingOrder(s),
	}
	if s.get("layout") == nil && s.node.get("layout") != nil {
		return nil // empty, which has been reported
	}
	spec.Heads, spec.SeparateBarrels = r.heads(s)
	spec.Names, spec.Custom = r.places(s)
	layout, problem := engine.ParseLayout(spec.Layout)
	r.numbered(s, &spec)
	if r.faults > before { // what it would say besides may only follow from these
		if problem != nil && s.get("layout") != nil {
			r.report(enginePos(s, *problem), LayoutHint(*problem, spec.Layout), "%s", problem.Message)
		}
		return nil
	}
	if problem == nil && layout.Kind == engine.Rotary && len(spec.Names) == 0 {
		spec.Names = rotorNames(top, layout.Count)
	}
	if problem == nil && layout.Count == 2 && layout.Kind.TwoBanks() && spec.FirstBank == "" && len(spec.Banks) == 0 && len(spec.Names) == 0 {
		spec.Banks = sidesRead(top)
	}
	if half := spec.FirstBank == "" || spec.Numbering == "" && layout.Count > 2; r.blank && half && len(spec.Banks) == 0 {
		spec.Numbering, spec.Unnumbered = "", true // the numbers are still to be written at the bench
	}
	e, problems := engine.New(spec)
	for _, p := range problems {
		r.report(enginePos(s, p), inKeys(s, p)+orderHint(p, spec.Numbering, layout.Count)+LayoutHint(p, spec.Layout), "%s", p.Message)
	}
	return e
}

// wordMeant gives the word that a text stands for, or the text itself where
// that is for the engine to say.
func (s *section) wordMeant(key string) string {
	n := s.scalar(key)
	if n == nil {
		return ""
	}
	k := keyOf(s.keys, key)
	word, answer := vocabularyOf(k.says).find(n.text, k.words)
	if answer != "" {
		s.r.report(n.pos, answer, "'%s' is '%s', expected %s", s.label(key), short(n.text), anyOf(k.words))
		return ""
	}
	return cmp.Or(word, n.text)
}

func (s *section) scalarText(key string) string { return s.text(key).Value }

// enginePos gives the place of an engine's problem: the element of the key
// that it names, the key, or where that is missing the layout.
func enginePos(s *section, p engine.Problem) Pos {
	n := s.get(p.Field)
	switch {
	case n == nil && s.get("layout") != nil:
		return s.get("layout").pos
	case n == nil:
		return s.node.pos
	case n.kind == list && p.Index >= 0 && p.Index < len(n.items):
		return n.items[p.Index].pos
	case n.kind == mapping && p.Index >= 0 && p.Index < len(n.entries):
		return n.entries[p.Index].pos
	}
	return n.pos
}

func (r *reader) banks(s *section) []engine.BankSpec {
	n := s.get("banks")
	if n == nil {
		return nil
	}
	if n.kind == scalar {
		if typed := typedBanks(n.text); typed != nil {
			return typed
		}
	}
	if n.kind != mapping || len(n.entries) == 0 {
		r.report(n.pos, "such as {left: [1, 3], right: [2, 4]}", "'engine.banks' is %s, expected the cylinders of each bank", describe(n))
		return nil
	}
	var banks []engine.BankSpec
	for i, e := range n.entries {
		name, answer := vocabularyOf("first bank").find(e.key, engineSides)
		if answer != "" {
			r.report(e.pos, answer, "'engine.banks' has '%s', expected left and right, or front and rear", short(e.key))
			return nil
		}
		n.entries[i].key = cmp.Or(name, e.key)
		banks = append(banks, engine.BankSpec{Name: n.entries[i].key, Cylinders: r.nameList(e.value, "engine.banks."+e.key)})
	}
	return banks
}

var engineSides = []string{"left", "right", "front", "rear"}

// typedBanks reads banks that stand in one text, 'left 1 3 5 7, right 2 4 6 8';
// nil for any other text.
func typedBanks(text string) []engine.BankSpec {
	var banks []engine.BankSpec
	for _, word := range strings.FieldsFunc(text, func(c rune) bool { return strings.ContainsRune(" ,;:/=-", c) }) {
		side, _ := vocabularyOf("first bank").find(word, engineSides)
		switch {
		case side != "":
			banks = append(banks, engine.BankSpec{Name: side})
		case len(banks) == 0 || !isWhole(word):
			return nil
		default:
			last := &banks[len(banks)-1]
			last.Cylinders = append(last.Cylinders, splitNames(word)...)
		}
	}
	if len(banks) != 2 {
		return nil
	}
	return banks
}

// nameList reads a list of cylinders.
func (r *reader) nameList(n *node, label string) []string {
	if names := typedNames(n); names != nil {
		return names
	}
	if n.kind != list {
		r.report(n.pos, "such as [1, 2]", "'%s' is %s, expected a list of cylinders", label, describe(n))
		return nil
	}
	var out []string
	for _, item := range n.items {
		if item.kind != scalar || isEmpty(item) {
			r.report(item.pos, "", "'%s' has %s in it, expected a cylinder", label, describe(item))
			continue
		}
		out = append(out, item.text)
	}
	return out
}

// typedNames are the cylinders of one text; nil where it is one name or none.
func typedNames(n *node) []string {
	if n.kind != scalar || !startsWithFigure(n.text) || len(splitNames(n.text)) < 2 {
		return nil
	}
	return splitNames(n.text)
}

// splitNames takes cylinders apart that stand in one text: 1-3-4-2, 1 3 4 2, and
// 1342, which no engine has so many of.
func splitNames(text string) []string {
	names := strings.FieldsFunc(text, func(c rune) bool { return strings.ContainsRune(" \t,;-–‐‑/>→.", c) })
	if len(names) == 1 && isWhole(names[0]) && len(names[0]) > 2 {
		return strings.Split(names[0], "")
	}
	return names
}

func (r *reader) heads(s *section) (heads [][]string, separate bool) {
	n := s.get("heads")
	switch {
	case n == nil:
		return nil, false
	case n.kind == scalar && fold(n.text) == "separate":
		return nil, true
	case n.kind != list:
		r.report(n.pos, "such as [[1, 2], [3, 4]]", "'engine.heads' is %s, expected 'separate' or a list of cylinders for each head", describe(n))
		return nil, false
	}
	for _, item := range n.items {
		heads = append(heads, r.nameList(item, "engine.heads"))
	}
	return heads, false
}

func (r *reader) firingOrder(s *section) []string {
	n := s.get("firing-order")
	switch {
	case n == nil:
		return nil
	case n.kind == list:
		return r.nameList(n, "engine.firing-order")
	case n.kind == mapping:
		r.report(n.pos, "such as 1-3-4-2", "'engine.firing-order' is %s, expected the cylinders in order", describe(n))
		return nil
	}
	return splitNames(n.text)
}

// places reads the cylinders: names in the order of the numbers, or the place
// and head of each.
func (r *reader) places(s *section) ([]string, []engine.CustomCylinder) {
	if n := s.get("cylinders"); n != nil && n.kind == scalar && standHint(n.text) != "" {
		r.report(n.pos, standHint(n.text)+", under 'layout'", "'engine.cylinders' is '%s', expected the names of the cylinders", short(n.text))
		return nil, nil
	}
	items := s.list("cylinders", "[left, right]")
	if len(items) == 0 || items[0].kind != mapping {
		var names []string
		for _, item := range items {
			if n := r.scalar(item, "engine.cylinders", "names, or the place of each cylinder"); n != nil {
				names = append(names, n.text)
			}
		}
		return names, nil
	}
	var out []engine.CustomCylinder
	for _, item := range items {
		p := r.section(item, "engine.cylinders", placeKeys)
		if p == nil {
			continue
		}
		for _, key := range []string{"name", "x", "y"} {
			if p.node.get(key) == nil {
				r.report(item.pos, "each has name, x, y and head", "a cylinder has no '%s'", key)
			}
		}
		out = append(out, engine.CustomCylinder{Name: p.scalarText("name"), X: p.number("x"), Y: p.number("y"), Head: p.whole("head", 1, 100)})
	}
	return nil, out
}

// rotorsRead is how many rotors the file has readings of.
func rotorsRead(top *section) int {
	faces := top.node.get("rotors").get("faces")
	if faces == nil {
		return 0
	}
	return len(faces.entries) + len(faces.items)
}

// sidesRead takes the names of an engine's two cylinders from its readings, where
// they are the two sides that they stand on.
func sidesRead(top *section) []engine.BankSpec {
	for _, n := range []*node{top.node.get("compression").get("dry"), top.node.get("compression"), top.node.get("leakage").get("dry"), top.node.get("plugs").get("looks")} {
		for _, sides := range [][]string{{"left", "right"}, {"front", "rear"}} {
			if n.get(sides[0]) != nil && n.get(sides[1]) != nil {
				return []engine.BankSpec{{Name: sides[0], Cylinders: sides[:1]}, {Name: sides[1], Cylinders: sides[1:]}}
			}
		}
	}
	return nil
}

// number gives a bare number of moderate size.
func (s *section) number(key string) float64 {
	n := s.scalar(key)
	if n == nil {
		return 0
	}
	v, err := quantity.Parse(n.text)
	if err != nil || v.Unit != quantity.None || v.Number < -1000 || v.Number > 1000 {
		s.r.report(n.pos, "", "'%s' is '%s', expected a number from -1000 to 1000", s.label(key), short(n.text))
		return 0
	}
	return v.Number
}

// rotorNames takes the names of a rotary engine's rotors from its readings,
// where these are words.
func rotorNames(top *section, count int) []string {
	faces := top.node.get("rotors").get("faces")
	if faces == nil || faces.kind != mapping || len(faces.entries) != count {
		return nil
	}
	var names []string
	words := false
	for _, e := range faces.entries {
		names = append(names, e.key)
		words = words || strings.Trim(e.key, "0123456789") != ""
	}
	if !words || slices.Contains(names, "") {
		return nil
	}
	return names
}

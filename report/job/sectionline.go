package job

import (
	"slices"
	"strings"

	"gaugesheet/diag/quantity"
)

// lineOfSection writes what stands in one line behind a name that means a section, 'oil
// press: 10 psi hot idle', as that section; "" where that cannot be told, so that the name
// alone is answered.
func (r *reader) lineOfSection(value *node, under string, k key) string {
	if value.kind != scalar || under != "" && !isTest(k.name) {
		return ""
	}
	hint := r.sectionHint(r.uncut(value), labelOf(under, k.name), k.keys)
	if !strings.HasPrefix(hint, "write '"+k.name+": {") {
		return ""
	}
	return hint
}

// uncut is a text with what a # right before a figure has cut off it, without the sign.
func (r *reader) uncut(n *node) *node {
	rest, _ := r.cutOff(n)
	if rest == "" {
		return n
	}
	out := *n
	out.text += " " + strings.ReplaceAll(rest, "#", "")
	return &out
}

// saidWhole reports a text that a # cuts short where a section is expected, and that is
// answered with what stands behind the sign.
func (r *reader) saidWhole(e entry, k key) bool {
	return (k.form == asGroup || k.form == asTestSection) && strings.HasPrefix(r.sectionHint(r.uncut(e.value), k.name, k.keys), "write '")
}

// unitOfKey takes the unit off a key that has it behind its name or in brackets, 'oil psi' and
// 'leakdown (%)'.
func unitOfKey(name string) (rest, unit string) {
	words := strings.FieldsFunc(name, func(c rune) bool { return strings.ContainsRune(" ()[],", c) })
	if len(words) < 2 || len(name) > longestSaid {
		return name, ""
	}
	last := words[len(words)-1]
	v, err := quantity.Parse("1 " + last)
	if err != nil || v.Unit == quantity.None || len(last) == 1 && last != "%" || slices.Contains([]string{"in", "min", "at"}, fold(last)) && !strings.Contains(name, "("+last) {
		return name, ""
	}
	return strings.Join(words[:len(words)-1], " "), last
}

// unitBesideName answers a section in one line whose unit stands with its name, 'fuel psi:
// idle 55, key on 60', with the section; it is false for any other key.
func (r *reader) unitBesideName(e entry, where string) bool {
	rest, unit := unitOfKey(e.key)
	if unit == "" || where != "" || e.value.kind != scalar || isEmpty(e.value) {
		return false
	}
	is := keyMeant(entry{rest, e.pos, e.value}, "", keyNames(fileKeys))
	name := strings.ReplaceAll(fold(rest), " ", "-")
	if keyOf(fileKeys, name).name == "" {
		name = is.name
	}
	value := *r.uncut(e.value)
	value.text = besideFigure(value.text, unit)
	if is.section != "" && keyOf(fileKeys, name).name == "" { // glow plugs ohms
		if plain := belongs(is.name, e.value, []string{is.section}); !strings.Contains(plain, "...") {
			r.report(e.pos, plain, "unknown key '%s'", short(e.key))
			return true
		}
		return false
	}
	hint := r.lineOfSection(&value, "", keyOf(fileKeys, name))
	if hint == "" {
		return false
	}
	r.report(e.pos, hint, "unknown key '%s'", short(e.key))
	return true
}

// besideFigure puts a unit behind the figures of a row, or behind the first bare figure of
// another text. A percentage needs none.
func besideFigure(text, unit string) string {
	if unit == "%" {
		return text
	}
	if isRow(text) || isFigures(text) {
		return text + " " + unit
	}
	fields := strings.Fields(text)
	for i, f := range fields {
		if figure := strings.TrimRight(f, ",;"); isFigures(figure) && isFigureWord(fields, i) && !isUnitWord(fields, i+1) && (i+1 == len(fields) || !isFigureWord(fields, i+1)) {
			fields[i] = figure + " " + unit + f[len(figure):]
			break
		}
	}
	return strings.Join(fields, " ")
}

// namesAhead are the cylinders of an engine that is not read yet, by its layout; none where
// they may have names of their own.
func namesAhead(root *node) []string {
	engine := root.get("engine")
	if engine == nil || engine.get("cylinders") != nil || engine.get("banks") != nil {
		return nil
	}
	if engine.kind == scalar {
		return namesOf(engine)
	}
	return namesOf(engine.get("layout"))
}

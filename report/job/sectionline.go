package job

import "strings"

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

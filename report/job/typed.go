package job

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

var (
	numberList = lazily(`^[0-9]+(?:\.[0-9]+)?(?:(?:\s*[,;]\s*|\s+)[0-9]+(?:\.[0-9]+)?){2,}$`)
	listBreak  = lazily(`\s*[,;]\s*|\s+`)
	pairList   = lazily(`^[^\s=:,]+ ?[=:] ?[0-9.]+(?:[\s,;]+[^\s=:,]+ ?[=:] ?[0-9.]+)*$`)
	pairForm   = lazily(`([^\s=:,;]+) ?[=:] ?([0-9.]+)`)
	bankPlace  = lazily(`^(left|right|front|rear|l|r)[ .-]?([0-9]{1,2})$`)
)

// asList writes a text of several numbers as a list; "" for any other text.
func asList(text string) string {
	text = strings.TrimSpace(text)
	if !numberList().MatchString(text) {
		return ""
	}
	return "[" + strings.Join(listBreak().Split(text, -1), ", ") + "]"
}

// asPairs writes '1=150 2=148' as values by cylinder; "" for any other text.
func asPairs(text string) string {
	text = strings.TrimSpace(text)
	if !pairList().MatchString(text) {
		return ""
	}
	var out []string
	for _, m := range pairForm().FindAllStringSubmatch(text, -1) {
		out = append(out, m[1]+": "+m[2])
	}
	return "{" + strings.Join(out, ", ") + "}"
}

// joinList puts a list together that was written within braces without
// brackets of its own, {dry: 150, 148, 152}: its later numbers stand there as
// keys without values. The decimals of 9,2 stand there in the same way, and
// are reported.
func (r *reader) joinList(n *node, name string, keys []key) {
	var out []entry
	for i, e := range n.entries {
		last := len(out) - 1
		if last < 0 || !isFigures(e.key) || !isEmpty(e.value) {
			out = append(out, e)
			continue
		}
		if k := keyOf(keys, out[last].key); k.name == "" || k.form != asReadings {
			if whole, comma := decimalComma(n.entries, i); comma && k.name != "" {
				r.report(whole.pos, "decimals take a point: "+whole.text+"."+e.key, "'%s' is '%s,%s', in which the comma ends the value", labelOf(name, k.name), whole.text, e.key)
			} else {
				out = append(out, e)
			}
			continue
		}
		item := &node{pos: e.pos, text: e.key, plain: true, tag: "!!int"}
		switch before := out[last].value; {
		case before.kind == scalar && isFigures(before.text):
			out[last].value = &node{kind: list, pos: before.pos, items: []*node{before, item}}
		case before.kind == list && before.joined:
			before.items = append(before.items, item)
		default:
			out = append(out, e)
			continue
		}
		out[last].value.joined = true
	}
	n.entries = out
}

// readingsHint answers readings that stand where their section's keys should.
func readingsHint(name string, n *node) string {
	section := name[strings.LastIndexByte(name, '.')+1:]
	text := ""
	switch {
	case n.kind == scalar:
		text = asList(n.text)
		if text == "" {
			text = asPairs(n.text)
		}
	case n.kind == list && len(n.items) > 0 && n.items[0].kind == scalar && isFigures(n.items[0].text):
		text = entered(n)
	}
	switch {
	case text == "":
		return ""
	case section == "compression":
		return "write 'compression: {unit: psi, dry: " + text + "}', with the gauge's unit"
	case section == "leakage":
		return "write 'leakage: {loss: " + text + "}', in percent lost"
	}
	return ""
}

// decimalCommas writes a list in which commas stand for decimal points, 8,3:
// such a comma has no space behind it, and there are two numbers for each
// cylinder. It is "" for any other list.
func decimalCommas(n *node, cylinders int) string {
	if cylinders == 0 || len(n.items) != 2*cylinders {
		return ""
	}
	var out []string
	for i := 0; i < len(n.items); i += 2 {
		whole, part := n.items[i], n.items[i+1]
		next := Pos{Line: whole.pos.Line, Col: whole.pos.Col + len(whole.text) + len(",")}
		if whole.kind != scalar || part.kind != scalar || part.pos != next || strings.Trim(whole.text+part.text, "0123456789") != "" {
			return ""
		}
		out = append(out, whole.text+"."+part.text)
	}
	return "[" + strings.Join(out, ", ") + "]"
}

// missingSpaces reports entries such as {1:155}, which YAML takes for keys
// without values, and gives the others.
func (r *reader) missingSpaces(entries []entry, label string) []entry {
	var rest, glued []entry
	for _, e := range entries {
		name, value, found := strings.Cut(e.key, ":")
		if found && isEmpty(e.value) && value != "" && r.isCylinder(strings.TrimSpace(name)) {
			glued = append(glued, e)
		} else {
			rest = append(rest, e)
		}
	}
	if len(glued) == 0 {
		return rest
	}
	name, value, _ := strings.Cut(glued[0].key, ":")
	more := ""
	if n := len(glued) - 1; n > 0 {
		more = fmt.Sprintf(", and %d more like it", n)
	}
	r.report(glued[0].pos, "write '"+name+": "+value+"'", "'%s' has '%s' without a space after the colon%s", label, short(glued[0].key), more)
	return rest
}

// hiddenEntries reports readings that a '#' right before the cylinder turns
// into comments, in line with the others, where nothing else is given for that
// cylinder.
func (r *reader) hiddenEntries(n *node, label string) {
	if len(n.entries) == 0 {
		return
	}
	comment := func(line int) (name, value string, col int, ok bool) {
		if line < 1 || line > len(r.lines) || len(r.lines[line-1]) > longestLine {
			return "", "", 0, false
		}
		text := strings.TrimLeft(r.lines[line-1], " ")
		if !strings.HasPrefix(text, "#") {
			return "", "", 0, false
		}
		name, value, _ = strings.Cut(text[1:], ":")
		return name, strings.TrimSpace(value), len(r.lines[line-1]) - len(text) + 1, true
	}
	first, last := n.entries[0].pos.Line, n.entries[len(n.entries)-1].pos.Line
	for ; ; first-- {
		if _, _, _, ok := comment(first - 1); !ok {
			break
		}
	}
	for ; ; last++ {
		if _, _, _, ok := comment(last + 1); !ok {
			break
		}
	}
	for line := first; line <= last; line++ {
		name, value, col, ok := comment(line)
		if ok && col == n.entries[0].pos.Col && value != "" && slices.Contains(r.cylinderNames, name) && n.get(name) == nil {
			r.report(Pos{line, col}, "write '"+name+": "+short(value)+"'", "# begins a comment, so '%s' has nothing for %s %s", label, r.cylinderWord, name)
		}
	}
}

// placeHint translates a cylinder that is named by its place on a bank.
func (r *reader) placeHint(name string) string {
	m := bankPlace().FindStringSubmatch(fold(name))
	if m == nil || len(r.bankList) < 2 {
		return ""
	}
	place, _ := strconv.Atoi(m[2])
	for _, b := range r.bankList {
		if strings.HasPrefix(fold(b.Name), m[1][:1]) && (len(m[1]) == 1 || fold(b.Name) == m[1]) && place >= 1 && place <= len(b.Cylinders) {
			return fmt.Sprintf("%s is cylinder %s", short(name), b.Cylinders[place-1])
		}
	}
	var banks []string
	for _, b := range r.bankList {
		banks = append(banks, fmt.Sprintf("%s (%s)", b.Name, strings.Join(b.Cylinders, ", ")))
	}
	return "the banks are " + allOf(banks)
}

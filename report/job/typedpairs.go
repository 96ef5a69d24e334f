package job

import (
	"cmp"
	"slices"
	"strings"

	"gaugesheet/diag/quantity"
)

// namedPair is a cylinder with what leads from it to its reading: '1 = ', 'no.1 had ' and
// the dots of a row, '1....'.
var namedPair = lazily(`(?i)(?:^|[\s,;])(?:no\.? ?|nr\.? ?|cyl(?:inder)?\.? ?|#)?(\d{1,2}) ?(?:=|:|\.{2,}|had\b|has\b|is\b|was\b|reads?\b|got\b|gave\b|made\b|shows\b|showed\b) ?`)

// ledPairs reads a text in which each cylinder leads to its reading by a sign or a word,
// '1 = 150 psi 2 = 148 psi', where each is named once.
func (r *reader) ledPairs(text string) (names, values []typed) {
	at := namedPair().FindAllStringSubmatchIndex(text, -1)
	if len(at) < 2 || len(at) != len(r.cylinderNames) || strings.TrimSpace(text[:at[0][0]]) != "" {
		return nil, nil
	}
	for i, m := range at {
		end := len(text)
		if i+1 < len(at) {
			end = at[i+1][0]
		}
		value := strings.TrimRight(text[m[1]:end], " ,;")
		name := cylinderWord(text[m[2]:m[3]])
		if !slices.Contains(r.cylinderNames, name) || slices.ContainsFunc(names, func(t typed) bool { return t.text == name }) || !isReading(value) {
			return nil, nil
		}
		names = append(names, typed{name, len([]rune(text[:m[2]]))})
		values = append(values, typed{value, len([]rune(text[:m[1]]))})
	}
	return names, values
}

// oilIn is what stands between readings and those with oil.
var oilIn = lazily(`(?i)[,;]? *(?:with oil|after oil|oil in|wet|w/ ?oil) *[:=]? *`)

// oilInBrackets is what one cylinder came to with oil, behind its reading in a row: 62 (after
// oil 110).
var oilInBrackets = lazily(`(?i) ?\((?:after oil|with oil|w/ ?oil|oil|wet)[ :=]*(\d[\d.]*)[a-z ]*\)|(?i) ?\((\d[\d.]*) ?(?:after oil|with oil|w/ ?oil|wet)\)`)

// oilInRow writes a row in which readings with oil stand in brackets as both keys; "" for any
// other text.
func (r *reader) oilInRow(text, key string) string {
	if len(text) > longestSaid {
		return ""
	}
	at := oilInBrackets().FindAllStringSubmatchIndex(text, -1)
	if key != "dry" || len(at) == 0 || len(r.cylinderNames) < 2 {
		return ""
	}
	var wet []string
	for _, m := range at {
		from, to := m[2], m[3]
		if from < 0 {
			from, to = m[4], m[5]
		}
		before := fewAsList(oilInBrackets().ReplaceAllString(text[:m[0]], ""))
		if len(before) < 1 || len(before) > len(r.cylinderNames) {
			return ""
		}
		wet = append(wet, r.cylinderNames[len(before)-1]+": "+text[from:to])
	}
	row := asList(oilInBrackets().ReplaceAllString(text, ""), len(r.cylinderNames))
	if len(row) != len(r.cylinderNames) {
		return ""
	}
	return "write 'dry: " + listed(row) + "' and 'wet: {" + strings.Join(wet, ", ") + "}'"
}

// notedRow writes a row in which a remark stands in brackets, 90 (burnt valve?), without it; ""
// for any other text.
func (r *reader) notedRow(text, key string) string {
	if len(text) > longestSaid {
		return ""
	}
	remark := inBrackets().FindString(text)
	row := asList(inBrackets().ReplaceAllString(text, " "), len(r.cylinderNames))
	if remark == "" || len(row) != len(r.cylinderNames) || len(row) < 2 {
		return ""
	}
	return "write " + key + ": " + listed(row) + "; " + "'" + short(strings.Trim(remark, " ()")) + "' goes into 'findings' where it was seen, else into 'notes'"
}

// inBrackets is a remark in brackets.
var inBrackets = lazily(` ?\([^()]*[A-Za-z][^()]*\)`)

// withOilHint writes readings of compression with those with oil behind them, '60 psi, with
// oil 85', as their keys; "" for any other.
func (r *reader) withOilHint(section string, n *node) string {
	if section != "compression" || n.kind != scalar || len(n.text) > longestSaid {
		return ""
	}
	parts := oilIn().Split(n.text, -1)
	if len(parts) != 2 || len(oilIn().FindAllString(n.text, -1)) != 1 {
		return ""
	}
	unit := "psi"
	for i, part := range parts {
		if u := firstUnit(&node{text: part}); u != quantity.None {
			unit = string(u)
		}
		switch names, values := r.asPairs(part); {
		case names != nil:
			parts[i] = paired(names, values)
		case asList(part, len(r.cylinderNames)) != nil:
			parts[i] = listed(asList(part, len(r.cylinderNames)))
		case isReading(part) && len(r.cylinderNames) < 2:
			parts[i] = part
		default:
			return ""
		}
	}
	return "write 'compression: {unit: " + unit + ", dry: " + parts[0] + ", wet: " + parts[1] + "}', with the gauge's unit"
}

// onSides are readings of two cylinders by the sides that they are on: left 140 right 95.
var onSides = lazily(`(?i)^(left|right|front|rear|l|r)\b[ :=]*(\d[\d.]*(?: ?[a-z/0-9]+)?)[,; ]+(left|right|front|rear|l|r)\b[ :=]*(\d[\d.]*(?: ?[a-z/0-9]+)?)\b`)

// sidesHint writes readings of two cylinders that the job does not name so, with the names
// that they are to have; "" for any other text.
func (r *reader) sidesHint(section string, n *node) string {
	if section != "compression" || n.kind != scalar || len(r.cylinderNames) != 2 || len(n.text) > longestSaid {
		return ""
	}
	m := onSides().FindStringSubmatch(n.text)
	if m == nil || slices.Contains(r.cylinderNames, fold(m[1])) {
		return ""
	}
	one, two := fold(m[1]), fold(m[3])
	return "name the cylinders so, from the left or the front: 'engine: {cylinders: [" + one + ", " + two + "], ...}', and write 'compression: {unit: " + cmp.Or(string(firstUnit(n)), "psi") + ", dry: {" + one + ": " + m[2] + ", " + two + ": " + m[4] + "}}', with the gauge's unit"
}

// openWords are what a meter shows where there is no way through.
var openWords = []string{"ol", "o.l", "o.l.", "o/l", "inf", "infinite", "infinity", "no continuity", "burnt out"}

// namesFirst gives a list whose entries each begin with their cylinder, [3 scored, 4 ok],
// as values by cylinder; nil for any other.
func (r *reader) namesFirst(n *node) *node {
	if n.kind != list || len(n.items) < 2 {
		return nil
	}
	out := &node{kind: mapping, pos: n.pos}
	for _, item := range n.items {
		if item.kind != scalar || isReading(item.text) {
			return nil
		}
		name, rest, ok := r.leadingCylinder(item.text)
		if !ok || out.get(name) != nil || startsWithFigure(rest) && isFigures(strings.Fields(item.text)[0]) && !strings.Contains(rest, " ") {
			return nil
		}
		out.entries = append(out.entries, entry{name, item.pos, r.piece(item, typed{rest, strings.Index(item.text, rest)})})
	}
	return out
}

// decimalCommas joins the decimals of a list in which commas stand for decimal
// points, [8,3, 8,5, 9]: such a comma has no space behind it, others have, and
// what comes of it is a number for each cylinder. It is nil for any other list.
func decimalCommas(n *node, cylinders int) []*node {
	if cylinders == 0 || len(n.items) <= cylinders {
		return nil
	}
	var out []*node
	for _, item := range n.items {
		figure, unit, _ := strings.Cut(item.text, " ")
		if item.kind != scalar || !isWhole(figure) || unit != "" && startsWithFigure(unit) { // 11,2 bar
			return nil
		}
		if last := len(out) - 1; last >= 0 && isWhole(out[last].text) {
			whole := out[last]
			if item.pos == (Pos{Line: whole.pos.Line, Col: whole.pos.Col + len(whole.text) + len(",")}) {
				joined := *whole
				joined.text += "," + item.text
				out[last] = &joined
				continue
			}
		}
		out = append(out, item)
	}
	if len(out) != cylinders {
		return nil
	}
	return out
}

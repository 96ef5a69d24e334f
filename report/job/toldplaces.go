package job

import (
	"slices"
	"strings"
)

// inPlaces reads a row with an entry for each cylinder, 0.7 open 0.8 0.7, in which some may name the one whose place it
// is, 150, 148, nothing on 3, 151; nil for any other text.
func (t *teller) inPlaces(n *node) *node {
	row, names := separate(strings.ReplaceAll(n.text, " and ", "  ,  "), ",;"), t.r.cylinderNames // as long as it was
	if len(row) == 1 && len(names) > 2 && !everySecond(n.text, len(names)) {
		row = separate(n.text, " ")
	}
	if len(row) != len(names) {
		return nil
	}
	out := &node{kind: list, pos: n.pos}
	strange := 0
	for i, piece := range row {
		value := piece
		if written, ok := t.reads(piece.text); ok {
			value.text = written
		} else {
			one := t.r.teller(piece.text, t.reads, t.links...)
			if one == nil {
				return nil
			}
			ways := one.wholly()
			switch {
			case len(ways) == 1 && len(ways[0]) == 1 && ways[0][0].names[0] == names[i]:
				value = typed{ways[0][0].value.text, piece.at + ways[0][0].value.at}
			case len(ways) == 0 && strange == 0 && len(one.words) > 2 && len(names) > 2 && one.tellsNothing(names[i]): // couldn't get the gauge in 3
				strange++
				value.text = one.withoutCylinder(names[i])
			default:
				return nil
			}
		}
		out.items = append(out.items, t.r.piece(n, value))
	}
	return out
}

// withoutCylinder is what is told without the cylinder that it is told of.
func (t *teller) withoutCylinder(cylinder string) string {
	var out []string
	for _, w := range t.words {
		if w.low != cylinder && w.low != "#"+cylinder && !slices.Contains(cylinderNoun, w.low) {
			out = append(out, w.text)
		}
	}
	for len(out) > 1 && slices.Contains([]string{"in", "on", "at", "of", "from", "with"}, strings.ToLower(out[len(out)-1])) {
		out = out[:len(out)-1]
	}
	return strings.Join(out, " ")
}

// tellsNothing reports words without a figure but the number of a cylinder, and with none of another.
func (t *teller) tellsNothing(cylinder string) bool {
	return !slices.ContainsFunc(t.words, func(w toldWord) bool {
		return strings.ContainsAny(w.low, "0123456789") && w.low != cylinder && w.low != "#"+cylinder || slices.Contains(othersTold, w.low) || slices.Contains(allTold, w.low) || slices.Contains(apartFrom, w.low)
	})
}

// rowWithWords is a row with a figure for each cylinder before or behind other words, as a list; "" for any other text.
func (r *reader) rowWithWords(text string) (row, words string) {
	var figures, left []string
	rows := 0
	for i, f := range strings.Fields(text) {
		figure := strings.TrimRight(f, ",;")
		switch {
		case isFigures(figure) && (i == 0 || len(figures) == 0 || len(left) == 0 || rows == len(left)):
			figures, rows = append(figures, figure), len(left)
		case strings.ContainsAny(f, "0123456789") || slices.Contains(cylinderNoun, strings.ToLower(f)) || slices.Contains(deniers, strings.ToLower(f)) || slices.Contains(comparing, strings.ToLower(f)):
			return "", ""
		default:
			left = append(left, f)
		}
	}
	words = strings.Join(left, " ")
	if len(figures) != len(r.cylinderNames) || len(figures) < 3 || words == "" || len(left) > len(figures)+2 || strings.Contains(fold(words), "firing") || strings.Contains(fold(words), "other") || strings.Contains(fold(words), "revers") || strings.Contains(fold(words), "back") {
		return "", ""
	}
	return "[" + strings.Join(figures, ", ") + "]", words
}

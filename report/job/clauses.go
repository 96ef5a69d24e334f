package job

import (
	"strings"

	"gaugesheet/diag/quantity"
)

// between are the words that stand between what is said of two readings.
var between = lazily(`(?i) (?:and|n|then) |&|;|,(?:\s|$)|([a-z%"]),|,([a-z])`)

// clauses takes what is said of several readings in one line apart, each figure with the
// words beside it: 'KOEO 41 psi idle 33', '10 psi hot idle, 45 psi @ 2500'.
func clauses(text string) []string {
	text = strings.ReplaceAll(text, "@", " at ")
	var out []string
	for _, piece := range strings.Split(between().ReplaceAllString(text, "$1\n$2"), "\n") {
		if fields := strings.Fields(piece); len(fields) > 0 {
			out = append(out, clausesOf(fields)...)
		}
	}
	return out
}

// clausesOf takes words without a comma apart: where they begin with a figure, before each
// figure, else behind each.
func clausesOf(fields []string) []string {
	var out []string
	begin, figures := 0, 0
	first := isFigureWord(fields, 0)
	for i := range fields {
		if !isFigureWord(fields, i) {
			behind := i > 0 && (isFigureWord(fields, i-1) || isUnitWord(fields, i-1)) && !isUnitWord(fields, i)
			if !first && figures > 0 && behind && fold(fields[i]) != "at" && fold(fields[i]) != "after" {
				out, begin, figures = append(out, strings.Join(fields[begin:i], " ")), i, 0
			}
			continue
		}
		if first && figures > 0 {
			out, begin, figures = append(out, strings.Join(fields[begin:i], " ")), i, 0
		}
		figures++
	}
	return append(out, strings.Join(fields[begin:], " "))
}

// isFigureWord reports a word that is a figure read, with its unit or without, and none of
// a speed or a time: 'at 2500', 'after 5 min'.
func isFigureWord(fields []string, i int) bool {
	word := strings.TrimLeft(fields[i], "+-.~<>")
	if !startsWithFigure(word) {
		return false
	}
	return i == 0 || fold(fields[i-1]) != "at" && fold(fields[i-1]) != "after" && fold(fields[i-1]) != "in"
}

// isUnitWord reports a word that is the unit of the figure before it.
func isUnitWord(fields []string, i int) bool {
	if i == 0 || i >= len(fields) || !strings.ContainsAny(fields[i-1], "0123456789") {
		return false
	}
	v, err := quantity.Parse("1 " + strings.TrimRight(fields[i], ",;"))
	return err == nil && v.Unit != quantity.None && v.Number == 1
}

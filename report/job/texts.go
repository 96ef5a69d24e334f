package job

import (
	"strconv"
	"strings"
)

// markedTexts are the texts of a list whose lines have a number or a dash without a space
// behind it before each, '1. fan loose 2. hose cracked'; nil for any other text.
func (r *reader) markedTexts(n *node) []*node {
	if !n.plain {
		return nil
	}
	fields := separate(n.text, " ")
	var starts []int
	for i, f := range fields {
		number := strings.TrimRight(f.text, ".)")
		dashed := len(f.text) > 2 && f.text[0] == '-' && !startsWithFigure(f.text[1:])
		if number != f.text && number == strconv.Itoa(len(starts)+1) || dashed {
			starts = append(starts, i)
		}
	}
	if len(starts) < 2 || starts[0] != 0 {
		return nil
	}
	var out []*node
	for i, from := range starts {
		to := len(fields)
		if i+1 < len(starts) {
			to = starts[i+1]
		}
		text := strings.TrimPrefix(listedWords(fields[from:to]), "-")
		if !strings.HasPrefix(fields[from].text, "-") {
			text = listedWords(fields[from+1 : to])
		}
		if text == "" {
			return nil
		}
		out = append(out, &node{pos: n.pos, text: strings.TrimRight(text, ",;"), plain: true, tag: "!!str"})
	}
	return out
}

// codesIn are the trouble codes of one text, 'P0303 P0171'; nil where one of its
// words is none.
func codesIn(n *node) []*node {
	var out []*node
	for _, t := range separate(n.text, ",; ") {
		if len(t.text) < 4 || len(t.text) > 9 || !strings.ContainsAny(t.text, "0123456789") || strings.ContainsAny(t.text[:1], "0123456789") {
			return nil
		}
		pos := n.pos
		pos.Col += t.at
		out = append(out, &node{pos: pos, text: t.text, plain: true, tag: "!!str"})
	}
	return out
}

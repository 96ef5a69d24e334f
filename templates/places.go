package templates

import (
	"fmt"
	"strings"
	"text/template/parse"
)

// Most texts that have places only print facts in them: "{{.name}}: {{.said}}".
// A template looks each fact up by reflection, at ten times the cost of the
// words, so that these texts are put together here.

// A part of a text is words, or the name of a fact.
type part struct{ words, fact string }

// partsOf are the parts of a text that only prints facts; none of one that does
// more with them.
func partsOf(root *parse.ListNode) []part {
	var parts []part
	for _, n := range root.Nodes {
		switch n := n.(type) {
		case *parse.TextNode:
			parts = append(parts, part{words: string(n.Text)})
		case *parse.ActionNode:
			fact := onlyFact(n.Pipe)
			if fact == "" {
				return nil
			}
			parts = append(parts, part{fact: fact})
		default:
			return nil
		}
	}
	return parts
}

// onlyFact is the fact that a place does nothing but print.
func onlyFact(p *parse.PipeNode) string {
	if len(p.Decl) > 0 || len(p.Cmds) != 1 || len(p.Cmds[0].Args) != 1 {
		return ""
	}
	if field, ok := p.Cmds[0].Args[0].(*parse.FieldNode); ok && len(field.Ident) == 1 {
		return field.Ident[0]
	}
	return ""
}

// put puts facts between words. It is not ok where a fact is missing or is one
// that only a template knows how to print.
func put(parts []part, facts map[string]any) (said string, ok bool) {
	var b strings.Builder
	for _, p := range parts {
		if p.fact == "" {
			b.WriteString(p.words)
			continue
		}
		switch fact := facts[p.fact].(type) {
		case string:
			b.WriteString(fact)
		case int, fmt.Stringer:
			fmt.Fprint(&b, fact)
		default:
			return "", false
		}
	}
	return b.String(), true
}

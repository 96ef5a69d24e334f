package templates

import (
	"fmt"
	"strings"
	"text/template"
	"text/template/parse"

	"gaugesheet/diag"
)

// Most texts that have places only print facts in them, or names, or some words
// where a fact is given: "{{cyl .names}}{{if .low}}, low{{end}}". A template looks
// each of these up by reflection, at ten times the cost of the words, so that such
// texts are put together here.

// A part of a text is words, or a fact with what is said of it, or the parts that
// are said where a fact is true or not.
type part struct {
	words     string
	fact, by  string // by is the function that says it; "" prints it as it is
	then, els []part
}

// partsOf are the parts of a text. It is not ok for one that does more.
func partsOf(root *parse.ListNode) (parts []part, ok bool) {
	if root == nil {
		return nil, true
	}
	for _, n := range root.Nodes {
		var p part
		ok := true
		switch n := n.(type) {
		case *parse.TextNode:
			p.words = string(n.Text)
		case *parse.ActionNode:
			p.fact, p.by, ok = factOf(n.Pipe)
		case *parse.IfNode:
			var said bool
			p.fact, p.by, ok = factOf(n.Pipe)
			p.then, said = partsOf(n.List)
			ok = ok && said && p.by == ""
			p.els, said = partsOf(n.ElseList)
			ok = ok && said && len(p.then) > 0
		default:
			ok = false
		}
		if !ok {
			return nil, false
		}
		parts = append(parts, p)
	}
	return parts, true
}

// factOf is the fact of a place that does nothing but print it or say it by one
// function.
func factOf(p *parse.PipeNode) (fact, by string, ok bool) {
	if len(p.Decl) > 0 || len(p.Cmds) != 1 {
		return "", "", false
	}
	args := p.Cmds[0].Args
	if len(args) == 2 {
		name, isName := args[0].(*parse.IdentifierNode)
		if !isName {
			return "", "", false
		}
		by, args = name.Ident, args[1:]
	}
	if len(args) != 1 {
		return "", "", false
	}
	field, isField := args[0].(*parse.FieldNode)
	if !isField || len(field.Ident) != 1 {
		return "", "", false
	}
	return field.Ident[0], by, true
}

// put adds parts with facts in their places. It is not ok where a fact is missing
// or is one that only a template knows how to print.
func (c *Catalogue) put(b *strings.Builder, parts []part, facts map[string]any) bool {
	for _, p := range parts {
		if p.fact == "" {
			b.WriteString(p.words)
			continue
		}
		fact, given := facts[p.fact]
		switch {
		case !given:
			return false
		case p.then != nil:
			said := p.els
			if holds, _ := template.IsTrue(fact); holds {
				said = p.then
			}
			if !c.put(b, said, facts) {
				return false
			}
		case !c.putFact(b, fact, p.by):
			return false
		}
	}
	return true
}

func (c *Catalogue) putFact(b *strings.Builder, fact any, by string) bool {
	if by != "" {
		say, known := c.funcs[by].(func(diag.Names) (string, error))
		if named, of := c.funcs[by].(nameFunc); of {
			say, known = func(n diag.Names) (string, error) { return named(n) }, true
			if name, one := fact.(string); one {
				fact = diag.Names{name}
			}
		}
		names, are := fact.(diag.Names)
		if !known || !are {
			return false
		}
		said, err := say(names)
		b.WriteString(said)
		return err == nil
	}
	switch fact := fact.(type) {
	case string:
		b.WriteString(fact)
	case int, fmt.Stringer:
		fmt.Fprint(b, fact)
	default:
		return false
	}
	return true
}

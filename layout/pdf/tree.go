package pdf

import (
	"fmt"
	"strings"

	"gaugesheet/layout"
)

// pageNumber is the number of the page among the library's objects.
const pageNumber = 3

// tree writes the structure tree with the list that leads from stretches back
// to it (ISO 32000-1, 14.7.2 and 14.7.4.4), and gives its number.
func (t *tail) tree(p *parts) int {
	root := t.reserve()
	t.number(p.root)
	var owners strings.Builder
	for _, e := range p.owners {
		fmt.Fprintf(&owners, "%d 0 R ", e.number)
	}
	t.packed(root, "<</Type/StructTreeRoot/K %d 0 R/ParentTree<</Nums[0[%s]]>>/ParentTreeNextKey 1>>", p.root.number, owners.String())
	t.element(p.root, root)
	return root
}

// number gives an element and those in it their numbers, in reading order.
func (t *tail) number(e *element) {
	e.number = t.reserve()
	for _, k := range e.kids {
		if k.element != nil {
			t.number(k.element)
		}
	}
}

func (t *tail) element(e *element, parent int) {
	var b strings.Builder
	fmt.Fprintf(&b, "<</S/%s/P %d 0 R", e.kind, parent)
	if e.alt != "" {
		b.WriteString("/Alt" + text(plainLine(e.alt)))
	}
	b.WriteString(t.attributes(e))
	var kids []string
	marked := false
	for _, k := range e.kids {
		if k.element != nil {
			kids = append(kids, fmt.Sprintf("%d 0 R", k.element.number))
		} else {
			kids = append(kids, fmt.Sprint(k.stretch))
			marked = true
		}
	}
	if marked {
		fmt.Fprintf(&b, "/Pg %d 0 R", pageNumber)
	}
	switch len(kids) {
	case 0:
	case 1:
		b.WriteString("/K " + kids[0])
	default:
		b.WriteString("/K[" + strings.Join(kids, " ") + "]")
	}
	t.packed(e.number, "%s>>", b.String())
	for _, k := range e.kids {
		if k.element != nil {
			t.element(k.element, e.number)
		}
	}
}

// attributes are where a picture is, and which cells a heading is of.
func (t *tail) attributes(e *element) string {
	if e.kind == "Figure" {
		box := func(l layout.Length) string { return strings.TrimSuffix(fmt.Sprintf("%.1f", float64(l)), ".0") }
		a, h := e.area, t.opt.Paper.H
		return fmt.Sprintf("/A<</O/Layout/Placement/Block/BBox[%s %s %s %s]>>", box(a.X), box(h-a.Bottom()), box(a.Right()), box(h-a.Y))
	}
	var said string
	if e.scope != "" {
		said = "/Scope/" + e.scope
	}
	if e.span > 1 {
		said += fmt.Sprintf("/ColSpan %d", e.span)
	}
	if said == "" {
		return ""
	}
	return "/A<</O/Table" + said + ">>"
}

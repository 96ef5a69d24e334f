package pdf

import (
	"fmt"
	"strconv"
	"strings"

	"gaugesheet/layout"
)

// tree writes the structure tree with the list that leads from stretches back
// to it (ISO 32000-1, 14.7.2 and 14.7.4.4), and gives its number.
func (t *tail) tree(p *parts) int {
	root := t.reserve()
	t.number(p.root)
	var owners []byte
	for _, e := range p.owners {
		owners = reference(owners, e.number)
		owners = append(owners, ' ')
	}
	t.packed(root, fmt.Appendf(nil, "<</Type/StructTreeRoot/K %d 0 R/ParentTree<</Nums[0[%s]]>>/ParentTreeNextKey 1>>", p.root.number, owners))
	t.element(p.root, root, nil)
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

// reference adds a reference to an object.
func reference(b []byte, number int) []byte {
	return append(strconv.AppendInt(b, int64(number), 10), " 0 R"...)
}

// element writes an element and those in it, in the room of a slice that is
// given, and gives the room back.
func (t *tail) element(e *element, parent int, room []byte) []byte {
	b := append(append(room[:0], "<</S/"...), e.kind...)
	b = reference(append(b, "/P "...), parent)
	if e.alt != "" {
		b = append(append(b, "/Alt"...), spoken(e.alt)...)
	}
	b = append(b, t.attributes(e)...)
	for _, k := range e.kids {
		if k.element == nil {
			b = reference(append(b, "/Pg "...), pageNumber)
			break
		}
	}
	if len(e.kids) > 0 {
		b = append(b, "/K["...)
		for i, k := range e.kids {
			if i > 0 {
				b = append(b, ' ')
			}
			if k.element != nil {
				b = reference(b, k.element.number)
			} else {
				b = strconv.AppendInt(b, int64(k.stretch), 10)
			}
		}
		b = append(b, ']')
	}
	b = append(b, ">>"...)
	t.packed(e.number, b)
	for _, k := range e.kids {
		if k.element != nil {
			b = t.element(k.element, e.number, b)
		}
	}
	return b
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
		said += "/ColSpan " + strconv.Itoa(e.span)
	}
	if said == "" {
		return ""
	}
	return "/A<</O/Table" + said + ">>"
}

// spoken is the words for a picture as a text string: spaces of a width of their
// own are nothing to who hears it, and would cost two bytes a letter.
func spoken(s string) string {
	return textWith(plainLine(strings.Map(func(r rune) rune {
		if r == '\u00a0' || r == '\u202f' || r == '\u2009' {
			return ' '
		}
		return r
	}, s)), docMarks)
}

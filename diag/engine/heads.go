package engine

import (
	"fmt"
	"strings"
)

// assignHeads puts every cylinder under its head: as listed, one each for
// separate barrels and radials, by the numbers in a custom layout, otherwise
// one head per bank.
func (b *builder) assignHeads(e *Engine) {
	if len(b.spec.Heads) > 0 && b.spec.SeparateBarrels {
		b.report("heads", -1, "heads are listed and said to be separate", "one of the two")
	}
	switch {
	case len(b.spec.Heads) > 0:
		e.Heads = b.listedHeads(e)
	case b.spec.SeparateBarrels, e.Kind == Radial:
		for _, i := range e.order {
			e.Heads = append(e.Heads, []string{e.Cylinders[i].Name})
		}
	case e.Kind == Custom:
		e.Heads = b.customHeads()
	default:
		for _, bank := range e.Banks {
			e.Heads = append(e.Heads, append([]string(nil), bank.Cylinders...))
		}
	}
	for h, head := range e.Heads {
		for _, name := range head {
			e.Cylinders[e.Index(name)].Head = h
		}
	}
}

// listedHeads reads the user's grouping and keeps what is sound in it.
func (b *builder) listedHeads(e *Engine) [][]string {
	var heads [][]string
	seen := map[string]bool{}
	for h, spec := range b.spec.Heads {
		var head []string
		for _, name := range trimAll(spec) {
			switch {
			case e.Index(name) < 0:
				b.report("heads", h, fmt.Sprintf("there is no cylinder %s under head %d", quoteEmpty(name), h+1), cylindersHint(e))
			case seen[name]:
				b.report("heads", h, fmt.Sprintf("cylinder %s is under two heads, or named twice", name), "")
			default:
				head = append(head, name)
			}
			seen[name] = true
		}
		if len(spec) == 0 {
			b.report("heads", h, fmt.Sprintf("head %d has no cylinders", h+1), "")
		}
		if len(head) > 0 {
			heads = append(heads, head)
		}
	}
	if e.Kind == Custom && b.customHeadsGiven() {
		b.report("heads", -1, "heads are given twice: here and under 'cylinders'", "keep one of the two")
	}
	return append(heads, b.withoutHead(e, seen)...)
}

// withoutHead reports the cylinders that no listed head covers, and gives
// each a head of its own so that nothing is said of its gasket.
func (b *builder) withoutHead(e *Engine, seen map[string]bool) [][]string {
	var missing []string
	var heads [][]string
	for _, name := range e.Names() {
		if !seen[name] {
			missing = append(missing, name)
			heads = append(heads, []string{name})
		}
	}
	if len(missing) > 0 {
		b.report("heads", -1, fmt.Sprintf("no head is given for %s", cylindersInWords(missing)), "list every cylinder under one head")
	}
	return heads
}

func (b *builder) customHeadsGiven() bool {
	for _, c := range b.spec.Custom {
		if c.Head != 0 {
			return true
		}
	}
	return false
}

// customHeads groups a custom layout by head, in the order of first mention.
func (b *builder) customHeads() [][]string {
	var heads [][]string
	index := map[int]int{}
	for i, c := range b.spec.Custom {
		name := strings.TrimSpace(c.Name)
		if c.Head < 1 {
			b.report("cylinders", i, fmt.Sprintf("the head of cylinder %s is not given", name), "heads count from 1; for separate barrels 'heads: separate'")
			heads = append(heads, []string{name})
			continue
		}
		h, known := index[c.Head]
		if !known {
			h = len(heads)
			index[c.Head] = h
			heads = append(heads, nil)
		}
		heads[h] = append(heads[h], name)
	}
	return heads
}

func cylindersHint(e *Engine) string {
	return "the cylinders are " + joinWords(e.Names(), "and")
}

func cylindersInWords(names []string) string {
	if len(names) == 1 {
		return "cylinder " + names[0]
	}
	return "cylinders " + joinWords(names, "and")
}

func quoteEmpty(name string) string {
	if name == "" {
		return "''"
	}
	return name
}

package figure

import (
	"slices"
	"strings"

	"gaugesheet/layout"
)

// NewFindings is the block "findings": the findings in their order, in two
// columns where the page is wide. Compact keeps why of each that calls for
// something, and what is suspected of the first; brief keeps what was seen of
// the first few. Where the page has height to spare, more is shown again, of the
// most urgent first.
func NewFindings(d Findings) layout.Block {
	return block{"findings", func(t layout.Theme, width layout.Length, level layout.Detail) layout.Frame {
		f := findingsSetting{t: t, d: d, width: width, column: width, detail: level, frames: map[findingPart]layout.Frame{}}
		if width >= twoColumns && len(d.Items) > 1 {
			f.column = (width - columnGap) / 2
		}
		return f.frame(f.least(), false)
	}}
}

// twoColumns is the width from which findings stand in two columns, columnGap
// the distance between them.
const (
	twoColumns layout.Length = 430
	columnGap                = 2 * wide
)

// A depth is how much of one finding is shown.
type depth uint8

const (
	hidden  depth = iota
	said          // what was seen
	because       // and why
	likely        // and what is suspected
	whole         // and all the rest
)

// A findingPart is a finding at a depth.
type findingPart struct {
	item int
	depth
}

// findingsSetting is the findings set for one width.
type findingsSetting struct {
	t      layout.Theme
	d      Findings
	width  layout.Length
	column layout.Length // width of a finding
	detail layout.Detail
	frames map[findingPart]layout.Frame
}

// least is how deep each finding goes at the setting's detail.
func (f *findingsSetting) least() []depth {
	depths := make([]depth, len(f.d.Items))
	kept := f.d.Least
	if kept <= 0 {
		kept = 2
	}
	for i, item := range f.d.Items {
		switch {
		case f.detail == layout.Full || f.d.More == nil:
			depths[i] = whole
		case f.detail == layout.Compact && item.Short && !item.Quotes:
			depths[i] = said
		case f.detail == layout.Compact && i > 0:
			depths[i] = because
		case f.detail == layout.Compact:
			depths[i] = likely
		case item.Quotes:
			depths[i] = because
		case i < kept:
			depths[i] = said
		}
	}
	return depths
}

// richer shows as much more as a height holds: first the names of all findings, then
// why of the most urgent and of each that asks for something, then every finding,
// causes, and the rest.
func (f *findingsSetting) richer(depths []depth, height layout.Length) layout.Frame {
	deepest := slices.Clone(depths)
	named := f.frame(deepest, true).Height <= height
	raise := func(i int, to depth) bool {
		if deepest[i] >= to {
			return true
		}
		before := deepest[i]
		deepest[i] = to
		if f.frame(deepest, named).Height <= height {
			return true
		}
		deepest[i] = before
		return false
	}
	all := func(to depth, short bool) (shown bool) { // what has room, though something before it has none
		shown = true
		for i := range deepest {
			if f.d.Items[i].Short == short && !raise(i, to) {
				shown = false
			}
		}
		return shown
	}
	if len(deepest) > 0 && raise(0, because) && all(said, false) && all(because, false) && all(said, true) {
		all(likely, false)
		all(because, true)
		all(whole, false)
		all(whole, true)
	}
	return f.frame(deepest, named)
}

// frame is the findings, each as deep as is said; named tells whether those that
// are hidden are named.
func (f *findingsSetting) frame(depths []depth, named bool) layout.Frame {
	named = named && f.d.Lead.Also != ""
	gap := [...]layout.Length{layout.Full: medium, layout.Compact: small + 1, layout.Brief: small}[f.detail]
	if f.t.Close {
		gap = tight
	}
	var left Omitted
	var items []layout.Frame
	for i, depth := range depths {
		left.add(f.d.Items[i], depth, named)
		items = append(items, f.item(i, depth))
	}
	frames := []layout.Frame{heading(f.t, f.d.Title, f.d.Sub, f.width), heard(layout.List, f.columns(gap, listed(items)))}
	if also := f.also(depths); named && also.Text != "" {
		frames = append(frames, paragraph(f.t, f.width, layout.Left, run(f.t, layout.Body, f.t.Ink, f.d.Lead.Also), also))
	}
	if left != (Omitted{}) && f.d.More != nil {
		frames = append(frames, textFrame(f.t, f.d.More(left), layout.Note, f.t.Ink, f.width))
	}
	whole := stack(small, frames...)
	if left != (Omitted{}) {
		whole.Lacks = left.Findings + left.Reasons + left.Suspected + left.Doubts
		whole.Richer = func(height layout.Length) layout.Frame { return f.richer(depths, height) }
	}
	return whole
}

// also is what was seen of the findings that have no entry of their own, one behind
// the other.
func (f *findingsSetting) also(depths []depth) layout.Run {
	var names []string
	for i, item := range f.d.Items {
		if depths[i] == hidden {
			names = append(names, strings.TrimRight(item.Says, ":;."))
		}
	}
	text := strings.Join(names, "; ")
	if text != "" {
		text += "."
	}
	return run(f.t, layout.Body, f.t.Ink, text)
}

// columns sets the findings under one another, or down a first column and on
// in a second so that the higher of the two is as low as may be.
func (f *findingsSetting) columns(gap layout.Length, items []layout.Frame) layout.Frame {
	if f.column == f.width {
		return stack(gap, items...)
	}
	best := stack(gap, items...)
	for n := range items {
		first, second := stack(gap, items[:n]...), stack(gap, items[n:]...)
		if pair := beside(columnGap, column{f.column, first}, column{f.column, second}); n > 0 && pair.Height < best.Height {
			best = pair
		}
	}
	return best
}

// add counts what a finding leaves out at a depth; one that is named among others
// leaves out what stands behind its name.
func (o *Omitted) add(item Finding, d depth, named bool) {
	if d == hidden && named {
		d = said
	}
	count := func(n *int, least depth, texts ...string) {
		if d > hidden && d < least && strings.Join(texts, "") != "" {
			*n++
		}
	}
	if d == hidden {
		o.Findings++
	}
	count(&o.Reasons, because, item.Because)
	count(&o.Suspected, likely, item.Suspected)
	count(&o.Doubts, whole, item.Against, item.Sure)
}

func (f *findingsSetting) item(i int, d depth) layout.Frame {
	part := findingPart{i, d}
	frame, ok := f.frames[part]
	if !ok {
		frame = empty()
		if d > hidden {
			frame = findingFrame(f.t, f.d.Items[i], f.d.Lead, f.column, d)
		}
		f.frames[part] = frame
	}
	return frame
}

// findingFrame is a finding as one paragraph: what was seen with its urgency,
// why, what is suspected, what speaks against it, how sure it is and the rule's
// name, as far as the depth goes.
func findingFrame(t layout.Theme, f Finding, lead FindingWords, width layout.Length, d depth) layout.Frame {
	inner := width - entryIndent(t)
	runs := []layout.Run{run(t, layout.Strong, t.Ink, f.Says)}
	if f.Urgency != "" {
		runs = append(runs, run(t, layout.Body, t.Ink, f.Urgency))
	}
	if d >= because {
		runs = append(runs, run(t, layout.Body, t.Ink, f.Because))
	}
	if d >= likely {
		runs = append(runs, run(t, layout.Body, t.Ink, f.Suspected))
	}
	if d == whole {
		runs = append(runs, labelled(t, lead.Against, f.Against)...)
		runs = append(runs, labelled(t, lead.Sure, f.Sure)...)
		if rule := labelled(t, lead.Rule, f.Rule); len(rule) > 0 {
			rule[len(rule)-1].Whole = true
			runs = append(runs, rule...)
		}
	}
	return entry(t, f.Mark, paragraph(t, inner, layout.Left, runs...))
}

// labelled is text with a quiet word before it; nothing without text.
func labelled(t layout.Theme, label, text string) []layout.Run {
	if text == "" {
		return nil
	}
	return []layout.Run{run(t, layout.Body, t.Ink, label), run(t, layout.Body, t.Ink, text)}
}

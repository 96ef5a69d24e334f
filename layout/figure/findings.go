package figure

import (
	"slices"
	"strings"

	"gaugesheet/layout"
)

// NewFindings is the block "findings": the findings in their order, in two
// columns where the page is wide. Compact keeps why of each that calls for
// something, and two causes of the first; brief keeps what was seen of the
// first few. Where the page has height to spare, more is shown again, of the
// most urgent first.
func NewFindings(d Findings) layout.Block {
	return block{"findings", func(t layout.Theme, width layout.Length, level layout.Detail) layout.Frame {
		f := findingsSetting{t: t, d: d, width: width, column: width, detail: level, frames: map[findingPart]layout.Frame{}}
		if width >= twoColumns && len(d.Items) > 1 {
			f.column = (width - columnGap) / 2
		}
		return f.frame(f.least())
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
	likely        // and two causes, and how sure
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
		case f.detail == layout.Compact && item.Short:
			depths[i] = said
		case f.detail == layout.Compact && i > 0:
			depths[i] = because
		case f.detail == layout.Compact:
			depths[i] = likely
		case i < kept:
			depths[i] = said
		}
	}
	return depths
}

// richer shows as much more as a height holds: first why of the most urgent,
// then every finding, then why of each, their causes, and the rest.
func (f *findingsSetting) richer(depths []depth, height layout.Length) layout.Frame {
	deepest := slices.Clone(depths)
	raise := func(i int, to depth) bool {
		if deepest[i] >= to {
			return true
		}
		before := deepest[i]
		deepest[i] = to
		if f.frame(deepest).Height <= height {
			return true
		}
		deepest[i] = before
		return false
	}
	all := func(to depth) bool {
		for i := range deepest {
			if !raise(i, to) {
				return false
			}
		}
		return true
	}
	if len(deepest) > 0 && raise(0, because) {
		_ = all(said) && all(because) && all(likely) && all(whole)
	}
	return f.frame(deepest)
}

func (f *findingsSetting) frame(depths []depth) layout.Frame {
	gap := [...]layout.Length{layout.Full: medium, layout.Compact: small + 1, layout.Brief: small}[f.detail]
	var left Omitted
	var items []layout.Frame
	for i, depth := range depths {
		left.add(f.d.Items[i], depth)
		items = append(items, f.item(i, depth))
	}
	frames := []layout.Frame{heading(f.t, f.d.Title, f.d.Sub, f.width), f.columns(gap, items)}
	if left != (Omitted{}) && f.d.More != nil {
		frames = append(frames, textFrame(f.t, f.d.More(left), layout.Note, f.t.Muted, f.width))
	}
	whole := stack(gap, frames...)
	if left != (Omitted{}) {
		whole.Richer = func(height layout.Length) layout.Frame { return f.richer(depths, height) }
	}
	return whole
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

// add counts what a finding leaves out at a depth. How sure it is counts as
// part of its causes.
func (o *Omitted) add(item Finding, d depth) {
	if d == hidden {
		o.Findings++
		return
	}
	if d < because && item.Because != "" {
		o.Reasons++
	}
	if d < likely {
		o.Causes += len(item.Causes)
	} else if d < whole {
		o.Causes += max(0, len(item.Causes)-2)
	}
	if d < whole {
		o.Against += len(item.Against)
	}
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

func findingFrame(t layout.Theme, f Finding, lead FindingWords, width layout.Length, d depth) layout.Frame {
	strong := t.Face(layout.Strong)
	size := markSize(t, strong)
	indent := size + small + tight
	inner := width - indent
	says := []layout.Run{run(t, layout.Strong, t.Ink, f.Says)}
	if f.Urgency != "" {
		says = []layout.Run{run(t, layout.Strong, t.Ink, f.Says+runOnDot), run(t, layout.Body, t.Accent, f.Urgency)}
	}
	why := []layout.Run{run(t, layout.Body, t.Ink, f.Because)}
	after := says // what runs on behind what was seen
	if f.Urgency != "" && f.Because != "" {
		after = []layout.Run{says[0], run(t, layout.Body, t.Accent, f.Urgency+runOnDot)}
	}
	causes := f.Causes
	if d == likely {
		causes = causes[:min(len(causes), 2)]
	}
	about := labelled(t, causesLead(lead, f), strings.Join(causes, runOnDot+" "))
	runOn := about // with a full stop, for more behind it on the line
	if len(causes) > 0 && f.Sure+strings.Join(f.Against, "") != "" {
		runOn = labelled(t, causesLead(lead, f), strings.Join(causes, runOnDot+" ")+".")
	}
	sure := labelled(t, lead.Sure, f.Sure)
	var words layout.Frame
	switch {
	case d == said:
		words = paragraph(t, inner, layout.Left, says...)
	case d == because:
		words = paragraph(t, inner, layout.Left, slices.Concat(after, why)...)
	case d == likely:
		words = stack(0,
			paragraph(t, inner, layout.Left, says...),
			paragraph(t, inner, layout.Left, slices.Concat(why, runOn, sure)...))
	case f.Short:
		words = stack(0,
			paragraph(t, inner, layout.Left, slices.Concat(after, why, runOn, sure, labelled(t, lead.Against, strings.Join(f.Against, "; ")))...),
			smallPrint(t, lead.Rule, f.Rule, inner))
	default:
		words = stack(0,
			paragraph(t, inner, layout.Left, says...),
			paragraph(t, inner, layout.Left, why...),
			paragraph(t, inner, layout.Left, about...),
			paragraph(t, inner, layout.Left, slices.Concat(sure, labelled(t, lead.Against, strings.Join(f.Against, "; ")))...),
			smallPrint(t, lead.Rule, f.Rule, inner))
	}
	return behind(inset(words, 0, 0, 0, indent), func(s layout.Surface, a layout.Rect) {
		middle := baseline(s, strong, a.Y) - s.CapHeight(strong)/2
		DrawMark(s, t, f.Mark, layout.Point{X: a.X + size/2, Y: middle}, size)
	})
}

func causesLead(lead FindingWords, f Finding) string {
	if len(f.Causes) == 1 && lead.Cause != "" {
		return lead.Cause
	}
	return lead.Causes
}

// labelled is text with a quiet word before it; nothing without text.
func labelled(t layout.Theme, label, text string) []layout.Run {
	if text == "" {
		return nil
	}
	return []layout.Run{run(t, layout.Body, t.Muted, label), run(t, layout.Body, t.Ink, text)}
}

func smallPrint(t layout.Theme, label, text string, width layout.Length) layout.Frame {
	if text == "" {
		return empty()
	}
	return paragraph(t, width, layout.Left, run(t, layout.Note, t.Muted, label), run(t, layout.Note, t.Muted, text))
}

// NewNextCheck is the block "next-check": the one check that settles most, with
// all its outcomes. At brief, and sooner where the box is wide, it is one
// paragraph; a narrow box is the highest part of a full page, and its paragraph
// is set small where there is no height for more.
func NewNextCheck(d NextCheck) layout.Block {
	return block{"next-check", func(t layout.Theme, width layout.Length, level layout.Detail) layout.Frame {
		box := func(f func(inner layout.Length) layout.Frame, at layout.Detail) layout.Frame {
			pad := [...]layout.Length{layout.Full: 10, layout.Compact: medium, layout.Brief: small + tight}[at]
			return framed(t, f(width-2*pad), pad)
		}
		lines := func(at layout.Detail) layout.Frame {
			gap := [...]layout.Length{layout.Full: small, layout.Compact: tight + 1, layout.Brief: 1}[at]
			return box(func(inner layout.Length) layout.Frame { return checkLines(t, d, inner, gap) }, at)
		}
		paragraph := func(role layout.Role, at layout.Detail) layout.Frame {
			return box(func(inner layout.Length) layout.Frame { return checkRunOn(t, d, inner, role) }, at)
		}
		switch {
		case width >= twoColumns && level != layout.Full:
			return paragraph(layout.Body, level)
		case level != layout.Brief:
			return lines(level)
		}
		least := paragraph(layout.Label, layout.Brief)
		least.Richer = func(height layout.Length) layout.Frame {
			for _, f := range []layout.Frame{lines(layout.Compact), lines(layout.Brief), paragraph(layout.Body, layout.Brief)} {
				if f.Height <= height {
					return f
				}
			}
			return least
		}
		return least
	}}
}

// checkTitle is what a box of the next check begins with.
func checkTitle(t layout.Theme, d NextCheck) []layout.Run {
	return []layout.Run{run(t, layout.Heading, t.Accent, d.Title), run(t, layout.Label, t.Muted, dotted(d.For)), run(t, layout.Label, t.Muted, dotted(d.Effort))}
}

// checkLines sets a check with a paragraph for each outcome.
func checkLines(t layout.Theme, d NextCheck, width, gap layout.Length) layout.Frame {
	parts := []layout.Frame{paragraph(t, width, layout.Left, checkTitle(t, d)...), textFrame(t, d.Do, layout.Body, t.Ink, width)}
	for _, o := range d.Outcomes {
		parts = append(parts, paragraph(t, width, layout.Left, run(t, layout.Strong, t.Ink, o.If+":"), run(t, layout.Body, t.Ink, o.Then+".")))
	}
	return stack(gap, parts...)
}

// checkRunOn sets a check as one paragraph.
func checkRunOn(t layout.Theme, d NextCheck, width layout.Length, role layout.Role) layout.Frame {
	runs := append(checkTitle(t, d), run(t, role, t.Ink, d.Do))
	for _, o := range d.Outcomes {
		if name := run(t, role, t.Ink, o.If+":"); role == layout.Body {
			runs = append(runs, run(t, layout.Strong, t.Ink, o.If+":"))
		} else {
			name.Face.Weight = layout.Bold
			runs = append(runs, name)
		}
		runs = append(runs, run(t, role, t.Ink, o.Then+"."))
	}
	return paragraph(t, width, layout.Left, runs...)
}

// dotted puts a middle dot before words that run on.
func dotted(s string) string {
	if s == "" {
		return ""
	}
	return "· " + s
}

// framed draws a heavy frame around a part of the page.
func framed(t layout.Theme, f layout.Frame, pad layout.Length) layout.Frame {
	return behind(inset(f, pad-tight, pad, pad, pad), func(s layout.Surface, a layout.Rect) {
		s.Stroke(layout.RectPath(a.Inset(heavy/2)), layout.Pen{Width: heavy, Color: t.Accent})
	})
}

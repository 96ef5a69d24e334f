package figure

import (
	"slices"
	"strings"

	"gaugesheet/layout"
)

// NewFindings is the block "findings": the findings in their order. Compact
// keeps two causes of each, leaves out what speaks against it and runs the
// rest on; brief keeps what was seen and, of the first, why.
func NewFindings(d Findings) layout.Block {
	return block{"findings", func(t layout.Theme, width layout.Length, level layout.Detail) layout.Frame {
		if d.More == nil {
			level = layout.Full
		}
		gap := [...]layout.Length{layout.Full: medium, layout.Compact: small + 1, layout.Brief: small}[level]
		frames := []layout.Frame{heading(t, d.Title, d.Sub, width)}
		var left Omitted
		least := d.Least
		if least <= 0 {
			least = 3
		}
		var said []layout.Frame
		for i, f := range d.Items {
			if level == layout.Brief && i >= least && f.Because != "" {
				f.Because = ""
				left.Reasons++
			}
			frame := findingFrame(t, f, d.Lead, width, level, &left)
			if level == layout.Brief && i >= least {
				said = append(said, frame)
				continue
			}
			frames = append(frames, frame)
		}
		frames = append(frames, stack(0, said...))
		if left != (Omitted{}) {
			frames = append(frames, textFrame(t, d.More(left), layout.Note, t.Muted, width))
		}
		return stack(gap, frames...)
	}}
}

func findingFrame(t layout.Theme, f Finding, lead FindingWords, width layout.Length, level layout.Detail, left *Omitted) layout.Frame {
	strong := t.Face(layout.Strong)
	size := markSize(t, strong)
	indent := size + small + tight
	inner := width - indent
	causes := f.Causes[:min(len(f.Causes), [...]int{layout.Full: len(f.Causes), layout.Compact: 2, layout.Brief: 0}[level])]
	left.Causes += len(f.Causes) - len(causes)
	if level != layout.Full {
		left.Against += len(f.Against)
	}
	says := []layout.Run{run(t, layout.Strong, t.Ink, f.Says)}
	if f.Urgency != "" {
		says = append(says, run(t, layout.Body, t.Accent, "· "+f.Urgency))
	}
	because := []layout.Run{run(t, layout.Body, t.Ink, f.Because)}
	likely := labelled(t, causesLead(lead, f), strings.Join(causes, " · "))
	sure := labelled(t, lead.Sure, f.Sure)
	var words layout.Frame
	switch level {
	case layout.Full:
		words = stack(0,
			paragraph(t, inner, layout.Left, says...),
			paragraph(t, inner, layout.Left, because...),
			paragraph(t, inner, layout.Left, likely...),
			paragraph(t, inner, layout.Left, slices.Concat(sure, labelled(t, lead.Against, strings.Join(f.Against, "; ")))...),
			smallPrint(t, lead.Rule, f.Rule, inner))
	case layout.Compact:
		words = stack(0,
			paragraph(t, inner, layout.Left, says...),
			paragraph(t, inner, layout.Left, slices.Concat(because, likely, sure)...))
	default:
		if f.Urgency != "" && f.Because != "" {
			says = append(says, run(t, layout.Body, t.Muted, "·"))
		}
		words = paragraph(t, inner, layout.Left, slices.Concat(says, because)...)
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

// NewNextCheck is the block "next-check": the one check that settles most.
func NewNextCheck(d NextCheck) layout.Block {
	return block{"next-check", func(t layout.Theme, width layout.Length, level layout.Detail) layout.Frame {
		pad := [...]layout.Length{layout.Full: 10, layout.Compact: medium, layout.Brief: small + tight}[level]
		inner := width - 2*pad
		outcome := func(label, text string) layout.Frame {
			if text == "" {
				return empty()
			}
			return paragraph(t, inner, layout.Left, run(t, layout.Strong, t.Ink, label), run(t, layout.Body, t.Ink, text))
		}
		effort := ""
		if d.Effort != "" {
			effort = "· " + d.Effort
		}
		box := stack([...]layout.Length{layout.Full: small, layout.Compact: tight + 1, layout.Brief: 1}[level],
			paragraph(t, inner, layout.Left, run(t, layout.Heading, t.Accent, d.Title), run(t, layout.Label, t.Muted, effort)),
			textFrame(t, d.Do, layout.Body, t.Ink, inner),
			outcome(d.IfSoLead, d.IfSo), outcome(d.IfNotLead, d.IfNot))
		return behind(inset(box, pad-tight, pad, pad, pad), func(s layout.Surface, a layout.Rect) {
			s.Stroke(layout.RectPath(a.Inset(heavy/2)), layout.Pen{Width: heavy, Color: t.Accent})
		})
	}}
}

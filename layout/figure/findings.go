package figure

import (
	"strings"

	"gaugesheet/layout"
)

// NewFindings is the block "findings": the findings in their order. Compact
// keeps two causes of each and leaves out what speaks against it; brief keeps
// what was seen and why.
func NewFindings(d Findings) layout.Block {
	return block{"findings", func(t layout.Theme, width layout.Length, level layout.Detail) layout.Frame {
		if d.More == nil {
			level = layout.Full
		}
		gap := [...]layout.Length{layout.Full: medium, layout.Compact: small + 1, layout.Brief: small}[level]
		frames := []layout.Frame{heading(t, d.Title, d.Sub, width)}
		var left Omitted
		for _, f := range d.Items {
			frames = append(frames, findingFrame(t, f, d.Lead, width, level, &left))
		}
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
	says := []layout.Run{run(t, layout.Strong, t.Ink, f.Says)}
	if f.Urgency != "" {
		says = append(says, run(t, layout.Body, t.Accent, "· "+f.Urgency))
	}
	parts := []layout.Frame{paragraph(t, inner, layout.Left, says...), textFrame(t, f.Because, layout.Body, t.Ink, inner)}
	causes := f.Causes
	switch {
	case level == layout.Brief:
		causes = nil
	case level == layout.Compact && len(causes) > 2:
		causes = causes[:2]
	}
	left.Causes += len(f.Causes) - len(causes)
	before := lead.Causes
	if len(f.Causes) == 1 && lead.Cause != "" {
		before = lead.Cause
	}
	parts = append(parts, labelled(t, before, strings.Join(causes, " · "), inner))
	if level != layout.Brief {
		parts = append(parts, labelled(t, lead.Sure, f.Sure, inner))
	}
	if level == layout.Full {
		parts = append(parts, labelled(t, lead.Against, strings.Join(f.Against, "; "), inner))
		parts = append(parts, smallPrint(t, lead.Rule, f.Rule, inner))
	} else {
		left.Against += len(f.Against)
	}
	return behind(inset(stack(1, parts...), 0, 0, 0, indent), func(s layout.Surface, a layout.Rect) {
		middle := baseline(s, strong, a.Y) - s.CapHeight(strong)/2
		DrawMark(s, t, f.Mark, layout.Point{X: a.X + size/2, Y: middle}, size)
	})
}

// labelled is a paragraph with a quiet word before it; empty without text.
func labelled(t layout.Theme, label, text string, width layout.Length) layout.Frame {
	if text == "" {
		return empty()
	}
	return paragraph(t, width, layout.Left, run(t, layout.Body, t.Muted, label), run(t, layout.Body, t.Ink, text))
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
		pad := wide
		if level != layout.Full {
			pad = medium
		}
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
		box := stack(small+1,
			paragraph(t, inner, layout.Left, run(t, layout.Heading, t.Accent, d.Title), run(t, layout.Label, t.Muted, effort)),
			textFrame(t, d.Do, layout.Body, t.Ink, inner),
			outcome(d.IfSoLead, d.IfSo), outcome(d.IfNotLead, d.IfNot))
		return behind(inset(box, pad-tight, pad, pad, pad), func(s layout.Surface, a layout.Rect) {
			s.Stroke(layout.RectPath(a.Inset(heavy/2)), layout.Pen{Width: heavy, Color: t.Accent})
		})
	}}
}

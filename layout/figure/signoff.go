package figure

import (
	"strings"

	"gaugesheet/layout"
)

// A SignOff describes the lines to sign on, one to three.
type SignOff struct {
	Lines []string // under each line: who signs there, "tested by A. Lindqvist"
	Note  string   // small, above the lines: what is signed
}

// A Foot describes the last lines of the page.
type Foot struct {
	Says  []string // what the sheet is and is not
	Marks []string // data, page
}

// NewSignOff is the block "sign-off": lines to sign on, each with who signs
// there under it, so that the name does not stand where the signature goes.
func NewSignOff(d SignOff) layout.Block {
	return block{"sign-off", func(t layout.Theme, width layout.Length, level layout.Detail) layout.Frame {
		if len(d.Lines) == 0 {
			return textFrame(t, d.Note, layout.Note, t.Ink, width)
		}
		const gap = 2 * wide
		n := layout.Length(len(d.Lines))
		w := (width - gap*(n-1)) / n
		var lines []column
		for _, l := range d.Lines {
			lines = append(lines, column{w, stack(1, rule(layout.Pen{Width: thin, Color: t.Ink}), textFrame(t, l, layout.Label, t.Ink, w))})
		}
		room := [...]layout.Length{layout.Full: 24, layout.Compact: 20, layout.Brief: 14}[level]
		return stack(tight, textFrame(t, d.Note, layout.Note, t.Ink, width), inset(beside(gap, lines...), room, 0, 0, 0))
	}}
}

// NewFoot is the block "foot": the last lines of the page.
func NewFoot(d Foot) layout.Block {
	return block{"foot", func(t layout.Theme, width layout.Length, level layout.Detail) layout.Frame {
		marks := strings.Join(d.Marks, runOnDot+" ")
		if level == layout.Brief {
			return paragraph(t, width, layout.Left, run(t, layout.Label, t.Ink, strings.Join(d.Says, " ")), run(t, layout.Label, t.Ink, marks))
		}
		var lines []layout.Frame
		for _, s := range d.Says {
			lines = append(lines, textFrame(t, s, layout.Label, t.Ink, width))
		}
		return stack(1, append(lines, textFrame(t, marks, layout.Label, t.Ink, width))...)
	}}
}

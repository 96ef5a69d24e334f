package figure

import "gaugesheet/layout"

// Remarks are what stands among the findings without being one, each with a
// title that its texts run on from: what was not tested, what else was seen,
// what is recommended.
type Remarks struct {
	Name  string // the block's
	Items []Remark
	Short Short

	// Least is what stays of them at brief, where these are one paragraph at compact
	// already; nil for others.
	Least []Remark
}

// A Remark is a title with what it is of.
type Remark struct {
	Mark  Mark
	Title string // with its punctuation: "Recommended:"
	Texts []string
}

// NewRemarks is a block of remarks, each set like a finding. At compact they
// stand closer; at brief they are one small paragraph, no longer than may be.
func NewRemarks(d Remarks) layout.Block {
	return block{d.Name, func(t layout.Theme, width layout.Length, level layout.Detail) layout.Frame {
		if level == layout.Brief || level == layout.Compact && d.Least != nil {
			var runs []layout.Run
			for _, r := range d.at(level) {
				if more := remarkRuns(t, r, d.Short, layout.Label, level); len(more) > 0 {
					if len(runs) > 0 { // told apart from the one before it
						more[0].Text = dotted(more[0].Text)
					}
					runs = append(runs, more...)
				}
			}
			return paragraph(t, width, layout.Left, runs...)
		}
		inner := width - entryIndent(t)
		var remarks []layout.Frame
		for _, r := range d.Items {
			if words := paragraph(t, inner, layout.Left, remarkRuns(t, r, d.Short, layout.Body, level)...); words.Height > 0 {
				remarks = append(remarks, entry(t, r.Mark, words))
			}
		}
		gap := [...]layout.Length{layout.Full: small + tight, layout.Compact: small}[level]
		return heard(layout.List, stack(gap, listed(remarks)...))
	}}
}

// at are the remarks that stand at a level.
func (d Remarks) at(level layout.Detail) []Remark {
	if level == layout.Brief && d.Least != nil {
		return d.Least
	}
	return d.Items
}

// remarkRuns is a remark as running text; nothing where it says nothing.
func remarkRuns(t layout.Theme, r Remark, short Short, role layout.Role, level layout.Detail) []layout.Run {
	if len(r.Texts) == 0 {
		return nil
	}
	texts, left := short.keep(r.Texts, level)
	title := run(t, role, t.Ink, r.Title)
	title.Face.Weight = layout.Bold
	return []layout.Run{title, run(t, role, t.Ink, runOn(texts)), run(t, layout.Label, t.Ink, left)}
}

// entryIndent is how far the words of an entry stand from its symbol's left.
func entryIndent(t layout.Theme) layout.Length {
	return markSize(t, t.Face(layout.Strong)) + small + tight
}

// entry is words with a symbol before their first line.
func entry(t layout.Theme, mark Mark, words layout.Frame) layout.Frame {
	face := t.Face(layout.Strong)
	return marked(t, mark, face, markSize(t, face), words, entryIndent(t))
}

// marked draws a symbol of a size before the first line of words set in a face.
func marked(t layout.Theme, mark Mark, face layout.Face, size layout.Length, words layout.Frame, indent layout.Length) layout.Frame {
	return behind(inset(words, 0, 0, 0, indent), func(s layout.Surface, a layout.Rect) {
		middle := baseline(s, face, a.Y) - s.CapHeight(face)/2
		layout.Tag{Kind: layout.Decoration}.Draw(s, func() { // how urgent it is stands in the words
			DrawMark(s, t, mark, layout.Point{X: a.X + size/2, Y: middle}, size)
		})
	})
}

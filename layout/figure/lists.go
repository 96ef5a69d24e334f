package figure

import (
	"slices"
	"strings"

	"gaugesheet/layout"
)

// A List is a heading over lines of words: method, cautions and lists of a
// sheet's own.
type List struct {
	Title string
	Items []string
	Run   bool // one paragraph that its heading begins, instead of a line for each
	Short Short
}

// Short is how a text that need not stand whole gives way: at compact it runs
// on as one paragraph, at brief each part of it keeps its first words. The zero
// Short keeps all words at every level.
type Short struct {
	Words int    // that each part keeps at brief
	Parts int    // that are kept at brief, the first ones; 0 is all
	Left  string // said behind it where words were left out: where they stand
}

// NewMethod is the block "method": how it was tested.
func NewMethod(d List) layout.Block { return listBlock("method", d, layout.Label) }

// NewCautions is the block "cautions".
func NewCautions(d List) layout.Block { return listBlock("cautions", d, layout.Label) }

// NewList is a block "list:" with a name: lines of words of a sheet's own.
func NewList(name string, d List) layout.Block { return listBlock("list:"+name, d, layout.Label) }

// keep gives texts as they stand at a level: whole, or the first words of each
// where the block may be shortened; and what is to be said behind them.
func (s Short) keep(texts []string, level layout.Detail) ([]string, string) {
	if s.Words == 0 || level != layout.Brief {
		return texts, ""
	}
	left := ""
	if s.Parts > 0 && len(texts) > s.Parts {
		texts, left = slices.Clone(texts[:s.Parts]), s.Left
		texts[s.Parts-1] = strings.TrimRight(texts[s.Parts-1], ";") // nothing follows it
	}
	kept := make([]string, len(texts))
	for i, text := range texts {
		kept[i] = text
		if words := strings.Fields(text); len(words) > s.Words {
			kept[i], left = strings.TrimRight(strings.Join(words[:s.Words], " "), ".,;:")+"…", s.Left
		}
	}
	return kept, left
}

// runsOn reports a level at which the text is one paragraph.
func (s Short) runsOn(level layout.Detail) bool {
	return level == layout.Brief || level == layout.Compact && s.Words > 0
}

// listBlock sets a list. At brief its lines run on as one paragraph, all the
// words kept where it may not be shortened.
func listBlock(name string, d List, role layout.Role) layout.Block {
	return block{name, func(t layout.Theme, width layout.Length, level layout.Detail) layout.Frame {
		if len(d.Items) == 0 {
			return empty()
		}
		items, left := d.Short.keep(d.Items, level)
		if d.Run || d.Short.runsOn(level) {
			title := run(t, role, t.Ink, d.Title)
			title.Face.Weight = layout.Bold
			return headed(t, width, title, run(t, role, t.Ink, runOn(items)), run(t, layout.Note, t.Ink, left))
		}
		var lines []layout.Frame
		for _, item := range items {
			lines = append(lines, textFrame(t, item, role, t.Ink, width))
		}
		gap := layout.Length(0)
		if level == layout.Full {
			gap = 1
		}
		return stack(0, heard(layout.Heading2, textFrame(t, d.Title, layout.Strong, t.Ink, width)), heard(layout.List, stack(gap, listed(lines)...)))
	}}
}

// runOn joins lines to one paragraph, with a full stop where one ends without.
func runOn(items []string) string {
	var b strings.Builder
	for i, item := range items {
		if i > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(item)
		if i < len(items)-1 && !strings.ContainsAny(item[max(len(item)-1, 0):], ".!?;:,") {
			b.WriteString(runOnDot)
		}
	}
	return b.String()
}

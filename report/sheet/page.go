package sheet

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"gaugesheet/layout"
	"gaugesheet/layout/face"
	"gaugesheet/layout/figure"
)

// Margins of every sheet: wider at the left, where it is bound.
const (
	margin  = 10 * layout.MM
	binding = 15 * layout.MM
)

// papers are the sizes that sheets are printed on.
var papers = map[string]layout.Size{
	"letter": {W: 8.5 * layout.Inch, H: 11 * layout.Inch},
	"a4":     {W: 210 * layout.MM, H: 297 * layout.MM},
	"legal":  {W: 8.5 * layout.Inch, H: 14 * layout.Inch},
}

func paperSize(name string) (layout.Size, error) {
	size, ok := papers[name]
	if !ok {
		return size, fmt.Errorf("expected paper letter, a4 or legal, found %q", name)
	}
	return size, nil
}

func (v *view) paperName() string {
	switch {
	case v.options.Paper != "":
		return v.options.Paper
	case v.job.Paper.Value != "":
		return v.job.Paper.Value
	}
	return "letter"
}

// language is the one asked for, else the job's, else the paper's.
func (v *view) language() string {
	if v.options.Language != "" {
		return v.options.Language
	}
	return v.job.LanguageOn(v.paperName())
}

// builders make the blocks that templates name, which are these and no others.
// A builder gives nil where the job has nothing for the block; the page then
// closes up.
var builders = map[string]func(*view) layout.Block{
	"head":          (*view).headBlock,
	"identity":      (*view).identityBlock,
	"verdict":       (*view).verdictBlock,
	"engine":        (*view).engineBlock,
	"spread":        (*view).spreadBlock,
	"fuel":          (*view).fuelBlock,
	"further-tests": (*view).furtherBlock,
	"trend":         (*view).trendBlock,
	"before":        (*view).beforeBlock,
	"notices":       (*view).noticesBlock,
	"findings":      (*view).findingsBlock,
	"next-check":    (*view).nextCheckBlock,
	"plan":          (*view).planBlock,
	"own-findings":  (*view).ownFindingsBlock,
	"method":        (*view).methodBlock,
	"not-tested":    (*view).notTestedBlock,
	"cautions":      (*view).cautionsBlock,
	"sign-off":      (*view).signOffBlock,
	"foot":          (*view).footBlock,

	"next-check-wide": (*view).nextCheckWideBlock,
	"fuel-wide":       (*view).fuelWideBlock,

	"further-tests-wide": (*view).furtherWideBlock,

	"readings":       (*view).readingsBlock,
	"limits":         (*view).limitsBlock,
	"rules-compared": (*view).publishedBlock,
	"sums":           (*view).sumsBlock,

	"results": (*view).resultsBlock,
	"work":    (*view).workBlock,

	"independence": (*view).independenceBlock,
	"tested":       (*view).testedBlock,
	"photos":       (*view).photosBlock,
	"validity":     (*view).validityBlock,
	"disclaimer":   (*view).disclaimerBlock,

	"bench-head":     (*view).benchHeadBlock,
	"bench-identity": (*view).benchIdentityBlock,
	"bench-steps":    (*view).benchStepsBlock,
	"bench-numbers":  (*view).benchNumbersBlock,
	"bench-readings": (*view).benchReadingsBlock,
	"bench-end":      (*view).benchEndBlock,
	"bench-limits":   (*view).benchLimitsBlock,
	"bench-notes":    (*view).benchNotesBlock,
	"bench-side":     (*view).benchSideBlock,
}

// named gives a block the name by which templates and messages know it.
type named struct {
	layout.Block
	name string
}

// Name is the block's name in templates.
func (n named) Name() string { return n.name }

// follows are the blocks that go on from another.
var follows = map[string]string{"plan": "next-check"}

// Follows is the block that this one goes on from.
func (n named) Follows() string { return follows[n.name] }

// Natural is the block's own width, 0 where it has none.
func (n named) Natural(t layout.Theme) layout.Length {
	if w, ok := n.Block.(layout.Wider); ok {
		return w.Natural(t)
	}
	return 0
}

// page puts the template's blocks on the paper.
func (v *view) page(paper layout.Size) layout.Page {
	p := layout.Page{
		Paper:      paper,
		Area:       layout.Rect{X: binding, Y: margin, W: paper.W - binding - margin, H: paper.H - 2*margin},
		GivesWay:   v.sheet.GivesWay,
		LeastScale: v.sheet.LeastScale,
		LeastSpace: v.sheet.LeastSpace,
	}
	for _, row := range v.sheet.Rows {
		r := layout.Row{Above: row.Above, Foot: row.Foot, Gap: 14}
		for _, column := range row.Columns {
			cell := layout.Cell{Share: column.Share, Least: column.Least, Most: column.Most, Gap: 8, Blocks: v.blocks(column.Blocks)}
			if len(cell.Blocks) > 0 {
				r.Cells = append(r.Cells, cell)
			}
		}
		r.Flows = v.blocks(row.Flows)
		if len(r.Cells)+len(r.Flows) > 0 {
			p.Rows = append(p.Rows, r)
		}
	}
	return p
}

// inAnotherPlace ends the template's name of a block that has two places on a
// sheet, and stands in one of them.
const inAnotherPlace = "-wide"

// blocks are those of the named ones that the job has something for.
func (v *view) blocks(names []string) []layout.Block {
	var all []layout.Block
	for _, name := range names {
		if block := builders[name](v); block != nil {
			all = append(all, named{block, strings.TrimSuffix(name, inAnotherPlace)})
		}
	}
	return all
}

// hasBlock reports whether the sheet has a block of the name.
func (v *view) hasBlock(name string) bool {
	for _, row := range v.sheet.Rows {
		if slices.Contains(row.Blocks(), name) {
			return true
		}
	}
	return false
}

// theme is the figures' own, in the template's sizes and the shop's accent.
func (v *view) theme() layout.Theme {
	t := figure.DefaultTheme(face.Metrics())
	for role, size := range v.sheet.Sizes {
		t.Sizes[role] = size
	}
	t.Smallest = v.sheet.Smallest
	t.Signs = v.signs()
	if accent, ok := parseColor(v.job.Shop.Accent.Value); ok {
		t.Accent = accent
	}
	return t
}

// parseColor reads "#1a5b6c".
func parseColor(s string) (layout.Color, bool) {
	n, err := strconv.ParseUint(strings.TrimPrefix(s, "#"), 16, 32)
	if err != nil || len(s) != 7 {
		return layout.Color{}, false
	}
	return layout.Color{R: uint8(n >> 16), G: uint8(n >> 8), B: uint8(n)}, true
}

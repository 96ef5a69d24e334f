package sheet

import (
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
	"gaugesheet/layout"
	"gaugesheet/layout/figure"
)

// A publishedRow is one figure found and the rules in circulation that speak of
// it.
type publishedRow struct {
	found        string
	kept, broken []string
}

// publishedBlock judges the readings by each rule in circulation: what was
// found, and which rules it keeps and which it breaks.
func (v *view) publishedBlock() layout.Block {
	c := v.compression()
	rules := v.publishedRules(c)
	if len(rules) == 0 {
		return nil
	}
	sources := newFootnotes()
	var rows []*publishedRow
	by := map[string]*publishedRow{}
	for _, p := range rules {
		found := v.publishedFound(c, p)
		row := by[found]
		if row == nil {
			row = &publishedRow{found: found}
			by[found], rows = row, append(rows, row)
		}
		if p.Source != diag.CommonPractice && (p.Verdict == diag.Within || p.Verdict == diag.Outside) {
			sources.add(v.source(p.Source))
		}
		limit := sources.mark(figureOf(p.Limit, v.limitDecimals(p, c), p.Unit), v.source(p.Source))
		switch p.Verdict {
		case diag.Within:
			row.kept = append(row.kept, limit)
		case diag.Outside:
			row.broken = append(row.broken, limit)
		}
	}
	d := figure.Table{
		Name: "rules-compared", Title: v.label("heading.published"), Sub: v.label("published.sub"), RunOn: layout.Compact,
		Columns: []figure.Column{{Heading: v.label("column.found")}, {Heading: v.label("column.kept")}, {Heading: v.label("column.broken")}},
		Sum:     v.publishedSum(rules),
	}
	for _, r := range rows {
		if len(r.kept)+len(r.broken) > 0 {
			d.Rows = append(d.Rows, figure.TextRow(r.found, v.listed(r.kept), v.listed(r.broken)))
		}
	}
	if len(d.Rows) == 0 {
		return nil
	}
	if captions := sources.captions(); len(captions) > 0 {
		d.Captions = []string{v.label("published.sources", "sources", captions[0])}
	}
	return figure.NewTable(d)
}

// publishedRules are the rules in circulation on the compression and on further
// tests.
func (v *view) publishedRules(c *diag.CompressionResult) []diag.PublishedRule {
	var rules []diag.PublishedRule
	if c != nil {
		rules = append(rules, c.Published...)
	}
	for i := range v.d.Measured {
		rules = append(rules, v.d.Measured[i].Published...)
	}
	return rules
}

// furtherDecimals are those of a figure of a further test.
const furtherDecimals = 2

// publishedFound is what a rule looks at, in words, as found.
func (v *view) publishedFound(c *diag.CompressionResult, p diag.PublishedRule) string {
	decimals := furtherDecimals
	if c != nil && p.Rule != diag.BackAtSpeed {
		decimals = c.Decimals
	}
	if p.Unit == quantity.Percent {
		decimals = 1
	}
	return v.label("published."+p.Rule, "value", number(p.Value, decimals, p.Unit))
}

// limitDecimals prints a rule's figure as it was published, and one that was
// brought to the unit of the test to its last digit.
func (v *view) limitDecimals(p diag.PublishedRule, c *diag.CompressionResult) int {
	if p.Limit == float64(int(p.Limit)) {
		return 0
	}
	if c == nil || p.Rule == diag.BackAtSpeed {
		return furtherDecimals
	}
	return c.Decimals
}

func (v *view) listed(items []string) string {
	if len(items) == 0 {
		return v.label("published.none")
	}
	return strings.Join(items, ", ")
}

// publishedSum counts the verdicts of the rules in circulation.
func (v *view) publishedSum(rules []diag.PublishedRule) string {
	counts := map[diag.Verdict]int{}
	for _, r := range rules {
		counts[r.Verdict]++
	}
	return v.label("published.sum", "count", len(rules), "within", counts[diag.Within], "outside", counts[diag.Outside])
}

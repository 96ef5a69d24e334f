package sheet

import (
	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
	"gaugesheet/layout"
	"gaugesheet/layout/figure"
)

// limitsBlock is each limit with the value, its uncertainty and the verdict.
func (v *view) limitsBlock() layout.Block {
	var limits []diag.LimitResult
	decimals := 0
	switch {
	case v.compression() != nil:
		limits, decimals = v.compression().Limits, v.compression().Decimals
	case v.rotors() != nil:
		limits, decimals = v.rotors().Limits, v.rotors().Decimals
	}
	if len(limits) == 0 {
		return nil
	}
	d := figure.Table{Name: "limits", Title: v.label("heading.limits"), Columns: []figure.Column{
		{Head: v.label("column.limit"), Share: 1}, {Head: v.label("column.value"), Numbers: true},
		{Head: v.label("column.uncertainty"), Numbers: true}, {Head: v.label("column.verdict")}, {Head: v.label("column.at")},
	}}
	source, common := commonSource(limits)
	if common {
		d.Sub = v.label("limits.source", "source", source)
	}
	for _, l := range limits {
		if common {
			l.Source = ""
		}
		places := decimals
		if l.Unit == quantity.Percent {
			places = 1
		}
		row := []string{v.limitRow(l), "", "", string(l.Verdict), l.Cylinder}
		if l.Verdict != diag.NotJudged {
			row[1] = onPage(number(l.Value, places, l.Unit).String())
			row[2] = "±" + quantity.Format(l.Uncertainty, max(1, places))
		}
		d.Rows = append(d.Rows, row)
	}
	return figure.NewTable(d)
}

// commonSource is the source that all of several limits have.
func commonSource(limits []diag.LimitResult) (source string, common bool) {
	for _, l := range limits {
		if l.Source == "" || l.Source != limits[0].Source {
			return "", false
		}
	}
	return limits[0].Source, len(limits) > 1
}

// limitRow is a limit with where it comes from and what became of it.
func (v *view) limitRow(l diag.LimitResult) string {
	words := v.optional("rotor-rule."+l.Rule, "")
	if words == "" {
		words = v.limitWords(l)
	} else {
		words = joined(" ", words, onPage(number(l.Limit, v.decimalsOf(l.Unit), l.Unit).String()))
	}
	if l.Corrected {
		words = v.label("limit.corrected", "limit", words, "entered", l.AsEntered, "density", number(l.ByDensity, v.decimalsOf(l.Unit), l.Unit))
	}
	if l.Source != "" {
		words = v.label("limit.sourced", "limit", words, "source", l.Source)
	}
	return words
}

// publishedBlock judges the readings by each rule in circulation.
func (v *view) publishedBlock() layout.Block {
	c := v.compression()
	if c == nil || len(c.Published) == 0 {
		return nil
	}
	d := figure.Table{Name: "rules-compared", Title: v.label("heading.published"), RunOn: true,
		Columns: []figure.Column{
			{Head: v.label("column.rule"), Share: 1}, {Head: v.label("column.value"), Numbers: true}, {Head: v.label("column.verdict")},
		}}
	for _, p := range c.Published {
		decimals := c.Decimals
		if p.Unit == quantity.Percent {
			decimals = 1
		}
		d.Rows = append(d.Rows, []string{onPage(p.Name), onPage(number(p.Value, decimals, p.Unit).String()), string(p.Verdict)})
	}
	d.Sub = v.label("published.caption")
	d.Sum = v.publishedSum(c.Published)
	return figure.NewTable(d)
}

// publishedSum counts the verdicts of the rules in circulation.
func (v *view) publishedSum(rules []diag.PublishedRule) string {
	counts := map[diag.Verdict]int{}
	for _, r := range rules {
		counts[r.Verdict]++
	}
	return v.label("published.sum", "count", len(rules), "within", counts[diag.Within], "outside", counts[diag.Outside])
}

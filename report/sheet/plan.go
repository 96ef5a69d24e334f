package sheet

import (
	"strings"

	"gaugesheet/layout"
	"gaugesheet/layout/figure"
)

// planBlock is the plan's second step: the check that comes after the next one,
// after which of its outcomes, and where its own outcomes lead. Nil where the
// next check settles it.
func (v *view) planBlock() layout.Block {
	if len(v.d.Plan) < 2 {
		return nil
	}
	first, err := v.words.Step(v.d.Plan[0], v.sheet.Audience)
	v.keep("", err)
	second := v.d.Plan[1]
	said, err := v.words.Step(second, v.sheet.Audience)
	v.keep("", err)
	var after []string
	for i, lead := range v.d.Plan[0].Leads {
		if lead.Next != nil && lead.Next.Key == second.Check.Key && i < len(first.Leads) {
			after = append(after, first.Leads[i].If)
		}
	}
	d := figure.NextCheck{
		Title: v.label("heading.plan"), Effort: said.Check.Effort,
		Do: onPage(v.label("plan.after", "if", strings.Join(after, " / "), "do", said.Check.Do)),
	}
	for _, lead := range said.Leads {
		d.Outcomes = append(d.Outcomes, figure.Outcome{If: onPage(lead.If), Then: onPage(ended(lead.Then))})
	}
	return figure.NewNextCheck(d)
}

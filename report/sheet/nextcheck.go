package sheet

import (
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/layout"
	"gaugesheet/layout/figure"
)

// mostBeside is how many outcomes of a check stand in a column beside the
// findings; where there are more the box has a row of its own.
const mostBeside = 4

// nextCheckBlock is the one check that settles most, or what to do with the
// sheet where none is needed; nil where the box has a row of its own.
func (v *view) nextCheckBlock() layout.Block {
	switch {
	case v.d.Next == nil:
		return v.noCheckBlock()
	case v.hasBlock("next-check-wide") && len(v.d.Next.Outcomes) > mostBeside:
		return nil
	}
	return v.checkBox()
}

// nextCheckWideBlock is the box of a check with many outcomes.
func (v *view) nextCheckWideBlock() layout.Block {
	if v.d.Next == nil || len(v.d.Next.Outcomes) <= mostBeside {
		return nil
	}
	return v.checkBox()
}

// checkBox is the next check with all its outcomes and where they lead.
func (v *view) checkBox() layout.Block {
	said, err := v.words.Check(*v.d.Next, v.sheet.Audience)
	v.keep("", err)
	d := figure.NextCheck{Title: v.label("heading.next-check"), Do: onPage(said.Do), Effort: onPage(said.Effort)}
	leads, sets := v.leads(len(said.Outcomes))
	if sets {
		d.Do = joined(" ", d.Do, v.optional("next.sets."+v.sheet.Occasion, ""))
	}
	common, first := commonLead(leads), map[string]string{}
	for i, o := range said.Outcomes {
		out := figure.Outcome{If: onPage(o.If), Then: onPage(ended(v.thenLeft(i, o.Then)))}
		if lead := leads[i]; lead != "" && lead != common {
			out.Next = v.then(lead, first[lead])
			if first[lead] == "" {
				first[lead] = o.If
			}
		}
		d.Outcomes = append(d.Outcomes, out)
	}
	if common != "" {
		d.Others = v.label("next.others", "check", common, "all", len(first) == 0)
	}
	return figure.NewNextCheck(d)
}

// thenLeft is what an outcome says, with what it leaves where it shows nothing and nothing
// more is asked.
func (v *view) thenLeft(i int, then string) string {
	if len(v.d.Plan) == 0 || v.d.Plan[0].Check.Key != v.d.Next.Key || i >= len(v.d.Plan[0].Leads) {
		return then
	}
	said, err := v.words.Lead(then, v.d.Plan[0].Leads[i], v.sheet.Audience)
	v.keep("", err)
	return said
}

// then is what comes after an outcome; where the same comes after an earlier one
// and is long to say, a pointer there.
func (v *view) then(lead, earlier string) string {
	said := v.label("next.then", "check", lead)
	if earlier != "" && len(strings.Fields(said)) >= leastTold {
		return v.label("next.as-after", "outcome", earlier)
	}
	return said
}

// commonLead is the check that most outcomes lead to, so that it is said once;
// "" where there is none, or where an outcome leads to no check.
func commonLead(leads []string) string {
	count := map[string]int{}
	for _, l := range leads {
		count[l]++
	}
	for _, l := range leads {
		if count[""] == 0 && count[l] >= 2 && 2*count[l] > len(leads) {
			return l
		}
	}
	return ""
}

// leads are the checks that come next after each of a number of outcomes, ""
// where none is planned, and whether anything is set or replaced by one of these
// checks or by the one before them.
func (v *view) leads(outcomes int) (leads []string, sets bool) {
	leads, sets = make([]string, outcomes), v.d.Next.Sets
	if len(v.d.Plan) == 0 || v.d.Plan[0].Check.Key != v.d.Next.Key {
		return leads, sets
	}
	for i, lead := range v.d.Plan[0].Leads[:min(outcomes, len(v.d.Plan[0].Leads))] {
		if lead.Next == nil {
			leads[i] = v.optional("work."+lead.Repair, "")
			continue
		}
		leads[i] = v.leadWords(lead.Next)
		sets = sets || lead.Next.Sets
	}
	return leads, sets
}

// leadWords name a check that comes later, the cylinders that it is of where
// they are others, and how long it takes: to an owner only what takes long.
func (v *view) leadWords(next *diag.Check) string {
	said, err := v.words.CheckBriefly(*next, v.sheet.Audience)
	v.keep("", err)
	const few = 2 // more are a group that the page has named
	on := diag.Names(next.Cylinders)
	if next.Shown || slices.Equal(next.Cylinders, v.d.Next.Cylinders) || len(on) == len(v.names()) || len(on) > few {
		on = nil
	}
	const inMinutes = 120 // what takes longer is said in words
	minutes, effort := next.Minutes, said.Effort
	switch {
	case minutes > inMinutes:
		minutes = 0
	case !v.workshop():
		minutes, effort = 0, ""
	}
	return v.label("next.check", "check", said.Name, "on", on, "minutes", minutes, "effort", effort)
}

// noCheckBlock says what to do with a sheet that asks for no check.
func (v *view) noCheckBlock() layout.Block {
	if v.d.Urgency != diag.NoAction || v.d.Withheld || v.lead() == nil || v.workshop() {
		return nil
	}
	return figure.NewNextCheck(figure.NextCheck{Title: v.label("heading.no-check"), Do: v.label("next.keep"), Again: v.again()})
}

// again is the readings with room for the next ones; nil where there is no
// room for all of them.
func (v *view) again() *figure.Again {
	const most = 8
	c, l := v.compression(), v.leakage()
	if c == nil || len(c.Cylinders) > most {
		return nil
	}
	d := &figure.Again{Heads: []string{v.label("again.as-read", "unit", string(c.Unit))}, Boxes: 1, Next: v.label("again.next")}
	if l != nil {
		d.Heads, d.Boxes = append(d.Heads, v.label("again.lost")), 2
	}
	for _, r := range c.Cylinders {
		read := diag.AsWritten(r.Entered)
		if read == "" && r.Dry != nil {
			read = v.pressure(*r.Dry)
		}
		row := figure.AgainRow{Number: r.Name, Values: []string{read}}
		if l != nil {
			row.Values = append(row.Values, v.lost(r.Name))
		}
		d.Rows = append(d.Rows, row)
	}
	return d
}

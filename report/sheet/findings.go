package sheet

import (
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
	"gaugesheet/layout"
	"gaugesheet/layout/figure"
)

// findingsBlock is the findings in the order in which they are said.
func (v *view) findingsBlock() layout.Block {
	if len(v.d.Stories) == 0 {
		return nil
	}
	d := figure.Findings{
		Title: v.label("heading.findings"),
		Lead: figure.FindingWords{
			Causes: v.label("finding.causes"), Cause: v.label("finding.cause"), Sure: v.label("finding.sure"),
			Against: v.label("finding.against"), Rule: v.label("finding.rule"),
		},
		More: v.findingsLeft,
	}
	if v.workshop() {
		d.Least = 3
	}
	for i := range v.d.Stories {
		d.Items = append(d.Items, v.story(&v.d.Stories[i]))
	}
	return figure.NewFindings(d)
}

// findingsLeft says what of the findings the page has no room for, and where
// it can be read.
func (v *view) findingsLeft(o figure.Omitted) string {
	where := "finding.more"
	if v.workshop() {
		where = "finding.more-workshop"
	}
	return v.label(where, "findings", o.Findings, "reasons", o.Reasons, "causes", o.Causes, "against", o.Against)
}

// story is one story as the block of findings has it.
func (v *view) story(st *diag.Story) figure.Finding {
	said, err := v.words.Story(*st, v.sheet.Audience)
	v.keep("", err)
	item := figure.Finding{
		Short: st.Urgency == diag.NoAction,
		Mark:  urgencyMark(st.Urgency), Says: onPage(said.Says), Because: onPage(said.Because), Against: allOnPage(said.Against),
		Urgency: v.label("urgency." + string(st.Urgency)), Causes: allOnPage(said.Causes),
	}
	if st.Urgency == diag.NoAction && !st.Sound {
		item.Mark = figure.NoMark // a tick needs a reason
	}
	limit := 2
	if v.workshop() {
		limit = 3
		if len(st.Members) > 0 {
			item.Rule = st.Members[0].Rule
		}
	}
	item.Causes = item.Causes[:min(limit, len(item.Causes))]
	if st.Urgency != diag.NoAction || v.workshop() {
		item.Sure = v.sure(st.Confidence, said.Doubts)
	}
	return item
}

func (v *view) sure(c diag.Confidence, doubts []string) string {
	if c == "" {
		return ""
	}
	if len(doubts) == 0 {
		return v.label("sure." + string(c))
	}
	return v.label("sure.because", "sure", v.label("sure."+string(c)), "doubts", joined("; ", doubts...))
}

// nextCheckBlock is the one check that settles most; nil where none is needed.
func (v *view) nextCheckBlock() layout.Block {
	if v.d.Next == nil {
		return nil
	}
	said, err := v.words.Check(*v.d.Next, v.sheet.Audience)
	v.keep("", err)
	d := figure.NextCheck{Title: v.label("heading.next-check"), Do: onPage(said.Do), For: onPage(said.For), Effort: said.Effort}
	for _, o := range said.Outcomes {
		d.Outcomes = append(d.Outcomes, figure.Outcome{If: onPage(o.If), Then: onPage(strings.TrimSuffix(o.Then, "."))})
	}
	return figure.NewNextCheck(d)
}

// noticesBlock is what has to be known of the test before its results.
func (v *view) noticesBlock() layout.Block {
	var items []string
	for _, n := range v.d.Notices {
		items = append(items, v.keep(v.words.Notice(n, v.sheet.Audience)))
	}
	if len(items) == 0 {
		return nil
	}
	return figure.NewList("notices", figure.List{Title: v.label("heading.notices"), Items: items})
}

// notTestedBlock names what was not tested, and why.
func (v *view) notTestedBlock() layout.Block {
	var items []string
	for _, u := range v.d.NotTested {
		items = append(items, v.untestedWords(u))
	}
	items = append(items, v.label("not-tested.beyond"))
	return figure.NewNotTested(figure.List{Title: v.label("heading.not-tested"), Items: items})
}

func (v *view) untestedWords(u diag.Untested) string {
	name := v.optional("test.name."+u.Test, u.Test)
	switch {
	case len(u.Cylinders) > 0:
		name = v.label("not-tested.part", "test", name, "part", v.cylinderWords(u.Cylinders))
	case u.Reading != "":
		name = v.label("not-tested.part", "test", joined(" ", name, u.Circuit), "part", v.readingName(u.Reading))
	}
	if u.Reason == "" {
		return v.label("not-tested.plain", "test", name, "state", string(u.State))
	}
	return v.label("not-tested.reason", "test", name, "state", string(u.State), "reason", u.Reason)
}

// cylinderWords name cylinders, or the rotors of a rotary.
func (v *view) cylinderWords(names []string) string {
	if v.engine.Kind == engine.Rotary {
		return v.label("part.rotors", "names", diag.Names(names))
	}
	return v.label("part.cylinders", "names", diag.Names(names))
}

// cautionsBlock is the cautions that fit the job, in one paragraph.
func (v *view) cautionsBlock() layout.Block {
	keys := v.cautionKeys()
	var items []string
	for _, key := range keys {
		items = append(items, v.keep(v.words.Caution(key, v.sheet.Audience)))
	}
	if len(items) == 0 {
		return nil
	}
	return figure.NewCautions(figure.List{Title: v.label("heading.cautions"), Items: items, Run: true})
}

// cautionKeys are the cautions to print. That the sheet describes the engine on
// that day only stands in the foot, where a sheet has one.
func (v *view) cautionKeys() []string {
	if v.d == nil {
		return benchCautions
	}
	return slices.DeleteFunc(slices.Clone(v.d.Cautions), func(key string) bool { return key == "that-day-only" && v.hasBlock("foot") })
}

// benchCautions are those of an empty bench sheet, on which any test may follow.
var benchCautions = []string{"liquid-lock", "fuel-vapour", "crank-turns", "hot-coolant", "makers-procedure"}

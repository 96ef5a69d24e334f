package sheet

import (
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
	"gaugesheet/layout"
	"gaugesheet/layout/figure"
)

// noticesBlock is what has to be known of the test before its results, as far
// as no finding tells it.
func (v *view) noticesBlock() layout.Block {
	var items []string
	for _, n := range v.d.Notices {
		if n.Rule == "method-incomplete" && v.hasBlock("method") {
			continue // how it was tested names what was not recorded
		}
		if said := v.once(v.keep(v.words.Notice(n, v.sheet.Audience))); said != "" {
			items = append(items, said)
		}
	}
	return v.remark("notices", figure.NoMark, v.label("entry.notices"), items, figure.Short{})
}

// remark is a block of one remark; nil where it says nothing.
func (v *view) remark(name string, mark figure.Mark, title string, texts []string, short figure.Short) layout.Block {
	if len(texts) == 0 {
		return nil
	}
	return figure.NewRemarks(figure.Remarks{Name: name, Items: []figure.Remark{{Mark: mark, Title: title, Texts: texts}}, Short: short})
}

// notTestedBlock names what was not tested, and why, and what no such sheet
// covers.
func (v *view) notTestedBlock() layout.Block {
	items := v.untestedGroups()
	title, beyond := v.label("entry.beyond"), v.beyondWords()
	if len(items) == 0 {
		return v.remark("not-tested", figure.NotTested, title, []string{beyond}, figure.Short{})
	}
	texts := []string{ended(strings.Join(items, "; ")), joined(" ", title, beyond)}
	return v.remark("not-tested", figure.NotTested, v.label("entry.not-tested"), texts, figure.Short{})
}

// beyondWords name what no test of the sheet's looks at, but for those further
// tests that were made, or that the job says were not.
func (v *view) beyondWords() string {
	told := func(test string) bool {
		return v.d.MeasuredTest(test) != nil || slices.ContainsFunc(v.d.NotTested, func(u diag.Untested) bool { return u.Test == test })
	}
	return v.label("not-tested.beyond", "oil", told("oil-pressure"), "cooling", told("cooling"), "starting", told("starting"))
}

// untestedGroups name what was not tested, together what has the same reason.
// The title says that it was not tested.
func (v *view) untestedGroups() []string {
	type group struct{ part, state, reason string }
	var order []group
	tests := map[group]diag.Names{}
	for _, u := range v.d.NotTested {
		if v.saidDeclined(u) {
			continue
		}
		g := group{reason: u.Reason}
		if apart := v.untestedApart(u); apart != "" {
			g.reason, u.State = apart, diag.NotTested
		}
		switch {
		case len(u.Cylinders) > 0:
			g.part = v.cylinderWords(u.Cylinders)
		case u.Reading != "":
			g.part = v.readingName(u.Reading)
		}
		if u.State != diag.NotTested && !v.says(u.Reason, u.State) {
			g.state = v.state(u.State)
		}
		if tests[g] == nil {
			order = append(order, g)
		}
		tests[g] = append(tests[g], joined(" ", v.optional("kind."+u.Test, u.Test), u.Circuit))
	}
	said := make([]string, len(order))
	for i, g := range order {
		said[i] = v.label("not-tested.group", "tests", tests[g], "part", g.part, "state", g.state, "reason", g.reason, "brackets", !strings.Contains(g.reason, "("))
	}
	return said
}

// untestedApart says of which cylinders a test was not made for which reason, where
// it was made of none and the reasons differ; else nothing.
func (v *view) untestedApart(u diag.Untested) string {
	if len(u.Cylinders) > 0 {
		return ""
	}
	var order []string
	of := map[string]diag.Names{}
	for _, name := range v.names() {
		state, reason := v.test.StateOf(u.Test, name)
		if state == "" {
			continue
		}
		said := v.stateBecause(state, reason)
		if of[said] == nil {
			order = append(order, said)
		}
		of[said] = append(of[said], name)
	}
	if len(order) < 2 {
		return ""
	}
	parts := make([]string, len(order))
	for i, said := range order {
		parts[i] = v.label("not-tested.part", "names", of[said], "said", said)
	}
	return onPage(strings.Join(parts, "; "))
}

// cylinderWords name cylinders, or the rotors of a rotary.
func (v *view) cylinderWords(names []string) string {
	if v.engine.Kind == engine.Rotary {
		return v.label("part.rotors", "names", diag.Names(names))
	}
	return v.label("part.cylinders", "names", diag.Names(names))
}

// cautionsBlock is the cautions that fit the job, all of them, in one paragraph.
func (v *view) cautionsBlock() layout.Block {
	if v.d == nil {
		return v.benchCautionsBlock()
	}
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
	return slices.DeleteFunc(slices.Clone(v.d.Cautions), func(key string) bool { return key == "that-day-only" && v.hasBlock("foot") })
}

// firstSeen is how many lines of what else was seen stay on a page that is too
// full for all of them.
const firstSeen = 3

// coolantGasWords say what the test of the coolant for combustion gas came to.
func (v *view) coolantGasWords() string {
	if g := v.test.CoolantGas; g != "" && g != "not tested" {
		return v.label("own.coolant-gas", "result", v.term("coolant-gas", g))
	}
	return ""
}

// boresInWords say what a borescope showed: the cylinders that look alike together,
// and the instrument once.
func (v *view) boresInWords() []string {
	var said []string
	alike := map[string]diag.Names{}
	for _, name := range v.names() {
		seen := v.boreSeen(name)
		if _, known := alike[seen]; seen != "" && !known {
			said = append(said, seen)
		}
		alike[seen] = append(alike[seen], name)
	}
	for i, seen := range said {
		said[i] = v.label("own.borescope", "cylinders", alike[seen], "seen", seen, "first", i == 0)
	}
	return said
}

// ownFindingsBlock is what the technician saw, in the technician's words.
func (v *view) ownFindingsBlock() layout.Block {
	items := slices.DeleteFunc(values(v.job.Findings), v.quoted)
	items = append(items, v.boresInWords()...)
	if gas := v.coolantGasWords(); gas != "" && !v.hasBlock("results") {
		items = append(items, gas)
	}
	if v.test.Compression != nil && v.test.Compression.WetInWords != "" {
		items = append(items, v.label("own.wet", "words", v.test.Compression.WetInWords))
	}
	for _, name := range v.names() {
		if v.test.Plugs != nil && v.test.Plugs.ByCylinder[name].Note != "" {
			items = append(items, v.label("own.plug", "cylinder", name, "note", v.test.Plugs.ByCylinder[name].Note))
		}
	}
	if !v.hasBlock("photos") {
		for _, photo := range v.photoWords() {
			items = append(items, v.label("own.photo", "photo", photo))
		}
	}
	short := v.short()
	short.Parts = firstSeen
	for i := range items {
		items[i] = onPage(items[i])
		if i < len(items)-1 && !strings.ContainsAny(items[i][max(len(items[i])-1, 0):], ".!?;:,") {
			items[i] += ";" // a separator would fall away where a line ends at it
		}
	}
	return v.remark("own-findings", figure.NoMark, v.label("entry.own-findings"), items, short)
}

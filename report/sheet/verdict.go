package sheet

import (
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/layout"
	"gaugesheet/layout/figure"
	"gaugesheet/templates"
)

// verdictBlock is what the sheet opens with: the sentence, what stands under
// it, and three answers: how urgent, what next, how sure.
func (v *view) verdictBlock() layout.Block {
	return figure.NewVerdict(figure.Verdict{
		Mark:     v.verdictMark(),
		Sentence: v.headline(),
		Second:   v.once(v.underHeadline()),
		Answers:  []figure.Answer{v.howUrgent(), v.whatNext(), v.howSure()},
	})
}

// headline is the sheet's one sentence, as `check --json` has it.
func (v *view) headline() string {
	return v.keep(v.words.Verdict(v.d.Verdict, v.sheet.Audience))
}

// lead is the story that leads the sheet, nil for none.
func (v *view) lead() *diag.Story {
	if v.d.Lead < 0 || v.d.Lead >= len(v.d.Stories) {
		return nil
	}
	return &v.d.Stories[v.d.Lead]
}

// verdictMark is the symbol of what was found. A tick stands only where the
// engine was shown to be sound, no reading is too close to a limit for it, and the
// finding that leads has one: none beside a minimum that nobody knows.
func (v *view) verdictMark() figure.Mark {
	lead := v.lead()
	switch {
	case v.d.Withheld || lead == nil:
		return figure.NotTested
	case v.d.Urgency == diag.NoAction && v.d.Proven:
		return v.soundMark(lead, v.storyMark(lead))
	case v.d.Urgency == diag.NoAction:
		return figure.NoMark
	}
	return v.storyMark(lead)
}

// underHeadline is what stands under the sentence: what is suspected first or
// what to make of it, how the rest is, and what else asks for something.
func (v *view) underHeadline() string {
	if v.workshop() { // a mechanic reads it in the findings
		return ""
	}
	lead := v.lead()
	parts := []string{v.makeOfIt()}
	if v.d.Urgency == diag.NoAction || lead == nil {
		return joined(" ", append(parts, v.testedWords())...)
	}
	if first := v.suspectedFirst(); first != "" {
		parts = append(parts, v.label("sub.suspected", "cause", first))
	}
	return joined(" ", append(parts, v.othersEven(lead), v.lessUrgent())...)
}

// makeOfIt is what to make of a verdict that no cause explains; nothing where
// the cause suspected first says it.
func (v *view) makeOfIt() string {
	return v.optional("sub."+v.d.Advice.Key, "", "rotary", v.rotors() != nil)
}

// firstSuspect is the likeliest cause of what leads the sheet, where the top of the
// page says it: the headline itself, or what follows it.
func (v *view) firstSuspect() string {
	lead := v.lead()
	if lead == nil || v.d.Urgency == diag.NoAction || len(lead.Causes) == 0 || v.makeOfIt() != "" {
		return ""
	}
	return v.saidOf(lead).Causes[0]
}

// suspectedFirst is the first suspect where the headline is not that already.
func (v *view) suspectedFirst() string {
	first := v.firstSuspect()
	if first == "" || toldBy(first, v.headline(), strings.Fields(v.label("linking"))...) {
		return ""
	}
	return first
}

// saidOf is a story in words, but for what is said once for all stories: which
// complaints they explain, and the next check.
func (v *view) saidOf(st *diag.Story) templates.SaidStory {
	said, known := v.said[st]
	if !known {
		bare := *st
		bare.Explains, bare.Next, bare.Members = nil, nil, v.notTitles(st)
		var err error
		said, err = v.words.Story(bare, v.sheet.Audience)
		v.keep("", err)
		v.said[st] = said
	}
	return said
}

// notTitles are a story's findings but for those that say what another story on
// the page has for its title.
func (v *view) notTitles(st *diag.Story) []diag.Finding {
	if len(st.Members) < 2 {
		return st.Members
	}
	var titles []string
	for i := range v.d.Stories {
		if o := &v.d.Stories[i]; o != st && len(o.Members) > 0 {
			titles = append(titles, v.saysOf(&o.Members[0]))
		}
	}
	kept := slices.Clone(st.Members[:1])
	for i := 1; i < len(st.Members); i++ {
		if f := &st.Members[i]; !slices.Contains(titles, v.saysOf(f)) {
			kept = append(kept, *f)
		}
	}
	return kept
}

// saysOf is what a finding says was seen.
func (v *view) saysOf(f *diag.Finding) string {
	says, known := v.titles[f]
	if !known {
		bare := *f
		bare.Causes, bare.Against, bare.Doubts, bare.Next = nil, nil, nil, nil
		said, err := v.words.Finding(bare, v.sheet.Audience)
		v.keep("", err)
		says = said.Says
		v.titles[f] = says
	}
	return says
}

// othersEven says that all cylinders but those of the leading story are even,
// where they are.
func (v *view) othersEven(lead *diag.Story) string {
	c := v.compression()
	if c == nil || lead.About != diag.AboutCylinders || !c.Complete {
		return ""
	}
	others := 0
	for _, r := range c.Cylinders {
		if slices.Contains(lead.Cylinders, r.Name) {
			if r.Grade == diag.Even || r.Grade == diag.High && !v.clearsMinimum() { // they are as even as the others; these may be the low ones
				return ""
			}
			continue
		}
		if r.Grade != diag.Even {
			return ""
		}
		others++
	}
	if others == 0 || v.askedElsewhere(lead) || others == 1 && v.askedOfAll(len(c.Cylinders)) {
		return ""
	}
	return v.label("sub.others-even", "count", others)
}

// clearsMinimum reports pressures that keep a stated minimum.
func (v *view) clearsMinimum() bool {
	return slices.ContainsFunc(v.compression().Limits, func(l diag.LimitResult) bool {
		return l.Rule == string(diag.Minimum) && l.Verdict == diag.Within
	})
}

// askedElsewhere reports another story on cylinders that asks for something.
func (v *view) askedElsewhere(lead *diag.Story) bool {
	return slices.ContainsFunc(v.d.Stories, func(s diag.Story) bool {
		return s.About == diag.AboutCylinders && s.Urgency != diag.NoAction && !slices.Equal(s.Cylinders, lead.Cylinders)
	})
}

// askedOfAll reports something found of every cylinder: where all read low nobody says of the
// other one that it does not.
func (v *view) askedOfAll(count int) bool {
	return slices.ContainsFunc(v.d.Findings, func(f diag.Finding) bool {
		return f.Urgency != diag.NoAction && len(f.Cylinders) == count
	})
}

// lessUrgent names what asks for something later than what leads the sheet.
func (v *view) lessUrgent() string {
	var about, found, cylinders diag.Names
	add := func(to *diag.Names, name string) {
		if !slices.Contains(*to, name) {
			*to = append(*to, name)
		}
	}
	for i := range v.d.Stories {
		switch s := &v.d.Stories[i]; {
		case s.Urgency == diag.NoAction || s.Urgency == v.d.Urgency:
		case s.About == diag.AboutCylinders && s.Found.Key == "": // of several stories, in one list
			for _, name := range s.Cylinders {
				add(&cylinders, name)
			}
		case s.Found.Key == "":
			add(&about, v.aboutWords(s))
		default: // what it found tells more, in a sentence of its own
			add(&found, v.keep(v.words.Found(s.Found, v.sheet.Audience)))
		}
	}
	if len(cylinders) > 0 {
		about = append(diag.Names{v.cylinderWords(v.inOrder(cylinders))}, about...)
	}
	if len(about)+len(found) == 0 {
		return ""
	}
	return v.label("sub.less-urgent", "about", about, "found", found)
}

// aboutWords name what a story is about: "cylinders 3 and 5".
func (v *view) aboutWords(s *diag.Story) string {
	if s.About == diag.AboutCylinders {
		return v.cylinderWords(s.Cylinders)
	}
	if s.About == diag.AboutSystem {
		return v.label("system." + diag.SystemKey(s.System, s.Part))
	}
	circuit := s.Circuit
	if circuit == "" && len(s.Members) > 0 {
		circuit = s.Members[0].Circuit
	}
	return v.label("about."+string(s.About), "circuit", circuit)
}

// testedWords name the tests that were made and those that were not.
func (v *view) testedWords() string {
	var made, missing diag.Names
	for _, r := range v.results() {
		name := v.label("kind." + r.test)
		switch r.state {
		case diag.Tested:
			made = append(made, name)
		case diag.NotApplicable:
		default:
			missing = append(missing, name)
		}
	}
	if len(made) == 0 || v.hasBlock("results") || v.hasBlock("tested") { // which name them
		return ""
	}
	return v.label("sub.tested", "made", append(made, v.furtherMade()...), "missing", missing)
}

// furtherMade names the further tests that were made; more than three by their
// number.
func (v *view) furtherMade() diag.Names {
	var made diag.Names
	for i := range v.d.Measured {
		if r := &v.d.Measured[i]; r.State == diag.Tested {
			made = append(made, v.label("kind."+r.Name))
		}
	}
	if len(made) > 3 {
		return diag.Names{v.label("sub.further", "count", len(made))}
	}
	return made
}

// sureBecause says why a story is as sure as it is: what makes it doubtful,
// else which kinds of test agree.
func (v *view) sureBecause(st *diag.Story) string {
	doubts := v.saidOf(st).Doubts
	if len(doubts) > 0 && st.Confidence != diag.Strong {
		return onPage(strings.Join(doubts, "; "))
	}
	if st.About == diag.AboutTest {
		return v.label("sure.why.test")
	}
	kinds, alone := v.kindsFor(st), v.oneKind(st)
	switch {
	case len(st.SoundBy) > 0 && st.Confidence == diag.Strong:
		for _, kind := range st.SoundBy {
			if said := v.optional("kind."+kind, ""); said != "" {
				kinds = append(kinds, said)
			}
		}
	case st.Urgency == diag.NoAction:
		kinds = v.kindsWithin()
		alone = len(kinds) == v.testsMade()
		if len(kinds) == 1 && !alone { // what has no limit says its part as well
			kinds = nil
		}
	}
	return v.label("sure.why."+string(st.Confidence), "kinds", kinds, "alone", alone)
}

// oneKind reports a story of which one kind of test alone speaks for any cause.
func (v *view) oneKind(st *diag.Story) bool {
	kinds := map[string]bool{}
	for _, e := range st.Ledger {
		if e.Weight > 0 && v.kindOf(e) != "" {
			kinds[v.kindOf(e)] = true
		}
	}
	return len(kinds) == 1
}

// kindOf is the kind of test of an entry: of a test that reads many things the one that its
// rule goes by.
func (v *view) kindOf(e diag.Entry) string {
	return v.optional("kind."+e.Kind+" "+e.By, v.optional("kind."+e.Kind, ""))
}

// testsMade counts the tests of the job that were made.
func (v *view) testsMade() int {
	n := 0
	for _, r := range v.results() {
		if r.state == diag.Tested {
			n++
		}
	}
	return n
}

// kindsFor are the kinds of test that speak for the cause a story has first.
func (v *view) kindsFor(st *diag.Story) diag.Names {
	var kinds diag.Names
	for _, e := range st.Ledger {
		if len(st.Causes) == 0 || e.Cause != st.Causes[0].Key || e.Weight <= 0 {
			continue
		}
		if kind := v.kindOf(e); kind != "" && !slices.Contains(kinds, kind) {
			kinds = append(kinds, kind)
		}
	}
	return kinds
}

// kindsWithin are the tests that came out within.
func (v *view) kindsWithin() diag.Names {
	var kinds diag.Names
	for _, r := range v.results() {
		if r.mark == figure.Within {
			kinds = append(kinds, v.label("kind."+r.test))
		}
	}
	return kinds
}

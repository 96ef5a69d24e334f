package sheet

import (
	"slices"
	"strings"
	"unicode"

	"gaugesheet/diag"
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
		Lead:  figure.FindingWords{Sure: v.label("finding.sure"), Against: v.label("finding.against"), Rule: v.label("finding.rule"), Also: v.label("finding.also")},
		More:  v.findingsLeft,
	}
	if v.workshop() {
		d.Least = 3
	}
	for i := range v.d.Stories {
		d.Items = append(d.Items, v.story(i))
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
	return v.label(where, "findings", o.Findings, "reasons", o.Reasons, "suspected", o.Suspected, "doubts", o.Doubts)
}

// story is a story as the block of findings has it. What the top of the page
// says of the story that leads it is not said here again.
func (v *view) story(i int) figure.Finding {
	st := &v.d.Stories[i]
	said := v.saidOf(st)
	explains := ""
	if len(st.Explains) > 0 {
		explains = v.explainsWords(st.Explains)
	}
	item := figure.Finding{
		Short:     st.Urgency == diag.NoAction,
		Mark:      v.storyMark(st),
		Says:      v.title(st, said.Says, i == v.d.Lead),
		Urgency:   v.urgencyWords(st),
		Because:   joined(" ", v.once(v.forOwner(strings.TrimSuffix(said.Because, said.Beside))), explains, v.once(v.forOwner(said.Beside))),
		Suspected: v.once(v.suspectedWords(said.Causes, i == v.d.Lead)),
		Against:   onPage(ended(strings.Join(said.Against, "; "))),
		Sure:      v.sureOf(st, said.Doubts),
	}
	item.Quotes = len(quotes(st)) > 0
	if st.Urgency == diag.NoAction {
		item.Mark = v.soundMark(st, item.Mark)
	}
	if v.workshop() && len(st.Members) > 0 {
		item.Rule = st.Members[0].Rule
	}
	return item
}

// quotes gives what the technician saw as far as the finding that leads a story
// has it, word for word.
func quotes(st *diag.Story) []string {
	if len(st.Members) == 0 {
		return nil
	}
	seen, _ := st.Members[0].Facts["found"].(diag.Names)
	return seen
}

// quoted reports words that one of the stories quotes.
func (v *view) quoted(seen string) bool {
	return slices.ContainsFunc(v.d.Stories, func(st diag.Story) bool { return slices.Contains(quotes(&st), seen) })
}

// soundMark is the symbol of a story that asks for nothing: a tick needs a
// reason, and readings that are not too close to their limits to say so.
func (v *view) soundMark(st *diag.Story, found figure.Mark) figure.Mark {
	switch {
	case found == figure.TooClose:
		return figure.TooClose
	case st.Sound, v.systemWithin(st.System):
		return figure.Within
	}
	return figure.NoMark
}

// systemWithin reports a further test with limits, all of which it kept.
func (v *view) systemWithin(system string) bool {
	kept := 0
	for i := range v.d.Measured {
		if v.d.Measured[i].Name != system {
			continue
		}
		for _, m := range v.d.Measured[i].Readings {
			if m.Limited() && m.Verdict != diag.Within {
				return false
			}
			if m.Limited() {
				kept++
			}
		}
	}
	return kept > 0
}

// title is what a story begins with: what was seen, or where the headline has
// told that already, what the story is about.
func (v *view) title(st *diag.Story, says string, leads bool) string {
	if leads && !v.workshop() && toldBy(says, v.headline()) {
		says = capital(v.subjectWords(st))
	}
	says = onPage(says)
	switch {
	case v.urgencyWords(st) == "":
		return ended(says)
	case strings.Contains(says, ":"):
		return says + ";"
	}
	return says + ":"
}

// subjectWords are what the reasons of a story speak of: the cylinders of the finding that
// leads it, who may be some of the story's, else what it is about.
func (v *view) subjectWords(st *diag.Story) string {
	var on []string
	if len(st.Members) > 0 {
		on = st.Members[0].Cylinders
	}
	switch {
	case st.About == diag.AboutCylinders && len(on) > 0, st.About == diag.AboutEngine && len(on) > 0 && len(on) < len(v.names()):
		return v.cylinderWords(on)
	case st.About == diag.AboutEngine && v.ofCylindersAlike(st):
		return v.label("about.all", "single", len(v.names()) == 1)
	}
	return v.aboutWords(st)
}

// ofCylindersAlike reports a story of the whole engine that its cylinders' own readings
// tell, and no noise or gauge beside them.
func (v *view) ofCylindersAlike(st *diag.Story) bool {
	if v.compression() == nil || len(st.Members) == 0 {
		return false
	}
	return len(st.Ledger) == 0 || slices.ContainsFunc(st.Ledger, func(e diag.Entry) bool {
		return e.By == st.Members[0].Rule && (e.Kind == "compression" || e.Kind == "leakage")
	})
}

// toldBy reports that another sentence has told nearly all that one tells: the
// beginnings of three in four of its longer words, but for some that tell nothing, and
// every number.
func toldBy(says, other string, nothing ...string) bool {
	beginnings := func(s string, but []string) []string {
		var all []string
		for _, word := range strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }) {
			if runes := []rune(word); !slices.Contains(but, word) && (len(runes) > 3 || unicode.IsDigit(runes[0])) {
				all = append(all, string(runes[:min(4, len(runes))]))
			}
		}
		return all
	}
	told, words, missing := beginnings(other, nil), beginnings(says, nothing), 0
	for _, w := range words {
		if slices.Contains(told, w) {
			continue
		}
		if missing++; unicode.IsDigit([]rune(w)[0]) {
			return false
		}
	}
	return 4*missing <= len(words)
}

// urgencyWords run on from what was seen; nothing where an owner has nothing
// to do.
func (v *view) urgencyWords(st *diag.Story) string {
	if st.Urgency == diag.NoAction && !v.workshop() {
		return ""
	}
	said := v.urgency(st.Urgency)
	if st.Repair != "" { // no check is left to wait for
		said = v.optional("urgency.repair."+string(st.Urgency), said)
	}
	return together(ended(said))
}

// explainsWords say which complaints a story can explain, in short where
// another story on the page can explain the same, and in notes for a mechanic.
func (v *view) explainsWords(complaints []string) string {
	said := make(diag.Names, len(complaints))
	for i, c := range complaints {
		text, err := v.words.Complaint(c)
		said[i] = v.keep(text, err)
	}
	if v.workshop() {
		return v.label("story.explains-notes", "complaints", said)
	}
	full := v.label("story.explains", "complaints", said)
	if v.once(full) == "" {
		return v.label("story.explains-too")
	}
	return full
}

// suspectedWords are a story's causes in order, but for the first one of what
// leads the sheet, which the headline is followed by.
func (v *view) suspectedWords(causes []string, leads bool) string {
	if most := v.sheet.Suspects; most > 0 {
		causes = causes[:min(most, len(causes))]
	}
	causes = allOnPage(causes)
	switch {
	case leads && !v.workshop() && v.firstSuspect() != "" && len(causes) > 0:
		if len(causes) == 1 {
			return ""
		}
		return v.label("finding.suspected-next", "causes", diag.Names(causes[1:]))
	case len(causes) == 0:
		return ""
	}
	return v.label("finding.suspected", "first", causes[0], "then", diag.Names(causes[1:]))
}

// sureOf says how sure a story is, where the top of the page does not.
func (v *view) sureOf(st *diag.Story, doubts []string) string {
	lead := v.lead()
	switch {
	case st.Confidence == "", st.Urgency == diag.NoAction && len(doubts) == 0:
		return ""
	case v.workshop():
	case st.Urgency == diag.NoAction, st == lead, lead != nil && lead.Confidence == st.Confidence && v.sureBecause(lead) == v.sureBecause(st):
		return ""
	}
	if len(doubts) == 0 {
		return v.once(v.label("sure.alone", "sure", v.confidence(st.Confidence), "why", v.sureBecause(st)))
	}
	why := v.once(onPage(strings.Join(doubts, "; ")))
	return v.label("sure.alone", "sure", v.confidence(st.Confidence), "why", why)
}

// ended is a text with a full stop.
func ended(s string) string {
	if s == "" || strings.ContainsAny(s[len(s)-1:], ".!?") {
		return s
	}
	return s + "."
}

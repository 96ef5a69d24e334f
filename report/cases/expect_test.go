package cases_test

import (
	"fmt"
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/rule"
	"gaugesheet/templates"
)

// expectations are the verbs of a case's head. Each returns what is wrong, ""
// where nothing is.
var expectations = map[string]func(*outcome, string) string{
	"must":    (*outcome).must,
	"never":   (*outcome).never,
	"first":   (*outcome).first,
	"before":  (*outcome).before,
	"grade":   (*outcome).grade,
	"urgency": (*outcome).urgency,
	"sure":    (*outcome).sure,
	"causes":  (*outcome).causes,
	"without": (*outcome).without,
	"next":    (*outcome).next,
	"do":      (*outcome).do,
	"verdict": (*outcome).verdict,
	"limit":   (*outcome).limit,
	"read":    (*outcome).read,
	"caution": (*outcome).caution,
	"repair":  (*outcome).repair,
	"within":  (*outcome).within,
	"apart":   (*outcome).apart,
	"advice":  (*outcome).advice,
	"after":   (*outcome).after,
}

// said lists all findings, those folded into a combination too.
func (k *outcome) said() []diag.Finding { return slices.Concat(k.d.Findings, k.d.Folded) }

// finding is the first finding of a rule (and variant, after a slash).
func (k *outcome) finding(name string) *diag.Finding {
	ruleName, variant, hasVariant := strings.Cut(name, "/")
	for _, f := range k.said() {
		if f.Rule == ruleName && (!hasVariant || f.Variant == variant) {
			return &f
		}
	}
	return nil
}

func (k *outcome) notice(name string) *diag.Notice {
	ruleName, variant, hasVariant := strings.Cut(name, "/")
	for _, n := range k.d.Notices {
		if n.Rule == ruleName && (!hasVariant || n.Variant == variant) {
			return &n
		}
	}
	return nil
}

// advice KEY: the line under the sentence of the sheet.
func (k *outcome) advice(rest string) string {
	if k.d.Advice.Key != rest {
		return fmt.Sprintf("the line under the verdict is %q", k.d.Advice.Key)
	}
	return ""
}

// repair KEY: the work that the first story ends in.
func (k *outcome) repair(rest string) string {
	if len(k.d.Stories) == 0 || k.d.Stories[0].Repair != rest {
		return "another repair"
	}
	return ""
}

// leads is the rule that leads the story in which a finding is told.
func (k *outcome) leads(name string) string {
	unknownRule(k, name)
	for _, s := range k.d.Stories {
		if slices.ContainsFunc(s.Members, func(f diag.Finding) bool { return f.Rule == name }) {
			return s.Members[0].Rule
		}
	}
	return "none"
}

// within RULE RULE: the first is told in the story that the second leads.
func (k *outcome) within(rest string) string {
	name, by, _ := strings.Cut(rest, " ")
	if led := k.leads(name); led != by {
		return "in that of " + led
	}
	return ""
}

// apart RULE: it leads a story of its own.
func (k *outcome) apart(name string) string { return k.within(name + " " + name) }

// must RULE [CYLINDER, CYLINDER ...]: found, on just these cylinders.
func (k *outcome) must(rest string) string {
	name, cylinders, _ := strings.Cut(rest, " ")
	unknownRule(k, name)
	var found []string
	for _, f := range k.said() {
		if f.Rule == name || f.Rule+"/"+f.Variant == name {
			found = append(found, strings.Join(f.Cylinders, ", "))
		}
	}
	for _, n := range k.d.Notices {
		if n.Rule == name || n.Rule+"/"+n.Variant == name {
			found = append(found, strings.Join(n.Cylinders, ", "))
		}
	}
	switch {
	case len(found) == 0:
		return "not found"
	case cylinders != "" && !slices.Contains(found, cylinders):
		return fmt.Sprintf("found on %q", found)
	}
	return ""
}

// do [not] WORDS: the next check, or what it may show, says these to both readers, or to neither.
func (k *outcome) do(rest string) string {
	rest, not := strings.CutPrefix(rest, "not ")
	words, err := templates.Words("en")
	if err != nil || k.d.Next == nil {
		return fmt.Sprintf("no next check, %v", err)
	}
	for _, reader := range []templates.Audience{templates.Customer, templates.Workshop} {
		said, err := words.Of(k.d.Chambers).Check(*k.d.Next, reader)
		all := said.Do
		for _, o := range said.Outcomes {
			all += " | " + o.If + ": " + o.Then
		}
		if err != nil || strings.Contains(all, rest) == not {
			return fmt.Sprintf("%q, %v", all, err)
		}
	}
	return ""
}

// after OUTCOME: [not] CHECK or CHECK, none: what the plan has come next after an outcome of
// the next check; "left CAUSE" in their place for the cause that is told to be left.
func (k *outcome) after(rest string) string {
	name, wanted, _ := strings.Cut(rest, ": ")
	if len(k.d.Plan) == 0 {
		return "no plan"
	}
	for _, lead := range k.d.Plan[0].Leads {
		if lead.Outcome != name {
			continue
		}
		if left, is := strings.CutPrefix(wanted, "left "); is {
			if !lead.Left && left != "none" || lead.Left && lead.Cause != left {
				return fmt.Sprintf("left %v %s", lead.Left, lead.Cause)
			}
			return ""
		}
		next := "none"
		if lead.Next != nil {
			next = lead.Next.Key
		}
		wanted, not := strings.CutPrefix(wanted, "not ")
		if slices.Contains(strings.Split(wanted, " or "), next) == not {
			return next
		}
		return ""
	}
	return "no such outcome"
}

func unknownRule(k *outcome, name string) {
	name, _, _ = strings.Cut(name, "/")
	if rule.Named(name) == nil {
		k.Errorf("no rule is called %q", name)
	}
}

// never RULE ...: none of them found, as finding or notice.
func (k *outcome) never(rest string) string {
	var found []string
	for _, name := range strings.Fields(rest) {
		unknownRule(k, name)
		if k.finding(name) != nil || k.notice(name) != nil {
			found = append(found, name)
		}
	}
	if len(found) > 0 {
		return "found " + strings.Join(found, ", ")
	}
	return ""
}

// first RULE: leads the findings.
func (k *outcome) first(name string) string {
	unknownRule(k, name)
	if len(k.d.Findings) == 0 {
		return "no finding"
	}
	if got := k.d.Findings[0].Rule; got != name {
		return "led by " + got
	}
	return ""
}

// before RULE RULE: the one is said before the other.
func (k *outcome) before(rest string) string {
	names := strings.Fields(rest)
	place := func(name string) int {
		unknownRule(k, name)
		return slices.IndexFunc(k.d.Findings, func(f diag.Finding) bool { return f.Rule == name })
	}
	if a, b := place(names[0]), place(names[1]); a < 0 || b < 0 || a >= b {
		return fmt.Sprintf("at %d and %d", a, b)
	}
	return ""
}

// grade CYLINDER GRADE.
func (k *outcome) grade(rest string) string {
	cylinder, want, _ := strings.Cut(rest, " ")
	if k.d.Compression == nil || k.d.Compression.Cylinder(cylinder) == nil {
		return "no such cylinder"
	}
	if got := k.d.Compression.Cylinder(cylinder).Grade; string(got) != want {
		return "graded " + string(got)
	}
	return ""
}

// urgency [RULE] is|at most|at least URGENCY: of a finding, or of the sheet.
func (k *outcome) urgency(rest string) string {
	got := k.d.Urgency
	if name, more, _ := strings.Cut(rest, " "); name != "is" && name != "at" {
		f := k.finding(name)
		if f == nil {
			return "not found"
		}
		got, rest = f.Urgency, more
	}
	wrong := true
	for _, how := range []string{"is", "at most", "at least"} {
		text, ok := strings.CutPrefix(rest, how+" ")
		if !ok {
			continue
		}
		want := diag.Urgency(text)
		if want.Rank() == 0 && want != diag.NoAction {
			return "no such urgency"
		}
		switch how {
		case "is":
			wrong = got != want
		case "at most":
			wrong = got.Rank() > want.Rank()
		case "at least":
			wrong = got.Rank() < want.Rank()
		}
	}
	if wrong {
		return string(got)
	}
	return ""
}

// sure RULE CONFIDENCE.
func (k *outcome) sure(rest string) string {
	name, want, _ := strings.Cut(rest, " ")
	switch f := k.finding(name); {
	case f == nil:
		return "not found"
	case string(f.Confidence) != want:
		return string(f.Confidence)
	}
	return ""
}

func keys(phrases []diag.Phrase) []string {
	list := make([]string, len(phrases))
	for i, p := range phrases {
		list[i] = p.Key
	}
	return list
}

// causes RULE CAUSE ...: the first of its causes, in this order.
func (k *outcome) causes(rest string) string {
	want := strings.Fields(rest)
	f := k.finding(want[0])
	if f == nil {
		return "not found"
	}
	got := keys(f.Causes)
	if want = want[1:]; len(got) < len(want) || !slices.Equal(got[:len(want)], want) {
		return strings.Join(got, ", ")
	}
	return ""
}

// without RULE CAUSE ...: none of these among its causes.
func (k *outcome) without(rest string) string {
	names := strings.Fields(rest)
	f := k.finding(names[0])
	if f == nil {
		return "not found"
	}
	for _, cause := range keys(f.Causes) {
		if slices.Contains(names[1:], cause) {
			return strings.Join(keys(f.Causes), ", ")
		}
	}
	return ""
}

// next CHECK or CHECK ..., next none, next not CHECK ...: the one next check.
func (k *outcome) next(rest string) string {
	got := "none"
	if k.d.Next != nil {
		got = k.d.Next.Key
	}
	if unwanted, ok := strings.CutPrefix(rest, "not "); ok {
		if slices.Contains(strings.Fields(unwanted), got) {
			return got
		}
		return ""
	}
	if !slices.Contains(strings.Split(rest, " or "), got) {
		return got
	}
	return ""
}

// caution KEY ...: each of these is on the sheet; caution not KEY ...: none is.
func (k *outcome) caution(rest string) string {
	keys, unwanted := strings.CutPrefix(rest, "not ")
	var wrong []string
	for _, key := range strings.Fields(keys) {
		if slices.Contains(k.d.Cautions, key) == unwanted {
			wrong = append(wrong, key)
		}
	}
	if len(wrong) == 0 {
		return ""
	}
	return strings.Join(wrong, ", ") + " of " + strings.Join(k.d.Cautions, ", ")
}

// verdict KEY or KEY ...: the name of the sheet's sentence.
func (k *outcome) verdict(rest string) string {
	if !slices.Contains(strings.Split(rest, " or "), k.d.Verdict.Key) {
		return k.d.Verdict.Key
	}
	return ""
}

// limit RULE: VERDICT.
func (k *outcome) limit(rest string) string {
	name, want, _ := strings.Cut(rest, ": ")
	var limits []diag.LimitResult
	if k.d.Compression != nil {
		limits = append(limits, k.d.Compression.Limits...)
	}
	if k.d.Rotors != nil {
		limits = append(limits, k.d.Rotors.Limits...)
	}
	for _, l := range limits {
		if l.Rule == name {
			if string(l.Verdict) != want {
				return string(l.Verdict)
			}
			return ""
		}
	}
	return "no such limit"
}

// read COUNT: how many cylinders' compression was read.
func (k *outcome) read(rest string) string {
	if k.d.Compression == nil {
		return "no compression"
	}
	if got := fmt.Sprint(k.d.Compression.N); got != rest {
		return got
	}
	return ""
}

// Package cases_test reads whole job files of the kind that shops write and
// checks what is said of them: what must be found, what must not, in which
// order and how sure. Each job in testdata states in its head what it teaches
// and what is expected of it; see README.md for how that is written.
package cases_test

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"gaugesheet/diag"
	"gaugesheet/diag/rule"
	"gaugesheet/report/job"
	"gaugesheet/templates"
)

func TestCases(t *testing.T) {
	files, err := filepath.Glob("testdata/*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatalf("no cases: %v", err)
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".yaml"), func(t *testing.T) {
			text, j := readCase(t, file)
			k := &outcome{T: t, d: rule.Diagnose(j.Test()), test: j.Test()}
			expectations := 0
			for line := range strings.Lines(text) {
				if expected, ok := strings.CutPrefix(line, "#> "); ok {
					k.expect(strings.TrimSpace(expected))
					expectations++
				}
			}
			if expectations == 0 {
				t.Error("nothing is expected of this case")
			}
			k.alwaysTrue()
			if t.Failed() {
				t.Log(k.summary())
			}
		})
	}
}

func readCase(t testing.TB, file string) (string, *job.Job) {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	beside := func(name string) ([]byte, error) { return os.ReadFile(filepath.Join(filepath.Dir(file), name)) }
	j, problems := job.Read(file, data, beside)
	if len(problems) > 0 {
		t.Fatalf("not readable: %v", problems)
	}
	return string(data), j
}

// An outcome is what was said of a case.
type outcome struct {
	*testing.T
	d    *diag.Diagnosis
	test *diag.Test
}

// expect checks one line of a case's head.
func (k *outcome) expect(line string) {
	verb, rest, _ := strings.Cut(line, " ")
	check, known := expectations[verb]
	if !known {
		k.Errorf("unknown expectation %q", line)
		return
	}
	if wrong := check(k, rest); wrong != "" {
		k.Errorf("%s: %s", line, wrong)
	}
}

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
	"verdict": (*outcome).verdict,
	"limit":   (*outcome).limit,
	"read":    (*outcome).read,
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

func unknownRule(k *outcome, name string) {
	name, _, _ = strings.Cut(name, "/")
	if !slices.ContainsFunc(rule.All(), func(r rule.Rule) bool { return r.Name == name }) {
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

// neverSaid are words that no sheet uses.
var neverSaid = []string{"is blown", "blown head gasket", "passed", "guarantee", "perfect", "safe to buy", "nil", "<no value>", "%!", "  ", ".."}

// startsSmall finds a sentence that does not begin with a capital or a number.
var startsSmall = regexp.MustCompile(`(^|[.?!] )[a-z]`)

// The longest that a finding may be for an owner, in letters.
const (
	longestSays    = 115
	longestBecause = 300
)

// forAnOwner checks that a finding is short and without the trade's shorthand.
func (k *outcome) forAnOwner(rule string, said templates.Said) {
	if len([]rune(said.Says)) > longestSays || len([]rune(said.Because)) > longestBecause {
		k.Errorf("%s is long: %d and %d letters: %s. %s", rule, len([]rune(said.Says)), len([]rune(said.Because)), said.Says, said.Because)
	}
	for _, unwanted := range []string{"\"", " U ", "leak-down", "cross-leak", "borescope", "phaser"} {
		if strings.Contains(said.Says+" "+said.Because, unwanted) {
			k.Errorf("%s says %q to an owner: %s. %s", rule, unwanted, said.Says, said.Because)
		}
	}
}

// alwaysTrue checks what holds for every case: all of it can be said to both
// readers, causes are ranked and few, and no check proposes what was done.
func (k *outcome) alwaysTrue() {
	words, err := templates.Words("en")
	if err != nil {
		k.Fatal(err)
	}
	say := func(text string, err error) {
		if err != nil {
			k.Error(err)
		}
		for _, unwanted := range neverSaid {
			if strings.Contains(text, unwanted) {
				k.Errorf("%q in %q", unwanted, text)
			}
		}
		if small := startsSmall.FindString(text); small != "" {
			k.Errorf("%q begins a sentence with a small letter: %q", small, text)
		}
	}
	for _, reader := range []templates.Audience{templates.Customer, templates.Workshop} {
		for _, f := range k.said() {
			said, err := words.Finding(f, reader)
			say(said.Says, err)
			say(said.Because, nil)
			if reader == templates.Customer {
				k.forAnOwner(f.Rule, said)
			}
		}
		for _, n := range k.d.Notices {
			say(words.Notice(n, reader))
		}
		say(words.Verdict(k.d.Verdict, reader))
		if k.d.Advice.Key != "" {
			say(words.Verdict(k.d.Advice, reader))
		}
		if k.d.Next != nil {
			said, err := words.Check(*k.d.Next, reader)
			say(said.Do, err)
		}
	}
	for _, f := range k.said() {
		k.proposesNothingDone(f.Next)
		causes := keys(f.Causes)
		if slices.Sort(causes); len(causes) > 3 || len(slices.Compact(causes)) != len(f.Causes) {
			k.Errorf("%s: causes %v", f.Rule, keys(f.Causes))
		}
		if slices.Equal(causes, []string{"head-gasket"}) {
			k.Errorf("%s names the gasket alone", f.Rule)
		}
	}
	k.proposesNothingDone(k.d.Next)
}

// proposesNothingDone checks that a proposed check was not made already, by
// the readings of the job on the cylinders that it is for.
func (k *outcome) proposesNothingDone(check *diag.Check) {
	if check == nil {
		return
	}
	cylinders, _ := check.Facts["Cylinders"].(diag.Names)
	made := map[string]func(string) bool{
		"wet-test":  func(n string) bool { return k.test.Compression != nil && len(k.test.Compression.Wet[n].Values) > 0 },
		"leak-down": func(n string) bool { return k.test.Leakage != nil && len(k.test.Leakage.Dry[n].Values) > 0 },
		"borescope": func(n string) bool { return k.test.Borescope[n] != "" },
	}
	made["leak-down-pair"] = made["leak-down"]
	if on := made[check.Key]; on != nil && len(cylinders) > 0 && !slices.ContainsFunc(cylinders, func(n string) bool { return !on(n) }) {
		k.Errorf("%s is proposed on %v, where it was made", check.Key, cylinders)
	}
	if check.Key == "coolant-gas-test" && (k.test.CoolantGas == "positive" || k.test.CoolantGas == "negative") {
		k.Error("the coolant gas test is proposed again")
	}
	if (k.test.Spec.Diesel() || k.test.Spec.TwoStroke) && check.Key == "wet-test" {
		k.Error("a wet test is proposed on a diesel or a two-stroke")
	}
}

// summary tells what was said, for a case that failed.
func (k *outcome) summary() string {
	var b strings.Builder
	words, err := templates.Words("en")
	if err != nil {
		return err.Error()
	}
	sentence, _ := words.Verdict(k.d.Verdict, templates.Customer)
	advice, _ := words.Verdict(k.d.Advice, templates.Customer)
	fmt.Fprintf(&b, "%s: %s\n  %s: %s\n  %s\n", k.d.Verdict.Key, sentence, k.d.Advice.Key, advice, k.d.Urgency)
	for _, n := range k.d.Notices {
		text, _ := words.Notice(n, templates.Customer)
		fmt.Fprintf(&b, "  notice %s/%s %v: %s\n", n.Rule, n.Variant, n.Cylinders, text)
	}
	for _, f := range k.said() {
		said, _ := words.Finding(f, templates.Customer)
		next := ""
		if f.Next != nil {
			next = f.Next.Key
		}
		fmt.Fprintf(&b, "  %s/%s %v, %s, %s; causes %v against %v doubts %v next %q said by %q\n      %s. %s\n", f.Rule, f.Variant, f.Cylinders, f.Urgency, f.Confidence,
			keys(f.Causes), keys(f.Against), keys(f.Doubts), next, f.SaidBy, said.Says, said.Because)
	}
	if k.d.Next != nil {
		check, _ := words.Check(*k.d.Next, templates.Customer)
		fmt.Fprintf(&b, "  next %s: %s\n", k.d.Next.Key, check.Do)
	}
	return b.String()
}

// TestFast keeps a diagnosis fast enough to run a folder of jobs in a blink.
func TestFast(t *testing.T) {
	files, _ := filepath.Glob("testdata/*.yaml")
	var tests []*diag.Test
	for _, file := range files {
		_, j := readCase(t, file)
		tests = append(tests, j.Test())
	}
	best := time.Hour
	for range 5 {
		began := time.Now()
		for _, test := range tests {
			rule.Diagnose(test)
		}
		best = min(best, time.Since(began)/time.Duration(len(tests)))
	}
	if limit := time.Millisecond; best > limit {
		t.Errorf("a diagnosis takes %v on average, more than %v", best, limit)
	}
}

// Package cases_test reads whole job files of the kind that shops write and
// checks what is said of them (what must be found, what must not, in which order
// and how sure), and knows nothing of how it was found. Each job in testdata states in its head what it teaches
// and what is expected of it; see README.md for how that is written.
package cases_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/story"
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
			t.Parallel()
			text, j := readCase(t, file)
			k := &outcome{T: t, d: story.Diagnose(j.Test()), test: j.Test()}
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

// summary tells what was said, for a case that failed.
func (k *outcome) summary() string {
	var b strings.Builder
	words, err := templates.Words("en")
	if err != nil {
		return err.Error()
	}
	words = words.Of(k.d.Chambers)
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

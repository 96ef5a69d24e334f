package rule_test

import (
	"flag"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"gaugesheet/diag/rule"
)

var update = flag.Bool("update", false, "write RULES.md anew")

// document lists every rule as RULES.md has it.
func document() string {
	var b strings.Builder
	b.WriteString("# The rules\n\nMade from the rules themselves by `go test ./diag/rule -update`; `gaugesheet rules NAME` says the same.\n")
	for _, r := range rule.All() {
		fmt.Fprintf(&b, "\n## %s\n\n%s.\n\n%s\n\n- fires: %s\n- source: %s\n", r.Name, strings.TrimSuffix(r.Title, "."), r.Why, r.Trigger(), r.Source)
		if len(r.Needs) > 0 {
			var needs []string
			for _, n := range r.Needs {
				needs = append(needs, string(n))
			}
			fmt.Fprintf(&b, "- needs: %s\n", strings.Join(needs, ", "))
		}
		if better := slices.Concat(r.SaysBetterThan, r.InsteadOf); len(better) > 0 {
			fmt.Fprintf(&b, "- says better than: %s\n", strings.Join(better, ", "))
		}
		if len(r.Implies) > 0 {
			fmt.Fprintf(&b, "- implies: %s\n", strings.Join(r.Implies, ", "))
		}
	}
	return b.String()
}

func TestRulesDocument(t *testing.T) {
	want := document()
	if *update {
		if err := os.WriteFile("RULES.md", []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile("RULES.md")
	if err != nil {
		t.Fatal(err)
	}
	if string(got) != want {
		t.Error("RULES.md is not what the rules say; write it anew with go test ./diag/rule -update")
	}
}

// Where nobody can be named for what is common practice, the source says so.
func TestSourcesAreNamed(t *testing.T) {
	for _, r := range rule.All() {
		if r.Source == "" || strings.Count(r.Source, "common practice") != strings.Count(r.Source, "common practice, no source") {
			t.Errorf("%s: the source is %q; what is common practice is so with 'no source'", r.Name, r.Source)
		}
	}
}

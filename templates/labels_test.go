package templates_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/report/job"
)

// textsIn are all texts that stand in the program below some folders.
func textsIn(t *testing.T, folders ...string) map[string]bool {
	t.Helper()
	texts := map[string]bool{}
	add := func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
		if err != nil {
			return err
		}
		ast.Inspect(file, func(n ast.Node) bool {
			if lit, ok := n.(*ast.BasicLit); ok && lit.Kind == token.STRING {
				if text, err := strconv.Unquote(lit.Value); err == nil {
					texts[text] = true
				}
			}
			return true
		})
		return nil
	}
	for _, folder := range folders {
		if err := filepath.WalkDir(folder, add); err != nil {
			t.Fatal(err)
		}
	}
	return texts
}

// textsOf are the texts of all files that match.
func textsOf(t *testing.T, pattern string) string {
	t.Helper()
	files, err := filepath.Glob(pattern)
	if err != nil || len(files) == 0 {
		t.Fatal(pattern, err)
	}
	var all strings.Builder
	for _, f := range files {
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		all.Write(data)
	}
	return all.String()
}

var saidOfKind = regexp.MustCompile(`\b(?:say|says|known) \\?"([^"\\]+)\\?"`)

// TestEveryLabelIsSaid: a label is a text of the program or of a sheet, or a kind
// that the program or another word says ("grade.") and a word of the program
// ("very low"). What is left of words that nothing says any more fails here.
func TestEveryLabelIsSaid(t *testing.T) {
	c := words(t)
	texts := textsIn(t, "../diag", "../layout", "../report", ".")
	kinds := map[string]bool{}
	for text := range texts {
		if kind, _ := strings.CutSuffix(text, "."); kind != "" && !strings.ContainsAny(kind, "\n%") {
			kinds[kind+"."] = true
		}
		if strings.HasSuffix(text, "-") {
			kinds[text] = true
		}
	}
	for _, m := range saidOfKind.FindAllStringSubmatch(textsOf(t, "words/en/*.yaml"), -1) {
		kinds[m[1]+"."] = true
	}
	sheets := textsOf(t, "sheets/*.yaml")
	for _, key := range c.Keys("labels") {
		if texts[key] || strings.Contains(sheets, ": "+key+"\n") {
			continue
		}
		said := false
		for at := range key {
			said = said || kinds[key[:at]] && composed(texts, key[at:])
		}
		if !said {
			t.Errorf("nothing says the label %q", key)
		}
	}
}

// composed reports words of the program, or several put together.
func composed(texts map[string]bool, word string) bool {
	if texts[word] {
		return true
	}
	for at, r := range word {
		if strings.ContainsRune(" .-", r) && (texts[word[:at]] || texts[word[:at+1]]) && composed(texts, word[at+1:]) {
			return true
		}
	}
	return texts[strings.ReplaceAll(word, "-", " ")]
}

// TestEveryTestHasItsName: a notice on a reading names the test that it is of.
func TestEveryTestHasItsName(t *testing.T) {
	c := words(t)
	for _, name := range slices.Concat([]string{"compression", "rotors", "leakage", "plugs", "fuel-pressure", diag.OtherReadings}, job.MeasuredNames()) {
		if !c.Has("labels", "system."+name) {
			t.Errorf("no label system.%s", name)
		}
	}
}

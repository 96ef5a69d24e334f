package rule_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"gaugesheet/diag/rule"
)

// expects are the fields of a row that name rules which must fire.
var expects = map[string]bool{"fires": true, "gives": true, "Fires": true}

// TestEveryRuleHasARow: a rule that no invented engine is expected to fire is
// tested by nothing. The rows themselves are run by the tests of the families.
func TestEveryRuleHasARow(t *testing.T) {
	files, err := filepath.Glob("*_test.go")
	if err != nil {
		t.Fatal(err)
	}
	samples, err := filepath.Glob("sample/*.go")
	if err != nil {
		t.Fatal(err)
	}
	named := map[string]bool{}
	for _, name := range append(files, samples...) {
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(file, func(n ast.Node) bool {
			if field, ok := n.(*ast.KeyValueExpr); ok {
				if key, ok := field.Key.(*ast.Ident); ok && expects[key.Name] {
					namesIn(field.Value, named)
				}
			}
			return true
		})
	}
	for _, r := range rule.All() {
		if !named[r.Name] {
			t.Errorf("no row expects the rule %s to fire", r.Name)
		}
	}
}

// namesIn notes each word of the texts of an expression.
func namesIn(of ast.Node, named map[string]bool) {
	ast.Inspect(of, func(n ast.Node) bool {
		if lit, ok := n.(*ast.BasicLit); ok && lit.Kind == token.STRING {
			if text, err := strconv.Unquote(lit.Value); err == nil {
				for _, word := range strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(" ,;/:", r) }) {
					named[word] = true
				}
			}
		}
		return true
	})
}

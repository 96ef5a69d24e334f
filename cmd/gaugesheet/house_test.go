package main

import (
	"bytes"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// How long a file and a function may be. What is longer is more than one idea.
const (
	mostLines  = 420
	mostOfFunc = 50
)

// A file of the module, as far as its place in the house goes.
type file struct {
	name    string // from the module's folder
	folder  string
	test    bool
	imports []string
	doc     string
	lines   int
	long    []string // functions of more than mostOfFunc lines
}

// house reads every Go file of the module.
func house(t *testing.T) []file {
	t.Helper()
	var all []file
	root := filepath.Join("..", "..")
	err := filepath.WalkDir(root, func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || filepath.Ext(name) != ".go" {
			return err
		}
		text, err := os.ReadFile(name)
		if err != nil {
			return err
		}
		name, err = filepath.Rel(root, name)
		if err != nil {
			return err
		}
		all = append(all, fileOf(t, filepath.ToSlash(name), text))
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(all) < 100 {
		t.Fatalf("found %d Go files, expected the whole module", len(all))
	}
	return all
}

func fileOf(t *testing.T, name string, text []byte) file {
	t.Helper()
	set := token.NewFileSet()
	parsed, err := parser.ParseFile(set, name, text, parser.ParseComments)
	if err != nil {
		t.Fatal(err)
	}
	f := file{name: name, folder: path.Dir(name), test: strings.HasSuffix(name, "_test.go"), lines: bytes.Count(text, []byte("\n")), doc: parsed.Doc.Text()}
	for _, i := range parsed.Imports {
		f.imports = append(f.imports, strings.Trim(i.Path.Value, `"`))
	}
	for _, d := range parsed.Decls {
		if fn, ok := d.(*ast.FuncDecl); ok && !isData(fn) {
			if lines := set.Position(fn.End()).Line - set.Position(fn.Pos()).Line + 1; lines > mostOfFunc {
				f.long = append(f.long, fn.Name.Name)
			}
		}
	}
	return f
}

// isData reports a function that does nothing but give a table, after it has
// named what stands in it.
func isData(fn *ast.FuncDecl) bool {
	if fn.Body == nil || len(fn.Body.List) == 0 {
		return false
	}
	last := len(fn.Body.List) - 1
	for _, s := range fn.Body.List[:last] {
		if _, ok := s.(*ast.AssignStmt); !ok {
			return false
		}
	}
	back, ok := fn.Body.List[last].(*ast.ReturnStmt)
	if !ok || len(back.Results) != 1 {
		return false
	}
	_, ok = back.Results[0].(*ast.CompositeLit)
	return ok
}

// TestImportsRunDown: a package imports only what stands below it in the table
// of DEVELOPERS.md, every package stands there, and diag and layout keep to
// themselves.
func TestImportsRunDown(t *testing.T) {
	place := map[string]int{} // the row of a folder
	for i, row := range table(t, "| folder |") {
		for _, folder := range quoted(row[0]) {
			place[folder] = i
		}
	}
	at := func(folder string) (int, bool) {
		for ; folder != "."; folder = path.Dir(folder) {
			if i, ok := place[folder]; ok {
				return i, true
			}
		}
		return 0, false
	}
	for _, f := range house(t) {
		above, ok := at(f.folder)
		if !ok {
			t.Errorf("%s: %s does not stand in the table of DEVELOPERS.md", f.name, f.folder)
		}
		for _, i := range f.imports {
			folder, own := strings.CutPrefix(i, "gaugesheet/")
			if !own || f.test {
				continue
			}
			if below, _ := at(folder); below < above {
				t.Errorf("%s imports %s, which stands above it in DEVELOPERS.md", f.name, folder)
			}
			for _, apart := range []string{"diag", "layout"} {
				if within(f.folder, apart) && !within(folder, apart) {
					t.Errorf("%s imports %s, expected packages of %s alone", f.name, folder, apart)
				}
			}
		}
	}
}

func within(folder, root string) bool { return folder == root || strings.HasPrefix(folder, root+"/") }

// TestLibrariesStandBehindTheirDoors: a library is imported where the table of
// DEVELOPERS.md says, and nowhere else.
func TestLibrariesStandBehindTheirDoors(t *testing.T) {
	libraries := table(t, "| library |")
	for _, f := range house(t) {
		for _, i := range f.imports {
			if first, _, _ := strings.Cut(i, "/"); !strings.Contains(first, ".") || f.test {
				continue
			}
			known := slices.ContainsFunc(libraries, func(row []string) bool {
				named := slices.ContainsFunc(strings.FieldsFunc(row[0], func(c rune) bool { return c == ' ' || c == ',' }), func(name string) bool {
					return strings.Contains(name, "/") && strings.Contains(i, name)
				})
				return named && slices.Contains(quoted(row[2]), f.folder)
			})
			if !known {
				t.Errorf("%s imports %s, which DEVELOPERS.md does not have in %s", f.name, i, f.folder)
			}
		}
	}
}

// TestPackagesSayWhatTheyKnow: the first sentence of a package's comment says
// what it knows, or does not know.
func TestPackagesSayWhatTheyKnow(t *testing.T) {
	said := map[string]bool{}
	for _, f := range house(t) {
		first, _, _ := strings.Cut(strings.ReplaceAll(f.doc, "\n", " "), ". ")
		said[f.folder] = said[f.folder] || regexp.MustCompile(`\bknows?\b`).MatchString(first)
	}
	for folder, ok := range said {
		if !ok {
			t.Errorf("the first sentence of %s does not say what it knows", folder)
		}
	}
}

// TestNothingIsTooLong: files, and functions that are no table. Tests may take
// longer over one case after another.
func TestNothingIsTooLong(t *testing.T) {
	for _, f := range house(t) {
		if f.lines > mostLines {
			t.Errorf("%s has %d lines, expected %d at most", f.name, f.lines, mostLines)
		}
		if !f.test && len(f.long) > 0 {
			t.Errorf("%s: longer than %d lines: %s", f.name, mostOfFunc, strings.Join(f.long, ", "))
		}
	}
}

// table gives the rows of the table of DEVELOPERS.md whose head begins so.
func table(t *testing.T, head string) [][]string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "..", "DEVELOPERS.md"))
	if err != nil {
		t.Fatal(err)
	}
	var rows [][]string
	found := false
	for line := range strings.Lines(string(text)) {
		switch {
		case strings.HasPrefix(line, head):
			found = true
		case found && !strings.HasPrefix(line, "|"):
			return rows
		case found && !strings.HasPrefix(line, "|-"):
			rows = append(rows, strings.Split(strings.Trim(line, "|\n "), "|"))
		}
	}
	t.Fatalf("DEVELOPERS.md has no table that begins %q", head)
	return nil
}

// quoted gives what stands between backticks.
func quoted(text string) []string {
	var all []string
	for i, part := range strings.Split(text, "`") {
		if i%2 == 1 {
			all = append(all, part)
		}
	}
	return all
}

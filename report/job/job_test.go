package job

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "write the expected messages of testdata/err anew")

// beside opens the files that the jobs of a folder name.
func beside(folder string) Opener {
	return func(name string) ([]byte, error) { return os.ReadFile(filepath.Join(folder, filepath.FromSlash(name))) }
}

// latin stands in for the glyphs of a sheet's fonts.
func latin(c rune) bool {
	return c < 0x250 || strings.ContainsRune("–—’‘“”≥≤ΩΔ•…→№", c)
}

func yamlFiles(t testing.TB, folder string) []string {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(folder, "*.yaml"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no files in %s: %v", folder, err)
	}
	return files
}

func TestSoundFiles(t *testing.T) {
	for _, file := range yamlFiles(t, "testdata/ok") {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		j, problems := Reader{Open: beside("testdata/ok"), HasGlyph: latin}.Read(file, data)
		if len(problems) > 0 || j == nil {
			t.Errorf("%s:\n%v", file, problems)
		}
	}
}

// TestProblems compares everything that is said of the faulty files in
// testdata/err with the .out file beside each.
func TestProblems(t *testing.T) {
	for _, file := range yamlFiles(t, "testdata/err") {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		name := filepath.Base(file)
		j, problems := Reader{Open: beside("testdata/err"), HasGlyph: latin}.Read(name, data)
		if j != nil || len(problems) == 0 {
			t.Errorf("%s: read without a problem", file)
			continue
		}
		var b bytes.Buffer
		if err := problems.Print(&b, false); err != nil {
			t.Fatal(err)
		}
		checkWording(t, problems)
		out := strings.TrimSuffix(file, ".yaml") + ".out"
		if *update {
			if err := os.WriteFile(out, b.Bytes(), 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := os.ReadFile(out)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(string(want), b.String()); diff != "" {
			t.Errorf("%s (-want +got):\n%s", file, diff)
		}
	}
}

// checkWording holds every message to the rules that all of them follow.
func checkWording(t *testing.T, problems Problems) {
	t.Helper()
	for i, p := range problems {
		switch {
		case p.Line < 1 || p.Col < 1:
			t.Errorf("%v: no place", p)
		case strings.HasSuffix(p.Message, ".") && !strings.HasSuffix(p.Message, ".."):
			t.Errorf("%v: ends in a full stop", p)
		case strings.ContainsAny(p.Message+p.Hint, "\n\x1b\x07"):
			t.Errorf("%v: more than a line, or steers the terminal", p)
		case i > 0 && p.File == problems[i-1].File && (p.Line < problems[i-1].Line || p.Line == problems[i-1].Line && p.Col < problems[i-1].Col):
			t.Errorf("%v: out of order", p)
		}
		for _, q := range problems[:i] {
			if q.Error() == p.Error() {
				t.Errorf("%v: said twice", p)
			}
		}
	}
}

package job

import (
	"encoding/json"
	"io"
	"os"
	"path/filepath"
	"testing"

	"gaugesheet/report/budget"
)

// FuzzRead: no file makes the reader panic, hang, or give neither a job nor a
// problem, or take more time and memory than a file may, and what it reads can be
// written as JSON.
func FuzzRead(f *testing.F) {
	for _, pattern := range []string{"testdata/ok/*.yaml", "testdata/err/*.yaml", "../../examples/*.yaml"} {
		files, err := filepath.Glob(pattern)
		if err != nil {
			f.Fatal(err)
		}
		for i, file := range files {
			if testing.Short() && i%4 > 0 { // TestProblems and its like read all of them
				continue
			}
			data, err := os.ReadFile(file)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(data)
		}
	}
	f.Fuzz(func(t *testing.T, data []byte) { budget.Held(t, func() { readsWell(t, data) }) })
}

func readsWell(t *testing.T, data []byte) {
	open := func(name string) ([]byte, error) {
		if name == "self.yaml" {
			return data, nil
		}
		return nil, os.ErrNotExist
	}
	reader := Reader{Open: open, HasGlyph: latin}
	for _, read := range []func(string, []byte) (*Job, Problems){reader.Read, reader.ReadForBlank} {
		j, problems := read("job.yaml", data)
		if (j == nil) == (len(problems) == 0) {
			t.Fatalf("job %v, problems %v", j, problems)
		}
		if err := problems.Print(io.Discard, true); err != nil {
			t.Fatal(err)
		}
		if j == nil {
			checkWording(t, problems)
			continue
		}
		if j.Test() == nil || j.Test().Engine == nil {
			t.Fatal("a job without an engine")
		}
		if _, err := json.Marshal(j.AsGiven()); err != nil {
			t.Fatal(err)
		}
	}
}

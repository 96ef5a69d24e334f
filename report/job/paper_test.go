package job

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// TestNotesOnPaper: notes from the bench, typed as somebody does who has never
// seen such a file, become the right job within three rounds in which nothing is
// followed but the answers. A file of testdata/paper has what stands on paper,
// and for each round what is typed and the answers to it (?? LINE words), at last
// the same job as it should have been written.
func TestNotesOnPaper(t *testing.T) {
	files, err := filepath.Glob("testdata/paper/*.txt")
	if err != nil || len(files) < 5 {
		t.Fatalf("%d notes: %v", len(files), err)
	}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		rounds := strings.Split(string(data), "\n--- ")[1:]
		if len(rounds) > 3 {
			t.Errorf("%s takes %d rounds", file, len(rounds))
		}
		for i, round := range rounds {
			r := parseRow(round)
			j, problems := typedOn.Read("job.yaml", []byte(r.typed))
			if i < len(rounds)-1 {
				if wrong := r.answers.wrong(problems, 1); wrong != "" {
					t.Errorf("%s, %s round:\n%s", file, r.about, wrong)
				}
				continue
			}
			want, faults := typedOn.Read("job.yaml", []byte(r.then))
			if j == nil || want == nil {
				t.Errorf("%s, %s round: not read\n%s%s", file, r.about, printed(problems), printed(faults))
			} else if diff := cmp.Diff(want, j, sameJob); diff != "" {
				t.Errorf("%s, %s round, read as something else (-want +got):\n%s", file, r.about, diff)
			}
		}
	}
}

package cli

import (
	"errors"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"gaugesheet/report/archive"
)

// What a sheet carries goes into the folder, wherever its names lead.
func TestExtractAllStaysInItsFolder(t *testing.T) {
	tests := []struct {
		name  string
		job   string
		files []string
		want  []string // in the folder
		code  int
	}{
		{"beside the job", "a.yaml", []string{"shop.yaml", "pictures/logo.png"}, []string{"a.yaml", "pictures/logo.png", "shop.yaml"}, Done},
		{"above the job", "a.yaml", []string{"../../shop.yaml", "../x/b.yaml"}, []string{"job/job/a.yaml", "job/x/b.yaml", "shop.yaml"}, Done},
		{"from the root", "a.yaml", []string{"/etc/shop.yaml"}, []string{"a.yaml"}, NoAccess},
		{"back and forth", "a.yaml", []string{"x/../../../shop.yaml"}, []string{"job/job/a.yaml", "shop.yaml"}, Done},
		{"a job with a path", "../../a.yaml", nil, []string{"a.yaml"}, Done},
		{"a job with a path of another system", `..\..\a.yaml`, nil, []string{"a.yaml"}, Done},
		{"a job without a name", "..", nil, []string{"job.yaml"}, Done},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			above := t.TempDir()
			folder := filepath.Join(above, "a", "b", "out")
			s := &archive.Sheet{Job: archive.File{Name: tt.job, Data: []byte("job")}}
			for _, name := range tt.files {
				s.Files = append(s.Files, archive.File{Name: name, Data: []byte(name)})
			}
			code := Done
			var f *failure
			if err := quiet().extractAll(s, folder, false); errors.As(err, &f) {
				code = f.code
			} else if err != nil {
				t.Fatal(err)
			}
			if code != tt.code {
				t.Errorf("the code is %d, want %d", code, tt.code)
			}
			var got []string
			err := filepath.WalkDir(above, func(path string, e os.DirEntry, err error) error {
				if err == nil && !e.IsDir() {
					name, _ := filepath.Rel(folder, path)
					got = append(got, filepath.ToSlash(name))
				}
				return err
			})
			if err != nil {
				t.Fatal(err)
			}
			slices.Sort(got)
			if diff := cmp.Diff(tt.want, got); diff != "" {
				t.Errorf("files (-want +got):\n%s", diff)
			}
		})
	}
}

// A link in the folder does not lead out of it.
func TestExtractAllFollowsNoLinkOut(t *testing.T) {
	above, folder := t.TempDir(), t.TempDir()
	if err := os.Symlink(above, filepath.Join(folder, "pictures")); err != nil {
		t.Skip(err)
	}
	s := &archive.Sheet{Job: archive.File{Name: "a.yaml"}, Files: []archive.File{{Name: "pictures/logo.png"}}}
	if err := quiet().extractAll(s, folder, true); err == nil {
		t.Error("a file was written through a link out of the folder")
	}
	if entries, err := os.ReadDir(above); err != nil || len(entries) > 0 {
		t.Errorf("outside are %v, error %v", entries, err)
	}
}

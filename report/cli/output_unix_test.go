//go:build unix

package cli

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"gaugesheet/report/archive"
)

const smallJob = "job: {number: \"W-2041\", date: 2026-05-14}\nengine: {layout: inline-4}\ncompression: {unit: psi, dry: [150, 155, 148, 138]}\n"

// folderWith makes a folder with files.
func folderWith(t *testing.T, files map[string]string) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range files {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// in runs a command of the shell in a folder.
func in(t *testing.T, dir, command string) (out string, code int) {
	t.Helper()
	cmd := exec.Command("sh", "-c", command)
	cmd.Dir = dir
	said, err := cmd.CombinedOutput()
	if err != nil && cmd.ProcessState == nil {
		t.Fatal(err)
	}
	return string(said), cmd.ProcessState.ExitCode()
}

// temporaries are the temporary files in a folder.
func temporaries(t *testing.T, dir string) []string {
	t.Helper()
	found, err := filepath.Glob(filepath.Join(dir, ".gaugesheet-*"))
	if err != nil {
		t.Fatal(err)
	}
	return found
}

// wholeSheets counts the sheets in a folder, each of which has to be whole.
func wholeSheets(t *testing.T, dir string) int {
	t.Helper()
	names, err := filepath.Glob(filepath.Join(dir, "*.pdf"))
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := archive.Open(data); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	return len(names)
}

// Pipes and devices are no outputs, and stop no run over a folder.
func TestPipesAndDevices(t *testing.T) {
	dir := folderWith(t, map[string]string{"job.yaml": smallJob})
	if said, code := in(t, dir, "mkfifo out.pdf in.yaml in.pdf"); code != 0 {
		t.Skip(said)
	}
	for _, command := range []string{"gaugesheet draw job.yaml -o out.pdf", "gaugesheet draw job.yaml -o out.pdf --force", "gaugesheet draw job.yaml -o /dev/null --force", "gaugesheet start V8 -o out.pdf --force"} {
		if said, code := in(t, dir, command); code != NoAccess && code != WrongUse || !strings.Contains(said, "out.pdf") && !strings.Contains(said, "/dev/null") {
			t.Errorf("%s: code %d, %s", command, code, said)
		}
	}
	if said, code := in(t, dir, "rm out.pdf; gaugesheet draw . && gaugesheet verify ."); code != Done {
		t.Errorf("code %d, %s", code, said)
	}
}

// A name may be as long as the system allows, a file that is replaced keeps who
// may read it.
func TestNamesAndPermissions(t *testing.T) {
	const longest = 255
	name := strings.Repeat("n", longest-len(".yaml")) + ".yaml"
	dir := folderWith(t, map[string]string{"job.yaml": smallJob, name: smallJob})
	sheet := strings.TrimSuffix(name, ".yaml") + ".pdf"
	if said, code := in(t, dir, "gaugesheet draw "+name+" && gaugesheet verify "+sheet); code != Done {
		t.Errorf("code %d, %s", code, said)
	}
	if said, code := in(t, dir, "gaugesheet draw job.yaml && chmod 640 job.pdf && gaugesheet draw job.yaml --sheet workshop"); code != Done {
		t.Fatal(said)
	}
	info, err := os.Stat(filepath.Join(dir, "job.pdf"))
	if err != nil || info.Mode().Perm() != 0o640 {
		t.Errorf("the mode is %v, error %v", info.Mode(), err)
	}
}

// Characters that steer a terminal reach neither it nor the index, and a name
// makes no lines of its own.
func TestNamesThatSteer(t *testing.T) {
	name := "a\x1b[31m\nb.pdf: the page says what its job file says.yaml"
	dir := folderWith(t, map[string]string{name: smallJob})
	said, code := in(t, dir, "gaugesheet draw . --index index.csv && gaugesheet verify . && cat index.csv")
	if code != Done || strings.Contains(said, "\x1b") || !strings.Contains(said, `\u001b`) {
		t.Errorf("code %d, %q", code, said)
	}
	for line := range strings.Lines(said) {
		if strings.HasPrefix(line, "b.pdf") {
			t.Errorf("a line of its own: %q", line)
		}
	}
}

// Letters that some systems write in two parts are those of the others, in
// words and in names of files.
func TestLettersInTwoParts(t *testing.T) {
	apart := "u\u0308"
	job := func(u string) string {
		return fmt.Sprintf("shop: M%sller.yaml\ncustomer: {name: M%sller}\n", u, u) + smallJob
	}
	dir := folderWith(t, map[string]string{"whole.yaml": job("ü"), "apart.yaml": job(apart), "M" + apart + "ller.yaml": "name: Harrow Mills\n"})
	if said, code := in(t, dir, "gaugesheet draw whole.yaml apart.yaml && gaugesheet verify whole.pdf apart.pdf"); code != Done {
		t.Errorf("code %d, %s", code, said)
	}
}

// An index is not replaced by one that has less.
func TestIndexIsKept(t *testing.T) {
	dir := folderWith(t, map[string]string{"a.yaml": smallJob, "b.yaml": strings.Replace(smallJob, "W-2041", "W-2042", 1)})
	if said, code := in(t, dir, "gaugesheet draw . --index i.csv"); code != Done {
		t.Fatal(said)
	}
	if said, code := in(t, dir, "gaugesheet draw a.yaml --index i.csv"); code != NoAccess || !strings.Contains(said, "i.csv: was left as it is: it has 2 lines, this run makes 1 of them") {
		t.Errorf("code %d, %s", code, said)
	}
	if said, code := in(t, dir, "gaugesheet draw . --index i.csv && gaugesheet draw a.yaml --index i.csv --force"); code != Done {
		t.Errorf("code %d, %s", code, said)
	}
	if said, code := in(t, dir, "rm *.pdf; gaugesheet draw a.yaml --index none/i.csv"); code != NoAccess || !strings.Contains(said, "no folder") {
		t.Errorf("code %d, %s", code, said)
	}
	if n := wholeSheets(t, dir); n != 0 {
		t.Errorf("%d sheets were written before the index was checked", n)
	}
}

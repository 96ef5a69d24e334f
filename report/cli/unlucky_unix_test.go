//go:build unix

package cli

import (
	"bytes"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"
)

// times is how often things go wrong in the tests below; more show more.
var times = flag.Int("times", 2, "how often runs are killed, interrupted, or cut off from disk and reader")

// sheetKinds are drawn in turn, so that each run writes every file anew.
var sheetKinds = []string{"customer", "workshop"}

// A yard is a folder of jobs, with what their sheets have to be byte by byte.
type yard struct {
	dir  string
	want map[string][][]byte // a sheet's name: its contents, of each kind
}

func newYard(t *testing.T, jobs int) *yard {
	t.Helper()
	y := &yard{dir: filepath.Dir(season(t, jobs)[0].job), want: map[string][][]byte{}}
	for _, kind := range sheetKinds {
		if said, code := in(t, y.dir, "gaugesheet draw . --sheet "+kind); code != Done {
			t.Fatal(said)
		}
		for name, data := range y.sheets(t) {
			y.want[name] = append(y.want[name], data)
		}
	}
	return y
}

// sheets are those in the folder.
func (y *yard) sheets(t *testing.T) map[string][]byte {
	t.Helper()
	names, err := filepath.Glob(filepath.Join(y.dir, "*.pdf"))
	if err != nil {
		t.Fatal(err)
	}
	found := map[string][]byte{}
	for _, name := range names {
		if found[filepath.Base(name)], err = os.ReadFile(name); err != nil {
			t.Fatal(err)
		}
	}
	return found
}

// whole fails where a sheet is gone, or is none of those that were drawn.
func (y *yard) whole(t *testing.T) {
	t.Helper()
	found := y.sheets(t)
	for name, want := range y.want {
		if data, there := found[name]; !there || !bytes.Equal(data, want[0]) && !bytes.Equal(data, want[1]) {
			t.Errorf("%s: it is there is %v, with %d bytes, and is not what was drawn", name, there, len(data))
		}
	}
}

// clear removes temporary files and tells how many there were.
func (y *yard) clear(t *testing.T) int {
	left := temporaries(t, y.dir)
	for _, name := range left {
		if err := os.Remove(name); err != nil {
			t.Error(err)
		}
	}
	return len(left)
}

// A run that is killed, at whatever moment, leaves each sheet as it was or as it
// is to be.
func TestKilled(t *testing.T) {
	if testing.Short() {
		t.Skip("takes seconds")
	}
	y := newYard(t, 60)
	left := 0
	for i := range *times {
		cmd := exec.Command("gaugesheet", "draw", y.dir, "--sheet", sheetKinds[i%2])
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		time.Sleep(time.Duration(rand.IntN(600)) * time.Millisecond)
		if err := cmd.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		cmd.Wait()
		y.whole(t)
		left += y.clear(t)
	}
	t.Logf("%d kills, of which %d fell into the writing of a file", *times, left)
}

// A killed run's temporary files are cleared away by a later one; a user's file
// is not taken for one.
func TestClearsAway(t *testing.T) {
	dir := folderWith(t, map[string]string{"job.yaml": smallJob})
	old := filepath.Join(dir, newTemporaryName())
	users := filepath.Join(dir, ".gaugesheet-notes.tmp")
	fresh := filepath.Join(dir, newTemporaryName())
	long := time.Now().Add(-2 * stale)
	for _, name := range []string{old, users, fresh} {
		if err := os.WriteFile(name, []byte("half"), 0o666); err != nil {
			t.Fatal(err)
		}
		if name == fresh {
			continue
		}
		if err := os.Chtimes(name, long, long); err != nil {
			t.Fatal(err)
		}
	}
	if said, code := in(t, dir, "gaugesheet draw job.yaml"); code != Done {
		t.Fatal(said)
	}
	for name, there := range map[string]bool{old: false, users: true, fresh: true} {
		if _, err := os.Stat(name); (err == nil) != there {
			t.Errorf("%s: there is %v, want %v", name, err == nil, there)
		}
	}
}

// An interrupt ends a run soon, whatever it is at, and leaves nothing half done.
func TestInterrupted(t *testing.T) {
	if testing.Short() {
		t.Skip("takes seconds")
	}
	y := newYard(t, 60)
	pdf := filepath.Join(t.TempDir(), "a.pdf")
	for i := range *times {
		for _, args := range [][]string{{"draw", y.dir, "--sheet", sheetKinds[i%2]}, {"draw", "-", "-o", pdf}} {
			for _, signal := range []os.Signal{os.Interrupt, syscall.SIGTERM} {
				cmd := exec.Command("gaugesheet", args...)
				stdin, err := cmd.StdinPipe()
				if err != nil {
					t.Fatal(err)
				}
				if err := cmd.Start(); err != nil {
					t.Fatal(err)
				}
				time.Sleep(time.Duration(200+rand.IntN(200)) * time.Millisecond)
				start := time.Now()
				if err := cmd.Process.Signal(signal); err != nil {
					t.Fatal(err)
				}
				cmd.Wait()
				stdin.Close()
				const early = -1 // by the signal, before the program minds it
				if took := time.Since(start); took > 5*patience || !slices.Contains([]int{Done, NoAccess, early}, cmd.ProcessState.ExitCode()) {
					t.Errorf("%v, %v: it took %v and ended with %v", args, signal, took, cmd.ProcessState)
				}
			}
		}
		y.whole(t)
		if left := y.clear(t); left > 0 {
			t.Errorf("%d temporary files are left behind", left)
		}
	}
	t.Logf("%d interrupts", 4**times)
}

// outputs are commands that write a file, with what it is called.
var outputs = [][2]string{
	{"gaugesheet draw job.yaml --sheet workshop", "job.pdf"},
	{"gaugesheet draw job.yaml -o job.png --force", "job.png"},
	{"gaugesheet draw job.yaml --index job.csv --force", "job.pdf"},
	{"gaugesheet blank V8 -o job.pdf", "job.pdf"},
	{"gaugesheet start V8 -o start.yaml --force", "start.yaml"},
	{"gaugesheet extract in.pdf -o out.yaml --force", "out.yaml"},
}

// fullYard is a folder with an old file in the place of each output.
func fullYard(t *testing.T) string {
	dir := folderWith(t, map[string]string{"job.yaml": smallJob + "notes: " + strings.Repeat("words and words ", 60) + "\n", "start.yaml": "old", "out.yaml": "old", "job.png": "old", "job.csv": "old"})
	if said, code := in(t, dir, "gaugesheet draw job.yaml && cp job.pdf in.pdf"); code != Done {
		t.Fatal(said)
	}
	return dir
}

// A disk that is full, after however many bytes, leaves the old file as it was
// (limits on files stand for it: they end a write in its middle).
func TestFullDisk(t *testing.T) {
	if testing.Short() {
		t.Skip("takes seconds")
	}
	dir := fullYard(t)
	tried := 0
	for _, o := range outputs {
		before, err := os.ReadFile(filepath.Join(dir, o[1]))
		if err != nil {
			t.Fatal(err)
		}
		for blocks := range min(8, 2+*times) { // of 512 bytes, or of 1024
			said, code := in(t, dir, fmt.Sprintf("ulimit -f %d; %s", blocks, o[0]))
			after, err := os.ReadFile(filepath.Join(dir, o[1]))
			if err != nil {
				t.Fatal(err)
			}
			if tried++; code == Done {
				if bytes.Equal(before, after) && blocks == 0 {
					t.Errorf("%s: it is done, and nothing was written", o[0])
				}
				break // it is small enough by now
			}
			if code != NoAccess || !strings.Contains(said, "cannot be written: file too large") {
				t.Errorf("%s: code %d, %s", o[0], code, said)
			}
			if !bytes.Equal(before, after) {
				t.Errorf("%s: the old file changed", o[0])
			}
			if left := temporaries(t, dir); left != nil {
				t.Errorf("%s: left behind: %v", o[0], left)
			}
		}
	}
	if _, err := os.Stat("/dev/full"); err == nil {
		for _, command := range talkers {
			said, code := in(t, dir, command+" >/dev/full")
			if tried++; code != NoAccess || !strings.Contains(said, "no space left") {
				t.Errorf("%s: code %d, %.300s", command, code, said)
			}
		}
	}
	t.Logf("%d writes to a full disk", tried)
}

// A disk that has no room left, from hardly any to enough: the sheet is drawn, or
// the old one stays and nothing beside it. The disk is a small one in memory, where
// a process may make one of its own.
func TestNoSpaceLeft(t *testing.T) {
	dir := fullYard(t)
	if said, code := in(t, dir, "mkdir disk && unshare -rm mount -t tmpfs -o size=64k none disk"); code != 0 {
		t.Skip(said)
	}
	tried, full := 0, 0
	for size := 24; size <= 24+8*(1+*times); size += 8 {
		said, _ := in(t, dir, fmt.Sprintf(`unshare -rm sh -c 'mount -t tmpfs -o size=%dk none disk && cd disk && cp ../job.pdf ../job.yaml . || exit
			gaugesheet draw job.yaml --sheet workshop; echo code $?; cmp -s job.pdf ../job.pdf && echo the same; ls -A'`, size))
		if strings.Contains(said, "cp: ") {
			continue // too small for the old sheet
		}
		tried++
		switch {
		case strings.Contains(said, "code 0\n"):
			if strings.Contains(said, "the same") {
				t.Errorf("%d KiB: it is done, and nothing was written: %s", size, said)
			}
		case !strings.Contains(said, "code 3\nthe same\n") || !strings.Contains(said, "no space left"):
			t.Errorf("%d KiB: %s", size, said)
		default:
			full++
		}
		if strings.Contains(said, ".gaugesheet-") {
			t.Errorf("%d KiB: left behind: %s", size, said)
		}
	}
	if full == 0 {
		t.Error("no disk was full")
	}
	t.Logf("%d disks, of which %d were full", tried, full)
}

// talkers are commands that write to standard output.
var talkers = []string{
	"gaugesheet rules", "gaugesheet engines", "gaugesheet schema", "gaugesheet help job", "gaugesheet help", "gaugesheet check job.yaml", "gaugesheet check --json job.yaml",
	"gaugesheet explain job.yaml", "gaugesheet draw job.yaml -o -", "gaugesheet extract in.pdf", "gaugesheet verify in.pdf", "gaugesheet start V8",
	"gaugesheet version", "gaugesheet version --licences", "gaugesheet completion bash",
}

// Who stops reading, after however many bytes, ends the program without a word.
func TestClosedPipe(t *testing.T) {
	if testing.Short() {
		t.Skip("takes seconds")
	}
	dir := fullYard(t)
	tried := 0
	for _, command := range talkers {
		for i := range *times {
			bytes := []int{0, 1, 10, 100, 1000, 5000}[i%6]
			said, _ := in(t, dir, fmt.Sprintf("{ %s 2>said; echo $? >code; } | head -c %d >/dev/null; cat said code", command, bytes))
			tried++
			words, code, _ := strings.Cut(strings.TrimSpace(said), "\n")
			if code == "" {
				words, code = "", words
			}
			const ended = "141" // by the closed pipe, as a shell says it
			if words != "" || code != ended && code != fmt.Sprint(Done) && code != fmt.Sprint(NoAccess) {
				t.Errorf("%s, of which %d bytes are read: code %s, %.300s", command, bytes, code, words)
			}
		}
	}
	t.Logf("%d closed pipes", tried)
}

// Runs at once over one folder, and with one output, do not disturb each other:
// each file is one of those that were drawn, whole.
func TestRunsAtOnce(t *testing.T) {
	jobs, rounds := 20, *times
	if testing.Short() {
		jobs, rounds = 3, 1
	}
	y := newYard(t, jobs)
	one := folderWith(t, map[string]string{"a.yaml": smallJob, "b.yaml": strings.Replace(smallJob, "W-2041", "W-2042", 1)})
	var pages [][]byte
	for _, job := range []string{"a", "b"} {
		if said, code := in(t, one, "gaugesheet draw "+job+".yaml -o one.pdf"); code != Done {
			t.Fatal(said)
		}
		page, err := os.ReadFile(filepath.Join(one, "one.pdf"))
		if err != nil {
			t.Fatal(err)
		}
		pages = append(pages, page)
	}
	for range rounds {
		var running sync.WaitGroup
		for i := range 4 {
			running.Go(func() {
				if said, code := in(t, y.dir, "gaugesheet draw . --sheet "+sheetKinds[i%2]); code != Done {
					t.Errorf("code %d, %s", code, said)
				}
				if said, code := in(t, one, fmt.Sprintf("gaugesheet draw %c.yaml -o one.pdf", 'a'+i%2)); code != Done {
					t.Errorf("code %d, %s", code, said)
				}
			})
		}
		running.Wait()
		y.whole(t)
		page, err := os.ReadFile(filepath.Join(one, "one.pdf"))
		if err != nil || !bytes.Equal(page, pages[0]) && !bytes.Equal(page, pages[1]) {
			t.Errorf("the one output is neither sheet, error %v", err)
		}
		if left := append(temporaries(t, y.dir), temporaries(t, one)...); left != nil {
			t.Errorf("left behind: %v", left)
		}
	}
	t.Logf("%d runs, four at once", 8*rounds)
}

//go:build unix

package cli

import (
	"os/exec"
	"path/filepath"
	"runtime"
	"syscall"
	"testing"
)

// mostMemory is what a batch may take of it, however long it is, in bytes.
const mostMemory = 160 << 20

// A sheet is dropped as soon as it is written, so that a season takes no more
// memory than a week.
func TestMemoryOfABatch(t *testing.T) {
	if testing.Short() {
		t.Skip("takes seconds")
	}
	tasks := season(t, 150)
	cmd := exec.Command("gaugesheet", "draw", filepath.Dir(tasks[0].job))
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v: %.500s", err, out)
	}
	usage, ok := cmd.ProcessState.SysUsage().(*syscall.Rusage)
	if !ok {
		t.Skip("what a process used is not told here")
	}
	used := int64(usage.Maxrss)
	if runtime.GOOS != "darwin" { // there in bytes, elsewhere in kilobytes
		used <<= 10
	}
	if used > mostMemory {
		t.Errorf("a batch of %d sheets took %d MiB, at most %d are wanted", len(tasks), used>>20, mostMemory>>20)
	}
	t.Logf("%d MiB", used>>20)
}

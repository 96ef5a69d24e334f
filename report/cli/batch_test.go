package cli

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"gaugesheet/report/archive"
)

// fullJob is a job with every kind of test; a number and a reading are filled
// in.
const fullJob = `job: {number: W-%d, date: 2026-05-14, technician: A. Lindqvist, reason: Before buying parts, complaints: [misfire, low power]}
vehicle: {description: "1998 workboat, single screw", engine-number: HM-52-0877, odometer: {reading: 3120 h, status: actual}}
engine: {layout: V8, fuel: petrol, numbering: across banks, first-bank: left, firing-order: 1-8-4-3-6-5-7-2, displacement: 5.2 L, mount: front lengthwise}
conditions: {engine: cold, coolant: 14 C, throttle: open, plugs-out: all, strokes: 6, cranking: 205 rpm, battery: {rest: 12.5 V, charger: yes}, altitude: 40 m}
gauges: {compression: {name: dial A, range: 0-300 psi, accuracy: 2 %% of span, checked: 2026-01-10}, fuel: {range: 0-100 psi, accuracy: grade B}}
compression:
  unit: psi
  dry: {1: 152, 2: 155, 3: %d, 4: 151, 5: 91, 6: 154, 7: 150, 8: 149}
  wet: {1: 160, 3: 98, 5: 92}
  oil: 10 ml
  limits: {lowest: 75 %% of highest, source: engine handbook}
leakage: {limit: 20 %%, dry: {1: {loss: 8 %%}, 3: {loss: 34 %%, at: [neighbour]}, 5: {loss: 36 %%, at: [neighbour]}, 8: {loss: 9 %%}}}
plugs: {looks: {1: normal, 2: normal, 3: sooty, 4: normal, 5: sooty, 6: normal, 7: normal, 8: normal}}
fuel-pressure: {unit: psi, system: "port, return line", key-on: 39, idle: 31, hose-off: 40, hold: {1 min: 38, 5 min: 36}, limits: {key-on: 40-44 psi, hold: at least 30 psi after 5 min, source: engine handbook}}
findings: [coolant level low]
recommended: [Leak-down test between neighbours, New head gaskets]
declined: [Borescope]
notes: Ran on the test stand before.
`

// season writes that many job files into a folder and gives their tasks.
func season(tb testing.TB, n int) []task {
	tb.Helper()
	dir := tb.TempDir()
	tasks := make([]task, n)
	for i := range tasks {
		job := filepath.Join(dir, fmt.Sprintf("%05d.yaml", i))
		text := fmt.Sprintf(fullJob, i, 90+i%70)
		if err := os.WriteFile(job, []byte(text), 0o666); err != nil {
			tb.Fatal(err)
		}
		tasks[i] = task{job, withExtension(job, ".pdf")}
	}
	return tasks
}

func quiet() *Command { return &Command{Stdout: io.Discard, Stderr: io.Discard, Version: "v1.2.3"} }

// An interrupt leaves whole sheets and nothing else, and every task has its
// outcome, in order.
func TestInterruptLeavesWholeSheets(t *testing.T) {
	if testing.Short() {
		t.Skip("takes seconds")
	}
	tasks := season(t, 40)
	ctx, interrupt := context.WithCancel(context.Background())
	defer interrupt()
	var drawn, skipped int
	for o := range quiet().drawAll(ctx, tasks, drawing{}) {
		if o.task != tasks[drawn+skipped] {
			t.Fatalf("outcome %d is of %s", drawn+skipped, o.job)
		}
		if o.skipped {
			skipped++
		} else {
			drawn++
		}
		if drawn == 3 {
			interrupt()
		}
	}
	if drawn+skipped != len(tasks) || drawn < 3 || skipped == 0 {
		t.Errorf("%d sheets drawn and %d skipped of %d", drawn, skipped, len(tasks))
	}
	entries, err := os.ReadDir(filepath.Dir(tasks[0].job))
	if err != nil {
		t.Fatal(err)
	}
	sheets := 0
	for _, e := range entries {
		if strings.HasSuffix(e.Name(), ".yaml") {
			continue
		}
		sheets++
		data, err := os.ReadFile(filepath.Join(filepath.Dir(tasks[0].job), e.Name()))
		if err != nil {
			t.Fatal(err)
		}
		if _, err := archive.Open(data); err != nil {
			t.Errorf("%s: %v", e.Name(), err)
		}
	}
	if sheets != drawn {
		t.Errorf("%d files beside the jobs, %d sheets drawn", sheets, drawn)
	}
}

// The outcomes of a run do not depend on how many cores draw.
func TestOrderOnAnyNumberOfCores(t *testing.T) {
	n := 25
	if testing.Short() {
		n = 10
	}
	tasks := season(t, n)
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(0))
	for _, cores := range []int{1, 2, 8} {
		runtime.GOMAXPROCS(cores)
		var out bytes.Buffer
		c := quiet()
		c.Stdout = &out
		if err := c.draw(tasks, drawing{}); err != nil {
			t.Fatal(err)
		}
		var want strings.Builder
		for _, task := range tasks {
			fmt.Fprintf(&want, "wrote %s\n", task.sheet)
		}
		if out.String() != want.String() {
			t.Errorf("with %d cores the lines are\n%s", cores, out.String())
		}
	}
}

func TestVisible(t *testing.T) {
	tests := []struct{ in, want string }{
		{"cylinder 3: 62 psi\n\tlow", "cylinder 3: 62 psi\n\tlow"},
		{"\x1b[2Jgone", `\u001b[2Jgone`},
		{"a\rb\x07\x7f", `a\u000db\u0007\u007f`},
		{"turned \u202etxt", `turned \u202etxt`},
		{"one\u2028two\u0085", `one\u2028two\u0085`},
		{"\U000e0001", `\udb40\udc01`},
		{"\xff\xfe", `\u00ff\u00fe`},
		{"Ünïcödé · ± ≥", "Ünïcödé · ± ≥"},
	}
	for _, tt := range tests {
		var b bytes.Buffer
		if _, err := (visible{&b}).Write([]byte(tt.in)); err != nil || b.String() != tt.want {
			t.Errorf("%q is written as %q, want %q; error %v", tt.in, b.String(), tt.want, err)
		}
	}
}

// BenchmarkBatch draws sheets on one core and on all; the metric is sheets a
// second.
func BenchmarkBatch(b *testing.B) {
	tasks := season(b, 200)
	for _, cores := range []int{1, runtime.NumCPU()} {
		b.Run(fmt.Sprintf("cores=%d", cores), func(b *testing.B) {
			defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(cores))
			c := quiet()
			for b.Loop() {
				if err := c.draw(tasks, drawing{force: true}); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(len(tasks))*float64(b.N)/b.Elapsed().Seconds(), "sheets/s")
		})
	}
}

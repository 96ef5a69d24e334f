package cli

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"regexp"
	"strconv"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
)

// testDay is the day on which the tests run, by their own clock.
func testDay() time.Time { return time.Date(2026, 11, 26, 9, 0, 0, 0, time.UTC) }

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"gaugesheet": func() {
			c := Command{Stdin: os.Stdin, Stdout: os.Stdout, Stderr: os.Stderr, Now: testDay, Version: "v1.2.3"}
			os.Exit(c.Main(os.Args[1:]))
		},
	})
}

// The scripts are the program as its users see it, one behaviour each.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		RequireExplicitExec: true,
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"exec-code": execCode,
			"jsonhas":   jsonHas,
			"swapjob":   swapJob,
			"cut":       cut,
			"wait-for":  waitFor,
		},
	})
}

// execCode runs a program that has to end with a certain code:
// exec-code CODE PROGRAM ARGUMENTS.
func execCode(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exec-code code program [argument...]")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	err = ts.Exec(args[1], args[2:]...)
	got := 0
	if err != nil {
		exit, ok := err.(*exec.ExitError)
		if !ok {
			ts.Fatalf("%v", err)
		}
		got = exit.ExitCode()
	}
	if got != want {
		ts.Fatalf("%v ended with %d, want %d", args[1:], got, want)
	}
}

// jsonHas checks that standard output is JSON and matches all expressions.
func jsonHas(ts *testscript.TestScript, neg bool, args []string) {
	text := ts.ReadFile("stdout")
	if !json.Valid([]byte(text)) {
		ts.Fatalf("standard output is no JSON")
	}
	for _, arg := range args {
		if regexp.MustCompile(`(?m)`+arg).MatchString(text) == neg {
			ts.Fatalf("JSON and %s: match is %v", arg, !neg)
		}
	}
}

// waitFor waits until a file is there: wait-for FILE.
func waitFor(ts *testscript.TestScript, _ bool, args []string) {
	for range 400 {
		if _, err := os.Stat(ts.MkAbs(args[0])); err == nil {
			time.Sleep(50 * time.Millisecond) // what it is said with
			return
		}
		time.Sleep(25 * time.Millisecond)
	}
	ts.Fatalf("%s was not made", args[0])
}

// cut writes the beginning of a file: cut FILE BYTES OUT.
func cut(ts *testscript.TestScript, _ bool, args []string) {
	n, err := strconv.Atoi(args[1])
	ts.Check(err)
	ts.Check(os.WriteFile(ts.MkAbs(args[2]), []byte(ts.ReadFile(args[0])[:n]), 0o666))
}

var embedded = regexp.MustCompile(`(\d+) 0 obj\n<</Type /EmbeddedFile`)

// swapJob puts another job file into a sheet, as an editor of PDFs does it:
// with a new object at the end of the file. swapjob SHEET JOB OUT.
func swapJob(ts *testscript.TestScript, _ bool, args []string) {
	page, job := []byte(ts.ReadFile(args[0])), []byte(ts.ReadFile(args[1]))
	found := embedded.FindSubmatch(page)
	if found == nil {
		ts.Fatalf("%s carries no file", args[0])
	}
	start := regexp.MustCompile(`startxref\n(\d+)`).FindSubmatch(page)
	trailer := regexp.MustCompile(`/Root \d+ 0 R /Info \d+ 0 R /ID \[[^]]*\]`).Find(page)
	size := regexp.MustCompile(`/XRef /Size (\d+)`).FindSubmatch(page)
	var packed, out bytes.Buffer
	z := zlib.NewWriter(&packed)
	z.Write(job)
	ts.Check(z.Close())
	out.Write(page)
	at := out.Len()
	fmt.Fprintf(&out, "%s 0 obj\n<</Type /EmbeddedFile /Filter /FlateDecode /Length %d>>\nstream\n%s\nendstream\nendobj\n", found[1], packed.Len(), packed.Bytes())
	list := out.Len()
	fmt.Fprintf(&out, "%s 0 obj\n<</Type /XRef /Size %s /W [1 4 0] /Index [%s 1] %s /Prev %s /Length 5>>\nstream\n", size[1], size[1], found[1], trailer, start[1])
	out.Write(binary.BigEndian.AppendUint32([]byte{1}, uint32(at)))
	fmt.Fprintf(&out, "\nendstream\nendobj\nstartxref\n%d\n%%%%EOF\n", list)
	ts.Check(os.WriteFile(ts.MkAbs(args[2]), out.Bytes(), 0o666))
}

package cli

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode"

	"gaugesheet/report/job"
)

// How long an answer takes, by the Keystroke-Level Model (Card, S. K., Moran, T. P.,
// Newell, A.: The keystroke-level model for user performance time with interactive
// systems, Communications of the ACM 23 (1980), 396-410, its table of operators; given
// from memory): a keystroke of an average typist who is no secretary, Shift and Enter
// counted, and one mental preparation before each answer. The model is of somebody who
// has done it before, and leaves out how long a question is read.
const (
	keystroke   = 0.28 // s
	preparation = 1.35 // s
	twoMinutes  = 120  // s
)

// An answered question is how a question begins and what is typed to it.
type answeredQuestion struct{ question, answer string }

// v8OnPaper is what stands on the paper of a V8 with two low neighbors.
var v8OnPaper = []answeredQuestion{
	{"Engine (", "350 V8 gas"}, {"Which is it (", "1"}, {"Job number (", "2041"}, {"Date of the test (", "t"}, {"Vehicle (", "1998 pickup"},
	{"What is wrong with it (", "misses, uses oil"}, {"Fuel pressure (", "41 33 42 psi"}, {"Permitted with the key on (", "35-45"},
	{"Spark plugs (", "ok 3 5 oily"}, {"Engine during the compression test (", "hot"}, {"Throttle (", "open"}, {"Plugs out (", "all"},
	{"Strokes on each cylinder (", "6"}, {"Compression (", "150 148 95 152 100 149 151 150 psi"}, {"Least compression by the book (", "100"},
	{"How far apart they may lie by the book (", ""}, {"Which book, which page (", "manual p. 112"}, {"What else was measured or noted (", "wet"},
	{"With oil (", "3=98 5=102 1=152"}, {"Oil for each (", "5 ml"}, {"What else was measured or noted (", ""}, {"Draw the sheet now (", "y"},
}

// keys are the keystrokes of an answer, with Shift and Enter.
func keys(answer string) int {
	n := 1
	for _, c := range answer {
		n++
		if unicode.IsUpper(c) || strings.ContainsRune(`+#"%&()`, c) {
			n++
		}
	}
	return n
}

// TestAskedInTwoMinutes: start --ask takes a V8 from paper to its sheet in less than two
// minutes, and whoever answers sees nothing of the job file's writing.
func TestAskedInTwoMinutes(t *testing.T) {
	t.Chdir(t.TempDir())
	var typed strings.Builder
	seconds, strokes, copied := 0.0, 0, 0
	for _, q := range v8OnPaper {
		typed.WriteString(q.answer + "\n")
		strokes += keys(q.answer)
		seconds += preparation + keystroke*float64(keys(q.answer))
		copied += max(0, len(strings.Fields(q.answer))-1)
	}
	var out, said bytes.Buffer
	c := Command{Stdin: strings.NewReader(typed.String()), Stdout: &out, Stderr: &said, Now: testDay, Version: "v1.2.3"}
	if code := c.Main([]string{"start", "--ask"}); code != 0 {
		t.Fatalf("ended with %d:\n%s", code, said.String())
	}
	asked(t, said.String())
	if _, err := os.Stat("2041.pdf"); err != nil {
		t.Errorf("no sheet was drawn: %v\n%s", err, said.String())
	}
	rightSheet(t, said.String())
	t.Logf("%d questions, %d keystrokes: %.0f s, and %.0f s with a preparation for each further word and figure that is copied",
		len(v8OnPaper), strokes, seconds, seconds+preparation*float64(copied))
	if most := seconds + preparation*float64(copied); most > twoMinutes {
		t.Errorf("%d questions with %d keystrokes take up to %.0f s, expected %d at most", len(v8OnPaper), strokes, most, twoMinutes)
	}
}

// asked checks that these questions were asked, in this order, and no other.
func asked(t *testing.T, said string) {
	t.Helper()
	rest := said
	for _, q := range v8OnPaper {
		at := strings.Index(rest, q.question)
		if at < 0 {
			t.Fatalf("'%s' was not asked:\n%s", q.question, said)
		}
		rest = rest[at+len(q.question):]
		line, _, _ := strings.Cut(rest, "\n")
		if !strings.HasSuffix(line, "): "+q.answer) {
			t.Fatalf("'%s' was answered by '%s', expected '%s'", q.question, line, q.answer)
		}
	}
	if n := len(question.FindAllString(said, -1)); n != len(v8OnPaper) {
		t.Errorf("%d questions were asked, expected %d:\n%s", n, len(v8OnPaper), said)
	}
}

// question is a line that asks, with what may be answered in brackets.
var question = regexp.MustCompile(`(?m)^[A-Z][^\n]* \([^\n]*\): [^\n]*$`)

// rightSheet checks that the job file says what stood on the paper, and that none of its
// lines was shown.
func rightSheet(t *testing.T, said string) {
	t.Helper()
	data, err := os.ReadFile(filepath.Clean("2041.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	j, problems := job.Read("2041.yaml", data, nil)
	if j == nil {
		t.Fatalf("the job file is not read: %v", problems)
	}
	test := j.Test()
	if c := test.Compression; c == nil || c.Dry["3"].Values[0] != 95 || c.Wet["5"].Values[0] != 102 || len(c.Dry) != 8 || test.Fuel == nil || len(test.History.Complaints) != 2 {
		t.Errorf("the job file is not what was answered:\n%s", data)
	}
	for _, line := range strings.Split(string(data), "\n") {
		if line = strings.TrimSpace(line); strings.Contains(line, ":") && strings.Contains(said, line) {
			t.Errorf("'%s' of the job file was shown", line)
		}
	}
}

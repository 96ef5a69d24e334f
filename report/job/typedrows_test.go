package job

import (
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

// A row is something that a mechanic types into a job, and what has to come of
// it. The files of testdata/typed are lists of them:
//
//	frame NAME           the job around it, '@' standing for what is typed
//	--- FRAME: about it  a row, what is typed on the lines below
//	==                   it is read as what follows would be
//	!! RULE              it is read, with this notice
//	?? LINE words        it is answered in this line of what is typed, with these
//	                     words among what to type; -1 is the line above. What
//	                     follows is what the answer leads to, and has to read.
//
// \t and \u00a0 stand for characters that do not show.
type row struct {
	file, about  string
	frame, typed string
	mark         string  // ==, !! or ??
	answers      answers // behind ?? and !!
	then         string  // what stands below the mark
}

// rows reads the lists.
func rows(t *testing.T) []row {
	t.Helper()
	files, err := filepath.Glob("testdata/typed/*.txt")
	if err != nil || len(files) == 0 {
		t.Fatalf("no lists: %v", err)
	}
	var out []row
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		head, rest, _ := strings.Cut(string(data), "\n--- ")
		frames := map[string]string{}
		for _, f := range strings.Split(head, "\nframe ")[1:] {
			name, text, _ := strings.Cut(f, "\n")
			frames[name] = strings.TrimRight(text, "\n") + "\n"
		}
		for _, part := range strings.Split(rest, "\n--- ") {
			r := parseRow(part)
			name, about, found := strings.Cut(r.about, ": ")
			if r.frame = frames[name]; !found || r.frame == "" || r.mark == "" {
				t.Fatalf("%s: %s: no frame, or nothing that has to come of it", file, r.about)
			}
			r.file, r.about = filepath.Base(file), name+": "+about
			out = append(out, r)
		}
	}
	return out
}

func parseRow(text string) row {
	text = unescape(strings.TrimRight(text, "\n"))
	lines := strings.Split(text, "\n")
	r := row{about: lines[0]}
	to := &r.typed
	for _, line := range lines[1:] {
		if mark := line[:min(2, len(line))]; mark == "==" || mark == "??" || mark == "!!" {
			r.mark, to = mark, &r.then
			if said := strings.TrimPrefix(line[2:], " "); said != "" {
				r.answers = append(r.answers, said)
			}
			continue
		}
		*to += line + "\n"
	}
	return r
}

func unescape(s string) string {
	s = strings.ReplaceAll(s, `\t`, "\t")
	for {
		before, after, found := strings.Cut(s, `\u`)
		if !found {
			return s
		}
		code, _ := strconv.ParseUint(after[:4], 16, 32)
		s = before + string(rune(code)) + after[4:]
	}
}

// in puts something typed into a frame, and gives the line on which it begins.
func in(frame, typed string) (text string, line int) {
	var b strings.Builder
	for i, l := range strings.Split(strings.TrimRight(frame, "\n"), "\n") {
		if strings.TrimSpace(l) != "@" {
			b.WriteString(l + "\n")
			continue
		}
		line = i + 1
		for _, t := range strings.Split(strings.TrimRight(typed, "\n"), "\n") {
			b.WriteString(strings.TrimSuffix(l, "@") + t + "\n")
		}
	}
	return b.String(), line
}

var quotedText = regexp.MustCompile(`'[^']*'`)

var typedOn = Reader{HasGlyph: latin, Today: time.Date(2026, 6, 10, 9, 0, 0, 0, time.UTC)}

// sameJob compares what two jobs say, whatever the places and spellings.
var sameJob = cmp.Options{
	cmp.Exporter(func(reflect.Type) bool { return true }),
	cmp.FilterPath(func(p cmp.Path) bool {
		name := p.Last().String()
		return strings.HasSuffix(name, "Entered") || name == ".Pos" || name == ".Raw" || name == ".root" || name == ".Name" || name == ".said" || name == ".Said" // a customer's own words, as they were entered
	}, cmp.Ignore()),
}

// TestTyped holds the reader to what has to come of everything that people type.
func TestTyped(t *testing.T) {
	for _, r := range rows(t) {
		if wrong := r.judge(); wrong != "" {
			t.Errorf("%s: %s\n%s%s", r.file, r.about, r.typed, wrong)
		}
	}
}

// judge tells what is wrong with what comes of a row.
func (r row) judge() string {
	text, line := in(r.frame, r.typed)
	j, problems := typedOn.Read("job.yaml", []byte(text))
	if r.mark == "??" {
		return r.answered(problems, line)
	}
	if j == nil {
		return "  answered:\n" + printed(problems)
	}
	if r.mark == "!!" {
		for _, n := range j.Test().Noted {
			if n.Rule == r.answers[0] {
				return ""
			}
		}
		return fmt.Sprintf("  read without the notice %s: %v\n", r.answers[0], j.Test().Noted)
	}
	plain, _ := in(r.frame, r.then)
	want, problems := typedOn.Read("job.yaml", []byte(plain))
	if want == nil {
		return "  what it should be read as is not read:\n" + printed(problems)
	}
	if diff := cmp.Diff(want, j, sameJob); diff != "" {
		return "  read as something else (-want +got):\n" + diff
	}
	return ""
}

func (r row) answered(problems Problems, line int) string {
	if wrong := r.answers.wrong(problems, line); wrong != "" {
		return wrong
	}
	plain, _ := in(r.frame, r.then)
	if _, problems := typedOn.Read("job.yaml", []byte(plain)); problems != nil {
		return "  what the answer leads to is not read:\n" + printed(problems)
	}
	return ""
}

// answers are lines, counted in what is typed, with words that have to be among
// what is answered to them.
type answers []string

// wrong tells what is wrong with what is answered to something typed that begins
// on a line.
func (a answers) wrong(problems Problems, line int) string {
	if len(problems) != len(a) {
		if problems == nil {
			return "  read without a word\n"
		}
		return fmt.Sprintf("  %d answers, expected %d:\n%s", len(problems), len(a), printed(problems))
	}
	for i, p := range problems {
		at, words, _ := strings.Cut(a[i], " ")
		offset, err := strconv.Atoi(at)
		if offset > 0 {
			offset--
		}
		said := quotedText.ReplaceAllString(p.Message, "") // what was typed is no answer
		if err != nil || p.Line != line+offset || !strings.Contains(said+"\n"+p.Hint, words) {
			return fmt.Sprintf("  expected in line %d: %s\n%s", line+offset, words, printed(problems))
		}
	}
	return ""
}

func printed(problems Problems) string {
	var b strings.Builder
	_ = problems.Print(&b, true)
	return b.String()
}

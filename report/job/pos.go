package job

import (
	"cmp"
	"fmt"
	"io"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"unicode"
)

// Pos is a place in a file. Lines and columns count from 1, columns in
// characters; the zero Pos is no place.
type Pos struct{ Line, Col int }

// Problem is something in a job file, or in a file that it names, that has to
// be put right before a sheet can be made.
type Problem struct {
	File    string `json:"file"`
	Line    int    `json:"line"`
	Col     int    `json:"column"`
	Message string `json:"message"`
	Hint    string `json:"hint"` // what may have been meant, or what to do; may be empty

	source string // the line of the file
	kind   string // what mistakes of one kind share
	names  string // the file that could not be had, as it is looked for
	mended bool   // the rest was read as if it were not there
	spoils bool   // the text that stands there is none: nothing else is said of it
}

// Shared is what the same trouble with a file that jobs of one folder draw on has
// in common, "" for a problem of the job itself.
func (p Problem) Shared(job string) string {
	switch {
	case p.names != "":
		return path.Join(path.Dir(filepath.ToSlash(job)), p.names) + ": " + p.Message
	case p.File != job:
		return p.Error()
	}
	return ""
}

// Error gives "file:line:col: message", fit for a terminal.
func (p Problem) Error() string {
	return fmt.Sprintf("%s:%d:%d: %s", visible(p.File), p.Line, p.Col, visible(p.Message))
}

// Problems are all problems of one run, sorted by file, line and column: the
// job file itself first.
type Problems []Problem

func (ps Problems) Error() string {
	lines := make([]string, len(ps))
	for i, p := range ps {
		lines[i] = p.Error()
	}
	return strings.Join(lines, "\n")
}

// Print writes each problem on a line, and below it the line of the file with
// a caret under the column where withSource is set, and the hint.
func (ps Problems) Print(w io.Writer, withSource bool) error {
	var b strings.Builder
	for _, p := range ps {
		b.WriteString(p.Error() + "\n")
		if withSource && p.source != "" {
			b.WriteString(p.excerpt())
		}
		if p.Hint != "" {
			b.WriteString("  hint: " + visible(p.Hint) + "\n")
		}
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// widest is how much of a source line is shown to either side of its column.
const widest = 60

func (p Problem) excerpt() string {
	line := []rune(p.source)
	col := min(max(p.Col-1, 0), len(line))
	from, to := max(col-widest, 0), min(col+widest, len(line))
	before := visible(string(line[from:col]))
	number := fmt.Sprintf("%5d | ", p.Line)
	return number + before + visible(string(line[col:to])) + "\n" +
		strings.Repeat(" ", len(number)+len([]rune(before))) + "^\n"
}

// sorted puts problems in order, the main file's first, and drops repetitions,
// which come from one part of a file being used twice.
func (ps Problems) sorted(main string) Problems {
	slices.SortStableFunc(ps, func(a, b Problem) int {
		if (a.File == main) != (b.File == main) {
			if a.File == main {
				return -1
			}
			return 1
		}
		return cmp.Or(cmp.Compare(a.File, b.File), cmp.Compare(a.Line, b.Line), cmp.Compare(a.Col, b.Col))
	})
	seen, spoilt := map[Problem]bool{}, map[Pos]bool{}
	for _, p := range ps {
		if p.spoils && p.File == main {
			spoilt[Pos{p.Line, p.Col}] = true
		}
	}
	return slices.DeleteFunc(ps, func(p Problem) bool {
		if !p.spoils && p.File == main && spoilt[Pos{p.Line, p.Col}] {
			return true
		}
		p.source, p.Hint, p.kind = "", "", ""
		again := seen[p]
		seen[p] = true
		return again
	}).together()
}

// together says what was done in several places of a section once, at the first,
// and how many more there are.
func (ps Problems) together() Problems {
	first, more := map[[2]string]int{}, map[int][]int{}
	var out Problems
	for _, p := range ps {
		at, again := first[[2]string{p.File, p.kind}]
		if again && p.kind != "" {
			more[at] = append(more[at], p.Line)
			continue
		}
		first[[2]string{p.File, p.kind}] = len(out)
		out = append(out, p)
	}
	for at, lines := range more {
		out[at].Message += fmt.Sprintf(", and %d more like it", len(lines)) + inLines(out[at].Line, lines)
	}
	return out
}

// inLines names the lines of more mistakes, where they are others than the
// first one's.
func inLines(first int, lines []int) string {
	const most = 6
	var names []string
	for _, l := range slices.Compact(lines) {
		if l != first {
			names = append(names, strconv.Itoa(l))
		}
	}
	switch {
	case len(names) == 0:
		return ""
	case len(names) == 1:
		return " in line " + names[0]
	case len(names) > most:
		return " down to line " + names[len(names)-1]
	}
	return " in lines " + allOf(names)
}

// kindOf is what mistakes of one kind share: what is said, of which section, and
// what to do, whatever the figures are. What is said with no advice has to be the
// same but for its figures; keys that are not known are each a mistake of its own.
func kindOf(format, message, hint string, args []any) string {
	if strings.HasPrefix(format, "unknown key") || strings.Contains(format, "more are like it") {
		return ""
	}
	section := ""
	if len(args) > 0 {
		label, _ := args[0].(string)
		section = label
		if i := strings.LastIndexByte(label, '.'); i >= 0 {
			section = label[:i]
		}
	}
	switch {
	case hint == "" && strings.Contains(format, "the engine has"): // cylinders, whatever they are called
		return format + "|" + fmt.Sprint(args[0])
	case hint == "":
		return noFigures(message)
	}
	if before, rest, ok := strings.Cut(hint, ", at: ["); ok { // where the air went is each its own
		_, after, _ := strings.Cut(rest, "]")
		hint = before + after
	}
	return format + "|" + section + "|" + noFigures(hint)
}

// noFigures is a text in which all numbers are alike.
func noFigures(text string) string {
	var b strings.Builder
	number := false
	for _, c := range text {
		if c >= '0' && c <= '9' || number && c == '.' {
			if !number {
				b.WriteByte('0')
			}
			number = true
			continue
		}
		number = false
		b.WriteRune(c)
	}
	return b.String()
}

// visible spells out characters that steer a terminal instead of showing.
func visible(s string) string {
	if !strings.ContainsFunc(s, steers) {
		return s
	}
	var b strings.Builder
	for _, c := range s {
		switch {
		case c == '\t':
			b.WriteByte(' ')
		case steers(c):
			fmt.Fprintf(&b, `\u%04x`, c)
		default:
			b.WriteRune(c)
		}
	}
	return b.String()
}

// steers reports control characters, and format characters such as those that
// turn the direction of writing.
func steers(c rune) bool {
	return unicode.IsControl(c) || unicode.Is(unicode.Cf, c) || c == '\u2028' || c == '\u2029' || c == unicode.ReplacementChar
}

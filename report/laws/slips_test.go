package laws_test

import (
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/layout/face"
	"gaugesheet/report/job"
)

// beside are the keys that lie beside one of figures, in a row and on a block of
// nine.
var beside = map[byte]string{'0': "912", '1': "204", '2': "1305", '3': "2406", '4': "35170", '5': "46280", '6': "5739", '7': "684", '8': "7950", '9': "806"}

// slipsOf are the figures that a finger makes of one that was meant: a figure
// lost, one typed twice, two in the wrong order, one beside the right one.
func slipsOf(text string) map[string]string {
	out := map[string]string{}
	add := func(kind, slip string) {
		if _, known := out[slip]; !known && slip != text && slip != "" && slip[0] != '.' && slip[len(slip)-1] != '.' {
			out[slip] = kind
		}
	}
	isFigure := func(i int) bool { return text[i] != '.' }
	for i := range text {
		if !isFigure(i) {
			continue
		}
		add("lost", text[:i]+text[i+1:])
		add("doubled", text[:i]+text[i:i+1]+text[i:])
		if i > 0 && isFigure(i-1) {
			add("swapped", text[:i-1]+text[i:i+1]+text[i-1:i]+text[i+1:])
		}
		for _, key := range []byte(beside[text[i]]) {
			add("beside", text[:i]+string(key)+text[i+1:])
		}
	}
	return out
}

// A readFigure is one reading of a job, with its place.
type readFigure struct {
	from, to int
	cylinder string // or its section and key
}

var (
	dryLine   = regexp.MustCompile(`(?m)^compression:\n(?:[ #].*\n)*?  dry: (.*)$`)
	dryFigure = regexp.MustCompile(`([A-Za-z0-9]+): (\[[^\]]*\]|[0-9.]+)|([0-9.]+)`)
	oneFigure = regexp.MustCompile(`[0-9.]+`)
)

// dryFigures finds the dry readings of a job, as the examples write them.
func dryFigures(text string) []readFigure {
	at := dryLine.FindStringSubmatchIndex(text)
	if at == nil {
		return nil
	}
	var out []readFigure
	number := 0
	for _, m := range dryFigure.FindAllStringSubmatchIndex(text[at[2]:at[3]], -1) {
		number++
		name, from, to := fmt.Sprint(number), m[6], m[7]
		if m[2] >= 0 {
			name, from, to = text[at[2]+m[2]:at[2]+m[3]], m[4], m[5]
		}
		for _, f := range oneFigure.FindAllStringIndex(text[at[2]+from:at[2]+to], -1) {
			out = append(out, readFigure{at[2] + from + f[0], at[2] + from + f[1], name})
		}
	}
	return out
}

// said is what a sheet comes to: its headline, how urgent, and whom it suspects
// of what first.
func (s *subject) said() string {
	var b strings.Builder
	if s.out.Verdict.Urgency == "no action" { // however a sheet words it that nothing is asked for
		return s.out.Verdict.Urgency
	}
	b.WriteString(s.out.Verdict.Sentence + "|" + s.out.Verdict.Urgency)
	for _, one := range s.out.Stories {
		if one.Urgency != "no action" && len(one.CauseNames) > 0 {
			fmt.Fprintf(&b, "|%v %s", one.Cylinders, one.CauseNames[0])
		}
	}
	return b.String()
}

// doubtsReading reports that a sheet doubts what was read of a cylinder: a notice
// names it, what it asks for first is to read again, or what it leads with is said to
// hang on a psi or two, of that cylinder or of the best, by which others are judged.
func (s *subject) doubtsReading(cylinder string) bool {
	for _, n := range s.out.Notices {
		if slices.Contains(n.Cylinders, cylinder) {
			return true
		}
	}
	for _, one := range s.out.Stories {
		if one.Urgency == s.out.Verdict.Urgency && slices.ContainsFunc(one.Doubts, func(d string) bool {
			return strings.Contains(d, "close to the limit") || strings.Contains(d, "close to the line")
		}) {
			return true
		}
	}
	next := s.out.Verdict.NextCheck
	return next != nil && readsAgain(next.Name) && (len(next.Cylinders) == 0 || slices.Contains(next.Cylinders, cylinder))
}

func readsAgain(check string) bool {
	return strings.HasPrefix(check, "repeat") || check == "charge-and-repeat" || check == "read-again"
}

func fromExamples(text []byte) (*subject, error) {
	r := job.Reader{HasGlyph: face.Metrics().Has, Open: func(name string) ([]byte, error) { return os.ReadFile(filepath.Join("../../examples", name)) }}
	j, problems := r.Read("job.yaml", text)
	if len(problems) > 0 {
		return nil, refused{problems}
	}
	return subjectOfJob(0, newTree(), j)
}

// mostSilent is how many of the slips in the examples may change a sheet that
// says nothing of it. Two make a low cylinder read as the others do, which no
// sheet can tell; the others leave the cylinder and how soon as they were.
const mostSilent = 5

// TestSlips makes every slip of a finger in every dry reading of the examples,
// and counts those that change what the sheet says (its headline, how urgent it
// is, whom it suspects of what) with nothing on it that doubts the figure.
func TestSlips(t *testing.T) {
	slipsIn(t, dryFigures, func(s *subject, f readFigure) bool { return s.doubtsReading(f.cylinder) },
		func(kind string, _ readFigure) string { return kind }, mostSilent)
}

// slipsIn makes every slip in those figures of the examples that find gives, and
// counts what comes of each, sorted as by says. At most so many may be silent.
func slipsIn(t *testing.T, find func(string) []readFigure, doubts func(*subject, readFigure) bool, by func(kind string, f readFigure) string, most int) {
	t.Helper()
	if testing.Short() {
		t.Skip("some 1,500 jobs")
	}
	files, err := filepath.Glob("../../examples/*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatal(err)
	}
	count := map[string]map[string]int{}
	silent, all := 0, 0
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		whole := string(text)
		meant, err := fromExamples(text)
		if err != nil {
			t.Fatal(file, err)
		}
		for _, f := range find(whole) {
			for slip, kind := range slipsOf(whole[f.from:f.to]) {
				s, err := fromExamples([]byte(whole[:f.from] + slip + whole[f.to:]))
				what := "the same"
				switch {
				case err != nil:
					what = "refused"
				case s.said() == meant.said():
				case doubts(s, f):
					what = "doubted"
				default:
					what = "silent"
					silent++
					t.Logf("%s: %s, %s as %s: %s, check %s\n   was %s", filepath.Base(file), f.cylinder, whole[f.from:f.to], slip, s.said(), s.checkName(), meant.said())
				}
				of := by(kind, f)
				if count[of] == nil {
					count[of] = map[string]int{}
				}
				count[of][what]++
				all++
			}
		}
	}
	for _, of := range slices.Sorted(maps.Keys(count)) {
		t.Logf("%-30s %v", of, count[of])
	}
	t.Logf("%d of %d slips change the sheet in silence", silent, all)
	if silent > most || all < 1000 {
		report(t, "T7 slips", "%d of %d slips change a sheet that does not doubt the figure, expected %d at most; -v lists them", silent, all, most)
	}
}

// TestReadOnceIsNoNoise is the other side: of sound engines, whose readings
// scatter, hardly any is told to read a figure again, nor is one whose low
// cylinder loses its air as well.
func TestReadOnceIsNoNoise(t *testing.T) {
	told := func(text []byte) bool {
		j, problems := reader.Read("job.yaml", text)
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		return slices.ContainsFunc(judge(j.Test()).Notices, func(n diag.Notice) bool { return n.Rule == "read-once" })
	}
	engines, most := 500, 10
	if testing.Short() {
		engines, most = 100, 2
	}
	sound, low, leaks := 0, 0, 0
	for i := range engines {
		if told(simulated(uint64(i), "inline-6", 6, 0)) {
			sound++
		}
		text := simulated(uint64(i), "inline-6", 6, 0.3)
		if told(text) {
			low++
		}
		if told(append(text, "leakage: {loss: {1: 45 %, 2: 8 %, 3: 7 %}}\n"...)) {
			leaks++
		}
	}
	t.Logf("of %d engines told to read a figure again: %d sound, %d with one low, %d where it loses air too", engines, sound, low, leaks)
	if sound > most || low < engines*9/10 || leaks > most {
		report(t, "T7 read once", "of %d engines told to read a figure again: %d sound, %d with one low, %d where it loses air too", engines, sound, low, leaks)
	}
}

func (s *subject) checkName() string {
	if s.out.Verdict.NextCheck == nil {
		return "none"
	}
	return s.out.Verdict.NextCheck.Name
}

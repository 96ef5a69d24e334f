package job

import (
	"errors"
	"fmt"
	"io/fs"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"gaugesheet/diag/engine"
)

// replaced are the lines whose place others take.
var replaced = regexp.MustCompile(`^(?:#? *numbering|#? *first-bank|#  altitude|#  dry|#  cylinders):`)

// toWrite are the values that the comments leave open, with what they are such
// as.
var toWrite = regexp.MustCompile(`(?m): (\[?)\.\.\.(\]?)( +#.*?)(?:, such as (.*?)\.(?: (?:Or|Oil) .*)?)?$`)

// filledIn puts something in their place.
func filledIn(text string) string {
	return toWrite.ReplaceAllStringFunc(text, func(line string) string {
		m := toWrite.FindStringSubmatch(line)
		value := "written"
		if m[4] != "" {
			value = m[4]
		}
		return ": " + m[1] + value + m[2] + m[3]
	})
}

var unfilled = regexp.MustCompile(`(?m)^(    [\w ]+:)$`)

// open are the live lines about the engine and the units, with what is put in.
var open = []struct {
	line  *regexp.Regexp
	value string
}{
	{regexp.MustCompile(`(?m)^(  numbering:) +#`), "$1 across banks #"}, {regexp.MustCompile(`(?m)^(  first-bank:) +#`), "$1 left #"},
	{regexp.MustCompile(`(?m)^(  fuel:) +#`), "$1 petrol #"},
}

var blankUnit = regexp.MustCompile(`(?m)^  unit: +#`)

// answered puts in what the live lines leave open, but for the readings, and
// says how many there were.
func answered(text string) (string, int) {
	n := 0
	for _, o := range open {
		n += len(o.line.FindAllString(text, -1))
		text = o.line.ReplaceAllString(text, o.value)
	}
	unit := "psi"
	if strings.Contains(text, "\nrotors:") {
		unit = "kgf/cm2"
	}
	return blankUnit.ReplaceAllString(text, "  unit: "+unit+" #"), n + 1
}

// placesSaid is how many places of a file its problems are about.
func placesSaid(problems Problems) int {
	n := len(problems)
	for _, p := range problems {
		if m := moreLike.FindStringSubmatch(p.Message); m != nil {
			more, _ := strconv.Atoi(m[1])
			n += more
		}
	}
	return n
}

var moreLike = regexp.MustCompile(`and (\d+) more like it`)

// TestStarters: the starter of every layout and numbering makes an empty bench
// sheet as it is, and a job once the numbers are typed in.
func TestStarters(t *testing.T) {
	for _, preset := range engine.Known() {
		for _, full := range []bool{false, true} {
			if full && testing.Short() {
				continue
			}
			data, err := Starter(preset.Name, full, "")
			if err != nil {
				t.Errorf("%s: %v", preset.Name, err)
				continue
			}
			j, problems := ReadForBlank("new.yaml", data, nil)
			if len(problems) > 0 {
				t.Errorf("%s, empty:\n%s%v", preset.Name, data, problems)
				continue
			}
			if j.Test().Engine.Layout != preset.Spec.Layout {
				t.Errorf("%s: a starter for %s", preset.Name, j.Test().Engine.Layout)
			}
			text, n := answered(string(data))
			if _, problems := Read("new.yaml", data, nil); placesSaid(problems) < n+len(j.Test().Engine.Names()) {
				t.Errorf("%s, not filled in, %d lines open: %v", preset.Name, n, problems)
			}
			number := "$1 160"
			if j.Test().Engine.Kind == engine.Rotary {
				number = "$1 [7.4, 7.2, 7.3]"
			}
			if _, problems := Read("new.yaml", []byte(unfilled.ReplaceAllString(text, number)), nil); len(problems) > 0 {
				t.Errorf("%s, filled in:\n%s%v", preset.Name, data, problems)
			}
		}
	}
}

// TestStarterComments: a starter whose comments are all taken in is a job. Of
// keys that exclude each other all but the first stay comments, and are sound
// in its place; so do those that name a file, and are where it is there.
func TestStarterComments(t *testing.T) {
	if testing.Short() {
		t.Skip("takes seconds")
	}
	for _, preset := range engine.Known() {
		for _, full := range []bool{false, true} {
			data, err := Starter(preset.Name, full, "")
			if err != nil {
				t.Fatal(err)
			}
			var first, other []string
			for line := range strings.Lines(string(data)) {
				// Prose begins with "# ".
				if strings.HasPrefix(line, "# ") && !strings.HasPrefix(line, "#  ") {
					continue
				}
				first = append(first, strings.TrimPrefix(line, "#"))
				if full && !replaced.MatchString(line) {
					other = append(other, strings.TrimLeft(line, "#"))
				}
			}
			value := "$1 not tested"
			whole, _ := answered(string(data))
			bare := unfilled.ReplaceAllString(whole, value+"\nplugs: {looks: {all: normal}}")
			files := func(name string) ([]byte, error) { // those that the comments name
				switch name {
				case "logo.png":
					return []byte("\x89PNG\r\n\x1a\n"), nil
				case "photo-4.jpg":
					return []byte("\xff\xd8\xff"), nil
				case "2025-11-02.yaml":
					return []byte(strings.Replace(bare, "plugs: {looks: {all: normal}}", "", strings.Count(bare, "plugs: {looks: {all: normal}}")-1)), nil
				}
				return nil, fs.ErrNotExist
			}
			read := func(lines []string, files Opener) {
				whole, _ := answered(strings.Join(lines, ""))
				text := filledIn(unfilled.ReplaceAllString(whole, value))
				if _, problems := Read("new.yaml", []byte(text), files); len(problems) > 0 {
					t.Errorf("%s, full %v:\n%v\n%s", preset.Name, full, problems, text)
				}
			}
			read(first, nil)
			if full {
				read(other, files)
			}
		}
	}
}

// A sample that was not written over is reported, and never printed as a name
// or a limit; at the bench it is still to be written.
func TestUnchangedSamples(t *testing.T) {
	text := "engine: {layout: single}\njob: {number: ..., complaints: [misfire]}\nnotes: '...'\nrecommended: [...]\n" +
		"compression: {unit: psi, dry: {1: 160}, limits: {minimum: ...}}\n"
	_, problems := Read("new.yaml", []byte(text), nil)
	var got []string
	for _, p := range problems {
		if strings.Contains(p.Message, "stands for something still to be written") {
			got = append(got, fmt.Sprint(p.Line))
		}
	}
	if strings.Join(got, " ") != "2" || !strings.Contains(problems[0].Message, "and 3 more like it in lines 3, 4 and 5") {
		t.Errorf("%v", problems)
	}
	if _, problems := ReadForBlank("new.yaml", []byte(text), nil); len(problems) > 0 {
		t.Errorf("%v", problems)
	}
}

// TestStarterGuessesNothing: what is live in a starter is blank or what was
// asked for, and a comment taken in as it stands is refused, so that no sample
// becomes a reading of somebody's engine.
func TestStarterGuessesNothing(t *testing.T) {
	live := regexp.MustCompile(`(?m)^ *([\w ]+): *([^ #\n][^#\n]*?) *(?:#.*)?$`)
	for _, preset := range engine.Known() {
		for _, full := range []bool{false, true} {
			data, err := Starter(preset.Spec.Layout, full, "")
			if err != nil {
				t.Fatal(err)
			}
			for _, m := range live.FindAllStringSubmatch(string(data), -1) {
				if m[1] != "layout" {
					t.Errorf("%s: '%s' is live", preset.Name, m[0])
				}
			}
			for line := range strings.Lines(string(data)) {
				if !strings.HasPrefix(line, "#") || strings.HasPrefix(line, "# ") && !strings.HasPrefix(line, "#  ") {
					continue
				}
				if _, value, _ := strings.Cut(strings.SplitN(line, "#", 3)[1], ":"); strings.TrimSpace(value) != "" && strings.Trim(value, " []\n") != unchanged && !strings.HasPrefix(line, "##") {
					t.Errorf("%s: a comment shows a value: %s", preset.Name, line)
				}
			}
		}
	}
}

// Every key of the file is in the full starter, in the order of the bench.
func TestStarterOrder(t *testing.T) {
	for _, k := range fileKeys {
		if !slices.Contains(benchOrder, k.name) {
			t.Errorf("'%s' has no place in the order of the bench", k.name)
		}
	}
	data, _ := Starter("inline-4", true, "")
	last := -1
	for _, section := range []string{"\nengine:", "\n#conditions:", "\n#fuel-pressure:", "\n#plugs:", "\ncompression:", "\n#leakage:"} {
		at := strings.Index(string(data), section)
		if at < last {
			t.Errorf("%q comes too early", section)
		}
		last = at
	}
}

func TestStarterNumbering(t *testing.T) {
	asked, _ := Starter("v8, bank by bank", false, "")
	left, _ := Starter("V8", false, "")
	if !strings.Contains(string(asked), "\n  numbering: bank by bank ") {
		t.Errorf("no numbering in\n%s", asked)
	}
	if !regexp.MustCompile(`(?m)^  numbering: +# check your manual: across banks or bank by bank$`).Match(left) {
		t.Errorf("the numbering is not left to choose in\n%s", left)
	}
	for _, both := range []string{"(1)      (2)", "(1)      (5)", "1 on the right"} {
		if !strings.Contains(string(left), both) {
			t.Errorf("%s is not drawn in\n%s", both, left)
		}
	}
	if _, err := Starter("V7", false, ""); !errors.As(err, new(engine.Problem)) {
		t.Errorf("V7: %v", err)
	}
}

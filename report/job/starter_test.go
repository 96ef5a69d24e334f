package job

import (
	"errors"
	"fmt"
	"io/fs"
	"regexp"
	"strings"
	"testing"

	"gaugesheet/diag/engine"
)

// replaced are the lines whose place others take.
var replaced = regexp.MustCompile(`^(?:#? *numbering|#? *first-bank|#  altitude|#  dry|#  cylinders):`)

// toWrite are the values that the comments leave open, with what they are such
// as.
var toWrite = regexp.MustCompile(`(?m): (\[?)\.\.\.(\]?)( +#.*?)(?:, such as (.*)\.)?$`)

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

// TestStarters: the starter of every layout and numbering makes an empty bench
// sheet as it is, and a job once the numbers are typed in.
func TestStarters(t *testing.T) {
	for _, preset := range engine.Known() {
		for _, full := range []bool{false, true} {
			data, err := Starter(preset.Name, full)
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
			if _, problems := Read("new.yaml", data, nil); len(problems) != len(j.Test().Engine.Names()) {
				t.Errorf("%s, not filled in: %v", preset.Name, problems)
			}
			number := "$1 160"
			if j.Test().Engine.Kind == engine.Rotary {
				number = "$1 [7.4, 7.2, 7.3]"
			}
			if _, problems := Read("new.yaml", unfilled.ReplaceAll(data, []byte(number)), nil); len(problems) > 0 {
				t.Errorf("%s, filled in:\n%s%v", preset.Name, data, problems)
			}
		}
	}
}

// TestStarterComments: a starter whose comments are all taken in is a job. Of
// keys that exclude each other all but the first stay comments, and are sound
// in its place; so do those that name a file, and are where it is there.
func TestStarterComments(t *testing.T) {
	for _, preset := range engine.Known() {
		for _, full := range []bool{false, true} {
			data, err := Starter(preset.Name, full)
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
			bare := unfilled.ReplaceAllString(string(data), value+"\nplugs: {looks: {all: normal}}")
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
				text := filledIn(unfilled.ReplaceAllString(strings.Join(lines, ""), value))
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
	if strings.Join(got, " ") != "2 3 4 5" {
		t.Errorf("%v", problems)
	}
	if _, problems := ReadForBlank("new.yaml", []byte(text), nil); len(problems) > 0 {
		t.Errorf("%v", problems)
	}
}

func TestStarterNumbering(t *testing.T) {
	across, _ := Starter("V8", false)
	byBank, _ := Starter("v8, bank by bank", false)
	for text, data := range map[string][]byte{"numbering: across banks": across, "numbering: bank by bank": byBank} {
		if !strings.Contains(string(data), text) || strings.Count(string(data), "check your manual") < 2 {
			t.Errorf("no '%s' in\n%s", text, data)
		}
	}
	if _, err := Starter("V7", false); !errors.As(err, new(engine.Problem)) {
		t.Errorf("V7: %v", err)
	}
}

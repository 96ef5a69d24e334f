package job

import (
	"errors"
	"regexp"
	"strings"
	"testing"

	"gaugesheet/diag/engine"
)

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

// TestStarterComments: what stands in the comments of a starter is sound once
// the marks are taken away.
func TestStarterComments(t *testing.T) {
	for _, name := range []string{"V8, bank by bank", "inline-4", "rotary-2", "custom"} {
		data, err := Starter(name, true)
		if err != nil {
			t.Fatal(err)
		}
		var lines []string
		for line := range strings.Lines(string(data)) {
			// Prose begins with "# ", and files that are named are not there.
			if strings.HasPrefix(line, "# ") && !strings.HasPrefix(line, "#  ") || strings.Contains(line, "logo:") || strings.Contains(line, "earlier:") ||
				strings.Contains(line, "{name: front,") && name != "custom" || strings.Contains(line, "banks:") || strings.Contains(line, "firing-order: ...") ||
				strings.Contains(line, "heads:") || strings.Contains(line, "not-tested:") {
				continue
			}
			lines = append(lines, strings.TrimPrefix(line, "#"))
		}
		text := unfilled.ReplaceAllString(strings.Join(lines, ""), "$1 not tested")
		_, problems := Read("new.yaml", []byte(text), nil)
		for _, p := range problems {
			if strings.Contains(p.Message, "'...'") || strings.Contains(p.Message, "cylinder '") || strings.Contains(p.Message, "rotor '") {
				continue // a place to fill in, or an example with other cylinders
			}
			t.Errorf("%s: %v", name, p)
		}
		if t.Failed() {
			t.Log(text)
		}
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

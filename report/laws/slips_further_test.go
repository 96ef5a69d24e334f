package laws_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"gaugesheet/report/job"
)

// furtherFigure is a number that is no part of a word or of a key: what stands in
// front of a colon, with its unit, is one.
var furtherFigure = regexp.MustCompile(`[0-9]+(?:\.[0-9]+)?`)

// notRead are keys under which figures stand that nobody read off a gauge.
var notRead = []string{"unit", "order", "system", "limits", "limit", "oil", "dry", "gauge", "engine", "fitted"}

// furtherFigures finds the readings of a job beside the dry ones, as the examples
// write them: each with its section and its key.
func furtherFigures(text string) []readFigure {
	var out []readFigure
	at, section, key := 0, "", ""
	for _, line := range strings.SplitAfter(text, "\n") {
		body, _, _ := strings.Cut(strings.TrimRight(line, "\n"), " #")
		name, _, _ := strings.Cut(strings.TrimLeft(body, " "), ":")
		switch indent := len(body) - len(strings.TrimLeft(body, " ")); {
		case body == "" || name == "" || name[0] == '#':
		case indent == 0:
			section, key = name, ""
		case indent == 2:
			key = name
		}
		from := strings.Index(body, ":")
		if to := strings.Index(body, "limits"); to > from {
			body = body[:to]
		}
		if from >= 0 && from < len(body) && readIn(section, key) {
			for _, m := range furtherFigure.FindAllStringIndex(body[from:], -1) {
				f, t := from+m[0], from+m[1]
				rest := strings.TrimLeft(body[t:], " ")
				if word := body[f-1]; word >= 'a' && word <= 'z' || strings.HasPrefix(rest, ":") || strings.HasPrefix(rest, "min:") || strings.HasPrefix(rest, "rpm:") {
					continue
				}
				out = append(out, readFigure{at + f, at + t, section + "." + key})
			}
		}
		at += len(line)
	}
	return out
}

func readIn(section, key string) bool {
	sections := append(job.MeasuredNames(), "fuel-pressure", "leakage", "compression", "plugs")
	return slices.Contains(sections, section) && (!slices.Contains(notRead, key) || section == "leakage" && key == "dry")
}

// readItAgain are checks that take the reading itself again: the place of a loss that nobody
// noted, and whether a magneto without a drop can be switched off.
var readItAgain = []string{"leak-down-again", "magneto-ground-test"}

// doubtsAny reports that a sheet asks for some figure again, whichever.
func (s *subject) doubtsAny() bool {
	for _, n := range s.out.Notices {
		if n.Rule == "read-once" || n.Rule == "unit-suspect" {
			return true
		}
	}
	for _, st := range s.out.Stories {
		if st.NextCheck != nil && slices.Contains(readItAgain, st.NextCheck.Name) {
			return true
		}
	}
	return s.doubtsReading("")
}

// mostSilentFurther is how many of those slips may change a sheet in silence: what
// is left is a figure that another fault would show, 34 psi at idle as 43.
const mostSilentFurther = 40

// TestSlipsElsewhere makes every slip of a finger in the other readings of the
// examples.
func TestSlipsElsewhere(t *testing.T) {
	slipsIn(t, furtherFigures, func(s *subject, _ readFigure) bool { return s.doubtsAny() }, func(_ string, f readFigure) string { return f.cylinder }, mostSilentFurther)
}

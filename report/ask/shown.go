package ask

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"gaugesheet/diag/quantity"
	"gaugesheet/diag/story"
)

// hinted is what may be typed: the question's own words, or those of its key.
func (q *question) hinted(s *Session) string {
	switch {
	case q.hints != nil:
		return q.hints(s)
	case q.hint != "":
		return q.hint
	}
	k := keyAt(q.path)
	switch {
	case len(k.Words) > 0 && len(k.Words) <= 6:
		return strings.Join(named(k), ", ")
	case len(k.Words) > 0:
		return strings.Join(named(k)[:3], ", ") + " ... ? lists them"
	case k.Written == "yes or no":
		return "y or n"
	case k.Example != "" && !strings.ContainsAny(k.Example, "{["):
		return "such as " + strings.Trim(k.Example, `"`)
	}
	return ""
}

// explain answers '?'.
func (s *Session) explain(q *question) {
	if q.begin != nil {
		q.begin(s)
	}
	if q.help != "" {
		s.say(q.help)
	}
	k := keyAt(cmp.Or(q.words, q.path))
	if k.Doc != "" {
		s.say(k.Doc)
	}
	for _, w := range k.Words {
		text := "  " + w.Name
		if len(w.Also) > 0 {
			text += ", also " + strings.Join(w.Usual(), ", ")
		}
		s.say(text)
	}
}

// shown says what was understood of an answer.
func (s *Session) shown(q *question, entries []entry) {
	if len(entries) == 1 && isState(shownValue(entries[0].value)) {
		s.say("= " + shownValue(entries[0].value))
		return
	}
	if q.show != nil {
		q.show(s, entries)
		return
	}
	k := keyAt(q.path)
	var parts []string
	for _, e := range entries {
		text := shownValue(e.value)
		if len(entries) > 1 {
			text = strings.ReplaceAll(e.path[len(e.path)-1], "-", " ") + " " + text
		}
		if e.path[len(e.path)-1] != "unit" && !slices.Contains(parts, text) {
			parts = append(parts, text)
		}
	}
	if len(entries) > 1 || len(k.Words) > 0 || k.Written == "yes or no" || q.tells || len(parts) == 1 && isState(parts[0]) { // words of one's own are as they were typed
		s.say("= " + strings.Join(parts, ", "))
	}
}

// shownValue is a value of the job file as one reads it.
func shownValue(value string) string {
	if text, ok := strings.CutPrefix(value, "["); ok {
		return strings.TrimSuffix(text, "]")
	}
	return strings.Trim(value, `"`)
}

// byCylinder shows values where they belong: a line for each bank.
func (s *Session) byCylinder(entries []entry) {
	said := map[string]string{}
	for _, e := range entries {
		if e.path[len(e.path)-1] != "unit" {
			said[cylinderOf(s, e.path)] = shownValue(e.value)
		}
	}
	rest, unit := said[others], unitOf(entries)
	widest := 1
	for _, text := range said {
		widest = max(widest, len([]rune(text)))
	}
	show := func(label string, names []string) {
		var line strings.Builder
		for _, name := range names {
			text, ok := said[name]
			switch {
			case !ok && rest != "":
				text = rest
			case !ok:
				text = notRecorded
			}
			fmt.Fprintf(&line, "  %s: %-*s", name, widest, text)
		}
		s.say(strings.TrimRight(label+line.String(), " "))
	}
	switch {
	case len(s.engine.Banks) == 2 && !s.leftOpen(s.draft):
		a, b := s.engine.Banks[0].Name, s.engine.Banks[1].Name
		width := max(len(a), len(b))
		for _, bank := range s.engine.Banks {
			show(fmt.Sprintf("= %-*s", width, bank.Name), bank.Cylinders)
		}
	default:
		show("=", s.engine.Names())
	}
	if unit != "" {
		s.say("  in " + unit)
	}
}

// cylinderOf is the cylinder, or 'others', in a path.
func cylinderOf(s *Session, path []string) string {
	for _, key := range path {
		if key == others || key == "all" || slices.Contains(s.engine.Names(), key) {
			if key == "all" {
				return others
			}
			return key
		}
	}
	return ""
}

func unitOf(entries []entry) string {
	for _, e := range entries {
		if e.path[len(e.path)-1] == "unit" {
			return e.value
		}
	}
	return ""
}

// compressionShown shows the readings with how far they lie apart.
func compressionShown(s *Session, entries []entry) {
	s.byCylinder(entries)
	if s.job == nil {
		return
	}
	c := story.Diagnose(s.job.Test()).Compression
	if c == nil || c.N < 2 || c.Highest <= 0 {
		return
	}
	print := func(v float64) string { return quantity.Format(v, c.Decimals) }
	s.say(fmt.Sprintf("  highest %s, lowest %s: %s %% apart", print(c.Highest), print(c.Lowest), quantity.Format(100*(c.Highest-c.Lowest)/c.Highest, 0)))
}

package ask

import (
	"slices"
	"strings"

	"gaugesheet/report/job"
)

// offered is what the answer to a line says to write in the place of a part of it.
var offered = lazily(`^(?:write|did you mean) '?([0-9A-Za-z./%-]+(?: [a-z%]+)?)'?\??$`)

// quotedPart is the part of a line that a message speaks of.
var quotedPart = lazily(`^'[^']*' is '([^']+)'`)

// offer puts what was probably meant by a refused line behind the question, so that
// Enter takes it. It is offered where the reader names one thing to write.
func (s *Session) offer(q *question, line string, problems job.Problems) {
	if len(problems) != 1 {
		return
	}
	write, part := offered().FindStringSubmatch(problems[0].Hint), quotedPart().FindStringSubmatch(problems[0].Message)
	if write == nil || part == nil || strings.Count(line, part[1]) != 1 {
		return
	}
	isWord := slices.ContainsFunc(keyAt(q.path).Words, func(w job.Word) bool { return w.Name == write[1] })
	if !isWord && !strings.ContainsAny(write[1], "0123456789") && q.path != "engine.layout" {
		return
	}
	s.was[q.path] = strings.Replace(line, part[1], write[1], 1)
	s.say("Enter takes " + s.was[q.path])
}

// takeComplaints takes words for what is wrong. What is none of them is kept as the
// reason of the test, in the words of who typed it.
func takeComplaints(s *Session, line string) ([]entry, error) {
	k := keyAt("job.complaints")
	if colour, rest := smokeIn(line); colour != "" { // blue smoke, no power
		entries, err := []entry(nil), error(nil)
		if rest != "" {
			entries, err = takeComplaints(s, rest)
		}
		return append(entries, at("smoke.colour", colour)), err
	}
	words := manyWords(k, line)
	known := slices.DeleteFunc(slices.Clone(words), func(w string) bool { return !isWord(k, w) })
	if len(known) == len(words) || !plainly(line) || job.Answered("job.complaints", line) {
		return asWords("job.complaints")(s, line)
	}
	out := []entry{at("job.reason", line)}
	for i, w := range known {
		known[i], _ = oneWord(k, w)
	}
	if len(known) > 0 {
		out = append(out, entry{strings.Split("job.complaints", "."), flow(known)})
	}
	return out, nil
}

// smokeIn takes smoke of a colour out of a line, 'blue smoke' or 'smokes white', and
// gives the colour and the rest; "" for no such smoke.
func smokeIn(line string) (colour, rest string) {
	k := keyAt("smoke.colour")
	var left []string
	for part := range strings.SplitSeq(strings.NewReplacer(" and ", ",", " & ", ",", ";", ",").Replace(line), ",") {
		words, smoke, found := []string(nil), false, ""
		for _, w := range strings.Fields(part) {
			switch {
			case slices.Contains([]string{"smoke", "smokes", "smoking"}, fold(w)):
				smoke = true
			case found == "" && isWord(k, w):
				found, _ = oneWord(k, w)
			default:
				words = append(words, w)
			}
		}
		if !smoke || found == "" || len(words) > 0 {
			left = append(left, strings.TrimSpace(part))
			continue
		}
		colour = found
	}
	return colour, strings.Join(left, ", ")
}

// plainly reports words, which no figures and no slip of a hand are: two at least.
func plainly(line string) bool {
	return len(strings.Fields(line)) > 1 && !strings.ContainsAny(line, "0123456789=")
}

func complaintsShown(s *Session, entries []entry) {
	for _, e := range entries {
		switch text := shownValue(e.value); e.path[len(e.path)-1] {
		case "reason":
			s.say("= kept as the reason of the test; ? lists the complaints that the sheet looks into")
		case "colour":
			s.say("= smoke " + text)
		default:
			s.say("= " + text)
		}
	}
}

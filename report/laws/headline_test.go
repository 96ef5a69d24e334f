package laws_test

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// A worst is a subject that is as urgent as the worst.
type worst struct {
	what      string
	cylinders []string
	fuel      bool
}

func (s *subject) worsts() []worst {
	var all []worst
	for _, one := range s.out.Stories {
		if one.Urgency == s.out.Verdict.Urgency {
			all = append(all, worst{"the story about " + one.About, one.Cylinders, one.About == "fuel" || one.About == "mixture"})
		}
	}
	if s.out.told() {
		return all
	}
	for _, f := range s.out.lead() {
		if f.Urgency == s.out.Verdict.Urgency {
			all = append(all, worst{f.Rule, f.Cylinders, fuelRule.MatchString(f.Rule)})
		}
	}
	return all
}

var fuelWords = regexp.MustCompile(`(?i)fuel|regulator|pump|rich|lean|pressure not held|mixture|plug|spark|soot|ash|gas|trim|burn|computer|leaks into`)

var wholeEngine = regexp.MustCompile(`(?i)\b(all|both|every|no cylinder|none|any cylinder|one side|one bank|bank|each|the cylinder|the engine|overall|everywhere|even)\b`)

// headline looks for every cylinder of what is as urgent as the worst, from
// 'act soon' up.
func headline(s *subject, k *tally) {
	if rank(s.out.Verdict.Urgency) < rank(actSoon) {
		return
	}
	for _, w := range s.worsts() {
		k.saw()
		sentence := s.out.Verdict.Sentence
		if w.fuel && !fuelWords.MatchString(sentence) {
			k.fail("%s is as urgent as the worst, and the headline is %q", w.what, sentence)
		}
		if w.fuel || wholeEngine.MatchString(sentence) && len(w.cylinders) > 1 || len(s.names()) == 1 {
			continue
		}
		for _, name := range w.cylinders {
			if s.out.asksNothingOf(name) { // it was only told beside them
				continue
			}
			if !names(strings.Replace(sentence, fmt.Sprintf("of %d", len(s.names())), "", 1), name) {
				k.fail("%s of %v is as urgent as the worst, and the headline is %q", w.what, w.cylinders, sentence)
				break
			}
		}
	}
}

// asksNothingOf reports a cylinder that findings name, and none of those asks for anything.
func (o *outcome) asksNothingOf(cylinder string) bool {
	named := false
	for _, f := range o.Findings {
		if slices.Contains(f.Cylinders, cylinder) {
			if rank(f.Urgency) > 0 {
				return false
			}
			named = true
		}
	}
	return named
}

// inARow are cylinders told by the first and the last of them.
var inARow = regexp.MustCompile(`\b(\d+) to (\d+)\b`)

// names tells whether a sentence names a cylinder, as a word of its own or between the first
// and the last of a row.
func names(sentence, cylinder string) bool {
	for _, row := range inARow.FindAllStringSubmatch(sentence, -1) {
		n, err := strconv.Atoi(cylinder)
		first, _ := strconv.Atoi(row[1])
		last, _ := strconv.Atoi(row[2])
		if err == nil && first < n && n < last {
			return true
		}
	}
	for at := 0; ; {
		i := strings.Index(sentence[at:], cylinder)
		if i < 0 {
			return false
		}
		i += at
		digit := func(i int) bool { return i >= 0 && i < len(sentence) && sentence[i] >= '0' && sentence[i] <= '9' }
		if !digit(i-1) && !digit(i+len(cylinder)) {
			return true
		}
		at = i + 1
	}
}

var testWords = regexp.MustCompile(`(?i)\btest(ed)?\b|battery|gauge|throttle|starting aid|decompress|cannot judge|unit\b|readings? (disagree|cannot)|breathe|too slowly`)

func testLeads(s *subject, k *tally) {
	for _, one := range s.out.Stories {
		if len(one.CauseNames) > 0 && slices.Contains([]string{"limit-wrong", "altitude"}, one.CauseNames[0]) { // the book is in doubt, and not the test
			continue
		}
		if one.About == "test" && one.Urgency == s.out.Verdict.Urgency && rank(one.Urgency) == rank(checkAgain) {
			k.saw()
			if i := s.out.Verdict.About; i == nil || *i < 0 || *i >= len(s.out.Stories) || s.out.Stories[*i].About != "test" {
				k.fail("the test itself is in doubt (%q), and the headline is %q", one.Says, s.out.Verdict.Sentence)
			}
		}
	}
	// A shut throttle and a decompressor only lower a reading: what is over its
	// minimum all the same is good.
	over := slices.ContainsFunc(s.out.Compression.Limits, func(l limit) bool { return l.Rule == "minimum" && l.Verdict == "within" })
	if why := s.spoilt(); why != "" && !over && !s.enough() && len(s.dry()) > 0 && rank(s.out.Verdict.Urgency) <= rank(checkAgain) {
		k.saw()
		if why == "decompressor" && (s.tree.has("job", "complaints") || !s.leadRestsOn("compression")) { // it is built so, and no fault of the test: what explains the owner's complaint may lead, or what another test found
			return
		}
		if !testWords.MatchString(s.out.Verdict.Sentence) && len(s.tree.sub("leakage").keysOrNone()) == 0 && !s.tree.has("vehicle", "work-done") {
			k.fail("%s at work in the test, and the headline is %q", why, s.out.Verdict.Sentence)
		}
	}
	for _, n := range s.out.Notices {
		if n.Rule == "falls-in-test-order" && strings.Contains(n.Says, "again at the end") {
			k.saw()
			if rank(s.out.Verdict.Urgency) < rank(doNotRun) && !testWords.MatchString(s.out.Verdict.Sentence+s.out.Verdict.Advice) {
				k.fail("%q, and the headline is %q", n.Says, s.out.Verdict.Sentence)
			}
		}
	}
}

var testFirst = regexp.MustCompile(`(?i)checked before the engine|come before timing|comes first|provisional`)

// ofFuelOrSpark are the rules that go by an injector, a spark, a plug or the
// mixture, whatever the cylinder makes.
var ofFuelOrSpark = regexp.MustCompile(`^(coolant-|injector-|lean-by-injector|pulls-|miss-|trim|gas-|plug)`)

// sureIsNotDoubted: a story on the engine or its cylinders that leads and is
// strong stands beside no remark that the test is to be made again first.
func sureIsNotDoubted(s *subject, k *tally) {
	i := s.out.Verdict.About
	if i == nil || *i < 0 || *i >= len(s.out.Stories) {
		return
	}
	lead := s.out.Stories[*i]
	if lead.Confidence != "strong" || lead.About != "cylinders" && lead.About != "engine" {
		return
	}
	if !slices.ContainsFunc(lead.For, func(rule string) bool { return !ofFuelOrSpark.MatchString(rule) }) {
		return // the remark is on the pressure, of which the story does not speak
	}
	k.saw()
	for _, n := range s.out.Notices {
		if n.Rule == "all-low-check-the-test" && (len(lead.Cylinders) > 0 && len(lead.Cylinders) < len(s.names()) || lead.For[0] == "liquid-in-cylinder" || strings.HasPrefix(lead.For[0], "seen-")) {
			continue // it speaks of a pressure that all have in common, the story of what some have beside it, or of what was seen
		}
		if testFirst.MatchString(n.Says) && (len(n.Cylinders) == 0 || overlap(n.Cylinders, lead.Cylinders)) {
			k.fail("%q is strong, and a remark says %q", lead.Says, n.Says)
		}
	}
}

// leadRestsOn tells that the story that the headline is about rests on a test.
func (s *subject) leadRestsOn(test string) bool {
	i := s.out.Verdict.About
	return i != nil && *i >= 0 && *i < len(s.d.Stories) && slices.Contains(s.d.Stories[*i].Tests, test)
}

package laws_test

import (
	"regexp"
	"strings"
)

var (
	others  = regexp.MustCompile(`(?i)\bthe (others|rest)\b|\bthe other (cylinders|faces|plugs)\b|\bothers (read|are|look|agree)\b|\bOthers\b`)
	medians = regexp.MustCompile(`(?i)\bmedian\b|\btypical\b`)
)

func othersWereRead(s *subject, k *tally) {
	for _, f := range s.out.Findings {
		n := s.read(f.Rule)
		if fuelRule.MatchString(f.Rule) || s.rotary() || n > 3 {
			continue
		}
		k.saw()
		for _, text := range []string{f.Says, f.Because} {
			if m := others.FindString(text); m != "" && n < 3 {
				k.fail("%s says %q with %d read: %q", f.Rule, m, n, text)
			}
			if m := medians.FindString(text); m != "" && n < 4 {
				k.fail("%s says %q with %d read: %q", f.Rule, m, n, text)
			}
		}
	}
	if n := s.read(""); n < 3 && !s.rotary() {
		if m := others.FindString(s.out.Verdict.Sentence); m != "" {
			k.fail("the verdict says %q with %d read: %q", m, n, s.out.Verdict.Sentence)
		}
	}
}

// answers are the words by which a complaint is answered.
var answers = map[string]*regexp.Regexp{
	"misfire": regexp.MustCompile(`(?i)misfir`), "no start": regexp.MustCompile(`(?i)no[- ]start|not start|starting\b|to start\b`),
	"hard start": regexp.MustCompile(`(?i)hard[- ]start|start(s|ing)? (hard|badly)|hard to start|starting\b|slow to start`), "rich running": regexp.MustCompile(`(?i)\brich`),
	"lean running": regexp.MustCompile(`(?i)\blean`), "low power": regexp.MustCompile(`(?i)\bpower\b`), "oil use": regexp.MustCompile(`(?i)oil use|use of oil|oil consumption|uses oil|oil it uses`),
	"coolant loss": regexp.MustCompile(`(?i)coolant (loss|lost)|loss of coolant|loses coolant|lost coolant`), "overheating": regexp.MustCompile(`(?i)overheat|too hot|runs hot`),
	"noise": regexp.MustCompile(`(?i)\bnois`), "stood": regexp.MustCompile(`(?i)\bstood\b|standing`),
}

func complaintsAnswered(s *subject, k *tally) {
	text := strings.ReplaceAll(s.allText(), "starting aid", "")
	for _, c := range s.complaints() {
		k.saw()
		if !answers[c].MatchString(text) {
			k.fail("the complaint %q is answered nowhere", c)
		}
	}
}

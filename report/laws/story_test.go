package laws_test

import (
	"regexp"
	"slices"
	"strings"
)

var storyLaws = []law{
	{name: "O2 urgency and first suspect", least: 800, says: "what a story suspects first explains what presses in it, and not only what was found beside that", check: firstSuspect},
	{name: "O3 a ban's check is about its reason", least: 60, says: "the next check of a story that stops the engine speaks of what it is stopped for", check: bansCheck},
	{name: "O2 look inside", least: 30, says: "a headline that asks for a look inside has a look as its next check", check: lookInside},
	{name: "O1 one subject, one story", least: 800, says: "no two stories are about the same cylinders, and of the other subjects there is one each", check: oneStory},
	{name: "O1 every finding in its story", least: 800, says: "every finding stands in a story; all but the first of a story say by whom they are said", check: findingsInStories},
	{name: "O1 first here, spoken against there", least: 400, says: "a cause that comes first of a cylinder is not spoken against elsewhere on the page", check: notBothWays},
	{name: "O1 one order of causes", least: 100, says: "two causes stand in one order wherever they are listed of a cylinder", check: oneOrder},
	{name: "O2 headline names the worst", least: 400, says: "the headline names everything that is as urgent as the worst", check: headline},
	{name: "O2 headline and box", least: 800, says: "the headline is about a story, of its urgency, and the box holds that story's check",
		check: func(s *subject, k *tally) {
			if !s.out.told() {
				k.notThere("verdict.about")
				return
			}
			if s.out.Verdict.About == nil { // then nothing asks for action but the test, or what is missing
				if slices.ContainsFunc(s.out.Stories, func(a account) bool { return rank(a.Urgency) > rank(checkAgain) }) {
					k.fail("the headline %q is about no story", s.out.Verdict.Sentence)
				}
				return
			}
			k.saw()
			i := *s.out.Verdict.About
			if i < 0 || i >= len(s.out.Stories) {
				k.fail("verdict.about is %d of %d stories", i, len(s.out.Stories))
				return
			}
			one := s.out.Stories[i]
			if rank(one.Urgency) < rank(s.out.Verdict.Urgency) {
				k.fail("the verdict is %q, the story that it is about %q", s.out.Verdict.Urgency, one.Urgency)
			}
			if c := s.out.Verdict.NextCheck; c != nil && one.NextCheck != nil && c.Name != one.NextCheck.Name {
				k.fail("the box asks for %s, the story that the headline is about for %s", c.Name, one.NextCheck.Name)
			}
		}},
	{name: "O1 what is proved asks for nothing", least: 5, says: "a repair is proved of no cylinder of which a story asks for something", check: provedIsSound},
	{name: "O2 the test itself leads", least: 40, says: "where the test itself is proven at fault that is the headline", check: testLeads},
	{name: "O1 strong and not doubted", least: 20, says: "what a page is sure of, no remark on the same page puts behind the test itself", check: sureIsNotDoubted},
	{name: "O2 an urgent sheet has a check", least: 800, says: "what asks for action has a next check, or the repair of what was measured or seen",
		check: func(s *subject, k *tally) {
			if rank(s.out.Verdict.Urgency) == 0 {
				return
			}
			k.saw()
			if s.out.Verdict.NextCheck == nil && s.repair() == "" && !s.tree.has("borescope") && !s.tree.has("vehicle", "work-done") && !s.tree.has("leakage") && s.tree.text("engine", "fuel") != "" && !s.tree.has("plugs") && !s.tree.has("fuel-pressure") &&
				!s.tree.has("declined") && s.tree.text("engine", "runs") != "does not run" { // what was refused is not asked for, and what has to run cannot be
				k.fail("%q: %q, and no next check", s.out.Verdict.Urgency, s.out.Verdict.Sentence)
			}
		}},
	{name: "O5 strong", least: 60, says: "strong needs two kinds of test of that subject and is never contradicted", check: strongIsEarned},
	{name: "O5 a plug's colour alone", least: 40, says: "the colour of plugs, with no other test and no complaint beside it, is weak", check: colourAlone},
	{name: "O5 three that agree", least: 30, says: "three kinds of test that agree name their cause first and are never weak", check: threeAgree},
	{name: "O5 order of findings", least: 500, says: "findings stand with the more urgent first",
		check: func(s *subject, k *tally) {
			if s.out.told() { // then they stand in the order of the stories
				list := s.out.Stories
				for i := 1; i < len(list); i++ {
					k.saw()
					if rank(list[i].Urgency) > rank(list[i-1].Urgency) {
						k.fail("the story about %s is %q, after one that is %q", list[i].About, list[i].Urgency, list[i-1].Urgency)
					}
				}
				return
			}
			lead := s.out.lead()
			for i := 1; i < len(lead); i++ {
				k.saw()
				if rank(lead[i].Urgency) > rank(lead[i-1].Urgency) {
					k.fail("%s is %q, after %s, %q", lead[i].Rule, lead[i].Urgency, lead[i-1].Rule, lead[i-1].Urgency)
				}
			}
		}},
	{name: "O1 words fit the cylinders", least: 1000, says: "cylinders named in the JSON are the engine's, each once",
		check: func(s *subject, k *tally) {
			fit := func(at string, names []string) {
				k.saw()
				seen := map[string]bool{}
				for _, n := range names {
					if seen[n] || !slices.Contains(s.names(), n) {
						k.fail("%s is about %v", at, names)
					}
					seen[n] = true
				}
			}
			for _, f := range s.out.Findings {
				fit(f.Rule, f.Cylinders)
			}
			for _, p := range s.out.proposals() {
				fit(p.at+": "+p.Name, p.Cylinders)
			}
			for _, one := range s.out.Stories {
				fit("a story", one.Cylinders)
			}
		}},
}

// besideColour are sections and notes that say more than the colour of plugs: a head that
// stays cold is a test beside it.
var besideColour = [][]string{{"compression"}, {"leakage"}, {"fuel-pressure"}, {"borescope"}, {"trims"}, {"vehicle", "codes"}, {"smoke"}, {"coolant-gas-test"}, {"findings"},
	{"job", "oil-use"}, {"magnetos"}, {"heads"}}

// colourAlone looks at what the colour of plugs says in jobs that hold nothing beside it, and
// in one of eight others, of which it takes the engine and its plugs.
func colourAlone(s *subject, k *tally) {
	if s.rotary() {
		return
	}
	beside := len(s.complaints()) > 0 || slices.ContainsFunc(besideColour, func(path []string) bool {
		return s.tree.sub(path...) != nil || s.tree.has(path...) && !slices.Contains(mainTests, path[0]) // one that was declined says nothing
	})
	if beside && s.seed%8 == 0 && s.tree.sub("plugs") != nil {
		t := newTree()
		for _, key := range []string{"sheet", "engine", "plugs"} {
			if s.tree.has(key) {
				t.put(key, s.tree.get(key))
			}
		}
		t.set("2026-05-14", "job", "date")
		if s = s.vary(t); s == nil {
			return
		}
		beside = false
	}
	if beside {
		return
	}
	for _, f := range s.out.Findings {
		if colourRule.MatchString(f.Rule) {
			k.saw()
			if f.Confidence != "weak" {
				k.fail("%s of %v is %s", f.Rule, f.Cylinders, f.Confidence)
			}
		}
	}
}

var colourRule = regexp.MustCompile(`sooty|oil-wet|fuel-wet|white|lean-all|ash-deposits`)

func oneStory(s *subject, k *tally) {
	if !s.out.told() {
		k.notThere("stories")
		return
	}
	for i, a := range s.out.Stories {
		k.saw()
		if !slices.Contains([]string{"cylinders", "fuel", "mixture", "test", "engine", "system"}, a.About) {
			k.fail("a story is about %q", a.About)
		}
		if (a.About == "cylinders") != (len(a.Cylinders) > 0) && a.About == "cylinders" {
			k.fail("a story about cylinders names none")
		}
		if rank(a.Urgency) < 0 || !slices.Contains([]string{"weak", "fair", "strong"}, a.Confidence) || a.Says == "" || len(a.For) == 0 {
			k.fail("the story about %s %v has urgency %q, confidence %q, says %q, for %v", a.About, a.Cylinders, a.Urgency, a.Confidence, a.Says, a.For)
		}
		if len(a.Causes) != len(a.CauseNames) {
			k.fail("the story about %s has the causes %q and the names %q", a.About, a.Causes, a.CauseNames)
		}
		for _, b := range s.out.Stories[:i] {
			switch {
			case a.About != b.About:
			case a.About == "cylinders" && overlap(a.Cylinders, b.Cylinders):
				k.fail("two stories are about %v and %v", b.Cylinders, a.Cylinders)
			case a.About == "system" && a.System == b.System && a.Part == b.Part:
				k.fail("two stories are about the system %s", a.System)
			case a.About == "test" || a.About == "engine" || a.About == "mixture" && !s.tree.has("fuel-pressure", "circuits") && len(a.Cylinders) == 0:
				k.fail("two stories are about the %s", a.About)
			}
		}
	}
}

func provedIsSound(s *subject, k *tally) {
	for _, f := range s.out.Findings {
		if f.Rule != "repaired-and-proved" || len(f.Cylinders) == 0 {
			continue
		}
		k.saw()
		for _, one := range s.out.Stories {
			if one.About == "cylinders" && rank(one.Urgency) > 0 && overlap(one.Cylinders, f.Cylinders) {
				k.fail("%v are proved, and a story on %v: %q", f.Cylinders, one.Cylinders, one.Urgency)
			}
		}
	}
}

func findingsInStories(s *subject, k *tally) {
	if !s.out.told() {
		k.notThere("stories")
		return
	}
	leads := 0
	for _, f := range s.out.Findings {
		k.saw()
		if f.SaidBy == "" {
			leads++
		}
		in := 0
		for _, one := range s.out.Stories {
			if slices.Contains(one.For, f.Rule) && (one.About != "cylinders" || plugRule.MatchString(f.Rule) || mixtureRule.MatchString(f.Rule) || len(f.Cylinders) == 0 || overlap(one.Cylinders, f.Cylinders)) {
				in++
			}
		}
		if in == 0 {
			k.fail("%s of %v stands in no story", f.Rule, f.Cylinders)
		}
		if f.CauseNames == nil {
			k.fail("%s has no cause_names", f.Rule)
		}
	}
	if leads > len(s.out.Stories) {
		k.fail("%d findings are said by no other, in %d stories", leads, len(s.out.Stories))
	}
}

// keyword is what names a cause in words, whichever way it is put.
var keyword = map[string]*regexp.Regexp{
	"rings": regexp.MustCompile(`(?i)\brings?\b`), "exhaust-valve": regexp.MustCompile(`(?i)exhaust valve`), "inlet-valve": regexp.MustCompile(`(?i)inlet valve`),
	"head-gasket": regexp.MustCompile(`(?i)head gasket`), "wear": regexp.MustCompile(`(?i)\bwear\b|\bworn\b`), "cam-timing": regexp.MustCompile(`(?i)valve timing|cam timing`),
	"valve-lash": regexp.MustCompile(`(?i)\blash\b|clearance`), "scored-bore": regexp.MustCompile(`(?i)scor`), "carbon": regexp.MustCompile(`(?i)carbon`),
}

// Words that speak against.
var (
	away     = regexp.MustCompile(`(?i)(points? away from|speaks? against|rules? out|not|unlikely|rather than|no sign of|would not)`)
	awayFrom = regexp.MustCompile(`(?i)(points? away from|speaks? against|rules? out)[^.;]{0,40}`)
)

// A claim is what one entry says of a cylinder.
type claim struct {
	at      string
	first   string // cause
	causes  []string
	against []string
}

// claims are the entries about a cylinder that the page says: the stories, or
// the findings where there are none.
func (s *subject) claims(cylinder string) []claim {
	var all []claim
	for _, one := range s.out.Stories {
		if slices.Contains(one.Cylinders, cylinder) {
			all = append(all, claim{"story " + one.About, firstOf(one.CauseNames), one.CauseNames, one.Against})
		}
	}
	for _, f := range s.out.lead() {
		if slices.Contains(f.Cylinders, cylinder) {
			all = append(all, claim{"finding " + f.Rule, firstOf(f.CauseNames), f.CauseNames, f.Against})
		}
	}
	return all
}

func firstOf(names []string) string {
	if len(names) == 0 {
		return ""
	}
	return names[0]
}

// judged are the cylinders about which anything is said, those with nothing
// else said of all alike left out.
func (s *subject) judged() []string {
	var out []string
	for _, name := range s.names() {
		if len(s.claims(name)) > 0 {
			out = append(out, name)
		}
	}
	return out
}

func notBothWays(s *subject, k *tally) {
	var contrary []sentence
	for _, one := range s.out.said() {
		if m := awayFrom.FindString(one.text); m != "" {
			contrary = append(contrary, sentence{one.at, m})
		}
	}
	for _, name := range s.judged() {
		list := s.claims(name)
		for _, a := range list {
			word := keyword[a.first]
			if word == nil {
				continue
			}
			k.saw()
			for _, b := range list {
				if b.first == a.first {
					continue
				}
				for _, text := range b.against {
					if word.MatchString(text) && !away.MatchString(strings.Split(text, word.FindString(text))[0]) {
						k.fail("%s: %s puts %s first, %s has against: %q", name, a.at, a.first, b.at, text)
					}
				}
			}
			for _, one := range contrary {
				if word.MatchString(one.text) && s.speaksOf(one.at, name) {
					k.fail("%s: %s puts %s first, %s says %q", name, a.at, a.first, one.at, one.text)
				}
			}
		}
	}
}

// speaksOf tells whether the finding at a place is about a cylinder.
func (s *subject) speaksOf(at, cylinder string) bool {
	return slices.ContainsFunc(s.out.lead(), func(f finding) bool {
		return at == "finding "+f.Rule && slices.Contains(f.Cylinders, cylinder)
	})
}

// oneOrder looks at every pair of causes that two entries about one cylinder
// have in common.
func oneOrder(s *subject, k *tally) {
	for _, name := range s.judged() {
		list := s.claims(name)
		for i, a := range list {
			for _, b := range list[:i] {
				if a.first == "" || b.first == "" || plugRule.MatchString(strings.TrimPrefix(a.at, "finding ")) != plugRule.MatchString(strings.TrimPrefix(b.at, "finding ")) {
					continue
				}
				k.saw()
				for x := range a.causes {
					for y := x + 1; y < len(a.causes); y++ {
						bx, by := slices.Index(b.causes, a.causes[x]), slices.Index(b.causes, a.causes[y])
						if bx >= 0 && by >= 0 && by < bx {
							k.fail("%s: %s has %v, %s has %v", name, a.at, a.causes, b.at, b.causes)
						}
					}
				}
			}
		}
	}
}

func (t *tree) keysOrNone() []string {
	if t == nil {
		return nil
	}
	return t.keys
}

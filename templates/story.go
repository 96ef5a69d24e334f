package templates

import (
	"slices"
	"strings"

	"gaugesheet/diag"
)

// SaidStory is a story in words.
type SaidStory struct {
	Says    string
	Because string // and which complaints it explains
	Beside  string // with what Because ends: what else was found on the subject
	Causes  []string
	Against []string
	Doubts  []string
	Next    *SaidCheck
}

// mostBeside is how many findings beside the leading one a story tells.
const mostBeside = 3

// Story says a story: the leading finding, what else was found on the subject,
// and the causes once for all of it. An error names the entry that the
// catalogue lacks or the fact that its words miss.
func (c *Catalogue) Story(s diag.Story, a Audience) (SaidStory, error) {
	sp := &speaker{c: c, a: a, facts: diag.Facts{}}
	said := SaidStory{Causes: sp.placed("causes", s.Causes), Against: sp.placed("against", s.Against), Doubts: sp.phrases("doubts", s.Doubts)}
	if s.About == diag.AboutTest {
		said.Says, said.Because = sp.notices(s.Notices)
	} else {
		said.Says, said.Because, said.Beside = sp.members(s.Members)
	}
	if len(s.Codes) > 0 {
		said.Because = strings.TrimSpace(said.Because + " " + sp.label("story.codes", diag.Facts{"codes": diag.Names(s.Codes)}))
	}
	if len(s.Explains) > 0 {
		said.Because = strings.TrimSpace(said.Because + " " + sp.label("story.explains", diag.Facts{"complaints": sp.complaints(s.Explains)}))
	}
	said.Because = strings.TrimSpace(said.Because + " " + said.Beside)
	if s.Next != nil {
		said.Next = sp.check(*s.Next)
	}
	return said, sp.err
}

// members tells the leading finding whole and of the others, as far as nothing
// says them better, what they found.
func (s *speaker) members(members []diag.Finding) (says, because, also string) {
	if len(members) == 0 {
		return "", "", ""
	}
	lead := s.finding(members[0])
	var beside []string
	before := lead.Says
	for _, f := range members[1:] {
		if f.SaidBy != members[0].Rule || f.Better || len(beside) == mostBeside {
			continue
		}
		if other := s.finding(f); other.Says != lead.Says {
			beside = append(beside, s.withoutSubject(other.Says, before, f, members[0]))
			before = other.Says
		}
	}
	if len(beside) > 0 {
		also = s.label("story.also", diag.Facts{"found": strings.Join(beside, ". ")})
	}
	return lead.Says, lead.Because, also
}

// withoutSubject is what a finding says without naming again whom the story is
// about: "Low, and weak by balance" of "Cylinder 5: low, and weak by balance", and,
// where the finding before it begins with the same, "It loses test air" of
// "Cylinder 5 loses test air".
func (s *speaker) withoutSubject(says, before string, f, lead diag.Finding) string {
	if len(f.Cylinders) == 0 || !slices.Equal(f.Cylinders, lead.Cylinders) {
		return says
	}
	subject, err := capitalOf(s.c.cylinders(f.Cylinders))
	if err != nil && s.err == nil {
		s.err = err
	}
	if rest, ok := strings.CutPrefix(says, subject+": "); ok {
		rest, _ = capitalOf(rest, nil)
		return rest
	}
	if rest, ok := strings.CutPrefix(says, subject+" "); ok && strings.HasPrefix(strings.Replace(before, ":", " ", 1), subject+" ") {
		if s.a == Workshop { // whose words are notes, often without a verb
			rest, _ = capitalOf(rest, nil)
			return rest
		}
		return s.label("story.subject", diag.Facts{"of": diag.Names(f.Cylinders)}) + " " + rest
	}
	return says
}

func (s *speaker) finding(f diag.Finding) Said {
	f.Causes, f.Against, f.Doubts, f.Next = nil, nil, nil, nil
	said, err := s.c.Finding(f, s.a)
	if err != nil && s.err == nil {
		s.err = err
	}
	return said
}

// notices tells what has to be known of the test.
func (s *speaker) notices(list []diag.Notice) (says, because string) {
	var texts []string
	for _, n := range list {
		text, err := s.c.Notice(n, s.a)
		if err != nil && s.err == nil {
			s.err = err
		}
		texts = append(texts, text)
	}
	return s.label("story.test", diag.Facts{}), strings.Join(texts, " ")
}

// placed says causes, or what speaks against one, each with the cylinders that it concerns
// where these are not all of the story's.
func (s *speaker) placed(section string, phrases []diag.Phrase) []string {
	said := s.phrases(section, phrases)
	for i, p := range phrases {
		if at, ok := p.Facts["at"].(diag.Names); ok && len(at) > 0 {
			said[i] = s.label("cause.at", diag.Facts{"cause": said[i], "at": at})
		}
	}
	return said
}

// complaints are the job's complaints in words.
func (s *speaker) complaints(names []string) diag.Names {
	list := make(diag.Names, len(names))
	for i, n := range names {
		said, err := s.c.Complaint(n)
		if err != nil && s.err == nil {
			s.err = err
		}
		list[i] = said
	}
	return list
}

func (s *speaker) label(key string, facts diag.Facts) string {
	said, err := s.c.Label(key, facts)
	if err != nil && s.err == nil {
		s.err = err
	}
	return said
}

// A SaidStep is a check of the plan in words, with where each outcome leads.
type SaidStep struct {
	Check SaidCheck
	Leads []SaidLead
}

// A SaidLead is where one outcome leads: what it shows, what that means, what
// comes next.
type SaidLead struct{ If, Then string }

// Step says a check of the plan.
func (c *Catalogue) Step(step diag.Step, a Audience) (SaidStep, error) {
	s := &speaker{c: c, a: a, facts: diag.Facts{}}
	said := SaidStep{Check: *s.check(*step.Check)}
	for i, lead := range step.Leads {
		one := SaidLead{}
		if i < len(said.Check.Outcomes) {
			one.If = said.Check.Outcomes[i].If
		}
		facts := diag.Facts{"cause": "", "check": "", "minutes": 0, "on": diag.Names(nil), "work": "", "settled": lead.Settled}
		switch { // what an outcome shows is said by the check itself; what is left is only suspected
		case i < len(said.Check.Outcomes) && said.Check.Outcomes[i].Then != "":
			facts["cause"] = s.andLeft(said.Check.Outcomes[i].Then, lead)
		case lead.Cause != "":
			facts["cause"] = s.phrases("causes", []diag.Phrase{{Key: lead.Cause, Facts: lead.Facts}})[0]
		}
		if lead.Next != nil {
			facts["check"], facts["minutes"] = s.checkBriefly(*lead.Next).Name, lead.Next.Minutes
			if !lead.Next.Shown && !slices.Equal(lead.Next.Cylinders, step.Check.Cylinders) {
				facts["on"] = diag.Names(lead.Next.Cylinders)
			}
		}
		if key := "work." + lead.Repair; c.Has("labels", key) {
			facts["work"] = s.label(key, diag.Facts{})
		}
		one.Then = s.label("plan.then", facts)
		said.Leads = append(said.Leads, one)
	}
	return said, s.err
}

// Lead is what an outcome says with what it leaves, where it shows nothing and nothing more
// is asked.
func (c *Catalogue) Lead(then string, lead diag.Lead, a Audience) (string, error) {
	s := &speaker{c: c, a: a, facts: diag.Facts{}}
	return s.andLeft(then, lead), s.err
}

func (s *speaker) andLeft(then string, lead diag.Lead) string {
	if !lead.Left {
		return then
	}
	left := s.phrases("causes", []diag.Phrase{{Key: lead.Cause, Facts: lead.Facts}})[0]
	return s.label("plan.left", diag.Facts{"then": then, "cause": left})
}

// withAlso names what else is as urgent as a verdict.
func (c *Catalogue) withAlso(verdict string, also []diag.Also, a Audience) (string, error) {
	s := &speaker{c: c, a: a, facts: diag.Facts{}}
	var names, found diag.Names
	var cylinders []string
	for _, o := range also {
		if o.About == diag.AboutCylinders && o.Found.Key == "" { // of several stories, in one list
			for _, name := range o.Cylinders {
				if !slices.Contains(cylinders, name) {
					cylinders = append(cylinders, name)
				}
			}
			continue
		}
		if o.Found.Key == "" {
			names = append(names, s.about(o))
			continue
		}
		says, err := c.Found(o.Found, a)
		if err != nil {
			return "", err
		}
		found = append(found, says)
	}
	if len(cylinders) > 0 {
		names = append(diag.Names{s.about(diag.Also{About: diag.AboutCylinders, Cylinders: cylinders})}, names...)
	}
	said := s.label("verdict.also", diag.Facts{"verdict": verdict, "also": names, "found": found})
	return said, s.err
}

// about names what a story is about.
func (s *speaker) about(o diag.Also) string {
	if o.About == diag.AboutSystem {
		return s.label("system."+diag.SystemKey(o.System, o.Part), diag.Facts{})
	}
	return s.label("about."+string(o.About), diag.Facts{"cylinders": diag.Names(o.Cylinders), "circuit": o.Circuit})
}

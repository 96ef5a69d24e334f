package story

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/cause"
	"gaugesheet/diag/known"
)

// secondSteps is how many of the checks that may come next are tried out too:
// each costs as many diagnoses as it has outcomes.
const secondSteps = 1

// plan tries out the next check: every outcome is entered into a copy of the
// test and diagnosed again; what may come next is tried out the same way, and
// no further. Second is how many of those are.
func plan(c *known.Case, d *diag.Diagnosis, second int) []diag.Step {
	if d.Next == nil || d.NextFor < 0 {
		return nil
	}
	at := diag.NoAction
	if d.Urgency == diag.DoNotRun {
		at = diag.DoNotRun
	}
	about := &d.Stories[d.NextFor]
	first, trials := try(c, d.Next, about, at)
	if first == nil {
		return nil
	}
	steps := []diag.Step{*first}
	seen := []string{d.Next.Key}
	for i, lead := range first.Leads {
		if lead.Next == nil || slices.Contains(seen, lead.Next.Key) || len(steps) > second {
			continue
		}
		seen = append(seen, lead.Next.Key)
		if step, _ := try(trials[i], lead.Next, about, at); step != nil {
			steps = append(steps, *step)
		}
	}
	markShown(c, d, steps)
	return steps
}

// markShown tells the checks of a plan that are made on cylinders of which nothing is
// known yet: an outcome of a check on the whole engine, or on those that were left out, was tried
// out on one of them.
func markShown(c *known.Case, d *diag.Diagnosis, steps []diag.Step) {
	if k := cause.CheckNamed(d.Next.Key); len(d.Next.Cylinders) > 0 && !k.Rest {
		return
	}
	every := len(c.Every())
	told := func(name string) bool {
		return slices.ContainsFunc(d.Stories, func(s diag.Story) bool {
			return len(s.Cylinders) < every && slices.Contains(s.Cylinders, name)
		})
	}
	for i := range steps {
		for _, lead := range steps[i].Leads {
			if lead.Next != nil && len(lead.Next.Cylinders) < every && !slices.ContainsFunc(lead.Next.Cylinders, told) {
				lead.Next.Shown = len(lead.Next.Cylinders) > 0
			}
		}
	}
}

// try gives where each outcome of a check leads, and the cases after them.
func try(c *known.Case, asked *diag.Check, about *diag.Story, at diag.Urgency) (*diag.Step, []*known.Case) {
	k := cause.CheckNamed(asked.Key)
	if k == nil {
		return nil, nil
	}
	step := &diag.Step{Check: asked}
	var trials []*known.Case
	for _, o := range k.Open(c) {
		after := cause.Try(c, k, o, asked.Cylinders)
		lead := leadsTo(after, about, o, at)
		if lead.Next != nil && endsAt(k, o, &lead) {
			lead.Next, lead.Settled = nil, true
		}
		lead.Left = lead.Left && lead.Next == nil && lead.Repair == "" && surest(c, k, lead.Cause) == 0 && asksOf(c, k, about)
		lead.Outcome = o.Name
		step.Leads, trials = append(step.Leads, lead), append(trials, after)
	}
	return step, trials
}

// suspects reports a cause that the page names for a story, and that says why.
func suspects(about *diag.Story, name string) bool {
	return !cause.Named(name).Vague && slices.ContainsFunc(about.Causes, func(p diag.Phrase) bool { return p.Key == name })
}

// asksOf reports a check that tells something of what the page suspects in a story: one that
// comes after it for another leaves nothing of this one's.
func asksOf(c *known.Case, k *cause.Check, about *diag.Story) bool {
	return slices.ContainsFunc(about.Causes, func(p diag.Phrase) bool { return surest(c, k, p.Key) > 0 })
}

// endsAt reports an outcome after which no check is planned: a test made again that shows the
// first to have been at fault, for its own figures are judged then; what is put right as the
// check is made, where the next would only put it right; and a fault of the whole engine that
// the story knows nothing of, which is put right before anything else is asked.
func endsAt(k *cause.Check, o *cause.Outcome, lead *diag.Lead) bool {
	if o.Else || o.Mute || len(o.For) == 0 {
		return false
	}
	next := cause.CheckNamed(lead.Next.Key)
	ofTest := func(name string) bool { return cause.Named(name).Test }
	mended := func(name string) bool { return slices.Contains(k.Mends, name) && slices.Contains(next.Mends, name) }
	switch {
	case k.Again && slices.ContainsFunc(o.For, ofTest), slices.ContainsFunc(o.For, mended):
		return true
	}
	return (k.Whole || k.Coolant) && lead.Cause == "" && !o.Stops
}

// leadsTo gives what a story has come to in a case after a check: its likeliest
// cause, and the check that comes next, that of another story where it has none and
// the fault is not shown.
func leadsTo(c *known.Case, about *diag.Story, o *cause.Outcome, at diag.Urgency) diag.Lead {
	desk := desks.Get().(*desk)
	told, at := desk.stories(c, at)
	lead := diag.Lead{}
	shown := false
	if s := sameStory(told, about); s != nil {
		if lead.Cause = s.shownBy(o); lead.Cause != "" {
			lead.Facts = s.book.facts(lead.Cause, s.Cylinders)
			lead.Left = o.Clears && suspects(about, lead.Cause) && !s.book.denied(lead.Cause)
		}
		s.chooseCheck(c, at)
		if o.Else {
			s.setRepair(c)
			lead.Repair = s.Repair
		}
		lead.Next, shown = s.Next, !o.Else && lead.Cause != "" && s.book.shown(lead.Cause)
	}
	for i := 0; i < len(told) && lead.Next == nil && !shown; i++ {
		if mendedFirst(c, c.Sums.Urgency, told[i].Urgency) || told[i].Urgency != c.Sums.Urgency && told[0].Repair != "" {
			continue
		}
		told[i].chooseCheck(c, at)
		told[i].setRepair(c)
		lead.Next = told[i].Next
	}
	desk.clear(told)
	if lead.Settled = lead.Next == nil; !lead.Settled {
		lead.Repair = ""
	}
	return lead
}

// shownBy is the likeliest cause of a story after an outcome: where the outcome is the
// sight of a fault, the likeliest of what it shows; "" where the story knows none of
// these, and the outcome speaks for itself.
func (s *story) shownBy(o *cause.Outcome) string {
	order := s.book.sorted()
	if !o.Else && len(o.For) > 0 {
		order = slices.DeleteFunc(slices.Clone(order), func(name string) bool { return !slices.Contains(o.For, name) })
	}
	if len(order) == 0 {
		return ""
	}
	return order[0]
}

// sameStory finds the story of the same subject in another diagnosis, nil where
// it has none.
func sameStory(told []*story, about *diag.Story) *story {
	for _, s := range told {
		if slices.ContainsFunc(about.Cylinders, func(n string) bool { return slices.Contains(s.Cylinders, n) }) {
			return s
		}
	}
	for _, s := range told {
		if found := len(about.Cylinders) == 0 && len(s.Cylinders) > 0 && s.Urgency.Rank() > about.Urgency.Rank(); found {
			return s // the check has shown which cylinders it is about
		}
	}
	for _, s := range told {
		if s.About == about.About && s.Circuit == about.Circuit && (s.About != diag.AboutSystem || s.System == about.System && s.Part == about.Part) {
			return s
		}
	}
	for _, s := range told {
		if about.About == diag.AboutSystem && s.System == about.System {
			return s // it was joined to what else the engine shows
		}
	}
	return nil
}

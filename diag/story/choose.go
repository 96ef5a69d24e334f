package story

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/cause"
	"gaugesheet/diag/known"
	rule "gaugesheet/diag/rule2"
)

const (
	// leastSettled is how likely a check must be to tell two of a story's causes
	// apart before it is worth proposing.
	leastSettled = 0.10
	// mostAnswers is how many checks are made, by the job's own words, before
	// the next one is to take it apart: nobody goes on for ever.
	mostAnswers = 5
	// weighed is how many causes of a story count when checks are compared.
	weighed = 7
)

// chooseCheck picks the check that settles most for the least: among those that
// fit the engine, are allowed at this urgency and were not made, the one that
// tells most of the weight of the causes apart for each minute, harmless before
// invasive. Where none tells them apart, one that would prove the first cause.
func (s *story) chooseCheck(c *known.Case, at diag.Urgency) {
	s.Next = nil
	if s.About == diag.AboutTest {
		s.Next = s.repeatCheck(c, at)
		return
	}
	if s.Urgency == diag.NoAction || answered(c) >= mostAnswers {
		return
	}
	shares := s.book.shares()
	if len(shares) == 0 {
		return
	}
	var best, proof *cause.Check
	most, cheapest := 0.0, 0
	for i := range cause.Checks {
		k := &cause.Checks[i]
		names := s.cylindersFor(k)
		if !k.Allowed(c, names, at) || k.IsMade(c, names) {
			continue
		}
		settled := settles(k.Open(c), shares)
		if settled >= leastSettled {
			if gain := settled * ease(k) * s.mending(k) / float64(k.MinutesFor(c)); gain > most {
				best, most = k, gain
			}
		}
		if proves(k, s.book.first()) && (proof == nil || k.Minutes < cheapest) {
			proof, cheapest = k, k.Minutes
		}
	}
	if best == nil {
		best = proof
	}
	if best != nil {
		s.Next = best.Ask(c, s.cylindersFor(best), at)
	}
}

// cylindersFor are the cylinders that a check is made on for this story.
func (s *story) cylindersFor(k *cause.Check) []string {
	if k.Whole {
		return nil
	}
	return s.Cylinders
}

// mends is how much more a check is worth that puts right what it finds.
const mends = 1.6

// mending is that for a check that mends one of the story's shown causes.
func (s *story) mending(k *cause.Check) float64 {
	if slices.ContainsFunc(s.Causes, func(p diag.Phrase) bool { return slices.Contains(k.Mends, p.Key) }) {
		return mends
	}
	return 1
}

// ease is how gladly a check is made beside its time: what takes apart, costs
// parts or fouls the plugs comes later.
func ease(k *cause.Check) float64 {
	e := 1.0
	for way, part := range eases {
		if k.Is(way) {
			e *= part
		}
	}
	return e
}

var eases = map[cause.Way]float64{cause.Opens: 0.6, cause.Parts: 0.25, cause.Oils: 0.7, cause.Runs: 0.9}

// shares are the parts of the weight that each of the likeliest causes has.
func (b *ledger) shares() map[string]float64 {
	order := b.sorted()
	order = order[:min(len(order), weighed)]
	sum := 0
	for _, name := range order {
		sum += b.net[name]
	}
	shares := make(map[string]float64, len(order))
	for _, name := range order {
		shares[name] = float64(b.net[name]) / float64(sum)
	}
	return shares
}

// settles is how likely the outcomes of a check tell two causes apart that are
// drawn by their shares: one less the chance that both give the same outcome. A
// cause that several outcomes speak for falls to each of them alike.
func settles(outcomes []cause.Outcome, shares map[string]float64) float64 {
	same, named := 0.0, 0.0
	for i := range outcomes {
		part := 0.0
		for _, name := range outcomes[i].For {
			if share, here := shares[name]; here {
				part += share * outcomes[i].Shows() / float64(speakers(outcomes, name))
			}
		}
		if outcomes[i].Else {
			continue
		}
		same += part * part
		named += part
	}
	rest := 1 - named
	return 1 - same - rest*rest
}

// speakers counts the outcomes that speak for a cause.
func speakers(outcomes []cause.Outcome, name string) int {
	n := 0
	for i := range outcomes {
		if !outcomes[i].Else && slices.Contains(outcomes[i].For, name) {
			n++
		}
	}
	return max(n, 1)
}

// proves reports a check with an outcome that speaks for the first cause.
func proves(k *cause.Check, first string) bool {
	return first != "" && slices.ContainsFunc(k.Outcomes, func(o cause.Outcome) bool { return !o.Else && slices.Contains(o.For, first) })
}

// answered counts the checks that the job says were made.
func answered(c *known.Case) int {
	n := 0
	for i := range cause.Checks {
		if cause.Checks[i].Told(c) {
			n++
		}
	}
	return n
}

// chooseForSheet sets the one check of the sheet: that of the first story that
// has one, the most urgent first.
func chooseForSheet(c *known.Case, d *diag.Diagnosis, at diag.Urgency) {
	for i := range d.Stories {
		if d.Stories[i].Next == nil || d.Stories[i].Urgency == diag.NoAction {
			continue
		}
		if d.Stories[i].Urgency != d.Urgency && d.Urgency == diag.DoNotRun && answered(c) > 0 {
			continue
		}
		d.Next, d.NextFor = d.Stories[i].Next, i
		return
	}
}

// repeatsTest reports a check that repeats the test rather than looks into the
// engine.
func repeatsTest(name string) bool {
	k := cause.CheckNamed(name)
	return k != nil && k.Again
}

// aboutTest is the story of a test that has to be made again before the engine
// is judged: nil where nothing that was found rests on what is doubtful.
func aboutTest(c *known.Case, told []*story) *story {
	test := &story{}
	for _, n := range c.Sums.Notices {
		r := rule.Named(n.Rule)
		if r == nil || r.Repeat == "" && (r.RepeatOf == nil || r.RepeatOf(c, n) == "") {
			continue
		}
		urgency := diag.Urgency("")
		trouble := false
		for _, s := range told {
			trouble = trouble || s.Urgency != diag.NoAction
			if s.Urgency != diag.NoAction && s.restsOn(r, n) {
				urgency = worse(urgency, s.Urgency)
			}
		}
		switch {
		case urgency == diag.DoNotRun: // a dead cylinder is looked into first
			urgency = diag.CheckAgain
		case urgency == "" && !trouble && r.Alone != nil && r.Alone(c, n):
			urgency = diag.CheckAgain
		case urgency == "":
			continue
		}
		test.Notices = append(test.Notices, n)
		test.members = append(test.members, &member{rule: r, finding: diag.Finding{Rule: r.Name, Urgency: urgency}})
		test.Urgency = worse(test.Urgency, urgency)
	}
	if len(test.members) == 0 {
		return nil
	}
	test.About, test.Confidence = diag.AboutTest, diag.Fair
	test.book = test.weigh(c)
	test.Causes = test.book.top(nil)
	return test
}

// restsOn reports a story whose leading finding rests on readings that a notice
// makes doubtful, and on no others.
func (s *story) restsOn(r *rule.Rule, n diag.Notice) bool {
	if !shares(n.Cylinders, s.Cylinders) || s.class() == rule.TestItself {
		return false
	}
	needs := s.needsOf()
	doubts := doubtedBy(r, n)
	return len(needs) > 0 && !slices.ContainsFunc(needs, func(need known.Need) bool { return !slices.Contains(doubts, need) })
}

// repeatCheck is the check that makes a test good: that of the first notice
// that is allowed and was not made.
func (s *story) repeatCheck(c *known.Case, at diag.Urgency) *diag.Check {
	for i, n := range s.Notices {
		r := s.members[i].rule
		name := r.Repeat
		if r.RepeatOf != nil {
			name = r.RepeatOf(c, n)
		}
		k := cause.CheckNamed(name)
		if k == nil || !k.Allowed(c, n.Cylinders, at) || k.IsMade(c, n.Cylinders) || answered(c) >= mostAnswers {
			continue
		}
		asked := k.Ask(c, n.Cylinders, at)
		for key, fact := range n.Facts {
			if _, own := asked.Facts[key]; !own {
				asked.Facts[key] = fact
			}
		}
		return asked
	}
	return nil
}

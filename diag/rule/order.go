package rule

import (
	"cmp"
	"slices"

	"gaugesheet/diag"
)

// sortHits puts findings in the order of saying: by urgency, then by class,
// then the surer first, then as the rules are listed, then by the engine's
// cylinders.
func sortHits(c *Case, hits []hit) {
	slices.SortStableFunc(hits, func(a, b hit) int {
		return cmp.Or(
			cmp.Compare(b.finding.Urgency.Rank(), a.finding.Urgency.Rank()),
			cmp.Compare(a.rule.Class, b.rule.Class),
			cmp.Compare(sureness(b.finding.Confidence), sureness(a.finding.Confidence)),
			cmp.Compare(a.place, b.place),
			cmp.Compare(c.place(a.finding.Cylinders), c.place(b.finding.Cylinders)),
		)
	})
}

// doubt caps the confidence of findings whose readings a notice casts doubt
// on, and says why. It never takes a finding away. A finding that rests on a
// second kind of reading, not doubted, stays fair; one that was strong because
// a second kind agreed is fair where that one is doubted.
func doubt(c *Case, hits []hit) {
	leans := make([][]Need, len(hits))
	for i := range hits {
		leans[i] = c.leansOn(&hits[i].finding)
	}
	for _, n := range c.Sums.Notices {
		r := byName(n.Rule)
		if r == nil || r.Doubt == "" {
			continue
		}
		doubts := r.doubted(n)
		for i := range hits {
			h := &hits[i]
			if h.rule.Class == TestItself || !overlap(n.Cylinders, h.finding.Cylinders) {
				continue
			}
			doubted, rest := split(h.rule.Needs, doubts)
			if doubted == 0 {
				if leaning, _ := split(leans[i], doubts); leaning == 0 {
					continue
				}
				rest = len(h.rule.Needs)
			}
			limit := diag.Weak
			if rest > 0 {
				limit = diag.Fair
			}
			h.finding.Confidence = atMost(h.finding.Confidence, limit)
			if r.Repeat != "" && rest == 0 && h.finding.Urgency != diag.NoAction {
				h.finding.Next = c.repeat(r.repeatFor(n), n, h.finding)
			}
			// A piston that was not at the top lets its air out at open valves.
			if r.Name == "leaks-at-both-valves" && rest == 0 && h.finding.Urgency == diag.ActSoon {
				h.finding.Urgency = diag.CheckAgain
			}
			// In another unit the engine may be a sound one.
			if c.wholeSection(n) != "" && rest == 0 && h.finding.Urgency.Rank() > diag.CheckAgain.Rank() {
				h.finding.Urgency = diag.CheckAgain
			}
			h.finding.Doubts = append(h.finding.Doubts, diag.Phrase{Key: r.Doubt, Facts: n.Facts})
		}
	}
}

// leansOn gives the kinds of readings that made a finding strong beside those
// that its rule needs.
func (c *Case) leansOn(f *diag.Finding) []Need {
	if f.Confidence != diag.Strong || c.seenLeaking(f) {
		return nil
	}
	var leans []Need
	if c.anyLow(f.Cylinders) {
		leans = append(leans, NeedsCompression)
	}
	switch f.Rule {
	case "rings-agree":
		if c.losesAt(f.Cylinders, atCrankcase.at) {
			leans = append(leans, NeedsLeakage)
		}
	case "sealing-sound-look-elsewhere":
		leans = append(leans, NeedsLeakage)
	}
	return leans
}

// settle gives a folded finding the urgency of what says it better where that
// is lower: who weighs more readings together knows better how soon.
func settle(hits []hit) {
	for changed := true; changed; {
		changed = false
		for i := range hits {
			h := &hits[i]
			if most, found := sayingBetter(h, hits); h.folds && h.yielded != "" && found && most.Rank() < h.finding.Urgency.Rank() {
				h.finding.Urgency, changed = most, true
			}
		}
	}
}

// sayingBetter gives the highest urgency among the findings that a folded one
// yields to; false where none was kept.
func sayingBetter(h *hit, hits []hit) (most diag.Urgency, found bool) {
	for _, other := range hits {
		if other.rule.Name != h.yielded || !overlap(other.finding.Cylinders, h.finding.Cylinders) {
			continue
		}
		if !found || other.finding.Urgency.Rank() > most.Rank() {
			most, found = other.finding.Urgency, true
		}
	}
	return most, found
}

// sections are the readings of the sections of a job, which notices from
// reading the job name as the fact "section".
var sections = map[string][]Need{
	"compression":   {NeedsCompression, NeedsWet, NeedsFirst, NeedsEarlier},
	"leakage":       {NeedsLeakage},
	"rotors":        {NeedsRotors},
	"fuel-pressure": {NeedsFuel},
}

// doubted are the readings that a notice casts doubt on: those of its own
// section where it names one.
func (r *Rule) doubted(n diag.Notice) []Need {
	if section, named := n.Facts["section"].(string); named {
		return slices.DeleteFunc(slices.Clone(r.Doubts), func(d Need) bool { return !slices.Contains(sections[section], d) })
	}
	return r.Doubts
}

// repeatFor is the check that repeats what a notice makes doubtful: with another
// gauge of the kind that was used.
func (r *Rule) repeatFor(n diag.Notice) string {
	if r.Repeat == "second-gauge" && n.Facts["section"] == "fuel-pressure" {
		return "second-fuel-gauge"
	}
	return r.Repeat
}

// repeat is the check that repeats a doubted test: on the notice's cylinders,
// or on the finding's where it names none, with the notice's facts.
func (c *Case) repeat(check string, n diag.Notice, f diag.Finding) *diag.Check {
	cylinders := n.Cylinders
	if len(cylinders) == 0 {
		cylinders = f.Cylinders
	}
	next := c.next(cylinders, check)
	if next == nil {
		return f.Next
	}
	for key, fact := range n.Facts {
		if _, own := next.Facts[key]; !own {
			next.Facts[key] = fact
		}
	}
	return next
}

func split(needs, doubts []Need) (doubted, rest int) {
	for _, n := range needs {
		if slices.Contains(doubts, n) {
			doubted++
		} else {
			rest++
		}
	}
	return doubted, rest
}

func atMost(confidence, limit diag.Confidence) diag.Confidence {
	if sureness(confidence) > sureness(limit) {
		return limit
	}
	return confidence
}

// sureness orders confidences, the least sure first.
func sureness(c diag.Confidence) int {
	return slices.Index([]diag.Confidence{diag.Weak, diag.Fair, diag.Strong}, c)
}

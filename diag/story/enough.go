package story

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/cause"
	"gaugesheet/diag/known"
	"gaugesheet/diag/rule"
)

const (
	// mostAnswers is how many checks are made, by the job's own words, before
	// the next one is to take it apart: nobody goes on for ever.
	mostAnswers = 5
	// mostMade is how many are made where readings are counted too.
	mostMade = 6
	// fewAnswers is of how many of these the job says in words what came of it.
	fewAnswers = 1
	// fewTold is of how many the job says it in words before one more is taken to
	// have been made.
	fewTold = 2
)

// enough reports that so many checks were made, by the job's words or by their
// readings, that the next one is to take it apart. Readings count once a check
// was made for what the first ones showed. Readings alone, however many
// kinds a job brings, are no reason to ask for nothing.
func enough(c *known.Case, shares []share) bool {
	told := len(cause.Told(c))
	if told >= mostAnswers {
		return true
	}
	if answered(c) < fewAnswers {
		return false
	}
	made, aside, about := told, 0, setOf(shares)
	for i := range cause.Checks {
		switch k := &cause.Checks[i]; {
		case !k.Deeper() || k.Told(c) || k.OfSet || !k.Made(c, nil): // a set's reading is that of its cylinders
		case k.Baseline || k.Further:
			if k.Fits == nil || k.Fits(c, nil) { // what no sheet of this engine asks for was brought with the first readings
				aside = 1 // however many the job brought
			}
		case len(shares) > 0 && !k.Concerns(&about):
			aside = 1
		default:
			made++
		}
	}
	made += aside
	looked := 0 // into one cylinder after another
	for _, n := range c.Every() {
		if c.Looked(n) {
			looked++
		}
	}
	lost := len(c.Leaks()) // of a few cylinders, each asked for by itself
	if lost > len(c.Every())/2 {
		lost = 0
	}
	most := mostMade
	if told >= fewTold { // some that leave no reading, such as the rest of a set, were made with them
		most--
	}
	return made+max(0, looked-1)+max(0, lost-2) >= most
}

// putRight reports a story whose first cause was put right as a check was made, and
// found gone as the engine was tested again: there is nothing left to be told apart.
func (s *story) putRight(c *known.Case) bool {
	first := s.book.first()
	return slices.ContainsFunc(cause.Told(c), func(k *cause.Check) bool {
		if !k.Is(cause.Starter) || !slices.Contains(k.Mends, first) {
			return false
		}
		o := k.Answer(c, s.cylindersOf(c))
		return o != nil && !o.Else && slices.Contains(o.For, first)
	})
}

// chooseForSheet sets the one check of the sheet: that of the first story that
// has one, the most urgent first; none once so many were made that the sheet's own
// is to be worked on.
func chooseForSheet(c *known.Case, d *diag.Diagnosis) {
	if enough(c, nil) {
		return
	}
	for i := range d.Stories {
		if d.Stories[i].Next == nil || d.Stories[i].Urgency == diag.NoAction {
			continue
		}
		if mendedFirst(c, d.Urgency, d.Stories[i].Urgency) || d.Stories[0].Repair != "" && canWait(d, i) {
			continue // what leads is repaired, and then it is tested again
		}
		d.Next, d.NextFor = d.Stories[i].Next, i
		return
	}
}

// canWait reports a story whose check waits for the repair of what leads: a less urgent one, or
// one of other parts. One of the engine as a whole, or of the test, may tell whether that
// repair is worth it.
func canWait(d *diag.Diagnosis, i int) bool {
	s := &d.Stories[i]
	return s.Urgency != d.Urgency || s.About != diag.AboutEngine && s.About != diag.AboutTest
}

// setRepair says what is done about a story that asks for no check as its cause was
// found, or is as good as known; what is not is left open.
func (s *story) setRepair(c *known.Case) {
	s.Repair = ""
	if r := s.lead().rule.Repair; r != "" {
		s.Next, s.Repair = nil, r
		return
	}
	first := s.book.first()
	if s.Next != nil || s.Urgency.Rank() <= diag.CheckAgain.Rank() || first == "" || s.About == diag.AboutTest {
		return
	}
	if len(s.book.found()) > 0 || s.settled(c, s.book.shares()) || s.rustedIn(c, first) {
		s.Repair = s.withDamage(c, cause.RepairOf(c, first))
		if s.Repair == "bore" && foundWhy(c, first) {
			s.Repair = "bore-found"
		}
		if s.Repair == "crankcase" && known.CrankcasePlaced.HoldsIn(c) {
			s.Repair = "crankcase-seen"
		}
	}
}

// rustedIn reports rings that stick on a wall of which the rust was seen and past which air goes:
// once nothing is left that might free them, that cylinder is opened.
func (s *story) rustedIn(c *known.Case, first string) bool {
	return first == "stuck-rings" && c.AnySeen(s.Cylinders, known.RustOnWall) && c.LosesAt(s.Cylinders, known.AtCrankcase)
}

// withDamage is a repair that goes into the cylinders too, where damage was seen in them, or
// where they are low by the heat that the fault brought about.
func (s *story) withDamage(c *known.Case, repair string) string {
	damaged := c.AnySeen(s.Cylinders, slices.Concat(known.ScoredWords, known.GonePiston))
	scuffed := repair == "crankcase" && slices.ContainsFunc(s.Cylinders, func(n string) bool { return known.Low.HoldsOf(c, n) })
	if damaged || scuffed {
		return cause.BesideBore(repair)
	}
	return repair
}

// settled reports a story of whose first cause enough is known to work on it.
func (s *story) settled(c *known.Case, shares []share) bool {
	return len(shares) > 0 && (s.proven(c, shares) || s.oneWork(shares) || s.measured() || s.asGoodAsProven(shares) || s.oilFirst(c, diag.DoNotRun))
}

// proven reports a story whose likeliest cause, with those that the same work shows, has
// nearly all the weight by two kinds of tests, one of which heard or saw it there, with
// nothing against it: one more test would tell nothing, and what is next is the work. What a
// plug's look alone suggests does not count beside it: a cylinder that does not seal does not
// burn well.
func (s *story) proven(c *known.Case, shares []share) bool {
	first, part, looks, there := s.book.first(), 0.0, 0.0, false
	if s.seenWhole(c) && c.OilTells() && !c.Has(known.NeedsWet) { // which tells rings from what else is not seen
		return false
	}
	measured := s.boreLookedAt(c, shares)
	for _, x := range shares {
		same := x.cause == first || cause.SameWork(x.cause, first)
		there = there || same && s.witnessed(x.cause, rule.OfLeakage, rule.OfSight, rule.OfCooling)
		if same || s.About == diag.AboutEngine && cause.Worn(x.cause, first) || measured && cause.Bore(x.cause) && cause.Bore(first) {
			part += x.part
		} else if s.book.ofLooks(x.cause) {
			looks += x.part
		}
	}
	return s.wornByThree(c, shares) || there && part >= nearlyAll*(1-looks) && len(s.Against) == 0 && len(s.book.agreeing(first)) >= 2
}

// ofLooks reports a cause that nothing but the look of plugs speaks for.
func (b *ledger) ofLooks(name string) bool {
	return !slices.ContainsFunc(b.account(name).kinds, func(h heaviest) bool { return h.kind != rule.OfPlugs })
}

// wornByThree reports a story of a whole engine worn in its rings or bores, by three kinds of
// tests at least that agree on it, with nothing against it and no sign of what running or
// oil puts right: one more figure, or one more test, would change nothing.
func (s *story) wornByThree(c *known.Case, shares []share) bool {
	first := s.book.first()
	whole := s.lowThroughout() || len(s.Cylinders) == len(c.Every())
	kinds := s.book.agreeing(first)
	if c.BurnsOil() && len(kinds) > 1 && !slices.Contains(kinds, rule.OfRunning) { // which it is seen to do
		kinds = append(kinds, rule.OfRunning)
	}
	return whole && cause.Worn(first, first) && len(s.Against) == 0 && len(kinds) >= 3 &&
		!mayComeBack(shares)
}

// mayComeBack reports shares of which some oil or running would put right.
func mayComeBack(shares []share) bool {
	return slices.ContainsFunc(shares, func(x share) bool { return cause.BackByItself(x.cause) && x.part >= leastSettled })
}

// witnessed reports a cause that one of these kinds of tests heard or saw there.
func (s *story) witnessed(name string, kinds ...rule.Kind) bool {
	return slices.ContainsFunc(kinds, func(k rule.Kind) bool { return s.book.heaviest(name, k) >= rule.Heard })
}

// boreLookedAt reports cylinders into each of which somebody has looked, with nothing left
// that oil or running would put right: what rings, pistons and walls have is one work then.
func (s *story) boreLookedAt(c *known.Case, shares []share) bool {
	return len(s.Cylinders) > 0 && !slices.ContainsFunc(s.Cylinders, func(n string) bool { return !c.Looked(n) }) &&
		!mayComeBack(shares)
}

// oneWork reports a story of a head or its gasket of which the same work shows every cause
// that is left, where coolant was seen there or more than one kind of test agrees, with
// nothing against it: no outcome of any check changes what is done.
func (s *story) oneWork(shares []share) bool {
	first := s.book.first()
	sought := gasSought(s.book.c)
	if len(shares) < 2 || len(s.Against) > 0 && !sought || !cause.OfHead(first) {
		return false
	}
	pumped := s.book.heaviest(first, rule.OfCooling) >= rule.Sight // what hardly weighs beside what was seen under pressure does not count
	for _, x := range shares {
		if x.cause != first && !cause.SameWork(x.cause, first) && !(pumped && x.part < leastSettled) {
			return false
		}
	}
	return sought || s.Confidence == diag.Strong || s.witnessed(first, rule.OfSight, rule.OfCooling)
}

// gasSought reports an engine with gas in its coolant, which goes, of which it was looked for
// where that gets in, by the coolant under pressure and by air in each cylinder: what was not
// found so opens hot, and a look from above would show no more.
func gasSought(c *known.Case) bool {
	return known.GasAndGoes.HoldsIn(c) && len(c.Leaks()) == len(c.Every()) && cause.CheckNamed("cooling-pressure-test").IsMade(c, nil)
}

// nearlyAll is the part of a story's weight from which a cause is proven: judgement, no
// source.
const nearlyAll = 0.75

// mendedFirst reports a story that is less urgent than the most urgent one of the
// sheet, once a check was made: what is worse is mended first, and then it is
// tested again.
func mendedFirst(c *known.Case, most, urgency diag.Urgency) bool {
	return urgency != most && answered(c) > 0
}

// answered counts the checks of which the job says in words what came of them:
// work that names no outcome was not asked for by a sheet.
func answered(c *known.Case) int {
	n := 0
	for _, k := range cause.Told(c) {
		if k.Answer(c, nil) != nil {
			n++
		}
	}
	return n
}

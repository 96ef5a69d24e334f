package rule

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
	"gaugesheet/diag/quantity"
)

// onEach fills in what the rules on one further test of every cylinder have in
// common.
func onEach(section string, kind Kind, source string, list []Rule) []Rule {
	for i := range list {
		r := &list[i]
		r.About, r.Of, r.Kind, r.Class = diag.AboutCylinders, eachCylinder, kind, max(r.Class, Single)
		if r.Class == Single && len(r.Needs) > 0 {
			r.Class = Together
		}
		r.Needs = append([]known.Need{known.NeedsTest(section)}, r.Needs...)
		if r.Source == "" {
			r.Source = source
		}
		r.Say = ofEach(r.Say)
	}
	return list
}

// ofEach gives the facts of every cylinder of a subject and not those of its first
// alone: numbers from the least to the most, what was written of each in turn, the
// most urgent, and no surer than the least sure.
func ofEach(say func(*known.Case, known.Subject) diag.Finding) func(*known.Case, known.Subject) diag.Finding {
	return func(c *known.Case, s known.Subject) diag.Finding {
		if len(s.Cylinders) < 2 {
			return say(c, s)
		}
		all := make([]diag.Finding, len(s.Cylinders))
		for i := range s.Cylinders {
			all[i] = say(c, known.Subject{Cylinders: s.Cylinders[i : i+1]})
		}
		f := all[0]
		for _, other := range all[1:] {
			if other.Urgency.Rank() > f.Urgency.Rank() {
				f.Urgency = other.Urgency
			}
			if other.Variant != f.Variant {
				f.Variant = "" // what holds for some of them is not said of all
			}
			if len(f.Doubts) == 0 {
				f.Confidence, f.Doubts = leastSure(f.Confidence, other.Confidence), other.Doubts
			}
		}
		facts := diag.Facts{}
		for key := range f.Facts {
			facts[key] = inTurn(key, all)
		}
		f.Facts = facts
		return f
	}
}

// leastSure is the lesser of two.
func leastSure(a, b diag.Confidence) diag.Confidence {
	if a == diag.Weak || b == diag.Weak {
		return diag.Weak
	}
	if a == diag.Fair || b == diag.Fair {
		return diag.Fair
	}
	return a
}

// inTurn is one fact of several findings: numbers as the least and the most, texts
// one after another, once where all are the same.
func inTurn(key string, all []diag.Finding) any {
	var numbers []diag.Number
	var texts []string
	for _, f := range all {
		switch fact := f.Facts[key].(type) {
		case diag.Number:
			numbers = append(numbers, fact)
		case string:
			if fact != "" {
				texts = append(texts, fact)
			}
		}
	}
	switch {
	case len(numbers) == len(all):
		byValue := func(a, b diag.Number) int { return cmp.Compare(a.Value, b.Value) }
		least, most := slices.MinFunc(numbers, byValue), slices.MaxFunc(numbers, byValue)
		if least.String() == most.String() {
			return most
		}
		return quantity.Format(least.Value, least.Decimals) + "–" + most.String()
	case len(texts) > 0:
		if same := slices.Compact(slices.Clone(texts)); len(same) == 1 {
			return same[0]
		}
		return strings.Join(texts, ", ")
	}
	return all[0].Facts[key]
}

const byInjectors = "limits: the job's own; without one 5 % of the median, judgement"

// injectorRules are on the injectors on a bench.
var injectorRules = onEach(known.Injectors, OfInjectors, byInjectors, []Rule{
	{
		Name: "injector-open", Title: "An injector whose coil is open", Source: "follows from how it works",
		Why:  "An injector without a path for the current does not open, whatever it gave on a bench: its cylinder gets no fuel. It is replaced.",
		When: known.InjectorOpen, For: speaks(Heard, "own-injector"), Say: drips, Headline: "injector-open",
	},
	{
		Name: "injector-low", Title: "An injector that gives less than the others",
		Why:  "An injector that is dirty inside gives less and leaves its cylinder lean. It is cleaned and measured again; one that stays behind is replaced.",
		When: known.InjectorLow, Weigh: poorInjector(Heard), Say: sinceCleaned(flow), Headline: "injector-apart", Variants: []string{"cleaned"},
	},
	{
		Name: "injector-rich", Title: "An injector that gives more than the others",
		Why:  "One that gives more is worn, or not the part that belongs there. Injectors are matched as a set.",
		When: known.InjectorRich, For: speaks(Heard, "own-injector"), Say: flow, Headline: "injector-apart",
	},
	{
		Name: "injector-leaks", Title: "An injector that drips",
		Why:  "Fuel that drips after the pulse makes a wet plug, a hot engine hard to start, and washes the oil off the cylinder.",
		When: known.InjectorDrips, For: speaks(Heard, "leaking-injector"), Say: drips, Headline: "injector-leaks",
	},
	{
		Name: "injector-ohms", Title: "An injector whose coil reads apart from the others",
		Why:  "The injectors of one engine are of one kind, and their coils read alike. One that is open does not open, and one that is shorted opens late or not at all and may take what drives it along. It is read once more with its plug off, and replaced.",
		When: known.InjectorOhmsApart, For: speaks(Heard+Known, "own-injector"), Say: func(c *known.Case, s known.Subject) diag.Finding {
			reads, others := c.InjectorOhms(s.Name())
			return diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Fair, Facts: diag.Facts{"value": reads, "others": others}}
		}, Headline: "injector-apart",
	},
	{
		Name: "injector-spray-poor", Title: "An injector that does not spray a cone",
		Why:  "Fuel that comes as a stream burns badly at idle, like a jet that is half closed.",
		When: known.SpraysPoorly, Weigh: poorInjector(Known), Say: sinceCleaned(drips), Headline: "injector-apart", Variants: []string{"cleaned"},
	},
	{
		Name: "lean-by-injector", Title: "A cylinder with a poor injector that pulls little or burns white",
		Why:  "The bench says what it gives, the engine what that does: the two name the same cylinder.",
		When: known.All(known.InjectorLow, known.Any(known.PullsLittle, known.PullsNothing, known.Plug("white"))),
		Weigh: func(c *known.Case, s known.Subject) []Voice {
			list := append(speaks(Heard, "own-injector"), where(!known.ApartAfterCleaning.Holds(c, s), speaks(Heard, "dirty-injectors"))...)
			if known.Any(known.PullsLittle, known.PullsNothing).Holds(c, s) {
				list = append(list, Voice{Cause: "own-injector", Weight: Known, Kind: OfBalance})
			}
			if known.Plug("white").Holds(c, s) {
				list = append(list, Voice{Cause: "own-injector", Weight: DryUp, Kind: OfPlugs})
			}
			list = append(list, denies(Known, "injector-explains", "wrong-heat-range", "dropped-plug")...)
			if known.InjectorDead.Holds(c, s) {
				list = append(list, denies(Known, "injector-explains", "own-spark", "coil-or-lead", "weak-spark")...)
			}
			return list
		}, Say: flow, Headline: "injector-apart", SaysBetterThan: []string{"injector-low", "pulls-little", "pulls-nothing", "one-white"},
	},
})

// injectorSet is on the injectors as a set.
var injectorSet = systemRule(known.Injectors, OfInjectors, byInjectors, []Rule{{
	Name: "injector-cleaned", Title: "Injectors before and after cleaning",
	Why:   "How far apart the injectors were before and are after is what cleaning was for. A set that still differs by more than its limit has one to replace.",
	Class: Information, When: known.InjectorsCleaned, Weigh: func(c *known.Case, _ known.Subject) []Voice {
		return where(cleanedFor(c), speaks(Heard, "dirty-injectors"))
	}, Say: func(c *known.Case, _ known.Subject) diag.Finding {
		before, _ := c.InjectorSpread("before")
		after, _ := c.InjectorSpread("after")
		f := diag.Finding{Urgency: diag.NoAction, Confidence: diag.Fair, Facts: diag.Facts{"before": known.Percent(before, 0), "after": known.Percent(after, 0), "better": after < before, "apart": len(c.Those(c.FlowApart)) > 0}}
		if cleanedFor(c) {
			f.Urgency = diag.CheckAgain // what they were cleaned for is tried first
		}
		return f
	}, Headline: "injectors-cleaned",
}, {
	Name: "one-injector-drags-the-mean", Title: "One bad injector moves the mean that the others are judged by",
	Why:    "A limit from the mean condemns good injectors where one bad one has moved the mean. The median does not move: where the two judge an injector otherwise, it is judged again without the worst.",
	Source: "two tables in circulation on the drop of the rail's pressure, one of which condemns a good injector by its mean: common practice, no source", Class: Information,
	When: known.MeanDragged, Say: func(c *known.Case, _ known.Subject) diag.Finding {
		names, mean, median := c.DraggedByMean()
		unit := c.Measured(known.Injectors).Reading("pressure-drop to").Unit
		return diag.Finding{Urgency: diag.NoAction, Confidence: diag.Fair, Facts: diag.Facts{"names": diag.Names(names),
			"mean": diag.Number{Value: mean, Decimals: 1, Unit: unit}.String(), "median": diag.Number{Value: median, Decimals: 1, Unit: unit}.String()}}
	}, Headline: "see-findings",
}})

// cleanedFor reports injectors that were put right by cleaning, and a complaint
// that they explain.
func cleanedFor(c *known.Case) bool {
	return c.InjectorsMended() && c.Complains("misfire", "lean running", "low power", "hard start")
}

func flow(c *known.Case, s known.Subject) diag.Finding {
	v, middle, byFlow := c.Flow(s.Name())
	unit, limit := c.Measured(known.Injectors).Unit, ""
	if drop, of, apart, ok := c.RailDrop(s.Name()); ok && !(byFlow && c.FlowApart(s.Name())) && math.Abs(drop-of) > apart {
		byFlow = false
		v, middle, unit = drop, of, c.Measured(known.Injectors).Reading("pressure-drop to").Unit
		if c.DropLimited() {
			limit = diag.Number{Value: apart, Decimals: quantity.DecimalsRead(apart, 0), Unit: unit}.String()
		}
	}
	return diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Fair, Facts: diag.Facts{
		"value":  diag.Number{Value: v, Decimals: quantity.DecimalsRead(v, 0), Unit: unit}.String(),
		"median": diag.Number{Value: middle, Decimals: quantity.DecimalsRead(middle, 0), Unit: unit}.String(), "few": c.Few(), "drop": !byFlow, "limit": limit, "dead": known.InjectorDead.Holds(c, s)}}
}

// poorInjector is dirt, which cleaning mends, or the injector itself; after it was cleaned
// the injector alone. In a cylinder that is low it is found beside what takes the pressure,
// which no injector does.
func poorInjector(weight int) func(*known.Case, known.Subject) []Voice {
	return func(c *known.Case, s known.Subject) []Voice {
		weight := weight
		if known.Low.Holds(c, s) {
			weight = min(weight, Known)
		}
		if known.ApartAfterCleaning.Holds(c, s) {
			return speaks(weight, "own-injector")
		}
		if known.InjectorDead.Holds(c, s) { // which no dirt alone does
			return append(speaks(weight+Known, "own-injector"), speaks(weight*3/5, "dirty-injectors")...)
		}
		return speaks(weight, "dirty-injectors", "own-injector")
	}
}

// sinceCleaned says of an injector that was cleaned what it needs now.
func sinceCleaned(say func(*known.Case, known.Subject) diag.Finding) func(*known.Case, known.Subject) diag.Finding {
	return func(c *known.Case, s known.Subject) diag.Finding {
		f := say(c, s)
		if known.ApartAfterCleaning.Holds(c, s) {
			f.Variant = "cleaned"
		}
		return f
	}
}

func drips(*known.Case, known.Subject) diag.Finding {
	return diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Fair, Facts: diag.Facts{}}
}

// dieselRules are on a diesel's injectors and glow plugs.
var dieselRules = onEach(known.DieselTests, OfDiesel, "limits: the job's own; without one three times the smallest return, common practice, no source", []Rule{
	{
		Name: "return-high", Title: "An injector that gives back too much",
		Why:  "Fuel that an injector gives back does not build pressure and is not burnt: it is worn inside. Where the cylinder is low as well there are two faults, and sealing comes first.",
		When: known.All(known.ReturnsMuch, known.Not(known.AllReturnMuch)), Weigh: func(c *known.Case, s known.Subject) []Voice {
			if known.Low.Holds(c, s) { // what it gives back does not make the gauge read low
				return speaks(rarer, "diesel-injector")
			}
			return speaks(Heard, "diesel-injector")
		}, Say: givesBack, Headline: "return-high",
	},
	{
		Name: "contributes-little", Title: "A cylinder that adds less than the others",
		Why:  "The computer counts how the crankshaft speeds up with each cylinder. One that adds less than the others seals less, gets less fuel or fires late: its sealing is read before its injector is bought.",
		When: known.ContributesLittle, Weigh: func(c *known.Case, s known.Subject) []Voice {
			if known.Low.Holds(c, s) {
				return speaks(Hint, "exhaust-valve", "rings", "head-gasket")
			}
			if known.ReturnsMuch.Holds(c, s) { // and that is why
				return common("diesel-injector")
			}
			if c.Sound() && c.PressureEnough() { // it was read, and seals
				return common("diesel-injector")
			}
			return common("diesel-injector", "low-compression")
		}, Say: func(c *known.Case, s known.Subject) diag.Finding {
			v, middle, _ := c.Contributes(s.Name())
			m := c.Measured(known.DieselTests).Of("contribution", s.Name())
			return diag.Finding{Urgency: diag.CheckAgain, Confidence: diag.Fair, Facts: diag.Facts{"value": diag.Number{Value: v, Decimals: m.Decimals}.String(), "median": diag.Number{Value: middle, Decimals: quantity.DecimalsRead(middle, m.Decimals)}.String()}}
		}, Headline: "contributes-little",
	},
	{
		Name: "glow-open", Title: "A glow plug that is open, or reads too high",
		Why:  "A glow plug without a path for the current does not heat, and one of high resistance hardly does: it is on its way to being open. That cylinder starts late and smokes.",
		When: known.Any(known.GlowOpen, known.GlowHigh), For: speaks(Heard, "glow-plug"), Say: func(c *known.Case, s known.Subject) diag.Finding {
			high := c.GlowReads(s.Name())
			return diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Fair, Facts: diag.Facts{"high": high, "open": map[bool]string{true: "open"}[high == ""]}}
		}, Headline: "glow-open",
	},
	{
		Name: "nozzle-low", Title: "A nozzle that opens under its limit",
		Why:  "A spring that has set opens the nozzle early: the fuel comes early and coarse, the engine knocks and smokes.",
		When: known.NozzleLow, For: speaks(Heard, "diesel-injector"), Say: func(c *known.Case, s known.Subject) diag.Finding {
			m := c.Measured(known.DieselTests).Of("nozzles opening", s.Name())
			_, clear := known.Under(m)
			return measuredFinding(m, clear, diag.ActSoon)
		}, Headline: "nozzle-low",
	},
})

// dieselSet is on the injectors of a diesel as a set.
var dieselSet = systemRule(known.DieselTests, OfDiesel, "limits: the job's own; meanings: common practice, no source", []Rule{{
	Name: "all-return-high", Title: "All injectors give back too much",
	Why:  "What is so of all at once is no injector: the pump gives too much, or the regulator holds the rail too high.",
	When: known.AllReturnMuch, For: common("regulator-stuck", "high-pressure-pump"), Say: func(c *known.Case, _ known.Subject) diag.Finding {
		return diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Fair, Facts: diag.Facts{}}
	}, Headline: "return-high",
}, {
	Name: "nozzles-drip", Title: "Nozzles that drip on the bench",
	Why:  "A nozzle that does not shut lets fuel run after the injection: it smokes, knocks and washes the oil off its bore, and can burn through a piston.",
	When: known.NozzlesDrip, For: speaks(Heard, "diesel-injector"), Say: func(c *known.Case, _ known.Subject) diag.Finding {
		return diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Fair, Facts: diag.Facts{"drip": c.Measured(known.DieselTests).Word("nozzles drip")}}
	}, Headline: "nozzles-drip",
}, {
	Name: "suction-too-high", Title: "Too much vacuum ahead of the lift pump", Ties: []diag.About{diag.AboutFuel},
	Why:  "A pump that pulls hard gets too little: a strainer, a line, a tank that does not vent or a filter ahead of it is blocked. That is told by this reading alone, whatever the pressure behind the pump is.",
	When: known.SuctionHigh, For: append(speaks(Heard, "supply-restricted"), speaks(DryUp, "fuel-filter")...), Against: denies(Known, "pump-pulls", "pump", "pump-voltage", "pump-circuit", "regulator-open"), Say: readingOf(known.DieselTests, "inlet-vacuum", diag.ActSoon), Headline: "suction-too-high",
}})

func givesBack(c *known.Case, s known.Subject) diag.Finding {
	v, _, middle, _ := c.Return(s.Name())
	m := c.Measured(known.DieselTests).Of("return cylinders", s.Name())
	f := diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Fair, Facts: measuredFacts(m)}
	f.Facts["value"], f.Facts["median"] = diag.Number{Value: v, Decimals: m.Decimals, Unit: m.Unit}.String(), diag.Number{Value: middle, Decimals: m.Decimals, Unit: m.Unit}.String()
	f.Facts["low"], f.Facts["few"] = slices.Contains(c.LowSet(), s.Name()), c.Few()
	return f
}

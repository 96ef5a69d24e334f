package cause

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// cooled reports an engine whose coolant may show where a cylinder leaks. A
// gasket between two neighbours loses no coolant: there it is asked only where
// something else speaks of coolant, or air was heard to cross.
func cooled(c *known.Case, cylinders []string) bool {
	neighbours := len(cylinders) > 1 && len(c.Engine.NeighbourRuns(cylinders)) < len(cylinders)
	return closedCircuit(c) && (!neighbours || c.CoolantShows(cylinders) || slices.ContainsFunc(cylinders, func(n string) bool { return c.LeaksAt(n, known.AtNeighbour) }))
}

// madeOn reports something made on all of these cylinders, or on any of the
// engine's where none are named.
func madeOn(c *known.Case, cylinders []string, made func(string) bool) bool {
	if len(cylinders) == 0 {
		return slices.ContainsFunc(c.Every(), made)
	}
	return !slices.ContainsFunc(cylinders, func(n string) bool { return !made(n) })
}

func madeLeakDown(c *known.Case, cylinders []string) bool {
	return madeOn(c, cylinders, func(n string) bool { return c.LeakNoted(n) })
}

func madeWet(c *known.Case, cylinders []string) bool {
	if c.Compression == nil {
		return false
	}
	return c.Compression.WetInWords != "" || madeOn(c, cylinders, func(n string) bool {
		r := c.Cylinder(n)
		return r != nil && r.Wet != nil
	})
}

// lookTakes is the time of a look into these cylinders, or into those of the whole engine:
// of many, four tell enough.
func lookTakes(c *known.Case, cylinders []string) int {
	n := len(cylinders)
	if n == 0 {
		n = min(4, len(c.Every()))
	}
	return 10 + 5*n
}

// holdPressure reports cylinders, or all of them where none are named, of which none lacks
// any pressure that oil could bring back.
func holdPressure(c *known.Case, cylinders []string) bool {
	if len(cylinders) == 0 {
		cylinders = c.Read()
	}
	return c.AllLow() == nil && !slices.ContainsFunc(cylinders, func(n string) bool {
		r := c.Cylinder(n)
		return r == nil || c.ShortOfPressure(r) || !slices.Contains([]diag.Grade{diag.Even, diag.High}, r.Grade)
	})
}

// waterFromExhaust reports a boat's cylinders into which water came, while nobody has looked
// at the exhaust that it comes back from: that is outside the engine, and comes first.
func waterFromExhaust(c *known.Case, cylinders []string) bool {
	if !c.WetExhaust() || c.WorkDone(elbowLooked...) {
		return false
	}
	return slices.ContainsFunc(c.ByItself(cylinders), func(s known.Subject) bool { return known.WaterFromExhaust.Holds(c, s) })
}

// headShared is an engine in which two cylinders stand side by side under one
// head gasket, so that one may blow into the other.
func headShared(c *known.Case) bool { return c.ShareHead(c.Every()) }

// mayRunIn is an engine that can be run to see whether it recovers: none of its
// cylinders is far down, and none lets its fire into the inlet, where there is
// mixture to be lit.
func mayRunIn(c *known.Case, _ []string) bool {
	inlet := c.HasValves() && slices.ContainsFunc(c.Every(), func(n string) bool { return c.LeaksAt(n, known.AtInlet) })
	scored := c.Ported() && c.AnyLow(c.Read())                                         // its piston may be, and each turn takes more of the wall
	pitted := c.AnySeen(c.Every(), known.PittedWall)                                   // which running does not mend
	return !inlet && !scored && !pitted && !c.AnyFar(c.Read()) && !c.FaltersInTheAir() // which is not flown to see
}

// runTakes is shorter of an aircraft, which is run on the ground alone.
func runTakes(c *known.Case, _ []string) int {
	if c.Flies() {
		return 120
	}
	return 600
}

// notRunIn is an engine that uses oil while its rings have not bedded in, which running
// answers.
func notRunIn(c *known.Case) bool {
	return c.UsesOil() && known.RingsNotRunIn.HoldsIn(c)
}

// notWashed is an engine with pistons whose bores fuel has not washed: those
// leak past their rings until they are dry and oiled, worn or not. Nor may coolant
// lie on the piston, which hides where the air goes: that is turned out by hand first.
func notWashed(c *known.Case, cylinders []string) bool {
	if slices.ContainsFunc(cylinders, func(n string) bool { return c.CoolantEnters(n) && c.LiquidIn(n) == known.LiquidEnters }) {
		return false
	}
	return !c.Rotary() && !waterFromExhaust(c, cylinders) && !(c.Flooded() && (c.AllLow() != nil || c.Dead()))
}

// seepsOut is coolant that was seen outside at the joint of the head, with no cylinder to be
// tried for it: air put into a cylinder does not show there.
func seepsOut(c *known.Case, cylinders []string) bool {
	return len(cylinders) == 0 && known.CoolantAtHead.HoldsIn(c) && !c.AnyLow(c.Read())
}

// eachTakes is the time of a check that takes so many minutes a cylinder beside
// five to set up; of a whole engine two cylinders tell enough.
func eachTakes(minutes int) func(*known.Case, []string) int {
	return func(c *known.Case, cylinders []string) int {
		n := len(cylinders)
		if n == 0 {
			n = min(2, len(c.Every()))
		}
		return 5 + minutes*n
	}
}

// leakDownTakes: two cylinders stand for an engine that is low throughout; where coolant
// goes, each of them is tried.
func leakDownTakes(c *known.Case, cylinders []string) int {
	if len(cylinders) == 0 && (coolantGoes(c) || known.CoolingFalls.HoldsIn(c)) {
		cylinders = c.Every()
	}
	return eachTakes(10)(c, cylinders)
}

// leakPlaceTakes is the time of hearing where the air of these cylinders goes, with
// the tester at hand.
func leakPlaceTakes(_ *known.Case, cylinders []string) int { return 5 * max(1, len(cylinders)) }

// lostUnheard is a set of cylinders each of which loses more than a sound one, and of
// none of which was it noted where the air goes; what loses too little for what it lacks is
// looked at elsewhere. An aircraft's is read again warm first, where it is not low besides.
func lostUnheard(c *known.Case, cylinders []string) bool {
	return len(cylinders) > 0 && notWashed(c, cylinders) && (!toReadAgain(c) || c.AnyLow(cylinders)) && madeOn(c, cylinders, func(n string) bool {
		l := c.Leak(n)
		return l != nil && l.Loss != nil && known.Beyond(*l.Loss, known.GoodLoss) && len(l.At) == 0 && (c.Grade(n) == diag.NoPressure || !c.LossTooSmall(n))
	})
}

// lookedInFirst is a look inside where the cooling system lost its pressure and nobody knows
// into which cylinder: what stood open overnight shows there.
func lookedInFirst(c *known.Case) string {
	if known.CoolingFalls.HoldsIn(c) {
		return "borescope"
	}
	return ""
}

// coolantGoes is an engine of which several signs agree that coolant goes inside.
func coolantGoes(c *known.Case) bool { return c.CoolantSigns() > 1 || c.OilMixed() }

// seatHeard is an engine with valves of which each of these cylinders lets air out
// past one, so that what lies on its seat may hold it off; not one without any
// pressure, where more than dirt holds it.
func seatHeard(c *known.Case, cylinders []string) bool {
	if ReadAgainFirst(c, cylinders) || len(c.DepositsSeen()) > 0 || known.MetByTheStory.HoldsIn(c) { // with the valve tapped; or it is cleaned anyway
		return false
	}
	return c.HasValves() && len(cylinders) > 0 && !slices.ContainsFunc(cylinders, func(n string) bool {
		return c.Grade(n) == diag.NoPressure || !c.LeaksAt(n, known.AtExhaust) && !c.LeaksAt(n, known.AtInlet)
	})
}

// blown is a two-stroke whose ports a blower feeds: air past its rings comes out there.
func blown(c *known.Case) bool { return c.HasValves() && !c.InletValves() }

// airGoes are the places at which the air of a cylinder is heard, each entered in the
// check's own way.
func airGoes(enter func(at string) func(*Trial)) []Outcome {
	return []Outcome{
		{Name: "exhaust", For: []string{"exhaust-valve", "valve-lash", "carbon-on-seat", "valve-recession", "valve-stretch", "stuck-valve", "bent-valve", "sticking-valve"}, Fits: valved, Enter: enter(known.AtExhaust), After: []string{"air at the exhaust"}},
		{Name: "exhaust port", For: []string{"rings", "piston", "scored-bore", "stuck-rings"}, Fits: twoStroke, Enter: enter(known.AtExhaust), After: []string{"air at the exhaust port"}},
		{Name: "inlet", For: []string{"inlet-valve", "carbon-on-seat", "stuck-valve", "bent-valve", "reed-valve"}, Fits: func(c *known.Case) bool { return !blown(c) }, Enter: enter(known.AtInlet), After: []string{"air at the intake", "air at the carburetor"}},
		{Name: "crankcase", For: []string{"rings", "scored-bore", "piston", "holed-piston", "wear", "stuck-rings", "broken-ring-land", "washed-bore", "dry-bores"}, Enter: enter(known.AtCrankcase), After: []string{"air at the oil filler"}},
		{Name: "coolant", For: []string{"head-gasket", "warped-or-cracked-head", "cracked-bore"}, Fits: wet, Enter: enter(known.AtCoolant), After: []string{"bubbles in the coolant"}},
		{Name: "neighbour", For: []string{"head-gasket", "warped-or-cracked-head"}, Fits: headShared, Enter: enter(known.AtNeighbour), After: []string{"air in the cylinder beside it"}},
	}
}

// sealingChecks tell where a cylinder loses its pressure.
var sealingChecks = []Check{
	{Name: "wet-test", Titles: []string{"test with a little oil"}, Minutes: 10, MinutesOf: eachTakes(5), Way: Starter | Oils, Words: []string{"wet compression"}, Made: madeWet,
		Fits: func(c *known.Case, cylinders []string) bool {
			dead := len(cylinders) > 0 && !slices.ContainsFunc(cylinders, func(n string) bool { return !c.Far(n) })
			unread := slices.ContainsFunc(cylinders, func(n string) bool { return c.Cylinder(n) == nil || c.Cylinder(n).Dry == nil })
			return c.OilTells() && c.DryRead() && !unread && !dead && !c.Flooded() && !holdPressure(c, cylinders)
		},
		Outcomes: []Outcome{
			{Name: "rises", For: []string{"rings", "scored-bore", "stuck-rings", "broken-ring-land", "washed-bore", "wear", "dry-bores"}, Enter: wetRise(0.8)},
			{Name: "hardly rises", Else: true, Enter: wetRise(0), Words: []string{"no rise", "no change"}}}},
	{Name: "leak-down", Minutes: 15, MinutesOf: leakDownTakes, Way: Hand | Air, Words: []string{"leakdown", "leak down test", "leakage test"}, Fits: func(c *known.Case, cylinders []string) bool {
		return notWashed(c, cylinders) && !lookInFirst(c, cylinders) && turns(c) && !seepsOut(c, cylinders)
	}, Made: madeLeakDown, YieldsTo: lookedInFirst,
		Outcomes: append(airGoes(func(at string) func(*Trial) { return leak(35, at) }),
			Outcome{Name: "tight", Else: true, Enter: leak(6), Words: []string{"hardly", "holds"}})},
	{Name: "leak-place", Titles: []string{"where the air goes", "place of the leak"}, Minutes: 5, MinutesOf: leakPlaceTakes, Mends: []string{"leak-place-unknown"}, Way: Hand | Air, Words: []string{"leak located", "listened for the leak"}, Fits: lostUnheard,
		Outcomes: append(airGoes(heardAt),
			Outcome{Name: "nowhere", For: []string{"tester-scale", "plug-or-adapter-thread"}, Else: true, Words: []string{"nowhere", "nothing heard"}, After: []string{"it is heard nowhere"}})},
	{Name: "seat-and-retest", Titles: []string{"freeing the valve seat", "freeing the valve seat, and leak-down again"}, Minutes: 15, Way: Hand | Air, Mends: []string{"carbon-on-seat", "sticking-valve"}, Words: []string{"valve tapped", "seat cleaned", "valve reseated", "valve staked", "valves tapped"}, Fits: seatHeard,
		Outcomes: []Outcome{
			{Name: "it seals", Well: true, For: []string{"carbon-on-seat", "sticking-valve"}, Words: []string{"seals", "sealed", "loses less"}, After: []string{"it loses much less"}},
			{Name: "it does not snap shut", For: []string{"valve-motion", "stuck-valve"}, Sure: 0.5, Words: []string{"slack", "not shut", "spring"}},
			{Name: "it leaks as before", Else: true, Words: []string{"leaks", "same", "no change"}}}},
	{Name: "leak-down-pair", Titles: []string{"air test of the pair", "leak-down test between neighbors"}, Minutes: 15, Way: Hand | Air, Words: []string{"leak-down between"}, OfSet: true,
		Fits: func(c *known.Case, cylinders []string) bool {
			return pistons(c, cylinders) && !waterFromExhaust(c, cylinders) && len(cylinders) > 1 && len(c.Engine.NeighbourRuns(cylinders)) < len(cylinders)
		},
		Made: madeLeakDown,
		Outcomes: []Outcome{
			{Name: "air comes across", For: []string{"head-gasket", "warped-or-cracked-head"}, Enter: leak(45, known.AtNeighbour), Words: []string{"across", "neighbour"}, After: []string{"air comes out there"}},
			{Name: "none comes across", Else: true, Words: []string{"none", "no air"}}}},
	{Name: "coolant-gas-test", Titles: []string{"test of the coolant for combustion gas"}, Coolant: true, Minutes: 10, Whole: true, Answers: coolantGoes, Way: Runs,
		Words: []string{"block test", "sniff test", "combustion gas test"},
		Fits: func(c *known.Case, cylinders []string) bool { // what is lost inside may stand in a cylinder as it starts
			return cooled(c, cylinders) && (c.Rotary() || !known.CoolingFalls.HoldsIn(c))
		},
		Made: func(c *known.Case, _ []string) bool {
			return c.CoolantGas == "positive" || known.NoGasFound.HoldsIn(c)
		},
		Outcomes: []Outcome{
			{Name: "gas", For: []string{"head-gasket", "warped-or-cracked-head", "cracked-bore", "coolant-seal", "cracked-housing"}, Sure: 0.6, Enter: gas("positive"), Words: []string{"positive"}},
			{Name: "none", Else: true, Enter: gas("negative"), Words: []string{"negative"}}}},
	{Name: "cooling-pressure-test", Further: true, Titles: []string{"pressure test of the cooling system"}, Coolant: true, Minutes: 15, Answers: coolantGoes, Fits: func(c *known.Case, cylinders []string) bool { return cooled(c, cylinders) && !oilInCoolant(c) }, Made: readIn(known.Cooling, "pressure-test hold", "pressure-test seen"), Words: []string{"cooling system pressure", "coolant pressure test"},
		Outcomes: []Outcome{
			{Name: "wet outside", For: []string{"coolant-leak-outside"}, Words: []string{"outside"}},
			{Name: "coolant comes in", For: []string{"head-gasket", "warped-or-cracked-head", "cracked-bore", "coolant-seal", "cracked-housing", "coolant-or-fuel-in-bore"}, Sure: 0.7, Words: []string{"falls", "wet"}},
			{Name: "runs into the oil", For: []string{"liner-seal", "intake-coolant-gasket", "oil-cooler"}, Fits: (*known.Case).OilMixed, Sure: 0.7, Words: []string{"into the oil", "cylinders dry"}},
			{Name: "it holds", For: []string{"wet-exhaust"}, Else: true, Words: []string{"holds", "dry"}}}},
	{Name: "borescope", Titles: []string{"a look inside"}, Minutes: 15, MinutesOf: lookTakes, Fits: func(c *known.Case, cylinders []string) bool { return pistons(c, nil) && !ReadAgainFirst(c, cylinders) }, YieldsTo: coverBeforeCamera, Words: []string{"borescoped", "camera"}, Made: func(c *known.Case, cylinders []string) bool { return madeOn(c, cylinders, c.Looked) },
		Outcomes: []Outcome{
			{Name: "scored", For: []string{"scored-bore"}, Sure: 0.8, Enter: saw(diag.Bore{Wall: "scored"})},
			{Name: "holed", For: []string{"holed-piston", "piston", "broken-ring-land"}, Enter: saw(diag.Bore{Crown: "holed"})},
			{Name: "marked", For: []string{"piston-contact", "foreign-object", "bent-valve", "timing-drive"}, Sure: 0.7, Enter: saw(diag.Bore{Crown: "marked"})},
			{Name: "valve", For: []string{"exhaust-valve", "inlet-valve", "stuck-valve", "valve-recession", "valve-stretch"}, Sure: 0.35, Fits: valved, Enter: saw(diag.Bore{Valves: "burnt"}), Words: []string{"burnt"}},
			{Name: "washed", For: []string{"head-gasket", "warped-or-cracked-head", "cracked-bore", "coolant-or-fuel-in-bore"}, Sure: 0.5, Enter: saw(diag.Bore{Crown: "washed"})},
			{Name: "carbon", For: []string{"carbon", "carbon-on-seat", "oil-in-bore", "loose-deposit"}, Sure: 0.5, Enter: saw(diag.Bore{Crown: "carbon"})},
			{Name: "nothing", Else: true, Enter: saw(diag.Bore{Wall: "good", Crown: "good"}), Words: []string{"good"}}}},
	{Name: "soap-joints", Titles: []string{"soapy water on the joints", "soapy-water test"}, Minutes: 5, Way: Hand, Fits: func(c *known.Case, cylinders []string) bool {
		return pistons(c, cylinders) && slices.ContainsFunc(cylinders, func(n string) bool { return c.LeaksAt(n, known.AtOutside) })
	}, Words: []string{"soapy water", "soap water", "soap suds", "soaped", "bubbles along the gasket edge", "bubbles along the edge of the gasket", "bubbles at the head joint", "bubbles along the head joint", "bubbles along the joint", "bubbles at the plug thread", "bubbles at the adapter", "bubbles around the plug", "bubbles around the adapter", "bubbles from the thread", "bubbles from the joint", "bubbles between head and block"},
		Outcomes: []Outcome{
			{Name: "thread", For: []string{"plug-or-adapter-thread", "adapter-leak"}, Words: []string{"adapter", "plug thread"}},
			{Name: "injector leaking", For: []string{"injector-seat"}, Fits: func(c *known.Case) bool { return Fit(c, "injector-seat") }, Words: []string{"at the injector", "around the injector"}},
			{Name: "edge", For: []string{"head-gasket", "warped-or-cracked-head"}, Words: []string{"gasket", "joint", "head to block"}, After: []string{"bubbles along the joint"}},
			{Name: "none", Else: true, Words: []string{"no bubbles"}, After: []string{"no bubbles"}}}},
	{Name: "turn-by-hand", Titles: []string{"turning by hand"}, Minutes: 10, Whole: true, Way: Hand, Fits: func(c *known.Case, _ []string) bool { return turns(c) }, Made: func(c *known.Case, _ []string) bool { return c.CrankedEmpty() }, YieldsTo: elbowOnceCranked, Words: []string{"turned by hand", "turned with the plugs out", "turned over with the plugs out"},
		Outcomes: []Outcome{
			{Name: "liquid comes out", For: []string{"coolant-or-fuel-in-bore", "oil-in-bore", "wet-exhaust"}, Words: []string{"liquid", "water came out", "coolant came out", "fuel came out", "oil came out"}},
			{Name: "it does not move", For: []string{"tight-engine", "stuck-rings"}, Fits: known.EngineStuck.HoldsIn, Sure: 0.7, Words: []string{"does not move", "will not move", "does not turn", "cannot be turned", "solid", "stiff", "turns hard", "hard to turn", "tight"}},
			{Name: "it stops hard", Stops: true, For: []string{"foreign-object", "bent-valve", "piston-contact"}, Sure: 0.4, Words: []string{"stops", "stopped", "hard stop"}},
			{Name: "it turns freely", Else: true, Words: []string{"free", "freely", "nothing comes out", "nothing came out", "no liquid", "drained and turns", "turns over by hand"}}}},
	{Name: "piston-height", Titles: []string{"height of the pistons"}, Minutes: 20, Way: Hand, Fits: rodInDoubt, Words: []string{"piston heights compared", "piston heights measured", "piston height measured"},
		Outcomes: []Outcome{
			{Name: "one comes up less", For: []string{"bent-rod"}, Words: []string{"less", "lower", "short", "not as high"}},
			{Name: "water comes out", For: []string{"coolant-or-fuel-in-bore"}, Words: []string{"water"}, After: []string{"water comes out, and all come up alike"}},
			{Name: "all come up alike", Else: true, Words: []string{"alike", "same"}}}},
	{Name: "run-and-retest", Titles: []string{"run it and retest", "running it and testing again"}, Minutes: 600, Labour: 15, MinutesOf: runTakes, Fits: mayRunIn, Mends: []string{"dry-bores", "stuck-rings", "stuck-seals", "not-run-in"}, Whole: true, Way: Hand | Runs | Starter, Words: []string{"run and tested again", "run and retested"}, Answers: notRunIn,
		Outcomes: []Outcome{
			{Name: "recovers", Well: true, For: []string{"dry-bores", "stuck-rings", "not-run-in", "carbon-on-seat", "sticking-valve", "stuck-seals", "stuck-valve"}, Sure: 0.7, Words: []string{"recovered"}, After: []string{"the readings come up"}},
			{Name: "stays low", Else: true, Words: []string{"stays", "stayed", "low"}}}},
}

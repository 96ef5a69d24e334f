package rule

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// Sources of what is seen in a cylinder.
const byEye = "common practice, no source: what is seen needs no inference"

// lowAlone are the rules that find a cylinder low by itself: what was seen in it
// says why.
var lowAlone = []string{"one-low", "one-out-of-tight-pack"}

// seenRules are on what somebody saw in a cylinder, with a camera or by eye.
var seenRules = needing(known.NeedsSight, []Rule{
	{
		Name: "seen-holed", Title: "A hole or a break in a piston was seen",
		Why:    "A piston that is holed seals nothing and blows the oil out of its crankcase; pieces of it lie somewhere. The engine is not turned again before it is opened.",
		Source: byEye, Class: Single, About: diag.AboutCylinders,
		Of: eachCylinder, When: known.SeenThere("a holed or broken piston", known.HoledWords),
		Kind: OfSight, For: append(speaks(Heard, "holed-piston"), common("piston", "broken-ring-land")...), Say: seen(diag.DoNotRun), Headline: "seen-damage",
		SaysBetterThan: append([]string{"knock-and-low", "low-since-noise"}, lowAlone...),
	},
	{
		Name: "seen-melted", Title: "A piston that has melted was seen",
		Why: "Heat takes metal off the edge of a crown before it makes a hole: it still seals a little, and the next hard minute goes through it. A mixture that was lean, a spark that came early, cooling that failed or a plug that is too hot melts it, " +
			"on a diesel a nozzle that drips or fuel that comes early. The engine stays off, and why is found before it runs on new parts.",
		Source: byEye, Class: Single, About: diag.AboutCylinders,
		Of: eachCylinder, When: known.All(known.SeenThere("a melted piston", known.MeltedPiston), known.Not(known.SeenThere("a holed or broken one", known.HoledWords))),
		Kind: OfSight, For: append(speaks(Heard+Hint, "piston"), common("holed-piston", "broken-ring-land")...), Say: meltedSays, Headline: "seen-damage",
		SaysBetterThan: append([]string{"knock-and-low", "low-since-noise"}, lowAlone...),
	},
	{
		Name: "seen-marked", Title: "Marks on a piston's crown were seen",
		Why: "A crown is marked by what has hit it: a valve that was not out of the way, a loose part, a plug that reaches too far. " +
			"Whatever it was may still be there, so the engine is turned by hand or not at all.",
		Source: byEye, Class: Single, About: diag.AboutCylinders,
		Of: eachCylinder, When: known.SeenThere("a marked crown", known.MarkedCrown),
		Kind: OfSight, For: append(speaks(Sight, "foreign-object", "bent-valve"), speaks(Known, "piston-contact", "timing-drive")...), Say: seen(diag.DoNotRun), Headline: "seen-damage",
	},
	{
		Name: "seen-bent-valve", Title: "A bent valve was seen",
		Why:    "A valve bends when a piston meets it: the valve drive has failed or jumped, or the engine was turned too fast. Its head may break off and fall in.",
		Source: byEye, Class: Single, About: diag.AboutCylinders,
		Of: eachCylinder, When: known.All(known.SeenThere("a bent valve", known.BentValve), known.Valves),
		Kind: OfSight, For: append(speaks(Heard, "bent-valve"), common("timing-drive", "cam-timing")...), Say: seen(diag.DoNotRun), Headline: "seen-damage",
		SaysBetterThan: lowAlone,
	},
	{
		Name: "seen-burnt-valve", Title: "A burnt, cracked or chipped valve or seat was seen",
		Why:    "A valve that is burnt at its edge does not seal, and hot gas burns it further. It is the exhaust valve unless the other is named. The cylinder is opened for it: the head comes off, or the whole cylinder where that is one piece.",
		Source: byEye, Class: Single, About: diag.AboutCylinders,
		Of: eachCylinder, When: known.All(known.SeenThere("a burnt valve or seat", known.BurntValve), known.Valves),
		Kind: OfSight, Weigh: burntValve, Say: burntSays, Headline: "seen-damage",
		SaysBetterThan: lowAlone,
	},
	{
		Name: "seen-valve-gear", Title: "A rocker, pushrod, valve or its seat that is broken, stuck or out of its place was seen",
		Why: "A valve that hangs open or is not moved makes a cylinder that neither draws nor seals, whatever the gauge says, and turned over it may meet the piston. " +
			"What is broken is put right before anything is tested again.",
		Source: byEye, Class: Single, About: diag.AboutCylinders,
		Of: eachCylinder, When: known.All(known.Any(known.SeenThere("a rocker, pushrod, spring or lobe that is broken, worn or out of its place", known.BrokenGear), known.SeenThere("a valve that sticks, or a loose guide or seat", known.StuckOpen)), known.Valves),
		Kind: OfSight, Weigh: valveGear, Say: valveGearSays, Headline: "seen-valve-gear",
		SaysBetterThan: append([]string{"one-without-pressure", "oil-wet", "fuel-wet"}, lowAlone...),
	},
	{
		Name: "seen-scored", Title: "A scored cylinder wall was seen",
		Why:    "Grooves along the wall let gas down and oil up, and are felt with a fingernail. Light marks in the direction of the piston's travel are common on a used engine and matter less.",
		Source: byEye, Class: Single, About: diag.AboutCylinders,
		Of: eachCylinder, When: known.SeenThere("a scored wall", known.ScoredWords),
		Kind: OfSight, For: append(speaks(Heard, "scored-bore"), common("rings", "piston")...), Say: scoredSays, Headline: "seen-damage",
		SaysBetterThan: lowAlone,
	},
	{
		Name: "seen-rust", Title: "Rust was seen in a cylinder",
		Why: "Water or damp air was in there while it stood. A rusty seat does not seal until it has beaten clean, or never; rust on the wall sticks the rings and takes them along when it is turned. " +
			"Such an engine is oiled and turned by hand before the starter has it.",
		Source: byEye, Class: Single, About: diag.AboutCylinders,
		Of: eachCylinder, When: known.Any(known.All(known.SeenThere("rust on a valve or a seat", known.RustOnValve), known.Valves), known.SeenThere("rust on the wall", known.RustOnWall)),
		Kind: OfSight, Weigh: rustSeen, Say: rustSays, Headline: "seen-rust",
		SaysBetterThan: lowAlone,
	},
	{
		Name: "seen-washed", Title: "A washed crown was seen",
		Why: "Steam cleans the crown on which coolant drips; the clean patch shows where it comes in. Fuel washes too: in an engine without coolant it is an injector or the mixture. " +
			"A crown cleaner than the others is the clue.",
		Source: byEye, Class: Single, About: diag.AboutCylinders,
		Of: eachCylinder, When: known.SeenThere("a washed crown", known.WashedCrown),
		Kind: OfSight, Weigh: washedCrown, Say: seen(diag.ActSoon), Headline: "seen-washed",
	},
	{
		Name: "seen-carbon", Title: "Carbon on a crown was seen",
		Why:    "Carbon builds where oil or a rich mixture burns. It takes up room and so raises the reading, and a crumb of it on a seat lets a valve leak. By itself it asks for nothing.",
		Source: byEye, Class: Information, About: diag.AboutCylinders,
		Of: eachCylinder, When: known.Any(known.SeenThere("carbon on the crown", known.CarbonWords), known.SeenThere("carbon on a seat", known.CarbonOnSeat)),
		Kind: OfSight, Weigh: carbonSeen, Say: carbonSays, Headline: "see-findings",
	},
	{
		Name: "seen-intake-deposits", Title: "Carbon was seen on the valves of an engine with direct injection, and it is complained of",
		Why: "Direct injection sprays past the intake valves, and nothing washes off what oil and exhaust gas leave on them. It grows until it takes the air of its cylinder, " +
			"which misses when cold and pulls badly, while it presses well. It is cleaned off with its valves shut; a valve that leaks within its limit is not why.",
		Source: "common practice, no source", Class: Together, About: diag.AboutCylinders,
		Of: oneSet("the cylinders on whose valves carbon was seen", (*known.Case).DepositsSeen), When: known.All(soundAndIll, known.Complaint("misfire", "hard start", "low power"), known.Not(known.OfAny("loses more than is allowed", (*known.Case).HighLoss))),
		Kind: OfSight, For: speaks(Heard, "inlet-deposits"), Say: seen(diag.ActSoon), Headline: "intake-deposits",
		SaysBetterThan: []string{"seen-carbon", "leaks-at-inlet"}, InsteadOf: []string{"sealing-sound-look-elsewhere"},
	},
	{
		Name: "seen-glazed", Title: "A glazed cylinder wall was seen",
		Why:    "A wall polished like glass holds no oil film and lets the rings ride up: light use and a bad run-in do it. It shows as oil use more than as low pressure.",
		Source: byEye, Class: Information, About: diag.AboutCylinders,
		Of: eachCylinder, When: known.SeenThere("a glazed wall", known.Glazed),
		Kind: OfSight, For: append(speaks(Known, "oil-control-rings"), common("rings")...), Say: seen(diag.NoAction), Headline: "see-findings",
	},
})

// needing adds a need to each of some rules.
func needing(need known.Need, list []Rule) []Rule {
	for i := range list {
		list[i].Needs = append([]known.Need{need}, list[i].Needs...)
	}
	return list
}

// seen is the finding on what was seen in cylinders.
func seen(urgency diag.Urgency) func(*known.Case, known.Subject) diag.Finding {
	return func(c *known.Case, s known.Subject) diag.Finding {
		return diag.Finding{Urgency: urgency, Confidence: diag.Fair, Facts: diag.Facts{
			"low": c.AnyLow(s.Cylinders), "twoStroke": c.Ported(), "powerhead": c.Powerhead(), "airCooled": c.AirCooled(), "oil": c.UsesOil(), "diesel": c.Spec.Diesel()}}
	}
}

// meltedSays is why a piston melts: of one with its own carburetor, that is looked at first.
func meltedSays(c *known.Case, s known.Subject) diag.Finding {
	f := seen(diag.DoNotRun)(c, s)
	f.Facts["carburetted"], f.Facts["some"] = c.Carburetted(), len(s.Cylinders) < len(c.Every())
	return f
}

// scoredSays: in a two-stroke the wall is scored by a piston that has begun to seize,
// and it seizes again until it is known why; and rings catch in the ports of such a wall.
func scoredSays(c *known.Case, s known.Subject) diag.Finding {
	f := seen(diag.ActSoon)(c, s)
	light := c.ScoredLightly(s.Cylinders) && !ailing(c, s.Cylinders)
	f.Facts["hot"], f.Facts["light"], f.Facts["ports"] = c.Complains("overheating"), light, c.Spec.TwoStroke
	f.Facts["leaned"] = c.Carburetted() && !c.Complains("overheating") && c.LeanAlone(s.Cylinders)
	switch {
	case c.Spec.TwoStroke && (c.AnyLow(s.Cylinders) || len(c.Complaints()) > 0):
		f.Urgency = diag.DoNotRun
	case light && !c.Spec.TwoStroke:
		f.Urgency = diag.CheckAgain
	}
	return f
}

// burntSays: an engine that is tested as aircraft are is not flown on a burnt valve.
func burntSays(c *known.Case, s known.Subject) diag.Finding {
	if c.TestedAsAircraft() {
		return seen(diag.DoNotRun)(c, s)
	}
	return seen(diag.ActSoon)(c, s)
}

func burntValve(c *known.Case, s known.Subject) []Voice {
	if ofInlet(c, s.Cylinders, "inlet valve", "intake valve", "inlet seat", "intake seat") {
		return speaks(Heard, "inlet-valve")
	}
	voices := speaks(Heard, "exhaust-valve")
	if c.GasFuel() {
		voices = append(voices, speaks(commonest, "valve-recession")...)
	}
	return voices
}

func valveGear(c *known.Case, s known.Subject) []Voice {
	var list []Voice
	if c.AnySeen(s.Cylinders, known.BrokenGear) {
		list = speaks(Heard, "valve-motion")
	}
	if c.AnySeen(s.Cylinders, known.StuckOpen) {
		list = append(list, speaks(Heard, "stuck-valve")...)
	}
	return append(list, speaks(rarer, "bent-valve")...)
}

// valveGearSays: an engine that is turned with a valve hanging open may bend it.
func valveGearSays(c *known.Case, s known.Subject) diag.Finding {
	f := seen(diag.ActSoon)(c, s)
	if c.AnyFar(s.Cylinders) || !c.Starts() {
		f.Urgency = diag.DoNotRun
	}
	f.Facts["stuck"] = c.AnySeen(s.Cylinders, known.StuckOpen)
	return f
}

// rustSeen: where water was seen, or gets in by what its plug or the engine shows, rust is
// what it left and not what is wrong.
func rustSeen(c *known.Case, s known.Subject) []Voice {
	if slices.ContainsFunc(s.Cylinders, func(n string) bool {
		return c.LiquidIn(n) == known.LiquidSeen || c.LiquidIn(n) == known.LiquidEnters || c.WetExhaust()
	}) {
		return append(speaks(DryUp, "stuck-rings", "stuck-valve"), speaks(Hint, "scored-bore")...)
	}
	return slices.Concat(
		where(c.AnySeen(s.Cylinders, known.RustOnValve), append(speaks(Heard, "sticking-valve"), speaks(Known, "stuck-valve")...)),
		where(c.AnySeen(s.Cylinders, known.RustOnWall), append(speaks(Sight, "stuck-rings"), speaks(Known, "scored-bore")...)))
}

func rustSays(c *known.Case, s known.Subject) diag.Finding {
	f := seen(diag.CheckAgain)(c, s)
	if c.AnyLow(s.Cylinders) {
		f.Urgency = diag.ActSoon
	}
	f.Facts["wall"] = c.AnySeen(s.Cylinders, known.RustOnWall)
	return f
}

func washedCrown(c *known.Case, _ known.Subject) []Voice {
	if c.AirCooled() {
		return append(speaks(Known, "washed-bore"), common("leaking-injector", "rich-mixture", "flooding")...)
	}
	return append(pathToCoolant(Sight, commonest), speaks(commonest-2*rarer, "leaking-injector")...)
}

// carbonSays: a piece that lies on a seat holds its valve open, and is gone or not at the next look.
func carbonSays(c *known.Case, s known.Subject) diag.Finding {
	f := seen(diag.NoAction)(c, s)
	if f.Facts["crumb"] = c.HasValves() && c.AnySeen(s.Cylinders, known.CarbonCrumb); f.Facts["crumb"] == true {
		f.Urgency, f.Headline = diag.CheckAgain, "seen-leaky-valve"
	}
	return f
}

func carbonSeen(c *known.Case, s known.Subject) []Voice {
	var voices []Voice
	onSeat := slices.ContainsFunc(s.Cylinders, func(n string) bool { return c.Seen(n, known.CarbonOnSeat...) })
	if onSeat {
		weight := Sight
		if len(c.DepositsSeen()) > 0 && !known.OfAny("", (*known.Case).HighLoss).Holds(c, s) { // on the backs of the valves, and their seats shut
			weight = Hint
		}
		voices = speaks(weight, "carbon-on-seat")
		if leaks := func(n string) bool { return c.LeaksAt(n, known.AtInlet) || c.LeaksAt(n, known.AtExhaust) }; weight == Sight && !c.LeakageCold() && slices.ContainsFunc(s.Cylinders, leaks) {
			voices = speaks(Heard, "carbon-on-seat") // seen where the air was heard
		}
	}
	if slices.ContainsFunc(s.Cylinders, func(n string) bool { return c.Seen(n, known.CarbonWords...) }) {
		voices = append(voices, speaks(Sight, "carbon")...)
	}
	return voices
}

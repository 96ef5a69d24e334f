package rule

import (
	"cmp"
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
	"gaugesheet/diag/sight"
)

// seenPartRules are on damage to the parts of a cylinder, whatever words it was told in:
// package sight makes out the part and what has come to it.
var seenPartRules = needing(known.NeedsSight, []Rule{
	{
		Name: "seen-broken-ring", Title: "A piston ring, or the land between two, that is broken or missing was seen",
		Why: "Ends of a broken ring score the wall and knock the land away, and pieces that come out of the groove go where gas goes. In a two-stroke they catch in the ports, and the piston breaks on them. " +
			"A rotor's seal does the same to its housing.",
		Source: byEye, Class: Single, About: diag.AboutCylinders,
		Of: eachCylinder, When: known.SeenThere("a ring or ring land that is broken or missing", known.BrokenRing),
		Kind: OfSight, Weigh: brokenRing, Say: brokenRingSays, Headline: "seen-damage",
		SaysBetterThan: append([]string{"knock-and-low", "low-since-noise"}, lowAlone...),
	},
	{
		Name: "seen-stuck-ring", Title: "A piston ring that does not spring was seen",
		Why:    "A ring that is stuck in its groove by carbon, gum or rust presses on no wall: gas goes past it and burns the oil off the wall. Freed in time it scores nothing.",
		Source: byEye, Class: Single, About: diag.AboutCylinders,
		Of: eachCylinder, When: known.SeenThere("a ring that is stuck in its groove", known.StuckRing),
		Kind: OfSight, For: append(speaks(Heard, "stuck-rings"), common("rings")...), Say: soonerIfLow(diag.CheckAgain, diag.ActSoon), Headline: "seen-damage",
		SaysBetterThan: lowAlone,
	},
	{
		Name: "seen-cracked-piston", Title: "A cracked piston was seen",
		Why:    "A crack in a piston grows with every stroke until a part of it comes off. The engine is opened before it turns again.",
		Source: byEye, Class: Single, About: diag.AboutCylinders,
		Of: eachCylinder, When: known.SeenThere("a crack in a piston", known.CrackedPist),
		Kind: OfSight, For: append(speaks(Heard, "piston"), common("broken-ring-land", "holed-piston")...), Say: seen(diag.DoNotRun), Headline: "seen-damage",
		SaysBetterThan: append([]string{"knock-and-low", "low-since-noise"}, lowAlone...),
	},
	{
		Name: "seen-cracked-head", Title: "A cracked, burned or warped cylinder head was seen",
		Why: "A crack in a head lets gas out, or into the coolant and coolant into the cylinder, and grows with every heating. Cracks between the seats of a diesel may be within what its maker allows, which is measured with the head off. " +
			"A cylinder that is held to an aircraft by its head comes off before flight.",
		Source: byEye, Class: Single, About: diag.AboutCylinders,
		Of: eachCylinder, When: known.SeenThere("a cracked, burned or warped head", known.CrackedHead),
		Kind: OfSight, For: append(speaks(Heard+Hint, "warped-or-cracked-head"), common("head-gasket")...), Say: headSays, Headline: "seen-damage",
		SaysBetterThan: lowAlone,
	},
	{
		Name: "seen-cracked-wall", Title: "A cylinder wall that is cracked or eaten through was seen",
		Why:    "Through a crack or pinholes in a wall or liner coolant gets into the cylinder, or gas out of it, and the piston's rings catch in it. Liquid in there stops the piston; the engine is not turned on its starter.",
		Source: byEye, Class: Single, About: diag.AboutCylinders,
		Of: eachCylinder, When: known.SeenThere("a wall that is cracked or eaten through", known.CrackedWall),
		Kind: OfSight, For: append(speaks(Heard+Hint, "cracked-bore"), common("scored-bore")...), Say: seen(diag.DoNotRun), Headline: "seen-damage",
		SaysBetterThan: lowAlone,
	},
	{
		Name: "seen-broken-valve", Title: "A valve without its head was seen",
		Why:    "A valve that breaks drops its head on the piston, which hammers it into the head or goes to pieces on it. Nothing turns such an engine but a hand.",
		Source: byEye, Class: Single, About: diag.AboutCylinders,
		Of: eachCylinder, When: known.All(known.SeenThere("a valve that is broken", known.BrokenValve), known.Valves),
		Kind: OfSight, For: append(speaks(Heard+Hint, "broken-valve"), common("foreign-object", "piston")...), Say: seen(diag.DoNotRun), Headline: "seen-damage",
		SaysBetterThan: append([]string{"one-without-pressure"}, lowAlone...),
	},
	{
		Name: "seen-leaky-valve", Title: "A valve with the colors of heat at one side, or a valve or seat that is pitted, worn or does not close, was seen",
		Why: "Where a valve does not meet its seat hot gas passes, and its color shows it long before the edge is gone: rings of color about its middle are sound, a pale or green patch at one edge is not. " +
			"Pits and a sunken seat leak likewise.",
		Source: byEye, Class: Single, About: diag.AboutCylinders,
		Of: eachCylinder, When: known.All(known.Any(known.SeenThere("colors of heat at one side of a valve", known.HotValve), known.SeenThere("a valve or seat that is pitted, worn or does not close", known.LeakyValve)), known.Valves),
		Kind: OfSight, Weigh: leakyValve, Say: leakyValveSays, Headline: "seen-leaky-valve",
		SaysBetterThan: lowAlone,
	},
	{
		Name: "seen-blown-gasket", Title: "A blown or burned head gasket was seen",
		Why:    "Gas that found its way through a gasket cuts it and then the faces beside it: into the next cylinder, the coolant, a gallery or outside.",
		Source: byEye, Class: Single, About: diag.AboutCylinders,
		Of: eachCylinder, When: known.SeenThere("a gasket that is blown, burned or broken", known.BlownGasket),
		Kind: OfSight, For: append(speaks(Heard+Hint, "head-gasket"), common("warped-or-cracked-head")...), Say: flownOn(diag.ActSoon), Headline: "seen-damage",
		SaysBetterThan: lowAlone,
	},
	{
		Name: "seen-broken-plug", Title: "A plug whose electrode or insulator is broken, gone or hammered was seen",
		Why:    "What is missing of a plug went into the cylinder, and what hammered it may still be there. What melts an electrode melts a piston as well.",
		Source: byEye, Class: Single, About: diag.AboutCylinders,
		Of: eachCylinder, When: known.Any(known.SeenThere("a broken plug", known.BrokenPlug), known.SeenThere("a melted plug", known.MeltedPlug)),
		Kind: OfSight, Weigh: brokenPlug, Say: brokenPlugSays, Headline: "seen-damage",
	},
	{
		Name: "seen-pin-clip", Title: "A piston pin whose clip is out was seen",
		Why:    "Without its clip the pin walks into the wall and scores it, and the clip itself goes up past the piston.",
		Source: byEye, Class: Single, About: diag.AboutCylinders,
		Of: eachCylinder, When: known.SeenThere("a pin's clip that is missing or broken", known.PinClipOut),
		Kind: OfSight, For: append(speaks(Heard, "pin-clip"), common("scored-bore", "piston")...), Say: seen(diag.DoNotRun), Headline: "seen-damage",
		SaysBetterThan: lowAlone,
	},
	{
		Name: "seen-loose-thing", Title: "Something that does not belong there was seen in a cylinder",
		Why:    "What lies on a piston is struck between it and the head with every turn. It comes out before anything turns, and where it came from is found.",
		Source: byEye, Class: Single, About: diag.AboutCylinders,
		Of: eachCylinder, When: known.SeenThere("a thing that does not belong there", known.LooseThing),
		Kind: OfSight, For: append(speaks(Heard, "foreign-object"), common("piston", "broken-ring-land")...), Say: seen(diag.DoNotRun), Headline: "seen-damage",
	},
	{
		Name: "seen-wet", Title: "A cylinder wet inside was seen",
		Why:    "Oil comes up past rings or down past guides, fuel from an injector or a carburetor that floods, or from a cylinder that does not burn. Wet with nobody knows what may be coolant: its smell and a paper tell.",
		Source: byEye, Class: Single, About: diag.AboutCylinders,
		Of: eachCylinder, When: known.Any(known.SeenThere("oil on piston or wall", known.OilSeen), known.SeenThere("fuel there", known.FuelSeen), known.SeenThere("wet, with what is not said", known.WetSeen)),
		Kind: OfSight, Weigh: seenWet, Say: seenWetSays, Headline: "seen-wet",
	},
	{
		Name: "seen-worn", Title: "Wear was seen in a cylinder",
		Why:    "A ridge at the top of the wall, rings with blunt edges, a piston that is loose: how much is too much is measured, not seen.",
		Source: byEye, Class: Single, About: diag.AboutCylinders,
		Of: eachCylinder, When: known.SeenThere("wear of rings, piston or wall", known.WornSeen),
		Kind: OfSight, For: append(speaks(Sight, "wear"), common("rings")...), Say: soonerIfLow(diag.CheckAgain, diag.ActSoon), Headline: "seen-worn",
	},
	{
		Name: "seen-pitted-wall", Title: "A wall that rust has pitted was seen",
		Why: "Rust that has eaten into a wall stays when the rust is gone: rings do not seal over pits and wear on them. Running frees a ring that stuck and does nothing for a pit, " +
			"so that where such a cylinder leaks too much it is opened.",
		Source: byEye, Class: Single, About: diag.AboutCylinders,
		Of: eachCylinder, When: known.SeenThere("pits on the wall", known.PittedWall),
		Kind: OfSight, For: append(speaks(Heard+Hint, "pitted-bore"), speaks(Hint, "stuck-rings")...), Say: soonerIfLow(diag.CheckAgain, diag.ActSoon), Headline: "seen-pitted-wall",
		SaysBetterThan: append([]string{"seen-rust"}, lowAlone...),
	},
	{
		Name: "seen-not-judged", Title: "Something was written of a look into a cylinder that is not understood",
		Why:    "What somebody saw is printed as it was written. Where no word of it is known, nobody may take the sheet's silence for an all-clear: it is looked at again, or told in other words.",
		Source: "common practice, no source", Class: Single, About: diag.AboutCylinders,
		Of: eachCylinder, When: known.OfAll("words of what was seen in it that are not understood", func(c *known.Case, n string) bool { return len(c.SeenNotJudged(n)) > 0 }),
		Kind: OfSight, Say: notJudgedSays, Headline: "seen-not-judged", Beside: "seen-beside-sound", Apart: true, Repeat: "second-look",
	},
	{
		Name: "seen-somewhere", Title: "Damage was seen in a cylinder that is not named",
		Why:    "Damage within a cylinder counts, whichever it is: until it is written which one it cannot be put with that one's readings.",
		Source: "common practice, no source", Class: Together, About: diag.AboutEngine,
		Of: theEngine, When: known.OfEngine("damage to a part within a cylinder among the findings, and no cylinder named", func(c *known.Case) bool { return len(c.SeenNowhere()) > 0 }),
		Kind: OfSight, Say: somewhereSays, Headline: "seen-somewhere", InsteadOf: []string{"sealing-sound-look-elsewhere"},
	},
})

// flownOn is the finding on what may wait elsewhere, and not in the air.
func flownOn(urgency diag.Urgency) func(*known.Case, known.Subject) diag.Finding {
	return func(c *known.Case, s known.Subject) diag.Finding {
		f := seen(urgency)(c, s)
		if f.Facts["flies"] = c.Flies(); c.Flies() {
			f.Urgency = diag.DoNotRun
		}
		return f
	}
}

// ailing reports cylinders of which one is low or loses more than it should.
func ailing(c *known.Case, names []string) bool {
	return c.AnyLow(names) || slices.ContainsFunc(names, c.HighLoss)
}

// soonerIfLow is the finding on what presses more in a cylinder that reads badly, and in one
// that flies.
func soonerIfLow(sound, low diag.Urgency) func(*known.Case, known.Subject) diag.Finding {
	return func(c *known.Case, s known.Subject) diag.Finding {
		f := seen(sound)(c, s)
		if f.Facts["flies"], f.Facts["ails"] = c.Flies(), ailing(c, s.Cylinders); ailing(c, s.Cylinders) || c.Flies() {
			f.Urgency = low
		}
		return f
	}
}

func brokenRing(c *known.Case, s known.Subject) []Voice {
	switch {
	case c.Rotary():
		return append(speaks(Heard, "apex-seal"), common("side-seal", "corner-seal")...)
	case c.AnySeen(s.Cylinders, known.BrokenLand):
		return append(speaks(Heard+Hint, "broken-ring-land"), common("rings", "piston")...)
	}
	return append(speaks(Heard+Hint, "rings"), common("broken-ring-land", "scored-bore")...)
}

// brokenRingSays: pieces that are out of their groove stop any engine, and a broken ring one
// that has ports in its wall, or flies.
func brokenRingSays(c *known.Case, s known.Subject) diag.Finding {
	f := flownOn(diag.ActSoon)(c, s)
	f.Facts["ports"], f.Facts["piece"], f.Facts["rotary"], f.Facts["land"] = c.Spec.TwoStroke, c.AnySeen(s.Cylinders, known.RingPiece), c.Rotary(), c.AnySeen(s.Cylinders, known.BrokenLand)
	if c.Spec.TwoStroke || c.Rotary() || c.AnySeen(s.Cylinders, known.RingPiece) {
		f.Urgency = diag.DoNotRun
	}
	return f
}

// headSays: a crack through which coolant goes fills a cylinder.
func headSays(c *known.Case, s known.Subject) diag.Finding {
	f := flownOn(diag.ActSoon)(c, s)
	if !c.AirCooled() && (c.LosesCoolant() || c.CoolantEntersAny()) {
		f.Urgency = diag.DoNotRun
	}
	return f
}

// ofInlet reports cylinders of which the words name the inlet's valve or seat, by one of some
// names, and not the exhaust's.
func ofInlet(c *known.Case, names []string, called ...string) bool {
	return !slices.ContainsFunc(names, func(n string) bool {
		return !c.Seen(n, called...) || c.Seen(n, "exhaust valve", "exhaust seat")
	})
}

func leakyValve(c *known.Case, s known.Subject) []Voice {
	first := "exhaust-valve"
	if ofInlet(c, s.Cylinders, "inlet", "intake") {
		first = "inlet-valve"
	}
	return append(speaks(Sight, first), common("valve-lash", "valve-recession", "carbon-on-seat")...)
}

func leakyValveSays(c *known.Case, s known.Subject) diag.Finding {
	f := soonerIfLow(diag.CheckAgain, diag.ActSoon)(c, s)
	f.Facts["heat"] = c.AnySeen(s.Cylinders, known.HotValve)
	return f
}

func brokenPlug(c *known.Case, s known.Subject) []Voice {
	if c.AnySeen(s.Cylinders, known.MeltedPlug) {
		return append(speaks(Known, "early-ignition"), common("lean-mixture", "holed-piston")...)
	}
	return append(speaks(Sight, "foreign-object"), plugHit(c, s)...)
}

func brokenPlugSays(c *known.Case, s known.Subject) diag.Finding {
	f := seen(diag.DoNotRun)(c, s)
	f.Facts["melted"] = c.AnySeen(s.Cylinders, known.MeltedPlug)
	return f
}

func seenWet(c *known.Case, s known.Subject) []Voice {
	switch {
	case c.AnySeen(s.Cylinders, known.OilSeen):
		return append(speaks(Known, "oil-control-rings", "oil-in-bore"), common("guides-or-seals", "rings")...)
	case c.AnySeen(s.Cylinders, known.FuelSeen):
		return append(where(c.Spec.Diesel(), speaks(Known, "diesel-injector")), common("leaking-injector", "carburettor", "own-spark", "flooding")...)
	}
	return common("coolant-or-fuel-in-bore", "oil-in-bore")
}

func seenWetSays(c *known.Case, s known.Subject) diag.Finding {
	f := soonerIfLow(diag.CheckAgain, diag.CheckAgain)(c, s)
	f.Facts["what"] = ""
	switch {
	case c.AnySeen(s.Cylinders, known.OilSeen):
		f.Facts["what"] = "oil"
	case c.AnySeen(s.Cylinders, known.FuelSeen):
		f.Facts["what"] = "fuel"
	}
	return f
}

// notJudgedSays gives what was written, and words that would be understood.
func notJudgedSays(c *known.Case, s known.Subject) diag.Finding {
	var said diag.Names
	of, meant, urgency := "", "", diag.NoAction
	for _, n := range s.Cylinders {
		for _, text := range c.SeenNotJudged(n) {
			if !c.SaidAside(n, text) {
				urgency = diag.CheckAgain
			}
			if slices.Contains(said, text) {
				continue
			}
			said = append(said, text)
			if part, word := sight.Near(text); of == "" {
				of, meant = part, cmp.Or(meant, word)
			}
		}
	}
	return diag.Finding{Urgency: urgency, Confidence: diag.Weak, Facts: diag.Facts{"said": known.InShort(said), "part": of, "meant": meant}}
}

func somewhereSays(c *known.Case, _ known.Subject) diag.Finding {
	f := diag.Finding{Urgency: diag.ActSoon, Confidence: diag.Fair, Facts: diag.Facts{"said": known.InShort(c.SeenNowhere())}}
	if c.Flies() || c.SeenNowhereStops() {
		f.Urgency = diag.DoNotRun
	}
	return f
}

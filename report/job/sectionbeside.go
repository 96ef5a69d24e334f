package job

import "strings"

// toldBeside are words that are said beside the figures of a test's keys, and that are no names of these.
var toldBeside = map[string][]string{
	"vacuum.snap.open":                strings.Split("snap;on snap;drops to;dips to;dropped to;down to;falls to;fell to;goes down to;blipped;blip", ";"),
	"vacuum.snap.shut":                strings.Split("up to;jumps to;jumped to;kicks up to;kicks to;swings to;bounces to;rises to;rose to;back up to;when shut;let go;over to", ";"),
	"vacuum.idle":                     strings.Split("at idle;idling;ticking over", ";"),
	"fuel-pressure.key-on":            strings.Split("key on;priming;primes to;primes;ignition on", ";"),
	"fuel-pressure.idle":              strings.Split("at idle;idling;ticking over", ";"),
	"fuel-pressure.hose-off":          strings.Split("hose off;vac off;vacuum off;vac hose off;vacuum hose off;vac line off;hose pulled;hose disconnected;line off;regulator hose off;vac hose;vacuum hose", ";"),
	"fuel-pressure.snap":              strings.Split("snapped;revved;rev;blipped;blip", ";"),
	"fuel-pressure.return-pinched":    strings.Split("pinched;return clamped;clamped;deadheaded;dead headed;deadhead", ";"),
	"fuel-pressure.hold":              strings.Split("bled down to;dropped to;drops to;fell to;falls to;down to;held;holds;leaks down to;still;after", ";"),
	"oil-pressure.cold-idle":          strings.Split("cold;when cold;start up;startup;at start", ";"),
	"oil-pressure.idle":               strings.Split("hot;when hot;hot at idle;warm;idling", ";"),
	"oil-pressure.cranking":           strings.Split("cranking;cranked", ";"),
	"starting.battery.rest":           strings.Split("from;at rest;sitting;resting;static;standing;battery", ";"),
	"starting.battery.cranking":       strings.Split("cranking;to;drops to;dropping to;dropped to;down to;drops down to;pulled down to;while cranking;when cranking", ";"),
	"starting.draw":                   strings.Split("draws;draw;drawing;pulls;pulling;amps", ";"),
	"starting.cranking":               strings.Split("spins;turns;cranks at", ";"),
	"cooling.cap.rated":               strings.Split("cap;rad cap;radiator cap;pressure cap;cap marked", ";"),
	"cooling.cap.opens":               strings.Split("pops at;pops;lets go at;cap opens;cap opened;cap opened at;cap opens at;opened at;popped at;blew off;blows off at", ";"),
	"cooling.pressure-test.pumped-to": strings.Split("pumped;pumped to;pumped up to;pumped it to;put;pressurized to;pressurised to;pressured to;from", ";"),
	"cooling.pressure-test.hold":      strings.Split("dropped to;drops to;fell to;down to;held;holds;holding;lost to;went to;went down to;left", ";"),
	"cooling.thermostat.rated":        strings.Split("marked;stamped;rated;thermostat;stat", ";"),
	"cooling.thermostat.starts":       strings.Split("starts;starts at;started;started at;starts to open;starts opening;cracks;cracked;cracked at;begins;began;begins to open;opening", ";"),
	"cooling.thermostat.open":         strings.Split("full open;fully open;fully open at;wide open;wide open at;all the way open;full", ";"),
	"cooling.warm.reaches":            strings.Split("up to;reaches;gets to;got to;gets up to;runs at;climbs to;warms to;warms up to;settles at", ";"),
	"cooling.coolant.freezes":         strings.Split("freezes;good to;protected to;protects to;good for", ";"),
	"vacuum.held":                     strings.Split("held;holding;held at", ";"),
	"timing.base":                     strings.Split("base;static;initial;at idle;idling", ";"),
	"timing.advance":                  strings.Split("all in;total;full advance;fully advanced;advances to", ";"),
	"timing.points-gap":               strings.Split("points;points gap", ";"),
	"timing.chain-slack":              strings.Split("slack;slop;chain", ";"),
	"magnetos.left":                   strings.Split("left drops;left dropped;left mag;on left", ";"),
	"magnetos.right":                  strings.Split("right drops;right dropped;right mag;on right", ";"),
}

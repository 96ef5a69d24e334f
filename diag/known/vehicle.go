package known

import (
	"regexp"
	"slices"
	"strings"
)

// What the words in which a vehicle is described tell of its engine.

// pcvSince is the first year of vehicles whose crankcase is drawn off by a valve in
// the intake; catalystSince that of catalytic converters: common practice, no source.
const (
	pcvSince      = 1961
	catalystSince = 1975
)

// VehicleYear is the year that the vehicle's description names, 0 for none.
func (c *Case) VehicleYear() int {
	digits, year := 0, 0
	for i := 0; i <= len(c.History.Vehicle); i++ {
		if i < len(c.History.Vehicle) && c.History.Vehicle[i] >= '0' && c.History.Vehicle[i] <= '9' {
			digits, year = digits+1, 10*year+int(c.History.Vehicle[i]-'0')
			if digits > 4 {
				year = 0
			}
			continue
		}
		if digits == 4 && year >= firstYear && year <= lastYear {
			return year
		}
		digits, year = 0, 0
	}
	return 0
}

// Years in which a vehicle with an engine may have been made.
const firstYear, lastYear = 1885, 2099

// MayHavePCV reports an engine whose crankcase may be drawn off by a valve in its
// intake: a petrol four-stroke of a vehicle that is not older than these, nor of an
// aircraft, nor a small one of a mower or pump.
func (c *Case) MayHavePCV() bool {
	year := c.VehicleYear()
	return !c.Spec.Diesel() && !c.Ported() && !c.Rotary() && !c.Flies() && !c.described(smallMachines) && (year == 0 || year >= pcvSince)
}

// MayHaveCatalyst reports an engine behind which a catalytic converter may sit.
func (c *Case) MayHaveCatalyst() bool {
	if c.Spec.Diesel() || c.Spec.TwoStroke || c.Flies() || c.Afloat() || c.offTheRoad() {
		return false
	}
	year := c.VehicleYear()
	old := year > 0 && year < catalystSince
	plain := c.Carburetted() && !c.MeterOpen() && c.FuelSystem() == "" // nothing holds its mixture where a catalyst wants it
	return !old && !plain
}

// Drives reports an engine that may be driven on roads: nothing that is said of it is of an
// aircraft, a boat or a machine.
func (c *Case) Drives() bool {
	return !c.Flies() && !c.TestedAsAircraft() && !c.Afloat() && !c.offTheRoad() && !c.described(standing)
}

// offTheRoad reports a machine that works where nobody asks for clean exhaust.
func (c *Case) offTheRoad() bool {
	return c.FlywheelMagneto() || c.described(smallMachines) || c.described(fieldMachines)
}

// Words of what a vehicle is called.
var (
	smallMachines = []string{"mower", "trimmer", "strimmer", "tiller", "cultivator", "rotavator", "generator", "genset", "chainsaw", "chain saw", "brush cutter", "brushcutter", "hedge cutter", "leaf blower", "snow blower",
		"snowblower", "outboard", "pressure washer", "water pump", "edger", "stump grinder", "log splitter", "chipper", "shredder", "go kart", "gokart", "scarifier", "compactor", "concrete saw", "cut off saw", "auger"}
	standing      = []string{"standby", "stationary", "pump", "pump set", "compressor", "welder", "excavator", "loader", "dozer", "bulldozer", "crane", "forklift", "locomotive"}
	fieldMachines = []string{"tractor", "lawn tractor", "garden tractor", "ride on", "kart", "snowmobile", "baler", "combine", "harvester"}
	roadMachines  = []string{"motorcycle", "motorbike", "moped", "scooter", "bike", "car", "van", "saloon", "sedan", "coupe", "tourer", "roadster", "quad", "sidecar", "airplane", "aeroplane", "microlight"}
	boats         = []string{"boat", "cabin cruiser", "motor cruiser", "yacht", "launch", "outboard", "sterndrive", "stern drive", "outdrive", "inboard", "marine", "sloop", "ketch", "trawler", "dinghy", "jet ski", "jetski", "barge", "runabout", "raw water", "sea water", "seawater", "ship"}
	airBrakes     = []string{"air brakes", "air brake", "air braked", "air compressor", "brake compressor"}
	heavyVehicles = []string{"truck", "lorry", "lorries", "bus", "buses", "coach", "tractor unit", "fire engine", "dumper"}
	aircraft      = []string{"aircraft", "airplane", "aeroplane", "biplane", "monoplane", "microlight", "ultralight", "helicopter", "gyrocopter", "gyroplane", "autogyro", "motor glider"}
	seaWater      = []string{"salt water", "saltwater", "sea water", "seawater", "raw water", "salty water", "lake water", "river water"}
)

// described reports a vehicle whose description has one of these words.
func (c *Case) described(words []string) bool {
	if c.History.Vehicle == "" {
		return false
	}
	if c.vehicle == "" {
		c.vehicle = plainWords(c.History.Vehicle)
	}
	return isCalled(c.vehicle, words)
}

// isCalled reports a vehicle, in plain form, that one of some words is said of, or several of.
func isCalled(vehicle string, words []string) bool {
	return slices.ContainsFunc(words, func(x string) bool {
		return strings.Contains(vehicle, x) && (has(vehicle, x) || has(vehicle, x+"s"))
	})
}

// Calls reports a name that somebody gave, of a reading, that has one of some words.
func Calls(name string, words []string) bool {
	plain := plainWords(name)
	return slices.ContainsFunc(words, func(x string) bool { return has(plain, plainPhrase(x)) })
}

// directWords are those of petrol injected into the cylinders; an engine of bothWords has
// injectors in its ports as well, which wash its intake valves.
var (
	directWords = []string{"direct injection", "direct injected", "directly injected", "gdi", "high pressure injection"}
	bothWords   = []string{"port", "dual injection", "diesel"}
)

// calledDirect reports a petrol engine that its vehicle is described with as injected into
// its cylinders, and not into its ports as well.
func (c *Case) calledDirect() bool {
	return remembered(&c.direct, func() bool { return !c.Spec.Diesel() && c.described(directWords) && !c.described(bothWords) })
}

// CalledAircraft reports a description of a vehicle that flies.
func CalledAircraft(vehicle string) bool { return isCalled(plainWords(vehicle), aircraft) }

// flywheelML is how large a cylinder cooled by air may be of an engine that is taken to
// have its magneto in its flywheel where nobody says what it drives: judgement, no source.
const flywheelML = 450

// heavyML is the displacement from which a diesel of a truck or a bus is taken to brake by
// air where nobody says so: judgement, no source.
const heavyML = 6000

// chargeHoses are words of work on what lies between a turbocharger and the engine, or that
// it has to come off for; boostHiss of charge air that is heard to get out.
var (
	chargeHoses = pairs("intercooler|charge cooler|boost hose|boost pipe|charge hose|charge pipe|turbo hose|turbo pipe|turbocharger|turbo|front panel|front end|bumper", "off|removed|renewed|replaced|refitted|fitted|repaired|repair|changed|swapped|new")
	boostHiss   = pairs("hiss|hisses|hissing|whistle|whistles|whistling|whoosh|sighs", "pulling|pulls|load|boost|accelerat|throttle|uphill|turbo")
)

// ChargeHosesOff is an engine whose charge hoses were worked on, or of which a hiss is told
// that comes as it pulls.
var ChargeHosesOff = OfEngine("work at the intercooler or its hoses, or a hiss as it pulls", func(c *Case) bool {
	worked := func(line string) bool { return SpeaksOf(c.workOf(line).Text, chargeHoses...) }
	return slices.ContainsFunc(c.History.WorkDone, worked) || c.Before != nil && worked(c.Before.Done) ||
		c.told(boostHiss...) || c.History.Onset != "" && worked(c.History.Onset)
})

// BrakesByAir reports an engine that drives the compressor of air brakes, which sends what
// it lets past its own rings back into the crankcase: one of which that is said, or a large
// diesel of a truck or a bus. Common practice, no source.
func (c *Case) BrakesByAir() bool {
	if c.described(airBrakes) || c.Found(airBrakes...) {
		return true
	}
	return c.Spec.Diesel() && c.Spec.DisplacementML >= heavyML && c.described(heavyVehicles) && !c.described([]string{"pickup", "pick up"})
}

// FlywheelMagneto reports an engine whose spark is made by a magnet in its flywheel, which
// a soft key holds in its place on the crankshaft: a petrol engine of one or two cylinders
// of a mower, a saw or a boat, or, where nothing says what it drives, a small one cooled by
// air. Common practice, no source.
func (c *Case) FlywheelMagneto() bool {
	n := len(c.Engine.Cylinders)
	if n == 0 || n > 2 || c.Spec.Diesel() || c.Rotary() || c.TestedAsAircraft() {
		return false
	}
	if c.described(smallMachines) {
		return true
	}
	computer := len(c.History.Codes) > 0 || c.Injects() || c.Spec.Charging == "turbo"
	return c.AirCooled() && !computer && c.CylinderML() > 0 && c.CylinderML() <= flywheelML && !c.described(roadMachines)
}

// Injects reports an engine that is said to be injected.
func (c *Case) Injects() bool { return c.FuelSystem() != "" && c.FuelSystem() != Carburettor }

// blow are words of what an engine was stopped dead by; kickBack of one whose spark comes
// at another time; keyStruck of what shears the key of a flywheel, and of what it does.
var (
	blow      = append(pairs("blade|propeller|prop|tine|tines|auger", "hit|struck|stone|rock|root|stump|kerb|curb"), "hit a stone", "hit a rock", "hit a root", "hit a stump", "hit something", "struck a", "stopped dead")
	kickBack  = []string{"kicks back", "kicked back", "kick back", "kickback", "kicking back", "pulls the rope", "jerks the rope"}
	keyStruck = slices.Concat(pairs("blade|propeller|prop|tine|tines|auger|flywheel", "stopped|came loose"), blow, kickBack, []string{"flywheel key", "flywheel nut"})
)

// StruckDead is an engine that turns a blade or a propeller, which hit something: its
// crankshaft, and what it carries, took the blow.
var StruckDead = OfEngine("the engine of a mower, a boat's propeller or an aircraft, whose blade or propeller hit something", func(c *Case) bool {
	if c.History.Onset == "" && len(c.History.Findings) == 0 || !c.FlywheelMagneto() && !c.Flies() && !c.described([]string{"outboard", "outboard motor"}) {
		return false
	}
	return c.OnsetSays(blow...) || c.Found(blow...)
})

// KicksBack is a small engine that was found to kick back as it is started.
var KicksBack = All(OfEngine("a small engine with its magneto in its flywheel", (*Case).FlywheelMagneto), FoundSo("kicking back", kickBack))

// KeyMayBeSheared is such an engine that was stopped dead, or that kicks back.
var KeyMayBeSheared = OfEngine("a small engine with its magneto in its flywheel, whose blade or drive hit something, or which kicks back", func(c *Case) bool {
	if c.History.Onset == "" && len(c.History.Findings) == 0 {
		return false
	}
	return (c.OnsetSays(keyStruck...) || c.Found(keyStruck...)) && c.FlywheelMagneto()
})

// PulledOver reports an engine that was turned for its test by its rope or its kickstarter.
func (c *Case) PulledOver() bool {
	return c.Conditions.Method != "" && SpeaksOf(strings.ToLower(c.Conditions.Method), "pulled", "pull start", "recoil", "rope", "kick", "swung by hand", "propeller by hand")
}

// Flies reports the engine of an aircraft: by what it is called, by how its leakage was
// tested, or by the check of its two magnetos. Nobody stands beside its propeller while it runs.
func (c *Case) Flies() bool {
	return c.TestedAsAircraft() || c.described(aircraft) || c.Measured(Magnetos) != nil && !c.Spec.Diesel()
}

// HeadScrewedOn reports cylinders whose heads are screwed and shrunk on their barrels for good, as
// those of aircraft engines cooled by air are: there is no gasket between the two.
func (c *Case) HeadScrewedOn() bool {
	flies := c.Flies() && (c.described(aircraft) || c.Measured(Magnetos) != nil || !c.described(roadMachines))
	return flies && c.AirCooled() && !c.Spec.TwoStroke && !c.Spec.Diesel() && !c.described([]string{"microlight", "ultralight", "homebuilt", "home built"})
}

// FaltersInTheAir reports an engine that flies and is complained of for how it runs: that
// is known before the next flight.
func (c *Case) FaltersInTheAir() bool {
	return c.Flies() && c.Complains("misfire", RoughRunning, "low power", "noise", "lean running")
}

// Afloat reports an engine of a boat, whose exhaust the water around it may cool: by what
// the vehicle is called, or by words of sea water in what was found.
func (c *Case) Afloat() bool {
	return c.described(boats) || c.Found(seaWater...)
}

// Powerhead reports the two-stroke of an outboard motor: its crankcases lie inside one block, one
// under each cylinder with seals between them that nothing reaches from outside, it has no barrel that
// comes off, and the water around it cools it.
func (c *Case) Powerhead() bool { return c.Ported() && c.described([]string{"outboard"}) }

// BilgeGathers reports an engine inside a boat that runs on what lies as vapor in its bilge:
// not one that hangs outside, nor a diesel.
func (c *Case) BilgeGathers() bool {
	return !c.Spec.Diesel() && c.described(boats) && !c.described([]string{"outboard", "jet ski", "jetski"})
}

// WetExhaust reports an engine in a boat whose exhaust water may run back from: not one
// cooled by air.
func (c *Case) WetExhaust() bool { return !c.AirCooled() && c.Afloat() }

// Outboard reports an engine that hangs on a boat, whose exhaust leaves through its leg.
func (c *Case) Outboard() bool { return c.described([]string{"outboard"}) }

// filteredSince is the first year from which most engines had a filter for their air: common
// practice, no source.
const filteredSince = 1935

// AirFiltered reports an engine that may have an air filter: not one of so old a vehicle, nor a boat's
// that burns no diesel, which has a flame arrestor or nothing.
func (c *Case) AirFiltered() bool {
	old := c.VehicleYear() > 0 && c.VehicleYear() < filteredSince
	return !old && !(c.Afloat() && !c.Spec.Diesel()) && !c.described([]string{"hit and miss", "hit-and-miss", "hit & miss"})
}

// WaterIn reports water, or the rust or the washed plug that it leaves, in a cylinder.
func (c *Case) WaterIn(name string) bool {
	return c.Looks(name, "coolant") || c.Seen(name, waterSeen...) || c.Seen(name, RustOnWall...) || c.Seen(name, RustOnValve...)
}

// waterSeen are words of water that was seen.
var waterSeen = []string{"water", "coolant"}

// WaterFromExhaust is a cylinder of an engine in a boat in which there is or was water,
// where nothing shows that its coolant and its gas meet.
var WaterFromExhaust = OfAll("water or rust seen in it or its plug washed, in an engine of a boat that does not miss a coolant of its own, with no gas found in the coolant and no air heard there", func(c *Case, n string) bool {
	return c.ExhaustMayLetIn() && c.CoolantGas != "positive" && c.WaterIn(n) && !c.LeaksAt(n, AtCoolant)
})

// RiserLeaks is the water-cooled exhaust of a boat found wet or rusted where it lets
// water back.
var RiserLeaks = All(OfEngine("an engine of a boat", (*Case).WetExhaust), OfEngine("rust at the exhaust ports, or a riser, elbow or exhaust manifold that is wet, cracked or rusted through among the technician's findings", func(c *Case) bool {
	return c.findingSays(func(text string) bool {
		return SpeaksOf(cooledBy.ReplaceAllString(text, ""), riserLeaks...) && !mended(text)
	})
}))

// cooledBy is how a part is cooled, which says of no water that it is where it should not be.
var cooledBy = regexp.MustCompile(`\b(?:raw|sea|fresh|salt|lake)?[ -]?water[ -](?:cooled|jacketed|cooling|jackets?)\b`)

var riserLeaks = append(append([]string{"rust trail"}, pairs("exhaust port|exhaust ports", "rust|rusty|wet|water|salt")...),
	pairs("riser|risers|riser gasket|exhaust elbow|elbow gasket|exhaust manifold", "wet|leaks|leaking|weeps|cracked|holed|rusted through|water")...)

// RawWater is an engine whose water is that around it, in a circuit open at its end.
var RawWater = OfEngine("said to be cooled by the raw water itself, or an outboard cooled by water", (*Case).RawWaterCooled)

// rawWater are words of an engine that the water around it cools; ownCoolant those of one
// with a coolant of its own, of which that water cools only the exchanger and the exhaust.
var (
	rawWater   = joinWords([]string{"raw water", "sea water", "seawater", "river water", "lake water", "salt water"}, []string{"cooled", "cooling"})
	ownCoolant = []string{"heat exchanger", "fresh water cooled", "freshwater cooled", "fresh water cooling", "closed cooling", "closed circuit", "keel cooled", "keel cooling", "cooled exhaust", "cooled riser", "cooled manifold", "cooled elbow"}
)

// RawWaterCooled reports such an engine. It has no cap, no pressure that its water is
// kept at, and no coolant in which gas gathers.
func (c *Case) RawWaterCooled() bool {
	if c.AirCooled() || !c.Afloat() || c.ownCoolant() {
		return false
	}
	return c.described(rawWater) || c.described([]string{"outboard"}) || c.Found(rawWater...)
}

// ownCoolant reports a boat that is said to have a coolant of its own.
func (c *Case) ownCoolant() bool { return c.described(ownCoolant) || c.Found(ownCoolant...) }

// ExhaustMayLetIn reports an engine in a boat into which water may run back from its
// exhaust: not where a coolant of its own is missed, which no exhaust takes.
func (c *Case) ExhaustMayLetIn() bool {
	return c.WetExhaust() && !(c.LosesCoolant() && c.ownCoolant())
}

// joinWords is each of the first words followed by each of the others.
func joinWords(first, then []string) []string {
	var all []string
	for _, a := range first {
		for _, b := range then {
			all = append(all, a+" "+b)
		}
	}
	return all
}

// WaterBeside is water in a cylinder and in one beside it.
var WaterBeside = OfAll("water in one beside it too", func(c *Case, n string) bool {
	return slices.ContainsFunc(c.Every(), func(other string) bool {
		return other != n && c.WaterIn(other) && len(c.Engine.NeighbourRuns([]string{n, other})) == 1
	})
})

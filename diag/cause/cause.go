// Package cause holds what can be wrong with an engine and what can be done to
// find out, as two lists of values, Causes and Checks; it knows what is known of
// an engine and nothing of the rules that recognise patterns, or of words.
package cause

import (
	"slices"
	"sync"

	"gaugesheet/diag/known"
)

// A Cause is something that can be wrong, by its name in the catalogue of
// words.
type Cause struct {
	Name     string
	Fits     func(*known.Case) bool // whom it fits; nil fits every engine
	Explains []string               // the complaints that it explains, in the job file's words
	Advice   string                 // the line under a verdict that it leads, by its key; "" for none of its own
	// Vague: it says what is so and not why; where a cause says why, that leads.
	Vague bool
	// Within are causes of which each says what this one does, and more: behind one of
	// them a list has no room for it.
	Within []string
	// Marks is the check by hand before which nothing runs an engine whose valves this
	// may drive into its pistons; "" for none.
	Marks string
	// Lone: it befalls one cylinder, or two, and not all that are alike at once.
	Lone bool
	// Unseen: it lies where no camera looks, below the crown, or may.
	Unseen bool
	// Test: the test itself is at fault, and not the engine.
	Test bool
	// Book: it makes a figure of the book doubtful, and no reading.
	Book bool
	// Liquid: it is of a supply of liquid fuel, for which that of gas stands on an engine
	// that burns gas.
	Liquid bool
	// OnDiesel and OfOne are what it is on a diesel, and of a supply of gas where one
	// cylinder alone misses; "" for the same.
	OnDiesel, OfOne string
	// Mostly is the part of it that fails first on an engine that has that part; "" for none.
	Mostly string

	place  int  // among all causes
	shared bool // it is one of those that one part common to several cylinders has
}

// MostlyIn is the part of a cause that fails first on this engine, "" for none.
func MostlyIn(c *known.Case, name string) string {
	k := Named(name)
	if k == nil || k.Mostly == "" || !Fit(c, k.Mostly) {
		return ""
	}
	return k.Mostly
}

// Meant is a cause as this engine can have it: a diesel's injector on a diesel; what is
// short of liquid fuel is, on an engine that burns gas, the supply of gas, and where one
// cylinder alone misses, which that does not choose, what lets the gas into that one.
func (k *Cause) Meant(c *known.Case) *Cause {
	switch {
	case k.OnDiesel != "" && c.Spec.Diesel():
		return Named(k.OnDiesel)
	case !k.Liquid || !c.GasFuel():
		return k
	case k.OfOne != "" && c.OneMisfires():
		return Named(k.OfOne)
	}
	return Named("gas-supply")
}

// IsPart reports a cause that is such a part of another.
func IsPart(name string) bool {
	return slices.ContainsFunc(Causes, func(k Cause) bool { return k.Mostly != "" && k.Mostly == name })
}

func valved(c *known.Case) bool      { return c.HasValves() }
func inletValved(c *known.Case) bool { return c.InletValves() }
func releasing(c *known.Case) bool   { return c.HasValves() || c.Ported() }
func released(c *known.Case) bool    { return known.ReleasesItself.HoldsIn(c) }
func lashed(c *known.Case) bool      { return c.LashCanBeSet() }
func piston(c *known.Case) bool      { return !c.Rotary() }
func gasketed(c *known.Case) bool    { return piston(c) && !c.HeadScrewedOn() }
func ventilated(c *known.Case) bool  { return !c.Ported() }                        // its crankcase holds oil, and is not the pump of its mixture
func plated(c *known.Case) bool      { return !c.Flies() && !c.FlywheelMagneto() } // it drives through a plate behind its crankshaft
func flywheelKey(c *known.Case) bool { return c.FlywheelMagneto() }
func governed(c *known.Case) bool    { return c.FlywheelMagneto() && c.HasValves() } // a small engine that keeps its own speed; a saw's does not
func airCooled(c *known.Case) bool   { return c.AirCooled() }
func wetExhaust(c *known.Case) bool  { return c.WetExhaust() }
func bored(c *known.Case) bool {
	return piston(c) && (wet(c) || c.AnySeen(c.Every(), known.CrackedWall))
}
func linered(c *known.Case) bool   { return c.MayHaveWetLiners() }
func rotary(c *known.Case) bool    { return c.Rotary() }
func rotaryWet(c *known.Case) bool { return wet(c) && rotary(c) }
func twoStroke(c *known.Case) bool { return c.Ported() }
func wet(c *known.Case) bool       { return !c.AirCooled() }

// holds asks a condition of the engine, whichever cylinders a check is named for.
func holds(of known.Condition) func(*known.Case, []string) bool {
	return func(c *known.Case, _ []string) bool { return of.HoldsIn(c) }
}

// closedCircuit is an engine with a coolant of its own, under a cap.
func closedCircuit(c *known.Case) bool { return wet(c) && !c.RawWaterCooled() }

func sparked(c *known.Case) bool  { return !c.Spec.Diesel() }
func injected(c *known.Case) bool { return c.Injected() }

// portInjected is an engine of which each cylinder has an injector of its own.
func portInjected(c *known.Case) bool { return c.Injected() && c.FuelSystem() != known.ThrottleBody }
func several(c *known.Case) bool      { return c.Several() }

// sparkedValves is an engine with valves whose mixture is lit by a spark.
func sparkedValves(c *known.Case) bool { return valved(c) && sparked(c) }

func drivenPump(c *known.Case) bool {
	return c.Fuel != nil && c.Fuel.Pump == "mechanical" && !c.Spec.Diesel()
}
func charged(c *known.Case) bool { return c.Spec.Charging == "turbo" }

// mayBeCharged is an engine that has a turbocharger, or one of a kind that often has
// and of which nobody said that it has none.
func mayBeCharged(c *known.Case) bool {
	return charged(c) || c.Spec.Charging == "" && !c.AirCooled() && !c.Carburetted() && c.HasValves() && len(c.Every()) > 2
}

func throttled(c *known.Case) bool { return !c.Spec.Diesel() || c.ThrottleShut() }

// chained is an engine with valves that a chain drives, as far as is known.
func chained(c *known.Case) bool {
	return c.HasValves() && (c.Spec.TimingDrive == "" || c.Spec.TimingDrive == "chain")
}

func hydraulic(c *known.Case) bool { return c.HasValves() && c.Spec.Lifters != "solid" }

// shutsDown is an engine that may shut cylinders down at light load: one of four or more
// that is not cooled by air, and no aircraft's.
func shutsDown(c *known.Case) bool {
	return hydraulic(c) && len(c.Engine.Cylinders) >= 4 && !c.AirCooled() && !c.Flies()
}

// direct is an engine whose tested low side feeds a high-pressure pump, behind
// which its injectors lie.
func direct(c *known.Case) bool { return c.FuelSystem() == known.DirectLow }

// pumpsToRail is an engine whose second pump feeds a rail: by its fuel system, or of a diesel by
// the pressure that was read in it.
func pumpsToRail(c *known.Case) bool { return direct(c) || known.RailLow.HoldsIn(c) }
func notDirect(c *known.Case) bool   { return !direct(c) }

// What of a fuel system decides which of its faults an engine can have; where
// the system was not recorded, most of them.
func electricPump(c *known.Case) bool  { return c.MayBeElectricPump() }
func hoseKnown(c *known.Case) bool     { return c.MayHaveHose() }
func systemUnknown(c *known.Case) bool { return c.FuelSystem() == "" }
func carburetted(c *known.Case) bool   { return c.Carburetted() }
func regulated(c *known.Case) bool {
	return !carburetted(c) || c.Fuel != nil && c.Fuel.Pump == "electric"
}

// returning is a system that has, or may have, a return line by which the
// pressure is let down. A mechanical pump of a carburettor is held by its own
// spring, with a return or without.
func returning(c *known.Case) bool {
	if carburetted(c) && c.Fuel != nil && c.Fuel.Pump == "mechanical" {
		return false
	}
	return c.FuelSystem() != known.PortNoReturn && c.FuelSystem() != known.DirectLow
}

var byName = sync.OnceValue(func() map[string]*Cause {
	index := make(map[string]*Cause, len(Causes))
	for i := range Causes {
		index[Causes[i].Name] = &Causes[i]
	}
	return index
})

// Named gives a cause by its name, nil where there is none.
func Named(name string) *Cause { return byName()[name] }

// Fit reports a cause that can be had by this engine.
func Fit(c *known.Case, name string) bool {
	k := Named(name)
	return k != nil && k.FitsIn(c)
}

// FitsIn reports that this engine can have the cause.
func (k *Cause) FitsIn(c *known.Case) bool { return k.Fits == nil || k.Fits(c) }

// Explained reports that a cause explains a complaint.
func Explained(name, complaint string) bool {
	k := Named(name)
	if k == nil {
		return false
	}
	s := symptoms[complaint]
	return slices.Contains(k.Explains, known.AsComplaint(complaint)) || slices.Contains(s.by, name) || slices.ContainsFunc(s.like, func(x string) bool { return slices.Contains(k.Explains, x) })
}

// shared are the causes that one part common to several cylinders has.
var shared = []string{
	"head-gasket", "warped-or-cracked-head", "cam-timing", "cam-phaser", "timing-drive", "worn-chain", "shared-coil", "coil-feed", "restricted-inlet", "deactivation-lifter",
	"shared-by-place", "fault-in-each", "shared-runner", "bank-sensor", "bank-exhaust-leak", "sensors-crossed",
}

// Shared reports a cause that one part common to several cylinders has, so
// that what speaks for it in one speaks for it in all.
func Shared(name string) bool {
	k := Named(name)
	return k != nil && k.shared
}

// IsShared is Shared of the cause itself.
func (k *Cause) IsShared() bool { return k.shared }

// underTheHead are causes for which the head comes off, and which are told apart
// once it is.
var underTheHead = []string{"head-gasket", "warped-or-cracked-head", "cracked-bore"}

// setFirst are causes for which the clearance is set first: a seat that recedes
// shows as it closes up again.
var setFirst = []string{"valve-lash", "valve-recession"}

// stretched and sunk are what a valve that goes on losing its clearance is told apart from
// once it is out.
var (
	stretched = []string{"valve-stretch", "exhaust-valve"}
	sunk      = []string{"valve-stretch", "valve-recession"}
)

// wornAll is wear by what wears most: either is measured once the engine is open.
var wornAll = []string{"wear", "rings"}

// Worn reports both of these, of which one proves the other.
func Worn(a, b string) bool { return slices.Contains(wornAll, a) && slices.Contains(wornAll, b) }

// behindTheCover are causes that are told apart once the camshaft's drive is open.
var behindTheCover = []string{"cam-timing", "timing-drive", "cam-phaser", "worn-chain"}

// SameWork reports causes that need not be told apart before the work that any of
// them asks for.
func SameWork(a, b string) bool {
	return slices.ContainsFunc([][]string{underTheHead, setFirst, stretched, sunk}, func(work []string) bool { return slices.Contains(work, a) && slices.Contains(work, b) })
}

// oneFault are causes of which each is the same fault at another place of one part, so that
// tests which agree on any agree on it.
var oneFault = [][]string{
	{"air-leak", "manifold-gasket", "injector-seals"}, // air gets in
	{"exhaust-valve", "valve-lash", "carbon-on-seat"}, // a valve does not close
	{"inlet-valve", "valve-lash", "carbon-on-seat"},
	{"holed-piston", "piston", "broken-ring-land", "piston-contact"}, // a piston is damaged
	{"return-blocked", "regulator-stuck"},                            // too little fuel goes back
}

// OneFault reports such causes, and those that one work shows.
func OneFault(a, b string) bool {
	return SameWork(a, b) || slices.ContainsFunc(oneFault, func(of []string) bool { return slices.Contains(of, a) && slices.Contains(of, b) })
}

// SetFirst reports causes for which the clearance is set first, whichever of them it is.
func SetFirst(a, b string) bool { return slices.Contains(setFirst, a) && slices.Contains(setFirst, b) }

// OneWork reports causes, found by a check, that one piece of work opens up.
func OneWork(found []string) bool {
	return slices.ContainsFunc([][]string{underTheHead, behindTheCover}, func(work []string) bool {
		return !slices.ContainsFunc(found, func(name string) bool { return !slices.Contains(work, name) })
	})
}

// OfHead reports a cause that a head and its gasket have.
func OfHead(name string) bool { return name == "head-gasket" || name == "warped-or-cracked-head" }

package known

import (
	"math"

	"gaugesheet/diag"
	"gaugesheet/diag/air"
	"gaugesheet/diag/engine"
	"gaugesheet/diag/quantity"
)

// Ported reports a two-stroke that breathes through ports alone and draws its
// mixture through its crankcase. A two-stroke diesel does not: a blower feeds its
// ports, and the exhaust leaves by valves in the head. Common practice, no source.
func (c *Case) Ported() bool { return c.Spec.TwoStroke && !c.Spec.Diesel() }

// HasValves reports an engine of which some ports are opened by valves: neither a
// two-stroke of ports alone nor a rotary.
func (c *Case) HasValves() bool { return !c.Ported() && !c.Rotary() }

// InletValves reports an engine that draws in by valves.
func (c *Case) InletValves() bool { return c.HasValves() && !c.Spec.TwoStroke }

// Rotary reports an engine of rotors.
func (c *Case) Rotary() bool { return c.Engine.Kind == engine.Rotary }

// AirCooled reports an engine without coolant: said to be so, or of separate
// barrels (of two banks where it was tested as aircraft are), not said to be cooled by liquid, and without a word of coolant.
func (c *Case) AirCooled() bool {
	if c.Spec.Cooling != "" {
		return c.Spec.Cooling == "air"
	}
	barrels := len(c.Engine.Heads) > 1 && len(c.Engine.Heads) == len(c.Engine.Cylinders)
	return (barrels && (!c.Engine.IsTwoBank() || c.TestedAsAircraft()) || c.Engine.Kind == engine.Radial) && !c.Complains("coolant loss") && c.CoolantGas != "positive"
}

// LashCanBeSet reports valves whose clearance somebody may set: not with
// hydraulic lifters, which flat aircraft engines commonly have where nobody says
// otherwise (common practice, no source).
func (c *Case) LashCanBeSet() bool {
	if c.Spec.Lifters == "" && c.Engine.Kind == engine.Flat && c.TestedAsAircraft() {
		return false
	}
	return c.HasValves() && c.Spec.Lifters != "hydraulic"
}

// OneCamshaft reports an engine of two banks whose valves hang on one camshaft.
func (c *Case) OneCamshaft() bool { return c.Spec.Camshafts == "one" }

// OilAllowed reports an engine into which a little oil may be put: one whose
// fuel is stated and lit by a spark, and whose readings are not those of a
// diesel. Oil in a diesel can lock it or make it run away.
func (c *Case) OilAllowed() bool {
	switch c.Spec.Fuel {
	case "petrol", "lpg", "cng", "ethanol":
		return !c.readsLikeDiesel() && c.OfAnotherFuel() == ""
	}
	return false
}

// OfAnotherFuel names something that was read of this engine and that only one of
// another fuel than the stated has, "" where there is no such thing: one of the two
// is a slip.
func (c *Case) OfAnotherFuel() string { return c.burning().other }

func (c *Case) ofAnotherFuel() string {
	switch timing := c.Measured(Timing); {
	case c.Spec.Fuel == "":
	case !c.Spec.Diesel():
		if c.Measured(DieselTests) != nil {
			return "diesel"
		}
	case c.Measured(Trims) != nil:
		return "trims"
	case timing != nil && (timing.Reading("dwell") != nil || timing.Reading("points-gap") != nil):
		return "dwell"
	case c.Measured(Magnetos) != nil:
		return "magnetos"
	}
	return ""
}

// dieselPSI is a cranking pressure that only a diesel reaches: common
// practice, no source.
const dieselPSI = 300

func (c *Case) readsLikeDiesel() bool {
	s := c.Cranking()
	least, err := quantity.Convert(dieselPSI, quantity.PSI, s.Unit)
	return s.N > 0 && err == nil && s.Highest > least
}

// smallest cylinder in which a dose of oil still tells rings from valves, in
// cubic centimetres: common practice, no source.
const smallestForOil = 125

// OilTells reports an engine on which a wet test can tell something: oil is
// allowed and lies on the rings, which it does not in flat engines, and the
// cylinder is not so small that the dose fills its chamber.
func (c *Case) OilTells() bool {
	cc := c.CylinderML()
	return c.OilAllowed() && c.HasValves() && c.Spec.Decompressor != "automatic" && c.Engine.Kind != engine.Flat && (cc == 0 || cc >= smallestForOil)
}

// CylinderML is the displacement of one cylinder in ml, 0 where not recorded.
func (c *Case) CylinderML() float64 {
	if n := len(c.Engine.Cylinders); n > 0 {
		return c.Spec.DisplacementML / float64(n)
	}
	return 0
}

// OilDose is the dose of a wet test in ml: 1 ml for 100 ml of the cylinder,
// never more than a tenth of its chamber. 0 where the displacement is not
// recorded.
func (c *Case) OilDose() float64 {
	each := c.CylinderML()
	dose := each / 100
	if chamber, err := air.ClearanceVolume(each, c.Spec.Ratio); err == nil && chamber > 0 {
		dose = math.Min(dose, chamber/10)
	}
	switch {
	case dose < 1:
		return math.Floor(dose*10) / 10
	case dose < 5:
		return math.Floor(dose*2) / 2
	}
	return math.Floor(dose)
}

// Starts reports an engine that can be run: not one that is said not to, or
// whose complaint is that it does not start, unless it has fuel pressure cold
// and loses it hot, and so runs until it is hot.
func (c *Case) Starts() bool {
	_, _, _, failsHot := c.HotShort()
	return c.Spec.Runs != "does not run" && (!c.Complains("no start") || failsHot)
}

// DriveNamed is what drives the camshaft where that is a belt or a chain, "" where nobody says.
func (c *Case) DriveNamed() string {
	if d := c.Spec.TimingDrive; d == "belt" || d == "chain" {
		return d
	}
	return ""
}

// FuelSystem is the job's kind of fuel system, "" where not recorded; of a petrol engine
// that is described as one with direct injection it is that.
func (c *Case) FuelSystem() string {
	switch {
	case c.Fuel != nil && c.Fuel.System != "":
		return c.Fuel.System
	case c.calledDirect():
		return DirectLow
	}
	return ""
}

// Injected reports a petrol engine that may have electronic injection: not one
// that has a carburettor, as is said or by its kind, or a diesel.
func (c *Case) Injected() bool {
	return !c.Spec.Diesel() && !c.Carburetted() && c.Spec.Fuel != "two-stroke mix"
}

// Carburetted reports an engine with a carburettor: said to have one, or where
// nothing is said of its fuel system, nor of codes of a computer, with a choke or of a
// kind that has one: a two-stroke by its mix or cooled by air, a radial, a small engine of a
// mower or pump, one of so low a ratio, or with its valves beside the cylinder, that
// it is older than injection. One cooled by air, of one or two cylinders, or that draws through
// its crankcase, is taken to have one too, which is left open (MeterOpen). Common practice, no source.
func (c *Case) Carburetted() bool { return c.burning().carburetted }

// burning is what the fuel of an engine and its kind tell of it.
type burning struct {
	aircraft    bool // see TestedAsAircraft
	carburetted bool
	meterOpen   bool   // see MeterOpen
	other       string // see OfAnotherFuel
}

func (c *Case) burning() *burning {
	if c.burns == nil {
		c.burns = &burning{aircraft: c.testedAsAircraft()} // which the next asks for
		c.burns.carburetted, c.burns.meterOpen = c.carburetted()
		c.burns.other = c.ofAnotherFuel()
	}
	return c.burns
}

// MeterOpen reports an engine of which nothing tells whether a carburettor or injection
// meters its petrol: its kind only makes one of the two likelier, so both are named.
func (c *Case) MeterOpen() bool { return c.burning().meterOpen }

// carburetted is what Carburetted and MeterOpen say.
func (c *Case) carburetted() (is, open bool) {
	if c.FuelSystem() != "" {
		return c.FuelSystem() == Carburettor, false
	}
	computer := len(c.History.Codes) > 0 || c.described(injectionWords) || c.Spec.Charging == "turbo" || c.Measured(Trims) != nil || c.Measured(Injectors) != nil
	switch {
	case c.Spec.Diesel(), c.GasFuel(), computer && !c.TestedAsAircraft():
		return false, false
	case c.described(carburettorWords), c.workedOnCarburettor():
		return true, false
	case c.Conditions.Choke != "", c.Spec.Fuel == "two-stroke mix", c.Ported() && c.AirCooled(), c.Engine.Kind == engine.Radial, c.TestedAsAircraft():
		return true, false
	case c.SmallEngine() && c.AirCooled() && (c.Spec.Decompressor == "automatic" || c.CylinderML() > 0 && c.CylinderML() <= smallCylinder):
		return true, false
	case c.Spec.Ratio > 1 && c.Spec.Ratio < oldRatio, c.Spec.ValveGear == "side valves":
		return true, false
	}
	old := c.VehicleYear() > 0 && c.VehicleYear() < injectedSince
	return (old || c.AirCooled() || c.Ported() || len(c.Every()) <= 2) && !c.Rotary(), true
}

// injectedSince is the first year from which petrol engines are as often injected as not:
// common practice, no source.
const injectedSince = 1982

// FeedsByItself reports a small engine with a carburettor and no word of a fuel pump,
// whose tank commonly stands above it: there is no pressure to be read.
func (c *Case) FeedsByItself() bool {
	return c.Carburetted() && !c.MeterOpen() && len(c.Every()) <= 2 && (c.Fuel == nil || c.Fuel.Pump == "")
}

// MayRecirculate reports a petrol engine that may lead exhaust gas back into its inlet: a
// car's, and not that of a boat, a motorcycle or an aircraft.
func (c *Case) MayRecirculate() bool {
	return !c.Afloat() && !c.Flies() && !c.described(ridden) && c.HasValves() && !c.Spec.Diesel() && !c.AirCooled() && len(c.Every()) > 2 && (c.Injected() || c.FuelSystem() == Carburettor)
}

// MayCoolItsExhaust reports a diesel that may cool the exhaust gas it leads back into
// its inlet by its coolant: one with a turbocharger, as those of cars and trucks have.
func (c *Case) MayCoolItsExhaust() bool {
	return c.Spec.Diesel() && c.HasValves() && !c.AirCooled() && len(c.Every()) > 2 && (c.Spec.Charging == "turbo" || c.Coded("P0401", "P0402", "P0404"))
}

// Words of how an engine is fed, in the description of its vehicle.
var (
	carburettorWords = []string{"carburetor", "carburettor", "carbureted", "carburetted", "carb", "twin carb"}
	injectionWords   = []string{"injected", "fuel injection", "direct injection", "efi", "gdi", "port injection", "electronic injection"}
)

const (
	smallCylinder = 450 // ml, of engines of mowers and pumps
	oldRatio      = 7.0
)

// CarburettorEach reports an engine that may well have a carburettor for each of
// its few cylinders: a motorcycle's, or one that is said to have as many.
func (c *Case) CarburettorEach() bool {
	n := len(c.Engine.Cylinders)
	switch {
	case !c.Carburetted(), n < 2, c.Flies() || c.TestedAsAircraft():
		return false
	case c.described(carburettorsOf[n]), c.described(ridden) && n <= 4, c.Ported() && n <= 4:
		return true
	case n == 2:
		return !c.described(smallMachines) && !c.described(fieldMachines)
	}
	return n <= 4 && c.AirCooled() && c.Engine.Kind != engine.Flat // which in a car has one, or one for each bank
}

// carburettorsOf are the words of as many carburettors as an engine has cylinders.
var carburettorsOf = map[int][]string{
	2: countedCarburettors("two", "twin", "dual", "2"), 3: countedCarburettors("three", "triple", "3"), 4: countedCarburettors("four", "quad", "4"),
	6: countedCarburettors("six", "6"),
}

func countedCarburettors(counts ...string) []string {
	var list []string
	for _, n := range counts {
		list = append(list, n+" carburetor", n+" carburettor", n+" carb")
	}
	return list
}

// PushrodChamber reports a small engine cooled by air whose pushrods, or the chain of whose
// camshaft, run in a chamber beside the bore, under the same gasket: where that blows, the
// air goes to the crankcase as it does past worn rings. Common practice, no source.
func (c *Case) PushrodChamber() bool {
	return c.SmallEngine() && c.AirCooled() && c.Spec.ValveGear != "side valves" && !c.TestedAsAircraft() && (c.OneCamshaft() || c.Spec.ValveGear == "overhead valves")
}

// ValveTrainBelow reports an engine whose pushrods pass through the joint of its head, so that
// a gasket may blow into what leads down to the crankcase.
func (c *Case) ValveTrainBelow() bool {
	pushrods := c.Spec.ValveGear == "overhead valves" || c.Spec.ValveGear == "" && c.Engine.IsTwoBank() && c.OneCamshaft()
	return c.HasValves() && pushrods && !c.OwnHeads(c.Every())
}

// Several reports an engine of more than one cylinder.
func (c *Case) Several() bool { return len(c.Every()) > 1 }

// Unset is a reading's state where the job says why it was not taken.
func Unset(s diag.State) bool { return s != "" && s != diag.Tested }

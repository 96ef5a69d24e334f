package sheet

import (
	"gaugesheet/diag/known"
	"gaugesheet/diag/quantity"
)

// A benchStep is a step of the bench sheet: its words are labels of its key,
// its boxes stand in a row.
type benchStep struct {
	key   string
	fits  func(bench) bool // nil for every engine
	joins bool             // in the row of the step before
	boxes []benchBox
}

// A benchBox is a box to write in or to tick; its words are a label of its key.
type benchBox struct {
	key   string
	share float64          // of the width that is over; 0 is 1
	fits  func(bench) bool // nil for every engine
}

// bench is what an engine is, as far as the bench sheet asks for it.
type bench struct{ *known.Case }

func (b bench) diesel() bool { return b.Spec.Diesel() }
func (b bench) liquid() bool { return !b.AirCooled() }

// scavenged reports a two-stroke whose crankcase pumps its mixture, which has
// no oil pressure, no vacuum to speak of and no valves.
func (b bench) scavenged() bool { return b.Spec.TwoStroke && !b.diesel() }

// sump reports an engine with oil under pressure from a sump.
func (b bench) sump() bool { return !b.scavenged() }

// throttled reports an engine whose throttle makes a vacuum that can be read.
func (b bench) throttled() bool { return !b.diesel() && !b.scavenged() }

func (b bench) carburettor() bool {
	return b.FuelSystem() == known.Carburettor || b.scavenged() && !b.Injected()
}

// injected reports an engine that may have injectors for each cylinder that
// can be switched off by themselves, but for a diesel's.
func (b bench) injected() bool { return b.sparked() && !b.carburettor() }

// hoses reports an engine that may have a vacuum hose on its regulator.
func (b bench) hoses() bool {
	switch b.FuelSystem() {
	case "", "port, return line", known.ThrottleBody:
		return b.holds()
	}
	return false
}

// holds reports a fuel system whose pressure is watched after switching off.
func (b bench) holds() bool { return !b.diesel() && !b.carburettor() }

// trimmed reports an engine that may have a mixture control with trims, which one with
// two magnetos has not.
func (b bench) trimmed() bool { return b.throttled() && !b.carburettor() && !b.TwoMagnetos() }

// twoMagnetos reports an engine that is checked on each of its magnetos. Which cylinder
// does not fire is told there by the heads, and none is switched off.
func (b bench) twoMagnetos() bool { return b.TwoMagnetos() && b.Several() }

func (b bench) banks() bool   { return b.Engine.IsTwoBank() }
func (b bench) oneBank() bool { return !b.banks() }
func (b bench) sparked() bool { return !b.diesel() }
func (b bench) pistons() bool { return !b.Rotary() }
func (b bench) blowBy() bool  { return b.pistons() && b.sump() }

// oils reports an engine with a step for oil: where a wet test tells
// something, or where the fuel is still to be ticked on the sheet, whose words
// then say of which fuels.
func (b bench) oils() bool {
	if b.Spec.Fuel != "" {
		return b.OilTells()
	}
	asked := *b.Test
	asked.Spec.Fuel = "petrol"
	return bench{known.New(&asked)}.OilTells()
}

// doseWords is the dose of oil for a cylinder, "" where the displacement is not
// recorded.
func (b bench) doseWords() string {
	if dose := b.OilDose(); dose > 0 {
		return quantity.Format(dose, quantity.DecimalsRead(dose, 0))
	}
	return ""
}

// benchRunning are the steps that need the engine running, or whole: before
// the plugs come out.
var benchRunning = []benchStep{
	{key: "codes", boxes: []benchBox{
		{key: "codes", share: 3}, {key: "oil-level", fits: bench.sump}, {key: "premix", fits: bench.scavenged}, {key: "coolant-level", fits: bench.liquid}}},
	{key: "oil-cold", fits: bench.sump, boxes: []benchBox{
		{key: "idle"}, {key: "at-speed"}, {key: "unit-pressure"}, {key: "gauge-oil"}}},
	{key: "cranking", boxes: []benchBox{
		{key: "battery-rest"}, {key: "battery-cranking"}, {key: "after-seconds"}, {key: "cranking-speed"}, {key: "starter-draw"}, {key: "charger"}}},
	{key: "fuel", fits: bench.sparked, boxes: []benchBox{
		{key: "unit-pressure"}, {key: "key-on"},
		{key: "idle-hose-on", fits: bench.hoses}, {key: "idle-hose-off", fits: bench.hoses},
		{key: "idle", fits: func(b bench) bool { return !b.hoses() }}, {key: "snap"},
		{key: "hold-0", fits: bench.holds}, {key: "hold-1", fits: bench.holds}, {key: "hold-5", fits: bench.holds}, {key: "hold-10", fits: bench.holds},
		{key: "volume", fits: bench.carburettor}}},
	{key: "fuel-diesel", fits: bench.diesel, boxes: []benchBox{
		{key: "unit-pressure"}, {key: "key-on"}, {key: "idle"}, {key: "snap"}, {key: "rail-asked"}, {key: "rail-read"}}},
	{key: "returns", fits: bench.diesel, boxes: []benchBox{
		{key: "return-seconds"}, {key: "return-at"}, {key: "rail-cut"}}},
	{key: "vacuum", fits: bench.throttled, boxes: []benchBox{
		{key: "unit-vacuum"}, {key: "idle"}, {key: "needle"}, {key: "snap-open"}, {key: "snap-shut"}, {key: "held"}, {key: "held-later"}}},
	{key: "balance", fits: func(b bench) bool { return b.Several() && !b.twoMagnetos() }, boxes: []benchBox{
		{key: "speed-all"}, {key: "off-by", fits: bench.injected}, {key: "off-by-carburetor", fits: bench.carburettor}, {key: "off-by-diesel", fits: bench.diesel}, {key: "idle-control", fits: bench.trimmed}}},
	{key: "magnetos", fits: bench.twoMagnetos, boxes: []benchBox{
		{key: "speed-both"}, {key: "drop-left"}, {key: "drop-right"}, {key: "heads-on"}, {key: "heads-unit"}}},
	{key: "oil-hot", fits: bench.sump, boxes: []benchBox{
		{key: "idle"}, {key: "at-speed"}, {key: "at-2000"}, {key: "at-3000"}, {key: "oil-grade"}, {key: "oil-temperature"}, {key: "smoke"}}},
	{key: "smoke", fits: bench.scavenged, boxes: []benchBox{{key: "smoke"}, {key: "gas-speed"}, {key: "co"}, {key: "hc"}}},
	{key: "trims", fits: bench.trimmed, boxes: []benchBox{
		{key: "trim-idle", fits: bench.oneBank}, {key: "trim-fast", fits: bench.oneBank},
		{key: "trim-idle-1", fits: bench.banks}, {key: "trim-fast-1", fits: bench.banks}, {key: "trim-idle-2", fits: bench.banks}, {key: "trim-fast-2", fits: bench.banks},
		{key: "gas-speed"}, {key: "co"}, {key: "hc"}, {key: "co2"}, {key: "o2"}, {key: "lambda"}}},
	{key: "gas", fits: func(b bench) bool { return b.throttled() && b.carburettor() }, boxes: []benchBox{
		{key: "gas-speed"}, {key: "co"}, {key: "hc"}, {key: "co2"}, {key: "o2"}, {key: "lambda"}, {key: "timing"}, {key: "dwell"}}},
	{key: "crankcase", fits: bench.blowBy, boxes: []benchBox{
		{key: "unit-crankcase"}, {key: "idle"}, {key: "at-2500"}, {key: "ventilation"}}},
	{key: "crankcase-hold", fits: bench.scavenged, boxes: []benchBox{
		{key: "unit-pressure"}, {key: "pumped-to"}, {key: "after-10"}, {key: "seen-crankcase"}}},
	{key: "cooling", fits: bench.liquid, boxes: []benchBox{
		{key: "unit"}, {key: "cap-opens"}, {key: "pumped-to"}, {key: "after-2"}, {key: "after-5"}, {key: "seen-coolant"}, {key: "gas-test"}}},
}

// benchStill are the steps from when the plugs come out.
var benchStill = []benchStep{
	{key: "plugs", fits: bench.sparked, boxes: []benchBox{
		{key: "engine"}, {key: "temperature"}, {key: "altitude"}, {key: "plugs-out", fits: bench.Several}, {key: "turned"}}},
	{key: "plugs-diesel", fits: bench.diesel, boxes: []benchBox{
		{key: "engine"}, {key: "temperature"}, {key: "altitude"}, {key: "out-diesel"}, {key: "turned"}}},
	{key: "dry", fits: func(b bench) bool { return b.pistons() && b.sparked() }, boxes: []benchBox{
		{key: "unit-pressure"}, {key: "throttle"}, {key: "strokes"}, {key: "speed"}, {key: "gauge", share: 3}}},
	{key: "dry-diesel", fits: bench.diesel, boxes: []benchBox{
		{key: "unit-diesel"}, {key: "strokes"}, {key: "speed"}, {key: "gauge", share: 3}}},
	{key: "faces", fits: bench.Rotary, boxes: []benchBox{
		{key: "unit-rotary"}, {key: "throttle"}, {key: "speed"}, {key: "gauge", share: 3}}},
	{key: "leak-down", fits: bench.pistons, boxes: []benchBox{{key: "supply"}, {key: "orifice"}, {key: "tester", share: 2}}},
	{key: "oil", fits: bench.oils, joins: true, boxes: []benchBox{{key: "dose"}}},
}

// benchEnd is what is done before the vehicle leaves the bench.
var benchEnd = []benchStep{
	{key: "end", boxes: []benchBox{{key: "end", fits: bench.sparked}, {key: "end-diesel", fits: bench.diesel}}},
}

// benchColumns are the columns of the table: the key of their words, and the
// step that they are written down in.
type benchColumn struct {
	key, step string
	wide      bool // to write words in
	fits      func(bench) bool
}

var benchColumns = []benchColumn{
	{key: "return", step: "returns", fits: bench.diesel},
	{key: "balance", step: "balance", fits: func(b bench) bool { return b.Several() && !b.twoMagnetos() }},
	{key: "head", step: "magnetos", fits: bench.twoMagnetos},
	{key: "glow", step: "plugs", fits: bench.diesel},
	{key: "look", step: "plugs", wide: true, fits: func(b bench) bool { return b.sparked() && b.pistons() }},
	{key: "look-leading", step: "plugs", wide: true, fits: bench.Rotary},
	{key: "look-trailing", step: "plugs", wide: true, fits: bench.Rotary},
	{key: "gap", step: "plugs", fits: func(b bench) bool { return b.sparked() && b.pistons() }},
	{key: "first", step: "dry", fits: func(b bench) bool { return b.pistons() && !b.Several() }},
	{key: "dry-1", step: "dry", fits: bench.pistons},
	{key: "dry-2", step: "dry", fits: bench.pistons},
	{key: "again", step: "dry", fits: bench.pistons},
	{key: "face-a", step: "faces", wide: true, fits: bench.Rotary},
	{key: "face-b", step: "faces", wide: true, fits: bench.Rotary},
	{key: "face-c", step: "faces", wide: true, fits: bench.Rotary},
	{key: "lost", step: "leak-down", fits: bench.pistons},
	{key: "air-at", step: "leak-down", wide: true, fits: bench.pistons},
	{key: "wet", step: "oil", fits: bench.oils},
}

// fitting reports an engine that a step, a box or a column fits.
func (b bench) fitting(fits func(bench) bool) bool { return fits == nil || fits(b) }

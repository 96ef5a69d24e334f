package sample

import (
	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

const returnLine = "port, return line"

// fuelRows are tests in which the fuel pressure has the word.
func fuelRows() []Row {
	limits := []diag.FuelLimit{Range("key-on", 38, 44)}
	return []Row{
		{Name: "no fuel pressure", Test: Of("inline-4", Fuel(returnLine, diag.Circuit{KeyOn: PSI(0), Limits: limits})),
			Fires: []string{"no-fuel-pressure"}, Not: []string{"fuel-pressure-low", "not-held-tested"}},
		{Name: "31 of 38 psi", Test: Of("inline-4", Fuel(returnLine, diag.Circuit{KeyOn: PSI(31), Limits: limits})),
			Fires: []string{"fuel-pressure-low", "not-held-tested"}, Not: []string{"no-fuel-pressure", "fuel-pressure-right", "fuel-limit-missing", "rich-but-pressure-low"}},
		{Name: "low, and the return closed changes it", Test: Of("inline-4", Fuel(returnLine, diag.Circuit{KeyOn: PSI(30), ReturnPinched: PSI(70), Limits: limits})), Fires: []string{"fuel-pressure-low"}},
		{Name: "low, and the return closed does not", Test: Of("inline-4", Fuel(returnLine, diag.Circuit{KeyOn: PSI(30), ReturnPinched: PSI(32), Limits: limits})), Fires: []string{"fuel-pressure-low"}},
		{Name: "just under the limit", Test: Of("inline-4", Fuel(returnLine, diag.Circuit{KeyOn: PSI(37.5), Limits: limits})), Fires: []string{"fuel-pressure-low"}, Not: []string{"fuel-pressure-right"}},
		{Name: "just inside the limit", Test: Of("inline-4", Fuel(returnLine, diag.Circuit{KeyOn: PSI(38.2), Limits: limits})), Fires: []string{"fuel-pressure-right"}, Not: []string{"fuel-pressure-low"}},
		{Name: "right", Test: Of("inline-4", Fuel(returnLine, diag.Circuit{KeyOn: PSI(41), Hold: []diag.HoldReading{Held(5, 38)}, Limits: limits})),
			Fires: []string{"fuel-pressure-right"}, Not: []string{"not-held-tested", "falls-off-fast", "falls-off-slowly"}},
		{Name: "high", Test: Of("inline-4", Fuel(returnLine, diag.Circuit{KeyOn: PSI(60), Limits: limits})), Fires: []string{"fuel-pressure-high"}, Not: []string{"rich-and-pressure-high"}},
		{Name: "carburettor too high", Test: Of("inline-4", Fuel("carburettor", diag.Circuit{Idle: PSI(9), Limits: []diag.FuelLimit{Range("idle", 4, 6)}})), Fires: []string{"fuel-pressure-high"}, Not: []string{"not-held-tested"}},
		{Name: "sags under its limit", Test: Of("inline-4", Fuel(returnLine, diag.Circuit{KeyOn: PSI(41), Snap: PSI(30), Limits: append(limits, Range("snap", 38, 0))})),
			Fires: []string{"sags-under-load"}, Not: []string{"fuel-pressure-low"}},
		{Name: "sags under idle", Test: Of("inline-4", Fuel("port, no return", diag.Circuit{Idle: PSI(58), Snap: PSI(45)})), Fires: []string{"sags-under-load"}},
		{Name: "rises on snap", Test: Of("inline-4", Fuel(returnLine, diag.Circuit{Idle: PSI(33), Snap: PSI(38)})), Not: []string{"sags-under-load"}},
		{Name: "little volume", Test: Of("inline-4", Fuel(returnLine, diag.Circuit{KeyOn: PSI(41), VolumeML: 250, VolumeSeconds: 30, Limits: limits})), Fires: []string{"pump-volume-low"}},
		{Name: "volume under its limit", Test: Of("inline-4", Fuel(returnLine, diag.Circuit{KeyOn: PSI(41), VolumeML: 250, VolumeSeconds: 30, VolumeEntered: "250 ml in 30 s",
			Limits: append(limits, diag.FuelLimit{For: "volume", Low: 900, High: 1e9, Entered: "900 ml in 1 min"})})), Fires: []string{"pump-volume-low"}},
		// One US pint (473 ml) in 30 seconds: common practice, no source.
		{Name: "a pint in half a minute", Test: Of("inline-4", Fuel(returnLine, diag.Circuit{KeyOn: PSI(41), VolumeML: 473.2, VolumeSeconds: 30, Limits: limits})), Not: []string{"pump-volume-low"}},
		{Name: "needle flutters", Test: Of("inline-4", Method(func(k *diag.Conditions) { k.Needle = "flutters" }), Fuel(returnLine, diag.Circuit{KeyOn: PSI(41), Limits: limits})), Fires: []string{"fuel-needle-flutters"}},
		{Name: "a needle flutters, which one is not said", Test: Dry("inline-4", even4, Method(func(k *diag.Conditions) { k.Needle = "flutters" }),
			Fuel(returnLine, diag.Circuit{KeyOn: PSI(41), Limits: limits})), Fires: []string{"fuel-needle-flutters"}},
		{Name: "usual, no limit", Test: Of("inline-4", Fuel(returnLine, diag.Circuit{KeyOn: PSI(40)})), Fires: []string{"fuel-limit-missing"}, Not: []string{"fuel-pressure-right", "fuel-pressure-low"}},
		{Name: "unusual, no limit", Test: Of("inline-4", Fuel(returnLine, diag.Circuit{KeyOn: PSI(20)})), Fires: []string{"fuel-limit-missing"}, Not: []string{"fuel-pressure-low"}},
		{Name: "system not recorded, no limit", Test: Of("inline-4", Fuel("", diag.Circuit{KeyOn: PSI(40)})), Fires: []string{"fuel-limit-missing"}},
		{Name: "two tanks, one low", Test: Of("V8",
			Fuel(returnLine, diag.Circuit{Name: "front tank", KeyOn: PSI(41), Limits: limits}), Fuel(returnLine, diag.Circuit{Name: "rear tank", KeyOn: PSI(28), Limits: limits})),
			Fires: []string{"fuel-pressure-low", "fuel-pressure-right"}},

		// 18 inHg make 8.84 psi (NIST SP 811): 33 with the hose on, 42 with it off.
		{Name: "regulator follows", Test: Of("inline-4", Fuel(returnLine, diag.Circuit{Idle: PSI(33), HoseOff: PSI(42), ManifoldVacuum: vacuum(18)})),
			Fires: []string{"regulator-responds"}, Not: []string{"regulator-no-response", "hose-off-falls"}},
		// A published pair, 36 and 43 psi: common practice, no source.
		{Name: "published pair of hose on and off", Test: Of("inline-4", Fuel(returnLine, diag.Circuit{Idle: PSI(36), HoseOff: PSI(43)})), Fires: []string{"regulator-responds"}},
		{Name: "regulator follows a little", Test: Of("inline-4", Fuel(returnLine, diag.Circuit{Idle: PSI(36), HoseOff: PSI(39)})), Fires: []string{"regulator-responds"}, Not: []string{"regulator-no-response"}},
		{Name: "regulator does not follow", Test: Of("inline-4", Fuel(returnLine, diag.Circuit{Idle: PSI(41), HoseOff: PSI(41), ManifoldVacuum: vacuum(18)})),
			Fires: []string{"regulator-no-response"}, Not: []string{"regulator-responds"}},
		{Name: "rises by what the vacuum makes", Test: Of("inline-4", idleVacuum(18), Fuel(returnLine, diag.Circuit{Idle: PSI(33), HoseOff: PSI(42)})), Fires: []string{"regulator-responds"}, Not: []string{"regulator-off-vacuum"}},
		{Name: "rises by far less than the vacuum makes", Test: Of("inline-4", idleVacuum(20), Fuel(returnLine, diag.Circuit{Idle: PSI(37), HoseOff: PSI(41)})), Fires: []string{"regulator-off-vacuum"}, Not: []string{"regulator-responds"}},
		{Name: "rises by far more", Test: Of("inline-4", idleVacuum(10), Fuel(returnLine, diag.Circuit{Idle: PSI(32), HoseOff: PSI(42)})), Fires: []string{"regulator-off-vacuum"}, Not: []string{"regulator-responds"}},
		{Name: "vacuum noted beside the rail alone", Test: Of("inline-4", Fuel(returnLine, diag.Circuit{Idle: PSI(37), HoseOff: PSI(41), ManifoldVacuum: vacuum(20)})), Not: []string{"regulator-off-vacuum"}},
		{Name: "no change, system not recorded", Test: Of("inline-4", Fuel("", diag.Circuit{Idle: PSI(41), HoseOff: PSI(41)})), Fires: []string{"regulator-no-response"}},
		{Name: "no hose on this system", Test: Of("inline-4", Fuel("port, no return", diag.Circuit{Idle: PSI(58), HoseOff: PSI(58)})), Not: []string{"regulator-no-response", "regulator-responds"}},
		{Name: "falls with the hose off", Test: Of("inline-4", Fuel(returnLine, diag.Circuit{Idle: PSI(42), HoseOff: PSI(34)})), Fires: []string{"hose-off-falls"}, Not: []string{"regulator-no-response"}},
		{Name: "fuel in the hose, no gauge used", Test: Of("V6", Fuel(returnLine, diag.Circuit{FuelInHose: "yes"})), Fires: []string{"fuel-in-hose"}, Not: []string{"not-held-tested"}},
		{Name: "a dry hose", Test: Of("V6", Fuel(returnLine, diag.Circuit{KeyOn: PSI(40), FuelInHose: "no"})), Not: []string{"fuel-in-hose"}},

		{Name: "hold under its limit", Test: Of("inline-4", Fuel(returnLine, diag.Circuit{KeyOn: PSI(41), Hold: []diag.HoldReading{Held(1, 36), Held(5, 18)},
			Limits: append(limits, diag.FuelLimit{For: "hold", Low: 30, High: 1e9, Minutes: 5})})), Fires: []string{"falls-off-fast"}},
		{Name: "hold within its own limit", Test: Of("inline-4", Fuel(returnLine, diag.Circuit{KeyOn: PSI(41), Hold: []diag.HoldReading{Held(5, 34)},
			Limits: append(limits, diag.FuelLimit{For: "hold", Low: 30, High: 1e9, Minutes: 5})})), Not: []string{"falls-off-fast", "falls-off-slowly"}},
		// A fall of more than 5 psi in about 5 minutes is a fault: common practice, no source.
		{Name: "loses 20 psi in 5 minutes", Test: Of("inline-4", Fuel(returnLine, diag.Circuit{KeyOn: PSI(41), Hold: []diag.HoldReading{Held(5, 21)}})), Fires: []string{"falls-off-fast"}},
		{Name: "loses 5 psi in 5 minutes", Test: Of("inline-4", Fuel(returnLine, diag.Circuit{KeyOn: PSI(41), Hold: []diag.HoldReading{Held(5, 36)}})), Not: []string{"falls-off-fast", "falls-off-slowly"}},
		{Name: "down in 20 minutes", Test: Of("inline-4", Fuel(returnLine, diag.Circuit{KeyOn: PSI(41), Hold: []diag.HoldReading{Held(20, 10)}})), Fires: []string{"falls-off-slowly"}, Not: []string{"falls-off-fast"}},
		{Name: "a throttle body lets its pressure go", Test: Of("V8", Fuel("throttle body", diag.Circuit{KeyOn: PSI(11), Hold: []diag.HoldReading{Held(1, 1)}})), Fires: []string{"falls-off-slowly"}, Not: []string{"falls-off-fast"}},
		{Name: "rises after switching off", Test: Of("inline-4", Fuel(returnLine, diag.Circuit{KeyOn: PSI(41), Hold: []diag.HoldReading{Held(5, 46)}})), Fires: []string{"rises-after-key-off"}},
		// Key-on 40, idle 35, hose off 44 and rich: nothing excludes a dripping injector but the held pressure.
		{Name: "far too rich, held pressure not read", Test: Of("V6", Complains("rich running"), Fuel(returnLine, diag.Circuit{KeyOn: PSI(40), Idle: PSI(35), HoseOff: PSI(44)})),
			Fires: []string{"not-held-tested", "regulator-responds"}, Not: []string{"rich-but-pressure-low"}},
		{Name: "carburettor on its own scale", Test: Of("V8", Fuel("carburettor", diag.Circuit{Idle: PSI(4.5), Limits: []diag.FuelLimit{Range("idle", 3.5, 6)}})),
			Fires: []string{"fuel-pressure-right"}, Not: []string{"no-fuel-pressure", "not-held-tested", "regulator-no-response"}},
	}
}

// idleVacuum is the manifold's vacuum in inHg, read in a test of its own.
func idleVacuum(inHg float64) Change {
	return Test("vacuum", quantity.InHg, At("idle", "", inHg))
}

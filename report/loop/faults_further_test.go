package loop_test

func carburetted(m *machine) bool { return m.system == carburettor && m.valves() }
func manifold(m *machine) bool    { return valved(m) && spark(m) && m.cylinders > 2 }
func oneDiesel(m *machine) bool   { return m.diesel() }

// furtherFaults are those that only a further test shows, with that test among
// the first readings.
var furtherFaults = []fault{
	{name: "worn-bearings", fits: valved, causes: []string{"worn-bearings"}, complaints: []string{"noise", "noise", ""}, reads: []string{"oil-pressure"},
		spoil: func(b *bench) { b.truth.further.bearings = true }},
	{name: "oil-low", fits: valved, causes: []string{"too-little-oil"}, complaints: []string{"noise", "oil use", ""}, reads: []string{"oil-pressure"},
		spoil: func(b *bench) { b.truth.further.oilLow = true }},
	{name: "oil-relief-valve", fits: valved, causes: []string{"oil-relief-valve"}, complaints: []string{"noise", ""}, reads: []string{"oil-pressure"},
		spoil: func(b *bench) { b.truth.further.relief = true }},
	{name: "oil-sender", fits: valved, causes: []string{"oil-sender"}, complaints: []string{""}, reads: []string{"oil-pressure"},
		spoil: func(b *bench) { b.truth.further.sender = true }},
	{name: "exhaust-blocked", fits: manifold, causes: []string{"restricted-exhaust"}, complaints: []string{"low power"}, reads: []string{"vacuum"},
		spoil: func(b *bench) { b.truth.further.exhaustBlocked = true }},
	{name: "ignition-late", fits: func(m *machine) bool { return manifold(m) && carburetted(m) }, causes: []string{"late-ignition"}, complaints: []string{"low power", "overheating"}, reads: []string{"vacuum"},
		spoil: func(b *bench) { b.truth.further.lateSpark = true }},
	{name: "valve-springs-all", fits: manifold, causes: []string{"valve-springs"}, complaints: []string{"low power", "misfire"}, reads: []string{"vacuum"},
		spoil: func(b *bench) { b.truth.further.springs = true }},
	{name: "coolant-outside", fits: both(liquid, valved), causes: []string{"coolant-leak-outside"}, complaints: []string{"coolant loss"}, reads: []string{"cooling"},
		spoil: func(b *bench) { b.truth.further.outsideLeak = true }},
	{name: "pressure-cap", fits: both(liquid, valved), causes: []string{"pressure-cap"}, complaints: []string{"coolant loss", "overheating"}, reads: []string{"cooling"},
		spoil: func(b *bench) { b.truth.further.capWeak = true }},
	{name: "breather-blocked", fits: valved, causes: []string{"breather"}, complaints: []string{"oil use", ""}, reads: []string{"crankcase"},
		spoil: func(b *bench) { b.truth.further.breather = true }},
	{name: "egr-open", fits: func(m *machine) bool { return manifold(m) && ports(m) && m.fuel == "petrol" }, causes: []string{"egr-open"}, complaints: []string{"misfire", "low power"}, reads: []string{"vacuum"},
		spoil: func(b *bench) { b.truth.further.egr = true }},
	{name: "reed-valve", fits: func(m *machine) bool { return m.twoStroke }, causes: []string{"reed-valve"}, complaints: []string{"hard start", "low power"},
		spoil: func(b *bench) { b.truth.further.reed = true }},
	{name: "knocks-below", fits: valved, causes: []string{"worn-bearings", "bottom-end"}, complaints: []string{"noise"},
		spoil: func(b *bench) { b.truth.further.bearings = true }},
	{name: "turns-slowly", fits: func(m *machine) bool { return piston(m) && m.cylinders > 2 }, causes: []string{"weak-cranking", "battery"}, complaints: []string{"hard start"},
		spoil: func(b *bench) { b.truth.further.slow = true }},
	{name: "diesel-injector", fits: oneDiesel, causes: []string{"diesel-injector"}, complaints: []string{"misfire", "hard start", "low power"}, reads: []string{"diesel"},
		spoil: func(b *bench) {
			b.one()
			b.truth.further.returns = b.hit[0]
		}},
	{name: "glow-plug", fits: oneDiesel, causes: []string{"glow-plug"}, complaints: []string{"hard start"}, reads: []string{"diesel"},
		spoil: func(b *bench) {
			b.one()
			b.truth.further.glow = b.hit[0]
		}},
}

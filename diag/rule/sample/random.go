package sample

import (
	"math/rand/v2"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// Random is a test with readings, plugs, leakage, limits and history taken at
// random: no engine anybody has seen, and one that must be read all the same.
func Random(r *rand.Rand) *diag.Test {
	layouts := []string{"single", "inline-2", "inline-4", "inline-6", "V2", "V8", "flat-4", "radial-5"}
	t := Dry(layouts[r.IntN(len(layouts))], nil, randomMethod(r), randomSpec(r))
	names := t.Engine.Names()
	for _, name := range names {
		if r.IntN(12) > 0 {
			t.Compression.Dry[name] = randomReading(r)
		}
		if r.IntN(4) == 0 {
			t.Compression.Wet[name] = randomReading(r)
		}
		if r.IntN(3) == 0 {
			t.Compression.First[name] = Read(float64(r.IntN(120)))
		}
		if r.IntN(3) == 0 {
			places := []string{"exhaust", "inlet", "crankcase", "coolant", "neighbour", "outside", "nowhere"}
			Leak(name, float64(r.IntN(101)), places[r.IntN(len(places))])(t)
		}
		if r.IntN(2) == 0 {
			looks := []string{"normal", "worn", "sooty", "fuel-wet", "oil-wet", "ash", "white", "blistered", "melted", "detonation", "coolant", "bridged", "damaged", "tracked"}
			Plug(looks[r.IntN(len(looks))], name)(t)
		}
	}
	if r.IntN(2) == 0 {
		t.Compression.Order = names
	}
	randomLimits(r)(t)
	if r.IntN(3) == 0 {
		earlier := Dry(t.Engine.Layout, nil)
		earlier.Engine, earlier.Conditions = t.Engine, t.Conditions
		if r.IntN(2) == 0 {
			earlier.Conditions.Engine = "cold"
		}
		for _, name := range names {
			earlier.Compression.Dry[name] = randomReading(r)
		}
		After("2025-11-02", earlier)(t)
	}
	return t
}

func randomReading(r *rand.Rand) diag.Reading {
	v := 130 + float64(r.IntN(40))
	switch r.IntN(6) {
	case 0:
		v = float64(r.IntN(220))
	case 1:
		v = 0
	}
	reading := Read(v)
	switch r.IntN(10) {
	case 0:
		reading = Read(v, v+float64(r.IntN(20)))
	case 1:
		reading.Kind = diag.Estimate
	case 2:
		reading.Kind, reading.HalfWidth = diag.Band, 5
	case 3:
		reading.Kind = diag.AtLeast
	}
	return reading
}

func randomMethod(r *rand.Rand) Change {
	return Method(func(c *diag.Conditions) {
		c.Engine = []string{"", "cold", "warm", "hot"}[r.IntN(4)]
		c.Throttle = []string{"", "open", "open", "closed", "not sure"}[r.IntN(5)]
		c.Needle = []string{"", "holds", "falls back", "flutters"}[r.IntN(4)]
		if r.IntN(4) == 0 {
			m := float64(r.IntN(3000))
			c.AltitudeM = &m
		}
	})
}

func randomSpec(r *rand.Rand) Change {
	return Spec(func(s *diag.Spec) {
		s.TwoStroke = r.IntN(6) == 0
		if r.IntN(6) == 0 {
			s.Fuel = "diesel"
		}
		if r.IntN(3) == 0 {
			s.Ratio, s.InletClosesDeg = 8+3*r.Float64(), 40+float64(r.IntN(40))
		}
		if r.IntN(10) == 0 {
			s.Decompressor = "automatic"
		}
	})
}

func randomLimits(r *rand.Rand) Change {
	return func(t *diag.Test) {
		if r.IntN(2) == 0 {
			Limit(diag.Limit{Kind: diag.Minimum, Value: float64(80 + r.IntN(100)), Unit: quantity.PSI, FromSeaLevel: r.IntN(2) == 0})(t)
		}
		if r.IntN(2) == 0 {
			kinds := []diag.LimitKind{diag.Lowest, diag.Spread, diag.Difference, diag.BelowMean, diag.FromMean}
			kind, unit := kinds[r.IntN(len(kinds))], quantity.Percent
			if kind == diag.Difference {
				unit = quantity.PSI
			}
			value := float64(5 + r.IntN(30))
			if kind == diag.Lowest {
				value = 95 - value
			}
			Limit(diag.Limit{Kind: kind, Of: diag.OfHighest, Value: value, Unit: unit})(t)
		}
		if r.IntN(3) == 0 {
			t.History = diag.History{StoodMonths: float64(r.IntN(30)), Complaints: []string{"misfire", "oil use"}, WorkDone: []string{"new rings", "lash set"}}
		}
	}
}

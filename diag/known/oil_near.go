package known

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// knockBelow are words of a bearing that is heard, whoever listened.
var knockBelow = append(pairs("knock|knocks|knocking|rumble|rumbles|rumbling|thud|thuds|deep noise|hammering", "bottom end|lower end|big end|big ends|main bearing|main bearings|rod bearing|rod bearings|crankshaft|crank|sump|oil pan|block|below"), "rod knock", "bearing knock", "big end knock")

// OilComplained is an engine of whose oil pressure or bearings something else tells: its lamp
// or its gauge, or what is heard of it.
var OilComplained = Any(OilShownLow, NoiseBelow, OfEngine("a complaint of noise that nobody says is loudest above or beside the block", func(c *Case) bool {
	return c.Complains("noise") && len(c.NoiseLoudest()) == 0
}))

// OilUnderHalf is hot oil pressure at a speed, without a limit, that reads under half of the
// rule of thumb, though its gauge may be off by what is left.
var OilUnderHalf = OfTest(Oil, "a hot oil pressure at a speed, without a limit, that reads under half of 10 psi for each 1000 rpm", func(r *diag.MeasuredResult) bool {
	return slices.ContainsFunc(hotOil(r), func(m *diag.MeasuredReading) bool {
		return m.Name == "at-speed" && m.Kind != diag.AtLeast && !m.Limited() && thumbPSI(m) > 0 && psi(m) < oilContent*thumbPSI(m)
	})
})

// OilNearLeast is the hot reading that is neither clearly low nor clearly right: too near its
// lower limit for its gauge, or without one less than a quarter over the rule of thumb, or
// under it by no more than its gauge may be off; the one nearest to what is asked, nil for none.
func OilNearLeast(r *diag.MeasuredResult) *diag.MeasuredReading {
	var nearest *diag.MeasuredReading
	least := 0.0
	for _, m := range hotOil(r) {
		asked := thumbPSI(m)
		if quantity.DimensionOf(m.Unit) != quantity.Pressure || m.Kind == diag.AtLeast {
			continue
		}
		near := asked > 0 && psi(m) < oilNearTheLimit*asked
		if m.Limited() {
			near = m.LimitLow != nil && m.Verdict == diag.TooClose && m.Value < oilNearTheLimit**m.LimitLow
			if asked = 0; m.LimitLow != nil {
				asked, _ = quantity.Convert(*m.LimitLow, m.Unit, quantity.PSI)
			}
		}
		if near && (nearest == nil || psi(m)/asked < least) {
			nearest, least = m, psi(m)/asked
		}
	}
	return nearest
}

// OilTwiceUnder is hot oil pressure without a limit that is under the rule of thumb at two
// speeds, each by no more than its gauge may be off: by chance one is, and not both.
var OilTwiceUnder = OfTest(Oil, "two hot oil pressures without a limit under 10 psi for each 1000 rpm", func(r *diag.MeasuredResult) bool {
	under := 0
	for _, m := range hotOil(r) {
		if quantity.DimensionOf(m.Unit) == quantity.Pressure && m.Kind != diag.AtLeast && !m.Limited() && thumbPSI(m) > 0 && psi(m) < thumbPSI(m) {
			under++
		}
	}
	return under > 1
})

// OilNear is oil pressure that is too near to call, and none that is low.
var OilNear = OfTest(Oil, "a hot oil pressure too near its lower limit to call, or without one less than a quarter over 10 psi for each 1000 rpm, and none that is low", func(r *diag.MeasuredResult) bool {
	return !oilIsLow(r) && OilNearLeast(r) != nil
})

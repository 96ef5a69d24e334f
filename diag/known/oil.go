package known

import (
	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
	"slices"
	"strings"
)

// Oil is the section of the oil pressure.
const Oil = "oil-pressure"

// Figures for oil pressure without a maker's limit.
const (
	noOilPressure   = 2.0  // psi; under it a running engine has none to speak of (judgement, no source)
	oilPerThousand  = 10.0 // psi for each 1000 rpm, hot: common practice, no source
	oilIdles        = 600  // rpm that an idle is taken for where its speed was not said: hardly any engine idles slower
	oilShowsShort   = 0.75 // as a part of the rule of thumb, whatever the gauge may be off by: judgement, no source
	oilContent      = 0.5  // as a part of it: no maker is content with less at a speed; common practice, no source
	oilHardlyShown  = 8.0  // psi on the dash with hot oil, and low: the engine stays off until a gauge is on; judgement, no source
	oilHardlyRises  = 0.10 // as a part, at twice the speed: judgement, no source
	oilDrops        = 0.15 // as a part, from a speed to a higher one: judgement, no source
	oilClimbs       = 0.30 // as a part, at twice the speed: a pump that draws, and a valve that shuts; judgement, no source
	oilFallsHot     = 0.40 // hot idle as a part of cold idle: judgement, no source
	oilNearTheLimit = 1.25 // times the figure that it is held against: judgement, no source
	oilRelieved     = 45.0 // psi, hot: where relief valves begin to open; judgement, no source
	oilMuchAtIdle   = 80.0 // psi, hot: more than a relief valve lets nearly any engine have; judgement, no source
	oilMuchAtSpeed  = 100.0
)

// hotOil are the readings of a running, warm engine.
func hotOil(r *diag.MeasuredResult) []*diag.MeasuredReading {
	var list []*diag.MeasuredReading
	for i := range r.Readings {
		if m := &r.Readings[i]; m.Name == "idle" || m.Name == "at-speed" {
			list = append(list, m)
		}
	}
	return list
}

// runningOil are those of a running engine, cold or hot.
func runningOil(r *diag.MeasuredResult) []*diag.MeasuredReading {
	list := hotOil(r)
	if m := r.Reading("cold-idle"); m != nil {
		list = append(list, m)
	}
	return list
}

// psi is a pressure in psi, 0 for another quantity.
func psi(m *diag.MeasuredReading) float64 {
	v, _ := quantity.Convert(m.Value, m.Unit, quantity.PSI)
	return v
}

// speedOf is the speed of a reading in rpm, 0 where it was not said; an idle without one is
// taken for the slowest of nearly any engine.
func speedOf(m *diag.MeasuredReading) float64 {
	if m.At == "" && m.Name == "idle" {
		return oilIdles
	}
	if v, err := quantity.Parse(m.At); err == nil && v.Unit == quantity.RPM {
		return v.Number
	}
	return 0
}

// NoOilReading is the running reading at which there is no oil pressure to
// speak of, nil for none.
func NoOilReading(r *diag.MeasuredResult) *diag.MeasuredReading {
	for _, m := range runningOil(r) {
		if psi(m) < noOilPressure && m.Kind != diag.AtLeast {
			return m
		}
	}
	return nil
}

// OilLow is the hot or cold reading furthest past its lower limit.
func OilLow(r *diag.MeasuredResult) (*diag.MeasuredReading, bool) { return WorstOf(r, oilUnder) }

func oilUnder(m *diag.MeasuredReading) (bool, bool) {
	if quantity.DimensionOf(m.Unit) != quantity.Pressure {
		return false, false
	}
	return Under(m)
}

// OilUnderThumb is a hot reading at a speed that has no limit and is under 10
// psi for each 1000 rpm, by more than its gauge may be off or by a quarter; of several the
// one that is shortest of it.
func OilUnderThumb(r *diag.MeasuredResult) *diag.MeasuredReading {
	var least *diag.MeasuredReading
	for _, m := range hotOil(r) {
		asked := thumbPSI(m)
		under := asked > 0 && m.Kind != diag.AtLeast && (psi(m)+pressureU(m) < asked || psi(m) < oilShowsShort*asked)
		if under && !m.Limited() && (least == nil || psi(m)/asked < psi(least)/thumbPSI(least)) {
			least = m
		}
	}
	return least
}

// thumbPSI is what the rule of thumb asks at a reading's speed, 0 where that was not said.
func thumbPSI(m *diag.MeasuredReading) float64 { return oilPerThousand * speedOf(m) / 1000 }

// oilStarves reports hot oil pressure that no bearing lives on: at a speed clearly under
// half of the rule of thumb, whatever its limit, for no maker's figure makes that right; or
// at half of its own limit or less, of which idle counts where the pressure is short at speed too.
func oilStarves(r *diag.MeasuredResult) bool {
	hot := hotOil(r)
	short := slices.ContainsFunc(hot, func(m *diag.MeasuredReading) bool {
		return m.Name == "at-speed" && m.Verdict == diag.Outside && m.BelowLimit()
	})
	return slices.ContainsFunc(hot, func(m *diag.MeasuredReading) bool {
		if m.Kind == diag.AtLeast {
			return false
		}
		return m.Name == "at-speed" && psi(m)+pressureU(m) < oilContent*thumbPSI(m) || underHalf(m) && short
	})
}

// underHalf is a reading outside its limit, and at most half of it.
func underHalf(m *diag.MeasuredReading) bool {
	return m.Verdict == diag.Outside && m.LimitLow != nil && m.Value <= oilContent**m.LimitLow+1e-9
}

// OilRightAtSpeed reports a hot reading above idle that its limit, or without one the rule of
// thumb, lets pass: a pump that draws and delivers.
func OilRightAtSpeed(r *diag.MeasuredResult) bool {
	return slices.ContainsFunc(hotOil(r), func(m *diag.MeasuredReading) bool {
		if m.Name != "at-speed" {
			return false
		}
		return m.Limited() && m.Verdict == diag.Within || !m.Limited() && thumbPSI(m) > 0 && psi(m) >= thumbPSI(m)
	})
}

// OilHardlyShown reports a display of the vehicle that shows next to nothing: low, and at
// most some 8 psi hot, or at most half of its limit.
func OilHardlyShown(r *diag.MeasuredResult) bool {
	return !OnOwnGauge(r) && oilIsLow(r) && slices.ContainsFunc(hotOil(r), func(m *diag.MeasuredReading) bool {
		return psi(m) <= oilHardlyShown || m.LimitLow != nil && m.Value <= oilContent**m.LimitLow+1e-9
	})
}

// OilAboveUsual is a hot reading without a limit that is above what the relief valve
// of nearly any engine leaves, nil for none.
func OilAboveUsual(r *diag.MeasuredResult) *diag.MeasuredReading {
	for _, m := range hotOil(r) {
		most := oilMuchAtSpeed
		if m.Name == "idle" {
			most = oilMuchAtIdle
		}
		if !m.Limited() && quantity.DimensionOf(m.Unit) == quantity.Pressure && psi(m)-pressureU(m) > most {
			return m
		}
	}
	return nil
}

func pressureU(m *diag.MeasuredReading) float64 {
	v, _ := quantity.Convert(m.Uncertainty, m.Unit, quantity.PSI)
	return v
}

// Thumb is what the rule of thumb asks at a reading's speed, in its unit.
func Thumb(m *diag.MeasuredReading) diag.Number {
	v, _ := quantity.Convert(thumbPSI(m), quantity.PSI, m.Unit)
	return diag.Number{Value: v, Decimals: max(m.Decimals, quantity.DefaultDecimals(m.Unit)), Unit: m.Unit}
}

// OilStays gives two hot readings of which the second, at twice the speed of the
// first or more, is hardly higher, and low or near it; nil for none.
func OilStays(r *diag.MeasuredResult) (slow, fast *diag.MeasuredReading) {
	for _, a := range hotOil(r) {
		for _, b := range hotOil(r) {
			if speedOf(a) > 0 && speedOf(b) >= 2*speedOf(a) && b.Value < a.Value*(1+oilHardlyRises) && oilNearLow(b) {
				return a, b
			}
		}
	}
	return nil, nil
}

// OilDrops gives the hot reading at the highest speed that is low or near it and lower than one at
// a lower speed, which is the highest of these, by more than two readings of one gauge differ; nil for none.
func OilDrops(r *diag.MeasuredResult) (slow, fast *diag.MeasuredReading) {
	for _, b := range hotOil(r) {
		if b.Kind == diag.AtLeast || !oilNearLow(b) || fast != nil && speedOf(b) < speedOf(fast) {
			continue
		}
		for _, a := range hotOil(r) {
			if speedOf(a) > 0 && speedOf(a) < speedOf(b) && b.Value < a.Value*(1-oilDrops) && (fast != b || a.Value > slow.Value) {
				slow, fast = a, b
			}
		}
	}
	return slow, fast
}

// oilRisesFar reports hot oil pressure that is far higher at twice the speed, wherever that was read.
func oilRisesFar(r *diag.MeasuredResult) bool {
	for _, a := range hotOil(r) {
		for _, b := range hotOil(r) {
			if speedOf(a) > 0 && speedOf(b) >= 2*speedOf(a) && b.Value > a.Value*(1+oilClimbs) {
				return true
			}
		}
	}
	return false
}

// oilNearLow reports a reading that is low by its limit, or without one low by the rule of
// thumb or near it: what a relief valve holds at work is neither, however high the speed.
func oilNearLow(m *diag.MeasuredReading) bool {
	if m.LimitLow != nil {
		return m.Value < *m.LimitLow
	}
	return speedOf(m) > 0 && psi(m) < min(thumbPSI(m)*oilNearTheLimit, oilRelieved)
}

// oilIsLow is low by a limit, or without one by the rule of thumb.
func oilIsLow(r *diag.MeasuredResult) bool {
	low, _ := OilLow(r)
	return low != nil || OilUnderThumb(r) != nil || NoOilReading(r) != nil
}

// Conditions on the oil and its pressure.
var (
	OilNone        = OfTest(Oil, "oil pressure under 2 psi with the engine running", func(r *diag.MeasuredResult) bool { return NoOilReading(r) != nil })
	OilByOwnGauge  = OfTest(Oil, "read on a gauge that was screwed in, or not said to be what the vehicle shows", OnOwnGauge)
	OilUnderLimit  = OfTest(Oil, "an oil pressure under its limit", func(r *diag.MeasuredResult) bool { low, _ := OilLow(r); return low != nil })
	OilUnderRule   = OfTest(Oil, "a hot oil pressure without a limit under 10 psi for each 1000 rpm", func(r *diag.MeasuredResult) bool { return OilUnderThumb(r) != nil })
	OilOverLimit   = OfTest(Oil, "an oil pressure over its limit", func(r *diag.MeasuredResult) bool { over, _ := WorstOf(r, Over); return over != nil })
	OilOverUsual   = OfTest(Oil, "a hot oil pressure without a limit over 80 psi at idle or 100 psi at a speed", func(r *diag.MeasuredResult) bool { return OilAboveUsual(r) != nil })
	OilDoesNotRise = OfTest(Oil, "oil pressure that rises by less than a tenth at twice the speed and is under its limit or, without one, low by 10 psi for each 1000 rpm or near it, and under 45 psi", func(r *diag.MeasuredResult) bool { _, fast := OilStays(r); return fast != nil })
	OilFallsFast   = OfTest(Oil, "hot oil pressure lower by 15 % or more than at a lower speed, and under its limit or, without one, low by 10 psi for each 1000 rpm or near it, and under 45 psi", func(r *diag.MeasuredResult) bool { _, fast := OilDrops(r); return fast != nil })
	OilClimbs      = OfTest(Oil, "hot oil pressure higher by 30 % or more at twice the speed", oilRisesFar)
	OilFallsHot    = OfTest(Oil, "hot idle under 40 % of cold idle, and low", func(r *diag.MeasuredResult) bool {
		cold, hot := r.Reading("cold-idle"), r.Reading("idle")
		return cold != nil && hot != nil && hot.Value < oilFallsHot*cold.Value && oilIsLow(r)
	})
	OilStarves  = OfTest(Oil, "hot oil pressure at a speed under half of 10 psi for each 1000 rpm or at most half of its limit, or at idle at most half of it and short at speed too", oilStarves)
	OilLowAtAll = OfTest(Oil, "oil pressure low by its limit or by the rule of thumb", oilIsLow)
	OilShort    = Any(OilLowAtAll, OilNone)
	OilOverFull = OfTest(Oil, "the sump over full", func(r *diag.MeasuredResult) bool { return r.Word("oil level") == "over full" })
	// OilLevelLow is of one whose pressure does not tell it.
	OilLevelLow = OfTest(Oil, "the oil level low, and no oil pressure low", func(r *diag.MeasuredResult) bool { return r.Word("oil level") == "low" && !oilIsLow(r) })
	OilSmells   = OfTest(Oil, "the oil smells of fuel", func(r *diag.MeasuredResult) bool { return r.Word("oil smell") == "fuel" })
	// OilRaisedByCoolant is of oil of which it is known already what makes it stand higher.
	OilRaisedByCoolant = OfEngine("coolant was found in the oil, and no fuel", func(c *Case) bool { return c.OilMixed() && !OilSmells.HoldsIn(c) })
)

// OnOwnGauge reports readings on a gauge in place of the sender, or where
// nothing was said of the gauge.
func OnOwnGauge(r *diag.MeasuredResult) bool {
	return !slices.Contains([]string{"dash", "scan tool"}, r.Word("gauge"))
}

// OilJudged is a hot reading with a limit that it keeps, where all of those that
// have one do; nil otherwise.
func OilJudged(r *diag.MeasuredResult) *diag.MeasuredReading {
	var kept *diag.MeasuredReading
	for _, m := range runningOil(r) {
		switch {
		case m.Limited() && m.Verdict != diag.Within:
			return nil
		case m.Limited() && m.Name != "cold-idle":
			kept = m
		}
	}
	return kept
}

// OilWithin is oil pressure that keeps the limits it has, one of them hot.
var OilWithin = OfTest(Oil, "a hot oil pressure with a limit, and none that fails its own", func(r *diag.MeasuredResult) bool {
	return OilJudged(r) != nil && r.Word("oil level") != "over full" && OnOwnGauge(r)
})

// OilProved is oil pressure that clears the engine of a lamp that comes on: read at idle, and
// each hot reading within its limit or, without one, a quarter or more over the rule of thumb.
var OilProved = OfTest(Oil, "hot oil pressure read at idle, on a gauge not said to be what the vehicle shows, each hot reading within its limit or, without one, a quarter or more over 10 psi for each 1000 rpm or at 45 psi, the oil neither low nor over full", func(r *diag.MeasuredResult) bool {
	return r.Reading("idle") != nil && r.Word("oil level") != "over full" && r.Word("oil level") != "low" && OnOwnGauge(r) && !slices.ContainsFunc(hotOil(r), func(m *diag.MeasuredReading) bool {
		if m.Limited() {
			return m.Verdict != diag.Within
		}
		return thumbPSI(m) == 0 || psi(m) < min(oilNearTheLimit*thumbPSI(m), oilRelieved)
	})
})

// OilShownLow is a vehicle that shows too little oil pressure, whatever a gauge of one's own
// says: its lamp or gauge, among what was found or what else was read.
var OilShownLow = OfEngine("the lamp or the gauge of the dash shows too little oil pressure, by what is complained of, how it came on, the technician's findings or the other readings", func(c *Case) bool {
	return slices.Contains(c.Complaints(), OilLight) || c.dashUnderOwn()
})

// OilOverLamp is hot oil pressure of which each reading is more than what a lamp comes on at.
var OilOverLamp = OfTest(Oil, "hot oil pressure read at idle, and all of it over 8 psi", func(r *diag.MeasuredResult) bool {
	return r.Reading("idle") != nil && !slices.ContainsFunc(hotOil(r), func(m *diag.MeasuredReading) bool { return psi(m) <= oilHardlyShown })
})

// notOfOil are words of what else a dash shows the pressure of, beside that of its oil.
var notOfOil = []string{"fuel", "boost", "turbo", "air", "brake", "tire", "coolant", "water", "vacuum", "manifold", "transmission", "gearbox", "hydraulic"}

// dashUnderOwn reports a pressure read on the dash that is under half of the least that a
// gauge of one's own read hot: no two gauges of one oil differ by that.
func (c *Case) dashUnderOwn() bool {
	r, other := c.Measured(Oil), c.Measured(diag.OtherReadings)
	if r == nil || other == nil {
		return false
	}
	least := 0.0
	for _, m := range hotOil(r) {
		if v := psi(m); least == 0 || v < least {
			least = v
		}
	}
	for i := range other.Readings {
		m := &other.Readings[i]
		name := strings.ToLower(m.Name)
		if !SpeaksOf(name, notOfOil...) && SpeaksOf(name, "dash", "cluster", "scan tool") && quantity.DimensionOf(m.Unit) == quantity.Pressure && 2*psi(m) < least {
			return true
		}
	}
	return false
}

// OilOnScrewedIn is a gauge that was said to be screwed in.
var OilOnScrewedIn = OfTest(Oil, "read on a gauge that was screwed in", func(r *diag.MeasuredResult) bool { return r.Word("gauge") == "screwed in" })

// OilLevelRight is oil that was found to stand where it should.
var OilLevelRight = OfTest(Oil, "the oil level right", func(r *diag.MeasuredResult) bool { return r.Word("oil level") == "right" })

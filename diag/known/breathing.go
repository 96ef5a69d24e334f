package known

import (
	"maps"
	"math"
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// Figures for crankcase pressure: judgement, no source.
const (
	vacuumBelongs = 1.0  // inH2O over which a connected ventilation does not cope
	vacuumStrong  = -6.0 // inH2O under which it draws too hard
)

// CrankcaseWorst is the highest reading in the crankcase, in inH2O, with the
// reading; nil where none was taken.
func CrankcaseWorst(r *diag.MeasuredResult) (*diag.MeasuredReading, float64) {
	return extreme(r, func(a, b float64) bool { return a > b })
}

// CrankcaseLeast is the lowest.
func CrankcaseLeast(r *diag.MeasuredResult) (*diag.MeasuredReading, float64) {
	return extreme(r, func(a, b float64) bool { return a < b })
}

func extreme(r *diag.MeasuredResult, before func(a, b float64) bool) (worst *diag.MeasuredReading, inches float64) {
	if r == nil {
		return nil, 0
	}
	for i := range r.Readings {
		m := &r.Readings[i]
		if m.Name != "readings" {
			continue
		}
		v, _ := quantity.Convert(m.Value, m.Unit, quantity.InH2O)
		if worst == nil || before(v, inches) {
			worst, inches = m, v
		}
	}
	return worst, inches
}

// LiftRight is a cylinder of which both valves were measured to open as far as they
// should: within their limits, or as far as those of two others at least.
var LiftRight = OfAll("both of its valves open within their limits, or no more than 10 % less than the median of three or more", func(c *Case, n string) bool {
	r := c.Measured(Clearance)
	if r == nil || c.LiftLow(n) != nil {
		return false
	}
	right := func(valve string) bool {
		m := r.Of(valve, n)
		return m != nil && (m.Verdict == diag.Within || !m.Limited() && len(c.byCylinder(Clearance, valve)) >= 3)
	}
	return right("lift exhaust") && right("lift inlet")
})

// pastUpper is the reading of a test that is clearest over its upper limit.
func pastUpper(section string) func(*Case) bool {
	return func(c *Case) bool { over, _ := WorstOf(c.Measured(section), Over); return over != nil }
}

// Figures for how far a valve opens: judgement, no source.
const (
	liftApart = 0.10 // part under the median at which it opens too little
	liftOfTwo = 0.80 // part of the only other one, where there is no median: no lobe opens too far
)

// LiftLow is the valve of a cylinder that opens least of those that open less than
// their limit, or than the others by a tenth, or than the only other one by a fifth; nil
// for none.
func (c *Case) LiftLow(name string) *diag.MeasuredReading {
	r := c.Measured(Clearance)
	if r == nil {
		return nil
	}
	var worst *diag.MeasuredReading
	for _, valve := range []string{"lift exhaust", "lift inlet"} {
		m := r.Of(valve, name)
		if m == nil || !c.liftLow(m) {
			continue
		}
		if worst == nil || Excess(m)+c.apart(Clearance, m) > Excess(worst)+c.apart(Clearance, worst) {
			worst = m
		}
	}
	return worst
}

func (c *Case) liftLow(m *diag.MeasuredReading) bool {
	if m.Limited() {
		_, clear := Under(m) // by less than a dial is good for it is not short
		return clear
	}
	values := c.byCylinder(Clearance, m.Name)
	return len(values) >= 3 && m.Value < (1-liftApart)*medianOf(values) ||
		len(values) == 2 && m.Value < liftOfTwo*slices.Max(slices.Collect(maps.Values(values)))
}

// LiftFar reports a cylinder of which a valve opens less than it should by a tenth, and
// not only by what a worn lobe may still be allowed.
func (c *Case) LiftFar(name string) bool {
	m := c.LiftLow(name)
	return m != nil && (!m.Limited() || Excess(m) >= liftApart)
}

// Conditions on the crankcase and the exhaust.
var (
	CrankcaseHigh    = OfEngine("crankcase pressure or blow-by over its limit", pastUpper(Crankcase))
	CrankcasePresses = OfTest(Crankcase, "ventilation connected, no limit, and more than 1 inH2O above the air", func(r *diag.MeasuredResult) bool {
		m, inches := CrankcaseWorst(r)
		return m != nil && !m.Limited() && r.Word("ventilation") == "connected" && inches > vacuumBelongs+inWater(m)
	})
	VentInPlace = OfTest(Crankcase, "the ventilation neither off nor blocked", func(r *diag.MeasuredResult) bool {
		way := r.Word("ventilation")
		return way != "off" && way != "blocked"
	})
	CrankcaseUnknown = OfTest(Crankcase, "a reading in the crankcase, and not said whether its ventilation was connected", func(r *diag.MeasuredResult) bool {
		m, _ := CrankcaseWorst(r)
		return m != nil && r.Word("ventilation") == "" && !m.Limited()
	})
	// A crankcase that the mixture goes through is drawn empty at every stroke.
	CrankcaseSucks = All(Not(TwoStroke), OfTest(Crankcase, "more than 6 inH2O of vacuum in the crankcase", func(r *diag.MeasuredResult) bool {
		m, inches := CrankcaseLeast(r)
		return m != nil && inches+inWater(m) < vacuumStrong
	}))
	// CrankcaseQuiet is little gas past the rings: pressure that keeps its limit
	// with the ventilation blocked or off, or blow-by that does.
	CrankcaseQuiet = OfTest(Crankcase, "blow-by within its limit, or with the ventilation blocked or off pressure that keeps its limit", func(r *diag.MeasuredResult) bool {
		if flow := r.Reading("flow"); flow != nil && flow.Limited() {
			return flow.Verdict == diag.Within
		}
		m, _ := CrankcaseWorst(r)
		off := r.Word("ventilation") == "blocked" || r.Word("ventilation") == "off"
		return off && m != nil && m.Limited() && m.Verdict == diag.Within
	})
	// VentHolds is a way out that is too narrow for the little gas that there is: what the
	// rings let past keeps its limit, and the pressure that it makes does not.
	VentHolds = All(CrankcaseQuiet, VentInPlace, OfTest(Crankcase, "pressure in the crankcase clearly over its limit", func(r *diag.MeasuredResult) bool {
		_, clear := WorstOf(r, func(m *diag.MeasuredReading) (bool, bool) {
			if m.Name != "readings" {
				return false, false
			}
			return Over(m)
		})
		return clear
	}))
	// CrankcaseDraws is a connected ventilation that takes what there is: a little vacuum
	// at idle, and at no speed more than 1 inH2O above the air.
	CrankcaseDraws = OfTest(Crankcase, "ventilation connected, vacuum in the crankcase at idle, none of its readings over 1 inH2O or past a limit", func(r *diag.MeasuredResult) bool {
		idle := r.ReadingAt("readings", "idle")
		worst, inches := CrankcaseWorst(r)
		return idle != nil && idle.Value < 0 && r.Word("ventilation") == "connected" && worst != nil && inches <= vacuumBelongs && worst.Verdict != diag.Outside
	})
	BackPressureHigh = OfEngine("back-pressure over its limit", pastUpper(BackPressure))
	// BackPressureOverRules is more than the widest of the rules in circulation lets
	// pass: 3 psi at up to 2500 rpm, or 34 inH2O on a diesel, at whatever speed.
	BackPressureOverRules = OfEngine("back-pressure without a limit, and over 3 psi at up to 2500 rpm, or over 34 inH2O on a diesel", func(c *Case) bool { return c.BackPressureFar() != nil })
	BackPressureRight     = OfEngine("back-pressure with a limit, and within it; or without one, of no diesel, and at 2000 rpm or more not over 1.25 psi, the tightest of the rules in circulation", func(c *Case) bool {
		r := c.Measured(BackPressure)
		return r != nil && (keptAll(r) || !c.Spec.Diesel() && hardlyAny(r))
	})
)

// The widest of the rules in circulation on back-pressure: common practice, and
// TM 5-3805-260-24.
const (
	backWidest       = 3.0    // psi, up to backSpeed
	backSpeed        = 2500.0 // rpm
	backWidestDiesel = 34.0   // inH2O
)

// BackPressureFar is the back-pressure furthest over the widest of the rules in
// circulation, where the job gives no limit; nil for none. The rules contradict
// each other below that, so that nothing is said of less.
func (c *Case) BackPressureFar() *diag.MeasuredReading {
	r := c.Measured(BackPressure)
	if r == nil {
		return nil
	}
	most, unit := backWidest, quantity.PSI
	if c.Spec.Diesel() {
		most, unit = backWidestDiesel, quantity.InH2O
	}
	var far *diag.MeasuredReading
	for i := range r.Readings {
		m := &r.Readings[i]
		v, err := quantity.Convert(m.Value-m.Uncertainty, m.Unit, unit)
		if err != nil || m.Name != "pressure" || m.Limited() || v <= most || !c.Spec.Diesel() && !slowTurning(m.At) {
			continue
		}
		if far == nil || m.Value > far.Value {
			far = m
		}
	}
	return far
}

// The tightest of the rules in circulation on back-pressure, and the speed from which an
// exhaust that holds back shows it: common practice, no source.
const (
	backTightest = 1.25   // psi
	backShows    = 2000.0 // rpm
)

// hardlyAny reports back-pressure that was read without a limit, at such a speed too, and that
// none of the rules in circulation would call too much.
func hardlyAny(r *diag.MeasuredResult) bool {
	shown := false
	for i := range r.Readings {
		m := &r.Readings[i]
		if m.Name != "pressure" {
			continue
		}
		v, err := quantity.Convert(m.Value+m.Uncertainty, m.Unit, quantity.PSI)
		if err != nil || m.Limited() || v > backTightest {
			return false
		}
		q, err := quantity.Parse(m.At)
		if err != nil {
			continue
		}
		at, err := q.In(quantity.RPM)
		shown = shown || err == nil && at >= backShows
	}
	return shown
}

// slowTurning is a speed that the rules on back-pressure are for.
func slowTurning(at string) bool {
	if at == "idle" {
		return true
	}
	q, err := quantity.Parse(at)
	if err != nil {
		return false
	}
	v, err := q.In(quantity.RPM)
	return err == nil && v <= backSpeed
}

func inWater(m *diag.MeasuredReading) float64 {
	v, _ := quantity.Convert(m.Uncertainty, m.Unit, quantity.InH2O)
	return v
}

// keptAll reports a test with a limit of which every reading that has one keeps
// it.
func keptAll(r *diag.MeasuredResult) bool {
	some := false
	for i := range r.Readings {
		m := &r.Readings[i]
		if m.Limited() && m.Verdict != diag.Within {
			return false
		}
		some = some || m.Limited()
	}
	return some
}

// Figures for the starter's current: common practice, no source.
const (
	peakLow   = 20.0 // percent under the median of the others
	peakHigh  = 20.0 // over it
	peakAlike = 5.0  // off it to either side
)

// Peak is a cylinder's peak of the starter's current, in percent of the median of
// all; false where fewer than three were read.
func (c *Case) Peak(name string) (percent float64, ok bool) {
	if c.Measured(Starting) == nil {
		return 0, false
	}
	values := c.byCylinder(Starting, "peaks")
	v, read := values[name]
	if !read || len(values) < 3 {
		return 0, false
	}
	return 100 * v / medianOf(values), true
}

// peakStandsOut reports the one peak far over all others, which agree: beside some
// that are low, a sound one stands out as well.
func (c *Case) peakStandsOut(name string) bool {
	values := c.byCylinder(Starting, "peaks")
	own, read := values[name]
	delete(values, name)
	if !read || len(values) < 3 {
		return false
	}
	least, most := math.Inf(1), 0.0
	for _, v := range values {
		least, most = min(least, v), max(most, v)
	}
	return least >= most*(100-peakHigh)/100 && own > most*(100+peakHigh)/100
}

// byCylinder are the readings of one name by cylinder.
func (c *Case) byCylinder(section, name string) map[string]float64 {
	out := map[string]float64{}
	if r := c.Measured(section); r != nil {
		for _, m := range r.Readings {
			if m.Name == name && m.Cylinder != "" {
				out[m.Cylinder] = m.Value
			}
		}
	}
	return out
}

func medianOf(values map[string]float64) float64 {
	var list []float64
	for _, v := range values {
		list = append(list, v)
	}
	slices.Sort(list)
	return (list[(len(list)-1)/2] + list[len(list)/2]) / 2
}

// Conditions on starter and battery.
var (
	PeakAlike = OfAll("its peak of the starter's current within 5 % of the median (three read at least)", func(c *Case, n string) bool {
		p, ok := c.Peak(n)
		return ok && p >= 100-peakAlike && p <= 100+peakAlike
	})
	PeakLow = OfAll("its peak of the starter's current more than 20 % under the median (three read at least)", func(c *Case, n string) bool {
		p, ok := c.Peak(n)
		return ok && p < 100-peakLow
	})
	PeakHigh = OfAll("its peak of the starter's current more than 20 % over that of every other, the others (three at least) within 20 % of each other, and its compression not read, or high", func(c *Case, n string) bool {
		return c.peakStandsOut(n) && (slices.Contains([]diag.Grade{diag.GradeNotTested, diag.High, ""}, c.Grade(n)))
	})
	TurnsUnder   = OfTest(Starting, "the battery or the cranking speed under its limit while the starter turns", func(r *diag.MeasuredResult) bool { m, _ := TurnsUnderLimit(r); return m != nil })
	BatteryUnder = OfTest(Starting, "the battery under its limit while the starter turns", func(r *diag.MeasuredResult) bool { under, _ := Under(r.Reading("battery cranking")); return under })
	DrawsMuch    = OfTest(Starting, "the starter draws more than its limit", func(r *diag.MeasuredResult) bool { over, _ := Over(r.Reading("draw")); return over })
	DrawsLittle  = OfTest(Starting, "the starter draws less than its limit", func(r *diag.MeasuredResult) bool { under, _ := Under(r.Reading("draw")); return under })
)

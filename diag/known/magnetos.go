package known

import (
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// The sections of tests of aircraft engines and of a two-stroke's crankcase.
const (
	Magnetos      = "magnetos"
	Heads         = "heads"
	CrankcaseHold = "crankcase-hold"
)

// Figures for an engine with two magnetos, where the job gives no limit of its own.
// Handbooks permit at most 125, 150 or 175 rpm on either, the most of which is taken, and
// at most 50 between them: common practice, no source. The training text of the FAA has 25
// to 75 on each, even on both.
const (
	magnetoDrop  = 175.0 // rpm
	magnetoApart = 50.0  // rpm
	magnetoNone  = 10.0  // rpm under which a count of the speed tells no drop: judgement, no source
	// headCold is the part of the median, both as figures in degrees Fahrenheit, under
	// which a head is cold: judgement, no source.
	headCold    = 0.8
	headCooler  = 0.85 // where it lies apart from all others by more than twice what these do: judgement
	headAlike   = 0.9  // down to which a head is as warm as the others: judgement
	leastHeads  = 3    // that have a median
	crankcaseBy = 0.5  // psi that a pumped-up crankcase may fall in so many minutes: one tuner's limit, common practice, no source
	crankcaseIn = 10.0
)

// MagnetoSides are the two magnetos, as the job file has them.
var MagnetoSides = []string{"left", "right"}

// magnetoFar is the reading of a magneto check that is farthest past its limit, or past
// what handbooks permit where the job gives none, of a side before that of both; clear by a
// limit of the job's alone. A difference that comes of a side without a drop is no reading
// of its own.
func magnetoFar(r *diag.MeasuredResult) (worst *diag.MeasuredReading, clear bool) {
	onSide := func(m *diag.MeasuredReading) bool { return slices.Contains(MagnetoSides, m.Name) }
	apart := func(m *diag.MeasuredReading) bool {
		return m.Name == diag.MagnetoDifference && len(withoutDrop(r)) == 0
	}
	for _, counts := range []func(*diag.MeasuredReading) bool{onSide, apart} {
		if worst, clear = magnetoPast(r, counts); worst != nil {
			return worst, clear
		}
	}
	return nil, false
}

// magnetoPast is the worst of those readings of a magneto check that count.
func magnetoPast(r *diag.MeasuredResult, counts func(*diag.MeasuredReading) bool) (worst *diag.MeasuredReading, clear bool) {
	own, clear := WorstOf(r, func(m *diag.MeasuredReading) (bool, bool) {
		past, sure := Past(m)
		return past && counts(m), sure
	})
	if own != nil {
		return own, clear
	}
	for i := range r.Readings {
		m := &r.Readings[i]
		over := m.Value - m.Uncertainty - magnetoMost(m)
		if counts(m) && !m.Limited() && over > 0 && (worst == nil || m.Value/magnetoMost(m) > worst.Value/magnetoMost(worst)) {
			worst = m
		}
	}
	return worst, false
}

// magnetoMost is what handbooks permit of a reading at most, in rpm.
func magnetoMost(m *diag.MeasuredReading) float64 {
	if m.Name == diag.MagnetoDifference {
		return magnetoApart
	}
	return magnetoDrop
}

// withoutDrop are the magnetos on which alone the speed did not fall.
func withoutDrop(r *diag.MeasuredResult) []string {
	var sides []string
	for _, side := range MagnetoSides {
		if m := r.Reading(side); m != nil && m.Value < magnetoNone {
			sides = append(sides, side)
		}
	}
	return sides
}

// MagnetoPast is the reading of the magneto check that is past what it may be, the most
// that it may be by common practice, nil where the job gives a limit, and whether it is clear of
// its limit.
func (c *Case) MagnetoPast() (m *diag.MeasuredReading, most *float64, clear bool) {
	m, clear = magnetoFar(c.Measured(Magnetos))
	if m != nil && !m.Limited() {
		v := magnetoMost(m)
		most = &v
	}
	return m, most, clear
}

// MagnetosWithoutDrop are the magnetos on which alone the speed did not fall.
func (c *Case) MagnetosWithoutDrop() []string {
	r := c.Measured(Magnetos)
	if r == nil {
		return nil
	}
	return withoutDrop(r)
}

// WorseMagneto is the side on which the speed falls more, "" where both are alike or one
// was not read.
func (c *Case) WorseMagneto() string {
	r := c.Measured(Magnetos)
	left, right := r.Reading("left"), r.Reading("right")
	switch {
	case left == nil || right == nil || left.Value == right.Value:
		return ""
	case left.Value > right.Value:
		return "left"
	}
	return "right"
}

// TwoMagnetos reports an engine whose magnetos can be switched off one at a time: one that
// flies, has pistons and is lit by a spark, or of which they were checked.
func (c *Case) TwoMagnetos() bool {
	return !c.Spec.Diesel() && (c.MagnetosListed() || c.Flies() && !c.Rotary())
}

// MagnetosListed reports a job with a section of them, whether or not they were checked.
func (c *Case) MagnetosListed() bool { return c.Test.MeasuredTest(Magnetos) != nil }

// Head is the temperature of a cylinder's head and the median of all, in degrees
// Fahrenheit; false where fewer than three were read.
func (c *Case) Head(name string) (head, median float64, ok bool) {
	r := c.Measured(Heads)
	values := map[string]float64{}
	if r != nil {
		for i := range r.Readings {
			if m := &r.Readings[i]; m.Cylinder != "" {
				values[m.Cylinder] = fahrenheit(m)
			}
		}
	}
	v, read := values[name]
	if !read || len(values) < leastHeads {
		return 0, 0, false
	}
	return v, medianOf(values), true
}

// headApart reports a head colder than every other by more than twice what the others lie apart.
func (c *Case) headApart(name string) bool {
	own, _, ok := c.Head(name)
	var others []float64
	for _, n := range c.Every() {
		if v, _, read := c.Head(n); read && n != name {
			others = append(others, v)
		}
	}
	return ok && len(others) >= leastHeads && slices.Min(others)-own > 2*(slices.Max(others)-slices.Min(others))
}

func fahrenheit(m *diag.MeasuredReading) float64 {
	v, _ := quantity.Convert(m.Value, m.Unit, quantity.Fahrenheit)
	return v
}

// HeadIsCold reports a head under four fifths of the median of all, or not far above that and
// apart from all others. A part of a temperature hangs on where its scale begins. Figures in
// degrees Fahrenheit are taken, as the published temperatures of this check are, whatever unit
// they were typed in, so that the unit decides nothing;
// where the median is not above zero there nothing is compared.
func (c *Case) HeadIsCold(name string) bool {
	v, median, ok := c.Head(name)
	return ok && median > 0 && (v < headCold*median-tinyDegree || v < headCooler*median-tinyDegree && c.headApart(name))
}

// ColdOn is the magneto that the heads were read on, "" where nobody said.
func (c *Case) ColdOn() string { return c.Measured(Heads).Word("magneto") }

// CrankcaseFall is a pumped-up crankcase's fall that is more than it may be: past a limit
// of the job, or more than half a psi in ten minutes; nil for none.
func (c *Case) CrankcaseFall() (m *diag.MeasuredReading, clear bool) {
	r := c.Measured(CrankcaseHold)
	if r == nil {
		return nil, false
	}
	if own, clear := WorstOf(r, Over); own != nil {
		return own, clear
	}
	for i := range r.Readings {
		m := &r.Readings[i]
		minutes := minutesOf(m.At)
		if m.Name == diag.HeldFall && !m.Limited() && minutes > 0 && m.Value > inPSI(crankcaseBy, m.Unit)*max(1, minutes/crankcaseIn)+m.Uncertainty {
			return m, false
		}
	}
	return nil, false
}

// Conditions on magnetos, the heads they warm, and a crankcase that was pumped up.
var (
	MagnetosUneven = OfTest(Magnetos, "a drop on one magneto alone, or the difference of the two, over its limit; without one over 175 rpm, or over 50 rpm apart where the speed falls on both", func(r *diag.MeasuredResult) bool {
		m, _ := magnetoFar(r)
		return m != nil
	})
	MagnetoLive  = OfTest(Magnetos, "the speed does not fall on one magneto alone (by less than 10 rpm)", func(r *diag.MeasuredResult) bool { return len(withoutDrop(r)) > 0 })
	MagnetosEven = OfTest(Magnetos, "the speed falls on both magnetos, by no more than it may", func(r *diag.MeasuredResult) bool {
		m, _ := magnetoFar(r)
		return m == nil && len(withoutDrop(r)) == 0 && r.Reading("left") != nil && r.Reading("right") != nil
	})
	HeadCold = OfAll("its head is more than 20 % colder than the median of three or more, or more than 15 % and colder than every other by more than twice what the others lie apart, by the figures in degrees Fahrenheit", (*Case).HeadIsCold)
	// HeadColdOnWorse is one that was read on the magneto on which the speed falls more.
	HeadColdOnWorse = All(HeadCold, MagnetosUneven, OfEngine("read on the magneto on which the speed falls more", func(c *Case) bool {
		on := c.ColdOn()
		return on != "" && on == c.WorseMagneto()
	}))
	HeadsEven = OfEngine("every head read (three at least), none more than 10 % colder than the median", func(c *Case) bool {
		for _, n := range c.Every() {
			if v, median, ok := c.Head(n); !ok || v < headAlike*median-tinyDegree {
				return false
			}
		}
		return len(c.Every()) >= leastHeads
	})
	CrankcaseLets = All(TwoStroke, OfEngine("the pumped-up crankcase fell by more than its limit; without one by more than 0.5 psi in 10 minutes", func(c *Case) bool {
		m, _ := c.CrankcaseFall()
		return m != nil
	}))
	// CrankcasePlaced is a crankcase of which it was seen where it leaks: soap tells no more.
	CrankcasePlaced = All(TwoStroke, Any(FoundSo("a crankcase or crankshaft seal that leaks", CrankcaseLeaks), saidSo("a crankcase that does not hold a vacuum", fallsUnderVacuum), OfTest(CrankcaseHold, "seen where the pumped-up crankcase leaks", func(r *diag.MeasuredResult) bool {
		return SpeaksOf(strings.ToLower(r.Word("seen")), "bubble", "seal", "joint", "gasket", "reed")
	}), CrankcaseToGearbox))
	// ReedLeaks is one of which the reeds were seen to leak, and no seal or joint.
	ReedLeaks = OfTest(CrankcaseHold, "seen that the pumped-up crankcase leaks at its reeds, and at no seal or joint", func(r *diag.MeasuredResult) bool {
		seen := strings.ToLower(r.Word("seen"))
		return SpeaksOf(seen, "reed") && !SpeaksOf(seen, "seal", "joint", "gasket")
	})
	// CrankcaseToGearbox is one that leaks past the seal on the side of its gearbox: there soap
	// does not reach, and the engine burns the gearbox's oil.
	CrankcaseToGearbox = All(TwoStroke,
		Any(FoundSo("air of the crankcase in the gearbox, or a gearbox whose oil goes down", gearboxSide), OfTest(CrankcaseHold, "seen that its air goes into the gearbox", func(r *diag.MeasuredResult) bool {
			return SpeaksOf(plainWords(r.Word("seen")), gearboxSide...)
		})))
	// CrankcaseHolds is one that was not found to leak otherwise: pressure holds the lip of a seal
	// to its shaft, and vacuum lifts it.
	CrankcaseHolds = All(OfTest(CrankcaseHold, "the pumped-up crankcase was watched", func(r *diag.MeasuredResult) bool { return r.Reading(diag.HeldFall) != nil }), Not(CrankcaseLets), Not(CrankcasePlaced))
)

// CrankcaseEmptied is one that was watched under a vacuum, which inches of mercury say, or of which it
// was found what it does under one: that lifts the lip of a seal which pressure holds down.
var CrankcaseEmptied = Any(OfTest(CrankcaseHold, "watched under a vacuum, by its word or read in inHg", UnderVacuum), saidSo("a crankcase that holds a vacuum", holdsUnderVacuum), saidSo("a crankcase that does not hold a vacuum", fallsUnderVacuum))

// UnderVacuum reports a crankcase that was pumped empty and not up.
func UnderVacuum(r *diag.MeasuredResult) bool {
	m := r.Reading("pumped-to")
	return r.Word("under") == "vacuum" || m != nil && m.Unit == quantity.InHg && r.Word("under") == ""
}

// saidSo is a condition of what the work done or the findings say.
func saidSo(what string, words []string) Condition {
	return OfEngine(what+" among the work done or the findings", func(c *Case) bool {
		return len(c.History.WorkDone)+len(c.History.Findings) > 0 && slices.ContainsFunc(c.Works(), func(w Work) bool { return !w.putRight && SpeaksOf(w.Text, words...) })
	})
}

// holdsUnderVacuum are words of a crankcase that was pumped empty, and stays so.
var holdsUnderVacuum = pairs("vacuum", "holds|held|stands|stays|steady|tight|no fall|both ways")

// fallsUnderVacuum are words of a crankcase of a two-stroke that was pumped empty, and filled.
var fallsUnderVacuum = pairs("vacuum", "falls|fell|leaks|leaked|drops|dropped|bleeds|bled|does not hold|doesn't hold|would not hold|will not hold|won't hold|lost|gone")

// gearboxSide are words of what gets from the crankcase into the gearbox, or the other way.
var gearboxSide = append(pairs("gearbox|gear box|transmission|primary case|clutch cover|clutch case|clutch side", "air|hiss|blows|bubble|bubbles|pressure|petrol|gasoline|fuel"),
	pairs("gearbox oil|gear oil|transmission oil|gearbox", "goes down|going down|went down|down|disappears|vanishes|loses|lost|drops|falls|used up|burnt|burned|low")...)

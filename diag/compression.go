package diag

import (
	"math"

	"gaugesheet/diag/gauge"
)

// decompressing is the decompressor that works by itself on the starter.
const decompressing = "automatic"

// cranking is a compression test made ready for the sums.
type cranking struct {
	test    *Test
	names   []string
	tool    instrument
	samples set // the readings that statistics and relative limits go by
	// bounds are readings such as 'over 300', known only not to be less: they
	// can clear a minimum and nothing else.
	bounds []sample
}

// newCranking leaves out of the samples what is a lower bound, what was
// repeated without agreement, and what the gauge cannot have shown.
func newCranking(t *Test) *cranking {
	c := &cranking{test: t, names: t.cylinders()}
	section := t.Compression
	var readings []Reading
	for _, name := range c.names {
		readings = append(readings, section.Dry[name])
	}
	tells := t.crankingTells(section.Unit)
	c.tool = newInstrument(t.Gauges.Compression, readings, inReadings(gauge.DefaultCompression, section.Unit), tells)
	for i, name := range c.names {
		v, ok := readings[i].settled(tells)
		if !ok || t.Gauges.Compression.beyond(readings[i]) {
			continue
		}
		s := sample{name: name, value: v, u: c.tool.standard(readings[i])}
		if readings[i].Kind == AtLeast {
			c.bounds = append(c.bounds, s)
		} else {
			c.samples = append(c.samples, s)
		}
	}
	return c
}

func assessCompression(t *Test) *CompressionResult {
	section := t.Compression
	if section == nil {
		return nil
	}
	c := newCranking(t)
	r := &CompressionResult{
		Unit:     section.Unit,
		Decimals: decimals(t.Gauges.Compression, section.Unit),
		URepeat:  c.tool.repeat,
		Expected: expectedBand(t, section.Unit),
		Standard: section.Standard,
	}
	r.Cylinders = c.cylinders()
	r.State, r.Complete = c.state()
	c.statistics(r)
	c.grade(r)
	c.shares(r)
	c.wet(r)
	if r.State == Tested {
		c.limits(r)
	}
	c.compare(r)
	c.ends(r)
	return r
}

// cylinders gives each cylinder what was read of it, before any sum.
func (c *cranking) cylinders() []CylinderResult {
	section := c.test.Compression
	tells := c.test.crankingTells(section.Unit)
	settledOrNil := func(r Reading) *float64 {
		if v, ok := r.settled(tells); ok {
			return &v
		}
		return nil
	}
	list := make([]CylinderResult, len(c.names))
	for i, name := range c.names {
		dry := section.Dry[name]
		r := CylinderResult{Name: name, Grade: GradeNotTested, Entered: dry.Entered, Kind: dry.Kind}
		r.State, r.Reason = stateOr(dry.State, dry.Reason, section.State, section.Reason)
		if r.State == Tested && len(dry.Values) > 0 {
			r.Grade = GradeNotJudged
			r.DryReadings = dry.Values
			r.Disagree = disagree(dry.Values, tells)
			r.U = gauge.Expanded(c.tool.standard(dry))
			r.BeyondGauge = c.test.Gauges.Compression.beyond(dry)
		}
		r.First, r.Dry, r.Again, r.Wet = settledOrNil(section.First[name]), settledOrNil(dry), settledOrNil(section.Again[name]), settledOrNil(section.Wet[name])
		r.WetDisagree = disagree(section.Wet[name].Values, tells)
		if bounded(section.Wet[name]) { // how far it rose nobody knows
			r.Wet = nil
		}
		list[i] = r
	}
	return list
}

// state reports the section's state and whether every cylinder was read dry.
func (c *cranking) state() (State, bool) {
	section := c.test.Compression
	complete := len(c.names) > 0
	var states []State
	for _, name := range c.names {
		dry := section.Dry[name]
		states = append(states, dry.State)
		complete = complete && dry.State == Tested && len(dry.Values) > 0
		for _, other := range []Reading{section.First[name], section.Again[name], section.Wet[name]} {
			if other.State == Tested {
				states = append(states, Tested)
			}
		}
		if running, ok := section.Running[name]; ok && (running.Idle != nil || running.Snap != nil) {
			states = append(states, Tested)
		}
	}
	return sectionState(section.State, states), complete
}

// statistics fills the spread on every basis.
func (c *cranking) statistics(r *CompressionResult) {
	r.N = len(c.samples)
	for _, b := range c.bounds {
		r.HighestBound = max(r.HighestBound, b.value)
	}
	if r.N == 0 {
		return
	}
	h, l := c.samples.extremes()
	highest, lowest := c.samples[h], c.samples[l]
	r.Highest, r.HighestAt = highest.value, highest.name
	r.HighestU = c.tool.againstBook(highest.value, highest.u)
	r.Lowest, r.LowestAt = lowest.value, lowest.name
	r.Mean, _ = c.samples.sum(c.samples.meanWeights())
	r.Median = median(c.samples.values())
	r.Difference = r.Highest - r.Lowest
	r.SpreadPercentOfHighest = percentOf(r.Difference, r.Highest)
	r.SpreadPercentOfLowest = percentOf(r.Difference, r.Lowest)
	if r.Lowest == 0 && r.Difference > 0 {
		r.SpreadPercentOfLowest = math.Inf(1)
	}
	r.SpreadPercentOfMean = percentOf(r.Difference, r.Mean)
	r.LowestPercentOfHighest = percentOf(r.Lowest, r.Highest)
	r.LowestPercentBelowMean = percentOf(r.Mean-r.Lowest, r.Mean)
	r.LowestPercentBelowMedian = percentOf(r.Median-r.Lowest, r.Median)
}

// shares fills where each cylinder stands beside the highest and the median; not
// beside the highest read where a cylinder known to read more makes it low.
func (c *cranking) shares(r *CompressionResult) {
	for _, s := range c.samples {
		cylinder := r.Cylinder(s.name)
		if r.Highest > 0 && !cylinder.AtMost {
			cylinder.PercentOfHighest = ref(percentOf(s.value, r.Highest))
		}
		if r.Median > 0 {
			cylinder.PercentFromMedian = ref(percentOf(s.value-r.Median, r.Median))
		}
	}
}

// wet fills what oil in the cylinder changed. The control is the median rise of
// the cylinders tested wet that are judged and not low: it shows what the oil's
// own volume does. It is nil where none of them was tested wet.
func (c *cranking) wet(r *CompressionResult) {
	var control []float64
	for i := range r.Cylinders {
		cylinder := &r.Cylinders[i]
		wet := c.test.Compression.Wet[cylinder.Name]
		if cylinder.Wet == nil || cylinder.Dry == nil || wet.Kind == AtLeast || cylinder.Kind == AtLeast || bounded(wet) || bounded(c.test.Compression.Dry[cylinder.Name]) ||
			cylinder.BeyondGauge || c.test.Gauges.Compression.beyond(wet) {
			continue
		}
		cylinder.WetRise = ref(*cylinder.Wet - *cylinder.Dry)
		if *cylinder.Dry <= 0 {
			continue
		}
		cylinder.WetRisePercent = ref(100 * *cylinder.WetRise / *cylinder.Dry)
		if !cylinder.Grade.IsLow() && cylinder.Grade != GradeNotJudged {
			control = append(control, *cylinder.WetRisePercent)
		}
	}
	if len(control) > 0 {
		r.WetControl = ref(median(control))
	}
}

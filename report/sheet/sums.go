package sheet

import (
	"math"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
	"gaugesheet/layout"
	"gaugesheet/layout/figure"
	"gaugesheet/report/readings"
)

// firstSums is how many sums stay on a page that is too full for all of them:
// those over all readings.
const firstSums = 2

// everyWord is more words than any sum has.
const everyWord = 1000

// sumsBlock is the arithmetic with the numbers put in. It is reckoned from the
// readings as the page prints them, so that whoever does the sum again comes to
// the same last digit.
func (v *view) sumsBlock() layout.Block {
	items := v.againWords()
	kept := len(items) + firstSums
	if c := v.compression(); c != nil {
		if c.N > 1 {
			items = append(items, v.spreadSums(c)...)
		}
		items = append(items, v.otherSums(c)...)
	}
	for _, circuit := range circuits(v.fuel()) {
		if circuit.InjectorFlowPercent != nil {
			items = append(items, v.label("sum.flow", "circuit", circuit.Name, "percent", percentOf(*circuit.InjectorFlowPercent)))
		}
	}
	if len(items) == 0 {
		return nil
	}
	return figure.NewList("sums", figure.List{Title: v.label("heading.sums"), Items: items, Run: true,
		Short: figure.Short{Words: everyWord, Parts: kept}})
}

// spreadSums are those over all readings.
func (v *view) spreadSums(c *diag.CompressionResult) []string {
	high, low := readings.Printed(c.Highest, c.Decimals), readings.Printed(c.Lowest, c.Decimals)
	apart, digits := readings.Less(c.Highest, c.Lowest, c.Decimals)
	pairs := []any{
		"highest", readings.Print(c.Highest, c.Decimals), "highestAt", c.HighestAt,
		"lowest", readings.Print(c.Lowest, c.Decimals), "lowestAt", c.LowestAt,
		"apart", quantity.Format(apart, digits), "ofHighest", "", "ofLowest", "",
	}
	if high > 0 {
		pairs = append(pairs, "ofHighest", percentOf(100*apart/high).String())
	}
	if low > 0 { // of nothing there is no part
		pairs = append(pairs, "ofLowest", percentOf(100*apart/low).String())
	}
	if c.Ends != nil { // of what is known only not to be more there is no mean
		of := func(sum func(*diag.CompressionResult) float64, print func(float64) string) string {
			return readings.OfEnds(c, sum, print)
		}
		bare := func(x float64) string { return readings.Print(x, c.Decimals) }
		return []string{v.label("sum.spread", "highest", bare(c.Highest), "highestAt", c.HighestAt, "lowestAt", c.LowestAt, "ofLowest", "",
			"lowest", of(func(r *diag.CompressionResult) float64 { return r.Lowest }, bare),
			"apart", of(func(r *diag.CompressionResult) float64 { return r.Highest - r.Lowest }, func(x float64) string { return quantity.Format(x, c.Decimals) }),
			"ofHighest", of(func(r *diag.CompressionResult) float64 { return r.SpreadPercentOfHighest }, func(x float64) string { return quantity.Format(x, 1) })+"\u00a0%")}
	}
	items := []string{v.label("sum.spread", pairs...)}
	var sum float64
	most, n := 0, 0
	for _, r := range c.Cylinders {
		if r.Dry == nil || r.Kind == diag.AtLeast || r.BeyondGauge {
			continue
		}
		most = max(most, quantity.DecimalsRead(*r.Dry, c.Decimals))
		sum += readings.Printed(*r.Dry, c.Decimals)
		n++
	}
	if n != c.N || n < 3 || sum == 0 { // of nothing nothing is so much percent
		return items
	}
	mean := number(sum/float64(n), c.Decimals+1, quantity.None)
	return append(items, v.label("sum.mean", "count", n, "sum", quantity.Format(sum, most), "mean", mean.String(),
		"below", percentOf(100*(mean.Printed()-low)/mean.Printed()), "median", readings.Print(c.Median, c.Decimals)))
}

// otherSums are those on single readings and on the test.
func (v *view) otherSums(c *diag.CompressionResult) []string {
	var items []string
	if c.N > 1 && c.URepeat > 0 {
		one := number(c.URepeat, c.Decimals+1, quantity.None)
		items = append(items, v.label("sum.uncertainty", "repeat", one.String(),
			"difference", number(2*math.Sqrt2*one.Printed(), c.Decimals+1, quantity.None).String()))
	}
	if c.WetControl != nil {
		items = append(items, v.label("sum.control", "control", percentOf(*c.WetControl)))
	}
	if c.AltitudeFactor != nil && c.DensityFactor != nil {
		items = append(items, v.label("sum.altitude", "pressure", number(*c.AltitudeFactor, 4, quantity.None), "density", number(*c.DensityFactor, 4, quantity.None)))
	}
	if c.Expected != nil {
		items = append(items, v.label("sum.expected", "low", number(c.Expected.Low, c.Decimals, quantity.None),
			"high", number(c.Expected.High, c.Decimals, c.Unit), "basis", v.keep(v.words.Expected(c.Expected, v.test.Conditions))))
	}
	return items
}

// againWords are the readings taken once more that have no column.
func (v *view) againWords() []string {
	var items []string
	if c := v.compression(); c != nil && v.againInSums() {
		for _, r := range c.Cylinders {
			if r.Again != nil {
				items = append(items, v.label("sum.again", "cylinder", r.Name, "value", readings.Print(*r.Again, c.Decimals)))
			}
		}
	}
	return items
}

package sheet

import (
	"math"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
	"gaugesheet/layout"
	"gaugesheet/layout/figure"
)

// spreadBlock is the bar chart of the spread: of the compression, of a
// rotary's faces, or of the leakage where that is all there is.
func (v *view) spreadBlock() layout.Block {
	var d figure.Spread
	switch {
	case v.rotors() != nil:
		d = v.rotorSpread()
	case v.compression() != nil:
		d = v.compressionSpread()
	case v.leakage() != nil:
		d = v.leakageSpread()
	default:
		return nil
	}
	return figure.NewSpread(d)
}

// inDiagramOrder gives the cylinders bank by bank, front to rear, and the
// bank of each.
func (v *view) inDiagramOrder() (names []string, groups []int) {
	if !v.engine.IsTwoBank() {
		for _, name := range v.engine.Names() {
			names, groups = append(names, name), append(groups, 0)
		}
		return names, groups
	}
	for i, bank := range v.engine.Banks {
		for _, name := range bank.Cylinders {
			names, groups = append(names, name), append(groups, i)
		}
	}
	return names, groups
}

func (v *view) compressionSpread() figure.Spread {
	c := v.compression()
	d := figure.Spread{
		Title:       v.label("heading.spread"),
		Unit:        onPage(string(c.Unit)),
		WhiskerName: v.label("spread.whisker"),
		Lines:       v.compressionLines(c),
	}
	ghosts := v.ghosts(c)
	if len(ghosts.values) > 0 {
		d.GhostName = ghosts.name
	}
	names, groups := v.inDiagramOrder()
	for i, name := range names {
		r := c.Cylinder(name)
		if r == nil {
			continue
		}
		bar := figure.Bar{Label: name, Group: groups[i], Tone: gradeTone(r.Grade), Text: v.dryText(r)}
		switch {
		case r.Disagree:
			bar.Missing, bar.Text = v.label("spread.disagree", "readings", v.dryText(r)), ""
		case r.Dry == nil:
			bar.Missing = string(r.State)
		default:
			bar.Value, bar.Low, bar.High = *r.Dry, max(0, *r.Dry-r.U), *r.Dry+r.U
			bar.AtLeast = r.Kind == diag.AtLeast
			bar.Highest, bar.Lowest = c.N > 1 && name == c.HighestAt, c.N > 1 && name == c.LowestAt
		}
		if ghost, ok := ghosts.values[name]; ok {
			text := v.pressure(ghost)
			if bar.Missing != "" {
				bar.Missing = v.label("spread.missing", "why", bar.Missing, "name", ghosts.name, "value", text)
			} else {
				bar.Ghost, bar.HasGhost, bar.GhostText = ghost, true, text
			}
		}
		d.Bars = append(d.Bars, bar)
	}
	d.Sub = v.label("spread.sub", "unit", string(c.Unit))
	d.Captions = v.spreadCaptions(c)
	return d
}

// ghostSet is the second reading that stands behind the bars.
type ghostSet struct {
	name   string
	values map[string]float64
}

// ghosts are the readings after oil or, where there are none, those of the
// earlier test that these are compared with.
func (v *view) ghosts(c *diag.CompressionResult) ghostSet {
	wet, earlier := map[string]float64{}, map[string]float64{}
	for _, r := range c.Cylinders {
		if r.Wet != nil {
			wet[r.Name] = *r.Wet
		}
		if r.Change != nil && r.Dry != nil {
			earlier[r.Name] = *r.Dry - *r.Change
		}
	}
	if len(wet) > 0 {
		return ghostSet{v.label("spread.wet"), wet}
	}
	if len(earlier) > 0 {
		return ghostSet{v.label("spread.earlier", "when", c.ComparedWith), earlier}
	}
	return ghostSet{}
}

// compressionLines are the limits as heights in the chart.
func (v *view) compressionLines(c *diag.CompressionResult) []figure.RuleLine {
	var lines []figure.RuleLine
	for _, l := range c.Limits {
		for _, height := range limitHeights(c, l) {
			if math.IsInf(height, 0) || math.IsNaN(height) || height <= 0 {
				continue
			}
			value := number(height, c.Decimals, c.Unit)
			words := v.label("spread.line", "value", value, "rule", v.limitWords(l))
			if l.Rule == "minimum" {
				words = v.label("spread.minimum", "value", value)
			}
			lines = append(lines, figure.RuleLine{Value: height, Text: words})
		}
	}
	return lines
}

// limitHeights are the readings at which a limit is just kept.
func limitHeights(c *diag.CompressionResult, l diag.LimitResult) []float64 {
	part := l.Limit / 100
	switch l.Rule {
	case "minimum":
		return []float64{l.Limit}
	case "lowest of highest":
		return []float64{part * c.Highest}
	case "lowest of mean":
		return []float64{part * c.Mean}
	case "lowest of median":
		return []float64{part * c.Median}
	case "spread of highest":
		return []float64{(1 - part) * c.Highest}
	case "spread of lowest":
		return []float64{c.Highest / (1 + part)}
	case "spread of mean":
		return []float64{c.Highest - part*c.Mean}
	case "spread of median":
		return []float64{c.Highest - part*c.Median}
	case "difference":
		return []float64{c.Highest - l.Limit}
	case "below mean":
		if l.Unit != quantity.Percent {
			return []float64{c.Mean - l.Limit}
		}
		return []float64{(1 - part) * c.Mean}
	case "from mean":
		if l.Unit == quantity.Percent {
			return []float64{(1 - part) * c.Mean, (1 + part) * c.Mean}
		}
		return []float64{c.Mean - l.Limit, c.Mean + l.Limit}
	}
	return nil
}

// limitWords is a limit in words: "75 % of the highest".
func (v *view) limitWords(l diag.LimitResult) string {
	return v.label("limit."+l.Rule, "limit", v.limitNumber(l))
}

// limitNumber is a limit's figure, with decimals only where it has some; one
// that was corrected has no more than the readings.
func (v *view) limitNumber(l diag.LimitResult) diag.Number {
	switch {
	case l.Limit == math.Trunc(l.Limit):
		return number(l.Limit, 0, l.Unit)
	case l.Corrected:
		return number(l.Limit, v.decimalsOf(l.Unit), l.Unit)
	}
	return number(l.Limit, max(1, v.decimalsOf(l.Unit)), l.Unit)
}

func (v *view) decimalsOf(unit quantity.Unit) int {
	if unit == quantity.Percent || v.compression() == nil {
		return 1
	}
	return v.compression().Decimals
}

func (v *view) spreadCaptions(c *diag.CompressionResult) []string {
	if c.N < 2 {
		return []string{v.label("spread.lone")}
	}
	return []string{v.label("spread.summary",
		"highest", v.pressure(c.Highest), "highestAt", c.HighestAt,
		"lowest", v.pressure(c.Lowest), "lowestAt", c.LowestAt,
		"difference", number(c.Difference, quantity.DecimalsRead(c.Difference, c.Decimals), c.Unit),
		"spread", percentOf(c.SpreadPercentOfHighest), "part", percentOf(c.LowestPercentOfHighest))}
}

func (v *view) rotorSpread() figure.Spread {
	r := v.rotors()
	d := figure.Spread{Title: v.label("heading.spread"), Unit: onPage(string(r.Unit)), Sub: v.label("spread.sub-faces", "unit", string(r.Unit))}
	for i, rotor := range r.Rotors {
		if len(rotor.Values) == 0 {
			d.Bars = append(d.Bars, figure.Bar{Label: rotor.Name, Missing: string(rotor.State), Group: i, Tone: figure.Open})
			continue
		}
		for face, value := range rotor.Values {
			tone := figure.Plain
			for _, low := range rotor.LowFaces {
				if low == face {
					tone = figure.Hatch
				}
			}
			d.Bars = append(d.Bars, figure.Bar{
				Label: rotor.Name + "\u00a0" + faceName(face), Value: value, Low: value, High: value,
				Text: read(value, r.Decimals), Tone: tone, Group: i,
			})
		}
	}
	for _, l := range r.Limits {
		if l.Rule == "minimum" {
			d.Lines = append(d.Lines, figure.RuleLine{Value: l.Limit, Text: v.label("spread.minimum", "value", number(l.Limit, r.Decimals, r.Unit))})
			break
		}
	}
	return d
}

func (v *view) leakageSpread() figure.Spread {
	l := v.leakage()
	d := figure.Spread{Title: v.label("heading.leakage"), Unit: string(quantity.Percent), Sub: v.label("spread.sub-leakage"), WhiskerName: v.label("spread.whisker")}
	names, groups := v.inDiagramOrder()
	for i, name := range names {
		r := l.Cylinder(name)
		if r == nil {
			continue
		}
		_, tone := v.leakLook(r)
		bar := figure.Bar{Label: name, Group: groups[i], Tone: tone}
		if r.Loss == nil {
			bar.Missing, bar.Tone = string(r.State), figure.Open
		} else {
			bar.Value, bar.Text = *r.Loss, v.loss(r)
			bar.Low, bar.High = max(0, *r.Loss-r.Uncertainty), *r.Loss+r.Uncertainty
		}
		d.Bars = append(d.Bars, bar)
	}
	if l.Limit != nil {
		d.Lines = []figure.RuleLine{{Value: *l.Limit, Text: v.label("spread.line", "value", percent(*l.Limit), "rule", v.label("limit.leakage"))}}
	}
	return d
}

package rule

import (
	"strings"

	"gaugesheet/diag"
)

func oneHigh(c *Case) []diag.Finding {
	names := c.Graded(diag.High)
	if len(names) != 1 {
		return nil
	}
	name := names[0]
	low, high := c.spread(c.others(names))
	value := *c.Cylinder(name).Dry
	f := c.finding("one-high", names, diag.Facts{
		"value": c.pressure(value), "others": c.span(low, high), "above": percent(100*(value-high)/high, 0)})
	w := weigh("oil-in-bore", "carbon", "coolant-or-fuel-in-bore", "different-parts")
	w.addIf(c.looks(name, "oil-wet"), known, "oil-in-bore")
	w.addIf(c.looks(name, "coolant", "fuel-wet"), known, "coolant-or-fuel-in-bore")
	w.addIf(speaksOf(strings.ToLower(c.Borescope[name]), "carbon", "deposit"), seen, "carbon")
	if f.Facts["othersLow"] = c.othersMayBeLow(); c.othersMayBeLow() {
		w.add("others-low", betweenCommon)
		w.addIf(value-high > farAbove*high, hint, "others-low")
	}
	f.Causes = w.top()
	f.Next = c.next(names, "borescope", "second-gauge")
	if f.Causes[0].Key == "others-low" {
		f.Next = c.next(c.others(names), "leak-down", "second-gauge")
	}
	return []diag.Finding{f}
}

// A cylinder that is high by more than farAbove, as a part of the next, is
// hardly so by what takes up room in it (common practice, no source). Below
// that, betweenCommon puts others that are low third among the causes.
const (
	farAbove      = 0.25
	betweenCommon = 42
)

// othersMayBeLow reports that the set differs by more than is usual, and that
// no stated minimum clears those which agree.
func (c *Case) othersMayBeLow() bool {
	s := c.Sums.Compression
	if m := c.minimum(); m != nil && m.Verdict == diag.Within {
		return false
	}
	return s.SpreadPercentOfHighest > usualSpread
}

// usualSpread is the limit on the spread in percent of the highest that holds
// where the job states none: common practice.
const usualSpread = 10

func allHigh(c *Case) []diag.Finding {
	s := c.Sums.Compression
	if s.Expected == nil || s.Lowest <= s.Expected.High || c.Spec.VariableTiming == diag.Yes {
		return nil
	}
	f := c.finding("all-high", c.Read(), diag.Facts{"read": c.span(s.Lowest, s.Highest), "expected": c.span(s.Expected.Low, s.Expected.High)})
	f.Urgency, f.Confidence = diag.NoAction, diag.Weak
	f.Causes = phrases("carbon", "different-parts", "gauge-reads-high")
	f.Next = c.next(f.Cylinders, "second-gauge", "borescope")
	return []diag.Finding{f}
}

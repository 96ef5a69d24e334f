package rule

import "gaugesheet/diag"

// The shares of a first stroke that tell how a cylinder builds, beside the
// median of the same test, and the share from which it is the gauge.
const (
	buildsSlowly    = 0.80
	lowFirst        = 0.85
	notSlower       = 0.95
	nearlyFull      = 1.20
	gaugeFullAtOnce = 0.90
	fewestStrokes   = 3
)

// firstShares gives the medians of the first strokes and of their shares of
// the last, and how many cylinders had both.
func (c *Case) firstShares() (first, share float64, n int) {
	var firsts, shares []float64
	for i := range c.Sums.Compression.Cylinders {
		if r := &c.Sums.Compression.Cylinders[i]; r.First != nil && r.Dry != nil && *r.Dry > 0 {
			firsts = append(firsts, *r.First)
			shares = append(shares, *r.First / *r.Dry)
		}
	}
	return median(firsts), median(shares), len(firsts)
}

// strokePattern names the rule that a low cylinder's strokes follow, "" for
// none.
func (c *Case) strokePattern(name string) string {
	r := c.Cylinder(name)
	if r == nil || r.First == nil || r.Dry == nil || *r.Dry <= 0 || !r.Grade.IsLow() {
		return ""
	}
	first, share, n := c.firstShares()
	if n < fewestStrokes {
		return ""
	}
	own := *r.First / *r.Dry
	switch {
	case own < buildsSlowly*share:
		return "builds-slowly"
	case *r.First < lowFirst*first && own >= notSlower*share:
		return "does-not-build"
	case *r.First >= lowFirst*first && own > nearlyFull*share:
		return "first-stroke-high"
	}
	return ""
}

func strokeFinding(rule string) func(*Case) []diag.Finding {
	return func(c *Case) []diag.Finding {
		var list []diag.Finding
		for _, name := range c.LowSet() {
			if c.strokePattern(name) == rule {
				list = append(list, c.strokesSaid(rule, name))
			}
		}
		return list
	}
}

func (c *Case) strokesSaid(rule, name string) diag.Finding {
	r := c.Cylinder(name)
	_, share, _ := c.firstShares()
	f := c.finding(rule, []string{name}, diag.Facts{
		"first": c.pressure(*r.First), "last": c.pressure(*r.Dry),
		"share": percent(100**r.First / *r.Dry, 0), "usual": percent(100*share, 0)})
	f.Confidence = diag.Weak
	f.Doubts = phrases("indirect-sign")
	switch {
	case rule == "builds-slowly":
		f.Causes = phrases("rings", "scored-bore")
	case rule == "first-stroke-high":
		f.Causes = phrases("warped-or-cracked-head", "head-gasket", "gauge-valve-leaks")
	case c.Spec.TwoStroke:
		f.Causes = phrases("head-gasket", "piston")
	default:
		f.Causes = phrases("exhaust-valve", "inlet-valve", "head-gasket")
	}
	f.Next = c.nextForLow(f.Cylinders)
	return f
}

func firstStrokeHigh(c *Case) []diag.Finding {
	list := strokeFinding("first-stroke-high")(c)
	names := c.cylindersThat(func(r *diag.CylinderResult) bool {
		return r.First != nil && r.Dry != nil && *r.Dry > 0 && *r.First >= gaugeFullAtOnce**r.Dry
	})
	if _, _, n := c.firstShares(); n < 2 || len(names) != n || c.dead() {
		return list
	}
	f := c.finding("first-stroke-high", names, diag.Facts{})
	f.Variant, f.Urgency, f.Confidence = "gauge", diag.NoAction, diag.Weak
	f.Causes = phrases("gauge-valve-leaks")
	return []diag.Finding{f}
}

package known

import "gaugesheet/diag"

// The shares of a first stroke that tell how a cylinder builds, beside the
// others of the same test, and the share from which it is the gauge.
const (
	buildsSlowly    = 0.80
	lowFirst        = 0.85
	notSlower       = 0.95
	nearlyFull      = 1.20
	GaugeFullAtOnce = 0.90
	otherStrokes    = 2
)

// WithStrokes lists the cylinders of which first and last stroke were read, in
// the engine's order.
func (c *Case) WithStrokes() []string {
	return c.CylindersThat(func(r *diag.CylinderResult) bool { return r.First != nil && r.Dry != nil && *r.Dry > 0 })
}

// OtherShares gives the medians of the first strokes of all but one cylinder
// and of their shares of the last, and how many others there are.
func (c *Case) OtherShares(but string) (first, share float64, n int) {
	var firsts, shares []float64
	for _, name := range c.WithStrokes() {
		if r := c.Cylinder(name); name != but {
			firsts = append(firsts, *r.First)
			shares = append(shares, *r.First / *r.Dry)
		}
	}
	return Median(firsts), Median(shares), len(firsts)
}

// StrokePattern names the rule that a low cylinder's strokes follow, "" for
// none.
func (c *Case) StrokePattern(name string) string {
	r := c.Cylinder(name)
	if r == nil || r.First == nil || r.Dry == nil || *r.Dry <= 0 || !r.Grade.IsLow() {
		return ""
	}
	first, share, n := c.OtherShares(name)
	if n < otherStrokes {
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

package known

// The shares of a first stroke that tell how a cylinder builds, beside the
// Median of the same test, and the share from which it is the gauge.
const (
	buildsSlowly    = 0.80
	lowFirst        = 0.85
	notSlower       = 0.95
	nearlyFull      = 1.20
	GaugeFullAtOnce = 0.90
	fewestStrokes   = 3
)

// FirstShares gives the medians of the first strokes and of their shares of
// the last, and how many cylinders had both.
func (c *Case) FirstShares() (first, share float64, n int) {
	var firsts, shares []float64
	for i := range c.Cranking().Cylinders {
		if r := &c.Cranking().Cylinders[i]; r.First != nil && r.Dry != nil && *r.Dry > 0 {
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
	first, share, n := c.FirstShares()
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

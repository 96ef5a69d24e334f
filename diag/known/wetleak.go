package known

// Oil on the rings seals what leaks past them: what it leaves of the loss, as a part.
const (
	mostOfIt = 0.85 // from which it stopped none of it: common practice, no source
	// noWetLoss stands where a cylinder was not tested for leakage with oil.
	noWetLoss = 99
)

// LossWithOil is a cylinder's loss with oil as a part of its loss without,
// where that was more than is good.
func (c *Case) LossWithOil(n string) float64 {
	l := c.Leak(n)
	if l == nil || l.Wet == nil || *l.Loss <= GoodLoss {
		return noWetLoss
	}
	return *l.Wet / *l.Loss
}

// LeaksAsMuchOiled reports a cylinder that loses with oil on its rings what it loses without.
func (c *Case) LeaksAsMuchOiled(n string) bool {
	part := c.LossWithOil(n)
	return part >= mostOfIt && part < noWetLoss
}

package known

import "slices"

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

// OilStopsNothing reports a cylinder whose rings oil was put on and that held no more by it:
// the loss stayed, or the pressure, which a decompressor, too, leaves to be compared with
// itself.
func (c *Case) OilStopsNothing(n string) bool {
	r := c.Cylinder(n)
	flat := r != nil && r.Dry != nil && r.Wet != nil && *r.Dry > 0 && 100*(*r.Wet-*r.Dry) < NoRise**r.Dry
	return c.LeaksAsMuchOiled(n) || flat
}

// OilLeavesIt reports a cylinder that loses with oil on its rings what it loses without, or that
// is low and stayed so.
func (c *Case) OilLeavesIt(n string) bool {
	return c.LeaksAsMuchOiled(n) || c.WetEvidence(n) == WetFlat || c.AllLow() != nil && c.OilStopsNothing(n)
}

// MayPassTheGasket reports a cylinder whose air goes to the crankcase in an engine of which
// pushrods or a chain run beside the bore, where the gasket lets it in as well as the rings: it
// was heard under the valve cover, or oil on the rings stopped none of it.
func (c *Case) MayPassTheGasket(n string) bool {
	l := c.leakAt(n)
	if l == nil || !c.LeaksAt(n, AtCrankcase) || c.LostAt(n) != AtCrankcase || !c.PushrodChamber() && !c.ValveTrainBelow() {
		return false
	}
	return c.OilLeavesIt(n) && !c.WetIsIndirect() || l.Cover && c.WetEvidence(n) != WetRises && c.LossWithOil(n) > halfOfIt
}

// halfOfIt is the part of a loss that oil leaves where rings let it through: judgement, no source.
const halfOfIt = 0.5

// BoreSeenWhole reports a cylinder whose wall was seen good, and whose crown, if it was looked
// at, has no hole and no mark.
func (c *Case) BoreSeenWhole(n string) bool {
	return c.Seen(n, GoodWall...) && !c.Seen(n, slices.Concat(GonePiston, ScoredWords, MarkedCrown)...)
}

// WholeAbove is a cylinder whose wall and crown were looked at and show no damage: what is
// below the crown no camera sees.
var WholeAbove = OfAll("its wall was seen good and its crown was looked at, with no hole and no mark", func(c *Case, n string) bool {
	b := c.Bores[n]
	return c.BoreSeenWhole(n) && (b.Crown != "" || c.Seen(n, GoodCrown...))
})

package rule

import (
	"math"

	"gaugesheet/diag"
	"gaugesheet/diag/gauge"
)

// offPercent is how far a gauge may be out at its own check, in percent of the
// true pressure: common practice, no source.
const offPercent = 5

func gaugeReadsOff(c *Case) []diag.Notice {
	cranking := "compression"
	if c.Has(NeedsRotors) {
		cranking = "rotors"
	}
	var list []diag.Notice
	for _, used := range []struct {
		section string
		gauge   *diag.Gauge
		read    bool
		number  func(float64) diag.Number
	}{
		{cranking, c.Gauges.Compression, c.Has(NeedsCompression) || c.Has(NeedsRotors), c.crankingNumber},
		{"fuel-pressure", c.Gauges.Fuel, c.Has(NeedsFuel), c.fuelNumber},
	} {
		if used.read && used.gauge != nil && readsOff(used.gauge) {
			reads, at := used.gauge.ReadsAt[0], used.gauge.ReadsAt[1]
			list = append(list, notice("gauge-reads-off", "", nil, diag.Facts{
				"section": used.section, "reads": used.number(reads), "at": used.number(at), "off": percent(100*math.Abs(reads-at)/at, 0)})...)
		}
	}
	return list
}

func readsOff(g *diag.Gauge) bool {
	reads, at := g.ReadsAt[0], g.ReadsAt[1]
	allowed := offPercent * at / 100
	if g.Accuracy != nil {
		allowed = max(allowed, gauge.Gauge{Accuracy: *g.Accuracy, Low: g.Low, High: g.High}.HalfWidth(at))
	}
	return at > 0 && math.Abs(reads-at) > allowed*(1+1e-9)
}

// crankingNumber is a cranking pressure, of a piston engine or of a rotary.
func (c *Case) crankingNumber(v float64) diag.Number {
	if c.Has(NeedsRotors) {
		return c.facePressure(v)
	}
	return c.pressure(v)
}

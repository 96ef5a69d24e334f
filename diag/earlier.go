package diag

import (
	"slices"
	"time"

	"gaugesheet/diag/gauge"
)

// Earlier is an earlier test of the same engine.
type Earlier struct {
	Label string // its date or job number
	Date  time.Time
	Test  *Test
}

// Reasons why an earlier test is not compared, as NotComparable has them.
const (
	differentGauge       = "gauge"
	differentTemperature = "temperature"
	differentThrottle    = "throttle"
	differentUnit        = "unit"
)

// compare sets each cylinder beside the latest earlier test that was done with
// the same gauge, at the same temperature and with the same throttle.
func (c *cranking) compare(r *CompressionResult) {
	for _, earlier := range slices.Backward(c.test.Earlier) {
		if earlier.Test == nil || earlier.Test.Compression == nil {
			continue
		}
		then := newCranking(earlier.Test)
		if len(then.samples) == 0 {
			continue
		}
		reason := c.different(then)
		if reason == "" {
			r.ComparedWith, r.NotComparable = earlier.Label, ""
			c.changes(r, then)
			return
		}
		if r.NotComparable == "" {
			r.NotComparable = reason
		}
	}
}

// different gives the reason why two tests do not compare. What neither test
// recorded does not part them; what only one recorded does.
func (c *cranking) different(then *cranking) string {
	a, b := c.test, then.test
	_, convertible := inUnit(1, b.Compression.Unit, a.Compression.Unit)
	switch {
	case !convertible:
		return differentUnit
	case gaugeName(a) != gaugeName(b):
		return differentGauge
	case a.Conditions.Engine != b.Conditions.Engine:
		return differentTemperature
	case !a.Spec.Diesel() && knownThrottle(a) != knownThrottle(b):
		return differentThrottle
	}
	return ""
}

func gaugeName(t *Test) string {
	if t.Gauges.Compression == nil {
		return ""
	}
	return t.Gauges.Compression.Name
}

// knownThrottle takes 'not sure' for not recorded.
func knownThrottle(t *Test) string {
	if t.Conditions.Throttle == "not sure" {
		return ""
	}
	return t.Conditions.Throttle
}

// changes fills the change of each cylinder that was read in both tests.
func (c *cranking) changes(r *CompressionResult, then *cranking) {
	for _, change := range c.since(then) {
		cylinder := r.Cylinder(change.Name)
		cylinder.Change, cylinder.ChangeU = ref(change.Now-change.Then), change.U
	}
}

// A Change is one cylinder's compression in two tests, with the expanded
// uncertainty of their difference, all in the later test's unit.
type Change struct {
	Name         string
	Then, Now, U float64
}

// ChangesSince gives the change of each cylinder of which compression was read
// in both tests, or the key of the reason why they do not compare.
func ChangesSince(now, then *Test) (changes []Change, reason string) {
	if now == nil || then == nil || now.Compression == nil || then.Compression == nil {
		return nil, ""
	}
	a, b := newCranking(now), newCranking(then)
	if len(a.samples) == 0 || len(b.samples) == 0 {
		return nil, ""
	}
	if reason := a.different(b); reason != "" {
		return nil, reason
	}
	return a.since(b), ""
}

// since gives the change of each cylinder that was read in both tests. Both
// gauges count unless both tests name the same one.
func (c *cranking) since(then *cranking) []Change {
	sameGauge := gaugeName(c.test) != ""
	perUnit, _ := inUnit(1, then.test.Compression.Unit, c.test.Compression.Unit)
	var list []Change
	for _, now := range c.samples {
		i := then.samples.index(now.name)
		if i < 0 {
			continue
		}
		was := then.samples[i]
		list = append(list, Change{Name: now.name, Now: now.value, Then: was.value * perUnit,
			U: gauge.ExpandedAgainstEarlier(now.u, was.u*perUnit, c.tool.scale.Standard(now.value), then.tool.scale.Standard(was.value)*perUnit, sameGauge)})
	}
	return list
}

package rule

import (
	"maps"
	"math"
	"slices"

	"gaugesheet/diag"
)

// repeats are the checks that repeat a test properly, by the notice (and its
// variant) that asks for them; a rule's own Repeat comes first.
var repeats = map[string]string{
	"not-standard-method/throttle-closed": "repeat-method",
	"not-standard-method/plugs-in":        "repeat-method",
	"not-standard-method/decompressor":    "leak-down",
	"repeats-disagree/":                   "repeat-method",
	"all-low-check-the-test/":             "repeat-method",
}

// repeatOf is the check that repeats what a notice makes doubtful, "" for none.
func repeatOf(n diag.Notice) string {
	if r := byName(n.Rule); r != nil && r.Repeat != "" {
		return r.repeatFor(n)
	}
	return repeats[n.Rule+"/"+n.Variant]
}

// repeatsTest reports a check that repeats the test rather than looks into the
// engine.
func repeatsTest(check string) bool {
	return slices.Contains([]string{"repeat-with-charger", "repeat-method", "repeat-wet", "second-gauge", "second-fuel-gauge", "leak-down-again", "warm-retest"}, check)
}

// chooseNext sets d.Next and d.NextFor: the test is repeated where it is in
// doubt; else the most urgent finding's own next check is taken, and where
// that was made already the cheapest one that separates its leading causes.
func chooseNext(c *Case, d *diag.Diagnosis) {
	top := topFinding(d)
	if c.unitLeads(d) {
		d.Next, d.NextFor = c.next(nil, "second-gauge"), top
		return
	}
	if top >= 0 && d.Findings[top].Urgency == diag.DoNotRun {
		d.Next, d.NextFor = c.nextFor(&d.Findings[top]), top
		return
	}
	if check := c.repeatFirst(d, top); check != nil {
		d.Next, d.NextFor = check, top
		return
	}
	for i := range d.Findings {
		f := &d.Findings[i]
		if f.Urgency == diag.NoAction {
			break
		}
		if check := c.nextFor(f); check != nil {
			d.Next, d.NextFor = check, i
			return
		}
	}
	switch {
	case c.complaint() != "":
		d.Next = c.next(nil, c.checksFor(c.complaint())...)
	case c.noticed("falls-in-test-order"):
		d.Next = c.next(nil, "repeat-with-charger")
	case c.noticed("wet-dose-too-large") && c.minimum() == nil:
		d.Next = c.next(nil, "repeat-wet")
	case c.noticed("too-few-cylinders"):
		d.Next = c.next(nil, "complete-set")
	case c.notJudged() != "":
		d.Next = c.next(nil, "leak-down")
	case firstSound(d) != nil:
	case c.onlyWet():
		d.Next = c.next(nil, "compression-test")
	case len(c.boundsOpen()) > 0:
		d.Next = c.next(c.boundsOpen(), "repeat-method")
	}
}

// asksToTest reports a next check that tests again or tests the rest, where no
// finding asks for it.
func asksToTest(check *diag.Check) bool {
	return check != nil && (repeatsTest(check.Key) || check.Key == "complete-set")
}

// closeLimit is the first limit that a set is nearer to than the gauge can
// tell, nil for none. The usual 10 % is no maker's: an even set is tested again
// for that one only where it lies within the standard uncertainty of it.
func (c *Case) closeLimit() *diag.LimitResult {
	s := c.Sums.Compression
	for i := range s.Limits {
		l := &s.Limits[i]
		if l.Verdict == diag.TooClose && (!s.DefaultLimit || math.Abs(l.Limit-l.Value) < l.Uncertainty/2) {
			return l
		}
	}
	return nil
}

// checksFor are the checks that a complaint asks for when nothing that was
// read explains it, the cheapest first.
func (c *Case) checksFor(complaint string) []string {
	switch complaint {
	case rich:
		return []string{"hose-for-fuel", "held-pressure", "fuel-pressure-test", "fuel-trims"}
	case lean, "low power":
		return []string{"fuel-pressure-test", "smoke-test", "fuel-trims", "compression-test"}
	case "hard start":
		return []string{"held-pressure", "fuel-pressure-test", "compression-test"}
	case "coolant loss", "overheating":
		return []string{"coolant-gas-test", "cooling-pressure-test"}
	}
	return []string{"compression-test", "swap-coil", "fuel-pressure-test", "leak-down"}
}

// topFinding is the index of the first finding that asks for something, -1 for
// none; findings are in the order of urgency.
func topFinding(d *diag.Diagnosis) int {
	if len(d.Findings) > 0 && d.Findings[0].Urgency != diag.NoAction {
		return 0
	}
	return -1
}

// repeatFirst gives the check that repeats the test properly, nil where no notice
// asks for it or where the most urgent finding rests on other readings.
func (c *Case) repeatFirst(d *diag.Diagnosis, top int) *diag.Check {
	if c.Conditions.Throttle == "not sure" && !c.Spec.Diesel() && c.concerns(d, top, NeedsCompression) && top >= 0 {
		return c.next(nil, "repeat-method")
	}
	for _, n := range d.Notices {
		key := repeatOf(n)
		// With the method recorded and in order, all that is left to doubt is
		// the gauge, and the finding's own check asks for that.
		inOrder := n.Rule == "all-low-check-the-test" && !c.noticed("method-incomplete") && !c.noticed("not-standard-method")
		if key == "" || inOrder || !c.concerns(d, top, doubtsOf(n)...) {
			continue
		}
		if top >= 0 && d.Findings[top].Next != nil && d.Findings[top].Next.Key == key {
			return d.Findings[top].Next
		}
		if check := c.next(n.Cylinders, key); check != nil {
			return check
		}
	}
	return nil
}

// doubtsOf are the readings that a notice makes doubtful.
func doubtsOf(n diag.Notice) []Need {
	r := byName(n.Rule)
	if r == nil {
		return nil
	}
	return append(slices.Clone(r.Needs), r.doubted(n)...)
}

// concerns reports that the most urgent finding rests on one of these
// readings, or that there is none while nothing was found sound either.
func (c *Case) concerns(d *diag.Diagnosis, top int, readings ...Need) bool {
	if top < 0 {
		return !slices.ContainsFunc(d.Findings, func(f diag.Finding) bool {
			r := byName(f.Rule)
			return r != nil && r.Class == Sound
		})
	}
	r := byName(d.Findings[top].Rule)
	return r != nil && slices.ContainsFunc(r.Needs, func(n Need) bool { return slices.Contains(readings, n) })
}

// nextFor is a finding's own next check; where it has none left, the cheapest
// that speaks for one of its two leading causes and not for the other.
func (c *Case) nextFor(f *diag.Finding) *diag.Check {
	if f.Next != nil || len(f.Causes) < 2 {
		return f.Next
	}
	first, second := f.Causes[0].Key, f.Causes[1].Key
	var best string
	for _, key := range slices.Sorted(maps.Keys(checkKinds)) {
		k := checkKinds[key]
		splits := slices.Contains(k.separates, first) != slices.Contains(k.separates, second)
		if splits && !c.doneOn(key, f.Cylinders) && (best == "" || k.minutes < checkKinds[best].minutes) {
			best = key
		}
	}
	if best == "" {
		return nil
	}
	return c.next(f.Cylinders, best)
}

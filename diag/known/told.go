package known

import "slices"

// What a job tells in words of how a trouble came to be.
var (
	// leadNames are what is put back in an order, with new plugs or leads or without.
	leadNames = []string{"plug leads", "plug lead", "leads", "ht leads", "plug wires", "plug wire", "spark plug wires", "spark plug leads", "ignition wires", "distributor cap", "ignition cables", "ignition leads",
		"plugs and wires", "wires and plugs", "plugs and cables"}
	// fuelTaken are words of how it began that say that it was filled up before.
	fuelTaken = []string{"filling up", "filled up", "fill up", "refuel", "fueling", "fuelling", "tanked", "new tank of", "fresh tank", "full tank", "filled the tank", "gas station", "petrol station", "filling station", "jerrycan", "jerry can"}
	// broughtHigher is work that leaves a cylinder less room to compress into.
	broughtHigher = []string{"skimmed", "skim", "milled", "planed", "decked", "surfaced", "resurfaced", "refaced", "thinner gasket", "thin gasket", "high compression pistons", "higher compression pistons", "other pistons", "domed pistons", "another head", "other head"}
	// lostInside is what breaks off or falls where it can get into a cylinder.
	lostInside = slices.Concat(pairs("porcelain|insulator|ceramic|plug tip|electrode", "broke|broken|missing|not found|not all|fell|lost|gone|came off"),
		pairs("screw|nut|bolt|washer|clip|circlip|stud|bit|tool|pin", "fell in|fell into|dropped in|dropped into|fell down|dropped down|went in|went into|gone into|lost in|missing from"),
		pairs("valve head|head of the valve|exhaust valve|inlet valve|intake valve|valve", "broke off|broken off|came off|snapped|dropped into|fell in|fell into"), []string{"dropped valve", "valve dropped", "dropped a valve"})
	// gotOut are words that say that it was found since.
	gotOut = []string{"removed", "taken out", "fished out", "got out", "retrieved", "recovered", "pulled out", "blown out"}
)

// LeadsTouched is an engine lit by sparks whose leads, or the cap that they come from, were
// off by the work done, or by what is told of how it began.
var LeadsTouched = OfEngine("plug leads or the distributor cap among the work done, or it began as they were off", func(c *Case) bool {
	if c.Spec.Diesel() || len(c.Every()) <= 2 {
		return false
	}
	return len(c.History.WorkDone) > 0 && c.WorkDone(leadNames...) || c.OnsetSays(leadNames...)
})

// CameAfterFilling is a trouble that began as the engine was filled up.
var CameAfterFilling = OfEngine("it began as the engine was filled up", func(c *Case) bool {
	return c.OnsetSays(fuelTaken...)
})

// coldOnly are words of how it shows that say that it is gone once the engine is warm.
var coldOnly = []string{"cold start", "first start", "when cold", "until warm", "until it is warm", "until it warms", "as it warms", "first minutes", "some minutes after"}

// RoughCold is an aircraft engine that runs rough for a while as it starts cold, and then does
// not.
var RoughCold = OfEngine("an aircraft engine that misfires as it starts cold, and not once it is warm", func(c *Case) bool {
	return c.HasValves() && (c.Flies() || c.TestedAsAircraft()) && c.Complains("misfire") && c.OnsetSays(coldOnly...)
})

// BroughtHigher reports work that raises the compression: a head that was skimmed, a
// thinner gasket, other pistons.
func (c *Case) BroughtHigher() bool {
	return c.WorkDone(broughtHigher...) || c.Before != nil && SpeaksOf(plainWords(c.Before.Done), broughtHigher...)
}

// LostInside lists the cylinders into which something may have fallen, by the work done or
// what was found: those that it names, or where it names none those that are low; and
// whether anything of it is told at all.
func (c *Case) LostInside() (cylinders []string, told bool) {
	if len(c.History.WorkDone)+len(c.History.Findings) == 0 {
		return nil, false
	}
	for _, w := range c.Works() {
		if w.putRight || !w.lost.by(func() bool { return SpeaksOf(w.Text, lostInside...) && !SpeaksOf(w.Text, gotOut...) }) {
			continue
		}
		told = true
		for _, n := range w.Cylinders {
			if !slices.Contains(cylinders, n) {
				cylinders = append(cylinders, n)
			}
		}
	}
	if told && len(cylinders) == 0 {
		cylinders = c.LowSet()
	}
	return cylinders, told
}

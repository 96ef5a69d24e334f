package rule

import (
	"slices"
	"strings"

	"gaugesheet/diag"
)

func noneAnywhere(c *Case) []diag.Finding {
	s := c.Sums.Compression
	if !c.dead() || s.N < 2 {
		return nil
	}
	names := c.Read()
	f := c.finding("none-anywhere", names, diag.Facts{"highest": c.pressure(s.Highest)})
	f.Urgency = diag.DoNotRun
	if c.flooded() {
		f.Variant, f.Urgency = "flooded", diag.CheckAgain
		f.Causes = phrases("washed-bore", "timing-drive", "throttle-or-choke")
		f.Next = c.next(names, "dry-and-repeat", "turn-engine-check-cam")
		return []diag.Finding{f}
	}
	if c.unitSuspect() {
		f.Variant, f.Urgency = "unit", diag.CheckAgain
		f.Next = c.next(names, "second-gauge")
		return []diag.Finding{f}
	}
	w := weigh("timing-drive", "throttle-or-choke", "gauge-reads-low")
	if c.Spec.TwoStroke {
		w = weigh("throttle-or-choke", "gauge-reads-low", "washed-bore")
	}
	w.addIf(c.Spec.Decompressor == "", hint, "decompressor")
	f.Causes = w.top()
	f.Next = c.next(names, "turn-engine-check-cam", "second-gauge")
	if c.Spec.TwoStroke {
		f.Next = c.next(names, "second-gauge")
	}
	return []diag.Finding{f}
}

// unitSuspect reports that the compression of the whole engine may stand in
// another unit than is written.
func (c *Case) unitSuspect() bool {
	return slices.ContainsFunc(unitSuspect(c), func(n diag.Notice) bool { return c.wholeSection(n) == "compression" })
}

// flooded reports plugs soaked with fuel, most of those looked at, or a method
// that speaks of flooding.
func (c *Case) flooded() bool {
	if speaksOf(strings.ToLower(c.Conditions.Method), "flood") {
		return true
	}
	soaked, looked := 0, 0
	for _, name := range c.Engine.Names() {
		if p := c.PlugOf(name); p != nil && p.Look != "" {
			looked++
			if p.Look == "fuel-wet" {
				soaked++
			}
		}
	}
	return looked > 0 && 2*soaked > looked
}

func neighboursWithoutPressure(c *Case) []diag.Finding {
	var list []diag.Finding
	for _, run := range c.groupLow().deadRuns {
		f := c.lowFinding("neighbours-without-pressure", run, c.weighNeighbours(run))
		if c.repeated(run) {
			f.Next = c.next(run, "leak-down-pair", "borescope")
		} else {
			f.Next = c.next(run, "repeat-method", "leak-down-pair")
		}
		list = append(list, f)
	}
	return list
}

// repeated reports that each of these cylinders was read more than once.
func (c *Case) repeated(names []string) bool {
	return !slices.ContainsFunc(names, func(n string) bool { return len(c.Compression.Dry[n].Values) < 2 })
}

func severalWithoutPressure(c *Case) []diag.Finding {
	dead := c.groupLow().deadSingles
	if len(dead) < 2 {
		return nil
	}
	w := weigh("timing-drive", "bent-valve", "fault-in-each")
	next := []string{"turn-engine-check-cam", "borescope"}
	if c.Spec.TwoStroke {
		w, next = weigh("holed-piston", "rings", "fault-in-each"), []string{"borescope"}
	}
	w.addIf(c.stood() && !c.Spec.TwoStroke, known, "stuck-valve")
	f := c.lowFinding("several-without-pressure", dead, w)
	f.Next = c.next(dead, next...)
	return []diag.Finding{f}
}

func oneWithoutPressure(c *Case) []diag.Finding {
	if c.dead() && len(c.Engine.Cylinders) == 1 {
		return c.singleWithoutPressure()
	}
	dead := c.groupLow().deadSingles
	if len(dead) != 1 {
		return nil
	}
	w, next := c.weighDead(dead[0])
	f := c.lowFinding("one-without-pressure", dead, w)
	f.Next = c.next(dead, next...)
	return []diag.Finding{f}
}

func (c *Case) singleWithoutPressure() []diag.Finding {
	names := c.Read()
	w, next := c.weighDead(names[0])
	f := c.finding("one-without-pressure", names, diag.Facts{"read": c.pressure(c.Sums.Compression.Highest).String()})
	f.Variant, f.Urgency = "single", diag.DoNotRun
	f.Causes = w.top()
	f.Next = c.next(names, next...)
	return []diag.Finding{f}
}

// weighDead starts from what leaves one cylinder without any pressure, and
// names the checks that tell, the cheapest first.
func (c *Case) weighDead(name string) (*causes, []string) {
	var w *causes
	var next []string
	switch {
	case c.Spec.TwoStroke:
		w, next = weigh("holed-piston", "rings", "head-gasket", "adapter-leak"), []string{"borescope", "leak-down"}
	case c.Spec.Diesel():
		w, next = weigh("valve-lash", "stuck-valve", "valve-motion", "holed-piston"), []string{"valve-lash", "watch-valve-gear", "borescope"}
	default:
		w, next = weigh("stuck-valve", "valve-motion", "holed-piston", "bent-valve", "head-gasket", "adapter-leak"), []string{"watch-valve-gear", "borescope", "leak-down"}
	}
	c.evidence(w, name)
	if slices.Contains([]string{"holed-piston", "scored-bore"}, w.top()[0].Key) {
		next = append([]string{"borescope"}, next...)
	}
	return w, next
}

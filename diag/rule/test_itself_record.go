package rule

import (
	"maps"
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// recordRules are on what was written down, and what was left out.
var recordRules = []Rule{
	{
		Name: "method-incomplete", Title: "Not recorded how the test was made", Class: TestItself, About: diag.AboutTest,
		Why: "A cranking reading depends on how it was taken: a shut throttle, a cold engine or two strokes fewer move it by more than many faults do, " +
			"and nobody can tell afterwards. What was not written down cannot be held against the engine, so such findings stay weak. It makes no worn engine read even and high, " +
			"so that readings clear of a minimum are less sure only by a gauge that may read high.",
		Source: "US Army TM 5-4210-230-14&P-1, Addendum No. 2, which asks for warm engine, open throttle and a note of the strokes",
		Asks: "compression or a rotary engine's faces were read, and the gauge, the engine's temperature, the throttle or the strokes " +
			"(a rotary: the cranking speed) were not recorded; or the gauge's accuracy is one of its span and its range was not, or a limit holds at sea level " +
			"and neither altitude nor barometer was; a diesel is not asked for its throttle",
		Notices: methodIncomplete, Kind: OfTest,
		Doubt: "method-incomplete", Doubts: onGauges, RepeatOf: throttleUnknown, Between: notByTheGauge, OfSound: mayFlatter,
	},
	{
		Name: "too-few-cylinders", Title: "Cylinders were left out", Class: TestItself, About: diag.AboutTest,
		Why: "Cylinders are judged beside each other. One that was not read may be the best, and then those called even are low, or the worst. Nothing can be said of the engine's sealing " +
			"as a whole until it has been read.",
		Source: "common practice, no source", Variants: []string{"rotors"},
		Asks:    "compression (or rotors, or leakage alone) was tested on an engine of several and some were not read",
		Notices: tooFewCylinders, RepeatOf: readTheRest, Alone: always,
		HeadlineOf: func(_ *known.Case, n diag.Notice) string {
			if n.Variant == "rotors" {
				return "too-few-rotors"
			}
			return "too-few-cylinders"
		},
	},
	{
		Name: "read-once", Title: "One figure, read once, on which much hangs", Class: TestItself, About: diag.AboutTest, Variants: []string{"rotors", "further", "wet", "leakage", "gap"},
		Why: "A figure is misread, or a digit miswritten, more easily than a cylinder goes bad, and 168 for 158 looks like any other reading. Where one figure that was read once sets a cylinder apart, " +
			"and nothing else that was found on that cylinder goes with it, a careful hand looks at it again before anything is taken apart.",
		Source: "common practice, no source",
		Asks: "a cylinder is low, to be watched past a limit that the job states, high, or beside others that are low more than 10 % from every other reading (5 % where it is three times as far as these are from each other); it has one reading and was not tested again, and neither its leakage, its first stroke, its reading " +
			"with oil, its plug (by a look that no cylinder has which reads otherwise), a code, what was seen in it, its part in running the engine nor an earlier test goes with that, nor does its whole bank read as low; not asked of low ones that are more than half; or one face of a rotor stands far under the other two, and it was not tested again; or one fuel or oil pressure alone is past its limit or goes against what the others of its test say " +
			"(12 % between pressures of one regulator, a held pressure that rises again by half or falls faster than it began, oil pressure lower at speed than at idle or 8 times as high), the injector of one cylinder is 12 % from the others, " +
			"which lie within 6 %, or 5 % after cleaning where these lie within 3 % and it was not so before, the speed falls by more than 300 rpm on one magneto alone, " +
			"the gap of one plug alone is 1.6 times the book's or less than 0.45 of it and it does not look hit, " +
			"the clearance of one valve is 1.6 times that of the others of its kind or so small a part of it and neither its pressure nor its air goes with that, " +
			"a cylinder alone loses 15 points more air than any other and has their pressure, or a reading with oil is 10 % under the one without or 1.6 times the highest without",
		Notices: readOnce,
	},
	{
		Name: "read-not-told", Title: "Read by somebody who kept the figure", Class: TestItself, About: diag.AboutTest,
		Why: "A reading that somebody took and did not hand on is no reading that was left out: it exists, and whoever has it can be asked. Until then nothing is said of that cylinder, " +
			"nor of the engine as a whole.",
		Source:  "common practice, no source",
		Asks:    "the job says of a cylinder, or of a test, that it was read and not told",
		Notices: readNotTold,
	},
	{
		Name: "lower-bound", Title: "Known only to read more", Class: TestItself, About: diag.AboutTest,
		Why: "A needle at its stop says that there is more, and not how much more. Such a reading can clear a minimum that it is above. It cannot be compared with the other cylinders " +
			"except as at least that much, and one under the minimum decides nothing.",
		Source:  "common practice, no source",
		Asks:    "a reading is written as a lower bound, such as 'over 300' or '300+'",
		Notices: lowerBound, RepeatOf: boundsRepeat, Alone: always,
		HeadlineOf: func(c *known.Case, _ diag.Notice) string {
			if c.Cranking().N > 0 {
				return "lower-bound-some"
			}
			return "lower-bound"
		},
	},
	{
		Name: "only-after-oil", Title: "Only readings after oil", Class: TestItself, About: diag.AboutTest,
		Why:     "Oil fills room and seals what leaks past rings, so that readings after it are high and alike. Without the readings before it there is nothing to set them against.",
		Source:  "US Army TM 5-4210-230-14&P-1, Addendum No. 2 (dry first, then with oil)",
		Asks:    "compression was read with oil in the cylinders and on none without",
		Notices: onlyAfterOil, Repeat: "compression-test", Alone: always, Headline: "wet-only",
	},
	{
		Name: "engine-facts-missing", Title: "A fact of the engine would change the answer", Class: TestItself, About: diag.AboutTest,
		Why: "Readings mean different things on different engines: lash cannot be set on hydraulic lifters, one camshaft cannot be late on one bank alone, an air-cooled engine has no coolant to lose. " +
			"Where such a fact is not written down and would change what comes next, the sheet asks for it.",
		Source: "common practice, no source",
		Asks: "a cylinder, a bank or the engine is low, and a fact that would change what comes first is not recorded: the fuel, hydraulic lifters, the camshafts, what drives them, a decompressor " +
			"on a small engine, the cooling of one that is built both ways, the displacement where oil would tell",
		Notices: engineFactsMissing,
	},
	{
		Name: "vin-check-digit", Title: "The check digit of the VIN does not match", Class: TestItself, About: diag.AboutTest,
		Why:    "One character of the number was misread or mistyped. The readings are not touched by it, but the sheet may name the wrong vehicle.",
		Source: "49 CFR 565.15(c)", Variants: []string{"character"},
		Asks:    "the VIN has 17 characters, begins with 1 to 5, and its ninth character is not the check digit",
		Notices: noted("vin-check-digit"),
	},
}

func methodIncomplete(c *known.Case) []diag.Notice {
	var list []diag.Notice
	section, missing := "compression", diag.Names(nil)
	switch {
	case c.Has(known.NeedsRotors):
		section, missing = "rotors", c.NotRecorded(c.CrankingSpeed() > 0, "cranking speed", c.Sums.Rotors.Limits)
	case c.DryRead():
		missing = c.NotRecorded(c.Conditions.Strokes > 0, "strokes", c.Cranking().Limits)
	}
	if len(missing) > 0 {
		list = notice("method-incomplete", "", nil, diag.Facts{"missing": missing, "section": section, "harmless": false})
		_, any := mayFlatter(c, list[0])
		list[0].Facts["harmless"] = !any && c.Sound() // then nothing is less sure for it
	}
	if c.Has(known.NeedsFuel) && known.LacksRange(c.Gauges.Fuel) {
		list = append(list, notice("method-incomplete", "", nil, diag.Facts{"missing": diag.Names{known.FuelRangeMissing}, "section": "fuel-pressure", "harmless": false})...)
	}
	return list
}

// notByTheGauge leaves out what moves the readings of all cylinders alike, which
// were taken with one gauge in one place.
func notByTheGauge(n diag.Notice) (diag.Notice, bool) {
	missing, _ := n.Facts["missing"].(diag.Names)
	return lacking(n, slices.DeleteFunc(slices.Clone(missing), func(what string) bool {
		return what == "gauge" || what == known.RangeMissing || what == known.AirMissing
	}))
}

// mayFlatter leaves what can make readings look better than they are: a gauge nobody
// named, where the lowest is not clear of its minimum by more than gauges are off. A cold
// engine, a shut throttle, too few strokes, thin air make them lower, and none makes
// uneven cylinders even.
func mayFlatter(c *known.Case, n diag.Notice) (diag.Notice, bool) {
	if n.Facts["section"] != "compression" || c.ClearOfMinimum() {
		return n, n.Facts["section"] != "compression"
	}
	missing, _ := n.Facts["missing"].(diag.Names)
	return lacking(n, slices.DeleteFunc(slices.Clone(missing), func(what string) bool { return what != "gauge" && what != known.RangeMissing }))
}

// lacking is a notice of what was not recorded with less of it, and whether any is left.
func lacking(n diag.Notice, left diag.Names) (diag.Notice, bool) {
	n.Facts = maps.Clone(n.Facts)
	n.Facts["missing"] = left
	return n, len(left) > 0
}

// throttleUnknown repeats a test of which nobody is sure that the throttle was
// open.
func throttleUnknown(c *known.Case, n diag.Notice) string {
	if c.Conditions.Throttle != "not sure" || c.Spec.Diesel() || n.Facts["section"] == "fuel-pressure" {
		return ""
	}
	return "repeat-method"
}

func onlyAfterOil(c *known.Case) []diag.Notice {
	if !c.OnlyWet() || c.Spec.Diesel() {
		return nil
	}
	return notice("only-after-oil", "", nil, nil)
}

// boundsRepeat reads again what is known only to be more, where that leaves
// open whether a cylinder is low.
func boundsRepeat(c *known.Case, _ diag.Notice) string {
	if len(c.BoundsOpen()) == 0 {
		return ""
	}
	if c.WorkDone("repeat method", "test repeated", "compression repeated") {
		return "second-gauge" // one whose scale reaches further
	}
	return "repeat-method"
}

func lowerBound(c *known.Case) []diag.Notice {
	names := c.BoundsOnly()
	if len(names) == 0 {
		return nil
	}
	least := c.Cylinder(names[0]).DryReadings[0]
	for _, name := range names {
		least = min(least, slices.Min(c.Cylinder(name).DryReadings))
	}
	return notice("lower-bound", "", names, diag.Facts{"least": c.Pressure(least)})
}

// unread lists the cylinders of an engine of several that a test left out, and
// the variant of the words; none where no test was begun.
func unread(c *known.Case) (names []string, variant string) {
	var read func(name string) bool
	switch {
	case !c.Several():
		return nil, ""
	case c.DryRead():
		read = func(name string) bool { return len(c.Compression.Dry[name].Values) > 0 }
	case c.Has(known.NeedsRotors):
		variant = "rotors"
		read = func(name string) bool {
			return slices.ContainsFunc(c.Sums.Rotors.Rotors, func(r diag.RotorResult) bool { return r.Name == name && len(r.Values) > 0 })
		}
	// Beside a whole compression test the leakage of the low ones is enough.
	case c.Has(known.NeedsLeakage):
		read = func(name string) bool { return c.LeakNoted(name) || c.LossLeftOpen(name) }
	default:
		return nil, ""
	}
	return c.Those(func(name string) bool { return !read(name) }), variant
}

func tooFewCylinders(c *known.Case) []diag.Notice {
	names, variant := unread(c)
	if len(names) == 0 {
		return nil
	}
	of := len(c.Every())
	return notice("too-few-cylinders", variant, names, diag.Facts{"read": of - len(names), "of": of, "coded": among(c.MisfireOf(), names)})
}

// readTheRest asks for what was left out, not for what was refused.
func readTheRest(c *known.Case, _ diag.Notice) string {
	if c.RestRefused() {
		return ""
	}
	return "complete-set"
}

// among are those of some names that are among others too.
func among(names, others []string) diag.Names {
	var both diag.Names
	for _, n := range names {
		if slices.Contains(others, n) {
			both = append(both, n)
		}
	}
	return both
}

// readOnce leaves out what a notice doubts already.
func readOnce(c *known.Case) []diag.Notice {
	if faces := c.FacesOnce(); len(faces) > 0 {
		return notice("read-once", "rotors", faces, nil)
	}
	further := loneFigures(c)
	if !c.Has(known.NeedsCompression) {
		return further
	}
	names := slices.DeleteFunc(c.ReadOnce(), func(name string) bool {
		return slices.ContainsFunc(c.Sums.Notices, func(n diag.Notice) bool { return slices.Contains(n.Cylinders, name) })
	})
	if len(names) == 0 {
		return further
	}
	return append(notice("read-once", "", names, nil), further...)
}

// loneFigures leaves nothing out: no other rule doubts a figure of these tests.
func loneFigures(c *known.Case) []diag.Notice {
	var out []diag.Notice
	for _, f := range c.LoneFigures() {
		variant := "further"
		switch f.Section {
		case "compression":
			variant = "wet"
		case "leakage":
			variant = "leakage"
		case "plugs":
			variant = "gap"
		}
		var cylinders []string
		if f.Cylinder != "" {
			cylinders = []string{f.Cylinder}
		}
		fuel, reading := f.Section == "fuel-pressure", f.Reading
		if !fuel {
			reading = f.Section + " " + reading
		}
		out = append(out, notice("read-once", variant, cylinders, diag.Facts{"section": f.Section, "reading": reading, "fuel": fuel})...)
	}
	return out
}

func readNotTold(c *known.Case) []diag.Notice {
	names := c.NotTold()
	tests := diag.Names(nil)
	for _, u := range c.Sums.NotTested {
		if u.State == diag.NotTold && len(u.Cylinders) == 0 && u.Reading == "" {
			tests = append(tests, u.Test)
		}
	}
	if len(names) == 0 && len(tests) == 0 {
		return nil
	}
	return notice("read-not-told", "", names, diag.Facts{"tests": tests, "rotors": c.Rotary()})
}

func engineFactsMissing(c *known.Case) []diag.Notice {
	missing := c.EngineFactsMissing()
	if len(missing) == 0 {
		return nil
	}
	return notice("engine-facts-missing", "", nil, diag.Facts{"missing": missing})
}

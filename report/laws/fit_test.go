package laws_test

import (
	"regexp"
	"slices"
	"strings"
)

// Which checks fit which engine: by names of the catalogue.
var (
	valveChecks    = set("valve-lash watch-valve-gear cam-timing-marks turn-engine-check-cam smoke-on-overrun running-compression")
	coolantChecks  = set("coolant-gas-test cooling-pressure-test")
	secondCylinder = set("swap-coil leak-down-pair bank-trims complete-set")
	vacuumChecks   = set("hose-for-fuel repeat-hose-test vacuum-at-hose")
	sparkChecks    = set("swap-coil spark-test set-gap renew-plugs plug-type timing-and-cooling purge-pinch")
	computerChecks = set("fuel-trims bank-trims injector-balance")
	runningChecks  = set("warm-retest run-and-retest smoke-on-overrun running-compression exhaust-restriction swap-coil fuel-trims bank-trims purge-pinch coolant-gas-test repeat-hose-test vacuum-at-hose oil-consumption cap-and-cool")
	valveCauses    = set("exhaust-valve inlet-valve valve-lash valve-motion stuck-valve bent-valve carbon-on-seat cam-timing timing-drive")
)

var (
	sparkWord   = regexp.MustCompile(`(?i)\b(spark|coil|all plugs out|plugs as a set|throttle held open)\b`)
	petrolWord  = regexp.MustCompile(`(?i)\b(pcv|oxygen sensor|octane|plug wires?|ignition timing|purge valve|spark plugs stayed|plugs stay out|plug out at a time)\b`)
	runsWord    = regexp.MustCompile(`(?i)engine running|run the engine|run it|working temperature|engine warm|at idle|when slowing`)
	valveWord   = regexp.MustCompile(`(?i)\b(valves?|lash|camshaft)\b`)
	otherValves = regexp.MustCompile(`(?i)(purge|pcv|relief|tank-vapou?r|check|gauge's|pump's|reed|adapter's|schrader|hose's|its) (\([^)]*\) )?valve`)
	coolantWord = regexp.MustCompile(`(?i)\bcoolant|cooling system|radiator\b`)
	otherWord   = regexp.MustCompile(`(?i)\banother cylinder|the other cylinders?|all cylinders|every cylinder|one good cylinder|the others\b`)
)

var checkLaws = []law{
	{name: "O3 two-strokes and rotaries have no valves", least: 60, says: "no check, outcome or cause speaks of valves on a two-stroke (a diesel apart, which has them in its head) or rotary engine",
		check: func(s *subject, k *tally) {
			if (!s.twoStroke() || s.diesel()) && !s.rotary() {
				return
			}
			k.saw()
			unfit(s, k, valveChecks, "an engine without valves")
			for _, a := range s.out.asked() {
				if c := finds(a.text, valveWord); c != "" && !otherValves.MatchString(c) {
					k.fail("%s says %q", a.at, c)
				}
			}
			for _, f := range s.out.Findings {
				for _, c := range f.CauseNames {
					if valveCauses[c] {
						k.fail("%s has the cause %s", f.Rule, c)
					}
				}
			}
		}},
	{name: "O3 no coolant on an air-cooled engine", least: 80, says: "no check or outcome speaks of coolant where the engine is cooled by air",
		check: func(s *subject, k *tally) {
			if !readerKnows("engine: {layout: single, cooling: air}\ncompression: {unit: psi, dry: [150]}\n") {
				k.notThere("engine.cooling")
			}
			if s.tree.text("engine", "cooling") != "air" {
				return
			}
			k.saw()
			unfit(s, k, coolantChecks, "an air-cooled engine")
			for _, a := range s.out.asked() {
				if c := finds(a.text, coolantWord); c != "" {
					k.fail("%s says %q", a.at, c)
				}
			}
			for _, f := range s.out.Findings {
				for _, text := range f.Causes {
					if strings.Contains(text, "coolant") {
						k.fail("%s has the cause %q", f.Rule, text)
					}
				}
			}
		}},
	{name: "O3 no lash on hydraulic lifters", least: 80, says: "valve lash is not asked for, nor a cause, where lifters are hydraulic",
		check: func(s *subject, k *tally) {
			if !readerKnows("engine: {layout: single, lifters: hydraulic}\ncompression: {unit: psi, dry: [150]}\n") {
				k.notThere("engine.lifters")
			}
			if s.tree.text("engine", "lifters") != "hydraulic" {
				return
			}
			k.saw()
			unfit(s, k, set("valve-lash"), "hydraulic lifters")
			for _, f := range s.out.Findings {
				if slices.Contains(f.CauseNames, "valve-lash") {
					k.fail("%s has the cause valve-lash", f.Rule)
				}
			}
		}},
	{name: "O3 one cylinder has no second", least: 50, says: "no check on a single needs another cylinder",
		check: func(s *subject, k *tally) {
			if len(s.names()) != 1 || s.rotary() {
				return
			}
			k.saw()
			unfit(s, k, secondCylinder, "a single cylinder")
			for _, p := range s.out.proposals() {
				if m := otherWord.FindString(p.Do); m != "" {
					k.fail("%s (%s) says %q to a single", p.at, p.Name, m)
				}
			}
		}},
	{name: "O3 the regulator's hose", least: 60, says: "the regulator's hose is asked for only where there is one",
		check: func(s *subject, k *tally) {
			if sys := s.system(); !s.diesel() && (sys == "" || sys == "port, return line" || sys == "throttle body") {
				return
			}
			k.saw()
			unfit(s, k, vacuumChecks, "the system "+s.system()+", fuel "+s.fuel())
		}},
	{name: "O3 spark and computer", least: 200, says: "no spark is asked of a diesel, none of its words speaks of what only a petrol engine has, and no computer of a carburettor",
		check: func(s *subject, k *tally) {
			if s.diesel() {
				k.saw()
				unfit(s, k, sparkChecks, "a diesel")
				for _, a := range s.out.asked() {
					if c := finds(a.text, sparkWord); c != "" {
						k.fail("%s says %q to a diesel", a.at, c)
					}
				}
				for _, a := range slices.Concat(s.out.said(), s.out.asked()) {
					if c := finds(a.text, petrolWord); c != "" {
						k.fail("%s says %q to a diesel: %s", a.at, c, a.text)
					}
				}
			}
			if s.tree.text("fuel-pressure", "pump") == "mechanical" {
				k.saw()
				unfit(s, k, set("pump-volts"), "a mechanical pump")
			}
			if s.system() == "carburettor" {
				k.saw()
				unfit(s, k, computerChecks, "a carburettor")
			}
		}},
	{name: "O3 an engine that does not start", least: 60, says: "no running or warm engine is asked for where the engine does not start",
		check: func(s *subject, k *tally) {
			if !s.complains("no start") && s.tree.text("engine", "runs") != "does not run" || s.tree.has("before") { // it may have been before the work
				return
			}
			k.saw()
			unfit(s, k, runningChecks, "an engine that does not start")
			for _, p := range s.out.proposals() {
				if c := finds(p.Do, runsWord); c != "" {
					k.fail("%s (%s) says %q to an engine that does not start", p.at, p.Name, c)
				}
			}
		}},
	{name: "O3 one camshaft, separate barrels", least: 20, says: "a bank on one camshaft with the other is not low for its valve timing, and separate barrels share no gasket",
		check: func(s *subject, k *tally) {
			if !readerKnows("engine: {layout: single, camshafts: one}\ncompression: {unit: psi, dry: [150]}\n") {
				k.notThere("engine.camshafts")
			}
			if s.tree.text("engine", "camshafts") == "one" {
				k.saw()
				for _, f := range s.out.Findings {
					if strings.HasPrefix(f.Rule, "bank-low") && overlap(f.CauseNames[:min(1, len(f.CauseNames))], []string{"cam-timing", "timing-drive", "cam-phaser"}) {
						k.fail("%s of %v has the causes %v, with one camshaft", f.Rule, f.Cylinders, f.CauseNames)
					}
				}
			}
			if s.tree.text("engine", "heads") == "separate" {
				k.saw()
				unfit(s, k, set("leak-down-pair"), "separate barrels")
				for _, f := range s.out.Findings {
					if len(f.Cylinders) > 1 && slices.Contains(f.CauseNames, "head-gasket") && !s.heardAtHead() {
						k.fail("%s of %v has the cause head-gasket, with separate barrels", f.Rule, f.Cylinders)
					}
				}
			}
		}},
	{name: "O3 not made already", least: 600, says: "no check is proposed that the readings of the job hold already", check: notMade},
	{name: "O3 outcomes", least: 400, says: "the outcomes of a next check are two at least, each with a name and its own beginning, and with minutes and cylinders", check: outcomesDiffer},
	{name: "O3 plan", least: 100, says: "the plan begins with the next check and has its outcomes", check: planFits},
	{name: "O3 costs what it is worth", least: 60, says: "at 'no action' nothing of more than half an hour, and nothing that needs a part, is asked for",
		check: func(s *subject, k *tally) {
			cheap := func(c *nextCheck) {
				k.saw()
				if c != nil && (c.Minutes > 40 || c.Name == "renew-regulator" || c.Name == "renew-plugs") {
					k.fail("%s, %v minutes, at 'no action'", c.Name, c.Minutes)
				}
			}
			if s.out.Verdict.Urgency == noAction {
				cheap(s.out.Verdict.NextCheck)
			}
			for _, one := range s.out.Stories { // whatever else the sheet asks for
				if one.Urgency == noAction {
					cheap(one.NextCheck)
				}
			}
		}},
}

// heardAtHead tells that air was heard at a head's joint, or gas or coolant found
// where it passes one: then some cylinder's own gasket leaks.
func (s *subject) heardAtHead() bool {
	if s.tree.text("coolant-gas-test") == "positive" || slices.Contains(s.complaints(), "coolant loss") || s.tree.text("smoke", "colour") == "white" { // gas in the coolant is some head's
		return true
	}
	for _, f := range s.out.Findings {
		if strings.Contains(f.Rule, "coolant") || strings.Contains(f.Rule, "gasket") {
			return true
		}
	}
	for _, c := range s.out.Leakage.Cylinders {
		if overlap(c.At, []string{"coolant", "neighbour"}) {
			return true
		}
	}
	return false
}

func unfit(s *subject, k *tally, checks map[string]bool, on string) {
	for name, at := range s.out.proposed() {
		if checks[name] {
			k.fail("%s proposes %s on %s", at, name, on)
		}
	}
}

// notMade looks at the readings that are a check's outcome, on the cylinders
// that it is for.
func notMade(s *subject, k *tally) {
	leaked, heard := map[string]bool{}, map[string]bool{}
	for _, c := range s.out.Leakage.Cylinders {
		leaked[c.Cylinder] = c.Loss != nil || len(c.At) > 0
		heard[c.Cylinder] = len(c.At) > 0
	}
	made := map[string]func(string) bool{
		"wet-test":            func(n string) bool { return bareNumber.MatchString(s.tree.text("compression", "wet", n)) },
		"leak-down":           func(n string) bool { return leaked[n] },
		"leak-down-pair":      func(n string) bool { return leaked[n] },
		"leak-place":          func(n string) bool { return heard[n] || !leaked[n] },
		"borescope":           func(n string) bool { return s.tree.has("borescope", n) },
		"running-compression": func(n string) bool { return s.tree.has("compression", "running", n) },
	}
	for _, p := range s.out.proposals() {
		if is := made[p.Name]; is != nil {
			k.saw()
			names := p.Cylinders
			if len(names) == 0 {
				names = s.names()
			}
			if !slices.ContainsFunc(names, func(n string) bool { return !is(n) }) {
				k.fail("%s proposes %s on %v, where it was made", p.at, p.Name, p.Cylinders)
			}
		}
		switch {
		case p.Name == "compression-test" && len(s.dry()) == len(s.names()):
			k.fail("%s proposes a compression test, which was made", p.at)
		case p.Name == "coolant-gas-test" && (s.tree.text("coolant-gas-test") == "negative" || s.tree.text("coolant-gas-test") == "positive"):
			k.fail("%s proposes the coolant gas test, which was made", p.at)
		case p.Name == "hose-for-fuel" && (s.tree.text("fuel-pressure", "fuel-in-hose") == "yes" || s.tree.text("fuel-pressure", "fuel-in-hose") == "no"):
			k.fail("%s proposes to look for fuel in the hose, which was done", p.at)
		case p.Name == "restrict-return" && s.tree.has("fuel-pressure", "return-pinched"):
			k.fail("%s proposes to close the return, which was done", p.at)
		case p.Name == "held-pressure" && s.tree.has("fuel-pressure", "hold"):
			k.fail("%s proposes to read the held pressure, which was read", p.at)
		case p.Name == "fuel-volume" && s.tree.has("fuel-pressure", "volume"):
			k.fail("%s proposes the fuel volume, which was measured", p.at)
		case p.Name == "fuel-pressure-test" && len(s.out.FuelPressure.Readings) > 2:
			k.fail("%s proposes the fuel pressure, which was measured", p.at)
		case p.Name == "complete-set" && len(s.dry()) == len(s.names()):
			k.fail("%s proposes to complete a set that is complete", p.at)
		case p.Name == "warm-retest" && s.tree.text("conditions", "engine") == "warm":
			k.fail("%s proposes a test on a warm engine, as it was", p.at)
		}
	}
}

func outcomesDiffer(s *subject, k *tally) {
	for _, p := range s.out.proposals() {
		if len(p.Outcomes) == 0 {
			k.notThere("outcomes of next checks")
			return
		}
		k.saw()
		if len(p.Outcomes) < 2 || p.Name == "" || p.Minutes <= 0 {
			k.fail("%s: %q has %d outcomes and takes %v minutes", p.at, p.Name, len(p.Outcomes), p.Minutes)
		}
		ifs, names := map[string]bool{}, map[string]bool{}
		for _, r := range p.Outcomes {
			begin := strings.ToLower(strings.TrimSpace(r.If))
			if r.If == "" || r.Then == "" || r.Name == "" || ifs[begin] || names[r.Name] {
				k.fail("%s: %s has the outcomes %+v", p.at, p.Name, p.Outcomes)
				break
			}
			ifs[begin], names[r.Name] = true, true
		}
	}
	for i, one := range s.out.Stories {
		// What was seen in the cylinder needs no check to be believed, and what
		// would tell of the fuel needs an engine that runs.
		ofPlugs := !slices.ContainsFunc(one.For, func(rule string) bool { return !plugRule.MatchString(rule) })
		if (one.About == "fuel" || one.About == "mixture" || ofPlugs) && (s.tree.text("engine", "runs") == "does not run" || slices.Contains(s.complaints(), "no start")) {
			continue
		}
		if slices.ContainsFunc(one.For, func(rule string) bool { return strings.HasPrefix(rule, "seen-") }) {
			continue
		}
		looked := func(name string) bool {
			return s.tree.has("borescope", name) && (s.tree.has("leakage", "dry", name) || s.out.Verdict.Urgency == doNotRun)
		}
		if len(one.Cylinders) > 0 && !slices.ContainsFunc(one.Cylinders, func(n string) bool { return !looked(n) }) { // what is left is to take it apart
			continue
		}
		// Air heard to pass from one cylinder into the next, in both or with both low, is proof
		// enough to lift the head, which shows the gasket and the head at once.
		if slices.Contains(one.For, "leaks-to-neighbour") && (slices.Contains(one.For, "gasket-agrees") || len(one.Cylinders) > 1) && sameWork(one.CauseNames) {
			continue
		}
		if rank(one.Urgency) > rank(checkAgain) && one.NextCheck == nil && i == 0 && s.out.Verdict.NextCheck == nil && len(one.CauseNames) > 1 && one.Confidence != "strong" && one.Repair == "" { // what is repaired says so
			k.fail("the story about %s %v has the causes %v and no next check", one.About, one.Cylinders, one.CauseNames)
		}
	}
}

func planFits(s *subject, k *tally) {
	next := s.out.Verdict.NextCheck
	if s.out.Plan == nil || next != nil && len(s.out.Plan) == 0 {
		k.notThere("plan")
		return
	}
	if (next == nil) != (len(s.out.Plan) == 0) {
		k.fail("the next check is %v, the plan has %d steps", next != nil, len(s.out.Plan))
	}
	if next == nil || len(s.out.Plan) == 0 {
		return
	}
	k.saw()
	first := s.out.Plan[0]
	if first.Check != next.Name {
		k.fail("the next check is %s, the plan begins with %s", next.Name, first.Check)
	}
	var a, b []string
	for _, r := range next.Outcomes {
		a = append(a, r.Name)
	}
	for _, r := range first.Outcomes {
		b = append(b, r.If)
		if r.Then == "" {
			k.fail("the plan ends nowhere after %s: %s", first.Check, r.If)
		}
		// The same test on other cylinders is another step.
		if r.Next != nil && *r.Next == first.Check && slices.Equal(r.On, first.Cylinders) {
			k.fail("the plan asks for %s again after %s", *r.Next, r.If)
		}
	}
	if len(a) != len(b) {
		k.fail("%s has the outcomes %q, in the plan %q", next.Name, a, b)
	}
}

// sameWork is causes of which the work that opens one shows the other.
func sameWork(causes []string) bool {
	return !slices.ContainsFunc(causes, func(c string) bool { return c != "head-gasket" && c != "warped-or-cracked-head" })
}

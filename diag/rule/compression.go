package rule

import "gaugesheet/diag"

// compressionRules read the dry cranking compression: all together first, then
// groups, then single cylinders.
var compressionRules = []Rule{
	{
		Name: "none-anywhere", Title: "No pressure in any cylinder", Class: Group, Needs: []Need{NeedsCompression},
		Trigger: "no cylinder reaches 25 psi (170 kPa), two at least and more than half of the engine were read, and no automatic decompressor is fitted",
		Why: "Nothing wears out every cylinder of an engine at once. Without any pressure at all the camshaft mostly does not turn with the crankshaft, a decompressor or throttle holds the air back, " +
			"or the gauge does not read. Where the plugs are soaked with fuel the bores are only washed: that engine is dried, oiled and tested again first.",
		Source: "common practice", Variants: []string{"flooded", "unit"},
		Findings: noneAnywhere,
	},
	{
		Name: "all-low", Title: "Every cylinder is low", Class: Group, Needs: []Need{NeedsCompression},
		Trigger: "the highest reading is under the stated minimum; where none is stated, under the pressure expected from the geometry, or every cylinder fell since an earlier test made alike. Never from the spread alone",
		Why: "Cylinders that are low together need something outside themselves to be seen by: they look even beside each other. Low and even with a sound test points to late valve timing before wear, " +
			"since bores seldom wear alike; low and uneven is wear with something more in the worst one.",
		Source: "US Army Ordnance subcourse OD1001, p. 91-92 (all or several low: rings or valves worn; slipped timing, low cranking speed, closed throttle)", Variants: []string{"expected", "earlier"},
		YieldsTo: []string{"none-anywhere"},
		Findings: allLowFinding,
	},
	{
		Name: "bank-low", Title: "One bank is low as a whole", Class: Group, Needs: []Need{NeedsCompression},
		Trigger: "two banks with two cylinders read in each; every cylinder of one is under every cylinder of the other by more than two readings can differ by chance, none of them is even, and half of them are low or all are a little low",
		Why: "Three or four separate faults do not choose one side of an engine. What one bank has to itself is its camshaft's timing, its intake, and its head and gasket. " +
			"Late timing lowers every cylinder of it by about the same and comes suddenly.",
		Source: "common practice", YieldsTo: []string{"none-anywhere"}, Variants: []string{"without-pressure", "a-little"},
		Findings: bankLow,
	},
	{
		Name: "neighbours-without-pressure", Title: "Neighbours without pressure", Class: Group, Needs: []Need{NeedsCompression},
		Trigger: "two cylinders or more side by side under one head gasket are all under 15 % of the reference, or under 25 psi (170 kPa) where no other was read",
		Why: "When the gasket burns through between two bores each blows into the other, and since they compress at different times both read nothing. " +
			"The same sight comes from a cracked or warped head and, after the engine stood, from valves stuck open. Zero on two is a reading, and worth repeating once.",
		Source: "US Army Ordnance subcourse OD1001, p. 91-92 (two adjacent cylinders low: head gasket)", YieldsTo: []string{"none-anywhere"},
		Findings: neighboursWithoutPressure,
	},
	{
		Name: "several-without-pressure", Title: "Several cylinders without pressure", Class: Group, Needs: []Need{NeedsCompression},
		Trigger: "two cylinders or more that are no neighbours are under 15 % of the reference",
		Why: "Cylinders that do not touch and die together share the drive of their valves: a belt or chain that failed or jumped, valves bent by it, a camshaft broken so that everything behind the break stands still. " +
			"Turning such an engine on can bend more.",
		Source: "US Army Ordnance subcourse OD1001, p. 91-92 (slipped valve timing, from memory)", YieldsTo: []string{"none-anywhere"},
		Findings: severalWithoutPressure,
	},
	{
		Name: "neighbours-low", Title: "Neighbours are low", Class: Group, Needs: []Need{NeedsCompression},
		Trigger: "two cylinders or more side by side under one head gasket are under 85 % of the reference; one of them may have no pressure",
		Why: "Two low cylinders side by side share the strip of gasket between them and the piece of head above it. Either can leak, by a burnt gasket or by a head that warped or cracked; " +
			"and two neighbours can each have a fault of their own. Pressure alone does not tell these apart.",
		Source: "US Army Ordnance subcourse OD1001, p. 91-92, and US Army TM 10-3930-647-14&P, para 4-40 (two adjacent cylinders low: head gasket)", YieldsTo: []string{"none-anywhere"}, Variants: []string{"several"},
		Findings: neighboursLow,
	},
	{
		Name: "scattered-low", Title: "Low cylinders that are no neighbours", Class: Group, Needs: []Need{NeedsCompression},
		Trigger: "two cylinders or more, none beside another low one under the same gasket, are under 85 % of the reference",
		Why: "Cylinders apart from each other share no gasket. They have a fault each, or something that reaches them by their place: the ends of a row far from oil and coolant, the lean runners of one manifold. " +
			"The leakage test on each says which.",
		Source: "common practice", YieldsTo: []string{"none-anywhere"},
		Findings: scatteredLow,
	},
	{
		Name: "one-without-pressure", Title: "One cylinder without pressure", Class: Single, Needs: []Need{NeedsCompression},
		Trigger: "one cylinder is under 15 % of the reference and no neighbour is low; or the only cylinder of an engine is under 25 psi (170 kPa)",
		Why: "A worn cylinder still builds something. One that builds nothing stands open: a valve that does not close, a spring or rocker that let go, a hole in the piston, a gasket blown through; " +
			"or the adapter was not tight. On an engine with set lash a valve set too tight does the same.",
		Source: "common practice", YieldsTo: []string{"none-anywhere"}, Variants: []string{"single"},
		Findings: oneWithoutPressure,
	},
	{
		Name: "one-low", Title: "One cylinder is low", Class: Single, Needs: []Need{NeedsCompression},
		Trigger: "one cylinder alone is under 85 % of the reference and its neighbours are not low",
		Why: "Pressure escapes past the valves, past the rings, or through the gasket to coolant or the outside; or less air came in because a valve does not open as it should. " +
			"Of these a leaking exhaust valve is the commonest. What oil changes, and where air is heard, tells them apart.",
		Source:   "US Army TM 10-3930-647-14&P, para 4-40 (below normal: leak at head gasket, rings or valves)",
		YieldsTo: []string{"none-anywhere", "one-out-of-tight-pack"},
		Findings: oneLow,
	},
	{
		Name: "one-out-of-tight-pack", Title: "One is far from a tight set, inside the limit", Class: Single, Needs: []Need{NeedsCompression},
		Trigger:  "one cylinder is under 85 % of the reference, the others lie within 10 % of each other, and every relative limit that the job states is kept",
		Why:      "A limit of 25 % is wide. Where all but one agree closely, the one that does not has changed, even if the maker still allows it. It is no fault by the maker's rule; it is worth a second look.",
		Source:   "common practice",
		Findings: outOfTightPack,
	},
	{
		Name: "below-minimum", Title: "Under the stated minimum", Class: Single, Needs: []Need{NeedsCompression},
		Trigger: "the lowest reading is under a stated minimum: clearly, or as read but by less than the uncertainty (then weak)",
		Why: "The maker's minimum is the one figure that says how an engine stands by itself and not beside itself. A book figure is compared with the gauge's own error in mind, " +
			"since every gauge has one; between cylinders it cancels, against the book it does not.",
		Source: "JCGM 106:2012, 8.3 (guard band); ILAC-G8:09/2019, 4.1", YieldsTo: []string{"none-anywhere"}, Variants: []string{"too-close"},
		Findings: belowMinimum,
	},
	{
		Name: "near-minimum", Title: "Above the minimum by less than the gauge can tell", Class: Single, Needs: []Need{NeedsCompression},
		Trigger:  "the lowest reading is above a stated minimum, by less than the uncertainty",
		Why:      "A reading just above the limit may stand for a pressure just under it. A better gauge, or a warm engine, decides; this reading does not.",
		Source:   "JCGM 106:2012, 8.3 (guard band)",
		Findings: nearMinimum,
	},
	{
		Name: "outside-limit", Title: "The cylinders differ by more than a limit allows", Class: Single, Needs: []Need{NeedsCompression},
		Trigger: "a limit on the spread, the difference or the distance from the mean is passed, clearly or as read, and no cylinder is graded low",
		Why: "Makers' limits on the difference are often tighter than the share at which a cylinder is called low. A set of which all are good by that share can still be outside the book, " +
			"and the cylinder that puts it there is worth looking at.",
		Source:   "US Army TM 5-3895-359-14&P (a set at 91 % of the highest that its 25 psi limit sends for examination)",
		YieldsTo: []string{"none-anywhere", "bank-low", "neighbours-low", "scattered-low", "one-low", "one-out-of-tight-pack", "one-without-pressure", "neighbours-without-pressure", "several-without-pressure", "one-high"},
		Variants: []string{"too-close"},
		Findings: outsideLimit,
	},
	{
		Name: "a-little-low", Title: "A little under the others", Class: Single, Needs: []Need{NeedsCompression},
		Trigger: "cylinders at 85 to 90 % of the reference, or too close to tell from low, and no limit passed",
		Why:     "Between even and low there is a strip where a second reading often settles it: warm, repeated, after some running. It is written down so that the next test has something to compare with.",
		Source:  "common practice", YieldsTo: []string{"none-anywhere", "bank-low", "outside-limit"},
		Findings: aLittleLow,
	},
	{
		Name: "one-high", Title: "One cylinder is high", Class: Single, Needs: []Need{NeedsCompression},
		Trigger: "one cylinder is more than 10 % above the highest of the others, and these lie within 10 % of each other",
		Why: "Carbon takes up room in the chamber and raises the pressure; so does oil that leaks in, or liquid. A cylinder with another piston or gasket reads differently too. " +
			"The others are judged among themselves: one high cylinder must not make good ones look low.",
		Source:   "US Army TM 10-3930-647-14&P, para 4-40 (more than 10 psi above normal: carbon or lead deposits)",
		Findings: oneHigh,
	},
	{
		Name: "all-high", Title: "Every cylinder is high", Class: Information, Needs: []Need{NeedsCompression},
		Trigger:  "the lowest reading is above the pressure that the geometry makes plausible; not asked with variable valve timing",
		Why:      "Deposits everywhere, a skimmed head, other pistons or a gauge that reads high lift all alike. It is no fault by itself: a stated figure is mostly a minimum.",
		Source:   "US Army TM 10-3930-647-14&P, para 4-40 (above normal: carbon or lead deposits)",
		Findings: allHigh,
	},
	{
		Name: "builds-slowly", Title: "Low at the first stroke, then builds", Class: Single, Needs: []Need{NeedsCompression, NeedsFirst},
		Trigger: "a low cylinder's first stroke is a smaller part of its last than in the other cylinders: under 80 % of the median share, three cylinders at least",
		Why: "Past worn rings some air escapes on each stroke and the oil seals a little better with each: the gauge creeps up and never arrives. " +
			"The share is compared with the other cylinders of the same test, since the gauge's own volume sets it.",
		Source:   "common practice (low on the first stroke, builds up, does not reach normal: rings)",
		Findings: strokeFinding("builds-slowly"),
	},
	{
		Name: "does-not-build", Title: "Low at the first stroke, and does not build", Class: Single, Needs: []Need{NeedsCompression, NeedsFirst},
		Trigger:  "a low cylinder's first stroke is under 85 % of the median first stroke and its share of the last is no smaller than in the other cylinders",
		Why:      "Through a valve or gasket that leaks, each stroke loses what it brings, and more strokes add little.",
		Source:   "common practice (low on the first stroke, does not build up: valves)",
		Findings: strokeFinding("does-not-build"),
	},
	{
		Name: "first-stroke-high", Title: "The first stroke is nearly the last", Class: Single, Needs: []Need{NeedsCompression, NeedsFirst},
		Trigger: "a low cylinder's first stroke is as good as the others' and then hardly builds: its share of the last is over 120 % of the median; or in every cylinder the first stroke is 90 % of the last",
		Why: "A leak that opens only under pressure, a crack or a gasket that lifts, lets the first strokes through and holds the rest back. Where every cylinder does it, it is the gauge: " +
			"a small one is full at once, and a leaking valve in its hose loses what later strokes bring.",
		Source: "common practice", Variants: []string{"gauge"},
		Findings: firstStrokeHigh,
	},
	{
		Name: "even-above-minimum", Title: "Even, and above the stated minimum", Class: Sound, Needs: []Need{NeedsCompression},
		Trigger: "every cylinder was read and is at 90 % of the reference or more, every limit is kept, and a minimum is stated and kept, clear of the uncertainty",
		Why:     "Cylinders that agree and stand clear of the maker's figure seal well. A fault that is felt is then looked for elsewhere: ignition, fuel, air.",
		Source:  "common practice; the minimum is the job's", Variants: []string{"single", "too-close"},
		Findings: evenAboveMinimum,
	},
	{
		Name: "even-no-minimum", Title: "Even, with no minimum to compare with", Class: Sound, Needs: []Need{NeedsCompression},
		Trigger: "every cylinder was read and is at 90 % of the reference or more, and no minimum is stated",
		Why:     "Even is not the same as good: rings worn alike read alike. Without the maker's figure the sheet can say that the cylinders match and no more.",
		Source:  "common practice (the lowest within 10 % of the highest is a sound set)", YieldsTo: []string{"all-low", "none-anywhere", "outside-limit"}, Variants: []string{"expected", "too-close"},
		Findings: evenNoMinimum,
	},
}

var compressionVocabulary = map[string][]string{
	"causes": {
		"exhaust-valve", "inlet-valve", "rings", "piston", "scored-bore", "head-gasket", "warped-or-cracked-head", "fault-in-each", "valve-lash", "valve-motion",
		"cam-timing", "washed-bore", "stuck-valve", "stuck-rings", "adapter-leak", "holed-piston", "bent-valve", "timing-drive", "restricted-inlet",
		"throttle-or-choke", "weak-cranking", "gauge-reads-low", "gauge-reads-high", "gauge-valve-leaks", "cold-engine", "altitude", "wear", "decompressor", "oil-in-bore",
		"carbon", "different-parts", "coolant-or-fuel-in-bore", "shared-by-place", "others-low",
	},
	"against": {"rose-with-oil", "no-wet-rise", "no-gas-in-coolant", "holds-air"},
	"doubts":  {"near-limit", "estimated", "no-maker-figure", "indirect-sign"},
	"checks": {
		"second-gauge", "repeat-method", "dry-and-repeat", "valve-lash", "watch-valve-gear", "turn-engine-check-cam", "cam-timing-marks", "wet-test", "leak-down", "leak-down-pair",
		"coolant-gas-test", "cooling-pressure-test", "borescope", "run-and-retest", "running-compression",
	},
}

// finding is a finding on some cylinders with the reference in its facts.
func (c *Case) finding(rule string, names []string, facts diag.Facts) diag.Finding {
	return diag.Finding{Rule: rule, Cylinders: names, Urgency: diag.CheckAgain, Confidence: diag.Fair, Facts: facts}
}

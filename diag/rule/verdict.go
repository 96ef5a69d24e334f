package rule

import (
	"maps"
	"slices"
	"strconv"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
)

// verdictOf names the verdict that the sheet gives when a rule's finding
// leads it.
var verdictOf = map[string]string{
	"one-low": "one-low", "one-out-of-tight-pack": "one-out", "one-without-pressure": "one-without-pressure",
	"neighbours-low": "neighbours-low", "neighbours-without-pressure": "neighbours-without-pressure", "scattered-low": "scattered-low",
	"several-without-pressure": "several-without-pressure", "none-anywhere": "none-anywhere", "bank-low": "bank-low", "all-low": "all-low",
	"below-minimum": "below-minimum", "near-minimum": "too-close", "outside-limit": "outside-limit", "a-little-low": "a-little-low",
	"one-high": "one-high", "all-high": "even-high", "liquid-in-cylinder": "liquid-in-cylinder",
	"builds-slowly": "one-low", "does-not-build": "one-low", "wet-rise": "one-low", "wet-partial": "one-low", "wet-no-rise": "one-low",
	"changed-since-earlier": "changed", "low-cold-only": "low-cold-only", "low-hot-only": "low-hot-only",
	"even-above-minimum": "even-above-minimum", "even-no-minimum": "even-no-minimum",

	"one-face-low": "rotor-one-face", "two-faces-low": "rotor-two-faces", "rotor-low": "rotor-low", "rotors-apart": "rotors-apart",

	"leaks-at-exhaust": "leaks-at-valve", "leaks-at-inlet": "leaks-at-valve", "leaks-to-crankcase": "leaks-past-rings",
	"leaks-to-coolant": "leaks-to-coolant", "leaks-to-neighbour": "leaks-to-neighbour", "leaks-outside": "leakage-high", "leakage-high": "leakage-high",
	"sound-but-leaks": "sound-but-leaks", "leaks-but-serviceable": "leaks-but-serviceable", "low-but-tight": "low-but-tight", "leakage-good": "leakage-good",

	"all-sooty": "plugs-sooty", "bank-sooty": "plugs-sooty", "one-sooty": "plugs-sooty", "some-sooty": "plugs-sooty",
	"oil-wet": "plugs-oily", "fuel-wet": "plugs-fuel-wet", "lean-all": "plugs-white", "one-white": "plugs-white", "some-white": "plugs-white",
	"overheated": "plugs-hot", "detonation-signs": "plugs-hot", "plug-melted": "plugs-melted", "plug-damaged": "plugs-damaged",
	"coolant-washed": "coolant-signs", "plug-bridged": "plugs-worn", "plug-tracked": "plugs-worn", "gap-out": "plugs-worn", "plugs-worn": "plugs-worn",
	"plugs-normal": "plugs-normal",

	"no-fuel-pressure": "no-fuel-pressure", "fuel-pressure-low": "fuel-pressure-low", "fuel-pressure-high": "fuel-pressure-high",
	"sags-under-load": "fuel-sags", "fuel-needle-flutters": "fuel-needle", "regulator-no-response": "regulator", "regulator-responds": "regulator",
	"hose-off-falls": "regulator", "fuel-in-hose": "fuel-in-hose", "falls-off-fast": "fuel-not-held", "fuel-pressure-right": "fuel-right",
	"pump-volume-low": "fuel-sags",

	"piston-contact": "piston-contact", "coolant-in-cylinder": "coolant-in-cylinder", "gasket-agrees": "gasket-agrees",
	"exhaust-valve-agrees": "exhaust-valve-agrees", "rings-agree": "rings-agree", "guides-or-breather": "guides-or-breather",
	"sooty-and-low": "one-low", "wet-with-fuel-and-sealing": "wet-and-sealing", "washed-and-low": "washed-and-low",
	"low-everywhere-but-tight": "low-but-tight-everywhere", "bank-low-with-cam-code": "bank-timing", "combustion-gas-in-coolant": "coolant-signs",
	"stood-engine": "stood", "sealing-sound-look-elsewhere": "look-elsewhere", "no-start-not-explained": "look-elsewhere",
	"rich-but-pressure-low": "rich-but-pressure-low", "rich-and-pressure-high": "rich-and-pressure-high", "lean-and-pressure-low": "lean-and-pressure-low",
	"lean-pressure-right": "lean-pressure-right", "rich-one-bank": "one-bank-mixture", "lean-one-bank": "one-bank-mixture", "rich-everywhere": "plugs-sooty",
}

// otherVerdicts are given where no finding leads the sheet.
var otherVerdicts = []string{
	"unit-suspect", "too-few-rotors", "wet-only", "lower-bound", "lower-bound-some", "above-minimum",
	"see-findings", "nothing-found", "not-explained", "fuel-not-judged", "nothing-tested", "too-few-cylinders", "too-close", "fuel-too-close", "rotors-even", "leakage-too-close", "leakage-doubtful", "leakage-serviceable", "even-but-coolant",
	"not-judged", "not-judged-some", "not-judged-decompressor", "not-judged-throttle-closed", "not-judged-single-cylinder", "not-judged-lone-reading",
}

// adviceFor gives the line under the verdict by the likeliest cause.
var adviceFor = map[string]string{
	"exhaust-valve": "advice-valve", "inlet-valve": "advice-valve", "valve-lash": "advice-valve", "carbon-on-seat": "advice-valve", "bent-valve": "advice-valve",
	"stuck-valve": "advice-valve", "rings": "advice-rings", "scored-bore": "advice-rings", "piston": "advice-rings", "wear": "advice-rings", "stuck-rings": "advice-rings",
	"holed-piston": "advice-rings", "head-gasket": "advice-gasket", "warped-or-cracked-head": "advice-gasket", "cam-timing": "advice-timing", "timing-drive": "advice-timing",
	"valve-motion": "advice-valve-motion", "fuel-filter": "advice-supply", "pump": "advice-supply", "pump-circuit": "advice-supply", "pump-voltage": "advice-supply",
	"regulator-open": "advice-regulator", "regulator-stuck": "advice-regulator", "regulator-diaphragm": "advice-regulator", "return-blocked": "advice-regulator",
	"ignition": "advice-elsewhere", "injection": "advice-elsewhere", "low-compression": "advice-seal-first", "dry-bores": "advice-stood", "washed-bore": "advice-dry-first",
	"own-spark": "advice-spark", "apex-seal": "advice-seal", "side-seal": "advice-seal", "corner-seal": "advice-seal", "rotor-wear": "advice-rotor-wear", "fault-in-each": "advice-each",
}

var otherAdvice = []string{
	"advice-do-not-run", "advice-repeat", "advice-complete", "advice-next-check", "advice-findings", "advice-weak", "advice-none", "advice-no-figure", "advice-test-again", "advice-unit", "advice-lower-bound",
}

var closingVocabulary = map[string][]string{
	"checks":   slices.Sorted(maps.Keys(checkKinds)),
	"verdicts": slices.Concat(slices.Sorted(maps.Values(verdictOf)), otherVerdicts, slices.Sorted(maps.Values(adviceFor)), otherAdvice),
	"cautions": {
		"do-not-run", "liquid-lock", "diesel-no-oil", "high-pressure-fuel", "fuel-vapour", "crank-turns", "hot-coolant", "running-engine", "not-airworthiness",
		"makers-procedure", "that-day-only",
	},
}

// conclude sets d.Verdict, d.Advice and d.Urgency: the most urgent finding
// leads, and where nothing can be judged the
// verdict says why.
func conclude(c *Case, d *diag.Diagnosis) {
	defer func() { d.Advice.Facts = c.adviceFacts(d) }()
	d.Urgency = diag.NoAction
	for _, f := range d.Findings {
		if f.Urgency.Rank() > d.Urgency.Rank() {
			d.Urgency = f.Urgency
		}
	}
	top := topFinding(d)
	if top < 0 && (c.unitLeads(d) || asksToTest(d.Next) || d.Next != nil && c.onlyWet() && c.complaint() == "") {
		d.Urgency = diag.CheckAgain // a notice asks for it
	}
	switch {
	case c.unitLeads(d):
		d.Verdict, d.Advice = diag.Phrase{Key: "unit-suspect", Facts: c.verdictFacts(d, nil)}, diag.Phrase{Key: "advice-unit"}
	case top >= 0:
		c.lead(d, &d.Findings[top])
	default:
		c.withoutLead(d)
	}
}

// withoutLead sets the verdict where no finding asks for anything.
func (c *Case) withoutLead(d *diag.Diagnosis) {
	facts := c.verdictFacts(d, nil)
	say := func(verdict, advice string) {
		d.Verdict, d.Advice = diag.Phrase{Key: verdict, Facts: facts}, diag.Phrase{Key: advice}
	}
	apart := c.cylindersThat(func(r *diag.CylinderResult) bool { return r.Disagree })
	switch lead := firstSound(d); {
	case c.noticed("too-few-cylinders"):
		n := c.noticeOf("too-few-cylinders")
		facts["read"], facts["of"] = n.Facts["read"], n.Facts["of"]
		say("too-few-cylinders", "advice-complete")
		if n.Variant == "rotors" {
			d.Verdict.Key = "too-few-rotors"
		}
	case c.notJudged() != "":
		say(c.notJudged(), "advice-test-again")
		if d.Next != nil && !asksToTest(d.Next) {
			d.Advice.Key = "advice-next-check"
		}
	case len(apart) > 0 && lead == nil:
		facts["Cylinders"] = diag.Names(apart)
		say("not-judged-some", "advice-test-again")
	case len(c.boundsOnly()) > 0 && lead == nil:
		facts["Cylinders"] = diag.Names(c.boundsOnly())
		say(c.boundsVerdict())
	case c.onlyWet() && lead == nil:
		say("wet-only", "advice-none")
	case c.complaint() != "":
		facts["complaint"] = c.complaint()
		say("not-explained", "advice-none")
	case lead != nil:
		c.lead(d, lead)
	case c.noticed("fuel-limit-missing"):
		say("fuel-not-judged", "advice-no-figure")
	case c.Has(NeedsRotors):
		say("rotors-even", "advice-none")
	case c.Has(NeedsCompression), c.Has(NeedsLeakage), c.Has(NeedsPlugs), c.Has(NeedsFuel):
		say("nothing-found", "advice-none")
	case c.Sums.Compression != nil && c.Sums.Compression.State == diag.Tested:
		say("not-judged", "advice-test-again")
	default:
		say("nothing-tested", "advice-test-again")
	}
	switch {
	case d.Next == nil:
	case d.Advice.Key == "advice-lower-bound", d.Advice.Key == "advice-none" && repeatsTest(d.Next.Key):
		d.Advice.Key = "advice-repeat"
	case d.Advice.Key == "advice-none":
		d.Advice.Key = "advice-next-check"
	}
}

// firstSound is the first finding that something is sound, nil for none.
func firstSound(d *diag.Diagnosis) *diag.Finding {
	for i := range d.Findings {
		if r := byName(d.Findings[i].Rule); r != nil && r.Class == Sound {
			return &d.Findings[i]
		}
	}
	return nil
}

// lead makes a finding the sheet's verdict.
func (c *Case) lead(d *diag.Diagnosis, f *diag.Finding) {
	key := verdictOf[f.Rule]
	doubted := func(key string) bool {
		return slices.ContainsFunc(f.Doubts, func(p diag.Phrase) bool { return p.Key == key })
	}
	switch {
	case key == "":
		key = "see-findings"
	case doubted("leaks-at-both-valves"):
		key = "leakage-doubtful"
	case key == "leaks-at-valve" && f.Variant == twoStrokeVariant:
		key = "leaks-past-rings"
	case key == "look-elsewhere" && f.Variant == "coolant":
		key = "even-but-coolant"
	case key == "leakage-good" && f.Variant == "serviceable":
		key = "leakage-serviceable"
	case f.Variant == "too-close" || doubted("near-limit") && f.Rule == "below-minimum":
		key = "too-close"
	case doubted("fuel-near-limit") && f.Rule != "falls-off-fast":
		key = "fuel-too-close"
	case doubted("leakage-near-limit") && f.Urgency != diag.ActSoon:
		key = "leakage-too-close"
	}
	d.Verdict = diag.Phrase{Key: key, Facts: c.verdictFacts(d, f)}
	d.Advice = diag.Phrase{Key: c.advice(d, f)}
}

// verdictFacts are what the verdicts use; f is the leading finding or nil.
func (c *Case) verdictFacts(d *diag.Diagnosis, f *diag.Finding) diag.Facts {
	facts := diag.Facts{"Cylinders": diag.Names(nil), "of": len(c.Engine.Names()), "circuit": "", "bank": "", "read": len(c.readAny()), "numbered": false}
	if f == nil {
		return facts
	}
	facts["Cylinders"], facts["circuit"] = diag.Names(f.Cylinders), f.Circuit
	if f.Rule == "rotor-low" {
		facts["Cylinders"] = allOf(d, f)
	}
	if bank, ok := f.Facts["bank"].(string); ok {
		facts["bank"] = bank
	}
	if len(f.Cylinders) == 1 && len(c.Engine.Cylinders) > 2 {
		_, err := strconv.Atoi(f.Cylinders[0])
		facts["numbered"] = err == nil
	}
	return facts
}

// adviceFacts are what the line under the verdict uses: how sure the leading
// finding is, whether a check comes next, and how many findings more ask for
// something.
func (c *Case) adviceFacts(d *diag.Diagnosis) diag.Facts {
	facts := diag.Facts{"sure": "", "check": d.Next != nil, "more": 0, "rotary": c.Engine.Kind == engine.Rotary}
	top := topFinding(d)
	if top < 0 {
		return facts
	}
	lead, more := &d.Findings[top], 0
	for i := range d.Findings {
		if other := &d.Findings[i]; i != top && other.Urgency != diag.NoAction && !sameMatter(other, lead) {
			more++
		}
	}
	facts["sure"], facts["more"] = string(lead.Confidence), more
	return facts
}

// allOf lists the rotors of every finding like this one: worn together, they
// are said together.
func allOf(d *diag.Diagnosis, f *diag.Finding) diag.Names {
	var names diag.Names
	for i := range d.Findings {
		if other := &d.Findings[i]; other.Rule == f.Rule && other.Variant == f.Variant {
			names = append(names, other.Cylinders...)
		}
	}
	return names
}

// sameMatter reports findings that the same verdict speaks for.
func sameMatter(a, b *diag.Finding) bool {
	if a.Rule == "rotor-low" && b.Rule == a.Rule && a.Variant == b.Variant {
		return true
	}
	return verdictOf[a.Rule] == verdictOf[b.Rule] && slices.Equal(a.Cylinders, b.Cylinders) && a.Circuit == b.Circuit
}

// readAny lists the cylinders of which any reading was taken.
func (c *Case) readAny() []string {
	return slices.DeleteFunc(c.Engine.Names(), func(n string) bool {
		r := c.Cylinder(n)
		return (r == nil || r.Dry == nil) && c.Leak(n) == nil && c.PlugOf(n) == nil
	})
}

func (c *Case) advice(d *diag.Diagnosis, f *diag.Finding) string {
	byCause := ""
	if len(f.Causes) > 0 {
		byCause = adviceFor[f.Causes[0].Key]
	}
	switch {
	case f.Urgency == diag.DoNotRun:
		return "advice-do-not-run"
	case f.Urgency == diag.NoAction && d.Next != nil && repeatsTest(d.Next.Key):
		return "advice-repeat"
	case f.Urgency == diag.NoAction && f.Rule == "even-no-minimum":
		return "advice-no-figure"
	case f.Urgency == diag.NoAction:
		return "advice-none"
	case d.Next != nil && repeatsTest(d.Next.Key):
		return "advice-repeat"
	case c.noticed("too-few-cylinders"):
		return "advice-complete"
	case f.Rule == "sealing-sound-look-elsewhere" && byCause == "":
		return "advice-next-check"
	case f.Confidence == diag.Weak && d.Next != nil:
		return "advice-weak"
	case byCause != "":
		return byCause
	case d.Next != nil:
		return "advice-next-check"
	}
	return "advice-findings"
}

// notJudged names the verdict for a compression test that says nothing of the
// engine, "" where something could be judged.
func (c *Case) notJudged() string {
	s := c.Sums.Compression
	if s == nil || s.N == 0 || c.Has(NeedsLeakage) {
		return ""
	}
	if len(c.Graded(diag.GradeNotJudged, diag.GradeNotTested)) < len(s.Cylinders) {
		return ""
	}
	if slices.ContainsFunc(s.Limits, func(l diag.LimitResult) bool { return l.Verdict != diag.NotJudged }) {
		return ""
	}
	for _, l := range s.Limits {
		if key := "not-judged-" + l.Reason; slices.Contains(otherVerdicts, key) {
			return key
		}
	}
	return "not-judged"
}

package cause

import "gaugesheet/diag/known"

// oilCauses are what lets oil pressure be wrong.
var oilCauses = []Cause{
	{Name: "too-little-oil", Explains: []string{noise, oilUse}, Advice: "advice-oil"},
	{Name: "thin-oil", Advice: "advice-oil"},
	{Name: "worn-bearings", Explains: []string{noise}, Advice: "advice-bottom-end"},
	{Name: "oil-pump", Explains: []string{noise}, Advice: "advice-bottom-end"},
	{Name: "oil-relief-valve", Advice: "advice-oil"},
	{Name: "oil-sender", Advice: "advice-repeat", Test: true},
	{Name: "coolant-in-oil", Fits: wet, Explains: coolants, Advice: "advice-gasket"},
}

func oiled(c *known.Case, _ []string) bool { return c.Has(known.NeedsTest(known.Oil)) }

// doubtedGauge is oil pressure that was read on what the vehicle shows.
func doubtedGauge(c *known.Case, _ []string) bool {
	r := c.Measured(known.Oil)
	return r != nil && !known.OnOwnGauge(r)
}

// oilChecks tell why oil pressure is wrong, the cheap and harmless first.
var oilChecks = []Check{
	{Name: "oil-level", Minutes: 2, Whole: true, Fits: oiled, Words: []string{"oil level checked", "dipstick"},
		Made: func(c *known.Case, _ []string) bool {
			r := c.Measured(known.Oil)
			return r != nil && r.Word("oil level") != ""
		},
		Outcomes: []Outcome{
			{Name: "low", For: []string{"too-little-oil"}, Enter: oilWord("oil level", "low")},
			{Name: "over full", For: []string{"fuel-in-oil", "coolant-in-oil"}, Enter: oilWord("oil level", "over full"), Words: []string{"over full"}},
			{Name: "right", Else: true, Enter: oilWord("oil level", "right")}}},
	{Name: "own-oil-gauge", OfTest: true, Minutes: 15, Whole: true, Way: Runs, Again: true, Fits: doubtedGauge, Words: []string{"own oil gauge", "gauge at the gallery", "mechanical gauge"},
		Outcomes: []Outcome{
			{Name: "reads right", For: []string{"oil-sender"}, Words: []string{"reads right", "good"}},
			{Name: "reads the same", Else: true, Enter: oilWord("gauge", "screwed in"), Words: []string{"same", "low"}}}},
	{Name: "oil-gauge-hand", OfTest: true, Minutes: 20, Whole: true, Again: true, Fits: doubtedGauge, Words: []string{"sender checked"},
		Outcomes: []Outcome{
			{Name: "the sender is wrong", For: []string{"oil-sender"}, Words: []string{"wrong", "faulty"}},
			{Name: "the sender is right", Else: true, Enter: oilWord("gauge", "screwed in"), Words: []string{"right"}}}},
	{Name: "fresh-oil", Minutes: 60, Labour: 40, Whole: true, Way: Parts | Runs, Mends: []string{"thin-oil", "fuel-in-oil"}, Fits: oiled, Words: []string{"oil changed", "fresh oil", "oil and filter changed"},
		Outcomes: []Outcome{
			{Name: "pressure is right", For: []string{"thin-oil", "fuel-in-oil", "too-little-oil"}, Words: []string{"recovers", "right"}},
			{Name: "stays low", Else: true, Words: []string{"stays", "stayed", "low"}}}},
	{Name: "relief-valve-look", Minutes: 40, Whole: true, Way: Opens, Mends: []string{"oil-relief-valve"}, Fits: oiled, Words: []string{"relief valve out", "relief valve looked at"},
		Outcomes: []Outcome{
			{Name: "stuck or worn", For: []string{"oil-relief-valve"}, Words: []string{"stuck", "worn", "broken"}},
			{Name: "moves freely", Else: true, Words: []string{"free", "freely"}}}},
	{Name: "sump-off", Minutes: 180, Whole: true, Way: Opens, Fits: oiled, Words: []string{"sump off", "oil pan off", "bearings looked at", "bearings measured"},
		Outcomes: []Outcome{
			{Name: "bearings worn", For: []string{"worn-bearings"}, Words: []string{"worn", "scored"}},
			{Name: "pick-up or pump", For: []string{"oil-pump", "too-little-oil"}, Words: []string{"pick up", "pump"}},
			{Name: "bearings good", Else: true, Words: []string{"good"}}}},
	{Name: "oil-analysis", Minutes: 15, Labour: 15, Whole: true, Fits: func(c *known.Case, _ []string) bool {
		return known.OilOverFull.Holds(c, known.Subject{}) || known.OilSmells.Holds(c, known.Subject{})
	}, Words: []string{"oil analysed", "oil looked at"},
		Outcomes: []Outcome{
			{Name: "fuel in it", For: []string{"fuel-in-oil"}, Words: []string{"fuel"}},
			{Name: "coolant in it", For: []string{"coolant-in-oil"}, Words: []string{"coolant", "water"}},
			{Name: "only oil", Else: true, Words: []string{"oil only", "clean"}}}},
}

// oilWord enters what was ticked of the oil.
func oilWord(name, value string) func(*Trial) {
	return func(t *Trial) { t.tick(known.Oil, name, value) }
}

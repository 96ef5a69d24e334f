package known

import (
	"slices"

	"gaugesheet/diag"
)

// Exhaust where people breathe: what it did to them, and by which way it gets there.

var (
	// madeIll are words of what carbon monoxide does to people, which nobody says of an engine;
	// illPeople the same of words that are said of engines too.
	madeIll   = []string{"headaches", "dizzy", "dizziness", "nausea", "nauseous", "drowsy", "passed out", "fainted", "unconscious", "monoxide poisoning", "co poisoning"}
	illPeople = pairs("driver|drivers|operator|rider|pilot|crew|man |men |woman|women|people|person|passenger|worker|child|family|helmsman|i |he |she |they |we |everybody|customer|owner|wife|husband",
		"had a headache|has a headache|gets a headache|got a headache|felt ill|feels ill|feel ill|fell ill|is ill|got ill|were ill|was ill|made ill|felt sick|feels sick|feel sick|was sick|were sick|got sick|sleepy|unwell|gassed|felt faint|feels faint")
	gasAlarm = []string{"monoxide alarm", "monoxide detector", "monoxide warning", "monoxide monitor", " co alarm", " co detector", " co warning", " co monitor"}
	// alarmNot are words of an alarm that did not go off.
	alarmNot = []string{"quiet", "silent", "silence", "new alarm", "did not sound", "zero", "battery"}

	// exhaustGets are words of exhaust on its way, smelled or not; notExhaust what else smells.
	exhaustGets   = append(pairs("exhaust|monoxide", "smell|fumes|gas|gets|blow|leak|comes|seeps|drawn|enters|inside|into"), "smells of exhaust", "smell of exhaust", "exhaust smell", "exhaust fumes", "fumes")
	notExhaust    = []string{"fuel fumes", "petrol fumes", "gasoline fumes", "gas fumes", "oil fumes", "fuel smell", "noise", "loud"}
	whereBreathed = []string{"cab", "cabin", "cockpit", "passenger", "inside the car", "inside the van", "inside the vehicle", "into the car", "into the van", "in the car", "in the van", "saloon", "sleeping", "berth", "interior", "heater air", "heater blows", "living",
		"hangar", "in the hall", "into the hall", "indoors", "into the building", "in the building", "into the house", "in the house", "warehouse", "cold store", "in the room", "into the room"}

	// runIndoors are words of an engine that works among walls.
	runIndoors  = pairs("run|runs|running|ran|used|works|worked|working|operated|stands", "indoors|in a hall|in the hall|in the cellar|in a cellar|in the basement|in a basement|in a building|in the building|in the house|in the warehouse|in a warehouse|in the cold store|in the hold|in a tent|in a closed")
	usedIndoors = []string{"used indoors", "run indoors", "runs indoors", "works indoors", "used in a building", "used in the house"}
	// indoorMachines work in halls, by what they are called.
	indoorMachines = []string{"forklift", "fork lift", "forklift truck", "fork truck", "lift truck", "reach truck", "pallet truck", "floor scrubber", "scrubber", "scrubber drier", "floor polisher", "burnisher", "floor sweeper", "ice resurfacer", "scissor lift", "indoor", "indoors"}
)

// muchCO is carbon monoxide, in percent, that is much for a machine that works in a hall where
// nobody gave a limit: judgement, no source.
const muchCO = 1.5

var (
	// ExhaustMadeIll is an engine beside which people fell ill, or an alarm went off.
	ExhaustMadeIll = OfEngine("people who fell ill beside it, or an alarm for carbon monoxide that went off, among what is told or found", func(c *Case) bool {
		return c.exhaustTold()[0]
	})
	// ExhaustBreathed is exhaust that gets to where people breathe, or an engine that runs there.
	ExhaustBreathed = OfEngine("people who fell ill beside it, or an alarm for carbon monoxide; exhaust that gets into a cab, a cabin or a hall, or an engine run indoors, by what is told or found or how its vehicle is described; or a machine that works in halls with more carbon monoxide than its limit or, without one, than 1.5 %", func(c *Case) bool {
		return c.exhaustTold()[1] || c.described(usedIndoors) || c.described(indoorMachines) && c.monoxide() != nil
	})
)

// exhaustTold looks through what is told once: whether people fell ill, and whether exhaust
// gets to where they breathe.
func (c *Case) exhaustTold() [2]bool {
	said := c.everySaying()
	if len(said) == 0 {
		return [2]bool{}
	}
	return remembered(&c.exhaust, func() [2]bool {
		ill := slices.ContainsFunc(said, madeIllBy)
		return [2]bool{ill, ill || slices.ContainsFunc(said, breathedBy)}
	})
}

// TellsOfExhaust reports a text that says that people fell ill, or that an alarm went off, that
// exhaust gets to where people are, or that an engine runs among walls.
func TellsOfExhaust(text string) bool { return madeIllBy(text) || breathedBy(text) }

func madeIllBy(text string) bool {
	text = plainWords(text)
	return SpeaksOf(text, madeIll...) || SpeaksOf(text, illPeople...) || SpeaksOf(" "+text, gasAlarm...) && !SpeaksOf(text, alarmNot...)
}

func breathedBy(text string) bool {
	text = plainWords(text)
	inside := SpeaksOf(text, whereBreathed...) && SpeaksOf(text, exhaustGets...) && !SpeaksOf(text, notExhaust...)
	return (inside || SpeaksOf(text, runIndoors...)) && !mended(text)
}

// monoxide is carbon monoxide past its limit, or without one more than a hall takes; nil for
// none.
func (c *Case) monoxide() *diag.MeasuredReading {
	r := c.Measured(Gas)
	if r == nil {
		return nil
	}
	for i := range r.Readings {
		m := &r.Readings[i]
		if m.Name == "gas co" && (m.Verdict == diag.Outside || !m.Limited() && m.Value > muchCO) {
			return m
		}
	}
	return nil
}

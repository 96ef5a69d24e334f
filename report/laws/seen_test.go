package laws_test

import "fmt"

var seenLaws = []law{
	{name: "T9 damage that was seen counts", least: 800, says: "a word of damage to a part, seen in a cylinder of an engine that reads even, raises the sheet above 'no action', and so do words that nobody knows", check: seenDamageRaises},
	{name: "T9 what is sound does not", least: 400, every: 2, says: "sound parts, denied damage and notes on how it was looked at leave the urgency as it was", check: seenSoundLeaves},
}

// The parts of any cylinder with a piston, and what may be seen of each.
var (
	seenParts = []string{"piston", "piston crown", "top ring", "ring land", "cylinder wall", "liner", "cylinder head", "combustion chamber", "head gasket", "plug electrode", "circlip"}
	seenHarms = []string{"cracked", "broken", "missing", "a piece out of the %s", "burned", "melted", "pitted", "damaged", "crack in the %s", "%s looks odd", "%s frabbled"}
	seenValve = []string{"exhaust valve burned at one place", "intake valve bent", "valve head missing", "exhaust valve green on one edge", "crack between the valves", "valve seat loose", "seat pitted", "piece out of the exhaust valve", "exhaust valve frabbled"}
	seenOther = []string{"rust pits", "aluminum smeared above the port", "a washer lies on the piston", "peppered all over", "wet with oil", "pinholes near the bottom", "frabbled"}
	seenSound = []string{"wall good, piston good", "no scoring, rust or pits", "crosshatch visible all around", "not scored, no cracks", "nothing unusual", "6 mm camera, poor light", "plug hole thread cleaned", "clean", "piston not cracked, rings not broken"}
)

// soundOne is the engine of a job with even pressures and nothing else, nil where that asks for
// something by itself, and for a rotary, which has none of these parts.
func soundOne(s *subject) *subject {
	if s.rotary() || len(s.names()) == 0 || !s.tree.has("engine") {
		return nil
	}
	psi := 155
	if s.diesel() {
		psi = 410
	}
	t, dry := newTree(), newTree()
	for _, name := range s.names() {
		dry.put(name, psi)
	}
	t.put("engine", s.tree.sub("engine").clone())
	t.set("psi", "compression", "unit")
	t.set(dry, "compression", "dry")
	return s.vary(t)
}

// seenIn is a subject with words of a look into one of its cylinders.
func seenIn(s *subject, words string) *subject {
	names := s.names()
	return s.vary(s.tree.with(words, "borescope", names[s.seed%uint64(len(names))]))
}

// seenWords are those of a job, by its seed, on an engine with valves or without.
func seenWords(seed uint64, valves bool) string {
	pick := func(list []string) string { return list[seed/7%uint64(len(list))] }
	switch seed % 7 {
	case 0, 1:
		if valves {
			return pick(seenValve)
		}
	case 2:
		return pick(seenOther)
	}
	part, harm := seenParts[seed/11%uint64(len(seenParts))], seenHarms[seed/3%uint64(len(seenHarms))]
	if said := fmt.Sprintf(harm, part); said != harm+"%!(EXTRA string="+part+")" {
		return said
	}
	return part + " " + harm
}

func seenDamageRaises(s *subject, k *tally) {
	s = soundOne(s)
	if s == nil || s.out.Verdict.Urgency != noAction {
		return
	}
	words := seenWords(s.seed, !s.twoStroke())
	other := seenIn(s, words)
	if other == nil {
		return
	}
	k.saw()
	if other.out.Verdict.Urgency == noAction {
		k.fail("%q seen in a cylinder leaves %q", words, other.out.Verdict.Urgency)
	}
}

func seenSoundLeaves(s *subject, k *tally) {
	words := seenSound[s.seed/2%uint64(len(seenSound))]
	if s = soundOne(s); s == nil {
		return
	}
	other := seenIn(s, words)
	if other == nil {
		return
	}
	k.saw()
	if rank(other.out.Verdict.Urgency) > rank(s.out.Verdict.Urgency) {
		k.fail("%q seen in a cylinder raises %q to %q", words, s.out.Verdict.Urgency, other.out.Verdict.Urgency)
	}
}

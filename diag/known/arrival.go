package known

import (
	"math"
	"regexp"
	"slices"
	"strings"

	"gaugesheet/diag"
)

// How a vehicle came in: words that say that what its computer had stored was cleared, or
// that its engine was warm before anybody who tests it could start it cold.
var (
	cleared = regexp.MustCompile(`\b(?:codes?|dtcs?|memory|adaptations?)\b[^,;.()]*\b(?:cleared|erased|wiped|reset)\b|` +
		`\b(?:cleared|erased|wiped) (?:the |its |all )?(?:codes?|memory)\b|\bmonitors?\b[^,;.()]*\b(?:not (?:all )?(?:ready|set|complete|run)|incomplete)\b|` +
		`\breadiness\b[^,;.()]*\b(?:incomplete|not (?:all )?(?:ready|set|complete))\b`)
	notCleared = regexp.MustCompile(`\b(?:not|never|nothing|no codes?) (?:been |were |was |recently )?(?:cleared|erased|wiped|reset)\b`)
	cameHot    = regexp.MustCompile(`\b(?:already|was|is|engine|arrived|came) (?:already |still )?(?:hot|warm|warmed up)\b|\b(?:hot|warm) (?:on|at) arrival\b`)
)

// MemoryCleared is an engine whose computer has had no time to see what is wrong: its codes
// were cleared, or its monitors have not run.
var MemoryCleared = OfEngine("codes said to be cleared before, or monitors not ready", func(c *Case) bool {
	return slices.ContainsFunc(slices.Concat([]string{c.History.Arrival}, c.History.Findings), func(line string) bool {
		text := strings.ToLower(line)
		return cleared.MatchString(text) && !notCleared.MatchString(text)
	})
})

// HotForBuyer is an engine that was warm when somebody who means to buy it came to see it.
var HotForBuyer = OfEngine("tested for a buyer, and said to be hot or warm on arrival", func(c *Case) bool {
	return c.History.ForBuyer && cameHot.MatchString(strings.ToLower(c.History.Arrival))
})

// TrimsUnlearned are long-term trims of about nothing right after the memory was cleared.
var TrimsUnlearned = All(MemoryCleared, OfTest(Trims, "every long-term trim under 1 %", func(r *diag.MeasuredResult) bool {
	long := 0
	for i := range r.Readings {
		if m := &r.Readings[i]; strings.Contains(m.Name, "long") {
			if math.Abs(m.Value) >= leastLearned {
				return false
			}
			long++
		}
	}
	return long > 0
}))

// How an engine is said to have been stopped: by liquid, or by something that is not named.
var (
	lockedByLiquid = regexp.MustCompile(`\b(?:hydro-? ?lock\w*|hydraulic(?:ally)? lock\w*|hydraulick?ed|liquid lock\w*)\b`)
	lockedSolid    = regexp.MustCompile(`\b(?:locked (?:up|solid)|stuck solid|seized solid|(?:would|will|does|did) ?(?:not|n't) (?:turn|crank)(?: over)?|won't (?:turn|crank)(?: over)?)\b`)
	lockedElse     = regexp.MustCompile(`\b(?:keys?|ignition|steering|wheels?|doors?|bolts?|screws?|nuts?|taps?|fans?|pulleys?|clutch|differential|brakes?|calipers?|starter)\b`)
	notWater       = regexp.MustCompile(`\b(?:oil|fuel|gas|gasoline|petrol|diesel|injector|carburetor|carburettor|float)\b`)
	notLocked      = regexp.MustCompile(`\b(?:not|never|no|nothing|isn't|wasn't|rule[sd]? out|suspected) (?:\w+ ){0,2}(?:hydro|hydraulic|liquid|locked|stuck|seized)`)
)

// LockedByLiquid is an engine that is said to have been locked by liquid in a cylinder.
var LockedByLiquid = OfEngine("said to be hydraulically locked, by how it came in, the work done or the technician's findings", func(c *Case) bool {
	return c.toldSo(func(line string) bool { return lockedByLiquid.MatchString(line) && !notLocked.MatchString(line) })
})

// LockedByWater is such an engine, of which nobody names another liquid, nor does oil run down
// into its cylinders.
var LockedByWater = OfEngine("said to be hydraulically locked, no oil or fuel named with it, no cylinder below the crankshaft", func(c *Case) bool {
	return !slices.ContainsFunc(c.Every(), c.HangsBelow) && c.toldSo(func(line string) bool {
		return lockedByLiquid.MatchString(line) && !notLocked.MatchString(line) && !notWater.MatchString(line)
	})
})

// LockedUp is an engine that is said to have stopped solid, by liquid or by nobody says what.
var LockedUp = Any(LockedByLiquid, OfEngine("said to be locked solid, or not to turn", func(c *Case) bool {
	return c.toldSo(func(line string) bool {
		return lockedSolid.MatchString(line) && !lockedElse.MatchString(line) && !notLocked.MatchString(line)
	})
}))

// toldSo asks each line of how the engine came in, what was done and what was found.
func (c *Case) toldSo(so func(line string) bool) bool {
	return slices.ContainsFunc(slices.Concat([]string{c.History.Arrival, c.History.Onset}, c.History.WorkDone, c.History.Findings), func(line string) bool {
		return line != "" && so(strings.ToLower(line))
	})
}

// leastLearned is the long-term trim, in percent, under which a computer that was cleared may
// have learned nothing yet: judgement, no source.
const leastLearned = 1.0

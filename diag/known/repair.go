package known

import (
	"math"
	"slices"
	"strings"
	"time"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// Published fleets show changes up to these between two tests of a sound
// engine, so that less than that is no wear and no proof of a repair: SAE
// 2011-01-2427, from memory.
const (
	ShownPercent = 10.0 // of the earlier compression reading
	ShownPoints  = 10.0 // of leakage
)

// Moved says which way a reading went: -1 down, 1 up, 0 where that is no more
// than the two readings, or sound engines, differ by.
func Moved(ch diag.Change) int {
	moved := ch.Now - ch.Then
	if math.Abs(moved) <= ch.U || math.Abs(moved) <= ShownPercent/100*math.Abs(ch.Then)+1e-9 {
		return 0
	}
	return int(math.Copysign(1, moved))
}

// SinceEarlier lists the changes of compression since the earlier test that
// this one is compared with.
func (c *Case) SinceEarlier() []diag.Change {
	var list []diag.Change
	for _, name := range c.Read() {
		if r := c.Cylinder(name); r.Change != nil {
			list = append(list, diag.Change{Name: name, Then: *r.Dry - *r.Change, Now: *r.Dry, U: r.ChangeU})
		}
	}
	return list
}

// MovedSinceEarlier lists the cylinders whose compression went one way by more
// than these tests can differ by.
func (c *Case) MovedSinceEarlier(way int) []string {
	var names []string
	for _, ch := range c.SinceEarlier() {
		if Moved(ch) == way {
			names = append(names, ch.Name)
		}
	}
	return names
}

// LossesSinceEarlier gives the leakage of each cylinder in the latest earlier
// test that has any, and now, in points of percent, with that test's label.
// Testers of different orifices do not compare: another name is another tester.
func (c *Case) LossesSinceEarlier() (changes []diag.Change, label string) {
	for _, e := range slices.Backward(c.Earlier) {
		if e.Test == nil || e.Test.Leakage == nil || testerName(e.Test) != testerName(c.Test) {
			continue
		}
		if changes := lossesBetween(c.Then(e.Test), c); len(changes) > 0 {
			return changes, e.Label
		}
	}
	return nil, ""
}

func testerName(t *diag.Test) string {
	if t.Gauges.Leakage == nil {
		return ""
	}
	return t.Gauges.Leakage.Name
}

// leakRepeats is the expanded uncertainty of the difference of two losses of
// one tester, in points: 2 sqrt(2) of one point.
var leakRepeats = 2 * math.Sqrt2

func lossesBetween(then, now *Case) []diag.Change {
	var list []diag.Change
	for _, l := range now.Leaks() {
		if was := then.Leak(l.Name); was != nil {
			list = append(list, diag.Change{Name: l.Name, Then: *was.Loss, Now: *l.Loss, U: leakRepeats})
		}
	}
	return list
}

// MovedPoints is Moved for leakage: 1 is more loss.
func MovedPoints(ch diag.Change) int {
	moved := ch.Now - ch.Then
	if math.Abs(moved) <= max(ch.U, ShownPoints)+1e-9 {
		return 0
	}
	return int(math.Copysign(1, moved))
}

// A Repair is what one cylinder's readings say of the work between them.
type Repair string

// What came of a repair.
const (
	Proved    Repair = "proved"    // it was bad and is sound
	Better    Repair = "better"    // clearly better, and not sound or not bad before
	Unchanged Repair = "unchanged" // it was bad and nothing that these tests can show has changed
	Worse     Repair = "worse"     // clearly worse than before
)

// repairs are the readings before the work beside those after it.
type repairs struct {
	pressures, losses []diag.Change
	reason            string // why the compression does not compare
	of                map[string]Repair
	byPressure        map[string]Repair
	byLoss            map[string]Repair
	uncured           map[string]bool // bad before, and not sound now, however it moved
}

// Repaired gives what came of the work on each cylinder that was read before
// and after it; empty where the job has no readings before.
func (c *Case) Repaired() map[string]Repair { return c.repaired().of }

// RepairedTo lists the cylinders of one result, in the engine's order.
func (c *Case) RepairedTo(what Repair) []string {
	of := c.Repaired()
	return c.Those(func(n string) bool { return of[n] == what })
}

// GasBefore reports combustion gas in the coolant before the work.
func (c *Case) GasBefore() bool {
	before := c.beforeWork()
	return before != nil && before.CoolantGas == "positive" && !c.AirCooled()
}

// onlyTesting are the words of a test that was only made again, otherwise.
var onlyTesting = words("test tested testing again retest retested repeat repeated warm warmed up hot cold run ran engine until and then it the a with on charger battery charged " +
	"second another other gauge adapter hose throttle open held all plugs out , . ;")

// beforeWork is the test before the work, nil for none: a test that was only made
// again, warm or with another gauge, is no work that its readings could prove.
func (c *Case) beforeWork() *diag.Test {
	if c.Before == nil {
		return nil
	}
	said := token.FindAllString(strings.ToLower(c.Before.Done), -1)
	if len(said) > 0 && !slices.ContainsFunc(said, func(word string) bool { return !onlyTesting[word] }) {
		return nil
	}
	return c.Before.Test
}

// NotCompared is the key of the reason why the compression before the work and
// after it does not compare, "" where it does or was not read twice.
func (c *Case) NotCompared() string { return c.repaired().reason }

func (c *Case) repaired() *repairs {
	if c.repair != nil {
		return c.repair
	}
	r := &repairs{of: map[string]Repair{}, byPressure: map[string]Repair{}, byLoss: map[string]Repair{}, uncured: map[string]bool{}}
	c.repair = r
	test := c.beforeWork()
	if test == nil {
		return r
	}
	before := New(test)
	r.pressures, r.reason = diag.ChangesSince(c.Test, test)
	r.losses = lossesBetween(before, c)
	allLow := before.AllLow() != nil || before.Dead()
	worn := before.worn()
	for _, ch := range r.pressures {
		bad := allLow || worn || before.Grade(ch.Name).IsLow() || slices.Contains(before.UnderMinimum(), ch.Name) || c.underNow(ch.Then)
		sound := (c.Grade(ch.Name).IsGood() || c.enoughAlone(ch.Now)) && c.AllLow() == nil && !c.underNow(ch.Now)
		if allLow && c.Minimum() == nil && Moved(ch) == 0 { // on the other side of what nearly any engine gives by no more than two tests differ
			sound = false
		}
		r.byPressure[ch.Name] = r.set(ch.Name, bad, sound && !c.illElsewhere(ch.Name), Moved(ch))
	}
	for _, ch := range r.losses {
		was, is := before.Leak(ch.Name), c.Leak(ch.Name)
		r.byLoss[ch.Name] = r.set(ch.Name, before.LeakTooHigh(was), !c.LeakTooHigh(is), -MovedPoints(ch))
	}
	return r
}

// illElsewhere reports a cylinder that another test than its compression finds at fault: its
// pressure came up, and that proves nothing of what is left.
func (c *Case) illElsewhere(name string) bool {
	l := c.Leak(name)
	return l != nil && c.LeakTooHigh(l) || c.LeaksAt(name, AtCoolant) || c.CoolantGas == "positive" || c.CoolantIn(name) ||
		PullsNothing.HoldsOf(c, name) || PullsLittle.HoldsOf(c, name) || BreathesInPoorly.HoldsOf(c, name) || BreathesOutPoorly.HoldsOf(c, name)
}

// enoughAlone reports a pressure that is enough for the only cylinder of an engine, which has no
// other that could grade it: its minimum, or without one what is enough for any of its kind.
func (c *Case) enoughAlone(value float64) bool {
	if c.Several() {
		return false
	}
	if m := c.Minimum(); m != nil && m.Verdict != diag.NotJudged {
		return !c.underNow(value)
	}
	f := c.Floor()
	return f != nil && value >= f.Enough
}

// worn reports an engine that oil brought up in every cylinder by far more than its own
// volume does: it was losing its pressure past its rings, whatever it reads beside others
// of its kind.
func (c *Case) worn() bool {
	read := c.Read()
	return !c.Spec.Diesel() && len(read) > 0 && c.Has(NeedsWet) && !c.Noticed("wet-dose-too-large") && !slices.ContainsFunc(read, func(n string) bool {
		r := c.Cylinder(n)
		return r.Wet == nil || r.Dry == nil || 100*(*r.Wet-*r.Dry) < RawRise*(*r.Dry)
	})
}

// WorkWasFor reports a complaint that work of this kind is done for, of an engine whose
// readings the work made better, in none of them worse and in none as bad as before:
// whether it is gone is seen in use, and not in a test.
func (c *Case) WorkWasFor(complaint string) bool {
	if c.Before == nil || c.Before.Done == "" || !c.workHelped() {
		return false
	}
	if strings.HasPrefix(complaint, diag.CodeComplaint) { // whether it comes back is seen in use as well
		return true
	}
	done := strings.ToLower(c.Before.Done)
	return slices.ContainsFunc(workFor, func(w workOf) bool {
		return slices.Contains(w.complaints, AsComplaint(complaint)) && SpeaksOf(done, w.words...)
	})
}

// workHelped reports work after which some reading is better, of a cylinder or of the
// fuel, and none worse or as bad as before.
func (c *Case) workHelped() bool {
	failed := len(c.RepairedTo(Worse)) + len(c.Those(c.Uncured))
	helped := len(c.RepairedTo(Better)) + len(c.RepairedTo(Proved))
	for _, k := range c.Circuits() {
		switch what, _, _ := k.Repaired(); what {
		case Worse, Unchanged:
			failed++
		case Better, Proved:
			helped++
		}
	}
	return helped > 0 && failed == 0
}

// pending are the complaints that stand, and not those of before the work, for which
// it was done and to which its readings answer.
func (c *Case) pending() []string {
	if c.Before == nil || c.Before.Done == "" || len(c.History.Complaints) == 0 {
		return c.History.Complaints
	}
	if c.stand == nil {
		c.stand = c.History.Complaints // while it is asked what the readings say, which complaints have a part in
		c.stand = slices.DeleteFunc(slices.Clone(c.History.Complaints), c.WorkWasFor)
	}
	return c.stand
}

// workOf is work by its words, with the complaints that it is done for.
type workOf struct{ words, complaints []string }

// workFor is what is done for which complaint: common practice, no source.
var workFor = []workOf{
	{[]string{"ring", "hone", "rebore", "bored", "piston", "liner", "overhaul", "rebuil", "top end"}, []string{"oil use", "low power", "hard start", "no start", "misfire"}},
	{[]string{"valve", "head", "overhaul", "rebuil", "top end", "lash", "clearance"}, []string{"oil use", "low power", "hard start", "no start", "misfire"}},
	{[]string{"gasket", "head"}, []string{"coolant loss", "overheating", "low power", "misfire"}},
	{[]string{"injector", "nozzle", "regulator", "carburet", "purge"}, []string{"rich running", "lean running", "hard start", "no start", "low power", "misfire"}},
	{[]string{"fuel filter", "fuel pump", "strainer", "check valve"}, []string{"lean running", "hard start", "no start", "low power"}},
	{[]string{"coil", "lead", "plug", "ignition", "distributor", "points"}, []string{"misfire", "hard start", "no start", "low power"}},
	{[]string{"belt", "chain", "cam"}, []string{"misfire", "hard start", "no start", "low power", "noise"}},
	{[]string{"lifter", "rocker", "bearing"}, []string{"noise", "misfire", "low power"}},
	{[]string{"thermostat", "water pump", "radiator", "hose", "coolant"}, []string{"overheating", "coolant loss"}},
	{[]string{"turbo", "pcv", "breather", "stem seal", "guide"}, []string{"oil use"}},
}

// underNow reports a value of a cylinder under the minimum that the job states.
func (c *Case) underNow(value float64) bool {
	m := c.Minimum()
	if m == nil || m.Verdict == diag.NotJudged {
		return false
	}
	least, err := quantity.Convert(m.Limit, m.Unit, c.Cranking().Unit)
	return err == nil && value < least
}

// set notes the result of one kind of reading: what is worse, or unchanged, in
// one kind outweighs what the other proves.
func (r *repairs) set(name string, bad, sound bool, moved int) Repair {
	result := Repair("")
	r.uncured[name] = r.uncured[name] || bad && !sound
	switch {
	case moved < 0:
		result = Worse
	case moved > 0 && bad && sound:
		result = Proved
	case moved > 0:
		result = Better
	case bad && !sound:
		result = Unchanged
	}
	order := []Repair{"", Proved, Better, Unchanged, Worse}
	if slices.Index(order, result) > slices.Index(order, r.of[name]) {
		r.of[name] = result
	}
	return result
}

// Uncured reports a cylinder that was bad before the work and is not sound after it,
// whether it reads a little better or not.
func (c *Case) Uncured(name string) bool { return c.repaired().uncured[name] }

// PlacesGone are where a cylinder's air went before the work and, noted again, goes no
// more.
func (c *Case) PlacesGone(name string) []string {
	test := c.beforeWork()
	if test == nil || test.Leakage == nil || c.Leak(name) == nil || len(c.Leak(name).At) == 0 {
		return nil
	}
	var gone []string
	for _, at := range test.Leakage.Dry[name].At {
		if !slices.Contains(c.Leak(name).At, at) {
			gone = append(gone, at)
		}
	}
	return gone
}

// RepairBy is the result of the work on a cylinder by its compression, and by
// its leakage.
func (c *Case) RepairBy(name string) (pressure, loss Repair) {
	r := c.repaired()
	return r.byPressure[name], r.byLoss[name]
}

// RepairOf gives a cylinder's compression, and its leakage, before the work and
// after it; nil where it was not read twice.
func (c *Case) RepairOf(name string) (pressure, loss *diag.Change) {
	r := c.repaired()
	find := func(list []diag.Change) *diag.Change {
		for i := range list {
			if list[i].Name == name {
				return &list[i]
			}
		}
		return nil
	}
	return find(r.pressures), find(r.losses)
}

// On is a day in words, "on 13 May 2025"; "" for a day that is not known.
func On(day time.Time) *diag.When {
	if day.IsZero() {
		return nil
	}
	return &diag.When{Day: day}
}

// EarlierWhen says when an earlier test was made, by its label.
func (c *Case) EarlierWhen(label string) *diag.When {
	for i := range c.Earlier {
		if e := &c.Earlier[i]; e.Label == label && !e.Date.IsZero() {
			return On(e.Date)
		}
	}
	if day, err := time.Parse(time.DateOnly, label); err == nil {
		return On(day)
	}
	return &diag.When{Label: label}
}

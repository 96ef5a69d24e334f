package cause

import (
	"slices"
	"strings"
	"sync"

	"gaugesheet/diag"
	"gaugesheet/diag/known"
)

// A Way is what a check does to an engine and what it costs beside time.
type Way uint8

// The ways, to be combined.
const (
	Hand    Way = 1 << iota // the engine is turned by hand
	Starter                 // the starter turns the engine
	Runs                    // the engine runs, or has to be warm
	Opens                   // something comes apart
	Parts                   // parts are bought
	Oils                    // oil goes into a cylinder
	Air                     // compressed air goes into a cylinder, and may turn the crankshaft
	Covers                  // covers come off, and go on again
)

// A Check is something that can be done to find out more.
type Check struct {
	Name    string
	Minutes int // roughly: common practice, no source
	Labour  int // of these, work and not waiting; 0: all of them
	Way     Way
	Fits    func(c *known.Case, cylinders []string) bool // whom it fits; nil fits every engine
	// Made reports that the readings of the job hold its outcome for all of
	// these cylinders (for any, where none are named).
	Made func(c *known.Case, cylinders []string) bool
	// Reads gives the name of the outcome that the job's words tell, and whether they tell of
	// any, where it takes more than to find a word; nil where that is enough.
	Reads    func(c *known.Case) (outcome string, told bool)
	Mends    []string  // causes that it puts right as it is made
	Words    []string  // other words for it in a job's work done
	Titles   []string  // what a page calls it: read so in front of a colon, or of the cylinders
	Outcomes []Outcome // all of them
	all      []*Outcome
	place    int // among all checks
	// Why are causes that, once they were seen, it says the reason of: what it is asked
	// for where nothing else is left to be told apart.
	Why []string
	// Again: it repeats the test rather than looks into the engine.
	Again bool
	// Then is the check that repeats the test where this one left the doubt; "" for
	// none.
	Then string
	// Fuel: fuel lines are opened or watched.
	Fuel bool
	// Gas: of the checks on fuel one that may be made where the fuel is a gas under pressure,
	// of which no line is opened into a vessel.
	Gas bool
	// Pumps: the fuel pump has to deliver, which one that the engine drives does
	// only while the starter turns it.
	Pumps bool
	// Still: it tells something of an engine that does not start as well.
	Still bool
	// Whole: it is made on the engine or its fuel supply and not on cylinders.
	Whole bool
	// MinutesOf gives the time where it depends on the engine; nil: Minutes.
	MinutesOf func(c *known.Case, cylinders []string) int
	// OfTest: it tells of the gauge or of how it was tested, so that made on one
	// cylinder it is made.
	OfTest bool
	// Answers reports a matter that it goes straight to; nil for none.
	Answers func(c *known.Case) bool
	// DeadFirst: where a cylinder has no pressure it comes before what goes into
	// the cylinder, as it shows at once what stands still.
	DeadFirst bool
	// First: it takes one of the first readings of an engine.
	First bool
	// Baseline: it reads what many jobs bring with their first readings, so that of
	// all such one counts as made.
	Baseline bool
	// Further: its outcome may stand among the readings of a further test, of which a
	// job brings many at once.
	Further bool
	// Coolant: it looks at the coolant, and says nothing of a leak that goes from
	// one cylinder into the next.
	Coolant bool
	// Rest: it tests the cylinders that were left out.
	Rest bool
	// Gauge: it puts another gauge in the place of one whose readings on the starter are
	// in doubt.
	Gauge bool
	// YieldsTo is the check that is made before it on this engine, where that is open and tells of the first cause;
	// "" for none, nil for none on any.
	YieldsTo func(c *known.Case) string
	// OfSet: it is about the cylinders together, and named for all of them.
	OfSet bool
}

// An Outcome is one of the things that a check can show.
type Outcome struct {
	Name string
	For  []string // the causes that it speaks for
	// Sure is how likely the check shows it where one of these causes is there; 0
	// stands for certain.
	Sure float64
	Else bool // it speaks for whatever no other outcome does
	Mute bool // it tells nothing, and rules nothing out
	// Clears: all that its words tell is what was not the reason, so that a page says what is.
	Clears bool
	// Well: the engine reads as it should once it was shown, so that what the check
	// did not put right was not there.
	Well bool
	// Stops: the pistons do not get to their top.
	Stops bool
	Fits  func(*known.Case) bool
	// Enter writes the outcome into a copy of the test; nil notes it as work
	// done, in the words of the check and the outcome.
	Enter func(*Trial)
	Words []string // other words for it in a job's work done
	After []string // words that mean it only behind a colon: "coils swapped: moved"
}

// Checks is every check by name.
var Checks = numbered(slices.Concat(againChecks, sealingChecks, oilUseChecks, reasonChecks, portedChecks, motionChecks, noiseChecks, headChecks, mixtureChecks, fuelChecks, runningChecks, magnetoChecks, oilChecks, furtherChecks, extentChecks, codeChecks, sightChecks))

func numbered(list []Check) []Check {
	for i := range list {
		k := &list[i]
		k.place, k.all = i, make([]*Outcome, len(k.Outcomes))
		for j := range k.Outcomes {
			k.all[j] = &k.Outcomes[j]
		}
	}
	return list
}

var checksByName = sync.OnceValue(func() map[string]*Check {
	index := make(map[string]*Check, len(Checks))
	for i := range Checks {
		index[Checks[i].Name] = &Checks[i]
	}
	return index
})

// CheckNamed gives a check by its name, nil where there is none.
func CheckNamed(name string) *Check { return checksByName()[name] }

// Is reports that a check has one of these ways.
func (k *Check) Is(way Way) bool { return k.Way&way != 0 }

// Allowed reports that a check fits this engine and may be proposed at this
// urgency: at 'do not run' nothing that uses the starter or runs the engine, on an
// engine that burns gas nothing that is made on liquid fuel,
// warm engines only where the engine starts, none of these where oil may have run into
// a cylinder that hangs, and oil only where it may go in.
func (k *Check) Allowed(c *known.Case, cylinders []string, at diag.Urgency) bool {
	switch {
	case at == diag.DoNotRun && (k.Is(Starter|Runs) || k.Pumps && drivenPump(c)):
		return false
	case k.Fuel && !k.Gas && c.GasFuel(), k.onNewParts(c, cylinders):
		return false
	case k.Is(Air) && (c.LiquidLies(cylinders) || stopsHard(c)): // which air would only press past rings and valves, or whose piston is not brought to its top
		return false
	case k.Is(Runs) && len(c.UnreadBelow()) > 0: // what was seen there comes first
		return false
	case k.Is(Runs) && !k.Still && !c.Starts(), k.Is(Starter|Runs) && c.OilGathersBelow():
		return false
	}
	return k.Fits == nil || k.Fits(c, cylinders)
}

// stopsHard reports an engine that stopped hard when it was turned by hand.
func stopsHard(c *known.Case) bool {
	o := CheckNamed("turn-by-hand").Answer(c, nil)
	return o != nil && o.Stops
}

// IsMade reports that a check on these cylinders would tell nothing new: the
// readings of the job hold its outcome, or the job says that it was made.
func (k *Check) IsMade(c *known.Case, cylinders []string) bool {
	return k.Made != nil && k.Made(c, cylinders) || k.work(c, cylinders) != nil
}

// work is what the job says of the check having been made, nil for nothing.
func (k *Check) work(c *known.Case, cylinders []string) *known.Work {
	if !slices.Contains(c.SpeaksOf(checkNames()), k.place) {
		return nil
	}
	if k.OfTest {
		cylinders = nil
	}
	return c.DoneOf(cylinders, k.place)
}

// Told are the checks of which the job says in words that they were made, on
// whatever.
func Told(c *known.Case) []*Check {
	var list []*Check
	for _, at := range c.SpeaksOf(checkNames()) {
		list = append(list, &Checks[at])
	}
	return list
}

// tests are the names of a check that call it a test, and tell nothing of what
// came of it: 'combustion gas test' found no gas.
func (k *Check) tests() []string {
	names := []string{k.Name}
	for _, words := range k.Words {
		if strings.Contains(words, "test") {
			names = append(names, words)
		}
	}
	return names
}

// called are the names that each check goes by in a job's work done.
var called = sync.OnceValue(func() []known.Phrases {
	names := make([]known.Phrases, len(Checks))
	for i := range Checks {
		list := append([]string{Checks[i].Name}, Checks[i].Words...)
		for _, title := range Checks[i].Titles {
			list = append(list, title+":")
			if !Checks[i].Whole {
				list = append(list, title+" on")
			}
		}
		names[i] = known.Plain(list...)
	}
	return names
})

// checkNames are these, to be found in what a job says.
var checkNames = sync.OnceValue(func() *known.Vocabulary { return known.NewVocabulary(called()) })

// Answer gives the outcome that the job's work done names for the check on
// these cylinders, nil where it was not made or names none.
func (k *Check) Answer(c *known.Case, cylinders []string) *Outcome {
	w := k.work(c, cylinders)
	if w == nil {
		return nil
	}
	if k.Reads != nil {
		if name, read := k.Reads(c); read {
			return k.outcome(name)
		}
	}
	told := &known.Work{}
	_, after, cut := strings.Cut(w.Text, ":")
	if cut {
		told.Text = after
	} else {
		told = w.Without(k.tests()...)
	}
	var best *Outcome
	longest := 0 // "none comes out" is not what "comes out" is for
	for i := range k.Outcomes {
		o := &k.Outcomes[i]
		if o.Fits != nil && !o.Fits(c) {
			continue
		}
		lists := [][]string{{o.Name}, o.Words, o.After}
		if !cut {
			lists = lists[:2]
		}
		for _, words := range lists {
			for _, one := range words {
				if len(one) > longest && told.Says(one) {
					best, longest = o, len(one)
				}
			}
		}
	}
	return best
}

// outcome is the one of that name, nil for none.
func (k *Check) outcome(name string) *Outcome {
	if i := slices.IndexFunc(k.Outcomes, func(o Outcome) bool { return o.Name == name }); i >= 0 {
		return &k.Outcomes[i]
	}
	return nil
}

// Open lists the outcomes that this engine can show, to be read and not changed.
func (k *Check) Open(c *known.Case) []*Outcome {
	unfit := func(o *Outcome) bool { return o.Fits != nil && !o.Fits(c) }
	if !slices.ContainsFunc(k.all, unfit) {
		return k.all
	}
	return slices.DeleteFunc(slices.Clone(k.all), unfit)
}

// Shows is how likely the check shows an outcome where one of its causes is there.
func (o *Outcome) Shows() float64 {
	if o.Sure == 0 {
		return 1
	}
	return o.Sure
}

// Deeper reports a check whose outcome is a reading, and that goes further than
// the first readings of an engine.
func (k *Check) Deeper() bool {
	return k.Made != nil && !k.First && !k.OfTest
}

// Told reports that the job says in words that the check was made, on whatever.
func (k *Check) Told(c *known.Case) bool { return k.work(c, nil) != nil }

// MinutesFor is roughly how long the check takes on this engine.
func (k *Check) MinutesFor(c *known.Case, cylinders []string) int {
	if k.MinutesOf != nil {
		return k.MinutesOf(c, cylinders)
	}
	return k.Minutes
}

// LabourFor is how long somebody works on the check on this engine.
func (k *Check) LabourFor(c *known.Case, cylinders []string) int {
	if k.Labour > 0 {
		return k.Labour
	}
	return k.MinutesFor(c, cylinders)
}

// Ask is a check as a diagnosis proposes it.
func (k *Check) Ask(c *known.Case, cylinders []string, at diag.Urgency) *diag.Check {
	asked := &diag.Check{Key: k.Name, Cylinders: cylinders, Facts: k.Facts(c, cylinders, at), Minutes: k.MinutesFor(c, cylinders), Sets: len(k.Mends) > 0 && !k.Again || k.Is(Opens|Parts|Covers)}
	if c.History.ForSale && k.Is(Opens|Parts|Covers) {
		asked.Facts["consent"] = true
	}
	for _, o := range k.Open(c) {
		asked.Outcomes = append(asked.Outcomes, o.Name)
	}
	return asked
}

package known

import (
	"slices"
	"strings"

	"gaugesheet/diag"
)

// wetAt is where a cooling system under pressure was seen to be wet: "dry",
// "below" at a liner or into the oil pan, "outside", "inside", "oil" or "" where nothing of that
// is said.
func wetAt(r *diag.MeasuredResult) string {
	seen := strings.ToLower(r.Word("pressure-test seen"))
	switch {
	case seen == "":
		return ""
	case strings.HasPrefix(seen, "dry"), strings.HasPrefix(seen, "nothing"), strings.HasPrefix(seen, "no leak"), strings.HasPrefix(seen, "no drip"):
		return "dry"
	case seenBelow(seen):
		return "below"
	case strings.Contains(seen, "outside"), SpeaksOf(seen, headJoint...):
		return "outside"
	case strings.HasPrefix(seen, "oil"):
		return "oil"
	case strings.HasPrefix(seen, "wet in"), strings.HasPrefix(seen, "inside"), strings.Contains(seen, "cylinder"):
		return "inside"
	case SpeaksOf(seen, outsideParts...):
		return "outside"
	}
	return ""
}

// outsideParts are where coolant comes out, headJoint the joint between head and block,
// and intakeJoint that of the intake manifold.
var (
	outsideParts = append([]string{"weeps", "drips", "dripping", "weeping", "leaks", "hose", "hoses", "radiator", "water pump", "pump", "thermostat housing", "housing", "heater", "core plug", "freeze plug", "expansion tank", "tank", "seam", "cap", "on the floor", "carpet"}, intakeJoint...)
	headJoint    = []string{"head gasket", "head joint", "between head and block", "between the head and the block", "between head and barrel", "head to barrel", "barrel to head", "head to cylinder joint", "barrel joint", "between head and cylinder", "joint of the head", "head to block", "head/block", "under the head", "below the head", "edge of the gasket", "gasket edge"}
	intakeJoint  = []string{"intake manifold", "inlet manifold", "intake gasket", "inlet gasket", "lower intake", "lower manifold", "manifold gasket", "manifold joint", "plenum", "valley"}
)

// coolantAt is coolant that was seen to come out at one of these places: as the system was
// pumped up, or in a line of the technician's findings.
func (c *Case) coolantAt(places []string) bool {
	if r := c.Measured(Cooling); r != nil && wetAt(r) == "outside" && SpeaksOf(strings.ToLower(r.Word("pressure-test seen")), places...) {
		return true
	}
	if len(c.History.Findings) == 0 {
		return false
	}
	for _, place := range places {
		if c.Found(pairs("coolant|antifreeze|water", place)...) {
			return true
		}
	}
	return false
}

// headJointWet is coolant that was seen at the joint of the head as the engine stood, in no
// system that was pumped up, and the gasket proven by nothing else; what got into the oil by
// way of it did not come out.
func (c *Case) headJointWet() bool {
	if r := c.Measured(Cooling); r != nil && wetAt(r) == "outside" || c.AirCooled() || c.OilMixed() || c.CoolantGas == "positive" {
		return false
	}
	return c.coolantAt(headJoint) && !c.LosesAt(c.Every(), AtNeighbour) && !c.LosesAt(c.Every(), AtCoolant)
}

// headJointGas are words for gas that comes out at the joint of the head.
var headJointGas = pairs("puff|chuff|chirp|hiss|blows|blowing|soot|black streak|burnt streak|burned streak|bubbles", strings.Join(headJoint, "|"))

// Conditions on where coolant comes out.
var (
	CoolantAtIntake = OfEngine("coolant seen at the joint of the intake manifold", func(c *Case) bool { return !c.AirCooled() && c.coolantAt(intakeJoint) })
	HeadJointWet    = OfEngine("coolant seen at the joint between head and block among the technician's findings, no system pumped up that was wet outside, and no gas or air that came through", (*Case).headJointWet)
	CoolantOutside  = OfEngine("coolant seen to come out outside", func(c *Case) bool { return !c.AirCooled() && c.coolantAt(outsideParts) })
	HeadJointBlows  = OfEngine("gas that puffs, hisses or blows at the joint between head and block, or a black streak from it, among the technician's findings", func(c *Case) bool {
		return c.findingSays(func(text string) bool {
			return (SpeaksOf(text, headJointGas...) || SpeaksOf(text, blackStreak...) && SpeaksOf(text, headJoint...)) && !mended(text)
		})
	})
	CoolantAtHead = OfEngine("coolant seen outside at the joint between head and block", func(c *Case) bool { return !c.AirCooled() && c.coolantAt(headJoint) })
)

// blackStreak is what gas leaves at a joint that it blows through.
var blackStreak = []string{"black streak", "burnt streak", "burned streak", "sooty streak", "black trail", "streak of soot"}

// CoolantIn reports coolant that was seen in a cylinder: under pressure, or by eye.
func (c *Case) CoolantIn(name string) bool {
	return !c.AirCooled() && (slices.Contains(c.WetCylinders(), name) || c.LiquidSeenIn(name) && c.Seen(name, "coolant", "antifreeze"))
}

// CoolantThere is a cylinder in which coolant was seen.
var CoolantThere = OfAll("coolant seen in it", (*Case).CoolantIn)

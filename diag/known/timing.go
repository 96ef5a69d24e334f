package known

import (
	"math"
	"slices"

	"gaugesheet/diag"
)

// How far off timing is wrong whatever the book says: common practice, no source. A tooth is
// some 15 to 20 degrees at the crankshaft, half of that at the camshaft.
const (
	camToothOff = 10.0 // degrees off its mark, either way
	chainLoose  = 10.0 // degrees at the crankshaft before the camshaft follows
	baseFarLate = 8.0  // degrees after top dead centre
)

// PastOrFar is Past, and of timing without a limit what no book permits: it needs none to see
// that a tooth is off.
func PastOrFar(m *diag.MeasuredReading) (past, clear bool) {
	if m == nil || m.Limited() {
		return Past(m)
	}
	far := false
	switch m.Name {
	case "cam":
		far = math.Abs(m.Value) >= camToothOff
	case "chain-slack":
		far = m.Value > chainLoose
	case "base":
		far = m.Value < -baseFarLate
	}
	return far, far
}

// Conditions on the timing of the spark and of the valves.
var (
	LateBase = OfTest(Timing, "base timing later than its limit, or without one more than 8 degrees after top dead centre", func(r *diag.MeasuredResult) bool {
		m := r.Reading("base")
		if m != nil && !m.Limited() {
			far, _ := PastOrFar(m)
			return far
		}
		under, _ := Under(m)
		return under
	})
	BaseRight = OfTest(Timing, "base timing with a limit, and within it", func(r *diag.MeasuredResult) bool {
		m := r.Reading("base")
		return m != nil && m.Limited() && m.Verdict == diag.Within
	})
	EarlyBase = OfTest(Timing, "base timing earlier than its limit", func(r *diag.MeasuredResult) bool { over, _ := Over(r.Reading("base")); return over })
	NoAdvance = OfTest(Timing, "advance under its limit", func(r *diag.MeasuredResult) bool {
		under, _ := WorstOf(r, func(m *diag.MeasuredReading) (bool, bool) {
			if m.Name != "advance" {
				return false, false
			}
			return Under(m)
		})
		return under != nil
	})
	MuchAdvance = OfTest(Timing, "advance over its limit", func(r *diag.MeasuredResult) bool {
		over, _ := WorstOf(r, func(m *diag.MeasuredReading) (bool, bool) {
			if m.Name != "advance" {
				return false, false
			}
			return Over(m)
		})
		return over != nil
	})
	DwellOff = OfTest(Timing, "dwell or the gap of the points past its limit", func(r *diag.MeasuredResult) bool {
		dwell, _ := Past(r.Reading("dwell"))
		gap, _ := Past(r.Reading("points-gap"))
		return dwell || gap
	})
	// PointsFoundRight: the points were looked at and set by their book, and the spark came at its moment.
	PointsFoundRight = saidSo("points and timing found right", pairs("points and timing|points set|points adjusted|points gap set|dwell set", "right"))
	// PointsMoveSpark is points that are off the way that the spark is: wide ones open
	// soon, and close ones late.
	PointsMoveSpark = OfTest(Timing, "early with the gap of the points over its limit or the dwell under it, or late the other way round", func(r *diag.MeasuredResult) bool {
		base, dwell, gap := r.Reading("base"), r.Reading("dwell"), r.Reading("points-gap")
		early, _ := Over(base)
		late, _ := Under(base)
		little, _ := Under(dwell)
		much, _ := Over(dwell)
		wide, _ := Over(gap)
		small, _ := Under(gap)
		return early && (little || wide) && !much && !small || late && (much || small) && !little && !wide
	})
	CamLate = OfTest(Timing, "cam timing past its limit, or without one 10 degrees off its mark, or the chain slacker than it may be, without a limit by more than 10 degrees", func(r *diag.MeasuredResult) bool {
		cam, _ := PastOrFar(r.Reading("cam"))
		return cam || ChainSlack(r)
	})
	// CamMayMeet is a camshaft off by a tooth or so where valves and pistons can meet, or, of
	// an engine on a belt, nobody said that they cannot.
	CamMayMeet = OfEngine("cam timing at least 10 degrees off its mark and past any limit, on an engine whose valves can meet its pistons or that has a belt and nobody said that they cannot", func(c *Case) bool {
		r := c.Measured(Timing)
		if r == nil || r.Reading("cam") == nil {
			return false
		}
		off, _ := PastOrFar(r.Reading("cam"))
		may := c.Interferes() || c.mayMeet() && c.Spec.TimingDrive == "belt"
		return off && may && math.Abs(r.Reading("cam").Value) >= camToothOff
	})
)

// ChainSlack reports a chain slacker than it may be.
func ChainSlack(r *diag.MeasuredResult) bool {
	m := r.Reading("chain-slack")
	slack, _ := PastOrFar(m)
	return slack && (!m.Limited() || m.AboveLimit())
}

// markOff is a timing mark that was found to stand at another place than top dead centre: the
// outer ring of a damper on rubber walks, and a pulley or a pointer is of another engine.
var markOff = slices.Concat(
	pairs("timing mark|timing marks|mark on the|marks on the|damper ring|ring of the damper|outer ring|damper|balancer|balancer ring",
		"slipped|walked|crept|has moved|have moved|deg away|degrees away|deg off|degrees off|deg out|degrees out|is wrong|wrong one"),
	pairs("true tdc|true top dead|real tdc|tdc by piston stop|dead center by piston stop|dead centre by piston stop", "away|off the mark|from the mark|deg out|degrees out|not at the mark|beside the mark"))

// pullsAdvanced is an engine that was found to run as it should with its spark set earlier than
// its mark has it.
var pullsAdvanced = pairs("on the mark|by ear|advanced to|advanced by|advancing it|advancing the|timing advanced|more advance|turning the distributor",
	"pulled well|pulls well|pulled better|pulls better|ran better|runs better|ran well|ran cool|vacuum rose|vacuum came up|17 inhg|18 inhg|19 inhg|20 inhg|21 inhg")

var (
	// MarkOff is of a base timing that was read at such a mark.
	MarkOff = All(OfTest(Timing, "base timing read", func(r *diag.MeasuredResult) bool { return r.Reading("base") != nil }), FoundSo("a timing mark that is off its place", markOff))
	// PullsAdvanced is of one that its mark shows right.
	PullsAdvanced = All(BaseRight, FoundSo("an engine that pulls as it should with its spark set earlier", pullsAdvanced))
)

// MarksRight is valve timing that nobody need look for before the engine is turned: measured right, or
// its marks said to agree.
var MarksRight = Any(CamRight, OfEngine("the timing marks are said to agree", func(c *Case) bool {
	return slices.ContainsFunc(c.Works(), func(w Work) bool {
		return w.Says("timing marks", "cam marks", "marks", "cam timing", "camshaft timing", "valve timing", "timing checked") &&
			w.Says("agree", "agrees", "agreed", "line up", "lines up", "lined up", "right", "ok", "good", "correct") && !w.Says("off", "late", "jumped", "out", "off by")
	})
}))

package known

import (
	"math"

	"gaugesheet/diag"
)

// A Move is a reading that was taken before the work and after it, or what was
// seen or ticked then and now.
type Move struct {
	Name, At, Cylinder string // what it is of; "" where the test has one of its kind
	Ticked             bool   // a choice of words
	Way                Way
}

// A Way is which way a reading went.
type Way int

// The ways.
const (
	Down  Way = -1
	Same  Way = 0 // by no more than such tests differ, or in the same words
	Up    Way = 1
	Other Way = 2 // in other words
)

// Moves gives for each test that was made before the work and after it what its
// readings have done since, by the test's name; whether that is a repair is for the
// rules to say.
func (c *Case) Moves() map[string][]Move {
	if c.Before == nil || c.Before.Test == nil {
		return nil
	}
	then, moves := c.Then(c.Before.Test), map[string][]Move{}
	pressures, _ := diag.ChangesSince(c.Test, c.Before.Test)
	for _, ch := range pressures {
		moves["compression"] = append(moves["compression"], Move{Cylinder: ch.Name, Way: Way(Moved(ch))})
	}
	if testerName(c.Before.Test) == testerName(c.Test) {
		for _, ch := range lossesBetween(then, c) {
			moves["leakage"] = append(moves["leakage"], Move{Cylinder: ch.Name, Way: Way(MovedPoints(ch))})
		}
	}
	for _, name := range c.Every() {
		if was, is := then.Plug(name), c.Plug(name); was != nil && is != nil {
			moves["plugs"] = append(moves["plugs"], Move{Cylinder: name, Ticked: true, Way: inWords(was.Look, is.Look)})
		}
	}
	for _, k := range c.Circuits() {
		moves["fuel pressure"] = append(moves["fuel pressure"], k.moves()...)
	}
	gas := func(test *diag.Test) bool { return test.CoolantGas == "positive" || test.CoolantGas == "negative" }
	if gas(c.Test) && gas(c.Before.Test) {
		moves["coolant gas"] = []Move{{Ticked: true, Way: inWords(c.Before.Test.CoolantGas, c.CoolantGas)}}
	}
	for i := range c.Sums.Measured {
		now := &c.Sums.Measured[i]
		if was := then.Measured(now.Name); was != nil {
			moves[now.Name] = movesOf(was, now)
		}
	}
	return moves
}

// moves are those of a circuit: its readings, and what it held after the same time.
func (k Circuit) moves() []Move {
	before := k.beforeWork()
	if before == nil {
		return nil
	}
	var list []Move
	for i := range k.Readings {
		now := &k.Readings[i]
		if was := before.Reading(now.Name); was != nil && !now.Disagree && !was.Disagree {
			list = append(list, Move{Name: now.Name, At: k.Name, Way: way(now.Value-was.Value, k.Repeatability())})
		}
	}
	for _, now := range k.Hold {
		for _, was := range before.Hold {
			if was.Minutes == now.Minutes {
				list = append(list, Move{Name: "hold", At: k.Name, Way: way(now.Value-was.Value, k.Repeatability())})
			}
		}
	}
	return list
}

func movesOf(was, now *diag.MeasuredResult) []Move {
	var list []Move
	for i := range now.Readings {
		m := &now.Readings[i]
		if then := was.Same(m); then != nil && !m.Disagree && !then.Disagree {
			list = append(list, Move{m.Name, m.At, m.Cylinder, false, way(m.Value-then.Value, m.Uncertainty+then.Uncertainty)})
		}
	}
	for _, w := range now.Words {
		if then := (&diag.Measured{Words: was.Words}).WordOf(w.Name, w.Cylinder); then != "" {
			list = append(list, Move{w.Name, "", w.Cylinder, true, inWords(then, w.Value)})
		}
	}
	return list
}

func way(moved, u float64) Way {
	if math.Abs(moved) <= u+1e-9 {
		return Same
	}
	return Way(math.Copysign(1, moved))
}

func inWords(was, is string) Way {
	if was == is {
		return Same
	}
	return Other
}

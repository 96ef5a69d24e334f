package known

import (
	"slices"

	"gaugesheet/diag"
)

// tight is the loss in percent under which a cylinder holds its air.
const tight = 10

// likeSound is by how many points of loss a low cylinder may exceed the sound
// ones and still hold its air as they do: common practice, no source. What one
// tester reads of cylinders that make good pressure is its own nought, whatever
// its orifice.
const likeSound = 3

// smallLoss is the loss in percent up to which a leak at rest cannot be why a cylinder makes
// no pressure: reckoned, no source. Where a tester with an orifice of 1 mm shows 40 % lost the
// leak is smaller than that orifice, and what passes it in the twentieth of a second for
// which a cranked cylinder is under pressure is less than a tenth of its charge.
const smallLoss = 40

// smallLossOfAll is that where no cylinder of the engine makes pressure: nothing opens them
// all at once, and what they share lies elsewhere.
const smallLossOfAll = 60

// loneLoss is that of a cylinder that reads farLow percent of the others at most and was the
// only one tested: any tester shows so much of a sound cylinder.
const (
	loneLoss = 15
	farLow   = 75
)

// LossTooSmall reports a cylinder whose leak, measured at rest, is too small for the pressure
// that is missing: it fills badly. Bores that fuel washed leak as they turn, and so do those
// that oil brings back; a valve that lets air by may hang as it turns and close at rest; and a
// path to a neighbor or into the coolant speaks for itself.
func (c *Case) LossTooSmall(name string) bool {
	l := c.Leak(name)
	if l == nil || c.LossIsBound(name) || !c.HasValves() || c.Flooded() || c.WetEvidence(name) == WetRises {
		return false
	}
	elsewhere := slices.ContainsFunc(l.At, func(at string) bool { return at != AtCrankcase && at != "nowhere" })
	return !elsewhere && *l.Loss <= c.lossForPressure(name, l)
}

// lossForPressure is the loss in percent up to which a leak does not explain what a cylinder
// reads, 0 where any would. Of one that lacks a quarter or more, what sound ones lose on the
// same tester says more, where some were read.
func (c *Case) lossForPressure(name string, l *diag.LeakResult) float64 {
	r := c.Cylinder(name)
	switch {
	case r == nil:
		return 0
	case r.Grade == diag.NoPressure && c.Dead() && c.Several():
		return smallLossOfAll
	case r.Grade == diag.NoPressure:
		return smallLoss
	}
	_, sound := c.soundLoss()
	if lone := sound == 0 && c.Several(); !lone || c.overLimit(l) || !r.Grade.IsLow() || c.PartOfReference(r).Value > farLow {
		return 0
	}
	return loneLoss
}

// SealsAtRest reports an engine every cylinder of which was tested for leakage and loses no
// more than it may: whatever it reads on the starter, it is not worn.
func (c *Case) SealsAtRest() bool {
	leaks := c.Leaks()
	return len(leaks) > 0 && len(leaks) == len(c.Every()) && !c.Noticed("leakage-reads-nothing") &&
		!slices.ContainsFunc(leaks, func(l *diag.LeakResult) bool { return c.LeakTooHigh(l) || c.LossIsBound(l.Name) })
}

// AllTight reports that all of these cylinders were tested for leakage and
// hold their air.
func (c *Case) AllTight(names []string) bool {
	return len(names) > 0 && !slices.ContainsFunc(names, func(n string) bool {
		l := c.Leak(n)
		return l == nil || c.LossIsBound(n) || *l.Loss >= tight && !c.asTightAsSound(n)
	})
}

// asTightAsSound reports a low cylinder that loses no more than two others or more
// that make good pressure, less than a worn one would, and past its rings alone.
func (c *Case) asTightAsSound(name string) bool {
	return c.Grade(name).IsLow() && c.losesAsSound(name)
}

// losesAsSound is that of a cylinder of whatever pressure.
func (c *Case) losesAsSound(name string) bool {
	l := c.Leak(name)
	if l == nil || c.LossIsBound(name) || *l.Loss >= WornLoss || c.overLimit(l) ||
		slices.ContainsFunc(l.At, func(at string) bool { return at != AtCrankcase && at != "nowhere" }) {
		return false
	}
	middle, read := c.soundLoss()
	return read > 1 && *l.Loss <= middle+likeSound
}

// soundLoss is the middle loss of the cylinders that make good pressure, and of
// how many.
func (c *Case) soundLoss() (middle float64, read int) {
	var sound []float64
	for _, l := range c.Leaks() {
		if c.Grade(l.Name) == diag.Even && !c.LossIsBound(l.Name) {
			sound = append(sound, *l.Loss)
		}
	}
	if len(sound) == 0 {
		return 0, 0
	}
	slices.Sort(sound)
	return sound[len(sound)/2], len(sound)
}

// LikeSound gives the loss that cylinders are as tight as where more than a
// tight one loses is lost; "" where they hold their air by themselves.
func (c *Case) LikeSound(names []string) string {
	if worst := c.WorstLeak(names); worst == nil || *worst.Loss < tight {
		return ""
	}
	middle, _ := c.soundLoss()
	return loss(middle).String()
}

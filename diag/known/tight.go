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
	l := c.Leak(name)
	if l == nil || c.LossIsBound(name) || !c.Grade(name).IsLow() || *l.Loss >= WornLoss || c.overLimit(l) ||
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

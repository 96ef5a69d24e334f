package sheet

import (
	"slices"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/layout/figure"
)

// planKeys collects what the tones of a plan mean.
type planKeys struct {
	v *view
	d *figure.EnginePlan
}

// say adds a word for a tone of a scale, the last that was begun.
func (k *planKeys) say(t figure.Tone, word string) {
	said := &k.d.Scales[len(k.d.Scales)-1].Tones[t]
	if word == "" || slices.Contains(strings.Split(*said, ", "), word) {
		return
	}
	*said = joined(", ", *said, word)
}

// plain says what the quiet bars of a scale are where others stand beside
// them; of cylinders that were not judged it says nothing.
func (k *planKeys) plain() {
	c := k.v.compression()
	if c != nil && !slices.ContainsFunc(c.Cylinders, func(r diag.CylinderResult) bool { return r.Grade == diag.Even }) {
		return
	}
	for _, words := range k.d.Scales[len(k.d.Scales)-1].Tones {
		if words != "" {
			k.say(figure.Plain, k.v.grade(diag.Even))
			return
		}
	}
}

// list says what the marks are where their values follow, for a figure that has
// no room for them at the bars.
func (k *planKeys) list() {
	for shape, what := range k.d.ShapeKeys {
		k.d.ShapeLists[shape] = k.v.label("plan.list", "what", what)
	}
}

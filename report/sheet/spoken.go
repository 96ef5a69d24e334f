package sheet

import (
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
	"gaugesheet/layout/figure"
)

// What pictures show, in words, for who hears the page: made from what is drawn.

// signs are what the marks say, by mark.
func (v *view) signs() []string {
	words := make([]string, figure.Ticked+1)
	for mark, key := range map[figure.Mark]string{
		figure.Within: "within", figure.Low: "low", figure.High: "high", figure.TooClose: "too-close", figure.LookAgain: "look-again",
		figure.NotTested: "not-tested", figure.CouldNot: "could-not", figure.Declined: "declined", figure.Ticked: "ticked",
	} {
		words[mark] = v.label("spoken.sign." + key)
	}
	return words
}

// saying joins parts of a spoken text.
func saying(parts ...string) string { return joined("; ", parts...) }

// planWords are what the engine figure shows.
func (v *view) planWords(d *figure.EnginePlan) string {
	var cylinders, ties, limits []string
	for i := range d.Cylinders {
		c := &d.Cylinders[i]
		plain := ""
		if len(d.Scales) > 0 {
			plain = d.Scales[0].Tones[figure.Plain]
		}
		if said := v.figureWords(c, plain); said != "" {
			cylinders = append(cylinders, v.label("spoken.of", "name", c.Number, "said", said))
		}
	}
	for _, t := range d.Ties {
		ties = append(ties, t.Text)
	}
	for _, s := range d.Scales {
		for _, l := range s.Limits {
			limits = append(limits, l.Key)
		}
	}
	return v.label("spoken.plan", "count", len(d.Cylinders), "rotors", v.engine.Kind == engine.Rotary, "cylinders", saying(cylinders...),
		"banks", v.bankWords(d.Banks), "fronts", v.frontWords(d.VehicleAt, d.Vehicle, d.EngineAt, d.Engine), "ties", saying(ties...), "limits", saying(limits...))
}

// bankWords say which cylinders are in which bank.
func (v *view) bankWords(banks []figure.BankLabel) string {
	var said []string
	names := v.names()
	for _, b := range banks {
		var in []string
		for _, i := range b.Cylinders {
			in = append(in, names[i])
		}
		said = append(said, v.label("spoken.bank", "bank", b.Text, "cylinders", strings.Join(in, ", ")))
	}
	return saying(said...)
}

// frontWords say where on the drawing the fronts of vehicle and engine are.
func (v *view) frontWords(vehicle string, vehicleAt figure.Direction, front string, frontAt figure.Direction) string {
	at := map[figure.Direction]string{figure.Up: "up", figure.Down: "down", figure.Left: "left", figure.Right: "right"}
	var said []string
	for _, f := range []struct {
		words string
		at    figure.Direction
	}{{vehicle, vehicleAt}, {front, frontAt}} {
		if f.words != "" && f.at != figure.Nowhere {
			said = append(said, v.label("spoken.front", "front", f.words, "at", v.label("spoken.at."+at[f.at])))
		}
	}
	return saying(said...)
}

// figureWords are all that the figure shows of a cylinder; plain is what its
// quiet bars mean, "" where they were not judged.
func (v *view) figureWords(c *figure.Cylinder, plain string) string {
	var said []string
	for i, f := range c.Faces {
		grade := ""
		if f.Bar.Tone == figure.Plain && plain != "" {
			grade = v.grade(diag.Even)
		}
		said = append(said, v.label("spoken.face", "name", f.Name, "value", v.barWords(&c.Faces[i].Bar, v.pressureWords(f.Bar.Text), grade)))
	}
	for i := range c.Bars {
		b := &c.Bars[i]
		switch {
		case i == 0 && len(c.Faces) > 0:
		case i == 0 && (v.compression() != nil || v.rotors() != nil):
			said = append(said, v.barWords(b, v.pressureWords(b.Text), v.gradeOf(c.Number)))
		default:
			said = append(said, v.barWords(b, joined(", ", v.label("spoken.loss", "value", b.Text), v.lossWords(b.Tone)), ""))
		}
	}
	if c.Plug.Text != "" {
		said = append(said, v.label("spoken.plug", "words", v.whyNot(c.Plug.Mark, c.Plug.Text)))
	}
	return joined(", ", said...)
}

// barWords are a bar's value, or why it has none, how it stands beside the
// others, and its marks.
func (v *view) barWords(b *figure.CylinderBar, value, grade string) string {
	said := []string{v.whyNot(b.Mark, b.Word)}
	if b.Text != "" {
		said = []string{value, b.Word}
		if b.Word == "" {
			said[1] = grade
		}
	}
	for _, m := range b.Marks {
		said = append(said, v.label(map[figure.MarkShape]string{figure.Wedge: "spoken.wet", figure.Diamond: "spoken.before"}[m.Shape], "value", m.Text))
	}
	return joined(", ", said...)
}

// whyNot is why there is no reading, with the state where the reason is all that
// stands beside its symbol.
func (v *view) whyNot(m figure.Mark, word string) string {
	switch m {
	case figure.NotTested, figure.CouldNot, figure.Declined:
		if state := v.signs()[m]; word != "" && !strings.Contains(word, state) {
			return v.label("spoken.of", "name", state, "said", word)
		}
	}
	return word
}

func (v *view) pressureWords(value string) string {
	return v.label("spoken.pressure", "value", value, "unit", v.pressureUnit())
}

// gradeOf is how a cylinder's pressure stands beside the others, "" where it was
// not judged.
func (v *view) gradeOf(name string) string {
	if v.compression() == nil {
		return ""
	}
	r := v.compression().Cylinder(name)
	if r == nil || r.Grade == diag.GradeNotJudged || r.Grade == diag.GradeNotTested {
		return ""
	}
	return v.grade(r.Grade)
}

// lossWords are what the tone of a bar of air lost says.
func (v *view) lossWords(t figure.Tone) string {
	switch t {
	case figure.Hatch:
		return v.label("plan.loses-much")
	case figure.Faint:
		return v.label("plan.loses-more")
	}
	return ""
}

// rulerWords are what the ruler of the spread shows.
func (v *view) rulerWords(d *figure.Spread) string {
	var bars, limits, unread []string
	for i, b := range d.Bars {
		said := d.Zero
		if words := d.Say([]int{i}); len(words) > 0 {
			said = words[0]
		}
		bars = append(bars, v.label("spoken.of", "name", b.Number, "said", said))
	}
	for _, l := range d.Lines {
		limits = append(limits, l.Text)
	}
	for _, u := range d.Unread {
		unread = append(unread, v.label("spoken.of", "name", strings.Join(u.Numbers, ", "), "said", u.Why))
	}
	gauge := ""
	if d.Gauge > 0 {
		gauge = d.GaugeWords
	}
	return v.label("spoken.ruler", "sub", d.Sub, "bars", saying(bars...), "limits", saying(limits...), "gauge", gauge, "unread", saying(unread...))
}

// pressuresWords are what the rows of pressures show.
func (v *view) pressuresWords(d *figure.Pressures) string {
	signs := v.signs()
	var rows []string
	for _, c := range d.Circuits {
		for _, r := range c.Readings {
			said := []string{r.Text}
			if r.Allowed != nil {
				said = append(said, v.label("spoken.allowed", "range", r.Allowed.Text))
			}
			said = append(said, signs[r.Mark])
			rows = append(rows, v.label("spoken.of", "name", joined(" ", c.Name, r.Name), "said", joined(", ", said...)))
		}
	}
	return v.label("spoken.fuel", "unit", d.Unit, "rows", saying(rows...))
}

// emptyPlanWords are what the engine on a bench sheet shows.
func (v *view) emptyPlanWords(d *figure.PenPlan) string {
	var names []string
	for _, c := range d.Cylinders {
		names = append(names, c.Number)
	}
	return v.label("spoken.empty-plan", "count", len(d.Cylinders), "rotors", v.engine.Kind == engine.Rotary, "names", joined(", ", names...), "banks", v.bankWords(d.Banks),
		"fronts", v.frontWords(d.Vehicle, d.VehicleAt, d.Front, figure.Up))
}

// logoWords say whose logo it is.
func (v *view) logoWords(shop string) string {
	if shop == "" {
		return v.label("spoken.logo-alone")
	}
	return v.label("spoken.logo", "shop", shop)
}

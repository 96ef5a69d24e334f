package figure

import "gaugesheet/layout"

// runOn is the readings in words: what was read when, what is allowed, and the
// verdict where it is not within.
func (d Pressures) runOn(t layout.Theme, width layout.Length) layout.Frame {
	bold := t.Face(layout.Note)
	bold.Weight = layout.Bold
	runs := []layout.Run{run(t, layout.Note, t.Ink, d.Unit+":")}
	behind := func(mark string) { runs[len(runs)-1].Text += mark }
	for i, c := range d.Circuits {
		if i > 0 {
			behind(".")
		}
		if c.Name != "" {
			runs = append(runs, layout.Run{Text: c.Name + ":", Face: bold, Color: t.Ink})
		}
		for k, r := range c.Readings {
			if k > 0 {
				behind(";")
			}
			runs = append(runs, run(t, layout.Note, t.Ink, r.Name), layout.Run{Text: r.Text, Face: bold, Color: t.Ink})
			if r.Allowed != nil && r.Allowed.Beside != "" {
				runs = append(runs, run(t, layout.Note, t.Ink, r.Allowed.Beside))
			}
			if r.Judged != "" {
				behind(",")
				runs = append(runs, layout.Run{Text: r.Judged, Face: bold, Color: t.Ink})
			}
		}
	}
	behind(".")
	return stack(0, headed(t, width, run(t, layout.Heading, t.Ink, d.Title), runs...), captionLines(t, d.captions(), width, layout.Brief))
}

package chart

import (
	"strings"

	"gaugesheet/layout"
)

// A plot is a chart with its choices made: which sizes of type, whether the
// values stand upright, how the highest and lowest are marked.
type plot struct {
	Chart
	theme   layout.Theme
	value   layout.Face // of the values over the bars
	ghost   layout.Face
	upright bool // the values over the bars run upwards
	marks   [2]string
	labels  [][]string // lines of the label under each bar
	keys    keyLines
}

// Distances in points.
const (
	gap        layout.Length = 2.5 // between a bar and its text
	groupGap                 = 0.6 // between groups, in bar pitches
	bodyShare                = 0.62
	ghostShift               = 0.2 // of a bar's width
	mostPitch  layout.Length = 62
)

// axisRoom is what the axis takes from the width before it is drawn: a guess
// that is only used to choose sizes of type.
const axisRoom layout.Length = 30

func newPlot(t layout.Theme, c Chart, width layout.Length) *plot {
	p := &plot{Chart: c, theme: t, ghost: t.Face(layout.Note)}
	for i := range p.Bars {
		if i == 0 {
			p.Bars = append([]Bar(nil), c.Bars...)
		}
		b := &p.Bars[i]
		b.Value, b.Low, b.High, b.Ghost = usable(b.Value), usable(b.Low), usable(b.High), usable(b.Ghost)
	}
	pitch := p.pitch(width - axisRoom)
	p.value, p.upright = p.valueFace(pitch)
	p.chooseMarks(width-axisRoom, pitch)
	p.breakLabels(pitch)
	p.keys = p.layKeys(width)
	return p
}

func (p *plot) groups() int {
	n := 0
	for i, b := range p.Bars {
		if i > 0 && b.Group != p.Bars[i-1].Group {
			n++
		}
	}
	return n
}

// pitch is the distance from bar to bar.
func (p *plot) pitch(width layout.Length) layout.Length {
	slots := layout.Length(len(p.Bars)) + groupGap*layout.Length(p.groups())
	if slots == 0 {
		return mostPitch
	}
	return min(width/slots, mostPitch)
}

// middles are the middles of the bars; the bars stand in the middle of the
// width where they do not fill it.
func (p *plot) middles(left, width layout.Length) []layout.Length {
	pitch := p.pitch(width)
	used := pitch * (layout.Length(len(p.Bars)) + groupGap*layout.Length(p.groups()))
	x := left + (width-used)/2 + pitch/2
	all := make([]layout.Length, len(p.Bars))
	for i, b := range p.Bars {
		if i > 0 {
			x += pitch
			if b.Group != p.Bars[i-1].Group {
				x += pitch * groupGap
			}
		}
		all[i] = x
	}
	return all
}

// valueFace is the largest face in which the widest value fits over its bar:
// from the theme's strong face down to its smallest, else upright.
func (p *plot) valueFace(pitch layout.Length) (layout.Face, bool) {
	const room = 2
	face := p.theme.Face(layout.Strong)
	for {
		if p.widest(face) <= pitch-room {
			return face, false
		}
		if face.Size <= p.theme.Smallest || face.Size <= 1 {
			return face, true
		}
		face.Size = max(face.Size-0.5, p.theme.Smallest)
	}
}

// widest is the width of the widest text over a bar.
func (p *plot) widest(face layout.Face) (w layout.Length) {
	for _, b := range p.Bars {
		if b.Missing == "" {
			w = max(w, p.theme.Measurer.Width(b.Text, face))
		}
		if b.HasGhost {
			w = max(w, p.theme.Measurer.Width(b.GhostText, p.ghost))
		}
	}
	return w
}

// markWords are the marks of the highest and the lowest bar, the widest first.
var markWords = [...][2]string{{"highest", "lowest"}, {"max", "min"}, {"\u2191", "\u2193"}}

// chooseMarks takes the widest marks that do not touch one another.
func (p *plot) chooseMarks(width, pitch layout.Length) {
	middles := p.middles(0, width)
	face := p.theme.Face(layout.Note)
	for _, words := range markWords {
		p.marks = words
		right := -gap
		clear := true
		for i, b := range p.Bars {
			w := p.theme.Measurer.Width(p.mark(b), face)
			if w == 0 {
				continue
			}
			clear = clear && middles[i]-w/2 >= right+gap/2 && middles[i]+w/2 <= width
			right = middles[i] + w/2
		}
		if clear {
			return
		}
	}
}

// breakLabels sets each label in as many lines as keep it off its neighbours'.
func (p *plot) breakLabels(pitch layout.Length) {
	face := p.theme.Face(layout.Strong)
	for _, b := range p.Bars {
		if len(p.Bars) == 1 || p.theme.Measurer.Width(b.Label, face) <= pitch-gap/2 {
			p.labels = append(p.labels, []string{b.Label})
			continue
		}
		text := layout.Wrap(p.theme.Measurer, pitch-gap, layout.Run{Text: b.Label, Face: face})
		p.labels = append(p.labels, strings.Split(text.String(), "\n"))
	}
}

// labelDepth is how far the lowest label reaches below the first line of the
// others.
func (p *plot) labelDepth() layout.Length {
	lines := 1
	for _, l := range p.labels {
		lines = max(lines, len(l))
	}
	return layout.Length(lines-1) * layout.Leading(p.theme.Face(layout.Strong))
}

func (p *plot) mark(b Bar) string {
	switch {
	case b.Missing != "":
	case b.Highest:
		return p.marks[0]
	case b.Lowest:
		return p.marks[1]
	}
	return ""
}

func (p *plot) marked() bool {
	for _, b := range p.Bars {
		if p.mark(b) != "" {
			return true
		}
	}
	return false
}

// headHeight is the room over the frame for the text of a bar that reaches the
// top.
func (p *plot) headHeight() layout.Length {
	m := p.theme.Measurer
	ghosts := false
	var open layout.Length
	for _, b := range p.Bars {
		ghosts = ghosts || b.HasGhost && b.GhostText != ""
		if b.AtLeast {
			open = chevron + gap
		}
	}
	if p.upright {
		var h layout.Length
		for _, b := range p.Bars {
			w := m.Width(b.Text, p.value)
			if b.HasGhost && b.GhostText != "" {
				w += gap + m.Width(b.GhostText, p.ghost)
			}
			h = max(h, w)
		}
		return h + 2*gap + open
	}
	h := m.CapHeight(p.value) + 2*gap + open
	if ghosts {
		h += m.CapHeight(p.ghost) + gap
	}
	return h
}

// footHeight is the room under the frame: the labels of the bars, the marks,
// then what the lines in the chart are.
func (p *plot) footHeight() layout.Length {
	h := p.labelHeight() + p.keys.height
	if p.keys.height > 0 {
		h += gap
	}
	return h
}

// labelHeight is the room of the bars' labels and the marks under them.
func (p *plot) labelHeight() layout.Length {
	m := p.theme.Measurer
	strong := p.theme.Face(layout.Strong)
	h := gap + m.CapHeight(strong) + p.labelDepth()
	if p.marked() {
		note := p.theme.Face(layout.Note)
		h += gap + m.Ascent(note)
	}
	return h + gap
}

// Least heights of the highest bar: as a chart should have it, and in which
// bars can still be told apart where the page is full to the last.
const (
	leastBar      layout.Length = 46
	leastCloseBar layout.Length = 32
)

// LeastHeight is the least height in which a chart can be read.
func LeastHeight(t layout.Theme, c Chart, width layout.Length) layout.Length {
	p := newPlot(t, c, width)
	bar := leastBar
	if t.Close {
		bar = leastCloseBar
	}
	return p.footHeight() + max(p.headHeight()+bar, p.missingHeight(width))
}

// missingHeight is the room of the longest upright word for a missing bar.
func (p *plot) missingHeight(width layout.Length) (h layout.Length) {
	pitch := p.pitch(width - axisRoom)
	for _, b := range p.Bars {
		if b.Missing != "" {
			h = max(h, p.missingText(b.Missing, pitch).W+4*gap)
		}
	}
	return h
}

// dashes tell limits apart; a further one takes the first again.
var dashes = [...][]layout.Length{{5, 2.5}, {1.5, 2}, {8, 2, 1.5, 2}}

func (p *plot) limitPen(i int) layout.Pen {
	return layout.Pen{Width: 1.1, Color: p.theme.Accent, Dash: dashes[i%len(dashes)]}
}

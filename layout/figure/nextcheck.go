package figure

import (
	"strings"

	"gaugesheet/layout"
)

// NewNextCheck is the block "next-check": the one check that settles most,
// drawn as a fork to its outcomes, side by side where their words are short. All
// outcomes are there at every level: at compact under one another, at brief in
// small type, a line to each, then as one paragraph, and without what comes after an
// outcome, as far as there is no height for more.
func NewNextCheck(d NextCheck) layout.Block {
	return block{"next-check", func(t layout.Theme, width layout.Length, level layout.Detail) layout.Frame {
		fork := func(t layout.Theme, pad layout.Length, forked forkWay) func() layout.Frame {
			return func() layout.Frame {
				return checkBox(t, width, pad, func(inner layout.Length) layout.Frame { return checkFork(t, d, inner, forked) })
			}
		}
		paragraph := func(next bool) layout.Frame {
			return checkBox(t, width, small+tight, func(inner layout.Length) layout.Frame { return checkRunOn(t, d, inner, next) })
		}
		lines := func(next bool) layout.Frame {
			return checkBox(t, width, small+tight, func(inner layout.Length) layout.Frame { return checkLines(t, d, inner, next) })
		}
		columns, rows, close := fork(t, wide, forkColumns), fork(t, medium, forkRows), fork(smallType(t), small+tight, forkRows)
		switch level {
		case layout.Full:
			return columns()
		case layout.Compact:
			f := rows()
			f.Richer = richer(f, columns)
			return f
		}
		f := paragraph(false)
		f.Richer = richer(f, columns, rows, close, func() layout.Frame { return lines(true) }, func() layout.Frame { return paragraph(true) }, func() layout.Frame { return lines(false) })
		return f
	}}
}

// A forkWay draws outcomes as a fork in a width.
type forkWay func(t layout.Theme, outcomes []Outcome, width layout.Length) layout.Frame

// smallType is a theme whose running text is as small as its labels.
func smallType(t layout.Theme) layout.Theme {
	t.Sizes[layout.Body], t.Sizes[layout.Strong] = t.Sizes[layout.Label], t.Sizes[layout.Label]
	return t
}

// richer is the first of several ways that a height holds, else the least.
func richer(least layout.Frame, ways ...func() layout.Frame) func(layout.Length) layout.Frame {
	return func(height layout.Length) layout.Frame {
		for _, way := range ways {
			if f := way(); f.Height <= height {
				return f
			}
		}
		return least
	}
}

// checkBox draws a heavy frame around a check.
func checkBox(t layout.Theme, width, pad layout.Length, inside func(inner layout.Length) layout.Frame) layout.Frame {
	return behind(inset(inside(width-2*pad), pad-tight, pad, pad, pad), func(s layout.Surface, a layout.Rect) {
		s.Stroke(layout.RectPath(a.Inset(heavy/2)), layout.Pen{Width: heavy, Color: t.Accent})
	})
}

// checkHead is the title with the time at the right, or under it where the box is
// narrow, and how the check is made.
func checkHead(t layout.Theme, d NextCheck, width layout.Length) layout.Frame {
	w := t.Measurer.Width(d.Title, t.Face(layout.Heading)) + medium
	title := heard(layout.Heading2, textFrame(t, d.Title, layout.Heading, t.Ink, width))
	do := textFrame(t, d.Do, layout.Body, t.Ink, width)
	if w+t.Measurer.Width(d.Effort, t.Face(layout.Label)) > width {
		return stack(tight, title, textFrame(t, d.Effort, layout.Label, t.Ink, width), do)
	}
	effort := inset(alignRight(t, d.Effort, layout.Label, t.Ink, width-w), tight, 0, 0, 0)
	return stack(tight, beside(0, column{w, title}, column{width - w, effort}), do)
}

// outcomeLine is an outcome as a paragraph.
func outcomeLine(t layout.Theme, o Outcome, width layout.Length) layout.Frame {
	return paragraph(t, width, layout.Left, run(t, layout.Strong, t.Ink, ended(o.If, ":")), run(t, layout.Body, t.Ink, o.Then), run(t, layout.Body, t.Ink, o.Next))
}

// ended is a text with a mark behind it, nothing without a text.
func ended(text, mark string) string {
	if text == "" {
		return ""
	}
	return text + mark
}

// checkRunOn sets a check as one small paragraph, with or without what comes next
// after an outcome.
func checkRunOn(t layout.Theme, d NextCheck, width layout.Length, next bool) layout.Frame {
	runs := []layout.Run{run(t, layout.Label, t.Ink, dotted(ended(d.Effort, ":"))), run(t, layout.Label, t.Ink, d.Do)}
	for _, o := range d.Outcomes {
		runs = append(runs, smallOutcome(t, o, next)...)
	}
	if next {
		runs = append(runs, run(t, layout.Label, t.Ink, d.Others))
	}
	return headed(t, width, run(t, layout.Heading, t.Ink, d.Title), runs...)
}

// checkLines sets a check in small type as well, with a line to each outcome, whose
// further lines stand in from its first.
func checkLines(t layout.Theme, d NextCheck, width layout.Length, next bool) layout.Frame {
	frames := []layout.Frame{headed(t, width, run(t, layout.Heading, t.Ink, d.Title),
		run(t, layout.Label, t.Ink, dotted(ended(d.Effort, ":"))), run(t, layout.Label, t.Ink, d.Do))}
	var outcomes []layout.Frame
	for _, o := range d.Outcomes {
		words := heard(layout.Item, paragraph(t, width-small-tight, layout.Left, smallOutcome(t, o, next)...))
		outcomes = append(outcomes, behind(inset(words, 0, 0, 0, small+tight), func(s layout.Surface, a layout.Rect) {
			face := t.Face(layout.Label)
			middle := baseline(s, face, a.Y) - s.CapHeight(face)/2
			s.Fill(layout.RectPath(layout.Rect{X: a.X, Y: middle - 1.1, W: 2.2, H: 2.2}), t.Ink)
		}))
	}
	frames = append(frames, heard(layout.List, stack(0, outcomes...)))
	if next {
		frames = append(frames, textFrame(t, d.Others, layout.Label, t.Ink, width))
	}
	return stack(0, frames...)
}

// smallOutcome is an outcome in small type, with or without what comes next.
func smallOutcome(t layout.Theme, o Outcome, next bool) []layout.Run {
	name := run(t, layout.Label, t.Ink, ended(o.If, ":"))
	name.Face.Weight = layout.Bold
	runs := []layout.Run{name, run(t, layout.Label, t.Ink, o.Then)}
	if next {
		runs = append(runs, run(t, layout.Label, t.Ink, o.Next))
	}
	return runs
}

// dotted puts a middle dot before words that run on.
func dotted(s string) string {
	if s == "" {
		return ""
	}
	return "· " + s
}

// checkFork sets a check with its outcomes as a fork, drawn in the given way.
func checkFork(t layout.Theme, d NextCheck, width layout.Length, fork forkWay) layout.Frame {
	outcomes := empty()
	if len(d.Outcomes) > 0 {
		outcomes = heard(layout.List, fork(t, d.Outcomes, width))
	}
	return stack(small, checkHead(t, d, width), outcomes, textFrame(t, d.Others, layout.Body, t.Ink, width), againFrame(t, d.Again, width))
}

// Measures of a fork, in points: the stem's and the arrows' length, the size
// of an arrow's head.
const (
	forkStem  layout.Length = 5
	forkArrow layout.Length = 9
	arrowHead layout.Length = 4
)

// forkColumns is the fork with a column for each outcome; with rows where a
// word would be broken or a column be a tower of words.
func forkColumns(t layout.Theme, outcomes []Outcome, width layout.Length) layout.Frame {
	const most, mostLines = 4, 9
	n := len(outcomes)
	if n < 2 || n > most {
		return forkRows(t, outcomes, width)
	}
	w := (width - wide*layout.Length(n-1)) / layout.Length(n)
	var columns []column
	for _, o := range outcomes {
		if longestWord(t, o) > w {
			return forkRows(t, outcomes, width)
		}
		columns = append(columns, column{w, heard(layout.ItemOfParts, stack(1,
			evenLines(t, run(t, layout.Strong, t.Ink, o.If), w, layout.Center),
			evenLines(t, run(t, layout.Body, t.Ink, o.Then), w, layout.Center),
			evenLines(t, run(t, layout.Body, t.Ink, o.Next), w, layout.Center)))})
	}
	words := beside(wide, columns...)
	if words.Height > mostLines*lineHeight(t.Face(layout.Body)) {
		return forkRows(t, outcomes, width)
	}
	return behind(inset(words, forkStem+forkArrow+tight, 0, 0, 0), func(s layout.Surface, a layout.Rect) {
		drawFork(s, t, a, n, w)
	})
}

// drawFork draws the stem, the bar and an arrow to each of n columns.
func drawFork(s layout.Surface, t layout.Theme, a layout.Rect, n int, w layout.Length) {
	pen := layout.Pen{Width: outline, Color: t.Ink}
	column := func(i int) layout.Length { return a.X + w/2 + layout.Length(i)*(w+wide) }
	middle, bar := (column(0)+column(n-1))/2, a.Y+forkStem
	s.Stroke(layout.Polyline(layout.Point{X: middle, Y: a.Y}, layout.Point{X: middle, Y: bar}), pen)
	s.Stroke(layout.Polyline(layout.Point{X: column(0), Y: bar}, layout.Point{X: column(n - 1), Y: bar}), pen)
	for i := range n {
		forkHead(s, t, layout.Point{X: column(i), Y: bar}, layout.Point{X: column(i), Y: bar + forkArrow})
	}
}

// longestWord is the width of an outcome's longest word.
func longestWord(t layout.Theme, o Outcome) (w layout.Length) {
	for role, text := range map[layout.Role]string{layout.Strong: o.If, layout.Body: o.Then + " " + o.Next} {
		for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == '-' || r == '/' }) {
			w = max(w, t.Measurer.Width(word, t.Face(role)))
		}
	}
	return w
}

// forkRows is the fork with a row for each outcome, its stem at the left; in
// two columns where the box is wide.
func forkRows(t layout.Theme, outcomes []Outcome, width layout.Length) layout.Frame {
	n := len(outcomes)
	if width < twoColumns || n < 2 {
		return forkStemmed(t, outcomes, width)
	}
	w := (width - columnGap) / 2
	best := forkStemmed(t, outcomes, width)
	for i := 1; i < n; i++ {
		pair := beside(columnGap, column{w, forkStemmed(t, outcomes[:i], w)}, column{w, forkStemmed(t, outcomes[i:], w)})
		if pair.Height < best.Height {
			best = pair
		}
	}
	return best
}

// forkStemmed is rows of outcomes on one stem.
func forkStemmed(t layout.Theme, outcomes []Outcome, width layout.Length) layout.Frame {
	const indent, gap = 2 * medium, small
	line := lineHeight(t.Face(layout.Strong))
	var rows []layout.Frame
	for _, o := range outcomes {
		rows = append(rows, heard(layout.Item, outcomeLine(t, o, width-indent)))
	}
	return behind(inset(stack(gap, rows...), 0, 0, 0, indent), func(s layout.Surface, a layout.Rect) {
		x, y := a.X+tight, a.Y+line/2
		for i, r := range rows {
			forkHead(s, t, layout.Point{X: x, Y: y}, layout.Point{X: a.X + indent - small, Y: y})
			if i < len(rows)-1 {
				y += r.Height + gap
			}
		}
		s.Stroke(layout.Polyline(layout.Point{X: x, Y: a.Y - small}, layout.Point{X: x, Y: y}), layout.Pen{Width: outline, Color: t.Ink})
	})
}

// forkHead draws a line with a head at its end, across or down.
func forkHead(s layout.Surface, t layout.Theme, from, to layout.Point) {
	const half = arrowHead * 0.6
	back, side := layout.Point{X: to.X - arrowHead, Y: to.Y}, layout.Point{Y: half}
	if from.X == to.X {
		back, side = layout.Point{X: to.X, Y: to.Y - arrowHead}, layout.Point{X: half}
	}
	s.Stroke(layout.Polyline(from, back), layout.Pen{Width: outline, Color: t.Ink})
	s.Fill(layout.Polygon(to, back.Add(side.X, side.Y), back.Add(-side.X, -side.Y)), t.Ink)
}

package figure

import (
	"gaugesheet/layout"
)

// A Verdict describes what the sheet opens with: the sentence with a symbol of
// what was found, what stands under it, and the answers to an owner's first
// questions.
type Verdict struct {
	Mark     Mark
	Sentence string
	Second   string
	Answers  []Answer
}

// An Answer is a question of an owner's with its answer in a word or two and
// why in a line. Sure is how many of three squares are filled before it; 0 for
// no squares. WithWhy has the shortest form say why as well.
type Answer struct {
	Question, Word, Why string
	Sure                int
	WithWhy             bool
}

// sureSquares is how many squares say how sure.
const sureSquares = 3

// NewVerdict is the block "verdict", between rules. The sentence is as large as
// leaves it one line, or two where it is long.
func NewVerdict(d Verdict) layout.Block {
	return block{"verdict", func(t layout.Theme, width layout.Length, level layout.Detail) layout.Frame {
		if level == layout.Brief {
			return verdictRunOn(t, d, width)
		}
		gap := [...]layout.Length{layout.Full: medium, layout.Compact: small + 1}[level]
		answers := answerRow(t, d.Answers, width, level)
		frame := stack(gap, headline(t, d, width, level), answers)
		below := rule(layout.Pen{Width: hairline, Color: t.Line})
		if answers.Height == 0 {
			below = rule(layout.Pen{Width: thin, Color: t.Accent})
		}
		return stack(gap-tight, rule(layout.Pen{Width: 2 * heavy, Color: t.Accent}), frame, below)
	}}
}

// verdictRunOn is the sentence with what stands under it, and the answers in a
// line of their own, without why but where that has to be said.
func verdictRunOn(t layout.Theme, d Verdict, width layout.Length) layout.Frame {
	var runs []layout.Run
	for i, a := range d.Answers {
		word := a.Word
		if a.WithWhy {
			word += ": " + a.Why
		}
		if i < len(d.Answers)-1 {
			word += runOnDot
		}
		runs = append(runs, run(t, layout.Label, t.Ink, a.Question), run(t, layout.Strong, t.Ink, word))
	}
	words := stack(tight, headline(t, d, width, layout.Brief), paragraph(t, width, layout.Left, runs...))
	return stack(tight, rule(layout.Pen{Width: heavy, Color: t.Accent}), words, rule(layout.Pen{Width: hairline, Color: t.Line}))
}

// headline is the sentence with its symbol and what stands under it.
func headline(t layout.Theme, d Verdict, width layout.Length, level layout.Detail) layout.Frame {
	face := t.Face(layout.Display)
	indent := layout.Length(0)
	if d.Mark != NoMark {
		indent = markSize(t, face) + medium + tight
	}
	face = headlineFace(t, d.Sentence, width-indent, level)
	size := markSize(t, face) * 1.1
	if d.Mark != NoMark {
		indent = size + medium + tight
	}
	inner := width - indent
	if level == layout.Brief {
		sentence := evenLines(t, layout.Run{Text: d.Sentence, Face: face, Color: t.Ink}, inner, layout.Left)
		words := stack(0, heard(layout.Heading2, sentence), textFrame(t, d.Second, layout.Label, t.Ink, inner))
		return marked(t, d.Mark, face, size, words, indent)
	}
	sentence := evenLines(t, layout.Run{Text: d.Sentence, Face: face, Color: t.Ink}, inner, layout.Left)
	words := stack(tight, heard(layout.Heading2, sentence), balanced(t, d.Second, layout.Body, t.Ink, inner))
	return marked(t, d.Mark, face, size, words, indent)
}

// headlineFace is the largest size at which a sentence has one line, or two of
// a smaller size where one line would be small.
func headlineFace(t layout.Theme, sentence string, width layout.Length, level layout.Detail) layout.Face {
	face := t.Face(layout.Display)
	full := face.Size * [...]layout.Length{layout.Full: 1, layout.Compact: 0.86, layout.Brief: 0.72}[level]
	least := max(face.Size*0.72, t.Smallest)
	oneLine, twoLines := max(full*0.86, least), max(full*0.9, least)
	for face.Size = full; face.Size > least; face.Size -= 0.5 {
		lines := len(breakLines(t.Measurer, sentence, face, width))
		if lines <= 1 && face.Size >= oneLine || lines == 2 && face.Size <= twoLines {
			return face
		}
	}
	face.Size = least
	return face
}

// answerRow sets the answers side by side, with a thin line between them.
func answerRow(t layout.Theme, answers []Answer, width layout.Length, level layout.Detail) layout.Frame {
	n := layout.Length(len(answers))
	if n == 0 {
		return empty()
	}
	const gap = 2 * wide
	w := (width - gap*(n-1)) / n
	var row []column
	for _, a := range answers {
		row = append(row, column{w, answerFrame(t, a, w, level)})
	}
	return behind(beside(gap, row...), func(s layout.Surface, area layout.Rect) {
		for i := 1; i < len(answers); i++ {
			x := area.X + layout.Length(i)*(w+gap) - gap/2
			s.Stroke(layout.Polyline(layout.Point{X: x, Y: area.Y + 1}, layout.Point{X: x, Y: area.Bottom() - 1}), layout.Pen{Width: hairline, Color: t.Line})
		}
	})
}

// answerFrame is one answer: its question, the word, and why.
func answerFrame(t layout.Theme, a Answer, width layout.Length, level layout.Detail) layout.Frame {
	face := t.Face(layout.Heading)
	if level == layout.Full {
		face.Size *= 1.15
	}
	squares := layout.Length(0)
	if a.Sure > 0 {
		squares = sureSquares*(face.Size+tight) + medium
	}
	word := evenLines(t, layout.Run{Text: a.Word, Face: face, Color: t.Ink}, width-squares, layout.Left)
	if a.Sure > 0 {
		x := min(t.Measurer.Width(a.Word, face), width-squares) + medium
		word = behind(word, func(s layout.Surface, area layout.Rect) {
			drawSquares(s, t, layout.Point{X: area.X + x, Y: baseline(s, face, area.Y)}, face.Size, a.Sure)
		})
	}
	question := textFrame(t, a.Question, layout.Label, t.Ink, width)
	return stack(0, question, word, balanced(t, a.Why, layout.Label, t.Ink, width))
}

// drawSquares draws three squares on a baseline, the first of them filled.
func drawSquares(s layout.Surface, t layout.Theme, at layout.Point, size layout.Length, filled int) {
	side := size * 0.8
	for i := range sureSquares {
		box := layout.Rect{X: at.X + layout.Length(i)*(size+tight), Y: at.Y - side, W: size, H: side}
		if i < filled {
			s.Fill(layout.RectPath(box), t.Ink)
		}
		s.Stroke(layout.RectPath(box.Inset(outline/2)), layout.Pen{Width: outline, Color: t.Ink})
	}
}

// Package record is the Surface that writes down what was drawn, for tests of
// drawings (every action as a line of text, and every piece of text with the area
// it covers on the page), and knows nothing of what is on it.
package record

import (
	"fmt"
	"math"
	"strings"

	"gaugesheet/layout"
)

// A Text is one line of text as it stands on the page.
type Text struct {
	String string
	Rect   layout.Rect // upright box around the text from ascender to descender
	Ink    layout.Rect // the box without the room that the letters leave free
	Face   layout.Face
	Color  layout.Color
	Block  string // names of the blocks around it, outermost first: "findings/title"
	Hidden bool   // a clip leaves nothing or only a part of it
}

// A Box is a block as it was drawn.
type Box struct {
	Name string // with the names of the blocks around it
	Rect layout.Rect
}

// A shape is the visible bounds of an outline, with the blocks around it.
type shape struct {
	rect  layout.Rect
	block string
}

// Recorder is a Surface that writes down.
type Recorder struct {
	layout.Measurer

	lines  []string
	texts  []Text
	boxes  []Box
	shapes []shape
	blocks []string
	turns  []turn
	clips  []layout.Rect // on the page, each inside the one before
}

// New starts an empty record whose text is as wide as m says.
func New(m layout.Measurer) *Recorder { return &Recorder{Measurer: m} }

// Lines are the actions in order, one a line, indented by scope, with lengths
// rounded to 0.01 pt.
func (r *Recorder) Lines() []string { return r.lines }

// Texts are the pieces of text in the order in which they were drawn.
func (r *Recorder) Texts() []Text { return r.texts }

// Boxes are the blocks in the order in which they were begun.
func (r *Recorder) Boxes() []Box { return r.boxes }

// Find gives the texts that contain a string.
func (r *Recorder) Find(part string) []Text {
	var found []Text
	for _, t := range r.texts {
		if strings.Contains(t.String, part) {
			found = append(found, t)
		}
	}
	return found
}

// Overlaps are the pairs of texts whose ink boxes overlap.
func (r *Recorder) Overlaps() [][2]Text {
	var pairs [][2]Text
	for i, a := range r.texts {
		for _, b := range r.texts[i+1:] {
			if a.Ink.Overlaps(b.Ink) {
				pairs = append(pairs, [2]Text{a, b})
			}
		}
	}
	return pairs
}

// Outside are the texts and outlines that reach out of an area, as lines to
// read. What a clip cuts off does not count.
func (r *Recorder) Outside(area layout.Rect) []string {
	var out []string
	for _, t := range r.texts {
		if !area.Contains(t.Ink) {
			out = append(out, fmt.Sprintf("text %q at %s", t.String, rect(t.Ink)))
		}
	}
	for _, s := range r.shapes {
		if !area.Contains(s.rect) {
			out = append(out, "shape at "+rect(s.rect))
		}
	}
	return out
}

// Ink is the area that text and outlines cover in a block, those within it
// included. It is not ok where there are none.
func (r *Recorder) Ink(block string) (ink layout.Rect, ok bool) {
	cover := func(name string, area layout.Rect) {
		if name != block && !strings.HasPrefix(name, block+"/") {
			return
		}
		if !ok {
			ink, ok = area, true
			return
		}
		x, y := min(ink.X, area.X), min(ink.Y, area.Y)
		ink = layout.Rect{X: x, Y: y, W: max(ink.Right(), area.Right()) - x, H: max(ink.Bottom(), area.Bottom()) - y}
	}
	for _, t := range r.texts {
		cover(t.Block, t.Ink)
	}
	for _, s := range r.shapes {
		cover(s.block, s.rect)
	}
	return ink, ok
}

// Fill records a filled outline.
func (r *Recorder) Fill(p layout.Path, c layout.Color) {
	r.add("fill %s %s", path(p), c)
	r.shape(p, layout.Pen{})
}

// Stroke records a drawn outline; as on a page, a pen without width draws
// nothing.
func (r *Recorder) Stroke(p layout.Path, pen layout.Pen) {
	if pen.Width.Round() <= 0 {
		return
	}
	dash := ""
	if len(pen.Dash) > 0 {
		parts := make([]string, len(pen.Dash))
		for i, d := range pen.Dash {
			parts[i] = number(d)
		}
		dash = " dash " + strings.Join(parts, ",")
	}
	ends := ""
	if pen.Round {
		ends = " round"
	}
	r.add("stroke %s %s %s%s%s", path(p), number(pen.Width), pen.Color, dash, ends)
	r.shape(p, pen)
}

// Text records a line of text.
func (r *Recorder) Text(p layout.Point, text string, f layout.Face, c layout.Color) {
	r.add("text %s %q %s %s %s", point(p), text, f.Weight, number(f.Size), c)
	if strings.TrimSpace(text) == "" {
		return
	}
	w := r.Width(text, f)
	full := layout.Rect{X: p.X, Y: p.Y - r.Ascent(f), W: w, H: r.Ascent(f) + r.Descent(f)}
	up, down := reach(text)
	ink := layout.Rect{X: p.X, Y: p.Y - up*r.CapHeight(f), W: w, H: up*r.CapHeight(f) + down*r.Descent(f)}
	t := Text{
		String: text, Face: f, Color: c, Block: strings.Join(r.blocks, "/"),
		Rect: r.onPage(layout.RectPath(full)), Ink: r.onPage(layout.RectPath(ink)),
	}
	if n := len(r.clips); n > 0 && !r.clips[n-1].Contains(t.Ink) {
		t.Hidden = true
	}
	r.texts = append(r.texts, t)
}

// reach says how far letters go above the baseline in heights of a capital,
// and below it in depths of a descender: digits and capitals have none.
func reach(text string) (up, down layout.Length) {
	up, down = 1, 0
	if strings.ContainsAny(text, "gjpqyQ,;()[]{}|_µ") {
		down = 1
	}
	for _, c := range text {
		switch {
		case c == '(' || c == ')' || c == '[' || c == ']' || c == '|':
			up = max(up, 1.06)
		case c >= 0xC0 && c <= 0xDE || c >= 0x100 && c < 0x250:
			up = max(up, 1.3) // capitals with marks
		}
		if c >= 0x370 {
			down = 1
		}
	}
	return up, down
}

// Picture records a picture.
func (r *Recorder) Picture(area layout.Rect, img layout.Image) {
	r.add("picture %s %s %dx%d", rect(area), img.Name, img.W, img.H)
	r.shape(layout.RectPath(area), layout.Pen{})
}

// Clip records a scope inside an outline.
func (r *Recorder) Clip(p layout.Path, draw func()) {
	r.add("clip %s {", path(p))
	area := r.onPage(p)
	if n := len(r.clips); n > 0 {
		area = common(area, r.clips[n-1])
	}
	r.clips = append(r.clips, area)
	r.scope(draw)
	r.clips = r.clips[:len(r.clips)-1]
}

// Rotate records a turned scope.
func (r *Recorder) Rotate(degrees float64, about layout.Point, draw func()) {
	r.add("rotate %s about %s {", number(layout.Length(degrees)), point(about))
	r.turns = append(r.turns, turn{degrees, about})
	r.scope(draw)
	r.turns = r.turns[:len(r.turns)-1]
}

// Block records a named part of the page.
func (r *Recorder) Block(name string, area layout.Rect, draw func()) {
	r.add("block %s %s {", name, rect(area))
	r.blocks = append(r.blocks, name)
	r.boxes = append(r.boxes, Box{strings.Join(r.blocks, "/"), r.onPage(layout.RectPath(area))})
	r.scope(draw)
	r.blocks = r.blocks[:len(r.blocks)-1]
}

func (r *Recorder) scope(draw func()) {
	start := len(r.lines)
	draw()
	for i := start; i < len(r.lines); i++ {
		r.lines[i] = "  " + r.lines[i]
	}
	r.lines = append(r.lines, "}")
}

func (r *Recorder) add(format string, args ...any) {
	r.lines = append(r.lines, fmt.Sprintf(format, args...))
}

// shape notes the visible bounds of an outline with its pen. The butt ends of
// a line along an edge of the page do not reach beyond its points.
func (r *Recorder) shape(p layout.Path, pen layout.Pen) {
	b := r.onPage(p)
	dx, dy := pen.Width/2, pen.Width/2
	if !pen.Round && b.H.Round() == 0 {
		dx = 0
	}
	if !pen.Round && b.W.Round() == 0 {
		dy = 0
	}
	b = b.InsetXY(-dx, -dy)
	if n := len(r.clips); n > 0 {
		if b = common(b, r.clips[n-1]); b.W <= 0 || b.H <= 0 {
			return
		}
	}
	r.shapes = append(r.shapes, shape{b, strings.Join(r.blocks, "/")})
}

// A turn is a rotation in degrees clockwise.
type turn struct {
	degrees float64
	about   layout.Point
}

func (t turn) apply(p layout.Point) layout.Point {
	sin, cos := math.Sincos(t.degrees * math.Pi / 180)
	dx, dy := float64(p.X-t.about.X), float64(p.Y-t.about.Y)
	return t.about.Add(layout.Length(dx*cos-dy*sin), layout.Length(dx*sin+dy*cos))
}

// onPage is the upright box around an outline after all turns, innermost
// first.
func (r *Recorder) onPage(p layout.Path) layout.Rect {
	turned := make(layout.Path, len(p))
	for i, s := range p {
		for j := range s.P {
			for k := len(r.turns) - 1; k >= 0; k-- {
				s.P[j] = r.turns[k].apply(s.P[j])
			}
		}
		turned[i] = s
	}
	return turned.Bounds()
}

func common(a, b layout.Rect) layout.Rect {
	x, y := max(a.X, b.X), max(a.Y, b.Y)
	return layout.Rect{X: x, Y: y, W: max(0, min(a.Right(), b.Right())-x), H: max(0, min(a.Bottom(), b.Bottom())-y)}
}

func number(l layout.Length) string {
	s := fmt.Sprintf("%.2f", float64(l.Round()))
	s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	if s == "-0" {
		return "0"
	}
	return s
}

func point(p layout.Point) string { return number(p.X) + "," + number(p.Y) }

func rect(r layout.Rect) string {
	return point(r.TopLeft()) + " " + number(r.W) + "x" + number(r.H)
}

// path writes an outline the way vector formats do: M, L, C with points, Z.
func path(p layout.Path) string {
	var parts []string
	for _, s := range p {
		step := string("MLCZ"[s.Op])
		for i, pt := range s.Points() {
			if i > 0 {
				step += " "
			}
			step += point(pt)
		}
		parts = append(parts, step)
	}
	return strings.Join(parts, " ")
}

package figure

import "gaugesheet/layout"

// A Tile is one test in the row under the verdict.
type Tile struct {
	Mark              Mark
	Name, Word, Value string
}

// A Verdict describes the sentence that the sheet opens with.
type Verdict struct {
	Mark     Mark
	Sentence string
	Second   string // the line under it
}

// NewVerdict is the block "verdict": the sentence that the sheet opens with.
func NewVerdict(d Verdict) layout.Block {
	return block{"verdict", func(t layout.Theme, width layout.Length, level layout.Detail) layout.Frame {
		const edge = 4
		pad := [...]layout.Length{layout.Full: medium - 1, layout.Compact: small, layout.Brief: small - 1}[level]
		left := edge + wide
		role := layout.Display
		if level == layout.Brief {
			role = layout.Heading
		}
		size := markSize(t, t.Face(role)) * 1.15
		if d.Mark != NoMark {
			left += size + medium
		}
		inner := width - left - wide
		words := stack(1,
			balanced(t, d.Sentence, role, t.Ink, inner),
			balanced(t, d.Second, layout.Body, t.Ink, inner))
		if level == layout.Brief {
			words = paragraph(t, inner, layout.Left, run(t, role, t.Ink, d.Sentence), run(t, layout.Body, t.Ink, dotted(d.Second)))
		}
		return behind(inset(words, pad, wide, pad+1, left), func(s layout.Surface, a layout.Rect) {
			s.Fill(layout.RectPath(a), t.Tint)
			bar, _ := a.SplitLeft(edge)
			s.Fill(layout.RectPath(bar), t.Accent)
			face := t.Face(role)
			middle := baseline(s, face, a.Y+pad) - s.CapHeight(face)/2
			DrawMark(s, t, d.Mark, layout.Point{X: a.X + edge + wide + size/2, Y: middle}, size)
		})
	}}
}

// NewTiles is the block "tiles": one tile for each test, all of a height.
func NewTiles(d []Tile) layout.Block {
	return block{"tiles", func(t layout.Theme, width layout.Length, level layout.Detail) layout.Frame {
		if len(d) == 0 {
			return empty()
		}
		const gap = 9
		perRow := tilesPerRow(len(d), int((width+gap)/(leastTile+gap)))
		w := (width - gap*layout.Length(perRow-1)) / layout.Length(perRow)
		var rows []layout.Frame
		for start := 0; start < len(d); start += perRow {
			var row []column
			for _, tile := range d[start:min(start+perRow, len(d))] {
				row = append(row, column{w, tileFrame(t, tile, w, level)})
			}
			rows = append(rows, beside(gap, row...))
		}
		return stack(gap, rows...)
	}}
}

// leastTile is the least width of a tile.
const leastTile layout.Length = 80

// tilesPerRow divides n tiles into rows of at most six, and at most as many as
// there is room for, as even as may be.
func tilesPerRow(n, room int) int {
	most := max(1, min(6, room))
	rows := (n + most - 1) / most
	return (n + rows - 1) / rows
}

func tileFrame(t layout.Theme, d Tile, width layout.Length, level layout.Detail) layout.Frame {
	pad := small + 1
	if level != layout.Full {
		pad = tight + 1
	}
	edge := medium
	if level == layout.Brief {
		pad, edge = tight, small
	}
	size := markSize(t, t.Face(layout.Strong)) * 1.1
	left := edge + size + small + tight
	if d.Mark == NoMark {
		left = edge
	}
	inner := width - left - small
	name := textFrame(t, d.Name, layout.Label, t.Muted, inner)
	words := stack(0, name,
		textFrame(t, d.Word, layout.Strong, t.Ink, inner),
		textFrame(t, d.Value, layout.Label, t.Ink, inner))
	if level == layout.Brief {
		name = empty()
		title := paragraph(t, inner, layout.Left, run(t, layout.Label, t.Muted, d.Name), run(t, layout.Strong, t.Ink, d.Word))
		if word := textFrame(t, d.Word, layout.Strong, t.Ink, inner); title.Height > word.Height+1 {
			title = stack(0, textFrame(t, d.Name, layout.Label, t.Muted, inner), word)
		}
		words = stack(0, title,
			textFrame(t, d.Value, layout.Note, t.Ink, inner))
	}
	return behind(inset(words, pad, small, pad, left), func(s layout.Surface, a layout.Rect) {
		s.Stroke(layout.RectPath(a.Inset(thin/2)), layout.Pen{Width: thin, Color: t.Line})
		face := t.Face(layout.Strong)
		middle := baseline(s, face, a.Y+pad+name.Height) - s.CapHeight(face)/2
		DrawMark(s, t, d.Mark, layout.Point{X: a.X + edge + size/2, Y: middle}, size)
	})
}

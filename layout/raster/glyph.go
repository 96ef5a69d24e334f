package raster

import (
	"sync"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"gaugesheet/layout"
	"gaugesheet/layout/face"
)

// A cut is a face's outlines as they are asked for, in ems, y down. The font
// file is taken apart when the first picture is drawn.
type cut struct {
	font   func() *sfnt.Font
	mu     sync.Mutex
	glyphs map[rune]outline
}

var cuts = [...]*cut{
	layout.Regular: newCut(face.Regular),
	layout.Bold:    newCut(face.Bold),
}

func newCut(ttf []byte) *cut {
	return &cut{glyphs: map[rune]outline{}, font: sync.OnceValue(func() *sfnt.Font {
		f, err := sfnt.Parse(ttf)
		if err != nil {
			panic(err) // the program's own file, as every test shows
		}
		return f
	})}
}

// outlineOf gives a character's outline; of one that the faces lack, a
// question mark, as in a PDF.
func outlineOf(r rune, w layout.Weight) outline {
	if w != layout.Bold {
		w = layout.Regular
	}
	switch {
	case r == '\u00a0':
		r = ' '
	case !face.Metrics().Has(r):
		r = '?'
	}
	c := cuts[w]
	c.mu.Lock()
	defer c.mu.Unlock()
	out, known := c.glyphs[r]
	if !known {
		out = load(c.font(), r)
		c.glyphs[r] = out
	}
	return out
}

// load reads a glyph at the size at which a pixel is a unit of the font.
func load(f *sfnt.Font, r rune) outline {
	var b sfnt.Buffer
	em := fixed.Int26_6(f.UnitsPerEm())
	gid, err := f.GlyphIndex(&b, r)
	if err != nil {
		return nil
	}
	segments, err := f.LoadGlyph(&b, gid, em<<6, nil)
	if err != nil {
		return nil
	}
	var out outline
	for i, s := range segments {
		st := step{n: 1}
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			if i > 0 {
				out = append(out, step{op: layout.Close})
			}
			st.op = layout.Move
		case sfnt.SegmentOpLineTo:
			st.op = layout.Line
		case sfnt.SegmentOpQuadTo:
			st.op, st.n = layout.Cubic, 2
		case sfnt.SegmentOpCubeTo:
			st.op, st.n = layout.Cubic, 3
		}
		for k := range st.n {
			st.p[k] = point{float64(s.Args[k].X) / 64 / float64(em), float64(s.Args[k].Y) / 64 / float64(em)}
		}
		out = append(out, st)
	}
	return append(out, step{op: layout.Close})
}

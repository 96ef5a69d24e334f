// Package raster is the Surface that makes a picture of a page (the same paths and
// the same type as on paper, smoothed, as a PNG file), and knows nothing of what
// is on it. It is what
// goes into a message or stands in a text about the page; what is filed is the
// PDF.
//
// A picture is a function of what was drawn; its bytes may change with the Go
// release, and smoothed edges may differ by a shade between processors.
package raster

import (
	"image"
	"image/color"
	"image/draw"
	"math"

	"golang.org/x/image/vector"

	"gaugesheet/layout"
	"gaugesheet/layout/face"
)

// DPI is the usual resolution: the smallest type of a sheet can be read on a
// telephone, and a page stays below half a megabyte.
const DPI = 150

// Options say how a picture is made.
type Options struct {
	Paper layout.Size
	DPI   float64 // pixels an inch; 0 is DPI
}

// Page is a picture in the making. It is drawn on by one goroutine; several
// may be drawn at once.
type Page struct {
	layout.Measurer

	pixels *image.RGBA
	dpi    float64
	turn   matrix
	clip   *image.Alpha // nil is the whole page
	raster vector.Rasterizer

	photographs bool // pictures were drawn, which have more shades than a page's inks
}

// New starts a page of white paper.
func New(o Options) *Page {
	if o.DPI <= 0 {
		o.DPI = DPI
	}
	scale := o.DPI / float64(layout.Inch)
	w, h := int(math.Round(float64(o.Paper.W)*scale)), int(math.Round(float64(o.Paper.H)*scale))
	p := &Page{Measurer: face.Metrics(), dpi: o.DPI, turn: matrix{scale, 0, 0, scale, 0, 0}}
	p.pixels = image.NewRGBA(image.Rect(0, 0, max(w, 1), max(h, 1)))
	draw.Draw(p.pixels, p.pixels.Rect, image.White, image.Point{}, draw.Src)
	return p
}

// Fill fills an outline. Where parts of it overlap they must turn the same
// way round; none of a page's outlines crosses itself.
func (p *Page) Fill(path layout.Path, c layout.Color) {
	p.paint(p.turn.outline(path, true), c)
}

// Stroke draws along an outline; a pen without width draws nothing.
func (p *Page) Stroke(path layout.Path, pen layout.Pen) {
	if pen.Width.Round() <= 0 {
		return
	}
	var out outline
	for _, line := range flatten(p.turn.outline(path, false)) {
		for _, part := range dashed(line, pen.Dash, p.turn.scale()) {
			out.stroke(part, float64(pen.Width)*p.turn.scale(), pen.Round)
		}
	}
	p.paint(out, pen.Color)
}

// Text sets one line with the left end of its baseline at p.
func (p *Page) Text(at layout.Point, text string, f layout.Face, c layout.Color) {
	var out outline
	for _, r := range text {
		glyph := outlineOf(r, f.Weight)
		size := float64(f.Size.Round())
		out = append(out, p.turn.shifted(at).sized(size).apply(glyph)...)
		at.X += p.Width(string(r), f)
	}
	p.paint(out, c)
}

// Clip draws inside the outline only.
func (p *Page) Clip(path layout.Path, draw func()) {
	before := p.clip
	area, mask := p.cover(p.turn.outline(path, true))
	p.clip = image.NewAlpha(area) // without area nothing is drawn
	for y := area.Min.Y; y < area.Max.Y; y++ {
		for x := area.Min.X; x < area.Max.X; x++ {
			a := mask.AlphaAt(x, y)
			if before != nil {
				a.A = uint8(uint32(a.A) * uint32(before.AlphaAt(x, y).A) / 255)
			}
			p.clip.SetAlpha(x, y, a)
		}
	}
	draw()
	p.clip = before
}

// Rotate draws turned by degrees clockwise about a point.
func (p *Page) Rotate(degrees float64, about layout.Point, draw func()) {
	before := p.turn
	p.turn = p.turn.rotated(degrees, about)
	draw()
	p.turn = before
}

// Block draws what draw draws; a picture keeps no trace of where blocks are.
func (p *Page) Block(_ string, _ layout.Rect, draw func()) { draw() }

// paint fills an outline in pixels with an ink.
func (p *Page) paint(out outline, c layout.Color) {
	ink := image.NewUniform(color.RGBA{c.R, c.G, c.B, 255})
	if p.clip == nil {
		if area := p.trace(out); !area.Empty() {
			p.raster.Draw(p.pixels, area, ink, image.Point{})
		}
		return
	}
	area, mask := p.cover(out)
	for y := area.Min.Y; y < area.Max.Y; y++ {
		for x := area.Min.X; x < area.Max.X; x++ {
			a := mask.AlphaAt(x, y)
			a.A = uint8(uint32(a.A) * uint32(p.clip.AlphaAt(x, y).A) / 255)
			mask.SetAlpha(x, y, a)
		}
	}
	draw.DrawMask(p.pixels, area, ink, image.Point{}, mask, area.Min, draw.Over)
}

// cover gives how much of each pixel an outline covers, and the area of the
// page that it reaches.
func (p *Page) cover(out outline) (image.Rectangle, *image.Alpha) {
	area := p.trace(out)
	mask := image.NewAlpha(area)
	if !area.Empty() {
		p.raster.Draw(mask, area, image.Opaque, image.Point{})
	}
	return area, mask
}

// trace hands an outline to the rasteriser, moved to the corner of the area
// of the page that it reaches, which is given.
func (p *Page) trace(out outline) image.Rectangle {
	area := out.area().Intersect(p.pixels.Rect)
	if area.Empty() {
		return image.Rectangle{}
	}
	p.raster.Reset(area.Dx(), area.Dy())
	out.trace(&p.raster, float64(area.Min.X), float64(area.Min.Y))
	return area
}

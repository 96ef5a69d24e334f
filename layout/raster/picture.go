package raster

import (
	"bytes"
	"image"
	_ "image/jpeg" // the two formats a page takes
	_ "image/png"

	"golang.org/x/image/draw"
	"golang.org/x/image/math/f64"

	"gaugesheet/layout"
)

// Picture places a picture in an area, stretched to it. One that cannot be
// read leaves its area white: what is damaged is refused before a page is
// laid out.
func (p *Page) Picture(r layout.Rect, img layout.Image) {
	src, _, err := image.Decode(bytes.NewReader(img.Data))
	if err != nil || src.Bounds().Empty() {
		return
	}
	p.photographs = true
	b := src.Bounds()
	m := p.turn.shifted(r.TopLeft())
	x, y := float64(r.W.Round())/float64(b.Dx()), float64(r.H.Round())/float64(b.Dy())
	to := f64.Aff3{
		m.a * x, m.c * y, m.e - m.a*x*float64(b.Min.X) - m.c*y*float64(b.Min.Y),
		m.b * x, m.d * y, m.f - m.b*x*float64(b.Min.X) - m.d*y*float64(b.Min.Y),
	}
	var o draw.Options
	if p.clip != nil {
		o.DstMask = p.clip
	}
	draw.CatmullRom.Transform(p.pixels, to, src, b, draw.Over, &o)
}

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
	p6, w, h := img.Turn.Places(), r.W.Round(), r.H.Round()
	onto := func(x, y layout.Length) (float64, float64) { // a direction on the page
		return m.a*float64(w*x) + m.c*float64(h*y), m.b*float64(w*x) + m.d*float64(h*y)
	}
	ax, ay := onto(p6[0], p6[3])
	dx, dy := onto(p6[1], p6[4])
	ex, ey := onto(p6[2], p6[5])
	ax, ay, dx, dy = ax/float64(b.Dx()), ay/float64(b.Dx()), dx/float64(b.Dy()), dy/float64(b.Dy())
	to := f64.Aff3{
		ax, dx, ex + m.e - ax*float64(b.Min.X) - dx*float64(b.Min.Y),
		ay, dy, ey + m.f - ay*float64(b.Min.X) - dy*float64(b.Min.Y),
	}
	var o draw.Options
	if p.clip != nil {
		o.DstMask = p.clip
	}
	draw.CatmullRom.Transform(p.pixels, to, src, b, draw.Over, &o)
}

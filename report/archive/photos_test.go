package archive

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"math"
	"testing"

	"gaugesheet/report/archive/pdffile"
	"gaugesheet/report/budget"
)

// dial is a picture of a gauge's face, with a hand at an angle.
func dial(w, h int, angle float64) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	size := float64(min(w, h)) / 2
	for y := range h {
		for x := range w {
			dx, dy := float64(x)-float64(w)/2, float64(y)-float64(h)/2
			r := math.Hypot(dx, dy) / size
			v := uint8(200 - 60*y/h) // the wall behind it
			switch {
			case r < 0.85 && math.Abs(dx*math.Sin(angle)-dy*math.Cos(angle)) < 1.2 && dx*math.Cos(angle)+dy*math.Sin(angle) > 0:
				v = 20
			case r < 0.85:
				v = 240
			case r < 0.95:
				v = 60
			}
			img.SetRGBA(x, y, color.RGBA{v, v, v - v/8, 255})
		}
	}
	return img
}

func asJPEG(img image.Image, quality int) []byte {
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: quality}); err != nil {
		panic(err)
	}
	return b.Bytes()
}

// photo is the picture of the page.
func (d *doc) photo() *pdffile.Stream {
	for _, o := range d.dict(d.resources()["XObject"]) {
		return d.at(o).(*pdffile.Stream)
	}
	d.t.Fatal("the page has no picture")
	return nil
}

// dots puts another picture in the place of the page's.
func (d *doc) dots(w, h int, data []byte) {
	s := d.photo()
	s.Raw, s.Dict["Width"], s.Dict["Height"] = data, float64(w), float64(h)
}

// What programs make of a photo, and what people do.
var photos = []alteration{
	{"as it is", func(d *doc) {}, Same, ``},
	{"packed anew", func(d *doc) { d.dots(320, 240, asJPEG(dial(320, 240, 1), 75)) }, Unvouched, `the picture at '.*' was packed anew and looks alike`},
	{"unpacked", func(d *doc) {
		var data []byte
		img := dial(320, 240, 1)
		for i := 0; i < len(img.Pix); i += 4 {
			data = append(data, img.Pix[i:i+3]...)
		}
		delete(d.photo().Dict, "Filter")
		d.dots(320, 240, data)
	}, Unvouched, `was packed anew and looks alike`},
	{"the hand elsewhere", func(d *doc) { d.dots(320, 240, asJPEG(dial(320, 240, 1.3), 90)) }, Different, `the picture at '.*' is another one, .*: .*%`},
	{"the hand a little further on", func(d *doc) { d.dots(320, 240, asJPEG(dial(320, 240, 1.05), 90)) }, Different, `is another one`},
	{"without the hand", func(d *doc) { d.dots(320, 240, asJPEG(dial(320, 240, math.NaN()), 90)) }, Different, `is another one`},
	{"packed so that little is left", func(d *doc) { d.dots(320, 240, asJPEG(dial(320, 240, 1), 3)) }, Different, `is another one, or was written anew with less in it`},
	{"with fewer dots, and the hand elsewhere", func(d *doc) { d.dots(160, 120, asJPEG(dial(160, 120, 2), 90)) }, Different, `it has 160 by 120 dots, the sheet's has 320 by 240; .*%`},
	{"of another size than it says", func(d *doc) { d.dots(320, 120, asJPEG(dial(320, 240, 1), 75)) }, Different, `is another one`},
	{"in colors of its own", func(d *doc) {
		d.dots(320, 240, asJPEG(dial(320, 240, 1), 75))
		d.photo().Dict["ColorSpace"] = list{pn("CalRGB"), dict{"WhitePoint": list{1.0, 1.0, 1.0}, "Gamma": list{9.0, 9.0, 9.0}}}
	}, Different, `is another one`},
	{"packed anew, its colors turned round", func(d *doc) {
		d.dots(320, 240, asJPEG(dial(320, 240, 1), 75))
		d.photo().Dict["Decode"] = list{1.0, 0.0, 1.0, 0.0, 1.0, 0.0}
	}, Different, `is another one`},
	{"packed anew, with a mask", func(d *doc) {
		d.dots(320, 240, asJPEG(dial(320, 240, 1), 75))
		d.photo().Dict["Mask"] = list{0.0, 255.0, 0.0, 255.0, 0.0, 255.0}
	}, Different, `is another one`},
	{"packed anew, and another number on the page", func(d *doc) {
		d.dots(320, 240, asJPEG(dial(320, 240, 1), 75))
		d.to158()
	}, Different, `158 for cylinder 4, its job file gives 138`},
	{"half of it", func(d *doc) { s := d.photo(); s.Raw = s.Raw[:len(s.Raw)/2] }, Different, `is another one`},
}

func TestPhotos(t *testing.T) {
	drawn := withLogo(t, asJPEG(dial(320, 240, 1), 92))
	altered(t, drawn, nil, photos)
}

// A large photo is looked at within the budget, a larger one is not looked at.
func TestLargePhotos(t *testing.T) {
	if testing.Short() {
		t.Skip("takes seconds")
	}
	for _, tt := range []struct {
		w, h int
		want Outcome
		says string
	}{
		{2800, 2100, Unvouched, `was packed anew and looks alike`},
		{3600, 2700, Different, `is another one, or was written anew`},
	} {
		img := dial(tt.w, tt.h, 1)
		d := newDoc(t, withLogo(t, asJPEG(img, 92)))
		d.dots(tt.w, tt.h, asJPEG(img, 80))
		data := d.bytes()
		budget.Held(t, func() { check(t, data, tt.want, tt.says) })
	}
}

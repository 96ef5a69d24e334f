package raster_test

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"os/exec"
	"testing"

	"gaugesheet/layout"
	"gaugesheet/layout/pdf"
	"gaugesheet/layout/raster"
)

func at(x, y layout.Length) layout.Point { return layout.Point{X: x, Y: y} }

func photograph(t *testing.T) layout.Image {
	t.Helper()
	img := image.NewNRGBA(image.Rect(0, 0, 90, 60))
	for y := range 60 {
		for x := range 90 {
			img.Set(x, y, color.NRGBA{uint8(2 * x), uint8(4 * y), uint8((x/30 + y/30) % 2 * 200), 255})
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		t.Fatal(err)
	}
	picture, err := pdf.LoadPicture("p", b.Bytes())
	if err != nil {
		t.Fatal(err)
	}
	return picture
}

// drawAll uses all that a surface can do: every kind of pen, corner and scope.
func drawAll(t *testing.T, s layout.Surface) {
	black, green := layout.Color{}, layout.Color{G: 120}
	picture := photograph(t)
	s.Picture(layout.Rect{X: 20, Y: 20, W: 90, H: 60}, picture)
	s.Text(at(120, 20), "152 psi · 75 % ≤ Ж", layout.Face{Size: 10}, black)
	s.Rotate(30, at(200, 50), func() {
		s.Picture(layout.Rect{X: 170, Y: 30, W: 60, H: 40}, picture)
		s.Text(at(160, 90), "turned Ángel", layout.Face{Weight: layout.Bold, Size: 12}, layout.Color{R: 200})
		s.Clip(layout.Circle(at(200, 140), 20), func() {
			s.Fill(layout.RectPath(layout.Rect{X: 150, Y: 120, W: 60, H: 60}), green)
			s.Rotate(20, at(200, 140), func() {
				s.Stroke(layout.Polyline(at(150, 140), at(260, 140)), layout.Pen{Width: 6, Dash: []layout.Length{8, 3}})
			})
		})
	})
	s.Clip(layout.Circle(at(60, 120), 25), func() { s.Picture(layout.Rect{X: 20, Y: 90, W: 90, H: 60}, picture) })
	s.Stroke(layout.Polyline(at(20, 180), at(60, 170), at(40, 200), at(90, 172)), layout.Pen{Width: 5})
	s.Stroke(layout.Polyline(at(120, 180), at(160, 170), at(140, 200), at(190, 172)), layout.Pen{Width: 5, Round: true})
	s.Stroke(layout.Circle(at(230, 190), 15), layout.Pen{Width: 2, Dash: []layout.Length{3, 2}})
	s.Stroke(layout.RectPath(layout.Rect{X: 20, Y: 220, W: 50, H: 20}), layout.Pen{Width: 4})
	s.Stroke(layout.RoundRect(layout.Rect{X: 90, Y: 220, W: 50, H: 20}, 5), layout.Pen{Width: 2})
	s.Stroke(layout.RectPath(layout.Rect{X: 160, Y: 220, W: 50, H: 20}), layout.Pen{Width: 3, Dash: []layout.Length{7}})
	s.Stroke(layout.Polyline(at(20, 260), at(80, 260), at(22, 266)), layout.Pen{Width: 2}) // too sharp for a mitre
}

var size = layout.Size{W: 280, H: 280}

func picture(t *testing.T, draw func(s layout.Surface)) (image.Image, []byte) {
	t.Helper()
	p := raster.New(raster.Options{Paper: size})
	draw(p)
	file, err := p.PNG()
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(file))
	if err != nil {
		t.Fatal(err)
	}
	return img, file
}

// tiles are the mean shades of red, green and blue in squares of four pixels,
// which how an edge is smoothed hardly changes.
func tiles(img image.Image) []float64 {
	var means []float64
	for y := 0; y+4 <= img.Bounds().Dy(); y += 4 {
		for x := 0; x+4 <= img.Bounds().Dx(); x += 4 {
			var sum [3]float64
			for i := range 16 {
				r, g, b, _ := img.At(x+i%4, y+i/4).RGBA()
				for k, v := range [3]uint32{r, g, b} {
					sum[k] += float64(v>>8) / 16
				}
			}
			means = append(means, sum[:]...)
		}
	}
	return means
}

// The picture is compared with what another program makes of the PDF of the
// same drawing (poppler's pdftoppm).
func TestLikeThePDF(t *testing.T) {
	if _, err := exec.LookPath("pdftoppm"); err != nil {
		t.Skip("pdftoppm is not installed")
	}
	other := inPDF(t, 150, func(s layout.Surface) { drawAll(t, s) })
	img, _ := picture(t, func(s layout.Surface) { drawAll(t, s) })
	got, want := tiles(img), tiles(other)
	if len(got) < len(want)*9/10 {
		t.Fatalf("%v, the other program's is %v", img.Bounds(), other.Bounds())
	}
	sum := 0.0
	for y, row := 0, (img.Bounds().Dx()/4)*3; y < len(got)/row; y++ {
		for i := range row {
			k := y*((other.Bounds().Dx()/4)*3) + i
			if k >= len(want) {
				continue
			}
			d := max(got[y*row+i]-want[k], want[k]-got[y*row+i])
			if sum += d; d > 110 {
				t.Errorf("around %d, %d pixels: %.0f, the other program %.0f", i/3*4, y*4, got[y*row+i], want[k])
			}
		}
	}
	if mean := sum / float64(len(got)); mean > 2 {
		t.Errorf("on average %.2f of 255 apart", mean)
	}
}

// ink is how much of the paper is covered with black, in square points.
func ink(t *testing.T, draw func(s layout.Surface)) float64 {
	t.Helper()
	img, _ := picture(t, draw)
	sum := 0.0
	for y := range img.Bounds().Dy() {
		for x := range img.Bounds().Dx() {
			r, _, _, _ := img.At(x, y).RGBA()
			sum += 1 - float64(r)/0xffff
		}
	}
	return sum * (72.0 / raster.DPI) * (72.0 / raster.DPI)
}

// What a pen leaves has the area that geometry says.
func TestAreas(t *testing.T) {
	pen := layout.Pen{Width: 4}
	for _, c := range []struct {
		name string
		want float64
		draw func(s layout.Surface)
	}{
		{"rectangle", 100 * 50, func(s layout.Surface) {
			s.Fill(layout.RectPath(layout.Rect{X: 20.3, Y: 20.7, W: 100, H: 50}), layout.Color{})
		}},
		{"line", 100 * 4, func(s layout.Surface) { s.Stroke(layout.Polyline(at(20, 30.3), at(120, 30.3)), pen) }},
		{"frame", 104*54 - 96*46, func(s layout.Surface) {
			s.Stroke(layout.RectPath(layout.Rect{X: 20, Y: 20, W: 100, H: 50}), pen)
		}},
		{"ring", 3.14159 * (52*52 - 48*48), func(s layout.Surface) { s.Stroke(layout.Circle(at(100, 100), 50), pen) }},
		{"round ends", 100*4 + 3.14159*4, func(s layout.Surface) {
			s.Stroke(layout.Polyline(at(20, 30), at(120, 30)), layout.Pen{Width: 4, Round: true})
		}},
		{"dashes", 50 * 4, func(s layout.Surface) {
			s.Stroke(layout.Polyline(at(20, 30), at(120, 30)), layout.Pen{Width: 4, Dash: []layout.Length{5}})
		}},
		{"clipped", 50 * 20, func(s layout.Surface) {
			s.Clip(layout.RectPath(layout.Rect{X: 20, Y: 20, W: 50, H: 20}), func() {
				s.Fill(layout.RectPath(layout.Rect{X: 0, Y: 0, W: 200, H: 200}), layout.Color{})
			})
		}},
		{"turned", 100 * 4, func(s layout.Surface) {
			s.Rotate(33, at(100, 100), func() { s.Stroke(layout.Polyline(at(50, 100), at(150, 100)), pen) })
		}},
		{"beside the page", 0, func(s layout.Surface) { s.Stroke(layout.Polyline(at(-50, -100), at(-20, 1e12)), pen) }},
		{"no pen", 0, func(s layout.Surface) { s.Stroke(layout.Polyline(at(20, 30), at(120, 30)), layout.Pen{}) }},
	} {
		if got := ink(t, c.draw); got < c.want*0.99-0.5 || got > c.want*1.01+0.5 {
			t.Errorf("%s: %.1f square points, want %.1f", c.name, got, c.want)
		}
	}
}

func TestSameBytes(t *testing.T) {
	_, first := picture(t, func(s layout.Surface) { drawAll(t, s) })
	_, second := picture(t, func(s layout.Surface) { drawAll(t, s) })
	if !bytes.Equal(first, second) {
		t.Error("two pictures of one drawing differ")
	}
	if !raster.Made(first) {
		t.Error("the picture does not say what made it")
	}
	if raster.Made(photograph(t).Data) {
		t.Error("a foreign picture is taken for one of the program's")
	}
}

// A page of a few inks loses nothing that can be seen by being set in 256
// shades.
func TestShades(t *testing.T) {
	inks := []layout.Color{{}, {R: 26, G: 91, B: 108}, {R: 233, G: 237, B: 240}, {R: 61, G: 70, B: 79}}
	img, _ := picture(t, func(s layout.Surface) {
		for i, c := range inks {
			s.Fill(layout.RectPath(layout.Rect{X: 10, Y: layout.Length(20 * i), W: 200, H: 15}), c)
			s.Text(at(12, layout.Length(20*i+10)), "The quick brown fox", layout.Face{Size: 9}, inks[(i+1)%len(inks)])
		}
	})
	for i, c := range inks {
		r, g, b, _ := img.At(400, (20*i+5)*raster.DPI/72).RGBA()
		if got := (layout.Color{R: uint8(r >> 8), G: uint8(g >> 8), B: uint8(b >> 8)}); got != c {
			t.Errorf("%v is drawn as %v", c, got)
		}
	}
}

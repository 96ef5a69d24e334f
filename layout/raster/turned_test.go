package raster_test

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"

	"gaugesheet/layout"
	"gaugesheet/layout/pdf"
)

// sides are where a picture's first row and its first column lie, by the numbers
// of the orientation tag (CIPA DC-008-2019, 4.6.4 A).
var sides = [9][2]string{1: {"top", "left"}, {"top", "right"}, {"bottom", "right"}, {"bottom", "left"}, {"left", "top"}, {"right", "top"}, {"right", "bottom"}, {"left", "bottom"}}

// corners are what is to be seen: red and green above, blue and black below.
var corners = [2][2]color.NRGBA{{{220, 30, 30, 255}, {30, 180, 30, 255}}, {{30, 30, 220, 255}, {10, 10, 10, 255}}}

// held is a photo of the corners as a camera writes it that was held in one way.
func held(t *testing.T, turn int) []byte {
	t.Helper()
	const w, h = 96, 64
	img := image.NewNRGBA(image.Rect(0, 0, w, h))
	if turn >= 5 {
		img = image.NewNRGBA(image.Rect(0, 0, h, w))
	}
	b := img.Bounds()
	for y := range b.Dy() {
		for x := range b.Dx() {
			var down, right int
			for i, v := range [2]bool{2*y >= b.Dy(), 2*x >= b.Dx()} { // in rows, in columns
				at := map[bool]int{false: 0, true: 1}[v]
				switch sides[turn][i] {
				case "top":
					down = at
				case "bottom":
					down = 1 - at
				case "left":
					right = at
				case "right":
					right = 1 - at
				}
			}
			img.Set(x, y, corners[down][right])
		}
	}
	var out bytes.Buffer
	if err := jpeg.Encode(&out, img, &jpeg.Options{Quality: 100}); err != nil {
		t.Fatal(err)
	}
	exif := append([]byte("Exif\x00\x00MM\x00*\x00\x00\x00\x08\x00\x02\x01\x0f\x00\x02\x00\x00\x00\x01A\x00\x00\x00\x01\x12\x00\x03\x00\x00\x00\x01\x00"), byte(turn), 0, 0, 0, 0, 0, 0)
	head := append([]byte{0xff, 0xd8, 0xff, 0xe1, 0, byte(len(exif) + 2)}, exif...)
	return append(head, out.Bytes()[2:]...)
}

// A photo from a telephone stands upright, however the telephone was held, in the
// picture of the page and in the PDF.
func TestTurnedPhotos(t *testing.T) {
	for turn := 1; turn <= 8; turn++ {
		photo, err := pdf.LoadPicture("photo", held(t, turn))
		if err != nil {
			t.Fatal(err)
		}
		if photo.W != 96 || photo.H != 64 {
			t.Errorf("%d: %d x %d pixels", turn, photo.W, photo.H)
		}
		draw := func(s layout.Surface) { s.Picture(layout.Rect{X: 40, Y: 60, W: 96, H: 64}, photo) }
		img, _ := picture(t, draw)
		seen := []image.Image{img}
		if _, err := exec.LookPath("pdftoppm"); err == nil {
			seen = append(seen, inPDF(t, 72, draw))
		}
		for i, img := range seen {
			scale := float64(img.Bounds().Dx()) / float64(size.W)
			for down := range 2 {
				for right := range 2 {
					x, y := 40+24+48*float64(right), 60+16+32*float64(down)
					got := color.NRGBAModel.Convert(img.At(int(x*scale), int(y*scale))).(color.NRGBA)
					want := corners[down][right]
					for k, v := range [3]int{int(got.R) - int(want.R), int(got.G) - int(want.G), int(got.B) - int(want.B)} {
						if v > 12 || v < -12 {
							t.Errorf("held as %d, surface %d, corner %d %d, color %d: %v, want %v", turn, i, down, right, k, got, want)
						}
					}
				}
			}
		}
	}
}

// inPDF is the PDF of a drawing as another program shows it (poppler's pdftoppm),
// with so many dots to an inch.
func inPDF(t *testing.T, dpi int, draw func(layout.Surface)) image.Image {
	t.Helper()
	doc := pdf.New(pdf.Options{Paper: size})
	draw(doc)
	file, err := doc.Bytes()
	if err != nil {
		t.Fatal(err)
	}
	base := filepath.Join(t.TempDir(), "page")
	if err := os.WriteFile(base+".pdf", file, 0o600); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command("pdftoppm", "-r", strconv.Itoa(dpi), "-png", "-singlefile", base+".pdf", base).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	data, err := os.ReadFile(base + ".png")
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return img
}

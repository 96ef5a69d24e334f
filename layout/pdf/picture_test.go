package pdf

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"regexp"
	"strconv"
	"testing"

	"gaugesheet/layout"
)

func TestLoadPicture(t *testing.T) {
	encode := func(kind string, img image.Image) []byte {
		var b bytes.Buffer
		if kind == "png" {
			png.Encode(&b, img)
		} else {
			jpeg.Encode(&b, img, nil)
		}
		return b.Bytes()
	}
	deep := image.NewNRGBA64(image.Rect(0, 0, 4, 3))
	deep.Set(1, 1, color.White)
	for _, c := range []struct {
		name string
		data []byte
		ok   bool
	}{
		{"rgba", encode("png", image.NewNRGBA(image.Rect(0, 0, 4, 3))), true},
		{"16 bit", encode("png", deep), true},
		{"gray", encode("png", image.NewGray(image.Rect(0, 0, 4, 3))), true},
		{"paletted", encode("png", image.NewPaletted(image.Rect(0, 0, 4, 3), color.Palette{color.Black, color.White})), true},
		{"jpeg", encode("jpeg", image.NewRGBA(image.Rect(0, 0, 4, 3))), true},
		{"cut short", encode("png", deep)[:60], false},
		{"not a picture", []byte("logo"), false},
		{"empty", nil, false},
	} {
		img, err := LoadPicture(c.name, c.data)
		if (err == nil) != c.ok {
			t.Errorf("%s: error %v", c.name, err)
		}
		if err != nil {
			continue
		}
		if img.W != 4 || img.H != 3 {
			t.Errorf("%s: %d x %d", c.name, img.W, img.H)
		}
		d := New(Options{Paper: letter})
		d.Picture(layout.Rect{X: 40, Y: 40, W: 40, H: 30}, img)
		file, err := d.Bytes()
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		read(t, file)
	}
}

// cmykJPEG is a JPEG file of 8 x 8 pixels of one colour in the inks of print,
// as Adobe's programs write it: 255 is no ink. Coded by hand (ITU-T T.81): each
// component is one block of which only the mean is not zero.
func cmykJPEG(inks [4]byte) []byte {
	segment := func(marker byte, data ...byte) []byte {
		n := len(data) + 2
		return append([]byte{0xff, marker, byte(n >> 8), byte(n)}, data...)
	}
	b := []byte{0xff, 0xd8}
	b = append(b, segment(0xee, append([]byte("Adobe"), 0, 100, 0, 0, 0, 0, 0)...)...)
	b = append(b, segment(0xdb, append([]byte{0}, bytes.Repeat([]byte{1}, 64)...)...)...)
	b = append(b, segment(0xc0, 8, 0, 8, 0, 8, 4, 1, 0x11, 0, 2, 0x11, 0, 3, 0x11, 0, 4, 0x11, 0)...)
	lengths := make([]byte, 16)
	lengths[3] = 12 // twelve codes of four bits: the categories 0 to 11 of a mean
	b = append(b, segment(0xc4, append(append([]byte{0x00}, lengths...), 0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11)...)...)
	lengths = make([]byte, 16)
	lengths[0] = 1 // one code of one bit: nothing follows
	b = append(b, segment(0xc4, append(append([]byte{0x10}, lengths...), 0)...)...)
	b = append(b, segment(0xda, 4, 1, 0, 2, 0, 3, 0, 4, 0, 0, 63, 0)...)
	bits := ""
	for _, ink := range inks {
		mean, category := 8*(int(ink)-128), 0
		for v := max(mean, -mean); v > 0; v >>= 1 {
			category++
		}
		bits += fmt.Sprintf("%04b", category)
		if mean < 0 {
			mean += 1<<category - 1
		}
		if category > 0 {
			bits += fmt.Sprintf("%0*b", category, mean)
		}
		bits += "0"
	}
	for len(bits)%8 != 0 {
		bits += "1"
	}
	for ; bits != ""; bits = bits[8:] {
		v, _ := strconv.ParseUint(bits[:8], 2, 8)
		if b = append(b, byte(v)); v == 0xff {
			b = append(b, 0)
		}
	}
	return append(b, 0xff, 0xd9)
}

// Pictures of every sort stand in a document as what they show: in its colours,
// with as many bits as every reader takes.
func TestPicturesKeepTheirColors(t *testing.T) {
	encode := func(img image.Image) []byte {
		var b bytes.Buffer
		if err := png.Encode(&b, img); err != nil {
			t.Fatal(err)
		}
		return b.Bytes()
	}
	paint := func(img interface {
		image.Image
		Set(x, y int, c color.Color)
	}) []byte {
		for x := range 16 {
			for y := range 16 {
				img.Set(x, y, color.NRGBA{uint8(17 * x), uint8(17 * y), 90, uint8(255 - 15*x)})
			}
		}
		return encode(img)
	}
	square := image.Rect(0, 0, 16, 16)
	see := color.Palette{color.NRGBA{255, 0, 0, 255}, color.NRGBA{0, 0, 255, 128}, color.NRGBA{}}
	for name, data := range map[string][]byte{
		"gray": paint(image.NewGray(square)), "16 bit gray": paint(image.NewGray16(square)),
		"rgb": paint(image.NewRGBA(square)), "rgba": paint(image.NewNRGBA(square)),
		"16 bit rgb": paint(image.NewRGBA64(square)), "16 bit rgba": paint(image.NewNRGBA64(square)),
		"paletted":            paint(image.NewPaletted(square, color.Palette{color.White, color.Black})),
		"see-through palette": paint(image.NewPaletted(square, see)),
		"cmyk white":          cmykJPEG([4]byte{255, 255, 255, 255}), "cmyk cyan": cmykJPEG([4]byte{0, 255, 255, 255}), "cmyk dark": cmykJPEG([4]byte{200, 60, 90, 130}),
	} {
		t.Run(name, func(t *testing.T) {
			want, _, err := image.Decode(bytes.NewReader(data))
			if err != nil {
				t.Fatal(err)
			}
			img, err := LoadPicture(name, data)
			if err != nil {
				t.Fatal(err)
			}
			got, _, err := image.Decode(bytes.NewReader(img.Data))
			if err != nil {
				t.Fatal(err)
			}
			for x := range want.Bounds().Dx() {
				for y := range want.Bounds().Dy() {
					a, b := color.NRGBAModel.Convert(want.At(x, y)).(color.NRGBA), color.NRGBAModel.Convert(got.At(x, y)).(color.NRGBA)
					if far(a.R, b.R) || far(a.G, b.G) || far(a.B, b.B) || far(a.A, b.A) {
						t.Fatalf("at %d,%d it is %v, want %v", x, y, b, a)
					}
				}
			}
			d := New(Options{Paper: letter})
			d.Picture(layout.Rect{X: 40, Y: 40, W: 40, H: 30}, img)
			file, err := d.Bytes()
			if err != nil {
				t.Fatal(err)
			}
			read(t, file)
			if regexp.MustCompile(`DeviceCMYK|BitsPerComponent 16`).Match(file) {
				t.Error("the file has colours of print, or values of 16 bits")
			}
		})
	}
}

func far(a, b uint8) bool { return max(a, b)-min(a, b) > 3 }

// A picture that is there twice, under two names or in two places, is in the file
// once; pictures that are equally wide stand in it in the same order each time.
func TestPicturesStandOnceInTheirOrder(t *testing.T) {
	load := func(name string, c color.Color) layout.Image {
		img := image.NewRGBA(image.Rect(0, 0, 8, 6))
		for i := range 48 {
			img.Set(i%8, i/8, c)
		}
		var b bytes.Buffer
		if err := png.Encode(&b, img); err != nil {
			t.Fatal(err)
		}
		loaded, err := LoadPicture(name, b.Bytes())
		if err != nil {
			t.Fatal(err)
		}
		return loaded
	}
	var first []byte
	for range 12 {
		d := New(Options{Paper: letter})
		for i, img := range []layout.Image{load("a", color.White), load("b", color.Black), load("c", color.White), load("d", color.Gray{90})} {
			d.Picture(layout.Rect{X: 40 * layout.Length(i), Y: 40, W: 30, H: 20}, img)
		}
		file, err := d.Bytes()
		if err != nil {
			t.Fatal(err)
		}
		read(t, file)
		if n := bytes.Count(file, []byte("/Subtype /Image")); n != 3 {
			t.Fatalf("the file has %d pictures, want 3", n)
		}
		if first == nil {
			first = file
		}
		if !bytes.Equal(file, first) {
			t.Fatal("the same page gave other bytes")
		}
	}
}

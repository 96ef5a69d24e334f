package shown

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"math"

	"gaugesheet/report/archive/pdffile"
)

// Pixels is how many dots of pictures may still be unpacked, to be looked at.
type Pixels int

// MostPixels is enough for a photo of eight million dots on both pages.
const MostPixels Pixels = 16 << 20

// A Likeness is how much two pictures show the same.
type Likeness struct {
	Alike bool   // as far as the one of fewer dots can show
	Said  string // what of them differs: their sizes, or how far
}

// Alike compares two pictures in the same place: programs that make a file
// smaller pack its pictures anew, with fewer dots or less exactly. What they show is
// brought to the dots of the smaller one, two by two, and no two may be farther
// apart than packing brings them. ok is false where it cannot be told.
func (p *Pixels) Alike(a, b Mark, within float64) (l Likeness, ok bool) {
	a.look, b.look = "", ""
	if a.Kind != Picture || !Same(a, b, within) {
		return l, false
	}
	one, err := p.dots(a)
	other, err2 := p.dots(b)
	if errors.Join(err, err2) != nil {
		return l, false
	}
	w, h := min(one.Rect.Dx(), other.Rect.Dx()), min(one.Rect.Dy(), other.Rect.Dy())
	if one.Rect != other.Rect {
		l.Said = fmt.Sprintf("it has %d by %d dots, the sheet's has %d by %d", one.Rect.Dx(), one.Rect.Dy(), other.Rect.Dx(), other.Rect.Dy())
	}
	apart := 0
	w, h = max(w/2, 1), max(h/2, 1)
	little := reduced(other, w, h)
	for i, v := range reduced(one, w, h) {
		if math.Abs(float64(v)-float64(little[i])) > packing {
			apart++
		}
	}
	if l.Alike = apart == 0; l.Alike {
		return l, true
	}
	if l.Said != "" {
		l.Said += "; "
	}
	l.Said += hundredths(apart, len(little)) + " of it shows something else"
	return l, true
}

// hundredths is a share in words.
func hundredths(part, of int) string {
	if n := 100 * part / of; n > 0 {
		return fmt.Sprintf("%d %%", n)
	}
	return "less than 1 %"
}

// packing is how far apart dots may be, of 255, that were packed anew. A photo
// that is packed as poorly as programs do has edges that are off by 30; a thin hand
// in another place is off by more than 60.
const packing = 45

// plainPicture are the entries of a picture that shows its dots as they are.
var plainPicture = map[pdffile.Name]bool{
	"Type": true, "Subtype": true, "Width": true, "Height": true, "ColorSpace": true, "BitsPerComponent": true,
	"Filter": true, "Length": true, "Interpolate": true, "Name": true,
}

var errDots = errors.New("a picture whose dots are not read")

// dots are those of a picture, with its colors.
func (p *Pixels) dots(m Mark) (*image.RGBA, error) {
	s, f := m.picture, m.file
	if s == nil {
		return nil, errDots
	}
	for key := range s.Dict {
		if !plainPicture[key] {
			return nil, errDots
		}
	}
	w, err := f.Number(s.Dict["Width"])
	h, err2 := f.Number(s.Dict["Height"])
	bits, err3 := f.Number(s.Dict["BitsPerComponent"])
	space, err4 := f.Resolve(s.Dict["ColorSpace"])
	parts := map[pdffile.Object]int{pdffile.Name("DeviceGray"): 1, pdffile.Name("DeviceRGB"): 3}
	name, _ := space.(pdffile.Name)
	if errors.Join(err, err2, err3, err4) != nil || bits != 8 || parts[name] == 0 || !(w >= 1 && h >= 1 && w*h <= float64(*p)) {
		return nil, errDots
	}
	*p -= Pixels(w * h)
	coding, err := f.Coding(s)
	if err != nil {
		return nil, err
	}
	data, err := f.Unpack(s)
	if err != nil {
		return nil, err
	}
	if coding == "" {
		return fromBytes(data, int(w), int(h), parts[name])
	}
	return fromJPEG(data, int(w), int(h), parts[name])
}

// fromBytes are dots that are not packed as a picture.
func fromBytes(data []byte, w, h, parts int) (*image.RGBA, error) {
	if len(data) < w*h*parts {
		return nil, errDots
	}
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	for i := range w * h {
		for k := range 3 {
			out.Pix[4*i+k] = data[i*parts+k%parts]
		}
	}
	return out, nil
}

// fromJPEG are the dots of a JPEG, which has to be of the size and the colors that
// the PDF says.
func fromJPEG(data []byte, w, h, parts int) (*image.RGBA, error) {
	config, err := jpeg.DecodeConfig(bytes.NewReader(data))
	gray := config.ColorModel == color.GrayModel
	if err != nil || config.Width != w || config.Height != h || gray != (parts == 1) || !gray && config.ColorModel != color.YCbCrModel {
		return nil, errDots
	}
	packed, err := jpeg.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, errDots
	}
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	switch packed := packed.(type) {
	case *image.Gray:
		for y := range h {
			for x := range w {
				v := packed.Pix[y*packed.Stride+x]
				copy(out.Pix[4*(y*w+x):], []byte{v, v, v})
			}
		}
	case *image.YCbCr:
		for y := range h {
			for x := range w {
				at := packed.COffset(x, y)
				r, g, b := color.YCbCrToRGB(packed.Y[packed.YOffset(x, y)], packed.Cb[at], packed.Cr[at])
				copy(out.Pix[4*(y*w+x):], []byte{r, g, b})
			}
		}
	default:
		return nil, errDots
	}
	return out, nil
}

// reduced is a picture with so many dots, each the middle of those it stands for:
// three values a dot.
func reduced(img *image.RGBA, w, h int) []uint8 {
	out := make([]uint8, 0, 3*w*h)
	width, height := img.Rect.Dx(), img.Rect.Dy()
	for y := range h {
		y0, y1 := y*height/h, (y+1)*height/h
		for x := range w {
			x0, x1 := x*width/w, (x+1)*width/w
			var sum [3]int
			for v := y0; v < y1; v++ {
				for u := x0; u < x1; u++ {
					at := 4 * (v*width + u)
					for k := range sum {
						sum[k] += int(img.Pix[at+k])
					}
				}
			}
			for _, s := range sum {
				out = append(out, uint8(s/((y1-y0)*(x1-x0))))
			}
		}
	}
	return out
}

package pdf

import (
	"bytes"
	"fmt"
	"image"
	_ "image/jpeg" // the two formats a page takes
	"image/png"

	"github.com/go-pdf/fpdf"

	"gaugesheet/layout"
)

// maxPixels bounds a picture, so that a small file cannot ask for gigabytes.
const maxPixels = 40_000_000

// LoadPicture reads a PNG or JPEG file for use on a page and makes sure that a
// document will take it. PNG files of a kind that the library refuses
// (interlaced, 16 bit) are written anew.
func LoadPicture(name string, data []byte) (layout.Image, error) {
	cfg, kind, err := image.DecodeConfig(bytes.NewReader(data))
	if err != nil || (kind != "png" && kind != "jpeg") {
		return layout.Image{}, fmt.Errorf("not a PNG or JPEG picture")
	}
	if cfg.Width <= 0 || cfg.Height <= 0 || cfg.Width > maxPixels/cfg.Height {
		return layout.Image{}, fmt.Errorf("a picture of %d x %d pixels; at most %d million pixels", cfg.Width, cfg.Height, maxPixels/1_000_000)
	}
	img := layout.Image{Name: name, Kind: kind, Data: data, W: cfg.Width, H: cfg.Height}
	decoded, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return layout.Image{}, fmt.Errorf("a damaged %s picture: %w", kind, err)
	}
	if accepts(img) {
		return img, nil
	}
	flat := image.NewNRGBA(decoded.Bounds())
	for y := flat.Rect.Min.Y; y < flat.Rect.Max.Y; y++ {
		for x := flat.Rect.Min.X; x < flat.Rect.Max.X; x++ {
			flat.Set(x, y, decoded.At(x, y))
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, flat); err != nil {
		return layout.Image{}, err
	}
	img.Kind, img.Data = "png", b.Bytes()
	return img, nil
}

func accepts(img layout.Image) bool {
	f := fpdf.New("P", "pt", "A4", "")
	f.RegisterImageOptionsReader(img.Name, options(img), bytes.NewReader(img.Data))
	return f.Ok()
}

func options(img layout.Image) fpdf.ImageOptions { return fpdf.ImageOptions{ImageType: img.Kind} }

// Picture places a picture in an area, stretched to it.
func (d *Doc) Picture(r layout.Rect, img layout.Image) {
	if d.pdf.GetImageInfo(img.Name) == nil {
		d.pdf.RegisterImageOptionsReader(img.Name, options(img), bytes.NewReader(img.Data))
	}
	d.pdf.ImageOptions(img.Name, float64(r.X.Round()), float64(r.Y.Round()),
		float64(r.W.Round()), float64(r.H.Round()), false, options(img), 0, "")
}

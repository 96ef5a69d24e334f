package pdf

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg" // the two formats a page takes
	"image/png"

	"github.com/go-pdf/fpdf"

	"gaugesheet/layout"
)

// maxPixels bounds a picture, so that a small file cannot ask for gigabytes: a
// camera's has twelve million.
const maxPixels = 16_000_000

// LoadPicture reads a PNG or JPEG file for use on a page and makes sure that a
// document will take it and show it as it is meant. Files of a kind that the
// library refuses or misreads (interlaced, 16 bit, with transparency beside the
// colours, in the inks of print) are written anew.
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
	if plain(img, cfg) && accepts(img) {
		return img, nil
	}
	flat := image.NewNRGBA(decoded.Bounds())
	draw.Draw(flat, flat.Rect, decoded, flat.Rect.Min, draw.Src)
	var b bytes.Buffer
	if kind == "jpeg" {
		err = jpeg.Encode(&b, flat, &jpeg.Options{Quality: 95})
	} else {
		err = png.Encode(&b, flat)
	}
	img.Data = b.Bytes()
	return img, err
}

// plain reports whether the library reads a file's pixels as they are meant.
func plain(img layout.Image, cfg image.Config) bool {
	if img.Kind == "jpeg" {
		return cfg.ColorModel == color.YCbCrModel || cfg.ColorModel == color.GrayModel
	}
	const depth = 24 // where a PNG file says how many bits a pixel's values have
	return len(img.Data) > depth && img.Data[depth] <= 8 && !bytes.Contains(img.Data, []byte("tRNS"))
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
	d.shape()
	d.pdf.ImageOptions(img.Name, float64(r.X.Round()), float64(r.Y.Round()),
		float64(r.W.Round()), float64(r.H.Round()), false, options(img), 0, "")
}

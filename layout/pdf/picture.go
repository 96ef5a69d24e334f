package pdf

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg" // the two formats a page takes
	_ "image/png"

	"gaugesheet/layout"
)

// maxPixels bounds a picture, so that a small file cannot ask for gigabytes: a
// camera's has twelve million.
const maxPixels = 16_000_000

// LoadPicture reads a PNG or JPEG file for use on a page and makes sure that a
// document can show it as it is meant. A JPEG file in other colours than those of
// a camera (the inks of print) is written anew.
func LoadPicture(name string, data []byte) (layout.Image, error) {
	cfg, kind, err := image.DecodeConfig(bytes.NewReader(data))
	if err != nil || (kind != "png" && kind != "jpeg") {
		return layout.Image{}, fmt.Errorf("not a PNG or JPEG picture")
	}
	if cfg.Width <= 0 || cfg.Height <= 0 || cfg.Width > maxPixels/cfg.Height {
		return layout.Image{}, fmt.Errorf("a picture of %d x %d pixels; at most %d million pixels", cfg.Width, cfg.Height, maxPixels/1_000_000)
	}
	img := layout.Image{Name: name, Kind: kind, Data: data, W: cfg.Width, H: cfg.Height}
	if kind == "jpeg" {
		img.Turn = turnOf(data)
	}
	if img.Turn.Aside() {
		img.W, img.H = img.H, img.W
	}
	decoded, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return layout.Image{}, fmt.Errorf("a damaged %s picture: %w", kind, err)
	}
	if kind == "png" || cfg.ColorModel == color.YCbCrModel || cfg.ColorModel == color.GrayModel {
		return img, nil
	}
	var b bytes.Buffer
	err = jpeg.Encode(&b, plainColors(decoded), &jpeg.Options{Quality: 95})
	img.Data = b.Bytes()
	return img, err
}

// plainColors is a picture in red, green and blue of eight bits.
func plainColors(img image.Image) *image.NRGBA {
	flat := image.NewNRGBA(image.Rect(0, 0, img.Bounds().Dx(), img.Bounds().Dy()))
	draw.Draw(flat, flat.Rect, img, img.Bounds().Min, draw.Src)
	return flat
}

// Picture places a picture in an area, stretched to it. One that is there more
// than once, under whatever names, is in the file once.
func (d *Doc) Picture(r layout.Rect, img layout.Image) {
	n := 0
	for n < len(d.pictures) && !bytes.Equal(d.pictures[n].Data, img.Data) {
		n++
	}
	if n == len(d.pictures) {
		d.pictures = append(d.pictures, img)
	}
	d.shape()
	up := d.opt.Paper.H.Round() - r.Y.Round() - r.H.Round()
	p, w, h := img.Turn.Places(), r.W.Round(), r.H.Round()
	d.pdf.RawWriteStr(fmt.Sprintf("q %s %s %s %s %.2f %.2f cm /%s Do Q", share(p[0]*w), share(-p[3]*h), share(-p[1]*w), share(p[4]*h),
		r.X.Round()+(p[1]+p[2])*w, up+(1-p[4]-p[5])*h, pictureName(n)))
}

// share writes a measure of a picture's place, nothing as it always was.
func share(v layout.Length) string {
	if v == 0 {
		return "0"
	}
	return fmt.Sprintf("%.2f", v)
}

// pictureName is the name by which the page calls a picture.
func pictureName(n int) string { return fmt.Sprintf("P%d", n+1) }

package raster

import (
	"cmp"
	"image"
	"image/color"
	"slices"
)

// paletted gives the page in the 256 shades that it has most of, which halves
// the file: a page of a few inks has hardly more, and the others differ from
// one of these by less than can be seen.
func paletted(from *image.RGBA) *image.Paletted {
	counts := map[[3]byte]int{}
	for i := 0; i < len(from.Pix); i += 4 {
		counts[[3]byte(from.Pix[i:i+3])]++
	}
	shades := make([][3]byte, 0, len(counts))
	for s := range counts {
		shades = append(shades, s)
	}
	slices.SortFunc(shades, func(a, b [3]byte) int {
		return cmp.Or(cmp.Compare(counts[b], counts[a]), slices.Compare(a[:], b[:]))
	})
	to := image.NewPaletted(from.Rect, nil)
	number := map[[3]byte]uint8{}
	for i, s := range shades {
		if i < 256 {
			to.Palette = append(to.Palette, color.RGBA{s[0], s[1], s[2], 255})
			number[s] = uint8(i)
			continue
		}
		number[s] = uint8(to.Palette.Index(color.RGBA{s[0], s[1], s[2], 255}))
	}
	for i := range to.Pix {
		to.Pix[i] = number[[3]byte(from.Pix[4*i:4*i+3])]
	}
	return to
}

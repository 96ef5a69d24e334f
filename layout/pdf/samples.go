package pdf

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"image"
	"image/color"

	"gaugesheet/layout"
)

// The PDF library orders pictures that are equally wide by chance, names one
// that is given twice twice, and knows some kinds only. So pictures are written
// here (ISO 32000-1, 8.9.5), in the order in which the page first shows them.

// A stream is what an image object holds: its entries, and its data as they
// stand in the file.
type stream struct {
	entries string
	data    []byte
}

// pictures writes the pictures as the next objects, in their order: the page
// calls them by these numbers. Their transparency comes behind them.
func (t *tail) pictures(all []layout.Image) error {
	first := len(t.at)
	for range all {
		t.reserve()
	}
	for i, img := range all {
		colors, alpha, err := samples(img)
		if err != nil {
			return fmt.Errorf("write the document: picture %s: %w", img.Name, err)
		}
		if alpha != nil {
			colors.entries += fmt.Sprintf(" /SMask %d 0 R", t.reserve())
			t.image(len(t.at)-1, img, *alpha)
		}
		t.image(first+i, img, colors)
	}
	return nil
}

func (t *tail) image(number int, img layout.Image, s stream) {
	t.at[number] = t.Len()
	w, h := img.Stored()
	fmt.Fprintf(t, "%d 0 obj\n<</Type /XObject /Subtype /Image /Width %d /Height %d %s /Length %d>>\nstream\n", number, w, h, s.entries, len(s.data))
	t.Write(s.data)
	t.WriteString("\nendstream\nendobj\n")
}

// samples are a picture's colours, and how far they cover; nil where they cover
// whole. JPEG files, and the usual kinds of PNG, hold them as a PDF does.
func samples(img layout.Image) (colors stream, alpha *stream, err error) {
	if img.Kind == "jpeg" {
		cfg, _, err := image.DecodeConfig(bytes.NewReader(img.Data))
		space := "/DeviceRGB"
		if cfg.ColorModel == color.GrayModel {
			space = "/DeviceGray"
		}
		return stream{"/ColorSpace " + space + " /BitsPerComponent 8 /Filter /DCTDecode", img.Data}, nil, err
	}
	if s, ok := asPacked(img.Data); ok {
		return s, nil, nil
	}
	decoded, _, err := image.Decode(bytes.NewReader(img.Data))
	if err != nil {
		return stream{}, nil, err
	}
	return unpacked(plainColors(decoded))
}

// unpacked are the samples of a picture in memory.
func unpacked(img *image.NRGBA) (colors stream, alpha *stream, err error) {
	n := len(img.Pix) / 4
	rgb, cover := make([]byte, 0, 3*n), make([]byte, 0, n)
	whole := true
	for i := range n {
		p := img.Pix[4*i : 4*i+4]
		rgb, cover = append(rgb, p[:3]...), append(cover, p[3])
		whole = whole && p[3] == 0xff
	}
	packed, err := compress(rgb)
	colors = stream{"/ColorSpace /DeviceRGB /BitsPerComponent 8 /Filter /FlateDecode", packed}
	if err != nil || whole {
		return colors, nil, err
	}
	packed, err = compress(cover)
	return colors, &stream{"/ColorSpace /DeviceGray /BitsPerComponent 8 /Filter /FlateDecode", packed}, err
}

// asPacked takes a PNG file's samples as they are packed in it, which PDF
// understands (ISO 32000-1, 7.4.4.4) but for rows in another order, values of 16
// bits, and transparency. Chunks and their order are those of ISO/IEC 15948, 11.
func asPacked(file []byte) (stream, bool) {
	const signature, plain = 8, 0
	var kind, bits byte
	var width uint32
	var palette, data []byte
	for rest := file[min(signature, len(file)):]; len(rest) >= 12; {
		length := binary.BigEndian.Uint32(rest)
		if uint64(length)+12 > uint64(len(rest)) {
			return stream{}, false
		}
		chunk := rest[8 : 8+length]
		switch string(rest[4:8]) {
		case "IHDR":
			if len(chunk) < 13 || chunk[12] != plain {
				return stream{}, false
			}
			width, bits, kind = binary.BigEndian.Uint32(chunk), chunk[8], chunk[9]
		case "PLTE":
			palette = chunk
		case "tRNS":
			return stream{}, false
		case "IDAT":
			data = append(data, chunk...)
		}
		rest = rest[12+length:]
	}
	const gray, rgb, indexed = 0, 2, 3
	space, per := "/DeviceGray", 1
	switch {
	case kind == rgb:
		space, per = "/DeviceRGB", 3
	case kind == indexed && len(palette) >= 3:
		space = fmt.Sprintf("[/Indexed /DeviceRGB %d <%x>]", len(palette)/3-1, palette[:len(palette)/3*3])
	case kind != gray:
		return stream{}, false
	}
	if bits > 8 || len(data) == 0 {
		return stream{}, false
	}
	return stream{fmt.Sprintf("/ColorSpace %s /BitsPerComponent %d /Filter /FlateDecode /DecodeParms <</Predictor 15 /Colors %d /BitsPerComponent %d /Columns %d>>",
		space, bits, per, bits, width), data}, true
}

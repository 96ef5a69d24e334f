package raster

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/png"
	"math"
)

// software marks a picture of this program's, so that it can be told from a
// file that must not be replaced.
const software = "Software\x00gaugesheet"

// afterHeader is where the first chunk behind the header of a PNG file begins.
const afterHeader = 8 + 12 + 13

// PNG gives the picture as a file that says its resolution and what made it.
func (p *Page) PNG() ([]byte, error) {
	var b bytes.Buffer
	e := png.Encoder{CompressionLevel: png.DefaultCompression}
	var page image.Image = p.pixels
	if !p.photographs {
		page = paletted(p.pixels)
	}
	if err := e.Encode(&b, page); err != nil {
		return nil, err
	}
	perMetre := uint32(math.Round(p.dpi / 0.0254))
	size := binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(nil, perMetre), perMetre)
	file := append([]byte{}, b.Bytes()[:afterHeader]...)
	file = append(file, chunk("pHYs", append(size, 1))...) // 1: the unit is the metre
	file = append(file, chunk("tEXt", []byte(software))...)
	return append(file, b.Bytes()[afterHeader:]...), nil
}

// chunk is a part of a PNG file (ISO/IEC 15948, 5.3).
func chunk(kind string, data []byte) []byte {
	c := binary.BigEndian.AppendUint32(nil, uint32(len(data)))
	c = append(append(c, kind...), data...)
	return binary.BigEndian.AppendUint32(c, crc32.ChecksumIEEE(c[4:]))
}

// Made tells whether a file is a picture that this program made.
func Made(data []byte) bool {
	return bytes.HasPrefix(data, []byte("\x89PNG\r\n")) && bytes.Contains(data[:min(len(data), 200)], []byte(software))
}

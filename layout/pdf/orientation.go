package pdf

import (
	"bytes"
	"encoding/binary"

	"gaugesheet/layout"
)

// turnOf reads how a camera was held from a JPEG file: the orientation tag in
// its first directory of Exif data (CIPA DC-008-2019, 4.5 and 4.6.4). What cannot
// be read says nothing.
func turnOf(file []byte) layout.Turn {
	const picture, end, app1 = 0xda, 0xd9, 0xe1
	for rest := file[min(2, len(file)):]; len(rest) >= 4 && rest[0] == 0xff; {
		if rest[1] == 0xff { // filling
			rest = rest[1:]
			continue
		}
		size := 2 + int(binary.BigEndian.Uint16(rest[2:]))
		if rest[1] == picture || rest[1] == end || size > len(rest) {
			break
		}
		if exif, ok := bytes.CutPrefix(rest[4:max(size, 4)], []byte("Exif\x00\x00")); ok && rest[1] == app1 {
			return orientation(exif)
		}
		rest = rest[size:]
	}
	return 0
}

// orientation reads the tag from Exif data, which are a TIFF file (TIFF 6.0,
// section 2).
func orientation(exif []byte) layout.Turn {
	const tag, short, row = 0x0112, 3, 12
	var order binary.ByteOrder
	switch {
	case bytes.HasPrefix(exif, []byte("II*\x00")):
		order = binary.LittleEndian
	case bytes.HasPrefix(exif, []byte("MM\x00*")):
		order = binary.BigEndian
	default:
		return 0
	}
	if len(exif) < 8 {
		return 0
	}
	at := uint64(order.Uint32(exif[4:]))
	if at+2 > uint64(len(exif)) {
		return 0
	}
	entries := exif[at+2:]
	for range order.Uint16(exif[at:]) {
		if len(entries) < row {
			return 0
		}
		if v := order.Uint16(entries[8:]); order.Uint16(entries) == tag && order.Uint16(entries[2:]) == short && v >= 1 && v <= 8 {
			return layout.Turn(v)
		}
		entries = entries[row:]
	}
	return 0
}

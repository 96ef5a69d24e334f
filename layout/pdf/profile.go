package pdf

import (
	"encoding/binary"
	"math"
	"sync"
	"unicode/utf16"
)

// A page's colours are numbers of red, green and blue. So that they look the
// same wherever the file is opened, it carries what they mean: sRGB
// (IEC 61966-2-1), as a matrix profile of the ICC's version 4 (ISO 15076-1),
// worked out here from the primaries.

// packedProfile is the profile as files hold it, made once.
var packedProfile = sync.OnceValues(func() ([]byte, error) { return compress(makeProfile()) })

type vector [3]float64
type square [3]vector

// Chromaticities of sRGB's primaries and white (IEC 61966-2-1, table 1).
var (
	srgbRed, srgbGreen, srgbBlue = xyz(0.64, 0.33), xyz(0.30, 0.60), xyz(0.15, 0.06)
	srgbWhite                    = xyz(0.3127, 0.3290)
)

// d50 is the white of profiles (ISO 15076-1, 7.2.16).
var d50 = vector{0.9642, 1, 0.8249}

// bradford goes from tristimulus values to those of the cones, in which one
// white is exchanged for another (ISO 15076-1, annex E).
var bradford = square{{0.8951, 0.2664, -0.1614}, {-0.7502, 1.7135, 0.0367}, {0.0389, -0.0685, 1.0296}}

// xyz gives the tristimulus values of a chromaticity at Y = 1.
func xyz(x, y float64) vector { return vector{x / y, 1, (1 - x - y) / y} }

func (m square) of(v vector) (out vector) {
	for i, row := range m {
		out[i] = row[0]*v[0] + row[1]*v[1] + row[2]*v[2]
	}
	return out
}

func (m square) times(n square) (out square) {
	for i := range 3 {
		for j := range 3 {
			out[i][j] = m[i][0]*n[0][j] + m[i][1]*n[1][j] + m[i][2]*n[2][j]
		}
	}
	return out
}

func (m square) column(j int) vector { return vector{m[0][j], m[1][j], m[2][j]} }

// inverse is by cofactors.
func (m square) inverse() (out square) {
	cofactor := func(i, j int) float64 {
		a, b, c, d := (i+1)%3, (i+2)%3, (j+1)%3, (j+2)%3
		return m[a][c]*m[b][d] - m[a][d]*m[b][c]
	}
	det := m[0][0]*cofactor(0, 0) + m[0][1]*cofactor(0, 1) + m[0][2]*cofactor(0, 2)
	for i := range 3 {
		for j := range 3 {
			out[j][i] = cofactor(i, j) / det
		}
	}
	return out
}

func diagonal(v vector) square { return square{{v[0]}, {0, v[1]}, {0, 0, v[2]}} }

// adaptation takes colours seen under sRGB's white to the same under D50.
func adaptation() square {
	from, to := bradford.of(srgbWhite), bradford.of(d50)
	return bradford.inverse().times(diagonal(vector{to[0] / from[0], to[1] / from[1], to[2] / from[2]})).times(bradford)
}

// colorants are sRGB's red, green and blue at full, under D50, as columns.
func colorants() square {
	r, g, b := srgbRed, srgbGreen, srgbBlue
	primaries := square{{r[0], g[0], b[0]}, {r[1], g[1], b[1]}, {r[2], g[2], b[2]}}
	share := primaries.inverse().of(srgbWhite)
	return adaptation().times(primaries.times(diagonal(share)))
}

// makeProfile writes the profile.
func makeProfile() []byte {
	adapt, c := adaptation(), colorants()
	curve := numbersTag("para", []byte{0, 3, 0, 0}, 2.4, 1/1.055, 0.055/1.055, 1/12.92, 0.04045)
	type tag struct {
		name string
		data []byte
	}
	tags := []tag{
		{"desc", textTag("sRGB")},
		{"cprt", textTag("No copyright, use freely")},
		{"wtpt", numbersTag("XYZ ", nil, d50[:]...)},
		{"chad", numbersTag("sf32", nil, append(append(adapt[0][:], adapt[1][:]...), adapt[2][:]...)...)},
	}
	for i, name := range []string{"r", "g", "b"} {
		column := c.column(i)
		tags = append(tags, tag{name + "XYZ", numbersTag("XYZ ", nil, column[:]...)}, tag{name + "TRC", curve})
	}

	head := make([]byte, 128)
	copy(head[8:], "\x04\x20\x00\x00mntrRGB XYZ ")
	copy(head[24:], "\x07\xd0\x00\x01\x00\x01") // 1 January 2000
	copy(head[36:], "acsp")
	copy(head[68:], numbersTag("", nil, d50[:]...)[4:])

	table := binary.BigEndian.AppendUint32(nil, uint32(len(tags)))
	var body []byte
	placed := map[string]uint32{} // tags with the same data share them
	for _, t := range tags {
		at, known := placed[string(t.data)]
		if !known {
			at = uint32(len(head) + 4 + 12*len(tags) + len(body))
			placed[string(t.data)] = at
			body = append(body, t.data...)
			for len(body)%4 != 0 {
				body = append(body, 0)
			}
		}
		table = append(table, t.name...)
		table = binary.BigEndian.AppendUint32(table, at)
		table = binary.BigEndian.AppendUint32(table, uint32(len(t.data)))
	}
	all := append(append(head, table...), body...)
	binary.BigEndian.PutUint32(all, uint32(len(all)))
	return all
}

// numbersTag is a tag's type, its reserved bytes, what stands before its
// numbers, and these as s15Fixed16 (ISO 15076-1, 4.6).
func numbersTag(kind string, before []byte, values ...float64) []byte {
	b := append([]byte(kind), 0, 0, 0, 0)
	b = append(b, before...)
	for _, v := range values {
		b = binary.BigEndian.AppendUint32(b, uint32(int32(math.Round(v*65536))))
	}
	return b
}

// textTag is a text in English (multiLocalizedUnicodeType, ISO 15076-1, 10.15).
func textTag(s string) []byte {
	units := utf16.Encode([]rune(s))
	b := append([]byte("mluc"), 0, 0, 0, 0, 0, 0, 0, 1, 0, 0, 0, 12)
	b = append(b, "enUS"...)
	b = binary.BigEndian.AppendUint32(b, uint32(2*len(units)))
	b = binary.BigEndian.AppendUint32(b, 28)
	for _, u := range units {
		b = binary.BigEndian.AppendUint16(b, u)
	}
	return b
}

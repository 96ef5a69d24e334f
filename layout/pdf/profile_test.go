package pdf

import (
	"encoding/binary"
	"math"
	"testing"
)

// tagOf gives a tag's data of an ICC profile.
func tagOf(t *testing.T, icc []byte, name string) []byte {
	t.Helper()
	for i := range int(binary.BigEndian.Uint32(icc[128:])) {
		entry := icc[132+12*i:]
		if string(entry[:4]) == name {
			at, n := binary.BigEndian.Uint32(entry[4:]), binary.BigEndian.Uint32(entry[8:])
			return icc[at : at+n]
		}
	}
	t.Fatalf("the profile lacks %s", name)
	return nil
}

func fixed(b []byte) float64 { return float64(int32(binary.BigEndian.Uint32(b))) / 65536 }

// The colorants of sRGB under D50, as the ICC publishes them with its sRGB
// profiles (from memory); they were worked out from a white with more places.
func TestProfileHasTheColorsOfSRGB(t *testing.T) {
	icc := makeProfile()
	for _, c := range []struct {
		tag  string
		want [3]float64
	}{
		{"rXYZ", [3]float64{0.4361, 0.2225, 0.0139}},
		{"gXYZ", [3]float64{0.3851, 0.7169, 0.0971}},
		{"bXYZ", [3]float64{0.1431, 0.0606, 0.7141}},
		{"wtpt", [3]float64{0.9642, 1, 0.8249}},
	} {
		data := tagOf(t, icc, c.tag)
		for i, want := range c.want {
			if got := fixed(data[8+4*i:]); math.Abs(got-want) > 0.0003 {
				t.Errorf("%s[%d] is %.5f, want %.4f", c.tag, i, got, want)
			}
		}
	}
	// White is all three at once.
	for i, want := range d50 {
		sum := 0.0
		for _, name := range []string{"rXYZ", "gXYZ", "bXYZ"} {
			sum += fixed(tagOf(t, icc, name)[8+4*i:])
		}
		if math.Abs(sum-want) > 0.0001 {
			t.Errorf("red, green and blue together have %.5f at %d, white has %.4f", sum, i, want)
		}
	}
}

// The tone curve at some values, worked out from IEC 61966-2-1 by hand: 0 and 1
// stay, the straight part ends at 0.04045, 0.5 is 0.21404.
func TestProfileHasTheCurveOfSRGB(t *testing.T) {
	data := tagOf(t, makeProfile(), "gTRC")
	if string(data[:4]) != "para" || binary.BigEndian.Uint16(data[8:]) != 3 {
		t.Fatal("the curve is not of the kind with a straight part")
	}
	var p [5]float64
	for i := range p {
		p[i] = fixed(data[12+4*i:])
	}
	for x, want := range map[float64]float64{0: 0, 0.02: 0.001548, 0.04045: 0.0031308, 0.5: 0.214041, 1: 1} {
		got := p[3] * x
		if x >= p[4] {
			got = math.Pow(p[1]*x+p[2], p[0])
		}
		if math.Abs(got-want) > 0.0001 {
			t.Errorf("%v becomes %.6f, want %.6f", x, got, want)
		}
	}
}

// What ISO 15076-1 (7.2) wants of a profile's head.
func TestProfileHead(t *testing.T) {
	icc := makeProfile()
	if n := binary.BigEndian.Uint32(icc); int(n) != len(icc) || len(icc)%4 != 0 {
		t.Errorf("the profile says it has %d bytes, it has %d", n, len(icc))
	}
	for at, want := range map[int]string{12: "mntr", 16: "RGB ", 20: "XYZ ", 36: "acsp"} {
		if got := string(icc[at : at+4]); got != want {
			t.Errorf("at byte %d stands %q, want %q", at, got, want)
		}
	}
	if icc[8] != 4 {
		t.Errorf("version %d, want 4", icc[8])
	}
	tagOf(t, icc, "chad") // a profile of version 4 whose own white is not D50 has one
}

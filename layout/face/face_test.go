package face_test

import (
	"testing"

	"github.com/go-fonts/liberation/liberationsansbold"
	"github.com/go-fonts/liberation/liberationsansregular"
	"github.com/golang/freetype/truetype"

	"gaugesheet/layout"
	"gaugesheet/layout/face"
)

// Advances are compared with the original files by another reader of fonts.
func TestAdvances(t *testing.T) {
	for _, f := range []struct {
		weight        layout.Weight
		original, cut []byte
	}{
		{layout.Regular, liberationsansregular.TTF, face.Regular},
		{layout.Bold, liberationsansbold.TTF, face.Bold},
	} {
		ttf, err := truetype.Parse(f.original)
		if err != nil {
			t.Fatal(err)
		}
		cut, err := truetype.Parse(f.cut)
		if err != nil {
			t.Fatal(err)
		}
		has := 0
		for r := range rune(0x10000) {
			if !face.Metrics().Has(r) {
				continue
			}
			has++
			if ttf.Index(r) == 0 || cut.Index(r) == 0 {
				t.Errorf("%U has no glyph", r)
			}
			got := face.Metrics().Width(string(r), layout.Face{Weight: f.weight, Size: 1000})
			want := (float64(ttf.HMetric(2048, ttf.Index(r)).AdvanceWidth)*1000 + 1024) / 2048
			if got != layout.Length(int(want)) {
				t.Errorf("%U is %v wide, the original %v", r, got, int(want))
			}
		}
		if has < 1000 {
			t.Errorf("only %d characters", has)
		}
	}
}

func TestHas(t *testing.T) {
	for r, want := range map[rune]bool{
		'A': true, 'ß': true, 'ő': true, 'ș': true, 'Ω': true, 'Ж': true, 'ệ': true, '\u00A0': true, '\u202F': true, '−': true,
		'±': true, '≤': true, '≈': true, '→': true, '½': true, '°': true, 'µ': true, '–': true, '…': true, '€': true, '№': true,
		'\U0001F600': false, '漢': false, '\n': false, '\u200B': false, '\u0301': false, '\u00AD': false, -1: false, '\U00010041': false,
	} {
		if got := face.Metrics().Has(r); got != want {
			t.Errorf("Has(%U) = %v, want %v", r, got, want)
		}
	}
}

package sfnt_test

import (
	"testing"

	"github.com/go-fonts/liberation/liberationsansregular"
	"github.com/golang/freetype/truetype"
	"golang.org/x/image/math/fixed"

	"gaugesheet/layout/face/sfnt"
)

// A subset must draw the same outlines as the full file: both are loaded by
// another reader of fonts and compared point by point. The letters with marks
// are made of parts.
func TestSubsetDrawsTheSame(t *testing.T) {
	font, err := sfnt.Read(liberationsansregular.TTF)
	if err != nil {
		t.Fatal(err)
	}
	full, err := truetype.Parse(liberationsansregular.TTF)
	if err != nil {
		t.Fatal(err)
	}
	runes := []rune("Ag8äÅḗЖΩ≤")
	gids := []int{0}
	for _, r := range runes {
		gids = append(gids, font.Glyphs[r])
	}
	tables := font.Subset(gids)
	for _, name := range []string{"cmap", "name", "post", "OS/2"} { // a reader wants them, the page does not
		tables[name] = font.Tables[name]
	}
	part, err := truetype.Parse(sfnt.Assemble(tables))
	if err != nil {
		t.Fatal(err)
	}
	const size = fixed.Int26_6(2048)
	for i, r := range runes {
		var want, got truetype.GlyphBuf
		if err := want.Load(full, size, full.Index(r), 0); err != nil {
			t.Fatal(err)
		}
		if err := got.Load(part, size, truetype.Index(i+1), 0); err != nil {
			t.Fatalf("%c: %v", r, err)
		}
		if len(got.Points) == 0 || len(got.Points) != len(want.Points) || got.AdvanceWidth != want.AdvanceWidth {
			t.Fatalf("%c: %d points and an advance of %v, want %d and %v", r, len(got.Points), got.AdvanceWidth, len(want.Points), want.AdvanceWidth)
		}
		for k := range got.Points {
			if got.Points[k].X != want.Points[k].X || got.Points[k].Y != want.Points[k].Y {
				t.Fatalf("%c: point %d differs", r, k)
			}
		}
	}
}

func TestNoCharacterMap(t *testing.T) {
	font, err := sfnt.Read(liberationsansregular.TTF)
	if err != nil {
		t.Fatal(err)
	}
	tables := font.Subset([]int{0})
	tables["cmap"] = []byte{0, 0, 0, 0}
	if _, err := sfnt.Read(sfnt.Assemble(tables)); err == nil {
		t.Error("a file without a character map was taken")
	}
}

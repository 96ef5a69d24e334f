package archive

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/png"
	"strings"
	"testing"

	"gaugesheet/diag/story"
	"gaugesheet/report/budget"
	"gaugesheet/report/job"
	"gaugesheet/report/sheet"
)

func manyNames(n int) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, "/n%d 0", i)
	}
	return b.String()
}

// carrying draws a sheet of a job with files beside it.
func carrying(t *testing.T, text string, files map[string][]byte) ([]byte, error) {
	t.Helper()
	j, problems := job.Read("job.yaml", []byte(text), func(name string) ([]byte, error) {
		if data, ok := files[name]; ok {
			return data, nil
		}
		return nil, errors.New("there is no such file")
	})
	if len(problems) > 0 {
		return nil, problems[0]
	}
	s, err := sheet.New(j, story.Diagnose(j.Test()), sheet.Options{Version: version})
	if err != nil {
		return nil, err
	}
	return s.PDF()
}

// A sheet that the program draws can also be verified, however large what it
// carries; what would be too large is not drawn.
func TestOwnLargeSheets(t *testing.T) {
	if testing.Short() {
		t.Skip("takes seconds")
	}
	gray := func(w, h int) image.Image { return image.NewGray(image.Rect(0, 0, w, h)) }
	alpha := func(w, h int) image.Image { return image.NewNRGBA(image.Rect(0, 0, w, h)) }
	logo := "shop: {name: Harrow Mills Engine Works, logo: logo.png}\n"
	for name, picture := range map[string]struct {
		of   func(w, h int) image.Image
		w, h int
	}{
		"12 million pixels": {gray, 4000, 3000}, "16 million pixels": {gray, 4000, 4000}, "40 million pixels": {gray, 8000, 5000}, "300 million pixels": {gray, 20000, 15000},
		"noise with alpha": {noise, 1000, 1000}, "16 million pixels with alpha": {alpha, 4000, 4000},
	} {
		t.Run(name, func(t *testing.T) {
			var b bytes.Buffer
			if err := png.Encode(&b, picture.of(picture.w, picture.h)); err != nil {
				t.Fatal(err)
			}
			drawnAndSame(t, logo+fourCylinders, map[string][]byte{"logo.png": b.Bytes()})
		})
	}
	t.Run("earlier jobs", func(t *testing.T) {
		files := map[string][]byte{}
		names := ""
		for i := range 190 {
			name := fmt.Sprintf("e%d.yaml", i)
			files[name] = []byte(fourCylinders)
			names += name + ", "
		}
		drawnAndSame(t, fourCylinders+"earlier: ["+names+"]\n", files)
	})
}

// noise is a picture that hardly packs.
func noise(w, h int) image.Image {
	m := image.NewNRGBA(image.Rect(0, 0, w, h))
	v := uint32(1)
	for i := range m.Pix {
		v = v*1664525 + 1013904223
		m.Pix[i] = byte(v >> 24)
	}
	return m
}

// drawnAndSame fails where a job's sheet is drawn and is not the same for
// verify, or where either takes more than it may.
func drawnAndSame(t *testing.T, text string, files map[string][]byte) {
	t.Helper()
	var page []byte
	var err error
	budget.Held(t, func() { page, err = carrying(t, text, files) })
	if err != nil {
		t.Logf("not drawn: %v", err)
		return
	}
	budget.Held(t, func() {
		if got, said := outcomeOf(t, page); got != Same {
			t.Errorf("the outcome is %d; said %q", got, said)
		}
	})
}

package sheet_test

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"maps"
	"math/rand/v2"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"gaugesheet/layout"
	"gaugesheet/report/conform"
	"gaugesheet/report/job"
	"gaugesheet/report/sheet"
)

// conforms fails where a sheet's file breaks PDF/A-3a or PDF/UA-1, and where a
// text of it is not heard by who cannot see it.
func conforms(t *testing.T, j *job.Job, o sheet.Options) {
	t.Helper()
	kind := o.Kind
	o.Version = "test"
	s, err := sheet.New(j, diagnosed(j), o)
	if full := (*layout.TooFull)(nil); o.Template != nil && errors.As(err, &full) {
		return
	}
	if err != nil {
		t.Errorf("%s: %v", kind, err)
		return
	}
	file, err := s.PDF()
	if err != nil {
		t.Errorf("%s: %v", kind, err)
		return
	}
	r, err := conform.Check(file)
	if err != nil {
		t.Errorf("%s: %v", kind, err)
	}
	for _, broken := range r.Broken {
		t.Errorf("%s: %s", kind, broken)
	}
	if o.Boxes {
		return // the names of blocks are for who builds a page, and are not heard
	}
	// What is not read out says how the figures look; the words are in those for
	// the figures.
	all := strings.ToLower(strings.Join(r.Heard, " "))
	for _, text := range r.Unheard {
		for _, word := range strings.Fields(strings.ToLower(text)) {
			if !strings.Contains(all, strings.Trim(word, ",.;")) {
				t.Errorf("%s: %q is not heard", kind, text)
			}
		}
	}
	for _, said := range r.Heard {
		if strings.Contains(said, "..") || strings.Contains(said, "<no value>") || strings.HasSuffix(said, ": ") && !strings.HasPrefix(said, "T") {
			t.Errorf("%s: one hears %q", kind, said)
		}
	}
}

// Every example, on every sheet and every paper.
func TestExamplesConform(t *testing.T) {
	kinds := slices.Sorted(maps.Keys(smallestType))
	for i, path := range examples(t) {
		t.Run(strings.TrimSuffix(filepath.Base(path), ".yaml"), func(t *testing.T) {
			t.Parallel()
			j := readExample(t, path)
			for n, kind := range kinds {
				if testing.Short() && n%2 != i%2 {
					continue
				}
				for _, paper := range papersOf(path) {
					conforms(t, j, sheet.Options{Kind: kind, Paper: paper})
				}
			}
		})
	}
}

// Blocks in any order and company, of a job that names nothing.
func TestOwnTemplatesConform(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 1))
	jobs := []*job.Job{
		readExample(t, examples(t)[0]),
		readJob(t, "job.yaml", []byte("engine: {layout: V6, numbering: bank by bank, first-bank: left}\ncompression: {unit: psi, dry: [150, 155, 148, 138, 70, 151]}\n")),
	}
	for i := range many(30) {
		conforms(t, jobs[i%2], sheet.Options{Template: []byte(randomTemplate(rng, ownBlocks(t))), TemplateName: "mine.yaml"})
	}
}

// Blocks in outlines, in the other English, without the job file.
func TestOddSheetsConform(t *testing.T) {
	j := readExample(t, examples(t)[0])
	conforms(t, j, sheet.Options{Kind: "customer", Language: "en-GB", NoAttach: true})
	conforms(t, j, sheet.Options{Kind: "customer", Boxes: true})
}

// Random jobs: of whatever is drawn, each stretch belongs to one part.
func TestRandomJobsConform(t *testing.T) {
	for seed := range many(*jobs / 4) {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			t.Parallel()
			j := readJob(t, "random.yaml", []byte(randomJob(seed)))
			for kind := range smallestType {
				conforms(t, j, sheet.Options{Kind: kind, Paper: []string{"letter", "a4"}[seed%2]})
			}
		})
	}
}

// A page with a logo and a photo of any sort.
func TestPicturesConform(t *testing.T) {
	area := image.Rect(0, 0, 30, 20)
	see := color.Palette{color.NRGBA{200, 30, 30, 255}, color.NRGBA{0, 0, 255, 120}, color.NRGBA{}}
	for name, img := range map[string]interface {
		image.Image
		Set(x, y int, c color.Color)
	}{
		"gray": image.NewGray(area), "gray-16": image.NewGray16(area), "rgb": image.NewRGBA(area), "rgba": image.NewNRGBA(area),
		"rgb-16": image.NewRGBA64(area), "rgba-16": image.NewNRGBA64(area), "palette": image.NewPaletted(area, see),
	} {
		for x := range 30 {
			for y := range 20 {
				alpha := uint8(255)
				if strings.Contains(name, "rgba") {
					alpha = uint8(8 * x)
				}
				img.Set(x, y, color.NRGBA{uint8(8 * x), uint8(12 * y), 60, alpha})
			}
		}
		for _, kind := range []string{"png", "jpg"} {
			if testing.Short() && kind == "jpg" && name != "rgb" { // the bytes of both are the same but for these
				continue
			}
			t.Run(name+"."+kind, func(t *testing.T) {
				var b bytes.Buffer
				err := png.Encode(&b, img)
				if kind == "jpg" {
					b.Reset()
					err = jpeg.Encode(&b, img, nil)
				}
				if err != nil {
					t.Fatal(err)
				}
				text := "job: {number: W-1}\nshop: {name: Harrow Mills Engine Works, logo: picture." + kind + "}\nengine: {layout: inline-4}\n" +
					"compression: {unit: psi, dry: [150, 155, 148, 138]}\nphotos: [{name: P1, shows: plugs, file: picture." + kind + "}]\n"
				j, problems := job.Read("job.yaml", []byte(text), func(string) ([]byte, error) { return b.Bytes(), nil })
				if len(problems) > 0 {
					t.Fatal(problems)
				}
				conforms(t, j, sheet.Options{Kind: "customer", Paper: "letter"})
				conforms(t, j, sheet.Options{Kind: "pre-purchase", Paper: "a4"})
			})
		}
	}
}

package archive

import (
	"bytes"
	"compress/zlib"
	"image"
	"image/color"
	"image/png"
	"io/fs"
	"strings"
	"testing"

	"gaugesheet/diag/story"
	"gaugesheet/report/archive/pdffile"
	"gaugesheet/report/job"
	"gaugesheet/report/sheet"
)

// picture is a small picture in PNG, whose rows are packed by differences.
func picture(t testing.TB, m interface {
	image.Image
	Set(x, y int, c color.Color)
}) []byte {
	t.Helper()
	for x := range 40 {
		for y := range 30 {
			m.Set(x, y, color.NRGBA{uint8(6 * x), uint8(8 * y), uint8(3 * (x + y)), 255})
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// withLogo draws a sheet that has a logo.
func withLogo(t testing.TB, logo []byte) []byte {
	t.Helper()
	text := "shop: {name: Harrow Mills Engine Works, logo: logo.png}\n" + fourCylinders
	j, problems := job.Read("job.yaml", []byte(text), func(name string) ([]byte, error) {
		if name != "logo.png" {
			return nil, fs.ErrNotExist
		}
		return logo, nil
	})
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	s, err := sheet.New(j, story.Diagnose(j.Test()), sheet.Options{Version: version})
	if err != nil {
		t.Fatal(err)
	}
	data, err := s.PDF()
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// repacked writes a PDF anew as another program would, its packed streams
// through the function.
func repacked(t *testing.T, data []byte, pack func([]byte) (packed []byte, filter pdffile.Object)) []byte {
	t.Helper()
	d := newDoc(t, data)
	d.pack = pack
	return d.bytes()
}

// How streams are packed says nothing of what a page shows.
func TestVerifyHoweverItIsPacked(t *testing.T) {
	ways := map[string]func([]byte) ([]byte, pdffile.Object){
		"not at all": func(data []byte) ([]byte, pdffile.Object) { return data, nil },
		"in another way": func(data []byte) ([]byte, pdffile.Object) {
			var b bytes.Buffer
			z, _ := zlib.NewWriterLevel(&b, zlib.BestSpeed)
			z.Write(data)
			z.Close()
			return b.Bytes(), []pdffile.Object{pdffile.Name("FlateDecode")}
		},
	}
	rect := image.Rect(0, 0, 40, 30)
	pages := map[string][]byte{
		"no logo":       draw(t, fourCylinders, sheet.Options{}),
		"a grey logo":   withLogo(t, picture(t, image.NewGray(rect))),
		"a colour logo": withLogo(t, picture(t, image.NewRGBA(rect))),
	}
	for named, page := range pages {
		for how, pack := range ways {
			s, err := Open(repacked(t, page, pack))
			if err != nil {
				t.Errorf("%s, packed %s: %v", named, how, err)
				continue
			}
			if v, err := s.Verify(version); err != nil || v.Outcome() != Same {
				t.Errorf("%s, packed %s: %q, error %v", named, how, first(v), err)
			}
		}
	}
	// Another logo is still noticed.
	data := pages["a colour logo"]
	s, err := Open(repacked(t, data, func(data []byte) ([]byte, pdffile.Object) {
		if len(data) == 40*30*3 {
			data = bytes.Clone(data)
			data[0] ^= 0x80
		}
		return data, nil
	}))
	if err != nil {
		t.Fatal(err)
	}
	if v, err := s.Verify(version); err != nil || !strings.Contains(first(v), "is another one") {
		t.Errorf("another logo: %q, error %v", first(v), err)
	}
}

// The fingerprint in the document's data is compared to its last figure.
func TestVerifyComparesTheFingerprint(t *testing.T) {
	d := newDoc(t, draw(t, fourCylinders, sheet.Options{}))
	info := d.dict(d.trailer["Info"])
	plain, err := Open(d.bytes())
	if err != nil {
		t.Fatal(err)
	}
	is, words := plain.JobFingerprint(), string(info["Keywords"].(pdffile.String))
	for _, at := range []int{0, 7, 8, 63} {
		altered := []byte(is)
		altered[at] = "0123456789abcdef0"[strings.IndexByte("0123456789abcdef", altered[at])+1]
		changed := strings.Replace(strings.Replace(words, is, string(altered), 1), wide(is), wide(string(altered)), 1)
		if changed == words {
			t.Fatalf("no fingerprint in %q", words)
		}
		info["Keywords"] = pdffile.String(changed)
		s, err := Open(d.bytes())
		if err != nil {
			t.Fatal(err)
		}
		v, err := s.Verify(version)
		if err != nil {
			t.Fatal(err)
		}
		was, is := string(altered), is
		if at < 8 {
			was, is = was[:8], is[:8]
		}
		want := "the sheet was made from a job file with the fingerprint " + was + ", the one that it carries has " + is
		if first(v) != want {
			t.Errorf("figure %d altered: %q, want %q", at+1, first(v), want)
		}
	}
}

// wide is a plain text in UTF-16.
func wide(s string) string {
	var b []byte
	for i := range len(s) {
		b = append(b, 0, s[i])
	}
	return string(b)
}

package archive

import (
	"bytes"
	"compress/zlib"
	"encoding/hex"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"io/fs"
	"maps"
	"slices"
	"strconv"
	"strings"
	"testing"

	"gaugesheet/diag/story"
	"gaugesheet/report/archive/pdffile"
	"gaugesheet/report/job"
	"gaugesheet/report/sheet"
)

// picture is a small picture in PNG, whose rows are packed by differences.
func picture(t *testing.T, m interface {
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
func withLogo(t *testing.T, logo []byte) []byte {
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

// written is an object in the notation of PDF.
func written(o pdffile.Object) string {
	switch o := o.(type) {
	case nil:
		return "null"
	case float64:
		return strconv.FormatFloat(o, 'f', -1, 64)
	case pdffile.String:
		return "<" + hex.EncodeToString([]byte(o)) + ">"
	case pdffile.Name:
		return name(o)
	case pdffile.Ref:
		return fmt.Sprintf("%d %d R", o.Number, o.Generation)
	case []pdffile.Object:
		items := make([]string, len(o))
		for i := range o {
			items[i] = written(o[i])
		}
		return "[" + strings.Join(items, " ") + "]"
	case pdffile.Dict:
		var b strings.Builder
		for _, key := range slices.Sorted(maps.Keys(o)) {
			b.WriteString(name(key) + " " + written(o[key]) + "\n")
		}
		return "<<" + b.String() + ">>"
	case *pdffile.Stream:
		o.Dict["Length"] = float64(len(o.Raw))
		return written(o.Dict) + "\nstream\n" + string(o.Raw) + "\nendstream"
	}
	return fmt.Sprint(o)
}

func name(n pdffile.Name) string {
	var b strings.Builder
	b.WriteByte('/')
	for _, c := range []byte(n) {
		if c == '#' || c <= ' ' || c > '~' || strings.IndexByte("()<>[]{}/%", c) >= 0 {
			fmt.Fprintf(&b, "#%02x", c)
		} else {
			b.WriteByte(c)
		}
	}
	return b.String()
}

// repacked writes a PDF anew as another program would, its packed streams
// through the function.
func repacked(t *testing.T, data []byte, pack func([]byte) (packed []byte, filter pdffile.Object)) []byte {
	t.Helper()
	f, err := pdffile.Open(data)
	if err != nil {
		t.Fatal(err)
	}
	size := int(f.Trailer["Size"].(float64))
	var out, list bytes.Buffer
	out.WriteString("%PDF-1.7\n")
	fmt.Fprintf(&list, "xref\n0 %d\n0000000000 65535 f \n", size)
	streams := 0
	for n := 1; n < size; n++ {
		o, err := f.Resolve(pdffile.Ref{Number: n})
		if err != nil {
			t.Fatal(err)
		}
		if s, ok := o.(*pdffile.Stream); ok && s.Dict["Filter"] == pdffile.Name("FlateDecode") {
			plain, err := f.Unpack(s)
			if err != nil {
				t.Fatal(err)
			}
			s = &pdffile.Stream{Dict: maps.Clone(s.Dict)}
			delete(s.Dict, "DecodeParms")
			delete(s.Dict, "Filter")
			var filter pdffile.Object
			if s.Raw, filter = pack(plain); filter != nil {
				s.Dict["Filter"] = filter
			}
			o, streams = s, streams+1
		}
		fmt.Fprintf(&list, "%010d 00000 n \n", out.Len())
		fmt.Fprintf(&out, "%d 0 obj\n%s\nendobj\n", n, written(o))
	}
	if streams < 3 {
		t.Fatalf("%d packed streams, expected a page, a font and a job file at least", streams)
	}
	at := out.Len()
	out.Write(list.Bytes())
	fmt.Fprintf(&out, "trailer\n%s\nstartxref\n%d\n%%%%EOF\n", written(f.Trailer), at)
	return out.Bytes()
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
	if v, err := s.Verify(version); err != nil || !strings.Contains(first(v), "draws something that its job file does not give") {
		t.Errorf("another logo: %q, error %v", first(v), err)
	}
}

// The fingerprint in the document's data is compared to its last figure.
func TestVerifyComparesTheFingerprint(t *testing.T) {
	data := draw(t, fourCylinders, sheet.Options{})
	plain, err := Open(data)
	if err != nil {
		t.Fatal(err)
	}
	is := plain.JobFingerprint()
	for _, at := range []int{0, 7, 8, 63} {
		altered := []byte(is)
		altered[at] = "0123456789abcdef0"[strings.IndexByte("0123456789abcdef", altered[at])+1]
		s, err := Open(bytes.Replace(data, wide(is), wide(string(altered)), 1))
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
func wide(s string) []byte {
	var b []byte
	for i := range len(s) {
		b = append(b, 0, s[i])
	}
	return b
}

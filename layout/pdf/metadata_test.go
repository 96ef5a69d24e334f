package pdf

import (
	"bytes"
	"encoding/xml"
	"regexp"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/types"

	"gaugesheet/layout"
)

// ISO 19005-3, 6.1.2: the header, and after it a comment of four bytes that are
// no letters.
func TestHeader(t *testing.T) {
	file := sample(t, sampleOptions())
	if !bytes.HasPrefix(file, []byte("%PDF-1.7\n%")) || file[14] != '\n' {
		t.Errorf("the file begins with %q", file[:20])
	}
	for _, b := range file[10:14] {
		if b <= 127 {
			t.Errorf("the comment after the header has the letter %q", b)
		}
	}
}

// xmp reads a property of a document's metadata by its name; the first where it
// is a list.
func xmp(t *testing.T, file []byte, property string) string {
	t.Helper()
	file = inflated(t, file, "/Subtype /XML")
	start, end := bytes.Index(file, []byte("<x:xmpmeta")), bytes.Index(file, []byte("</x:xmpmeta>"))
	if start < 0 || end < 0 {
		t.Fatal("no metadata")
	}
	d := xml.NewDecoder(bytes.NewReader(file[start : end+len("</x:xmpmeta>")]))
	value, inside := "", false
	for {
		token, err := d.Token()
		if err != nil {
			if err.Error() != "EOF" {
				t.Fatal(err)
			}
			return value
		}
		switch token := token.(type) {
		case xml.StartElement:
			inside = inside || token.Name.Local == property && !strings.Contains(token.Name.Space, "pdfa/ns")
		case xml.EndElement:
			inside = inside && token.Name.Local != property
		case xml.CharData:
			if inside {
				value += string(token)
			}
		}
	}
}

// What the two places say of the document is the same (ISO 19005-3, 6.6.2; ISO
// 16684-1), whatever letters are in it.
func TestMetadataSayTheSameTwice(t *testing.T) {
	for _, title := range []string{
		"Engine test", `Smith & Sons <"workshop"> (main) \ 'yard'`, "Prüfblatt · 4 Zylinder", "Лодка 漢字 € – \U0001F600",
		"]]> &amp; &lt;", "a\nb\tc\x01d", "bad \xff letter", "100 % \ufffe",
	} {
		file := sample(t, Options{
			Paper: letter, Title: title, Author: title, Subject: title, Keywords: title, Creator: title, Lang: "en-GB",
			Created: time.Date(2026, 5, 14, 9, 30, 0, 0, time.FixedZone("", 7200)),
		})
		ctx := read(t, file)
		info, err := ctx.DereferenceDict(*ctx.Info)
		if err != nil {
			t.Fatal(err)
		}
		for key, property := range map[string]string{
			"Title": "title", "Author": "creator", "Subject": "description", "Keywords": "Keywords", "Creator": "CreatorTool", "Producer": "Producer",
		} {
			got, want := xmp(t, file, property), infoText(t, info[key])
			if got != want || want == "" {
				t.Errorf("%s of %q is %q, as XMP %q", key, title, want, got)
			}
		}
		if got := infoText(t, info["Title"]); len(title) > 10 && !strings.Contains(got, strings.Fields(title)[1]) && utf8.ValidString(title) && !strings.ContainsAny(title, "\x01\ufffe") {
			t.Errorf("the title %q became %q", title, got)
		}
		for _, key := range []string{"CreationDate", "ModDate"} {
			if got := infoText(t, info[key]); got != "D:20260514073000+00'00'" {
				t.Errorf("%s is %q", key, got)
			}
		}
		if got := xmp(t, file, "CreateDate") + " " + xmp(t, file, "ModifyDate"); got != "2026-05-14T07:30:00+00:00 2026-05-14T07:30:00+00:00" {
			t.Errorf("the dates as XMP are %q", got)
		}
		if got := xmp(t, file, "language"); got != "en-GB" {
			t.Errorf("the language as XMP is %q", got)
		}
	}
}

func infoText(t *testing.T, o types.Object) string {
	t.Helper()
	var s string
	var err error
	switch o := o.(type) {
	case types.StringLiteral:
		s, err = types.StringLiteralToString(o)
	case types.HexLiteral:
		s, err = types.HexLiteralToString(o)
	default:
		t.Fatalf("a text is %T", o)
	}
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// Black text is pure black: no other ink is mixed in, so that a printer needs
// no screen for it.
func TestBlackStaysBlack(t *testing.T) {
	got := content(t, func(d *Doc) {
		d.Fill(layout.RectPath(layout.Rect{W: 9, H: 9}), layout.Color{R: 200, G: 10, B: 10})
		d.Text(at(1, 1), "black", regular, black)
	})
	_, after, _ := strings.Cut(got, "\nf\n")
	before, _, _ := strings.Cut(after, "Tj")
	if !regexp.MustCompile(`\b0\.000 g\b`).MatchString(before) || strings.Contains(before, "rg") {
		t.Errorf("black text is set with %q", before)
	}
}

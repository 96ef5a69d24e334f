package pdf

import (
	"bytes"
	"regexp"
	"strings"
	"testing"

	"gaugesheet/layout"
)

// shown is the page's content with the texts that it shows instead of the
// numbers of their glyphs.
func shown(t *testing.T, draw func(*Doc)) string {
	t.Helper()
	var faces [2]*usedFace
	text := content(t, func(d *Doc) { draw(d); d.endStretch(); faces = d.faces })
	return regexp.MustCompile(`(?s)\((.*?[^\\]|)\) Tj`).ReplaceAllStringFunc(text, func(s string) string {
		codes := strings.NewReplacer(`\\`, `\`, `\(`, "(", `\)`, ")", `\r`, "\r").Replace(s[1 : len(s)-4])
		said := ""
		for ; len(codes) > 1; codes = codes[2:] {
			said += string(faces[0].runes[int(codes[0])<<8|int(codes[1])])
		}
		return "[" + said + "]"
	})
}

// texts are the texts shown, in their order.
func texts(content string) (all []string) {
	for _, m := range regexp.MustCompile(`\[(.*?)\]`).FindAllStringSubmatch(content, -1) {
		if !strings.Contains(m[0], "[] ") {
			all = append(all, m[1])
		}
	}
	return all
}

func paragraph(d *Doc, draw func()) { layout.Tag{Kind: layout.Paragraph}.Draw(d, draw) }

// Whoever hears a page, or copies from it, knows nothing of lines: words at the
// end of one and the beginning of the next are parted, those of one word are not
// (ISO 32000-1, 14.8.2.5).
func TestSpacesAtLineEnds(t *testing.T) {
	for _, c := range []struct {
		text string
		want string
	}{
		{"three plain words", "three plain words"},
		{"after-hyphen and so on", "after-hyphen and so on"},
		{"averyveryverylongwordindeed ends", "averyveryverylongwordindeed ends"},
		{"one\ntwo", "one two"},
	} {
		set := layout.Wrap(New(Options{Paper: letter}), 40, layout.Run{Text: c.text, Face: regular})
		if len(set.Lines) < 2 {
			t.Fatalf("%q has one line", c.text)
		}
		got := strings.Join(texts(shown(t, func(d *Doc) { paragraph(d, func() { set.Draw(d, at(10, 10)) }) })), "")
		if got != c.want {
			t.Errorf("%q is heard as %q", c.text, got)
		}
	}
}

// A space parts texts of one part, whatever is drawn between them, but not the
// pieces of a line, nor what the last text of a part.
func TestSpacesBetweenTexts(t *testing.T) {
	got := texts(shown(t, func(d *Doc) {
		paragraph(d, func() {
			d.Text(at(1, 10), "1", regular, black)
			d.Fill(layout.RectPath(layout.Rect{W: 5, H: 5}), black)
			d.Text(at(1, 20), "3", regular, black)
			d.Rotate(90, at(5, 5), func() { d.Text(at(1, 30), "psi", regular, black) })
			d.Join()
			d.Text(at(1, 40), ", and", regular, black)
			d.Text(at(1, 50), " more", regular, black)
			d.Text(at(1, 60), "end", regular, black)
		})
		paragraph(d, func() { d.Text(at(1, 70), "next", regular, black) })
	}))
	if said := strings.Join(got, "|"); said != "1 |3 |psi |, and| more |end|next" {
		t.Errorf("the texts are %q", said)
	}
}

// Parts are stretches one after another, never one within another, and each
// text is in one: by itself it is a paragraph. What is among words and is a
// picture parts them.
func TestParts(t *testing.T) {
	got := shown(t, func(d *Doc) {
		d.Text(at(1, 10), "alone", regular, black)
		d.Block("b", layout.Rect{}, func() {
			layout.Tag{Kind: layout.Heading2}.Draw(d, func() { // the first of the page
				d.Text(at(1, 20), "a", regular, black)
				layout.Tag{Kind: layout.Picture, Alt: "tick"}.Draw(d, func() {
					d.Clip(layout.RectPath(layout.Rect{W: 5, H: 5}), func() { paragraph(d, func() { d.Text(at(1, 20), "b", regular, black) }) })
				})
				paragraph(d, func() { d.Text(at(1, 30), "c", regular, black) })
			})
			layout.Tag{Kind: layout.Decoration}.Draw(d, func() { d.Text(at(1, 40), "d", regular, black) })
			layout.Tag{Kind: layout.Picture}.Draw(d, func() { d.Text(at(1, 50), "a picture without words", regular, black) })
		})
	})
	marks := regexp.MustCompile(`/(\w+) (?:<</MCID (\d+)>>BDC|BMC)|\[([^]]+)\]|EMC|\bq\b|\bQ\b`).FindAllString(got, -1)
	want := "/P <</MCID 0>>BDC [alone] EMC /H1 <</MCID 1>>BDC [a ] EMC /Figure <</MCID 2>>BDC q [b] Q EMC /H1 <</MCID 3>>BDC [c] EMC " +
		"/Artifact BMC [d] EMC /P <</MCID 4>>BDC [a picture without words] EMC"
	if said := strings.Join(marks, " "); said != want {
		t.Errorf("the page has\n%s\nwant\n%s", said, want)
	}
}

// What nothing was drawn in is no part, unless a row would lack a cell.
func TestEmptyParts(t *testing.T) {
	d := New(Options{Paper: letter})
	d.Block("empty", layout.Rect{}, func() { paragraph(d, func() {}) })
	layout.Tag{Kind: layout.Table}.Draw(d, func() {
		layout.Tag{Kind: layout.TableRow}.Draw(d, func() {
			layout.Tag{Kind: layout.HeadLeft}.Draw(d, func() { d.Text(at(1, 1), "1", regular, black) })
			layout.Tag{Kind: layout.DataCell}.Draw(d, func() {})
		})
	})
	if n := len(d.parts.root.kids); n != 1 {
		t.Fatalf("the page has %d parts, want the table", n)
	}
	row := d.parts.root.kids[0].element.kids[0].element
	if len(row.kids) != 2 || row.kids[1].element.kind != "TD" {
		t.Errorf("the row has %d cells, want 2", len(row.kids))
	}
}

// A page's small objects are packed, so that a tree of parts is smaller than the
// page.
func TestTreeIsPacked(t *testing.T) {
	size := func(tagged bool) int {
		d := New(Options{Paper: letter, Title: "t"})
		for i := range 300 {
			draw := func() { d.Text(at(40, layout.Length(2*i)), "152 psi", regular, black) }
			if tagged {
				paragraph(d, draw)
			} else {
				layout.Tag{Kind: layout.Decoration}.Draw(d, draw)
			}
		}
		file, err := d.Bytes()
		if err != nil {
			t.Fatal(err)
		}
		if bytes.Contains(file, []byte("/S/P")) {
			t.Error("elements stand in the file unpacked")
		}
		return len(file)
	}
	if each := float64(size(true)-size(false)) / 300; each > 20 {
		t.Errorf("a paragraph takes %.1f bytes more than an artifact, at most 20 are wanted", each)
	}
}

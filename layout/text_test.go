package layout_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"gaugesheet/layout"
	"gaugesheet/layout/face"
	"gaugesheet/layout/record"
)

// tenths is a type whose every letter is one point wide at size 10.
type tenths struct{}

func (tenths) Width(s string, f layout.Face) layout.Length {
	return layout.Length(len([]rune(s))) * f.Size / 10
}
func (tenths) Ascent(f layout.Face) layout.Length    { return f.Size * 0.9 }
func (tenths) Descent(f layout.Face) layout.Length   { return f.Size * 0.2 }
func (tenths) CapHeight(f layout.Face) layout.Length { return f.Size * 0.7 }
func (tenths) Has(rune) bool                         { return true }

var ten = layout.Face{Size: 10}

func TestWrap(t *testing.T) {
	for _, c := range []struct {
		name  string
		width layout.Length
		text  string
		want  []string
	}{
		{"fits", 11, "head gasket", []string{"head gasket"}},
		{"breaks at the space", 10, "head gasket", []string{"head", "gasket"}},
		{"takes what fits", 9, "a bb ccc dddd", []string{"a bb ccc", "dddd"}},
		{"keeps a number with its unit", 9, "holds 152\u00a0psi", []string{"holds", "152\u00a0psi"}},
		{"keeps the narrow space", 9, "holds 152\u202fpsi", []string{"holds", "152\u202fpsi"}},
		{"after a hyphen", 8, "a fuel-pressure", []string{"a fuel-", "pressure"}},
		{"after a slash", 8, "inlet/exhaust", []string{"inlet/", "exhaust"}},
		{"a range stays whole", 8, "band of 40-44", []string{"band of", "40-44"}},
		{"a loss ratio stays whole", 8, "loss is 72/80", []string{"loss is", "72/80"}},
		{"a word too wide", 4, "abcdefghij", []string{"abcd", "efgh", "ij"}},
		{"a word too wide after others", 4, "ab abcdef", []string{"ab", "abcd", "ef"}},
		{"narrower than a letter", 0.5, "abc", []string{"a", "b", "c"}},
		{"a line feed", 20, "one\ntwo", []string{"one", "two"}},
		{"an empty line", 20, "one\n\ntwo", []string{"one", "", "two"}},
		{"many spaces", 20, "one   two ", []string{"one   two"}},
		{"nothing", 20, "", nil},
	} {
		got := layout.Wrap(tenths{}, c.width, layout.Run{Text: c.text, Face: ten})
		var lines []string
		if len(got.Lines) > 0 {
			lines = strings.Split(got.String(), "\n")
		}
		if diff := cmp.Diff(c.want, lines); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.name, diff)
		}
	}
}

func TestWrapRuns(t *testing.T) {
	bold := layout.Face{Weight: layout.Bold, Size: 10}
	got := layout.Wrap(tenths{}, 10, layout.Run{Text: "If ", Face: bold}, layout.Run{Text: "it hisses", Face: ten}, layout.Run{Text: ": off", Face: bold})
	if want := "If it\nhisses:\noff"; got.String() != want {
		t.Errorf("got %q, want %q: a word may go on in another face", got.String(), want)
	}
	second := got.Lines[1]
	if len(second.Pieces) != 2 || second.Pieces[1].X != 6 {
		t.Errorf("second line %+v, want the colon in bold at 6 pt", second)
	}
}

// No line may be wider than asked, whatever the text, and nothing may get lost.
func TestWrapKeepsWidthAndText(t *testing.T) {
	text := "Cylinders 3 and 5 are low, 96\u00a0psi and 91\u00a0psi (62 % and 59 % of the highest); consistent with a head-gasket fault between them, a warped/cracked head, or Verwechslungsgefahrenhinweis."
	m := face.Metrics()
	for width := layout.Length(4); width < 400; width += 3.7 {
		got := layout.Wrap(m, width, layout.Run{Text: text, Face: layout.Face{Size: 8.5}})
		for _, l := range got.Lines {
			if l.Width > width+0.01 && len([]rune(l.Pieces[0].Text)) > 1 {
				t.Errorf("a line of %v in a width of %v", l.Width, width)
			}
		}
		squeeze := func(s string) string { return strings.NewReplacer(" ", "", "\n", "").Replace(s) }
		if squeeze(got.String()) != squeeze(text) {
			t.Fatalf("width %v: the text changed: %q", width, got.String())
		}
	}
}

func TestDrawAligned(t *testing.T) {
	text := layout.Wrap(tenths{}, 6, layout.Run{Text: "abcdef gh", Face: ten})
	for _, c := range []struct {
		align layout.Align
		want  layout.Length // x of the second line
	}{{layout.Left, 100}, {layout.Center, 104}, {layout.Right, 108}} {
		r := record.New(tenths{})
		text.DrawAligned(r, layout.Point{X: 100, Y: 50}, 10, c.align)
		if got := r.Texts()[1].Rect.X; got != c.want {
			t.Errorf("alignment %v: second line at %v, want %v", c.align, got, c.want)
		}
		if first := r.Texts()[0].Rect; first.Y < 50 || r.Texts()[1].Rect.Bottom() > 50+text.H {
			t.Errorf("alignment %v: text reaches out of its height", c.align)
		}
	}
}

func TestTextMiddle(t *testing.T) {
	r := record.New(tenths{})
	layout.TextMiddle(r, layout.Point{X: 50, Y: 50}, layout.Center, "ABCD", ten, layout.Color{})
	if got := r.Texts()[0].Ink.Center(); got != (layout.Point{X: 50, Y: 50}) {
		t.Errorf("the middle is at %v", got)
	}
}

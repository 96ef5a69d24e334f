package layout_test

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"unicode"

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
		{"not behind one letter", 8, "a new O-ring", []string{"a new", "O-ring"}},
		{"after a slash", 8, "inlet/exhaust", []string{"inlet/", "exhaust"}},
		{"a range stays whole", 8, "band of 40-44", []string{"band of", "40-44"}},
		{"a loss ratio stays whole", 8, "loss is 72/80", []string{"loss is", "72/80"}},
		{"a number stays with its unit", 9, "holds 152 psi", []string{"holds", "152 psi"}},
		{"a unit with a slash", 12, "about 12 kgf/cm² held", []string{"about", "12 kgf/cm²", "held"}},
		{"a unit in another piece of the sentence", 10, "reads 152 psi; the", []string{"reads", "152 psi;", "the"}},
		{"a number and its unit in too little room", 4, "152 psi", []string{"152", "psi"}},
		{"a number that is a name holds nothing behind it", 13, "of cylinder\u00a04 open", []string{"of cylinder\u00a04", "open"}},
		{"a short word does not end a text alone", 20, "aaaa bbbb cccc dddd it.", []string{"aaaa bbbb cccc", "dddd it."}},
		{"a longer word may", 20, "aaaa bbbb cccc dddd item.", []string{"aaaa bbbb cccc dddd", "item."}},
		{"nor is the line before it left short", 20, "aaaa dddddddddddddd it.", []string{"aaaa dddddddddddddd", "it."}},
		{"an initial stays with its name", 12, "tested by A. Lindqvist", []string{"tested by", "A. Lindqvist"}},
		{"a page stays with its number", 9, "lesson p. 91;", []string{"lesson", "p. 91;"}},
		{"a paper stays with its number", 10, "(c) or TM 10-3930", []string{"(c) or", "TM 10-3930"}},
		{"a paper behind its letter", 14, "or (c)\u00a0TM 10-3930", []string{"or", "(c)\u00a0TM 10-3930"}},
		{"a word before a number does not", 7, "of the 4", []string{"of the", "4"}},
		{"a number before a long word", 9, "all 4 cylinders", []string{"all 4", "cylinders"}},
		{"a separator where a line ends", 12, "head gasket · ring", []string{"head gasket", "ring"}},
		{"a separator between words that are too wide", 4, "abcdef · ghijk", []string{"abcd", "ef", "ghij", "k"}},
		{"a separator at the beginning", 20, "· ring", []string{"· ring"}},
		{"a separator inside a line", 20, "gasket · ring", []string{"gasket · ring"}},
		{"a separator that nothing follows", 20, "gasket · ", []string{"gasket"}},
		{"a separator before a line feed", 20, "gasket ·\nring", []string{"gasket", "ring"}},
		{"a tab", 20, "a\tb", []string{"a b"}},
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
		if squeeze(got.String()) != squeeze(text) {
			t.Fatalf("width %v: the text changed: %q", width, got.String())
		}
	}
}

// Of any text in any faces and width: no line is too wide, none ends or goes on
// with a separator, no number is parted from its unit where a line has room for both,
// and all words come back in their order.
func TestWrapRandomText(t *testing.T) {
	m := face.Metrics()
	vocabulary := strings.Split("gasket · · 152 psi 40-44 psi 9.5 kgf/cm² 10 ml and/or fuel-pressure of the Verwechslungsgefahr (62 %) 72/80 −4 3, warm; \u00b7x 12\u00a0V", " ")
	units := []string{"psi", "ml", "kgf/cm²"}
	for seed := range uint64(400) {
		rng := rand.New(rand.NewPCG(seed, 3))
		var runs []layout.Run
		var said []string
		for i := range 1 + rng.IntN(40) {
			word := vocabulary[rng.IntN(len(vocabulary))]
			if i == 0 && word == "·" || i > 0 && said[i-1] == "·" && (word == "·" || slices.Contains(units, word)) {
				word = "gasket" // separators stand between words
			}
			said = append(said, word)
			f := layout.Face{Weight: layout.Weight(rng.IntN(2)), Size: 8.5}
			if i > 0 && rng.IntN(2) == 0 {
				runs[len(runs)-1].Text += " " + word
			} else if i > 0 {
				runs = append(runs, layout.Run{Text: " " + word, Face: f})
			} else {
				runs = append(runs, layout.Run{Text: word, Face: f})
			}
		}
		width := layout.Length(60 + rng.IntN(300))
		text := layout.Wrap(m, width, runs...)
		lines := strings.Split(text.String(), "\n")[:len(text.Lines)]
		for i, line := range lines {
			if text.Lines[i].Width > width+0.01 && strings.Contains(line, " ") {
				t.Errorf("seed %d: a line of %v in a width of %v", seed, text.Lines[i].Width, width)
			}
			if strings.HasSuffix(line, "·") || i > 0 && strings.HasPrefix(line, "· ") {
				t.Errorf("seed %d: a separator stands at the end of a line: %q", seed, line)
			}
			if i == 0 {
				continue
			}
			before := strings.Fields(lines[i-1])
			for _, unit := range units {
				if last := before[len(before)-1]; strings.HasPrefix(line, unit) && unicode.IsDigit(rune(last[len(last)-1])) {
					t.Errorf("seed %d: %q and its unit stand on two lines", seed, last)
				}
			}
		}
		if got, want := withoutDots(text.String()), withoutDots(strings.Join(said, "")); got != want {
			t.Errorf("seed %d: %q came out as %q", seed, want, got)
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

// squeeze is a text without the spaces that line ends take the place of.
func squeeze(s string) string { return strings.NewReplacer(" ", "", "\n", "").Replace(s) }

// withoutDots is squeeze without separators, which line ends take the place of
// too.
func withoutDots(s string) string { return strings.ReplaceAll(squeeze(s), "\u00b7", "") }

package figure

import (
	"math"
	"testing"

	"gaugesheet/layout"
)

// luminance is the relative luminance of an sRGB colour.
// Source: WCAG 2.1, definition of relative luminance.
func luminance(c layout.Color) float64 {
	linear := func(v uint8) float64 {
		s := float64(v) / 255
		if s <= 0.03928 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(c.R) + 0.7152*linear(c.G) + 0.0722*linear(c.B)
}

// contrast is the contrast ratio of two colours.
// Source: WCAG 2.1, definition of contrast ratio.
func contrast(a, b layout.Color) float64 {
	la, lb := luminance(a), luminance(b)
	return (max(la, lb) + 0.05) / (min(la, lb) + 0.05)
}

func TestContrastFormula(t *testing.T) {
	// Black on white is 21:1 and #767676 on white the darkest common grey that
	// just reaches 4.5:1 (WCAG 2.1, 1.4.3 and its understanding document).
	white := layout.Color{R: 255, G: 255, B: 255}
	if got := contrast(layout.Color{}, white); math.Abs(got-21) > 1e-9 {
		t.Errorf("black on white = %.3f, want 21", got)
	}
	if got := contrast(layout.Color{R: 0x76, G: 0x76, B: 0x76}, white); got < 4.5 || got > 4.6 {
		t.Errorf("#767676 on white = %.3f, want 4.54", got)
	}
}

func TestTextContrast(t *testing.T) {
	// At least 4.5:1 for text. Source: WCAG 2.1, 1.4.3.
	th := DefaultTheme(nil)
	for name, text := range map[string]layout.Color{"ink": th.Ink, "accent": th.Accent} {
		for where, ground := range map[string]layout.Color{"paper": th.Paper, "tint": th.Tint} {
			if got := contrast(text, ground); got < 4.5 {
				t.Errorf("%s on %s: contrast %.2f, want at least 4.5", name, where, got)
			}
		}
	}
	if got := contrast(th.Ink, th.Fill); got < 4.5 {
		t.Errorf("ink on fill: contrast %.2f, want at least 4.5", got)
	}
}

func TestInksStayApartInGrey(t *testing.T) {
	// On a grey printer only luminance is left. The steps are our own choice:
	// no source.
	th := DefaultTheme(nil)
	steps := []layout.Color{th.Accent, th.Line, th.Fill, th.Tint, th.Paper}
	for i := 1; i < len(steps); i++ {
		if luminance(steps[i]) <= luminance(steps[i-1]) {
			t.Errorf("%v is not lighter than %v", steps[i], steps[i-1])
		}
	}
}

func TestSizes(t *testing.T) {
	th := DefaultTheme(nil)
	for r := layout.Display; r <= layout.Note; r++ {
		if got := th.Face(r).Size; got < th.Smallest {
			t.Errorf("role %d is %v pt, smallest is %v", r, got, th.Smallest)
		}
	}
	for _, w := range []layout.Length{hairline, thin, outline, heavy} {
		if w < 0.35 {
			t.Errorf("line of %v pt, want at least 0.35", w)
		}
	}
}

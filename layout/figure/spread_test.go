package figure

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"gaugesheet/layout"
	"gaugesheet/layout/face"
)

func sampleSpread() Spread {
	d := Spread{Title: "How far apart", Sub: "percent below the best", Zero: "best", Unit: "\u00a0%", Least: 18, Most: 100,
		Gauge: 2, GaugeName: "less is only the gauge", Captions: []string{"one", "two"},
		Zones: []SpreadZone{{10, "even", Plain}, {15, "watch", Faint}, {100, "low", Hatch}}}
	for i := range 8 {
		v := float64(i % 5)
		d.Bars = append(d.Bars, SpreadBar{Number: fmt.Sprint(i + 1), Value: v, Low: v, High: v})
	}
	return d
}

func randomSpread(r *rand.Rand) Spread {
	d := sampleSpread()
	d.Sub, d.Captions, d.Bars = randomText(r, 8), []string{randomText(r, 20)}, nil
	d.Gauge = oneOf(r, 0, 2, 7, 40.0)
	n := 1 + r.IntN(16)
	for i := range n {
		v := oneOf(r, 4*r.Float64(), 100*r.Float64())
		number := fmt.Sprint(i + 1)
		if n < 5 {
			number = oneOf(r, "left", "right", "front A", "rear outer") + number
		}
		d.Bars = append(d.Bars, SpreadBar{Number: number, Value: v, Low: v, High: v, Less: r.IntN(9) == 0, More: r.IntN(9) == 0})
	}
	for i := range r.IntN(4) {
		u := Unread{Mark: Mark(r.IntN(9)), Why: oneOf(r, "plug seized", "not tested", "could not test, because "+randomText(r, 12))}
		for k := range 1 + r.IntN(12) {
			u.Numbers = append(u.Numbers, fmt.Sprint(20+12*i+k))
		}
		d.Unread = append(d.Unread, u)
	}
	for range r.IntN(3) {
		d.Lines = append(d.Lines, RuleLine{30 * r.Float64(), oneOf(r, "limit 25 %", "limit: "+randomText(r, 12))})
	}
	d.Say = func(bars []int) []string { return []string{fmt.Sprintf("%d of them", len(bars))} }
	return d
}

// Every number of the ruler stands in a tab of its own, white on ink, once, and
// no other text stands on a tab.
func TestEveryNumberHasATab(t *testing.T) {
	for seed := range many(200) {
		r := rand.New(rand.NewPCG(seed, 7))
		d := randomSpread(r)
		width, level := oneOf[layout.Length](r, 200, 262, 541), oneOf(r, everyLevel...)
		rec, area := drawn(t, NewSpread(d), width, level, layout.Length(r.IntN(20)))
		what := fmt.Sprintf("seed %d, %s, %v pt", seed, level, width)
		checkDrawn(t, what, rec, area)
		var numbers []string
		for _, b := range d.Bars {
			numbers = append(numbers, b.Number)
		}
		for _, u := range d.Unread {
			numbers = append(numbers, u.Numbers...)
		}
		th := DefaultTheme(face.Metrics())
		var tabs []layout.Rect
		var tabbed []string
		for _, text := range rec.Texts() {
			if text.Color != th.Paper {
				continue
			}
			size := TabSize(th.Measurer, text.String, text.Face)
			at := text.Rect.Center()
			tabbed = append(tabbed, text.String)
			tabs = append(tabs, layout.Rect{X: at.X - size.W/2, Y: at.Y - size.H/2, W: size.W, H: size.H}.Inset(0.5))
		}
		slices.Sort(numbers)
		slices.Sort(tabbed)
		if !slices.Equal(numbers, tabbed) {
			t.Errorf("%s: tabs of %v, want %v", what, tabbed, numbers)
		}
		for i, a := range tabs {
			for _, b := range tabs[:i] {
				if a.Overlaps(b) {
					t.Errorf("%s: two tabs overlap at %v", what, a)
				}
			}
			for _, text := range rec.Texts() {
				if text.Color != th.Paper && text.Ink.Overlaps(a) {
					t.Errorf("%s: %q stands on a tab", what, text.String)
				}
			}
		}
	}
}

// The scale bar is as long on the ruler as the difference that it stands for.
func TestGaugeBarIsOnTheRulersScale(t *testing.T) {
	d := sampleSpread()
	d.Bars[4].Value, d.Gauge = 2, 2 // cylinder 5 is as far from the best as the gauge tells
	th := DefaultTheme(face.Metrics())
	strokes := &strokes{Surface: nil}
	rec, area := drawn(t, NewSpread(d), 541, layout.Full, 0)
	strokes.Surface = rec
	NewSpread(d).Lay(th, 541, layout.Full).Draw(strokes, area)
	at := func(number string) layout.Length {
		for _, text := range rec.Texts() {
			if text.Color == th.Paper && text.String == number {
				return text.Rect.Center().X
			}
		}
		t.Fatalf("no tab of %s", number)
		return 0
	}
	want, words := at("5")-at("1"), rec.Find(d.GaugeName)[0]
	if !slices.ContainsFunc(strokes.bounds, func(r layout.Rect) bool {
		return r.Right() < words.Rect.X && words.Rect.X-r.Right() < 6 && r.Center().Y < words.Rect.Bottom() && r.W > want-0.05 && r.W < want+0.05
	}) {
		t.Errorf("no bar %.2f pt long before %q", want, d.GaugeName)
	}
}

// A gauge that tells next to nothing apart is said in words.
func TestWideGaugeIsSaid(t *testing.T) {
	d := sampleSpread()
	d.Gauge, d.GaugeWords = 12, "less than 12 % apart is only the gauge"
	rec, _ := drawn(t, NewSpread(d), 541, layout.Full, 0)
	if len(rec.Find(d.GaugeWords)) != 1 {
		t.Errorf("the gauge is not said in words: %v", rec.Texts())
	}
}

// A ruler keeps to the height that a page has for it: about 24 to 30 mm, and
// less where room is short.
func TestRulerIsLow(t *testing.T) {
	th := DefaultTheme(face.Metrics())
	d := sampleSpread()
	d.Captions = nil
	for level, most := range map[layout.Detail]layout.Length{layout.Full: 30 * layout.MM, layout.Compact: 27 * layout.MM, layout.Brief: 21.1 * layout.MM} {
		if h := NewSpread(d).Lay(th, 541, level).Height; h > most {
			t.Errorf("%s: %.1f mm high, want at most %.1f", level, h.MM(), most.MM())
		}
	}
}

package figure

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gaugesheet/layout"
	"gaugesheet/layout/face"
	"gaugesheet/layout/record"
)

// penLines is a surface that notes the lines that are drawn, with their pens.
type penLines struct {
	layout.Surface
	pens  []layout.Pen
	areas []layout.Rect
}

func (s *penLines) Stroke(p layout.Path, pen layout.Pen) {
	s.pens, s.areas = append(s.pens, pen), append(s.areas, p.Bounds())
	s.Surface.Stroke(p, pen)
}

// A limit's line strikes out no number of the scale, whatever the limit is.
func TestLimitsLeaveTheNumbersOfTheScale(t *testing.T) {
	d := vEight()
	theme := DefaultTheme(face.Metrics())
	for limit := 40.0; limit < 160; limit += 3 {
		d.Scales[0].Limits = []EngineLimit{{limit, fmt.Sprint(limit), "the least that is allowed"}}
		frame := NewEnginePlan(d).Lay(theme, 541, layout.Full)
		rec, area := drawn(t, NewEnginePlan(d), 541, layout.Full, 0)
		lines := &penLines{Surface: record.New(face.Metrics())}
		frame.Draw(lines, area)
		lowest := layout.Length(0) // where the numbers of the scale are
		for _, text := range rec.Find("0") {
			lowest = max(lowest, text.Ink.Y)
		}
		for _, text := range rec.Texts() {
			if text.Ink.Y < lowest-1 || strings.Trim(text.String, "0123456789") != "" {
				continue
			}
			for i, line := range lines.areas {
				if crosses := line.X > text.Ink.X && line.X < text.Ink.Right() && line.Bottom() > text.Ink.Y-0.5 && line.Y < text.Ink.Y; crosses && lines.pens[i].Dash != nil {
					t.Errorf("a limit of %g goes through %q: %v, %v", limit, text.String, line, text.Ink)
				}
			}
		}
	}
}

// The words beyond a bar stand clear of a mark that has no room for its value.
func TestWordsStandClearOfMarks(t *testing.T) {
	theme := DefaultTheme(face.Metrics())
	for seed := range many(400) {
		r := rand.New(rand.NewPCG(seed, 5))
		d := vEight()
		d.Ties = nil
		for i := range d.Cylinders {
			b := &d.Cylinders[i].Bars[0]
			b.Tone, b.Mark, b.Word = Hatch, Low, "low, 60 %"
			b.Value = 40 + 80*r.Float64()
			b.Text = fmt.Sprintf("%.0f", b.Value)
			b.Marks = []BarMark{{Wedge, b.Value + 60*r.Float64(), "98"}}
		}
		lines := &penLines{Surface: record.New(face.Metrics())}
		rec, area := drawn(t, NewEnginePlan(d), 541, layout.Brief, 0)
		NewEnginePlan(d).Lay(theme, 541, layout.Brief).Draw(lines, area)
		for _, text := range rec.Find("low, 60 %") {
			lead := markSize(theme, text.Face) + small // its symbol is before it
			word := layout.Rect{X: text.Ink.X - lead, Y: text.Ink.Y, W: text.Ink.W + lead, H: text.Ink.H}.InsetXY(-1.5, 0)
			for i, line := range lines.areas {
				mark := math.Abs(float64(line.W-2.3*markRadius)) < 0.1 && lines.pens[i].Width == 0.8
				if mark && line.X < word.Right() && line.Right() > word.X && line.Y < word.Bottom() && line.Bottom() > word.Y {
					t.Fatalf("seed %d: a mark at %v meets %q at %v", seed, line, text.String, word)
				}
			}
		}
	}
}

// A value in a bore stands clear of its outline.
func TestValuesStandClearOfTheirBores(t *testing.T) {
	d := vEight()
	for _, width := range []layout.Length{425, 541} {
		theme := DefaultTheme(face.Metrics())
		g := newEngineDrawing(theme, &d, width, layout.Full)
		for half := layout.Length(6); half < 22; half++ {
			size := g.boreSize(half, false)
			f, fits := g.valuesFit(size)
			x, y := theme.Measurer.Width("155", f)/2+1.5, theme.Measurer.CapHeight(f)/2
			if fits && math.Hypot(float64(x/size.W), float64(y/size.H)) > 1 {
				t.Errorf("a value of %.1f pt meets the outline of a bore of %v", f.Size, size)
			}
		}
	}
}

// Values of marks that have no room at the bars stand behind their cylinders' tabs.
func TestListedMarksStandBehindTabs(t *testing.T) {
	d := vEight()
	d.ShapeLists = [2]string{"after a little oil:", ""}
	theme := DefaultTheme(face.Metrics())
	g := newEngineDrawing(theme, &d, 541, layout.Brief)
	g.marksListed = true
	frame := g.keys()
	rec := record.New(face.Metrics())
	frame.Draw(rec, layout.Rect{X: 0, Y: 0, W: 541, H: frame.Height})
	var tabs []string
	for _, text := range rec.Texts() {
		if text.Color == theme.Paper {
			tabs = append(tabs, text.String)
		}
	}
	if got := strings.Join(tabs, " "); got != "3 5" {
		t.Errorf("tabs %q, want those of cylinders 3 and 5", got)
	}
	if strings.Contains(textOf(rec), "(") {
		t.Errorf("a number stands in brackets: %s", textOf(rec))
	}
}

// A row that stands out does so without a tint behind its words, which a fax would
// break up into dots.
func TestRowsStandOutWithoutTint(t *testing.T) {
	theme := DefaultTheme(face.Metrics())
	d := Table{Columns: []Column{{Heading: "cyl."}, {Heading: "dry"}}, Rows: []TableRow{TextRow("1", "150"), TextRow("2", "90")}}
	d.Rows[1].Shade = true
	frame := NewTable(d).Lay(theme, 200, layout.Full)
	tints := &fills{Surface: record.New(face.Metrics()), ink: theme.Tint}
	lines := &penLines{Surface: tints}
	frame.Draw(lines, layout.Rect{W: 200, H: frame.Height})
	if len(tints.areas) > 0 {
		t.Errorf("tinted: %v", tints.areas)
	}
	heavy := 0
	for _, pen := range lines.pens {
		if pen.Width == outline {
			heavy++
		}
	}
	if heavy < 2 {
		t.Errorf("%d lines at the row, want one over and one under it", heavy)
	}
}

package layout_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"gaugesheet/layout"
	"gaugesheet/layout/record"
)

// solid is a block of given heights by level of detail, for scale 1, that
// counts how often it is laid out.
type solid struct {
	name    string
	heights []layout.Length
	stretch layout.Length
	asked   map[string]int
}

func block(name string, stretch layout.Length, heights ...layout.Length) *solid {
	return &solid{name, heights, stretch, map[string]int{}}
}

func (b *solid) Name() string { return b.name }

func (b *solid) Lay(t layout.Theme, width layout.Length, d layout.Detail) layout.Frame {
	b.asked[fmt.Sprint(width, d, t.Scale)]++
	h := b.heights[min(int(d), len(b.heights)-1)]
	return layout.Frame{Height: h * layout.Length(t.Scale), Stretch: b.stretch, Draw: func(s layout.Surface, a layout.Rect) {
		s.Fill(layout.RectPath(a), layout.Color{})
	}}
}

func one(b layout.Block) layout.Row {
	return layout.Row{Cells: []layout.Cell{{Blocks: []layout.Block{b}}}}
}

func page(rows ...layout.Row) layout.Page {
	return layout.Page{Paper: layout.Size{W: 120, H: 120}, Area: layout.Rect{X: 10, Y: 10, W: 100, H: 100}, Rows: rows}
}

// boxes are the blocks of a page as they are drawn.
func boxes(f *layout.Fitted) []record.Box {
	r := record.New(tenths{})
	f.Draw(r)
	return r.Boxes()
}

func areas(f *layout.Fitted) []string {
	var all []string
	for _, b := range boxes(f) {
		all = append(all, fmt.Sprintf("%s %s %.2f,%.2f %.2fx%.2f", b.Name, f.Levels[b.Name],
			float64(b.Rect.X), float64(b.Rect.Y), float64(b.Rect.W), float64(b.Rect.H)))
	}
	return all
}

func TestFitSharesFreeHeight(t *testing.T) {
	side := func(left, right layout.Block) layout.Row {
		return layout.Row{Gap: 10, Above: 5, Cells: []layout.Cell{{Share: 2, Blocks: []layout.Block{left}}, {Share: 1, Blocks: []layout.Block{right}}}}
	}
	for _, c := range []struct {
		name string
		page layout.Page
		want []string
	}{
		{"to the last row's foot", page(one(block("a", 0, 40)), one(block("b", 0, 20))),
			[]string{"a full 10.00,10.00 100.00x40.00", "b full 10.00,90.00 100.00x20.00"}},
		{"in proportion to stretch", page(one(block("a", 10, 20)), one(block("b", 30, 20)), one(block("c", 0, 20))),
			[]string{"a full 10.00,10.00 100.00x30.00", "b full 10.00,40.00 100.00x50.00", "c full 10.00,90.00 100.00x20.00"}},
		{"evenly above rows when no stretch is left", page(one(block("a", 4, 40)), one(block("b", 0, 20)), one(block("c", 0, 20))),
			[]string{"a full 10.00,10.00 100.00x44.00", "b full 10.00,62.00 100.00x20.00", "c full 10.00,90.00 100.00x20.00"}},
		{"cells share the width", page(side(block("a", 0, 100), block("b", 0, 50))),
			[]string{"a full 10.00,10.00 60.00x100.00", "b full 80.00,10.00 30.00x50.00"}},
		{"a lower cell stretches beside a higher one", page(side(block("a", 0, 100), block("b", 30, 50))),
			[]string{"a full 10.00,10.00 60.00x100.00", "b full 80.00,10.00 30.00x80.00"}},
		{"an empty cell gives its width away", page(side(block("a", 0, 100), block("b", 0, 0))),
			[]string{"a full 10.00,10.00 100.00x100.00"}},
		{"an empty row takes nothing", page(one(block("a", 60, 40)), side(block("b", 0, 0), block("c", 0, 0))),
			[]string{"a full 10.00,10.00 100.00x100.00"}},
	} {
		f, err := layout.Fit(c.page, layout.Theme{Scale: 1})
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if diff := cmp.Diff(c.want, areas(f)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.name, diff)
		}
	}
}

func TestFitGivesWay(t *testing.T) {
	for _, c := range []struct {
		name   string
		a, b   []layout.Length // heights by detail
		steps  []layout.Step
		least  float64
		want   map[string]layout.Detail
		scale  float64
		refuse string
	}{
		{name: "nothing where it fits", a: []layout.Length{50, 10}, b: []layout.Length{50, 10},
			steps: []layout.Step{{Block: "a", To: layout.Compact}}, want: map[string]layout.Detail{}, scale: 1},
		{name: "in the page's order", a: []layout.Length{60, 40, 30}, b: []layout.Length{60, 40},
			steps: []layout.Step{{Block: "b", To: layout.Compact}, {Block: "a", To: layout.Compact}},
			want:  map[string]layout.Detail{"b": layout.Compact}, scale: 1},
		{name: "takes back what a later step makes needless", a: []layout.Length{60, 55}, b: []layout.Length{60, 40},
			steps: []layout.Step{{Block: "a", To: layout.Compact}, {Block: "b", To: layout.Compact}},
			want:  map[string]layout.Detail{"b": layout.Compact}, scale: 1},
		{name: "type comes last", a: []layout.Length{60, 55}, b: []layout.Length{60, 50}, least: 0.9,
			steps: []layout.Step{{Block: "a", To: layout.Compact}, {Block: "b", To: layout.Compact}},
			want:  map[string]layout.Detail{"a": layout.Compact, "b": layout.Compact}, scale: 0.94},
		{name: "out", a: []layout.Length{60, 50}, b: []layout.Length{70}, // whose levels are one
			steps: []layout.Step{{Block: "a", To: layout.Compact}, {Block: "b", To: layout.Out}},
			want:  map[string]layout.Detail{"b": layout.Out}, scale: 1},
		{name: "refused", a: []layout.Length{60}, b: []layout.Length{70}, least: 0.9,
			// 130 pt x 0.9 - 100 pt = 17 pt = 6.0 mm
			refuse: "the page is 6.0 mm too full; b takes the most room"},
		{name: "no smaller type allowed", a: []layout.Length{60}, b: []layout.Length{70}, least: 1,
			refuse: "the page is 10.6 mm too full; b takes the most room"},
	} {
		a, b := block("a", 0, c.a...), block("b", 0, c.b...)
		p := page(one(a), one(b))
		p.GivesWay, p.LeastScale = c.steps, c.least
		f, err := layout.Fit(p, layout.Theme{Scale: 1})
		if c.refuse != "" {
			var full *layout.TooFull
			if !errors.As(err, &full) || err.Error() != c.refuse {
				t.Errorf("%s: error %v, want %q", c.name, err, c.refuse)
			}
			continue
		}
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if diff := cmp.Diff(c.want, f.Levels); diff != "" {
			t.Errorf("%s: levels (-want +got):\n%s", c.name, diff)
		}
		if fmt.Sprintf("%.3f", f.Scale) != fmt.Sprintf("%.3f", c.scale) {
			t.Errorf("%s: scale %v, want %v", c.name, f.Scale, c.scale)
		}
		for _, block := range []*solid{a, b} {
			for asked, n := range block.asked {
				if n > 1 {
					t.Errorf("%s: %s was laid out %d times for %s", c.name, block.name, n, asked)
				}
			}
		}
	}
}

// Every height from almost empty to brim-full must end at the foot and stay
// inside, blocks apart.
func TestFitEndsAtTheFoot(t *testing.T) {
	for h := layout.Length(1); h <= 25; h += 0.7 {
		p := page(one(block("a", 9, h)), one(block("b", 0, h)), one(block("c", 5, h)), one(block("d", 0, h)))
		f, err := layout.Fit(p, layout.Theme{Scale: 1})
		if err != nil {
			t.Fatal(err)
		}
		blocks := boxes(f)
		last := blocks[len(blocks)-1].Rect
		if d := last.Bottom() - p.Area.Bottom(); d > 0.001 || d < -0.001 {
			t.Errorf("height %v: the page ends at %v, not %v", h, last.Bottom(), p.Area.Bottom())
		}
		for i, b := range blocks[1:] {
			if b.Rect.Overlaps(blocks[i].Rect) {
				t.Errorf("height %v: %s overlaps %s", h, b.Name, blocks[i].Name)
			}
		}
	}
}

func TestDrawWithBoxes(t *testing.T) {
	f, err := layout.Fit(page(one(block("a", 90, 10))), layout.Theme{Scale: 1})
	if err != nil {
		t.Fatal(err)
	}
	r := record.New(tenths{})
	f.Draw(layout.Boxes(r, true))
	got := strings.Join(r.Lines(), "\n")
	want := `block a 10,10 100x100 {
  fill M10,10 L110,10 L110,110 L10,110 Z #000000
  stroke M10,10 L110,10 L110,110 L10,110 Z 0.3 #c80078
  text 11,15 "a" regular 5 #c80078
}`
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("lines (-want +got):\n%s", diff)
	}
}

// wider is a block with a width of its own.
type wider struct {
	*solid
	natural layout.Length
}

func (w wider) Natural(layout.Theme) layout.Length { return w.natural }

func TestACellIsAsWideAsItsBlockWould(t *testing.T) {
	for _, c := range []struct {
		natural layout.Length
		most    float64
		want    string
	}{
		{80, 0, "a full 10.00,10.00 60.00x10.00"},  // it may not
		{80, 90, "a full 10.00,10.00 80.00x10.00"}, // as it would
		{80, 70, "a full 10.00,10.00 70.00x10.00"}, // up to its most
		{30, 90, "a full 10.00,10.00 60.00x10.00"}, // it has more already
	} {
		a, b := wider{block("a", 0, 10), c.natural}, block("b", 0, 10)
		f, err := layout.Fit(page(layout.Row{Cells: []layout.Cell{
			{Share: 60, Most: c.most, Blocks: []layout.Block{a}}, {Share: 40, Blocks: []layout.Block{b}}}}), layout.Theme{Scale: 1})
		if err != nil {
			t.Fatal(err)
		}
		if got := areas(f)[0]; got != c.want {
			t.Errorf("natural %v, most %v: %s, want %s", c.natural, c.most, got, c.want)
		}
	}
}

// Height that is left after spaces closed up goes back to them, before a block
// stretches, between rows and within a column alike.
func TestClosedSpacesOpenFirst(t *testing.T) {
	below := one(block("b", 0, 40))
	below.Above = 20
	rows := page(one(block("a", 30, 50)), below)
	column := page(layout.Row{Cells: []layout.Cell{{Gap: 20, Blocks: []layout.Block{block("a", 30, 50), block("b", 0, 40)}}}})
	for name, p := range map[string]layout.Page{"between rows": rows, "in a column": column} {
		p.LeastSpace = 0.2
		f, err := layout.Fit(p, layout.Theme{})
		if err != nil {
			t.Fatal(err)
		}
		want := []string{"a full 10.00,10.00 100.00x50.00", "b full 10.00,70.00 100.00x40.00"}
		if diff := cmp.Diff(want, areas(f)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", name, diff)
		}
	}
}

// A column gives width to one that shows as much as it has height for, though
// the row gets no lower.
func TestColumnsLevelOutForWhatHasMoreToShow(t *testing.T) {
	more := textual{name: "more", area: 12000}
	p := page(layout.Row{Cells: []layout.Cell{{Share: 50, Least: 30, Blocks: []layout.Block{textual{name: "few", area: 2000}}}, {Share: 50, Blocks: []layout.Block{more}}}})
	p.GivesWay = []layout.Step{{Block: "more", To: layout.Compact}}
	f, err := layout.Fit(p, layout.Theme{Scale: 1})
	if err != nil {
		t.Fatal(err)
	}
	for _, b := range boxes(f) {
		if b.Name == "more" && b.Rect.W < 60 {
			t.Errorf("what has more to show is %.0f wide beside a column that is half empty", float64(b.Rect.W))
		}
	}
}

// textual is a block of words that fill an area, or as much of it as a height
// holds.
type textual struct {
	name string
	area layout.Length
}

func (b textual) Name() string { return b.name }

func (b textual) Lay(_ layout.Theme, width layout.Length, d layout.Detail) layout.Frame {
	whole := b.area / width
	f := layout.Frame{Height: whole, Draw: func(layout.Surface, layout.Rect) {}}
	if d != layout.Full {
		f.Height = 30
		f.Richer = func(height layout.Length) layout.Frame {
			return layout.Frame{Height: min(height, whole), Draw: f.Draw}
		}
	}
	return f
}

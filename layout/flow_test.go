package layout_test

import (
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"

	"gaugesheet/layout"
)

// text is a block that is the higher the narrower it is, as running text is;
// in less width than it wants it says so.
type text struct {
	name  string
	area  layout.Length
	wants layout.Length
}

func (b text) Name() string { return b.name }

func (b text) Lay(_ layout.Theme, width layout.Length, d layout.Detail) layout.Frame {
	return layout.Frame{Height: b.area / width / layout.Length(1+d), Narrow: width < b.wants, Draw: func(layout.Surface, layout.Rect) {}}
}

// onward is a block that goes on from another.
type onward struct {
	layout.Block
	from string
}

func (b onward) Follows() string { return b.from }

func cell(least float64, blocks ...layout.Block) layout.Cell {
	return layout.Cell{Share: 50, Least: least, Blocks: blocks}
}

// places says of each block where it begins: its column and its top.
func places(t *testing.T, row layout.Row, steps ...layout.Step) map[string]string {
	t.Helper()
	p := page(row)
	p.GivesWay = steps
	f, err := layout.Fit(p, layout.Theme{Scale: 1})
	if err != nil {
		t.Fatal(err)
	}
	at := map[string]string{}
	for _, b := range boxes(f) {
		at[b.Name] = fmt.Sprintf("%.0f,%.0f", float64(b.Rect.X), float64(b.Rect.Y))
	}
	return at
}

func TestFlows(t *testing.T) {
	for _, c := range []struct {
		name string
		row  layout.Row
		want map[string]string
	}{
		{"under the column that ends highest",
			layout.Row{Cells: []layout.Cell{cell(0, block("a", 0, 50)), cell(0, block("b", 0, 20))}, Flows: []layout.Block{block("c", 0, 25)}},
			map[string]string{"a": "10,10", "b": "60,10", "c": "60,35"}}, // the gap takes the 5 pt that are free
		{"so that the row is lowest, where one after the other would not do it",
			layout.Row{Cells: []layout.Cell{cell(0, block("a", 0, 30)), cell(0, block("b", 0, 20))},
				Flows: []layout.Block{block("c", 0, 10), block("d", 0, 20), block("e", 0, 40)}},
			map[string]string{"a": "10,10", "b": "60,10", "c": "10,40", "d": "10,50", "e": "60,30"}},
		{"what goes on from another under it or at its right, whatever height that costs",
			layout.Row{Cells: []layout.Cell{cell(0, block("a", 0, 30)), cell(0, block("b", 0, 20))},
				Flows: []layout.Block{block("c", 0, 10), onward{block("d", 0, 10), "c"}, block("e", 0, 10)}},
			map[string]string{"a": "10,10", "b": "60,10", "c": "60,30", "d": "60,40", "e": "10,40"}},
		{"in their order where that costs no height to speak of",
			layout.Row{Cells: []layout.Cell{cell(0, block("a", 0, 40)), cell(0, block("b", 0, 40))},
				Flows: []layout.Block{block("c", 0, 30), block("d", 0, 12), block("e", 0, 12)}},
			map[string]string{"a": "10,10", "b": "60,10", "c": "10,50", "d": "60,53", "e": "60,68"}},
		{"not under one that is too narrow",
			layout.Row{Cells: []layout.Cell{{Share: 70, Blocks: []layout.Block{block("a", 0, 60)}}, {Share: 30, Blocks: []layout.Block{block("b", 0, 10)}}},
				Flows: []layout.Block{text{"c", 700, 50}}},
			map[string]string{"a": "10,10", "b": "80,10", "c": "10,70"}},
		{"across a row without columns",
			layout.Row{Cells: []layout.Cell{cell(0, block("a", 0, 0))}, Flows: []layout.Block{block("b", 0, 10), block("c", 0, 20)}},
			map[string]string{"b": "10,10", "c": "10,20"}},
		{"nothing to flow",
			layout.Row{Cells: []layout.Cell{cell(0, block("a", 0, 10)), cell(0, block("b", 0, 20))}, Flows: []layout.Block{block("c", 0, 0)}},
			map[string]string{"a": "10,10", "b": "60,10"}},
	} {
		if diff := cmp.Diff(c.want, places(t, c.row)); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.name, diff)
		}
	}
}

// A column gives width to one that is much higher before text is left out.
func TestColumnsTradeWidth(t *testing.T) {
	row := func(least float64) layout.Row {
		return layout.Row{Cells: []layout.Cell{cell(0, text{"long", 5500, 0}), cell(least, text{"short", 1500, 0})}}
	}
	steps := []layout.Step{{Block: "long", To: layout.Compact}}
	detail := func(row layout.Row) layout.Detail {
		p := page(row)
		p.GivesWay = steps
		f, err := layout.Fit(p, layout.Theme{Scale: 1})
		if err != nil {
			t.Fatal(err)
		}
		return f.Levels["long"]
	}
	if got := detail(row(0)); got != layout.Compact {
		t.Errorf("without width to give the long text is %v", got)
	}
	if got := detail(row(40)); got != layout.Full {
		t.Errorf("with width to give the long text is %v", got)
	}
	if got := detail(row(48)); got != layout.Compact {
		t.Errorf("with too little width to give the long text is %v", got)
	}
}

// The rows at the foot stay together; what is left stands above them.
func TestFootStaysTogether(t *testing.T) {
	foot := func(name string) layout.Row { r := one(block(name, 0, 5)); r.Foot = true; return r }
	p := page(one(block("a", 0, 5)), one(block("b", 0, 5)), foot("c"), foot("d"))
	f, err := layout.Fit(p, layout.Theme{Scale: 1})
	if err != nil {
		t.Fatal(err)
	}
	want := []string{"a full 10.00,10.00 100.00x5.00", "b full 10.00,27.00 100.00x5.00", "c full 10.00,88.00 100.00x5.00", "d full 10.00,105.00 100.00x5.00"}
	if diff := cmp.Diff(want, areas(f)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// A flow of a later row goes where a column of an earlier one has room for it.
func TestFlowsFillEarlierColumns(t *testing.T) {
	first := layout.Row{Cells: []layout.Cell{cell(0, block("a", 0, 60)), cell(0, block("b", 0, 10))}}
	for _, c := range []struct {
		name string
		flow layout.Length
		want string
	}{{"room", 45, "60,25"}, {"no room", 55, "60,105"}} {
		second := layout.Row{Cells: []layout.Cell{cell(0, block("c", 0, 20)), cell(0, block("d", 0, 10))}, Flows: []layout.Block{block("e", 0, c.flow)}}
		p := page(first, second)
		p.Area.H, p.Paper.H = 150, 170
		f, err := layout.Fit(p, layout.Theme{Scale: 1})
		if err != nil {
			t.Fatal(err)
		}
		for _, b := range boxes(f) {
			if got := fmt.Sprintf("%.0f,%.0f", float64(b.Rect.X), float64(b.Rect.Y)); b.Name == "e" && got != c.want {
				t.Errorf("%s: the flow stands at %s, want %s", c.name, got, c.want)
			}
		}
	}
}

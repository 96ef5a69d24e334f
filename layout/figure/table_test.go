package figure

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"gaugesheet/layout"
	"gaugesheet/layout/face"
)

func TestTablesOfAnyWordsKeepThem(t *testing.T) {
	for seed := range many(300) {
		r := rand.New(rand.NewPCG(seed, 9))
		d := randomTable(r)
		level := oneOf(r, everyLevel...)
		rec, area := drawn(t, NewTable(d), oneOf[layout.Length](r, 180, 262, 371, 541), level, 0)
		checkDrawn(t, fmt.Sprintf("seed %d, %s", seed, level), rec, area)
		all := textOf(rec)
		for _, row := range d.Rows {
			for i, c := range row.Cells {
				for _, word := range strings.Fields(c.Text) {
					if !d.Columns[i].Trend && len(word) < 9 && !strings.Contains(all, word) {
						t.Errorf("seed %d: %q is missing", seed, word)
					}
				}
			}
		}
		if t.Failed() {
			break
		}
	}
}

// A number is read beside its cylinder: a table with room to spare is as wide
// as its words, and its lines are no longer.
func TestTableIsAsWideAsItsWords(t *testing.T) {
	d := sampleTable()
	rec, area := drawn(t, NewTable(d), 541, layout.Full, 0)
	natural := NewTable(d).(layout.Wider).Natural(DefaultTheme(face.Metrics()))
	if natural > 120 {
		t.Errorf("two columns of numbers are %.0f pt wide", natural)
	}
	for _, text := range rec.Texts() {
		if text.Ink.Right() > area.X+natural+0.5 {
			t.Errorf("%q stands at %.0f, beyond the table's width %.0f", text.String, text.Ink.Right()-area.X, natural)
		}
	}
}

func TestNumbersStandOnTheirDecimal(t *testing.T) {
	d := Table{Columns: []Column{{Heading: "mean", Numbers: true}}}
	for _, value := range []string{"152", "9.5", "150.25", "\u22121", "20+"} {
		d.Rows = append(d.Rows, TextRow(value))
	}
	rec, _ := drawn(t, NewTable(d), 262, layout.Full, 0)
	m := face.Metrics()
	var at []layout.Length
	for _, text := range rec.Texts()[1:] {
		at = append(at, text.Rect.X+m.Width(text.String[:decimalAt(text.String)], text.Face))
	}
	for i, x := range at {
		if x-at[0] > 0.01 || at[0]-x > 0.01 {
			t.Errorf("%s has its decimal at %.2f, %s at %.2f", d.Rows[i].Cells[0].Text, x, d.Rows[0].Cells[0].Text, at[0])
		}
	}
}

func TestDecimalAt(t *testing.T) {
	for text, want := range map[string]int{"152": 3, "152.5": 3, "+37": 3, "~150": 4, "20+": 2, "148\u2013152": 3, "72/80": 2, "even": -1, "": -1, "not tested 3": -1} {
		if got := decimalAt(text); got != want {
			t.Errorf("decimalAt(%q) = %d, want %d", text, got, want)
		}
	}
}

// A table says where its columns have too little width, so that it flows
// elsewhere.
func TestTableSaysThatItIsTooNarrow(t *testing.T) {
	th := DefaultTheme(face.Metrics())
	d := Table{Name: "t", Columns: []Column{{Heading: "Test"}, {Heading: "compression"}, {Heading: "leakage"}}, Rows: []TableRow{TextRow("2025-10-02", "152.5 psi", "crankcase")}}
	table := NewTable(d)
	for width, want := range map[layout.Length]bool{300: false, 60: true} {
		if got := table.Lay(th, width, layout.Full).Narrow; got != want {
			t.Errorf("in a width of %v: too narrow is %v, want %v", width, got, want)
		}
	}
}

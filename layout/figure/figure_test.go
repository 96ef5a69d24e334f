package figure

import (
	"fmt"
	"strings"
	"testing"

	"gaugesheet/layout"
	"gaugesheet/layout/face"
	"gaugesheet/layout/record"
)

func sampleFindings() Findings {
	f := Finding{Mark: Low, Says: "Cylinders 3 and 5 are low:", Urgency: "act soon.", Because: "96 and 91 psi, 62 and 59 % of the highest.",
		Suspected: "Suspected first: the head gasket; then a warped or cracked head.", Sure: "fair", Against: "no coolant loss"}
	return Findings{Title: "What we found", Items: []Finding{f, f}, Lead: FindingWords{Sure: "How sure:", Against: "Speaks against it:"},
		More: func(o Omitted) string {
			return fmt.Sprintf("%d reasons, %d suspicions and %d doubts are left out.", o.Reasons, o.Suspected, o.Doubts)
		}}
}

func sampleTable() Table {
	d := Table{Name: "t", Title: "Readings", Columns: []Column{{Heading: "Cylinder"}, {Heading: "Dry", Numbers: true}}}
	for i := range 8 {
		d.Rows = append(d.Rows, TextRow(fmt.Sprint(i+1), fmt.Sprint(150+i)))
	}
	return d
}

func TestEachLevelIsLower(t *testing.T) {
	th := DefaultTheme(face.Metrics())
	for _, b := range []layout.Block{NewEnginePlan(vEight()), NewSpread(sampleSpread()), NewPressures(samplePressures()), NewFindings(sampleFindings()), NewTable(sampleTable())} {
		full, compact, brief := b.Lay(th, 262, layout.Full).Height, b.Lay(th, 262, layout.Compact).Height, b.Lay(th, 262, layout.Brief).Height
		if !(full > compact && compact > brief) {
			t.Errorf("%s: heights %.1f, %.1f, %.1f do not fall", b.Name(), full, compact, brief)
		}
	}
}

func TestShortenedBlocksSaySo(t *testing.T) {
	for _, test := range []struct {
		block layout.Block
		level layout.Detail
		want  string
	}{
		{NewFindings(sampleFindings()), layout.Compact, "0 reasons, 1 suspicions and 2 doubts are left out."},
		{NewFindings(sampleFindings()), layout.Brief, "2 reasons, 2 suspicions and 2 doubts are left out."},
	} {
		rec, _ := drawn(t, test.block, 262, test.level, 0)
		if len(rec.Find(test.want)) != 1 {
			t.Errorf("%s, %s: does not say %q", test.block.Name(), test.level, test.want)
		}
	}
}

func TestNothingIsLeftOutWithoutWordsForIt(t *testing.T) {
	findings, table := sampleFindings(), sampleTable()
	findings.More = nil
	for _, test := range []struct {
		block layout.Block
		want  string
	}{{NewFindings(findings), "coolant"}, {NewTable(table), "157"}} {
		rec, _ := drawn(t, test.block, 262, layout.Brief, 0)
		if !strings.Contains(textOf(rec), test.want) {
			t.Errorf("%s: %q was left out and nothing says so", test.block.Name(), test.want)
		}
	}
}

func TestRowsRunOn(t *testing.T) {
	d := sampleTable()
	d.RunOn, d.Sum = layout.Compact, "most are even"
	for level, want := range map[layout.Detail]string{layout.Compact: "8:157", layout.Brief: "mostareeven"} {
		rec, area := drawn(t, NewTable(d), 262, level, 0)
		checkDrawn(t, "rows that run on", rec, area)
		if !strings.Contains(textOf(rec), want) {
			t.Errorf("%s: %q is not there: %s", level, want, textOf(rec))
		}
	}
}

func manyFindings() Findings {
	d := sampleFindings()
	d.More = func(o Omitted) string {
		return fmt.Sprintf("%d findings and %d reasons are left out.", o.Findings, o.Reasons)
	}
	for i := range 6 {
		d.Items = append(d.Items, Finding{Says: fmt.Sprintf("Finding number %d", i), Because: "the reason"})
	}
	return d
}

func TestFindingsLeftOutAreCounted(t *testing.T) {
	d := manyFindings()
	rec, area := drawn(t, NewFindings(d), 329, layout.Brief, 0)
	checkDrawn(t, "many findings", rec, area)
	left := len(d.Items) - 2
	if got := len(rec.Find(fmt.Sprintf("%d findings and 2 reasons are left out.", left))); got != 1 {
		t.Errorf("%d findings left out are not counted:\n%s", left, strings.Join(rec.Lines(), "\n"))
	}
	if got := len(rec.Find("Finding number")); got != max(0, 6-left) {
		t.Errorf("%d of 6 later findings are drawn, want %d", got, max(0, 6-left))
	}
}

// With height to spare the findings say more, in their order, and never more
// than the height holds; with enough of it they say all.
func TestFindingsUseHeightToSpare(t *testing.T) {
	th := DefaultTheme(face.Metrics())
	f := NewFindings(manyFindings()).Lay(th, 329, layout.Brief)
	least, words := f.Height, 0
	for more := layout.Length(0); more <= 400; more += 10 {
		richer := f.Richer(least + more)
		if richer.Height > least+more {
			t.Fatalf("%v pt more: the findings take %v of %v", more, richer.Height, least+more)
		}
		rec := record.New(face.Metrics())
		richer.Draw(rec, layout.Rect{W: 329, H: richer.Height})
		if n := len(textOf(rec)); n < words {
			t.Errorf("%v pt more: the findings say less than with less height", more)
		} else {
			words = n
		}
		if more == 400 && (richer.Richer != nil || len(rec.Find("left out")) > 0) {
			t.Error("something is left out for no want of room")
		}
	}
}

func TestMarksDifferWithoutColour(t *testing.T) {
	th := DefaultTheme(face.Metrics())
	drawings := map[string]Mark{}
	for m := Within; m <= Declined; m++ {
		r := record.New(face.Metrics())
		DrawMark(r, th, m, layout.Point{X: 50, Y: 50}, 10)
		drawing := strings.Join(r.Lines(), "\n")
		if other, ok := drawings[drawing]; ok || drawing == "" {
			t.Errorf("mark %d is drawn like mark %d", m, other)
		}
		drawings[drawing] = m
		for _, outside := range r.Outside(layout.Rect{X: 44, Y: 44, W: 12, H: 12}) {
			t.Errorf("mark %d leaves its square: %s", m, outside)
		}
	}
}

func TestTonesDiffer(t *testing.T) {
	th := DefaultTheme(face.Metrics())
	seen := map[string]Tone{}
	for tone := Plain; tone <= Open; tone++ {
		r := record.New(face.Metrics())
		PaintTone(r, th, tone, layout.Circle(layout.Point{X: 50, Y: 50}, 20))
		drawing := strings.Join(r.Lines(), "\n")
		if other, ok := seen[drawing]; ok {
			t.Errorf("tone %d is painted like tone %d", tone, other)
		}
		seen[drawing] = tone
	}
}

func TestTicksAreRound(t *testing.T) {
	for _, test := range []struct {
		low, high float64
		about     int
		want      string
	}{
		{0, 44, 5, "0 10 20 30 40 50"},
		{0, 1.1, 4, "0.0 0.5 1.0 1.5"},
		{37.2, 41.8, 5, "37 38 39 40 41 42"},
		{0, 0, 4, "0.0 0.5 1.0"},
		{280, 330, 3, "280 300 320 340"},
	} {
		if _, texts := ticks(test.low, test.high, test.about); strings.Join(texts, " ") != test.want {
			t.Errorf("ticks(%v, %v, %d) = %v, want %s", test.low, test.high, test.about, texts, test.want)
		}
	}
}

// Where there is little more room than for the first few, every finding is named.
func TestFindingsWithoutRoomAreNamed(t *testing.T) {
	d := manyFindings()
	d.Lead.Also = "Also:"
	few := NewFindings(d).Lay(DefaultTheme(face.Metrics()), 329, layout.Brief)
	named := few.Richer(few.Height + 30)
	rec, area := drawn(t, block{"findings", func(layout.Theme, layout.Length, layout.Detail) layout.Frame { return named }}, 329, layout.Brief, 0)
	checkDrawn(t, "many findings", rec, area)
	for i := range 6 {
		if want := fmt.Sprintf("Findingnumber%d", i); !strings.Contains(textOf(rec), want) {
			t.Errorf("%q is not named", want)
		}
	}
	if strings.Contains(textOf(rec), "8findings") || !strings.Contains(textOf(rec), "0findings") {
		t.Errorf("findings that are named count as left out:\n%s", textOf(rec))
	}
}

// Rows that stay are there beside what the others come to, and what is read twice
// is named once.
func TestRowsThatStay(t *testing.T) {
	d := Further{Table: Table{Name: "t", Title: "Tests", Sum: "the rest is elsewhere", Columns: []Column{{}, {Plain: true}, {Heading: "limit"}}}}
	for i := range 5 {
		value := fmt.Sprintf("%d9 psi", i)
		d.Rows = append(d.Rows, TextRow("Oil pressure at idle", value, "40"))
		d.Rows[i].Keep = i > 2
		d.Rows[i].Brief = RowBrief{Lead: "Oil pressure", Name: "idle", Says: value}
	}
	brief, _ := drawn(t, NewFurther(d), 262, layout.Brief, 0)
	if got := textOf(brief); strings.Contains(got, "09psi") || !strings.Contains(got, "49psi") || !strings.Contains(got, "elsewhere") {
		t.Errorf("brief says %s", got)
	}
	compact, _ := drawn(t, NewFurther(d), 262, layout.Compact, 0)
	if got := textOf(compact); strings.Count(got, "Oil") != 1 || strings.Count(got, "idle") != 1 || strings.Count(got, "psi") != 5 {
		t.Errorf("compact says %s", got)
	}
}

// Where several readings are of each cylinder, they stand under its number where
// there is height for that, and behind it where there is not.
func TestFurtherReadingsOfEachCylinder(t *testing.T) {
	d := Further{Table: Table{Name: "t", Title: "Tests", Columns: []Column{{}, {}, {}, {}}}, Numbers: []string{"A", "B"}, Heads: [3]string{"reading", "limit", "judged"}}
	for _, name := range []string{"Intake", "Exhaust", "Coil"} {
		row := TextRow(name, "A: 21, B: 22", "20-23", "within")
		row.Each = []TableCell{{Text: name}, {Text: "21"}, {Text: "22"}}
		row.Brief = RowBrief{Lead: "Valves", Name: name, Says: "A: 21, B: 22"}
		d.Rows = append(d.Rows, row)
	}
	for _, c := range []struct {
		level layout.Detail
		each  bool
	}{{layout.Full, true}, {layout.Compact, false}} {
		rec, area := drawn(t, NewFurther(d), 300, c.level, 0)
		checkDrawn(t, "each", rec, area)
		if each := !strings.Contains(textOf(rec), "A:"); each != c.each || strings.Count(textOf(rec), "22") != 3 {
			t.Errorf("%v says %s", c.level, textOf(rec))
		}
	}
	if f := NewFurther(d).Lay(DefaultTheme(face.Metrics()), 60, layout.Full); !f.Narrow {
		t.Error("a table in less width than its columns need is not called narrow")
	}
}

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

// drawn lays a block out and draws it where nothing else is.
func drawn(t *testing.T, b layout.Block, width layout.Length, d layout.Detail, extra layout.Length) (*record.Recorder, layout.Rect) {
	t.Helper()
	th := DefaultTheme(face.Metrics())
	f := b.Lay(th, width, d)
	area := layout.Rect{X: 100, Y: 100, W: width, H: f.Height + min(extra, f.Stretch)}
	r := record.New(face.Metrics())
	f.Draw(r, area)
	return r, area
}

// checkDrawn reports text that leaves the area or meets other text.
func checkDrawn(t *testing.T, what string, r *record.Recorder, area layout.Rect) {
	t.Helper()
	for _, text := range r.Texts() {
		if !area.Contains(text.Ink) {
			t.Errorf("%s: %q at %v leaves the area %v", what, text.String, text.Ink, area)
		}
		if text.Face.Size < 7.5 {
			t.Errorf("%s: %q is set in %v pt", what, text.String, text.Face.Size)
		}
	}
	for _, outside := range r.Outside(area) {
		t.Errorf("%s: outside the area %v: %s", what, area, outside)
	}
	for _, pair := range r.Overlaps() {
		t.Errorf("%s: %q at %v overlaps %q at %v", what, pair[0].String, pair[0].Ink, pair[1].String, pair[1].Ink)
	}
}

var everyLevel = []layout.Detail{layout.Full, layout.Compact, layout.Brief}

func oneOf[T any](r *rand.Rand, some ...T) T { return some[r.IntN(len(some))] }

// textOf is all text drawn, without spaces.
func textOf(r *record.Recorder) string {
	var b strings.Builder
	for _, text := range r.Texts() {
		b.WriteString(strings.ReplaceAll(text.String, " ", ""))
	}
	return b.String()
}

func randomText(r *rand.Rand, words int) string {
	var b strings.Builder
	for i := range r.IntN(words + 1) {
		if i > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(oneOf(r, "pressure", "at", "the", "gauge", "155", "± 2", "Donaudampfschifffahrtsgesellschaft", "neighbours,"))
	}
	return b.String()
}

func randomFindings(r *rand.Rand) Findings {
	d := Findings{Title: "What we found", Lead: FindingWords{Sure: "How sure:", Against: "Speaks against it:", Rule: "Rule:"},
		More: func(o Omitted) string {
			return fmt.Sprintf("%d reasons and %d doubts are in the job file.", o.Reasons, o.Doubts)
		}}
	for range r.IntN(5) {
		d.Items = append(d.Items, Finding{Mark: Mark(r.IntN(9)), Says: "Says " + randomText(r, 12) + ":", Because: randomText(r, 40), Urgency: "act soon.",
			Suspected: randomText(r, 20), Against: randomText(r, 8), Sure: randomText(r, 8), Rule: "one-low", Short: r.IntN(2) == 0})
	}
	return d
}

// randomCheck has up to six outcomes, or none and room for the next readings.
func randomCheck(r *rand.Rand) NextCheck {
	d := NextCheck{Title: "Next check", Do: randomText(r, 30), Effort: randomText(r, 3)}
	for i := range r.IntN(7) {
		d.Outcomes = append(d.Outcomes, Outcome{fmt.Sprintf("Outcome %d %s", i, randomText(r, 6)), randomText(r, 12), randomText(r, 8)})
	}
	if len(d.Outcomes) == 0 {
		d.Again = &Again{Heads: []string{"psi", "air lost"}, Next: "next time", Boxes: 1 + r.IntN(2)}
		for i := range 1 + r.IntN(8) {
			d.Again.Rows = append(d.Again.Rows, AgainRow{fmt.Sprint(i + 1), []string{"176, 178", "6 %"}})
		}
	}
	return d
}

// randomTable has columns and cells of every kind.
func randomTable(r *rand.Rand) Table {
	d := Table{Name: "t", Title: "Readings", Sub: randomText(r, 5), Lines: r.IntN(3) == 0, Captions: []string{randomText(r, 12)}}
	for i := range 1 + r.IntN(12) {
		d.Columns = append(d.Columns, Column{Heading: oneOf(r, "", "dry, as\nentered", "% of\nbest", randomText(r, 2)),
			Numbers: r.IntN(2) == 0, Tab: i == 0 && r.IntN(2) == 0, Trend: i > 0 && r.IntN(9) == 0,
			Strong: r.IntN(4) == 0, Joins: i > 0 && r.IntN(4) == 0, Share: float64(r.IntN(3) / 2)})
	}
	for range r.IntN(14) {
		row := TableRow{Shade: r.IntN(4) == 0, Break: r.IntN(6) == 0}
		for i := range r.IntN(len(d.Columns) + 1) {
			cell := TableCell{Text: oneOf(r, "152", "9.5", "\u22122", "20+", "~140", "148\u2013152", "", randomText(r, 5)), Bold: r.IntN(4) == 0, Runs: r.IntN(3) == 0}
			switch {
			case d.Columns[i].Tab:
				cell = TableCell{Text: oneOf(r, "1", "12", "front left")}
			case d.Columns[i].Trend:
				cell.Trend = []float64{150, oneOf(r, 149, math.NaN()), 120}
			case r.IntN(5) == 0:
				cell.Mark = Mark(r.IntN(9))
			case r.IntN(5) == 0:
				cell.Note = randomText(r, 3)
			}
			row.Cells = append(row.Cells, cell)
		}
		d.Rows = append(d.Rows, row)
	}
	return d
}

// randomPhotos may have pictures.
func randomPhotos(r *rand.Rand) Photos {
	d := Photos{Title: "Photos"}
	for range r.IntN(9) {
		d.Items = append(d.Items, Photo{oneOf(r, nil, &layout.Image{Name: "a", W: 300, H: 100}, &layout.Image{Name: "b", W: 90, H: 160}), "P1", randomText(r, 8), "photo"})
	}
	return d
}

// randomFields may have long names and values, or none.
func randomFields(r *rand.Rand) []Field {
	var fields []Field
	for range r.IntN(9) {
		fields = append(fields, Field{Name: randomText(r, 3), Value: randomText(r, 12), Lead: randomText(r, 3)})
	}
	return fields
}

func randomTexts(r *rand.Rand, n, words int) []string {
	var all []string
	for range r.IntN(n + 1) {
		all = append(all, randomText(r, words))
	}
	return all
}

func randomBlocks(r *rand.Rand) []layout.Block {
	list := List{Title: randomText(r, 3), Items: randomTexts(r, 6, 20), Run: r.IntN(2) == 0}
	signed := SignOff{Note: randomText(r, 10)}
	for range r.IntN(4) {
		signed.Lines = append(signed.Lines, randomText(r, 6))
	}
	remarks := Remarks{Name: "not-tested"}
	for range r.IntN(4) {
		remarks.Items = append(remarks.Items, Remark{Mark(r.IntN(9)), randomText(r, 4), randomTexts(r, 4, 20)})
	}
	form := PenForm{Name: "bench"}
	step := PenStep{Name: randomText(r, 2)}
	for range r.IntN(6) {
		step.Boxes = append(step.Boxes, PenBox{Label: randomText(r, 3), Value: strings.Join(randomTexts(r, 6, 8), "; ") + randomText(r, 3)})
	}
	form.Steps = []PenStep{step}
	verdict := Verdict{Mark: Mark(r.IntN(9)), Sentence: randomText(r, 16), Second: randomText(r, 25)}
	for range r.IntN(4) {
		verdict.Answers = append(verdict.Answers, Answer{randomText(r, 3), randomText(r, 5), randomText(r, 12), r.IntN(4), r.IntN(2) > 0})
	}
	return []layout.Block{
		NewMasthead(Masthead{Shop: randomText(r, 5), Lines: randomTexts(r, 3, 6), Kind: randomText(r, 4), Number: randomText(r, 2), Date: "14 May 2026",
			Logo: oneOf(r, nil, &layout.Image{W: 300, H: 100})}),
		NewIdentity(Identity{Fields: randomFields(r), Said: randomFields(r)}),
		NewVerdict(verdict),
		NewPressures(randomPressures(r)),
		NewSpread(randomSpread(r)),
		NewFindings(randomFindings(r)),
		NewNextCheck(randomCheck(r)),
		NewMethod(list), NewRemarks(remarks), NewCautions(list), NewList("work", list),
		NewSignOff(signed),
		NewFoot(Foot{randomTexts(r, 3, 20), randomTexts(r, 3, 20)}),
		NewTable(randomTable(r)),
		NewPhotos(randomPhotos(r)),
		NewPenForm(form),
	}
}

func TestBlocksKeepTheirWords(t *testing.T) {
	for seed := range many(25) {
		r := rand.New(rand.NewPCG(seed, 3))
		for _, b := range randomBlocks(r) {
			for _, level := range everyLevel {
				width := oneOf[layout.Length](r, 200, 262, 541)
				rec, area := drawn(t, b, width, level, layout.Length(r.IntN(60)))
				checkDrawn(t, fmt.Sprintf("seed %d, %s, %s, %.0f pt", seed, b.Name(), level, width), rec, area)
			}
		}
		if t.Failed() {
			break
		}
	}
}

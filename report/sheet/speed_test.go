package sheet_test

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/go-pdf/fpdf"

	"gaugesheet/diag/story"
	"gaugesheet/layout"
	"gaugesheet/layout/face"
	"gaugesheet/layout/record"
	"gaugesheet/report/job"
	"gaugesheet/report/sheet"
)

const speedExample = "flat-4-healthy.yaml"

// sheetOf is the sheet of a job file's bytes, before it is drawn.
func sheetOf(tb testing.TB, path string, data []byte) *sheet.Sheet {
	j, problems := job.Reader{
		Open:     func(name string) ([]byte, error) { return os.ReadFile(filepath.Join(examplesDir, name)) },
		HasGlyph: face.Metrics().Has,
	}.Read(path, data)
	if len(problems) > 0 {
		tb.Fatal(problems)
	}
	s, err := sheet.New(j, story.Diagnose(j.Test()), sheet.Options{Version: "test"})
	if err != nil {
		tb.Fatal(err)
	}
	return s
}

// writeSheet does all that a sheet takes, from the job file's bytes to the
// PDF's.
func writeSheet(tb testing.TB, path string, data []byte) []byte {
	s := sheetOf(tb, path, data)
	out, err := s.PDF()
	if err != nil {
		tb.Fatal(err)
	}
	return out
}

// writeFloor lets the PDF library alone write the same texts, in the same
// faces, and as many lines as the sheet has strokes: no layout, no diagnosis.
func writeFloor(tb testing.TB, texts []record.Text, strokes int) {
	f := fpdf.New("P", "pt", "Letter", "")
	f.AddUTF8FontFromBytes("sans", "", face.Regular)
	f.AddUTF8FontFromBytes("sans", "B", face.Bold)
	f.AddPage()
	for _, text := range texts {
		f.SetFont("sans", map[layout.Weight]string{layout.Regular: "", layout.Bold: "B"}[text.Face.Weight], float64(text.Face.Size))
		f.Text(float64(text.Rect.X), float64(text.Rect.Bottom()), text.String)
	}
	for i := range strokes {
		f.Line(40, float64(40+i), 560, float64(40+i))
	}
	if err := f.Output(discard{}); err != nil {
		tb.Fatal(err)
	}
}

type discard struct{}

func (discard) Write(p []byte) (int, error) { return len(p), nil }

func speedSetting(b *testing.B) (path string, data []byte, texts []record.Text, strokes int) {
	path = filepath.Join(examplesDir, speedExample)
	data, err := os.ReadFile(path)
	if err != nil {
		b.Fatal(err)
	}
	rec := drawn(b, readJob(b, path, data), "", "")
	return path, data, rec.Texts(), len(rec.Lines()) - len(rec.Texts())
}

func BenchmarkSheet(b *testing.B) {
	path, data, _, _ := speedSetting(b)
	b.ReportAllocs()
	for b.Loop() {
		writeSheet(b, path, data)
	}
}

// BenchmarkSheets is a batch on all the cores that -cpu gives it.
func BenchmarkSheets(b *testing.B) {
	path, data, _, _ := speedSetting(b)
	b.RunParallel(func(pb *testing.PB) {
		for pb.Next() {
			writeSheet(b, path, data)
		}
	})
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "sheets/s")
}

func BenchmarkFloor(b *testing.B) {
	_, _, texts, strokes := speedSetting(b)
	b.ReportAllocs()
	for b.Loop() {
		writeFloor(b, texts, strokes)
	}
}

// mostOfFloor is how much longer than the floor a sheet may take.
const mostOfFloor = 0.9

// BenchmarkSheetOverFloor guards against getting slower: it measures a sheet
// and the floor in turn and fails where the ratio is too large. A ratio holds
// on any machine.
func BenchmarkSheetOverFloor(b *testing.B) {
	path, data, texts, strokes := speedSetting(b)
	var ours, floor time.Duration
	for b.Loop() {
		start := spent()
		writeSheet(b, path, data)
		middle := spent()
		writeFloor(b, texts, strokes)
		ours, floor = ours+middle-start, floor+spent()-middle
	}
	ratio := float64(ours) / float64(floor)
	b.ReportMetric(ratio, "of-floor")
	if b.N > 5 && ratio > mostOfFloor {
		b.Errorf("a sheet takes %.2f times the floor, at most %.1f is wanted", ratio, mostOfFloor)
	}
}

// heavyExample has every test on twelve cylinders.
const heavyExample = "v12-everything.yaml"

// mostOfLight is how many times a sheet with every test on twelve cylinders may
// take as long as that of four sound ones.
const mostOfLight = 3.0

// heavyOverLight measures both sheets in turn, that many times.
func heavyOverLight(tb testing.TB, times int) float64 {
	measured := func(name string) func() time.Duration {
		path := filepath.Join(examplesDir, name)
		data, err := os.ReadFile(path)
		if err != nil {
			tb.Fatal(err)
		}
		return func() time.Duration {
			start := spent()
			writeSheet(tb, path, data)
			return spent() - start
		}
	}
	heavy, light := measured(heavyExample), measured(speedExample)
	heavy() // what is read once
	light()
	var sum [2]time.Duration
	for range times {
		sum[0] += heavy()
		sum[1] += light()
	}
	return float64(sum[0]) / float64(sum[1])
}

// BenchmarkHeavySheetOverLight guards against figures and tables whose cost
// grows faster than what they show.
func BenchmarkHeavySheetOverLight(b *testing.B) {
	ratio := 0.0
	for b.Loop() {
		ratio = heavyOverLight(b, 40)
	}
	b.ReportMetric(ratio, "of-light")
	if ratio > mostOfLight {
		b.Errorf("a sheet with everything takes %.1f times a light one, at most %.1f is wanted", ratio, mostOfLight)
	}
}

// The same, with room for a machine that has much else to do.
func TestHeavySheetOverLight(t *testing.T) {
	if testing.Short() {
		t.Skip("draws two sheets over and over, to measure them")
	}
	const room = 1.4
	if ratio := heavyOverLight(t, 25); ratio > room*mostOfLight {
		t.Errorf("a sheet with everything takes %.1f times a light one", ratio)
	}
}

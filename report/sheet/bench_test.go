package sheet_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"gaugesheet/diag/engine"
	"gaugesheet/layout"
	"gaugesheet/layout/face"
	"gaugesheet/layout/record"
	"gaugesheet/report/job"
	"gaugesheet/report/sheet"
)

// benchJob is a job without readings: any engine that the program knows, with
// what tells its bench sheet apart from those of others.
func benchJob(r *rand.Rand) string {
	known := engine.Known()
	preset := known[r.IntN(len(known)-1)] // all but the custom one, which needs its places
	pick := func(some ...string) string { return some[r.IntN(len(some))] }
	var b strings.Builder
	fmt.Fprintf(&b, "engine:\n  layout: %s\n", preset.Spec.Layout)
	if preset.Spec.Numbering != "" && r.IntN(2) == 0 {
		fmt.Fprintf(&b, "  numbering: %s\n  first-bank: %s\n", preset.Spec.Numbering, pick("left", "right"))
	}
	b.WriteString(pick("", "  fuel: petrol\n", "  fuel: diesel\n", "  fuel: lpg\n", "  fuel: two-stroke mix\n"))
	if !strings.HasPrefix(preset.Spec.Layout, "rotary") {
		b.WriteString(pick("", "", "  cycle: two-stroke\n"))
	}
	b.WriteString(pick("", "  cooling: air\n", "  cooling: liquid\n") + pick("", "  displacement: 3.2 L\n", "  displacement: 98 ml\n") + pick("", "", "  hybrid: yes\n"))
	if !strings.Contains(b.String(), "diesel") {
		b.WriteString(pick("", "fuel-pressure: {system: carburettor}\n", "fuel-pressure: {system: 'port, no return'}\n"))
	}
	return b.String()
}

// bare leaves out what a text of a page has only for the page.
func bare(text string) string { return strings.ReplaceAll(text, "\u00a0", " ") }

// A penSpy notes the boxes of a sheet, but for what draws the engine.
type penSpy struct {
	*record.Recorder
	boxes []layout.Rect
	steps []layout.Rect // those of the lettered steps
	block string
}

func (s *penSpy) Block(name string, area layout.Rect, draw func()) {
	s.block = name
	s.Recorder.Block(name, area, draw)
	s.block = ""
}

func (s *penSpy) Stroke(p layout.Path, pen layout.Pen) {
	if s.block != "engine" && len(p) == 5 && p[4].Op == layout.Close {
		s.boxes = append(s.boxes, p.Bounds())
		if s.block == "bench-steps" && p.Bounds().H > 5*layout.MM {
			s.steps = append(s.steps, p.Bounds())
		}
	}
	s.Recorder.Stroke(p, pen)
}

// benchSheet draws the bench sheet of a job file.
func benchSheet(t *testing.T, text, paper string) (*penSpy, *job.Job) {
	t.Helper()
	j, problems := job.ReadForBlank("bench.yaml", []byte(text), nil)
	if len(problems) > 0 {
		t.Fatalf("%v\n%s", problems, text)
	}
	s, err := sheet.Blank(j.Test().Engine, j, sheet.Options{Paper: paper, Version: "test"})
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	spy := &penSpy{Recorder: record.New(face.Metrics())}
	s.Draw(spy)
	return spy, j
}

// Every engine has a bench sheet on every paper, whose boxes are large enough
// for a pen, and which asks for no reading twice in a step.
func TestBenchSheets(t *testing.T) {
	for seed := range many(120) {
		t.Run(fmt.Sprint(seed), func(t *testing.T) {
			t.Parallel()
			r := rand.New(rand.NewPCG(seed, 21))
			text, paper := benchJob(r), []string{"letter", "a4", "legal"}[seed%3]
			spy, _ := benchSheet(t, text, paper)
			checkPage(t, spy.Recorder, "blank", paper)
			checkPenBoxes(t, spy)
			checkLabels(t, spy)
			if t.Failed() {
				t.Log(text)
			}
		})
	}
}

// checkPenBoxes fails where a box to write in is lower than 7 mm, or one to
// tick smaller than 3.5 mm.
func checkPenBoxes(t *testing.T, spy *penSpy) {
	t.Helper()
	const least, tick = 7 * layout.MM, 3.5 * layout.MM
	ticks := 0
	for _, b := range spy.boxes {
		switch {
		case b.W < 5*layout.MM && b.H < 5*layout.MM:
			ticks++
			if b.W < tick-0.01 || b.H < tick-0.01 {
				t.Errorf("a box to tick of %.1f x %.1f mm", b.W.MM(), b.H.MM())
			}
		case b.H < least-0.01 || b.W < least-0.01:
			t.Errorf("a box of %.1f x %.1f mm", b.W.MM(), b.H.MM())
		}
	}
	if ticks < 15 {
		t.Errorf("%d boxes to tick", ticks)
	}
}

// checkLabels fails where one row of boxes has a label twice, or a step of the
// table a column twice: each reading has one home.
func checkLabels(t *testing.T, spy *penSpy) {
	t.Helper()
	rows := map[string][]string{}
	for _, text := range spy.Texts() {
		if text.Face.Size > 7.6 || text.Face.Weight == layout.Bold {
			continue
		}
		row := fmt.Sprintf("%s at %.0f", text.Block, text.Rect.Y)
		if said := bare(text.String); slices.Contains(rows[row], said) && len([]rune(said)) > 3 { // units may come twice
			t.Errorf("%q stands twice in a row of %s", said, row)
		} else {
			rows[row] = append(rows[row], said)
		}
	}
	if len(rows) < 10 {
		t.Errorf("%d rows of labels", len(rows))
	}
}

// Every step keeps to one line of boxes, on every paper: one that breaks leaves
// a box alone across the page.
func TestBenchStepsKeepToOneLine(t *testing.T) {
	if testing.Short() {
		t.Skip("takes seconds")
	}
	for _, preset := range engine.Known() {
		for _, fuel := range []string{"petrol", "diesel", "two-stroke mix"} {
			text := fmt.Sprintf("engine: {layout: %s, fuel: %s}", preset.Spec.Layout, fuel)
			if preset.Spec.Layout == engine.Custom.String() {
				text = fmt.Sprintf("engine: {layout: custom, fuel: %s, cylinders: [{name: 1, x: 0, y: 0, head: 1}, {name: 2, x: 1, y: 1, head: 1}]}", fuel)
			}
			for _, paper := range []string{"letter", "a4"} {
				spy, _ := benchSheet(t, text, paper)
				lines := map[string]bool{}
				for _, b := range spy.steps {
					lines[fmt.Sprintf("%.0f", b.Y)] = true
				}
				letters := 0
				for _, said := range spy.Texts() {
					if strings.HasSuffix(said.Block, "bench-steps") && len(said.String) == 1 && said.Face.Weight == layout.Bold {
						letters++
					}
				}
				if joined := len(spy.Find("Oil, last")); letters < 8 || len(lines) != letters-joined {
					t.Errorf("%s on %s: %d steps in %d lines", text, paper, letters-joined, len(lines))
				}
			}
		}
	}
}

// The sheet fits its engine.
func TestBenchSheetsFitTheirEngine(t *testing.T) {
	oil := []string{"wet", "oil, each", "Oil, last", "oil comes last"}
	tests := []struct {
		name, job string
		has, not  []string
	}{
		{"petrol", "engine: {layout: V8, fuel: petrol}", append([]string{"plug looks", "balance", "gap", "bank by bank", "Trims"}, oil...), []string{"glow Ω", "diesel", "face A"}},
		{"fuel not known", "engine: {layout: inline-4}", append([]string{"diesel", "Never oil into a diesel."}, oil...), nil},
		{"dose", "engine: {layout: inline-4, fuel: petrol, displacement: 2 L}", []string{"5 ml into each"}, nil},
		{"diesel", "engine: {layout: inline-6, fuel: diesel}", []string{"glow Ω", "return", "Never oil into a diesel.", "scan tool only"}, append([]string{"plug looks", "gap", "throttle", "Vacuum", "dwell"}, oil...)},
		{"two-stroke", "engine: {layout: inline-2, cycle: two-stroke, fuel: two-stroke mix}", []string{"ports closed"}, append([]string{"Oil pressure", "Vacuum", "ventilation", "Trims"}, oil...)},
		{"rotary", "engine: {layout: rotary-2, fuel: petrol}", []string{"face A", "face B", "face C", "leading plug", "trailing plug"}, append([]string{"dry 1", "lost %"}, oil...)},
		{"flat", "engine: {layout: flat-4, fuel: petrol, cooling: liquid}", []string{"coolant"}, oil},
		{"small", "engine: {layout: single, fuel: petrol, displacement: 98 ml}", []string{"1st stroke"}, append([]string{"balance", "Balance", "firing order", "one at a time", "apart, at most"}, oil...)},
		{"air-cooled", "engine: {layout: V2, cooling: air, fuel: petrol}", []string{"number 1 is on the"}, []string{"coolant", "Cooling", "gas test"}},
		{"cylinders with names", "engine: {layout: V2, banks: {left: [left], right: [right]}, fuel: petrol}", []string{"left", "right"}, []string{"number 1 is on the"}},
		{"carburettor", "engine: {layout: inline-6, fuel: petrol}\nfuel-pressure: {system: carburettor}", []string{"dwell", "volume"}, []string{"Trims", "hose", "10 min", "idle control"}},
		{"hybrid", "engine: {layout: inline-4, fuel: petrol, hybrid: yes}", []string{"Hybrid"}, nil},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			for _, paper := range []string{"letter", "a4"} {
				spy, _ := benchSheet(t, tt.job, paper)
				page := bare(pageText(spy.Recorder))
				for _, want := range tt.has {
					if !strings.Contains(page, want) {
						t.Errorf("%s: no %q", paper, want)
					}
				}
				for _, unwanted := range tt.not {
					if strings.Contains(page, unwanted) {
						t.Errorf("%s: it has %q", paper, unwanted)
					}
				}
			}
		})
	}
}

// A diesel is never asked for oil in a cylinder, whatever else it is.
func TestNoOilIntoADiesel(t *testing.T) {
	for seed := range many(200) {
		text := benchJob(rand.New(rand.NewPCG(seed, 22)))
		if !strings.Contains(text, "fuel: diesel") {
			continue
		}
		spy, _ := benchSheet(t, text, "a4")
		for _, unwanted := range []string{"wet", "oil, each", "Oil, last", "oil comes last", "1 ml per"} {
			if len(spy.Find(unwanted)) > 0 {
				t.Errorf("%q on the sheet of\n%s", unwanted, text)
			}
		}
	}
}

// What the job knows is filled in, and no reading of it.
func TestBenchSheetKnowsItsJob(t *testing.T) {
	spy, _ := benchSheet(t, `
job: {number: W-2041, date: 2026-05-14, technician: A. Lindqvist, reason: rough idle, complaints: [misfire]}
customer: {name: Harbour Trust, phone: 555-0142}
vehicle: {description: 1998 workboat, vin: HM4120W0P31207, plate: HM 20 418, odometer: {reading: 3120 h}}
engine: {layout: V6, fuel: petrol, displacement: 2.9 L, numbering: across banks, first-bank: left, firing-order: 1-6-5-4-3-2}
compression: {unit: psi, dry: {1: 151, 2: 157}, limits: {minimum: 128 psi, source: handbook}}
`, "letter")
	page := bare(pageText(spy.Recorder))
	for _, want := range []string{"W-2041", "14 May 2026", "Lindqvist", "rough idle", "misfire", "Harbour Trust", "555-0142", "workboat", "HM4120W0P31207", "HM 20 418", "3120 h", "2.9 L", "1-6-5-4-3-2", "128 psi", "handbook", "gasoline"} {
		if !strings.Contains(page, want) {
			t.Errorf("no %q", want)
		}
	}
	for _, reading := range []string{"151", "157"} {
		if strings.Contains(page, reading) {
			t.Errorf("the reading %s is on an empty sheet", reading)
		}
	}
}

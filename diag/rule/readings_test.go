package rule

import (
	"slices"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
	"gaugesheet/diag/rule/sample"
)

// TestReadings runs whole sets of readings as mechanics get them: which rule
// sees them, on which cylinders, and what it puts first. Common practice, no
// source, unless a line says otherwise.
func TestReadings(t *testing.T) {
	bankByBank := engine.Spec{Layout: "V8", Numbering: engine.BankByBank, FirstBank: "left"}
	about := func(names ...string) sample.Change {
		return func(t *diag.Test) {
			for _, n := range names {
				r := t.Compression.Dry[n]
				r.Kind = diag.Estimate
				t.Compression.Dry[n] = r
			}
		}
	}
	twin := engine.Spec{Layout: "V2", Banks: []engine.BankSpec{{Name: "left", Cylinders: []string{"left"}}, {Name: "right", Cylinders: []string{"right"}}}}
	tests := []struct {
		name      string
		test      *diag.Test
		rule      string
		cylinders []string
		cause     string   // likeliest
		among     []string // causes that must be shown
		never     []string // causes that must not
		next      string
	}{
		{name: "1 and 3 of a V8 numbered across share a gasket",
			test: sample.Dry("V8", []float64{25, 120, 25, 120, 120, 120, 120, 120}, about("2", "4", "5", "6", "7", "8")),
			rule: "neighbours-low", cylinders: []string{"1", "3"}, among: []string{"head-gasket", "warped-or-cracked-head", "fault-in-each"}, next: "leak-down-pair"},
		{name: "two neighbours near nothing after a sudden loss",
			test: sample.Dry("inline-4", []float64{15, 15, 175, 180}),
			rule: "neighbours-without-pressure", cylinders: []string{"1", "2"}, cause: "head-gasket"},
		{name: "zero on two neighbours: repeated once first",
			test: sample.Dry("inline-4", []float64{0, 0, 120, 120}),
			rule: "neighbours-without-pressure", cylinders: []string{"1", "2"}, among: []string{"warped-or-cracked-head"}, next: "repeat-method"},
		{name: "middle pair low, no better with oil",
			test: sample.Dry("inline-4", []float64{107, 60, 80, 105}, func(t *diag.Test) { t.Compression.WetInWords = "slightly better" }),
			rule: "neighbours-low", cylinders: []string{"2", "3"}, cause: "head-gasket", among: []string{"fault-in-each"}, next: "leak-down-pair"},
		{name: "two dead neighbours after four years of standing, one bank read",
			test: sample.DryOf(bankByBank, []float64{100, 0, 0, 170}, sample.Stood(48)),
			rule: "neighbours-low", cylinders: []string{"1", "2", "3"}, cause: "stuck-valve", among: []string{"head-gasket"}},
		{name: "neighbours leaking at different places have a fault each",
			test: sample.Dry("inline-6", []float64{150, 151, 100, 105, 150, 149}, sample.Leak("3", 20, "coolant"), sample.Leak("4", 24, "inlet")),
			rule: "neighbours-low", cylinders: []string{"3", "4"}, among: []string{"fault-in-each"}},
		{name: "scoring seen in a low cylinder",
			test: sample.Dry("inline-4", []float64{160, 160, 160, 100}, sample.Seen("4", "scoring on the thrust side")),
			rule: "one-low", cylinders: []string{"4"}, cause: "scored-bore"},
		{name: "a partial rise does not put the rings first",
			test: sample.Dry("inline-4", []float64{150, 151, 65, 149}, sample.Wet(map[string]float64{"3": 90})),
			rule: "one-low", cylinders: []string{"3"}, cause: "exhaust-valve", next: "leak-down"},
		{name: "down to 80 % of the others: a wet test first",
			test: sample.Dry("inline-4", []float64{150, 120, 150, 150}),
			rule: "one-low", cylinders: []string{"2"}, next: "wet-test"},
		{name: "a dead cylinder's plug colour does not lead",
			test: sample.Dry("inline-4", []float64{150, 150, 35, 150}, sample.Plug("oil-wet", "3")),
			rule: "one-low", cylinders: []string{"3"}, cause: "exhaust-valve"},
		{name: "air at the exhaust closes the matter",
			test: sample.Dry("inline-4", []float64{120, 120, 120, 30}, sample.Leak("4", 80, "exhaust")),
			rule: "exhaust-valve-agrees", cylinders: []string{"4"}, cause: "exhaust-valve", next: "valve-lash"},
		{name: "almost nothing in one: the valve gear first",
			test: sample.Dry("inline-4", []float64{150, 150, 2, 150}, about("1", "2", "4")),
			rule: "one-without-pressure", cylinders: []string{"3"}, among: []string{"valve-motion"}, next: "watch-valve-gear"},
		{name: "destroyed plug, zero dry and wet",
			test: sample.Dry("inline-4", []float64{145, 140, 150, 0}, sample.Wet(map[string]float64{"4": 0}), sample.Plug("damaged", "4")),
			rule: "one-without-pressure", cylinders: []string{"4"}, cause: "holed-piston", next: "borescope"},
		{name: "coolant is lost: one low does not clear the gasket",
			test: sample.Dry("inline-4", []float64{80, 200, 203, 198}, func(t *diag.Test) { t.History.Complaints = []string{"coolant loss"} }),
			rule: "one-low", cylinders: []string{"1"}, among: []string{"head-gasket"}},
		{name: "low by 11 %: just under even, and no more",
			test: sample.Dry("inline-4", []float64{111, 125, 125, 120}, sample.SpreadOfHighest(15)),
			rule: "a-little-low", cylinders: []string{"1"}},
		{name: "two cylinders named by side",
			test: sample.DryOf(twin, []float64{0, 180}),
			rule: "one-without-pressure", cylinders: []string{"left"}},
		{name: "a two-stroke has no valves to blame",
			test: sample.Dry("V4", []float64{50, 90, 89, 89}, sample.TwoStroke),
			rule: "one-low", cylinders: []string{"1"}, never: []string{"exhaust-valve", "inlet-valve", "valve-lash"}},
		{name: "two low ones of a V8 in separate places: no gasket",
			test: sample.Dry("V8", []float64{160, 100, 150, 155, 168, 130, 152, 155}, sample.Wet(map[string]float64{"2": 101, "6": 131}), sample.Leak("2", 30, "inlet")),
			rule: "scattered-low", cylinders: []string{"2"}, never: []string{"head-gasket"}},
		{name: "all zero on a flooded engine: dry it and test again",
			test: sample.Dry("inline-5", []float64{0, 0, 0, 0, 0}, sample.Plug("fuel-wet", "1", "2", "3", "4", "5")),
			rule: "none-anywhere", cylinders: []string{"1", "2", "3", "4", "5"}, cause: "washed-bore", next: "dry-and-repeat"},
		{name: "neighbours low that come up with oil: rings before the gasket",
			test: sample.Dry("inline-6", []float64{125, 110, 155, 155, 148, 152}, func(t *diag.Test) { t.Compression.WetInWords = "came up significantly" }),
			rule: "neighbours-low", cylinders: []string{"1", "2"}, cause: "rings", among: []string{"head-gasket"}},
		{name: "two low after standing: run and test again before stripping",
			test: sample.Dry("inline-4", []float64{145, 95, 146, 96}, sample.Stood(36)),
			rule: "scattered-low", cylinders: []string{"2", "4"}, cause: "stuck-valve", next: "run-and-retest"},
		{name: "all equally low with new rings: timing or gauge, not wear",
			test: sample.Dry("inline-4", []float64{88, 86, 90, 85}, sample.Minimum(130), func(t *diag.Test) { t.History.WorkDone = []string{"new rings and sleeves"} }),
			rule: "all-low", cylinders: []string{"1", "2", "3", "4"}, cause: "cam-timing", never: []string{"wear"}},
		{name: "a dead diesel cylinder: the valve setting before anything else",
			test: sample.Dry("inline-4", []float64{348, 348, 348, 4}, sample.Diesel),
			rule: "one-without-pressure", cylinders: []string{"4"}, cause: "valve-lash", next: "valve-lash"},
		{name: "no wet test for a diesel",
			test: sample.Dry("inline-4", []float64{400, 402, 300, 398}, sample.Diesel),
			rule: "one-low", cylinders: []string{"3"}, next: "valve-lash"},
		{name: "a bank low points to what the bank shares",
			test: sample.Dry("V8", []float64{150, 120, 152, 118, 149, 121, 151, 119}),
			rule: "bank-low", cylinders: []string{"2", "4", "6", "8"}, cause: "cam-timing", next: "cam-timing-marks"},
		{name: "a single that holds nothing: watch both valves",
			test: sample.Dry("single", []float64{8}),
			rule: "one-without-pressure", cylinders: []string{"1"}, cause: "stuck-valve", next: "watch-valve-gear"},
		{name: "tight but low: something moves wrongly",
			test: sample.Dry("inline-4", []float64{150, 150, 100, 150}, sample.Leak("3", 5)),
			rule: "low-but-tight", cylinders: []string{"3"}, cause: "valve-motion"},
		// US Army TM 5-3895-359-14&P, table 1-2: 445, 440, 405, 435 psi are above the
		// minimum, and cylinder 3 must be examined for the limit of 25 psi.
		{name: "examined for a limit of 25 psi",
			test: sample.Dry("inline-4", []float64{445, 440, 405, 435}, sample.Diesel, sample.Limit(diag.Limit{Kind: diag.Difference, Value: 25, Unit: "psi"})),
			rule: "outside-limit", cylinders: []string{"3"}},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			f := the(t, Diagnose(test.test), test.rule)
			causes := keys(f.Causes)
			for _, name := range test.cylinders {
				if !slices.Contains(f.Cylinders, name) {
					t.Errorf("cylinders %v, want %v", f.Cylinders, test.cylinders)
				}
			}
			if test.cause != "" && (len(causes) == 0 || causes[0] != test.cause) {
				t.Errorf("causes %v, want %s first", causes, test.cause)
			}
			for _, c := range test.among {
				if !slices.Contains(causes, c) {
					t.Errorf("causes %v lack %s", causes, c)
				}
			}
			for _, c := range test.never {
				if slices.Contains(causes, c) {
					t.Errorf("causes %v name %s", causes, c)
				}
			}
			if test.next != "" && (f.Next == nil || f.Next.Key != test.next) {
				t.Errorf("next %+v, want %s", f.Next, test.next)
			}
			if len(causes) > shownCauses {
				t.Errorf("%d causes, at most %d are shown", len(causes), shownCauses)
			}
		})
	}
}

package sheet_test

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
	"gaugesheet/layout"
	"gaugesheet/layout/face"
	"gaugesheet/layout/record"
	"gaugesheet/report/job"
	"gaugesheet/report/sheet"
)

// rulerOnly is a sheet of nothing but a block.
func rulerOnly(audience, block string) []byte {
	return []byte("sheet: " + audience + "\naudience: " + audience + "\ntitle: sheet.customer\nrows:\n  - [" + block + "]\n" +
		"type: {display: 21, title: 13, heading: 11, strong: 9, body: 9, label: 8, note: 7.5, smallest: 7.5}\n")
}

// blockTexts are the texts of a block that has a page for itself.
func blockTexts(t *testing.T, j *job.Job, audience, block string) []record.Text {
	t.Helper()
	s, err := sheet.New(j, diagnosed(j), sheet.Options{Template: rulerOnly(audience, block), TemplateName: block, Version: "test"})
	if err != nil {
		t.Fatal(err)
	}
	rec := record.New(face.Metrics())
	s.Draw(rec)
	texts := rec.Texts()
	for i := range texts {
		texts[i].String = strings.ReplaceAll(texts[i].String, "\u00a0", " ")
	}
	return texts
}

func strung(texts []record.Text) string {
	var all []string
	for _, text := range texts {
		all = append(all, text.String)
	}
	return strings.Join(all, "|")
}

func TestRulerSays(t *testing.T) {
	engine := "engine: {layout: inline-4, fuel: petrol}\n"
	for _, test := range []struct {
		name, data string
		says       []string
		not        []string
	}{
		{"two low", engine + "compression: {unit: psi, dry: {1: 150, 2: 148, 3: 96, 4: 91}}",
			[]string{"below the best (cylinder 1, 150 psi)", "1 and 2: 0, 1 %", "36 %", "39 %", "even", "watch", "low"}, nil},
		{"a limit as strict as the grades", engine + "compression: {unit: psi, dry: {1: 150, 2: 148, 3: 147, 4: 146}, limits: {difference: 21 psi}}",
			[]string{"all four: 0 to 3 %", "limit 21 psi, 14 %", "within the limit"}, []string{"watch", "even"}},
		{"a wider limit", engine + "compression: {unit: psi, dry: {1: 150, 2: 148, 3: 147, 4: 146}, limits: {lowest: 75 % of highest}}",
			[]string{"limit 25 %", "even", "watch"}, []string{"within the limit"}},
		{"a minimum on the ruler", engine + "compression: {unit: psi, dry: {1: 150, 2: 148, 3: 100, 4: 146}, limits: {minimum: 120 psi}}",
			[]string{"minimum 120 psi", "33 %"}, nil},
		{"a minimum far off", engine + "compression: {unit: psi, dry: {1: 150, 2: 148, 3: 149, 4: 146}, limits: {minimum: 80 psi}}",
			[]string{"even"}, []string{"minimum"}},
		{"one above the others", engine + "compression: {unit: psi, dry: {1: 150, 2: 148, 3: 196, 4: 149}}",
			[]string{"below the best of the others (cylinder 1, 150 psi)", "31 % above", "above the others"}, nil},
		{"a bound under the best", engine + "compression: {unit: psi, dry: {1: 150, 2: over 140, 3: 149, 4: 148}}",
			[]string{"all four: 0 to 7 %"}, nil},
		{"a bound as the best", engine + "compression: {unit: psi, dry: {1: 150, 2: over 300, 3: 149, 4: 148}}",
			[]string{"(cylinder 2, over 300 psi)", "1, 3 and 4: at least 50 to 51 %"}, nil},
		{"some without a reading", engine + "compression: {unit: psi, dry: {1: 150, 2: 148, 3: could not test (plug seized), 4: declined}}",
			[]string{"could not test (plug seized)", "declined", "two: 0 to 1 %"}, nil},
		{"repeats that disagree", engine + "compression: {unit: psi, dry: {1: 150, 2: 148, 3: [90, 150], 4: 149}}",
			[]string{"90/150, not averaged", "three: 0 to 1 %"}, nil},
		{"compared with nothing", engine + "conditions: {throttle: closed}\ncompression: {unit: psi, dry: {1: 80, 2: 148, 3: 100, 4: 90}}",
			[]string{"best"}, []string{"even", "low"}},
		{"air lost alone", engine + "leakage: {limit: 20 %, dry: {1: {loss: 5 %}, 2: {loss: 38 %}, 3: {loss: 7 %}, 4: {loss: 9 %}}}",
			[]string{"5 to 9 %", "38 %", "limit 20 %", "within the limit"}, []string{"best"}},
		{"more air lost than the tester shows", engine + "leakage: {dry: {1: {loss: 5 %}, 2: {loss: over 80 %}, 3: {loss: 7 %}, 4: {loss: 9 %}}}",
			[]string{"80 % or more", "5 to 9 %"}, nil},
		{"all alike", engine + "compression: {unit: psi, dry: {1: 150, 2: 150, 3: 150, 4: 150}}", []string{"each reads 150 psi"}, nil},
		{"faces with a limit between them", "engine: {layout: rotary-2}\nrotors: {unit: bar, faces: {front: [7.4, 7.2, 7.3], rear: [7.3, 5.4, 5.2]}, limits: {between-faces: 1.5 bar}}",
			[]string{"front A", "rear C", "bar below the best face of its rotor", "1.9 to 2.1 bar", "0.0 to 0.2 bar", "limit: 1.5 bar"}, nil},
		{"faces without one", "engine: {layout: rotary-2}\nrotors: {unit: bar, faces: {front: [7.4, 7.2, 7.3], rear: [7.3, 5.4, 5.2]}}",
			[]string{"below the best face of its rotor", "26 to 29 %"}, nil},
	} {
		t.Run(test.name, func(t *testing.T) {
			said := strung(blockTexts(t, readJob(t, "job.yaml", []byte(test.data+"\n")), "customer", "spread"))
			for _, want := range test.says {
				if !strings.Contains(said, want) {
					t.Errorf("%q is not said: %s", want, said)
				}
			}
			for _, not := range test.not {
				if slices.Contains(strings.Split(said, "|"), not) || strings.Contains(not, " ") && strings.Contains(said, not) || not == "minimum" && strings.Contains(said, not) {
					t.Errorf("%q is said: %s", not, said)
				}
			}
		})
	}
}

// Where there are not two readings to compare there is no ruler.
func TestNoRuler(t *testing.T) {
	for name, data := range map[string]string{
		"one cylinder":        "engine: {layout: single}\ncompression: {unit: psi, dry: {1: 120}}\n",
		"a lone reading":      "engine: {layout: inline-4}\ncompression: {unit: psi, dry: {1: 120, 2: not tested}}\n",
		"no pressure at all":  "engine: {layout: inline-2}\ncompression: {unit: psi, dry: {1: 0, 2: 0}}\n",
		"next to no pressure": "engine: {layout: inline-2}\ncompression: {unit: psi, dry: {1: 4, 2: 5}}\n",
		"only bounds":         "engine: {layout: single}\ncompression: {unit: psi, dry: {1: over 300}}\n",
	} {
		if said := blockTexts(t, readJob(t, name+".yaml", []byte(data)), "customer", "spread"); len(said) > 0 {
			t.Errorf("%s: %s", name, strung(said))
		}
	}
}

var percentages = regexp.MustCompile(`([0-9.]+)(?: to|,)? ?(?:([0-9.]+) )?%`)

// Every percentage that the ruler gives of a cylinder follows by plain
// arithmetic from readings as they are printed: so far below the best.
func TestRulerFollowsFromWhatIsPrinted(t *testing.T) {
	for seed := range many(150) {
		j := readJob(t, "random.yaml", []byte(randomJob(seed)))
		d := diagnosed(j)
		for audience, decimals := range map[string]int{"customer": 0, "workshop": 1} {
			follows := belowThePrinted(d.Compression, decimals)
			if follows == nil {
				continue
			}
			for _, text := range blockTexts(t, j, audience, "spread") {
				if text.Face.Weight != 1 || text.Color != (layout.Color{}) || strings.HasPrefix(text.String, "limit ") || strings.HasPrefix(text.String, "minimum ") {
					continue // the axis, what stands in tabs, and the limits, which are as given
				}
				for _, found := range percentages.FindAllStringSubmatch(text.String, -1) {
					for _, number := range found[1:] {
						if number != "" && !follows[number] {
							t.Errorf("seed %d, %s: %q: %s follows from no reading: %v", seed, audience, text.String, number, follows)
						}
					}
				}
			}
		}
	}
}

// belowThePrinted are the percentages below the best that readings come to, as
// printed with so many decimals; nil where readings are not exact.
func belowThePrinted(c *diag.CompressionResult, decimals int) map[string]bool {
	if c == nil || c.HighestBound > 0 || c.Reference == 0 {
		return nil
	}
	printed := func(v float64) float64 {
		p, _ := strconv.ParseFloat(quantity.Format(v, quantity.DecimalsRead(v, c.Decimals)), 64)
		return p
	}
	follows := map[string]bool{}
	for _, r := range c.Cylinders {
		if r.Dry != nil {
			below := 100 * math.Abs(printed(c.Reference)-printed(*r.Dry)) / printed(c.Reference)
			follows[quantity.Format(below, decimals)] = true
		}
	}
	return follows
}

func TestFuelSays(t *testing.T) {
	for _, test := range []struct {
		name, data string
		says       []string
	}{
		{"as entered", "key-on: 38-42, idle: over 20, hose-off: about 39, snap: [39, 40]",
			[]string{"38–42", "over 20", "about 39", "39, 40"}},
		{"in a unit of its own", "key-on: 2.8 bar, idle: 33", []string{"2.8 bar", "33"}},
		{"one scale", "circuits: {front: {key-on: 8, limits: {key-on: 12-15 psi}}, rear: {key-on: 40}}", []string{"front", "rear", "12–15", "8", "40"}},
		{"held", "key-on: 41, hold: {1 min: 38, 5 min: 36, 10 min: 21}, limits: {hold: at least 30 psi after 5 min}",
			[]string{"after 1 min", "after 5 min", "after 10 min", "at least 30"}},
		{"held at another time", "key-on: 41, hold: {3 min: 33}, limits: {hold: at least 30 psi after 5 min}", []string{"after 3 min", "at least 30 at 5 min"}},
		{"volume", "key-on: 41, volume: 250 ml in 30 s, limits: {volume: at least 500 ml in 30 s}", []string{"pump volume 250 ml in 30 s; allowed at least 500 ml in 30 s"}},
	} {
		j := readJob(t, "job.yaml", fmt.Appendf(nil, "engine: {layout: inline-4}\nfuel-pressure: {unit: psi, system: 'port, return line', %s}\n", test.data))
		said := strung(blockTexts(t, j, "customer", "fuel"))
		for _, want := range test.says {
			if !strings.Contains("|"+said+"|", want) {
				t.Errorf("%s: %q is not said: %s", test.name, want, said)
			}
		}
	}
}

// A limit that is corrected for altitude is printed rounded, and its percentage
// follows from that: 23 of 154 is 14.9 %, though the limit itself makes 15.1.
func TestLimitOnTheRulerFollowsFromWhatIsPrinted(t *testing.T) {
	data, err := os.ReadFile(filepath.Join(examplesDir, "v12-everything.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	said := strung(blockTexts(t, readJob(t, "v12-everything.yaml", data), "workshop", "spread"))
	if !strings.Contains(said, "limit 23 psi, 14.9 %") {
		t.Errorf("the limit is not said: %s", said)
	}
}

// Of an engine without any pressure no sum says a percentage of nothing.
func TestSumsOfNothing(t *testing.T) {
	j := readJob(t, "job.yaml", []byte("engine: {layout: inline-4}\ncompression: {unit: psi, dry: [0, 0, 0, 0]}\n"))
	for kind := range smallestType {
		for _, text := range drawn(t, j, kind, "letter").Texts() {
			if strings.Contains(text.String, "NaN") || strings.Contains(text.String, "Inf") {
				t.Errorf("%s says %q", kind, text.String)
			}
		}
	}
}

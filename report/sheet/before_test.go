package sheet_test

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"gopkg.in/yaml.v3"

	"gaugesheet/layout/face"
	"gaugesheet/layout/record"
	"gaugesheet/report/job"
	"gaugesheet/report/sheet"
)

// notBefore are keys of a job whose values are none that was read before the work.
var notBefore = []string{"limits", "limit", "unit", "source", "order", "oil", "fitted", "photo", "bench", "rated", "grade", "gauge", "supply", "orifice"}

// noTest are the keys of a job that are no test, or none that may stand before the work.
var noTest = strings.Fields("format sheet paper language job shop customer seller independence vehicle engine conditions gauges other-readings before " +
	"smoke borescope photos findings recommended declined not-tested notes earlier")

// Every figure that was read before the work stands on the workshop sheet: another one
// is another page. Each job is set beside itself: what it reads was so before, too.
func TestWhatWasReadBeforeShows(t *testing.T) {
	for _, name := range []string{"full", "further-tests", "diesel", "rotary"} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			folder := filepath.Join("..", "job", "testdata", "ok")
			text, err := os.ReadFile(filepath.Join(folder, name+".yaml"))
			if err != nil {
				t.Fatal(err)
			}
			root, figures := withItselfBefore(t, text)
			whole := workshopPage(t, folder, root)
			if whole == "" {
				t.Fatal("is no job with itself before")
			}
			if len(figures) < 4 {
				t.Fatalf("%d figures before", len(figures))
			}
			if testing.Short() { // every fifth of them
				figures = slices.DeleteFunc(figures, func(n *yaml.Node) bool { return n.Line%5 != len(name)%5 })
			}
			tried := 0
			for _, n := range figures {
				was := n.Value
				n.Value = digits.ReplaceAllStringFunc(was, anotherFigure)
				if page := workshopPage(t, folder, root); page != "" {
					if tried++; page == whole {
						t.Errorf("line %d: before: %q shows nowhere", n.Line, was)
					}
				}
				n.Value = was
			}
			if 2*tried < len(figures) {
				t.Errorf("only %d of %d figures could be another", tried, len(figures))
			}
		})
	}
}

var digits = regexp.MustCompile(`^\d+(\.\d+)?`)

// anotherFigure is a figure a little further on.
func anotherFigure(s string) string {
	last := s[len(s)-1]
	return s[:len(s)-1] + strconv.Itoa(int(last-'0'+1)%10)
}

// withItselfBefore is a job whose readings were so before the work too, and the figures
// of those.
func withItselfBefore(t *testing.T, text []byte) (root *yaml.Node, figures []*yaml.Node) {
	t.Helper()
	now, then := treeOf(t, text), treeOf(t, text)
	before := &yaml.Node{Kind: yaml.MappingNode, Tag: "!!map"}
	top := now.Content[0]
	for i := 0; i+1 < len(then.Content[0].Content); i += 2 {
		key, value := then.Content[0].Content[i], then.Content[0].Content[i+1]
		if !slices.Contains(noTest, key.Value) {
			before.Content = append(before.Content, key, value)
			figures = figuresIn(figures, value)
		}
	}
	for i := 0; i+1 < len(top.Content); i += 2 {
		if top.Content[i].Value == "before" {
			top.Content = slices.Delete(top.Content, i, i+2)
			break
		}
	}
	top.Content = append(top.Content, &yaml.Node{Kind: yaml.ScalarNode, Value: "before", Tag: "!!str"}, before)
	return now, figures
}

func treeOf(t *testing.T, text []byte) *yaml.Node {
	t.Helper()
	var root yaml.Node
	if err := yaml.Unmarshal(text, &root); err != nil {
		t.Fatal(err)
	}
	return &root
}

func figuresIn(list []*yaml.Node, n *yaml.Node) []*yaml.Node {
	switch n.Kind {
	case yaml.ScalarNode:
		if digits.MatchString(n.Value) {
			list = append(list, n)
		}
	case yaml.SequenceNode:
		for _, one := range n.Content {
			list = figuresIn(list, one)
		}
	case yaml.MappingNode:
		for i := 0; i+1 < len(n.Content); i += 2 {
			if !slices.Contains(notBefore, n.Content[i].Value) {
				list = figuresIn(list, n.Content[i+1])
			}
		}
	}
	return list
}

// workshopPage is what a job's workshop sheet says, "" where it is no job.
func workshopPage(t *testing.T, folder string, root *yaml.Node) string {
	t.Helper()
	text, err := yaml.Marshal(root)
	if err != nil {
		t.Fatal(err)
	}
	j, problems := job.Reader{
		Open:     func(name string) ([]byte, error) { return os.ReadFile(filepath.Join(folder, name)) },
		HasGlyph: face.Metrics().Has,
	}.Read("job.yaml", text)
	if len(problems) > 0 {
		return ""
	}
	s, err := sheet.New(j, diagnosed(j), sheet.Options{Kind: "workshop", Paper: "legal", Version: "test"})
	if err != nil {
		t.Fatal(err)
	}
	rec := record.New(face.Metrics())
	s.Draw(rec)
	return pageText(rec)
}

// What came of the work stands on every sheet in words, also of what has no limit that
// it was past.
func TestWhatCameOfTheWorkShows(t *testing.T) {
	const text = `
job: {date: 2026-05-14}
engine: {layout: inline-4, fuel: petrol}
plugs: {looks: {1: normal, 2: normal, 3: normal, 4: sooty}}
fuel-pressure: {unit: psi, system: "port, return line", key-on: 41, idle: 33, hold: {5 min: 38}}
vacuum: {unit: inHg, idle: {reading: 19, at: 750 rpm, needle: steady}}
oil-pressure: {unit: psi, idle: 25}
before:
  done: regulator renewed
  date: 2026-05-02
  plugs: {looks: {1: sooty, 2: sooty, 3: sooty, 4: sooty}}
  fuel-pressure: {unit: psi, system: "port, return line", key-on: 41, idle: 40, hold: {5 min: 12}}
  vacuum: {unit: inHg, idle: {reading: 15, at: 750 rpm, needle: floats}}
  oil-pressure: {unit: psi, idle: 24}
`
	for _, kind := range []string{"customer", "invoice", "workshop", "pre-purchase"} {
		page := squeezed(pageText(drawn(t, readJob(t, "job", []byte(text)), kind, "letter")))
		for _, said := range []string{
			"regulator renewed", "all: sooty. Otherwise now: 1, 2 and 3; as before: 4.",
			"key on 41, idle 40, after 5 min 12. Higher now: held; lower: idle; as before: key on.",
			"Higher now: idle at 750 rpm; otherwise: needle at idle.", "hot idle 24 psi. As before.",
		} {
			if !strings.Contains(page, squeezed(said)) {
				t.Errorf("%s does not say %q", kind, said)
			}
		}
	}
}

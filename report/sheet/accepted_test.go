package sheet_test

import (
	"bytes"
	"fmt"
	"image"
	"image/jpeg"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"

	"gopkg.in/yaml.v3"

	"gaugesheet/diag"
	"gaugesheet/diag/story"
	"gaugesheet/layout/face"
	"gaugesheet/layout/record"
	"gaugesheet/report/job"
	"gaugesheet/report/sheet"
)

// saidParts are what is suspected and the four sheets.
var saidParts = []int{0, 1, 2, 3, 4}

// jobsOfEveryKey are jobs that between them have every key of a job file.
var jobsOfEveryKey = []string{"full", "facts", "further-tests", "more", "diesel", "rotary", "banks", "twin"}

// deciding are whole cases in which keys decide that change nothing in those jobs.
var deciding = []string{"bank-low-after-its-chain-was-renewed", "side-valves-at-eighty", "hybrid-even-but-uses-oil", "two-sooty-on-one-coil", "deactivated-set-dead",
	"fuel-in-the-oil-from-its-pump", "a-carburettor-for-each-of-two", "bar-written-as-psi-about-the-floor", "all-low-against-the-geometry", "a-camshaft-late-on-a-belt"}

// saidNowhere are keys that alone change neither a page nor what is suspected, and why.
var saidNowhere = map[string]string{
	"language": "the one that the paper has", "paper": "a page's own here", "sheet": "a page's own here",
	"engine.cycle": "four-stroke, as it is where nothing is said", "engine.bore": "stroke and displacement give it", "engine.stroke": "bore and displacement give it", "engine.decompressor": "none, on an engine of eight that nobody asks it of", "engine.variable-timing": "no, as it is where nothing is said", "engine.cylinders": "the names that they have anyway",
	"customer.address": whose, "customer.email": whose, "customer.phone": whose, "seller.address": whose, "seller.email": whose, "seller.phone": whose,
	"compression.limits.cranking":         "the speed that was read is the one asked for",
	"fuel-pressure.limits.return-pinched": unread, "fuel-pressure.limits.snap": unread,
	"plugs.looks.N.photo": "the photo says what it shows",
	"format":              "1, as it is where nothing is said", "diesel.glow.unit": "ohms, as it is where nothing is said", "diesel.return.unit": "that of the readings",
	"injectors.limits.spread": "these are so far apart that the usual limit says it too", "oil-pressure.limits.N rpm": unread,
	"engine.inverted": tried, "fuel-pressure.pump-heard": tried,
	"back-pressure.limits.from": level, "crankcase.limits.from": level, "diesel.limits.from": level, "exhaust-gas.limits.from": level, "injectors.limits.from": level,
	"oil-pressure.limits.from": level, "starting.limits.from": level, "timing.limits.from": level, "vacuum.limits.from": level, "valves.limits.from": level,
	"crankcase-hold.limits.from": level, "heads.limits.from": level, "magnetos.limits.from": level,
}

const (
	whose  = "a sheet is passed on: it names whom it is for, and the bench sheet has how to reach him"
	unread = "nothing was read that it is a limit of"
	level  = "sea level, as it is where nothing is said"
	tried  = "it decides in rules that none of these jobs meets, and is tried with them in diag/rule"
)

// Every fact that a job file accepts shows on some page, or in what is suspected and why:
// taken out of a job, something of these is another. A key that is read and then used for
// nothing is a fact that whoever wrote it believes to have told.
func TestEveryFactThatIsAcceptedShows(t *testing.T) {
	if testing.Short() {
		t.Skip("draws four sheets for each key of a job file")
	}
	shows, tried := map[string]bool{}, map[string]bool{}
	where := map[string]string{}
	for _, name := range jobsOfEveryKey {
		where[name] = filepath.Join("..", "job", "testdata", "ok")
	}
	for _, name := range deciding {
		where[name] = filepath.Join("..", "cases", "testdata")
	}
	for _, name := range slices.Concat(jobsOfEveryKey, deciding) {
		folder := where[name]
		text, err := os.ReadFile(filepath.Join(folder, name+".yaml"))
		if err != nil {
			t.Fatal(err)
		}
		text = plainly(t, text)
		whole := told(folder, text)
		if whole == nil {
			t.Errorf("%s: is no job by itself", name)
			continue
		}
		if again := told(folder, text); slices.ContainsFunc(saidParts, func(i int) bool { return again(i) != whole(i) }) {
			t.Fatalf("%s: says another thing each time", name)
		}
		for _, part := range withoutEach(t, text) {
			if shows[part.key] {
				continue
			}
			if less := told(folder, part.text); less != nil {
				tried[part.key] = true
				shows[part.key] = slices.ContainsFunc(saidParts, func(i int) bool { return less(i) != whole(i) })
			}
		}
	}
	var silent []string
	for key := range tried {
		if _, known := saidNowhere[key]; !shows[key] && !known {
			silent = append(silent, key)
		}
	}
	slices.Sort(silent)
	for _, key := range silent {
		t.Errorf("%s is read, and shows nowhere", key)
	}
	for key := range saidNowhere {
		if shows[key] || !tried[key] {
			t.Errorf("%s shows, or is in no job: it needs no excuse", key)
		}
	}
	if len(tried) < 200 {
		t.Errorf("%d keys were tried, expected 200 at least", len(tried))
	}
}

// told gives what is said of a job: first what is suspected and why, and then each sheet;
// nil where the text is no job.
func told(folder string, text []byte) func(int) string {
	open := func(name string) ([]byte, error) {
		if filepath.Ext(name) == ".jpg" {
			return photo(), nil
		}
		return os.ReadFile(filepath.Join(folder, name))
	}
	j, problems := job.Reader{Open: open, HasGlyph: face.Metrics().Has}.Read("job.yaml", text)
	if len(problems) > 0 {
		return nil
	}
	j.Raw = nil // its fingerprint is of another width each time, and a full page lays out otherwise for that
	made, d := map[int]string{}, story.Diagnose(j.Test())
	return func(i int) string {
		if _, done := made[i]; !done {
			made[i] = toldPart(j, d, i)
		}
		return made[i]
	}
}

func toldPart(j *job.Job, d *diag.Diagnosis, i int) string {
	if i == 0 {
		var b strings.Builder
		for _, s := range d.Stories {
			fmt.Fprintln(&b, s.Urgency, s.Confidence, s.Causes, s.Ledger)
		}
		fmt.Fprintln(&b, d.Verdict, d.Notices, d.Cautions, nextOf(d))
		return b.String()
	}
	kind := []string{"customer", "workshop", "pre-purchase", "invoice"}[i-1]
	s, err := sheet.New(j, d, sheet.Options{Kind: kind, Paper: "letter", Version: "test"})
	if err != nil {
		return err.Error()
	}
	rec := record.New(face.Metrics())
	s.Draw(rec)
	return fingerprint.ReplaceAllString(pageText(rec), "")
}

func nextOf(d *diag.Diagnosis) string {
	if d.Next == nil {
		return ""
	}
	return d.Next.Key
}

// photo is a picture that can be drawn.
var photo = sync.OnceValue(func() []byte {
	var b bytes.Buffer
	if err := jpeg.Encode(&b, image.NewGray(image.Rect(0, 0, 8, 8)), nil); err != nil {
		panic(err)
	}
	return b.Bytes()
})

// sameSource is a source that several limits are from.
var sameSource = regexp.MustCompile(`source: (?:manual|handbook)\}`)

// plainly writes a job as the parts of it are written, each limit with a source of its own,
// since a page names the same one once.
func plainly(t *testing.T, text []byte) []byte {
	t.Helper()
	i := 0
	text = sameSource.ReplaceAllFunc(text, func([]byte) []byte {
		i++
		return fmt.Appendf(nil, "source: book %d}", i)
	})
	var root yaml.Node
	if err := yaml.Unmarshal(text, &root); err != nil {
		t.Fatal(err)
	}
	out, err := yaml.Marshal(&root)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// A part is a job without one of its keys.
type part struct {
	key  string
	text []byte
}

// fingerprint is what a page prints of the bytes of its job, which any key changes.
var fingerprint = regexp.MustCompile(`data [0-9a-f]{4} [0-9a-f]{4}`)

// numbers are names of cylinders, speeds and times within a key.
var numbers = regexp.MustCompile(`\d+(?:\.\d+)?`)

// withoutEach gives a job without each of its keys in turn.
func withoutEach(t *testing.T, text []byte) []part {
	t.Helper()
	var root yaml.Node
	if err := yaml.Unmarshal(text, &root); err != nil {
		t.Fatal(err)
	}
	var parts []part
	var walk func(n *yaml.Node, path string)
	walk = func(n *yaml.Node, path string) {
		for _, item := range n.Content {
			if n.Kind == yaml.SequenceNode {
				walk(item, path)
			}
		}
		if n.Kind != yaml.MappingNode {
			return
		}
		for i := 0; i+1 < len(n.Content); i += 2 {
			key := path + "." + numbers.ReplaceAllString(n.Content[i].Value, "N")
			entries := n.Content
			n.Content = slices.Concat(entries[:i], entries[i+2:])
			if out, err := yaml.Marshal(&root); err == nil && len(n.Content) > 0 {
				parts = append(parts, part{strings.TrimPrefix(key, "."), out})
			}
			n.Content = entries
			walk(entries[i+1], key)
		}
	}
	walk(root.Content[0], "")
	return parts
}

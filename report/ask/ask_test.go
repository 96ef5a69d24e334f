package ask

import (
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"testing"
	"time"

	"gaugesheet/diag/engine"
	"gaugesheet/report/job"
)

// session asks with these answers, and gives what came of it with all that
// was said.
func session(t *testing.T, layout string, answers ...string) (Result, string) {
	t.Helper()
	var said strings.Builder
	s := &Session{Out: &said, Echo: true, Reader: job.Reader{Today: time.Date(2026, 5, 14, 9, 0, 0, 0, time.UTC),
		Open: func(string) ([]byte, error) { return nil, fs.ErrNotExist }}}
	s.Next = func() (string, error) {
		if len(answers) == 0 {
			return "", errors.New("no more answers")
		}
		next := answers[0]
		answers = answers[1:]
		return next, nil
	}
	return s.Run(layout), said.String()
}

// eight are the answers for a V8 with one low cylinder, its plugs and its fuel
// pressure.
var eight = []string{"v8", "1", "p", "W-2041", "t", "2009 van", "misfire", "41 33 42 psi", "35-45", "ok 3 oily", "w", "o", "a", "6",
	"150 148 110 149 155 150 148 152 psi", "128", "", "", ""}

func TestV8(t *testing.T) {
	r, said := session(t, "", eight...)
	if r.Job == nil || !r.Ended {
		t.Fatalf("%v\n%s\n%s", r.Lacks, r.File, said)
	}
	test := r.Job.Test()
	if v, _ := test.Compression.Dry["3"].Value(); v != 110 || test.Compression.Unit != "psi" || test.Plugs.ByCylinder["3"].Look != "oil-wet" || test.Plugs.ByCylinder["8"].Look != "normal" {
		t.Errorf("%s", r.File)
	}
	if r.Job.Date.Entered.Value != "2026-05-14" || test.Spec.Fuel != "petrol" || test.Conditions.Throttle != "open" || !slices.Equal(r.Job.Complaints, []string{"misfire"}) {
		t.Errorf("%s", r.File)
	}
}

// paper are the answers of somebody who has a V8 on paper: its size and fuel with
// the engine, tests that were not made, and compression with oil besides.
var paper = []string{"5.7 V8 gas", "odd left", "", "t", "98 pickup", "misfire", "n/t", "tan 3,5 oily", "cold", "wot", "all", "6 cranks",
	"150, 148, 95, 152, 100, 149, 151, 150 psi", "100", "", "", "wet", "3 - 98, 5 - 102", "5 ml", ""}

// A V8 is typed in less than two minutes: four keys a second, and a second and a
// half to read each question.
func TestV8IsQuick(t *testing.T) {
	for name, answers := range map[string][]string{"one low": eight, "from paper": paper} {
		keys := 0
		for _, answer := range answers {
			keys += len(answer) + 1
		}
		r, said := session(t, "", answers...)
		if r.Job == nil || !r.Ended {
			t.Errorf("%s: %v\n%s", name, r.Lacks, said)
		}
		const keysPerSecond, reading = 4, 1.5
		seconds := float64(keys)/keysPerSecond + reading*float64(r.Asked)
		if seconds > 120 || r.Asked > len(answers) {
			t.Errorf("%s: %d keys and %d questions take %.0f s", name, keys, r.Asked, seconds)
		}
		t.Logf("%s: %d keys and %d questions take %.0f s", name, keys, r.Asked, seconds)
	}
}

// What is typed from paper is the job that it says.
func TestPaper(t *testing.T) {
	r, said := session(t, "", paper...)
	want := `job:
  date: 2026-05-14
  complaints: [misfire]
vehicle:
  description: 98 pickup
engine:
  displacement: 5.7 L
  fuel: gas
  layout: V8
  numbering: across banks
  first-bank: left
conditions:
  engine: cold
  throttle: open
  plugs-out: all
  strokes: 6 cranks
fuel-pressure: n/t
plugs:
  looks: {others: normal, 3: oil-wet, 5: oil-wet}
compression:
  unit: psi
  dry: {1: 150, 2: 148, 3: 95, 4: 152, 5: 100, 6: 149, 7: 151, 8: 150}
  limits: {minimum: 100}
  wet: {3: 98, 5: 102}
  oil: 5 ml
`
	if _, file, _ := strings.Cut(string(r.File), "\n"); r.Job == nil || strings.TrimSpace(file) != strings.TrimSpace(want) {
		t.Errorf("%v\n%s\n%s", r.Lacks, r.File, said)
	}
}

// Every engine that the program knows can be asked for, with readings of all
// its cylinders.
func TestEveryEngine(t *testing.T) {
	for _, p := range engine.Known() {
		if p.Spec.Layout == engine.Custom.String() {
			continue
		}
		e, problems := engine.New(p.Spec)
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		answers := []string{p.Spec.Layout}
		if e.IsTwoBank() {
			answers = append(answers, "1")
		}
		reading := strings.Repeat("150 ", len(e.Names())) + "psi"
		if e.Kind == engine.Rotary {
			answers = append(answers, "p", "", "", "", "", "", "", "w", "o", "", strings.Repeat("7.4 7.2 7.3 ", len(e.Names()))+"kgf/cm2")
		} else {
			answers = append(answers, "p", "", "", "", "", "", "", "w", "o", "a", "6", reading)
		}
		r, said := session(t, "", append(answers, "", "", "", "")...)
		if r.Job == nil || !r.Ended || r.Job.Test().Engine.Layout != p.Spec.Layout {
			t.Errorf("%s: %v\n%s", p.Name, r.Lacks, said)
		}
	}
}

// What else may be measured is asked for without a question that its section
// does not have, and every section of the job file has a place among them.
func TestTopics(t *testing.T) {
	asked := map[string]bool{}
	for _, q := range mainQuestions() {
		asked[strings.Split(q.path, ".")[0]] = true
	}
	s := &Session{draft: draft{at("engine.layout", "inline-4"), at("engine.fuel", "petrol")}}
	e, _ := engine.New(engine.Spec{Layout: "inline-4"})
	s.engine = e
	own := map[string]bool{"gaps": true, "source": true, "numbering": true, "else": true}
	for _, topic := range allTopics() {
		asked[topic.section] = true
		for _, q := range topic.questions(s) {
			section := strings.Split(q.path, ".")[0]
			asked[section] = true
			if k := keyAt(section); k.Name == "" && !own[q.path] {
				t.Errorf("'%s' asks for %s, which the job file does not have", topic.say, q.path)
			}
		}
	}
	written := []string{"format", "sheet", "paper", "language", "shop", "seller", "independence", "before", "photos", "earlier"} // not at the bench
	for _, k := range job.Keys() {
		if !asked[k.Name] && !slices.Contains(written, k.Name) {
			t.Errorf("nothing asks for '%s'", k.Name)
		}
	}
}

// A further test without a topic of its own is asked for key by key.
func TestPlainTopics(t *testing.T) {
	if got := plainTopics(nil); len(got) != len(job.FurtherTests()) {
		t.Fatalf("%d topics for %d tests", len(got), len(job.FurtherTests()))
	}
	for _, topic := range plainTopics(nil) {
		asked := topic.questions(nil)
		if len(asked) == 0 {
			t.Errorf("nothing is asked of '%s'", topic.section)
		}
		for _, q := range asked {
			if keyAt(q.path).Name == "" || q.say == "" {
				t.Errorf("'%s' asks %q for %s, which the job file does not have", topic.section, q.say, q.path)
			}
		}
	}
	if got := plainTopics(allTopics()); len(got) != 0 {
		t.Errorf("asked for twice: %v", got)
	}
}

func TestChosen(t *testing.T) {
	s := &Session{draft: draft{at("engine.layout", "inline-4"), at("engine.fuel", "petrol")}}
	s.engine, _ = engine.New(engine.Spec{Layout: "inline-4"})
	other := slices.IndexFunc(s.topics(), func(x topic) bool { return x.say == "another reading" })
	last := fmt.Sprintf("crankcase %d", other+1) // by its number, which each further test moves
	for typed, want := range map[string]string{"4": "oil pressure", "oil-pressure, vacuum": "oil pressure|manifold vacuum", "leakage oil-pressure": "cylinder leakage|oil pressure",
		last: "crankcase pressure|another reading", "99": "", "nonsense": "", "0": ""} {
		var parts []string
		found, err := s.chosen(typed)
		for _, topic := range found {
			parts = append(parts, topic.say)
		}
		if got := strings.Join(parts, "|"); got != want || (err != nil) != (want == "") {
			t.Errorf("%s: %s, want %s; %v", typed, got, want, err)
		}
	}
}

// Every further question takes an answer such as its hint, or the example of
// its key, shows.
func TestFurtherAnswers(t *testing.T) {
	answers := map[string]string{"starting.peaks": "180 178 131 181", "balance.speed": "930 900 992 910", "injectors.before": "188 212 206 209 ml/min", "injectors.after": "209 212 210 211",
		"injectors.spray": "cone, one stream, cone, cone", "injectors.ohms": "14.2 14.1 14.1 14.1", "gauges.compression": "0-300 psi, 2 % of span, 5 psi", "trims.idle": "4 14 3 12", "trims.2500 rpm": "1 3",
		"exhaust-gas.idle": "0.4 120 14.6 0.9", "exhaust-gas.2500 rpm": "0.4 120", "oil-pressure.cold-idle": "45 16 psi", "starting.battery.rest": "12.6 V 10.6 V",
		"oil-pressure.at-speed": "2000=34 3000=46", "fuel-pressure.hold": "1=40 5=36 psi", "vacuum.idle.reading": "18.5 inHg", "vacuum.snap.open": "2 24", "crankcase.readings": "idle=-1 2500=3.5 inH2O",
		"back-pressure.idle": "0.4 1.6 psi", "timing.advance": "2500=28 deg", "diesel.return.cylinders": "12 11 12 13 ml", "diesel.glow": "0.6 0.6 open 0.6",
		"cooling.pressure-test.pumped-to": "18 psi", "cooling.pressure-test.hold": "2=18 5=17", "gaps": "3=1.3", "compression.first": "90 92 60 91", "compression.again": "1=158", "compression.order": "1 3 4 2",
		"leakage.dry": "8 10 34 exhaust 72/80", "compression.wet": "3=90 1=172", "valves.inlet": "0.2 0.2 0.15 0.2 mm", "valves.exhaust": "0.3 0.3 none 0.3", "valves.lift.inlet": "9.2 9.2 6.1 9.2",
		"valves.lift.exhaust": "3=9.0", "borescope": "3=scored bore at the front", "other-readings": "charging voltage, 14.2 V, 13.8-14.6 V", "not-tested": "valve clearance, cover not taken off",
		"plugs.gap": "1.1 mm", "engine.firing-order": "1-3-4-2", "compression.dry": "150 148 110 149 psi", "customer.name": "A. Mbeki", "balance.at": "1000 rpm", "engine.cycle": "four", "vehicle.codes": "P0303; P0301",
		"engine.fuel": "petrol", "engine.mount": "front lengthwise", "findings": "play in the fan bearing", "starting.cranking": "215 rpm", "conditions.method": "push-in gauge"}
	for _, fuel := range []string{"petrol", "diesel"} {
		compression := "150 148 110 149 psi"
		if fuel == "diesel" {
			compression = "400 398 410 405 psi"
		}
		for _, topic := range allTopics() {
			s := &Session{draft: draft{at("engine.layout", "inline-4"), at("engine.fuel", fuel)}}
			s.Reader = job.Reader{Today: time.Date(2026, 5, 14, 9, 0, 0, 0, time.UTC)}
			s.read(s.draft)
			if topic.fits != nil && !topic.fits(s) {
				continue
			}
			said := strings.Builder{}
			s.Out, s.was = &said, map[string]string{}
			dry, err := cylinderValues("compression", "compression.dry")(s, compression)
			if err != nil || !s.try(dry) {
				t.Fatal(err, said.String())
			}
			for _, q := range topic.questions(s) {
				typed, known := answers[q.path]
				if !known {
					typed = strings.Trim(keyAt(q.path).Example, `"[]`)
					if _, such, shown := strings.Cut(q.hint, "such as "); shown {
						typed = such
					}
				}
				before := said.Len()
				if done, err := s.answer(q, typed); !done || err != nil {
					t.Errorf("%s, %s: '%s' is not taken: %v%s", fuel, q.path, typed, err, said.String()[before:])
				}
			}
			if j, problems := s.Reader.Read("job.yaml", s.draft.file()); j == nil {
				t.Errorf("%s: %v\n%s", topic.say, problems, s.draft.file())
			}
		}
	}
}

func TestBackKeepsWhatWasTyped(t *testing.T) {
	r, said := session(t, "inline-4", "petrol", "17", "back", "", "t", "quit")
	if !strings.Contains(said, "Job number (such as W-2041) [17]: ") {
		t.Error(said)
	}
	if !strings.Contains(string(r.File), "number: 17") || r.Ended || !strings.Contains(string(r.File), "date: 2026-05-14") {
		t.Errorf("%s", r.File)
	}
	r, _ = session(t, "inline-4", "petrol", "17", "back", "-", "quit")
	if strings.Contains(string(r.File), "number") {
		t.Errorf("what was taken back is there:\n%s", r.File)
	}
}

// What the shop profile gives for every job is shown, and holds where nothing
// else is typed.
func TestShopProfile(t *testing.T) {
	var said strings.Builder
	answers := []string{"p", "", "", "", "", "", "normal", "", "o", "one", "6", "150 148 110 149", "", "", "", ""}
	s := &Session{Out: &said, Echo: true, Shop: "../shop.yaml", Reader: job.Reader{Open: func(name string) ([]byte, error) {
		if name != "../shop.yaml" {
			return nil, fs.ErrNotExist
		}
		return []byte("name: Harrow Mills Engine Works\ndefaults: {conditions: {engine: warm, plugs-out: all}, compression: {unit: psi}}\n"), nil
	}}}
	s.Next = func() (string, error) {
		if len(answers) == 0 {
			return "", errors.New("no more answers")
		}
		next := answers[0]
		answers = answers[1:]
		return next, nil
	}
	r := s.Run("inline-4")
	if r.Job == nil || r.Job.Shop.Name.Value != "Harrow Mills Engine Works" || r.Job.Test().Conditions.Engine != "warm" || r.Job.Test().Conditions.PlugsOut != "one at a time" || r.Job.Test().Compression.Unit != "psi" {
		t.Errorf("%v\n%s\n%s", r.Lacks, r.File, said.String())
	}
	if !strings.Contains(said.String(), "[warm, by the shop profile]") || strings.Contains(string(r.File), "warm") || strings.Contains(said.String(), "Unit of") {
		t.Error(said.String())
	}
	said.Reset()
	s = &Session{Out: &said, Shop: "shop.yaml", Next: func() (string, error) { return "", errors.New("none") }, Reader: job.Reader{Open: func(string) ([]byte, error) { return []byte("nam: Harrow\n"), nil }}}
	if r := s.Run("inline-4"); strings.Contains(string(r.File), "shop") || !strings.Contains(said.String(), "shop.yaml is not used") {
		t.Errorf("%s\n%s", r.File, said.String())
	}
}

func TestList(t *testing.T) {
	for typed, want := range map[string]string{
		"150 148 110": "150|148|110", "150, 148, 110": "150|148|110", "150,148,110": "150|148|110", "150; 148; 110": "150|148|110",
		"8,3 8,5 8,4": "8,3|8,5|8,4", "about 155 150-155 over 300": "about 155|150-155|over 300", "150 not tested 148": "150|not tested|148",
		"150 could not test (plug seized) 148": "150|could not test (plug seized)|148", "[158 160] 150": "[158 160]|150", "[150, 148, 110]": "150|148|110",
		"150, declined, 148": "150|declined|148",
	} {
		if got := strings.Join(list(typed), "|"); got != want {
			t.Errorf("%s: %s, want %s", typed, got, want)
		}
	}
}

// Cylinders that are named by their places on a bank go by their numbers.
func TestPlaced(t *testing.T) {
	e, problems := engine.New(engine.Spec{Layout: "V6", Numbering: engine.AcrossBanks, FirstBank: "right"})
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	s := &Session{engine: e}
	for typed, want := range map[string]string{"L2=150 R3=140": "4=150 5=140", "left 1 oily, right 2 oily": "2 oily, 3 oily", "#3=110 cyl 4=150 cylinder 6=140": "3=110 4=150 6=140",
		"L9=150": "L9=150", "150 148 110 149 155 150": "150 148 110 149 155 150", "front 2=150": "front 2=150"} {
		if got := s.placed(typed); got != want {
			t.Errorf("%s: %s, want %s", typed, got, want)
		}
	}
}

func TestPairs(t *testing.T) {
	for typed, want := range map[string]string{
		"1=150 3=110": "1:150|3:110", "150 3=110": "others:150|3:110", "1=150, 3=could not test (plug seized)": "1:150|3:could not test (plug seized)",
		"ok 3=oily": "others:ok|3:oily", "2000 rpm=34 3000=46": "2000 rpm:34|3000:46", "idle=-1 2500=3.5": "idle:-1|2500:3.5", "150 148": "",
		"left 2=150": "left 2:150",
	} {
		var parts []string
		for _, v := range pairs(typed) {
			parts = append(parts, v.name+":"+v.text)
		}
		if got := strings.Join(parts, "|"); got != want {
			t.Errorf("%s: %s, want %s", typed, got, want)
		}
	}
}

func TestNamedWords(t *testing.T) {
	names := []string{"1", "2", "3", "4", "5", "6"}
	for typed, want := range map[string]string{
		"ok 3 oily": "others:ok|3:oily", "all good, 3 and 5 oily": "others:good|3:oily|5:oily", "1-4 sooty, 5 6 normal": "1:sooty|2:sooty|3:sooty|4:sooty|5:normal|6:normal",
		"normal except 2 oil fouled": "others:normal|2:oil fouled", "3 oily the rest normal": "3:oily|others:normal", "normal": "", "normal 3=oily": "", "9 sooty": "9:sooty",
	} {
		var parts []string
		for _, v := range namedWords(typed, names) {
			parts = append(parts, v.name+":"+v.text)
		}
		if got := strings.Join(parts, "|"); got != want {
			t.Errorf("%s: %s, want %s", typed, got, want)
		}
	}
}

// What is typed is what the job file says, whatever YAML makes of such signs.
func TestScalar(t *testing.T) {
	for _, text := range []string{"a: b", "# one", "- two", "{x}", "[y", "~", "null", "'quoted'", `"both"`, "2009 van, long", "yes", "@", "back\\slash", "%", "12.5", "-3", "ü&*", "a #b", "x:", "?", "|", ">"} {
		j, problems := job.Read("job.yaml", []byte(string(draft{at("notes", text), at("vehicle.description", text)}.file())+"engine: {layout: single}\ncompression: {unit: psi, dry: [150]}\n"), nil)
		if len(problems) > 0 || j.Notes.Value != text || j.Vehicle.Description.Value != text {
			t.Errorf("%s: %v", text, problems)
		}
	}
}

// A diesel is never asked for a wet test, nor an engine whose fuel nobody knows.
func TestNoOilIntoDiesels(t *testing.T) {
	for _, fuel := range []string{"diesel", ""} {
		_, said := session(t, "inline-4", fuel, "", "", "", "", "", "", "", "", "", "", "400 398 410 405 psi", "", "", "")
		if strings.Contains(said, "oil (wet)") {
			t.Errorf("fuel '%s':\n%s", fuel, said)
		}
	}
	if _, said := session(t, "inline-4", "petrol", "", "", "", "", "", "", "", "", "", "", "140 138 141 145 psi", "", "", ""); !strings.Contains(said, "oil (wet)") {
		t.Errorf("petrol:\n%s", said)
	}
}

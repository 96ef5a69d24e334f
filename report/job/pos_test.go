package job

import (
	"bytes"
	"strings"
	"testing"

	"gaugesheet/diag"
)

func TestPrintShowsTheLine(t *testing.T) {
	_, problems := Read("job.yaml", []byte("engine: {layout: inline-2}\r\ncompression:\r\n  unit: psi\r\n  dry: {1: 160, 2: n/a}\r\n"), nil)
	var b bytes.Buffer
	if err := problems.Print(&b, true); err != nil {
		t.Fatal(err)
	}
	want := "job.yaml:4:20: 'compression.dry.2' is 'n/a', expected " + pressureExpected + "\n" +
		"    4 |   dry: {1: 160, 2: n/a}\n" +
		"                           ^\n" +
		"  hint: " + emptyReading + "\n"
	if b.String() != want {
		t.Errorf("got\n%s\nwant\n%s", b.String(), want)
	}
}

// Escape sequences of the file or of its name never reach the terminal.
func TestPrintSteersNoTerminal(t *testing.T) {
	for _, text := range []string{
		"engine: {layout: \"a\\e[31mb\"}\n",
		"engine: {layout: a\x1b[31mb}\n",
		"\x1b]0;title\x07: 1\n",
		"\"a\\x9b31m\": 1\n",
		"engine: {layout: \"in\u202eline\"}\n",
		"engine: {layout: inline-2, mount: \"\\u202e\"}\n",
	} {
		_, problems := Read("a\x1b[1m.yaml", []byte(text), nil)
		var b bytes.Buffer
		if err := problems.Print(&b, true); err != nil {
			t.Fatal(err)
		}
		if len(problems) == 0 || strings.ContainsFunc(strings.ReplaceAll(b.String(), "\n", ""), steers) {
			t.Errorf("%q: %q", text, b.String())
		}
	}
}

func TestLongLinesAreCut(t *testing.T) {
	text := "engine: {layout: inline-2, " + strings.Repeat(" ", 500) + "wrong: 1}\n"
	_, problems := Read("job.yaml", []byte(text), nil)
	var b bytes.Buffer
	if err := problems.Print(&b, true); err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(b.String()) {
		if len(line) > 450 { // a hint names every key of the section
			t.Errorf("a line of %d", len(line))
		}
	}
}

func TestBlankNeedsNoReadings(t *testing.T) {
	for _, text := range []string{
		"engine: {layout: V8}\n",
		"engine: {layout: inline-4}\nconditions:\n",
		"engine: {layout: inline-4}\ncompression:\n  unit: psi\n  dry:\n    1:\n    2:\n",
		"engine: {layout: rotary-2}\nrotors: {faces: {1: , 2: }}\n",
	} {
		j, problems := ReadForBlank("job.yaml", []byte(text), nil)
		if len(problems) > 0 {
			t.Errorf("%s%v", text, problems)
			continue
		}
		if strings.Contains(text, "V8") && j.Test().Engine.Numbered {
			t.Error("the V8 was numbered without being told how")
		}
		if _, problems := Read("job.yaml", []byte(text), nil); len(problems) == 0 {
			t.Errorf("%sread as a job with readings", text)
		}
	}
	if _, problems := ReadForBlank("job.yaml", []byte("engine: {layout: V7}\nsheet: blank\n"), nil); len(problems) != 2 {
		t.Errorf("problems %v", problems)
	}
}

// A missing section is nil, one that is only a word has its state.
func TestSectionsThatWereNotTested(t *testing.T) {
	test := mustRead(t, "engine: {layout: inline-2}\nplugs: {looks: {all: sooty}}\ncompression: could not test (no adapter)\nleakage: declined\n").Test()
	if c := test.Compression; c.State != diag.CouldNot || c.Reason != "no adapter" {
		t.Errorf("compression %+v", c)
	}
	if test.Leakage.State != diag.Declined || test.Fuel != nil || test.Rotors != nil || test.Plugs.State != diag.Tested {
		t.Errorf("leakage %+v, fuel %+v, plugs %+v", test.Leakage, test.Fuel, test.Plugs)
	}
}

func TestEarlierJobsAreOldestFirst(t *testing.T) {
	files := map[string]string{}
	for _, date := range []string{"2024-03-01", "2023-01-05", "2025-11-02"} {
		files[date+".yaml"] = "job: {date: " + date + "}\nengine: {layout: inline-2}\ncompression: {unit: psi, dry: [160, 150]}\n"
	}
	files["2025-11-02.yaml"] += "earlier: [2023-01-05.yaml]\n"
	open := func(name string) ([]byte, error) { return []byte(files[name]), nil }
	j, problems := Read("job.yaml", []byte(files["2024-03-01.yaml"]+"# today\nearlier: [2025-11-02.yaml, 2024-03-01.yaml, 2023-01-05.yaml]\n"), open)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	var got []string
	for _, e := range j.Test().Earlier {
		got = append(got, e.Label)
	}
	if s := strings.Join(got, " "); s != "2023-01-05 2024-03-01 2025-11-02" {
		t.Error(s)
	}
}

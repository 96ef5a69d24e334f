package job

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
)

var schemaJobs = flag.Int("schemajobs", 600, "how many randomly changed jobs are held against the schema")

// unsayable is what a schema cannot say: the problems that only the reader
// finds, by their messages.
var unsayable = []struct{ why, messages string }{
	{"how much can be depends on units, fuel and gauge", `more than|less than can be|above 100 %|below 0|reads to|holds .* of|expected more than 0|supply of 0|, expected -?[0-9.]+ to|whole number from|over 1, at most|from -1000 to 1000|pressure over 0|sure that`},
	{"which cylinders the engine has", `has (?:cylinder|rotor) |lists \d+ values|firing order|head is given|head of cylinder|in each bank|named twice|every cylinder|stands for no|place of each cylinder|cylinders of the|is of another engine|also has a cylinder|to name;|two banks;|without a name|no cylinder .* under head`},
	{"what stands in other files", `^files/|file '.*' (?:was not found|cannot be read)|earlier job|no gauge of the shop profile|no picture|by an absolute path|no shop profile`},
	{"what other keys say", `given twice|twice$| twice |under 'dry' and under|has readings of it|'all' and single|which takes its place|stands beside|in the same place`},
	{"how words and numbers make a reading", `expected (?:a pressure such|a pressure over|two pressures|a number|one number|a percentage|a range|a loss|ml$|the three faces|what is read|both ends|a date|values by|keys such as name|names, or|a spelling|a unit|a figure|one pressure|'2 % of|a volume|an angle|degrees|mi, km|yes or no)|inexact|does not rise|is in .*, expected|may be a loss|may be a rise|among its repeats|after a time|expected (?:readings by)|expected a gap|a pressure after|readings by|the clearance of one valve|begins with a nought`},
	{"which numbers lack a unit", `without a unit`},
	{"that only a reading counts", `no readings|has no result|says nothing|is empty|has no value|an empty list|no limit in it|has no 'loss'|is a list inside|has a list inside`},
	{"what only the text of the file shows", `UTF-8|second document|before a value means nothing|control character|ends the line for some|in another order than|fonts have no|a key is a list|begins a comment|decimal commas`},
	{"the day on which it is read", `in the future`},
	{"slips in names of one's own", `'not-tested' (?:has|is)|'other-readings\[|cylinder '|earlier jobs lead|expected (?:a list of cylinders|the cylinders of each bank)`},
}

func onlyReader(message string) bool {
	for _, u := range unsayable {
		if regexp.MustCompile(u.messages).MatchString(message) {
			return true
		}
	}
	return false
}

// asJSON is a file as an editor hands it to the schema; false for one that is
// no YAML, or no document.
func asJSON(data []byte) (v any, ok bool) {
	defer func() {
		if recover() != nil {
			ok = false
		}
	}()
	n, err := exampleNode(string(data))
	if err != nil {
		return nil, false
	}
	text, err := json.Marshal(asGiven(n))
	if err != nil {
		return nil, false
	}
	v, err = jsonschema.UnmarshalJSON(bytes.NewReader(text))
	return v, err == nil
}

// Of the files with errors the schema refuses what a schema can.
func TestSchemaRefusesErrors(t *testing.T) {
	s := compile(t, "")
	refused := 0
	for _, file := range yamlFiles(t, "testdata/err") {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		v, ok := asJSON(data)
		if !ok || s.Validate(v) != nil {
			refused++
			continue
		}
		out, err := os.ReadFile(strings.TrimSuffix(file, ".yaml") + ".out")
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range regexp.MustCompile(`(?m)^([\w./-]+):\d+:\d+: (.*)$`).FindAllStringSubmatch(string(out), -1) {
			if !onlyReader(m[2]) && m[1] == filepath.Base(file) {
				t.Errorf("%s is taken: %s", file, m[2])
			}
		}
	}
	t.Logf("%d files refused", refused)
}

// Jobs as they are and changed at random: what the program takes the schema takes, and what
// the program refuses it refuses, but for what a schema cannot say.
func TestSchemaAndReader(t *testing.T) {
	s := compile(t, "")
	var files []string
	for _, pattern := range []string{"testdata/ok/*.yaml", "../../examples/*.yaml", "../cases/testdata/*.yaml"} {
		found, err := filepath.Glob(pattern)
		if err != nil || len(found) == 0 {
			t.Fatal(pattern, err)
		}
		files = append(files, found...)
	}
	each, changed := 1, *schemaJobs
	if testing.Short() {
		each, changed = 5, changed/5
	}
	const own = "../cases/" // jobs that come and go with the rules: what is changed would be another each time
	steady := slices.DeleteFunc(slices.Clone(files), func(file string) bool { return strings.HasPrefix(file, own) })
	r := rand.New(rand.NewPCG(20, 26))
	counts := map[string]int{}
	for i := range len(files)/each + changed {
		asItIs := i < len(files)/each
		file := files[(i*each)%len(files)]
		if !asItIs {
			file = steady[r.IntN(len(steady))]
		}
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		n, err := exampleNode(strings.TrimPrefix(string(data), "\ufeff"))
		if err != nil {
			t.Fatal(file, err)
		}
		what := "as it is"
		if !asItIs {
			what = change(r, n)
		}
		text, err := json.MarshalIndent(asGiven(n), "", " ")
		if err != nil {
			t.Fatal(err)
		}
		v, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
		if err != nil {
			t.Fatal(err)
		}
		_, problems := Read("job.yaml", text, beside(filepath.Dir(file)))
		taken := s.Validate(v)
		switch {
		case len(problems) == 0 && taken != nil:
			counts["only the schema refuses"]++
			t.Errorf("%s, %s: read, and refused by the schema: %.600v", file, what, taken)
		case len(problems) == 0:
			counts["sound"]++
		case taken != nil:
			counts["refused by both"]++
		default:
			counts["only the reader refuses"]++
			for _, p := range problems {
				if !onlyReader(p.Message) {
					t.Errorf("%s, %s: taken by the schema: %s", file, what, p.Message)
				}
			}
		}
	}
	t.Log(counts)
}

// change changes one value of a file, or its key.
func change(r *rand.Rand, root *node) string {
	type place struct {
		path  string
		n, up *node
		i     int
	}
	var all []place
	var add func(n *node, path string)
	add = func(n *node, path string) {
		for i, e := range n.entries {
			all = append(all, place{path + "." + e.key, e.value, n, i})
			add(e.value, path+"."+e.key)
		}
		for i, item := range n.items {
			all = append(all, place{fmt.Sprintf("%s[%d]", path, i), item, n, i})
			add(item, fmt.Sprintf("%s[%d]", path, i))
		}
	}
	add(root, "")
	p := all[r.IntN(len(all))]
	switch kind := r.IntN(8); {
	case kind < 2 && p.up.kind == mapping:
		p.up.entries = slices.Delete(slices.Clone(p.up.entries), p.i, p.i+1)
		return "without " + p.path
	case kind < 2:
		p.up.items = slices.Delete(slices.Clone(p.up.items), p.i, p.i+1)
		return "without " + p.path
	case kind == 2 && p.up.kind == mapping:
		p.up.entries[p.i].key += "x"
		return "misspelt " + p.path
	case kind == 3:
		*p.n = node{kind: list}
		return "[] at " + p.path
	case kind == 4:
		*p.n = node{kind: mapping}
		return "{} at " + p.path
	}
	texts := []string{"", "-5", "n/a", "abc", "1000000", "160 furlongs", "11,2", "yes", "12 psi", "12 mm", "145/148", "about 120", "over 300", "not tested", "120", "3 %", "2026-05-14", "open", "1.5", "0", "declined", "12:30",
		"5 min", "x y z", "normal", "false"}
	text := texts[r.IntN(len(texts))]
	*p.n = node{kind: scalar, text: text, plain: true, tag: "!!str"}
	switch {
	case jsonNumber().MatchString(text):
		p.n.tag = "!!int"
	case text == "false":
		p.n.tag = "!!bool"
	}
	return "'" + text + "' at " + p.path
}

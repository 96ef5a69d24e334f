package job

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
)

// compiler has the schema of a job file, and what was compiled of it.
var compiler = sync.OnceValues(func() (*jsonschema.Compiler, error) {
	document, err := jsonschema.UnmarshalJSON(bytes.NewReader(Schema()))
	if err != nil {
		return nil, err
	}
	c := jsonschema.NewCompiler()
	return c, c.AddResource("job.json", document)
})

// compile is the part of the schema at a place, the whole at "".
func compile(t *testing.T, at string) *jsonschema.Schema {
	t.Helper()
	c, err := compiler()
	if err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("job.json" + at)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// value is what an editor checks: the file as JSON.
func value(t *testing.T, tree any) any {
	t.Helper()
	data, err := json.Marshal(tree)
	if err != nil {
		t.Fatal(err)
	}
	v, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func TestSchemaTakesSoundFiles(t *testing.T) {
	s := compile(t, "")
	for _, file := range yamlFiles(t, "testdata/ok") {
		if err := s.Validate(value(t, readFile(t, filepath.Base(file)).AsGiven())); err != nil {
			t.Errorf("%s: %v", file, err)
		}
	}
	data, err := os.ReadFile("testdata/ok/files/shop.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if err := compile(t, "#/$defs/shop").Validate(value(t, exampleValue(string(data)))); err != nil {
		t.Error(err)
	}
}

func TestSchemaTakes(t *testing.T) {
	s := compile(t, "")
	for _, text := range []string{
		"engine: {layout: inline-4}\ncompression: {unit: psi, dry: [160, 158, 159, 161], limits: {from-mean: 50}}",
		"engine: {layout: inline-4}\ncompression: {unit: psi, dry: [160, 158, 159, 161], limits: {below-mean: 30}}",
		"engine: {layout: inline-4}\ncompression: {unit: psi, dry: [160, 158, 159, 161], limits: {from-mean: 50 psi, below-mean: 20 %}}",
		"language: en-GB\nsmoke: {color: blue}\nengine: {layout: inline-4, intake-closes: 62 deg}\nleakage: {dry: {1: {loss: 30 %, at: [intake, neighbor]}}}",
		"engine: {layout: inline-4}\nplugs: {looks: {1: {gap: 0}, 2: {gap: 0 mm}}}",
		"engine: {layout: inline-4}\nfuel-pressure: {unit: psi, limits: {key-on: 35-45}, circuits: {front: {key-on: 41}}}",
	} {
		mustRead(t, text+"\n")
		if err := s.Validate(value(t, exampleValue(text))); err != nil {
			t.Errorf("%s: %v", text, err)
		}
	}
}

// A shop profile may give any keys of a job, in their sections or by themselves.
func TestSchemaOfDefaults(t *testing.T) {
	s := compile(t, "#/$defs/shop")
	for _, text := range []string{
		"name: Harrow Mills Engine Works\ndefaults: {job: {technician: R. Okafor}, conditions: {plugs-out: all}, sheet: workshop}",
		"defaults: {technician: R. Okafor, plugs-out: all, engine: {fuel: petrol}, not-tested: {leakage: no shop air}}",
	} {
		if err := s.Validate(value(t, exampleValue(text))); err != nil {
			t.Errorf("%s: %v", text, err)
		}
	}
	for _, text := range []string{"defaults: {technicion: R. Okafor}", "defaults: {shop: other.yaml}", "defaults: {conditions: {plugs-out: maybe}}"} {
		if s.Validate(value(t, exampleValue(text))) == nil {
			t.Errorf("%s: taken", text)
		}
	}
}

func TestSchemaRefuses(t *testing.T) {
	s := compile(t, "")
	for _, text := range []string{
		"{}",
		"engine: {layout: inline-8, colour: red}",
		"engine: {layout: inline-8}\nsheet: custmer",
		"engine: {layout: inline-8}\nconditions: {throttle: opend}",
		"engine: {layout: inline-8}\ncompression: {dry: {1: {a: 1}}}",
		"engine: {layout: inline-8}\ncompression: 120",
		"engine: {layout: inline-8}\nfindings: {oil: leak}",
		"engine: {layout: inline-8}\njob: {date: 14/05/2026}",
		"engine: {layout: inline-8}\nleakage: {dry: {1: {los: 12 %}}}",
	} {
		if text != "{}" {
			text += "\nplugs: {looks: {2: normal}}"
		}
		if s.Validate(value(t, exampleValue(text))) == nil {
			t.Errorf("%s: taken", text)
		}
	}
}

// TestKeyTable: each key of the table is described, and its example is one
// that its own schema takes.
func TestKeyTable(t *testing.T) {
	var check func(path, at string, keys []key)
	check = func(path, at string, keys []key) {
		for _, k := range keys {
			if k.doc == "" {
				t.Errorf("%s.%s has no description", path, k.name)
			}
			if k.example != "" && k.speeds {
				if err := compile(t, at).Validate(value(t, exampleValue("{"+k.written()+": "+k.example+"}"))); err != nil {
					t.Errorf("%s.%s: example %s: %v", path, k.name, k.example, err)
				}
				continue
			}
			if k.example != "" {
				if err := compile(t, at+"/properties/"+k.name).Validate(value(t, exampleValue(k.example))); err != nil {
					t.Errorf("%s.%s: example %s: %v", path, k.name, k.example, err)
				}
			}
			if k.form == asGroup {
				check(path+"."+k.name, at+"/properties/"+k.name, k.keys)
			}
			if k.form == asTestSection {
				check(path+"."+k.name, "#/$defs/"+k.name, k.keys)
			}
		}
	}
	check("", "#", fileKeys)
	check("shop", "#/$defs/shop", shopKeys)
	check("gauge", "#/$defs/gauge", gaugeKeys)
	check("leak", "#/$defs/leak", leakKeys)
	check("plug", "#/$defs/plug", plugKeys)
	check("bore", "#/$defs/bore", boreKeys)
	check("before", "#/$defs/before", beforeKeys)
}

// TestEveryKeyIsTried: the sound files together use every key, so that none
// stands in the table without being read.
func TestEveryKeyIsTried(t *testing.T) {
	var trees []*node
	for _, file := range yamlFiles(t, "testdata/ok") {
		trees = append(trees, readFile(t, filepath.Base(file)).root)
	}
	var check func(path string, keys []key, at []*node)
	check = func(path string, keys []key, at []*node) {
		for _, k := range keys {
			var found []*node
			for _, n := range at {
				if v := n.get(k.written()); v != nil {
					found = append(found, v)
				}
			}
			switch {
			case len(found) == 0:
				t.Errorf("%s.%s is in no file", path, k.name)
			case k.form == asGroup || k.form == asTestSection:
				check(path+"."+k.name, k.keys, found)
			}
		}
	}
	check("", fileKeys, trees)
}

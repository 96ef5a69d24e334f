package job

import (
	"bytes"
	"encoding/json"
	"fmt"

	"gopkg.in/yaml.v3"
)

// Schema is the JSON Schema (draft 2020-12) of the job file, for editors. What
// it refuses Read refuses too, but for words in unusual spellings; what Read
// alone can refuse is listed with the tests. "$defs/shop" is the schema of a
// shop profile.
func Schema() []byte {
	w := &schemaWriter{words: map[string]Object{}}
	root := Object{
		{"$schema", "https://json-schema.org/draft/2020-12/schema"},
		{"title", "gaugesheet job file"},
		{"description", "An engine's test readings. Only 'engine' and one set of readings are required."},
	}
	root = append(root, w.objectOf(fileKeys, "")...)
	root = append(root, Member{"required", []string{"engine"}}, Member{"allOf", fileRules()})
	defs := Object{
		{"shop", w.objectOf(shopKeys, "shop")},
		{"gauge", w.objectOf(gaugeKeys, "")},
		{"place", append(w.objectOf(placeKeys, ""), Member{"required", []string{"name", "x", "y"}})},
		{"leak", w.objectOf(leakKeys, "leak")},
		{"plug", w.objectOf(plugKeys, "")},
		{"bore", w.objectOf(boreKeys, "")},
		{"before", w.objectOf(beforeKeys, "before")},
	}
	for _, k := range fileKeys {
		if k.form == asTestSection {
			defs = append(defs, Member{k.name, w.objectOf(k.keys, k.name)})
		}
	}
	defs = append(append(defs, readingSchemas()...), w.wordDefs()...)
	return indented(append(root, Member{"$defs", defs}))
}

// indented writes a schema with an indent for each level.
func indented(root Object) []byte {
	data, err := json.Marshal(root)
	if err != nil {
		panic("job: the key table makes no JSON: " + err.Error()) // a test reads it
	}
	var out bytes.Buffer
	if err := json.Indent(&out, data, "", "  "); err != nil {
		panic("job: the key table makes no JSON: " + err.Error())
	}
	out.WriteByte('\n')
	return out.Bytes()
}

// A schemaWriter writes the schemas of keys, and keeps those of their words,
// each once.
type schemaWriter struct {
	words map[string]Object
	order []string
}

// objectOf is the schema of a set of keys, with the rules of the place that it
// stands in.
func (w *schemaWriter) objectOf(keys []key, place string) Object {
	properties := make(Object, 0, len(keys))
	var speeds Object
	for _, k := range keys {
		below := joinPath(place, k.name)
		if k.speeds {
			speeds = append(speeds, Member{speedPattern, w.schemaOf(k, below)})
			continue
		}
		properties = append(properties, Member{k.name, w.schemaOf(k, below)})
		for other, name := range otherSpellings { // at most one is this key's
			if name == k.name {
				properties = append(properties, Member{other, w.schemaOf(k, below)})
			}
		}
	}
	out := Object{{"type", "object"}, {"properties", properties}}
	if len(speeds) > 0 {
		out = append(out, Member{"patternProperties", speeds})
	}
	return append(append(out, Member{"additionalProperties", false}), sectionRules(place)...)
}

// schemaOf is the schema of one key with what is said of it.
func (w *schemaWriter) schemaOf(k key, place string) Object {
	out := append(Object{{"description", k.described()}}, w.valueSchema(k, place)...)
	if k.example != "" {
		out = append(out, Member{"examples", []any{exampleValue(k.example)}})
	}
	return out
}

func typeOf(types ...string) Object { return Object{{"type", types}} }

func arrayOf(items Object) Object { return Object{{"type", "array"}, {"items", items}} }

func either(schemas ...any) Object { return Object{{"anyOf", schemas}} }

// speedPattern is a key that is a speed.
const speedPattern = "^(idle|[0-9.]+ *(rpm|r/min|rev/min))$"

// plain is what YAML may make of a text without quotes.
var plain = typeOf("string", "number", "boolean")

func (w *schemaWriter) valueSchema(k key, place string) Object {
	if own := ownValue(place); own != nil {
		return own
	}
	one := Object{{"$ref", "#/$defs/reading"}}
	switch k.form {
	case asTexts, asFileNames:
		return arrayOf(plain)
	case asWord:
		return w.wordOf(k)
	case asWordList:
		return either(w.wordOf(k), arrayOf(w.wordOf(k)))
	case asYesNo:
		return w.yesOrNo()
	case asWhole:
		return Object{{"type", "integer"}, {"minimum", 1}}
	case asBare:
		return typeOf("number", "string")
	case asDate:
		return Object{{"type", "string"}, {"pattern", `^\d{4}-\d{2}-\d{2}$`}}
	case asAmount, asClock, asFileName:
		return typeOf("string")
	case asReading:
		return one
	case asReadings:
		return either(Object{{"type", "object"}, {"additionalProperties", one}}, arrayOf(one))
	case asNames:
		return arrayOf(typeOf("integer", "string"))
	case asGroup:
		return w.objectOf(k.keys, place)
	case asTestSection:
		return either(Object{{"$ref", "#/$defs/" + k.name}}, w.state())
	case asGroups:
		return arrayOf(w.objectOf(k.keys, place))
	case asByName:
		return Object{{"type", "object"}, {"additionalProperties", w.objectOf(k.keys, place)}}
	case asMeasured:
		if len(k.keys) > 0 {
			return either(one, w.objectOf(k.keys, place))
		}
		return one
	case asAtSpeeds, asAtTimes:
		return Object{{"type", "object"}, {"additionalProperties", one}}
	case asByBank:
		return Object{{"type", "object"}, {"additionalProperties", w.objectOf(k.keys, place)}}
	case asAllTexts:
		return either(Object{{"type", "object"}, {"additionalProperties", plain}}, arrayOf(plain))
	case asPermitted:
		return typeOf("number", "string")
	case asSpecial:
		return ownSchema(k.schema)
	}
	return plain
}

// ownSchema reads a schema that a key brings with it.
func ownSchema(text string) Object {
	n, err := exampleNode(text)
	if err != nil {
		panic(fmt.Sprintf("job: the key table has a schema that is no JSON: %s: %v", text, err))
	}
	out, _ := asGiven(n).(Object)
	return out
}

// exampleValue gives an example of the key table, which is YAML, as JSON.
func exampleValue(text string) any {
	n, err := exampleNode(text)
	if err != nil {
		panic(fmt.Sprintf("job: the key table has an example that is no YAML: %s: %v", text, err))
	}
	return asGiven(n)
}

func exampleNode(text string) (*node, error) {
	var document yaml.Node
	if err := yaml.Unmarshal([]byte(text), &document); err != nil {
		return nil, err
	}
	c := composer{r: &reader{run: &run{}}, open: map[*yaml.Node]bool{}}
	return c.compose(document.Content[0], 0), nil
}

package job

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"
)

// Schema is the JSON Schema (draft 2020-12) of the job file, for editors. It is
// looser than Read, which alone knows the engine; "$defs/shop" is the schema
// of a shop profile.
func Schema() []byte {
	root := Object{
		{"$schema", "https://json-schema.org/draft/2020-12/schema"},
		{"title", "gaugesheet job file"},
		{"description", "An engine's test readings. Only 'engine' and one set of readings are required."},
	}
	root = append(root, objectOf(fileKeys)...)
	root = append(root, Member{"required", []string{"engine"}}, Member{"$defs", Object{
		{"shop", objectOf(shopKeys)},
		{"gauge", objectOf(gaugeKeys)},
		{"place", objectOf(placeKeys)},
		{"leak", objectOf(leakKeys)},
		{"plug", objectOf(plugKeys)},
		{"bore", objectOf(boreKeys)},
		{"before", objectOf(beforeKeys)},
		{"reading", Object{
			{"description", "A number, 'about 120', '145-155', 'over 300', 'not tested', 'could not test (why)', 'read, not told', or a list of repeats."},
			{"anyOf", []any{typeOf("number", "string"), Object{{"type", "array"}, {"minItems", 1}, {"items", typeOf("number", "string")}}}},
		}},
	}})
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

// objectOf is the schema of a set of keys.
func objectOf(keys []key) Object {
	properties := make(Object, 0, len(keys))
	var speeds Object
	for _, k := range keys {
		if k.speeds {
			speeds = append(speeds, Member{speedPattern, schemaOf(k)})
			continue
		}
		properties = append(properties, Member{k.name, schemaOf(k)})
		for other, name := range otherSpellings { // at most one is this key's
			if name == k.name {
				properties = append(properties, Member{other, schemaOf(k)})
			}
		}
	}
	out := Object{{"type", "object"}, {"properties", properties}}
	if len(speeds) > 0 {
		out = append(out, Member{"patternProperties", speeds})
	}
	return append(out, Member{"additionalProperties", false})
}

// schemaOf is the schema of one key with what is said of it.
func schemaOf(k key) Object {
	out := append(Object{{"description", k.doc}}, valueSchema(k)...)
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

// stateWord is a section that is only a word such as 'declined'.
var stateWord = Object{{"type", "string"}, {"pattern", "^(?:" + strings.Join(stateWords, "|") + ")"}}

func valueSchema(k key) Object {
	one := Object{{"$ref", "#/$defs/reading"}}
	switch k.form {
	case asTexts, asFileNames:
		return arrayOf(plain)
	case asWord:
		return Object{{"enum", k.allWords()}}
	case asWordList:
		return either(Object{{"enum", k.allWords()}}, arrayOf(Object{{"enum", k.allWords()}}))
	case asYesNo:
		return Object{{"enum", []any{"yes", "no", true, false}}}
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
		return objectOf(k.keys)
	case asTestSection:
		return either(objectOf(k.keys), stateWord)
	case asGroups:
		return arrayOf(objectOf(k.keys))
	case asByName:
		return Object{{"type", "object"}, {"additionalProperties", objectOf(k.keys)}}
	case asMeasured:
		if len(k.keys) > 0 {
			return either(one, objectOf(k.keys))
		}
		return one
	case asAtSpeeds, asAtTimes:
		return Object{{"type", "object"}, {"additionalProperties", one}}
	case asByBank:
		return Object{{"type", "object"}, {"additionalProperties", objectOf(k.keys)}}
	case asAllTexts:
		return either(Object{{"type", "object"}, {"additionalProperties", plain}}, arrayOf(plain))
	case asPermitted:
		return typeOf("number", "string")
	case asSpecial:
		return ownSchema(k.schema)
	}
	return plain
}

// allWords are a key's words and the others that stand for them.
func (k key) allWords() []string {
	out := slices.Clone(k.words)
	for _, other := range vocabularyOf(k.says).others(k.words) {
		if !slices.Contains(out, other) {
			out = append(out, other)
		}
	}
	return out
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

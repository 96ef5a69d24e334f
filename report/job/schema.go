package job

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"gaugesheet/diag/quantity"
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
		{"$comment", "Which cylinders the engine has, what other files hold and how much a gauge can read decide too: 'gaugesheet check' tells."},
	}
	root = append(root, w.objectOf(fileKeys, "")...)
	root = append(root, Member{"required", []string{"engine"}}, Member{"allOf", fileRules()})
	defs := Object{
		{"shop", w.objectOf(shopKeys, "shop")},
		{"gauge", w.objectOf(gaugeKeys, "gauge")},
		{"place", append(w.objectOf(placeKeys, ""), Member{"required", []string{"name", "x", "y", "head"}})},
		{"leak", w.objectOf(leakKeys, "leak")},
		{"plug", w.objectOf(plugKeys, "")},
		{"bore", w.objectOf(boreKeys, "bore")},
		{"before", w.objectOf(beforeKeys, "before")},
		{"defaults", w.objectOf(defaultKeys(), "defaults")},
	}
	for _, k := range fileKeys {
		if k.form == asTestSection {
			defs = append(defs, Member{k.name, w.section(k)})
		}
	}
	defs = append(defs, w.wordDefs()...)
	return indented(append(root, Member{"$defs", defs}))
}

// defaultKeys are those that a shop's profile may give for every job: in their
// sections, or by themselves where only one section has them.
func defaultKeys() []key {
	out := slices.DeleteFunc(slices.Clone(fileKeys), func(k key) bool { return k.name == "shop" || k.name == "format" })
	for _, section := range fileKeys {
		if section.form != asGroup && section.form != asTestSection {
			continue
		}
		for _, k := range section.keys {
			if keyOf(fileKeys, k.name).name == "" && len(placesOf(k.name)) == 1 && !k.speeds {
				out = append(out, k)
			}
		}
	}
	return out
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
	words   map[string]Object
	order   []string
	further bool              // a further test is being written, of which any part may not be made
	units   [][]quantity.Unit // of the sections and groups that are being written
}

// section writes the section of a test.
func (w *schemaWriter) section(k key) Object {
	w.further = isMeasured(k.name)
	defer func() { w.further = false }()
	return w.in(sectionUnits(k.name), func() Object {
		out := w.objectOf(k.keys, k.name)
		for i := range out {
			switch {
			case out[i].Key != "additionalProperties":
			case k.bare != "": // its cylinders may stand in it
				out[i].Value = w.readingOf(keyOf(k.keys, k.bare), joinPath(k.name, k.bare))
			}
		}
		if k.paired != nil { // both valves of a cylinder
			out = append(out, Member{"patternProperties", Object{{pairKeys, pairSchema}}})
		}
		return out
	})
}

// pairKeys are cylinders that stand in the section of the valves, and what people put both
// valves under.
const pairKeys = `^ *(?:[0-9]|[Cc][Yy][Ll]|[Oo]thers$|(?:[Vv]alve[ -]*)?(?:[Cc]learances?|[Ll]ash|[Gg]aps?)$|(?:[Ii]nt?|[Ee]xh?)$)`

// pairSchema is of what was read of both valves of a cylinder, or of those of all below a
// key.
var pairSchema = either(Object{{"type", "string"}, {"pattern", "^[^/]*[0-9n][^/]*/[^/]*[0-9n][^/]*$"}}, Object{{"type", "array"}, {"minItems", 2}, {"maxItems", 2}}, Object{{"type", "object"}, {"minProperties", 1}})

// in writes what stands in a section or group whose readings are in some units.
func (w *schemaWriter) in(units []quantity.Unit, write func() Object) Object {
	if len(units) == 0 {
		return write()
	}
	w.units = append(w.units, units)
	defer func() { w.units = w.units[:len(w.units)-1] }()
	return write()
}

// sectionUnits are the units of the readings of a further test.
func sectionUnits(name string) []quantity.Unit {
	for _, s := range measuredSections {
		if s.name == name {
			return s.units
		}
	}
	return nil
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
	return append(append(out, Member{"additionalProperties", false}), w.sectionRules(place)...)
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

// someText is what YAML may make of a text without quotes.
var someText = Object{{"type", []string{"string", "number", "boolean"}}, {"minLength", 1}}

func (w *schemaWriter) valueSchema(k key, place string) Object {
	if own := w.ownValue(k, place); own != nil {
		return own
	}
	if plain := plainSchema(k.form); plain != nil {
		return plain
	}
	switch k.form {
	case asWord:
		if w.further && k.name != "unit" && !strings.HasSuffix(place, ".limits.from") { // a word may say that the thing was not looked at
			return either(w.wordOf(k), w.state())
		}
		return w.wordOf(k)
	case asWordList:
		return either(w.wordOf(k), arrayOf(w.wordOf(k)), w.wordsOf(k))
	case asYesNo:
		return w.yesOrNo()
	case asBare:
		return either(typeOf("number"), Object{{"$ref", "#/$defs/" + w.figure([]quantity.Dimension{quantity.Dimensionless})}})
	case asAmount:
		return w.amountOf(k, place)
	case asReading:
		return w.readingOf(k, place)
	case asReadings:
		if len(unitNames(k.units)) > 0 { // they may name their unit among them
			return byCylinderOf(w.readingOf(k, place), Member{"unit", Object{{"enum", unitNames(k.units)}}})
		}
		return byCylinderOf(w.readingOf(k, place))
	case asGroups:
		return arrayOf(w.objectOf(k.keys, place))
	case asPermitted:
		return w.permittedOf(k, place)
	case asSpecial:
		if k.schema == readingSchema {
			return w.readingOf(k, place)
		}
		return ownSchema(k.schema)
	}
	return w.furtherSchema(k, place)
}

// plainSchema is the schema of a form that is the same for every key; nil for
// any other.
func plainSchema(f form) Object {
	switch f {
	case asTexts:
		return either(arrayOf(someText), someText)
	case asFileNames:
		return arrayOf(someText)
	case asWhole:
		return either(Object{{"type", "integer"}, {"minimum", 1}}, Object{{"type", "string"}, {"pattern", "^ *(?:[0-9]+|[A-Za-z]+)(?: +[A-Za-z]+)? *$"}})
	case asDate:
		return Object{{"type", "string"}, {"pattern", calendar}}
	case asClock:
		return Object{{"type", "string"}, {"pattern", "^([01]?[0-9]|2[0-3]):[0-5][0-9]$"}}
	case asFileName:
		return Object{{"type", "string"}, {"minLength", 1}}
	case asNames:
		return cylinderNames()
	case asText:
		return someText
	}
	return nil
}

// furtherSchema is the schema of what has further keys.
func (w *schemaWriter) furtherSchema(k key, place string) Object {
	below := func() Object { return w.in(k.units, func() Object { return w.objectOf(k.keys, place) }) }
	sets := func(one Object) Object {
		return Object{{"type", "object"}, {"minProperties", 1}, {"additionalProperties", one}}
	}
	switch k.form {
	case asTestSection:
		forms := []any{Object{{"$ref", "#/$defs/" + k.name}}, w.state(), w.aloneWords(k)}
		if k.bare != "" {
			forms = append(forms, Object{{"type", "array"}, {"minItems", 1}})
		}
		if k.said != nil {
			forms = append(forms, Object{{"type", "string"}, {"pattern", "[0-9][^0-9.:-]+[0-9]"}})
		}
		return either(forms...)
	case asByName, asByBank:
		return sets(below())
	case asMeasured:
		if len(k.keys) > 0 {
			return either(w.readingOf(k, place), below())
		}
		return w.readingOf(k, place)
	case asAtSpeeds, asAtTimes:
		return sets(w.readingOf(k, place))
	case asAllTexts:
		if len(k.words) > 0 {
			return byCylinderOf(either(w.wordOf(k), w.state()))
		}
		return byCylinderOf(someText)
	}
	out := below()
	if name := single[k.name]; name != "" {
		return w.orAlone(out, k, keyOf(k.keys, name), place)
	}
	if k.name == "limits" && keyOf(k.keys, "minimum").name != "" { // 100 psi min
		out[0] = Member{"type", []string{"object", "string"}}
		return append(out, Member{"if", typeOf("string")}, Member{"then", Object{{"pattern", leastAlone}}})
	}
	if k.form == asGroup && place == k.name { // and so do words that only one of its keys takes
		out[0] = Member{"type", []string{"object", "string"}}
		out = append(out, Member{"anyOf", []any{typeOf("object"), w.aloneWords(k)}})
	}
	return out
}

// orAlone takes one value of a section in place of it.
func (w *schemaWriter) orAlone(section Object, k, one key, place string) Object {
	section[0] = Member{"type", []string{"object", "string", "number", "boolean"}}
	stands := []any{w.valueSchema(one, joinPath(place, one.name)), Object{{"not", w.state()}}}
	if k.name == "job" {
		stands = append(stands, Object{{"pattern", jobAlone}}, Object{{"not", Object{{"type", "string"}, {"pattern", dateAlone}}}})
	}
	return append(section, Member{"anyOf", []any{typeOf("object"), Object{{"allOf", stands}}, w.aloneWords(k)}})
}

// A number of a job stands for it: one word, or two or three of which one has a figure, and no
// date.
const (
	jobWord   = `(?:[^ ,;]|[0-9],[0-9]{3})`
	jobFigure = jobWord + `*[0-9]` + jobWord + `*`
	jobAlone  = `^ *(?:` + jobWord + `+|` + jobFigure + `(?: +` + jobWord + `+){1,2}|` + jobWord + `+ +` + jobFigure + `(?: +` + jobWord + `+)?|` + jobWord + `+ +` + jobWord + `+ +` + jobFigure + `) *$`
	dateAlone = `^ *(?:[0-9]{4}[-/.][0-9]{1,2}[-/.][0-9]{1,2}|[0-9]{1,2}[-/.][0-9]{1,2}[-/.][0-9]{4}) *$`
)

// leastAlone is a least pressure that stands for all limits.
const leastAlone = `^ *(?:(?:[Oo]ver|[Aa]bove|[Aa]t least|[Mm]in(?:imum|\.)?|[Mm]ore than|>=?|≥) *[0-9.]+(?: *[A-Za-z][A-Za-z0-9/]*)?|[0-9.]+(?: *[A-Za-z][A-Za-z0-9/]*)?(?: *\+| +(?:min(?:imum|\.)?|or more|at least))) *$`

// cylinderNames is the schema of a list of cylinders, or of a text of several.
func cylinderNames() Object {
	return either(arrayOf(Object{{"type", []string{"number", "string"}}, {"minLength", 1}}), Object{{"type", []string{"integer", "string"}}, {"minimum", 100}, {"pattern", severalNames}})
}

// severalNames is a text of several cylinders.
const severalNames = "^ *[0-9]+(?:[ \t,;/>.→–-]+[0-9A-Za-z]+)+ *$|^ *[0-9]{3,} *$"

// calendar is a day of the calendar.
const calendar = `^\d{4}-(?:(?:0[13578]|1[02])-(?:0[1-9]|[12]\d|3[01])|(?:0[469]|11)-(?:0[1-9]|[12]\d|30)|02-(?:0[1-9]|1\d|2\d))$`

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

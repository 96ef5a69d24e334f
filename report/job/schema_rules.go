package job

import (
	"slices"
	"strings"

	"gaugesheet/diag/quantity"
)

// What a job file has to have beside sound keys, as far as a schema can say it.

// fileRules are those of the whole file.
func fileRules() []any {
	l := layoutsInWords()
	layout := func(pattern string) Object {
		return Object{{"properties", Object{{"engine", Object{{"properties", Object{{"layout", Object{{"pattern", pattern}}}}}, {"required", []string{"layout"}}}}}}}
	}
	var tests []any
	for _, name := range testSections() {
		tests = append(tests, Object{{"required", []string{name}}, {"properties", Object{{name, readIn(name)}}}})
	}
	for _, name := range []string{"borescope", "coolant-gas-test", "other-readings"} {
		tests = append(tests, Object{{"required", []string{name}}})
	}
	return []any{
		Object{{"description", "One set of readings at least."}, {"anyOf", tests}},
		Object{{"if", layout(l.rotary)}, {"then", no("compression")}, {"else", no("rotors")}},
	}
}

// readIn is the schema of a section with readings, and not why there are none.
func readIn(name string) Object {
	if name == "plugs" { // a look of all is said in a word
		return Object{{"not", Object{{"$ref", "#/$defs/state"}}}}
	}
	return Object{{"type", []string{"object", "array"}}}
}

// no refuses a section's readings.
func no(section string) Object {
	return Object{{"not", Object{{"required", []string{section}}, {"properties", Object{{section, Object{{"type", "object"}}}}}}}}
}

// testSections are the sections of tests.
func testSections() []string {
	var out []string
	for _, k := range fileKeys {
		if k.form == asTestSection {
			out = append(out, k.name)
		}
	}
	return out
}

// sectionRules are those of a place in the file.
func (w *schemaWriter) sectionRules(place string) Object {
	switch place {
	case "engine":
		return Object{{"required", []string{"layout"}}, {"allOf", engineRules()}, {"dependentRequired", Object{{"numbering", []string{"first-bank"}}}}}
	case "photos":
		return Object{{"anyOf", requiredOne("name", "file")}}
	case "coolant-gas-test":
		return Object{{"required", []string{"result"}}}
	case "conditions":
		return Object{{"dependentSchemas", Object{{"altitude", Object{{"not", required("barometer")}}}}}}
	case "compression":
		return w.unitOr("first", "dry", "again", "wet", "running")
	case "rotors":
		return w.unitOr("faces")
	case "compression.limits":
		return Object{{"anyOf", requiredOne("minimum", "lowest", "spread", "difference", "below-mean", "from-mean", "standard")}}
	case "fuel-pressure":
		return append(w.unitOr("key-on", "idle", "hose-off", "snap", "return-pinched", "hold"), Member{"dependentSchemas", Object{{"circuits", Object{{"not", Object{{"anyOf", requiredOne(circuitReadings()...)}}}}}}})
	case "leak":
		return Object{{"dependentRequired", Object{{"held", []string{"of"}}, {"of", []string{"held"}}}}, {"not", required("held", "loss")},
			{"anyOf", requiredOne("loss", "held", "at", "most")}}
	case "bore":
		return Object{{"minProperties", 1}}
	}
	return nil
}

// anyPressure is what gauges measure.
var anyPressure = []quantity.Dimension{quantity.Pressure, quantity.Ratio}

// fileOf is the schema of a file's name, by what the file is.
func fileOf(role string) Object {
	patterns := make([]string, len(endings[role]))
	for i, ending := range endings[role] {
		patterns[i] = `\.` + anyCase(strings.TrimPrefix(ending, "."))
	}
	return Object{{"type", "string"}, {"pattern", "(?:" + strings.Join(patterns, "|") + ")$"}}
}

// unitOr is the rule that a section names its unit, or each of its readings
// does.
func (w *schemaWriter) unitOr(readings ...string) Object {
	var each Object
	for _, name := range readings {
		each = append(each, Member{name, w.withoutBare()})
	}
	return Object{{"anyOf", []any{required("unit"), Object{{"properties", each}}}}}
}

// underName is the schema of sets of keys, or of single values, each under a name
// of its own.
func underName(one Object) Object {
	return Object{{"type", "object"}, {"minProperties", 1}, {"additionalProperties", either(someText, one)}}
}

// ownValue is the schema of a key whose form does not say enough; nil for any
// other.
func (w *schemaWriter) ownValue(k key, place string) Object {
	switch place {
	case "format":
		return Object{{"const", latest}}
	case "engine.layout":
		l := layoutsInWords()
		return either(Object{{"enum", l.layouts}}, Object{{"type", "string"}, {"pattern", l.all}})
	case "other-readings": // each as a text, or under its name
		one := w.objectOf(k.keys, place)
		return either(arrayOf(either(one, Object{{"type", "string"}, {"minLength", 3}}, underName(one))), underName(one), Object{{"type", "string"}, {"minLength", 3}, {"not", w.state()}})
	case "shop":
		return either(fileOf(RoleShop), Object{{"$ref", "#/$defs/shop"}})
	case "earlier":
		return arrayOf(fileOf(RoleEarlier))
	case "shop.logo":
		return fileOf(RoleLogo)
	case "photos.file":
		return append(fileOf(RolePhoto), Member{"not", Object{{"pattern", `^(?:\./)*\.\./`}}})
	case "shop.defaults":
		return Object{{"$ref", "#/$defs/defaults"}}
	case "conditions.strokes":
		return either(Object{{"type", "integer"}, {"minimum", 1}, {"maximum", mostStrokes}}, Object{{"type", "string"}, {"pattern", "^ *(?:[0-9]+|[A-Za-z]+)(?: +[A-Za-z]+)? *$"}})
	case "conditions.altitude":
		return either(w.amountOf(k, place), Object{{"type", "string"}, {"pattern", "^ *(?:" + anyCase("at ") + ")?" + anyCase("sea level") + " *$"}})
	case "engine.compression-ratio":
		return either(Object{{"type", "number"}, {"exclusiveMinimum", 1}, {"maximum", 50}}, Object{{"type", "string"}, {"pattern", "^ *[0-9.,]+ *(?:(?::|[Tt][Oo]) *1)? *$"}})
	case "engine.banks":
		v := vocabularyOf("first bank")
		side := wordSchema(v.Words, v.others(v.Words))
		return either(Object{{"type", "object"}, {"minProperties", 2}, {"propertyNames", side}, {"additionalProperties", cylinderNames()}}, Object{{"type", "string"}, {"pattern", "[A-Za-z]+[^A-Za-z]*[0-9].*[A-Za-z]+[^A-Za-z]*[0-9]"}})
	case "gauge.range":
		return Object{{"$ref", "#/$defs/" + w.figure(anyPressure)}}
	case "gauge.accuracy":
		return Object{{"type", "string"}, {"pattern", "[0-9]|[Gg][Rr][Aa][Dd][Ee]|[Cc][Ll][Aa][Ss][Ss]"}}
	case "gauge.reads":
		return Object{{"type", "string"}, {"pattern", "[0-9].*[0-9]"}}
	case "shop.accent":
		return Object{{"type", "string"}, {"pattern", "^#?[0-9a-fA-F]{6}$"}}
	}
	return w.ownReading(k, place)
}

// ownReading is that of such a key in a test.
func (w *schemaWriter) ownReading(k key, place string) Object {
	switch place {
	case "plugs.looks":
		look := w.wordOf(keyOf(plugKeys, "look"))
		one := either(look, w.state(), Object{{"$ref", "#/$defs/plug"}})
		return either(Object{{"type", "object"}, {"minProperties", 1}, {"additionalProperties", one}}, Object{{"type", "array"}, {"minItems", 1}, {"items", one}}, w.looksInOne())
	case "borescope":
		one := either(someText, Object{{"$ref", "#/$defs/bore"}})
		return either(someText, Object{{"type", "object"}, {"minProperties", 1}, {"additionalProperties", one}}, arrayOf(one))
	case "leakage.dry", "leakage.wet":
		return w.leakOf()
	case "rotors.faces":
		return w.facesOf(key{}, place)
	case "fuel-pressure.hold", "fuel-pressure.circuits.hold":
		return either(Object{{"type", "object"}, {"minProperties", 1}, {"additionalProperties", w.readingOf(key{}, place)}}, Object{{"type", "string"}, {"pattern", "[0-9].*[Aa]fter.*[0-9]"}})
	case "not-tested":
		return either(Object{{"type", "object"}, {"additionalProperties", someText}}, arrayOf(someText))
	case "coolant-gas-test":
		return either(w.wordOf(k), w.objectOf(k.keys, place))
	}
	return nil
}

func engineRules() []any {
	l := layoutsInWords()
	layout := func(pattern string) Object {
		return Object{{"properties", Object{{"layout", Object{{"pattern", pattern}}}}}, {"required", []string{"layout"}}}
	}
	return []any{
		Object{{"if", layout("^ *[Cc][Uu][Ss][Tt][Oo][Mm] *$")}, {"then", required("cylinders")}},
		Object{{"if", layout(l.rotary)}, {"then", Object{{"not", Object{{"anyOf", requiredOne(valveKeys...)}}}}}},
		Object{{"if", layout(l.twoBanks)}, {"then", either(required("banks"), required("numbering", "first-bank"))}},
	}
}

func required(names ...string) Object { return Object{{"required", names}} }

func requiredOne(names ...string) []any {
	var out []any
	for _, name := range names {
		out = append(out, required(name))
	}
	return out
}

// circuitReadings are the keys of a circuit, which do not stand beside several.
func circuitReadings() []string {
	return slices.DeleteFunc(keyNames(circuitKeys), func(name string) bool { return name == "limits" })
}

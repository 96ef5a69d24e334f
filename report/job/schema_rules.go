package job

import "slices"

// What a job file has to have beside sound keys, as far as a schema can say it.

// fileRules are those of the whole file.
func fileRules() []any {
	l := layoutsInWords()
	layout := func(pattern string) Object {
		return Object{{"properties", Object{{"engine", Object{{"properties", Object{{"layout", Object{{"pattern", pattern}}}}}, {"required", []string{"layout"}}}}}}}
	}
	var tests []any
	for _, name := range testSections() {
		tests = append(tests, Object{{"required", []string{name}}, {"properties", Object{{name, Object{{"type", []string{"object", "array"}}}}}}})
	}
	for _, name := range []string{"borescope", "coolant-gas-test", "other-readings"} {
		tests = append(tests, Object{{"required", []string{name}}})
	}
	return []any{
		Object{{"description", "One set of readings at least."}, {"anyOf", tests}},
		Object{{"if", layout(l.rotary)}, {"then", no("compression")}, {"else", no("rotors")}},
	}
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
func sectionRules(place string) Object {
	switch place {
	case "engine":
		return Object{{"required", []string{"layout"}}, {"allOf", engineRules()}}
	case "conditions":
		return Object{{"not", required("altitude", "barometer")}}
	case "compression.limits":
		return Object{{"anyOf", requiredOne("minimum", "lowest", "spread", "difference", "below-mean", "from-mean", "standard")}}
	case "fuel-pressure":
		return Object{{"dependentSchemas", Object{{"circuits", Object{{"not", Object{{"anyOf", requiredOne(circuitReadings()...)}}}}}}}}
	case "leak":
		return Object{{"dependentRequired", Object{{"held", []string{"of"}}, {"of", []string{"held"}}}}, {"not", required("held", "loss")}}
	}
	return nil
}

// ownValue is the schema of a key whose form does not say enough; nil for any
// other.
func ownValue(place string) Object {
	switch place {
	case "format":
		return Object{{"const", latest}}
	case "engine.layout":
		l := layoutsInWords()
		return either(Object{{"enum", l.layouts}}, Object{{"type", "string"}, {"pattern", l.all}})
	case "shop.accent":
		return Object{{"type", "string"}, {"pattern", "^#?[0-9a-fA-F]{6}$"}}
	}
	return nil
}

func engineRules() []any {
	l := layoutsInWords()
	layout := func(pattern string) Object {
		return Object{{"properties", Object{{"layout", Object{{"pattern", pattern}}}}}, {"required", []string{"layout"}}}
	}
	return []any{
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

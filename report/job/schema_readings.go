package job

import (
	"fmt"
	"slices"
	"strings"

	"gaugesheet/diag/quantity"
)

// An editor that follows the schema tells a number with the unit of something
// else, and words that are no reading. How words and numbers are put together
// only the reader tells: the patterns have the words that may stand in a place.

// amountsIn are what the keys measure that hold a number with its unit.
var amountsIn = map[string][]quantity.Dimension{
	"distance": {quantity.Length, quantity.Time}, "reading": {quantity.Length, quantity.Time}, "displacement": {quantity.Volume}, "bore": {quantity.Length}, "stroke": {quantity.Length},
	"rod": {quantity.Length}, "inlet-closes": {quantity.Angle}, "coolant": {quantity.Temperature}, "cranking": {quantity.Rotation}, "rest": {quantity.Voltage}, "altitude": {quantity.Length},
	"barometer": {quantity.Pressure}, "division": {quantity.Pressure, quantity.Ratio}, "hose-volume": {quantity.Volume}, "supply": {quantity.Pressure}, "orifice": {quantity.Length}, "oil": {quantity.Volume},
	"lowest": {quantity.Ratio}, "spread": {quantity.Ratio}, "limit": {quantity.Ratio}, "manifold-vacuum": {quantity.Pressure}, "key-on": {quantity.Pressure}, "idle": {quantity.Pressure},
	"hose-off": {quantity.Pressure}, "snap": {quantity.Pressure}, "return-pinched": {quantity.Pressure},
}

// besides are words that stand beside figures of a dimension.
var besides = map[quantity.Dimension][]string{
	quantity.Ratio: {"highest", "lowest", "mean", "median", "average", "the", "loss", "lost", "held"},
	quantity.Angle: {"before", "after", "early", "late", "advanced", "retarded", "btdc", "atdc", "abdc", "bbdc", "tdc", "bdc", "bottom", "top", "dead", "centre", "center", "crank", "crankshaft"},
}

// measures are what the readings of a key are in.
func (w *schemaWriter) measures(k key, place string) []quantity.Dimension {
	units := k.units
	for i := len(w.units) - 1; i >= 0 && len(units) == 0; i-- {
		units = w.units[i]
	}
	var out []quantity.Dimension
	for _, u := range units {
		if d := quantity.DimensionOf(u); !slices.Contains(out, d) {
			out = append(out, d)
		}
	}
	switch {
	case k.form == asAmount && k.name == "cranking" && strings.Contains(place, "battery"):
		return []quantity.Dimension{quantity.Voltage}
	case k.form == asAmount:
		return amountsIn[k.name]
	case len(out) > 0 && len(k.keys) > 0: // with its speed
		return append(out, quantity.Rotation)
	case len(out) > 0:
		return out
	case place == "leak.loss" || place == "leakage.loss":
		return []quantity.Dimension{quantity.Ratio}
	case k.name == "gap":
		return []quantity.Dimension{quantity.Length}
	case k.name == "below-mean" || k.name == "from-mean":
		return []quantity.Dimension{quantity.Pressure, quantity.Ratio}
	}
	return []quantity.Dimension{quantity.Pressure}
}

// readingOf is the schema of a reading: a number, a figure in words, a state,
// or a list of repeats.
func (w *schemaWriter) readingOf(k key, place string) Object {
	measured := w.measures(k, place)
	name := w.figure(measured)
	number := Object{{"type", "number"}, {"minimum", 0}}
	if k.signed || len(w.units) > 0 || slices.Contains(measured, quantity.Temperature) {
		number = typeOf("number")
	}
	one := []any{number, Object{{"$ref", "#/$defs/" + name}}, w.state()}
	for _, word := range k.words { // of a clearance that is none
		one = append(one, Object{{"type", "string"}, {"pattern", "^ *" + anyCase(word) + " *$"}})
	}
	if slices.Contains(measured, quantity.Pressure) {
		w.keep("no-pressure", func() Object {
			v := vocabularyOf("pressure")
			return wordSchema(v.Words, v.others(v.Words))
		})
		one = append(one, Object{{"$ref", "#/$defs/no-pressure"}})
	}
	if place == "leakage.loss" { // with where it goes
		v := vocabularyOf("place of a leak")
		words := append([]string{"to", "at", "past", "into", "from", "and", "the", "about", "over"}, strings.Fields(strings.Join(append(slices.Clone(v.Words), v.others(v.Words)...), " "))...)
		one = append(one, Object{{"type", "string"}, {"allOf", []any{Object{{"pattern", "^[^A-Za-z]*[0-9]"}}, Object{{"pattern", wordsOnly(slices.Compact(slices.Sorted(slices.Values(words))), "A-Za-z:=")}}}}})
	}
	key := fmt.Sprintf("reading-%s-%v", strings.TrimPrefix(name, "figure-"), len(one))
	if len(k.words) > 0 {
		key += "-" + defName(strings.Join(k.words, "-"))
	}
	if len(number) == 1 {
		key += "-signed"
	}
	w.keep(key, func() Object {
		return Object{{"description", "A number, 'about 120', '145-155', 'over 300', 'not tested', 'could not test (why)', 'read, not told', or a list of repeats."},
			{"anyOf", append(slices.Clone(one), Object{{"type", "array"}, {"minItems", 1}, {"items", either(one...)}})}}
	})
	return Object{{"$ref", "#/$defs/" + key}}
}

// figure keeps the schema of figures of some dimensions, and gives its name.
func (w *schemaWriter) figure(measured []quantity.Dimension) string {
	var names, words []string
	for _, d := range measured {
		names = append(names, defName(string(d)))
		words = append(words, besides[d]...)
	}
	slices.Sort(names)
	name := "figure-" + strings.Join(names, "-")
	w.keep(name, func() Object {
		words = slices.Compact(slices.Sorted(slices.Values(append(words, quantity.Words(measured...)...))))
		signs := "A-Za-z:=" // that no figure has
		if !slices.Contains(measured, quantity.Ratio) {
			signs += "%"
		}
		return Object{{"type", "string"}, {"allOf", []any{Object{{"pattern", "[0-9½¼¾]"}}, Object{{"pattern", wordsOnly(words, signs)}}}}}
	})
	return name
}

// wordsOnly is a pattern of texts that have no other words than these, and
// none of some signs.
func wordsOnly(words []string, signs string) string {
	return "^[^" + signs + "]*(?:(?:" + strings.Join(spelledAny(words), "|") + ")(?:[^" + signs + "]+|$))*$"
}

// unitSigns are letters and signs of which a unit has some.
const unitSigns = "[A-Za-zΩω%\"″°]"

// amountOf is the schema of a number with its unit.
func (w *schemaWriter) amountOf(k key, place string) Object {
	figure := Object{{"$ref", "#/$defs/" + w.figure(w.measures(k, place))}}
	if !strings.Contains(place, "limits.") && k.name != "division" { // these may be in the unit of their section or scale
		figure = append(figure, Member{"pattern", unitSigns})
	}
	if k.name == "division" { // in the unit of the gauge's range
		return either(figure, Object{{"type", "number"}, {"exclusiveMinimum", 0}})
	}
	return figure
}

// permittedOf is the schema of a permitted range.
func (w *schemaWriter) permittedOf(k key, place string) Object {
	return either(typeOf("number"), Object{{"$ref", "#/$defs/" + w.figure(w.measures(k, place))}})
}

// byCylinderOf is the schema of what goes by cylinder: a mapping, a list, or a
// line of several.
func byCylinderOf(one Object, beside ...Member) Object {
	return either(Object{{"type", "object"}, {"minProperties", 1}, {"properties", append(Object{}, beside...)}, {"additionalProperties", one}}, Object{{"type", "array"}, {"minItems", 1}, {"items", one}},
		Object{{"type", "string"}, {"pattern", "[0-9]"}}, typeOf("number")) // of an engine of one cylinder
}

// leakOf is the schema of what one cylinder loses: held of supplied, a state, or
// its keys.
func (w *schemaWriter) leakOf() Object {
	held := w.figure([]quantity.Dimension{quantity.Pressure, quantity.Ratio})
	return byCylinderOf(either(Object{{"$ref", "#/$defs/" + held}}, w.state(), Object{{"$ref", "#/$defs/leak"}}))
}

// facesOf is the schema of the faces of the rotors: three of each, or a state.
func (w *schemaWriter) facesOf(k key, place string) Object {
	face := w.readingOf(k, place)
	one := either(Object{{"type", "array"}, {"minItems", 3}, {"maxItems", 3}, {"items", face}}, w.state(), Object{{"type", "string"}, {"pattern", "[0-9].*[0-9].*[0-9]"}})
	return either(Object{{"type", "object"}, {"minProperties", 1}, {"additionalProperties", one}}, Object{{"type", "array"}, {"minItems", 1}, {"items", one}})
}

// withoutBare is the schema of values of which each number names its unit.
func (w *schemaWriter) withoutBare() Object {
	w.keep("with-units", func() Object {
		again := Object{{"$ref", "#/$defs/with-units"}}
		var units []string
		for _, word := range unitNames([]quantity.Unit{quantity.PSI, quantity.KPa, quantity.Bar, quantity.MPa, quantity.KgfPerCm2}) {
			units = append(units, anyCase(word))
		}
		named := either(Object{{"not", Object{{"pattern", "[0-9]"}}}}, Object{{"pattern", strings.Join(append(units, "[Ll][Bb]|[Kk][Gg]|[Kk][Pp]|#|%|[Kk]ilopascal|[Ii]n|[Mm]m|[Hh][Pp]a|[Mm]bar|[Pp]ound|[Nn]ot|[Ss]"), "|")}})
		return Object{{"not", Object{{"type", "number"}}}, {"if", Object{{"type", "string"}}}, {"then", named}, {"items", again}, {"additionalProperties", again}}
	})
	return Object{{"$ref", "#/$defs/with-units"}}
}

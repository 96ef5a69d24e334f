package ask

import (
	"fmt"
	"slices"
	"strings"

	"gaugesheet/report/job"
)

// The ways in which a line becomes values of the job file.

// taker takes a line for the values of a key.
type taker = func(s *Session, line string) ([]entry, error)

// asText takes the line as it is.
func asText(path string) taker {
	return func(_ *Session, line string) ([]entry, error) { return []entry{at(path, line)}, nil }
}

// asTexts takes the line as a list of texts with semicolons between them.
func asTexts(path string) taker {
	return func(_ *Session, line string) ([]entry, error) {
		var texts []string
		for part := range strings.SplitSeq(line, ";") {
			if part = strings.TrimSpace(part); part != "" {
				texts = append(texts, part)
			}
		}
		return []entry{{strings.Split(path, "."), flow(texts)}}, nil
	}
}

// asWord takes one of the words of a key, or the beginning of one.
func asWord(path string) taker {
	return func(_ *Session, line string) ([]entry, error) {
		word, err := oneWord(keyAt(path), line)
		return []entry{at(path, word)}, err
	}
}

func oneWord(k job.Key, line string) (string, error) {
	found := wordFor(k, line)
	if len(found) > 1 {
		return "", fmt.Errorf("'%s' could be %s: type more of it", line, anyOf(found))
	}
	return found[0], nil
}

// asWords takes several words of a key.
func asWords(path string) taker {
	return func(_ *Session, line string) ([]entry, error) {
		k := keyAt(path)
		var words []string
		for _, typed := range manyWords(k, line) {
			word, err := oneWord(k, typed)
			if err != nil {
				return nil, err
			}
			words = append(words, word)
		}
		return []entry{{strings.Split(path, "."), flow(words)}}, nil
	}
}

// asYesNo takes yes or no.
func asYesNo(path string) taker {
	return func(_ *Session, line string) ([]entry, error) {
		switch fold(line) {
		case "y":
			line = "yes"
		case "n":
			line = "no"
		}
		return []entry{at(path, line)}, nil
	}
}

// asDate takes a date, or a word for today or the day before.
func asDate(path string) taker {
	return func(s *Session, line string) ([]entry, error) {
		switch fold(line) {
		case "t", "today":
			line = s.today(0)
		case "y", "yesterday":
			line = s.today(-1)
		default:
			if meant := job.DateMeant(line, s.Reader.Today); meant != "" {
				line = meant
			}
		}
		return []entry{at(path, line)}, nil
	}
}

// unitsOf are the units that a section may be in.
func unitsOf(section string) []string { return named(keyAt(section + ".unit")) }

// withUnit takes the unit off the end of a line, or asks for it where the
// section needs one and none is known. The values are what is asked about.
func (s *Session) withUnit(section, line string, try func(line string) ([]entry, error)) ([]entry, error) {
	units := unitsOf(section)
	rest, unit := trailingUnit(line, units)
	values, err := try(rest)
	if err != nil {
		return nil, err
	}
	if known := s.draft.value(section + ".unit"); known != "" || len(units) < 2 {
		return inOwnUnit(values, unit, known), nil
	}
	unitless, wrong := s.unitless(values)
	switch {
	case unit == "" && len(wrong) > 0: // said before a unit is asked for
		s.complain(wrong)
		return nil, errSaid
	case unit == "" && len(unitless) == 0: // each names its own
		return values, nil
	case unit == "":
		if unit, err = s.askUnit(units, unitless); err != nil {
			return nil, err
		}
	}
	if slices.Contains(unitsOf("compression"), unit) {
		s.unit = unit
	}
	return append([]entry{at(section+".unit", unit)}, values...), nil
}

// inOwnUnit gives values the unit that they were typed in, where their section
// has another.
func inOwnUnit(values []entry, unit, section string) []entry {
	if unit == "" || unit == section {
		return values
	}
	out := slices.Clone(values)
	for i := range out {
		out[i].value = scalar(strings.Trim(out[i].value, `"`) + " " + unit)
	}
	return out
}

// unitless are the problems of values in a section without a unit: that it has
// none, and all others.
func (s *Session) unitless(values []entry) (lacking, wrong job.Problems) {
	for _, p := range s.read(s.draft.with(values)) {
		if strings.Contains(p.Message, "without a unit") {
			lacking = append(lacking, p)
		} else {
			wrong = append(wrong, p)
		}
	}
	s.read(s.draft)
	return lacking, wrong
}

// A typedAnew is an answer that was typed again where its unit was asked for.
type typedAnew struct{ line string }

func (t *typedAnew) Error() string { return t.line }

// askUnit asks for the unit of bare numbers, which is never guessed: what the
// reader of job files takes it for is said, and Enter says that it is so.
func (s *Session) askUnit(units []string, lacking job.Problems) (string, error) {
	usual := s.unit
	for _, p := range lacking {
		if looks, _, _ := strings.Cut(p.Hint, ":"); strings.HasPrefix(looks, "the numbers look") { // what to write is for the file
			s.say(looks)
			usual = strings.TrimPrefix(looks, "the numbers look like ")
		}
	}
	prompt := "Unit of these numbers (" + strings.Join(units, ", ") + ")"
	if !slices.Contains(units, usual) {
		usual = ""
	} else {
		prompt += " [" + usual + "]"
	}
	for {
		line, err := s.line(prompt)
		unit := unitNamed(line, units)
		switch {
		case err != nil:
			return "", err
		case line == "" && usual != "":
			return usual, nil
		case unit != "":
			return unit, nil
		case strings.ContainsAny(line, "0123456789"):
			return "", &typedAnew{line}
		}
		s.say("'" + line + "' is none of " + strings.Join(units, ", "))
	}
}

// cylinderValues takes values by cylinder: all in their order, or those named.
func cylinderValues(section, path string) taker {
	return func(s *Session, line string) ([]entry, error) {
		return s.withUnit(section, line, func(line string) ([]entry, error) {
			values, err := byName(s.placed(line), s.engine.Names(), false)
			if err != nil {
				return nil, err
			}
			var out []entry
			for _, v := range values {
				out = append(out, entry{under(path, v.name), valueOf(v.text)})
			}
			return out, nil
		})
	}
}

// valueOf writes a value: repeats in brackets as they are.
func valueOf(text string) string {
	if strings.HasPrefix(text, "[") && strings.HasSuffix(text, "]") {
		return flow(list(strings.Trim(text, "[]")))
	}
	return scalar(text)
}

// A field is one value of a line of several.
type field struct {
	path, name string
}

// several takes a line of several values in the order of their fields, as many
// as were read: '41 33 42', or 'idle=33'.
func several(section string, fields ...field) taker {
	return func(s *Session, line string) ([]entry, error) {
		return s.withUnit(section, line, func(line string) ([]entry, error) {
			values, err := inFields(line, fields)
			if err != nil {
				return nil, err
			}
			var out []entry
			for _, v := range values {
				out = append(out, at(v.name, v.text))
			}
			return out, nil
		})
	}
}

// inFields gives the values of a line with the paths of their fields.
func inFields(line string, fields []field) ([]value, error) {
	names := make([]string, len(fields))
	for i, f := range fields {
		names[i] = f.name
	}
	values := pairs(line)
	if values == nil {
		texts := list(line)
		if len(texts) > len(fields) {
			return nil, fmt.Errorf("found %s, expected at most %d: %s", counted(len(texts)), len(fields), strings.Join(names, ", "))
		}
		for i, t := range texts {
			values = append(values, value{names[i], t})
		}
	}
	var out []value
	for _, v := range values {
		i := slices.IndexFunc(names, func(n string) bool { return strings.HasPrefix(fold(n), fold(strings.ReplaceAll(v.name, "-", " "))) })
		switch {
		case i < 0:
			return nil, fmt.Errorf("'%s' is none of %s", v.name, strings.Join(names, ", "))
		case v.text != notRecorded:
			out = append(out, value{fields[i].path, v.text})
		}
	}
	return out, nil
}

// bySpeed takes readings by speed or by time: '2000=34 3000=46', a number alone
// being in that unit.
func bySpeed(section, path, unit string) taker {
	return func(s *Session, line string) ([]entry, error) {
		return s.withUnit(section, line, func(line string) ([]entry, error) {
			values := pairs(line)
			if values == nil {
				example := map[string]string{"rpm": "2000=34 3000=46", "min": "1=40 5=36"}[unit]
				return nil, fmt.Errorf("found '%s', expected each %s with its reading, such as %s", line, unit, example)
			}
			var out []entry
			for _, v := range values {
				if isNumber(v.name) {
					v.name += " " + unit
				}
				out = append(out, entry{under(path, v.name), scalar(v.text)})
			}
			return out, nil
		})
	}
}

package job

import (
	"slices"
	"strings"
)

// sample is what may stand as a key's value for this engine, "" for free words
// that need no example.
func (w *starter) sample(k key) string {
	names := w.engine.Names()
	switch {
	case k.perName:
		return fitted(k.example, names)
	case k.name == "order":
		return "[" + strings.Join(names, ", ") + "]"
	case k.name == "banks":
		var banks []string
		for _, b := range w.engine.Banks {
			banks = append(banks, b.Name+": ["+strings.Join(b.Cylinders, ", ")+"]")
		}
		return "{" + strings.Join(banks, ", ") + "}"
	case k.name == "heads":
		var heads []string
		for _, h := range w.engine.Heads {
			heads = append(heads, "["+strings.Join(h, ", ")+"]")
		}
		return "[" + strings.Join(heads, ", ") + "]"
	case k.name == "deactivates":
		return "[" + strings.Join(names[:len(names)/2], ", ") + "]"
	case k.name == "shared-coils":
		var coils []string
		for i := range len(names) / 2 {
			coils = append(coils, "["+names[i]+", "+names[len(names)-1-i]+"]")
		}
		return "[" + strings.Join(coils, ", ") + "]"
	case k.name == "before" && k.form == asSpecial && w.rotary:
		return "{done: new seals, rotors: {unit: kgf/cm2, faces: {" + names[0] + ": [5.1, 5.0, 5.2]}}}"
	case k.name == "before" && k.form == asSpecial:
		return "{done: new rings, compression: {unit: psi, dry: {" + names[0] + ": 95}}}"
	case k.name == "cylinders" && k.form != asReadings:
		return "[" + strings.Join(names, ", ") + "]"
	case k.example != "":
		return k.example
	case len(k.words) > 0:
		return k.words[0]
	case k.form == asYesNo:
		return "no"
	case k.form == asReading:
		return "120"
	}
	return ""
}

// fitted gives an example by cylinder with the names of an engine's: where the
// engine has none of a name, the next that the example does not use.
func fitted(example string, names []string) string {
	entries := entriesOf(example)
	used := map[string]bool{}
	for _, e := range entries {
		name, _, _ := strings.Cut(e, ":")
		used[name] = true
	}
	free := slices.DeleteFunc(slices.Clone(names), func(n string) bool { return used[n] })
	var out []string
	for _, e := range entries {
		name, value, _ := strings.Cut(e, ":")
		if !slices.Contains(names, name) {
			if len(free) == 0 {
				continue
			}
			name, free = free[0], free[1:]
		}
		out = append(out, name+":"+value)
	}
	return "{" + strings.Join(out, ", ") + "}"
}

// entriesOf takes a mapping in braces apart, its entries as they are written.
func entriesOf(example string) []string {
	var out []string
	depth, start := 0, 1
	for i, c := range example {
		switch {
		case c == '{' || c == '[':
			depth++
		case c == '}' || c == ']':
			depth--
		}
		if depth == 1 && c == ',' || depth == 0 {
			out = append(out, strings.TrimSpace(example[start:i]))
			start = i + 1
		}
	}
	return out
}

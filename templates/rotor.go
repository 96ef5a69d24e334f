package templates

import (
	"slices"
	"strings"

	"gaugesheet/diag"
)

// byPlace are names of rotors that say where they stand.
var byPlace = []string{"front", "rear", "middle", "centre", "center"}

// rotor names rotors as one speaks of them: "rear rotor", "front and rear
// rotors", "rotor 2".
func rotor(n diag.Names) string {
	switch {
	case !namedByPlace(n):
		return counted(n, "rotor", "rotors")
	case len(n) == 1:
		return n[0] + " rotor"
	}
	return list(n) + " rotors"
}

// namedByPlace reports names that only rotors have.
func namedByPlace(n diag.Names) bool {
	return !slices.ContainsFunc(n, func(name string) bool { return !slices.Contains(byPlace, strings.ToLower(name)) })
}

// cylinders names cylinders, or rotors where the names say where they stand:
// "cylinder 1", "cylinders 1 and 3", "the rear rotor".
func cylinders(n diag.Names) string {
	if len(n) > 0 && namedByPlace(n) {
		return "the " + rotor(n)
	}
	return counted(n, "cylinder", "cylinders")
}

// capital begins a sentence.
func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

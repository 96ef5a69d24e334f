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
	for _, name := range n {
		if !slices.Contains(byPlace, strings.ToLower(name)) {
			return counted(n, "rotor", "rotors")
		}
	}
	if len(n) == 1 {
		return n[0] + " rotor"
	}
	return list(n) + " rotors"
}

// capital begins a sentence.
func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

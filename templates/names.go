package templates

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"gaugesheet/diag"
)

// list joins names as a sentence does: "1", "3 and 5", "1, 3 and 5".
func (c *Catalogue) list(names diag.Names) (string, error) {
	if len(names) == 0 {
		return "", nil
	}
	said, err := names[0], error(nil)
	for i, name := range names[1:] {
		key := "list.next"
		if i == len(names)-2 {
			key = "list.last"
		}
		if said, err = c.Label(key, diag.Facts{"list": said, "name": name}); err != nil {
			return "", err
		}
	}
	return said, nil
}

// List is names as a sentence has them: "1, 3 and 5".
func (c *Catalogue) List(names []string) (string, error) { return c.list(names) }

// counted says names after what they are names of: the label of one, or that of
// several with their list.
func (c *Catalogue) counted(n diag.Names, one, many string) (string, error) {
	if len(n) == 1 {
		return c.Label(one, diag.Facts{"name": n[0]})
	}
	names, err := c.list(n)
	if err != nil {
		return "", err
	}
	return c.Label(many, diag.Facts{"names": names})
}

// byPlace are names of rotors that say where they stand.
var byPlace = []string{"front", "rear", "middle", "centre", "center"}

// rotor names rotors as one speaks of them: "rear rotor", "front and rear
// rotors", "rotor 2".
func (c *Catalogue) rotor(n diag.Names) (string, error) {
	if namedByPlace(n) {
		return c.counted(n, "name.rotor-by-place", "name.rotors-by-place")
	}
	return c.counted(n, "name.rotor", "name.rotors")
}

// theRotor names rotors within a sentence: "the rear rotor", "rotor 2".
func (c *Catalogue) theRotor(n diag.Names) (string, error) {
	said, err := c.rotor(n)
	if err != nil || !namedByPlace(n) {
		return said, err
	}
	return c.Label("name.the-rotor", diag.Facts{"rotor": said})
}

// namedByPlace reports names that only rotors have.
func namedByPlace(n diag.Names) bool {
	return !slices.ContainsFunc(n, func(name string) bool { return !slices.Contains(byPlace, strings.ToLower(name)) })
}

// cylinders names cylinders, or rotors where the names say where they stand:
// "cylinder 1", "cylinders 1 and 3", "the rear rotor".
func (c *Catalogue) cylinders(n diag.Names) (string, error) {
	if len(n) > 0 && namedByPlace(n) {
		return c.theRotor(n)
	}
	return c.counted(n, "name.cylinder", "name.cylinders")
}

// where says of which cylinders a check is: nothing for an engine of one, or
// where none are named; every one by its own words; else the word before them
// and their names. A rotary engine's are rotors.
func (c *Catalogue) where(facts diag.Facts, every, before string) (string, error) {
	names, _ := facts["Cylinders"].(diag.Names)
	is := func(fact string) bool { yes, _ := facts[fact].(bool); return yes }
	var said string
	var err error
	switch {
	case len(names) == 0 || !is("several"):
		return "", nil
	case is("rotary"):
		said, err = c.theRotor(names)
	case is("all"):
		return " " + every, nil
	default:
		said, err = c.counted(names, "name.cylinder", "name.cylinders")
	}
	return " " + before + " " + said, err
}

// capital begins a sentence.
func capital(s string) string {
	first, size := utf8.DecodeRuneInString(s)
	if size == 0 {
		return s
	}
	return string(unicode.ToUpper(first)) + s[size:]
}

// capitalOf begins a sentence with what was said, if anything could be.
func capitalOf(s string, err error) (string, error) { return capital(s), err }

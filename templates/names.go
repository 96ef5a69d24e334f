package templates

import (
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"gaugesheet/diag"
)

// list joins names as a sentence does: "1", "3 and 5", "1, 3 and 5", "1 to 8".
func (c *Catalogue) list(names diag.Names) (string, error) {
	if len(names) == 0 {
		return "", nil
	}
	if inARow(names) {
		return c.Label("span", diag.Facts{"low": names[0], "high": names[len(names)-1]})
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

// quoted gives what somebody wrote, each piece in quotation marks of its own: nobody said the
// "and" between two of them.
func (c *Catalogue) quoted(names diag.Names) (string, error) {
	var said diag.Names
	for _, name := range names {
		one, err := c.Label("quoted", diag.Facts{"name": name})
		if err != nil {
			return "", err
		}
		said = append(said, one)
	}
	return c.list(said)
}

// longRow is how many numbers in a row are told by the first and the last of them.
const longRow = 4

// inARow reports numbers each of which is one more than the one before.
func inARow(names diag.Names) bool {
	if len(names) < longRow {
		return false
	}
	first, err := strconv.Atoi(names[0])
	return err == nil && !slices.ContainsFunc(names, func(name string) bool {
		n, err := strconv.Atoi(name)
		first++
		return err != nil || n != first-1
	})
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

// byPlace are names that say where a cylinder or a rotor stands.
var byPlace = []string{"front", "rear", "middle", "centre", "center", "left", "right", "top", "bottom", "inner", "outer", "port", "starboard"}

func namedByPlace(n diag.Names) bool {
	place := func(word string) bool { return slices.Contains(byPlace, word) }
	return len(n) > 0 && !slices.ContainsFunc(n, func(name string) bool {
		words := strings.Fields(strings.ToLower(name))
		return len(words) == 0 || slices.ContainsFunc(words, func(word string) bool { return !place(word) })
	})
}

// rotor names rotors as one speaks of them: "rear rotor", "front and rear
// rotors", "rotor 2".
func (c *Catalogue) rotor(n diag.Names) (string, error) {
	if namedByPlace(n) {
		return c.counted(n, "name.rotor-by-place", "name.rotors-by-place")
	}
	return c.counted(n, "name.rotor", "name.rotors")
}

// shownOne stands for the name of a cylinder that a check shows which nobody has made yet.
const shownOne = "that one"

// cylinders names cylinders within a sentence, or the rotors of a rotary engine:
// "cylinder 1", "cylinders 1 and 3", "the rear cylinder", "the rear rotor".
func (c *Catalogue) cylinders(n diag.Names) (string, error) {
	said, err := "", error(nil)
	switch byPlace := namedByPlace(n); {
	case len(n) > 0 && n[0] == shownOne:
		return c.Label("name.shown", diag.Facts{"names": n, "rotary": c.chambers == diag.OfRotors})
	case c.chambers == diag.OfOneCylinder && len(n) == 1:
		return c.Label("name.only-cylinder", nil)
	case c.chambers == diag.OfRotors:
		said, err = c.rotor(n)
	case byPlace:
		said, err = c.counted(n, "name.cylinder-by-place", "name.cylinders-by-place")
	default:
		said, err = c.counted(n, "name.cylinder", "name.cylinders")
	}
	if err != nil || !namedByPlace(n) {
		return said, err
	}
	return c.Label("name.by-place", diag.Facts{"named": said})
}

// where says of which cylinders a check is: nothing for an engine of one, or
// where none are named; every one by its own words; else the word before them
// and their names.
func (c *Catalogue) where(facts diag.Facts, every, before string) (string, error) {
	names, _ := facts["Cylinders"].(diag.Names)
	is := func(fact string) bool { yes, _ := facts[fact].(bool); return yes }
	switch {
	case len(names) == 0 || !is("several"):
		return "", nil
	case is("all") && !is("rotary"):
		return " " + every, nil
	}
	of := c.Of(diag.OfCylinders)
	if is("rotary") {
		of = c.Of(diag.OfRotors)
	}
	said, err := of.cylinders(names)
	return " " + before + " " + said, err
}

// uncapital begins a sentence as a part of another; a word in capitals stays.
func uncapital(s string) string {
	first, size := utf8.DecodeRuneInString(s)
	if next, _ := utf8.DecodeRuneInString(s[size:]); unicode.IsUpper(next) {
		return s
	}
	return string(unicode.ToLower(first)) + s[size:]
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

// term says a word of the program by its label: the kind "grade" and the word
// "very low" are the label "grade.very low".
func (c *Catalogue) term(kind, word string) (string, error) {
	if kind == "complaint" {
		return c.Complaint(word)
	}
	return c.Label(kind+"."+word, nil)
}

// Complaint says a complaint, also one that a stored code makes.
func (c *Catalogue) Complaint(name string) (string, error) {
	if code, stored := strings.CutPrefix(name, diag.CodeComplaint); stored {
		return c.Label("complaint."+strings.TrimSpace(diag.CodeComplaint), diag.Facts{"code": code})
	}
	return c.Label("complaint."+name, nil)
}

// terms says several.
func (c *Catalogue) terms(kind string, words diag.Names) (diag.Names, error) {
	said := make(diag.Names, len(words))
	for i, word := range words {
		var err error
		if said[i], err = c.term(kind, word); err != nil {
			return nil, err
		}
	}
	return said, nil
}

// Because says why a test was not made: its state with the reason in the job's own
// words, which stand alone where they say the state themselves.
func (c *Catalogue) Because(state diag.State, reason string) (string, error) {
	said, err := c.term("state", string(state))
	if err != nil || reason == "" {
		return said, err
	}
	if SaysState(said, reason) { // "declined by the owner"
		return reason, nil
	}
	return c.Label("state.because", diag.Facts{"state": said, "reason": reason})
}

// SaysState tells whether a reason says a state by itself, which is said so.
func SaysState(state, reason string) bool {
	return state != "" && strings.HasPrefix(strings.ToLower(reason), state)
}

// known says a word that may also be the user's own, which stays as it is.
func (c *Catalogue) known(kind, word string) (string, error) {
	if !c.Has("labels", kind+"."+word) {
		return word, nil
	}
	return c.term(kind, word)
}

// when says when another test was made, by the label for a day and the one for
// what the job calls the test.
func (c *Catalogue) when(w *diag.When, kind string) (string, error) {
	if w.Day.IsZero() {
		return c.Label(kind+"test", diag.Facts{"label": w.Label})
	}
	day, err := c.Date(w.Day)
	if err != nil {
		return "", err
	}
	return c.Label(kind+"day", diag.Facts{"day": day})
}

// Date is a day as people write it, with the month in words.
func (c *Catalogue) Date(day time.Time) (string, error) {
	months, err := c.Label("date.months", nil)
	if err != nil {
		return "", err
	}
	return c.Label("date.form", diag.Facts{"day": day.Day(), "month": strings.Fields(months)[day.Month()-1], "year": day.Year()})
}

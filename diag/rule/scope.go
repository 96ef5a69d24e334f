package rule

import (
	"gaugesheet/diag/known"
)

// A Scope is of what a rule is asked, with the words that say it.
type Scope struct {
	Words string
	Of    func(*known.Case) []known.Subject
	// Each: of every cylinder by itself. What holds for several is said
	// together where they are one story.
	Each bool
}

var (
	// eachCylinder asks of every cylinder by itself.
	eachCylinder = Scope{Words: "a cylinder", Each: true, Of: (*known.Case).EachCylinder}
	// theEngine asks once, of the engine as a whole.
	theEngine = Scope{Of: func(*known.Case) []known.Subject { return wholeEngine }}
	// eachCircuit asks of every fuel circuit.
	eachCircuit = Scope{Words: "a fuel circuit", Of: func(c *known.Case) []known.Subject {
		var list []known.Subject
		for _, k := range c.Circuits() {
			list = append(list, known.Subject{Circuit: &k})
		}
		return list
	}}
	// everyRead asks once, of all cylinders whose compression was read.
	everyRead = Scope{Words: "the cylinders read", Of: func(c *known.Case) []known.Subject {
		return []known.Subject{{Cylinders: c.Read()}}
	}}
)

// wholeEngine is asked of alone, to be read and not changed.
var wholeEngine = []known.Subject{{}}

// sets asks of sets of cylinders that a function gives, each set together.
func sets(words string, of func(*known.Case) [][]string) Scope {
	return Scope{Words: words, Of: func(c *known.Case) []known.Subject {
		var list []known.Subject
		for _, names := range of(c) {
			if len(names) > 0 {
				list = append(list, known.Subject{Cylinders: names})
			}
		}
		return list
	}}
}

// oneSet asks of one set of cylinders, where it is not empty.
func oneSet(words string, of func(*known.Case) []string) Scope {
	return Scope{Words: words, Of: func(c *known.Case) []known.Subject {
		names := of(c)
		if len(names) == 0 {
			return nil
		}
		return []known.Subject{{Cylinders: names}}
	}}
}

func each(names []string) []known.Subject {
	list := make([]known.Subject, len(names))
	for i := range names {
		list[i].Cylinders = names[i : i+1 : i+1]
	}
	return list
}

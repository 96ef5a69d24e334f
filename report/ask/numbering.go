package ask

import (
	"fmt"
	"slices"
	"strings"

	"gaugesheet/diag/engine"
)

var sides = []string{"left", "right", "front", "rear"}

// numberingHint says what may be typed for the numbering of this engine.
func numberingHint(s *Session) string {
	choices := engine.Choices(s.engine.Layout)
	words := "left"
	if choices[0].Numbering != "" {
		words = choices[0].Numbering + ", left"
	}
	var banks []string
	for _, b := range choices[0].Banks(s.engine.Layout) {
		banks = append(banks, b.Name+" "+strings.Join(b.Cylinders, " "))
	}
	return fmt.Sprintf("1 to %d, or in words: %s, or the cylinders: %s", len(choices), words, strings.Join(banks, " "))
}

// bankOf is a bank with its cylinders, 'left 1 3 5 7'.
var bankOf = lazily(`(left|right|front|rear)[:=]?((?:[\s,]+[0-9]+)+)`)

// takeNumbering takes the number of a drawing, the words for it, or the
// cylinders of each bank.
func takeNumbering(s *Session, line string) ([]entry, error) {
	typed := fold(line)
	choices := engine.Choices(s.engine.Layout)
	if i := slices.Index([]string{"1", "2", "3", "4"}, typed); i >= 0 && i < len(choices) {
		return entriesOf(choices[i]), nil
	}
	if banks := bankOf().FindAllStringSubmatch(typed, -1); len(banks) == 2 {
		var out []entry
		for _, b := range banks {
			out = append(out, entry{under("engine.banks", b[1]), flow(strings.FieldsFunc(b[2], func(c rune) bool { return c == ' ' || c == ',' }))})
		}
		return out, nil
	}
	c, _ := choiceIn(typed)
	switch {
	case c.Numbering == "" && choices[0].Numbering != "":
		return nil, fmt.Errorf("type the number of a drawing, 1 to %d, or say how: across banks or bank by bank", len(choices))
	case c.FirstBank == "":
		return nil, fmt.Errorf("say also which side number 1 is on: '%s, left' or '%s, right'", line, line)
	}
	return entriesOf(c), nil
}

// leftOpen reports that the numbering was left to be looked up later.
func (s *Session) leftOpen(d draft) bool {
	return s.later["numbering"] && s.engine != nil && s.engine.IsTwoBank() && !d.has("engine.banks") && !d.has("engine.first-bank")
}

// choiceIn finds the words of a numbering in a line, 'odd left' and 'bank by bank,
// front', and gives what is left of it without them.
func choiceIn(line string) (c engine.Choice, rest string) {
	var left []string
	for _, word := range strings.FieldsFunc(line, func(r rune) bool { return strings.ContainsRune(" ,;()", r) }) {
		switch plain := fold(word); {
		case plain == "across" || plain == "odd" || plain == "odds": // odd left: number 1 is odd
			c.Numbering = engine.AcrossBanks
		case plain == "by":
			c.Numbering = engine.BankByBank
		case slices.Contains(sides, plain):
			c.FirstBank = plain
		case plain != "bank" && plain != "banks" && plain != "side":
			left = append(left, word)
		}
	}
	return c, strings.Join(left, " ")
}

func entriesOf(c engine.Choice) []entry {
	var out []entry
	if c.Numbering != "" {
		out = append(out, at("engine.numbering", c.Numbering))
	}
	return append(out, at("engine.first-bank", c.FirstBank))
}

// numberingShown says which cylinders stand on which side.
func numberingShown(s *Session, _ []entry) {
	for _, b := range s.engine.Banks {
		s.say("= " + b.Name + " " + strings.Join(b.Cylinders, " "))
	}
}

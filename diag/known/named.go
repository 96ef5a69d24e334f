package known

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// token is a word, a number with its decimals, or a sign.
var token = regexp.MustCompile(`\p{L}+(?:['’]\p{L}+)?|\d+(?:\.\d+)?|\S`)

func words(list string) map[string]bool {
	set := map[string]bool{}
	for _, w := range strings.Fields(list) {
		set[w] = true
	}
	return set
}

// What a job's own words say around the name of a cylinder.
var (
	// beforeName are words that a cylinder follows: "on 2 and 3", "coil 3", "#3".
	beforeName = words("cylinder cylinders cyl cyls no nos nr nrs number numbers plug plugs coil coils injector injectors lead leads boot boots " +
		"piston pistons rod rods rotor rotors pot pots hole holes bore bores liner liners sleeve sleeves on of in for at from with to between into #")
	// within are words that may stand between these and the name.
	within = words("the . # no nr number cylinder cylinders cyl")
	// joints hold a list of names together.
	joints = words(", and & + with to / - –")
	// afterName are words that follow a cylinder: "3 swapped", "left plug", "3: scored".
	afterName = words(": cylinder cyl plug coil rotor bore piston pot barrel injector lead side swapped changed exchanged renewed replaced checked tested retested " +
		"cleaned moved borescoped looked scored holed burnt bent")
	// counted are words after which a number was no cylinder.
	counted = words("% ° hour hours hr hrs h minute minutes min mins second seconds sec secs s day days week weeks month months year years mile miles mi km m mm cm " +
		"inch inches thou psi bar kpa mpa kgf v volt volts mv a amp amps ohm ohms nm lb lbs ft ml cc l litre litres liter liters quart quarts pint pints oz gallon gallons " +
		"percent per point points rpm deg degree degrees c f time times turn turns stroke strokes pull pulls of cylinders plugs coils injectors rotors rings valves drive socket new more other others " +
		"january february march april may june july august september october november december jan feb mar apr jun jul aug sep sept oct nov dec")
	// ordinary are words after which the name of a cylinder that is also a word
	// is no name: "in front of", "left open".
	ordinary = words("of open over out")
)

// ratioSaid is a compression ratio, "8.5 to 1" or "9:1", whose one is no cylinder.
var ratioSaid = regexp.MustCompile(`\b(?:[5-9]|1\d|2\d)(?:[.,]\d+)? ?(?:to|:) ?1\b`)

// namedIn lists the cylinders of this engine that a text in lower case names.
func (c *Case) namedIn(text string) []string {
	said := token.FindAllString(ratioSaid.ReplaceAllString(text, " "), -1)
	var names []string
	add := func(n string) {
		if n != "" && !slices.Contains(names, n) {
			names = append(names, n)
		}
	}
	follows := false // a word that a cylinder follows, or a list of them, came before
	last := ""       // the name before a joint
	skip := 0        // words of a name that was taken already
	for i, word := range said {
		if skip > 0 {
			skip--
			continue
		}
		name, long := c.nameAt(said, i)
		switch {
		case name != "" && (follows || i+long < len(said) && afterName[said[i+long]]):
			skip = long - 1
			if joint := said[max(i-1, 0)]; last != "" && (joint == "-" || joint == "–") {
				for _, between := range c.between(last, name) {
					add(between)
				}
			}
			add(name)
			follows, last = true, name
		case beforeName[word]:
			follows, last = true, ""
		case within[word], last != "" && joints[word]:
		default:
			follows, last = false, ""
		}
	}
	c.InOrder(names)
	return names
}

// words are those of each cylinder's name.
func (c *Case) words() [][]string {
	if c.called == nil {
		c.called = [][]string{}
		for _, n := range c.Every() {
			c.called = append(c.called, token.FindAllString(strings.ToLower(n), -1))
		}
	}
	return c.called
}

// nameAt gives the cylinder whose name begins at a word of a text, and of how
// many words it is; "" for none: not a count, a date or a measure. Of two names
// that fit, such as "left" and "left rear", it is the longer one.
func (c *Case) nameAt(said []string, i int) (name string, long int) {
	for k, parts := range c.words() {
		n := c.EachCylinder()[k].Name()
		if len(parts) > long && i+len(parts) <= len(said) && slices.Equal(parts, said[i:i+len(parts)]) {
			name, long = n, len(parts)
		}
	}
	if name == "" {
		return "", 0
	}
	next := func(ahead int) string {
		if i+long-1+ahead < len(said) {
			return said[i+long-1+ahead]
		}
		return ""
	}
	_, err := strconv.Atoi(name)
	switch number := err == nil; {
	case !number && ordinary[next(1)], number && counted[next(1)]:
		return "", 0
	// The first number of a range with a unit, or of a fraction of an inch.
	case number && joints[next(1)] && counted[next(3)] && next(1) != ",":
		return "", 0
	}
	return name, long
}

// between lists the cylinders within a range such as "1-4".
func (c *Case) between(first, last string) []string {
	from, err := strconv.Atoi(first)
	to, err2 := strconv.Atoi(last)
	if err != nil || err2 != nil {
		return nil
	}
	var names []string
	for _, n := range c.Every() {
		if number, err := strconv.Atoi(n); err == nil && number > from && number < to {
			names = append(names, n)
		}
	}
	return names
}

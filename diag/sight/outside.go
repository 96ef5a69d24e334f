package sight

import (
	"regexp"
	"slices"
	"strings"
	"sync"
)

// otherGaskets are those beside that of the head, whatever is damaged in a word of their names.
const otherGaskets = "exhaust gasket|exhaust gaskets|intake gasket|inlet gasket|manifold gasket|exhaust manifold gasket|intake manifold gasket|inlet manifold gasket|cover gasket|rocker cover gasket|valve cover gasket|cam cover gasket|pan gasket|riser gasket|base gasket|pump gasket|housing gasket|plug hole gasket|plug well gasket"

// outsideWords are parts beside the cylinders, or on them: what is torn or burned through there
// is no damage within, whatever cylinder it is at.
const outsideWords = otherGaskets + "|" +
	"washer|washers|copper washer|copper seal|copper seals|injector washer|injector seal|injector seals|sealing washer|o ring|o rings|stem seal|stem seals|valve stem seal|valve stem seals|valve seal|valve seals|" +
	"baffle|baffles|shroud|cowling|cowl|fin|fins|cooling fin|cooling fins|housing|air box|airbox|air filter|filter|filter housing|hose|hoses|pipe|pipes|injector pipe|injector line|fuel line|fuel lines|return line|return lines|fuel rail|clamp|clamps|bracket|mount|mounts|" +
	"manifold|manifolds|exhaust manifold|intake manifold|inlet manifold|muffler|silencer|header|headers|downpipe|stack|stacks|exhaust stack|exhaust stacks|exhaust pipe|exhaust stud|riser|elbow|turbo|turbocharger|carburetor|carburettor|boot|boots|intake boot|inlet rubber|intake rubber|" +
	"ring gear|starter ring|belt|belts|pulley|pulleys|tensioner|cover|covers|rocker cover|valve cover|cam cover|wire|wires|plug wire|lead|leads|plug lead|coil|coils|distributor cap|connector|sensor|thermostat|radiator|water pump|oil cooler|dipstick|breather|pushrod tube|pushrod tubes|stud|studs|bolt|bolts|head bolt|head bolts|cylinder head bolt"

var outsideNamed = sync.OnceValue(func() *regexp.Regexp {
	names := strings.Split(outsideWords, "|")
	slices.SortFunc(names, func(a, b string) int { return len(b) - len(a) })
	return regexp.MustCompile(`\b(?:(?:exhaust|intake|inlet) )?(?:` + strings.Join(names, "|") + `)\b`)
})

// Within is what a line of work or findings says but for its clauses of parts outside the
// cylinders: "exhaust gasket at cylinder 3 burnt through" says nothing of its inside.
func Within(line string) string {
	if !namesOutside(likeWords.Replace(strings.ToLower(line))) {
		return line
	}
	return strings.Join(slices.DeleteFunc(clausesOf(line), outside), "; ")
}

// ofBearings is a text in which a bearing, with what it sits on, is a thing outside.
func ofBearings(text string) string {
	return bearingNamed.ReplaceAllString(text, "x9")
}

func namesOutside(text string) bool {
	return outsideNamed().MatchString(text) || bearingNamed.MatchString(text)
}

// outside reports a clause whose part lies outside.
func outside(text string) bool {
	rest := outsideNamed().ReplaceAllString(ofBearings(text), "x9")
	if rest == text {
		return false
	}
	words := parse(rest).words
	for i, w := range words {
		switch {
		case w.kind != isPart || w.place:
		case w.part == "pot":
			if i > 0 && listed("in|into|inside", words[i-1].text) {
				return false
			}
		default:
			return false
		}
	}
	return true
}

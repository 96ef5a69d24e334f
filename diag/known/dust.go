package known

import (
	"regexp"
	"slices"
)

// DustDrawnIn is dust on the engine's side of its air filter, dust inside or drawn in beside a
// filter or a hose behind it that is open, or an engine that is called dusted.
var DustDrawnIn = OfEngine("dust behind the air filter among the technician's findings, dust inside or drawn in and an air filter or its hose that is open, or an engine said to be dusted", func(c *Case) bool {
	return c.findingSays(func(text string) bool { return SpeaksOf(text, dusted...) || dusty(text) && behindTheFilter(text) }) ||
		c.findingSays(func(text string) bool { return dusty(text) && SpeaksOf(text, wentIn...) }) &&
			c.findingSays(func(text string) bool { return SpeaksOf(text, filterOpen...) && !SpeaksOf(text, otherHose...) })
})

var (
	// dustWord is what the air of a field or a road carries; a throttle that is dirty is so of
	// the engine's own oil and carbon.
	dustWord = regexp.MustCompile(`\b(dust|dirt|grit|sand|chaff)\b`)
	// cleanWord says of what it stands by that nothing got there.
	cleanWord = regexp.MustCompile(`\b(clean|spotless|none|nothing)\b`)
	// outsideWord is where dust does nothing.
	outsideWord = regexp.MustCompile(`\b(outside of|on top of|under the hose)\b`)
	sideName    = regexp.MustCompile(`\b(clean side|air cleaner)\b`)
)

// dusty reports dust that the text does not deny.
func dusty(text string) bool { return undenied(dustWord, text) }

// undenied reports a match that the words about it do not deny.
func undenied(of *regexp.Regexp, text string) bool {
	return slices.ContainsFunc(of.FindAllStringIndex(text, -1), func(at []int) bool { return !deniedNear(text[:at[0]], text[at[1]:]) })
}

// behindTheFilter reports a place on the engine's side of the filter that is not said to be clean.
func behindTheFilter(text string) bool {
	return slices.ContainsFunc(clauseEnd.Split(text, -1), func(clause string) bool {
		said := sideName.ReplaceAllString(clause, "there")
		return !undenied(cleanWord, said) && !outsideWord.MatchString(clause) && SpeaksOf(clause, behindFilter...)
	})
}

// dusted are the trade's words of an engine that has drawn dust in.
var dusted = []string{"dusted engine", "engine dusted", "engine is dusted", "engine was dusted", "engine has been dusted", "engine got dusted", "dusted out", "dust ingestion", "dirt ingestion", "ingested dust", "ingested dirt", "ingested sand"}

// wentIn is what is said of dust that got where it should not.
var wentIn = []string{"inside", "in the hose", "in the duct", "in the pipe", "in the tube", "through", "drawn in", "draws in", "drew in", "drawing", "draws", "sucked in", "sucks in", "pulled in", "got in", "gets in", "getting in", "let in", "lets in"}

// filterOpen are words of an air filter, or of the hose or duct behind it, past which air gets in.
var filterOpen = append(pairs("air cleaner|air filter|filter element|filter seal|filter housing|filter box|air box|airbox|intake hose|inlet hose|intake duct|inlet duct|intake pipe|inlet pipe|intake boot|inlet boot|hose|boot|air hose|turbo hose",
	"split|torn|cracked|holed|hole|perished|chafed through|missing|left off|off|loose|not seated|not seating"), "no air filter", "no air cleaner", "without air filter", "without an air filter")

// otherHose is one that carries no air for the engine to burn.
var otherHose = []string{"coolant", "radiator", "heater", "water hose", "fuel hose", "oil hose", "vacuum hose", "breather", "brake"}

// behindFilter are places on the engine's side of the filter.
var behindFilter = slices.Concat([]string{"behind the element", "behind the filter", "behind the air filter", "behind the air cleaner", "past the element", "past the filter", "past the air filter", "past the air cleaner",
	"after the filter", "after the element", "after the air filter", "downstream of the filter", "downstream of the air filter", "downstream of the element", "clean side", "in the intake", "in the inlet", "in the manifold",
	"in intake manifold", "in inlet manifold", "inside the manifold", "in the throttle", "in throttle body", "in the carburettor", "in the carburetor", "intake tract", "inlet tract", "intake hose", "intake duct", "inlet hose", "inlet duct",
	"intake pipe", "inlet pipe", "intake tube", "inlet tube", "intake elbow", "inlet elbow", "intake boot", "inlet boot", "in the air cleaner hose", "in the air horn", "turbo inlet", "turbocharger inlet", "turbo intake", "compressor inlet",
	"compressor wheel", "in the compressor housing", "in the boost pipe", "in the charge pipe", "in the intercooler", "inside the intercooler"},
	pairs("between air cleaner|between the air cleaner|between air filter|between the air filter|between filter|between the filter|from air cleaner|from the air cleaner", "manifold|engine|turbo|throttle|carburetor|carburettor"))

package known

import (
	"slices"
	"strings"
)

// ExhaustFilter is an engine with a filter for soot in its exhaust: by a code of it, by what was
// found or done, by where the back-pressure was read or by what the vehicle is called. Coded is
// one that a code or the technician says is full or not burned clean.
func (c *Case) ExhaustFilter() (coded, there bool) {
	f := remembered(&c.exhaustFilter, func() exhaustFilter {
		coded := c.Coded(exhaustFilterCodes...) || c.Found(regenerationFails...)
		named := c.described(exhaustFilters) || c.Found(exhaustFilters...) || SpeaksOf(c.backPressureAt(), exhaustFilters...) || c.worked(exhaustFilters)
		gone := (c.described(filterGone) || c.worked(filterGone)) && !c.worked(filterBack)
		return exhaustFilter{coded: coded, there: (coded || named) && !gone}
	})
	return f.coded && f.there, f.there
}

type exhaustFilter struct{ coded, there bool }

// FilterMayBlock is an engine whose exhaust filter may be what holds its gas back: not one behind
// which the pressure was read.
func (c *Case) FilterMayBlock() bool {
	_, there := c.ExhaustFilter()
	return there && !SpeaksOf(c.backPressureAt(), pastFilter...)
}

// FilterFull is such a filter that a code calls full, of soot or of ash.
func (c *Case) FilterFull() bool { return c.FilterMayBlock() && c.Coded(FullFilterCodes...) }

// FilterCleaned is one that was cleaned, burned clean or renewed before the test.
func (c *Case) FilterCleaned() bool { return c.worked(filterCleaned) }

// backPressureAt is where the back-pressure was read, in plain words.
func (c *Case) backPressureAt() string {
	r := c.Measured(BackPressure)
	if r == nil {
		return ""
	}
	return plainWords(r.Word("at"))
}

// worked reports words in what was done, on this visit or before.
func (c *Case) worked(words []string) bool {
	return slices.ContainsFunc(c.History.WorkDone, func(line string) bool { return SpeaksOf(plainWords(line), words...) }) ||
		c.Before != nil && SpeaksOf(plainWords(c.Before.Done), words...)
}

// FullFilterCodes are of such a filter that is full; exhaustFilterCodes also of one that is worn,
// not burned clean or badly measured.
var (
	FullFilterCodes    = []string{"P2463", "P242F", "P244B", "P24A2", "P24A4", "P2458", "P2459"}
	exhaustFilterCodes = append([]string{"P2002", "P2003", "P2452", "P2453", "P2454", "P2455", "P244A"}, FullFilterCodes...)
)

// regenerationFails are words for one that is not burned clean.
var regenerationFails = pairs("regeneration|regenerations|regens|regen", "interrupt|broken off|cut short|too often|every|never|fail|not finish|not complete")

// exhaustFilters are names of it; filterGone, filterBack and filterCleaned are words of one that was
// taken out, put back, or cleaned, pastFilter of a place behind it.
var (
	exhaustFilters = []string{"particulate filter", "particle filter", "dpf", "gpf", "opf", "soot filter", "fap"}
	filterNames    = strings.Join(exhaustFilters, "|")
	filterGone     = pairs(filterNames, "removed|deleted|delete|gutted|taken out|cut out")
	filterBack     = pairs(filterNames, "cleaned|clean|refitted|refit|put back|renewed|replaced|new")
	filterCleaned  = append(pairs(filterNames, "cleaned|renewed|replaced|new|washed|burned clean|regenerated"), "forced regeneration", "regeneration forced")
	pastFilter     = pairs("after|behind|downstream|post", filterNames)
)

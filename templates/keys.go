package templates

import (
	"maps"
	"slices"
)

// Keys are the entries of a section, sorted.
func (c *Catalogue) Keys(section string) []string {
	switch section {
	case "findings":
		return sorted(c.findings)
	case "notices":
		return sorted(c.notices)
	case "causes":
		return sorted(c.causes)
	case "against":
		return sorted(c.against)
	case "doubts":
		return sorted(c.doubts)
	case "checks":
		return sorted(c.checks)
	case "verdicts":
		return sorted(c.verdicts)
	case "cautions":
		return sorted(c.cautions)
	case "labels":
		return sorted(c.labels)
	}
	return nil
}

func sorted[T any](m map[string]T) []string { return slices.Sorted(maps.Keys(m)) }

package templates

import (
	"slices"

	"gopkg.in/yaml.v3"
)

// FieldNames are what a sheet may name of the vehicle and the job beside what
// every sheet does.
var FieldNames = []string{"vin-matches", "seller", "arrival", "when", "job-number", "authorised", "complaints", "reason", "work-done"}

// usualFields and usualSignatures are those of a sheet that says nothing of
// them.
var (
	usualFields     = []string{"complaints", "reason", "work-done"}
	usualSignatures = []string{"tested-by"}
)

// SignatureNames are who may sign on a sheet, and the date.
var SignatureNames = []string{"tested-by", "received", "inspector", "client", "date"}

// Numbers are what a sheet may be filed by.
var Numbers = []string{"job", "invoice"}

// Occasions are for what a sheet may be asked, where that changes its words.
var Occasions = []string{"purchase"}

// Has reports a field of the sheet's.
func (s *Sheet) Has(field string) bool { return slices.Contains(s.Fields, field) }

// names reads a list of words, each once and one of those known.
func (r *sheetReader) names(n *yaml.Node, what string, known []string) []string {
	if n.Kind != yaml.SequenceNode {
		r.problem(n, "", "expected a list of words, found %s", kindName(n))
		return nil
	}
	names := []string{}
	for _, item := range n.Content {
		switch {
		case !slices.Contains(known, item.Value):
			r.unknown(item, what, known)
		case slices.Contains(names, item.Value):
			r.problem(item, "", "the %s %q is listed twice", what, item.Value)
		default:
			names = append(names, item.Value)
		}
	}
	return names
}

// oneOf reads one of the words known.
func (r *sheetReader) oneOf(n *yaml.Node, what string, known []string) string {
	if !slices.Contains(known, n.Value) {
		r.unknown(n, what, known)
	}
	return n.Value
}

// yes reads true or false.
func (r *sheetReader) yes(n *yaml.Node) bool {
	if n.Value != "true" && n.Value != "false" {
		r.problem(n, "", "expected true or false, found %s", kindName(n))
	}
	return n.Value == "true"
}

// saysKeys are the keys of what blocks say on this sheet.
func (r *sheetReader) saysKeys() map[string]func(*yaml.Node) {
	return map[string]func(*yaml.Node){
		"fields":     func(n *yaml.Node) { r.sheet.Fields = r.names(n, "field", FieldNames) },
		"signatures": func(n *yaml.Node) { r.sheet.Signatures = r.names(n, "signature", SignatureNames) },
		"number":     func(n *yaml.Node) { r.sheet.ByInvoice = r.oneOf(n, "number", Numbers) == "invoice" },
		"occasion":   func(n *yaml.Node) { r.sheet.Occasion = r.oneOf(n, "occasion", Occasions) },
		"suspects":   func(n *yaml.Node) { r.sheet.Suspects = int(r.number(n, 1, 9)) },
		"record":     func(n *yaml.Node) { r.sheet.Record = r.yes(n) },
		"terms":      func(n *yaml.Node) { r.sheet.Terms = r.yes(n) },
	}
}

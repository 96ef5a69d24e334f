package templates

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"

	"gaugesheet/layout"
)

// sheetReader walks a template's nodes and collects what is wrong.
type sheetReader struct {
	sheet    *Sheet
	known    []string       // the names that blocks may have; nil is any
	placed   map[string]int // the line in which each block was placed
	problems []Problem
}

func (r *sheetReader) problem(n *yaml.Node, hint, format string, args ...any) {
	r.problems = append(r.problems, Problem{Line: max(n.Line, 1), Column: max(n.Column, 1), Message: fmt.Sprintf(format, args...), Hint: hint})
}

// What a template may have: the program's own have two thousand bytes and twenty
// steps, and each step lays the page out anew.
const (
	mostTemplate = 32 << 10 // bytes
	mostSteps    = 200
)

func (r *sheetReader) read(data []byte) {
	var doc yaml.Node
	if len(data) > mostTemplate {
		r.problem(&doc, "", "the template has %d bytes, the limit is %d", len(data), mostTemplate)
		return
	}
	if err := yaml.Unmarshal(data, &doc); err != nil {
		at, message := &yaml.Node{}, strings.TrimPrefix(err.Error(), "yaml: ")
		if n, err := fmt.Sscanf(message, "line %d:", &at.Line); n == 1 && err == nil {
			_, message, _ = strings.Cut(message, ": ")
		}
		r.problem(at, "", "not readable as YAML: %s", message)
		return
	}
	if len(doc.Content) == 0 {
		r.problem(&doc, "", "expected a template, found an empty file")
		return
	}
	root := doc.Content[0]
	readers := r.saysKeys()
	maps.Copy(readers, map[string]func(*yaml.Node){
		"sheet":     func(n *yaml.Node) { r.sheet.Name = r.word(n) },
		"audience":  r.audience,
		"title":     func(n *yaml.Node) { r.sheet.Title = r.word(n) },
		"type":      r.typeSizes,
		"rows":      r.rows,
		"gives-way": r.givesWay,
	})
	given := r.keys(root, readers)
	if len(r.problems) > 0 { // what is missing can only be told of what was read
		return
	}
	r.complete(root, given)
}

// complete tells what is missing, and fills in what may be.
func (r *sheetReader) complete(root *yaml.Node, given map[string]bool) {
	for _, key := range []string{"sheet", "audience"} {
		if !given[key] {
			r.problem(root, "", "the key %q is missing", key)
		}
	}
	if len(r.placed) == 0 {
		r.problem(root, "rows: [[head], [verdict], [engine]]", "expected rows with blocks, found none")
	}
	if missing := r.missingSizes(); len(missing) > 0 {
		r.problem(root, "", "under type, a size is missing for: %s", strings.Join(missing, ", "))
	}
	if !given["fields"] {
		r.sheet.Fields = usualFields
	}
	if !given["signatures"] {
		r.sheet.Signatures = usualSignatures
	}
	if r.sheet.Title == "" {
		r.sheet.Title = r.sheet.Name
	}
}

// keys hands each value of a mapping to its reader, and tells which keys were
// given.
func (r *sheetReader) keys(n *yaml.Node, readers map[string]func(*yaml.Node)) map[string]bool {
	given := map[string]bool{}
	if n.Kind != yaml.MappingNode {
		r.problem(n, "", "expected keys and values, found %s", kindName(n))
		return given
	}
	seen := map[string]int{}
	for i := 0; i+1 < len(n.Content); i += 2 {
		key, value := n.Content[i], n.Content[i+1]
		if value.Kind == yaml.AliasNode {
			r.problem(value, "", "aliases are not read in templates; write the value out")
			continue
		}
		if line, twice := seen[key.Value]; twice {
			r.problem(key, "", "the key %q is given twice, first in line %d", key.Value, line)
			continue
		}
		seen[key.Value] = key.Line
		read, known := readers[key.Value]
		if !known {
			r.unknown(key, "key", sorted(readers))
			continue
		}
		given[key.Value] = true
		read(value)
	}
	return given
}

// unknown reports a word that is none of the known ones, with the nearest.
func (r *sheetReader) unknown(n *yaml.Node, what string, known []string) {
	hint := "expected one of: " + strings.Join(known, ", ")
	if near := Nearest(n.Value, known); near != "" {
		hint = fmt.Sprintf("did you mean %q?", near)
	}
	r.problem(n, hint, "unknown %s %q", what, n.Value)
}

func (r *sheetReader) word(n *yaml.Node) string {
	if n.Kind != yaml.ScalarNode || n.Value == "" {
		r.problem(n, "", "expected a word, found %s", kindName(n))
	}
	return n.Value
}

func (r *sheetReader) number(n *yaml.Node, low, high float64) float64 {
	v, err := strconv.ParseFloat(n.Value, 64)
	if n.Kind != yaml.ScalarNode || err != nil || !(v >= low && v <= high) {
		r.problem(n, "", "expected a number from %g to %g, found %q", low, high, n.Value)
		return low
	}
	return v
}

func (r *sheetReader) truth(n *yaml.Node) bool {
	if n.Kind != yaml.ScalarNode || n.Value != "true" && n.Value != "false" {
		r.problem(n, "", "expected true or false, found %s", kindName(n))
	}
	return n.Value == "true"
}

func (r *sheetReader) audience(n *yaml.Node) {
	switch n.Value {
	case "customer":
		r.sheet.Audience = Customer
	case "workshop":
		r.sheet.Audience = Workshop
	default:
		r.unknown(n, "audience", []string{"customer", "workshop"})
	}
}

func (r *sheetReader) typeSizes(n *yaml.Node) {
	readers := map[string]func(*yaml.Node){
		"smallest":    func(n *yaml.Node) { r.sheet.Smallest = layout.Length(r.number(n, 6, 12)) },
		"least-scale": func(n *yaml.Node) { r.sheet.LeastScale = r.number(n, 0.5, 1) },
		"least-space": func(n *yaml.Node) { r.sheet.LeastSpace = r.number(n, 0.2, 1) },
	}
	for name, role := range roleNames {
		readers[name] = func(n *yaml.Node) { r.sheet.Sizes[role] = layout.Length(r.number(n, 6, 36)) }
	}
	r.keys(n, readers)
}

func (r *sheetReader) missingSizes() []string {
	var missing []string
	for _, name := range sorted(roleNames) {
		if _, ok := r.sheet.Sizes[roleNames[name]]; !ok {
			missing = append(missing, name)
		}
	}
	if r.sheet.Smallest == 0 {
		missing = append(missing, "smallest")
	}
	return missing
}

func (r *sheetReader) rows(n *yaml.Node) {
	if n.Kind != yaml.SequenceNode {
		r.problem(n, "", "expected a list of rows, found %s", kindName(n))
		return
	}
	for _, item := range n.Content {
		if item.Kind == yaml.SequenceNode {
			r.sheet.Rows = append(r.sheet.Rows, SheetRow{Columns: []SheetColumn{{Share: 1, Blocks: r.blocks(item)}}})
			continue
		}
		var row SheetRow
		r.keys(item, map[string]func(*yaml.Node){
			"above":   func(n *yaml.Node) { row.Above = layout.Length(r.number(n, 0, 72)) },
			"blocks":  func(n *yaml.Node) { row.Columns = append(row.Columns, SheetColumn{Share: 1, Blocks: r.blocks(n)}) },
			"columns": func(n *yaml.Node) { row.Columns = append(row.Columns, r.columns(n)...) },
			"foot":    func(n *yaml.Node) { row.Foot = r.truth(n) },
			"flows":   func(n *yaml.Node) { row.Flows = r.blocks(n) },
		})
		r.sheet.Rows = append(r.sheet.Rows, row)
	}
}

func (r *sheetReader) columns(n *yaml.Node) []SheetColumn {
	if n.Kind != yaml.SequenceNode {
		r.problem(n, "", "expected a list of columns, found %s", kindName(n))
		return nil
	}
	var columns []SheetColumn
	for _, item := range n.Content {
		column := SheetColumn{Share: 1}
		r.keys(item, map[string]func(*yaml.Node){
			"share":  func(n *yaml.Node) { column.Share = r.number(n, 1, 100) },
			"least":  func(n *yaml.Node) { column.Least = r.number(n, 1, 100) },
			"most":   func(n *yaml.Node) { column.Most = r.number(n, 1, 100) },
			"blocks": func(n *yaml.Node) { column.Blocks = r.blocks(n) },
		})
		columns = append(columns, column)
	}
	return columns
}

func (r *sheetReader) blocks(n *yaml.Node) []string {
	if n.Kind != yaml.SequenceNode {
		r.problem(n, "", "expected a list of blocks, found %s", kindName(n))
		return nil
	}
	var names []string
	for _, item := range n.Content {
		name, ok := r.block(item)
		if line, twice := r.placed[name]; twice && ok {
			r.problem(item, "", "the block %q is placed twice, first in line %d", name, line)
			continue
		}
		if ok {
			r.placed[name] = item.Line
			names = append(names, name)
		}
	}
	return names
}

// block reads the name of a block; it is not ok where there is no such block.
func (r *sheetReader) block(n *yaml.Node) (name string, ok bool) {
	switch {
	case n.Kind != yaml.ScalarNode || n.Value == "":
		r.problem(n, "", "expected the name of a block, found %s", kindName(n))
		return "", false
	case r.known != nil && !slices.Contains(r.known, n.Value):
		r.unknown(n, "block", r.known)
		return "", false
	}
	return n.Value, true
}

var detailNames = map[string]layout.Detail{"compact": layout.Compact, "brief": layout.Brief, "out": layout.Out}

func (r *sheetReader) givesWay(n *yaml.Node) {
	if n.Kind != yaml.SequenceNode {
		r.problem(n, "", "expected a list of steps, found %s", kindName(n))
		return
	}
	if len(n.Content) > mostSteps {
		r.problem(n, "", "the page gives way in %d steps, the limit is %d", len(n.Content), mostSteps)
		return
	}
	for _, item := range n.Content {
		r.sheet.GivesWay = append(r.sheet.GivesWay, r.step(item))
	}
}

// step reads one concession of a full page.
func (r *sheetReader) step(n *yaml.Node) (step layout.Step) {
	given := r.keys(n, map[string]func(*yaml.Node){
		"block":   func(n *yaml.Node) { step.Block, _ = r.block(n) },
		"with":    func(n *yaml.Node) { step.With, _ = r.block(n) },
		"closely": func(n *yaml.Node) { step.Closely = r.yes(n) },
		"to": func(n *yaml.Node) {
			to, ok := detailNames[n.Value]
			if !ok {
				r.unknown(n, "level of detail", sorted(detailNames))
			}
			step.To = to
		},
	})
	for _, key := range []string{"block", "to"} {
		if n.Kind == yaml.MappingNode && !given[key] {
			r.problem(n, "- {block: findings, to: compact}", "the key %q is missing", key)
		}
	}
	return step
}

func kindName(n *yaml.Node) string {
	switch n.Kind {
	case yaml.MappingNode:
		return "keys and values"
	case yaml.SequenceNode:
		return "a list"
	case yaml.AliasNode:
		return "an alias"
	}
	if n.Tag == "!!null" || n.Value == "" {
		return "nothing"
	}
	return strconv.Quote(n.Value)
}

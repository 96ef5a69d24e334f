package laws_test

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// A tree is a job file that can be edited: keys in order, each with a text, a
// list or a further tree.
type tree struct {
	keys   []string
	values map[string]any // string, []any or *tree
}

func newTree() *tree { return &tree{values: map[string]any{}} }

// get gives the value at a path of keys, nil where there is none.
func (t *tree) get(path ...string) any {
	for i, key := range path {
		v, ok := t.values[key]
		if !ok {
			return nil
		}
		if i == len(path)-1 {
			return v
		}
		below, ok := v.(*tree)
		if !ok {
			return nil
		}
		t = below
	}
	return t
}

func (t *tree) has(path ...string) bool { return t.get(path...) != nil }

// text gives a text at a path, "" where there is none.
func (t *tree) text(path ...string) string {
	s, _ := t.get(path...).(string)
	return s
}

// sub gives the tree at a path, nil where there is none.
func (t *tree) sub(path ...string) *tree {
	below, _ := t.get(path...).(*tree)
	return below
}

// texts gives a list of texts at a path.
func (t *tree) texts(path ...string) []string {
	items, _ := t.get(path...).([]any)
	var out []string
	for _, item := range items {
		if s, ok := item.(string); ok {
			out = append(out, s)
		}
	}
	return out
}

// set puts a value at a path and makes the trees on the way.
func (t *tree) set(value any, path ...string) {
	for _, key := range path[:len(path)-1] {
		below, ok := t.values[key].(*tree)
		if !ok {
			below = newTree()
			t.put(key, below)
		}
		t = below
	}
	t.put(path[len(path)-1], value)
}

func (t *tree) put(key string, value any) {
	if list, ok := value.([]string); ok {
		value = anys(list)
	}
	if _, known := t.values[key]; !known {
		t.keys = append(t.keys, key)
	}
	t.values[key] = value
}

// add appends texts to the list at a path.
func (t *tree) add(path []string, texts ...string) {
	t.set(append(anys(t.texts(path...)), anys(texts)...), path...)
}

func (t *tree) drop(path ...string) {
	last := path[len(path)-1]
	above, ok := t, true
	if len(path) > 1 {
		above, ok = t.get(path[:len(path)-1]...).(*tree)
	}
	if ok && above != nil {
		delete(above.values, last)
		above.keys = slices.DeleteFunc(slices.Clone(above.keys), func(k string) bool { return k == last })
	}
}

func anys(list []string) []any {
	out := make([]any, len(list))
	for i, s := range list {
		out[i] = s
	}
	return out
}

// clone copies a tree with everything below it.
func (t *tree) clone() *tree {
	out := newTree()
	for _, key := range t.keys {
		switch v := t.values[key].(type) {
		case *tree:
			out.put(key, v.clone())
		case []any:
			out.put(key, slices.Clone(v))
		default:
			out.put(key, v)
		}
	}
	return out
}

// with is a copy of the tree with a value at a path.
func (t *tree) with(value any, path ...string) *tree {
	out := t.clone()
	out.set(value, path...)
	return out
}

// String writes the tree as YAML: groups of the job file on lines of their own,
// what lies deeper in braces.
func (t *tree) String() string {
	var b strings.Builder
	for _, key := range t.keys {
		v := t.values[key]
		group, ok := v.(*tree)
		if !ok || len(group.keys) == 0 {
			fmt.Fprintf(&b, "%s: %s\n", scalar(key), flow(v))
			continue
		}
		fmt.Fprintf(&b, "%s:\n", scalar(key))
		for _, k := range group.keys {
			fmt.Fprintf(&b, "  %s: %s\n", scalar(k), flow(group.values[k]))
		}
	}
	return b.String()
}

func flow(v any) string {
	var parts []string
	switch v := v.(type) {
	case *tree:
		for _, key := range v.keys {
			parts = append(parts, scalar(key)+": "+flow(v.values[key]))
		}
		return "{" + strings.Join(parts, ", ") + "}"
	case []any:
		for _, item := range v {
			parts = append(parts, flow(item))
		}
		return "[" + strings.Join(parts, ", ") + "]"
	}
	return scalar(fmt.Sprint(v))
}

// plainScalar is what YAML takes as it is, in braces too.
var plainScalar = regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9 ./%+()-]*$`)

func scalar(s string) string {
	if plainScalar.MatchString(s) {
		return s
	}
	return strconv.Quote(s)
}

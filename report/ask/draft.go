package ask

import (
	"encoding/json"
	"slices"
	"strings"
)

// An entry is one value of the job file under its path of keys.
type entry struct {
	path  []string
	value string // as YAML
}

// at makes an entry of a text under a path of keys joined by points.
func at(path, text string) entry { return entry{strings.Split(path, "."), scalar(text)} }

// under makes an entry below a path: for a cylinder, a speed, a bank.
func under(path string, name string, below ...string) []string {
	return append(append(strings.Split(path, "."), name), below...)
}

// A draft is a job file as far as it is known.
type draft []entry

// with gives the draft with further entries; one of the same path replaces it.
func (d draft) with(entries []entry) draft {
	out := slices.Clone(d)
	for _, e := range entries {
		same := func(o entry) bool { return slices.Equal(o.path, e.path) }
		if i := slices.IndexFunc(out, same); i >= 0 {
			out[i] = e
			continue
		}
		out = append(out, e)
	}
	return out
}

// has tells whether something stands at or below a path.
func (d draft) has(path string) bool {
	keys := strings.Split(path, ".")
	return slices.ContainsFunc(d, func(e entry) bool { return len(e.path) >= len(keys) && slices.Equal(e.path[:len(keys)], keys) })
}

// value is what stands at a path, "" for nothing.
func (d draft) value(path string) string {
	keys := strings.Split(path, ".")
	for _, e := range d {
		if slices.Equal(e.path, keys) {
			return e.value
		}
	}
	return ""
}

const heading = "# Engine test. 'gaugesheet help job' lists what a job file can hold.\n"

// file is the job file: the sections in the order of the bench.
func (d draft) file() []byte {
	var root branch
	for _, k := range fileKeys() {
		for _, e := range d {
			if e.path[0] == k.Name {
				root.add(e.path, e.value)
			}
		}
	}
	var b strings.Builder
	b.WriteString(heading)
	for _, one := range root.below {
		one.write(&b, 0)
	}
	return []byte(b.String())
}

// A branch is a key of the file with its value or what stands below it.
type branch struct {
	key, value string
	below      []*branch
}

func (n *branch) add(path []string, value string) {
	for _, key := range path {
		i := slices.IndexFunc(n.below, func(b *branch) bool { return b.key == key })
		if i < 0 {
			n.below = append(n.below, &branch{key: key})
			i = len(n.below) - 1
		}
		n = n.below[i]
	}
	n.value = value
}

// write writes a key with what belongs to it: from the second level on in
// braces, where that fits on the line.
func (n *branch) write(b *strings.Builder, depth int) {
	const widest = 110
	indent := strings.Repeat("  ", depth)
	line := indent + scalar(n.key) + ": "
	switch within := n.inBraces(); {
	case len(n.below) == 0:
		b.WriteString(line + n.value + "\n")
	case depth > 0 && len(line)+len(within) <= widest:
		b.WriteString(line + within + "\n")
	default:
		b.WriteString(strings.TrimRight(line, " ") + "\n")
		for _, one := range n.below {
			one.write(b, depth+1)
		}
	}
}

func (n *branch) inBraces() string {
	if len(n.below) == 0 {
		return n.value
	}
	parts := make([]string, len(n.below))
	for i, one := range n.below {
		parts[i] = scalar(one.key) + ": " + one.inBraces()
	}
	return "{" + strings.Join(parts, ", ") + "}"
}

// plainText is a text that means itself in YAML, also within braces.
var plainText = lazily(`^(?:\.\./)*[\pL\pN][\pL\pN %./()+'*_;=<>-]*$`)

// scalar writes a text as YAML: in quotes where it would mean something else.
func scalar(text string) string {
	text = strings.TrimSpace(text)
	switch strings.ToLower(text) {
	case "", "null", "~":
		return quoted(text)
	}
	if plainText().MatchString(text) {
		return text
	}
	return quoted(text)
}

func quoted(text string) string {
	var b strings.Builder
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(text); err != nil { // of a text it gives none
		return `""`
	}
	return strings.TrimSuffix(b.String(), "\n")
}

// flow writes texts as a list.
func flow(texts []string) string {
	out := make([]string, len(texts))
	for i, t := range texts {
		out[i] = scalar(t)
	}
	return "[" + strings.Join(out, ", ") + "]"
}

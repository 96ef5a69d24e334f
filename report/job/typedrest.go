package job

import (
	"slices"
	"strings"
)

// forAll are words behind a value that hold it for all cylinders.
var forAll = []string{" on all", " in all", " for all", " all", " each", " everywhere", " all round", " all around", " across the board", " all over", " on the rest", " on the others", " apiece"}

// fillers are words between a cylinder and its value that say nothing of it.
var fillers = []string{"is", "was", "at", "which", "that", "=", "reads", "read", "had", "has", "only", "came", "comes", "went", "up", "rose", "to", "on", "got", "gave", "shows", "showed", "made", "now", "now:", "->", "being", "with", "and", "looks", "looked"}

// withoutAll takes the words off that hold a value for all cylinders.
func withoutAll(text string) string {
	text = strings.TrimSpace(text)
	for _, before := range []string{"all of them ", "all at ", "all ", "everything ", "every one ", "they are all "} {
		text = strings.TrimPrefix(text, before)
	}
	for _, behind := range forAll {
		text = strings.TrimSuffix(text, behind)
	}
	return strings.TrimSpace(text)
}

// namedValue reads a cylinder and its value with words between that say nothing,
// 'no 3 came up to 140', and '140 on 3'; "" for any other text.
func (r *reader) namedValue(text string, reads func(string) bool) (name, value string) {
	fields := strings.Fields(strings.NewReplacer("=", " = ", ":", " ").Replace(text))
	for size := 1; size <= 2 && size < len(fields); size++ {
		name = r.cylinderMeant(strings.Join(fields[:size], " "))
		if name != others && !slices.Contains(r.cylinderNames, name) {
			continue
		}
		rest := fields[size:]
		moved := ""
		for len(rest) > 1 && slices.Contains(fillers, rest[0]) {
			moved, rest = rest[0], rest[1:]
		}
		if moved == "up" || moved == "rose" { // by how much, or to what?
			return "", ""
		}
		if value = strings.Join(rest, " "); reads(value) {
			return name, value
		}
	}
	for _, between := range []string{" on ", " in ", " at "} {
		value, name, ok := strings.Cut(text, between)
		if name = r.cylinderMeant(name); ok && slices.Contains(r.cylinderNames, name) && reads(value) {
			return name, value
		}
	}
	return "", ""
}

// commaPairs reads a cylinder and its reading between each two commas, in any order,
// 1 150, 3 148, 2 152: each is named once.
func (r *reader) commaPairs(list []typed) (names, values []typed) {
	seen := map[string]bool{}
	for _, t := range list {
		name, value, ok := strings.Cut(t.text, " ")
		if !ok || !r.isCylinder(name) || seen[name] || !isReading(strings.TrimSpace(value)) {
			return nil, nil
		}
		seen[name] = true
		names = append(names, typed{name, t.at})
		values = append(values, typed{strings.TrimSpace(value), t.at + len(name) + 1})
	}
	if len(names) < 3 {
		return nil, nil
	}
	return names, values
}

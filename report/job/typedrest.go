package job

import (
	"slices"
	"strings"
)

// exceptions stand between what holds for all cylinders and those that differ.
var exceptions = []string{" except for ", " except that ", " except ", " but for ", " but ", " apart from ", " other than ", " aside from ", " ex "}

// forAll are words behind a value that hold it for all cylinders.
var forAll = []string{" on all", " in all", " for all", " all", " each", " everywhere", " all round", " all around", " across the board", " all over", " on the rest", " on the others", " apiece"}

// fillers are words between a cylinder and its value that say nothing of it.
var fillers = []string{"is", "was", "at", "which", "that", "=", "reads", "read", "had", "has", "only", "came", "comes", "went", "up", "rose", "to", "on", "got", "gave", "shows", "showed", "made", "now", "now:", "->", "being", "with", "and", "looks", "looked"}

// allBut reads 'all 150 but 3 zero', '150 all round, no 3 95' and '3 = 90, rest
// 150': values of some cylinders and the one of all others, each of which is what
// reads takes. It is nil for any other text.
func (r *reader) allBut(n *node, reads func(string) bool) *node {
	if len(n.text) > longestSaid || len(r.cylinderNames) < 2 {
		return nil
	}
	text := twoNamed().ReplaceAllString(fold(evenly(n.text)), "$1 $3, $2 $3")
	all, named := "", ""
	for _, but := range exceptions {
		if before, after, ok := strings.Cut(text, but); ok {
			all, named = withoutAll(strings.TrimRight(before, ", ")), after
			break
		}
	}
	if first, after, ok := strings.Cut(text, ","); ok && named == "" {
		if all, named = withoutAll(first), after; all == first { // 95, 90 is a list
			all = ""
		}
	}
	values := map[string]string{}
	order := []string{}
	for _, piece := range separate(strings.ReplaceAll(strings.ReplaceAll(cmpText(named, text, all), " and ", ","), "(", " "), ",;)") {
		name, value := r.namedValue(piece.text, reads)
		if name == "" || values[name] != "" {
			return nil
		}
		values[name] = value
		order = append(order, name)
	}
	if reads(all) && values[others] == "" {
		values[others] = all
		order = append(order, others)
	}
	if values[others] == "" || len(order) < 2 {
		return nil
	}
	out := &node{kind: mapping, pos: n.pos}
	for _, name := range order {
		out.entries = append(out.entries, entry{name, n.pos, r.piece(n, typed{values[name], 0})})
	}
	return out
}

// twoNamed are two cylinders with what holds for both: 4 + 5 oily.
var twoNamed = lazily(`#?\b(\d{1,2}) ?(?:\+|&|and) ?#?(\d{1,2}) ([a-z][a-z -]*)`)

// cmpText is what stands behind the value of all, or the whole text where none is
// given for all.
func cmpText(named, whole, all string) string {
	if all == "" {
		return whole
	}
	return named
}

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

package job

import (
	"slices"
)

// A source is another file of which some nodes came into this one's tree: its
// lines stand behind those of this file, and places in it are told by that.
type source struct {
	name string
	from int // how many lines stand before its own
}

// defaults puts what the shop's profile gives for every job into the tree of
// this one: the job's own keys win. What stands there is read, checked and shown
// as if the job said it.
func (r *reader) defaults(root, profile *node, file *reader) {
	given := profile.get("defaults")
	if given == nil || isEmpty(given) {
		return
	}
	if given.kind != mapping {
		file.report(given.pos, "such as 'defaults: {job: {technician: R. Okafor}}'", "'shop.defaults' is %s, expected keys of a job", describe(given))
		return
	}
	shift := 0
	if file != r {
		shift = len(r.lines)
		r.sources = append(r.sources, source{file.name, shift})
		r.lines = append(slices.Clone(r.lines), file.lines...)
	}
	given = given.moved(shift)
	oneSpelling(given, keyNames(fileKeys))
	inSections(given)
	if at := slices.IndexFunc(given.entries, func(e entry) bool { return e.key == "shop" || e.key == "format" }); at >= 0 {
		r.report(given.entries[at].pos, "leave it out", "'shop.defaults' has '%s', which is for each job to say", given.entries[at].key)
		given = without(given, given.entries[at].key)
	}
	if sections := given.get("not-tested"); sections != nil && sections.kind == mapping {
		sections.entries = slices.DeleteFunc(sections.entries, func(e entry) bool { return hasTest(root, testName(e.key)) })
		if len(sections.entries) == 0 {
			given = without(given, "not-tested")
		}
	}
	merge(root, given, fileKeys)
}

// moved is a copy of a node with its places some lines further down.
func (n *node) moved(lines int) *node {
	if n == nil {
		return nil
	}
	out := *n
	out.pos.Line += lines
	out.items = make([]*node, len(n.items))
	for i, item := range n.items {
		out.items[i] = item.moved(lines)
	}
	out.entries = make([]entry, len(n.entries))
	for i, e := range n.entries {
		out.entries[i] = entry{e.key, Pos{e.pos.Line + lines, e.pos.Col}, e.value.moved(lines)}
	}
	return &out
}

// hasTest reports a section of a test by the name that the sheet has for it.
func hasTest(root *node, test string) bool {
	return slices.ContainsFunc(root.entries, func(e entry) bool { return testName(e.key) == test && !isEmpty(e.value) })
}

// inSections puts keys that stand by themselves, and can only stand in one
// section, into it: 'technician' into 'job'.
func inSections(n *node) {
	for _, e := range slices.Clone(n.entries) {
		if keyOf(fileKeys, e.key).name != "" {
			continue
		}
		places := placesOf(e.key)
		if len(places) != 1 {
			continue
		}
		n.entries = without(n, e.key).entries
		section := n.get(places[0])
		if section == nil {
			section = &node{kind: mapping, pos: e.pos}
			n.entries = append(n.entries, entry{places[0], e.pos, section})
		}
		if section.kind == mapping && section.get(e.key) == nil {
			section.entries = append(section.entries, e)
		}
	}
}

// placesOf are the sections of the file that have a key.
func placesOf(name string) []string {
	var out []string
	for _, k := range fileKeys {
		if (k.form == asGroup || k.form == asTestSection) && keyOf(k.keys, name).name == name {
			out = append(out, k.name)
		}
	}
	return out
}

// merge puts the entries of another mapping into a mapping that has none of
// their keys, nor of those in whose place they stand.
func merge(n, from *node, keys []key) {
	for _, e := range from.entries {
		own := n.get(e.key)
		switch {
		case own != nil && own.kind == mapping && e.value.kind == mapping:
			merge(own, e.value, keysOf(keys, e.key))
		case own != nil && !isEmpty(own):
		case own != nil:
			n.entries[slices.IndexFunc(n.entries, func(o entry) bool { return o.key == e.key })] = e
		case !placeTaken(n, e.key, keys):
			n.entries = append(n.entries, e)
		}
	}
}

// placeTaken reports that a mapping has a key that takes the place of another, or
// one whose place that takes.
func placeTaken(n *node, name string, keys []key) bool {
	instead := keyOf(keys, name).insteadOf
	return instead != "" && n.get(instead) != nil ||
		slices.ContainsFunc(n.entries, func(e entry) bool { return keyOf(keys, e.key).insteadOf == name })
}

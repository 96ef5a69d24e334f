package job

import (
	"fmt"
	"strings"
)

// A comma within braces ends a value, so that {work-done: plugs, leads, cap} is a key
// with 'plugs' and two words that are no keys. What of that means one thing is put
// together, and the rest answered once.

// joinWords puts words together that the braces around them take apart at their
// comma: {system: port, return line}, {codes: P0301, P0303}.
func (r *reader) joinWords(n *node, keys []key) {
	var out []entry
	for _, e := range n.entries {
		last := len(out) - 1
		if last < 0 || !r.isCut(e) || keyOf(keys, e.key).name != "" && keyOf(keys, out[last].key).form != asWordList {
			out = append(out, e)
			continue
		}
		if joined := r.joined(out[last], e, keys); joined != nil {
			out[last].value = joined
			continue
		}
		out = append(out, e)
	}
	n.entries = out
}

// joined is the value of a key with the words behind its comma, nil where these may be
// something else.
func (r *reader) joined(before, e entry, keys []key) *node {
	v, k := before.value, keyOf(keys, before.key)
	switch {
	case k.form == asTexts && v.kind == list && v.joined && r.endsAsKey(e, keys) == "":
		v.items = append(v.items, &node{pos: e.pos, text: e.key, plain: true, tag: "!!str"})
		return v
	case v.kind != scalar || !v.plain || isEmpty(v):
		return nil
	case k.form == asTexts && r.endsAsKey(e, keys) == "": // {work-done: plugs, leads, cap}
		return &node{kind: list, joined: true, pos: v.pos, items: []*node{v, {pos: e.pos, text: e.key, plain: true, tag: "!!str"}}}
	}
	together := *v
	together.text += ", " + e.key
	if k.form == asWordList && (knownOrAnswered(k, e.key) || r.endsAsKey(e, keys) == "") { // {complaints: misfire, oil use}
		return &together
	}
	if word, _ := vocabularyOf(k.says).find(together.text, k.words); word != "" && keyOf(keys, e.key).name == "" {
		return &together
	}
	return nil
}

// fellIn is a pressure that was left after a time.
var fellIn = lazily(`\bto (\d[\d.]*(?: ?(?:psi|bar|kpa))?) (?:in|after|within) (\d+ ?(?:min|minutes?|s|sec|seconds?|h|hours?))$`)

// isCut reports what may be the words behind a comma: no value, and no colon for one.
func (r *reader) isCut(e entry) bool { return isEmpty(e.value) && !r.hasColon(e) && e.key != "" }

// endsAsKey gives the key that words begin with, whose colon was left out: {layout: V8,
// fuel gas}; "" for none.
func (r *reader) endsAsKey(e entry, keys []key) string {
	fields := strings.Fields(e.key)
	for size := min(len(fields), 3); size > 0; size-- {
		words := strings.Join(fields[:size], " ")
		one := &node{kind: mapping, entries: []entry{{key: words}}}
		if oneSpelling(one, keyNames(keys)); keyOf(keys, one.entries[0].key).name != "" {
			return one.entries[0].key
		}
	}
	return ""
}

// cutText reports words that a comma within braces cut off the text before them,
// once for all of a text: {reason: just bought, no history}.
func (r *reader) cutText(n *node, i int, where string, keys []key) bool {
	if i == 0 || !r.isCut(n.entries[i]) {
		return false
	}
	first := i
	for first > 1 && r.isCut(n.entries[first-1]) && keyOf(keys, n.entries[first-1].key).name == "" {
		first--
	}
	before, e := n.entries[first-1], n.entries[first]
	k := keyOf(keys, before.key)
	if before.value.kind != scalar || isEmpty(before.value) || k.name == "" {
		return false
	}
	if name := r.endsAsKey(n.entries[i], keys); name != "" && len(strings.Fields(n.entries[i].key)) > strings.Count(name, "-")+1 {
		value := strings.Join(strings.Fields(n.entries[i].key)[strings.Count(name, "-")+1:], " ")
		r.report(n.entries[i].pos, "write '"+name+": "+short(value)+"'", "'%s'%s has no colon", short(n.entries[i].key), where)
		return true
	}
	if first < i {
		return true // said with the first
	}
	if m := fellIn().FindStringSubmatch(fold(e.key)); m != nil && keyOf(keys, "hold").name != "" { // leaks down to 20 in 5 min
		r.report(e.pos, "write 'hold: {"+m[2]+": "+m[1]+"}'", "'%s'%s has no key", short(e.key), where)
		return true
	}
	text := before.value.text
	for _, cut := range n.entries[first:] {
		if !r.isCut(cut) || keyOf(keys, cut.key).name != "" {
			break
		}
		text += ", " + cut.key
	}
	hint := fmt.Sprintf("a comma within braces ends a text: write it in quotes, %s: \"%s\"", before.key, short(text))
	if k.form != asText {
		hint = fmt.Sprintf("a comma within braces ends a value: if it belongs to '%s', write %s: \"%s\"; else give it its key, or a place in 'notes'", before.key, before.key, short(text))
	}
	r.report(e.pos, hint, "'%s'%s is cut off the text before it", short(e.key), where)
	return true
}

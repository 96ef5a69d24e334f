package job

import (
	"slices"
	"strconv"
	"strings"
)

// groupHead is what stands in front of what was read of some cylinders together: 'odds',
// 'evens:', '1,3,5,7:', '1, 2 and 4 ='.
var groupHead = lazily(`(?i)(?:^|[\s,;.|])(?:cyls?\.? ?|cylinders? ?|nos?\.? ?|plugs? ?|#)?(?:(odds?|evens?)(?: (?:bank|side|ones|cylinders|numbers))?\b *[:=]?|(\d{1,2}(?:(?: ?[,&+/-] ?| and | n | )#?\d{1,2}\b)+) *[:=])`)

// namedTogether are cylinders in front of a word: '1,2,4 fine', 'odds tan evens sooty'.
var namedTogether = lazily(`(?i)(?:^|[\s,;.|])(?:cyls?\.? ?|cylinders? ?|nos?\.? ?|plugs? ?)?(odds?|evens?|#?\d{1,2}(?:(?: ?[,&+/] ?| and )#?\d{1,2}\b)*) *[:=-]? `)

// headedWords takes a text apart at the cylinders in front of its words; nil for a text that
// does not begin with such.
func headedWords(text string) (out []headedWord) {
	text = strings.ReplaceAll(fold(evenly(text)), " n ", " and ")
	at := namedTogether().FindAllStringSubmatchIndex(text, -1)
	if len(at) == 0 || strings.TrimSpace(text[:at[0][0]]) != "" {
		return nil
	}
	for i, m := range at {
		end := len(text)
		if i+1 < len(at) {
			end = at[i+1][0]
		}
		out = append(out, headedWord{strings.ReplaceAll(text[m[2]:m[3]], "#", ""), strings.Trim(text[m[1]:end], " ,;.|!-")})
	}
	return out
}

// A headedWord is a word with the cylinders in front of it, as they are written.
type headedWord struct{ head, word string }

// A group is some cylinders and what was written behind them.
type group struct {
	names []string
	text  typed
}

// groupOf are the cylinders that a head of a group names.
func (r *reader) groupOf(head string) []string {
	var out []string
	odd := strings.HasPrefix(fold(head), "odd")
	if odd || strings.HasPrefix(fold(head), "even") {
		for _, name := range r.cylinderNames {
			if number, err := strconv.Atoi(name); err == nil && number%2 == 1 == odd {
				out = append(out, name)
			}
		}
		return out
	}
	for _, word := range strings.FieldsFunc(head, func(c rune) bool { return c < '0' || c > '9' }) {
		if !slices.Contains(r.cylinderNames, word) || slices.Contains(out, word) {
			return nil
		}
		out = append(out, word)
	}
	return out
}

// groupsIn takes a text apart at the cylinders that are named together in it; nil for a text
// that does not begin with such.
func (r *reader) groupsIn(text string) []group {
	at := groupHead().FindAllStringSubmatchIndex(text, -1)
	if len(at) == 0 || strings.TrimSpace(text[:at[0][0]]) != "" {
		return nil
	}
	var out []group
	for i, m := range at {
		end := len(text)
		if i+1 < len(at) {
			end = at[i+1][0]
		}
		from, to := m[2], m[3]
		if from < 0 {
			from, to = m[4], m[5]
		}
		names := r.groupOf(text[from:to])
		if len(names) == 0 {
			return nil
		}
		out = append(out, group{names, typed{strings.TrimRight(text[m[1]:end], " ,;.|"), len([]rune(text[:m[1]]))}})
	}
	return out
}

// groupRows reads the readings of cylinders that are named together, 'odds 150 148 evens 145
// 60' and '1,3: 150 148; 2,4: 145 60', each row with as many as it names; nil for any other
// text.
func (r *reader) groupRows(n *node) *node {
	if len(n.text) > longestSaid || len(r.cylinderNames) < 3 {
		return nil
	}
	out := &node{kind: mapping, pos: n.pos}
	for _, g := range r.groupsIn(evenly(n.text)) {
		row := asList(g.text.text, len(g.names))
		if len(row) != len(g.names) || len(row) < 2 {
			return nil
		}
		for i, name := range g.names {
			if out.get(name) != nil {
				return nil
			}
			row[i].at += g.text.at
			out.entries = append(out.entries, entry{name, r.within(n, row[i].at), r.piece(n, row[i])})
		}
	}
	if len(out.entries) == 0 {
		return nil
	}
	return out
}

// groupLooks reads the looks of plugs that are named together, '1,2,4 fine. 3 black n oily';
// nil for any other text, and where one is no word that is known.
func (r *reader) groupLooks(n *node, known func(string) bool) *node {
	out := &node{kind: mapping, pos: n.pos}
	for _, h := range headedWords(n.text) {
		names := r.groupOf(h.head)
		if len(names) == 0 || !known(h.word) {
			return nil
		}
		for _, name := range names {
			if out.get(name) != nil {
				return nil
			}
			out.entries = append(out.entries, entry{name, n.pos, r.piece(n, typed{h.word, 0})})
		}
	}
	if len(out.entries) < 2 {
		return nil
	}
	return out
}

package job

import (
	"slices"
	"strconv"
	"strings"

	"gaugesheet/diag/quantity"
)

// groupHead is what stands in front of what was read of some cylinders together: 'odds',
// 'evens:', '1,3,5,7:', '1, 2 and 4 ='.
var groupHead = lazily(`(?i)(?:^|[\s,;.|])(?:cyls?\.? ?|cylinders? ?|nos?\.? ?|plugs? ?|#)?(?:(odds?|evens?)(?: (?:bank|side|ones|cylinders|numbers))?\b *[:=]?|(\d{1,2}(?:(?: ?[,&+/-] ?| to | and | n | )#?\d{1,2}\b)+) *[:=])`)

// namedTogether are cylinders in front of a word: '1,2,4 fine', 'odds tan evens sooty'.
var namedTogether = lazily(`(?i)(?:^|[\s,;.|])(?:cyls?\.? ?|cylinders? ?|nos?\.? ?|plugs? ?)?(odds?|evens?|(?:all )?(?:the )?(?:rest|others)|#?\d{1,2}(?:(?: ?[,&+/] ?| and )#?\d{1,2}\b)*) *[:=-]? `)

// headedWords takes a text apart at the cylinders in front of its words; nil for a text that
// does not begin with such.
func headedWords(text string) (out []headedWord) {
	if len(text) > longestSaid {
		return nil
	}
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
	if strings.HasSuffix(head, "rest") || strings.HasSuffix(head, "others") {
		return []string{others}
	}
	if m := rangeSaid().FindStringSubmatch(head); m != nil { // 4-6
		from, to := slices.Index(r.cylinderNames, m[1]), slices.Index(r.cylinderNames, m[2])
		if from < 0 || to <= from {
			return nil
		}
		return r.cylinderNames[from : to+1]
	}
	for _, word := range strings.FieldsFunc(head, func(c rune) bool { return c < '0' || c > '9' }) {
		if !slices.Contains(r.cylinderNames, word) || slices.Contains(out, word) {
			return nil
		}
		out = append(out, word)
	}
	return out
}

// rangeSaid are cylinders from one to another: 4-6.
var rangeSaid = lazily(`^\s*(\d{1,2}) ?(?:-|to) ?(\d{1,2})\s*$`)

// groupsIn takes a text apart at the cylinders that are named together in it; nil for a text
// that does not begin with such.
func (r *reader) groupsIn(text string) []group {
	if len(text) > longestSaid {
		return nil
	}
	at := groupHead().FindAllStringSubmatchIndex(text, -1)
	if len(at) == 0 || strings.TrimSpace(text[:at[0][0]]) != "" {
		return nil
	}
	heads := make([][]string, len(at))
	for i, m := range at {
		if m[2] < 0 {
			m[2], m[3] = m[4], m[5]
		}
		for heads[i] = r.groupOf(text[m[2]:m[3]]); len(heads[i]) == 0; heads[i] = r.groupOf(text[m[2]:m[3]]) { // 62, 5-8: what stands before is a reading
			next := strings.IndexAny(text[m[2]:m[3]], ", ")
			if next < 0 || i == 0 {
				return nil
			}
			m[2] += next + 1
			m[0] = m[2]
		}
	}
	var out []group
	for i, m := range at {
		end := len(text)
		if i+1 < len(at) {
			end = at[i+1][0]
		}
		out = append(out, group{heads[i], typed{strings.TrimRight(text[m[1]:end], " ,;.|"), len([]rune(text[:m[1]]))}})
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

// restSaid is what all cylinders behind a row read.
var restSaid = lazily(`(?i)^(.*\d[^a-z]*)[ ,;]+(?:and )?(?:the )?(?:rest|others)(?: all)?[ :=]+([^ ].*)$`)

// restBehind reads a row of the first cylinders with what the others read, 150 148 90 rest
// 150; nil for any other text.
func (r *reader) restBehind(n *node) *node {
	if len(n.text) > longestSaid {
		return nil
	}
	m := restSaid().FindStringSubmatch(n.text)
	if m == nil || !isReading(m[2]) {
		return nil
	}
	row := fewAsList(m[1])
	if len(row) < 2 || len(row) >= len(r.cylinderNames) {
		return nil
	}
	out := &node{kind: mapping, pos: n.pos}
	for i, t := range row {
		out.entries = append(out.entries, entry{r.cylinderNames[i], r.within(n, t.at), r.piece(n, t)})
	}
	at := typed{m[2], len([]rune(n.text)) - len([]rune(m[2]))}
	out.entries = append(out.entries, entry{others, r.within(n, at.at), r.piece(n, at)})
	return out
}

// groupHint answers a row that has not as many readings as its cylinders, odds 150 148; "" for
// any other text.
func (r *reader) groupHint(text string) string {
	for _, g := range r.groupsIn(evenly(text)) {
		row := fewAsList(g.text.text)
		if len(row) < 2 || len(g.names) < 2 || len(row) == len(g.names) {
			continue
		}
		return "the row of " + allOf(g.names) + " has " + strconv.Itoa(len(row)) + " readings: write each behind its " + r.cylinderWord + ", and 'not tested' where there is none"
	}
	return ""
}

// twiceEach writes two readings of each cylinder, 150/152 148/148, as its repeats; "" for any
// other text.
func (r *reader) twiceEach(text string) string {
	if len(text) > longestSaid {
		return ""
	}
	p, err := quantity.ScanAs(text, quantity.Pressure)
	if err != nil || len(r.cylinderNames) < 2 || len(p.Parts) != 2*len(r.cylinderNames) {
		return ""
	}
	var all []string
	for i := 0; i < len(p.Parts); i += 2 {
		if p.Joins[i] != quantity.Slash {
			return ""
		}
		all = append(all, r.cylinderNames[i/2]+": ["+p.Parts[i].Text+", "+p.Parts[i+1].Text+"]")
	}
	return "write {" + strings.Join(all, ", ") + "} if each was read twice"
}

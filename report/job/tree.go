package job

import (
	"bytes"
	"errors"
	"io"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"gaugesheet/diag"

	"gopkg.in/yaml.v3"
)

const (
	// MaxBytes is the size up to which a job file or shop profile is read.
	MaxBytes = 2 << 20

	mostNodes = 50_000 // after aliases are put in
	deepest   = 60
)

type kind uint8

const (
	scalar kind = iota
	list
	mapping
)

// A node is a part of the file with aliases put in, and with its place.
type node struct {
	kind    kind
	pos     Pos
	text    string // of a scalar
	null    bool   // an empty value
	plain   bool   // a scalar without quotes
	tag     string // the type that YAML makes of a scalar
	joined  bool   // a list that was written without its brackets
	braced  bool   // a list that was written within braces
	items   []*node
	entries []entry
}

type entry struct {
	key   string
	pos   Pos // of the key
	value *node
}

// get gives the value of a key in a mapping, nil where there is none.
func (n *node) get(key string) *node {
	if n == nil {
		return nil
	}
	for _, e := range n.entries {
		if e.key == key {
			return e.value
		}
	}
	return nil
}

// keyPos gives the place of a key, or of the mapping where it is not given.
func (n *node) keyPos(key string) Pos {
	for _, e := range n.entries {
		if e.key == key {
			return e.pos
		}
	}
	return n.pos
}

// tree reads the file into nodes. It is nil where nothing can be read.
func (r *reader) tree(data []byte) *node {
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	if !r.readable(data) {
		return nil
	}
	decoder := yaml.NewDecoder(bytes.NewReader(straightQuotes(data)))
	var document yaml.Node
	err := decoder.Decode(&document)
	if errors.Is(err, io.EOF) || (err == nil && len(document.Content) == 0) {
		r.report(Pos{1, 1}, "a job needs at least 'engine' and one set of readings", "the file is empty")
		return nil
	}
	if err != nil {
		return r.afterFaults(r.syntax(err), data)
	}
	var second yaml.Node
	switch err := decoder.Decode(&second); {
	case err == nil:
		r.report(Pos{second.Line, 1}, "put each job into a file of its own", "a second document begins here, expected one document in a file")
	case !errors.Is(err, io.EOF):
		r.syntax(err)
	}
	if text := document.Content[0]; text.Kind == yaml.ScalarNode && strings.Contains(strings.TrimSpace(string(data)), "\n") { // notes without any colon
		if faults := r.lineFaults(); len(faults) > 1 {
			for _, f := range faults {
				r.report(f.at, f.hint, "%s", f.message)
			}
			return r.afterFaults(faults, data)
		}
	}
	c := composer{r: r, open: map[*yaml.Node]bool{}}
	return c.compose(document.Content[0], 0)
}

// readable checks size and characters, which the YAML reader would report
// without a place.
func (r *reader) readable(data []byte) bool {
	if len(data) > MaxBytes {
		r.report(Pos{1, 1}, "", "the file has %d bytes, the limit is %d", len(data), MaxBytes)
		return false
	}
	if r.foreign(data) {
		return false
	}
	line, col, indenting := 1, 1, true
	lines := bytes.IndexByte(bytes.TrimRight(data, "\n"), '\n') >= 0 // else it ends its lines with returns alone
	for i := 0; i < len(data); {
		c, size := utf8.DecodeRune(data[i:])
		switch {
		case c == utf8.RuneError && size <= 1:
			r.report(Pos{line, col}, "save the file as UTF-8", "the file is not UTF-8: byte %#02x is not a character", data[i])
			return false
		case c == '\n':
			line, col, indenting = line+1, 0, true
		case indenting && (c == '\u00a0' || c == '\u3000' || c == '\u2007' || c == '\u202f'):
			r.report(Pos{line, col}, "indent with spaces: two for each step", "the line begins with a blank that is no space (U+%04X)", c)
			return false
		case (c < ' ' && c != '\t' && c != '\r') || (c >= 0x7f && c <= 0x9f && !endsLine(c)):
			r.report(Pos{line, col}, "delete it", "found the control character U+%04X, expected text", c)
			return false
		case endsLine(c) || c == '\r' && lines && !bytes.HasPrefix(data[i+size:], []byte("\n")):
			r.report(Pos{line, col}, "delete it, or begin a new line as the others do", "found U+%04X, which ends the line for some programs and not for others", c)
			return false
		case turns(c):
			r.report(Pos{line, col}, "delete it", "found U+%04X, which shows letters in another order than they stand in", c)
			return false
		}
		indenting = indenting && (c == ' ' || c == '\n')
		i, col = i+size, col+1
	}
	return true
}

// endsLine tells the characters that end a line in YAML, and in few editors: what
// looks like a remark would be read.
func endsLine(c rune) bool { return c == '\u0085' || c == '\u2028' || c == '\u2029' }

// turns tells the characters that turn the order around in which letters are
// shown: a number would look like another one, also in a remark.
func turns(c rune) bool {
	return c == '\u061c' || c == '\u200e' || c == '\u200f' || c >= '\u202a' && c <= '\u202e' || c >= '\u2066' && c <= '\u2069'
}

var yamlLine = lazily(`^yaml: (?:line (\d+): )?(.*)$`)

// syntax reports what the YAML reader says.
func (r *reader) syntax(err error) []fault {
	m := yamlLine().FindStringSubmatch(strings.SplitN(err.Error(), "\n", 2)[0])
	line, message := 1, err.Error()
	if m != nil {
		message = m[2]
		if n, err := strconv.Atoi(m[1]); err == nil {
			line = min(max(n, 1), max(len(r.lines), 1))
		}
	}
	if at, found, hint := r.braceFault(); at != (Pos{}) {
		r.report(at, hint, "%s", found)
		return nil
	}
	if faults := r.lineFaults(); len(faults) > 0 {
		for _, f := range faults {
			r.report(f.at, f.hint, "%s", f.message)
		}
		return faults
	}
	message, hint := inPlainWords(message)
	r.report(Pos{line, 1}, hint, "%s", message)
	return nil
}

// withoutMended leaves a line's missing colon out where what the line should be is told
// besides.
func (p Problems) withoutMended() Problems {
	told := map[int]bool{}
	for _, one := range p {
		told[one.Line] = told[one.Line] || !one.mended && strings.Contains(one.Hint, "write '") && strings.Contains(one.Hint, ": ")
	}
	return slices.DeleteFunc(p, func(one Problem) bool { return one.mended && told[one.Line] })
}

// afterFaults reads the file with its faulty lines as they were meant, so that what else is
// wrong with it is told in the same run. It is nil where that is not known of all of them.
func (r *reader) afterFaults(faults []fault, data []byte) *node {
	lines := strings.Split(string(data), "\n")
	if len(faults) == 0 || len(faults) == mostLineFaults || len(lines) != len(r.lines) {
		return nil
	}
	given := map[string]bool{}
	for _, text := range lines {
		given[lineOf(text, 0).key] = true
	}
	for _, f := range faults {
		if f.instead == "" || f.at.Line > len(lines) {
			return nil
		}
		if key := lineOf(f.instead, 0).key; key != "" && given[key] { // a second one would only be told to be that
			f.instead = ""
		} else {
			given[key] = true
		}
		lines[f.at.Line-1] = f.instead
	}
	for i := range r.problems {
		r.problems[i].mended = r.problems[i].mended || slices.ContainsFunc(faults, func(f fault) bool { return f.at.Line == r.problems[i].Line && f.instead != "" })
	}
	var document yaml.Node
	if err := yaml.Unmarshal(straightQuotes([]byte(strings.Join(lines, "\n"))), &document); err != nil || len(document.Content) == 0 {
		return nil
	}
	c := composer{r: r, open: map[*yaml.Node]bool{}}
	return c.compose(document.Content[0], 0)
}

// A composer copies YAML nodes, putting in what aliases stand for.
type composer struct {
	r      *reader
	open   map[*yaml.Node]bool // anchors that are being put in
	count  int
	failed bool
}

func (c *composer) fail(n *yaml.Node, hint, format string, args ...any) *node {
	if !c.failed {
		c.failed = true
		c.r.report(Pos{n.Line, n.Column}, hint, format, args...)
	}
	return nil
}

func (c *composer) compose(n *yaml.Node, depth int) *node {
	c.count++
	switch {
	case c.failed:
		return nil
	case c.count > mostNodes:
		return c.fail(n, "aliases that contain aliases multiply", "the file has more than %d values, with aliases put in", mostNodes)
	case depth > deepest:
		return c.fail(n, "", "values are nested more than %d deep", deepest)
	}
	if n.Kind == yaml.AliasNode {
		return c.alias(n, depth)
	}
	if tag := n.ShortTag(); n.Style&yaml.TaggedStyle != 0 && !slices.Contains(knownTags, tag) {
		c.r.report(Pos{n.Line, n.Column}, "leave it out, or put the whole text into quotes", "'%s' before a value means nothing here", tag)
	}
	out := &node{pos: Pos{n.Line, n.Column}}
	switch n.Kind {
	case yaml.MappingNode:
		if names := c.r.wordsInBraces(n); names != nil {
			out.kind, out.braced = list, true
			for _, name := range names {
				out.items = append(out.items, c.compose(name, depth+1))
			}
			break
		}
		out.kind = mapping
		c.entries(out, n, depth)
	case yaml.SequenceNode:
		out.kind = list
		for _, item := range n.Content {
			v := c.compose(item, depth+1)
			if last := len(out.items) - 1; v != nil && last >= 0 && splitNotTold(out.items[last], v.text) && v.kind == scalar {
				out.items[last].text = string(diag.NotTold)
			} else if v != nil && !(c.r.blank && v.text == unchanged) {
				out.items = append(out.items, v)
			}
		}
	default:
		c.scalar(out, n)
	}
	if c.failed {
		return nil
	}
	return out
}

// scalar fills in one value.
func (c *composer) scalar(out *node, n *yaml.Node) {
	out.tag = n.ShortTag()
	out.null = out.tag == "!!null"
	out.plain = n.Style&(yaml.SingleQuotedStyle|yaml.DoubleQuotedStyle|yaml.LiteralStyle|yaml.FoldedStyle) == 0
	value := composed(n.Value)
	out.text = strings.TrimSpace(value)
	c.r.checkCharacters(out, value)
	if (out.text == unchanged || out.text == "…") && !c.r.blank {
		c.r.report(out.pos, "write what it is, or leave the line out", "found '%s', which stands for something still to be written", out.text)
		c.r.problems[len(c.r.problems)-1].spoils = true
	}
}

// unchanged is what stands in the starter for a value that is to be written.
const unchanged = "..."

var knownTags = []string{"!!str", "!!int", "!!float", "!!bool", "!!null", "!!timestamp", "!!map", "!!seq"}

func (c *composer) alias(n *yaml.Node, depth int) *node {
	if n.Alias == nil || c.open[n.Alias] {
		return c.fail(n, "", "the alias '*%s' contains itself", n.Value)
	}
	c.open[n.Alias] = true
	defer delete(c.open, n.Alias)
	return c.compose(n.Alias, depth+1)
}

func (c *composer) entries(out *node, n *yaml.Node, depth int) {
	first := map[string]int{}
	for i := 0; i+1 < len(n.Content); i += 2 {
		k := n.Content[i]
		if k.Kind == yaml.AliasNode && k.Alias != nil {
			k = k.Alias
		}
		pos := Pos{n.Content[i].Line, n.Content[i].Column}
		if k.Kind != yaml.ScalarNode {
			c.r.report(pos, "text with brackets or braces in it needs quotes", "a key is a list or a set of keys, expected a word or a number")
			continue
		}
		if k.ShortTag() == "!!merge" {
			c.r.report(pos, "write the keys out, or give the whole value as an alias", "merge keys '<<' are not supported")
			continue
		}
		value := c.compose(n.Content[i+1], depth+1)
		if value == nil {
			continue
		}
		if i := strings.IndexAny(k.Value, "{["); i > 1 && k.Value[i-1] == ' ' && k.Style&(yaml.SingleQuotedStyle|yaml.DoubleQuotedStyle) == 0 { // engine {layout: V8}
			c.fail(k, "write '"+strings.TrimSpace(k.Value[:i])+": "+k.Value[i:]+": ...'", "a key has a brace in it, expected a colon and a space before the brace")
			return
		}
		written := strings.TrimLeft(composed(k.Value), "•·● ") // the points of a list that was copied
		key := strings.TrimSpace(written)
		if last := len(out.entries) - 1; last >= 0 && isEmpty(value) && isDecimals(out.entries[last], key, pos) {
			out.entries[last].value.text += "," + key
			continue
		}
		if last := len(out.entries) - 1; last >= 0 && isEmpty(value) && splitNotTold(out.entries[last].value, key) {
			out.entries[last].value.text = string(diag.NotTold)
			continue
		}
		c.r.checkCharacters(&node{pos: pos}, written)
		if line, again := first[key]; again {
			c.twice(out, key, value, pos, line)
			continue
		}
		first[key] = pos.Line
		if c.r.blank && (isEmpty(value) || value.text == unchanged) {
			continue // still to be filled in at the bench
		}
		out.entries = append(out.entries, entry{key, pos, value})
	}
}

// twice reports a key that is given in a line before.
func (c *composer) twice(out *node, key string, value *node, pos Pos, line int) {
	if isEmpty(value) && slices.ContainsFunc(out.entries, func(e entry) bool { return strings.Contains(e.key, ";") }) { // {1: 11,2; 2: 11,1}, answered there
		return
	}
	hint := "keep one of the two"
	if before := out.get(key); value.kind == mapping && before != nil && before.kind == mapping {
		hint += ", with what stands under both"
	}
	if isTest(key) {
		hint += "; what was read before the work stands under 'before: {" + key + ": ...}'"
	}
	c.r.report(pos, hint, "key '%s' is given twice: in line %d and here", short(key), line)
}

// isDecimals reports that a key without a value is what stands behind the decimal
// comma of the value before it, the reading of a cylinder: {3: 12,5}.
func isDecimals(before entry, key string, pos Pos) bool {
	whole := before.value
	next := Pos{Line: whole.pos.Line, Col: whole.pos.Col + len(whole.text) + len(",")}
	last := whole.text
	for _, about := range []string{"ca ", "ca. ", "circa ", "about ", "approx ", "approx. ", "abt ", "~ ", "~"} { // ca 9
		last = strings.TrimPrefix(strings.ToLower(last), about)
	}
	return whole.kind == scalar && whole.plain && pos == next && isWhole(last) && isWhole(strings.TrimSuffix(before.key, ".")) && startsWithFigure(key)
}

func isWhole(text string) bool { return text != "" && strings.Trim(text, "0123456789") == "" }

// splitNotTold reports that the comma of 'read, not told', which within braces
// and brackets ends a value, has split it.
func splitNotTold(before *node, after string) bool {
	return before.kind == scalar && before.plain && fold(before.text) == "read" && fold(after) == "not told"
}

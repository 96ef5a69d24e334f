package job

import (
	"regexp"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"
)

// braceFault finds where a file goes wrong within braces and brackets: a value
// that is followed by a further key with no comma between, a closing sign that
// is none of the one opened, or an opening sign that is never closed. The place
// is zero where there is no such fault.
func (r *reader) braceFault() (at Pos, message, hint string) {
	s := braceScan{}
	for i, line := range r.lines {
		if len(line) > longestLine {
			return Pos{}, "", ""
		}
		if fault, ok := s.line([]rune(line), i+1); ok {
			return fault.at, fault.message, fault.hint
		}
	}
	if len(s.open) == 0 {
		f, _ := r.signsInBraces()
		return f.at, f.message, f.hint
	}
	f := s.notClosed()
	return f.at, f.message, f.hint
}

// wordsInBraces are the words of a list that was written within braces, {misfire,
// oil use}, which YAML takes for keys without values; nil where one of them has a
// value, or the colon of one.
func (r *reader) wordsInBraces(n *yaml.Node) []*yaml.Node {
	if n.Style&yaml.FlowStyle == 0 || len(n.Content) == 0 {
		return nil
	}
	var names []*yaml.Node
	for i := 0; i+1 < len(n.Content); i += 2 {
		name, value := n.Content[i], n.Content[i+1]
		if name.Kind != yaml.ScalarNode || value.Kind != yaml.ScalarNode || value.Value != "" || value.ShortTag() != "!!null" || strings.ContainsAny(name.Value, ":=") || r.colonBehind(name) {
			return nil
		}
		names = append(names, name)
	}
	return names
}

// colonBehind reports a colon behind a key.
func (r *reader) colonBehind(key *yaml.Node) bool {
	if key.Line > len(r.lines) {
		return true
	}
	text := []rune(r.lines[key.Line-1])
	from := min(key.Column-1+len([]rune(key.Value)), len(text))
	behind := strings.TrimLeft(strings.TrimLeft(string(text[from:]), `"'`), " ")
	return strings.HasPrefix(behind, ":")
}

// flowSigns are signs that YAML does not take within braces and brackets, each
// with what to type in their place; $1 is the number beside them.
var flowSigns = []struct {
	form          func() *regexp.Regexp
	message, hint string
}{
	{lazily(`[\[{]\s*(,)`), "a comma with nothing before it", "leave the comma out, or write 'not tested' before it"},
	{lazily("[\\[{,:]\\s*`([^`,}\\]]*)`"), "a value stands between signs that mean something else", "leave the signs out: $1"},
	{lazily(`[\[{,:]\s*\*+([^*,}\]]+?)\*+\s*[,}\]]`), "a value stands between signs that mean something else", "leave the signs out: $1"},
	{lazily(`[\[{,]\s*(,)`), "two commas with nothing between", "leave one comma out, or write 'not tested' between"},
	{lazily(`[\[{,:]\s*(?:~\s*)?([0-9.]+)\s*\?+\s*[,}\]]`), "a value ends in a mark of question", "write 'about $1'"},
	{lazily(`[\[{,:]\s*(\?+)\s*[,}\]]`), "a mark of question in the place of a value", emptyReading},
	{lazily(`\]\s*(psi|kPa|bar|MPa|lbs|%)\s*[,}]`), "a unit stands behind the list", "the unit has a key of its own, in front of the list: unit: $1"},
	{lazily(`[\[{,:]\s*>=?\s*([0-9.]+)`), "a value begins with the sign '>'", "write 'over $1'"},
	{lazily(`[\[{,:]\s*([@%\x60][^,}\]]*)`), "a value begins with a sign that means something else", `put the text into quotes: "$1"`},
}

// signsInBraces finds such a sign, outside of quotes.
func (r *reader) signsInBraces() (fault, bool) {
	for i, text := range r.lines {
		if text, _, _ = strings.Cut(text, " #"); !strings.ContainsAny(text, "{[") || strings.ContainsAny(text, `"'`) {
			continue
		}
		for _, sign := range flowSigns {
			m := sign.form().FindStringSubmatchIndex(text)
			if m == nil {
				continue
			}
			at := Pos{i + 1, len([]rune(text[:m[2]])) + 1}
			return faultAt(at, sign.message, strings.ReplaceAll(sign.hint, "$1", strings.TrimSpace(text[m[2]:m[3]]))), true
		}
	}
	return fault{}, false
}

func (s *braceScan) notClosed() fault {
	last := s.open[len(s.open)-1]
	if s.remark.at.Line == last.at.Line { // {number: #2041}
		return s.remark
	}
	if s.quote != 0 { // what closes it stands within the text
		return faultAt(last.at, "a text in quotes within '"+string(last.sign)+"' is not closed", "close it with "+string(s.quote)+", or leave the quote out")
	}
	return faultAt(last.at, "'"+string(last.sign)+"' is not closed", "close it with '"+string(closing[last.sign])+"'")
}

var closing = map[rune]rune{'{': '}', '[': ']'}

// An opened sign is one that waits to be closed.
type opened struct {
	sign  rune
	at    Pos
	colon bool // since the last comma there was a key
}

type fault struct {
	at            Pos
	message, hint string
	instead       string // of a line: as it was meant, "" where that is not known
}

func faultAt(at Pos, message, hint string) fault {
	return fault{at: at, message: message, hint: hint}
}

// braceScan is where a scan of a file has come to.
type braceScan struct {
	open   []opened
	indent int  // of the line on which the outermost was opened
	whole  bool // the outermost begins its line: it is around the whole file
	quote  rune // within a quoted text
	remark fault
}

// line scans one line, and stops at a fault.
func (s *braceScan) line(text []rune, number int) (fault, bool) {
	begins := slices.IndexFunc(text, func(c rune) bool { return c != ' ' })
	if len(s.open) > 0 && !s.whole && s.quote == 0 && begins >= 0 && begins <= s.indent && !strings.ContainsRune("}]#", text[begins]) {
		return s.notClosed(), true // a key of the lines around it
	}
	for i, c := range text {
		at := Pos{number, i + 1}
		before := rune(' ')
		if i > 0 {
			before = text[i-1]
		}
		switch {
		case s.quote != 0:
			if c == s.quote && !(c == '"' && before == '\\') {
				s.quote = 0
				if rest := strings.TrimLeft(string(text[i+1:]), " "); len(s.open) > 0 && rest != "" && rest[0] != byte(c) && !strings.ContainsRune(",]}:#", rune(rest[0])) && !s.whole {
					return faultAt(at, "a quote is closed before the value ends", "leave the quotes out, or put one before and one behind each value"), true
				}
			}
		case c == '#' && (before == ' ' || before == '\t'):
			if len(s.open) > 0 {
				s.remark = faultAt(at, "# begins a comment, so the braces are not closed", "put the text into quotes: \""+short(valueWithin(text, i))+"\"")
				if figure := strings.TrimSpace(strings.TrimRight(valueWithin(text, i), "# ")); isFigures(figure) { // 150 # for pounds
					s.remark.hint = "leave the # out: " + figure + ", with 'unit: psi' if it stands for pounds"
				}
			}
			return fault{}, false
		case c == ':' && s.textWithColon(text, i):
			return faultAt(at, "a text has a colon and a space in it", "put it into quotes: \""+short(valueWithin(text, i))+"\""), true
		case c == '{' || c == '[':
			if len(s.open) == 0 {
				s.indent, s.whole = begins, i == begins && i == 0
			}
			if len(s.open) > 0 || startsValue(text, i) {
				s.open = append(s.open, opened{sign: c, at: at})
			}
		case len(s.open) == 0:
			if (c == '"' || c == '\'') && startsValue(text, i) {
				s.quote = c
			}
		default:
			if f, ok := s.within(c, before, at, i+1 == len(text) || text[i+1] == ' '); ok {
				return f, true
			}
		}
	}
	return fault{}, false
}

// within takes a sign inside braces or brackets.
func (s *braceScan) within(c, before rune, at Pos, ends bool) (fault, bool) {
	top := &s.open[len(s.open)-1]
	switch {
	case (c == '"' || c == '\'') && (before == ' ' || before == ',' || before == '{' || before == '['):
		s.quote = c
	case c == '}' || c == ']':
		if closing[top.sign] != c {
			return faultAt(at, "found '"+string(c)+"', expected '"+string(closing[top.sign])+"'", "each '{' is closed by '}', each '[' by ']'"), true
		}
		s.open = s.open[:len(s.open)-1]
	case c == ',':
		top.colon = false
	case c == ':' && ends && top.sign == '[':
		if top.colon {
			return faultAt(at, "a colon between the values of a list", "values within brackets are separated by commas: [150, 148]"), true
		}
		top.colon = true
	case c == ':' && ends && top.sign == '{':
		if top.colon {
			return faultAt(at, "a key without a comma before it", "values within braces are separated by commas"), true
		}
		top.colon = true
	}
	return fault{}, false
}

// textWithColon reports a second colon between two commas, behind what is no key.
func (s *braceScan) textWithColon(text []rune, i int) bool {
	if len(s.open) == 0 || s.quote != 0 || !s.open[len(s.open)-1].colon || s.open[len(s.open)-1].sign != '{' || i+1 < len(text) && text[i+1] != ' ' {
		return false
	}
	value := strings.TrimSpace(valueWithin(text[:i], i))
	word := value[strings.LastIndexByte(value, ' ')+1:]
	return value != "" && !startsWithFigure(word) && !isKeyWord(word)
}

// valueWithin is the text around a place within braces, from the colon of its key
// to the sign that ends it.
func valueWithin(text []rune, i int) string {
	from, to := min(i, len(text)), min(i, len(text))
	for from > 0 && !strings.ContainsRune(",{[", text[from-1]) {
		from--
	}
	for to < len(text) && !strings.ContainsRune(",}]", text[to]) {
		to++
	}
	_, value, _ := strings.Cut(string(text[from:to]), ": ")
	return strings.TrimSpace(value)
}

// startsValue tells whether a sign stands where a value may begin: first on its
// line, or behind a colon or a dash and a space.
func startsValue(text []rune, i int) bool {
	for j := i - 1; j >= 0; j-- {
		switch {
		case text[j] == ' ' || text[j] == '\t':
		case text[j] == ':' || text[j] == '-':
			return j < i-1
		default:
			return false
		}
	}
	return true
}

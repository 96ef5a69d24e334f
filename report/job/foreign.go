package job

import (
	"bytes"
	"strings"
)

// foreignFiles are files of other kinds that are taken for a job file, by how they
// begin.
var foreignFiles = []struct{ begins, what, hint string }{
	{"{\\rtf", "a document of a word processor (RTF)", "save it there as plain text, in UTF-8"},
	{"PK\x03\x04", "a document or table in a packed form, such as a word processor or a spreadsheet writes", "save it there as plain text, in UTF-8"},
	{"%PDF-", "a PDF", "a job file is text; out of a sheet 'gaugesheet extract' takes it"},
	{"\x89PNG", "a picture", "a job file is text"},
	{"\xff\xd8\xff", "a picture", "a job file is text"},
	{"\xff\xfe", "text in UTF-16, which some programs call Unicode", "save it as UTF-8"},
	{"\xfe\xff", "text in UTF-16, which some programs call Unicode", "save it as UTF-8"},
}

// foreign reports a file of another kind.
func (r *reader) foreign(data []byte) bool {
	for _, f := range foreignFiles {
		if bytes.HasPrefix(data, []byte(f.begins)) {
			r.report(Pos{1, 1}, f.hint, "the file is %s, expected text in UTF-8", f.what)
			r.problems[len(r.problems)-1].source = "" // its first line says nothing
			return true
		}
	}
	return false
}

// tableFault finds a line of a table that was copied from a message.
func (l line) tableFault() (fault, bool) {
	if !strings.HasPrefix(l.text, "|") || strings.Count(l.text, "|") < 2 {
		return fault{}, false
	}
	var cells []string
	for _, cell := range strings.Split(strings.Trim(l.text, "| "), "|") {
		cells = append(cells, strings.TrimSpace(cell))
	}
	hint := "leave the upright lines out"
	if len(cells) > 1 {
		hint += ": '" + short(cells[0]+": "+strings.Join(cells[1:], " ")) + "'"
	}
	return l.fault(0, "a line of a table", hint)
}

// remarkFault finds a remark that begins with another sign than '#'.
func (l line) remarkFault() (fault, bool) {
	for _, sign := range []string{"//", ";", "--", "REM "} {
		if rest, ok := strings.CutPrefix(l.text, sign); ok && strings.TrimSpace(rest) != "" && l.text != "---" {
			return l.fault(0, "a line begins with '"+strings.TrimSpace(sign)+"'", "a remark begins with '#': '# "+short(strings.TrimSpace(rest))+"'")
		}
	}
	return fault{}, false
}

// dashFault finds the dashes of a list without the space behind them.
func (l line) dashFault() (fault, bool) {
	if rest, ok := strings.CutPrefix(l.text, "-"); ok && startsWithFigure(rest) && !l.colon {
		return l.fault(0, "a dash of a list has no space behind it", "write '- "+short(rest)+"'")
	}
	return fault{}, false
}

// behindFault finds words behind the bracket or brace that ends a value.
func (l line) behindFault() (fault, bool) {
	if l.value == "" || l.value[0] != '[' && l.value[0] != '{' || strings.ContainsAny(l.value, `"'`) {
		return fault{}, false
	}
	depth := 0
	for i, c := range l.value {
		switch c {
		case '[', '{':
			depth++
		case ']', '}':
			depth--
		}
		if rest := strings.TrimSpace(l.value[i+1:]); depth == 0 {
			if rest == "" || strings.ContainsAny(rest[:1], "#,;]}") {
				return fault{}, false
			}
			remark := strings.TrimSpace(strings.Trim(rest, "/()"))
			at := strings.LastIndex(l.text, l.value) + strings.LastIndex(l.value, rest)
			return l.fault(at, "found '"+short(rest)+"' behind the value", "a remark begins with ' #': write '# "+short(remark)+"', or leave it out")
		}
	}
	return fault{}, false
}

// continuesText reports a line that goes on with the text of the key above it.
func (s *lineScan) continuesText(l line) bool {
	if !s.before.colon || s.before.value == "" || s.before.indent != l.indent || startsWithFigure(l.text) {
		return false
	}
	if first, _ := l.split(); isKeyWord(first) {
		return false
	}
	name := fold(s.before.key)
	if k := keyOf(fileKeys, name); k.form == asText || k.form == asTexts {
		return k.name != ""
	}
	for _, section := range placesOf(name) {
		if k := keyOf(keysOf(fileKeys, section), name); k.form != asText && k.form != asTexts {
			return false
		}
	}
	return len(placesOf(name)) > 0
}

package job

import (
	"strings"
	"time"
)

// EngineWords takes apart what is said of an engine in one text, '4.7 L V8
// petrol': its keys under 'engine' with their values, in the order in which they
// were found. A text that says nothing of the kind is the layout.
func EngineWords(text string) [][2]string {
	n := alone(keyOf(fileKeys, "engine"), &node{text: text, plain: true, tag: "!!str"})
	if n == nil {
		return [][2]string{{"layout", text}}
	}
	var out [][2]string
	for _, e := range n.entries {
		out = append(out, [2]string{e.key, e.value.text})
	}
	return out
}

// DateMeant gives the date, as a job file has it, that a text in another form names
// and that can be no other; "" for none.
func DateMeant(text string, today time.Time) string {
	r := reader{run: &run{options: Reader{Today: today}}}
	date, _ := strings.CutPrefix(r.dateAnswer(text), "write ")
	if !isoDate().MatchString(date) {
		return ""
	}
	return date
}

// Answered reports a text that the reader has an answer to where a word of the key
// at a path is expected: it may mean several of them, or is a slip of one.
func Answered(path, text string) bool {
	keys := fileKeys
	var k key
	for _, part := range strings.Split(path, ".") {
		k = keyOf(keys, part)
		keys = k.keys
	}
	v := vocabularyOf(k.says)
	_, answer := v.find(text, k.words)
	return answer != "" || v.nearTo(text, k.words) != ""
}

// NotMade reports a text that says that a test was not made, in any of the words
// that a job file takes for that.
func NotMade(text string) bool {
	_, _, ok := parseState(text)
	return ok
}

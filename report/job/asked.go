package job

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

// NotMade reports a text that says that a test was not made, in any of the words
// that a job file takes for that.
func NotMade(text string) bool {
	_, _, ok := parseState(text)
	return ok
}

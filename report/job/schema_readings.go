package job

// readingSchemas are those of readings, which many keys have.
func readingSchemas() Object {
	return Object{{"reading", Object{
		{"description", "A number, 'about 120', '145-155', 'over 300', 'not tested', 'could not test (why)', 'read, not told', or a list of repeats."},
		{"anyOf", []any{typeOf("number", "string"), Object{{"type", "array"}, {"minItems", 1}, {"items", typeOf("number", "string")}}}},
	}}}
}

package job

import "strings"

// syntaxWords say in plain words what the YAML reader says of a file that it cannot
// take apart, and what to type. It names the line at which it gave up, which may
// stand below the fault.
var syntaxWords = []struct{ says, message, hint string }{
	{"cannot start any token", "a value begins with a sign that means something else", "indent with spaces, not tabs; put texts that begin with a sign such as @, % or ` into quotes"},
	{"mapping values are not allowed", "a second colon where a key has its value already", "a text with a colon and a space in it needs quotes"},
	{"block sequence entries are not allowed", "a list begins on the line of its key", "begin it on the next line, each entry with a dash and a space, or write it in brackets: [150, 148]"},
	{"did not find expected '-' indicator", "a line without a dash among those of a list", "begin it with a dash and a space, as far in as the others"},
	{"could not find expected ':'", "a line without a colon, here or above", "write a key, a colon, a space and the value, such as 'unit: psi'"},
	{"unexpected end of stream", "the file ends within a text in quotes", "look for the quote that is not closed"},
	{"unexpected document indicator", "a line of dashes or points within a text in quotes", "look for the quote that is not closed"},
	{"unknown escape character", "a '\\' within double quotes", "put the text into single quotes: 'C:\\tools'"},
	{"did not find expected ',' or", "a comma or a closing bracket is missing, here or above", "within braces and brackets values are separated by commas, and each is closed"},
	{"did not find expected comment or line break", "something stands behind a sign for a text of several lines", "put the text into quotes"},
	{"unknown anchor", "a value begins with the sign '*'", "put the text into quotes"},
	{"did not find expected alphabetic or numeric character", "a value begins with the sign '*' or '&'", "put the text into quotes"},
	{"did not find expected", "a line that does not fit those above it", "look for a missing quote, bracket or comma, or for uneven indentation, here or above"},
}

// inPlainWords gives a message of the YAML reader in plain words, and what to do.
func inPlainWords(message string) (plain, hint string) {
	for _, w := range syntaxWords {
		if strings.Contains(message, w.says) {
			return w.message, w.hint
		}
	}
	return "the file cannot be taken apart from here on (" + message + ")", "look for a missing quote, bracket or comma, or for uneven indentation, here or above"
}

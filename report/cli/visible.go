package cli

import (
	"fmt"
	"io"
	"os"
	"unicode"
	"unicode/utf16"
	"unicode/utf8"

	"golang.org/x/term"
)

// visible writes texts to what may be a terminal: characters of a job file
// that would steer it are spelled out, in the notation that JSON has for them.
// A text is written in one piece.
type visible struct{ io.Writer }

func (v visible) Write(text []byte) (int, error) {
	if _, err := v.Writer.Write(spelled(text)); err != nil {
		return 0, err
	}
	return len(text), nil
}

// seen is a text without characters that steer a terminal or a reader.
func seen(s string) string { return string(spelled([]byte(s))) }

func spelled(text []byte) []byte {
	clean := make([]byte, 0, len(text))
	for rest := text; len(rest) > 0; {
		r, size := utf8.DecodeRune(rest)
		switch {
		case r == utf8.RuneError && size == 1:
			clean = fmt.Appendf(clean, `\u%04x`, rest[0])
		case !steers(r):
			clean = append(clean, rest[:size]...)
		case r > 0xffff:
			high, low := utf16.EncodeRune(r)
			clean = fmt.Appendf(clean, `\u%04x\u%04x`, high, low)
		default:
			clean = fmt.Appendf(clean, `\u%04x`, r)
		}
		rest = rest[size:]
	}
	return clean
}

// steers reports control characters but the end of a line, and characters that
// turn the direction of writing or are not seen.
func steers(r rune) bool {
	return unicode.IsControl(r) && r != '\n' && r != '\t' || unicode.Is(unicode.Cf, r) || r == '\u2028' || r == '\u2029'
}

// isTerminal tells whether a writer is a terminal.
func isTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	return ok && term.IsTerminal(int(f.Fd()))
}

// isTerminalInput tells whether somebody types what is read.
func isTerminalInput(r io.Reader) bool {
	f, ok := r.(*os.File)
	return ok && term.IsTerminal(int(f.Fd()))
}

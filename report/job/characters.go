package job

import (
	"strings"

	"golang.org/x/text/unicode/norm"
)

// composed writes a text with the letters that the sheet's fonts have. Some
// systems write letters and their accents apart; phones and word processors put
// narrow spaces, marks that do not show and wide figures in, and quotes of their
// own around a text.
func composed(s string) string {
	if strings.IndexFunc(s, func(c rune) bool { return c > 0x7e }) < 0 {
		return s
	}
	s = strings.Map(plainSign, norm.NFC.String(s))
	for _, quotes := range []string{"“”", "””", "„“", "„”", "«»", "‘’", "’’"} {
		pair := []rune(quotes)
		inner := strings.TrimSpace(s)
		if r := []rune(inner); len(r) > 2 && r[0] == pair[0] && r[len(r)-1] == pair[1] && strings.Count(inner, quotes[:len(string(pair[0]))]) <= 2 {
			return string(r[1 : len(r)-1])
		}
	}
	return s
}

// plainSign gives the plain sign for one that differs only in its width; -1 for
// one that does not show.
func plainSign(c rune) rune {
	switch {
	case c == '\u2007' || c == '\u2009' || c == '\u202f' || c == '\u3000':
		return '\u00a0'
	case c >= '\u200b' && c <= '\u200f' || c == '\u2060' || c == '\ufeff':
		return -1
	case c == '、' || c == '，':
		return ','
	case c >= '\uff01' && c <= '\uff5e':
		return c - '\uff01' + '!'
	}
	return c
}

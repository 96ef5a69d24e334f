// Package fonts holds the two faces that pages are set in, cut down to the
// characters that a page may hold, and their advances as a table, so that
// measuring text reads no font file.
//
// The faces come from Liberation Sans under the SIL Open Font License 1.1
// (LICENSE-OFL.txt in this folder), and carry a name of their own because the
// licence reserves the original's.
package fonts

import (
	_ "embed" // the font files
	"sort"
)

//go:generate go run generate.go

// The faces as TrueType files. They are shared: nobody may write to them.
var (
	//go:embed regular.ttf
	Regular []byte
	//go:embed bold.ttf
	Bold []byte
)

// Licence is the licence of the faces, which goes where they go.
//
//go:embed LICENSE-OFL.txt
var Licence string

// A span is a run of characters whose advances stand from at on.
type span struct {
	first, last rune
	at          int
}

// Advance gives the advances of a character in thousandths of an em. It is
// not ok for a character that the faces lack.
func Advance(r rune) (regular, bold int, ok bool) {
	if r >= spans[0].first && r <= spans[0].last {
		i := int(r - spans[0].first)
		return int(regularAdvances[i]), int(boldAdvances[i]), true
	}
	n := sort.Search(len(spans), func(i int) bool { return spans[i].last >= r })
	if n == len(spans) || r < spans[n].first {
		return 0, 0, false
	}
	i := spans[n].at + int(r-spans[n].first)
	return int(regularAdvances[i]), int(boldAdvances[i]), true
}

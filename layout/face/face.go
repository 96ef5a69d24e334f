// Package face holds the type that pages are set in (two faces cut down to the
// characters that a page may hold, their advances as a table, so that measuring
// text reads no font file, and the outlines of their glyphs), and knows no
// surface and no page.
//
// The faces come from Liberation Sans under the SIL Open Font License 1.1
// (LICENSE-OFL.txt in this folder), and carry a name of their own because the
// licence reserves the original's.
package face

import (
	_ "embed" // the font files
	"sync"

	"gaugesheet/layout"
	"gaugesheet/layout/face/sfnt"
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

var (
	regular = sync.OnceValue(func() *sfnt.Font { return mustRead(Regular) })
	bold    = sync.OnceValue(func() *sfnt.Font { return mustRead(Bold) })
)

// Font is the file of a weight taken apart. It is read when it is first asked
// for, shared, and never changed.
func Font(w layout.Weight) *sfnt.Font {
	if w == layout.Bold {
		return bold()
	}
	return regular()
}

func mustRead(ttf []byte) *sfnt.Font {
	f, err := sfnt.Read(ttf)
	if err != nil {
		panic(err) // the program's own file, as every test shows
	}
	return f
}

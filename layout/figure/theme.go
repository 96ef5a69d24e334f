package figure

import "gaugesheet/layout"

// DefaultTheme is the type and the inks of a sheet: seven sizes of one scale,
// pure black for every word (a one-colour printer and a fax break any other dark
// ink up into dots), greys that stay apart on a grey printer, and one accent for
// lines, an ink blue dark enough to print as near black. Sizes and the accent may be changed by a
// template; the contrasts are checked by this package's tests.
func DefaultTheme(m layout.Measurer) layout.Theme {
	t := layout.Theme{
		Measurer: m,
		Scale:    1,
		Smallest: 7.5,
		Ink:      layout.Color{},
		Accent:   layout.Color{R: 0x10, G: 0x44, B: 0x5c},
		Line:     layout.Color{R: 0x8d, G: 0x96, B: 0x9e},
		Tint:     layout.Color{R: 0xeb, G: 0xef, B: 0xf2},
		Fill:     layout.Color{R: 0xd0, G: 0xd8, B: 0xde},
		Paper:    layout.Color{R: 0xff, G: 0xff, B: 0xff},
	}
	for role, size := range map[layout.Role]layout.Length{
		layout.Display: 13,
		layout.Title:   15,
		layout.Heading: 10.5,
		layout.Strong:  9,
		layout.Body:    9,
		layout.Label:   8,
		layout.Note:    7.5,
	} {
		t.Sizes[role] = size
	}
	return t
}

// Widths of lines, in points. None is thinner than hairline, which a 300 dpi
// printer still draws as more than one dot.
const (
	hairline layout.Length = 0.4
	thin     layout.Length = 0.6
	outline  layout.Length = 0.9
	heavy    layout.Length = 1.6
)

// Distances between parts, in points.
const (
	tight  layout.Length = 2
	small  layout.Length = 4
	medium layout.Length = 8
	wide   layout.Length = 12
)

package figure

import "gaugesheet/layout"

// DefaultTheme is the type and the inks of a sheet: seven sizes of one scale,
// greys that stay apart on a grey printer, and one accent, an ink blue dark
// enough to print as near black. Sizes and the accent may be changed by a
// template; the contrasts are checked by this package's tests.
func DefaultTheme(m layout.Measurer) layout.Theme {
	t := layout.Theme{
		Measurer: m,
		Scale:    1,
		Smallest: 7.5,
		Ink:      layout.Color{R: 0x1b, G: 0x22, B: 0x2c},
		Muted:    layout.Color{R: 0x52, G: 0x5d, B: 0x69},
		Accent:   layout.Color{R: 0x12, G: 0x4c, B: 0x66},
		Line:     layout.Color{R: 0xb3, G: 0xbb, B: 0xc3},
		Tint:     layout.Color{R: 0xf0, G: 0xf3, B: 0xf5},
		Fill:     layout.Color{R: 0xc4, G: 0xce, B: 0xd6},
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

package figure

import (
	"strings"

	"gaugesheet/layout"
)

// A Masthead describes the top of the sheet: the shop at the left, the kind of
// sheet, job number and date at the right. Without a shop its place stays free
// for a stamp.
type Masthead struct {
	Shop   string
	Lines  []string      // address, phone, registration
	Logo   *layout.Image // nil for none
	Sign   string        // what the logo is, in words
	Kind   string        // "Engine test, owner's copy"
	Number string        // job number
	Date   string
}

// leastHead is the height of a masthead, widestShop the width that the shop's name
// and address may take of it.
const (
	leastHead  = 12 * layout.MM
	widestShop = 114 * layout.MM
)

// NewMasthead is the block "head": whose sheet it is, which one, and of when. The
// job's number and date keep their size at every level; the shop gives way.
func NewMasthead(d Masthead) layout.Block {
	return block{"head", func(t layout.Theme, width layout.Length, level layout.Detail) layout.Frame {
		right, kind := headKind(t, d, width, level)
		left := width - right - 2*wide
		logo := logoFrame(d.Logo, left/3)
		logo.frame = pictured(d.Sign, logo.frame)
		if logo.width > 0 {
			left -= logo.width + wide
		}
		columns := []column{{left + wide, headShop(t, d, min(left, widestShop), level)}, {right, kind}}
		if logo.width > 0 {
			columns = append([]column{logo}, columns...)
		}
		line := beside(wide, columns...)
		if level == layout.Full {
			line.Height = max(line.Height, leastHead-small)
		}
		return stack([...]layout.Length{layout.Full: small, layout.Compact: small, layout.Brief: tight}[level], line, rule(layout.Pen{Width: outline, Color: t.Ink}))
	}}
}

// headKind is the kind of sheet over number and date, as wide as they need.
func headKind(t layout.Theme, d Masthead, width layout.Length, level layout.Detail) (layout.Length, layout.Frame) {
	m, kind := t.Measurer, layout.Title
	if level == layout.Brief {
		kind = layout.Heading
	}
	number := join(d.Number, d.Date)
	right := min(max(m.Width(d.Kind, t.Face(kind)), m.Width(number, t.Face(layout.Title)))+1, width*0.55)
	return right, stack(0, heard(layout.Heading1, alignRight(t, d.Kind, kind, t.Ink, right)), alignRight(t, number, layout.Title, t.Ink, right))
}

// headShop is the shop's name over its address, in the size that leaves the
// name one line where it can.
func headShop(t layout.Theme, d Masthead, width layout.Length, level layout.Detail) layout.Frame {
	name := layout.Title
	if level != layout.Full || t.Measurer.Width(d.Shop, t.Face(name)) > width {
		name = layout.Heading
	}
	return stack(0,
		textFrame(t, d.Shop, name, t.Ink, width),
		partsFrame(t, d.Lines, layout.Label, t.Ink, width))
}

// partsFrame sets texts one after another with dots between them, each whole on
// a line where it can be, and no dot at a line's end or beginning.
func partsFrame(t layout.Theme, parts []string, role layout.Role, c layout.Color, width layout.Length) layout.Frame {
	var lines []string
	for _, p := range parts {
		if n := len(lines) - 1; n >= 0 && t.Measurer.Width(join(lines[n], p), t.Face(role)) <= width {
			lines[n] = join(lines[n], p)
		} else {
			lines = append(lines, p)
		}
	}
	return textFrame(t, strings.Join(lines, "\n"), role, c, width)
}

// join puts a middle dot between two texts where both are there.
func join(a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + " · " + b
}

// logoFrame is the shop's sign, in its own proportions, no higher than the
// lines beside it and no wider than its part of them.
func logoFrame(img *layout.Image, widest layout.Length) column {
	const high layout.Length = 34
	if img == nil || img.W <= 0 || img.H <= 0 {
		return column{frame: empty()}
	}
	size := layout.Size{W: high * layout.Length(img.W) / layout.Length(img.H), H: high}
	if size.W > widest {
		size = layout.Size{W: widest, H: widest * layout.Length(img.H) / layout.Length(img.W)}
	}
	return column{size.W, layout.Frame{Height: size.H, Draw: func(s layout.Surface, a layout.Rect) {
		s.Picture(layout.Rect{X: a.X, Y: a.Y, W: size.W, H: size.H}, *img)
	}}}
}

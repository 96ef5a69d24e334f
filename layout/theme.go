package layout

// A Role is what a piece of text does on the page. Each role has one size and
// cut, so that a sheet uses one scale of type.
type Role uint8

// The roles of text, from the largest down.
const (
	Display Role = iota // the verdict sentence
	Title               // name of the shop, kind of sheet, job number
	Heading             // heading of a block
	Strong              // a word to be found at a glance, in body size
	Body                // running text
	Label               // what stands beside a value: axis, field name, unit
	Note                // the smallest: notes under a figure, the foot
	roles
)

// A Theme is the type and the inks that a page is set in. Sizes are those of
// the template times Scale; no role falls below Smallest.
type Theme struct {
	Measurer Measurer
	Sizes    [int(roles)]Length // by Role, at scale 1
	Scale    float64            // 1 as designed; less where the page is full
	Smallest Length             // no type is set smaller
	Close    bool               // lines stand closer, where the page is full
	Signs    []string           // what the figures' signs say to who hears the page, by their number

	Ink    Color // text and outlines
	Accent Color // the one colour, of lines; text is in ink
	Line   Color // hairlines and grids
	Tint   Color // quiet background of a box
	Fill   Color // body of a bar or an allowed band
	Paper  Color
}

// Face is the cut and size of a role.
func (t Theme) Face(r Role) Face {
	f := Face{Weight: Regular, Size: max(t.Sizes[r]*Length(t.Scale), t.Smallest), Close: t.Close}
	if r == Display || r == Title || r == Heading || r == Strong {
		f.Weight = Bold
	}
	return f
}

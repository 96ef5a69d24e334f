package archive

import (
	"fmt"
	"math"
	"strings"

	"gaugesheet/report/archive/pdffile"
	"gaugesheet/report/archive/shown"
)

// onlyPictures tells whether two pages are the same but for what their pictures
// show.
func onlyPictures(a, b []shown.Mark) bool {
	for i := range a {
		if len(a) != len(b) || !shown.Same(a[i], b[i], coarse) && (a[i].Kind != shown.Picture || b[i].Kind != shown.Picture) {
			return false
		}
	}
	return len(a) == len(b)
}

// pictures judges a page that is the same but for its pictures. A picture that was
// packed anew and looks alike cannot be vouched for; which one is another is
// said.
func (c *comparison) pictures() {
	left := shown.MostPixels
	for i, ours := range c.ours.marks {
		theirs := c.again.drawn.marks[i]
		if shown.Same(ours, theirs, coarse) {
			continue
		}
		which := c.pictureAt(theirs.Box)
		switch l, ok := left.Alike(ours, theirs, coarse); {
		case ok && l.Alike:
			if l.Said != "" {
				l.Said = ": " + l.Said
			}
			c.v.doubts("%s was packed anew%s and looks alike%s", which, c.byWhom(), l.Said)
		case ok:
			c.v.differs("the words are the same, but %s is another one, or was written anew with less in it%s: %s", which, c.byWhom(), l.Said)
		default:
			c.v.differs("the words are the same, but %s is another one, or was written anew%s", which, c.byWhom())
		}
	}
}

// pictureAt is a picture by the words that stand nearest to it.
func (c *comparison) pictureAt(b shown.Box) string {
	best, nearest := pdffile.Run{}, math.Inf(1)
	for _, r := range c.again.drawn.runs {
		d := math.Hypot(max(b.X0-r.X, 0, r.X-b.X1), max(b.Y0-r.Y, 0, r.Y-b.Y1))
		if strings.TrimSpace(r.Text) != "" && d < nearest {
			best, nearest = r, d
		}
	}
	if best.Text == "" {
		return "a picture"
	}
	return fmt.Sprintf("the picture at %s", quoted(best.Text))
}

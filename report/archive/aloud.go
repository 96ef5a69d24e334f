package archive

import (
	"slices"

	"gaugesheet/report/archive/pdffile"
	"gaugesheet/report/archive/shown"
)

// tags compares what readers that read aloud go by.
func (c *comparison) tags(ours, theirs pdffile.Object) error {
	same, err := c.pair.alike(ours, theirs)
	switch {
	case err != nil:
		return err
	case same && c.ours.heard == nil: // it draws with what is not known, which is said
		return nil
	case same && slices.Equal(tagged(c.ours.heard), tagged(c.again.drawn.heard)):
		return nil
	case same || len(c.s.pages) == 1 && theirs != nil:
		c.v.differs("the tags, by which a page is read aloud, are not those that its job file gives")
	default:
		c.v.doubts("the PDF has other tags, by which a page is read aloud")
	}
	return nil
}

// tagged is what is heard of a page by its tags: what has no number of theirs is
// passed over.
func tagged(heard []shown.Heard) []shown.Heard {
	var parts []shown.Heard
	for _, h := range heard {
		if n := len(parts); n > 0 && parts[n-1].ID == h.ID && parts[n-1].Tag == h.Tag {
			parts[n-1].Text += h.Text
		} else if h.ID >= 0 {
			parts = append(parts, h)
		}
	}
	return parts
}

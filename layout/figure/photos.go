package figure

import (
	"slices"
	"strings"

	"gaugesheet/layout"
)

// Photos describes the photos that belong to a sheet, those with a picture
// drawn small, each with its name and what it shows under it.
type Photos struct {
	Title string
	Items []Photo
}

// A Photo is one photo; Image is nil where only its name is known.
type Photo struct {
	Image       *layout.Image
	Name, Shows string
	Alt         string // what it is, in words: "Photo of the plugs"
}

// Widths and heights of pictures by level of detail. At brief there are none:
// the lines name them.
const mostPhotos = 6 // side by side

// leastCaption is the width that what a photo shows needs for few lines.
const leastCaption layout.Length = 110

var photoHeights = [...]layout.Length{layout.Full: 62, layout.Compact: 40, layout.Brief: 0}

// NewPhotos is the block "photos".
func NewPhotos(d Photos) layout.Block {
	return block{"photos", func(t layout.Theme, width layout.Length, level layout.Detail) layout.Frame {
		drawn := slices.ContainsFunc(d.Items, func(p Photo) bool { return p.Image != nil })
		if !drawn || level == layout.Brief {
			return photoLines(t, d, d.Items, width)
		}
		var pictures, named []Photo
		for _, p := range d.Items {
			if p.Image != nil {
				pictures = append(pictures, p)
			} else {
				named = append(named, p)
			}
		}
		rest := empty()
		if len(named) > 0 {
			rest = photoLines(t, Photos{}, named, width)
		}
		return stack(small, heard(layout.Heading2, textFrame(t, d.Title, layout.Strong, t.Ink, width)), photoRows(t, pictures, width, photoHeights[level]), rest)
	}}
}

// photoRows sets pictures side by side, as many as there is room for.
func photoRows(t layout.Theme, pictures []Photo, width, high layout.Length) layout.Frame {
	const gap = medium
	one := max(high*4/3, leastCaption)
	perRow := min(max(1, int((width+gap)/(one+gap))), mostPhotos, len(pictures))
	one = min(one, (width-gap*layout.Length(perRow-1))/layout.Length(perRow))
	var rows []layout.Frame
	for start := 0; start < len(pictures); start += perRow {
		var row []column
		for _, p := range pictures[start:min(start+perRow, len(pictures))] {
			name := run(t, layout.Note, t.Ink, p.Name)
			name.Face.Weight = layout.Bold
			caption := paragraph(t, one, layout.Left, name, run(t, layout.Note, t.Ink, p.Shows))
			row = append(row, column{one, stack(tight, pictured(p.Alt, picture(t, *p.Image, one, high)), caption)})
		}
		rows = append(rows, beside(gap, row...))
	}
	return stack(small, rows...)
}

// picture draws an image as large as it fits, in its own proportions, with a
// hairline around it.
func picture(t layout.Theme, img layout.Image, width, high layout.Length) layout.Frame {
	size := layout.Size{W: width, H: high}
	if img.W > 0 && img.H > 0 {
		if h := width * layout.Length(img.H) / layout.Length(img.W); h <= high {
			size.H = h
		} else {
			size.W = high * layout.Length(img.W) / layout.Length(img.H)
		}
	}
	return layout.Frame{Height: high, Draw: func(s layout.Surface, a layout.Rect) {
		at := layout.Rect{X: a.X, Y: a.Y + high - size.H, W: size.W, H: size.H}
		s.Picture(at, img)
		s.Stroke(layout.RectPath(at.Inset(hairline/2)), layout.Pen{Width: hairline, Color: t.Line})
	}}
}

// photoLines names photos in a paragraph.
func photoLines(t layout.Theme, d Photos, photos []Photo, width layout.Length) layout.Frame {
	title := run(t, layout.Label, t.Ink, d.Title)
	title.Face.Weight = layout.Bold
	runs := []layout.Run{title}
	for i, p := range photos {
		said := strings.TrimSpace(p.Shows)
		if i < len(photos)-1 {
			said += runOnDot
		}
		name := run(t, layout.Label, t.Ink, p.Name)
		name.Face.Weight = layout.Bold
		runs = append(runs, name, run(t, layout.Label, t.Ink, said))
	}
	return paragraph(t, width, layout.Left, runs...)
}

package shown

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"maps"

	"gaugesheet/report/archive/pdffile"
)

// object shows a picture, or a part of the page that stands by itself.
func (d *drawing) object(op pdffile.Operation) error {
	o, err := d.resource("XObject", op)
	if err != nil {
		return err
	}
	s, err := d.file.Stream(o)
	if err != nil {
		return err
	}
	if s == nil {
		return unknown("a picture that is not there")
	}
	for _, key := range []pdffile.Name{"Ref", "OPI", "PS"} {
		if s.Dict[key] != nil {
			return unknown("a page of another file, or another program")
		}
	}
	if s.Dict["OC"] != nil {
		before := d.odd
		d.odd += " can be hidden"
		defer func() { d.odd = before }()
	}
	switch s.Dict["Subtype"] {
	case pdffile.Name("Image"):
		return d.picture(s)
	case pdffile.Name("Form"):
		return d.part(s)
	}
	return unknown("something that is no picture")
}

func (d *drawing) picture(s *pdffile.Stream) error {
	untyped := &pdffile.Stream{Dict: maps.Clone(s.Dict), Raw: s.Raw}
	delete(untyped.Dict, "Type") // which may be left out
	digest, err := d.file.Digest(untyped)
	if err != nil {
		return err
	}
	sum := sha256.Sum256([]byte(digest))
	m := Mark{Kind: Picture, Box: d.ctm.corners(Box{0, 0, 1, 1}), look: fmt.Sprintf("%x", sum), measures: append([]float64{}, d.ctm[:]...), picture: s, file: d.file}
	if s.Dict["ImageMask"] == true {
		m.ink = d.fill
	}
	return d.add(m)
}

// part draws a part of the page, or notes where it is if it draws in ways that
// are not read.
func (d *drawing) part(s *pdffile.Stream) error {
	inner := d.state
	if d.hidden() {
		inner.odd += " can be hidden"
	}
	if s.Dict["Group"] != nil {
		inner.odd += " in a group"
	}
	if s.Dict["Matrix"] != nil {
		m, err := d.file.Array(s.Dict["Matrix"])
		if err != nil {
			return err
		}
		n, err := numbers(pdffile.Operation{Name: "Matrix", Operands: m}, 6)
		if err != nil {
			return err
		}
		inner.ctm = matrix(n).times(inner.ctm)
	}
	b, err := d.file.Box(s.Dict["BBox"])
	if err != nil {
		return err
	}
	var outline path
	if err := outline.add("re", []float64{b[0], b[1], b[2] - b[0], b[3] - b[1]}, inner.ctm); err != nil {
		return err
	}
	box := boxOf(outline.points)
	inner.clips = append(inner.clips[:len(inner.clips):len(inner.clips)], &clip{look: string(outline.parts), points: outline.points, box: box, plain: outline.isBox()})
	before := len(d.marks)
	if d.depth < deepestPart {
		content, err := d.file.UnpackPlain(s)
		if err != nil {
			return err
		}
		var unknown *UnknownError
		err = d.draw(content, s.Dict["Resources"], inner, d.depth+1)
		if err == nil || !errors.As(err, &unknown) {
			return err
		}
	}
	d.marks = d.marks[:before]
	return d.put(Mark{Kind: Inset, Box: box, Reach: box, look: "a part that is not read"})
}

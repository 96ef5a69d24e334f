package shown

import (
	"errors"
	"fmt"
	"slices"

	"gaugesheet/report/archive/pdffile"
)

// A path is an outline in points of the paper: letters for its parts, m l c h,
// and the places of these.
type path struct {
	parts  []byte
	points []float64
	start  [2]float64 // of the current part of it, before mapping
	now    [2]float64
}

// mostPoints bounds one outline.
const mostPoints = 200_000

func (p *path) add(name string, n []float64, m matrix) error {
	held := true
	put := func(part byte, xy ...float64) {
		p.parts = append(p.parts, part)
		for i := 0; i < len(xy); i += 2 {
			x, y := m.point(xy[i], xy[i+1])
			held = held && m.holds(xy[i], xy[i+1])
			p.points = append(p.points, x, y)
			p.now = [2]float64{xy[i], xy[i+1]}
		}
	}
	if len(p.parts) == 0 && name != "m" && name != "re" {
		return unknown("an outline without a start")
	}
	if len(p.points) > mostPoints {
		return unknown("an outline without end")
	}
	switch name {
	case "m":
		p.start = [2]float64{n[0], n[1]}
		put('m', n...)
	case "l":
		put('l', n...)
	case "c":
		put('c', n...)
	case "v":
		put('c', p.now[0], p.now[1], n[0], n[1], n[2], n[3])
	case "y":
		put('c', n[0], n[1], n[2], n[3], n[2], n[3])
	case "h":
		put('h')
		p.now = p.start
	case "re":
		x, y, w, h := n[0], n[1], n[2], n[3]
		p.start = [2]float64{x, y}
		put('m', x, y)
		put('l', x+w, y)
		put('l', x+w, y+h)
		put('l', x, y+h)
		put('h')
		p.now = p.start
	}
	if !held {
		return errRounding
	}
	return nil
}

// filled is the outline as filling sees it: every part is closed, so neither
// closing it at its end nor a line back to its start says anything. What goes on
// after a part was closed is another part, which begins where that one did.
func (p path) filled() path {
	var out path
	points := p.points
	begin := 0 // of the current part in out.points
	end := func() {
		n := len(out.points)
		if n-begin > 2 && out.parts[len(out.parts)-1] == 'l' && near(out.points[n-2], out.points[begin]) && near(out.points[n-1], out.points[begin+1]) {
			out.parts, out.points = out.parts[:len(out.parts)-1], out.points[:n-2]
		}
	}
	closed := false
	for _, part := range p.parts {
		if part == 'h' {
			closed = true
			continue
		}
		if part == 'm' || closed {
			start := slices.Clone(out.points[min(begin, len(out.points)):min(begin+2, len(out.points))])
			if len(out.parts) > 0 {
				end()
			}
			begin = len(out.points)
			if part != 'm' {
				out.parts, out.points = append(out.parts, 'm'), append(out.points, start...)
			}
		}
		closed = false
		size := map[byte]int{'m': 2, 'l': 2, 'c': 6}[part]
		out.parts = append(out.parts, part)
		out.points = append(out.points, points[:size]...)
		points = points[size:]
	}
	if len(out.parts) > 0 {
		end()
	}
	return out
}

func near(a, b float64) bool { return a-b < 1e-3 && b-a < 1e-3 }

// isBox tells whether the outline is a box with upright sides.
func (p path) isBox() bool {
	q := p.filled()
	if string(q.parts) != "mlll" {
		return false
	}
	x, y := q.points, q.points[1:]
	across := near(y[0], y[2]) && near(x[2], x[4]) && near(y[4], y[6]) && near(x[6], x[0])
	along := near(x[0], x[2]) && near(y[2], y[4]) && near(x[4], x[6]) && near(y[6], y[0])
	return across || along
}

// paint ends the outline: it is drawn, and may become a clip.
func (d *drawing) paint(name string) error {
	var err error
	p := d.path
	d.path = path{}
	if name == "s" || name == "b" || name == "b*" {
		p.parts = append(p.parts, 'h')
	}
	if len(p.points) > 0 {
		switch name {
		case "f", "F", "f*":
			err = d.area(p, name == "f*")
		case "S", "s":
			err = d.stroked(p)
		case "B", "B*", "b", "b*":
			err = errors.Join(d.area(p, name == "B*" || name == "b*"), d.stroked(p))
		}
	}
	if d.cut && len(d.clips) >= mostClips {
		return pdffile.ErrTooLarge
	}
	if d.cut {
		filled := p.filled()
		c := &clip{look: fmt.Sprintf("%s %t", filled.parts, d.even), points: filled.points, box: boxOf(filled.points), plain: p.isBox()}
		if c.plain {
			c.look, c.points = "box", []float64{c.box.X0, c.box.Y0, c.box.X1, c.box.Y1}
		}
		d.clips = append(d.clips[:len(d.clips):len(d.clips)], c)
		d.cut = false
	}
	return err
}

func (d *drawing) area(p path, even bool) error {
	p = p.filled()
	box := boxOf(p.points)
	m := Mark{Kind: Area, Box: box, look: fmt.Sprintf("%s %t", p.parts, even), ink: d.fill, measures: p.points}
	if p.isBox() { // wherever its outline begins
		m.look, m.measures = "box", []float64{box.X0, box.Y0, box.X1, box.Y1}
	}
	return d.add(m)
}

func (d *drawing) stroked(p path) error {
	if p.isBox() && p.parts[len(p.parts)-1] == 'h' && len(d.pen.dash) == 0 { // wherever its outline begins
		b := boxOf(p.points)
		p = path{parts: []byte("box"), points: []float64{b.X0, b.Y0, b.X1, b.Y0, b.X1, b.Y1, b.X0, b.Y1}}
	}
	scale := d.ctm.scale()
	measures := append([]float64{d.pen.width * scale, d.pen.miter, d.pen.phase * scale}, p.points...)
	for _, v := range d.pen.dash {
		measures = append(measures, v*scale)
	}
	look := fmt.Sprintf("%s %g %g %d", p.parts, d.pen.cap, d.pen.join, len(d.pen.dash))
	beyond := 1.5 // half a width: a square end, a right corner
	if d.pen.join == 0 && len(p.points) > 4 && string(p.parts) != "box" {
		beyond = max(beyond, d.pen.miter) // the point of a sharp corner
	}
	reach := boxOf(p.points).Grown(beyond * d.pen.width * scale / 2)
	if !d.ctm.even() {
		look, reach = look+" in a pen that is not round", everywhere
	}
	return d.add(Mark{
		Kind: Line, Box: boxOf(p.points).Grown(d.pen.width*scale/2 + 0.01), Reach: reach,
		look: look,
		ink:  d.stroke, measures: measures, places: len(p.points) / 2,
	})
}

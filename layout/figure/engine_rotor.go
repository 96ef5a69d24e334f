package figure

import (
	"math"

	"gaugesheet/layout"
)

// A rotor housing is an epitrochoid with an eccentricity of a seventh of its
// generating radius, the common proportion (from memory).
const rotorProportion = 7

// housing is the outline that the rotor's tips run along, its waist level:
// x = e sin 3a + R sin a, y = -e cos 3a - R cos a, turned so that it stands as
// wide as it is high.
func housing(at layout.Point, radius layout.Length) layout.Path {
	const steps = 72
	points := make([]layout.Point, steps)
	e := float64(radius) / rotorProportion
	for i := range points {
		a := 2 * math.Pi * float64(i) / steps
		points[i] = at.Add(
			layout.Length(e*math.Cos(3*a)+float64(radius)*math.Cos(a)),
			layout.Length(e*math.Sin(3*a)+float64(radius)*math.Sin(a)))
	}
	return layout.Polygon(points...)
}

// rotor is the three-cornered rotor with one tip up: its flanks bulge so far
// as the housing lets them.
func rotor(at layout.Point, radius layout.Length) (outline layout.Path, middle layout.Point) {
	middle = at.Add(0, radius/rotorProportion)
	tip := func(k int) layout.Point {
		sin, cos := math.Sincos((-90 + 120*float64(k)) * math.Pi / 180)
		return middle.Add(radius*0.96*layout.Length(cos), radius*0.96*layout.Length(sin))
	}
	bulge := func(from, to layout.Point, part layout.Length) layout.Point {
		p := layout.Point{X: from.X + (to.X-from.X)*part, Y: from.Y + (to.Y-from.Y)*part}
		out := layout.Point{X: (from.X+to.X)/2 - middle.X, Y: (from.Y+to.Y)/2 - middle.Y}
		return p.Add(out.X*0.5, out.Y*0.5)
	}
	outline = outline.MoveTo(tip(0))
	for k := range 3 {
		a, b := tip(k), tip(k+1)
		outline = outline.CubicTo(bulge(a, b, 0.33), bulge(a, b, 0.67), b)
	}
	return outline.Close(), middle
}

// drawRotors draws the housings under one another, each with its rotor and
// the rotor's tab.
func (b *engineBody) drawRotors(sf layout.Surface, half layout.Length) {
	t := b.g.t
	radius := half * rotorProportion / (rotorProportion + 1)
	b.half, b.wall = layout.Size{W: half * 0.8, H: radius * (1 - 1.0/rotorProportion)}, 0
	b.drawEnds(sf, b.block())
	shaft := b.block()
	shaft = shaft.InsetXY(shaft.W*0.36, 0)
	sf.Fill(layout.RectPath(shaft), t.Tint)
	sf.Stroke(layout.RectPath(shaft), layout.Pen{Width: outline, Color: t.Ink})
	for i, at := range b.at {
		c := &b.g.d.Cylinders[i]
		path := housing(at, radius)
		sf.Fill(path, t.Paper)
		sf.Stroke(path, layout.Pen{Width: 1.2, Color: t.Ink})
		inner, middle := rotor(at, radius)
		if b.pen {
			sf.Stroke(inner, layout.Pen{Width: outline, Color: t.Ink})
			continue
		}
		PaintTone(sf, t, rotorTone(c), inner)
		if TabSize(sf, c.Number, b.g.tab).W < 1.5*radius { // else it stands at the faces only
			DrawTab(sf, t, c.Number, middle, b.g.tab)
		}
	}
}

// rotorTone is the tone of the face that calls for a look first.
func rotorTone(c *Cylinder) Tone {
	if len(c.Faces) == 0 {
		return Open
	}
	tone := Plain
	for _, f := range c.Faces {
		if f.Bar.Tone != Plain && (tone == Plain || f.Bar.Tone < Open && f.Bar.Tone > tone) {
			tone = f.Bar.Tone
		}
	}
	return tone
}

package figure

import (
	"math"

	"gaugesheet/layout"
)

// A rotor housing is an epitrochoid with an eccentricity of a seventh of its
// generating radius, the common proportion (from memory).
const rotorProportion = 7

func housingSize(radius layout.Length) layout.Size {
	e := radius / rotorProportion
	return layout.Size{W: 2 * (radius + e), H: 2 * (radius - e) * 1.06}
}

func housingRadius(size layout.Size) layout.Length {
	return size.W / 2 * rotorProportion / (rotorProportion + 1)
}

// housing is the outline that the rotor's tips run along:
// x = e cos 3a + R cos a, y = e sin 3a + R sin a.
func housing(at layout.Point, radius layout.Length) layout.Path {
	const steps = 120
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

// rotorWall is how much of a rotor is left white for its values, inside the
// edge that shows its tone.
const rotorWall = 0.84

// facePlaces are where the values of the faces stand, from the rotor's middle
// in parts of the radius: right, below, left.
var facePlaces = [3]layout.Point{{X: 0.28, Y: -0.12}, {X: 0, Y: 0.33}, {X: -0.28, Y: -0.12}}

// rotorFace is the face in which the values of a rotor's faces go into it.
func rotorFace(t layout.Theme, d EnginePlan, size layout.Size) (layout.Face, bool) {
	radius := housingRadius(size)
	face := t.Face(layout.Strong)
	for ; ; face.Size = max(face.Size-0.5, t.Smallest) {
		if widestFace(t, d, face) <= radius*0.49 && widestValue(t, d, face) <= radius*0.9 && faceHeight(t, face) <= radius*0.42 {
			return face, true
		}
		if face.Size <= t.Smallest {
			return face, false
		}
	}
}

// faceHeight is the height of a face's name over its value, with the distance
// that it keeps from others: at 0.42 of the radius the three go into a rotor.
func faceHeight(t layout.Theme, f layout.Face) layout.Length {
	m := t.Measurer
	return f.Size*0.92 + (m.CapHeight(f)+m.CapHeight(t.Face(layout.Note)))/2 + 1.5
}

func widestFace(t layout.Theme, d EnginePlan, f layout.Face) layout.Length {
	var w layout.Length
	for _, c := range d.Cylinders {
		for _, l := range c.Faces {
			w = max(w, t.Measurer.Width(l.Value, f), t.Measurer.Width(l.Name, t.Face(layout.Note)))
		}
	}
	return w
}

func (p planDrawing) drawRotor(s layout.Surface, at layout.Point, c Cylinder) {
	radius := housingRadius(p.placing.bore)
	s.Fill(housing(at, radius), p.t.Tint)
	s.Stroke(housing(at, radius), layout.Pen{Width: heavy, Color: p.t.Ink})
	body, middle := rotor(at, radius)
	if p.plan.Pen {
		s.Fill(body, p.t.Paper)
		s.Stroke(body, layout.Pen{Width: outline, Color: p.t.Ink})
		return
	}
	PaintTone(s, p.t, c.Tone, body)
	face, _ := rotorFace(p.t, p.plan, p.placing.bore)
	inner, _ := rotor(at.Add(0, radius*(1-rotorWall)/rotorProportion), radius*rotorWall)
	s.Fill(inner, p.t.Paper)
	if p.placing.writer.valueOut {
		return
	}
	if len(c.Faces) == 0 {
		centred(s, c.Value, middle, face, p.t.Ink)
	}
	note := p.t.Face(layout.Note)
	for k, l := range c.Faces[:min(len(c.Faces), 3)] {
		place := middle.Add(facePlaces[k].X*radius, facePlaces[k].Y*radius)
		centred(s, l.Name, place.Add(0, -face.Size*0.46), note, p.t.Muted)
		centred(s, l.Value, place.Add(0, face.Size*0.46), face, p.t.Ink)
	}
}

package job

import (
	"slices"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
)

const facesOfRotor = 3

func (r *reader) rotors(top *section, e *engine.Engine) *diag.Rotors {
	if state, reason, ok := r.stated(top, "rotors"); ok {
		return &diag.Rotors{State: state, Reason: reason}
	}
	if e != nil && e.Kind != engine.Rotary && top.get("rotors") != nil {
		r.report(top.keyPos("rotors"), "readings of cylinders go under 'compression'", "'rotors' is for rotary engines, and the engine is %s", e.Layout)
		return nil
	}
	sec := top.group("rotors")
	if sec == nil {
		return nil
	}
	s := r.scaleFor(sec, pressures{name: "rotors", usual: diag.UsualRotors(), of: "a rotary engine", verb: "can give", most: mostCompression, keys: []string{"faces"}})
	out := &diag.Rotors{CrankingRPM: orZero(sec.amount("cranking", crankings))}
	out.Rotors = r.faces(sec, s)
	var parts []whyNot
	for _, rotor := range out.Rotors {
		parts = append(parts, whyNot{rotor.State, rotor.Reason})
	}
	out.State, out.Reason = stateOf(parts)
	l := sec.group("limits")
	out.Minimum = r.rotorLimit(l, s, "minimum", diag.Minimum)
	out.Faces = r.rotorLimit(l, s, "between-faces", diag.Difference)
	out.Apart = r.rotorLimit(l, s, "between-rotors", diag.Difference)
	s.finish()
	out.Unit = s.unit
	return out
}

func (r *reader) rotorLimit(l *section, s *scale, key string, kind diag.LimitKind) *diag.Limit {
	n := l.scalar(key)
	if n == nil {
		return nil
	}
	p, ok := s.scan(n, l.label(key))
	if !ok {
		return nil
	}
	v, ok := s.limitOf(n, p, l.label(key))
	if !ok {
		return nil
	}
	return &diag.Limit{Kind: kind, Value: v, Unit: s.unit, Entered: n.text, Source: l.scalarText("source")}
}

// faces reads the rotors in the engine's order.
func (r *reader) faces(sec *section, s *scale) []diag.Rotor {
	n := sec.get("faces")
	if n == nil {
		return nil
	}
	byName := byCylinder(r, n, sec.label("faces"), func(n *node, label, rotor string) (diag.Rotor, bool) {
		s.cylinder = rotor
		defer func() { s.cylinder = "" }()
		return r.rotor(n, label, rotor, s)
	})
	names := r.cylinderNames
	if names == nil {
		for name := range byName {
			names = append(names, name)
		}
		slices.Sort(names)
	}
	var out []diag.Rotor
	for _, name := range names {
		rotor, ok := byName[name]
		if !ok {
			rotor = diag.Rotor{Name: name, State: diag.NotTested}
		}
		out = append(out, rotor)
	}
	return out
}

// nameRotors brings faces that stand behind their rotors in one text under these, which are their names.
func (r *reader) nameRotors(top *section) {
	faces := top.node.get("rotors").get("faces")
	if faces == nil {
		return
	}
	if rows := r.faceRows(faces); rows != nil {
		*faces = *rows
	}
}

// faceRows reads the faces of each rotor behind its name, 'front 110 108 109, rear 95 60 96'; nil for any other text.
func (r *reader) faceRows(n *node) *node {
	if n.kind != scalar || len(n.text) > longestSaid {
		return nil
	}
	out := r.rowsBehind(n, " ,;:=", func(text string) string {
		if startsWithFigure(text) {
			return ""
		}
		return fold(text)
	})
	if out == nil {
		return nil
	}
	for _, e := range out.entries {
		if len(e.value.items) != facesOfRotor {
			return nil
		}
	}
	return out
}

func (r *reader) rotor(n *node, label, name string, s *scale) (diag.Rotor, bool) {
	out := diag.Rotor{Name: name, State: diag.Tested}
	if n.kind == scalar {
		state, reason, ok := parseState(n.text)
		if list := r.typedFor(n, facesOfRotor); !ok && list != nil {
			return r.rotor(list, label, name, s)
		}
		switch {
		case isEmpty(n):
			r.report(n.pos, emptyReading, "'%s' has no value", label)
		case !ok:
			r.report(n.pos, "such as [7.4, 7.2, 7.3], in the order read", "'%s' is '%s', expected the three faces of the rotor", label, short(n.text))
		}
		out.State, out.Reason = state, reason
		return out, ok
	}
	if points := decimalCommas(n, facesOfRotor); points != nil {
		n.items = points
	}
	if n.kind == mapping || len(n.items) != facesOfRotor {
		r.report(n.pos, "such as [7.4, 7.2, 7.3], in the order read", "'%s' has %d faces, a rotor has %d", label, len(n.items)+len(n.entries), facesOfRotor)
		return out, false
	}
	sound := true
	for _, item := range n.items {
		reading, ok := s.reading(item, label)
		sound = sound && ok
		out.Faces = append(out.Faces, reading)
	}
	return out, sound
}

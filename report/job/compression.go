package job

import (
	"math"
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
	"gaugesheet/diag/quantity"
)

// mostCompression is beyond what any engine cranks to, in bar.
const mostCompression = 100

var doses = bounds{[]quantity.Unit{quantity.Millilitre, quantity.CubicInch, quantity.USFluidOunce, quantity.Litre}, 0.1, 1000, [2]float64{1, 60}}

var (
	spoonForm  = lazily(`tsp|tbsp|spoon`)
	squirtForm = lazily(`squirt|shot|splash|drop`)
)

// wetFromDry reports a reading with oil that begins at the one without, 62 to 110: it rose, and
// is no band.
func (r *reader) wetFromDry(sec *section, c *diag.Compression) {
	wet := sec.get("wet")
	for _, name := range r.cylinderNames {
		w, d := c.Wet[name], c.Dry[name]
		if w.HalfWidth == 0 || len(w.Values) != 1 || len(d.Values) != 1 || d.HalfWidth != 0 {
			continue
		}
		low, high := w.Values[0]-w.HalfWidth, w.Values[0]+w.HalfWidth
		if math.Abs(low-d.Values[0]) > 0.01*d.Values[0] || high < 1.1*low {
			continue
		}
		pos := wet.pos
		if one := wet.get(name); one != nil {
			pos = one.pos
		}
		r.report(pos, "write what it came to, 'wet: {"+name+": "+plainNumber(math.Round(high*100)/100)+"}'", "'compression.wet.%s' is '%s', from the reading without oil on, which may be a rise or a band", name, short(w.Entered))
	}
}

// stated reads a section that is only a word such as 'declined'.
func (r *reader) stated(top *section, key string) (diag.State, string, bool) {
	n := top.get(key)
	if n == nil || n.kind != scalar {
		return "", "", false
	}
	return parseState(n.text)
}

func (r *reader) compression(top *section, e *engine.Engine, spec diag.Spec) *diag.Compression {
	if state, reason, ok := r.stated(top, "compression"); ok {
		return &diag.Compression{State: state, Reason: reason}
	}
	if e != nil && e.Kind == engine.Rotary && top.get("compression") != nil {
		r.report(top.keyPos("compression"), "give the faces of each rotor under 'rotors'", "'compression' is for cylinders, and the engine is a rotary")
		return nil
	}
	sec := top.group("compression")
	if sec == nil {
		return nil
	}
	spark := e != nil && e.Kind == engine.Rotary || r.hasPlugs
	s := r.scaleFor(sec, pressures{name: "compression", usual: diag.UsualCompression(spec, spark), of: crankedBy(spec, spark),
		verb: "can give", most: mostCompression, keys: []string{"first", "dry", "again", "wet", "running"}})
	c := &diag.Compression{
		Order:      sec.cylinders("order"),
		Dry:        s.readings(sec, "dry"),
		Again:      s.readings(sec, "again"),
		Wet:        s.readings(sec, "wet"),
		WetInWords: sec.scalarText("wet-in-words"),
		OilML:      r.dose(sec),
		Strokes:    r.strokesEach(sec),
	}
	r.wetFromDry(sec, c)
	// First strokes and a running engine read far lower than a full cranking
	// test, and say nothing of the unit where there is one.
	full := s.samples
	c.First, c.Running = s.readings(sec, "first"), r.running(sec, s)
	if len(full) > 0 {
		s.samples = full
	}
	c.Limits, c.Standard = r.limits(sec, s)
	s.finish()
	c.Unit = s.unit
	onlyAgain(c)
	c.State, c.Reason = r.readingsState(c.Dry, c.First, c.Again, c.Wet)
	if len(c.Running) > 0 {
		c.State, c.Reason = diag.Tested, ""
	}
	return c
}

// onlyAgain takes the repeat of a cylinder of which nothing is said before it for its
// reading: left where it stands it would be shown and judge nothing.
func onlyAgain(c *diag.Compression) {
	for name, again := range c.Again {
		if _, said := c.Dry[name]; len(again.Values) > 0 && !said {
			if c.Dry == nil {
				c.Dry = map[string]diag.Reading{}
			}
			c.Dry[name] = again
			delete(c.Again, name)
		}
	}
}

// dose reads the oil of a wet test. Spoons differ in size, and are not taken.
func (r *reader) dose(sec *section) float64 {
	n := sec.scalar("oil")
	if n == nil {
		return 0
	}
	hint := ""
	switch words := fold(n.text); {
	case spoonForm().MatchString(words):
		hint = "a teaspoon is about 5 ml, a tablespoon about 15 ml: write the ml"
	case squirtForm().MatchString(words):
		hint = "a squirt of an oil can is about 2 to 5 ml: measure one, and write the ml"
	case !strings.ContainsAny(words, "0123456789"):
		hint = "write the ml that went in, such as '5 ml'; leave the key out where nobody knows"
	}
	if hint != "" {
		r.report(n.pos, hint, "'%s' is '%s', expected ml", sec.label("oil"), short(n.text))
		return 0
	}
	return orZero(sec.amount("oil", doses))
}

func (r *reader) strokesEach(sec *section) map[string]int {
	n := sec.get("strokes")
	if n == nil {
		return nil
	}
	if n.kind == scalar {
		r.report(n.pos, "strokes that are the same for all go under 'conditions'", "'%s' is '%s', expected strokes by %s", sec.label("strokes"), short(n.text), r.cylinderWord)
		return nil
	}
	return byCylinder(r, n, sec.label("strokes"), func(n *node, label, _ string) (int, bool) {
		if n = r.scalar(n, label, "a whole number"); n == nil {
			return 0, false
		}
		v := r.whole(n, label, 1, mostStrokes)
		return v, v > 0
	})
}

func (r *reader) running(sec *section, s *scale) map[string]diag.Running {
	n := sec.get("running")
	if n == nil {
		return nil
	}
	return byCylinder(r, n, sec.label("running"), func(n *node, label, cylinder string) (diag.Running, bool) {
		one := r.section(n, label, runningKeys)
		if one == nil {
			return diag.Running{}, false
		}
		s.cylinder = cylinder
		defer func() { s.cylinder = "" }()
		return diag.Running{Idle: s.key(one, "idle"), Snap: s.key(one, "snap")}, true
	})
}

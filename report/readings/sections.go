package readings

import (
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
)

// Compression is what a compression test says of each cylinder, in bench order.
func Compression(t *diag.Test, c *diag.CompressionResult) []Column {
	of := func(say func(*diag.CylinderResult, *diag.CompressionResult) Value) func(string) Value {
		return func(name string) Value {
			if r := c.Cylinder(name); r != nil {
				return say(r, c)
			}
			return Value{}
		}
	}
	given := t.Compression
	if given == nil {
		given = &diag.Compression{}
	}
	asRead := func(entries map[string]diag.Reading, value func(*diag.CylinderResult) *float64) func(string) Value {
		return of(func(r *diag.CylinderResult, _ *diag.CompressionResult) Value {
			return withEntries(entries[r.Name], value(r), c.Decimals)
		})
	}
	return []Column{
		{"first", true, asRead(given.First, func(r *diag.CylinderResult) *float64 { return r.First })},
		{"entered", false, of(enteredDry)},
		{"dry", true, of(dry)},
		{"of-highest", true, of(ofHighest)},
		{"again", true, asRead(given.Again, func(r *diag.CylinderResult) *float64 { return r.Again })},
		{"wet", true, asRead(given.Wet, func(r *diag.CylinderResult) *float64 { return r.Wet })},
		{"wet-rise", true, of(wetRise)},
		{"earlier", true, of(func(r *diag.CylinderResult, c *diag.CompressionResult) Value { return number(Then(r), c.Decimals) })},
		{"change", true, of(change)},
		{"idle", true, running(t, c, func(r diag.Running) *diag.Reading { return r.Idle })},
		{"snap", true, running(t, c, func(r diag.Running) *diag.Reading { return r.Snap })},
		{"grade", false, of(graded)},
	}
}

// ofHighest is a reading in percent of the highest.
func ofHighest(r *diag.CylinderResult, c *diag.CompressionResult) Value {
	if r.PercentOfHighest == nil || r.Dry == nil || c.Highest <= 0 {
		return Value{}
	}
	if ends := c.EndsOf(r.Name); ends != nil {
		return text(Between(Part(ends[0], c.Highest, c.Decimals), Part(ends[1], c.Highest, c.Decimals), func(v float64) string { return quantity.Format(v, 1) }))
	}
	return text(quantity.Format(Part(*r.Dry, c.Highest, c.Decimals), 1))
}

// wetRise is how far oil raised a reading.
func wetRise(r *diag.CylinderResult, c *diag.CompressionResult) Value {
	if r.WetRise == nil || r.Wet == nil || r.Dry == nil {
		return Value{}
	}
	return text(Signed(Less(*r.Wet, *r.Dry, c.Decimals)))
}

// change is how far a reading is above the earlier one.
func change(r *diag.CylinderResult, c *diag.CompressionResult) Value {
	then := Then(r)
	if then == nil {
		return Value{}
	}
	return text(Signed(Less(*r.Dry, *then, c.Decimals)))
}

// graded is the grade of a reading.
func graded(r *diag.CylinderResult, _ *diag.CompressionResult) Value {
	if r.State != diag.Tested {
		return Value{}
	}
	return term("grade", string(r.Grade))
}

// withEntries is a reading with the entries that it comes from behind it, where
// these say more than the number.
func withEntries(r diag.Reading, value *float64, decimals int) Value {
	entered := Entered(r.Entered)
	switch {
	case value == nil:
		return text(entered)
	case upTo(r):
		return text(entered)
	case len(r.Values) > 1 || r.Kind == diag.Band:
		return text(Print(*value, decimals) + " (" + entered + ")")
	}
	return text(Marked(r.Kind, Print(*value, decimals)))
}

// upTo reports a reading that is known only not to be more than a figure.
func upTo(r diag.Reading) bool {
	_, ok := r.UpTo()
	return ok
}

// Between prints a figure that is known to lie between two, one where both print the same.
func Between(a, b float64, print func(float64) string) string {
	low, high := print(min(a, b)), print(max(a, b))
	if low == high {
		return low
	}
	return low + "–" + high
}

// OfEnds prints a sum over a set between what it is at either end of the readings that are
// known only not to be more than a figure.
func OfEnds(c *diag.CompressionResult, of func(*diag.CompressionResult) float64, print func(float64) string) string {
	if c.Ends == nil {
		return print(of(c))
	}
	return Between(of(c.Ends[0]), of(c.Ends[1]), print)
}

// Marked marks a figure that is an estimate or a lower bound.
func Marked(k diag.Kind, figure string) string {
	switch k {
	case diag.Estimate:
		return "~" + figure
	case diag.AtLeast:
		return figure + "+"
	}
	return figure
}

// Then is a cylinder's reading in the earlier test that this one is compared
// with; nil where there is none.
func Then(r *diag.CylinderResult) *float64 {
	if r.Change == nil || r.Dry == nil {
		return nil
	}
	then := *r.Dry - *r.Change
	return &then
}

// enteredDry is what the job file has for a dry reading, where that says more
// than the number: repeats, a range, a bound, a unit of its own.
func enteredDry(r *diag.CylinderResult, c *diag.CompressionResult) Value {
	if r.State != diag.Tested {
		return Value{}
	}
	entered := Entered(r.Entered)
	if r.Dry != nil && entered == Print(*r.Dry, c.Decimals) {
		return Value{}
	}
	return text(entered)
}

// dry is a dry reading: the mean of its repeats, with the sign for an estimate
// or for a lower bound; what stands in its place where there is none.
func dry(r *diag.CylinderResult, c *diag.CompressionResult) Value {
	switch {
	case r.State != diag.Tested:
		return state(r.State, r.Reason)
	case r.Dry == nil:
		return Value{}
	}
	if ends := c.EndsOf(r.Name); ends != nil {
		return text(Between(ends[0], ends[1], func(v float64) string { return Print(v, c.Decimals) }))
	}
	return text(Marked(r.Kind, Print(*r.Dry, c.Decimals)))
}

func running(t *diag.Test, c *diag.CompressionResult, side func(diag.Running) *diag.Reading) func(string) Value {
	return func(name string) Value {
		if t.Compression == nil {
			return Value{}
		}
		r := side(t.Compression.Running[name])
		if r == nil {
			return Value{}
		}
		value, read := r.Value()
		if !read {
			return state(r.State, r.Reason)
		}
		return text(Print(value, c.Decimals))
	}
}

// Leakage is what a leakage test says of each cylinder, in percent lost.
func Leakage(t *diag.Test, l *diag.LeakageResult) []Column {
	of := func(say func(*diag.LeakResult) Value) func(string) Value {
		return func(name string) Value {
			if r := l.Cylinder(name); r != nil {
				return say(r)
			}
			return Value{}
		}
	}
	return []Column{
		{"leak-entered", false, of(enteredLoss)},
		{"leakage", true, of(func(r *diag.LeakResult) Value {
			switch {
			case r.State != diag.Tested:
				return state(r.State, r.Reason)
			case r.Loss == nil:
				return Value{}
			}
			kind := diag.Exact
			if r.Bound {
				kind = diag.AtLeast
			}
			if t.Leakage != nil && upTo(t.Leakage.Dry[r.Name].Reading) {
				end, _ := t.Leakage.Dry[r.Name].UpTo()
				return text(Between(0, end, func(v float64) string { return Print(v, 0) }))
			}
			return text(Marked(kind, Print(*r.Loss, 0)))
		})},
		{"leak-at", false, of(func(r *diag.LeakResult) Value { return Value{List: "air-at", Terms: mostFirst(r)} })},
		{"leak-wet", true, of(func(r *diag.LeakResult) Value { return number(r.Wet, 0) })},
		{"leak-wet-at", false, of(func(r *diag.LeakResult) Value { return Value{List: "air-at", Terms: r.WetAt} })},
		{"leak-limit", false, of(func(r *diag.LeakResult) Value {
			if l.Limit == nil || r.Loss == nil {
				return Value{}
			}
			return term("judged", string(r.Verdict))
		})},
	}
}

// enteredLoss is what the job file has for a loss, where that says more than
// the percentage.
func enteredLoss(r *diag.LeakResult) Value {
	entered := Entered(r.Entered)
	if r.State != diag.Tested || r.Loss != nil && strings.TrimSpace(strings.TrimSuffix(entered, "%")) == Print(*r.Loss, 0) {
		return Value{}
	}
	return text(entered)
}

// mostFirst are the places where a cylinder's air goes, the one where most of
// it does before the others.
func mostFirst(r *diag.LeakResult) []string {
	if r.Most == "" || len(r.At) < 2 {
		return r.Heard(r.At)
	}
	places := []string{r.Most}
	for _, p := range r.At {
		if p != r.Most {
			places = append(places, p)
		}
	}
	return r.Heard(places)
}

// Plugs is what the plugs of each cylinder say.
func Plugs(p *diag.PlugsResult) []Column {
	of := func(say func(*diag.PlugResult) Value) func(string) Value {
		return func(name string) Value {
			for i := range p.Cylinders {
				if r := &p.Cylinders[i]; r.Name == name {
					return say(r)
				}
			}
			return Value{}
		}
	}
	return []Column{
		{"plug", false, of(func(r *diag.PlugResult) Value {
			if r.State != diag.Tested {
				return state(r.State, r.Reason)
			}
			return term("look", r.Look)
		})},
		{"gap", false, of(func(r *diag.PlugResult) Value { return text(r.GapText) })},
		{"plug-note", false, of(func(r *diag.PlugResult) Value { return text(r.Note) })},
	}
}

// Rotors is what a rotary engine's faces say of each rotor, in the order read.
func Rotors(r *diag.RotorsResult) []Column {
	rotor := func(name string) *diag.RotorResult {
		for i := range r.Rotors {
			if r.Rotors[i].Name == name {
				return &r.Rotors[i]
			}
		}
		return nil
	}
	var columns []Column
	for face := range 3 {
		columns = append(columns, Column{"face-" + faceName(face), true, func(name string) Value {
			one := rotor(name)
			switch {
			case one == nil:
				return Value{}
			case one.State != diag.Tested && face == 0:
				return state(one.State, one.Reason)
			case face >= len(one.Values):
				return Value{}
			}
			return text(Print(one.Values[face], r.Decimals))
		}})
	}
	return append(columns, Column{"difference", true, func(name string) Value {
		one := rotor(name)
		if one == nil || len(one.Values) < 2 {
			return Value{}
		}
		return text(quantity.Format(Less(highest(one.Values), lowest(one.Values), r.Decimals)))
	}})
}

// faceName counts the faces of a rotor in the order read.
func faceName(i int) string { return string(rune('A' + i)) }

func highest(values []float64) float64 {
	most := values[0]
	for _, v := range values {
		most = max(most, v)
	}
	return most
}

func lowest(values []float64) float64 {
	least := values[0]
	for _, v := range values {
		least = min(least, v)
	}
	return least
}

package sheet

import (
	"strings"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
	"gaugesheet/templates"
)

// term says a word of the program or of the job file's own lists as a page has
// it; nothing for none.
func (v *view) term(kind, word string, pairs ...any) string {
	if word == "" {
		return ""
	}
	return v.label(kind+"."+word, pairs...)
}

// grade is a grade in words.
func (v *view) grade(g diag.Grade) string { return v.term("grade", string(g)) }

// judged is a verdict on a limit in words.
func (v *view) judged(verdict diag.Verdict) string { return v.term("judged", string(verdict)) }

// state is a test's state in words.
func (v *view) state(s diag.State) string { return v.term("state", string(s)) }

// stateBecause is a state with its reason, in the job's own words, where there
// is one.
func (v *view) stateBecause(s diag.State, reason string) string {
	return v.keep(v.words.Because(s, reason))
}

// says tells whether a reason says the state by itself.
func (v *view) says(reason string, s diag.State) bool {
	return s != "" && templates.SaysState(v.state(s), reason)
}

// urgency is an urgency in words.
func (v *view) urgency(u diag.Urgency) string { return v.term("urgency", string(u)) }

// confidence is how sure something is, in one word.
func (v *view) confidence(c diag.Confidence) string { return v.term("confidence", string(c)) }

// look is how a plug looks, in words.
func (v *view) look(look string) string { return v.term("look", look) }

// airAt are the places where test air escapes, in words.
func (v *view) airAt(places []string) string {
	said := make([]string, len(places))
	for i, p := range places {
		said[i] = v.term("air-at", p)
	}
	return strings.Join(said, ", ")
}

// layoutWords is an engine's layout in words.
func (v *view) layoutWords(e *engine.Engine) string {
	return v.term("layout", e.Kind.String(), "count", len(e.Names()))
}

// planOpen says what the drawing of the engine had to leave open.
func (v *view) planOpen(p engine.Plan) []string {
	var said []string
	for _, o := range p.Open {
		if o.What == engine.OpenFront && !v.sheet.Record && v.d != nil {
			continue // the figure says 'front of engine', and an owner needs no more
		}
		said = append(said, v.label("open."+string(o.What), "cylinder", o.Cylinder))
	}
	return said
}

// sideWords is the side of the vehicle on which a bank of a two-bank engine
// lies, in words.
func (v *view) sideWords(bank int) string {
	return v.term("side", v.engine.SideLabel(bank))
}

// source is where a limit comes from: the program's own words for what it knows
// by itself, else the job's.
func (v *view) source(text string) string { return v.optional("source."+text, onPage(text)) }

// boreSeen is what a borescope showed of a cylinder: in the job's words, or of
// the list's by part.
func (v *view) boreSeen(name string) string {
	b, ok := v.test.Bores[name]
	if !ok {
		return v.test.Borescope[name]
	}
	var said []string
	for _, part := range []struct{ name, seen string }{{"wall", b.Wall}, {"crown", b.Crown}, {"valves", b.Valves}, {"seat", b.Seat}} {
		if part.seen != "" {
			said = append(said, v.label("seen-part."+part.name, "seen", v.term("seen", part.seen)))
		}
	}
	return joined("; ", append(said, b.Note)...)
}

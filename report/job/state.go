package job

import (
	"slices"
	"strings"

	"gaugesheet/diag"
)

// A whyNot is the state of one part of a test, with its reason.
type whyNot struct {
	state  diag.State
	reason string
}

// String gives the state as the job file has it.
func (w whyNot) String() string {
	switch {
	case w.reason == "":
		return string(w.state)
	case strings.HasPrefix(w.reason, string(w.state)): // other words that followed the state
		return w.reason
	}
	return string(w.state) + " (" + w.reason + ")"
}

// stateOf is the state of a test by that of its parts: tested where one of
// them was, the state that they share with the reasons for it, or not tested
// with the states of all.
func stateOf(parts []whyNot) (diag.State, string) {
	var states []diag.State
	var reasons, said []string
	for _, p := range parts {
		if p.state == diag.Tested {
			return diag.Tested, ""
		}
		states = append(states, p.state)
		if p.state != diag.NotTested || p.reason != "" { // that much the whole says too
			said = append(said, p.String())
		}
		if p.reason != "" {
			reasons = append(reasons, p.reason)
		}
	}
	switch states = distinct(states); len(states) {
	case 0:
		return diag.NotTested, ""
	case 1:
		return states[0], strings.Join(distinct(reasons), "; ")
	}
	return diag.NotTested, strings.Join(distinct(said), "; ")
}

// distinct drops repetitions.
func distinct[T comparable](list []T) []T {
	var out []T
	for _, v := range list {
		if !slices.Contains(out, v) {
			out = append(out, v)
		}
	}
	return out
}

// readingsState is the state of a test by its readings.
func (r *reader) readingsState(sets ...map[string]diag.Reading) (diag.State, string) {
	var parts []whyNot
	for _, set := range sets {
		parts = append(parts, partsOf(r, set, func(one diag.Reading) whyNot { return whyNot{one.State, one.Reason} })...)
	}
	return stateOf(parts)
}

// partsOf lists the states of what was noted by cylinder, in the engine's
// order; nothing where the engine is not known, which is a problem anyway.
func partsOf[T any](r *reader, set map[string]T, state func(T) whyNot) []whyNot {
	var parts []whyNot
	for _, name := range r.cylinderNames {
		if one, given := set[name]; given {
			parts = append(parts, state(one))
		}
	}
	return parts
}

package job

import (
	"gaugesheet/diag"
)

// before reads the readings before the work: the engine, the gauges and what
// is known of the vehicle are those of the job, and so are the conditions where
// it has none of its own.
func (r *reader) before(j *Job, top *section, now *diag.Test, shop map[string]*node) *diag.Before {
	s := top.group("before")
	if s == nil {
		return nil
	}
	notices, scales, measured := r.notices, r.scales, r.measured
	defer func() { r.notices, r.scales, r.measured = notices, scales, measured }()
	r.notices = nil

	out := &diag.Before{Done: s.scalarText("done")}
	if date := s.date("date"); date.Entered.Given() {
		out.Date = date.Time
		if then := j.Date; then.Entered.Given() && date.After(then.Time) {
			r.report(date.Entered.Pos, "the readings before the work come first", "'before.date' is '%s', after the test, 'job.date' %s",
				date.Entered.Value, then.Entered.Value)
		}
	}
	t := &diag.Test{Engine: now.Engine, Spec: now.Spec, Conditions: now.Conditions, History: now.History}
	if s.get("conditions") != nil {
		t.Conditions = r.conditions(s)
	}
	r.readings(t, s)
	t.CoolantGas, t.GasTest = r.coolantGas(s)
	t.Gauges = r.gauges(top, t, shop)
	if !r.blank && r.faults == 0 && !hasReadings(t) {
		r.report(top.keyPos("before"), "such as 'before: {done: new rings, compression: {unit: psi, dry: {1: 95}}}'",
			"'before' has no readings, expected one of compression, leakage, plugs, rotors or fuel-pressure with at least one")
	}
	t.Noted = append(r.notices, t.Suspects()...)
	out.Test = t
	return out
}

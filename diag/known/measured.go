package known

import (
	"gaugesheet/diag"
)

// Measured gives a further test with its sums by the key of its section, nil
// where it was not made.
func (c *Case) Measured(section string) *diag.MeasuredResult { return c.Sums.MeasuredTest(section) }

// OfTest is a condition on a further test.
func OfTest(section, words string, is func(*diag.MeasuredResult) bool) Condition {
	return Is(words, func(c *Case, _ Subject) bool {
		r := c.Measured(section)
		return r != nil && is(r)
	})
}

// Past reports a reading past a limit, and whether it is clear of it.
func Past(r *diag.MeasuredReading) (past, clear bool) {
	if r == nil || !r.Limited() || !r.PastAsRead {
		return false, false
	}
	return true, r.Verdict == diag.Outside
}

// Under reports a reading below the least that is permitted, and whether it is
// clear of it.
func Under(r *diag.MeasuredReading) (under, clear bool) {
	past, clear := Past(r)
	under = past && r.LimitLow != nil && r.Value < *r.LimitLow
	return under, under && clear
}

// Over reports a reading above the most that is permitted, and whether it is
// clear of it.
func Over(r *diag.MeasuredReading) (over, clear bool) {
	past, clear := Past(r)
	over = past && r.LimitHigh != nil && r.Value > *r.LimitHigh
	return over, over && clear
}

// WorstOf is the first reading of a further test that a function holds of
// clearly, else the first of which it holds at all; nil for none.
func WorstOf(r *diag.MeasuredResult, is func(*diag.MeasuredReading) (past, clear bool)) (worst *diag.MeasuredReading, clear bool) {
	if r == nil {
		return nil, false
	}
	for i := range r.Readings {
		past, sure := is(&r.Readings[i])
		if past && (worst == nil || sure && !clear) {
			worst, clear = &r.Readings[i], sure
		}
	}
	return worst, clear
}

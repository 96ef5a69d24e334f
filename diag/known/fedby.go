package known

import "slices"

// ofCarburettor are words of work that only an engine with a carburetor is given, or one of
// its age with points; what is sprayed from a can for carburetors is used on any.
var (
	ofCarburettor = append(slices.Clone(carburettorWords), "points and condenser", "points", "condenser", "contact breaker", "choke", "float bowl", "main jet", "pilot jet")
	canSpray      = []string{"carb cleaner", "carburetor cleaner", "carburettor cleaner", "carb spray"}
)

// workedOnCarburettor reports an engine whose work done speaks of its carburetor or its
// points, or whose points were measured.
func (c *Case) workedOnCarburettor() bool {
	if r := c.Measured(Timing); r != nil && (r.Reading("points-gap") != nil || r.Reading("dwell") != nil) {
		return true
	}
	return slices.ContainsFunc(c.History.WorkDone, func(line string) bool {
		text := c.workOf(line).Text // which is read once
		if slices.ContainsFunc(canSpray, func(x string) bool { return has(text, x) }) {
			return false
		}
		return slices.ContainsFunc(ofCarburettor, func(x string) bool { return has(text, x) || has(text, x+"s") })
	})
}

package loop_test

import (
	"sync"

	"gaugesheet/report/job"
)

// Optional keys that the reader may or may not know, each with a small job
// that has it.
var optional = map[string]struct{ probe, form string }{
	"cooling":      {"engine: {layout: inline-4, fuel: petrol, cooling: liquid}\n", "cooling: "},
	"camshafts":    {"engine: {layout: inline-4, fuel: petrol, camshafts: one}\n", "camshafts: "},
	"lifters":      {"engine: {layout: inline-4, fuel: petrol, lifters: solid}\n", "lifters: "},
	"timing-drive": {"engine: {layout: inline-4, fuel: petrol, timing-drive: belt}\n", "timing-drive: "},
	"interference": {"engine: {layout: inline-4, fuel: petrol, interference: yes}\n", "interference: "},
	"runs":         {"engine: {layout: inline-4, fuel: petrol, runs: rough}\n", "runs: "},
	"onset":        {"job: {onset: sudden}\nengine: {layout: inline-4, fuel: petrol}\n", "onset: "},
	"oil-use":      {"job: {oil-use: 1 l in 1000 km}\nengine: {layout: inline-4, fuel: petrol}\n", "oil-use: "},
	"smoke":        {"smoke: {colour: blue, when: [start]}\nengine: {layout: inline-4, fuel: petrol}\n", "smoke: "},
	"borescope":    {"engine: {layout: inline-4, fuel: petrol}\nborescope: {1: {wall: scored}}\n", ""},
}

// known are the optional keys that the reader takes today.
var known = sync.OnceValue(func() map[string]bool {
	takes := map[string]bool{}
	for key, o := range optional {
		_, problems := job.Read("probe.yaml", []byte(o.probe+"compression: {unit: psi, dry: {1: 150, 2: 150, 3: 150, 4: 150}}\n"), nil)
		takes[key] = len(problems) == 0
	}
	return takes
})

// fact writes an optional key, "" where the reader does not take it or there
// is nothing to say.
func fact(key, value string) string {
	if value == "" || !known()[key] {
		return ""
	}
	return optional[key].form + value
}

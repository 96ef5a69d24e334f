package known

import (
	"slices"
	"strings"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/engine"
)

// caseOf is a case of an engine without readings.
func caseOf(t *testing.T, spec engine.Spec, history diag.History) *Case {
	t.Helper()
	e, problems := engine.New(spec)
	if e == nil {
		t.Fatal(problems)
	}
	return New(&diag.Test{Engine: e, History: history})
}

// TestWorkIsUnderstood: what people write of a check that was made, of which
// cylinders, and what they write of one that was not.
func TestWorkIsUnderstood(t *testing.T) {
	for _, tt := range []struct {
		said, check string
		on          string // the cylinders named, "" none
		done        bool
	}{
		{"leak-down on 3: exhaust", "leak-down", "3", true},
		{"leak down on 3: exhaust", "leak-down", "3", true},
		{"leakdown 3 and 4", "leak-down", "", true},
		{"leakdown on cylinders 3 and 4", "leak-down", "3 4", true},
		{"Leak-down test made", "leak-down", "", true},
		{"cylinder leakage on 2", "leakage", "2", true},
		{"leak-down on 1-4", "leak-down", "1 2 3 4", true},
		{"leak-down on 1, 2 and 4", "leak-down", "1 2 4", true},
		{"leak-down on 2 at 100 psi", "leak-down", "2", true},
		{"leak-down not available", "leak-down", "", false},
		{"leak-down not done", "leak-down", "", false},
		{"leak-down still to be done on 3", "leak-down", "", false},
		{"leak-down declined", "leak-down", "", false},
		{"could not do a leak-down", "leak-down", "", false},
		{"couldn't do a leak-down on 3", "leak-down", "", false},
		{"needs a leak-down", "leak-down", "", false},
		{"leak-down recommended", "leak-down", "", false},
		{"no leak-down", "leak-down", "", false},
		{"done without leak-down", "leak-down", "", false},
		{"compression done, leak-down refused", "leak-down", "", false},
		{"leak-down done on 3, borescope refused", "leak-down", "3", true},
		{"leak-down done on 3, borescope refused", "borescope", "3", false},
		{"borescope not available; leak-down on 2: crankcase", "leak-down", "2", true},
		{"leak-down on 2 and 3, not tested on 4", "leak-down", "2 3", true},
		{"borescope used", "borescope", "", true},
		{"bore scope in 4: scored", "borescope", "4", true},
		{"boroscope on #2", "borescope", "2", true},
		{"endoscope: 3 looked at", "borescope", "3", true},
		{"borescope not available", "borescope", "", false},
		{"borescope to follow", "borescope", "", false},
		{"borescope unavailable", "borescope", "", false},
		{"no borescope", "borescope", "", false},
		{"3: wall scored", "wall scored", "3", true},
		{"coil on 3 swapped", "coil on", "3", true},
		{"coil on 3 swapped with 2", "coil on", "2 3", true},
		{"coil 3 swapped with coil 1", "coil", "1 3", true},
		{"3 swapped to 1, coil", "coil", "1 3", true},
		{"coils from 2 to 4", "coils", "2 4", true},
		{"coil not swapped", "coil", "", true}, // the coil is spoken of
		{"new plugs", "new plugs", "", true},
		{"new spark plugs", "new plugs", "", true},
		{"4 new plugs", "new plugs", "", true},
		{"new plugs in 4 cylinders", "new plugs", "", true},
		{"plug 2 renewed", "plug", "2", true},
		{"plugs 2, 3 cleaned", "plugs", "2 3", true},
		{"valve lash done", "valve lash", "", true},
		{"valve-lash done on 3: right", "valve-lash", "3", true},
		{"tappets set", "valve lash set", "", true},
		{"valve clearances checked, all in spec", "valve clearance", "", true},
		{"tappet clearance on 3 set to 0.3 mm", "valve clearance", "3", true},
		{"valves adjusted 2 hours ago", "valves adjusted", "", true},
		{"valve lash needs setting", "valve lash", "", false},
		{"wet test made", "wet test", "", true},
		{"wet-test on cyl 2", "wet test", "2", true},
		{"wet test not possible", "wet test", "", false},
		{"battery charged 2 hours and repeated", "battery charged", "", true},
		{"ran 10 minutes in 2 stages", "ran", "2", true}, // nothing follows the 2 that makes it a count
		{"injectors swapped between 1 and 4", "injectors swapped", "1 4", true},
		{"injector 2 cleaned", "injector", "2", true},
		{"fuel filter renewed 3 months ago", "fuel filter", "", true},
		{"timing belt fitted on 3 May", "timing belt", "", true},
		{"cam timing checked: 4 degrees late", "cam timing checked", "", true},
		{"timing marks checked, right", "timing marks checked", "", true},
		{"gaps set to 0.8 mm", "gaps set", "", true},
		{"pressure rose from 2 to 4 bar", "pressure", "", true},
		{"held 3 bar for 2 minutes", "held", "", true},
		{"cooling-system pressure: falls 2 psi in 3 min", "cooling system pressure", "", true},
		{"head off, valve 3 burnt", "valve", "3", true},
		{"play in the fan bearing", "borescope", "", false},
		{"exhaust was not leaking at 3", "exhaust", "3", true},
		{"block test: no gas", "block test", "", true},
		{"block test booked", "block test", "", false},
		{"smoke test next visit", "smoke test", "", false},
		{"smoke-test done: none", "smoke test", "", true},
		{"Cylinders no. 1 & 2 borescoped", "borescoped", "1 2", true},
		{"liquid in 3", "liquid", "3", true},
		{"3/8 drive on plug 2", "plug", "2", true},
		{"compression-test repeated", "compression test repeated", "", true},
	} {
		t.Run(tt.said, func(t *testing.T) {
			c := caseOf(t, engine.Spec{Layout: "inline-4"}, diag.History{WorkDone: []string{tt.said}})
			if got := c.WorkDone(tt.check); got != tt.done {
				t.Errorf("%q was taken for %s: %v, expected %v", tt.said, tt.check, got, tt.done)
			}
			if w := c.DoneOn(nil, tt.check); w != nil {
				if on := strings.Join(w.Cylinders, " "); on != tt.on {
					t.Errorf("it names %q, expected %q", on, tt.on)
				}
			}
		})
	}
}

// TestWorkOnNamedCylinders: cylinders whose names are words.
func TestWorkOnNamedCylinders(t *testing.T) {
	layout := engine.Spec{Layout: "inline-2", Names: []string{"left", "right"}}
	for said, on := range map[string][]string{
		"leak-down on the left: exhaust": {"left"},
		"left plug renewed":              {"left"},
		"coil from right to left":        {"left", "right"},
		"left: scored":                   {"left"},
		"tank left open":                 nil,
		"right, that is all":             nil,
		"leak-down on left and right":    {"left", "right"},
	} {
		c := caseOf(t, layout, diag.History{WorkDone: []string{said}})
		if w := c.Works(); len(w) != 1 || !slices.Equal(w[0].Cylinders, on) {
			t.Errorf("%q: %+v, expected %v", said, w, on)
		}
	}
}

// TestWorkOnCylindersOfTwoWords: names of more than one word, and of names that
// begin alike the longer one.
func TestWorkOnCylindersOfTwoWords(t *testing.T) {
	layout := engine.Spec{Layout: "inline-3", Names: []string{"front left", "front right", "front"}}
	for said, on := range map[string][]string{
		"coil on front right swapped with front left": {"front left", "front right"},
		"front right plug renewed":                    {"front right"},
		"coil on front swapped":                       {"front"},
	} {
		c := caseOf(t, layout, diag.History{WorkDone: []string{said}})
		if w := c.Works(); len(w) != 1 || !slices.Equal(w[0].Cylinders, on) {
			t.Errorf("%q: %+v, expected %v", said, w, on)
		}
	}
}

// TestWorkOnSomeIsNotOnOthers: what was done on one cylinder was not done on
// another; what names none was done on all.
func TestWorkOnSomeIsNotOnOthers(t *testing.T) {
	c := caseOf(t, engine.Spec{Layout: "inline-4"}, diag.History{WorkDone: []string{"leak-down on 3: exhaust", "borescoped all four"}})
	if c.DoneOn([]string{"3"}, "leak-down") == nil || c.DoneOn([]string{"2"}, "leak-down") != nil {
		t.Error("the leak-down on 3 was made on 3 alone")
	}
	if c.DoneOn([]string{"1", "4"}, "borescoped") == nil {
		t.Error("all were looked into")
	}
	if w := c.DoneOn([]string{"3"}, "leak-down"); !w.Says("exhaust") || w.Says("inlet") {
		t.Error("the outcome is what the job says")
	}
	denied := &Work{Text: "lash checked: not tight"}
	if denied.Says("tight") {
		t.Error("'not tight' is not 'tight'")
	}
}

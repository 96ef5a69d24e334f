package job

import (
	"os"
	"strings"
	"testing"
)

// shopWith opens a shop profile with these defaults.
func shopWith(defaults string) Opener {
	return func(name string) ([]byte, error) {
		if name != "shop.yaml" {
			return nil, os.ErrNotExist
		}
		return []byte("name: Harrow Mills Engine Works\ngauges: {dial A: {range: 0-300 psi}}\ndefaults:\n" + defaults), nil
	}
}

const plainJob = "shop: shop.yaml\nengine: {layout: inline-4, fuel: petrol}\ncompression: {unit: psi, dry: [150, 148, 152, 149]}\n"

// TestDefaults: what the profile says holds as if the job said it, and the job's
// own keys win, one by one.
func TestDefaults(t *testing.T) {
	open := shopWith(`  sheet: workshop
  technician: R. Okafor
  job: {place: bay 2}
  language: en-GB
  conditions: {plugs-out: all, throttle: WOT, altitude: 400 ft}
  gauges: {compression: dial A}
  not-tested: {leakage: no tester, compression: no gauge, fuel pressure: no gauge}
`)
	j, problems := Read("job.yaml", []byte(plainJob), open)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	test := j.Test()
	if j.Sheet.Value != "workshop" || j.Technician.Value != "R. Okafor" || j.Place.Value != "bay 2" || j.Language.Value != "en-GB" || test.Conditions.Throttle != "open" ||
		test.Gauges.Compression == nil || test.Gauges.Compression.High != 300 {
		t.Errorf("sheet %q, technician %q, place %q, language %q, throttle %q, gauge %+v", j.Sheet, j.Technician, j.Place, j.Language, test.Conditions.Throttle, test.Gauges.Compression)
	}
	if got := j.Entered("conditions", "throttle"); got != "WOT" {
		t.Errorf("entered %q, want it as the profile has it", got)
	}
	for _, u := range test.Untested {
		if u.Test == testCompression || u.Test == testLeakage && u.Reason != "no tester" {
			t.Errorf("untested %+v", u)
		}
	}
	own := plainJob + "sheet: customer\nconditions: {throttle: closed, barometer: 29 inHg}\njob: {technician: }\nfuel-pressure: {unit: psi, idle: 35}\n"
	j, problems = Read("job.yaml", []byte(own), open)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	test = j.Test()
	if j.Sheet.Value != "customer" || test.Conditions.Throttle != "closed" || test.Conditions.PlugsOut != "all" || test.Conditions.AltitudeM != nil || j.Technician.Value != "R. Okafor" {
		t.Errorf("sheet %q, conditions %+v, technician %q: the job's own keys win", j.Sheet, test.Conditions, j.Technician)
	}
	if len(j.Files) != 1 || j.Files[0].Role != RoleShop {
		t.Errorf("files %+v: the defaults go with the profile", j.Files)
	}
}

// TestDefaultsInTheJob: a profile that stands in the job may have them too.
func TestDefaultsInTheJob(t *testing.T) {
	j := mustRead(t, strings.Replace(plainJob, "shop: shop.yaml", "shop: {name: Harrow Mills, defaults: {job: {technician: R. Okafor}}}", 1))
	if j.Technician.Value != "R. Okafor" {
		t.Errorf("technician %q", j.Technician)
	}
}

// TestFaultyDefaults: what is wrong in the defaults is said at its place in the
// profile.
func TestFaultyDefaults(t *testing.T) {
	for _, tt := range []struct{ defaults, want string }{
		{"  conditions:\n    throttle: half\n", "shop.yaml:5:15: 'conditions.throttle' is 'half', expected open, closed or not sure"},
		{"  conditons: {throttle: open}\n", "shop.yaml:4:3: unknown key 'conditons'"},
		{"  shop: other.yaml\n", "shop.yaml:4:3: 'shop.defaults' has 'shop', which is for each job to say"},
		{"  - technician\n", "shop.yaml:4:3: 'shop.defaults' is a list, expected keys of a job"},
		{"  compression:\n    limits: {minimum: 12000 psi}\n", "shop.yaml:5:23: 'compression.limits.minimum' is '12000 psi', more than a petrol engine can give (at most 350 psi)"},
	} {
		_, problems := Read("job.yaml", []byte(plainJob), shopWith(tt.defaults))
		if len(problems) != 1 || problems[0].Error() != tt.want {
			t.Errorf("%s: got %v, want %s", tt.defaults, problems, tt.want)
		}
	}
}

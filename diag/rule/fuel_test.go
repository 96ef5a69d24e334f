package rule_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"gaugesheet/diag"
	"gaugesheet/diag/quantity"
	"gaugesheet/diag/rule/sample"
	"gaugesheet/diag/story"
)

// A supplyCase is a test of the fuel supply, the mixture or rotors: the rules
// that must and must not fire, and what the story of the first of them says.
type supplyCase struct {
	name  string
	test  *diag.Test
	fires string // rules, the first being the one whose story is looked at
	not   string
	first string // likeliest causes of that story, in order; "" is not asked
	none  string // causes that must not be among those shown
	soon  diag.Urgency
	sure  diag.Confidence
	next  string // checks, one of which the story asks for; "" is not asked
	never string // checks that no story may ask for
}

func runSupply(t *testing.T, cases []supplyCase) {
	t.Helper()
	for _, tt := range cases {
		t.Run(tt.name, func(t *testing.T) {
			d := story.WithoutPlan(tt.test)
			for i, name := range strings.Fields(tt.fires) {
				rule, variant, _ := strings.Cut(name, "/")
				s, f := storyWith(d, rule)
				switch {
				case s == nil:
					if !noticed(d, rule, variant) {
						t.Errorf("%s did not fire", name)
					}
				case f.Variant != variant && variant != "":
					t.Errorf("%s/%s fired, want %s", rule, f.Variant, name)
				case i == 0:
					tt.look(t, s)
				}
			}
			for _, name := range strings.Fields(tt.not) {
				if s, _ := storyWith(d, name); s != nil || noticed(d, name, "") {
					t.Errorf("%s fired", name)
				}
			}
			for _, s := range d.Stories {
				if s.Next != nil && slices.Contains(strings.Fields(tt.never), s.Next.Key) {
					t.Errorf("a story about %s asks for %s", s.About, s.Next.Key)
				}
			}
		})
	}
}

func noticed(d *diag.Diagnosis, rule, variant string) bool {
	return slices.ContainsFunc(d.Notices, func(n diag.Notice) bool { return n.Rule == rule && (variant == "" || n.Variant == variant) })
}

func (tt *supplyCase) look(t *testing.T, s *diag.Story) {
	t.Helper()
	var causes []string
	for _, p := range s.Causes {
		causes = append(causes, p.Key)
	}
	want := strings.Fields(tt.first)
	if len(want) > len(causes) || !slices.Equal(want, causes[:len(want)]) {
		t.Errorf("causes %v, want %v first: %v", causes, want, s.Ledger)
	}
	for _, k := range strings.Fields(tt.none) {
		if slices.Contains(causes, k) {
			t.Errorf("causes %v, with %s: %v", causes, k, s.Ledger)
		}
	}
	if tt.soon != "" && s.Urgency != tt.soon {
		t.Errorf("urgency %s, want %s", s.Urgency, tt.soon)
	}
	if tt.sure != "" && s.Confidence != tt.sure {
		t.Errorf("how sure: %s, want %s", s.Confidence, tt.sure)
	}
	if tt.next != "" && (s.Next == nil || !slices.Contains(strings.Fields(tt.next), s.Next.Key)) {
		t.Errorf("next check %+v, want one of %s", s.Next, tt.next)
	}
}

// The fuel systems, as the job file has them.
const (
	returns    = "port, return line"
	returnless = "port, no return"
	throttle   = "throttle body"
	carb       = "carburettor"
	direct     = "direct, low side"
	lift       = "diesel, lift pump"
)

// rail is an engine of four with one fuel circuit.
func rail(system string, k diag.Circuit, changes ...sample.Change) *diag.Test {
	return sample.Of("inline-4", append([]sample.Change{sample.Fuel(system, k)}, changes...)...)
}

func pump(kind string, heard diag.Tri) sample.Change {
	return func(t *diag.Test) { t.Fuel.Pump, t.Fuel.PumpHeard = kind, heard }
}

func held(points ...float64) []diag.HoldReading {
	var list []diag.HoldReading
	for i := 0; i < len(points); i += 2 {
		list = append(list, sample.Held(points[i], points[i+1]))
	}
	return list
}

func limits(l ...diag.FuelLimit) []diag.FuelLimit { return l }

var psi, between = sample.PSI, sample.Range

func atLeast(ml, seconds float64, entered string) diag.FuelLimit {
	return diag.FuelLimit{For: "volume", Low: ml / seconds * 60, High: math.Inf(1), Minutes: seconds / 60, Entered: entered}
}

// What follows is common practice, no source, except where a source is named.
func TestFuelLevels(t *testing.T) {
	book := limits(between("key-on", 38, 44))
	runSupply(t, []supplyCase{
		{name: "none, electric", test: rail(returns, diag.Circuit{KeyOn: psi(0), Limits: book}, sample.Complains("no start")), fires: "no-fuel-pressure",
			not: "fuel-pressure-low fuel-limit-missing not-held-tested", first: "pump-circuit pump", soon: diag.ActSoon, next: "pump-listen"},
		{name: "none, the pump is silent", test: rail(returns, diag.Circuit{KeyOn: psi(0), Limits: book}, pump("", diag.No)), fires: "no-fuel-pressure", first: "pump-circuit", none: "supply-restricted", next: "pump-volts"},
		{name: "none, the pump is heard", test: rail(returnless, diag.Circuit{KeyOn: psi(0), Limits: book}, pump("electric", diag.Yes)), fires: "no-fuel-pressure", first: "supply-restricted pump", none: "pump-circuit"},
		{name: "none, driven by the engine", test: rail(carb, diag.Circuit{Idle: psi(0), Limits: limits(between("idle", 4, 6))}, pump("mechanical", 0)), fires: "no-fuel-pressure",
			first: "pump", none: "pump-circuit pump-voltage", never: "pump-volts pump-listen"},
		{name: "none at all, and the return closed brings it", test: rail(returns, diag.Circuit{Idle: psi(0.5), ReturnPinched: psi(60), Limits: limits(between("idle", 30, 38))}),
			fires: "no-fuel-pressure", none: "pump pump-circuit supply-restricted"},
		{name: "low, return line", test: rail(returns, diag.Circuit{KeyOn: psi(30), Limits: book}), fires: "fuel-pressure-low", first: "fuel-filter pump regulator-open", soon: diag.ActSoon},
		{name: "low, no return", test: rail(returnless, diag.Circuit{KeyOn: psi(40), Limits: limits(between("key-on", 55, 62))}), fires: "fuel-pressure-low", first: "fuel-filter pump pump-voltage", never: "restrict-return pinch-feed-and-return hose-for-fuel"},
		{name: "far under the usual, no figure", test: rail(returnless, diag.Circuit{KeyOn: psi(26)}), fires: "fuel-pressure-under-usual", not: "fuel-pressure-low", first: "fuel-filter", soon: diag.CheckAgain, next: "look-up-fuel-limit"},
		{name: "as usual, no figure", test: rail(returnless, diag.Circuit{KeyOn: psi(40)}), not: "fuel-pressure-under-usual"},
		{name: "low, direct injection", test: rail(direct, diag.Circuit{KeyOn: psi(30), Limits: limits(between("key-on", 55, 80))}), fires: "fuel-pressure-low", never: "restrict-return pinch-feed-and-return hose-for-fuel clear-hose"},
		{name: "low, lift pump", test: rail(lift, diag.Circuit{Idle: psi(2), Limits: limits(between("idle", 6, 8))}, sample.Diesel), fires: "fuel-pressure-low", none: "pump-voltage pump-circuit",
			not: "not-held-tested", never: "pump-volts restrict-return hose-for-fuel"},
		// A maker's text: the return pinched rises, the regulator; does not, the pump.
		{name: "low, and the closed return lifts it", test: rail(returns, diag.Circuit{Idle: psi(27), HoseOff: psi(33), ReturnPinched: psi(70), Limits: limits(between("idle", 33, 39), between("hose-off", 40, 46))}),
			fires: "fuel-pressure-low", first: "regulator-open", none: "pump fuel-filter leaking-injector pump-voltage"},
		{name: "low, and the closed return does not", test: rail(returns, diag.Circuit{Idle: psi(27), HoseOff: psi(33), ReturnPinched: psi(34), Limits: limits(between("idle", 33, 39), between("hose-off", 40, 46))}),
			fires: "fuel-pressure-low", first: "fuel-filter pump", none: "regulator-open"},
		{name: "climbs by a little and is under the limit still", test: rail(returns, diag.Circuit{Idle: psi(20), ReturnPinched: psi(28), Limits: limits(between("idle", 33, 0))}),
			fires: "fuel-pressure-low", first: "fuel-filter pump", none: "regulator-open"},
		{name: "low, and the pump delivers", test: rail(returns, diag.Circuit{KeyOn: psi(30), VolumeML: 600, VolumeSeconds: 30, Limits: book}), fires: "fuel-pressure-low", first: "regulator-open", not: "pump-volume-low"},
		{name: "on the limit", test: rail(returns, diag.Circuit{KeyOn: psi(37.5), Limits: book}), fires: "fuel-pressure-low", not: "fuel-pressure-right", soon: diag.CheckAgain, sure: diag.Weak},
		{name: "high", test: rail(returns, diag.Circuit{KeyOn: psi(62), Idle: psi(54), Limits: book}), fires: "fuel-pressure-high", first: "return-blocked regulator-stuck", none: "vacuum-hose", next: "return-line-look return-to-can"},
		{name: "high at idle only", test: rail(returns, diag.Circuit{KeyOn: psi(41), Idle: psi(41), Limits: append(book, between("idle", 28, 35))}), fires: "fuel-pressure-high", first: "vacuum-hose", not: "fuel-pressure-right"},
		{name: "high, no return", test: rail(returnless, diag.Circuit{KeyOn: psi(80), Limits: limits(between("key-on", 55, 62))}), fires: "fuel-pressure-high", first: "regulator-stuck", none: "return-blocked vacuum-hose", never: "return-to-can restrict-return"},
		{name: "high, and the regulator follows", test: rail(returns, diag.Circuit{KeyOn: psi(62), Idle: psi(53), HoseOff: psi(62), Limits: book}), fires: "fuel-pressure-high regulator-responds", first: "return-blocked", none: "vacuum-hose"},
		{name: "carburettor too high", test: rail(carb, diag.Circuit{Idle: psi(9), Limits: limits(between("idle", 4, 6))}), fires: "fuel-pressure-high", first: "wrong-pump", none: "gauge-reads-high", never: "second-gauge"},
		{name: "carburettor too high, its pump held by a spring", test: rail(carb, diag.Circuit{Idle: psi(9), Limits: limits(between("idle", 4, 6))}, pump("mechanical", 0)), fires: "fuel-pressure-high",
			first: "wrong-pump", none: "return-blocked regulator-stuck", next: "pump-and-regulator-look second-fuel-gauge"},
		{name: "carburettor too high, and another fuel gauge agrees", test: rail(carb, diag.Circuit{Idle: psi(9), Limits: limits(between("idle", 4, 6))}, sample.Done("another fuel gauge agrees")), fires: "fuel-pressure-high",
			first: "wrong-pump", none: "fuel-gauge-reads-high", next: "pump-and-regulator-look"},
		{name: "carburettor right, its pump is not looked up", test: rail(carb, diag.Circuit{Idle: psi(5), Limits: limits(between("idle", 4, 6))}), fires: "fuel-pressure-right", never: "pump-and-regulator-look"},
		{name: "right", test: rail(returns, diag.Circuit{KeyOn: psi(41), Hold: held(5, 38), Limits: book}), fires: "fuel-pressure-right", not: "not-held-tested", soon: diag.NoAction},
		{name: "right, no start", test: rail(returns, diag.Circuit{KeyOn: psi(41), Limits: book}, sample.Complains("hard start")), fires: "fuel-pressure-right not-held-tested/rich"},
		{name: "just inside", test: rail(returns, diag.Circuit{KeyOn: psi(38.2), Limits: book}), fires: "fuel-pressure-right/close", not: "fuel-pressure-low"},
		{name: "two tanks", test: sample.Of("V8", sample.Fuel(throttle, diag.Circuit{Name: "front", KeyOn: psi(8), Limits: limits(between("key-on", 12, 15))}),
			sample.Fuel(throttle, diag.Circuit{Name: "rear", KeyOn: psi(13), Limits: limits(between("key-on", 12, 15))})), fires: "fuel-pressure-low fuel-pressure-right", none: "leaking-injector"},
		{name: "no limit", test: rail(returns, diag.Circuit{KeyOn: psi(20)}), fires: "fuel-limit-missing/unusual", not: "fuel-pressure-right fuel-pressure-low"},
		{name: "nothing is no question of the unit", test: rail(returns, diag.Circuit{KeyOn: psi(0)}), fires: "no-fuel-pressure fuel-limit-missing/system-unknown"},
		{name: "a needle flutters", test: rail(returnless, diag.Circuit{KeyOn: psi(58), Limits: limits(between("key-on", 55, 62))}, sample.Method(func(k *diag.Conditions) { k.Needle = "flutters" })),
			fires: "fuel-needle-flutters", first: "air-in-fuel", next: "clear-hose"},
		{name: "key on far under idle", test: rail(returnless, diag.Circuit{KeyOn: psi(35), Idle: psi(57), Limits: limits(between("idle", 55, 62))}), fires: "key-on-under-idle", not: "fuel-pressure-right fuel-pressure-low",
			first: "pump-voltage", none: "fuel-filter pump", next: "key-on-again pump-volts", soon: diag.CheckAgain},
		{name: "key on under its limit, idle right", test: rail(returnless, diag.Circuit{KeyOn: psi(35), Idle: psi(57), Limits: limits(between("key-on", 55, 62), between("idle", 55, 62))}),
			fires: "key-on-under-idle fuel-pressure-low", first: "pump-voltage", none: "fuel-filter pump", soon: diag.ActSoon},
		{name: "key on under idle as the book has it", test: rail(returnless, diag.Circuit{KeyOn: psi(40), Idle: psi(57), Limits: limits(between("key-on", 35, 45), between("idle", 55, 62))}), fires: "fuel-pressure-right", not: "key-on-under-idle"},
		{name: "a carburettor does not prime", test: rail(carb, diag.Circuit{KeyOn: psi(0), Idle: psi(5), Limits: limits(between("idle", 4, 6))}), fires: "fuel-pressure-right", not: "key-on-under-idle no-fuel-pressure"},
		// 1950s V8: 4 psi cold, about nothing hot and still running.
		{name: "right cold, nothing hot", test: sample.Of("V8", sample.Fuel(carb, diag.Circuit{Name: "cold", Idle: psi(4.5), Limits: limits(between("idle", 4, 6))}),
			sample.Fuel(carb, diag.Circuit{Name: "hot", Idle: psi(0.2), Limits: limits(between("idle", 4, 6))})), fires: "fuel-falls-when-hot no-fuel-pressure", first: "vapour-lock", none: "pump-circuit fuel-filter", next: "cap-and-cool"},
		{name: "the same hot and cold", test: sample.Of("V8", sample.Fuel(carb, diag.Circuit{Name: "cold", Idle: psi(4.5)}), sample.Fuel(carb, diag.Circuit{Name: "hot", Idle: psi(4.4)})), not: "fuel-falls-when-hot"},
	})
}

func TestFuelPump(t *testing.T) {
	book := limits(between("key-on", 38, 44))
	runSupply(t, []supplyCase{
		{name: "sags under its limit", test: rail(returns, diag.Circuit{KeyOn: psi(41), Snap: psi(30), Limits: append(book, between("snap", 38, 0))}), fires: "sags-under-load", not: "fuel-pressure-right", first: "fuel-filter pump", soon: diag.ActSoon, next: "fuel-volume fuel-filter-look"},
		{name: "sags under idle, no hose", test: rail(returnless, diag.Circuit{Idle: psi(58), Snap: psi(45)}), fires: "sags-under-load", soon: diag.CheckAgain},
		{name: "a hose: as high as idle is a sag all the same", test: rail(returns, diag.Circuit{Idle: psi(33), HoseOff: psi(42), Snap: psi(34)}), fires: "sags-under-load"},
		{name: "a hose: rises to the hose-off pressure", test: rail(returns, diag.Circuit{Idle: psi(33), HoseOff: psi(42), Snap: psi(41)}), not: "sags-under-load"},
		{name: "carburettor that falls with speed", test: rail(carb, diag.Circuit{Idle: psi(5), Snap: psi(2)}), fires: "sags-under-load"},
		{name: "snap over its limit", test: rail(returns, diag.Circuit{KeyOn: psi(41), Snap: psi(60), Limits: append(book, between("snap", 38, 46))}), fires: "fuel-pressure-high", not: "fuel-pressure-right", first: "return-blocked"},
		{name: "pump weak against the closed return", test: rail(returns, diag.Circuit{KeyOn: psi(41), ReturnPinched: psi(50), Limits: append(book, between("return-pinched", 70, 0))}), fires: "pump-pressure-low", not: "fuel-pressure-right", first: "pump", none: "regulator-open"},
		{name: "pump too strong against the closed return", test: rail(returns, diag.Circuit{KeyOn: psi(41), ReturnPinched: psi(99), Limits: append(book, between("return-pinched", 60, 85))}), fires: "pump-pressure-high", not: "fuel-pressure-right", first: "wrong-pump"},
		{name: "the pump's own voltage, driven by the engine", test: rail(carb, diag.Circuit{Idle: psi(5), Snap: psi(2)}, pump("mechanical", 0)), fires: "sags-under-load", none: "pump-voltage", never: "pump-volts"},
		{name: "volume under its limit", test: rail(returnless, diag.Circuit{KeyOn: psi(58), VolumeML: 180, VolumeSeconds: 30, VolumeEntered: "180 ml in 30 s", Limits: limits(between("key-on", 55, 62), atLeast(450, 30, "at least 450 ml in 30 s"))}),
			fires: "pump-volume-low", not: "fuel-pressure-right", first: "fuel-filter pump", soon: diag.ActSoon},
		{name: "volume within its limit", test: rail(returnless, diag.Circuit{KeyOn: psi(58), VolumeML: 460, VolumeSeconds: 30, Limits: limits(between("key-on", 55, 62), atLeast(450, 30, ""))}), fires: "fuel-pressure-right", not: "pump-volume-low"},
		// One US pint (473 ml) in 30 seconds: common practice, no source.
		{name: "little volume", test: rail(returns, diag.Circuit{KeyOn: psi(41), VolumeML: 250, VolumeSeconds: 30, Limits: book}), fires: "pump-volume-low/no-limit", not: "fuel-pressure-right"},
		{name: "a pint", test: rail(returns, diag.Circuit{KeyOn: psi(41), VolumeML: 473.2, VolumeSeconds: 30, Limits: book}), fires: "fuel-pressure-right", not: "pump-volume-low"},
		{name: "a carburettor goes by another volume", test: rail(carb, diag.Circuit{Idle: psi(5), VolumeML: 250, VolumeSeconds: 30, Limits: limits(between("idle", 4, 6))}), not: "pump-volume-low"},
		{name: "so may a system that was not recorded", test: rail("", diag.Circuit{KeyOn: psi(5), VolumeML: 250, VolumeSeconds: 30}), not: "pump-volume-low"},
		{name: "volume over its limit", test: rail(carb, diag.Circuit{Idle: psi(5), VolumeML: 900, VolumeSeconds: 30, Limits: limits(between("idle", 4, 6), diag.FuelLimit{For: "volume", Low: math.Inf(-1), High: 1000})}),
			fires: "pump-volume-high", not: "fuel-pressure-right"},
	})
}

func TestVolumeInTheLimitsOwnTerms(t *testing.T) {
	d := story.WithoutPlan(rail(returnless, diag.Circuit{KeyOn: psi(58), VolumeML: 90, VolumeSeconds: 15, VolumeEntered: "90 ml in 15 s", Limits: limits(atLeast(450, 30, "at least 450 ml in 30 s"))}))
	_, f := storyWith(d, "pump-volume-low")
	if f == nil {
		t.Fatal("pump-volume-low did not fire")
	}
	// 90 ml in 15 s are 180 ml in 30 s, by hand.
	if got, want := f.Facts["delivered"], "90 ml in 15 s"; got != want {
		t.Errorf("delivered %v, want %v", got, want)
	}
	if got, want := fmt.Sprint(f.Facts["scaled"], " in ", f.Facts["scaledIn"]), "180\u00a0ml in 30\u00a0s"; got != want {
		t.Errorf("in the limit's time %v, want %v", got, want)
	}
	if got, want := f.Facts["limit"], "at least 450 ml in 30 s"; got != want {
		t.Errorf("limit %v, want %v", got, want)
	}
}

func TestRegulatorHose(t *testing.T) {
	vacuum := 18 * 3.386389 // kPa; NIST SP 811, appendix B.8
	runSupply(t, []supplyCase{
		{name: "follows", test: rail(returns, diag.Circuit{Idle: psi(33), HoseOff: psi(42), ManifoldVacuum: &vacuum}), fires: "regulator-responds", not: "regulator-no-response hose-off-falls", soon: diag.NoAction},
		{name: "follows a little", test: rail(returns, diag.Circuit{Idle: psi(36), HoseOff: psi(39)}), fires: "regulator-responds/partly", soon: diag.CheckAgain},
		{name: "does not", test: rail(returns, diag.Circuit{Idle: psi(41), HoseOff: psi(41), ManifoldVacuum: &vacuum}), fires: "regulator-no-response", first: "no-vacuum-signal regulator-stuck", none: "not-referenced", next: "vacuum-at-hose"},
		{name: "does not, system not recorded", test: rail("", diag.Circuit{Idle: psi(41), HoseOff: psi(41)}), fires: "regulator-no-response", first: "not-referenced", sure: diag.Weak},
		{name: "no hose, no return", test: rail(returnless, diag.Circuit{Idle: psi(58), HoseOff: psi(58)}), not: "regulator-no-response regulator-responds hose-off-falls"},
		{name: "falls with the hose off", test: rail(returns, diag.Circuit{Idle: psi(42), HoseOff: psi(34)}), fires: "hose-off-falls", not: "regulator-no-response", first: "readings-swapped", next: "repeat-hose-test"},
		{name: "fuel in the hose, no gauge", test: sample.Of("V6", sample.Fuel(returns, diag.Circuit{FuelInHose: "yes"})), fires: "fuel-in-hose", first: "regulator-diaphragm", soon: diag.ActSoon, not: "not-held-tested"},
		{name: "fuel in the hose and not held", test: rail(returns, diag.Circuit{KeyOn: psi(40), FuelInHose: "yes", Hold: held(5, 10), Limits: limits(between("key-on", 38, 44))}), fires: "fuel-in-hose falls-off-fast", first: "regulator-diaphragm", sure: diag.Strong, never: "hose-for-fuel"},
		{name: "fuel in the hose and in the oil", test: sample.Of("V6", sample.Fuel(returns, diag.Circuit{FuelInHose: "yes"}), sample.Found("oil smells of fuel")), fires: "hose-fills-the-oil fuel-in-hose", first: "regulator-diaphragm", soon: diag.ActSoon, not: "fuel-in-oil-found"},
		{name: "a dry hose", test: rail(returns, diag.Circuit{KeyOn: psi(40), FuelInHose: "no"}), not: "fuel-in-hose hose-fills-the-oil", never: "hose-for-fuel"},
	})
}

func TestHeldPressure(t *testing.T) {
	book := limits(between("key-on", 38, 44))
	hold := diag.FuelLimit{For: "hold", Low: 30, High: math.Inf(1), Minutes: 5}
	runSupply(t, []supplyCase{
		{name: "under its limit", test: rail(returns, diag.Circuit{KeyOn: psi(41), Hold: held(1, 24, 5, 4), Limits: append(book, hold)}), fires: "falls-off-fast", not: "fuel-pressure-right falls-off-slowly",
			first: "pump-check-valve regulator-open leaking-injector", soon: diag.ActSoon, next: "pinch-feed-and-return"},
		// The hose is on again when the key goes off (common practice, no source).
		{name: "fallen from the hose-off pressure alone", test: rail(returns, diag.Circuit{KeyOn: psi(40), Idle: psi(35), HoseOff: psi(44), Hold: held(1, 39, 5, 38)}), not: "falls-off-fast falls-off-slowly"},
		{name: "fallen from the pressure with the key on", test: rail(returns, diag.Circuit{KeyOn: psi(40), Idle: psi(35), HoseOff: psi(44), Hold: held(1, 36, 5, 33)}), fires: "falls-off-fast"},
		{name: "up to what it is without the hose", test: rail(returns, diag.Circuit{Idle: psi(35), HoseOff: psi(44), Hold: held(5, 43)}), not: "falls-off-fast falls-off-slowly rises-after-key-off"},
		{name: "within its limit", test: rail(returns, diag.Circuit{KeyOn: psi(41), Hold: held(5, 34), Limits: append(book, hold)}), fires: "fuel-pressure-right", not: "falls-off-fast falls-off-slowly"},
		{name: "no return", test: rail(returnless, diag.Circuit{KeyOn: psi(58), Hold: held(5, 20), Limits: limits(between("key-on", 55, 62))}), fires: "falls-off-fast", first: "pump-check-valve leaking-injector", never: "pinch-feed-and-return restrict-return", next: "shut-off-tee"},
		// More than 5 psi in about 5 minutes is a fault: common practice, no source.
		{name: "loses 5 psi in 5 minutes", test: rail(returns, diag.Circuit{KeyOn: psi(41), Hold: held(5, 36)}), not: "falls-off-fast falls-off-slowly"},
		{name: "loses 20 psi in 5 minutes", test: rail(returns, diag.Circuit{KeyOn: psi(41), Hold: held(5, 21)}), fires: "falls-off-fast/no-limit", soon: diag.CheckAgain},
		{name: "down in 20 minutes", test: rail(returns, diag.Circuit{KeyOn: psi(41), Hold: held(20, 10)}), fires: "falls-off-slowly", not: "falls-off-fast", soon: diag.NoAction},
		{name: "primes little, runs well, lost after", test: rail(returnless, diag.Circuit{KeyOn: psi(20), Idle: psi(58), Hold: held(5, 22)}), fires: "falls-off-fast", not: "rises-after-key-off"},
		{name: "gone within a minute", test: rail(direct, diag.Circuit{Idle: psi(4), Hold: held(1, 0)}), fires: "falls-off-fast"},
		{name: "a throttle body lets go", test: rail(throttle, diag.Circuit{KeyOn: psi(11.5), Hold: held(1, 0)}), fires: "falls-off-slowly/by-design", not: "falls-off-fast not-held-tested", first: "by-design", soon: diag.NoAction},
		{name: "a carburettor lets go", test: rail(carb, diag.Circuit{Idle: psi(5), Hold: held(1, 0)}, sample.Complains("hard start")), fires: "falls-off-slowly/by-design", not: "falls-off-fast"},
		{name: "a throttle body with a limit must hold", test: rail(throttle, diag.Circuit{KeyOn: psi(13), Hold: held(5, 1), Limits: limits(diag.FuelLimit{For: "hold", Low: 8, High: math.Inf(1), Minutes: 5})}), fires: "falls-off-fast"},
		{name: "rises", test: rail(returns, diag.Circuit{KeyOn: psi(41), Hold: held(5, 46)}), fires: "rises-after-key-off", soon: diag.NoAction},
		{name: "rises over its limit", test: rail(returns, diag.Circuit{KeyOn: psi(41), Hold: held(5, 60), Limits: append(book, diag.FuelLimit{For: "hold", Low: 30, High: 45, Minutes: 5, Entered: "30-45 psi after 5 min"})}),
			fires: "rises-after-key-off/over-limit", not: "fuel-pressure-right", soon: diag.CheckAgain},
		{name: "read at idle only, against a hose", test: rail(returns, diag.Circuit{Idle: psi(31), Hold: held(5, 38)}), not: "rises-after-key-off falls-off-fast"},
		// The injectors of direct injection lie behind another pump (common practice, no source).
		{name: "the low side of direct injection", test: rail(direct, diag.Circuit{KeyOn: psi(62), Idle: psi(60), Hold: held(1, 30, 5, 5)}, sample.Complains("hard start")), fires: "falls-off-fast", first: "pump-check-valve high-pressure-pump", none: "leaking-injector", never: "injector-drip pinch-feed-and-return restrict-return", next: "oil-for-fuel"},
		{name: "the low side and one wet plug", test: rail(direct, diag.Circuit{KeyOn: psi(62), Idle: psi(60), Hold: held(1, 30, 5, 5)}, sample.Looks("normal", "fuel-wet", "normal", "normal")), fires: "falls-off-fast fuel-wet", not: "injector-agrees"},
		{name: "rich and not held", test: rail(returns, diag.Circuit{KeyOn: psi(41), Hold: held(5, 10), Limits: append(book, hold)}, sample.Complains("rich running")), fires: "falls-off-fast", first: "leaking-injector"},
	})
}

// Every reading of the job that is outside its limit has a finding about its
// circuit that asks for something, and none that says its pressure is right.
func TestEveryLimitOutsideIsSaid(t *testing.T) {
	for _, system := range []string{returns, returnless, throttle, carb, direct, lift, ""} {
		for _, reading := range []string{"key-on", "idle", "hose-off", "snap", "return-pinched", "hold", "volume"} {
			for _, low := range []bool{true, false} {
				for _, dead := range []bool{true, false} {
					k := passing(reading, low, dead)
					test := sample.Of("inline-4", sample.Fuel(system, k), sample.Fuel(system, sound("other")))
					if system == lift {
						test.Spec.Fuel = "diesel"
					}
					d := story.WithoutPlan(test)
					said := false
					for _, s := range d.Stories {
						for _, f := range s.Members {
							said = said || f.Circuit == k.Name && f.Urgency != diag.NoAction
							if f.Rule == "fuel-pressure-right" && f.Circuit == k.Name {
								t.Errorf("%q, %s outside (low %v, dead %v): fuel-pressure-right fired", system, reading, low, dead)
							}
						}
					}
					if !said {
						t.Errorf("%q, %s outside (low %v, dead %v): nothing asks for anything: %+v", system, reading, low, dead, d.Fuel.Circuits[0])
					}
				}
			}
		}
	}
}

// sound is a circuit that is as it should be.
func sound(name string) diag.Circuit {
	return diag.Circuit{Name: name, KeyOn: psi(41), Idle: psi(41), Limits: limits(between("key-on", 38, 44))}
}

// passing is a circuit of which one reading is outside its limit, beside steady
// ones that are well or, dead, at nothing.
func passing(reading string, low, dead bool) diag.Circuit {
	k := sound("this")
	if dead {
		k = diag.Circuit{Name: "this", KeyOn: psi(0.2), Limits: limits(between("key-on", 0, 50))}
	}
	v, from, to := 60.0, 0.0, 50.0
	if low {
		v, from, to = 20, 30, 0
	}
	limit := between(reading, from, to)
	k.Limits = append(limits(limit), k.Limits...)
	switch reading {
	case "key-on":
		k.KeyOn = psi(v)
	case "idle":
		k.Idle = psi(v)
	case "hose-off":
		k.HoseOff = psi(v)
	case "snap":
		k.Snap = psi(v)
	case "return-pinched":
		k.ReturnPinched = psi(v)
	case "hold":
		k.Limits[0].Minutes = 5
		k.Hold = held(5, v)
	case "volume":
		k.VolumeML, k.VolumeSeconds = v, 60
	}
	return k
}

// The unit changes no finding.
func TestFuelUnitChangesNothing(t *testing.T) {
	for _, k := range []diag.Circuit{
		{KeyOn: psi(30), Idle: psi(24), Limits: limits(between("key-on", 38, 44))},
		{KeyOn: psi(41), Hold: held(1, 24, 5, 4)},
		{Idle: psi(33), HoseOff: psi(42), Snap: psi(34)},
	} {
		a, b := story.WithoutPlan(rail(returns, k)), story.WithoutPlan(inKPa(rail(returns, k)))
		if got, want := ruleNames(b), ruleNames(a); got != want {
			t.Errorf("in kPa %s, in psi %s", got, want)
		}
	}
}

func ruleNames(d *diag.Diagnosis) string {
	var names []string
	for _, s := range d.Stories {
		for _, f := range s.Members {
			names = append(names, f.Rule)
		}
	}
	slices.Sort(names)
	return strings.Join(names, " ")
}

func inKPa(t *diag.Test) *diag.Test {
	const kPa = 6.894757 // NIST SP 811, appendix B.8
	t.Fuel.Unit = quantity.KPa
	t.Gauges.Fuel = &diag.Gauge{High: 100 * kPa, Division: kPa}
	for i := range t.Fuel.Circuits {
		k := &t.Fuel.Circuits[i]
		for _, r := range []**diag.Reading{&k.KeyOn, &k.Idle, &k.HoseOff, &k.Snap} {
			if *r != nil {
				v := sample.Read((*r).Values[0] * kPa)
				*r = &v
			}
		}
		k.Hold = slices.Clone(k.Hold)
		for j := range k.Hold {
			k.Hold[j].Reading = sample.Read(k.Hold[j].Values[0] * kPa)
		}
		k.Limits = slices.Clone(k.Limits)
		for j := range k.Limits {
			k.Limits[j].Low, k.Limits[j].High = k.Limits[j].Low*kPa, k.Limits[j].High*kPa
		}
	}
	return t
}

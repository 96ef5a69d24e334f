package loop_test

// fuelState is the fuel supply: pressures in psi as they would be read.
type fuelState struct {
	usual                 float64 // by the book, key on (or at idle where the pump is the engine's)
	keyOn, idle, hoseOff  float64
	snap, pinched         float64
	held1, held5, held10  float64 // share of the pressure that is held
	volume                float64 // ml in 30 s
	fuelInHose, reference bool    // the regulator has a hose to the manifold
	mechanical            bool
}

// usualFuel are ordinary pressures by system in psi (common practice, no
// source).
var usualFuel = map[string]float64{carburettor: 5.5, throttleBody: 13, portReturn: 40, portNoReturn: 55, directLow: 65, dieselLift: 8}

func newFuel(m *machine) fuelState {
	u := usualFuel[m.system]
	f := fuelState{usual: u, keyOn: u, idle: u, hoseOff: u, snap: u, pinched: 2 * u, volume: 620}
	f.holds()
	if m.system == portReturn {
		f.reference = true
		f.idle, f.snap = u-9.4, u-1 // the 19.2 inHg that the manifold draws
	}
	f.mechanical = m.system == carburettor
	if f.mechanical {
		f.volume = 350
	}
	return f
}

// holds is a rail that closes: it loses 1 psi in the first minute and 3 to 5 in
// ten (2 psi in 3 minutes is one maker's limit).
func (f *fuelState) holds() {
	at := max(f.keyOn, f.hoseOff, 8)
	f.held1, f.held5, f.held10 = 1-1/at, 1-3/at, 1-5/at
}

// stands sets every steady pressure to a height that the regulator does not
// bring down.
func (f *fuelState) stands(at float64) {
	f.keyOn, f.idle, f.hoseOff, f.snap = at, at, at, at
	f.holds()
}

// times scales what the pump brings.
func (f *fuelState) times(share, snap float64) {
	f.keyOn, f.idle, f.hoseOff = f.keyOn*share, f.idle*share, f.hoseOff*share
	f.snap *= share * snap
	f.pinched = f.keyOn * 1.05
}

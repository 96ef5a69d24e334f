package check

import (
	"time"

	"gaugesheet/diag"
)

// A readingsResult is the sections that a job file has beside the further tests.
type readingsResult struct {
	Compression  any `json:"compression"`
	Leakage      any `json:"leakage"`
	Plugs        any `json:"plugs"`
	Rotors       any `json:"rotors"`
	FuelPressure any `json:"fuel_pressure"`
}

// readingsOf are the sections of a test; basis is what the expected band of its
// compression was worked out from.
func readingsOf(t *diag.Test, d *diag.Diagnosis, basis string) readingsResult {
	return readingsResult{
		Compression:  stated(t, d, "compression", compressionOf(d.Compression, basis)),
		Leakage:      stated(t, d, "leakage", leakageOf(d.Leakage)),
		Plugs:        stated(t, d, "plugs", plugsOf(d.Plugs)),
		Rotors:       stated(t, d, "rotors", rotorsOf(d.Rotors)),
		FuelPressure: stated(t, d, "fuel pressure", fuelOf(d.Fuel)),
	}
}

// A beforeResult is what was read before the work that a job proves, in sections
// of the same form.
type beforeResult struct {
	section
	Done string `json:"done"` // the work, as entered
	Date string `json:"date"` // ISO 8601; "" where not recorded
	readingsResult
	Measured measuredResults `json:"-"` // the further tests, as members of their own
}

// MarshalJSON puts the further tests among the other members.
func (b beforeResult) MarshalJSON() ([]byte, error) {
	type plain beforeResult
	return withMembers(plain(b), b.Measured)
}

func beforeOf(b *diag.Before, s *spoken) any {
	if s.before == nil {
		return absent
	}
	r := beforeResult{
		section: section{State: string(diag.Tested)}, Done: b.Done,
		readingsResult: readingsOf(b.Test, s.before, s.expectedBefore), Measured: measuredOf(s.before),
	}
	if !b.Date.IsZero() {
		r.Date = b.Date.Format(time.DateOnly)
	}
	return r
}
